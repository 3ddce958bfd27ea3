// SPDX-License-Identifier: GPL-3.0-or-later
// The eigenvalues of smallest size of a factored matrix, by Arnoldi iteration on its inverse.
// NOTES  Ritz values of a 24-step Krylov space of K^-1; only those within a thousandth of the largest
//        count, for only the outer ones are well found. Enough to tell the sign of the softest modes.
// SOURCE Saad, Numerical Methods for Large Eigenvalue Problems (1992) ch. 6 [memory].
#include "num/spectrum.h"

#include <gsl/gsl_complex_math.h>
#include <gsl/gsl_eigen.h>
#include <math.h>
#include <stdlib.h>

enum { KRYLOV = 24 };

static double dot_n(const double *a, const double *b, int n)
{
    double sum = 0.0;
    for (int i = 0; i < n; i++)
        sum += a[i] * b[i];
    return sum;
}

/// Krylov basis V (KRYLOV+1 rows of n) of K^-1 and its Hessenberg matrix. Returns the size reached.
static int arnoldi(const bys_pattern3 *p, const double *factor, double *work, double *V,
                   gsl_matrix *H)
{
    const int n = 3 * p->n, m = n < KRYLOV ? n : KRYLOV;
    for (int i = 0; i < n; i++)
        V[i] = sin(0.37 * (double)i + 0.2) + 0.3;
    double norm = sqrt(dot_n(V, V, n));
    for (int i = 0; i < n; i++)
        V[i] /= norm;
    gsl_matrix_set_zero(H);
    for (int k = 0; k < m; k++) {
        double *w = V + (size_t)(k + 1) * (size_t)n;
        bys_block_solve(p, factor, V + (size_t)k * (size_t)n, w, work);
        for (int j = 0; j <= k; j++) {
            const double *v = V + (size_t)j * (size_t)n, h = dot_n(w, v, n);
            gsl_matrix_set(H, (size_t)j, (size_t)k, h);
            for (int i = 0; i < n; i++)
                w[i] -= h * v[i];
        }
        norm = sqrt(dot_n(w, w, n));
        if (!(norm > 1e-14))
            return k + 1;
        if (k + 1 < m)
            gsl_matrix_set(H, (size_t)k + 1, (size_t)k, norm);
        for (int i = 0; i < n; i++)
            w[i] /= norm;
    }
    return m;
}

double bys_lowest_real_part(const bys_pattern3 *p, const double *factor, double *work)
{
    double *V = malloc((size_t)(KRYLOV + 1) * 3 * (size_t)p->n * sizeof *V);
    gsl_matrix *H = gsl_matrix_calloc(KRYLOV, KRYLOV);
    gsl_eigen_nonsymm_workspace *w = gsl_eigen_nonsymm_alloc(KRYLOV);
    gsl_vector_complex *theta = gsl_vector_complex_calloc(KRYLOV);
    double lowest = INFINITY, largest = 0.0;
    if (V && H && w && theta) {
        const int m = arnoldi(p, factor, work, V, H);
        gsl_eigen_nonsymm(H, theta, w);
        for (int i = 0; i < KRYLOV && m > 0; i++)
            largest = fmax(largest, gsl_complex_abs(gsl_vector_complex_get(theta, (size_t)i)));
        for (int i = 0; i < KRYLOV; i++) { // lambda = 1/theta; only the well-found outer ones count
            const gsl_complex t = gsl_vector_complex_get(theta, (size_t)i);
            const double size = gsl_complex_abs(t);
            if (size > 1e-3 * largest)
                lowest = fmin(lowest, GSL_REAL(t) / (size * size));
        }
    }
    free(V);
    gsl_matrix_free(H);
    gsl_eigen_nonsymm_free(w);
    gsl_vector_complex_free(theta);
    return lowest;
}
