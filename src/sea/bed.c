// SPDX-License-Identifier: GPL-3.0-or-later
// The seabed under the sea: its normal, and how that turns from place to place.
//
// GIVEN     a plane, or a map of heights z(x, y) with slopes and second derivatives; x, y        m
// RETURNED  unit normal, upwards, and its derivatives (1/m)
// NOTES     n = g/|g| with g = (-z_x, -z_y, 1). The derivatives make the tangent of the bed's push
//           complete: N dn/dx, the push turning as the point slides.
// SOURCE    [derived].
#include "sea/sea.h"

#include <math.h>

void bys_sea_bed_normal(double n[3], const bys_sea *sea, double x, double y)
{
    if (!sea->map) {
        for (int i = 0; i < 3; i++)
            n[i] = sea->bed_normal[i];
        return;
    }
    double slope[2];
    bys_bed_map_at(sea->map, x, y, slope, NULL);
    const double size = sqrt(1.0 + slope[0] * slope[0] + slope[1] * slope[1]);
    n[0] = -slope[0] / size;
    n[1] = -slope[1] / size;
    n[2] = 1.0 / size;
}

// n = g/|g|, g = (-z_x, -z_y, 1): dn/dx_j = (g_j - n (n.g_j))/|g|, g_j = (-z_xj, -z_yj, 0).
bool bys_sea_bed_turn(double turn[9], const bys_sea *sea, double x, double y)
{
    if (!sea->map)
        return false;
    double slope[2], bend[3];
    bys_bed_map_at(sea->map, x, y, slope, bend);
    const double size = sqrt(1.0 + slope[0] * slope[0] + slope[1] * slope[1]);
    const double n[3] = {-slope[0] / size, -slope[1] / size, 1.0 / size};
    for (int j = 0; j < 2; j++) {
        const double g[3] = {-bend[j], -bend[j + 1], 0.0};
        const double along = n[0] * g[0] + n[1] * g[1];
        for (int i = 0; i < 3; i++)
            turn[3 * i + j] = (g[i] - along * n[i]) / size;
    }
    turn[2] = turn[5] = turn[8] = 0.0;
    return true;
}

void bys_sea_lay_bed(bys_sea *sea, const bys_site *site)
{
    const bys_seabed *bed = &site->bed;
    sea->has_bed = site->has_bed;
    if (!site->has_bed)
        return;
    sea->map = bed->map;
    sea->bed_point[0] = bed->x;
    sea->bed_point[1] = bed->y;
    sea->bed_point[2] = -bed->depth;
    // the plane deepens towards `deepens`: its normal leans that way
    sea->bed_normal[0] = sin(bed->slope) * sin(bed->deepens);
    sea->bed_normal[1] = sin(bed->slope) * cos(bed->deepens);
    sea->bed_normal[2] = cos(bed->slope);
}
