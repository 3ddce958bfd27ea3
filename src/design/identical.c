// SPDX-License-Identifier: GPL-3.0-or-later
// Islands that are translated copies of one another, so that one solve serves them all.
//
// Two islands are copies if the lists in bys_island run in step with the same parts, numbers and
// connections, and all positions differ by one level shift that follows the bed plane: then depth,
// current, wind and waves are the same everywhere along them, and so is the equilibrium. Islands
// with rigid bodies are always solved by themselves.
#include "design/judge.h"

#include <math.h>
#include <string.h>

static const double same_place = 1e-9; // m

/// Points by island: position of a point in its island's list.
typedef struct {
    const bys_stage_set *set;
    const bys_network *net;
    const int *local;
} matcher;

static bool near(double a, double b)
{
    return fabs(a - b) <= same_place;
}

static bool same_point(const bys_point *a, const bys_point *b, const double shift[3])
{
    if (a->kind != b->kind || a->drag_area != b->drag_area || a->weight != b->weight)
        return false;
    for (int k = 0; k < 3; k++)
        if (a->hold[k] != b->hold[k] || a->load[k] != b->load[k] ||
            !near(a->x[k] + shift[k], b->x[k]))
            return false;
    return true;
}

static bool same_section(const matcher *m, const bys_section *a, const bys_section *b)
{
    return a->part == b->part && a->count == b->count && m->local[a->a] == m->local[b->a] &&
           m->local[a->b] == m->local[b->b] && near(a->length, b->length) &&
           a->stiffness == b->stiffness && a->weight_dry == b->weight_dry &&
           a->buoyancy == b->buoyancy && memcmp(a->load, b->load, sizeof a->load) == 0 &&
           a->load_stretched == b->load_stretched && a->drag_unstretched == b->drag_unstretched &&
           a->diameter == b->diameter && a->cd_normal == b->cd_normal &&
           a->cd_tangential == b->cd_tangential && a->on_bed == b->on_bed &&
           a->strand == b->strand && (a->leg >= 0) == (b->leg >= 0);
}

static bool same_sections(const matcher *m, int i, int k)
{
    const int *from = m->set->section_from, *list = m->set->section_list;
    const int count = from[i + 1] - from[i];
    if (count != from[k + 1] - from[k])
        return false;
    for (int s = 0; s < count; s++)
        if (!same_section(m, &m->net->sections[list[from[i] + s]],
                          &m->net->sections[list[from[k] + s]]))
            return false;
    return true;
}

static bool same_elements(const matcher *m, const bys_island *a, const bys_island *b)
{
    for (int e = 0; e < a->element_count; e++) {
        const bys_element *p = &m->net->elements[a->elements[e]],
                          *q = &m->net->elements[b->elements[e]];
        if (m->local[p->a] != m->local[q->a] || m->local[p->b] != m->local[q->b] ||
            !near(p->length, q->length))
            return false;
    }
    return true;
}

static bool same_hangings(const matcher *m, const bys_island *a, const bys_island *b)
{
    for (int f = 0; f < a->float_count; f++) {
        const bys_float_set *p = &m->net->floats[a->floats[f]], *q = &m->net->floats[b->floats[f]];
        if (p->part != q->part || p->count != q->count || p->at_end != q->at_end ||
            p->growth_weight != q->growth_weight || p->axis[0] != q->axis[0] ||
            p->axis[1] != q->axis[1] ||
            m->local[p->point] != m->local[q->point])
            return false;
    }
    for (int g = 0; g < a->gear_count; g++) {
        const bys_gear_set *p = &m->net->gears[a->gears[g]], *q = &m->net->gears[b->gears[g]];
        if (p->part != q->part || p->values != q->values || p->count != q->count ||
            p->axis[0] != q->axis[0] || p->axis[1] != q->axis[1] ||
            p->file_relief != q->file_relief || m->local[p->point] != m->local[q->point])
            return false;
    }
    return true;
}

static bool same_legs(const matcher *m, const bys_island *a, const bys_island *b)
{
    for (int l = 0; l < a->leg_count; l++) {
        const bys_leg *p = &m->net->legs[a->legs[l]], *q = &m->net->legs[b->legs[l]];
        if (m->local[p->foot] != m->local[q->foot] || m->local[p->top] != m->local[q->top] ||
            p->section_count != q->section_count)
            return false;
    }
    return true;
}

/// A level shift along the bed's contour.
static bool shift_is_level(const bys_site *site, const double shift[3])
{
    const bys_seabed *bed = &site->bed;
    if (site->has_bed && bed->map)
        return false; // no two places of an uneven bed are alike
    const double down =
        tan(bed->slope) * (shift[0] * sin(bed->deepens) + shift[1] * cos(bed->deepens));
    return near(shift[2], 0.0) && (!site->has_bed || near(down, 0.0));
}

static bool copies(const matcher *m, const bys_site *site, int i, int k, double shift[3])
{
    const bys_island *a = &m->net->islands[i], *b = &m->net->islands[k];
    for (int c = 0; c < site->current_count; c++)
        if (site->currents[c].shields)
            return false; // lines shelter one another: no two are alike
    if (a->body_count || b->body_count || a->point_count != b->point_count || a->point_count == 0 ||
        a->element_count != b->element_count || a->float_count != b->float_count ||
        a->gear_count != b->gear_count || a->leg_count != b->leg_count ||
        a->anchored != b->anchored)
        return false;
    for (int c = 0; c < 3; c++)
        shift[c] = m->net->points[b->points[0]].x[c] - m->net->points[a->points[0]].x[c];
    if (!shift_is_level(site, shift))
        return false;
    for (int p = 0; p < a->point_count; p++)
        if (!same_point(&m->net->points[a->points[p]], &m->net->points[b->points[p]], shift))
            return false;
    return same_sections(m, i, k) && same_elements(m, a, b) && same_hangings(m, a, b) &&
           same_legs(m, a, b);
}

bool bys_stage_identical(bys_stage_set *set, const bys_site *site, bys_arena *arena)
{
    const bys_network *net = set->net;
    const size_t islands = (size_t)net->island_count + 1;
    int *local = bys_arena_get(arena, ((size_t)net->point_count + 1) * sizeof(int));
    set->rep = bys_arena_get(arena, islands * sizeof(int));
    set->shift = bys_arena_get(arena, 3 * islands * sizeof(double));
    if (!local || !set->rep || !set->shift)
        return false;
    for (int i = 0; i < net->island_count; i++)
        for (int p = 0; p < net->islands[i].point_count; p++)
            local[net->islands[i].points[p]] = p;
    const matcher m = {set, net, local};
    for (int i = 0; i < net->island_count; i++) {
        set->rep[i] = i;
        for (int r = 0; r < i && set->rep[i] == i; r++)
            if (set->rep[r] == r && copies(&m, site, r, i, set->shift + 3 * i))
                set->rep[i] = r;
        if (set->rep[i] == i)
            memset(set->shift + 3 * i, 0, 3 * sizeof(double));
    }
    return true;
}

static void translate_forces(bys_state *state, const bys_stage_set *set, int from, int to)
{
    const bys_network *net = set->net;
    const bys_island *a = &net->islands[from], *b = &net->islands[to];
    const int *list = set->section_list;
    for (int e = 0; e < a->element_count; e++)
        state->tension[b->elements[e]] = state->tension[a->elements[e]];
    for (int s = 0; s < set->section_from[from + 1] - set->section_from[from]; s++)
        state->sections[list[set->section_from[to] + s]] =
            state->sections[list[set->section_from[from] + s]];
    for (int f = 0; f < a->float_count; f++) {
        state->submerged[b->floats[f]] = state->submerged[a->floats[f]];
        state->lift_left[b->floats[f]] = state->lift_left[a->floats[f]];
    }
    for (int g = 0; g < a->gear_count; g++) {
        state->gear_low[b->gears[g]] = state->gear_low[a->gears[g]];
        state->gear_swing[b->gears[g]] = state->gear_swing[a->gears[g]];
        state->gear_drag[b->gears[g]] = state->gear_drag[a->gears[g]];
    }
}

void bys_state_translate(bys_state *state, const bys_stage_set *set, int from, int to)
{
    const bys_island *a = &set->net->islands[from], *b = &set->net->islands[to];
    const double *shift = set->shift + 3 * to;
    for (int p = 0; p < a->point_count; p++) {
        const int i = a->points[p], k = b->points[p];
        for (int c = 0; c < 3; c++) {
            state->x[3 * k + c] = state->x[3 * i + c] + shift[c];
            state->reaction[3 * k + c] = state->reaction[3 * i + c];
            state->grip[3 * k + c] = state->grip[3 * i + c];
        }
        state->bed[k] = state->bed[i];
    }
    translate_forces(state, set, from, to);
    state->islands[to] = state->islands[from];
    state->islands[to].factorisations = 0;
    state->islands[to].worst_point = -1;
}
