// SPDX-License-Identifier: GPL-3.0-or-later
// Displaced volume and wetted projected area of a float against its immersion.
//
// GIVEN     immersion   of the lowest point below the water surface, negative when dry   m
//           diameter, length, height, width   of the float                               m
//           waterplane  horizontal cross-section of an upright float                     m2
//           depth       of the float's middle below the water surface                    m
//           loss        share of the volume lost with each metre of it                   1/m
// RETURNED  volume (m3) and its derivative over immersion (m2); area of the part under water seen
//           horizontally (m2) and its derivative (m); share of the volume kept at a depth and its
//           derivative (1/m). A derivative pointer may be NULL.
// NOTES     1. Exact for the ideal shape in still, level water; the float stays upright, or on its
//              side with the axis level.
//           2. Sphere and barrel on its side: V and dV/d(immersion) are continuous throughout.
//              Upright: dV jumps at both ends, where the value on the dry side, and beyond full
//              immersion, is 0.
//           3. A barrel on its side is seen broadside (length x depth under water).
//           4. Squeezing: the kept share falls in proportion to the depth, from 1 at the surface
//              to 0. A float that loses volume pushes up less the deeper it goes: it can sink for
//              good, which the solver's look at stability shows. The area seen by the flow is not
//              made smaller.
// SOURCE    geometry. [derived]
#include "phys/phys.h"

#include <math.h>
#include <stddef.h>

static double put(double *out, double derivative, double value)
{
    if (out)
        *out = derivative;
    return value;
}

// Segment of a circle cut off at height h: with sin^2(t/2) = h/D, t the half angle at the centre,
// area = D^2/8 (2t - sin 2t), chord = D sin t. For small 2t the difference is a series.
static double segment(double h, double diameter, double *chord)
{
    if (h <= 0.0)
        return put(chord, 0.0, 0.0);
    if (h >= diameter)
        return put(chord, 0.0, 0.25 * BYS_PI * diameter * diameter);
    const double x = 4.0 * asin(sqrt(h / diameter)), q = x * x;
    const double difference =
        x < 0.1 ? x * q / 6.0 * (1.0 - q / 20.0 * (1.0 - q / 42.0 * (1.0 - q / 72.0))) : x - sin(x);
    return put(chord, 2.0 * sqrt(h * (diameter - h)), 0.125 * diameter * diameter * difference);
}

double bys_volume_sphere(double immersion, double diameter, double *dV)
{
    if (immersion <= 0.0)
        return put(dV, 0.0, 0.0);
    if (immersion >= diameter)
        return put(dV, 0.0, BYS_PI * diameter * diameter * diameter / 6.0);
    const double h = immersion, r = 0.5 * diameter;
    return put(dV, BYS_PI * h * (diameter - h), BYS_PI * h * h * (3.0 * r - h) / 3.0);
}

double bys_volume_barrel_side(double immersion, double diameter, double length, double *dV)
{
    double chord;
    const double area = segment(immersion, diameter, &chord);
    return put(dV, length * chord, length * area);
}

double bys_volume_upright(double immersion, double waterplane, double height, double *dV)
{
    if (immersion <= 0.0)
        return put(dV, 0.0, 0.0);
    if (immersion >= height)
        return put(dV, 0.0, waterplane * height);
    return put(dV, waterplane, waterplane * immersion);
}

double bys_area_sphere(double immersion, double diameter, double *dA)
{
    return segment(immersion, diameter, dA);
}

double bys_area_barrel_side(double immersion, double diameter, double length, double *dA)
{
    return bys_volume_upright(immersion, length, diameter, dA);
}

double bys_area_upright(double immersion, double width, double height, double *dA)
{
    return bys_volume_upright(immersion, width, height, dA);
}

double bys_volume_kept(double depth, double loss, double *d_depth)
{
    const double kept = 1.0 - loss * depth;
    if (!(loss > 0.0) || depth <= 0.0)
        return put(d_depth, 0.0, 1.0);
    return kept > 0.0 ? put(d_depth, -loss, kept) : put(d_depth, 0.0, 0.0);
}
