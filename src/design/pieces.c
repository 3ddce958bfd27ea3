// SPDX-License-Identifier: GPL-3.0-or-later
// Sections and fittings that carry tension, and what 1 N of tension uses of each.
//
// GIVEN     parts, factors of the rules, the networks of all stages
// RETURNED  pieces, shared by all stages; maps from each stage's sections and fittings to them
// NOTES     1. capacity = new strength x the shares left by knot or splice, wet, wear, corrosion
//              and age, each once and each on record. A rope whose knots or splices are not
//              stated is not reduced for them, and `why` says so. A profile's factor for knotted
//              rope stands in place of the knot's share.
//           2. utilisation = tension x load factor x resistance factor / capacity, with the
//              factors of the state: intact, or one leg lost.
//           3. An anchor whose own (structural) strength is stated is checked as a connector at the
//              foot of each leg.
//           4. Missing strength or factor: cannot be checked; nothing is set to 1.
// SOURCE    form of the check: UFC 4-159-03 (2005) Table 3-7, factor of safety on breaking
// strength. [read]
#include "base/number.h"
#include "design/judge.h"
#include "phys/phys.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static bool demands(const bys_judge *judge, const char *component)
{
    const bys_rules *rules = &judge->site->rules;
    return bys_rules_factor_in(rules, component, BYS_STATE_INTACT) ||
           bys_rules_factor_in(rules, component, BYS_STATE_LOST);
}

static bool knotted(const bys_line_part *line)
{
    bool knot = false;
    if (line->ends && *line->ends)
        bys_ends_share(line->ends, &knot);
    return knot;
}

/// Name of the factor: a special one where the part asks for it and the rules have it.
static const char *component_of(const bys_judge *judge, const bys_part *part)
{
    if (!part)
        return "";
    const bys_line_part *line = &part->u.line;
    switch (part->kind) {
    case BYS_PART_CHAIN:
        if (line->around_bends && demands(judge, "chain-bend"))
            return "chain-bend";
        return line->used && demands(judge, "chain-used") ? "chain-used" : "chain";
    case BYS_PART_ROPE:
        if (strncmp(line->material, "wire", 4) == 0 || strcmp(line->material, "steel-wire") == 0)
            return "wire";
        return knotted(line) && demands(judge, "rope-knotted") ? "rope-knotted" : "rope";
    default:
        return "connector";
    }
}

static const char *kind_of(const bys_part *part, bool fitting)
{
    if (fitting)
        return part && part->kind == BYS_PART_ANCHOR ? "anchor" : "connector";
    return part && part->kind == BYS_PART_CHAIN ? "chain" : "rope";
}

static void reduce(bys_piece *piece, const char *what, double share)
{
    if (share == 1.0 || piece->reduction_count == BYS_REDUCTIONS)
        return;
    piece->reductions[piece->reduction_count++] = (bys_reduction){what, share};
    piece->capacity *= share;
}

/// Knots and splices: stated as a share, or by name. A factor for knotted rope holds them already.
static void reduce_ends(bys_judge *judge, bys_piece *piece, const bys_line_part *line)
{
    bool knot = false;
    if (!isnan(line->efficiency)) {
        reduce(piece, "at knots or splices", line->efficiency);
    } else if (line->ends && *line->ends && strcmp(piece->component, "rope-knotted") != 0) {
        const double share = bys_ends_share(line->ends, &knot);
        reduce(piece, bys_judge_text(judge, "at its %s", line->ends), share);
    }
}

static void line_capacity(bys_judge *judge, bys_piece *piece, const bys_line_part *line)
{
    const bool rope = piece->part->kind == BYS_PART_ROPE;
    piece->strength = piece->capacity = line->strength;
    reduce_ends(judge, piece, line);
    reduce(piece, "when wet", line->wet_factor > 0.0 ? line->wet_factor : 1.0);
    reduce(piece, "for wear", 1.0 - line->wear);
    if (line->measured > 0.0)
        reduce(piece, "as measured", bys_bar_share(line->diameter, line->measured, 0.0, 0.0));
    const double now = line->measured > 0.0 ? line->measured : line->diameter;
    if (line->corrosion > 0.0 && now > 0.0)
        reduce(piece, bys_judge_text(judge, "for %g yr of corrosion", line->age),
               bys_bar_share(now, now, line->corrosion, line->age));
    if (line->loss_per_year > 0.0)
        reduce(piece, bys_judge_text(judge, "for %g yr of age", line->age),
               bys_aged_share(line->loss_per_year, line->age));
    piece->why = bys_judge_text(judge, "%s new", bys_kilonewtons(judge, line->strength));
    for (int i = 0; i < piece->reduction_count; i++)
        piece->why = bys_judge_text(judge, "%s, x %.2f %s", piece->why, piece->reductions[i].share,
                                    piece->reductions[i].what);
    if (rope && isnan(line->efficiency) && !(line->ends && *line->ends))
        piece->why = bys_judge_text(
            judge, "%s, not reduced for knots or splices: none is stated", piece->why);
    else if (strcmp(piece->component, "rope-knotted") == 0 && isnan(line->efficiency))
        piece->why = bys_judge_text(judge, "%s; its %s is in the factor for knotted rope",
                                    piece->why, line->ends);
}

static const char *clause_of(bys_judge *judge, const bys_factor *f)
{
    return bys_judge_text(judge, "%s%s%s", f->clause, *f->clause && *f->source ? ", " : "",
                          f->source);
}

/// Factors of the rules in a state, and what 1 N then uses.
static bys_piece_state state_of(bys_judge *judge, const bys_piece *piece, bys_factor_state state)
{
    const bys_rules *rules = &judge->site->rules;
    const bys_factor *load = bys_rules_factor_in(rules, "load-static", state);
    const bys_factor *resistance = bys_rules_factor_in(rules, piece->component, state);
    const char *lost = state == BYS_STATE_LOST ? " with one leg lost" : "";
    bys_piece_state s = {load ? load->value : NAN, resistance ? resistance->value : NAN, NAN,
                         piece->basis, piece->why, ""};
    if (load)
        s.basis = bys_basis_weaker(s.basis, load->basis);
    if (resistance) {
        s.basis = bys_basis_weaker(s.basis, resistance->basis);
        s.source = clause_of(judge, resistance);
    }
    if (!(piece->capacity > 0.0))
        s.why = piece->strength > 0.0
                    ? bys_judge_text(judge, "nothing is left of the strength of %s: %s",
                                     piece->part->item.id, piece->why)
                    : bys_judge_text(judge, "the strength of %s is not stated",
                                     piece->part->item.id);
    else if (!(s.resistance_factor > 0.0))
        s.why = bys_judge_text(
            judge, "the profile has no factor for \"%s\"%s: supply one with its reason",
            piece->component, lost);
    else if (!(s.load_factor > 0.0))
        s.why = bys_judge_text(
            judge, "the profile has no load factor for static analysis (load-static)%s", lost);
    else
        s.per_newton = s.load_factor * s.resistance_factor / piece->capacity;
    return s;
}

static void take_factors(bys_judge *judge, bys_piece *piece)
{
    piece->lost = state_of(judge, piece, BYS_STATE_LOST);
    const bys_piece_state s = state_of(judge, piece, BYS_STATE_INTACT);
    piece->load_factor = s.load_factor;
    piece->resistance_factor = s.resistance_factor;
    piece->per_newton = s.per_newton;
    piece->basis = s.basis;
    piece->why = s.why;
    piece->source = s.source;
}

bys_piece bys_piece_make(bys_judge *judge, const char *id, const bys_part *part, bool fitting)
{
    bys_piece piece = {.id = id,
                       .kind = kind_of(part, fitting),
                       .component = component_of(judge, part),
                       .part = part,
                       .leg = -1,
                       .line = -1,
                       .fitting = fitting,
                       .length = NAN,
                       .strength = NAN,
                       .capacity = NAN,
                       .load_factor = NAN,
                       .resistance_factor = NAN,
                       .per_newton = NAN,
                       .why = "",
                       .source = ""};
    piece.basis = part ? part->item.basis : BYS_BASIS_ASSUMED;
    piece.lost = (bys_piece_state){NAN, NAN, NAN, piece.basis, "", ""};
    if (!part)
        return piece;
    if (part->kind == BYS_PART_CONNECTOR || part->kind == BYS_PART_ANCHOR) {
        piece.strength = piece.capacity =
            part->kind == BYS_PART_ANCHOR ? part->u.anchor.strength : part->u.connector.strength;
        piece.why = bys_judge_text(judge, "%s new", bys_kilonewtons(judge, piece.strength));
    } else if (part->kind == BYS_PART_ROPE || part->kind == BYS_PART_CHAIN) {
        line_capacity(judge, &piece, &part->u.line);
    }
    take_factors(judge, &piece);
    return piece;
}

// ---- the list ------------------------------------------------------------------------------

static int find_piece(const bys_judge *judge, const char *id, int guess)
{
    if (guess >= 0 && guess < judge->piece_count && strcmp(judge->pieces[guess].id, id) == 0)
        return guess;
    for (int i = 0; i < judge->piece_count; i++)
        if (strcmp(judge->pieces[i].id, id) == 0)
            return i;
    return -1;
}

static int add_piece(bys_judge *judge, const bys_piece *piece)
{
    if (judge->piece_count == judge->piece_capacity) {
        const int capacity = judge->piece_capacity ? 2 * judge->piece_capacity : 256;
        bys_piece *grown = realloc(judge->pieces, (size_t)capacity * sizeof *grown);
        if (!grown) {
            judge->no_memory = true;
            return -1;
        }
        judge->pieces = grown;
        judge->piece_capacity = capacity;
    }
    judge->pieces[judge->piece_count] = *piece;
    return judge->piece_count++;
}

static int section_piece(bys_judge *judge, const bys_section *section, int guess)
{
    const int old = guess == -2 ? -1 : find_piece(judge, section->id, guess);
    if (old >= 0)
        return old;
    bys_piece piece = bys_piece_make(judge, section->id, section->part, false);
    piece.leg = section->leg;
    piece.line = section->line;
    piece.length = section->length;
    return add_piece(judge, &piece);
}

static int fitting_piece(bys_judge *judge, const bys_network *net, const bys_fitting *fitting,
                         int guess)
{
    const int old = guess == -2 ? -1 : find_piece(judge, fitting->id, guess);
    if (old >= 0)
        return old;
    bys_piece piece = bys_piece_make(judge, fitting->id, fitting->part, true);
    piece.leg = fitting->leg;
    piece.line = fitting->leg >= 0 ? net->legs[fitting->leg].line : -1;
    return add_piece(judge, &piece);
}

/// The anchor's own strength as a piece of the leg; -1 where it is not stated.
static int foot_piece(bys_judge *judge, const bys_network *net, int leg, bool first)
{
    const int anchor = net->legs[leg].anchor;
    const bys_part *part = anchor >= 0 ? net->anchors[anchor].part : NULL;
    if (!part || isnan(part->u.anchor.strength) || part->u.anchor.kind == BYS_ANCHOR_FIXED)
        return -1;
    const char *id = bys_judge_text(judge, "%s/foot", net->legs[leg].id);
    const int old = first ? -1 : find_piece(judge, id, -1);
    if (old >= 0)
        return old;
    bys_piece piece = bys_piece_make(judge, id, part, true);
    piece.leg = leg;
    piece.line = net->legs[leg].line;
    return add_piece(judge, &piece);
}

/// Ends of sections that meet at a fitting's point; those of its own leg if it belongs to one.
static int fitting_ends(int *ends, const bys_network *net, const bys_fitting *fitting)
{
    int count = 0, first = 0, last = net->section_count;
    if (fitting->leg >= 0) {
        first = net->legs[fitting->leg].first_section;
        last = first + net->legs[fitting->leg].section_count;
    }
    for (int s = first; s < last; s++) {
        if (net->sections[s].a == fitting->point) {
            if (ends)
                ends[count] = 2 * s;
            count++;
        }
        if (net->sections[s].b == fitting->point) {
            if (ends)
                ends[count] = 2 * s + 1;
            count++;
        }
    }
    return count;
}

static bool map_fittings(bys_judge *judge, bys_stage_set *set)
{
    const bys_network *net = set->net;
    int total = 0;
    set->first_of_fitting = bys_judge_get(judge, (size_t)net->fitting_count + 1, sizeof(int));
    for (int f = 0; f < net->fitting_count; f++)
        total += fitting_ends(NULL, net, &net->fittings[f]);
    set->end_of_fitting = bys_judge_get(judge, (size_t)total, sizeof(int));
    if (judge->no_memory)
        return false;
    for (int f = 0; f < net->fitting_count; f++)
        set->first_of_fitting[f + 1] =
            set->first_of_fitting[f] +
            fitting_ends(set->end_of_fitting + set->first_of_fitting[f], net, &net->fittings[f]);
    return true;
}

bool bys_judge_pieces(bys_judge *judge)
{
    for (int i = 0; i < judge->stage_count; i++) {
        bys_stage_set *set = &judge->stages[i];
        const bys_network *net = set->net;
        set->piece_of_section = bys_judge_get(judge, (size_t)net->section_count, sizeof(int));
        set->piece_of_fitting = bys_judge_get(judge, (size_t)net->fitting_count, sizeof(int));
        set->piece_of_foot = bys_judge_get(judge, (size_t)net->leg_count, sizeof(int));
        if (judge->no_memory || !map_fittings(judge, set))
            return false;
        // In the first stage every id is new; in the others the same order is tried first.
        for (int s = 0; s < net->section_count && !judge->no_memory; s++)
            set->piece_of_section[s] = section_piece(judge, &net->sections[s], i == 0 ? -2 : s);
        for (int f = 0; f < net->fitting_count && !judge->no_memory; f++)
            set->piece_of_fitting[f] =
                fitting_piece(judge, net, &net->fittings[f], i == 0 ? -2 : net->section_count + f);
        for (int l = 0; l < net->leg_count && !judge->no_memory; l++)
            set->piece_of_foot[l] = foot_piece(judge, net, l, i == 0);
    }
    return !judge->no_memory;
}
