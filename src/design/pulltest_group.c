// SPDX-License-Identifier: GPL-3.0-or-later
// Several pull tests: may they be compared, which repeat each other, and what capacity follows.
//
// GIVEN     reduced tests
// RETURNED  comparable or the reasons why not; groups of one anchor, soil, tackle and rate with the
//           5 % fractiles of peak and capacity
// NOTES     1. Tackle and soil agree when their words do (upper and lower case aside); rates when
//              they differ by a tenth or less. A rate that is not stated agrees with none.
//           2. Ultimate: the least of the group's capacities. Fractile: Annex D over them, with what
//              was a lower bound as a bound.
#include "design/pulltest.h"
#include "num/statistics.h"

#include <math.h>
#include <string.h>
#include <strings.h>

static bool same_rate(double a, double b)
{
    return fabs(a - b) <= 0.1 * fmax(a, b);
}

static bool same_words(const char *a, const char *b)
{
    return strcasecmp(a, b) == 0;
}

// Tests of one anchor agree among themselves also when no rate is stated anywhere: they are then
// not called comparable, but a test alone is still a group.
static bool same_group(const bys_pull_test *a, const bys_pull_test *b)
{
    return same_words(a->anchor, b->anchor) && same_words(a->soil, b->soil) &&
           same_words(a->tackle, b->tackle) && fabs(a->mass_kg - b->mass_kg) <= 0.01 * a->mass_kg &&
           same_rate(a->load_rate_mps, b->load_rate_mps);
}

static void add_why(bys_pulltest *result, bys_pull_work *work, const char *text)
{
    if (text)
        result->why_not[result->why_not_count++] = text;
    else
        work->failed = true;
}

static void differ(bys_pulltest *result, bys_pull_work *work, const bys_pull_test *a,
                   const bys_pull_test *b)
{
    if (!same_words(a->soil, b->soil))
        add_why(result, work, bys_arena_format(work->arena, "the soil differs: %s in %s, %s in %s",
                                               a->test, a->soil, b->test, b->soil));
    if (!same_words(a->tackle, b->tackle))
        add_why(result, work, bys_arena_format(work->arena,
            "the tackle differs: %s by %s, %s by %s", a->test, a->tackle, b->test, b->tackle));
    if (isnan(b->load_rate_mps))
        add_why(result, work, bys_arena_format(work->arena, "the load rate of %s is not stated",
                                               b->test));
    else if (!isnan(a->load_rate_mps) && !same_rate(a->load_rate_mps, b->load_rate_mps))
        add_why(result, work, bys_arena_format(work->arena,
            "the load rate differs: %s at %.4g m/s, %s at %.4g m/s", a->test, a->load_rate_mps,
            b->test, b->load_rate_mps));
}

static void find_comparable(bys_pulltest *result, bys_pull_work *work)
{
    const bys_pull_test *first = NULL;
    int pulls = 0;
    for (int i = 0; i < result->test_count; i++)
        pulls += !result->tests[i].hold.wanted;
    result->why_not =
        bys_arena_get(work->arena, ((size_t)result->test_count * 3 + 2) * sizeof(char *));
    if (!result->why_not) {
        work->failed = true;
        return;
    }
    for (int i = 0; i < result->test_count; i++) {
        const bys_pull_test *test = &result->tests[i];
        if (test->hold.wanted)
            continue;
        if (!first && pulls > 1 && isnan(test->load_rate_mps))
            add_why(result, work, bys_arena_format(work->arena,
                "the load rate of %s is not stated", test->test));
        if (first)
            differ(result, work, first, test);
        first = first ? first : test;
    }
    if (pulls == 0)
        add_why(result, work, "there is no pull test, only hold tests");
    result->comparable = result->why_not_count == 0;
}

static bys_pull_group *group_of(bys_pulltest *result, int index)
{
    for (int g = 0; g < result->group_count; g++)
        if (same_group(&result->tests[result->groups[g].tests[0]], &result->tests[index]))
            return &result->groups[g];
    return NULL;
}

static void make_groups(bys_pulltest *result, bys_pull_work *work)
{
    const size_t n = (size_t)result->test_count;
    result->groups = bys_arena_get(work->arena, (n + 1) * sizeof *result->groups);
    int *room = bys_arena_get(work->arena, (n * n + 1) * sizeof *room);
    if (!result->groups || !room) {
        work->failed = true;
        return;
    }
    for (int i = 0; i < result->test_count; i++) {
        const bys_pull_test *test = &result->tests[i];
        if (test->hold.wanted)
            continue;
        bys_pull_group *group = group_of(result, i);
        if (!group) {
            group = &result->groups[result->group_count];
            *group = (bys_pull_group){.anchor = test->anchor, .soil = test->soil,
                                      .mass_kg = test->mass_kg, .capacity_why = "",
                                      .tests = room + n * (size_t)result->group_count};
            result->group_count++;
        }
        group->tests[group->test_count++] = i;
    }
}

static void fractiles(bys_pull_fractile out[BYS_PULL_FRACTILES], const bys_sample *samples, int n,
                      double variation)
{
    bool known_all = true;
    for (int i = 0; i < n; i++)
        known_all = known_all && !isnan(samples[i].value);
    for (int i = 0; i < BYS_PULL_FRACTILES; i++) {
        const bool normal = i % 2 == 1, known = i / 2 == 1;
        const double V = known ? variation : NAN;
        if (!known_all || (known && isnan(variation))) {
            out[i] = (bys_pull_fractile){normal, V, NAN, NAN, NAN, NAN, n, 0, false,
                                         known_all ? "no variation is stated"
                                                   : "a test gives none"};
            continue;
        }
        const bys_fractile f = bys_fractile_find(samples, n, !normal, V);
        out[i] = (bys_pull_fractile){normal, V, f.k, f.mean, f.deviation, f.value, f.count,
                                     f.bounds, f.without_bounds, f.why};
    }
}

static void group_fractiles(bys_pull_group *group, const bys_pulltest *result,
                            bys_pull_work *work)
{
    bys_sample *peaks = bys_arena_get(work->arena, (size_t)group->test_count * sizeof *peaks);
    bys_sample *holds = bys_arena_get(work->arena, (size_t)group->test_count * sizeof *holds);
    if (!peaks || !holds) {
        work->failed = true;
        return;
    }
    for (int i = 0; i < group->test_count; i++) {
        const bys_pull_test *test = &result->tests[group->tests[i]];
        peaks[i] = (bys_sample){test->peak_N, test->lower_bound};
        holds[i] = (bys_sample){test->capacity_N, test->capacity_bound};
    }
    fractiles(group->peak, peaks, group->test_count, result->options.variation);
    fractiles(group->capacity, holds, group->test_count, result->options.variation);
}

static void least_and_mean(bys_pull_group *group, const bys_pulltest *result)
{
    double least = INFINITY, sum = 0.0;
    for (int i = 0; i < group->test_count; i++) {
        const double c = result->tests[group->tests[i]].capacity_N;
        sum += c; // one that is not known makes both not known
        least = isnan(c) || isnan(least) ? NAN : fmin(least, c);
    }
    group->least_N = least;
    group->mean_N = sum / group->test_count;
}

void bys_pull_group_capacity(bys_pull_group *group, const bys_pulltest *result,
                             bys_pull_work *work)
{
    const bys_pulltest_options *options = &result->options;
    least_and_mean(group, result);
    group_fractiles(group, result, work);
    group->kind = options->kind == BYS_CAPACITY_FRACTILE ? BYS_CAPACITY_FRACTILE
                                                         : BYS_CAPACITY_ULTIMATE;
    if (group->kind == BYS_CAPACITY_ULTIMATE) {
        group->capacity_N = group->least_N;
        group->capacity_why = isnan(group->least_N) ? "a test gives none"
                              : group->test_count == 1 ? "of one test" : "the least of its tests";
        return;
    }
    const int at = (options->normal ? 1 : 0) + (isnan(options->variation) ? 0 : 2);
    group->capacity_N = fmax(group->capacity[at].value, 0.0);
    if (isnan(group->capacity[at].value))
        group->capacity_N = NAN;
    group->capacity_why = isnan(group->capacity_N) ? group->capacity[at].why
                                                   : "5 % fractile by EN 1990 Annex D";
}

void bys_pull_compare(bys_pulltest *result, bys_pull_work *work)
{
    find_comparable(result, work);
    if (!work->failed)
        make_groups(result, work);
    for (int i = 0; i < result->group_count && !work->failed; i++)
        bys_pull_group_capacity(&result->groups[i], result, work);
}
