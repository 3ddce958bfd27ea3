// SPDX-License-Identifier: GPL-3.0-or-later
#include "design/as_cut.h"

#include <math.h>

double bys_leg_cut(const bys_network *net, const bys_leg *leg, int k)
{
    const bys_section *s = &net->sections[leg->first_section + k];
    const double bedded = net->stage >= 0 ? net->site->stages[net->stage].bedding_in : 0.0;
    return s->length / (1.0 + s->part->u.line.bedding_in * bedded);
}

static bool lay(bys_arena *arena, bys_leg_override *out, const bys_network *net,
                const bys_leg *leg)
{
    const double *foot = net->points[leg->foot].x;
    bys_leg_spec *spec = &out->spec;
    *out = (bys_leg_override){leg->id, *leg->spec, 0.0};
    spec->x = foot[0];
    spec->y = foot[1];
    spec->reach = spec->bearing = spec->pretension = NAN;
    spec->items = bys_arena_get(arena, ((size_t)spec->item_count + 1) * sizeof *spec->items);
    int line = 0;
    for (int i = 0; spec->items && i < spec->item_count; i++) {
        spec->items[i] = leg->spec->items[i];
        if (spec->items[i].kind == BYS_LEG_LINE)
            spec->items[i].length = bys_leg_cut(net, leg, line++);
    }
    return spec->items != NULL;
}

bys_leg_override *bys_legs_as_cut(bys_arena *arena, const bys_network *net)
{
    bys_leg_override *all = bys_arena_get(arena, ((size_t)net->leg_count + 1) * sizeof *all);
    for (int l = 0; all && l < net->leg_count; l++)
        if (!lay(arena, &all[l], net, &net->legs[l]))
            return NULL;
    return all;
}
