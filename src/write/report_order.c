// SPDX-License-Identifier: GPL-3.0-or-later
// What to order: totals by part, cut list by groups of equal legs, anchors.
#include "write/html.h"

#include <math.h>
#include <string.h>

static bool same_number(double a, double b)
{
    return a == b || (isnan(a) && isnan(b));
}

static bool same_piece(const bys_leg_piece *a, const bys_leg_piece *b)
{
    return !strcmp(a->part, b->part) && !strcmp(a->kind, b->kind) &&
           same_number(a->length_m, b->length_m);
}

static bool same_list(const bys_leg_result *a, const bys_leg_result *b)
{
    if (a->piece_count != b->piece_count)
        return false;
    for (int i = 0; i < a->piece_count; i++)
        if (!same_piece(&a->pieces[i], &b->pieces[i]) || a->pieces[i].count != b->pieces[i].count)
            return false;
    return true;
}

static bool seen_before(const bys_design *design, int leg, int piece)
{
    const bys_leg_piece *wanted = &design->legs[leg].pieces[piece];
    for (int i = 0; i <= leg; i++)
        for (int k = 0; k < (i == leg ? piece : design->legs[i].piece_count); k++)
            if (same_piece(&design->legs[i].pieces[k], wanted))
                return true;
    return false;
}

static void add_total(bys_text *out, const bys_design *design, const bys_leg_piece *wanted)
{
    double count = 0.0, mass = 0.0;
    for (int i = 0; i < design->leg_count; i++)
        for (int k = 0; k < design->legs[i].piece_count; k++)
            if (same_piece(&design->legs[i].pieces[k], wanted)) {
                count += design->legs[i].pieces[k].count;
                mass += design->legs[i].pieces[k].mass_kg;
            }
    bys_html_row(out, wanted->part);
    bys_html_cell(out, wanted->kind);
    bys_html_cell_number(out, wanted->length_m, 2);
    bys_html_cell_number(out, count, 0);
    bys_html_cell_number(out, wanted->length_m * count, 1);
    bys_html_cell_number(out, mass, 1);
    bys_html_row_end(out);
}

static void add_totals(bys_text *out, const bys_design *design)
{
    static const bys_html_head heads[] = {{"Part", "", false},        {"Kind", "", false},
                                          {"Length each", "m", true}, {"Pieces", "", true},
                                          {"Length in all", "m", true},
                                          {"Mass in air", "kg", true}};
    bys_text_add(out, "<h3>Legs: parts in all</h3>\n");
    bys_html_paragraph(out, NULL,
                       "Lengths are finished, bearing point to bearing point, unloaded. Add what "
                       "your splices and eyes take, and spares.");
    bys_html_table(out, "Parts in all", heads, 6);
    for (int i = 0; i < design->leg_count; i++)
        for (int k = 0; k < design->legs[i].piece_count; k++)
            if (!seen_before(design, i, k))
                add_total(out, design, &design->legs[i].pieces[k]);
    bys_html_table_end(out);
}

// ---- cut list ----------------------------------------------------------------------------------

static const char *short_id(const bys_leg_result *leg, const bys_leg_piece *piece)
{
    size_t n = strlen(leg->id);
    return !strncmp(piece->id, leg->id, n) && piece->id[n] == '/' ? piece->id + n + 1 : piece->id;
}

// The piece at this place with the largest use among the equal legs; the first if none has one.
static const bys_leg_piece *worst_of(const bys_design *design, int first, int piece,
                                     double *tension)
{
    const bys_leg_piece *worst = &design->legs[first].pieces[piece];
    *tension = NAN;
    for (int i = first; i < design->leg_count; i++) {
        if (!same_list(&design->legs[first], &design->legs[i]))
            continue;
        const bys_leg_piece *other = &design->legs[i].pieces[piece];
        *tension = fmax(*tension, other->tension_N);
        if (other->utilisation > worst->utilisation || isnan(worst->utilisation))
            worst = isnan(other->utilisation) ? worst : other;
    }
    return worst;
}

static void add_names(bys_text *out, const bys_design *design, int first)
{
    int count = 0;
    bys_text_add(out, "<p class=\"fold\">");
    bys_text names = {0};
    for (int i = first; i < design->leg_count; i++)
        if (same_list(&design->legs[first], &design->legs[i]))
            bys_text_addf(&names, "%s%s", count++ ? ", " : "", design->legs[i].id);
    bys_text_addf(out, "<b>%d %s:</b> ", count, count == 1 ? "leg" : "equal legs");
    bys_html_text(out, names.data ? names.data : "");
    out->failed = out->failed || names.failed;
    bys_text_free(&names);
    bys_text_add(out, "</p>\n");
}

static void add_group(bys_text *out, const bys_design *design, int first)
{
    static const bys_html_head heads[] = {
        {"From anchor up", "", false}, {"Part", "", false}, {"Kind", "", false},
        {"Length", "m", true}, {"Count", "", true}, {"Mass in air", "kg", true},
        {"Worst tension", "kN", true}, {"Strength", "kN", true}, {"Worst use", "", true},
        {"Verdict", "", false}, {"Basis", "", false}};
    const bys_leg_result *leg = &design->legs[first];
    add_names(out, design, first);
    bys_html_table(out, "Pieces of these legs", heads, 11);
    for (int k = 0; k < leg->piece_count; k++) {
        double tension;
        const bys_leg_piece *piece = &leg->pieces[k], *worst = worst_of(design, first, k, &tension);
        bys_html_row(out, short_id(leg, piece));
        bys_html_cell(out, piece->part);
        bys_html_cell(out, piece->kind);
        bys_html_cell_number(out, piece->length_m, 2);
        bys_html_cell_number(out, piece->count, 0);
        bys_html_cell_number(out, piece->mass_kg, 1);
        bys_html_cell_number(out, tension / 1000.0, 1);
        bys_html_cell_number(out, worst->strength_N / 1000.0, 1);
        bys_html_cell_use(out, worst->utilisation, worst->verdict);
        bys_html_cell_verdict(out, worst->verdict);
        bys_html_cell(out, bys_basis_name(worst->basis));
        bys_html_row_end(out);
    }
    bys_html_table_end(out);
}

static void add_cut_list(bys_text *out, const bys_design *design)
{
    bys_text_add(out, "<h3>Legs: piece by piece</h3>\n");
    for (int i = 0; i < design->leg_count; i++) {
        bool first = true;
        for (int k = 0; k < i && first; k++)
            first = !same_list(&design->legs[k], &design->legs[i]);
        if (first)
            add_group(out, design, i);
    }
}

// ---- anchors -----------------------------------------------------------------------------------

static void add_leg_names(bys_text *out, const bys_design *design, const bys_anchor_result *anchor)
{
    bys_text_add(out, "<td>");
    for (int i = 0; i < anchor->leg_count; i++) {
        bys_text_add(out, i ? ", " : "");
        bys_html_text(out, design->legs[anchor->legs[i]].id);
    }
    bys_text_add(out, "</td>");
}

static void add_anchor(bys_text *out, const bys_design *design, const bys_anchor_result *anchor)
{
    bys_html_row(out, anchor->id);
    add_leg_names(out, design, anchor);
    bys_html_cell(out, anchor->kind);
    bys_html_cell(out, anchor->part);
    bys_html_cell_number(out, anchor->mass_kg, 0);
    bys_html_cell_number(out, anchor->x_m, 1);
    bys_html_cell_number(out, anchor->y_m, 1);
    bys_html_cell_number(out, anchor->depth_m, 1);
    bys_html_cell_number(out, bys_compass_degrees(anchor->heading_rad), 0);
    bys_html_cell_use(out, anchor->utilisation, anchor->verdict);
    bys_html_cell_verdict(out, anchor->verdict);
    if (design->lease_count < 3) {
        bys_html_cell(out, "no lease stated");
    } else {
        bys_text_addf(out, "<td class=\"n%s\">", anchor->inside_lease ? "" : " fail");
        bys_number_add(out, anchor->lease_margin_m, 1);
        bys_text_add(out, anchor->inside_lease ? "</td>" : " outside</td>");
    }
    bys_html_row_end(out);
}

static bool same_anchor(const bys_anchor_result *a, const bys_anchor_result *b)
{
    return !strcmp(a->part, b->part) && !strcmp(a->kind, b->kind) &&
           same_number(a->mass_kg, b->mass_kg);
}

static void add_anchor_total(bys_text *out, const bys_design *design, int wanted)
{
    int count = 0;
    for (int i = 0; i < design->anchor_count; i++)
        count += same_anchor(&design->anchors[i], &design->anchors[wanted]);
    bys_html_row(out, design->anchors[wanted].part);
    bys_html_cell(out, design->anchors[wanted].kind);
    bys_html_cell_number(out, count, 0);
    bys_html_cell_number(out, design->anchors[wanted].mass_kg, 0);
    bys_html_cell_number(out, count * design->anchors[wanted].mass_kg, 0);
    bys_html_row_end(out);
}

static void add_anchor_totals(bys_text *out, const bys_design *design)
{
    static const bys_html_head heads[] = {{"Part", "", false}, {"Kind", "", false},
                                          {"Anchors", "", true}, {"Mass each", "kg in air", true},
                                          {"Mass in all", "kg in air", true}};
    bys_text_add(out, "<h3>Anchors in all</h3>\n");
    bys_html_table(out, "Anchors in all", heads, 5);
    for (int i = 0; i < design->anchor_count; i++) {
        bool first = true;
        for (int k = 0; k < i && first; k++)
            first = !same_anchor(&design->anchors[k], &design->anchors[i]);
        if (first)
            add_anchor_total(out, design, i);
    }
    bys_html_table_end(out);
}

void bys_report_order(bys_text *out, const bys_design *design)
{
    bys_html_section(out, "order", "What to order");
    add_totals(out, design);
    add_anchor_totals(out, design);
    add_cut_list(out, design);
    bys_html_section_end(out);
}

void bys_report_anchors(bys_text *out, const bys_design *design)
{
    static const bys_html_head heads[] = {
        {"Anchor", "", false}, {"Legs", "", false}, {"Kind", "", false}, {"Part", "", false},
        {"Mass in air", "kg", true}, {"x", "m east", true}, {"y", "m north", true},
        {"Depth", "m below datum", true}, {"Heading", "deg", true}, {"Use", "", true},
        {"Verdict", "", false}, {"To the boundary", "m", true}};
    bys_html_section(out, "anchors", "Anchors");
    bys_text text = {0};
    bys_text_addf(&text, "Positions in the site's own grid, north is %s north. Depth is below "
                         "chart datum. A negative distance to the boundary is outside the lease.",
                  design->north);
    bys_html_paragraph(out, NULL, text.data ? text.data : "");
    bys_text_free(&text);
    bys_html_table(out, "Anchors", heads, 12);
    for (int i = 0; i < design->anchor_count; i++)
        add_anchor(out, design, &design->anchors[i]);
    bys_html_table_end(out);
    bys_html_section_end(out);
}
