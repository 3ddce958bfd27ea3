// SPDX-License-Identifier: GPL-3.0-or-later
// Runs all cases. One job is one environment at one stage: all islands intact from a cold start,
// then each leg lost in its island, warm from the job's own intact state. A job writes only its own
// slot, so that the number of threads changes nothing. Slack water runs first: its states are what
// excursion is measured from. Islands that are translated copies are solved once.
#include "base/number.h"
#include "design/sets.h"
#include "design/passage.h"

#include <math.h>
#include <stdatomic.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
    bys_judge *judge;
    bys_workplace *places;    ///< workers x stages
    bys_error *errors;    ///< one a worker
    const int *order;     ///< job of each number in this phase
    _Atomic double worst; ///< largest utilisation so far, for progress only
    size_t done_before, total;
} crew;

// ---- slots ---------------------------------------------------------------------------------

static void forget(double *list, int count, double value)
{
    for (int i = 0; i < count; i++)
        list[i] = value;
}

static bool make_slot(bys_judge *judge, bys_job *job, bool lost)
{
    const size_t pieces = (size_t)judge->piece_count + 1, anchors = (size_t)judge->anchor_count + 1;
    const size_t legs = (size_t)judge->leg_count + 1;
    job->piece = malloc(2 * pieces * sizeof(double));
    job->piece_lost_leg = calloc(pieces, sizeof(int));
    job->anchor = calloc(4 * anchors, sizeof(bys_anchor_seen));
    job->group = calloc((size_t)judge->group_count + 1, sizeof *job->group);
    job->island =
        calloc((size_t)bys_job_stage(judge, job)->net->island_count + 1, sizeof *job->island);
    job->lost = lost ? calloc(legs, sizeof *job->lost) : NULL;
    job->sweep = lost ? malloc(legs * BYS_SWEEP * sizeof(double)) : NULL;
    if (!job->piece || !job->piece_lost_leg || !job->anchor || !job->group || !job->island ||
        (lost && (!job->lost || !job->sweep)))
        return false;
    job->piece_lost = job->piece + pieces;
    job->anchor_out = job->anchor + anchors;
    job->anchor_lost = job->anchor + 2 * anchors;
    job->anchor_lost_out = job->anchor + 3 * anchors;
    forget(job->piece, 2 * (int)pieces, -1.0);
    if (lost)
        forget(job->sweep, (int)legs * BYS_SWEEP, -INFINITY);
    for (int g = 0; g < judge->group_count; g++)
        job->group[g] = (bys_group_seen){.float_share = NAN,
                                         .end_share = NAN,
                                         .float_set = -1,
                                         .end_set = -1,
                                         .swung = NAN,
                                         .upright = NAN,
                                         .gear_set = -1,
                                         .excursion = NAN,
                                         .clearance = NAN,
                                         .other = -1,
                                         .inside = NAN,
                                         .at = {NAN, NAN}};
    job->intact.largest_leg = -1;
    return true;
}

static void free_slot(bys_judge *judge, bys_job *job)
{
    for (int l = 0; job->lost && l < judge->leg_count; l++)
        free(job->lost[l].reason);
    bys_passage_free(&job->passage);
    free(job->intact.reason);
    free(job->piece);
    free(job->piece_lost_leg);
    free(job->anchor);
    free(job->pulls);
    free(job->group);
    free(job->island);
    free(job->lost);
    free(job->sweep);
}

void bys_judge_jobs_free(bys_judge *judge)
{
    bys_sets_close(judge);
    for (int j = 0; judge->jobs && j < judge->job_count; j++)
        free_slot(judge, &judge->jobs[j]);
    free(judge->jobs);
    judge->jobs = NULL;
}

static bool make_jobs(bys_judge *judge)
{
    const int all = judge->env.count * judge->stage_count;
    judge->jobs = calloc((size_t)all + 1, sizeof *judge->jobs);
    if (!judge->jobs)
        return false;
    for (int j = 0; j < all; j++) {
        bys_job *job = &judge->jobs[judge->job_count];
        job->environment = j / judge->stage_count;
        job->stage = j % judge->stage_count;
        if (bys_case_dropped(judge->site, bys_job_environment(judge, job)->id,
                             bys_job_stage(judge, job)->id) >= 0)
            continue;
        judge->job_count++;
        const bool lost =
            bys_job_demanded(judge, job) && !judge->options.intact_only && judge->leg_count > 0;
        if (!make_slot(judge, job, lost))
            return false;
    }
    return true;
}

// ---- solving -------------------------------------------------------------------------------

static char *copy_text(const char *text)
{
    const size_t n = strlen(text) + 1;
    char *copy = malloc(n);
    if (copy)
        memcpy(copy, text, n);
    return copy;
}

/// Adds one island's outcome, with its audit, to a case: the worst counts.
static void note_outcome(bys_case_seen *seen, const bys_outcome *outcome, const bys_audit *audit)
{
    seen->factorisations += outcome->factorisations;
    if (outcome->status == BYS_STABLE) {
        const double share = audit->applied_N > 0.0 ? audit->sum_N / audit->applied_N : 0.0;
        seen->residual = fmax(seen->residual, audit->worst_N);
        seen->sum_share = fmax(seen->sum_share, share);
    } else if (seen->status == BYS_STABLE) {
        seen->status = outcome->status;
        seen->reason = copy_text(outcome->reason);
    }
}

static bys_rc solve_intact(bys_judge *judge, bys_job *job, bys_workplace *place, bys_error *err)
{
    const bys_stage_set *set = bys_job_stage(judge, job);
    bys_state *state = place->intact;
    const bys_state *rest = bys_rest_of(judge, job);
    const bys_sea *sea = &bys_job_environment(judge, job)->sea;
    for (int i = 0; i < set->net->island_count; i++) {
        if (set->rep[i] != i && state->islands[set->rep[i]].status == BYS_STABLE) {
            bys_state_translate(state, set, set->rep[i], i);
        } else {
            const bys_task task = {state, i, NULL, sea, false, rest};
            const bys_rc rc = bys_workplace_solve(place, &task, err);
            if (rc)
                return rc;
            job->solves++;
            note_outcome(&job->intact, &state->islands[i], &place->audit);
        }
        job->island[i] = state->islands[i].status;
    }
    return BYS_OK;
}

// ---- a leg lost ----------------------------------------------------------------------------

static void sections_of_leg(int *list, const bys_leg *leg)
{
    for (int s = 0; s < leg->section_count + leg->arm_count; s++)
        list[s] = leg->first_section + s;
}

static void drifts(bys_outcome *outcome, const bys_network *net, int lost)
{
    *outcome = (bys_outcome){.status = BYS_CANNOT_STAND, .worst_point = net->legs[lost].top};
    bys_format(outcome->reason, sizeof outcome->reason,
               "nothing else holds it: without %s it drifts away", net->legs[lost].id);
}

static bys_rc solve_lost(bys_judge *judge, bys_job *job, bys_workplace *place, int lost,
                         bys_error *err)
{
    const bys_stage_set *set = bys_job_stage(judge, job);
    const bys_leg *leg = &set->net->legs[lost];
    const int island = set->island_of_leg[lost];
    int sections[64];
    bys_condition condition = {
        .id = "lost", .sections = sections, .section_count = leg->section_count + leg->arm_count};
    bys_state_copy_island(place->lost, place->intact, island);
    if (set->net->islands[island].leg_count == 1) {
        drifts(&place->lost->islands[island], set->net, lost);
        note_outcome(&job->lost[lost], &place->lost->islands[island], &place->audit);
        return BYS_OK;
    }
    if (leg->section_count + leg->arm_count > 64)
        return bys_error_set(err, BYS_EINPUT, 0, "%s has more than 64 sections", leg->id);
    sections_of_leg(sections, leg);
    const bys_task task = {.state = place->lost,
                           .island = island,
                           .condition = &condition,
                           .sea = &bys_job_environment(judge, job)->sea,
                           .warm = job->island[island] == BYS_STABLE};
    const bys_rc rc = bys_workplace_solve(place, &task, err);
    job->solves++;
    if (!rc)
        note_outcome(&job->lost[lost], &place->lost->islands[island], &place->audit);
    return rc;
}

/// The k-th leg of each copy of island `rep`, from the state just found for it.
static bys_rc share_lost(bys_judge *judge, bys_job *job, bys_workplace *place, int rep, int k,
                         bys_error *err)
{
    const bys_stage_set *set = bys_job_stage(judge, job);
    const bys_network *net = set->net;
    const bool stable = place->lost->islands[rep].status == BYS_STABLE;
    const bys_case_seen found = job->lost[net->islands[rep].legs[k]];
    for (int i = rep + 1; i < net->island_count; i++) {
        if (set->rep[i] != rep)
            continue;
        const int lost = net->islands[i].legs[k];
        if (stable) {
            bys_state_translate(place->lost, set, rep, i);
            job->lost[lost] = found;
            job->lost[lost].factorisations = 0;
        } else {
            const bys_rc rc = solve_lost(judge, job, place, lost, err);
            if (rc)
                return rc;
        }
        if (place->lost->islands[i].status == BYS_STABLE)
            bys_observe_lost(judge, job, place->lost, lost);
    }
    return BYS_OK;
}

static bys_rc solve_all_lost(bys_judge *judge, bys_job *job, bys_workplace *place, bys_error *err)
{
    const bys_stage_set *set = bys_job_stage(judge, job);
    const bys_network *net = set->net;
    bys_state_copy(place->lost, place->intact);
    for (int i = 0; i < net->island_count; i++) {
        for (int k = 0; set->rep[i] == i && k < net->islands[i].leg_count; k++) {
            const int lost = net->islands[i].legs[k];
            bys_rc rc = solve_lost(judge, job, place, lost, err);
            if (rc)
                return rc;
            if (place->lost->islands[i].status == BYS_STABLE)
                bys_observe_lost(judge, job, place->lost, lost);
            rc = share_lost(judge, job, place, i, k, err);
            if (rc)
                return rc;
        }
    }
    return BYS_OK;
}

// ---- the job -------------------------------------------------------------------------------

static double job_worst(const bys_judge *judge, const bys_job *job)
{
    double worst = 0.0;
    for (int p = 0; p < judge->piece_count; p++)
        if (judge->pieces[p].per_newton > 0.0)
            worst = fmax(worst, judge->pieces[p].per_newton * fmax(job->piece[p], 0.0));
    for (int a = 0; a < judge->anchor_count; a++)
        if (job->anchor[a].trouble == BYS_SEEN_OK)
            worst = fmax(worst, job->anchor[a].utilisation);
    return worst;
}

static void tell_worst(crew *c, double worst)
{
    double known = atomic_load(&c->worst);
    while (worst > known && !atomic_compare_exchange_weak(&c->worst, &known, worst))
        ;
}

static bys_rc keep_rest(bys_judge *judge, const bys_job *job, const bys_state *state,
                        bys_error *err)
{
    bys_stage_set *set = &judge->stages[job->stage];
    bys_state **rest = &set->rest[job->environment];
    const bys_rc rc = bys_state_new(rest, set->net, err);
    if (!rc)
        bys_state_copy(*rest, state);
    return rc;
}

static int run_job(void *user, size_t number, int worker)
{
    crew *c = user;
    bys_judge *judge = c->judge;
    bys_job *job = &judge->jobs[c->order[number]];
    bys_workplace *place = &c->places[worker * judge->stage_count + job->stage];
    bys_error *err = &c->errors[worker];
    bys_rc rc = bys_workplace_open(judge, place, job->stage, err);
    if (!rc)
        rc = solve_intact(judge, job, place, err);
    if (!rc && bys_environment_slack(bys_job_environment(judge, job)))
        rc = keep_rest(judge, job, place->intact, err);
    if (!rc) {
        bys_observe_intact(judge, job, place->intact);
        bys_observe_groups(judge, job, place->intact);
        rc = bys_passage_run(judge, job, place, err);
        if (!rc && job->lost)
            rc = solve_all_lost(judge, job, place, err);
        if (!rc)
            rc = bys_sets_job(judge, job, place, err);
    }
    job->done = !rc;
    tell_worst(c, job_worst(judge, job));
    return rc != BYS_OK;
}

static int tick(void *user, size_t done, size_t total)
{
    crew *c = user;
    (void)total;
    const bys_check_options *options = &c->judge->options;
    return options->progress ? options->progress(options->user, c->done_before + done, c->total,
                                                 atomic_load(&c->worst))
                             : 0;
}

static bys_rc run_phase(crew *c, bool slack, int *order, int workers, bys_error *err)
{
    bys_judge *judge = c->judge;
    size_t n = 0;
    for (int j = 0; j < judge->job_count; j++)
        if (bys_environment_slack(bys_job_environment(judge, &judge->jobs[j])) == slack)
            order[n++] = j;
    c->order = order;
    const bys_rc rc = n ? bys_pool_run(run_job, c, n, workers, tick, err) : BYS_OK;
    for (int w = 0; rc && w < workers; w++)
        if (c->errors[w].rc) {
            if (err)
                *err = c->errors[w];
            return c->errors[w].rc;
        }
    c->done_before += n;
    return rc;
}

bys_rc bys_judge_jobs(bys_judge *judge, bys_error *err)
{
    const int workers = judge->options.threads > 0 ? judge->options.threads : bys_pool_threads();
    if (!make_jobs(judge))
        return bys_error_set(err, BYS_ENOMEM, 0, "out of memory for the results of %d cases",
                             judge->job_count);
    crew c = {.judge = judge, .total = (size_t)judge->job_count};
    const size_t places = (size_t)workers * (size_t)judge->stage_count;
    c.places = calloc(places + 1, sizeof *c.places);
    c.errors = calloc((size_t)workers + 1, sizeof *c.errors);
    int *order = calloc((size_t)judge->job_count + 1, sizeof *order);
    bys_rc rc = c.places && c.errors && order
                    ? bys_sets_open(judge, err)
                    : bys_error_set(err, BYS_ENOMEM, 0, "out of memory while solving");
    if (!rc)
        rc = run_phase(&c, true, order, workers, err);
    if (!rc)
        rc = run_phase(&c, false, order, workers, err);
    for (size_t p = 0; c.places && p < places; p++)
        bys_workplace_close(judge, &c.places[p], (int)(p % (size_t)judge->stage_count));
    free(c.places);
    free(c.errors);
    free(order);
    return rc;
}

bys_rc bys_judge_again(bys_state **out, bys_judge *judge, const bys_job *job, int lost,
                       bys_error *err)
{
    const bys_stage_set *set = bys_job_stage(judge, job);
    bys_job copy = *job;
    bys_case_seen intact = {0},
                  *lost_seen = calloc((size_t)judge->leg_count + 1, sizeof *lost_seen);
    bys_status *island = calloc((size_t)set->net->island_count + 1, sizeof *island);
    bys_workplace place = {0};
    copy.intact = intact;
    copy.lost = lost_seen;
    copy.island = island;
    bys_rc rc = lost_seen && island
                    ? bys_workplace_open(judge, &place, job->stage, err)
                    : bys_error_set(err, BYS_ENOMEM, 0, "out of memory while solving");
    if (!rc)
        rc = solve_intact(judge, &copy, &place, err);
    if (!rc && lost >= 0) {
        bys_state_copy(place.lost, place.intact);
        rc = solve_lost(judge, &copy, &place, lost, err);
    }
    if (!rc) {
        bys_state **taken = lost >= 0 ? &place.lost : &place.intact;
        *out = *taken;
        *taken = NULL;
    }
    free(copy.intact.reason);
    if (lost_seen && lost >= 0)
        free(lost_seen[lost].reason);
    free(lost_seen);
    free(island);
    bys_workplace_close(judge, &place, job->stage);
    return rc;
}

/// The set in the place's states, after the intact ones were found; *out takes one of them.
static bys_rc again_in(bys_state **out, bys_set_run *run, bys_judge *judge, bys_job *job,
                       bys_workplace *place, const bys_set *set, bys_error *err)
{
    bys_state **taken = set->kind == BYS_SET_INTACT ? &place->intact : &place->lost;
    bys_rc rc = solve_intact(judge, job, place, err);
    if (rc)
        return rc;
    bys_state_copy(place->lost, place->intact);
    if (set->kind == BYS_SET_INTACT)
        run->sea = bys_job_environment(judge, job)->sea;
    else
        rc = bys_set_solve(run, judge, job, place, set, err);
    if (!rc) {
        *out = *taken;
        *taken = NULL;
    }
    return rc;
}

bys_rc bys_set_again(bys_state **out, bys_set_run *run, bys_judge *judge, const bys_job *job,
                     const bys_set *set, bys_error *err)
{
    const bys_stage_set *stage = bys_job_stage(judge, job);
    bys_job copy = *job;
    bys_workplace place = {0};
    copy.intact = (bys_case_seen){0};
    copy.island = calloc((size_t)stage->net->island_count + 1, sizeof *copy.island);
    bys_rc rc = copy.island ? bys_workplace_open(judge, &place, job->stage, err)
                            : bys_error_set(err, BYS_ENOMEM, 0, "out of memory while solving");
    if (!rc)
        rc = again_in(out, run, judge, &copy, &place, set, err);
    free(copy.intact.reason);
    free(copy.island);
    bys_workplace_close(judge, &place, job->stage);
    return rc;
}
