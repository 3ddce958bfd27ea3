// SPDX-License-Identifier: GPL-3.0-or-later
// Things of the Network by the names that people use, and what a cut leaves loose.
#include "lease/find.h"

#include <math.h>
#include <string.h>

#define FIND(list, count)                                                                          \
    for (int i = 0; i < net->count; i++)                                                           \
        if (strcmp(net->list[i].id, id) == 0)                                                      \
            return i;                                                                              \
    return -1

int bys_find_leg(const bys_network *net, const char *id)
{
    FIND(legs, leg_count);
}

int bys_find_anchor(const bys_network *net, const char *id)
{
    FIND(anchors, anchor_count);
}

int bys_find_line(const bys_network *net, const char *id)
{
    FIND(lines, line_count);
}

int bys_find_section(const bys_network *net, const char *id)
{
    FIND(sections, section_count);
}

int bys_find_float(const bys_network *net, const char *id)
{
    FIND(floats, float_count);
}

static int find_body(const bys_network *net, const char *id)
{
    FIND(bodies, body_count);
}

static int find_named_point(const bys_network *net, const char *id)
{
    FIND(points, point_count);
}

// ---- shares of a length --------------------------------------------------------------------

/// Sections in a row: of a leg, one strand of a line, or one alone.
typedef struct { int first, count; } run;

static double run_length(const bys_network *net, run r)
{
    double length = 0.0;
    for (int s = r.first; s < r.first + r.count; s++)
        length += net->sections[s].length;
    return length;
}

/// Element in which the share lies; *rest = how far into it, as a share of the element.
static int element_at(const bys_network *net, run r, double at, double *rest)
{
    double left = at * run_length(net, r);
    int last = -1;
    for (int s = r.first; s < r.first + r.count; s++)
        for (int k = 0; k < net->sections[s].count; k++) {
            last = net->sections[s].first + k;
            const double length = net->elements[last].length;
            if (left <= length * (1.0 + 1e-9)) {
                *rest = fmin(1.0, left / length);
                return last;
            }
            left -= length;
        }
    *rest = 1.0;
    return last;
}

/// Sections of a name; a line: of its first strand. False = none.
static bool run_of(const bys_network *net, const char *id, run *out)
{
    const int line = bys_find_line(net, id);
    const int leg = line < 0 ? bys_find_leg(net, id) : -1;
    const int section = line < 0 && leg < 0 ? bys_find_section(net, id) : -1;
    *out = line >= 0  ? (run){net->lines[line].first_section, 1}
           : leg >= 0 ? (run){net->legs[leg].first_section, net->legs[leg].section_count}
                      : (run){section, 1};
    return out->first >= 0 && out->count > 0;
}

int bys_find_point(const bys_network *net, const char *id, double at)
{
    run r;
    double rest;
    if (!*id)
        return -1;
    if (run_of(net, id, &r)) {
        const int e = element_at(net, r, at, &rest);
        return rest < 0.5 ? net->elements[e].a : net->elements[e].b;
    }
    const int body = find_body(net, id);
    return body >= 0 ? net->bodies[body].cg_point : find_named_point(net, id);
}

int bys_find_cut(const bys_network *net, const char *id, double at, int *elements, int room)
{
    run r;
    double rest;
    int count = 0;
    if (!run_of(net, id, &r))
        return 0;
    const int line = bys_find_line(net, id);
    const int strands = line >= 0 ? net->lines[line].section_count : 1;
    for (int k = 0; k < strands && count < room; k++) {
        const run strand = {r.first + k, r.count};
        elements[count++] = element_at(net, line >= 0 ? strand : r, at, &rest);
    }
    return count;
}

// ---- what is loose ---------------------------------------------------------------------------

static int root_of(int *parent, int i)
{
    while (parent[i] != i)
        i = parent[i] = parent[parent[i]];
    return i;
}

static void join(int *parent, int i, int j)
{
    i = root_of(parent, i);
    j = root_of(parent, j);
    parent[i < j ? j : i] = i < j ? i : j;
}

static void join_island(const bys_network *net, const bys_island *part, const unsigned char *out,
                        unsigned char *mark, int *parent)
{
    for (int k = 0; k < part->point_count; k++) {
        const int p = part->points[k];
        parent[p] = p;
        mark[p] = net->points[p].kind == BYS_POINT_BODY;
    }
    for (int k = 0; k < part->body_count; k++) {
        const bys_body *body = &net->bodies[part->bodies[k]];
        for (int i = 1; i < body->point_count; i++)
            join(parent, body->points[0], body->points[i]);
    }
    for (int k = 0; k < part->element_count; k++) {
        const bys_element *e = &net->elements[part->elements[k]];
        if (out[part->elements[k]])
            continue;
        mark[e->a] = mark[e->b] = 1;
        join(parent, e->a, e->b);
    }
}

int bys_find_loose(const bys_network *net, int island, const unsigned char *out,
                   unsigned char *mark, int *parent)
{
    const bys_island *part = &net->islands[island];
    int loose = 0;
    join_island(net, part, out, mark, parent);
    for (int k = 0; k < part->point_count; k++) { // what holds a root's part, in bits 2 and 3 of it
        const bys_point *p = &net->points[part->points[k]];
        if (mark[part->points[k]] & 1)
            mark[root_of(parent, part->points[k])] |=
                (unsigned char)((p->hold[0] || p->kind == BYS_POINT_FIXED ? 4 : 0) |
                                (p->hold[1] || p->kind == BYS_POINT_FIXED ? 8 : 0));
    }
    for (int k = 0; k < part->point_count; k++) {
        const int p = part->points[k];
        if ((mark[p] & 1) && (mark[root_of(parent, p)] & 12) != 12) {
            mark[p] |= 2;
            loose++;
        }
    }
    for (int k = 0; k < part->point_count; k++)
        mark[part->points[k]] &= 3;
    return loose;
}

const char *bys_find_name(const bys_network *net, int point)
{
    const bys_point *p = &net->points[point];
    if (p->kind == BYS_POINT_BODY)
        return net->bodies[p->body].id;
    for (int l = 0; l < net->line_count; l++)
        for (int k = 0; k < net->lines[l].point_count; k++)
            if (net->lines[l].points[k] == point)
                return net->lines[l].id;
    for (int s = 0; s < net->section_count; s++)
        for (int k = 0; k < net->sections[s].count; k++) {
            const bys_element *e = &net->elements[net->sections[s].first + k];
            if (e->a == point || e->b == point)
                return net->sections[s].leg >= 0 ? net->legs[net->sections[s].leg].id
                                                 : net->sections[s].id;
        }
    return p->id;
}
