// SPDX-License-Identifier: GPL-3.0-or-later
// Findings about gear, excursion, clearance and equilibrium. A limit that the rules do not set
// makes the finding reported; one that the user sets is demanded.
//
// NOTES     1. Float reserve: share of the net lift (buoyancy of the whole float less its weight)
// that
//              the worst float of a line has left, end floats apart.
//           2. Gear clearance: lowest point of the gear above the bed, upright and swung; the lower
//              of the two counts.
//           3. Excursion: largest move in plan from slack water at the same level and stage,
//           intact.
//           4. Clearance: least distance in plan between two backbones, intact, slack water
//           included.
#include "design/findings.h"
#include "design/envelope.h"

#include <math.h>
#include <stdlib.h>

void bys_finding_add(bys_judge *judge, const bys_finding *finding)
{
    bys_design *out = judge->out;
    if (out->finding_count == judge->finding_capacity) {
        const int capacity = judge->finding_capacity ? 2 * judge->finding_capacity : 64;
        bys_finding *grown = bys_judge_get(judge, (size_t)capacity, sizeof *grown);
        if (!grown)
            return;
        for (int i = 0; i < out->finding_count; i++)
            grown[i] = out->findings[i];
        out->findings = grown;
        judge->finding_capacity = capacity;
    }
    out->findings[out->finding_count++] = *finding;
}

// ---- worst of a group over the cases -------------------------------------------------------

static double gear_height(const bys_group_seen *seen)
{
    return fmin(seen->upright, seen->swung);
}
static double excursion(const bys_group_seen *seen)
{
    return -seen->excursion;
}
static double clearance(const bys_group_seen *seen)
{
    return seen->clearance;
}

bool bys_job_counts(const bys_judge *judge, const bys_job *job, bys_cases cases)
{
    if (cases == BYS_CASES_SLACK)
        return bys_environment_slack(bys_job_environment(judge, job));
    return cases == BYS_CASES_ALL || bys_job_demanded(judge, job);
}

bool bys_group_least(const bys_judge *judge, int group, double (*value)(const bys_group_seen *),
                     bys_cases cases, bys_group_worst *worst)
{
    *worst = (bys_group_worst){NAN, NULL, NULL, group};
    for (int j = 0; j < judge->job_count; j++) {
        const bys_job *job = &judge->jobs[j];
        if (!bys_job_counts(judge, job, cases))
            continue;
        const double here = value(&job->group[group]);
        if (!isnan(here) && !(here >= worst->value))
            *worst = (bys_group_worst){here, job, &job->group[group], group};
    }
    return worst->job != NULL;
}

const bys_job *bys_group_unstable(const bys_judge *judge, int group, bys_cases cases)
{
    const bys_group *g = &judge->groups[group];
    for (int j = 0; j < judge->job_count; j++) {
        const bys_job *job = &judge->jobs[j];
        const bys_network *net = bys_job_stage(judge, job)->net;
        const int island = g->line >= 0   ? net->lines[g->line].island
                           : g->body >= 0 ? net->bodies[g->body].island
                                          : -1;
        if (island >= 0 && bys_job_counts(judge, job, cases) && job->island[island] != BYS_STABLE)
            return job;
    }
    return NULL;
}

bys_finding bys_finding_start(bys_judge *judge, const char *kind, const bys_group_worst *worst)
{
    return (bys_finding){.kind = kind,
                         .item = judge->groups[worst->group].id,
                         .case_id = bys_case_name(judge, worst->job, -1),
                         .condition = "intact",
                         .value = worst->value,
                         .limit = NAN,
                         .unit = "m",
                         .verdict = BYS_REPORTED,
                         .basis = BYS_BASIS_USER,
                         .text = ""};
}

void bys_finding_judge(bys_judge *judge, bys_finding *finding, int group, bool holds)
{
    if (isnan(finding->limit))
        return;
    const bys_job *unstable = holds ? bys_group_unstable(judge, group, BYS_CASES_DEMANDED) : NULL;
    finding->verdict = !holds ? BYS_FAIL : unstable ? BYS_NOT_CHECKED : BYS_PASS;
    if (unstable)
        finding->text = bys_judge_text(judge, "%s; case %s did not come to rest", finding->text,
                                       bys_case_name(judge, unstable, -1));
}

// ---- what is demanded ----------------------------------------------------------------------

static const char *demanded_words(bys_judge *judge, double limit, const char *unit, const char *how)
{
    return isnan(limit) ? "" : bys_judge_text(judge, "; %s %g %s is demanded", how, limit, unit);
}

// ---- gear, excursion, clearance ------------------------------------------------------------

static void gear_finding(bys_judge *judge, const bys_group_worst *worst)
{
    bys_finding f = bys_finding_start(judge, "gear clearance", worst);
    f.limit = judge->site->rules.gear_clearance;
    f.text = bys_judge_text(
        judge,
        "%s: the gear hangs %.2f m above the bed at its lowest, %.2f m when it swings "
        "(%s)%s%s",
        f.item, worst->seen->upright, worst->seen->swung, bys_case_speech(judge, worst->job),
        worst->value < 0.0 ? "; it would lie on the bed" : "",
        demanded_words(judge, f.limit, "m", "at least"));
    bys_finding_judge(judge, &f, worst->group, f.value >= f.limit);
    bys_finding_add(judge, &f);
}

static void excursion_finding(bys_judge *judge, const bys_group_worst *worst)
{
    bys_finding f = bys_finding_start(judge, "excursion", worst);
    f.value = -worst->value;
    f.limit = judge->site->rules.max_excursion;
    f.text = bys_judge_text(judge, "%s moves up to %.1f m in plan from slack water (%s)%s", f.item,
                            f.value, bys_case_speech(judge, worst->job),
                            demanded_words(judge, f.limit, "m", "at most"));
    bys_finding_judge(judge, &f, worst->group, f.value <= f.limit);
    bys_finding_add(judge, &f);
}

static void clearance_finding(bys_judge *judge, const bys_group_worst *worst)
{
    bys_finding f = bys_finding_start(judge, "line clearance", worst);
    f.limit = judge->site->rules.line_clearance;
    f.text = bys_judge_text(
        judge, "%s and %s come within %.1f m of each other in plan (%s)%s%s", f.item,
        judge->groups[worst->seen->other].id, f.value, bys_case_speech(judge, worst->job),
        f.value <= 0.0 ? "; they cross" : "", demanded_words(judge, f.limit, "m", "at least"));
    bys_finding_judge(judge, &f, worst->group, f.value >= f.limit);
    bys_finding_add(judge, &f);
}

/// Each group where a limit is demanded; else only the worst of all.
static void each_or_worst(bys_judge *judge, double (*value)(const bys_group_seen *),
                          bys_cases cases, bool each,
                          void (*add)(bys_judge *, const bys_group_worst *))
{
    bys_group_worst worst = {NAN, NULL, NULL, 0}, here;
    for (int g = 0; g < judge->group_count; g++) {
        if (!bys_group_least(judge, g, value, cases, &here))
            continue;
        if (each)
            add(judge, &here);
        else if (!(here.value >= worst.value))
            worst = here;
    }
    if (!each && worst.job)
        add(judge, &worst);
}

// ---- equilibrium ---------------------------------------------------------------------------

/// One finding for all cases of one condition that did not come to rest.
static void unstable_finding(bys_judge *judge, int lost, bool demanded)
{
    const bys_job *first = NULL;
    int count = 0, total = 0;
    for (int j = 0; j < judge->job_count; j++) {
        const bys_job *job = &judge->jobs[j];
        if (bys_job_demanded(judge, job) != demanded || (lost >= 0 && !job->lost))
            continue;
        total++;
        const bys_case_seen *seen = lost < 0 ? &job->intact : &job->lost[lost];
        if (seen->status == BYS_STABLE)
            continue;
        count++;
        if (!first)
            first = job;
    }
    if (!first)
        return;
    const bys_where where = {first, lost};
    bys_finding f = {.kind = "equilibrium",
                     .case_id = bys_case_name(judge, first, lost),
                     .condition = bys_condition_name(judge, lost),
                     .value = count,
                     .limit = NAN,
                     .unit = "cases",
                     .basis = BYS_BASIS_READ};
    f.item = lost < 0 ? "intact" : judge->stages[0].net->legs[lost].id;
    f.verdict = demanded && (lost < 0 || judge->lost_demanded) ? BYS_NOT_CHECKED : BYS_REPORTED;
    f.text = bys_judge_text(judge, "%s: %d of %d cases did not come to rest; the first is %s: %s",
                            f.condition, count, total, f.case_id, bys_unstable_reason(&where));
    bys_finding_add(judge, &f);
}

static void scope_finding(bys_judge *judge)
{
    const bys_design *out = judge->out;
    const bys_leg_result *least = NULL;
    for (int l = 0; l < out->leg_count; l++)
        if (!isnan(out->legs[l].scope) && (!least || out->legs[l].scope < least->scope))
            least = &out->legs[l];
    if (!least)
        return;
    const bys_finding f = {
        .kind = "scope",
        .item = least->id,
        .case_id = "",
        .condition = "intact",
        .value = least->scope,
        .limit = NAN,
        .unit = "",
        .verdict = BYS_REPORTED,
        .basis = BYS_BASIS_USER,
        .text = bys_judge_text(judge,
                               "%s has the least scope: %.2f times the depth at the highest "
                               "level",
                               least->id, least->scope)};
    bys_finding_add(judge, &f);
}

void bys_judge_findings(bys_judge *judge)
{
    const bys_rules *rules = &judge->site->rules;
    unstable_finding(judge, -1, true);
    unstable_finding(judge, -1, false);
    for (int l = 0; l < judge->leg_count; l++)
        unstable_finding(judge, l, true);
    if (judge->options.intact_only && judge->lost_demanded) {
        const bys_finding f = {.kind = "equilibrium",
                               .item = "lost legs",
                               .case_id = "",
                               .condition = "",
                               .value = NAN,
                               .limit = NAN,
                               .unit = "",
                               .verdict = BYS_NOT_CHECKED,
                               .basis = BYS_BASIS_READ,
                               .text =
                                   "the rules demand each leg lost in turn, and it was left out"};
        bys_finding_add(judge, &f);
    }
    bys_judge_line_findings(judge);
    bys_judge_stretch_findings(judge);
    bys_judge_depth_findings(judge);
    bys_judge_place_findings(judge);
    bys_judge_float_findings(judge);
    each_or_worst(judge, gear_height, BYS_CASES_DEMANDED, !isnan(rules->gear_clearance),
                  gear_finding);
    each_or_worst(judge, excursion, BYS_CASES_DEMANDED, !isnan(rules->max_excursion),
                  excursion_finding);
    each_or_worst(judge, clearance, BYS_CASES_ALL, !isnan(rules->line_clearance),
                  clearance_finding);
    scope_finding(judge);
    bys_judge_lost_findings(judge);
}
