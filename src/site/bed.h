// SPDX-License-Identifier: GPL-3.0-or-later
// An uneven seabed: heights at the nodes of a square grid, made once from soundings or from a grid
// file, and read with continuous slopes.
#ifndef BYS_SITE_BED_H
#define BYS_SITE_BED_H

#include "base/arena.h"

#include <stdbool.h>

typedef struct bys_bed_map {
    double x0, y0, step;  ///< m, first node and spacing
    int nx, ny;           ///< nodes to the east and to the north, 2 or more
    double *z;            ///< m above chart datum, rows from south to north
    unsigned char *known; ///< 1: the node is data, 0: filled up beyond it
    double *hull;         ///< corners of the convex hull of the soundings, pairs; NULL: a grid
    int hull_count;
    double least, most;   ///< m, of the data
} bys_bed_map;

/// Height at (x, y) (m); slope: dz/dx, dz/dy; bend: d2z/dx2, d2z/dxdy, d2z/dy2 (1/m). Both may be
/// NULL. Beyond the data it goes on somehow, straight past the grid: see bys_bed_map_beyond.
double bys_bed_map_at(const bys_bed_map *map, double x, double y, double slope[2], double bend[3]);
/// Does a place lie inside the data?
bool bys_bed_map_inside(const bys_bed_map *map, double x, double y);
/// How far (m) a place lies beyond the data; 0 inside.
double bys_bed_map_beyond(const bys_bed_map *map, double x, double y);

/// Map from n soundings (x, y, z triples; no two at one place): Delaunay triangles with plane faces,
/// read off at the nodes. *why says what is wrong with them; NULL map with *why NULL: out of memory.
bys_bed_map *bys_bed_map_soundings(bys_arena *arena, const double *xyz, int n, const char **why);
/// Map with the nodes of a grid: z of nx * ny nodes, NAN where there is none. NULL: out of memory.
bys_bed_map *bys_bed_map_grid(bys_arena *arena, double x0, double y0, double step, int nx, int ny,
                              const double *z);

#endif
