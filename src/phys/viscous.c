// SPDX-License-Identifier: GPL-3.0-or-later
// Mean of the square law of drag for a current at an angle to Gaussian waves.
//
// GIVEN     along, across   current along the waves and across them, both normal to the member  m/s
//           s               standard deviation of the orbital velocity                        m/s
// RETURNED  mean of |w| w, w = (along + u, across), m2/s2, with its derivatives over along,
//           across and s. The mean force per metre is 0.5 rho cd D times it.
// NOTES     1. Exact where the current lies along the waves (closed form) or s = 0; quadrature to
//              1e-8 of along^2 + across^2 + s^2 otherwise. Below across = 1e-5 s the closed form
//              serves along the waves.
//           2. The wave speed has one direction: the vertical orbital speed on a level member and the
//              spread of directions are left out. Adding an across part of the waves lowers the mean
//              along them by a few per cent at most.
//           3. The member stands still; steep-wave skewness is left out (drag.c notes 2 and 3).
//           4. Taking the closed form along the waves and U|U| across them apart from each other is
//              low by up to all of the across force where the current lies across.
// SOURCE    definition of the mean; the change of variable below. [derived]
#include "phys/sea_loads.h"
#include "phys/phys.h"

#include <math.h>

typedef struct { double w, v, b, p, along, s; } sample; // |w|, along + u, across, weight

static void add_sample(bys_viscous *m, const sample *q)
{
    const double vv = q->w + q->v * q->v / q->w, vb = q->v * q->b / q->w;
    const double bb = q->w + q->b * q->b / q->w, u = (q->v - q->along) / q->s;
    m->f[0] += q->p * q->w * q->v;
    m->f[1] += q->p * q->w * q->b;
    m->slope[0][0] += q->p * vv;
    m->slope[0][1] += q->p * vb;
    m->slope[0][2] += q->p * vv * u;
    m->slope[1][1] += q->p * bb;
    m->slope[1][2] += q->p * vb * u;
}

// v = along + u = b sinh t makes |w| = b cosh t smooth; the integrand falls to 3e-18 at nine s, so
// equal steps converge faster than any power. The step follows the narrower of the strip where the
// Gaussian stays bounded (pi/4) and its own width s/|w| in t.
static bys_viscous quadrature(double along, double b, double s)
{
    bys_viscous m = {0};
    const double first = asinh((along - 9.0 * s) / b), last = asinh((along + 9.0 * s) / b);
    const double width = fmin(0.15, 0.4 * s / hypot(along, b));
    const int n = (int)ceil((last - first) / width);
    const double step = (last - first) / n;
    double sum = 0.0;
    for (int i = 0; i <= n; i++) {
        const double t = first + step * i, c = cosh(t), v = b * sinh(t), x = (v - along) / s;
        const sample q = {b * c, v, b, exp(-0.5 * x * x) * c, along, s};
        add_sample(&m, &q);
        sum += q.p;
    }
    m.slope[1][0] = m.slope[0][1];
    for (int i = 0; i < 2; i++) {
        m.f[i] /= sum;
        for (int j = 0; j < 3; j++)
            m.slope[i][j] /= sum;
    }
    return m;
}

// |w| w with s = 0; slope |w| I + w w^T/|w|, none over s (even in s).
static bys_viscous still(double along, double across)
{
    const double w = hypot(along, across), c = w > 0.0 ? along / w : 1.0;
    const double n = w > 0.0 ? across / w : 0.0;
    const double both = w * c * n;
    return (bys_viscous){{w * along, w * across},
                         {{w * (1.0 + c * c), both, 0.0}, {both, w * (1.0 + n * n), 0.0}}};
}

// across -> 0: across times the mean of |along + u| is half of dF/d along of the closed form.
static bys_viscous in_line(double along, double across, double s)
{
    bys_viscous m = {0};
    m.f[0] = bys_morison_mean(along, s, &m.slope[0][0], &m.slope[0][2]);
    const double mean = 0.5 * m.slope[0][0];
    m.f[1] = across * mean;
    m.slope[1][1] = mean;
    return m;
}

bys_viscous bys_viscous_mean(double along, double across, double s)
{
    const double sigma = fabs(s), b = fabs(across), size = hypot(along, across);
    if (sigma <= 1e-7 * size)
        return still(along, across);
    if (b <= 1e-5 * sigma)
        return in_line(along, across, sigma);
    bys_viscous m = quadrature(along, b, sigma);
    if (across < 0.0) {
        m.f[1] = -m.f[1];
        m.slope[0][1] = m.slope[1][0] = -m.slope[0][1];
        m.slope[1][2] = -m.slope[1][2];
    }
    return m;
}
