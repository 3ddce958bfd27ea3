// SPDX-License-Identifier: GPL-3.0-or-later
// The report and the terminal table, from a made-up design.
#include "support/fake_design.h"
#include "support/suite.h"

#include <byssus/write.h>

#include <stdio.h>
#include <string.h>

static bys_text report(int lines, bool hostile)
{
    bys_design *design = fake_design_new(&(fake_options){lines, "fail", hostile});
    bys_text text = {0};
    bys_write_report_html(&text, design);
    ck_assert(!text.failed);
    fake_design_free(design);
    return text;
}

static size_t count(const char *text, const char *wanted)
{
    size_t n = 0;
    for (const char *at = strstr(text, wanted); at; at = strstr(at + 1, wanted))
        n++;
    return n;
}

// What the user wrote stays text: nothing of it becomes markup or closes the style.
START_TEST(report_escapes_names)
{
    bys_text text = report(12, true);
    ck_assert_ptr_null(strstr(text.data, "<script"));
    ck_assert_ptr_null(strstr(text.data, "<01>"));
    ck_assert_ptr_null(strstr(text.data, "<b>&'"));
    ck_assert_uint_eq(count(text.data, "</style>"), 1);
    ck_assert_ptr_nonnull(strstr(text.data, "&lt;/style&gt;&lt;script&gt;alert(1)"));
    ck_assert_ptr_nonnull(strstr(text.data, "L&lt;01&gt;&amp;&quot;&#39; =x"));
    ck_assert_ptr_nonnull(strstr(text.data, "\xEF\xBF\xBD\xEF\xBF\xBD bad bytes"));
    bys_text_free(&text);
}
END_TEST

// An unknown number is a dash, never "nan" and never nought.
START_TEST(report_shows_no_nan)
{
    bys_text text = report(12, true);
    ck_assert_ptr_null(strstr(text.data, ">nan"));
    ck_assert_ptr_null(strstr(text.data, ">null"));
    ck_assert_ptr_null(strstr(text.data, "\"nan"));
    ck_assert_ptr_null(strstr(text.data, " null"));
    bys_text_free(&text);
}
END_TEST

START_TEST(report_is_one_file)
{
    bys_text text = report(12, false);
    ck_assert_ptr_null(strstr(text.data, "http:"));
    ck_assert_ptr_null(strstr(text.data, "https:"));
    ck_assert_ptr_null(strstr(text.data, "@import"));
    ck_assert_ptr_nonnull(strstr(text.data, "default-src 'none'; style-src 'unsafe-inline'"));
    bys_text_free(&text);
}
END_TEST

// All 24 legs stand in the plan, in the leg table and among the charts.
START_TEST(report_has_every_leg)
{
    bys_text text = report(12, false);
    for (int line = 1; line <= 12; line++)
        for (int end = 0; end < 2; end++) {
            char row[64], chart[64], label[64];
            snprintf(row, sizeof row, "<th scope=\"row\">L%02d/%c</th>", line, "NS"[end]);
            snprintf(chart, sizeof chart, "<b>L%02d/%c</b>", line, "NS"[end]);
            snprintf(label, sizeof label, ">L%02d/%c</text>", line, "NS"[end]);
            ck_assert_uint_ge(count(text.data, row), 4); // main, line, anchor, laying
            ck_assert_uint_eq(count(text.data, chart), 1);
            ck_assert_uint_eq(count(text.data, label), 1);
        }
    ck_assert_uint_eq(count(text.data, ">outside</text>"), 1); // L12/N
    bys_text_free(&text);
}
END_TEST

// 60 lines are too many for all labels: the page says how many are left out, and the failing leg
// is not among them.
START_TEST(plan_thins_out_and_says_so)
{
    bys_text text = report(60, false);
    ck_assert_ptr_nonnull(strstr(text.data, "ids found no room"));
    ck_assert_uint_eq(count(text.data, ">L03/N</text>"), 1);
    ck_assert_uint_eq(count(text.data, ">L12/N</text>"), 1);
    bys_text_free(&text);
}
END_TEST

// A design of a site without legs, lease or drawing still makes a page.
START_TEST(report_of_nothing)
{
    bys_design *design = fake_design_new(&(fake_options){1, "pass", false});
    design->leg_count = design->anchor_count = design->plan_count = design->lease_count = 0;
    design->finding_count = design->case_count = design->worst_count = 0;
    bys_text text = {0};
    bys_write_report_html(&text, design);
    ck_assert(!text.failed);
    ck_assert_ptr_nonnull(strstr(text.data, "There is nothing to draw."));
    ck_assert_ptr_nonnull(strstr(text.data, "</html>"));
    bys_text_free(&text);
    bys_write_terminal(&text, design, 80, false);
    ck_assert_int_eq(strncmp(text.data, "PASS  ", 6), 0);
    bys_text_free(&text);
    fake_design_free(design);
}
END_TEST

// No line is wider than the terminal; colour only when asked.
START_TEST(terminal_fits)
{
    static const int widths[] = {60, 80, 132};
    for (int w = 0; w < 3; w++) {
        bys_design *design = fake_design_new(&(fake_options){12, "fail", w == 1});
        bys_text text = {0};
        bys_write_terminal(&text, design, widths[w], false);
        int column = 0;
        for (const char *c = text.data; *c; c++) {
            column = *c == '\n' ? 0 : column + ((*c & 0xC0) != 0x80);
            ck_assert_msg(column <= widths[w], "%d columns: %.60s", widths[w], c);
        }
        ck_assert_ptr_null(strchr(text.data, '\x1b'));
        bys_text_free(&text);
        bys_write_terminal(&text, design, widths[w], true);
        ck_assert_ptr_nonnull(strstr(text.data, "\x1b[1;31m"));
        bys_text_free(&text);
        fake_design_free(design);
    }
}
END_TEST

START_TEST(terminal_puts_the_worst_leg_first)
{
    bys_design *design = fake_design_new(&(fake_options){12, "fail", false});
    bys_text text = {0};
    bys_write_terminal(&text, design, 80, false);
    const char *table = strstr(text.data, "\nLeg ");
    ck_assert_ptr_nonnull(table);
    // The second line below the heading: kN and tf (12.2 kN / 9.80665 kN = 1.25 tf; derived).
    const char *row = strchr(strchr(table + 1, '\n') + 1, '\n') + 1;
    ck_assert_int_eq(strncmp(row, "L03/N    12.2  1.25  0.31   1.99  fail", 38), 0);
    bys_text_free(&text);
    fake_design_free(design);
}
END_TEST

START_TEST(solution_text)
{
    bys_solution *solution = fake_solution_new();
    bys_text text = {0};
    bys_write_solution_text(&text, solution, 80);
    ck_assert_int_eq(strncmp(text.data, "stable  50y/090/LAT", 19), 0);
    ck_assert_ptr_nonnull(strstr(text.data, "8.337")); // 8336.6 N
    bys_text_free(&text);
    fake_solution_free(solution);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("page");
    suite_test(s, report_escapes_names);
    suite_test(s, report_shows_no_nan);
    suite_test(s, report_is_one_file);
    suite_test(s, report_has_every_leg);
    suite_test(s, plan_thins_out_and_says_so);
    suite_test(s, report_of_nothing);
    suite_test(s, terminal_fits);
    suite_test(s, terminal_puts_the_worst_leg_first);
    suite_test(s, solution_text);
    return suite_run(s, NULL);
}
