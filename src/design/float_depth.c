// SPDX-License-Identifier: GPL-3.0-or-later
// Depth of floats against their rating.
//
// NOTES     1. Depth of the lowest part of the float below the still water of the case. A rating that
//              is stated is a limit in every demanded case, with a leg lost too where the rules
//              demand that; where they do not, that is reported.
//           2. Crests of waves over the float are left out.
#include "design/findings.h"

#include <math.h>

void bys_observe_depth(const bys_judge *judge, bys_job *job, const bys_state *state, int island,
                       int lost)
{
    const bys_stage_set *set = bys_job_stage(judge, job);
    const double level = bys_job_environment(judge, job)->sea.level;
    const bys_island *part = &set->net->islands[island];
    for (int k = 0; isfinite(level) && k < part->float_count; k++) {
        const int f = part->floats[k];
        const bys_float_set *floats = &set->net->floats[f];
        const bys_float_part *p = &floats->part->u.buoy;
        const double depth = level - state->x[3 * floats->point + 2] - p->strop;
        const int group = floats->line >= 0 ? floats->line : set->group_of_point[floats->point];
        bys_depth_seen *seen = lost < 0 ? &job->group[group].deep : &job->group[group].deep_lost;
        if (p->depth_rating > 0.0 && depth / p->depth_rating > seen->share)
            *seen = (bys_depth_seen){depth / p->depth_rating, depth, f, lost};
    }
}

typedef struct {
    const bys_job *job;
    bys_depth_seen seen;
} deepest;

static deepest deepest_of(const bys_judge *judge, int group, bool lost)
{
    deepest found = {NULL, {0.0, 0.0, 0, -1}};
    for (int j = 0; j < judge->job_count; j++) {
        const bys_job *job = &judge->jobs[j];
        const bys_depth_seen *seen = lost ? &job->group[group].deep_lost : &job->group[group].deep;
        if (bys_job_demanded(judge, job) && seen->share > found.seen.share)
            found = (deepest){job, *seen};
    }
    return found;
}

/// First demanded case that is not stable with some leg of the group's connected part lost.
static bool lost_unstable(const bys_judge *judge, int group)
{
    for (int j = 0; j < judge->job_count; j++) {
        const bys_job *job = &judge->jobs[j];
        const bys_network *net = bys_job_stage(judge, job)->net;
        for (int l = 0; job->lost && bys_job_demanded(judge, job) && l < net->leg_count; l++) {
            const bys_leg *leg = &net->legs[l];
            const bool mine = leg->line >= 0 ? leg->line == judge->groups[group].line
                                             : leg->body == judge->groups[group].body;
            if (mine && job->lost[l].status != BYS_STABLE)
                return true;
        }
    }
    return false;
}

static void depth_finding(bys_judge *judge, int group, bool lost)
{
    const deepest d = deepest_of(judge, group, lost);
    if (!d.job)
        return;
    const bys_float_set *set = &bys_job_stage(judge, d.job)->net->floats[d.seen.set];
    const bool demanded = !lost || judge->lost_demanded;
    const bool unstable = lost ? lost_unstable(judge, group)
                               : bys_group_unstable(judge, group, BYS_CASES_DEMANDED) != NULL;
    bys_finding f = {.kind = "float depth",
                     .item = set->id,
                     .case_id = bys_case_name(judge, d.job, d.seen.lost),
                     .condition = bys_condition_name(judge, d.seen.lost),
                     .value = d.seen.depth,
                     .limit = set->part->u.buoy.depth_rating,
                     .unit = "m",
                     .basis = set->part->item.basis};
    f.verdict = !demanded           ? BYS_REPORTED
                : f.value > f.limit ? BYS_FAIL
                : unstable          ? BYS_NOT_CHECKED
                                    : BYS_PASS;
    f.text = bys_judge_text(
        judge, "%s: float %s is drawn %.1f m under%s%s, %s its rating of %.4g m (%s)",
        judge->groups[group].id, f.item, f.value, d.seen.lost >= 0 ? " with a leg lost, " : "",
        d.seen.lost >= 0 ? judge->stages[0].net->legs[d.seen.lost].id : "",
        f.value > f.limit ? "beyond" : "within", f.limit, bys_case_speech(judge, d.job));
    if (f.verdict == BYS_NOT_CHECKED)
        f.text = bys_judge_text(judge, "%s; not all cases came to rest", f.text);
    bys_finding_add(judge, &f);
}

void bys_judge_depth_findings(bys_judge *judge)
{
    for (int g = 0; g < judge->group_count; g++) {
        depth_finding(judge, g, false);
        depth_finding(judge, g, true);
    }
}
