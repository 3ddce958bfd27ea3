// SPDX-License-Identifier: GPL-3.0-or-later
// The load account against the supports, and each kind of load against its own law.
#include "phys/phys.h"
#include "statics/account.h"
#include "statics/hand_net.h"
#include "support/suite.h"

#include <string.h>

typedef struct {
    bys_network *net;
    bys_state *state;
    bys_solver *solver;
    bys_account account;
} rig;

static rig rig_of(bys_network *net)
{
    rig r = {.net = net};
    bys_error err = {0};
    ck_assert_ptr_nonnull(net);
    ck_assert_int_eq(bys_state_new(&r.state, net, &err), BYS_OK);
    ck_assert_int_eq(bys_solver_new(&r.solver, net, 0, &err), BYS_OK);
    return r;
}

static void solve(rig *r, const bys_sea *sea, const bys_condition *condition)
{
    bys_error err = {0};
    bys_account_free(&r->account);
    ck_assert_int_eq(bys_solve_island(r->state, r->solver, sea, condition, BYS_START_COLD, &err),
                     BYS_OK);
    ck_assert_msg(r->state->islands[0].status == BYS_STABLE, "%s", r->state->islands[0].reason);
    ck_assert_int_eq(bys_account_make(&r->account, r->state, sea, condition, 0, &err), BYS_OK);
}

static void rig_free(rig *r)
{
    bys_account_free(&r->account);
    bys_solver_free(r->solver);
    bys_state_free(r->state);
    bys_network_free(r->net);
}

static const bys_account_row *row(const rig *r, const char *kind)
{
    for (int i = 0; i < r->account.row_count; i++)
        if (!strcmp(r->account.rows[i].kind, kind))
            return &r->account.rows[i];
    ck_abort_msg("no row \"%s\"", kind);
    return NULL;
}

START_TEST(a_longline_balances_in_all_weather)
{
    rig r = rig_of(hand_longline(53.2, 55.0, 10.0, PLACED_PLAIN));
    for (int degrees = 0; degrees < 180; degrees += 30) {
        const bys_sea sea = hand_sea(0.5, degrees, 20.0, 1.0, 4.5, PLACED_PLAIN);
        solve(&r, &sea, NULL);
        expect_abs(bys_account_gap(&r.account), 0.0, 1e-6);
        // the same against the sideways loads alone, which are a small part of the whole
        const double *t = r.account.total, *s = r.account.reaction;
        expect_abs(hypot(t[0] - s[0], t[1] - s[1]) / hypot(s[0], s[1]), 0.0, 1e-5);
        ck_assert_double_gt(hypot(r.account.sum[BYS_ACCOUNT_DRIFT][0],
                                  r.account.sum[BYS_ACCOUNT_DRIFT][1]), 1.0);
        ck_assert_double_gt(hypot(r.account.sum[BYS_ACCOUNT_WIND][0],
                                  r.account.sum[BYS_ACCOUNT_WIND][1]), 1.0);
    }
    rig_free(&r);
}
END_TEST

START_TEST(a_raft_balances_and_reflects)
{
    rig r = rig_of(hand_raft());
    const bys_sea sea = hand_sea(0.5, 30.0, 15.0, 0.6, 0.0, PLACED_PLAIN);
    solve(&r, &sea, NULL);
    expect_abs(bys_account_gap(&r.account), 0.0, 1e-6);
    const double *f = r.account.sum[BYS_ACCOUNT_REFLECTION];
    ck_assert_double_gt(f[0] * sea.waves[0] + f[1] * sea.waves[1], 1.0);
    rig_free(&r);
}
END_TEST

START_TEST(still_water_has_weight_buoyancy_and_bed_only)
{
    rig r = rig_of(hand_longline(51.8, 55.0, 10.0, PLACED_PLAIN));
    const bys_sea sea = hand_sea(0.0, 0.0, 0.0, 0.0, 0.0, PLACED_PLAIN);
    solve(&r, &sea, NULL);
    expect_abs(bys_account_gap(&r.account), 0.0, 1e-6);
    for (int k = 0; k < 4; k++)
        for (int i = 0; i < 3; i++)
            ck_assert_double_eq(r.account.sum[k][i], 0.0);
    ck_assert_double_gt(r.account.sum[BYS_ACCOUNT_BED][2], 0.0);
    // the floats' weight: pieces times mass times g (derived)
    double mass = 0.0;
    for (int i = 0; i < r.net->float_count; i++)
        mass += r.net->floats[i].count * r.net->floats[i].part->u.buoy.mass;
    double weight = 0.0;
    for (int i = 0; i < r.account.row_count; i++)
        if (!strcmp(r.account.rows[i].kind, "float"))
            weight += r.account.rows[i].f[BYS_ACCOUNT_WEIGHT][2];
    expect_close(-weight, mass * sea.gravity, 1e-12);
    rig_free(&r);
}
END_TEST

START_TEST(a_wave_frozen_at_a_phase_balances)
{
    rig r = rig_of(hand_longline(53.2, 55.0, 0.0, PLACED_PLAIN));
    const bys_sea sea = hand_sea(0.4, 60.0, 10.0, 0.0, 4.5, PLACED_PLAIN);
    bys_train train = bys_train_make(0.8, 4.0, sea.current, sea.level, sea.depth);
    for (int k = 0; k < 3; k++) {
        train.phase = k * 2.0;
        const bys_sea frozen = bys_sea_in_train(&sea, &train);
        solve(&r, &frozen, NULL);
        expect_abs(bys_account_gap(&r.account), 0.0, 1e-6);
        for (int i = 0; i < 3; i++) // nothing is given here
            ck_assert_double_eq(r.account.sum[BYS_ACCOUNT_GIVEN][i], 0.0);
    }
    rig_free(&r);
}
END_TEST

/// A uniform current on upright gear is 0.5 rho Cd A U^2 (derived): no profile, no waves.
START_TEST(gear_in_a_uniform_current)
{
    rig r = rig_of(hand_longline(53.2, 55.0, 0.0, PLACED_PLAIN));
    bys_sea sea = hand_sea(0.4, 90.0, 0.0, 0.0, 4.5, PLACED_PLAIN);
    sea.current_exponent = 0.0;
    solve(&r, &sea, NULL);
    double area = 0.0;
    for (int i = 0; i < r.net->gear_count; i++) {
        const bys_gear_values *v = r.net->gears[i].values;
        area += r.net->gears[i].count * v->cd * v->width * v->height;
    }
    const double *f = row(&r, "gear")->f[BYS_ACCOUNT_CURRENT];
    expect_close(f[0], 0.5 * sea.rho * area * 0.4 * 0.4, 1e-9);
    expect_abs(f[1], 0.0, 1e-9 * f[0]);
    rig_free(&r);
}
END_TEST

START_TEST(what_a_condition_takes_out_is_not_counted)
{
    rig r = rig_of(hand_longline(53.2, 55.0, 0.0, PLACED_PLAIN));
    const bys_sea sea = hand_sea(0.3, 60.0, 10.0, 0.5, 4.5, PLACED_PLAIN);
    const bys_line *line = &r.net->lines[0];
    const int lost = 15;
    const bys_point_load side = {line->points[15], {500.0, 0.0, 100.0}};
    const bys_condition odd = {
        .id = "odd", .floats = &lost, .float_count = 1, .loads = &side, .load_count = 1};
    solve(&r, &sea, &odd);
    expect_abs(bys_account_gap(&r.account), 0.0, 1e-6);
    expect_close(row(&r, "point")->f[BYS_ACCOUNT_GIVEN][0], 500.0, 1e-12);
    const bys_leg *leg = &r.net->legs[0];
    int sections[8];
    for (int i = 0; i < leg->section_count; i++)
        sections[i] = leg->first_section + i;
    const bys_condition adrift = {
        .id = "lost", .sections = sections, .section_count = leg->section_count};
    solve(&r, &sea, &adrift);
    expect_abs(bys_account_gap(&r.account), 0.0, 1e-6);
    rig_free(&r);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("account");
    suite_test(s, a_longline_balances_in_all_weather);
    suite_test(s, a_raft_balances_and_reflects);
    suite_test(s, still_water_has_weight_buoyancy_and_bed_only);
    suite_test(s, a_wave_frozen_at_a_phase_balances);
    suite_test(s, gear_in_a_uniform_current);
    suite_test(s, what_a_condition_takes_out_is_not_counted);
    return suite_run(s, NULL);
}
