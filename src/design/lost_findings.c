// SPDX-License-Identifier: GPL-3.0-or-later
// What a line can reach with a leg lost: area of the outline over all cases, and the lines in it.
#include "design/judge.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/// Nominal backbone of a line, 3 numbers a point; malloc'd.
static double *nominal(const bys_network *net, int line)
{
    const bys_line *l = &net->lines[line];
    double *xyz = malloc(3 * (size_t)(l->point_count + 1) * sizeof *xyz);
    for (int k = 0; xyz && k < l->point_count; k++)
        memcpy(xyz + 3 * k, net->points[l->points[k]].x, 3 * sizeof(double));
    return xyz;
}

static const char *reached(bys_judge *judge, int own_line, const double *corners, int n)
{
    const bys_network *net = judge->stages[0].net;
    const char *list = "";
    for (int l = 0; l < net->line_count; l++) {
        double *xyz = l == own_line ? NULL : nominal(net, l);
        if (xyz && bys_plan_crosses(corners, n, xyz, net->lines[l].point_count))
            list = bys_judge_text(judge, "%s%s%s", list, *list ? ", " : "", net->lines[l].id);
        free(xyz);
    }
    return list;
}

static void sweep_finding(bys_judge *judge, int leg)
{
    const bys_network *net = judge->stages[0].net;
    double support[BYS_SWEEP], corners[8 * BYS_SWEEP];
    for (int k = 0; k < BYS_SWEEP; k++)
        support[k] = -INFINITY;
    for (int j = 0; j < judge->job_count; j++)
        for (int k = 0; judge->jobs[j].sweep && k < BYS_SWEEP; k++)
            support[k] = fmax(support[k], judge->jobs[j].sweep[leg * BYS_SWEEP + k]);
    const int n = bys_sweep_outline(corners, support);
    if (n < 3)
        return;
    const int line = net->legs[leg].line, body = net->legs[leg].body;
    const char *moving = line >= 0 ? net->lines[line].id : body >= 0 ? net->bodies[body].id : "it";
    const char *lines = reached(judge, line, corners, n);
    const double area = bys_plan_area(corners, n);
    const bys_finding f = {
        .kind = "swept area",
        .item = net->legs[leg].id,
        .case_id = "",
        .condition = bys_condition_name(judge, leg),
        .value = area,
        .limit = NAN,
        .unit = "m2",
        .verdict = BYS_REPORTED,
        .basis = BYS_BASIS_READ,
        .text = bys_judge_text(judge, "with %s lost, %s stays within %.2f ha over all cases%s%s%s",
                               net->legs[leg].id, moving, area / 1e4,
                               *lines ? " and reaches " : " and reaches no other line", lines,
                               *lines ? "; tensions hold until first contact" : "")};
    bys_finding_add(judge, &f);
}

void bys_judge_lost_findings(bys_judge *judge)
{
    for (int l = 0; l < judge->leg_count && !judge->no_memory; l++)
        sweep_finding(judge, l);
}
