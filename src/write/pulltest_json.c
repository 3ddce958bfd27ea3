// SPDX-License-Identifier: GPL-3.0-or-later
// The contract "byssus.pulltest/1".
#include "write/json.h"
#include "write/rows.h"

#include <byssus/pulltest.h>

#include <math.h>

static void add_kN(bys_json *json, const char *key, double newton)
{
    bys_json_number(json, key, newton / 1e3);
}

static void add_deg(bys_json *json, const char *key, double rad)
{
    bys_json_number(json, key, rad * 180.0 / 3.14159265358979323846);
}

static void add_record(bys_json *json, const bys_pull_test *t)
{
    bys_json_string(json, "file", t->file);
    bys_json_string(json, "test", t->test);
    bys_json_string(json, "anchor", t->anchor);
    bys_json_number(json, "mass_kg", t->mass_kg);
    bys_json_string(json, "soil", t->soil);
    add_deg(json, "bed_slope_deg", t->bed_slope_rad);
    bys_json_string(json, "tackle", t->tackle);
    bys_json_number(json, "scope", t->scope);
    add_deg(json, "pull_angle_deg", t->pull_angle_rad);
    bys_json_number(json, "load_rate_m_s", t->load_rate_mps);
    bys_json_string(json, "load_cell", t->load_cell);
    bys_json_string(json, "calibration_date", t->calibration_date);
    bys_json_string(json, "date", t->date);
    bys_json_string(json, "place", t->place);
    bys_json_string(json, "note", t->note);
    bys_json_string(json, "ended", t->ended);
    bys_json_string(json, "failure", t->failure);
}

static void add_loads(bys_json *json, const bys_pull_test *t, const bys_pulltest *result)
{
    bys_json_open(json, "at", '[', false);
    for (int i = 0; i < result->at_count; i++) {
        bys_json_open(json, NULL, '{', true);
        bys_json_number(json, "drag_m", result->at_m[i]);
        add_kN(json, "load_kN", t->at_load_N[i]);
        bys_json_close(json, '}');
    }
    bys_json_close(json, ']');
}

static void add_hold(bys_json *json, const bys_pull_hold *h)
{
    bys_json_open(json, "hold", '{', false);
    add_kN(json, "load_kN", h->load_N);
    bys_json_number(json, "time_s", h->time_s);
    bys_json_number(json, "held_s", h->held_s);
    bys_json_number(json, "drag_m", h->drag_m);
    bys_json_number(json, "along_m", h->along_m);
    bys_json_number(json, "across_m", h->across_m);
    bys_json_number(json, "box_along_m", h->box_along_m);
    bys_json_number(json, "box_across_m", h->box_across_m);
    bys_json_string(json, "verdict", bys_verdict_name(h->verdict));
    bys_json_string(json, "why", h->why);
    bys_json_close(json, '}');
}

static void add_reduction(bys_json *json, const bys_pull_test *t)
{
    bys_json_integer(json, "readings", t->reading_count);
    add_kN(json, "peak_kN", t->peak_N);
    bys_json_number(json, "peak_drag_m", t->peak_drag_m);
    bys_json_boolean(json, "lower_bound", t->lower_bound);
    bys_json_number(json, "set50_m", t->set50_m);
    bys_json_number(json, "set90_m", t->set90_m);
    add_kN(json, "steady_low_kN", t->steady_low_N);
    add_kN(json, "steady_high_kN", t->steady_high_N);
    bys_json_number(json, "fall", t->fall);
    bys_json_boolean(json, "rolled_out", t->rolled_out);
    bys_json_number(json, "efficiency", t->efficiency);
    bys_json_number(json, "steady_efficiency", t->steady_efficiency);
    bys_json_number(json, "energy_kJ", t->energy_J / 1e3);
    bys_json_number(json, "first_drag_m", t->first_drag_m);
    bys_json_number(json, "last_drag_m", t->last_drag_m);
    bys_json_number(json, "embedment_m", t->embedment_m);
}

// A hold test says what was held: it has no ultimate capacity.
static void add_capacity(bys_json *json, const bys_pull_test *t)
{
    const bool hold = t->hold.wanted;
    const double proof = t->hold.verdict == BYS_PASS ? t->hold.load_N : NAN;
    bys_json_string(json, "kind", bys_capacity_kind_name(hold ? BYS_CAPACITY_PROOF
                                                              : BYS_CAPACITY_ULTIMATE));
    add_kN(json, "capacity_kN", hold ? proof : t->capacity_N);
    bys_json_boolean(json, "capacity_is_lower_bound", !hold && t->capacity_bound);
    bys_json_string(json, "capacity_why", hold ? t->hold.why : t->capacity_why);
    add_kN(json, "residual_kN", hold ? NAN : t->residual_N);
}

static void add_test(bys_json *json, const bys_pull_test *t, const bys_pulltest *result)
{
    bys_json_open(json, NULL, '{', false);
    add_record(json, t);
    add_reduction(json, t);
    add_loads(json, t, result);
    add_capacity(json, t);
    if (t->hold.wanted)
        add_hold(json, &t->hold);
    bys_json_close(json, '}');
}

static void add_fractiles(bys_json *json, const char *key, const bys_pull_fractile *f)
{
    bys_json_open(json, key, '[', false);
    for (int i = 0; i < BYS_PULL_FRACTILES; i++) {
        bys_json_open(json, NULL, '{', true);
        bys_json_string(json, "distribution", f[i].normal ? "normal" : "log-normal");
        bys_json_boolean(json, "variation_known", i / 2 == 1);
        bys_json_number(json, "variation", f[i].variation);
        bys_json_number(json, "k", f[i].k);
        add_kN(json, "value_kN", f[i].value);
        bys_json_integer(json, "count", f[i].count);
        bys_json_integer(json, "bounds", f[i].bounds);
        bys_json_boolean(json, "bounds_left_out", f[i].without_bounds);
        bys_json_string(json, "why", f[i].why);
        bys_json_close(json, '}');
    }
    bys_json_close(json, ']');
}

static void add_group(bys_json *json, const bys_pull_group *g, const bys_pulltest *result)
{
    bys_json_open(json, NULL, '{', false);
    bys_json_string(json, "anchor", g->anchor);
    bys_json_number(json, "mass_kg", g->mass_kg);
    bys_json_string(json, "soil", g->soil);
    bys_json_open(json, "tests", '[', true);
    for (int i = 0; i < g->test_count; i++)
        bys_json_string(json, NULL, result->tests[g->tests[i]].test);
    bys_json_close(json, ']');
    add_kN(json, "least_kN", g->least_N);
    add_kN(json, "mean_kN", g->mean_N);
    add_fractiles(json, "peak_fractiles", g->peak);
    add_fractiles(json, "capacity_fractiles", g->capacity);
    bys_json_string(json, "kind", bys_capacity_kind_name(g->kind));
    add_kN(json, "capacity_kN", g->capacity_N);
    bys_json_string(json, "capacity_why", g->capacity_why);
    bys_json_close(json, '}');
}

void bys_write_pulltest_json(bys_text *out, const bys_pulltest *result)
{
    bys_json json = {.out = out};
    bys_json_open(&json, NULL, '{', false);
    bys_json_string(&json, "schema", "byssus.pulltest/1");
    bys_json_number(&json, "permitted_drag_m", result->options.permitted_drag_m);
    bys_json_number(&json, "roll_out_share", result->options.roll_out_share);
    bys_json_boolean(&json, "comparable", result->comparable);
    bys_json_open(&json, "why_not", '[', false);
    for (int i = 0; i < result->why_not_count; i++)
        bys_json_string(&json, NULL, result->why_not[i]);
    bys_json_close(&json, ']');
    bys_json_open(&json, "tests", '[', false);
    for (int i = 0; i < result->test_count; i++)
        add_test(&json, &result->tests[i], result);
    bys_json_close(&json, ']');
    bys_json_open(&json, "groups", '[', false);
    for (int i = 0; i < result->group_count; i++)
        add_group(&json, &result->groups[i], result);
    bys_json_close(&json, ']');
    bys_json_close(&json, '}');
    bys_json_finish(&json);
}
