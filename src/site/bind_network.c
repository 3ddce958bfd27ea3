// SPDX-License-Identifier: GPL-3.0-or-later
// Networks written point by point.
#include "site/bind.h"

#include <math.h>
#include <string.h>

typedef struct {
    bys_reading *r;
    bys_free_network *net;
    bys_ids points, bodies;
} net_reading;

static int find_point(net_reading *n, const bys_xml_node *node, const char *attr)
{
    const bys_xml_attr *a = bys_xml_find(node, attr);
    if (!a || !a->ok)
        return -1;
    int at = bys_ids_find(&n->points, a->value);
    if (at < 0)
        bys_say(n->r, BYS_M_unknown_reference, a->place, node,
                "names the point \"%.60s\", which does not exist%s", a->value,
                bys_suggest(&n->points, a->value).text);
    return at;
}

static void read_bodies(net_reading *n, const bys_xml_node *network)
{
    n->net->bodies = bys_array(n->r, bys_node_number_of(network, "body"), sizeof(bys_free_body));
    const bys_xml_node *node = NULL;
    while (n->net->bodies && (node = bys_node_next(network, node, "body"))) {
        int at = n->net->body_count++;
        n->net->bodies[at] = (bys_free_body){
            .item = bys_item_of(node),
            .x = {bys_node_number(node, "x", NAN), bys_node_number(node, "y", NAN),
                  bys_node_number(node, "z", NAN)},
            .mass = bys_node_number(node, "mass", NAN),
            .cg = {bys_node_number(node, "cg-x", 0), bys_node_number(node, "cg-y", 0),
                   bys_node_number(node, "cg-z", 0)},
            .inertia = NAN,
            .raft = bys_part_ref(n->r, node, "raft"),
        };
        bys_free_body *body = &n->net->bodies[at];
        if (!bys_node_has(node, "mass") && body->raft)
            body->mass = body->raft->u.raft.mass;
        else if (!bys_node_has(node, "mass") && !bys_node_has(node, "raft"))
            bys_say(n->r, BYS_M_part_incomplete, node->place, node, "needs a mass or a raft");
        bys_ids_add(&n->bodies, body->item.id, at, node->place);
    }
    bys_ids_sort(&n->bodies);
    bys_say_twice(n->r, &n->bodies, "body");
}

static bys_free_point point_of(net_reading *n, const bys_xml_node *node)
{
    const char *hold = bys_node_ok(node, "hold") ? bys_node_text(node, "hold") : "";
    bys_free_point p = {
        .item = bys_item_of(node),
        .x = {bys_node_number(node, "x", NAN), bys_node_number(node, "y", NAN),
              bys_node_number(node, "z", NAN)},
        .hold = {strchr(hold, 'x') != NULL, strchr(hold, 'y') != NULL, strchr(hold, 'z') != NULL},
        .body = bys_node_text(node, "body"),
        .buoyancy = bys_node_number(node, "buoyancy", 0),
        .drag_area = bys_node_number(node, "drag-area", 0),
    };
    if (*p.body && bys_ids_find(&n->bodies, p.body) < 0) {
        bys_say(n->r, BYS_M_body_point, bys_node_place(node, "body"), node,
                "names the body \"%.60s\", which does not exist%s", p.body,
                bys_suggest(&n->bodies, p.body).text);
        p.body = "";
    } else if (*p.body && *hold) {
        bys_say(n->r, BYS_M_body_point, bys_node_place(node, "hold"), node,
                "belongs to a rigid body and cannot be held itself; hold the body by spans");
    }
    return p;
}

static void read_points(net_reading *n, const bys_xml_node *network)
{
    n->net->points = bys_array(n->r, bys_node_number_of(network, "point"), sizeof(bys_free_point));
    const bys_xml_node *node = NULL;
    while (n->net->points && (node = bys_node_next(network, node, "point"))) {
        int at = n->net->point_count++;
        n->net->points[at] = point_of(n, node);
        bys_ids_add(&n->points, n->net->points[at].item.id, at, node->place);
    }
    bys_ids_sort(&n->points);
    bys_say_twice(n->r, &n->points, "point");
}

static void read_loads(net_reading *n, const bys_xml_node *network)
{
    static const char *const names[] = {"fx", "fy", "fz"};
    const bys_xml_node *node = NULL;
    while ((node = bys_node_next(network, node, "load"))) {
        int at = find_point(n, node, "point");
        for (int i = 0; at >= 0 && i < 3; i++)
            n->net->points[at].load[i] += bys_node_number(node, names[i], 0);
    }
    while ((node = bys_node_next(network, node, "hang"))) {
        int at = find_point(n, node, "point");
        const bys_part *part = bys_part_ref(n->r, node, "part");
        if (at < 0)
            continue;
        bys_free_point *point = &n->net->points[at];
        if (point->buoy)
            bys_say(n->r, BYS_M_repeated_element, node->place, node,
                    "is the second kind of float at that point; a point carries one kind");
        point->buoy = part;
        point->float_count = bys_node_count(node, "count", 1);
    }
}

// Weight per unstretched length (N/m) of a line part: g m in air, g m (1 - rho/density) in water.
static void span_from_part(net_reading *n, bys_free_span *s)
{
    const bys_line_part *line = &s->part->u.line;
    const bys_site *site = n->r->site;
    s->stiffness = line->stiffness;
    s->diameter = line->diameter;
    s->cd_normal = line->cd_normal;
    s->cd_tangential = line->cd_tangential;
    s->weight = site->gravity * line->mass *
                (s->in_air ? 1 : 1 - site->rho_water / line->density);
}

static void check_span(net_reading *n, const bys_xml_node *node)
{
    static const char *const own[] = {"stiffness", "weight", "diameter", "drag-normal",
                                      "drag-tangential"};
    bool part = bys_node_has(node, "part");
    for (size_t i = 0; part && i < sizeof own / sizeof own[0]; i++)
        if (bys_node_has(node, own[i]))
            bys_say(n->r, BYS_M_conflict, bys_node_place(node, own[i]), node,
                    "has a part, which gives its %s; remove one of them", own[i]);
    if (!part && !bys_node_has(node, "stiffness"))
        bys_say(n->r, BYS_M_part_incomplete, node->place, node, "needs a part or a stiffness");
    if (bys_node_ok(node, "from") &&
        strcmp(bys_node_text(node, "from"), bys_node_text(node, "to")) == 0)
        bys_say(n->r, BYS_M_conflict, bys_node_place(node, "to"), node,
                "runs from a point to the same point");
}

static bys_free_span span_of(net_reading *n, const bys_xml_node *node)
{
    bys_free_span s = {
        .item = bys_item_of(node),
        .from = bys_node_text(node, "from"),
        .to = bys_node_text(node, "to"),
        .part = bys_part_ref(n->r, node, "part"),
        .length = bys_node_number(node, "length", NAN),
        .stiffness = bys_node_number(node, "stiffness", NAN),
        .weight = bys_node_number(node, "weight", 0),
        .load = {bys_node_number(node, "load-x", 0), bys_node_number(node, "load-y", 0),
                 bys_node_number(node, "load-z", 0)},
        .load_stretched = bys_node_choice(node, "load-per", 0) == 1,
        .drag_unstretched = bys_node_choice(node, "drag-per", 1) == 0,
        .diameter = bys_node_number(node, "diameter", 0),
        .cd_normal = bys_node_number(node, "drag-normal", 0),
        .cd_tangential = bys_node_number(node, "drag-tangential", 0),
        .in_air = bys_node_choice(node, "medium", 1) == 0,
        .on_bed = bys_node_flag(node, "bed", false),
        .elements = bys_node_count(node, "elements", 0),
    };
    find_point(n, node, "from");
    find_point(n, node, "to");
    check_span(n, node);
    if (s.part)
        span_from_part(n, &s);
    if (s.on_bed && !n->r->site->has_bed)
        bys_say(n->r, BYS_M_missing_element, bys_node_place(node, "bed"), node,
                "may rest on the bed, but there is no <seabed>");
    return s;
}

static void read_network(bys_reading *r, bys_free_network *net, const bys_xml_node *node)
{
    net_reading n = {.r = r, .net = net};
    net->item = bys_item_of(node);
    read_bodies(&n, node);
    read_points(&n, node);
    if (!r->failed)
        read_loads(&n, node);
    net->spans = bys_array(r, bys_node_number_of(node, "span"), sizeof *net->spans);
    bys_ids spans = {0};
    const bys_xml_node *span = NULL;
    while (net->spans && (span = bys_node_next(node, span, "span"))) {
        net->spans[net->span_count] = span_of(&n, span);
        bys_ids_add(&spans, net->spans[net->span_count].item.id, net->span_count, span->place);
        net->span_count++;
    }
    bys_ids_sort(&spans);
    bys_say_twice(r, &spans, "span");
    r->failed = r->failed || spans.failed || n.points.failed || n.bodies.failed;
    bys_ids_free(&spans);
    bys_ids_free(&n.points);
    bys_ids_free(&n.bodies);
}

void bys_bind_networks(bys_reading *r)
{
    bys_site *site = r->site;
    const bys_xml_node *layout = bys_node_next(r->root, NULL, "layout"), *node = NULL;
    site->networks = bys_array(r, bys_node_number_of(layout, "network"), sizeof *site->networks);
    while (site->networks && (node = bys_node_next(layout, node, "network"))) {
        bys_free_network *net = &site->networks[site->network_count];
        read_network(r, net, node);
        bys_ids_add(&r->items, net->item.id,
                    site->block_count + site->grid_count + site->network_count, node->place);
        site->network_count++;
    }
    bys_ids_sort(&r->items);
    bys_say_twice(r, &r->items, "block, grid or network");
    if (site->block_count + site->grid_count + site->network_count == 0)
        bys_messages_add(r->messages, BYS_FAULT, BYS_M_nothing_laid,
                         (layout ? layout : r->root)->place,
                         "nothing is laid: add a <layout> with a <block>, <raft-grid> or "
                         "<network>");
}
