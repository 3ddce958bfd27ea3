// SPDX-License-Identifier: GPL-3.0-or-later
// How much lines and rafts slow the current for those behind them.
//
// GIVEN     networks of all stages, environments whose current is stated with shelter
// RETURNED  a factor (0 to 1) on the current for each backbone with its floats and gear, and for each
//           raft with what hangs under it.
// NOTES     1. Each line is a screen of its gear, as high as the gear; K = sum of Cd w/s. Each raft is a
//              screen square to the current, K = sum of Cd w over its width. Ropes and floats are not
//              counted.
//           2. A point of a line is behind a screen if the way up-current from it meets the screen as
//              laid out. The wake keeps the screen's width; nothing recovers within a farm. A screen that
//              the current meets at less than 30 deg counts for nothing.
//           3. By K of all screens before it: porous screens. By the canopy of which the point is part:
//              two layers. The larger speed of the two counts, 1 where no screen lies before. The factor of
//              a line is the root of the mean square over nine points of it.
//           4. Legs and anchors get the undisturbed current. Waves are not sheltered. Jets between blocks
//              are left out.
// SOURCE    phys/shielding.c; Loland 1991 on the width of a wake [memory]; geometry derived.
#include "lease/network.h"
#include "phys/phys.h"
#include "phys/sea_loads.h"
#include "sea/sea.h"

#include <math.h>
#include <stdlib.h>

enum { POINTS = 9 };

/// A line or a raft as the current sees it.
typedef struct {
    double a[2], b[2];  ///< m, ends in plan
    double K;           ///< -
    double kd, canopy;  ///< of the two-layer model: drag number, m
} screen;

/// Sums over the gear of one line or raft.
typedef struct { double cd_width, width, area, count; } hanging;

static hanging gear_of(const bys_network *net, int line, int body)
{
    hanging h = {0};
    for (int g = 0; g < net->gear_count; g++) {
        const bys_gear_set *set = &net->gears[g];
        const bys_point *p = &net->points[set->point];
        const bool here = line >= 0 ? set->line == line
                                    : p->kind == BYS_POINT_BODY && p->body == body;
        if (!here)
            continue;
        h.cd_width += set->count * set->values->cd * set->values->width;
        h.width += set->count * set->values->width;
        h.area += set->count * set->values->width * set->values->height;
        h.count += set->count;
    }
    return h;
}

static screen screen_of(const hanging *h, double length, double spacing, double depth)
{
    screen s = {.K = length > 0.0 ? h->cd_width / length : 0.0};
    if (h->width > 0.0 && spacing > 0.0) {
        s.canopy = h->area / h->width;
        s.kd = bys_canopy_kd(h->cd_width / h->width, h->width / (length * spacing), depth);
    }
    return s;
}

static screen line_screen(const bys_network *net, int l, const bys_sea *sea)
{
    const bys_line *line = &net->lines[l];
    const hanging h = gear_of(net, l, -1);
    const double spacing = net->site && net->site->block_count > line->block && line->block >= 0
                               ? net->site->blocks[line->block].spacing
                               : 0.0;
    screen s = screen_of(&h, line->length, spacing, sea->depth);
    for (int i = 0; i < 2; i++) {
        s.a[i] = net->points[line->points[0]].x[i];
        s.b[i] = net->points[line->points[line->point_count - 1]].x[i];
    }
    const double dx = s.b[0] - s.a[0], dy = s.b[1] - s.a[1], size = hypot(dx, dy);
    const double sine = size > 0.0 ? (dx * sea->current[1] - dy * sea->current[0]) / size : 0.0;
    if (fabs(sine) < 0.5)
        s.K = 0.0;
    return s;
}

static screen body_screen(const bys_network *net, int b, const bys_sea *sea)
{
    const bys_body *body = &net->bodies[b];
    if (!body->part)
        return (screen){{body->x[0], body->x[1]}, {body->x[0], body->x[1]}, 0.0, 0.0, 0.0};
    const bys_raft_part *r = &body->part->u.raft;
    const hanging h = gear_of(net, -1, b);
    const double width = fmin(r->length, r->width);
    screen s = screen_of(&h, width, fmax(r->length, r->width), sea->depth);
    for (int i = 0; i < 2; i++) {
        const double side = 0.5 * width * (i ? sea->current[0] : -sea->current[1]);
        s.a[i] = body->x[i] - side;
        s.b[i] = body->x[i] + side;
    }
    return s;
}

/// Does the way up-current from p meet the screen, at least a metre off?
static bool behind(const double p[2], const screen *s, const double c[2])
{
    const double ex = s->b[0] - s->a[0], ey = s->b[1] - s->a[1];
    const double wx = s->a[0] - p[0], wy = s->a[1] - p[1], det = -c[0] * ey + c[1] * ex;
    if (fabs(det) < 1e-9)
        return false;
    const double along = (wx * ey - wy * ex) / det, t = (wx * -c[1] + wy * c[0]) / det;
    return along > 1.0 && t >= -1e-6 && t <= 1.0 + 1e-6;
}

static double speed_at(const double p[2], const screen *all, int n, int self, const bys_sea *sea)
{
    double K = 0.0;
    for (int i = 0; i < n; i++)
        if (i != self && all[i].K > 0.0 && behind(p, &all[i], sea->current))
            K += all[i].K;
    if (!(K > 0.0))
        return 1.0;
    const bys_canopy canopy =
        bys_canopy_speed(all[self].kd, all[self].canopy / sea->depth, 0.0025, 0.04);
    return fmin(1.0, fmax(bys_screen_speed(K), canopy.canopy));
}

static double mean_factor(const screen *all, int n, int self, const bys_sea *sea)
{
    double squares = 0.0;
    for (int i = 0; i < POINTS; i++) {
        const double t = (i + 0.5) / POINTS;
        const double p[2] = {all[self].a[0] + t * (all[self].b[0] - all[self].a[0]),
                             all[self].a[1] + t * (all[self].b[1] - all[self].a[1])};
        const double u = speed_at(p, all, n, self, sea);
        squares += u * u;
    }
    return sqrt(squares / POINTS);
}

/// All factors of one network in one environment.
static bool fill(double *shade, const bys_network *net, const bys_sea *sea)
{
    const int lines = net->line_count, n = lines + net->body_count;
    screen *all = calloc((size_t)n + 1, sizeof *all);
    if (!all)
        return false;
    for (int i = 0; i < n; i++)
        all[i] = i < lines ? line_screen(net, i, sea) : body_screen(net, i - lines, sea);
    for (int i = 0; i < n; i++)
        shade[i] = mean_factor(all, n, i, sea);
    free(all);
    return true;
}

bool bys_environments_shelter(bys_environments *list, struct bys_network *const *nets, int count)
{
    for (int e = 0; e < list->count; e++) {
        bys_sea *sea = &list->items[e].sea;
        if (!list->items[e].shields || !isfinite(sea->level) || !(sea->depth > 0.0))
            continue;
        int size = 0;
        for (int k = 0; k < count; k++) {
            const int last = nets[k]->stage > 0 ? nets[k]->stage : 0;
            const int here = (last + 1) * (nets[k]->line_count + nets[k]->body_count);
            size = here > size ? here : size;
        }
        double *shade = bys_arena_get(list->arena, ((size_t)size + 1) * sizeof *shade);
        if (!shade)
            return false;
        for (int i = 0; i < size; i++)
            shade[i] = 1.0;
        for (int k = 0; k < count; k++) {
            const int stage = nets[k]->stage > 0 ? nets[k]->stage : 0;
            if (!fill(shade + stage * (nets[k]->line_count + nets[k]->body_count), nets[k], sea))
                return false;
        }
        sea->shade = shade;
        sea->shade_count = size;
    }
    return true;
}
