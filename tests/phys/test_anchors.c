// SPDX-License-Identifier: GPL-3.0-or-later
// Deadweights, drag anchors, chain on the bed.
#include "phys/phys.h"
#include "support/suite.h"

#include <string.h>

static const double degree = BYS_PI / 180.0;

START_TEST(submerged_weight)
{
    // computed (anchors note 2.2), unit weights over 10.05 kN/m3 of sea water: concrete 23.5 0.572,
    // reinforced 24.5 0.590, steel 77 0.869, cast iron 71 0.858, granite 26.5 0.621
    const double row[][2] = {{23.5, .572}, {24.5, .590}, {77, .869}, {71, .858}, {26.5, .621}};
    for (size_t i = 0; i < 5; i++)
        expect_abs(bys_submerged_weight(1.0, row[i][0], 10.05) / BYS_G, row[i][1], 6e-4);
}
END_TEST

START_TEST(level_bed_capacity)
{
    // trade note 6 (computed): a 6 t block weighs 3.4 t in water; on friction 0.5 it holds 16.6 kN
    // flat and 15.0 kN of warp tension at 19.5 deg. 3.4 t is rounded: 16.67 and 15.02 from it
    const double W = 3400.0 * BYS_G, a = 19.5 * degree;
    expect_abs(bys_deadweight_capacity(W, 0.5, 0.0), 16.6e3, 100.0);
    expect_abs(bys_deadweight_capacity(W, 0.5, a) / cos(a), 15.0e3, 50.0);
    // trade note 9 (computed): 10 t block, 27.6 kN flat, 25.5 kN of tension at 12 deg
    expect_abs(bys_deadweight_capacity(55.2e3, 0.5, 0.0), 27.6e3, 1e-6);
    expect_abs(bys_deadweight_capacity(55.2e3, 0.5, 12.0 * degree) / cos(12.0 * degree), 25.5e3,
               50.0);
}
END_TEST

// anchors note 2.2 (computed): pulled down a slope b parallel to the bed T = W (mu cos b - sin b);
// for mu 0.45 a slope of 10 deg costs 40 %
START_TEST(slope_costs_capacity)
{
    const double W = 20e3, mu = 0.45, b = 10.0 * degree, T = W * (mu * cos(b) - sin(b));
    const bys_deadweight r = bys_deadweight_hold(T * cos(b), -T * sin(b), W, mu, b, 1.0);
    expect_close(r.driving, r.resistance, 1e-12);
    expect_close(r.normal, W * cos(b), 1e-12);
    expect_abs(1.0 - T / (W * mu), 0.40, 0.005);
}
END_TEST

START_TEST(capacity_is_where_driving_meets_resistance) // derived
{
    for (double a = 0.0; a < 80.0; a += 7.0) {
        const double h = bys_deadweight_capacity(20e3, 0.45, a * degree);
        const bys_deadweight r = bys_deadweight_hold(h, h * tan(a * degree), 20e3, 0.45, 0.0, 1.0);
        expect_close(r.driving, r.resistance, 1e-12);
        ck_assert(!r.lifted);
    }
}
END_TEST

START_TEST(forces_on_a_slope) // derived: resolved by vectors in another frame
{
    const double b = 8.0 * degree, h = 7e3, v = 2e3, W = 18e3;
    for (double g = 0.0; g < 360.0; g += 15.0) {
        const double c = cos(g * degree), s = sin(g * degree);
        const double F[3] = {h * c, h * s, v - W}, n[3] = {sin(b), 0.0, cos(b)};
        const double Fn = F[0] * n[0] + F[2] * n[2];
        double along2 = 0.0;
        for (int i = 0; i < 3; i++)
            along2 += (F[i] - Fn * n[i]) * (F[i] - Fn * n[i]);
        const bys_deadweight r = bys_deadweight_hold(h, v, W, 0.3, b, c);
        expect_close(r.driving, sqrt(along2), 1e-12);
        expect_close(r.normal, -Fn, 1e-12);
        expect_close(r.resistance, -0.3 * Fn, 1e-12);
    }
}
END_TEST

START_TEST(block_alone_on_a_slope) // derived: slides where tan b exceeds the friction
{
    const bys_deadweight holds = bys_deadweight_hold(0.0, 0.0, 1e4, 0.3, atan(0.29), 1.0);
    const bys_deadweight slides = bys_deadweight_hold(0.0, 0.0, 1e4, 0.3, atan(0.31), 1.0);
    ck_assert(holds.driving < holds.resistance);
    ck_assert(slides.driving > slides.resistance);
}
END_TEST

START_TEST(lifted) // derived
{
    const bys_deadweight r = bys_deadweight_hold(1e3, 1.2e4, 1e4, 0.5, 0.0, 1.0);
    ck_assert(r.lifted);
    expect_abs(r.normal, 0.0, 0.0);
    expect_abs(r.resistance, 0.0, 0.0);
    expect_close(r.driving, 1e3, 1e-14);
    ck_assert(!bys_deadweight_hold(1e3, 0.9e4, 1e4, 0.5, 0.0, 1.0).lifted);
}
END_TEST

START_TEST(clay_base) // derived: the lesser of 0.3 x 20 kN = 6 kN and 1.0 x 3 kPa x 4 m2 = 12 kN
{
    expect_close(bys_deadweight_clay(20e3, 0.3, 1.0, 3e3, 4.0), 6e3, 1e-14);
    expect_close(bys_deadweight_clay(20e3, 0.3, 1.0, 1e3, 4.0), 4e3, 1e-14);
    expect_abs(bys_deadweight_clay(-5.0, 0.3, 1.0, 1e3, 4.0), 0.0, 0.0);
}
END_TEST

// UFC 4-159-03 eq. 26 (read) with Tables 5-3/5-4 (memory), computed in standards note 5.3: W = 250,
// 500, 1000, 2000 kg; anchors note 8.5: class C 250 kg, class A 1000 kg, class G 500 kg. kN.
START_TEST(drag_anchor_vectors)
{
    static const struct { bys_drag_class c; bys_drag_bed bed; double mass, kN; } row[] = {
        {BYS_DRAG_STOCKLESS, BYS_BED_MUD, 250, 7.4},
        {BYS_DRAG_STOCKLESS, BYS_BED_MUD, 500, 14.1},
        {BYS_DRAG_STOCKLESS, BYS_BED_MUD, 1000, 26.6},
        {BYS_DRAG_STOCKLESS, BYS_BED_MUD, 2000, 50.4},
        {BYS_DRAG_STOCKLESS_35, BYS_BED_SAND, 250, 30.6},
        {BYS_DRAG_STOCKLESS_35, BYS_BED_SAND, 500, 53.3},
        {BYS_DRAG_STOCKLESS_35, BYS_BED_SAND, 1000, 92.8},
        {BYS_DRAG_STOCKLESS_35, BYS_BED_SAND, 2000, 161.5},
        {BYS_DRAG_HINGED_LIGHT, BYS_BED_MUD, 250, 26.9},
        {BYS_DRAG_HINGED_LIGHT, BYS_BED_MUD, 500, 50.9},
        {BYS_DRAG_HINGED_LIGHT, BYS_BED_MUD, 1000, 96.3},
        {BYS_DRAG_HINGED_LIGHT, BYS_BED_MUD, 2000, 182.2},
        {BYS_DRAG_HINGED_LIGHT, BYS_BED_SAND, 250, 55.1},
        {BYS_DRAG_HINGED_LIGHT, BYS_BED_SAND, 500, 95.9},
        {BYS_DRAG_HINGED_LIGHT, BYS_BED_SAND, 1000, 167.1},
        {BYS_DRAG_HINGED_LIGHT, BYS_BED_SAND, 2000, 290.9},
        {BYS_DRAG_STOCKLESS, BYS_BED_SAND, 1000, 58.5},
        {BYS_DRAG_FIXED_FLUKE, BYS_BED_MUD, 500, 110.6},
        {BYS_DRAG_FIXED_FLUKE, BYS_BED_SAND, 500, 117.5},
    };
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
        expect_abs(bys_drag_anchor_capacity(row[i].c, row[i].bed, row[i].mass, NULL),
                   1e3 * row[i].kN, 51.0);
}
END_TEST

// anchors note 1.2 (computed): efficiency mud/sand at 100 kg: B 6.3/15.0, E 28 deg 15.9/21.5,
// F 18.9/35.4; g = 9.80665
START_TEST(drag_anchor_efficiency)
{
    static const struct { bys_drag_class c; double mud, sand; } row[] = {
        {BYS_DRAG_STOCKLESS_FIXED, 6.3, 15.0},
        {BYS_DRAG_HEAVY_HINGED_28, 15.9, 21.5},
        {BYS_DRAG_WIDE_HINGED, 18.9, 35.4},
    };
    for (size_t i = 0; i < 3; i++) {
        const double W = 100.0 * BYS_G;
        const double mud = bys_drag_anchor_capacity(row[i].c, BYS_BED_MUD, 100.0, NULL);
        const double sand = bys_drag_anchor_capacity(row[i].c, BYS_BED_SAND, 100.0, NULL);
        expect_abs(mud / W, row[i].mud, 0.06);
        expect_abs(sand / W, row[i].sand, 0.06);
    }
    // table row (memory): heavy hinged at 20 deg, 267 kN at the reference mass in sand
    expect_close(bys_drag_anchor_capacity(BYS_DRAG_HEAVY_HINGED_20, BYS_BED_SAND, 4536.0, NULL),
                 267e3, 1e-12);
    // rows that share their values in the table (memory)
    for (double m = 100.0; m < 2e4; m *= 3.0) {
        expect_close(bys_drag_anchor_capacity(BYS_DRAG_STOCKLESS_35, BYS_BED_MUD, m, NULL),
                     bys_drag_anchor_capacity(BYS_DRAG_STOCKLESS, BYS_BED_MUD, m, NULL), 1e-15);
        expect_close(bys_drag_anchor_capacity(BYS_DRAG_HEAVY_HINGED_20, BYS_BED_MUD, m, NULL),
                     bys_drag_anchor_capacity(BYS_DRAG_HEAVY_HINGED_28, BYS_BED_MUD, m, NULL),
                     1e-15);
        expect_close(bys_drag_anchor_capacity(BYS_DRAG_HEAVY_HINGED_20, BYS_BED_SAND, m, NULL),
                     267.0 / 445.0 *
                         bys_drag_anchor_capacity(BYS_DRAG_HEAVY_HINGED_28, BYS_BED_SAND, m, NULL),
                     1e-14);
    }
}
END_TEST

START_TEST(drag_anchor_range)
{
    bool out;
    bys_drag_anchor_capacity(BYS_DRAG_STOCKLESS, BYS_BED_MUD, 99.0, &out);
    ck_assert(out);
    bys_drag_anchor_capacity(BYS_DRAG_STOCKLESS, BYS_BED_MUD, 100.0, &out);
    ck_assert(!out);
    bys_drag_anchor_capacity(BYS_DRAG_STOCKLESS, BYS_BED_MUD, 20000.0, &out);
    ck_assert(!out);
    bys_drag_anchor_capacity(BYS_DRAG_STOCKLESS, BYS_BED_MUD, 20001.0, &out);
    ck_assert(out);
    ck_assert(isnan(bys_drag_anchor_capacity(BYS_DRAG_CLASS_COUNT, BYS_BED_MUD, 500.0, NULL)));
}
END_TEST

START_TEST(drag_anchor_classes)
{
    for (int i = 0; i < BYS_DRAG_CLASS_COUNT; i++) {
        const char *name = bys_drag_class_name((bys_drag_class)i);
        ck_assert(name && name[0]);
        for (int j = 0; j < i; j++)
            ck_assert(strcmp(name, bys_drag_class_name((bys_drag_class)j)) != 0);
        // UFC 4-159-03 Table 3-7 (read): the smaller factor is for stockless anchors
        const bool stockless = strncmp(name, "stockless", 9) == 0;
        ck_assert(bys_drag_class_high_efficiency((bys_drag_class)i) == !stockless);
    }
    ck_assert(bys_drag_class_name(BYS_DRAG_CLASS_COUNT) == NULL);
    ck_assert(!bys_drag_class_high_efficiency(BYS_DRAG_CLASS_COUNT));
}
END_TEST

START_TEST(chain_on_the_bed)
{
    expect_abs(bys_bed_friction(true), 0.70, 0.0);  // API RP 2SK (memory)
    expect_abs(bys_bed_friction(false), 0.25, 0.0); // API RP 2SK (memory)
    // anchors note 5.1 (computed): 20 m of 24 mm studless chain, 0.098 kN/m, adds 1.4 kN
    expect_abs(bys_bed_friction(true) * 98.0 * 20.0, 1.4e3, 50.0);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("anchors");
    suite_test(s, submerged_weight);
    suite_test(s, level_bed_capacity);
    suite_test(s, slope_costs_capacity);
    suite_test(s, capacity_is_where_driving_meets_resistance);
    suite_test(s, forces_on_a_slope);
    suite_test(s, block_alone_on_a_slope);
    suite_test(s, lifted);
    suite_test(s, clay_base);
    suite_test(s, drag_anchor_vectors);
    suite_test(s, drag_anchor_efficiency);
    suite_test(s, drag_anchor_range);
    suite_test(s, drag_anchor_classes);
    suite_test(s, chain_on_the_bed);
    return suite_run(s, NULL);
}
