// SPDX-License-Identifier: GPL-3.0-or-later
// Quadratic drag over waves, splash zone, end flow, marine growth.
#include "phys/phys.h"
#include "support/suite.h"

#include <gsl/gsl_integration.h>

typedef struct { double U, s; } gaussian_case;

static double gaussian_integrand(double t, void *user) // u = s t
{
    const gaussian_case *c = user;
    const double v = c->U + c->s * t;
    return v * fabs(v) * exp(-0.5 * t * t) / sqrt(2.0 * BYS_PI);
}

// The average by quadrature, split where the integrand has its kink.
static double gaussian_average(double U, double s)
{
    gaussian_case c = {U, s};
    gsl_function f = {gaussian_integrand, &c};
    gsl_integration_workspace *work = gsl_integration_workspace_alloc(400);
    const double kink = fmax(-12.0, fmin(12.0, -U / s));
    double left = 0.0, right = 0.0, error;
    if (kink > -12.0)
        gsl_integration_qag(&f, -12.0, kink, 1e-15, 1e-13, 400, 6, work, &left, &error);
    if (kink < 12.0)
        gsl_integration_qag(&f, kink, 12.0, 1e-15, 1e-13, 400, 6, work, &right, &error);
    gsl_integration_workspace_free(work);
    return left + right;
}

// Monte Carlo with 2e7 draws and closed form agree on these digits (derived, loads note 6.4).
START_TEST(gaussian_mean_has_the_noted_values)
{
    expect_abs(bys_morison_mean(0.5, 0.5, NULL, NULL), 0.46233, 5e-6);
    expect_abs(bys_morison_mean(1.0, 0.25, NULL, NULL), 1.06250, 5e-6);
}
END_TEST

START_TEST(gaussian_mean_is_the_integral) // derived: quadrature of the definition
{
    const double U[] = {-1.3, -0.2, 0.01, 0.3, 0.9, 2.0}, s[] = {0.02, 0.1, 0.4, 1.1};
    for (size_t i = 0; i < 6; i++)
        for (size_t j = 0; j < 4; j++)
            expect_close(bys_morison_mean(U[i], s[j], NULL, NULL), gaussian_average(U[i], s[j]),
                         1e-11);
}
END_TEST

START_TEST(gaussian_mean_has_its_limits) // derived
{
    double dU, ds;
    expect_abs(bys_morison_mean(0.7, 0.0, &dU, &ds), 0.49, 1e-16);
    expect_abs(dU, 1.4, 1e-15);
    expect_abs(ds, 0.0, 0.0);
    expect_abs(bys_morison_mean(-0.7, 0.0, NULL, NULL), -0.49, 1e-16);
    expect_abs(bys_morison_mean(0.0, 0.0, &dU, &ds), 0.0, 0.0);
    expect_abs(dU, 0.0, 0.0);
    // small U: 2 U s sqrt(2/pi) (Borgman 1967, memory); the next term is relative U^2/(6 s^2)
    expect_close(bys_morison_mean(1e-4, 0.5, NULL, NULL), 2e-4 * 0.5 * sqrt(2.0 / BYS_PI), 1e-8);
    // large U: U^2 + s^2
    expect_close(bys_morison_mean(3.0, 0.25, NULL, NULL), 9.0 + 0.0625, 1e-12);
    // odd in U, even in s
    expect_abs(bys_morison_mean(0.4, 0.3, NULL, NULL) + bys_morison_mean(-0.4, 0.3, NULL, NULL),
               0.0, 0.0);
    expect_abs(bys_morison_mean(0.4, 0.3, NULL, NULL) - bys_morison_mean(0.4, -0.3, NULL, NULL),
               0.0, 0.0);
}
END_TEST

START_TEST(gaussian_derivatives_match_differences) // derived
{
    const double U[] = {-1.1, -0.05, 0.0, 0.2, 0.8}, s[] = {0.05, 0.2, 0.9}, e = 1e-5;
    for (size_t i = 0; i < 5; i++) {
        for (size_t j = 0; j < 3; j++) {
            double dU, ds;
            bys_morison_mean(U[i], s[j], &dU, &ds);
            const double nU = (bys_morison_mean(U[i] + e, s[j], NULL, NULL) -
                               bys_morison_mean(U[i] - e, s[j], NULL, NULL)) /
                              (2.0 * e);
            const double ns = (bys_morison_mean(U[i], s[j] + e, NULL, NULL) -
                               bys_morison_mean(U[i], s[j] - e, NULL, NULL)) /
                              (2.0 * e);
            expect_abs(dU, nU, 1e-8);
            expect_abs(ds, ns, 1e-8);
        }
    }
}
END_TEST

START_TEST(gaussian_mean_is_seamless_where_the_tail_is_dropped) // derived
{
    double a, b, c, d;
    const double below = bys_morison_mean(9.0 - 1e-12, 1.0, &a, &b);
    const double above = bys_morison_mean(9.0 + 1e-12, 1.0, &c, &d);
    expect_close(below, above, 1e-12);
    expect_close(a, c, 1e-12);
    expect_close(b, d, 1e-12);
}
END_TEST

static double regular_integrand(double phase, void *user) // u = s cos
{
    const gaussian_case *c = user;
    const double v = c->U + c->s * cos(phase);
    return v * fabs(v) / BYS_PI;
}

START_TEST(regular_mean)
{
    // exact average over one period (derived, loads note 6.4)
    expect_abs(bys_morison_mean_regular(0.3, 1.0), 0.387728, 5e-7);
    expect_abs(bys_morison_mean_regular(0.8, 1.0), 1.131348, 5e-7);
    // derived: quadrature, split at the kink
    gaussian_case c = {-0.37, 0.9};
    gsl_function f = {regular_integrand, &c};
    gsl_integration_workspace *work = gsl_integration_workspace_alloc(400);
    const double kink = acos(0.37 / 0.9);
    double left, right, error;
    gsl_integration_qag(&f, 0.0, kink, 1e-14, 1e-12, 400, 6, work, &left, &error);
    gsl_integration_qag(&f, kink, BYS_PI, 1e-14, 1e-12, 400, 6, work, &right, &error);
    gsl_integration_workspace_free(work);
    expect_close(bys_morison_mean_regular(-0.37, 0.9), left + right, 1e-11);
    // derived: current never reversed, and no current
    expect_close(bys_morison_mean_regular(-1.2, 0.9), -(1.44 + 0.405), 1e-15);
    expect_close(bys_morison_mean_regular(1.0, 1.0), 1.5, 1e-15);
    expect_abs(bys_morison_mean_regular(0.0, 0.0), 0.0, 0.0);
    expect_abs(bys_morison_mean_regular(0.0, 1.0), 0.0, 0.0);
}
END_TEST

START_TEST(splash_zone)
{
    // derived, loads note 6.4: D .15, Cd 1.3, Hs 1, Tz 2.73 s: 13.2 N per member
    const double noted = bys_splash_random(1025.0, 1.3, 0.15, 1.0, 2.73);
    expect_abs(noted, 13.2, 0.05);
    // derived: cubic in the height, inverse square in the period
    expect_close(bys_splash_random(1025.0, 1.3, 0.15, 2.0, 2.73), 8.0 * noted, 1e-14);
    expect_close(bys_splash_random(1025.0, 1.3, 0.15, 1.0, 5.46), 0.25 * noted, 1e-14);
    // derived: the average of eta u|u| over one period by the rectangle rule (exact to rounding)
    const double a = 0.4, w = 2.1;
    double sum = 0.0;
    for (int i = 0; i < 4096; i++) {
        const double eta = a * cos(2.0 * BYS_PI * i / 4096.0), u = w * eta;
        sum += eta * u * fabs(u) / 4096.0;
    }
    expect_close(bys_splash_regular(1025.0, 1.2, 0.2, w, a), 0.5 * 1025.0 * 1.2 * 0.2 * sum, 1e-6);
}
END_TEST

// derived, loads note 6.4: dropper z -1..-6 m, U .3, Hs 1, Tz 2.73 s, deep, one frequency:
// sigma_u .335 (top) to .023 (bottom), mean drag 1.21 of current-only.
START_TEST(dropper_under_waves)
{
    const double w = 2.0 * BYS_PI / 2.73, k = w * w / BYS_G, U = 0.3;
    expect_abs(0.25 * w * exp(-k), 0.335, 5e-4);
    expect_abs(0.25 * w * exp(-6.0 * k), 0.023, 5e-4);
    const int n = 2000;
    double sum = 0.0;
    for (int i = 0; i < n; i++) {
        const double z = -1.0 - 5.0 * (i + 0.5) / n;
        sum += bys_morison_mean(U, 0.25 * w * exp(k * z), NULL, NULL) / (U * U * n);
    }
    expect_abs(sum, 1.21, 0.005);
}
END_TEST

START_TEST(end_flow) // DNV-RP-C205 Table 6-2 (memory)
{
    const double row[][2] = {{2, .58},  {5, .62},  {10, .68}, {20, .74},
                             {40, .82}, {50, .87}, {100, .98}};
    for (size_t i = 0; i < 7; i++)
        expect_close(bys_cylinder_end_factor(row[i][0]), row[i][1], 1e-14);
    // derived: half way on log(L/D) between two rows, half way in kappa
    expect_close(bys_cylinder_end_factor(sqrt(2.0 * 5.0)), 0.60, 1e-14);
    expect_close(bys_cylinder_end_factor(sqrt(50.0 * 100.0)), 0.925, 1e-14);
    double last = 0.0;
    for (double r = 0.5; r < 1e4; r *= 1.01) { // derived: never falls, never above 1
        const double kappa = bys_cylinder_end_factor(r);
        ck_assert(kappa >= last && kappa < 1.0);
        last = kappa;
    }
    expect_close(bys_cylinder_end_factor(0.1), 0.58, 1e-15); // held
    expect_close(bys_cylinder_end_factor(1e9), 1.0, 1e-8);
}
END_TEST

START_TEST(marine_growth)
{
    // computed from the DNV-OS-E301 form (memory), standards note 4: t 50 mm, 1325 and 1025 kg/m3
    bys_growth rope = bys_growth_on_line(0.024, 0.050, 1325.0, 1025.0, false);
    expect_abs(rope.mass, 15.402, 5e-4);
    expect_abs(rope.weight * 9.81 / BYS_G, 34.21, 0.005); // the note took g = 9.81
    expect_abs(rope.drag_factor, 5.167, 5e-4);
    bys_growth chain = bys_growth_on_line(0.016, 0.050, 1325.0, 1025.0, true);
    expect_abs(chain.mass, 27.473, 5e-4);
    expect_abs(chain.weight * 9.81 / BYS_G, 61.02, 0.005);
    bys_growth none = bys_growth_on_line(0.016, 0.0, 1325.0, 1025.0, true); // derived
    expect_abs(none.mass, 0.0, 0.0);
    expect_abs(none.drag_factor, 1.0, 0.0);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("drag");
    suite_test(s, gaussian_mean_has_the_noted_values);
    suite_test(s, gaussian_mean_is_the_integral);
    suite_test(s, gaussian_mean_has_its_limits);
    suite_test(s, gaussian_derivatives_match_differences);
    suite_test(s, gaussian_mean_is_seamless_where_the_tail_is_dropped);
    suite_test(s, regular_mean);
    suite_test(s, splash_zone);
    suite_test(s, dropper_under_waves);
    suite_test(s, end_flow);
    suite_test(s, marine_growth);
    return suite_run(s, NULL);
}
