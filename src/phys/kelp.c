// SPDX-License-Identifier: GPL-3.0-or-later
// Drag of weed that folds in the current.
//
// GIVEN     drag_at, speed_at   a known drag (N) of the same piece and its speed (m/s)
//           u                   speed                                      m/s
//           re                  Reynolds number on the length of the plant -
// RETURNED  drag (N, with the sign of u), its derivative (N s/m), coefficients (-).
// NOTES     1. F = a |u|^0.5 u. Below the known speed this is above the square law, above it below:
//              take the known speed near the design speed, or lower to be on the safe side.
//           2. The slope falls to zero as the speed does, as sqrt(u).
//           3. bys_kelp_cd: one species (towed, 0.5 to 4 m/s), Re 1e4 to 1e6, held outside: the
//              drag goes as U^1.43.
//           4. bys_kelp_blade_cd: per blade area, weeds of exposed shores, 0.5 to 2.8 m/s, a power
//              law through the two published ends, held outside.
//           5. No published drag per metre of cultivated sugar-kelp line was found: drag_at must come
//              from the user or a tow test.
// SOURCE    Sargassum horneri tow: Cd = 18.295 Re^-0.571, drag about U^1.5 [read]. Exposed weeds:
//           0.147 at 0.5 m/s to 0.023 at 2.8 m/s [read]; the line between them [derived].
#include "phys/sea_loads.h"

#include <math.h>

double bys_kelp_drag(double drag_at, double speed_at, double u, double *d_du)
{
    const double a = drag_at / (speed_at * sqrt(speed_at)), root = sqrt(fabs(u));
    if (d_du)
        *d_du = 1.5 * a * root;
    return a * root * u;
}

double bys_kelp_cd(double re, bool *in_range)
{
    if (in_range)
        *in_range = re >= 1e4 && re <= 1e6;
    return 18.295 * pow(fmin(fmax(re, 1e4), 1e6), -0.571);
}

double bys_kelp_blade_cd(double u, bool *in_range)
{
    const double slow = 0.5, fast = 2.8, speed = fabs(u);
    if (in_range)
        *in_range = speed >= slow && speed <= fast;
    const double power = log(0.147 / 0.023) / log(fast / slow);
    return 0.147 * pow(fmin(fmax(speed, slow), fast) / slow, -power);
}
