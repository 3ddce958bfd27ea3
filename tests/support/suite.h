// SPDX-License-Identifier: GPL-3.0-or-later
// Small frame around Check shared by all test programs: TAP to standard output, exit status 0 if
// and only if every test passed, and two comparisons that print what was wanted and what came.
//
//     START_TEST(sums) { expect_close(add(1.0, 2.0), 3.0, 1e-15); } // derived
//     END_TEST
//
//     int main(void)
//     {
//         Suite *s = suite_create("sums");
//         suite_test(s, sums);
//         return suite_run(s, NULL);
//     }
#ifndef BYS_TESTS_SUPPORT_SUITE_H
#define BYS_TESTS_SUPPORT_SUITE_H

#include <check.h>
#include <math.h>
#include <stdarg.h>
#include <stdlib.h>

/// |got - want| <= tol_rel * |want|. A NaN never passes. A wanted zero needs expect_abs.
#define expect_close(got, want, tol_rel)                                                           \
    do {                                                                                           \
        const double got_ = (got), want_ = (want), tol_ = (tol_rel);                               \
        ck_assert_msg(fabs(got_ - want_) <= tol_ * fabs(want_),                                    \
                      "%s: wanted %.17g, got %.17g, relative difference %.3g > %.3g", #got, want_, \
                      got_, fabs(got_ - want_) / fabs(want_), tol_);                               \
    } while (0)

/// |got - want| <= tol_abs. A NaN never passes.
#define expect_abs(got, want, tol_abs)                                                             \
    do {                                                                                           \
        const double got_ = (got), want_ = (want), tol_ = (tol_abs);                               \
        ck_assert_msg(fabs(got_ - want_) <= tol_,                                                  \
                      "%s: wanted %.17g, got %.17g, difference %.3g > %.3g", #got, want_, got_,    \
                      fabs(got_ - want_), tol_);                                                   \
    } while (0)

/// Adds one test in a test case of its own name, so that the TAP line can be read.
#define suite_test(suite, test) suite_test_limit((suite), #test, test, 60.0)

/// The same with a time limit in seconds.
static inline void suite_test_limit(Suite *suite, const char *name, const TTest *test,
                                    double seconds)
{
    TCase *tcase = tcase_create(name);
    tcase_set_timeout(tcase, seconds);
    tcase_add_test(tcase, test);
    suite_add_tcase(suite, tcase);
}

/// Runs the suites (the list ends with NULL), which the runner frees. Returns the exit status.
/// Check forks for each test unless CK_FORK=no or CK_NOFORK is set in the environment.
static inline int suite_run(Suite *first, ...)
{
    SRunner *runner = srunner_create(first);
    va_list more;
    va_start(more, first);
    for (Suite *next = va_arg(more, Suite *); next; next = va_arg(more, Suite *))
        srunner_add_suite(runner, next);
    va_end(more);
    if (getenv("CK_NOFORK"))
        srunner_set_fork_status(runner, CK_NOFORK);
    srunner_set_tap(runner, "-");
    srunner_run_all(runner, CK_SILENT);
    const int run = srunner_ntests_run(runner), failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return run > 0 && failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}

#endif
