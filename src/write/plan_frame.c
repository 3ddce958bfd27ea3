// SPDX-License-Identifier: GPL-3.0-or-later
// Scale and extent of the plan drawing.
#include "write/plan.h"

#include <math.h>

static const double canvas = 860.0, tallest = 1000.0, side = 72.0, above = 66.0, below = 78.0;

static void reach(bys_plan_frame *frame, double x, double y)
{
    if (!isfinite(x) || !isfinite(y))
        return;
    frame->x0 = fmin(frame->x0, x);
    frame->x1 = fmax(frame->x1, x);
    frame->y0 = fmin(frame->y0, y);
    frame->y1 = fmax(frame->y1, y);
}

static void reach_line(bys_plan_frame *frame, const double *xyz, int count)
{
    for (int i = 0; xyz && i < count; i++)
        reach(frame, xyz[3 * i], xyz[3 * i + 1]);
}

bool bys_plan_frame_of(bys_plan_frame *frame, const bys_design *design)
{
    *frame = (bys_plan_frame){.x0 = INFINITY, .y0 = INFINITY, .x1 = -INFINITY, .y1 = -INFINITY};
    for (int i = 0; i < design->lease_count; i++)
        reach(frame, design->lease_x[i], design->lease_y[i]);
    for (int i = 0; i < design->plan_count; i++) {
        reach_line(frame, design->plan[i].xyz, design->plan[i].count);
        reach_line(frame, design->plan[i].worst_xyz, design->plan[i].count);
    }
    for (int i = 0; i < design->anchor_count; i++)
        reach(frame, design->anchors[i].x_m, design->anchors[i].y_m);
    if (!isfinite(frame->x0 + frame->x1 + frame->y0 + frame->y1))
        return false;
    const double wide = fmax(frame->x1 - frame->x0, 1.0), high = fmax(frame->y1 - frame->y0, 1.0);
    const double room_u = canvas - 2 * side, room_v = tallest - above - below;
    frame->scale = fmin(room_u / wide, room_v / high);
    frame->width = canvas;
    frame->height = fmax(260.0, high * frame->scale + above + below);
    frame->left = (canvas - wide * frame->scale) / 2;
    frame->top = above;
    return true;
}

void bys_plan_point(const bys_plan_frame *frame, double x, double y, double uv[2])
{
    uv[0] = frame->left + (x - frame->x0) * frame->scale;
    uv[1] = frame->top + (frame->y1 - y) * frame->scale;
}
