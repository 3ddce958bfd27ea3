// SPDX-License-Identifier: GPL-3.0-or-later
// The list of places: names that a plotter can show, drop points, latitude and longitude.
#include "support/fake_design.h"
#include "support/suite.h"
#include "write/marks.h"

#include <math.h>
#include <string.h>

static const double degree = 0.017453292519943295;

START_TEST(corners_anchors_and_drop_points)
{
    bys_design *design = fake_design_new(&(fake_options){3, "pass", false});
    bys_marks marks;
    ck_assert(bys_marks_make(&marks, design));
    ck_assert_int_eq(marks.count, 4 + 6 + 1);
    ck_assert_str_eq(marks.items[0].name, "LEASE-1");
    ck_assert_str_eq(marks.items[4].name, "L01-N");
    ck_assert_str_eq(marks.items[10].name, "L01-S-D");
    ck_assert_int_eq((int)marks.items[10].kind, BYS_MARK_DROP);
    // L01/S: its pull leads along the heading, so that it is let go 20 m the other way. [derived]
    const bys_anchor_result *a = &design->anchors[1];
    const bys_mark *drop = bys_marks_anchor(&marks, 1, true);
    ck_assert_ptr_eq(drop, &marks.items[10]);
    expect_abs(drop->x_m, a->x_m - 20.0 * sin(a->heading_rad), 1e-12);
    expect_abs(drop->y_m, a->y_m - 20.0 * cos(a->heading_rad), 1e-12);
    ck_assert_ptr_eq(bys_marks_anchor(&marks, 1, false), &marks.items[5]);
    ck_assert_ptr_eq(bys_marks_anchor(&marks, 0, true), &marks.items[4]);
    // 112 m south of the middle of a lease that reaches 150 m from it. [derived]
    expect_abs(marks.items[5].lease_margin_m, 38.0, 1e-12);
    ck_assert(isnan(marks.items[0].lease_margin_m));
    bys_marks_free(&marks);
    fake_design_free(design);
}
END_TEST

START_TEST(names_are_short_and_differ)
{
    bys_design *design = fake_design_new(&(fake_options){4, "pass", false});
    const char *ids[] = {"R10-12/north/anchor", "R10-12/NE/anchor", "farm-anchor-at-the-rock-1",
                         "farm-anchor-at-the-rock-2", "farm-anchor-at-the-rock-3",
                         "\xC3\xA4/<&", "", "L05/N/anchor"};
    for (int i = 0; i < 8; i++) {
        design->anchors[i].id = ids[i];
        design->anchors[i].setback_m = 5.0;
    }
    bys_marks marks;
    ck_assert(bys_marks_make(&marks, design));
    ck_assert_int_eq(marks.count, 4 + 16);
    ck_assert_str_eq(marks.items[4].name, "R10-12-N");
    ck_assert_str_eq(marks.items[5].name, "R10-12-NE");
    ck_assert_str_eq(marks.items[6].name, "farm-anchor-");
    for (int i = 0; i < marks.count; i++) {
        ck_assert(strlen(marks.items[i].name) > 0 && strlen(marks.items[i].name) <= 12);
        for (const char *c = marks.items[i].name; *c; c++)
            ck_assert(*c == '-' || (*c >= '0' && *c <= '9') || (*c >= 'A' && *c <= 'Z') ||
                      (*c >= 'a' && *c <= 'z'));
        for (int k = 0; k < i; k++)
            ck_assert_str_ne(marks.items[i].name, marks.items[k].name);
    }
    bys_marks_free(&marks);
    fake_design_free(design);
}
END_TEST

START_TEST(places_on_the_earth)
{
    bys_frame frame = {.placed = true, .wgs84_lat_deg = 0.0, .wgs84_lon_deg = 10.0};
    double lat, lon, x, y;
    // On the equator a degree of longitude is a pi/180 = 111319.4908 m, a = 6378137 m. [derived]
    ck_assert(bys_frame_wgs84(&lat, &lon, &frame, 6378137.0 * degree, 0.0));
    expect_abs(lat, 0.0, 1e-12);
    expect_abs(lon, 11.0, 1e-11);
    // North along the meridian from the equator: radius of curvature a (1 - e2) = 6335439.327 m,
    // so that 100 m are 100 / 6335439.327 rad, to 1e-10 of it. [derived]
    ck_assert(bys_frame_wgs84(&lat, &lon, &frame, 0.0, 100.0));
    expect_abs(lat, 100.0 / 6335439.327 / degree, 1e-12);
    // A y axis that points east: 100 m along y are 100 m along the equator. [derived]
    frame.y_bearing_rad = 90.0 * degree;
    ck_assert(bys_frame_wgs84(&lat, &lon, &frame, 0.0, 100.0));
    expect_abs(lon, 10.0 + 100.0 / 6378137.0 / degree, 1e-12);
    frame.wgs84_lat_deg = -41.2;
    for (int i = 0; i < 8; i++) {
        const double x0 = 900.0 * sin(i), y0 = 700.0 * cos(2 * i);
        ck_assert(bys_frame_wgs84(&lat, &lon, &frame, x0, y0));
        ck_assert(bys_frame_from_wgs84(&x, &y, &frame, lat, lon));
        expect_abs(x, x0, 1e-7); // the reverse of itself, to the rounding of degrees [derived]
        expect_abs(y, y0, 1e-7);
    }
    frame.placed = false;
    ck_assert(!bys_frame_wgs84(&lat, &lon, &frame, 0.0, 0.0));
    ck_assert(isnan(lat) && isnan(lon));
}
END_TEST

int main(void)
{
    Suite *s = suite_create("marks");
    TCase *tests = tcase_create("marks");
    tcase_add_test(tests, corners_anchors_and_drop_points);
    tcase_add_test(tests, names_are_short_and_differ);
    tcase_add_test(tests, places_on_the_earth);
    suite_add_tcase(s, tests);
    return suite_run(s, NULL);
}
