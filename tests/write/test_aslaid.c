// SPDX-License-Identifier: GPL-3.0-or-later
// What was laid as text, page and JSON, from a made-up result.
#include "support/fake_design.h"
#include "support/suite.h"

#include <string.h>

typedef void (*writer)(bys_text *, const bys_aslaid *);

static void as_text(bys_text *out, const bys_aslaid *r)
{
    bys_write_aslaid_text(out, r, 80, false);
}

static bys_text written(writer write)
{
    bys_aslaid *r = fake_aslaid_new(fake_design_new(&(fake_options){1, "fail", true}));
    bys_text text = {0};
    write(&text, r);
    ck_assert(!text.failed);
    fake_aslaid_free(r);
    return text;
}

START_TEST(text_says_what_to_do)
{
    bys_text text = written(as_text);
    ck_assert_ptr_nonnull(strstr(text.data, "L01/N/anchor       9.0    71    2.9    8.5  OUT"));
    ck_assert_ptr_nonnull(strstr(text.data, "let out 3.20 m, from 55.00 m to 58.20 m"));
    ck_assert_ptr_nonnull(strstr(text.data, "measure L01/N: 31.0 kN (fail) as made"));
    ck_assert_ptr_nonnull(strstr(text.data, "1 anchor has no position"));
    ck_assert_ptr_nonnull(strstr(text.data, "did you mean L01/N?"));
    ck_assert_ptr_nonnull(strstr(text.data, "no length gives the pretension"));
    ck_assert_ptr_null(strstr(text.data, "nan"));
    bys_text_free(&text);
}
END_TEST

START_TEST(text_fits_the_terminal)
{
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

START_TEST(page_is_one_file_and_escapes)
{
    bys_text text = written(bys_write_aslaid_html);
    ck_assert_ptr_null(strstr(text.data, "http:"));
    ck_assert_ptr_null(strstr(text.data, "<script"));
    ck_assert_ptr_null(strstr(text.data, "L0<7>"));
    ck_assert_ptr_null(strstr(text.data, ">nan"));
    ck_assert_ptr_nonnull(strstr(text.data, "L0&lt;7&gt; (line 4) belongs to no anchor"));
    ck_assert_ptr_nonnull(strstr(text.data, "default-src 'none'"));
    bys_text_free(&text);
}
END_TEST

START_TEST(json_has_what_the_text_has)
{
    bys_text text = written(bys_write_aslaid_json);
    ck_assert_ptr_nonnull(strstr(text.data, "\"schema\": \"byssus.aslaid/1\""));
    ck_assert_ptr_nonnull(strstr(text.data, "\"adjusted_m\": 58.2"));
    ck_assert_ptr_nonnull(strstr(text.data, "\"bearing_deg\": null"));
    ck_assert_ptr_null(strstr(text.data, "nan"));
    bys_text_free(&text);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("aslaid");
    suite_test(s, text_says_what_to_do);
    suite_test(s, text_fits_the_terminal);
    suite_test(s, page_is_one_file_and_escapes);
    suite_test(s, json_has_what_the_text_has);
    return suite_run(s, NULL);
}
