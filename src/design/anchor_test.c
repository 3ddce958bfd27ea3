// SPDX-License-Identifier: GPL-3.0-or-later
// An anchor's capacity from the records of its own pull tests.
//
// GIVEN     records named by the anchor part, its permitted drag, the kind that it or the profile
//           asks for
// RETURNED  ultimate: the least of its tests; fractile: Annex D over them; proof: the least load
//           that its hold tests held
// NOTES     1. All records must be of one anchor, soil, tackle and rate, and of the mass of the
//              part.
//           2. The capacity is good for pulls up to the least rise tested; a record that states
//              none was pulled along the bed.
//           3. A test holds for the whole system, its chain included: chain on the bed is not
//              added.
// SOURCE    reduction: pulltest.h; note 2: design rule of this program
#include "design/judge.h"
#include "phys/phys.h"
#include <byssus/pulltest.h>

#include <math.h>
#include <string.h>

static bys_capacity_kind kind_of(const char *word)
{
    for (int k = BYS_CAPACITY_ULTIMATE; k <= BYS_CAPACITY_PROOF; k++)
        if (strcmp(bys_capacity_kind_name((bys_capacity_kind)k), word) == 0)
            return (bys_capacity_kind)k;
    return BYS_CAPACITY_ULTIMATE;
}

static const char *unlike(bys_judge *judge, const bys_pulltest *result, const bys_anchor_part *part)
{
    for (int i = 0; i < result->test_count; i++) {
        const double m = result->tests[i].mass_kg;
        if (part->mass > 0.0 && fabs(m - part->mass) > 0.01 * part->mass)
            return bys_judge_text(judge, "pull test %s is of an anchor of %.4g kg, not %.4g kg",
                                  result->tests[i].test, m, part->mass);
    }
    return "";
}

static void take_proof(bys_judge *judge, bys_anchor_test *to, const bys_pulltest *result)
{
    to->capacity = INFINITY;
    for (int i = 0; i < result->test_count; i++) {
        const bys_pull_hold *hold = &result->tests[i].hold;
        if (hold->verdict != BYS_PASS && !*to->missing)
            to->missing = bys_judge_text(judge, "hold test %s is not accepted: %s",
                                         result->tests[i].test, hold->why);
        to->capacity = fmin(to->capacity, hold->load_N);
    }
}

static void take_group(bys_judge *judge, bys_anchor_test *to, const bys_pulltest *result)
{
    const bys_pull_group *group = &result->groups[0];
    if (result->group_count != 1) {
        to->missing = "its pull tests are not of one anchor, soil, tackle and rate";
        return;
    }
    to->capacity = group->capacity_N;
    if (isnan(group->capacity_N))
        to->missing = bys_judge_text(judge, "its pull tests give no capacity: %s",
                                     group->capacity_why);
}

static double least_rise(const bys_pulltest *result)
{
    double least = INFINITY;
    for (int i = 0; i < result->test_count; i++) {
        const double rise = result->tests[i].pull_angle_rad;
        least = fmin(least, rise > 0.0 ? rise : 0.0);
    }
    return least;
}

static void reduce(bys_judge *judge, bys_anchor_test *to, const bys_pulltest *result)
{
    to->missing = unlike(judge, result, to->part);
    to->angle = least_rise(result);
    to->soil = bys_judge_text(judge, "%s", result->tests[0].soil);
    if (strcmp(to->kind, "proof") == 0)
        take_proof(judge, to, result);
    else
        take_group(judge, to, result);
    to->how = bys_judge_text(judge, "%s capacity by %d pull test%s in %s, at %.2g m of drag",
                             to->kind, result->test_count, result->test_count == 1 ? "" : "s",
                             to->soil, result->options.permitted_drag_m);
}

static bool read_one(bys_judge *judge, bys_anchor_test *to, const bys_anchor_part *part)
{
    bys_pulltest_options options = BYS_PULLTEST_OPTIONS_INIT;
    bys_pulltest *result = NULL;
    bys_error err = {0};
    const char *wanted = judge->site->rules.capacity_basis;
    *to = (bys_anchor_test){.part = part, .capacity = NAN, .angle = 0.0, .soil = "", .how = "",
                            .missing = ""};
    const bys_capacity_kind kind = kind_of(*part->capacity_kind   ? part->capacity_kind
                                           : wanted && *wanted ? wanted : "ultimate");
    to->kind = bys_capacity_kind_name(kind);
    options.kind = kind;
    options.permitted_drag_m = part->permitted_drag;
    const bys_rc rc = bys_pulltest_run(&result, part->records, part->record_count, &options,
                                       judge->messages, &err);
    if (rc == BYS_OK)
        reduce(judge, to, result);
    judge->no_memory |= rc == BYS_ENOMEM;
    bys_pulltest_free(result);
    return rc == BYS_OK;
}

bool bys_judge_tests(bys_judge *judge)
{
    const bys_site *site = judge->site;
    bool ok = true;
    judge->tests = bys_judge_get(judge, (size_t)site->part_count, sizeof *judge->tests);
    for (int i = 0; judge->tests && i < site->part_count; i++) {
        const bys_part *part = &site->parts[i];
        if (part->kind == BYS_PART_ANCHOR && part->u.anchor.record_count > 0)
            ok &= read_one(judge, &judge->tests[judge->test_count++], &part->u.anchor);
    }
    return ok && !judge->no_memory;
}

const bys_anchor_test *bys_anchor_test_of(const bys_judge *judge, const bys_anchor_part *part)
{
    for (int i = 0; i < judge->test_count; i++)
        if (judge->tests[i].part == part)
            return &judge->tests[i];
    return NULL;
}
