// SPDX-License-Identifier: GPL-3.0-or-later
// The proof loads: what to pull each anchor to, and what is said when it cannot or must not be done.
#include "support/fake_design.h"
#include "support/suite.h"
#include "write/proof_rows.h"

#include <byssus/write.h>

#include <math.h>
#include <string.h>

static bys_design *design;
static bys_proof_row row;

static void set_up(void)
{
    design = fake_design_new(&(fake_options){3, "pass", false});
}

static void tear_down(void)
{
    fake_design_free(design);
}

static void expect_sheet(const char *words, bool there)
{
    bys_text out = {0};
    bys_write_proof_text(&out, design);
    ck_assert(!out.failed);
    ck_assert_msg((strstr(out.data, words) != NULL) == there, "%s: %s", words, out.data);
    bys_text_free(&out);
}

START_TEST(loads_of_an_anchor)
{
    bys_proof_row_make(&row, design, 0);
    const bys_leg_result *leg = &design->legs[0];
    ck_assert_ptr_eq(row.leg, leg);
    ck_assert_str_eq(row.why, "");
    // UFC 4-159-03 table 3-18 [read]: pull to the full design load, here 0.9 of the tension
    expect_close(row.pull_N, 0.9 * leg->tension_N, 1e-14);
    expect_close(row.holding_N, 1.5 * 0.9 * leg->tension_N, 1e-14); // derived: load x 1.0 x 1.5
    expect_close(row.step_N, row.pull_N / 4.0, 1e-14);              // derived
    expect_close(row.pull_use, 0.9 * leg->strength.utilisation, 1e-14); // derived: in proportion
    expect_close(row.holding_use, 1.35 * leg->strength.utilisation, 1e-14);
    expect_abs(row.towards_rad, 3.141592653589793, 1e-14); // derived: north anchor, pulled south
    expect_close(row.line_m, 55.0 + 6.0, 1e-14);           // derived: warp and chain
    double high = -INFINITY;
    for (int i = 0; i < design->level_count; i++)
        high = fmax(high, design->levels[i].value);
    expect_close(sin(row.rise_rad) * 61.0, design->anchors[0].depth_m + high, 1e-12); // derived
}
END_TEST

START_TEST(steps_are_never_larger_than_stated)
{
    design->legs[0].anchor.check.characteristic_N = 400e3;
    bys_proof_row_make(&row, design, 0);
    // MO-124 appendix E 1.3 [read]: 10,000 lb, 44.5 kN
    expect_abs(row.step_N, 44.5e3, 50.0);
    expect_close(row.step_N, 10000 * 0.45359237 * 9.80665, 1e-12); // derived
}
END_TEST

START_TEST(says_why_there_is_none)
{
    design->legs[0].anchor.check.characteristic_N = NAN;
    design->legs[0].anchor.check.verdict = BYS_NOT_CHECKED;
    design->legs[0].anchor.check.why = "the clay has no stated strength";
    bys_proof_row_make(&row, design, 0);
    ck_assert(isnan(row.pull_N) && isnan(row.holding_N) && isnan(row.pull_use));
    ck_assert_str_eq(row.why, "the clay has no stated strength");
    expect_sheet("No proof load: the clay has no stated strength", true);
    design->anchors[1].leg_count = 0;
    bys_proof_row_make(&row, design, 1);
    ck_assert_ptr_null(row.leg);
    ck_assert_str_eq(row.why, "no leg goes to it");
    expect_sheet("No proof load: no leg goes to it", true);
}
END_TEST

START_TEST(a_missing_factor_is_never_one)
{
    design->legs[0].anchor.check.resistance_factor = NAN;
    design->legs[0].strength.utilisation = NAN;
    bys_proof_row_make(&row, design, 0);
    ck_assert(row.pull_N > 0.0 && isnan(row.holding_N));
    ck_assert(isnan(row.pull_use) && isnan(row.holding_use));
    expect_sheet("The strength of L01/N is not known", true);
}
END_TEST

START_TEST(warns_of_a_line_that_is_too_weak)
{
    expect_sheet("DO NOT pull", false);
    expect_sheet("Do not go on", false);
    design->legs[0].strength.utilisation = 1.0; // 0.9 at the pull, 1.35 at the holding
    expect_sheet("DO NOT pull", false);
    expect_sheet("Do not go on to the holding with L01/N", true);
    design->legs[0].strength.utilisation = 1.2; // 1.08 at the pull
    expect_sheet("DO NOT pull this much with L01/N", true);
}
END_TEST

START_TEST(a_line_shorter_than_the_depth)
{
    design->anchors[0].depth_m = 80.0;
    bys_proof_row_make(&row, design, 0);
    ck_assert(isnan(row.rise_rad));
    expect_sheet("shorter than the water is deep", true);
}
END_TEST

START_TEST(table_is_whole_and_safe)
{
    design->anchors[0].id = "=1+1,\"x\"";
    design->legs[1].anchor.check.characteristic_N = NAN;
    bys_text out = {0};
    bys_write_proof_csv(&out, design);
    int lines = 0, commas = 0;
    for (const char *c = out.data; *c; c++)
        lines += *c == '\n';
    ck_assert_int_eq(lines, 1 + design->anchor_count);
    for (const char *c = out.data; *c != '\n'; c++)
        commas += *c == ',';
    const char *first = strchr(out.data, '\n') + 1, *second = strchr(first, '\n') + 1;
    ck_assert(strncmp(first, "\"'=1+1,\"\"x\"\"\",", 14) == 0);
    for (const char *c = second; *c != '\n'; c++)
        commas -= *c == ',';
    ck_assert_int_eq(commas, 0);
    ck_assert_ptr_nonnull(strstr(second, ",L01/S,,,,,,0,61,")); // derived: pulled north
    ck_assert_ptr_null(strstr(out.data, "nan"));
    bys_text_free(&out);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("proof");
    TCase *tests = tcase_create("proof");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_test(tests, loads_of_an_anchor);
    tcase_add_test(tests, steps_are_never_larger_than_stated);
    tcase_add_test(tests, says_why_there_is_none);
    tcase_add_test(tests, a_missing_factor_is_never_one);
    tcase_add_test(tests, warns_of_a_line_that_is_too_weak);
    tcase_add_test(tests, a_line_shorter_than_the_depth);
    tcase_add_test(tests, table_is_whole_and_safe);
    suite_add_tcase(s, tests);
    return suite_run(s, NULL);
}
