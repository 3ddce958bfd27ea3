// SPDX-License-Identifier: GPL-3.0-or-later
// Legs of a network as they were cut: lengths and places in numbers, nothing left to be found.
#ifndef BYS_DESIGN_AS_CUT_H
#define BYS_DESIGN_AS_CUT_H

#include "lease/network.h"

/// Length as cut (m) of the k-th line of a leg.
double bys_leg_cut(const bys_network *net, const bys_leg *leg, int k);
/// One for each leg, in order; NULL when out of memory.
bys_leg_override *bys_legs_as_cut(bys_arena *arena, const bys_network *net);

#endif
