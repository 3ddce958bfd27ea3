// SPDX-License-Identifier: GPL-3.0-or-later
// Cut list: each rope and chain of the legs, how long to cut it and from which coil.
//
// GIVEN     made-up length (m): bearing point to bearing point, unloaded, before bedding in, as the
//           check takes it; diameter d (m); how the ends are made fast; bedding-in share
// RETURNED  cut length = made-up length + 2 x allowance of an end; what bedding in adds afterwards;
//           the coil that a piece comes from, and what is left of it
// NOTES     1. Allowances: eye splice 30 d (5 d from the crown back to the throat, five tucks of
//              4 d, 5 d to trim); a knot or hitch 40 d. A working part in knots differs from hand to
//              hand: make one up and measure it first. Chain takes none.
//           2. Where the part does not say how it is made fast, eye splices are taken, and said so.
//           3. Bedding in is not cut off: the check has the rope with none of it and with all.
//           4. Stock: rope in coils of 220 m, chain in shots of 27.5 m. A longer piece is to be
//              ordered to length. Longest piece first, each into the first coil with room.
//           5. Backbones, head ropes and cross-ties are not in the list: a design keeps pieces of
//              legs only.
// SOURCE    1, 4: common practice of riggers, no source [memory]; cutting: first fit decreasing
//           [memory]; the rest [derived].
#include "write/sheets.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { LEG, PIECE, PART, KIND, DIAMETER, MADE_UP, ENDS, ALLOWANCE, CUT, BEDDING, MASS, COIL, STOCK,
       REST, COLUMNS };

static const bys_sheet_column columns[COLUMNS] = {
    [LEG] = {"leg", "Leg", "", 0},
    [PIECE] = {"piece", "Piece", "", 0},
    [PART] = {"part", "Part", "", 0},
    [KIND] = {"kind", "Kind", "", 0},
    [DIAMETER] = {"diameter_mm", "Diameter", "mm", 0},
    [MADE_UP] = {"made_up_m", "Made-up length", "m", 2},
    [ENDS] = {"ends", "Ends", "", 0},
    [ALLOWANCE] = {"allowance_m", "For both ends", "m", 2},
    [CUT] = {"cut_m", "Cut length", "m", 2},
    [BEDDING] = {"bedding_in_m", "Longer once bedded in", "m", 2},
    [MASS] = {"mass_kg", "Mass as made up", "kg", 1},
    [COIL] = {"coil", "From coil", "", 0},
    [STOCK] = {"coil_length_m", "Coil", "m", 1},
    [REST] = {"coil_waste_m", "Left of the coil", "m", 2},
};

#define ROPE_COIL 220.0
#define CHAIN_SHOT 27.5

typedef struct {
    const bys_leg_result *leg;
    const bys_leg_piece *piece;
    int row, coil;  ///< coil -1: none
    double cut, rest;
} cut;

static bool is_line(const bys_leg_piece *piece)
{
    return !strcmp(piece->kind, "rope") || !strcmp(piece->kind, "chain");
}

static bool is_rope(const bys_leg_piece *piece)
{
    return !strcmp(piece->kind, "rope");
}

static bool is_spliced(const char *ends)
{
    return !*ends || strstr(ends, "splice") != NULL;
}

/// Of both ends, m.
static double allowance(const bys_leg_piece *piece)
{
    if (!is_rope(piece))
        return 0.0;
    return 2.0 * (is_spliced(piece->ends) ? 30.0 : 40.0) * piece->diameter_m;
}

static const char *end_words(const bys_leg_piece *piece)
{
    if (!is_rope(piece))
        return "link";
    return *piece->ends ? piece->ends : "eye-splice (taken: not stated)";
}

static double stock_of(const cut *c)
{
    return is_rope(c->piece) ? ROPE_COIL : CHAIN_SHOT;
}

// ---- coils ---------------------------------------------------------------------------------

static int by_part_and_length(const void *a, const void *b)
{
    const cut *p = a, *q = b;
    const int part = strcmp(p->piece->part, q->piece->part);
    if (part)
        return part;
    if (p->cut != q->cut) // what has no length goes last
        return isnan(p->cut) || p->cut < q->cut ? 1 : -1;
    return p->row - q->row;
}

/// First fit among the pieces of one part, longest first.
static void fill_coils(cut *cuts, int count, double *left)
{
    int coils = 0;
    for (int i = 0; i < count; i++) {
        int k = 0;
        if (!(cuts[i].cut <= stock_of(&cuts[i])))
            continue;
        while (k < coils && left[k] < cuts[i].cut)
            k++;
        if (k == coils)
            left[coils++] = stock_of(&cuts[i]);
        left[k] -= cuts[i].cut;
        cuts[i].coil = k;
    }
    for (int i = 0; i < count; i++)
        if (cuts[i].coil >= 0)
            cuts[i].rest = left[cuts[i].coil];
}

static void share_out(cut *cuts, int count, double *left)
{
    qsort(cuts, (size_t)count, sizeof *cuts, by_part_and_length);
    for (int from = 0, to; from < count; from = to) {
        to = from + 1;
        while (to < count && !strcmp(cuts[to].piece->part, cuts[from].piece->part))
            to++;
        fill_coils(cuts + from, to - from, left);
    }
}

// ---- rows ----------------------------------------------------------------------------------

static bool put_row(bys_sheet *sheet, const cut *c)
{
    bys_cell *row = &sheet->cells[c->row * COLUMNS];
    const char *coil = "to be ordered to length";
    if (c->coil >= 0)
        coil = bys_arena_format(sheet->arena, "%s no. %d", c->piece->part, c->coil + 1);
    else if (isnan(c->cut))
        coil = "length not known";
    row[LEG] = bys_sheet_text(c->leg->id);
    row[PIECE] = bys_sheet_text(c->piece->id);
    row[PART] = bys_sheet_text(c->piece->part);
    row[KIND] = bys_sheet_text(c->piece->kind);
    row[DIAMETER] = bys_sheet_number(1000.0 * c->piece->diameter_m);
    row[MADE_UP] = bys_sheet_number(c->piece->length_m);
    row[ENDS] = bys_sheet_text(end_words(c->piece));
    row[ALLOWANCE] = bys_sheet_number(allowance(c->piece));
    row[CUT] = bys_sheet_number(c->cut);
    row[BEDDING] = bys_sheet_number(c->piece->bedding_in * c->piece->length_m);
    row[MASS] = bys_sheet_number(c->piece->mass_kg);
    row[COIL] = bys_sheet_text(coil ? coil : "");
    row[STOCK] = bys_sheet_number(c->coil >= 0 ? stock_of(c) : NAN);
    row[REST] = bys_sheet_number(c->coil >= 0 ? c->rest : NAN);
    return coil != NULL;
}

static int list_cuts(cut *cuts, const bys_design *design)
{
    int count = 0;
    for (int i = 0; i < design->leg_count; i++)
        for (int k = 0; k < design->legs[i].piece_count; k++) {
            const bys_leg_piece *piece = &design->legs[i].pieces[k];
            if (!is_line(piece))
                continue;
            if (cuts)
                cuts[count] = (cut){&design->legs[i], piece, count, -1,
                                    piece->length_m + allowance(piece), NAN};
            count++;
        }
    return count;
}

bool bys_sheet_cuts(bys_sheet *out, const bys_design *design)
{
    const int count = list_cuts(NULL, design);
    bool ok = bys_sheet_make(out, columns, COLUMNS, count);
    out->name = "Cut list";
    out->note = "Made-up length: bearing point to bearing point, unloaded, new. Allowances (eye "
                "splice 30 diameters, knot 40, each end), coils of 220 m and shots of 27.5 m: "
                "common practice, from memory. Make one up and measure it before you cut the rest. "
                "Legs only: backbones and head ropes are not in this list.";
    const size_t room = (size_t)count + 1;
    cut *cuts = ok ? bys_arena_get(out->arena, room * sizeof *cuts) : NULL;
    double *left = cuts ? bys_arena_get(out->arena, room * sizeof *left) : NULL;
    if (!left)
        return false;
    list_cuts(cuts, design);
    share_out(cuts, count, left);
    for (int i = 0; i < count && ok; i++)
        ok = put_row(out, &cuts[i]);
    return ok;
}
