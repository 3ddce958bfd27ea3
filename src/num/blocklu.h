// SPDX-License-Identifier: GPL-3.0-or-later
// Sparse LU of matrices made of 3x3 blocks with a symmetric pattern and unsymmetric values.
// The pattern is analysed once; the values are factored as often as wanted, without allocation.
// Pivots are static (diagonal blocks in the order that approximate minimum degree gives).
#ifndef BYS_BLOCKLU_H
#define BYS_BLOCKLU_H

#include <byssus/base.h>

/// Order and fill of one pattern. Constant, may be shared by threads.
typedef struct {
    int n;        ///< blocks
    int fill;     ///< blocks of L below the diagonal = blocks of U right of it
    int *order;   ///< n: block that stands at each pivot
    int *place;   ///< n: pivot at which each block stands
    int *start;   ///< n+1: first entry of each pivot column in `row`
    int *row;     ///< fill: pivots below, ascending within a column
    int *pair;    ///< start of each column's update targets in `target`
    int *target;  ///< for p < q in a column: entry of (row q, row p)
} bys_pattern3;

/// edges: m pairs of block indices, in any order, repeats allowed, no need for both directions.
bys_rc bys_pattern3_new(bys_pattern3 **out, int n, const int (*edges)[2], int m, bys_error *err);
void bys_pattern3_free(bys_pattern3 *pattern);

/// Number of doubles of a value array: diagonal blocks first, then L, then U, 9 each, row-major.
size_t bys_pattern3_values(const bys_pattern3 *pattern);
/// Offset of block (i, j) in the value array, -1 if it is outside the pattern.
int bys_pattern3_slot(const bys_pattern3 *pattern, int i, int j);

/// What a factorisation found.
typedef struct {
    int negative;       ///< negative scalar pivots
    int weakest;        ///< block with the smallest |pivot|
    double weakest_value; ///< that pivot (its sign kept)
    int replaced;       ///< pivots of size 0 that were replaced
} bys_pivots;

/// Factors in place: values <- L, D^-1, U. Deterministic.
void bys_block_factor(const bys_pattern3 *pattern, double *values, bys_pivots *pivots);
/// x (3n, in block order) <- A^-1 b. work: 3n. b and x may be the same array.
void bys_block_solve(const bys_pattern3 *pattern, const double *factor, const double *b, double *x,
                     double *work);
/// x <- A^-T b.
void bys_block_solve_transposed(const bys_pattern3 *pattern, const double *factor, const double *b,
                                double *x, double *work);
/// y <- A x for unfactored values.
void bys_block_times(const bys_pattern3 *pattern, const double *values, const double *x, double *y);

#endif
