// SPDX-License-Identifier: GPL-3.0-or-later
#include "design/hand_site.h"

#include <math.h>
#include <string.h>

static const double pi = 3.14159265358979323846;

static bys_item item(const char *id, bys_basis basis)
{
    return (bys_item){.id = id, .name = "", .source = "invented", .basis = basis};
}

static bys_part line_part(const char *id, bys_part_kind kind, const char *material, double diameter,
                          double mass, double density, double strength, double stiffness)
{
    bys_part part = {.item = item(id, BYS_BASIS_USER), .kind = kind};
    part.u.line = (bys_line_part){.material = material,
                                  .diameter = diameter,
                                  .mass = mass,
                                  .density = density,
                                  .strength = strength,
                                  .stiffness = stiffness,
                                  .cd_normal = kind == BYS_PART_CHAIN ? 2.4 : 1.6,
                                  .cd_tangential = kind == BYS_PART_CHAIN ? 0.37 : 0.01,
                                  .efficiency = kind == BYS_PART_CHAIN ? 1.0 : 0.9,
                                  .wet_factor = 1.0};
    return part;
}

static void make_parts(hand_site *h)
{
    h->warp = line_part("warp28", BYS_PART_ROPE, "polyester", 0.028, 0.595, 1380.0, 120e3, 1.5e6);
    h->chain =
        line_part("chain16", BYS_PART_CHAIN, "steel-studless", 0.016, 5.6, 7850.0, 125e3, 2.2e7);
    h->backbone =
        line_part("pp32", BYS_PART_ROPE, "polypropylene", 0.032, 0.46, 910.0, 126e3, 0.75e6);
    h->shackle = (bys_part){.item = item("shackle16", BYS_BASIS_USER), .kind = BYS_PART_CONNECTOR};
    h->shackle.u.connector =
        (bys_connector_part){.strength = 145e3, .mass = 1.0, .density = 7850.0};
    h->buoy = (bys_part){.item = item("crop55", BYS_BASIS_USER), .kind = BYS_PART_FLOAT};
    h->buoy.u.buoy = (bys_float_part){.shape = BYS_FLOAT_SPHERE,
                                      .volume = 0.055,
                                      .diameter = 0.4718,
                                      .length = 0.0,
                                      .mass = 3.5,
                                      .cd = 0.5,
                                      .cs = 0.7,
                                      .depth_rating = NAN};
    h->panel = (bys_part){.item = item("panel", BYS_BASIS_USER), .kind = BYS_PART_GEAR};
    h->panel_values[0] = (bys_gear_values){.stage = "",
                                           .mass_in_water = 5.2,
                                           .width = 0.45,
                                           .height = 0.70,
                                           .cd = 1.2,
                                           .basis = BYS_BASIS_USER};
    h->panel.u.gear = (bys_gear_part){.kind = BYS_GEAR_PANEL,
                                      .drop = 1.5,
                                      .orientation = BYS_ORIENT_FREE,
                                      .edge_cd = 0.15,
                                      .values = h->panel_values,
                                      .value_count = 1};
    h->anchor = (bys_part){.item = item("block3t", BYS_BASIS_USER), .kind = BYS_PART_ANCHOR};
    h->anchor.u.anchor = (bys_anchor_part){.kind = BYS_ANCHOR_DEADWEIGHT,
                                           .mass = 3000.0,
                                           .density = 2400.0,
                                           .friction = NAN,
                                           .friction_basis = BYS_BASIS_MEMORY,
                                           .base_area = NAN,
                                           .drag_class = "",
                                           .capacity = NAN,
                                           .capacity_kind = "",
                                           .capacity_basis = BYS_BASIS_USER,
                                           .test = "",
                                           .capacity_angle = NAN,
                                           .uplift_limit = 0.0,
                                           .offset_limit = pi / 6.0,
                                           .setback = 0.0,
                                           .strength = NAN};
}

static void make_layout(hand_site *h)
{
    h->items[0] =
        (bys_leg_item){.kind = BYS_LEG_CONNECTOR, .part = &h->shackle, .length = NAN, .count = 1};
    h->items[1] =
        (bys_leg_item){.kind = BYS_LEG_LINE, .part = &h->chain, .length = 10.0, .count = 1};
    h->items[2] =
        (bys_leg_item){.kind = BYS_LEG_LINE, .part = &h->warp, .length = 45.0, .count = 1};
    h->leg = (bys_leg_spec){.at = "ends",
                            .reach = 52.0,
                            .bearing = NAN,
                            .x = NAN,
                            .y = NAN,
                            .pretension = NAN,
                            .pretension_level = "",
                            .pretension_stage = "",
                            .anchor_id = "",
                            .anchor = &h->anchor,
                            .heading = NAN,
                            .per_side = 1,
                            .items = h->items,
                            .item_count = 3};
    h->floats[0] =
        (bys_pattern){.id = "crop", .part = &h->buoy, .every = 4.0, .from = NAN, .to = NAN};
    h->floats[1] = (bys_pattern){.id = "end",
                                 .part = &h->buoy,
                                 .at_ends = true,
                                 .every = NAN,
                                 .count = 4,
                                 .from = NAN,
                                 .to = NAN};
    h->gear[0] =
        (bys_pattern){.id = "panel", .part = &h->panel, .every = 1.2, .from = NAN, .to = NAN};
    h->block = (bys_block){.item = item("L", BYS_BASIS_USER),
                           .lines = 1,
                           .spacing = 20.0,
                           .heading = 0.0,
                           .backbone = &h->backbone,
                           .backbone_length = 60.0,
                           .strands = 1,
                           .floats = h->floats,
                           .float_count = 2,
                           .gear = h->gear,
                           .gear_count = 1,
                           .legs = &h->leg,
                           .leg_count = 1};
    h->stages[0] =
        (bys_stage){.item = item("bare", BYS_BASIS_USER), .month = NAN, .bedding_in = 0.0};
    h->stages[1] =
        (bys_stage){.item = item("harvest", BYS_BASIS_USER), .month = NAN, .bedding_in = 1.0};
}

static void make_weather(hand_site *h)
{
    h->levels[0] = (bys_level){item("LAT", BYS_BASIS_USER), 0.0};
    h->levels[1] = (bys_level){item("HAT", BYS_BASIS_USER), 4.0};
    h->currents[0] = (bys_current){.item = item("c50", BYS_BASIS_USER),
                                   .years = 50.0,
                                   .speed = 0.6,
                                   .at = BYS_AT_SURFACE,
                                   .exponent = 1.0 / 7.0,
                                   .towards = NAN};
    h->soil = (bys_soil){.kind = "sand",
                         .top = 0.0,
                         .thickness = INFINITY,
                         .friction_angle = 0.56,
                         .su = NAN,
                         .unit_weight = NAN,
                         .measured = false,
                         .source = "assumed"};
}

static void make_rules(hand_site *h)
{
    static const struct {
        const char *name;
        double value;
    } factors[] = {{"load-static", 1.0}, {"rope", 3.0},           {"chain", 3.0},
                   {"connector", 3.0},   {"drag-stockless", 1.5}, {"drag-high-efficiency", 2.0},
                   {"deadweight", 1.5},  {"screw", 3.0}};
    bys_rules *rules = &h->site.rules;
    for (int i = 0; i < HAND_FACTORS; i++)
        h->factors[i] = (bys_factor){.component = factors[i].name,
                                     .value = factors[i].value,
                                     .clause = "table",
                                     .source = "invented profile",
                                     .because = "",
                                     .basis = BYS_BASIS_READ};
    h->combinations[0] = (bys_combination){item("50y", BYS_BASIS_USER), 50.0, 50.0, 50.0};
    *rules = (bys_rules){.item = item("invented", BYS_BASIS_USER),
                         .written_for = "tests",
                         .capacity_basis = "ultimate",
                         .min_directions = 8,
                         .float_reserve = NAN,
                         .gear_clearance = NAN,
                         .line_clearance = NAN,
                         .max_excursion = NAN,
                         .combinations = h->combinations,
                         .combination_count = 1,
                         .factors = h->factors,
                         .factor_count = HAND_FACTORS};
}

void hand_site_make(hand_site *h)
{
    memset(h, 0, sizeof *h);
    make_parts(h);
    make_layout(h);
    make_weather(h);
    make_rules(h);
    bys_site *site = &h->site;
    site->name = "hand-made";
    site->notice = "INVENTED";
    site->file = site->sha256 = site->lease_id = "";
    site->frame = (bys_frame){.kind = "local", .north = "grid", .datum = "", .crs = ""};
    site->rho_water = 1025.0;
    site->rho_air = 1.226;
    site->gravity = 9.80665;
    site->directions = 8;
    site->levels = h->levels;
    site->level_count = 2;
    site->bed = (bys_seabed){.depth = 15.0, .soils = &h->soil, .soil_count = 1};
    site->has_bed = true;
    const double corners[4][2] = {{-150, -150}, {150, -150}, {150, 150}, {-150, 150}};
    for (int i = 0; i < 4; i++) {
        h->lease_x[i] = corners[i][0];
        h->lease_y[i] = corners[i][1];
    }
    site->lease_x = h->lease_x;
    site->lease_y = h->lease_y;
    site->lease_count = 4;
    site->lease_margin = 5.0;
    site->currents = h->currents;
    site->current_count = 1;
    site->winds = h->winds;
    site->waves = h->waves;
    site->stages = h->stages;
    site->stage_count = 2;
    site->blocks = &h->block;
    site->block_count = 1;
    site->wind_wave_turns = h->turns;
}

bys_factor *hand_factor(hand_site *h, const char *component)
{
    for (int i = 0; i < HAND_FACTORS; i++)
        if (strcmp(h->factors[i].component, component) == 0)
            return &h->factors[i];
    return NULL;
}

void hand_site_without_lines(hand_site *h, bys_free_network *network)
{
    *network = (bys_free_network){.item = item("net", BYS_BASIS_USER)};
    h->site.block_count = 0;
    h->site.networks = network;
    h->site.network_count = 1;
    h->site.level_count = 0;
    h->site.has_bed = false;
    h->site.lease_count = 0;
    h->site.rules.combination_count = 0;
}
