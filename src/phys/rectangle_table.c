// SPDX-License-Identifier: GPL-3.0-or-later
// Drift force of waves on the long side of a fixed rectangle, by a table of its reflection; simple
// transmission formulas to set beside it.
//
// GIVEN     depth, draft, breadth   of the water, of the hull below water, across it   m
//           rho                     of the water                                       kg/m3
//           hs, tp, gamma           of a JONSWAP sea                                   m, s, -
//           a, omega, k             of a regular wave                                  m, rad/s, 1/m
//           angle                   between the travel of the waves and the normal     rad
// RETURNED  R^2 (-); mean force per metre of side (N/m) along the normal, away from the waves;
//           amplitude ratio T (-).
// NOTES     1. The table holds R^2 of rectangle.c at 97 frequencies, close together near zero, up to
//              k draft = 4 where T^2 of a thin wall is below 1e-6; beyond that R^2 = 1. A hull too
//              thin (or as deep as the water) to be solved gets R^2 = 1 throughout.
//           2. Waves at an angle: R of square incidence, force times cos^2 of the angle (a wave that
//              comes from behind, |angle| > 90 deg, pushes the other way). For short-crested seas
//              multiply by the mean of cos^2 instead. Exact only for total reflection.
//           3. No loss: a wave that breaks on the side carries half to all of this.
//           4. Macagno lets too much through everywhere tested and its R^2 is 2 to 3 times too low
//              for k breadth < 1; Wiegel passes too little of long waves and too much of short ones.
// SOURCE    F = rho g/2 a^2 R^2 (1 + 2kh/sinh 2kh): Longuet-Higgins 1977, Maruo 1960 [memory];
//           over a spectrum [derived]. Macagno 1954, Wiegel 1960, Ursell 1947 [memory]; long waves
//           past a box: continuity and inertia under it [derived].
#include "phys/sea_loads.h"
#include "phys/phys.h"
#include "phys/wave_rule.h"

#include <math.h>

// Spline with zero slope at both ends: R^2 goes as t^4 at 0 and flattens to 1.
static void clamp_spline(double *bend, const double *y, int n, double h)
{
    double lower[BYS_RECTANGLE_NODES];
    double right = 6.0 * (y[1] - y[0]) / (h * h);
    lower[0] = 0.5;
    bend[0] = 0.5 * right;
    for (int i = 1; i < n; i++) {
        const bool end = i == n - 1;
        const double diag = end ? 2.0 : 4.0;
        right = end ? 6.0 * (y[i - 1] - y[i]) / (h * h)
                    : 6.0 * (y[i + 1] - 2.0 * y[i] + y[i - 1]) / (h * h);
        const double pivot = diag - lower[i - 1];
        lower[i] = 1.0 / pivot;
        bend[i] = (right - bend[i - 1]) / pivot;
    }
    for (int i = n - 2; i >= 0; i--)
        bend[i] -= lower[i] * bend[i + 1];
}

bool bys_rectangle_set(bys_rectangle *out, double depth, double draft, double breadth)
{
    const int last = BYS_RECTANGLE_NODES - 1;
    *out = (bys_rectangle){.depth = depth, .draft = draft, .breadth = breadth};
    if (!(draft > 1e-3 * depth && draft < depth && breadth > 0.0))
        return false;
    out->omega_max = sqrt(4.0 * BYS_G / draft);
    for (int i = 1; i <= last; i++) {
        const double t = (double)i / last, omega = t * t * out->omega_max;
        const double R = bys_rectangle_solve(NULL, omega, depth, draft, breadth, 0);
        out->r2[i] = R * R;
    }
    clamp_spline(out->bend, out->r2, BYS_RECTANGLE_NODES, 1.0 / last);
    return true;
}

double bys_rectangle_r2(const bys_rectangle *hull, double omega)
{
    const int last = BYS_RECTANGLE_NODES - 1;
    if (!(omega < hull->omega_max))
        return 1.0;
    if (!(omega > 0.0))
        return 0.0;
    const double x = last * sqrt(omega / hull->omega_max);
    const int i = x < last ? (int)x : last - 1;
    const double b = x - i, a = 1.0 - b, h = 1.0 / last;
    const double curve = (a * a * a - a) * hull->bend[i] + (b * b * b - b) * hull->bend[i + 1];
    return fmin(fmax(a * hull->r2[i] + b * hull->r2[i + 1] + curve * h * h / 6.0, 0.0), 1.0);
}

static double facing(double angle)
{
    const double c = cos(angle);
    return c * fabs(c);
}

double bys_rectangle_drift(const bys_rectangle *hull, double rho, double hs, double tp,
                           double gamma, double angle)
{
    bys_wave_node node[BYS_WAVE_NODES];
    if (!(hull->depth > 0.0 && hs > 0.0 && tp > 0.0))
        return 0.0;
    bys_wave_rule(node, hs, tp, gamma);
    double sum = 0.0;
    for (int i = 0; i < BYS_WAVE_NODES; i++) {
        const double k = bys_wave_number(node[i].omega, hull->depth);
        sum += node[i].weight * bys_rectangle_r2(hull, node[i].omega) *
               bys_wave_depth_factor(k, hull->depth);
    }
    return rho * BYS_G * sum * facing(angle);
}

double bys_rectangle_drift_regular(const bys_rectangle *hull, double rho, double a, double omega,
                                   double angle)
{
    const double k = bys_wave_number(omega, hull->depth);
    return bys_drift_reflection_regular(rho, a, k, hull->depth) * bys_rectangle_r2(hull, omega) *
           facing(angle);
}

// T^2 = 1/(1 + x^2), x = kB sinh(kh)/(2 cosh(kh - kd)).
double bys_transmission_macagno(double k, double depth, double draft, double breadth)
{
    const double kh = k * depth, gap = k * (depth - draft);
    const double ratio = exp(kh - gap) * -expm1(-2.0 * kh) / (1.0 + exp(-2.0 * gap));
    return 1.0 / hypot(1.0, 0.5 * k * breadth * ratio);
}

// Share of the power that travels below the wall.
double bys_transmission_wiegel(double k, double depth, double draft)
{
    const double x = 2.0 * k * depth, y = 2.0 * k * (depth - draft);
    const double below = 2.0 * y * exp(-x) + exp(y - x) - exp(-y - x);
    return sqrt(below / (2.0 * x * exp(-x) - expm1(-2.0 * x)));
}

// I1 = mean of exp(x cos t) cos t over a turn, K1 = integral of exp(-x cosh t) cosh t: the
// rectangle rule converges faster than any power for both. Each carries exp(-x) or exp(x) away.
static double bessel_i1_scaled(double x)
{
    enum { N = 128 };
    double sum = 0.0;
    for (int i = 0; i < N; i++) {
        const double c = cos(2.0 * BYS_PI * i / N);
        sum += exp(x * (c - 1.0)) * c;
    }
    return sum / N;
}

static double bessel_k1_scaled(double x)
{
    const double step = 0.05;
    double sum = 0.5;
    for (int i = 1; i < 1000; i++) {
        const double c = cosh(step * i), term = exp(-x * (c - 1.0)) * c;
        sum += term;
        if (x * (c - 1.0) > 45.0)
            break;
    }
    return sum * step;
}

// T = K1/sqrt(pi^2 I1^2 + K1^2) of k draft, deep water, no thickness.
double bys_transmission_ursell(double k, double draft)
{
    const double x = k * draft, i = BYS_PI * bessel_i1_scaled(x);
    const double j = bessel_k1_scaled(x) * exp(-2.0 * x);
    return j / hypot(i, j);
}

// Flow q under the box: q equal on both sides, head across = (B/(g gap)) dq/dt; with shallow-water
// waves outside, T = 1/(1 - i k B h/(2 gap)).
double bys_transmission_long_wave(double k, double depth, double draft, double breadth)
{
    return 1.0 / hypot(1.0, 0.5 * k * breadth * depth / (depth - draft));
}
