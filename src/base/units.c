// SPDX-License-Identifier: GPL-3.0-or-later
// Units of measurement.
//
// GIVEN     text, "number unit"
// RETURNED  SI value (years for return periods)
// NOTES     closed table; upper and lower case differ (kN is a force, kn a speed)
// SOURCE    exact definitions: inch 25.4 mm, foot 0.3048 m, fathom 6 ft, nautical mile 1852 m,
//           pound 0.45359237 kg (international yard and pound agreement, 1959);
//           standard gravity 9.80665 m/s2 (ISO 80000-3) for kgf, tf, lbf. Known: memory, and they
//           are definitions.
#include "base/codes.h"
#include "base/number.h"
#include "base/units.h"

#include <math.h>
#include <string.h>

#define G 9.80665
#define POUND 0.45359237
#define FOOT 0.3048
#define PI 3.14159265358979323846

static const bys_unit units[] = {
    {"m", BYS_DIM_LENGTH, 1, "metre"},
    {"mm", BYS_DIM_LENGTH, 0.001, "millimetre"},
    {"cm", BYS_DIM_LENGTH, 0.01, "centimetre"},
    {"km", BYS_DIM_LENGTH, 1000, "kilometre"},
    {"ft", BYS_DIM_LENGTH, FOOT, "foot"},
    {"in", BYS_DIM_LENGTH, 0.0254, "inch"},
    {"fathom", BYS_DIM_LENGTH, 6 * FOOT, "fathom"},
    {"fathoms", BYS_DIM_LENGTH, 6 * FOOT, "fathom"},
    {"fm", BYS_DIM_LENGTH, 6 * FOOT, "fathom"},
    {"nmi", BYS_DIM_LENGTH, 1852, "nautical mile"},
    {"m2", BYS_DIM_AREA, 1, "square metre"},
    {"cm2", BYS_DIM_AREA, 1e-4, "square centimetre"},
    {"mm2", BYS_DIM_AREA, 1e-6, "square millimetre"},
    {"ft2", BYS_DIM_AREA, FOOT * FOOT, "square foot"},
    {"m3", BYS_DIM_VOLUME, 1, "cubic metre"},
    {"l", BYS_DIM_VOLUME, 0.001, "litre"},
    {"L", BYS_DIM_VOLUME, 0.001, "litre"},
    {"ft3", BYS_DIM_VOLUME, FOOT * FOOT * FOOT, "cubic foot"},
    {"deg", BYS_DIM_ANGLE, PI / 180, "degree"},
    {"rad", BYS_DIM_ANGLE, 1, "radian"},
    {"m/s", BYS_DIM_SPEED, 1, "metre per second"},
    {"cm/s", BYS_DIM_SPEED, 0.01, "centimetre per second"},
    {"km/h", BYS_DIM_SPEED, 1.0 / 3.6, "kilometre per hour"},
    {"kn", BYS_DIM_SPEED, 1852.0 / 3600, "knot"},
    {"knots", BYS_DIM_SPEED, 1852.0 / 3600, "knot"},
    {"ft/s", BYS_DIM_SPEED, FOOT, "foot per second"},
    {"m/s2", BYS_DIM_ACCELERATION, 1, "metre per second squared"},
    {"ft/s2", BYS_DIM_ACCELERATION, FOOT, "foot per second squared"},
    {"s", BYS_DIM_TIME, 1, "second"},
    {"min", BYS_DIM_TIME, 60, "minute"},
    {"h", BYS_DIM_TIME, 3600, "hour"},
    {"yr", BYS_DIM_YEARS, 1, "year"},
    {"years", BYS_DIM_YEARS, 1, "year"},
    {"kg", BYS_DIM_MASS, 1, "kilogram"},
    {"g", BYS_DIM_MASS, 0.001, "gram"},
    {"t", BYS_DIM_MASS, 1000, "tonne"},
    {"lb", BYS_DIM_MASS, POUND, "pound"},
    {"kg/m", BYS_DIM_MASS_PER_LENGTH, 1, "kilogram per metre"},
    {"g/m", BYS_DIM_MASS_PER_LENGTH, 0.001, "gram per metre"},
    {"kg/100m", BYS_DIM_MASS_PER_LENGTH, 0.01, "kilogram per 100 m"},
    {"lb/ft", BYS_DIM_MASS_PER_LENGTH, POUND / FOOT, "pound per foot"},
    {"kg/m3", BYS_DIM_DENSITY, 1, "kilogram per cubic metre"},
    {"t/m3", BYS_DIM_DENSITY, 1000, "tonne per cubic metre"},
    {"g/cm3", BYS_DIM_DENSITY, 1000, "gram per cubic centimetre"},
    {"lb/ft3", BYS_DIM_DENSITY, POUND / (FOOT * FOOT * FOOT), "pound per cubic foot"},
    {"N", BYS_DIM_FORCE, 1, "newton"},
    {"kN", BYS_DIM_FORCE, 1000, "kilonewton"},
    {"MN", BYS_DIM_FORCE, 1e6, "meganewton"},
    {"GN", BYS_DIM_FORCE, 1e9, "giganewton"},
    {"kgf", BYS_DIM_FORCE, G, "kilogram-force"},
    {"tf", BYS_DIM_FORCE, 1000 * G, "tonne-force"},
    {"lbf", BYS_DIM_FORCE, POUND * G, "pound-force"},
    {"kip", BYS_DIM_FORCE, 1000 * POUND * G, "thousand pound-force"},
    {"N/m", BYS_DIM_FORCE_PER_LENGTH, 1, "newton per metre"},
    {"kN/m", BYS_DIM_FORCE_PER_LENGTH, 1000, "kilonewton per metre"},
    {"kgf/m", BYS_DIM_FORCE_PER_LENGTH, G, "kilogram-force per metre"},
    {"lbf/ft", BYS_DIM_FORCE_PER_LENGTH, POUND * G / FOOT, "pound-force per foot"},
    {"N/m3", BYS_DIM_UNIT_WEIGHT, 1, "newton per cubic metre"},
    {"kN/m3", BYS_DIM_UNIT_WEIGHT, 1000, "kilonewton per cubic metre"},
    {"Pa", BYS_DIM_PRESSURE, 1, "pascal"},
    {"kPa", BYS_DIM_PRESSURE, 1000, "kilopascal"},
    {"MPa", BYS_DIM_PRESSURE, 1e6, "megapascal"},
    {"kN/m2", BYS_DIM_PRESSURE, 1000, "kilonewton per square metre"},
    {"%", BYS_DIM_FRACTION, 0.01, "per cent"},
    {"Nm", BYS_DIM_MOMENT, 1, "newton metre"},
    {"kNm", BYS_DIM_MOMENT, 1000, "kilonewton metre"},
    {"ft-lbf", BYS_DIM_MOMENT, FOOT * POUND * G, "foot pound-force"},
};

enum { UNIT_COUNT = sizeof units / sizeof units[0] };

const char *bys_dim_name(bys_dim dim)
{
    static const char *const names[] = {
        "length", "area",   "volume",          "angle",   "speed", "acceleration",
        "time",   "number of years", "mass",   "mass per length", "density", "force",
        "force per length", "weight per volume", "pressure", "fraction", "moment"};
    return (unsigned)dim < BYS_DIM_COUNT ? names[dim] : "number";
}

const char *bys_dim_article(bys_dim dim)
{
    return dim == BYS_DIM_AREA || dim == BYS_DIM_ANGLE || dim == BYS_DIM_ACCELERATION ? "an" : "a";
}

size_t bys_unit_count(void)
{
    return UNIT_COUNT;
}

const bys_unit *bys_unit_at(size_t i)
{
    return i < UNIT_COUNT ? &units[i] : NULL;
}

const bys_unit *bys_unit_find(const char *text, size_t n)
{
    for (size_t i = 0; i < UNIT_COUNT; i++)
        if (strlen(units[i].name) == n && memcmp(units[i].name, text, n) == 0)
            return &units[i];
    return NULL;
}

void bys_dim_spellings(bys_text *out, bys_dim dim)
{
    const char *gap = "";
    for (size_t i = 0; i < UNIT_COUNT; i++) {
        if (units[i].dim != dim)
            continue;
        bys_text_addf(out, "%s%s", gap, units[i].name);
        gap = ", ";
    }
}

static bool space(char c)
{
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

static bool digit(char c)
{
    return c >= '0' && c <= '9';
}

// A unit that differs from a known one of dimension dim only in upper and lower case.
static const bys_unit *case_twin(const char *text, size_t n, bys_dim dim)
{
    for (size_t i = 0; i < UNIT_COUNT; i++)
        if (units[i].dim == dim && strlen(units[i].name) == n &&
            strncasecmp(units[i].name, text, n) == 0)
            return &units[i];
    return NULL;
}

// Mass and force (also per length and per volume) are each other's usual mistake.
static bool force_partner(bys_dim *partner, bys_dim dim)
{
    static const bys_dim pairs[][2] = {{BYS_DIM_MASS, BYS_DIM_FORCE},
                                       {BYS_DIM_MASS_PER_LENGTH, BYS_DIM_FORCE_PER_LENGTH},
                                       {BYS_DIM_DENSITY, BYS_DIM_UNIT_WEIGHT}};
    for (size_t i = 0; i < 3; i++)
        for (size_t side = 0; side < 2; side++)
            if (pairs[i][side] == dim) {
                *partner = pairs[i][1 - side];
                return true;
            }
    return false;
}

static const char *usual_unit(bys_dim dim)
{
    static const char *const usual[] = {"m",     "m2",    "l",  "deg", "m/s",   "m/s2",
                                        "s",     "yr",    "kg", "kg/m", "kg/m3", "kN",
                                        "N/m",   "kN/m3", "kPa", "%",   "kNm"};
    return (unsigned)dim < BYS_DIM_COUNT ? usual[dim] : "";
}

static int say_wrong_dimension(bys_text *why, const bys_unit *unit, double value, bys_dim dim,
                               const char *number, size_t length)
{
    bys_dim partner;
    if (!force_partner(&partner, unit->dim) || partner != dim) {
        bys_text_addf(why, "is %s %s (%s); %s %s is needed here: ", bys_dim_article(unit->dim),
                      bys_dim_name(unit->dim), unit->words, bys_dim_article(dim),
                      bys_dim_name(dim));
        const bys_unit *twin = case_twin(unit->name, strlen(unit->name), dim);
        if (twin)
            bys_text_addf(why, "%s is %s, %s is %s", unit->name, unit->words, twin->name,
                          twin->words);
        else
            bys_dim_spellings(why, dim);
        return BYS_M_wrong_dimension;
    }
    bool to_force = dim == BYS_DIM_FORCE || dim == BYS_DIM_FORCE_PER_LENGTH ||
                    dim == BYS_DIM_UNIT_WEIGHT;
    const bys_unit *usual = bys_unit_find(usual_unit(dim), strlen(usual_unit(dim)));
    double si = value * unit->factor * (to_force ? G : 1 / G);
    char as_number[BYS_NUMBER_SIZE];
    double shown = si / usual->factor;
    bys_format(as_number, sizeof as_number, fabs(shown) >= 1e4 && fabs(shown) < 1e9 ?
        "%.0f" : "%.4g",
               shown);
    bys_text_addf(why, "is a %s (%s); a %s is needed here: write \"", bys_dim_name(unit->dim),
                  unit->words, bys_dim_name(dim));
    const char *direct = strcmp(unit->name, "t") == 0     ? "tf"
                         : strcmp(unit->name, "kg") == 0  ? "kgf"
                         : strcmp(unit->name, "lb") == 0  ? "lbf"
                         : strcmp(unit->name, "tf") == 0  ? "t"
                         : strcmp(unit->name, "kgf") == 0 ? "kg"
                         : strcmp(unit->name, "lbf") == 0 ? "lb"
                                                          : NULL;
    if (direct)
        bys_text_addf(why, "%.*s %s\"", (int)length, number, direct);
    if (!direct || strcmp(direct, usual->name) != 0)
        bys_text_addf(why, "%s%s %s\"", direct ? " or \"" : "", as_number, usual->name);
    return BYS_M_mass_force;
}

static int say_unknown_unit(bys_text *why, const char *unit, size_t n, bys_dim dim)
{
    if (digit(unit[0])) {
        bys_text_add(why, "has a gap inside the number; write the digits together");
        return BYS_M_number;
    }
    const bys_unit *twin = case_twin(unit, n, dim);
    bys_text_addf(why, "has the unit \"%.*s\", which is not in the list; ", (int)n, unit);
    if (twin)
        bys_text_addf(why, "did you mean %s? ", twin->name);
    bys_text_addf(why, "%s %s is written in: ", bys_dim_article(dim), bys_dim_name(dim));
    bys_dim_spellings(why, dim);
    return BYS_M_unknown_unit;
}

// Reads the number at text; on success *rest points at what follows it and its spaces.
static int read_head(double *value, const char **start, size_t *length, const char **rest,
                     const char *text, bys_text *why)
{
    while (space(*text))
        text++;
    if (!*text) {
        bys_text_add(why, "is empty");
        return BYS_M_number;
    }
    size_t used = 0;
    bool ok = bys_number_read(value, &used, text);
    if (used == 0) {
        bys_text_add(why, "does not start with a number such as 5.5");
        return BYS_M_number;
    }
    if (!ok) {
        bys_text_add(why, "is too large a number");
        return BYS_M_number;
    }
    if (text[used] == ',' && digit(text[used + 1])) {
        bys_text_add(why, "has a comma in the number; write a point as in 5.5, and no "
                          "thousands separator");
        return BYS_M_comma;
    }
    *start = text;
    *length = used;
    text += used;
    while (space(*text))
        text++;
    *rest = text;
    return 0;
}

int bys_quantity_read(double *out, const char *text, bys_dim dim, bys_text *why)
{
    double value = 0;
    const char *number = NULL, *rest = NULL;
    size_t length = 0;
    int code = read_head(&value, &number, &length, &rest, text, why);
    if (code)
        return code;
    size_t n = strlen(rest);
    while (n > 0 && space(rest[n - 1]))
        n--;
    if (n == 0 && dim == BYS_DIM_FRACTION) {
        *out = value;
        return 0;
    }
    if (n == 0) {
        bys_text_addf(why, "has no unit; %s %s is written in: ", bys_dim_article(dim),
                      bys_dim_name(dim));
        bys_dim_spellings(why, dim);
        return BYS_M_no_unit;
    }
    const bys_unit *unit = bys_unit_find(rest, n);
    if (!unit)
        return say_unknown_unit(why, rest, n, dim);
    if (unit->dim != dim)
        return say_wrong_dimension(why, unit, value, dim, number, length);
    *out = value * unit->factor;
    return 0;
}

int bys_plain_read(double *out, const char *text, bys_text *why)
{
    double value = 0;
    const char *number = NULL, *rest = NULL;
    size_t length = 0;
    int code = read_head(&value, &number, &length, &rest, text, why);
    if (code)
        return code;
    if (*rest) {
        bys_text_add(why, digit(*rest) ? "has a gap inside the number; write the digits together"
                                       : "takes a bare number without unit");
        return BYS_M_number;
    }
    *out = value;
    return 0;
}
