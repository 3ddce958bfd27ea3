// SPDX-License-Identifier: GPL-3.0-or-later
// Current by depth: logarithmic over a rough bed, Soulsby, a table, tide and wind as vectors, the
// two layers of a farm.
//
// GIVEN     h, d            height above the bed, depth                                m
//           z0              roughness length of the bed                                m
//           depth, speed, n points of rising depth below the surface (m), speed (m/s)
//           below           depth below the surface                                    m
//           z               height above the surface, negative below                   m
//           u10_3600s, k    1-h wind at 10 m (m/s), 0.015 to 0.03
//           tide, wind      surface values, east and north                             m/s
// RETURNED  factor on the depth mean (-) with its derivative (1/m), speed (m/s), mean (m/s).
// NOTES     1. Steady flow over a level bed without waves; waves raise the roughness that the current
//              feels. Log law: mean exact over z0 to d; zero below z0; the surface value above it.
//           2. Soulsby: (h/0.32 d)^(1/7) up to half the depth, 1.07 above; its mean is 1.0013 and
//              it steps by 0.4 % at half depth, as published. Below 0.01 d held.
//           3. Table: straight between points, held above the first and below the last; the user's
//              points are taken as they are, equal depths step.
//           4. A factor on the surface value is the factor on the mean over that at h = d.
//           5. The wind part has its full effect at the surface only; the reference depth is 50 m by
//              the source. Ekman turning is left out.
// SOURCE    log law, Soulsby 1997 eq. 28, roughness by bed [memory]; tide plus wind: DNV-RP-C205
//           (2017) 4.1.4, seen in a transcription [memory]; table [derived].
#include "phys/sea_loads.h"
#include "phys/phys.h"

#include <math.h>

double bys_bed_roughness(bys_rough_bed bed)
{
    static const double z0[BYS_ROUGH_COUNT] = {0.2e-3, 0.05e-3, 0.4e-3, 6e-3, 3e-3};
    return bed < BYS_ROUGH_COUNT ? z0[bed] : NAN;
}

// U = (u*/0.4) ln(h/z0), mean (u*/0.4)(ln(d/z0) - 1 + z0/d).
double bys_current_log(double h, double d, double z0, double *d_dh)
{
    if (d_dh)
        *d_dh = 0.0;
    const double mean = log(d / z0) - 1.0 + z0 / d;
    if (!(h > z0))
        return 0.0;
    if (d_dh && h < d)
        *d_dh = 1.0 / (h * mean);
    return log(fmin(h, d) / z0) / mean;
}

double bys_current_soulsby(double h, double d, double *d_dh)
{
    if (d_dh)
        *d_dh = 0.0;
    if (h >= 0.5 * d)
        return 1.07;
    const double low = 0.01 * d, x = fmax(h, low), factor = pow(x / (0.32 * d), 1.0 / 7.0);
    if (d_dh && h > low)
        *d_dh = factor / (7.0 * x);
    return factor;
}

double bys_current_table(const double *depth, const double *speed, size_t n, double below,
                         double *d_dbelow)
{
    if (d_dbelow)
        *d_dbelow = 0.0;
    if (n == 0)
        return 0.0;
    if (below <= depth[0])
        return speed[0];
    if (below >= depth[n - 1])
        return speed[n - 1];
    size_t i = 1;
    while (below >= depth[i])
        i++;
    const double slope = (speed[i] - speed[i - 1]) / (depth[i] - depth[i - 1]);
    if (d_dbelow)
        *d_dbelow = slope;
    return speed[i - 1] + slope * (below - depth[i - 1]);
}

double bys_current_table_mean(const double *depth, const double *speed, size_t n, double d)
{
    if (n == 0 || !(d > 0.0))
        return 0.0;
    double at = 0.0, u = bys_current_table(depth, speed, n, 0.0, NULL), sum = 0.0;
    for (size_t i = 0; i < n && at < d; i++) {
        const double next = fmin(depth[i], d);
        if (next <= at) {
            u = depth[i] <= at ? speed[i] : u;
            continue;
        }
        const bool cut = next < depth[i];
        const double v = cut ? bys_current_table(depth, speed, n, next, NULL) : speed[i];
        sum += 0.5 * (u + v) * (next - at);
        at = next;
        u = v;
    }
    return (sum + (at < d ? speed[n - 1] * (d - at) : 0.0)) / d;
}

double bys_current_wind_surface(double u10_3600s, double k)
{
    return k * u10_3600s;
}

void bys_current_sum(double sum[2], const double tide[2], const double wind[2], double z, double d,
                     double exponent, double reference_depth)
{
    const double a = bys_current_power(d + z, d, exponent, NULL);
    const double b = bys_current_wind_driven(z, reference_depth);
    for (int i = 0; i < 2; i++)
        sum[i] = a * tide[i] + b * wind[i];
}

double bys_current_farm(bys_canopy farm, double canopy_depth, double below)
{
    return below <= canopy_depth ? farm.canopy : farm.below;
}
