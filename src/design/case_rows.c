// SPDX-License-Identifier: GPL-3.0-or-later
// Rows of all cases, in the order in which they were made.
#include "design/envelope.h"

#include <math.h>

static void add_case(bys_judge *judge, const bys_job *job, int lost, const char *words)
{
    bys_design *out = judge->out;
    const bys_case_seen *seen = lost < 0 ? &job->intact : &job->lost[lost];
    bys_case_result *row = &out->cases[out->case_count++];
    *row = (bys_case_result){
        .id = bys_case_name(judge, job, lost),
        .environment = bys_job_environment(judge, job)->id,
        .stage = bys_job_stage(judge, job)->id,
        .condition = bys_condition_name(judge, lost),
        .demanded = bys_job_demanded(judge, job) && (lost < 0 || judge->lost_demanded),
        .status = seen->status,
        .reason = seen->reason ? bys_judge_text(judge, "%s", seen->reason) : "",
        .analysis = bys_analysis,
        .factorisations = seen->factorisations,
        .residual_N = seen->residual,
        .sum_share = seen->sum_share,
        .largest_N = seen->largest_leg >= 0 ? seen->largest : NAN,
        .largest_leg = seen->largest_leg >= 0 ? out->legs[seen->largest_leg].id : "",
        .words = words};
    if (seen->status == BYS_STABLE) {
        out->case_stable++;
        out->worst_residual_N = fmax(out->worst_residual_N, seen->residual);
        out->worst_sum_share = fmax(out->worst_sum_share, seen->sum_share);
    }
}

void bys_judge_cases(bys_judge *judge)
{
    bys_design *out = judge->out;
    size_t total = 0;
    for (int j = 0; j < judge->job_count; j++)
        total += 1 + (judge->jobs[j].lost ? (size_t)judge->leg_count : 0);
    out->cases = bys_judge_get(judge, total, sizeof *out->cases);
    if (!out->cases)
        return;
    for (int j = 0; j < judge->job_count && !judge->no_memory; j++) {
        const bys_job *job = &judge->jobs[j];
        const char *words = bys_case_speech(judge, job);
        out->solve_count += job->solves;
        add_case(judge, job, -1, words);
        for (int l = 0; job->lost && l < judge->leg_count; l++)
            add_case(judge, job, l, words);
    }
    out->case_total = out->case_count;
}
