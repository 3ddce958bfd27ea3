// SPDX-License-Identifier: GPL-3.0-or-later
// Single elements, floats and point loads in a condition.
// Expected relations are derived (statics); no number is one of them.
#include "statics/hand_net.h"
#include "support/suite.h"

#include <math.h>

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

static void solve(rig *r, const bys_sea *sea, const bys_condition *c, bys_start start)
{
    bys_audit audit;
    ck_assert_int_eq(bys_solve_island(r->state, r->solver, sea, c, start, NULL), BYS_OK);
    ck_assert_msg(r->state->islands[0].status == BYS_STABLE, "%s", r->state->islands[0].reason);
    bys_audit_island(&audit, r->state, sea, c, 0);
    ck_assert_double_lt(audit.worst_N, 0.01);
}

static double anchor_tension(const rig *r, int leg)
{
    return r->state->sections[r->net->legs[leg].first_section].tension_a;
}

static double reaction_up(const rig *r)
{
    return r->state->reaction[3 * r->net->legs[0].foot + 2] +
           r->state->reaction[3 * r->net->legs[1].foot + 2];
}

START_TEST(a_cut_backbone_streams_from_both_anchors)
{
    rig r = rig_of(hand_longline(51.8, 55.0, 0.0, PLACED_PLAIN));
    const bys_line *line = &r.net->lines[0];
    for (int part = 1; part < 4; part++)
        for (int k = 0; k < 8; k++) {
            const int element = r.net->sections[line->first_section].first + 7 * part;
            const bys_condition cut = {.id = "cut", .elements = &element, .element_count = 1};
            const bys_sea sea = hand_sea(0.6, 45.0 * k + 5.0, 15.0, 0.8, 4.5, PLACED_PLAIN);
            solve(&r, &sea, &cut, BYS_START_COLD);
            ck_assert_double_eq(r.state->tension[element], 0.0);
            ck_assert_double_gt(anchor_tension(&r, 0), 100.0); // each half hangs on its own anchor
            ck_assert_double_gt(anchor_tension(&r, 1), 100.0);
            const bys_element *e = &r.net->elements[element];
            const double *a = r.state->x + 3 * e->a, *b = r.state->x + 3 * e->b;
            ck_assert_double_gt(hypot(b[0] - a[0], b[1] - a[1]), 2.0 * e->length); // parted
        }
    rig_free(&r);
}
END_TEST

START_TEST(a_lift_is_carried_by_the_anchors_and_floats)
{
    rig r = rig_of(hand_longline(53.2, 55.0, 0.0, PLACED_PLAIN));
    const bys_line *line = &r.net->lines[0];
    const bys_sea sea = hand_sea(0.4, 90.0, 0.0, 0.0, 4.5, PLACED_PLAIN);
    const bys_point_load side = {line->points[15], {2000.0, 0.0, 0.0}};
    const bys_condition tied = {.id = "vessel", .loads = &side, .load_count = 1};
    solve(&r, &sea, NULL, BYS_START_COLD);
    const double before = r.state->reaction[3 * r.net->legs[0].foot] +
                          r.state->reaction[3 * r.net->legs[1].foot];
    solve(&r, &sea, &tied, BYS_START_WARM);
    const double after = r.state->reaction[3 * r.net->legs[0].foot] +
                         r.state->reaction[3 * r.net->legs[1].foot];
    // the anchors take the load; drag changes only as the line turns to it
    ck_assert_double_eq_tol(after - before, 2000.0, 200.0);
    const bys_point_load up = {line->points[15], {0.0, 0.0, 500.0}};
    const bys_condition lift = {.id = "lift", .loads = &up, .load_count = 1};
    solve(&r, &sea, &lift, BYS_START_COLD);
    ck_assert_double_gt(r.state->x[3 * line->points[15] + 2], 4.0);
    rig_free(&r);
}
END_TEST

START_TEST(a_lost_float_lets_its_neighbours_carry)
{
    rig r = rig_of(hand_longline(51.8, 55.0, 0.0, PLACED_PLAIN));
    const bys_sea sea = hand_sea(0.3, 90.0, 0.0, 0.0, 4.5, PLACED_PLAIN);
    solve(&r, &sea, NULL, BYS_START_COLD);
    const double whole = reaction_up(&r);
    const int lost = 15;
    const double z = r.state->x[3 * r.net->floats[lost].point + 2];
    const double beside = r.state->submerged[lost - 1];
    const bys_condition gone = {.id = "float", .floats = &lost, .float_count = 1};
    solve(&r, &sea, &gone, BYS_START_WARM);
    ck_assert_double_eq(r.state->submerged[lost], 0.0);
    ck_assert_double_lt(r.state->x[3 * r.net->floats[lost].point + 2], z);
    ck_assert_double_gt(r.state->submerged[lost - 1], beside);
    // what the others take up leaves the anchors' share changed by less than the float could lift
    const bys_float_part *part = &r.net->floats[lost].part->u.buoy;
    const double lift = r.net->floats[lost].count * 9.81 * (sea.rho * part->volume - part->mass);
    ck_assert_double_lt(fabs(reaction_up(&r) - whole), lift);
    ck_assert_double_lt(reaction_up(&r), whole); // less lift in all: the legs hang lower
    rig_free(&r);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("conditions");
    suite_test(s, a_cut_backbone_streams_from_both_anchors);
    suite_test(s, a_lift_is_carried_by_the_anchors_and_floats);
    suite_test(s, a_lost_float_lets_its_neighbours_carry);
    return suite_run(s, NULL);
}
