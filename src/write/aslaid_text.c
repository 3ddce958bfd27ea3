// SPDX-License-Identifier: GPL-3.0-or-later
// What was laid, for a terminal: verdict, anchors farthest off first, legs in the three states,
// warps to adjust, tensions to measure.
#include "write/aslaid_rows.h"
#include "write/compare_rows.h"
#include "write/layout.h"
#include "write/page.h"

#include <math.h>
#include <string.h>

enum { SHOWN = 12 };

typedef struct {
    bys_text *out;
    const bys_aslaid *r;
    int width;
    bool colour;
} sheet;

static void wrap(sheet *p, bys_text *line, const char *first, const char *rest)
{
    bys_layout_wrap(p->out, line->data ? line->data : "", p->width, first, rest);
    p->out->failed = p->out->failed || line->failed;
    bys_text_free(line);
}

static void add_title(sheet *p)
{
    const bys_aslaid *r = p->r;
    bys_text line = {0};
    bys_text_addf(&line, "%s%s%s", r->design->site, *r->design->notice ? " - " : "",
                  r->design->notice);
    bys_terminal_verdict(p->out, p->colour, r->verdict);
    bys_text_add(p->out, "  ");
    wrap(p, &line, "", "      ");
    bys_layout_wrap(p->out, r->file, p->width, "positions  ", "           ");
    bys_layout_wrap(p->out, r->headline, p->width, "", "");
}

static void add_anchor(sheet *p, const bys_laid_anchor *a)
{
    bys_layout_cell(p->out, a->id, 16, false);
    bys_terminal_number(p->out, a->offset_m, 1, 6);
    bys_terminal_number(p->out, bys_compass_degrees(a->bearing_rad), 0, 6);
    bys_terminal_number(p->out, a->along_m, 1, 7);
    bys_terminal_number(p->out, a->across_m, 1, 7);
    bys_text_addf(p->out, "  %s", a->inside_box ? "in    " : "OUT   ");
    bys_terminal_number(p->out, a->lease_margin_m, 1, 7);
    const char *lease = a->inside_lease ? "in" : "OUT";
    bys_text_addf(p->out, "  %s\n", isnan(a->lease_margin_m) ? "-" : lease);
}

static void add_anchors(sheet *p)
{
    const bys_aslaid *r = p->r;
    int shown = 0;
    bys_terminal_heading(p->out, p->colour, "Anchors, farthest from design first");
    bys_text_add(p->out, "                   off    to  outward right  box     to bound. lease\n"
                         "                     m   deg       m      m              m\n");
    for (int i = 0; i < r->surveyed; i++) {
        const bys_laid_anchor *a = &r->anchors[r->by_offset[i]];
        if (shown < SHOWN || !a->inside_box || !a->inside_lease) {
            add_anchor(p, a);
            shown++;
        }
    }
    if (r->surveyed > shown)
        bys_text_addf(p->out, "and %d more, all inside box and lease\n", r->surveyed - shown);
    if (r->surveyed < r->anchor_count)
        bys_text_addf(p->out, "%d %s no position and %s taken to stand where designed\n",
                      r->anchor_count - r->surveyed,
                      r->anchor_count - r->surveyed == 1 ? "anchor has" : "anchors have",
                      r->anchor_count - r->surveyed == 1 ? "is" : "are");
    for (int i = 0; i < r->stray_count; i++) {
        bys_text line = {0};
        bys_stray_words(&line, &r->strays[i]);
        wrap(p, &line, "? ", "  ");
    }
}

static const char *verdict(const bys_laid_side *side)
{
    return side->known ? bys_verdict_name(side->verdict) : "-";
}

static void add_leg(sheet *p, const bys_laid_leg *leg)
{
    bys_layout_cell(p->out, leg->id, 9, false);
    bys_terminal_number(p->out, leg->design.tension_N / 1000.0, 1, 7);
    bys_terminal_number(p->out, leg->made.tension_N / 1000.0, 1, 8);
    bys_terminal_number(p->out, leg->adjusted.tension_N / 1000.0, 1, 9);
    bys_text_add(p->out, "  ");
    bys_layout_cell(p->out, verdict(&leg->design), 12, false);
    bys_layout_cell(p->out, verdict(&leg->made), 12, false);
    bys_text_addf(p->out, "%s\n", verdict(&leg->adjusted));
}

static void add_legs(sheet *p)
{
    const bys_aslaid *r = p->r;
    int same = 0;
    bys_terminal_heading(p->out, p->colour, "Legs: as designed, as made, warps adjusted");
    bys_text_add(p->out, "             tension, kN          verdict\n"
                         "          design    made adjusted  design      made        adjusted\n");
    for (int l = 0; l < r->leg_count; l++) {
        if (bys_laid_leg_same(&r->legs[l]))
            same++;
        else
            add_leg(p, &r->legs[l]);
    }
    if (same)
        bys_text_addf(p->out, "%s%d %s as designed (tension within 1 %%)\n",
                      same < r->leg_count ? "and " : "", same, same == 1 ? "leg" : "legs");
}

static void add_failures(sheet *p, const char *title, const bys_comparison *c)
{
    if (!c || c->fresh_count == 0)
        return;
    bys_terminal_heading(p->out, p->colour, title);
    for (int i = 0; i < c->fresh_count && i < SHOWN; i++) {
        bys_text line = {0};
        bys_pair_words(&line, &c->fresh[i], " -> ");
        if (*c->fresh[i].text)
            bys_text_addf(&line, ". %s", c->fresh[i].text);
        wrap(p, &line, "  ", "    ");
    }
    if (c->fresh_count > SHOWN)
        bys_text_addf(p->out, "  and %d more\n", c->fresh_count - SHOWN);
}

// The small ones are counted: they stand in the other formats.
static void add_warps(sheet *p)
{
    const bys_aslaid *r = p->r;
    int small = 0;
    bys_terminal_heading(p->out, p->colour, "Warps to adjust, to the design pretension");
    if (*r->adjusted_why)
        bys_layout_wrap(p->out, r->adjusted_why, p->width, "  ", "  ");
    for (int l = 0; l < r->leg_count; l++) {
        const bys_laid_leg *leg = &r->legs[l];
        const bool large = fabs(leg->adjusted_m - leg->cut_m) >= 0.5;
        if (!isfinite(leg->adjusted_m))
            continue;
        if (!large && r->anchors[leg->anchor].inside_box) {
            small++;
            continue;
        }
        bys_text line = {0};
        bys_adjust_words(&line, leg);
        wrap(p, &line, "  ", "    ");
    }
    if (small)
        bys_text_addf(p->out, "  and %d by less than 0.5 m (--json and --to name them)\n", small);
}

static void add_tensions(sheet *p)
{
    const bys_aslaid *r = p->r;
    bool any = false;
    for (int l = 0; l < r->leg_count; l++) {
        const bys_laid_leg *leg = &r->legs[l];
        const char *tells = leg->ask ? leg->ask_why : leg->measured_says;
        if (!*tells)
            continue;
        if (!any)
            bys_terminal_heading(p->out, p->colour, "Tensions to measure, and measured");
        any = true;
        bys_text line = {0};
        bys_text_addf(&line, "%s%s: %s", leg->ask ? "measure " : "", leg->id, tells);
        wrap(p, &line, "  ", "    ");
    }
}

void bys_write_aslaid_text(bys_text *out, const bys_aslaid *result, int width, bool colour)
{
    sheet p = {out, result, width < 60 ? 60 : width > 160 ? 160 : width, colour};
    add_title(&p);
    add_anchors(&p);
    add_failures(&p, "New failures, lengths as made", result->change);
    add_failures(&p, "New failures that stay when the warps are adjusted", result->remains);
    add_legs(&p);
    add_warps(&p);
    add_tensions(&p);
}
