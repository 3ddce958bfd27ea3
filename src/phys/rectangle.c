// SPDX-License-Identifier: GPL-3.0-or-later
// Reflection and transmission of waves by a long fixed rectangle at the surface.
//
// GIVEN     depth, draft, breadth   of the water, of the hull below water, across it     m
//           omega                   of a regular wave                                    rad/s
//           modes                   under the hull; 0: the usual number                  -
// RETURNED  amplitude ratios R and T (-).
// NOTES     1. Exact linear solution of a fixed body: at least 40 modes under the hull, more where
//              the draft is small against the depth (four in each draft, up to 96), and in
//              proportion outside. R within 1e-4 of 400 modes for a draft of 0.05 of the depth and
//              more, 2e-4 for 0.03, 6e-4 for 0.015; see the test of convergence.
//           2. R^2 + T^2 = 1 holds by construction, to rounding, whatever the number of modes: the
//              evidence is convergence, Ursell's barrier, the long-wave limit and the vectors of
//              another solver.
//           3. Fixed is the safe side: a hull that rides the waves reflects far less above its
//              heave period and about as much below it.
//           4. Left out: the ends of a short hull (two dimensions only), viscous loss, overtopping,
//              moonpools and gaps (the hull is solid from side to side), the interaction of several
//              hulls, waves at an angle.
// SOURCE    eigenfunction matching of a rectangle in finite depth (method: Mei and Black 1969)
//           [memory]; the algebra below [derived]. Values from another solver: loads note 6.3
//           [derived].
#include "phys/sea_loads.h"
#include "phys/phys.h"

#include <math.h>

enum { LEAST_MODES = 40, MODES = 96 };

typedef struct {
    int n;                         // modes under the hull
    double h, gap, half, k0;       // depth, under the hull, half breadth, wave number
    double lambda[MODES];          // m pi/gap
    double w0[MODES];              // <wave mode, gap mode m>
    double sum[MODES][MODES];      // sum over evanescent modes of W W^T / k
} matching;

// <cosh k(z+h), psi_m> over the gap, both of unit norm; all growth taken out as exp(-k draft).
static void project_wave(matching *q)
{
    const double kh = q->k0 * q->h, draft = q->h - q->gap;
    const double norm2 = 0.5 * q->h * (exp(-2.0 * kh) - expm1(-4.0 * kh) / (4.0 * kh));
    const double top = 0.5 * exp(-q->k0 * draft) * -expm1(-2.0 * q->k0 * q->gap);
    for (int m = 0; m < q->n; m++) {
        const double eps = sqrt((m ? 2.0 : 1.0) / q->gap), l = q->lambda[m];
        q->w0[m] = (m % 2 ? -eps : eps) * q->k0 * top / ((q->k0 * q->k0 + l * l) * sqrt(norm2));
    }
}

// Root of x tan x = -y in (n pi - pi/2, n pi): f = x - n pi + atan(y/x).
static double evanescent(int n, double y)
{
    double x = n * BYS_PI - atan(y / ((n - 0.25) * BYS_PI));
    for (int i = 0; i < 20; i++) {
        const double step = (x - n * BYS_PI + atan(y / x)) / (1.0 - y / (x * x + y * y));
        x -= step;
        if (fabs(step) < 1e-14 * x)
            break;
    }
    return x;
}

// Adds W_n W_n^T / k_n, W_nm = <cos k_n(z+h), psi_m> = eps k_n sin((k_n - l_m) gap)/(k_n^2 - l_m^2).
static void add_evanescent(matching *q, int n, double y)
{
    const double x = evanescent(n, y), k = x / q->h;
    const double norm2 = 0.5 * q->h * (1.0 + sin(2.0 * x) / (2.0 * x)), s = sin(k * q->gap);
    double w[MODES];
    for (int m = 0; m < q->n; m++) {
        const double l = q->lambda[m], d = k - l, eps = sqrt((m ? 2.0 : 1.0) / (q->gap * norm2));
        const double ratio = fabs(d) * q->gap < 1e-7 ? q->gap : (m % 2 ? -s : s) / d;
        w[m] = eps * k * ratio / (k + l);
    }
    for (int i = 0; i < q->n; i++)
        for (int j = 0; j <= i; j++)
            q->sum[i][j] += w[i] * w[j] / k;
}

// In four parts, so that the sums do not wait for one another.
static double product(const double *a, const double *b, int first, int last)
{
    double s0 = 0.0, s1 = 0.0, s2 = 0.0, s3 = 0.0;
    int p = first;
    for (; p + 3 < last; p += 4) {
        s0 += a[p] * b[p], s1 += a[p + 1] * b[p + 1];
        s2 += a[p + 2] * b[p + 2], s3 += a[p + 3] * b[p + 3];
    }
    for (; p < last; p++)
        s0 += a[p] * b[p];
    return (s0 + s1) + (s2 + s3);
}

// w0^T K^-1 w0 by Cholesky of K = sum + diag, rows and columns from `first` on.
static double quadratic(const matching *q, const double *diag, int first)
{
    double a[MODES][MODES], y[MODES], g = 0.0;
    for (int i = first; i < q->n; i++) {
        for (int j = first; j <= i; j++) {
            const double t =
                q->sum[i][j] + (i == j ? diag[i] : 0.0) - product(a[i], a[j], first, j);
            a[i][j] = i == j ? sqrt(t) : t / a[j][j];
        }
        y[i] = (q->w0[i] - product(a[i], y, first, i)) / a[i][i];
        g += y[i] * y[i];
    }
    return g;
}

// The flow splits into halves that are even and odd about the middle. With the velocity across the
// gap as sum u_m psi_m, the potential under the hull is u_m/q_m, outside sum over modes of W u/k,
// and the wave mode has 1 + r, ik(1 - r):
//   (diag(1/|q_m|) + sum W W^T/k) u = -w0 (1 + r),   ik(1 - r) = w0.u = -(1 + r) G,
//   |q_m| = l tanh(l b) even (q_0 = 0: no net flow), l coth(l b) odd (q_0 = 1/b).
// G = w0^T K^-1 w0 is real: r = (i + g)/(i - g), g = G/k, |r| = 1. R and T are half the sum and half
// the difference of the two r: R = (1 + ge go)/Q, T = |ge - go|/Q, Q^2 = (1 + ge^2)(1 + go^2).
double bys_rectangle_solve(double *T, double omega, double depth, double draft, double breadth,
                           int modes)
{
    if (T)
        *T = NAN;
    if (!(omega > 0.0 && draft > 0.0 && draft < depth && breadth > 0.0))
        return NAN;
    if (modes <= 0)
        modes = (int)fmin(fmax(4.0 * (depth - draft) / draft, LEAST_MODES), MODES);
    modes = modes > MODES ? MODES : modes;
    matching q = {.n = modes, .h = depth, .gap = depth - draft, .half = 0.5 * breadth};
    double even[MODES], odd[MODES];
    q.k0 = bys_wave_number(omega, depth);
    for (int m = 0; m < modes; m++) {
        const double l = q.lambda[m] = m * BYS_PI / q.gap, t = tanh(l * q.half);
        even[m] = m ? 1.0 / (l * t) : 0.0;
        odd[m] = m ? t / l : q.half;
    }
    project_wave(&q);
    const double y = omega * omega * depth / BYS_G;
    const int outside = (int)ceil(modes * depth / q.gap);
    for (int n = 1; n <= outside; n++)
        add_evanescent(&q, n, y);
    const double ge = quadratic(&q, even, 1) / q.k0, go = quadratic(&q, odd, 0) / q.k0;
    const double norm = sqrt((1.0 + ge * ge) * (1.0 + go * go));
    if (T)
        *T = fabs(ge - go) / norm;
    return (1.0 + ge * go) / norm;
}
