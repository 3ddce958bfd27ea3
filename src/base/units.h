// SPDX-License-Identifier: GPL-3.0-or-later
// The closed table of units, and quantities written as "55 m".
#ifndef BYS_UNITS_H
#define BYS_UNITS_H
#include <byssus/base.h>

typedef enum {
    BYS_DIM_LENGTH,
    BYS_DIM_AREA,
    BYS_DIM_VOLUME,
    BYS_DIM_ANGLE,
    BYS_DIM_SPEED,
    BYS_DIM_ACCELERATION,
    BYS_DIM_TIME,
    BYS_DIM_YEARS,           ///< return periods; the value stays in years
    BYS_DIM_MASS,
    BYS_DIM_MASS_PER_LENGTH,
    BYS_DIM_DENSITY,
    BYS_DIM_FORCE,
    BYS_DIM_FORCE_PER_LENGTH,
    BYS_DIM_UNIT_WEIGHT,
    BYS_DIM_PRESSURE,
    BYS_DIM_FRACTION,        ///< a bare number or per cent
    BYS_DIM_MOMENT,          ///< torque, bending moment
    BYS_DIM_COUNT
} bys_dim;

typedef struct {
    const char *name;
    bys_dim dim;
    double factor; ///< SI value of one unit (years for BYS_DIM_YEARS)
    const char *words;
} bys_unit;

/// "length", "mass per length", ...; static storage.
const char *bys_dim_name(bys_dim dim);
/// "a length", "an angle"; static storage.
const char *bys_dim_article(bys_dim dim);
/// Spellings that are accepted for dim, e.g. "m, mm, cm, ...", appended.
void bys_dim_spellings(bys_text *out, bys_dim dim);
size_t bys_unit_count(void);
const bys_unit *bys_unit_at(size_t i);
/// The unit spelled by n bytes at text, or NULL.
const bys_unit *bys_unit_find(const char *text, size_t n);

/// Reads "number unit" as a quantity of dimension dim into SI. Returns 0, or the message number
/// and appends to `why` what is wrong and how to mend it (a clause that follows `name="text"`).
int bys_quantity_read(double *out, const char *text, bys_dim dim, bys_text *why);
/// A plain number without unit; the same convention.
int bys_plain_read(double *out, const char *text, bys_text *why);

#endif
