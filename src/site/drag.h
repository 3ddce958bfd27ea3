// SPDX-License-Identifier: GPL-3.0-or-later
// Part of the Site: drag records, what parts say of their drag, marine growth.
#ifndef BYS_SITE_DRAG_H
#define BYS_SITE_DRAG_H

#include <byssus/base.h>

/// A drag coefficient with what is known of it; parts refer to it. "law" says what it is of.
typedef enum {
    BYS_LAW_OUTLINE, BYS_LAW_PANEL, BYS_LAW_LANTERN, BYS_LAW_NET, BYS_LAW_NET_LOLAND,
    BYS_LAW_NET_KRISTIANSEN, BYS_LAW_BASKET, BYS_LAW_WEED, BYS_LAW_LINE, BYS_LAW_SPHERE,
    BYS_LAW_BARREL, BYS_LAW_HULL
} bys_law;
typedef struct {
    bys_law law;
    double coefficient;        ///< on the outline, face, diameter or long side; NAN where the law gives it
    double edge;               ///< panel edge-on on its face; NAN
    double along;              ///< line: along, on the diameter; hull: end-on; NAN
    double speed, power;       ///< weed: speed at which the coefficient holds (m/s), power of the speed
    double low, high;          ///< what other sources give; NAN
    double reynolds_from, reynolds_to, speed_from, speed_to; ///< range of the source; NAN
} bys_drag_part;

/// What a part says of its drag: a record, and a number of its own in its place.
typedef struct {
    const struct bys_part *record; ///< NULL: none named
    bool stated;                   ///< the part states its own coefficient
    const char *because;           ///< why, where that replaces the record's; "" else
} bys_drag_use;

/// Marine growth at a crop stage. The first that fits a part counts.
typedef enum { BYS_GROWS_ALL, BYS_GROWS_ROPES, BYS_GROWS_CHAINS, BYS_GROWS_FLOATS } bys_growth_on;
typedef struct bys_growth_spec {
    bys_growth_on on;
    const struct bys_part *part; ///< only this one; NULL = all of the kind
    double thickness;      ///< m
    double density;        ///< kg/m3
    const char *source;
    bys_basis basis;
    bys_place place;
} bys_growth_spec;

#endif
