// SPDX-License-Identifier: GPL-3.0-or-later
// Room for labels in the plan: greedy, worst leg first, never one label over another.
#include "write/plan.h"

#include <math.h>
#include <stdlib.h>

void bys_plan_room_free(bys_plan_room *room)
{
    free(room->boxes);
    free(room->strokes);
    *room = (bys_plan_room){0};
}

static bool grow(void **items, int *capacity, int count, size_t size)
{
    if (count < *capacity)
        return true;
    int wanted = *capacity ? 2 * *capacity : 64;
    void *more = realloc(*items, (size_t)wanted * size);
    if (!more)
        return false;
    *items = more;
    *capacity = wanted;
    return true;
}

void bys_plan_room_take(bys_plan_room *room, bys_plan_box box)
{
    void *items = room->boxes;
    if (grow(&items, &room->box_room, room->box_count, sizeof box)) {
        room->boxes = items;
        room->boxes[room->box_count++] = box;
    } else {
        room->failed = true;
    }
}

void bys_plan_room_stroke(bys_plan_room *room, const double a[2], const double b[2])
{
    void *items = room->strokes;
    if (grow(&items, &room->stroke_room, room->stroke_count, sizeof room->strokes[0])) {
        room->strokes = items;
        double *stroke = room->strokes[room->stroke_count++];
        stroke[0] = a[0], stroke[1] = a[1], stroke[2] = b[0], stroke[3] = b[1];
    } else {
        room->failed = true;
    }
}

static bool overlap(const bys_plan_box *a, const bys_plan_box *b)
{
    return a->u0 < b->u1 && b->u0 < a->u1 && a->v0 < b->v1 && b->v0 < a->v1;
}

// Clips the stroke p + t q, 0 <= t <= 1, to low <= p + t q <= high in one coordinate.
static bool clip(double p, double q, double low, double high, double *from, double *to)
{
    if (fabs(q) < 1e-12)
        return p > low && p < high;
    double t0 = (low - p) / q, t1 = (high - p) / q;
    *from = fmax(*from, fmin(t0, t1));
    *to = fmin(*to, fmax(t0, t1));
    return *from < *to;
}

static bool crosses(const bys_plan_box *box, const double stroke[4])
{
    double from = 0.0, to = 1.0;
    return clip(stroke[0], stroke[2] - stroke[0], box->u0, box->u1, &from, &to) &&
           clip(stroke[1], stroke[3] - stroke[1], box->v0, box->v1, &from, &to);
}

static bool is_free(const bys_plan_room *room, const bys_plan_box *box)
{
    if (box->u0 < 2.0 || box->v0 < 2.0 || box->u1 > room->width - 2.0 ||
        box->v1 > room->height - 2.0)
        return false;
    for (int i = 0; i < room->box_count; i++)
        if (overlap(box, &room->boxes[i]))
            return false;
    return true;
}

static int crossed(const bys_plan_room *room, const bys_plan_box *box)
{
    int count = 0;
    for (int i = 0; i < room->stroke_count; i++)
        count += crosses(box, room->strokes[i]);
    return count;
}

static bys_plan_box box_at(const double middle[2], double width, double height)
{
    return (bys_plan_box){middle[0] - width / 2, middle[1] - height / 2, middle[0] + width / 2,
                          middle[1] + height / 2};
}

bool bys_plan_room_place(bys_plan_room *room, const double at[2], const double outward[2],
                         double width, double height, double middle[2], bool *far)
{
    static const double turns[] = {0.0, 0.6, -0.6, 1.2, -1.2};
    enum { TURNS = sizeof turns / sizeof turns[0], STEPS = 4 };
    double best = INFINITY;
    for (int step = 0; step < STEPS; step++)
        for (int k = 0; k < (step > 1 ? 1 : TURNS); k++) { // far labels: straight out
            const double c = cos(turns[k]), s = sin(turns[k]);
            const double u = c * outward[0] - s * outward[1], v = s * outward[0] + c * outward[1];
            const double half = fabs(u) * width / 2 + fabs(v) * height / 2;
            const double reach = 9.0 + half + step * (height + 3.0);
            const double here[2] = {at[0] + reach * u, at[1] + reach * v};
            const bys_plan_box box = box_at(here, width, height);
            if (!is_free(room, &box))
                continue;
            const double cost = 3.0 * crossed(room, &box) + 1.0 * k + 1.5 * step;
            if (cost < best) {
                best = cost;
                middle[0] = here[0], middle[1] = here[1];
                *far = step > 0;
            }
        }
    if (!isfinite(best))
        return false;
    bys_plan_room_take(room, box_at(middle, width, height));
    return true;
}

bool bys_plan_room_sit(bys_plan_room *room, const double at[2], double width, double height)
{
    const bys_plan_box box = box_at(at, width, height);
    if (!is_free(room, &box))
        return false;
    bys_plan_room_take(room, box);
    return true;
}
