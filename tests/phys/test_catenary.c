// SPDX-License-Identifier: GPL-3.0-or-later
// Elastic catenary: textbook values, invariants, refused cases, hard cases. "K1" and so on are the
// numbers of the cable notes; "own" there is an independent computation.
#include "phys/phys.h"
#include "support/suite.h"

#include <gsl/gsl_integration.h>

static const double inextensible = INFINITY;

static bys_catenary solved(double dx, double dz, double w, double EA, double length)
{
    bys_catenary c;
    ck_assert_msg(bys_catenary_solve(&c, dx, dz, w, EA, length),
                  "no solution: dx %.17g dz %.17g w %g EA %g length %.17g", dx, dz, w, EA, length);
    return c;
}

static bys_catenary resting(double *grounded, double dx, double dz, double w, double EA,
                            double length)
{
    bys_catenary c;
    ck_assert_msg(bys_catenary_grounded(&c, grounded, dx, dz, w, EA, length),
                  "no solution: dx %.17g dz %.17g w %g EA %g length %.17g", dx, dz, w, EA, length);
    return c;
}

START_TEST(k1_shortest_chain) // K1, MIT 2.019 lecture 13 (read): 300.93 m; other digits own
{
    double S, x, T;
    bys_catenary_tangent(&S, &x, &T, 1510e3 - 828.0 * 25.0, 828.0, 25.0);
    expect_abs(S, 300.93, 0.005);
    expect_close(S, 300.9295181, 1e-9);
    expect_close(x, 299.5430024, 1e-9);
    expect_close(T, 1510e3, 1e-14);
}
END_TEST

START_TEST(k2_flat_start) // K2, finite-element validation manual (read): -6.352 m; rest own
{
    const double A = 2.2783e-4, w = 2844.23 * 9.81 * A, EA = 5.70e10 * A;
    const bys_catenary c = solved(325.0, 0.0, w, EA, 325.0);
    const bys_catenary half = bys_catenary_shape(c.H, c.Vi, w, EA, 162.5);
    expect_abs(half.dz, -6.352, 5e-4);
    expect_close(half.dz, -6.352161470, 1e-9);
    expect_close(half.dx, 162.5, 1e-12);
    expect_close(c.H, 13206.23915, 1e-9);
    expect_close(c.Tj, 13246.57805, 1e-9);
    expect_close(c.Ti, c.Tj, 1e-13);
}
END_TEST

START_TEST(k3_end_tension) // K3, reference manual of the same code (read): 7.941 m; rest own
{
    const bys_catenary c = solved(100.0, 0.0, 30.0, inextensible, 101.6620589);
    const bys_catenary half = bys_catenary_shape(c.H, c.Vi, 30.0, inextensible, 0.5 * 101.6620589);
    expect_abs(-half.dz, 7.941, 5e-4);
    expect_close(-half.dz, 7.940537046, 2e-8); // the length has ten digits
    expect_close(c.H / 30.0, 158.7261296, 2e-8);
    expect_close(c.Tj, 5000.0, 2e-8);
}
END_TEST

START_TEST(k4_lecture_line) // K4, lecture examples (read): c 61.45 m, sag 31.70 m; rest own, g 9.81
{
    const double w = 3.0 * 9.81;
    const bys_catenary c = solved(120.0, 0.0, w, inextensible, 140.0);
    const bys_catenary half = bys_catenary_shape(c.H, c.Vi, w, inextensible, 70.0);
    expect_abs(c.H / w, 61.45, 0.005);
    expect_abs(-half.dz, 31.70, 0.005);
    expect_close(c.H / w, 61.44573045, 1e-9);
    expect_close(-half.dz, 31.69705129, 1e-9);
    expect_close(c.Tj, 2741.192, 2e-7);
}
END_TEST

START_TEST(k5_to_k8_textbooks) // Beer & Johnston, Hibbeler (memory); other digits own
{
    // K5, 25 ft, 30 lb, span 12.36 ft: Tmax 15.38 lb, sag 10 ft
    bys_catenary c = solved(12.35938825, 0.0, 1.2, inextensible, 25.0);
    expect_abs(c.Tj, 15.38, 0.0051); // 15.375 is the exact value
    expect_close(c.Tj, 15.375, 1e-9);
    expect_close(c.H, 1.2 * 2.8125, 2e-9);
    expect_close(bys_catenary_shape(c.H, c.Vi, 1.2, inextensible, 12.5).dz, -10.0, 1e-9);
    // K6, 0.6 kg/m, 60 m, sag 1.5 m: exact catenary 1776.0985 N, parabola 1765.8 N
    c = solved(60.0, 0.0, 0.6 * 9.81, inextensible, 60.0998836);
    expect_close(c.Tj, 1776.0985, 3e-7); // nine digits of length leave 2.5e-7
    expect_close(bys_parabola_tension(0.6 * 9.81, 60.0, inextensible, 60.1), 1765.8, 1e-12);
    // K7, 3 lb/ft, span 500 ft, sag 100 ft: 984 lb, 1284 lb, 550 ft
    c = solved(500.0, 0.0, 3.0, inextensible, 549.859104);
    expect_abs(c.H, 984.0, 0.5);
    expect_abs(c.Tj, 1284.0, 0.5);
    expect_close(c.H, 983.79388, 1e-8);
    expect_close(c.Tj, 1283.79388, 1e-8);
    // K8, 5 N/m, span 20 m, sag 6 m: 45.9 N, 75.9 N, 24.2 m
    c = solved(20.0, 0.0, 5.0, inextensible, 24.18820347);
    expect_abs(c.H, 45.9, 0.05);
    expect_close(c.H, 45.944707, 1e-8);
    expect_close(c.Tj, 75.944707, 1e-8);
}
END_TEST

START_TEST(k9_yacht) // K9, Hibbeler (memory): 5.67 m on the bottom, depth 19.8 m; other digits own
{
    const double w = 18.0 * 9.81;
    double S, x, T, grounded;
    bys_catenary_tangent(&S, &x, &T, 3500.0, w, 19.82104429);
    expect_close(S, 34.33105576, 1e-9);
    expect_close(x, 26.10348080, 1e-9);
    expect_close(T, 7000.0, 1e-9);
    const bys_catenary c =
        resting(&grounded, 26.10348080 + 5.66894424, 19.82104429, w, inextensible, 40.0);
    expect_abs(grounded, 5.67, 0.005);
    expect_close(grounded, 5.66894424, 1e-8);
    expect_close(c.Tj, 7000.0, 1e-8);
    expect_close(c.H, 3500.0, 1e-8);
    expect_close(c.Vj, 7000.0 * sqrt(0.75), 1e-8);
}
END_TEST

// Force of the three legs of K10 on the platform, moved by surge (m) along x.
static void k10_force(double *Fx, double *Fz, double surge)
{
    *Fx = *Fz = 0.0;
    for (int i = 0; i < 3; i++) {
        const double a = 2.0 * BYS_PI * i / 3.0, g = 853.87 - 5.2;
        const double x = g * cos(a) - surge, y = g * sin(a), plan = hypot(x, y);
        double grounded;
        const bys_catenary c = resting(&grounded, plan, 250.0, 698.094, 384.243e6, 902.2);
        *Fx += c.H * x / plan;
        *Fz -= c.Vj;
    }
}

// K10, NREL/TP-500-47535 (memory): F3 -1,607,000 N, K11 41,180 N/m; other digits own
START_TEST(k10_spread_mooring)
{
    double grounded, Fx, Fz, right, left, ignored;
    const bys_catenary c = resting(&grounded, 853.87 - 5.2, 250.0, 698.094, 384.243e6, 902.2);
    expect_close(c.H, 736938.324, 1e-9);
    expect_close(c.Vj, 535727.451, 1e-9);
    expect_close(c.Tj, 911088.357, 1e-9);
    expect_close(grounded, 134.785511, 1e-8);
    k10_force(&Fx, &Fz, 0.0);
    expect_abs(Fx, 0.0, 1e-6);
    expect_abs(Fz, -1607000.0, 500.0);
    k10_force(&right, &ignored, 0.01);
    k10_force(&left, &ignored, -0.01);
    expect_abs((left - right) / 0.02, 41180.0, 5.0);
    expect_abs((left - right) / 0.02, 41181.2, 0.05);
    k10_force(&Fx, &Fz, 5.0);
    expect_abs(Fx, -196621.0, 0.5);
    expect_abs(Fz, -1612270.0, 5.0);
    k10_force(&Fx, &Fz, -5.0);
    expect_abs(Fx, 218750.0, 5.0);
    expect_abs(Fz, -1612570.0, 5.0);
}
END_TEST

START_TEST(s1_s2_without_friction) // cable notes 4 (own)
{
    double grounded;
    bys_catenary c = resting(&grounded, 84.0, 18.0, 170.0, 7e7, 90.0);
    expect_close(c.H, 5206.791557, 1e-9);
    expect_close(c.Vj, 6420.614920, 1e-9);
    expect_close(c.Tj, 8266.497098, 1e-9);
    expect_close(grounded, 52.23167694, 1e-9);
    c = resting(&grounded, 84.0, 18.0, 170.0, inextensible, 90.0);
    expect_close(c.H, 5222.052045, 1e-9);
    expect_close(c.Vj, 6428.26248, 1e-9);
    expect_close(c.Tj, 8282.05204, 1e-9);
    expect_close(grounded, 52.186691, 1e-8);
}
END_TEST

// C1: isolated cable with a point load. Published displacement -5.626, -0.859 m (memory: Jayaraman
// & Knudson, Thai & Kim); -5.6255981, -0.8593656 m and the forces own. The lengths have eight
// digits, which leaves EA x 5e-6/126 = 3 N, or 3e-5 of the force.
START_TEST(c1_point_load)
{
    const double w = 46.12, EA = 548.4e-6 * 131.0e9, L1 = 125.84701, L2 = 186.85526;
    const double x0 = 121.92, z0 = -29.276, span = 304.8;
    bys_catenary a = solved(x0, z0, w, EA, L1), b = solved(span - x0, -z0, w, EA, L2);
    expect_close(a.H, 17796.664, 1e-5);
    expect_close(b.H, 17796.664, 1e-5);
    const double x = x0 - 0.8593656, z = z0 - 5.6255981;
    a = solved(x, z, w, EA, L1);
    b = solved(span - x, -z, w, EA, L2);
    expect_close(a.H, 89442.555, 5e-5);
    expect_close(b.H, 89442.555, 5e-5);
    expect_close(a.Ti, 93933.280, 5e-5);
    expect_close(b.Tj, 91946.409, 5e-5);
    expect_abs(b.Vi - a.Vj, 35586.0, 3.0);
}
END_TEST

START_TEST(l1_backbone) // L1 (own)
{
    bys_catenary c = solved(100.0, 0.0, 50.0, inextensible, 104.0);
    expect_close(c.H, 5133.442648, 1e-9);
    expect_close(c.Tj, 5754.323020, 1e-9);
    static const double row[][7] = {
        // q, EA, L0, parabola H, exact H, T_end, sag
        {50, 2e6, 100, 12771.82387, 12698.82636, 12942.57281, 4.90617899},
        {50, 2e6, 102, 6671.64451, 6661.64823, 7133.02580, 9.46006401},
        {120, 6e5, 100, 15326.18865, 14981.52489, 16138.34217, 9.89014401},
    };
    for (size_t i = 0; i < 3; i++) {
        const double *r = row[i];
        c = solved(100.0, 0.0, r[0], r[1], r[2]);
        expect_close(bys_parabola_tension(r[0], 100.0, r[1], r[2]), r[3], 1e-9);
        expect_close(c.H, r[4], 1e-9);
        expect_close(c.Tj, r[5], 1e-9);
        expect_close(-bys_catenary_shape(c.H, c.Vi, r[0], r[1], 0.5 * r[2]).dz, r[6], 1e-8);
    }
}
END_TEST

// Cable notes 3.1: l 100 m, w 10 N/m, H 5000 N, EA 1e6; then 15 N/m: 5957.35 N (own)
START_TEST(added_load)
{
    double lo = 99.0, hi = 101.0;
    for (int i = 0; i < 100; i++) {
        const double L = 0.5 * (lo + hi);
        if (bys_catenary_shape(5000.0, -5.0 * L, 10.0, 1e6, L).dx < 100.0)
            lo = L;
        else
            hi = L;
    }
    expect_abs(solved(100.0, 0.0, 15.0, 1e6, lo).H, 5957.35, 0.005);
}
END_TEST

// M1, chain + clump + rope + float + rope (own): each section from the force below it
START_TEST(m1_sections)
{
    const double H = 4975.140447, LB = 22.73841105;
    const bys_catenary chain = bys_catenary_shape(H, 0.0, 150.0, 5e7, 30.0 - LB);
    expect_close(chain.dx + LB * (1.0 + H / 5e7), 29.94619012, 1e-9);
    expect_close(chain.dz, 0.78568747, 2e-8);
    expect_close(chain.Vj, 1089.238343, 1e-9);
    expect_close(chain.Tj, 5092.981704, 1e-9);
    const bys_catenary rope = bys_catenary_shape(H, chain.Vj + 1500.0, 1.2, 4e5, 40.0);
    expect_close(rope.dx, 65.85580391 - 29.94619012, 1e-9);
    expect_close(rope.dz, 19.64742978 - 0.78568747, 1e-9);
    expect_close(rope.Tj, 5630.901220, 1e-9);
    const bys_catenary top = bys_catenary_shape(H, rope.Vj - 2500.0, 1.2, 4e5, 12.0);
    expect_close(top.dx, 78.0 - 65.85580391, 1e-9);
    expect_close(top.dz, 20.0 - 19.64742978, 5e-8);
    expect_close(top.Tj, 4977.450819, 1e-9);
}
END_TEST

// Standards note 5.7 (computed): H 10 kN, 15 m, steel chain of 5.7 kg/m in sea water (48.599 N/m)
START_TEST(tangent_to_the_bed)
{
    double S, x, T;
    const double w = bys_submerged_weight(5.7, 7850.0, 1025.0);
    expect_abs(w, 48.599, 5e-4);
    bys_catenary_tangent(&S, &x, &T, 10e3, w, 15.0);
    expect_abs(S, 79.987, 5e-4);
    expect_abs(x, 78.098, 5e-4);
    expect_abs(T, 10.7290e3, 0.05);
    expect_abs(w * S, 3.8873e3, 0.05);
    expect_close(T, hypot(10e3, w * S), 1e-14); // derived
    bys_catenary_tangent(&S, &x, &T, 0.0, w, 15.0); // derived: hangs straight down
    expect_abs(S, 15.0, 1e-14);
    expect_abs(x, 0.0, 0.0);
}
END_TEST

typedef struct { double H, Vi, w, inv_EA; bool vertical; } integrand_data;

static double integrand(double s, void *user)
{
    const integrand_data *d = user;
    const double V = d->Vi + d->w * s;
    return (d->vertical ? V : d->H) * (1.0 / hypot(d->H, V) + d->inv_EA);
}

// derived: dx = int H (1/T + 1/EA) ds, dz = int V (1/T + 1/EA) ds by quadrature
START_TEST(shape_is_the_integral)
{
    static const double row[][5] = {
        // H, Vi, w, EA, L
        {1000, -300, 12, 1e6, 80},   {1000, 200, 12, 1e6, 80},   {50, -900, 30, 4e5, 60},
        {1e5, -10, 0.2, 5e7, 100},   {3000, 2000, -8, 1e5, 120}, {2000, -1500, 25, 8e4, 30},
        {1e4, 1, 1e-4, 1e6, 50},     {10, -4000, 100, 1e7, 75},
    };
    gsl_integration_workspace *work = gsl_integration_workspace_alloc(500);
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        const double *r = row[i];
        const bys_catenary c = bys_catenary_shape(r[0], r[1], r[2], r[3], r[4]);
        integrand_data d = {r[0], r[1], r[2], 1.0 / r[3], false};
        gsl_function f = {integrand, &d};
        double dx, dz, error;
        gsl_integration_qag(&f, 0.0, r[4], 1e-12 * r[4], 0.0, 500, 6, work, &dx, &error);
        d.vertical = true;
        gsl_integration_qag(&f, 0.0, r[4], 1e-12 * r[4], 0.0, 500, 6, work, &dz, &error);
        expect_abs(c.dx, dx, 1e-12 * r[4]);
        expect_abs(c.dz, dz, 1e-12 * r[4]);
    }
    gsl_integration_workspace_free(work);
}
END_TEST

START_TEST(energy_is_constant_along_the_line) // derived: T + T^2/(2 EA) - w z
{
    const double w = 35.0, EA = 3e5, L = 70.0;
    const bys_catenary c = solved(60.0, 12.0, w, EA, L);
    const double start = c.Ti + c.Ti * c.Ti / (2.0 * EA);
    for (int i = 1; i <= 20; i++) {
        const bys_catenary p = bys_catenary_shape(c.H, c.Vi, w, EA, L * i / 20.0);
        expect_close(p.Tj + p.Tj * p.Tj / (2.0 * EA) - w * p.dz, start, 1e-13);
    }
    double grounded;
    const bys_catenary g = resting(&grounded, 84.0, 18.0, 170.0, 7e5, 90.0);
    expect_close(g.Tj + g.Tj * g.Tj / 1.4e6 - 170.0 * 18.0, g.Ti + g.Ti * g.Ti / 1.4e6, 1e-13);
    ck_assert(grounded > 0.0);
}
END_TEST

START_TEST(ends_swapped_and_mirrored) // derived
{
    const bys_catenary a = solved(60.0, 12.0, 35.0, 3e5, 70.0);
    const bys_catenary b = solved(60.0, -12.0, 35.0, 3e5, 70.0); // seen from the other end
    expect_close(b.H, a.H, 1e-12);
    expect_close(b.Vi, -a.Vj, 1e-12);
    expect_close(b.Vj, -a.Vi, 1e-12);
    const bys_catenary m = solved(60.0, -12.0, -35.0, 3e5, 70.0); // a floating line is its mirror
    expect_close(m.H, a.H, 1e-12);
    expect_close(m.Vi, -a.Vi, 1e-12);
    expect_close(m.Vj, -a.Vj, 1e-12);
}
END_TEST

static void check_solution(double dx, double dz, double w, double EA, double length)
{
    const bys_catenary c = solved(dx, dz, w, EA, length);
    const double scale = 1e-12 * (length + hypot(dx, dz)), floor = 1e-9 * length;
    const bys_catenary s = bys_catenary_shape(c.H, c.Vi, w, EA, length);
    expect_abs(s.dx, fmax(dx, floor), scale);
    expect_abs(s.dz, dz, scale);
    ck_assert(c.H > 0.0);
    expect_abs(c.Vj - c.Vi, w * length, 1e-9 * fabs(w) * length + 1e-12 * fabs(c.Vi));
}

// derived: from taut (chord 1.02 lengths) to slack (length three chords), all directions, straight
// up and down among them, weights from neutral rope to heavy chain, both signs, soft to stiff
START_TEST(every_sane_line_is_solved)
{
    const double weight[] = {-300.0, -1.0, -1e-3, 1e-3, 1.0, 30.0, 3000.0};
    const double stiff[] = {1e4, 1e6, 1e9};
    const double ratio[] = {1.0 / 1.02, 0.999, 1.0 - 1e-9, 1.0, 1.0 + 1e-9, 1.001, 1.05, 1.4, 3.0};
    for (size_t i = 0; i < 7; i++)
        for (size_t j = 0; j < 3; j++)
            for (size_t k = 0; k < 9; k++)
                for (int angle = -90; angle <= 90; angle += 10) {
                    const double a = angle * BYS_PI / 180.0, chord = 40.0;
                    const double dx = abs(angle) == 90 ? 0.0 : chord * cos(a), dz = chord * sin(a);
                    check_solution(dx, dz, weight[i], stiff[j], ratio[k] * chord);
                    if (ratio[k] > 1.0)
                        check_solution(dx, dz, weight[i], inextensible, ratio[k] * chord);
                }
}
END_TEST

START_TEST(nearly_vertical) // derived
{
    for (double dx = 1e-12; dx < 1.0; dx *= 7.0) {
        check_solution(dx, 18.0, 40.0, 1e6, 20.0);
        check_solution(dx, -18.0, 40.0, inextensible, 20.0);
        check_solution(dx, 20.4, 40.0, 1e6, 20.0);
        check_solution(dx, 0.0, 40.0, 1e6, 20.0);
    }
    // hung straight down and stretched by its own weight alone: no force at the lower end
    const double own = 20.0 + 40.0 * 400.0 / 2e4;
    const bys_catenary c = solved(0.0, own, 40.0, 1e4, 20.0);
    expect_abs(c.Vi, 0.0, 1e-4);
    expect_close(c.Tj, 800.0, 1e-6);
}
END_TEST

START_TEST(forces_come_back) // derived: shape, then solve
{
    for (double H = 1e-2; H < 1e6; H *= 4.7)
        for (double V = -6000.0; V < 7000.0; V += 1300.0) {
            const bys_catenary a = bys_catenary_shape(H, V, 45.0, 2e7, 60.0);
            if (a.dx < 1e-6)
                continue;
            const bys_catenary c = solved(a.dx, a.dz, 45.0, 2e7, 60.0);
            const double tol = 1e-7 * hypot(H, V);
            expect_abs(c.H, H, tol);
            expect_abs(c.Vi, V, tol);
        }
}
END_TEST

START_TEST(refused)
{
    bys_catenary c;
    double grounded;
    ck_assert(!bys_catenary_solve(&c, 100.0, 0.0, 10.0, inextensible, 99.0)); // too short
    ck_assert(!bys_catenary_solve(&c, 100.0, 0.0, 10.0, inextensible, 100.0));
    ck_assert(!bys_catenary_solve(&c, 100.0, 0.0, 0.0, 1e6, 110.0)); // no weight: no shape
    ck_assert(!bys_catenary_solve(&c, 100.0, 0.0, 10.0, 1e6, 0.0));
    ck_assert(!bys_catenary_solve(&c, -1.0, 0.0, 10.0, 1e6, 10.0));
    ck_assert(!bys_catenary_solve(&c, NAN, 0.0, 10.0, 1e6, 10.0));
    ck_assert(!bys_catenary_solve(&c, 10.0, NAN, 10.0, 1e6, 10.0));
    ck_assert(!bys_catenary_grounded(&c, &grounded, 10.0, -1.0, 10.0, 1e6, 10.0)); // under the bed
    ck_assert(!bys_catenary_grounded(&c, &grounded, 10.0, 1.0, 10.0, inextensible, 10.0));
}
END_TEST

START_TEST(grounded_limits) // derived
{
    double grounded;
    // slack: hangs straight down, the rest lies on the bed without tension
    bys_catenary c = resting(&grounded, 20.0, 15.0, 30.0, inextensible, 40.0);
    expect_abs(c.H, 0.0, 0.0);
    expect_close(c.Vj, 30.0 * 15.0, 1e-14);
    expect_close(grounded, 25.0, 1e-14);
    // flat and taut: all on the bed, H = EA strain
    c = resting(&grounded, 101.0, 0.0, 30.0, 1e6, 100.0);
    expect_close(c.H, 1e4, 1e-9);
    expect_close(grounded, 100.0, 1e-14);
    expect_abs(c.Vj, 0.0, 0.0);
    // flat and loose
    c = resting(&grounded, 99.0, 0.0, 30.0, 1e6, 100.0);
    expect_abs(c.H, 0.0, 0.0);
    // taut and steep: the free catenary
    c = resting(&grounded, 50.0, 40.0, 30.0, 1e6, 64.2);
    expect_abs(grounded, 0.0, 0.0);
    expect_close(c.H, solved(50.0, 40.0, 30.0, 1e6, 64.2).H, 1e-15);
    // a floating line knows no bed
    c = resting(&grounded, 50.0, 10.0, -3.0, 1e6, 60.0);
    expect_abs(grounded, 0.0, 0.0);
    // where the last link lifts, both forms meet
    const bys_catenary lift = bys_catenary_shape(5e3, 0.0, 30.0, 1e6, 80.0);
    const double e = 1e-7;
    const bys_catenary below = resting(&grounded, lift.dx - e, lift.dz, 30.0, 1e6, 80.0);
    ck_assert(grounded > 0.0);
    const bys_catenary above = resting(&grounded, lift.dx + e, lift.dz, 30.0, 1e6, 80.0);
    ck_assert(grounded == 0.0);
    expect_close(below.H, 5e3, 1e-6);
    expect_close(above.H, 5e3, 1e-6);
}
END_TEST

START_TEST(grounded_line_meets_its_end) // derived: rebuilt from its two parts
{
    for (double L = 80.2; L < 98.0; L += 1.7)
        for (double dz = 0.01; dz < 18.0; dz *= 1.8) {
            double grounded;
            const bys_catenary c = resting(&grounded, 80.0, dz, 60.0, 2e6, L);
            if (c.H == 0.0 || grounded == 0.0)
                continue;
            const bys_catenary up = bys_catenary_shape(c.H, 0.0, 60.0, 2e6, L - grounded);
            expect_close(grounded * (1.0 + c.H / 2e6) + up.dx, 80.0, 1e-12);
            expect_abs(up.dz, dz, 1e-10);
            expect_close(up.Tj, c.Tj, 1e-9);
        }
}
END_TEST

START_TEST(parabola)
{
    // derived: S = L0 gives (q^2 S^2 EA/24)^(1/3)
    expect_close(bys_parabola_tension(50.0, 100.0, 2e6, 100.0), cbrt(2500.0 * 1e4 * 2e6 / 24.0),
                 1e-14);
    // derived: no load: taut H = EA (S/L0 - 1), loose none
    expect_close(bys_parabola_tension(0.0, 101.0, 2e6, 100.0), 2e4, 1e-12);
    expect_abs(bys_parabola_tension(0.0, 99.0, 2e6, 100.0), 0.0, 0.0);
    // derived: the equation itself, taut to slack, soft to stiff
    for (double L = 90.0; L < 120.0; L += 0.7)
        for (double EA = 1e3; EA < 1e10; EA *= 50.0) {
            const double H = bys_parabola_tension(40.0, 100.0, EA, L);
            expect_close(100.0 + 1600.0 * 1e6 / (24.0 * H * H), L * (1.0 + H / EA), 1e-12);
        }
    ck_assert(isnan(bys_parabola_tension(40.0, 100.0, inextensible, 99.0)));
    expect_close(bys_parabola_tension(40.0, 100.0, inextensible, 102.0),
                 sqrt(1600.0 * 1e6 / (24.0 * 2.0)), 1e-14);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("catenary");
    suite_test(s, k1_shortest_chain);
    suite_test(s, k2_flat_start);
    suite_test(s, k3_end_tension);
    suite_test(s, k4_lecture_line);
    suite_test(s, k5_to_k8_textbooks);
    suite_test(s, k9_yacht);
    suite_test(s, k10_spread_mooring);
    suite_test(s, s1_s2_without_friction);
    suite_test(s, c1_point_load);
    suite_test(s, l1_backbone);
    suite_test(s, added_load);
    suite_test(s, m1_sections);
    suite_test(s, tangent_to_the_bed);
    suite_test(s, shape_is_the_integral);
    suite_test(s, energy_is_constant_along_the_line);
    suite_test(s, ends_swapped_and_mirrored);
    suite_test(s, every_sane_line_is_solved);
    suite_test(s, nearly_vertical);
    suite_test(s, forces_come_back);
    suite_test(s, refused);
    suite_test(s, grounded_limits);
    suite_test(s, grounded_line_meets_its_end);
    suite_test(s, parabola);
    return suite_run(s, NULL);
}
