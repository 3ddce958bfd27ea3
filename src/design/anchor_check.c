// SPDX-License-Identifier: GPL-3.0-or-later
// One anchor in one case.
//
// GIVEN     rule       what is known of the anchor                                         judge.h
//           force      of the legs on the anchor, east, north, up (vector sum)             N
//           heading    the way it was set to be pulled                                     rad from
//           north grounded   length of line on the bed                                           m
//           chain_grip friction of the chain on the bed                                    N
//           normal     of the bed, unit, upwards
// RETURNED  load effect along the bed, capacity in that pull, utilisation
// NOTES     1. Deadweight: the load vector is taken in proportion. The block slips (or lifts) at a
//              multiple k of the vector; capacity = k x horizontal pull, so that it is the holding
//              power at that angle of pull, and utilisation = load factor x resistance factor / k.
//              On a level bed capacity = m W/(1 + m tan a): the block passes if and only if it
//              stands still under the whole vector, uplift included, times both factors. A lifted
//              block has k < 1. The weight is favourable and comes reduced by the rule.
//           2. A downward pull on a deadweight is not credited.
//           3. Chain on the bed adds its sliding friction once, to a deadweight only: the power law
//              of drag anchors is for the whole system, and what a stated capacity holds is not
//              known.
//           4. Stated capacity (screw anchor, pull test): the pull is the resultant of the force.
//           5. Drag anchors: uplift is measured from the bed plane; 1e-4 rad is let pass, the
//              smoothness of the solver's bed. Beyond a limit the holding power is not known: the
//              case is not checked.
// SOURCE    note 1: statics of a block on a plane [derived]; 2-5: design rules of this program.
#include "design/judge.h"

#include <math.h>

static const double bed_smoothness = 1e-4; // rad

// Smallest root k >= 0 of (a0 + a1 k)^2 + (c1 k)^2 = (b0 + b1 k)^2 while b0 + b1 k >= 0, with
// |a0| < b0: the block rests without load. INFINITY if it never slips.
static double slip_root(double a0, double a1, double c1, double b0, double b1)
{
    const double A = a1 * a1 + c1 * c1 - b1 * b1, half = a0 * a1 - b0 * b1;
    const double C = a0 * a0 - b0 * b0, D = half * half - A * C;
    if (!(C < 0.0))
        return 0.0;
    if (D < 0.0)
        return INFINITY;
    const double q = -(half + copysign(sqrt(D), half));
    double best = INFINITY;
    const double roots[2] = {q / A, C / q};
    for (int i = 0; i < 2; i++)
        if (roots[i] > 0.0 && b0 + b1 * roots[i] >= -1e-9 * b0)
            best = fmin(best, roots[i]);
    return best;
}

// With the bed's normal n and down-slope unit vector t: per unit of k the load gives f.t along,
// |f - (f.n)n - (f.t)t| across, -f.n of normal force; the weight gives W sin b and W cos b.
double bys_anchor_slip(const bys_anchor_rule *rule, const double force[3], const double normal[3],
                       double chain_grip)
{
    const double f[3] = {force[0], force[1], fmax(force[2], 0.0)};
    const double sine = hypot(normal[0], normal[1]), cosine = normal[2];
    const double e[2] = {sine > 0.0 ? normal[0] / sine : 1.0, sine > 0.0 ? normal[1] / sine : 0.0};
    const double down = f[0] * e[0] + f[1] * e[1], across = f[1] * e[0] - f[0] * e[1];
    const double a0 = rule->weight * sine, a1 = down * cosine - f[2] * sine;
    const double n0 = rule->weight * cosine, n1 = -(f[2] * cosine + down * sine);
    const double m = rule->friction;
    double k = slip_root(a0, a1, across, m * n0 + chain_grip, m * n1);
    if (isfinite(rule->adhesion))
        k = fmin(k, slip_root(a0, a1, across, rule->adhesion + chain_grip, 0.0));
    return n1 < 0.0 ? fmin(k, -n0 / n1) : k;
}

static double angle_between(double a, double b)
{
    return fabs(remainder(a - b, 2.0 * 3.14159265358979323846));
}

static void look_weight(bys_anchor_seen *seen, const bys_anchor_rule *rule, const double force[3],
                        const double normal[3])
{
    const double size = hypot(seen->horizontal, seen->vertical);
    const double k =
        bys_anchor_slip(rule, force, normal, rule->chain_counts ? seen->chain_grip : 0.0);
    seen->characteristic = seen->horizontal > 1e-6 * size ? seen->horizontal : size;
    seen->capacity = k * seen->characteristic;
    seen->utilisation = rule->load_factor * rule->resistance_factor / k;
    if (size == 0.0) {
        seen->capacity = rule->friction * rule->weight;
        seen->utilisation = 0.0;
    }
}

static void look_stated(bys_anchor_seen *seen, const bys_anchor_rule *rule)
{
    const bool drag = rule->model == BYS_HOLD_DRAG;
    seen->characteristic = drag ? seen->horizontal : hypot(seen->horizontal, seen->vertical);
    if (seen->bed_uplift > rule->uplift_limit + bed_smoothness)
        seen->trouble = BYS_SEEN_UPLIFT;
    else if (seen->offset > rule->offset_limit && seen->characteristic > 1.0)
        seen->trouble = BYS_SEEN_OFFSET;
    if (seen->trouble != BYS_SEEN_OK)
        return;
    seen->capacity = rule->capacity;
    seen->utilisation =
        rule->load_factor * rule->resistance_factor * seen->characteristic / rule->capacity;
}

void bys_anchor_look(bys_anchor_seen *seen, const bys_anchor_rule *rule, const double force[3],
                     double heading, double grounded, double chain_grip, const double normal[3])
{
    const double horizontal = hypot(force[0], force[1]);
    const double size = hypot(horizontal, force[2]);
    const double along_normal = force[0] * normal[0] + force[1] * normal[1] + force[2] * normal[2];
    *seen = (bys_anchor_seen){
        .trouble = BYS_SEEN_OK,
        .horizontal = horizontal,
        .vertical = force[2],
        .uplift = atan2(force[2], horizontal),
        .offset = horizontal > 0.0 ? angle_between(atan2(force[0], force[1]), heading) : 0.0,
        .grounded = grounded,
        .chain_grip = chain_grip,
        .bed_uplift = size > 0.0 ? asin(fmax(-1.0, fmin(1.0, along_normal / size))) : 0.0,
        .characteristic = horizontal,
        .capacity = NAN,
        .utilisation = NAN,
        .lost = -1};
    if (*rule->missing)
        seen->trouble = BYS_SEEN_MISSING;
    else if (rule->model == BYS_HOLD_WEIGHT)
        look_weight(seen, rule, force, normal);
    else
        look_stated(seen, rule);
}
