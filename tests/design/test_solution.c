// SPDX-License-Identifier: GPL-3.0-or-later
// One case by its id.
#include "design/hand_site.h"
#include "support/suite.h"
#include <byssus/design.h>

#include <string.h>

static hand_site hand;

static bys_rc solve(bys_solution **out, const char *id, bys_error *err)
{
    bys_messages *messages;
    bys_messages_new(&messages);
    const bys_rc rc = bys_solution_run(out, &hand.site, id, messages, err);
    bys_messages_free(messages);
    return rc;
}

START_TEST(every_listed_case_has_its_lines)
{
    bys_text text = {0};
    bys_messages *messages;
    bys_error err = {0};
    hand_site_make(&hand);
    bys_messages_new(&messages);
    ck_assert_int_eq(bys_case_list(&text, &hand.site, messages, &err), BYS_OK);
    int lines = 0;
    for (const char *c = text.data; *c; c++)
        lines += *c == '\n';
    // 16 environments x 2 stages x (intact + 2 legs), 2 slack levels x 2 stages
    ck_assert_int_eq(lines, 16 * 2 * 3 + 2 * 2);
    ck_assert_ptr_nonnull(strstr(text.data, "50y/045/HAT/w000:harvest:lost:L01/N\n"));
    bys_text_free(&text);
    bys_messages_free(messages);
}
END_TEST

START_TEST(forces_on_supports_close)
{
    bys_solution *s = NULL;
    bys_error err = {0};
    hand_site_make(&hand);
    ck_assert_msg(solve(&s, "50y/090/HAT/w000:harvest:intact", &err) == BYS_OK, "%s", err.text);
    ck_assert_int_eq(s->status, BYS_STABLE);
    ck_assert_str_eq(s->case_id, "50y/090/HAT/w000:harvest:intact");
    ck_assert_int_eq(s->support_count, 2);
    ck_assert(s->residual_N <= 0.01 && s->sum_share <= 1e-7);
    // A current to the east: both anchors are pulled east alike, and against each other along the
    // line.
    expect_close(s->supports[0].fx, s->supports[1].fx, 1e-5);
    expect_close(s->supports[0].fy, -s->supports[1].fy, 1e-5);
    ck_assert(s->supports[0].fx > 1000.0);
    for (int i = 0; i < s->node_count; i++)
        ck_assert(*s->nodes[i].id);
    bys_solution_free(s);
}
END_TEST

START_TEST(a_lost_leg_is_left_out)
{
    bys_solution *s = NULL;
    bys_error err = {0};
    hand_site_make(&hand);
    ck_assert_msg(solve(&s, "50y/090/LAT/w000:bare:lost:L01/N", &err) == BYS_OK, "%s", err.text);
    ck_assert_int_eq(s->status, BYS_STABLE);
    for (int i = 0; i < s->span_count; i++)
        ck_assert_ptr_null(strstr(s->spans[i].id, "L01/N/"));
    bys_solution_free(s);
}
END_TEST

START_TEST(the_first_case_is_the_default)
{
    bys_solution *s = NULL;
    bys_error err = {0};
    hand_site_make(&hand);
    hand.site.direction_offset = 0.5; // off the line's axis
    ck_assert_int_eq(solve(&s, "", &err), BYS_OK);
    ck_assert_ptr_nonnull(strstr(s->case_id, "/LAT/w000:bare:intact"));
    bys_solution_free(s);
}
END_TEST

START_TEST(unknown_cases_are_refused)
{
    static const char *const bad[] = {"nonsense", "50y/045/HAT/w000",
                                      "50y/045/HAT/w000:bare:lost:L09/N",
                                      "50y/045/HAT/w000:summer:intact", "50y/045/HAT/w000:bare:"};
    hand_site_make(&hand);
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        bys_solution *s = NULL;
        bys_error err = {0};
        ck_assert_int_eq(solve(&s, bad[i], &err), BYS_EUSAGE);
        ck_assert_ptr_null(s);
        ck_assert_ptr_nonnull(strstr(err.text, bad[i]));
    }
}
END_TEST

int main(void)
{
    Suite *s = suite_create("solution");
    suite_test(s, every_listed_case_has_its_lines);
    suite_test(s, forces_on_supports_close);
    suite_test(s, a_lost_leg_is_left_out);
    suite_test(s, the_first_case_is_the_default);
    suite_test(s, unknown_cases_are_refused);
    return suite_run(s, NULL);
}
