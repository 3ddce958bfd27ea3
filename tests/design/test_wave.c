// SPDX-License-Identifier: GPL-3.0-or-later
// The passage of a regular wave in the main job: the larger counts, what a static factor does not
// cover is not checked, a dynamic factor covers it. All expectations derived; numbers invented.
#include "design/hand_site.h"
#include "support/suite.h"
#include <byssus/design.h>

#include <string.h>

static hand_site hand;
static const double pi = 3.14159265358979323846;

/// A line in a current across it, with waves; screws that hold anything.
static void make(double hs)
{
    hand_site_make(&hand);
    hand.currents[0].towards = 0.5 * pi;
    hand.currents[0].sector = 0.1;
    hand.site.stage_count = 1;
    hand.site.level_count = 1;
    hand.anchor.u.anchor.kind = BYS_ANCHOR_SCREW;
    hand.anchor.u.anchor.capacity = 1e9;
    hand.anchor.u.anchor.capacity_kind = "ultimate";
    hand.anchor.u.anchor.capacity_basis = BYS_BASIS_TEST;
    hand.anchor.u.anchor.capacity_angle = 0.5 * pi;
    hand.warp.u.line.strength = hand.chain.u.line.strength = 1e9;
    hand.backbone.u.line.strength = hand.shackle.u.connector.strength = 1e9;
    hand.waves[0] = (bys_waves){.item = {.id = "w50", .name = "", .source = "invented"},
                                .years = 50.0, .hs = hs, .tp = 4.0, .gamma = NAN, .from = NAN,
                                .spreading = NAN};
    hand.site.waves = hand.waves;
    hand.site.wave_count = 1;
}

static void pass(double shortest, double longest, double dynamic)
{
    hand.site.has_passage = true;
    hand.site.passage = (bys_wave_passage){.height = NAN, .ratio = 1.86, .shortest = shortest,
                                           .longest = longest, .phases = 12, .dynamic = dynamic,
                                           .because = "invented test"};
}

static bys_design *run(int threads)
{
    bys_check_options options = BYS_CHECK_OPTIONS_INIT;
    bys_messages *messages = NULL;
    bys_design *design = NULL;
    bys_error err = {0};
    options.threads = threads;
    options.intact_only = true;
    bys_messages_new(&messages);
    const bys_rc rc = bys_design_run(&design, &hand.site, &options, messages, &err);
    ck_assert_msg(rc == BYS_OK, "%d: %s", (int)rc, err.text);
    bys_messages_free(messages);
    return design;
}

START_TEST(the_larger_counts_and_never_the_sum)
{
    make(0.05); // ripples: far below 0.3 of the mean
    bys_design *without = run(1);
    pass(4.0, 4.0, NAN);
    bys_design *with = run(1);
    ck_assert_str_eq(without->verdict, "pass");
    ck_assert_str_eq(with->verdict, "pass");
    for (int l = 0; l < 2; l++) {
        const bys_leg_result *a = &without->legs[l], *b = &with->legs[l];
        ck_assert(!a->passage.asked && b->passage.asked && b->passage.covered);
        expect_close(b->passage.mean_N, a->tension_N, 1e-9);
        expect_close(b->passage.height_m, 1.86 * 0.05, 1e-9);
        expect_close(b->tension_N, fmax(b->passage.mean_N, b->passage.peak_N), 1e-12);
        ck_assert_double_gt(b->passage.peak_N, 0.9 * b->passage.mean_N);
        ck_assert_double_lt(b->passage.peak_N, 1.3 * b->passage.mean_N);
        ck_assert_double_le(b->passage.least_N, b->passage.peak_N);
    }
    bys_design_free(without);
    bys_design_free(with);
}
END_TEST

START_TEST(a_large_wave_part_is_not_checked_without_a_dynamic_factor)
{
    make(0.6);
    pass(4.0, 4.0, NAN);
    bys_design *d = run(2);
    ck_assert_str_eq(d->verdict, "incomplete");
    for (int l = 0; l < 2; l++) {
        const bys_leg_result *leg = &d->legs[l];
        ck_assert(!leg->passage.covered);
        ck_assert_int_eq(leg->strength.verdict, BYS_NOT_CHECKED);
        ck_assert_int_eq(leg->anchor.check.verdict, BYS_NOT_CHECKED);
    }
    bys_design_free(d);
}
END_TEST

START_TEST(a_dynamic_factor_covers_it_and_multiplies_the_peak)
{
    make(0.05);
    pass(4.0, 4.0, 3.0);
    bys_design *one = run(1), *two = run(2);
    ck_assert_str_eq(one->verdict, "pass");
    for (int l = 0; l < 2; l++) {
        const bys_leg_result *leg = &one->legs[l], *other = &two->legs[l];
        expect_close(leg->tension_N, 3.0 * leg->passage.peak_N, 1e-9);
        ck_assert_ptr_nonnull(strstr(leg->strength.analysis, "x 3.00"));
        expect_abs(other->passage.peak_N, leg->passage.peak_N, 0.0);
        expect_abs(other->passage.phase_rad, leg->passage.phase_rad, 0.0);
    }
    bys_design_free(one);
    bys_design_free(two);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("wave passage in the design");
    suite_test(s, the_larger_counts_and_never_the_sum);
    suite_test(s, a_large_wave_part_is_not_checked_without_a_dynamic_factor);
    suite_test(s, a_dynamic_factor_covers_it_and_multiplies_the_peak);
    return suite_run(s, NULL);
}
