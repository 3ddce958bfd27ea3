// SPDX-License-Identifier: GPL-3.0-or-later
// Inside of the as-laid check.
#ifndef BYS_DESIGN_ASLAID_H
#define BYS_DESIGN_ASLAID_H

#include "base/arena.h"
#include "lease/network.h"
#include "tune/tune.h"
#include <byssus/aslaid.h>

/// One row of a file of positions.
typedef struct {
    const char *name, *time;
    double x, y;       ///< m in the site's plane; as read: in the site's frame; NAN
    double lat, lon;   ///< deg, as read; NAN
    double tension;    ///< N; NAN
    bys_place place;
    int anchor, leg;   ///< what it was matched to; -1. leg: only when a leg was named
} bys_position;

typedef struct {
    bys_position *items;
    int count, capacity;
    const char *datum; ///< of lat and lon; "" = WGS 84
    bys_place datum_place;
} bys_positions;

typedef struct {
    bys_aslaid result; ///< first: its address is that of the whole
    bys_arena *arena;
    const bys_site *site;
    const bys_aslaid_options *options;
    bys_messages *messages;
    bys_network *net;        ///< as designed, first stage, found lengths put in
    bys_positions positions;
    bool missing;            ///< the file of positions cannot be opened
    bool failed;             ///< out of memory
} bys_aslaid_work;

// positions.c
/// False after a fault, which is told.
bool bys_positions_read(bys_aslaid_work *work, const char *path);

/// One empty row more, NULL when out of memory or when there are too many.
bys_position *bys_position_add(bys_aslaid_work *work, bys_place place);
// positions_gpx.c
/// Waypoints of a GPX file; faults are told.
void bys_positions_gpx(bys_aslaid_work *work, const char *bytes, size_t size, int file);
// positions_frame.c
/// Takes what was read into the site's plane; faults are told.
void bys_positions_place(bys_aslaid_work *work);

// aslaid_match.c
/// Fills anchors, strays and counts. False after a fault, which is told.
bool bys_aslaid_match(bys_aslaid_work *work);

// aslaid_site.c
/// All legs at their true anchors with the lengths that were cut.
bys_leg_override *bys_aslaid_as_made(bys_aslaid_work *work);
/// The same, where the top rope of each leg whose anchor moved is open and its pretension stated.
/// Legs without a known pretension stay as made.
bys_leg_override *bys_aslaid_open(bys_aslaid_work *work);
/// Index of the item that is adjusted: the topmost rope, else the topmost line; -1.
int bys_aslaid_warp(const bys_leg_spec *spec);
/// Its anchor stands elsewhere than it was to.
bool bys_aslaid_moved(const bys_aslaid_work *work, const bys_leg *leg);

// aslaid_legs.c
/// Legs side by side, what to measure, verdict and headline.
void bys_aslaid_judge(bys_aslaid_work *work);

#endif
