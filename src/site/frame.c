// SPDX-License-Identifier: GPL-3.0-or-later
// Ground metres about an origin, as latitude and longitude and back.
//
// GIVEN     frame    origin (deg, WGS 84), bearing of the y axis (rad, clockwise from true north)
//           x, y     place in the site's plane                                           m
// RETURNED  latitude, longitude (deg, WGS 84), or x, y.
// NOTES     1. x and y are distance and azimuth of the geodesic from the origin: an azimuthal
//              equidistant projection of the ellipsoid. Distances from the origin are true; others
//              are short or long by up to (r/R)^2/6 of themselves, 4e-9 at 1 km.
//           2. The origin was taken to WGS 84 when the site was read; near it a datum differs from
//              WGS 84 by a shift, to 2e-5 of the distance.
//           3. The ellipsoid is that of WGS 84. Heights are left out.
// SOURCE    geodesics: C. F. F. Karney, Algorithms for geodesics, J. Geod. 87 (2013) 43-55, in the
//           code of PROJ [memory]. Axes of the ellipsoid: 6378137 m, 1/298.257223563 [memory].
#include "site/georef.h"
#include <byssus/frame.h>

#include <geodesic.h>
#include <math.h>

static const double radian = 57.295779513082320877;

static struct geod_geodesic ellipsoid(void)
{
    struct geod_geodesic g;
    geod_init(&g, 6378137.0, 1.0 / 298.257223563);
    return g;
}

bool bys_frame_wgs84(double *lat_deg, double *lon_deg, const bys_frame *frame, double x, double y)
{
    *lat_deg = *lon_deg = NAN;
    if (!frame->placed)
        return false;
    const struct geod_geodesic g = ellipsoid();
    const double azimuth = (atan2(x, y) + frame->y_bearing_rad) * radian;
    geod_direct(&g, frame->wgs84_lat_deg, frame->wgs84_lon_deg, azimuth, hypot(x, y), lat_deg,
                lon_deg, NULL);
    return true;
}

bool bys_frame_from_wgs84(double *x, double *y, const bys_frame *frame, double lat_deg,
                          double lon_deg)
{
    *x = *y = NAN;
    if (!frame->placed)
        return false;
    const struct geod_geodesic g = ellipsoid();
    double distance, azimuth;
    geod_inverse(&g, frame->wgs84_lat_deg, frame->wgs84_lon_deg, lat_deg, lon_deg, &distance,
                 &azimuth, NULL);
    const double turned = azimuth / radian - frame->y_bearing_rad;
    *x = distance * sin(turned);
    *y = distance * cos(turned);
    return true;
}

bool bys_frame_grid(double *out, const double *xy, int n, const bys_frame *frame)
{
    bys_georef *geo = frame->placed && frame->epsg > 0 ? bys_georef_new() : NULL;
    const bool ok = geo && bys_georef_projected(geo, frame->epsg) == BYS_GEO_OK;
    if (ok)
        bys_georef_origin(geo, frame->lat_deg, frame->lon_deg, frame->y_bearing_rad);
    for (int i = 0; i < n; i++) {
        double lat, lon, at[2] = {NAN, NAN};
        if (ok) {
            bys_georef_latlon(geo, xy[2 * i], xy[2 * i + 1], &lat, &lon);
            if (!bys_georef_project(geo, lat, lon, &at[0], &at[1]))
                at[0] = at[1] = NAN;
        }
        out[2 * i] = at[0];
        out[2 * i + 1] = at[1];
    }
    bys_georef_free(geo);
    return ok;
}
