// SPDX-License-Identifier: GPL-3.0-or-later
// Look-ups in a Site.
#include "site/site.h"
#include <byssus/site.h>

#include <math.h>
#include <string.h>

void bys_site_free(bys_site *site)
{
    if (site)
        bys_arena_free(site->arena);
}

const char *bys_site_name(const bys_site *site)
{
    return site->name;
}

const bys_part *bys_site_part(const bys_site *site, const char *id)
{
    for (int i = 0; i < site->part_count; i++)
        if (strcmp(site->parts[i].item.id, id) == 0)
            return &site->parts[i];
    return NULL;
}

int bys_site_stage(const bys_site *site, const char *id)
{
    for (int i = 0; i < site->stage_count; i++)
        if (strcmp(site->stages[i].item.id, id) == 0)
            return i;
    return -1;
}

int bys_site_level(const bys_site *site, const char *id)
{
    for (int i = 0; i < site->level_count; i++)
        if (strcmp(site->levels[i].item.id, id) == 0)
            return i;
    return -1;
}

const char *bys_stage_gear(const bys_stage *stage)
{
    return !stage ? "" : stage->like ? stage->like : stage->item.id;
}

const bys_gear_values *bys_gear_at(const bys_gear_part *gear, const char *stage)
{
    return bys_gear_on(gear, stage, "", "");
}

const bys_gear_values *bys_gear_on(const bys_gear_part *gear, const char *stage, const char *line,
                                   const char *block)
{
    const bys_gear_values *best = gear->values;
    int best_rank = 0;
    for (int i = 1; i < gear->value_count; i++) {
        const bys_gear_values *v = &gear->values[i];
        const char *target = v->target ? v->target : "";
        if (strcmp(v->stage, stage) != 0)
            continue;
        const int rank = !*target                    ? 1
                         : strcmp(target, block) == 0 ? 2
                         : strcmp(target, line) == 0  ? 3
                                                      : 0;
        if (rank > best_rank) {
            best = v;
            best_rank = rank;
        }
    }
    return best;
}

// Plane: depth grows by tan(slope) per metre along the direction d = (sin a, cos a) in which the
// bed deepens, a counted clockwise from north: z = -depth - tan(slope) (r - r0).d
double bys_bed_z(const bys_seabed *bed, double x, double y)
{
    if (bed->map)
        return bys_bed_map_at(bed->map, x, y, NULL, NULL);
    double along = (x - bed->x) * sin(bed->deepens) + (y - bed->y) * cos(bed->deepens);
    return -bed->depth - tan(bed->slope) * along;
}

double bys_bed_beyond(const bys_seabed *bed, double x, double y)
{
    return bed->map ? bys_bed_map_beyond(bed->map, x, y) : 0.0;
}

static bool zone_holds(const bys_soil_zone *zone, double x, double y)
{
    bool inside = false;
    for (int i = 0, j = zone->count - 1; i < zone->count; j = i++) {
        const double xi = zone->x[i], yi = zone->y[i], xj = zone->x[j], yj = zone->y[j];
        if ((yi > y) != (yj > y) && x < xi + (xj - xi) * (y - yi) / (yj - yi))
            inside = !inside;
    }
    return inside;
}

const bys_soil *bys_bed_soils(const bys_seabed *bed, double x, double y, int *count)
{
    for (int i = 0; i < bed->zone_count; i++)
        if (zone_holds(&bed->zones[i], x, y)) {
            *count = bed->zones[i].soil_count;
            return bed->zones[i].soils;
        }
    *count = bed->soil_count;
    return bed->soils;
}

const bys_factor *bys_rules_factor_in(const bys_rules *rules, const char *component,
                                      bys_factor_state state)
{
    const bys_factor *found = NULL;
    for (int i = 0; i < rules->factor_count; i++) {
        const bys_factor *f = &rules->factors[i];
        if (f->dynamic || strcmp(f->component, component) != 0)
            continue;
        if (f->state == state)
            return f;
        found = f->state == BYS_STATE_ANY ? f : found;
    }
    return found;
}

const bys_factor *bys_rules_factor(const bys_rules *rules, const char *component)
{
    return bys_rules_factor_in(rules, component, BYS_STATE_INTACT);
}

const bys_growth_spec *bys_growth_of(const bys_stage *stage, const bys_part *part)
{
    for (int i = 0; stage && part && i < stage->growth_count; i++) {
        const bys_growth_spec *g = &stage->growths[i];
        const bool kind = g->on == BYS_GROWS_ALL
                              ? part->kind == BYS_PART_ROPE || part->kind == BYS_PART_CHAIN ||
                                    part->kind == BYS_PART_FLOAT
                              : (g->on == BYS_GROWS_ROPES && part->kind == BYS_PART_ROPE) ||
                                    (g->on == BYS_GROWS_CHAINS && part->kind == BYS_PART_CHAIN) ||
                                    (g->on == BYS_GROWS_FLOATS && part->kind == BYS_PART_FLOAT);
        if (g->part ? g->part == part : kind)
            return g;
    }
    return NULL;
}
