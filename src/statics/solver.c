// SPDX-License-Identifier: GPL-3.0-or-later
// The solver's memory: which unknown each point is, where each coupling stands in the tangent.
#include "statics/solver.h"

#include <stdlib.h>

/// Blocks of a point's unknowns: 0, 1 or 2 of them.
static int blocks_of(const bys_solver *s, int point, int out[2])
{
    const int b = s->block_of_point[point];
    if (b == -1)
        return 0;
    out[0] = b >= 0 ? b : s->block_of_body[-2 - b];
    out[1] = out[0] + 1;
    return b >= 0 ? 1 : 2;
}

static int couple_points(const bys_solver *s, int a, int b, int (*edges)[2], int m)
{
    int ba[2], bb[2];
    const int na = blocks_of(s, a, ba), nb = blocks_of(s, b, bb);
    for (int i = 0; i < na; i++)
        for (int j = 0; j < nb; j++)
            edges[m][0] = ba[i], edges[m][1] = bb[j], m++;
    return m;
}

static bys_rc analyse(bys_solver *s, bys_error *err)
{
    const bys_island *isl = s->island;
    int(*edges)[2] = malloc(((size_t)isl->element_count * 4 + (size_t)isl->body_count + 1) *
                            sizeof *edges);
    if (!edges)
        return bys_error_set(err, BYS_ENOMEM, 0, "out of memory");
    int m = 0;
    for (int i = 0; i < isl->element_count; i++) {
        const bys_element *e = &s->net->elements[isl->elements[i]];
        m = couple_points(s, e->a, e->b, edges, m);
    }
    for (int i = 0; i < isl->body_count; i++) {
        const int b = s->block_of_body[isl->bodies[i]];
        edges[m][0] = b, edges[m][1] = b + 1, m++;
    }
    const bys_rc rc = bys_pattern3_new(&s->pattern, s->blocks, (const int(*)[2])edges, m, err);
    free(edges);
    return rc;
}

static bys_coupling find_coupling(const bys_solver *s, int a, int b)
{
    bys_coupling c = {{{-1, -1}, {-1, -1}}};
    int ba[2], bb[2];
    const int na = blocks_of(s, a, ba), nb = blocks_of(s, b, bb);
    for (int i = 0; i < na; i++)
        for (int j = 0; j < nb; j++)
            c.slot[i][j] = bys_pattern3_slot(s->pattern, ba[i], bb[j]);
    return c;
}

static void find_slots(bys_solver *s)
{
    for (int i = 0; i < s->island->element_count; i++) {
        const bys_element *e = &s->net->elements[s->island->elements[i]];
        s->aa[i] = find_coupling(s, e->a, e->a);
        s->ab[i] = find_coupling(s, e->a, e->b);
        s->ba[i] = find_coupling(s, e->b, e->a);
        s->bb[i] = find_coupling(s, e->b, e->b);
    }
    for (int b = 0; b < s->blocks; b++)
        s->diagonal[b] = bys_pattern3_slot(s->pattern, b, b);
    for (int i = 0; i < s->island->point_count; i++) {
        const int p = s->island->points[i], b = s->block_of_point[p];
        for (int c = 0; b >= 0 && c < 3; c++)
            s->held[b][c] = s->net->points[p].hold[c] ? 1.0 : 0.0;
    }
}

static void *get(size_t n, size_t size, bool *ok)
{
    void *p = calloc(n > 0 ? n : 1, size);
    *ok = *ok && p;
    return p;
}

static bool get_maps(bys_solver *s)
{
    const size_t ne = (size_t)s->island->element_count;
    bool ok = true;
    s->aa = get(ne, sizeof *s->aa, &ok);
    s->ab = get(ne, sizeof *s->ab, &ok);
    s->ba = get(ne, sizeof *s->ba, &ok);
    s->bb = get(ne, sizeof *s->bb, &ok);
    s->pulled = get(ne, sizeof(double), &ok);
    s->pulled_eff = get(ne, sizeof(double), &ok);
    s->pulled_k = get(ne, sizeof(double), &ok);
    s->pulled_dir = get(ne, sizeof *s->pulled_dir, &ok);
    return ok;
}

static bool get_values(bys_solver *s)
{
    const size_t nv = bys_pattern3_values(s->pattern), nu = 3 * (size_t)s->blocks;
    bool ok = true;
    s->diagonal = get((size_t)s->blocks, sizeof(int), &ok);
    s->held = get((size_t)s->blocks, sizeof *s->held, &ok);
    s->shift = get(2 * (size_t)s->blocks, sizeof(double), &ok);
    s->tangent = get(nv, sizeof(double), &ok);
    s->factor = get(nv, sizeof(double), &ok);
    s->residual = get(nu, sizeof(double), &ok);
    s->step = get(nu, sizeof(double), &ok);
    s->right = get(nu, sizeof(double), &ok);
    s->work = get(nu, sizeof(double), &ok);
    s->before = get(nu, sizeof(double), &ok);
    s->shift_before = get(2 * (size_t)s->blocks, sizeof(double), &ok);
    s->keep = get(nu + 9 * (size_t)s->island->body_count, sizeof(double), &ok);
    return ok;
}

bys_rc bys_solver_new(bys_solver **out, const bys_network *net, int island, bys_error *err)
{
    bys_solver *s = calloc(1, sizeof *s);
    if (!s)
        return bys_error_set(err, BYS_ENOMEM, 0, "out of memory");
    s->net = net;
    s->index = island;
    s->island = &net->islands[island];
    s->blocks = s->island->block_count;
    s->block_of_point = net->block_of_point;
    s->block_of_body = net->block_of_body;
    bys_rc rc = get_maps(s) ? BYS_OK : BYS_ENOMEM;
    if (rc == BYS_OK)
        rc = analyse(s, err);
    if (rc == BYS_OK && !get_values(s))
        rc = BYS_ENOMEM;
    if (rc != BYS_OK) {
        bys_solver_free(s);
        return rc == BYS_ENOMEM ? bys_error_set(err, rc, 0, "out of memory") : rc;
    }
    find_slots(s);
    *out = s;
    return BYS_OK;
}

void bys_solver_free(bys_solver *s)
{
    if (!s)
        return;
    void *all[] = {s->aa, s->ab, s->ba, s->bb, s->diagonal, s->held, s->tangent, s->factor,
                   s->residual, s->step, s->right, s->work, s->keep, s->shift, s->pulled,
                   s->pulled_eff, s->pulled_k, s->pulled_dir, s->before, s->shift_before};
    for (size_t i = 0; i < sizeof all / sizeof *all; i++)
        free(all[i]);
    bys_pattern3_free(s->pattern);
    free(s);
}
