// SPDX-License-Identifier: GPL-3.0-or-later
// Currents of several parts by height, and the mean of their square with waves at an angle.
#include "phys/phys.h"
#include "phys/sea_loads.h"
#include "sea/sea.h"
#include "support/suite.h"

static bys_arena *memory;

static bys_sea water(double depth)
{
    bys_sea sea = bys_sea_still(1025.0);
    sea.level = 3.0;
    sea.depth = depth;
    return sea;
}

static bys_sea made(double depth, const bys_current_parts *parts)
{
    bys_sea sea = water(depth);
    ck_assert(bys_sea_set_current(&sea, parts, memory));
    return sea;
}

/// Largest difference of the table from the relation over the depth, over the largest speed.
static double table_error(const bys_sea *sea, const bys_current_parts *parts)
{
    double worst = 0.0;
    for (int i = 0; i <= 5000; i++) {
        const double h = sea->depth * (0.005 + 1.1 * i / 5000.0);
        const bys_flow f = bys_sea_flow(sea, sea->level - sea->depth + h, 0);
        double v[2];
        bys_current_parts_at(v, NULL, parts, h, sea->depth);
        worst = fmax(worst, hypot(f.U * f.c[0] - v[0], f.U * f.c[1] - v[1]));
    }
    return worst / sea->current_speed;
}

// DNV-RP-C205 (2017) 4.1.4, as transcribed (memory): refs/loads 3, worked example, d 20 m, tide 0.8,
// wind 20 m/s, k 0.03. Digits as printed there.
START_TEST(tide_and_wind_add_as_published)
{
    bys_current_parts parts = {.exponent = 1.0 / 7.0, .tide = {0.0, 0.8}, .wind_depth = 50.0};
    parts.wind[1] = bys_current_wind_surface(20.0, 0.03);
    const bys_sea sea = made(20.0, &parts);
    const double want[4][2] = {{0.0, 1.40}, {-5.0, 1.308}, {-10.0, 1.205}, {-19.0, 0.893}};
    for (int i = 0; i < 4; i++)
        expect_abs(bys_sea_speed(&sea, 3.0 + want[i][0], NULL), want[i][1], 5.01e-4);
    ck_assert_double_lt(table_error(&sea, &parts), 1e-6);
}
END_TEST

// Derived: parts at right angles add as vectors and the direction turns with depth.
START_TEST(parts_at_an_angle_turn_with_depth)
{
    bys_current_parts parts = {.kind = BYS_PROFILE_LOG, .roughness = 6e-3, .tide = {0.9, 0.0}};
    parts.wind[1] = 0.5, parts.wind_depth = 8.0;
    const bys_sea sea = made(12.0, &parts);
    const bys_flow top = bys_sea_flow(&sea, 3.0, 0), low = bys_sea_flow(&sea, -5.5, 0);
    expect_close(top.U, hypot(0.9, 0.5), 1e-9);
    expect_close(sea.current[1] / sea.current[0], 0.5 / 0.9, 1e-9);
    expect_abs(low.c[1], 0.0, 1e-9); // below the wind-driven part
    // log law over its surface value, (memory): ln(h/z0)/ln(d/z0)
    expect_close(low.U, 0.9 * log(3.5 / 6e-3) / log(12.0 / 6e-3), 1e-6);
    ck_assert_double_lt(table_error(&sea, &parts), 1e-6);
}
END_TEST

// Derived: a table is kept with its corners.
START_TEST(stated_speeds_come_back)
{
    const double depth[4] = {0.0, 2.0, 6.0, 11.0}, speed[4] = {0.6, 0.7, 0.3, 0.1};
    bys_current_parts parts = {.kind = BYS_PROFILE_TABLE, .depths = depth, .speeds = speed};
    parts.points = 4, parts.tide[1] = 0.6;
    const bys_sea sea = made(14.0, &parts);
    for (int i = 0; i < 4; i++)
        expect_close(bys_sea_speed(&sea, 3.0 - depth[i], NULL), speed[i], 1e-7);
    expect_close(bys_sea_speed(&sea, 3.0 - 4.0, NULL), 0.5, 1e-7);
    expect_close(bys_sea_speed(&sea, 3.0 - 13.0, NULL), 0.1, 1e-7);
    ck_assert_double_lt(table_error(&sea, &parts), 1e-6);
}
END_TEST

START_TEST(no_current_has_no_profile)
{
    const bys_current_parts parts = {.exponent = 1.0 / 7.0};
    const bys_sea sea = made(9.0, &parts);
    ck_assert(!sea.profile && bys_sea_speed(&sea, 0.0, NULL) == 0.0);
}
END_TEST

// A power profile alone, as a table and as the relation itself.
START_TEST(table_and_relation_agree)
{
    const bys_current_parts parts = {.exponent = 1.0 / 7.0, .tide = {0.48, 0.64}};
    const bys_sea table = made(17.0, &parts);
    bys_sea plain = water(17.0);
    plain.current[0] = 0.6, plain.current[1] = 0.8;
    plain.current_speed = 0.8, plain.current_exponent = 1.0 / 7.0;
    for (double z = -13.9; z < 4.0; z += 0.17) {
        const bys_sea_square a = bys_sea_square_at(&table, z, 0);
        const bys_sea_square b = bys_sea_square_at(&plain, z, 0);
        for (int i = 0; i < 2; i++) {
            expect_abs(a.still[i], b.still[i], 2e-6);
            expect_abs(a.size[0] * a.way[0][i] + a.size[1] * a.way[1][i],
                       b.size[0] * b.way[0][i] + b.size[1] * b.way[1][i], 2e-6);
        }
    }
}
END_TEST

static bys_sea rough(double turn)
{
    bys_current_parts parts = {.exponent = 1.0 / 7.0, .tide = {0.3, 0.4}, .wind = {0.2, -0.1}};
    parts.wind_depth = 50.0;
    bys_sea sea = made(15.0, &parts);
    sea.hs = 1.2, sea.tp = 4.0;
    sea.waves[0] = sin(turn), sea.waves[1] = cos(turn);
    bys_sea_prepare(&sea);
    return sea;
}

static void sum_of(double f[2], double df[2], const bys_sea *sea, double z)
{
    const bys_sea_square q = bys_sea_square_at(sea, z, 0);
    for (int i = 0; i < 2; i++)
        f[i] = df[i] = 0.0;
    for (int k = 0; k < q.count; k++)
        for (int i = 0; i < 2; i++) {
            f[i] += q.size[k] * q.way[k][i];
            df[i] += q.slope[k] * q.way[k][i];
        }
}

START_TEST(squares_and_their_slopes_agree)
{
    for (int k = 0; k < 8; k++) {
        const bys_sea sea = rough(0.8 * k);
        for (double z = -11.3; z < 2.9; z += 0.71) {
            double f[2], df[2], up[2], down[2], none[2];
            sum_of(f, df, &sea, z);
            sum_of(up, none, &sea, z + 1e-5);
            sum_of(down, none, &sea, z - 1e-5);
            for (int i = 0; i < 2; i++)
                expect_abs(df[i], (up[i] - down[i]) / 2e-5, 1e-6);
        }
    }
}
END_TEST

// Waves along the current or against it: the closed form of phys/drag.c (derived); waves 1e-6 rad off
// go through the vector form and must not jump.
START_TEST(turning_waves_do_not_jump)
{
    bys_sea sea = water(15.0);
    sea.current_speed = 0.5, sea.current_exponent = 1.0 / 7.0;
    sea.hs = 1.2, sea.tp = 4.0;
    bys_sea_prepare(&sea);
    double still[2], turned[2], none[2];
    sum_of(still, none, &sea, 1.0);
    for (int k = 0; k < 2; k++) {
        const double a = k * BYS_PI + 1e-6;
        sea.waves[0] = sin(a), sea.waves[1] = cos(a);
        sum_of(turned, none, &sea, 1.0);
        expect_abs(turned[1], still[1], 1e-7);
        expect_abs(turned[0], 0.0, 1e-6);
    }
}
END_TEST

// Square to the current the waves still raise the drag along it, by less (derived: the mean of
// |w| is larger than |U|, and the whole force is never larger than in line).
START_TEST(waves_across_add_less)
{
    bys_sea sea = water(15.0);
    sea.current_speed = 0.5;
    sea.hs = 1.2, sea.tp = 4.0;
    bys_sea_prepare(&sea);
    double in_line[2], across[2], none[2];
    sum_of(in_line, none, &sea, 2.5);
    sea.waves[0] = 1.0, sea.waves[1] = 0.0;
    sum_of(across, none, &sea, 2.5);
    ck_assert_double_gt(across[1], 0.25);
    ck_assert_double_lt(across[1], in_line[1]);
    expect_abs(across[0], 0.0, 1e-12);
    const bys_sea_square q = bys_sea_square_at(&sea, 2.5, 0);
    expect_close(q.still[1], 0.25, 1e-14); // the share of the current: U|U|
}
END_TEST

START_TEST(shelter_slows_the_current_only)
{
    bys_sea sea = rough(1.0);
    const double shade[2] = {1.0, 0.7};
    const double open = bys_sea_speed(&sea, 0.0, NULL);
    sea.shade = shade, sea.shade_count = 2;
    expect_close(bys_sea_flow(&sea, 0.0, 2).U, 0.7 * open, 1e-14);
    ck_assert(bys_sea_flow(&sea, 0.0, 0).U == open && bys_sea_flow(&sea, 0.0, 1).U == open &&
              bys_sea_flow(&sea, 0.0, 3).U == open);
}
END_TEST

int main(void)
{
    memory = bys_arena_new();
    Suite *s = suite_create("flow");
    suite_test(s, tide_and_wind_add_as_published);
    suite_test(s, parts_at_an_angle_turn_with_depth);
    suite_test(s, stated_speeds_come_back);
    suite_test(s, no_current_has_no_profile);
    suite_test(s, table_and_relation_agree);
    suite_test(s, squares_and_their_slopes_agree);
    suite_test(s, turning_waves_do_not_jump);
    suite_test(s, waves_across_add_less);
    suite_test(s, shelter_slows_the_current_only);
    const int failed = suite_run(s, NULL);
    bys_arena_free(memory);
    return failed;
}
