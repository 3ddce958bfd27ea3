// SPDX-License-Identifier: GPL-3.0-or-later
// Equilibrium: Newton steps on the full tangent with tensions and bed forces as unknowns of their own.
//
// NOTES
//   1. Each step solves the balance of forces and the one-sided laws (onesided.h) linearised together;
//      tensions and bed forces are eliminated element by element, so the matrix is that of the
//      positions alone. A force may fall to a tenth in one step but not below zero.
//   2. The barrier of the one-sided laws starts high on a cold start, so that nothing is quite slack
//      or quite clear of the bed, and falls with the steps to 0.1 mN.
//   3. (K + mu S) d = r: a share mu of the load of each point (S) holds loose parts back in the first
//      steps; the last steps are plain Newton (mu = 0).
//   4. Stable means: worst residual <= 0.01 N (in practice far less), last full step <= 1 mm, no
//      mode of the tangent negative. Anything else is told with the item.
#include "num/vec3.h"
#include "statics/onesided.h"
#include "statics/solver.h"

#include <stdio.h>

static const double RESIDUAL_LIMIT = 0.01; // N
static const double STEP_LIMIT = 1e-3;     // m
static const double LONGEST_MOVE = 40.0;   // m in one step
static const double LEAST_LEFT = 0.02;     // share of a force that one step must leave
static const double LOOSE_SHIFT = 0.1;     // 1/m, above which a small step says little
static const double REST_BARRIER = 0.3;    // N, below which slack lines begin to rest on the bed

/// Where the iteration stands.
typedef struct {
    double mu;           ///< 1/m, share of the shift
    double least_mu;     ///< 1/m, held for good where nothing else stops a drift
    double worst;        ///< N, largest residual at the present positions
    double turn;         ///< largest turn or stretch of an element in one step, share of its length
    double full;         ///< m, largest move of the last step before it was shortened
    int factorisations;
    bys_pivots pivots;
} newton;

/// Move of a point along the step: of its own block, or with its body.
static void point_move(double out[3], const bys_solver *s, const bys_state *state, int p)
{
    const int b = s->block_of_point[p];
    out[0] = out[1] = out[2] = 0.0;
    if (b >= 0) {
        memcpy(out, s->step + 3 * (size_t)b, 3 * sizeof *out);
    } else if (b <= -2) {
        const double *d = s->step + 3 * (size_t)s->block_of_body[-2 - b];
        double r[3], turned[3];
        for (int i = 0; i < 3; i++)
            r[i] = state->x[3 * (size_t)p + (size_t)i] -
                   state->body_x[3 * (size_t)(-2 - b) + (size_t)i];
        bys_cross(turned, d + 3, r);
        for (int i = 0; i < 3; i++)
            out[i] = d[i] + turned[i];
    }
}

/// Shortens the step so that no element turns or stretches by more than `turn` of its length
/// and nothing moves by more than LONGEST_MOVE. Returns the share that is left.
static double shorten(bys_solver *s, const bys_state *state, double turn)
{
    double da[3], db[3], most = bys_step_size(s) / LONGEST_MOVE * turn;
    for (int i = 0; i < s->island->element_count; i++) {
        const bys_element *e = &s->net->elements[s->island->elements[i]];
        if (s->out[s->island->elements[i]])
            continue;
        point_move(da, s, state, e->a);
        point_move(db, s, state, e->b);
        bys_axpy(db, -1.0, da);
        most = fmax(most, bys_norm(db) / e->length);
    }
    if (most <= turn)
        return 1.0;
    for (int i = 0; i < 3 * s->blocks; i++)
        s->step[i] *= turn / most;
    return turn / most;
}

/// A step that turns no element too far: where the plain one would, loose parts are held back by a
/// larger shift, which leaves the stiff ones their full correction. Returns the share taken.
static double find_step(bys_solver *s, const bys_state *state, newton *n)
{
    double share = 0.0;
    for (int trial = 0; trial < 8; trial++) {
        bys_factor_shifted(s, n->mu, &n->pivots);
        bys_block_solve(s->pattern, s->factor, s->residual, s->step, s->work);
        n->factorisations++;
        n->full = bys_step_size(s);
        share = isfinite(n->full) ? shorten(s, state, n->turn) : 0.0;
        if (share >= 0.5)
            break;
        n->mu = fmax(share < 0.1 ? 20.0 * n->mu : 5.0 * n->mu, 1e-3);
    }
    return share;
}

/// F + share (target - F), not below a small share of F.
static double blend(double F, double target, double share)
{
    return fmax(F + share * (target - F), fmax(LEAST_LEFT * F, 1e-12));
}

/// New tensions and bed forces from the linearised laws and the step, of which `share` is taken.
static void update_forces(bys_solver *s, const bys_state *state, const bys_sea *sea, double share)
{
    double da[3], db[3], n[3];
    for (int i = 0; i < s->island->element_count; i++) {
        const bys_element *e = &s->net->elements[s->island->elements[i]];
        if (s->out[s->island->elements[i]])
            continue;
        point_move(da, s, state, e->a);
        point_move(db, s, state, e->b);
        const double *t = s->pulled_dir[i];
        const double stretch = (bys_dot(t, db) - bys_dot(t, da)) / share;
        s->pulled[i] = blend(s->pulled[i], s->pulled_eff[i] + s->pulled_k[i] * stretch, share);
    }
    for (int i = 0; i < s->island->point_count; i++) {
        const int p = s->island->points[i];
        if (!(s->bed_stiffness[p] > 0.0))
            continue;
        point_move(da, s, state, p);
        bys_sea_bed_normal(n, sea, state->x[3 * (size_t)p], state->x[3 * (size_t)p + 1]);
        const double sink = -bys_dot(n, da) / share;
        s->pressed[p] = blend(s->pressed[p], s->pressed_eff[p] + s->pressed_k[p] * sink, share);
    }
}

/// Bed force to begin with. A point clear of the bed begins with so little that its law, made linear,
/// pulls it down by no more than its weight: k (N/b)^2 gap <= W.
static double first_press(const bys_solver *s, int p, double depth, double least)
{
    double slope;
    const double W = s->bed_weight[p], k = s->bed_stiffness[p], b = s->barrier;
    const double law = bys_onesided_force(k * depth, b, &slope);
    const double floor = depth < 0.0 ? b * sqrt(W / (-k * depth)) : INFINITY;
    return fmin(10.0 * W, fmax(fmin(floor, fmin(least, W)), law));
}

/// Forces to begin with: what the laws give at the present positions, within bounds.
static void first_forces(bys_solver *s, const bys_state *state, const bys_sea *sea, double least,
                         double most)
{
    double slope;
    for (int i = 0; i < s->island->element_count; i++) {
        const bys_element *e = &s->net->elements[s->island->elements[i]];
        const double *a = state->x + 3 * (size_t)e->a, *b = state->x + 3 * (size_t)e->b;
        const double d[3] = {b[0] - a[0], b[1] - a[1], b[2] - a[2]};
        const double P = bys_section_pull(&s->net->sections[e->section], sea->storm,
                                          bys_norm(d) / e->length - 1.0, &slope);
        s->pulled[i] = fmin(most, fmax(least, bys_onesided_force(P, s->barrier, &slope)));
    }
    for (int i = 0; i < s->island->point_count; i++) {
        const int p = s->island->points[i];
        if (s->bed_stiffness[p] > 0.0)
            s->pressed[p] = first_press(s, p, bys_bed_depth(state->x + 3 * (size_t)p, sea), least);
    }
}

/// Residual with all laws met exactly.
static double true_residual(bys_solver *s, bys_state *state, const bys_sea *sea, bool tangent)
{
    const double kept = s->barrier;
    s->mixed = false;
    s->barrier = BYS_BARRIER;
    const double worst = bys_assemble(s, state, sea, tangent);
    s->mixed = true;
    s->barrier = kept;
    return worst;
}

static void lower_barrier(bys_solver *s, newton *n, double share)
{
    const double ease = n->full < 0.05  ? 0.01
                        : n->full < 0.3 ? 0.1
                        : n->full < 1.5 ? 0.3
                        : n->full < 6.0 ? 0.7
                                        : 1.0;
    if (share >= 1.0 && n->mu <= LOOSE_SHIFT)
        s->barrier = fmax(BYS_BARRIER, s->barrier * ease);
    n->mu *= share < 1.0 ? 1.5 : 0.15;
    if (n->mu < 1e-4)
        n->mu = 0.0;
    n->mu = fmax(n->mu, n->least_mu);
}

/// Residual at which the iteration may stop: well below what is asked, unless rounding is reached.
static double enough_balance(const bys_solver *s, const newton *n)
{
    return n->full <= 1e-9 ? 0.2 * RESIDUAL_LIMIT : fmin(0.02 * RESIDUAL_LIMIT, 2e-9 * s->scale);
}

/// The iteration. Returns true at rest.
static bool iterate(bys_solver *s, bys_state *state, const bys_sea *sea, newton *n, int limit)
{
    s->mixed = true;
    for (int it = 0; it < limit; it++) {
        s->guard = n->full > 0.02 ? fmin(1.0, n->full / 0.5) : 0.0;
        n->worst = bys_assemble(s, state, sea, true);
        if (!isfinite(n->worst))
            return false;
        const double share = find_step(s, state, n);
        if (!(share > 0.0))
            return false;
        update_forces(s, state, sea, share);
        bys_solver_move(s, state, s->step, 1.0);
        const bool last = n->mu == 0.0 && s->barrier <= BYS_BARRIER && n->full <= 0.1 * STEP_LIMIT;
        if (last && (n->worst = true_residual(s, state, sea, false)) <= enough_balance(s, n))
            return true;
        if (n->least_mu > 0.0 && s->barrier <= BYS_BARRIER && n->full < STEP_LIMIT)
            break;
        lower_barrier(s, n, share);
        if (!s->rests && s->barrier < REST_BARRIER)
            bys_note_rest(s, state);
    }
    n->worst = true_residual(s, state, sea, false);
    return false;
}

// ---- verdict -----------------------------------------------------------------------------------

static int worst_point(const bys_solver *s)
{
    int worst = -1;
    double largest = -1.0;
    for (int i = 0; i < s->island->point_count; i++) {
        const int p = s->island->points[i], b = s->block_of_point[p];
        if (b == -1)
            continue;
        const int block = b >= 0 ? b : s->block_of_body[-2 - b];
        const double r = bys_norm(s->residual + 3 * (size_t)block);
        if (r > largest)
            largest = r, worst = p;
    }
    return worst;
}

static int point_of_block(const bys_solver *s, int block)
{
    for (int i = 0; i < s->island->point_count; i++) {
        const int p = s->island->points[i], b = s->block_of_point[p];
        if (b == block)
            return p;
        if (b <= -2 && (block == s->block_of_body[-2 - b] || block == s->block_of_body[-2 - b] + 1))
            return p;
    }
    return -1;
}

static void tell_not_found(bys_outcome *o, const bys_solver *s)
{
    char label[120];
    o->status = BYS_CANNOT_STAND;
    snprintf(o->reason, sizeof o->reason,
             "no balance of forces was found: %.3g N are left over at %s after %d steps",
             o->residual, bys_point_label(s->net, o->worst_point, label, sizeof label),
             o->factorisations);
}

static void judge_stability(bys_outcome *o, bys_solver *s)
{
    char label[120];
    int block = -1;
    double stiffness = 0.0;
    const int sign = bys_stability(s, &block, &stiffness);
    o->factorisations++;
    if (sign > 0)
        return;
    o->worst_point = point_of_block(s, block);
    bys_point_label(s->net, o->worst_point, label, sizeof label);
    o->status = sign < 0 ? BYS_UNSTABLE : BYS_INDETERMINATE;
    if (sign < 0)
        snprintf(o->reason, sizeof o->reason,
                 "the forces balance, but a small push at %s grows (stiffness %.2g N/m)", label,
                 stiffness);
    else
        snprintf(o->reason, sizeof o->reason,
                 "nothing fixes the position of %s: it can drift at no load", label);
}

/// Forces balance, yet Newton's steps do not come to rest: the position is free within the tolerance.
static void tell_loose(bys_outcome *o, const bys_solver *s, const newton *n)
{
    char label[120];
    o->status = BYS_INDETERMINATE;
    snprintf(o->reason, sizeof o->reason,
             "nothing fixes the position of %s: the forces balance to %.2g N and it still drifts",
             bys_point_label(s->net, o->worst_point, label, sizeof label), n->worst);
}

/// The bed carries lines, not rafts: a raft on the ground is outside what is modelled here.
static void tell_aground(bys_outcome *o, const bys_solver *s, const bys_state *state,
                         const bys_sea *sea)
{
    for (int i = 0; i < s->net->prism_count && sea->has_bed; i++) {
        const int p = s->net->prisms[i].point;
        const double depth = bys_bed_depth(state->x + 3 * (size_t)p, sea);
        if (s->net->points[p].island != s->index || depth <= 0.01)
            continue;
        o->status = BYS_CANNOT_STAND;
        o->worst_point = p;
        snprintf(o->reason, sizeof o->reason, "%s goes aground: it stands %.2f m in the bed",
                 s->net->bodies[s->net->points[p].body].id, depth);
        return;
    }
}

/// Depths are not guessed: what lies or hangs beyond the data of an uneven bed is not settled.
static void tell_beyond(bys_outcome *o, const bys_solver *s, const bys_state *state,
                        const bys_sea *sea)
{
    double most = 0.0;
    for (int i = 0; i < s->island->point_count && sea->has_bed && sea->map; i++) {
        const int p = s->island->points[i];
        const double *x = state->x + 3 * (size_t)p;
        if (!s->alive[p] || !(s->bed_stiffness[p] > 0.0) || bys_bed_map_inside(sea->map, x[0], x[1]))
            continue;
        const double beyond = bys_bed_map_beyond(sea->map, x[0], x[1]);
        if (beyond > most) {
            most = beyond;
            o->worst_point = p;
        }
    }
    if (!(most > 0.0))
        return;
    char label[120];
    o->status = BYS_INDETERMINATE;
    snprintf(o->reason, sizeof o->reason,
             "%s comes to lie %.1f m beyond the depths of the seabed, which are not guessed there",
             bys_point_label(s->net, o->worst_point, label, sizeof label), most);
}

/// An island where everything is held or taken out has nothing to solve.
static bool nothing_to_solve(const bys_solver *s)
{
    for (int i = 0; i < s->island->point_count; i++) {
        const int p = s->island->points[i];
        if (s->alive[p] && s->block_of_point[p] != -1)
            return false;
    }
    return true;
}

/// How an attempt begins and goes on.
typedef enum { FROM_HERE, FROM_COLD, FROM_COLD_GENTLY, SEARCHED, DAMPED } manner;

static newton first_state(bys_solver *s, bys_state *state, const bys_sea *sea, manner how)
{
    const bool gentle = how == FROM_COLD_GENTLY || how == DAMPED, cold = how == FROM_COLD || gentle;
    newton n = {.mu = cold ? 0.1 : 0.0, .full = INFINITY, .turn = gentle ? 0.1 : 0.2,
                .least_mu = how == DAMPED ? 0.02 : 0.0};
    s->mixed = false;
    s->barrier = BYS_BARRIER;
    const double worst = bys_assemble(s, state, sea, false); // also the scale of the loads
    s->rests = false;
    if (!cold)
        bys_note_rest(s, state);
    const double share = gentle ? 0.2 : (cold ? 0.05 : fmin(0.05, 0.02 * worst / s->line_scale));
    s->barrier = fmax(BYS_BARRIER, share * s->line_scale);
    first_forces(s, state, sea, cold ? 0.2 * s->line_scale : s->barrier,
                 cold ? s->line_scale : INFINITY);
    return n;
}

/// Pushes every point a little sideways, so that a symmetric start cannot sit on an unstable axis.
static void nudge(bys_solver *s, bys_state *state)
{
    for (int b = 0; b < s->blocks; b++)
        for (int c = 0; c < 3; c++) {
            const double phase = 0.7 * (double)b + 2.1 * (double)c;
            s->step[3 * b + c] = s->held[b][c] > 0.0 ? 0.0 : 0.02 * sin(phase + 0.3);
        }
    bys_solver_move(s, state, s->step, 1.0);
}

static bool run(bys_solver *s, bys_state *state, const bys_sea *sea, manner how, newton *n)
{
    if (how != FROM_HERE)
        bys_start_cold(s, state, sea);
    if (how == SEARCHED)
        bys_search(s, state, sea, &n->factorisations);
    const int before = n->factorisations;
    *n = first_state(s, state, sea, how);
    n->factorisations = before;
    static const int limits[] = {[FROM_HERE] = 45,
                                 [FROM_COLD] = 80,
                                 [FROM_COLD_GENTLY] = 250,
                                 [SEARCHED] = 100,
                                 [DAMPED] = 300};
    return iterate(s, state, sea, n, limits[how]);
}

static bool attempt(bys_outcome *o, bys_solver *s, bys_state *state, const bys_sea *sea, manner how)
{
    newton n = {0};
    const bool rest = run(s, state, sea, how, &n);
    s->mixed = false;
    s->barrier = BYS_BARRIER;
    o->worst_point = worst_point(s);
    o->residual = n.worst;
    o->last_step = n.full;
    o->status = BYS_STABLE;
    o->reason[0] = '\0';
    o->factorisations += n.factorisations;
    const bool still = sea->current_speed == 0.0 && sea->wind_speed == 0.0 && sea->hs == 0.0;
    const bool drifts = how == DAMPED && still && n.worst <= 1e-4 * s->scale;
    if (!rest && !drifts && !(n.worst <= RESIDUAL_LIMIT)) {
        tell_not_found(o, s);
        return false;
    }
    true_residual(s, state, sea, true);
    s->mixed = false;
    judge_stability(o, s);
    if (!rest && o->status == BYS_STABLE)
        tell_loose(o, s, &n);
    if (o->status == BYS_STABLE)
        tell_aground(o, s, state, sea);
    return o->status == BYS_STABLE;
}

/// The fast way first; each further way is slower and surer, and counted.
static void find_balance(bys_outcome *o, bys_solver *s, bys_state *state, const bys_sea *sea,
                         bys_start start)
{
    if (start == BYS_START_WARM) {
        if (attempt(o, s, state, sea, FROM_HERE))
            return;
        o->fallbacks++; // the neighbour misled
    }
    if (attempt(o, s, state, sea, FROM_COLD))
        return;
    o->fallbacks++;
    if (o->residual <= 1e-3 * s->scale) { // nearly there, or balanced on an edge
        if (o->status == BYS_UNSTABLE)
            nudge(s, state);
        if (attempt(o, s, state, sea, FROM_HERE))
            return;
    }
    if (attempt(o, s, state, sea, FROM_COLD_GENTLY))
        return;
    o->fallbacks++;
    if (attempt(o, s, state, sea, SEARCHED))
        return;
    o->fallbacks++;
    attempt(o, s, state, sea, DAMPED);
}

bys_rc bys_solve_island(bys_state *state, bys_solver *s, const bys_sea *sea,
                        const bys_condition *condition, bys_start start, bys_error *err)
{
    if (state->net != s->net)
        return bys_error_set(err, BYS_EINTERNAL, 0,
                             "state and solver belong to different networks");
    bys_outcome *o = &state->islands[s->index];
    memset(o, 0, sizeof *o);
    o->worst_point = -1;
    bys_solver_condition(s, state, sea, condition);
    if (!nothing_to_solve(s))
        find_balance(o, s, state, sea, start);
    tell_beyond(o, s, state, sea);
    bys_recover(s, state, sea);
    return BYS_OK;
}
