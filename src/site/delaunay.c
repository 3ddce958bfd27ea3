// SPDX-License-Identifier: GPL-3.0-or-later
// Delaunay triangles: points come in from west to east, each joins the sides of the hull that it
// sees, and sides are flipped until no circle around a triangle holds another point.
//
// GIVEN     xy   n points, pairs                                                             m
// RETURNED  triangles with their neighbours, and the hull.
// NOTES     1. The tests of turn and circle are exact: points are rounded to whole numbers of
//              extent / 2^24 first (0.1 mm on 2 km), in 64 and 128 bits. So it ends for any input,
//              regular grids included.
//           2. Points that round to the same whole numbers count once, the first of them.
//           3. The hull is convex: gaps in a survey inside it are bridged by long triangles.
// SOURCE    Delaunay's empty circle and Lawson's flips, textbook [memory].
#include "site/delaunay.h"

#include <math.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

__extension__ typedef __int128 wide;

typedef struct {
    int64_t x, y;
    int index; // of the caller's point
} spot;

typedef struct {
    const spot *p; // sorted
    bys_triangle *t;
    int count;
    int *next, *before, *side; // hull by spot: neighbours; triangle at the side to the next
    int *stack;
    int stacked, room;
    bool failed;
} net;

static int by_place(const void *a, const void *b)
{
    const spot *p = a, *q = b;
    if (p->x != q->x)
        return p->x < q->x ? -1 : 1;
    if (p->y != q->y)
        return p->y < q->y ? -1 : 1;
    return (p->index > q->index) - (p->index < q->index);
}

/// > 0: a, b, c turn to the left.
static int64_t turn(const net *m, int a, int b, int c)
{
    const spot *p = m->p + a, *q = m->p + b, *r = m->p + c;
    return (q->x - p->x) * (r->y - p->y) - (q->y - p->y) * (r->x - p->x);
}

/// Does the circle through a, b, c (to the left) hold d?
static bool in_circle(const net *m, int a, int b, int c, int d)
{
    const spot *o = m->p + d;
    int64_t x[3], y[3];
    const int all[3] = {a, b, c};
    wide sum = 0;
    for (int i = 0; i < 3; i++) {
        x[i] = m->p[all[i]].x - o->x;
        y[i] = m->p[all[i]].y - o->y;
    }
    for (int i = 0; i < 3; i++) {
        const int j = (i + 1) % 3, k = (i + 2) % 3;
        sum += (wide)(x[i] * x[i] + y[i] * y[i]) * (x[j] * y[k] - x[k] * y[j]);
    }
    return sum > 0;
}

static void push(net *m, int triangle)
{
    if (m->stacked == m->room) {
        int *more = realloc(m->stack, 2 * (size_t)m->room * sizeof *more);
        if (!more) {
            m->failed = true;
            return;
        }
        m->stack = more;
        m->room *= 2;
    }
    m->stack[m->stacked++] = triangle;
}

static void link_back(net *m, int at, int was, int now)
{
    for (int k = 0; at >= 0 && k < 3; k++)
        if (m->t[at].next[k] == was)
            m->t[at].next[k] = now;
}

/// Sides on the outside know their triangle.
static void note_hull(net *m, int at)
{
    const bys_triangle *t = &m->t[at];
    for (int k = 0; k < 3; k++)
        if (t->next[k] < 0)
            m->side[t->v[(k + 1) % 3]] = at;
}

/// Flips the side opposite corner 0 of triangle `at` if the circle test asks for it.
static void legalise(net *m, int at)
{
    bys_triangle *t = &m->t[at];
    const int other = t->next[0];
    if (other < 0)
        return;
    bys_triangle *u = &m->t[other];
    int k = 0;
    while (u->next[k] != at)
        k++;
    const int p = t->v[0], a = t->v[1], b = t->v[2], q = u->v[k];
    if (!in_circle(m, p, a, b, q))
        return;
    const int n1 = t->next[1], n2 = t->next[2];
    const int n3 = u->next[(k + 1) % 3], n4 = u->next[(k + 2) % 3];
    *t = (bys_triangle){{p, a, q}, {n3, other, n2}};
    *u = (bys_triangle){{p, q, b}, {n4, n1, at}};
    link_back(m, n3, other, at);
    link_back(m, n1, at, other);
    note_hull(m, at);
    note_hull(m, other);
    push(m, at);
    push(m, other);
}

static void settle(net *m)
{
    while (m->stacked > 0 && !m->failed)
        legalise(m, m->stack[--m->stacked]);
}

/// A fan over the first points, which lie on a line, from the first point p off it.
static void begin(net *m, int p)
{
    const bool left = turn(m, 0, 1, p) > 0;
    for (int i = 0; i + 1 < p; i++) {
        const int a = left ? i : i + 1, b = left ? i + 1 : i;
        const int up = i + 2 < p ? i + 1 : -1, down = i - 1;
        // across (b, p): the triangle on b's side; across (p, a): on a's side
        m->t[m->count] = (bys_triangle){{p, a, b}, {-1, left ? up : down, left ? down : up}};
        m->next[a] = b;
        m->before[b] = a;
        m->count++;
    }
    const int tail = left ? p - 1 : 0, head = left ? 0 : p - 1;
    m->next[tail] = p;
    m->before[p] = tail;
    m->next[p] = head;
    m->before[head] = p;
    for (int i = 0; i < m->count; i++)
        note_hull(m, i);
}

/// Joins p to the sides of the hull that it sees; the last point is one of their ends.
static void join(net *m, int p, int last)
{
    int a = last, b = last;
    while (turn(m, m->before[a], a, p) < 0)
        a = m->before[a];
    while (turn(m, b, m->next[b], p) < 0)
        b = m->next[b];
    int older = -1;
    for (int e = a; e != b;) {
        const int n = m->next[e], inner = m->side[e], made = m->count++;
        // corner 0 is p: the side opposite is the old side of the hull
        m->t[made] = (bys_triangle){{p, n, e}, {inner, older, -1}};
        for (int k = 0; k < 3; k++) {
            const bys_triangle *t = &m->t[inner];
            if (t->v[(k + 1) % 3] == e && t->v[(k + 2) % 3] == n)
                m->t[inner].next[k] = made;
        }
        if (older >= 0)
            m->t[older].next[2] = made;
        older = made;
        push(m, made);
        e = n;
    }
    m->next[a] = p;
    m->before[p] = a;
    m->next[p] = b;
    m->before[b] = p;
    for (int i = 0, at = older; i < m->stacked && at >= 0; i++, at--)
        note_hull(m, at);
    settle(m);
}

static int sorted_spots(spot *out, const double *xy, int n)
{
    double least[2] = {INFINITY, INFINITY}, most[2] = {-INFINITY, -INFINITY};
    for (int i = 0; i < n; i++)
        for (int c = 0; c < 2; c++) {
            least[c] = fmin(least[c], xy[2 * i + c]);
            most[c] = fmax(most[c], xy[2 * i + c]);
        }
    const double extent = fmax(most[0] - least[0], most[1] - least[1]);
    const double scale = extent > 0.0 ? 16777216.0 / extent : 0.0;
    for (int i = 0; i < n; i++)
        out[i] = (spot){llround((xy[2 * i] - least[0]) * scale),
                        llround((xy[2 * i + 1] - least[1]) * scale), i};
    qsort(out, (size_t)n, sizeof *out, by_place);
    int kept = 0;
    for (int i = 0; i < n; i++)
        if (kept == 0 || out[kept - 1].x != out[i].x || out[kept - 1].y != out[i].y)
            out[kept++] = out[i];
    return kept;
}

/// Hands the hull and the caller's indices over.
static bool hand_over(bys_triangles *out, net *m, int any)
{
    int n = 1;
    for (int v = m->next[any]; v != any; v = m->next[v])
        n++;
    out->hull = calloc((size_t)n, sizeof(int));
    if (!out->hull)
        return false;
    for (int i = 0, v = any; i < n; i++, v = m->next[v])
        out->hull[i] = m->p[v].index;
    for (int i = 0; i < m->count; i++)
        for (int k = 0; k < 3; k++)
            m->t[i].v[k] = m->p[m->t[i].v[k]].index;
    out->items = m->t;
    out->count = m->count;
    out->hull_count = n;
    m->t = NULL;
    return true;
}

int bys_delaunay(bys_triangles *out, const double *xy, int n)
{
    memset(out, 0, sizeof *out);
    const size_t room = (size_t)(n > 0 ? n : 1);
    spot *spots = calloc(room, sizeof *spots);
    net m = {.p = spots, .t = calloc(2 * room, sizeof *m.t), .next = calloc(room, sizeof(int)),
             .before = calloc(room, sizeof(int)), .side = calloc(room, sizeof(int)),
             .stack = calloc(64, sizeof(int)), .room = 64};
    int rc = -1;
    if (spots && m.t && m.next && m.before && m.side && m.stack) {
        const int kept = sorted_spots(spots, xy, n);
        int p = 2;
        while (p < kept && turn(&m, 0, 1, p) == 0)
            p++;
        rc = p < kept ? 0 : 1;
        if (rc == 0) {
            begin(&m, p);
            for (int i = p + 1; i < kept && !m.failed; i++)
                join(&m, i, i - 1);
            rc = m.failed || !hand_over(out, &m, kept - 1) ? -1 : 0;
        }
    }
    free(spots);
    free(m.t);
    free(m.next);
    free(m.before);
    free(m.side);
    free(m.stack);
    if (rc != 0)
        bys_triangles_free(out);
    return rc;
}

void bys_triangles_free(bys_triangles *triangles)
{
    if (!triangles)
        return;
    free(triangles->items);
    free(triangles->hull);
    memset(triangles, 0, sizeof *triangles);
}

int bys_triangle_at(const bys_triangles *triangles, const double *xy, double x, double y, int from)
{
    int at = from;
    for (int steps = 0; steps <= triangles->count; steps++) {
        const bys_triangle *t = &triangles->items[at];
        int over = -1;
        for (int k = 0; k < 3 && over < 0; k++) {
            const double *a = xy + 2 * t->v[(k + 1) % 3], *b = xy + 2 * t->v[(k + 2) % 3];
            if ((b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0]) < 0.0)
                over = k;
        }
        if (over < 0)
            return at;
        if (t->next[over] < 0)
            return -1;
        at = t->next[over];
    }
    return at; // rounding on a side made it go to and fro: any triangle there will do
}
