// SPDX-License-Identifier: GPL-3.0-or-later
// Quadratic drag averaged over waves, the splash zone, short cylinders, marine growth.
//
// GIVEN     U         current normal to the member                         m/s
//           s         standard deviation of the orbital velocity           m/s
//           um        amplitude of a sinusoidal orbital velocity           m/s
//           rho, cd   water density, drag coefficient                      kg/m3, -
//           diameter  of the member                                        m
//           omega, amplitude   of a regular wave                           rad/s, m
//           hs, tz    significant height, mean zero-crossing period        m, s
//           thickness, rho_growth, rho_water   of marine growth            m, kg/m3
// RETURNED  mean of (U+u)|U+u| (m2/s2), of which the mean force per metre is 0.5 rho cd D times;
//           mean splash-zone force (N); end-flow factor (-); growth mass (kg/m), its weight in
//           water (N/m), factor on a drag coefficient referred to the clean diameter (-).
// NOTES     1. U and u act along one line; a current across the waves is not covered.
//           2. The member stands still. A member that sways with the water feels less.
//           3. The averages are exact (Gaussian u; sinusoidal u). Gaussian u leaves out the
//              skewness of steep waves.
//           4. The splash force is the mean over the wetted part above and the dry part below the
//              mean level, linear velocity held at its surface value, no current; random: narrow
//              band.
//           5. The end factor is for the subcritical range; below L/D = 2 its value there is held,
//              beyond 100 it tends to 1 as 1/(L/D).
// SOURCE    mean over Gaussian u: derived here; Borgman 1967 is its limit for small U. [derived]
//           end factor: DNV-RP-C205 Table 6-2. [memory]   growth: DNV-OS-E301 Ch 2 Sec 1. [memory]
//           splash zone: derived here, the form is known from Dev 1996. [derived]
#include "phys/phys.h"

#include <math.h>
#include <stddef.h>

static const double sqrt_half = 0.70710678118654752440;
static const double sqrt_two_over_pi = 0.79788456080286535588;

// With x = U/s, E = erf(x/sqrt 2) and P = sqrt(2/pi) exp(-x^2/2):
//   F = (U^2 + s^2) E + U s P,  dF/dU = 2 <|U+u|> = 2 (U E + s P).
// F obeys the heat equation in the variance, F_v = F_UU / 2 = E, hence dF/ds = 2 s E.
double bys_morison_mean(double U, double s, double *d_dU, double *d_ds)
{
    const double sigma = fabs(s);
    double E, P;
    if (fabs(U) >= 9.0 * sigma) { // 1 - E < 1e-18, P < 1e-17: both exact in double precision
        E = (U > 0.0) - (U < 0.0);
        P = 0.0;
    } else {
        const double x = U / sigma;
        E = erf(x * sqrt_half);
        P = sqrt_two_over_pi * exp(-0.5 * x * x);
    }
    if (d_dU)
        *d_dU = 2.0 * (U * E + sigma * P);
    if (d_ds)
        *d_ds = 2.0 * s * E;
    return (U * U + sigma * sigma) * E + U * sigma * P;
}

double bys_morison_mean_regular(double U, double um)
{
    const double a = fabs(um), square = U * U + 0.5 * a * a;
    if (fabs(U) >= a)
        return U < 0.0 ? -square : (U > 0.0 ? square : 0.0);
    return (2.0 / BYS_PI) * (square * asin(U / a) + 1.5 * U * sqrt((a - U) * (a + U)));
}

// Between the mean level and the surface eta stands eta u|u| per unit of 0.5 rho cd D: above the
// level it adds a forward force, below it takes a backward one away. With u = omega eta this is
// omega^2 |eta|^3 in both; its mean over eta = a cos has <|cos|^3> = 4/(3 pi).
double bys_splash_regular(double rho, double cd, double diameter, double omega, double amplitude)
{
    const double a3 = amplitude * amplitude * amplitude;
    return 0.5 * rho * cd * diameter * (4.0 / (3.0 * BYS_PI)) * omega * omega * a3;
}

// Gaussian eta of standard deviation sd = hs/4 and u = omega eta: <|eta|^3> = 2 sqrt(2/pi) sd^3.
double bys_splash_random(double rho, double cd, double diameter, double hs, double tz)
{
    const double sd = 0.25 * hs, omega = 2.0 * BYS_PI / tz;
    return 0.5 * rho * cd * diameter * omega * omega * 2.0 * sqrt_two_over_pi * sd * sd * sd;
}

double bys_cylinder_end_factor(double length_over_diameter)
{
    static const struct { double ratio, kappa; } table[] = {
        {2.0, 0.58},  {5.0, 0.62},  {10.0, 0.68}, {20.0, 0.74},
        {40.0, 0.82}, {50.0, 0.87}, {100.0, 0.98},
    };
    const size_t n = sizeof table / sizeof table[0];
    const double r = length_over_diameter;
    if (!(r > table[0].ratio))
        return table[0].kappa;
    if (r >= table[n - 1].ratio)
        return 1.0 - (1.0 - table[n - 1].kappa) * table[n - 1].ratio / r;
    size_t i = 1;
    while (r > table[i].ratio)
        i++;
    // Straight between the table's rows on log(L/D).
    const double t = log(r / table[i - 1].ratio) / log(table[i].ratio / table[i - 1].ratio);
    return table[i - 1].kappa + t * (table[i].kappa - table[i - 1].kappa);
}

// M = pi/4 [(D + 2t)^2 - D^2] rho mu = pi t (D + t) rho mu;  W = M g (1 - rho_w/rho);
// drag factor (D + 2t)/D.
bys_growth bys_growth_on_line(double diameter, double thickness, double rho_growth,
                              double rho_water, bool chain)
{
    const double mu = chain ? 2.0 : 1.0;
    bys_growth growth;
    growth.mass = BYS_PI * thickness * (diameter + thickness) * rho_growth * mu;
    growth.weight = bys_submerged_weight(growth.mass, rho_growth, rho_water);
    growth.drag_factor = (diameter + 2.0 * thickness) / diameter;
    return growth;
}
