// SPDX-License-Identifier: GPL-3.0-or-later
// Conditions beyond intact and lost legs: the worst of each kind, for terminal, report and JSON.
#include "write/conditions.h"
#include "write/layout.h"

#include <math.h>

static void add_words(bys_text *out, const char *case_id, const bys_design *design)
{
    bys_text words = {0};
    bys_case_words(&words, design, case_id);
    bys_text_add(out, words.data ? words.data : case_id);
    out->failed = out->failed || words.failed;
    bys_text_free(&words);
}

static void add_kind(bys_text *out, const bys_design *design, const bys_kind_result *kind)
{
    bys_text_addf(out, "%s: ", kind->kind);
    if (*kind->leg) {
        bys_text_addf(out, "%s takes ", kind->leg);
        bys_number_add(out, kind->tension_N / 1000.0, 1);
        bys_text_add(out, " kN");
        if (kind->intact_N > 0.0) {
            bys_text_add(out, " (intact ");
            bys_number_add(out, kind->intact_N / 1000.0, 1);
            bys_text_add(out, " kN)");
        }
        bys_text_add(out, ", ");
        add_words(out, kind->case_id, design);
        bys_text_add(out, "; ");
    }
    bys_text_addf(out, "%d of %d cases stable", kind->stable, kind->cases);
}

void bys_conditions_text(bys_text *out, const bys_design *design, int width)
{
    for (int i = 0; i < design->kind_count; i++) {
        bys_text line = {0};
        add_kind(&line, design, &design->kinds[i]);
        bys_layout_wrap(out, line.data ? line.data : "", width, "  ", "    ");
        out->failed = out->failed || line.failed;
        bys_text_free(&line);
    }
}

void bys_report_conditions(bys_text *out, const bys_design *design)
{
    static const bys_html_head heads[] = {
        {"Kind of condition", "", false}, {"Cases", "", true},       {"Stable", "", true},
        {"Largest tension", "kN", true},  {"in leg", "", false},     {"Intact", "kN", true},
        {"Case", "", false},              {"Id for a single solve", "", false}};
    if (design->kind_count == 0)
        return;
    bys_html_section(out, "conditions", "Other conditions");
    bys_html_paragraph(out, NULL,
                       "Reported; the rules do not demand them, so that they decide nothing. "
                       "Tensions hold until a line that moves touches something.");
    bys_html_table(out, "Worst of each kind of condition", heads, 8);
    for (int i = 0; i < design->kind_count; i++) {
        const bys_kind_result *kind = &design->kinds[i];
        bys_html_row(out, kind->kind);
        bys_html_cell_number(out, kind->cases, 0);
        bys_html_cell_number(out, kind->stable, 0);
        bys_html_cell_number(out, kind->tension_N / 1000.0, 1);
        bys_html_cell(out, kind->leg);
        bys_html_cell_number(out, kind->intact_N / 1000.0, 1);
        bys_html_cell_case(out, design, kind->case_id);
        bys_html_cell(out, kind->case_id);
        bys_html_row_end(out);
    }
    bys_html_table_end(out);
    bys_html_section_end(out);
}

void bys_reported_json(bys_json *json, const bys_leg_result *leg)
{
    for (int i = 0; i < leg->reported_count; i++) {
        const bys_reported_row *row = &leg->reported[i];
        bys_json_open(json, row->kind, '{', true);
        bys_json_string(json, "case", row->case_id);
        bys_json_string(json, "condition", row->condition);
        bys_json_number(json, "tension_kN", row->tension_N / 1000.0);
        bys_json_close(json, '}');
    }
}

void bys_conditions_json(bys_json *json, const bys_design *design)
{
    if (design->kind_count == 0)
        return;
    bys_json_open(json, "conditions", '[', false);
    for (int i = 0; i < design->kind_count; i++) {
        const bys_kind_result *kind = &design->kinds[i];
        bys_json_open(json, NULL, '{', true);
        bys_json_string(json, "kind", kind->kind);
        bys_json_integer(json, "cases", kind->cases);
        bys_json_integer(json, "stable", kind->stable);
        bys_json_string(json, "leg", kind->leg);
        bys_json_string(json, "case", kind->case_id);
        bys_json_string(json, "condition", kind->condition);
        bys_json_number(json, "tension_kN", kind->tension_N / 1000.0);
        bys_json_number(json, "intact_kN", kind->intact_N / 1000.0);
        bys_json_close(json, '}');
    }
    bys_json_close(json, ']');
}
