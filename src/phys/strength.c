// SPDX-License-Identifier: GPL-3.0-or-later
// Break load, proof load and mass of chain from its diameter.
//
// GIVEN     grade    of stud-link chain, 1 to 3                                   -
//           d        diameter of the bar                                          m
//           stress   mean stress in the two legs of a link at break               Pa
// RETURNED  force (N), mass per length (kg/m). NaN for an unknown grade.
// NOTES     1. Stud link: force in kN = factor X, X = d^2 (44 - 0.08 d), d in mm. The mass
//              0.0219 d^2 holds for 19 mm and up; 12.7 to 15.9 mm chain weighs 5 to 10 % more.
//           2. Two legs: break = 2 (pi/4) d^2 stress. The mean stress is nominal by grade: 315 MPa
//              grade 30, 400 grade 40, 800 grade 80; welded long link about 250.
//           3. New chain in straight pull. Wear, bends and connectors are left out.
// SOURCE    stud link: ISO 1704 / IACS UR A1, form [memory]; checked within 0.1 % against a reprint
//           of the table on six sizes from 1/2 to 1 7/8 in [read].
//           mass: fitted to the same reprint. [derived]
//           offshore chain: IACS UR W22; break agrees with a reprint of 34, 50 and 70 mm within 1 kN
//           [read in a reprint]; studless mass [memory]
//           two legs: definition of the grades in EN 818-7. [read]
#include "phys/phys.h"

#include <math.h>

// d^2 (44 - 0.08 d) with d in mm.
static double stud_size(double d)
{
    const double mm = 1e3 * d;
    return mm * mm * (44.0 - 0.08 * mm);
}

// N per unit of X. Break of one grade is the proof of the next.
static double stud_factor(int step)
{
    static const double factor[] = {6.86, 9.81, 13.73, 19.61};
    return step >= 0 && step < 4 ? factor[step] : (double)NAN;
}

static bool stud_grade(int grade)
{
    return grade >= 1 && grade <= 3;
}

double bys_chain_stud_break(int grade, double d)
{
    return stud_grade(grade) ? stud_factor(grade) * stud_size(d) : (double)NAN;
}

double bys_chain_stud_proof(int grade, double d)
{
    return stud_grade(grade) ? stud_factor(grade - 1) * stud_size(d) : (double)NAN;
}

double bys_chain_stud_mass(double d)
{
    return 21900.0 * d * d;
}

static double offshore(double factor, double d)
{
    return factor * 1e3 * stud_size(d);
}

// kN per unit of X, by grade.
double bys_chain_offshore_break(int grade, double d)
{
    return offshore(grade == 3 ? 0.0223 : grade == 35 ? 0.0249 : grade == 4 ? 0.0274 : NAN, d);
}

double bys_chain_offshore_proof(int grade, double d, bool stud)
{
    return offshore(grade == 3    ? 0.0156
                    : grade == 35 ? (stud ? 0.0180 : 0.0174)
                    : grade == 4  ? (stud ? 0.0216 : 0.0192)
                                  : NAN,
                    d);
}

double bys_chain_studless_mass(double d)
{
    return 20000.0 * d * d;
}

double bys_chain_link_break(double d, double stress)
{
    return 0.5 * BYS_PI * d * d * stress;
}
