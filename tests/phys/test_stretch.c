// SPDX-License-Identifier: GPL-3.0-or-later
// Tension over strain through points: through each of them, rising, smooth, derivative exact.
#include "phys/phys.h"
#include "support/suite.h"

#include <math.h>

enum { MOST = 8 };
typedef struct { double x[MOST], T[MOST], m[MOST]; bys_stretch law; } curve;

static void make(curve *c, int n)
{
    bys_stretch_slopes(c->m, c->x, c->T, n);
    c->law = (bys_stretch){c->T[1] / c->x[1], c->x, c->T, c->m, n};
}

// Invented points: a nylon-like rope that hardens, one that softens, one with a sharp corner.
static void hardening(curve *c)
{
    *c = (curve){.x = {0, 0.05, 0.10, 0.18, 0.25}, .T = {0, 2e3, 7e3, 30e3, 80e3}};
    make(c, 5);
}
static void softening(curve *c)
{
    *c = (curve){.x = {0, 0.01, 0.03, 0.09}, .T = {0, 20e3, 35e3, 45e3}};
    make(c, 4);
}
static void corner(curve *c)
{
    *c = (curve){.x = {0, 0.02, 0.021, 0.20}, .T = {0, 100, 60e3, 60.1e3}};
    make(c, 4);
}

static void check_curve(curve *c)
{
    const int n = c->law.count;
    double slope, before = -1.0;
    for (int i = 0; i < n; i++)
        expect_abs(bys_stretch_tension(&c->law, c->x[i], &slope), c->T[i], 1e-9 * c->T[n - 1]);
    for (int k = 0; k <= 4000; k++) { // from slack to a quarter beyond the last point
        const double x = 1.25 * c->x[n - 1] * k / 4000.0, h = 1e-8;
        double dummy;
        const double T = bys_stretch_tension(&c->law, x, &slope);
        ck_assert_msg(T > before, "falls at %g", x);
        ck_assert_double_gt(slope, 0.0);
        before = T;
        const double up = bys_stretch_tension(&c->law, x + h, &dummy);
        const double down = bys_stretch_tension(&c->law, x - h, &dummy);
        bool at_point = false; // where the curvature jumps a difference is of first order only
        for (int i = 0; i < n; i++)
            at_point |= fabs(x - c->x[i]) < 2.0 * h;
        if (!at_point)
            expect_abs((up - down) / (2.0 * h), slope, 2e-4 * fabs(slope) + 0.5);
        expect_abs(bys_stretch_strain(&c->law, T), x, 1e-9 + 1e-6 * x);
    }
    for (int i = 0; i < n; i++) { // the derivative goes through the points without a jump
        double left, right;
        bys_stretch_tension(&c->law, c->x[i] - 1e-14, &left);
        bys_stretch_tension(&c->law, c->x[i] + 1e-14, &right);
        expect_abs(left, right, 1e-5 * fabs(right));
    }
}

START_TEST(curves_rise_smoothly_through_their_points)
{
    curve c;
    hardening(&c), check_curve(&c);
    softening(&c), check_curve(&c);
    corner(&c), check_curve(&c);
}
END_TEST

START_TEST(straight_points_give_the_straight_line) // derived: T = EA x
{
    curve c = {.x = {0, 0.01, 0.025, 0.1}, .T = {0, 15e3, 37.5e3, 150e3}};
    double slope;
    make(&c, 4);
    for (double x = -0.02; x < 0.3; x += 0.0037) {
        expect_abs(bys_stretch_tension(&c.law, x, &slope), 1.5e6 * x, 1e-8);
        expect_close(slope, 1.5e6, 1e-12);
    }
    const bys_stretch line = {.ea = 1.5e6};
    expect_abs(bys_stretch_tension(&line, 0.02, &slope), 30e3, 1e-9);
    expect_close(bys_stretch_strain(&line, 30e3), 0.02, 1e-14);
    ck_assert(isinf(bys_stretch_end(&line)));
    expect_close(bys_stretch_end(&c.law), 150e3, 1e-14);
}
END_TEST

// derived by hand from the rules of stretch.c: chords 40, 100 and 287.5 kN, so that the slope at
// x = 0.05 is 2 x 40 x 100/140 = 57.142857 kN; at 0 the parabola's 40 + 0.05 (40 - 100)/0.1 = 10 kN,
// a quarter of the chord; halfway of the first piece T = T1/2 + h (m0 - m1)/8 = 1000 - 294.642857 N.
START_TEST(values_worked_by_hand)
{
    curve c;
    double slope;
    hardening(&c);
    expect_close(c.m[0], 10e3, 1e-12);
    expect_close(c.m[1], 57142.857142857, 1e-12);
    expect_close(bys_stretch_tension(&c.law, 0.025, &slope), 705.357142857143, 1e-12);
    // beyond the last point its slope goes on
    const double more = bys_stretch_tension(&c.law, 0.30, &slope);
    expect_close(more, 80e3 + 0.05 * c.m[4], 1e-12);
    expect_close(slope, c.m[4], 1e-14);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("stretch");
    suite_test(s, curves_rise_smoothly_through_their_points);
    suite_test(s, straight_points_give_the_straight_line);
    suite_test(s, values_worked_by_hand);
    return suite_run(s, NULL);
}
