// SPDX-License-Identifier: GPL-3.0-or-later
// Speed of a current against height: power profile of the tidal part, wind-driven part.
//
// GIVEN     h          height above the bed                       m
//           d          depth of water                             m
//           exponent   of the power profile, usually 1/7          -
//           z          height above the surface (negative below)  m
//           reference_depth  of the wind-driven part, 50 m by the source
// RETURNED  factor on the surface speed (-), its derivative over h (1/m), ratio of means (-).
// NOTES     1. Undisturbed flow. Inside or behind a farm the profile is another.
//           2. Above the surface the factor is 1. Below 0.01 d the value at 0.01 d is held, so that
//              the derivative stays finite; the held profile carries 0.07 % more in the depth mean
//              (exponent 1/7) than the ratio 1/(1 + exponent) that is returned for it, and turning
//              a mean into a surface speed by that ratio is on the high side by as much.
//           3. The wind-driven part falls linearly to zero at the reference depth; in water
//              shallower than that it does not vanish at the bed.
// SOURCE    DNV-RP-C205 (2017) 4.1.4.1-4.1.4.4, seen in a transcription, not in the original.
//           [memory]
#include "phys/phys.h"

#include <math.h>
#include <stddef.h>

double bys_current_power(double h, double d, double exponent, double *d_dh)
{
    static const double lowest = 0.01;
    if (d_dh)
        *d_dh = 0.0;
    if (!(h < d) || !(d > 0.0))
        return 1.0;
    const double x = h / d;
    if (!(x > lowest))
        return pow(lowest, exponent);
    const double factor = pow(x, exponent);
    if (d_dh)
        *d_dh = exponent * factor / h;
    return factor;
}

double bys_current_power_mean(double exponent)
{
    return 1.0 / (1.0 + exponent);
}

double bys_current_wind_driven(double z, double reference_depth)
{
    if (z >= 0.0)
        return 1.0;
    if (z <= -reference_depth)
        return 0.0;
    return 1.0 + z / reference_depth;
}
