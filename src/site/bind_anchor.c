// SPDX-License-Identifier: GPL-3.0-or-later
// Anchors: which numbers each kind may have, and which it needs.
#include "site/bind.h"

#include <math.h>

#define PI 3.14159265358979323846

static void need(bys_reading *r, const bys_xml_node *node, const char *attr, const char *why)
{
    if (!bys_node_has(node, attr))
        bys_say(r, BYS_M_part_incomplete, node->place, node, "needs %s: %s", attr, why);
}

// Attributes that only some kinds of anchor have.
static void refuse_strangers(bys_reading *r, bys_anchor_kind kind, const bys_xml_node *node)
{
    enum { WEIGHT = 1, DRAG = 2, SCREW = 4, PLATE = 16, PILE = 32, PIN = 64 };
    static const struct { const char *attr; int kinds; const char *words; } rows[] = {
        {"friction", WEIGHT, "deadweight"}, {"base", WEIGHT, "deadweight"},
        {"base-area", WEIGHT, "deadweight"}, {"key-depth", WEIGHT, "deadweight"},
        {"key-width", WEIGHT, "deadweight"}, {"key-thickness", WEIGHT, "deadweight"},
        {"drag-class", DRAG, "drag anchor"}, {"fluke-length", DRAG, "drag anchor"},
        {"helices", SCREW, "screw anchor"}, {"helix-diameter", SCREW, "screw anchor"},
        {"helix-spacing", SCREW, "screw anchor"}, {"torque", SCREW, "screw anchor"},
        {"depth", SCREW | PLATE, "screw anchor and no plate"},
        {"shaft", SCREW | PIN, "screw anchor and no rock pin"},
        {"shaft-form", SCREW, "screw anchor"},
        {"shaft-angle", SCREW | PIN, "screw anchor and no rock pin"},
        {"width", PLATE, "plate"}, {"length", PLATE | PILE, "plate and no pile"},
        {"diameter", PILE, "pile"}, {"wall", PILE, "pile"},
        {"yield-stress", PILE | SCREW, "pile and no screw anchor"},
        {"pull-height", PILE | SCREW, "pile and no screw anchor"},
        {"eye-depth", PLATE | PILE, "plate and no pile"},
        {"hole", PIN, "rock pin"}, {"bond-length", PIN, "rock pin"},
        {"free-length", PIN, "rock pin"}, {"rock", PIN, "rock pin"},
        {"rock-strength", PIN, "rock pin"}, {"bar-bond", PIN, "rock pin"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (bys_node_has(node, rows[i].attr) && !(rows[i].kinds & 1 << kind))
            bys_say(r, BYS_M_conflict, bys_node_place(node, rows[i].attr), node,
                    "has %s and is no %s; remove it or write another kind", rows[i].attr,
                    rows[i].words);
}

static bys_anchor_form form_of(const bys_xml_node *node)
{
    return (bys_anchor_form){
        .base = bys_node_choice(node, "base", 0) == 1 ? "steel" : "concrete",
        .key_depth = bys_node_number(node, "key-depth", NAN),
        .key_width = bys_node_number(node, "key-width", NAN),
        .key_thickness = bys_node_number(node, "key-thickness", NAN),
        .fluke = bys_node_number(node, "fluke-length", NAN),
        .helices = bys_node_count(node, "helices", 1),
        .helix = bys_node_number(node, "helix-diameter", NAN),
        .spacing = bys_node_number(node, "helix-spacing", NAN),
        .depth = bys_node_number(node, "depth", NAN),
        .shaft = bys_node_number(node, "shaft", NAN),
        .square = bys_node_choice(node, "shaft-form", 0) == 1,
        .shaft_angle = bys_node_number(node, "shaft-angle", PI / 2),
        .torque = bys_node_number(node, "torque", NAN),
        .width = bys_node_number(node, "width", NAN),
        .length = bys_node_number(node, "length", NAN),
        .diameter = bys_node_number(node, "diameter", NAN),
        .wall = bys_node_number(node, "wall", NAN),
        .yield = bys_node_number(node, "yield-stress", NAN),
        .pull_height = bys_node_number(node, "pull-height", 0),
        .eye_depth = bys_node_number(node, "eye-depth", 0),
        .hole = bys_node_number(node, "hole", NAN),
        .bond_length = bys_node_number(node, "bond-length", NAN),
        .free_length = bys_node_number(node, "free-length", 0),
        .rock = bys_node_ok(node, "rock") ? bys_node_text(node, "rock") : "",
        .rock_strength = bys_node_number(node, "rock-strength", NAN),
        .bar_bond = bys_node_number(node, "bar-bond", NAN),
    };
}

static void read_records(bys_reading *r, bys_anchor_part *a, const bys_xml_node *node)
{
    const bys_xml_node *test = NULL;
    a->records = bys_array(r, bys_node_number_of(node, "pull-test"), sizeof *a->records);
    while (a->records && (test = bys_node_next(node, test, "pull-test"))) {
        const char *path = bys_path_named(r, test);
        if (path)
            a->records[a->record_count++] = path;
    }
}

static void check_anchor(bys_reading *r, const bys_anchor_part *a, const bys_xml_node *node)
{
    if (a->kind == BYS_ANCHOR_DEADWEIGHT) {
        need(r, node, "mass", "the mass of the block in air");
        need(r, node, "density", "of the block, for its weight in water");
    }
    const bool tested = bys_node_has(node, "capacity") || a->record_count > 0;
    if (a->kind == BYS_ANCHOR_DRAG && !tested) {
        need(r, node, "mass", "its holding follows from mass and class");
        need(r, node, "drag-class", "its holding follows from mass and class");
    }
    refuse_strangers(r, a->kind, node);
    if (bys_node_has(node, "capacity") && a->record_count > 0)
        bys_say(r, BYS_M_conflict, bys_node_place(node, "capacity"), node,
                "states a capacity and has records of pull tests; keep one of them");
    if (bys_node_has(node, "capacity")) {
        need(r, node, "capacity-kind", "say whether the holding is ultimate, a fractile or a "
                                       "proof load");
        need(r, node, "capacity-basis", "say whether the holding is stated by you or from a test");
        need(r, node, "capacity-angle", "the uplift up to which the holding is good, such as "
                                        "\"15 deg\"");
    }
}

void bys_bind_anchor(bys_reading *r, bys_part *part, const bys_xml_node *node)
{
    bys_anchor_part *a = &part->u.anchor;
    a->kind = (bys_anchor_kind)bys_node_choice(node, "kind", 0);
    const bool directed = a->kind == BYS_ANCHOR_DRAG || a->kind == BYS_ANCHOR_PLATE;
    a->mass = bys_node_number(node, "mass", NAN);
    a->density = bys_node_number(node, "density", NAN);
    a->friction = bys_node_number(node, "friction", NAN);
    // Precast concrete on the bed 0.30: memory.
    a->friction_basis = (bys_basis)bys_node_choice(
        node, "friction-basis", (int)(isnan(a->friction) ? BYS_BASIS_MEMORY : part->item.basis));
    a->base_area = bys_node_number(node, "base-area", NAN);
    a->drag_class = bys_node_ok(node, "drag-class") ? bys_node_text(node, "drag-class") : "";
    a->capacity = bys_node_number(node, "capacity", NAN);
    a->capacity_kind =
        bys_node_ok(node, "capacity-kind") ? bys_node_text(node, "capacity-kind") : "";
    a->capacity_basis = bys_node_choice(node, "capacity-basis", 0) == 1 ? BYS_BASIS_TEST
                                                                        : BYS_BASIS_USER;
    a->test = bys_node_text(node, "test");
    a->capacity_angle = bys_node_number(node, "capacity-angle", NAN);
    a->uplift_limit = bys_node_number(node, "uplift-limit", directed ? 0 : NAN);
    a->offset_limit = bys_node_number(node, "offset-limit", PI / 6);
    a->setback = bys_node_number(node, "setback", 0);
    a->strength = bys_node_number(node, "strength", NAN);
    a->form = form_of(node);
    a->permitted_drag = bys_node_number(node, "permitted-drag", 2);
    read_records(r, a, node);
    if (bys_node_ok(node, "kind"))
        check_anchor(r, a, node);
}
