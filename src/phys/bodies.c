// SPDX-License-Identifier: GPL-3.0-or-later
// Coefficients of lines, cylinders, spheres and floats in steady flow.
//
// GIVEN     re          Reynolds number on the diameter                          -
//           roughness   height over diameter                                     -
//           kind        of line                                                  -
//           froude      U/sqrt(g D) of a float at the surface                    -
//           diameter, length, wetted   of a barrel; of its diameter below water  m
//           speed       of the flow past it                                      m/s
// RETURNED  coefficients on the projected area, or per metre on the nominal diameter, normal and
//           axial (-); CdA (m2).
// NOTES     1. Crops and floats at 0.3 to 1 m/s lie in the band where a smooth body's drag drops
//              (Re 1e5 to 5e5). A smooth cylinder keeps 1.2 up to 2e5 and comes down to its value at
//              5e5 along a straight line on log Re; a mussel-rough one keeps at least 1.05.
//           2. A smooth sphere falls to 0.2 between Re 2e5 and 4e5, a rough one keeps 0.4.
//           3. Chain and wire: on the nominal diameter; strumming of a taut rope (up to 2 times) is
//              left out.
//           4. Float at the surface: wave making adds up to 0.5 above a Froude number of 0.3; the
//              full 0.5 is taken from 0.35 on, straight between (judgement on a weak source).
//           5. A barrel dragged under takes its full diameter: wetted = diameter, and no wave making,
//              which fades out over the last tenth of the diameter.
//           6. Axial drag of a rope as rough as a crop: 0.05 to 0.1 on pi D, weakly known, left out.
// SOURCE    lines: DNV-OS-E301 Ch 2 Sec 2 [memory]; cylinder, end factor: DNV-RP-C205 6.7 [memory];
//           sphere: text books [memory]; end-on disc 0.85 to 1.0, 0.9 taken [memory]; wave making
//           [memory, low confidence].
#include "phys/sea_loads.h"
#include "phys/drag_law.h"
#include "phys/phys.h"

#include <math.h>

// Straight on log re between (re0, a) and (re1, b), held outside.
static double across_crisis(double re, double re0, double a, double re1, double b)
{
    const double t = log(fmax(re, re0) / re0) / log(re1 / re0);
    return a + fmin(t, 1.0) * (b - a);
}

double bys_cylinder_cd(double re, double roughness)
{
    const double k = fmin(fmax(roughness, 1e-4), 1e-2);
    return across_crisis(re, 2e5, 1.2, 5e5, (29.0 + 4.0 * log10(k)) / 20.0);
}

double bys_sphere_cd(double re, bool rough)
{
    return across_crisis(re, 2e5, 0.5, 4e5, rough ? 0.4 : 0.2);
}

void bys_line_cd(bys_line_kind kind, double *normal, double *axial)
{
    static const double table[BYS_LINE_KIND_COUNT][2] = {
        {2.6, 1.4}, {2.4, 1.15}, {1.8, 0.0}, {1.6, 0.0}, {1.2, 0.0}, {1.6, 0.0},
    };
    const bool known = kind < BYS_LINE_KIND_COUNT;
    *normal = known ? table[kind][0] : NAN;
    *axial = known ? table[kind][1] : NAN;
}

double bys_float_wave_making(double froude)
{
    return 0.5 * fmin(fmax((froude - 0.3) / 0.05, 0.0), 1.0);
}

// Side-on 1.2 (rough, no credit for a drop of drag) times the end factor on length by the wetted
// height; end-on the circular segment below water times 0.9.
double bys_barrel_cda(double diameter, double length, double wetted, double speed, bool end_on)
{
    const double w = fmin(fmax(wetted, 0.0), diameter);
    const double froude = fabs(speed) / sqrt(BYS_G * diameter);
    const double wave =
        w > 0.0 ? bys_float_wave_making(froude) * bys_wave_fade(w / diameter, NULL) : 0.0;
    if (!end_on) {
        const double cd = 1.2 * bys_cylinder_end_factor(length / diameter);
        return (cd + wave) * w * length;
    }
    const double r = 0.5 * diameter, c = r > 0.0 ? (r - w) / r : 0.0;
    return (0.9 + wave) * r * r * (acos(c) - c * sqrt(fmax(1.0 - c * c, 0.0)));
}
