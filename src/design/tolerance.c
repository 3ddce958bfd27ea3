// SPDX-License-Identifier: GPL-3.0-or-later
// Laying tolerance: the largest radius at which everything that the check demands still passes with
// the leg's anchor moved that far on eight bearings.
//
// GIVEN     a judge whose cases are solved and whose legs are judged
// RETURNED  radius (m) and what limits it, for each leg
// NOTES     1. At the radius that is printed, every demanded case on every bearing has been solved
//              anew, and passed. On the way there only those are solved that came out worst at the
//              last radius where all were solved; the rates of the governing case choose the first
//              radius. So the screening decides how long the search takes, not what it says.
//           2. Radii are multiples of 0.05 m, up to 10 m. Between the radii
//              tried, and between the bearings, nothing is known.
//           3. One anchor at a time; all others as planned. Lengths stay as made (moved.c).
//           4. A leg that fails or is not checked as designed has none, nor has one in whose
//              connected part something else fails as designed.
//           5. Legs of lines that are copies share the result, unless the lease is near.
// SOURCE    definition: own choice; eight bearings: the four winds and between, common practice, no
//           source.
#include "design/tolerance.h"

#include "design/moved.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double finest = 0.05; // m
enum { LARGEST = 200 };            // radii in units of the finest
enum { HOT = 12 };                 // cases on bearings that are tried first

typedef struct {
    bys_judge *judge;
    int leg;
    double radius;
    const int *order; int count; ///< jobs of this pass
    const unsigned char *wanted; ///< by job x bearing; NULL: all
    int bearings;                ///< that many of the first
    bys_moved_seen *seen;        ///< by job x bearing
    int *solves;                 ///< by job
    bys_moved_place *places;     ///< workers x stages
    bys_error *errors;           ///< one a worker
} crew;

// ---- one radius ------------------------------------------------------------------------------

static int run_job(void *user, size_t number, int worker)
{
    crew *c = user;
    const int j = c->order[number];
    const bys_job *job = &c->judge->jobs[j];
    bys_moved_place *place = &c->places[worker * c->judge->stage_count + job->stage];
    bys_error *err = &c->errors[worker];
    bys_rc rc = bys_moved_open(c->judge, place, job->stage, err);
    if (!rc)
        rc = bys_moved_neighbours(c->judge, job, place, c->leg, &c->solves[j], err);
    for (int b = 0; !rc && b < c->bearings; b++)
        if (!c->wanted || c->wanted[BYS_BEARINGS * j + b])
            rc = bys_moved_look(&c->seen[BYS_BEARINGS * j + b], c->judge, job, place, c->leg,
                                c->radius, b, &c->solves[j], err);
    // other legs find the foot where it was planned
    const int foot = c->judge->stages[job->stage].net->legs[c->leg].foot;
    if (!rc)
        place->net.points[foot] = c->judge->stages[job->stage].net->points[foot];
    return rc != BYS_OK;
}

static bys_rc solve_all(crew *c, bys_error *err)
{
    const int workers =
        c->judge->options.threads > 0 ? c->judge->options.threads : bys_pool_threads();
    bys_rc rc = bys_pool_run(run_job, c, (size_t)c->count, workers, NULL, err);
    for (int w = 0; !rc && w < workers; w++)
        if (c->errors[w].rc) {
            if (err)
                *err = c->errors[w];
            rc = c->errors[w].rc;
        }
    return rc;
}

/// Case and bearing with the highest use of those solved; job -1 = none.
typedef struct { int job, bearing; const bys_moved_seen *seen; } worst;

static worst worst_of(const crew *c)
{
    worst out = {-1, 0, NULL};
    for (int n = 0; n < c->count; n++)
        for (int b = 0; b < c->bearings; b++) {
            const int k = BYS_BEARINGS * c->order[n] + b;
            if ((!c->wanted || c->wanted[k]) && (!out.seen || c->seen[k].use > out.seen->use))
                out = (worst){c->order[n], b, &c->seen[k]};
        }
    return out;
}

// ---- the search ------------------------------------------------------------------------------

typedef struct {
    crew *c;
    int *all, all_count;      ///< jobs that count
    int *hot_jobs, hot_count; ///< jobs with something to try first
    unsigned char *hot;       ///< by job x bearing
    bys_laying_tolerance *out;
} search;

/// Solves at a radius (in units), all or only what is hot. Notes what fails.
static bys_rc try_radius(const search *s, int radius, bool all, bool *passes, bys_error *err)
{
    crew *c = s->c;
    c->radius = finest * radius;
    c->order = all ? s->all : s->hot_jobs;
    c->count = all ? s->all_count : s->hot_count;
    c->wanted = all ? NULL : s->hot;
    c->bearings = radius > 0 ? BYS_BEARINGS : 1;
    const bys_rc rc = solve_all(c, err);
    const worst w = rc ? (worst){-1, 0, NULL} : worst_of(c);
    *passes = !rc && (!w.seen || w.seen->use <= 1.0);
    if (rc || *passes)
        return rc;
    static const char *const kinds[] = {"", "equilibrium", "line strength", "anchor", "lease",
                                        "float reserve", "gear clearance", "excursion",
                                        "line clearance"};
    bys_judge *judge = c->judge;
    s->out->limited_by = bys_judge_text(judge, "%s of %s", kinds[w.seen->check], w.seen->item);
    s->out->case_id = bys_case_name(judge, &judge->jobs[w.job], w.seen->lost);
    s->out->bearing_rad = 2.0 * 3.14159265358979323846 * w.bearing / BYS_BEARINGS;
    return BYS_OK;
}

/// Marks what did worst in the pass that solved all.
static void find_hot(search *s)
{
    const crew *c = s->c;
    memset(s->hot, 0, (size_t)c->judge->job_count * BYS_BEARINGS);
    s->hot_count = 0;
    for (int n = 0; n < HOT; n++) {
        int best = -1;
        for (int i = 0; i < s->all_count; i++)
            for (int b = 0; b < BYS_BEARINGS; b++) {
                const int k = BYS_BEARINGS * s->all[i] + b;
                if (!s->hot[k] && (best < 0 || c->seen[k].use > c->seen[best].use))
                    best = k;
            }
        if (best >= 0 && (n == 0 || c->seen[best].use > 1.0))
            s->hot[best] = 1;
    }
    for (int i = 0; i < s->all_count; i++)
        for (int b = 0; b < BYS_BEARINGS; b++)
            if (s->hot[BYS_BEARINGS * s->all[i] + b]) {
                s->hot_jobs[s->hot_count++] = s->all[i];
                break;
            }
}

/// First radius to try: where the rates say that line or anchor is used up.
static int first_radius(const bys_leg_result *leg)
{
    const double rate = hypot(leg->rates.per_m_east_N, leg->rates.per_m_north_N);
    const double use = fmax(leg->strength.utilisation, leg->anchor.check.utilisation);
    const double r = (1.0 / use - 1.0) * leg->strength.characteristic_N / rate / finest;
    return isnan(r) || r > LARGEST ? LARGEST : r < 5.0 ? 5 : (int)r;
}

/// Halves between a radius that passed and one that did not, on what is hot alone.
static bys_rc halve(const search *s, int *passed, int *failed, bys_error *err)
{
    bys_rc rc = BYS_OK;
    while (!rc && *failed - *passed > 1) {
        const int middle = (*passed + *failed) / 2;
        bool passes;
        rc = try_radius(s, middle, false, &passes, err);
        *(passes ? passed : failed) = middle;
    }
    return rc;
}

/// Largest radius (in units) that passes; 0 is known to.
static bys_rc find_radius(search *s, int next, int *found, bys_error *err)
{
    int sure = 0, failed = LARGEST + 1;
    bys_rc rc = BYS_OK;
    bool passes;
    while (!rc && next > sure) {
        rc = try_radius(s, next, true, &passes, err);
        if (rc)
            return rc;
        *(passes ? &sure : &failed) = next;
        if (passes && failed > LARGEST) {
            next = 2 * sure < LARGEST ? 2 * sure : LARGEST;
            continue;
        }
        if (!passes)
            find_hot(s);
        next = sure;
        rc = halve(s, &next, &failed, err);
    }
    *found = sure;
    return rc;
}

// ---- legs ------------------------------------------------------------------------------------

static void give_none(bys_judge *judge, const bys_leg_result *leg, bys_laying_tolerance *out)
{
    out->radius_m = NAN;
    out->text = leg->verdict == BYS_FAIL ? "none: it fails as designed"
                : leg->verdict == BYS_NOT_CHECKED
                    ? "none: it is not checked as designed"
                    : "none: nothing of it is demanded";
    (void)judge;
}

static bys_rc find_leg(search *s, bys_error *err)
{
    bys_judge *judge = s->c->judge;
    bys_laying_tolerance *out = s->out;
    int found = 0;
    bool passes;
    memset(s->c->solves, 0, (size_t)judge->job_count * sizeof *s->c->solves);
    bys_rc rc = try_radius(s, 0, true, &passes, err);
    if (!rc && passes)
        rc = find_radius(s, first_radius(&judge->out->legs[s->c->leg]), &found, err);
    for (int i = 0; i < s->all_count; i++)
        out->resolves += s->c->solves[s->all[i]];
    if (rc)
        return rc;
    if (passes)
        out->radius_m = finest * found;
    if (!passes)
        out->text = bys_judge_text(judge, "none: %s does not pass as designed", out->limited_by);
    else if (found == LARGEST)
        out->text = bys_judge_text(judge, "%.0f m or more; searched no further", out->radius_m);
    else
        out->text = bys_judge_text(judge, "%.2f m; beyond it %s does not pass", out->radius_m,
                                   out->limited_by);
    if (found == LARGEST) {
        out->limited_by = out->case_id = "";
        out->bearing_rad = NAN;
    }
    return BYS_OK;
}

/// The lease cannot matter to a move of `reach` (m).
static bool lease_far(const bys_judge *judge, int leg, double reach)
{
    const bys_leg_result *row = &judge->out->legs[leg];
    const double margin = fmax(judge->site->lease_margin, 0.0);
    const bys_stage_set *set = &judge->stages[0];
    const int group = set->group_of_section[set->net->legs[leg].first_section];
    if (judge->site->lease_count < 3)
        return true;
    const bys_anchor_part *part = set->net->anchors[row->anchor_index].part
                                      ? &set->net->anchors[row->anchor_index].part->u.anchor
                                      : NULL;
    double least = judge->out->anchors[row->anchor_index].lease_margin_m - margin;
    if (part && part->kind == BYS_ANCHOR_DRAG)
        least -= fmax(part->setback, 0.0);
    for (int j = 0; j < judge->job_count; j++)
        least = fmin(least, judge->jobs[j].group[group].inside - margin);
    return least > 2.0 * reach;
}

/// Two connected parts are copies of each other at all stages, their anchors alike and judged alike.
static bool alike(const bys_judge *judge, int i, int k)
{
    for (int s = 0; s < judge->stage_count; s++)
        if (judge->stages[s].rep[i] != judge->stages[s].rep[k])
            return false;
    const bys_network *net = judge->stages[0].net;
    for (int l = 0; l < net->islands[i].leg_count; l++) {
        const bys_leg_result *p = &judge->out->legs[net->islands[i].legs[l]];
        const bys_leg_result *q = &judge->out->legs[net->islands[k].legs[l]];
        const bys_anchor *a = &net->anchors[p->anchor_index], *b = &net->anchors[q->anchor_index];
        if (p->verdict != q->verdict || a->part != b->part || a->heading != b->heading ||
            a->leg_count != b->leg_count)
            return false;
    }
    return true;
}

/// A leg before this one, of a copy of its line, whose result holds for it too; -1 = none.
static int copy_of(const bys_judge *judge, int leg)
{
    const bys_stage_set *set = &judge->stages[0];
    const int island = set->island_of_leg[leg];
    int nth = 0;
    if (island < 0 || !isnan(judge->site->rules.line_clearance))
        return -1;
    while (set->net->islands[island].legs[nth] != leg)
        nth++;
    for (int i = 0; i < island; i++) {
        if (set->rep[i] != set->rep[island] || !alike(judge, i, island))
            continue;
        const int twin = set->net->islands[i].legs[nth];
        const double reach = judge->out->legs[twin].tolerance.radius_m + finest; // NAN: none
        if (twin < leg && lease_far(judge, leg, reach) && lease_far(judge, twin, reach))
            return twin;
    }
    return -1;
}

static bys_rc find_legs(search *s, bys_error *err)
{
    bys_judge *judge = s->c->judge;
    bys_rc rc = BYS_OK;
    for (int l = 0; !rc && l < judge->leg_count; l++) {
        bys_leg_result *leg = &judge->out->legs[l];
        s->out = &leg->tolerance;
        s->c->leg = l;
        const int twin = copy_of(judge, l);
        if (leg->verdict != BYS_PASS) {
            give_none(judge, leg, s->out);
        } else if (twin >= 0) {
            *s->out = judge->out->legs[twin].tolerance;
            s->out->resolves = 0;
            if (!*s->out->same_as)
                s->out->same_as = judge->out->legs[twin].id;
            s->out->text = bys_judge_text(judge, "as %s: %s", s->out->same_as,
                                          judge->out->legs[twin].tolerance.text);
        } else {
            rc = find_leg(s, err);
        }
    }
    return rc;
}

static bys_rc find_with(crew *c, search *s, bys_error *err)
{
    bys_judge *judge = c->judge;
    const size_t jobs = (size_t)judge->job_count + 1;
    c->seen = calloc(jobs * BYS_BEARINGS, sizeof *c->seen);
    c->solves = calloc(jobs, sizeof *c->solves);
    s->all = calloc(jobs, sizeof *s->all);
    s->hot_jobs = calloc(jobs, sizeof *s->hot_jobs);
    s->hot = calloc(jobs * BYS_BEARINGS, 1);
    if (!c->seen || !c->solves || !s->all || !s->hot_jobs || !s->hot || !c->places || !c->errors)
        return bys_error_set(err, BYS_ENOMEM, 0, "out of memory for the laying tolerance");
    for (int j = 0; j < judge->job_count; j++)
        if (bys_moved_wants(judge, &judge->jobs[j]))
            s->all[s->all_count++] = j;
    return find_legs(s, err);
}

bys_rc bys_judge_tolerances(bys_judge *judge, bys_error *err)
{
    for (int l = 0; l < judge->leg_count; l++)
        judge->out->legs[l].tolerance = (bys_laying_tolerance){.asked = judge->options.tolerance,
                                                               .radius_m = NAN,
                                                               .limited_by = "",
                                                               .case_id = "",
                                                               .bearing_rad = NAN,
                                                               .same_as = "",
                                                               .text = ""};
    if (judge->options.tolerance && judge->site->has_passage)
        for (int l = 0; l < judge->leg_count; l++)
            judge->out->legs[l].tolerance.text =
                "not searched: it would leave out the passing wave that the site asks for";
    if (!judge->options.tolerance || judge->site->has_passage)
        return BYS_OK;
    const int workers = judge->options.threads > 0 ? judge->options.threads : bys_pool_threads();
    const size_t places = (size_t)workers * (size_t)judge->stage_count;
    crew c = {.judge = judge};
    search s = {.c = &c};
    c.places = calloc(places + 1, sizeof *c.places);
    c.errors = calloc((size_t)workers + 1, sizeof *c.errors);
    const bys_rc rc = find_with(&c, &s, err);
    for (size_t p = 0; c.places && p < places; p++)
        bys_moved_close(judge, &c.places[p], (int)(p % (size_t)judge->stage_count));
    free(c.places);
    free(c.errors);
    free(c.seen);
    free(c.solves);
    free(s.all);
    free(s.hot_jobs);
    free(s.hot);
    return rc;
}
