// SPDX-License-Identifier: GPL-3.0-or-later
// Friction between the base of a block and the bed.
//
// GIVEN     base   "concrete" (formed: cast elsewhere and lowered) or "steel" (sheet)
//           soil   kind of soil as the site file names it
// RETURNED  coefficient; NAN where the table has no row for that soil
// NOTES     1. The lower end of each range. Concrete cast against the soil grips more (0.35 to
//              0.60 on sand); it is not what is lowered onto a seabed.
//           2. Clay: 0.30 is the lower end of mass concrete on medium stiff clay, steel takes the
//              row of fine sandy silt; mud is taken as clay. [judgement] What its strength allows
//              bounds either.
//           3. Carbonate sand is said to grip steel and concrete about as quartz sand does; some
//              kinds lose volume when sheared, which takes the grip of piles, not of blocks.
//           4. Rock and coral: no row; measure.
// SOURCE    NAVFAC DM 7.02 (1986) Table 1, steel and formed-concrete rows, as a textbook copies it
//           [read]; carbonate sand: Valent 1979, abstract [read]
#include "phys/phys.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

static const struct { const char *soil; double concrete, steel; } rows[] = {
    {"gravel", 0.40, 0.40}, {"sand", 0.30, 0.30}, {"carbonate-sand", 0.30, 0.30},
    {"silty-sand", 0.30, 0.25}, {"silt", 0.25, 0.20}, {"mud", 0.30, 0.20}, {"clay", 0.30, 0.20},
};

double bys_base_friction(const char *base, const char *soil)
{
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (strcmp(rows[i].soil, soil) == 0)
            return strcmp(base, "steel") == 0 ? rows[i].steel : rows[i].concrete;
    return NAN;
}
