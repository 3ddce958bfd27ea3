// SPDX-License-Identifier: GPL-3.0-or-later
// Loads in a regular wave frozen at a phase. Expected values by hand from linear theory and Morison's
// equation [derived], or from another case of the same solver that must be the same.
#include "num/vec3.h"
#include "phys/phys.h"
#include "statics/hand_net.h"
#include "statics/solver.h"
#include "support/suite.h"

#include <string.h>

static const double east[2] = {1.0, 0.0};

static bys_sea calm(double speed, double degrees)
{
    return hand_sea(speed, degrees, 0.0, 0.0, 4.5, PLACED_PLAIN);
}

START_TEST(motion_of_a_deep_wave_at_crest_and_zero)
{
    // H 2 m, T 6 s in 300 m: u = pi H/T, du/dt = 2 pi^2 H/T^2, falling by exp(kz), k = w^2/g
    bys_train t = bys_train_make(2.0, 6.0, east, 0.0, 300.0);
    const double w = 2.0 * M_PI / 6.0, k = w * w / BYS_G;
    double v[3], a[3];
    bys_train_motion(v, a, &t, 0.0, 0.0, 0.0); // crest
    expect_close(bys_train_surface(&t, 0.0, 0.0), 1.0, 1e-12);
    expect_close(v[0], M_PI * 2.0 / 6.0, 1e-9);
    expect_close(a[2], -2.0 * M_PI * M_PI * 2.0 / 36.0, 1e-9);
    expect_abs(v[2], 0.0, 1e-12);
    expect_abs(a[0], 0.0, 1e-12);
    bys_train_motion(v, a, &t, 0.0, 0.0, -10.0);
    expect_close(v[0], M_PI * 2.0 / 6.0 * exp(-10.0 * k), 1e-9);
    t.phase = 0.5 * M_PI; // a quarter period after the crest: the surface falls, the flow slows
    bys_train_motion(v, a, &t, 0.0, 0.0, 0.0);
    expect_abs(bys_train_surface(&t, 0.0, 0.0), 0.0, 1e-12);
    expect_close(a[0], -2.0 * M_PI * M_PI * 2.0 / 36.0, 1e-9);
    expect_close(v[2], -M_PI * 2.0 / 6.0, 1e-9);
    bys_train_motion(v, a, &t, 0.0, 0.0, 5.0); // held above still water
    expect_close(v[2], -M_PI * 2.0 / 6.0, 1e-9);
}
END_TEST

START_TEST(motion_of_a_wave_in_shallow_water)
{
    // 6 s in 15 m: k from w^2 = g k tanh kd; at the bed u = H/2 w / sinh kd and no vertical motion
    const bys_train t = bys_train_make(1.5, 6.0, east, 4.5, 15.0);
    double v[3], a[3];
    expect_close(t.omega * t.omega, BYS_G * t.k * tanh(t.k * 15.0), 1e-12);
    bys_train_motion(v, a, &t, 0.0, 0.0, 4.5 - 15.0);
    expect_close(v[0], 0.75 * t.omega / sinh(t.k * 15.0), 1e-9);
    expect_abs(a[2], 0.0, 1e-12);
    bys_train_motion(v, a, &t, 0.0, 0.0, 4.5 - 6.0); // continuity: k u + dv/dz = 0 with q shifted
    double up[3], down[3];
    bys_train s = t;
    s.phase = -0.5 * M_PI; // where cos q of the first is sin q of this one
    bys_train_motion(up, a, &s, 0.0, 0.0, 4.5 - 6.0 + 1e-4);
    bys_train_motion(down, a, &s, 0.0, 0.0, 4.5 - 6.0 - 1e-4);
    expect_close((up[2] - down[2]) / 2e-4, t.k * v[0], 1e-6);
}
END_TEST

START_TEST(morison_on_a_sphere_held_under_water)
{
    bys_part ball = {.kind = BYS_PART_FLOAT};
    ball.u.buoy = (bys_float_part){.shape = BYS_FLOAT_SPHERE, .volume = M_PI / 6.0, .diameter = 1.0,
                                   .mass = 0.0, .cd = 0.5, .cs = 0.0};
    const bys_float_set set = {.id = "ball", .part = &ball, .count = 1.0};
    bys_sea still = bys_sea_still(1025.0);
    still.level = 0.0, still.depth = 300.0;
    still.current_speed = 0.4, still.current[0] = 1.0, still.current[1] = 0.0;
    bys_train t = bys_train_make(2.0, 6.0, east, 0.0, 300.0);
    const double x[3] = {0.0, 0.0, -10.5}, w = 2.0 * M_PI / 6.0, fall = exp(-10.0 * w * w / BYS_G);
    const double u = M_PI * 2.0 / 6.0 * fall, a = w * u, V = M_PI / 6.0;
    bys_lump lump;
    bys_sea sea = bys_sea_in_train(&still, &t);
    bys_float_eval(&lump, &set, x, &sea); // crest: the current and the wave together
    expect_close(lump.f[0], 0.5 * 1025.0 * 0.5 * (M_PI / 4.0) * pow(0.4 + u, 2), 1e-6);
    expect_close(lump.f[2], 1025.0 * V * (sea.gravity - 1.5 * a), 1e-6);
    t.phase = 0.5 * M_PI; // zero crossing: the current alone, and inertia with Ca = 0.5
    bys_float_eval(&lump, &set, x, &sea);
    expect_close(lump.f[0], 0.5 * 1025.0 * 0.5 * (M_PI / 4.0) * 0.16 - 1025.0 * V * 1.5 * a, 1e-6);
}
END_TEST

START_TEST(morison_on_an_upright_cylinder)
{
    // 1 m of rope of 0.1 m upright at 10 m depth: across it the whole flow, Cm = 2
    const bys_section rope = {.stiffness = 1e6, .buoyancy = 1025.0 * 9.80665 * M_PI / 400.0,
                              .weight_dry = 100.0, .diameter = 0.1, .cd_normal = 1.2};
    bys_sea still = bys_sea_still(1025.0);
    still.level = 0.0, still.depth = 300.0, still.gravity = 9.80665;
    bys_train t = bys_train_make(2.0, 6.0, east, 0.0, 300.0);
    const bys_sea sea = bys_sea_in_train(&still, &t);
    const double a[3] = {0.0, 0.0, -10.5}, b[3] = {0.0, 0.0, -9.5}, w = 2.0 * M_PI / 6.0;
    const double u = M_PI * 2.0 / 6.0 * exp(-10.0 * w * w / BYS_G);
    bys_element_force q;
    bys_element_eval(&q, &rope, 1.0, a, b, &sea);
    expect_close(2.0 * q.half[0], 0.5 * 1025.0 * 1.2 * 0.1 * u * u, 1e-6);
    t.phase = 0.5 * M_PI;
    bys_element_eval(&q, &rope, 1.0, a, b, &sea);
    expect_close(2.0 * q.half[0], -2.0 * 1025.0 * (M_PI / 400.0) * w * u, 1e-6);
}
END_TEST

// ---- tangent ------------------------------------------------------------------------------------

/// Largest |K d + (r(x+hd) - r(x-hd))/2h| over the largest |K d|, at positions off balance.
static double mismatch(bys_network *net, const bys_sea *sea, unsigned seed)
{
    enum { MOST = 2000 };
    static double d[MOST], Kd[MOST], up[MOST], down[MOST];
    const double h = 1e-6;
    bys_state *state, *moved;
    bys_solver *solver;
    ck_assert_int_eq(bys_state_new(&state, net, NULL), BYS_OK);
    ck_assert_int_eq(bys_state_new(&moved, net, NULL), BYS_OK);
    ck_assert_int_eq(bys_solver_new(&solver, net, 0, NULL), BYS_OK);
    const int n = bys_solver_unknowns(solver);
    ck_assert_int_le(n, MOST);
    srand(seed);
    for (int i = 0; i < n; i++)
        d[i] = 2.0 * rand() / RAND_MAX - 1.0;
    bys_solver_move(solver, state, d, 0.02);
    for (int i = 0; i < n; i++)
        d[i] = 2.0 * rand() / RAND_MAX - 1.0;
    bys_solver_tangent_times(solver, state, sea, d, Kd);
    bys_state_copy(moved, state);
    bys_solver_move(solver, moved, d, h);
    bys_solver_residual(solver, moved, sea, up);
    bys_state_copy(moved, state);
    bys_solver_move(solver, moved, d, -h);
    bys_solver_residual(solver, moved, sea, down);
    double worst = 0.0, largest = 0.0;
    for (int i = 0; i < n; i++) {
        largest = fmax(largest, fabs(Kd[i]));
        worst = fmax(worst, fabs(Kd[i] + (up[i] - down[i]) / (2.0 * h)));
    }
    bys_solver_free(solver);
    bys_state_free(state);
    bys_state_free(moved);
    return worst / largest;
}

START_TEST(forces_and_tangent_agree_in_a_wave)
{
    // rubber ropes, so that axial stiffness does not hide errors in the wave terms; one-sided
    // differences over 1 um on wetting ramps of 25 mm and more: within 1e-6/0.025 = 4e-5
    bys_network *line = hand_longline(51.8, 55.0, 0.0, PLACED_PLAIN), *raft = hand_raft();
    for (int i = 0; i < line->section_count; i++)
        line->sections[i].stiffness = 300.0, line->sections[i].diameter *= 4.0;
    for (int k = 0; k < 8; k++) {
        const bys_sea still = calm(0.5, 40.0 * k), low = hand_sea(0.5, 40.0 * k, 10.0, 0.0, 0.0,
                                                                  PLACED_PLAIN);
        bys_train t = bys_train_make(1.8, 4.5, still.waves, 4.5, still.depth);
        t.phase = 0.7 * k;
        bys_sea sea = bys_sea_in_train(&still, &t);
        ck_assert_double_lt(mismatch(line, &sea, (unsigned)k), 1e-4);
        bys_train s = bys_train_make(1.8, 4.5, low.waves, 0.0, low.depth);
        s.phase = 0.7 * k;
        sea = bys_sea_in_train(&low, &s);
        ck_assert_double_lt(mismatch(raft, &sea, (unsigned)k), 1e-4);
    }
    bys_network_free(line);
    bys_network_free(raft);
}
END_TEST

// ---- equilibria ---------------------------------------------------------------------------------

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

static void solve(rig *r, const bys_sea *sea, bys_start start)
{
    bys_audit audit;
    ck_assert_int_eq(bys_solve_island(r->state, r->solver, sea, NULL, start, NULL), BYS_OK);
    ck_assert_msg(r->state->islands[0].status == BYS_STABLE, "%s", r->state->islands[0].reason);
    bys_audit_island(&audit, r->state, sea, NULL, 0);
    ck_assert_double_lt(audit.worst_N, 0.01);
}

static double top_of(const rig *r, int leg)
{
    const bys_leg *l = &r->net->legs[leg];
    return r->state->sections[l->first_section + l->section_count - 1].tension_b;
}

/// Tension at the top of a leg; the state is solved and audited.
static double top_tension(rig *r, const bys_sea *sea, int leg)
{
    solve(r, sea, BYS_START_COLD);
    return top_of(r, leg);
}

START_TEST(a_wave_of_no_height_is_the_still_case)
{
    for (int kind = 0; kind < 2; kind++) {
        rig r = rig_of(kind ? hand_raft() : hand_longline(51.8, 55.0, 0.0, PLACED_PLAIN));
        const bys_sea still = hand_sea(0.6, 70.0, 15.0, 0.0, kind ? 0.0 : 4.5, PLACED_PLAIN);
        const bys_train t = bys_train_make(0.0, 5.0, still.waves, still.level, still.depth);
        const bys_sea sea = bys_sea_in_train(&still, &t);
        const double without = top_tension(&r, &still, 0);
        expect_close(top_tension(&r, &sea, 0), without, 1e-6);
        rig_free(&r);
    }
}
END_TEST

START_TEST(a_long_wave_is_a_current_and_a_level)
{
    // 900 s in 19.5 m: kd = 0.01, the same motion at all heights and along the whole line
    rig r = rig_of(hand_longline(51.8, 55.0, 0.0, PLACED_PLAIN));
    bys_sea still = calm(0.3, 90.0);
    still.current_exponent = 0.0;
    const bys_train t = bys_train_make(0.4, 900.0, still.waves, still.level, still.depth);
    double v[3], a[3];
    bys_train_motion(v, a, &t, 0.0, 0.0, 0.0);
    ck_assert_double_gt(v[0], 0.1);
    const bys_sea sea = bys_sea_in_train(&still, &t);
    bys_sea high = still;
    high.level += 0.2, high.depth += 0.2;
    high.current_speed += v[0];
    const double want = top_tension(&r, &high, 0);
    ck_assert_double_gt(want, 1.2 * top_tension(&r, &still, 0));
    expect_close(top_tension(&r, &sea, 0), want, 2e-3);
    rig_free(&r);
}
END_TEST

static double peak(rig *r, const bys_sea *still, bys_train t, int phases)
{
    double most = 0.0;
    for (int k = 0; k < phases; k++) {
        t.phase = 2.0 * M_PI * k / phases;
        const bys_sea sea = bys_sea_in_train(still, &t);
        solve(r, &sea, BYS_START_WARM);
        for (int l = 0; l < r->net->leg_count; l++)
            most = fmax(most, top_of(r, l));
    }
    return most;
}

START_TEST(twelve_phases_find_the_peak)
{
    for (int kind = 0; kind < 2; kind++) {
        rig r = rig_of(kind ? hand_raft() : hand_longline(51.8, 55.0, 0.0, PLACED_PLAIN));
        const bys_sea still = hand_sea(0.6, 70.0, 0.0, 0.0, kind ? 0.0 : 4.5, PLACED_PLAIN);
        const bys_train t = bys_train_make(1.0, 4.5, still.waves, still.level, still.depth);
        solve(&r, &still, BYS_START_COLD);
        const double twelve = peak(&r, &still, t, 12), fine = peak(&r, &still, t, 48);
        // a peak between two of twelve phases is missed by 15 degrees at most: cos^2 for drag
        ck_assert_double_le(twelve, fine);
        ck_assert_msg(twelve >= pow(cos(M_PI / 12.0), 2) * fine, "%d: %g of %g", kind, twelve,
                      fine);
        rig_free(&r);
    }
}
END_TEST

int main(void)
{
    Suite *s = suite_create("wave passage");
    suite_test(s, motion_of_a_deep_wave_at_crest_and_zero);
    suite_test(s, motion_of_a_wave_in_shallow_water);
    suite_test(s, morison_on_a_sphere_held_under_water);
    suite_test(s, morison_on_an_upright_cylinder);
    suite_test(s, forces_and_tangent_agree_in_a_wave);
    suite_test(s, a_wave_of_no_height_is_the_still_case);
    suite_test(s, a_long_wave_is_a_current_and_a_level);
    suite_test(s, twelve_phases_find_the_peak);
    return suite_run(s, NULL);
}
