// SPDX-License-Identifier: GPL-3.0-or-later
// What moves the governing tension of each leg: its anchor laid elsewhere, a longer warp, a faster
// current. The governing case of the line check is solved again, and the transpose of the tangent
// there gives all rates at once (statics/sensitivity.c).
//
// NOTES     1. The rates hold for that case and for small changes; another case may govern after a
//              large one.
//           2. Legs of lines that are translated copies share one solve, as in jobs.c.
//           3. Where the case does not come to rest as before, the rates stay unknown.
#include "design/sensitivities.h"

#include "design/solving.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double same_tension = 1e-4; // relative: the case was found again

/// One leg's piece in one case, of the first of all copies.
typedef struct {
    int job, island, leg, lost, piece;
    bys_sensitivity found;
} request;

typedef struct {
    bys_judge *judge;
    request *requests; int count;
    int *first; int cases;     ///< first request of each case; requests are in order of cases
    bys_workplace *places;     ///< workers x stages
    bys_error *errors;         ///< one a worker
} crew;

// ---- which end ------------------------------------------------------------------------------

static void keep_end(bys_section_end *best, double *most, const bys_state *state, int section,
                     bool at_b)
{
    const bys_section_state *s = &state->sections[section];
    const double tension = at_b ? s->tension_b : s->tension_a;
    if (!s->active || !(tension > *most))
        return;
    *most = tension;
    *best = (bys_section_end){section, at_b};
}

/// The end at which the piece has its largest tension; section -1 = none.
static bys_section_end worst_end(const bys_stage_set *set, const bys_state *state, int leg,
                                 int piece)
{
    const bys_network *net = set->net;
    const bys_leg *l = &net->legs[leg];
    bys_section_end best = {-1, false};
    double most = -1.0;
    for (int s = l->first_section; s < l->first_section + l->section_count; s++)
        for (int end = 0; end < 2 && set->piece_of_section[s] == piece; end++)
            keep_end(&best, &most, state, s, end);
    for (int f = 0; f < net->fitting_count; f++)
        for (int k = set->first_of_fitting[f];
             set->piece_of_fitting[f] == piece && k < set->first_of_fitting[f + 1]; k++)
            keep_end(&best, &most, state, set->end_of_fitting[k] / 2, set->end_of_fitting[k] % 2);
    if (set->piece_of_foot[leg] == piece)
        keep_end(&best, &most, state, l->first_section, false);
    return best;
}

int bys_leg_sections(const bys_network *net, int leg, int *list)
{
    int count = 0;
    const int all = leg >= 0 ? net->legs[leg].section_count + net->legs[leg].arm_count : 0;
    for (int s = 0; s < all && s < BYS_LEG_SECTIONS; s++)
        list[count++] = net->legs[leg].first_section + s;
    return count;
}

// ---- requests -------------------------------------------------------------------------------

static int piece_of(const bys_judge *judge, int leg, const char *id, int *nth)
{
    *nth = 0;
    for (int p = 0; p < judge->piece_count; p++) {
        if (judge->pieces[p].leg != leg)
            continue;
        if (strcmp(judge->pieces[p].id, id) == 0)
            return p;
        ++*nth;
    }
    return -1;
}

static int nth_piece(const bys_judge *judge, int leg, int nth)
{
    for (int p = 0; p < judge->piece_count; p++)
        if (judge->pieces[p].leg == leg && nth-- == 0)
            return p;
    return -1;
}

/// The same leg in the first copy of its connected part.
static int twin(const bys_stage_set *set, int leg)
{
    if (leg < 0)
        return leg;
    const int island = set->island_of_leg[leg];
    const bys_island *from = &set->net->islands[island], *to = &set->net->islands[set->rep[island]];
    for (int k = 0; k < from->leg_count; k++)
        if (from->legs[k] == leg)
            return to->legs[k];
    return leg;
}

static request request_of(const bys_judge *judge, int leg)
{
    const bys_strength *check = &judge->out->legs[leg].strength;
    request r = {.job = -1, .found = {NAN, NAN, NAN, NAN, NAN}};
    int nth;
    if (!*check->case_id || !bys_case_find(judge, check->case_id, &r.job, &r.lost))
        return (request){.job = -1};
    const bys_stage_set *set = bys_job_stage(judge, &judge->jobs[r.job]);
    if (piece_of(judge, leg, check->item, &nth) < 0 || set->island_of_leg[leg] < 0)
        return (request){.job = -1};
    r.leg = twin(set, leg);
    r.lost = twin(set, r.lost);
    r.island = set->island_of_leg[r.leg];
    r.piece = nth_piece(judge, r.leg, nth);
    if (r.piece < 0)
        r.job = -1;
    return r;
}

static int by_case(const void *a, const void *b)
{
    const request *p = a, *q = b;
    const int x[5] = {p->job, p->lost, p->island, p->leg, p->piece};
    const int y[5] = {q->job, q->lost, q->island, q->leg, q->piece};
    for (int k = 0; k < 5; k++)
        if (x[k] != y[k])
            return x[k] < y[k] ? -1 : 1;
    return 0;
}

static bool same_case(const request *a, const request *b)
{
    return a->job == b->job && a->lost == b->lost && a->island == b->island;
}

static void collect(crew *c)
{
    const bys_judge *judge = c->judge;
    for (int l = 0; l < judge->leg_count; l++) {
        c->requests[c->count] = request_of(judge, l);
        c->count += c->requests[c->count].job >= 0;
    }
    qsort(c->requests, (size_t)c->count, sizeof *c->requests, by_case);
    int kept = 0;
    for (int i = 0; i < c->count; i++)
        if (kept == 0 || by_case(&c->requests[i], &c->requests[kept - 1]) != 0)
            c->requests[kept++] = c->requests[i];
    c->count = kept;
    for (int i = 0; i < kept; i++)
        if (i == 0 || !same_case(&c->requests[i], &c->requests[i - 1]))
            c->first[c->cases++] = i;
    c->first[c->cases] = kept;
}

// ---- solving --------------------------------------------------------------------------------

static bys_rc solve_case(bys_judge *judge, const request *r, bys_workplace *place,
                         const bys_condition *condition, bys_error *err)
{
    const bys_job *job = &judge->jobs[r->job];
    bys_task task = {.state = place->intact,
                     .island = r->island,
                     .sea = &bys_job_environment(judge, job)->sea,
                     .rest = bys_rest_of(judge, job)};
    bys_rc rc = bys_workplace_solve(place, &task, err);
    if (rc || r->lost < 0)
        return rc;
    bys_state_copy_island(place->lost, place->intact, r->island);
    task.warm = place->intact->islands[r->island].status == BYS_STABLE;
    task.rest = NULL;
    task.state = place->lost;
    task.condition = condition;
    return bys_workplace_solve(place, &task, err);
}

static int run_case(void *user, size_t number, int worker)
{
    crew *c = user;
    bys_judge *judge = c->judge;
    request *r = &c->requests[c->first[number]];
    const bys_job *job = &judge->jobs[r->job];
    const bys_stage_set *set = bys_job_stage(judge, job);
    bys_workplace *place = &c->places[worker * judge->stage_count + job->stage];
    bys_error *err = &c->errors[worker];
    int sections[BYS_LEG_SECTIONS];
    const bys_condition lost = {.id = "lost",
                                .sections = sections,
                                .section_count = bys_leg_sections(set->net, r->lost, sections)};
    bys_rc rc = bys_workplace_open(judge, place, job->stage, err);
    if (!rc)
        rc = solve_case(judge, r, place, &lost, err);
    bys_state *state = r->lost < 0 ? place->intact : place->lost;
    if (rc || state->islands[r->island].status != BYS_STABLE)
        return rc != BYS_OK;
    for (int i = c->first[number]; i < c->first[number + 1]; i++) {
        const bys_section_end end =
            worst_end(set, state, c->requests[i].leg, c->requests[i].piece);
        if (end.section >= 0)
            bys_sensitivity_find(&c->requests[i].found, place->solvers[r->island], state,
                                 &bys_job_environment(judge, job)->sea, r->lost < 0 ? NULL : &lost,
                                 c->requests[i].leg, end);
    }
    return 0;
}

static void put_rates(const crew *c)
{
    for (int l = 0; l < c->judge->leg_count; l++) {
        bys_leg_result *leg = &c->judge->out->legs[l];
        const request wanted = request_of(c->judge, l);
        const request *r =
            wanted.job < 0
                ? NULL
                : bsearch(&wanted, c->requests, (size_t)c->count, sizeof *c->requests, by_case);
        const double known = leg->strength.characteristic_N;
        leg->rates = (bys_leg_rates){"", "", NAN, NAN, NAN, NAN};
        if (!r || !(fabs(r->found.tension - known) <= same_tension * known + 0.01))
            continue;
        leg->rates = (bys_leg_rates){leg->strength.case_id,
                                     leg->strength.item,
                                     r->found.per_east,
                                     r->found.per_north,
                                     r->found.per_length,
                                     0.1 * r->found.per_current};
    }
}

bys_rc bys_judge_rates(bys_judge *judge, bys_error *err)
{
    const int workers = judge->options.threads > 0 ? judge->options.threads : bys_pool_threads();
    const size_t places = (size_t)workers * (size_t)judge->stage_count;
    crew c = {.judge = judge};
    c.requests = calloc((size_t)judge->leg_count + 1, sizeof *c.requests);
    c.first = calloc((size_t)judge->leg_count + 2, sizeof *c.first);
    c.places = calloc(places + 1, sizeof *c.places);
    c.errors = calloc((size_t)workers + 1, sizeof *c.errors);
    bys_rc rc = c.requests && c.first && c.places && c.errors
                    ? BYS_OK
                    : bys_error_set(err, BYS_ENOMEM, 0, "out of memory for the sensitivities");
    if (!rc) {
        collect(&c);
        if (c.cases > 0)
            rc = bys_pool_run(run_case, &c, (size_t)c.cases, workers, NULL, err);
    }
    for (int w = 0; !rc && w < workers; w++)
        if (c.errors[w].rc) {
            if (err)
                *err = c.errors[w];
            rc = c.errors[w].rc;
        }
    if (!rc)
        put_rates(&c);
    for (size_t p = 0; c.places && p < places; p++)
        bys_workplace_close(judge, &c.places[p], (int)(p % (size_t)judge->stage_count));
    free(c.requests);
    free(c.first);
    free(c.places);
    free(c.errors);
    return rc;
}
