// SPDX-License-Identifier: GPL-3.0-or-later
// One environment as the solver sees it: current, waves, wind and bed at a point.
//
// GIVEN     sea      the environment: level, depth, current, wind, waves, bed plane   see sea.h
//           z        height above chart datum                                        m
//           x, y     place in plan, east and north                                   m
// RETURNED  speed of the current along its direction, standard deviation of the horizontal orbital
//           velocity, wind speed (m/s), their derivatives over z (1/s), height of the bed (m).
// NOTES     1. The profiles stand on a reference bed `depth` below the still-water surface, the
//              same everywhere: on a sloping bed the local depth is not followed.
//           2. Orbital velocity is a table from reference bed to surface, read by cubic Hermite
//              pieces with slopes from central differences: continuous with its derivative.
//              Outside the table the end value holds; to join it smoothly the slope is zero at
//              both ends. At the bed that is exact (cosh), at the surface it rounds off the last
//              of 128 intervals.
//           3. Without a surface (level not finite) there are no waves, and a current has no
//              profile: it is uniform.
//           4. Wind: the speed is the mean over the averaging time wanted, at 10 m; only the
//              height law is applied here, that of DNV-RP-C205 or of ISO 19901-1.
// SOURCE    profiles: see src/phys/current.c, wind.c, waves.c, drift.c. Interpolation: derived.
#include "sea/hulls.h"
#include "sea/weather.h"
#include "phys/phys.h"

#include <math.h>
#include <string.h>

bys_sea bys_sea_still(double rho)
{
    bys_sea sea = {.rho = rho, .rho_air = 1.226, .gravity = BYS_G, .level = INFINITY};
    sea.current[1] = sea.wind[1] = sea.waves[1] = 1.0;
    sea.gamma = NAN;
    sea.bed_normal[2] = 1.0;
    return sea;
}

static bool has_waves(const bys_sea *sea)
{
    return sea->hs > 0.0 && sea->tp > 0.0 && isfinite(sea->level) && sea->depth > 0.0 &&
           isfinite(sea->depth);
}

void bys_sea_prepare(bys_sea *sea)
{
    for (int i = 0; i < BYS_SIGMA_POINTS; i++)
        sea->sigma[i] = 0.0;
    sea->reflection = sea->splash = 0.0;
    if (!has_waves(sea))
        return;
    if (!(sea->gamma >= 1.0))
        sea->gamma = bys_jonswap_gamma(sea->hs, sea->tp);
    bys_wave_sigma_table(sea->sigma, BYS_SIGMA_POINTS, sea->depth, sea->hs, sea->tp, sea->gamma);
    sea->reflection =
        bys_drift_reflection_jonswap(sea->rho, sea->hs, sea->tp, sea->gamma, sea->depth);
    sea->splash = bys_splash_random(sea->rho, 1.0, 1.0, sea->hs,
                                    sea->tp * bys_jonswap_tz_over_tp(sea->gamma));
    bys_sea_spread(sea);
}

// Slope of the table at knot i, per interval.
static double knot_slope(const double *table, int i)
{
    if (i == 0 || i == BYS_SIGMA_POINTS - 1)
        return 0.0;
    return 0.5 * (table[i + 1] - table[i - 1]);
}

double bys_sea_sigma(const bys_sea *sea, double z, double *d_dz)
{
    const int last = BYS_SIGMA_POINTS - 1;
    if (d_dz)
        *d_dz = 0.0;
    if (!has_waves(sea))
        return 0.0;
    const double per_metre = last / sea->depth;
    const double t = (z - (sea->level - sea->depth)) * per_metre;
    if (!(t < last))
        return sea->sigma[last];
    if (t <= 0.0)
        return sea->sigma[0];
    const int i = (int)t;
    const double u = t - i, v = 1.0 - u;
    const double p0 = sea->sigma[i], p1 = sea->sigma[i + 1];
    const double m0 = knot_slope(sea->sigma, i), m1 = knot_slope(sea->sigma, i + 1);
    if (d_dz)
        *d_dz = per_metre *
                (6.0 * u * v * (p1 - p0) + v * (1.0 - 3.0 * u) * m0 + u * (3.0 * u - 2.0) * m1);
    return (1.0 + 2.0 * u) * v * v * p0 + u * v * v * m0 + u * u * (3.0 - 2.0 * u) * p1 -
           u * u * v * m1;
}

double bys_sea_wind_at(const bys_sea *sea, double z)
{
    if (sea->wind_speed == 0.0)
        return 0.0;
    const double height = isfinite(sea->level) ? z - sea->level : z;
    if (sea->wind_hourly > 0.0)
        return sea->wind_speed * bys_wind_npd(sea->wind_hourly, height, sea->wind_averaging) /
               bys_wind_npd(sea->wind_hourly, 10.0, sea->wind_averaging);
    return bys_wind_dnv(sea->wind_speed, height, 600.0);
}

double bys_sea_bed_z(const bys_sea *sea, double x, double y)
{
    if (!sea->has_bed)
        return -INFINITY;
    if (sea->map)
        return bys_bed_map_at(sea->map, x, y, NULL, NULL);
    const double *n = sea->bed_normal, *p = sea->bed_point;
    return p[2] - (n[0] * (x - p[0]) + n[1] * (y - p[1])) / n[2];
}

bys_sea bys_sea_scaled(const bys_sea *sea, double factor)
{
    const double share = sqrt(factor);
    bys_sea scaled = *sea;
    scaled.current_speed *= share;
    scaled.wind_speed *= share;
    scaled.hs *= share;
    scaled.train_share *= share;
    scaled.reflection *= factor;
    scaled.splash *= factor;
    for (int i = 0; i < BYS_SIGMA_POINTS; i++)
        scaled.sigma[i] *= share;
    return scaled;
}

bool bys_sea_slack(const bys_sea *sea)
{
    return sea->current_speed == 0.0 && sea->wind_speed == 0.0 && sea->hs == 0.0 && !sea->train;
}

// Same water, bed and weather; a direction counts only where something flows.
static bool same_flow(const double a[2], double speed_a, const double b[2], double speed_b)
{
    return speed_a == speed_b &&
           (speed_a == 0.0 || (fabs(a[0] - b[0]) < 1e-12 && fabs(a[1] - b[1]) < 1e-12));
}

static bool same_profile(const bys_sea_profile *a, const bys_sea_profile *b)
{
    if (!a || !b)
        return a == b;
    return a->count == b->count && memcmp(a->z, b->z, (size_t)a->count * sizeof *a->z) == 0 &&
           memcmp(a->piece, b->piece, (size_t)(a->count - 1) * sizeof *a->piece) == 0;
}

bool bys_sea_same(const bys_sea *a, const bys_sea *b)
{
    return a->level == b->level && same_profile(a->profile, b->profile) &&
           a->wind_hourly == b->wind_hourly &&
           a->spreading == b->spreading &&
           same_flow(a->current, a->current_speed, b->current, b->current_speed) &&
           a->current_exponent == b->current_exponent &&
           same_flow(a->wind, a->wind_speed, b->wind, b->wind_speed) &&
           same_flow(a->waves, a->hs, b->waves, b->hs) && (a->hs == 0.0 || a->tp == b->tp) &&
           a->reflection == b->reflection;
}
