// SPDX-License-Identifier: GPL-3.0-or-later
// Leg tables of the report, each a choice of columns out of the one list in rows.c.
#include "write/html.h"

#include <string.h>

typedef struct {
    const char *group, *key;
    const char *head; ///< NULL: the column's own
} choice;

static bool is_use(const char *key)
{
    return !strcmp(key, "utilisation");
}

static bool is_number(const bys_design *design, const bys_column *column)
{
    if (design->leg_count == 0)
        return false;
    return column->get(design, &design->legs[0]).kind == BYS_CELL_NUMBER;
}

static bys_verdict verdict_beside(const bys_leg_result *leg, const char *group)
{
    return !strcmp(group, "line")     ? leg->strength.verdict
           : !strcmp(group, "anchor") ? leg->anchor.check.verdict
                                      : leg->verdict;
}

static void add_cell(bys_text *out, const bys_design *design, const bys_leg_result *leg,
                     const bys_column *column)
{
    const bys_cell cell = column->get(design, leg);
    if (cell.kind == BYS_CELL_VERDICT)
        bys_html_cell_verdict(out, cell.verdict);
    else if (cell.kind == BYS_CELL_NUMBER && is_use(column->key))
        bys_html_cell_use(out, cell.number, verdict_beside(leg, column->group));
    else if (cell.kind == BYS_CELL_NUMBER)
        bys_html_cell_number(out, cell.number, column->decimals);
    else if (!strcmp(column->key, "case") || !strcmp(column->key, "governing_case"))
        bys_html_cell_case(out, design, cell.text);
    else if (!strcmp(column->key, "why"))
        bys_html_cell_long(out, cell.text);
    else
        bys_html_cell(out, cell.text);
}

static void add_table(bys_text *out, const bys_design *design, const char *label,
                      const choice *choices, int count)
{
    enum { MOST = 20 };
    bys_html_head heads[MOST];
    const bys_column *columns[MOST];
    for (int i = 0; i < count; i++) {
        columns[i] = bys_column_find(choices[i].group, choices[i].key);
        heads[i] = (bys_html_head){choices[i].head ? choices[i].head : columns[i]->head,
                                   columns[i]->unit, is_number(design, columns[i])};
    }
    bys_html_table(out, label, heads, count);
    for (int i = 0; i < design->leg_count; i++) {
        const bys_leg_result *leg = &design->legs[design->by_utilisation[i]];
        bys_html_row(out, leg->id);
        for (int c = 1; c < count; c++)
            add_cell(out, design, leg, columns[c]);
        bys_html_row_end(out);
    }
    bys_html_table_end(out);
}

#define COUNT(choices) ((int)(sizeof(choices) / sizeof(choices)[0]))

static void add_main(bys_text *out, const bys_design *design)
{
    static const choice choices[] = {
        {"", "id", NULL},          {"", "tension_kN", NULL},     {"", "tension_tf", "Same"},
        {"line", "utilisation", NULL}, {"line", "weakest", NULL}, {"anchor", "utilisation", NULL},
        {"", "verdict", NULL},     {"", "governing_case", NULL},
        {"reported.lost", "tension_kN", NULL},
    };
    bys_html_paragraph(out, NULL,
                       "Worst first. Tension is the largest in the leg before any factor. Use is "
                       "what is asked of the gear, with its factors, over what it can bear: above "
                       "1.00 it fails. The tick on each bar is 1.00.");
    add_table(out, design, "Legs, worst first", choices, COUNT(choices));
}

static void add_line(bys_text *out, const bys_design *design)
{
    static const choice choices[] = {
        {"line", "weakest", "Leg"},         {"line", "weakest", NULL},
        {"line", "component", NULL},        {"line", "characteristic_kN", "Load"},
        {"line", "load_factor", NULL},      {"line", "design_kN", "Design load"},
        {"line", "capacity_kN", "Strength"}, {"line", "resistance_factor", "Resist. factor"},
        {"line", "utilisation", "Use"},     {"line", "verdict", "Verdict"},
        {"line", "basis", NULL},            {"line", "case", NULL},
        {"line", "why", NULL},
    };
    bys_text_add(out, "<h3>Line check in full</h3>\n");
    bys_html_paragraph(out, NULL, "Use = design load x resistance factor / strength.");
    add_table(out, design, "Line checks", choices, COUNT(choices));
}

static void add_anchor(bys_text *out, const bys_design *design)
{
    static const choice choices[] = {
        {"anchor", "anchor_id", "Leg"},       {"anchor", "anchor_id", NULL},
        {"anchor", "horizontal_kN", NULL},    {"anchor", "vertical_kN", NULL},
        {"anchor", "uplift_deg", NULL},       {"anchor", "offset_deg", NULL},
        {"anchor", "grounded_m", NULL},       {"anchor", "design_kN", "Design load"},
        {"anchor", "capacity_kN", "Holds"},   {"anchor", "resistance_factor", "Resist. factor"},
        {"anchor", "utilisation", "Use"},     {"anchor", "verdict", "Verdict"},
        {"anchor", "basis", NULL},            {"anchor", "case", NULL},
        {"anchor", "why", NULL},
    };
    bys_text_add(out, "<h3>Anchor check in full</h3>\n");
    bys_html_paragraph(out, NULL,
                       "Pull along and up are at the anchor. On the bed is the length of line that "
                       "rests on the seabed. Off heading is the angle between the pull and the way "
                       "the anchor was laid.");
    add_table(out, design, "Anchor checks", choices, COUNT(choices));
}

static void add_rates(bys_text *out, const bys_design *design)
{
    static const choice choices[] = {
        {"", "id", NULL},
        {"line", "characteristic_kN", "Load"},
        {"sensitivity", "per_m_east_kN", NULL},
        {"sensitivity", "per_m_north_kN", NULL},
        {"sensitivity", "per_m_warp_kN", NULL},
        {"sensitivity", "per_10pct_current_kN", NULL},
        {"sensitivity", "case", NULL},
    };
    bys_text_add(out, "<h3>What moves the load</h3>\n");
    bys_html_paragraph(out, NULL,
                       "How the load of the line check changes with what is laid and with the "
                       "current, in the case that governs it. These are rates for small changes; "
                       "after a large one another case may govern.");
    add_table(out, design, "What moves the load", choices, COUNT(choices));
}

static void add_passage(bys_text *out, const bys_design *design)
{
    static const choice choices[] = {
        {"", "id", NULL},
        {"wave_passage", "height_m", NULL},
        {"wave_passage", "period_s", NULL},
        {"wave_passage", "mean_kN", NULL},
        {"wave_passage", "peak_kN", NULL},
        {"wave_passage", "least_kN", NULL},
        {"wave_passage", "case", NULL},
        {"wave_passage", "text", NULL},
    };
    if (!design->legs[0].passage.asked)
        return;
    bys_text_add(out, "<h3>A passing wave</h3>\n");
    bys_html_paragraph(out, NULL,
                       "A regular wave frozen at several phases, each solved as a static case with "
                       "orbital velocity, inertia and the surface at every part. The load of the "
                       "checks is the larger of its peak and the mean with wave drift, never the "
                       "sum. Dynamics and snap are left out.");
    add_table(out, design, "A passing wave", choices, COUNT(choices));
}

static void add_tolerance(bys_text *out, const bys_design *design)
{
    static const choice choices[] = {
        {"", "id", NULL},
        {"laying_tolerance", "radius_m", NULL},
        {"laying_tolerance", "limited_by", NULL},
        {"laying_tolerance", "bearing_deg", NULL},
        {"laying_tolerance", "case", NULL},
        {"laying_tolerance", "text", NULL},
    };
    if (!design->legs[0].tolerance.asked)
        return;
    bys_text_add(out, "<h3>Laying tolerance</h3>\n");
    bys_html_paragraph(out, NULL,
                       "How far from its planned place each anchor may lie, alone, with all "
                       "lengths as made: at this radius, on eight bearings, every demanded case "
                       "was solved again and passed. Only the planned heading counts for an "
                       "anchor.");
    add_table(out, design, "Laying tolerance", choices, COUNT(choices));
}

static void add_shape(bys_text *out, const bys_design *design)
{
    static const choice choices[] = {
        {"", "id", NULL},    {"", "longline", NULL}, {"", "bearing_deg", NULL},
        {"", "reach_m", NULL}, {"", "scope", NULL},  {"", "pretension_kN", NULL},
        {"pretension", "high_kN", NULL}, {"pretension", "from", NULL},
        {"", "mean_kN", NULL}, {"", "wave_kN", NULL},
        {"reported.lost", "tension_kN", NULL}, {"reported.lost", "condition", "Damage"},
    };
    bys_text_add(out, "<h3>Laying and damage</h3>\n");
    bys_html_paragraph(out, NULL,
                       "Reach is in plan, from the top of the leg to its anchor; bearing from the "
                       "top. Scope is line length over depth at the highest level. Pretension is "
                       "at the top in slack water at the lowest level, and at the highest.");
    add_table(out, design, "Laying and damage", choices, COUNT(choices));
}

void bys_report_legs(bys_text *out, const bys_design *design)
{
    bys_html_section(out, "legs", "Legs");
    if (design->leg_count == 0) {
        bys_html_paragraph(out, "quiet", "The site has no legs.");
    } else {
        add_main(out, design);
        add_line(out, design);
        add_anchor(out, design);
        add_shape(out, design);
        add_rates(out, design);
        add_tolerance(out, design);
        add_passage(out, design);
    }
    bys_html_section_end(out);
}
