// SPDX-License-Identifier: GPL-3.0-or-later
// Floats that lose volume with depth: the pull on a rope that holds one down, the same stated per
// metre and per bar, and one that sinks.
#include "lease/read_text.h"
#include "statics/state.h"
#include "support/suite.h"

#define SITE(loss, weight)                                                                         \
    "<site xmlns='urn:byssus:site:1' name='float'><water density='1025 kg/m3'>"                    \
    "<level name='LAT' height='0 m'/></water><parts><float id='f' shape='sphere' volume='55 l' "   \
    "mass='3.5 kg' " loss "/></parts><layout><network id='N'>"                                     \
    "<point id='a' x='0 m' y='0 m' z='-20 m' hold='xyz'/><point id='m' x='0 m' y='0 m' z='-9 m'/>" \
    weight "<span id='l' from='a' to='m' length='10 m' stiffness='1 GN' elements='1'/>"            \
    "<hang point='m' part='f'/></network></layout></site>"

typedef struct { bys_outcome outcome; double tension, submerged, reserve, z; } result;

static result solve(const char *text)
{
    built b = build_well(text, NULL);
    bys_state *state;
    bys_solver *solver;
    bys_audit audit;
    bys_sea sea = bys_sea_still(1025.0);
    sea.level = 0.0;
    ck_assert_int_eq(bys_state_new(&state, b.net, NULL), BYS_OK);
    ck_assert_int_eq(bys_solver_new(&solver, b.net, 0, NULL), BYS_OK);
    ck_assert_int_eq(bys_solve_island(state, solver, &sea, NULL, BYS_START_COLD, NULL), BYS_OK);
    bys_audit_island(&audit, state, &sea, NULL, 0);
    if (state->islands[0].status == BYS_STABLE)
        ck_assert_double_lt(audit.worst_N, 0.01);
    const result out = {state->islands[0], state->sections[0].tension_b, state->submerged[0],
                        state->lift_left[0], state->x[3 * point_index(b.net, "m") + 2]};
    bys_solver_free(solver);
    bys_state_free(state);
    drop(&b);
    return out;
}

// derived: diameter 0.4718 m, its middle at 10 - D/2 = 9.7641 m, of 55 l are left 1 - 0.004 x 9.7641:
// T = 9.80665 (1025 x 0.055 x 0.9609 - 3.5) = 496.9343 N. Per bar: 0.004 x 1e5/(1025 x 9.80665).
START_TEST(a_float_held_down_pulls_by_what_is_left_of_it)
{
    const result metre = solve(SITE("loss-per-metre='0.4 %'", ""));
    ck_assert_int_eq(metre.outcome.status, BYS_STABLE);
    expect_abs(metre.tension, 496.93433, 2e-3);
    expect_abs(metre.submerged, 1.0, 1e-12);
    expect_abs(metre.reserve, 0.0, 1e-6);
    const result bar = solve(SITE("loss-per-bar='3.979380343 %'", ""));
    expect_abs(bar.tension, metre.tension, 1e-4);
    const result hard = solve(SITE("", "")); // 9.80665 (1025 x 0.055 - 3.5)
    expect_abs(hard.tension, 518.5266, 1e-3);
}
END_TEST

// derived: with 30 kgf on it the float weighs 33.5 kgf. At 10 m it has lost 78 % of its 56.4 kg of lift
// and cannot carry that; deeper still less, below 12.5 m nothing. It ends below its anchor, at -30 m,
// where the rope carries all: 33.5 x 9.80665 = 328.5228 N.
START_TEST(a_float_that_loses_too_much_hangs_from_its_rope)
{
    const result r = solve(SITE("loss-per-metre='8 %'", "<load point='m' fz='-30 kgf'/>"));
    ck_assert_msg(r.outcome.status == BYS_STABLE, "%s", r.outcome.reason);
    expect_abs(r.z, -30.0, 1e-3);
    expect_abs(r.tension, 328.5228, 1e-3);
    const result hard = solve(SITE("", "<load point='m' fz='-30 kgf'/>"));
    expect_abs(hard.z, -10.0, 1e-3); // without loss it stands above its anchor
}
END_TEST

int main(void)
{
    Suite *s = suite_create("squeezed");
    suite_test(s, a_float_held_down_pulls_by_what_is_left_of_it);
    suite_test(s, a_float_that_loses_too_much_hangs_from_its_rope);
    return suite_run(s, NULL);
}
