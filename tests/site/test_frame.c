// SPDX-License-Identifier: GPL-3.0-or-later
// Frames: ground metres from projected positions and from latitude and longitude, convergence,
// scale, datums that differ.
#include "reading.h"
#include "base/codes.h"

#include <math.h>
#include <stdlib.h>

static const double degree = 0.017453292519943295;

static reading site_with(const char *frame, const char *lease, const char *point)
{
    char text[3000];
    snprintf(text, sizeof text,
             "<site xmlns='urn:byssus:site:1' name='frames, invented'>%s<lease %s</lease>"
             "<layout><network id='N'><point id='p' %s z='0 m' hold='xyz'/></network></layout>"
             "</site>", frame, lease, point);
    return read_text(text);
}

static const char *const north_island =
    ">"
    "<corner x='1600000 m' y='5440000 m'/><corner x='1600000 m' y='5441000 m'/>"
    "<corner x='1601000 m' y='5441000 m'/>";

// On the central meridian of EPSG:2193 (New Zealand Transverse Mercator 2000: meridian 173 deg,
// scale 0.9996, false easting 1600 km; LINZS25002 [memory]) 1000 m of the grid are 1000/0.9996 m of
// ground, and grid north is true north. A kilometre off it the scale is larger by 1/2 (1/R)^2 =
// 1.2e-8. [derived]
START_TEST(scale_is_taken_out)
{
    reading r = site_with("<frame kind='projected' epsg='2193'/>", north_island,
                          "x='1600000 m' y='5440500 m'");
    expect_clean(&r, "projected");
    const bys_frame *f = &r.site->frame;
    ck_assert_str_eq(f->kind, "projected");
    ck_assert_int_eq(f->epsg, 2193);
    ck_assert_str_eq(f->datum, "NZGD2000");
    expect_abs(f->scale, 0.9996, 1e-9);
    expect_abs(f->convergence_rad, 0.0, 1e-9);
    expect_abs(f->easting_m, 1600000.0, 1e-6);
    expect_abs(r.site->lease_x[0], 0.0, 1e-6);
    expect_abs(r.site->lease_y[1], 1000.0 / 0.9996, 1e-5);
    expect_abs(r.site->lease_x[1], 0.0, 1e-6);
    // seen from corner 1: east by 1000/0.9996, to 4e-9 of it and the grid's own curvature
    expect_abs(r.site->lease_x[2], 1000.0 / 0.9996, 1e-3);
    ck_assert_uint_eq(count_code(&r, BYS_M_frame_lies), 1);
    close_reading(&r);
}
END_TEST

// Half a degree east of the central meridian: Transverse Mercator convergence
// dl sin(lat) (1 + dl^2 cos^2(lat) (1 + 3 n)/3), n = e'^2 cos^2(lat), e'^2 = 0.0067395 (GRS 80)
// [memory]; negative in the south: grid north lies west of true north there.
START_TEST(convergence_is_applied)
{
    static const char *const points =
        "><corner lat='-41.2 deg' lon='173.5 deg'/><corner lat='-41.19 deg' lon='173.5 deg'/>"
        "<corner lat='-41.19 deg' lon='173.51 deg'/>";
    const double phi = -41.2 * degree, dl = 0.5 * degree, c2 = cos(phi) * cos(phi);
    const double wanted = dl * sin(phi) * (1.0 + dl * dl * c2 * (1.0 + 3.0 * 0.0067395 * c2) / 3.0);
    reading grid = site_with("<frame kind='projected' epsg='2193'/>", points,
                             "lat='-41.195 deg' lon='173.5 deg'");
    expect_clean(&grid, "grid north");
    expect_abs(grid.site->frame.convergence_rad, wanted, 1e-8);
    expect_abs(grid.site->frame.y_bearing_rad, wanted, 1e-8);
    // corner 2 lies true north of corner 1: seen from grid north it bears -convergence
    expect_abs(atan2(grid.site->lease_x[1], grid.site->lease_y[1]), -wanted, 1e-8);
    const double away = hypot(grid.site->lease_x[1], grid.site->lease_y[1]);
    close_reading(&grid);
    reading real = site_with("<frame kind='projected' epsg='2193' north='true'/>", points,
                             "lat='-41.195 deg' lon='173.5 deg'");
    expect_clean(&real, "true north");
    expect_abs(real.site->lease_x[1], 0.0, 1e-6);
    expect_abs(real.site->lease_y[1], away, 1e-6);
    close_reading(&real);
    reading plain = site_with("<frame kind='latlon' datum='NZGD2000'/>", points,
                              "lat='-41.195 deg' lon='173.5 deg'");
    expect_clean(&plain, "latlon");
    ck_assert_str_eq(plain.site->frame.north, "true");
    // 0.01 deg of latitude at 41.195 S on GRS 80: radius of curvature of the meridian
    // a (1 - e2)/(1 - e2 sin^2)^(3/2), a = 6378137 m, e2 = 0.00669438002 [memory]
    const double s = sin(-41.195 * degree), e2 = 0.00669438002;
    const double m = 6378137.0 * (1.0 - e2) / pow(1.0 - e2 * s * s, 1.5);
    expect_abs(plain.site->lease_y[1], m * 0.01 * degree, 1e-5);
    close_reading(&plain);
}
END_TEST

START_TEST(a_local_frame_with_an_origin)
{
    reading r = site_with("<frame kind='local' north='grid' datum='WGS 84' origin-lat='-41 deg' "
                          "origin-lon='173 deg' y-bearing='30 deg'/>",
                          "><corner x='0 m' y='0 m'/><corner x='100 m' y='0 m'/>"
                          "<corner lat='-41.001 deg' lon='173 deg'/>",
                          "x='5 m' y='6 m'");
    expect_clean(&r, "local");
    const bys_site *s = r.site;
    ck_assert(s->frame.placed);
    expect_abs(s->lease_x[1], 100.0, 0.0); // written in the plane: untouched
    double lat, lon;
    ck_assert(bys_frame_wgs84(&lat, &lon, &s->frame, s->lease_x[2], s->lease_y[2]));
    expect_abs(lat, -41.001, 1e-11);
    expect_abs(lon, 173.0, 1e-11);
    // true south of the origin: the y axis points to 030, so that it bears 150 from y
    expect_abs(atan2(s->lease_x[2], s->lease_y[2]), 150.0 * degree, 1e-9);
    close_reading(&r);
    r = site_with("<frame kind='local'/>", ">"
                  "<corner x='0 m' y='0 m'/><corner x='9 m' y='0 m'/><corner x='9 m' y='9 m'/>",
                  "x='5 m' y='6 m'");
    expect_clean(&r, "local without origin");
    ck_assert(!r.site->frame.placed);
    close_reading(&r);
}
END_TEST

// GDA94 and GDA2020 differ by the drift of the continent, 26 years at 70 mm a year in
// the north-west: 1.8 m (ICSM, GDA2020 Technical Manual [memory]).
START_TEST(two_datums_are_told_apart)
{
    static const char *const corners =
        "><corner lat='-18 deg' lon='122 deg'/><corner lat='-18 deg' lon='122.01 deg'/>"
        "<corner lat='-18.01 deg' lon='122 deg'/>";
    char named[300];
    snprintf(named, sizeof named, "datum='GDA94' %s", corners);
    reading r = site_with("<frame kind='latlon' datum='GDA2020'/>", named,
                          "lat='-18 deg' lon='122 deg'");
    expect_clean(&r, "two datums");
    ck_assert_uint_eq(count_code(&r, BYS_M_datum_differs), 1);
    const char *apart = strstr(all_messages(&r), " m apart");
    ck_assert_ptr_nonnull(apart);
    while (apart[-1] != ' ')
        apart--;
    expect_abs(strtod(apart, NULL), 1.8, 0.1);
    // the point is stated with the same numbers on the frame's own datum
    const double *p = r.site->networks[0].points[0].x;
    expect_abs(hypot(p[0] - r.site->lease_x[0], p[1] - r.site->lease_y[0]), strtod(apart, NULL),
               0.006);
    close_reading(&r);
    snprintf(named, sizeof named, "datum='EPSG:7844' %s", corners);
    r = site_with("<frame kind='latlon' datum='GDA2020'/>", named, "lat='-18 deg' lon='122 deg'");
    expect_clean(&r, "one datum, named twice");
    ck_assert_uint_eq(count_code(&r, BYS_M_datum_differs), 0);
    close_reading(&r);
}
END_TEST

// The echo of inputs shows what was written and nothing else.
START_TEST(echo_holds_what_was_written)
{
    reading r = site_with("<frame kind='latlon' datum='WGS 84'/>",
                          "><corner lat='1 deg' lon='2 deg'/><corner lat='1 deg' lon='2.01 deg'/>"
                          "<corner lat='1.01 deg' lon='2 deg'/>", "lat='1 deg' lon='2 deg'");
    expect_clean(&r, "echo");
    for (int i = 0; i < r.site->echo_count; i++) {
        ck_assert(*r.site->echo[i].text);
        ck_assert_ptr_null(strstr(r.site->echo[i].path, "corner/x"));
    }
    close_reading(&r);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("frame");
    TCase *tests = tcase_create("frame");
    tcase_add_test(tests, scale_is_taken_out);
    tcase_add_test(tests, convergence_is_applied);
    tcase_add_test(tests, a_local_frame_with_an_origin);
    tcase_add_test(tests, two_datums_are_told_apart);
    tcase_add_test(tests, echo_holds_what_was_written);
    suite_add_tcase(s, tests);
    return suite_run(s, NULL);
}
