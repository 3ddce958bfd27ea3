// SPDX-License-Identifier: GPL-3.0-or-later
#include "write/rows.h"

#include <math.h>
#include <string.h>

static bys_cell number_cell(double value)
{
    return (bys_cell){BYS_CELL_NUMBER, "", value, BYS_PASS};
}

static bys_cell text_cell(const char *text)
{
    return (bys_cell){BYS_CELL_TEXT, text ? text : "", NAN, BYS_PASS};
}

static bys_cell verdict_cell(bys_verdict verdict)
{
    return (bys_cell){BYS_CELL_VERDICT, "", NAN, verdict};
}

static double degrees(double rad)
{
    return rad * (180.0 / 3.14159265358979323846);
}

double bys_compass_degrees(double rad)
{
    double d = fmod(degrees(rad), 360.0);
    d = d < 0.0 ? d + 360.0 : d;
    return d >= 360.0 - 1e-6 ? 0.0 : d; // rounding noise of a heading of nought
}

#define GETTER(name, make, value)                                                                  \
    static bys_cell name(const bys_design *design, const bys_leg_result *leg)                      \
    {                                                                                              \
        (void)design;                                                                              \
        return make(value);                                                                        \
    }

GETTER(get_id, text_cell, leg->id)
GETTER(get_longline, text_cell, leg->line)
GETTER(get_tension, number_cell, leg->tension_N / 1000.0)
GETTER(get_tension_tf, number_cell, leg->tension_N / BYS_TONNE_FORCE)
GETTER(get_mean, number_cell, leg->mean_N / 1000.0)
GETTER(get_wave, number_cell, leg->wave_N / 1000.0)
GETTER(get_use, number_cell, leg->utilisation)
GETTER(get_verdict, verdict_cell, leg->verdict)
GETTER(get_reach, number_cell, leg->reach_m)
GETTER(get_bearing, number_cell, bys_compass_degrees(leg->bearing_rad))
GETTER(get_scope, number_cell, leg->scope)
GETTER(get_pretension, number_cell, leg->pretension_N / 1000.0)
GETTER(get_pretension_high, number_cell, leg->pretension_high_N / 1000.0)
GETTER(get_pretension_from, text_cell, leg->pretension_from)

// The case of whichever of the two checks asks more of its gear.
static bool anchor_governs(const bys_leg_result *leg)
{
    return isnan(leg->strength.utilisation) ||
           leg->anchor.check.utilisation >= leg->strength.utilisation;
}

GETTER(get_governing, text_cell,
       anchor_governs(leg) ? leg->anchor.check.case_id : leg->strength.case_id)

GETTER(line_case, text_cell, leg->strength.case_id)
GETTER(line_condition, text_cell, leg->strength.condition)
GETTER(line_analysis, text_cell, leg->strength.analysis)
GETTER(line_characteristic, number_cell, leg->strength.characteristic_N / 1000.0)
GETTER(line_load_factor, number_cell, leg->strength.load_factor)
GETTER(line_design, number_cell, leg->strength.design_N / 1000.0)
GETTER(line_weakest, text_cell, leg->strength.item)
GETTER(line_component, text_cell, leg->strength.component)
GETTER(line_capacity, number_cell, leg->strength.capacity_N / 1000.0)
GETTER(line_resistance, number_cell, leg->strength.resistance_factor)
GETTER(line_use, number_cell, leg->strength.utilisation)
GETTER(line_verdict, verdict_cell, leg->strength.verdict)
GETTER(line_basis, text_cell, bys_basis_name(leg->strength.basis))
GETTER(line_why, text_cell, leg->strength.why)
GETTER(line_source, text_cell, leg->strength.source)

GETTER(anchor_id, text_cell, leg->anchor.check.item)
GETTER(anchor_case, text_cell, leg->anchor.check.case_id)
GETTER(anchor_condition, text_cell, leg->anchor.check.condition)
GETTER(anchor_analysis, text_cell, leg->anchor.check.analysis)
GETTER(anchor_component, text_cell, leg->anchor.check.component)
GETTER(anchor_horizontal, number_cell, leg->anchor.horizontal_N / 1000.0)
GETTER(anchor_vertical, number_cell, leg->anchor.vertical_N / 1000.0)
GETTER(anchor_uplift, number_cell, degrees(leg->anchor.uplift_rad))
GETTER(anchor_offset, number_cell, degrees(leg->anchor.offset_rad))
GETTER(anchor_grounded, number_cell, leg->anchor.grounded_m)
GETTER(anchor_characteristic, number_cell, leg->anchor.check.characteristic_N / 1000.0)
GETTER(anchor_load_factor, number_cell, leg->anchor.check.load_factor)
GETTER(anchor_design, number_cell, leg->anchor.check.design_N / 1000.0)
GETTER(anchor_capacity, number_cell, leg->anchor.check.capacity_N / 1000.0)
GETTER(anchor_resistance, number_cell, leg->anchor.check.resistance_factor)
GETTER(anchor_use, number_cell, leg->anchor.check.utilisation)
GETTER(anchor_verdict, verdict_cell, leg->anchor.check.verdict)
GETTER(anchor_basis, text_cell, bys_basis_name(leg->anchor.check.basis))
GETTER(anchor_why, text_cell, leg->anchor.check.why)
GETTER(anchor_source, text_cell, leg->anchor.check.source)

GETTER(lost_case, text_cell, leg->lost_case)
GETTER(lost_condition, text_cell, leg->lost_condition)
GETTER(lost_tension, number_cell, leg->lost_tension_N / 1000.0)
GETTER(rate_case, text_cell, leg->rates.case_id)
GETTER(rate_east, number_cell, leg->rates.per_m_east_N / 1000.0)
GETTER(rate_north, number_cell, leg->rates.per_m_north_N / 1000.0)
GETTER(rate_warp, number_cell, leg->rates.per_m_warp_N / 1000.0)
GETTER(rate_current, number_cell, leg->rates.per_10pct_current_N / 1000.0)
GETTER(laying_radius, number_cell, leg->tolerance.radius_m)
GETTER(laying_limit, text_cell, leg->tolerance.limited_by)
GETTER(laying_case, text_cell, leg->tolerance.case_id)
GETTER(laying_bearing, number_cell, bys_compass_degrees(leg->tolerance.bearing_rad))
GETTER(laying_resolves, number_cell, leg->tolerance.asked ? (double)leg->tolerance.resolves : NAN)
GETTER(laying_same_as, text_cell, leg->tolerance.same_as)
GETTER(laying_text, text_cell, leg->tolerance.text)
GETTER(passage_case, text_cell, leg->passage.case_id)
GETTER(passage_height, number_cell, leg->passage.height_m)
GETTER(passage_period, number_cell, leg->passage.period_s)
GETTER(passage_phase, number_cell, leg->passage.phase_rad * 180.0 / 3.14159265358979323846)
GETTER(passage_mean, number_cell, leg->passage.mean_N / 1000.0)
GETTER(passage_peak, number_cell, leg->passage.peak_N / 1000.0)
GETTER(passage_least, number_cell, leg->passage.least_N / 1000.0)
GETTER(passage_text, text_cell, leg->passage.text)

const bys_column bys_columns[] = {
    {"", "id", "Leg", "", 0, get_id},
    {"", "longline", "Line or raft", "", 0, get_longline},
    {"", "tension_kN", "Tension", "kN", 1, get_tension},
    {"", "tension_tf", "Tension", "tf", 2, get_tension_tf},
    {"", "mean_kN", "Mean part", "kN", 1, get_mean},
    {"", "wave_kN", "Wave part", "kN", 1, get_wave},
    {"", "utilisation", "Use", "", 2, get_use},
    {"", "verdict", "Verdict", "", 0, get_verdict},
    {"", "governing_case", "Worst in", "", 0, get_governing},
    {"", "reach_m", "Reach", "m", 1, get_reach},
    {"", "bearing_deg", "Bearing", "deg", 0, get_bearing},
    {"", "scope", "Scope", "", 2, get_scope},
    {"", "pretension_kN", "Pretension", "kN", 1, get_pretension},
    {"line", "case", "Line governs in", "", 0, line_case},
    {"line", "condition", "Condition", "", 0, line_condition},
    {"line", "analysis", "Analysis", "", 0, line_analysis},
    {"line", "characteristic_kN", "Line load", "kN", 1, line_characteristic},
    {"line", "load_factor", "Load factor", "", 2, line_load_factor},
    {"line", "design_kN", "Line design load", "kN", 1, line_design},
    {"line", "weakest", "Weakest piece", "", 0, line_weakest},
    {"line", "component", "Kind of piece", "", 0, line_component},
    {"line", "capacity_kN", "Line strength", "kN", 1, line_capacity},
    {"line", "resistance_factor", "Resistance factor", "", 2, line_resistance},
    {"line", "utilisation", "Line use", "", 2, line_use},
    {"line", "verdict", "Line", "", 0, line_verdict},
    {"line", "basis", "Basis", "", 0, line_basis},
    {"line", "why", "Why", "", 0, line_why},
    {"line", "source", "Source", "", 0, line_source},
    {"anchor", "anchor_id", "Anchor", "", 0, anchor_id},
    {"anchor", "case", "Anchor governs in", "", 0, anchor_case},
    {"anchor", "condition", "Condition", "", 0, anchor_condition},
    {"anchor", "analysis", "Analysis", "", 0, anchor_analysis},
    {"anchor", "component", "Kind of anchor", "", 0, anchor_component},
    {"anchor", "horizontal_kN", "Pull along", "kN", 1, anchor_horizontal},
    {"anchor", "vertical_kN", "Pull up", "kN", 1, anchor_vertical},
    {"anchor", "uplift_deg", "Uplift", "deg", 1, anchor_uplift},
    {"anchor", "offset_deg", "Off heading", "deg", 0, anchor_offset},
    {"anchor", "grounded_m", "On the bed", "m", 1, anchor_grounded},
    {"anchor", "characteristic_kN", "Anchor load", "kN", 1, anchor_characteristic},
    {"anchor", "load_factor", "Load factor", "", 2, anchor_load_factor},
    {"anchor", "design_kN", "Anchor design load", "kN", 1, anchor_design},
    {"anchor", "capacity_kN", "Anchor holds", "kN", 1, anchor_capacity},
    {"anchor", "resistance_factor", "Resistance factor", "", 2, anchor_resistance},
    {"anchor", "utilisation", "Anchor use", "", 2, anchor_use},
    {"anchor", "verdict", "Anchor", "", 0, anchor_verdict},
    {"anchor", "basis", "Basis", "", 0, anchor_basis},
    {"anchor", "why", "Why", "", 0, anchor_why},
    {"anchor", "source", "Source", "", 0, anchor_source},
    {"reported.lost", "case", "Worst damaged case", "", 0, lost_case},
    {"reported.lost", "condition", "Damage", "", 0, lost_condition},
    {"reported.lost", "tension_kN", "Tension, one leg lost", "kN", 1, lost_tension},
    {"sensitivity", "case", "Rates in", "", 0, rate_case},
    {"sensitivity", "per_m_east_kN", "Anchor 1 m east", "kN", 2, rate_east},
    {"sensitivity", "per_m_north_kN", "Anchor 1 m north", "kN", 2, rate_north},
    {"sensitivity", "per_m_warp_kN", "Warp 1 m longer", "kN", 2, rate_warp},
    {"sensitivity", "per_10pct_current_kN", "Current 10 % faster", "kN", 2, rate_current},
    {"laying_tolerance", "radius_m", "Anchor may lie off by", "m", 2, laying_radius},
    {"laying_tolerance", "limited_by", "Beyond it", "", 0, laying_limit},
    {"laying_tolerance", "bearing_deg", "Towards", "deg", 0, laying_bearing},
    {"laying_tolerance", "case", "In", "", 0, laying_case},
    {"laying_tolerance", "resolves", "Solves", "", 0, laying_resolves},
    {"laying_tolerance", "same_as", "Same as", "", 0, laying_same_as},
    {"laying_tolerance", "text", "In words", "", 0, laying_text},
    {"pretension", "high_kN", "Pretension, highest level", "kN", 1, get_pretension_high},
    {"pretension", "from", "Pretension follows from", "", 0, get_pretension_from},
    {"wave_passage", "case", "Case", "", 0, passage_case},
    {"wave_passage", "height_m", "Wave height", "m", 2, passage_height},
    {"wave_passage", "period_s", "Period", "s", 1, passage_period},
    {"wave_passage", "phase_deg", "Phase", "deg", 0, passage_phase},
    {"wave_passage", "mean_kN", "Mean with drift", "kN", 1, passage_mean},
    {"wave_passage", "peak_kN", "Peak", "kN", 1, passage_peak},
    {"wave_passage", "least_kN", "Least", "kN", 1, passage_least},
    {"wave_passage", "text", "Covered?", "", 0, passage_text},
};
const int bys_column_count = (int)(sizeof bys_columns / sizeof bys_columns[0]);

const bys_column *bys_column_find(const char *group, const char *key)
{
    for (int i = 0; i < bys_column_count; i++)
        if (!strcmp(bys_columns[i].group, group) && !strcmp(bys_columns[i].key, key))
            return &bys_columns[i];
    return NULL;
}

void bys_number_add(bys_text *out, double value, int decimals)
{
    if (isnan(value))
        bys_text_add(out, "\xE2\x80\x93"); // en dash
    else if (isinf(value))
        bys_text_add(out, value > 0 ? "\xE2\x88\x9E" : "-\xE2\x88\x9E");
    else
        bys_text_add_fixed(out, value, decimals);
}

void bys_cell_add(bys_text *out, const bys_cell *cell, int decimals)
{
    switch (cell->kind) {
    case BYS_CELL_TEXT: bys_text_add(out, cell->text); break;
    case BYS_CELL_NUMBER: bys_number_add(out, cell->number, decimals); break;
    case BYS_CELL_VERDICT: bys_text_add(out, bys_verdict_name(cell->verdict)); break;
    }
}
