// SPDX-License-Identifier: GPL-3.0-or-later
// Blocks of longlines, changes to single lines, raft grids.
#include "base/number.h"
#include "site/bind.h"

#include <math.h>
#include <string.h>

static void read_range(bys_reading *r, const bys_xml_node *node, bys_pattern *p, double length)
{
    p->from = bys_node_number(node, "from", NAN);
    p->to = bys_node_number(node, "to", NAN);
    if (bys_node_has(node, "from") != bys_node_has(node, "to")) {
        bys_say(r, BYS_M_pair_incomplete, bys_node_place(node, p->from >= 0 ? "from" : "to"), node,
                "states only one of from and to; state both or neither");
        return;
    }
    if (p->from >= p->to)
        bys_say(r, BYS_M_conflict, bys_node_place(node, "from"), node,
                "starts at %.4g m and ends at %.4g m", p->from, p->to);
    else if (p->to > length * (1 + 1e-9))
        bys_say(r, BYS_M_out_of_range, bys_node_place(node, "to"), node,
                "ends at %.4g m, but the backbone is %.4g m long", p->to, length);
}

static bys_pattern pattern_of(bys_reading *r, const bys_xml_node *node, double length)
{
    bys_pattern p = {.part = bys_part_ref(r, node, "part"),
                     .at_ends = bys_node_has(node, "at"),
                     .every = bys_node_number(node, "every", NAN),
                     .count = bys_node_count(node, "count", 0),
                     .from = NAN, .to = NAN,
                     .place = node->place};
    p.id = bys_node_has(node, "id") ? bys_node_text(node, "id") : bys_node_text(node, "part");
    if (p.at_ends) {
        const char *extra = bys_node_has(node, "every") ? "every"
                          : bys_node_has(node, "from")  ? "from"
                          : bys_node_has(node, "to")    ? "to" : "";
        if (*extra)
            bys_say(r, BYS_M_conflict, bys_node_place(node, extra), node,
                    "stands at the ends, so that %s has no meaning; remove it", extra);
        if (!bys_node_has(node, "count"))
            bys_say(r, BYS_M_pattern_spacing, node->place, node,
                    "stands at the ends and needs a count: the number at each end");
        return p;
    }
    bys_read_spacing(r, node, &p.every, &p.count);
    read_range(r, node, &p, length);
    p.shelter = bys_node_flag(node, "self-shelter", false);
    if (p.shelter && !bys_node_has(node, "because"))
        bys_say(r, BYS_M_credit_reason, bys_node_place(node, "self-shelter"), node,
                "takes credit for pieces that shelter each other and gives no reason; add "
                "because=\"…\"");
    return p;
}

static bys_pattern *read_patterns(bys_reading *r, const bys_xml_node *node, const char *key,
                                  int *count, double length)
{
    bys_pattern *out = bys_array(r, bys_node_number_of(node, key), sizeof *out);
    bool floats = strcmp(key, "floats") == 0;
    *count = 0;
    const bys_xml_node *row = NULL;
    while (out && (row = bys_node_next(node, row, key))) {
        bys_pattern *p = &out[*count];
        *p = pattern_of(r, row, length);
        // Crop stages name rows of floats; rows of gear are named by nothing.
        for (int i = 0; floats && i < *count; i++)
            if (strcmp(out[i].id, p->id) == 0 && *p->id) {
                bys_say(r, BYS_M_duplicate_id, row->place, row,
                        "is the second row named \"%.60s\" here; give each an id of its own",
                        p->id);
                break;
            }
        if (floats)
            bys_ids_add(&r->patterns, p->id, 0, p->place);
        (*count)++;
    }
    return out;
}

// A leg along the backbone stands between its ends; many cannot have one anchor at one reach.
static void check_along(bys_reading *r, const bys_block *block, const bys_leg_spec *leg)
{
    const double first = isfinite(leg->every) ? leg->every : leg->along;
    if (!(first > 0) || first >= block->backbone_length)
        bys_messages_add(r->messages, BYS_FAULT, BYS_M_leg_along, leg->place,
                         "<leg> stands %.4g m along a backbone of %.4g m; a leg between its ends "
                         "is wanted here: for an end write at=\"ends\" or its name", first,
                         block->backbone_length);
    if (*leg->anchor_id && (isfinite(leg->every) || block->lines > 1) && isfinite(leg->reach))
        bys_messages_add(r->messages, BYS_FAULT, BYS_M_conflict, leg->place,
                         "<leg> shares the anchor \"%s\" among several places; place it by x and "
                         "y, not by a reach", leg->anchor_id);
}

// The ends of a line have the compass names nearest to its heading and its reverse.
static void check_ends(bys_reading *r, const bys_block *block, const bys_leg_spec *legs, int count)
{
    const char *head = bys_compass(block->heading);
    const char *tail = bys_compass(block->heading + BYS_TURN / 2);
    int heads = 0, tails = 0;
    for (int i = 0; i < count; i++) {
        const bys_leg_spec *leg = &legs[i];
        if (strcmp(leg->at, "along") == 0) {
            check_along(r, block, leg);
            continue;
        }
        bool both = strcmp(leg->at, "ends") == 0;
        bool at_head = both || strcmp(leg->at, head) == 0;
        bool at_tail = both || strcmp(leg->at, tail) == 0;
        if (*leg->at && !at_head && !at_tail)
            bys_messages_add(r->messages, BYS_FAULT, BYS_M_leg_end, leg->place,
                             "<leg at=\"%s\"> is at no end: the lines of block %s have the ends "
                             "%s and %s", leg->at, block->item.id, head, tail);
        heads += at_head;
        tails += at_tail;
        if ((at_head && heads > 1) || (at_tail && tails > 1))
            bys_messages_add(r->messages, BYS_FAULT, BYS_M_leg_end, leg->place,
                             "<leg at=\"%s\"> is the second leg at the end %s; an end has one leg",
                             leg->at, at_head && heads > 1 ? head : tail);
        // One anchor cannot lie at one distance from many line ends.
        bool many = both || block->lines > 1;
        if (*leg->anchor_id && many && isfinite(leg->reach))
            bys_messages_add(r->messages, BYS_FAULT, BYS_M_conflict, leg->place,
                             "<leg at=\"%s\"> shares the anchor \"%s\" among several lines; place "
                             "it by x and y, not by a reach", leg->at, leg->anchor_id);
    }
}

static bys_block block_of(bys_reading *r, const bys_xml_node *node)
{
    const bys_xml_node *backbone = bys_node_next(node, NULL, "backbone");
    bys_block b = {
        .item = bys_item_of(node),
        .lines = bys_node_count(node, "lines", 1),
        .spacing = bys_node_number(node, "spacing", NAN),
        .heading = bys_node_number(node, "heading", 0),
        .x = bys_node_number(node, "x", NAN),
        .y = bys_node_number(node, "y", NAN),
        .backbone = backbone ? bys_part_ref(r, backbone, "part") : NULL,
        .backbone_length = backbone ? bys_node_number(backbone, "length", NAN) : NAN,
        .strands = backbone ? bys_node_count(backbone, "strands", 1) : 1,
    };
    if (b.lines > 1 && !bys_node_has(node, "spacing"))
        bys_say(r, BYS_M_pair_incomplete, bys_node_place(node, "lines"), node,
                "has %d lines and no spacing; add spacing=\"… m\"", b.lines);
    b.floats = read_patterns(r, node, "floats", &b.float_count, b.backbone_length);
    b.gear = read_patterns(r, node, "gears", &b.gear_count, b.backbone_length);
    b.legs = bys_read_legs(r, node, "leg", &b.leg_count);
    if (bys_node_ok(node, "heading"))
        check_ends(r, &b, b.legs, b.leg_count);
    if (b.leg_count == 0)
        bys_say(r, BYS_M_missing_element, node->place, node,
                "has no <leg>: nothing would hold its lines");
    return b;
}

static void say_no_line(bys_reading *r, const bys_xml_node *node)
{
    const char *line = bys_node_text(node, "line");
    const bys_site *site = r->site;
    if (!bys_node_ok(node, "line"))
        return;
    if (site->block_count == 0) {
        bys_say(r, BYS_M_unknown_line, bys_node_place(node, "line"), node,
                "names a line, but there is no block");
        return;
    }
    // The block with the longest id that the line starts with.
    const bys_block *block = &site->blocks[0];
    for (int i = 1; i < site->block_count; i++) {
        const char *id = site->blocks[i].item.id;
        if (strncmp(line, id, strlen(id)) == 0 && strlen(id) > strlen(block->item.id))
            block = &site->blocks[i];
    }
    int width = block->lines > 99 ? 3 : 2;
    bys_say(r, BYS_M_unknown_line, bys_node_place(node, "line"), node,
            "names a line that does not exist; block %s has %s%0*d to %s%0*d", block->item.id,
            block->item.id, width, 1, block->item.id, width, block->lines);
}

static bys_change change_of(bys_reading *r, const bys_xml_node *node)
{
    bys_change c = {
        .line = bys_node_text(node, "line"),
        .remove = bys_node_is(node, "remove"),
        .dx = bys_node_number(node, "dx", 0),
        .dy = bys_node_number(node, "dy", 0),
        .backbone_length = bys_node_number(node, "backbone-length", NAN),
        .place = node->place,
    };
    const bys_block *block = bys_line_block(r->site, c.line);
    if (!block)
        say_no_line(r, node);
    double length = bys_node_number(node, "backbone-length",
                                    block ? block->backbone_length : INFINITY);
    c.floats = read_patterns(r, node, "floats", &c.float_count, length);
    c.gear = read_patterns(r, node, "gears", &c.gear_count, length);
    c.legs = bys_read_legs(r, node, "leg", &c.leg_count);
    if (block) {
        bys_block one = *block; // the line as a block of its own
        one.lines = 1;
        check_ends(r, &one, c.legs, c.leg_count);
    }
    return c;
}

static void check_changes(bys_reading *r)
{
    bys_ids lines = {0};
    for (int i = 0; i < r->site->change_count; i++)
        bys_ids_add(&lines, r->site->changes[i].line, i, r->site->changes[i].place);
    bys_ids_sort(&lines);
    for (int i = 1; i < lines.count; i++)
        if (strcmp(lines.at[i - 1].id, lines.at[i].id) == 0)
            bys_messages_add(r->messages, BYS_FAULT, BYS_M_repeated_element, lines.at[i].place,
                             "line %s is changed or removed twice (first in line %d); keep one",
                             lines.at[i].id, lines.at[i - 1].place.line);
    r->failed = r->failed || lines.failed;
    bys_ids_free(&lines);
}

static bys_grid grid_of(bys_reading *r, const bys_xml_node *node)
{
    const bys_xml_node *rope = bys_node_next(node, NULL, "head-rope");
    bys_grid g = {
        .item = bys_item_of(node),
        .columns = bys_node_count(node, "columns", 1),
        .rows = bys_node_count(node, "rows", 1),
        .spacing_x = bys_node_number(node, "spacing-across", NAN),
        .spacing_y = bys_node_number(node, "spacing-along", NAN),
        .heading = bys_node_number(node, "heading", 0),
        .x = bys_node_number(node, "x", NAN),
        .y = bys_node_number(node, "y", NAN),
        .raft = bys_part_ref(r, node, "raft"),
        .head_rope = rope ? bys_part_ref(r, rope, "part") : NULL,
        .head_rope_length = rope ? bys_node_number(rope, "length", NAN) : NAN,
    };
    const bys_raft_part *raft = g.raft ? &g.raft->u.raft : NULL;
    if (g.columns > 1 && !bys_node_has(node, "spacing-across"))
        bys_say(r, BYS_M_pair_incomplete, bys_node_place(node, "columns"), node,
                "has %d columns and no spacing-across; add it", g.columns);
    if (g.rows > 1 && !bys_node_has(node, "spacing-along"))
        bys_say(r, BYS_M_pair_incomplete, bys_node_place(node, "rows"), node,
                "has %d rows and no spacing-along; add it", g.rows);
    if (raft && g.columns > 1 && g.spacing_x <= raft->width)
        bys_say(r, BYS_M_conflict, bys_node_place(node, "spacing-across"), node,
                "has columns %.4g m apart of rafts %.4g m wide: they would overlap", g.spacing_x,
                raft->width);
    if (raft && g.rows > 1 && g.spacing_y <= raft->length)
        bys_say(r, BYS_M_conflict, bys_node_place(node, "spacing-along"), node,
                "has rows %.4g m apart of rafts %.4g m long: they would overlap", g.spacing_y,
                raft->length);
    if (g.columns * g.rows > 1 && !rope)
        bys_say(r, BYS_M_missing_element, node->place, node,
                "has %d rafts and no <head-rope> between them", g.columns * g.rows);
    g.legs = bys_read_legs(r, node, "raft-leg", &g.leg_count);
    if (g.leg_count == 0)
        bys_say(r, BYS_M_missing_element, node->place, node,
                "has no <leg>: nothing would hold its rafts");
    for (int i = 0; i < g.leg_count; i++)
        for (int k = 0; k < i; k++)
            if (*g.legs[i].at && strcmp(g.legs[i].at, g.legs[k].at) == 0) {
                bys_messages_add(r->messages, BYS_FAULT, BYS_M_leg_end, g.legs[i].place,
                                 "<leg at=\"%s\"> is stated twice in grid %s; for two legs a raft "
                                 "write per-side=\"2\"", g.legs[i].at, g.item.id);
                break;
            }
    return g;
}

// Anchors that some leg places, so that other legs can share them by name.
static void find_anchors(bys_reading *r)
{
    for (const bys_xml_node *node = r->root; node; node = node->order)
        if (bys_node_is(node, "leg-anchor") && bys_node_ok(node, "id") &&
            (bys_node_has(node->parent, "reach") || bys_node_has(node->parent, "x")))
            bys_ids_add(&r->anchors, bys_node_text(node, "id"), 0, node->place);
    bys_ids_sort(&r->anchors);
}

void bys_bind_layout(bys_reading *r)
{
    bys_site *site = r->site;
    const bys_xml_node *layout = bys_node_next(r->root, NULL, "layout"), *node = NULL;
    int changes = bys_node_number_of(layout, "change") + bys_node_number_of(layout, "remove");
    site->blocks = bys_array(r, bys_node_number_of(layout, "block"), sizeof *site->blocks);
    site->changes = bys_array(r, changes, sizeof *site->changes);
    site->grids = bys_array(r, bys_node_number_of(layout, "raft-grid"), sizeof *site->grids);
    if (!layout || r->failed)
        return;
    find_anchors(r);
    while ((node = bys_node_next(layout, node, "block")))
        site->blocks[site->block_count++] = block_of(r, node);
    for (node = layout->first; node; node = node->next)
        if (bys_node_is(node, "change") || bys_node_is(node, "remove"))
            site->changes[site->change_count++] = change_of(r, node);
    check_changes(r);
    while ((node = bys_node_next(layout, node, "raft-grid")))
        site->grids[site->grid_count++] = grid_of(r, node);
    for (int i = 0; i < site->block_count; i++)
        bys_ids_add(&r->items, site->blocks[i].item.id, i, site->blocks[i].item.place);
    for (int i = 0; i < site->grid_count; i++)
        bys_ids_add(&r->items, site->grids[i].item.id, site->block_count + i,
                    site->grids[i].item.place);
    bys_ids_sort(&r->patterns);
}
