// SPDX-License-Identifier: GPL-3.0-or-later
// One case by its id, with every position and force of it.
//
// NOTES     1. A point inside a section has no id of its own: it is named SECTION.n, counted from
// end a.
//           2. Attitude of a body: yaw is the direction of its local x axis, clockwise from north;
//           pitch
//              its rise; roll is positive when local y rises.
#include "base/codes.h"
#include "design/sets.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/// The solution with the memory that everything in it belongs to.
typedef struct {
    bys_solution solution;
    bys_arena *arena;
} solution_box;

void bys_solution_free(bys_solution *solution)
{
    if (!solution)
        return;
    solution_box *box = (solution_box *)solution;
    bys_arena_free(box->arena);
    free(box);
}

// ---- rows ----------------------------------------------------------------------------------

static bool listed(const int *list, int count, int item)
{
    for (int i = 0; i < count; i++)
        if (list[i] == item)
            return true;
    return false;
}

static void put_nodes(bys_judge *judge, bys_solution *out, const bys_state *state)
{
    const bys_network *net = state->net;
    out->nodes = bys_judge_get(judge, (size_t)net->point_count, sizeof *out->nodes);
    if (!out->nodes)
        return;
    for (int p = 0; p < net->point_count; p++) {
        const double *x = state->x + 3 * p;
        out->nodes[p] =
            (bys_node_row){bys_judge_text(judge, "%s", net->points[p].id), x[0], x[1], x[2]};
    }
    for (int s = 0; s < net->section_count; s++)
        for (int e = 1; e < net->sections[s].count; e++) {
            bys_node_row *row = &out->nodes[net->elements[net->sections[s].first + e].a];
            if (!*row->id)
                row->id = bys_judge_text(judge, "%s.%d", net->sections[s].id, e);
        }
    out->node_count = net->point_count;
}

static bys_end_row end_row(const double force[3], double tension)
{
    return (bys_end_row){force[0], force[1], force[2], tension};
}

static void put_spans(bys_judge *judge, bys_solution *out, const bys_state *state,
                      const bys_condition *condition)
{
    const bys_network *net = state->net;
    out->spans = bys_judge_get(judge, (size_t)net->section_count, sizeof *out->spans);
    for (int s = 0; out->spans && s < net->section_count; s++) {
        const bys_section *section = &net->sections[s];
        const bys_section_state *now = &state->sections[s];
        if (listed(condition->sections, condition->section_count, s))
            continue;
        out->spans[out->span_count++] =
            (bys_span_row){bys_judge_text(judge, "%s", section->id),
                           section->part ? bys_judge_text(judge, "%s", section->part->item.id) : "",
                           end_row(now->force_a, now->tension_a),
                           end_row(now->force_b, now->tension_b),
                           section->length,
                           now->stretched,
                           now->grounded};
    }
}

static void put_supports(bys_judge *judge, bys_solution *out, const bys_state *state)
{
    const bys_network *net = state->net;
    out->supports = bys_judge_get(judge, (size_t)net->point_count, sizeof *out->supports);
    for (int p = 0; out->supports && p < net->point_count; p++) {
        const bys_point *point = &net->points[p];
        const double *f = state->reaction + 3 * p;
        if (point->kind == BYS_POINT_FIXED || point->hold[0] || point->hold[1] || point->hold[2])
            out->supports[out->support_count++] = (bys_support_row){
                out->nodes[p].id, f[0], f[1], f[2], atan2(f[2], hypot(f[0], f[1]))};
    }
}

static double draft_of(const bys_network *net, const bys_state *state, int body, double level)
{
    double draft = NAN;
    for (int k = 0; k < net->prism_count; k++)
        if (net->points[net->prisms[k].point].body == body)
            draft = fmax(level - state->x[3 * net->prisms[k].point + 2], draft);
    return draft;
}

static void put_bodies(bys_judge *judge, bys_solution *out, const bys_state *state, double level)
{
    const bys_network *net = state->net;
    out->bodies = bys_judge_get(judge, (size_t)net->body_count, sizeof *out->bodies);
    for (int b = 0; out->bodies && b < net->body_count; b++) {
        const double *x = state->body_x + 3 * b, *r = state->body_r + 9 * b;
        out->bodies[out->body_count++] =
            (bys_body_row){.id = bys_judge_text(judge, "%s", net->bodies[b].id),
                           .x = x[0],
                           .y = x[1],
                           .z = x[2],
                           .roll_rad = atan2(r[7], r[8]),
                           .pitch_rad = asin(fmax(-1.0, fmin(1.0, r[6]))),
                           .yaw_rad = atan2(r[0], r[3]),
                           .draft_m = isfinite(level) ? draft_of(net, state, b, level) : NAN};
    }
}

static void put_hangings(bys_judge *judge, bys_solution *out, const bys_state *state,
                         const bys_sea *sea, const bys_condition *condition)
{
    const bys_network *net = state->net;
    out->floats = bys_judge_get(judge, (size_t)net->float_count, sizeof *out->floats);
    out->hanging = bys_judge_get(judge, (size_t)net->gear_count, sizeof *out->hanging);
    if (judge->no_memory)
        return;
    for (int f = 0; f < net->float_count; f++)
        if (!listed(condition->floats, condition->float_count, f))
            out->floats[out->float_count++] =
            (bys_float_row){bys_judge_text(judge, "%s", net->floats[f].id), state->submerged[f],
                            state->lift_left[f]};
    for (int g = 0; g < net->gear_count; g++) {
        const double *x = state->x + 3 * net->gears[g].point;
        const double bed = bys_sea_bed_z(sea, x[0], x[1]);
        out->hanging[out->hanging_count++] =
            (bys_hanging_row){bys_judge_text(judge, "%s", net->gears[g].id),
                              state->gear_swing[g],
                              state->gear_low[g],
                              isfinite(bed) ? state->gear_low[g] - bed : NAN,
                              net->gears[g].values->mass_in_water * sea->gravity,
                              state->gear_drag[g]};
    }
}

static void put_outcome(bys_judge *judge, bys_solution *out, const bys_state *state,
                        const bys_sea *sea, const bys_condition *condition)
{
    const bys_network *net = state->net;
    out->reason = "";
    for (int i = 0; i < net->island_count; i++) {
        const bys_outcome *outcome = &state->islands[i];
        bys_audit audit;
        bys_audit_island(&audit, state, sea, condition, i);
        const double share = audit.applied_N > 0.0 ? audit.sum_N / audit.applied_N : 0.0;
        out->factorisations += outcome->factorisations;
        out->residual_N = fmax(out->residual_N, audit.worst_N);
        out->sum_share = fmax(out->sum_share, share);
        if (outcome->status != BYS_STABLE && out->status == BYS_STABLE) {
            out->status = outcome->status;
            out->reason = bys_judge_text(judge, "%s", outcome->reason);
        }
    }
}

// ---- which case ----------------------------------------------------------------------------

/// Finds environment and stage of an id by prefix; an empty id takes the first of both.
static bool find_case(const bys_judge *judge, const char *id, bool stages, int *environment,
                      int *stage, const char **condition)
{
    const bys_site *site = judge->site;
    *environment = 0;
    *stage = stages ? 0 : -1;
    *condition = "intact";
    if (!*id)
        return judge->env.count > 0;
    for (int e = 0; e < judge->env.count; e++) {
        const size_t n = strlen(judge->env.items[e].id);
        if (strncmp(id, judge->env.items[e].id, n) != 0 || id[n] != ':')
            continue;
        *environment = e;
        const char *rest = id + n + 1;
        for (int s = stages ? 0 : -1; s < (stages ? site->stage_count : 0); s++) {
            const char *name = s < 0 ? "as-written" : site->stages[s].item.id;
            const size_t m = strlen(name);
            if (strncmp(rest, name, m) == 0 && rest[m] == ':') {
                *stage = s;
                *condition = rest + m + 1;
                return true;
            }
        }
    }
    return false;
}

static bool has_stages(const bys_site *site)
{
    return site->block_count + site->grid_count > 0 && site->stage_count > 0;
}

static bys_rc open_case(bys_judge *judge, const char *id, int *environment, bys_set *set,
                        bys_error *err)
{
    int stage;
    const char *condition;
    bys_rc rc = bys_environments_make(&judge->env, judge->site, judge->messages, err);
    if (rc)
        return rc;
    bool found = find_case(judge, id, has_stages(judge->site), environment, &stage, &condition);
    if (found) {
        rc = bys_tuning_find(&judge->tuning, judge->site, judge->messages, err);
        if (!rc)
            rc = bys_judge_stages(judge, stage, err);
        if (!rc)
            rc = bys_set_read(set, &found, judge->stages[0].net, judge->arena, condition, err);
    }
    return found || rc ? rc
                       : bys_error_set(err, BYS_EUSAGE, BYS_M_unknown_case,
                                       "there is no case \"%s\" in this site", id);
}

/// What is worth saying of a condition that was solved.
static const char *note_of(bys_judge *judge, const bys_set *set, const bys_set_run *run)
{
    if (set->kind == BYS_SET_FOULED)
        return run->reached.data
                   ? bys_judge_text(judge, "the drifting line lies against %s", run->reached.data)
                   : "the drifting line reaches no other line";
    if (set->lift && isfinite(run->lift_force))
        return bys_judge_text(judge, "lifted with %.2f kN", run->lift_force / 1000.0);
    return "";
}

static void put_rows(bys_judge *judge, bys_solution *out, const bys_state *state,
                     const bys_sea *sea, const bys_condition *condition)
{
    put_outcome(judge, out, state, sea, condition);
    put_nodes(judge, out, state);
    put_spans(judge, out, state, condition);
    if (out->nodes)
        put_supports(judge, out, state);
    put_bodies(judge, out, state, sea->level);
    put_hangings(judge, out, state, sea, condition);
}

static bys_rc solve_case(bys_judge *judge, bys_solution *out, const char *id, bool friction,
                         bys_error *err)
{
    bys_job job = {0};
    bys_set set = {0};
    bys_set_run run = {0};
    bys_state *state = NULL;
    bys_rc rc = open_case(judge, id, &job.environment, &set, err);
    if (!rc)
        rc = bys_set_again(&state, &run, judge, &job, &set, err);
    if (!rc) {
        out->case_id = bys_judge_text(judge, "%s:%s:%s", bys_job_environment(judge, &job)->id,
                                      bys_job_stage(judge, &job)->id, set.id);
        out->note = note_of(judge, &set, &run);
        put_rows(judge, out, state, &run.sea, &run.change);
        rc = bys_account_of(&out->account, judge, state, &run.sea, &run.change, -1, err);
        out->account.case_id = out->case_id;
        if (!rc && friction)
            rc = bys_judge_friction(&out->friction, judge, state, &run.sea, &run.change, err);
        if (!rc && (judge->no_memory || run.reached.failed))
            rc = bys_error_set(err, BYS_ENOMEM, 0, "out of memory for the solution");
    }
    bys_state_free(state);
    bys_set_run_free(&run);
    return rc;
}

static void release(bys_judge *judge)
{
    bys_judge_stages_free(judge);
    bys_tuning_free(&judge->tuning);
    bys_environments_free(&judge->env);
}

static bys_rc run_solution(bys_solution **out, const bys_site *site, const char *case_id,
                           bool friction, bys_messages *messages, bys_error *err)
{
    *out = NULL;
    solution_box *box = calloc(1, sizeof *box);
    if (!box || !(box->arena = bys_arena_new())) {
        free(box);
        return bys_error_set(err, BYS_ENOMEM, 0, "out of memory for the solution");
    }
    bys_judge judge = {.site = site, .messages = messages, .arena = box->arena};
    const bys_rc rc = solve_case(&judge, &box->solution, case_id ? case_id : "", friction, err);
    release(&judge);
    if (rc) {
        bys_solution_free(&box->solution);
        return rc;
    }
    *out = &box->solution;
    return BYS_OK;
}

bys_rc bys_solution_run(bys_solution **out, const bys_site *site, const char *case_id,
                        bys_messages *messages, bys_error *err)
{
    return run_solution(out, site, case_id, false, messages, err);
}

bys_rc bys_solution_friction(bys_solution **out, const bys_site *site, const char *case_id,
                             bys_messages *messages, bys_error *err)
{
    return run_solution(out, site, case_id, true, messages, err);
}

// ---- list ----------------------------------------------------------------------------------

bys_rc bys_case_list(bys_text *out, const bys_site *site, bys_messages *messages, bys_error *err)
{
    bys_environments env;
    bys_network *net = NULL;
    const bool stages = has_stages(site);
    bys_rc rc = bys_environments_make(&env, site, messages, err);
    if (rc)
        return rc;
    rc = bys_network_expand(&net, site, stages ? 0 : -1, messages, err);
    for (int e = 0; !rc && e < env.count; e++)
        for (int s = stages ? 0 : -1; s < (stages ? site->stage_count : 0); s++) {
            const char *name = s < 0 ? "as-written" : site->stages[s].item.id;
            if (bys_case_dropped(site, env.items[e].id, name) >= 0)
                continue;
            bys_text_addf(out, "%s:%s:intact\n", env.items[e].id, name);
            for (int l = 0; env.items[e].demanded && l < net->leg_count; l++)
                bys_text_addf(out, "%s:%s:lost:%s\n", env.items[e].id, name, net->legs[l].id);
        }
    bys_network_free(net);
    bys_environments_free(&env);
    if (!rc && out->failed)
        rc = bys_error_set(err, BYS_ENOMEM, 0, "out of memory for the list of cases");
    return rc;
}

bys_rc bys_condition_list(bys_text *out, const bys_site *site, bys_messages *messages,
                          bys_error *err)
{
    bys_network *net = NULL;
    bys_set_list list = {0};
    bys_arena *arena = bys_arena_new();
    const int stage = has_stages(site) ? site->stage_count - 1 : -1;
    bys_rc rc = arena ? bys_network_expand(&net, site, stage, messages, err)
                      : bys_error_set(err, BYS_ENOMEM, 0, "out of memory for the conditions");
    if (!rc)
        rc = bys_sets_list(&list, net, NULL, ~0u, arena, err);
    if (!rc)
        bys_text_add(out, "intact\n");
    for (int i = 0; !rc && i < list.count; i++)
        bys_text_addf(out, "%s\n", list.items[i].id);
    if (!rc && out->failed)
        rc = bys_error_set(err, BYS_ENOMEM, 0, "out of memory for the conditions");
    bys_network_free(net);
    bys_arena_free(arena);
    return rc;
}
