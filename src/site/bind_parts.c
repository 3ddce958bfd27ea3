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
        .ends = bys_node_ok(node, "ends") ? bys_node_text(node, "ends") : "",
        .wear = bys_node_number(node, "wear", 0),
        .age = bys_node_number(node, "age", 0),
        .loss_per_year = bys_node_number(node, "loss-per-year", 0),
        .corrosion = bys_node_number(node, "corrosion-per-year", 0),
        .measured = bys_node_number(node, "measured-diameter", NAN),
        .used = bys_node_flag(node, "used", false),
        .around_bends = bys_node_flag(node, "around-bends", false),
    };
}

// A part is reduced once for each reason, and time needs a rate.
static void check_line(bys_reading *r, const bys_line_part *line, const bys_xml_node *node)
{
    const bool rate = bys_node_has(node, "loss-per-year") ||
                      bys_node_has(node, "corrosion-per-year");
    if (bys_node_has(node, "ends") && bys_node_has(node, "efficiency"))
        bys_say(r, BYS_M_conflict, bys_node_place(node, "ends"), node,
                "states ends and efficiency, which are one reduction; keep one of them");
    if (bys_node_has(node, "measured-diameter") && bys_node_has(node, "wear"))
        bys_say(r, BYS_M_conflict, bys_node_place(node, "wear"), node,
                "states wear and a measured diameter, which are one reduction; keep one of them");
    if (bys_node_has(node, "age") != rate)
        bys_say(r, BYS_M_pair_incomplete, node->place, node,
                rate ? "states what it loses in a year and not its age; add age=\"… yr\""
                     : "states an age and not what it loses in a year; add loss-per-year=\"… %%\""
                       " to a rope, corrosion-per-year=\"… mm\" to a chain");
    if (line->measured > line->diameter)
        bys_say(r, BYS_M_conflict, bys_node_place(node, "measured-diameter"), node,
                "measures %.4g mm, more than its diameter of %.4g mm when new",
                1000 * line->measured, 1000 * line->diameter);
    else if (line->measured < 0.8 * line->diameter) // MO-124 s. 6.2.2: poor, discard. Known: read.
        bys_messages_add(r->messages, BYS_WARNING, BYS_M_worn_chain,
                         bys_node_place(node, "measured-diameter"),
                         "%s is worn to %.0f %% of its diameter; below 80 %% it is to be discarded",
                         bys_node_label(node).text,
                         100 * line->measured / line->diameter);
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
    check_line(r, &part->u.line, node);
}

static void bind_chain(bys_reading *r, bys_part *part, const bys_xml_node *node)
{
    bool stud = bys_node_choice(node, "link", 0) == 0;
    part->u.line = line_of(node, 7850, stud ? 2.6 : 2.4, (stud ? 1.4 : 1.15) / PI);
    part->u.line.material = stud ? "steel-stud" : "steel-studless";
    part->u.line.working = (bys_stretch_spec){.stiffness = part->u.line.stiffness};
    part->u.line.storm = (bys_stretch_spec){.stiffness = NAN};
    check_line(r, &part->u.line, node);
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

/// Per metre of depth; a bar is 1e5 Pa, a metre of water rho g.
static double volume_loss(bys_reading *r, const bys_xml_node *node)
{
    const double metre = r->site->rho_water * r->site->gravity;
    if (!bys_node_has(node, "loss-per-bar"))
        return bys_node_number(node, "loss-per-metre", 0);
    if (bys_node_has(node, "loss-per-metre"))
        bys_say(r, BYS_M_conflict, bys_node_place(node, "loss-per-bar"), node,
                "states its loss of volume per metre and per bar; keep one of them");
    return bys_node_number(node, "loss-per-bar", 0) * metre / 1e5;
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
    f->volume_loss = volume_loss(r, node);
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

/// Of one piece (kg): as stated, or per metre of its height.
static double mass_in_water(bys_reading *r, const bys_xml_node *node, double height,
                            double otherwise)
{
    const bool piece = bys_node_has(node, "mass-in-water");
    const bool metre = bys_node_has(node, "mass-in-water-per-metre");
    if (piece && metre)
        bys_say(r, BYS_M_conflict, bys_node_place(node, "mass-in-water-per-metre"), node,
                "states its mass in water both per piece and per metre; keep one");
    if (metre)
        return bys_node_number(node, "mass-in-water-per-metre", NAN) * height;
    return bys_node_number(node, "mass-in-water", otherwise);
}

static void stage_values(bys_reading *r, bys_gear_values *v, const bys_gear_values *base,
                         const bys_xml_node *at)
{
    v->stage = bys_stage_ref(r, at, "stage");
    v->target = bys_node_text(at, "of");
    v->width = bys_node_number(at, "width", base->width);
    v->height = bys_node_number(at, "height", base->height);
    v->mass_in_water = mass_in_water(r, at, v->height, base->mass_in_water);
    v->cd = bys_node_number(at, "drag-coefficient", base->cd);
    v->solidity = bys_node_number(at, "solidity", base->solidity);
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
    g->edge_stated = bys_node_has(node, "edge-drag-coefficient");
    g->twine = bys_node_number(node, "twine", NAN);
    g->sinker = bys_node_number(node, "sinker", NAN);
    g->values[0] = (bys_gear_values){
        .stage = "",
        .target = "",
        .mass_in_water = mass_in_water(r, node, bys_node_number(node, "height", NAN), NAN),
        .solidity = bys_node_number(node, "solidity", NAN),
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
            if (*v->stage && strcmp(g->values[i].stage, v->stage) == 0 &&
                strcmp(g->values[i].target, v->target) == 0)
                bys_say(r, BYS_M_duplicate_id, at->place, node,
                        "has two <at> for the stage \"%.60s\"; keep one", v->stage);
        g->value_count++;
    }
    if (!bys_node_has(node, "mass-in-water") && !bys_node_has(node, "mass-in-water-per-metre"))
        bys_say(r, BYS_M_part_incomplete, node->place, node,
                "needs mass-in-water, of one piece, or mass-in-water-per-metre of its height");
    const int kind = bys_node_choice(node, "kind", -1);
    if ((kind == BYS_GEAR_PANEL || kind == BYS_GEAR_NET) && !bys_node_has(node, "orientation"))
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
        .cd_end = bys_node_number(node, "end-drag-coefficient",
                                  bys_node_number(node, "drag-coefficient", 1.2)),
        .friction_factor = bys_node_number(node, "friction-factor", 1),
        .beams = bys_node_count(node, "beams", 0),
        .beam_length = bys_node_number(node, "beam-length", bys_node_number(node, "width", NAN)),
        .beam_height = bys_node_number(node, "beam-height", NAN),
        .beam_level = bys_node_number(node, "beam-level", NAN),
        .beam_cd = bys_node_number(node, "beam-drag-coefficient", 2.0),
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

static void bind_part(bys_reading *r, bys_part *part, const bys_xml_node *node)
{
    part->item = bys_item_of(node);
    switch (part->kind) {
    case BYS_PART_ROPE: bind_rope(r, part, node); break;
    case BYS_PART_CHAIN: bind_chain(r, part, node); break;
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
    case BYS_PART_ANCHOR: bys_bind_anchor(r, part, node); break;
    case BYS_PART_DRAG: bys_bind_drag(r, part, node); break;
    }
}

static bool part_kind(bys_part_kind *kind, const bys_xml_node *node)
{
    static const char *const keys[] = {"rope", "chain", "connector", "sinker",
                                       "float", "gear", "raft", "anchor", "drag"};
    for (int i = 0; i < 9; i++)
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
    for (int i = 0; i < site->part_count; i++) {
        if (site->parts[i].kind == BYS_PART_RAFT)
            check_raft(r, &site->parts[i], r->part_nodes[i]);
        bys_bind_drag_use(r, &site->parts[i], r->part_nodes[i]);
    }
}
