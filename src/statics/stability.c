// SPDX-License-Identifier: GPL-3.0-or-later
// Does a small push grow? In a heavily damped medium x' = -K x, so equilibrium is stable when every
// eigenvalue of the tangent K has a positive real part.
//
// NOTES
//   1. If the symmetric part of K has only positive pivots, all real parts are positive: stable.
//   2. Otherwise the eigenvalues of smallest size are found (num/spectrum.c) and judged by their
//      real parts.
//   3. A pivot below 1e-6 N/m says that a position is free within the tolerance: indeterminate.
// SOURCE the lemma of note 1 is Bendixson's (1902) [memory].
#include "num/spectrum.h"
#include "statics/solver.h"

#include <math.h>
#include <string.h>


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
    const double lowest = bys_lowest_real_part(s->pattern, s->factor, s->work);
    *mode = lowest;
    return lowest > FREE_STIFFNESS ? 1 : (lowest < -FREE_STIFFNESS ? -1 : 0);
}
