// SPDX-License-Identifier: GPL-3.0-or-later
// Explicit networks: points, bodies and spans as they are written.
#include "lease/expand.h"

#include <math.h>
#include <string.h>

/// Indices in the Network of one explicit network's items.
typedef struct {
    const bys_free_network *from;
    int *points, *bodies;
} names;

static int body_by_id(const names *n, const char *id) {
    for (int i = 0; i < n->from->body_count; i++)
        if (!strcmp(n->from->bodies[i].item.id, id))
            return n->bodies[i];
    return -1;
}

static int point_by_id(const names *n, const char *id) {
    for (int i = 0; i < n->from->point_count; i++)
        if (!strcmp(n->from->points[i].item.id, id))
            return n->points[i];
    return -1;
}

static bool add_body(bys_expansion *x, const bys_free_body *from, int *out) {
    const double mass = isfinite(from->mass) ? from->mass
                        : from->raft         ? from->raft->u.raft.mass
                                             : 0.0;
    const int b = *out = bys_network_body(x->net, from->item.id, from->x, mass);
    if (b < 0)
        return false;
    x->net->bodies[b].place = from->item.place;
    if (from->raft)
        return bys_expand_raft(x, b, from->raft, from->item.id);
    x->net->bodies[b].cg_point = bys_network_body_point(x->net, "", b, from->cg);
    return x->net->bodies[b].cg_point >= 0;
}

static bool hang_floats(bys_expansion *x, const bys_free_point *from, int point) {
    if (!from->buoy || from->float_count <= 0)
        return true;
    const char *id = bys_arena_format(x->scratch, "%s/float", from->item.id);
    return id && bys_network_float(x->net, id, from->buoy, point, from->float_count) >= 0;
}

static bool add_point(bys_expansion *x, const names *n, const bys_free_point *from, int *out) {
    const int body = *from->body ? body_by_id(n, from->body) : -1;
    const bool fixed = from->hold[0] && from->hold[1] && from->hold[2];
    if (*from->body && body < 0)
        bys_expand_fault(x, BYS_M_network_name, from->item.place,
                         "point '%s' belongs to body '%s', which network '%s' does not have",
                         from->item.id, from->body, n->from->item.id);
    *out = body >= 0 ? bys_network_body_point(x->net, from->item.id, body, from->x)
                     : bys_network_point(x->net, from->item.id,
                                         fixed ? BYS_POINT_FIXED : BYS_POINT_FREE, from->x);
    if (*out < 0)
        return false;
    bys_point *p = &x->net->points[*out];
    p->place = from->item.place;
    p->drag_area = from->drag_area;
    for (int k = 0; k < 3; k++) {
        p->hold[k] = body < 0 && from->hold[k];
        p->load[k] = from->load[k];
    }
    p->load[2] += from->buoyancy;
    return hang_floats(x, from, *out);
}

static bys_section section_of_span(const bys_expansion *x, const bys_free_span *span) {
    bys_section s = {.length = span->length,
                     .stiffness = span->stiffness,
                     .weight_dry = span->weight,
                     .diameter = span->diameter,
                     .cd_normal = span->cd_normal,
                     .cd_tangential = span->cd_tangential,
                     .leg = -1,
                     .line = -1,
                     .strand = -1};
    if (span->part)
        s = bys_section_of_part(x, span->part, span->length);
    if (span->in_air)
        s.buoyancy = s.diameter = 0.0;
    s.on_bed = span->on_bed && x->site->has_bed;
    s.load_stretched = span->load_stretched;
    s.drag_unstretched = span->drag_unstretched;
    s.place = span->item.place;
    memcpy(s.load, span->load, sizeof s.load);
    return s;
}

// A link without weight or load is exact as one element; points inside it would be free sideways.
// Where a line leaves the bed its slope turns within one element: three times as many keep H there.
static int element_count(const bys_expansion *x, const bys_free_span *span, const bys_section *s) {
    const double load =
        sqrt(s->load[0] * s->load[0] + s->load[1] * s->load[1] + s->load[2] * s->load[2]);
    const double drag = 0.5 * x->site->rho_water * s->cd_normal * s->diameter;
    const double q = fabs(s->weight_dry - s->buoyancy) + load + drag;
    if (span->elements > 0)
        return span->elements;
    const int by_rule = bys_element_count(s->length, s->on_bed ? 3.0 * q : q, 5000.0);
    return q == 0.0 ? 1 : by_rule < 16 ? 16 : by_rule;
}

static bool add_span(bys_expansion *x, const names *n, const bys_free_span *span) {
    const int a = point_by_id(n, span->from), b = point_by_id(n, span->to);
    if (a < 0 || b < 0 || a == b) {
        bys_expand_fault(x, BYS_M_network_name, span->item.place,
                         a >= 0 && a == b ? "span '%s' joins point '%s' to itself"
                                          : "span '%s' ends at point '%s', which is not there",
                         span->item.id, a < 0 ? span->from : span->to);
        return true;
    }
    const bys_section s = section_of_span(x, span);
    if (!(s.length > 0.0) || !(s.stiffness > 0.0)) {
        bys_expand_fault(x, BYS_M_span_size, span->item.place,
                         "span '%s' needs a length and a stiffness above zero", span->item.id);
        return true;
    }
    return bys_network_section(x->net, span->item.id, a, b, element_count(x, span, &s), &s) >= 0;
}

static bool add_network(bys_expansion *x, const bys_free_network *from) {
    names n = {from, bys_arena_get(x->scratch, sizeof(int) * (size_t)(from->point_count + 1)),
               bys_arena_get(x->scratch, sizeof(int) * (size_t)(from->body_count + 1))};
    if (!n.points || !n.bodies)
        return false;
    for (int i = 0; i < from->body_count; i++)
        if (!add_body(x, &from->bodies[i], &n.bodies[i]))
            return false;
    for (int i = 0; i < from->point_count; i++)
        n.points[i] = -1;
    for (int i = 0; i < from->point_count; i++)
        if (!add_point(x, &n, &from->points[i], &n.points[i]))
            return false;
    for (int i = 0; i < from->span_count; i++)
        if (!add_span(x, &n, &from->spans[i]))
            return false;
    return true;
}

bool bys_expand_networks(bys_expansion *x) {
    for (int i = 0; i < x->site->network_count; i++)
        if (!add_network(x, &x->site->networks[i]))
            return false;
    return true;
}
