// SPDX-License-Identifier: GPL-3.0-or-later
// From the stated currents to the current of one environment.
//
// GIVEN     stated currents (speed at the surface, as depth mean, or at a depth; form over the depth;
//           direction, level), a steady residual, a share of the wind
// RETURNED  speed at the surface (m/s); the sea's current.
// NOTES     1. Where several currents hold towards a direction at a level, the fastest at the surface
//              acts. A current that names a level acts at that level only: with flood and ebb named so,
//              a level without one has still water, wind and waves.
//           2. The residual has the same form over the depth. Without a direction it runs along the
//              current, which is its worst.
//           3. The wind-driven part is a share of the 1-h wind at 10 m, along that wind.
//           4. Without a surface or a bed a current is uniform; parts still add as vectors.
//           5. A power profile by itself stays the relation (flow.c); all else is tabled.
// SOURCE    profiles: src/phys/current.c, current_profiles.c; sum as vectors: DNV-RP-C205 (2017) 4.1.4,
//           transcribed [memory]; choice of the fastest: derived.
#include "phys/phys.h"
#include "phys/sea_loads.h"
#include "sea/weather.h"

#include <math.h>
#include <string.h>

static double roughness_of(const bys_current *c)
{
    return isnan(c->roughness) ? bys_bed_roughness((bys_rough_bed)c->rough_bed) : c->roughness;
}

static bys_current_parts form_of(const bys_current *c)
{
    bys_current_parts parts = {.exponent = 1.0 / 7.0};
    if (!c)
        return parts;
    parts.kind = c->profile;
    parts.exponent = c->exponent;
    if (c->profile == BYS_PROFILE_LOG)
        parts.roughness = roughness_of(c);
    parts.depths = c->depths, parts.speeds = c->speeds, parts.points = c->layer_count;
    return parts;
}

/// Ratio of the depth mean to the speed at the surface.
static double mean_share(const bys_current *c, double depth)
{
    if (c->profile == BYS_PROFILE_LOG)
        return 1.0 / bys_current_log(depth, depth, roughness_of(c), NULL);
    if (c->profile == BYS_PROFILE_TABLE)
        return bys_current_table_mean(c->depths, c->speeds, (size_t)c->layer_count, depth) /
               c->speeds[0];
    return bys_current_power_mean(c->exponent);
}

// v(z) = v0 f(z): v0 = mean over the mean's share, or the value at that depth over the factor there.
static double surface_speed(const bys_current *c, double depth)
{
    const bool uniform = c->profile == BYS_PROFILE_POWER && c->exponent == 0.0;
    if (!isfinite(depth) || uniform || c->at == BYS_AT_SURFACE)
        return c->speed;
    if (c->at == BYS_AT_MEAN)
        return c->speed / mean_share(c, depth);
    if (c->profile == BYS_PROFILE_POWER)
        return c->speed / bys_current_power(depth - c->at_depth, depth, c->exponent, NULL);
    bys_current_parts parts = form_of(c);
    double v[2];
    parts.tide[1] = 1.0;
    bys_current_parts_at(v, NULL, &parts, depth - c->at_depth, depth);
    return v[1] > 0.0 ? c->speed / v[1] : c->speed;
}

double bys_current_towards(const bys_site *site, double years, double towards, double depth,
                           const char *level, const bys_current **which)
{
    double best = 0.0;
    *which = NULL;
    for (int i = 0; i < site->current_count; i++) {
        const bys_current *c = &site->currents[i];
        const double stated = c->years > 0.0 ? c->years : 0.0;
        if (!bys_same_years(stated, years) || !bys_current_holds(c, towards))
            continue;
        if (c->level && *c->level && strcmp(c->level, level) != 0)
            continue;
        const double speed = surface_speed(c, depth);
        if (!*which || speed > best) {
            best = speed;
            *which = c;
        }
    }
    return best;
}

static void add_part(double v[2], double speed, double towards)
{
    v[0] += speed * sin(towards);
    v[1] += speed * cos(towards);
}

bool bys_current_put(bys_sea *sea, const bys_site *site, const bys_current *current, double speed,
                     double towards, const bys_wind *wind, bys_arena *arena)
{
    const bool profiled = isfinite(sea->level) && sea->has_bed;
    const bool driven = site->has_wind_drift && wind && site->wind_drift.share > 0.0;
    const bool residual = site->has_residual && site->residual.speed > 0.0;
    sea->current[0] = sin(towards), sea->current[1] = cos(towards);
    sea->current_speed = speed;
    sea->current_exponent = profiled && current ? current->exponent : 0.0;
    sea->profile = NULL;
    if (!driven && !residual && (!current || current->profile == BYS_PROFILE_POWER || !profiled))
        return true;
    bys_current_parts parts = form_of(current);
    add_part(parts.tide, speed, towards);
    if (residual)
        add_part(parts.tide, site->residual.speed,
                 isnan(site->residual.towards) ? towards : site->residual.towards);
    if (driven) {
        const double u = bys_current_wind_surface(bys_wind_mean(wind, 3600.0),
                                                  site->wind_drift.share);
        parts.wind[0] = u * sea->wind[0], parts.wind[1] = u * sea->wind[1];
        parts.wind_depth = site->wind_drift.depth;
    }
    if (profiled)
        return bys_sea_set_current(sea, &parts, arena);
    const double v[2] = {parts.tide[0] + parts.wind[0], parts.tide[1] + parts.wind[1]};
    sea->current_speed = hypot(v[0], v[1]);
    for (int i = 0; i < 2 && sea->current_speed > 0.0; i++)
        sea->current[i] = v[i] / sea->current_speed;
    return true;
}
