// SPDX-License-Identifier: GPL-3.0-or-later
// Reflected drift on known hulls, spreading, splash zone; shelter within a block and behind a raft.
#include "design/hand_site.h"
#include "lease/network.h"
#include "phys/phys.h"
#include "phys/sea_loads.h"
#include "sea/hulls.h"
#include "support/suite.h"

static bys_arena *memory;

static bys_sea rough(double depth, double hs, double tp, double gamma)
{
    bys_sea sea = bys_sea_still(1025.0);
    sea.level = 0.0, sea.depth = depth;
    sea.hs = hs, sea.tp = tp, sea.gamma = gamma;
    bys_sea_prepare(&sea);
    return sea;
}

// refs/loads 6.3, another solver (calc): mean drift in N/m for (hs, tp, h, draft, breadth), JONSWAP 3.3.
// Its spectrum stops at 4 wp and is 1 to 3 % low for that; the tail is in here.
START_TEST(drift_of_a_known_hull)
{
    static const double row[4][6] = {{1.0, 3.5, 10.0, 0.5, 2.0, 287.0},
                                     {1.0, 3.5, 10.0, 0.3, 1.0, 131.0},
                                     {2.0, 6.0, 20.0, 0.5, 5.0, 742.0},
                                     {0.5, 2.5, 5.0, 0.3, 0.6, 54.0}};
    for (int i = 0; i < 4; i++) {
        bys_sea sea = rough(row[i][2], row[i][0], row[i][1], 3.3);
        bys_hull_list list = {.draft = {row[i][3]}, .breadth = {row[i][4]}, .count = 1};
        static bys_hull_tables tables;
        tables.depth = 0.0;
        ck_assert(bys_hulls_put(&sea, &tables, &list, memory));
        const double share = bys_sea_reflected(&sea, row[i][3], row[i][4]);
        ck_assert(share > 0.0 && share < 1.0);
        expect_close(sea.reflection * share, row[i][5], 0.04);
        ck_assert_double_ge(sea.reflection * share, row[i][5] * 0.999);
        expect_close(bys_sea_reflected(&sea, row[i][3], 99.0), 1.0, 0.0); // not known: all
    }
}
END_TEST

// Mean of cos^2 over cos^n: (n + 1)/(n + 2), .75 and .833 (refs/loads 5.2, derived); the series of eight
// terms is within 2e-4.
START_TEST(spreading_lowers_the_drift_square_on)
{
    const double n[3] = {2.0, 4.0, 10.0};
    for (int i = 0; i < 3; i++) {
        bys_sea sea = bys_sea_still(1025.0);
        sea.level = 0.0, sea.depth = 12.0;
        sea.hs = 1.0, sea.tp = 4.0, sea.spreading = n[i];
        bys_sea_prepare(&sea);
        double slope, up, down, none;
        expect_abs(bys_sea_facing(&sea, 1.0, &slope), (n[i] + 1.0) / (n[i] + 2.0), 2e-4);
        expect_abs(bys_sea_facing(&sea, 0.0, &slope), 0.0, 1e-12);
        expect_abs(bys_sea_facing(&sea, -0.6, &none), -bys_sea_facing(&sea, 0.6, &slope), 1e-14);
        up = bys_sea_facing(&sea, 0.6 + 1e-6, &none);
        down = bys_sea_facing(&sea, 0.6 - 1e-6, &none);
        expect_abs(slope, (up - down) / 2e-6, 1e-7);
    }
    bys_sea sea = rough(12.0, 1.0, 4.0, 3.3);
    double slope;
    expect_close(bys_sea_facing(&sea, -0.6, &slope), -0.36, 1e-14);
    expect_close(slope, 1.2, 1e-14);
}
END_TEST

// refs/loads 6.4 (derived there): D .15, Cd 1.3, hs 1, Tz 2.73 s: 13.2 N a member.
START_TEST(splash_zone_force)
{
    const bys_sea sea = rough(50.0, 1.0, 2.73 / bys_jonswap_tz_over_tp(3.3), 3.3);
    expect_abs(sea.splash * 1.3 * 0.15, 13.2, 0.06);
    expect_close(bys_sea_scaled(&sea, 0.5).splash, 0.5 * sea.splash, 1e-14);
    ck_assert(bys_sea_only(&sea, BYS_SEA_CURRENT | BYS_SEA_WIND).splash == 0.0);
}
END_TEST

// ---- shelter -------------------------------------------------------------------------------

static hand_site hand;
static bys_environments list;
static bys_messages *messages;
static bys_network *net;

static void open_block(int lines)
{
    hand_site_make(&hand);
    hand.block.lines = lines, hand.block.spacing = 20.0;
    hand.currents[0].shields = true;
    bys_messages_new(&messages);
    ck_assert_int_eq(bys_environments_make(&list, &hand.site, messages, NULL), BYS_OK);
    ck_assert_int_eq(bys_network_expand(&net, &hand.site, 1, messages, NULL), BYS_OK);
    ck_assert(bys_environments_shelter(&list, &net, 1));
}

static void close_block(void)
{
    bys_network_free(net);
    bys_environments_free(&list);
    bys_messages_free(messages);
}

static const bys_sea *towards(const char *id)
{
    for (int i = 0; i < list.count; i++)
        if (strcmp(list.items[i].id, id) == 0)
            return &list.items[i].sea;
    ck_abort_msg("no environment %s", id);
    return NULL;
}

static double factor_of(const bys_sea *sea, int line)
{
    for (int g = 0; g < net->gear_count; g++)
        if (net->gears[g].line == line)
            return bys_sea_shelter(sea, net->gears[g].shelter);
    return NAN;
}

/// Sum of Cd w over one line's length: K of one screen (derived).
static double screen_of_line(int line)
{
    double sum = 0.0;
    for (int g = 0; g < net->gear_count; g++)
        if (net->gears[g].line == line)
            sum += net->gears[g].count * net->gears[g].values->cd * net->gears[g].values->width;
    return sum / net->lines[line].length;
}

// Taylor 1944, Koo and James 1973 (memory): u/U = 1/(1 + K/4) with K of the lines before it; the other
// model (Plew 2011, memory) gives less shelter where its speed is higher, and then it counts.
START_TEST(lines_shelter_those_behind)
{
    open_block(6);
    const bys_sea *east = towards("50y/090/LAT/w000"), *west = towards("50y/270/LAT/w000");
    const double K = screen_of_line(0);
    ck_assert(K > 0.0 && factor_of(east, 0) == 1.0 && factor_of(west, 5) == 1.0);
    for (int i = 1; i < 6; i++) {
        ck_assert_double_ge(factor_of(east, i), bys_screen_speed(K * i) - 1e-12);
        ck_assert_double_le(factor_of(east, i), factor_of(east, i - 1));
        expect_close(factor_of(east, i), factor_of(west, 5 - i), 1e-12);
    }
    ck_assert_double_lt(factor_of(east, 5), 1.0);
    // along the lines nothing shelters; legs never have shelter
    for (int i = 0; i < 6; i++)
        ck_assert(factor_of(towards("50y/000/LAT/w000"), i) == 1.0);
    for (int s = 0; s < net->section_count; s++)
        ck_assert((net->sections[s].leg >= 0) == (net->sections[s].shelter == 0));
    close_block();
}
END_TEST

// At 45 deg the ends of a line stand in the open: its factor lies between the open one and the screens'.
START_TEST(oblique_current_shelters_less)
{
    open_block(6);
    const bys_sea *square = towards("50y/090/LAT/w000"), *oblique = towards("50y/045/LAT/w000");
    ck_assert_double_gt(factor_of(oblique, 5), factor_of(square, 5));
    ck_assert_double_lt(factor_of(oblique, 5), 1.0);
    close_block();
}
END_TEST

// Golden Bay, Plew et al. 2005 (read: abstract): 230 lines in 20 blocks, mean current within the farm 36
// to 63 % lower. By the notes' range of inputs (refs/loads 2.3: K from 3.3 to 10 over the farm) the
// screens alone give 45 to 72 % behind it and the canopy of a farm without ends gives 7 to 13 %. The
// weaker shelter counts, so that the engine stays below the measured range: on the safe side for loads,
// and by that much.
START_TEST(golden_bay_is_not_oversheltered)
{
    open_block(40);
    hand.panel_values[0].cd = 1.3;
    const bys_sea *east = towards("50y/090/LAT/w000");
    double sum = 0.0;
    for (int i = 0; i < 40; i++)
        sum += factor_of(east, i);
    const double reduction = 1.0 - sum / 40.0;
    ck_assert_double_gt(reduction, 0.0);
    ck_assert_double_lt(reduction, 0.63); // never more than was measured
    close_block();
}
END_TEST

START_TEST(no_shelter_unless_stated)
{
    hand_site_make(&hand);
    hand.block.lines = 3, hand.block.spacing = 20.0;
    bys_messages_new(&messages);
    ck_assert_int_eq(bys_environments_make(&list, &hand.site, messages, NULL), BYS_OK);
    ck_assert_int_eq(bys_network_expand(&net, &hand.site, 1, messages, NULL), BYS_OK);
    ck_assert(bys_environments_shelter(&list, &net, 1));
    for (int i = 0; i < list.count; i++)
        ck_assert(list.items[i].sea.shade == NULL);
    close_block();
}
END_TEST

int main(void)
{
    memory = bys_arena_new();
    Suite *s = suite_create("drift");
    suite_test(s, drift_of_a_known_hull);
    suite_test(s, spreading_lowers_the_drift_square_on);
    suite_test(s, splash_zone_force);
    suite_test(s, lines_shelter_those_behind);
    suite_test(s, oblique_current_shelters_less);
    suite_test(s, golden_bay_is_not_oversheltered);
    suite_test(s, no_shelter_unless_stated);
    const int failed = suite_run(s, NULL);
    bys_arena_free(memory);
    return failed;
}
