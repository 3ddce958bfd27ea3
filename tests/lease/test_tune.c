// SPDX-License-Identifier: GPL-3.0-or-later
// Lengths and reaches from stated pretensions: the found value, put back as a stated one, must give
// the stated tension in a solve of its own.
#include "base/codes.h"
#include "read_text.h"
#include "support/suite.h"
#include "tune/tune.h"

#define SITE(slope, legs)                                                                          \
    "<site xmlns='urn:byssus:site:1' name='t'><frame kind='local'/>"                               \
    "<water density='1025 kg/m3'><level name='LAT' height='0 m'/>"                                 \
    "<level name='HAT' height='3 m'/></water>"                                                     \
    "<seabed><plane depth='15 m' x='0 m' y='0 m' slope='" slope "' deepens-towards='0 deg'/>"      \
    "<soil kind='sand' friction-angle='32 deg'/></seabed>"                                         \
    "<parts><rope id='pp' material='polypropylene' diameter='32 mm' mass='0.45 kg/m' "             \
    "strength='94 kN' stiffness='565 kN'/>"                                                        \
    "<rope id='warp' material='polyester' diameter='28 mm' mass='0.595 kg/m' strength='120 kN' "   \
    "stiffness='1.5 MN'/>"                                                                         \
    "<chain id='ch' link='stud' diameter='24 mm' mass='12.6 kg/m' strength='238 kN' "              \
    "stiffness='50 MN'/>"                                                                          \
    "<float id='crop' shape='sphere' volume='55 l' mass='3.5 kg'/>"                                \
    "<float id='big' shape='sphere' volume='120 l' mass='8 kg'/>"                                  \
    "<anchor id='screw' kind='screw' capacity='90 kN' capacity-kind='ultimate' "                   \
    "capacity-basis='user' capacity-angle='30 deg'/></parts>"                                      \
    "<layout><block id='L' lines='1' heading='0 deg' x='0 m' y='0 m'>"                             \
    "<backbone part='pp' length='120 m'/><floats part='crop' every='4 m'/>"                        \
    "<floats part='big' at='ends' count='2'/>" legs "</block></layout></site>"
#define OPEN(at, kN)                                                                               \
    "<leg at='" at "' reach='52 m' pretension='" kN "'><chain part='ch' length='5 m'/>"            \
    "<rope part='warp'/><anchor part='screw'/></leg>"
#define FIXED(at)                                                                                  \
    "<leg at='" at "' reach='52 m'><rope part='warp' length='55 m'/>"                              \
    "<anchor part='screw'/></leg>"

/// Tension (N) at the top of a leg in slack water at z = level, from a cold solve.
static double top_tension(const bys_network *net, const char *id, double level) {
    bys_sea sea = bys_sea_still(1025.0);
    bys_state *state = NULL;
    const bys_seabed *bed = &net->site->bed;
    const int leg = leg_index(net, id);
    sea.gravity = net->site->gravity;
    sea.level = level;
    sea.depth = level + 15.0;
    sea.has_bed = true;
    sea.bed_point[2] = -15.0;
    sea.bed_normal[1] = sin(bed->slope);
    sea.bed_normal[2] = cos(bed->slope);
    ck_assert_int_eq(bys_state_new(&state, net, NULL), BYS_OK);
    for (int i = 0; i < net->island_count; i++) {
        bys_solver *solver = NULL;
        bys_error err = {0};
        ck_assert_int_eq(bys_solver_new(&solver, net, i, NULL), BYS_OK);
        ck_assert_int_eq(bys_solve_island(state, solver, &sea, NULL, BYS_START_COLD, &err), BYS_OK);
        ck_assert_msg(state->islands[i].status == BYS_STABLE, "%s", state->islands[i].reason);
        bys_solver_free(solver);
    }
    const bys_leg *l = &net->legs[leg];
    const double T = state->sections[l->first_section + l->section_count - 1].tension_b;
    bys_state_free(state);
    return T;
}

typedef struct {
    bys_messages *messages;
    bys_site *site;
    bys_tuning tuning;
    bys_network *net;
} tuned;

static tuned tune(const char *text) {
    tuned t = {0};
    bys_error err = {0};
    ck_assert_int_eq(bys_messages_new(&t.messages), BYS_OK);
    t.site = read_text(text, t.messages);
    bys_rc rc = bys_tuning_find(&t.tuning, t.site, t.messages, &err);
    ck_assert_msg(rc == BYS_OK, "%s\n%s", err.text, said(t.messages));
    rc = bys_network_tuned(&t.net, t.site, 0, &t.tuning, t.messages, &err);
    ck_assert_msg(rc == BYS_OK, "%s\n%s", err.text, said(t.messages));
    return t;
}

static void untune(tuned *t) {
    bys_network_free(t->net);
    bys_tuning_free(&t->tuning);
    bys_site_free(t->site);
    bys_messages_free(t->messages);
}

START_TEST(nothing_to_tune) {
    tuned t = tune(SITE("0 deg", FIXED("ends")));
    ck_assert_int_eq(t.tuning.count, 0);
    untune(&t);
}
END_TEST

START_TEST(both_ends_alike) {
    tuned t = tune(SITE("0 deg", OPEN("ends", "4 kN")));
    ck_assert_int_eq(t.tuning.count, 2);
    ck_assert(!t.tuning.items[0].is_reach);
    expect_close(t.tuning.items[0].value, t.tuning.items[1].value, 1e-5); // symmetric
    expect_close(top_tension(t.net, "L01/N", 0.0), 4000.0, 1e-4);
    expect_close(top_tension(t.net, "L01/S", 0.0), 4000.0, 1e-4);
    for (size_t i = 0; i < bys_messages_count(t.messages); i++)
        ck_assert_int_ne(bys_messages_at(t.messages, i)->code, BYS_M_pretension_share);
    untune(&t);
}
END_TEST

START_TEST(one_end_alone) {
    tuned t = tune(SITE("0 deg", FIXED("S") OPEN("N", "6 kN")));
    ck_assert_int_eq(t.tuning.count, 1);
    expect_close(top_tension(t.net, "L01/N", 0.0), 6000.0, 1e-4);
    untune(&t);
}
END_TEST

START_TEST(reach_is_found) {
    tuned t = tune(SITE(
        "0 deg",
        FIXED("S") "<leg at='N' pretension='5 kN' level='HAT'><rope part='warp' length='55 m'/>"
                   "<anchor part='screw'/></leg>"));
    ck_assert_int_eq(t.tuning.count, 1);
    ck_assert(t.tuning.items[0].is_reach);
    expect_close(top_tension(t.net, "L01/N", 3.0), 5000.0, 1e-4);
    const bys_leg *leg = &t.net->legs[leg_index(t.net, "L01/N")];
    expect_close(t.net->points[leg->foot].x[1], 60.0 + t.tuning.items[0].value, 1e-12);
    untune(&t);
}
END_TEST

// On a sloping bed the two legs stand at different angles: both cannot have 4 kN at the top
// exactly.
START_TEST(sloping_bed_is_said) {
    tuned t = tune(SITE("1 deg", OPEN("ends", "4 kN")));
    for (int i = 0; i < 2; i++)
        expect_close(t.tuning.items[i].pretension, 4000.0, 0.05);
    const double n = top_tension(t.net, "L01/N", 0.0), s = top_tension(t.net, "L01/S", 0.0);
    expect_close(sqrt(n * s), 4000.0, 2e-3); // the best fit in the logarithm
    untune(&t);
}
END_TEST

START_TEST(unlike_ends_are_refused) {
    tuned t = {0};
    bys_error err = {0};
    ck_assert_int_eq(bys_messages_new(&t.messages), BYS_OK);
    t.site = read_text(SITE("0 deg", OPEN("N", "3 kN") OPEN("S", "6 kN")), t.messages);
    ck_assert_int_eq(bys_tuning_find(&t.tuning, t.site, t.messages, &err), BYS_EINPUT);
    ck_assert_uint_ge(bys_messages_faults(t.messages), 1);
    int said_so = 0;
    for (size_t i = 0; i < bys_messages_count(t.messages); i++)
        said_so += bys_messages_at(t.messages, i)->code == BYS_M_pretension_range;
    ck_assert_int_eq(said_so, 2);
    untune(&t);
}
END_TEST

int main(void) {
    Suite *s = suite_create("tune");
    suite_test(s, nothing_to_tune);
    suite_test(s, both_ends_alike);
    suite_test(s, one_end_alone);
    suite_test(s, reach_is_found);
    suite_test(s, sloping_bed_is_said);
    suite_test(s, unlike_ends_are_refused);
    return suite_run(s, NULL);
}
