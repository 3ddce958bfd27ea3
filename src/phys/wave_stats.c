// SPDX-License-Identifier: GPL-3.0-or-later
// Largest heights, periods, steepness, spreading and the drift of the water under waves.
//
// GIVEN     gamma          JONSWAP peak enhancement, 1 to 7                 -
//           n              number of waves, over 1; power of the spreading  -
//           tz, steepness  mean zero-crossing period, height over length    s, -
//           a, omega       amplitude and frequency of a regular wave        m, rad/s
//           h, depth       height above the bed, depth                      m
// RETURNED  ratios (-), heights over hs (-) or in m, speed (m/s).
// NOTES     1. Rayleigh holds for a narrow band and is on the high side of a wind sea; Forristall is
//              fitted to storm records and 9 % lower at 1000 waves. No depth limit in either.
//           2. Stokes drift: second order, level bed, no return flow. In a wind sea it is part of the
//              3 % rule of the wind-driven surface speed: do not add both.
// SOURCE    T1/Tp: DNV-RP-C205 3.5.5, seen in a transcription [memory]; Forristall 1978 [memory];
//           Rayleigh, cos^n mean, Stokes drift [derived]; solitary 0.78 d [memory].
#include "phys/sea_loads.h"
#include "phys/phys.h"

#include <math.h>

double bys_jonswap_t1_over_tp(double gamma)
{
    return 0.7303 + gamma * (0.04936 + gamma * (-0.006556 + gamma * 0.000361));
}

double bys_wave_max_rayleigh(double n)
{
    return sqrt(0.5 * log(n));
}

// Mean of the largest: Euler's constant 0.5772 adds to ln n in the mean of the square's logarithm.
double bys_wave_max_rayleigh_mean(double n)
{
    const double mode = bys_wave_max_rayleigh(n);
    return mode * (1.0 + 0.57721566490153286 / (2.0 * log(n)));
}

double bys_wave_max_forristall(double n)
{
    return 0.681 * pow(log(n), 1.0 / 2.126);
}

double bys_wave_steepness_height(double tz, double steepness)
{
    return steepness * BYS_G * tz * tz / (2.0 * BYS_PI);
}

double bys_wave_spreading_cos2(double n)
{
    return (n + 1.0) / (n + 2.0);
}

double bys_wave_height_solitary(double depth)
{
    return 0.78 * depth;
}

// w k a^2 cosh(2kh)/(2 sinh^2(kd)), growth taken out as exp(2k(h - d)).
double bys_stokes_drift(double a, double omega, double h, double depth)
{
    const double k = bys_wave_number(omega, depth), z = fmin(fmax(h, 0.0), depth);
    if (!(k > 0.0))
        return 0.0;
    const double sinh2 = -expm1(-2.0 * k * depth);
    return omega * k * a * a * exp(2.0 * k * (z - depth)) * (1.0 + exp(-4.0 * k * z)) /
           (sinh2 * sinh2);
}
