// SPDX-License-Identifier: GPL-3.0-or-later
// Passage of a regular design wave: frozen at some phases, each solved as a static case.
//
// GIVEN     every demanded case with waves, where the site has <wave-passage>
// RETURNED  largest tension of each piece and pull on each anchor over the phases and periods. The
//           design load is the larger of that and the mean with wave drift, never their sum.
// NOTES     1. Height: as stated, else 1.86 hs; not above breaking. Periods: as stated, else 11.1 and
//              14.3 times sqrt(hs/g), and tp where it lies between.
//           2. The wave takes the place of the sea state: wind and current stay, drift goes. Its
//              direction is that of the waves. Intact only.
//           3. Where the wave part (largest in the passage less the mean) exceeds 0.3 of the mean, or
//              the top of the leg falls below 0.1 of the mean in a phase, a static factor does not
//              cover the line: not checked, unless the site gives a dynamic factor with its source.
//              That factor multiplies all tensions and pulls of the passage.
//           4. Legs that bear less than a tenth of their own largest mean in a case do not count in
//              that case.
//           5. Copies of a line share the phases of the first, though the wave meets them at other
//              times: with 12 phases a peak is missed by at most 15 degrees, wherever it falls.
//           6. Left out: dynamics, snap, and what statics/passage.c names.
// SOURCE    1.86 = sqrt(ln(1000)/2), highest of 1000 waves, Rayleigh: refs of sea waves [memory];
//           periods: IEC 61400-3 and NORSOK N-003 [memory]; 0.3: own choice; 0.1: slack criterion of
//           DNV-RP-H103 for slings [memory].
#include "design/passage.h"

#include "phys/phys.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double wave_share = 0.3, slack_share = 0.1, bearing_share = 0.1;

// ---- slots ----------------------------------------------------------------------------------

void bys_passage_free(bys_passage_seen *p)
{
    free(p->mean);
    free(p->piece);
    free(p->open);
    free(p->reason);
}

static bool make_seen(bys_passage_seen *p, const bys_judge *judge)
{
    const size_t legs = (size_t)judge->leg_count + 1, pieces = (size_t)judge->piece_count + 1;
    p->mean = malloc(5 * legs * sizeof *p->mean);
    p->piece = malloc(pieces * sizeof *p->piece);
    p->open = calloc(legs, sizeof *p->open);
    if (!p->mean || !p->piece || !p->open)
        return false;
    p->peak = p->mean + legs;
    p->least = p->mean + 2 * legs;
    p->period = p->mean + 3 * legs;
    p->phase = p->mean + 4 * legs;
    for (size_t i = 0; i < pieces; i++)
        p->piece[i] = -1.0;
    for (size_t l = 0; l < legs; l++) {
        p->mean[l] = p->peak[l] = -1.0;
        p->least[l] = INFINITY;
        p->period[l] = p->phase[l] = NAN;
    }
    p->run = true;
    return true;
}

// ---- one phase ------------------------------------------------------------------------------

/// Largest tension of a leg's sections; top: of its upper end.
static double leg_tension(const bys_network *net, const bys_state *state, int leg, double *top)
{
    const bys_leg *l = &net->legs[leg];
    double most = -1.0;
    for (int s = l->first_section; s < l->first_section + l->section_count; s++)
        most = fmax(most, bys_section_tension(&state->sections[s]));
    *top = l->section_count ? state->sections[l->first_section + l->section_count - 1].tension_b
                            : NAN;
    return most;
}

static void see_anchors(const bys_judge *judge, bys_job *job, bys_state *state, int island,
                        double factor)
{
    const bys_network *net = bys_job_stage(judge, job)->net;
    for (int k = 0; k < net->islands[island].leg_count; k++) {
        const int leg = net->islands[island].legs[k], a = net->legs[leg].anchor;
        if (a < 0 || net->anchors[a].legs[0] != leg)
            continue;
        bys_anchor_seen seen;
        double *pull = state->reaction + 3 * net->anchors[a].point;
        const double kept[3] = {pull[0], pull[1], pull[2]};
        for (int c = 0; c < 3; c++)
            pull[c] *= factor;
        bys_observe_anchor(&seen, judge, job, state, a, -1);
        memcpy(pull, kept, sizeof kept);
        bys_observe_keep(&job->anchor[a], &job->anchor_out[a], &seen);
    }
}

static void see_phase(const bys_judge *judge, bys_job *job, bys_state *state, int island,
                      const bys_train *train, double factor)
{
    const bys_stage_set *set = bys_job_stage(judge, job);
    bys_passage_seen *p = &job->passage;
    bys_observe_pieces(p->piece, set, state, island);
    see_anchors(judge, job, state, island, factor);
    for (int k = 0; k < set->net->islands[island].leg_count; k++) {
        const int leg = set->net->islands[island].legs[k];
        double top;
        const double tension = leg_tension(set->net, state, leg, &top);
        p->least[leg] = fmin(p->least[leg], top);
        if (tension > p->peak[leg]) {
            p->peak[leg] = tension;
            p->period[leg] = train->period;
            p->phase[leg] = train->phase;
        }
    }
}

/// A phase that did not come to rest opens all legs of the part and of its copies.
static void see_open(const bys_judge *judge, bys_job *job, const bys_state *state, int rep,
                     const bys_train *train)
{
    const bys_stage_set *set = bys_job_stage(judge, job);
    bys_passage_seen *p = &job->passage;
    for (int i = rep; i < set->net->island_count; i++)
        for (int k = 0; set->rep[i] == rep && k < set->net->islands[i].leg_count; k++)
            p->open[set->net->islands[i].legs[k]] = true;
    if (p->reason)
        return;
    bys_text text = {0};
    bys_text_addf(&text, "wave of %.1f s, phase %.0f deg: %s", train->period,
                  train->phase * 180.0 / BYS_PI, state->islands[rep].reason);
    p->reason = text.failed ? NULL : text.data;
}

static bys_rc run_phase(bys_judge *judge, bys_job *job, bys_workplace *place, int rep,
                        const bys_train *train, double factor, bys_error *err)
{
    const bys_stage_set *set = bys_job_stage(judge, job);
    bys_state *state = place->lost;
    const bys_sea sea = bys_sea_in_train(&bys_job_environment(judge, job)->sea, train);
    const bys_task task = {.state = state,
                           .island = rep,
                           .sea = &sea,
                           .warm = state->islands[rep].status == BYS_STABLE};
    const bys_rc rc = bys_workplace_solve(place, &task, err);
    job->solves++;
    if (rc)
        return rc;
    if (state->islands[rep].status != BYS_STABLE) {
        see_open(judge, job, state, rep, train);
        return BYS_OK;
    }
    for (int i = rep; i < set->net->island_count; i++) {
        if (set->rep[i] != rep)
            continue;
        if (i != rep)
            bys_state_translate(state, set, rep, i);
        see_phase(judge, job, state, i, train, factor);
    }
    return BYS_OK;
}

// ---- all phases -----------------------------------------------------------------------------

enum { PERIODS = 3 };

/// Periods (s) of the design wave; returns their number.
static int periods_of(double out[PERIODS], const bys_wave_passage *p, const bys_sea *sea)
{
    const double base = sqrt(sea->hs / sea->gravity);
    const double low = isnan(p->shortest) ? 11.1 * base : p->shortest;
    const double high = isnan(p->longest) ? 14.3 * base : p->longest;
    int n = 0;
    out[n++] = fmin(low, high);
    if (sea->tp > out[0] * 1.02 && sea->tp < 0.98 * high)
        out[n++] = sea->tp;
    if (high > out[0] * 1.02)
        out[n++] = high;
    return n;
}

static bys_rc run_island(bys_judge *judge, bys_job *job, bys_workplace *place, int rep,
                         bys_error *err)
{
    const bys_wave_passage *p = &judge->site->passage;
    const bys_sea *sea = &bys_job_environment(judge, job)->sea;
    const double factor = isnan(p->dynamic) ? 1.0 : p->dynamic;
    const double wanted = isnan(p->height) ? p->ratio * sea->hs : p->height;
    double period[PERIODS];
    const int periods = periods_of(period, p, sea);
    bys_state_copy_island(place->lost, place->intact, rep);
    bys_rc rc = BYS_OK;
    for (int i = 0; i < periods; i++) {
        const double height = fmin(wanted, bys_wave_breaking_height(period[i], sea->depth));
        bys_train train = bys_train_make(height, period[i], sea->waves, sea->level, sea->depth);
        job->passage.height = fmax(job->passage.height, height);
        for (int k = 0; !rc && k < p->phases; k++) {
            train.phase = 2.0 * BYS_PI * k / p->phases;
            rc = run_phase(judge, job, place, rep, &train, factor, err);
        }
    }
    return rc;
}

/// The larger of mean and passage counts.
static void merge(const bys_judge *judge, bys_job *job, double factor)
{
    for (int k = 0; k < judge->piece_count; k++)
        job->piece[k] = fmax(job->piece[k], factor * job->passage.piece[k]);
}

const char *bys_passage_open(const bys_judge *judge, const int *legs, int count)
{
    for (int k = 0; judge->out->legs && judge->site->has_passage && k < count; k++) {
        const bys_leg_result *leg = &judge->out->legs[legs[k]];
        if (leg->passage.asked && !leg->passage.covered)
            return leg->passage.text;
    }
    return NULL;
}

bys_rc bys_passage_run(bys_judge *judge, bys_job *job, bys_workplace *place, bys_error *err)
{
    const bys_stage_set *set = bys_job_stage(judge, job);
    const bys_sea *sea = &bys_job_environment(judge, job)->sea;
    if (!judge->site->has_passage || !bys_job_demanded(judge, job) || !(sea->hs > 0.0))
        return BYS_OK;
    if (!make_seen(&job->passage, judge))
        return bys_error_set(err, BYS_ENOMEM, 0, "out of memory for the passage of a wave");
    for (int l = 0; l < judge->leg_count; l++) {
        double top;
        if (set->island_of_leg[l] >= 0 && job->island[set->island_of_leg[l]] == BYS_STABLE)
            job->passage.mean[l] = leg_tension(set->net, place->intact, l, &top);
    }
    bys_rc rc = BYS_OK;
    for (int i = 0; !rc && i < set->net->island_count; i++)
        if (set->rep[i] == i && job->island[i] == BYS_STABLE)
            rc = run_island(judge, job, place, i, err);
    const double dynamic = judge->site->passage.dynamic;
    if (!rc)
        merge(judge, job, isnan(dynamic) ? 1.0 : dynamic);
    return rc;
}

// ---- judging --------------------------------------------------------------------------------

static bool counts(const bys_judge *judge, const bys_job *job, int leg)
{
    return job->passage.run && bys_job_demanded(judge, job) && job->passage.peak[leg] >= 0.0 &&
           job->passage.mean[leg] >= 0.0;
}

static double largest_mean(const bys_judge *judge, int leg)
{
    double most = 0.0;
    for (int j = 0; j < judge->job_count; j++)
        if (counts(judge, &judge->jobs[j], leg))
            most = fmax(most, judge->jobs[j].passage.mean[leg]);
    return most;
}

/// Why a static factor does not cover the leg in a job; NULL = it does.
static const char *uncovered(bys_judge *judge, const bys_job *job, int leg, double largest)
{
    const bys_passage_seen *p = &job->passage;
    const double mean = p->mean[leg], wave = p->peak[leg] - mean;
    if (mean < bearing_share * largest)
        return NULL;
    if (wave > wave_share * mean)
        return bys_judge_text(judge,
                              "the passing wave adds %.2f of the mean of %s (%s); above 0.30 a "
                              "static factor does not cover it: state a dynamic factor and its "
                              "source",
                              wave / mean, bys_kilonewtons(judge, mean),
                              bys_case_speech(judge, job));
    if (p->least[leg] < slack_share * mean)
        return bys_judge_text(judge,
                              "it goes slack as a wave passes (%s of a mean of %s, %s): snap is "
                              "left out; state a dynamic factor and its source",
                              bys_kilonewtons(judge, p->least[leg]), bys_kilonewtons(judge, mean),
                              bys_case_speech(judge, job));
    return NULL;
}

static void put_row(bys_judge *judge, bys_leg_result *leg, const bys_job *job, int index)
{
    const bys_passage_seen *p = &job->passage;
    leg->passage.case_id = bys_case_name(judge, job, -1);
    leg->passage.height_m = p->height;
    leg->passage.period_s = p->period[index];
    leg->passage.phase_rad = p->phase[index];
    leg->passage.mean_N = p->mean[index];
    leg->passage.peak_N = p->peak[index];
    leg->passage.least_N = p->least[index];
    leg->mean_N = p->mean[index];
    leg->wave_N = fmax(0.0, p->peak[index] - p->mean[index]);
}

/// The check comes from a case in which the passage was larger than the mean.
static void name_analysis(bys_judge *judge, bys_leg_result *leg, int index)
{
    int job, lost;
    if (!*leg->strength.case_id || !bys_case_find(judge, leg->strength.case_id, &job, &lost) ||
        lost >= 0 || !judge->jobs[job].passage.run)
        return;
    const double dynamic = judge->site->passage.dynamic;
    const bys_passage_seen *p = &judge->jobs[job].passage;
    const double factor = isnan(dynamic) ? 1.0 : dynamic;
    if (factor * p->peak[index] <= p->mean[index])
        return;
    leg->strength.analysis =
        isnan(dynamic) ? "regular wave passage, static at each phase"
                       : bys_judge_text(judge, "regular wave passage, static at each phase, x %.2f",
                                        dynamic);
}

void bys_passage_judge(bys_judge *judge, int index)
{
    bys_leg_result *leg = &judge->out->legs[index];
    const double largest = largest_mean(judge, index), dynamic = judge->site->passage.dynamic;
    const bys_job *worst = NULL;
    const char *why = NULL, *open = NULL;
    leg->passage = (bys_leg_passage){judge->site->has_passage, "", NAN, NAN, NAN, NAN, NAN, NAN,
                                     true, ""};
    for (int j = 0; judge->site->has_passage && j < judge->job_count; j++) {
        const bys_job *job = &judge->jobs[j];
        if (job->passage.run && job->passage.open[index] && !open)
            open = bys_judge_text(judge, "the passing wave did not come to rest in %s: %s",
                                  bys_case_name(judge, job, -1),
                                  job->passage.reason ? job->passage.reason : "");
        if (!counts(judge, job, index))
            continue;
        if (!worst || job->passage.peak[index] > worst->passage.peak[index])
            worst = job;
        if (!why && isnan(dynamic))
            why = uncovered(judge, job, index, largest);
    }
    if (worst)
        put_row(judge, leg, worst, index);
    leg->passage.covered = !open && !why;
    if (!leg->passage.covered)
        leg->passage.text = open ? open : why;
    else if (worst)
        leg->passage.text = isnan(dynamic) ? "covered by the static factor"
                                           : bys_judge_text(judge, "x %.2f: %s", dynamic,
                                                            judge->site->passage.because);
    name_analysis(judge, leg, index);
}
