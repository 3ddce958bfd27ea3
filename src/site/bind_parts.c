// SPDX-License-Identifier: GPL-3.0-or-later
// Parts: those of the site file first, then those of the catalogues.
#include "site/bind.h"

#include <math.h>
#include <string.h>

#define PI 3.14159265358979323846

// Density of the solid (kg/m3): relative densities PP 0.91, PE 0.95, PA 1.14, PES 1.38, HMPE 0.975,
// steel 7.85. Known: memory (the first four also seen in an excerpt of a public code).
static const struct {
    const char *material;
    double density;
} densities[] = {{"polypropylene", 910}, {"polyethylene", 950}, {"nylon", 1140},
                 {"polyester", 1380},    {"hmpe", 975},         {"steel-wire", 7850}};

static double material_density(const char *material)
{
    for (size_t i = 0; i < sizeof densities / sizeof densities[0]; i++)
        if (strcmp(densities[i].material, material) == 0)
            return densities[i].density;
    return NAN;
}

// Drag coefficients of lines: rope 1.6 and 0.01; stud chain 2.6 on the bar diameter across and 1.4
// along per diameter, studless 2.4 and 1.15; along is on pi times the diameter here. Known: memory.
static bys_line_part line_of(const bys_xml_node *node, double density, double cn, double ct)
{
    return (bys_line_part){
        .material = "",
        .diameter = bys_node_number(node, "diameter", NAN),
        .mass = bys_node_number(node, "mass", NAN),
        .density = bys_node_number(node, "density", density),
        .strength = bys_node_number(node, "strength", NAN),
        .stiffness = bys_node_number(node, "stiffness", NAN),
        .cd_normal = bys_node_number(node, "drag-normal", cn),
        .cd_tangential = bys_node_number(node, "drag-tangential", ct),
        .bedding_in = bys_node_number(node, "bedding-in", 0),
        .efficiency = bys_node_number(node, "efficiency", NAN),
        .wet_factor = bys_node_number(node, "wet-factor", 1),
    };
}

static void bind_rope(bys_reading *r, bys_part *part, const bys_xml_node *node)
{
    const char *material = bys_node_ok(node, "material") ? bys_node_text(node, "material") : "";
    part->u.line = line_of(node, material_density(material), 1.6, 0.01);
    part->u.line.material = material;
    bys_bind_stretch(r, &part->u.line, part->item.basis, node);
    // Wet nylon keeps 85 % of its strength: UFC 4-159-03 (2005) Table 3-7, note. Known: read.
    if (strcmp(material, "nylon") == 0)
        part->u.line.wet_factor = bys_node_number(node, "wet-factor", 0.85);
    if (strcmp(material, "mixed") == 0 && !bys_node_has(node, "density"))
        bys_say(r, BYS_M_part_incomplete, node->place, node,
                "is of mixed fibres and needs a density, such as density=\"940 kg/m3\"");
}

static void bind_chain(bys_part *part, const bys_xml_node *node)
{
    bool stud = bys_node_choice(node, "link", 0) == 0;
    part->u.line = line_of(node, 7850, stud ? 2.6 : 2.4, (stud ? 1.4 : 1.15) / PI);
    part->u.line.material = stud ? "steel-stud" : "steel-studless";
    part->u.line.working = (bys_stretch_spec){.stiffness = part->u.line.stiffness};
    part->u.line.storm = (bys_stretch_spec){.stiffness = NAN};
}

static double solid_volume(const bys_float_part *f)
{
    if (f->shape == BYS_FLOAT_SPHERE)
        return PI / 6 * f->diameter * f->diameter * f->diameter;
    return PI / 4 * f->diameter * f->diameter * f->length;
}

static void complete_float(bys_float_part *f)
{
    if (f->shape == BYS_FLOAT_SPHERE) {
        if (isnan(f->diameter))
            f->diameter = cbrt(6 * f->volume / PI);
        f->length = f->diameter;
    } else if (isnan(f->length)) {
        f->length = f->volume / (PI / 4 * f->diameter * f->diameter);
    } else if (isnan(f->diameter)) {
        f->diameter = sqrt(f->volume / (PI / 4 * f->length));
    }
    if (isnan(f->volume))
        f->volume = solid_volume(f);
}

static void check_float(bys_reading *r, const bys_float_part *f, const bys_xml_node *node)
{
    double solid = solid_volume(f);
    // Rounded ends and fittings take a part of the plain body's volume, not a quarter of it.
    if (fabs(solid - f->volume) > 0.25 * f->volume)
        bys_say(r, BYS_M_buoyancy_lacking, bys_node_place(node, "volume"), node,
                "has a volume of %.4g l, but its diameter%s make %.4g l; correct one of them",
                1000 * f->volume, f->shape == BYS_FLOAT_SPHERE ? " would" : " and length",
                1000 * solid);
    else if (f->mass >= r->site->rho_water * f->volume)
        bys_say(r, BYS_M_buoyancy_lacking, bys_node_place(node, "mass"), node,
                "does not float: it weighs %.4g kg and displaces %.4g kg of water; a weight in a "
                "leg is a <sinker>", f->mass, r->site->rho_water * f->volume);
}

static void bind_float(bys_reading *r, bys_part *part, const bys_xml_node *node)
{
    bys_float_part *f = &part->u.buoy;
    f->shape = (bys_float_shape)bys_node_choice(node, "shape", 0);
    bool sphere = f->shape == BYS_FLOAT_SPHERE;
    f->volume = bys_node_number(node, "volume", NAN);
    f->diameter = bys_node_number(node, "diameter", NAN);
    f->length = sphere ? NAN : bys_node_number(node, "length", NAN);
    f->mass = bys_node_number(node, "mass", NAN);
    f->cd = bys_node_number(node, "drag-coefficient", sphere ? 0.5 : 1.2);
    f->cs = bys_node_number(node, "wind-coefficient", 0.7);
    f->strop = bys_node_number(node, "strop", 0);
    f->depth_rating = bys_node_number(node, "depth-rating", NAN);
    if (!bys_node_ok(node, "shape"))
        return;
    int stated = bys_node_has(node, "volume") + bys_node_has(node, "diameter") +
                 (!sphere && bys_node_has(node, "length"));
    if (sphere && bys_node_has(node, "length"))
        bys_say(r, BYS_M_conflict, bys_node_place(node, "length"), node,
                "is a sphere and has a length; remove length or write shape=\"barrel-side\"");
    if (stated < (sphere ? 1 : 2)) {
        bys_say(r, BYS_M_part_incomplete, node->place, node, "needs %s",
                sphere ? "its volume or its diameter"
                       : "two of its volume, its diameter and its length");
        return;
    }
    complete_float(f);
    if (isfinite(f->volume) && isfinite(f->diameter) && isfinite(f->length))
        check_float(r, f, node);
}

static void stage_values(bys_reading *r, bys_gear_values *v, const bys_gear_values *base,
                         const bys_xml_node *at)
{
    v->stage = bys_stage_ref(r, at, "stage");
    v->mass_in_water = bys_node_number(at, "mass-in-water", base->mass_in_water);
    v->width = bys_node_number(at, "width", base->width);
    v->height = bys_node_number(at, "height", base->height);
    v->cd = bys_node_number(at, "drag-coefficient", base->cd);
    v->basis = (bys_basis)bys_node_choice(at, "basis", (int)base->basis);
    v->place = at->place;
}

static void bind_gear(bys_reading *r, bys_part *part, const bys_xml_node *node)
{
    bys_gear_part *g = &part->u.gear;
    int count = bys_node_number_of(node, "at");
    g->values = bys_array(r, count + 1, sizeof *g->values);
    if (!g->values)
        return;
    g->kind = (bys_gear_kind)bys_node_choice(node, "kind", 0);
    g->drop = bys_node_number(node, "drop", 0);
    g->orientation = (bys_orientation)bys_node_choice(node, "orientation", 0);
    g->edge_cd = bys_node_number(node, "edge-drag-coefficient", 0.15);
    g->values[0] = (bys_gear_values){
        .stage = "",
        .mass_in_water = bys_node_number(node, "mass-in-water", NAN),
        .width = bys_node_number(node, "width", NAN),
        .height = bys_node_number(node, "height", NAN),
        .cd = bys_node_number(node, "drag-coefficient", NAN),
        .basis = part->item.basis,
        .place = node->place,
    };
    g->value_count = 1;
    const bys_xml_node *at = NULL;
    while ((at = bys_node_next(node, at, "at"))) {
        bys_gear_values *v = &g->values[g->value_count];
        stage_values(r, v, &g->values[0], at);
        for (int i = 1; i < g->value_count; i++)
            if (*v->stage && strcmp(g->values[i].stage, v->stage) == 0)
                bys_say(r, BYS_M_duplicate_id, at->place, node,
                        "has two <at> for the stage \"%.60s\"; keep one", v->stage);
        g->value_count++;
    }
    bool panel = bys_node_choice(node, "kind", -1) == BYS_GEAR_PANEL;
    if (panel && !bys_node_has(node, "orientation"))
        bys_say(r, BYS_M_panel_orientation, node->place, node,
                "is a panel and does not say how it hangs; add orientation=\"along\" (its face "
                "along the line), \"across\" or \"free\" (turning)");
}

static void bind_raft(bys_part *part, const bys_xml_node *node)
{
    part->u.raft = (bys_raft_part){
        .length = bys_node_number(node, "length", NAN),
        .width = bys_node_number(node, "width", NAN),
        .mass = bys_node_number(node, "mass", NAN),
        .cg = bys_node_number(node, "centre-of-gravity", NAN),
        .pontoons = bys_node_count(node, "pontoons", 1),
        .pontoon_length = bys_node_number(node, "pontoon-length", NAN),
        .pontoon_width = bys_node_number(node, "pontoon-width", NAN),
        .pontoon_height = bys_node_number(node, "pontoon-height", NAN),
        .cd_hull = bys_node_number(node, "drag-coefficient", 1.2),
        .cs_deck = bys_node_number(node, "wind-coefficient", 1.2),
        .deck_area = bys_node_number(node, "deck-area", 0),
        .deck_height = bys_node_number(node, "deck-height", 0),
        .gear = bys_node_text(node, "gear"),
        .gear_count = bys_node_count(node, "gear-count", 0),
        .fairlead_height = bys_node_number(node, "fairlead-height", NAN),
    };
}

// The gear of a raft may stand after it, so that rafts are looked at again when all parts are read.
static void check_raft(bys_reading *r, bys_part *part, const bys_xml_node *node)
{
    bys_raft_part *raft = &part->u.raft;
    if (bys_node_has(node, "gear") != bys_node_has(node, "gear-count"))
        bys_say(r, BYS_M_pair_incomplete, node->place, node,
                "states only one of gear and gear-count; state both or neither");
    if (*raft->gear && !bys_part_ref(r, node, "gear"))
        raft->gear = "";
    double most = r->site->rho_water * raft->pontoons * raft->pontoon_length *
                  raft->pontoon_width * raft->pontoon_height;
    if (raft->mass >= most)
        bys_say(r, BYS_M_buoyancy_lacking, bys_node_place(node, "mass"), node,
                "does not float: it weighs %.4g t and its pontoons displace at most %.4g t of "
                "water",
                raft->mass / 1000, most / 1000);
    if (raft->pontoons * raft->pontoon_width > raft->width * 1.0001)
        bys_say(r, BYS_M_conflict, bys_node_place(node, "pontoons"), node,
                "is %.4g m wide, but its pontoons side by side take %.4g m", raft->width,
                raft->pontoons * raft->pontoon_width);
}

static void need(bys_reading *r, const bys_xml_node *node, const char *attr, const char *why)
{
    if (!bys_node_has(node, attr))
        bys_say(r, BYS_M_part_incomplete, node->place, node, "needs %s: %s", attr, why);
}

static void check_anchor(bys_reading *r, const bys_anchor_part *a, const bys_xml_node *node)
{
    if (a->kind == BYS_ANCHOR_DEADWEIGHT) {
        need(r, node, "mass", "the mass of the block in air");
        need(r, node, "density", "of the block, for its weight in water");
    }
    if (a->kind == BYS_ANCHOR_DRAG && !bys_node_has(node, "capacity")) {
        need(r, node, "mass", "its holding follows from mass and class");
        need(r, node, "drag-class", "its holding follows from mass and class");
    }
    if (a->kind != BYS_ANCHOR_DRAG && bys_node_has(node, "drag-class"))
        bys_say(r, BYS_M_conflict, bys_node_place(node, "drag-class"), node,
                "has a drag-class and is no drag anchor; remove it or write kind=\"drag\"");
    if (bys_node_has(node, "capacity")) {
        need(r, node, "capacity-kind", "say whether the holding is ultimate, a fractile or a "
                                       "proof load");
        need(r, node, "capacity-basis", "say whether the holding is stated by you or from a test");
        need(r, node, "capacity-angle", "the uplift up to which the holding is good, such as "
                                        "\"15 deg\"");
    }
}

static void bind_anchor(bys_reading *r, bys_part *part, const bys_xml_node *node)
{
    bys_anchor_part *a = &part->u.anchor;
    a->kind = (bys_anchor_kind)bys_node_choice(node, "kind", 0);
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
    a->uplift_limit = bys_node_number(node, "uplift-limit", a->kind == BYS_ANCHOR_DRAG ? 0 : NAN);
    a->offset_limit = bys_node_number(node, "offset-limit", PI / 6);
    a->setback = bys_node_number(node, "setback", 0);
    a->strength = bys_node_number(node, "strength", NAN);
    if (bys_node_ok(node, "kind"))
        check_anchor(r, a, node);
}

static void bind_part(bys_reading *r, bys_part *part, const bys_xml_node *node)
{
    part->item = bys_item_of(node);
    switch (part->kind) {
    case BYS_PART_ROPE: bind_rope(r, part, node); break;
    case BYS_PART_CHAIN: bind_chain(part, node); break;
    case BYS_PART_CONNECTOR:
        part->u.connector = (bys_connector_part){bys_node_number(node, "strength", NAN),
                                                 bys_node_number(node, "mass", 0),
                                                 bys_node_number(node, "density", 7850)};
        break;
    case BYS_PART_SINKER:
        part->u.sinker = (bys_sinker_part){bys_node_number(node, "mass", NAN),
                                           bys_node_number(node, "density", NAN)};
        break;
    case BYS_PART_FLOAT: bind_float(r, part, node); break;
    case BYS_PART_GEAR: bind_gear(r, part, node); break;
    case BYS_PART_RAFT: bind_raft(part, node); break;
    case BYS_PART_ANCHOR: bind_anchor(r, part, node); break;
    }
}

static bool part_kind(bys_part_kind *kind, const bys_xml_node *node)
{
    static const char *const keys[] = {"rope", "chain", "connector", "sinker",
                                       "float", "gear", "raft", "anchor"};
    for (int i = 0; i < 8; i++)
        if (bys_node_is(node, keys[i])) {
            *kind = (bys_part_kind)i;
            return true;
        }
    return false;
}

static void collect(bys_reading *r, const bys_xml_node *container)
{
    bys_part_kind kind;
    for (const bys_xml_node *node = container ? container->first : NULL; node; node = node->next)
        if (part_kind(&kind, node)) {
            int at = r->site->part_count++;
            r->site->parts[at].kind = kind;
            r->part_nodes[at] = node;
        }
}

static int children(const bys_xml_node *container)
{
    int n = 0;
    for (const bys_xml_node *node = container ? container->first : NULL; node; node = node->next)
        n++;
    return n;
}

void bys_bind_parts(bys_reading *r)
{
    const bys_xml_node *own = bys_node_next(r->root, NULL, "parts");
    bys_site *site = r->site;
    int room = children(own);
    for (int i = 0; i < r->catalogue_count; i++)
        room += children(r->catalogues[i]);
    site->parts = bys_array(r, room, sizeof *site->parts);
    r->part_nodes = bys_array(r, room, sizeof *r->part_nodes);
    r->part_used = bys_array(r, room, sizeof *r->part_used);
    if (r->failed)
        return;
    collect(r, own);
    r->own_parts = site->part_count;
    for (int i = 0; i < r->catalogue_count; i++)
        collect(r, r->catalogues[i]);
    for (int i = 0; i < site->part_count; i++) {
        bind_part(r, &site->parts[i], r->part_nodes[i]);
        bys_ids_add(&r->parts, site->parts[i].item.id, i, bys_node_place(r->part_nodes[i], "id"));
    }
    bys_ids_sort(&r->parts);
    bys_say_twice(r, &r->parts, "part");
    for (int i = 0; i < site->part_count; i++)
        if (site->parts[i].kind == BYS_PART_RAFT)
            check_raft(r, &site->parts[i], r->part_nodes[i]);
}
