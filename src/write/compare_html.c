// SPDX-License-Identifier: GPL-3.0-or-later
// A comparison as one page, in the order of the terminal's.
#include "write/compare_rows.h"
#include "write/page.h"

static void add_pairs(bys_text *out, const char *id, const char *title,
                      const bys_check_pair *pairs, int count, bool always)
{
    if (count == 0 && !always)
        return;
    bys_html_section(out, id, title);
    if (count == 0)
        bys_html_paragraph(out, "quiet", "None.");
    else
        bys_text_add(out, "<ul>\n");
    for (int i = 0; i < count; i++) {
        bys_text words = {0};
        bys_pair_words(&words, &pairs[i], " \xE2\x86\x92 ");
        bys_text_add(out, "<li><strong>");
        bys_html_text(out, words.data ? words.data : "");
        bys_text_add(out, "</strong>. ");
        bys_html_text(out, pairs[i].text);
        bys_text_add(out, "</li>\n");
        out->failed = out->failed || words.failed;
        bys_text_free(&words);
    }
    if (count)
        bys_text_add(out, "</ul>\n");
    bys_html_section_end(out);
}

static void add_changes(bys_text *out, const bys_comparison *c)
{
    static const bys_html_head heads[] = {
        {"Items", "", false}, {"What", "", false}, {"Before", "", false}, {"After", "", false}};
    bys_html_section(out, "changes", "Changed in the layout");
    if (c->change_count == 0)
        bys_html_paragraph(out, "quiet", "Nothing.");
    else
        bys_html_table(out, "Changed in the layout", heads, 4);
    for (int i = 0; i < c->change_count; i++) {
        bys_html_row(out, c->changes[i].items);
        bys_html_cell(out, c->changes[i].what);
        bys_html_cell(out, c->changes[i].before);
        bys_html_cell(out, c->changes[i].after);
        bys_html_row_end(out);
    }
    if (c->change_count)
        bys_html_table_end(out);
    bys_html_section_end(out);
}

static void add_verdict(bys_text *out, bool there, bys_verdict verdict)
{
    if (there)
        bys_html_cell_verdict(out, verdict);
    else
        bys_html_cell(out, "not there");
}

static void add_floats(bys_text *out, const bys_comparison *c)
{
    static const bys_html_head heads[] = {
        {"Line or raft", "", false}, {"Before", "%", true},          {"After", "%", true},
        {"Limit", "%", true},        {"Verdict before", "", false}, {"Verdict after", "", false}};
    if (c->float_count == 0)
        return;
    bys_html_section(out, "floats", "Float reserve");
    bys_html_paragraph(out, NULL, "Share of its net lift that the hardest pressed float has left "
                                  "in slack water, at the worst level and stage.");
    bys_html_table(out, "Float reserve", heads, 6);
    for (int i = 0; i < c->float_count; i++) {
        const bys_check_pair *p = &c->floats[i];
        bys_html_row(out, p->item);
        bys_html_cell_number(out, p->value_before, 0);
        bys_html_cell_number(out, p->value_after, 0);
        bys_html_cell_number(out, p->limit, 0);
        add_verdict(out, p->before, p->verdict_before);
        add_verdict(out, p->after, p->verdict_after);
        bys_html_row_end(out);
    }
    bys_html_table_end(out);
    bys_html_section_end(out);
}

static void add_leg(bys_text *out, const bys_comparison *c, const bys_leg_pair *pair)
{
    const bys_leg_side a = bys_leg_before(c, pair), b = bys_leg_after(c, pair);
    bys_html_row(out, pair->id);
    bys_html_cell_number(out, a.tension_N / 1000.0, 1);
    bys_html_cell_number(out, b.tension_N / 1000.0, 1);
    bys_html_cell_number(out, 100.0 * (b.tension_N / a.tension_N - 1.0), 1);
    bys_html_cell_use(out, a.line_use, a.verdict);
    bys_html_cell_use(out, b.line_use, b.verdict);
    bys_html_cell_use(out, a.anchor_use, a.verdict);
    bys_html_cell_use(out, b.anchor_use, b.verdict);
    add_verdict(out, a.there, a.verdict);
    add_verdict(out, b.there, b.verdict);
    bys_html_row_end(out);
}

static void add_legs(bys_text *out, const bys_comparison *c)
{
    static const bys_html_head heads[] = {
        {"Leg", "", false},           {"Tension before", "kN", true}, {"After", "kN", true},
        {"Change", "%", true},        {"Line use before", "", true},  {"After", "", true},
        {"Anchor use before", "", true}, {"After", "", true},         {"Verdict before", "", false},
        {"After", "", false}};
    bys_html_section(out, "legs", "Legs");
    bys_html_paragraph(out, NULL, "New failures first, then by how much the use changes.");
    bys_html_table(out, "Legs before and after", heads, 10);
    for (int i = 0; i < c->leg_count; i++)
        add_leg(out, c, &c->legs[i]);
    bys_html_table_end(out);
    bys_html_section_end(out);
}

void bys_write_comparison_html(bys_text *out, const bys_comparison *c)
{
    bys_text line = {0};
    bys_text_addf(&line, "Before: %s (%s). After: %s (%s).", c->before->site, c->before->file,
                  c->after->site, c->after->file);
    bys_page_open(out, "Before and after", c->after->notice, line.data ? line.data : "");
    bys_page_verdict(out, c->after->verdict, c->headline);
    add_pairs(out, "fresh", "New failures", c->fresh, c->fresh_count, true);
    add_pairs(out, "open", "No longer checked", c->open, c->open_count, false);
    add_pairs(out, "mended", "Mended", c->mended, c->mended_count, false);
    add_changes(out, c);
    add_floats(out, c);
    add_legs(out, c);
    bys_page_close(out);
    out->failed = out->failed || line.failed;
    bys_text_free(&line);
}
