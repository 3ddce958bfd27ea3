// SPDX-License-Identifier: GPL-3.0-or-later
// KML 2.2: places, lines and the lease, a folder each.
//
// NOTES     Longitude, latitude on WGS 84 with 8 decimals; everything is clamped to the ground (the
//           sea), heights are left out.
// SOURCE    OGC 07-147r2 KML 2.2 [memory]; colours are aabbggrr.
#include "write/marks.h"
#include "write/xml_out.h"

#include <byssus/write.h>

#include <string.h>

static void add_lonlat(bys_text *out, const bys_design *design, double x, double y)
{
    double lat, lon;
    bys_frame_wgs84(&lat, &lon, &design->frame, x, y);
    if (out->length)
        bys_text_add(out, " ");
    bys_text_add_fixed(out, lon, 8);
    bys_text_add(out, ",");
    bys_text_add_fixed(out, lat, 8);
    bys_text_add(out, ",0");
}

static void add_coordinates(bys_xml_out *xml, const bys_text *text)
{
    bys_xml_leaf(xml, "coordinates", text->data ? text->data : "");
}

static void add_style(bys_xml_out *xml, const char *id, const char *line, const char *width,
                      const char *fill)
{
    bys_xml_open(xml, "Style");
    bys_xml_attribute(xml, "id", id);
    bys_xml_open(xml, "LineStyle");
    bys_xml_leaf(xml, "color", line);
    bys_xml_leaf(xml, "width", width);
    bys_xml_close(xml);
    if (fill) {
        bys_xml_open(xml, "PolyStyle");
        bys_xml_leaf(xml, "color", fill);
        bys_xml_close(xml);
    }
    bys_xml_close(xml);
}

static void open_folder(bys_xml_out *xml, const char *name)
{
    bys_xml_open(xml, "Folder");
    bys_xml_leaf(xml, "name", name);
}

static void open_placemark(bys_xml_out *xml, const char *name, const char *words, const char *style)
{
    bys_xml_open(xml, "Placemark");
    bys_xml_leaf(xml, "name", name);
    if (words)
        bys_xml_leaf(xml, "description", words);
    if (style)
        bys_xml_leaf(xml, "styleUrl", style);
}

static void add_places(bys_xml_out *xml, const bys_design *design, const bys_marks *marks,
                       bys_mark_kind kind, const char *name)
{
    open_folder(xml, name);
    for (int i = 0; i < marks->count; i++) {
        const bys_mark *mark = &marks->items[i];
        if (mark->kind != kind)
            continue;
        bys_text words = {0}, at = {0};
        bys_mark_words(&words, design, mark);
        add_lonlat(&at, design, mark->x_m, mark->y_m);
        open_placemark(xml, mark->name, words.data ? words.data : "", NULL);
        bys_xml_open(xml, "Point");
        add_coordinates(xml, &at);
        bys_xml_close(xml);
        bys_xml_close(xml);
        bys_text_free(&words);
        bys_text_free(&at);
    }
    bys_xml_close(xml);
}

static void add_lease(bys_xml_out *xml, const bys_design *design)
{
    if (design->lease_count < 3)
        return;
    bys_text ring = {0};
    for (int i = 0; i <= design->lease_count; i++) {
        const int k = i % design->lease_count;
        add_lonlat(&ring, design, design->lease_x[k], design->lease_y[k]);
    }
    bys_text name = {0};
    bys_text_addf(&name, "lease %s", design->lease_id);
    open_placemark(xml, name.data ? name.data : "lease", NULL, "#lease");
    bys_xml_open(xml, "Polygon");
    bys_xml_open(xml, "outerBoundaryIs");
    bys_xml_open(xml, "LinearRing");
    add_coordinates(xml, &ring);
    for (int i = 0; i < 4; i++)
        bys_xml_close(xml);
    bys_text_free(&name);
    bys_text_free(&ring);
}

static void add_lines(bys_xml_out *xml, const bys_design *design)
{
    open_folder(xml, "lines");
    for (int i = 0; i < design->plan_count; i++) {
        const bys_plan_line *line = &design->plan[i];
        bys_text at = {0};
        for (int p = 0; p < line->count; p++)
            add_lonlat(&at, design, line->xyz[3 * p], line->xyz[3 * p + 1]);
        open_placemark(xml, line->id, line->kind,
                       strcmp(line->kind, "leg") == 0 ? "#leg" : "#line");
        bys_xml_open(xml, "LineString");
        bys_xml_leaf(xml, "tessellate", "1");
        add_coordinates(xml, &at);
        bys_xml_close(xml);
        bys_xml_close(xml);
        bys_text_free(&at);
    }
    bys_xml_close(xml);
}

void bys_write_kml(bys_text *out, const bys_design *design)
{
    bys_marks marks;
    if (!bys_marks_make(&marks, design)) {
        out->failed = true;
        return;
    }
    bys_xml_out *xml = bys_xml_out_new(out, "kml", "http://www.opengis.net/kml/2.2");
    if (xml) {
        bys_xml_open(xml, "Document");
        bys_xml_leaf(xml, "name", design->site);
        bys_xml_leaf(xml, "description", design->notice);
        add_style(xml, "lease", "ff666633", "2", "30b0a060");
        add_style(xml, "line", "ff6a6a10", "2", NULL);
        add_style(xml, "leg", "ffa65a30", "2", NULL);
        add_lease(xml, design);
        add_places(xml, design, &marks, BYS_MARK_ANCHOR, "anchors");
        add_places(xml, design, &marks, BYS_MARK_DROP, "drop points");
        add_places(xml, design, &marks, BYS_MARK_CORNER, "lease corners");
        add_lines(xml, design);
        bys_xml_close(xml);
        bys_xml_out_end(xml);
    }
    bys_marks_free(&marks);
}
