// SPDX-License-Identifier: GPL-3.0-or-later
// Pull tests inside: reading, reducing, comparing.
#ifndef BYS_DESIGN_PULLTEST_H
#define BYS_DESIGN_PULLTEST_H

#include "base/arena.h"
#include <byssus/pulltest.h>

/// The public result and what it owns.
typedef struct {
    bys_pulltest result; ///< first, so that the public pointer is this one
    bys_arena *arena;
} bys_pulltest_owner;

typedef struct {
    bys_arena *arena;
    bys_messages *messages;
    const bys_pulltest_options *options;
    const double *at_m;
    int at_count;
    bool failed;  ///< out of memory
    bool missing; ///< a file could not be opened
} bys_pull_work;

/// Reads one record; faults go to the messages. False after any fault.
bool bys_pull_read(bys_pull_test *out, const char *path, bys_pull_work *work);
/// Header lines, for bys_pull_read: one "key: value" at `text`.
void bys_pull_header(bys_pull_test *test, char *text, bys_place place, unsigned long long *seen,
                     bys_pull_work *work);
/// Says which needed header lines are missing, and sets what follows from the others.
void bys_pull_header_end(bys_pull_test *test, unsigned long long seen, bys_place place,
                         bys_pull_work *work);

/// Fills the reduction of a record that was read.
void bys_pull_reduce(bys_pull_test *test, bys_pull_work *work);
/// Load at a drag between the first and the last reading, NAN outside: the least where readings at
/// one drag differ.
double bys_pull_load_at(const bys_pull_test *test, double drag);
void bys_pull_hold_judge(bys_pull_test *test, bys_pull_work *work);

/// Groups, comparability, fractiles, capacity.
void bys_pull_compare(bys_pulltest *result, bys_pull_work *work);
void bys_pull_group_capacity(bys_pull_group *group, const bys_pulltest *result,
                             bys_pull_work *work);

#endif
