// SPDX-License-Identifier: GPL-3.0-or-later
// One layout solved, audited, and compared with starts of other kinds.
#ifndef BYS_TESTS_RUN_H
#define BYS_TESTS_RUN_H

#include "torture/layout.h"

/// How a layout came out. Islands count together: the worst status, the largest number of steps.
typedef struct {
    uint64_t seed;
    char what[200];
    bys_status status;
    char reason[200];
    bool named;          ///< a status other than stable names an item and a cause
    bool expected_loose; ///< nothing drives the lost part: indeterminate is the truth
    int factorisations, fallbacks;
    double audit_N, audit_share; ///< worst force left (N); sum over applied load
    char audit_at[80];           ///< where, and how high above the bed
    double seconds;              ///< memory, ordering, cold solve and audit
    bool compared, relaxed;      ///< a second start was balanced; dynamic relaxation was balanced
    double apart_cold;    ///< largest difference of a leg tension over its tolerance, second start
    double apart_relaxed; ///< the same, dynamic relaxation
    bool two;             ///< another equilibrium was found, balanced and stable as well
    bool unsettled;       ///< the push was not followed to the end
    bool wrong;
    char why[160]; ///< what is wrong
} result;

/// Solves the layout; compares with a cold start from a shaken network and, if `relax`, with
/// dynamic relaxation from a shaken start.
result run_layout(layout *l, bool relax);

/// Dynamic relaxation with kinetic damping from the state's positions. Returns the largest force
/// left (N) at an unknown; ends when it is below `enough` or after `limit` steps.
double relax_state(bys_state *state, const bys_sea *sea, const bys_condition *lost, int island,
                   double enough, int limit);

#endif
