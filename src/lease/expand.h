// SPDX-License-Identifier: GPL-3.0-or-later
// Inside of the expansion: one context and the steps that share it. All steps return false only
// when out of memory; faults of the layout are counted and go to the message list.
#ifndef BYS_LEASE_EXPAND_H
#define BYS_LEASE_EXPAND_H

#include "base/codes.h"
#include "lease/network.h"

/// A value found by src/tune that replaces an open one, by leg id.
typedef struct {
    const char *leg;
    bool is_reach; ///< else the length of the leg's section without one
    double value;  ///< m, as cut: before bedding in
} bys_found;

/// bys_network_expand with found values put in.
bys_rc bys_network_expand_found(bys_network **out, const bys_site *site, int stage,
                                const bys_found *found, int found_count, bys_messages *messages,
                                bys_error *err);

/// Laws for steady loads and for storms of one rope.
typedef struct {
    const bys_part *part;
    bys_stretch law[2];
} bys_rope_laws;

/// Gear of a month between two stages.
typedef struct bys_gear_mix {
    const bys_gear_values *from, *to; ///< of the earlier and the later stage
    bys_gear_values values;
    struct bys_gear_mix *next;
} bys_gear_mix;

typedef struct {
    bys_network *net;
    const bys_site *site;
    const bys_stage *stage; ///< NULL without stages
    bys_messages *messages; ///< may be NULL
    const bys_found *found;
    int found_count;
    bys_gear_mix *mixes; ///< made so far, behind an empty one
    bys_arena *scratch; ///< freed when the expansion ends
    bys_rope_laws *laws; ///< ropes with a curve or with a law for storms
    int law_count;
    double surface;     ///< m, z of the water at the lowest level
    double bedded;      ///< share of bedding-in that has happened
    int faults;
} bys_expansion;

void bys_expand_fault(bys_expansion *x, int code, bys_place place, const char *format, ...)
    __attribute__((format(printf, 4, 5)));

/// Depth of the start position of a backbone below the surface, m.
#define BYS_START_DRAFT 0.3

/// Compass name of a direction to 45 degrees, "N", "NE", ...; its index 0..7; index of a name or -1
/// (short or long names in either case).
const char *bys_compass_name(double direction);
int bys_compass_index(double direction);
int bys_compass_read(const char *name);

/// Section of a line part in water at the stage's bedding-in; `length` as cut.
bys_section bys_section_of_part(const bys_expansion *x, const bys_part *part, double length);
/// Elements by rule from its submerged weight and its drag at 1 m/s under 5 kN, unless `stated`.
int bys_section_elements(const bys_expansion *x, const bys_section *section, int stated);
/// Gear `share` of the way from one stage to the next.
void bys_gear_between(bys_gear_values *out, const bys_gear_values *from, const bys_gear_values *to,
                      double share);
/// Numbers of a gear part at this stage on a line ("" = none), the same pointer each time; they live
/// as long as the network. NULL when out of memory.
const bys_gear_values *bys_expand_gear(const bys_expansion *x, const bys_gear_part *gear,
                                       const char *line, const char *block);
/// Submerged weight (N) of a lump of `mass` kg.
double bys_lump_weight(const bys_expansion *x, double mass, double density);
/// Largest strain that the section survives: strength/EA, or 0.30 where the strength is not stated.
double bys_section_limit_strain(const bys_section *section);

/// Puts the stage's marine growth on a set of floats.
void bys_float_grow(const bys_expansion *x, bys_float_set *set);
/// Drag law of gear with these values.
bys_drag_law bys_gear_law(const bys_gear_part *gear, const bys_gear_values *values);
/// Share of the upright drag that the gear's swing is credited with; 0 without credit.
static inline double bys_gear_swing_relief(const bys_gear_part *gear)
{
    return gear->swing_credit > 0.0 ? 1.0 - gear->swing_credit : 0.0;
}
/// Share (0 to 0.5) of the drag that a file of pieces `spacing` m apart saves in a current along it.
double bys_gear_file_relief(const bys_drag_law *law, const bys_gear_values *values, int pieces,
                            double spacing);

/// Where a leg goes.
typedef struct {
    const bys_leg_spec *spec;
    const char *id;
    int top;               ///< point
    double top_nominal[3]; ///< m
    double outward;        ///< rad from north, the direction of a reach without bearing
    int line, body, end;
    bool bridled;
    int arms[2];           ///< points where a bridle's arms end; top is then made here
    double arm_rise;       ///< m from the bridle's point to the middle between them
    double half_spread;    ///< m, half the distance between them
} bys_leg_seat;
/// Adds the leg with anchor, sections, fittings. *out = index of the leg, -1 if refused.
bool bys_expand_leg(bys_expansion *x, const bys_leg_seat *seat, int *out);
/// Fills what a bridle needs in a seat: arms to points a and b, which stand `spread` apart (m).
void bys_seat_bridle(bys_leg_seat *seat, int a, int b, double spread);
/// The bridle's point and the way to it: `seat` becomes that of the line below it. False: no memory.
bool bys_bridle_point(bys_expansion *x, bys_leg_seat *seat, const double anchor[3]);
/// Adds the arms behind the last section.
bool bys_bridle_arms(bys_expansion *x, const bys_leg_seat *seat, int leg);

/// A place along a backbone where a leg, or an arm of its bridle, is made fast.
typedef struct {
    const bys_leg_spec *spec;
    int end;         ///< end of the line where a bridle begins, 0 or 1; -1 along it
    double along;    ///< m as cut from the tail; with a bridle the middle of its two places
    double at[2];    ///< the places; the same twice without a bridle
    int point[2];    ///< set with the backbone's points
} bys_joint;

/// Rows of one line, after changes and stage have been put in.
typedef struct {
    const char *id;
    const bys_block *block;
    const bys_change *change; ///< NULL
    double heading, x, y;     ///< middle of the backbone
    double length;            ///< m as cut
    const bys_pattern *floats;
    int float_count;
    const bys_pattern *gear;
    int gear_count;
    bys_joint *joints; ///< legs along it, by place
    int joint_count;
    bys_place place;
} bys_line_plan;
/// Adds points, sections, floats and gear of a backbone; returns the line's index in *out.
bool bys_expand_backbone(bys_expansion *x, const bys_line_plan *plan, int *out);

/// Finds the places of the legs along a backbone; before its points are made.
bool bys_expand_joints(bys_expansion *x, bys_line_plan *plan,
                       const bys_leg_spec *const ends[2]);
/// Adds those legs; after.
bool bys_expand_along(bys_expansion *x, const bys_line_plan *plan, int line);

bool bys_expand_blocks(bys_expansion *x);
bool bys_expand_grids(bys_expansion *x);
bool bys_expand_networks(bys_expansion *x);
/// Puts pontoons, weight point, wind point and gear of a raft part on a body.
bool bys_expand_raft(bys_expansion *x, int body, const bys_part *raft, const char *id);
/// Draft (m) at which the raft with its gear at this stage floats.
double bys_raft_draft(const bys_expansion *x, const bys_part *raft);

/// Refuses conditions that name what is not there; the network must be finished.
void bys_expand_conditions(bys_expansion *x);
/// Refusals before solving; the network must be finished.
bool bys_expand_refuse(bys_expansion *x);

#endif
