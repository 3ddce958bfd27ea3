// SPDX-License-Identifier: GPL-3.0-or-later
// Length of open water to windward, from the shore as closed rings.
//
// GIVEN     shore, ring_end, rings   corners of the rings, east and north        m
//           x, y                     the place                                   m
//           dx, dy                   direction where the wind comes FROM, any length but 0
//           limit                    the fetch taken where no shore lies nearer  m
//           radial, n, step          lengths (m) of radials a step (rad) apart
// RETURNED  fetch                                                                m
// NOTES     1. A ring may be the rim of the water or an island: the first crossing counts, whichever
//              side the place lies on. A place on land gets the distance to the shore all the same.
//           2. Straight: one ray, as CEM II-2 asks (no correction for width). It finds the longest
//              gap between islands; a turn of a few degrees can change it much.
//           3. Saville: 15 radials 6 deg apart, +-42 deg, sum(x cos^2 a)/sum(cos a).
//           4. SPM radials: plain mean of 9, 3 deg apart, +-12 deg.
//           5. Depth along the way, refraction and diffraction are left out.
// SOURCE    CEM II-2, straight line [read]; Saville 1954, SPM 1984 for the radials [memory];
//           crossing of a ray and an edge [derived].
#include "phys/sea_loads.h"
#include "phys/phys.h"

#include <math.h>

// a + t e is met at distance r: cross products of the ray (unit), the edge and the way to it.
static double crossing(const double a[2], const double b[2], double x, double y, double ux,
                       double uy)
{
    const double ex = b[0] - a[0], ey = b[1] - a[1], wx = a[0] - x, wy = a[1] - y;
    const double det = ux * ey - uy * ex;
    if (det == 0.0)
        return INFINITY;
    const double along = (wx * ey - wy * ex) / det, t = (wx * uy - wy * ux) / det;
    return along > 0.0 && t >= 0.0 && t <= 1.0 ? along : INFINITY;
}

double bys_fetch_ray(const double (*shore)[2], const size_t *ring_end, size_t rings, double x,
                     double y, double dx, double dy, double limit)
{
    const double size = hypot(dx, dy);
    double best = limit;
    size_t start = 0;
    for (size_t r = 0; r < rings && size > 0.0; r++) {
        for (size_t i = start, last = ring_end[r]; i < last; i++) {
            const size_t next = i + 1 < last ? i + 1 : start;
            best = fmin(best, crossing(shore[i], shore[next], x, y, dx / size, dy / size));
        }
        start = ring_end[r];
    }
    return best;
}

double bys_fetch_saville(const double *radial, size_t n, double step)
{
    double top = 0.0, bottom = 0.0;
    for (size_t i = 0; i < n; i++) {
        const double c = cos(step * ((double)i - 0.5 * (double)(n - 1)));
        top += radial[i] * c * c;
        bottom += c;
    }
    return n ? top / bottom : 0.0;
}

double bys_fetch_mean(const double *radial, size_t n)
{
    double sum = 0.0;
    for (size_t i = 0; i < n; i++)
        sum += radial[i];
    return n ? sum / (double)n : 0.0;
}

double bys_fetch_effective(bys_fetch_rule rule, const double (*shore)[2], const size_t *ring_end,
                           size_t rings, double x, double y, double dx, double dy, double limit)
{
    double radial[15];
    const size_t n = rule == BYS_FETCH_STRAIGHT ? 1 : rule == BYS_FETCH_SAVILLE ? 15 : 9;
    const double step = (rule == BYS_FETCH_SAVILLE ? 6.0 : 3.0) * BYS_PI / 180.0;
    for (size_t i = 0; i < n; i++) {
        const double a = step * ((double)i - 0.5 * (double)(n - 1)), c = cos(a), s = sin(a);
        radial[i] = bys_fetch_ray(shore, ring_end, rings, x, y, c * dx - s * dy, s * dx + c * dy,
                                  limit);
    }
    return rule == BYS_FETCH_SAVILLE ? bys_fetch_saville(radial, n, step)
                                     : bys_fetch_mean(radial, n);
}
