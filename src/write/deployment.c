// SPDX-License-Identifier: GPL-3.0-or-later
// The order of laying: one row an anchor, with where it goes and what it is pulled to.
//
// GIVEN     anchors, their marks, governing loads, pretensions of their legs, environments
// RETURNED  rows in the order of laying
// NOTES     1. Order: line by line as in the site file; within a line the anchor that lies furthest
//              up the strongest current first (of equal currents the first in the list of cases).
//           2. Heading: the way in which the legs pull the anchor, grid or true as the site says.
//           3. A design knows no tides of a day. What it knows of the tide window are the tensions
//              at rest at the lowest and at the highest level, both for the first crop stage.
//           4. Test pull: as in the list of proof loads (proof_rows.h).
// SOURCE    1: practice, refs page on the trade [memory].
#include "write/sheets.h"

#include "write/marks.h"
#include "write/proof_rows.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { ORDER, ANCHOR, NAME, LEGS, KIND, PART, LIFT, HEADING, DROP, DROP_X, DROP_Y, DROP_LAT,
       DROP_LON, BACK, X, Y, LAT, LON, DEPTH, LOW, HIGH, SET_AT, PROOF, COLUMNS };

static const bys_sheet_column columns[COLUMNS] = {
    [ORDER] = {"order", "Order", "", 0},
    [ANCHOR] = {"anchor", "Anchor", "", 0},
    [NAME] = {"name", "Waypoint", "", 0},
    [LEGS] = {"legs", "Legs", "", 0},
    [KIND] = {"kind", "Kind", "", 0},
    [PART] = {"part", "Part", "", 0},
    [LIFT] = {"lift_kg", "Mass in air", "kg", 0},
    [HEADING] = {"heading_deg", "Pulled towards", "deg", 0},
    [DROP] = {"drop_name", "Drop waypoint", "", 0},
    [DROP_X] = {"drop_x_m", "Drop x", "m", 2},
    [DROP_Y] = {"drop_y_m", "Drop y", "m", 2},
    [DROP_LAT] = {"drop_lat_deg", "Drop latitude", "deg", 7},
    [DROP_LON] = {"drop_lon_deg", "Drop longitude", "deg", 7},
    [BACK] = {"setback_m", "Hauled in by", "m", 1},
    [X] = {"x_m", "Final x", "m", 2},
    [Y] = {"y_m", "Final y", "m", 2},
    [LAT] = {"lat_deg", "Final latitude", "deg", 7},
    [LON] = {"lon_deg", "Final longitude", "deg", 7},
    [DEPTH] = {"depth_m", "Depth below datum", "m", 1},
    [LOW] = {"pretension_low_kN", "At rest, lowest level", "kN", 1},
    [HIGH] = {"pretension_high_kN", "At rest, highest level", "kN", 1},
    [SET_AT] = {"pretension_from", "Tension follows from", "", 0},
    [PROOF] = {"proof_load_kN", "Pull to", "kN", 1},
};

typedef struct {
    int anchor, line; ///< line: its first leg's, by the first leg that the line has
    double up;        ///< along the strongest current, m
} place;

static int first_leg_of_line(const bys_design *design, const char *line)
{
    for (int i = 0; i < design->leg_count; i++)
        if (!strcmp(design->legs[i].line, line))
            return i;
    return design->leg_count;
}

const bys_environment_row *bys_sheet_current(const bys_design *design)
{
    const bys_environment_row *most = NULL;
    for (int i = 0; i < design->environment_count; i++) {
        const bys_environment_row *row = &design->environments[i];
        if (row->current_m_s > (most ? most->current_m_s : 0.0))
            most = row;
    }
    return most;
}

static int by_line_and_current(const void *a, const void *b)
{
    const place *p = a, *q = b;
    if (p->line != q->line)
        return p->line - q->line;
    if (p->up != q->up)
        return p->up < q->up ? -1 : 1;
    return p->anchor - q->anchor;
}

static void put_order(place *places, const bys_design *design)
{
    const bys_environment_row *current = bys_sheet_current(design);
    for (int i = 0; i < design->anchor_count; i++) {
        const bys_anchor_result *a = &design->anchors[i];
        const double towards = current ? current->current_towards_rad : 0.0;
        places[i].anchor = i;
        places[i].line = a->leg_count > 0
                             ? first_leg_of_line(design, design->legs[a->legs[0]].line)
                             : design->leg_count;
        places[i].up = current ? a->x_m * sin(towards) + a->y_m * cos(towards) : 0.0;
    }
    qsort(places, (size_t)design->anchor_count, sizeof *places, by_line_and_current);
}

/// "L01/N" or "R1/N, R2/S".
static const char *leg_names(bys_arena *arena, const bys_design *design,
                             const bys_anchor_result *anchor)
{
    const char *names = "";
    for (int i = 0; names && i < anchor->leg_count; i++)
        names = bys_arena_format(arena, "%s%s%s", names, i ? ", " : "",
                                 design->legs[anchor->legs[i]].id);
    return names;
}

static const char *copy(bys_arena *arena, const char *text)
{
    const char *own = bys_arena_copy(arena, text);
    return own ? own : "";
}

static void put_places(bys_cell *row, bys_arena *arena, const bys_marks *marks, int anchor)
{
    const bys_mark *drop = bys_marks_anchor(marks, anchor, true);
    const bys_mark *last = bys_marks_anchor(marks, anchor, false);
    row[NAME] = bys_sheet_text(copy(arena, last->name));
    row[X] = bys_sheet_number(last->x_m);
    row[Y] = bys_sheet_number(last->y_m);
    row[LAT] = bys_sheet_number(last->lat_deg);
    row[LON] = bys_sheet_number(last->lon_deg);
    row[DEPTH] = bys_sheet_number(last->depth_m);
    row[DROP] = bys_sheet_text(copy(arena, drop->name));
    row[DROP_X] = bys_sheet_number(drop->x_m);
    row[DROP_Y] = bys_sheet_number(drop->y_m);
    row[DROP_LAT] = bys_sheet_number(drop->lat_deg);
    row[DROP_LON] = bys_sheet_number(drop->lon_deg);
}

/// As in the list of proof loads; NAN where that has none.
static double proof_load(const bys_design *design, int anchor)
{
    bys_proof_row row;
    bys_proof_row_make(&row, design, anchor);
    return row.pull_N / 1000.0;
}

static bool put_row(bys_sheet *sheet, const bys_design *design, const bys_marks *marks, int number,
                    int anchor)
{
    bys_cell *row = &sheet->cells[number * COLUMNS];
    const bys_anchor_result *a = &design->anchors[anchor];
    const char *legs = leg_names(sheet->arena, design, a);
    row[ORDER] = bys_sheet_number(number + 1);
    row[ANCHOR] = bys_sheet_text(a->id);
    row[LEGS] = bys_sheet_text(legs ? legs : "");
    row[KIND] = bys_sheet_text(a->kind);
    row[PART] = bys_sheet_text(a->part);
    row[LIFT] = bys_sheet_number(a->mass_kg > 0.0 ? a->mass_kg : NAN);
    row[HEADING] = bys_sheet_number(bys_compass_degrees(a->heading_rad));
    row[BACK] = bys_sheet_number(a->setback_m);
    put_places(row, sheet->arena, marks, anchor);
    row[LOW] = row[HIGH] = bys_sheet_number(NAN);
    if (a->leg_count > 0) {
        const bys_leg_result *leg = &design->legs[a->legs[0]];
        row[LOW] = bys_sheet_number(leg->pretension_N / 1000.0);
        row[HIGH] = bys_sheet_number(leg->pretension_high_N / 1000.0);
        row[SET_AT] = bys_sheet_text(leg->pretension_from);
    }
    row[PROOF] = bys_sheet_number(proof_load(design, anchor));
    return legs != NULL;
}

bool bys_sheet_deployment(bys_sheet *out, const bys_design *design)
{
    bys_marks marks = {NULL, 0};
    bool ok = bys_sheet_make(out, columns, COLUMNS, design->anchor_count);
    out->name = "Deployment";
    out->note = "Order: line by line, within a line the end furthest up the strongest current "
                "first. Work at slack water. Tensions at rest are those of the first crop stage; "
                "of an anchor with several legs, of its first leg. Pull to: as in proof-loads.txt, "
                "which says how.";
    const size_t room = (size_t)design->anchor_count + 1;
    place *places = ok ? bys_arena_get(out->arena, room * sizeof *places) : NULL;
    if (!places || !bys_marks_make(&marks, design))
        return false;
    put_order(places, design);
    for (int i = 0; i < design->anchor_count && ok; i++)
        ok = put_row(out, design, &marks, i, places[i].anchor);
    bys_marks_free(&marks);
    return ok;
}

const bys_cell *bys_sheet_cell(const bys_sheet *sheet, int row, const char *key)
{
    for (int c = 0; c < sheet->column_count; c++)
        if (!strcmp(sheet->columns[c].key, key))
            return &sheet->cells[row * sheet->column_count + c];
    return NULL;
}
