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
//   4. A step is not tested for descent: a turned rope of stiff elements raises every norm of the
//      residual for a step or two. Where asked (watched), the shift rises when the outcome of a step
//      is far from what its linear model promised, measured in metres.
// SOURCE measure of note 4: the natural level function of Deuflhard, Newton Methods for Nonlinear
//        Problems (2004) ch. 3 [memory], here for a shifted step and without rejection.
#include "num/vec3.h"
#include "statics/onesided.h"
#include "statics/solver.h"

static const double RESIDUAL_LIMIT = BYS_RESIDUAL_LIMIT;
static const double STEP_LIMIT = 1e-3;     // m
static const double LONGEST_MOVE = 40.0;   // m in one step
static const double LEAST_LEFT = 0.02;     // share of a force that one step must leave
static const double LOOSE_SHIFT = 0.1;     // 1/m, above which a small step says little
static const double REST_BARRIER = 0.3;    // N, below which slack lines begin to rest on the bed

/// Where the iteration stands.
typedef struct {
    const bys_way *way;
    double mu;           ///< 1/m, share of the shift
    double worst;        ///< N, largest residual at the present positions
    double full;         ///< m, largest move of the last step before it was shortened
    double bent;         ///< how far its outcome was from its promise; 0 where not watched
    bool watched;        ///< the shift follows the outcome of each step
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
        share = isfinite(n->full) ? shorten(s, state, n->way->turn) : 0.0;
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

/// |A^-1 (r1 - (1 - share) r0 - share mu S d)| / |share d|, with A the matrix of the step d that was
/// taken for its share, r0 (in s->before) and r1 the residuals around it.
static double bend(bys_solver *s, double mu, double share)
{
    double step = 0.0, off = 0.0;
    const double least = bys_least_shift(s);
    for (int i = 0; i < 3 * s->blocks; i++) {
        const double S = fmax(s->shift_before[2 * (i / 3) + (i % 3 == 2)], least);
        s->right[i] = s->residual[i] - (1.0 - share) * s->before[i] - mu * S * s->step[i];
        step += s->step[i] * s->step[i];
    }
    bys_block_solve(s->pattern, s->factor, s->right, s->right, s->work);
    for (int i = 0; i < 3 * s->blocks; i++)
        off += s->right[i] * s->right[i];
    return sqrt(off / fmax(step, 1e-30));
}

static void adapt_shift(newton *n, double share)
{
    const bool astray = n->bent > 1.0 && n->full > STEP_LIMIT;
    if (share < 0.95)
        n->mu = fmax(1.5 * n->mu, astray ? 1e-3 : 0.0);
    else if (astray)
        n->mu = fmax(3.0 * n->mu, 1e-3);
    else if (n->bent < 0.5)
        n->mu *= share < 1.0 ? 1.5 : n->way->fall;
    if (n->mu < 1e-4)
        n->mu = 0.0;
    n->mu = fmax(n->mu, n->way->least_mu);
}

static void lower_barrier(bys_solver *s, const newton *n, double share)
{
    const double ease = n->full < 0.05  ? 0.01
                        : n->full < 0.3 ? 0.1
                        : n->full < 1.5 ? 0.3
                        : n->full < 6.0 ? 0.7
                                        : 1.0;
    if (share >= 1.0 && n->mu <= LOOSE_SHIFT)
        s->barrier = fmax(BYS_BARRIER, s->barrier * ease);
}

/// Residual at which the iteration may stop: well below what is asked, unless rounding is reached.
static double enough_balance(const bys_solver *s, const newton *n)
{
    return n->full <= 1e-9 ? 0.2 * RESIDUAL_LIMIT : fmin(0.02 * RESIDUAL_LIMIT, 2e-9 * s->scale);
}

/// Moves, with the forces; where watched, measures what came of it.
static void take_step(bys_solver *s, bys_state *state, const bys_sea *sea, newton *n, double share)
{
    if (n->watched) {
        memcpy(s->before, s->residual, 3 * (size_t)s->blocks * sizeof(double));
        memcpy(s->shift_before, s->shift, 2 * (size_t)s->blocks * sizeof(double));
    }
    update_forces(s, state, sea, share);
    bys_solver_move(s, state, s->step, 1.0);
    if (n->watched) {
        bys_assemble(s, state, sea, false);
        n->bent = bend(s, n->mu, share);
    }
}

/// The iteration. Returns true at rest.
static bool iterate(bys_solver *s, bys_state *state, const bys_sea *sea, newton *n)
{
    s->mixed = true;
    for (int it = 0; it < n->way->limit; it++) {
        n->watched = it >= n->way->watch_from;
        s->last_move = n->full;
        s->guard = n->full > 0.3 ? fmin(1.0, n->full / 0.5) : 0.0;
        n->worst = bys_assemble(s, state, sea, true);
        if (!isfinite(n->worst))
            return false;
        const double share = find_step(s, state, n);
        if (!(share > 0.0))
            return false;
        take_step(s, state, sea, n, share);
        const bool last = n->mu == 0.0 && s->barrier <= BYS_BARRIER && n->full <= 0.1 * STEP_LIMIT;
        if (last && (n->worst = true_residual(s, state, sea, true)) <= enough_balance(s, n))
            return true; // with the tangent, for the verdict on stability
        if (n->way->least_mu > 0.0 && s->barrier <= BYS_BARRIER && n->full < STEP_LIMIT)
            break;
        lower_barrier(s, n, share);
        adapt_shift(n, share);
        if (!s->rests && s->barrier < REST_BARRIER)
            bys_note_rest(s, state);
    }
    n->worst = true_residual(s, state, sea, false);
    return false;
}

/// Forces and barrier to begin with.
static void begin(bys_solver *s, bys_state *state, const bys_sea *sea, const bys_way *w)
{
    s->mixed = false;
    s->barrier = BYS_BARRIER;
    const double worst = bys_assemble(s, state, sea, false); // also the scale of the loads
    s->rests = false;
    if (!w->cold)
        bys_note_rest(s, state);
    const double share = w->cold ? w->barrier : fmin(w->barrier, 0.02 * worst / s->line_scale);
    s->barrier = fmax(BYS_BARRIER, share * s->line_scale);
    first_forces(s, state, sea, w->cold ? 0.2 * s->line_scale : s->barrier,
                 w->cold ? s->line_scale : INFINITY);
}

bool bys_newton(bys_descent *out, bys_solver *s, bys_state *state, const bys_sea *sea,
                const bys_way *w)
{
    newton n = {.way = w, .mu = w->mu, .full = INFINITY};
    begin(s, state, sea, w);
    const bool rest = iterate(s, state, sea, &n);
    s->mixed = false;
    s->barrier = BYS_BARRIER;
    *out = (bys_descent){n.worst, n.full, n.factorisations};
    return rest;
}

double bys_true_tangent(bys_solver *s, bys_state *state, const bys_sea *sea)
{
    const double worst = true_residual(s, state, sea, true);
    s->mixed = false;
    return worst;
}
