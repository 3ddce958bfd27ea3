// SPDX-License-Identifier: GPL-3.0-or-later
// The block factor against GSL's dense LU with pivoting (a general library) on random patterns.
#include "num/blocklu.h"
#include "support/suite.h"

#include <gsl/gsl_linalg.h>
#include <string.h>

enum { N = 24, EDGES = 40 };

typedef struct { bys_pattern3 *pattern; double *values; gsl_matrix *dense; } sample;

static double noise(void)
{
    return 2.0 * rand() / RAND_MAX - 1.0;
}

static void fill_block(sample *s, int i, int j, double diagonal)
{
    const int slot = bys_pattern3_slot(s->pattern, i, j);
    ck_assert_int_ge(slot, 0);
    for (int r = 0; r < 3; r++)
        for (int c = 0; c < 3; c++) {
            const double v = noise() + (r == c ? diagonal : 0.0);
            s->values[slot + 3 * r + c] = v;
            gsl_matrix_set(s->dense, (size_t)(3 * i + r), (size_t)(3 * j + c), v);
        }
}

static sample make_sample(unsigned seed)
{
    int edges[EDGES][2];
    sample s;
    srand(seed);
    for (int e = 0; e < EDGES; e++)
        edges[e][0] = rand() % N, edges[e][1] = e < N - 1 ? e : rand() % N;
    ck_assert_int_eq(bys_pattern3_new(&s.pattern, N, (const int(*)[2])edges, EDGES, NULL), BYS_OK);
    s.values = calloc(bys_pattern3_values(s.pattern), sizeof *s.values);
    s.dense = gsl_matrix_calloc(3 * N, 3 * N);
    for (int i = 0; i < N; i++)
        fill_block(&s, i, i, 25.0);
    for (int e = 0; e < EDGES; e++)
        if (edges[e][0] != edges[e][1]) {
            fill_block(&s, edges[e][0], edges[e][1], 0.0);
            fill_block(&s, edges[e][1], edges[e][0], 0.0);
        }
    return s;
}

static void free_sample(sample *s)
{
    bys_pattern3_free(s->pattern);
    free(s->values);
    gsl_matrix_free(s->dense);
}

START_TEST(solves_like_a_dense_factor)
{
    for (unsigned seed = 1; seed <= 50; seed++) {
        sample s = make_sample(seed);
        gsl_vector *b = gsl_vector_alloc(3 * N), *x = gsl_vector_alloc(3 * N);
        gsl_permutation *p = gsl_permutation_alloc(3 * N);
        double own[3 * N], turned[3 * N], work[3 * N], product[3 * N];
        bys_pivots pivots;
        int sign;
        for (size_t i = 0; i < 3 * N; i++)
            gsl_vector_set(b, i, own[i] = turned[i] = noise());
        bys_block_times(s.pattern, s.values, own, product);
        for (size_t i = 0; i < 3 * N; i++) {
            double want = 0.0;
            for (size_t j = 0; j < 3 * N; j++)
                want += gsl_matrix_get(s.dense, i, j) * own[j];
            expect_abs(product[i], want, 1e-12);
        }
        bys_block_factor(s.pattern, s.values, &pivots);
        bys_block_solve(s.pattern, s.values, own, own, work);
        bys_block_solve_transposed(s.pattern, s.values, turned, turned, work);
        gsl_matrix *copy = gsl_matrix_alloc(3 * N, 3 * N);
        gsl_matrix_memcpy(copy, s.dense);
        gsl_linalg_LU_decomp(copy, p, &sign);
        gsl_linalg_LU_solve(copy, p, b, x);
        for (size_t i = 0; i < 3 * N; i++)
            expect_abs(own[i], gsl_vector_get(x, i), 1e-12);
        gsl_matrix_transpose_memcpy(copy, s.dense);
        gsl_linalg_LU_decomp(copy, p, &sign);
        gsl_linalg_LU_solve(copy, p, b, x);
        for (size_t i = 0; i < 3 * N; i++)
            expect_abs(turned[i], gsl_vector_get(x, i), 1e-12);
        ck_assert_int_eq(pivots.negative, 0);
        gsl_matrix_free(copy);
        gsl_vector_free(b), gsl_vector_free(x), gsl_permutation_free(p);
        free_sample(&s);
    }
}
END_TEST

START_TEST(counts_negative_pivots)
{
    // a diagonal matrix with two negative entries: its inertia is known
    const int edge[1][2] = {{0, 1}};
    bys_pattern3 *p;
    ck_assert_int_eq(bys_pattern3_new(&p, 2, edge, 1, NULL), BYS_OK);
    double *v = calloc(bys_pattern3_values(p), sizeof *v);
    const double d[6] = {2.0, -3.0, 5.0, 0.25, -1.0, 4.0};
    bys_pivots found;
    for (int i = 0; i < 6; i++)
        v[bys_pattern3_slot(p, i / 3, i / 3) + 4 * (i % 3)] = d[i];
    bys_block_factor(p, v, &found);
    ck_assert_int_eq(found.negative, 2);
    ck_assert_int_eq(found.weakest, 1);
    expect_abs(found.weakest_value, 0.25, 0.0);
    free(v);
    bys_pattern3_free(p);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("block factor");
    suite_test(s, solves_like_a_dense_factor);
    suite_test(s, counts_negative_pivots);
    return suite_run(s, NULL);
}
