// SPDX-License-Identifier: GPL-3.0-or-later
// One equilibrium as tables for people.
#include "write/layout.h"
#include "write/rows.h"

#include <byssus/write.h>

#include <string.h>

static void add_cell(bys_text *out, double value, int decimals, int width)
{
    bys_text text = {0};
    bys_number_add(&text, value, decimals);
    bys_layout_cell(out, text.data ? text.data : "", width, true);
    out->failed = out->failed || text.failed;
    bys_text_free(&text);
}

static void add_head(bys_text *out, int first, const char *title, const char *const *heads,
                     int count)
{
    bys_text_add(out, "\n");
    bys_layout_cell(out, title, first, false);
    for (int i = 0; i < count; i++)
        bys_layout_cell(out, heads[i], 11, true);
    bys_text_add(out, "\n");
}

static double degrees(double rad)
{
    return rad * (180.0 / 3.14159265358979323846);
}

static void add_supports(bys_text *out, const bys_solution *solution, int first)
{
    static const char *const heads[] = {"east kN", "north kN", "up kN", "uplift deg"};
    if (solution->support_count)
        add_head(out, first, "Pull on supports", heads, 4);
    for (int i = 0; i < solution->support_count; i++) {
        const bys_support_row *row = &solution->supports[i];
        bys_layout_cell(out, row->id, first, false);
        add_cell(out, row->fx / 1000.0, 3, 11);
        add_cell(out, row->fy / 1000.0, 3, 11);
        add_cell(out, row->fz / 1000.0, 3, 11);
        add_cell(out, degrees(row->uplift_rad), 2, 11);
        bys_text_add(out, "\n");
    }
}

static void add_spans(bys_text *out, const bys_solution *solution, int first)
{
    static const char *const heads[] = {"end a kN", "end b kN", "length m", "on bed m"};
    if (solution->span_count)
        add_head(out, first, "Tension", heads, 4);
    for (int i = 0; i < solution->span_count; i++) {
        const bys_span_row *row = &solution->spans[i];
        bys_layout_cell(out, row->id, first, false);
        add_cell(out, row->end_a.tension / 1000.0, 3, 11);
        add_cell(out, row->end_b.tension / 1000.0, 3, 11);
        add_cell(out, row->length_m, 2, 11);
        add_cell(out, row->grounded_m, 2, 11);
        bys_text_add(out, "\n");
    }
}

static void add_bodies(bys_text *out, const bys_solution *solution, int first)
{
    static const char *const heads[] = {"x m", "y m", "yaw deg", "draft m"};
    if (solution->body_count)
        add_head(out, first, "Rafts and bodies", heads, 4);
    for (int i = 0; i < solution->body_count; i++) {
        const bys_body_row *row = &solution->bodies[i];
        bys_layout_cell(out, row->id, first, false);
        add_cell(out, row->x, 2, 11);
        add_cell(out, row->y, 2, 11);
        add_cell(out, degrees(row->yaw_rad), 2, 11);
        add_cell(out, row->draft_m, 3, 11);
        bys_text_add(out, "\n");
    }
}

// "L01/N/warp.7" is a point inside the section "L01/N/warp".
static bool is_inside(const bys_solution *solution, const char *id)
{
    const char *dot = strrchr(id, '.');
    if (!dot || !dot[1] || strspn(dot + 1, "0123456789") != strlen(dot + 1))
        return false;
    const size_t n = (size_t)(dot - id);
    for (int i = 0; i < solution->span_count; i++)
        if (!strncmp(solution->spans[i].id, id, n) && !solution->spans[i].id[n])
            return true;
    return false;
}

static void add_nodes(bys_text *out, const bys_solution *solution, int first)
{
    static const char *const heads[] = {"x m", "y m", "z m"};
    bool any = false;
    int left_out = 0;
    for (int i = 0; i < solution->node_count; i++) {
        const bys_node_row *row = &solution->nodes[i];
        if (!*row->id || is_inside(solution, row->id)) {
            left_out++;
            continue;
        }
        if (!any)
            add_head(out, first, "Points", heads, 3);
        any = true;
        bys_layout_cell(out, row->id, first, false);
        add_cell(out, row->x, 3, 11);
        add_cell(out, row->y, 3, 11);
        add_cell(out, row->z, 3, 11);
        bys_text_add(out, "\n");
    }
    if (left_out || solution->float_count || solution->hanging_count)
        bys_text_addf(out, "\nWith --json also: %d points within sections, %d floats, %d pieces of "
                           "gear.\n",
                      left_out, solution->float_count, solution->hanging_count);
}

/// Legs of which something lies on the bed; others feel no friction.
static void add_friction(bys_text *out, const bys_friction *f, int width, int first)
{
    static const char *const heads[] = {"without", "with", "after", "slack"};
    int left_out = 0;
    bys_text words = {0};
    bys_text_add(out, "\n");
    bys_text_addf(&words,
                  "Study of friction on the bed, chain %.2f and rope %.2f of the bed force (%s): "
                  "legs laid in slack water, then loaded by the case (with), then in slack water "
                  "again (after), which without friction is the last column (slack). Checks take "
                  "no such credit.",
                  f->mu_chain, f->mu_rope, bys_basis_name(f->basis));
    bys_layout_wrap(out, words.data ? words.data : "", width, "", "");
    out->failed = out->failed || words.failed;
    bys_text_free(&words);
    if (f->status != BYS_STABLE) {
        bys_text_addf(out, "%s: no result. ", bys_status_name(f->status));
        bys_layout_wrap(out, f->reason, width, "", "");
        return;
    }
    if (f->row_count)
        add_head(out, first, "Tension at the anchor kN", heads, 4);
    for (int i = 0; i < f->row_count; i++) {
        const bys_friction_row *row = &f->rows[i];
        if (!(row->grounded_m[0] > 0.0 || row->grounded_m[1] > 0.0 || row->grounded_m[2] > 0.0)) {
            left_out++;
            continue;
        }
        bys_layout_cell(out, row->id, first, false);
        for (int k = 0; k < 4; k++)
            add_cell(out, row->anchor_N[k] / 1000.0, 3, 11);
        bys_text_add(out, "\n");
    }
    if (left_out)
        bys_text_addf(out, "%d legs have nothing on the bed.\n", left_out);
}

void bys_write_solution_text(bys_text *out, const bys_solution *solution, int width)
{
    const int first = width < 66 ? 22 : width > 100 ? 56 : width - 44;
    bys_text_addf(out, "%s  ", bys_status_name(solution->status));
    bys_write_plain(out, solution->case_id);
    bys_text_add(out, "\n");
    if (*solution->reason)
        bys_layout_wrap(out, solution->reason, width, "", "");
    if (solution->note && *solution->note)
        bys_layout_wrap(out, solution->note, width, "", "");
    bys_text line = {0};
    bys_text_addf(&line, "%d factorisations; worst force left over ", solution->factorisations);
    bys_number_add(&line, solution->residual_N, 6);
    bys_text_add(&line, " N");
    bys_layout_wrap(out, line.data ? line.data : "", width, "", "");
    bys_text_free(&line);
    if (solution->friction)
        add_friction(out, solution->friction, width, first);
    add_supports(out, solution, first);
    add_spans(out, solution, first);
    add_bodies(out, solution, first);
    add_nodes(out, solution, first);
}
