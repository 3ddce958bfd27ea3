// SPDX-License-Identifier: GPL-3.0-or-later
// The demo sites expand at every stage, with the faults that they are meant to have.
#include "read_text.h"
#include "support/suite.h"

static bys_site *read_demo(const char *name, bys_messages *messages) {
    char path[512];
    bys_site *site = NULL;
    snprintf(path, sizeof path, "%s/%s.xml", BYS_SITEFILES, name);
    ck_assert_msg(bys_site_read(&site, path, NULL, messages, NULL) == BYS_OK, "%s", said(messages));
    ck_assert_str_eq(site->notice, "INVENTED DEMO DATA");
    return site;
}

/// Expands each stage; the same legs, anchors and lines must come every time.
static void expand_stages(const char *name, int lines, int bodies, int legs, int islands) {
    bys_messages *messages = NULL;
    ck_assert_int_eq(bys_messages_new(&messages), BYS_OK);
    bys_site *site = read_demo(name, messages);
    for (int stage = 0; stage < site->stage_count; stage++) {
        bys_network *net = NULL;
        ck_assert_msg(bys_network_expand(&net, site, stage, messages, NULL) == BYS_OK, "%s",
                      said(messages));
        ck_assert_int_eq(net->line_count, lines);
        ck_assert_int_eq(net->body_count, bodies);
        ck_assert_int_eq(net->leg_count, legs);
        ck_assert_int_eq(net->anchor_count, legs);
        ck_assert_int_eq(net->island_count, islands);
        for (int i = 0; i < net->island_count; i++)
            ck_assert(net->islands[i].anchored);
        bys_network_free(net);
    }
    bys_site_free(site);
    bys_messages_free(messages);
}

START_TEST(pearl_block) {
    expand_stages("pearl-block", 12, 0, 24, 12);
}
END_TEST

START_TEST(raft_grid) {
    expand_stages("raft-grid", 0, 6, 14, 1);
}
END_TEST

START_TEST(floats) {
    expand_stages("floats-before", 3, 0, 6, 3);
    expand_stages("floats-after", 3, 0, 6, 3);
}
END_TEST

// The planted fault: L12's north anchor 6 m beyond the boundary at y = 150 m.
START_TEST(anchor_beyond_the_lease) {
    bys_messages *messages = NULL;
    bys_network *net = NULL;
    ck_assert_int_eq(bys_messages_new(&messages), BYS_OK);
    bys_site *site = read_demo("pearl-block", messages);
    ck_assert_int_eq(bys_network_expand(&net, site, 0, messages, NULL), BYS_OK);
    const double *at = net->points[net->legs[leg_index(net, "L12/N")].foot].x;
    expect_close(at[1], 156.0, 1e-12);
    expect_close(at[0], 110.0, 1e-12);
    bys_network_free(net);
    bys_site_free(site);
    bys_messages_free(messages);
}
END_TEST

static double crop_floats(const char *name, const char *line) {
    double n = 0.0;
    bys_messages *messages = NULL;
    bys_network *net = NULL;
    ck_assert_int_eq(bys_messages_new(&messages), BYS_OK);
    bys_site *site = read_demo(name, messages);
    ck_assert_int_eq(bys_network_expand(&net, site, 0, messages, NULL), BYS_OK);
    const int l = line_index(net, line);
    for (int i = 0; i < net->float_count; i++)
        n += net->floats[i].line == l && !net->floats[i].at_end ? net->floats[i].count : 0.0;
    bys_network_free(net);
    bys_site_free(site);
    bys_messages_free(messages);
    return n;
}

START_TEST(floats_of_l05) {
    expect_close(crop_floats("floats-before", "L05"), 18.0, 1e-12);
    expect_close(crop_floats("floats-after", "L05"), 24.0, 1e-12);
    expect_close(crop_floats("floats-after", "L04"), 30.0, 1e-12);
}
END_TEST

int main(void) {
    Suite *s = suite_create("demo sites");
    suite_test(s, pearl_block);
    suite_test(s, raft_grid);
    suite_test(s, floats);
    suite_test(s, anchor_beyond_the_lease);
    suite_test(s, floats_of_l05);
    return suite_run(s, NULL);
}
