// SPDX-License-Identifier: GPL-3.0-or-later
// PROJ behind a small face. The network is off and no transformation is made up: where PROJ knows
// only a guess between two datums, the caller is told so.
//
// GIVEN     EPSG code or name of a datum; easting, northing (m); latitude, longitude (deg)
// RETURNED  the reverse of each; convergence (rad), scale; ground metres about an origin.
// NOTES     1. Convergence and scale come from the projected images of two points 100 m to the true
//              north and south of the place (central difference: error below 1e-9).
//           2. The plane about the origin: see frame.c; here on the datum's own ellipsoid.
// SOURCE    PROJ 9.1 and the EPSG dataset that comes with it.
#include "site/georef.h"

#include <geodesic.h>
#include <math.h>
#include <proj.h>
#include <stdlib.h>
#include <string.h>

static const double radian = 57.295779513082320877;
static const double wgs84_axis = 6378137.0, wgs84_inverse_flattening = 298.257223563;

struct bys_georef {
    PJ_CONTEXT *context;
    PJ *datum;     // geographic frame
    PJ *projected; // NULL
    PJ *to_latlon; // easting, northing -> longitude, latitude
    struct geod_geodesic ellipsoid;
    double lat0, lon0, y_bearing;
};

// PROJ tells its log; the library prints nothing.
static void be_silent(void *user, int level, const char *text)
{
    (void)user;
    (void)level;
    (void)text;
}

bys_georef *bys_georef_new(void)
{
    bys_georef *geo = calloc(1, sizeof *geo);
    if (!geo || !(geo->context = proj_context_create())) {
        free(geo);
        return NULL;
    }
    proj_log_func(geo->context, NULL, be_silent);
    proj_context_set_enable_network(geo->context, 0);
    geod_init(&geo->ellipsoid, wgs84_axis, 1.0 / wgs84_inverse_flattening);
    return geo;
}

void bys_georef_free(bys_georef *geo)
{
    if (!geo)
        return;
    proj_destroy(geo->to_latlon);
    proj_destroy(geo->projected);
    proj_destroy(geo->datum);
    proj_context_destroy(geo->context);
    free(geo);
}

static void take_ellipsoid(bys_georef *geo)
{
    PJ *ellipsoid = proj_get_ellipsoid(geo->context, geo->datum);
    double a = wgs84_axis, inverse = wgs84_inverse_flattening;
    if (ellipsoid)
        proj_ellipsoid_get_parameters(geo->context, ellipsoid, &a, NULL, NULL, &inverse);
    geod_init(&geo->ellipsoid, a, inverse > 0.0 ? 1.0 / inverse : 0.0);
    proj_destroy(ellipsoid);
}

/// From one frame to another with longitude or easting first; NULL if there is only a guess.
static PJ *way(PJ_CONTEXT *context, const PJ *from, const PJ *to)
{
    static const char *const options[] = {"ALLOW_BALLPARK=NO", NULL};
    PJ *raw = proj_create_crs_to_crs_from_pj(context, from, to, NULL, options);
    PJ *out = raw ? proj_normalize_for_visualization(context, raw) : NULL;
    proj_destroy(raw);
    return out;
}

bys_geo_rc bys_georef_projected(bys_georef *geo, int epsg)
{
    char code[12];
    int n = 0;
    for (int rest = epsg; n == 0 || rest > 0; rest /= 10)
        code[sizeof code - 2 - (size_t)n++] = (char)('0' + rest % 10);
    code[sizeof code - 1] = '\0';
    geo->projected = proj_create_from_database(geo->context, "EPSG", code + sizeof code - 1 - n,
                                               PJ_CATEGORY_CRS, 0, NULL);
    if (!geo->projected)
        return BYS_GEO_NO_CODE;
    if (proj_get_type(geo->projected) != PJ_TYPE_PROJECTED_CRS)
        return BYS_GEO_NOT_PROJECTED;
    geo->datum = proj_crs_get_geodetic_crs(geo->context, geo->projected);
    if (!geo->datum)
        return BYS_GEO_NOT_PROJECTED;
    take_ellipsoid(geo);
    geo->to_latlon = way(geo->context, geo->projected, geo->datum);
    return geo->to_latlon ? BYS_GEO_OK : BYS_GEO_NO_WAY;
}

/// Geographic frame by name or code; NULL if there is none.
static PJ *find_datum(PJ_CONTEXT *context, const char *name)
{
    static const PJ_TYPE type = PJ_TYPE_GEOGRAPHIC_2D_CRS;
    if (strncmp(name, "EPSG:", 5) == 0)
        name += 5;
    if (*name && strspn(name, "0123456789") == strlen(name)) {
        PJ *out = proj_create_from_database(context, "EPSG", name, PJ_CATEGORY_CRS, 0, NULL);
        if (out && proj_get_type(out) == type)
            return out;
        proj_destroy(out);
        return NULL;
    }
    PJ_OBJ_LIST *list = proj_create_from_name(context, NULL, name, &type, 1, 0, 2, NULL);
    PJ *out = list && proj_list_get_count(list) > 0 ? proj_list_get(context, list, 0) : NULL;
    proj_list_destroy(list);
    return out;
}

bys_geo_rc bys_georef_datum(bys_georef *geo, const char *name)
{
    geo->datum = find_datum(geo->context, name);
    if (!geo->datum)
        return BYS_GEO_NO_DATUM;
    take_ellipsoid(geo);
    return BYS_GEO_OK;
}

static const char *name_of(const PJ *object)
{
    const char *name = object ? proj_get_name(object) : NULL;
    return name ? name : "";
}

const char *bys_georef_datum_name(const bys_georef *geo)
{
    return name_of(geo->datum);
}

const char *bys_georef_crs_name(const bys_georef *geo)
{
    return name_of(geo->projected);
}

static bool go(PJ *way, PJ_DIRECTION direction, double a, double b, double *out_a, double *out_b)
{
    if (!way)
        return false;
    const PJ_COORD out = proj_trans(way, direction, proj_coord(a, b, 0, 0));
    proj_errno_reset(way);
    *out_a = out.xy.x;
    *out_b = out.xy.y;
    return isfinite(out.xy.x) && isfinite(out.xy.y);
}

bool bys_georef_unproject(bys_georef *geo, double easting, double northing, double *lat,
                          double *lon)
{
    return go(geo->to_latlon, PJ_FWD, easting, northing, lon, lat);
}

bool bys_georef_project(bys_georef *geo, double lat, double lon, double *easting,
                        double *northing)
{
    return go(geo->to_latlon, PJ_INV, lon, lat, easting, northing);
}

bool bys_georef_in_area(const bys_georef *geo, double lat, double lon)
{
    double west, south, east, north;
    const PJ *frame = geo->projected ? geo->projected : geo->datum;
    if (!frame || !proj_get_area_of_use(geo->context, frame, &west, &south, &east, &north, NULL) ||
        west < -999.0)
        return true;
    const double turned = remainder(lon, 360.0);
    const bool between = west <= east ? turned >= west && turned <= east
                                      : turned >= west || turned <= east;
    return lat >= south && lat <= north && between;
}

bool bys_georef_convergence(bys_georef *geo, double lat, double lon, double *convergence,
                            double *scale)
{
    double at[2][2], d[2];
    for (int i = 0; i < 2; i++) {
        double lat2, lon2;
        geod_direct(&geo->ellipsoid, lat, lon, i ? 0.0 : 180.0, 100.0, &lat2, &lon2, NULL);
        if (!bys_georef_project(geo, lat2, lon2, &at[i][0], &at[i][1]))
            return false;
    }
    d[0] = at[1][0] - at[0][0];
    d[1] = at[1][1] - at[0][1];
    *convergence = -atan2(d[0], d[1]);
    *scale = hypot(d[0], d[1]) / 200.0;
    return true;
}

void bys_georef_wgs84(bys_georef *geo, double *lat, double *lon, bool *known)
{
    PJ *world = proj_create_from_database(geo->context, "EPSG", "4326", PJ_CATEGORY_CRS, 0, NULL);
    PJ *to = world ? way(geo->context, geo->datum, world) : NULL;
    double lat2 = *lat, lon2 = *lon;
    *known = go(to, PJ_FWD, *lon, *lat, &lon2, &lat2);
    if (*known) {
        *lat = lat2;
        *lon = lon2;
    }
    proj_destroy(to);
    proj_destroy(world);
}

bys_geo_rc bys_georef_from_datum(bys_georef *geo, const char *name, double *lat, double *lon,
                                 double *apart)
{
    *apart = 0.0;
    PJ *other = find_datum(geo->context, name);
    if (!other)
        return BYS_GEO_NO_DATUM;
    bys_geo_rc rc = BYS_GEO_OK;
    if (!proj_is_equivalent_to(other, geo->datum, PJ_COMP_EQUIVALENT_EXCEPT_AXIS_ORDER_GEOGCRS)) {
        PJ *to = way(geo->context, other, geo->datum);
        double lat2, lon2;
        if (go(to, PJ_FWD, *lon, *lat, &lon2, &lat2)) {
            *apart = bys_georef_distance(geo, *lat, *lon, lat2, lon2);
            *lat = lat2;
            *lon = lon2;
        } else {
            rc = BYS_GEO_NO_WAY;
        }
        proj_destroy(to);
    }
    proj_destroy(other);
    return rc;
}

void bys_georef_origin(bys_georef *geo, double lat, double lon, double y_bearing)
{
    geo->lat0 = lat;
    geo->lon0 = lon;
    geo->y_bearing = y_bearing;
}

void bys_georef_place(const bys_georef *geo, double lat, double lon, double *x, double *y)
{
    double distance, azimuth;
    geod_inverse(&geo->ellipsoid, geo->lat0, geo->lon0, lat, lon, &distance, &azimuth, NULL);
    const double turned = azimuth / radian - geo->y_bearing;
    *x = distance * sin(turned);
    *y = distance * cos(turned);
}

void bys_georef_latlon(const bys_georef *geo, double x, double y, double *lat, double *lon)
{
    const double azimuth = (atan2(x, y) + geo->y_bearing) * radian;
    geod_direct(&geo->ellipsoid, geo->lat0, geo->lon0, azimuth, hypot(x, y), lat, lon, NULL);
}

double bys_georef_distance(const bys_georef *geo, double lat1, double lon1, double lat2,
                           double lon2)
{
    double distance;
    geod_inverse(&geo->ellipsoid, lat1, lon1, lat2, lon2, &distance, NULL, NULL);
    return distance;
}
