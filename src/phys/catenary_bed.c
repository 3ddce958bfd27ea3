// SPDX-License-Identifier: GPL-3.0-or-later
// Elastic line partly on a flat bed with friction: the loads at its upper end and at its anchor.
//
// GIVEN     length    unstretched                                                            m
//           w, EA     weight in water per unstretched length (> 0), axial stiffness        N/m, N
//           dx, dz    upper end from the anchor: level distance, height above the bed         m
//           mu        friction coefficient; 0 = none                                          -
// RETURNED  H, V      tension at the upper end, its level and upward parts                    N
//           Ta        tension at the anchor, 0 where friction takes all of it                 N
//           grounded  unstretched length on the bed                                           m
// NOTES     1. All of the friction is mobilised and points to the anchor: the line was laid slack and
//              then pulled. With LB the length on the bed and x0 = LB - H/(mu w)
//                x = LB + (H/w) asinh(V/H) + H L/EA + (mu w/2 EA) [x0 max(x0, 0) - LB^2]
//                z = (H/w) [sqrt(1 + (V/H)^2) - 1] + V^2/(2 EA w)
//                Ta = max(H - mu w LB, 0),  LB = L - V/w
//           2. Only with some length on the bed: false where the line hangs free, or lies slack with
//              H below a millionth of its weight.
//           3. x rises with H at a given z, and V with H at a given z: both found by halving.
// SOURCE    Jonkman 2007 [memory]; checked against quadrature [derived].
#include "phys/phys.h"

#include <math.h>

typedef struct { double length, w, EA, dx, dz, mu; } bedded;

/// V that gives the height at this H.
static double upward_part(const bedded *b, double H)
{
    double low = 0.0, high = b->w * b->length;
    for (int i = 0; i < 80; i++) {
        const double V = 0.5 * (low + high), T = hypot(H, V);
        const double z = V * V / (b->w * (T + H)) + V * V / (2.0 * b->EA * b->w);
        if (z < b->dz)
            low = V;
        else
            high = V;
    }
    return 0.5 * (low + high);
}

static double level_reach(const bedded *b, double H, double V)
{
    const double LB = b->length - V / b->w;
    double x = LB + H / b->w * asinh(V / H) + H * b->length / b->EA;
    if (b->mu > 0.0) {
        const double x0 = LB - H / (b->mu * b->w);
        x += b->mu * b->w / (2.0 * b->EA) * (x0 * fmax(x0, 0.0) - LB * LB);
    }
    return x;
}

bool bys_catenary_bed_friction(bys_bed_line *out, double length, double w, double EA, double dx,
                               double dz, double mu)
{
    const bedded b = {length, w, EA, dx, dz, mu};
    double low = 1e-6 * w * length, high = 1e3 * w * length + EA;
    if (level_reach(&b, low, upward_part(&b, low)) > dx)
        return false;
    for (int i = 0; i < 200; i++) {
        const double H = sqrt(low * high);
        if (level_reach(&b, H, upward_part(&b, H)) < dx)
            low = H;
        else
            high = H;
    }
    out->H = sqrt(low * high);
    out->V = upward_part(&b, out->H);
    out->grounded = length - out->V / w;
    out->Ta = fmax(out->H - mu * w * out->grounded, 0.0);
    return out->grounded > 1e-9 * length;
}
