// SPDX-License-Identifier: GPL-3.0-or-later
// Equilibria of hand-built networks: audited, invariant under turning, mirroring and moving, honest
// about what cannot stand. Expected relations are derived (statics), numbers are none of them.
#include "statics/hand_net.h"
#include "support/suite.h"

#include <stdlib.h>
#include <string.h>

typedef struct { bys_network *net; bys_state *state; bys_solver *solver; } rig;

static rig rig_of(bys_network *net)
{
    rig r = {net, NULL, NULL};
    ck_assert_int_eq(bys_state_new(&r.state, net, NULL), BYS_OK);
    ck_assert_int_eq(bys_solver_new(&r.solver, net, 0, NULL), BYS_OK);
    return r;
}

static void rig_free(rig *r)
{
    bys_solver_free(r->solver);
    bys_state_free(r->state);
    bys_network_free(r->net);
}

static bys_outcome solve(rig *r, const bys_sea *sea, const bys_condition *condition,
                         bys_start start)
{
    ck_assert_int_eq(bys_solve_island(r->state, r->solver, sea, condition, start, NULL), BYS_OK);
    return r->state->islands[0];
}

static void expect_audited(const rig *r, const bys_sea *sea, const bys_condition *condition)
{
    bys_audit audit;
    bys_audit_island(&audit, r->state, sea, condition, 0);
    ck_assert_double_lt(audit.worst_N, 0.01);
    ck_assert_double_lt(audit.sum_N, 1e-7 * audit.applied_N);
}

static double leg_tension(const rig *r, int leg)
{
    return r->state->sections[r->net->legs[leg].first_section].tension_a;
}

START_TEST(every_direction_is_stable_and_audited)
{
    rig r = rig_of(hand_longline(51.8, 55.0, 0.0, PLACED_PLAIN));
    for (int k = 0; k < 32; k++) {
        const double wind = k % 3 ? 25.0 : 0.0, hs = k % 2 ? 1.2 : 0.0;
        const double level = k % 4 < 2 ? 4.5 : 0.0;
        const bys_sea sea = hand_sea(0.6, 11.25 * k, wind, hs, level, PLACED_PLAIN);
        const bys_outcome o = solve(&r, &sea, NULL, BYS_START_COLD);
        ck_assert_msg(o.status == BYS_STABLE, "direction %g: %s", 11.25 * k, o.reason);
        expect_audited(&r, &sea, NULL);
    }
    rig_free(&r);
}
END_TEST

START_TEST(a_lost_leg_leaves_the_line_streaming_from_the_other)
{
    rig r = rig_of(hand_longline(51.8, 55.0, 12.5, PLACED_PLAIN));
    for (int k = 0; k < 16; k++) {
        const bys_sea sea = hand_sea(0.6, 22.5 * k, 20.0, 1.0, 4.5, PLACED_PLAIN);
        for (int l = 0; l < 2; l++) {
            const bys_leg *leg = &r.net->legs[l];
            const int sections[2] = {leg->first_section, leg->first_section + 1};
            const bys_condition lost = {.id = "lost", .sections = sections, .section_count = 2};
            const bys_outcome o = solve(&r, &sea, &lost, BYS_START_COLD);
            ck_assert_msg(o.status == BYS_STABLE, "direction %g leg %d: %s", 22.5 * k, l, o.reason);
            expect_audited(&r, &sea, &lost);
            ck_assert_double_eq(leg_tension(&r, l), 0.0);
            // the free end lies down-current of the anchor that holds
            const double *x = r.state->x + 3 * leg->top;
            const double *a = r.net->points[r.net->legs[1 - l].foot].x;
            const double out = (x[0] - a[0]) * sea.current[0] + (x[1] - a[1]) * sea.current[1];
            ck_assert_double_gt(out, 150.0);
        }
    }
    rig_free(&r);
}
END_TEST

START_TEST(slack_water_with_a_lost_leg_is_indeterminate)
{
    rig r = rig_of(hand_longline(51.8, 55.0, 0.0, PLACED_PLAIN));
    const bys_sea sea = hand_sea(0.0, 0.0, 0.0, 0.0, 0.0, PLACED_PLAIN);
    const int section = r.net->legs[0].first_section;
    const bys_condition lost = {.id = "lost", .sections = &section, .section_count = 1};
    const bys_outcome o = solve(&r, &sea, &lost, BYS_START_COLD);
    ck_assert_int_eq(o.status, BYS_INDETERMINATE);
    ck_assert_ptr_nonnull(strstr(o.reason, "nothing fixes the position of"));
    rig_free(&r);
}
END_TEST

START_TEST(supports_carry_all_loads)
{
    // reactions = sum of all loads: checked against the drag that the gear and floats report
    rig r = rig_of(hand_longline(53.2, 55.0, 0.0, PLACED_PLAIN));
    const bys_sea sea = hand_sea(0.6, 90.0, 0.0, 0.0, 4.5, PLACED_PLAIN);
    ck_assert_int_eq(solve(&r, &sea, NULL, BYS_START_COLD).status, BYS_STABLE);
    double east = 0.0, north = 0.0, gear = 0.0;
    for (int l = 0; l < 2; l++) {
        east += r.state->reaction[3 * r.net->legs[l].foot];
        north += r.state->reaction[3 * r.net->legs[l].foot + 1];
    }
    for (int g = 0; g < r.net->gear_count; g++)
        gear += r.net->gears[g].count * r.state->gear_drag[g];
    ck_assert_double_gt(east, gear);      // ropes and floats add to the panels
    ck_assert_double_lt(east, 2.0 * gear);
    ck_assert_double_lt(fabs(north), 0.02 * east);
    rig_free(&r);
}
END_TEST

static void tensions(double out[2], placing at, double degrees)
{
    rig r = rig_of(hand_longline(51.8, 55.0, 12.5, at));
    const bys_sea sea = hand_sea(0.6, degrees, 15.0, 0.8, 4.5, at);
    ck_assert_int_eq(solve(&r, &sea, NULL, BYS_START_COLD).status, BYS_STABLE);
    const int south = r.net->lines[0].legs[0], north = r.net->lines[0].legs[1];
    out[0] = leg_tension(&r, south), out[1] = leg_tension(&r, north);
    rig_free(&r);
}

START_TEST(turning_mirroring_moving_and_renumbering_change_nothing)
{
    const placing others[] = {{1.1, 1.0, 0.0, 0.0, 0}, {0.0, -1.0, 0.0, 0.0, 0},
                              {-2.3, -1.0, 0.0, 0.0, 0}, {0.0, 1.0, 400.0, -250.0, 0},
                              {0.0, 1.0, 0.0, 0.0, 1}};
    double plain[2], other[2];
    tensions(plain, PLACED_PLAIN, 65.0);
    for (int i = 0; i < 5; i++) {
        tensions(other, others[i], 65.0);
        expect_close(other[0], plain[0], 1e-8);
        expect_close(other[1], plain[1], 1e-8);
    }
}
END_TEST

START_TEST(warm_and_cold_starts_agree)
{
    rig warm = rig_of(hand_longline(51.8, 55.0, 0.0, PLACED_PLAIN));
    rig cold = rig_of(hand_longline(51.8, 55.0, 0.0, PLACED_PLAIN));
    for (int k = 0; k < 15; k++) {
        const bys_sea sea = hand_sea(0.6, 15.0 + 10.0 * k, 0.0, 0.0, 4.5, PLACED_PLAIN);
        solve(&warm, &sea, NULL, k ? BYS_START_WARM : BYS_START_COLD);
        solve(&cold, &sea, NULL, BYS_START_COLD);
        for (int l = 0; l < 2; l++)
            expect_close(leg_tension(&warm, l), leg_tension(&cold, l), 1e-7);
    }
    rig_free(&warm);
    rig_free(&cold);
}
END_TEST

START_TEST(a_longer_reach_is_tighter)
{
    double last = 0.0;
    const double reach[] = {50.5, 51.8, 53.2, 54.5};
    for (int i = 0; i < 4; i++) {
        rig r = rig_of(hand_longline(reach[i], 55.0, 0.0, PLACED_PLAIN));
        const bys_sea sea = hand_sea(0.6, 90.0, 0.0, 0.0, 4.5, PLACED_PLAIN);
        ck_assert_int_eq(solve(&r, &sea, NULL, BYS_START_COLD).status, BYS_STABLE);
        ck_assert_double_gt(leg_tension(&r, 0), 1.1 * last);
        last = leg_tension(&r, 0);
        rig_free(&r);
    }
}
END_TEST

START_TEST(raft_floats_level_and_balanced)
{
    rig r = rig_of(hand_raft());
    for (int k = 0; k < 8; k++) {
        const bys_sea sea = hand_sea(0.5, 45.0 * k + 10.0, 15.0, 0.6, 0.0, PLACED_PLAIN);
        const bys_outcome o = solve(&r, &sea, NULL, BYS_START_COLD);
        ck_assert_msg(o.status == BYS_STABLE, "direction %g: %s", 45.0 * k + 10.0, o.reason);
        expect_audited(&r, &sea, NULL);
        ck_assert_double_gt(r.state->body_r[8], 0.99); // upright
    }
    rig_free(&r);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("equilibrium");
    suite_test(s, every_direction_is_stable_and_audited);
    suite_test(s, a_lost_leg_leaves_the_line_streaming_from_the_other);
    suite_test(s, slack_water_with_a_lost_leg_is_indeterminate);
    suite_test(s, supports_carry_all_loads);
    suite_test(s, turning_mirroring_moving_and_renumbering_change_nothing);
    suite_test(s, warm_and_cold_starts_agree);
    suite_test(s, a_longer_reach_is_tighter);
    suite_test(s, raft_floats_level_and_balanced);
    return suite_run(s, NULL);
}
