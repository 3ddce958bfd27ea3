// SPDX-License-Identifier: GPL-3.0-or-later
// Heights of an uneven seabed between the nodes of a grid, and the grid from soundings.
//
// GIVEN     nodes z(i, j) at x0 + i h, y0 + j h (m above chart datum); soundings (x, y, z)
// RETURNED  z(x, y), its slopes and second derivatives; distance beyond the data
// NOTES     1. Cubic convolution in both directions: through the nodes, with continuous slopes,
//              exact for planes. Beside a kink it overshoots by at most a tenth of the kink's rise
//              over one step.
//           2. Soundings: plane triangles between them (Delaunay), read off at the nodes; the step is
//              a quarter of their mean distance, more if that took above 640 nodes a side. Between
//              nodes the map rounds the edges of the triangles off over a step or two.
//           3. Nodes without data are filled up by going on straight from two nodes with data, so
//              that the four by four nodes around a place inside are always there. Places beyond the
//              data are told by bys_bed_map_beyond and refused by those who ask.
//           4. Soundings: inside is the convex hull. Grid: a place is inside if the four nodes
//              around it have data.
// SOURCE    cubic convolution: R. G. Keys, IEEE Trans. ASSP 29 (1981) 1153 [memory]; the rest
//           [derived].
#include "site/bed.h"
#include "site/delaunay.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { MOST_NODES = 640 };

// ---- reading -----------------------------------------------------------------------------------

/// Weights of four nodes for value, slope and bend (per step) at share u of the middle interval.
static void weights(double w[3][4], double u)
{
    const double u2 = u * u, u3 = u2 * u;
    const double all[3][4] = {
        {-0.5 * u + u2 - 0.5 * u3, 1.0 - 2.5 * u2 + 1.5 * u3, 0.5 * u + 2.0 * u2 - 1.5 * u3,
         -0.5 * u2 + 0.5 * u3},
        {-0.5 + 2.0 * u - 1.5 * u2, -5.0 * u + 4.5 * u2, 0.5 + 4.0 * u - 4.5 * u2, -u + 1.5 * u2},
        {2.0 - 3.0 * u, -5.0 + 9.0 * u, 4.0 - 9.0 * u, -1.0 + 3.0 * u}};
    memcpy(w, all, sizeof all);
}

/// Interval of a coordinate and the share in it; a place beyond the grid is put on its edge.
static int interval(double t, int nodes, double *share, bool *held)
{
    *held = !(t >= 0.0 && t <= nodes - 1);
    const double inside = fmin(fmax(t, 0.0), nodes - 1);
    int i = (int)inside;
    if (i > nodes - 2)
        i = nodes - 2;
    *share = inside - i;
    return i;
}

/// Row of nodes; one step beyond the grid it goes on straight.
static double node(const bys_bed_map *m, int i, int j)
{
    if (i < 0)
        return 2.0 * node(m, 0, j) - node(m, 1, j);
    if (i >= m->nx)
        return 2.0 * node(m, m->nx - 1, j) - node(m, m->nx - 2, j);
    if (j < 0)
        return 2.0 * node(m, i, 0) - node(m, i, 1);
    if (j >= m->ny)
        return 2.0 * node(m, i, m->ny - 1) - node(m, i, m->ny - 2);
    return m->z[(size_t)j * (size_t)m->nx + (size_t)i];
}

double bys_bed_map_at(const bys_bed_map *map, double x, double y, double slope[2], double bend[3])
{
    double u, v, wx[3][4], wy[3][4], sum[6] = {0.0};
    bool held_x, held_y;
    const int i = interval((x - map->x0) / map->step, map->nx, &u, &held_x);
    const int j = interval((y - map->y0) / map->step, map->ny, &v, &held_y);
    weights(wx, u);
    weights(wy, v);
    for (int b = 0; b < 4; b++) {
        double row[3] = {0.0, 0.0, 0.0};
        for (int a = 0; a < 4; a++) {
            const double z = node(map, i + a - 1, j + b - 1);
            for (int d = 0; d < 3; d++)
                row[d] += wx[d][a] * z;
        }
        sum[0] += wy[0][b] * row[0];
        sum[1] += wy[0][b] * row[1];
        sum[2] += wy[1][b] * row[0];
        sum[3] += wy[0][b] * row[2];
        sum[4] += wy[1][b] * row[1];
        sum[5] += wy[2][b] * row[0];
    }
    // beyond the grid straight on: ox, oy are the ways past its edge
    const double h = map->step;
    const double ox = x - (map->x0 + (i + u) * h), oy = y - (map->y0 + (j + v) * h);
    const double px = held_x ? ox : 0.0, py = held_y ? oy : 0.0, twist = sum[4] / (h * h);
    if (slope) {
        slope[0] = sum[1] / h + twist * py;
        slope[1] = sum[2] / h + twist * px;
    }
    if (bend) {
        bend[0] = held_x ? 0.0 : sum[3] / (h * h);
        bend[1] = twist;
        bend[2] = held_y ? 0.0 : sum[5] / (h * h);
    }
    return sum[0] + sum[1] / h * px + sum[2] / h * py + twist * px * py;
}

// ---- how far beyond ----------------------------------------------------------------------------

static double to_side(double px, double py, const double *a, const double *b)
{
    const double dx = b[0] - a[0], dy = b[1] - a[1], square = dx * dx + dy * dy;
    double t = square > 0.0 ? ((px - a[0]) * dx + (py - a[1]) * dy) / square : 0.0;
    t = fmin(fmax(t, 0.0), 1.0);
    return hypot(px - a[0] - t * dx, py - a[1] - t * dy);
}

static double beyond_hull(const bys_bed_map *m, double x, double y)
{
    double nearest = INFINITY;
    for (int i = 0; i < m->hull_count; i++)
        nearest = fmin(nearest, to_side(x, y, m->hull + 2 * i,
                                        m->hull + 2 * ((i + 1) % m->hull_count)));
    return nearest;
}

/// All four nodes of an interval have data.
static bool whole(const bys_bed_map *m, int i, int j)
{
    const unsigned char *k = m->known + (size_t)j * (size_t)m->nx + (size_t)i;
    return k[0] && k[1] && k[m->nx] && k[m->nx + 1];
}

/// Distance to the nearest interval with data.
static double beyond_grid(const bys_bed_map *m, double x, double y)
{
    const double h = m->step, s = (x - m->x0) / h, t = (y - m->y0) / h;
    double nearest = INFINITY;
    for (int b = 0; b + 1 < m->ny; b++)
        for (int a = 0; a + 1 < m->nx; a++) {
            if (!whole(m, a, b))
                continue;
            const double dx = fmax(fmax(a - s, s - a - 1.0), 0.0);
            const double dy = fmax(fmax(b - t, t - b - 1.0), 0.0);
            nearest = fmin(nearest, hypot(dx, dy) * h);
        }
    return nearest;
}

bool bys_bed_map_inside(const bys_bed_map *map, double x, double y)
{
    double u, v;
    bool held_x, held_y, inside = true;
    for (int i = 0; inside && i < map->hull_count; i++) {
        const double *a = map->hull + 2 * i, *b = map->hull + 2 * ((i + 1) % map->hull_count);
        inside = (b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0]) >= 0.0;
    }
    if (map->hull)
        return inside;
    const int i = interval((x - map->x0) / map->step, map->nx, &u, &held_x);
    const int j = interval((y - map->y0) / map->step, map->ny, &v, &held_y);
    return !held_x && !held_y && whole(map, i, j);
}

double bys_bed_map_beyond(const bys_bed_map *map, double x, double y)
{
    if (bys_bed_map_inside(map, x, y))
        return 0.0;
    const double away = map->hull ? beyond_hull(map, x, y) : beyond_grid(map, x, y);
    return away < 1e-6 ? 0.0 : away;
}

// ---- filling up --------------------------------------------------------------------------------

/// Straight on from the two nodes before it in the direction (di, dj); false if they have none.
static bool go_on(double *out, const bys_bed_map *m, const unsigned char *have, int i, int j,
                  int di, int dj)
{
    const int i2 = i - 2 * di, j2 = j - 2 * dj;
    if (i2 < 0 || i2 >= m->nx || j2 < 0 || j2 >= m->ny)
        return false;
    const size_t near = (size_t)(j - dj) * (size_t)m->nx + (size_t)(i - di);
    const size_t far = (size_t)j2 * (size_t)m->nx + (size_t)i2;
    if (!have[near] || !have[far])
        return false;
    *out = 2.0 * m->z[near] - m->z[far];
    return true;
}

/// One ring of nodes beside those that `have` a value; the new ones are marked in `next`.
static bool fill_ring(bys_bed_map *m, const unsigned char *have, unsigned char *next)
{
    static const int ways[8][2] = {{1, 0}, {-1, 0}, {0, 1}, {0, -1},
                                   {1, 1}, {1, -1}, {-1, 1}, {-1, -1}};
    bool any = false;
    for (int j = 0; j < m->ny; j++)
        for (int i = 0; i < m->nx; i++) {
            const size_t at = (size_t)j * (size_t)m->nx + (size_t)i;
            double sum = 0.0, z;
            int count = 0;
            for (int w = 0; w < 8 && !have[at]; w++)
                if (go_on(&z, m, have, i, j, ways[w][0], ways[w][1])) {
                    sum += z;
                    count++;
                }
            if (count > 0) {
                m->z[at] = sum / count;
                next[at] = 1;
                any = true;
            }
        }
    return any;
}

/// Three rings around the data; farther off the mean depth, which nobody may use.
static bool fill_up(bys_bed_map *m)
{
    const size_t all = (size_t)m->nx * (size_t)m->ny;
    unsigned char *have = malloc(all), *next = malloc(all);
    if (have && next) {
        memcpy(have, m->known, all);
        memcpy(next, m->known, all);
        for (int ring = 0; ring < 3 && fill_ring(m, have, next); ring++)
            memcpy(have, next, all);
        for (size_t k = 0; k < all; k++)
            if (!next[k])
                m->z[k] = 0.5 * (m->least + m->most);
    }
    const bool ok = have && next;
    free(have);
    free(next);
    return ok;
}

static bys_bed_map *new_map(bys_arena *arena, double x0, double y0, double step, int nx, int ny)
{
    bys_bed_map *m = bys_arena_get(arena, sizeof *m);
    const size_t all = (size_t)nx * (size_t)ny;
    if (!m)
        return NULL;
    *m = (bys_bed_map){.x0 = x0, .y0 = y0, .step = step, .nx = nx, .ny = ny,
                       .z = bys_arena_get(arena, all * sizeof(double)),
                       .known = bys_arena_get(arena, all), .least = INFINITY, .most = -INFINITY};
    return m->z && m->known ? m : NULL;
}

static void note_range(bys_bed_map *m, double z)
{
    m->least = fmin(m->least, z);
    m->most = fmax(m->most, z);
}

bys_bed_map *bys_bed_map_grid(bys_arena *arena, double x0, double y0, double step, int nx, int ny,
                              const double *z)
{
    bys_bed_map *m = new_map(arena, x0, y0, step, nx, ny);
    if (!m)
        return NULL;
    for (size_t k = 0; k < (size_t)nx * (size_t)ny; k++)
        if (isfinite(z[k])) {
            m->z[k] = z[k];
            m->known[k] = 1;
            note_range(m, z[k]);
        }
    return fill_up(m) ? m : NULL;
}

// ---- soundings ---------------------------------------------------------------------------------

/// Height on the plane of a triangle.
static double on_face(const bys_triangle *t, const double *xyz, double x, double y)
{
    const double *a = xyz + 3 * t->v[0], *b = xyz + 3 * t->v[1], *c = xyz + 3 * t->v[2];
    const double area = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
    const double wb = ((x - a[0]) * (c[1] - a[1]) - (y - a[1]) * (c[0] - a[0])) / area;
    const double wc = ((b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0])) / area;
    return area > 0.0 ? a[2] + wb * (b[2] - a[2]) + wc * (c[2] - a[2]) : a[2];
}

static void read_off(bys_bed_map *m, const bys_triangles *t, const double *xy, const double *xyz)
{
    int at = 0;
    for (int j = 0; j < m->ny; j++)
        for (int i = 0; i < m->nx; i++) {
            const size_t k = (size_t)j * (size_t)m->nx + (size_t)i;
            const double x = m->x0 + i * m->step, y = m->y0 + j * m->step;
            const int found = bys_triangle_at(t, xy, x, y, at);
            if (found < 0)
                continue;
            at = found;
            m->z[k] = on_face(&t->items[found], xyz, x, y);
            m->known[k] = 1;
        }
}

/// A grid that covers the hull with a node to spare on each side.
static bys_bed_map *map_over(bys_arena *arena, const bys_triangles *t, const double *xy, int n)
{
    double low[2] = {INFINITY, INFINITY}, high[2] = {-INFINITY, -INFINITY}, twice_area = 0.0;
    for (int i = 0; i < t->hull_count; i++) {
        const double *p = xy + 2 * t->hull[i], *q = xy + 2 * t->hull[(i + 1) % t->hull_count];
        twice_area += p[0] * q[1] - q[0] * p[1];
        for (int c = 0; c < 2; c++) {
            low[c] = fmin(low[c], p[c]);
            high[c] = fmax(high[c], p[c]);
        }
    }
    const double extent = fmax(high[0] - low[0], high[1] - low[1]);
    const double step = fmax(0.25 * sqrt(0.5 * twice_area / n), extent / (MOST_NODES - 4));
    const int nx = (int)ceil((high[0] - low[0]) / step) + 3;
    const int ny = (int)ceil((high[1] - low[1]) / step) + 3;
    bys_bed_map *m = new_map(arena, low[0] - step, low[1] - step, step, nx, ny);
    if (!m)
        return NULL;
    m->hull = bys_arena_get(arena, 2 * (size_t)t->hull_count * sizeof(double));
    for (int i = 0; m->hull && i < t->hull_count; i++)
        memcpy(m->hull + 2 * i, xy + 2 * t->hull[i], 2 * sizeof(double));
    m->hull_count = t->hull_count;
    return m->hull ? m : NULL;
}

bys_bed_map *bys_bed_map_soundings(bys_arena *arena, const double *xyz, int n, const char **why)
{
    double *xy = calloc(2 * (size_t)(n > 0 ? n : 1), sizeof *xy);
    bys_triangles triangles = {0};
    bys_bed_map *m = NULL;
    *why = NULL;
    for (int i = 0; xy && i < n; i++) {
        xy[2 * i] = xyz[3 * i];
        xy[2 * i + 1] = xyz[3 * i + 1];
    }
    const int rc = xy ? bys_delaunay(&triangles, xy, n) : -1;
    if (rc == 1)
        *why = "they lie on a line, or there are fewer than three";
    if (rc == 0 && (m = map_over(arena, &triangles, xy, n))) {
        for (int i = 0; i < n; i++)
            note_range(m, xyz[3 * i + 2]);
        read_off(m, &triangles, xy, xyz);
        if (!fill_up(m))
            m = NULL;
    }
    bys_triangles_free(&triangles);
    free(xy);
    return m;
}
