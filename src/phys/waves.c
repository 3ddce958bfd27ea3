// SPDX-License-Identifier: GPL-3.0-or-later
// Linear waves: wave number, JONSWAP spectrum, orbital velocity below it, breaking.
//
// GIVEN     omega, period     of a wave                                          rad/s, s
//           depth, d, h       of water; of water; height above the bed           m
//           hs, tp, gamma     significant height, peak period, peak enhancement  m, s, -
// RETURNED  wave number (1/m), spectral density (m2 s/rad), ratio Tz/Tp (-), standard deviation of
//           the horizontal orbital velocity (m/s), breaking height (m).
// NOTES     1. Linear theory, level bed, no current, long crests: all directions in one.
//           2. Above the mean level the value at the mean level holds; below the bed that at the
//              bed.
//           3. The integral over the spectrum runs over u = (wp/w)^2 from 0 to 5, that is from
//              0.447 wp without an upper limit; what lies below carries 3e-14 of the energy. The
//              tail to infinite frequency is in: a cut at 4 wp would take 3 to 4 % off the velocity
//              at the mean level. 16 panels of 16 Gauss-Legendre points: within 1e-9 of a rule with
//              40,000 points, for periods of 2 to 12 s in 3 to 30 m.
//           4. The normalising factor 1 - 0.287 ln gamma returns hs within 0.13 % (gamma 1 to 5).
//           5. Breaking: 0.142 L tanh(kd), L the linear length; 0.89 d in shallow water, above the
//              0.78 d of the solitary wave.
// SOURCE    dispersion: linear theory. [derived]
//           spectrum, gamma, Tz/Tp: DNV-RP-C205 3.5.5, seen in transcriptions, not in the original.
//           [memory]   breaking: Miche 1944, DNV-RP-C205. [memory]
#include "phys/phys.h"
#include "phys/wave_rule.h"

#include <math.h>

// Newton for x tanh x = y, x = kd, y = w^2 d/g; f rises and is convex for x > 0 up to its bend
// near 1.2, and the start is within 5 % of the root everywhere.
double bys_wave_number(double omega, double depth)
{
    if (!(omega > 0.0) || !(depth > 0.0))
        return 0.0;
    const double deep = omega * omega / BYS_G, y = deep * depth;
    if (y > 25.0) // 1 - tanh y < 4e-22
        return deep;
    double x = y / sqrt(tanh(y));
    for (int i = 0; i < 20; i++) {
        const double t = tanh(x);
        const double step = (x * t - y) / (t + x * (1.0 - t * t));
        x -= step;
        if (fabs(step) <= 1e-15 * x)
            break;
    }
    return x / depth;
}

static double peak_shape(double w, double gamma) // w = omega/omega_p
{
    const double width = w <= 1.0 ? 0.07 : 0.09, x = (w - 1.0) / width;
    return pow(gamma, exp(-0.5 * x * x));
}

static double normalising(double gamma)
{
    return 1.0 - 0.287 * log(gamma);
}

double bys_jonswap(double omega, double hs, double tp, double gamma)
{
    if (!(omega > 0.0) || !(tp > 0.0))
        return 0.0;
    const double wp = 2.0 * BYS_PI / tp, w = omega / wp, w4 = w * w * w * w;
    return normalising(gamma) * 0.3125 * hs * hs / (wp * w4 * w) * exp(-1.25 / w4) *
           peak_shape(w, gamma);
}

double bys_jonswap_gamma(double hs, double tp)
{
    const double x = tp / sqrt(hs);
    if (x <= 3.6)
        return 5.0;
    if (x >= 5.0)
        return 1.0;
    return exp(5.75 - 1.15 * x);
}

double bys_jonswap_tz_over_tp(double gamma)
{
    return 0.6673 + gamma * (0.05037 + gamma * (-0.00623 + gamma * 0.0003341));
}

// With u = (wp/w)^2: S dw = 5/32 A hs^2 u exp(-1.25 u^2) gamma^r du, bounded at u = 0, and so is
// w^2 S dw = wp^2/u S dw.
void bys_wave_rule(bys_wave_node *node, double hs, double tp, double gamma)
{
    static const double point[8][2] = {
        {0.095012509837637441, 0.1894506104550685},  {0.28160355077925892, 0.18260341504492358},
        {0.45801677765722737, 0.16915651939500254},  {0.61787624440264377, 0.14959598881657674},
        {0.755404408355003, 0.12462897125553388},    {0.86563120238783176, 0.095158511682492786},
        {0.9445750230732326, 0.062253523938647894},  {0.98940093499164994, 0.027152459411754096},
    };
    static const double edge[BYS_WAVE_PANELS + 1] = {0.0, 1e-3, 0.01, 0.03, 0.1,  0.25,
                                                     0.5, 0.7,  0.85, 1.0,  1.12, 1.25,
                                                     1.4, 1.6,  2.0,  3.0,  5.0};
    const double wp = 2.0 * BYS_PI / tp, scale = 0.15625 * normalising(gamma) * hs * hs;
    for (int i = 0; i < BYS_WAVE_NODES; i++) {
        const int panel = i / 16, j = i % 16;
        const double *p = point[j < 8 ? 7 - j : j - 8], side = j < 8 ? -1.0 : 1.0;
        const double half = 0.5 * (edge[panel + 1] - edge[panel]);
        const double u = edge[panel] + half * (1.0 + side * p[0]), w = 1.0 / sqrt(u);
        node[i].omega = wp * w;
        node[i].weight = scale * half * p[1] * u * exp(-1.25 * u * u) * peak_shape(w, gamma);
    }
}

double bys_wave_depth_factor(double k, double depth)
{
    const double x = 2.0 * k * depth;
    return x > 0.0 ? 1.0 + x / sinh(x) : 2.0;
}

// cosh(kh)/sinh(kd) = exp(k(h-d)) (1 + exp(-2kh))/(1 - exp(-2kd)), free of overflow.
static double sigma_at(const bys_wave_node *node, const double *k, double h, double d)
{
    const double height = fmin(fmax(h, 0.0), d);
    double variance = 0.0;
    for (int i = 0; i < BYS_WAVE_NODES; i++) {
        const double ratio = exp(k[i] * (height - d)) * (1.0 + exp(-2.0 * k[i] * height)) /
                             -expm1(-2.0 * k[i] * d);
        const double u = node[i].omega * ratio;
        variance += node[i].weight * u * u;
    }
    return sqrt(variance);
}

void bys_wave_sigma_table(double *sigma_u, int n, double d, double hs, double tp, double gamma)
{
    bys_wave_node node[BYS_WAVE_NODES];
    double k[BYS_WAVE_NODES];
    const bool calm = !(d > 0.0 && hs > 0.0 && tp > 0.0);
    if (!calm)
        bys_wave_rule(node, hs, tp, gamma);
    for (int i = 0; !calm && i < BYS_WAVE_NODES; i++)
        k[i] = bys_wave_number(node[i].omega, d);
    for (int i = 0; i < n; i++)
        sigma_u[i] = calm ? 0.0 : sigma_at(node, k, n > 1 ? d * i / (n - 1) : d, d);
}

double bys_wave_sigma_u(double h, double d, double hs, double tp, double gamma)
{
    bys_wave_node node[BYS_WAVE_NODES];
    double k[BYS_WAVE_NODES];
    if (!(d > 0.0 && hs > 0.0 && tp > 0.0))
        return 0.0;
    bys_wave_rule(node, hs, tp, gamma);
    for (int i = 0; i < BYS_WAVE_NODES; i++)
        k[i] = bys_wave_number(node[i].omega, d);
    return sigma_at(node, k, h, d);
}

double bys_wave_breaking_height(double period, double depth)
{
    const double k = bys_wave_number(2.0 * BYS_PI / period, depth);
    return k > 0.0 ? 0.142 * (2.0 * BYS_PI / k) * tanh(k * depth) : 0.0;
}
