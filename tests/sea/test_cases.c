// SPDX-License-Identifier: GPL-3.0-or-later
// The list of environments: what is crossed with what, names, return periods, profiles.
#include "design/hand_site.h"
#include "phys/phys.h"
#include "sea/sea.h"
#include "support/suite.h"

#include <string.h>

static hand_site hand;
static bys_environments list;
static bys_messages *messages;

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

static const bys_environment *named(const char *id)
{
    for (int i = 0; i < list.count; i++)
        if (strcmp(list.items[i].id, id) == 0)
            return &list.items[i];
    ck_abort_msg("no environment %s", id);
    return NULL;
}

static bool said(int code, bys_severity severity)
{
    for (size_t i = 0; i < bys_messages_count(messages); i++)
        if (bys_messages_at(messages, i)->code == code &&
            bys_messages_at(messages, i)->severity == severity)
            return true;
    return false;
}

static void add_wind_and_waves(void)
{
    hand.winds[0] = (bys_wind){
        .item = {.id = "w50"}, .years = 50.0, .speed = 25.0, .averaging = 600.0, .from = NAN};
    hand.waves[0] = (bys_waves){
        .item = {.id = "h50"}, .years = 50.0, .hs = 1.2, .tp = 4.0, .gamma = NAN, .from = NAN};
    hand.site.wind_count = hand.site.wave_count = 1;
}

// 8 directions x 2 levels x 1 combination, and slack water at both levels (counted by hand).
START_TEST(directions_times_levels)
{
    hand_site_make(&hand);
    ck_assert_int_eq(make(), BYS_OK);
    ck_assert_int_eq(list.count, 18);
    ck_assert_str_eq(list.items[0].id, "50y/000/LAT/w000");
    ck_assert_str_eq(list.items[7].id, "50y/315/LAT/w000");
    ck_assert_str_eq(list.items[8].id, "50y/000/HAT/w000");
    ck_assert_str_eq(list.items[16].id, "slack/LAT");
    ck_assert(list.items[15].demanded && !list.items[16].demanded);
    expect_close(list.items[8].sea.depth, 19.0, 1e-15);
    done();
}
END_TEST

START_TEST(names_are_shell_safe)
{
    hand_site_make(&hand);
    hand.site.directions = 16;
    hand.levels[1].item.id = "HAT and surge";
    ck_assert_int_eq(make(), BYS_OK);
    ck_assert_int_eq(list.count, 34);
    named("50y/022.5/HAT-and-surge/w000");
    for (int i = 0; i < list.count; i++)
        for (const char *c = list.items[i].id; *c; c++)
            ck_assert_msg(
                strchr("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789./_-", *c),
                "%s", list.items[i].id);
    for (int i = 0; i < list.count; i++)
        for (int k = 0; k < i; k++)
            ck_assert_str_ne(list.items[i].id, list.items[k].id);
    done();
}
END_TEST

START_TEST(fewer_directions_than_the_profile_asks)
{
    hand_site_make(&hand);
    hand.site.directions = 4;
    ck_assert_int_eq(make(), BYS_OK);
    ck_assert_int_eq(list.count, 18); // the profile's least number, 8
    done();
}
END_TEST

// Turns act on wind and waves only: without them they make nothing new.
START_TEST(turns_of_wind_and_waves)
{
    hand_site_make(&hand);
    hand.turns[0] = 0.0;
    hand.turns[1] = 0.5 * BYS_PI;
    hand.turns[2] = -0.5 * BYS_PI;
    hand.site.turn_count = 3;
    ck_assert_int_eq(make(), BYS_OK);
    ck_assert_int_eq(list.count, 18);
    done();
    add_wind_and_waves();
    ck_assert_int_eq(make(), BYS_OK);
    ck_assert_int_eq(list.count, 8 * 2 * 3 + 2);
    const bys_environment *e = named("50y/045/LAT/w270");
    expect_close(e->sea.current[0], sqrt(0.5), 1e-12);
    expect_close(e->sea.waves[0], -sqrt(0.5), 1e-12); // towards 315 deg
    expect_close(e->sea.wind[1], sqrt(0.5), 1e-12);
    done();
}
END_TEST

// 25 m/s as 10-min mean: 1-min mean 25 (1 + 0.047 ln 10) = 27.70554 m/s (DNV-RP-C205 2.3.2.11,
// memory).
START_TEST(wind_is_a_one_minute_mean)
{
    hand_site_make(&hand);
    add_wind_and_waves();
    ck_assert_int_eq(make(), BYS_OK);
    expect_close(list.items[0].sea.wind_speed, 27.70554, 1e-6);
    done();
}
END_TEST

START_TEST(a_stated_wind_direction_is_kept)
{
    hand_site_make(&hand);
    add_wind_and_waves();
    hand.winds[0].from = 225.0 * BYS_PI / 180.0;
    ck_assert_int_eq(make(), BYS_OK);
    ck_assert_int_eq(list.count, 18);
    const bys_environment *e = named("50y/090/LAT/f225");
    expect_close(e->sea.wind[0], sqrt(0.5), 1e-12);
    expect_close(e->sea.waves[1], sqrt(0.5), 1e-12); // waves go with the wind
    done();
}
END_TEST

// A current towards 25 deg within 5 deg, and its reverse: both directions are added to the eight,
// and in the others nothing acts.
START_TEST(a_sector_and_its_reverse)
{
    hand_site_make(&hand);
    hand.currents[0].towards = 25.0 * BYS_PI / 180.0;
    hand.currents[0].sector = 5.0 * BYS_PI / 180.0;
    hand.currents[0].reverses = true;
    ck_assert_int_eq(make(), BYS_OK);
    ck_assert_int_eq(list.count, 2 * 2 + 2);
    named("50y/025/LAT/w000");
    named("50y/205/HAT/w000");
    done();
    hand.currents[0].reverses = false;
    ck_assert_int_eq(make(), BYS_OK);
    ck_assert_int_eq(list.count, 1 * 2 + 2);
    done();
}
END_TEST

START_TEST(a_rarer_value_stands_in_and_is_flagged)
{
    hand_site_make(&hand);
    hand.currents[0].years = 100.0;
    hand.currents[0].speed = 0.8;
    hand.currents[1] = hand.currents[0];
    hand.currents[1].years = 200.0;
    hand.currents[1].speed = 0.9;
    hand.currents[2] = hand.currents[0];
    hand.currents[2].years = 10.0;
    hand.currents[2].speed = 0.3;
    hand.site.current_count = 3;
    ck_assert_int_eq(make(), BYS_OK);
    ck_assert(said(605, BYS_WARNING));
    expect_close(list.items[0].sea.current_speed, 0.8, 1e-15);
    done();
}
END_TEST

START_TEST(an_exact_return_period_is_not_flagged)
{
    hand_site_make(&hand);
    ck_assert_int_eq(make(), BYS_OK);
    ck_assert(!said(605, BYS_WARNING));
    ck_assert(said(609, BYS_WARNING)); // wind and waves are not stated at all
    done();
}
END_TEST

START_TEST(only_commoner_weather_is_a_fault)
{
    hand_site_make(&hand);
    hand.currents[0].years = 10.0;
    ck_assert_int_eq(make(), BYS_EINPUT);
    ck_assert(said(607, BYS_FAULT));
    ck_assert_int_eq(list.count, 0);
    done();
}
END_TEST

// Power profile, a = 1/7 (memory): mean = v0 7/8; at 5 m of 15 m depth v0 (10/15)^(1/7).
START_TEST(speeds_stated_elsewhere)
{
    hand_site_make(&hand);
    hand.currents[0].at = BYS_AT_MEAN;
    ck_assert_int_eq(make(), BYS_OK);
    expect_close(named("50y/000/LAT/w000")->sea.current_speed, 0.6 * 8.0 / 7.0, 1e-14);
    done();
    hand.currents[0].at = BYS_AT_DEPTH;
    hand.currents[0].at_depth = 5.0;
    ck_assert_int_eq(make(), BYS_OK);
    expect_close(named("50y/000/LAT/w000")->sea.current_speed, 0.6 / pow(10.0 / 15.0, 1.0 / 7.0),
                 1e-14);
    expect_close(named("50y/000/HAT/w000")->sea.current_speed, 0.6 / pow(14.0 / 19.0, 1.0 / 7.0),
                 1e-14);
    done();
}
END_TEST

START_TEST(waves_are_held_to_breaking)
{
    hand_site_make(&hand);
    add_wind_and_waves();
    hand.site.bed.depth = 1.0;
    ck_assert_int_eq(make(), BYS_OK);
    ck_assert(said(608, BYS_WARNING));
    expect_close(named("50y/000/LAT/w000")->sea.hs, bys_wave_breaking_height(4.0, 1.0), 1e-14);
    ck_assert(named("50y/000/HAT/w000")->sea.hs == 1.2); // 5 m of water
    done();
}
END_TEST

START_TEST(equal_combinations_are_listed_once)
{
    hand_site_make(&hand);
    hand.combinations[1] = hand.combinations[0];
    hand.combinations[1].item.id = "again";
    hand.site.rules.combination_count = 2;
    ck_assert_int_eq(make(), BYS_OK);
    ck_assert_int_eq(list.count, 18);
    done();
}
END_TEST

START_TEST(one_level_and_none)
{
    hand_site_make(&hand);
    hand.site.level_count = 1;
    ck_assert_int_eq(make(), BYS_OK);
    ck_assert_int_eq(list.count, 9);
    done();
    hand.site.level_count = 0;
    ck_assert_int_eq(make(), BYS_EINPUT);
    ck_assert(said(610, BYS_FAULT));
    done();
}
END_TEST

START_TEST(a_network_alone_is_still)
{
    bys_free_network network;
    hand_site_make(&hand);
    hand_site_without_lines(&hand, &network);
    hand.site.current_count = 0;
    ck_assert_int_eq(make(), BYS_OK);
    ck_assert_int_eq(list.count, 1);
    ck_assert_str_eq(list.items[0].id, "still");
    ck_assert(list.items[0].demanded && list.items[0].sea.level == INFINITY);
    done();
    hand.site.current_count = 1;
    hand.currents[0].towards = 0.5 * BYS_PI;
    hand.currents[0].years = NAN;
    ck_assert_int_eq(make(), BYS_OK);
    ck_assert_int_eq(list.count, 1);
    expect_close(list.items[0].sea.current[0], 1.0, 1e-15);
    expect_close(list.items[0].sea.current_speed, 0.6, 1e-15);
    done();
}
END_TEST

int main(void)
{
    Suite *s = suite_create("cases");
    suite_test(s, directions_times_levels);
    suite_test(s, names_are_shell_safe);
    suite_test(s, fewer_directions_than_the_profile_asks);
    suite_test(s, turns_of_wind_and_waves);
    suite_test(s, wind_is_a_one_minute_mean);
    suite_test(s, a_stated_wind_direction_is_kept);
    suite_test(s, a_sector_and_its_reverse);
    suite_test(s, a_rarer_value_stands_in_and_is_flagged);
    suite_test(s, an_exact_return_period_is_not_flagged);
    suite_test(s, only_commoner_weather_is_a_fault);
    suite_test(s, speeds_stated_elsewhere);
    suite_test(s, waves_are_held_to_breaking);
    suite_test(s, equal_combinations_are_listed_once);
    suite_test(s, one_level_and_none);
    suite_test(s, a_network_alone_is_still);
    return suite_run(s, NULL);
}
