// SPDX-License-Identifier: GPL-3.0-or-later
// What each rule profile asks of the same leg.
#include "write/profiles.h"

#include "write/html.h"
#include "write/layout.h"

#include <math.h>
#include <string.h>

static double needed(const bys_strength *check)
{
    return check->design_N * check->resistance_factor;
}

static double asks(const bys_strength *check)
{
    return check->load_factor * check->resistance_factor;
}

static const char *state(const bys_strength *check)
{
    return strncmp(check->condition, "lost", 4) == 0 ? "lost" : check->condition;
}

// ---- terminal ------------------------------------------------------------------------------

enum { NAME = 22, STATE = 7, COLUMN = 8 };

static void add_number(bys_text *out, double value, int decimals, int width)
{
    bys_text cell = {0};
    bys_number_add(&cell, value, decimals);
    bys_layout_cell(out, cell.data ? cell.data : "", width, true);
    out->failed = out->failed || cell.failed;
    bys_text_free(&cell);
}

static void add_line(bys_text *out, const bys_profile_row *row, const bys_strength *check)
{
    bys_text_add(out, "  ");
    bys_layout_cell(out, row->id, NAME, false);
    bys_layout_cell(out, state(check), STATE, false);
    add_number(out, check->characteristic_N / 1000.0, 1, COLUMN);
    add_number(out, asks(check), 2, COLUMN - 1);
    add_number(out, needed(check) / 1000.0, 1, COLUMN);
    add_number(out, check->capacity_N / 1000.0, 1, COLUMN);
    add_number(out, check->utilisation, 2, COLUMN - 2);
    bys_text_addf(out, "  %s\n", bys_verdict_name(check->verdict));
}

static void add_head(bys_text *out, const char *what, const char *load)
{
    bys_text_addf(out, "  ");
    bys_layout_cell(out, what, NAME, false);
    bys_layout_cell(out, "state", STATE, false);
    bys_layout_cell(out, load, COLUMN, true);
    bys_layout_cell(out, "x", COLUMN - 1, true);
    bys_layout_cell(out, "needs", COLUMN, true);
    bys_layout_cell(out, "has", COLUMN, true);
    bys_layout_cell(out, "use", COLUMN - 2, true);
    bys_text_add(out, "\n");
}

static void add_note(bys_text *out, const bys_profile_row *row, int width)
{
    bys_text note = {0};
    bys_text_addf(&note, "%s: %s; %d directions; one leg lost is %s.%s%s%s", row->id,
                  row->combinations, row->directions, row->lost_demanded ? "demanded" : "reported",
                  row->outside ? " Shellfish gear lies outside its scope." : "",
                  *row->why ? " " : "", row->why);
    bys_layout_wrap(out, note.data ? note.data : "", width, "  ", "    ");
    out->failed = out->failed || note.failed;
    bys_text_free(&note);
}

void bys_profiles_text(bys_text *out, const bys_design *design, int width)
{
    if (design->profile_count == 0)
        return;
    bys_text_addf(out,
                  "\nWhat each rule profile asks of %s (kN; x: load times resistance factor)\n",
                  design->profiles_leg);
    add_head(out, "line", "tension");
    for (int i = 0; i < design->profile_count; i++)
        add_line(out, &design->profiles[i], &design->profiles[i].line);
    add_head(out, "anchor", "pull");
    for (int i = 0; i < design->profile_count; i++)
        add_line(out, &design->profiles[i], &design->profiles[i].anchor);
    for (int i = 0; i < design->profile_count; i++)
        add_note(out, &design->profiles[i], width);
}

// ---- JSON ----------------------------------------------------------------------------------

static void add_check(bys_json *json, const char *key, const bys_strength *check)
{
    bys_json_open(json, key, '{', true);
    bys_json_string(json, "case", check->case_id);
    bys_json_string(json, "condition", check->condition);
    bys_json_string(json, "item", check->item);
    bys_json_string(json, "component", check->component);
    bys_json_number(json, "characteristic_kN", check->characteristic_N / 1000.0);
    bys_json_number(json, "load_factor", check->load_factor);
    bys_json_number(json, "resistance_factor", check->resistance_factor);
    bys_json_number(json, "needed_kN", needed(check) / 1000.0);
    bys_json_number(json, "capacity_kN", check->capacity_N / 1000.0);
    bys_json_number(json, "utilisation", check->utilisation);
    bys_json_string(json, "verdict", bys_verdict_name(check->verdict));
    bys_json_string(json, "basis", bys_basis_name(check->basis));
    bys_json_string(json, "why", check->why);
    bys_json_close(json, '}');
}

static void add_row(bys_json *json, const bys_profile_row *row)
{
    bys_json_open(json, NULL, '{', false);
    bys_json_string(json, "profile", row->id);
    bys_json_string(json, "title", row->title);
    bys_json_string(json, "written_for", row->written_for);
    bys_json_boolean(json, "own", row->own);
    bys_json_boolean(json, "covers_shellfish", !row->outside);
    bys_json_string(json, "combinations", row->combinations);
    bys_json_integer(json, "directions", row->directions);
    bys_json_boolean(json, "lost_leg_demanded", row->lost_demanded);
    bys_json_boolean(json, "solved", row->solved);
    bys_json_string(json, "verdict", row->verdict);
    bys_json_boolean(json, "incomplete", row->incomplete);
    bys_json_integer(json, "unverified_checks", row->unverified_checks);
    bys_json_string(json, "why", row->why);
    add_check(json, "line", &row->line);
    add_check(json, "anchor", &row->anchor);
    bys_json_close(json, '}');
}

void bys_profiles_json(bys_json *json, const bys_design *design)
{
    if (design->profile_count == 0)
        return;
    bys_json_open(json, "profiles", '{', false);
    bys_json_string(json, "leg", design->profiles_leg);
    bys_json_open(json, "rows", '[', false);
    for (int i = 0; i < design->profile_count; i++)
        add_row(json, &design->profiles[i]);
    bys_json_close(json, ']');
    bys_json_close(json, '}');
}

// ---- report --------------------------------------------------------------------------------

static void add_cells(bys_text *out, const char *what, const bys_profile_row *row,
                      const bys_strength *check)
{
    bys_html_row(out, row->id);
    bys_html_cell(out, what);
    bys_html_cell(out, state(check));
    bys_html_cell_number(out, check->characteristic_N / 1000.0, 1);
    bys_html_cell_number(out, check->load_factor, 2);
    bys_html_cell_number(out, check->resistance_factor, 2);
    bys_html_cell_number(out, needed(check) / 1000.0, 1);
    bys_html_cell_number(out, check->capacity_N / 1000.0, 1);
    bys_html_cell_use(out, check->utilisation, check->verdict);
    bys_html_cell_verdict(out, check->verdict);
    bys_html_cell(out, bys_basis_name(check->basis));
    bys_html_cell_long(out, *check->why ? check->why : row->why);
    bys_html_row_end(out);
}

void bys_profiles_html(bys_text *out, const bys_design *design)
{
    static const bys_html_head heads[] = {
        {"Profile", "", false},     {"Check", "", false},         {"State", "", false},
        {"Load", "kN", true},       {"Load factor", "", true},    {"Resistance factor", "", true},
        {"Needs", "kN", true},      {"Has", "kN", true},          {"Use", "", true},
        {"Verdict", "", false},     {"Basis", "", false},         {"Why", "", false}};
    if (design->profile_count == 0)
        return;
    bys_html_section(out, "profiles", "Rule profiles side by side");
    bys_text intro = {0};
    bys_text_addf(&intro, "What each profile asks of leg %s, each by its own loads, conditions and "
                  "factors. Only the site's own rules count in the verdict.", design->profiles_leg);
    bys_html_paragraph(out, NULL, intro.data ? intro.data : "");
    out->failed = out->failed || intro.failed;
    bys_text_free(&intro);
    bys_html_table(out, "Rule profiles", heads, 12);
    for (int i = 0; i < design->profile_count; i++) {
        add_cells(out, "line", &design->profiles[i], &design->profiles[i].line);
        add_cells(out, "anchor", &design->profiles[i], &design->profiles[i].anchor);
    }
    bys_html_table_end(out);
    bys_text_add(out, "<ul>\n");
    for (int i = 0; i < design->profile_count; i++) {
        const bys_profile_row *row = &design->profiles[i];
        bys_text_add(out, "<li>");
        bys_html_text(out, row->id);
        bys_text_add(out, ": ");
        bys_html_text(out, row->combinations);
        bys_text_addf(out, "; %d directions; one leg lost is %s. Written for ", row->directions,
                      row->lost_demanded ? "demanded" : "reported");
        bys_html_text(out, row->written_for);
        bys_text_add(out, row->outside ? "; shellfish gear lies outside its scope. " : ". ");
        bys_html_text(out, row->why);
        bys_text_add(out, "</li>\n");
    }
    bys_text_add(out, "</ul>\n");
    bys_html_section_end(out);
}
