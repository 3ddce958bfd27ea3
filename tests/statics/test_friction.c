// SPDX-License-Identifier: GPL-3.0-or-later
// Friction on the bed against the closed form of a line on a flat bed, and on a slope.
#include "lease/read_text.h"
#include "statics/state.h"
#include "support/suite.h"

#include <math.h>

#define CHAIN(slope, z, EA)                                                                        \
    "<site xmlns='urn:byssus:site:1' name='s'><water density='1025 kg/m3'/>"                       \
    "<seabed><plane depth='20 m' x='0 m' y='0 m' slope='" slope "' deepens-towards='90 deg'/>"     \
    "<soil kind='sand'/></seabed><layout><network id='N'>"                                         \
    "<point id='anchor' x='0 m' y='0 m' z='-20 m' hold='xyz'/>"                                    \
    "<point id='lead' x='84 m' y='0 m' z='" z "' hold='xyz'/>"                                     \
    "<span id='c' from='anchor' to='lead' length='90 m' stiffness='" EA "' weight='170 N/m' "      \
    "bed='yes' elements='360'/></network></layout></site>"

typedef struct { double H, V, anchor, grounded, mismatch; int rounds; } ends;

/// Laid by a share `nearer` to the anchor than it lies without friction, then pulled out. Friction is
/// there after a millimetre; what stays slack near the anchor keeps the share out of the line's reach.
static ends pulled(const char *text, double mu, double nearer)
{
    built b = build_well(text, NULL);
    bys_state *state;
    bys_solver *solver;
    bys_environments env;
    bys_friction_outcome friction;
    const double both[2] = {mu, mu};
    ck_assert_int_eq(bys_environments_make(&env, b.site, b.messages, &b.err), BYS_OK);
    const bys_sea *sea = &env.items[0].sea;
    ck_assert_int_eq(bys_state_new(&state, b.net, NULL), BYS_OK);
    ck_assert_int_eq(bys_solver_new(&solver, b.net, 0, NULL), BYS_OK);
    ck_assert_int_eq(bys_solve_island(state, solver, sea, NULL, BYS_START_COLD, NULL), BYS_OK);
    double *laid = malloc(3 * (size_t)b.net->point_count * sizeof *laid);
    for (int i = 0; i < 3 * b.net->point_count; i++)
        laid[i] = state->x[i] * (i % 3 == 0 ? 1.0 - nearer : 1.0);
    ck_assert_int_eq(bys_solve_friction(state, solver, sea, NULL, laid, both, &friction, NULL),
                     BYS_OK);
    ck_assert_double_lt(friction.reach, 1e-3);
    ck_assert_msg(friction.status == BYS_STABLE, "mu %g: %s, %d rounds, friction off by %g: %s", mu,
                  bys_status_name(friction.status), friction.rounds, friction.mismatch,
                  state->islands[0].reason);
    const bys_section_state *s = &state->sections[0];
    const ends out = {fabs(s->force_b[0]), fabs(s->force_b[2]), s->tension_a, s->grounded,
                      friction.mismatch, friction.rounds};
    free(laid);
    bys_solver_free(solver);
    bys_state_free(state);
    bys_environments_free(&env);
    drop(&b);
    return out;
}

// Reference file S1: Jonkman's form [memory], recomputed by quadrature [own].
START_TEST(closed_form_has_the_reference_values)
{
    bys_bed_line line;
    ck_assert(bys_catenary_bed_friction(&line, 90.0, 170.0, 7e7, 84.0, 18.0, 0.0));
    expect_close(line.H, 5206.791557, 1e-9);
    expect_close(line.V, 6420.614920, 1e-9);
    expect_close(line.grounded, 52.23167694, 1e-9);
    expect_close(line.Ta, 5206.791557, 1e-9);
    ck_assert(bys_catenary_bed_friction(&line, 90.0, 170.0, 7e7, 84.0, 18.0, 0.6));
    expect_close(line.H, 5210.805001, 1e-9);
    expect_close(line.V, 6422.526992, 1e-9);
    expect_close(line.grounded, 52.22042946, 1e-9);
    expect_abs(line.Ta, 0.0, 0.0);
    // without friction it is the catenary of catenary.c
    bys_catenary c;
    double grounded;
    ck_assert(bys_catenary_grounded(&c, &grounded, 84.0, 18.0, 170.0, 7e7, 90.0));
    bys_catenary_bed_friction(&line, 90.0, 170.0, 7e7, 84.0, 18.0, 0.0);
    expect_close(c.H, line.H, 1e-9);
    expect_close(grounded, line.grounded, 1e-9);
    ck_assert(!bys_catenary_bed_friction(&line, 90.0, 170.0, 7e7, 40.0, 18.0, 0.3)); // slack
}
END_TEST

START_TEST(the_solver_meets_the_closed_form_on_a_flat_bed)
{
    for (int i = 0; i < 3; i++) {
        const double mu = 0.1 + 0.25 * i; // 0.1, 0.35, and 0.6: the anchor feels nothing
        bys_bed_line want;
        ck_assert(bys_catenary_bed_friction(&want, 90.0, 170.0, 7e7, 84.0, 18.0, mu));
        const ends got = pulled(CHAIN("0 deg", "-2 m", "70 MN"), mu, i < 2 ? 0.01 : 5e-4);
        ck_assert_double_lt(got.mismatch, 0.01);
        expect_close(got.H, want.H, 1e-3);
        expect_close(got.V, want.V, 1e-3);
        expect_close(got.grounded, want.grounded, 1e-3);
        expect_abs(got.anchor, want.Ta, 0.002 * want.H);
    }
}
END_TEST

// Reference file S2 [own derivation]: bed 3 deg deeper towards the lead, mu 0.5, inextensible (here
// EA = 50 GN): tension at the lead 11187.309 N, at the anchor 4715.005 N, 8127.309 N without friction.
START_TEST(the_solver_meets_the_closed_form_on_a_slope)
{
    const char *text = CHAIN("3 deg", "-2 m", "1 GN");
    const ends free_bed = pulled(text, 1e-9, 0.01), rough = pulled(text, 0.5, 3e-3);
    expect_close(hypot(free_bed.H, free_bed.V), 11187.309, 2e-3);
    expect_close(free_bed.anchor, 8127.309, 2e-3);
    expect_close(hypot(rough.H, rough.V), 11187.309, 2e-3);
    expect_close(rough.anchor, 4715.005, 3e-3);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("friction");
    suite_test(s, closed_form_has_the_reference_values);
    suite_test(s, the_solver_meets_the_closed_form_on_a_flat_bed);
    suite_test(s, the_solver_meets_the_closed_form_on_a_slope);
    return suite_run(s, NULL);
}
