// SPDX-License-Identifier: GPL-3.0-or-later
// Anchors in the ground whose holding follows from their form: screws, piles, rock pins, plates.
//
// GIVEN     the anchor part, the layers of soil under it, the chain at its eye
// RETURNED  bys_anchor_rule: holding along and across its shaft (N), each way to reckon it on
//           record
// NOTES     1. Where several ways are known the least counts; all are shown.
//           2. Soil of another kind above the layers that hold counts as nothing: the depth is
//              taken from the top of those layers, and a pile's pull then stands higher above
//              them. Layers of one kind count with the weakest numbers of all of them.
//           3. A pull within 30 deg of the shaft of a screw or rock pin counts as along it.
//              Beyond that its parts along and across are checked one by one, as for a pile; what
//              they do to each other is left out. Across, a shaft holds as a free-headed pile
//              (Broms).
//           4. Piles: alpha by API RP 2A in clay; K 0.8 and phi - 5 deg in sand.
//           5. A plate is checked as set: 30 deg off its heading and no rise of the pull at the
//              bed, if the part does not say otherwise. Depth after turning: plate.c.
//           6. Chain down to a buried eye: anchor_check.c. One layer of clay or mud only.
//           7. Carbonate sand, silt, gravel, coral, rock (but for pins): not known without a test.
// SOURCE    relations and their sources: phys/screw.c, pile.c, rock_pin.c, plate.c, chain_soil.c
//           note 3: rule of use [memory]; K and delta: API RP 2A [memory]; note 2 [derived]
#include "design/ground.h"
#include "design/judge.h"
#include "phys/hold.h"
#include "phys/phys.h"

#include <math.h>
#include <string.h>

static const double off_axis = BYS_PI / 6.0;
static const double sand_k = 0.8, sand_delta = 5.0 * BYS_PI / 180.0; // [memory]
static const double disturbed = 0.8, plate_nc = 9.0;                // [memory]

/// Puts on record what a stretch of soil lacks for a formula; false if it does.
static bool soil_known(bys_judge *judge, bys_anchor_rule *rule, const bys_soil_run *s)
{
    const char *kind = s->last ? s->last->kind : "";
    if (!s->last)
        bys_rule_lacks(rule, "the soil of the seabed is not stated");
    else if (s->family == BYS_GROUND_OTHER || s->family == BYS_GROUND_NONE)
        bys_rule_lacks(rule, bys_judge_text(judge, "no formula is known for it in %s: test it",
                                            kind));
    else if (s->family == BYS_GROUND_CLAY && !(s->su > 0.0))
        bys_rule_lacks(rule, bys_judge_text(judge, "the undrained strength of the %s is not stated",
                                            kind));
    else if (s->family == BYS_GROUND_SAND && !(s->phi > 0.0 && s->weight > 0.0))
        bys_rule_lacks(rule, bys_judge_text(judge, "friction angle and unit weight of the %s are "
                                            "not both stated", kind));
    if (s->last)
        bys_rule_weaken(rule, s->basis);
    return !*rule->missing;
}

// ---- screw ---------------------------------------------------------------------------------

/// One plate at depth z. Clay: the better of two bounds, each on the safe side: its own layer with
/// the depth within it, and all the clay above with the weakest strength.
static double plate_alone(const bys_soil_run *s, double z, double diameter)
{
    if (s->family == BYS_GROUND_SAND)
        return bys_screw_sand(1, diameter, z - s->from, 0.0, s->phi, s->weight).used;
    const double own = bys_screw_clay(1, diameter, z - s->last->top, 0.0, s->last->su).first;
    return fmax(own, bys_screw_clay(1, diameter, z - s->from, 0.0, s->su).first);
}

static double plates(bys_judge *judge, bys_anchor_rule *rule, const bys_anchor_form *f,
                     const bys_ground *ground)
{
    double sum = 0.0;
    for (int i = 0; i < f->helices; i++) {
        const double z = f->depth + i * (i ? f->spacing : 0.0);
        const bys_soil_run s = bys_ground_run(ground, z);
        if (!soil_known(judge, rule, &s))
            return NAN;
        sum += plate_alone(&s, z, f->helix);
    }
    return sum;
}

/// Cylinder between the plates and the upper plate; NAN where they lie in different kinds of soil.
static double cylinder(const bys_anchor_form *f, const bys_ground *ground)
{
    const bys_soil_run top = bys_ground_run(ground, f->depth);
    const bys_soil_run low =
        bys_ground_run(ground, f->depth + (f->helices - 1) * f->spacing);
    if (top.family != low.family || top.from != low.from)
        return NAN;
    const double depth = f->depth - top.from;
    return top.family == BYS_GROUND_SAND
               ? bys_screw_sand(f->helices, f->helix, depth, f->spacing, low.phi, low.weight).second
               : bys_screw_clay(f->helices, f->helix, depth, f->spacing, low.su).second;
}

static void screw_plates(bys_judge *judge, bys_anchor_rule *rule, const bys_anchor_form *f,
                         const bys_ground *ground)
{
    if (!(f->depth > 0.0))
        bys_rule_lacks(rule, "the depth of its upper plate is not stated");
    if (f->helices > 1 && !(f->spacing > 0.0))
        bys_rule_lacks(rule, "the spacing of its plates is not stated");
    const double alone = *rule->missing ? NAN : plates(judge, rule, f, ground);
    if (!*rule->missing && isnan(alone))
        bys_rule_lacks(rule, "the friction angle of the sand lies below the 25 deg of the formula");
    if (*rule->missing)
        return;
    bys_rule_method(rule, "plates one by one", alone);
    const double both = f->helices > 1 ? cylinder(f, ground) : NAN;
    if (!isnan(both))
        bys_rule_method(rule, "cylinder between the plates", both);
}

static void screw_torque(bys_anchor_rule *rule, const bys_anchor_form *f)
{
    if (!(f->torque > 0.0))
        return;
    const bys_two_ways k = bys_screw_torque_factor(f->square, f->shaft);
    if (isnan(k.used))
        bys_rule_lacks(rule, "its torque says nothing: no factor is known for a shaft of that "
                             "size, or its size is not stated");
    else
        bys_rule_method(rule, "torque", k.used * f->torque);
}

/// Elastic bending strength (N m) of a full round bar, a square bar or a tube.
static double bending(double width, double wall, double yield, bool square)
{
    const double in = wall > 0.0 && 2.0 * wall < width ? width - 2.0 * wall : 0.0;
    const double Z = square ? width * width * width / 6.0
                            : BYS_PI / 32.0 * (pow(width, 4.0) - pow(in, 4.0)) / width;
    return yield * Z;
}

/// Sideways holding of a shaft that reaches down to `to`; NAN if its steel is not stated.
static double sideways(const bys_ground *ground, double to, double width, double height,
                       double yield_moment)
{
    const bys_soil_run s = bys_ground_run(ground, to);
    const bys_pile pile = {width, to - s.from, height + s.from, yield_moment, false};
    if (!(yield_moment > 0.0) || !(width > 0.0) || !(pile.embedment > 0.0))
        return NAN;
    if (s.family == BYS_GROUND_CLAY)
        return bys_pile_lateral_clay(&pile, s.su).used;
    return s.family == BYS_GROUND_SAND ? bys_pile_lateral_sand(&pile, s.phi, s.weight).used : NAN;
}

static void screw_rule(bys_judge *judge, bys_anchor_rule *rule, const bys_anchor_form *f,
                       const bys_ground *ground)
{
    const bool plates_known = f->helix > 0.0;
    if (!plates_known && !(f->torque > 0.0)) {
        bys_rule_lacks(rule, "its holding power is not stated: give a capacity from a pull test, "
                             "its plates, or its torque");
        return;
    }
    if (plates_known)
        screw_plates(judge, rule, f, ground);
    screw_torque(rule, f);
    rule->capacity = bys_rule_least(rule, 0);
    const double to = f->depth + (f->helices > 1 ? (f->helices - 1) * f->spacing : 0.0);
    rule->across = sideways(ground, to, f->shaft, f->pull_height,
                            bending(f->shaft, NAN, f->yield, f->square));
    rule->axial_limit = off_axis;
}

// ---- pile ----------------------------------------------------------------------------------

static double pile_uplift(const bys_ground *ground, const bys_soil_run *s, double width,
                          double weight)
{
    const double length = s->to - s->from;
    if (s->family == BYS_GROUND_SAND)
        return bys_pile_uplift_sand(width, length, sand_k, s->phi - sand_delta, s->weight, weight);
    double over = 0.0; // weight of the soil above its middle
    const double middle = 0.5 * (s->from + s->to);
    for (int i = 0; i < ground->count && ground->layers[i].top < middle; i++) {
        const bys_soil *soil = &ground->layers[i];
        const double low = soil->thickness > 0.0 ? soil->top + soil->thickness : INFINITY;
        over += (fmin(low, middle) - soil->top) * soil->unit_weight;
    }
    return over > 0.0 ? bys_pile_uplift_clay(width, length, bys_pile_adhesion(s->su / over), s->su,
                                             weight)
                      : NAN;
}

static void pile_rule(bys_judge *judge, bys_anchor_rule *rule, const bys_anchor_part *part,
                      const bys_ground *ground)
{
    const bys_anchor_form *f = &part->form;
    const bys_soil_run s = bys_ground_run(ground, f->length);
    if (!(f->diameter > 0.0) || !(f->length > 0.0))
        bys_rule_lacks(rule, "diameter and length of the pile in the bed must be stated");
    if (!(f->yield > 0.0))
        bys_rule_lacks(rule, "the yield stress of the pile's steel is not stated");
    if (*rule->missing || !soil_known(judge, rule, &s))
        return;
    const double weight = part->mass > 0.0 && part->density > judge->site->rho_water
                              ? bys_submerged_weight(part->mass, part->density,
                                                     judge->site->rho_water) : 0.0;
    const double up = pile_uplift(ground, &s, f->diameter, weight);
    const double My = bending(f->diameter, f->wall, f->yield, false);
    if (isnan(up))
        bys_rule_lacks(rule, "the unit weight of the soil around the pile is not stated");
    rule->across = sideways(ground, f->length, f->diameter, f->pull_height, My);
    bys_rule_method(rule, "uplift along the pile", up);
    rule->capacity = bys_rule_least(rule, 0);
    rule->axial_limit = -1.0; // parts along and across, always
    rule->eye_depth = f->eye_depth;
}

// ---- rock pin ------------------------------------------------------------------------------

static double grout_bond(const bys_anchor_form *f)
{
    char name[24] = "";
    double low, high, bond = f->rock_strength > 0.0 ? bys_rock_bond_from_strength(f->rock_strength)
                                                    : (double)NAN;
    for (size_t i = 0; f->rock && f->rock[i] && i + 1 < sizeof name; i++)
        name[i] = f->rock[i] == '-' ? ' ' : f->rock[i];
    if (bys_rock_bond(name, &low, &high))
        bond = isnan(bond) ? low : fmin(bond, low);
    return bond;
}

static void pin_rule(bys_judge *judge, bys_anchor_rule *rule, const bys_anchor_part *part,
                     const bys_ground *ground)
{
    const bys_anchor_form *f = &part->form;
    const bys_soil *top = bys_ground_top(ground);
    const bys_rock_pin pin = {f->shaft, f->hole, f->bond_length,
                              f->free_length + 0.5 * f->bond_length, part->strength, f->bar_bond,
                              grout_bond(f), top ? top->unit_weight : (double)NAN};
    const bys_rock_pin_hold hold = bys_rock_pin_capacity(&pin);
    if (!bys_soil_is(top, "rock"))
        bys_rule_lacks(rule, "the bed is not stated to be rock");
    if (isnan(hold.used))
        bys_rule_lacks(rule, bys_judge_text(judge, "what its %s holds is not known: state bar, "
                                            "hole, bond length, bonds, strength, and the rock's "
                                            "weight",
                                            hold.governs));
    bys_rule_weaken(rule, BYS_BASIS_MEMORY);
    bys_rule_weaken(rule, bys_soil_basis(top));
    bys_rule_method(rule, "steel", hold.steel);
    bys_rule_method(rule, "bond of bar and grout", hold.bar_bond);
    bys_rule_method(rule, "bond of grout and rock", hold.rock_bond);
    bys_rule_method(rule, "cone of rock", hold.cone);
    rule->capacity = bys_rule_least(rule, 0);
    rule->axial_limit = off_axis;
}

// ---- what they have in common --------------------------------------------------------------

static const char *ways(bys_judge *judge, const bys_anchor_rule *rule)
{
    const char *text = "";
    for (int i = 0; i < rule->method_count; i++)
        text = bys_judge_text(judge, "%s%s%s %s", text, *text ? ", " : "", rule->methods[i].name,
                              bys_kilonewtons(judge, rule->methods[i].capacity));
    return text;
}

/// The soil's resistance to the chain that cuts down to a buried eye.
static void bury_chain(bys_judge *judge, bys_anchor_rule *rule, const bys_ground *ground,
                       const bys_anchor_place *place)
{
    if (!(rule->eye_depth > 0.0))
        return;
    const bys_soil_run s = bys_ground_run(ground, rule->eye_depth);
    if (s.family != BYS_GROUND_CLAY || s.from > 0.0 || s.layers != 1)
        bys_rule_lacks(rule, "the way of the chain down to its eye is known in one layer of clay "
                             "or mud only");
    else if (!(place->bar > 0.0))
        bys_rule_lacks(rule, "the way down to its eye is known for chain only, and its leg starts "
                             "with another line");
    else
        rule->chain_pull = bys_chain_clay_resistance(place->bar, s.su, 1.0);
    bys_rule_weaken(rule, BYS_BASIS_MEMORY);
    rule->how = bys_judge_text(judge, "%s; eye %.2f m down", rule->how, rule->eye_depth);
}

void bys_anchor_shaft_rule(bys_judge *judge, bys_anchor_rule *rule, const bys_anchor_part *part,
                           const bys_anchor_place *place)
{
    const bys_ground ground = bys_ground_at(judge->site, place->x, place->y);
    rule->model = BYS_HOLD_SHAFT;
    rule->shaft_angle = part->form.shaft_angle > 0.0 ? part->form.shaft_angle : BYS_PI / 2.0;
    if (part->kind == BYS_ANCHOR_SCREW)
        screw_rule(judge, rule, &part->form, &ground);
    else if (part->kind == BYS_ANCHOR_PILE)
        pile_rule(judge, rule, part, &ground);
    else
        pin_rule(judge, rule, part, &ground);
    bys_rule_weaken(rule, BYS_BASIS_MEMORY);
    if (!isnan(rule->across))
        bys_rule_method(rule, "across the shaft", rule->across);
    rule->how = ways(judge, rule);
    if (part->kind == BYS_ANCHOR_PILE)
        bury_chain(judge, rule, &ground, place);
}

void bys_anchor_plate_rule(bys_judge *judge, bys_anchor_rule *rule, const bys_anchor_part *part,
                           const bys_anchor_place *place)
{
    const bys_anchor_form *f = &part->form;
    const bys_ground ground = bys_ground_at(judge->site, place->x, place->y);
    const double B = fmin(f->width, f->length), L = fmax(f->width, f->length);
    bys_soil_run s = bys_ground_run(&ground, f->depth);
    const double z = bys_plate_keyed_depth(f->depth, B, s.family == BYS_GROUND_CLAY);
    bys_rule_weaken(rule, BYS_BASIS_MEMORY);
    if (!(f->width > 0.0) || !(f->length > 0.0) || !(f->depth > 0.0)) {
        bys_rule_lacks(rule, "width, length and depth of the plate must be stated");
        return;
    }
    s = bys_ground_run(&ground, z);
    if (!soil_known(judge, rule, &s))
        return;
    const double over = (z - s.from) / B;
    double m, limit;
    if (s.family == BYS_GROUND_CLAY)
        bys_rule_method(rule, "plate in clay",
                        bys_plate_clay(B, L, disturbed, s.su, fmin(1.2 * over, plate_nc)));
    else if (bys_sand_limits(s.phi, &m, &limit))
        bys_rule_method(rule, "plate in sand",
                        bys_plate_sand(B, L, z - s.from, s.weight,
                                       bys_sand_breakout(fmin(over, limit), m,
                                                         0.95 * tan(s.phi))));
    else
        bys_rule_lacks(rule, "the friction angle of the sand lies below the 25 deg of the formula");
    rule->capacity = bys_rule_least(rule, 0);
    rule->eye_depth = f->eye_depth;
    rule->how = bys_judge_text(judge, "%s, %.2f m deep after turning", ways(judge, rule), z);
    bury_chain(judge, rule, &ground, place);
}
