// SPDX-License-Identifier: GPL-3.0-or-later
// The tangent against central differences of the forces, at positions off balance. Source: derived.
#include "statics/hand_net.h"
#include "support/suite.h"

#include <stdlib.h>

/// Largest |K d + (r(x+hd) - r(x-hd))/2h| over the largest |K d|.
static double mismatch(const bys_network *net, const bys_sea *sea, int seed, double shake, double h)
{
    bys_state *state, *moved;
    bys_solver *solver;
    ck_assert_int_eq(bys_state_new(&state, net, NULL), BYS_OK);
    ck_assert_int_eq(bys_state_new(&moved, net, NULL), BYS_OK);
    ck_assert_int_eq(bys_solver_new(&solver, net, 0, NULL), BYS_OK);
    const int n = bys_solver_unknowns(solver);
    double *d = calloc((size_t)n, sizeof *d), *Kd = calloc((size_t)n, sizeof *Kd);
    double *up = calloc((size_t)n, sizeof *up), *down = calloc((size_t)n, sizeof *down);
    srand((unsigned)seed);
    for (int i = 0; i < n; i++)
        d[i] = 2.0 * rand() / RAND_MAX - 1.0;
    bys_solver_move(solver, state, d, shake);
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
    free(d), free(Kd), free(up), free(down);
    bys_solver_free(solver);
    bys_state_free(state);
    bys_state_free(moved);
    return worst / largest;
}

START_TEST(longline_forces_and_tangent_agree)
{
    bys_network *net = hand_longline(51.8, 55.0, 12.5, PLACED_PLAIN);
    for (int k = 0; k < 12; k++) {
        const bys_sea sea = hand_sea(0.7, 30.0 * k, 20.0, 1.2, k % 2 ? 4.5 : 4.3, PLACED_PLAIN);
        ck_assert_double_lt(mismatch(net, &sea, k, 0.02, 1e-6), 3e-7);
    }
    bys_network_free(net);
}
END_TEST

START_TEST(soft_longline_shows_the_load_terms)
{
    // rubber ropes, so that axial stiffness does not hide errors in the drag and float terms
    bys_network *net = hand_longline(51.8, 55.0, 0.0, PLACED_PLAIN);
    for (int i = 0; i < net->section_count; i++)
        net->sections[i].stiffness = 300.0, net->sections[i].diameter *= 4.0;
    for (int k = 0; k < 12; k++) {
        const bys_sea sea = hand_sea(1.4, 30.0 * k + 7.0, 25.0, 1.0, 4.4, PLACED_PLAIN);
        ck_assert_double_lt(mismatch(net, &sea, 100 + k, 0.05, 1e-6), 1e-6);
    }
    bys_network_free(net);
}
END_TEST

START_TEST(curved_ropes_and_tangent_agree)
{
    // invented curve, soft at first, so that elements sit on all its pieces
    static const double x[4] = {0, 0.002, 0.01, 0.05}, T[4] = {0, 200, 4e3, 60e3};
    double m[4];
    bys_stretch_slopes(m, x, T, 4);
    bys_network *net = hand_longline(51.8, 55.0, 12.5, PLACED_PLAIN);
    for (int i = 0; i < net->section_count; i++) {
        net->sections[i].law[0] = (bys_stretch){1e5, x, T, m, 4};
        net->sections[i].law[1] = (bys_stretch){.ea = 2e6};
    }
    for (int k = 0; k < 12; k++) {
        bys_sea sea = hand_sea(0.7, 30.0 * k, 20.0, 1.2, k % 2 ? 4.5 : 4.3, PLACED_PLAIN);
        sea.storm = k % 3 == 0;
        ck_assert_double_lt(mismatch(net, &sea, 300 + k, 0.02, 1e-6), 1e-6);
    }
    bys_network_free(net);
}
END_TEST

START_TEST(squeezed_floats_and_tangent_agree)
{
    bys_network *net = hand_longline(51.8, 55.0, 0.0, PLACED_PLAIN);
    bys_part *parts = calloc((size_t)net->float_count, sizeof *parts);
    for (int i = 0; i < net->section_count; i++)
        net->sections[i].stiffness = 3000.0;
    for (int i = 0; i < net->float_count; i++) {
        parts[i] = *net->floats[i].part;
        parts[i].u.buoy.volume_loss = i % 2 ? 0.02 : 0.05;
        net->floats[i].part = &parts[i];
    }
    for (int k = 0; k < 12; k++) { // floats from half in to eight metres under
        const bys_sea sea = hand_sea(0.7, 30.0 * k, 20.0, 1.2, 4.3 + 0.7 * k, PLACED_PLAIN);
        ck_assert_double_lt(mismatch(net, &sea, 400 + k, 0.02, 1e-6), 1e-6);
    }
    free(parts);
    bys_network_free(net);
}
END_TEST

START_TEST(raft_forces_and_tangent_agree)
{
    bys_network *net = hand_raft();
    for (int i = 0; i < net->section_count; i++)
        net->sections[i].stiffness = 2e4, net->sections[i].on_bed = false;
    for (int k = 0; k < 12; k++) {
        const bys_sea sea = hand_sea(0.7, 30.0 * k + 5.0, 20.0, 0.8, 0.0, PLACED_PLAIN);
        ck_assert_double_lt(mismatch(net, &sea, 200 + k, 0.02, 1e-6), 1e-6);
    }
    bys_network_free(net);
}
END_TEST

/// Current that turns with depth, waves and wind each their own way.
static bys_sea crossed_sea(double degrees, double level, bys_arena *arena)
{
    bys_sea sea = hand_sea(0.7, degrees, 20.0, 1.0, level, PLACED_PLAIN);
    bys_current_parts parts = {.kind = BYS_PROFILE_LOG, .roughness = 6e-3, .wind_depth = 30.0};
    for (int i = 0; i < 2; i++)
        parts.tide[i] = 0.7 * sea.current[i];
    parts.wind[0] = 0.35, parts.wind[1] = -0.2;
    sea.waves[0] = sea.wind[1] = 0.6, sea.waves[1] = sea.wind[0] = -0.8;
    ck_assert(bys_sea_set_current(&sea, &parts, arena));
    return sea;
}

START_TEST(turning_current_and_crossed_waves_agree)
{
    bys_arena *arena = bys_arena_new();
    bys_network *line = hand_longline(51.8, 55.0, 0.0, PLACED_PLAIN), *raft = hand_raft();
    for (int i = 0; i < line->section_count; i++)
        line->sections[i].stiffness = 300.0, line->sections[i].diameter *= 4.0;
    for (int i = 0; i < raft->section_count; i++)
        raft->sections[i].stiffness = 2e4, raft->sections[i].on_bed = false;
    static const bys_sea_hull hulls[2] = {{0.5, 8.0, 0.3}, {0.5, 10.0, 0.6}};
    for (int i = 0; i < raft->prism_count; i++)
        raft->prisms[i].hull_draft = 0.5, raft->prisms[i].breadth_x = 8.0,
        raft->prisms[i].breadth_y = 10.0;
    for (int k = 0; k < 12; k++) {
        bys_sea sea = crossed_sea(30.0 * k + 7.0, 4.4, arena);
        ck_assert_double_lt(mismatch(line, &sea, 300 + k, 0.05, 1e-7), 1e-6);
        sea = crossed_sea(30.0 * k + 7.0, 0.0, arena);
        sea.hulls = hulls, sea.hull_count = 2;
        sea.spreading = k % 2 ? 4.0 : 0.0;
        bys_sea_prepare(&sea);
        ck_assert_double_lt(mismatch(raft, &sea, 400 + k, 0.02, 1e-7), 1e-6);
    }
    bys_network_free(line);
    bys_network_free(raft);
    bys_arena_free(arena);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("tangent");
    suite_test(s, longline_forces_and_tangent_agree);
    suite_test(s, soft_longline_shows_the_load_terms);
    suite_test(s, curved_ropes_and_tangent_agree);
    suite_test(s, squeezed_floats_and_tangent_agree);
    suite_test(s, raft_forces_and_tangent_agree);
    suite_test(s, turning_current_and_crossed_waves_agree);
    return suite_run(s, NULL);
}
