// SPDX-License-Identifier: GPL-3.0-or-later
// The cascade of a site: which cases, all parts of it, and what comes of it in one order.
//
// NOTES     1. For each connected part the one demanded case counts in which it comes nearest to giving
//              way at the loads as they are: the largest share of a holding power or strength. Of these
//              cases the eight with the largest shares are taken, each for the whole site. Or all demanded
//              stages of the environment that is asked for.
//           2. A part that is a translated copy of another, with anchors and lines that hold alike, takes
//              its result.
//           3. Parts do not act on each other: a line that drifts against another is not looked at.
#include "design/cascade.h"

#include "base/codes.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { MOST_CASES = 8 };

typedef struct {
    bys_judge *judge;
    bys_part_cascade *runs; ///< one for each case and part that is no copy
    int count;
    bys_workplace *places;  ///< workers x stages
    bys_error *errors;
} crew;

// ---- which cases ---------------------------------------------------------------------------

/// Largest share that a part's anchors and lines take, intact, without factors.
static double share_of(const bys_judge *judge, const bys_job *job, int island)
{
    const bys_stage_set *set = bys_job_stage(judge, job);
    const bys_island *part = &set->net->islands[island];
    double most = 0.0;
    if (job->island[island] != BYS_STABLE)
        return 0.0;
    for (int k = 0; k < part->leg_count; k++) {
        const int a = set->net->legs[part->legs[k]].anchor;
        const bys_anchor_seen *seen = a >= 0 ? &job->anchor[a] : NULL;
        if (seen && seen->trouble == BYS_SEEN_OK && seen->capacity > 0.0)
            most = fmax(most, seen->characteristic / seen->capacity);
    }
    for (int k = set->section_from[island]; k < set->section_from[island + 1]; k++) {
        const int piece = set->piece_of_section[set->section_list[k]];
        if (piece >= 0 && judge->pieces[piece].capacity > 0.0)
            most = fmax(most, job->piece[piece] / judge->pieces[piece].capacity);
    }
    return most;
}

typedef struct { int job; double share; } ranked;

static void rank(ranked *list, int *count, int job, double share)
{
    int k = 0;
    while (k < *count && list[k].job != job)
        k++;
    if (k == *count)
        list[(*count)++] = (ranked){job, share};
    list[k].share = fmax(list[k].share, share);
    for (; k > 0 && list[k].share > list[k - 1].share; k--) {
        const ranked other = list[k];
        list[k] = list[k - 1];
        list[k - 1] = other;
    }
}

static int nearest_cases(const bys_judge *judge, ranked *list)
{
    const int islands = judge->stages[0].net->island_count;
    int count = 0;
    for (int i = 0; i < islands; i++) {
        ranked best = {-1, 0.0};
        for (int j = 0; j < judge->job_count; j++) {
            const bys_job *job = &judge->jobs[j];
            const double share = bys_job_demanded(judge, job) ? share_of(judge, job, i) : 0.0;
            if (share > best.share)
                best = (ranked){j, share};
        }
        if (best.job >= 0)
            rank(list, &count, best.job, best.share);
    }
    return count < MOST_CASES ? count : MOST_CASES;
}

/// Does "ENV" or "ENV:STAGE" name the job?
static bool names(const bys_judge *judge, const bys_job *job, const char *text)
{
    const char *env = bys_job_environment(judge, job)->id, *stage = bys_job_stage(judge, job)->id;
    const size_t n = strlen(env);
    return strncmp(text, env, n) == 0 &&
           (!text[n] || (text[n] == ':' && (strcmp(text + n + 1, stage) == 0)));
}

static bys_rc choose(const bys_judge *judge, ranked *list, int *count, bys_error *err)
{
    const char *asked = judge->options.cascade_case;
    *count = 0;
    if (!asked || !*asked) {
        *count = nearest_cases(judge, list);
        return BYS_OK;
    }
    for (int j = 0; j < judge->job_count; j++)
        if (names(judge, &judge->jobs[j], asked))
            list[(*count)++] = (ranked){j, 0.0};
    return *count ? BYS_OK
                  : bys_error_set(err, BYS_EUSAGE, BYS_M_unknown_case,
                                  "there is no case \"%s\" to raise the loads of; write an "
                                  "environment, or an environment and a stage, as in the ids of "
                                  "cases", asked);
}

// ---- running -------------------------------------------------------------------------------

static int run_part(void *user, size_t number, int worker)
{
    crew *c = user;
    bys_part_cascade *run = &c->runs[number];
    const int stage = c->judge->jobs[run->job].stage;
    bys_workplace *place = &c->places[worker * c->judge->stage_count + stage];
    bys_rc rc = bys_workplace_open(c->judge, place, stage, &c->errors[worker]);
    if (!rc)
        rc = bys_cascade_part(run, c->judge, place, &c->errors[worker]);
    return rc != BYS_OK;
}

static bool same_rule(const bys_anchor_rule *a, const bys_anchor_rule *b)
{
    const double x[] = {a->weight, a->friction, a->adhesion, a->capacity, a->key, a->across,
                        a->shaft_angle, a->axial_limit, a->eye_depth, a->chain_pull,
                        a->uplift_limit, a->offset_limit, a->share};
    const double y[] = {b->weight, b->friction, b->adhesion, b->capacity, b->key, b->across,
                        b->shaft_angle, b->axial_limit, b->eye_depth, b->chain_pull,
                        b->uplift_limit, b->offset_limit, b->share};
    for (size_t i = 0; i < sizeof x / sizeof x[0]; i++)
        if (x[i] != y[i] && !(isnan(x[i]) && isnan(y[i])))
            return false;
    return a->model == b->model && a->keyed == b->keyed && strcmp(a->unheld, b->unheld) == 0;
}

static double piece_capacity(const bys_judge *judge, int piece)
{
    return piece >= 0 && judge->pieces[piece].capacity > 0.0 ? judge->pieces[piece].capacity : 0.0;
}

static bool same_anchors(const bys_judge *judge, const bys_network *net, int i, int k)
{
    const bys_island *a = &net->islands[i], *b = &net->islands[k];
    for (int l = 0; l < a->leg_count; l++) {
        const int p = net->legs[a->legs[l]].anchor, q = net->legs[b->legs[l]].anchor;
        if ((p < 0) != (q < 0) ||
            (p >= 0 && (!same_rule(&judge->rules[p], &judge->rules[q]) ||
                        fabs(net->anchors[p].heading - net->anchors[q].heading) > 1e-9)))
            return false;
    }
    return true;
}

/// Strengths of the items of two islands, in step.
static bool same_pieces(const bys_judge *judge, const int *piece_of, const int *list,
                        const int *from, int i, int k)
{
    const int count = from[i + 1] - from[i];
    if (count != from[k + 1] - from[k])
        return false;
    for (int s = 0; s < count; s++)
        if (piece_capacity(judge, piece_of[list[from[i] + s]]) !=
            piece_capacity(judge, piece_of[list[from[k] + s]]))
            return false;
    return true;
}

/// Lowest island that stands for this one in a cascade: a copy in shape and place whose anchors and
/// lines hold alike, too.
static int stands_for(const bys_judge *judge, const bys_stage_set *set, int island)
{
    for (int k = 0; k < island; k++)
        if (set->rep[k] == set->rep[island] && same_anchors(judge, set->net, k, island) &&
            same_pieces(judge, set->piece_of_section, set->section_list, set->section_from, k,
                        island) &&
            same_pieces(judge, set->piece_of_fitting, set->fitting_list, set->fitting_from, k,
                        island))
            return k;
    return island;
}

static void list_runs(crew *c, const ranked *cases, int count)
{
    for (int k = 0; k < count; k++) {
        const bys_stage_set *set = bys_job_stage(c->judge, &c->judge->jobs[cases[k].job]);
        for (int i = 0; i < set->net->island_count; i++)
            if (stands_for(c->judge, set, i) == i && set->net->islands[i].leg_count > 0)
                c->runs[c->count++] = (bys_part_cascade){.job = cases[k].job, .island = i};
    }
}

static bys_rc run_all(crew *c, const ranked *cases, int count, bys_error *err)
{
    bys_judge *judge = c->judge;
    const int workers = judge->options.threads > 0 ? judge->options.threads : bys_pool_threads();
    const size_t islands = (size_t)judge->stages[0].net->island_count;
    const size_t places = (size_t)workers * (size_t)judge->stage_count;
    c->runs = calloc((size_t)count * islands + 1, sizeof *c->runs);
    c->places = calloc(places + 1, sizeof *c->places);
    c->errors = calloc((size_t)workers + 1, sizeof *c->errors);
    bys_rc rc = c->runs && c->places && c->errors
                    ? BYS_OK
                    : bys_error_set(err, BYS_ENOMEM, 0, "out of memory for the cascade");
    if (!rc) {
        list_runs(c, cases, count);
        rc = bys_pool_run(run_part, c, (size_t)c->count, workers, NULL, err);
    }
    for (int w = 0; rc && c->errors && w < workers; w++)
        if (c->errors[w].rc && err) {
            *err = c->errors[w];
            rc = err->rc;
            break;
        }
    for (size_t p = 0; c->places && p < places; p++)
        bys_workplace_close(judge, &c->places[p], (int)(p % (size_t)judge->stage_count));
    free(c->places);
    free(c->errors);
    return rc;
}

// ---- rows ----------------------------------------------------------------------------------

static const char *part_name(const bys_stage_set *set, int island)
{
    const bys_network *net = set->net;
    for (int l = 0; l < net->line_count; l++)
        if (net->lines[l].island == island)
            return net->lines[l].id;
    if (net->islands[island].body_count > 0)
        return net->bodies[net->islands[island].bodies[0]].id;
    return net->islands[island].leg_count ? net->legs[net->islands[island].legs[0]].id : "";
}

/// What gives way, in the island `to` that is the run's own or a copy of it.
static const char *item_of(const bys_stage_set *set, const bys_give *give, int to)
{
    const bys_network *net = set->net;
    if (give->leg >= 0)
        return net->anchors[net->legs[net->islands[to].legs[give->leg]].anchor].id;
    if (give->section >= 0)
        return net->sections[set->section_list[set->section_from[to] + give->section]].id;
    return net->fittings[set->fitting_list[set->fitting_from[to] + give->fitting]].id;
}

static const char *trouble_words(bys_judge *judge, const bys_give *give)
{
    const double degrees = give->angle * (180.0 / 3.14159265358979323846);
    switch (give->trouble) {
    case BYS_SEEN_UPLIFT:
        return bys_judge_text(judge, "its holding is not known for a pull %.2f deg above the bed",
                              degrees);
    case BYS_SEEN_OFFSET:
        return bys_judge_text(judge, "its holding is not known for a pull %.0f deg off its heading",
                              degrees);
    case BYS_SEEN_ACROSS:
        return bys_judge_text(judge, "its holding is not known for a pull %.0f deg off its shaft",
                              degrees);
    default:
        return "its holding is not known for such a pull";
    }
}

static bys_cascade_step step_of(bys_judge *judge, const bys_stage_set *set, const bys_give *give,
                                int to)
{
    static const char *const kinds[] = {[BYS_GIVE_SLIPS] = "slips",
                                        [BYS_GIVE_UNKNOWN] = "unknown",
                                        [BYS_GIVE_BREAKS] = "breaks"};
    bys_cascade_step step = {.multiplier = give->multiplier,
                             .kind = kinds[give->kind],
                             .item = item_of(set, give, to),
                             .part = part_name(set, to),
                             .load_N = give->load,
                             .capacity_N = give->capacity,
                             .held = give->standing};
    if (give->kind == BYS_GIVE_UNKNOWN)
        step.text = bys_judge_text(judge, "%s counts as slipping: %s", step.item,
                                   trouble_words(judge, give));
    else
        step.text = bys_judge_text(judge, "%s %s at %s", step.item, step.kind,
                                   bys_kilonewtons(judge, give->load));
    return step;
}

/// Insertion by multiplier; equal ones keep the order of parts.
static void insert(bys_cascade *out, const bys_cascade_step *step)
{
    int k = out->step_count++;
    for (; k > 0 && out->steps[k - 1].multiplier > step->multiplier; k--)
        out->steps[k] = out->steps[k - 1];
    out->steps[k] = *step;
}

static void add_part(bys_judge *judge, bys_cascade *out, const bys_part_cascade *run, int to)
{
    static const char *const ends[] = {[BYS_END_GONE] = "gone",
                                       [BYS_END_HOLDS] = "holds",
                                       [BYS_END_BALANCE] = "no balance",
                                       [BYS_END_NOT_RUN] = "not run"};
    const bys_stage_set *set = bys_job_stage(judge, &judge->jobs[run->job]);
    out->parts[out->part_count++] =
        (bys_cascade_part_row){.part = part_name(set, to),
                               .end = ends[run->end],
                               .multiplier = run->at,
                               .anchors = run->anchors,
                               .reason = bys_judge_text(judge, "%s", run->reason)};
    if (run->end == BYS_END_NOT_RUN)
        return;
    out->anchors += run->anchors;
    for (int g = 0; g < run->give_count; g++) {
        const bys_cascade_step step = step_of(judge, set, &run->gives[g], to);
        insert(out, &step);
    }
    if (run->end == BYS_END_BALANCE) {
        const bys_cascade_step step = {
            .multiplier = run->at,
            .kind = "no balance",
            .item = part_name(set, to),
            .part = part_name(set, to),
            .load_N = NAN,
            .capacity_N = NAN,
            .text = bys_judge_text(judge, "%s does not count as held beyond this: %s",
                                   part_name(set, to), run->reason)};
        insert(out, &step);
    }
}

/// From "standing in its part" to "held in the site".
static bool count_held(bys_cascade *out)
{
    int *left = calloc((size_t)out->part_count + 1, sizeof *left), held = 0;
    for (int p = 0; left && p < out->part_count; p++) {
        left[p] = strcmp(out->parts[p].end, "not run") == 0 ? 0 : out->parts[p].anchors;
        held += left[p];
    }
    for (int k = 0; left && k < out->step_count; k++)
        for (int p = 0; p < out->part_count; p++)
            if (strcmp(out->steps[k].part, out->parts[p].part) == 0) {
                held += out->steps[k].held - left[p];
                left[p] = out->steps[k].held;
                out->steps[k].held = held;
                break;
            }
    free(left);
    return left != NULL;
}

static const char *times(bys_judge *judge, double multiplier)
{
    return bys_judge_text(judge, "%.2f", multiplier);
}

/// One sentence on what comes first and when all is gone.
static const char *sentence(bys_judge *judge, const bys_cascade *c)
{
    if (c->anchors == 0)
        return "no part could be run: see the reasons";
    if (c->step_count == 0)
        return bys_judge_text(judge, "nothing gives way up to %s times the loads of the case",
                              times(judge, BYS_CASCADE_MOST));
    const char *first =
        c->first > 0.0
            ? bys_judge_text(judge, "at %s times the loads of the case %s", times(judge, c->first),
                             c->steps[0].text)
            : bys_judge_text(judge, "already without current, wind and waves %s",
                             c->steps[0].text);
    const char *adrift = isnan(c->adrift)
                             ? ""
                             : bys_judge_text(judge, "; at %s the first part is adrift",
                                              times(judge, c->adrift));
    const char *gone = isnan(c->gone) ? "; not all is adrift at the end"
                                      : bys_judge_text(judge, "; at %s nothing is held any more",
                                                       times(judge, c->gone));
    return bys_judge_text(judge, "%s%s%s", first, adrift, gone);
}

static void sum_up(bys_judge *judge, bys_cascade *out)
{
    bool open = out->part_count == 0;
    out->first = out->step_count ? out->steps[0].multiplier : NAN;
    out->adrift = out->gone = NAN;
    for (int p = 0; p < out->part_count; p++) {
        const bys_cascade_part_row *part = &out->parts[p];
        const bool ended = strcmp(part->end, "gone") == 0 || strcmp(part->end, "no balance") == 0;
        open = open || !ended;
        if (!ended)
            continue;
        out->adrift = fmin(part->multiplier, out->adrift);
        out->gone = fmax(part->multiplier, out->gone);
    }
    if (open)
        out->gone = NAN;
    out->text = sentence(judge, out);
}

/// All parts of one case: those that were run, and their copies, in the order of the islands.
static void make_rows(bys_judge *judge, bys_cascade *out, const crew *c, int job)
{
    const bys_stage_set *set = bys_job_stage(judge, &judge->jobs[job]);
    size_t steps = 0;
    for (int i = 0; i < set->net->island_count; i++)
        for (int r = 0; r < c->count; r++)
            if (c->runs[r].job == job && c->runs[r].island == stands_for(judge, set, i))
                steps += (size_t)c->runs[r].give_count + 1;
    *out = (bys_cascade){
        .case_id = bys_judge_text(judge, "%s:%s:intact",
                                  bys_job_environment(judge, &judge->jobs[job])->id, set->id),
        .words = bys_case_speech(judge, &judge->jobs[job]),
        .steps = bys_judge_get(judge, steps, sizeof *out->steps),
        .parts = bys_judge_get(judge, (size_t)set->net->island_count, sizeof *out->parts)};
    for (int i = 0; i < set->net->island_count && !judge->no_memory; i++)
        for (int r = 0; r < c->count; r++)
            if (c->runs[r].job == job && c->runs[r].island == stands_for(judge, set, i))
                add_part(judge, out, &c->runs[r], i);
    for (int r = 0; r < c->count; r++)
        out->solves += c->runs[r].job == job ? c->runs[r].solves : 0;
    if (!count_held(out))
        judge->no_memory = true;
    if (!judge->no_memory)
        sum_up(judge, out);
}

/// Lowest first multiplier first; cases in which nothing gives way stand last.
static void sort_rows(bys_design *out)
{
    for (int i = 1; i < out->cascade_count; i++)
        for (int k = i; k > 0; k--) {
            const double a = out->cascades[k - 1].first, b = out->cascades[k].first;
            if (isnan(b) || a <= b)
                break;
            const bys_cascade other = out->cascades[k];
            out->cascades[k] = out->cascades[k - 1];
            out->cascades[k - 1] = other;
        }
}

static bys_rc run_cases(bys_judge *judge, const ranked *cases, int count, bys_error *err)
{
    crew c = {.judge = judge};
    bys_design *out = judge->out;
    const bys_rc rc = run_all(&c, cases, count, err);
    out->cascades = bys_judge_get(judge, (size_t)count, sizeof *out->cascades);
    for (int k = 0; k < count && !rc && !judge->no_memory; k++)
        make_rows(judge, &out->cascades[out->cascade_count++], &c, cases[k].job);
    if (!rc && !judge->no_memory)
        sort_rows(out);
    for (int r = 0; r < c.count; r++)
        free(c.runs[r].gives);
    free(c.runs);
    return rc;
}

bys_rc bys_judge_cascades(bys_judge *judge, bys_error *err)
{
    if (!judge->options.cascade || judge->stage_count == 0)
        return BYS_OK;
    const size_t room = (size_t)judge->job_count + (size_t)judge->stages[0].net->island_count;
    ranked *cases = calloc(room + 1, sizeof *cases);
    int count = 0;
    bys_rc rc = cases ? choose(judge, cases, &count, err)
                      : bys_error_set(err, BYS_ENOMEM, 0, "out of memory for the cascade");
    if (!rc && count > 0)
        rc = run_cases(judge, cases, count, err);
    free(cases);
    return rc;
}

int bys_cascade_exit(const bys_design *design)
{
    bool open = design->cascade_count == 0;
    for (int i = 0; i < design->cascade_count; i++) {
        const bys_cascade *c = &design->cascades[i];
        if (c->first <= 1.0)
            return 1;
        for (int p = 0; p < c->part_count; p++)
            open = open || strcmp(c->parts[p].end, "not run") == 0 ||
                   strcmp(c->parts[p].end, "no balance") == 0;
    }
    return open ? 2 : 0;
}
