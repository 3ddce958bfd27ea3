// SPDX-License-Identifier: GPL-3.0-or-later
// The one list of places of a lease: what a skipper steers to and a drawing office plots. All
// formats that name places (sheets, workbook, GPX, KML, GeoJSON, DXF) take their rows from it, so
// that no two of them disagree. Lines between places are in bys_design.plan.
#ifndef BYS_WRITE_MARKS_H
#define BYS_WRITE_MARKS_H

#include <byssus/design.h>

typedef enum {
    BYS_MARK_CORNER, ///< corner of the lease
    BYS_MARK_ANCHOR, ///< where an anchor is to lie in the end
    BYS_MARK_DROP    ///< where a drag anchor is let go, so that it ends up in its place
} bys_mark_kind;

#define BYS_MARK_NAME 12 ///< characters; chart plotters cut longer names

typedef struct {
    bys_mark_kind kind;
    char name[BYS_MARK_NAME + 1]; ///< unique in the list; letters, digits and '-'
    const char *id;               ///< anchor id; lease id for corners. Borrowed from the design
    int index;                    ///< of the anchor, or of the corner
    double x_m, y_m;              ///< in the site's plane
    double depth_m;               ///< below chart datum; NAN for corners
    double easting_m, northing_m; ///< in the projected frame; NAN if there is none
    double lat_deg, lon_deg;      ///< WGS 84; NAN if the frame has no place on the Earth
    double lease_margin_m;        ///< to the lease's boundary, negative outside; NAN: no lease
} bys_mark;

typedef struct {
    bys_mark *items;
    int count;
} bys_marks;

/// Corners, then anchors, then drop points, each in the design's order. False: out of memory.
bool bys_marks_make(bys_marks *out, const bys_design *design);
void bys_marks_free(bys_marks *marks);
/// The mark of an anchor: its drop point if it has one and `drop` is set, else its place.
const bys_mark *bys_marks_anchor(const bys_marks *marks, int anchor, bool drop);
/// "lease corner", "anchor", "drop point".
const char *bys_mark_kind_name(bys_mark_kind kind);
/// "drag anchor 500 kg, L05/N, 15.2 m below chart datum": appended for people.
void bys_mark_words(bys_text *out, const bys_design *design, const bys_mark *mark);
/// Distance to the lease's boundary (m), negative outside; NAN without a lease.
double bys_lease_margin(const bys_design *design, double x, double y);

#endif
