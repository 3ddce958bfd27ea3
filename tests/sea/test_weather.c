// SPDX-License-Identifier: GPL-3.0-or-later
// From stated weather to environments: forms of a current, levels, parts, waves grown from wind, cases
// added and left out.
#include "base/codes.h"
#include "design/hand_site.h"
#include "phys/phys.h"
#include "phys/sea_loads.h"
#include "sea/sea.h"
#include "support/suite.h"

#include <stdio.h>
#include <string.h>

static hand_site hand;
static bys_environments list;
static bys_messages *messages;
static const double degree = BYS_PI / 180.0;

static bys_rc make(void)
{
    bys_error err = {0};
    bys_messages_new(&messages);
    return bys_environments_make(&list, &hand.site, messages, &err);
}

static void done(void)
{
    bys_environments_free(&list);
    bys_messages_free(messages);
}

static const bys_environment *find(const char *id)
{
    for (int i = 0; i < list.count; i++)
        if (strcmp(list.items[i].id, id) == 0)
            return &list.items[i];
    return NULL;
}

static const bys_environment *named(const char *id)
{
    const bys_environment *e = find(id);
    ck_assert_msg(e != NULL, "no environment %s", id);
    return e;
}

static bool said(int code)
{
    for (size_t i = 0; i < bys_messages_count(messages); i++)
        if (bys_messages_at(messages, i)->code == code)
            return true;
    return false;
}

static void add_wind(bys_wind_law law)
{
    hand.winds[0] = (bys_wind){.item = {.id = "w50"}, .years = 50.0, .speed = 20.0,
                               .averaging = 3600.0, .from = NAN, .law = law};
    hand.site.wind_count = 1;
}

// Log law (memory): surface over mean = ln(d/z0)/(ln(d/z0) - 1 + z0/d); 15 m at LAT, z0 6 mm.
START_TEST(a_mean_over_a_log_profile)
{
    hand_site_make(&hand);
    hand.currents[0].at = BYS_AT_MEAN, hand.currents[0].profile = BYS_PROFILE_LOG;
    hand.currents[0].roughness = NAN, hand.currents[0].rough_bed = BYS_ROUGH_RIPPLED_SAND;
    ck_assert_int_eq(make(), BYS_OK);
    const bys_environment *e = named("50y/045/LAT/w000");
    const double top = log(15.0 / 6e-3);
    expect_close(e->sea.current_speed, 0.6 * top / (top - 1.0 + 6e-3 / 15.0), 1e-9);
    expect_close(e->sea.current[0], sin(45.0 * degree), 1e-12);
    done();
}
END_TEST

// A table scaled so that its mean is the stated one (derived): 0 m 2, 15 m 1 -> mean 1.5.
START_TEST(a_mean_over_a_table)
{
    static double depth[2] = {0.0, 15.0}, speed[2] = {2.0, 1.0};
    hand_site_make(&hand);
    hand.currents[0].at = BYS_AT_MEAN, hand.currents[0].profile = BYS_PROFILE_TABLE;
    hand.currents[0].depths = depth, hand.currents[0].speeds = speed;
    hand.currents[0].layer_count = 2;
    ck_assert_int_eq(make(), BYS_OK);
    const bys_sea *sea = &named("50y/000/LAT/w000")->sea;
    expect_close(bys_sea_speed(sea, 0.0, NULL), 0.6 * 2.0 / 1.5, 1e-9);
    expect_close(bys_sea_speed(sea, -7.5, NULL), 0.6, 1e-7);
    done();
}
END_TEST

START_TEST(flood_ebb_and_slack_come_with_their_levels)
{
    hand_site_make(&hand);
    hand.levels[0].item.id = "low", hand.levels[1].item.id = "high";
    hand.currents[0].towards = 0.0, hand.currents[0].sector = 0.0;
    hand.currents[0].level = "high";
    hand.site.directions = 4, hand.site.rules.min_directions = 4;
    add_wind(BYS_WIND_DNV);
    ck_assert_int_eq(make(), BYS_OK);
    expect_close(named("50y/000/high/w000")->sea.current_speed, 0.6, 1e-12);
    ck_assert(named("50y/000/low/w000")->sea.current_speed == 0.0);
    ck_assert(named("50y/000/low/w000")->sea.wind_speed > 0.0);
    done();
}
END_TEST

// Derived: tide to the north 0.6, residual to the east 0.2, wind drift 3 % of 20 m/s along the wind.
START_TEST(parts_of_a_current_add_as_vectors)
{
    hand_site_make(&hand);
    add_wind(BYS_WIND_DNV);
    hand.site.residual = (bys_residual){.speed = 0.2, .towards = 90.0 * degree};
    hand.site.has_residual = true;
    hand.site.wind_drift = (bys_wind_drift){.share = 0.03, .depth = 50.0};
    hand.site.has_wind_drift = true;
    ck_assert_int_eq(make(), BYS_OK);
    const bys_sea *sea = &named("50y/000/LAT/w000")->sea;
    expect_close(sea->current_speed, hypot(0.2, 0.6 + 0.03 * 20.0), 1e-9);
    const bys_flow low = bys_sea_flow(sea, -7.5, 0);
    const double f = pow(0.5, 1.0 / 7.0), w = 0.6 * (1.0 - 7.5 / 50.0);
    expect_close(low.U * low.c[0], 0.2 * f, 1e-6);
    expect_close(low.U * low.c[1], 0.6 * f + w, 1e-6);
    done();
}
END_TEST

// Two published laws of averaging from a 1-h mean of 20 m/s. ISO/NPD (read as reprinted): 60 s 23.75;
// 60 s at 3 m follows from the same law. DNV (memory): 1 h is 0.916 of 10 min.
START_TEST(wind_by_two_laws)
{
    hand_site_make(&hand);
    add_wind(BYS_WIND_ISO);
    hand.site.wind_averaging = 60.0;
    ck_assert_int_eq(make(), BYS_OK);
    const bys_sea *sea = &named("50y/000/LAT/w000")->sea;
    expect_abs(sea->wind_speed, 23.75, 5.01e-3);
    expect_close(bys_sea_wind_at(sea, 3.0), bys_wind_npd(20.0, 3.0, 60.0), 1e-9);
    done();
    hand.winds[0].law = BYS_WIND_DNV;
    ck_assert_int_eq(make(), BYS_OK);
    const double ten = 20.0 / bys_wind_dnv(1.0, 10.0, 3600.0);
    expect_close(named("50y/000/LAT/w000")->sea.wind_speed, bys_wind_dnv(ten, 10.0, 60.0), 1e-12);
    done();
}
END_TEST

// The inverse of the averaging law (derived).
START_TEST(hourly_wind_comes_back)
{
    const double times[4] = {3.0, 60.0, 600.0, 3600.0};
    for (int i = 0; i < 4; i++)
        for (double u = 5.0; u < 50.0; u += 7.0)
            expect_close(bys_wind_npd_hourly(bys_wind_npd(u, 10.0, times[i]), times[i]), u, 1e-12);
}
END_TEST

static void add_fetch(void)
{
    static double from[2] = {0.0, 180.0 * BYS_PI / 180.0}, length[2] = {5e3, 2e4};
    static double depths[2] = {5.0, 10.0};
    hand.site.grown = (bys_grown_waves){.laws = {0, 1, 2, 3, 4}, .law_count = 5, .depth = NAN,
                                        .duration = NAN, .spreading = NAN, .from = from,
                                        .length = length, .depths = depths, .fetch_count = 2};
    hand.site.has_grown = true;
}

// refs/loads 5.1, cross-comparison (calc from transcribed laws, memory): U10 20 m/s, 5 km, 5 m deep and
// 20 km, 10 m deep; digits as printed there. Each law is a case of its own.
START_TEST(each_growth_law_is_a_case)
{
    static const struct { const char *law; double hs[2], tp[2]; } want[5] = {
        {"cem", {0.79, 1.58}, {2.30, 3.65}},       {"cem-751", {0.79, 1.58}, {2.65, 4.21}},
        {"spm84", {0.89, 1.69}, {2.98, 4.53}},     {"young-verhagen", {0.66, 1.27}, {3.35, 4.78}},
        {"jonswap", {0.72, 1.44}, {2.85, 4.50}},
    };
    hand_site_make(&hand);
    add_wind(BYS_WIND_DNV);
    add_fetch();
    ck_assert_int_eq(make(), BYS_OK);
    for (int i = 0; i < 5; i++)
        for (int k = 0; k < 2; k++) { // wind towards 180: from 0 deg; towards 0: from 180 deg
            char id[64];
            snprintf(id, sizeof id, "50y/%s/LAT/w000-%s", k ? "000" : "180", want[i].law);
            const bys_environment *e = named(id);
            // the notes computed with g = 9.81
            expect_abs(e->sea.hs * sqrt(BYS_G / 9.81), want[i].hs[k], 5.1e-3);
            expect_abs(e->sea.tp, want[i].tp[k], 5.1e-3);
            expect_close(e->fetch, k ? 2e4 : 5e3, 1e-12);
            ck_assert(e->sea.reflection > 0.0 && e->demanded);
        }
    // half way round: the straight line between the two fetches
    expect_close(named("50y/090/LAT/w000-cem")->fetch, 12.5e3, 1e-12);
    ck_assert(!find("50y/090/LAT/w000")); // no case without the waves of the wind
    done();
}
END_TEST

// CEM II-2-38 (read): a blow of 20 min at 20 m/s raises no more than its own fetch.
START_TEST(a_short_blow_has_a_short_fetch)
{
    hand_site_make(&hand);
    add_wind(BYS_WIND_DNV);
    add_fetch();
    hand.site.grown.duration = 1200.0;
    ck_assert_int_eq(make(), BYS_OK);
    expect_close(named("50y/000/LAT/w000-cem")->fetch, bys_fetch_of_duration_cem(20.0, 1200.0),
                 1e-9);
    done();
}
END_TEST

// Derived: a square shore 2 km to each side.
START_TEST(fetch_from_a_shore)
{
    static double ring[4][2] = {{-2e3, -2e3}, {-2e3, 2e3}, {2e3, 2e3}, {2e3, -2e3}};
    static size_t end[1] = {4};
    hand_site_make(&hand);
    add_wind(BYS_WIND_DNV);
    add_fetch();
    hand.site.grown.fetch_count = 0;
    hand.site.grown.shore = ring, hand.site.grown.ring_end = end, hand.site.grown.ring_count = 1;
    hand.site.grown.limit = 3e4;
    ck_assert_int_eq(make(), BYS_OK);
    expect_close(named("50y/000/LAT/w000-cem")->fetch, 2e3, 1e-2); // the site lies near the middle
    expect_close(named("50y/045/LAT/w000-cem")->fetch, 2e3 * sqrt(2.0), 1e-2);
    done();
}
END_TEST

static void change_cases(bys_own_case *own, bys_drop *drops, int drop_count)
{
    hand.site.own_cases = own, hand.site.own_case_count = own ? 1 : 0;
    hand.site.drops = drops, hand.site.drop_count = drop_count;
}

START_TEST(own_cases_are_added_once)
{
    bys_own_case own = {.item = {.id = "ferry"}, .because = "wash", .level = "LAT", .hs = 0.4,
                        .tp = 3.0, .waves_from = 0.5, .demanded = true};
    hand_site_make(&hand);
    change_cases(&own, NULL, 0);
    ck_assert_int_eq(make(), BYS_OK);
    ck_assert_int_eq(list.count, 19);
    const bys_environment *e = named("own/ferry");
    ck_assert(e->demanded && e->sea.hs == 0.4 && strcmp(e->because, "wash") == 0);
    expect_close(e->sea.waves[0], -sin(0.5), 1e-12);
    done();
    // the same water as a case that is there already: not added
    own = (bys_own_case){.item = {.id = "again"}, .because = "x", .level = "LAT", .current = 0.6,
                         .demanded = true};
    ck_assert_int_eq(make(), BYS_OK);
    ck_assert_int_eq(list.count, 18);
    done();
}
END_TEST

START_TEST(dropped_cases_are_left_out)
{
    bys_drop drops[3] = {{.pattern = "50y/*/LAT/*"}, {.pattern = "50y/045/HAT/w000:harvest"},
                         {.pattern = "slack/*"}};
    hand_site_make(&hand);
    change_cases(NULL, drops, 2);
    ck_assert_int_eq(make(), BYS_OK);
    ck_assert_int_eq(list.count, 10); // 8 at HAT, two slack
    ck_assert_int_eq(bys_case_dropped(&hand.site, "50y/045/HAT/w000", "harvest"), 1);
    ck_assert_int_eq(bys_case_dropped(&hand.site, "50y/045/HAT/w000", "bare"), -1);
    done();
    drops[0].pattern = "50y/*/MSL/*";
    ck_assert_int_eq(make(), BYS_EINPUT);
    ck_assert(said(BYS_M_drop_nothing));
    done();
    change_cases(NULL, drops + 2, 1); // slack water stays
    ck_assert_int_eq(make(), BYS_EINPUT);
    done();
}
END_TEST

// Diffraction of small floats is negligible for ka < 0.3 (judgement, refs/loads 6.3).
START_TEST(large_floats_in_short_waves_are_told)
{
    hand_site_make(&hand);
    hand.waves[0] = (bys_waves){.item = {.id = "h50"}, .years = 50.0, .hs = 0.3, .tp = 2.0,
                                .gamma = NAN, .from = NAN};
    hand.site.wave_count = 1;
    const double k = bys_wave_number(BYS_PI, 15.0);
    hand.buoy.u.buoy.diameter = 2.0 * 0.29 / k;
    hand.site.parts = &hand.buoy, hand.site.part_count = 1;
    ck_assert_int_eq(make(), BYS_OK);
    ck_assert(!said(BYS_M_float_not_small));
    done();
    hand.buoy.u.buoy.diameter = 2.0 * 0.31 / k;
    ck_assert_int_eq(make(), BYS_OK);
    ck_assert(said(BYS_M_float_not_small));
    done();
}
END_TEST

int main(void)
{
    Suite *s = suite_create("weather");
    suite_test(s, a_mean_over_a_log_profile);
    suite_test(s, a_mean_over_a_table);
    suite_test(s, flood_ebb_and_slack_come_with_their_levels);
    suite_test(s, parts_of_a_current_add_as_vectors);
    suite_test(s, wind_by_two_laws);
    suite_test(s, hourly_wind_comes_back);
    suite_test(s, each_growth_law_is_a_case);
    suite_test(s, a_short_blow_has_a_short_fetch);
    suite_test(s, fetch_from_a_shore);
    suite_test(s, large_floats_in_short_waves_are_told);
    suite_test(s, own_cases_are_added_once);
    suite_test(s, dropped_cases_are_left_out);
    return suite_run(s, NULL);
}
