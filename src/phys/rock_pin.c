// SPDX-License-Identifier: GPL-3.0-or-later
// A steel bar grouted into a hole in rock, pulled along its axis.
//
// GIVEN     pin     bar and hole diameters, bonded length, cone height (m), steel (N), bonds (Pa),
//                   weight of the rock in water (N/m3)
//           ucs     strength of the rock in compression                                  Pa
// RETURNED  what steel, bond of bar and grout, bond of grout and rock, and the cone of rock above
//           can hold, the least of them (N) and its name
// NOTES     1. The cone counts by its weight alone, half angle 45 deg, tip at cone_height: shear on
//              it is not added without a test. Overlapping cones of neighbours are left out.
//           2. Bond is spread evenly over the length: long pins (3 m and more) unzip. [judgement]
//           3. Ultimate values: a factor of 2 to 3 is usual, and each pin is to be tested.
//           4. Joints and weathering decide in natural rock; no guideline for pins in it exists.
//              Weak coral and calcareous rock: no table found; take soft limestone, and test.
// SOURCE    modes: Littlejohn and Bruce 1975, Eurocode 7 [read]
//           bond 0.1 ucs, at most 4.2 MPa [memory]; table by rock: PTI [memory]
//           cone volume pi h^3/3 [derived]
#include "phys/hold.h"
#include "phys/phys.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

typedef struct { const char *rock; double low, high; } bond_row; // MPa [memory]
static const bond_row bonds[] = {
    {"granite", 1.7, 3.1},       {"basalt", 1.7, 3.1},
    {"dolomite", 1.4, 2.1},      {"soft limestone", 1.0, 1.4},
    {"slate", 0.8, 1.4},         {"hard shale", 0.8, 1.4},
    {"soft shale", 0.2, 0.8},    {"sandstone", 0.8, 1.7},
    {"weathered sandstone", 0.7, 0.8}, {"chalk", 0.2, 1.1},
};

double bys_rock_cone(double height, double unit_weight)
{
    return BYS_PI * height * height * height / 3.0 * unit_weight;
}

double bys_rock_bond_from_strength(double ucs)
{
    return fmin(0.1 * ucs, 4.2e6);
}

double bys_rock_bond_length(double load, double factor, double hole, double bond)
{
    return factor * load / (BYS_PI * hole * bond);
}

bool bys_rock_bond(const char *rock, double *low, double *high)
{
    for (size_t i = 0; i < sizeof bonds / sizeof bonds[0]; i++)
        if (strcmp(bonds[i].rock, rock) == 0) {
            *low = 1e6 * bonds[i].low;
            *high = 1e6 * bonds[i].high;
            return true;
        }
    return false;
}

bys_rock_pin_hold bys_rock_pin_capacity(const bys_rock_pin *pin)
{
    bys_rock_pin_hold r;
    r.steel = pin->steel;
    r.bar_bond = BYS_PI * pin->bar * pin->bond_length * pin->bar_bond;
    r.rock_bond = BYS_PI * pin->hole * pin->bond_length * pin->rock_bond;
    r.cone = bys_rock_cone(pin->cone_height, pin->unit_weight);
    const double all[] = {r.steel, r.bar_bond, r.rock_bond, r.cone};
    static const char *const names[] = {"steel", "bond of bar and grout", "bond of grout and rock",
                                        "cone of rock"};
    int at = 0;
    for (int i = 0; i < 4; i++) // a value that is not known makes the whole not known
        at = isnan(all[i]) || (!isnan(all[at]) && all[i] < all[at]) ? i : at;
    r.used = all[at];
    r.governs = names[at];
    return r;
}
