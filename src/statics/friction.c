// SPDX-License-Identifier: GPL-3.0-or-later
// Friction of lines on the bed, as a study: design equilibria are frictionless.
//
// NOTES
//   1. A point that rests with N is held sideways with up to mu N against the way that it has gone
//      since it was laid (assemble.c). N is that of the last solve; solves follow one another until
//      both agree, with the mean of two rounds taken so that a point at the touchdown does not
//      jump on and off.
//   2. Before the first round the way over which friction grows falls in steps from metres to a third
//      of a millimetre, so that each solve starts near. Where it stops above a centimetre there is
//      no result.
//   3. mu of a point: that of the lines that meet there, by their weight in water.
//   4. History: friction depends on the whole way gone, not on turns in between. That is exact for a
//      line laid slack and pulled once.
// SOURCE coefficients: phys/chain_bed.c; closed form for a check: phys/catenary_bed.c.
#include "num/vec3.h"
#include "statics/solver.h"

#include <stdlib.h>

enum { MOST_ROUNDS = 25 };
static const double AGREED = 1e-3; // share of the friction
static const double FIRST_REACH = 3.0, LAST_REACH = 3e-4, USEFUL_REACH = 0.01; // m

typedef struct {
    const bys_network *net;
    const bys_island *island;
    double *mu, *bound; ///< per point of the network: -, N
} grip;

/// Weighted coefficient of each point.
static void find_mu(const grip *g, const double mu[2])
{
    double *weight = g->bound; // not yet in use
    for (int i = 0; i < g->island->element_count; i++) {
        const bys_element *e = &g->net->elements[g->island->elements[i]];
        const bys_section *sec = &g->net->sections[e->section];
        const bool chain = !sec->part || sec->part->kind == BYS_PART_CHAIN;
        const double w = fmax(0.0, sec->weight_dry - sec->buoyancy) * e->length;
        if (!sec->on_bed)
            continue;
        g->mu[e->a] += w * mu[chain], g->mu[e->b] += w * mu[chain];
        weight[e->a] += w, weight[e->b] += w;
    }
    for (int i = 0; i < g->island->point_count; i++) {
        const int p = g->island->points[i];
        g->mu[p] = weight[p] > 0.0 ? g->mu[p] / weight[p] : 0.0;
        weight[p] = 0.0;
    }
}

/// Takes the bed forces of the state; returns the share by which the bounds were off.
static double take_bed(const grip *g, const bys_state *state, bool first)
{
    double off = 0.0, all = 0.0;
    for (int i = 0; i < g->island->point_count; i++) {
        const int p = g->island->points[i];
        const double now =
            g->net->points[p].kind == BYS_POINT_FREE ? g->mu[p] * state->bed[p] : 0.0;
        off += fabs(now - g->bound[p]);
        all += now;
        g->bound[p] = first ? now : 0.5 * (g->bound[p] + now);
    }
    return all > 0.0 ? off / all : 0.0;
}

/// One solve; `good` keeps the last state that came to rest.
static bys_rc solve_once(bys_state *state, bys_state *good, bys_solver *solver, const bys_sea *sea,
                         bys_condition *with, double reach, bys_error *err)
{
    with->friction_reach = reach;
    const bys_rc rc = bys_solve_island(state, solver, sea, with, BYS_START_WARM, err);
    if (!rc && state->islands[solver->index].status == BYS_STABLE)
        bys_state_copy_island(good, state, solver->index);
    return rc;
}

/// Brings the way over which friction grows down as far as it goes, in smaller steps where a large
/// one fails; returns it (m), INFINITY if nowhere.
static double lower_reach(bys_state *state, bys_state *good, bys_solver *solver, const bys_sea *sea,
                          bys_condition *with, bys_rc *rc, bys_error *err)
{
    double reach = INFINITY, next = FIRST_REACH, step = 0.3;
    bys_state_copy_island(good, state, solver->index);
    for (int i = 0; i < 20 && reach > LAST_REACH; i++) {
        *rc = solve_once(state, good, solver, sea, with, next, err);
        if (*rc)
            break;
        if (state->islands[solver->index].status == BYS_STABLE) {
            reach = next;
        } else {
            bys_state_copy_island(state, good, solver->index);
            step = sqrt(step);
            if (isinf(reach) || step > 0.85)
                break;
        }
        next = fmax(LAST_REACH, reach * step);
    }
    return reach;
}

static bys_rc solve_rounds(const grip *g, bys_state *state, bys_state *good, bys_solver *solver,
                           const bys_sea *sea, bys_condition *with, bys_friction_outcome *out,
                           bys_error *err)
{
    bys_rc rc = BYS_OK;
    take_bed(g, state, true);
    out->reach = lower_reach(state, good, solver, sea, with, &rc, err);
    const bool useful = out->reach <= USEFUL_REACH;
    for (out->mismatch = INFINITY; !rc && useful && out->rounds < MOST_ROUNDS;) {
        rc = solve_once(state, good, solver, sea, with, out->reach, err);
        out->rounds++;
        out->status = state->islands[solver->index].status;
        if (rc || out->status != BYS_STABLE)
            break;
        bys_audit audit;
        bys_audit_island(&audit, state, sea, with, solver->index);
        if (!(audit.worst_N <= 0.01))
            out->status = BYS_CANNOT_STAND;
        out->mismatch = take_bed(g, state, false);
        if (out->mismatch < AGREED)
            break;
    }
    if (out->status == BYS_STABLE && !(out->mismatch < 10.0 * AGREED))
        out->status = BYS_INDETERMINATE;
    return rc;
}

bys_rc bys_solve_friction(bys_state *state, bys_solver *solver, const bys_sea *sea,
                          const bys_condition *condition, const double *laid, const double mu[2],
                          bys_friction_outcome *out, bys_error *err)
{
    const size_t np = (size_t)solver->net->point_count + 1;
    grip g = {solver->net, solver->island, calloc(np, sizeof(double)), calloc(np, sizeof(double))};
    bys_condition with = {.id = "friction"};
    if (condition)
        with = *condition;
    bys_state *good = NULL;
    *out = (bys_friction_outcome){.status = BYS_CANNOT_STAND};
    with.friction = g.bound;
    with.laid = laid;
    bys_rc rc = g.mu && g.bound ? BYS_OK : bys_error_set(err, BYS_ENOMEM, 0, "out of memory");
    if (!rc && sea->has_bed) {
        find_mu(&g, mu);
        rc = bys_state_new(&good, solver->net, err);
        if (!rc)
            rc = solve_rounds(&g, state, good, solver, sea, &with, out, err);
    } else if (!rc) {
        out->status = state->islands[solver->index].status;
    }
    bys_state_free(good);
    free(g.mu);
    free(g.bound);
    solver->friction = solver->laid = NULL;
    return rc;
}
