// SPDX-License-Identifier: GPL-3.0-or-later
// Factor and solve: num/blocklu.h beside KLU, the general unsymmetric solver of SuiteSparse.
// Both analyse the pattern once; the time is the median of factoring new values and solving once.
// Networks as they come up: longlines (a chain of points with a leg at each end), a grid of rafts.
#include "num/blocklu.h"

#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <suitesparse/klu.h>
#include <time.h>

enum { REPEATS = 41 };

typedef struct {
    int n, m;
    int (*edge)[2];
} graph;

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static int by_size(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static double median(double *t)
{
    qsort(t, REPEATS, sizeof *t, by_size);
    return t[REPEATS / 2];
}

static void *need(void *memory)
{
    if (!memory) {
        fputs("out of memory\n", stderr);
        exit(1);
    }
    return memory;
}

static graph grid(int across, int along)
{
    graph g = {across * along, 0, NULL};
    g.edge = need(calloc(2 * (size_t)g.n, sizeof *g.edge));
    for (int i = 0; i < across; i++)
        for (int j = 0; j < along; j++) {
            const int here = i * along + j;
            if (j + 1 < along)
                g.edge[g.m][0] = here, g.edge[g.m++][1] = here + 1;
            if (i + 1 < across && j % 4 == 0)
                g.edge[g.m][0] = here, g.edge[g.m++][1] = here + along;
        }
    return g;
}

static graph lines(int count, int points)
{
    graph g = {count * points, 0, NULL};
    g.edge = need(calloc((size_t)g.n, sizeof *g.edge));
    for (int i = 0; i < count; i++)
        for (int j = 0; j + 1 < points; j++)
            g.edge[g.m][0] = i * points + j, g.edge[g.m++][1] = i * points + j + 1;
    return g;
}

/// A tangent's values: stiff along, soft across, unsymmetric by a few per cent, diagonal the sum.
static void fill(double *v, const bys_pattern3 *p, const graph *g)
{
    uint64_t seed = 88172645463325252u;
    memset(v, 0, bys_pattern3_values(p) * sizeof *v);
    for (int e = 0; e < g->m; e++) {
        const int a = g->edge[e][0], b = g->edge[e][1];
        const int at[4] = {bys_pattern3_slot(p, a, b), bys_pattern3_slot(p, b, a),
                           bys_pattern3_slot(p, a, a), bys_pattern3_slot(p, b, b)};
        for (int c = 0; c < 9; c++) {
            seed ^= seed << 13, seed ^= seed >> 7, seed ^= seed << 17;
            const double r = (double)(seed % 1000) / 1000.0 - 0.5;
            const double k = c % 4 == 0 ? (c == 0 ? 1e5 : 1e3) : 20.0 * r;
            for (int i = 0; i < 4; i++)
                v[at[i] + c] += i < 2 ? -k * (1.0 + 0.02 * r * i) : k;
        }
    }
    for (int b = 0; b < g->n; b++)
        for (int c = 0; c < 9; c += 4)
            v[bys_pattern3_slot(p, b, b) + c] += 10.0;
}

typedef struct {
    int *Ap, *Ai;
    double *Ax;
} columns;

/// The same matrix by compressed columns.
static columns to_columns(const bys_pattern3 *p, const double *v, const graph *g)
{
    const int n = 3 * g->n;
    char *near_by = need(calloc((size_t)g->n * (size_t)g->n, 1));
    for (int e = 0; e < g->m; e++)
        near_by[(size_t)g->edge[e][0] * (size_t)g->n + (size_t)g->edge[e][1]] =
            near_by[(size_t)g->edge[e][1] * (size_t)g->n + (size_t)g->edge[e][0]] = 1;
    const size_t most = 9 * ((size_t)g->n + 2 * (size_t)g->m);
    columns c = {need(calloc((size_t)n + 1, sizeof(int))), need(calloc(most, sizeof(int))),
                 need(calloc(most, sizeof(double)))};
    int k = 0;
    for (int j = 0; j < n; j++) {
        for (int b = 0; b < g->n; b++) {
            if (b != j / 3 && !near_by[(size_t)b * (size_t)g->n + (size_t)(j / 3)])
                continue;
            const int slot = bys_pattern3_slot(p, b, j / 3);
            for (int i = 0; i < 3; i++, k++)
                c.Ai[k] = 3 * b + i, c.Ax[k] = v[slot + 3 * i + j % 3];
        }
        c.Ap[j + 1] = k;
    }
    free(near_by);
    return c;
}

static double time_ours(const bys_pattern3 *p, const double *values, const double *b, double *x)
{
    double t[REPEATS], *v = need(malloc(bys_pattern3_values(p) * sizeof *v));
    double *work = need(malloc(3 * (size_t)p->n * sizeof *work));
    for (int i = 0; i < REPEATS; i++) {
        bys_pivots pivots;
        const double start = now();
        memcpy(v, values, bys_pattern3_values(p) * sizeof *v);
        bys_block_factor(p, v, &pivots);
        bys_block_solve(p, v, b, x, work);
        t[i] = now() - start;
    }
    free(work);
    free(v);
    return median(t);
}

static double time_klu(const columns *c, int n, const double *b, double *x)
{
    double t[REPEATS];
    klu_common common;
    klu_defaults(&common);
    klu_symbolic *symbolic = need(klu_analyze(n, c->Ap, c->Ai, &common));
    klu_numeric *numeric = need(klu_factor(c->Ap, c->Ai, c->Ax, symbolic, &common));
    for (int i = 0; i < REPEATS; i++) {
        const double start = now();
        klu_refactor(c->Ap, c->Ai, c->Ax, symbolic, numeric, &common);
        memcpy(x, b, (size_t)n * sizeof *x);
        klu_solve(symbolic, numeric, n, 1, x, &common);
        t[i] = now() - start;
    }
    klu_free_numeric(&numeric, &common);
    klu_free_symbolic(&symbolic, &common);
    return median(t);
}

static int compare(const char *name, graph g)
{
    bys_pattern3 *p = NULL;
    bys_error error;
    if (bys_pattern3_new(&p, g.n, (const int(*)[2])g.edge, g.m, &error) != BYS_OK)
        return 1;
    const size_t n = 3 * (size_t)g.n;
    double *v = need(malloc(bys_pattern3_values(p) * sizeof *v));
    double *b = need(malloc(n * sizeof *b)), *x = need(malloc(n * sizeof *x));
    double *y = need(malloc(n * sizeof *y));
    fill(v, p, &g);
    for (size_t i = 0; i < n; i++)
        b[i] = 100.0 * sin((double)i);
    columns c = to_columns(p, v, &g);
    const double ours = time_ours(p, v, b, x), klu = time_klu(&c, (int)n, b, y);
    double apart = 0.0, size = 0.0;
    for (size_t i = 0; i < n; i++)
        apart = fmax(apart, fabs(x[i] - y[i])), size = fmax(size, fabs(y[i]));
    printf("%-28s %6d points  ours %8.3f ms  KLU %8.3f ms  ratio %5.2f  apart %.1e\n", name, g.n,
           1e3 * ours, 1e3 * klu, klu / ours, apart / size);
    if (!strcmp(name, "60 longlines"))
        printf("bench klu_ratio %.3f\n", klu / ours); // read by ratios.py
    bys_pattern3_free(p);
    free(c.Ap), free(c.Ai), free(c.Ax);
    free(v), free(b), free(x), free(y), free(g.edge);
    return !(apart <= 1e-8 * size);
}

int main(void)
{
    int failed = compare("1 longline", lines(1, 50));
    failed += compare("60 longlines", lines(60, 50));
    failed += compare("rafts, 12 x 60 points", grid(12, 60));
    failed += compare("rafts, 40 x 60 points", grid(40, 60));
    return failed > 0;
}
