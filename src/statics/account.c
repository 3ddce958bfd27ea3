// SPDX-License-Identifier: GPL-3.0-or-later
// The load account: every load of a state, by the part that brings it and by its kind.
//
// The laws of the loads (element.c, lumps.c) are asked several times, with the sea at rest and with one
// of its loads at a time: current, wind, reflection. What the full sea makes beyond these is drift: what
// waves add to the drag of the current. So the parts add up to the full load by construction, whatever
// the laws are, and the sum must equal what the solver found at the supports.
//
// NOTES
//   1. Weight of gear is its weight in water: its own buoyancy is not known apart.
//   2. The bed carries: what presses lines and points on it, what it takes off gear that reaches it, and
//      the small sideways grip on slack lines (assemble.c).
//   3. In a wave frozen at a phase its sideways drag and inertia count as drift; what it does upwards
//      stands with the buoyancy.
//   4. A drag that a rope turns out of the current's direction counts as current, its uplift as well.
#include "statics/account.h"
#include "num/vec3.h"
#include "statics/solver.h"

#include <stdlib.h>

/// The sea whole, at rest, and with one load alone.
typedef struct { bys_sea whole, rest, current, wind, reflection; } seas;

typedef struct {
    bys_account *out;
    const bys_state *st;
    const bys_network *net;
    const bys_condition *cond;
    int island, room;
    seas sea;
    unsigned char *live, *out_element;
    bool failed;
} books;

static bool wanted(const books *a, int point)
{
    return a->island < 0 || a->net->points[point].island == a->island;
}

static bys_account_row *row_of(books *a, const bys_part *part, const char *kind)
{
    bys_account *out = a->out;
    for (int i = 0; i < out->row_count; i++)
        if (out->rows[i].part == part && !strcmp(out->rows[i].kind, kind))
            return &out->rows[i];
    if (out->row_count == a->room) {
        const int room = a->room ? 2 * a->room : 16;
        bys_account_row *more = realloc(out->rows, (size_t)room * sizeof *more);
        if (!more) {
            a->failed = true;
            return NULL;
        }
        out->rows = more;
        a->room = room;
    }
    bys_account_row *row = &out->rows[out->row_count++];
    memset(row, 0, sizeof *row);
    row->part = part;
    row->kind = kind;
    return row;
}

static void put(books *a, bys_account_row *row, bys_account_load load, const double f[3])
{
    bys_axpy(row->f[load], 1.0, f);
    a->out->applied += bys_norm(f);
}

static void put_up(books *a, bys_account_row *row, bys_account_load load, double up)
{
    put(a, row, load, (const double[3]){0.0, 0.0, up});
}

/// The same load in each of the seas; what each brings beyond rest goes to its kind.
typedef struct { double whole[3], rest[3], current[3], wind[3], reflection[3]; } shares;

static void put_shares(books *a, bys_account_row *row, const shares *s)
{
    double current[3], wind[3], reflection[3], drift[3];
    for (int i = 0; i < 3; i++) {
        current[i] = s->current[i] - s->rest[i];
        wind[i] = s->wind[i] - s->rest[i];
        reflection[i] = s->reflection[i] - s->rest[i];
        drift[i] = s->whole[i] - s->rest[i] - current[i] - wind[i] - reflection[i];
    }
    put(a, row, BYS_ACCOUNT_CURRENT, current);
    put(a, row, BYS_ACCOUNT_WIND, wind);
    put(a, row, BYS_ACCOUNT_DRIFT, drift);
    put(a, row, BYS_ACCOUNT_REFLECTION, reflection);
}

// ---- lines -----------------------------------------------------------------------------------

static bool is_listed(const int *list, int count, int item)
{
    for (int i = 0; i < count; i++)
        if (list[i] == item)
            return true;
    return false;
}

static void mark_alive(books *a)
{
    const bys_network *net = a->net;
    const bys_condition *c = a->cond;
    for (int i = 0; c && i < c->section_count; i++) {
        const bys_section *s = &net->sections[c->sections[i]];
        memset(a->out_element + s->first, 1, (size_t)s->count);
    }
    for (int i = 0; c && i < c->element_count; i++)
        a->out_element[c->elements[i]] = 1;
    for (int e = 0; e < net->element_count; e++)
        if (!a->out_element[e])
            a->live[net->elements[e].a] = a->live[net->elements[e].b] = 1;
    for (int p = 0; p < net->point_count; p++)
        if (net->points[p].kind == BYS_POINT_BODY)
            a->live[p] = 1;
}

/// Loads of one element on both ends, without weight and buoyancy.
static void element_in(double f[3], const books *a, int e, const bys_sea *sea)
{
    const bys_element *el = &a->net->elements[e];
    bys_element_force q;
    bys_element_eval(&q, &a->net->sections[el->section], el->length, a->st->x + 3 * (size_t)el->a,
                     a->st->x + 3 * (size_t)el->b, sea);
    for (int i = 0; i < 3; i++)
        f[i] = 2.0 * q.half[i];
}

static void add_element(books *a, int e)
{
    const bys_element *el = &a->net->elements[e];
    const bys_section *sec = &a->net->sections[el->section];
    bys_account_row *row = row_of(a, sec->part,
                                  !sec->part                          ? "span"
                                  : sec->part->kind == BYS_PART_CHAIN ? "chain"
                                                                      : "rope");
    if (!row)
        return;
    shares s;
    element_in(s.whole, a, e, &a->sea.whole);
    element_in(s.rest, a, e, &a->sea.rest);
    element_in(s.current, a, e, &a->sea.current);
    element_in(s.wind, a, e, &a->sea.wind);
    element_in(s.reflection, a, e, &a->sea.reflection);
    put_shares(a, row, &s);
    const double *xa = a->st->x + 3 * (size_t)el->a, *xb = a->st->x + 3 * (size_t)el->b;
    const double span[3] = {xb[0] - xa[0], xb[1] - xa[1], xb[2] - xa[2]};
    double given[3] = {0.0, 0.0, 0.0}, slope[3];
    bys_axpy(given, sec->load_stretched ? bys_norm(span) : el->length, sec->load);
    put(a, row, BYS_ACCOUNT_GIVEN, given);
    bys_axpy(s.rest, -1.0, given);
    put(a, row, BYS_ACCOUNT_DRIFT, s.rest); // a wave frozen at a phase; else nothing
    const double up = bys_end_weight(sec, el->length, xa, &a->sea.whole, slope) +
                      bys_end_weight(sec, el->length, xb, &a->sea.whole, slope);
    put_up(a, row, BYS_ACCOUNT_WEIGHT, -sec->weight_dry * el->length);
    put_up(a, row, BYS_ACCOUNT_BUOYANCY, up + sec->weight_dry * el->length);
}

// ---- what acts at points ---------------------------------------------------------------------

typedef enum { FLOAT, GEAR, PRISM, DECK, POINT } thing;

static void lump_in(double f[3], const books *a, thing what, int k, const bys_sea *sea)
{
    const bys_network *net = a->net;
    const double *x = a->st->x;
    bys_lump lump = {0};
    double turn[9];
    switch (what) {
    case FLOAT:
        bys_float_eval(&lump, &net->floats[k], x + 3 * (size_t)net->floats[k].point, sea);
        break;
    case GEAR:
        bys_gear_eval(&lump, &net->gears[k], x + 3 * (size_t)net->gears[k].point, sea);
        break;
    case PRISM: {
        const int p = net->prisms[k].point;
        bys_prism_eval(&lump, turn, &net->prisms[k], x + 3 * (size_t)p,
                       a->st->body_r + 9 * (size_t)net->points[p].body, sea);
        break;
    }
    case DECK:
        bys_wind_eval(&lump, net->bodies[k].wind_area, net->bodies[k].wind_cs,
                      x[3 * (size_t)net->bodies[k].wind_point + 2], sea);
        break;
    case POINT: bys_point_eval(&lump, &net->points[k], x + 3 * (size_t)k, sea); break;
    }
    memcpy(f, lump.f, 3 * sizeof *f);
}

/// Puts what the sea brings; returns the upward force that the thing feels at rest, with `given`
/// sideways: what is left sideways is of a wave frozen at a phase.
static double add_lump(books *a, bys_account_row *row, thing what, int k, const double given[3])
{
    shares s;
    lump_in(s.whole, a, what, k, &a->sea.whole);
    lump_in(s.rest, a, what, k, &a->sea.rest);
    lump_in(s.current, a, what, k, &a->sea.current);
    lump_in(s.wind, a, what, k, &a->sea.wind);
    lump_in(s.reflection, a, what, k, &a->sea.reflection);
    put_shares(a, row, &s);
    put(a, row, BYS_ACCOUNT_DRIFT,
        (const double[3]){s.rest[0] - given[0], s.rest[1] - given[1], 0.0});
    return s.rest[2];
}

static const double nothing[3] = {0.0, 0.0, 0.0};

static void add_floats(books *a)
{
    for (int k = 0; k < a->net->float_count; k++) {
        const bys_float_set *set = &a->net->floats[k];
        bys_account_row *row;
        if (!wanted(a, set->point) || !a->live[set->point] ||
            (a->cond && is_listed(a->cond->floats, a->cond->float_count, k)) ||
            !(row = row_of(a, set->part, "float")))
            continue;
        const double rest = add_lump(a, row, FLOAT, k, nothing);
        const double weight =
            set->count * (set->part->u.buoy.mass * a->sea.whole.gravity + set->growth_weight);
        put_up(a, row, BYS_ACCOUNT_WEIGHT, -weight);
        put_up(a, row, BYS_ACCOUNT_BUOYANCY, rest + weight);
    }
}

static void add_gear(books *a)
{
    for (int k = 0; k < a->net->gear_count; k++) {
        const bys_gear_set *set = &a->net->gears[k];
        bys_account_row *row;
        if (!wanted(a, set->point) || !a->live[set->point] || !(row = row_of(a, set->part, "gear")))
            continue;
        const double rest = add_lump(a, row, GEAR, k, nothing);
        const double weight = set->count * set->values->mass_in_water * a->sea.whole.gravity;
        put_up(a, row, BYS_ACCOUNT_WEIGHT, -weight);
        put_up(a, row, BYS_ACCOUNT_BED, rest + weight);
    }
}

static void add_bodies(books *a)
{
    const bys_network *net = a->net;
    for (int k = 0; k < net->body_count; k++) {
        const bys_body *body = &net->bodies[k];
        bys_account_row *row;
        if (!wanted(a, body->cg_point) ||
            !(row = row_of(a, body->part, body->part ? "raft" : "body")))
            continue;
        put_up(a, row, BYS_ACCOUNT_WEIGHT, -body->mass * a->sea.whole.gravity);
        if (body->wind_point >= 0 && body->wind_area > 0.0)
            add_lump(a, row, DECK, k, nothing);
    }
    for (int k = 0; k < net->prism_count; k++) {
        const int p = net->prisms[k].point;
        const bys_part *part = net->bodies[net->points[p].body].part;
        bys_account_row *row;
        if (!wanted(a, p) || !(row = row_of(a, part, part ? "raft" : "body")))
            continue;
        put_up(a, row, BYS_ACCOUNT_BUOYANCY, add_lump(a, row, PRISM, k, nothing));
    }
}

static bool is_empty(const bys_point *p)
{
    return p->weight == 0.0 && p->drag_area == 0.0 && p->load[0] == 0.0 && p->load[1] == 0.0 &&
           p->load[2] == 0.0;
}

/// Connectors and sinkers (their weight in water), given loads, and the bed.
static void add_points(books *a)
{
    const bys_network *net = a->net;
    bys_account_row *row;
    double f[3];
    for (int p = 0; p < net->point_count; p++) {
        if (!wanted(a, p) || !a->live[p])
            continue;
        if (!is_empty(&net->points[p]) && (row = row_of(a, NULL, "point"))) {
            const double *given = net->points[p].load;
            const double rest = add_lump(a, row, POINT, p, given);
            put_up(a, row, BYS_ACCOUNT_WEIGHT, -net->points[p].weight);
            put(a, row, BYS_ACCOUNT_GIVEN,
                (const double[3]){given[0], given[1], rest + net->points[p].weight});
        }
        const double *grip = a->st->grip + 3 * (size_t)p;
        if ((a->st->bed[p] != 0.0 || bys_dot(grip, grip) > 0.0) && (row = row_of(a, NULL, "bed"))) {
            memcpy(f, grip, sizeof f);
            const double *x = a->st->x + 3 * (size_t)p;
            double n[3];
            bys_sea_bed_normal(n, &a->sea.whole, x[0], x[1]);
            bys_axpy(f, a->st->bed[p], n);
            put(a, row, BYS_ACCOUNT_BED, f);
        }
    }
    for (int i = 0; a->cond && i < a->cond->load_count; i++) {
        const bys_point_load *load = &a->cond->loads[i];
        if (wanted(a, load->point) && a->live[load->point] && (row = row_of(a, NULL, "point")))
            put(a, row, BYS_ACCOUNT_GIVEN, load->force);
    }
}

// ---- all together ----------------------------------------------------------------------------

static void add_up(books *a)
{
    bys_account *out = a->out;
    for (int i = 0; i < out->row_count; i++)
        for (int k = 0; k < BYS_ACCOUNT_LOADS; k++) {
            bys_axpy(out->sum[k], 1.0, out->rows[i].f[k]);
            bys_axpy(out->total, 1.0, out->rows[i].f[k]);
        }
    for (int p = 0; p < a->net->point_count; p++)
        if (wanted(a, p))
            bys_axpy(out->reaction, 1.0, a->st->reaction + 3 * (size_t)p);
}

bys_rc bys_account_make(bys_account *out, const bys_state *state, const bys_sea *sea,
                        const bys_condition *condition, int island, bys_error *err)
{
    books a = {.out = out, .st = state, .net = state->net, .cond = condition, .island = island};
    *out = (bys_account){0};
    a.sea = (seas){*sea, bys_sea_only(sea, 0), bys_sea_only(sea, BYS_SEA_CURRENT),
                   bys_sea_only(sea, BYS_SEA_WIND), bys_sea_only(sea, BYS_SEA_REFLECTION)};
    a.live = calloc((size_t)a.net->point_count + 1, 1);
    a.out_element = calloc((size_t)a.net->element_count + 1, 1);
    a.failed = !a.live || !a.out_element;
    if (!a.failed) {
        mark_alive(&a);
        for (int e = 0; e < a.net->element_count; e++)
            if (!a.out_element[e] && wanted(&a, a.net->elements[e].a))
                add_element(&a, e);
        add_floats(&a);
        add_gear(&a);
        add_bodies(&a);
        add_points(&a);
        add_up(&a);
    }
    free(a.live);
    free(a.out_element);
    if (!a.failed)
        return BYS_OK;
    bys_account_free(out);
    return bys_error_set(err, BYS_ENOMEM, 0, "out of memory for the load account");
}

void bys_account_free(bys_account *account)
{
    if (!account)
        return;
    free(account->rows);
    *account = (bys_account){0};
}

double bys_account_gap(const bys_account *account)
{
    double d[3];
    for (int i = 0; i < 3; i++)
        d[i] = account->total[i] - account->reaction[i];
    return account->applied > 0.0 ? bys_norm(d) / account->applied : bys_norm(d);
}
