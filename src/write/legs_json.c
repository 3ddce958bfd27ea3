// SPDX-License-Identifier: GPL-3.0-or-later
// legs.json, schema "byssus.legs/1": the contract for programs that read results.
#include "write/account.h"
#include "write/cascade.h"
#include "write/conditions.h"
#include "write/environments.h"
#include "write/json.h"
#include "write/profiles.h"
#include "write/marks.h"
#include "write/rows.h"

#include <byssus/write.h>

#include <math.h>
#include <string.h>

static void enter_group(bys_json *json, const char *group)
{
    while (*group) {
        size_t n = strcspn(group, ".");
        bys_text name = {0};
        bys_text_add_bytes(&name, group, n);
        if (name.failed)
            json->out->failed = true;
        bys_json_open(json, name.failed ? "" : name.data, '{', false);
        bys_text_free(&name);
        group += n + (group[n] == '.');
    }
}

static void leave_group(bys_json *json, const char *group)
{
    while (*group) {
        size_t n = strcspn(group, ".");
        bys_json_close(json, '}');
        group += n + (group[n] == '.');
    }
}

/// The worst of other kinds of conditions stand beside "lost".
static void leave_reported(bys_json *json, const char *group, const bys_leg_result *leg)
{
    if (strcmp(group, "reported.lost") != 0) {
        leave_group(json, group);
        return;
    }
    bys_json_close(json, '}');
    bys_reported_json(json, leg);
    bys_json_close(json, '}');
}

static void add_cell(bys_json *json, const char *key, const bys_cell *cell)
{
    if (cell->kind == BYS_CELL_TEXT)
        bys_json_string(json, key, cell->text);
    else if (cell->kind == BYS_CELL_VERDICT)
        bys_json_string(json, key, bys_verdict_name(cell->verdict));
    else
        bys_json_number(json, key, cell->number);
}

static void add_columns(bys_json *json, const bys_design *design, const bys_leg_result *leg)
{
    const char *group = "";
    for (int c = 0; c < bys_column_count; c++) {
        const bys_column *column = &bys_columns[c];
        if (strcmp(column->group, group) != 0) {
            leave_reported(json, group, leg);
            enter_group(json, column->group);
            group = column->group;
        }
        bys_cell cell = column->get(design, leg);
        add_cell(json, column->key, &cell);
    }
    leave_reported(json, group, leg);
}

static void add_kilonewtons(bys_json *json, const char *key, const double *newtons, int count)
{
    bys_json_open(json, key, '[', true);
    for (int i = 0; newtons && i < count; i++)
        bys_json_number(json, NULL, newtons[i] / 1000.0);
    bys_json_close(json, ']');
}

static void add_piece(bys_json *json, const bys_leg_piece *piece)
{
    bys_json_open(json, NULL, '{', true);
    bys_json_string(json, "id", piece->id);
    bys_json_string(json, "part", piece->part);
    bys_json_string(json, "kind", piece->kind);
    bys_json_number(json, "length_m", piece->length_m);
    bys_json_number(json, "count", piece->count);
    bys_json_number(json, "mass_kg", piece->mass_kg);
    bys_json_number(json, "tension_kN", piece->tension_N / 1000.0);
    bys_json_number(json, "strength_kN", piece->strength_N / 1000.0);
    bys_json_number(json, "utilisation", piece->utilisation);
    bys_json_string(json, "verdict", bys_verdict_name(piece->verdict));
    bys_json_string(json, "basis", bys_basis_name(piece->basis));
    bys_json_number(json, "new_kN", piece->new_N / 1000.0);
    bys_json_open(json, "reductions", '[', true);
    for (int i = 0; i < piece->reduction_count; i++) {
        bys_json_open(json, NULL, '{', true);
        bys_json_string(json, "for", piece->reductions[i].what);
        bys_json_number(json, "share", piece->reductions[i].share);
        bys_json_close(json, '}');
    }
    bys_json_close(json, ']');
    bys_json_close(json, '}');
}

static void add_leg(bys_json *json, const bys_design *design, const bys_leg_result *leg)
{
    bys_json_open(json, NULL, '{', false);
    add_columns(json, design, leg);
    bys_json_open(json, "pieces", '[', false);
    for (int i = 0; i < leg->piece_count; i++)
        add_piece(json, &leg->pieces[i]);
    bys_json_close(json, ']');
    add_kilonewtons(json, "by_direction_kN", leg->by_direction_N, design->direction_count);
    add_kilonewtons(json, "by_direction_lost_kN", leg->by_direction_lost_N,
                    design->direction_count);
    bys_json_close(json, '}');
}

static void add_mark(bys_json *json, const char *key, const bys_mark *mark, bool placed, bool grid)
{
    bys_json_open(json, key, '{', true);
    bys_json_string(json, "name", mark->name);
    bys_json_number(json, "x_m", mark->x_m);
    bys_json_number(json, "y_m", mark->y_m);
    if (grid) {
        bys_json_number(json, "easting_m", mark->easting_m);
        bys_json_number(json, "northing_m", mark->northing_m);
    }
    if (placed) {
        bys_json_number(json, "lat_deg", mark->lat_deg);
        bys_json_number(json, "lon_deg", mark->lon_deg);
    }
    bys_json_close(json, '}');
}

static void add_anchor(bys_json *json, const bys_design *design, const bys_anchor_result *anchor,
                       const bys_marks *marks)
{
    const int index = (int)(anchor - design->anchors);
    const bool placed = design->frame.placed, grid = design->frame.epsg > 0;
    bys_json_open(json, NULL, '{', true);
    bys_json_string(json, "id", anchor->id);
    bys_json_string(json, "kind", anchor->kind);
    bys_json_string(json, "part", anchor->part);
    bys_json_number(json, "x_m", anchor->x_m);
    bys_json_number(json, "y_m", anchor->y_m);
    bys_json_number(json, "depth_m", anchor->depth_m);
    bys_json_number(json, "mass_kg", anchor->mass_kg);
    bys_json_open(json, "legs", '[', true);
    for (int i = 0; i < anchor->leg_count; i++)
        bys_json_string(json, NULL, design->legs[anchor->legs[i]].id);
    bys_json_close(json, ']');
    bys_json_number(json, "heading_deg", bys_compass_degrees(anchor->heading_rad));
    if (anchor->leg_count > 0) { // what all its legs together put on it, in its governing case
        const bys_anchor_load *load = &design->legs[anchor->legs[0]].anchor;
        bys_json_string(json, "case", load->check.case_id ? load->check.case_id : "");
        bys_json_number(json, "horizontal_kN", load->horizontal_N / 1000.0);
        bys_json_number(json, "vertical_kN", load->vertical_N / 1000.0);
    }
    bys_json_number(json, "utilisation", anchor->utilisation);
    bys_json_string(json, "verdict", bys_verdict_name(anchor->verdict));
    bys_json_boolean(json, "inside_lease", anchor->inside_lease);
    bys_json_number(json, "lease_margin_m", anchor->lease_margin_m);
    bys_json_number(json, "drag_m", anchor->drag_m);
    bys_json_open(json, "methods", '[', true);
    for (int i = 0; i < anchor->method_count; i++) {
        bys_json_open(json, NULL, '{', true);
        bys_json_string(json, "method", anchor->methods[i].name);
        bys_json_number(json, "capacity_kN", anchor->methods[i].capacity_N / 1000.0);
        bys_json_boolean(json, "used", anchor->methods[i].used);
        bys_json_close(json, '}');
    }
    bys_json_close(json, ']');
    bys_json_number(json, "setback_m", anchor->setback_m);
    add_mark(json, "place", bys_marks_anchor(marks, index, false), placed, grid);
    add_mark(json, "drop_point", bys_marks_anchor(marks, index, true), placed, grid);
    bys_json_close(json, '}');
}

static void add_frame(bys_json *json, const bys_frame *frame)
{
    bys_json_open(json, "frame", '{', true);
    bys_json_string(json, "kind", frame->kind);
    bys_json_string(json, "north", frame->north);
    if (frame->placed) {
        bys_json_string(json, "datum", frame->datum);
        bys_json_number(json, "origin_lat_deg", frame->lat_deg);
        bys_json_number(json, "origin_lon_deg", frame->lon_deg);
        bys_json_number(json, "wgs84_lat_deg", frame->wgs84_lat_deg);
        bys_json_number(json, "wgs84_lon_deg", frame->wgs84_lon_deg);
        bys_json_number(json, "y_bearing_deg", frame->y_bearing_rad * 57.295779513082323);
    }
    if (frame->epsg > 0) {
        bys_json_integer(json, "epsg", frame->epsg);
        bys_json_string(json, "crs", frame->crs);
        bys_json_number(json, "easting_m", frame->easting_m);
        bys_json_number(json, "northing_m", frame->northing_m);
        bys_json_number(json, "convergence_deg", frame->convergence_rad * 57.295779513082323);
        bys_json_number(json, "scale", frame->scale);
    }
    bys_json_close(json, '}');
}

static void add_finding(bys_json *json, const bys_finding *finding)
{
    bys_json_open(json, NULL, '{', true);
    bys_json_string(json, "kind", finding->kind);
    bys_json_string(json, "item", finding->item);
    bys_json_string(json, "case", finding->case_id);
    bys_json_string(json, "condition", finding->condition);
    bys_json_number(json, "value", finding->value);
    bys_json_number(json, "limit", finding->limit);
    bys_json_string(json, "unit", finding->unit);
    bys_json_string(json, "verdict", bys_verdict_name(finding->verdict));
    bys_json_string(json, "basis", bys_basis_name(finding->basis));
    bys_json_string(json, "text", finding->text);
    bys_json_close(json, '}');
}

static void add_unsettled(bys_json *json, const bys_case_result *result)
{
    bys_json_open(json, NULL, '{', true);
    bys_json_string(json, "case", result->id);
    bys_json_boolean(json, "demanded", result->demanded);
    bys_json_string(json, "status", bys_status_name(result->status));
    bys_json_string(json, "reason", result->reason);
    bys_json_close(json, '}');
}

static void add_strings(bys_json *json, const char *key, const char **strings, int count)
{
    bys_json_open(json, key, '[', false);
    for (int i = 0; i < count; i++)
        bys_json_string(json, NULL, strings[i]);
    bys_json_close(json, ']');
}

static void add_head(bys_json *json, const bys_design *design)
{
    bys_json_string(json, "schema", "byssus.legs/1");
    bys_json_string(json, "program", "byssus " BYS_VERSION);
    bys_json_string(json, "site", design->site);
    bys_json_string(json, "notice", design->notice);
    bys_json_string(json, "sha256", design->sha256);
    add_frame(json, &design->frame);
    bys_json_string(json, "profile", design->profile);
    bys_json_string(json, "verdict", design->verdict);
    bys_json_boolean(json, "incomplete", design->incomplete);
    bys_json_boolean(json, "strict", design->strict);
    bys_json_string(json, "headline", design->headline);
    add_strings(json, "worst_things", design->worst_things, design->worst_count);
    bys_json_integer(json, "unverified_checks", design->unverified_checks);
    bys_json_open(json, "cases", '{', true);
    bys_json_integer(json, "total", design->case_total);
    bys_json_integer(json, "stable", design->case_stable);
    bys_json_close(json, '}');
    bys_json_integer(json, "solves", design->solve_count);
    bys_json_open(json, "audit", '{', true);
    bys_json_number(json, "worst_residual_N", design->worst_residual_N);
    bys_json_number(json, "worst_sum_share", design->worst_sum_share);
    bys_json_close(json, '}');
    bys_json_open(json, "directions_deg", '[', true);
    for (int i = 0; i < design->direction_count; i++)
        bys_json_number(json, NULL, bys_compass_degrees(design->directions_rad[i]));
    bys_json_close(json, ']');
}

static void add_lists(bys_json *json, const bys_design *design)
{
    bys_marks marks;
    if (!bys_marks_make(&marks, design)) {
        json->out->failed = true;
        return;
    }
    bys_json_open(json, "anchors", '[', false);
    for (int i = 0; i < design->anchor_count; i++)
        add_anchor(json, design, &design->anchors[i], &marks);
    bys_json_close(json, ']');
    bys_marks_free(&marks);
    bys_json_open(json, "findings", '[', false);
    for (int i = 0; i < design->finding_count; i++)
        add_finding(json, &design->findings[i]);
    bys_json_close(json, ']');
    bys_conditions_json(json, design);
    bys_environments_json(json, design->environments, design->environment_count);
    bys_drops_json(json, design->drops, design->drop_count);
    bys_cascades_json(json, design);
    bys_json_open(json, "not_stable", '[', false);
    for (int i = 0; i < design->case_count; i++)
        if (design->cases[i].status != BYS_STABLE)
            add_unsettled(json, &design->cases[i]);
    bys_json_close(json, ']');
}

static void add_drag(bys_json *json, const bys_drag_row *row)
{
    bys_json_open(json, NULL, '{', true);
    bys_json_string(json, "part", row->part);
    bys_json_string(json, "kind", row->kind);
    bys_json_string(json, "stage", row->stage);
    bys_json_string(json, "of", row->of);
    bys_json_string(json, "record", row->record);
    bys_json_string(json, "law", row->law);
    bys_json_number(json, "coefficient", row->coefficient);
    bys_json_number(json, "second", row->second);
    bys_json_string(json, "second_is", row->second_is);
    bys_json_number(json, "low", row->low);
    bys_json_number(json, "high", row->high);
    bys_json_string(json, "basis", bys_basis_name(row->basis));
    bys_json_string(json, "source", row->source);
    bys_json_string(json, "because", row->because);
    bys_json_string(json, "credit", row->credit);
    bys_json_close(json, '}');
}

void bys_write_legs_json(bys_text *out, const bys_design *design)
{
    bys_json json = {.out = out};
    bys_json_open(&json, NULL, '{', false);
    add_head(&json, design);
    bys_json_open(&json, "legs", '[', false);
    for (int i = 0; i < design->leg_count; i++)
        add_leg(&json, design, &design->legs[i]);
    bys_json_close(&json, ']');
    add_lists(&json, design);
    bys_json_open(&json, "drag", '[', false);
    for (int i = 0; i < design->drag_count; i++)
        add_drag(&json, &design->drags[i]);
    bys_json_close(&json, ']');
    bys_json_open(&json, "accounts", '[', false);
    for (int i = 0; i < design->account_count; i++)
        bys_account_json(&json, NULL, &design->accounts[i]);
    bys_json_close(&json, ']');
    bys_profiles_json(&json, design);
    add_strings(&json, "warnings", design->warnings, design->warning_count);
    add_strings(&json, "unverified", design->unverified, design->unverified_count);
    add_strings(&json, "sources", design->sources, design->source_count);
    add_strings(&json, "cautions", design->cautions, design->caution_count);
    bys_json_close(&json, '}');
    bys_json_finish(&json);
}
