// SPDX-License-Identifier: GPL-3.0-or-later
// Equilibrium: Newton steps on the full tangent, held back where lines are slack, floats go under
// or modes are soft.
//
// NOTES
//   1. Each step solves (K + mu I) d = r. mu starts at the load per unknown over one metre on a cold
//      start and at zero on a warm one, falls after good steps and rises after poor ones; the last
//      steps are plain Newton (mu = 0).
//   2. A step is judged by the work r.d along it: g(0) = r0.d, g(1) = r1.d. While the work still to be
//      had falls well (|g(1)| <= 0.8 g(0)) or the residual falls, the step stands; otherwise it is
//      shortened by the secant of g. For dead loads g is minus the slope of the energy, so this is
//      an energy search that stays meaningful for current drag, which has no energy.
//   3. Stable means: worst residual <= 0.01 N (in practice far less), last full step <= 1 mm, no
//      mode of the tangent negative. Anything else is told with the item.
// SOURCE line search on the work: Matthies & Strang, Int. J. Numer. Meth. Engng 14 (1979) 1613
//        [memory]; shift: Kelley & Keyes, SIAM J. Numer. Anal. 35 (1998) 508 [memory].
#include "num/vec3.h"
#include "statics/solver.h"

#include <stdio.h>

static const double RESIDUAL_LIMIT = 0.01; // N
static const double STEP_LIMIT = 1e-3;     // m
static const int STEP_COUNT_LIMIT = 400;

/// Where the iteration stands.
typedef struct {
    double mu, mu0;      ///< N/m
    double worst;        ///< N, largest residual at the present positions
    double full;         ///< m, largest move of the last step before it was shortened
    double cap;          ///< m, largest move allowed
    int factorisations, fallbacks, poor;
    bys_pivots pivots;
} newton;

static void keep_positions(const bys_solver *s, const bys_state *state)
{
    for (int i = 0; i < s->island->point_count; i++) {
        const int p = s->island->points[i], b = s->block_of_point[p];
        if (b >= 0)
            memcpy(s->keep + 3 * (size_t)b, state->x + 3 * (size_t)p, 3 * sizeof(double));
    }
    double *turned = s->keep + 3 * (size_t)s->blocks;
    for (int i = 0; i < s->island->body_count; i++) {
        const int b = s->island->bodies[i];
        memcpy(s->keep + 3 * (size_t)s->block_of_body[b], state->body_x + 3 * (size_t)b,
               3 * sizeof(double));
        memcpy(turned + 9 * (size_t)i, state->body_r + 9 * (size_t)b, 9 * sizeof(double));
    }
}

static void restore_positions(const bys_solver *s, bys_state *state)
{
    for (int i = 0; i < s->island->point_count; i++) {
        const int p = s->island->points[i], b = s->block_of_point[p];
        if (b >= 0)
            memcpy(state->x + 3 * (size_t)p, s->keep + 3 * (size_t)b, 3 * sizeof(double));
    }
    const double *turned = s->keep + 3 * (size_t)s->blocks;
    for (int i = 0; i < s->island->body_count; i++) {
        const int b = s->island->bodies[i];
        memcpy(state->body_x + 3 * (size_t)b, s->keep + 3 * (size_t)s->block_of_body[b],
               3 * sizeof(double));
        memcpy(state->body_r + 9 * (size_t)b, turned + 9 * (size_t)i, 9 * sizeof(double));
    }
}

/// Work of the present residual along the step.
static double work_along(const bys_solver *s)
{
    double g = 0.0;
    for (int i = 0; i < 3 * s->blocks; i++)
        g += s->residual[i] * s->step[i];
    return g;
}

/// Attitude unknowns are shifted like a lever of 5 m.
static void add_shift(const bys_solver *s, double mu)
{
    for (int b = 0; b < s->blocks; b++)
        for (int c = 0; c < 3; c++)
            s->factor[s->diagonal[b] + 4 * c] += mu;
    for (int i = 0; i < s->island->body_count; i++) {
        const int b = s->block_of_body[s->island->bodies[i]] + 1;
        for (int c = 0; c < 3; c++)
            s->factor[s->diagonal[b] + 4 * c] += 24.0 * mu;
    }
}

static void factor_tangent(bys_solver *s, newton *n)
{
    memcpy(s->factor, s->tangent, bys_pattern3_values(s->pattern) * sizeof(double));
    if (n->mu > 0.0)
        add_shift(s, n->mu);
    bys_block_factor(s->pattern, s->factor, &n->pivots);
    n->factorisations++;
}

/// d = (K + mu I)^-1 r, shortened to the cap. Returns its largest move before that.
static double find_step(bys_solver *s, newton *n)
{
    bys_block_solve(s->pattern, s->factor, s->residual, s->step, s->work);
    double largest = 0.0;
    for (int b = 0; b < s->blocks; b++)
        largest = fmax(largest, bys_norm(s->step + 3 * (size_t)b));
    for (int i = 0; i < s->island->body_count; i++) { // one radian counts as 10 m
        const double *turn = s->step + 3 * (size_t)(s->block_of_body[s->island->bodies[i]] + 1);
        largest = fmax(largest, 10.0 * bys_norm(turn));
    }
    if (largest > n->cap)
        for (int i = 0; i < 3 * s->blocks; i++)
            s->step[i] *= n->cap / largest;
    return largest;
}

/// Moves along the step; returns the share taken, 0 if nothing was acceptable.
static double take_step(bys_solver *s, bys_state *state, const bys_sea *sea, newton *n)
{
    const double r0 = n->worst, g0 = work_along(s);
    double alpha = 1.0, g1 = 0.0;
    keep_positions(s, state);
    for (int trial = 0; trial < 7; trial++) {
        bys_solver_move(s, state, s->step, alpha);
        n->worst = bys_assemble(s, state, sea, false);
        g1 = work_along(s);
        if (n->worst <= 0.9 * r0 || (g0 > 0.0 && fabs(g1) <= 0.8 * g0) || n->full < 1e-7)
            return alpha;
        restore_positions(s, state);
        // secant of g towards its zero, kept between a tenth and a half
        const double shrink = g0 > 0.0 && g1 < 0.0 ? g0 / (g0 - g1) : 0.25;
        alpha *= fmin(0.5, fmax(0.1, shrink));
    }
    bys_assemble(s, state, sea, false);
    n->worst = r0;
    return 0.0;
}

static void lower_shift(newton *n, double alpha)
{
    if (n->mu == 0.0)
        return;
    n->mu *= alpha >= 1.0 ? 0.2 : (alpha > 0.3 ? 0.7 : 1.5);
    if (n->mu < 1e-4 * n->mu0)
        n->mu = 0.0;
}

static void raise_shift(newton *n)
{
    n->mu = fmax(4.0 * n->mu, 1e-2 * n->mu0);
    n->fallbacks++;
}

static bool at_rest(const newton *n)
{
    return n->worst <= 0.2 * RESIDUAL_LIMIT && n->full <= 0.1 * STEP_LIMIT && n->mu == 0.0;
}

/// The iteration. Returns true at rest.
static bool iterate(bys_solver *s, bys_state *state, const bys_sea *sea, newton *n)
{
    for (int it = 0; it < STEP_COUNT_LIMIT; it++) {
        n->worst = bys_assemble(s, state, sea, true);
        if (!isfinite(n->worst))
            return false;
        factor_tangent(s, n);
        n->full = find_step(s, n);
        if (!isfinite(n->full) || (work_along(s) <= 0.0 && n->worst > RESIDUAL_LIMIT && n->poor < 40)) {
            n->poor++;
            raise_shift(n);
            continue;
        }
        const double alpha = take_step(s, state, sea, n);
        if (at_rest(n))
            return true;
        if (alpha == 0.0) {
            if (n->mu > 1e8 * n->mu0)
                return false;
            raise_shift(n);
        } else {
            lower_shift(n, alpha);
        }
        s->tension_floor = s->tension_floor > 1.0 ? 0.3 * s->tension_floor : 0.0;
    }
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

static void tell_not_found(bys_outcome *o, const bys_solver *s, const newton *n)
{
    char label[120];
    o->status = BYS_CANNOT_STAND;
    snprintf(o->reason, sizeof o->reason,
             "no balance of forces was found: %.3g N are left over at %s after %d steps", n->worst,
             bys_point_label(s->net, o->worst_point, label, sizeof label), n->factorisations);
}

static void judge_stability(bys_outcome *o, bys_solver *s, newton *n)
{
    char label[120];
    int block = -1;
    double stiffness = 0.0;
    const int sign = bys_stability(s, &block, &stiffness);
    n->factorisations++;
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
                 "nothing fixes the position of %s: it can drift at no load (stiffness %.2g N/m)",
                 label, stiffness);
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

static newton first_state(bys_solver *s, bys_state *state, const bys_sea *sea, bool cold)
{
    newton n = {0};
    n.worst = bys_assemble(s, state, sea, false);
    n.mu0 = fmax(s->scale, 1.0) / fmax(s->blocks, 1);
    n.mu = cold ? n.mu0 : 0.0;
    n.cap = 40.0;
    n.full = INFINITY;
    s->tension_floor = cold ? 0.2 * s->scale : 0.0;
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

static bool attempt(bys_outcome *o, bys_solver *s, bys_state *state, const bys_sea *sea, bool cold)
{
    if (cold)
        bys_start_cold(s, state, sea);
    newton n = first_state(s, state, sea, cold);
    const bool rest = iterate(s, state, sea, &n);
    s->tension_floor = 0.0;
    o->worst_point = worst_point(s);
    o->residual = n.worst;
    o->last_step = n.full;
    o->status = BYS_STABLE;
    o->reason[0] = '\0';
    if (!rest)
        tell_not_found(o, s, &n);
    else
        judge_stability(o, s, &n);
    o->factorisations += n.factorisations;
    o->fallbacks += n.fallbacks;
    return o->status == BYS_STABLE;
}

bys_rc bys_solve_island(bys_state *state, bys_solver *s, const bys_sea *sea,
                        const bys_condition *condition, bys_start start, bys_error *err)
{
    if (state->net != s->net)
        return bys_error_set(err, BYS_EINTERNAL, 0, "state and solver belong to different networks");
    bys_outcome *o = &state->islands[s->index];
    memset(o, 0, sizeof *o);
    o->worst_point = -1;
    bys_solver_condition(s, state, sea, condition);
    if (nothing_to_solve(s)) {
        bys_recover(s, state, sea);
        return BYS_OK;
    }
    bool stable = attempt(o, s, state, sea, start == BYS_START_COLD);
    if (!stable && start == BYS_START_WARM) { // the neighbour misled: begin afresh
        o->fallbacks++;
        stable = attempt(o, s, state, sea, true);
    }
    for (int retry = 0; retry < 2 && !stable && o->status == BYS_UNSTABLE; retry++) {
        o->fallbacks++;
        nudge(s, state);
        stable = attempt(o, s, state, sea, false);
    }
    bys_recover(s, state, sea);
    return BYS_OK;
}
