// SPDX-License-Identifier: GPL-3.0-or-later
// Driven or jetted plate anchors that have turned to face the pull.
//
// GIVEN     width, length   of the plate, width <= length                               m
//           depth           of its middle below the bed, after turning                  m
//           disturbance     share of the strength left around the plate, about 0.8      -
//           su, nc          undrained strength (Pa) and its factor, 9 to 12              -
//           unit_weight     of the sand in water                                        N/m3
//           nq              breakout factor in sand, from bys_sand_breakout              -
// RETURNED  ultimate pull along the normal of the plate (N); depth left (m)
// NOTES     1. Short term in clay. A pull that lasts for months drains the clay: take the lesser of
//              this and the long-term value. Factors above 12 need suction and are not for us.
//           2. Turning costs 0.5 to 1.5 widths of depth in clay, less in sand; 1.5 and 1.0 are
//              taken off.
//           3. Holds for the heading in which the plate was turned only.
// SOURCE    form and shape factor 0.84 + 0.16 B/L: NCEL R-882 and handbook [memory]
//           turning: [memory], upper end taken [judgement]
#include "phys/hold.h"

#include <math.h>

static double shape(double width, double length)
{
    return 0.84 + 0.16 * width / length;
}

double bys_plate_clay(double width, double length, double disturbance, double su, double nc)
{
    return width * length * disturbance * su * fmin(nc, 12.0) * shape(width, length);
}

double bys_plate_sand(double width, double length, double depth, double unit_weight, double nq)
{
    return width * length * unit_weight * depth * nq * shape(width, length);
}

double bys_plate_keyed_depth(double depth, double width, bool clay)
{
    return fmax(depth - (clay ? 1.5 : 1.0) * width, 0.0);
}
