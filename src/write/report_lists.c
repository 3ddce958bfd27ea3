// SPDX-License-Identifier: GPL-3.0-or-later
// Findings, cases, rules and inputs of the report.
#include "write/html.h"

#include <math.h>
#include <string.h>

// ---- findings ----------------------------------------------------------------------------------

static void add_finding(bys_text *out, const bys_design *design, const bys_finding *finding)
{
    bys_html_row(out, finding->item);
    bys_html_cell(out, finding->kind);
    bys_html_cell_verdict(out, finding->verdict);
    bys_html_cell_number(out, finding->value, 2);
    bys_html_cell_number(out, finding->limit, 2);
    bys_html_cell(out, finding->unit);
    bys_html_cell_long(out, finding->text);
    bys_html_cell_case(out, design, finding->case_id);
    bys_html_cell(out, bys_basis_name(finding->basis));
    bys_html_row_end(out);
}

void bys_report_findings(bys_text *out, const bys_design *design)
{
    static const bys_html_head heads[] = {
        {"Item", "", false}, {"What", "", false}, {"Verdict", "", false}, {"Found", "", true},
        {"Limit", "", true}, {"Unit", "", false}, {"In words", "", false}, {"Case", "", false},
        {"Basis", "", false}};
    bys_html_section(out, "findings", "Other findings");
    if (design->finding_count == 0) {
        bys_html_paragraph(out, "quiet", "None.");
    } else {
        bys_html_paragraph(out, NULL,
                           "Floats, clearances, lease, excursion and damage. \"Reported\" means "
                           "that the rules do not demand it: it is shown and does not count in the "
                           "verdict.");
        bys_html_table(out, "Findings", heads, 9);
        for (int i = 0; i < design->finding_count; i++)
            add_finding(out, design, &design->findings[i]);
        bys_html_table_end(out);
    }
    bys_html_section_end(out);
}

// ---- cases -------------------------------------------------------------------------------------

static const bys_case_result *find_case(const bys_design *design, const char *id)
{
    for (int i = 0; *id && i < design->case_count; i++)
        if (!strcmp(design->cases[i].id, id))
            return &design->cases[i];
    return NULL;
}

static bool governs(const bys_design *design, const char *id)
{
    for (int i = 0; i < design->leg_count; i++)
        if (!strcmp(design->legs[i].strength.case_id, id) ||
            !strcmp(design->legs[i].anchor.check.case_id, id))
            return true;
    return false;
}

static void add_governed(bys_text *out, const bys_design *design, const char *id, bool anchors)
{
    int shown = 0;
    bys_text_add(out, "<td class=\"c\">");
    for (int i = 0; i < design->leg_count; i++) {
        const bys_leg_result *leg = &design->legs[i];
        if (strcmp(anchors ? leg->anchor.check.case_id : leg->strength.case_id, id) != 0)
            continue;
        bys_text_add(out, shown++ ? ", " : "");
        bys_html_text(out, leg->id);
    }
    bys_text_add(out, shown ? "</td>" : "\xE2\x80\x93</td>");
}

static void add_governing_row(bys_text *out, const bys_design *design, const bys_case_result *row)
{
    bys_text words = {0};
    bys_case_words(&words, design, row->id);
    bys_html_row(out, words.data ? words.data : "");
    bys_text_free(&words);
    add_governed(out, design, row->id, false);
    add_governed(out, design, row->id, true);
    bys_html_cell_number(out, row->largest_N / 1000.0, 1);
    bys_html_cell(out, row->largest_leg);
    bys_html_cell(out, row->analysis);
    bys_html_cell_number(out, row->residual_N, 4);
    bys_text_add(out, "<td class=\"c\"><code>");
    bys_html_text(out, row->id);
    bys_text_add(out, "</code></td>");
    bys_html_row_end(out);
}

static void add_governing(bys_text *out, const bys_design *design)
{
    static const bys_html_head heads[] = {
        {"Case", "", false}, {"Governs the line of", "", false},
        {"Governs the anchor of", "", false}, {"Largest tension", "kN", true},
        {"in leg", "", false}, {"Analysis", "", false}, {"Force left over", "N", true},
        {"Id for a single solve", "", false}};
    bys_text_add(out, "<h3>Cases that govern</h3>\n");
    bys_html_table(out, "Cases that govern", heads, 8);
    for (int i = 0; i < design->case_count; i++)
        if (governs(design, design->cases[i].id) && find_case(design, design->cases[i].id))
            add_governing_row(out, design, &design->cases[i]);
    bys_html_table_end(out);
}

static void add_counts(bys_text *out, const bys_design *design)
{
    static const bys_html_head heads[] = {{"Status", "", false}, {"Demanded cases", "", true},
                                          {"Reported cases", "", true}};
    bys_html_table(out, "Cases by status", heads, 3);
    for (int status = BYS_STABLE; status <= BYS_CANNOT_STAND; status++) {
        int counts[2] = {0, 0};
        for (int i = 0; i < design->case_count; i++)
            if ((int)design->cases[i].status == status)
                counts[design->cases[i].demanded ? 0 : 1]++;
        for (int i = 0; status == BYS_STABLE && i < design->kind_count; i++)
            counts[1] += design->kinds[i].stable; // only those that are not stable have rows
        bys_html_row(out, bys_status_name((bys_status)status));
        bys_html_cell_number(out, counts[0], 0);
        bys_html_cell_number(out, counts[1], 0);
        bys_html_row_end(out);
    }
    bys_html_table_end(out);
}

static void add_unsettled_row(bys_text *out, const bys_design *design, const bys_case_result *row)
{
    bys_text words = {0};
    bys_case_words(&words, design, row->id);
    bys_html_row(out, words.data ? words.data : "");
    bys_text_free(&words);
    bys_html_cell(out, bys_status_name(row->status));
    bys_html_cell(out, row->demanded ? "demanded" : "reported");
    bys_html_cell_long(out, row->reason);
    bys_html_row_end(out);
}

static void add_unsettled(bys_text *out, const bys_design *design)
{
    static const bys_html_head heads[] = {{"Case", "", false}, {"Status", "", false},
                                          {"", "", false}, {"Reason", "", false}};
    enum { MOST = 60 };
    int count = 0;
    for (int i = 0; i < design->case_count; i++) {
        if (design->cases[i].status == BYS_STABLE || ++count > MOST)
            continue;
        if (count == 1) {
            bys_text_add(out, "<h3>Cases that did not come to rest</h3>\n");
            bys_html_table(out, "Cases that did not come to rest", heads, 4);
        }
        add_unsettled_row(out, design, &design->cases[i]);
    }
    if (count)
        bys_html_table_end(out);
    if (count > MOST)
        bys_text_addf(out, "<p class=\"quiet\">%d more are in legs.json.</p>\n", count - MOST);
}

void bys_report_cases(bys_text *out, const bys_design *design)
{
    bys_html_section(out, "cases", "Cases");
    bys_text text = {0};
    bys_text_addf(&text, "%d cases, %d stable, from %d solves in %d directions. The audit computes "
                         "all forces anew by separate code: the largest force left over at any "
                         "point of any stable case is ",
                  design->case_total, design->case_stable, design->solve_count,
                  design->direction_count);
    bys_number_add(&text, design->worst_residual_N, 4);
    bys_text_add(&text, " N, and the sum of all forces is at most ");
    if (isfinite(design->worst_sum_share))
        bys_text_addf(&text, "%.1e", design->worst_sum_share);
    else
        bys_text_add(&text, "an unknown share");
    bys_text_add(&text, " of the load applied.");
    bys_html_paragraph(out, NULL, text.data ? text.data : "");
    out->failed = out->failed || text.failed;
    bys_text_free(&text);
    add_counts(out, design);
    add_governing(out, design);
    add_unsettled(out, design);
    bys_html_section_end(out);
}

// ---- rules and inputs --------------------------------------------------------------------------

void bys_report_rules(bys_text *out, const bys_design *design)
{
    static const bys_html_head heads[] = {{"Factor or limit", "", false}, {"Value", "", true},
                                          {"Clause", "", false}, {"Source", "", false},
                                          {"Basis", "", false}, {"Because", "", false}};
    bys_html_section(out, "rules", "Rules and factors");
    bys_text text = {0};
    if (*design->profile)
        bys_text_addf(&text, "Profile %s: %s. Written for: %s.", design->profile,
                      design->profile_title, design->written_for);
    else
        bys_text_add(&text, "The site names no rule profile.");
    bys_html_paragraph(out, NULL, text.data ? text.data : "");
    bys_text_free(&text);
    bys_html_paragraph(out, NULL,
                       "Basis: read = seen in the named source; memory = remembered from it, "
                       "not verified; user = stated in the site file with a reason; test = from "
                       "the user's own test; assumed = no source.");
    bys_html_table(out, "Factors", heads, 6);
    for (int i = 0; i < design->factor_count; i++) {
        const bys_factor_row *row = &design->factors[i];
        bys_html_row(out, row->name);
        bys_text_add(out, "<td class=\"n\">");
        bys_html_text(out, row->value);
        bys_text_add(out, "</td>");
        bys_html_cell(out, row->clause);
        bys_html_cell(out, row->source);
        bys_html_cell(out, bys_basis_name(row->basis));
        bys_html_cell(out, row->because);
        bys_html_row_end(out);
    }
    bys_html_table_end(out);
    bys_html_section_end(out);
}

static void add_levels(bys_text *out, const bys_design *design)
{
    bys_text text = {0};
    for (int i = 0; i < design->level_count; i++) {
        bys_text_addf(&text, "%s%s ", i ? ", " : "Water levels above chart datum: ",
                      design->levels[i].id);
        bys_text_add_double(&text, design->levels[i].value);
        bys_text_add(&text, " m");
    }
    if (design->level_count) {
        bys_text_add(&text, ". Bed at the anchors: ");
        bys_number_add(&text, design->bed_depth_min_m, 1);
        bys_text_add(&text, " to ");
        bys_number_add(&text, design->bed_depth_max_m, 1);
        bys_text_add(&text, " m below chart datum.");
        bys_html_paragraph(out, NULL, text.data ? text.data : "");
    }
    out->failed = out->failed || text.failed;
    bys_text_free(&text);
}

void bys_report_inputs(bys_text *out, const bys_design *design)
{
    static const bys_html_head heads[] = {{"Item", "", false}, {"As written", "", false},
                                          {"Line", "", true}};
    bys_html_section(out, "inputs", "What went in");
    bys_text_add(out, "<p>File <code>");
    bys_html_text(out, design->file);
    bys_text_add(out, "</code>, SHA-256 <code>");
    bys_html_text(out, design->sha256);
    bys_text_add(out, "</code></p>\n");
    add_levels(out, design);
    bys_html_table(out, "Inputs", heads, 3);
    for (int i = 0; i < design->input_count; i++) {
        bys_html_row(out, design->inputs[i].path);
        bys_html_cell(out, design->inputs[i].text);
        bys_html_cell_number(out, design->inputs[i].line, 0);
        bys_html_row_end(out);
    }
    bys_html_table_end(out);
    bys_html_section_end(out);
}
