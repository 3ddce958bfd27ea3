// SPDX-License-Identifier: GPL-3.0-or-later
// Delaunay triangles of points in the plane.
#ifndef BYS_SITE_DELAUNAY_H
#define BYS_SITE_DELAUNAY_H

typedef struct {
    int v[3];    ///< corners, counterclockwise
    int next[3]; ///< triangle beyond the side opposite corner k; -1 = outside
} bys_triangle;

typedef struct {
    bys_triangle *items;
    int count;
    int *hull; ///< corners of the convex hull, counterclockwise
    int hull_count;
} bys_triangles;

/// xy: n pairs. Returns 0, -1 when out of memory, 1 if the points lie on a line or are too few.
int bys_delaunay(bys_triangles *out, const double *xy, int n);
void bys_triangles_free(bys_triangles *triangles);
/// Triangle that holds (x, y), found from `from` on; -1 if the point lies outside.
int bys_triangle_at(const bys_triangles *triangles, const double *xy, double x, double y, int from);

#endif
