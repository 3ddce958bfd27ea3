// SPDX-License-Identifier: GPL-3.0-or-later
// How much a farm slows the current within it, and one row of droppers its own.
//
// GIVEN     cd, diameter, spacing   of droppers along a line                       -, m, m
//           K                       sum of cd D/s over the lines crossed           -
//           cd_row                  cd D/s of one line                             -
//           frontal_per_volume      frontal area per volume of canopy              1/m
//           canopy_over_depth       thickness of the canopy over the depth         -
//           bed_cd, interface_cd    friction of the bed (0.0025), of the shear layer (0.04)
//           x, y                    behind a cylinder, beside its axis             m
// RETURNED  speeds and force factors over the undisturbed ones (-).
// NOTES     1. Screens: momentum balance of a porous screen in open water. Block drag on the frontal
//              area K/(1 + K/4)^2, greatest 1 at K = 4 and held there (a solid body).
//           2. Canopy: two layers, equal slope of the surface in both, a farm so wide that none of
//              the water goes round. Below 1 only where the canopy's drag exceeds the bed's.
//           3. The two bracket what was measured only in part: Golden Bay (36 to 63 %) gets 45 to
//              72 % by screens and 7 to 13 % by the canopy; Gouqi (52 to 90 % in its canopy) gets
//              55 % by the canopy. For loads the lesser shielding of the two counts, on no account any
//              on the up-current line.
//           4. Huse's wake, by root sum square along a file of cylinders, gives a mean force near
//              0.27 for 60 mussel ropes; measured rafts answer to about twice that. Hence the bound
//              of 0.5 on the factor of a row.
//           5. Jets between blocks can exceed the free stream by 10 to 20 %: left out here.
// SOURCE    screens: Taylor 1944, Koo and James 1973 [memory]; canopy: Plew 2011, seen in a
//           transcription [memory], re-derived from equal slopes [derived]; wake: Huse 1993
//           [memory]; bound 0.5: judgement from Cranford et al. 2014 [read].
#include "phys/sea_loads.h"

#include <math.h>

double bys_screen_row(double cd, double diameter, double spacing)
{
    return cd * diameter / spacing;
}

double bys_screen_speed(double K)
{
    return 1.0 / (1.0 + 0.25 * fmax(K, 0.0));
}

double bys_screen_block_cd(double K)
{
    const double u = bys_screen_speed(fmin(K, 4.0));
    return fmin(fmax(K, 0.0), 4.0) * u * u;
}

double bys_canopy_kd(double cd, double frontal_per_volume, double depth)
{
    return 0.5 * cd * frontal_per_volume * depth;
}

// Kd H (1-H)^3 u^2 = Cb H (1 - H u)^2 + a (1 - u)^2, that is A u^2 + 2 B u - C = 0 with
// A = Kd H (1-H)^3 - Cb H^3 - a, B = Cb H^2 + a, C = Cb H + a. The root in (0, 1) in the form
// C/(B + sqrt(B^2 + A C)), which A = 0 does not upset. At u = 1 the left side exceeds the right
// where Kd (1-H) > Cb; otherwise the canopy does not slow the water.
bys_canopy bys_canopy_speed(double kd, double canopy_over_depth, double bed_cd,
                            double interface_cd)
{
    const double H = canopy_over_depth, below = 1.0 - H;
    if (!(H > 0.0 && H < 1.0 && kd * below > bed_cd))
        return (bys_canopy){1.0, 1.0};
    const double A = kd * H * below * below * below - bed_cd * H * H * H - interface_cd;
    const double B = bed_cd * H * H + interface_cd, C = bed_cd * H + interface_cd;
    const double u = C / (B + sqrt(B * B + A * C));
    return (bys_canopy){u, (1.0 - H * u) / below};
}

double bys_block_speed(size_t lines_before, double cd_row, bys_canopy canopy)
{
    if (lines_before == 0)
        return 1.0;
    const double screens = bys_screen_speed(cd_row * (double)lines_before);
    return fmin(fmax(screens, canopy.canopy), 1.0);
}

// u/U = sqrt(cd D/xs) exp(-0.693 (y/b)^2), b = 0.25 sqrt(cd D xs), xs = x + 4 D/cd.
double bys_huse_deficit(double x, double y, double cd, double diameter)
{
    if (!(x > 0.0 && cd > 0.0 && diameter > 0.0))
        return 0.0;
    const double xs = x + 4.0 * diameter / cd, b = 0.25 * sqrt(cd * diameter * xs);
    return sqrt(cd * diameter / xs) * exp(-0.693 * (y / b) * (y / b));
}

void bys_huse_file(double *speed, size_t n, double cd, double diameter, double spacing)
{
    for (size_t i = 0; i < n; i++) {
        double squares = 0.0;
        for (size_t j = 0; j < i; j++) {
            const double x = spacing * (double)(i - j);
            const double deficit = speed[j] * bys_huse_deficit(x, 0.0, cd, diameter);
            squares += deficit * deficit;
        }
        speed[i] = fmax(1.0 - sqrt(squares), 0.0);
    }
}

double bys_dropper_row(double *raw, size_t n, double cd, double diameter, double spacing)
{
    enum { MOST = 128 }; // beyond this the local force hardly changes: the last one is repeated
    double speed[MOST], sum = 0.0;
    const size_t solved = n < MOST ? n : MOST;
    bys_huse_file(speed, solved, cd, diameter, spacing);
    for (size_t i = 0; i < n; i++) {
        const double u = speed[i < solved ? i : solved - 1];
        sum += u * u;
    }
    const double mean = n ? sum / (double)n : 1.0;
    if (raw)
        *raw = mean;
    return fmax(mean, 0.5);
}
