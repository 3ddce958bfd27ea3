// SPDX-License-Identifier: GPL-3.0-or-later
// One equilibrium inside the main job: the ways that are tried, and the audit of the outcome.
#ifndef BYS_SOLVING_H
#define BYS_SOLVING_H

#include "design/judge.h"

/// What one thread owns for one stage; made when first needed.
typedef struct {
    bys_state *intact, *lost;
    bys_solver **solvers; ///< by island, each made when first needed
    bys_audit audit;      ///< of the solve just done, if it was stable
} bys_workplace;

/// What is to be solved, and how it may begin.
typedef struct {
    bys_state *state;
    int island;
    const bys_condition *condition; ///< NULL = intact
    const bys_sea *sea;
    bool warm;              ///< begin from what the state holds
    const bys_state *rest;  ///< in slack water, to begin from when a cold start fails; may be NULL
} bys_task;

bys_rc bys_workplace_open(bys_judge *judge, bys_workplace *place, int stage, bys_error *err);
void bys_workplace_close(bys_judge *judge, bys_workplace *place, int stage);
/// Solves and audits one island. The last outcome is always one in the full weather, or one that is
/// not stable.
bys_rc bys_workplace_solve(bys_workplace *place, const bys_task *task, bys_error *err);

#endif
