// SPDX-License-Identifier: GPL-3.0-or-later
// A comparison for a terminal: new failures first, then what is mended, what was changed, floats
// and legs before and after.
#include "write/compare_rows.h"
#include "write/layout.h"
#include "write/page.h"

typedef struct {
    bys_text *out;
    const bys_comparison *c;
    int width;
    bool colour;
} sheet;

static void add_title(sheet *p)
{
    const bys_design *a = p->c->before, *b = p->c->after;
    bys_terminal_verdict(p->out, p->colour, a->verdict);
    bys_text_add(p->out, " -> ");
    bys_terminal_verdict(p->out, p->colour, b->verdict);
    bys_text_addf(p->out, "%s%s\n", *b->notice ? "  " : "", b->notice);
    bys_layout_wrap(p->out, a->site, p->width, "before  ", "        ");
    bys_layout_wrap(p->out, b->site, p->width, "after   ", "        ");
    bys_layout_wrap(p->out, p->c->headline, p->width, "", "");
}

static void add_pairs(sheet *p, const char *title, const bys_check_pair *pairs, int count,
                      bool sentence)
{
    enum { SHOWN = 8 };
    if (count == 0)
        return;
    bys_terminal_heading(p->out, p->colour, title);
    for (int i = 0; i < count && i < SHOWN; i++) {
        bys_text line = {0};
        bys_pair_words(&line, &pairs[i], " -> ");
        if (sentence && *pairs[i].text)
            bys_text_addf(&line, ". %s", pairs[i].text);
        bys_layout_wrap(p->out, line.data ? line.data : "", p->width, "  ", "    ");
        p->out->failed = p->out->failed || line.failed;
        bys_text_free(&line);
    }
    if (count > SHOWN)
        bys_text_addf(p->out, "  and %d more\n", count - SHOWN);
}

static void add_changes(sheet *p)
{
    bys_terminal_heading(p->out, p->colour, "Changed in the layout");
    if (p->c->change_count == 0)
        bys_text_add(p->out, "  nothing\n");
    for (int i = 0; i < p->c->change_count; i++) {
        const bys_change_row *row = &p->c->changes[i];
        bys_text line = {0};
        bys_text_addf(&line, "%s, %s: %s -> %s", row->items, row->what, row->before, row->after);
        bys_layout_wrap(p->out, line.data ? line.data : "", p->width, "  ", "    ");
        p->out->failed = p->out->failed || line.failed;
        bys_text_free(&line);
    }
}

static void add_floats(sheet *p)
{
    enum { SHOWN = 8 };
    if (p->c->float_count == 0)
        return;
    bys_terminal_heading(p->out, p->colour, "Float reserve in slack water, % of net lift");
    bys_text_add(p->out, "          before  after  limit  verdict\n");
    for (int i = 0; i < p->c->float_count && i < SHOWN; i++) {
        const bys_check_pair *pair = &p->c->floats[i];
        bys_layout_cell(p->out, pair->item, 8, false);
        bys_terminal_number(p->out, pair->value_before, 0, 8);
        bys_terminal_number(p->out, pair->value_after, 0, 7);
        bys_terminal_number(p->out, pair->limit, 0, 7);
        bys_text_addf(p->out, "  %s -> %s\n",
                      pair->before ? bys_verdict_name(pair->verdict_before) : "not there",
                      pair->after ? bys_verdict_name(pair->verdict_after) : "not there");
    }
    if (p->c->float_count > SHOWN)
        bys_text_addf(p->out, "  and %d more\n", p->c->float_count - SHOWN);
}

static void add_leg(sheet *p, const bys_leg_pair *pair)
{
    const bys_leg_side a = bys_leg_before(p->c, pair), b = bys_leg_after(p->c, pair);
    const double tensions[] = {a.tension_N / 1000.0, b.tension_N / 1000.0};
    bys_layout_cell(p->out, pair->id, 9, false);
    for (int i = 0; i < 2; i++)
        bys_terminal_number(p->out, tensions[i], 1, i ? 7 : 8);
    bys_terminal_number(p->out, 100.0 * (b.tension_N / a.tension_N - 1.0), 1, 8);
    const double uses[] = {a.line_use, b.line_use, a.anchor_use, b.anchor_use};
    for (int i = 0; i < 4; i++)
        bys_terminal_number(p->out, uses[i], 2, i % 2 ? 6 : 7);
    const bool turned = a.there && b.there && a.verdict != b.verdict;
    if (turned)
        bys_text_addf(p->out, "  %s ->", bys_verdict_name(a.verdict));
    bys_text_addf(p->out, "%s%s%s\n", turned ? " " : "  ",
                  b.there ? bys_verdict_name(b.verdict) : "gone",
                  a.there ? "" : " (new leg)");
}

static void add_legs(sheet *p)
{
    int same = 0;
    bys_text_add(p->out, "\n");
    bys_text_add(p->out, "Leg         tension, kN          line use    anchor use\n"
                         "           before  after       %  before after before after  verdict\n");
    for (int i = 0; i < p->c->leg_count; i++) {
        if (bys_leg_same(p->c, &p->c->legs[i]))
            same++;
        else
            add_leg(p, &p->c->legs[i]);
    }
    if (same)
        bys_text_addf(p->out, "%s%d %s as before (tension within 0.1 %%)\n",
                      same < p->c->leg_count ? "and " : "", same, same == 1 ? "leg" : "legs");
}

void bys_write_comparison_text(bys_text *out, const bys_comparison *comparison, int width,
                               bool colour)
{
    sheet p = {out, comparison, width < 60 ? 60 : width > 160 ? 160 : width, colour};
    add_title(&p);
    add_pairs(&p, "New failures", comparison->fresh, comparison->fresh_count, true);
    add_pairs(&p, "No longer checked", comparison->open, comparison->open_count, true);
    add_pairs(&p, "Mended", comparison->mended, comparison->mended_count, false);
    add_changes(&p);
    add_floats(&p);
    add_legs(&p);
}
