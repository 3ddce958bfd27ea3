// SPDX-License-Identifier: GPL-3.0-or-later
// Conditions by name: from the text of a case's id to what is taken out and where things act.
//
//   intact            everything stands
//   lost:LEG          one leg is gone
//   anchor:ANCHOR     all legs on that anchor are gone
//   cut:LINE@SHARE    a line, a leg, or a single rope or chain is cut at that share of its length; the
//                     element in which the cut falls is taken out, so both ends hang free
//   float:FLOATS      the floats of that name are gone
//   fouled:LEG        the leg is gone and its line lies against its neighbour (set_foul.c)
//   vessel:ID lift:ID own:ID   as the site states them
#include "base/codes.h"
#include "base/number.h"
#include "design/sets.h"
#include "lease/find.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const char *const words[] = {"intact", "lost",   "anchor", "cut", "float",
                                    "fouled", "vessel", "lift",   "own"};

const char *bys_set_word(bys_set_kind kind)
{
    return words[kind];
}

bys_rc bys_set_kinds_read(unsigned *kinds, const char *list, bys_error *err)
{
    *kinds = 1u << BYS_SET_LOST;
    if (!list || !*list)
        return BYS_OK;
    *kinds = 0;
    while (*list) {
        const size_t n = strcspn(list, ",");
        unsigned bit = n == 3 && !memcmp(list, "all", 3) ? ~0u : 0u;
        for (unsigned k = 0; k < sizeof words / sizeof words[0]; k++)
            if (strlen(words[k]) == n && !memcmp(words[k], list, n))
                bit = 1u << k;
        if (!bit)
            return bys_error_set(err, BYS_EUSAGE, BYS_M_unknown_condition,
                                 "there is no kind of condition \"%.*s\": intact, lost, anchor, "
                                 "cut, float, fouled, vessel, lift, own, or all", (int)n, list);
        *kinds |= bit;
        list += n + (list[n] == ',');
    }
    return BYS_OK;
}

// ---- collecting ------------------------------------------------------------------------------

/// What a set takes out, while it is being made.
typedef struct {
    const bys_network *net;
    bys_arena *arena;
    bys_set *set;
    int *sections, *elements, *floats, *islands;
    bys_point_load *loads;
    unsigned char *hit; ///< by island
    bool no_memory;
} maker;

static bool listed(const int *list, int count, int item)
{
    for (int i = 0; i < count; i++)
        if (list[i] == item)
            return true;
    return false;
}

static void touch(maker *m, int point)
{
    m->hit[m->net->points[point].island] = 1;
}

static void take_leg(maker *m, int leg)
{
    const bys_leg *l = &m->net->legs[leg];
    const bool gone =
        listed(m->sections, m->set->change.section_count, l->first_section);
    for (int s = l->first_section; !gone && s < l->first_section + l->section_count; s++)
        m->sections[m->set->change.section_count++] = s;
    touch(m, l->top);
}

static void take_anchor(maker *m, int anchor)
{
    for (int k = 0; k < m->net->anchors[anchor].leg_count; k++)
        take_leg(m, m->net->anchors[anchor].legs[k]);
}

static bool take_cut(maker *m, const char *id, double at)
{
    const int n = bys_find_cut(m->net, id, at, m->elements + m->set->change.element_count, 4);
    for (int k = 0; k < n; k++)
        touch(m, m->net->elements[m->elements[m->set->change.element_count + k]].a);
    m->set->change.element_count += n;
    return n > 0;
}

/// All float sets of that name: none is no fault, they change with the stage.
static bool take_floats(maker *m, const char *id)
{
    const int before = m->set->change.float_count;
    for (int f = 0; f < m->net->float_count; f++)
        if (strcmp(m->net->floats[f].id, id) == 0 && !listed(m->floats, before, f)) {
            m->floats[m->set->change.float_count++] = f;
            touch(m, m->net->floats[f].point);
        }
    return m->set->change.float_count > before;
}

static void take_all(maker *m, const bys_own_condition *own)
{
    for (int k = 0; k < own->take_count; k++) {
        const bys_take *t = &own->takes[k];
        const int leg = t->kind == BYS_TAKE_LEG ? bys_find_leg(m->net, t->target) : -1;
        const int anchor = t->kind == BYS_TAKE_ANCHOR ? bys_find_anchor(m->net, t->target) : -1;
        const int point = t->kind == BYS_TAKE_LOAD ? bys_find_point(m->net, t->target, t->at) : -1;
        if (leg >= 0)
            take_leg(m, leg);
        if (anchor >= 0)
            take_anchor(m, anchor);
        if (t->kind == BYS_TAKE_CUT)
            take_cut(m, t->target, t->at);
        if (t->kind == BYS_TAKE_FLOAT)
            take_floats(m, t->target);
        if (point >= 0) {
            bys_point_load *load = &m->loads[m->set->change.load_count++];
            load->point = point;
            memcpy(load->force, t->load, sizeof load->force);
            touch(m, point);
        }
    }
}

// ---- one name --------------------------------------------------------------------------------

static bool changes(const bys_weather_change *w)
{
    return !isnan(w->current) || !isnan(w->wind) || !isnan(w->hs);
}

static void take_weather(maker *m, const bys_weather_change *w)
{
    if (!changes(w))
        return;
    m->set->weather = w;
    memset(m->hit, 1, (size_t)m->net->island_count);
}

/// "L05@0.25" -> target and share; the share is 0.5 if none is written.
static bool split_cut(maker *m, const char *rest, const char **target, double *at)
{
    const char *sign = strrchr(rest, '@');
    *at = 0.5;
    *target = rest;
    if (!sign)
        return true;
    *target = bys_arena_format(m->arena, "%.*s", (int)(sign - rest), rest);
    m->no_memory |= !*target;
    size_t used = 0;
    return *target && bys_number_read(at, &used, sign + 1) && !sign[1 + used] && *at >= 0.0 &&
           *at <= 1.0;
}

static bool read_act(maker *m, const char *rest)
{
    const bys_site *site = m->net->site;
    bys_set *set = m->set;
    for (int i = 0; set->kind == BYS_SET_VESSEL && site && i < site->vessel_count; i++)
        if (strcmp(site->vessels[i].item.id, rest) == 0)
            set->vessel = &site->vessels[i];
    for (int i = 0; set->kind == BYS_SET_LIFT && site && i < site->lift_count; i++)
        if (strcmp(site->lifts[i].item.id, rest) == 0)
            set->lift = &site->lifts[i];
    if (!set->vessel && !set->lift)
        return false;
    set->point = set->vessel ? bys_find_point(m->net, set->vessel->to, set->vessel->at)
                             : bys_find_point(m->net, set->lift->to, set->lift->at);
    if (set->point < 0)
        return false;
    touch(m, set->point);
    take_weather(m, set->vessel ? &set->vessel->weather : &set->lift->weather);
    return true;
}

static bool read_own(maker *m, const char *rest)
{
    const bys_site *site = m->net->site;
    for (int i = 0; site && i < site->condition_count; i++)
        if (strcmp(site->conditions[i].item.id, rest) == 0) {
            take_all(m, &site->conditions[i]);
            take_weather(m, &site->conditions[i].weather);
            return true;
        }
    return false;
}

static bool read_rest(maker *m, const char *rest)
{
    const char *target;
    double at;
    int i;
    switch (m->set->kind) {
    case BYS_SET_INTACT:
        return false; // takes no name
    case BYS_SET_LOST:
    case BYS_SET_FOULED:
        if ((i = m->set->leg = bys_find_leg(m->net, rest)) >= 0)
            take_leg(m, i);
        return i >= 0 && (m->set->kind == BYS_SET_LOST || m->net->legs[i].line >= 0);
    case BYS_SET_ANCHOR:
        if ((i = bys_find_anchor(m->net, rest)) >= 0)
            take_anchor(m, i);
        return i >= 0 && m->net->anchors[i].leg_count > 0;
    case BYS_SET_CUT:
        return split_cut(m, rest, &target, &at) && take_cut(m, target, at);
    case BYS_SET_FLOAT:
        return take_floats(m, rest);
    case BYS_SET_VESSEL:
    case BYS_SET_LIFT:
        return read_act(m, rest);
    case BYS_SET_OWN:
        return read_own(m, rest);
    }
    return false;
}

// ---- finishing -------------------------------------------------------------------------------

static bool look_for_loose(maker *m)
{
    const bys_network *net = m->net;
    bys_set *set = m->set;
    unsigned char *out = calloc((size_t)net->element_count + (size_t)net->point_count + 2, 1);
    int *work = malloc(((size_t)net->point_count + 1) * sizeof *work);
    unsigned char *mark = out ? out + net->element_count : NULL;
    for (int i = 0; out && i < set->change.section_count; i++)
        memset(out + net->sections[m->sections[i]].first, 1,
               (size_t)net->sections[m->sections[i]].count);
    for (int i = 0; out && i < set->change.element_count; i++)
        out[m->elements[i]] = 1;
    for (int i = 0; out && work && i < set->island_count && !set->loose; i++) {
        const bys_island *part = &net->islands[set->islands[i]];
        if (!part->anchored || bys_find_loose(net, set->islands[i], out, mark, work) == 0)
            continue;
        for (int k = 0; k < part->point_count && !set->loose; k++)
            if (mark[part->points[k]] & 2)
                set->loose = bys_find_name(net, part->points[k]);
    }
    free(work);
    free(out);
    return work && out;
}

/// A list in the arena, as long as it is.
static void *keep(maker *m, const void *list, int count, size_t size)
{
    void *room = bys_arena_get(m->arena, ((size_t)count + 1) * size);
    m->no_memory |= !room;
    if (room && count > 0)
        memcpy(room, list, (size_t)count * size);
    return room;
}

static void finish(maker *m)
{
    bys_set *set = m->set;
    bys_condition *c = &set->change;
    for (int i = 0; i < m->net->island_count; i++)
        if (m->hit[i])
            m->islands[set->island_count++] = i;
    set->islands = keep(m, m->islands, set->island_count, sizeof(int));
    c->id = set->id;
    c->sections = keep(m, m->sections, c->section_count, sizeof(int));
    c->elements = keep(m, m->elements, c->element_count, sizeof(int));
    c->floats = keep(m, m->floats, c->float_count, sizeof(int));
    c->loads = keep(m, m->loads, c->load_count, sizeof *m->loads);
    m->no_memory |= c->section_count + c->element_count > 0 && !look_for_loose(m);
}

static bool make_room(maker *m)
{
    const bys_network *net = m->net;
    size_t takes = 1;
    for (int i = 0; net->site && i < net->site->condition_count; i++)
        takes += (size_t)net->site->conditions[i].take_count;
    m->sections = malloc(((size_t)net->section_count + 1) * sizeof(int));
    m->elements = malloc(4 * takes * sizeof(int));
    m->floats = malloc(((size_t)net->float_count + 1) * sizeof(int));
    m->loads = malloc(takes * sizeof *m->loads);
    m->hit = calloc((size_t)net->island_count + 1, 1);
    m->islands = malloc(((size_t)net->island_count + 1) * sizeof(int));
    return m->sections && m->elements && m->floats && m->loads && m->hit && m->islands;
}

static void free_room(maker *m)
{
    void *all[] = {m->sections, m->elements, m->floats, m->loads, m->hit, m->islands};
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++)
        free(all[i]);
}

bys_rc bys_set_read(bys_set *out, bool *found, const bys_network *net, bys_arena *arena,
                    const char *text, bys_error *err)
{
    *out = (bys_set){.leg = -1, .point = -1, .next_copy = -1};
    *found = false;
    const size_t n = strcspn(text, ":");
    int kind = -1;
    for (size_t k = 0; k < sizeof words / sizeof words[0]; k++)
        if (strlen(words[k]) == n && !memcmp(words[k], text, n))
            kind = (int)k;
    if (kind < 0 || (text[n] == '\0') != (kind == BYS_SET_INTACT))
        return BYS_OK;
    maker m = {.net = net, .arena = arena, .set = out};
    out->kind = (bys_set_kind)kind;
    out->id = bys_arena_copy(arena, text);
    m.no_memory = !out->id || !make_room(&m);
    if (!m.no_memory && (*found = kind == BYS_SET_INTACT || read_rest(&m, text + n + 1)))
        finish(&m);
    free_room(&m);
    return m.no_memory ? bys_error_set(err, BYS_ENOMEM, 0, "out of memory for a condition")
                       : BYS_OK;
}
