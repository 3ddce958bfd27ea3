// SPDX-License-Identifier: GPL-3.0-or-later
// What 1 N of tension uses of a piece of line; all values derived from the form of the check.
#include "design/hand_site.h"
#include "design/judge.h"
#include "support/suite.h"

#include <string.h>

static hand_site hand;
static bys_judge judge;

static bys_piece piece(const bys_part *part)
{
    judge.site = &hand.site;
    if (!judge.arena)
        judge.arena = bys_arena_new();
    return bys_piece_make(&judge, "L01/N/piece", part, part->kind == BYS_PART_CONNECTOR);
}

START_TEST(rope_with_splice)
{
    hand_site_make(&hand);
    const bys_piece p = piece(&hand.warp);
    expect_close(p.capacity, 108e3, 1e-15);
    expect_close(p.per_newton, 3.0 / 108e3, 1e-15);
    ck_assert_str_eq(p.component, "rope");
    ck_assert_int_eq(p.basis, BYS_BASIS_USER);
}
END_TEST

START_TEST(reductions_each_once)
{
    hand_site_make(&hand);
    hand.warp.u.line.wet_factor = 0.85; // wet nylon, UFC 4-159-03 Table 3-7 (read)
    expect_close(piece(&hand.warp).capacity, 120e3 * 0.9 * 0.85, 1e-15);
    hand.warp.u.line.efficiency = NAN;
    const bys_piece p = piece(&hand.warp);
    expect_close(p.capacity, 120e3 * 0.85, 1e-15);
    ck_assert_ptr_nonnull(strstr(p.why, "not reduced"));
}
END_TEST

START_TEST(chain_and_connector)
{
    hand_site_make(&hand);
    expect_close(piece(&hand.chain).per_newton, 3.0 / 125e3, 1e-15);
    const bys_piece p = piece(&hand.shackle);
    ck_assert_str_eq(p.component, "connector");
    expect_close(p.per_newton, 3.0 / 145e3, 1e-15);
}
END_TEST

START_TEST(the_weakest_basis_counts)
{
    hand_site_make(&hand);
    hand.chain.item.basis = BYS_BASIS_READ;
    hand_factor(&hand, "chain")->basis = BYS_BASIS_MEMORY;
    ck_assert_int_eq(piece(&hand.chain).basis, BYS_BASIS_MEMORY);
    ck_assert_int_eq(bys_basis_weaker(BYS_BASIS_MEMORY, BYS_BASIS_ASSUMED), BYS_BASIS_ASSUMED);
    ck_assert_int_eq(bys_basis_weaker(BYS_BASIS_READ, BYS_BASIS_TEST), BYS_BASIS_TEST);
    ck_assert(bys_basis_unverified(BYS_BASIS_ASSUMED) && !bys_basis_unverified(BYS_BASIS_USER));
}
END_TEST

START_TEST(what_is_missing_is_named)
{
    hand_site_make(&hand);
    hand.warp.u.line.strength = NAN;
    bys_piece p = piece(&hand.warp);
    ck_assert(isnan(p.per_newton));
    ck_assert_ptr_nonnull(strstr(p.why, "strength of warp28"));
    hand_site_make(&hand);
    hand_factor(&hand, "rope")->value = NAN;
    p = piece(&hand.warp);
    ck_assert(isnan(p.per_newton));
    ck_assert_ptr_nonnull(strstr(p.why, "no factor for \"rope\""));
    hand_site_make(&hand);
    hand_factor(&hand, "load-static")->value = NAN;
    ck_assert(isnan(piece(&hand.warp).per_newton));
}
END_TEST

int main(void)
{
    Suite *s = suite_create("pieces");
    suite_test(s, rope_with_splice);
    suite_test(s, reductions_each_once);
    suite_test(s, chain_and_connector);
    suite_test(s, the_weakest_basis_counts);
    suite_test(s, what_is_missing_is_named);
    return suite_run(s, NULL);
}
