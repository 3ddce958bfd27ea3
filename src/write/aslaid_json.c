// SPDX-License-Identifier: GPL-3.0-or-later
// What was laid, for programs: "byssus.aslaid/1".
#include "write/compare_rows.h"
#include "write/files.h"
#include "write/json.h"
#include "write/rows.h"
#include <byssus/aslaid.h>

#include <math.h>

static void add_state(bys_json *json, const char *key, const bys_design *design, const char *why)
{
    bys_json_open(json, key, '{', true);
    bys_json_boolean(json, "solved", design != NULL);
    bys_json_string(json, "why_not", why);
    bys_json_string(json, "verdict", design ? design->verdict : "");
    bys_json_string(json, "headline", design ? design->headline : "");
    bys_json_close(json, '}');
}

static void add_anchor(bys_json *json, const bys_aslaid *r, const bys_laid_anchor *a)
{
    bys_json_open(json, NULL, '{', false);
    bys_json_string(json, "id", a->id);
    bys_json_string(json, "kind", a->kind);
    bys_json_boolean(json, "surveyed", a->surveyed);
    bys_json_string(json, "name", a->name);
    bys_json_number(json, "line", a->line);
    bys_json_string(json, "time", a->time);
    bys_json_number(json, "design_x_m", a->design_x_m);
    bys_json_number(json, "design_y_m", a->design_y_m);
    bys_json_number(json, "x_m", a->x_m);
    bys_json_number(json, "y_m", a->y_m);
    bys_json_number(json, "offset_m", a->offset_m);
    bys_json_number(json, "bearing_deg", bys_compass_degrees(a->bearing_rad));
    bys_json_number(json, "outward_m", a->along_m);
    bys_json_number(json, "right_m", a->across_m);
    bys_json_string(json, "box", a->round ? "circle" : "rectangle");
    bys_json_number(json, "box_half_along_m", a->half_along_m);
    bys_json_number(json, "box_half_across_m", a->half_across_m);
    bys_json_boolean(json, "inside_box", a->inside_box);
    bys_json_number(json, "lease_margin_m", a->lease_margin_m);
    bys_json_boolean(json, "inside_lease", a->inside_lease);
    bys_json_open(json, "legs", '[', true);
    for (int i = 0; i < a->leg_count; i++)
        bys_json_string(json, NULL, r->legs[a->legs[i]].id);
    bys_json_close(json, ']');
    bys_json_close(json, '}');
}

static void add_side(bys_json *json, const char *key, const bys_laid_side *side)
{
    bys_json_open(json, key, '{', true);
    bys_json_boolean(json, "solved", side->known);
    bys_json_number(json, "tension_kN", side->tension_N / 1000.0);
    bys_json_number(json, "pretension_kN", side->pretension_N / 1000.0);
    bys_json_number(json, "line_utilisation", side->line_use);
    bys_json_number(json, "anchor_utilisation", side->anchor_use);
    bys_json_string(json, "verdict", side->known ? bys_verdict_name(side->verdict) : "");
    bys_json_close(json, '}');
}

static void add_leg(bys_json *json, const bys_aslaid *r, const bys_laid_leg *leg)
{
    bys_json_open(json, NULL, '{', false);
    bys_json_string(json, "id", leg->id);
    bys_json_string(json, "anchor", r->anchors[leg->anchor].id);
    add_side(json, "design", &leg->design);
    add_side(json, "as_made", &leg->made);
    add_side(json, "adjusted", &leg->adjusted);
    bys_json_boolean(json, "no_longer_passes", leg->no_longer);
    bys_json_boolean(json, "nor_adjusted", leg->still);
    bys_json_string(json, "warp", leg->piece);
    bys_json_string(json, "part", leg->part);
    bys_json_number(json, "cut_m", leg->cut_m);
    bys_json_number(json, "adjusted_m", leg->adjusted_m);
    bys_json_number(json, "adjustment_m", leg->adjusted_m - leg->cut_m);
    bys_json_number(json, "measured_kN", leg->measured_N / 1000.0);
    bys_json_string(json, "measured_says", leg->measured_says);
    bys_json_boolean(json, "measure", leg->ask);
    bys_json_string(json, "measure_why", leg->ask_why);
    bys_json_close(json, '}');
}

static void add_stray(bys_json *json, const bys_laid_stray *s)
{
    bys_json_open(json, NULL, '{', true);
    bys_json_string(json, "name", s->name);
    bys_json_number(json, "line", s->line);
    bys_json_number(json, "x_m", s->x_m);
    bys_json_number(json, "y_m", s->y_m);
    bys_json_string(json, "nearest_name", s->near_name);
    bys_json_string(json, "nearest_anchor", s->near_place);
    bys_json_number(json, "distance_m", s->near_m);
    bys_json_boolean(json, "matters", s->matters);
    bys_json_close(json, '}');
}

static void add_failures(bys_json *json, const char *key, const bys_comparison *c)
{
    bys_json_open(json, key, '[', false);
    for (int i = 0; c && i < c->fresh_count; i++) {
        bys_json_open(json, NULL, '{', true);
        bys_json_string(json, "kind", c->fresh[i].kind);
        bys_json_string(json, "item", c->fresh[i].item);
        bys_json_number(json, "value", c->fresh[i].value_after);
        bys_json_number(json, "limit", c->fresh[i].limit);
        bys_json_string(json, "unit", c->fresh[i].unit);
        bys_json_string(json, "text", c->fresh[i].text);
        bys_json_close(json, '}');
    }
    bys_json_close(json, ']');
}

static void add_head(bys_json *json, const bys_aslaid *r)
{
    bys_json_string(json, "schema", "byssus.aslaid/1");
    bys_json_string(json, "program", "byssus " BYS_VERSION);
    bys_json_string(json, "site", r->design->site);
    bys_json_string(json, "notice", r->design->notice);
    bys_json_string(json, "file", r->design->file);
    bys_json_string(json, "sha256", r->design->sha256);
    bys_json_string(json, "positions", r->file);
    bys_json_string(json, "positions_sha256", r->sha256);
    bys_json_string(json, "verdict", r->verdict);
    bys_json_string(json, "headline", r->headline);
    bys_json_number(json, "surveyed", r->surveyed);
    bys_json_number(json, "outside_box", r->outside_box);
    bys_json_number(json, "outside_lease", r->outside_lease);
    add_state(json, "design", r->design, "");
    add_state(json, "as_made", r->made, r->made_why);
    add_state(json, "adjusted", r->adjusted, r->adjusted_why);
}

void bys_write_aslaid_json(bys_text *out, const bys_aslaid *r)
{
    bys_json json = {.out = out};
    bys_json_open(&json, NULL, '{', false);
    add_head(&json, r);
    bys_json_open(&json, "anchors", '[', false);
    for (int i = 0; i < r->anchor_count; i++)
        add_anchor(&json, r, &r->anchors[i]);
    bys_json_close(&json, ']');
    bys_json_open(&json, "unmatched", '[', false);
    for (int i = 0; i < r->stray_count; i++)
        add_stray(&json, &r->strays[i]);
    bys_json_close(&json, ']');
    bys_json_open(&json, "legs", '[', false);
    for (int l = 0; l < r->leg_count; l++)
        add_leg(&json, r, &r->legs[l]);
    bys_json_close(&json, ']');
    add_failures(&json, "new_failures_as_made", r->change);
    add_failures(&json, "new_failures_adjusted", r->remains);
    bys_json_close(&json, '}');
    bys_json_finish(&json);
}

bys_rc bys_write_aslaid_directory(const bys_aslaid *result, const char *dir, bys_error *err)
{
    bys_result_file files[] = {{"aslaid.json", {0}}, {"aslaid.html", {0}}};
    bys_write_aslaid_json(&files[0].text, result);
    bys_write_aslaid_html(&files[1].text, result);
    return bys_write_files(files, 2, dir, err);
}
