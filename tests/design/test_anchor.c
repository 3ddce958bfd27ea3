// SPDX-License-Identifier: GPL-3.0-or-later
// Anchor checks against hand numbers.
#include "design/hand_site.h"
#include "design/judge.h"
#include "phys/phys.h"
#include "support/suite.h"

#include <string.h>

static hand_site hand;
static bys_judge judge;
static const double level[3] = {0.0, 0.0, 1.0};
static const double degree = BYS_PI / 180.0;

static bys_anchor_rule rule(void)
{
    judge.site = &hand.site;
    if (!judge.arena)
        judge.arena = bys_arena_new();
    static const bys_anchor_place place = {0.0, 0.0, NAN};
    return bys_anchor_rule_make(&judge, &hand.anchor.u.anchor, hand.anchor.item.basis, &place,
                                BYS_STATE_INTACT);
}

static bys_anchor_seen look(const bys_anchor_rule *r, double h, double v, double bearing)
{
    const double force[3] = {h * sin(bearing), h * cos(bearing), v};
    bys_anchor_seen seen;
    bys_anchor_look(&seen, r, force, 0.0, 0.0, 0.0, level);
    return seen;
}

// 3 t of 2400 kg/m3 in 1025 kg/m3: 3000 x 9.80665 x (1 - 1025/2400) = 16855.18 N; 0.9 of it
// 15169.66 N; x 0.30 = 4550.90 N flat. [calc by hand]
START_TEST(deadweight_flat)
{
    hand_site_make(&hand);
    const bys_anchor_rule r = rule();
    ck_assert_str_eq(r.missing, "");
    ck_assert_int_eq(r.basis, BYS_BASIS_ASSUMED); // the soil was not measured
    hand.soil.measured = true;
    ck_assert_int_eq(rule().basis, BYS_BASIS_MEMORY); // 0.30 and 0.9
    const bys_anchor_seen seen = look(&r, 4000.0, 0.0, 0.0);
    expect_close(seen.capacity, 4550.90, 1e-6);
    expect_close(seen.utilisation, 1.5 * 4000.0 / 4550.90, 1e-6);
}
END_TEST

// m W/(1 + m tan a), refs: slip at T = m W/(cos a + m sin a) [calc]: at 20 deg 4550.90/1.109191 =
// 4102.90 N.
START_TEST(deadweight_with_uplift)
{
    hand_site_make(&hand);
    const bys_anchor_rule r = rule();
    const bys_anchor_seen seen = look(&r, 4000.0, 4000.0 * tan(20.0 * degree), 1.0);
    expect_close(seen.capacity, 4102.90, 1e-5);
    expect_close(seen.utilisation, 1.462380, 1e-5);
    expect_close(seen.uplift, 20.0 * degree, 1e-12);
}
END_TEST

// A pull downwards is not credited; a lifted block fails whatever the factor.
START_TEST(deadweight_pressed_and_lifted)
{
    hand_site_make(&hand);
    hand_factor(&hand, "deadweight")->value = 1.0;
    const bys_anchor_rule r = rule();
    expect_close(look(&r, 4000.0, -900.0, 0.0).capacity, 4550.90, 1e-6);
    ck_assert(look(&r, 10.0, 15500.0, 0.0).utilisation > 1.0);
    expect_close(look(&r, 0.0, 7584.83, 0.0).utilisation, 0.5,
                 1e-6); // half its weight, straight up
    ck_assert(look(&r, 0.0, 0.0, 0.0).utilisation == 0.0);
}
END_TEST

// Reference value [calc]: coefficient 0.45 on a 10 deg slope, pulled downslope along the bed:
// cos 10 - sin 10 / 0.45 = 0.598923 of the flat value, "costs 40 %".
START_TEST(deadweight_on_a_slope)
{
    hand_site_make(&hand);
    hand.anchor.u.anchor.friction = 0.45;
    hand.anchor.u.anchor.friction_basis = BYS_BASIS_TEST;
    const bys_anchor_rule r = rule();
    const double b = 10.0 * degree, normal[3] = {sin(b), 0.0, cos(b)};
    const double pull[3] = {cos(b), 0.0,
                            0.0}; // its rise is negative: along the bed needs z = -sin b
    // A downward part is not credited, so the downslope pull is taken level; by hand, with
    // T cos b = k: k cos b + W sin b = m (W cos b - k sin b).
    const double w = 15169.66, m = 0.45;
    const double k = w * (m * cos(b) - sin(b)) / (cos(b) + m * sin(b));
    expect_close(bys_anchor_slip(&r, pull, normal, 0.0) * cos(b), k, 1e-6);
}
END_TEST

// At the multiplier found, the block model of phys has driving force = resistance. [derived]
START_TEST(slip_agrees_with_the_block_model)
{
    hand_site_make(&hand);
    const bys_anchor_rule r = rule();
    for (int slope = 0; slope <= 12; slope += 4)
        for (int way = 0; way < 360; way += 30)
            for (int rise = 0; rise <= 60; rise += 15) {
                const double b = slope * degree, normal[3] = {0.0, sin(b), cos(b)};
                const double h = cos(rise * degree), v = sin(rise * degree);
                const double force[3] = {h * sin(way * degree), h * cos(way * degree), v};
                const double k = bys_anchor_slip(&r, force, normal, 0.0);
                const bys_deadweight hold =
                    bys_deadweight_hold(k * h, k * v, r.weight, r.friction, b, cos(way * degree));
                ck_assert(k > 0.0 && !hold.lifted);
                expect_close(hold.driving, hold.resistance, 1e-9);
            }
}
END_TEST

START_TEST(a_slope_too_steep_holds_nothing)
{
    hand_site_make(&hand);
    const bys_anchor_rule r = rule();
    const double b = 20.0 * degree, normal[3] = {sin(b), 0.0, cos(b)}, pull[3] = {1.0, 0.0, 0.0};
    ck_assert(bys_anchor_slip(&r, pull, normal, 0.0) == 0.0); // tan 20 > 0.30
}
END_TEST

START_TEST(chain_on_the_bed_counts_once)
{
    hand_site_make(&hand);
    const double force[3] = {0.0, 5000.0, 0.0};
    bys_anchor_rule r = rule();
    bys_anchor_seen seen;
    bys_anchor_look(&seen, &r, force, 0.0, 8.0, 300.0, level);
    expect_close(seen.capacity, 4850.90, 1e-6);
    r.chain_counts = false;
    bys_anchor_look(&seen, &r, force, 0.0, 8.0, 300.0, level);
    expect_close(seen.capacity, 4550.90, 1e-6);
}
END_TEST

START_TEST(clay_needs_its_strength_and_a_base)
{
    hand_site_make(&hand);
    hand.soil.kind = "clay";
    bys_anchor_rule r = rule();
    ck_assert_ptr_nonnull(strstr(r.missing, "undrained strength"));
    ck_assert_int_eq(look(&r, 100.0, 0.0, 0.0).trouble, BYS_SEEN_MISSING);
    hand.soil.su = 1000.0;
    r = rule();
    ck_assert_ptr_nonnull(strstr(r.missing, "base area"));
    hand.anchor.u.anchor.base_area = 2.0;
    r = rule();
    ck_assert_str_eq(r.missing, "");
    expect_close(look(&r, 100.0, 0.0, 0.0).capacity, 2000.0, 1e-9); // su x area, under friction
    hand.soil.su = 5000.0;
    r = rule();
    expect_close(look(&r, 100.0, 0.0, 0.0).capacity, 4550.90, 1e-6); // never both
}
END_TEST

START_TEST(unknown_soil_is_not_checked)
{
    hand_site_make(&hand);
    hand.site.bed.soil_count = 0;
    ck_assert_ptr_nonnull(strstr(rule().missing, "soil"));
}
END_TEST

START_TEST(a_missing_factor_is_never_one)
{
    hand_site_make(&hand);
    hand_factor(&hand, "deadweight")->value = NAN;
    const bys_anchor_rule r = rule();
    ck_assert_ptr_nonnull(strstr(r.missing, "deadweight"));
    const bys_anchor_seen seen = look(&r, 10.0, 0.0, 0.0);
    ck_assert_int_eq(seen.trouble, BYS_SEEN_MISSING);
    ck_assert(isnan(seen.utilisation));
}
END_TEST

static void make_drag(void)
{
    hand_site_make(&hand);
    hand.anchor.u.anchor.kind = BYS_ANCHOR_DRAG;
    hand.anchor.u.anchor.mass = 250.0;
    hand.anchor.u.anchor.drag_class = "hinged-light";
}

// Class C, 250 kg: 26.9 kN in mud, 55.1 kN in sand (anchors, section 8, from the remembered table).
// [memory]
START_TEST(drag_anchor_by_the_power_law)
{
    make_drag();
    bys_anchor_rule r = rule();
    expect_close(r.capacity, 55.1e3, 1e-3);
    ck_assert_str_eq(r.component, "drag-high-efficiency");
    expect_close(look(&r, 20e3, 0.0, 0.0).utilisation, 20e3 * 2.0 / r.capacity, 1e-12);
    hand.soil.kind = "mud";
    r = rule();
    expect_close(r.capacity, 26.9e3, 2e-3);
}
END_TEST

START_TEST(drag_anchor_has_no_help_from_chain)
{
    make_drag();
    const bys_anchor_rule r = rule();
    const double force[3] = {0.0, 20e3, 0.0};
    bys_anchor_seen seen;
    bys_anchor_look(&seen, &r, force, 0.0, 20.0, 5e3, level);
    expect_close(seen.capacity, r.capacity, 1e-15);
}
END_TEST

START_TEST(drag_anchor_limits)
{
    make_drag();
    const bys_anchor_rule r = rule();
    ck_assert_int_eq(look(&r, 20e3, 20e3 * tan(1.0 * degree), 0.0).trouble, BYS_SEEN_UPLIFT);
    ck_assert_int_eq(look(&r, 20e3, -50.0, 29.0 * degree).trouble, BYS_SEEN_OK);
    ck_assert_int_eq(look(&r, 20e3, -50.0, -31.0 * degree).trouble, BYS_SEEN_OFFSET);
    ck_assert(isnan(look(&r, 20e3, 5e3, 0.0).utilisation));
}
END_TEST

START_TEST(drag_anchor_soils)
{
    make_drag();
    hand.soil.kind = "clay";
    ck_assert_ptr_nonnull(strstr(rule().missing, "undrained strength"));
    hand.soil.su = 40e3;
    ck_assert_ptr_nonnull(strstr(rule().missing, "between soft and stiff"));
    hand.soil.su = 80e3;
    expect_close(rule().capacity, 55.1e3, 1e-3);
    hand.soil.kind = "rock";
    ck_assert_ptr_nonnull(strstr(rule().missing, "rock"));
    hand.soil.kind = "sand";
    hand.anchor.u.anchor.drag_class = "";
    ck_assert_ptr_nonnull(strstr(rule().missing, "class"));
    hand.anchor.u.anchor.drag_class = "stockless";
    hand.anchor.u.anchor.mass = 40.0;
    const bys_anchor_rule r = rule();
    ck_assert_ptr_nonnull(strstr(r.how, "of the fit"));
    ck_assert_str_eq(r.component, "drag-stockless");
}
END_TEST

static void make_screw(void)
{
    hand_site_make(&hand);
    hand.anchor.u.anchor.kind = BYS_ANCHOR_SCREW;
    hand.anchor.u.anchor.capacity = 60e3;
    hand.anchor.u.anchor.capacity_kind = "ultimate";
    hand.anchor.u.anchor.capacity_basis = BYS_BASIS_TEST;
    hand.anchor.u.anchor.capacity_angle = 45.0 * degree;
}

// Resultant of 12 kN along and 9 kN up is 15 kN; 15 x 3 / 60 = 0.75. [derived]
START_TEST(screw_takes_the_resultant)
{
    make_screw();
    const bys_anchor_rule r = rule();
    const bys_anchor_seen seen = look(&r, 12e3, 9e3, 2.0);
    ck_assert_int_eq(seen.trouble, BYS_SEEN_OK);
    expect_close(seen.characteristic, 15e3, 1e-12);
    expect_close(seen.utilisation, 0.75, 1e-12);
    ck_assert_int_eq(look(&r, 9e3, 12e3, 2.0).trouble, BYS_SEEN_UPLIFT);
    ck_assert_int_eq(r.basis, BYS_BASIS_USER); // the weaker of user's part, test, factor read
}
END_TEST

START_TEST(capacities_are_not_mixed)
{
    make_screw();
    hand.anchor.u.anchor.capacity_kind = "proof";
    ck_assert_ptr_nonnull(strstr(rule().missing, "must not be mixed"));
    hand.anchor.u.anchor.capacity_kind = "";
    ck_assert_ptr_nonnull(strstr(rule().missing, "ultimate, fractile or proof"));
    make_screw();
    hand.anchor.u.anchor.capacity_angle = NAN;
    ck_assert_ptr_nonnull(strstr(rule().missing, "uplift"));
    make_screw();
    hand.anchor.u.anchor.capacity = NAN;
    ck_assert_ptr_nonnull(strstr(rule().missing, "holding power"));
}
END_TEST

int main(void)
{
    Suite *s = suite_create("anchor");
    suite_test(s, deadweight_flat);
    suite_test(s, deadweight_with_uplift);
    suite_test(s, deadweight_pressed_and_lifted);
    suite_test(s, deadweight_on_a_slope);
    suite_test(s, slip_agrees_with_the_block_model);
    suite_test(s, a_slope_too_steep_holds_nothing);
    suite_test(s, chain_on_the_bed_counts_once);
    suite_test(s, clay_needs_its_strength_and_a_base);
    suite_test(s, unknown_soil_is_not_checked);
    suite_test(s, a_missing_factor_is_never_one);
    suite_test(s, drag_anchor_by_the_power_law);
    suite_test(s, drag_anchor_has_no_help_from_chain);
    suite_test(s, drag_anchor_limits);
    suite_test(s, drag_anchor_soils);
    suite_test(s, screw_takes_the_resultant);
    suite_test(s, capacities_are_not_mixed);
    return suite_run(s, NULL);
}
