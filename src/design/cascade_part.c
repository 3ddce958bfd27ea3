// SPDX-License-Identifier: GPL-3.0-or-later
// One connected part, its loads raised step by step: what gives way first, what next, and when
// nothing holds it any more.
//
// GIVEN     one case; the anchors' holding powers and the lines' strengths, without any factor
// RETURNED  things that give way in order, each with its multiplier; the multiplier at the end
// NOTES     1. The multiplier scales the forces of current, wind and wave drift: speeds and orbital
//              velocities by its root, reflected drift by itself. Weight and buoyancy stay.
//           2. An anchor that slips holds nothing from then on (residual zero: no better value is known),
//              and its legs are gone. So is a leg that parts. A backbone parts at its tighter end.
//           3. Beyond an uplift or an angle up to which a holding power is known, the anchor counts as
//              slipping, and is told apart; below a hundredth of its holding power the direction of the
//              pull is not looked at (own choice: slack legs hang steeply).
//           4. What gives way within 1e-4 of the same load gives way together; what the loss overloads
//              goes at the same multiplier.
//           5. A part of it that no anchor holds any more is taken out. A raft adrift ends the part. An
//              anchor counts as holding while its leg holds more than itself.
//           6. A load at which no balance is found does not count as held. The search goes back to
//              smaller steps before it says so.
//           7. Before the first loss the result does not depend on the way the load is raised, as long
//              as there is one equilibrium; afterwards each step starts from the one before.
//           8. Lines that drift against each other are not part of this: see set_foul.c.
// SOURCE    derived; Illinois steps: Dowell and Jarratt (1971) [memory].
#include "base/number.h"
#include "design/cascade.h"
#include "lease/find.h"
#include "phys/phys.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double least = 0.005;      // multiplier below which it counts as none
static const double close_enough = 1e-5; // of the multiplier and of the load
static const double negligible = 0.01;   // share of a holding power below which directions do not count
static const double together = 1e-4;    // share of a load within which things go together

typedef struct {
    bys_part_cascade *out;
    bys_judge *judge;
    bys_workplace *place;
    const bys_stage_set *set;
    const bys_network *net;
    const bys_island *part;
    const bys_sea *sea;
    bys_condition change;
    int *sections, *elements, *parents;
    unsigned char *gone, *mark; ///< by element, by point
    bool have;      ///< place->intact holds the state at m
    double m, load; ///< multiplier of that state and its largest share of a strength
    bys_error *err;
} climb;

// ---- how near things are to giving way -----------------------------------------------------

bys_anchor_rule bys_anchor_rule_plain(const bys_anchor_rule *rule)
{
    bys_anchor_rule plain = *rule;
    plain.load_factor = plain.resistance_factor = plain.across_factor = 1.0;
    plain.missing = rule->unheld;
    if (rule->share > 0.0)
        plain.weight = rule->weight / rule->share;
    return plain;
}

static bool stands(const climb *c, const bys_state *state, int leg)
{
    const bys_leg *l = &c->net->legs[leg];
    return l->section_count > 0 && state->sections[l->first_section].active &&
           !c->gone[c->net->sections[l->first_section].first];
}

/// Legs on the anchor that stand; line on the bed and friction of chain under one alone.
static int standing_on(const climb *c, const bys_state *state, int anchor, double *grounded,
                       double *grip)
{
    const bys_anchor *a = &c->net->anchors[anchor];
    int standing = 0;
    *grounded = *grip = 0.0;
    for (int k = 0; k < a->leg_count; k++) {
        const bys_leg *leg = &c->net->legs[a->legs[k]];
        if (!stands(c, state, a->legs[k]))
            continue;
        standing++;
        for (int s = leg->first_section; s < leg->first_section + leg->section_count; s++) {
            const bys_section *section = &c->net->sections[s];
            *grounded += state->sections[s].grounded;
            if (section->part && section->part->kind == BYS_PART_CHAIN)
                *grip += bys_bed_friction(true) * state->sections[s].grounded *
                         fmax(section->weight_dry - section->buoyancy, 0.0);
        }
    }
    if (standing != 1)
        *grip = 0.0;
    return standing;
}

/// Share of its holding power that the anchor takes; infinite where that is not known.
static double anchor_share(const climb *c, const bys_state *state, int leg, bys_give *give)
{
    const int a = c->net->legs[leg].anchor;
    double grounded, grip;
    bys_anchor_seen seen;
    *give = (bys_give){.leg = -1, .section = -1, .fitting = -1, .load = NAN, .capacity = NAN};
    if (a < 0 || c->judge->rules[a].model == BYS_HOLD_NONE ||
        standing_on(c, state, a, &grounded, &grip) == 0)
        return 0.0;
    const bys_anchor_rule plain = bys_anchor_rule_plain(&c->judge->rules[a]);
    bys_anchor_look(&seen, &plain, state->reaction + 3 * c->net->anchors[a].point,
                    c->net->anchors[a].heading, grounded, grip, c->sea->bed_normal);
    give->trouble = seen.trouble;
    give->kind = seen.trouble == BYS_SEEN_OK ? BYS_GIVE_SLIPS : BYS_GIVE_UNKNOWN;
    give->load = seen.characteristic;
    give->capacity = seen.trouble == BYS_SEEN_OK ? seen.capacity : NAN;
    give->angle = seen.trouble == BYS_SEEN_OFFSET ? seen.offset
                  : seen.trouble == BYS_SEEN_ACROSS ? seen.off_shaft : seen.bed_uplift;
    if (seen.trouble == BYS_SEEN_OK)
        return seen.utilisation;
    return hypot(seen.horizontal, seen.vertical) < negligible * plain.capacity ? 0.0 : INFINITY;
}

static double piece_share(const climb *c, int piece, double tension, bys_give *give)
{
    *give = (bys_give){.kind = BYS_GIVE_BREAKS, .leg = -1, .section = -1, .fitting = -1,
                       .load = tension, .capacity = NAN};
    if (piece < 0 || !(c->judge->pieces[piece].capacity > 0.0))
        return 0.0;
    give->capacity = c->judge->pieces[piece].capacity;
    return tension / give->capacity;
}

static double fitting_load(const climb *c, const bys_state *state, int fitting)
{
    double most = 0.0;
    const int *first = c->set->first_of_fitting;
    for (int k = first[fitting]; k < first[fitting + 1]; k++) {
        const int end = c->set->end_of_fitting[k];
        const bys_section_state *section = &state->sections[end / 2];
        if (section->active)
            most = fmax(most, end % 2 ? section->tension_b : section->tension_a);
    }
    return most;
}

/// Is this leg the first standing one on its anchor?
static bool speaks_for_anchor(const climb *c, const bys_state *state, int leg)
{
    const int a = c->net->legs[leg].anchor;
    for (int k = 0; a >= 0 && k < c->net->anchors[a].leg_count; k++)
        if (stands(c, state, c->net->anchors[a].legs[k]))
            return c->net->anchors[a].legs[k] == leg;
    return false;
}

static void keep(climb *c, const bys_give *give)
{
    bys_part_cascade *out = c->out;
    if (out->give_count == out->give_room) {
        const int room = 2 * out->give_room + 8;
        bys_give *gives = realloc(out->gives, (size_t)room * sizeof *gives);
        if (!gives) {
            bys_error_set(c->err, BYS_ENOMEM, 0, "out of memory for the cascade");
            return;
        }
        out->gives = gives;
        out->give_room = room;
    }
    out->gives[out->give_count++] = *give;
}

/// Largest share in a state; those of at least `from` (NAN: none) are kept as giving way at m.
static double look(climb *c, const bys_state *state, double from, double m)
{
    const int i = c->out->island, *sections = c->set->section_list + c->set->section_from[i];
    const int *fittings = c->set->fitting_list + c->set->fitting_from[i];
    const int ns = c->set->section_from[i + 1] - c->set->section_from[i];
    const int nf = c->set->fitting_from[i + 1] - c->set->fitting_from[i];
    double most = 0.0, share;
    bys_give give;
    for (int k = 0; k < c->part->leg_count; k++) {
        if (!speaks_for_anchor(c, state, c->part->legs[k]))
            continue;
        share = anchor_share(c, state, c->part->legs[k], &give);
        give.leg = k, give.multiplier = m;
        most = fmax(most, share);
        if (share >= from)
            keep(c, &give);
    }
    for (int k = 0; k < ns; k++) {
        const double tension = bys_section_tension(&state->sections[sections[k]]);
        share = piece_share(c, c->set->piece_of_section[sections[k]], tension, &give);
        give.section = k, give.multiplier = m;
        most = fmax(most, share);
        if (share >= from)
            keep(c, &give);
    }
    for (int k = 0; k < nf; k++) {
        share = piece_share(c, c->set->piece_of_fitting[fittings[k]],
                            fitting_load(c, state, fittings[k]), &give);
        give.fitting = k, give.multiplier = m;
        most = fmax(most, share);
        if (share >= from)
            keep(c, &give);
    }
    return most;
}

// ---- solving -------------------------------------------------------------------------------

static bool stable(const climb *c)
{
    return c->place->lost->islands[c->out->island].status == BYS_STABLE;
}

/// Solves at multiplier m into place->lost; *share = its largest share, NAN if it is not stable.
static bys_rc try(climb *c, double m, double *share)
{
    const bys_sea sea = bys_sea_scaled(c->sea, m);
    if (c->have)
        bys_state_copy_island(c->place->lost, c->place->intact, c->out->island);
    const bys_task task = {.state = c->place->lost,
                           .island = c->out->island,
                           .condition = &c->change,
                           .sea = &sea,
                           .warm = c->have};
    const bys_rc rc = bys_workplace_solve(c->place, &task, c->err);
    c->out->solves++;
    *share = !rc && stable(c) ? look(c, c->place->lost, NAN, m) : NAN;
    return rc;
}

static void accept(climb *c, double m, double share)
{
    bys_state_copy_island(c->place->intact, c->place->lost, c->out->island);
    c->have = true;
    c->m = m;
    c->load = share;
}

static bys_rc end_here(climb *c, bys_end_kind end, double at, const char *reason)
{
    c->out->end = end;
    c->out->at = at;
    bys_format(c->out->reason, sizeof c->out->reason, "%s", reason);
    return BYS_OK;
}

// ---- what a loss takes with it -------------------------------------------------------------

static void drop_section(climb *c, int section)
{
    const bys_section *s = &c->net->sections[section];
    if (c->gone[s->first] && s->count > 0 && c->gone[s->first + s->count - 1])
        return;
    c->sections[c->change.section_count++] = section;
    memset(c->gone + s->first, 1, (size_t)s->count);
}

static void drop_element(climb *c, int element)
{
    if (c->gone[element])
        return;
    c->gone[element] = 1;
    c->elements[c->change.element_count++] = element;
}

static void drop_leg(climb *c, int leg)
{
    const bys_leg *l = &c->net->legs[leg];
    for (int s = l->first_section; s < l->first_section + l->section_count; s++)
        drop_section(c, s);
}

static void drop(climb *c, const bys_give *give)
{
    const int island = c->out->island;
    if (give->kind != BYS_GIVE_BREAKS) {
        const int a = c->net->legs[c->part->legs[give->leg]].anchor;
        for (int k = 0; k < c->net->anchors[a].leg_count; k++)
            drop_leg(c, c->net->anchors[a].legs[k]);
        return;
    }
    if (give->fitting >= 0) {
        const int f = c->set->fitting_list[c->set->fitting_from[island] + give->fitting];
        if (c->net->fittings[f].leg >= 0)
            drop_leg(c, c->net->fittings[f].leg);
        return;
    }
    const int s = c->set->section_list[c->set->section_from[island] + give->section];
    const bys_section *section = &c->net->sections[s];
    if (section->leg >= 0)
        drop_leg(c, section->leg);
    else if (section->line < 0)
        drop_section(c, s);
    else if (c->place->lost->sections[s].tension_a >= c->place->lost->sections[s].tension_b)
        drop_element(c, section->first);
    else
        drop_element(c, section->first + section->count - 1);
}

/// Takes out what nothing holds. False if a raft is among it: nothing to go on with.
static bool drop_loose(climb *c)
{
    if (bys_find_loose(c->net, c->out->island, c->gone, c->mark, c->parents) == 0)
        return true;
    for (int k = 0; k < c->part->body_count; k++)
        if (c->mark[c->net->bodies[c->part->bodies[k]].points[0]] & 2)
            return false;
    for (int k = 0; k < c->part->element_count; k++)
        if (c->mark[c->net->elements[c->part->elements[k]].a] & 2)
            drop_element(c, c->part->elements[k]);
    return true;
}

static bool is_there(const climb *c, int leg)
{
    const bys_leg *l = &c->net->legs[leg];
    return l->section_count > 0 && !c->gone[c->net->sections[l->first_section].first];
}

static int root_of(const int *parents, int p)
{
    while (parents[p] != p)
        p = parents[p];
    return p;
}

/// Marks with 4 the roots of what is more than legs: backbones, ropes between rafts, rafts.
static void mark_useful(climb *c)
{
    const bys_island *part = c->part;
    bys_find_loose(c->net, c->out->island, c->gone, c->mark, c->parents);
    for (int k = 0; k < part->element_count; k++) {
        const bys_element *e = &c->net->elements[part->elements[k]];
        if (!c->gone[part->elements[k]] && c->net->sections[e->section].leg < 0)
            c->mark[root_of(c->parents, e->a)] |= 4;
    }
    for (int k = 0; k < part->body_count; k++)
        c->mark[root_of(c->parents, c->net->bodies[part->bodies[k]].points[0])] |= 4;
}

/// Anchors with a standing leg that still holds more than itself.
static int anchors_left(climb *c)
{
    mark_useful(c);
    int count = 0;
    for (int k = 0; k < c->part->leg_count; k++) {
        const int leg = c->part->legs[k], a = c->net->legs[leg].anchor;
        int first = -1; // each anchor is counted at its first standing leg
        for (int l = 0; a >= 0 && l < c->net->anchors[a].leg_count && first < 0; l++)
            if (is_there(c, c->net->anchors[a].legs[l]) &&
                c->mark[root_of(c->parents, c->net->legs[c->net->anchors[a].legs[l]].foot)] & 4)
                first = c->net->anchors[a].legs[l];
        count += first == leg;
    }
    return count;
}

/// All that gives way in the trial state at m. False if the part is no longer held.
static bool lose(climb *c, double m)
{
    const int before = c->out->give_count;
    look(c, c->place->lost, 1.0 - together, m);
    for (int k = before; k < c->out->give_count; k++)
        drop(c, &c->out->gives[k]);
    const bool whole = drop_loose(c);
    const int left = whole ? anchors_left(c) : 0;
    for (int k = before; k < c->out->give_count; k++)
        c->out->gives[k].standing = left;
    c->change.sections = c->sections;
    c->change.elements = c->elements;
    if (left == 0)
        end_here(c, BYS_END_GONE, m, "");
    return left > 0;
}

// ---- the search ----------------------------------------------------------------------------

/// Next multiplier between low (share < 1) and high (share >= 1), a little beyond the estimate.
static double guess(double low, double at_low, double high, double at_high)
{
    if (!isfinite(at_high) || !(at_low > 0.0))
        return sqrt(low * high);
    const double t = log(1.0 / at_low) / log(at_high / at_low);
    const double m = low * pow(high / low, fmin(1.0, fmax(0.0, t))) * (1.0 + 0.3 * close_enough);
    return m > low && m < high ? m : sqrt(low * high);
}

/// From an accepted state below and a trial above to the multiplier at which the first thing gives.
static bys_rc refine(climb *c, double high, double at_high, double *m)
{
    bys_rc rc = BYS_OK;
    double share = at_high;
    int same = 0;
    for (int k = 0; k < 80 && !rc; k++) {
        if (high / c->m - 1.0 < close_enough || at_high - 1.0 < close_enough)
            break;
        const double next = same < 3 ? guess(c->m, c->load, high, at_high) : sqrt(c->m * high);
        rc = try(c, next, &share);
        if (rc || isnan(share)) {
            if (!rc) // a hole in the way up: close in from below
                high = next, at_high = INFINITY;
            continue;
        }
        if (share < 1.0) {
            same = same > 0 ? same + 1 : 1;
            accept(c, next, share);
        } else {
            same = same < 0 ? same - 1 : -1;
            high = next, at_high = share;
        }
        if (same < -2 || same > 2)
            same = 3;
    }
    if (!rc) // the trial state must be the one above
        rc = try(c, high, &share);
    *m = isnan(share) ? NAN : high;
    return rc;
}

/// Raises the load from the accepted state until something gives; *m = where, NAN: it ended.
static bys_rc climb_on(climb *c, double *m)
{
    double step = 1.1, share;
    *m = NAN;
    while (true) {
        const double next =
            fmin(fmax(c->m, least) * step, BYS_CASCADE_MOST * (1.0 + 1e-9));
        bys_rc rc = try(c, next, &share);
        if (rc)
            return rc;
        if (isnan(share)) {
            step = sqrt(step);
            if (step < 1.001)
                return end_here(c, BYS_END_BALANCE, c->m,
                                c->place->lost->islands[c->out->island].reason);
            continue;
        }
        if (share >= 1.0) {
            rc = refine(c, next, share, m);
            if (!rc && isnan(*m))
                end_here(c, BYS_END_BALANCE, c->m,
                         c->place->lost->islands[c->out->island].reason);
            return rc;
        }
        accept(c, next, share);
        if (next >= BYS_CASCADE_MOST)
            return end_here(c, BYS_END_HOLDS, c->m, "");
        step = fmin(1.25 * step, 1.6);
    }
}

/// A first accepted state, at 1 or below. *over: even the least load is too much.
static bys_rc first_state(climb *c, bool *over)
{
    double share = NAN;
    bys_rc rc = BYS_OK;
    *over = false;
    for (double m = 1.0; m >= least && !rc; m *= 0.8) {
        rc = try(c, m, &share);
        if (rc || !(share < 1.0))
            continue;
        accept(c, m, share);
        return BYS_OK;
    }
    *over = share >= 1.0;
    if (!rc && isnan(share))
        end_here(c, BYS_END_BALANCE, 0.0, c->place->lost->islands[c->out->island].reason);
    return rc;
}

/// After a loss at m: the same load again, without what is gone. *over: more gives way at once.
static bys_rc settle(climb *c, double m, bool *over)
{
    double share;
    c->have = true;
    bys_state_copy_island(c->place->intact, c->place->lost, c->out->island);
    const bys_rc rc = try(c, m, &share);
    *over = share >= 1.0;
    if (rc)
        return rc;
    if (isnan(share))
        return end_here(c, BYS_END_BALANCE, m, c->place->lost->islands[c->out->island].reason);
    if (!*over)
        accept(c, m, share);
    return BYS_OK;
}

static bys_rc run(climb *c)
{
    bool over;
    double m = 0.0;
    bys_rc rc = first_state(c, &over);
    while (!rc && c->out->end == BYS_END_NOT_RUN) {
        if (!over)
            rc = climb_on(c, &m);
        if (rc || c->out->end != BYS_END_NOT_RUN || c->err->rc || !lose(c, m))
            break;
        rc = settle(c, m, &over);
    }
    return rc ? rc : c->err->rc;
}

/// First anchor of the part whose holding power is not known; -1.
static int unknown_anchor(const climb *c)
{
    for (int k = 0; k < c->part->leg_count; k++) {
        const int a = c->net->legs[c->part->legs[k]].anchor;
        if (a >= 0 && c->judge->rules[a].model != BYS_HOLD_NONE && *c->judge->rules[a].unheld)
            return a;
    }
    return -1;
}

static bool make_room(climb *c)
{
    const size_t points = (size_t)c->net->point_count + 1;
    c->sections = malloc(((size_t)c->net->section_count + 1) * sizeof(int));
    c->elements = malloc(((size_t)c->net->element_count + 1) * sizeof(int));
    c->parents = malloc(points * sizeof(int));
    c->gone = calloc((size_t)c->net->element_count + 1, 1);
    c->mark = calloc(points, 1);
    return c->sections && c->elements && c->parents && c->gone && c->mark;
}

bys_rc bys_cascade_part(bys_part_cascade *out, bys_judge *judge, bys_workplace *place,
                        bys_error *err)
{
    const bys_job *job = &judge->jobs[out->job];
    const bys_stage_set *set = bys_job_stage(judge, job);
    bys_error own = {0};
    climb c = {.out = out, .judge = judge, .place = place, .set = set, .net = set->net,
               .part = &set->net->islands[out->island],
               .sea = &bys_job_environment(judge, job)->sea,
               .change = {.id = "cascade"}, .err = err ? err : &own};
    out->end = BYS_END_NOT_RUN;
    out->at = NAN;
    bys_rc rc = make_room(&c) ? BYS_OK
                              : bys_error_set(c.err, BYS_ENOMEM, 0,
                                              "out of memory for the cascade");
    const int unknown = rc ? -1 : unknown_anchor(&c);
    out->anchors = rc ? 0 : anchors_left(&c);
    if (unknown >= 0)
        bys_format(out->reason, sizeof out->reason, "%s: %s", set->net->anchors[unknown].id,
                   judge->rules[unknown].unheld);
    else if (!rc && out->anchors == 0)
        bys_format(out->reason, sizeof out->reason, "it has no anchor");
    else if (!rc)
        rc = run(&c);
    free(c.sections);
    free(c.elements);
    free(c.parents);
    free(c.gone);
    free(c.mark);
    return rc;
}
