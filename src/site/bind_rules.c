// SPDX-License-Identifier: GPL-3.0-or-later
// The rule profile with the user's own factors and limits applied to it.
#include "site/bind.h"

#include <math.h>
#include <string.h>

// Components that the checks may ask for, also where a profile does not mention them.
static const char *const components[] = {
    "rope", "rope-knotted", "wire", "chain", "chain-bend", "chain-used", "connector",
    "drag-stockless", "drag-high-efficiency", "deadweight", "screw", "plate", "pile", "pile-axial",
    "pile-lateral", "rock-pin", "fixed", "load-static", "load-dynamic", "load-mean",
    "weight-favourable", "friction-share"};

static bys_factor_state state_of(const bys_xml_node *node)
{
    return (bys_factor_state)bys_node_choice(node, "condition", 0);
}

static bool is_dynamic(const bys_xml_node *node)
{
    return bys_node_choice(node, "analysis", 0) == 2;
}

static void read_limits(bys_rules *rules, const bys_xml_node *node)
{
    rules->float_reserve = bys_node_number(node, "float-reserve", rules->float_reserve);
    rules->gear_clearance = bys_node_number(node, "gear-clearance", rules->gear_clearance);
    rules->line_clearance = bys_node_number(node, "line-clearance", rules->line_clearance);
    rules->max_excursion = bys_node_number(node, "excursion", rules->max_excursion);
}

static void read_combinations(bys_reading *r, bys_rules *rules, const bys_xml_node *profile)
{
    rules->combinations = bys_array(r, bys_node_number_of(profile, "combination"),
                                    sizeof *rules->combinations);
    const bys_xml_node *node = NULL;
    while (rules->combinations && (node = bys_node_next(profile, node, "combination")))
        rules->combinations[rules->combination_count++] = (bys_combination){
            .item = bys_item_of(node),
            .current_years = bys_node_number(node, "current", NAN),
            .wind_years = bys_node_number(node, "wind", NAN),
            .wave_years = bys_node_number(node, "waves", NAN),
        };
}

/// The factor for the same component, state and kind of analysis.
static bys_factor *find_factor(bys_rules *rules, const bys_xml_node *node)
{
    for (int i = 0; i < rules->factor_count; i++) {
        bys_factor *f = &rules->factors[i];
        if (strcmp(f->component, bys_node_text(node, "for")) == 0 && f->state == state_of(node) &&
            f->dynamic == is_dynamic(node))
            return f;
    }
    return NULL;
}

static void read_profile_factors(bys_reading *r, bys_rules *rules, const bys_xml_node *profile)
{
    const bys_xml_node *node = NULL;
    while ((node = bys_node_next(profile, node, "profile-factor"))) {
        const char *component = bys_node_text(node, "for");
        if (find_factor(rules, node))
            bys_say(r, BYS_M_duplicate_id, node->place, node, "has two factors; keep one");
        rules->factors[rules->factor_count++] = (bys_factor){
            .component = component,
            .value = bys_node_number(node, "value", NAN),
            .state = state_of(node),
            .dynamic = is_dynamic(node),
            .clause = bys_node_text(node, "clause"),
            .source = bys_node_text(node, "source"),
            .because = bys_node_text(node, "note"),
            .basis = (bys_basis)bys_node_choice(node, "basis", BYS_BASIS_ASSUMED),
            .place = node->place,
        };
    }
}

static void read_profile(bys_reading *r, bys_rules *rules)
{
    const bys_xml_node *profile = r->profile;
    rules->item = bys_item_of(profile);
    rules->item.name = bys_node_text(profile, "title");
    rules->written_for = bys_node_text(profile, "written-for");
    rules->capacity_basis = bys_node_ok(profile, "capacity-basis")
                                ? bys_node_text(profile, "capacity-basis") : "";
    rules->min_directions = bys_node_count(profile, "min-directions", 8);
    rules->outside = bys_node_choice(profile, "shellfish", 1) == 1;
    rules->demand_lost_leg = bys_node_choice(profile, "lost-leg", 1) == 0;
    read_combinations(r, rules, profile);
    read_profile_factors(r, rules, profile);
    const bys_xml_node *node = NULL;
    while ((node = bys_node_next(profile, node, "profile-limit")))
        read_limits(rules, node);
}

static bool known_component(const bys_rules *rules, const char *name, bys_near *near)
{
    bool known = false;
    for (size_t i = 0; i < sizeof components / sizeof components[0]; i++) {
        known = known || strcmp(components[i], name) == 0;
        bys_near_try(near, components[i]);
    }
    for (int i = 0; i < rules->factor_count; i++) {
        known = known || strcmp(rules->factors[i].component, name) == 0;
        bys_near_try(near, rules->factors[i].component);
    }
    return known;
}

/// What a profile says of a component gives way to the user's own word on it.
static void drop_profile(bys_rules *rules, const bys_xml_node *node)
{
    int kept = 0;
    for (int i = 0; i < rules->factor_count; i++) {
        const bys_factor *f = &rules->factors[i];
        const bool same = strcmp(f->component, bys_node_text(node, "for")) == 0 &&
                          f->dynamic == is_dynamic(node) &&
                          (state_of(node) == BYS_STATE_ANY || f->state == state_of(node));
        if (!same || f->place.file == node->place.file)
            rules->factors[kept++] = *f;
    }
    rules->factor_count = kept;
}

static const char *clause_of(const bys_rules *rules, const char *component)
{
    for (int i = 0; i < rules->factor_count; i++)
        if (strcmp(rules->factors[i].component, component) == 0 && *rules->factors[i].clause)
            return rules->factors[i].clause;
    return "";
}

static void apply_factor(bys_reading *r, bys_rules *rules, const bys_xml_node *node)
{
    const char *name = bys_node_text(node, "for");
    bys_near near = bys_near_start(name);
    if (!bys_node_ok(node, "for"))
        return;
    if (!known_component(rules, name, &near)) {
        const char *best = bys_near_best(&near);
        bys_say(r, BYS_M_unknown_reference, bys_node_place(node, "for"), node,
                "is for a component that no check knows%s%s%s", best ? "; did you mean \"" : "",
                best ? best : "", best ? "\"?" : "");
        return;
    }
    const bys_factor *factor = find_factor(rules, node);
    if (factor && factor->basis == BYS_BASIS_USER && factor->place.file == node->place.file) {
        bys_say(r, BYS_M_repeated_element, node->place, node,
                "is stated twice (first in line %d); keep one", factor->place.line);
        return;
    }
    const char *clause = clause_of(rules, name);
    drop_profile(rules, node);
    rules->factors[rules->factor_count++] = (bys_factor){
        .component = name,
        .value = bys_node_number(node, "value", NAN),
        .state = state_of(node),
        .dynamic = is_dynamic(node),
        .clause = clause,
        .source = "stated in the site file",
        .because = bys_node_text(node, "because"),
        .basis = BYS_BASIS_USER,
        .place = node->place,
    };
}

void bys_bind_rules(bys_reading *r)
{
    bys_rules *rules = &r->site->rules;
    *rules = (bys_rules){
        .item = {.id = "", .name = "", .source = "", .basis = BYS_BASIS_ASSUMED},
        .written_for = "", .capacity_basis = "", .min_directions = 8,
        .float_reserve = NAN, .gear_clearance = NAN, .line_clearance = NAN, .max_excursion = NAN,
    };
    const bys_xml_node *own = bys_node_next(r->root, NULL, "rules"), *node = NULL;
    own = r->other_profile ? NULL : own;
    int room = bys_node_number_of(own, "factor") +
               (r->profile ? bys_node_number_of(r->profile, "profile-factor") : 0);
    rules->factors = bys_array(r, room, sizeof *rules->factors);
    if (!rules->factors)
        return;
    if (r->profile)
        read_profile(r, rules);
    if (!own)
        return;
    while ((node = bys_node_next(own, node, "factor")))
        apply_factor(r, rules, node);
    while ((node = bys_node_next(own, node, "limit"))) {
        if (!bys_node_has(node, "float-reserve") && !bys_node_has(node, "gear-clearance") &&
            !bys_node_has(node, "line-clearance") && !bys_node_has(node, "excursion"))
            bys_say(r, BYS_M_missing_attribute, node->place, node,
                    "sets no limit; state float-reserve, gear-clearance, line-clearance or "
                    "excursion");
        read_limits(rules, node);
    }
}
