// SPDX-License-Identifier: GPL-3.0-or-later
// Rows of the format: vessels tied on, lifts, and conditions of the user's own.
#include "site/schema.h"

#define REASON {"because", BYS_TEXT, BYS_NEED, BYS_ANY, "reason; the report shows it"}
#define AT                                                                                         \
    {"at", BYS_IN(FRACTION), BYS_MAY, BYS_RANGE(0, 1),                                             \
     "where along the line, from its tail to the end towards the heading (a leg: from the " \
     "anchor); 50 % if not stated"}

static const bys_attr_rule vessel_attrs[] = {
    {"id", BYS_ID, BYS_NEED, BYS_ANY, "name; the condition is vessel:ID"},
    {"to", BYS_TEXT, BYS_NEED, BYS_ANY, "line, raft or named point that it is tied to"},
    AT,
    {"current-area", BYS_IN(AREA), BYS_MAY, BYS_NOT_NEGATIVE,
     "drag coefficient times area that the surface current meets; 0 m2 if not stated"},
    {"wind-area", BYS_IN(AREA), BYS_MAY, BYS_NOT_NEGATIVE,
     "wind coefficient times area that the wind 10 m above the water meets; 0 m2 if not stated"},
    REASON,
};
static const bys_attr_rule lift_attrs[] = {
    {"id", BYS_ID, BYS_NEED, BYS_ANY, "name; the condition is lift:ID"},
    {"to", BYS_TEXT, BYS_NEED, BYS_ANY, "line or named point that is lifted"},
    AT,
    {"height", BYS_IN(LENGTH), BYS_MAY, BYS_RANGE(-50, 50),
     "height above the water to which that place is lifted; this or force"},
    {"force", BYS_IN(FORCE), BYS_MAY, BYS_POSITIVE, "upward force; this or height"},
    REASON,
};
static const bys_attr_rule condition_attrs[] = {
    {"id", BYS_ID, BYS_NEED, BYS_ANY, "name; the condition is own:ID"},
    REASON,
};
static const bys_attr_rule remove_attrs[] = {
    {"leg", BYS_TEXT, BYS_MAY, BYS_ANY, "leg that is gone; one of leg, anchor and float"},
    {"anchor", BYS_TEXT, BYS_MAY, BYS_ANY, "anchor that is gone with all its legs"},
    {"float", BYS_TEXT, BYS_MAY, BYS_ANY, "floats that are gone, by the name that solve prints"},
};
static const bys_attr_rule cut_attrs[] = {
    {"line", BYS_TEXT, BYS_NEED, BYS_ANY, "line, leg, or a single rope or chain of them"},
    AT,
};
static const bys_attr_rule load_attrs[] = {
    {"to", BYS_TEXT, BYS_NEED, BYS_ANY, "line, leg, raft or named point on which it acts"},
    AT,
    {"east", BYS_IN(FORCE), BYS_MAY, BYS_ANY, "its part to the east; 0 N if not stated"},
    {"north", BYS_IN(FORCE), BYS_MAY, BYS_ANY, "its part to the north; 0 N if not stated"},
    {"up", BYS_IN(FORCE), BYS_MAY, BYS_ANY, "its upward part; 0 N if not stated"},
};
static const bys_attr_rule weather_attrs[] = {
    {"current", BYS_IN(SPEED), BYS_MAY, BYS_RANGE(0, 10), "surface speed in place of the case's"},
    {"wind", BYS_IN(SPEED), BYS_MAY, BYS_RANGE(0, 100),
     "speed 10 m above the water in place of the case's"},
    {"hs", BYS_IN(LENGTH), BYS_MAY, BYS_RANGE(0, 30),
     "significant wave height in place of the case's, at the case's period; a case without waves "
     "stays without"},
};

const bys_element_rule bys_schema_condition_rows[] = {
    {"vessel", "vessel", "conditions", false, false, BYS_ROWS(vessel_attrs),
     "a vessel tied on: what current and wind do to it pulls at one place"},
    {"lift", "lift", "conditions", false, false, BYS_ROWS(lift_attrs),
     "a harvester lifts a line at one place"},
    {"condition", "condition", "conditions", false, false, BYS_ROWS(condition_attrs),
     "a set of your own: things gone, lines cut, loads added, weather replaced"},
    {"removal", "remove", "condition", false, false, BYS_ROWS(remove_attrs), "something is gone"},
    {"cut", "cut", "condition", false, false, BYS_ROWS(cut_attrs), "a line is cut"},
    {"added-load", "load", "condition", false, false, BYS_ROWS(load_attrs), "a load is added"},
    {"condition-weather", "weather", "condition|vessel|lift", true, false, BYS_ROWS(weather_attrs),
     "weather in which it happens; directions and water level stay those of the case"},
};
const int bys_schema_condition_count =
    (int)(sizeof bys_schema_condition_rows / sizeof bys_schema_condition_rows[0]);
