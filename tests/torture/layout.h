// SPDX-License-Identifier: GPL-3.0-or-later
// Random layouts that a lease engineer might draw, with weather and lost legs. A seed gives the
// same layout everywhere. All numbers are invented; the ranges are those that gear of this kind
// comes in.
#ifndef BYS_TESTS_LAYOUT_H
#define BYS_TESTS_LAYOUT_H

#include "statics/state.h"
#include "torture/dice.h"

typedef struct {
    uint64_t seed;
    char what[200]; ///< in words, for people
    dice d;
    bys_network *net;
    bys_sea sea;
    bys_condition lost; ///< legs taken out, none if section_count is 0
    int off[32];
    int lost_legs;
    bys_part crop, end, buoy, gear;
    bys_gear_values values;
    double heading;     ///< rad from north, of the layout
    double drag;        ///< N, upper bound of what the current does to the layout
    bool hangs_on_line; ///< the current runs along the lines
    // the leg that is being built
    double rope_stiffness, rope_diameter, chain_diameter;
} layout;

/// The layout of a seed, or NULL when out of memory.
layout *layout_new(uint64_t seed);
void layout_free(layout *l);

// ---- for the kinds of layout --------------------------------------------------------------------

/// z of the bed under a place.
double layout_bed(const layout *l, const double x[3]);
/// A bed that falls by `slope` (rad) and keeps between 2 m and 80 m below the water within `extent`
/// (m).
void layout_set_bed(layout *l, double depth, double extent);
bys_section layout_rope(const layout *l);
bys_section layout_chain(const layout *l);
/// An anchor on the bed `reach` (m) from `top` towards `bearing` (rad from north). Returns its
/// point.
int layout_anchor(layout *l, const char *id, const double top[3], double reach, double bearing);
/// A leg from an anchor's point to `top`: chain, rope, a sinker or a buoy in it by chance; its
/// length lets it hang slack or pulls it tight. Returns the leg.
int layout_leg(layout *l, const char *id, int foot, int top, int line, int body, int end);
/// Reach that goes with a scope by chance at this depth.
double layout_reach(layout *l, double depth);
void layout_point_world(const layout *l, int point, double x[3]);
/// Takes out a leg.
void layout_lose(layout *l, int leg);

void layout_block(layout *l);
void layout_rafts(layout *l);
void layout_buoys(layout *l);
void layout_net_in_air(layout *l);

#endif
