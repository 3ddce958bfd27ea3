// SPDX-License-Identifier: GPL-3.0-or-later
// The Network's builder and its islands, by hand.
#include "lease/network.h"
#include "support/suite.h"

#include <string.h>

static const double origin[3] = {0.0, 0.0, 0.0};

START_TEST(section_is_cut_evenly) {
    bys_network *net = bys_network_new(NULL, -1);
    const double far[3] = {10.0, 0.0, -5.0};
    const int a = bys_network_point(net, "A", BYS_POINT_FIXED, origin);
    const int b = bys_network_point(net, "B", BYS_POINT_FREE, far);
    const bys_section like = {
        .length = 12.0, .stiffness = 1e6, .leg = -1, .line = -1, .strand = -1};
    const int s = bys_network_section(net, "S", a, b, 4, &like);
    ck_assert_int_eq(bys_network_finish(net, NULL), BYS_OK);
    ck_assert_int_eq(net->point_count, 5);
    ck_assert_int_eq(net->element_count, 4);
    ck_assert_int_eq(net->sections[s].count, 4);
    ck_assert_int_eq(net->elements[0].a, a);
    ck_assert_int_eq(net->elements[3].b, b);
    for (int e = 0; e < 4; e++)
        expect_close(net->elements[e].length, 3.0, 1e-15); // 12 m in four
    const bys_point *middle = &net->points[net->elements[1].b];
    expect_close(middle->x[0], 5.0, 1e-15); // halfway
    expect_close(middle->x[2], -2.5, 1e-15);
    ck_assert_str_eq(middle->id, "");
    ck_assert_int_eq(net->island_count, 1);
    ck_assert(net->islands[0].anchored);
    ck_assert_int_eq(net->islands[0].point_count, 5);
    bys_network_free(net);
}
END_TEST

START_TEST(section_through_sums_its_lengths) {
    bys_network *net = bys_network_new(NULL, -1);
    int p[3];
    for (int i = 0; i < 3; i++) {
        const double x[3] = {i, 0.0, 0.0};
        p[i] = bys_network_point(net, "", BYS_POINT_FREE, x);
    }
    const double lengths[2] = {1.5, 2.25};
    const bys_section like = {.stiffness = 1e6};
    const int s = bys_network_section_through(net, "S", p, 3, lengths, &like);
    expect_close(net->sections[s].length, 3.75, 1e-15);
    ck_assert_int_eq(net->sections[s].count, 2);
    bys_network_free(net);
}
END_TEST

START_TEST(body_turns_its_points) {
    bys_network *net = bys_network_new(NULL, -1);
    const double at[3] = {100.0, 0.0, 1.0}, local[3] = {10.0, 0.0, -0.5},
                 anchor[3] = {100.0, 30.0, 0.5};
    const int body = bys_network_body(net, "R", at, 1000.0);
    const double turned[9] = {0, -1, 0, 1, 0, 0, 0, 0, 1}; // quarter turn to the left: x -> north
    memcpy(net->bodies[body].rotation, turned, sizeof turned);
    const int p = bys_network_body_point(net, "R:N", body, local);
    const int f = bys_network_point(net, "A", BYS_POINT_FIXED, anchor);
    const bys_section like = {.length = 20.0};
    bys_network_section(net, "S", f, p, 2, &like);
    ck_assert_int_eq(bys_network_finish(net, NULL), BYS_OK);
    const bys_point *middle = &net->points[net->elements[0].b];
    expect_close(middle->x[1], 20.0, 1e-15); // between (100, 30) and (100, 10)
    ck_assert_int_eq(net->bodies[body].point_count, 1);
    ck_assert_int_eq(net->bodies[body].points[0], p);
    ck_assert_int_eq(net->bodies[body].island, 0);
    bys_network_free(net);
}
END_TEST

// Two lines on two anchors, a third part that nothing holds, and a body that joins two of its
// points.
START_TEST(islands_are_found) {
    bys_network *net = bys_network_new(NULL, -1);
    const bys_section like = {.length = 1.0};
    int p[8];
    for (int i = 0; i < 8; i++) {
        const double x[3] = {i, 0.0, 0.0};
        p[i] = bys_network_point(net, "p", i == 0 || i == 2 ? BYS_POINT_FIXED : BYS_POINT_FREE, x);
    }
    const int body = bys_network_body(net, "B", origin, 1.0);
    const int left = bys_network_body_point(net, "l", body, origin);
    const int right = bys_network_body_point(net, "r", body, origin);
    bys_network_section(net, "0-1", p[0], p[1], 1, &like);
    bys_network_section(net, "2-3", p[2], p[3], 1, &like);
    bys_network_section(net, "4-5", p[4], p[5], 1, &like);
    bys_network_section(net, "6-l", p[6], left, 1, &like);
    bys_network_section(net, "r-7", right, p[7], 1, &like);
    ck_assert_int_eq(bys_network_finish(net, NULL), BYS_OK);
    ck_assert_int_eq(net->island_count, 4);
    ck_assert(net->islands[0].anchored);
    ck_assert(net->islands[1].anchored);
    ck_assert(!net->islands[2].anchored);
    ck_assert(!net->islands[3].anchored);
    ck_assert_int_eq(net->points[p[6]].island, net->points[p[7]].island); // by way of the body
    ck_assert_int_eq(net->islands[3].point_count, 4);
    ck_assert_int_eq(net->islands[3].body_count, 1);
    bys_network_free(net);
}
END_TEST

START_TEST(half_held_is_not_anchored) {
    bys_network *net = bys_network_new(NULL, -1);
    const bys_section like = {.length = 1.0};
    const int a = bys_network_point(net, "a", BYS_POINT_FREE, origin);
    const int b = bys_network_point(net, "b", BYS_POINT_FREE, origin);
    net->points[a].hold[2] = net->points[a].hold[0] = true;
    bys_network_section(net, "s", a, b, 1, &like);
    ck_assert_int_eq(bys_network_finish(net, NULL), BYS_OK);
    ck_assert(!net->islands[0].anchored); // y is free
    bys_network_free(net);
}
END_TEST

// h <= 0.15 T/q between 4 and 64 elements: the rule of bys_element_count, derived.
START_TEST(element_count_follows_the_rule) {
    ck_assert_int_eq(bys_element_count(55.0, 24.0, 5000.0), 4);    // 1.76
    ck_assert_int_eq(bys_element_count(100.0, 100.0, 5000.0), 14); // 13.3
    ck_assert_int_eq(bys_element_count(900.0, 700.0, 5000.0), 64); // 840
    ck_assert_int_eq(bys_element_count(10.0, 0.0, 5000.0), 4);
    ck_assert_int_eq(bys_element_count(10.0, 1.0, 0.0), 64);
}
END_TEST

START_TEST(many_items_grow) {
    bys_network *net = bys_network_new(NULL, -1);
    for (int i = 0; i < 5000; i++) {
        const double x[3] = {i, 0.0, 0.0};
        ck_assert_int_eq(bys_network_point(net, "n", BYS_POINT_FIXED, x), i);
    }
    expect_close(net->points[4999].x[0], 4999.0, 1e-15);
    ck_assert_int_eq(bys_network_finish(net, NULL), BYS_OK);
    ck_assert_int_eq(net->island_count, 5000);
    bys_network_free(net);
    bys_network_free(NULL);
}
END_TEST

int main(void) {
    Suite *s = suite_create("builder");
    suite_test(s, section_is_cut_evenly);
    suite_test(s, section_through_sums_its_lengths);
    suite_test(s, body_turns_its_points);
    suite_test(s, islands_are_found);
    suite_test(s, half_held_is_not_anchored);
    suite_test(s, element_count_follows_the_rule);
    suite_test(s, many_items_grow);
    return suite_run(s, NULL);
}
