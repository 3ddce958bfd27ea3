// SPDX-License-Identifier: GPL-3.0-or-later
// Raft grids: rafts R1-1.. (column-row), head ropes between facing corners, legs on outer sides.
// Eight fairleads a raft, counted clockwise from the front: 0 front, 1 front right, 2 right, ...
// They are named by the compass direction in which they lie.
#include "lease/expand.h"

#include <math.h>
#include <string.h>

static const double quarter = 3.14159265358979323846 / 4.0;

/// One raft of the grid in the network.
typedef struct {
    int body;
    int fairlead[8];
    const char *id;
} seat;

typedef struct {
    const bys_grid *grid;
    seat *rafts; ///< column-major: [column * rows + row]
} deck;

static const char *fairlead_name(const bys_grid *g, int k) {
    return bys_compass_name(g->heading + k * quarter);
}

static bool add_fairleads(bys_expansion *x, const bys_grid *g, seat *s) {
    // Forward and left share of the half size at each of the eight.
    static const int forward[8] = {1, 1, 0, -1, -1, -1, 0, 1};
    static const int left[8] = {0, -1, -1, -1, 0, 1, 1, 1};
    const bys_raft_part *r = &g->raft->u.raft;
    for (int k = 0; k < 8; k++) {
        const double at[3] = {0.5 * r->length * forward[k], 0.5 * r->width * left[k],
                              r->fairlead_height - r->pontoon_height};
        const char *id = bys_arena_format(x->scratch, "%s:%s", s->id, fairlead_name(g, k));
        s->fairlead[k] = id ? bys_network_body_point(x->net, id, s->body, at) : -1;
        if (s->fairlead[k] < 0)
            return false;
        x->net->points[s->fairlead[k]].place = g->item.place;
    }
    return true;
}

static bool add_raft(bys_expansion *x, const bys_grid *g, int column, int row, seat *s) {
    const double e = sin(g->heading), n = cos(g->heading);
    // One column or row needs no spacing, which is then not stated.
    const double right = g->columns > 1 ? (column - 0.5 * (g->columns - 1)) * g->spacing_x : 0.0;
    const double ahead = g->rows > 1 ? (row - 0.5 * (g->rows - 1)) * g->spacing_y : 0.0;
    const bys_raft_part *r = &g->raft->u.raft;
    const double at[3] = {g->x + ahead * e + right * n, g->y + ahead * n - right * e,
                          x->surface - bys_raft_draft(x, g->raft) + r->pontoon_height};
    s->id = bys_arena_format(x->scratch, "%s%d-%d", g->item.id, column + 1, row + 1);
    s->body = s->id ? bys_network_body(x->net, s->id, at, r->mass) : -1;
    if (s->body < 0)
        return false;
    const double rotation[9] = {e, -n, 0.0, n, e, 0.0, 0.0, 0.0, 1.0};
    memcpy(x->net->bodies[s->body].rotation, rotation, sizeof rotation);
    x->net->bodies[s->body].place = g->item.place;
    return add_fairleads(x, g, s) && bys_expand_raft(x, s->body, g->raft, s->id);
}

static void world_of(double out[3], const bys_network *net, int point) {
    const bys_point *p = &net->points[point];
    const bys_body *b = &net->bodies[p->body];
    for (int k = 0; k < 3; k++)
        out[k] = b->x[k] + b->rotation[3 * k] * p->x[0] + b->rotation[3 * k + 1] * p->x[1] +
                 b->rotation[3 * k + 2] * p->x[2];
}

static bool add_head_rope(bys_expansion *x, const bys_grid *g, const seat *a, int ka, const seat *b,
                          int kb, char letter) {
    double pa[3], pb[3];
    world_of(pa, x->net, a->fairlead[ka]);
    world_of(pb, x->net, b->fairlead[kb]);
    const double gap = hypot(pa[0] - pb[0], pa[1] - pb[1]);
    const double length = isfinite(g->head_rope_length) ? g->head_rope_length : gap;
    bys_section like = bys_section_of_part(x, g->head_rope, length);
    like.place = g->item.place;
    const char *id = bys_arena_format(x->scratch, "%s~%s/%c", a->id, b->id, letter);
    if (!id)
        return false;
    const double longest = like.length * (1.0 + bys_section_limit_strain(&like));
    if (longest < gap)
        bys_expand_fault(x, BYS_M_head_rope_short, g->item.place,
                         "head rope %s is too short: %.2f m, %.2f m when it breaks, for a gap of "
                         "%.2f m between the rafts",
                         id, length, longest, gap);
    return bys_network_section(x->net, id, a->fairlead[ka], b->fairlead[kb],
                               bys_section_elements(x, &like, 0), &like) >= 0;
}

// Neighbours ahead face each other with front and rear corners, neighbours beside with right and
// left.
static bool add_head_ropes(bys_expansion *x, const deck *d) {
    const bys_grid *g = d->grid;
    for (int c = 0; g->head_rope && c < g->columns; c++) {
        for (int r = 0; r < g->rows; r++) {
            const seat *here = &d->rafts[c * g->rows + r];
            const seat *ahead = r + 1 < g->rows ? here + 1 : NULL;
            const seat *beside = c + 1 < g->columns ? here + g->rows : NULL;
            if (ahead && (!add_head_rope(x, g, here, 7, ahead, 5, 'a') ||
                          !add_head_rope(x, g, here, 1, ahead, 3, 'b')))
                return false;
            if (beside && (!add_head_rope(x, g, here, 1, beside, 7, 'a') ||
                           !add_head_rope(x, g, here, 3, beside, 5, 'b')))
                return false;
        }
    }
    return true;
}

static const char *leg_id(bys_expansion *x, const char *raft, const char *fairlead) {
    const char *plain = bys_arena_format(x->scratch, "%s/%s", raft, fairlead);
    int before = 0;
    for (int i = 0; plain && i < x->net->leg_count; i++) {
        const size_t n = strlen(plain);
        const char *id = x->net->legs[i].id;
        before += !strncmp(id, plain, n) && (!id[n] || (id[n] >= '0' && id[n] <= '9'));
    }
    return before ? bys_arena_format(x->scratch, "%s%d", plain, before + 1) : plain;
}

static bool add_leg(bys_expansion *x, const bys_grid *g, const seat *s, int k, double outward,
                    const bys_leg_spec *spec) {
    bys_leg_seat at = {.spec = spec,
                       .id = leg_id(x, s->id, fairlead_name(g, k)),
                       .top = s->fairlead[k],
                       .outward = outward,
                       .line = -1,
                       .body = s->body,
                       .end = 0};
    world_of(at.top_nominal, x->net, at.top);
    if (spec->bridle.part) {
        const int a = s->fairlead[(k + 7) % 8], b = s->fairlead[(k + 1) % 8];
        double pa[3], pb[3];
        world_of(pa, x->net, a);
        world_of(pb, x->net, b);
        for (int c = 0; c < 3; c++)
            at.top_nominal[c] = 0.5 * (pa[c] + pb[c]);
        bys_seat_bridle(&at, a, b, hypot(pa[0] - pb[0], pa[1] - pb[1]));
    }
    int leg;
    return at.id && bys_expand_leg(x, &at, &leg);
}

// Legs of one outer side or corner of the grid; k: the fairlead that looks there.
static bool add_side(bys_expansion *x, const deck *d, int k, const bys_leg_spec *spec) {
    const bys_grid *g = d->grid;
    const bool front = k == 7 || k <= 1, right = k >= 1 && k <= 3, rear = k >= 3 && k <= 5;
    const bool left = k >= 5;
    const double outward = (isfinite(spec->bearing) ? spec->bearing : g->heading + k * quarter);
    for (int c = 0; c < g->columns; c++) {
        for (int r = 0; r < g->rows; r++) {
            if ((front && r != g->rows - 1) || (rear && r != 0) || (right && c != g->columns - 1) ||
                (left && c != 0))
                continue;
            const seat *s = &d->rafts[c * g->rows + r];
            if (k % 2 || spec->per_side != 2) {
                if (!add_leg(x, g, s, k, outward, spec))
                    return false;
                continue;
            }
            if (!add_leg(x, g, s, (k + 7) % 8, outward - spec->splay, spec) ||
                !add_leg(x, g, s, (k + 1) % 8, outward + spec->splay, spec))
                return false;
        }
    }
    return true;
}

static bool add_legs(bys_expansion *x, const deck *d) {
    const bys_grid *g = d->grid;
    for (int i = 0; i < g->leg_count; i++) {
        const int named = bys_compass_read(g->legs[i].at);
        if (named < 0) {
            bys_expand_fault(x, BYS_M_leg_at_nothing, g->legs[i].place,
                             "grid '%s': leg at='%s' names no side or corner; use a compass name "
                             "such as 'north' (a side) or 'NE' (a corner)",
                             g->item.id, g->legs[i].at);
            continue;
        }
        const int k = (named - bys_compass_index(g->heading) + 8) % 8;
        if (!add_side(x, d, k, &g->legs[i]))
            return false;
    }
    return true;
}

bool bys_expand_grids(bys_expansion *x) {
    for (int i = 0; i < x->site->grid_count; i++) {
        const bys_grid *g = &x->site->grids[i];
        const int n = g->columns * g->rows;
        deck d = {g, bys_arena_get(x->scratch, sizeof(seat) * (size_t)(n + 1))};
        if (!d.rafts)
            return false;
        if (!x->site->has_bed)
            bys_expand_fault(x, BYS_M_anchors_need_bed, g->item.place,
                             "raft grid '%s' needs a seabed for its anchors: add <seabed>",
                             g->item.id);
        for (int k = 0; k < n; k++)
            if (!add_raft(x, g, k / g->rows, k % g->rows, &d.rafts[k]))
                return false;
        if (!add_head_ropes(x, &d) || !add_legs(x, &d))
            return false;
    }
    return true;
}
