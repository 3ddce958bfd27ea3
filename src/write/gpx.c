// SPDX-License-Identifier: GPL-3.0-or-later
// GPX 1.1 for a chart plotter: one waypoint a place.
//
// NOTES     1. Latitude and longitude on WGS 84 with 8 decimals (1 mm).
//           2. No <ele>: it would be height above mean sea level, and depths here are below chart
//              datum. They stand in <desc>.
//           3. No <time>: two runs write the same bytes.
// SOURCE    GPX 1.1 schema, www.topografix.com/GPX/1/1 [memory]; order of the elements in <wpt>.
#include "write/marks.h"
#include "write/xml_out.h"

#include <byssus/write.h>

static void add_waypoint(bys_xml_out *xml, const bys_design *design, const bys_mark *mark)
{
    static const char *const symbols[] = {"Navaid, White", "Anchor", "Navaid, Red"};
    bys_text words = {0};
    bys_mark_words(&words, design, mark);
    bys_xml_open(xml, "wpt");
    bys_xml_attribute_fixed(xml, "lat", mark->lat_deg, 8);
    bys_xml_attribute_fixed(xml, "lon", mark->lon_deg, 8);
    bys_xml_leaf(xml, "name", mark->name);
    bys_xml_leaf(xml, "desc", words.data ? words.data : "");
    bys_xml_leaf(xml, "sym", symbols[mark->kind]);
    bys_xml_leaf(xml, "type", bys_mark_kind_name(mark->kind));
    bys_xml_close(xml);
    bys_text_free(&words);
}

void bys_write_gpx(bys_text *out, const bys_design *design)
{
    bys_marks marks;
    if (!bys_marks_make(&marks, design)) {
        out->failed = true;
        return;
    }
    bys_xml_out *xml = bys_xml_out_new(out, "gpx", "http://www.topografix.com/GPX/1/1");
    if (xml) {
        bys_xml_attribute(xml, "version", "1.1");
        bys_xml_attribute(xml, "creator", "byssus " BYS_VERSION);
        bys_xml_open(xml, "metadata");
        bys_xml_leaf(xml, "name", design->site);
        bys_xml_leaf(xml, "desc", design->notice);
        bys_xml_close(xml);
        for (int i = 0; i < marks.count; i++)
            add_waypoint(xml, design, &marks.items[i]);
        bys_xml_out_end(xml);
    }
    bys_marks_free(&marks);
}
