// SPDX-License-Identifier: GPL-3.0-or-later
// What differs between two layouts. Each side becomes a list of facts (what, id, aspect, value in
// words) from its networks, one a stage; facts are matched by what, id and aspect. Changes with the
// same words share one row.
#include "design/compare.h"
#include "tune/tune.h"

#include <math.h>
#include <string.h>

typedef struct { const char *what, *id, *aspect, *value; } fact;

typedef struct {
    bys_compare_work *work;
    fact *items;
    int count, capacity;
} facts;

static void add(facts *list, const char *what, const char *id, const char *aspect,
                const char *value)
{
    bys_arena *arena = list->work->arena;
    if (list->count == list->capacity) {
        const int more = list->capacity ? 2 * list->capacity : 256;
        fact *items = bys_arena_get(arena, (size_t)more * sizeof *items);
        if (!items) {
            list->work->failed = true;
            return;
        }
        if (list->count)
            memcpy(items, list->items, (size_t)list->count * sizeof *items);
        list->items = items;
        list->capacity = more;
    }
    const fact made = {what, bys_arena_copy(arena, id), bys_arena_copy(arena, aspect), value};
    if (!made.id || !made.aspect || !made.value)
        list->work->failed = true;
    else
        list->items[list->count++] = made;
}

// ---- facts of one network ----------------------------------------------------------------------

static const char *cut(const facts *list, const bys_network *net, const bys_section *s)
{
    const double bedded = net->stage >= 0 ? net->site->stages[net->stage].bedding_in : 0.0;
    const double grown = s->part ? 1.0 + s->part->u.line.bedding_in * bedded : 1.0;
    return bys_arena_format(list->work->arena, "%s, %.2f m", s->part ? s->part->item.id : "line",
                            s->length / grown);
}

static void add_lines(facts *list, const bys_network *net)
{
    for (int l = 0; l < net->line_count; l++) {
        const bys_line *line = &net->lines[l];
        const bys_section *s = &net->sections[line->first_section];
        const double *a = net->points[line->points[0]].x;
        const double *b = net->points[line->points[line->point_count - 1]].x;
        add(list, "line", line->id, "backbone",
            bys_arena_format(list->work->arena, "%d x %s %.2f m", line->section_count,
                             s->part ? s->part->item.id : "line", line->length));
        add(list, "line", line->id, "middle",
            bys_arena_format(list->work->arena, "middle at x %.1f m, y %.1f m",
                             0.5 * (a[0] + b[0]), 0.5 * (a[1] + b[1])));
    }
}

static void add_legs(facts *list, const bys_network *net)
{
    for (int l = 0; l < net->leg_count; l++) {
        const bys_leg *leg = &net->legs[l];
        for (int k = 0; k < leg->section_count; k++) {
            const bys_section *s = &net->sections[leg->first_section + k];
            add(list, "leg", leg->id, s->id, cut(list, net, s));
        }
    }
    for (int f = 0; f < net->fitting_count; f++)
        if (net->fittings[f].leg >= 0)
            add(list, "leg", net->legs[net->fittings[f].leg].id, net->fittings[f].id,
                bys_arena_copy(list->work->arena, net->fittings[f].part->item.id));
}

static void add_anchors(facts *list, const bys_network *net)
{
    for (int a = 0; a < net->anchor_count; a++) {
        const bys_anchor *anchor = &net->anchors[a];
        const double *x = net->points[anchor->point].x;
        add(list, "anchor", anchor->id, "part",
            bys_arena_copy(list->work->arena, anchor->part ? anchor->part->item.id : "fixed"));
        add(list, "anchor", anchor->id, "place",
            bys_arena_format(list->work->arena, "x %.2f m, y %.2f m", x[0], x[1]));
    }
    for (int b = 0; b < net->body_count; b++)
        add(list, "raft", net->bodies[b].id, "place",
            bys_arena_format(list->work->arena, "x %.2f m, y %.2f m", net->bodies[b].x[0],
                             net->bodies[b].x[1]));
}

static double floats_like(const bys_network *net, int i, bool *first)
{
    const bys_float_set *set = &net->floats[i];
    double count = 0.0;
    *first = true;
    for (int k = 0; k < net->float_count; k++) {
        const bys_float_set *other = &net->floats[k];
        if (other->line != set->line || other->part != set->part || other->at_end != set->at_end)
            continue;
        *first = *first && k >= i;
        count += other->count;
    }
    return count;
}

static void add_floats(facts *list, const bys_network *net, const char *stage)
{
    for (int i = 0; i < net->float_count; i++) {
        const bys_float_set *set = &net->floats[i];
        bool first;
        const double count = set->line >= 0 ? floats_like(net, i, &first) : 0.0;
        if (set->line < 0 || !first)
            continue;
        const char *aspect = bys_arena_format(list->work->arena, "%s%s%s", stage,
                                              set->part->item.id, set->at_end ? "/end" : "");
        if (aspect)
            add(list, "floats", net->lines[set->line].id, aspect,
                bys_arena_format(list->work->arena, "%.6g x %s%s", count, set->part->item.id,
                                 set->at_end ? " at the ends" : ""));
    }
}

static void add_gear(facts *list, const bys_network *net, const char *stage)
{
    for (int i = 0; i < net->gear_count; i++) {
        const bys_gear_set *set = &net->gears[i];
        double count = 0.0, mass = 0.0;
        bool first = set->line >= 0;
        for (int k = 0; set->line >= 0 && k < net->gear_count; k++) {
            const bys_gear_set *other = &net->gears[k];
            if (other->line != set->line || other->part != set->part)
                continue;
            first = first && k >= i;
            count += other->count;
            mass += other->count * other->values->mass_in_water;
        }
        if (!first)
            continue;
        const char *aspect =
            bys_arena_format(list->work->arena, "%s%s", stage, set->part->item.id);
        if (aspect)
            add(list, "gear", net->lines[set->line].id, aspect,
                bys_arena_format(list->work->arena, "%.6g x %s, %.6g kg in water", count,
                                 set->part->item.id, mass));
    }
}

static bys_rc gather(facts *list, const bys_site *site, bys_error *err)
{
    bys_tuning tuning = {NULL, 0, NULL};
    bys_rc rc = bys_tuning_find(&tuning, site, NULL, err);
    const int count = site->stage_count > 0 ? site->stage_count : 1;
    for (int s = 0; !rc && s < count; s++) {
        bys_network *net = NULL;
        const char *stage = site->stage_count > 0 ? site->stages[s].item.id : "";
        rc = bys_network_tuned(&net, site, site->stage_count > 0 ? s : -1, &tuning, NULL, err);
        if (!rc && s == 0) {
            add_lines(list, net);
            add_legs(list, net);
            add_anchors(list, net);
        }
        if (!rc && *stage)
            add(list, "stage", stage, "there", bys_arena_copy(list->work->arena, "there"));
        if (!rc) {
            const char *in = bys_arena_format(list->work->arena, "%s ", stage);
            add_floats(list, net, in ? in : "");
            add_gear(list, net, in ? in : "");
        }
        bys_network_free(net);
    }
    bys_tuning_free(&tuning);
    return rc;
}

// ---- differences -------------------------------------------------------------------------------

static const fact *find(const facts *list, const fact *like)
{
    for (int i = 0; i < list->count; i++) {
        const fact *f = &list->items[i];
        if (!strcmp(f->what, like->what) && !strcmp(f->id, like->id) &&
            !strcmp(f->aspect, like->aspect))
            return f;
    }
    return NULL;
}

/// A row while items are still being added to it.
typedef struct { bys_change_row row; int items; const char *last; } growing;

static void put(bys_compare_work *work, growing *rows, int *count, const fact *f,
                const char *before, const char *after)
{
    enum { NAMED = 3 };
    growing *row = NULL;
    for (int i = 0; i < *count && !row; i++)
        if (!strcmp(rows[i].row.what, f->what) && !strcmp(rows[i].row.before, before) &&
            !strcmp(rows[i].row.after, after))
            row = &rows[i];
    if (row && !strcmp(row->last, f->id))
        return; // the same in another stage
    if (!row) {
        row = &rows[(*count)++];
        *row = (growing){{f->what, f->id, before, after}, 1, f->id};
        return;
    }
    row->last = f->id;
    if (++row->items <= NAMED) {
        row->row.items = bys_arena_format(work->arena, "%s, %s", row->row.items, f->id);
        work->failed = work->failed || !row->row.items;
    }
}

static void close_rows(bys_compare_work *work, const growing *rows, int count)
{
    bys_comparison *c = &work->comparison;
    c->changes = bys_arena_get(work->arena, (size_t)(count + 1) * sizeof *c->changes);
    work->failed = work->failed || !c->changes;
    for (int i = 0; !work->failed && i < count; i++) {
        c->changes[i] = rows[i].row;
        if (rows[i].items > 3)
            c->changes[i].items = bys_arena_format(work->arena, "%s and %d more",
                                                   rows[i].row.items, rows[i].items - 3);
        work->failed = work->failed || !c->changes[i].items;
    }
    c->change_count = work->failed ? 0 : count;
}

bys_rc bys_compare_layout(bys_compare_work *work, const bys_site *before, const bys_site *after,
                          bys_error *err)
{
    facts old = {.work = work}, now = {.work = work};
    bys_rc rc = gather(&old, before, err);
    if (!rc)
        rc = gather(&now, after, err);
    if (rc)
        return rc;
    growing *rows = bys_arena_get(work->arena,
                                  (size_t)(old.count + now.count + 1) * sizeof *rows);
    if (work->failed || !rows)
        return bys_error_set(err, BYS_ENOMEM, 0, "out of memory in comparing");
    int count = 0;
    for (int i = 0; i < now.count; i++) {
        const fact *f = &now.items[i], *was = find(&old, f);
        if (!was || strcmp(was->value, f->value) != 0)
            put(work, rows, &count, f, was ? was->value : "-", f->value);
    }
    for (int i = 0; i < old.count; i++)
        if (!find(&now, &old.items[i]))
            put(work, rows, &count, &old.items[i], old.items[i].value, "-");
    close_rows(work, rows, count);
    return work->failed ? bys_error_set(err, BYS_ENOMEM, 0, "out of memory in comparing") : BYS_OK;
}
