// SPDX-License-Identifier: GPL-3.0-or-later
// The plan drawing: how ground metres become drawing units, and where labels find room.
#ifndef BYS_WRITE_PLAN_H
#define BYS_WRITE_PLAN_H

#include <byssus/design.h>

/// North up: u = left + (x - x0) * scale to the right, v = top + (y1 - y) * scale down.
typedef struct {
    double x0, y0, x1, y1; ///< m, what must be seen
    double scale;          ///< drawing units per metre
    double left, top, width, height;
} bys_plan_frame;

/// False if there is nothing to draw.
bool bys_plan_frame_of(bys_plan_frame *frame, const bys_design *design);
void bys_plan_point(const bys_plan_frame *frame, double x, double y, double uv[2]);

/// The drawing itself, without the <svg> around it; nothing if there is nothing to draw.
void bys_plan_drawing(bys_text *out, const bys_design *design, bys_plan_frame *frame);

typedef struct { double u0, v0, u1, v1; } bys_plan_box;

/// Room for labels: boxes that are taken, strokes that are better not crossed.
typedef struct {
    bys_plan_box *boxes;
    int box_count, box_room;
    double (*strokes)[4];
    int stroke_count, stroke_room;
    bool failed; ///< out of memory
    double width, height;
} bys_plan_room;

void bys_plan_room_free(bys_plan_room *room);
void bys_plan_room_take(bys_plan_room *room, bys_plan_box box);
void bys_plan_room_stroke(bys_plan_room *room, const double a[2], const double b[2]);
/// Finds the middle of a label of the given size near `at`, preferably along the unit vector
/// `outward`; takes the room. `far` says that it ended up so far off that it needs a leader.
/// False: no room without covering another label.
bool bys_plan_room_place(bys_plan_room *room, const double at[2], const double outward[2],
                         double width, double height, double middle[2], bool *far);
/// A label exactly at `at`, which may cover strokes; false if another label is there.
bool bys_plan_room_sit(bys_plan_room *room, const double at[2], double width, double height);

#endif
