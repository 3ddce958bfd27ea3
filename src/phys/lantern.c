// SPDX-License-Identifier: GPL-3.0-or-later
// Drag of lantern nets, panels, trays and baskets.
//
// GIVEN     sinker          mass below a lantern net                                kg
//           width, height   of a panel's face                                       m
//           cd_face         coefficient on the face square to the flow              -
//           cd_edge         coefficient on the same face with the flow in its plane -
//           theta           angle between the flow and the normal of the face       rad
//           solidity        projected over outline area                             -
// RETURNED  coefficient on the outline area (-), CdA (m2).
// NOTES     1. Lantern: 0.5 to 1 kg of sinker, Re 1e4 to 1e6, read off between the three published
//              values and held outside (in_range false). A heavier sinker tilts less and drags more:
//              beyond 1 kg the held value is low; an upright net is better taken as 1.2 on its outline.
//           2. Panel: cross-flow rule, face part cos^2, edge part sin^2 of the angle. Edge-on drag is
//              never nothing: 0.1 to 0.2 on the gross face is usual, with low confidence.
//           3. No coefficient of pearl panels, trays or oyster baskets was found in print. A full or
//              fouled panel is a flat plate (1.12 to 1.2); a basket above solidity 0.5 is taken as a
//              closed box, 1.2, below it as two net faces in line by Loland, the second in the wake
//              of the first and never above 1.2.
// SOURCE    lantern: Fishes 2023 8:204 [read]; plate: DNV-RP-C205 (finite plate) [memory];
//           edge 0.1 to 0.2 [memory]; box [memory]; two faces [derived].
#include "phys/sea_loads.h"

#include <math.h>

double bys_lantern_cd(double sinker, bool *in_range)
{
    static const double mass[3] = {0.5, 0.75, 1.0}, cd[3] = {0.75, 0.83, 0.91};
    if (in_range)
        *in_range = sinker >= mass[0] && sinker <= mass[2];
    const double m = fmin(fmax(sinker, mass[0]), mass[2]);
    const int i = m > mass[1];
    return cd[i] + (m - mass[i]) / (mass[i + 1] - mass[i]) * (cd[i + 1] - cd[i]);
}

double bys_panel_cda(double width, double height, double cd_face, double cd_edge, double theta)
{
    const double c = cos(theta), s = sin(theta);
    return width * height * (cd_face * c * c + cd_edge * s * s);
}

// 1.12 square, 1.2 at five to one, straight on the ratio; from 20 on towards 1.9, the endless plate.
double bys_plate_cd(double length_over_breadth)
{
    static const double ratio[4] = {1.0, 5.0, 10.0, 20.0}, cd[4] = {1.12, 1.2, 1.3, 1.5};
    const double r = fmax(length_over_breadth, 1.0 / fmax(length_over_breadth, 1e-9));
    if (r >= ratio[3])
        return 1.9 - 0.4 * ratio[3] / r;
    int i = 0;
    while (i < 2 && r > ratio[i + 1])
        i++;
    return cd[i] + (r - ratio[i]) / (ratio[i + 1] - ratio[i]) * (cd[i + 1] - cd[i]);
}

double bys_basket_cd(double solidity, bool *in_range)
{
    const double closed = 1.2;
    if (in_range)
        *in_range = solidity > 0.0 && solidity <= 1.0;
    if (solidity > 0.5)
        return closed;
    const double face = bys_net_loland(solidity, 0.0).cd, wake = bys_net_wake(face);
    return fmin(face * (1.0 + wake * wake), closed);
}
