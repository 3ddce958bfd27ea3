// SPDX-License-Identifier: GPL-3.0-or-later
// Rows of the format: blocks of longlines, raft grids, networks.
#include "site/schema.h"

#define ITEM(words)                                                                                \
    {"id", BYS_ID, BYS_NEED, BYS_ANY, words},                                                      \
    {"name", BYS_TEXT, BYS_MAY, BYS_ANY, "free text"},                                             \
    {"source", BYS_TEXT, BYS_MAY, BYS_ANY, "drawing or survey that it follows"}
#define DIRECTION_WORDS "ends|N|NE|E|SE|S|SW|W|NW"
#define LEG                                                                                        \
    {"reach", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE,                                               \
     "distance in plan from the leg's nominal top end to its anchor"},                             \
    {"bearing", BYS_IN(ANGLE), BYS_MAY, BYS_DIRECTION,                                             \
     "direction of the reach; straight on from the line if not stated"},                           \
    {"x", BYS_IN(LENGTH), BYS_MAY, BYS_ANY, "place of the anchor, east; in place of a reach"},     \
    {"y", BYS_IN(LENGTH), BYS_MAY, BYS_ANY, "place of the anchor, north"},                         \
    BYS_LAT_LON,                                                                                   \
    {"pretension", BYS_IN(FORCE), BYS_MAY, BYS_POSITIVE,                                           \
     "tension at the leg's top in slack water"},                                                   \
    {"level", BYS_REF("level"), BYS_MAY, BYS_ANY,                                                  \
     "water level at which the pretension holds; the lowest if not stated"},                       \
    {"stage", BYS_REF("stage"), BYS_MAY, BYS_ANY,                                                  \
     "crop stage at which the pretension holds; bare if not stated"}

static const bys_attr_rule block_attrs[] = {
    ITEM("name of the block; L gives lines L01, L02, ..."),
    {"lines", BYS_WHOLE, BYS_NEED, BYS_RANGE(1, 999), "number of lines"},
    {"spacing", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE,
     "distance between lines, to the right of the heading; needed for two lines or more"},
    {"heading", BYS_IN(ANGLE), BYS_NEED, BYS_DIRECTION, "direction in which the lines run"},
    {"x", BYS_IN(LENGTH), BYS_MAY, BYS_ANY, "middle of the block, east"},
    {"y", BYS_IN(LENGTH), BYS_MAY, BYS_ANY, "middle of the block, north"},
    BYS_LAT_LON,
};
static const bys_attr_rule backbone_attrs[] = {
    {"part", BYS_REF("rope|chain"), BYS_NEED, BYS_ANY, "rope of the backbone"},
    {"length", BYS_IN(LENGTH), BYS_NEED, BYS_POSITIVE, "unstretched length"},
    {"strands", BYS_WHOLE, BYS_MAY, BYS_RANGE(1, 2), "1 or 2 ropes side by side; 1 if not stated"},
};
static const bys_attr_rule floats_attrs[] = {
    {"id", BYS_ID, BYS_MAY, BYS_ANY,
     "name by which a crop stage changes the row; the part's id if not stated"},
    {"part", BYS_REF("float"), BYS_NEED, BYS_ANY, "float"},
    {"every", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE, "spacing; the first stands half of it in"},
    {"count", BYS_WHOLE, BYS_MAY, BYS_RANGE(0, 10000),
     "number, evenly spread; at ends: at each end"},
    {"at", BYS_CHOICE("ends"), BYS_MAY, BYS_ANY, "ends: floats at each end of the backbone"},
    {"from", BYS_IN(LENGTH), BYS_MAY, BYS_NOT_NEGATIVE, "start of the row along the backbone"},
    {"to", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE, "end of the row along the backbone"},
};
static const bys_attr_rule gears_attrs[] = {
    {"id", BYS_ID, BYS_MAY, BYS_ANY, "name of the row; the part's id if not stated"},
    {"part", BYS_REF("gear"), BYS_NEED, BYS_ANY, "gear"},
    {"every", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE, "spacing; the first hangs half of it in"},
    {"count", BYS_WHOLE, BYS_MAY, BYS_RANGE(0, 10000), "number, evenly spread"},
    {"self-shelter", BYS_YES_NO, BYS_MAY, BYS_ANY,
     "yes: in a current along the line pieces shelter those behind, to half of the drag at most; "
     "no if not stated"},
    {"because", BYS_TEXT, BYS_MAY, BYS_ANY, "why that may be taken; needed with it"},
    {"from", BYS_IN(LENGTH), BYS_MAY, BYS_NOT_NEGATIVE, "start of the row along the backbone"},
    {"to", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE, "end of the row along the backbone"},
};
static const bys_attr_rule leg_attrs[] = {
    {"at", BYS_CHOICE_OR(LENGTH, DIRECTION_WORDS), BYS_MAY, BYS_NOT_NEGATIVE,
     "ends: a leg at each end of each line; the end, by the compass; or a place along the "
     "backbone, from its tail"},
    {"every", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE,
     "in place of it: a leg at each such distance along the backbone, none at its ends"},
    LEG,
};
static const bys_attr_rule grid_leg_attrs[] = {
    {"at", BYS_CHOICE("N|NE|E|SE|S|SW|W|NW"), BYS_NEED, BYS_ANY,
     "side of the grid, or its corner, by the compass"},
    {"per-side", BYS_WHOLE, BYS_MAY, BYS_RANGE(1, 2),
     "legs per outer raft on that side; 1 if not stated"},
    {"splay", BYS_IN(ANGLE), BYS_MAY, BYS_RANGE(0, BYS_RIGHT_ANGLE),
     "turn of corner legs outward; 0 deg if not stated"},
    LEG,
};
static const bys_attr_rule line_use_attrs[] = {
    {"part", BYS_REF("rope|chain"), BYS_NEED, BYS_ANY, "kind of rope or chain"},
    {"length", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE,
     "unstretched, bearing point to bearing point; left open in one of the leg's lines if it is to "
     "be found"},
    {"elements", BYS_WHOLE, BYS_MAY, BYS_RANGE(1, 10000),
     "number of elements; chosen if not stated"},
};
static const bys_attr_rule connector_use_attrs[] = {
    {"part", BYS_REF("connector"), BYS_NEED, BYS_ANY, "connector"},
    {"count", BYS_WHOLE, BYS_MAY, BYS_RANGE(1, 100), "1 if not stated"},
};
static const bys_attr_rule sinker_use_attrs[] = {
    {"part", BYS_REF("sinker"), BYS_NEED, BYS_ANY, "sinker"},
    {"count", BYS_WHOLE, BYS_MAY, BYS_RANGE(1, 100), "1 if not stated"},
};
static const bys_attr_rule float_use_attrs[] = {
    {"part", BYS_REF("float"), BYS_NEED, BYS_ANY, "float"},
    {"count", BYS_WHOLE, BYS_MAY, BYS_RANGE(1, 100), "1 if not stated"},
};
static const bys_attr_rule bridle_use_attrs[] = {
    {"part", BYS_REF("rope|chain"), BYS_NEED, BYS_ANY, "kind of rope or chain of its two arms"},
    {"length", BYS_IN(LENGTH), BYS_NEED, BYS_POSITIVE, "unstretched, of one arm"},
    {"spread", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE,
     "on longlines, and needed there: distance along the backbone between the ends of the arms"},
};
static const bys_attr_rule anchor_use_attrs[] = {
    {"part", BYS_REF("anchor"), BYS_NEED, BYS_ANY, "anchor"},
    {"id", BYS_ID, BYS_MAY, BYS_ANY, "name of the anchor; legs that give the same name share it"},
    {"heading", BYS_IN(ANGLE), BYS_MAY, BYS_DIRECTION,
     "direction in which it was set to be pulled; along the leg if not stated, midway between the "
     "legs that share it"},
};
static const bys_attr_rule change_attrs[] = {
    {"line", BYS_REF("line"), BYS_NEED, BYS_ANY, "line that differs, such as L05"},
    {"dx", BYS_IN(LENGTH), BYS_MAY, BYS_ANY, "shift of the line to the east; 0 m if not stated"},
    {"dy", BYS_IN(LENGTH), BYS_MAY, BYS_ANY, "shift to the north; 0 m if not stated"},
    {"backbone-length", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE, "the block's if not stated"},
};
static const bys_attr_rule remove_attrs[] = {
    {"line", BYS_REF("line"), BYS_NEED, BYS_ANY, "line that is not laid"},
};
static const bys_attr_rule grid_attrs[] = {
    ITEM("name of the grid; R gives rafts R1-1, R1-2, ... (column, row)"),
    {"columns", BYS_WHOLE, BYS_NEED, BYS_RANGE(1, 99), "columns, to the right of the heading"},
    {"rows", BYS_WHOLE, BYS_NEED, BYS_RANGE(1, 99), "rows, along the heading"},
    {"spacing-across", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE,
     "between columns, centre to centre; needed for two or more"},
    {"spacing-along", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE,
     "between rows, centre to centre; needed for two or more"},
    {"heading", BYS_IN(ANGLE), BYS_NEED, BYS_DIRECTION, "direction of the rafts' length"},
    {"x", BYS_IN(LENGTH), BYS_MAY, BYS_ANY, "middle of the grid, east"},
    {"y", BYS_IN(LENGTH), BYS_MAY, BYS_ANY, "middle of the grid, north"},
    BYS_LAT_LON,
    {"raft", BYS_REF("raft"), BYS_NEED, BYS_ANY, "raft"},
};
static const bys_attr_rule head_rope_attrs[] = {
    {"part", BYS_REF("rope|chain"), BYS_NEED, BYS_ANY, "rope between neighbouring rafts"},
    {"length", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE,
     "unstretched; the gap between facing corners if not stated"},
};
static const bys_attr_rule network_attrs[] = {ITEM("name of the network")};
static const bys_attr_rule point_attrs[] = {
    {"id", BYS_ID, BYS_NEED, BYS_ANY, "name of the point"},
    {"x", BYS_IN(LENGTH), BYS_MAY, BYS_ANY, "east; in a body: along its own x"},
    {"y", BYS_IN(LENGTH), BYS_MAY, BYS_ANY, "north; in a body: along its own y"},
    BYS_LAT_LON,
    {"z", BYS_IN(LENGTH), BYS_NEED, BYS_ANY, "up from chart datum; in a body: along its own z"},
    {"hold", BYS_CHOICE("x|y|z|xy|xz|yz|xyz"), BYS_MAY, BYS_ANY,
     "coordinates that are held; none if not stated"},
    {"body", BYS_REF("body"), BYS_MAY, BYS_ANY, "rigid body that the point belongs to"},
    {"buoyancy", BYS_IN(FORCE), BYS_MAY, BYS_ANY, "constant net uplift; 0 N if not stated"},
    {"drag-area", BYS_IN(AREA), BYS_MAY, BYS_NOT_NEGATIVE,
     "drag coefficient times area of a lump at the point; 0 m2 if not stated"},
};
static const bys_attr_rule load_attrs[] = {
    {"point", BYS_REF("point"), BYS_NEED, BYS_ANY, "where it acts"},
    {"fx", BYS_IN(FORCE), BYS_MAY, BYS_ANY, "to the east; 0 N if not stated"},
    {"fy", BYS_IN(FORCE), BYS_MAY, BYS_ANY, "to the north; 0 N if not stated"},
    {"fz", BYS_IN(FORCE), BYS_MAY, BYS_ANY, "up; 0 N if not stated"},
};
static const bys_attr_rule body_attrs[] = {
    {"id", BYS_ID, BYS_NEED, BYS_ANY, "name of the rigid body"},
    {"x", BYS_IN(LENGTH), BYS_MAY, BYS_ANY, "its origin, east"},
    {"y", BYS_IN(LENGTH), BYS_MAY, BYS_ANY, "its origin, north"},
    BYS_LAT_LON,
    {"z", BYS_IN(LENGTH), BYS_NEED, BYS_ANY, "its origin, up from chart datum"},
    {"mass", BYS_IN(MASS), BYS_MAY, BYS_NOT_NEGATIVE, "mass in air; the raft's if not stated"},
    {"cg-x", BYS_IN(LENGTH), BYS_MAY, BYS_ANY, "centre of gravity, own x; 0 m if not stated"},
    {"cg-y", BYS_IN(LENGTH), BYS_MAY, BYS_ANY, "centre of gravity, own y; 0 m if not stated"},
    {"cg-z", BYS_IN(LENGTH), BYS_MAY, BYS_ANY, "centre of gravity, own z; 0 m if not stated"},
    {"raft", BYS_REF("raft"), BYS_MAY, BYS_ANY, "raft whose pontoons carry it"},
};
static const bys_attr_rule span_attrs[] = {
    {"id", BYS_ID, BYS_NEED, BYS_ANY, "name of the span"},
    {"from", BYS_REF("point"), BYS_NEED, BYS_ANY, "point at its first end, the anchor's side"},
    {"to", BYS_REF("point"), BYS_NEED, BYS_ANY, "point at its other end"},
    {"part", BYS_REF("rope|chain"), BYS_MAY, BYS_ANY, "rope or chain, in place of numbers"},
    {"length", BYS_IN(LENGTH), BYS_NEED, BYS_POSITIVE, "unstretched length"},
    {"stiffness", BYS_IN(FORCE), BYS_MAY, BYS_POSITIVE, "force that would double its length (EA)"},
    {"weight", BYS_IN(FORCE_PER_LENGTH), BYS_MAY, BYS_ANY,
     "per unstretched length, down; in water: submerged; negative floats; 0 N/m if not stated"},
    {"elements", BYS_WHOLE, BYS_MAY, BYS_RANGE(1, 10000),
     "number of elements; chosen if not stated"},
    {"medium", BYS_CHOICE("air|water"), BYS_MAY, BYS_ANY, "air: no current; water if not stated"},
    {"load-x", BYS_IN(FORCE_PER_LENGTH), BYS_MAY, BYS_ANY,
     "uniform load to the east; 0 N/m if not stated"},
    {"load-y", BYS_IN(FORCE_PER_LENGTH), BYS_MAY, BYS_ANY,
     "uniform load to the north; 0 N/m if not stated"},
    {"load-z", BYS_IN(FORCE_PER_LENGTH), BYS_MAY, BYS_ANY, "uniform load up; 0 N/m if not stated"},
    {"load-per", BYS_CHOICE("unstretched|stretched"), BYS_MAY, BYS_ANY,
     "length that the load counts by; unstretched if not stated"},
    {"drag-per", BYS_CHOICE("unstretched|stretched"), BYS_MAY, BYS_ANY,
     "length that current drag counts by; stretched if not stated"},
    {"diameter", BYS_IN(LENGTH), BYS_MAY, BYS_NOT_NEGATIVE, "for drag; 0 m if not stated: no drag"},
    {"drag-normal", BYS_PLAIN, BYS_MAY, BYS_RANGE(0, 10),
     "drag coefficient across; 0 if not stated"},
    {"drag-tangential", BYS_PLAIN, BYS_MAY, BYS_RANGE(0, 5),
     "drag coefficient along; 0 if not stated"},
    {"bed", BYS_YES_NO, BYS_MAY, BYS_ANY, "yes: it may rest on the bed; no if not stated"},
};
static const bys_attr_rule hang_attrs[] = {
    {"point", BYS_REF("point"), BYS_NEED, BYS_ANY, "where they hang"},
    {"part", BYS_REF("float"), BYS_NEED, BYS_ANY, "float"},
    {"count", BYS_WHOLE, BYS_MAY, BYS_RANGE(1, 10000), "1 if not stated"},
};

#define MANY false, false
#define ONCE true, false
#define IN_LEG "leg|raft-leg"

const bys_element_rule bys_schema_layout_rows[] = {
    {"layout", "layout", "site", ONCE, NULL, 0, "what lies on the lease"},
    {"block", "block", "layout", MANY, BYS_ROWS(block_attrs), "a group of parallel longlines"},
    {"backbone", "backbone", "block", true, true, BYS_ROWS(backbone_attrs),
     "backbone of each line"},
    {"floats", "floats", "block|change", MANY, BYS_ROWS(floats_attrs),
     "a row of floats along the backbone"},
    {"gears", "gear", "block|change", MANY, BYS_ROWS(gears_attrs),
     "a row of gear along the backbone"},
    {"leg", "leg", "block|change", MANY, BYS_ROWS(leg_attrs),
     "everything from an anchor up to the backbone; two of lengths, anchor place, pretension"},
    {"leg-rope", "rope", IN_LEG, MANY, BYS_ROWS(line_use_attrs),
     "a length of rope, from the anchor up"},
    {"leg-chain", "chain", IN_LEG, MANY, BYS_ROWS(line_use_attrs),
     "a length of chain, from the anchor up"},
    {"leg-connector", "connector", IN_LEG, MANY, BYS_ROWS(connector_use_attrs),
     "a connector in the leg"},
    {"leg-sinker", "sinker", IN_LEG, MANY, BYS_ROWS(sinker_use_attrs), "a sinker in the leg"},
    {"leg-float", "float", IN_LEG, MANY, BYS_ROWS(float_use_attrs), "a float in the leg"},
    {"leg-bridle", "bridle", IN_LEG, ONCE, BYS_ROWS(bridle_use_attrs),
     "two arms above all else of the leg: to two places of the backbone, or to the raft's "
     "fairleads on both sides of the leg's own"},
    {"leg-anchor", "anchor", IN_LEG, true, true, BYS_ROWS(anchor_use_attrs), "anchor of the leg"},
    {"change", "change", "layout", MANY, BYS_ROWS(change_attrs),
     "a line that differs; rows of floats or gear replace all of the block's, a leg replaces "
     "that of its end"},
    {"remove", "remove", "layout", MANY, BYS_ROWS(remove_attrs), "a line that is not laid"},
    {"raft-grid", "raft-grid", "layout", MANY, BYS_ROWS(grid_attrs), "rafts in columns and rows"},
    {"head-rope", "head-rope", "raft-grid", ONCE, BYS_ROWS(head_rope_attrs),
     "ropes from raft to raft"},
    {"raft-leg", "leg", "raft-grid", MANY, BYS_ROWS(grid_leg_attrs),
     "everything from an anchor up to a raft; two of lengths, anchor place, pretension"},
    {"network", "network", "layout", MANY, BYS_ROWS(network_attrs), "any network, point by point"},
    {"point", "point", "network", MANY, BYS_ROWS(point_attrs), "a point"},
    {"load", "load", "network", MANY, BYS_ROWS(load_attrs), "a force on a point"},
    {"body", "body", "network", MANY, BYS_ROWS(body_attrs), "a rigid body"},
    {"span", "span", "network", MANY, BYS_ROWS(span_attrs), "a line between two points"},
    {"hang", "hang", "network", MANY, BYS_ROWS(hang_attrs), "floats at a point"},
};
const int bys_schema_layout_count =
    (int)(sizeof bys_schema_layout_rows / sizeof bys_schema_layout_rows[0]);
