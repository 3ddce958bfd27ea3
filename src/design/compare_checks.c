// SPDX-License-Identifier: GPL-3.0-or-later
// Checks of two designs side by side. The checks of a design are the line and the anchor of each
// leg and its findings; they are matched by kind, item and, for findings, whether the case is in
// slack water (a line has one float reserve at rest and one in weather).
#include "design/compare.h"

#include <math.h>
#include <string.h>

/// One check of one design.
typedef struct {
    const char *kind, *item, *unit, *text;
    bool slack;
    double value, limit;
    bys_verdict verdict;
} check;

typedef struct { check *items; int count; } checks;

static check of_strength(const char *kind, const char *item, const bys_strength *s)
{
    return (check){.kind = kind,
                   .item = item,
                   .unit = "",
                   .text = s->why,
                   .value = s->utilisation,
                   .limit = 1.0,
                   .verdict = s->verdict};
}

static check of_finding(const bys_finding *f)
{
    return (check){f->kind,  f->item,  f->unit, f->text, !strncmp(f->case_id, "slack/", 6),
                   f->value, f->limit, f->verdict};
}

static checks list_checks(bys_compare_work *work, const bys_design *d)
{
    const size_t most = (size_t)(2 * d->leg_count + d->finding_count + 1);
    checks all = {bys_arena_get(work->arena, most * sizeof(check)), 0};
    work->failed = work->failed || !all.items;
    for (int i = 0; all.items && i < d->leg_count; i++) {
        const bys_leg_result *leg = &d->legs[i];
        all.items[all.count++] = of_strength("line", leg->id, &leg->strength);
        all.items[all.count++] = of_strength("anchor", leg->id, &leg->anchor.check);
    }
    for (int i = 0; all.items && i < d->finding_count; i++)
        all.items[all.count++] = of_finding(&d->findings[i]);
    return all;
}

static const check *find(const checks *all, const check *like)
{
    for (int i = 0; i < all->count; i++)
        if (!strcmp(all->items[i].kind, like->kind) && !strcmp(all->items[i].item, like->item) &&
            all->items[i].slack == like->slack)
            return &all->items[i];
    return NULL;
}

static bys_check_pair pair_of(const check *before, const check *after)
{
    const check *main = after ? after : before;
    return (bys_check_pair){.kind = main->kind,
                            .item = main->item,
                            .unit = main->unit,
                            .value_before = before ? before->value : NAN,
                            .value_after = after ? after->value : NAN,
                            .limit = main->limit,
                            .verdict_before = before ? before->verdict : BYS_REPORTED,
                            .verdict_after = after ? after->verdict : BYS_REPORTED,
                            .before = before != NULL,
                            .after = after != NULL,
                            .text = main->text};
}

static bool is_reserve(const check *c)
{
    return !strcmp(c->kind, "float reserve") && c->slack;
}

static void sort_pair(bys_comparison *c, const check *before, const check *after)
{
    const bys_check_pair pair = pair_of(before, after);
    const bool failed = before && before->verdict == BYS_FAIL;
    if (after && after->verdict == BYS_FAIL && !failed)
        c->fresh[c->fresh_count++] = pair;
    else if (after && after->verdict == BYS_NOT_CHECKED &&
             !(before && before->verdict == BYS_NOT_CHECKED))
        c->open[c->open_count++] = pair;
    else if (failed && (!after || after->verdict == BYS_PASS))
        c->mended[c->mended_count++] = pair;
    if (is_reserve(after ? after : before))
        c->floats[c->float_count++] = pair;
}

// A check that is gone because its leg or line is gone is not mended.
static bool item_gone(const bys_design *after, const check *before)
{
    if (strcmp(before->kind, "line") != 0 && strcmp(before->kind, "anchor") != 0)
        return false;
    for (int i = 0; i < after->leg_count; i++)
        if (!strcmp(after->legs[i].id, before->item))
            return false;
    return true;
}

static void give_room(bys_compare_work *work, int most)
{
    bys_comparison *c = &work->comparison;
    bys_check_pair **lists[] = {&c->fresh, &c->open, &c->mended, &c->floats};
    for (int i = 0; i < 4; i++) {
        *lists[i] = bys_arena_get(work->arena, (size_t)(most + 1) * sizeof(bys_check_pair));
        work->failed = work->failed || !*lists[i];
    }
}

// Reserves that change come first.
static void sort_floats(bys_comparison *c)
{
    for (int i = 1; i < c->float_count; i++) {
        const bys_check_pair pair = c->floats[i];
        const double size = fabs(pair.value_after - pair.value_before);
        int k = i;
        for (; k > 0; k--) {
            const bys_check_pair *other = &c->floats[k - 1];
            if (!(size > fabs(other->value_after - other->value_before) + 1e-9))
                break;
            c->floats[k] = *other;
        }
        c->floats[k] = pair;
    }
}

void bys_compare_checks(bys_compare_work *work)
{
    bys_comparison *c = &work->comparison;
    const checks before = list_checks(work, c->before), after = list_checks(work, c->after);
    give_room(work, before.count + after.count);
    if (work->failed)
        return;
    for (int i = 0; i < after.count; i++)
        sort_pair(c, find(&before, &after.items[i]), &after.items[i]);
    for (int i = 0; i < before.count; i++)
        if (!find(&after, &before.items[i]) && !item_gone(c->after, &before.items[i]))
            sort_pair(c, &before.items[i], NULL);
    sort_floats(c);
}
