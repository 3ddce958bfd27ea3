// SPDX-License-Identifier: GPL-3.0-or-later
// Leg table as CSV (RFC 4180 quoting, LF line ends).
#include "write/sheets.h"

#include <byssus/write.h>

#include <math.h>
#include <string.h>

static void add_header(bys_text *out, const bys_column *column)
{
    for (const char *c = column->group; *c; c++)
        bys_text_add_bytes(out, *c == '.' ? "_" : c, 1);
    bys_text_addf(out, "%s%s", *column->group ? "_" : "", column->key);
}

// A leading = + - @ would be run as a formula by a spreadsheet: an apostrophe makes it text.
void bys_csv_field_add(bys_text *out, const char *text)
{
    bool guard = *text && strchr("=+-@\t\r", *text);
    bool quote = guard || strpbrk(text, ",\"\r\n");
    if (!quote) {
        bys_text_add(out, text);
        return;
    }
    bys_text_add(out, guard ? "\"'" : "\"");
    for (; *text; text++)
        bys_text_add_bytes(out, *text == '"' ? "\"\"" : text, *text == '"' ? 2 : 1);
    bys_text_add(out, "\"");
}

void bys_csv_cell(bys_text *out, const bys_cell *cell)
{
    if (cell->kind == BYS_CELL_TEXT)
        bys_csv_field_add(out, cell->text);
    else if (cell->kind == BYS_CELL_VERDICT)
        bys_text_add(out, bys_verdict_name(cell->verdict));
    else if (isfinite(cell->number))
        bys_text_add_double(out, cell->number);
}

void bys_write_legs_csv(bys_text *out, const bys_design *design)
{
    for (int c = 0; c < bys_column_count; c++) {
        bys_text_add(out, c ? "," : "");
        add_header(out, &bys_columns[c]);
    }
    bys_text_add(out, "\n");
    for (int i = 0; i < design->leg_count; i++) {
        for (int c = 0; c < bys_column_count; c++) {
            bys_cell cell = bys_columns[c].get(design, &design->legs[i]);
            bys_text_add(out, c ? "," : "");
            bys_csv_cell(out, &cell);
        }
        bys_text_add(out, "\n");
    }
}
