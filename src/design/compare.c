// SPDX-License-Identifier: GPL-3.0-or-later
// The same lease twice: both designs, what differs in the layout, legs side by side.
#include "design/compare.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

void bys_comparison_free(bys_comparison *comparison)
{
    if (!comparison)
        return;
    bys_compare_work *work = (bys_compare_work *)comparison;
    if (!work->lent) {
        bys_design_free(comparison->before);
        bys_design_free(comparison->after);
    }
    bys_arena_free(work->arena);
    free(work);
}

int bys_comparison_exit(const bys_comparison *comparison)
{
    return bys_design_exit(comparison->after);
}

static int leg_by_id(const bys_design *design, const char *id)
{
    for (int i = 0; i < design->leg_count; i++)
        if (!strcmp(design->legs[i].id, id))
            return i;
    return -1;
}

static bool newly_fails(const bys_comparison *c, const bys_leg_pair *pair)
{
    return pair->after >= 0 && c->after->legs[pair->after].verdict == BYS_FAIL &&
           (pair->before < 0 || c->before->legs[pair->before].verdict != BYS_FAIL);
}

// Change of use; a leg that is on one side only, or has no use there, counts as the whole of it.
static double moved(const bys_comparison *c, const bys_leg_pair *pair)
{
    const double a = pair->before >= 0 ? c->before->legs[pair->before].utilisation : 0.0;
    const double b = pair->after >= 0 ? c->after->legs[pair->after].utilisation : 0.0;
    return fabs((isnan(b) ? 0.0 : b) - (isnan(a) ? 0.0 : a));
}

static bool stands_before(const bys_comparison *c, const bys_leg_pair *a, const bys_leg_pair *b)
{
    const bool fresh_a = newly_fails(c, a), fresh_b = newly_fails(c, b);
    return fresh_a != fresh_b ? fresh_a : moved(c, a) > moved(c, b) + 1e-9;
}

static void sort_legs(bys_comparison *c)
{
    for (int i = 1; i < c->leg_count; i++) {
        const bys_leg_pair pair = c->legs[i];
        int k = i;
        for (; k > 0 && stands_before(c, &pair, &c->legs[k - 1]); k--)
            c->legs[k] = c->legs[k - 1];
        c->legs[k] = pair;
    }
}

static void match_legs(bys_compare_work *work)
{
    bys_comparison *c = &work->comparison;
    const size_t most = (size_t)(c->before->leg_count + c->after->leg_count + 1);
    c->legs = bys_arena_get(work->arena, most * sizeof *c->legs);
    work->failed = work->failed || !c->legs;
    for (int i = 0; !work->failed && i < c->after->leg_count; i++) {
        const char *id = c->after->legs[i].id;
        c->legs[c->leg_count++] = (bys_leg_pair){id, leg_by_id(c->before, id), i};
    }
    for (int i = 0; !work->failed && i < c->before->leg_count; i++)
        if (leg_by_id(c->after, c->before->legs[i].id) < 0)
            c->legs[c->leg_count++] = (bys_leg_pair){c->before->legs[i].id, i, -1};
    sort_legs(c);
}

static double largest(const bys_design *design)
{
    double most = NAN;
    for (int i = 0; i < design->leg_count; i++)
        most = fmax(most, design->legs[i].tension_N);
    return most;
}

static const char *things(bys_arena *arena, int count, const char *one, const char *many)
{
    return count ? bys_arena_format(arena, "%d %s", count, count == 1 ? one : many)
                 : bys_arena_format(arena, "no %s", one);
}

static const char *change(bys_arena *arena, double before, double after)
{
    return bys_arena_format(arena, "%.1f kN to %.1f kN (%+.1f %%)", before / 1000.0,
                            after / 1000.0, 100.0 * (after / before - 1.0));
}

// The leg on both sides whose tension changes by the largest share; NULL if none changes by 0.1 %.
static const bys_leg_pair *most_changed(const bys_comparison *c)
{
    const bys_leg_pair *most = NULL;
    double share = 1e-3;
    for (int i = 0; i < c->leg_count; i++) {
        const bys_leg_pair *pair = &c->legs[i];
        if (pair->before < 0 || pair->after < 0)
            continue;
        const double off = fabs(c->after->legs[pair->after].tension_N /
                                    c->before->legs[pair->before].tension_N - 1.0);
        if (off > share) {
            share = off;
            most = pair;
        }
    }
    return most;
}

// "; leg tension: most on L05/N, 16.9 kN to 18.1 kN (+6.7 %); the largest stays 18.8 kN"
static const char *loads(const bys_comparison *c, bys_arena *arena)
{
    const bys_leg_pair *pair = most_changed(c);
    const double a = largest(c->before), b = largest(c->after);
    if (isnan(a) || isnan(b))
        return "";
    const char *moved_leg = pair ? change(arena, c->before->legs[pair->before].tension_N,
                                          c->after->legs[pair->after].tension_N) : "";
    const char *all = fabs(b / a - 1.0) < 5e-4 ? bys_arena_format(arena, "stays %.1f kN", b / 1e3)
                                               : change(arena, a, b);
    if (!moved_leg || !all)
        return NULL;
    return bys_arena_format(arena, "%s%s%s%s. The largest leg tension %s%s", pair ? ". " : "",
                            pair ? pair->id : "", pair ? " changes most: " : "", moved_leg,
                            fabs(b / a - 1.0) < 5e-4 ? "" : "goes from ", all);
}

static void put_headline(bys_compare_work *work)
{
    bys_comparison *c = &work->comparison;
    const char *fresh = things(work->arena, c->fresh_count, "new failure", "new failures");
    const char *mended = things(work->arena, c->mended_count, "failure is mended",
                                "failures are mended");
    const char *tensions = loads(c, work->arena);
    c->headline = fresh && mended && tensions
                      ? bys_arena_format(work->arena, "Before: %s. After: %s. %c%s, %s%s.",
                                         c->before->verdict, c->after->verdict,
                                         c->fresh_count ? *fresh : 'N', fresh + 1, mended,
                                         tensions)
                      : NULL;
    work->failed = work->failed || !c->headline;
}

bys_rc bys_design_run_lean(bys_design **out, const bys_site *site,
                           const bys_check_options *options, bys_messages *messages,
                           bys_error *err)
{
    static const bys_check_options plain = BYS_CHECK_OPTIONS_INIT;
    bys_check_options own = options ? *options : plain;
    own.intact_only = own.intact_only || !site->rules.demand_lost_leg;
    return bys_design_run(out, site, &own, messages, err);
}

static bys_rc finish(bys_compare_work *work, bys_error *err)
{
    match_legs(work);
    if (!work->failed)
        bys_compare_checks(work);
    if (!work->failed)
        put_headline(work);
    return work->failed ? bys_error_set(err, BYS_ENOMEM, 0, "out of memory in comparing") : BYS_OK;
}

static bys_rc start(bys_compare_work **out, bys_error *err)
{
    *out = calloc(1, sizeof **out);
    if (*out && ((*out)->arena = bys_arena_new()))
        return BYS_OK;
    free(*out);
    return bys_error_set(err, BYS_ENOMEM, 0, "out of memory in comparing");
}

static bys_rc keep(bys_comparison **out, bys_compare_work *work, bys_rc rc)
{
    *out = rc ? NULL : &work->comparison;
    if (rc)
        bys_comparison_free(&work->comparison);
    return rc;
}

bys_rc bys_comparison_of(bys_comparison **out, bys_design *before, bys_design *after,
                         bys_error *err)
{
    bys_compare_work *work;
    *out = NULL;
    const bys_rc rc = start(&work, err);
    if (rc)
        return rc;
    work->lent = true;
    work->comparison.before = before;
    work->comparison.after = after;
    return keep(out, work, finish(work, err));
}

bys_rc bys_comparison_run(bys_comparison **out, const bys_site *before, const bys_site *after,
                          const bys_check_options *options, bys_messages *messages,
                          bys_error *err)
{
    bys_compare_work *work;
    *out = NULL;
    bys_rc rc = start(&work, err);
    if (rc)
        return rc;
    bys_comparison *c = &work->comparison;
    rc = bys_design_run_lean(&c->before, before, options, messages, err);
    if (!rc)
        rc = bys_design_run_lean(&c->after, after, options, messages, err);
    if (!rc)
        rc = bys_compare_layout(work, before, after, err);
    return keep(out, work, rc ? rc : finish(work, err));
}
