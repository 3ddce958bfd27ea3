// SPDX-License-Identifier: GPL-3.0-or-later
// byssus: where a site lies on the Earth. Positions in a site and in its results are ground metres
// in a plane that touches the ellipsoid at the origin: x and y of a point are its distance from the
// origin, measured along the ellipsoid, in the direction in which it is seen from there (azimuthal
// equidistant). y points to the site's north: true north, or the grid north that the frame states.
#ifndef BYSSUS_FRAME_H
#define BYSSUS_FRAME_H

#include <byssus/base.h>

#ifdef __cplusplus
extern "C" {
#endif

/// Plain struct; strings are never NULL in a frame that belongs to a site or a design.
typedef struct {
    const char *kind;  ///< "local", "projected" or "latlon": how the site file states positions
    const char *north; ///< "grid" or "true": the north from which directions count
    const char *datum; ///< geodetic datum of lat and lon, "" if none
    const char *crs;   ///< name of the projected frame, "" if none
    int epsg;          ///< its code; 0 if none
    bool placed;       ///< the place of the origin is known; else the numbers below are NAN
    double lat_deg, lon_deg;             ///< origin, on `datum`
    double wgs84_lat_deg, wgs84_lon_deg; ///< the same place on WGS 84, for plotters and maps
    double y_bearing_rad; ///< of the y axis, clockwise from true north at the origin
    double easting_m, northing_m; ///< origin in the projected frame; NAN if there is none
    double convergence_rad; ///< its grid north, clockwise from true north at the origin; NAN
    double scale;           ///< its metres per metre on the ground, at the origin; NAN
} bys_frame;

/// Latitude and longitude (degrees, WGS 84) of a place (m). False without an origin: both NAN.
bool bys_frame_wgs84(double *lat_deg, double *lon_deg, const bys_frame *frame, double x, double y);
/// The reverse: x and y (m) of a place on WGS 84.
bool bys_frame_from_wgs84(double *x, double *y, const bys_frame *frame, double lat_deg,
                          double lon_deg);
/// Easting and northing (m) of n places: pairs (x, y) in, pairs out; may work in place. Without a
/// projected frame all become NAN, and it returns false.
bool bys_frame_grid(double *out, const double *xy, int n, const bys_frame *frame);

#ifdef __cplusplus
}
#endif
#endif
