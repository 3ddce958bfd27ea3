// SPDX-License-Identifier: GPL-3.0-or-later
// Conditions beyond intact and lost legs in all demanded cases: solved, and reported.
//
// NOTES     1. Nothing here is demanded by a rule profile, so nothing here passes or fails: the largest
//              tension of each leg under each kind of condition is kept, with its case.
//           2. One job's conditions start from that job's intact states. A set that is a translated copy
//              of another takes its result, if that one is stable.
//           3. Each job writes its own slot; slots are reduced in index order.
#include "design/sets.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { KINDS = BYS_SET_OWN + 1 };

/// Results of one job. By set of its stage, and by kind and leg.
typedef struct {
    bys_case_seen *seen;
    double *tension;  ///< KINDS x legs, N; -1 = none
    int *set;         ///< KINDS x legs
    int solves;
} slot;

struct bys_sets {
    unsigned kinds;
    bys_set_list *lists; ///< by stage
    slot *slots;         ///< by job
};

// ---- before ----------------------------------------------------------------------------------

static bys_rc no_memory(bys_error *err)
{
    return bys_error_set(err, BYS_ENOMEM, 0, "out of memory for the conditions");
}

static bool make_slot(slot *s, int sets, int legs)
{
    const size_t room = (size_t)KINDS * (size_t)(legs + 1);
    s->seen = calloc((size_t)sets + 1, sizeof *s->seen);
    s->tension = malloc(room * sizeof *s->tension);
    s->set = calloc(room, sizeof *s->set);
    for (size_t i = 0; s->tension && i < room; i++)
        s->tension[i] = -1.0;
    return s->seen && s->tension && s->set;
}

bys_rc bys_sets_open(bys_judge *judge, bys_error *err)
{
    const unsigned kinds = judge->set_kinds & ~(1u << BYS_SET_INTACT | 1u << BYS_SET_LOST);
    if (!kinds)
        return BYS_OK;
    struct bys_sets *sets = judge->sets = calloc(1, sizeof *sets);
    if (!sets)
        return no_memory(err);
    sets->kinds = kinds;
    sets->lists = calloc((size_t)judge->stage_count + 1, sizeof *sets->lists);
    sets->slots = calloc((size_t)judge->job_count + 1, sizeof *sets->slots);
    if (!sets->lists || !sets->slots)
        return no_memory(err);
    bys_rc rc = BYS_OK;
    for (int s = 0; s < judge->stage_count && !rc; s++)
        rc = bys_sets_list(&sets->lists[s], judge->stages[s].net, &judge->stages[s], kinds,
                           judge->arena, err);
    for (int j = 0; j < judge->job_count && !rc; j++)
        if (bys_job_demanded(judge, &judge->jobs[j]) &&
            !make_slot(&sets->slots[j], sets->lists[judge->jobs[j].stage].count,
                       judge->leg_count))
            rc = no_memory(err);
    return rc;
}

void bys_sets_close(bys_judge *judge)
{
    struct bys_sets *sets = judge->sets;
    for (int j = 0; sets && sets->slots && j < judge->job_count; j++) {
        slot *s = &sets->slots[j];
        for (int i = 0; s->seen && i < sets->lists[judge->jobs[j].stage].count; i++)
            free(s->seen[i].reason);
        free(s->seen);
        free(s->tension);
        free(s->set);
    }
    if (sets) {
        free(sets->lists);
        free(sets->slots);
    }
    free(sets);
    judge->sets = NULL;
}

// ---- one job ---------------------------------------------------------------------------------

static double leg_tension(const bys_state *state, const bys_leg *leg)
{
    double most = -1.0;
    for (int s = leg->first_section; s < leg->first_section + leg->section_count; s++)
        if (state->sections[s].active)
            most = fmax(most, bys_section_tension(&state->sections[s]));
    return most;
}

/// Legs of island `to` take the tensions of the legs of `from`, one by one.
static void observe_island(slot *s, const bys_judge *judge, const bys_state *state,
                           const bys_set *set, int index, int from, int to)
{
    const bys_island *a = &state->net->islands[from], *b = &state->net->islands[to];
    bys_case_seen *seen = &s->seen[index];
    for (int k = 0; k < a->leg_count; k++) {
        const double tension = leg_tension(state, &state->net->legs[a->legs[k]]);
        const size_t at = (size_t)set->kind * (size_t)judge->leg_count + (size_t)b->legs[k];
        if (tension > s->tension[at]) {
            s->tension[at] = tension;
            s->set[at] = index;
        }
        if (tension > seen->largest || seen->largest_leg < 0) {
            seen->largest = tension;
            seen->largest_leg = b->legs[k];
        }
    }
}

static void keep(slot *s, bys_set_run *run, int index)
{
    s->seen[index] = run->seen;
    run->seen.reason = NULL; // it belongs to the slot now
    s->solves += run->solves;
}

/// The set itself and, if it is stable, all its copies. The copies' own turn then comes to nothing.
static bys_rc solve_set(slot *s, bys_set_run *run, bys_judge *judge, const bys_job *job,
                        bys_workplace *place, int index, unsigned char *done, bys_error *err)
{
    const bys_set_list *list = &judge->sets->lists[job->stage];
    const bys_set *set = &list->items[index];
    const bys_rc rc = bys_set_solve(run, judge, job, place, set, err);
    if (rc)
        return rc;
    keep(s, run, index);
    done[index] = 1;
    for (int i = 0; i < place->lost->net->island_count; i++)
        if (run->touched[i] && place->lost->islands[i].status == BYS_STABLE)
            observe_island(s, judge, place->lost, set, index, i, i);
    if (s->seen[index].status != BYS_STABLE || set->copy)
        return BYS_OK;
    for (int k = set->next_copy; k >= 0; k = list->items[k].next_copy) {
        s->seen[k] = s->seen[index];
        s->seen[k].factorisations = 0;
        observe_island(s, judge, place->lost, &list->items[k], k, set->islands[0],
                       list->items[k].islands[0]);
        done[k] = 1;
    }
    return BYS_OK;
}

bys_rc bys_sets_job(bys_judge *judge, const bys_job *job, void *workplace, bys_error *err)
{
    if (!judge->sets || !bys_job_demanded(judge, job))
        return BYS_OK;
    bys_workplace *place = workplace;
    slot *s = &judge->sets->slots[job - judge->jobs];
    const bys_set_list *list = &judge->sets->lists[job->stage];
    unsigned char *done = calloc((size_t)list->count + 1, 1);
    bys_set_run run = {0};
    bys_rc rc = done ? BYS_OK : no_memory(err);
    for (int i = 0; i < list->count && !rc; i++)
        if (!done[i])
            rc = solve_set(s, &run, judge, job, place, i, done, err);
    bys_set_run_free(&run);
    free(done);
    return rc;
}

// ---- after -----------------------------------------------------------------------------------

static const char *case_of(bys_judge *judge, int job, int set)
{
    const bys_job *j = &judge->jobs[job];
    return bys_judge_text(judge, "%s:%s:%s", bys_job_environment(judge, j)->id,
                          bys_job_stage(judge, j)->id, judge->sets->lists[j->stage].items[set].id);
}

/// The leg's largest tension under a kind of condition; false if there is none.
static bool worst_of(bys_judge *judge, int kind, int leg, bys_reported_row *row)
{
    const size_t at = (size_t)kind * (size_t)judge->leg_count + (size_t)leg;
    int job = -1;
    for (int j = 0; j < judge->job_count; j++) {
        const slot *s = &judge->sets->slots[j];
        if (s->tension && s->tension[at] > (job < 0 ? -1.0 : judge->sets->slots[job].tension[at]))
            job = j;
    }
    if (job < 0)
        return false;
    const slot *s = &judge->sets->slots[job];
    const int set = s->set[at];
    *row = (bys_reported_row){
        .kind = bys_set_word((bys_set_kind)kind),
        .case_id = case_of(judge, job, set),
        .condition = judge->sets->lists[judge->jobs[job].stage].items[set].id,
        .tension_N = s->tension[at]};
    return true;
}

static void put_leg(bys_judge *judge, int leg)
{
    bys_leg_result *out = &judge->out->legs[leg];
    out->reported = bys_judge_get(judge, KINDS, sizeof *out->reported);
    for (int k = 0; out->reported && k < KINDS; k++)
        if (judge->sets->kinds >> k & 1 &&
            worst_of(judge, k, leg, &out->reported[out->reported_count]))
            out->reported_count++;
}

static void put_unstable(bys_judge *judge, int job, int set, const char *words)
{
    bys_design *out = judge->out;
    const bys_job *j = &judge->jobs[job];
    const bys_case_seen *seen = &judge->sets->slots[job].seen[set];
    out->cases[out->case_count++] = (bys_case_result){
        .id = case_of(judge, job, set),
        .environment = bys_job_environment(judge, j)->id,
        .stage = bys_job_stage(judge, j)->id,
        .condition = judge->sets->lists[j->stage].items[set].id,
        .demanded = false,
        .status = seen->status,
        .reason = seen->reason ? bys_judge_text(judge, "%s", seen->reason) : "",
        .analysis = "static mean with wave drift",
        .factorisations = seen->factorisations,
        .residual_N = seen->residual,
        .sum_share = seen->sum_share,
        .largest_N = NAN,
        .largest_leg = "",
        .words = words};
}

static void count_kind(bys_judge *judge, bys_kind_result *kind, int k, int *unstable)
{
    for (int j = 0; j < judge->job_count; j++) {
        const slot *s = &judge->sets->slots[j];
        const bys_set_list *list = &judge->sets->lists[judge->jobs[j].stage];
        for (int i = 0; s->seen && i < list->count; i++) {
            if ((int)list->items[i].kind != k)
                continue;
            kind->cases++;
            kind->stable += s->seen[i].status == BYS_STABLE;
            *unstable += s->seen[i].status != BYS_STABLE;
            judge->out->worst_residual_N =
                fmax(judge->out->worst_residual_N, s->seen[i].residual);
            judge->out->worst_sum_share =
                fmax(judge->out->worst_sum_share, s->seen[i].sum_share);
        }
    }
}

static void put_kind(bys_judge *judge, int k, int *unstable)
{
    bys_design *out = judge->out;
    bys_kind_result *kind = &out->kinds[out->kind_count];
    *kind = (bys_kind_result){.kind = bys_set_word((bys_set_kind)k),
                              .leg = "",
                              .case_id = "",
                              .condition = "",
                              .tension_N = NAN,
                              .intact_N = NAN};
    count_kind(judge, kind, k, unstable);
    for (int l = 0; l < out->leg_count; l++)
        for (int r = 0; r < out->legs[l].reported_count; r++) {
            const bys_reported_row *row = &out->legs[l].reported[r];
            if (row->kind != kind->kind || kind->tension_N >= row->tension_N)
                continue;
            kind->leg = out->legs[l].id;
            kind->case_id = row->case_id;
            kind->condition = row->condition;
            kind->tension_N = row->tension_N;
            kind->intact_N = out->legs[l].tension_N;
        }
    out->case_total += kind->cases;
    out->case_stable += kind->stable;
    out->kind_count += kind->cases > 0;
}

/// Rows of the cases that are not stable, after those that are there.
static void list_unstable(bys_judge *judge, int unstable)
{
    bys_design *out = judge->out;
    const bys_case_result *before = out->cases;
    out->cases = bys_judge_get(judge, (size_t)(out->case_count + unstable), sizeof *out->cases);
    if (!out->cases)
        return;
    memcpy(out->cases, before, (size_t)out->case_count * sizeof *out->cases);
    for (int j = 0; j < judge->job_count; j++) {
        const slot *s = &judge->sets->slots[j];
        const char *words = s->seen ? bys_case_speech(judge, &judge->jobs[j]) : "";
        for (int i = 0; s->seen && i < judge->sets->lists[judge->jobs[j].stage].count; i++)
            if (s->seen[i].status != BYS_STABLE)
                put_unstable(judge, j, i, words);
    }
}

void bys_judge_sets(bys_judge *judge)
{
    bys_design *out = judge->out;
    if (!judge->sets)
        return;
    int unstable = 0;
    out->kinds = bys_judge_get(judge, KINDS, sizeof *out->kinds);
    for (int l = 0; l < out->leg_count && !judge->no_memory; l++)
        put_leg(judge, l);
    for (int k = 0; k < KINDS && !judge->no_memory; k++)
        if (judge->sets->kinds >> k & 1)
            put_kind(judge, k, &unstable);
    for (int j = 0; j < judge->job_count; j++)
        out->solve_count += judge->sets->slots[j].solves;
    if (unstable > 0 && !judge->no_memory)
        list_unstable(judge, unstable);
}
