// SPDX-License-Identifier: GPL-3.0-or-later
// GeoJSON: places as points, lines, the lease as a polygon.
//
// NOTES     1. Longitude, latitude on WGS 84, as RFC 7946 section 4 asks; 8 decimals.
//           2. The outer ring runs counterclockwise (section 3.1.6).
//           3. x_m and y_m are in the site's plane, to the millimetre.
// SOURCE    RFC 7946 [memory].
#include "write/marks.h"
#include "write/utf8.h"

#include <byssus/write.h>

#include <jansson.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static double rounded(double value, double per_unit)
{
    return round(value * per_unit) / per_unit;
}

/// Null for what is not known.
static json_t *number(double value)
{
    return isfinite(value) ? json_real(value) : json_null();
}

static json_t *text(const char *string)
{
    bys_text clean = {0};
    for (const char *p = string; *p;) {
        const size_t n = bys_utf8_length(p);
        if (n)
            bys_text_add_bytes(&clean, p, n);
        else
            bys_text_add(&clean, "\xEF\xBF\xBD");
        p += n ? n : 1;
    }
    json_t *out = json_string(clean.data ? clean.data : "");
    bys_text_free(&clean);
    return out;
}

static json_t *position(const bys_design *design, double x, double y)
{
    double lat, lon;
    bys_frame_wgs84(&lat, &lon, &design->frame, x, y);
    json_t *out = json_array();
    json_array_append_new(out, json_real(rounded(lon, 1e8)));
    json_array_append_new(out, json_real(rounded(lat, 1e8)));
    return out;
}

/// A feature with its geometry; the properties stay open in *properties.
static json_t *feature(const char *type, json_t *coordinates, json_t **properties)
{
    json_t *out = json_object(), *geometry = json_object();
    *properties = json_object();
    json_object_set_new(geometry, "type", json_string(type));
    json_object_set_new(geometry, "coordinates", coordinates);
    json_object_set_new(out, "type", json_string("Feature"));
    json_object_set_new(out, "geometry", geometry);
    json_object_set_new(out, "properties", *properties);
    return out;
}

static void put_anchor(json_t *properties, const bys_design *design, int index)
{
    const bys_anchor_result *a = &design->anchors[index];
    json_t *legs = json_array();
    for (int i = 0; i < a->leg_count; i++)
        json_array_append_new(legs, text(design->legs[a->legs[i]].id));
    json_object_set_new(properties, "anchor_kind", text(a->kind));
    json_object_set_new(properties, "part", text(a->part));
    json_object_set_new(properties, "mass_kg", number(a->mass_kg));
    json_object_set_new(properties, "legs", legs);
    json_object_set_new(properties, "utilisation", number(a->utilisation));
    json_object_set_new(properties, "verdict", json_string(bys_verdict_name(a->verdict)));
}

static json_t *mark_feature(const bys_design *design, const bys_mark *mark)
{
    json_t *properties;
    json_t *out = feature("Point", position(design, mark->x_m, mark->y_m), &properties);
    json_object_set_new(properties, "name", json_string(mark->name));
    json_object_set_new(properties, "kind", json_string(bys_mark_kind_name(mark->kind)));
    json_object_set_new(properties, "id", text(mark->id));
    json_object_set_new(properties, "x_m", json_real(rounded(mark->x_m, 1e3)));
    json_object_set_new(properties, "y_m", json_real(rounded(mark->y_m, 1e3)));
    if (mark->kind == BYS_MARK_CORNER)
        return out;
    json_object_set_new(properties, "depth_m", number(rounded(mark->depth_m, 1e3)));
    put_anchor(properties, design, mark->index);
    return out;
}

static json_t *line_feature(const bys_design *design, const bys_plan_line *line)
{
    json_t *properties, *points = json_array();
    for (int i = 0; i < line->count; i++)
        json_array_append_new(points, position(design, line->xyz[3 * i], line->xyz[3 * i + 1]));
    json_t *out = feature("LineString", points, &properties);
    json_object_set_new(properties, "name", text(line->id));
    json_object_set_new(properties, "kind", text(line->kind));
    json_object_set_new(properties, "utilisation", number(line->utilisation));
    json_object_set_new(properties, "verdict", json_string(bys_verdict_name(line->verdict)));
    return out;
}

static json_t *lease_feature(const bys_design *design)
{
    const double *x = design->lease_x, *y = design->lease_y;
    const int n = design->lease_count;
    double twice_area = 0.0;
    for (int i = 0; i < n; i++)
        twice_area += x[i] * y[(i + 1) % n] - x[(i + 1) % n] * y[i];
    json_t *properties, *rings = json_array(), *ring = json_array();
    for (int i = 0; i <= n; i++) {
        const int k = twice_area > 0.0 ? i % n : (n - i) % n;
        json_array_append_new(ring, position(design, x[k], y[k]));
    }
    json_array_append_new(rings, ring);
    json_t *out = feature("Polygon", rings, &properties);
    json_object_set_new(properties, "name", text(design->lease_id));
    json_object_set_new(properties, "kind", json_string("lease"));
    json_object_set_new(properties, "margin_m", number(design->lease_margin_m));
    return out;
}

static json_t *collection(const bys_design *design, const bys_marks *marks)
{
    json_t *out = json_object(), *features = json_array();
    json_object_set_new(out, "type", json_string("FeatureCollection"));
    json_object_set_new(out, "name", text(design->site));
    json_object_set_new(out, "notice", text(design->notice));
    json_object_set_new(out, "features", features);
    if (design->lease_count >= 3)
        json_array_append_new(features, lease_feature(design));
    for (int i = 0; i < marks->count; i++)
        json_array_append_new(features, mark_feature(design, &marks->items[i]));
    for (int i = 0; i < design->plan_count; i++)
        if (design->plan[i].count >= 2)
            json_array_append_new(features, line_feature(design, &design->plan[i]));
    return out;
}

void bys_write_geojson(bys_text *out, const bys_design *design)
{
    bys_marks marks;
    if (!bys_marks_make(&marks, design)) {
        out->failed = true;
        return;
    }
    json_t *all = collection(design, &marks);
    char *dump = json_dumps(all, JSON_INDENT(1) | JSON_PRESERVE_ORDER | JSON_REAL_PRECISION(12));
    if (dump) {
        bys_text_add(out, dump);
        bys_text_add(out, "\n");
    } else {
        out->failed = true;
    }
    free(dump);
    json_decref(all);
    bys_marks_free(&marks);
}
