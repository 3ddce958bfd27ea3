// SPDX-License-Identifier: GPL-3.0-or-later
// The Network's builder: growing plain arrays; texts and small lists live in the arena.
#include "lease/network.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

// Slots of bys_network.grow, one capacity for each array.
enum {
    GROW_POINT,
    GROW_SECTION,
    GROW_ELEMENT,
    GROW_FLOAT,
    GROW_GEAR,
    GROW_PRISM,
    GROW_BODY,
    GROW_FITTING,
    GROW_LEG,
    GROW_ANCHOR,
    GROW_LINE
};

bys_network *bys_network_new(const bys_site *site, int stage) {
    bys_network *net = calloc(1, sizeof *net);
    if (!net)
        return NULL;
    net->arena = bys_arena_new();
    net->site = site;
    net->stage = stage;
    if (!net->arena) {
        free(net);
        return NULL;
    }
    return net;
}

void bys_network_free(bys_network *net) {
    if (!net)
        return;
    free(net->points);
    free(net->sections);
    free(net->elements);
    free(net->floats);
    free(net->gears);
    free(net->prisms);
    free(net->bodies);
    free(net->fittings);
    free(net->legs);
    free(net->anchors);
    free(net->lines);
    bys_arena_free(net->arena);
    free(net);
}

// Makes room for one more item; returns the array, moved or not, or NULL when out of memory.
static void *room_for_one(bys_network *net, int slot, void *array, int count, size_t size) {
    if (count < net->grow[slot])
        return array;
    const int wanted = net->grow[slot] ? 2 * net->grow[slot] : 16;
    void *moved = realloc(array, (size_t)wanted * size);
    if (moved)
        net->grow[slot] = wanted;
    return moved;
}

// Gives a pointer `slot_` to a zeroed new last item of net->array, or returns -1.
#define APPEND(type, slot_, grow_, array, count)                                                   \
    type *slot_ = room_for_one(net, grow_, net->array, net->count, sizeof(type));                  \
    if (!slot_)                                                                                    \
        return -1;                                                                                 \
    net->array = slot_;                                                                            \
    slot_ += net->count;                                                                           \
    memset(slot_, 0, sizeof(type))

static const char *copied(bys_network *net, const char *id) {
    return id && *id ? bys_arena_copy(net->arena, id) : "";
}

int bys_network_point(bys_network *net, const char *id, bys_point_kind kind, const double x[3]) {
    APPEND(bys_point, p, GROW_POINT, points, point_count);
    p->id = copied(net, id);
    if (!p->id)
        return -1;
    p->kind = kind;
    p->body = p->island = -1;
    for (int k = 0; k < 3; k++) {
        p->x[k] = x[k];
        p->hold[k] = kind == BYS_POINT_FIXED;
    }
    return net->point_count++;
}

int bys_network_body_point(bys_network *net, const char *id, int body, const double local[3]) {
    const int i = bys_network_point(net, id, BYS_POINT_BODY, local);
    if (i >= 0)
        net->points[i].body = body;
    return i;
}

// Start position in the world: a body's points are kept in its own axes.
static void world_position(double out[3], const bys_network *net, int point) {
    const bys_point *p = &net->points[point];
    const bys_body *b = p->kind == BYS_POINT_BODY ? &net->bodies[p->body] : NULL;
    for (int k = 0; k < 3; k++)
        out[k] = !b ? p->x[k]
                    : b->x[k] + b->rotation[3 * k] * p->x[0] + b->rotation[3 * k + 1] * p->x[1] +
                          b->rotation[3 * k + 2] * p->x[2];
}

static int add_element(bys_network *net, int a, int b, int section, double length) {
    APPEND(bys_element, e, GROW_ELEMENT, elements, element_count);
    *e = (bys_element){a, b, section, length};
    return net->element_count++;
}

static int add_section(bys_network *net, const char *id, int a, int b, int count, double length,
                       const bys_section *like) {
    APPEND(bys_section, s, GROW_SECTION, sections, section_count);
    *s = *like;
    s->id = copied(net, id);
    if (!s->id)
        return -1;
    s->first = net->element_count;
    s->count = count;
    s->a = a;
    s->b = b;
    s->length = length;
    return net->section_count++;
}

int bys_network_section(bys_network *net, const char *id, int a, int b, int count,
                        const bys_section *like) {
    double xa[3], xb[3];
    const bys_place place = like->place; // `like` may be one of net->sections, which can move
    const double length = like->length;
    world_position(xa, net, a);
    world_position(xb, net, b);
    const bys_section copy = *like;
    const int section = add_section(net, id, a, b, count, length, &copy);
    int before = a;
    for (int i = 1; section >= 0 && i <= count; i++) {
        int next = b;
        if (i < count) {
            const double t = (double)i / count;
            const double x[3] = {xa[0] + t * (xb[0] - xa[0]), xa[1] + t * (xb[1] - xa[1]),
                                 xa[2] + t * (xb[2] - xa[2])};
            next = bys_network_point(net, "", BYS_POINT_FREE, x);
            if (next < 0)
                return -1;
            net->points[next].place = place;
        }
        if (add_element(net, before, next, section, length / count) < 0)
            return -1;
        before = next;
    }
    return section;
}

int bys_network_section_through(bys_network *net, const char *id, const int *points, int n,
                                const double *lengths, const bys_section *like) {
    const bys_section copy = *like;
    double length = 0.0;
    for (int i = 0; i + 1 < n; i++)
        length += lengths[i];
    const int section = add_section(net, id, points[0], points[n - 1], n - 1, length, &copy);
    for (int i = 0; section >= 0 && i + 1 < n; i++)
        if (add_element(net, points[i], points[i + 1], section, lengths[i]) < 0)
            return -1;
    return section;
}

int bys_network_float(bys_network *net, const char *id, const bys_part *part, int point,
                      double count) {
    APPEND(bys_float_set, f, GROW_FLOAT, floats, float_count);
    *f = (bys_float_set){
        .id = copied(net, id), .part = part, .point = point, .count = count, .line = -1};
    return f->id ? net->float_count++ : -1;
}

int bys_network_gear(bys_network *net, const bys_gear_set *gear) {
    const bys_gear_set copy = *gear;
    APPEND(bys_gear_set, g, GROW_GEAR, gears, gear_count);
    *g = copy;
    g->id = copied(net, copy.id);
    return g->id ? net->gear_count++ : -1;
}

int bys_network_body(bys_network *net, const char *id, const double x[3], double mass) {
    APPEND(bys_body, b, GROW_BODY, bodies, body_count);
    b->id = copied(net, id);
    b->mass = mass;
    b->cg_point = b->wind_point = b->island = -1;
    for (int k = 0; k < 3; k++) {
        b->x[k] = x[k];
        b->rotation[4 * k] = 1.0;
    }
    return b->id ? net->body_count++ : -1;
}

int bys_network_prism(bys_network *net, const bys_prism *prism) {
    APPEND(bys_prism, p, GROW_PRISM, prisms, prism_count);
    *p = *prism;
    return net->prism_count++;
}

int bys_network_fitting(bys_network *net, const bys_fitting *fitting) {
    APPEND(bys_fitting, f, GROW_FITTING, fittings, fitting_count);
    *f = *fitting;
    f->id = copied(net, fitting->id);
    return f->id ? net->fitting_count++ : -1;
}

int bys_network_leg(bys_network *net, const bys_leg *leg) {
    APPEND(bys_leg, l, GROW_LEG, legs, leg_count);
    *l = *leg;
    l->id = copied(net, leg->id);
    return l->id ? net->leg_count++ : -1;
}

int bys_network_anchor(bys_network *net, const bys_anchor *anchor) {
    APPEND(bys_anchor, a, GROW_ANCHOR, anchors, anchor_count);
    *a = *anchor;
    a->id = copied(net, anchor->id);
    a->legs = NULL;
    a->leg_count = 0;
    return a->id ? net->anchor_count++ : -1;
}

int bys_network_line(bys_network *net, const bys_line *line) {
    APPEND(bys_line, l, GROW_LINE, lines, line_count);
    *l = *line;
    l->id = copied(net, line->id);
    l->island = -1;
    l->points = bys_arena_get(net->arena, sizeof(int) * (size_t)(line->point_count + 1));
    if (!l->id || !l->points)
        return -1;
    if (line->point_count > 0)
        memcpy(l->points, line->points, sizeof(int) * (size_t)line->point_count);
    return net->line_count++;
}

double bys_section_pull(const bys_section *section, bool storm, double strain, double *slope) {
    const bys_stretch *law = &section->law[storm && section->law[1].ea > 0.0];
    if (law->ea > 0.0)
        return bys_stretch_tension(law, strain, slope);
    *slope = section->stiffness;
    return section->stiffness * strain;
}

int bys_element_count(double length, double q, double tension) {
    // h <= 0.15 T/q: a bar's chord then differs from its catenary by (q h/T)^2/24 < 0.1 %.
    const double wanted = q > 0.0 ? ceil(length * q / (0.15 * tension)) : 0.0;
    if (!(wanted > 4.0))
        return 4;
    return wanted < 64.0 ? (int)wanted : 64;
}
