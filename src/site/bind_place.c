// SPDX-License-Identifier: GPL-3.0-or-later
// Water and lease.
#include "site/bind.h"

#include <math.h>
#include <string.h>

enum { MOST_CORNERS = 2000 };

static void bind_water(bys_reading *r)
{
    bys_site *site = r->site;
    const bys_xml_node *node = bys_node_next(r->root, NULL, "water");
    site->rho_water = 1025;
    site->rho_air = 1.226;
    site->gravity = 9.80665;
    int count = 0;
    if (node) {
        site->rho_water = bys_node_number(node, "density", site->rho_water);
        site->rho_air = bys_node_number(node, "air-density", site->rho_air);
        site->gravity = bys_node_number(node, "gravity", site->gravity);
        count = bys_node_number_of(node, "level");
    }
    site->levels = bys_array(r, count, sizeof *site->levels);
    if (!site->levels)
        return;
    site->level_count = count > 0 ? count : 1;
    if (count == 0) // chart datum itself
        site->levels[0] = (bys_level){.item = {.id = "datum", .name = "datum", .source = "",
                                               .basis = BYS_BASIS_ASSUMED}};
    const bys_xml_node *level = NULL;
    for (int i = 0; (level = bys_node_next(node, level, "level")); i++) {
        bys_item item = bys_item_of(level);
        item.id = item.name;
        site->levels[i] = (bys_level){item, bys_node_number(level, "height", 0)};
    }
    for (int i = 0; i < site->level_count; i++)
        bys_ids_add(&r->levels, site->levels[i].item.id, i, site->levels[i].item.place);
    bys_ids_sort(&r->levels);
    bys_say_twice(r, &r->levels, "water level");
}

static double cross(const double *x, const double *y, int a, int b, int c)
{
    return (x[b] - x[a]) * (y[c] - y[a]) - (y[b] - y[a]) * (x[c] - x[a]);
}

static bool within(double a, double b, double v)
{
    return v >= fmin(a, b) && v <= fmax(a, b);
}

// Do the sides a-b and c-d meet? Corners shared by neighbours are not asked for here.
static bool sides_meet(const double *x, const double *y, int a, int b, int c, int d)
{
    double c1 = cross(x, y, a, b, c), c2 = cross(x, y, a, b, d);
    double c3 = cross(x, y, c, d, a), c4 = cross(x, y, c, d, b);
    bool proper = c1 != 0 && c2 != 0 && c3 != 0 && c4 != 0;
    if (proper && (c1 > 0) != (c2 > 0) && (c3 > 0) != (c4 > 0))
        return true;
    return (c1 == 0 && within(x[a], x[b], x[c]) && within(y[a], y[b], y[c])) ||
           (c2 == 0 && within(x[a], x[b], x[d]) && within(y[a], y[b], y[d])) ||
           (c3 == 0 && within(x[c], x[d], x[a]) && within(y[c], y[d], y[a])) ||
           (c4 == 0 && within(x[c], x[d], x[b]) && within(y[c], y[d], y[b]));
}

static void check_polygon(bys_reading *r, const bys_xml_node *node, const double *x,
                          const double *y, int n)
{
    double twice_area = 0;
    for (int i = 0; i < n; i++) {
        int j = (i + 1) % n;
        twice_area += x[i] * y[j] - x[j] * y[i];
        if (x[i] == x[j] && y[i] == y[j]) {
            bys_say(r, BYS_M_lease_shape, node->place, node, "has its corner %d twice", i + 1);
            return;
        }
    }
    for (int i = 0; i < n; i++)
        for (int k = i + 2; k < n; k++)
            if ((k + 1) % n != i && sides_meet(x, y, i, i + 1, k, (k + 1) % n)) {
                bys_say(r, BYS_M_lease_shape, node->place, node,
                        "crosses itself: the side after corner %d meets the side after corner %d; "
                        "list the corners in order around the lease", i + 1, k + 1);
                return;
            }
    if (fabs(twice_area) < 1e-6)
        bys_say(r, BYS_M_lease_shape, node->place, node, "has no area: its corners lie in a line");
}

int bys_read_polygon(bys_reading *r, const bys_xml_node *node, const char *key, double **x,
                     double **y)
{
    const int count = bys_node_number_of(node, key);
    if (count == 0)
        return 0; // said already
    if (count < 3 || count > MOST_CORNERS) {
        bys_say(r, BYS_M_lease_shape, node->place, node, "has %d corners; it needs 3 to %d", count,
                (int)MOST_CORNERS);
        return 0;
    }
    *x = bys_array(r, count, sizeof **x);
    *y = bys_array(r, count, sizeof **y);
    if (!*x || !*y)
        return 0;
    bool whole = true;
    const bys_xml_node *corner = NULL;
    for (int i = 0; (corner = bys_node_next(node, corner, key)); i++) {
        (*x)[i] = bys_node_number(corner, "x", NAN);
        (*y)[i] = bys_node_number(corner, "y", NAN);
        whole = whole && isfinite((*x)[i]) && isfinite((*y)[i]);
    }
    if (whole)
        check_polygon(r, node, *x, *y, count);
    return count;
}

static void bind_lease(bys_reading *r)
{
    bys_site *site = r->site;
    site->lease_id = "";
    const bys_xml_node *node = bys_node_next(r->root, NULL, "lease");
    if (!node)
        return;
    site->lease_id = bys_node_text(node, "id");
    site->lease_margin = bys_node_number(node, "margin", 0);
    site->lease_count = bys_read_polygon(r, node, "corner", &site->lease_x, &site->lease_y);
}

void bys_bind_place(bys_reading *r)
{
    r->site->name = bys_node_text(r->root, "name");
    r->site->notice = bys_node_text(r->root, "notice");
    bind_water(r);
    bind_lease(r);
}
