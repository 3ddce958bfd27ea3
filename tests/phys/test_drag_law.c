// SPDX-License-Identifier: GPL-3.0-or-later
// Drag of gear by any law: moments, limits, and every derivative against differences.
#include "phys/drag_law.h"
#include "phys/phys.h"
#include "phys/sea_loads.h"
#include "support/suite.h"

// Mean of |x|^(p-1) x over a Gaussian by brute force: Simpson in steps of a thousandth of s, the
// kink at x = 0 on a knot of its own half (derived).
static double by_quadrature(double p, double U, double s)
{
    double sum = 0.0;
    for (int half = 0; half < 2; half++) {
        const double a = half ? 0.0 : U - 10.0 * s, b = half ? U + 10.0 * s : 0.0;
        if (!(b > a))
            continue;
        const int n = 40000;
        // x = (end away from 0) t^4 flattens the root at 0
        const double far = half ? b : a;
        for (int i = 0; i <= n; i++) {
            const double t = (double)i / n, x = far * t * t * t * t, z = (x - U) / s;
            const double w = i == 0 || i == n ? 1.0 : i % 2 ? 4.0 : 2.0;
            sum += w / (3.0 * n) * fabs(far) * 4.0 * t * t * t * pow(fabs(x), p) *
                   (x < 0.0 ? -1.0 : 1.0) * exp(-0.5 * z * z) / (s * sqrt(2.0 * BYS_PI));
        }
    }
    return sum;
}

START_TEST(power_mean_against_quadrature)
{
    static const double speeds[] = {0.05, 0.3, 1.0}, waves[] = {0.1, 0.4};
    for (int i = 0; i < 3; i++)
        for (int k = 0; k < 2; k++)
            for (double p = 1.4; p < 2.05; p += 0.1)
                expect_close(bys_power_mean(p, speeds[i], waves[k], NULL, NULL),
                             by_quadrature(p, speeds[i], waves[k]), 1e-8);
}
END_TEST

START_TEST(power_two_is_the_square_law) // derived: p = 2 is bys_morison_mean
{
    for (double U = -1.0; U < 1.05; U += 0.1)
        for (double s = 0.0; s < 0.6; s += 0.1) {
            double dU, ds, gU, gs;
            const double M = bys_power_mean(2.0, U, s, &dU, &ds);
            const double G = bys_morison_mean(U, s, &gU, &gs);
            expect_abs(M, G, 1e-11);
            expect_abs(dU, gU, 1e-11);
            expect_abs(ds, gs, 1e-11);
        }
    expect_close(bys_power_mean(1.5, 0.49, 0.0, NULL, NULL), 0.343, 1e-12); // derived: 0.7^3
}
END_TEST

START_TEST(power_mean_has_its_slopes_and_no_seam)
{
    for (double U = 0.02; U < 1.5; U += 0.037)
        for (double s = 0.02; s < 0.6; s += 0.05) {
            const double h = 1e-6;
            double dU, ds;
            bys_power_mean(1.5, U, s, &dU, &ds);
            expect_abs(dU, (bys_power_mean(1.5, U + h, s, NULL, NULL) -
                            bys_power_mean(1.5, U - h, s, NULL, NULL)) / (2.0 * h), 1e-7);
            expect_abs(ds, (bys_power_mean(1.5, U, s + h, NULL, NULL) -
                            bys_power_mean(1.5, U, s - h, NULL, NULL)) / (2.0 * h), 1e-7);
        }
    const double seam = sqrt(60.0); // where series and expansion meet
    expect_close(bys_power_mean(1.5, seam * 0.1 * (1.0 + 1e-12), 0.1, NULL, NULL),
                 bys_power_mean(1.5, seam * 0.1 * (1.0 - 1e-12), 0.1, NULL, NULL), 1e-11);
}
END_TEST

/// Derivatives of all laws over U and s.
START_TEST(laws_have_their_slopes)
{
    static const bys_drag_law laws[] = {
        {.kind = BYS_DRAG_OUTLINE, .cd = 1.3},
        {.kind = BYS_DRAG_PANEL, .cd = 1.2, .edge = 0.15},
        {.kind = BYS_DRAG_NET, .solidity = 0.35, .twine = 0.002},
        {.kind = BYS_DRAG_NET_LOLAND, .solidity = 0.35},
        {.kind = BYS_DRAG_NET_KRISTIANSEN, .solidity = 0.2, .twine = 0.003},
        {.kind = BYS_DRAG_WEED, .cd = 0.3, .speed0 = 0.5, .power = 1.5},
    };
    for (size_t k = 0; k < sizeof laws / sizeof laws[0]; k++)
        for (double U = 0.05; U < 1.0; U += 0.13)
            for (double s = 0.0; s < 0.5; s += 0.12) {
                const double h = 1e-6;
                const bys_drag_now n = bys_drag_at(&laws[k], 0.6, 0.8, U, s);
                const bys_drag_now a = bys_drag_at(&laws[k], 0.6, 0.8, U + h, s);
                const bys_drag_now b = bys_drag_at(&laws[k], 0.6, 0.8, U - h, s);
                expect_abs(n.cd_dU, (a.cd - b.cd) / (2.0 * h), 2e-6);
                expect_abs(n.cl_dU, (a.cl - b.cl) / (2.0 * h), 2e-6);
                if (s == 0.0)
                    continue; // even in s there
                const bys_drag_now c = bys_drag_at(&laws[k], 0.6, 0.8, U, s + h);
                const bys_drag_now d = bys_drag_at(&laws[k], 0.6, 0.8, U, s - h);
                expect_abs(n.cd_ds, (c.cd - d.cd) / (2.0 * h), 2e-6);
                expect_abs(n.cl_ds, (c.cl - d.cl) / (2.0 * h), 2e-6);
            }
}
END_TEST

START_TEST(laws_are_those_of_their_files)
{
    // weed in a current alone: bys_kelp_drag from the same known drag (derived)
    const bys_drag_law kelp = {.kind = BYS_DRAG_WEED, .cd = 0.3, .speed0 = 0.5, .power = 1.5};
    const double area = 2.0, rho = 1025.0, known = 0.5 * rho * area * 0.3 * 0.25;
    for (double U = 0.1; U < 1.5; U += 0.2)
        expect_close(0.5 * rho * area * bys_drag_at(&kelp, 1.0, 0.0, U, 0.0).cd * U * U,
                     bys_kelp_drag(known, 0.5, U, NULL), 1e-12);
    // net at solidity 0.3, 2 mm twine, 0.5 m/s: Kristiansen .509, Loland .556, the larger counts.
    // loads.md section 1.3 [calc there; the laws from memory]
    bys_drag_law net = {.kind = BYS_DRAG_NET, .solidity = 0.3, .twine = 0.002};
    expect_abs(bys_drag_at(&net, 1.0, 0.0, 0.5, 0.0).cd, 0.556, 5e-4);
    net.kind = BYS_DRAG_NET_KRISTIANSEN;
    expect_abs(bys_drag_at(&net, 1.0, 0.0, 0.5, 0.0).cd, 0.509, 5e-4);
    // at 0.5: Kristiansen 1.424 is the larger
    net = (bys_drag_law){.kind = BYS_DRAG_NET, .solidity = 0.5, .twine = 0.002};
    expect_abs(bys_drag_at(&net, 1.0, 0.0, 0.5, 0.0).cd, 1.424, 5e-4);
    // panel: derived, 0.6 * 1.2 + 0.8 * 0.15
    const bys_drag_law panel = {.kind = BYS_DRAG_PANEL, .cd = 1.2, .edge = 0.15};
    expect_close(bys_drag_at(&panel, 0.6, 0.8, 0.4, 0.2).cd, 0.84, 1e-12);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("drag_law");
    suite_test(s, power_mean_against_quadrature);
    suite_test(s, power_two_is_the_square_law);
    suite_test(s, power_mean_has_its_slopes_and_no_seam);
    suite_test(s, laws_have_their_slopes);
    suite_test(s, laws_are_those_of_their_files);
    return suite_run(s, NULL);
}
