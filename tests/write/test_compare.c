// SPDX-License-Identifier: GPL-3.0-or-later
// A comparison as text, page and JSON, from made-up designs.
#include "support/fake_design.h"
#include "support/suite.h"

#include <string.h>

typedef void (*writer)(bys_text *, const bys_comparison *);

static void as_text(bys_text *out, const bys_comparison *c)
{
    bys_write_comparison_text(out, c, 80, false);
}

static bys_text written(writer write, bool hostile)
{
    bys_design *before = fake_design_new(&(fake_options){2, "fail", hostile});
    bys_design *after = fake_design_new(&(fake_options){3, "fail", hostile});
    before->legs[1].tension_N *= 1.25; // one leg changes, two are new
    bys_comparison *c = fake_comparison_new(before, after);
    bys_text text = {0};
    write(&text, c);
    ck_assert(!text.failed);
    fake_comparison_free(c);
    return text;
}

static size_t count(const char *text, const char *wanted)
{
    size_t n = 0;
    for (const char *at = strstr(text, wanted); at; at = strstr(at + 1, wanted))
        n++;
    return n;
}

static bool in_order(const char *text, const char *const *words, int n)
{
    const char *at = text;
    for (int i = 0; i < n; i++)
        if (!(at = strstr(at, words[i])))
            return false;
    return true;
}

// The order of the plan: what got worse first, then what is mended, what was done, what it did.
static const char *const order[] = {"New failures", "No longer checked", "Mended",
                                    "Changed in the layout", "Float reserve", "Leg"};

START_TEST(text_has_new_failures_first)
{
    bys_text text = written(as_text, false);
    ck_assert(in_order(text.data, order, 6));
    ck_assert_ptr_nonnull(strstr(text.data, "L03/N, anchor use: 0.62 -> 1.41"));
    ck_assert_ptr_nonnull(strstr(text.data, "L05, float reserve: 18 % -> 39 %"));
    bys_text_free(&text);
}
END_TEST

START_TEST(text_fits_the_terminal)
{
    bys_text text = written(as_text, true);
    for (const char *line = text.data; *line;) {
        size_t columns = 0, n = strcspn(line, "\n");
        for (size_t i = 0; i < n; i++)
            columns += ((unsigned char)line[i] & 0xC0) != 0x80;
        ck_assert_uint_le(columns, 80);
        line += n + (line[n] == '\n');
    }
    ck_assert_ptr_null(strstr(text.data, "nan"));
    bys_text_free(&text);
}
END_TEST

// Three of the four old legs stand as they were; two are new, one has moved.
START_TEST(text_leaves_out_what_stays)
{
    bys_text text = written(as_text, false);
    ck_assert_ptr_nonnull(strstr(text.data, "and 3 legs as before"));
    ck_assert_uint_eq(count(text.data, "(new leg)"), 2);
    ck_assert_ptr_nonnull(strstr(text.data, "-20.0")); // 1 / 1.25 - 1
    bys_text_free(&text);
}
END_TEST

START_TEST(page_has_new_failures_first)
{
    bys_text text = written(bys_write_comparison_html, false);
    ck_assert(in_order(text.data, order, 6));
    ck_assert_ptr_nonnull(strstr(text.data, "<strong>L03/N, anchor use: 0.62 \xE2\x86\x92 1.41"));
    ck_assert_uint_eq(count(text.data, "<th scope=\"row\">L0"), 2 + 2 + 6); // changes, floats, legs
    bys_text_free(&text);
}
END_TEST

START_TEST(page_is_one_file_and_escapes)
{
    bys_text text = written(bys_write_comparison_html, true);
    ck_assert_ptr_null(strstr(text.data, "http:"));
    ck_assert_ptr_null(strstr(text.data, "https:"));
    ck_assert_ptr_null(strstr(text.data, "<script"));
    ck_assert_ptr_null(strstr(text.data, "<01>"));
    ck_assert_ptr_null(strstr(text.data, "<b>m"));
    ck_assert_ptr_null(strstr(text.data, ">nan"));
    ck_assert_ptr_nonnull(strstr(text.data, "default-src 'none'"));
    bys_text_free(&text);
}
END_TEST

START_TEST(json_has_both_sides)
{
    bys_text text = written(bys_write_comparison_json, true);
    ck_assert_ptr_nonnull(strstr(text.data, "\"schema\": \"byssus.compare/1\""));
    ck_assert_ptr_null(strstr(text.data, "nan"));
    ck_assert_uint_eq(count(text.data, "\"there\""), 2 * 6);
    bys_text_free(&text);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("compare");
    suite_test(s, text_has_new_failures_first);
    suite_test(s, text_fits_the_terminal);
    suite_test(s, text_leaves_out_what_stays);
    suite_test(s, page_has_new_failures_first);
    suite_test(s, page_is_one_file_and_escapes);
    suite_test(s, json_has_both_sides);
    return suite_run(s, NULL);
}
