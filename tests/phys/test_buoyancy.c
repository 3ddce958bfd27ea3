// SPDX-License-Identifier: GPL-3.0-or-later
// Displaced volumes and wetted areas of floats. Every wanted value is geometry (derived).
#include "phys/phys.h"
#include "support/suite.h"

static const double D = 0.6, L = 1.2, W = 0.25, H = 0.9; // m, m, m2 or m, m

typedef double (*shape_fn)(double immersion, double *derivative);

static double sphere(double h, double *d) { return bys_volume_sphere(h, D, d); }
static double barrel(double h, double *d) { return bys_volume_barrel_side(h, D, L, d); }
static double upright(double h, double *d) { return bys_volume_upright(h, W, H, d); }
static double sphere_area(double h, double *d) { return bys_area_sphere(h, D, d); }
static double barrel_area(double h, double *d) { return bys_area_barrel_side(h, D, L, d); }
static double upright_area(double h, double *d) { return bys_area_upright(h, W, H, d); }

static const struct { shape_fn fn; double height; } shapes[] = {
    {sphere, 0.6},      {barrel, 0.6},      {upright, 0.9},
    {sphere_area, 0.6}, {barrel_area, 0.6}, {upright_area, 0.9},
};
enum { SHAPES = sizeof shapes / sizeof shapes[0] };

START_TEST(full_and_half)
{
    const double full[SHAPES] = {BYS_PI * D * D * D / 6.0, BYS_PI * D * D * L / 4.0, W * H,
                                 BYS_PI * D * D / 4.0,     D * L,                    W * H};
    for (int i = 0; i < SHAPES; i++) {
        double slope;
        expect_close(shapes[i].fn(shapes[i].height, &slope), full[i], 1e-14);
        expect_abs(slope, 0.0, 0.0);
        expect_close(shapes[i].fn(shapes[i].height + 7.0, &slope), full[i], 1e-14);
        expect_abs(slope, 0.0, 0.0);
        expect_close(shapes[i].fn(0.5 * shapes[i].height, NULL), 0.5 * full[i], 1e-14);
    }
}
END_TEST

START_TEST(dry)
{
    for (int i = 0; i < SHAPES; i++) {
        double slope = 1.0;
        expect_abs(shapes[i].fn(0.0, &slope), 0.0, 0.0);
        expect_abs(slope, 0.0, 0.0);
        expect_abs(shapes[i].fn(-0.3, &slope), 0.0, 0.0);
        expect_abs(slope, 0.0, 0.0);
    }
}
END_TEST

START_TEST(derivatives)
{
    for (int i = 0; i < SHAPES; i++) {
        for (int j = 1; j < 20; j++) {
            const double h = shapes[i].height * j / 20.0, e = 1e-6;
            double slope;
            shapes[i].fn(h, &slope);
            expect_close(slope, (shapes[i].fn(h + e, NULL) - shapes[i].fn(h - e, NULL)) / (2.0 * e),
                         1e-8);
        }
    }
}
END_TEST

START_TEST(top_and_bottom_mirror) // what is under at h is over at height - h
{
    for (int i = 0; i < SHAPES; i++) {
        const double full = shapes[i].fn(shapes[i].height, NULL);
        for (int j = 0; j <= 20; j++) {
            const double h = shapes[i].height * j / 20.0;
            expect_abs(shapes[i].fn(h, NULL) + shapes[i].fn(shapes[i].height - h, NULL), full,
                       1e-15);
        }
    }
}
END_TEST

// A circle's segment for small h: area 4/3 sqrt(D) h^1.5 (1 - 3h/(10 D) ...).
START_TEST(slightly_wet)
{
    for (double h = 1e-14; h < 1e-3; h *= 3.0) {
        const double want = 4.0 / 3.0 * sqrt(D) * pow(h, 1.5) * (1.0 - 0.3 * h / D);
        expect_close(bys_area_sphere(h, D, NULL), want, 1e-12 + h * h / (D * D));
    }
    // the series and the closed form meet (2t = 0.1: h = D sin^2(0.025))
    const double h = D * sin(0.025) * sin(0.025);
    expect_close(bys_area_sphere(h * (1.0 - 1e-9), D, NULL),
                 bys_area_sphere(h * (1.0 + 1e-9), D, NULL), 1e-8);
}
END_TEST

START_TEST(small_segment) // D^2/8 (2t - sin 2t) in extended precision, where the series is used
{
    for (double x = 0.03; x < 0.0999; x *= 1.03) { // x = 2t, h = D sin^2(t/2)
        const double s = sin(0.25 * x), h = D * s * s;
        const long double wide = 4.0L * asinl(sqrtl((long double)h / D));
        const double want = (double)((long double)D * D / 8.0L * (wide - sinl(wide)));
        expect_close(bys_area_sphere(h, D, NULL), want, 5e-15);
    }
}
END_TEST

START_TEST(slices_add_up) // volume = integral of the area of level slices
{
    const int n = 20000;
    double sum = 0.0;
    for (int i = 0; i < n; i++) {
        const double h = 0.4 * (i + 0.5) / n;
        sum += BYS_PI * h * (D - h) * 0.4 / n;
    }
    expect_close(bys_volume_sphere(0.4, D, NULL), sum, 1e-8);
}
END_TEST

START_TEST(squeezed) // derived: 1 - loss x depth, not below nothing
{
    double d;
    expect_abs(bys_volume_kept(-1.0, 0.01, &d), 1.0, 0.0);
    expect_abs(d, 0.0, 0.0);
    expect_close(bys_volume_kept(12.0, 0.01, &d), 0.88, 1e-15);
    expect_close(d, -0.01, 1e-15);
    expect_abs(bys_volume_kept(150.0, 0.01, &d), 0.0, 0.0);
    expect_abs(d, 0.0, 0.0);
    expect_abs(bys_volume_kept(150.0, 0.0, NULL), 1.0, 0.0);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("buoyancy");
    suite_test(s, full_and_half);
    suite_test(s, dry);
    suite_test(s, derivatives);
    suite_test(s, top_and_bottom_mirror);
    suite_test(s, slightly_wet);
    suite_test(s, small_segment);
    suite_test(s, slices_add_up);
    suite_test(s, squeezed);
    return suite_run(s, NULL);
}
