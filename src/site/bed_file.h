// SPDX-License-Identifier: GPL-3.0-or-later
// Depths in files: soundings as CSV, grids as ESRI ASCII. What is read is as the file has it: no
// frame, datum or sign is applied.
#ifndef BYS_SITE_BED_FILE_H
#define BYS_SITE_BED_FILE_H

#include "base/arena.h"
#include <byssus/base.h>

/// Soundings: place and value, with the line of each.
typedef struct {
    double *at;    ///< x, y (m) or lat, lon (rad) and value (m), triples
    int *lines;
    int count;
    bool latlon;   ///< columns lat and lon
    bool depths;   ///< the value's column is named depth; else height
    bool named;    ///< it is named so; else value
} bys_sounding_list;

/// Faults go to messages, each with line and column. False after a fault or out of memory.
bool bys_soundings_read(bys_sounding_list *out, bys_arena *arena, const char *bytes, int file,
                        bys_messages *messages);

typedef struct {
    double x0, y0, step; ///< middle of the south-west cell, size of a cell, in the file's units
    int nx, ny;
    double *z;           ///< rows from south to north; NAN where there is no data
} bys_grid_file;

bool bys_grid_read(bys_grid_file *out, bys_arena *arena, const char *bytes, int file,
                   bys_messages *messages);

#endif
