// SPDX-License-Identifier: GPL-3.0-or-later
// How far from its planned place each anchor may be laid.
#ifndef BYS_TOLERANCE_H
#define BYS_TOLERANCE_H

#include "design/judge.h"

/// Fills `tolerance` of every leg; solves only if the options ask for it.
bys_rc bys_judge_tolerances(bys_judge *judge, bys_error *err);

#endif
