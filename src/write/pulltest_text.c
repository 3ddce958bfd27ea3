// SPDX-License-Identifier: GPL-3.0-or-later
// Pull tests for people: one block a test, then the comparison.
#include "write/layout.h"
#include "write/rows.h"

#include <byssus/pulltest.h>

#include <math.h>

static const double kgf = 9.80665;

// "12.85 kN (1310 kgf)", or a dash.
static void add_load(bys_text *out, double newton)
{
    if (isnan(newton)) {
        bys_text_add(out, "not known");
        return;
    }
    bys_text_add_fixed(out, newton / 1e3, 2);
    bys_text_add(out, " kN (");
    bys_text_add_fixed(out, newton / kgf, 0);
    bys_text_add(out, " kgf)");
}

static void add_metres(bys_text *out, double metres)
{
    bys_text_add_fixed(out, metres, 2);
    bys_text_add(out, " m");
}

// One line "  name    words", wrapped; takes the words and frees them.
static void line(bys_text *out, int width, const char *name, bys_text *words)
{
    bys_text first = {0};
    bys_text_add(&first, "  ");
    bys_layout_cell(&first, name, 14, false);
    out->failed = out->failed || first.failed || words->failed;
    if (!out->failed)
        bys_layout_wrap(out, words->data ? words->data : "", width, first.data,
                        "                ");
    bys_text_free(&first);
    bys_text_free(words);
}

static void add_peak(bys_text *out, const bys_pull_test *t, int width)
{
    bys_text words = {0};
    add_load(&words, t->peak_N);
    bys_text_add(&words, " at ");
    add_metres(&words, t->peak_drag_m);
    if (t->lower_bound)
        bys_text_add(&words, ": a lower bound, the test stopped while the load rose");
    line(out, width, t->lower_bound ? "greatest load" : "peak", &words);
}

static void add_set(bys_text *out, const bys_pull_test *t, int width)
{
    bys_text words = {0};
    const double at[] = {t->set50_m, t->set90_m};
    for (int i = 0; i < 2; i++) {
        bys_text_add(&words, i ? ", " : "");
        if (isnan(at[i]))
            bys_text_add(&words, "before the first reading");
        else
            add_metres(&words, at[i]);
        bys_text_add(&words, i ? " to 90 %" : " to 50 %");
    }
    bys_text_add(&words, t->lower_bound ? " of the greatest load, which is no peak" : " of peak");
    line(out, width, "set", &words);
}

static void add_steady(bys_text *out, const bys_pull_test *t, int width)
{
    bys_text words = {0};
    if (t->rolled_out) {
        bys_text_add(&words, "rolled out");
        if (!isnan(t->fall)) {
            bys_text_add(&words, ": fell by ");
            bys_text_add_fixed(&words, 100.0 * t->fall, 0);
            bys_text_add(&words, " % of the peak");
        }
    } else if (isnan(t->steady_low_N)) {
        bys_text_add(&words, "not known: nothing was recorded after a peak");
    } else {
        add_load(&words, t->steady_low_N);
        bys_text_add(&words, " to ");
        add_load(&words, t->steady_high_N);
    }
    line(out, width, "after peak", &words);
}

static void add_measures(bys_text *out, const bys_pull_test *t, int width)
{
    bys_text words = {0};
    bys_text_add_fixed(&words, t->efficiency, 2);
    bys_text_add(&words, t->lower_bound ? " or more" : "");
    if (!isnan(t->steady_efficiency)) {
        bys_text_add(&words, ", steady ");
        bys_text_add_fixed(&words, t->steady_efficiency, 2);
    }
    bys_text_add(&words, " (load over weight in air)");
    line(out, width, "efficiency", &words);
    bys_text energy = {0};
    bys_text_add_fixed(&energy, t->energy_J / 1e3, 2);
    bys_text_add(&energy, " kJ from ");
    add_metres(&energy, t->first_drag_m);
    bys_text_add(&energy, " to ");
    add_metres(&energy, t->last_drag_m);
    line(out, width, "energy", &energy);
}

static void add_words(bys_text *out, int width, const char *name, const char *text)
{
    if (!*text)
        return;
    bys_text words = {0};
    bys_text_add(&words, text);
    line(out, width, name, &words);
}

static void add_pull_result(bys_text *out, const bys_pull_test *t, int width)
{
    add_peak(out, t, width);
    add_set(out, t, width);
    add_steady(out, t, width);
    add_measures(out, t, width);
    bys_text words = {0};
    add_load(&words, t->capacity_N);
    bys_text_addf(&words, "%s: %s", t->capacity_bound ? " or more" : "", t->capacity_why);
    line(out, width, "capacity", &words);
    bys_text residual = {0};
    if (isnan(t->steady_low_N)) {
        bys_text_add(&residual, t->rolled_out ? "none: it rolled out" : "not known: none counts");
    } else {
        add_load(&residual, t->residual_N);
        bys_text_add(&residual, " is left once it slips");
    }
    line(out, width, "residual", &residual);
}

static void add_hold_result(bys_text *out, const bys_pull_test *t, int width)
{
    const bys_pull_hold *h = &t->hold;
    bys_text words = {0};
    add_load(&words, h->load_N);
    bys_text_add(&words, " for ");
    bys_text_add_fixed(&words, h->time_s / 60.0, 1);
    bys_text_add(&words, " min asked; held ");
    bys_text_add_fixed(&words, h->held_s / 60.0, 1);
    bys_text_add(&words, " min");
    if (!isnan(h->drag_m)) {
        bys_text_add(&words, ", dragging ");
        add_metres(&words, h->drag_m);
    }
    line(out, width, "proof load", &words);
    bys_text verdict = {0};
    bys_text_addf(&verdict, "%s: %s", bys_verdict_name(h->verdict), h->why);
    line(out, width, "verdict", &verdict);
}

static void add_conditions(bys_text *out, const bys_pull_test *t, int width)
{
    bys_text words = {0};
    bys_text_add(&words, t->tackle);
    if (!isnan(t->scope)) {
        bys_text_add(&words, ", scope ");
        bys_text_add_fixed(&words, t->scope, 1);
    }
    if (!isnan(t->pull_angle_rad)) {
        bys_text_add(&words, ", pull ");
        bys_text_add_fixed(&words, t->pull_angle_rad * 57.29577951308232, 1);
        bys_text_add(&words, " deg above the bed");
    }
    if (!isnan(t->load_rate_mps)) {
        bys_text_add(&words, ", hauled at ");
        bys_text_add_fixed(&words, t->load_rate_mps, 3);
        bys_text_add(&words, " m/s");
    }
    line(out, width, "tackle", &words);
}

static void add_test(bys_text *out, const bys_pull_test *t, int width)
{
    bys_text title = {0};
    bys_text_addf(&title, "%s: %s, ", t->test, t->anchor);
    bys_text_add_fixed(&title, t->mass_kg, 0);
    bys_text_addf(&title, " kg in air, %s", t->soil);
    out->failed = out->failed || title.failed;
    if (!out->failed)
        bys_layout_wrap(out, title.data, width, "", "  ");
    bys_text_free(&title);
    add_conditions(out, t, width);
    add_words(out, width, "note", t->note);
    add_words(out, width, "gave way", t->failure);
    if (t->hold.wanted)
        add_hold_result(out, t, width);
    else
        add_pull_result(out, t, width);
    bys_text_add(out, "\n");
}

static void cell_number(bys_text *out, double value, int decimals, const char *mark)
{
    bys_text text = {0};
    if (isnan(value))
        bys_text_add(&text, "-");
    else
        bys_text_add_fixed(&text, value, decimals);
    bys_text_add(&text, isnan(value) ? "" : mark);
    bys_text_add(out, " ");
    bys_layout_cell(out, text.data ? text.data : "", 8, true);
    bys_text_free(&text);
}

enum { NAME = 20 };

static void add_table(bys_text *out, const bys_pulltest *r)
{
    static const char *const heads[] = {"peak", "at m", "steady", "efficy.", "capacity", "energy"};
    bys_layout_cell(out, "loads in kN, kJ", NAME, false);
    for (int i = 0; i < 6; i++) {
        bys_text_add(out, " ");
        bys_layout_cell(out, heads[i], 8, true);
    }
    bys_text_add(out, "\n");
    for (int i = 0; i < r->test_count; i++) {
        const bys_pull_test *t = &r->tests[i];
        if (t->hold.wanted)
            continue;
        bys_layout_cell(out, t->test, NAME, false);
        cell_number(out, t->peak_N / 1e3, 2, t->lower_bound ? "+" : "");
        cell_number(out, t->peak_drag_m, 2, "");
        cell_number(out, t->steady_low_N / 1e3, 2, "");
        cell_number(out, t->efficiency, 2, t->lower_bound ? "+" : "");
        cell_number(out, t->capacity_N / 1e3, 2, t->capacity_bound ? "+" : "");
        cell_number(out, t->energy_J / 1e3, 2, "");
        bys_text_add(out, "\n");
    }
    bys_text_add(out, "+ lower bound: or more\n\n");
}

// As many drags as fit the width.
static void add_loads(bys_text *out, const bys_pulltest *r, int width)
{
    const int room = (width - NAME) / 9, n = r->at_count < room ? r->at_count : room;
    bys_layout_cell(out, "load in kN at m", NAME, false);
    for (int i = 0; i < n; i++)
        cell_number(out, r->at_m[i], 2, "");
    bys_text_add(out, "\n");
    for (int i = 0; i < r->test_count; i++) {
        if (r->tests[i].hold.wanted)
            continue;
        bys_layout_cell(out, r->tests[i].test, NAME, false);
        for (int k = 0; k < n; k++)
            cell_number(out, r->tests[i].at_load_N[k] / 1e3, 2, "");
        bys_text_add(out, "\n");
    }
    bys_text_add(out, "\n");
}

static void add_fractiles(bys_text *out, const bys_pull_fractile *f, int width, const char *name)
{
    for (int i = 0; i < BYS_PULL_FRACTILES; i++) {
        if (isnan(f[i].value))
            continue;
        bys_text words = {0};
        add_load(&words, f[i].value);
        bys_text_addf(&words, ", %s, variation %s, k ", f[i].normal ? "normal" : "log-normal",
                      i / 2 ? "known" : "not known");
        bys_text_add_fixed(&words, f[i].k, 2);
        bys_text_addf(&words, ", %d tests", f[i].count);
        if (f[i].bounds)
            bys_text_addf(&words, ", %d of them lower bounds%s", f[i].bounds,
                          f[i].without_bounds ? ", left out" : "");
        line(out, width, name, &words);
    }
}

static void add_group(bys_text *out, const bys_pull_group *g, int width)
{
    bys_text words = {0};
    bys_text_addf(&words, "%s in %s, %d %s", g->anchor, g->soil, g->test_count,
                  g->test_count == 1 ? "test" : "tests");
    add_words(out, width, "anchor", words.data ? words.data : "");
    bys_text_free(&words);
    bys_text capacity = {0};
    add_load(&capacity, g->capacity_N);
    bys_text_addf(&capacity, ", %s: %s", bys_capacity_kind_name(g->kind), g->capacity_why);
    line(out, width, "capacity", &capacity);
    add_fractiles(out, g->capacity, width, "5 % fractile");
    add_fractiles(out, g->peak, width, "5 % of peaks");
}

void bys_write_pulltest_text(bys_text *out, const bys_pulltest *result, int width)
{
    for (int i = 0; i < result->test_count; i++)
        add_test(out, &result->tests[i], width);
    if (result->group_count && result->comparable) {
        add_table(out, result);
        add_loads(out, result, width);
    } else if (result->group_count) {
        bys_text_add(out, "These tests do not compare:\n");
        for (int i = 0; i < result->why_not_count; i++)
            bys_layout_wrap(out, result->why_not[i], width, "  ", "    ");
        bys_text_add(out, "\n");
    }
    for (int i = 0; i < result->group_count; i++)
        add_group(out, &result->groups[i], width);
}
