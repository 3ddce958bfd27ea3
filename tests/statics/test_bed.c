// SPDX-License-Identifier: GPL-3.0-or-later
// The push of an uneven bed: its tangent against differences, the plane as a map against the plane.
#include "num/vec3.h"
#include "sea/sea.h"
#include "statics/solver.h"
#include "support/suite.h"

#include <math.h>
#include <string.h>

static const double stiffness = 1e4; // N/m

static bys_bed_map *wavy(bys_arena *arena)
{
    static double z[41 * 41];
    for (int k = 0; k < 41 * 41; k++)
        z[k] = -18.0 + sin(0.35 * (k % 41)) * cos(0.28 * (k / 41));
    return bys_bed_map_grid(arena, -100.0, -100.0, 5.0, 41, 41, z);
}

static void push(double f[3], const double x[3], const bys_sea *sea)
{
    bys_lump lump;
    const double N = stiffness * bys_bed_depth(x, sea);
    bys_bed_eval(&lump, N, stiffness, x, sea);
    memcpy(f, lump.f, sizeof lump.f);
}

// Points at the bed, pushed in by a tenth of a millimetre: J against central differences of
// N(x) n(x); what is left out is of the order depth x bend. [derived]
START_TEST(tangent_is_complete)
{
    bys_arena *arena = bys_arena_new();
    bys_sea sea = bys_sea_still(1025.0);
    sea.has_bed = true;
    sea.map = wavy(arena);
    ck_assert_ptr_nonnull(sea.map);
    for (int i = 0; i < 60; i++) {
        double x[3] = {93.0 * sin(1.3 * i), 91.0 * cos(2.1 * i), 0.0}, above[3], below[3];
        bys_lump lump;
        const double h = 1e-5;
        if (fabs(remainder(x[0], 5.0)) < 1e-3 || fabs(remainder(x[1], 5.0)) < 1e-3)
            continue;
        x[2] = bys_sea_bed_z(&sea, x[0], x[1]) - 1e-4;
        bys_bed_eval(&lump, stiffness * bys_bed_depth(x, &sea), stiffness, x, &sea);
        for (int j = 0; j < 3; j++) {
            double up[3], down[3];
            memcpy(up, x, sizeof x);
            memcpy(down, x, sizeof x);
            up[j] += h;
            down[j] -= h;
            push(above, up, &sea);
            push(below, down, &sea);
            for (int k = 0; k < 3; k++)
                expect_abs(lump.J[3 * k + j], (above[k] - below[k]) / (2.0 * h),
                           2e-4 * stiffness * 0.1 + 0.05);
        }
        double n[3];
        bys_sea_bed_normal(n, &sea, x[0], x[1]);
        expect_abs(bys_norm(n), 1.0, 1e-14);
        ck_assert(n[2] > 0.5);
    }
    bys_arena_free(arena);
}
END_TEST

START_TEST(a_plane_as_a_map_is_the_plane)
{
    static double z[21 * 21];
    const double a = 0.05, b = -0.02; // dz/dx, dz/dy
    for (int k = 0; k < 21 * 21; k++)
        z[k] = -15.0 + a * (-100.0 + 10.0 * (k % 21)) + b * (-100.0 + 10.0 * (k / 21));
    bys_arena *arena = bys_arena_new();
    bys_sea plane = bys_sea_still(1025.0), map = plane;
    plane.has_bed = map.has_bed = true;
    const double size = sqrt(1.0 + a * a + b * b);
    plane.bed_point[2] = -15.0;
    plane.bed_normal[0] = -a / size;
    plane.bed_normal[1] = -b / size;
    plane.bed_normal[2] = 1.0 / size;
    map.map = bys_bed_map_grid(arena, -100.0, -100.0, 10.0, 21, 21, z);
    for (int i = 0; i < 50; i++) {
        const double x[3] = {90.0 * sin(i), 90.0 * cos(3 * i), -15.0 + sin(5 * i)};
        expect_abs(bys_bed_depth(x, &map), bys_bed_depth(x, &plane), 1e-12);
        double f[3], g[3];
        push(f, x, &map);
        push(g, x, &plane);
        for (int k = 0; k < 3; k++)
            expect_abs(f[k], g[k], 1e-12 * stiffness);
    }
    bys_arena_free(arena);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("uneven bed");
    TCase *tests = tcase_create("bed");
    tcase_add_test(tests, tangent_is_complete);
    tcase_add_test(tests, a_plane_as_a_map_is_the_plane);
    suite_add_tcase(s, tests);
    return suite_run(s, NULL);
}
