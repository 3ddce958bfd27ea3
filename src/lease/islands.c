// SPDX-License-Identifier: GPL-3.0-or-later
// Connected parts of a Network: elements and bodies connect points.
#include "lease/network.h"

#include <stdlib.h>
#include <string.h>

static int root_of(int *parent, int i) {
    while (parent[i] != i)
        i = parent[i] = parent[parent[i]];
    return i;
}

static void join(int *parent, int i, int j) {
    i = root_of(parent, i);
    j = root_of(parent, j);
    if (i < j)
        parent[j] = i;
    else
        parent[i] = j;
}

static void join_all(const bys_network *net, int *parent, int *first_of_body) {
    for (int i = 0; i < net->point_count; i++)
        parent[i] = i;
    for (int b = 0; b < net->body_count; b++)
        first_of_body[b] = -1;
    for (int e = 0; e < net->element_count; e++)
        join(parent, net->elements[e].a, net->elements[e].b);
    for (int i = 0; i < net->point_count; i++) {
        if (net->points[i].kind != BYS_POINT_BODY)
            continue;
        int *first = &first_of_body[net->points[i].body];
        if (*first < 0)
            *first = i;
        else
            join(parent, *first, i);
    }
}

// Numbers the islands by their lowest point, so that equal sites give equal numbers.
static void number_islands(bys_network *net, int *parent) {
    for (int i = 0; i < net->point_count; i++) {
        const int r = root_of(parent, i);
        net->points[i].island = r == i ? net->island_count++ : net->points[r].island;
    }
}

static int point_island(const bys_network *net, int point) {
    return point >= 0 ? net->points[point].island : -1;
}

static int leg_island(const bys_network *net, int leg) {
    return point_island(net, net->legs[leg].top);
}
static int element_island(const bys_network *net, int e) {
    return point_island(net, net->elements[e].a);
}
static int float_island(const bys_network *net, int f) {
    return point_island(net, net->floats[f].point);
}
static int gear_island(const bys_network *net, int g) {
    return point_island(net, net->gears[g].point);
}
static int body_island(const bys_network *net, int b) {
    return net->bodies[b].island;
}

// Lists the items 0..n-1 by island, ascending inside each: lists[i] and counts[i] of island i.
static bool list_by_island(bys_network *net, int n, int (*island_of)(const bys_network *, int),
                           size_t list_at, size_t count_at) {
    int *all = bys_arena_get(net->arena, sizeof(int) * (size_t)(n + 1));
    if (!all)
        return false;
#define COUNT(i) (*(int *)((char *)&net->islands[i] + count_at))
#define LIST(i) (*(int **)((char *)&net->islands[i] + list_at))
    for (int k = 0; k < n; k++)
        if (island_of(net, k) >= 0)
            COUNT(island_of(net, k))++;
    for (int i = 0; i < net->island_count; i++) {
        LIST(i) = all;
        all += COUNT(i);
        COUNT(i) = 0;
    }
    for (int k = 0; k < n; k++) {
        const int i = island_of(net, k);
        if (i >= 0)
            LIST(i)[COUNT(i)++] = k;
    }
#undef COUNT
#undef LIST
    return true;
}

#define BY_ISLAND(n, of, name)                                                                     \
    list_by_island(net, n, of, offsetof(bys_island, name##s), offsetof(bys_island, name##_count))

static bool fill_islands(bys_network *net) {
    net->islands = bys_arena_get(net->arena, sizeof(bys_island) * (size_t)(net->island_count + 1));
    return net->islands && BY_ISLAND(net->point_count, point_island, point) &&
           BY_ISLAND(net->element_count, element_island, element) &&
           BY_ISLAND(net->float_count, float_island, float) &&
           BY_ISLAND(net->gear_count, gear_island, gear) &&
           list_by_island(net, net->body_count, body_island, offsetof(bys_island, bodies),
                          offsetof(bys_island, body_count)) &&
           BY_ISLAND(net->leg_count, leg_island, leg);
}

// An island is anchored when both horizontal directions are held by points that carry elements.
static bool mark_anchored(bys_network *net) {
    unsigned char *held = calloc((size_t)net->island_count + 1, 1);
    if (!held)
        return false;
    for (int e = 0; e < net->element_count; e++) {
        const int ends[2] = {net->elements[e].a, net->elements[e].b};
        for (int k = 0; k < 2; k++) {
            const bys_point *p = &net->points[ends[k]];
            held[p->island] |= (unsigned char)(p->hold[0] | p->hold[1] << 1);
        }
    }
    for (int i = 0; i < net->island_count; i++)
        net->islands[i].anchored = held[i] == 3;
    free(held);
    return true;
}

static bool list_body_points(bys_network *net) {
    for (int b = 0; b < net->body_count; b++) {
        bys_body *body = &net->bodies[b];
        body->point_count = 0;
        for (int i = 0; i < net->point_count; i++)
            body->point_count += net->points[i].body == b;
        body->points = bys_arena_get(net->arena, sizeof(int) * (size_t)(body->point_count + 1));
        if (!body->points)
            return false;
        int n = 0;
        for (int i = 0; i < net->point_count; i++)
            if (net->points[i].body == b)
                body->points[n++] = i;
        body->island = n > 0 ? net->points[body->points[0]].island : -1;
    }
    return true;
}

static bool list_anchor_legs(bys_network *net) {
    int *all = bys_arena_get(net->arena, sizeof(int) * (size_t)(net->leg_count + 1));
    if (!all)
        return false;
    for (int a = 0; a < net->anchor_count; a++)
        net->anchors[a].leg_count = 0;
    for (int l = 0; l < net->leg_count; l++)
        if (net->legs[l].anchor >= 0)
            net->anchors[net->legs[l].anchor].leg_count++;
    for (int a = 0; a < net->anchor_count; a++) {
        net->anchors[a].legs = all;
        all += net->anchors[a].leg_count;
        net->anchors[a].leg_count = 0;
    }
    for (int l = 0; l < net->leg_count; l++) {
        if (net->legs[l].anchor < 0)
            continue;
        bys_anchor *anchor = &net->anchors[net->legs[l].anchor];
        anchor->legs[anchor->leg_count++] = l;
    }
    return true;
}

/// Numbers lines and rafts for their shelter: 1 + k, each stage after the one before. Legs have none.
static void number_shelters(bys_network *net) {
    const int lines = net->line_count;
    const int base = 1 + (net->stage > 0 ? net->stage : 0) * (lines + net->body_count);
    for (int s = 0; s < net->section_count; s++)
        if (net->sections[s].line >= 0 && net->sections[s].leg < 0)
            net->sections[s].shelter = base + net->sections[s].line;
    for (int f = 0; f < net->float_count; f++)
        if (net->floats[f].line >= 0)
            net->floats[f].shelter = base + net->floats[f].line;
    for (int g = 0; g < net->gear_count; g++) {
        const bys_point *p = &net->points[net->gears[g].point];
        if (net->gears[g].line >= 0 && lines > 0)
            net->gears[g].shelter = base + net->gears[g].line;
        else if (p->kind == BYS_POINT_BODY)
            net->gears[g].shelter = base + lines + p->body;
    }
    for (int p = 0; p < net->prism_count; p++)
        net->prisms[p].shelter = base + lines + net->points[net->prisms[p].point].body;
}

/// Free points first, in island order, then two blocks (position, attitude) a body.
static bool number_blocks(bys_network *net) {
    net->block_of_point = bys_arena_get(net->arena, sizeof(int) * (size_t)(net->point_count + 1));
    net->block_of_body = bys_arena_get(net->arena, sizeof(int) * (size_t)(net->body_count + 1));
    if (!net->block_of_point || !net->block_of_body)
        return false;
    for (int p = 0; p < net->point_count; p++) {
        const bys_point *point = &net->points[p];
        net->block_of_point[p] = -1;
        if (point->kind == BYS_POINT_FREE)
            net->block_of_point[p] = net->islands[point->island].block_count++;
        else if (point->kind == BYS_POINT_BODY)
            net->block_of_point[p] = -2 - point->body;
    }
    for (int b = 0; b < net->body_count; b++) {
        net->block_of_body[b] = -1;
        if (net->bodies[b].island < 0)
            continue;
        bys_island *island = &net->islands[net->bodies[b].island];
        net->block_of_body[b] = island->block_count;
        island->block_count += 2;
    }
    return true;
}

bys_rc bys_network_finish(bys_network *net, bys_error *err) {
    int *parent = malloc(sizeof(int) * (size_t)(net->point_count + net->body_count + 1));
    bool ok = parent != NULL;
    net->island_count = 0;
    if (ok) {
        join_all(net, parent, parent + net->point_count);
        number_islands(net, parent);
        ok = list_body_points(net) && fill_islands(net) && mark_anchored(net) &&
             list_anchor_legs(net) && number_blocks(net);
    }
    free(parent);
    number_shelters(net);
    for (int l = 0; ok && l < net->line_count; l++)
        if (net->lines[l].point_count > 0)
            net->lines[l].island = net->points[net->lines[l].points[0]].island;
    return ok ? BYS_OK : bys_error_set(err, BYS_ENOMEM, 0, "out of memory in the network");
}
