// SPDX-License-Identifier: GPL-3.0-or-later
// How the tension at one end of a section changes with what is laid and with the weather.
#ifndef BYS_SENSITIVITY_H
#define BYS_SENSITIVITY_H

#include "statics/state.h"

/// Change of that tension; NAN where it does not apply.
typedef struct {
    double tension;       ///< N, in the state itself
    double per_east;      ///< N/m, the leg's anchor moved east along the bed
    double per_north;     ///< N/m, the leg's anchor moved north along the bed
    double per_length;    ///< N/m, more unstretched length in the leg's longest rope
    double per_current;   ///< N per unit of relative current speed: 0.1 of it for 10 %
} bys_sensitivity;

/// Where the tension is looked at: end b or end a of a section.
typedef struct { int section; bool at_b; } bys_section_end;

/// For one leg of the solver's island, whose stable equilibrium `state` holds. Contact set fixed.
/// To be called with the solver that has just found this state: it knows where slack lines lie.
/// Uses the solver's workspace; the state's forces are assembled anew, its positions stay.
void bys_sensitivity_find(bys_sensitivity *out, bys_solver *solver, bys_state *state,
                          const bys_sea *sea, const bys_condition *condition, int leg,
                          bys_section_end end);
/// The section of the leg that carries a change of length: its longest rope, else its longest part.
int bys_leg_warp(const bys_network *net, const bys_leg *leg);

#endif
