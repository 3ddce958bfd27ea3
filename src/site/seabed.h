// SPDX-License-Identifier: GPL-3.0-or-later
// The seabed of a Site: its shape, and its soil.
#ifndef BYS_SITE_SEABED_H
#define BYS_SITE_SEABED_H

#include "site/bed.h"
#include <byssus/base.h>

typedef struct {
    const char *kind;     ///< sand, mud, clay, rock, gravel
    double top, thickness; ///< m below the bed; thickness INFINITY for the last
    double friction_angle; ///< rad; NAN
    double su;            ///< Pa; NAN
    double remoulded;     ///< Pa, after a first slip; NAN
    double unit_weight;   ///< N/m3 submerged; NAN
    bool measured;
    const char *source;
    bys_place place;
    bys_basis basis;      ///< how well these numbers are known
} bys_soil;

/// Soil of its own inside a polygon.
typedef struct {
    const char *id;
    double *x, *y; int count; ///< m, corners in order
    bys_soil *soils; int soil_count;
} bys_soil_zone;

typedef struct {
    double depth, x, y;   ///< m below chart datum at (x, y)
    double slope;         ///< rad
    double deepens;       ///< rad from north
    const bys_bed_map *map; ///< uneven bed in place of the plane; NULL = the plane
    bys_soil *soils; int soil_count;
    bys_soil_zone *zones; int zone_count; ///< other soil inside these; the first that holds a place
    bys_place place;
} bys_seabed;

/// z of the bed at (x, y): m above chart datum, negative below it.
double bys_bed_z(const bys_seabed *bed, double x, double y);
/// How far (m) a place lies beyond what is known of the bed; 0 inside, and everywhere on a plane.
double bys_bed_beyond(const bys_seabed *bed, double x, double y);
/// Layers of soil at a place: those of the first zone that holds it, else the site's.
const bys_soil *bys_bed_soils(const bys_seabed *bed, double x, double y, int *count);

#endif
