// SPDX-License-Identifier: GPL-3.0-or-later
// Laying tolerance: the site built anew with the anchor at the radius passes, a little beyond it does
// not; the lease gives a radius that can be measured. All expectations derived; numbers invented.
#include "design/hand_site.h"
#include "support/suite.h"
#include <byssus/design.h>

#include <string.h>

static hand_site hand;
static bys_leg_spec legs[2];
static const double pi = 3.14159265358979323846;

/// A current across the line; screws that hold `capacity` in any direction.
static void make(double capacity)
{
    hand_site_make(&hand);
    hand.currents[0].towards = 0.5 * pi;
    hand.currents[0].sector = 0.1;
    hand.site.stage_count = 1;
    bys_anchor_part *a = &hand.anchor.u.anchor;
    a->kind = BYS_ANCHOR_SCREW;
    a->capacity = capacity;
    a->capacity_kind = "ultimate";
    a->capacity_basis = BYS_BASIS_TEST;
    a->capacity_angle = 0.5 * pi;
    legs[0] = legs[1] = hand.leg;
    legs[0].at = "south";
    legs[1].at = "north";
    hand.block.legs = legs;
    hand.block.leg_count = 2;
}

static bys_design *run(bool tolerance, int threads)
{
    bys_check_options options = BYS_CHECK_OPTIONS_INIT;
    bys_messages *messages = NULL;
    bys_design *design = NULL;
    bys_error err = {0};
    options.tolerance = tolerance;
    options.threads = threads;
    bys_messages_new(&messages);
    const bys_rc rc = bys_design_run(&design, &hand.site, &options, messages, &err);
    ck_assert_msg(rc == BYS_OK, "%d: %s", (int)rc, err.text);
    bys_messages_free(messages);
    return design;
}

static const bys_leg_result *leg_of(const bys_design *d, const char *id)
{
    for (int l = 0; l < d->leg_count; l++)
        if (!strcmp(d->legs[l].id, id))
            return &d->legs[l];
    ck_abort_msg("no leg %s", id);
    return NULL;
}

/// Verdict of the whole site with the north anchor `radius` off.
static bool passes_at(double radius, double bearing)
{
    const double y = 0.5 * hand.block.backbone_length + legs[1].reach;
    const bys_leg_spec planned = legs[1];
    legs[1].reach = NAN;
    legs[1].x = radius * sin(bearing);
    legs[1].y = y + radius * cos(bearing);
    legs[1].heading = pi; // as planned: towards the line
    bys_design *d = run(false, 1);
    const bool passes = !strcmp(d->verdict, "pass");
    bys_design_free(d);
    legs[1] = planned;
    return passes;
}

START_TEST(a_site_built_at_the_radius_passes_and_beyond_it_does_not)
{
    make(1e9);
    bys_design *free_of_limits = run(false, 1);
    const double pull = leg_of(free_of_limits, "L01/N")->anchor.check.design_N;
    bys_design_free(free_of_limits);
    make(3.0 * 1.12 * pull); // resistance factor 3, and 12 % to spare
    bys_design *d = run(true, 2);
    ck_assert_str_eq(d->verdict, "pass");
    const bys_laying_tolerance t = leg_of(d, "L01/N")->tolerance;
    ck_assert(t.asked && t.resolves > 0);
    ck_assert_msg(t.radius_m > 0.1 && t.radius_m < 9.9, "%g: %s", t.radius_m, t.text);
    for (int b = 0; b < 8; b++)
        ck_assert_msg(passes_at(t.radius_m, 0.25 * pi * b), "fails at %g m", t.radius_m);
    ck_assert_ptr_nonnull(strstr(t.limited_by, "anchor of"));
    ck_assert(!passes_at(t.radius_m + 0.05, t.bearing_rad));
    bys_design_free(d);
}
END_TEST

START_TEST(the_lease_limits_what_it_can)
{
    make(1e9);
    // the north anchor stands at y 82 m: 1.2 m inside the margin of 2 m; the others far from it
    const double x[4] = {-200.0, -200.0, 200.0, 200.0}, y[4] = {-200.0, 85.2, 85.2, -200.0};
    memcpy(hand.lease_x, x, sizeof x);
    memcpy(hand.lease_y, y, sizeof y);
    hand.site.lease_x = hand.lease_x;
    hand.site.lease_y = hand.lease_y;
    hand.site.lease_count = 4;
    hand.site.lease_margin = 2.0;
    bys_design *d = run(true, 1);
    const bys_laying_tolerance t = leg_of(d, "L01/N")->tolerance;
    ck_assert_str_eq(t.limited_by, "lease of L01/N/anchor");
    ck_assert_double_le(t.radius_m, 1.2 + 1e-9);
    ck_assert_double_ge(t.radius_m, 1.15 - 1e-9);
    expect_abs(t.bearing_rad, 0.0, 0.0); // north comes first of the bearings that leave
    bys_design_free(d);
}
END_TEST

START_TEST(legs_that_fail_have_none_and_free_ones_reach_the_cap)
{
    make(1e9);
    hand.warp.u.line.strength = hand.chain.u.line.strength = 1e9;
    hand.backbone.u.line.strength = hand.shackle.u.connector.strength = 1e9;
    bys_design *d = run(true, 1);
    expect_abs(leg_of(d, "L01/N")->tolerance.radius_m, 10.0, 1e-9);
    ck_assert_str_eq(leg_of(d, "L01/N")->tolerance.limited_by, "");
    bys_design_free(d);
    make(1e3);
    d = run(true, 1);
    ck_assert(isnan(leg_of(d, "L01/N")->tolerance.radius_m));
    ck_assert_str_eq(leg_of(d, "L01/N")->tolerance.text, "none: it fails as designed");
    bys_design_free(d);
    make(1e3);
    d = run(false, 1);
    ck_assert(!leg_of(d, "L01/N")->tolerance.asked);
    bys_design_free(d);
}
END_TEST

START_TEST(copies_share_and_threads_change_nothing)
{
    make(60e3);
    hand.block.lines = 3;
    bys_design *one = run(true, 1), *two = run(true, 2);
    const bys_laying_tolerance first = leg_of(one, "L01/N")->tolerance;
    for (int l = 0; l < one->leg_count; l++) {
        const bys_laying_tolerance *a = &one->legs[l].tolerance, *b = &two->legs[l].tolerance;
        ck_assert(a->radius_m == b->radius_m || (isnan(a->radius_m) && isnan(b->radius_m)));
        ck_assert_int_eq(a->resolves, b->resolves);
        ck_assert_str_eq(a->text, b->text);
    }
    expect_abs(leg_of(one, "L03/N")->tolerance.radius_m, first.radius_m, 0.0);
    ck_assert_str_eq(leg_of(one, "L03/N")->tolerance.same_as, "L01/N");
    ck_assert_int_eq(leg_of(one, "L03/N")->tolerance.resolves, 0);
    bys_design_free(one);
    bys_design_free(two);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("laying tolerance");
    suite_test(s, a_site_built_at_the_radius_passes_and_beyond_it_does_not);
    suite_test(s, the_lease_limits_what_it_can);
    suite_test(s, legs_that_fail_have_none_and_free_ones_reach_the_cap);
    suite_test(s, copies_share_and_threads_change_nothing);
    return suite_run(s, NULL);
}
