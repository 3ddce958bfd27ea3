// SPDX-License-Identifier: GPL-3.0-or-later
// The crop calendar for programs: "byssus.calendar/1".
#include "write/files.h"
#include "write/json.h"
#include <byssus/calendar.h>

#include <math.h>

static void add_month(bys_json *json, const bys_calendar *c, int m) {
    const bys_month *row = &c->months[m];
    bys_json_open(json, NULL, '{', true);
    bys_json_number(json, "month", row->month);
    bys_json_string(json, "stage", row->stage);
    bys_json_string(json, "name", row->name);
    bys_json_boolean(json, "between", row->between);
    bys_json_boolean(json, "solved", row->solved);
    bys_json_string(json, "verdict", row->verdict);
    bys_json_string(json, "verdict_added", row->verdict_added);
    bys_json_number(json, "floats_to_add", row->to_add);
    bys_json_number(json, "largest_tension_kN", row->largest_N / 1000.0);
    bys_json_string(json, "largest_leg", row->largest_leg >= 0 ? c->legs[row->largest_leg] : "");
    bys_json_number(json, "largest_tension_added_kN", row->largest_added_N / 1000.0);
    bys_json_string(json, "largest_leg_added",
                    row->largest_added_leg >= 0 ? c->legs[row->largest_added_leg] : "");
    bys_json_close(json, '}');
}

// One array a quantity, an entry a month.
static void add_series(bys_json *json, const char *key, const double *first, int count, size_t step,
                       double factor) {
    bys_json_open(json, key, '[', true);
    for (int m = 0; m < count; m++)
        bys_json_number(json, NULL,
                        *(const double *)(const void *)((const char *)first + (size_t)m * step) *
                            factor);
    bys_json_close(json, ']');
}

static void add_zone(bys_json *json, const bys_calendar *c, int z) {
    const bys_zone_month *first = &c->zone_months[z];
    const size_t step = (size_t)c->zone_count * sizeof *first;
    bys_json_open(json, NULL, '{', false);
    bys_json_string(json, "line", c->zones[z].line);
    bys_json_string(json, "zone", c->zones[z].name);
    bys_json_boolean(json, "at_end", c->zones[z].at_end);
    add_series(json, "floats", &first->count, c->month_count, step, 1.0);
    add_series(json, "reserve", &first->reserve, c->month_count, step, 1.0);
    add_series(json, "submerged", &first->submerged, c->month_count, step, 1.0);
    add_series(json, "reserve_added", &first->reserve_added, c->month_count, step, 1.0);
    add_series(json, "submerged_added", &first->submerged_added, c->month_count, step, 1.0);
    bys_json_close(json, '}');
}

static void add_plan(bys_json *json, const bys_calendar *c, const bys_float_plan *plan) {
    bys_json_open(json, NULL, '{', false);
    bys_json_string(json, "line", plan->line);
    bys_json_string(json, "pattern", plan->pattern);
    bys_json_string(json, "part", plan->part);
    bys_json_number(json, "first_month", plan->first >= 0 ? c->months[plan->first].month : NAN);
    bys_json_number(json, "to_add", plan->total);
    bys_json_open(json, "row", '[', true);
    for (int m = 0; m < c->month_count; m++)
        bys_json_number(json, NULL, plan->row[m]);
    bys_json_close(json, ']');
    bys_json_open(json, "added", '[', true);
    for (int m = 0; m < c->month_count; m++)
        bys_json_number(json, NULL, plan->added[m]);
    bys_json_close(json, ']');
    bys_json_close(json, '}');
}

static void add_leg(bys_json *json, const bys_calendar *c, int l) {
    const size_t step = (size_t)c->leg_count * sizeof(double);
    bys_json_open(json, NULL, '{', false);
    bys_json_string(json, "id", c->legs[l]);
    add_series(json, "tension_kN", c->tension_N + l, c->month_count, step, 1e-3);
    add_series(json, "tension_added_kN", c->tension_added_N + l, c->month_count, step, 1e-3);
    add_series(json, "utilisation", c->use + l, c->month_count, step, 1.0);
    add_series(json, "utilisation_added", c->use_added + l, c->month_count, step, 1.0);
    bys_json_close(json, '}');
}

static void add_head(bys_json *json, const bys_calendar *c) {
    bys_json_string(json, "schema", "byssus.calendar/1");
    bys_json_string(json, "program", "byssus " BYS_VERSION);
    bys_json_string(json, "site", c->site);
    bys_json_string(json, "notice", c->notice);
    bys_json_string(json, "file", c->file);
    bys_json_string(json, "sha256", c->sha256);
    bys_json_string(json, "verdict", c->verdict);
    bys_json_string(json, "headline", c->headline);
    bys_json_string(json, "between", c->grows ? "linear" : "steps");
    bys_json_number(json, "reserve_demanded", c->reserve);
    bys_json_number(json, "floats_to_add", c->to_add);
    bys_json_boolean(json, "short_of", c->short_of);
}

void bys_write_calendar_json(bys_text *out, const bys_calendar *c) {
    bys_json json = {.out = out};
    bys_json_open(&json, NULL, '{', false);
    add_head(&json, c);
    bys_json_open(&json, "months", '[', false);
    for (int m = 0; m < c->month_count; m++)
        add_month(&json, c, m);
    bys_json_close(&json, ']');
    bys_json_open(&json, "floats", '[', false);
    for (int l = 0; l < c->plan_count; l++)
        add_plan(&json, c, &c->plans[l]);
    bys_json_close(&json, ']');
    bys_json_open(&json, "zones", '[', false);
    for (int z = 0; z < c->zone_count; z++)
        add_zone(&json, c, z);
    bys_json_close(&json, ']');
    bys_json_open(&json, "legs", '[', false);
    for (int l = 0; l < c->leg_count; l++)
        add_leg(&json, c, l);
    bys_json_close(&json, ']');
    bys_json_close(&json, '}');
    bys_json_finish(&json);
}

bys_rc bys_write_calendar_directory(const bys_calendar *calendar, const char *dir, bys_error *err) {
    bys_result_file files[] = {{"calendar.json", {0}}, {"calendar.html", {0}}};
    bys_write_calendar_json(&files[0].text, calendar);
    bys_write_calendar_html(&files[1].text, calendar);
    return bys_write_files(files, 2, dir, err);
}
