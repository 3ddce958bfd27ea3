// SPDX-License-Identifier: GPL-3.0-or-later
// What to pull each anchor to when it is laid. One list of rows for every format.
#ifndef BYS_WRITE_PROOF_ROWS_H
#define BYS_WRITE_PROOF_ROWS_H

#include <byssus/design.h>

#define BYS_PROOF_HOLD_MIN 3.0    ///< how long a load is held once the reading has settled
#define BYS_PROOF_STEP_N 44482.216152605 ///< largest step: 10,000 lbf
#define BYS_PROOF_BOX_ALONG_M 12.2 ///< where the anchor must lie after the pull
#define BYS_PROOF_BOX_ACROSS_M 6.1

/// One anchor. NAN: not known, or does not apply.
typedef struct {
    const bys_anchor_result *anchor;
    const bys_leg_result *leg; ///< the leg to pull with: its first; NULL = it has none
    double pull_N;             ///< the whole load of the governing case, before factors
    double holding_N;          ///< held, it counts as holding power that the rules ask for
    double step_N;             ///< a quarter of the pull, at most BYS_PROOF_STEP_N
    double towards_rad;        ///< bearing of the pull from the anchor
    double line_m;             ///< all of the leg's line, as made
    double rise_rad;           ///< that line straight from the bed to the highest water level
    double pull_use, holding_use; ///< of what the rules let the leg's weakest part carry; 1 = all
    const char *why;           ///< why there is no pull; "" = there is one
} bys_proof_row;

void bys_proof_row_make(bys_proof_row *row, const bys_design *design, int anchor);

#endif
