// SPDX-License-Identifier: GPL-3.0-or-later
// Current on raft hulls, barges and pontoons.
//
// GIVEN     re                 Reynolds number on the length                     -
//           rho, nu            density, kinematic viscosity                      kg/m3, m2/s
//           u, length          speed, length along it                            m/s, m
//           wetted_area        of the hull                                       m2
//           factor             on friction: 1 clean, 3 to 5 fouled               -
//           draft_over_depth, gap_over_width, index   ratios (-), 0 for the first pontoon
// RETURNED  friction coefficient (-), friction (N, sign of u), coefficient on the wetted transverse
//           area (low and high end of its range), factors (-).
// NOTES     1. ITTC-57 is a correlation line for ships, smooth, Re over 1e5; below 1e4 the value at
//              1e4 is held.
//           2. Square to a long side the bed raises the drag: 1 in deep water, 1.5 at draft over
//              depth 0.4, 2 to 3 above 0.8; straight between, the upper end taken, held from 0.8.
//           3. Pontoon behind another with a gap below one width: 0.2 to 0.4 of the first in tests of
//              square prisms, 0.5 taken; a wider gap gets no credit.
//           4. Yaw between side and end, trim, and squat are left out.
// SOURCE    ITTC 1957 line, known in full [memory]; bluff and bed: shape of the curves of UFC
//           4-159-03 and OCIMF [memory, medium]; tandem prisms [memory, medium].
#include "phys/sea_loads.h"

#include <math.h>

double bys_ittc57(double re)
{
    const double x = log10(fmax(re, 1e4)) - 2.0;
    return 0.075 / (x * x);
}

double bys_hull_friction(double rho, double nu, double u, double length, double wetted_area,
                         double factor)
{
    const double cf = bys_ittc57(fabs(u) * length / nu);
    return 0.5 * rho * factor * cf * wetted_area * u * fabs(u);
}

void bys_hull_cd(bys_hull_face face, double *low, double *high)
{
    static const double range[BYS_HULL_FACE_COUNT][2] = {{1.0, 1.4}, {0.8, 1.0}, {0.4, 0.5}};
    const bool known = face < BYS_HULL_FACE_COUNT;
    *low = known ? range[face][0] : NAN;
    *high = known ? range[face][1] : NAN;
}

double bys_hull_bed_factor(double draft_over_depth)
{
    const double x = fmin(fmax(draft_over_depth, 0.0), 0.8);
    return x <= 0.4 ? 1.0 + 0.5 * x / 0.4 : 1.5 + 1.5 * (x - 0.4) / 0.4;
}

double bys_pontoon_row(size_t index, double gap_over_width)
{
    return index > 0 && gap_over_width < 1.0 ? 0.5 : 1.0;
}
