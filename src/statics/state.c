// SPDX-License-Identifier: GPL-3.0-or-later
// Memory of the State.
#include "num/vec3.h"
#include "statics/solver.h"

#include <stdlib.h>

/// Sizes of the arrays of one State, in the order of `pointers`.
typedef struct { void *at; size_t bytes; } part_of_state; // at: address of the pointer
enum { PARTS = 15 };

static void parts_of(part_of_state out[PARTS], bys_state *st, const bys_network *net)
{
    const size_t d = sizeof(double), np = (size_t)net->point_count, nb = (size_t)net->body_count;
    const size_t nf = (size_t)net->float_count, ng = (size_t)net->gear_count;
    const part_of_state list[PARTS] = {
        {&st->x, 3 * np * d},
        {&st->body_x, 3 * nb * d},
        {&st->body_r, 9 * nb * d},
        {&st->tension, (size_t)net->element_count * d},
        {&st->sections, (size_t)net->section_count * sizeof *st->sections},
        {&st->reaction, 3 * np * d},
        {&st->bed, np * d},
        {&st->grip, 3 * np * d},
        {&st->submerged, nf * d},
        {&st->lift_left, nf * d},
        {&st->gear_low, ng * d},
        {&st->gear_swing, ng * d},
        {&st->gear_drag, ng * d},
        {&st->islands, (size_t)net->island_count * sizeof *st->islands},
        {NULL, 0},
    };
    memcpy(out, list, sizeof list);
}

/// The pointer stored at `at`, read and written bytewise so that its type does not matter.
static void *load_pointer(const void *at)
{
    void *p;
    memcpy(&p, at, sizeof p);
    return p;
}

static void store_pointer(void *at, void *p)
{
    memcpy(at, &p, sizeof p);
}

static void start_positions(bys_state *st, const bys_network *net)
{
    for (int p = 0; p < net->point_count; p++)
        memcpy(st->x + 3 * (size_t)p, net->points[p].x, 3 * sizeof(double));
    for (int b = 0; b < net->body_count; b++) {
        memcpy(st->body_x + 3 * (size_t)b, net->bodies[b].x, 3 * sizeof(double));
        memcpy(st->body_r + 9 * (size_t)b, net->bodies[b].rotation, 9 * sizeof(double));
    }
    for (int p = 0; p < net->point_count; p++) {
        const bys_point *point = &net->points[p];
        if (point->kind != BYS_POINT_BODY)
            continue;
        double r[3];
        bys_mat_vec(r, st->body_r + 9 * (size_t)point->body, point->x);
        for (int i = 0; i < 3; i++)
            st->x[3 * (size_t)p + (size_t)i] =
                st->body_x[3 * (size_t)point->body + (size_t)i] + r[i];
    }
}

bys_rc bys_state_new(bys_state **out, const bys_network *net, bys_error *err)
{
    bys_state *st = calloc(1, sizeof *st);
    if (!st)
        return bys_error_set(err, BYS_ENOMEM, 0, "out of memory");
    st->net = net;
    part_of_state parts[PARTS];
    parts_of(parts, st, net);
    bool ok = true;
    for (int i = 0; parts[i].at; i++) {
        void *block = calloc(1, parts[i].bytes > 0 ? parts[i].bytes : 1);
        store_pointer(parts[i].at, block);
        ok = ok && block;
    }
    st->scratch = bys_scratch_new(net);
    if (!ok || !st->scratch) {
        bys_state_free(st);
        return bys_error_set(err, BYS_ENOMEM, 0, "out of memory");
    }
    start_positions(st, net);
    *out = st;
    return BYS_OK;
}

void bys_state_free(bys_state *st)
{
    if (!st)
        return;
    part_of_state parts[PARTS];
    parts_of(parts, st, st->net);
    for (int i = 0; parts[i].at; i++)
        free(load_pointer(parts[i].at));
    free(st->scratch);
    free(st);
}

void bys_state_copy(bys_state *to, const bys_state *from)
{
    part_of_state a[PARTS], b[PARTS];
    bys_state source = *from;
    parts_of(a, to, to->net);
    parts_of(b, &source, from->net);
    for (int i = 0; a[i].at; i++)
        memcpy(load_pointer(a[i].at), load_pointer(b[i].at), a[i].bytes);
}

/// Copies item k of an array of items of `size` bytes.
static void copy_item(void *to, const void *from, int k, size_t size)
{
    memcpy((char *)to + (size_t)k * size, (const char *)from + (size_t)k * size, size);
}

void bys_state_copy_island(bys_state *to, const bys_state *from, int island)
{
    const bys_network *net = to->net;
    const bys_island *isl = &net->islands[island];
    const size_t d = sizeof(double);
    for (int i = 0; i < isl->point_count; i++) {
        copy_item(to->x, from->x, isl->points[i], 3 * d);
        copy_item(to->reaction, from->reaction, isl->points[i], 3 * d);
        copy_item(to->bed, from->bed, isl->points[i], d);
        copy_item(to->grip, from->grip, isl->points[i], 3 * d);
    }
    for (int i = 0; i < isl->body_count; i++) {
        copy_item(to->body_x, from->body_x, isl->bodies[i], 3 * d);
        copy_item(to->body_r, from->body_r, isl->bodies[i], 9 * d);
    }
    for (int i = 0; i < isl->element_count; i++) {
        copy_item(to->tension, from->tension, isl->elements[i], d);
        copy_item(to->sections, from->sections, net->elements[isl->elements[i]].section,
                  sizeof *to->sections);
    }
    for (int i = 0; i < isl->float_count; i++) {
        copy_item(to->submerged, from->submerged, isl->floats[i], d);
        copy_item(to->lift_left, from->lift_left, isl->floats[i], d);
    }
    for (int i = 0; i < isl->gear_count; i++) {
        copy_item(to->gear_low, from->gear_low, isl->gears[i], d);
        copy_item(to->gear_swing, from->gear_swing, isl->gears[i], d);
        copy_item(to->gear_drag, from->gear_drag, isl->gears[i], d);
    }
    to->islands[island] = from->islands[island];
}
