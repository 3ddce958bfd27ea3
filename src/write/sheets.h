// SPDX-License-Identifier: GPL-3.0-or-later
// Sheets for the yard and the boat as plain tables. CSV, page and workbook take their cells from
// the same sheet, so that they cannot disagree.
#ifndef BYS_WRITE_SHEETS_H
#define BYS_WRITE_SHEETS_H

#include "base/arena.h"
#include "write/rows.h"

typedef struct {
    const char *key;  ///< with its unit: "cut_m"
    const char *head; ///< for people
    const char *unit; ///< "" if none
    int decimals;     ///< for people
} bys_sheet_column;

typedef struct {
    const char *name, *note; ///< note: what the rows rest on, for people
    const bys_sheet_column *columns;
    int column_count;
    bys_cell *cells; ///< row after row
    int row_count;
    bys_arena *arena; ///< owns cells and made-up texts; other texts are the design's
} bys_sheet;

/// Each: false when out of memory. Free with bys_sheet_free in every case.
bool bys_sheet_cuts(bys_sheet *out, const bys_design *design);
bool bys_sheet_deployment(bys_sheet *out, const bys_design *design);
void bys_sheet_free(bys_sheet *sheet);

/// Room for `rows` rows, filled with nothing.
bool bys_sheet_make(bys_sheet *out, const bys_sheet_column *columns, int column_count, int rows);
bys_cell bys_sheet_number(double value);
bys_cell bys_sheet_text(const char *text);

/// The strongest current of the cases, the first of equal ones; NULL if there is none.
const bys_environment_row *bys_sheet_current(const bys_design *design);
/// Cell of a row by the key of its column; NULL if there is none.
const bys_cell *bys_sheet_cell(const bys_sheet *sheet, int row, const char *key);

/// One field of a CSV file, guarded against being run as a formula.
void bys_csv_cell(bys_text *out, const bys_cell *cell);
/// Header row with keys, then the rows.
void bys_sheet_csv(bys_text *out, const bys_sheet *sheet);

#endif
