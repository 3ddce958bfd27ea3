// SPDX-License-Identifier: GPL-3.0-or-later
// SOURCES Amestoy, Davis & Duff, SIAM J. Matrix Anal. Appl. 17 (1996) 886 (the order, by libamd);
//         George & Liu, Computer Solution of Large Sparse Positive Definite Systems (1981) ch. 5
//         (fill by elimination); right-looking elimination as in Golub & Van Loan, ch. 3.
#include "num/blocklu.h"

#include "num/vec3.h"

#include <stdlib.h>
#include <suitesparse/amd.h>

// ---- pattern ---------------------------------------------------------------------------------

static int compare_edges(const void *a, const void *b)
{
    const int *p = a, *q = b;
    return p[0] != q[0] ? p[0] - q[0] : p[1] - q[1];
}

static int compare_ints(const void *a, const void *b)
{
    const int p = *(const int *)a, q = *(const int *)b;
    return (p > q) - (p < q);
}

/// Both directions of every edge, sorted, without repeats and loops. Returns their number.
static int edge_list(int (*list)[2], const int (*edges)[2], int m)
{
    int k = 0;
    for (int e = 0; e < m; e++) {
        if (edges[e][0] == edges[e][1])
            continue;
        list[k][0] = edges[e][0], list[k][1] = edges[e][1], k++;
        list[k][0] = edges[e][1], list[k][1] = edges[e][0], k++;
    }
    qsort(list, (size_t)k, sizeof *list, compare_edges);
    int kept = 0;
    for (int e = 0; e < k; e++)
        if (kept == 0 || compare_edges(list[e], list[kept - 1]) != 0)
            list[kept][0] = list[e][0], list[kept][1] = list[e][1], kept++;
    return kept;
}

static bys_rc find_order(bys_pattern3 *p, const int *start, const int *adjacent)
{
    for (int i = 0; i < p->n; i++)
        p->order[i] = i;
    if (start[p->n] > 0 && amd_order(p->n, start, adjacent, p->order, NULL, NULL) < AMD_OK)
        return BYS_EINTERNAL;
    for (int k = 0; k < p->n; k++)
        p->place[p->order[k]] = k;
    return BYS_OK;
}

/// Rows of column k of L: neighbours of the pivot that come later, and the rows of its children in
/// the elimination tree without k itself.
static int column_rows(const bys_pattern3 *p, const int *start, const int *adjacent, int k,
                       const int *child, const int *sibling, int *mark, int *out)
{
    int n = 0;
    const int block = p->order[k];
    mark[k] = k;
    for (int e = start[block]; e < start[block + 1]; e++) {
        const int i = p->place[adjacent[e]];
        if (i > k && mark[i] != k)
            mark[i] = k, out[n++] = i;
    }
    for (int c = child[k]; c >= 0; c = sibling[c])
        for (int e = p->start[c]; e < p->start[c + 1]; e++) {
            const int i = p->row[e];
            if (i > k && mark[i] != k)
                mark[i] = k, out[n++] = i;
        }
    qsort(out, (size_t)n, sizeof *out, compare_ints);
    return n;
}

/// Grows p->row to hold `need` entries.
static bool reserve_rows(bys_pattern3 *p, int need, int *capacity)
{
    if (need <= *capacity)
        return true;
    const int wanted = need + need / 2 + 64;
    int *grown = realloc(p->row, (size_t)wanted * sizeof *grown);
    if (!grown)
        return false;
    p->row = grown;
    *capacity = wanted;
    return true;
}

static bool find_fill(bys_pattern3 *p, const int *start, const int *adjacent, int *scratch)
{
    int *child = scratch, *sibling = scratch + p->n, *mark = scratch + 2 * p->n;
    int *rows = scratch + 3 * p->n, capacity = 0;
    for (int k = 0; k < p->n; k++)
        child[k] = sibling[k] = mark[k] = -1;
    for (int k = 0; k < p->n; k++) {
        const int n = column_rows(p, start, adjacent, k, child, sibling, mark, rows);
        if (!reserve_rows(p, p->start[k] + n, &capacity))
            return false;
        if (n > 0) {
            memcpy(p->row + p->start[k], rows, (size_t)n * sizeof *rows);
            sibling[k] = child[rows[0]], child[rows[0]] = k;
        }
        p->start[k + 1] = p->start[k] + n;
    }
    p->fill = p->start[p->n];
    return true;
}

/// Entry of (row, column) in the lists of L by bisection, -1 if absent.
static int find_entry(const bys_pattern3 *p, int row, int column)
{
    int lo = p->start[column], hi = p->start[column + 1];
    while (lo < hi) {
        const int mid = (lo + hi) / 2;
        if (p->row[mid] < row)
            lo = mid + 1;
        else
            hi = mid;
    }
    return lo < p->start[column + 1] && p->row[lo] == row ? lo : -1;
}

static bool find_targets(bys_pattern3 *p)
{
    long total = 0;
    for (int k = 0; k < p->n; k++) {
        const long m = p->start[k + 1] - p->start[k];
        total += m * (m - 1) / 2;
    }
    if (total > 0x3fffffff)
        return false;
    p->target = malloc((size_t)(total > 0 ? total : 1) * sizeof *p->target);
    if (!p->target)
        return false;
    int t = 0;
    for (int k = 0; k < p->n; k++) {
        p->pair[k] = t;
        for (int a = p->start[k]; a < p->start[k + 1]; a++)
            for (int b = a + 1; b < p->start[k + 1]; b++)
                p->target[t++] = find_entry(p, p->row[b], p->row[a]);
    }
    return true;
}

static bool analyse(bys_pattern3 *p, const int (*edges)[2], int m, int *scratch, int (*list)[2])
{
    int *start = scratch, *adjacent = scratch + p->n + 1;
    const int k = edge_list(list, edges, m);
    for (int i = 0; i <= p->n; i++)
        start[i] = 0;
    for (int e = 0; e < k; e++)
        start[list[e][0] + 1]++, adjacent[e] = list[e][1];
    for (int i = 0; i < p->n; i++)
        start[i + 1] += start[i];
    return find_order(p, start, adjacent) == BYS_OK &&
           find_fill(p, start, adjacent, scratch + p->n + 1 + 2 * m) && find_targets(p);
}

bys_rc bys_pattern3_new(bys_pattern3 **out, int n, const int (*edges)[2], int m, bys_error *err)
{
    bys_pattern3 *p = calloc(1, sizeof *p);
    int *scratch = malloc(((size_t)n * 5 + 1 + 2 * (size_t)m) * sizeof *scratch);
    int(*list)[2] = malloc((2 * (size_t)m + 1) * sizeof *list);
    bool ok = p && scratch && list;
    if (ok) {
        p->n = n;
        p->order = malloc((size_t)(n > 0 ? n : 1) * sizeof(int));
        p->place = malloc((size_t)(n > 0 ? n : 1) * sizeof(int));
        p->pair = malloc((size_t)(n > 0 ? n : 1) * sizeof(int));
        p->start = calloc((size_t)n + 1, sizeof(int));
        ok = p->order && p->place && p->pair && p->start && analyse(p, edges, m, scratch, list);
    }
    free(scratch);
    free(list);
    if (!ok) {
        bys_pattern3_free(p);
        return bys_error_set(err, BYS_ENOMEM, 0, "out of memory while ordering %d blocks", n);
    }
    *out = p;
    return BYS_OK;
}

void bys_pattern3_free(bys_pattern3 *p)
{
    if (!p)
        return;
    free(p->order);
    free(p->place);
    free(p->start);
    free(p->row);
    free(p->pair);
    free(p->target);
    free(p);
}

size_t bys_pattern3_values(const bys_pattern3 *p)
{
    return 9 * ((size_t)p->n + 2 * (size_t)p->fill);
}

int bys_pattern3_slot(const bys_pattern3 *p, int i, int j)
{
    const int a = p->place[i], b = p->place[j];
    if (a == b)
        return 9 * a;
    const int entry = a > b ? find_entry(p, a, b) : find_entry(p, b, a);
    if (entry < 0)
        return -1;
    return 9 * (p->n + (a > b ? 0 : p->fill) + entry);
}

// ---- values ----------------------------------------------------------------------------------

/// The three scalar pivots of a block and its inverse, without row exchange.
static void invert_pivot(double *restrict D, int block, bys_pivots *found)
{
    double a[9], inv[9] = {1, 0, 0, 0, 1, 0, 0, 0, 1};
    memcpy(a, D, sizeof a);
    for (int c = 0; c < 3; c++) { // Gauss-Jordan on [a | I]
        double pivot = a[4 * c];
        if (!(fabs(pivot) > 1e-300))
            pivot = 1e-300, found->replaced++;
        if (pivot < 0.0)
            found->negative++;
        if (fabs(pivot) < fabs(found->weakest_value))
            found->weakest_value = pivot, found->weakest = block;
        const double scale = 1.0 / pivot;
        for (int j = 0; j < 3; j++)
            a[3 * c + j] *= scale, inv[3 * c + j] *= scale;
        for (int i = 0; i < 3; i++) {
            const double f = i == c ? 0.0 : a[3 * i + c];
            for (int j = 0; j < 3; j++)
                a[3 * i + j] -= f * a[3 * c + j], inv[3 * i + j] -= f * inv[3 * c + j];
        }
    }
    memcpy(D, inv, sizeof inv);
}

void bys_block_factor(const bys_pattern3 *p, double *values, bys_pivots *pivots)
{
    double *D = values, *L = values + 9 * (size_t)p->n, *U = L + 9 * (size_t)p->fill;
    *pivots = (bys_pivots){0, -1, INFINITY, 0};
    for (int k = 0; k < p->n; k++) {
        const int first = p->start[k], last = p->start[k + 1];
        invert_pivot(D + 9 * (size_t)k, p->order[k], pivots);
        const int *target = p->target + p->pair[k];
        for (int a = first; a < last; a++) { // L(i,k) = A(i,k) D^-1
            double *Lik = L + 9 * (size_t)a, A[9];
            memcpy(A, Lik, sizeof A);
            bys_mat_mul(Lik, A, D + 9 * (size_t)k);
        }
        for (int a = first; a < last; a++) { // A(i,j) -= L(i,k) U(k,j)
            const double *La = L + 9 * (size_t)a, *Ua = U + 9 * (size_t)a;
            bys_mat_mul_sub(D + 9 * (size_t)p->row[a], La, Ua);
            for (int b = a + 1; b < last; b++, target++) {
                bys_mat_mul_sub(L + 9 * (size_t)*target, L + 9 * (size_t)b, Ua);
                bys_mat_mul_sub(U + 9 * (size_t)*target, La, U + 9 * (size_t)b);
            }
        }
    }
}

/// y -= A x
static void sub_times(double *y, const double *A, const double *x)
{
    for (int i = 0; i < 3; i++)
        y[i] -= A[3 * i] * x[0] + A[3 * i + 1] * x[1] + A[3 * i + 2] * x[2];
}

/// y -= A^T x
static void sub_times_t(double *y, const double *A, const double *x)
{
    for (int i = 0; i < 3; i++)
        y[i] -= A[i] * x[0] + A[3 + i] * x[1] + A[6 + i] * x[2];
}

static void gather(const bys_pattern3 *p, const double *b, double *y)
{
    for (int k = 0; k < p->n; k++)
        memcpy(y + 3 * (size_t)k, b + 3 * (size_t)p->order[k], 3 * sizeof *y);
}

static void scatter(const bys_pattern3 *p, const double *y, double *x)
{
    for (int k = 0; k < p->n; k++)
        memcpy(x + 3 * (size_t)p->order[k], y + 3 * (size_t)k, 3 * sizeof *y);
}

void bys_block_solve(const bys_pattern3 *p, const double *factor, const double *b, double *x,
                     double *y)
{
    const double *D = factor, *L = D + 9 * (size_t)p->n, *U = L + 9 * (size_t)p->fill;
    gather(p, b, y);
    for (int k = 0; k < p->n; k++) // L y = b
        for (int e = p->start[k]; e < p->start[k + 1]; e++)
            sub_times(y + 3 * (size_t)p->row[e], L + 9 * (size_t)e, y + 3 * (size_t)k);
    for (int k = p->n - 1; k >= 0; k--) { // D^-1, then U x = y
        double t[3];
        for (int e = p->start[k]; e < p->start[k + 1]; e++)
            sub_times(y + 3 * (size_t)k, U + 9 * (size_t)e, y + 3 * (size_t)p->row[e]);
        bys_mat_vec(t, D + 9 * (size_t)k, y + 3 * (size_t)k);
        memcpy(y + 3 * (size_t)k, t, sizeof t);
    }
    scatter(p, y, x);
}

void bys_block_solve_transposed(const bys_pattern3 *p, const double *factor, const double *b,
                                double *x, double *y)
{
    const double *D = factor, *L = D + 9 * (size_t)p->n, *U = L + 9 * (size_t)p->fill;
    gather(p, b, y);
    for (int k = 0; k < p->n; k++) { // (D U)^T y = b
        double t[3] = {0, 0, 0};
        sub_times_t(t, D + 9 * (size_t)k, y + 3 * (size_t)k);
        for (int i = 0; i < 3; i++)
            y[3 * (size_t)k + i] = -t[i];
        for (int e = p->start[k]; e < p->start[k + 1]; e++)
            sub_times_t(y + 3 * (size_t)p->row[e], U + 9 * (size_t)e, y + 3 * (size_t)k);
    }
    for (int k = p->n - 1; k >= 0; k--) // L^T x = y
        for (int e = p->start[k]; e < p->start[k + 1]; e++)
            sub_times_t(y + 3 * (size_t)k, L + 9 * (size_t)e, y + 3 * (size_t)p->row[e]);
    scatter(p, y, x);
}

void bys_block_times(const bys_pattern3 *p, const double *values, const double *x, double *y)
{
    const double *D = values, *L = D + 9 * (size_t)p->n, *U = L + 9 * (size_t)p->fill;
    for (int k = 0; k < p->n; k++) {
        const size_t at = 3 * (size_t)p->order[k];
        bys_mat_vec(y + at, D + 9 * (size_t)k, x + at);
    }
    for (int k = 0; k < p->n; k++)
        for (int e = p->start[k]; e < p->start[k + 1]; e++) {
            const size_t i = 3 * (size_t)p->order[p->row[e]], j = 3 * (size_t)p->order[k];
            double t[3];
            bys_mat_vec(t, L + 9 * (size_t)e, x + j);
            bys_axpy(y + i, 1.0, t);
            bys_mat_vec(t, U + 9 * (size_t)e, x + i);
            bys_axpy(y + j, 1.0, t);
        }
}
