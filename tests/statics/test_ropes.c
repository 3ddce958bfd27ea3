// SPDX-License-Identifier: GPL-3.0-or-later
// Ropes with curves and with a law for storms, as a site file states them: which law holds in which
// environment, and the equilibrium of two links whose answer stands at a point of the curve.
#include "lease/read_text.h"
#include "statics/state.h"
#include "support/suite.h"

#define ROPE(inside)                                                                               \
    "<rope id='r' material='nylon' diameter='24 mm' mass='0.35 kg/m' "                   \
    "density='1025 kg/m3' strength='90 kN'>" inside "</rope>"
#define CURVE                                                                                      \
    "<stretch for='working'><at strain='5 %' tension='2 kN'/><at strain='10 %' tension='7 kN'/>"   \
    "<at strain='18 %' tension='30 kN'/></stretch>"
#define STORM "<stretch for='storm' stiffness='200 kN'/>"
// Two level links of 10 m; their rope is as heavy as the water.
#define LINKS(rope, weather, load)                                                                 \
    "<site xmlns='urn:byssus:site:1' name='links'><water density='1025 kg/m3'/>"                   \
    weather "<parts>" rope "</parts><layout><network id='N'>"             \
    "<point id='a' x='-10 m' y='0 m' z='0 m' hold='xyz'/><point id='m' x='0 m' y='0 m' z='0 m'/>"  \
    "<point id='b' x='10 m' y='0 m' z='0 m' hold='xyz'/><load point='m' fz='" load "'/>"           \
    "<span id='l' from='a' to='m' part='r' length='10 m' elements='1'/>"              \
    "<span id='k' from='m' to='b' part='r' length='10 m' elements='1'/>"              \
    "</network></layout></site>"
#define WIND "<weather><wind return='50 yr' speed='0.01 m/s' averaging='10 min'/></weather>"

/// Sag of the middle point (m) in the environment, audited.
static double sag(const built *b, const bys_sea *sea, double *tension)
{
    bys_state *state;
    bys_solver *solver;
    bys_audit audit;
    ck_assert_int_eq(bys_state_new(&state, b->net, NULL), BYS_OK);
    ck_assert_int_eq(bys_solver_new(&solver, b->net, 0, NULL), BYS_OK);
    ck_assert_int_eq(bys_solve_island(state, solver, sea, NULL, BYS_START_COLD, NULL), BYS_OK);
    ck_assert_msg(state->islands[0].status == BYS_STABLE, "%s", state->islands[0].reason);
    bys_audit_island(&audit, state, sea, NULL, 0);
    ck_assert_double_lt(audit.worst_N, 1e-3);
    const double z = state->x[3 * point_index(b->net, "m") + 2];
    *tension = state->sections[0].tension_b;
    bys_solver_free(solver);
    bys_state_free(state);
    return -z;
}

// derived: at 5 % the links are 10.5 m long, d = sqrt(10.5^2 - 10^2) = 3.2015621, and the load is
// 2 x 2000 x d/10.5 = 1219.64271 N; at 10 % 11 m, d = 4.5825757, 2 x 7000 x d/11 = 5832.3691 N.
START_TEST(two_links_hang_at_points_of_their_curve)
{
    const char *texts[2] = {LINKS(ROPE(CURVE), "", "-1219.64271 N"),
                            LINKS(ROPE(CURVE), "", "-5832.3691 N")};
    const double d[2] = {3.2015621, 4.5825757}, T[2] = {2000.0, 7000.0};
    for (int i = 0; i < 2; i++) {
        built b = build_well(texts[i], NULL);
        bys_sea sea = bys_sea_still(1025.0);
        double tension;
        sea.gravity = b.site->gravity;
        expect_abs(sag(&b, &sea, &tension), d[i], 2e-5);
        expect_abs(tension, T[i], 0.05);
        sea.storm = true; // no storm law is stated: the same curve
        expect_abs(sag(&b, &sea, &tension), d[i], 2e-5);
        drop(&b);
    }
}
END_TEST

// derived: with EA 200 kN and T = 2 kN the strain is 1 %: d = sqrt(10.1^2 - 10^2) = 1.4177447.
START_TEST(the_storm_law_holds_in_weather_and_the_working_one_beside_it)
{
    built b = build_well(LINKS(ROPE(CURVE STORM), WIND, "-561.483 N"), NULL);
    bys_environments env;
    double tension;
    ck_assert_int_eq(bys_environments_make(&env, b.site, b.messages, &b.err), BYS_OK);
    ck_assert_int_eq(env.count, 2);
    ck_assert(env.items[0].sea.storm && !env.items[0].soft_ropes);
    ck_assert(!env.items[1].sea.storm && env.items[1].soft_ropes);
    ck_assert(env.items[1].demanded);
    const size_t n = strlen(env.items[0].id);
    ck_assert_int_eq(strncmp(env.items[0].id, env.items[1].id, n), 0);
    ck_assert_str_eq(env.items[1].id + n, "/working");
    expect_abs(sag(&b, &env.items[0].sea, &tension), 1.4177447, 1e-5);
    expect_abs(tension, 2000.0, 0.1);
    ck_assert_double_gt(sag(&b, &env.items[1].sea, &tension), 2.0); // the soft curve gives way
    bys_environments_free(&env);
    drop(&b);
}
END_TEST

START_TEST(without_a_storm_law_the_list_stays_as_it_was)
{
    built b = build_well(LINKS(ROPE(CURVE), WIND, "-500 N"), NULL);
    bys_environments env;
    ck_assert_int_eq(bys_environments_make(&env, b.site, b.messages, &b.err), BYS_OK);
    ck_assert_int_eq(env.count, 1);
    ck_assert(!env.items[0].sea.storm);
    bys_environments_free(&env);
    drop(&b);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("ropes");
    suite_test(s, two_links_hang_at_points_of_their_curve);
    suite_test(s, the_storm_law_holds_in_weather_and_the_working_one_beside_it);
    suite_test(s, without_a_storm_law_the_list_stays_as_it_was);
    return suite_run(s, NULL);
}
