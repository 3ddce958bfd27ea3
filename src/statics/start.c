// SPDX-License-Identifier: GPL-3.0-or-later
// A cold start that is already near: lines bowed down-current by the taut parabola, legs and slack
// spans hung as catenaries under their own load, a line with one anchor left streamed out behind it.
// SOURCE taut parabola and catenary: Irvine, Cable Structures (1981) [memory], phys/catenary.c.
#include "num/vec3.h"
#include "phys/phys.h"
#include "statics/solver.h"

// ---- hanging a chain of elements between two points -------------------------------------------------

/// Load per metre of a section (N/m, vector): weight in water, given load, a rough current drag.
static void load_per_metre(double q[3], const bys_section *sec, const bys_sea *sea)
{
    const double U = sea->current_speed;
    const double drag = 0.5 * sea->rho * sec->cd_normal * sec->diameter * U * U;
    q[0] = sec->load[0] + drag * sea->current[0];
    q[1] = sec->load[1] + drag * sea->current[1];
    q[2] = sec->load[2] + sec->buoyancy - sec->weight_dry;
}

/// A run of elements along which points are placed.
typedef struct {
    const bys_solver *s;
    double *x;
    const double *from, *to;
    double length;  ///< m unstretched
    double q[3];    ///< N/m, mean load
    const bys_sea *sea;
} run;

/// Axes of the plane that holds the chord and the load: `down` along the load, `across` square to it.
static bool plane_of(const run *r, double down[3], double across[3], double *dx, double *dd)
{
    const double q = bys_norm(r->q);
    if (q < 1e-6)
        return false;
    double chord[3];
    for (int i = 0; i < 3; i++) {
        down[i] = r->q[i] / q;
        chord[i] = r->to[i] - r->from[i];
    }
    *dd = bys_dot(chord, down);
    for (int i = 0; i < 3; i++)
        across[i] = chord[i] - *dd * down[i];
    *dx = bys_norm(across);
    if (*dx < 1e-6 * r->length)
        return false;
    for (int i = 0; i < 3; i++)
        across[i] /= *dx;
    return true;
}

/// Keeps a point out of the bed and of the air.
static void keep_in_water(const run *r, double x[3])
{
    const double top = fmax(r->sea->level, fmax(r->from[2], r->to[2]));
    if (isfinite(r->sea->level) && x[2] > top)
        x[2] = top;
    if (!r->sea->has_bed)
        return;
    const double bed = bys_sea_bed_z(r->sea, x[0], x[1]);
    if (x[2] < bed)
        x[2] = bed;
}

/// Places point p at arc length a: on the catenary (hung) or straight.
static void place_point(const run *r, const bys_catenary *c, const double down[3],
                        const double across[3], int p, double a)
{
    double *x = r->x + 3 * (size_t)p;
    if (!c) {
        for (int i = 0; i < 3; i++)
            x[i] = r->from[i] + (r->to[i] - r->from[i]) * a / r->length;
    } else {
        const bys_catenary at = bys_catenary_shape(c->H, c->Vi, 1.0, 1e9, a);
        for (int i = 0; i < 3; i++)
            x[i] = r->from[i] + at.dx * across[i] - at.dz * down[i];
    }
    keep_in_water(r, x);
}

/// Hangs sections first..first+count-1, whose ends already stand.
static void hang(const bys_solver *s, bys_state *state, const bys_sea *sea, int first, int count)
{
    const bys_network *net = s->net;
    run r = {.s = s, .x = state->x, .sea = sea};
    r.from = state->x + 3 * (size_t)net->sections[first].a;
    r.to = state->x + 3 * (size_t)net->sections[first + count - 1].b;
    for (int k = first; k < first + count; k++) {
        double q[3];
        load_per_metre(q, &net->sections[k], sea);
        r.length += net->sections[k].length;
        bys_axpy(r.q, net->sections[k].length, q);
        if (k > first)
            r.q[2] -= net->points[net->sections[k].a].weight;
    }
    for (int i = 0; i < 3; i++)
        r.q[i] /= r.length;
    const double level = hypot(r.to[0] - r.from[0], r.to[1] - r.from[1]);
    const double chord = hypot(level, r.to[2] - r.from[2]);
    double down[3], across[3], dx, dd;
    bys_catenary c;
    const bool slack = chord < r.length * (1.0 - 1e-9) && plane_of(&r, down, across, &dx, &dd) &&
                       bys_catenary_solve(&c, dx, -dd, 1.0, 1e9, r.length);
    double a = 0.0;
    for (int k = first; k < first + count; k++) {
        const bys_section *sec = &net->sections[k];
        for (int e = sec->first; e < sec->first + sec->count; e++) {
            a += net->elements[e].length;
            const int p = net->elements[e].b;
            const bool end = k == first + count - 1 && e == sec->first + sec->count - 1;
            if (s->block_of_point[p] >= 0 && !end)
                place_point(&r, slack ? &c : NULL, down, across, p, a);
        }
    }
}

// ---- longlines ----------------------------------------------------------------------------------------

static double leg_length(const bys_network *net, const bys_leg *leg)
{
    double l = 0.0;
    for (int k = 0; k < leg->section_count; k++)
        l += net->sections[leg->first_section + k].length;
    return l;
}

static double compliance(const bys_network *net, int first, int count)
{
    double c = 0.0;
    for (int k = first; k < first + count; k++)
        c += net->sections[k].length / net->sections[k].stiffness;
    return c;
}

/// Horizontal load on a line: its floats, gear and ropes at their present positions.
static void line_load(double Q[2], const bys_solver *s, const bys_state *state, const bys_sea *sea,
                      int line)
{
    const bys_network *net = s->net;
    bys_lump lump;
    Q[0] = Q[1] = 0.0;
    for (int i = 0; i < s->island->float_count; i++) {
        const bys_float_set *set = &net->floats[s->island->floats[i]];
        if (set->line != line)
            continue;
        bys_float_eval(&lump, set, state->x + 3 * (size_t)set->point, sea);
        Q[0] += lump.f[0], Q[1] += lump.f[1];
    }
    for (int i = 0; i < s->island->gear_count; i++) {
        const bys_gear_set *set = &net->gears[s->island->gears[i]];
        if (set->line != line)
            continue;
        bys_gear_eval(&lump, set, state->x + 3 * (size_t)set->point, sea);
        Q[0] += lump.f[0], Q[1] += lump.f[1];
    }
    for (int k = 0; k < net->lines[line].section_count; k++) {
        const bys_section *sec = &net->sections[net->lines[line].first_section + k];
        double q[3];
        load_per_metre(q, sec, sea);
        Q[0] += q[0] * sec->length, Q[1] += q[1] * sec->length;
    }
}

/// Sag f of a taut parabola: 8 f^2/(3 S) = excess + C q S^2/(8 f), by bisection.
static double parabola_sag(double S, double excess, double q, double C)
{
    double lo = 1e-4 * S, hi = 0.6 * S;
    for (int i = 0; i < 50; i++) {
        const double f = 0.5 * (lo + hi);
        if (8.0 * f * f / (3.0 * S) > excess + C * q * S * S / (8.0 * f))
            hi = f;
        else
            lo = f;
    }
    return 0.5 * (lo + hi);
}

/// Reach in plan of a leg pulled straight.
static double taut_reach(const bys_network *net, const bys_state *state, const bys_leg *leg)
{
    const double l = leg_length(net, leg);
    const double h = state->x[3 * (size_t)leg->top + 2] - state->x[3 * (size_t)leg->foot + 2];
    return l > fabs(h) ? sqrt(l * l - h * h) : 0.0;
}

/// Bows the line sideways by the parabola and slides it along until the up-current leg is taut.
static void bow_line(const bys_solver *s, bys_state *state, const bys_sea *sea, int index)
{
    const bys_network *net = s->net;
    const bys_line *line = &net->lines[index];
    const bys_leg *la = &net->legs[line->legs[0]], *lb = &net->legs[line->legs[1]];
    const double *A = state->x + 3 * (size_t)la->foot, *B = state->x + 3 * (size_t)lb->foot;
    const double S = hypot(B[0] - A[0], B[1] - A[1]);
    if (S < 1e-3)
        return;
    const double axis[2] = {(B[0] - A[0]) / S, (B[1] - A[1]) / S};
    double Q[2];
    line_load(Q, s, state, sea, index);
    const double along = Q[0] * axis[0] + Q[1] * axis[1], side = -Q[0] * axis[1] + Q[1] * axis[0];
    const double ra = taut_reach(net, state, la), rb = taut_reach(net, state, lb);
    const double excess = ra + rb + line->length - S;
    const double C = compliance(net, la->first_section, la->section_count) +
                     compliance(net, lb->first_section, lb->section_count) +
                     compliance(net, line->first_section, line->section_count);
    const double f = fabs(side) > 0.0 ? parabola_sag(S, excess, fabs(side) / S, C) : 0.0;
    const double total = hypot(along, side), share = total > 0.0 ? along / total : 0.0;
    const double *ta = state->x + 3 * (size_t)la->top, *tb = state->x + 3 * (size_t)lb->top;
    const double slack_a = ra - hypot(ta[0] - A[0], ta[1] - A[1]);
    const double slack_b = rb - hypot(tb[0] - B[0], tb[1] - B[1]);
    const double slide = share * fabs(share) * fmax(0.0, share > 0.0 ? slack_a : slack_b);
    for (int i = 0; i < line->point_count; i++) {
        double *x = state->x + 3 * (size_t)line->points[i];
        const double t = ((x[0] - A[0]) * axis[0] + (x[1] - A[1]) * axis[1]) / S;
        const double bow = 4.0 * f * t * (1.0 - t) * (side < 0.0 ? -1.0 : 1.0);
        x[0] += slide * axis[0] - bow * axis[1];
        x[1] += slide * axis[1] + bow * axis[0];
    }
}

// ---- one anchor left -----------------------------------------------------------------------------------

/// Number of held points that something active hangs on; the last of them.
static int count_anchors(const bys_solver *s, int *last)
{
    int n = 0;
    for (int i = 0; i < s->island->point_count; i++) {
        const int p = s->island->points[i];
        if (s->net->points[p].kind == BYS_POINT_FIXED && s->alive[p])
            n++, *last = p;
    }
    return n;
}

/// Direction in which loose things drift.
static void drift_direction(double c[2], const bys_sea *sea)
{
    const double *d = sea->current_speed > 0.0 ? sea->current
                      : sea->wind_speed > 0.0  ? sea->wind
                                               : sea->waves;
    c[0] = d[0], c[1] = d[1];
}

/// Path length of every point from the anchor, along active elements (Bellman-Ford on a tree-like net).
static void path_lengths(const bys_solver *s, int anchor, double *d)
{
    for (int i = 0; i < s->island->point_count; i++)
        d[s->island->points[i]] = INFINITY;
    d[anchor] = 0.0;
    for (bool changed = true; changed;) {
        changed = false;
        for (int i = 0; i < 2 * s->island->element_count; i++) { // there and back: two sweeps at once
            const int n = s->island->element_count;
            const int k = s->island->elements[i < n ? i : 2 * n - 1 - i];
            const bys_element *e = &s->net->elements[k];
            if (s->out[k])
                continue;
            if (d[e->a] + e->length < d[e->b] - 1e-9)
                d[e->b] = d[e->a] + e->length, changed = true;
            if (d[e->b] + e->length < d[e->a] - 1e-9)
                d[e->a] = d[e->b] + e->length, changed = true;
        }
    }
}

static void stream_out(bys_solver *s, bys_state *state, const bys_sea *sea, int anchor)
{
    const bys_network *net = s->net;
    double *d = s->distance, c[2];
    drift_direction(c, sea);
    double leg = 0.0, top = 0.0;
    for (int i = 0; i < s->island->leg_count; i++) {
        const bys_leg *l = &net->legs[s->island->legs[i]];
        if (l->foot == anchor && !s->off[l->first_section])
            leg = leg_length(net, l), top = state->x[3 * (size_t)l->top + 2];
    }
    const double *P = net->points[anchor].x, h = top - P[2];
    const double reach = leg > fabs(h) ? sqrt(leg * leg - h * h) : 0.0;
    path_lengths(s, anchor, d);
    for (int i = 0; i < s->island->point_count; i++) {
        const int p = s->island->points[i];
        double *x = state->x + 3 * (size_t)p;
        if (s->block_of_point[p] < 0 || !isfinite(d[p]))
            continue;
        const double share = leg > 0.0 ? fmin(1.0, d[p] / leg) : 1.0;
        const double out = 1.001 * (reach * share + fmax(0.0, d[p] - leg));
        x[0] = P[0] + out * c[0];
        x[1] = P[1] + out * c[1];
        if (d[p] < leg)
            x[2] = P[2] + h * share;
    }
}

/// A line that is cut may fall into parts with one anchor each: every such part streams out.
static void stream_parts(bys_solver *s, bys_state *state, const bys_sea *sea)
{
    for (int i = 0; i < s->island->point_count; i++) {
        const int anchor = s->island->points[i];
        if (s->net->points[anchor].kind != BYS_POINT_FIXED || !s->alive[anchor])
            continue;
        path_lengths(s, anchor, s->distance);
        bool alone = true;
        for (int k = 0; k < s->island->point_count; k++) {
            const int p = s->island->points[k];
            if (p != anchor && s->net->points[p].kind == BYS_POINT_FIXED)
                alone = alone && !isfinite(s->distance[p]);
        }
        if (alone)
            stream_out(s, state, sea, anchor);
    }
}

// ---- the start -------------------------------------------------------------------------------------------

static void reset(const bys_solver *s, bys_state *state)
{
    for (int i = 0; i < s->island->point_count; i++) {
        const int p = s->island->points[i];
        if (s->block_of_point[p] >= -1)
            memcpy(state->x + 3 * (size_t)p, s->net->points[p].x, 3 * sizeof(double));
    }
    for (int i = 0; i < s->island->body_count; i++) {
        const int b = s->island->bodies[i];
        memcpy(state->body_x + 3 * (size_t)b, s->net->bodies[b].x, 3 * sizeof(double));
        memcpy(state->body_r + 9 * (size_t)b, s->net->bodies[b].rotation, 9 * sizeof(double));
    }
    bys_place_bodies(s, state);
}

/// Lines start just below the surface of this case, rafts as high above it as they were built above
/// the lowest level.
static void bring_to_surface(const bys_solver *s, bys_state *state, const bys_sea *sea)
{
    const bys_network *net = s->net;
    if (!isfinite(sea->level))
        return;
    for (int i = 0; i < net->line_count; i++)
        for (int k = 0; net->lines[i].island == s->index && k < net->lines[i].point_count; k++)
            state->x[3 * (size_t)net->lines[i].points[k] + 2] = sea->level - 0.1;
    double lowest = INFINITY;
    for (int i = 0; net->site && i < net->site->level_count; i++)
        lowest = fmin(lowest, net->site->levels[i].height);
    for (int i = 0; isfinite(lowest) && i < s->island->body_count; i++)
        if (net->bodies[s->island->bodies[i]].part)
            state->body_x[3 * (size_t)s->island->bodies[i] + 2] += sea->level - lowest;
    bys_place_bodies(s, state);
}

static bool line_in_island(const bys_solver *s, const bys_line *line)
{
    for (int k = 0; s->cut && k < line->section_count; k++) {
        const bys_section *sec = &s->net->sections[line->first_section + k];
        for (int e = sec->first; e < sec->first + sec->count; e++)
            if (s->out[e])
                return false;
    }
    return line->island == s->index && line->legs[0] >= 0 && line->legs[1] >= 0 &&
           !s->off[s->net->legs[line->legs[0]].first_section] &&
           !s->off[s->net->legs[line->legs[1]].first_section];
}

/// The point of a bridle stands where taut arms hold it, on the way from their ends to the anchor.
static void place_bridle(bys_state *state, const bys_network *net, const bys_leg *leg)
{
    const bys_section *arm = &net->sections[leg->first_section + leg->section_count];
    const double *a = state->x + 3 * (size_t)arm[0].b, *b = state->x + 3 * (size_t)arm[1].b;
    const double *foot = state->x + 3 * (size_t)leg->foot;
    double middle[3], way[3], half = 0.0;
    for (int i = 0; i < 3; i++) {
        middle[i] = 0.5 * (a[i] + b[i]);
        way[i] = foot[i] - middle[i];
        half += 0.25 * (a[i] - b[i]) * (a[i] - b[i]);
    }
    const double l = arm[0].length, length = bys_norm(way);
    const double rise = sqrt(fmax(l * l - half, 1e-4 * l * l));
    for (int i = 0; i < 3; i++)
        state->x[3 * (size_t)leg->top + (size_t)i] =
            middle[i] + fmin(0.9, rise / fmax(length, 1e-9)) * way[i];
}

static void hang_legs_and_spans(const bys_solver *s, bys_state *state, const bys_sea *sea)
{
    const bys_network *net = s->net;
    for (int i = 0; i < s->island->leg_count; i++) {
        const bys_leg *leg = &net->legs[s->island->legs[i]];
        if (s->off[leg->first_section])
            continue;
        if (leg->arm_count == 2)
            place_bridle(state, net, leg);
        for (int k = 0; k < leg->arm_count; k++)
            hang(s, state, sea, leg->first_section + leg->section_count + k, 1);
        hang(s, state, sea, leg->first_section, leg->section_count);
    }
    for (int k = 0; k < net->section_count; k++) { // head ropes and explicit spans
        const bys_section *sec = &net->sections[k];
        if (sec->leg < 0 && sec->line < 0 && net->points[sec->a].island == s->index && !s->off[k])
            hang(s, state, sea, k, 1);
    }
}

void bys_start_cold(bys_solver *s, bys_state *state, const bys_sea *sea)
{
    reset(s, state);
    bring_to_surface(s, state, sea);
    int anchor = -1;
    const bool alone = count_anchors(s, &anchor) == 1 && s->island->leg_count > 0;
    if (alone && s->island->body_count == 0) {
        stream_out(s, state, sea, anchor);
        return;
    }
    for (int i = 0; i < s->net->line_count; i++)
        if (line_in_island(s, &s->net->lines[i]))
            bow_line(s, state, sea, i);
    hang_legs_and_spans(s, state, sea);
    if (s->cut && s->island->body_count == 0 && s->island->leg_count > 0)
        stream_parts(s, state, sea);
}
