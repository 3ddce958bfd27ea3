// SPDX-License-Identifier: GPL-3.0-or-later
// Polylines for the plan drawing: at rest in slack water (else as laid out), and in the case in
// which the leg with the highest utilisation governs, which is solved again for this.
#include "design/envelope.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
    bys_judge *judge;
    const bys_stage_set *set;
    const bys_state *rest, *worst; ///< NULL = none
} drawing;

static bool usable(const bys_state *state, int island)
{
    return state && state->islands[island].status == BYS_STABLE;
}

static const bys_state *rest_state(const bys_judge *judge, const bys_stage_set *set)
{
    const bys_state *rest = NULL;
    double lowest = INFINITY;
    for (int e = 0; e < judge->env.count; e++)
        if (set->rest[e] && judge->env.items[e].sea.level < lowest) {
            lowest = judge->env.items[e].sea.level;
            rest = set->rest[e];
        }
    return rest;
}

static void point_at(double out[3], const bys_network *net, const bys_state *state, int point)
{
    const bys_point *p = &net->points[point];
    if (state) {
        memcpy(out, state->x + 3 * point, 3 * sizeof(double));
    } else if (p->kind == BYS_POINT_BODY) {
        const bys_body *b = &net->bodies[p->body];
        for (int k = 0; k < 3; k++)
            out[k] = b->x[k] + b->rotation[3 * k] * p->x[0] + b->rotation[3 * k + 1] * p->x[1] +
                     b->rotation[3 * k + 2] * p->x[2];
    } else {
        memcpy(out, p->x, 3 * sizeof(double));
    }
}

static double *points_at(const drawing *d, const bys_state *state, const int *points, int count)
{
    double *xyz = bys_judge_get(d->judge, 3 * (size_t)count, sizeof(double));
    for (int k = 0; xyz && k < count; k++)
        point_at(xyz + 3 * k, d->set->net, state, points[k]);
    return xyz;
}

static bys_plan_line *add_line(const drawing *d, const char *id, const char *kind,
                               const int *points, int count)
{
    bys_design *out = d->judge->out;
    const int island = d->set->net->points[points[0]].island;
    bys_plan_line *line = &out->plan[out->plan_count++];
    *line = (bys_plan_line){
        .id = id, .kind = kind, .count = count, .utilisation = NAN, .verdict = BYS_REPORTED};
    line->xyz = points_at(d, usable(d->rest, island) ? d->rest : NULL, points, count);
    if (usable(d->worst, island))
        line->worst_xyz = points_at(d, d->worst, points, count);
    return line;
}

// ---- kinds ---------------------------------------------------------------------------------

/// Points along some contiguous sections; malloc'd; *count = their number.
static int *along(const bys_network *net, int first, int sections, int *count)
{
    int total = 1;
    for (int s = first; s < first + sections; s++)
        total += net->sections[s].count;
    int *points = malloc((size_t)total * sizeof *points);
    *count = 0;
    for (int s = first; points && s < first + sections; s++)
        for (int e = 0; e < net->sections[s].count; e++)
            points[(*count)++] = net->elements[net->sections[s].first + e].a;
    if (points)
        points[(*count)++] = net->sections[first + sections - 1].b;
    return points;
}

static void mark_by_finding(const bys_judge *judge, bys_plan_line *line, int first, int sections,
                            const bys_network *net)
{
    for (int f = 0; f < judge->out->finding_count; f++) {
        const bys_finding *finding = &judge->out->findings[f];
        for (int s = first; s < first + sections && strcmp(finding->kind, "line strength") == 0;
             s++)
            if (strcmp(net->sections[s].id, finding->item) == 0) {
                line->utilisation = finding->value;
                line->verdict = finding->verdict;
            }
    }
}

/// All sections count for the mark; the two strands of a backbone share their points, one is drawn.
static void draw_sections(const drawing *d, const char *id, const char *kind, int first,
                          int sections, int leg)
{
    int count;
    const int drawn = leg < 0 && sections > 1 ? 1 : sections;
    int *points = drawn > 0 ? along(d->set->net, first, drawn, &count) : NULL;
    if (!points)
        return;
    bys_plan_line *line = add_line(d, id, kind, points, count);
    if (leg >= 0) {
        line->utilisation = d->judge->out->legs[leg].utilisation;
        line->verdict = d->judge->out->legs[leg].verdict;
    } else {
        mark_by_finding(d->judge, line, first, sections, d->set->net);
    }
    free(points);
}

/// Four corners of the deck at the frame's height, closed.
static double *raft_outline(const drawing *d, const bys_state *state, int body)
{
    const bys_body *b = &d->set->net->bodies[body];
    const double half[2] = {0.5 * b->part->u.raft.length, 0.5 * b->part->u.raft.width};
    static const double signs[5][2] = {{1, 1}, {1, -1}, {-1, -1}, {-1, 1}, {1, 1}};
    const double *origin = state ? state->body_x + 3 * body : b->x;
    const double *r = state ? state->body_r + 9 * body : b->rotation;
    double *xyz = bys_judge_get(d->judge, 15, sizeof(double));
    for (int k = 0; xyz && k < 5; k++)
        for (int c = 0; c < 3; c++)
            xyz[3 * k + c] =
                origin[c] + r[3 * c] * signs[k][0] * half[0] + r[3 * c + 1] * signs[k][1] * half[1];
    return xyz;
}

static void draw_raft(const drawing *d, int body)
{
    bys_design *out = d->judge->out;
    const bys_body *b = &d->set->net->bodies[body];
    if (!b->part)
        return;
    bys_plan_line *line = &out->plan[out->plan_count++];
    *line = (bys_plan_line){
        .id = b->id, .kind = "raft", .count = 5, .utilisation = NAN, .verdict = BYS_REPORTED};
    line->xyz = raft_outline(d, usable(d->rest, b->island) ? d->rest : NULL, body);
    if (usable(d->worst, b->island))
        line->worst_xyz = raft_outline(d, d->worst, body);
}

static void draw(const drawing *d)
{
    const bys_network *net = d->set->net;
    d->judge->out->plan = bys_judge_get(d->judge, (size_t)(net->section_count + net->body_count),
                                        sizeof *d->judge->out->plan);
    if (!d->judge->out->plan)
        return;
    for (int l = 0; l < net->line_count; l++)
        draw_sections(d, net->lines[l].id, "backbone", net->lines[l].first_section,
                      net->lines[l].section_count, -1);
    for (int l = 0; l < net->leg_count; l++)
        draw_sections(d, net->legs[l].id, "leg", net->legs[l].first_section,
                      net->legs[l].section_count, l);
    for (int l = 0; l < net->leg_count; l++)
        for (int k = 0; k < net->legs[l].arm_count; k++) {
            const int arm = net->legs[l].first_section + net->legs[l].section_count + k;
            draw_sections(d, net->sections[arm].id, "leg", arm, 1, l);
        }
    for (int s = 0; s < net->section_count; s++)
        if (net->sections[s].line < 0 && net->sections[s].leg < 0)
            draw_sections(d, net->sections[s].id, net->body_count > 0 ? "head rope" : "backbone", s,
                          1, -1);
    for (int b = 0; b < net->body_count; b++)
        draw_raft(d, b);
}

bys_rc bys_judge_plan(bys_judge *judge, bys_error *err)
{
    const bys_design *out = judge->out;
    drawing d = {.judge = judge, .set = &judge->stages[0]};
    bys_state *worst = NULL;
    bys_rc rc = BYS_OK;
    if (out->leg_count > 0) {
        const bys_leg_result *leg = &out->legs[out->by_utilisation[0]];
        const bool anchor = leg->anchor.check.utilisation >= leg->strength.utilisation ||
                            isnan(leg->strength.utilisation);
        int job, lost;
        if (bys_case_find(judge, anchor ? leg->anchor.check.case_id : leg->strength.case_id, &job,
                          &lost)) {
            rc = bys_judge_again(&worst, judge, &judge->jobs[job], lost, err);
            d.set = bys_job_stage(judge, &judge->jobs[job]);
            d.worst = worst;
        }
    }
    d.rest = rest_state(judge, d.set);
    if (!rc)
        draw(&d);
    bys_state_free(worst);
    return rc;
}
