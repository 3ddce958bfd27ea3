// SPDX-License-Identifier: GPL-3.0-or-later
// The seabed: a plane, soundings or a grid, and its soil.
#include "base/number.h"
#include "site/bed_file.h"
#include "site/bind.h"
#include "site/georef.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { LATTICE = 17, MOST_SIDE = 640 };
static const double degree = 0.017453292519943295;
static const double same_place = 0.01, same_depth = 0.005; // m

// ---- soil --------------------------------------------------------------------------------------

static bys_soil soil_of(const bys_xml_node *node, double top)
{
    static const char *const kinds[] = {"sand", "mud",        "clay",           "rock", "gravel",
                                        "silt", "silty-sand", "carbonate-sand", "coral"};
    return (bys_soil){
        .kind = kinds[bys_node_choice(node, "kind", 0)],
        .top = bys_node_number(node, "top", top),
        .thickness = bys_node_number(node, "thickness", INFINITY),
        .friction_angle = bys_node_number(node, "friction-angle", NAN),
        .su = bys_node_number(node, "undrained-strength", NAN),
        .remoulded = bys_node_number(node, "remoulded-strength", NAN),
        .unit_weight = bys_node_number(node, "unit-weight", NAN),
        .measured = bys_node_flag(node, "measured", false),
        .source = bys_node_text(node, "source"),
        .place = node->place,
        .basis = (bys_basis)bys_node_choice(node, "basis", BYS_BASIS_ASSUMED),
    };
}

static bys_soil *read_soils(bys_reading *r, const bys_xml_node *parent, int *count)
{
    *count = bys_node_number_of(parent, "soil");
    bys_soil *soils = bys_array(r, *count, sizeof *soils);
    double top = 0;
    const bys_xml_node *node = NULL;
    for (int i = 0; soils && (node = bys_node_next(parent, node, "soil")); i++) {
        soils[i] = soil_of(node, top);
        if (isinf(top))
            bys_say(r, BYS_M_layer_order, node->place, node,
                    "lies under a layer without thickness; state the thickness of the one above");
        else if (fabs(soils[i].top - top) > 1e-6)
            bys_say(r, BYS_M_layer_order, bys_node_place(node, "top"), node,
                    "starts at %.4g m below the bed, but the layer above ends at %.4g m",
                    soils[i].top, top);
        top = soils[i].top + soils[i].thickness;
    }
    return soils;
}

static void bind_zones(bys_reading *r, const bys_xml_node *seabed)
{
    bys_seabed *bed = &r->site->bed;
    const int count = bys_node_number_of(seabed, "zone");
    bed->zones = bys_array(r, count, sizeof *bed->zones);
    const bys_xml_node *node = NULL;
    while (bed->zones && (node = bys_node_next(seabed, node, "zone"))) {
        bys_soil_zone *zone = &bed->zones[bed->zone_count++];
        zone->id = bys_node_text(node, "id");
        zone->count = bys_read_polygon(r, node, "zone-corner", &zone->x, &zone->y);
        zone->soils = read_soils(r, node, &zone->soil_count);
        if (zone->soil_count == 0)
            bys_say(r, BYS_M_missing_element, node->place, node,
                    "has no <soil>; add what it is made of");
    }
}

// ---- soundings ---------------------------------------------------------------------------------

/// How the numbers of a file or list become heights above chart datum.
typedef struct {
    const bys_xml_node *node;
    double sign, zero;
} reckoning;

static reckoning reckoning_of(const bys_xml_node *node)
{
    return (reckoning){node, bys_node_choice(node, "values", 0) == 0 ? -1.0 : 1.0,
                       bys_node_number(node, "zero", 0)};
}

typedef struct {
    double *xyz; // triples
    int *lines;  // NULL for a list in the site file
    int count;
} survey;

static int by_place(const void *a, const void *b)
{
    const double *p = a, *q = b;
    for (int c = 0; c < 3; c++)
        if (p[c] != q[c])
            return p[c] < q[c] ? -1 : 1;
    return 0;
}

/// Two depths at one place contradict each other; equal ones count once. Sorts the soundings.
static bool drop_doubles(bys_reading *r, const reckoning *how, survey *s)
{
    qsort(s->xyz, (size_t)s->count, 3 * sizeof(double), by_place);
    int kept = 0;
    for (int i = 0; i < s->count; i++) {
        const double *p = s->xyz + 3 * i;
        bool twice = false;
        for (int k = kept - 1; k >= 0 && k > kept - 2000 && !twice; k--) {
            const double *q = s->xyz + 3 * k;
            if (p[0] - q[0] >= same_place)
                break;
            twice = hypot(p[0] - q[0], p[1] - q[1]) < same_place;
            if (twice && fabs(p[2] - q[2]) > same_depth) {
                bys_say(r, BYS_M_bed_data, how->node->place, how->node,
                        "has two soundings at x %.2f m, y %.2f m that lie %.2f m apart in depth; "
                        "keep one", p[0], p[1], fabs(p[2] - q[2]));
                return false;
            }
        }
        if (!twice)
            memmove(s->xyz + 3 * kept++, p, 3 * sizeof(double));
    }
    s->count = kept;
    return true;
}

static bool listed(bys_reading *r, const reckoning *how, survey *s)
{
    const int count = bys_node_number_of(how->node, "sounding");
    s->xyz = bys_array(r, 3 * count, sizeof(double));
    const bys_xml_node *node = NULL;
    bool whole = s->xyz != NULL;
    while (s->xyz && (node = bys_node_next(how->node, node, "sounding"))) {
        double *p = s->xyz + 3 * s->count++;
        p[0] = bys_node_number(node, "x", NAN);
        p[1] = bys_node_number(node, "y", NAN);
        p[2] = how->zero + how->sign * bys_node_number(node, "value", NAN);
        whole = whole && isfinite(p[0]) && isfinite(p[1]) && isfinite(p[2]);
    }
    return whole; // else said already
}

static void say_in_file(bys_reading *r, int line, const char *text)
{
    bys_messages_add(r->messages, BYS_FAULT, BYS_M_bed_data, (bys_place){r->bed_file, line, 1},
                     "%s", text);
}

/// Columns against the frame: lat and lon need one on the Earth, x and y one that is not latlon.
static bool columns_suit(bys_reading *r, const reckoning *how, const bys_sounding_list *list)
{
    const bool latlon = strcmp(r->site->frame.kind, "latlon") == 0;
    if (list->latlon && !r->geo)
        say_in_file(r, 1, "the soundings are placed by lat and lon, but the frame has no place on "
                          "the Earth");
    else if (!list->latlon && latlon)
        say_in_file(r, 1, "the soundings are placed by x and y, but the frame is latlon");
    else if (list->named && list->depths != (how->sign < 0.0))
        bys_say(r, BYS_M_conflict, bys_node_place(how->node, "values"), how->node,
                "says %s, but the file's column is named %s",
                how->sign < 0.0 ? "depths" : "heights", list->depths ? "depth" : "height");
    else
        return true;
    return false;
}

static bool from_file(bys_reading *r, const reckoning *how, survey *s)
{
    bys_sounding_list list;
    if (!bys_soundings_read(&list, r->arena, r->bed_bytes, r->bed_file, r->messages) ||
        !columns_suit(r, how, &list))
        return false;
    const bool projected = strcmp(r->site->frame.kind, "projected") == 0;
    *s = (survey){list.at, list.lines, list.count};
    for (int i = 0; i < s->count; i++) {
        double *p = s->xyz + 3 * i, lat = p[0] / degree, lon = p[1] / degree;
        p[2] = how->zero + how->sign * p[2];
        if (projected && !list.latlon && !bys_georef_unproject(r->geo, p[0], p[1], &lat, &lon)) {
            say_in_file(r, s->lines[i], "the place lies outside the frame's area");
            return false;
        }
        if (projected || list.latlon)
            bys_georef_place(r->geo, lat, lon, &p[0], &p[1]);
        if (!(hypot(p[0], p[1]) < 1e6)) {
            say_in_file(r, s->lines[i], "the place lies more than 1000 km from the origin; are two "
                                        "columns swapped?");
            return false;
        }
    }
    return true;
}

static const bys_bed_map *map_of_soundings(bys_reading *r, const reckoning *how, int *count)
{
    survey s = {0};
    const bool file = bys_node_has(how->node, "href");
    if (file == (bys_node_number_of(how->node, "sounding") > 0)) {
        bys_say(r, BYS_M_bed_data, how->node->place, how->node,
                file ? "names a file and lists soundings; keep one of them"
                     : "has neither a file nor a list; add href=\"….csv\" or <sounding> elements");
        return NULL;
    }
    if (file ? !r->bed_bytes || !from_file(r, how, &s) : !listed(r, how, &s))
        return NULL;
    if (!drop_doubles(r, how, &s))
        return NULL;
    const char *why;
    const bys_bed_map *map = bys_bed_map_soundings(r->arena, s.xyz, s.count, &why);
    if (why)
        bys_say(r, BYS_M_bed_data, how->node->place, how->node,
                "has soundings between which no bed can be laid: %s", why);
    r->failed = r->failed || (!map && !why);
    *count = s.count;
    return map;
}

// ---- grid --------------------------------------------------------------------------------------

/// The file's own coordinates (easting, northing or lon, lat) of a place in the plane.
static void to_file(bys_reading *r, bool degrees, double x, double y, double out[2])
{
    double lat, lon;
    bys_georef_latlon(r->geo, x, y, &lat, &lon);
    out[0] = lon;
    out[1] = lat;
    if (!degrees && !bys_georef_project(r->geo, lat, lon, &out[0], &out[1]))
        out[0] = out[1] = NAN;
}

static void from_grid(bys_reading *r, bool degrees, double u, double v, double out[2])
{
    double lat = v, lon = u;
    if (!degrees && !bys_georef_unproject(r->geo, u, v, &lat, &lon))
        lat = lon = NAN;
    bys_georef_place(r->geo, lat, lon, &out[0], &out[1]);
}

/// Box in the plane, and a lattice over it that knows the file's coordinates: between its points
/// they are linear to a millimetre.
typedef struct {
    double low[2], high[2];
    double at[LATTICE][LATTICE][2];
} lattice;

static bool make_lattice(bys_reading *r, lattice *l, const bys_grid_file *g, bool degrees)
{
    l->low[0] = l->low[1] = INFINITY;
    l->high[0] = l->high[1] = -INFINITY;
    for (int j = 0; j < LATTICE; j++)
        for (int i = 0; i < LATTICE; i++) {
            double p[2];
            from_grid(r, degrees, g->x0 + g->step * (g->nx - 1) * i / (LATTICE - 1),
                      g->y0 + g->step * (g->ny - 1) * j / (LATTICE - 1), p);
            for (int c = 0; c < 2; c++) {
                if (!(fabs(p[c]) < 1e6))
                    return false;
                l->low[c] = fmin(l->low[c], p[c]);
                l->high[c] = fmax(l->high[c], p[c]);
            }
        }
    for (int j = 0; j < LATTICE; j++)
        for (int i = 0; i < LATTICE; i++)
            to_file(r, degrees, l->low[0] + (l->high[0] - l->low[0]) * i / (LATTICE - 1),
                    l->low[1] + (l->high[1] - l->low[1]) * j / (LATTICE - 1), l->at[j][i]);
    return true;
}

static void look_up(const lattice *l, double s, double t, double out[2])
{
    const int i = (int)fmin(s * (LATTICE - 1), LATTICE - 2);
    const int j = (int)fmin(t * (LATTICE - 1), LATTICE - 2);
    const double u = s * (LATTICE - 1) - i, v = t * (LATTICE - 1) - j;
    for (int c = 0; c < 2; c++)
        out[c] = (1.0 - v) * ((1.0 - u) * l->at[j][i][c] + u * l->at[j][i + 1][c]) +
                 v * ((1.0 - u) * l->at[j + 1][i][c] + u * l->at[j + 1][i + 1][c]);
}

/// A grid in easting and northing or in degrees, read off at nodes of the plane.
static const bys_bed_map *turned(bys_reading *r, const reckoning *how, const bys_grid_file *g)
{
    const bool degrees = strcmp(r->site->frame.kind, "latlon") == 0;
    const bys_bed_map *own = bys_bed_map_grid(r->arena, g->x0, g->y0, g->step, g->nx, g->ny, g->z);
    lattice *l = bys_arena_get(r->arena, sizeof *l);
    if (!own || !l) {
        r->failed = true;
        return NULL;
    }
    if (!make_lattice(r, l, g, degrees) || !(l->high[0] > l->low[0] && l->high[1] > l->low[1])) {
        bys_say(r, BYS_M_bed_data, how->node->place, how->node,
                "names a grid that lies more than 1000 km away or outside the frame; its "
                "coordinates are those of the frame%s", degrees ? ", in degrees" : "");
        return NULL;
    }
    const double wide = l->high[0] - l->low[0], high = l->high[1] - l->low[1];
    double step = fmin(wide / (g->nx - 1), high / (g->ny - 1));
    step = fmax(step, fmax(wide, high) / (MOST_SIDE - 1));
    const int nx = (int)(wide / step) + 1, ny = (int)(high / step) + 1;
    double *z = bys_array(r, nx * ny, sizeof *z);
    for (int j = 0; z && j < ny; j++)
        for (int i = 0; i < nx; i++) {
            double p[2];
            look_up(l, i * step / wide, j * step / high, p);
            z[(size_t)j * (size_t)nx + (size_t)i] =
                bys_bed_map_inside(own, p[0], p[1])
                    ? bys_bed_map_at(own, p[0], p[1], NULL, NULL) : NAN;
        }
    const bys_bed_map *map =
        z && nx > 1 && ny > 1 ? bys_bed_map_grid(r->arena, l->low[0], l->low[1], step, nx, ny, z)
                              : NULL;
    r->failed = r->failed || !map;
    return map;
}

static const bys_bed_map *map_of_grid(bys_reading *r, const reckoning *how, int *count)
{
    bys_grid_file g;
    if (!r->bed_bytes || !bys_grid_read(&g, r->arena, r->bed_bytes, r->bed_file, r->messages))
        return NULL;
    const size_t all = (size_t)g.nx * (size_t)g.ny;
    *count = 0;
    for (size_t k = 0; k < all; k++) {
        g.z[k] = how->zero + how->sign * g.z[k];
        *count += isfinite(g.z[k]);
    }
    if (*count < 4) {
        say_in_file(r, 1, "the grid has no four cells with data");
        return NULL;
    }
    if (strcmp(r->site->frame.kind, "local") != 0)
        return r->geo ? turned(r, how, &g) : NULL; // the frame's fault is said already
    const bys_bed_map *map = bys_bed_map_grid(r->arena, g.x0, g.y0, g.step, g.nx, g.ny, g.z);
    r->failed = r->failed || !map;
    return map;
}

// ---- the seabed --------------------------------------------------------------------------------

static void bind_plane(bys_reading *r, const bys_xml_node *plane)
{
    bys_seabed *bed = &r->site->bed;
    r->site->has_bed = true;
    bed->depth = bys_node_number(plane, "depth", NAN);
    bed->x = bys_node_number(plane, "x", 0);
    bed->y = bys_node_number(plane, "y", 0);
    bed->slope = bys_node_number(plane, "slope", 0);
    bed->deepens = bys_node_number(plane, "deepens-towards", 0);
    bed->place = plane->place;
    if (bed->slope > 0 && !bys_node_has(plane, "deepens-towards"))
        bys_say(r, BYS_M_pair_incomplete, bys_node_place(plane, "slope"), plane,
                "has a slope but no direction; add deepens-towards=\"… deg\"");
    if (bed->slope > 0 && strcmp(r->site->frame.kind, "local") != 0 && !bys_node_has(plane, "x"))
        bys_say(r, BYS_M_pair_incomplete, plane->place, plane,
                "slopes and does not say where it has its depth; add its place");
}

static void bind_map(bys_reading *r, const bys_xml_node *node, bool grid)
{
    bys_seabed *bed = &r->site->bed;
    const reckoning how = reckoning_of(node);
    int count = 0;
    bed->place = node->place;
    bed->map = grid ? map_of_grid(r, &how, &count) : map_of_soundings(r, &how, &count);
    if (!bed->map)
        return;
    r->site->has_bed = true;
    bed->x = bed->map->x0 + 0.5 * bed->map->step * (bed->map->nx - 1);
    bed->y = bed->map->y0 + 0.5 * bed->map->step * (bed->map->ny - 1);
    bed->depth = -bys_bed_map_at(bed->map, bed->x, bed->y, NULL, NULL);
    bys_messages_add(r->messages, BYS_NOTE, BYS_M_bed_read, node->place,
                     "the seabed is made from %d %s, %.2f m to %.2f m below chart datum (their "
                     "datum: %.60s, %.2f m above it)", count, grid ? "cells" : "soundings",
                     -bed->map->most, -bed->map->least, bys_node_text(node, "datum"), how.zero);
}

void bys_bind_bed(bys_reading *r)
{
    static const char *const keys[] = {"plane", "soundings", "bed-grid"};
    const bys_xml_node *seabed = bys_node_next(r->root, NULL, "seabed"), *found[3];
    int forms = 0;
    if (!seabed)
        return;
    for (int i = 0; i < 3; i++) {
        found[i] = bys_node_next(seabed, NULL, keys[i]);
        forms += found[i] != NULL;
    }
    if (forms == 0)
        bys_say(r, BYS_M_missing_element, seabed->place, seabed,
                "has no shape: add <plane> (a flat or sloping bed), <soundings> or <grid>");
    else if (forms > 1)
        bys_say(r, BYS_M_conflict, seabed->place, seabed,
                "has more than one of <plane>, <soundings> and <grid>; keep one");
    else if (found[0])
        bind_plane(r, found[0]);
    else
        bind_map(r, found[1] ? found[1] : found[2], found[2] != NULL);
    r->site->bed.soils = read_soils(r, seabed, &r->site->bed.soil_count);
    bind_zones(r, seabed);
}
