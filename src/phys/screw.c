// SPDX-License-Identifier: GPL-3.0-or-later
// Screw anchors: pull-out along the shaft.
//
// GIVEN     depth, diameter, spacing   of the (top) plate below the bed, of plates       m
//           su                         undrained strength at the plate, undisturbed      Pa
//           overburden                 effective weight of the soil above, or 0          Pa
//           phi                        friction angle of the sand                        rad
//           unit_weight                of the sand in water                              N/m3
//           shaft, square              diameter (round) or side of the shaft             m
//           angle                      between pull and shaft                            rad
// RETURNED  capacities (N), factors (-), capacity over torque (1/m)
// NOTES     1. Ultimate and short term: no creep, no cycles. Peaks above a third to a half of it,
//              repeated, are said to work an anchor up. [memory]
//           2. Clay: the weight of the soil above is left out of bys_screw_clay, which is on the
//              safe side. Soft mud: drill torque is too low to rely on. [judgement]
//           3. Sand: phi below 25 deg gives NAN (no row); above 45 deg the row of 45 deg. Methods
//              differ by 1.7 for one plate, so that the lesser is taken.
//           4. Plates closer than three diameters act as a cylinder; the lesser of both ways is
//              taken at any spacing. Adjacent anchors: four diameters apart, dense sand five.
//           5. A pull more than 30 deg off the shaft loads it sideways: check it as a pile.
//           6. Carbonate sand that loses volume when sheared is not covered: test.
// SOURCE    clay Nc = 1.2 H/D <= 9: Meyerhof 1973 [memory]; critical depth: Das [memory]
//           sand Fq, m, limits, Ku 0.95: Meyerhof and Adams 1968 [memory]; the square-plate table
//           of it [read in a reprint] agrees within 0.5 %
//           cone: Mitsch and Clemence 1985, Ku [memory]; 30 deg rule [memory]
//           several plates: common practice [memory]; spacings: Salehzadeh 2022 [read]
//           torque: Hoyt and Clemence 1989, 10 and 7 per ft [read in a secondary source], 3 per ft
//           for 8.625 in [memory]; 22/d^0.92 per ft: Perko 2009 [memory]
#include "phys/hold.h"
#include "phys/phys.h"

#include <math.h>

enum { ROWS = 5 };
static const double first_row = 25.0, row_step = 5.0; // deg
static const double shape_slope[ROWS] = {0.10, 0.15, 0.25, 0.35, 0.50}; // m [memory]
static const double limit_depth[ROWS] = {3.0, 4.0, 5.0, 7.0, 9.0};      // H/D [memory]
static const double cone_ku[ROWS] = {0.70, 0.90, 1.50, 2.35, 3.30};     // [memory]
static const double plate_ku = 0.95;                                    // [memory]
static const double foot = 0.3048, inch = 0.0254;

static double least(double a, double b)
{
    return isnan(a) || isnan(b) ? NAN : fmin(a, b);
}

static bys_two_ways two(double first, double second)
{
    return (bys_two_ways){first, second, least(first, second)};
}

double bys_screw_nc(double depth, double diameter)
{
    return fmin(1.2 * depth / diameter, 9.0);
}

double bys_screw_clay_critical(double su)
{
    return fmin(0.107 * su / 1e3 + 2.5, 7.0);
}

double bys_screw_plate_clay(double area, double nc, double su, double overburden)
{
    return area * (nc * su + overburden);
}

static double disc(double diameter)
{
    return BYS_PI / 4.0 * diameter * diameter;
}

bys_two_ways bys_screw_clay(int n, double diameter, double depth, double spacing, double su)
{
    const double area = disc(diameter);
    double plates = 0.0;
    for (int i = 0; i < n; i++)
        plates += bys_screw_plate_clay(area, bys_screw_nc(depth + i * spacing, diameter), su, 0.0);
    const double top = bys_screw_plate_clay(area, bys_screw_nc(depth, diameter), su, 0.0);
    return two(plates, top + su * BYS_PI * diameter * (n - 1) * spacing);
}

static double row_value(const double row[ROWS], double phi)
{
    const double at = (phi * 180.0 / BYS_PI - first_row) / row_step;
    if (!(at >= -1e-9))
        return NAN;
    const int i = at < 0.0 ? 0 : at >= ROWS - 1 ? ROWS - 2 : (int)at;
    const double part = fmin(fmax(at - i, 0.0), 1.0);
    return row[i] + part * (row[i + 1] - row[i]);
}

bool bys_sand_limits(double phi, double *m, double *limit)
{
    *m = row_value(shape_slope, phi);
    *limit = row_value(limit_depth, phi);
    return !isnan(*m);
}

double bys_sand_breakout(double depth_over_diameter, double m, double ku_tan_phi)
{
    const double r = depth_over_diameter;
    return 1.0 + 2.0 * (1.0 + m * r) * r * ku_tan_phi;
}

static double top_angle(double phi)
{
    return fmin(phi, 45.0 * BYS_PI / 180.0);
}

double bys_screw_plate_sand(double diameter, double depth, double phi, double unit_weight)
{
    double m, limit;
    if (!bys_sand_limits(phi, &m, &limit))
        return NAN;
    const double r = fmin(depth / diameter, limit);
    const double fq = bys_sand_breakout(r, m, plate_ku * tan(top_angle(phi)));
    return fq * unit_weight * depth * disc(diameter);
}

// Frustum of half angle a = phi/2 above the plate, radii D/2 and D/2 + H tan a, and the shear
// pi g Ku tan phi cos^2 a (D H^2/2 + H^3 tan a / 3).
double bys_screw_cone_sand(double diameter, double depth, double phi, double unit_weight)
{
    double m, limit;
    if (!bys_sand_limits(phi, &m, &limit) || depth > limit * diameter)
        return NAN;
    const double p = top_angle(phi), a = 0.5 * p, H = depth;
    const double r = 0.5 * diameter, R = r + H * tan(a), c = cos(a);
    const double volume = BYS_PI * H / 3.0 * (r * r + r * R + R * R);
    const double lever = diameter * H * H / 2.0 + H * H * H * tan(a) / 3.0;
    const double ku = row_value(cone_ku, phi);
    return unit_weight * (volume + BYS_PI * ku * tan(p) * c * c * lever);
}

double bys_screw_cylinder_sand(double diameter, double h1, double h3, double phi,
                               double unit_weight)
{
    const double ku = row_value(cone_ku, phi);
    return BYS_PI / 2.0 * diameter * unit_weight * (h3 * h3 - h1 * h1) * ku * tan(top_angle(phi));
}

// The cone relation holds for shallow plates only; where it does not reach, the other one counts.
static double single_sand(double diameter, double depth, double phi, double unit_weight)
{
    const double plate = bys_screw_plate_sand(diameter, depth, phi, unit_weight);
    const double cone = bys_screw_cone_sand(diameter, depth, phi, unit_weight);
    return isnan(cone) ? plate : fmin(plate, cone);
}

bys_two_ways bys_screw_sand(int n, double diameter, double depth, double spacing, double phi,
                            double unit_weight)
{
    double plates = 0.0;
    for (int i = 0; i < n; i++)
        plates += single_sand(diameter, depth + i * spacing, phi, unit_weight);
    const double h3 = depth + (n - 1) * spacing;
    return two(plates, single_sand(diameter, depth, phi, unit_weight) +
                           bys_screw_cylinder_sand(diameter, depth, h3, phi, unit_weight));
}

// Between the shafts that were tested the value of the thicker one holds.
static double tested_factor(bool square, double shaft)
{
    if (square)
        return 10.0;
    return shaft < 3.49 * inch ? 10.0 : shaft < 3.51 * inch ? 7.0 : shaft < 8.63 * inch ? 3.0 : NAN;
}

bys_two_ways bys_screw_torque_factor(bool square, double shaft)
{
    const double across = square ? shaft * sqrt(2.0) : shaft;
    return two(tested_factor(square, shaft) / foot, 22.0 / pow(across / inch, 0.92) / foot);
}

bool bys_screw_is_axial(double angle)
{
    return fabs(angle) <= 30.0 * BYS_PI / 180.0;
}
