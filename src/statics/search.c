// SPDX-License-Identifier: GPL-3.0-or-later
// The slow, sure way towards balance, used where the quick way (newton.c) does not arrive.
//
// NOTES
//   1. Forces follow positions (no unknowns of their own); the barrier of the one-sided laws falls by
//      ten from stage to stage, so that each stage is smooth and starts from the last.
//   2. A step is judged by the work r.d along it: g(0) = r0.d, g(1) = r1.d. While work was gained on
//      the way (g(1) >= -0.8 g(0)) or the residual falls, the step stands; otherwise it is shortened
//      by the secant of g. For dead loads g is minus the slope of the energy, so this is an energy
//      search that stays meaningful for current drag, which has no energy.
// SOURCE line search on the work: Matthies & Strang, Int. J. Numer. Meth. Engng 14 (1979) 1613
//        [memory]; shift: Kelley & Keyes, SIAM J. Numer. Anal. 35 (1998) 508 [memory].
#include "num/vec3.h"
#include "statics/solver.h"

static const double LONGEST_MOVE = 40.0; // m in one step

typedef struct { double mu, worst, full; int poor; } search;

// ---- steps, shared with newton.c ------------------------------------------------------------------

double bys_least_shift(const bys_solver *s)
{
    return 0.02 * s->scale / fmax(s->blocks, 1);
}

/// A shifted step moves a loose block by about its load over mu times that load.
void bys_factor_shifted(bys_solver *s, double mu, bys_pivots *pivots)
{
    const double least = bys_least_shift(s);
    memcpy(s->factor, s->tangent, bys_pattern3_values(s->pattern) * sizeof(double));
    for (int b = 0; mu > 0.0 && b < s->blocks; b++)
        for (int c = 0; c < 3; c++)
            s->factor[s->diagonal[b] + 4 * c] += mu * fmax(s->shift[2 * b + (c == 2)], least);
    bys_block_factor(s->pattern, s->factor, pivots);
}

double bys_step_size(const bys_solver *s)
{
    double largest = 0.0;
    for (int b = 0; b < s->blocks; b++)
        largest = fmax(largest, bys_norm(s->step + 3 * (size_t)b));
    for (int i = 0; i < s->island->body_count; i++) {
        const double *turn = s->step + 3 * (size_t)(s->block_of_body[s->island->bodies[i]] + 1);
        largest = fmax(largest, 10.0 * bys_norm(turn));
    }
    return largest;
}

// ---- going back -------------------------------------------------------------------------------------

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

/// Moves along the step; returns the share taken, 0 if nothing was acceptable.
static double take_step(bys_solver *s, bys_state *state, const bys_sea *sea, search *n)
{
    const double r0 = n->worst, g0 = work_along(s);
    double alpha = 1.0;
    keep_positions(s, state);
    for (int trial = 0; trial < 7; trial++) {
        bys_solver_move(s, state, s->step, alpha);
        n->worst = bys_assemble(s, state, sea, false);
        const double g1 = work_along(s);
        if (n->worst <= 0.9 * r0 || (g0 > 0.0 && g1 >= -0.8 * g0) || n->full < 1e-7)
            return alpha;
        restore_positions(s, state);
        // secant of g towards its zero, kept between a tenth and a half
        const double shrink = g0 > 0.0 && g1 < 0.0 ? g0 / (g0 - g1) : 0.25;
        alpha *= fmin(0.5, fmax(0.1, shrink));
    }
    n->worst = r0;
    return 0.0;
}

static void adapt_shift(search *n, double alpha)
{
    if (alpha == 0.0)
        n->mu = fmax(4.0 * n->mu, 1e-2);
    else
        n->mu *= alpha >= 1.0 ? 0.2 : (alpha > 0.3 ? 0.7 : 1.5);
    if (n->mu < 1e-4)
        n->mu = 0.0;
}

/// One stage: steps until the residual is below `enough` (N) or the limit is reached.
static int stage(bys_solver *s, bys_state *state, const bys_sea *sea, double mu, int limit,
                 double enough)
{
    search n = {.mu = mu};
    bys_pivots pivots;
    for (int it = 0; it < limit; it++) {
        n.worst = bys_assemble(s, state, sea, true);
        if (n.worst < enough || !isfinite(n.worst) || n.mu > 1e7)
            return it;
        bys_factor_shifted(s, n.mu, &pivots);
        bys_block_solve(s->pattern, s->factor, s->residual, s->step, s->work);
        n.full = bys_step_size(s);
        for (int i = 0; n.full > LONGEST_MOVE && i < 3 * s->blocks; i++)
            s->step[i] *= LONGEST_MOVE / n.full;
        if (!isfinite(n.full) || (work_along(s) <= 0.0 && n.poor++ < 40))
            adapt_shift(&n, 0.0);
        else
            adapt_shift(&n, take_step(s, state, sea, &n));
    }
    return limit;
}

void bys_search(bys_solver *s, bys_state *state, const bys_sea *sea, int *factorisations)
{
    s->mixed = s->rests = false;
    s->barrier = BYS_BARRIER;
    bys_assemble(s, state, sea, false);
    const double first = fmax(3e-2 * s->line_scale, 10.0 * BYS_BARRIER);
    for (double b = first; b > BYS_BARRIER; b *= 0.1) {
        s->barrier = b;
        if (b < 1.0 && !s->rests)
            bys_note_rest(s, state);
        const bool begins = b == first;
        *factorisations +=
            stage(s, state, sea, begins ? 1.0 : 1e-2, begins ? 150 : 80, 1e-3 * b);
    }
}
