// SPDX-License-Identifier: GPL-3.0-or-later
// The crop calendar for a terminal: a row a month, then what floats to add and when.
#include "write/calendar_rows.h"
#include "write/layout.h"
#include "write/page.h"

#include <math.h>

typedef struct {
    bys_text *out;
    const bys_calendar *c;
    int width;
    bool colour;
} sheet;

static void wrap(sheet *p, bys_text *line, const char *first, const char *rest) {
    bys_layout_wrap(p->out, line->data ? line->data : "", p->width, first, rest);
    p->out->failed = p->out->failed || line->failed;
    bys_text_free(line);
}

static void add_title(sheet *p) {
    bys_text line = {0};
    bys_text_addf(&line, "%s%s%s", p->c->site, *p->c->notice ? " - " : "", p->c->notice);
    bys_terminal_verdict(p->out, p->colour, p->c->verdict);
    bys_text_add(p->out, "  ");
    wrap(p, &line, "", "      ");
    bys_layout_wrap(p->out, p->c->headline, p->width, "", "");
    if (!p->c->grows)
        bys_layout_wrap(p->out,
                        "Dated stages only; <stages between=\"linear\"> looks at the months "
                        "between.",
                        p->width, "", "");
}

static void add_month(sheet *p, int m) {
    const bys_calendar *c = p->c;
    const bys_month *row = &c->months[m];
    const bys_zone_month *z =
        row->worst_zone >= 0 ? &c->zone_months[m * c->zone_count + row->worst_zone] : NULL;
    bys_text zone = {0};
    if (z)
        bys_text_addf(&zone, "%s %s", c->zones[row->worst_zone].line,
                      c->zones[row->worst_zone].name);
    bys_terminal_number(p->out, row->month, row->month == floor(row->month) ? 0 : 1, 5);
    bys_text_add(p->out, " ");
    bys_layout_cell(p->out, row->between ? "" : row->name, 13, false);
    bys_terminal_number(p->out, z ? 100.0 * z->reserve : NAN, 0, 6);
    bys_terminal_number(p->out, z ? 100.0 * z->submerged : NAN, 0, 5);
    bys_text_add(p->out, "  ");
    bys_layout_cell(p->out, zone.data ? zone.data : "-", 14, false);
    bys_terminal_number(p->out, row->to_add, 0, 4);
    bys_terminal_number(p->out, row->largest_N / 1000.0, 1, 7);
    bys_terminal_number(p->out, row->largest_added_N / 1000.0, 1, 7);
    bys_text_addf(p->out, "  %s", row->verdict[0] == 'i' ? "incompl." : row->verdict);
    if (row->to_add)
        bys_text_addf(p->out, " %s",
                      row->verdict_added[0] == 'i' ? "incompl." : row->verdict_added);
    bys_text_add(p->out, "\n");
    p->out->failed = p->out->failed || zone.failed;
    bys_text_free(&zone);
}

static void add_months(sheet *p) {
    bys_text_add(p->out,
                 "\n"
                 "                    least under  at             floats    leg, kN   verdict\n"
                 "month stage             %     %                 to add   now   with  now with\n");
    for (int m = 0; m < p->c->month_count; m++)
        add_month(p, m);
}

static void add_plans(sheet *p) {
    bool any = false;
    for (int l = 0; l < p->c->plan_count; l++) {
        bys_text line = {0};
        if (!bys_plan_words(&line, p->c, l))
            continue;
        if (!any)
            bys_terminal_heading(p->out, p->colour, "Floats to add");
        any = true;
        wrap(p, &line, "  ", "    ");
    }
}

void bys_write_calendar_text(bys_text *out, const bys_calendar *calendar, int width, bool colour) {
    sheet p = {out, calendar, width < 60 ? 60 : width > 160 ? 160 : width, colour};
    add_title(&p);
    add_months(&p);
    add_plans(&p);
    bys_layout_wrap(out,
                    "Least: share of its net lift that the hardest pressed crop float has left "
                    "in slack water; under: share of it under water. Leg: largest tension, now "
                    "and with the added floats on.",
                    p.width, "\n", "");
}
