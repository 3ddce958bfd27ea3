// SPDX-License-Identifier: GPL-3.0-or-later
// Plan geometry; all values derived.
#include "design/judge.h"
#include "support/suite.h"

START_TEST(inside_is_signed)
{
    const double x[4] = {0, 10, 10, 0}, y[4] = {0, 0, 20, 20};
    expect_close(bys_plan_inside(x, y, 4, 4.0, 10.0), 4.0, 1e-15);
    expect_close(bys_plan_inside(x, y, 4, 16.0, 10.0), -6.0, 1e-15);
    expect_close(bys_plan_inside(x, y, 4, 13.0, 24.0), -5.0, 1e-15); // past a corner: 3-4-5
}
END_TEST

START_TEST(inside_a_notched_lease)
{
    const double x[6] = {0, 20, 20, 10, 10, 0}, y[6] = {0, 0, 10, 10, 20, 20};
    ck_assert(bys_plan_inside(x, y, 6, 15.0, 15.0) < 0.0);
    expect_close(bys_plan_inside(x, y, 6, 15.0, 15.0), -5.0, 1e-15);
    expect_close(bys_plan_inside(x, y, 6, 5.0, 15.0), 5.0, 1e-15);
}
END_TEST

START_TEST(gap_of_polylines)
{
    const double a[6] = {0, 0, 0, 10, 0, 0}, b[9] = {0, 5, -3, 5, 2, 0, 12, 5, 1},
                 c[6] = {5, -1, 0, 5, 1, 0};
    expect_close(bys_plan_gap(a, 2, b, 3), 2.0, 1e-15); // height does not count
    expect_abs(bys_plan_gap(a, 2, c, 2), 0.0, 0.0);     // they cross
}
END_TEST

// A disc of radius 100 m: the polygon of 32 tangents has area 32 r^2 tan(pi/32).
START_TEST(outline_of_a_disc)
{
    double support[BYS_SWEEP], corners[8 * BYS_SWEEP];
    for (int k = 0; k < BYS_SWEEP; k++)
        support[k] = 100.0 + 0.0 * k;
    const int n = bys_sweep_outline(corners, support);
    ck_assert_int_eq(n, 32);
    expect_close(bys_plan_area(corners, n), 32e4 * tan(3.14159265358979323846 / 32.0), 1e-8);
}
END_TEST

START_TEST(outline_of_a_square_far_from_the_origin)
{
    double support[BYS_SWEEP], corners[8 * BYS_SWEEP];
    for (int k = 0; k < BYS_SWEEP; k++)
        support[k] = -INFINITY;
    for (int k = 0; k < 4; k++)
        bys_sweep_add(support, 1000.0 + 50.0 * (k & 1), -3000.0 + 50.0 * (k / 2));
    const int n = bys_sweep_outline(corners, support);
    expect_close(bys_plan_area(corners, n), 2500.0, 1e-6);
    const double through[6] = {990, -2975, 0, 1060, -2975, 0},
                 beside[6] = {990, -2940, 0, 1060, -2940, 0};
    const double within[6] = {1010, -2990, 0, 1020, -2990, 0};
    ck_assert(bys_plan_crosses(corners, n, through, 2));
    ck_assert(bys_plan_crosses(corners, n, within, 2));
    ck_assert(!bys_plan_crosses(corners, n, beside, 2));
}
END_TEST

START_TEST(outline_of_nothing)
{
    double support[BYS_SWEEP], corners[8 * BYS_SWEEP];
    for (int k = 0; k < BYS_SWEEP; k++)
        support[k] = -INFINITY;
    ck_assert_int_eq(bys_sweep_outline(corners, support), 0);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("geometry");
    suite_test(s, inside_is_signed);
    suite_test(s, inside_a_notched_lease);
    suite_test(s, gap_of_polylines);
    suite_test(s, outline_of_a_disc);
    suite_test(s, outline_of_a_square_far_from_the_origin);
    suite_test(s, outline_of_nothing);
    return suite_run(s, NULL);
}
