// SPDX-License-Identifier: GPL-3.0-or-later
// A line adrift after losing a leg lies against its neighbour.
//
// GIVEN     the lost leg; intact states; backbones in plan
// RETURNED  states of all lines that come to lie against one another, and their names
// NOTES     1. The line with the lost leg is solved by itself first. Of the lines that its backbone then
//              crosses, or comes within 0.5 m of, in plan, it lies against the one whose intact backbone
//              is nearest to where it lay itself. Legs are touched too, down to the depth to which the
//              drifting line's gear hangs.
//           2. That neighbour carries all of the drifting line's horizontal load besides its own: an
//              upper bound, since the drifting line's anchor keeps a part. It is spread over the points
//              of its backbone by length.
//           3. The neighbour then moves; where it comes to lie against a third line, that one carries the
//              loads of both, and so on until nothing new is touched. A line carries such a load once.
//           4. The drifting line's horizontal load is what its standing legs put on their anchors; if none
//              stands, what they put there intact.
//           5. The drifting line's own tensions are those of the lost leg, without the support of its
//              neighbour: an upper bound too.
// SOURCE    derived (bounds by statics); 0.5 m: own choice, about a float's width.
#include "base/number.h"
#include "design/sets.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double touching = 0.5; // m in plan

typedef struct {
    bys_set_run *run;
    bys_judge *judge;
    const bys_job *job;
    bys_workplace *place;
    const bys_network *net;
    unsigned char *in;  ///< by line: lies against another already
    double *a, *b;      ///< two backbones, 3 numbers a point
} tangle;

static const bys_state *state_of(const tangle *t, int line)
{
    return t->run->touched[t->net->lines[line].island] ? t->place->lost : t->place->intact;
}

static int backbone(double *xyz, const tangle *t, const bys_state *state, int line)
{
    const bys_line *l = &t->net->lines[line];
    for (int k = 0; k < l->point_count; k++)
        memcpy(xyz + 3 * k, state->x + 3 * l->points[k], 3 * sizeof *xyz);
    return l->point_count;
}

/// Adds the points of a leg that stand no deeper than `lowest`, from the top down.
static int leg_points(double *xyz, const tangle *t, const bys_state *state, int leg, double lowest)
{
    int n = 0;
    const bys_leg *l = leg >= 0 ? &t->net->legs[leg] : NULL;
    for (int s = l ? l->section_count - 1 : -1; s >= 0; s--) {
        const bys_section *section = &t->net->sections[l->first_section + s];
        if (!state->sections[l->first_section + s].active)
            return n;
        for (int e = section->count - 1; e >= 0; e--) {
            const double *x = state->x + 3 * t->net->elements[section->first + e].a;
            if (!(x[2] >= lowest))
                return n;
            memcpy(xyz + 3 * n++, x, 3 * sizeof *xyz);
        }
    }
    return n;
}

/// Lowest height of what hangs under a line; of its own points if nothing hangs.
static double lowest_of(const tangle *t, const bys_state *state, int line)
{
    const bys_line *l = &t->net->lines[line];
    double z = INFINITY;
    for (int k = 0; k < l->point_count; k++)
        z = fmin(z, state->x[3 * l->points[k] + 2]);
    for (int g = 0; g < t->net->gear_count; g++)
        if (t->net->gears[g].line == line)
            z = fmin(z, state->gear_low[g]);
    return z;
}

/// Backbone with the upper parts of its end legs.
static int whole_line(double *xyz, const tangle *t, const bys_state *state, int line, double lowest)
{
    const bys_line *l = &t->net->lines[line];
    int n = leg_points(xyz, t, state, l->legs[0], lowest);
    for (int a = 0, b = n - 1; a < b; a++, b--) // from the bottom up
        for (int c = 0; c < 3; c++) {
            const double x = xyz[3 * a + c];
            xyz[3 * a + c] = xyz[3 * b + c];
            xyz[3 * b + c] = x;
        }
    n += backbone(xyz + 3 * n, t, state, line);
    return n + leg_points(xyz + 3 * n, t, state, l->legs[1], lowest);
}

/// Horizontal force of the line's standing legs on their anchors; false if none stands.
static bool pull_of(double F[2], const tangle *t, const bys_state *state, int line, int lost)
{
    bool any = false;
    F[0] = F[1] = 0.0;
    for (int l = 0; l < t->net->leg_count; l++) {
        const bys_leg *leg = &t->net->legs[l];
        if (leg->line != line || l == lost || leg->section_count == 0)
            continue;
        const double *f = state->sections[leg->first_section].force_a;
        F[0] += f[0]; // the leg's force on its anchor
        F[1] += f[1];
        any = true;
    }
    return any;
}

/// Line that `line` lies against: touched now, not yet tangled, nearest to its intact place; -1.
static int touched_by(const tangle *t, int line)
{
    const int n = backbone(t->a, t, state_of(t, line), line);
    const int on_line = backbone(t->a + 3 * n, t, t->place->intact, line);
    const double lowest = lowest_of(t, state_of(t, line), line);
    int best = -1;
    double nearest = INFINITY;
    for (int m = 0; m < t->net->line_count; m++) {
        if (m == line || t->in[m] || t->job->island[t->net->lines[m].island] != BYS_STABLE)
            continue;
        int k = whole_line(t->b, t, state_of(t, m), m, lowest);
        if (bys_plan_gap(t->a, n, t->b, k) > touching)
            continue;
        k = backbone(t->b, t, t->place->intact, m);
        const double gap = bys_plan_gap(t->a + 3 * n, on_line, t->b, k);
        if (gap < nearest) {
            nearest = gap;
            best = m;
        }
    }
    return best;
}

/// Spreads a horizontal load over a backbone by length.
static bys_rc lay_on(const tangle *t, int line, const double F[2], bys_error *err)
{
    const bys_line *l = &t->net->lines[line];
    const bys_section *s = &t->net->sections[l->first_section];
    bys_rc rc = BYS_OK;
    for (int k = 0; k < l->point_count && !rc; k++) {
        const double before = k > 0 ? t->net->elements[s->first + k - 1].length : 0.0;
        const double after = k < s->count ? t->net->elements[s->first + k].length : 0.0;
        const double share = 0.5 * (before + after) / s->length;
        const double force[3] = {share * F[0], share * F[1], 0.0};
        rc = bys_run_add_load(t->run, l->points[k], force, err);
    }
    return rc;
}

static bys_rc spread(const tangle *t, int lost, bys_error *err)
{
    const bys_network *net = t->net;
    int line = net->legs[lost].line, next;
    double F[2], own[2];
    t->in[line] = 1;
    if (!pull_of(F, t, t->place->lost, line, lost))
        pull_of(F, t, t->place->intact, line, -1);
    bys_rc rc = BYS_OK;
    while (!rc && (next = touched_by(t, line)) >= 0) {
        const int island = net->lines[next].island;
        t->in[next] = 1;
        bys_text_addf(&t->run->reached, "%s%s", t->run->reached.data ? ", " : "",
                      net->lines[next].id);
        pull_of(own, t, t->place->intact, next, lost);
        rc = lay_on(t, next, F, err);
        if (!rc)
            rc = bys_run_island(t->run, t->judge, t->job, t->place, island, false, err);
        if (rc || t->place->lost->islands[island].status != BYS_STABLE)
            break;
        F[0] += own[0];
        F[1] += own[1];
        line = next;
    }
    return rc;
}

bys_rc bys_run_foul(bys_set_run *run, bys_judge *judge, const bys_job *job, bys_workplace *place,
                    const bys_set *set, bys_error *err)
{
    const bys_network *net = bys_job_stage(judge, job)->net;
    const int island = set->islands[0];
    size_t most = 0, leg_most = 0;
    for (int l = 0; l < net->line_count; l++)
        most = most > (size_t)net->lines[l].point_count ? most : (size_t)net->lines[l].point_count;
    for (int l = 0; l < net->leg_count; l++) {
        size_t n = 0;
        for (int s = 0; s < net->legs[l].section_count; s++)
            n += (size_t)net->sections[net->legs[l].first_section + s].count;
        leg_most = leg_most > n ? leg_most : n;
    }
    if (set->loose) {
        bys_state_copy_island(place->lost, place->intact, island);
        bys_run_fails(run, place, island, BYS_CANNOT_STAND,
                      "nothing else holds the line: it drifts away");
        return BYS_OK;
    }
    bys_rc rc = bys_run_island(run, judge, job, place, island, false, err);
    if (rc || place->lost->islands[island].status != BYS_STABLE)
        return rc;
    tangle t = {run, judge, job, place, net, calloc((size_t)net->line_count + 1, 1),
                malloc(6 * (most + 1) * sizeof(double)),
                malloc(3 * (most + 2 * leg_most + 1) * sizeof(double))};
    rc = t.in && t.a && t.b ? spread(&t, set->leg, err)
                            : bys_error_set(err, BYS_ENOMEM, 0, "out of memory for a condition");
    free(t.in);
    free(t.a);
    free(t.b);
    return rc;
}
