// SPDX-License-Identifier: GPL-3.0-or-later
// The uneven seabed: triangles, planes given point by point, slopes, what lies beyond.
#include "reading.h"
#include "base/codes.h"
#include "site/bed.h"
#include "site/delaunay.h"

#include <math.h>
#include <stdlib.h>

// A row of numbers in (0, 1), the same each time (a linear congruence).
static unsigned seed;
static double chance(void)
{
    seed = 1664525u * seed + 1013904223u;
    return (seed >> 8) / 16777216.0;
}

static double twice_area(const double *a, const double *b, const double *c)
{
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
}

/// Is d well inside the circle through a, b, c?
static bool in_circle(const double *a, const double *b, const double *c, const double *d)
{
    const double bx = b[0] - a[0], by = b[1] - a[1], cx = c[0] - a[0], cy = c[1] - a[1];
    const double k = 2.0 * (bx * cy - by * cx), bb = bx * bx + by * by, cc = cx * cx + cy * cy;
    const double ux = (cy * bb - by * cc) / k, uy = (bx * cc - cx * bb) / k;
    return hypot(d[0] - a[0] - ux, d[1] - a[1] - uy) < hypot(ux, uy) * (1.0 - 1e-6) - 1e-3;
}

// Euler: 2 n - 2 - h triangles for n points, h of them on the hull; the areas fill it; no circle
// around a triangle holds a point (what makes it Delaunay). [derived]
static void expect_delaunay(const double *xy, int n, bool regular)
{
    bys_triangles t;
    ck_assert_int_eq(bys_delaunay(&t, xy, n), 0);
    ck_assert_int_eq(t.count, 2 * n - 2 - t.hull_count);
    double sum = 0.0, hull = 0.0;
    for (int i = 0; i < t.hull_count; i++) {
        const double *p = xy + 2 * t.hull[i], *q = xy + 2 * t.hull[(i + 1) % t.hull_count];
        hull += p[0] * q[1] - q[0] * p[1];
    }
    for (int i = 0; i < t.count; i++) {
        const bys_triangle *one = &t.items[i];
        const double *a = xy + 2 * one->v[0], *b = xy + 2 * one->v[1], *c = xy + 2 * one->v[2];
        const double area = twice_area(a, b, c);
        sum += area;
        ck_assert(area > -1e-3);
        for (int k = 0; k < 3; k++) {
            const int other = one->next[k];
            ck_assert(other < 0 || t.items[other].next[0] == i || t.items[other].next[1] == i ||
                      t.items[other].next[2] == i);
        }
        for (int d = 0; d < n && area > 1.0 && !regular; d++)
            ck_assert_msg(!in_circle(a, b, c, xy + 2 * d), "triangle %d, point %d", i, d);
    }
    expect_abs(sum, hull, 1e-6 * hull);
    bys_triangles_free(&t);
}

START_TEST(triangles_are_delaunay)
{
    static double xy[800];
    for (int i = 0; i < 400; i++) {
        xy[2 * i] = 1000.0 * chance();
        xy[2 * i + 1] = 300.0 * chance();
    }
    expect_delaunay(xy, 400, false);
    for (int i = 0; i < 400; i++) { // a grid: four points on each circle
        xy[2 * i] = 10.0 * (i % 20);
        xy[2 * i + 1] = 10.0 * (i / 20);
    }
    expect_delaunay(xy, 400, true);
    for (int i = 0; i < 400; i++) { // the same, turned
        const double x = 10.0 * (i % 20), y = 10.0 * (i / 20);
        xy[2 * i] = 0.8 * x - 0.6 * y;
        xy[2 * i + 1] = 0.6 * x + 0.8 * y;
    }
    expect_delaunay(xy, 400, true);
    bys_triangles t;
    const double line[] = {0, 0, 1, 1, 2, 2, 5, 5}, twice[] = {3, 4, 3, 4, 3, 4};
    ck_assert_int_eq(bys_delaunay(&t, line, 4), 1);
    ck_assert_int_eq(bys_delaunay(&t, twice, 3), 1);
    ck_assert_int_eq(bys_delaunay(&t, line, 0), 1);
}
END_TEST

static double plane(double x, double y)
{
    return -15.0 - 0.03 * x + 0.02 * y;
}

/// A plane point by point is the plane: height, slope, no bend. [derived]
static void expect_plane(const bys_bed_map *map, double reach)
{
    int inside = 0;
    for (int i = 0; i < 2000; i++) {
        const double x = reach * (2.2 * chance() - 1.1), y = reach * (2.2 * chance() - 1.1);
        double slope[2], bend[3];
        if (bys_bed_map_beyond(map, x, y) > 0.0)
            continue;
        inside++;
        expect_abs(bys_bed_map_at(map, x, y, slope, bend), plane(x, y), 1e-10);
        expect_abs(slope[0], -0.03, 1e-10);
        expect_abs(slope[1], 0.02, 1e-10);
        for (int k = 0; k < 3; k++)
            expect_abs(bend[k], 0.0, 1e-9);
    }
    ck_assert_int_gt(inside, 500);
}

START_TEST(a_plane_stays_a_plane)
{
    static double xyz[3 * 600], z[41 * 41];
    const char *why;
    bys_arena *arena = bys_arena_new();
    for (int i = 0; i < 600; i++) {
        double *p = xyz + 3 * i;
        p[0] = 400.0 * chance() - 200.0;
        p[1] = 400.0 * chance() - 200.0;
        p[2] = plane(p[0], p[1]);
    }
    const bys_bed_map *map = bys_bed_map_soundings(arena, xyz, 600, &why);
    ck_assert_ptr_nonnull(map);
    expect_plane(map, 200.0);
    for (int k = 0; k < 41 * 41; k++)
        z[k] = plane(-200.0 + 10.0 * (k % 41), -200.0 + 10.0 * (k / 41));
    for (int k = 0; k < 41 * 41; k++) // holes, and a corner without data
        if (k % 97 == 3 || (k % 41 > 30 && k / 41 > 30))
            z[k] = NAN;
    map = bys_bed_map_grid(arena, -200.0, -200.0, 10.0, 41, 41, z);
    ck_assert_ptr_nonnull(map);
    expect_plane(map, 200.0);
    bys_arena_free(arena);
}
END_TEST

START_TEST(slopes_are_derivatives)
{
    static double z[31 * 31];
    bys_arena *arena = bys_arena_new();
    for (int k = 0; k < 31 * 31; k++)
        z[k] = -18.0 + sin(0.7 * (k % 31)) * cos(0.5 * (k / 31));
    const bys_bed_map *map = bys_bed_map_grid(arena, -75.0, -75.0, 5.0, 31, 31, z);
    for (int i = 0; i < 200; i++) {
        const double x = 148.0 * chance() - 74.0, y = 148.0 * chance() - 74.0, h = 1e-4;
        double slope[2], bend[3], east[2], west[2];
        bys_bed_map_at(map, x, y, slope, bend);
        const double dx = bys_bed_map_at(map, x + h, y, east, NULL) -
                          bys_bed_map_at(map, x - h, y, west, NULL);
        const double dy =
            bys_bed_map_at(map, x, y + h, NULL, NULL) - bys_bed_map_at(map, x, y - h, NULL, NULL);
        expect_abs(slope[0], dx / (2.0 * h), 1e-5); // differences, their own error
        expect_abs(slope[1], dy / (2.0 * h), 1e-5);
        if (fabs(remainder(x, 5.0)) > 2.0 * h) { // bends jump from step to step
            expect_abs(bend[0], (east[0] - west[0]) / (2.0 * h), 1e-6);
            expect_abs(bend[1], (east[1] - west[1]) / (2.0 * h), 1e-6);
        }
    }
    for (int k = 0; k < 31 * 31; k += 7) // through the nodes
        expect_abs(bys_bed_map_at(map, -75.0 + 5.0 * (k % 31), -75.0 + 5.0 * (k / 31), NULL, NULL),
                   z[k], 1e-12);
    bys_arena_free(arena);
}
END_TEST

START_TEST(beyond_is_told_by_how_far)
{
    const double xyz[] = {0, 0, -10, 100, 0, -12, 100, 100, -14, 0, 100, -12};
    const char *why;
    bys_arena *arena = bys_arena_new();
    const bys_bed_map *map = bys_bed_map_soundings(arena, xyz, 4, &why);
    ck_assert_ptr_nonnull(map);
    expect_abs(bys_bed_map_beyond(map, 50.0, 50.0), 0.0, 0.0);
    expect_abs(bys_bed_map_beyond(map, 100.0, 30.0), 0.0, 0.0);
    expect_abs(bys_bed_map_beyond(map, 112.0, 30.0), 12.0, 1e-12);
    expect_abs(bys_bed_map_beyond(map, 103.0, -4.0), 5.0, 1e-12); // 3, 4, 5 from the corner
    double z[25];
    for (int k = 0; k < 25; k++)
        z[k] = k == 12 ? NAN : -10.0; // the middle one of five by five has no data
    map = bys_bed_map_grid(arena, 0.0, 0.0, 10.0, 5, 5, z);
    expect_abs(bys_bed_map_beyond(map, 5.0, 5.0), 0.0, 0.0);
    expect_abs(bys_bed_map_beyond(map, 20.0, 21.0), 9.0, 1e-9); // up to y 30, where four have data
    expect_abs(bys_bed_map_beyond(map, 43.0, 44.0), 5.0, 1e-9);
    ck_assert_ptr_null(bys_bed_map_soundings(arena, xyz, 2, &why));
    ck_assert_ptr_nonnull(why);
    bys_arena_free(arena);
}
END_TEST

static reading with_bed(const char *bed)
{
    static char text[4000];
    snprintf(text, sizeof text,
             "<site xmlns='urn:byssus:site:1' name='bed, invented'><frame kind='local'/>"
             "<seabed>%s</seabed><layout><network id='N'>"
             "<point id='p' x='0 m' y='0 m' z='0 m' hold='xyz'/></network></layout></site>", bed);
    return read_text(text);
}

START_TEST(soil_by_place)
{
    reading r = with_bed("<plane depth='12 m'/><zone id='reef'><corner x='0 m' y='0 m'/>"
                         "<corner x='10 m' y='0 m'/><corner x='0 m' y='10 m'/>"
                         "<soil kind='rock'/></zone><soil kind='sand' thickness='1 m'/>"
                         "<soil kind='clay' undrained-strength='20 kPa'/>");
    expect_clean(&r, "zones");
    int count;
    ck_assert_str_eq(bys_bed_soils(&r.site->bed, 2.0, 2.0, &count)->kind, "rock");
    ck_assert_int_eq(count, 1);
    ck_assert_str_eq(bys_bed_soils(&r.site->bed, 8.0, 8.0, &count)->kind, "sand");
    ck_assert_int_eq(count, 2);
    close_reading(&r);
}
END_TEST

START_TEST(listed_soundings_and_their_datum)
{
    reading r = with_bed("<soundings values='heights' datum='mean sea level' zero='2 m'>"
                         "<sounding x='-50 m' y='-50 m' value='-12 m'/>"
                         "<sounding x='50 m' y='-50 m' value='-12 m'/>"
                         "<sounding x='0 m' y='50 m' value='-12 m'/></soundings>");
    expect_clean(&r, "soundings");
    // 12 m below a level that is 2 m above chart datum: 10 m below chart datum. [derived]
    expect_abs(bys_bed_z(&r.site->bed, 3.0, -4.0), -10.0, 1e-12);
    expect_abs(bys_bed_beyond(&r.site->bed, 0.0, -57.0), 7.0, 1e-12);
    ck_assert_uint_eq(count_code(&r, BYS_M_bed_read), 1);
    close_reading(&r);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("bed");
    TCase *tests = tcase_create("bed");
    tcase_add_test(tests, triangles_are_delaunay);
    tcase_add_test(tests, a_plane_stays_a_plane);
    tcase_add_test(tests, slopes_are_derivatives);
    tcase_add_test(tests, beyond_is_told_by_how_far);
    tcase_add_test(tests, soil_by_place);
    tcase_add_test(tests, listed_soundings_and_their_datum);
    suite_add_tcase(s, tests);
    return suite_run(s, NULL);
}
