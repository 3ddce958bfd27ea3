// SPDX-License-Identifier: GPL-3.0-or-later
// What can be refused before solving, in the user's words.
#include "lease/expand.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

// Elements by point: those of point i are list[start[i]] .. list[start[i+1]-1].
typedef struct {
    int *start, *list;
    double *far; // longest way round to each point that was reached
    int *queue;  // ring of point_count + 1
    int *touched;
    unsigned char *queued;
} web;

static void web_free(web *w) {
    free(w->start);
    free(w->list);
    free(w->far);
    free(w->queue);
    free(w->touched);
    free(w->queued);
}

static bool web_make(web *w, const bys_network *net) {
    const size_t n = (size_t)net->point_count + 2, m = 2 * (size_t)net->element_count + 1;
    *w = (web){calloc(n, sizeof(int)),  malloc(m * sizeof(int)), malloc(n * sizeof(double)),
               malloc(n * sizeof(int)), malloc(n * sizeof(int)), calloc(n, 1)};
    if (!w->start || !w->list || !w->far || !w->queue || !w->touched || !w->queued)
        return false;
    for (int e = 0; e < net->element_count; e++) {
        w->start[net->elements[e].a + 1]++;
        w->start[net->elements[e].b + 1]++;
    }
    for (int i = 0; i < net->point_count; i++) {
        w->start[i + 1] += w->start[i];
        w->far[i] = INFINITY;
    }
    int *at = w->queue; // filled up to start[i]; the ring is not yet in use
    memcpy(at, w->start, n * sizeof(int));
    for (int e = 0; e < net->element_count; e++) {
        w->list[at[net->elements[e].a]++] = e;
        w->list[at[net->elements[e].b]++] = e;
    }
    return true;
}

static double apart(const double a[3], const double b[3]) {
    return sqrt((a[0] - b[0]) * (a[0] - b[0]) + (a[1] - b[1]) * (a[1] - b[1]) +
                (a[2] - b[2]) * (a[2] - b[2]));
}

/// Ring queue of points whose distance has fallen.
typedef struct {
    int head, count, touched;
} ring;

static void lower(web *w, ring *r, int size, int point, double far) {
    if (far >= w->far[point])
        return;
    if (w->far[point] == INFINITY)
        w->touched[r->touched++] = point;
    w->far[point] = far;
    if (w->queued[point])
        return;
    w->queued[point] = 1;
    w->queue[(r->head + r->count++) % size] = point;
}

// How far can each point be from `from` when everything between is stretched to its limit?
static int reach_from(web *w, const bys_network *net, int from) {
    const int size = net->point_count + 1;
    ring r = {0, 0, 0};
    lower(w, &r, size, from, 0.0);
    while (r.count > 0) {
        const int i = w->queue[r.head];
        const bys_point *p = &net->points[i];
        r.head = (r.head + 1) % size;
        r.count--;
        w->queued[i] = 0;
        for (int k = w->start[i]; k < w->start[i + 1]; k++) {
            const bys_element *e = &net->elements[w->list[k]];
            const double most = 1.0 + bys_section_limit_strain(&net->sections[e->section]);
            lower(w, &r, size, e->a == i ? e->b : e->a, w->far[i] + e->length * most);
        }
        for (int k = 0; p->body >= 0 && k < net->bodies[p->body].point_count; k++) {
            const int j = net->bodies[p->body].points[k];
            lower(w, &r, size, j, w->far[i] + apart(p->x, net->points[j].x));
        }
    }
    return r.touched;
}

static void refuse_unreachable(bys_expansion *x, web *w) {
    const bys_network *net = x->net;
    for (int i = 0; i < net->point_count; i++) {
        if (net->points[i].kind != BYS_POINT_FIXED || w->start[i] == w->start[i + 1])
            continue;
        const int touched = reach_from(w, net, i);
        for (int k = 0; k < touched; k++) {
            const int j = w->touched[k];
            const bys_point *a = &net->points[i], *b = &net->points[j];
            const double straight = apart(a->x, b->x);
            if (j > i && b->kind == BYS_POINT_FIXED && w->far[j] < straight)
                bys_expand_fault(x, BYS_M_span_short, b->place,
                                 "'%s' and '%s' stand %.2f m apart, but what joins them reaches "
                                 "%.2f m when it breaks; lengthen it or bring them together",
                                 a->id, b->id, straight, w->far[j]);
        }
        for (int k = 0; k < touched; k++)
            w->far[w->touched[k]] = INFINITY;
    }
}

static void refuse_alone(bys_expansion *x, const web *w) {
    for (int i = 0; i < x->net->point_count; i++) {
        const bys_point *p = &x->net->points[i];
        if (p->kind == BYS_POINT_FREE && w->start[i] == w->start[i + 1])
            bys_expand_fault(x, BYS_M_point_alone, p->place,
                             "point '%s' is connected to nothing; join a span to it, hold it with "
                             "hold=\"xyz\" or take it out",
                             p->id);
    }
}

// A name that the user knows for an island: a line, a raft, or a point.
static const char *island_name(const bys_network *net, int island, bys_place *place) {
    const bys_island *is = &net->islands[island];
    for (int l = 0; l < net->line_count; l++) {
        if (net->lines[l].island == island) {
            *place = net->lines[l].place;
            return net->lines[l].id;
        }
    }
    if (is->body_count > 0) {
        *place = net->bodies[is->bodies[0]].place;
        return net->bodies[is->bodies[0]].id;
    }
    for (int k = 0; k < is->point_count; k++) {
        const bys_point *p = &net->points[is->points[k]];
        if (*p->id) {
            *place = p->place;
            return p->id;
        }
    }
    return "a part without a name";
}

static void refuse_unheld(bys_expansion *x) {
    for (int i = 0; i < x->net->island_count; i++) {
        const bys_island *is = &x->net->islands[i];
        bys_place place = {0, 0, 0};
        if (is->anchored || (is->element_count == 0 && is->body_count == 0))
            continue;
        const char *name = island_name(x->net, i, &place);
        bys_expand_fault(x, BYS_M_part_unheld, place,
                         "nothing holds the part with '%s': no anchor and no held point is "
                         "connected to it",
                         name);
    }
}

/// What pulls an island down and what can hold it up, N.
typedef struct {
    double down, up;
    bool rests; ///< some of it may lie on the bed, or a point holds its height
} balance;

static balance weigh(const bys_network *net, const bys_island *is) {
    const bys_site *site = net->site;
    balance b = {0.0, 0.0, false};
    for (int k = 0; k < is->point_count; k++) {
        const bys_point *p = &net->points[is->points[k]];
        b.down += p->weight - p->load[2];
        b.rests |= p->hold[2];
    }
    for (int k = 0; k < is->element_count; k++) {
        const bys_element *e = &net->elements[is->elements[k]];
        const bys_section *s = &net->sections[e->section];
        b.down += e->length * (s->weight_dry - s->buoyancy - s->load[2]);
        b.rests |= s->on_bed;
    }
    for (int k = 0; k < is->gear_count; k++) {
        const bys_gear_set *g = &net->gears[is->gears[k]];
        b.down += g->count * g->values->mass_in_water * site->gravity;
    }
    for (int k = 0; k < is->float_count; k++) {
        const bys_float_set *f = &net->floats[is->floats[k]];
        const bys_float_part *part = &f->part->u.buoy;
        b.up += f->count * site->gravity * (part->volume * site->rho_water - part->mass);
        b.down += f->count * f->growth_weight;
    }
    for (int k = 0; k < is->body_count; k++)
        b.down += net->bodies[is->bodies[k]].mass * site->gravity;
    for (int k = 0; k < net->prism_count; k++) {
        const bys_prism *p = &net->prisms[k];
        const bool mine = net->islands + net->points[p->point].island == is;
        b.up += mine ? site->rho_water * site->gravity * p->waterplane * p->height : 0.0;
    }
    return b;
}

static void refuse_sinking(bys_expansion *x) {
    for (int i = 0; i < x->net->island_count; i++) {
        const bys_island *is = &x->net->islands[i];
        const balance b = weigh(x->net, is);
        bys_place place = {0, 0, 0};
        if (b.rests || b.down <= b.up || (is->element_count == 0 && is->body_count == 0))
            continue;
        const char *name = island_name(x->net, i, &place);
        bys_expand_fault(x, BYS_M_part_sinks, place,
                         "the part with '%s' weighs %.1f kN in water, its floats lift %.1f kN at "
                         "most, and there is no seabed for it to rest on",
                         name, b.down / 1000.0, b.up / 1000.0);
    }
}

/// Depths are not guessed beyond the soundings: the farthest point is named.
static void refuse_beyond(bys_expansion *x) {
    int worst = -1, count = 0;
    double most = 0.0;
    for (int p = 0; p < x->net->point_count && x->site->has_bed; p++) {
        const bys_point *point = &x->net->points[p];
        const double beyond = point->kind == BYS_POINT_BODY
                                  ? 0.0
                                  : bys_bed_beyond(&x->site->bed, point->x[0], point->x[1]);
        count += beyond > 0.0;
        if (beyond > most) {
            most = beyond;
            worst = p;
        }
    }
    if (worst < 0)
        return;
    const bys_point *point = &x->net->points[worst];
    bys_expand_fault(x, BYS_M_bed_beyond, point->place,
                     "%s (x %.1f m, y %.1f m) lies %.1f m beyond the depths of the seabed, and %d "
                     "other points too; depths are not guessed there",
                     point->id, point->x[0], point->x[1], most, count - 1);
}

bool bys_expand_refuse(bys_expansion *x) {
    web w;
    const bool ok = web_make(&w, x->net);
    // Each later step asks what an earlier fault would only say again.
    if (ok && x->faults == 0) {
        refuse_alone(x, &w);
        refuse_unheld(x);
    }
    if (ok && x->faults == 0)
        refuse_sinking(x);
    if (ok && x->faults == 0)
        refuse_unreachable(x, &w);
    if (ok && x->faults == 0)
        refuse_beyond(x);
    web_free(&w);
    if (ok && x->faults == 0)
        bys_expand_conditions(x);
    return ok;
}
