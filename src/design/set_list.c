// SPDX-License-Identifier: GPL-3.0-or-later
// The conditions of a kind that a network can have.
//
// NOTES     1. Cuts: every strand of every backbone, head rope and tie at both ends, at every place
//              between where a leg or another line joins it, and midway between those places.
//           2. fouled: every leg of a longline, where there is more than one longline.
//           3. Sets of islands that are translated copies of each other are tied together, the k-th to
//              the k-th: the copies need no solving.
#include "base/number.h"
#include "design/sets.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
    bys_set_list *out;
    const bys_network *net;
    bys_arena *arena;
    bys_error *err;
    bys_rc rc;
} lister;

static void add(lister *l, const char *id)
{
    bool found = false;
    if (!id && !l->rc)
        l->rc = bys_error_set(l->err, BYS_ENOMEM, 0, "out of memory for the conditions");
    if (l->rc)
        return;
    if (l->out->count == l->out->room) { // the arena has no way to grow a list: it is copied
        const int room = 2 * l->out->room + 16;
        bys_set *items = bys_arena_get(l->arena, (size_t)room * sizeof *items);
        if (!items) {
            l->rc = bys_error_set(l->err, BYS_ENOMEM, 0, "out of memory for the conditions");
            return;
        }
        if (l->out->count > 0)
            memcpy(items, l->out->items, (size_t)l->out->count * sizeof *items);
        l->out->items = items;
        l->out->room = room;
    }
    l->rc = bys_set_read(&l->out->items[l->out->count], &found, l->net, l->arena, id, l->err);
    l->out->count += !l->rc && found;
}

#define ADD(l, ...) add(l, bys_arena_format((l)->arena, __VA_ARGS__))

// ---- cuts ------------------------------------------------------------------------------------

static void add_cut(lister *l, const char *id, double at)
{
    char number[BYS_NUMBER_SIZE];
    ADD(l, "cut:%s@%s", id, bys_number_shortest(number, round(1e4 * at) / 1e4));
}

/// Shares at which something else than a strand of the same line ends.
static void cut_section(lister *l, const char *id, const bys_section *section,
                        const unsigned char *joint)
{
    double total = 0.0, s = 0.0, before = 0.0;
    for (int k = 0; k < section->count; k++)
        total += l->net->elements[section->first + k].length;
    add_cut(l, id, 0.0);
    for (int k = 0; k < section->count; k++) {
        const bys_element *e = &l->net->elements[section->first + k];
        s += e->length;
        if (k + 1 < section->count && !joint[e->b])
            continue;
        const double at = k + 1 < section->count ? s / total : 1.0;
        add_cut(l, id, 0.5 * (before + at));
        add_cut(l, id, at);
        before = at;
    }
}

static void mark_joints(const bys_network *net, unsigned char *joint)
{
    for (int s = 0; s < net->section_count; s++)
        if (net->sections[s].line < 0 || net->sections[s].leg >= 0)
            joint[net->sections[s].a] = joint[net->sections[s].b] = 1;
}

static void add_cuts(lister *l)
{
    const bys_network *net = l->net;
    unsigned char *joint = calloc((size_t)net->point_count + 1, 1);
    if (joint)
        mark_joints(net, joint);
    else
        l->rc = bys_error_set(l->err, BYS_ENOMEM, 0, "out of memory for the conditions");
    for (int s = 0; !l->rc && s < net->section_count; s++) {
        const bys_section *section = &net->sections[s];
        if (section->leg >= 0)
            continue;
        const bool whole = section->line >= 0 && net->lines[section->line].section_count == 1;
        cut_section(l, whole ? net->lines[section->line].id : section->id, section, joint);
    }
    free(joint);
}

// ---- all -------------------------------------------------------------------------------------

static void add_floats(lister *l)
{
    const bys_network *net = l->net;
    for (int f = 0; f < net->float_count && !l->rc; f++)
        if (f == 0 || strcmp(net->floats[f].id, net->floats[f - 1].id) != 0)
            ADD(l, "float:%s", net->floats[f].id);
}

static void add_stated(lister *l, unsigned kinds)
{
    const bys_site *site = l->net->site;
    for (int i = 0; site && kinds >> BYS_SET_VESSEL & 1 && i < site->vessel_count; i++)
        ADD(l, "vessel:%s", site->vessels[i].item.id);
    for (int i = 0; site && kinds >> BYS_SET_LIFT & 1 && i < site->lift_count; i++)
        ADD(l, "lift:%s", site->lifts[i].item.id);
    for (int i = 0; site && kinds >> BYS_SET_OWN & 1 && i < site->condition_count; i++)
        ADD(l, "own:%s", site->conditions[i].item.id);
}

/// End of the run of sets of one kind in one island that starts at `first`.
static int run_end(const bys_set_list *list, int first)
{
    const bys_set *a = &list->items[first];
    int end = first + 1;
    for (; end < list->count; end++) {
        const bys_set *b = &list->items[end];
        if (b->kind != a->kind || b->island_count != 1 || a->island_count != 1 ||
            b->islands[0] != a->islands[0])
            break;
    }
    return end;
}

/// Ties each set of one island to the same set of that island's next copy.
static bool tie_copies(bys_set_list *list, const bys_stage_set *stage)
{
    int *last = malloc(((size_t)stage->net->island_count + 1) * sizeof *last);
    for (int i = 0; last && i < stage->net->island_count; i++)
        last[i] = -1;
    for (int a = 0, b; last && a < list->count; a = b) {
        const bys_set *first = &list->items[a];
        b = run_end(list, a);
        if (first->island_count != 1 || first->kind == BYS_SET_FOULED ||
            first->kind >= BYS_SET_VESSEL)
            continue;
        const int island = first->islands[0], rep = stage->rep[island], from = last[rep];
        if (rep != island && from >= 0 && list->items[from].kind == first->kind &&
            run_end(list, from) - from == b - a)
            for (int k = 0; k < b - a; k++) {
                list->items[from + k].next_copy = a + k;
                list->items[a + k].copy = true;
            }
        last[rep] = a;
    }
    free(last);
    return last != NULL;
}

bys_rc bys_sets_list(bys_set_list *out, const bys_network *net, const bys_stage_set *stage,
                     unsigned kinds, bys_arena *arena, bys_error *err)
{
    lister l = {.out = out, .net = net, .arena = arena, .err = err};
    *out = (bys_set_list){0};
    for (int i = 0; kinds >> BYS_SET_LOST & 1 && i < net->leg_count; i++)
        ADD(&l, "lost:%s", net->legs[i].id);
    for (int i = 0; kinds >> BYS_SET_ANCHOR & 1 && i < net->anchor_count; i++)
        ADD(&l, "anchor:%s", net->anchors[i].id);
    if (kinds >> BYS_SET_CUT & 1)
        add_cuts(&l);
    if (kinds >> BYS_SET_FLOAT & 1)
        add_floats(&l);
    for (int i = 0; kinds >> BYS_SET_FOULED & 1 && net->line_count > 1 && i < net->leg_count; i++)
        if (net->legs[i].line >= 0)
            ADD(&l, "fouled:%s", net->legs[i].id);
    add_stated(&l, kinds);
    if (!l.rc && stage && !tie_copies(out, stage))
        l.rc = bys_error_set(err, BYS_ENOMEM, 0, "out of memory for the conditions");
    return l.rc;
}
