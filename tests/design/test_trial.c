// SPDX-License-Identifier: GPL-3.0-or-later
// Other gear on solved loads: a trial of the gear as laid gives its own rows; other gear gives what
// a run with that gear gives, where the loads do not depend on it.
#include "design/hand_site.h"
#include "design/trial.h"
#include "support/suite.h"

#include <string.h>

static hand_site hand;

static bys_trial *open_trial(void)
{
    bys_messages *messages = NULL;
    bys_error err = {0};
    bys_trial *trial = NULL;
    bys_messages_new(&messages);
    const bys_rc rc = bys_trial_open(&trial, &hand.site, NULL, messages, &err);
    ck_assert_msg(rc == BYS_OK, "%d: %s", (int)rc, err.text);
    bys_messages_free(messages);
    return trial;
}

static void make(bool lost)
{
    hand_site_make(&hand);
    hand.currents[0].towards = 1.5707963267948966;
    hand.currents[0].sector = 0.1;
    hand.site.rules.demand_lost_leg = lost;
}

static void same_check(const bys_strength *a, const bys_strength *b)
{
    ck_assert_str_eq(a->case_id, b->case_id);
    ck_assert_str_eq(a->why, b->why);
    ck_assert_str_eq(a->item, b->item);
    ck_assert_int_eq(a->verdict, b->verdict);
    ck_assert_int_eq(a->basis, b->basis);
    expect_close(a->utilisation, b->utilisation, 0.0);
    expect_close(a->capacity_N, b->capacity_N, 0.0);
    expect_close(a->characteristic_N, b->characteristic_N, 0.0);
}

START_TEST(gear_as_laid_gives_its_own_rows) // derived: the same loads, the same gear
{
    for (int lost = 0; lost < 2; lost++) {
        make(lost);
        bys_trial *trial = open_trial();
        const int unverified = trial->design.unverified_checks;
        for (int l = 0; l < trial->design.leg_count; l++) {
            const bys_leg_result *leg = &trial->design.legs[l];
            const bys_anchor_pair rule =
                bys_trial_anchor_rules(&trial->judge, leg->anchor_index, &hand.anchor);
            const bys_anchor_load load = bys_trial_anchor(&trial->judge, leg->anchor_index, &rule);
            same_check(&load.check, &leg->anchor.check);
            expect_close(load.vertical_N, leg->anchor.vertical_N, 0.0);
        }
        for (int p = 0; p < trial->judge.piece_count; p++) {
            const bys_piece *piece = &trial->judge.pieces[p];
            if (piece->leg < 0)
                continue;
            const bys_strength check = bys_trial_piece(&trial->judge, p, piece->part);
            const bys_leg_result *leg = &trial->design.legs[piece->leg];
            ck_assert(!(check.utilisation > leg->strength.utilisation));
            if (strcmp(check.item, leg->strength.item) == 0)
                same_check(&check, &leg->strength);
        }
        ck_assert_int_eq(trial->design.unverified_checks, unverified);
        bys_trial_free(trial);
    }
}
END_TEST

START_TEST(another_anchor_as_a_run_with_it) // derived: an anchor point does not move with its mass
{
    make(false);
    bys_trial *small = open_trial();
    bys_part big = hand.anchor;
    big.u.anchor.mass = 9000.0;
    const bys_anchor_pair rule = bys_trial_anchor_rules(&small->judge, 0, &big);
    const bys_anchor_load tried = bys_trial_anchor(&small->judge, 0, &rule);
    hand.anchor = big;
    bys_trial *run = open_trial();
    same_check(&tried.check, &run->design.legs[0].anchor.check);
    ck_assert(tried.check.utilisation < small->design.legs[0].anchor.check.utilisation);
    bys_trial_free(run);
    bys_trial_free(small);
}
END_TEST

START_TEST(a_weaker_rope_uses_more) // derived: half the strength, twice the use
{
    make(false);
    bys_trial *trial = open_trial();
    bys_part weak = hand.warp;
    weak.u.line.strength *= 0.5;
    int tried = 0;
    for (int p = 0; p < trial->judge.piece_count; p++) {
        const bys_piece *piece = &trial->judge.pieces[p];
        if (piece->leg < 0 || piece->part != &hand.warp)
            continue;
        const bys_strength as_laid = bys_trial_piece(&trial->judge, p, piece->part);
        const bys_strength check = bys_trial_piece(&trial->judge, p, &weak);
        expect_close(check.utilisation, 2.0 * as_laid.utilisation, 1e-14);
        ck_assert_str_eq(check.case_id, as_laid.case_id);
        tried++;
    }
    ck_assert_int_eq(tried, trial->design.leg_count);
    bys_trial_free(trial);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("trial");
    suite_test(s, gear_as_laid_gives_its_own_rows);
    suite_test(s, another_anchor_as_a_run_with_it);
    suite_test(s, a_weaker_rope_uses_more);
    return suite_run(s, NULL);
}
