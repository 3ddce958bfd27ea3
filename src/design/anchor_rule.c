// SPDX-License-Identifier: GPL-3.0-or-later
// What is known of each anchor before any case is solved: the relation that gives its holding
// power, the factors of the rule profile, and what is missing.
//
// GIVEN     the anchor part, the top soil of the seabed, the factors of the rules
// RETURNED  bys_anchor_rule
// NOTES     1. A stated capacity goes before any relation. Its kind (ultimate, fractile, proof)
// must be
//              the one that the profile's factors are meant for, and the uplift up to which it
//              holds must be stated; otherwise the anchor is not checked.
//           2. A deadweight's weight is favourable: 0.9 of it counts, or the profile's factor
//              "weight-favourable". Without a stated coefficient 0.30 is used: precast concrete on
//              sand.
//           3. On clay or mud a deadweight holds the lesser of friction and su x base area; both
//           must
//              be stated.
//           4. Clay for drag anchors: su up to 25 kPa counts as mud, from 70 kPa as sand; between
//           them
//              no row of the table applies.
//           5. Nothing that is missing is set to 1: the anchor is then not checked.
// SOURCE    0.9: common limit-state practice for favourable weight [memory]. 0.30: lower end of
// formed
//           concrete on clean sand, NAVFAC DM 7.02 Table 1, textbook copy [memory]. 70 kPa: NCEL
//           TDS 83-08R [memory]; 25 kPa: upper end of soft clay, common practice, no source.
#include "design/judge.h"
#include "phys/phys.h"

#include <math.h>
#include <string.h>

static const double favourable = 0.9;
static const double precast_friction = 0.30;
static const double soft_clay = 25e3, stiff_clay = 70e3; // Pa

static const bys_soil *top_soil(const bys_site *site)
{
    const bys_soil *top = NULL;
    for (int i = 0; site->has_bed && i < site->bed.soil_count; i++)
        if (!top || site->bed.soils[i].top < top->top)
            top = &site->bed.soils[i];
    return top;
}

static bool soil_is(const bys_soil *soil, const char *kind)
{
    return soil && strcmp(soil->kind, kind) == 0;
}

static bys_basis soil_basis(const bys_soil *soil)
{
    return !soil ? BYS_BASIS_ASSUMED : soil->measured ? BYS_BASIS_TEST : BYS_BASIS_ASSUMED;
}

static void weaken(bys_anchor_rule *rule, bys_basis basis)
{
    rule->basis = bys_basis_weaker(rule->basis, basis);
}

/// Puts the first missing thing on record; later ones are left out.
static void lack(bys_anchor_rule *rule, const char *what)
{
    if (!*rule->missing)
        rule->missing = what;
}

// ---- deadweight ----------------------------------------------------------------------------

static void clay_base(bys_judge *judge, bys_anchor_rule *rule, const bys_anchor_part *part,
                      const bys_soil *soil)
{
    if (!(soil->su > 0.0))
        lack(rule,
             bys_judge_text(judge, "the undrained strength of the %s is not stated", soil->kind));
    else if (!(part->base_area > 0.0))
        lack(rule, bys_judge_text(judge, "on %s the block's base area must be stated", soil->kind));
    else
        rule->adhesion = soil->su * part->base_area;
}

static void weight_rule(bys_judge *judge, bys_anchor_rule *rule, const bys_anchor_part *part)
{
    const bys_soil *soil = top_soil(judge->site);
    const bys_factor *credit = bys_rules_factor(&judge->site->rules, "weight-favourable");
    const double share = credit && credit->value > 0.0 ? credit->value : favourable;
    rule->model = BYS_HOLD_WEIGHT;
    weaken(rule, credit && credit->value > 0.0 ? credit->basis : BYS_BASIS_MEMORY);
    const double weight = bys_submerged_weight(part->mass, part->density, judge->site->rho_water);
    rule->weight = share * weight;
    rule->friction = part->friction;
    bys_basis known = part->friction_basis;
    if (!(part->friction >= 0.0)) {
        rule->friction = precast_friction;
        known = BYS_BASIS_MEMORY;
    }
    weaken(rule, known);
    rule->chain_counts = true;
    rule->adhesion = INFINITY;
    if (!(part->mass > 0.0) || !(part->density > judge->site->rho_water))
        lack(rule, "mass and density of the block must be stated, and it must sink");
    if (!soil)
        lack(rule, "the soil of the seabed is not stated");
    else if (soil_is(soil, "clay") || soil_is(soil, "mud"))
        clay_base(judge, rule, part, soil);
    weaken(rule, soil_basis(soil));
    rule->how = bys_judge_text(
        judge, "%.2f of its %.1f kN in water, friction %.2f%s", share, weight / 1000.0,
        rule->friction, isfinite(rule->adhesion) ? ", held to base area x undrained strength" : "");
}

// ---- drag anchor ---------------------------------------------------------------------------

static int drag_class(const char *name)
{
    for (int c = 0; c < BYS_DRAG_CLASS_COUNT; c++)
        if (strcmp(bys_drag_class_name((bys_drag_class)c), name) == 0)
            return c;
    return -1;
}

/// Row of the power-law table for the soil; -1 with the reason on record.
static int drag_bed(bys_judge *judge, bys_anchor_rule *rule, const bys_soil *soil)
{
    if (soil_is(soil, "sand"))
        return BYS_BED_SAND;
    if (soil_is(soil, "mud"))
        return BYS_BED_MUD;
    if (soil_is(soil, "clay") && soil->su > 0.0 && soil->su <= soft_clay)
        return BYS_BED_MUD;
    if (soil_is(soil, "clay") && soil->su >= stiff_clay)
        return BYS_BED_SAND;
    if (!soil)
        lack(rule, "the soil of the seabed is not stated");
    else if (soil_is(soil, "clay") && !(soil->su > 0.0))
        lack(rule, "the undrained strength of the clay is not stated");
    else
        lack(rule,
             bys_judge_text(judge, "no power law is known for a drag anchor in %s%s", soil->kind,
                            soil_is(soil, "clay") ? " between soft and stiff" : ""));
    return -1;
}

static void drag_rule(bys_judge *judge, bys_anchor_rule *rule, const bys_anchor_part *part,
                      int class)
{
    const int bed = drag_bed(judge, rule, top_soil(judge->site));
    bool outside = false;
    if (class < 0)
        lack(rule, "the class of the drag anchor is not stated");
    if (class < 0 || bed < 0)
        return;
    rule->capacity =
        bys_drag_anchor_capacity((bys_drag_class) class, (bys_drag_bed)bed, part->mass, &outside);
    weaken(rule, BYS_BASIS_MEMORY);
    weaken(rule, soil_basis(top_soil(judge->site)));
    rule->how = bys_judge_text(
        judge, "power law for %s in %s, %.0f kg%s", bys_drag_class_name((bys_drag_class) class),
        bed == BYS_BED_MUD ? "mud" : "sand", part->mass,
        outside ? ": lighter or heavier than the 0.1 to 20 t of the fit" : "");
}

// ---- stated capacity -----------------------------------------------------------------------

static void stated_rule(bys_judge *judge, bys_anchor_rule *rule, const bys_anchor_part *part)
{
    const char *wanted = judge->site->rules.capacity_basis;
    rule->model = part->kind == BYS_ANCHOR_DRAG ? BYS_HOLD_DRAG : BYS_HOLD_STATED;
    rule->capacity = part->capacity;
    rule->uplift_limit = part->capacity_angle;
    weaken(rule, part->capacity_basis);
    if (!*part->capacity_kind)
        lack(rule, "the stated capacity does not say whether it is ultimate, fractile or proof");
    else if (wanted && *wanted && strcmp(part->capacity_kind, wanted) != 0)
        lack(rule, bys_judge_text(judge,
                                  "the stated capacity is %s, the profile's factors are for %s: "
                                  "the two must not be mixed",
                                  part->capacity_kind, wanted));
    if (isnan(part->capacity_angle))
        lack(rule, "the uplift up to which the stated capacity holds is not stated");
    rule->how = bys_judge_text(judge, "%s capacity %s%s%s%s", part->capacity_kind,
                               part->capacity_basis == BYS_BASIS_TEST ? "by test" : "as stated",
                               *part->test ? " (" : "", part->test, *part->test ? ")" : "");
}

// ---- all -----------------------------------------------------------------------------------

static void take_factors(bys_judge *judge, bys_anchor_rule *rule)
{
    const bys_rules *rules = &judge->site->rules;
    const bys_factor *load = bys_rules_factor(rules, "load-static");
    const bys_factor *resistance = bys_rules_factor(rules, rule->component);
    rule->load_factor = load ? load->value : NAN;
    rule->resistance_factor = resistance ? resistance->value : NAN;
    rule->source = resistance
                       ? bys_judge_text(judge, "%s%s%s", resistance->clause,
                                        *resistance->clause && *resistance->source ? ", " : "",
                                        resistance->source)
                       : "";
    if (!(rule->resistance_factor > 0.0))
        lack(rule, bys_judge_text(
                       judge, "the profile has no factor for \"%s\": supply one with its reason",
                       rule->component));
    else
        weaken(rule, resistance->basis);
    if (!(rule->load_factor > 0.0))
        lack(rule, "the profile has no load factor for static analysis (load-static)");
    else
        weaken(rule, load->basis);
}

bys_anchor_rule bys_anchor_rule_make(bys_judge *judge, const bys_anchor_part *part, bys_basis basis)
{
    bys_anchor_rule rule = {.capacity = NAN,
                            .uplift_limit = part->uplift_limit,
                            .offset_limit = INFINITY,
                            .adhesion = INFINITY,
                            .basis = basis,
                            .chain_basis = BYS_BASIS_MEMORY,
                            .missing = "",
                            .how = "",
                            .source = ""};
    const int class = part->kind == BYS_ANCHOR_DRAG ? drag_class(part->drag_class) : -1;
    rule.component = part->kind == BYS_ANCHOR_DEADWEIGHT ? "deadweight"
                     : part->kind == BYS_ANCHOR_SCREW    ? "screw"
                     : class >= 0 && bys_drag_class_high_efficiency((bys_drag_class) class)
                         ? "drag-high-efficiency"
                         : "drag-stockless";
    if (part->kind == BYS_ANCHOR_FIXED) {
        rule.component = "fixed";
        rule.missing = "a fixed point is not checked";
        rule.load_factor = rule.resistance_factor = NAN;
        return rule;
    }
    if (part->kind == BYS_ANCHOR_DRAG) {
        rule.model = BYS_HOLD_DRAG;
        rule.offset_limit = part->offset_limit;
        rule.uplift_limit = part->uplift_limit > 0.0 ? part->uplift_limit : 0.0;
    }
    if (part->capacity > 0.0)
        stated_rule(judge, &rule, part);
    else if (part->kind == BYS_ANCHOR_DEADWEIGHT)
        weight_rule(judge, &rule, part);
    else if (part->kind == BYS_ANCHOR_DRAG)
        drag_rule(judge, &rule, part, class);
    else
        lack(&rule, "its holding power is not stated: give a capacity from a pull test");
    take_factors(judge, &rule);
    return rule;
}

bool bys_judge_anchors(bys_judge *judge)
{
    const bys_network *net = judge->stages[0].net;
    judge->anchor_count = net->anchor_count;
    judge->rules = bys_judge_get(judge, (size_t)net->anchor_count, sizeof *judge->rules);
    if (!judge->rules)
        return false;
    for (int a = 0; a < net->anchor_count; a++) {
        static const bys_anchor_part unknown = {.kind = BYS_ANCHOR_FIXED};
        const bys_part *part = net->anchors[a].part;
        judge->rules[a] = bys_anchor_rule_make(judge, part ? &part->u.anchor : &unknown,
                                               part ? part->item.basis : BYS_BASIS_ASSUMED);
    }
    return !judge->no_memory;
}
