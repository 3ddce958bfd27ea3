// SPDX-License-Identifier: GPL-3.0-or-later
// Ropes that are pulled beyond the last point of their tension-strain curve.
//
// NOTES     Beyond its last point a curve goes on with the slope that it has there: what was measured
//           says nothing about it. The tension itself is hardly changed where loads and not given
//           movements decide it, so that this is reported and changes no verdict.
#include "design/envelope.h"

#include <math.h>

/// N, tension at the end of the curve that the rope follows in that case.
static double curve_end(const bys_judge *judge, const bys_job *job, const bys_line_part *line)
{
    const bool storm = bys_job_environment(judge, job)->sea.storm && line->storm.stiffness > 0.0;
    const bys_stretch_spec *law = storm ? &line->storm : &line->working;
    return law->count > 1 ? law->tension[law->count - 1] : INFINITY;
}

static void beyond_finding(bys_judge *judge, const bys_piece *piece, const bys_job *job,
                           double tension)
{
    const double end = curve_end(judge, job, &piece->part->u.line);
    const bys_finding f = {
        .kind = "rope curve",
        .item = piece->id,
        .case_id = bys_case_name(judge, job, -1),
        .condition = "intact",
        .value = tension / 1000.0,
        .limit = end / 1000.0,
        .unit = "kN",
        .verdict = BYS_REPORTED,
        .basis = piece->part->item.basis,
        .text = bys_judge_text(judge,
                               "%s is pulled with %s, beyond the end of its stretch curve at %s "
                               "(%s): its last slope was taken on",
                               piece->id, bys_kilonewtons(judge, tension),
                               bys_kilonewtons(judge, end), bys_case_speech(judge, job))};
    bys_finding_add(judge, &f);
}

void bys_judge_stretch_findings(bys_judge *judge)
{
    for (int p = 0; p < judge->piece_count; p++) {
        const bys_piece *piece = &judge->pieces[p];
        const bys_job *worst = NULL;
        double most = 1.0, tension = 0.0;
        if (!piece->part || piece->part->kind != BYS_PART_ROPE)
            continue;
        for (int j = 0; j < judge->job_count; j++) {
            const bys_job *job = &judge->jobs[j];
            const double end = curve_end(judge, job, &piece->part->u.line);
            if (!bys_job_demanded(judge, job) || job->piece[p] <= most * end)
                continue;
            worst = job;
            tension = job->piece[p];
            most = tension / end;
        }
        if (worst)
            beyond_finding(judge, piece, worst, tension);
    }
}
