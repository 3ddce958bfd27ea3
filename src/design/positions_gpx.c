// SPDX-License-Identifier: GPL-3.0-or-later
// Waypoints of a GPX file, as chart plotters and receivers write them.
//
// SOURCE    GPX 1.1: <wpt lat= lon=> in decimal degrees on WGS 84, <name>, <time> [memory].
#include "base/codes.h"
#include "base/number.h"
#include "design/aslaid.h"
#include "design/csv.h"
#include "site/xml.h"

#include <math.h>
#include <string.h>

static const char *text_of(bys_aslaid_work *work, const bys_xml_node *node, const char *name)
{
    for (const bys_xml_node *child = node->first; child; child = child->next) {
        if (strcmp(child->name, name) != 0 || !child->text)
            continue;
        char *copy = bys_arena_copy(work->arena, child->text);
        work->failed = work->failed || !copy;
        if (!copy)
            return "";
        for (char *c = copy; *c; c++)
            *c = *c == '\n' || *c == '\r' ? ' ' : *c;
        return bys_csv_trim(copy);
    }
    return "";
}

static double degrees(bys_aslaid_work *work, const bys_xml_node *node, const char *name,
                      double most)
{
    const bys_xml_attr *a = bys_xml_find(node, name);
    double value = NAN;
    size_t used = 0;
    if (a && bys_number_read(&value, &used, a->value) && !a->value[used] && fabs(value) <= most)
        return value;
    bys_messages_add(work->messages, BYS_FAULT, BYS_M_position_row, a ? a->place : node->place,
                     "waypoint %s: %s=\"%.40s\" is not a number of degrees up to %g",
                     text_of(work, node, "name"), name, a ? a->value : "", most);
    return NAN;
}

void bys_positions_gpx(bys_aslaid_work *work, const char *bytes, size_t size, int file)
{
    const bys_xml_node *root = bys_xml_read_text(work->arena, bytes, size, file, work->messages);
    if (!root)
        return;
    if (strcmp(root->name, "gpx") != 0) {
        bys_messages_add(work->messages, BYS_FAULT, BYS_M_position_row, root->place,
                         "is XML, but not GPX: the outermost element is <%.40s>", root->name);
        return;
    }
    for (const bys_xml_node *node = root->first; node; node = node->next) {
        bys_position *row =
            strcmp(node->name, "wpt") == 0 ? bys_position_add(work, node->place) : NULL;
        if (!row)
            continue;
        row->name = text_of(work, node, "name");
        row->time = text_of(work, node, "time");
        row->lat = degrees(work, node, "lat", 90.0);
        row->lon = degrees(work, node, "lon", 360.0);
    }
}
