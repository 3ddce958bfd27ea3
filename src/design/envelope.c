// SPDX-License-Identifier: GPL-3.0-or-later
// From the slots of all cases to the governing check of each piece of line and of each anchor.
//
// NOTES     1. Line and anchor govern by utilisation, each in its own case; all numbers of a check
// come
//              from that case. Equal values: the first case counts.
//           2. Fail beats not checked beats pass. What is missing in one piece or in one case makes
//              the whole check not checked, unless something fails.
//           3. A demanded case that is not stable makes the unfailed checks of its connected part
//           not
//              checked.
#include "design/envelope.h"
#include "design/passage.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

const char *const bys_analysis = "static mean with wave drift";

bys_verdict bys_verdict_strict(bys_judge *judge, bys_verdict verdict, bys_basis basis,
                               const char **why)
{
    if ((verdict != BYS_PASS && verdict != BYS_FAIL) || !bys_basis_unverified(basis))
        return verdict;
    judge->out->unverified_checks++;
    if (!judge->options.strict)
        return verdict;
    if (why)
        *why = bys_judge_text(judge,
                              "rests on an unverified value (%s), which --strict does not take: %s",
                              bys_basis_name(basis), *why);
    return BYS_NOT_CHECKED;
}

bool bys_unstable_find(const bys_judge *judge, int leg, bys_where *where)
{
    for (int j = 0; j < judge->job_count; j++) {
        const bys_job *job = &judge->jobs[j];
        const bys_stage_set *set = bys_job_stage(judge, job);
        if (!bys_job_demanded(judge, job))
            continue;
        const int island = set->island_of_leg[leg];
        if (job->island[island] != BYS_STABLE) {
            *where = (bys_where){job, -1};
            return true;
        }
        for (int l = 0; judge->lost_demanded && job->lost && l < judge->leg_count; l++)
            if (l != leg && set->island_of_leg[l] == island && job->lost[l].status != BYS_STABLE) {
                *where = (bys_where){job, l};
                return true;
            }
    }
    return false;
}

const char *bys_unstable_reason(const bys_where *where)
{
    const bys_case_seen *seen =
        where->lost < 0 ? &where->job->intact : &where->job->lost[where->lost];
    return seen->reason ? seen->reason : "";
}

// ---- line ----------------------------------------------------------------------------------

/// Largest demanded tension of a piece intact, and with a leg lost.
static void worst_of_both(const bys_judge *judge, int piece, bys_piece_seen *intact,
                          bys_piece_seen *lost)
{
    *intact = *lost = (bys_piece_seen){.tension = -1.0, .where = {NULL, -1}};
    for (int j = 0; j < judge->job_count; j++) {
        const bys_job *job = &judge->jobs[j];
        if (!bys_job_demanded(judge, job))
            continue;
        if (job->piece[piece] > intact->tension)
            *intact = (bys_piece_seen){job->piece[piece], {job, -1}};
        if (judge->lost_demanded && job->piece_lost[piece] > lost->tension)
            *lost = (bys_piece_seen){job->piece_lost[piece], {job, job->piece_lost_leg[piece]}};
    }
}

void bys_piece_worst(const bys_judge *judge, int piece, bys_piece_seen *seen)
{
    bys_piece_seen lost;
    worst_of_both(judge, piece, seen, &lost);
    if (lost.tension > seen->tension)
        *seen = lost;
}

static void put_case(bys_judge *judge, bys_strength *check, const bys_where *where)
{
    check->case_id = where->job ? bys_case_name(judge, where->job, where->lost) : "";
    check->condition = where->job ? bys_condition_name(judge, where->lost) : "";
    check->analysis = bys_analysis;
}

/// The check of one piece in its worst case of one state.
static bys_strength state_check(bys_judge *judge, const bys_piece *piece,
                                const bys_piece_seen *seen)
{
    const bys_piece_state intact = {piece->load_factor, piece->resistance_factor, piece->per_newton,
                                    piece->basis, piece->why, piece->source};
    const bys_piece_state *state = seen->where.lost < 0 ? &intact : &piece->lost;
    bys_strength check = {.item = piece->id,
                          .component = piece->component,
                          .characteristic_N = seen->tension >= 0.0 ? seen->tension : NAN,
                          .load_factor = state->load_factor,
                          .capacity_N = piece->capacity,
                          .resistance_factor = state->resistance_factor,
                          .basis = state->basis,
                          .why = state->why,
                          .source = state->source};
    put_case(judge, &check, &seen->where);
    check.design_N = check.characteristic_N * check.load_factor;
    check.utilisation = check.design_N * check.resistance_factor / check.capacity_N;
    check.verdict = isnan(check.utilisation)   ? BYS_NOT_CHECKED
                    : check.utilisation <= 1.0 ? BYS_PASS
                                               : BYS_FAIL;
    if (check.verdict != BYS_NOT_CHECKED)
        check.why = bys_judge_text(judge, "%s sees %s, x %.2f against %s (%s)", piece->id,
                                   bys_kilonewtons(judge, check.design_N), check.resistance_factor,
                                   bys_kilonewtons(judge, piece->capacity), state->why);
    return check;
}

/// Fail beats not checked beats pass; of two that are checked alike the higher use.
static bool graver(const bys_strength *a, const bys_strength *b)
{
    static const int rank[] = {
        [BYS_REPORTED] = 0, [BYS_PASS] = 1, [BYS_NOT_CHECKED] = 2, [BYS_FAIL] = 3};
    return rank[a->verdict] != rank[b->verdict] ? rank[a->verdict] > rank[b->verdict]
                                                : a->utilisation > b->utilisation;
}

bys_strength bys_piece_check(bys_judge *judge, const bys_piece *piece, int index)
{
    bys_piece_seen intact, lost;
    worst_of_both(judge, index, &intact, &lost);
    const bys_strength check = state_check(judge, piece, &intact);
    if (!(lost.tension >= 0.0))
        return check;
    const bys_strength damaged = state_check(judge, piece, &lost);
    return graver(&damaged, &check) ? damaged : check;
}

bys_strength bys_pieces_check(bys_judge *judge, const int *pieces, int count)
{
    bys_strength worst = {.case_id = "",
                          .condition = "",
                          .analysis = bys_analysis,
                          .item = "",
                          .component = "",
                          .characteristic_N = NAN,
                          .load_factor = NAN,
                          .design_N = NAN,
                          .capacity_N = NAN,
                          .resistance_factor = NAN,
                          .utilisation = NAN,
                          .verdict = BYS_NOT_CHECKED,
                          .basis = BYS_BASIS_ASSUMED,
                          .why = "no case gave a tension",
                          .source = ""};
    bys_strength missing = worst;
    bool lacks = false;
    for (int k = 0; k < count; k++) {
        const bys_strength check = bys_piece_check(judge, &judge->pieces[pieces[k]], pieces[k]);
        if (check.verdict == BYS_NOT_CHECKED && !lacks) {
            missing = check;
            lacks = true;
        } else if (check.verdict != BYS_NOT_CHECKED &&
                   (isnan(worst.utilisation) || check.utilisation > worst.utilisation)) {
            worst = check;
        }
    }
    return lacks && worst.verdict != BYS_FAIL ? missing : worst;
}

void bys_check_settle(bys_judge *judge, bys_strength *check, const int *legs, int count)
{
    bys_where where;
    if (check->verdict == BYS_PASS)
        for (int k = 0; k < count; k++)
            if (bys_unstable_find(judge, legs[k], &where)) {
                check->verdict = BYS_NOT_CHECKED;
                check->why = bys_judge_text(judge, "case %s did not come to rest: %s",
                                            bys_case_name(judge, where.job, where.lost),
                                            bys_unstable_reason(&where));
                break;
            }
    const char *open = bys_passage_open(judge, legs, count);
    if (check->verdict == BYS_PASS && open) {
        check->verdict = BYS_NOT_CHECKED;
        check->why = open;
    }
    check->verdict = bys_verdict_strict(judge, check->verdict, check->basis, &check->why);
}

// ---- anchor --------------------------------------------------------------------------------

static void keep_best(bys_anchor_worst *worst, const bys_anchor_seen *seen, const bys_job *job)
{
    if (seen->trouble == BYS_SEEN_NOTHING)
        return;
    if (!worst->seen || seen->utilisation > worst->seen->utilisation)
        *worst = (bys_anchor_worst){seen, {job, seen->lost}};
}

static void keep_out(bys_anchor_worst *worst, const bys_anchor_seen *seen, const bys_job *job)
{
    if (seen->trouble == BYS_SEEN_NOTHING)
        return;
    if (!worst->seen || seen->characteristic > worst->seen->characteristic)
        *worst = (bys_anchor_worst){seen, {job, seen->lost}};
}

/// What the pull would use if it came along the bed and in the set heading, where that is too much.
static const char *at_best(bys_judge *judge, const bys_anchor_rule *rule,
                           const bys_anchor_seen *seen)
{
    const double use =
        rule->load_factor * rule->resistance_factor * seen->characteristic / rule->capacity;
    return use > 1.0 ? bys_judge_text(judge, "; even within it the pull would use %.2f of %s", use,
                                      bys_kilonewtons(judge, rule->capacity))
                     : "";
}

static const char *shaft_why(bys_judge *judge, const bys_anchor_rule *rule,
                             const bys_anchor_seen *seen)
{
    const double deg = 180.0 / 3.14159265358979323846;
    return bys_judge_text(
        judge, "holds %s %s its shaft, %.0f deg off which the pull comes (%s); must hold %s x %.2f",
        bys_kilonewtons(judge, seen->capacity), seen->across ? "across" : "along",
        seen->off_shaft * deg, rule->how,
        bys_kilonewtons(judge, seen->characteristic * rule->load_factor),
        seen->across ? rule->across_factor : rule->resistance_factor);
}

static const char *anchor_why(bys_judge *judge, const bys_anchor_rule *rule,
                              const bys_anchor_seen *seen)
{
    const double deg = 180.0 / 3.14159265358979323846;
    const char *chain = "";
    switch (seen->trouble) {
    case BYS_SEEN_MISSING:
        return rule->missing;
    case BYS_SEEN_UPLIFT:
        return bys_judge_text(judge,
                              "the pull rises %.1f deg above the bed; the holding power is known "
                              "up to %.1f deg only%s",
                              seen->bed_uplift * deg, rule->uplift_limit * deg,
                              at_best(judge, rule, seen));
    case BYS_SEEN_OFFSET:
        return bys_judge_text(judge,
                              "the pull comes %.0f deg off the set heading; the holding power is "
                              "known up to %.0f deg only%s",
                              seen->offset * deg, rule->offset_limit * deg,
                              at_best(judge, rule, seen));
    case BYS_SEEN_ACROSS:
        return bys_judge_text(judge,
                              "the pull comes %.0f deg off the shaft, and what it holds across is "
                              "not known beyond %.0f deg: state the shaft's size and yield stress, "
                              "or test it",
                              seen->off_shaft * deg, fmax(rule->axial_limit, 0.0) * deg);
    case BYS_SEEN_CHAIN:
        return "the chain does not come down to the eye at this pull";
    default:
        break;
    }
    if (rule->model == BYS_HOLD_SHAFT)
        return shaft_why(judge, rule, seen);
    if (rule->chain_counts && seen->chain_grip > 0.0)
        chain = bys_judge_text(judge, ", and %s of chain friction over %.1f m on the bed",
                               bys_kilonewtons(judge, seen->chain_grip), seen->grounded);
    return bys_judge_text(
        judge, "holds %s at %.1f deg of uplift (%s%s); must hold %s x %.2f",
        bys_kilonewtons(judge, seen->capacity), fmax(seen->uplift, 0.0) * deg, rule->how, chain,
        bys_kilonewtons(judge, seen->characteristic * rule->load_factor), rule->resistance_factor);
}

static bys_anchor_load anchor_load(bys_judge *judge, int anchor, const bys_anchor_rule *rule,
                                   const bys_anchor_worst *worst)
{
    const bys_anchor_seen none = {.trouble = BYS_SEEN_NOTHING,
                                  .horizontal = NAN,
                                  .vertical = NAN,
                                  .uplift = NAN,
                                  .offset = NAN,
                                  .grounded = NAN,
                                  .characteristic = NAN,
                                  .capacity = NAN,
                                  .utilisation = NAN};
    const bys_anchor_seen *seen = worst->seen ? worst->seen : &none;
    bys_anchor_load load = {.horizontal_N = seen->horizontal,
                            .vertical_N = seen->vertical,
                            .uplift_rad = seen->uplift,
                            .offset_rad = seen->offset,
                            .grounded_m = seen->grounded};
    load.check = (bys_strength){.item = judge->stages[0].net->anchors[anchor].id,
                                .component = seen->across ? rule->across_component
                                                          : rule->component,
                                .characteristic_N = seen->characteristic,
                                .load_factor = rule->load_factor,
                                .design_N = seen->characteristic * rule->load_factor,
                                .capacity_N = seen->capacity,
                                .resistance_factor = seen->across ? rule->across_factor
                                                                  : rule->resistance_factor,
                                .utilisation = seen->utilisation,
                                .basis = rule->basis,
                                .source = rule->source};
    if (rule->chain_counts && seen->chain_grip > 0.0)
        load.check.basis = bys_basis_weaker(rule->basis, rule->chain_basis);
    put_case(judge, &load.check, &worst->where);
    load.check.why = worst->seen ? anchor_why(judge, rule, seen) : "no case gave a pull";
    load.check.verdict = isnan(seen->utilisation)   ? BYS_NOT_CHECKED
                         : seen->utilisation <= 1.0 ? BYS_PASS
                                                    : BYS_FAIL;
    return load;
}

bys_anchor_load bys_anchor_load_make(bys_judge *judge, int anchor, const bys_anchor_rule *intact,
                                     const bys_anchor_rule *lost, const bys_anchor_worst *best,
                                     const bys_anchor_worst *out)
{
    const bool fails = best->seen && best->seen->utilisation > 1.0;
    const bys_anchor_worst *worst = out->seen && !fails ? out : best;
    const bys_anchor_rule *rule = worst->where.lost < 0 ? intact : lost;
    bys_anchor_load load = anchor_load(judge, anchor, rule, worst);
    const bys_anchor *a = &judge->stages[0].net->anchors[anchor];
    if (rule->model == BYS_HOLD_NONE && strcmp(rule->component, "fixed") == 0)
        load.check.verdict = BYS_REPORTED;
    bys_check_settle(judge, &load.check, a->legs, a->leg_count);
    return load;
}

bys_anchor_load bys_anchor_envelope(bys_judge *judge, int anchor)
{
    bys_anchor_worst best = {NULL, {NULL, -1}}, out = {NULL, {NULL, -1}};
    for (int j = 0; j < judge->job_count; j++) {
        const bys_job *job = &judge->jobs[j];
        if (!bys_job_demanded(judge, job))
            continue;
        keep_best(&best, &job->anchor[anchor], job);
        keep_out(&out, &job->anchor_out[anchor], job);
        if (judge->lost_demanded) {
            keep_best(&best, &job->anchor_lost[anchor], job);
            keep_out(&out, &job->anchor_lost_out[anchor], job);
        }
    }
    return bys_anchor_load_make(judge, anchor, &judge->rules[anchor], &judge->rules_lost[anchor],
                                &best, &out);
}
