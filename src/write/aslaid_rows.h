// SPDX-License-Identifier: GPL-3.0-or-later
// Sentences of an as-laid check that text and page share.
#ifndef BYS_WRITE_ASLAID_ROWS_H
#define BYS_WRITE_ASLAID_ROWS_H

#include "write/rows.h"
#include <byssus/aslaid.h>

/// All three states alike: tensions within 1 % of the design's, verdicts equal.
bool bys_laid_leg_same(const bys_laid_leg *leg);
/// "L08/N/rope (warp28): let out 2.31 m, from 55.00 m to 57.31 m".
void bys_adjust_words(bys_text *out, const bys_laid_leg *leg);
/// What is known of a position without an anchor.
void bys_stray_words(bys_text *out, const bys_laid_stray *stray);

#endif
