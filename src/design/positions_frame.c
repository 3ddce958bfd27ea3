// SPDX-License-Identifier: GPL-3.0-or-later
// Positions from the frame in which they were written into the site's plane.
//
// GIVEN     x, y in the site's frame (m): its plane, or easting and northing where it is projected;
//           or latitude and longitude (deg) on WGS 84 or a named datum
// RETURNED  x, y (m) in the site's plane.
// NOTES     A shift between datums is PROJ's; without a named datum the positions are on WGS 84 and
//           the shift is that of the site's origin.
// SOURCE    see src/site/frame.c and src/site/georef.h
#include "base/codes.h"
#include "design/aslaid.h"
#include "site/georef.h"
#include "site/site.h"

#include <math.h>
#include <string.h>

static void say(bys_aslaid_work *work, int code, bys_place place, const char *text)
{
    bys_messages_add(work->messages, BYS_FAULT, code, place, "%s", text);
}

static bool needs_datum(const bys_aslaid_work *work)
{
    return *work->positions.datum && isfinite(work->positions.items[0].lat);
}

// All rows have the same pair of columns. False: said, and nothing can be placed.
static bool check_pair(bys_aslaid_work *work)
{
    const bys_frame *frame = &work->site->frame;
    const bys_position *first = &work->positions.items[0];
    const bool earth = isfinite(first->lat);
    if (earth && !frame->placed)
        say(work, BYS_M_position_column, first->place,
            "positions are latitude and longitude, but the site has no place on the Earth; give "
            "its <frame> an origin and a datum, or use x and y");
    else if (!earth && !strcmp(frame->kind, "latlon"))
        say(work, BYS_M_position_column, first->place,
            "positions are x and y, but the frame of the site is latlon; use lat and lon");
    else if (!earth && *work->positions.datum)
        say(work, BYS_M_position_column, work->positions.datum_place,
            "a datum is named, but positions are x and y in the frame of the site");
    else
        return true;
    return false;
}

static bool open_frame(bys_aslaid_work *work, bys_georef *geo)
{
    const bys_frame *frame = &work->site->frame;
    const bys_geo_rc rc =
        frame->epsg ? bys_georef_projected(geo, frame->epsg) : bys_georef_datum(geo, frame->datum);
    if (rc != BYS_GEO_OK)
        say(work, BYS_M_position_column, work->positions.items[0].place,
            "the frame of the site cannot be opened again");
    else
        bys_georef_origin(geo, frame->lat_deg, frame->lon_deg, frame->y_bearing_rad);
    return rc == BYS_GEO_OK;
}

static bool place_datum(bys_aslaid_work *work, bys_georef *geo, bys_position *p)
{
    double lat = p->lat, lon = p->lon, apart = 0.0;
    const bys_geo_rc rc = bys_georef_from_datum(geo, work->positions.datum, &lat, &lon, &apart);
    if (rc == BYS_GEO_OK) {
        bys_georef_place(geo, lat, lon, &p->x, &p->y);
        return true;
    }
    bys_messages_add(work->messages, BYS_FAULT, BYS_M_position_column, work->positions.datum_place,
                     rc == BYS_GEO_NO_DATUM
                         ? "the EPSG dataset has no datum \"%.60s\""
                         : "PROJ knows no way from the datum \"%.60s\" to that of the site",
                     work->positions.datum);
    return false;
}

static bool place_projected(bys_aslaid_work *work, bys_georef *geo, bys_position *p)
{
    double lat, lon;
    if (bys_georef_unproject(geo, p->x, p->y, &lat, &lon) && bys_georef_in_area(geo, lat, lon)) {
        bys_georef_place(geo, lat, lon, &p->x, &p->y);
        return true;
    }
    bys_messages_add(work->messages, BYS_FAULT, BYS_M_position_row, p->place,
                     "position \"%.60s\" lies outside the area of %.80s; x is the easting, y the "
                     "northing", p->name, bys_georef_crs_name(geo));
    return true; // look on: every row is told
}

void bys_positions_place(bys_aslaid_work *work)
{
    const bys_frame *frame = &work->site->frame;
    const bool projected = !strcmp(frame->kind, "projected");
    if (!check_pair(work))
        return;
    const bool earth = isfinite(work->positions.items[0].lat);
    const bool wanted = needs_datum(work) || (projected && !earth);
    bys_georef *geo = wanted ? bys_georef_new() : NULL;
    work->failed = work->failed || (wanted && !geo);
    bool going = !wanted || (geo && open_frame(work, geo));
    for (int i = 0; going && i < work->positions.count; i++) {
        bys_position *p = &work->positions.items[i];
        if (needs_datum(work))
            going = place_datum(work, geo, p);
        else if (earth)
            bys_frame_from_wgs84(&p->x, &p->y, frame, p->lat, p->lon);
        else if (projected)
            going = place_projected(work, geo, p);
    }
    bys_georef_free(geo);
}
