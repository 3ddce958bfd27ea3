// SPDX-License-Identifier: GPL-3.0-or-later
// Legs along a backbone, bridles, backbones of two strands, anchors shared by legs: how they are
// built, and what holds in their equilibria. All expected values are derived unless said.
#include "read_text.h"
#include "statics/state.h"
#include "support/suite.h"

#define PARTS                                                                                      \
    "<parts><rope id='pp' material='polypropylene' diameter='32 mm' mass='0.45 kg/m' "             \
    "strength='94 kN' stiffness='565 kN'/>"                                                        \
    "<rope id='warp' material='polyester' diameter='28 mm' mass='0.595 kg/m' strength='120 kN' "   \
    "stiffness='1.5 MN'/>"                                                                         \
    "<float id='crop' shape='sphere' volume='55 l' mass='3.5 kg'/>"                                \
    "<gear id='panel' kind='panel' mass-in-water='5 kg' width='0.7 m' height='0.45 m' "            \
    "drag-coefficient='1.2' orientation='along'/>"                                                 \
    "<raft id='raft' length='20 m' width='20 m' mass='9 t' centre-of-gravity='0.6 m' "             \
    "pontoons='4' pontoon-length='20 m' pontoon-width='1 m' pontoon-height='1 m' "                 \
    "fairlead-height='0.5 m'/>"                                                                    \
    "<anchor id='screw' kind='screw' capacity='90 kN' capacity-kind='ultimate' "                   \
    "capacity-basis='user' capacity-angle='30 deg'/></parts>"
#define SITE(layout)                                                                               \
    "<site xmlns='urn:byssus:site:1' name='t'><frame kind='local'/>"                               \
    "<water density='1025 kg/m3'><level name='LAT' height='0 m'/></water>"                         \
    "<seabed><plane depth='15 m' x='0 m' y='0 m'/><soil kind='sand'/></seabed>" PARTS              \
    "<layout>" layout "</layout></site>"
#define BLOCK(lines, strands, legs)                                                                \
    "<block id='L' lines='" lines "' spacing='20 m' heading='0 deg' x='0 m' y='0 m'>"              \
    "<backbone part='pp' length='120 m' strands='" strands "'/><floats part='crop' every='4 m'/>"  \
    "<gear part='panel' every='1.2 m'/>" legs "</block>"
#define ENDS                                                                                       \
    "<leg at='ends' reach='52 m'><rope part='warp' length='55 m'/><anchor part='screw'/></leg>"
#define MIDDLE(where, more)                                                                        \
    "<leg " where " reach='40 m'><rope part='warp' length='44 m'/>" more                           \
    "<anchor part='screw'/></leg>"

static bys_sea across(double speed) {
    bys_sea sea = bys_sea_still(1025.0);
    sea.level = 0.0;
    sea.depth = 15.0;
    sea.has_bed = true;
    sea.bed_point[2] = -15.0;
    sea.current[0] = 1.0, sea.current[1] = 0.0; // towards the east
    sea.current_speed = speed;
    return sea;
}

/// Solves all islands from cold; each stable and audited.
static bys_state *solved(const built *b, const bys_sea *sea, const bys_condition *condition) {
    bys_state *state = NULL;
    ck_assert_int_eq(bys_state_new(&state, b->net, NULL), BYS_OK);
    for (int i = 0; i < b->net->island_count; i++) {
        bys_solver *solver = NULL;
        bys_audit audit;
        ck_assert_int_eq(bys_solver_new(&solver, b->net, i, NULL), BYS_OK);
        ck_assert_int_eq(bys_solve_island(state, solver, sea, condition, BYS_START_COLD, NULL),
                         BYS_OK);
        ck_assert_msg(state->islands[i].status == BYS_STABLE, "%s", state->islands[i].reason);
        bys_audit_island(&audit, state, sea, condition, i);
        ck_assert_double_lt(audit.worst_N, 0.01);
        bys_solver_free(solver);
    }
    return state;
}

static double top_tension(const bys_state *state, const bys_network *net, const char *leg) {
    const bys_leg *l = &net->legs[leg_index(net, leg)];
    return state->sections[l->first_section + l->section_count - 1].tension_b;
}

START_TEST(legs_stand_along_the_backbone_where_they_are_put) {
    built b = build_well(SITE(BLOCK("2", "1", ENDS MIDDLE("at='30 m' bearing='90 deg'", "")
                                    MIDDLE("every='50 m' bearing='270 deg'", ""))
                              "<change line='L02'>" MIDDLE("at='62 m' bearing='90 deg'", "")
                              "</change>"),
                         "bare");
    static const char *const ids[] = {"L01/N", "L01/S", "L01/30m-E", "L01/50m-W", "L01/100m-W",
                                      "L02/N", "L02/S", "L02/62m-E"};
    ck_assert_int_eq(b.net->leg_count, 8);
    for (size_t i = 0; i < 8; i++)
        leg_index(b.net, ids[i]); // stops if it is not there
    const bys_leg *leg = &b.net->legs[leg_index(b.net, "L01/30m-E")];
    const double *top = b.net->points[leg->top].x, *foot = b.net->points[leg->foot].x;
    expect_abs(top[1], -30.0, 1e-9); // 30 m from the tail of a line from y = -60 m
    expect_abs(foot[0] - top[0], 40.0, 1e-9);
    expect_abs(foot[1], top[1], 1e-9);
    ck_assert_int_eq(leg->end, -1);
    // floats and gear keep their number and their moment about the tail: 30 at 2, 6, ... 118 m
    double count = 0.0, moment = 0.0;
    for (int i = 0; i < b.net->float_count; i++)
        if (b.net->floats[i].line == 0) {
            count += b.net->floats[i].count;
            moment += b.net->floats[i].count * (b.net->points[b.net->floats[i].point].x[1] + 60.0);
        }
    expect_close(count, 30.0, 1e-12);
    expect_close(moment, 30.0 * 60.0, 1e-12);
    drop(&b);
}
END_TEST

START_TEST(a_leg_along_the_backbone_takes_load_off_its_ends) {
    built with = build_well(SITE(BLOCK("1", "1", ENDS MIDDLE("at='60 m' bearing='270 deg'", ""))),
                            "harvest");
    built without = build_well(SITE(BLOCK("1", "1", ENDS)), "harvest");
    const bys_sea sea = across(0.5);
    bys_state *a = solved(&with, &sea, NULL), *b = solved(&without, &sea, NULL);
    ck_assert_double_gt(top_tension(a, with.net, "L01/60m-W"), 1000.0);
    ck_assert_double_lt(top_tension(a, with.net, "L01/N"), 0.8 * top_tension(b, without.net,
                                                                            "L01/N"));
    // taken out, it leaves the line as if it had never been laid
    const bys_leg *leg = &with.net->legs[leg_index(with.net, "L01/60m-W")];
    const bys_condition lost = {
        .id = "lost", .sections = &leg->first_section, .section_count = leg->section_count};
    bys_state *c = solved(&with, &sea, &lost);
    expect_close(top_tension(c, with.net, "L01/N"), top_tension(b, without.net, "L01/N"), 1e-3);
    bys_state_free(a), bys_state_free(b), bys_state_free(c);
    drop(&with), drop(&without);
}
END_TEST

// Arms of equal length to places as far on both sides pull alike, and together as much as the line
// below: T = 2 T_arm cos(a), sin(a) = half the distance of their ends over the arm's present length;
// arms that hang through by their own weight leave up to 2 % of that. Exactly, the three add to nothing.
static void check_arms(const built *b, const bys_state *state, const char *id) {
    const bys_leg *leg = &b->net->legs[leg_index(b->net, id)];
    const int arm = leg->first_section + leg->section_count;
    ck_assert_int_eq(leg->arm_count, 2);
    const bys_section *one = &b->net->sections[arm], *two = one + 1;
    ck_assert_int_eq(one->a, leg->top);
    ck_assert_int_eq(two->a, leg->top);
    const double *p = state->x + 3 * one->b, *q = state->x + 3 * two->b;
    const double half = 0.5 * hypot(hypot(p[0] - q[0], p[1] - q[1]), p[2] - q[2]);
    const double cosine = sqrt(1.0 - pow(half / state->sections[arm].stretched, 2.0));
    const double T = state->sections[arm - 1].tension_b;
    expect_close(state->sections[arm].tension_a, state->sections[arm + 1].tension_a, 1e-4);
    expect_close(2.0 * state->sections[arm].tension_a * cosine, T, 2e-2);
    for (int c = 0; c < 3; c++)
        expect_abs(state->sections[arm].force_a[c] + state->sections[arm + 1].force_a[c] +
                       state->sections[arm - 1].force_b[c],
                   0.0, 1e-3);
    ck_assert_double_gt(T, 500.0);
}

START_TEST(a_bridle_shares_its_load_between_two_places_of_the_backbone) {
    built b = build_well(
        SITE(BLOCK("1", "1", ENDS MIDDLE("at='60 m' bearing='270 deg'",
                                         "<bridle part='warp' length='4 m' spread='6 m'/>"))),
        "harvest");
    const bys_sea sea = across(0.5);
    bys_state *state = solved(&b, &sea, NULL);
    const bys_leg *leg = &b.net->legs[leg_index(b.net, "L01/60m-W")];
    const bys_section *arm = &b.net->sections[leg->first_section + leg->section_count];
    expect_abs(b.net->points[arm[0].b].x[1], -3.0, 1e-9);
    expect_abs(b.net->points[arm[1].b].x[1], 3.0, 1e-9);
    ck_assert_str_eq(arm[0].id, "L01/60m-W/bridle1");
    // the reach counts from the middle of the two places
    expect_abs(b.net->points[leg->foot].x[0], -40.0, 1e-9);
    check_arms(&b, state, "L01/60m-W");
    bys_state_free(state);
    drop(&b);
}
END_TEST

START_TEST(a_bridle_of_a_raft_takes_the_corners_of_its_side) {
    built b = build_well(
        SITE("<raft-grid id='R' columns='1' rows='1' heading='0 deg' x='0 m' y='0 m' raft='raft'>"
             "<leg at='W' reach='50 m'><rope part='warp' length='42 m'/>"
             "<bridle part='warp' length='16 m'/><anchor part='screw'/></leg>"
             "<leg at='E' reach='50 m'><rope part='warp' length='53 m'/><anchor part='screw'/>"
             "</leg><leg at='N' reach='50 m'><rope part='warp' length='53 m'/>"
             "<anchor part='screw'/></leg><leg at='S' reach='50 m'>"
             "<rope part='warp' length='53 m'/><anchor part='screw'/></leg></raft-grid>"),
        "bare");
    const bys_sea sea = across(0.7);
    bys_state *state = solved(&b, &sea, NULL);
    const bys_leg *leg = &b.net->legs[leg_index(b.net, "R1-1/W")];
    const bys_section *arm = &b.net->sections[leg->first_section + leg->section_count];
    for (int k = 0; k < 2; k++) { // south-west and north-west corners
        const bys_point *p = &b.net->points[arm[k].b];
        ck_assert_int_eq(p->kind, BYS_POINT_BODY);
        const double *x = state->x + 3 * arm[k].b;
        expect_abs(fabs(x[1]), 10.0, 0.05);
        ck_assert_double_lt(x[0], 0.0);
    }
    check_arms(&b, state, "R1-1/W");
    bys_state_free(state);
    drop(&b);
}
END_TEST

// Both strands go through the same points: with one of them lost its floats and gear hang on the
// other, and the line is that of one strand.
START_TEST(a_lost_strand_leaves_floats_and_gear_on_the_other) {
    built two = build_well(SITE(BLOCK("1", "2", ENDS)), "harvest");
    built one = build_well(SITE(BLOCK("1", "1", ENDS)), "harvest");
    const bys_sea sea = across(0.5);
    bys_state *whole = solved(&two, &sea, NULL), *single = solved(&one, &sea, NULL);
    const int kept = section_index(two.net, "L01/backbone");
    const int gone = section_index(two.net, "L01/backbone2");
    const bys_condition lost = {.id = "strand", .sections = &gone, .section_count = 1};
    bys_state *state = solved(&two, &sea, &lost);
    const double before = whole->sections[kept].tension_a, after = state->sections[kept].tension_a;
    expect_close(whole->sections[gone].tension_a, before, 1e-6); // alike, as long as both hold
    ck_assert_double_gt(after, 1.5 * before); // twice, but for the softer line's deeper bow
    ck_assert_double_lt(after, 2.0 * before);
    expect_close(after, single->sections[section_index(one.net, "L01/backbone")].tension_a, 1e-6);
    for (int f = 0; f < two.net->float_count; f++)
        expect_abs(state->submerged[f], single->submerged[f], 1e-6);
    bys_state_free(whole), bys_state_free(single), bys_state_free(state);
    drop(&two), drop(&one);
}
END_TEST

#define SHARED "<leg at='N' x='0 m' y='108 m'><rope part='warp' length='56 m'/>"                   \
    "<anchor part='screw' id='A'/></leg><leg at='S' reach='52 m'>"                                 \
    "<rope part='warp' length='55 m'/><anchor part='screw'/></leg>"
START_TEST(a_shared_anchor_carries_the_sum_of_its_legs) {
    built b = build_well(SITE(BLOCK("2", "1", SHARED)), "harvest");
    const bys_sea sea = across(0.5);
    bys_state *state = solved(&b, &sea, NULL);
    const bys_leg *p = &b.net->legs[leg_index(b.net, "L01/N")];
    const bys_leg *q = &b.net->legs[leg_index(b.net, "L02/N")];
    ck_assert_int_eq(p->anchor, q->anchor);
    const bys_anchor *anchor = &b.net->anchors[p->anchor];
    ck_assert_int_eq(anchor->leg_count, 2);
    // legs from the south-west and from the south-east: it is set to be pulled to the south
    expect_abs(fabs(anchor->heading), 3.14159265358979, 1e-6);
    double size = 0.0;
    for (int c = 0; c < 3; c++) {
        const double sum = state->sections[p->first_section].force_a[c] +
                           state->sections[q->first_section].force_a[c];
        expect_abs(state->reaction[3 * anchor->point + c], sum, 1e-3);
        size += sum * sum;
    }
    ck_assert_double_lt(sqrt(size), state->sections[p->first_section].tension_a +
                                        state->sections[q->first_section].tension_a);
    bys_state_free(state);
    drop(&b);
}
END_TEST

int main(void) {
    Suite *s = suite_create("gear");
    suite_test(s, legs_stand_along_the_backbone_where_they_are_put);
    suite_test(s, a_leg_along_the_backbone_takes_load_off_its_ends);
    suite_test(s, a_bridle_shares_its_load_between_two_places_of_the_backbone);
    suite_test(s, a_bridle_of_a_raft_takes_the_corners_of_its_side);
    suite_test(s, a_lost_strand_leaves_floats_and_gear_on_the_other);
    suite_test(s, a_shared_anchor_carries_the_sum_of_its_legs);
    return suite_run(s, NULL);
}
