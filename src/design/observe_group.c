// SPDX-License-Identifier: GPL-3.0-or-later
// What one intact state says about each longline and raft: floats, gear over the bed, excursion,
// clearance to neighbours, distance inside the lease; and the outline reached with a leg lost.
#include "design/judge.h"
#include "phys/phys.h"

#include <math.h>
#include <stdlib.h>

static bool group_stable(const bys_stage_set *set, const bys_job *job, int point)
{
    return job->island[set->net->points[point].island] == BYS_STABLE;
}

// ---- floats and gear -----------------------------------------------------------------------

static void keep_float(bys_group_seen *group, double share, int set, bool at_end)
{
    double *least = at_end ? &group->end_share : &group->float_share;
    if (isnan(*least) || share < *least) {
        *least = share;
        *(at_end ? &group->end_set : &group->float_set) = set;
    }
    if (share > 0.0)
        return;
    if (group->under_count < BYS_UNDER)
        group->under[group->under_count] = set;
    group->under_count++;
}

static void look_at_floats(const bys_judge *judge, bys_job *job, const bys_state *state)
{
    const bys_stage_set *set = bys_job_stage(judge, job);
    const bys_sea *sea = &bys_job_environment(judge, job)->sea;
    for (int f = 0; f < set->net->float_count; f++) {
        const bys_float_set *floats = &set->net->floats[f];
        if (!group_stable(set, job, floats->point))
            continue;
        const bys_float_part *part = &floats->part->u.buoy;
        const double net_lift =
            (sea->rho * part->volume - part->mass) * sea->gravity - floats->growth_weight;
        const double share = fmax(state->lift_left[f] / net_lift, 0.0);
        const int group = floats->line >= 0 ? floats->line : set->group_of_point[floats->point];
        keep_float(&job->group[group], share, f, floats->at_end);
    }
}

static void look_at_gear(const bys_judge *judge, bys_job *job, const bys_state *state)
{
    const bys_stage_set *set = bys_job_stage(judge, job);
    const bys_sea *sea = &bys_job_environment(judge, job)->sea;
    for (int g = 0; sea->has_bed && g < set->net->gear_count; g++) {
        const bys_gear_set *gear = &set->net->gears[g];
        if (!group_stable(set, job, gear->point))
            continue;
        const double *at = state->x + 3 * gear->point;
        const double bed = bys_sea_bed_z(sea, at[0], at[1]);
        const double upright = at[2] - gear->part->u.gear.drop - gear->values->height - bed;
        bys_group_seen *group = &job->group[set->group_of_point[gear->point]];
        group->swung = fmin(state->gear_low[g] - bed, group->swung);
        if (isnan(group->upright) || upright < group->upright) {
            group->upright = upright;
            group->gear_set = g;
        }
    }
}

// ---- places in plan ------------------------------------------------------------------------

const bys_state *bys_rest_of(const bys_judge *judge, const bys_job *job)
{
    const bys_stage_set *set = bys_job_stage(judge, job);
    const bys_environment *here = bys_job_environment(judge, job);
    if (bys_environment_slack(here))
        return NULL; // these are being made, perhaps by another thread
    for (int e = 0; e < judge->env.count; e++)
        if (set->rest[e] && judge->env.items[e].sea.level == here->sea.level)
            return set->rest[e];
    return NULL;
}

static void move_of(double *most, const bys_state *state, const bys_state *rest, int point)
{
    const double *a = state->x + 3 * point, *b = rest->x + 3 * point;
    const double move = hypot(a[0] - b[0], a[1] - b[1]);
    if (isnan(*most) || move > *most)
        *most = move;
}

static void look_at_excursion(const bys_judge *judge, bys_job *job, const bys_state *state)
{
    const bys_network *net = bys_job_stage(judge, job)->net;
    const bys_state *rest = bys_rest_of(judge, job);
    for (int g = 0; rest && g < judge->group_count; g++) {
        const bys_group *group = &judge->groups[g];
        const int count = group->line >= 0   ? net->lines[group->line].point_count
                          : group->body >= 0 ? net->bodies[group->body].point_count
                                             : 0;
        const int *points = group->line >= 0   ? net->lines[group->line].points
                            : group->body >= 0 ? net->bodies[group->body].points
                                               : NULL;
        for (int k = 0; k < count; k++) {
            const int island = net->points[points[k]].island;
            if (job->island[island] == BYS_STABLE && rest->islands[island].status == BYS_STABLE)
                move_of(&job->group[g].excursion, state, rest, points[k]);
        }
    }
}

static void look_inside(const bys_judge *judge, bys_job *job, const bys_state *state)
{
    const bys_site *site = judge->site;
    const bys_stage_set *set = bys_job_stage(judge, job);
    for (int s = 0; site->lease_count >= 3 && s < set->net->section_count; s++) {
        const bys_section *section = &set->net->sections[s];
        bys_group_seen *group = &job->group[set->group_of_section[s]];
        if (!group_stable(set, job, section->a))
            continue;
        for (int e = section->first; e <= section->first + section->count; e++) {
            const int point =
                e < section->first + section->count ? set->net->elements[e].a : section->b;
            if (set->net->points[point].kind == BYS_POINT_FIXED)
                continue; // anchors are judged by themselves
            const double *x = state->x + 3 * point;
            const double inside =
                bys_plan_inside(site->lease_x, site->lease_y, site->lease_count, x[0], x[1]);
            if (isnan(group->inside) || inside < group->inside) {
                group->inside = inside;
                group->at[0] = x[0];
                group->at[1] = x[1];
            }
        }
    }
}

// ---- clearance of backbones ----------------------------------------------------------------

typedef struct {
    double *xyz;
    int count;
    double low[2], high[2];
} polyline;

static void box_of(polyline *line)
{
    for (int c = 0; c < 2; c++) {
        line->low[c] = INFINITY;
        line->high[c] = -INFINITY;
    }
    for (int k = 0; k < line->count; k++)
        for (int c = 0; c < 2; c++) {
            line->low[c] = fmin(line->low[c], line->xyz[3 * k + c]);
            line->high[c] = fmax(line->high[c], line->xyz[3 * k + c]);
        }
}

static double box_gap(const polyline *a, const polyline *b)
{
    const double dx = fmax(0.0, fmax(a->low[0] - b->high[0], b->low[0] - a->high[0]));
    const double dy = fmax(0.0, fmax(a->low[1] - b->high[1], b->low[1] - a->high[1]));
    return hypot(dx, dy);
}

static void keep_gap(bys_group_seen *group, double gap, int other)
{
    if (isnan(group->clearance) || gap < group->clearance) {
        group->clearance = gap;
        group->other = other;
    }
}

static void compare_lines(bys_job *job, const polyline *lines, int count)
{
    for (int i = 0; i < count; i++)
        for (int k = i + 1; k < count; k++) {
            const double known = fmax(job->group[i].clearance, job->group[k].clearance);
            const bool both = !isnan(job->group[i].clearance) && !isnan(job->group[k].clearance);
            if (lines[i].count < 2 || lines[k].count < 2 ||
                (both && box_gap(&lines[i], &lines[k]) >= known))
                continue;
            const double gap =
                bys_plan_gap(lines[i].xyz, lines[i].count, lines[k].xyz, lines[k].count);
            keep_gap(&job->group[i], gap, k);
            keep_gap(&job->group[k], gap, i);
        }
}

/// Lines are the first groups. Out of memory leaves the clearance unknown.
static void look_at_clearance(const bys_judge *judge, bys_job *job, const bys_state *state)
{
    const bys_network *net = bys_job_stage(judge, job)->net;
    size_t points = 0;
    for (int l = 0; l < net->line_count; l++)
        points += (size_t)net->lines[l].point_count;
    double *xyz = malloc((3 * points + 1) * sizeof *xyz);
    polyline *lines = calloc((size_t)net->line_count + 1, sizeof *lines);
    double *next = xyz;
    for (int l = 0; xyz && lines && l < net->line_count; l++) {
        lines[l].xyz = next;
        if (job->island[net->lines[l].island] != BYS_STABLE)
            continue;
        for (int k = 0; k < net->lines[l].point_count; k++, next += 3)
            for (int c = 0; c < 3; c++)
                next[c] = state->x[3 * net->lines[l].points[k] + c];
        lines[l].count = net->lines[l].point_count;
        box_of(&lines[l]);
    }
    if (xyz && lines)
        compare_lines(job, lines, net->line_count);
    free(xyz);
    free(lines);
}

void bys_observe_groups(bys_judge *judge, bys_job *job, const bys_state *state)
{
    look_at_floats(judge, job, state);
    look_at_gear(judge, job, state);
    look_at_excursion(judge, job, state);
    look_inside(judge, job, state);
    look_at_clearance(judge, job, state);
}

// ---- outline with a leg lost ---------------------------------------------------------------

void bys_observe_sweep(bys_judge *judge, bys_job *job, const bys_state *state, int lost)
{
    const bys_network *net = bys_job_stage(judge, job)->net;
    double *support = job->sweep + (size_t)lost * BYS_SWEEP;
    const int line = net->legs[lost].line, body = net->legs[lost].body;
    const int count = line >= 0   ? net->lines[line].point_count
                      : body >= 0 ? net->bodies[body].point_count
                                  : 0;
    const int *points = line >= 0   ? net->lines[line].points
                        : body >= 0 ? net->bodies[body].points
                                    : NULL;
    for (int k = 0; k < count; k++)
        bys_sweep_add(support, state->x[3 * points[k]], state->x[3 * points[k] + 1]);
}
