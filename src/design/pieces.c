// SPDX-License-Identifier: GPL-3.0-or-later
// Sections and fittings that carry tension, and what 1 N of tension uses of each.
//
// GIVEN     parts, factors of the rules, the networks of all stages
// RETURNED  pieces, shared by all stages; maps from each stage's sections and fittings to them
// NOTES     1. capacity = new strength x share left by knot or splice x share left when wet, each
// once.
//              A rope whose knots or splices are not stated is not reduced for them, and `why` says
//              so.
//           2. utilisation = tension x load factor x resistance factor / capacity.
//           3. An anchor whose own (structural) strength is stated is checked as a connector at the
//           foot of
//              each leg.
//           4. Missing strength or factor: cannot be checked; nothing is set to 1.
// SOURCE    form of the check: UFC 4-159-03 (2005) Table 3-7, factor of safety on breaking
// strength. [read]
#include "base/number.h"
#include "design/judge.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const char *component_of(const bys_part *part)
{
    if (!part)
        return "";
    switch (part->kind) {
    case BYS_PART_CHAIN:
        return "chain";
    case BYS_PART_ROPE:
        return strncmp(part->u.line.material, "wire", 4) == 0 ? "wire" : "rope";
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

static void line_capacity(bys_judge *judge, bys_piece *piece, const bys_line_part *line)
{
    const bool rope = piece->part->kind == BYS_PART_ROPE;
    const double ends = isnan(line->efficiency) ? 1.0 : line->efficiency;
    const double wet = line->wet_factor > 0.0 ? line->wet_factor : 1.0;
    piece->strength = line->strength;
    piece->capacity = line->strength * ends * wet;
    char wetness[48] = "";
    if (wet != 1.0)
        bys_format(wetness, sizeof wetness, ", x %.2f when wet", wet);
    if (!isnan(line->efficiency))
        piece->why = bys_judge_text(judge, "%s new, x %.2f at knots or splices%s",
                                    bys_kilonewtons(judge, line->strength), ends, wetness);
    else
        piece->why =
            bys_judge_text(judge, "%s new%s%s", bys_kilonewtons(judge, line->strength), wetness,
                           rope ? ", not reduced for knots or splices: none is stated" : "");
}

static void take_factors(bys_judge *judge, bys_piece *piece)
{
    const bys_rules *rules = &judge->site->rules;
    const bys_factor *load = bys_rules_factor(rules, "load-static");
    const bys_factor *resistance = bys_rules_factor(rules, piece->component);
    piece->load_factor = load ? load->value : NAN;
    piece->resistance_factor = resistance ? resistance->value : NAN;
    if (load)
        piece->basis = bys_basis_weaker(piece->basis, load->basis);
    if (resistance) {
        piece->basis = bys_basis_weaker(piece->basis, resistance->basis);
        piece->source = bys_judge_text(judge, "%s%s%s", resistance->clause,
                                       *resistance->clause && *resistance->source ? ", " : "",
                                       resistance->source);
    }
}

bys_piece bys_piece_make(bys_judge *judge, const char *id, const bys_part *part, bool fitting)
{
    bys_piece piece = {.id = id,
                       .kind = kind_of(part, fitting),
                       .component = component_of(part),
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
    if (!(piece.capacity > 0.0))
        piece.why = bys_judge_text(judge, "the strength of %s is not stated", part->item.id);
    else if (!(piece.resistance_factor > 0.0))
        piece.why = bys_judge_text(
            judge, "the profile has no factor for \"%s\": supply one with its reason",
            piece.component);
    else if (!(piece.load_factor > 0.0))
        piece.why = "the profile has no load factor for static analysis (load-static)";
    else
        piece.per_newton = piece.load_factor * piece.resistance_factor / piece.capacity;
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
