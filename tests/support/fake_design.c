// SPDX-License-Identifier: GPL-3.0-or-later
#include "support/fake_design.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { DIRECTIONS = 16, POINTS = 21 };
#define PI 3.14159265358979323846

// Everything that was allocated, so that one call frees it.
typedef struct {
    bys_design design;
    void *blocks[4096];
    int count;
} fake;

static void *get(fake *f, size_t size)
{
    void *block = calloc(1, size ? size : 1);
    if (!block || f->count == 4096)
        abort();
    f->blocks[f->count++] = block;
    return block;
}

__attribute__((format(printf, 2, 3))) static const char *words(fake *f, const char *format, ...)
{
    char *text = get(f, 200);
    va_list list;
    va_start(list, format);
    vsnprintf(text, 200, format, list);
    va_end(list);
    return text;
}

static const char *hostile_name = "L<01>&\"'\n=x";

static bys_strength line_check(const char *id, double tension)
{
    const double use = 1.0 * tension * 3.0 / 120e3;
    return (bys_strength){"50y/090/HAT-and-surge/w0:harvest:intact", "intact",
                          "static mean with wave drift", id, "rope", tension, 1.0, tension, 120e3,
                          3.0, use, use > 1.0 ? BYS_FAIL : BYS_PASS, BYS_BASIS_MEMORY,
                          "polyester warp, splice not stated", "invented clause 1.2"};
}

static bys_strength anchor_check(const char *id, double load, bool small)
{
    const double capacity = small ? 8.3e3 : 60e3, use = load * 1.5 / capacity;
    return (bys_strength){"50y/090/LAT/w0:harvest:intact", "intact", "static mean with wave drift",
                          id, small ? "deadweight" : "screw", load, 1.0, load, capacity, 1.5, use,
                          use > 1.0 ? BYS_FAIL : BYS_PASS,
                          small ? BYS_BASIS_MEMORY : BYS_BASIS_TEST,
                          small ? "the block slides" : "pull test by the user",
                          "invented clause 3.4"};
}

static void fill_pieces(fake *f, bys_leg_result *leg, bool small)
{
    leg->piece_count = 3;
    leg->pieces = get(f, 3 * sizeof *leg->pieces);
    leg->pieces[0] = (bys_leg_piece){words(f, "%s/shackle", leg->id), "shackle19", "connector", NAN,
                                     2, 1.1, leg->tension_N, 200e3, leg->tension_N * 3 / 200e3,
                                     BYS_PASS, BYS_BASIS_READ, 200e3, NULL, 0, NAN, 0.0, ""};
    leg->pieces[1] = (bys_leg_piece){words(f, "%s/warp", leg->id), "warp28", "rope", 55.0, 1, 32.7,
                                     leg->tension_N, 120e3, leg->strength.utilisation,
                                     leg->strength.verdict, BYS_BASIS_MEMORY, 133.4e3, NULL, 0,
                                     0.028, 0.01, "eye-splice"};
    leg->pieces[1].reductions = get(f, sizeof(bys_share_row));
    leg->pieces[1].reductions[leg->pieces[1].reduction_count++] =
        (bys_share_row){"at knots or splices", 0.9};
    leg->pieces[2] = (bys_leg_piece){words(f, "%s/chain", leg->id), "chain24",
                                     "chain", small ? 12.5 : 6.0, 1, small ? 158.0 : 76.0,
                                     leg->tension_N, NAN, NAN, BYS_NOT_CHECKED, BYS_BASIS_ASSUMED,
                                     NAN, NULL, 0, 0.024, 0.0, ""};
}

static void fill_directions(fake *f, bys_leg_result *leg)
{
    leg->by_direction_N = get(f, DIRECTIONS * sizeof(double));
    leg->by_direction_lost_N = get(f, DIRECTIONS * sizeof(double));
    for (int d = 0; d < DIRECTIONS; d++) {
        const double across = sin(2 * PI * d / DIRECTIONS);
        leg->by_direction_N[d] = leg->tension_N * (0.25 + 0.75 * across * across);
        leg->by_direction_lost_N[d] = 1.3 * leg->by_direction_N[d];
    }
}

static void fill_leg(fake *f, bys_leg_result *leg, int line, bool north, bool fail)
{
    const bool small = fail && line == 2 && north;
    const double x = 20.0 * line - 110.0, sign = north ? 1.0 : -1.0;
    leg->id = words(f, "L%02d/%s", line + 1, north ? "N" : "S");
    leg->line = words(f, "L%02d", line + 1);
    leg->tension_N = 9000.0 + 650.0 * ((line * 7 + (north ? 3 : 0)) % 12);
    leg->mean_N = leg->tension_N;
    leg->wave_N = NAN;
    leg->pretension_from = "lengths and place of the anchor";
    leg->strength = line_check(words(f, "%s/warp", leg->id), leg->tension_N);
    leg->anchor.check = anchor_check(words(f, "%s/anchor", leg->id), 0.9 * leg->tension_N, small);
    leg->anchor.horizontal_N = 0.88 * leg->tension_N;
    leg->anchor.vertical_N = 0.19 * leg->tension_N;
    leg->anchor.uplift_rad = 0.21;
    leg->anchor.offset_rad = 0.4;
    leg->anchor.grounded_m = 0.0;
    leg->passage = (bys_leg_passage){true, leg->strength.case_id, 2.2, 4.1, 0.0, leg->tension_N,
                                     1.1 * leg->tension_N, 0.8 * leg->tension_N, true, "covered"};
    leg->rates = (bys_leg_rates){leg->strength.case_id, leg->strength.item, 1.0,
                                 north ? 820.0 : -820.0, -810.0, 1950.0};
    leg->tolerance =
        (bys_laying_tolerance){true, 2.4, leg->anchor.check.item, leg->strength.case_id, 0.0, 900,
                               "", "2.40 m; beyond it its anchor does not pass"};
    leg->utilisation = fmax(leg->strength.utilisation, leg->anchor.check.utilisation);
    leg->verdict = leg->utilisation > 1.0 ? BYS_FAIL : BYS_PASS;
    leg->lost_case = "50y/090/LAT/w0:harvest:lost:L05/S";
    leg->lost_condition = "lost:L05/S";
    leg->lost_tension_N = 1.3 * leg->tension_N;
    leg->reach_m = 52.0;
    leg->bearing_rad = north ? 0.0 : PI;
    leg->top[0] = leg->foot[0] = x;
    leg->top[1] = sign * 60.0;
    leg->foot[1] = sign * (line == 11 && north ? 156.0 : 112.0);
    leg->foot[2] = -15.0;
    leg->pretension_N = 1200.0;
    leg->scope = 2.97;
    fill_pieces(f, leg, small);
    fill_directions(f, leg);
}

static void fill_anchor(fake *f, bys_anchor_result *anchor, const bys_leg_result *leg, int index)
{
    *anchor = (bys_anchor_result){
        leg->anchor.check.item, "screw-2", leg->anchor.check.component, leg->foot[0], leg->foot[1],
        15.0 + 0.01 * leg->foot[1], 120.0, get(f, sizeof(int)), 1, leg->bearing_rad,
        leg->anchor.check.utilisation, leg->anchor.check.verdict, fabs(leg->foot[1]) < 150.0,
        150.0 - fabs(leg->foot[1]), 0.0, NULL, 0, NAN};
    anchor->methods = get(f, 2 * sizeof(bys_method_row));
    anchor->methods[anchor->method_count++] = (bys_method_row){"plates one by one", 90e3, true};
    anchor->methods[anchor->method_count++] = (bys_method_row){"torque", 120e3, false};
    anchor->legs[0] = index;
}

static void fill_plan_line(fake *f, bys_plan_line *row, const double a[3], const double b[3],
                           double bow)
{
    row->count = POINTS;
    row->xyz = get(f, 3 * POINTS * sizeof(double));
    row->worst_xyz = get(f, 3 * POINTS * sizeof(double));
    for (int i = 0; i < POINTS; i++) {
        const double t = i / (POINTS - 1.0);
        for (int k = 0; k < 3; k++)
            row->xyz[3 * i + k] = row->worst_xyz[3 * i + k] = a[k] + t * (b[k] - a[k]);
        const double y = row->xyz[3 * i + 1] / 112.0;
        row->worst_xyz[3 * i] += bow * fmax(0.0, 1.0 - y * y);
    }
}

static void fill_plan(fake *f, bys_design *design, int lines)
{
    design->plan_count = 3 * lines;
    design->plan = get(f, (size_t)design->plan_count * sizeof *design->plan);
    for (int i = 0; i < lines; i++) {
        bys_plan_line *rows = &design->plan[3 * i];
        const bys_leg_result *legs = &design->legs[2 * i];
        fill_plan_line(f, &rows[0], legs[0].top, legs[1].top, 12.0);
        rows[0].id = legs[0].line;
        rows[0].kind = "backbone";
        rows[0].utilisation = NAN;
        rows[0].verdict = BYS_NOT_CHECKED;
        for (int k = 0; k < 2; k++) {
            fill_plan_line(f, &rows[1 + k], legs[k].foot, legs[k].top, 12.0);
            rows[1 + k].id = legs[k].id;
            rows[1 + k].kind = "leg";
            rows[1 + k].utilisation = legs[k].utilisation;
            rows[1 + k].verdict = legs[k].verdict;
        }
    }
}

static bys_finding findings[] = {
    {"lease", "L12/N", "50y/090/LAT/w0:harvest:intact", "intact", -6.0, 5.0, "m", BYS_FAIL,
     BYS_BASIS_USER, "The anchor of L12/N stands 6.0 m outside the lease."},
    {"float reserve", "L05", "50y/090/LAT/w0:harvest:intact", "intact", 0.18, 0.25, "of net lift",
     BYS_REPORTED, BYS_BASIS_USER, "18 % of the lift of L05 is left, the stated limit is 25 %."},
    {"swept area", "L05/N", "50y/090/LAT/w0:harvest:lost:L05/N", "lost:L05/N", 5100, NAN, "m2",
     BYS_REPORTED, BYS_BASIS_READ, "Without L05/N the line reaches L04 and L06."}};
static bys_case_result cases[] = {
    {"50y/090/HAT-and-surge/w0:harvest:intact", "50y/090/HAT-and-surge/w0", "harvest", "intact",
     true, BYS_STABLE, "", "static mean with wave drift", 7, 0.004, 3e-9, 16700, "L03/N",
     "current towards 090\xC2\xB0, HAT and surge, harvest"},
    {"50y/090/LAT/w0:harvest:intact", "50y/090/LAT/w0", "harvest", "intact", true, BYS_STABLE, "",
     "static mean with wave drift", 6, 0.002, 2e-9, 15200, "L03/N",
     "current towards 090\xC2\xB0, LAT, harvest"},
    {"50y/090/LAT/w0:harvest:lost:L05/S", "50y/090/LAT/w0", "harvest", "lost:L05/S", false,
     BYS_INDETERMINATE, "the free end of L05 may lie anywhere on a circle", "static mean", 31,
     0.009, 4e-9, 19900, "L05/N", "current towards 090\xC2\xB0, LAT, harvest"}};
static bys_named_value levels[] = {{"LAT", 0.0}, {"HAT and surge", 4.5}};
static bys_input_row inputs[] = {
    {"weather/current", "return 50 yr, 0.60 m/s at the surface, profile power, any direction", 12},
    {"parts/rope warp28", "polyester, 28 mm, strength 120 kN, 1.5 MN, 0.595 kg/m", 20}};
static bys_factor_row factors[] = {
    {"resistance of rope, static", "3.0", "3-4.2", "invented code, table 9", "", BYS_BASIS_MEMORY},
    {"resistance of deadweight", "1.5", "", "", "consent condition", BYS_BASIS_USER}};
static const char *worst_things[] = {
    "L03/N: the 3 t deadweight holds 8.3 kN, needs 19.6 kN (towards 090\xC2\xB0, LAT, harvest).",
    "L12/N: the anchor stands 6.0 m outside the lease.", "L05: 18 % of the float lift is left."};
static const char *warnings[] = {"Wave-frequency tension was not computed.",
                                 "No 50 yr wind is stated: the 100 yr value stands in for it."};
static const char *sources[] = {"Invented code, edition of no year."};
static const char *unverified[] = {"Strength of warp28 is assumed.",
                                   "Resistance factor of rope is remembered, not read."};
static bys_drag_row drags[] = {
    {"panel", "gear", "harvest", "L05", "cd-pearl-panel", "panel", 1.2, 0.15,
     "edge-on, on the face", 1.1, 1.2, BYS_BASIS_ASSUMED, "flat plate, memory", "",
     "legs take 0.75 of the upright drag"},
    {"net", "gear", "", "", "cd-net-panel", "net", NAN, NAN, "", NAN, NAN, BYS_BASIS_MEMORY,
     "two laws, memory", "", ""}};
static const char *cautions[] = {"Not a substitute for a competent engineer's judgement."};
static double lease_x[] = {-150, 150, 150, -150}, lease_y[] = {-150, -150, 150, 150};

static void fill_head(bys_design *design, const char *verdict)
{
    design->site = "Example Bay (invented)";
    design->notice = "INVENTED DEMO DATA";
    design->file = "example.xml";
    design->sha256 = "0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef";
    design->profile = "invented-1";
    design->profile_title = "Invented rules for tests";
    design->written_for = "fleet moorings";
    design->verdict = verdict;
    design->incomplete = !strcmp(verdict, "incomplete");
    design->unverified_checks = 25;
    design->case_total = 1600;
    design->case_stable = 1599;
    design->solve_count = 1600;
    design->worst_residual_N = 0.0041;
    design->worst_sum_share = 3.1e-9;
    design->headline = "One anchor holds too little and one stands outside the lease; the rest of "
                       "the gear passes in 50-year current, wind and waves.";
    design->north = "grid";
    design->frame = (bys_frame){.kind = "local", .north = "grid", .datum = "WGS 84", .crs = "",
                                .placed = true, .lat_deg = -41.0, .lon_deg = 173.0,
                                .wgs84_lat_deg = -41.0, .wgs84_lon_deg = 173.0,
                                .y_bearing_rad = 0.03, .easting_m = NAN, .northing_m = NAN,
                                .convergence_rad = NAN, .scale = NAN}; // open sea, invented
    design->bed_depth_min_m = 13.9;
    design->bed_depth_max_m = 16.1;
}

static void fill_lists(bys_design *design)
{
    design->worst_things = worst_things, design->worst_count = 3;
    design->findings = findings, design->finding_count = 3;
    design->cases = cases, design->case_count = 3;
    design->lease_x = lease_x, design->lease_y = lease_y, design->lease_count = 4;
    design->lease_margin_m = 5.0, design->lease_id = "EX-A";
    design->levels = levels, design->level_count = 2;
    design->inputs = inputs, design->input_count = 2;
    design->factors = factors, design->factor_count = 2;
    design->warnings = warnings, design->warning_count = 2;
    design->sources = sources, design->source_count = 1;
    design->unverified = unverified, design->unverified_count = 2;
    design->cautions = cautions, design->caution_count = 1;
    design->drags = drags, design->drag_count = 2;
}

static bys_design *sorting; // qsort has no user pointer; tests are single-threaded

static int by_use(const void *a, const void *b)
{
    const double ua = sorting->legs[*(const int *)a].utilisation;
    const double ub = sorting->legs[*(const int *)b].utilisation;
    return ua < ub ? 1 : ua > ub ? -1 : *(const int *)a - *(const int *)b;
}

static void make_hostile(bys_design *design)
{
    bys_leg_result *leg = &design->legs[0];
    leg->id = design->plan[1].id = design->site = hostile_name;
    leg->tension_N = NAN;
    leg->anchor.check.utilisation = leg->utilisation = INFINITY;
    leg->anchor.check.case_id = leg->lost_case = "";
    leg->by_direction_N[3] = NAN;
    leg->pieces[1].part = "warp\"28\" <b>&'";
    design->anchors[0].kind = hostile_name;
    design->headline = "</style><script>alert(1)</script>";
    design->north = "\xFF\x80 bad bytes";
    design->worst_residual_N = NAN;
}

bys_design *fake_design_new(const fake_options *options)
{
    fake *f = calloc(1, sizeof *f);
    if (!f)
        abort();
    bys_design *design = &f->design;
    const bool fail = !strcmp(options->verdict, "fail");
    fill_head(design, options->verdict);
    fill_lists(design);
    design->direction_count = DIRECTIONS;
    design->directions_rad = get(f, DIRECTIONS * sizeof(double));
    for (int d = 0; d < DIRECTIONS; d++)
        design->directions_rad[d] = 2 * PI * d / DIRECTIONS;
    design->leg_count = design->anchor_count = 2 * options->lines;
    const size_t n = (size_t)design->leg_count;
    design->legs = get(f, n * sizeof *design->legs);
    design->anchors = get(f, n * sizeof *design->anchors);
    design->by_utilisation = get(f, n * sizeof(int));
    for (int i = 0; i < design->leg_count; i++) {
        fill_leg(f, &design->legs[i], i / 2, i % 2 == 0, fail);
        design->legs[i].anchor_index = design->by_utilisation[i] = i;
        fill_anchor(f, &design->anchors[i], &design->legs[i], i);
    }
    design->anchors[1].setback_m = 20.0; // L01/S: as of a drag anchor
    fill_plan(f, design, options->lines);
    sorting = design;
    qsort(design->by_utilisation, n, sizeof(int), by_use);
    if (options->hostile)
        make_hostile(design);
    return design;
}

void fake_design_free(bys_design *design)
{
    fake *f = (fake *)(void *)design;
    for (int i = 0; f && i < f->count; i++)
        free(f->blocks[i]);
    free(f);
}

bys_solution *fake_solution_new(void)
{
    static bys_node_row nodes[] = {{"L01/N/anchor", 0, 112, -15.1}, {"L01/N/top", 0.1, 60, -0.4}};
    static bys_span_row spans[] = {{"L01/N/warp", "warp28", {0, 8200.5, 1500, 8336.6},
                                    {0, -8200.5, -1100, 8273.9}, 55, 55.3, 0}};
    static bys_support_row supports[] = {{"L01/N/anchor", 0, -8200.5, 1500, 0.181}};
    static bys_body_row bodies[] = {{"R1-1", 0, 0, 0.2, 0.01, NAN, 0, 0.8}};
    static bys_float_row floats[] = {{"L01/float/1", 0.57, 240}};
    static bys_hanging_row hanging[] = {{"L01/gear/1", 0.35, -3.1, 11.2, 51, 19}};
    static bys_load_row rows[] = {{"gear", "panel", {{100, 0, 0}, {0}, {20, 0, 0}}}};
    const bys_load_account account = {.case_id = "50y/090/LAT/w0:harvest:intact",
                                      .rows = rows,
                                      .row_count = 1,
                                      .sum = {{100, 0, 0}, {0}, {20, 0, 0}},
                                      .total = {120, 0, 0},
                                      .supports = {120, 0, 0},
                                      .applied_N = 120};
    static bys_friction_row rubbed[1] = {{"L05/N", {12, 13, 14, 15}, {4000, 3000, 2000, 1000},
                                          {3990, 2990, 1990, 990}, {50, 40, 30, 20},
                                          {4100, 4090, 2100, 1100}}};
    static bys_friction friction = {.mu_rope = 0.25, .mu_chain = 0.7, .basis = BYS_BASIS_MEMORY,
                                    .status = BYS_STABLE, .reason = "", .mismatch = 4e-4,
                                    .reach_m = 3e-4, .rows = rubbed, .row_count = 1};
    bys_solution *solution = calloc(1, sizeof *solution);
    if (!solution)
        abort();
    *solution = (bys_solution){"50y/090/LAT/w0:harvest:intact", BYS_STABLE, "", 0.0041, 3e-9, 7,
                               nodes, 2, spans, 1, supports, 1, bodies, 1, floats, 1, hanging, 1,
                               account, "", &friction};
    return solution;
}

void fake_solution_free(bys_solution *solution)
{
    free(solution);
}
