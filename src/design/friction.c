// SPDX-License-Identifier: GPL-3.0-or-later
// Study of friction on the bed in one case: how much of each leg's load the bed takes before the
// anchor feels it, and what it keeps of it when the weather is over.
//
// NOTES     1. Histories: the leg is laid in slack water at the level and stage of the case, then
//              loaded by it: the bed holds back, the anchor feels less. Then the weather drops: the
//              bed holds the other way, the anchor may feel more than without friction.
//           2. A report only. Checks use frictionless equilibria, with the friction of chain once in
//              the holding power.
// SOURCE    coefficients: phys/chain_bed.c (API RP 2SK, memory).
#include "design/judge.h"
#include "phys/phys.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
    bys_judge *judge;
    bys_friction *out;
    const bys_network *net;
    const bys_condition *change;
    double mu[2];
    bys_state *rest, *loaded, *after; ///< slack water; with friction; slack water again
} study;

static bys_sea slack_of(const bys_sea *sea)
{
    bys_sea slack = *sea;
    slack.current_speed = slack.wind_speed = slack.hs = 0.0;
    slack.storm = false;
    bys_sea_prepare(&slack);
    return slack;
}

static void note(study *t, bys_status status, const char *what, const char *reason)
{
    if (status == BYS_STABLE || t->out->status != BYS_STABLE)
        return;
    t->out->status = status;
    t->out->reason =
        bys_judge_text(t->judge, "%s%s%s", what, *reason ? ": " : "", *reason ? reason : "");
}

static bys_rc rub(study *t, bys_state *state, bys_solver *solver, const bys_sea *sea,
                  const double *laid, const char *what, int island, bys_error *err)
{
    bys_friction_outcome outcome;
    const bys_rc rc =
        bys_solve_friction(state, solver, sea, t->change, laid, t->mu, &outcome, err);
    if (rc)
        return rc;
    note(t, outcome.status, what, state->islands[island].reason);
    t->out->mismatch = fmax(t->out->mismatch, outcome.mismatch);
    t->out->reach_m = fmax(t->out->reach_m, outcome.reach);
    return BYS_OK;
}

static bys_rc study_island(study *t, const bys_state *state, const bys_sea *sea, int island,
                           bys_error *err)
{
    const bys_sea slack = slack_of(sea);
    bys_solver *solver = NULL;
    if (t->net->islands[island].leg_count == 0)
        return BYS_OK;
    bys_rc rc = bys_solver_new(&solver, t->net, island, err);
    if (!rc)
        rc = bys_solve_island(t->rest, solver, &slack, t->change, BYS_START_COLD, err);
    if (!rc) {
        note(t, t->rest->islands[island].status, "slack water, in which the legs are laid",
             t->rest->islands[island].reason);
        note(t, state->islands[island].status, "the case", state->islands[island].reason);
        bys_state_copy_island(t->loaded, state, island);
        bys_state_copy_island(t->after, t->rest, island);
    }
    if (!rc && t->out->status == BYS_STABLE)
        rc = rub(t, t->loaded, solver, sea, t->rest->x, "with friction", island, err);
    if (!rc && t->out->status == BYS_STABLE)
        rc = rub(t, t->after, solver, &slack, t->loaded->x, "slack water after the case", island,
                 err);
    bys_solver_free(solver);
    return rc;
}

static void put_state(bys_friction_row *row, int k, const bys_leg *leg, const bys_state *state)
{
    const bys_section_state *foot = &state->sections[leg->first_section];
    const bys_section_state *top = foot + leg->section_count - 1;
    row->anchor_N[k] = foot->tension_a;
    row->horizontal_N[k] = hypot(foot->force_a[0], foot->force_a[1]);
    row->vertical_N[k] = foot->force_a[2];
    row->top_N[k] = top->tension_b;
    row->grounded_m[k] = 0.0;
    for (int s = 0; s < leg->section_count; s++)
        row->grounded_m[k] += foot[s].grounded;
}

static void put_rows(study *t, const bys_state *state)
{
    const bys_state *const states[4] = {state, t->loaded, t->after, t->rest};
    t->out->rows = bys_judge_get(t->judge, (size_t)t->net->leg_count, sizeof *t->out->rows);
    for (int l = 0; t->out->rows && l < t->net->leg_count; l++) {
        const bys_leg *leg = &t->net->legs[l];
        if (leg->section_count == 0 || !state->sections[leg->first_section].active)
            continue;
        bys_friction_row *row = &t->out->rows[t->out->row_count++];
        row->id = bys_judge_text(t->judge, "%s", leg->id);
        for (int k = 0; k < 4; k++)
            put_state(row, k, leg, states[k]);
    }
}

bys_rc bys_judge_friction(bys_friction **out, bys_judge *judge, const bys_state *state,
                          const bys_sea *sea, const bys_condition *change, bys_error *err)
{
    *out = bys_judge_get(judge, 1, sizeof **out);
    if (!*out)
        return bys_error_set(err, BYS_ENOMEM, 0, "out of memory for the study of friction");
    study t = {.judge = judge, .out = *out, .net = state->net, .change = change};
    t.mu[0] = t.out->mu_rope = bys_bed_friction(false);
    t.mu[1] = t.out->mu_chain = bys_bed_friction(true);
    t.out->basis = BYS_BASIS_MEMORY;
    t.out->status = BYS_STABLE;
    t.out->reason = "";
    bys_rc rc = bys_state_new(&t.rest, t.net, err);
    if (!rc)
        rc = bys_state_new(&t.loaded, t.net, err);
    if (!rc)
        rc = bys_state_new(&t.after, t.net, err);
    for (int i = 0; !rc && sea->has_bed && i < t.net->island_count; i++)
        rc = study_island(&t, state, sea, i, err);
    if (!rc && sea->has_bed && t.out->status == BYS_STABLE)
        put_rows(&t, state);
    bys_state_free(t.rest);
    bys_state_free(t.loaded);
    bys_state_free(t.after);
    return rc;
}
