// SPDX-License-Identifier: GPL-3.0-or-later
// The crop calendar as text, page and JSON, from a made-up result.
#include "support/fake_design.h"
#include "support/suite.h"

#include <string.h>

typedef void (*writer)(bys_text *, const bys_calendar *);

static void as_text(bys_text *out, const bys_calendar *c) {
    bys_write_calendar_text(out, c, 80, false);
}

static bys_text written(writer write) {
    bys_calendar *c = fake_calendar_new("fail");
    bys_text text = {0};
    write(&text, c);
    ck_assert(!text.failed);
    fake_calendar_free(c);
    return text;
}

static size_t count(const char *text, const char *wanted) {
    size_t n = 0;
    for (const char *at = strstr(text, wanted); at; at = strstr(at + 1, wanted))
        n++;
    return n;
}

// Two lines that need the same share one sentence.
START_TEST(text_says_when_and_how_many) {
    bys_text text = written(as_text);
    ck_assert_ptr_nonnull(strstr(text.data,
                                 "L<1>, L02, each: 2 x crop55 before month 5, 2 more before "
                                 "month 10"));
    ck_assert_ptr_nonnull(strstr(text.data, "    5                  20   80  L<1> middle      4   "
                                            "18.5   18.9  fail pass"));
    ck_assert_ptr_null(strstr(text.data, "nan"));
    bys_text_free(&text);
}
END_TEST

START_TEST(text_fits_the_terminal) {
    bys_text text = written(as_text);
    for (const char *line = text.data; *line;) {
        size_t columns = 0, n = strcspn(line, "\n");
        for (size_t i = 0; i < n; i++)
            columns += ((unsigned char)line[i] & 0xC0) != 0x80;
        ck_assert_uint_le(columns, 80);
        line += n + (line[n] == '\n');
    }
    bys_text_free(&text);
}
END_TEST

// Two charts with two lines each, of which the gap in the load leaves no "nan".
START_TEST(page_has_two_charts) {
    bys_text text = written(bys_write_calendar_html);
    ck_assert_uint_eq(count(text.data, "<svg class=\"chart\""), 2);
    ck_assert_uint_eq(count(text.data, "<path class=\"now\" d=\"M56.0"), 2);
    ck_assert_uint_eq(count(text.data, "<path class=\"with\" d=\"M56.0"), 2);
    ck_assert_uint_eq(count(text.data, "<line class=\"least\""), 1);
    ck_assert_uint_eq(count(text.data, "<circle class=\"now small\""), 2);
    ck_assert_ptr_nonnull(strstr(text.data, "<th scope=\"row\">L&lt;1&gt;, L02: middle</th>"));
    ck_assert_ptr_null(strstr(text.data, "nan"));
    ck_assert_ptr_null(strstr(text.data, "<invented>"));
    ck_assert_ptr_null(strstr(text.data, "http:"));
    ck_assert_ptr_null(strstr(text.data, "<script"));
    bys_text_free(&text);
}
END_TEST

START_TEST(json_has_series_by_month) {
    bys_text text = written(bys_write_calendar_json);
    ck_assert_ptr_nonnull(strstr(text.data, "\"schema\": \"byssus.calendar/1\""));
    ck_assert_ptr_nonnull(strstr(text.data, "\"added\": [0, 2, 4]"));
    ck_assert_ptr_nonnull(strstr(text.data, "\"tension_kN\": [9, 18, null]"));
    ck_assert_ptr_nonnull(strstr(text.data, "\"reserve\": [0.5, 0.2, 0.1]"));
    bys_text_free(&text);
}
END_TEST

int main(void) {
    Suite *s = suite_create("calendar");
    suite_test(s, text_says_when_and_how_many);
    suite_test(s, text_fits_the_terminal);
    suite_test(s, page_has_two_charts);
    suite_test(s, json_has_series_by_month);
    return suite_run(s, NULL);
}
