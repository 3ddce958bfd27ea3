// SPDX-License-Identifier: GPL-3.0-or-later
// One condition in one case, solved from the case's intact state.
//
// GIVEN     the set, the job's environment, intact states of all islands
// RETURNED  states of the islands that it touches; worst status, residual and factorisations; the
//           condition as it was solved, with the loads that depend on the case
// NOTES     1. A vessel pulls with 1/2 rho CA U^2 along the surface current and 1/2 rho_air CA V^2 along
//              the wind, U at the surface, V at 10 m; it does not shade the line and has no drift force
//              of its own.
//           2. Replaced weather scales orbital velocities with hs, reflected drift with hs^2, splash with
//              hs^3, at the
//              case's period and directions.
//           3. A part that nothing holds any more drifts away: there is no equilibrium to look for, and
//              none is looked for.
// SOURCE    drag of a vessel: the usual quadratic law; its coefficient is the user's.
#include "base/number.h"
#include "design/sets.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

// ---- what the case adds ----------------------------------------------------------------------

static void scale_waves(bys_sea *sea, double hs)
{
    if (!(sea->hs > 0.0))
        return;
    const double share = hs / sea->hs;
    sea->hs = hs;
    sea->reflection *= share * share;
    sea->splash *= share * share * share;
    for (int i = 0; i < BYS_SIGMA_POINTS; i++)
        sea->sigma[i] *= share;
}

static void change_weather(bys_sea *sea, const bys_weather_change *w)
{
    if (!isnan(w->current))
        sea->current_speed = w->current;
    if (!isnan(w->wind))
        sea->wind_speed = w->wind;
    if (!isnan(w->hs))
        scale_waves(sea, w->hs);
}

bys_rc bys_run_add_load(bys_set_run *run, int point, const double force[3], bys_error *err)
{
    if (run->load_count == run->load_room) {
        const int room = 2 * run->load_room + 32;
        bys_point_load *loads = realloc(run->loads, (size_t)room * sizeof *loads);
        if (!loads)
            return bys_error_set(err, BYS_ENOMEM, 0, "out of memory for a condition");
        run->loads = loads;
        run->load_room = room;
    }
    run->loads[run->load_count].point = point;
    memcpy(run->loads[run->load_count++].force, force, 3 * sizeof *force);
    run->change.loads = run->loads;
    run->change.load_count = run->load_count;
    return BYS_OK;
}

static bys_rc add_vessel(bys_set_run *run, const bys_set *set, bys_error *err)
{
    const bys_sea *sea = &run->sea;
    const double flow =
        0.5 * sea->rho * set->vessel->current_area * sea->current_speed * sea->current_speed;
    const double blow =
        0.5 * sea->rho_air * set->vessel->wind_area * sea->wind_speed * sea->wind_speed;
    const double force[3] = {flow * sea->current[0] + blow * sea->wind[0],
                             flow * sea->current[1] + blow * sea->wind[1], 0.0};
    return bys_run_add_load(run, set->point, force, err);
}

static bys_rc start(bys_set_run *run, const bys_judge *judge, const bys_job *job,
                    const bys_set *set, bys_error *err)
{
    const bys_network *net = bys_job_stage(judge, job)->net;
    run->change = set->change;
    run->sea = bys_job_environment(judge, job)->sea;
    run->load_count = 0;
    run->solves = 0;
    bys_text_free(&run->reached);
    run->lift_force = NAN;
    free(run->seen.reason);
    run->seen = (bys_case_seen){.largest_leg = -1};
    if (!run->touched)
        run->touched = malloc((size_t)net->island_count + 1);
    if (!run->touched)
        return bys_error_set(err, BYS_ENOMEM, 0, "out of memory for a condition");
    memset(run->touched, 0, (size_t)net->island_count + 1);
    if (set->weather)
        change_weather(&run->sea, set->weather);
    bys_rc rc = BYS_OK;
    for (int i = 0; i < set->change.load_count && !rc; i++)
        rc = bys_run_add_load(run, set->change.loads[i].point, set->change.loads[i].force, err);
    if (!rc && set->vessel)
        rc = add_vessel(run, set, err);
    if (!rc && set->lift && isfinite(set->lift->force)) {
        const double up[3] = {0.0, 0.0, set->lift->force};
        run->lift_force = set->lift->force;
        rc = bys_run_add_load(run, set->point, up, err);
    }
    return rc;
}

// ---- solving ---------------------------------------------------------------------------------

bys_rc bys_run_island(bys_set_run *run, const bys_judge *judge, const bys_job *job,
                      bys_workplace *place, int island, bool warm, bys_error *err)
{
    (void)judge;
    const bool known = run->touched[island] && warm;
    if (!known)
        bys_state_copy_island(place->lost, place->intact, island);
    const bys_task task = {
        .state = place->lost,
        .island = island,
        .condition = &run->change,
        .sea = &run->sea,
        .warm = known ? place->lost->islands[island].status == BYS_STABLE
                      : job->island[island] == BYS_STABLE};
    run->touched[island] = 1;
    run->solves++;
    const bys_rc rc = bys_workplace_solve(place, &task, err);
    run->seen.factorisations += place->lost->islands[island].factorisations;
    return rc;
}

void bys_run_fails(bys_set_run *run, bys_workplace *place, int island, bys_status status,
                   const char *reason)
{
    bys_outcome *o = &place->lost->islands[island];
    run->touched[island] = 1;
    o->status = status;
    bys_format(o->reason, sizeof o->reason, "%s", reason);
}

/// The worst of all islands that were solved; each is audited once more with what holds at the end.
static void reduce(bys_set_run *run, const bys_workplace *place)
{
    const bys_state *state = place->lost;
    for (int i = 0; i < state->net->island_count; i++) {
        const bys_outcome *o = &state->islands[i];
        if (!run->touched[i])
            continue;
        if (o->status != BYS_STABLE) {
            if (run->seen.status == BYS_STABLE) {
                run->seen.status = o->status;
                const size_t n = strlen(o->reason) + 1;
                if ((run->seen.reason = malloc(n)))
                    memcpy(run->seen.reason, o->reason, n);
            }
            continue;
        }
        bys_audit audit;
        bys_audit_island(&audit, state, &run->sea, &run->change, i);
        const double share = audit.applied_N > 0.0 ? audit.sum_N / audit.applied_N : 0.0;
        run->seen.residual = fmax(run->seen.residual, audit.worst_N);
        run->seen.sum_share = fmax(run->seen.sum_share, share);
    }
}

static bys_rc drifts(bys_set_run *run, bys_workplace *place, const bys_set *set)
{
    char text[160];
    bys_format(text, sizeof text, "nothing else holds %.80s: it drifts away", set->loose);
    for (int i = 0; i < set->island_count; i++) {
        bys_state_copy_island(place->lost, place->intact, set->islands[i]);
        bys_run_fails(run, place, set->islands[i], BYS_CANNOT_STAND, text);
    }
    return BYS_OK;
}

bys_rc bys_set_solve(bys_set_run *run, bys_judge *judge, const bys_job *job, bys_workplace *place,
                     const bys_set *set, bys_error *err)
{
    bys_rc rc = start(run, judge, job, set, err);
    if (rc)
        return rc;
    if (set->kind == BYS_SET_FOULED)
        rc = bys_run_foul(run, judge, job, place, set, err);
    else if (set->loose)
        rc = drifts(run, place, set);
    else if (set->lift && isfinite(set->lift->height))
        rc = bys_run_lift(run, judge, job, place, set, err);
    else
        for (int i = 0; i < set->island_count && !rc; i++)
            rc = bys_run_island(run, judge, job, place, set->islands[i], false, err);
    if (!rc)
        reduce(run, place);
    return rc;
}

void bys_set_run_free(bys_set_run *run)
{
    free(run->loads);
    free(run->touched);
    free(run->seen.reason);
    bys_text_free(&run->reached);
    *run = (bys_set_run){0};
}
