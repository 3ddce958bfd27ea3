// SPDX-License-Identifier: GPL-3.0-or-later
// The proof loads as CSV: RFC 4180 quoting, LF line ends; a row an anchor, in the site's order.
#include "write/proof_rows.h"
#include "write/rows.h"

#include <byssus/write.h>

#include <math.h>

static void add_text(bys_text *out, const char *text)
{
    bys_text_add(out, ",");
    bys_csv_field_add(out, text);
}

static void add_number(bys_text *out, double value)
{
    bys_text_add(out, ",");
    if (isfinite(value))
        bys_text_add_double(out, value);
}

static void add_row(bys_text *out, const bys_proof_row *row)
{
    const double degree = acos(-1.0) / 180.0;
    const bool loaded = row->leg && isfinite(row->pull_N);
    bys_csv_field_add(out, row->anchor->id);
    add_text(out, row->anchor->part);
    add_text(out, row->leg ? row->leg->id : "");
    add_number(out, row->pull_N / 1e3);
    add_number(out, row->pull_N / BYS_TONNE_FORCE);
    add_number(out, row->step_N / 1e3);
    add_number(out, isfinite(row->pull_N) ? BYS_PROOF_HOLD_MIN : NAN);
    add_number(out, row->holding_N / 1e3);
    add_number(out, bys_compass_degrees(row->towards_rad));
    add_number(out, row->line_m);
    add_number(out, row->rise_rad / degree);
    add_number(out, row->pull_use);
    add_number(out, row->holding_use);
    add_number(out, row->anchor->drag_m);
    add_text(out, loaded ? row->leg->anchor.check.case_id : "");
    add_text(out, loaded ? row->leg->anchor.check.analysis : "");
    add_text(out, row->why);
    bys_text_add(out, "\n");
}

void bys_write_proof_csv(bys_text *out, const bys_design *design)
{
    bys_text_add(out, "anchor,part,leg,pull_kN,pull_tf,step_kN,hold_min,counts_as_holding_kN,"
                      "pull_towards_deg,line_out_m,line_rise_deg,line_use_at_pull,"
                      "line_use_at_holding,drag_until_set_m,case,analysis,why_no_pull\n");
    for (int i = 0; i < design->anchor_count; i++) {
        bys_proof_row row;
        bys_proof_row_make(&row, design, i);
        add_row(out, &row);
    }
}
