// SPDX-License-Identifier: GPL-3.0-or-later
// The soil under a place, layer by layer, as anchors ask for it.
#ifndef BYS_DESIGN_GROUND_H
#define BYS_DESIGN_GROUND_H

#include "site/site.h"

typedef struct { const bys_soil *layers; int count; } bys_ground; ///< from the bed down

/// CLAY: clay and mud; SAND: sand and silty sand; OTHER: rock, gravel, silt, carbonate sand, coral.
typedef enum { BYS_GROUND_NONE, BYS_GROUND_CLAY, BYS_GROUND_SAND, BYS_GROUND_OTHER }
    bys_ground_family;

/// Layers of one family that follow each other, and the weakest of their numbers.
typedef struct {
    bys_ground_family family;
    const bys_soil *last;     ///< the deepest of them
    int layers;
    double from, to;          ///< m below the bed; to INFINITY under the lowest layer
    double su, phi, weight;   ///< Pa, rad, N/m3 in water; NAN: one of them is not stated
    bys_basis basis;
} bys_soil_run;

bys_ground bys_ground_at(const bys_site *site, double x, double y);
const bys_soil *bys_ground_top(const bys_ground *ground); ///< NULL if no soil is stated
bys_ground_family bys_soil_family(const bys_soil *soil);
bool bys_soil_is(const bys_soil *soil, const char *kind);
bys_basis bys_soil_basis(const bys_soil *soil);
/// The stretch that holds the depth `to`, cut off there; its layers above count, not those below.
bys_soil_run bys_ground_run(const bys_ground *ground, double to);
/// Depth (m) down to which the top layer's family goes on.
double bys_ground_top_thickness(const bys_ground *ground);

#endif
