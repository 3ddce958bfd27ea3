// SPDX-License-Identifier: GPL-3.0-or-later
// Values of a comparison that text, JSON and page read alike.
#ifndef BYS_WRITE_COMPARE_ROWS_H
#define BYS_WRITE_COMPARE_ROWS_H

#include <byssus/compare.h>

/// A leg on one side: NAN and "not there" where it is missing.
typedef struct {
    double tension_N, line_use, anchor_use;
    bys_verdict verdict;
    bool there;
} bys_leg_side;
bys_leg_side bys_leg_before(const bys_comparison *c, const bys_leg_pair *pair);
bys_leg_side bys_leg_after(const bys_comparison *c, const bys_leg_pair *pair);
/// Tension within 0.1 %, uses within 0.002, verdict the same.
bool bys_leg_same(const bys_comparison *c, const bys_leg_pair *pair);
/// "L05, float reserve: 18 % -> 39 %", with `arrow` between the two values
void bys_pair_words(bys_text *out, const bys_check_pair *pair, const char *arrow);
/// Value with its unit: "18 %", "1.32".
void bys_pair_value(bys_text *out, const bys_check_pair *pair, double value);

#endif
