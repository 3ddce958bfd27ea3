// SPDX-License-Identifier: GPL-3.0-or-later
// Tension of a rope from its strain: a straight line, or a smooth curve through tabulated points.
//
// GIVEN     n        number of points, the first being (0, 0)
//           strain   at the points, rising                                            1
//           tension  at the points, rising                                            N
//           x        strain asked for                                                 1
// RETURNED  slopes at the points, tension (N) and its derivative over the strain (N); the strain at
//           a tension.
// NOTES     1. Between two points a cubic with the points' tensions and slopes. The slope at an
//              inner point is the harmonic mean of the slopes D of the chords beside it:
//              1/m = (1/D1 + 1/D2)/2, so that m < 2 min(D1, D2); at the ends the slope of the
//              parabola through three points, held between a quarter and twice the chord's.
//              With slopes of at most twice the chord's the cubic rises everywhere, and its
//              derivative is above zero: the law is monotone, continuous with its derivative, and the
//              derivative is exact.
//           2. Below zero strain the slope at zero goes on (the solver lets nothing push); beyond the
//              last point the slope there goes on: an extrapolation, which results must tell.
//           3. Left out: hysteresis, time under load, temperature. Two laws, for steady loads and for
//              storms, bound what a fibre rope does: see man/byssus-theory.7.
// SOURCE    region of slopes that keep a cubic monotone: Fritsch & Carlson, SIAM J. Numer. Anal. 17
//           (1980) 238 [memory]; harmonic mean: Fritsch & Butland, SIAM J. Sci. Stat. Comput. 5
//           (1984) 300 [memory]; that twice the chord keeps the derivative above zero: h'(t)/D =
//           a(1-4t+3t^2) + b(3t^2-2t) + 6t(1-t) with a, b <= 2 [derived].
#include "phys/phys.h"

#include <math.h>

static double chord(const double *x, const double *y, int i)
{
    return (y[i + 1] - y[i]) / (x[i + 1] - x[i]);
}

static double within(double value, double least, double most)
{
    return fmin(most, fmax(least, value));
}

/// Slope at the end of the parabola through three points: h the near interval, D its chord.
static double end_slope(double h, double far_h, double D, double far_D)
{
    const double parabola = D + h * (D - far_D) / (h + far_h);
    return within(parabola, 0.25 * D, 2.0 * D);
}

void bys_stretch_slopes(double *slope, const double *strain, const double *tension, int n)
{
    for (int i = 1; i + 1 < n; i++) {
        const double a = chord(strain, tension, i - 1), b = chord(strain, tension, i);
        slope[i] = 2.0 * a * b / (a + b);
    }
    const double first = chord(strain, tension, 0), last = chord(strain, tension, n - 2);
    slope[0] = first;
    slope[n - 1] = last;
    if (n < 3)
        return;
    slope[0] = end_slope(strain[1], strain[2] - strain[1], first, chord(strain, tension, 1));
    slope[n - 1] = end_slope(strain[n - 1] - strain[n - 2], strain[n - 2] - strain[n - 3], last,
                             chord(strain, tension, n - 3));
}

double bys_stretch_tension(const bys_stretch *law, double x, double *slope)
{
    const int n = law->count;
    if (n == 0) {
        *slope = law->ea;
        return law->ea * x;
    }
    if (x <= 0.0 || x >= law->strain[n - 1]) {
        const int i = x <= 0.0 ? 0 : n - 1;
        *slope = law->slope[i];
        return law->tension[i] + law->slope[i] * (x - law->strain[i]);
    }
    int i = 0;
    while (x > law->strain[i + 1])
        i++;
    const double h = law->strain[i + 1] - law->strain[i], t = (x - law->strain[i]) / h;
    const double D = law->tension[i + 1] - law->tension[i];
    const double a = h * law->slope[i], b = h * law->slope[i + 1];
    *slope = (a * (1.0 - t) * (1.0 - 3.0 * t) + b * t * (3.0 * t - 2.0) + 6.0 * D * t * (1.0 - t)) /
             h;
    return law->tension[i] + t * ((1.0 - t) * ((1.0 - t) * a - t * b) + t * (3.0 - 2.0 * t) * D);
}

double bys_stretch_strain(const bys_stretch *law, double tension)
{
    const int n = law->count;
    if (n == 0)
        return tension / law->ea;
    const double last = law->tension[n - 1];
    if (tension >= last)
        return law->strain[n - 1] + (tension - last) / law->slope[n - 1];
    double low = 0.0, high = law->strain[n - 1], slope;
    for (int i = 0; i < 60 && tension > 0.0; i++) {
        const double x = 0.5 * (low + high);
        if (bys_stretch_tension(law, x, &slope) < tension)
            low = x;
        else
            high = x;
    }
    return tension > 0.0 ? 0.5 * (low + high) : tension / law->slope[0];
}

double bys_stretch_end(const bys_stretch *law)
{
    return law->count > 0 ? law->tension[law->count - 1] : INFINITY;
}
