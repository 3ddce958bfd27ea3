// SPDX-License-Identifier: GPL-3.0-or-later
// Wind speed against height and averaging time, and the force of wind on an area.
//
// GIVEN     u10_600s, u10_3600s   10-min and 1-h mean at 10 m                m/s
//           z                     height above the mean water level          m
//           averaging, duration   time over which the speed is a mean        s
//           rho_air, cs, area     density, shape coefficient, area           kg/m3, -, m2
// RETURNED  speed (m/s), ratio of speeds (-), force (N, with the sign of the speed).
// NOTES     1. Open sea. Hills, shore and gusts off a headland are left out.
//           2. Below 1 m the speed at 1 m is used: lower down the wind is inside the wave crests
//              (judgement, no source).
//           3. Averaging times under 1 s count as 1 s. The ISO form is a gust factor on the 1-h
//              mean and holds up to 3600 s; a longer time counts as 3600 s.
//           4. From one 10-min mean of 33 m/s at 10 m the two laws give 1-min means 0.9 % apart.
// SOURCE    bys_wind_dnv: DNV-RP-C205 2.3.2.11. [memory]
//           bys_wind_npd: ISO 19901-1:2005 / NPD spectrum, as reprinted. [read]
//           bys_wind_cem_ratio: Coastal Engineering Manual II-2, Fig. II-2-1; the branch from 3600
//           s and the example of a 5-min wind [read], the branch below 3600 s [memory].
#include "phys/phys.h"

#include <math.h>

static const double lowest_height = 1.0; // m
static const double shortest_mean = 1.0; // s

double bys_wind_dnv(double u10_600s, double z, double averaging)
{
    const double height = fmax(z, lowest_height), time = fmax(averaging, shortest_mean);
    return u10_600s * (1.0 + 0.137 * log(height / 10.0) - 0.047 * log(time / 600.0));
}

// U(z) = U0 (1 + C ln(z/10)), C = 0.0573 sqrt(1 + 0.15 U0);
// u(z,t) = U(z) (1 - 0.41 I ln(t/3600)), I = 0.06 (1 + 0.043 U0) (z/10)^-0.22.
double bys_wind_npd(double u10_3600s, double z, double averaging)
{
    const double height = fmax(z, lowest_height);
    const double time = fmin(fmax(averaging, shortest_mean), 3600.0);
    const double shear = 0.0573 * sqrt(1.0 + 0.15 * u10_3600s);
    const double hourly = u10_3600s * (1.0 + shear * log(height / 10.0));
    const double intensity = 0.06 * (1.0 + 0.043 * u10_3600s) * pow(height / 10.0, -0.22);
    return hourly * (1.0 - 0.41 * intensity * log(time / 3600.0));
}

double bys_wind_cem_ratio(double duration)
{
    const double time = fmax(duration, shortest_mean);
    if (time < 3600.0)
        return 1.277 + 0.296 * tanh(0.9 * log10(45.0 / time));
    return 1.5334 - 0.15 * log10(time);
}

double bys_wind_force(double rho_air, double cs, double area, double speed)
{
    return 0.5 * rho_air * cs * area * speed * fabs(speed);
}
