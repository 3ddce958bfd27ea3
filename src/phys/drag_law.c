// SPDX-License-Identifier: GPL-3.0-or-later
// The drag of hanging gear by any law, written as a square law with a coefficient of its own.
//
// GIVEN     law       kind of law with its numbers                                 see drag_law.h
//           cosine, sine   of the angle between the flow and the face's normal     -
//           U, s      current, standard deviation of the orbital velocity          m/s
//           p         power of the speed                                           -
// RETURNED  coefficients along the flow and across it on the gross face (-), with derivatives over
//           U and s (s/m); mean of the p-th power with its sign ((m/s)^p).
// NOTES     1. The force is 0.5 rho A c times the mean of (U+u)|U+u|: for a plain square law c is the
//              coefficient itself. For weed c = cd (speed0)^(2-p) M_p/M_2, so that the product is the
//              exact mean of the p-th power over Gaussian waves along the current. With a current
//              across the waves the ratio is taken as if they ran along it.
//           2. Panel: face |cos| and edge |sin|, neither part reduced further (own bound).
//           3. Net: at the speed sqrt(U^2 + s^2). Kristiansen's law is left out above a solidity of
//              0.6, where it diverges; its twine coefficient is held outside Re 32 to 1e4.
//           4. Below 1 cm/s weed keeps its coefficient at 1 cm/s.
//           5. The relief of a file of droppers is that of bys_dropper_row for flow along it; how it fades
//              with the angle is our choice: wakes of droppers half a metre apart are about as wide as
//              the droppers and pass the next one from some 20 deg on.
//           6. The mean of the p-th power: Kummer series of positive terms up to U = 7.7 s, the
//              expansion in s/U beyond; both to about 1e-12.
// SOURCE    moments of a Gaussian by Kummer's function: Winkelbauer 2012, arXiv:1209.4340 [memory],
//           and derived again from their recurrence [derived]; nets, weed: see nets.c, kelp.c.
#include "phys/drag_law.h"
#include "phys/phys.h"
#include "phys/sea_loads.h"

#include <math.h>
#include <stddef.h>

// exp(-x) 1F1(a; b; x) with a, b > 0: all terms are positive.
static double kummer(double a, double b, double x)
{
    double term = 1.0, sum = 1.0;
    for (int n = 0; n < 400 && term > 1e-17 * sum; n++) {
        term *= (a + n) / (b + n) * x / (n + 1.0);
        sum += term;
    }
    return exp(-x) * sum;
}

// U^p sum over k of p(p-1)...(p-2k+1)/k! (s^2/(2 U^2))^k for U > 0: odd and even moments alike.
static double far_moment(double p, double U, double s)
{
    const double q = 0.5 * s * s / (U * U);
    double term = 1.0, sum = 1.0;
    for (int k = 1; k <= 9; k++) {
        term *= (p - 2 * k + 2) * (p - 2 * k + 1) / k * q;
        sum += term;
    }
    return pow(U, p) * sum;
}

// <|X|^p sgn X> and <|X|^q> of a Gaussian X of mean U >= 0.
static double odd_moment(double p, double U, double s)
{
    const double x = 0.5 * U * U / (s * s);
    if (x > 30.0)
        return far_moment(p, U, s);
    return pow(s, p - 1.0) * U * pow(2.0, 0.5 * (p + 1.0)) / sqrt(BYS_PI) * tgamma(1.0 + 0.5 * p) *
           kummer(1.0 + 0.5 * p, 1.5, x);
}

static double even_moment(double q, double U, double s)
{
    const double x = 0.5 * U * U / (s * s);
    if (x > 30.0)
        return far_moment(q, U, s);
    return pow(s, q) * pow(2.0, 0.5 * q) / sqrt(BYS_PI) * tgamma(0.5 * (q + 1.0)) *
           kummer(0.5 * (q + 1.0), 0.5, x);
}

// d/dU <|X|^p sgn X> = p <|X|^(p-1)>; by the heat equation d/ds = s p (p-1) <|X|^(p-2) sgn X>.
double bys_power_mean(double p, double U, double s, double *d_dU, double *d_ds)
{
    const double u = fabs(U), sigma = fabs(s), sign = U < 0.0 ? -1.0 : 1.0;
    if (sigma <= 1e-9 * u || sigma == 0.0) {
        if (d_dU)
            *d_dU = p * pow(u, p - 1.0);
        if (d_ds)
            *d_ds = 0.0;
        return sign * pow(u, p);
    }
    if (d_dU)
        *d_dU = p * even_moment(p - 1.0, u, sigma);
    if (d_ds)
        *d_ds = sign * s * p * (p - 1.0) * (u > 0.0 ? odd_moment(p - 2.0, u, sigma) : 0.0);
    return u > 0.0 ? sign * odd_moment(p, u, sigma) : 0.0;
}

// ---- the laws --------------------------------------------------------------------------------

static bys_drag_now weed(const bys_drag_law *law, double U, double s)
{
    const double least = 0.01, p = law->power;
    const double u = fmax(fabs(U), 1e-5), floor = hypot(u, s) < least ? least : 0.0;
    bys_drag_now now = {0};
    if (floor > 0.0) {
        now.cd = law->cd * pow(law->speed0 / floor, 2.0 - p);
        return now;
    }
    double Mu, Ms, Gu, Gs;
    const double M = bys_power_mean(p, u, s, &Mu, &Ms), G = bys_morison_mean(u, s, &Gu, &Gs);
    const double k = law->cd * pow(law->speed0, 2.0 - p), c = M / G;
    now.cd = k * c;
    now.cd_dU = fabs(U) > 1e-5 ? (U < 0.0 ? -k : k) * (Mu - c * Gu) / G : 0.0;
    now.cd_ds = k * (Ms - c * Gs) / G;
    return now;
}

static bys_net_coeff net_at(const bys_drag_law *law, double theta, double speed)
{
    const bys_net_coeff a = bys_net_loland(law->solidity, theta);
    if (law->kind == BYS_DRAG_NET_LOLAND || !(law->twine > 0.0))
        return a;
    const bys_net_coeff b =
        bys_net_kristiansen(law->solidity, speed, law->twine, BYS_NU, theta);
    if (law->kind == BYS_DRAG_NET_KRISTIANSEN)
        return b;
    return law->solidity > 0.6 || a.cd >= b.cd ? a : b;
}

static bys_drag_now net(const bys_drag_law *law, double theta, double U, double s)
{
    const double V = hypot(U, s), h = 1e-5 * V;
    const bys_net_coeff c = net_at(law, theta, V);
    bys_drag_now now = {.cd = c.cd, .cl = c.cl};
    if (law->kind == BYS_DRAG_NET_LOLAND || !(V > 1e-6))
        return now;
    // the twine's polynomial is smooth in log V: central differences are good to 1e-9
    const bys_net_coeff up = net_at(law, theta, V + h), down = net_at(law, theta, V - h);
    const double dcd = 0.5 * (up.cd - down.cd) / h, dcl = 0.5 * (up.cl - down.cl) / h;
    now.cd_dU = dcd * U / V, now.cd_ds = dcd * s / V;
    now.cl_dU = dcl * U / V, now.cl_ds = dcl * s / V;
    return now;
}

bys_drag_now bys_drag_at(const bys_drag_law *law, double cosine, double sine, double U, double s)
{
    switch (law->kind) {
    case BYS_DRAG_PANEL:
        return (bys_drag_now){.cd = law->cd * cosine + law->edge * sine};
    case BYS_DRAG_NET:
    case BYS_DRAG_NET_LOLAND:
    case BYS_DRAG_NET_KRISTIANSEN: return net(law, atan2(sine, cosine), U, s);
    case BYS_DRAG_WEED: return weed(law, U, s);
    case BYS_DRAG_OUTLINE: break;
    }
    return (bys_drag_now){.cd = law->cd};
}

static double ramp(double t, double *d)
{
    const double u = fmin(fmax(t, 0.0), 1.0);
    if (d)
        *d = 6.0 * u * (1.0 - u);
    return u * u * (3.0 - 2.0 * u);
}

double bys_file_share(double relief, double cosine)
{
    const double wide = cos(BYS_PI / 6.0), narrow = cos(BYS_PI / 18.0);
    return 1.0 - relief * ramp((cosine - wide) / (narrow - wide), NULL);
}

double bys_wave_fade(double submerged, double *d)
{
    double slope;
    const double fade = ramp(10.0 * (1.0 - submerged), &slope);
    if (d)
        *d = -10.0 * slope;
    return fade;
}
