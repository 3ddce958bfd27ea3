// SPDX-License-Identifier: GPL-3.0-or-later
// The whole job on two rafts tied to each other; numbers invented.
#include "design/hand_site.h"
#include "support/suite.h"
#include <byssus/design.h>

#include <stdio.h>
#include <string.h>

static hand_site hand;
static const double pi = 3.14159265358979323846;

static void make_rafts(bys_part *raft, bys_part *ropes, bys_gear_values *values, bys_grid *grid,
                       bys_leg_spec legs[4])
{
    static const char *const at[4] = {"NW", "NE", "SW", "SE"};
    hand_site_make(&hand);
    hand.currents[0].towards = 0.5 * pi;
    hand.site.level_count = 1;
    hand.site.block_count = 0;
    *values = (bys_gear_values){.stage = "",
                                .mass_in_water = 8.0,
                                .width = 0.15,
                                .height = 6.0,
                                .cd = 1.2,
                                .basis = BYS_BASIS_USER};
    *ropes = (bys_part){.item = {.id = "ropes", .name = "", .source = "", .basis = BYS_BASIS_USER},
                        .kind = BYS_PART_GEAR};
    ropes->u.gear =
        (bys_gear_part){.kind = BYS_GEAR_ROPE, .drop = 0.5, .values = values, .value_count = 1};
    *raft = (bys_part){.item = {.id = "raft", .name = "", .source = "", .basis = BYS_BASIS_USER},
                       .kind = BYS_PART_RAFT};
    raft->u.raft = (bys_raft_part){.length = 12.0,
                                   .width = 12.0,
                                   .mass = 6000.0,
                                   .cg = 0.6,
                                   .pontoons = 3,
                                   .pontoon_length = 12.0,
                                   .pontoon_width = 0.8,
                                   .pontoon_height = 0.8,
                                   .cd_hull = 1.2,
                                   .cs_deck = 1.2,
                                   .gear = "ropes",
                                   .gear_count = 60,
                                   .fairlead_height = 0.7};
    for (int i = 0; i < 4; i++) {
        legs[i] = hand.leg;
        legs[i].at = at[i];
    }
    *grid = (bys_grid){.item = {.id = "R", .name = "", .source = "", .basis = BYS_BASIS_USER},
                       .columns = 2,
                       .rows = 1,
                       .spacing_x = 30.0,
                       .spacing_y = 30.0,
                       .raft = raft,
                       .head_rope = &hand.backbone,
                       .head_rope_length = NAN,
                       .legs = legs,
                       .leg_count = 4};
    hand.site.parts = ropes;
    hand.site.part_count = 1;
    hand.site.grids = grid;
    hand.site.grid_count = 1;
    hand.anchor.u.anchor.kind = BYS_ANCHOR_SCREW;
    hand.anchor.u.anchor.capacity = 500e3;
    hand.anchor.u.anchor.capacity_kind = "ultimate";
    hand.anchor.u.anchor.capacity_angle = 0.5 * pi;
}

static int count_kind(const bys_design *d, const char *kind)
{
    int n = 0;
    for (int p = 0; p < d->plan_count; p++)
        n += strcmp(d->plan[p].kind, kind) == 0;
    return n;
}

START_TEST(two_rafts)
{
    bys_part raft, ropes;
    bys_gear_values values[1];
    bys_grid grid;
    bys_leg_spec legs[4];
    bys_messages *messages;
    bys_design *d = NULL;
    bys_error err = {0};
    make_rafts(&raft, &ropes, values, &grid, legs);
    bys_messages_new(&messages);
    const bys_check_options options = {.intact_only = true};
    const bys_rc rc = bys_design_run(&d, &hand.site, &options, messages, &err);
    for (size_t i = 0; rc && i < bys_messages_count(messages); i++)
        printf("# %s\n", bys_messages_at(messages, i)->text);
    ck_assert_msg(rc == BYS_OK, "%s", err.text);
    ck_assert_int_eq(d->case_stable, d->case_total);
    ck_assert(d->leg_count > 0 && d->worst_residual_N <= 0.01);
    for (int l = 0; l < d->leg_count; l++)
        ck_assert_str_eq(d->legs[l].line, strncmp(d->legs[l].id, "R1", 2) == 0 ? "R1-1" : "R2-1");
    ck_assert_int_eq(count_kind(d, "raft"), 2);
    ck_assert_int_eq(count_kind(d, "head rope"), 2);
    ck_assert_int_eq(count_kind(d, "leg"), d->leg_count);
    int head_ropes = 0, moved = 0;
    for (int f = 0; f < d->finding_count; f++) {
        head_ropes +=
            strcmp(d->findings[f].kind, "line strength") == 0 && d->findings[f].value > 0.0;
        moved += strcmp(d->findings[f].kind, "excursion") == 0 && d->findings[f].value > 0.01;
    }
    ck_assert_int_eq(head_ropes, 2);
    ck_assert_int_eq(moved, 1);
    bys_design_free(d);
    bys_messages_free(messages);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("raft");
    suite_test(s, two_rafts);
    return suite_run(s, NULL);
}
