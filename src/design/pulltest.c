// SPDX-License-Identifier: GPL-3.0-or-later
// Pull tests: from files to capacities.
#include "design/pulltest.h"
#include "base/codes.h"

#include <math.h>
#include <string.h>

static const double usual_drags[] = {0.5, 1.0, 2.0, 3.0, 4.0, 5.0};

const char *bys_capacity_kind_name(bys_capacity_kind kind)
{
    static const char *const names[] = {"any", "ultimate", "fractile", "proof"};
    return (unsigned)kind < 4 ? names[kind] : "any";
}

static bool sane(const bys_pulltest_options *o)
{
    bool ok = o->permitted_drag_m >= 0.0 && o->roll_out_share > 0.0 && o->roll_out_share < 1.0 &&
              !(o->variation <= 0.0) && (unsigned)o->kind < 4 && o->at_count >= 0;
    for (int i = 0; ok && o->at_m && i < o->at_count; i++)
        ok = o->at_m[i] >= 0.0;
    return ok && isfinite(o->permitted_drag_m);
}

static bool fits(const bys_pull_test *test, bys_capacity_kind kind)
{
    return kind == BYS_CAPACITY_ANY || test->hold.wanted == (kind == BYS_CAPACITY_PROOF);
}

static void refuse_kind(const bys_pull_test *test, bys_pull_work *work)
{
    const bys_place place = {bys_messages_file(work->messages, test->file), 1, 1};
    const bool hold = test->hold.wanted;
    bys_messages_add(work->messages, BYS_FAULT, BYS_M_capacity_kind, place,
                     "a %s test gives a capacity of the kind %s, and %s is asked for",
                     hold ? "hold" : "pull", hold ? "proof" : "ultimate or fractile",
                     bys_capacity_kind_name(work->options->kind));
}

// All files are read before any is reduced, so that all faults are told at once.
static void read_all(bys_pulltest *result, const char *const *paths, int count,
                     bys_pull_work *work)
{
    for (int i = 0; i < count && !work->failed; i++) {
        bys_pull_test *test = &result->tests[i];
        if (bys_pull_read(test, paths[i], work) && !fits(test, work->options->kind))
            refuse_kind(test, work);
        result->test_count++;
    }
}

static void set_drags(bys_pulltest *result, bys_pull_work *work)
{
    const bys_pulltest_options *o = work->options;
    const double *from = o->at_m ? o->at_m : usual_drags;
    const int n = o->at_m ? o->at_count : (int)(sizeof usual_drags / sizeof usual_drags[0]);
    result->at_m = bys_arena_get(work->arena, (size_t)(n + 1) * sizeof *result->at_m);
    if (!result->at_m) {
        work->failed = true;
        return;
    }
    memcpy(result->at_m, from, (size_t)n * sizeof *from);
    result->at_count = work->at_count = n;
    work->at_m = result->at_m;
}

static void sum_up(bys_pulltest *result)
{
    for (int i = 0; i < result->test_count; i++) {
        const bys_pull_hold *hold = &result->tests[i].hold;
        result->failed = result->failed || (hold->wanted && hold->verdict == BYS_FAIL);
        result->incomplete =
            result->incomplete || (hold->wanted && hold->verdict == BYS_NOT_CHECKED);
    }
    for (int i = 0; i < result->group_count; i++)
        result->incomplete = result->incomplete || isnan(result->groups[i].capacity_N);
}

static void make(bys_pulltest *result, const char *const *paths, int count, bys_pull_work *work)
{
    const size_t before = bys_messages_faults(work->messages);
    result->tests = bys_arena_get(work->arena, (size_t)count * sizeof *result->tests);
    if (!result->tests) {
        work->failed = true;
        return;
    }
    set_drags(result, work);
    read_all(result, paths, count, work);
    if (work->failed || bys_messages_faults(work->messages) > before)
        return;
    for (int i = 0; i < count; i++)
        bys_pull_reduce(&result->tests[i], work);
    bys_pull_compare(result, work);
    sum_up(result);
}

bys_rc bys_pulltest_run(bys_pulltest **out, const char *const *paths, int count,
                        const bys_pulltest_options *options, bys_messages *messages,
                        bys_error *err)
{
    static const bys_pulltest_options usual = BYS_PULLTEST_OPTIONS_INIT;
    *out = NULL;
    if (count < 1 || (options && !sane(options)))
        return bys_error_set(err, BYS_EUSAGE, 0, "no record, or an option out of its range");
    bys_arena *arena = bys_arena_new();
    bys_pulltest_owner *owner = arena ? bys_arena_get(arena, sizeof *owner) : NULL;
    if (!owner) {
        bys_arena_free(arena);
        return bys_error_set(err, BYS_ENOMEM, 0, "out of memory");
    }
    bys_pull_work work = {.arena = arena, .messages = messages,
                          .options = options ? options : &usual};
    const size_t before = bys_messages_faults(messages);
    owner->arena = arena;
    owner->result.options = *work.options;
    owner->result.options.at_m = NULL;
    owner->result.options.at_count = 0;
    make(&owner->result, paths, count, &work);
    const size_t faults = bys_messages_faults(messages) - before;
    if (!work.failed && !faults) {
        *out = &owner->result;
        return BYS_OK;
    }
    bys_arena_free(arena);
    if (work.failed)
        return bys_error_set(err, BYS_ENOMEM, 0, "out of memory");
    return bys_error_set(err, work.missing ? BYS_ENOINPUT : BYS_EINPUT,
                         work.missing ? BYS_M_file_open : 0, "%s",
                         work.missing ? "a record cannot be opened" : "a record has faults");
}

void bys_pulltest_free(bys_pulltest *result)
{
    if (result)
        bys_arena_free(((bys_pulltest_owner *)(void *)result)->arena);
}

int bys_pulltest_exit(const bys_pulltest *result)
{
    return result->failed ? 1 : result->incomplete ? 2 : 0;
}
