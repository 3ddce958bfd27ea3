// SPDX-License-Identifier: GPL-3.0-or-later
// Findings about floats, a line or raft at a time.
//
// NOTES     1. Reserve: share of the net lift (buoyancy of the whole float less its weight) that
// the
//              hardest pressed crop float has left. It is the reserve against growth and handling,
//              so a demanded limit is judged in slack water, at each level and stage; end floats,
//              which carry the pull of the leg, are left out of it.
//           2. In weather the floats next to a leg may be dragged under. That is reported with the
//              floats' names: what it does to the lines is in the loads.
// SOURCE    judged in slack water: own choice, as growers count floats against crop weight.
#include "design/findings.h"

#include <math.h>

static double crop_share(const bys_group_seen *seen)
{
    return seen->float_share;
}

static double all_share(const bys_group_seen *seen)
{
    return fmin(seen->float_share, seen->end_share);
}

static double fewest_up(const bys_group_seen *seen)
{
    return seen->under_count > 0 ? -(double)seen->under_count : NAN;
}

static const bys_network *net_of(const bys_judge *judge, const bys_group_worst *worst)
{
    return bys_job_stage(judge, worst->job)->net;
}

static bys_finding reserve(bys_judge *judge, const bys_group_worst *worst, int set)
{
    bys_finding f = bys_finding_start(judge, "float reserve", worst);
    f.value = 100.0 * worst->value;
    f.unit = "%";
    f.text = bys_judge_text(judge,
                            "%s: float %s is the hardest pressed, with %.0f %% of its net "
                            "lift left (%s)",
                            f.item, net_of(judge, worst)->floats[set].id, f.value,
                            bys_case_speech(judge, worst->job));
    return f;
}

static void at_rest(bys_judge *judge, int group, double limit)
{
    bys_group_worst worst;
    if (!bys_group_least(judge, group, crop_share, BYS_CASES_SLACK, &worst))
        return;
    bys_finding f = reserve(judge, &worst, worst.seen->float_set);
    if (!isnan(limit)) {
        const bys_job *unstable = bys_group_unstable(judge, group, BYS_CASES_SLACK);
        f.limit = 100.0 * limit;
        f.verdict = f.value < f.limit ? BYS_FAIL : unstable ? BYS_NOT_CHECKED : BYS_PASS;
        f.text = bys_judge_text(
            judge, "%s; at least %g %% is demanded%s", f.text, f.limit,
            f.verdict == BYS_NOT_CHECKED ? ", and not all cases in slack water came to rest" : "");
    }
    bys_finding_add(judge, &f);
}

/// A limit is demanded, the line has floats, and no case in slack water came to rest.
static void not_at_rest(bys_judge *judge, int group)
{
    bys_group_worst worst;
    const bys_job *unstable = bys_group_unstable(judge, group, BYS_CASES_SLACK);
    if (!unstable || bys_group_least(judge, group, crop_share, BYS_CASES_SLACK, &worst))
        return;
    const bys_finding f = {.kind = "float reserve",
                           .item = judge->groups[group].id,
                           .case_id = bys_case_name(judge, unstable, -1),
                           .condition = "intact",
                           .value = NAN,
                           .limit = 100.0 * judge->site->rules.float_reserve,
                           .unit = "%",
                           .verdict = BYS_NOT_CHECKED,
                           .basis = BYS_BASIS_USER,
                           .text = bys_judge_text(judge, "%s: slack water did not come to rest",
                                                  judge->groups[group].id)};
    bys_finding_add(judge, &f);
}

static void in_weather(bys_judge *judge, int group)
{
    bys_group_worst worst;
    if (!bys_group_least(judge, group, fewest_up, BYS_CASES_DEMANDED, &worst)) {
        if (bys_group_least(judge, group, all_share, BYS_CASES_DEMANDED, &worst)) {
            const bool end =
                worst.seen->end_share <= worst.seen->float_share || isnan(worst.seen->float_share);
            const bys_finding f =
                reserve(judge, &worst, end ? worst.seen->end_set : worst.seen->float_set);
            bys_finding_add(judge, &f);
        }
        return;
    }
    bys_finding f = bys_finding_start(judge, "float reserve", &worst);
    const int named = worst.seen->under_count < BYS_UNDER ? worst.seen->under_count : BYS_UNDER;
    const char *names = "";
    for (int i = 0; i < named; i++)
        names = bys_judge_text(judge, "%s%s%s", names, i ? ", " : "",
                               net_of(judge, &worst)->floats[worst.seen->under[i]].id);
    f.value = 0.0;
    f.unit = "%";
    f.text = bys_judge_text(judge,
                            "%s: %d of its floats or groups of floats are dragged under: "
                            "%s%s (%s)",
                            f.item, worst.seen->under_count, names,
                            worst.seen->under_count > named ? ", ..." : "",
                            bys_case_speech(judge, worst.job));
    bys_finding_add(judge, &f);
}

void bys_judge_float_findings(bys_judge *judge)
{
    const double limit = judge->site->rules.float_reserve;
    for (int g = 0; g < judge->group_count; g++) {
        at_rest(judge, g, limit);
        if (!isnan(limit))
            not_at_rest(judge, g);
        in_weather(judge, g);
    }
}
