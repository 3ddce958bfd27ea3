// SPDX-License-Identifier: GPL-3.0-or-later
// The coordinate frame, and every position of the tree taken into the site's plane: afterwards each
// element that was placed by easting and northing or by latitude and longitude has x and y in ground
// metres about the origin, as if they had been written so.
#include "base/number.h"
#include "site/bind.h"
#include "site/georef.h"

#include <math.h>
#include <string.h>

static const double degree = 0.017453292519943295;
static const double far_off = 200e3; // m; no lease is as large

enum { LOCAL, PROJECTED, LATLON };

typedef struct {
    bys_reading *r;
    const bys_xml_node *node; // <frame>
    bys_georef *geo;          // NULL: no place on the Earth
    int kind;
    bool broken;              // has a fault of its own
    bool open;                // its datum is known
    bool quiet;               // looking for an origin: faults are said later
    double apart;             // m, between the frame's datum and the lease's
} framing;

// ---- the frame element -----------------------------------------------------------------------

static void say(const framing *f, const char *attr, int code, const char *text)
{
    bys_say(f->r, code, bys_node_place(f->node, attr), f->node, "%s", text);
}

static const char *named(const framing *f, const char *attr)
{
    return bys_node_text(f->node, attr);
}

static bool has(const framing *f, const char *attr)
{
    return bys_node_has(f->node, attr);
}

/// What may not stand in a frame of this kind, or must.
static bool check_frame(const framing *f)
{
    const size_t before = bys_messages_faults(f->r->messages);
    if (has(f, "origin-lat") != has(f, "origin-lon"))
        say(f, has(f, "origin-lat") ? "origin-lat" : "origin-lon", BYS_M_pair_incomplete,
            "states only one of origin-lat and origin-lon");
    if (f->kind != PROJECTED && has(f, "epsg"))
        bys_say(f->r, BYS_M_conflict, bys_node_place(f->node, "epsg"), f->node,
                "is %s and names an EPSG code; remove epsg", named(f, "kind"));
    if (f->kind == PROJECTED && !has(f, "epsg"))
        say(f, "kind", BYS_M_frame_kind, "is projected and names no frame; add epsg=\"…\"");
    if (f->kind == PROJECTED && has(f, "datum"))
        say(f, "datum", BYS_M_conflict,
            "names a datum beside an EPSG code, which has its own; remove datum");
    if (f->kind == LATLON && !has(f, "datum"))
        say(f, "kind", BYS_M_frame_kind,
            "takes latitude and longitude and names no datum; add datum=\"…\", such as GDA2020 or "
            "WGS 84");
    if (f->kind == LATLON && bys_node_choice(f->node, "north", 1) == 0)
        say(f, "north", BYS_M_conflict, "is latlon and has no grid: write north=\"true\"");
    if (f->kind != LOCAL && has(f, "y-bearing"))
        say(f, "y-bearing", BYS_M_conflict,
            "turns a grid that is fixed already; y-bearing is for local frames");
    const bool placed = has(f, "origin-lat") && has(f, "origin-lon");
    if (f->kind == LOCAL && placed && !has(f, "datum"))
        say(f, "origin-lat", BYS_M_frame_kind,
            "has an origin and names no datum for it; add datum=\"…\", such as GDA2020 or WGS 84");
    if (f->kind == LOCAL && !placed && (has(f, "datum") || has(f, "y-bearing")))
        say(f, has(f, "datum") ? "datum" : "y-bearing", BYS_M_frame_kind,
            "has no place on the Earth; add origin-lat and origin-lon");
    const bool grid = bys_node_choice(f->node, "north", 0) == 0;
    if (f->kind == LOCAL && placed && grid && !has(f, "y-bearing"))
        say(f, "origin-lat", BYS_M_frame_kind,
            "counts from grid north and does not say where that lies; add y-bearing=\"… deg\", the "
            "direction of the y axis from true north");
    if (f->kind == LOCAL && !grid && has(f, "y-bearing"))
        say(f, "y-bearing", BYS_M_conflict,
            "counts from true north and turns its y axis; remove y-bearing or write "
            "north=\"grid\"");
    return bys_messages_faults(f->r->messages) == before;
}

/// Opens datum or projected frame; false after a fault.
static bool open_frame(framing *f)
{
    f->geo = bys_georef_new();
    if (!f->geo) {
        f->r->failed = true;
        return false;
    }
    const bool projected = f->kind == PROJECTED;
    const char *attr = projected ? "epsg" : "datum";
    if (!bys_node_ok(f->node, attr))
        return false;
    const bys_geo_rc rc = projected
                              ? bys_georef_projected(f->geo, bys_node_count(f->node, "epsg", 0))
                              : bys_georef_datum(f->geo, named(f, "datum"));
    if (rc == BYS_GEO_OK)
        return true;
    bys_say(f->r, BYS_M_frame_code, bys_node_place(f->node, attr), f->node,
            "names %s \"%.60s\", %s",
            projected ? "the code" : "the datum", named(f, attr),
            rc == BYS_GEO_NOT_PROJECTED ? "which is no frame of easting and northing"
            : rc == BYS_GEO_NO_WAY      ? "between which and its datum PROJ knows no way"
            : projected                 ? "which the EPSG dataset does not have"
                        : "which the EPSG dataset does not have; it has GDA2020, NZGD2000, ETRS89, "
                          "NAD83, WGS 84 and many more");
    return false;
}

// ---- positions -------------------------------------------------------------------------------

static bool needs_place(const bys_xml_node *node)
{
    static const char *const keys[] = {"corner", "zone-corner", "sounding", "block", "raft-grid",
                                       "point", "body"};
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++)
        if (bys_node_is(node, keys[i]))
            return true;
    return false;
}

/// Elements placed in the site's frame; a point inside a body is not.
static bool is_placed(const bys_xml_node *node)
{
    return node->rule && bys_schema_attr(node->rule, "lat") &&
           !(bys_node_is(node, "point") && bys_node_has(node, "body"));
}

static void say_missing(bys_reading *r, const bys_xml_node *node, const char *attr)
{
    const bys_attr_rule *rule = bys_schema_attr(node->rule, attr);
    bys_text type = {0};
    bys_schema_type(&type, rule);
    bys_messages_add(r->messages, BYS_FAULT, BYS_M_missing_attribute, node->place,
                     "%s needs the attribute %s (%s): %s", bys_node_label(node).text, attr,
                     type.data ? type.data : "", rule->meaning);
    bys_text_free(&type);
}

/// One way of placing, whole, and one that the frame takes; false after a fault.
static bool check_way(const framing *f, const bys_xml_node *node)
{
    const bool lat = bys_node_has(node, "lat"), lon = bys_node_has(node, "lon");
    const bool x = bys_node_has(node, "x"), y = bys_node_has(node, "y");
    const char *shown = lat ? "lat" : "lon";
    bys_reading *r = f->r;
    if (lat || lon) {
        if (f->broken)
            return false; // said there
        if (!is_placed(node))
            bys_say(r, BYS_M_geographic, bys_node_place(node, shown), node,
                    "stands in a body and is placed by lat and lon; write x and y, local to the "
                    "body");
        else if (!f->geo)
            bys_say(r, BYS_M_geographic, bys_node_place(node, shown), node,
                    "is placed by latitude and longitude, but the frame has no place on the Earth; "
                    "write x and y, or give <frame> an origin and a datum");
        else if (lat != lon)
            bys_say(r, BYS_M_pair_incomplete, bys_node_place(node, shown), node,
                    "states only one of lat and lon");
        else if (x || y)
            bys_say(r, BYS_M_conflict, bys_node_place(node, x ? "x" : "y"), node,
                    "is placed by lat and lon and by x and y; keep one pair");
        else
            return true;
        return false;
    }
    if (f->kind == LATLON && is_placed(node) && (x || y)) {
        bys_say(r, BYS_M_geographic, bys_node_place(node, x ? "x" : "y"), node,
                "is placed by x and y, but the frame is latlon; write lat and lon");
        return false;
    }
    for (int i = 0; i < 2; i++)
        if (needs_place(node) && !(i ? y : x))
            say_missing(r, node, f->kind == LATLON && is_placed(node) ? (i ? "lon" : "lat")
                                                                      : (i ? "y" : "x"));
    return x && y;
}

/// Latitude and longitude of a placed node on the frame's datum; false after a fault, or none.
static bool where(framing *f, const bys_xml_node *node, double *lat, double *lon)
{
    bys_reading *r = f->r;
    if (bys_node_has(node, "lat")) {
        if (!bys_node_ok(node, "lat") || !bys_node_ok(node, "lon"))
            return false;
        *lat = bys_node_number(node, "lat", NAN) / degree;
        *lon = bys_node_number(node, "lon", NAN) / degree;
        if (fabs(*lat) <= 90.0 && fabs(*lon) <= 360.0)
            return true;
        if (!f->quiet)
            bys_say(r, BYS_M_position_far, bys_node_place(node, "lat"), node, "has its %s%s",
                    fabs(*lat) > 90.0 ? "lat beyond 90 deg" : "lon beyond 360 deg",
                    fabs(*lat) > 90.0 && fabs(*lon) <= 90.0 ? "; lat and lon look swapped" : "");
        return false;
    }
    if (f->kind != PROJECTED || !bys_node_ok(node, "x") || !bys_node_ok(node, "y"))
        return false;
    const double x = bys_node_number(node, "x", NAN), y = bys_node_number(node, "y", NAN);
    const bool found = bys_georef_unproject(f->geo, x, y, lat, lon);
    if (found && bys_georef_in_area(f->geo, *lat, *lon))
        return true;
    if (f->quiet)
        return false;
    double lat2, lon2;
    const bool swapped = bys_georef_unproject(f->geo, y, x, &lat2, &lon2) &&
                         bys_georef_in_area(f->geo, lat2, lon2);
    bys_say(r, BYS_M_position_far, bys_node_place(node, "x"), node,
            "lies outside the area of %.80s%s", bys_georef_crs_name(f->geo),
            swapped ? "; x and y look swapped: x is the easting, y the northing" : "");
    return false;
}

/// Corners of a lease on another datum.
static bool shift_datum(framing *f, const bys_xml_node *node, double *lat, double *lon)
{
    const bys_xml_node *lease = node->parent;
    if (!bys_node_is(node, "corner") || !bys_node_has(lease, "datum"))
        return true;
    if (!bys_node_has(node, "lat")) {
        if (!f->quiet)
            bys_say(f->r, BYS_M_geographic, bys_node_place(node, "x"), node,
                    "is placed by x and y, which are in the frame's datum, but the lease names "
                    "another; write lat and lon, or remove the lease's datum");
        return false;
    }
    double apart = 0.0;
    const bys_geo_rc rc =
        bys_georef_from_datum(f->geo, bys_node_text(lease, "datum"), lat, lon, &apart);
    f->apart = fmax(f->apart, apart);
    if (rc == BYS_GEO_OK)
        return true;
    if (!f->quiet && node == bys_node_next(lease, NULL, "corner"))
        bys_say(f->r, BYS_M_frame_code, bys_node_place(lease, "datum"), lease,
                rc == BYS_GEO_NO_DATUM
                    ? "names the datum \"%.60s\", which the EPSG dataset does not have"
                    : "names the datum \"%.60s\", from which PROJ knows no way to the frame's",
                bys_node_text(lease, "datum"));
    return false;
}

static void put_number(bys_reading *r, bys_xml_node *node, const char *name, double value)
{
    for (bys_xml_attr *a = node->attrs; a; a = a->next)
        if (strcmp(a->name, name) == 0 && !*a->space) {
            a->number = value;
            return;
        }
    bys_xml_attr *made = bys_arena_get(r->arena, sizeof *made);
    if (!made) {
        r->failed = true;
        return;
    }
    bys_place place = bys_node_place(node, strcmp(name, "x") == 0 ? "lat" : "lon");
    *made = (bys_xml_attr){.qname = name, .name = name, .space = "", .value = "", .place = place,
                           .made = true, .ok = true, .number = value, .next = node->attrs};
    node->attrs = made;
}

static void move_node(framing *f, bys_xml_node *node)
{
    double lat, lon, x, y;
    if (!where(f, node, &lat, &lon) || !shift_datum(f, node, &lat, &lon) ||
        !f->r->site->frame.placed)
        return;
    bys_georef_place(f->geo, lat, lon, &x, &y);
    if (hypot(x, y) > far_off) {
        double x2, y2;
        bys_georef_place(f->geo, lon, lat, &x2, &y2);
        const bool swapped = bys_node_has(node, "lat") && fabs(lon) <= 90.0 &&
                             hypot(x2, y2) < far_off;
        const char *attr = bys_node_has(node, "lat") ? "lat" : "x";
        bys_say(f->r, BYS_M_position_far, bys_node_place(node, attr), node,
                "lies %.0f km from the origin of the site%s",
                hypot(x, y) / 1000.0,
                swapped ? "; lat and lon look swapped" : "");
        return;
    }
    put_number(f->r, node, "x", x);
    put_number(f->r, node, "y", y);
}

// ---- origin ----------------------------------------------------------------------------------

/// The stated origin, else the first position of the file; false after a fault or without any.
static bool find_origin(framing *f, double *lat, double *lon)
{
    if (has(f, "origin-lat")) {
        *lat = bys_node_number(f->node, "origin-lat", NAN) / degree;
        *lon = bys_node_number(f->node, "origin-lon", NAN) / degree;
        if (fabs(*lat) <= 90.0)
            return isfinite(*lon);
        say(f, "origin-lat", BYS_M_position_far,
            "has its origin beyond 90 deg of latitude; lat and lon look swapped");
        return false;
    }
    bool found = false;
    f->quiet = true;
    for (const bys_xml_node *node = f->r->root; node && !found; node = node->order)
        found = is_placed(node) && where(f, node, lat, lon) && shift_datum(f, node, lat, lon);
    f->quiet = false;
    return found;
}

static bool check_area(const framing *f, double lat, double lon)
{
    if (bys_georef_in_area(f->geo, lat, lon))
        return true;
    const bool swapped = fabs(lon) <= 90.0 && bys_georef_in_area(f->geo, lon, lat);
    bys_say(f->r, BYS_M_position_far, f->node->place, f->node,
            "has its origin at lat %.4f deg, lon %.4f deg, outside the area of %.80s%s", lat, lon,
            f->kind == PROJECTED ? bys_georef_crs_name(f->geo) : bys_georef_datum_name(f->geo),
            swapped ? "; lat and lon look swapped" : "");
    return false;
}

static const char *keep(bys_reading *r, const char *text)
{
    const char *copy = bys_arena_copy(r->arena, text);
    r->failed = r->failed || !copy;
    return copy ? copy : "";
}

static void fill_frame(framing *f, double lat, double lon)
{
    bys_frame *frame = &f->r->site->frame;
    frame->datum = keep(f->r, bys_georef_datum_name(f->geo));
    frame->crs = keep(f->r, bys_georef_crs_name(f->geo));
    frame->epsg = f->kind == PROJECTED ? bys_node_count(f->node, "epsg", 0) : 0;
    frame->placed = true;
    frame->lat_deg = frame->wgs84_lat_deg = lat;
    frame->lon_deg = frame->wgs84_lon_deg = remainder(lon, 360.0);
    frame->y_bearing_rad = bys_node_number(f->node, "y-bearing", 0);
    if (f->kind == PROJECTED &&
        bys_georef_convergence(f->geo, lat, lon, &frame->convergence_rad, &frame->scale) &&
        bys_georef_project(f->geo, lat, lon, &frame->easting_m, &frame->northing_m) &&
        strcmp(frame->north, "grid") == 0)
        frame->y_bearing_rad = frame->convergence_rad;
    bool known;
    bys_georef_wgs84(f->geo, &frame->wgs84_lat_deg, &frame->wgs84_lon_deg, &known);
    if (!known)
        bys_messages_add(f->r->messages, BYS_WARNING, BYS_M_datum_differs, f->node->place,
                         "PROJ knows no shift from %.60s to WGS 84: files for chart plotters take "
                         "one for the other", frame->datum);
    bys_georef_origin(f->geo, lat, lon, frame->y_bearing_rad);
}

static void tell_frame(const framing *f)
{
    const bys_frame *frame = &f->r->site->frame;
    char more[300] = "";
    if (f->kind == PROJECTED)
        bys_format(more, sizeof more,
                   "; easting %.2f m, northing %.2f m of %.80s, whose north is %.4f deg %s of true "
                   "north there, and 1000 m on the ground are %.3f m of it",
                   frame->easting_m, frame->northing_m, frame->crs,
                   fabs(frame->convergence_rad) / degree,
                   frame->convergence_rad < 0 ? "west" : "east", 1000.0 * frame->scale);
    bys_messages_add(f->r->messages, BYS_NOTE, BYS_M_frame_lies, f->node->place,
                     "x 0 m, y 0 m is lat %.7f deg, lon %.7f deg on %.60s; y points %.4f deg from "
                     "true north%s", frame->lat_deg, frame->lon_deg, frame->datum,
                     frame->y_bearing_rad / degree, more);
    const bys_xml_node *lease = bys_node_next(f->r->root, NULL, "lease");
    if (f->apart > 0.005)
        bys_messages_add(f->r->messages, BYS_WARNING, BYS_M_datum_differs,
                         bys_node_place(lease, "datum"),
                         "the lease is on %.60s, the frame on %.60s: the same latitude and "
                         "longitude lie %.2f m apart there; the corners were taken to the frame's "
                         "datum", bys_node_text(lease, "datum"), frame->datum, f->apart);
}

static void place_all(framing *f, bys_xml_node *root)
{
    for (bys_xml_node *node = root; node; node = node->order) {
        if (!node->rule || !bys_schema_attr(node->rule, "lat"))
            continue;
        if (check_way(f, node) && f->open && is_placed(node) &&
            (f->kind != LOCAL || bys_node_has(node, "lat")))
            move_node(f, node);
    }
}

void bys_bind_frame(bys_reading *r, bys_xml_node *root)
{
    framing f = {.r = r, .node = bys_node_next(r->root, NULL, "frame")};
    bys_frame *frame = &r->site->frame;
    *frame = (bys_frame){.kind = "local", .north = "grid", .datum = "", .crs = "", .lat_deg = NAN,
                         .lon_deg = NAN, .wgs84_lat_deg = NAN, .wgs84_lon_deg = NAN,
                         .y_bearing_rad = NAN, .easting_m = NAN, .northing_m = NAN,
                         .convergence_rad = NAN, .scale = NAN};
    double lat, lon;
    if (f.node) {
        static const char *const kinds[] = {"local", "projected", "latlon"};
        f.kind = bys_node_choice(f.node, "kind", LOCAL);
        frame->kind = kinds[f.kind];
        const int north = bys_node_choice(f.node, "north", f.kind == LATLON);
        frame->north = north == 1 ? "true" : "grid";
        const bool wanted = f.kind != LOCAL || has(&f, "origin-lat");
        f.broken = !check_frame(&f);
        f.open = !f.broken && wanted && open_frame(&f);
        f.broken = f.broken || (wanted && !f.open);
        if (f.open && find_origin(&f, &lat, &lon) && check_area(&f, lat, lon))
            fill_frame(&f, lat, lon);
    }
    place_all(&f, root);
    if (frame->placed)
        tell_frame(&f);
    if (frame->placed)
        r->geo = f.geo;
    else
        bys_georef_free(f.geo);
}
