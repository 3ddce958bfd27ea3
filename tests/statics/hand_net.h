// SPDX-License-Identifier: GPL-3.0-or-later
// Small networks built by hand for the solver's tests. All numbers invented.
#ifndef BYS_TESTS_HAND_NET_H
#define BYS_TESTS_HAND_NET_H

#include "statics/state.h"

/// Where a network stands: turned about the z axis, mirrored in x, moved in plan; backwards: its points
/// and sections numbered from the north end.
typedef struct { double turn, mirror, dx, dy; int backwards; } placing;
#define PLACED_PLAIN ((placing){0.0, 1.0, 0.0, 0.0, 0})

/// A longline of 120 m along y with 30 floats, 100 panels and a leg at each end (reach, warp, chain in
/// m); its floats start near z = 4.4. The bed falls 0.4 degrees to the north, 15 m deep at the middle.
bys_network *hand_longline(double reach, double warp, double chain, placing at);
/// A 10 m raft on four prisms with a leg at each corner.
bys_network *hand_raft(void);
/// Weather over them: speed (m/s) towards `degrees`, wind (m/s) and waves (m) the same way.
bys_sea hand_sea(double speed, double degrees, double wind, double hs, double level, placing at);

#endif
