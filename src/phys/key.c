// SPDX-License-Identifier: GPL-3.0-or-later
// Keys and skirts under a deadweight, and what the ground under it bears.
//
// GIVEN     depth, width, area   of the key below the base, across the pull (m), base (m2)
//           phi, unit_weight     friction angle (rad) and weight in water of the sand (N/m3)
//           su                   undrained strength at the key                           Pa
//           faces                how many su the front of a key takes, 2 to 4             -
//           length               longer side of the base                                  m
// RETURNED  sideways resistance: in sand to be added to base friction, in clay in place of it (N);
//           bearing pressure (Pa)
// NOTES     1. Only while the key is wholly in the ground: the block's weight must be able to push
//              it there. Otherwise count nothing.
//           2. No suction. In clay use the remoulded strength after a first slip.
//           3. The pull's line of action must pass the middle third of the base.
// SOURCE    passive wedge 0.5 Kp g z^2 B: earth pressure theory [derived]; clay 2 to 4 su z B plus
//           su A on the plane of the tips [memory]
//           tip in sand: Nq = exp(pi tan phi) Kp of bearing theory [memory]; width of the tip left
//           out
//           5.14 su (1 + 0.2 B/L)(1 + 0.2 D/B) [memory]
#include "phys/hold.h"
#include "phys/phys.h"

#include <math.h>

double bys_key_sand(double depth, double width, double phi, double unit_weight)
{
    const double kp = (1.0 + sin(phi)) / (1.0 - sin(phi));
    return 0.5 * kp * unit_weight * depth * depth * width;
}

double bys_key_tip_sand(double depth, double phi, double unit_weight)
{
    const double kp = (1.0 + sin(phi)) / (1.0 - sin(phi));
    return exp(BYS_PI * tan(phi)) * kp * unit_weight * depth;
}

double bys_key_clay(double depth, double width, double area, double faces, double su)
{
    return su * (fmin(fmax(faces, 2.0), 4.0) * depth * width + area);
}

double bys_bearing_clay(double su, double width, double length, double depth)
{
    return 5.14 * su * (1.0 + 0.2 * width / length) * (1.0 + 0.2 * depth / width);
}
