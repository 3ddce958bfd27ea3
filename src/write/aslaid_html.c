// SPDX-License-Identifier: GPL-3.0-or-later
// What was laid, as one page, in the order of the terminal's.
#include "write/aslaid_rows.h"
#include "write/compare_rows.h"
#include "write/page.h"

#include <math.h>

// A marked word: inside or not.
static void add_inside(bys_text *out, bool known, bool inside)
{
    const char *words = inside ? "\xE2\x9C\x93 inside" : "\xE2\x9C\x95 outside";
    bys_text_addf(out, "<td class=\"%s\">%s</td>\n", !known ? "" : inside ? "pass" : "fail",
                  known ? words : "\xE2\x80\x93");
}

static void add_anchor(bys_text *out, const bys_laid_anchor *a)
{
    bys_html_row(out, a->id);
    bys_html_cell_number(out, a->offset_m, 1);
    bys_html_cell_number(out, bys_compass_degrees(a->bearing_rad), 0);
    bys_html_cell_number(out, a->along_m, 1);
    bys_html_cell_number(out, a->across_m, 1);
    add_inside(out, a->surveyed, a->inside_box);
    bys_html_cell_number(out, a->lease_margin_m, 1);
    add_inside(out, !isnan(a->lease_margin_m), a->inside_lease);
    bys_html_cell_number(out, a->design_x_m, 2);
    bys_html_cell_number(out, a->design_y_m, 2);
    bys_html_cell_number(out, a->x_m, 2);
    bys_html_cell_number(out, a->y_m, 2);
    bys_html_cell(out, a->surveyed ? a->time : "no position");
    bys_html_row_end(out);
}

static void add_anchors(bys_text *out, const bys_aslaid *r)
{
    static const bys_html_head heads[] = {
        {"Anchor", "", false},       {"Off", "m", true},          {"Towards", "deg", true},
        {"Outward", "m", true},      {"To the right", "m", true}, {"Box", "", false},
        {"To the boundary", "m", true}, {"Lease", "", false},     {"Design x", "m", true},
        {"Design y", "m", true},     {"Laid x", "m", true},       {"Laid y", "m", true},
        {"Time", "", false}};
    bys_html_section(out, "anchors", "Anchors, farthest from design first");
    bys_html_paragraph(out, NULL, "Outward is away from the gear along the leg, right is seen when "
                                  "looking that way. An anchor without a position is taken to "
                                  "stand where it was to be.");
    bys_html_table(out, "Anchors as laid", heads, 13);
    for (int i = 0; i < r->anchor_count; i++)
        add_anchor(out, &r->anchors[r->by_offset[i]]);
    bys_html_table_end(out);
    bys_html_section_end(out);
}

static void add_strays(bys_text *out, const bys_aslaid *r)
{
    if (r->stray_count == 0)
        return;
    bys_html_section(out, "unmatched", "Positions that belong to no anchor");
    bys_text_add(out, "<ul>\n");
    for (int i = 0; i < r->stray_count; i++) {
        bys_text words = {0};
        bys_stray_words(&words, &r->strays[i]);
        bys_text_add(out, "<li>");
        bys_html_text(out, words.data ? words.data : "");
        bys_text_add(out, "</li>\n");
        out->failed = out->failed || words.failed;
        bys_text_free(&words);
    }
    bys_text_add(out, "</ul>\n");
    bys_html_section_end(out);
}

static void add_failures(bys_text *out, const char *id, const char *title, const bys_comparison *c)
{
    if (!c)
        return;
    bys_html_section(out, id, title);
    if (c->fresh_count == 0)
        bys_html_paragraph(out, "quiet", "None.");
    else
        bys_text_add(out, "<ul>\n");
    for (int i = 0; i < c->fresh_count; i++) {
        bys_text words = {0};
        bys_pair_words(&words, &c->fresh[i], " \xE2\x86\x92 ");
        bys_text_add(out, "<li><strong>");
        bys_html_text(out, words.data ? words.data : "");
        bys_text_add(out, "</strong>. ");
        bys_html_text(out, c->fresh[i].text);
        bys_text_add(out, "</li>\n");
        out->failed = out->failed || words.failed;
        bys_text_free(&words);
    }
    if (c->fresh_count)
        bys_text_add(out, "</ul>\n");
    bys_html_section_end(out);
}

static void add_verdict(bys_text *out, const bys_laid_side *side)
{
    if (side->known)
        bys_html_cell_verdict(out, side->verdict);
    else
        bys_html_cell(out, "not solved");
}

static void add_legs(bys_text *out, const bys_aslaid *r)
{
    static const bys_html_head heads[] = {
        {"Leg", "", false},            {"Tension designed", "kN", true}, {"As made", "kN", true},
        {"Adjusted", "kN", true},      {"Designed", "", false},          {"As made", "", false},
        {"Adjusted", "", false},       {"Slack water designed", "kN", true},
        {"As made", "kN", true},       {"Adjusted", "kN", true},         {"Measured", "kN", true}};
    bys_html_section(out, "legs", "Legs");
    bys_html_paragraph(out, NULL, "The largest tension in weather, the verdict, and the tension at "
                                  "the top in slack water at the lowest level, each as designed, "
                                  "with the ropes as made, and with the warps adjusted.");
    bys_html_table(out, "Legs in three states", heads, 11);
    for (int l = 0; l < r->leg_count; l++) {
        const bys_laid_leg *leg = &r->legs[l];
        const bys_laid_side *sides[] = {&leg->design, &leg->made, &leg->adjusted};
        bys_html_row(out, leg->id);
        for (int k = 0; k < 3; k++)
            bys_html_cell_number(out, sides[k]->tension_N / 1000.0, 1);
        for (int k = 0; k < 3; k++)
            add_verdict(out, sides[k]);
        for (int k = 0; k < 3; k++)
            bys_html_cell_number(out, sides[k]->pretension_N / 1000.0, 2);
        bys_html_cell_number(out, leg->measured_N / 1000.0, 2);
        bys_html_row_end(out);
    }
    bys_html_table_end(out);
    bys_html_section_end(out);
}

static void add_warps(bys_text *out, const bys_aslaid *r)
{
    static const bys_html_head heads[] = {{"Leg", "", false},         {"Piece", "", false},
                                          {"Part", "", false},        {"As cut", "m", true},
                                          {"Adjusted", "m", true},    {"Let out", "m", true}};
    bys_html_section(out, "warps", "Warps to adjust");
    bys_html_paragraph(out, NULL, "To the design pretension. Less than nothing: take in.");
    if (*r->adjusted_why)
        bys_html_paragraph(out, "quiet", r->adjusted_why);
    else
        bys_html_table(out, "Warps to adjust", heads, 6);
    for (int l = 0; !*r->adjusted_why && l < r->leg_count; l++) {
        const bys_laid_leg *leg = &r->legs[l];
        if (!isfinite(leg->adjusted_m))
            continue;
        bys_html_row(out, leg->id);
        bys_html_cell(out, leg->piece);
        bys_html_cell(out, leg->part);
        bys_html_cell_number(out, leg->cut_m, 2);
        bys_html_cell_number(out, leg->adjusted_m, 2);
        bys_html_cell_number(out, leg->adjusted_m - leg->cut_m, 2);
        bys_html_row_end(out);
    }
    if (!*r->adjusted_why)
        bys_html_table_end(out);
    bys_html_section_end(out);
}

static void add_tensions(bys_text *out, const bys_aslaid *r)
{
    bool any = false;
    for (int l = 0; l < r->leg_count; l++) {
        const bys_laid_leg *leg = &r->legs[l];
        if (!leg->ask && !*leg->measured_says)
            continue;
        if (!any) {
            bys_html_section(out, "tensions", "Tensions to measure, and measured");
            bys_text_add(out, "<ul>\n");
        }
        any = true;
        bys_text_addf(out, "<li><strong>%s", leg->ask ? "Measure " : "");
        bys_html_text(out, leg->id);
        bys_text_add(out, "</strong>: ");
        bys_html_text(out, leg->ask ? leg->ask_why : leg->measured_says);
        bys_text_add(out, "</li>\n");
    }
    if (any) {
        bys_text_add(out, "</ul>\n");
        bys_html_section_end(out);
    }
}

void bys_write_aslaid_html(bys_text *out, const bys_aslaid *r)
{
    bys_text line = {0};
    bys_text_addf(&line, "%s (%s); positions %s.", r->design->site, r->design->file, r->file);
    bys_page_open(out, "As laid", r->design->notice, line.data ? line.data : "");
    bys_page_verdict(out, r->verdict, r->headline);
    add_strays(out, r);
    add_failures(out, "made", "New failures, lengths as made", r->change);
    add_failures(out, "adjusted", "New failures that stay when the warps are adjusted", r->remains);
    add_warps(out, r);
    add_tensions(out, r);
    add_anchors(out, r);
    add_legs(out, r);
    bys_page_close(out);
    out->failed = out->failed || line.failed;
    bys_text_free(&line);
}
