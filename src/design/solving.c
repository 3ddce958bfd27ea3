// SPDX-License-Identifier: GPL-3.0-or-later
// One equilibrium inside the main job: the ways that are tried, and the audit of the outcome.
#include "design/solving.h"

#include "base/number.h"

#include <math.h>
#include <stdlib.h>

static const double audit_limit = 0.01; // N, worst node

bys_rc bys_workplace_open(bys_judge *judge, bys_workplace *place, int stage, bys_error *err)
{
    const bys_network *net = judge->stages[stage].net;
    if (place->lost)
        return BYS_OK;
    place->solvers = calloc((size_t)net->island_count + 1, sizeof *place->solvers);
    if (!place->solvers)
        return bys_error_set(err, BYS_ENOMEM, 0, "out of memory while solving");
    const bys_rc rc = bys_state_new(&place->intact, net, err);
    return rc ? rc : bys_state_new(&place->lost, net, err);
}

void bys_workplace_close(bys_judge *judge, bys_workplace *place, int stage)
{
    for (int i = 0; place->solvers && i < judge->stages[stage].net->island_count; i++)
        bys_solver_free(place->solvers[i]);
    free(place->solvers);
    bys_state_free(place->intact);
    bys_state_free(place->lost);
}

/// A stable outcome that the independent sum of forces does not confirm is taken back.
static void confirm(bys_audit *audit, bys_state *state, const bys_sea *sea,
                    const bys_condition *condition, int island)
{
    bys_outcome *outcome = &state->islands[island];
    if (outcome->status != BYS_STABLE)
        return;
    bys_audit_island(audit, state, sea, condition, island);
    if (audit->worst_N <= audit_limit)
        return;
    outcome->status = BYS_CANNOT_STAND;
    const int point = audit->worst_point;
    bys_format(outcome->reason, sizeof outcome->reason,
               "the independent sum of forces leaves %.3g N at %s", audit->worst_N,
               point >= 0 && *state->net->points[point].id ? state->net->points[point].id
                                                           : "a point");
}

static bool is_stable(const bys_task *t)
{
    return t->state->islands[t->island].status == BYS_STABLE;
}

/// One more attempt; the factorisations of all attempts are counted.
static bys_rc attempt(bys_solver *solver, const bys_task *t, const bys_sea *sea, bys_start start,
                      bys_error *err)
{
    bys_outcome *outcome = &t->state->islands[t->island];
    const int before = outcome->factorisations;
    const bys_rc rc = bys_solve_island(t->state, solver, sea, t->condition, start, err);
    outcome->factorisations += before;
    return rc;
}

/// Where the direct ways fail: the weather is raised in steps, from a cold start in weak weather.
/// If that fails too, the outcome of the direct way stands.
static bys_rc raise_weather(bys_solver *solver, const bys_task *t, bys_error *err)
{
    static const double shares[] = {0.4, 0.7, 0.9, 1.0};
    bys_outcome *outcome = &t->state->islands[t->island];
    const bys_outcome direct = *outcome;
    bys_rc rc = BYS_OK;
    for (int k = 0; k < 4 && !rc && (k == 0 || is_stable(t)); k++) {
        const bys_sea weak = bys_sea_scaled(t->sea, shares[k] * shares[k]);
        rc = attempt(solver, t, k < 3 ? &weak : t->sea, k ? BYS_START_WARM : BYS_START_COLD, err);
    }
    if (!is_stable(t)) {
        const int spent = outcome->factorisations;
        *outcome = direct;
        outcome->factorisations = spent;
    }
    return rc;
}

static bys_rc from_rest(bys_solver *solver, const bys_task *t, bys_error *err)
{
    const int spent = t->state->islands[t->island].factorisations;
    bys_state_copy_island(t->state, t->rest, t->island);
    t->state->islands[t->island].factorisations = spent;
    return attempt(solver, t, t->sea, BYS_START_WARM, err);
}

bys_rc bys_workplace_solve(bys_workplace *place, const bys_task *t, bys_error *err)
{
    bys_rc rc = BYS_OK;
    bys_solver **solver = &place->solvers[t->island];
    if (!*solver)
        rc = bys_solver_new(solver, t->state->net, t->island, err);
    if (rc)
        return rc;
    t->state->islands[t->island].factorisations = 0;
    rc = attempt(*solver, t, t->sea, t->warm ? BYS_START_WARM : BYS_START_COLD, err);
    if (!rc && !is_stable(t) && t->warm)
        rc = attempt(*solver, t, t->sea, BYS_START_COLD, err);
    if (!rc && !is_stable(t) && t->rest && t->rest->islands[t->island].status == BYS_STABLE)
        rc = from_rest(*solver, t, err);
    if (!rc && !is_stable(t) && !bys_sea_slack(t->sea))
        rc = raise_weather(*solver, t, err);
    if (!rc)
        confirm(&place->audit, t->state, t->sea, t->condition, t->island);
    return rc;
}
