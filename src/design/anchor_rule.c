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
#include "design/ground.h"
#include "design/judge.h"
#include "phys/hold.h"
#include "phys/phys.h"

#include <math.h>
#include <string.h>

static const double favourable = 0.9;
static const double precast_friction = 0.30;
static const double soft_clay = 25e3, stiff_clay = 70e3; // Pa

void bys_rule_weaken(bys_anchor_rule *rule, bys_basis basis)
{
    rule->basis = bys_basis_weaker(rule->basis, basis);
}

void bys_rule_lacks(bys_anchor_rule *rule, const char *what)
{
    if (!*rule->missing)
        rule->missing = what;
}

void bys_rule_method(bys_anchor_rule *rule, const char *name, double capacity)
{
    if (rule->method_count < BYS_METHODS)
        rule->methods[rule->method_count++] = (bys_method){name, capacity, false};
}

double bys_rule_least(bys_anchor_rule *rule, int first)
{
    int at = first;
    for (int i = first; i < rule->method_count; i++)
        if (!isnan(rule->methods[at].capacity) &&
            !(rule->methods[i].capacity >= rule->methods[at].capacity))
            at = i;
    if (first >= rule->method_count)
        return NAN;
    rule->methods[at].used = true;
    return rule->methods[at].capacity;
}

// ---- deadweight ----------------------------------------------------------------------------

// Is the block heavy enough to push its key into the ground? Tip only: the sides, which resist too,
// are left out.
static bool key_goes_in(const bys_anchor_form *form, const bys_soil *soil, double weight)
{
    const double tip = form->key_thickness * form->key_width, z = form->key_depth;
    if (bys_soil_family(soil) == BYS_GROUND_CLAY)
        return bys_bearing_clay(soil->su, fmin(form->key_thickness, form->key_width),
                                fmax(form->key_thickness, form->key_width), z) * tip < weight;
    return bys_key_tip_sand(z, soil->friction_angle, soil->unit_weight) * tip < weight;
}

/// What a key adds, in words; "" without one. Its numbers go into the rule.
static const char *add_key(bys_judge *judge, bys_anchor_rule *rule, const bys_anchor_part *part,
                           const bys_soil *soil)
{
    const bys_anchor_form *f = &part->form;
    const bys_ground_family family = bys_soil_family(soil);
    if (!(f->key_depth > 0.0))
        return "";
    if (!(f->key_width > 0.0) || !(f->key_thickness > 0.0))
        return "; its keys do not count: their width and thickness are not both stated";
    if (family != BYS_GROUND_CLAY && family != BYS_GROUND_SAND)
        return "; its keys do not count: they are known for sand, clay and mud only";
    if (family == BYS_GROUND_SAND && !(soil->friction_angle > 0.0 && soil->unit_weight > 0.0))
        return "; its keys do not count: friction angle and unit weight of the sand are not stated";
    if (family == BYS_GROUND_CLAY && !isfinite(rule->adhesion))
        return "";
    if (!key_goes_in(f, soil, rule->weight))
        return "; its keys do not count: the block is too light to push them in";
    if (family == BYS_GROUND_SAND) {
        rule->key = bys_key_sand(f->key_depth, f->key_width, soil->friction_angle,
                                 soil->unit_weight);
        return bys_judge_text(judge, "; keys add %s", bys_kilonewtons(judge, rule->key));
    }
    rule->adhesion = bys_key_clay(f->key_depth, f->key_width, part->base_area, 2.0,
                                  rule->adhesion / part->base_area);
    rule->keyed = true;
    bys_rule_weaken(rule, BYS_BASIS_MEMORY);
    return bys_judge_text(judge, "; keys and the plane of their tips hold %s in place of friction",
                          bys_kilonewtons(judge, rule->adhesion));
}

static void clay_base(bys_judge *judge, bys_anchor_rule *rule, const bys_anchor_part *part,
                      const bys_soil *soil)
{
    const double su = soil->remoulded > 0.0 ? soil->remoulded : soil->su;
    if (!(soil->su > 0.0))
        bys_rule_lacks(rule, bys_judge_text(judge,
                                            "the undrained strength of the %s is not stated",
                                            soil->kind));
    else if (!(part->base_area > 0.0))
        bys_rule_lacks(rule, bys_judge_text(judge, "on %s the block's base area must be stated",
                                            soil->kind));
    else
        rule->adhesion = fmin(su, soil->su) * part->base_area;
}

/// The coefficient and how well it is known.
static void take_friction(bys_judge *judge, bys_anchor_rule *rule, const bys_anchor_part *part,
                          const bys_soil *soil)
{
    const char *base = part->form.base ? part->form.base : "concrete";
    rule->friction = part->friction;
    bys_rule_weaken(rule, part->friction >= 0.0 ? part->friction_basis : BYS_BASIS_MEMORY);
    if (part->friction >= 0.0)
        return;
    rule->friction = soil ? bys_base_friction(base, soil->kind) : precast_friction;
    if (isnan(rule->friction))
        bys_rule_lacks(rule, bys_judge_text(judge,
                                            "no friction of a block on %s is known: state one",
                                            soil->kind));
}

static void weight_rule(bys_judge *judge, bys_anchor_rule *rule, const bys_anchor_part *part,
                        const bys_anchor_place *place)
{
    const bys_ground ground = bys_ground_at(judge->site, place->x, place->y);
    const bys_soil *soil = bys_ground_top(&ground);
    const bys_factor *credit = bys_rules_factor(&judge->site->rules, "weight-favourable");
    const double share = credit && credit->value > 0.0 ? credit->value : favourable;
    rule->model = BYS_HOLD_WEIGHT;
    bys_rule_weaken(rule, credit && credit->value > 0.0 ? credit->basis : BYS_BASIS_MEMORY);
    const double weight = bys_submerged_weight(part->mass, part->density, judge->site->rho_water);
    rule->weight = share * weight;
    rule->share = share;
    take_friction(judge, rule, part, soil);
    rule->chain_counts = true;
    if (!(part->mass > 0.0) || !(part->density > judge->site->rho_water))
        bys_rule_lacks(rule, "mass and density of the block must be stated, and it must sink");
    if (!soil)
        bys_rule_lacks(rule, "the soil of the seabed is not stated");
    else if (bys_soil_family(soil) == BYS_GROUND_CLAY)
        clay_base(judge, rule, part, soil);
    bys_rule_weaken(rule, bys_soil_basis(soil));
    bys_rule_method(rule, "friction on a level bed", rule->friction * rule->weight);
    if (isfinite(rule->adhesion))
        bys_rule_method(rule, "base area x undrained strength", rule->adhesion);
    const char *keys = soil ? add_key(judge, rule, part, soil) : "";
    if (rule->keyed)
        bys_rule_method(rule, "keys and the plane of their tips", rule->adhesion);
    else
        bys_rule_least(rule, 0);
    rule->methods[rule->method_count - 1].used |= rule->keyed;
    rule->how = bys_judge_text(
        judge, "%.2f of its %.1f kN in water, friction %.2f%s%s", share, weight / 1000.0,
        rule->friction,
        isfinite(rule->adhesion) && !rule->keyed ? ", held to base area x undrained strength" : "",
        keys);
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
    if (bys_soil_is(soil, "sand"))
        return BYS_BED_SAND;
    if (bys_soil_is(soil, "mud"))
        return BYS_BED_MUD;
    if (bys_soil_is(soil, "clay") && soil->su > 0.0 && soil->su <= soft_clay)
        return BYS_BED_MUD;
    if (bys_soil_is(soil, "clay") && soil->su >= stiff_clay)
        return BYS_BED_SAND;
    if (!soil)
        bys_rule_lacks(rule, "the soil of the seabed is not stated");
    else if (bys_soil_is(soil, "clay") && !(soil->su > 0.0))
        bys_rule_lacks(rule, "the undrained strength of the clay is not stated");
    else
        bys_rule_lacks(rule,
             bys_judge_text(judge, "no power law is known for a drag anchor in %s%s", soil->kind,
                            bys_soil_is(soil, "clay") ? " between soft and stiff" : ""));
    return -1;
}

/// Words on the depth that the anchor needs and has; lacks where it has less.
static const char *drag_depth(bys_judge *judge, bys_anchor_rule *rule, const bys_anchor_part *part,
                              const bys_ground *ground, double lengths)
{
    const double there = bys_ground_top_thickness(ground);
    const double needed = lengths * part->form.fluke;
    const char *kind = bys_ground_top(ground)->kind;
    if (isinf(there))
        return "";
    if (!(needed > 0.0)) {
        bys_rule_weaken(rule, BYS_BASIS_ASSUMED);
        return bys_judge_text(judge, "; whether the %.1f m of %s are deep enough was not looked "
                              "at: no fluke length", there, kind);
    }
    if (needed > there)
        bys_rule_lacks(rule, bys_judge_text(judge, "its fluke digs %.1f m deep (%.1f fluke lengths)"
                                            " and the %s is %.1f m thick", needed, lengths, kind,
                                            there));
    return bys_judge_text(judge, "; digs %.1f m into %.1f m of %s", needed, there, kind);
}

static void drag_rule(bys_judge *judge, bys_anchor_rule *rule, const bys_anchor_part *part,
                      int class, const bys_anchor_place *place)
{
    const bys_ground ground = bys_ground_at(judge->site, place->x, place->y);
    const int bed = drag_bed(judge, rule, bys_ground_top(&ground));
    bool outside = false;
    if (class < 0)
        bys_rule_lacks(rule, "the class of the drag anchor is not stated");
    if (class < 0 || bed < 0)
        return;
    const char *words = bed == BYS_BED_MUD ? "mud" : "sand";
    const bys_drag_class c = (bys_drag_class)class;
    rule->capacity = bys_drag_anchor_capacity(c, (bys_drag_bed)bed, part->mass, &outside);
    if (isnan(rule->capacity))
        bys_rule_lacks(rule, bys_judge_text(judge, "no power law is taken for %s in %s: test it",
                                            bys_drag_class_name(c), words));
    bys_rule_method(rule, "power law by class and mass", rule->capacity);
    bys_rule_least(rule, 0);
    bys_rule_weaken(rule, outside ? BYS_BASIS_ASSUMED : BYS_BASIS_MEMORY);
    bys_rule_weaken(rule, bys_soil_basis(bys_ground_top(&ground)));
    const char *depth =
        drag_depth(judge, rule, part, &ground, bys_drag_penetration(c, (bys_drag_bed)bed));
    const double run = bys_drag_distance(c, (bys_drag_bed)bed) * part->form.fluke;
    rule->drag = part->setback > 0.0 ? part->setback : run > 0.0 ? run : NAN;
    rule->how = bys_judge_text(
        judge, "power law for %s in %s, %.0f kg%s%s%s", bys_drag_class_name(c), words, part->mass,
        outside ? ": lighter or heavier than the 0.1 to 20 t of the fit" : "", depth,
        run > 0.0 ? bys_judge_text(judge, "; may drag %.0f m until it holds that much", run) : "");
}

// ---- stated capacity, and from pull tests --------------------------------------------------

static bool along_bed(bys_anchor_kind kind)
{
    return kind == BYS_ANCHOR_DRAG || kind == BYS_ANCHOR_PLATE;
}

static void check_kind(bys_judge *judge, bys_anchor_rule *rule, const char *kind)
{
    const char *wanted = judge->site->rules.capacity_basis;
    if (!*kind)
        bys_rule_lacks(rule, "the stated capacity does not say whether it is ultimate, fractile or "
                             "proof");
    else if (wanted && *wanted && strcmp(kind, wanted) != 0)
        bys_rule_lacks(rule, bys_judge_text(judge,
                                            "the stated capacity is %s, the profile's factors are "
                                            "for %s: the two must not be mixed",
                                            kind, wanted));
}

static void stated_rule(bys_judge *judge, bys_anchor_rule *rule, const bys_anchor_part *part)
{
    rule->model = along_bed(part->kind) ? BYS_HOLD_DRAG : BYS_HOLD_STATED;
    rule->capacity = part->capacity;
    rule->uplift_limit = part->capacity_angle;
    rule->drag = part->setback > 0.0 ? part->setback : NAN;
    bys_rule_weaken(rule, part->capacity_basis);
    check_kind(judge, rule, part->capacity_kind);
    if (isnan(part->capacity_angle))
        bys_rule_lacks(rule, "the uplift up to which the stated capacity holds is not stated");
    bys_rule_method(rule, part->capacity_basis == BYS_BASIS_TEST ? "test" : "as stated",
                    part->capacity);
    bys_rule_least(rule, 0);
    rule->how = bys_judge_text(judge, "%s capacity %s%s%s%s", part->capacity_kind,
                               part->capacity_basis == BYS_BASIS_TEST ? "by test" : "as stated",
                               *part->test ? " (" : "", part->test, *part->test ? ")" : "");
}

/// "medium sand" speaks of sand; of a site's "silty-sand" only words with both.
static bool same_soil(const char *words, const char *kind)
{
    for (const char *p = kind; *p;) {
        const size_t n = strcspn(p, "-");
        char word[24] = "";
        memcpy(word, p, n < sizeof word ? n : sizeof word - 1);
        if (!strstr(words, word))
            return false;
        p += n + (p[n] == '-');
    }
    return true;
}

static void tested_rule(bys_judge *judge, bys_anchor_rule *rule, const bys_anchor_part *part,
                        const bys_anchor_place *place)
{
    const bys_anchor_test *test = bys_anchor_test_of(judge, part);
    const bys_ground ground = bys_ground_at(judge->site, place->x, place->y);
    const bys_soil *top = bys_ground_top(&ground);
    rule->model = along_bed(part->kind) ? BYS_HOLD_DRAG : BYS_HOLD_STATED;
    rule->drag = part->setback > 0.0 ? part->setback : NAN;
    bys_rule_weaken(rule, BYS_BASIS_TEST);
    if (!test || *test->missing) {
        bys_rule_lacks(rule, test ? test->missing : "its pull tests were not read");
        return;
    }
    rule->capacity = test->capacity;
    rule->uplift_limit = isnan(part->capacity_angle) ? test->angle : part->capacity_angle;
    check_kind(judge, rule, test->kind);
    if (top && !same_soil(test->soil, top->kind))
        bys_rule_lacks(rule, bys_judge_text(judge, "its pull tests were made in %s, and it lies in "
                                            "%s", test->soil, top->kind));
    bys_rule_method(rule, "pull tests", test->capacity);
    bys_rule_least(rule, 0);
    rule->how = test->how;
}

// ---- all -----------------------------------------------------------------------------------

/// Factor of the first component that the profile names; rule->component becomes that one.
static const bys_factor *factor_of(bys_judge *judge, const char **component, const char *general,
                                   bys_factor_state state)
{
    const bys_rules *rules = &judge->site->rules;
    const bys_factor *f = bys_rules_factor_in(rules, *component, state);
    if (f || !general)
        return f;
    *component = general;
    return bys_rules_factor_in(rules, general, state);
}

static const char *in_state(bys_factor_state state)
{
    return state == BYS_STATE_LOST ? " with one leg lost" : "";
}

static void take_load_factor(bys_judge *judge, bys_anchor_rule *rule, bys_factor_state state)
{
    const bys_factor *load = bys_rules_factor_in(&judge->site->rules, "load-static", state);
    rule->load_factor = load ? load->value : NAN;
    if (rule->load_factor > 0.0)
        bys_rule_weaken(rule, load->basis);
    else
        bys_rule_lacks(rule, bys_judge_text(judge, "the profile has no load factor for static "
                                            "analysis (load-static)%s", in_state(state)));
}

static double take_factor(bys_judge *judge, bys_anchor_rule *rule, const char **component,
                          const char *general, bys_factor_state state)
{
    const bys_factor *f = factor_of(judge, component, general, state);
    if (!f || !(f->value > 0.0)) {
        bys_rule_lacks(rule, bys_judge_text(judge, "the profile has no factor for \"%s\"%s: supply "
                                            "one with its reason", *component, in_state(state)));
        return NAN;
    }
    bys_rule_weaken(rule, f->basis);
    if (!*rule->source)
        rule->source = bys_judge_text(judge, "%s%s%s", f->clause,
                                      *f->clause && *f->source ? ", " : "", f->source);
    return f->value;
}

static void take_factors(bys_judge *judge, bys_anchor_rule *rule, bys_factor_state state)
{
    const bool pile = strcmp(rule->component, "pile-axial") == 0;
    rule->resistance_factor =
        take_factor(judge, rule, &rule->component, pile ? "pile" : NULL, state);
    rule->across_factor = rule->resistance_factor;
    rule->across_component = rule->component;
    if (pile || strcmp(rule->component, "pile") == 0) {
        rule->across_component = "pile-lateral";
        rule->across_factor = take_factor(judge, rule, &rule->across_component, "pile", state);
    }
    take_load_factor(judge, rule, state);
}

static const char *component_of(const bys_anchor_part *part, int class)
{
    switch (part->kind) {
    case BYS_ANCHOR_DEADWEIGHT: return "deadweight";
    case BYS_ANCHOR_SCREW: return "screw";
    case BYS_ANCHOR_PLATE: return "plate";
    case BYS_ANCHOR_PILE: return "pile-axial";
    case BYS_ANCHOR_ROCK_PIN: return "rock-pin";
    case BYS_ANCHOR_FIXED: return "fixed";
    case BYS_ANCHOR_DRAG: break;
    }
    return class >= 0 && bys_drag_class_high_efficiency((bys_drag_class)class)
               ? "drag-high-efficiency" : "drag-stockless";
}

static void take_model(bys_judge *judge, bys_anchor_rule *rule, const bys_anchor_part *part,
                       int class, const bys_anchor_place *place)
{
    if (part->record_count > 0)
        tested_rule(judge, rule, part, place);
    else if (part->capacity > 0.0)
        stated_rule(judge, rule, part);
    else if (part->kind == BYS_ANCHOR_DEADWEIGHT)
        weight_rule(judge, rule, part, place);
    else if (part->kind == BYS_ANCHOR_DRAG)
        drag_rule(judge, rule, part, class, place);
    else if (part->kind == BYS_ANCHOR_PLATE)
        bys_anchor_plate_rule(judge, rule, part, place);
    else
        bys_anchor_shaft_rule(judge, rule, part, place);
}

bys_anchor_rule bys_anchor_rule_make(bys_judge *judge, const bys_anchor_part *part,
                                     bys_basis basis, const bys_anchor_place *place,
                                     bys_factor_state state)
{
    bys_anchor_rule rule = {.capacity = NAN,
                            .uplift_limit = INFINITY,
                            .offset_limit = INFINITY,
                            .adhesion = INFINITY,
                            .across = NAN,
                            .drag = NAN,
                            .basis = basis,
                            .chain_basis = BYS_BASIS_MEMORY,
                            .unheld = "",
                            .missing = "",
                            .how = "",
                            .source = "",
                            .across_component = ""};
    const int class = part->kind == BYS_ANCHOR_DRAG ? drag_class(part->drag_class) : -1;
    rule.component = component_of(part, class);
    if (part->kind == BYS_ANCHOR_FIXED) {
        rule.missing = "a fixed point is not checked";
        rule.load_factor = rule.resistance_factor = rule.across_factor = NAN;
        return rule;
    }
    if (along_bed(part->kind)) {
        rule.model = BYS_HOLD_DRAG;
        rule.offset_limit = part->offset_limit;
        rule.uplift_limit = part->uplift_limit > 0.0 ? part->uplift_limit : 0.0;
    }
    take_model(judge, &rule, part, class, place);
    rule.unheld = rule.missing; // what is missing from here on are factors
    take_factors(judge, &rule, state);
    return rule;
}

/// Bar of the chain at the anchor's eye; NAN if its leg starts with a rope.
static double bar_at(const bys_network *net, int anchor)
{
    const bys_anchor *a = &net->anchors[anchor];
    if (a->leg_count == 0 || net->legs[a->legs[0]].section_count == 0)
        return NAN;
    const bys_part *part = net->sections[net->legs[a->legs[0]].first_section].part;
    return part && part->kind == BYS_PART_CHAIN ? part->u.line.diameter : NAN;
}

bys_anchor_place bys_anchor_place_of(const bys_judge *judge, int anchor)
{
    const bys_network *net = judge->stages[0].net;
    const double *x = net->points[net->anchors[anchor].point].x;
    return (bys_anchor_place){x[0], x[1], bar_at(net, anchor)};
}

bys_rc bys_judge_anchors(bys_judge *judge, bys_error *err)
{
    static const bys_anchor_part unknown = {.kind = BYS_ANCHOR_FIXED};
    const bys_network *net = judge->stages[0].net;
    judge->anchor_count = net->anchor_count;
    judge->rules = bys_judge_get(judge, (size_t)net->anchor_count, sizeof *judge->rules);
    judge->rules_lost = bys_judge_get(judge, (size_t)net->anchor_count, sizeof *judge->rules);
    if (!judge->no_memory && !bys_judge_tests(judge) && !judge->no_memory)
        return bys_error_set(err, BYS_EINPUT, 0, "a record of a pull test has faults");
    for (int a = 0; !judge->no_memory && a < net->anchor_count; a++) {
        const bys_part *part = net->anchors[a].part;
        const bys_anchor_part *anchor = part ? &part->u.anchor : &unknown;
        const bys_basis basis = part ? part->item.basis : BYS_BASIS_ASSUMED;
        const bys_anchor_place place = bys_anchor_place_of(judge, a);
        judge->rules[a] = bys_anchor_rule_make(judge, anchor, basis, &place, BYS_STATE_INTACT);
        judge->rules_lost[a] = bys_anchor_rule_make(judge, anchor, basis, &place, BYS_STATE_LOST);
    }
    return judge->no_memory ? bys_error_set(err, BYS_ENOMEM, 0, "out of memory") : BYS_OK;
}
