// SPDX-License-Identifier: GPL-3.0-or-later
// Scratch per point, float and section of a network, in one block of memory.
#include "statics/solver.h"

#include <stdlib.h>

/// Hands out doubles, then bytes, of one block; with no block it only counts.
typedef struct { double *doubles; size_t count; unsigned char *bytes; size_t byte_count; } carver;

static double *doubles(carver *c, size_t n)
{
    double *p = c->doubles ? c->doubles + c->count : NULL;
    c->count += n;
    return p;
}

static unsigned char *bytes(carver *c, size_t n)
{
    unsigned char *p = c->bytes ? c->bytes + c->byte_count : NULL;
    c->byte_count += n;
    return p;
}

static void carve(bys_scratch *w, carver *c, const bys_network *net)
{
    const size_t np = (size_t)net->point_count;
    w->force = doubles(c, 3 * np);
    w->point_tangent = doubles(c, 9 * np);
    w->turn_tangent = doubles(c, 18 * (size_t)net->body_count);
    w->bed_weight = doubles(c, np);
    w->bed_stiffness = doubles(c, np);
    w->distance = doubles(c, np);
    w->lie = doubles(c, 3 * np);
    w->pull = doubles(c, np);
    w->pressed = doubles(c, np);
    w->pressed_eff = doubles(c, np);
    w->pressed_k = doubles(c, np);
    w->alive = bytes(c, np);
    w->off = bytes(c, (size_t)net->section_count);
    w->out = bytes(c, (size_t)net->element_count);
    w->float_out = bytes(c, (size_t)net->float_count);
}

bys_scratch *bys_scratch_new(const bys_network *net)
{
    bys_scratch *w, counted;
    carver c = {0};
    carve(&counted, &c, net);
    const size_t d = c.count * sizeof(double);
    w = calloc(1, sizeof *w + d + c.byte_count);
    if (!w)
        return NULL;
    c = (carver){.doubles = (double *)(w + 1)};
    c.bytes = (unsigned char *)(w + 1) + d;
    carve(w, &c, net);
    return w;
}

void bys_scratch_borrow(bys_solver *s, const bys_state *state)
{
    const bys_scratch *w = state->scratch;
    s->force = w->force;
    s->point_tangent = w->point_tangent;
    s->turn_tangent = w->turn_tangent;
    s->bed_weight = w->bed_weight;
    s->bed_stiffness = w->bed_stiffness;
    s->distance = w->distance;
    s->lie = w->lie;
    s->pull = w->pull;
    s->pressed = w->pressed;
    s->pressed_eff = w->pressed_eff;
    s->pressed_k = w->pressed_k;
    s->alive = w->alive;
    s->off = w->off;
    s->out = w->out;
    s->float_out = w->float_out;
}
