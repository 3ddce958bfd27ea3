// SPDX-License-Identifier: GPL-3.0-or-later
// Random layouts: the first few hundred of those that the benchmark runs by the thousand.
// Nothing may be wrong (run.h says what that is), every status that is not stable names an item and
// a cause, and no fewer come out stable than the floor below, which only guards against a step
// back: the benchmark holds the real target. Expected relations: derived.
#include "support/suite.h"
#include "torture/insane.h"
#include "torture/run.h"

#include <stdio.h>

enum { LAYOUTS = 300, EVERY = 30, IMPOSSIBLE = 300 };
static const double STABLE_FLOOR = 0.96;

START_TEST(sane_layouts_end_true_and_audited) {
    int stable = 0, wrong = 0, relaxed = 0;
    for (int i = 0; i < LAYOUTS; i++) {
        layout *l = layout_new((uint64_t)(1 + i));
        ck_assert_ptr_nonnull(l);
        const result r = run_layout(l, i % EVERY == 0);
        layout_free(l);
        ck_assert_msg(r.named, "seed %d, %s: not stable, and nothing is named: %s", 1 + i, r.what,
                      r.reason);
        if (r.wrong)
            fprintf(stderr, "seed %d, %s: %s\n", 1 + i, r.what, r.why);
        stable += r.status == BYS_STABLE;
        relaxed += r.relaxed;
        wrong += r.wrong;
    }
    ck_assert_int_eq(wrong, 0);
    ck_assert_int_gt(relaxed, 0);
    ck_assert_double_ge(stable, STABLE_FLOOR * LAYOUTS);
}
END_TEST

START_TEST(impossible_layouts_are_refused_by_name) {
    char why[480];
    for (int i = 0; i < IMPOSSIBLE; i++)
        ck_assert_msg(insane_is_refused((uint64_t)(1 + i), why, sizeof why), "seed %d: %s", 1 + i,
                      why);
}
END_TEST

/// The audit must be able to fail: a state off balance is seen.
START_TEST(audit_sees_a_moved_point) {
    layout *l = layout_new(3);
    bys_state *state;
    bys_audit audit;
    ck_assert_int_eq(bys_state_new(&state, l->net, NULL), BYS_OK);
    bys_audit_island(&audit, state, &l->sea, NULL, 0);
    ck_assert_double_gt(audit.worst_N, 1.0);
    bys_state_free(state);
    layout_free(l);
}
END_TEST

int main(void) {
    Suite *s = suite_create("torture");
    suite_test_limit(s, "sane layouts end true and audited", sane_layouts_end_true_and_audited,
                     300.0);
    suite_test(s, impossible_layouts_are_refused_by_name);
    suite_test(s, audit_sees_a_moved_point);
    return suite_run(s, NULL);
}
