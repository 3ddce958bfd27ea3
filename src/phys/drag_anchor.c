// SPDX-License-Identifier: GPL-3.0-or-later
// Holding capacity of drag-embedment anchors by class, bed and mass.
//
// GIVEN     c      class of anchor, described by its shape                     bys_drag_class
//           bed    BYS_BED_MUD: very soft to soft normally consolidated silt or clay, strength
//                  rising with depth; BYS_BED_SAND: medium to dense sand, stiff clay   bys_drag_bed
//           mass   of the anchor in air                                        kg
// RETURNED  ultimate static capacity of the anchor SYSTEM (N), a level pull at the bed; whether the
//           mass lies outside the range of the fit.
// NOTES     1. H = H_R (m / 4536 kg)^b. The capacity is for the whole anchor system, so chain
//              friction on the bed must not be added to it.
//           2. Holds after setting, for a pull along the bed in the direction of setting. Uplift
//              and sideways pull are left out. In mud the flukes must have tripped open.
//           3. Fitted on about 0.1 to 20 t; lighter anchors are extrapolation. Runs of one anchor
//              in one bed scatter by 50 % and more.
//           4. Layered, hard, coral and rock beds are not covered; clay between soft and stiff
//              neither.
//           5. A stockless anchor whose fluke angle in sand is not stated takes the 48 deg row.
//           6. Cast claw in sand: the remembered row (1112 kN) gives 54 times the weight at 100 kg,
//              far above all other classes; it is left out: test. Large flukes are not for sand.
//           7. Depth and drag: how deep the fluke tip digs, and how far the anchor drags until it
//              holds that much. In mud full holding is said to come after 20 to 50 fluke lengths
//              for high-efficiency classes; the upper end is given. Others in mud: not known.
// SOURCE    form: UFC 4-159-03 (2005) sec. 5-2 eq. 26. [read]
//           H_R and b: UFC 4-159-03 Table 5-4, after NCEL TDS 83-08R. [memory] The table was not
//           seen: two remembered forms of it agree within 1.3 %, which checks the recall only.
//           depth, drag: RP 2SK appendix, TDS 83-08R [memory]; drag distances with little confidence
//           classes by safety factor: UFC 4-159-03 Table 3-7. [read] That the hinged lightweight
//           class belongs to the larger factor is a choice on the safe side.
#include "phys/phys.h"

#include <math.h>
#include <stddef.h>

typedef struct {
    const char *name;
    double reference[2]; // N at 4536 kg in mud, sand [memory]
    double exponent[2];  // in mud, sand [memory]
    double digs;         // fluke lengths of depth of the tip in mud [memory]; in sand 1
    bool high_efficiency;
} drag_row;

static const drag_row rows[BYS_DRAG_CLASS_COUNT] = {
    [BYS_DRAG_STOCKLESS] = {"stockless", {107e3, 196e3}, {0.92, 0.80}, 3.0, false},
    [BYS_DRAG_STOCKLESS_35] = {"stockless-35", {107e3, 311e3}, {0.92, 0.80}, 3.0, false},
    [BYS_DRAG_STOCKLESS_FIXED] = {"stockless-fixed", {205e3, 311e3}, {0.92, 0.80}, 3.0, false},
    [BYS_DRAG_HINGED_LIGHT] = {"hinged-light", {387e3, 560e3}, {0.92, 0.80}, 4.5, true},
    [BYS_DRAG_HEAVY_HINGED_20] = {"heavy-hinged-20", {520e3, 267e3}, {0.92, 0.80}, 4.0, true},
    [BYS_DRAG_HEAVY_HINGED_28] = {"heavy-hinged-28", {520e3, 445e3}, {0.92, 0.80}, 4.0, true},
    [BYS_DRAG_WIDE_HINGED] = {"wide-hinged", {618e3, 734e3}, {0.92, 0.80}, 4.5, true},
    [BYS_DRAG_FIXED_FLUKE] = {"fixed-fluke", {841e3, 934e3}, {0.92, 0.94}, 5.0, true},
    [BYS_DRAG_CAST_CLAW] = {"cast-claw", {142e3, NAN}, {0.92, 0.80}, NAN, true},
    [BYS_DRAG_WIDE_HINGED_SHARP] = {"wide-hinged-sharp", {618e3, 1290e3}, {0.92, 0.80}, 4.5, true},
    [BYS_DRAG_FIXED_HOOKED] = {"fixed-fluke-hooked", {841e3, 445e3}, {0.92, 0.80}, 5.0, true},
    [BYS_DRAG_FIXED_SHARP] = {"fixed-fluke-sharp", {841e3, 1290e3}, {0.92, 0.80}, 5.0, true},
    [BYS_DRAG_LARGE_FLUKE] = {"large-fluke", {1112e3, NAN}, {0.92, 0.80}, 5.0, true},
    [BYS_DRAG_STABILISED] = {"stabilised", {934e3, 1201e3}, {0.94, 0.94}, 4.5, true},
};

static const double reference_mass = 4536.0; // kg, 10,000 lb
static const double lightest = 100.0;        // kg [memory]
static const double heaviest = 20000.0;      // kg [memory]

static bool known(bys_drag_class c)
{
    return (size_t)c < BYS_DRAG_CLASS_COUNT;
}

const char *bys_drag_class_name(bys_drag_class c)
{
    return known(c) ? rows[c].name : NULL;
}

double bys_drag_anchor_capacity(bys_drag_class c, bys_drag_bed bed, double mass, bool *out_of_range)
{
    if (out_of_range)
        *out_of_range = !(mass >= lightest && mass <= heaviest);
    if (!known(c) || (bed != BYS_BED_MUD && bed != BYS_BED_SAND))
        return NAN;
    return rows[c].reference[bed] * pow(mass / reference_mass, rows[c].exponent[bed]);
}

double bys_drag_penetration(bys_drag_class c, bys_drag_bed bed)
{
    if (!known(c) || isnan(rows[c].digs))
        return NAN;
    return bed == BYS_BED_MUD ? rows[c].digs : 1.0;
}

double bys_drag_distance(bys_drag_class c, bys_drag_bed bed)
{
    if (!known(c) || (bed == BYS_BED_MUD && !rows[c].high_efficiency))
        return NAN;
    return bed == BYS_BED_MUD ? 50.0 : 10.0;
}

bool bys_drag_class_high_efficiency(bys_drag_class c)
{
    return known(c) && rows[c].high_efficiency;
}
