// SPDX-License-Identifier: GPL-3.0-or-later
// Reference frames of the Earth, by way of PROJ: named datums and projected frames by EPSG code.
// One object serves one reading; it is not shared by threads. Degrees and metres.
#ifndef BYS_SITE_GEOREF_H
#define BYS_SITE_GEOREF_H

#include <stdbool.h>

typedef struct bys_georef bys_georef;

typedef enum {
    BYS_GEO_OK = 0,
    BYS_GEO_NO_CODE,       ///< the code is not in the database
    BYS_GEO_NOT_PROJECTED, ///< it is, but is no frame of easting and northing
    BYS_GEO_NO_DATUM,      ///< no datum of that name
    BYS_GEO_NO_WAY         ///< PROJ knows no way between two datums, or is out of memory
} bys_geo_rc;

/// NULL when out of memory.
bys_georef *bys_georef_new(void);
void bys_georef_free(bys_georef *geo);

/// Chooses a projected frame, and with it its datum.
bys_geo_rc bys_georef_projected(bys_georef *geo, int epsg);
/// Chooses a datum by name or code: "GDA2020", "WGS 84", "EPSG:4167".
bys_geo_rc bys_georef_datum(bys_georef *geo, const char *name);
const char *bys_georef_datum_name(const bys_georef *geo);
const char *bys_georef_crs_name(const bys_georef *geo); ///< "" without a projected frame

/// Easting and northing (m) to latitude and longitude on the datum, and back. False: outside.
bool bys_georef_unproject(bys_georef *geo, double easting, double northing, double *lat,
                          double *lon);
bool bys_georef_project(bys_georef *geo, double lat, double lon, double *easting,
                        double *northing);
/// Inside the area that the datum (the projected frame, if there is one) was made for?
bool bys_georef_in_area(const bys_georef *geo, double lat, double lon);
/// Grid north clockwise from true north (rad) and grid metres per ground metre, at a place.
bool bys_georef_convergence(bys_georef *geo, double lat, double lon, double *convergence,
                            double *scale);
/// The same place on WGS 84; *known is false if PROJ knows no shift and the numbers are kept.
void bys_georef_wgs84(bys_georef *geo, double *lat, double *lon, bool *known);
/// A place on another datum, taken to the chosen one; *apart (m): how far the two places lie apart
/// that the same numbers mean, 0 if it is the same datum.
bys_geo_rc bys_georef_from_datum(bys_georef *geo, const char *name, double *lat, double *lon,
                                 double *apart);

/// Origin of the site's plane, and the bearing of its y axis (rad, clockwise from true north).
void bys_georef_origin(bys_georef *geo, double lat, double lon, double y_bearing);
/// Latitude and longitude on the datum to x and y in that plane (m), and back.
void bys_georef_place(const bys_georef *geo, double lat, double lon, double *x, double *y);
void bys_georef_latlon(const bys_georef *geo, double x, double y, double *lat, double *lon);
/// Distance (m) between two places on the datum.
double bys_georef_distance(const bys_georef *geo, double lat1, double lon1, double lat2,
                           double lon2);

#endif
