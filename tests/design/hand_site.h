// SPDX-License-Identifier: GPL-3.0-or-later
// A small site put together by hand, for tests of cases and checks: a block of longlines on a level
// sand bed, invented numbers throughout. Tests change what they need before they use it.
#ifndef HAND_SITE_H
#define HAND_SITE_H

#include "site/site.h"

enum { HAND_FACTORS = 8 };

typedef struct {
    bys_site site;
    bys_part warp, chain, shackle, backbone, buoy, panel, anchor;
    bys_gear_values panel_values[1];
    bys_level levels[2];
    bys_current currents[3];
    bys_wind winds[2];
    bys_waves waves[2];
    bys_soil soil;
    bys_stage stages[2];
    bys_block block;
    bys_pattern floats[2], gear[1];
    bys_leg_spec leg;
    bys_leg_item items[3];
    bys_combination combinations[2];
    bys_factor factors[HAND_FACTORS];
    double lease_x[4], lease_y[4];
    double turns[3];
} hand_site;

/// One line of 60 m, 15 m of water at datum, levels LAT 0 m and HAT 4 m, 50 yr current 0.6 m/s from
/// any side, no wind, no waves, 3 t block anchors, factors 1.5 to 3.
void hand_site_make(hand_site *hand);
/// Factor by name, to be changed.
bys_factor *hand_factor(hand_site *hand, const char *component);
/// Takes out the lines: only an explicit network, which has nothing in it.
void hand_site_without_lines(hand_site *hand, bys_free_network *network);

#endif
