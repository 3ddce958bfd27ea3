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
//           6. Shafts: within a limit off the shaft the resultant counts as along it; beyond it the
//              parts along and across are checked one by one, each with its factor, and the worse
//              counts. What they do to each other is left out.
//           7. A buried eye: the chain cuts through the soil; its weight is left out. The pull
//              falls and steepens; both ends of the soil's resistance to it are tried.
// SOURCE    note 1: statics of a block on a plane [derived]; 2-7: design rules of this program.
#include "design/judge.h"
#include "phys/hold.h"

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
    double k = rule->keyed ? INFINITY
                           : slip_root(a0, a1, across, m * n0 + chain_grip + rule->key, m * n1);
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

/// The chain's pull on an eye `depth` below the bed, where the soil's strength bears on the bar
//with
/// factor nc: less than at the bed, and steeper. The load as designed for cuts the chain down.
static bool at_eye(double out[3], const bys_anchor_rule *rule, const double force[3], double nc)
{
    static const double slide = 0.4; // friction over resistance, lower end [memory]
    const double plan = hypot(force[0], force[1]), lf = rule->load_factor;
    const bys_chain_soil soil = {rule->chain_pull * nc, 0.0, slide, 0.0};
    bys_chain_end end;
    if (!(plan > 0.0) || !bys_chain_in_soil(&end, &soil, lf * hypot(plan, force[2]),
                                            atan2(fmax(force[2], 0.0), plan), rule->eye_depth))
        return false;
    const double level = end.tension * cos(end.angle) / lf;
    out[0] = level * force[0] / plan;
    out[1] = level * force[1] / plan;
    out[2] = end.tension * sin(end.angle) / lf;
    return true;
}

static double use_of(double load, double factor, double capacity, const bys_anchor_rule *rule)
{
    return load > 0.0 ? rule->load_factor * factor * load / capacity : 0.0;
}

static void look_shaft(bys_anchor_seen *seen, const bys_anchor_rule *rule, const double force[3],
                       double heading)
{
    const double flat = cos(rule->shaft_angle);
    const double axis[3] = {flat * sin(heading), flat * cos(heading), sin(rule->shaft_angle)};
    const double size = hypot(hypot(force[0], force[1]), force[2]);
    const double along = force[0] * axis[0] + force[1] * axis[1] + force[2] * axis[2];
    const double across = sqrt(fmax(size * size - along * along, 0.0));
    seen->off_shaft = size > 0.0 ? atan2(across, along) : 0.0;
    const bool axial = seen->off_shaft <= rule->axial_limit;
    const double pull = axial ? size : along;
    const double use = use_of(pull, rule->resistance_factor, rule->capacity, rule);
    const double side = axial ? 0.0 : use_of(across, rule->across_factor, rule->across, rule);
    if (isnan(side))
        seen->trouble = BYS_SEEN_ACROSS;
    seen->across = isnan(side) || side > use;
    seen->characteristic = seen->across ? across : pull;
    if (isnan(side))
        return;
    seen->capacity = seen->across ? rule->across : rule->capacity;
    seen->utilisation = fmax(use, side);
}

static void look_by_model(bys_anchor_seen *seen, const bys_anchor_rule *rule,
                          const double force[3], double heading, const double normal[3])
{
    if (rule->model == BYS_HOLD_WEIGHT)
        look_weight(seen, rule, force, normal);
    else if (rule->model == BYS_HOLD_SHAFT)
        look_shaft(seen, rule, force, heading);
    else
        look_stated(seen, rule);
}

/// Both ends of what the soil may do to the chain; the worse counts.
static void look_buried(bys_anchor_seen *seen, const bys_anchor_rule *rule, const double force[3],
                        double heading, const double normal[3])
{
    static const double factors[] = {5.1, 7.6}; // at the bed, deep [memory]
    bys_anchor_seen worst = *seen;
    for (int i = 0; i < 2; i++) {
        double pull[3];
        bys_anchor_seen here = *seen;
        if (!at_eye(pull, rule, force, factors[i])) {
            seen->trouble = BYS_SEEN_CHAIN;
            return;
        }
        if (rule->model == BYS_HOLD_DRAG) // a plate faces the line where it comes in
            here.horizontal = hypot(hypot(pull[0], pull[1]), pull[2]);
        look_by_model(&here, rule, pull, heading, normal);
        here.horizontal = seen->horizontal;
        if (i == 0 || here.trouble != BYS_SEEN_OK || here.utilisation > worst.utilisation)
            worst = here;
        if (worst.trouble != BYS_SEEN_OK)
            break;
    }
    *seen = worst;
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
        .off_shaft = NAN,
        .lost = -1};
    if (*rule->missing)
        seen->trouble = BYS_SEEN_MISSING;
    else if (rule->chain_pull > 0.0 && size > 0.0)
        look_buried(seen, rule, force, heading, normal);
    else
        look_by_model(seen, rule, force, heading, normal);
}
