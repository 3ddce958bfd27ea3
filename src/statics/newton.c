// SPDX-License-Identifier: GPL-3.0-or-later
// Equilibrium: Newton steps on the full tangent, held back where lines are slack, floats go under
// or modes are soft.
//
// NOTES
//   1. Each step solves (K + mu I) d = r. mu starts at the load per unknown over one metre on a cold
//      start and at zero on a warm one, falls after good steps and rises after poor ones; the last
//      steps are plain Newton (mu = 0).
//   2. A step is judged by the work r.d along it: g(0) = r0.d, g(1) = r1.d. While work was gained on
//      the way (g(1) >= -0.8 g(0)) or the residual falls, the step stands; otherwise it is shortened
//      by the secant of g. For dead loads g is minus the slope of the energy, so this is
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

/// Where the iteration stands.
typedef struct {
    double mu;           ///< 1/m, share of the shift
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

/// K + mu diag(shift): a shifted step moves a loose block by about its load over mu times that load.
static void add_shift(const bys_solver *s, double mu)
{
    const double least = 0.02 * s->scale / fmax(s->blocks, 1);
    for (int b = 0; b < s->blocks; b++)
        for (int c = 0; c < 3; c++)
            s->factor[s->diagonal[b] + 4 * c] += mu * fmax(s->shift[b], least);
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
        if (n->worst <= 0.9 * r0 || (g0 > 0.0 && g1 >= -0.8 * g0) || n->full < 1e-7)
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
    if (n->mu < 1e-4)
        n->mu = 0.0;
}

static void raise_shift(newton *n)
{
    n->mu = fmax(4.0 * n->mu, 1e-2);
    n->fallbacks++;
}

static bool at_rest(const newton *n)
{
    return n->worst <= 0.2 * RESIDUAL_LIMIT && n->full <= 0.1 * STEP_LIMIT && n->mu == 0.0;
}

/// The iteration. Returns true at rest, or once the residual is below `enough` (N).
static bool iterate(bys_solver *s, bys_state *state, const bys_sea *sea, newton *n, int limit,
                    double enough)
{
    for (int it = 0; it < limit; it++) {
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
        if (at_rest(n) || n->worst < enough)
            return true;
        if (alpha == 0.0) {
            if (n->mu > 1e7)
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

static newton first_state(bys_solver *s, bys_state *state, const bys_sea *sea, double mu)
{
    newton n = {0};
    n.worst = bys_assemble(s, state, sea, false);
    n.mu = mu;
    n.cap = 40.0;
    n.full = INFINITY;
    return n;
}

/// Eases slackness and the bed in: with every element a little tight and the bed soft the balance is
/// smooth and nearly convex; each stage starts from the last. Leaves the true laws set.
static void ease_in(bys_outcome *o, bys_solver *s, bys_state *state, const bys_sea *sea,
                    const bys_condition *condition)
{
    bys_assemble(s, state, sea, false);
    const double first = fmax(3e-2 * s->scale, 10.0 * BYS_SLACK_FORCE);
    double depth = 0.3;
    for (double T0 = first; T0 > BYS_SLACK_FORCE; T0 *= 0.1, depth *= 0.3) {
        s->slack_force = T0;
        s->bed_depth = fmax(depth, BYS_BED_DEPTH);
        bys_solver_condition(s, state, sea, condition);
        newton n = first_state(s, state, sea, T0 == first ? 1.0 : 1e-2);
        iterate(s, state, sea, &n, T0 == first ? 120 : 60, 1e-3 * T0);
        o->factorisations += n.factorisations;
    }
    s->slack_force = BYS_SLACK_FORCE;
    s->bed_depth = BYS_BED_DEPTH;
    bys_solver_condition(s, state, sea, condition);
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

/// How an attempt begins.
typedef enum { FROM_HERE, FROM_COLD, FROM_EASED } beginning;

static bool attempt(bys_outcome *o, bys_solver *s, bys_state *state, const bys_sea *sea,
                    const bys_condition *condition, beginning from)
{
    if (from != FROM_HERE)
        bys_start_cold(s, state, sea);
    if (from == FROM_EASED)
        ease_in(o, s, state, sea, condition);
    newton n = first_state(s, state, sea, from == FROM_HERE ? 0.0 : (from == FROM_COLD ? 1.0 : 1e-2));
    if (from == FROM_COLD)
        s->tension_floor = 0.2 * s->scale;
    const bool rest = iterate(s, state, sea, &n, from == FROM_EASED ? 300 : 60, 0.0);
    s->tension_floor = 0.0;
    o->worst_point = worst_point(s);
    o->residual = n.worst;
    o->last_step = n.full;
    o->status = BYS_STABLE;
    o->reason[0] = '\0';
    o->factorisations += n.factorisations;
    o->fallbacks += n.fallbacks;
    if (!rest && n.worst > RESIDUAL_LIMIT)
        tell_not_found(o, s);
    else
        judge_stability(o, s);
    if (!rest && o->status == BYS_STABLE)
        tell_loose(o, s, &n);
    return o->status == BYS_STABLE;
}

/// The fast way first; each further way is slower and surer, and counted.
static void find_balance(bys_outcome *o, bys_solver *s, bys_state *state, const bys_sea *sea,
                         const bys_condition *condition, bys_start start)
{
    if (start == BYS_START_WARM) {
        if (attempt(o, s, state, sea, condition, FROM_HERE))
            return;
        o->fallbacks++; // the neighbour misled
    }
    if (attempt(o, s, state, sea, condition, FROM_COLD))
        return;
    for (int retry = 0; retry < 2 && o->status == BYS_UNSTABLE; retry++) {
        o->fallbacks++;
        nudge(s, state);
        if (attempt(o, s, state, sea, condition, FROM_HERE))
            return;
    }
    o->fallbacks++;
    if (attempt(o, s, state, sea, condition, FROM_EASED) || o->status == BYS_INDETERMINATE)
        return;
    o->fallbacks++;
    nudge(s, state);
    ease_in(o, s, state, sea, condition);
    attempt(o, s, state, sea, condition, FROM_HERE);
}

bys_rc bys_solve_island(bys_state *state, bys_solver *s, const bys_sea *sea,
                        const bys_condition *condition, bys_start start, bys_error *err)
{
    if (state->net != s->net)
        return bys_error_set(err, BYS_EINTERNAL, 0, "state and solver belong to different networks");
    bys_outcome *o = &state->islands[s->index];
    memset(o, 0, sizeof *o);
    o->worst_point = -1;
    s->bed_depth = BYS_BED_DEPTH;
    s->slack_force = BYS_SLACK_FORCE;
    s->tension_floor = 0.0;
    bys_solver_condition(s, state, sea, condition);
    if (!nothing_to_solve(s))
        find_balance(o, s, state, sea, condition, start);
    bys_recover(s, state, sea);
    return BYS_OK;
}
