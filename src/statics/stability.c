// SPDX-License-Identifier: GPL-3.0-or-later
// Does a small push grow? In a heavily damped medium x' = -K x, so equilibrium is stable when every
// eigenvalue of the tangent K has a positive real part.
//
// NOTES
//   1. If the symmetric part of K has only positive pivots, all real parts are positive: stable.
//   2. Otherwise the eigenvalues of smallest size are found by Arnoldi iteration on K^-1
//      (Ritz values of a 24-step Krylov space) and judged by their real parts.
//   3. A pivot below 1e-6 N/m says that a position is free within the tolerance: indeterminate.
// SOURCE Saad, Numerical Methods for Large Eigenvalue Problems (1992) ch. 6 [memory]; the lemma of
//        note 1 is Bendixson's (1902) [memory].
#include "num/vec3.h"
#include "statics/solver.h"

#include <gsl/gsl_complex_math.h>
#include <gsl/gsl_eigen.h>
#include <stdlib.h>

enum { KRYLOV = 24 };
static const double FREE_STIFFNESS = 1e-6; // N/m

/// factor <- (K + K')/2
static void symmetric_part(const bys_solver *s, double *out)
{
    const bys_pattern3 *p = s->pattern;
    const double *D = s->tangent, *L = D + 9 * (size_t)p->n, *U = L + 9 * (size_t)p->fill;
    double *sD = out, *sL = sD + 9 * (size_t)p->n, *sU = sL + 9 * (size_t)p->fill;
    for (int k = 0; k < p->n; k++)
        for (int i = 0; i < 3; i++)
            for (int j = 0; j < 3; j++)
                sD[9 * k + 3 * i + j] = 0.5 * (D[9 * k + 3 * i + j] + D[9 * k + 3 * j + i]);
    for (int e = 0; e < p->fill; e++)
        for (int i = 0; i < 3; i++)
            for (int j = 0; j < 3; j++) {
                const double v = 0.5 * (L[9 * (size_t)e + (size_t)(3 * i + j)] +
                                        U[9 * (size_t)e + (size_t)(3 * j + i)]);
                sL[9 * (size_t)e + (size_t)(3 * i + j)] = v;
                sU[9 * (size_t)e + (size_t)(3 * j + i)] = v;
            }
}

static double dot_n(const double *a, const double *b, int n)
{
    double sum = 0.0;
    for (int i = 0; i < n; i++)
        sum += a[i] * b[i];
    return sum;
}

/// Krylov basis V (KRYLOV+1 rows of n) of K^-1 and its Hessenberg matrix. Returns the size reached.
static int arnoldi(bys_solver *s, double *V, gsl_matrix *H)
{
    const int n = 3 * s->blocks, m = n < KRYLOV ? n : KRYLOV;
    for (int i = 0; i < n; i++)
        V[i] = sin(0.37 * (double)i + 0.2) + 0.3;
    double norm = sqrt(dot_n(V, V, n));
    for (int i = 0; i < n; i++)
        V[i] /= norm;
    gsl_matrix_set_zero(H);
    for (int k = 0; k < m; k++) {
        double *w = V + (size_t)(k + 1) * (size_t)n;
        bys_block_solve(s->pattern, s->factor, V + (size_t)k * (size_t)n, w, s->work);
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

/// Smallest real part among the eigenvalues of K that the Krylov space has found (largest of K^-1).
static double lowest_real_part(bys_solver *s)
{
    double *V = malloc((size_t)(KRYLOV + 1) * 3 * (size_t)s->blocks * sizeof *V);
    gsl_matrix *H = gsl_matrix_calloc(KRYLOV, KRYLOV);
    gsl_eigen_nonsymm_workspace *w = gsl_eigen_nonsymm_alloc(KRYLOV);
    gsl_vector_complex *theta = gsl_vector_complex_calloc(KRYLOV);
    double lowest = INFINITY, largest = 0.0;
    if (V && H && w && theta) {
        const int m = arnoldi(s, V, H);
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

int bys_stability(bys_solver *s, int *block, double *mode)
{
    bys_pivots pivots;
    symmetric_part(s, s->factor);
    bys_block_factor(s->pattern, s->factor, &pivots);
    *block = pivots.weakest;
    *mode = pivots.weakest_value;
    if (pivots.negative == 0 && pivots.replaced == 0)
        return pivots.weakest_value > FREE_STIFFNESS ? 1 : 0;
    memcpy(s->factor, s->tangent, bys_pattern3_values(s->pattern) * sizeof(double));
    bys_block_factor(s->pattern, s->factor, &pivots);
    if (pivots.replaced > 0 || fabs(pivots.weakest_value) < FREE_STIFFNESS) {
        *block = pivots.weakest;
        *mode = pivots.weakest_value;
        return 0;
    }
    const double lowest = lowest_real_part(s);
    *mode = lowest;
    return lowest > FREE_STIFFNESS ? 1 : (lowest < -FREE_STIFFNESS ? -1 : 0);
}
