// SPDX-License-Identifier: GPL-3.0-or-later
// Gear, floats and hulls under each drag law: the tangent against differences, the audit, the account.
// Source: derived, unless said. All numbers of the gear are invented.
#include "phys/phys.h"
#include "phys/sea_loads.h"
#include "statics/account.h"
#include "statics/hand_net.h"
#include "statics/solver.h"
#include "support/suite.h"

#include <string.h>

enum { LAWS = 7 };
static const bys_drag_law laws[LAWS] = {
    {.kind = BYS_DRAG_OUTLINE, .cd = 1.3},
    {.kind = BYS_DRAG_PANEL, .cd = 1.2, .edge = 0.15},
    {.kind = BYS_DRAG_NET, .solidity = 0.45, .twine = 0.002},
    {.kind = BYS_DRAG_NET_LOLAND, .solidity = 0.3},
    {.kind = BYS_DRAG_NET_KRISTIANSEN, .solidity = 0.25, .twine = 0.003},
    {.kind = BYS_DRAG_WEED, .cd = 0.4, .speed0 = 0.5, .power = 1.5},
    {.kind = BYS_DRAG_WEED, .cd = 0.4, .speed0 = 0.5, .power = 1.43},
};

static bys_part net_part = {.kind = BYS_PART_GEAR,
                            .u.gear = {.kind = BYS_GEAR_NET, .drop = 0.6,
                                       .orientation = BYS_ORIENT_ALONG, .edge_cd = 0.15}};

static bys_network *line_with(const bys_drag_law *law, bys_orientation orientation)
{
    bys_network *net = hand_longline(53.2, 55.0, 0.0, PLACED_PLAIN);
    net_part.u.gear.orientation = orientation;
    for (int i = 0; i < net->gear_count; i++) {
        bys_gear_set *g = &net->gears[i];
        g->part = &net_part;
        g->lawful = true;
        g->law = *law;
    }
    return net;
}

/// Force of one lump of the network against its own derivative over z.
static void slope_of_gear(const bys_gear_set *set, const bys_sea *sea)
{
    const double h = 1e-5;
    for (double z = sea->level - 6.0; z < sea->level + 0.6; z += 0.37) {
        bys_lump at, up, down;
        const double x[3] = {3.0, 1.0, z}, a[3] = {3.0, 1.0, z + h}, b[3] = {3.0, 1.0, z - h};
        bys_gear_eval(&at, set, x, sea);
        bys_gear_eval(&up, set, a, sea);
        bys_gear_eval(&down, set, b, sea);
        for (int i = 0; i < 2; i++)
            expect_abs(at.J[3 * i + 2], (up.f[i] - down.f[i]) / (2.0 * h), 2e-3);
    }
}

START_TEST(gear_has_its_slopes)
{
    for (int k = 0; k < LAWS; k++)
        for (int o = BYS_ORIENT_FREE; o <= BYS_ORIENT_ACROSS; o++) {
            bys_network *net = line_with(&laws[k], (bys_orientation)o);
            const bys_sea sea = hand_sea(0.6, 40.0, 15.0, 0.9, 4.5, PLACED_PLAIN);
            net->gears[3].file_relief = 0.4;
            net->gears[3].swing_relief = 0.3;
            slope_of_gear(&net->gears[3], &sea);
            bys_network_free(net);
        }
}
END_TEST

START_TEST(every_law_balances_and_is_audited)
{
    for (int k = 0; k < LAWS; k++)
        for (int o = BYS_ORIENT_FREE; o <= BYS_ORIENT_ACROSS; o++) {
            bys_network *net = line_with(&laws[k], (bys_orientation)o);
            bys_state *state;
            bys_solver *solver;
            bys_error err = {0};
            ck_assert_int_eq(bys_state_new(&state, net, &err), BYS_OK);
            ck_assert_int_eq(bys_solver_new(&solver, net, 0, &err), BYS_OK);
            for (int i = 0; i < net->gear_count; i += 2)
                net->gears[i].file_relief = 0.4;
            for (double degrees = 5.0; degrees < 180.0; degrees += 50.0) {
                const bys_sea sea = hand_sea(0.6, degrees, 15.0, 0.8, 4.5, PLACED_PLAIN);
                bys_audit audit;
                bys_account account;
                ck_assert_int_eq(
                    bys_solve_island(state, solver, &sea, NULL, BYS_START_COLD, &err), BYS_OK);
                ck_assert_msg(state->islands[0].status == BYS_STABLE, "law %d, %s", k,
                              state->islands[0].reason);
                bys_audit_island(&audit, state, &sea, NULL, 0);
                expect_abs(audit.worst_N, 0.0, 0.01);
                ck_assert_int_eq(bys_account_make(&account, state, &sea, NULL, 0, &err), BYS_OK);
                expect_abs(bys_account_gap(&account), 0.0, 1e-6);
                bys_account_free(&account);
            }
            bys_solver_free(solver);
            bys_state_free(state);
            bys_network_free(net);
        }
}
END_TEST

/// A uniform current on a net at 30 deg between flow and line: drag and lift by the law of nets.c.
START_TEST(a_net_at_an_angle_is_lifted)
{
    const bys_drag_law law = {.kind = BYS_DRAG_NET_LOLAND, .solidity = 0.4};
    bys_network *net = line_with(&law, BYS_ORIENT_ALONG);
    bys_sea sea = hand_sea(0.5, 30.0, 0.0, 0.0, 4.5, PLACED_PLAIN); // the line runs north
    sea.current_exponent = 0.0;
    bys_lump lump;
    const double x[3] = {0.0, 0.0, 2.0};
    bys_gear_eval(&lump, &net->gears[5], x, &sea);
    const bys_gear_set *g = &net->gears[5];
    // the face lies along the line: 60 deg between flow and normal, which points east
    const bys_net_coeff c = bys_net_loland(0.4, BYS_PI / 3.0);
    const double q = 0.5 * sea.rho * 0.25 * g->count * g->values->width * g->values->height;
    const double flow[2] = {0.5, sqrt(0.75)}, side[2] = {sqrt(0.75), -0.5};
    for (int i = 0; i < 2; i++)
        expect_close(lump.f[i], q * (c.cd * flow[i] + c.cl * side[i]), 1e-9);
    bys_network_free(net);
}
END_TEST

START_TEST(a_file_keeps_half_along_the_line_and_all_across)
{
    bys_network *net = line_with(&laws[0], BYS_ORIENT_FREE);
    bys_gear_set *g = &net->gears[5];
    const double x[3] = {0.0, 0.0, 2.0};
    bys_lump whole, part;
    for (int degrees = 0; degrees <= 90; degrees += 90) {
        const bys_sea sea = hand_sea(0.5, degrees, 0.0, 0.0, 4.5, PLACED_PLAIN);
        g->file_relief = 0.0;
        bys_gear_eval(&whole, g, x, &sea);
        g->file_relief = 0.5;
        bys_gear_eval(&part, g, x, &sea);
        const double kept = degrees ? 1.0 : 0.5;
        expect_close(hypot(part.f[0], part.f[1]), kept * hypot(whole.f[0], whole.f[1]), 1e-12);
    }
    bys_network_free(net);
}
END_TEST

// ---- barrels ---------------------------------------------------------------------------------

static bys_part barrel = {.kind = BYS_PART_FLOAT,
                          .u.buoy = {.volume = 0.34, .diameter = 0.6, .length = 1.2, .mass = 20.0,
                                     .cd = 1.2, .cs = 0.7, .barrel_law = true}};

START_TEST(barrels_have_their_slopes)
{
    for (int shape = BYS_FLOAT_BARREL_SIDE; shape <= BYS_FLOAT_BARREL_UPRIGHT; shape++)
        for (int lies = BYS_LIES_ANY; lies <= BYS_LIES_ACROSS; lies++) {
            barrel.u.buoy.shape = (bys_float_shape)shape;
            barrel.u.buoy.lies = (bys_lie)lies;
            const bys_float_set set = {.id = "f", .part = &barrel, .count = 2.0,
                                       .axis = {0.0, 1.0}};
            const bys_sea sea = hand_sea(0.9, 35.0, 12.0, 0.7, 4.5, PLACED_PLAIN);
            const double h = 1e-6;
            for (double z = 2.9; z < 4.6; z += 0.0531) {
                bys_lump at, up, down;
                const double x[3] = {0, 0, z}, a[3] = {0, 0, z + h}, b[3] = {0, 0, z - h};
                bys_float_eval(&at, &set, x, &sea);
                bys_float_eval(&up, &set, a, &sea);
                bys_float_eval(&down, &set, b, &sea);
                for (int i = 0; i < 2; i++)
                    expect_abs(at.J[3 * i + 2], (up.f[i] - down.f[i]) / (2.0 * h), 0.02);
            }
        }
}
END_TEST

/// A sunken barrel 0.6 x 1.2 m across the flow: 1.2 x 0.58 on its outline, about 0.70. loads.md 1.5
/// [memory there].
START_TEST(a_sunken_barrel_across_the_flow)
{
    barrel.u.buoy.shape = BYS_FLOAT_BARREL_SIDE;
    barrel.u.buoy.lies = BYS_LIES_ALONG;
    const bys_float_set set = {.id = "f", .part = &barrel, .count = 1.0, .axis = {0.0, 1.0}};
    bys_sea sea = hand_sea(0.5, 90.0, 0.0, 0.0, 4.5, PLACED_PLAIN);
    sea.current_exponent = 0.0;
    bys_lump lump;
    const double x[3] = {0.0, 0.0, 1.0};
    bys_float_eval(&lump, &set, x, &sea);
    expect_close(lump.f[0] / (0.5 * sea.rho * 0.25 * 0.72), 0.70, 0.006);
    // end-on: 0.9 on the disc (text books, memory)
    sea = hand_sea(0.5, 0.0, 0.0, 0.0, 4.5, PLACED_PLAIN);
    sea.current_exponent = 0.0;
    bys_float_eval(&lump, &set, x, &sea);
    expect_close(lump.f[1], 0.5 * sea.rho * 0.25 * 0.9 * BYS_PI * 0.09, 1e-9);
}
END_TEST

// ---- hulls -----------------------------------------------------------------------------------

START_TEST(a_hull_balances_with_friction_bed_and_beams)
{
    bys_network *net = hand_raft();
    for (int i = 0; i < net->prism_count; i++) {
        net->prisms[i].end_ratio = 0.7;
        net->prisms[i].draft = 0.9;
        net->prisms[i].skin = 10.0;
        net->prisms[i].friction = 30.0;
    }
    const int body = 0;
    const int point = bys_network_body_point(net, "", body, (const double[3]){0.0, 0.0, -0.2});
    const bys_prism beam = {.point = point, .height = 0.3, .width_x = 8.0, .cd = 2.0, .cs = 1.2};
    ck_assert_int_ge(bys_network_prism(net, &beam), 0);
    bys_error err = {0};
    ck_assert_int_eq(bys_network_finish(net, &err), BYS_OK);
    bys_state *state;
    bys_solver *solver;
    ck_assert_int_eq(bys_state_new(&state, net, &err), BYS_OK);
    ck_assert_int_eq(bys_solver_new(&solver, net, 0, &err), BYS_OK);
    for (double degrees = 0.0; degrees < 360.0; degrees += 40.0) {
        const bys_sea sea = hand_sea(0.6, degrees, 15.0, 0.5, 0.0, PLACED_PLAIN);
        bys_audit audit;
        ck_assert_int_eq(bys_solve_island(state, solver, &sea, NULL, BYS_START_COLD, &err), BYS_OK);
        ck_assert_msg(state->islands[0].status == BYS_STABLE, "%s", state->islands[0].reason);
        bys_audit_island(&audit, state, &sea, NULL, 0);
        expect_abs(audit.worst_N, 0.0, 0.01);
    }
    bys_solver_free(solver);
    bys_state_free(state);
    bys_network_free(net);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("gear_laws");
    suite_test(s, gear_has_its_slopes);
    suite_test(s, every_law_balances_and_is_audited);
    suite_test(s, a_net_at_an_angle_is_lifted);
    suite_test(s, a_file_keeps_half_along_the_line_and_all_across);
    suite_test(s, barrels_have_their_slopes);
    suite_test(s, a_sunken_barrel_across_the_flow);
    suite_test(s, a_hull_balances_with_friction_bed_and_beams);
    return suite_run(s, NULL);
}
