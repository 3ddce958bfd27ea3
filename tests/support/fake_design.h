// SPDX-License-Identifier: GPL-3.0-or-later
// A made-up bys_design for tests of the writers: no engine ran, every number is invented.
#ifndef BYS_TESTS_SUPPORT_FAKE_DESIGN_H
#define BYS_TESTS_SUPPORT_FAKE_DESIGN_H

#include <byssus/aslaid.h>
#include <byssus/calendar.h>

typedef struct {
    int lines;           ///< 1 .. 60 longlines, two legs each
    const char *verdict; ///< "pass", "fail" or "incomplete"
    bool hostile;        ///< names with <>&"' and a line break, NAN and infinity in the numbers
} fake_options;

bys_design *fake_design_new(const fake_options *options);
void fake_design_free(bys_design *design);

/// Takes both designs over: changes, checks of every list and all legs, side by side.
bys_comparison *fake_comparison_new(bys_design *before, bys_design *after);
void fake_comparison_free(bys_comparison *comparison);

/// Takes the design over: one anchor 9 m off, one without a position, a leg that no longer passes.
bys_aslaid *fake_aslaid_new(bys_design *design);
void fake_aslaid_free(bys_aslaid *result);

/// Three months, two lines that need two and then four floats, a gap in a load.
bys_calendar *fake_calendar_new(const char *verdict);
void fake_calendar_free(bys_calendar *calendar);

bys_solution *fake_solution_new(void);
void fake_solution_free(bys_solution *solution);

#endif
