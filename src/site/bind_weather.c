// SPDX-License-Identifier: GPL-3.0-or-later
// Current, wind, waves, and the crop stages.
#include "base/number.h"
#include "base/units.h"
#include "site/bind.h"

#include <math.h>
#include <string.h>

static bys_item weather_item(bys_reading *r, const bys_xml_node *node, const char *what)
{
    bys_item item = bys_item_of(node);
    item.id = bys_arena_format(r->arena, "%s-%g", what, bys_node_number(node, "return", 0));
    if (!item.id) {
        r->failed = true;
        item.id = "";
    }
    return item;
}

static void need_together(bys_reading *r, const bys_xml_node *node, const char *one,
                          const char *other)
{
    if (bys_node_has(node, one) && !bys_node_has(node, other))
        bys_say(r, BYS_M_pair_incomplete, bys_node_place(node, one), node,
                "states %s without %s; state both or neither", one, other);
}

static bys_current current_of(bys_reading *r, const bys_xml_node *node)
{
    bys_current c = {
        .item = weather_item(r, node, "current"),
        .years = bys_node_number(node, "return", NAN),
        .speed = bys_node_number(node, "speed", NAN),
        .at = (bys_speed_at)bys_node_choice(node, "at", BYS_AT_SURFACE),
        .at_depth = bys_node_number(node, "depth", NAN),
        .exponent = bys_node_number(node, "exponent", 1.0 / 7.0),
        .towards = bys_node_number(node, "towards", NAN),
        .sector = bys_node_number(node, "sector", NAN),
        .reverses = bys_node_flag(node, "reverses", false),
    };
    bys_read_current_form(r, node, &c);
    need_together(r, node, "towards", "sector");
    need_together(r, node, "sector", "towards");
    need_together(r, node, "reverses", "towards");
    bool at_depth = bys_node_choice(node, "at", -1) == BYS_AT_DEPTH;
    if (at_depth && !bys_node_has(node, "depth"))
        bys_say(r, BYS_M_pair_incomplete, bys_node_place(node, "at"), node,
                "holds at a depth that is not stated; add depth=\"… m\"");
    if (bys_node_ok(node, "at") && !at_depth && bys_node_has(node, "depth"))
        bys_say(r, BYS_M_conflict, bys_node_place(node, "depth"), node,
                "states a depth, but at=\"%s\"; write at=\"depth\" or remove depth",
                bys_node_text(node, "at"));
    return c;
}

// Turns of wind and waves: the list was checked piece by piece before.
static void bind_turns(bys_reading *r, const bys_xml_node *node)
{
    bys_site *site = r->site;
    const char *text = node && bys_node_ok(node, "wind-wave-turns")
                           ? bys_node_text(node, "wind-wave-turns") : "0 deg";
    int count = 1;
    for (const char *p = text; *p; p++)
        count += *p == ',';
    site->wind_wave_turns = bys_array(r, count, sizeof *site->wind_wave_turns);
    if (!site->wind_wave_turns)
        return;
    for (; site->turn_count < count; site->turn_count++) {
        size_t n = strcspn(text, ",");
        char piece[80];
        bys_text why = {0};
        bys_format(piece, sizeof piece, "%.*s", (int)n, text);
        bys_quantity_read(&site->wind_wave_turns[site->turn_count], piece, BYS_DIM_ANGLE, &why);
        bys_text_free(&why);
        text += n + (text[n] == ',');
    }
}

void bys_bind_weather(bys_reading *r)
{
    bys_site *site = r->site;
    const bys_xml_node *weather = bys_node_next(r->root, NULL, "weather"), *node = NULL;
    site->directions = weather ? bys_node_count(weather, "directions", 16) : 16;
    site->wind_averaging = weather ? bys_node_number(weather, "wind-averaging", 60) : 60;
    site->direction_offset = weather ? bys_node_number(weather, "first-direction", 0) : 0;
    bind_turns(r, weather);
    site->currents = bys_array(r, bys_node_number_of(weather, "current"), sizeof *site->currents);
    site->winds = bys_array(r, bys_node_number_of(weather, "wind"), sizeof *site->winds);
    site->waves = bys_array(r, bys_node_number_of(weather, "waves"), sizeof *site->waves);
    bys_bind_cases(r);
    if (!weather || !site->currents || !site->winds || !site->waves)
        return;
    while ((node = bys_node_next(weather, node, "current")))
        site->currents[site->current_count++] = current_of(r, node);
    while ((node = bys_node_next(weather, node, "wind")))
        site->winds[site->wind_count++] = (bys_wind){
            .item = weather_item(r, node, "wind"),
            .years = bys_node_number(node, "return", NAN),
            .speed = bys_node_number(node, "speed", NAN),
            .averaging = bys_node_number(node, "averaging", NAN),
            .law = (bys_wind_law)bys_node_choice(node, "law", BYS_WIND_DNV),
            .from = bys_node_number(node, "from", NAN),
        };
    while ((node = bys_node_next(weather, node, "waves")))
        site->waves[site->wave_count++] = (bys_waves){
            .item = weather_item(r, node, "waves"),
            .years = bys_node_number(node, "return", NAN),
            .hs = bys_node_number(node, "hs", NAN),
            .tp = bys_node_number(node, "tp", NAN),
            .gamma = bys_node_number(node, "gamma", NAN),
            .spreading = bys_node_number(node, "spreading", NAN),
            .from = bys_node_number(node, "from", NAN),
        };
    bys_bind_sea(r, weather);
}

static bys_stage plain_stage(const char *id)
{
    return (bys_stage){.item = {.id = id, .name = "", .source = "", .basis = BYS_BASIS_ASSUMED},
                       .month = NAN,
                       .bedding_in = strcmp(id, "bare") == 0 ? 0 : 1};
}

void bys_bind_stages(bys_reading *r)
{
    bys_site *site = r->site;
    const bys_xml_node *stages = bys_node_next(r->root, NULL, "stages"), *node = NULL;
    bool bare = false, harvest = false;
    while ((node = bys_node_next(stages, node, "stage"))) {
        bare = bare || strcmp(bys_node_text(node, "id"), "bare") == 0;
        harvest = harvest || strcmp(bys_node_text(node, "id"), "harvest") == 0;
    }
    site->stages =
        bys_array(r, 2 * (bys_node_number_of(stages, "stage") + 2), sizeof *site->stages);
    if (!site->stages)
        return;
    site->grows = stages && bys_node_choice(stages, "between", 0) == 1;
    if (!bare)
        site->stages[site->stage_count++] = plain_stage("bare");
    while ((node = bys_node_next(stages, node, "stage"))) {
        bys_stage stage = plain_stage(bys_node_text(node, "id"));
        stage.item = bys_item_of(node);
        stage.month = bys_node_number(node, "month", NAN);
        stage.bedding_in = bys_node_number(node, "bedding-in", stage.bedding_in);
        stage.bedding_stated = bys_node_has(node, "bedding-in");
        site->stages[site->stage_count++] = stage;
    }
    if (!harvest)
        site->stages[site->stage_count++] = plain_stage("harvest");
    for (int i = 0; i < site->stage_count; i++)
        bys_ids_add(&r->stages, site->stages[i].item.id, i, site->stages[i].item.place);
    bys_ids_sort(&r->stages);
    bys_say_twice(r, &r->stages, "crop stage");
}

void bys_check_target(bys_reading *r, const bys_xml_node *node)
{
    if (!bys_node_ok(node, "of"))
        return;
    const char *target = bys_node_text(node, "of");
    int at = bys_ids_find(&r->items, target);
    bool block = at >= 0 && at < r->site->block_count;
    if (!block && !bys_line_block(r->site, target))
        bys_say(r, BYS_M_unknown_reference, bys_node_place(node, "of"), node,
                "names \"%.60s\", which is neither a block nor a line%s", target,
                bys_suggest(&r->items, target).text);
}

static bys_stage_floats stage_floats_of(bys_reading *r, const bys_xml_node *node)
{
    bys_stage_floats f = {.target = bys_node_text(node, "of"),
                          .pattern = bys_node_text(node, "pattern"),
                          .place = node->place};
    bys_read_spacing(r, node, &f.every, &f.count);
    bys_check_target(r, node);
    if (bys_node_ok(node, "pattern") && !bys_ids_entry(&r->patterns, f.pattern))
        bys_say(r, BYS_M_unknown_reference, bys_node_place(node, "pattern"), node,
                "names the row of floats \"%.60s\", which does not exist%s", f.pattern,
                bys_suggest(&r->patterns, f.pattern).text);
    return f;
}

void bys_bind_stage_floats(bys_reading *r)
{
    const bys_xml_node *stages = bys_node_next(r->root, NULL, "stages"), *node = NULL;
    while ((node = bys_node_next(stages, node, "stage"))) {
        int at = bys_ids_find(&r->stages, bys_node_text(node, "id"));
        int count = bys_node_number_of(node, "stage-floats");
        if (at < 0 || count == 0)
            continue;
        bys_stage *stage = &r->site->stages[at];
        stage->float_count = 0;
        stage->floats = bys_array(r, count, sizeof *stage->floats);
        const bys_xml_node *row = NULL;
        while (stage->floats && (row = bys_node_next(node, row, "stage-floats")))
            stage->floats[stage->float_count++] = stage_floats_of(r, row);
    }
}

// ---- bedding in ----------------------------------------------------------------------------------

/// Some rope in use lengthens for good once it has been loaded.
static bool any_bedding(const bys_reading *r)
{
    for (int i = 0; i < r->site->part_count; i++) {
        const bys_part *part = &r->site->parts[i];
        if (r->part_used[i] && part->kind == BYS_PART_ROPE && part->u.line.bedding_in > 0)
            return true;
    }
    return false;
}

// A rope may be replaced at any stage, and laid again after a harvest: each stage that does not say
// how far its ropes have bedded in is looked at with none and with all of it.
void bys_bind_bedding(bys_reading *r)
{
    bys_site *site = r->site;
    const int count = site->stage_count;
    if (!site->stages || !any_bedding(r))
        return;
    for (int i = 0; i < count; i++) {
        const bys_stage *stage = &site->stages[i];
        const bool all = stage->bedding_in > 0;
        const char *id = bys_arena_format(r->arena, all ? "%s-new-ropes" : "%s-old-ropes",
                                          stage->item.id);
        const char *name = bys_arena_format(
            r->arena, all ? "%s, ropes not yet bedded in" : "%s, ropes bedded in",
            *stage->item.name ? stage->item.name : stage->item.id);
        r->failed |= !id || !name;
        if (r->failed || stage->bedding_stated || bys_ids_find(&r->stages, id) >= 0)
            continue;
        bys_stage *copy = &site->stages[site->stage_count++];
        *copy = *stage;
        copy->item.id = id;
        copy->item.name = name;
        copy->like = stage->item.id;
        copy->bedding_in = all ? 0 : 1;
    }
}
