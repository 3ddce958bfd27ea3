// SPDX-License-Identifier: GPL-3.0-or-later
// Legs. A leg states exactly two of {all unstretched lengths, place of its anchor, pretension}.
#include "site/bind.h"

#include <math.h>
#include <string.h>

typedef struct {
    int lines, open; // ropes and chains; those without a length
    int items;
} leg_count;

// Row and kind of what a leg lists; the anchor stands apart.
static const struct {
    const char *key;
    bys_leg_item_kind kind;
} item_rows[] = {{"leg-rope", BYS_LEG_LINE},
                 {"leg-chain", BYS_LEG_LINE},
                 {"leg-connector", BYS_LEG_CONNECTOR},
                 {"leg-sinker", BYS_LEG_SINKER},
                 {"leg-float", BYS_LEG_FLOAT}};

static bool item_kind(bys_leg_item_kind *kind, const bys_xml_node *node)
{
    for (size_t i = 0; i < sizeof item_rows / sizeof item_rows[0]; i++)
        if (bys_node_is(node, item_rows[i].key)) {
            *kind = item_rows[i].kind;
            return true;
        }
    return false;
}

static leg_count count_items(const bys_xml_node *leg)
{
    leg_count c = {0};
    bys_leg_item_kind kind;
    for (const bys_xml_node *node = leg->first; node; node = node->next)
        if (item_kind(&kind, node)) {
            c.items++;
            c.lines += kind == BYS_LEG_LINE;
            c.open += kind == BYS_LEG_LINE && !bys_node_has(node, "length");
        }
    return c;
}

static void read_items(bys_reading *r, bys_leg_spec *spec, const bys_xml_node *leg, int room)
{
    spec->items = bys_array(r, room, sizeof *spec->items);
    bys_leg_item_kind kind;
    for (const bys_xml_node *node = leg->first; spec->items && node; node = node->next) {
        if (!item_kind(&kind, node))
            continue;
        spec->items[spec->item_count++] = (bys_leg_item){
            .kind = kind,
            .part = bys_part_ref(r, node, "part"),
            .length = bys_node_number(node, "length", NAN),
            .count = bys_node_count(node, "count", 1),
            .elements = bys_node_count(node, "elements", 0),
            .place = node->place,
        };
    }
}

static bool alone(bys_leg_item_kind kind)
{
    return kind == BYS_LEG_SINKER || kind == BYS_LEG_FLOAT;
}

static void check_order(bys_reading *r, const bys_leg_spec *spec, const bys_xml_node *leg,
                        leg_count c)
{
    if (c.lines == 0) {
        bys_say(r, BYS_M_leg_anchor, leg->place, leg,
                "has no rope and no chain; list them from the anchor up, as in <rope part=\"…\" "
                "length=\"55 m\"/>");
        return;
    }
    if (spec->item_count == 0)
        return;
    const bys_leg_item *first = &spec->items[0], *last = &spec->items[spec->item_count - 1];
    if (alone(first->kind) || alone(last->kind))
        bys_say(r, BYS_M_leg_anchor, alone(first->kind) ? first->place : last->place, leg,
                "%s with a %s; its first and its last thing are ropes, chains or connectors",
                alone(first->kind) ? "starts" : "ends",
                (alone(first->kind) ? first : last)->kind == BYS_LEG_FLOAT ? "float" : "sinker");
}

// Place by reach, by x and y, or by the name of an anchor that another leg places.
static bool has_place(bys_reading *r, const bys_xml_node *leg, const bys_leg_spec *spec)
{
    return bys_node_has(leg, "reach") || bys_node_has(leg, "x") || bys_node_has(leg, "y") ||
           (*spec->anchor_id && bys_ids_entry(&r->anchors, spec->anchor_id));
}

/// Which end, or "along": a place along the backbone.
static const char *at_of(const bys_xml_node *leg)
{
    if (bys_node_ok(leg, "every"))
        return "along";
    if (!bys_node_ok(leg, "at"))
        return "";
    return bys_node_choice(leg, "at", -1) < 0 ? "along" : bys_node_text(leg, "at");
}

static void check_place(bys_reading *r, const bys_xml_node *leg)
{
    bool x = bys_node_has(leg, "x"), y = bys_node_has(leg, "y");
    if (x != y)
        bys_say(r, BYS_M_pair_incomplete, bys_node_place(leg, x ? "x" : "y"), leg,
                "states only one of x and y; the place of an anchor needs both");
    if ((x || y) && bys_node_has(leg, "reach"))
        bys_say(r, BYS_M_conflict, bys_node_place(leg, "reach"), leg,
                "states a reach and the anchor's x and y; keep one of them");
    const bool along = strcmp(at_of(leg), "along") == 0; // its reach may be what is found
    if (bys_node_has(leg, "bearing") && !bys_node_has(leg, "reach") && !along)
        bys_say(r, BYS_M_pair_incomplete, bys_node_place(leg, "bearing"), leg,
                "states a bearing without a reach; add reach=\"… m\" or remove it");
    const char *extra = bys_node_has(leg, "level") ? "level" : bys_node_has(leg,
        "stage") ? "stage" : "";
    if (*extra && !bys_node_has(leg, "pretension"))
        bys_say(r, BYS_M_pair_incomplete, bys_node_place(leg, extra), leg,
                "states a %s without a pretension; add pretension=\"… kN\" or remove it", extra);
}

static void check_two(bys_reading *r, const bys_xml_node *leg, const bys_leg_spec *spec,
                      leg_count c)
{
    if (c.open > 1) {
        bys_say(r, BYS_M_leg_two_of_three, leg->place, leg,
                "leaves %d lengths open; at most one rope or chain may be without a length",
                c.open);
        return;
    }
    const char *given[3];
    int n = 0;
    if (c.lines > 0 && c.open == 0)
        given[n++] = "all its lengths";
    if (has_place(r, leg, spec))
        given[n++] = bys_node_has(leg, "reach") ? "its reach" : "the place of its anchor";
    if (bys_node_has(leg, "pretension"))
        given[n++] = "its pretension";
    if (n == 2 || c.lines == 0)
        return;
    if (n == 3)
        bys_say(r, BYS_M_leg_two_of_three, leg->place, leg,
                "states %s, %s and %s; two of them decide the third: take one away", given[0],
                given[1], given[2]);
    else
        bys_say(r, BYS_M_leg_two_of_three, leg->place, leg,
                "states %s; a leg must state two of: all its lengths, the place of its anchor, its "
                "pretension", n == 0 ? "none of its givens"
                              : c.open == 0 ? "its lengths only"
                              : bys_node_has(leg, "pretension") ? "its pretension only"
                                                                : "the place of its anchor only");
}

/// Legs of a block say where they stand; those along the backbone where they go.
static void check_along(bys_reading *r, const bys_xml_node *leg, const bys_leg_spec *spec)
{
    const bool block = bys_node_is(leg, "leg");
    const bool at = bys_node_has(leg, "at"), every = bys_node_has(leg, "every");
    if (block && at == every)
        bys_say(r, at ? BYS_M_conflict : BYS_M_missing_attribute,
                bys_node_place(leg, at ? "every" : "part"), leg,
                at ? "states both at and every; keep one of them"
                   : "does not say where it stands: write at=\"ends\", the name of an end, "
                     "at=\"30 m\" or every=\"30 m\"");
    const bool goes = bys_node_has(leg, "bearing") || bys_node_has(leg, "x") || *spec->anchor_id;
    if (strcmp(spec->at, "along") == 0 && !goes)
        bys_say(r, BYS_M_leg_along, leg->place, leg,
                "stands along the backbone and does not say to which side it goes: add "
                "bearing=\"… deg\", or the anchor's x and y");
}

static void read_bridle(bys_reading *r, bys_leg_spec *spec, const bys_xml_node *leg)
{
    const bys_xml_node *node = bys_node_next(leg, NULL, "leg-bridle");
    const bool block = bys_node_is(leg, "leg");
    if (!node)
        return;
    spec->bridle = (bys_bridle_spec){.part = bys_part_ref(r, node, "part"),
                                     .length = bys_node_number(node, "length", NAN),
                                     .spread = bys_node_number(node, "spread", NAN),
                                     .place = node->place};
    if (block && !bys_node_has(node, "spread"))
        bys_say(r, BYS_M_bridle, node->place, leg,
                "has a bridle without a spread: say how far apart along the backbone its two arms "
                "are made fast, as in spread=\"4 m\"");
    if (!block && bys_node_has(node, "spread"))
        bys_say(r, BYS_M_bridle, bys_node_place(node, "spread"), leg,
                "has a bridle with a spread: on a raft its arms go to the fairleads on both sides "
                "of the leg's own; remove spread");
    if (2 * spec->bridle.length <= spec->bridle.spread)
        bys_say(r, BYS_M_bridle, bys_node_place(node, "length"), leg,
                "has a bridle whose two arms of %.4g m cannot span a spread of %.4g m",
                spec->bridle.length, spec->bridle.spread);
    if (!block && spec->per_side == 2)
        bys_say(r, BYS_M_conflict, bys_node_place(leg, "per-side"), leg,
                "has a bridle and per-side=\"2\"; a bridle takes both corners of that side");
}

static bys_leg_spec leg_of(bys_reading *r, const bys_xml_node *leg)
{
    const bys_xml_node *anchor = bys_node_next(leg, NULL, "leg-anchor");
    bys_leg_spec spec = {
        .at = at_of(leg),
        .along = bys_node_choice(leg, "at", -1) < 0 ? bys_node_number(leg, "at", NAN) : NAN,
        .every = bys_node_number(leg, "every", NAN),
        .reach = bys_node_number(leg, "reach", NAN),
        .bearing = bys_node_number(leg, "bearing", NAN),
        .x = bys_node_number(leg, "x", NAN),
        .y = bys_node_number(leg, "y", NAN),
        .pretension = bys_node_number(leg, "pretension", NAN),
        .pretension_level = bys_level_ref(r, leg, "level"),
        .pretension_stage = bys_stage_ref(r, leg, "stage"),
        .anchor_id = anchor ? bys_node_text(anchor, "id") : "",
        .anchor = anchor ? bys_part_ref(r, anchor, "part") : NULL,
        .heading = anchor ? bys_node_number(anchor, "heading", NAN) : NAN,
        .per_side = bys_node_count(leg, "per-side", 1),
        .splay = bys_node_number(leg, "splay", 0),
        .place = leg->place,
    };
    leg_count c = count_items(leg);
    read_items(r, &spec, leg, c.items);
    read_bridle(r, &spec, leg);
    check_order(r, &spec, leg, c);
    check_along(r, leg, &spec);
    check_place(r, leg);
    check_two(r, leg, &spec, c);
    return spec;
}

bys_leg_spec *bys_read_legs(bys_reading *r, const bys_xml_node *node, const char *key, int *count)
{
    bys_leg_spec *legs = bys_array(r, bys_node_number_of(node, key), sizeof *legs);
    *count = 0;
    const bys_xml_node *leg = NULL;
    while (legs && (leg = bys_node_next(node, leg, key)))
        legs[(*count)++] = leg_of(r, leg);
    return legs;
}
