// SPDX-License-Identifier: GPL-3.0-or-later
// What moves the governing tension of each leg.
#ifndef BYS_SENSITIVITIES_H
#define BYS_SENSITIVITIES_H

#include "design/judge.h"
#include "statics/sensitivity.h"

enum { BYS_LEG_SECTIONS = 64 };
/// Sections of a leg (-1: none) into `list`; returns their number, at most BYS_LEG_SECTIONS.
int bys_leg_sections(const bys_network *net, int leg, int *list);

/// Fills `rates` of every leg from its governing line check.
bys_rc bys_judge_rates(bys_judge *judge, bys_error *err);

#endif
