// SPDX-License-Identifier: GPL-3.0-or-later
// Rows of the format: the site, its water, bed, lease, weather, stages and rules.
#include "site/schema.h"

#define PROVENANCE                                                                                 \
    {"source", BYS_TEXT, BYS_MAY, BYS_ANY, "where the numbers come from"},                         \
    {"basis", BYS_CHOICE(BYS_BASES), BYS_MAY, BYS_ANY,                                             \
     "how well they are known: read in the source, from memory, stated by you, from a test, or "   \
     "assumed; assumed if not stated"}

static const bys_attr_rule site_attrs[] = {
    {"name", BYS_TEXT, BYS_NEED, BYS_ANY, "name of the site, for the report's head"},
    {"notice", BYS_TEXT, BYS_MAY, BYS_ANY,
     "a line that every result repeats, such as INVENTED DATA"},
};
static const bys_attr_rule frame_attrs[] = {
    {"kind", BYS_CHOICE("local|projected|latlon"), BYS_NEED, BYS_ANY,
     "local: metres, x to the east, y to the north, from a mark of your own; projected: easting "
     "and northing of the frame that epsg names; latlon: latitude and longitude"},
    {"north", BYS_CHOICE("grid|true"), BYS_MAY, BYS_ANY,
     "the north from which directions count; grid if not stated, true for latlon"},
    {"epsg", BYS_WHOLE, BYS_MAY, BYS_RANGE(1, 999999),
     "code of the projected frame, needed for projected"},
    {"datum", BYS_TEXT, BYS_MAY, BYS_ANY,
     "geodetic datum of lat and lon by name or code, such as GDA2020 or EPSG:4167"},
    {"origin-lat", BYS_IN(ANGLE), BYS_MAY, BYS_ANY,
     "latitude of the point x 0 m, y 0 m; gives a local frame its place on the Earth"},
    {"origin-lon", BYS_IN(ANGLE), BYS_MAY, BYS_ANY, "longitude of that point"},
    {"y-bearing", BYS_IN(ANGLE), BYS_MAY, BYS_DIRECTION,
     "direction of a local frame's y axis from true north, with an origin and north=\"grid\""},
};
static const bys_attr_rule water_attrs[] = {
    {"density", BYS_IN(DENSITY), BYS_NEED, BYS_RANGE(900, 1300), "density of the water"},
    {"gravity", BYS_IN(ACCELERATION), BYS_MAY, BYS_RANGE(9.7, 10.1),
     "for textbook problems; 9.80665 m/s2 if not stated"},
    {"air-density", BYS_IN(DENSITY), BYS_MAY, BYS_RANGE(1, 1.5),
     "density of the air; 1.226 kg/m3 if not stated"},
};
static const bys_attr_rule level_attrs[] = {
    {"name", BYS_TEXT, BYS_NEED, BYS_ANY, "name of the water level, such as LAT or HAT and surge"},
    {"height", BYS_IN(LENGTH), BYS_NEED, BYS_RANGE(-100, 100), "height above chart datum"},
    {"source", BYS_TEXT, BYS_MAY, BYS_ANY, "where the height comes from"},
};
static const bys_attr_rule plane_attrs[] = {
    {"depth", BYS_IN(LENGTH), BYS_NEED, BYS_RANGE(-1000, 12000),
     "depth below chart datum at the point x, y"},
    {"x", BYS_IN(LENGTH), BYS_MAY, BYS_ANY, "east of the origin; 0 m if not stated"},
    {"y", BYS_IN(LENGTH), BYS_MAY, BYS_ANY, "north of the origin; 0 m if not stated"},
    BYS_LAT_LON,
    {"slope", BYS_IN(ANGLE), BYS_MAY, BYS_RANGE(0, 0.7854), "steepest slope; 0 deg if not stated"},
    {"deepens-towards", BYS_IN(ANGLE), BYS_MAY, BYS_DIRECTION,
     "direction in which the bed deepens; needed with a slope"},
};
#define BED_DATA                                                                                   \
    {"values", BYS_CHOICE("depths|heights"), BYS_NEED, BYS_ANY,                                    \
     "whether its numbers count down (depths) or up (heights)"},                                   \
    {"datum", BYS_TEXT, BYS_NEED, BYS_ANY,                                                         \
     "vertical datum from which they count, such as chart datum or mean sea level"},               \
    {"zero", BYS_IN(LENGTH), BYS_NEED, BYS_RANGE(-100, 100),                                       \
     "height of that datum above the site's chart datum; 0 m if it is chart datum"}
static const bys_attr_rule soundings_attrs[] = {
    BED_DATA,
    {"href", BYS_TEXT, BYS_MAY, BYS_ANY,
     "CSV file below the site file's folder with the columns x [m],y [m],depth [m] (or height), or "
     "lat [deg],lon [deg],depth [m]; in place of <sounding> elements"},
    {"source", BYS_TEXT, BYS_MAY, BYS_ANY, "survey or chart"},
};
static const bys_attr_rule sounding_attrs[] = {
    {"x", BYS_IN(LENGTH), BYS_MAY, BYS_ANY, "east of the origin, or easting"},
    {"y", BYS_IN(LENGTH), BYS_MAY, BYS_ANY, "north of the origin, or northing"},
    BYS_LAT_LON,
    {"value", BYS_IN(LENGTH), BYS_NEED, BYS_RANGE(-12000, 12000), "depth or height there"},
};
static const bys_attr_rule bed_grid_attrs[] = {
    BED_DATA,
    {"href", BYS_TEXT, BYS_NEED, BYS_ANY,
     "ESRI ASCII grid below the site file's folder, in the coordinates of the frame: metres, or "
     "degrees in a latlon frame"},
    {"source", BYS_TEXT, BYS_MAY, BYS_ANY, "survey or chart"},
};
static const bys_attr_rule zone_attrs[] = {
    {"id", BYS_ID, BYS_NEED, BYS_ANY, "name of the zone"},
    {"name", BYS_TEXT, BYS_MAY, BYS_ANY, "free text"},
};
static const bys_attr_rule soil_attrs[] = {
    {"kind", BYS_CHOICE("sand|mud|clay|rock|gravel|silt|silty-sand|carbonate-sand|coral"), BYS_NEED,
      BYS_ANY, "kind of soil"},
    {"top", BYS_IN(LENGTH), BYS_MAY, BYS_RANGE(0, 1000),
     "top of the layer below the bed; 0 m if not stated"},
    {"thickness", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE, "needed for all layers but the lowest"},
    {"friction-angle", BYS_IN(ANGLE), BYS_MAY, BYS_RANGE(0.05, 0.9), "angle of internal friction"},
    {"undrained-strength", BYS_IN(PRESSURE), BYS_MAY, BYS_RANGE(0, 2e6),
     "undrained shear strength of clay or mud"},
    {"remoulded-strength", BYS_IN(PRESSURE), BYS_MAY, BYS_RANGE(0, 2e6),
     "the same after a first slip; a deadweight is then held to it"},
    {"unit-weight", BYS_IN(UNIT_WEIGHT), BYS_MAY, BYS_RANGE(500, 30000), "submerged unit weight"},
    {"measured", BYS_YES_NO, BYS_MAY, BYS_ANY, "yes: measured on the site; no if not stated"},
    PROVENANCE,
};
static const bys_attr_rule lease_attrs[] = {
    {"id", BYS_ID, BYS_MAY, BYS_ANY, "number of the lease"},
    {"margin", BYS_IN(LENGTH), BYS_MAY, BYS_NOT_NEGATIVE,
     "distance that everything keeps from the boundary; 0 m if not stated"},
    {"datum", BYS_TEXT, BYS_MAY, BYS_ANY,
     "geodetic datum of its corners' lat and lon if it is not the frame's"},
};
static const bys_attr_rule corner_attrs[] = {
    {"x", BYS_IN(LENGTH), BYS_MAY, BYS_ANY, "east of the origin, or easting"},
    {"y", BYS_IN(LENGTH), BYS_MAY, BYS_ANY, "north of the origin, or northing"},
    BYS_LAT_LON,
};
static const bys_attr_rule weather_attrs[] = {
    {"directions", BYS_WHOLE, BYS_MAY, BYS_RANGE(1, 360),
     "number of current directions around the compass; 16 if not stated"},
    {"first-direction", BYS_IN(ANGLE), BYS_MAY, BYS_DIRECTION,
     "direction towards which the first one runs; 0 deg if not stated"},
    {"wind-wave-turns", BYS_SEVERAL(ANGLE), BYS_MAY, BYS_DIRECTION,
     "turns of wind and waves against the current, as in \"0 deg, 90 deg, -90 deg\"; 0 deg if not "
     "stated"},
    {"wind-averaging", BYS_IN(TIME), BYS_MAY, BYS_RANGE(1, 3600),
     "time over which the wind that loads anything is a mean; 1 min if not stated"},
};
static const bys_attr_rule current_attrs[] = {
    {"return", BYS_IN(YEARS), BYS_NEED, BYS_POSITIVE, "return period"},
    {"speed", BYS_IN(SPEED), BYS_NEED, BYS_RANGE(0, 10), "speed"},
    {"at", BYS_CHOICE("surface|mean|depth"), BYS_NEED, BYS_ANY,
     "where that speed holds: at the surface, as the mean over the depth, or at the stated depth"},
    {"depth", BYS_IN(LENGTH), BYS_MAY, BYS_NOT_NEGATIVE,
     "depth below the surface, with at=\"depth\""},
    {"profile", BYS_CHOICE("power|log|table"), BYS_MAY, BYS_ANY,
     "form over the depth: power, logarithmic over a rough bed, or by its <layer> rows; power if "
     "not stated"},
    {"exponent", BYS_PLAIN, BYS_MAY, BYS_RANGE(0, 1),
     "exponent of the power profile; 1/7 if not stated"},
    {"roughness", BYS_IN(LENGTH), BYS_MAY, BYS_RANGE(1e-6, 2),
     "roughness length of the bed, with profile=\"log\""},
    {"bed", BYS_CHOICE("mud|silt-sand|sand|rippled-sand|gravel"), BYS_MAY, BYS_ANY,
     "kind of bed, for the published roughness length, with profile=\"log\""},
    {"level", BYS_REF("level"), BYS_MAY, BYS_ANY,
     "water level with which it comes, as flood, ebb or slack do; any level if not stated"},
    {"record", BYS_IN(YEARS), BYS_MAY, BYS_POSITIVE,
     "length of the record from which the speed was taken as measured; then factor and because are "
     "needed"},
    {"factor", BYS_PLAIN, BYS_MAY, BYS_RANGE(1, 10),
     "factor from the speed of the record to that of the return period"},
    {"shielding", BYS_CHOICE("none|block"), BYS_MAY, BYS_ANY,
     "block: lines and rafts shelter those behind them, by two published models, the weaker "
     "shelter of the two; none if not stated"},
    {"because", BYS_TEXT, BYS_MAY, BYS_ANY,
     "reason for the factor or the shielding; the report shows it"},
    {"towards", BYS_IN(ANGLE), BYS_MAY, BYS_DIRECTION,
     "direction towards which it runs; any direction if not stated"},
    {"sector", BYS_IN(ANGLE), BYS_MAY, BYS_RANGE(0, 3.1416),
     "half width around that direction in which it holds; needed with towards"},
    {"reverses", BYS_YES_NO, BYS_MAY, BYS_ANY,
     "yes: it holds for the reverse direction too; no if not stated"},
    PROVENANCE,
};
static const bys_attr_rule wind_attrs[] = {
    {"return", BYS_IN(YEARS), BYS_NEED, BYS_POSITIVE, "return period"},
    {"speed", BYS_IN(SPEED), BYS_NEED, BYS_RANGE(0, 100), "mean speed 10 m above the water"},
    {"averaging", BYS_IN(TIME), BYS_NEED, BYS_RANGE(1, 36000),
     "time over which that mean is taken"},
    {"law", BYS_CHOICE("dnv|iso"), BYS_MAY, BYS_ANY,
     "published law of height and averaging time: DNV-RP-C205 or ISO 19901-1; dnv if not stated"},
    {"from", BYS_IN(ANGLE), BYS_MAY, BYS_DIRECTION,
     "direction from which it blows; any direction if not stated"},
    PROVENANCE,
};
static const bys_attr_rule waves_attrs[] = {
    {"return", BYS_IN(YEARS), BYS_NEED, BYS_POSITIVE, "return period"},
    {"hs", BYS_IN(LENGTH), BYS_NEED, BYS_RANGE(0, 30), "significant wave height"},
    {"tp", BYS_IN(TIME), BYS_NEED, BYS_RANGE(0.5, 40), "peak period"},
    {"gamma", BYS_PLAIN, BYS_MAY, BYS_RANGE(1, 10),
     "peak factor of the spectrum; by formula if not stated"},
    {"spreading", BYS_PLAIN, BYS_MAY, BYS_RANGE(1, 50),
     "exponent n of cos^n spreading about their direction; long crests if not stated"},
    {"from", BYS_IN(ANGLE), BYS_MAY, BYS_DIRECTION,
     "direction from which they come; any direction if not stated"},
    PROVENANCE,
};
static const bys_attr_rule layer_attrs[] = {
    {"depth", BYS_IN(LENGTH), BYS_NEED, BYS_NOT_NEGATIVE, "depth below the surface"},
    {"speed", BYS_IN(SPEED), BYS_NEED, BYS_RANGE(0, 10), "speed there"},
};
static const bys_attr_rule residual_attrs[] = {
    {"speed", BYS_IN(SPEED), BYS_NEED, BYS_RANGE(0, 10), "speed at the surface"},
    {"towards", BYS_IN(ANGLE), BYS_MAY, BYS_DIRECTION,
     "direction towards which it runs; that of each current if not stated"},
    PROVENANCE,
};
static const bys_attr_rule wind_drift_attrs[] = {
    {"share", BYS_IN(FRACTION), BYS_NEED, BYS_RANGE(0, 0.1),
     "surface speed over the 1-hour wind at 10 m, usually 1.5 to 3 %"},
    {"depth", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE,
     "depth at which it ends; 50 m if not stated"},
    PROVENANCE,
};
static const bys_attr_rule grown_attrs[] = {
    {"laws", BYS_TEXT, BYS_MAY, BYS_ANY,
     "growth laws, a blank between: cem cem-751 spm84 young-verhagen jonswap spm84-deep wilson "
     "kahma-calkoen; the first five if not stated"},
    {"depth", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE,
     "mean depth along the fetch below chart datum; that of the site if not stated"},
    {"duration", BYS_IN(TIME), BYS_MAY, BYS_RANGE(600, 864000),
     "time for which the wind blows; long enough for the fetch if not stated"},
    {"rule", BYS_CHOICE("straight|saville|radials"), BYS_MAY, BYS_ANY,
     "how the fetch is taken from the shore: one straight line (CEM), Saville's mean, or the mean "
     "of nine radials (SPM 1984); straight if not stated"},
    {"limit", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE,
     "fetch where the shore leaves a gap; needed with <shore>"},
    {"spreading", BYS_PLAIN, BYS_MAY, BYS_RANGE(1, 50),
     "exponent n of cos^n spreading about their direction; long crests if not stated"},
    PROVENANCE,
};
static const bys_attr_rule fetch_attrs[] = {
    {"from", BYS_IN(ANGLE), BYS_NEED, BYS_DIRECTION, "direction from which the wind blows"},
    {"length", BYS_IN(LENGTH), BYS_NEED, BYS_POSITIVE, "open water to windward"},
    {"depth", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE,
     "mean depth along it below chart datum; that of grown-waves if not stated"},
};
static const bys_attr_rule passage_attrs[] = {
    {"height", BYS_IN(LENGTH), BYS_MAY, BYS_RANGE(0.01, 40),
     "height of the wave; ratio times hs if not stated"},
    {"ratio", BYS_PLAIN, BYS_MAY, BYS_RANGE(1, 3),
     "height over hs; 1.86 if not stated, the most probable highest of 1000 waves"},
    {"shortest", BYS_IN(TIME), BYS_MAY, BYS_RANGE(0.5, 40),
     "shortest period; 11.1 times the root of hs/g if not stated"},
    {"longest", BYS_IN(TIME), BYS_MAY, BYS_RANGE(0.5, 60),
     "longest period; 14.3 times the root of hs/g if not stated"},
    {"phases", BYS_WHOLE, BYS_MAY, BYS_RANGE(4, 96), "positions of the wave; 12 if not stated"},
    {"dynamic-factor", BYS_PLAIN, BYS_MAY, BYS_RANGE(1, 5),
     "on the tensions of the passage; without it, lines with a large wave part are not checked"},
    {"because", BYS_TEXT, BYS_MAY, BYS_ANY, "source of the dynamic factor; needed with it"},
    PROVENANCE,
};
static const bys_attr_rule case_attrs[] = {
    {"id", BYS_ID, BYS_NEED, BYS_ANY, "name of a case of your own"},
    {"because", BYS_TEXT, BYS_NEED, BYS_ANY, "reason; the report shows it"},
    {"level", BYS_REF("level"), BYS_NEED, BYS_ANY, "water level"},
    {"current", BYS_IN(SPEED), BYS_MAY, BYS_RANGE(0, 10), "speed of the current at the surface"},
    {"current-towards", BYS_IN(ANGLE), BYS_MAY, BYS_DIRECTION,
     "direction towards which it runs; needed with it"},
    {"wind", BYS_IN(SPEED), BYS_MAY, BYS_RANGE(0, 100), "10-min mean of the wind at 10 m"},
    {"wind-from", BYS_IN(ANGLE), BYS_MAY, BYS_DIRECTION,
     "direction from which it blows; needed with it"},
    {"hs", BYS_IN(LENGTH), BYS_MAY, BYS_RANGE(0, 30), "significant wave height"},
    {"tp", BYS_IN(TIME), BYS_MAY, BYS_RANGE(0.5, 40), "peak period; needed with hs"},
    {"waves-from", BYS_IN(ANGLE), BYS_MAY, BYS_DIRECTION,
     "direction from which they come; needed with hs"},
    {"demanded", BYS_YES_NO, BYS_MAY, BYS_ANY,
     "no: it is only reported; yes if not stated"},
};
static const bys_attr_rule drop_attrs[] = {
    {"case", BYS_TEXT, BYS_NEED, BYS_ANY,
     "environment or environment:stage as --list-cases prints it; * stands for anything"},
    {"because", BYS_TEXT, BYS_NEED, BYS_ANY, "reason; the report shows it"},
};
static const bys_attr_rule stages_attrs[] = {
    {"between", BYS_CHOICE("steps|linear"), BYS_MAY, BYS_ANY,
     "gear in the months between dated stages, for byssus calendar: linear if its mass, size and "
     "drag coefficient change evenly; steps, or not stated, if only the dates are to be looked at"},
};
static const bys_attr_rule stage_attrs[] = {
    {"id", BYS_ID, BYS_NEED, BYS_ANY, "name of the crop stage; bare and harvest always exist"},
    {"name", BYS_TEXT, BYS_MAY, BYS_ANY, "free text"},
    {"month", BYS_PLAIN, BYS_MAY, BYS_RANGE(0, 240), "months after stocking"},
    {"bedding-in", BYS_IN(FRACTION), BYS_MAY, BYS_RANGE(0, 1),
     "share of each rope's bedding-in stretch that has happened; if not stated, 0 for bare and 1 "
     "for the others, and where a rope beds in each is checked once more the other way"},
};
static const bys_attr_rule growth_attrs[] = {
    {"on", BYS_CHOICE("all|ropes|chains|floats"), BYS_MAY, BYS_ANY,
     "what it grows on; all if not stated"},
    {"part", BYS_REF("rope|chain|float"), BYS_MAY, BYS_ANY, "only this part"},
    {"thickness", BYS_IN(LENGTH), BYS_NEED, BYS_RANGE(0.0001, 0.5), "of the layer"},
    {"density", BYS_IN(DENSITY), BYS_MAY, BYS_RANGE(1000, 2000),
     "of the layer; 1325 kg/m3 if not stated"},
    {"basis", BYS_CHOICE(BYS_BASES), BYS_MAY, BYS_ANY, "how well these numbers are known"},
    {"source", BYS_TEXT, BYS_MAY, BYS_ANY, "where these numbers come from"},
};
static const bys_attr_rule stage_floats_attrs[] = {
    {"of", BYS_REF("block|line"), BYS_MAY, BYS_ANY,
     "block or line that it holds for; all if not stated"},
    {"pattern", BYS_REF("pattern"), BYS_NEED, BYS_ANY, "id of the row of floats"},
    {"every", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE, "spacing at this stage"},
    {"count", BYS_WHOLE, BYS_MAY, BYS_RANGE(0, 10000), "number of floats at this stage"},
};
static const bys_attr_rule rules_attrs[] = {
    {"profile", BYS_ID, BYS_MAY, BYS_ANY, "name of an installed rule profile"},
    {"href", BYS_TEXT, BYS_MAY, BYS_ANY,
     "your own rule profile: a path below the site file's folder"},
};
#define CONDITION                                                                                  \
    {"condition", BYS_CHOICE("any|intact|lost"), BYS_MAY, BYS_ANY,                                 \
     "state that it holds for: intact, or one leg lost; any if not stated"},                       \
    {                                                                                              \
        "analysis", BYS_CHOICE("any|static|dynamic"), BYS_MAY, BYS_ANY,                            \
            "kind of analysis that it is meant for; any if not stated"                             \
    }
static const bys_attr_rule site_factor_attrs[] = {
    {"for", BYS_TEXT, BYS_NEED, BYS_ANY, "component, as the profile names it"},
    {"value", BYS_PLAIN, BYS_NEED, BYS_RANGE(0.1, 20), "factor"},
    CONDITION,
    {"because", BYS_TEXT, BYS_NEED, BYS_ANY, "reason; the report shows it"},
};
#define LIMITS                                                                                     \
    {"float-reserve", BYS_IN(FRACTION), BYS_MAY, BYS_RANGE(0, 1),                                  \
     "least share of the floats' net lift that is left"},                                          \
    {"gear-clearance", BYS_IN(LENGTH), BYS_MAY, BYS_NOT_NEGATIVE,                                  \
     "least height of the gear above the bed"},                                                    \
    {"line-clearance", BYS_IN(LENGTH), BYS_MAY, BYS_NOT_NEGATIVE,                                  \
     "least distance between neighbouring lines"},                                                 \
    {"excursion", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE, "greatest movement in plan, intact"}
static const bys_attr_rule site_limit_attrs[] = {
    LIMITS,
    {"because", BYS_TEXT, BYS_NEED, BYS_ANY, "reason; the report shows it"},
};
static const bys_attr_rule profile_attrs[] = {
    {"id", BYS_ID, BYS_NEED, BYS_ANY, "name of the profile, that of the file"},
    {"title", BYS_TEXT, BYS_NEED, BYS_ANY, "title of the document"},
    {"written-for", BYS_TEXT, BYS_NEED, BYS_ANY, "what the document was written for"},
    {"capacity-basis", BYS_CHOICE("ultimate|fractile|proof"), BYS_NEED, BYS_ANY,
     "kind of capacity that its factors divide"},
    {"min-directions", BYS_WHOLE, BYS_NEED, BYS_RANGE(1, 360), "least number of directions"},
    {"lost-leg", BYS_CHOICE("demanded|reported"), BYS_NEED, BYS_ANY,
     "whether the loss of one leg is demanded or only reported"},
    {"shellfish", BYS_CHOICE("inside|outside|yours"), BYS_MAY, BYS_ANY,
     "whether moorings of shellfish gear lie inside its scope, outside it, or you say so yourself; "
     "outside if not stated"},
    PROVENANCE,
};
static const bys_attr_rule combination_attrs[] = {
    {"id", BYS_ID, BYS_NEED, BYS_ANY, "name of the combination"},
    {"name", BYS_TEXT, BYS_MAY, BYS_ANY, "in words"},
    {"current", BYS_IN(YEARS), BYS_NEED, BYS_POSITIVE, "return period of the current"},
    {"wind", BYS_IN(YEARS), BYS_NEED, BYS_POSITIVE, "return period of the wind"},
    {"waves", BYS_IN(YEARS), BYS_NEED, BYS_POSITIVE, "return period of the waves"},
    PROVENANCE,
};
static const bys_attr_rule profile_factor_attrs[] = {
    {"for", BYS_TEXT, BYS_NEED, BYS_ANY, "component"},
    {"value", BYS_PLAIN, BYS_MAY, BYS_RANGE(0.1, 20),
     "factor; without it the check is demanded but not made until the user supplies one"},
    CONDITION,
    {"clause", BYS_TEXT, BYS_MAY, BYS_ANY, "clause or table"},
    {"note", BYS_TEXT, BYS_MAY, BYS_ANY, "what a reader must know about it"},
    PROVENANCE,
};
static const bys_attr_rule profile_limit_attrs[] = {LIMITS, PROVENANCE};

const bys_element_rule bys_schema_site_rows[] = {
    {"site", "site", "", true, false, BYS_ROWS(site_attrs), "a lease and what lies on it"},
    {"frame", "frame", "site", true, false, BYS_ROWS(frame_attrs), "coordinate frame"},
    {"water", "water", "site", true, false, BYS_ROWS(water_attrs), "water and its levels"},
    {"level", "level", "water", false, false, BYS_ROWS(level_attrs), "a water level"},
    {"seabed", "seabed", "site", true, false, NULL, 0, "shape and soil of the bed"},
    {"plane", "plane", "seabed", true, false, BYS_ROWS(plane_attrs), "a flat or sloping bed"},
    {"soundings", "soundings", "seabed", true, false, BYS_ROWS(soundings_attrs),
     "depths at scattered places, in place of a plane"},
    {"sounding", "sounding", "soundings", false, false, BYS_ROWS(sounding_attrs), "one depth"},
    {"bed-grid", "grid", "seabed", true, false, BYS_ROWS(bed_grid_attrs),
     "depths on a square grid, in place of a plane"},
    {"zone", "zone", "seabed", false, false, BYS_ROWS(zone_attrs),
     "a part of the bed with soil of its own; the first that holds an anchor counts"},
    {"zone-corner", "corner", "zone", false, true, BYS_ROWS(corner_attrs),
     "a corner, in order around it"},
    {"soil", "soil", "seabed|zone", false, false, BYS_ROWS(soil_attrs),
     "a layer of soil, from the top down"},
    {"lease", "lease", "site", true, false, BYS_ROWS(lease_attrs), "boundary of the lease"},
    {"corner", "corner", "lease|shore", false, true, BYS_ROWS(corner_attrs),
     "a corner, in order around it"},
    {"weather", "weather", "site", true, false, BYS_ROWS(weather_attrs),
     "current, wind and waves by return period"},
    {"current", "current", "weather", false, false, BYS_ROWS(current_attrs), "a current"},
    {"wind", "wind", "weather", false, false, BYS_ROWS(wind_attrs), "a wind"},
    {"waves", "waves", "weather", false, false, BYS_ROWS(waves_attrs), "a sea state"},
    {"layer", "layer", "current", false, false, BYS_ROWS(layer_attrs),
     "a row of a current's table, from the surface down"},
    {"residual", "residual", "weather", true, false, BYS_ROWS(residual_attrs),
     "a steady current added to every other one as a vector"},
    {"wind-drift", "wind-drift", "weather", true, false, BYS_ROWS(wind_drift_attrs),
     "a current that the wind drives, added as a vector along it"},
    {"grown-waves", "grown-waves", "weather", true, false, BYS_ROWS(grown_attrs),
     "waves that each wind raises over its fetch, by each law in its own case"},
    {"wave-passage", "wave-passage", "weather", true, false, BYS_ROWS(passage_attrs),
     "a regular wave that passes through in every case with waves"},
    {"fetch", "fetch", "grown-waves", false, false, BYS_ROWS(fetch_attrs),
     "fetch in one direction; between two of them by straight line"},
    {"shore", "shore", "grown-waves", false, false, NULL, 0,
     "a closed ring of the shore, or of an island, as corners"},
    {"cases", "cases", "site", true, false, NULL, 0, "changes to the list of cases"},
    {"case", "case", "cases", false, false, BYS_ROWS(case_attrs), "a case of your own"},
    {"drop", "drop", "cases", false, false, BYS_ROWS(drop_attrs), "cases left out"},
    {"stages", "stages", "site", true, false, BYS_ROWS(stages_attrs), "crop stages"},
    {"stage", "stage", "stages", false, false, BYS_ROWS(stage_attrs), "a crop stage"},
    {"growth", "growth", "stage", false, false, BYS_ROWS(growth_attrs),
     "marine growth at this stage: adds weight, diameter and drag; the first that fits counts"},
    {"stage-floats", "floats", "stage", false, false, BYS_ROWS(stage_floats_attrs),
     "a row of floats as it is at this stage"},
    {"conditions", "conditions", "site", true, false, NULL, 0,
     "what may go wrong or be done at sea, in your own words; reported, never demanded"},
    {"rules", "rules", "site", true, false, BYS_ROWS(rules_attrs), "rules to check by"},
    {"factor", "factor", "rules", false, false, BYS_ROWS(site_factor_attrs),
     "a factor of your own, in place of the profile's or where it has none"},
    {"limit", "limit", "rules", false, false, BYS_ROWS(site_limit_attrs), "limits of your own"},
    {"profile", "rules", "", true, false, BYS_ROWS(profile_attrs),
     "a rule profile, a file of its own"},
    {"combination", "combination", "profile", false, true, BYS_ROWS(combination_attrs),
     "return periods that act together"},
    {"profile-factor", "factor", "profile", false, true, BYS_ROWS(profile_factor_attrs),
     "a factor that the profile demands"},
    {"profile-limit", "limit", "profile", false, false, BYS_ROWS(profile_limit_attrs),
     "limits that the profile demands"},
};
const int bys_schema_site_count =
    (int)(sizeof bys_schema_site_rows / sizeof bys_schema_site_rows[0]);
