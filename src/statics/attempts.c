// SPDX-License-Identifier: GPL-3.0-or-later
// From one way of finding equilibrium to the next, and what came of it.
//
// NOTES
//   1. Stable means: worst residual <= 0.01 N (in practice far less), last full step <= 1 mm, no
//      mode of the tangent negative. Anything else is told with the item.
//   2. Every further way is slower and surer, or simply other: where the path of one goes astray, that
//      of the next seldom does. Each is counted as a fallback.
#include "num/vec3.h"
#include "statics/solver.h"

#include <stdio.h>

static const double RESIDUAL_LIMIT = BYS_RESIDUAL_LIMIT;

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
static void tell_loose(bys_outcome *o, const bys_solver *s, double worst)
{
    char label[120];
    o->status = BYS_INDETERMINATE;
    snprintf(o->reason, sizeof o->reason,
             "nothing fixes the position of %s: the forces balance to %.2g N and it still drifts",
             bys_point_label(s->net, o->worst_point, label, sizeof label), worst);
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
        if (!s->alive[p] || !(s->bed_stiffness[p] > 0.0) ||
            bys_bed_map_inside(sea->map, x[0], x[1]))
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

// ---- the ways ------------------------------------------------------------------------------------

typedef enum { FROM_HERE, FROM_COLD, FROM_COLD_GENTLY, SEARCHED, DAMPED } manner;

static const bys_way ways[] = { // barrier, mu, fall, least_mu, turn, limit, watch_from, cold
    [FROM_HERE] = {0.05, 0.0, 0.15, 0.0, 0.3, 45, 45, false},
    [FROM_COLD] = {0.05, 0.1, 0.15, 0.0, 0.7, 160, 40, true},
    [FROM_COLD_GENTLY] = {0.2, 0.1, 0.15, 0.0, 0.1, 250, 0, true},
    [SEARCHED] = {0.05, 0.0, 0.15, 0.0, 0.2, 150, 0, false},
    [DAMPED] = {0.2, 0.1, 0.15, 0.02, 0.1, 300, 300, true}};

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

static bool run(bys_descent *d, bys_solver *s, bys_state *state, const bys_sea *sea, manner how)
{
    int searched = 0;
    if (how != FROM_HERE)
        bys_start_cold(s, state, sea);
    if (how == SEARCHED)
        bys_search(s, state, sea, &searched);
    const bool rest = bys_newton(d, s, state, sea, &ways[how]);
    d->factorisations += searched;
    return rest;
}

static bool attempt(bys_outcome *o, bys_solver *s, bys_state *state, const bys_sea *sea, manner how)
{
    bys_descent d;
    const bool rest = run(&d, s, state, sea, how);
    o->worst_point = worst_point(s);
    o->residual = d.worst;
    o->last_step = d.full;
    o->status = BYS_STABLE;
    o->reason[0] = '\0';
    o->factorisations += d.factorisations;
    const bool drifts = how == DAMPED && sea->current_speed == 0.0 && d.worst <= 1e-4 * s->scale;
    if (!rest && !drifts && !(d.worst <= RESIDUAL_LIMIT)) {
        tell_not_found(o, s);
        return false;
    }
    if (!rest)
        bys_true_tangent(s, state, sea);
    judge_stability(o, s);
    if (!rest && o->status == BYS_STABLE)
        tell_loose(o, s, d.worst);
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
    const bool calm = sea->current_speed == 0.0; // then it may be that nothing settles a slack line
    if (calm && (attempt(o, s, state, sea, DAMPED) || o->status == BYS_INDETERMINATE))
        return;
    o->fallbacks += calm;
    if (attempt(o, s, state, sea, SEARCHED) || calm)
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
