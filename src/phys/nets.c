// SPDX-License-Identifier: GPL-3.0-or-later
// Drag and lift of a net panel by four published laws.
//
// GIVEN     solidity    projected twine area over panel area                     -
//           theta       angle between the flow and the panel's normal            rad
//           d, l        twine diameter, bar length (half mesh)                   m
//           u, nu       speed before the net, kinematic viscosity                m/s, m2/s
//           cd          drag coefficient of the net                              -
// RETURNED  cd along the flow, cl across it away from the panel's upstream edge, both on the
//           panel's area (0.5 rho c U^2 A); wake speed ratio (-).
// NOTES     1. Ranges: Aarsnes 0.13 to 0.32 (it explodes beyond 0.4); Loland fits dense nets and
//              tends to 1.99 at solidity 1; Kristiansen twine Reynolds number 32 to 1e4, solidity up
//              to 0.6 by our choice (it diverges at 1); Milne solidity up to 0.4 by our choice.
//              Outside, the law is still evaluated and in_range is false.
//           2. At 0.5 m/s with 2 mm twine the laws differ by 28 % at solidity 0.1 and by a factor of
//              two at 0.5. bys_net_design takes the larger of Loland and Kristiansen.
//           3. Fouling: soft growth adds less drag than clean twine of the same solidity; hard
//              growth adds up to 54 % more than soft [read]. Use the solidity with the growth in.
//           4. A panel seen by flow within theta = 90 deg; the angle is folded into 0 to 90 deg.
// SOURCE    Aarsnes, Rudi and Loland 1990; Loland 1991; Milne 1970; Kristiansen and Faltinsen 2012.
//           [memory] The twine polynomial gives the known curve of a smooth cylinder. [derived]
#include "phys/sea_loads.h"
#include "phys/phys.h"

#include <math.h>

static double fold(double theta)
{
    return acos(fmin(fabs(cos(theta)), 1.0));
}

bys_net_coeff bys_net_aarsnes(double solidity, double theta)
{
    const double S = solidity, t = fold(theta);
    return (bys_net_coeff){
        .cd = 0.04 + (-0.04 + S * (1.0 + S * (-1.24 + S * 13.7))) * cos(t),
        .cl = S * (0.57 + S * (-3.54 + S * 10.1)) * sin(2.0 * t),
        .in_range = S >= 0.13 && S <= 0.32,
    };
}

bys_net_coeff bys_net_loland(double solidity, double theta)
{
    const double S = solidity, t = fold(theta);
    return (bys_net_coeff){
        .cd = 0.04 + (-0.04 + S * (0.33 + S * (6.54 - S * 4.88))) * cos(t),
        .cl = S * (-0.05 + S * (2.3 - S * 1.76)) * sin(2.0 * t),
        .in_range = S > 0.0 && S <= 1.0,
    };
}

bys_net_coeff bys_net_milne(double d, double l, bool knotted)
{
    const double r = d / l, S = 2.0 * r;
    const double twine = knotted ? 1.0 + r * (3.77 + r * 9.37) : 1.0 + r * (2.73 + r * 3.12);
    return (bys_net_coeff){.cd = twine * S, .cl = 0.0, .in_range = S > 0.0 && S <= 0.4};
}

double bys_net_twine_cd(double re)
{
    static const double c[8] = {-78.46675, 254.73873, -327.8864, 223.64577,
                                -87.92234, 20.00769,  -2.44894,  0.12479};
    const double x = log10(fmin(fmax(re, 31.6227766), 1e4));
    double sum = 0.0;
    for (int i = 7; i >= 0; i--)
        sum = sum * x + c[i];
    return sum;
}

// Square to the flow cd0 = C S(2 - S)/(2(1 - S)^2); at 45 deg cn = C S/(2(1 - S)^2),
// ct = pi cn/(8 + cn), cl = (cn - ct)/sqrt 2; C at the speed U/(1 - S) between the twines.
bys_net_coeff bys_net_kristiansen(double solidity, double u, double d, double nu, double theta)
{
    const double S = fmin(solidity, 0.99), t = fold(theta);
    const double re = fabs(u) * d / (nu * (1.0 - S)), C = bys_net_twine_cd(re);
    const double open = 2.0 * (1.0 - S) * (1.0 - S), cn = C * S / open;
    const double cd0 = cn * (2.0 - S), ct = BYS_PI * cn / (8.0 + cn), cl45 = (cn - ct) / sqrt(2.0);
    return (bys_net_coeff){
        .cd = cd0 * (0.9 * cos(t) + 0.1 * cos(3.0 * t)),
        .cl = cl45 * (sin(2.0 * t) + 0.1 * sin(4.0 * t)),
        .in_range = solidity > 0.0 && solidity <= 0.6 && re > 31.6 && re <= 1e4,
    };
}

bys_net_coeff bys_net_design(double solidity, double u, double d, double nu, double theta)
{
    const bys_net_coeff a = bys_net_loland(solidity, theta);
    const bys_net_coeff b = bys_net_kristiansen(solidity, u, d, nu, theta);
    if (a.in_range != b.in_range)
        return a.in_range ? a : b;
    return a.cd >= b.cd ? a : b;
}

double bys_net_wake(double cd)
{
    return fmax(1.0 - 0.46 * cd, 0.0);
}
