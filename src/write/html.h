// SPDX-License-Identifier: GPL-3.0-or-later
// Pieces of the HTML report. Text goes in only through bys_html_text, which escapes.
#ifndef BYS_WRITE_HTML_H
#define BYS_WRITE_HTML_H

#include "write/rows.h"

/// Adds `text` with < > & " ' escaped; bytes that are not UTF-8 become U+FFFD.
void bys_html_text(bys_text *out, const char *text);
/// <h2 id=...>, with the section open; close with bys_html_section_end.
void bys_html_section(bys_text *out, const char *id, const char *title);
void bys_html_section_end(bys_text *out);
/// <p class=...> with escaped text; class NULL = none.
void bys_html_paragraph(bys_text *out, const char *css, const char *text);
/// <ul> of escaped strings; a sentence instead if there are none.
void bys_html_list(bys_text *out, const char *const *items, int count, const char *none);

/// Heading of one column.
typedef struct {
    const char *head, *unit;
    bool number;
} bys_html_head;

/// Opens a scrolling box, a table and its head. End with bys_html_table_end.
void bys_html_table(bys_text *out, const char *label, const bys_html_head *heads, int count);
void bys_html_table_end(bys_text *out);
void bys_html_row(bys_text *out, const char *id); ///< opens a row with its heading cell
void bys_html_row_end(bys_text *out);
void bys_html_cell(bys_text *out, const char *text);
void bys_html_cell_long(bys_text *out, const char *text); ///< a sentence: gets room
void bys_html_cell_number(bys_text *out, double value, int decimals);
void bys_html_cell_use(bys_text *out, double utilisation, bys_verdict verdict);
void bys_html_cell_verdict(bys_text *out, bys_verdict verdict);
void bys_html_cell_case(bys_text *out, const bys_design *design, const char *case_id);
/// The verdict as a marked word: sign, word, colour.
void bys_html_verdict(bys_text *out, bys_verdict verdict);

/// The class of a utilisation in drawings: sign of colour and dash. 0 .. 5.
typedef enum {
    BYS_USE_LOW = 0,
    BYS_USE_MIDDLE,
    BYS_USE_HIGH,
    BYS_USE_OVER,
    BYS_USE_UNKNOWN, ///< not checked
    BYS_USE_NONE     ///< has no check of its own
} bys_use_class;
bys_use_class bys_use_class_of(double utilisation, bys_verdict verdict);
const char *bys_use_class_name(bys_use_class use); ///< CSS class
const char *bys_use_class_words(bys_use_class use);

extern const char *const bys_report_style[]; ///< pieces of the style sheet; ends with NULL

void bys_report_plan(bys_text *out, const bys_design *design);
void bys_report_directions(bys_text *out, const bys_design *design);
void bys_report_legs(bys_text *out, const bys_design *design);
void bys_report_drag(bys_text *out, const bys_design *design);
void bys_report_accounts(bys_text *out, const bys_design *design);
void bys_report_order(bys_text *out, const bys_design *design);
void bys_report_anchors(bys_text *out, const bys_design *design);
void bys_report_capacity(bys_text *out, const bys_design *design);
void bys_report_findings(bys_text *out, const bys_design *design);
void bys_report_environments(bys_text *out, const bys_design *design);
void bys_report_cases(bys_text *out, const bys_design *design);
void bys_report_rules(bys_text *out, const bys_design *design);
void bys_report_inputs(bys_text *out, const bys_design *design);

#endif
