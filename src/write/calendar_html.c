// SPDX-License-Identifier: GPL-3.0-or-later
// The crop calendar as one page: two charts, months, floats to add, zones.
#include "write/calendar_rows.h"
#include "write/page.h"

#include <math.h>
#include <stdlib.h>

// ---- charts ------------------------------------------------------------------------------------

static double least(const bys_calendar *c, int m, bool added) {
    double share = NAN;
    for (int z = 0; z < c->zone_count; z++) {
        const bys_zone_month *here = &c->zone_months[m * c->zone_count + z];
        if (!c->zones[z].at_end)
            share = fmin(share, added ? here->reserve_added : here->reserve);
    }
    return 100.0 * share;
}

static void add_charts(bys_text *out, const bys_calendar *c) {
    double *room = calloc(4 * (size_t)c->month_count + 1, sizeof *room);
    if (!room) {
        out->failed = true;
        return;
    }
    double *rows[4];
    for (int i = 0; i < 4; i++)
        rows[i] = room + i * c->month_count;
    for (int m = 0; m < c->month_count; m++) {
        rows[0][m] = least(c, m, false);
        rows[1][m] = least(c, m, true);
        rows[2][m] = c->months[m].largest_N / 1000.0;
        rows[3][m] = c->months[m].largest_added_N / 1000.0;
    }
    const bys_chart reserve = {
        "Float reserve by month",
        "% of net lift",
        "What the hardest pressed crop float of the lease has left of its net "
        "lift, in slack water. Large marks: stages of the site file.",
        {rows[0], rows[1]},
        100.0 * c->reserve};
    const bys_chart load = {
        "Largest leg tension by month",
        "kN",
        "The largest tension of any leg, over all demanded weather of the month.",
        {rows[2], rows[3]},
        NAN};
    bys_html_section(out, "reserve", "Float reserve and leg loads");
    if (c->zone_count)
        bys_calendar_chart(out, c, &reserve);
    bys_calendar_chart(out, c, &load);
    bys_html_section_end(out);
    free(room);
}

// ---- tables ------------------------------------------------------------------------------------

static void add_word(bys_text *out, const char *verdict) {
    bys_html_cell_verdict(out, verdict[0] == 'p'   ? BYS_PASS
                               : verdict[0] == 'f' ? BYS_FAIL
                                                   : BYS_NOT_CHECKED);
}

static void add_month(bys_text *out, const bys_calendar *c, int m) {
    const bys_month *row = &c->months[m];
    const bys_zone_month *z =
        row->worst_zone >= 0 ? &c->zone_months[m * c->zone_count + row->worst_zone] : NULL;
    bys_text words = {0};
    bys_number_add(&words, row->month, row->month == floor(row->month) ? 0 : 1);
    bys_html_row(out, words.data ? words.data : "");
    bys_html_cell(out, row->between ? "between" : row->name);
    bys_html_cell_number(out, z ? 100.0 * z->reserve : NAN, 0);
    bys_html_cell_number(out, z ? 100.0 * z->submerged : NAN, 0);
    words.length = 0;
    if (z)
        bys_text_addf(&words, "%s, %s", c->zones[row->worst_zone].line,
                      c->zones[row->worst_zone].name);
    bys_html_cell(out, z && words.data ? words.data : "\xE2\x80\x93");
    bys_html_cell_number(out, row->to_add, 0);
    bys_html_cell_number(out, z ? least(c, m, true) : NAN, 0);
    bys_html_cell_number(out, row->largest_N / 1000.0, 1);
    bys_html_cell_number(out, row->largest_added_N / 1000.0, 1);
    add_word(out, row->verdict);
    add_word(out, row->verdict_added);
    bys_html_row_end(out);
    out->failed = out->failed || words.failed;
    bys_text_free(&words);
}

static void add_months(bys_text *out, const bys_calendar *c) {
    static const bys_html_head heads[] = {
        {"Month", "", false},        {"Stage", "", false},        {"Least reserve", "%", true},
        {"Under water", "%", true},  {"Where", "", false},        {"Floats to add", "", true},
        {"Reserve then", "%", true}, {"Leg tension", "kN", true}, {"With them", "kN", true},
        {"Verdict", "", false},      {"With them", "", false}};
    bys_html_section(out, "months", "Month by month");
    if (!c->grows)
        bys_html_paragraph(out, "quiet",
                           "Only the dated stages are looked at; the site file does "
                           "not say how the crop grows between them.");
    bys_html_table(out, "Month by month", heads, 11);
    for (int m = 0; m < c->month_count; m++)
        add_month(out, c, m);
    bys_html_table_end(out);
    bys_html_section_end(out);
}

static void add_plans(bys_text *out, const bys_calendar *c) {
    bool any = false;
    bys_html_section(out, "floats", "Floats to add");
    for (int l = 0; l < c->plan_count; l++) {
        bys_text words = {0};
        if (!bys_plan_words(&words, c, l))
            continue;
        bys_text_add(out, any ? "<li>" : "<ul>\n<li>");
        any = true;
        bys_html_text(out, words.data ? words.data : "");
        bys_text_add(out, "</li>\n");
        out->failed = out->failed || words.failed;
        bys_text_free(&words);
    }
    if (any)
        bys_text_add(out, "</ul>\n");
    else
        bys_html_paragraph(out, "quiet", isnan(c->reserve) ? "No reserve is demanded." : "None.");
    bys_html_section_end(out);
}

static void add_zone(bys_text *out, const bys_calendar *c, int z) {
    bys_text lines = {0};
    bys_zone_lines(&lines, c, z);
    bys_text_addf(&lines, ": %s", c->zones[z].name);
    bys_html_row(out, lines.data ? lines.data : "");
    out->failed = out->failed || lines.failed;
    bys_text_free(&lines);
    bys_html_cell_number(out, c->zone_months[z].count, 0);
    for (int m = 0; m < c->month_count; m++) {
        const bys_zone_month *here = &c->zone_months[m * c->zone_count + z];
        bys_text_add(out, "<td class=\"n\">");
        bys_number_add(out, 100.0 * here->reserve, 0);
        bys_text_add(out, " / ");
        bys_number_add(out, 100.0 * here->submerged, 0);
        bys_text_add(out, "</td>\n");
    }
    bys_html_row_end(out);
}

static void add_zones(bys_text *out, const bys_calendar *c) {
    const size_t n = (size_t)c->month_count + 2;
    bys_html_head *heads = calloc(n, sizeof *heads);
    bys_text names = {0};
    if (c->zone_count == 0 || !heads) {
        out->failed = out->failed || !heads;
        free(heads);
        return;
    }
    heads[0] = (bys_html_head){"Zone", "", false};
    heads[1] = (bys_html_head){"Floats", "", true};
    char(*months)[24] = calloc(n, sizeof *months);
    for (int m = 0; months && m < c->month_count; m++) {
        names.length = 0;
        bys_number_add(&names, c->months[m].month,
                       c->months[m].month == floor(c->months[m].month) ? 0 : 1);
        for (size_t k = 0; names.data && k + 1 < sizeof *months && names.data[k]; k++)
            months[m][k] = names.data[k];
        heads[m + 2] = (bys_html_head){months[m], "", true};
    }
    bys_html_section(out, "zones", "Zones");
    bys_html_paragraph(out, NULL,
                       "Reserve and share under water of the hardest pressed float, both "
                       "in %, by month, with the floats of the site file. End floats carry "
                       "the pull of the leg; the demand is for the others.");
    if (months) {
        bys_html_table(out, "Zones by month", heads, (int)n);
        for (int z = 0; z < c->zone_count; z++)
            if (bys_zone_like(c, z) == z)
                add_zone(out, c, z);
        bys_html_table_end(out);
    }
    bys_html_section_end(out);
    out->failed = out->failed || !months || names.failed;
    bys_text_free(&names);
    free(months);
    free(heads);
}

void bys_write_calendar_html(bys_text *out, const bys_calendar *c) {
    bys_text line = {0};
    bys_text_addf(&line, "%s (%s).", c->site, c->file);
    bys_page_open(out, "Crop calendar", c->notice, line.data ? line.data : "");
    bys_page_verdict(out, c->verdict, c->headline);
    add_plans(out, c);
    add_charts(out, c);
    add_months(out, c);
    add_zones(out, c);
    bys_page_close(out);
    out->failed = out->failed || line.failed;
    bys_text_free(&line);
}
