// SPDX-License-Identifier: GPL-3.0-or-later
// One connected part with one anchor laid elsewhere: solved in one case, and what the check demands
// of it looked at.
#ifndef BYS_MOVED_H
#define BYS_MOVED_H

#include "design/solving.h"

enum { BYS_BEARINGS = 8 };

typedef enum {
    BYS_MOVED_NOTHING, BYS_MOVED_EQUILIBRIUM, BYS_MOVED_LINE, BYS_MOVED_ANCHOR, BYS_MOVED_LEASE,
    BYS_MOVED_FLOATS, BYS_MOVED_GEAR, BYS_MOVED_EXCURSION, BYS_MOVED_CLEARANCE
} bys_moved_check;

/// The worst of all that is demanded in one case with the anchor at one place.
typedef struct {
    double use;            ///< above 1 = does not pass; INFINITY where it cannot be judged
    bys_moved_check check; ///< what that is
    const char *item;      ///< id
    int lost;              ///< leg lost in it, -1
} bys_moved_seen;

/// What one thread owns for one stage: the network with a foot of its own.
typedef struct {
    bys_network net;       ///< shares all but the points
    bys_workplace place;   ///< its states stand on `net`
    bys_state *rest;       ///< in slack water, for the excursion
    double *outline;       ///< room for polylines
} bys_moved_place;

bys_rc bys_moved_open(bys_judge *judge, bys_moved_place *p, int stage, bys_error *err);
void bys_moved_close(bys_judge *judge, bys_moved_place *p, int stage);

/// The leg's anchor `radius` (m) off towards `bearing` (number of BYS_BEARINGS from north, clockwise)
/// in the case of the job, from a cold start: the result depends on nothing that was solved before.
/// Counts equilibria in *solves.
bys_rc bys_moved_look(bys_moved_seen *seen, bys_judge *judge, const bys_job *job,
                      bys_moved_place *p, int leg, double radius, int bearing, int *solves,
                      bys_error *err);
/// Before that, where a distance between lines is demanded: the other parts in that case.
bys_rc bys_moved_neighbours(bys_judge *judge, const bys_job *job, bys_moved_place *p, int leg,
                            int *solves, bys_error *err);
/// Cases that the check looks at: demanded ones, and those in slack water.
bool bys_moved_wants(const bys_judge *judge, const bys_job *job);

#endif
