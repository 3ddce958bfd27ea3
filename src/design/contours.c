// SPDX-License-Identifier: GPL-3.0-or-later
// Lines of equal depth of the seabed, for the plan drawing.
//
// GIVEN     the bed of the site; lease, anchors and lines, which say how far to draw
// RETURNED  for each depth short straight pieces, m in the site's plane
// NOTES     Heights are read off on a lattice of 72 by 72 cells, each cut into two triangles, so that
//           no cell is ambiguous. Nothing is drawn beyond the depths of the bed.
//           Each line is drawn a hundredth of the step above its depth: a level part of the bed whose
//           depth is a round number would else give the rounding of its file in place of a line.
// SOURCE    [derived].
#include "design/judge.h"

#include <math.h>
#include <stdlib.h>

enum { CELLS = 72, MOST_LINES = 9 };
static const double aside = 0.01; // of a step

typedef struct {
    const bys_seabed *bed;
    double low[2], high[2];
    double z[CELLS + 1][CELLS + 1]; // NAN beyond the data
} lattice;

static void reach(lattice *l, double x, double y)
{
    l->low[0] = fmin(l->low[0], x);
    l->low[1] = fmin(l->low[1], y);
    l->high[0] = fmax(l->high[0], x);
    l->high[1] = fmax(l->high[1], y);
}

static double place(const lattice *l, int axis, int i)
{
    return l->low[axis] + (l->high[axis] - l->low[axis]) * i / CELLS;
}

/// Extent and heights; false if there is nothing to draw around.
static bool fill(lattice *l, const bys_judge *judge, double *least, double *most)
{
    const bys_design *out = judge->out;
    l->bed = &judge->site->bed;
    l->low[0] = l->low[1] = INFINITY;
    l->high[0] = l->high[1] = -INFINITY;
    for (int i = 0; i < out->lease_count; i++)
        reach(l, out->lease_x[i], out->lease_y[i]);
    for (int i = 0; i < out->anchor_count; i++)
        reach(l, out->anchors[i].x_m, out->anchors[i].y_m);
    *least = INFINITY;
    *most = -INFINITY;
    if (!(l->high[0] > l->low[0]) || !(l->high[1] > l->low[1]))
        return false;
    for (int j = 0; j <= CELLS; j++)
        for (int i = 0; i <= CELLS; i++) {
            const double x = place(l, 0, i), y = place(l, 1, j);
            const bool known = !l->bed->map || bys_bed_map_inside(l->bed->map, x, y);
            l->z[j][i] = known ? bys_bed_z(l->bed, x, y) : NAN;
            *least = fmin(*least, l->z[j][i]);
            *most = fmax(*most, l->z[j][i]);
        }
    return *most > *least;
}

/// Step between lines: 0.5, 1, 2, 5, 10 ... m, so that there are not too many.
static double step_of(double range)
{
    static const double steps[] = {0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0};
    const int all = sizeof steps / sizeof steps[0];
    int i = 0;
    while (i + 1 < all && range / steps[i] > MOST_LINES - 1)
        i++;
    return steps[i];
}

/// Where the side from a to b has the height: true, and the point.
static bool crosses(double out[2], const double a[3], const double b[3], double z)
{
    if ((a[2] >= z) == (b[2] >= z))
        return false;
    const double t = (z - a[2]) / (b[2] - a[2]);
    out[0] = a[0] + t * (b[0] - a[0]);
    out[1] = a[1] + t * (b[1] - a[1]);
    return true;
}

/// The piece of a triangle at that height; 0 or 1 pieces.
static int cut(double *out, const double *a, const double *b, const double *c, double z)
{
    const double *corners[4] = {a, b, c, a};
    int found = 0;
    for (int k = 0; k < 3 && isfinite(a[2] + b[2] + c[2]); k++)
        if (found < 2 && crosses(out + 2 * found, corners[k], corners[k + 1], z))
            found++;
    return found == 2;
}

/// Pieces at a height; with out NULL they are only counted.
static int trace(double *out, const lattice *l, double z)
{
    int count = 0;
    for (int j = 0; j < CELLS; j++)
        for (int i = 0; i < CELLS; i++) {
            double p[4][3], piece[4];
            for (int k = 0; k < 4; k++) {
                const int a = i + (k == 1 || k == 2), b = j + (k > 1);
                p[k][0] = place(l, 0, a);
                p[k][1] = place(l, 1, b);
                p[k][2] = l->z[b][a];
            }
            for (int half = 0; half < 2; half++) {
                if (!cut(piece, p[0], p[1 + half], p[2 + half], z))
                    continue;
                for (int k = 0; out && k < 4; k++)
                    out[4 * count + k] = piece[k];
                count++;
            }
        }
    return count;
}

void bys_judge_contours(bys_judge *judge)
{
    lattice *l = judge->site->has_bed ? calloc(1, sizeof *l) : NULL;
    double least, most;
    bys_design *out = judge->out;
    judge->no_memory = judge->no_memory || (judge->site->has_bed && !l);
    if (l && fill(l, judge, &least, &most)) {
        const double step = step_of(most - least);
        out->contours = bys_judge_get(judge, MOST_LINES + 1, sizeof *out->contours);
        for (double z = ceil(least / step) * step;
             out->contours && z <= most && out->contour_count < MOST_LINES; z += step) {
            bys_contour *line = &out->contours[out->contour_count];
            line->depth_m = -z;
            line->count = trace(NULL, l, z + aside * step);
            line->xy = bys_judge_get(judge, 4 * (size_t)line->count, sizeof(double));
            if (line->count == 0 || !line->xy)
                continue;
            trace(line->xy, l, z + aside * step);
            out->contour_count++;
        }
    }
    free(l);
}
