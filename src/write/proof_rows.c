// SPDX-License-Identifier: GPL-3.0-or-later
// What to pull each anchor to when it is laid.
//
// GIVEN     a judged design: the governing load of each anchor, its factors, the leg's line check
// RETURNED  pull: that load before factors. holding: load x load factor x resistance factor,
//           the capacity that the rules ask for. Use of the line: its utilisation is in proportion
//           to the tension, so that at a pull P it is U P / T.
// NOTES     1. The load is that of the anchor's governing case; a lost leg counts where the rules
//              demand it.
//           2. An anchor shared by legs is pulled with the first of them; its load is the resultant
//              of all.
//           3. The line is taken straight from the bed to the highest level: the steepest that it
//              can be with all of it out. Chain that stays on the bed makes the pull at the anchor
//              flatter.
// SOURCE    pull to the full design load: UFC 4-159-03 table 3-18 [read]; hold for 3 minutes once
//           settled, steps of at most 10,000 lbf, a box of 40 ft x 20 ft: MO-124 appendix E 1.3
//           [read]; four steps at least, and the share of the line: [derived]
#include "write/proof_rows.h"

#include <math.h>

static double highest_level(const bys_design *design)
{
    double most = design->level_count ? -INFINITY : 0.0;
    for (int i = 0; i < design->level_count; i++)
        most = fmax(most, design->levels[i].value);
    return most;
}

static double line_of(const bys_leg_result *leg)
{
    double length = 0.0;
    for (int i = 0; i < leg->piece_count; i++)
        if (isfinite(leg->pieces[i].length_m))
            length += leg->pieces[i].length_m;
    return length > 0.0 ? length : NAN;
}

// A line shorter than the water is deep has no such angle.
static double rise_of(double line, double depth)
{
    return depth >= 0.0 && depth <= line ? asin(depth / line) : NAN;
}

static double use_of(const bys_strength *line, double pull)
{
    return line->characteristic_N > 0.0 ? line->utilisation * pull / line->characteristic_N : NAN;
}

static void take_load(bys_proof_row *row)
{
    const bys_strength *check = &row->leg->anchor.check;
    const double load = check->characteristic_N;
    if (!(load > 0.0) || !isfinite(load)) {
        row->why = check->verdict == BYS_NOT_CHECKED ? check->why : "no case loads it";
        return;
    }
    row->why = "";
    row->pull_N = load;
    row->holding_N = load * check->load_factor * check->resistance_factor;
    row->step_N = fmin(load / 4.0, BYS_PROOF_STEP_N);
    row->pull_use = use_of(&row->leg->strength, load);
    row->holding_use = use_of(&row->leg->strength, row->holding_N);
}

void bys_proof_row_make(bys_proof_row *row, const bys_design *design, int anchor)
{
    const bys_anchor_result *a = &design->anchors[anchor];
    *row = (bys_proof_row){a,   NULL, NAN, NAN, NAN, NAN,
                           NAN, NAN,  NAN, NAN, "no leg goes to it"};
    if (a->leg_count < 1)
        return;
    row->leg = &design->legs[a->legs[0]];
    row->towards_rad = row->leg->bearing_rad + acos(-1.0);
    row->line_m = line_of(row->leg);
    row->rise_rad = rise_of(row->line_m, a->depth_m + highest_level(design));
    take_load(row);
}
