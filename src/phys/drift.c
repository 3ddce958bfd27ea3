// SPDX-License-Identifier: GPL-3.0-or-later
// Mean wave drift of a side that reflects every wave.
//
// GIVEN     rho, depth      of the water                                        kg/m3, m
//           a, k            amplitude and wave number of a regular wave         m, 1/m
//           hs, tp, gamma   of a JONSWAP sea                                    m, s, -
// RETURNED  mean force per metre of side, normal to it, away from the waves     N/m
// NOTES     1. An upper bound for reflection: R = 1 at all frequencies, waves square to the side. A
//              shallow hull lets most of the long waves through and gets a small part of this.
//           2. Lossless: a wave that breaks on the side transmits and reflects less than it brings
//              and the force lies between half of this and all of it.
//           3. The drag part (mean of a quadratic force) is separate: see drag.c.
// SOURCE    Maruo 1960 (deep water), Longuet-Higgins 1977 (finite depth):
//           F = rho g/4 (a^2 + a_R^2 - a_T^2)(1 + 2kh/sinh 2kh) with a_R = a, a_T = 0. [memory]
//           Integrated over a spectrum, a^2/2 becomes S dw. [derived]
#include "phys/phys.h"
#include "phys/wave_rule.h"

double bys_drift_reflection_regular(double rho, double a, double k, double depth)
{
    return 0.5 * rho * BYS_G * a * a * bys_wave_depth_factor(k, depth);
}

double bys_drift_reflection_jonswap(double rho, double hs, double tp, double gamma, double depth)
{
    bys_wave_node node[BYS_WAVE_NODES];
    if (!(depth > 0.0 && hs > 0.0 && tp > 0.0))
        return 0.0;
    bys_wave_rule(node, hs, tp, gamma);
    double sum = 0.0;
    for (int i = 0; i < BYS_WAVE_NODES; i++) {
        const double k = bys_wave_number(node[i].omega, depth);
        sum += node[i].weight * bys_wave_depth_factor(k, depth);
    }
    return rho * BYS_G * sum;
}
