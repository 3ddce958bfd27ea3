// SPDX-License-Identifier: GPL-3.0-or-later
// A gravity anchor on the bed: sliding and lifting.
//
// GIVEN     h, v       leg's force on the anchor: horizontal, upwards                        N
//           weight     in water, as credited                                                 N
//           friction   coefficient between base and bed                                      -
//           slope      steepest angle of the bed                                             rad
//           pull_downslope   cosine of the angle in plan between pull and downslope          -
//           alpha, su, area  adhesion factor, undrained strength, base area               -, Pa, m2
//           angle      of the leg above the bed                                              rad
//           mass, density, rho_water                                                      kg, kg/m3
// RETURNED  driving force along the bed, resistance, normal force (N), whether it is lifted;
//           resistance on clay (N); largest horizontal force (N); weight in water (N).
// NOTES     1. Plane bed, a block that slides as a whole: no tipping, no keying in, no suction, no
//              soil heaped in front.
//           2. The driving force is the vector sum in the plane of the bed, the weight's own part
//              down the slope included: a pull straight up the slope first takes that part away.
//           3. Clay: friction and adhesion are never added, the lesser counts. After a first slip
//              the remoulded strength is the one to give.
//           4. Field experience is poor: concrete anchors in soft mud over stiff clay were found at
//              20-30 % of their predicted capacity (OTC 6033, 1989).
// SOURCE    statics of a block on a plane. [derived]
//           min(mu W', alpha su A) on clay: common form, Navy practice. [memory]
#include "phys/phys.h"

#include <math.h>

// Downslope unit vector along the bed t = (cos b, 0, -sin b), outward normal n = (sin b, 0, cos b),
// force F = (h c, h s, v - W) with c = pull_downslope, s = sin of the same angle:
//   normal = -F.n = (W - v) cos b - h c sin b,  along = F.t = h c cos b + (W - v) sin b,
//   across = h s.
bys_deadweight bys_deadweight_hold(double h, double v, double weight, double friction,
                                   double slope, double pull_downslope)
{
    const double c = pull_downslope, net = weight - v;
    const double across2 = h * h * fmax(1.0 - c * c, 0.0);
    const double along = h * c * cos(slope) + net * sin(slope);
    const double normal = net * cos(slope) - h * c * sin(slope);
    bys_deadweight result;
    result.driving = sqrt(along * along + across2);
    result.lifted = !(normal > 0.0);
    result.normal = result.lifted ? 0.0 : normal;
    result.resistance = friction * result.normal;
    return result;
}

double bys_deadweight_clay(double normal, double friction, double alpha, double su, double area)
{
    return fmin(friction * fmax(normal, 0.0), alpha * su * area);
}

// h = mu (W - h tan a); the leg's tension is h / cos a.
double bys_deadweight_capacity(double weight, double friction, double angle)
{
    return friction * weight / (1.0 + friction * tan(angle));
}

double bys_submerged_weight(double mass, double density, double rho_water)
{
    return mass * BYS_G * (1.0 - rho_water / density);
}
