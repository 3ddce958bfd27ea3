// SPDX-License-Identifier: GPL-3.0-or-later
// Checks of what hangs and holds: depth of floats against their rating, ropes beyond their curve.
#include "design/hand_site.h"
#include "support/suite.h"
#include <byssus/design.h>

#include <string.h>

static hand_site hand;

/// A current across the line only, so that each run is short; anchors and floats of make.
static void make_across(void)
{
    hand_site_make(&hand);
    hand.currents[0].towards = 0.5 * 3.14159265358979323846;
    hand.currents[0].sector = 0.1;
}

static bys_design *run(void)
{
    bys_design *design = NULL;
    bys_messages *messages;
    bys_error err = {0};
    bys_messages_new(&messages);
    const bys_rc rc = bys_design_run(&design, &hand.site, NULL, messages, &err);
    ck_assert_msg(rc == BYS_OK, "%d: %s", (int)rc, err.text);
    bys_messages_free(messages);
    return design;
}

static const bys_finding *finding(const bys_design *d, const char *kind, const char *condition)
{
    for (int i = 0; i < d->finding_count; i++)
        if (strcmp(d->findings[i].kind, kind) == 0 &&
            strncmp(d->findings[i].condition, condition, strlen(condition)) == 0)
            return &d->findings[i];
    return NULL;
}

START_TEST(floats_are_held_against_their_depth_rating)
{
    make_across();
    bys_design *d = run();
    ck_assert_ptr_null(finding(d, "float depth", "")); // no rating, no check
    bys_design_free(d);

    hand.buoy.u.buoy.depth_rating = 50.0;
    d = run();
    const bys_finding *f = finding(d, "float depth", "intact");
    ck_assert_ptr_nonnull(f);
    ck_assert_int_eq(f->verdict, BYS_PASS);
    expect_abs(f->limit, 50.0, 0.0);
    const double deepest = f->value;
    ck_assert_double_gt(deepest, 0.1);
    ck_assert_double_lt(deepest, 50.0);
    ck_assert_ptr_nonnull(strstr(f->item, "/float"));
    const bys_finding *lost = finding(d, "float depth", "lost:");
    ck_assert_ptr_nonnull(lost); // not demanded by the hand site's rules
    ck_assert_int_eq(lost->verdict, BYS_REPORTED);
    bys_design_free(d);

    hand.buoy.u.buoy.depth_rating = 0.9 * deepest;
    d = run();
    f = finding(d, "float depth", "intact");
    ck_assert_int_eq(f->verdict, BYS_FAIL);
    expect_close(f->value, deepest, 1e-9);
    ck_assert_ptr_nonnull(strstr(f->text, "beyond its rating"));
    ck_assert_str_eq(d->verdict, "fail");
    bys_design_free(d);

    hand.site.rules.demand_lost_leg = true;
    hand.buoy.u.buoy.depth_rating = 50.0;
    d = run();
    lost = finding(d, "float depth", "lost:");
    ck_assert_int_eq(lost->verdict, BYS_PASS);
    bys_design_free(d);
}
END_TEST

START_TEST(a_rope_beyond_its_curve_is_told)
{
    static double strain[3] = {0, 0.001, 0.002}, tension[3] = {0, 1500, 3000};
    make_across();
    hand.warp.u.line.working = (bys_stretch_spec){3, strain, tension, 1.5e6, BYS_BASIS_USER, {0}};
    hand.site.parts = &hand.warp; // the expansion finds curves among the site's parts
    hand.site.part_count = 1;
    bys_design *d = run();
    const bys_finding *f = finding(d, "rope curve", "intact");
    ck_assert_ptr_nonnull(f);
    ck_assert_int_eq(f->verdict, BYS_REPORTED);
    expect_close(f->limit, 3.0, 1e-12);
    ck_assert_double_gt(f->value, 3.0);
    const double softer = d->legs[0].tension_N;
    bys_design_free(d);
    // the points lie on the straight line of the rope's stiffness: the same tensions
    hand.warp.u.line.working = (bys_stretch_spec){.stiffness = 1.5e6};
    hand.warp.u.line.stiffness = 1.5e6;
    d = run();
    ck_assert_ptr_null(finding(d, "rope curve", ""));
    expect_close(d->legs[0].tension_N, softer, 1e-6);
    bys_design_free(d);
}
END_TEST

// Chain legs of the raft grid in a current to the east: the western ones pull, most of their chain is
// off the bed; the eastern ones lie slack. derived: friction takes load from an anchor while the line
// is pulled, never more than mu times weight times grounded length, and keeps some when it slackens.
START_TEST(friction_takes_load_from_anchors_and_keeps_some)
{
    bys_messages *messages;
    bys_site *site;
    bys_solution *s;
    bys_error err = {0};
    bys_messages_new(&messages);
    ck_assert_int_eq(bys_site_read(&site, BYS_SITEFILES "/raft-grid.xml", NULL, messages, &err),
                     BYS_OK);
    const bys_rc rc = bys_solution_friction(&s, site, "50y/090/LAT/w000:harvest:intact", messages,
                                            &err);
    ck_assert_msg(rc == BYS_OK, "%s", err.text);
    const bys_friction *f = s->friction;
    ck_assert_ptr_nonnull(f);
    ck_assert_msg(f->status == BYS_STABLE, "%s", f->reason);
    ck_assert_int_eq(f->row_count, 14);
    expect_abs(f->mu_chain, 0.7, 0.0);
    ck_assert(f->mismatch < 0.01 && f->reach_m < 0.01);
    bool kept = false;
    for (int i = 0; i < f->row_count; i++) {
        const bys_friction_row *r = &f->rows[i];
        const double w = 31.6 * 9.81; // N/m in air: more than any chain of the file weighs in water
        ck_assert_double_lt(r->anchor_N[0] - r->anchor_N[1], 0.7 * w * r->grounded_m[1] + 500.0);
        if (r->top_N[0] > 5.0 * r->top_N[3]) // pulled hard against slack water
            ck_assert_double_lt(r->anchor_N[1], 1.005 * r->anchor_N[0]);
        kept = kept || r->anchor_N[1] > r->anchor_N[0] + 500.0; // slackened by the case
    }
    ck_assert(kept);
    bys_solution_free(s);
    bys_site_free(site);
    bys_messages_free(messages);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("gear");
    suite_test(s, floats_are_held_against_their_depth_rating);
    suite_test(s, a_rope_beyond_its_curve_is_told);
    suite_test(s, friction_takes_load_from_anchors_and_keeps_some);
    return suite_run(s, NULL);
}
