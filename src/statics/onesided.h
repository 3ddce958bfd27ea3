// SPDX-License-Identifier: GPL-3.0-or-later
// A spring that only pulls (a rope) or only pushes (the bed).
//
// With P = k u (u the extension, m) the force F >= 0 obeys F - b^2/F = P: for b -> 0 this is
// F = max(P, 0); for b > 0 it is positive and smooth, at most b above max(P, 0).
// Kept as an unknown of its own, F is corrected from the linearised law: the stiff part of the balance
// is then a condition on lengths, met to second order by each step, and not a force that a small
// sideways move would turn into tonnes.
// SOURCE the barrier form is that of primal-dual interior-point methods: Wright, Primal-Dual
//        Interior-Point Methods (1997) ch. 1 [memory]; for tension-only members the potential is
//        convex: Kanno, Nonsmooth Mechanics and Convex Optimization (2011) [memory].
#ifndef BYS_ONESIDED_H
#define BYS_ONESIDED_H

#include <math.h>

/// Force F (N) of the law and dF/dP.
static inline double bys_onesided_force(double P, double b, double *slope)
{
    if (b <= 0.0) {
        *slope = P > 0.0 ? 1.0 : 0.0;
        return P > 0.0 ? P : 0.0;
    }
    const double root = sqrt(P * P + 4.0 * b * b);
    const double F = P > 0.0 ? 0.5 * (P + root) : 2.0 * b * b / (root - P);
    *slope = F / root;
    return F;
}

/// Linearised about a force F that does not yet fit the extension: returns the force that the law
/// gives to first order, and its stiffness (N/m). F > 0, b > 0.
static inline double bys_onesided_linear(double F, double k, double u, double b, double *stiffness)
{
    *stiffness = k / (1.0 + b * b / (F * F));
    return F + *stiffness * (u - (F - b * b / F) / k);
}

#endif
