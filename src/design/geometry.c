// SPDX-License-Identifier: GPL-3.0-or-later
// Plan geometry: inside a polygon, gap of polylines, outline from its support.
//
// GIVEN     polygons as corner lists, polylines as 3 numbers a point of which x and y count    m
// RETURNED  signed distance inside (m), least gap (m), outline corners (m), area (m2).
// NOTES     The outline is the polygon of BYS_SWEEP half planes x.n_k <= h_k: it holds the true
// convex
//           outline and exceeds it by at most 0.5 % of its size. [derived]
// SOURCE    plane geometry. [derived]
#include "design/judge.h"

#include <math.h>

static double clamp01(double t)
{
    return t < 0.0 ? 0.0 : t > 1.0 ? 1.0 : t;
}

static double point_segment(double px, double py, const double a[2], const double b[2])
{
    const double dx = b[0] - a[0], dy = b[1] - a[1];
    const double square = dx * dx + dy * dy;
    const double t = square > 0.0 ? clamp01(((px - a[0]) * dx + (py - a[1]) * dy) / square) : 0.0;
    return hypot(px - a[0] - t * dx, py - a[1] - t * dy);
}

double bys_plan_inside(const double *x, const double *y, int n, double px, double py)
{
    bool inside = false;
    double nearest = INFINITY;
    for (int i = 0, j = n - 1; i < n; j = i++) {
        const double a[2] = {x[j], y[j]}, b[2] = {x[i], y[i]};
        nearest = fmin(nearest, point_segment(px, py, a, b));
        if ((y[i] > py) != (y[j] > py) && px < x[i] + (x[j] - x[i]) * (py - y[i]) / (y[j] - y[i]))
            inside = !inside;
    }
    return inside ? nearest : -nearest;
}

static double cross2(const double o[2], const double a[2], const double b[2])
{
    return (a[0] - o[0]) * (b[1] - o[1]) - (a[1] - o[1]) * (b[0] - o[0]);
}

static bool segments_cross(const double a[2], const double b[2], const double c[2],
                           const double d[2])
{
    const double s = cross2(a, b, c), t = cross2(a, b, d);
    const double u = cross2(c, d, a), v = cross2(c, d, b);
    return ((s > 0.0) != (t > 0.0)) && ((u > 0.0) != (v > 0.0));
}

static double segment_gap(const double *a, const double *b, const double *c, const double *d)
{
    if (segments_cross(a, b, c, d))
        return 0.0;
    return fmin(fmin(point_segment(a[0], a[1], c, d), point_segment(b[0], b[1], c, d)),
                fmin(point_segment(c[0], c[1], a, b), point_segment(d[0], d[1], a, b)));
}

double bys_plan_gap(const double *a, int na, const double *b, int nb)
{
    double gap = INFINITY;
    for (int i = 0; i + 1 < na; i++)
        for (int k = 0; k + 1 < nb; k++)
            gap = fmin(gap, segment_gap(a + 3 * i, a + 3 * i + 3, b + 3 * k, b + 3 * k + 3));
    return gap;
}

void bys_sweep_add(double *support, double x, double y)
{
    for (int k = 0; k < BYS_SWEEP; k++) {
        const double angle = 2.0 * 3.14159265358979323846 * k / BYS_SWEEP;
        support[k] = fmax(support[k], x * sin(angle) + y * cos(angle));
    }
}

// Cuts a convex polygon by x.n <= h; returns the new number of corners.
static int cut(double *corners, int n, double nx, double ny, double h)
{
    double kept[4 * BYS_SWEEP];
    int m = 0;
    for (int i = 0; i < n; i++) {
        const double *p = corners + 2 * i, *q = corners + 2 * ((i + 1) % n);
        const double dp = p[0] * nx + p[1] * ny - h, dq = q[0] * nx + q[1] * ny - h;
        if (dp <= 0.0) {
            kept[2 * m] = p[0];
            kept[2 * m++ + 1] = p[1];
        }
        if ((dp < 0.0 && dq > 0.0) || (dp > 0.0 && dq < 0.0)) {
            const double t = dp / (dp - dq);
            kept[2 * m] = p[0] + t * (q[0] - p[0]);
            kept[2 * m++ + 1] = p[1] + t * (q[1] - p[1]);
        }
    }
    for (int i = 0; i < 2 * m; i++)
        corners[i] = kept[i];
    return m;
}

int bys_sweep_outline(double *corners, const double *support)
{
    const int quarter = BYS_SWEEP / 4;
    const double north = support[0], east = support[quarter], south = -support[2 * quarter],
                 west = -support[3 * quarter];
    const double box[8] = {west, south, east, south, east, north, west, north};
    if (!isfinite(north) || !isfinite(east) || !isfinite(south) || !isfinite(west))
        return 0;
    for (int i = 0; i < 8; i++)
        corners[i] = box[i];
    int n = 4;
    for (int k = 0; k < BYS_SWEEP && n > 0; k++) {
        const double angle = 2.0 * 3.14159265358979323846 * k / BYS_SWEEP;
        n = cut(corners, n, sin(angle), cos(angle), support[k] + 1e-9);
    }
    return n;
}

double bys_plan_area(const double *corners, int n)
{
    double twice = 0.0;
    for (int i = 0; i < n; i++) {
        const double *p = corners + 2 * i, *q = corners + 2 * ((i + 1) % n);
        twice += p[0] * q[1] - q[0] * p[1];
    }
    return 0.5 * fabs(twice);
}

static bool inside_convex(const double *corners, int n, const double *p)
{
    for (int i = 0; i < n; i++)
        if (cross2(corners + 2 * i, corners + 2 * ((i + 1) % n), p) < 0.0)
            return false;
    return n > 2;
}

bool bys_plan_crosses(const double *corners, int n, const double *line, int points)
{
    for (int i = 0; i < points; i++)
        if (inside_convex(corners, n, line + 3 * i))
            return true;
    for (int i = 0; i + 1 < points; i++)
        for (int k = 0; k < n; k++)
            if (segments_cross(line + 3 * i, line + 3 * i + 3, corners + 2 * k,
                               corners + 2 * ((k + 1) % n)))
                return true;
    return false;
}
