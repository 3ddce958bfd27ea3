// SPDX-License-Identifier: GPL-3.0-or-later
// One equilibrium, schema "byssus.state/1".
#include "write/account.h"
#include "write/json.h"

#include <byssus/write.h>

static double degrees(double rad)
{
    return rad * (180.0 / 3.14159265358979323846);
}

static void add_end(bys_json *json, const char *key, const bys_end_row *end)
{
    bys_json_open(json, key, '{', true);
    bys_json_number(json, "fx_kN", end->fx / 1000.0);
    bys_json_number(json, "fy_kN", end->fy / 1000.0);
    bys_json_number(json, "fz_kN", end->fz / 1000.0);
    bys_json_number(json, "tension_kN", end->tension / 1000.0);
    bys_json_close(json, '}');
}

static void add_nodes(bys_json *json, const bys_solution *solution)
{
    bys_json_open(json, "nodes", '[', false);
    for (int i = 0; i < solution->node_count; i++) {
        const bys_node_row *node = &solution->nodes[i];
        bys_json_open(json, NULL, '{', true);
        bys_json_string(json, "id", node->id);
        bys_json_number(json, "x_m", node->x);
        bys_json_number(json, "y_m", node->y);
        bys_json_number(json, "z_m", node->z);
        bys_json_close(json, '}');
    }
    bys_json_close(json, ']');
}

static void add_spans(bys_json *json, const bys_solution *solution)
{
    bys_json_open(json, "spans", '[', false);
    for (int i = 0; i < solution->span_count; i++) {
        const bys_span_row *span = &solution->spans[i];
        bys_json_open(json, NULL, '{', true);
        bys_json_string(json, "id", span->id);
        bys_json_string(json, "section", span->section);
        add_end(json, "end_a", &span->end_a);
        add_end(json, "end_b", &span->end_b);
        bys_json_number(json, "length_m", span->length_m);
        bys_json_number(json, "stretched_m", span->stretched_m);
        bys_json_number(json, "grounded_m", span->grounded_m);
        bys_json_close(json, '}');
    }
    bys_json_close(json, ']');
}

static void add_supports(bys_json *json, const bys_solution *solution)
{
    bys_json_open(json, "supports", '[', false);
    for (int i = 0; i < solution->support_count; i++) {
        const bys_support_row *support = &solution->supports[i];
        bys_json_open(json, NULL, '{', true);
        bys_json_string(json, "id", support->id);
        bys_json_number(json, "fx_kN", support->fx / 1000.0);
        bys_json_number(json, "fy_kN", support->fy / 1000.0);
        bys_json_number(json, "fz_kN", support->fz / 1000.0);
        bys_json_number(json, "uplift_deg", degrees(support->uplift_rad));
        bys_json_close(json, '}');
    }
    bys_json_close(json, ']');
}

static void add_bodies(bys_json *json, const bys_solution *solution)
{
    bys_json_open(json, "bodies", '[', false);
    for (int i = 0; i < solution->body_count; i++) {
        const bys_body_row *body = &solution->bodies[i];
        bys_json_open(json, NULL, '{', true);
        bys_json_string(json, "id", body->id);
        bys_json_number(json, "x_m", body->x);
        bys_json_number(json, "y_m", body->y);
        bys_json_number(json, "z_m", body->z);
        bys_json_number(json, "roll_deg", degrees(body->roll_rad));
        bys_json_number(json, "pitch_deg", degrees(body->pitch_rad));
        bys_json_number(json, "yaw_deg", degrees(body->yaw_rad));
        bys_json_number(json, "draft_m", body->draft_m);
        bys_json_close(json, '}');
    }
    bys_json_close(json, ']');
}

static void add_floats(bys_json *json, const bys_solution *solution)
{
    bys_json_open(json, "floats", '[', false);
    for (int i = 0; i < solution->float_count; i++) {
        const bys_float_row *row = &solution->floats[i];
        bys_json_open(json, NULL, '{', true);
        bys_json_string(json, "id", row->id);
        bys_json_number(json, "submerged", row->submerged);
        bys_json_number(json, "reserve_N", row->reserve_N);
        bys_json_close(json, '}');
    }
    bys_json_close(json, ']');
}

static void add_hanging(bys_json *json, const bys_solution *solution)
{
    bys_json_open(json, "hanging", '[', false);
    for (int i = 0; i < solution->hanging_count; i++) {
        const bys_hanging_row *row = &solution->hanging[i];
        bys_json_open(json, NULL, '{', true);
        bys_json_string(json, "id", row->id);
        bys_json_number(json, "swing_deg", degrees(row->swing_rad));
        bys_json_number(json, "lowest_z_m", row->lowest_z);
        bys_json_number(json, "clearance_m", row->clearance_m);
        bys_json_number(json, "weight_N", row->weight_N);
        bys_json_number(json, "drag_N", row->drag_N);
        bys_json_close(json, '}');
    }
    bys_json_close(json, ']');
}

/// Without friction, with it, in slack water after it, in slack water without it.
static void add_four(bys_json *json, const char *name, const double *values, double unit)
{
    bys_json_open(json, name, '[', true);
    for (int k = 0; k < 4; k++)
        bys_json_number(json, NULL, values[k] / unit);
    bys_json_close(json, ']');
}

static void add_friction(bys_json *json, const bys_friction *friction)
{
    bys_json_open(json, "friction", '{', false);
    bys_json_number(json, "mu_rope", friction->mu_rope);
    bys_json_number(json, "mu_chain", friction->mu_chain);
    bys_json_string(json, "basis", bys_basis_name(friction->basis));
    bys_json_string(json, "status", bys_status_name(friction->status));
    bys_json_string(json, "reason", friction->reason);
    bys_json_number(json, "mismatch", friction->mismatch);
    bys_json_number(json, "reach_m", friction->reach_m);
    bys_json_open(json, "states", '[', true);
    bys_json_string(json, NULL, "without");
    bys_json_string(json, NULL, "with");
    bys_json_string(json, NULL, "slack-after");
    bys_json_string(json, NULL, "slack-without");
    bys_json_close(json, ']');
    bys_json_open(json, "legs", '[', false);
    for (int i = 0; i < friction->row_count; i++) {
        const bys_friction_row *row = &friction->rows[i];
        bys_json_open(json, NULL, '{', true);
        bys_json_string(json, "id", row->id);
        add_four(json, "grounded_m", row->grounded_m, 1.0);
        add_four(json, "anchor_kN", row->anchor_N, 1000.0);
        add_four(json, "horizontal_kN", row->horizontal_N, 1000.0);
        add_four(json, "vertical_kN", row->vertical_N, 1000.0);
        add_four(json, "top_kN", row->top_N, 1000.0);
        bys_json_close(json, '}');
    }
    bys_json_close(json, ']');
    bys_json_close(json, '}');
}

void bys_write_solution_json(bys_text *out, const bys_solution *solution)
{
    bys_json json = {.out = out};
    bys_json_open(&json, NULL, '{', false);
    bys_json_string(&json, "schema", "byssus.state/1");
    bys_json_string(&json, "program", "byssus " BYS_VERSION);
    bys_json_string(&json, "case", solution->case_id);
    bys_json_string(&json, "status", bys_status_name(solution->status));
    bys_json_string(&json, "reason", solution->reason);
    bys_json_string(&json, "note", solution->note);
    bys_json_number(&json, "residual_N", solution->residual_N);
    bys_json_number(&json, "sum_share", solution->sum_share);
    bys_json_integer(&json, "factorisations", solution->factorisations);
    add_nodes(&json, solution);
    add_spans(&json, solution);
    add_supports(&json, solution);
    add_bodies(&json, solution);
    add_floats(&json, solution);
    add_hanging(&json, solution);
    bys_account_json(&json, "account", &solution->account);
    if (solution->friction)
        add_friction(&json, solution->friction);
    bys_json_close(&json, '}');
    bys_json_finish(&json);
}
