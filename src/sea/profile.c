// SPDX-License-Identifier: GPL-3.0-or-later
// A current of several parts, as cubic pieces over the height.
//
// GIVEN     parts   profile of the tidal part with its surface vector, wind-driven surface vector
//           h, d    height above the bed, depth of water                                     m
// RETURNED  velocity, east and north (m/s), and its change over h (1/s).
// NOTES     1. Parts add as vectors. The tidal part keeps one direction at all heights.
//           2. Power and log: below 1 % of the depth the value there holds, above the surface that at
//              the surface. Log law: factor on the surface value, phys/current_profiles.c note 4.
//           3. Table: straight lines between the points, held beyond them.
//           4. Knots lie evenly in ln h from 1 % of the depth to the surface, and at each corner (point
//              of a table, end of the wind-driven part). Pieces take value and slope of the relation at
//              both ends: within 1e-6 of the largest speed; corners stay corners.
//           5. The wind-driven part does not vanish at the bed of water shallower than its depth.
// SOURCE    see src/phys/current.c, current_profiles.c. Interpolation: derived.
#include "phys/phys.h"
#include "phys/sea_loads.h"
#include "sea/sea.h"

#include <math.h>
#include <stdlib.h>

enum { EVEN = 72 };                // intervals in ln h
static const double LOWEST = 0.01; // share of the depth

static double tide_factor(const bys_current_parts *p, double h, double d, double *slope)
{
    *slope = 0.0;
    if (p->kind == BYS_PROFILE_POWER)
        return bys_current_power(h, d, p->exponent, slope);
    if (p->kind == BYS_PROFILE_LOG) {
        const double low = fmax(LOWEST * d, 2.0 * p->roughness);
        const double top = bys_current_log(d, d, p->roughness, NULL);
        const double f = bys_current_log(fmin(fmax(h, low), d), d, p->roughness, slope);
        *slope = h > low && h < d ? *slope / top : 0.0;
        return f / top;
    }
    double down;
    const double at = bys_current_table(p->depths, p->speeds, (size_t)p->points, d - h, &down);
    const double top = p->speeds[0];
    *slope = h < d ? -down / top : 0.0;
    return at / top;
}

void bys_current_parts_at(double v[2], double dv[2], const bys_current_parts *parts, double h,
                          double d)
{
    double slope;
    const double f = tide_factor(parts, h, d, &slope);
    const bool windy = parts->wind_depth > 0.0;
    const double w = windy ? bys_current_wind_driven(h - d, parts->wind_depth) : 0.0;
    const bool falls = windy && h < d && h > d - parts->wind_depth;
    for (int i = 0; i < 2; i++) {
        v[i] = f * parts->tide[i] + w * parts->wind[i];
        if (dv)
            dv[i] = slope * parts->tide[i] + (falls ? parts->wind[i] / parts->wind_depth : 0.0);
    }
}

static int by_height(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/// Heights of all knots, rising, none twice; returns their number.
static int place_knots(double *z, const bys_current_parts *p, double d)
{
    int n = 0;
    for (int i = 0; i <= EVEN; i++)
        z[n++] = i < EVEN ? d * pow(LOWEST, 1.0 - (double)i / EVEN) : d;
    for (int i = 0; p->kind == BYS_PROFILE_TABLE && i < p->points; i++)
        if (p->depths[i] < d)
            z[n++] = d - p->depths[i];
    if (p->wind_depth > 0.0 && p->wind_depth < d)
        z[n++] = d - p->wind_depth;
    if (p->kind == BYS_PROFILE_TABLE || p->wind_depth > 0.0)
        z[n++] = 0.0;
    qsort(z, (size_t)n, sizeof *z, by_height);
    int kept = 1;
    for (int i = 1; i < n; i++)
        if (z[i] - z[kept - 1] > 1e-9 * d)
            z[kept++] = z[i];
    return kept;
}

/// Cubic from values and slopes at both ends of [0, l]; the slopes are those just inside.
static void make_piece(double piece[2][4], const bys_current_parts *p, double from, double l,
                       double d, double scale)
{
    double a[2], b[2], da[2], db[2], none[2];
    const double inside = 1e-7 * l;
    bys_current_parts_at(a, NULL, p, from, d);
    bys_current_parts_at(b, NULL, p, from + l, d);
    bys_current_parts_at(none, da, p, from + inside, d);
    bys_current_parts_at(none, db, p, from + l - inside, d);
    for (int i = 0; i < 2; i++) {
        const double rise = (b[i] - a[i]) / l;
        piece[i][0] = a[i] / scale;
        piece[i][1] = da[i] / scale;
        piece[i][2] = (3.0 * rise - 2.0 * da[i] - db[i]) / l / scale;
        piece[i][3] = (da[i] + db[i] - 2.0 * rise) / (l * l) / scale;
    }
}

/// The largest speed, and the direction at the surface (or there, if the surface is still).
static double head_of(double way[2], const bys_current_parts *p, const double *z, int n, double d)
{
    double most = 0.0, v[2], best[2] = {0.0, 1.0};
    for (int i = 0; i < n; i++) {
        bys_current_parts_at(v, NULL, p, z[i], d);
        if (hypot(v[0], v[1]) > most) {
            most = hypot(v[0], v[1]);
            best[0] = v[0] / most, best[1] = v[1] / most;
        }
    }
    const double top = hypot(v[0], v[1]); // the last knot is the surface
    for (int i = 0; i < 2; i++)
        way[i] = top > 1e-6 * most && most > 0.0 ? v[i] / top : best[i];
    return most;
}

bool bys_sea_set_current(bys_sea *sea, const bys_current_parts *parts, bys_arena *arena)
{
    const double d = sea->depth;
    const size_t most = (size_t)EVEN + 4 + (size_t)(parts->points > 0 ? parts->points : 0);
    double *z = bys_arena_get(arena, most * sizeof *z);
    bys_sea_profile *profile = bys_arena_get(arena, sizeof *profile);
    double(*piece)[2][4] = bys_arena_get(arena, most * sizeof *piece);
    if (!z || !profile || !piece)
        return false;
    profile->count = place_knots(z, parts, d);
    profile->z = z;
    profile->piece = (const double(*)[2][4])piece;
    sea->profile = NULL;
    sea->current_speed = head_of(sea->current, parts, z, profile->count, d);
    if (!(sea->current_speed > 0.0))
        return true;
    for (int k = 0; k + 1 < profile->count; k++)
        make_piece(piece[k], parts, z[k], z[k + 1] - z[k], d, sea->current_speed);
    bys_current_parts_at(profile->below, NULL, parts, z[0], d);
    bys_current_parts_at(profile->above, NULL, parts, d, d);
    for (int i = 0; i < 2; i++) {
        profile->below[i] /= sea->current_speed;
        profile->above[i] /= sea->current_speed;
    }
    sea->profile = profile;
    return true;
}
