// SPDX-License-Identifier: GPL-3.0-or-later
// Tables in memory, and as CSV.
#include "write/sheets.h"

#include <byssus/write.h>

#include <math.h>

bys_cell bys_sheet_number(double value)
{
    return (bys_cell){BYS_CELL_NUMBER, "", value, BYS_PASS};
}

bys_cell bys_sheet_text(const char *text)
{
    return (bys_cell){BYS_CELL_TEXT, text, NAN, BYS_PASS};
}

bool bys_sheet_make(bys_sheet *out, const bys_sheet_column *columns, int column_count, int rows)
{
    const size_t count = (size_t)column_count * (size_t)rows;
    *out = (bys_sheet){.name = "", .note = "", .columns = columns, .column_count = column_count};
    out->arena = bys_arena_new();
    out->cells = out->arena ? bys_arena_get(out->arena, (count + 1) * sizeof *out->cells) : NULL;
    if (!out->cells)
        return false;
    for (size_t i = 0; i < count; i++)
        out->cells[i] = bys_sheet_text("");
    out->row_count = rows;
    return true;
}

void bys_sheet_free(bys_sheet *sheet)
{
    bys_arena_free(sheet->arena);
    *sheet = (bys_sheet){.name = ""};
}

void bys_sheet_csv(bys_text *out, const bys_sheet *sheet)
{
    for (int c = 0; c < sheet->column_count; c++)
        bys_text_addf(out, "%s%s", c ? "," : "", sheet->columns[c].key);
    bys_text_add(out, "\n");
    for (int i = 0; i < sheet->row_count; i++) {
        for (int c = 0; c < sheet->column_count; c++) {
            bys_text_add(out, c ? "," : "");
            bys_csv_cell(out, &sheet->cells[i * sheet->column_count + c]);
        }
        bys_text_add(out, "\n");
    }
}

void bys_write_cut_list_csv(bys_text *out, const bys_design *design)
{
    bys_sheet sheet;
    if (bys_sheet_cuts(&sheet, design))
        bys_sheet_csv(out, &sheet);
    else
        out->failed = true;
    bys_sheet_free(&sheet);
}
