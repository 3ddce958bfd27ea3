// SPDX-License-Identifier: GPL-3.0-or-later
// Vessels, lifts and conditions of the user's own. What they name is looked up in the network.
#include "site/bind.h"

#include <math.h>

static bys_weather_change weather_of(const bys_xml_node *parent)
{
    const bys_xml_node *node = bys_node_next(parent, NULL, "condition-weather");
    if (!node)
        return (bys_weather_change){NAN, NAN, NAN};
    return (bys_weather_change){bys_node_number(node, "current", NAN),
                                bys_node_number(node, "wind", NAN),
                                bys_node_number(node, "hs", NAN)};
}

static void bind_vessels(bys_reading *r, const bys_xml_node *home)
{
    bys_site *site = r->site;
    site->vessels = bys_array(r, bys_node_number_of(home, "vessel"), sizeof *site->vessels);
    const bys_xml_node *node = NULL;
    while (site->vessels && (node = bys_node_next(home, node, "vessel"))) {
        const bys_vessel v = {.item = bys_item_of(node),
                              .because = bys_node_text(node, "because"),
                              .to = bys_node_text(node, "to"),
                              .at = bys_node_number(node, "at", 0.5),
                              .current_area = bys_node_number(node, "current-area", 0.0),
                              .wind_area = bys_node_number(node, "wind-area", 0.0),
                              .weather = weather_of(node)};
        if (!bys_node_has(node, "current-area") && !bys_node_has(node, "wind-area"))
            bys_say(r, BYS_M_condition_empty, node->place, node,
                    "has no load: state current-area, wind-area or both, such as "
                    "current-area=\"6 m2\"");
        site->vessels[site->vessel_count++] = v;
    }
}

static void bind_lifts(bys_reading *r, const bys_xml_node *home)
{
    bys_site *site = r->site;
    site->lifts = bys_array(r, bys_node_number_of(home, "lift"), sizeof *site->lifts);
    const bys_xml_node *node = NULL;
    while (site->lifts && (node = bys_node_next(home, node, "lift"))) {
        const bool height = bys_node_has(node, "height"), force = bys_node_has(node, "force");
        if (height == force)
            bys_say(r, BYS_M_condition_one_of, bys_node_place(node, height ? "force" : "id"), node,
                    height ? "states both height and force; keep one"
                           : "states neither height nor force; write height=\"0.5 m\" or "
                             "force=\"4 kN\"");
        site->lifts[site->lift_count++] = (bys_lift){.item = bys_item_of(node),
                                                     .because = bys_node_text(node, "because"),
                                                     .to = bys_node_text(node, "to"),
                                                     .at = bys_node_number(node, "at", 0.5),
                                                     .height = bys_node_number(node, "height", NAN),
                                                     .force = bys_node_number(node, "force", NAN),
                                                     .weather = weather_of(node)};
    }
}

// ---- the user's own ------------------------------------------------------------------------------

static void read_removal(bys_reading *r, bys_own_condition *c, const bys_xml_node *node)
{
    static const char *const names[] = {"leg", "anchor", "float"};
    int stated = 0;
    for (int k = 0; k < 3; k++) {
        if (!bys_node_has(node, names[k]))
            continue;
        if (stated++ == 0)
            c->takes[c->take_count++] = (bys_take){.kind = (bys_take_kind)k,
                                                   .target = bys_node_text(node, names[k]),
                                                   .at = NAN,
                                                   .place = bys_node_place(node, names[k])};
    }
    if (stated != 1)
        bys_say(r, BYS_M_condition_one_of, node->place, node,
                "names %s; write one of leg, anchor and float in each <remove>",
                stated ? "more than one thing" : "nothing");
}

static void read_takes(bys_reading *r, bys_own_condition *c, const bys_xml_node *home)
{
    const int most = bys_node_number_of(home, "removal") + bys_node_number_of(home, "cut") +
                     bys_node_number_of(home, "added-load");
    c->takes = bys_array(r, most, sizeof *c->takes);
    const bys_xml_node *node = NULL;
    while (c->takes && (node = bys_node_next(home, node, "removal")))
        read_removal(r, c, node);
    while (c->takes && (node = bys_node_next(home, node, "cut")))
        c->takes[c->take_count++] = (bys_take){.kind = BYS_TAKE_CUT,
                                               .target = bys_node_text(node, "line"),
                                               .at = bys_node_number(node, "at", 0.5),
                                               .place = bys_node_place(node, "line")};
    while (c->takes && (node = bys_node_next(home, node, "added-load")))
        c->takes[c->take_count++] = (bys_take){.kind = BYS_TAKE_LOAD,
                                               .target = bys_node_text(node, "to"),
                                               .at = bys_node_number(node, "at", 0.5),
                                               .load = {bys_node_number(node, "east", 0.0),
                                                        bys_node_number(node, "north", 0.0),
                                                        bys_node_number(node, "up", 0.0)},
                                               .place = bys_node_place(node, "to")};
    if (most == 0 && !bys_node_next(home, NULL, "condition-weather"))
        bys_say(r, BYS_M_condition_empty, home->place, home,
                "changes nothing: put <remove>, <cut>, <load> or <weather> in it");
}

static void bind_own(bys_reading *r, const bys_xml_node *home)
{
    bys_site *site = r->site;
    site->conditions =
        bys_array(r, bys_node_number_of(home, "condition"), sizeof *site->conditions);
    const bys_xml_node *node = NULL;
    while (site->conditions && (node = bys_node_next(home, node, "condition"))) {
        bys_own_condition *c = &site->conditions[site->condition_count++];
        *c = (bys_own_condition){.item = bys_item_of(node),
                                 .because = bys_node_text(node, "because"),
                                 .weather = weather_of(node)};
        read_takes(r, c, node);
    }
}

static void say_twice(bys_reading *r, const bys_xml_node *home, const char *key)
{
    bys_ids ids = {0};
    const bys_xml_node *node = NULL;
    for (int i = 0; (node = bys_node_next(home, node, key)); i++)
        bys_ids_add(&ids, bys_node_text(node, "id"), i, bys_node_place(node, "id"));
    bys_ids_sort(&ids);
    bys_say_twice(r, &ids, key);
    r->failed = r->failed || ids.failed;
    bys_ids_free(&ids);
}

void bys_bind_conditions(bys_reading *r)
{
    const bys_xml_node *home = bys_node_next(r->root, NULL, "conditions");
    if (!home)
        return;
    bind_vessels(r, home);
    bind_lifts(r, home);
    bind_own(r, home);
    say_twice(r, home, "vessel");
    say_twice(r, home, "lift");
    say_twice(r, home, "condition");
}
