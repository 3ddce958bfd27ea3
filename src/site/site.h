// SPDX-License-Identifier: GPL-3.0-or-later
// The Site: what the user wrote, in SI, every item with the place where it was written.
// Read once, then constant. All memory belongs to one arena; strings are never NULL unless said.
// "NAN = not stated" is used for optional numbers; nothing is silently defaulted by the reader
// except where a comment gives the default.
#ifndef BYS_SITE_H
#define BYS_SITE_H

#include "base/arena.h"
#include "site/drag.h"
#include "site/seabed.h"
#include "site/stated_weather.h"
#include <byssus/base.h>
#include <byssus/frame.h>

// ---- parts -----------------------------------------------------------------------------------

typedef enum {
    BYS_PART_ROPE, BYS_PART_CHAIN, BYS_PART_CONNECTOR, BYS_PART_SINKER,
    BYS_PART_FLOAT, BYS_PART_GEAR, BYS_PART_RAFT, BYS_PART_ANCHOR, BYS_PART_DRAG
} bys_part_kind;

/// Tension over strain as stated: points (the first is 0, 0), or one stiffness.
typedef struct {
    int count;       ///< points; 0 = linear
    double *strain;  ///< 1, rising
    double *tension; ///< N, rising
    double stiffness; ///< N, EA when linear; NAN = this law is not stated
    bys_basis basis;
    bys_place place;
} bys_stretch_spec;

/// Rope or chain: one kind of line. Chain: diameter is the bar diameter d.
typedef struct {
    const char *material; ///< polyester, polypropylene, nylon, hmpe, steel-stud, steel-studless, ...
    double diameter;      ///< m
    double mass;          ///< kg/m in air
    double density;       ///< kg/m3 of the solid (weight in water); from the material if not stated
    double strength;      ///< N, new breaking strength; NAN = not stated
    double stiffness;     ///< N, EA for steady loads; of a curve: its first chord
    bys_stretch_spec working, storm; ///< laws for steady loads and for storms; storm may be unstated
    double cd_normal;     ///< on diameter; rope 1.6, stud chain 2.6, studless 2.4 if not stated
    double cd_tangential; ///< on pi*diameter; rope 0.01, stud chain 1.4/pi, studless 1.15/pi
    double bedding_in;    ///< permanent stretch after bedding in, fraction of length; 0
    double efficiency;    ///< share of strength left by knot or splice; NAN = not stated
    double wet_factor;    ///< share of strength left when wet; nylon 0.85 (UFC 4-159-03), else 1
    const char *ends;     ///< knot or splice by name, in place of efficiency; "" = not stated
    double wear;          ///< share of strength lost to wear; 0
    double age;           ///< yr; 0
    double loss_per_year; ///< share of strength lost a year, rope; 0
    double corrosion;     ///< m of diameter a year, chain; 0
    double measured;      ///< m, diameter of the worn bar; NAN = not stated
    bool used, around_bends; ///< chain
    bys_drag_use drag;    ///< already in the two coefficients
} bys_line_part;

typedef struct {
    double strength; ///< N breaking; NAN = not stated
    double mass;     ///< kg in air; 0
    double density;  ///< kg/m3; 7850
} bys_connector_part;

/// A weight hung in a leg.
typedef struct { double mass, density; } bys_sinker_part;

typedef enum { BYS_FLOAT_SPHERE, BYS_FLOAT_BARREL_SIDE, BYS_FLOAT_BARREL_UPRIGHT } bys_float_shape;
typedef enum { BYS_LIES_ANY, BYS_LIES_ALONG, BYS_LIES_ACROSS } bys_lie;
typedef struct {
    bys_float_shape shape;
    double volume;   ///< m3
    double diameter; ///< m; sphere: from the volume
    double length;   ///< m, barrels: from volume and diameter
    double mass;     ///< kg
    double cd;       ///< on the wetted projected area; sphere 0.5, barrel 0.7..1.2 if not stated
    double cs;       ///< wind shape coefficient; 0.7
    double strop;    ///< m, rope between backbone and float bottom; 0
    double volume_loss;  ///< 1/m, share of the volume lost with each metre of depth; 0
    double depth_rating; ///< m below the surface, of its lowest part; NAN = not stated
    bys_drag_use drag;   ///< sphere: already in cd
    bool barrel_law;     ///< barrel: finite length and wave making by the record; cd is not read
    bys_lie lies;        ///< barrel on its side: how it lies to the line
} bys_float_part;

typedef enum {
    BYS_GEAR_ROPE, BYS_GEAR_PANEL, BYS_GEAR_CHAPLET, BYS_GEAR_BASKET, BYS_GEAR_LANTERN,
    BYS_GEAR_TRAY, BYS_GEAR_NET, BYS_GEAR_WEED
} bys_gear_kind;
/// How a flat panel hangs against the backbone.
typedef enum { BYS_ORIENT_FREE, BYS_ORIENT_ALONG, BYS_ORIENT_ACROSS } bys_orientation;
/// The numbers of one piece of gear at one crop stage.
typedef struct {
    const char *stage;    ///< "" for the base values
    const char *target;   ///< block or line that they hold for; "" = all
    double mass_in_water; ///< kg, apparent mass of one whole piece, dropper included
    double width;         ///< m (panel, basket) or diameter (rope, chaplet, lantern) seen by the flow
    double height;        ///< m, vertical extent of the part that catches the flow
    double cd;            ///< on width*height; NAN where a record's law gives it
    bys_drag_use drag;
    double solidity;      ///< nets, baskets; NAN
    bys_basis basis;
    bys_place place;
} bys_gear_values;
typedef struct {
    bys_gear_kind kind;
    double drop;           ///< m, from the backbone down to the top of that extent
    bys_orientation orientation; ///< panels: must be stated
    double edge_cd;        ///< panel seen edge-on, on the gross face; 0.15
    bool edge_stated;
    double twine;          ///< m, nets; NAN
    double sinker;         ///< kg, lantern nets; NAN
    double swing_credit;   ///< share of the upright drag that loads the legs; 1
    bool swing_tested;     ///< that share is from a tow test
    const char *swing_because;
    bys_gear_values *values; ///< [0] base values, then one per stage that overrides them
    int value_count;
} bys_gear_part;

/// Rectangular raft: x along its length, y across, z up, origin at the middle of the deck's underside.
typedef struct {
    double length, width;        ///< m, plan size between fairlead corners
    double mass;                 ///< kg, frame and pontoons, in air
    double cg;                   ///< m, centre of gravity above the pontoons' keel
    int pontoons;                ///< number, parallel to the length, evenly spread over the width
    double pontoon_length, pontoon_width, pontoon_height; ///< m
    double cd_hull;              ///< on the wetted side area; 1.2
    double cd_end;               ///< on the wetted end area; as on the side
    bool hull_law;               ///< friction, the bed's effect and pontoons behind one another count
    double friction_factor;      ///< on hull friction: 1 clean, 3 to 5 fouled; 1
    bys_drag_use drag;
    int beams;                   ///< across, evenly spread over the length; 0
    double beam_length, beam_height, beam_level, beam_cd; ///< m, m, m of its foot above the keel, -
    double cs_deck;              ///< 1.2
    double deck_area;            ///< m2 exposed to wind above the pontoons, from any side; 0
    double deck_height;          ///< m, its centre above the pontoons' top; 0
    const char *gear;            ///< id of the gear part hung under it; "" = none
    int gear_count;              ///< pieces under one raft
    double fairlead_height;      ///< m above the pontoons' keel
} bys_raft_part;

typedef enum {
    BYS_ANCHOR_DEADWEIGHT, BYS_ANCHOR_DRAG, BYS_ANCHOR_SCREW, BYS_ANCHOR_FIXED, BYS_ANCHOR_PLATE,
    BYS_ANCHOR_PILE, BYS_ANCHOR_ROCK_PIN
} bys_anchor_kind;
/// What a formula needs to know of an anchor; NAN = not stated.
typedef struct {
    const char *base;            ///< deadweight: "concrete" or "steel"
    double key_depth, key_width, key_thickness; ///< m
    double fluke;                ///< m, length of a drag anchor's fluke
    int helices; double helix, spacing; ///< screw: plates, their diameter and spacing (m)
    double depth;                ///< m below the bed: upper plate of a screw, middle of a plate
    double shaft; bool square;   ///< m, screw's shaft or rock pin's bar
    double shaft_angle;          ///< rad above the bed, towards the pull; pi/2
    double torque;               ///< N m
    double width, length;        ///< m, plate; length also: pile in the bed
    double diameter, wall, yield; ///< pile: m, m (NAN: full), Pa
    double pull_height;          ///< m above the bed; 0
    double eye_depth;            ///< m below the bed; 0
    double hole, bond_length, free_length; ///< m, rock pin; free_length 0
    const char *rock;            ///< kind of rock; "" = not stated
    double rock_strength, bar_bond; ///< Pa
} bys_anchor_form;
typedef struct {
    bys_anchor_kind kind;        ///< FIXED: a point of an explicit network, never checked
    double mass, density;        ///< kg in air, kg/m3
    double friction;             ///< deadweight on the bed; NAN: 0.30 precast, memory
    bys_basis friction_basis;
    double base_area;            ///< m2, deadweight on clay; NAN
    const char *drag_class;      ///< spelling of bys_drag_class_name; "" = none
    double capacity;             ///< N, user's own or tested holding; NAN = not stated
    const char *capacity_kind;   ///< "ultimate", "fractile" or "proof"; "" = not stated
    bys_basis capacity_basis;    ///< user or test
    const char *test;            ///< note on the test, "" if none
    double capacity_angle;       ///< rad, uplift at which that capacity holds for any pull up to it; NAN
    double uplift_limit;         ///< rad; drag anchors 0 if not stated
    double offset_limit;         ///< rad, pull off the set heading; 30 deg
    double setback;              ///< m, drag distance to set; 0
    double strength;             ///< N, structural; NAN
    bys_anchor_form form;
    const char **records; int record_count; ///< paths of its pull tests
    double permitted_drag;       ///< m, at which they are read; 2
} bys_anchor_part;

typedef struct bys_part {
    bys_item item;
    bys_part_kind kind;
    union {
        bys_line_part line;
        bys_connector_part connector;
        bys_sinker_part sinker;
        bys_float_part buoy;
        bys_gear_part gear;
        bys_raft_part raft;
        bys_anchor_part anchor;
        bys_drag_part drag;
    } u;
} bys_part;

// ---- layout ----------------------------------------------------------------------------------

/// One thing in a leg, in order from the anchor up.
typedef enum { BYS_LEG_LINE, BYS_LEG_CONNECTOR, BYS_LEG_SINKER, BYS_LEG_FLOAT } bys_leg_item_kind;
typedef struct {
    bys_leg_item_kind kind;
    const bys_part *part;
    double length;  ///< m unstretched, lines only; NAN = to be found
    int count;      ///< connectors, sinkers, floats; 1
    int elements;   ///< 0 = chosen by the compiler
    bys_place place;
} bys_leg_item;

/// Two arms from the top of a leg's line to two places; part NULL: none.
typedef struct {
    const bys_part *part;
    double length; ///< m unstretched, of one arm
    double spread; ///< m along the backbone between their ends; NAN on rafts
    bys_place place;
} bys_bridle_spec;

/// Exactly two of {all lengths, reach or anchor position, pretension} are stated; the reader checks.
typedef struct {
    const char *at;       ///< blocks: "ends", a compass name, or "along"; rafts: "north", "NE", ...
    double along, every;  ///< m as cut along the backbone from its tail, for "along": one of both;
                          ///< the other NAN
    double reach;         ///< m in plan from the nominal top end; NAN
    double bearing;       ///< rad from north, direction of the reach; NAN = straight on
    double x, y;          ///< m, anchor position; NAN
    double pretension;    ///< N at the leg's top in slack water; NAN
    const char *pretension_level; ///< level name; "" = lowest
    const char *pretension_stage; ///< stage id; "" = bare
    const char *anchor_id; ///< id of a shared anchor; "" = its own
    const bys_part *anchor;
    double heading;       ///< rad, the way the anchor was set to be pulled; NAN = along the leg
    int per_side;         ///< raft grids: legs per raft on that side, 1 or 2
    double splay;         ///< rad, raft corner legs turned outward; 0
    bys_leg_item *items;
    int item_count;
    bys_bridle_spec bridle;
    bys_place place;
} bys_leg_spec;

/// A leg as it stands, which takes the place of what the layout says of it.
typedef struct {
    const char *leg;      ///< "L05/N"
    bys_leg_spec spec;    ///< x and y stated; lengths or pretension
    double open_start;    ///< m, first guess of the open length; 0 = the straight line's
} bys_leg_override;

/// Floats or gear along a backbone. Exactly one of every, count is stated (floats also at ends).
typedef struct {
    const char *id;       ///< pattern name, for stages to override; part id if not stated
    const bys_part *part;
    bool at_ends;         ///< floats: `count` at each end
    double every;         ///< m between pieces, first one half a spacing in; NAN
    int count;            ///< pieces, evenly spread; 0
    double from, to;      ///< m along the backbone; NAN = whole length
    bool shelter;         ///< gear: a file of pieces shelters itself in a current along the line
    bys_place place;
} bys_pattern;

typedef struct {
    bys_item item;        ///< block id, e.g. "L" gives L01..L12
    int lines;
    double spacing;       ///< m between lines, 90 deg clockwise from the heading
    double heading;       ///< rad from north
    double x, y;          ///< m, middle of the block
    const bys_part *backbone;
    double backbone_length; ///< m unstretched
    int strands;          ///< 1 or 2
    bys_pattern *floats;  int float_count;
    bys_pattern *gear;    int gear_count;
    bys_leg_spec *legs;   int leg_count; ///< "ends" or one per end; any number "along"
} bys_block;

/// A change to one line of a block. Lists replace the block's when present.
typedef struct {
    const char *line;     ///< "L05"
    bool remove;
    double dx, dy;        ///< m, shift of the whole line; 0
    double backbone_length; ///< NAN = unchanged
    bys_pattern *floats;  int float_count;
    bys_pattern *gear;    int gear_count;
    bys_leg_spec *legs;   int leg_count; ///< each replaces the leg at its end; those "along" replace
                                         ///< all of the block's
    bys_place place;
} bys_change;

typedef struct {
    bys_item item;        ///< "R" gives R1-1 .. R2-3 (column-row)
    int columns, rows;    ///< columns run to the right of the heading, rows along it
    double spacing_x, spacing_y; ///< m, centre to centre across and along the heading
    double heading;       ///< rad; raft length lies along it
    double x, y;          ///< m, middle of the grid
    const bys_part *raft;
    const bys_part *head_rope;
    double head_rope_length; ///< m, NAN = the gap between facing corners
    bys_leg_spec *legs;   int leg_count;
} bys_grid;

// explicit networks
typedef struct {
    bys_item item;
    double x[3];          ///< m; in a body: local coordinates
    bool hold[3];         ///< held coordinates
    const char *body;     ///< "" = none
    double load[3];       ///< N, sum of given point loads
    const bys_part *buoy; int float_count; ///< float part hung here; NULL
    double buoyancy;      ///< N net constant uplift given by number; 0
    double drag_area;     ///< m2, Cd*A of that lump in the current; 0
} bys_free_point;

typedef struct {
    bys_item item;
    double x[3];          ///< m, origin
    double mass;          ///< kg
    double cg[3];         ///< m local
    double inertia;       ///< unused in statics; NAN
    const bys_part *raft; ///< NULL = only its mass and its points
} bys_free_body;

typedef struct {
    bys_item item;
    const char *from, *to;
    const bys_part *part; ///< NULL = all by number
    double length;        ///< m unstretched
    double stiffness;     ///< N
    double weight;        ///< N/m per unstretched length as stated, down positive (submerged if in water)
    double load[3];       ///< N/m uniform
    bool load_stretched;  ///< that load is per stretched length
    bool drag_unstretched; ///< current drag per unstretched length instead of stretched
    double diameter, cd_normal, cd_tangential;
    bool in_air;          ///< no current drag, weight as stated
    bool on_bed;          ///< may rest on the seabed
    int elements;         ///< 0 = chosen
    bool carry;           ///< compression allowed: never; kept for clarity (false)
} bys_free_span;

typedef struct {
    bys_item item;
    bys_free_point *points; int point_count;
    bys_free_body *bodies;  int body_count;
    bys_free_span *spans;   int span_count;
} bys_free_network;

// ---- stages, weather, bed, lease, rules ------------------------------------------------------

typedef struct {
    const char *target;   ///< "" = everything, block id or line id
    const char *pattern;  ///< pattern id
    double every; int count; ///< as in bys_pattern
    bys_place place;
} bys_stage_floats;
typedef struct bys_stage {
    bys_item item;
    double month;         ///< NAN
    double bedding_in;    ///< share 0..1 of each rope's bedding-in that has happened; bare 0, else 1
    bool bedding_stated;  ///< that share stands in the site file
    const char *like;     ///< stage whose gear it has; NULL or its own id, unless it is a copy that
                          ///< differs by its ropes only
    const char *towards;  ///< a month between two stages: its gear is `share` of the way to that of
    double share;         ///< this stage; NULL for stages as read
    bys_stage_floats *floats; int float_count;
    struct bys_growth_spec *growths; int growth_count;
} bys_stage;
/// What grows on a part at a stage (may be NULL); NULL = nothing.
const bys_growth_spec *bys_growth_of(const bys_stage *stage, const bys_part *part);

typedef struct { bys_item item; double height; } bys_level; ///< m above chart datum
typedef enum { BYS_STATE_ANY, BYS_STATE_INTACT, BYS_STATE_LOST } bys_factor_state;
/// One factor of the rule profile, or the user's override of it.
typedef struct {
    const char *component; ///< rope, chain, connector, drag-stockless, drag-high-efficiency,
                           ///< deadweight, screw, plate, pile, load-static, friction-share ...
    double value;          ///< NAN = the profile demands it but has none
    bys_factor_state state; ///< condition that it holds for
    bool dynamic;          ///< meant for a dynamic analysis only: not used by a static one
    const char *clause, *source, *because;
    bys_basis basis;
    bys_place place;
} bys_factor;
typedef struct { bys_item item; double current_years, wind_years, wave_years; } bys_combination;
typedef struct {
    bys_item item;          ///< profile id, title
    const char *written_for; ///< what the document was written for
    bool outside;           ///< moorings of shellfish gear lie outside its scope
    const char *capacity_basis; ///< "ultimate", "fractile" or "proof"
    int min_directions;
    bool demand_lost_leg;   ///< the profile demands the lost-leg condition (else it is reported)
    double float_reserve;   ///< least share of net lift; NAN = not demanded
    double gear_clearance;  ///< m; NAN
    double line_clearance;  ///< m between lines; NAN
    double max_excursion;   ///< m; NAN
    bys_combination *combinations; int combination_count;
    bys_factor *factors; int factor_count; ///< the user's overrides already applied
} bys_rules;

// ---- conditions ------------------------------------------------------------------------------

/// Strengths in place of the case's; directions, period and level stay. NAN = as in the case.
typedef struct { double current, wind, hs; } bys_weather_change; ///< m/s, m/s, m

typedef enum { BYS_TAKE_LEG, BYS_TAKE_ANCHOR, BYS_TAKE_FLOAT, BYS_TAKE_CUT, BYS_TAKE_LOAD }
    bys_take_kind;
/// One change of a condition: something gone, cut, or loaded.
typedef struct {
    bys_take_kind kind;
    const char *target;  ///< id
    double at;           ///< share along it, 0..1; 0.5
    double load[3];      ///< N, east, north, up
    bys_place place;
} bys_take;
typedef struct {
    bys_item item;
    const char *because;
    bys_take *takes; int take_count;
    bys_weather_change weather;
} bys_own_condition;
/// Tied on: pulls with what current and wind do to it.
typedef struct {
    bys_item item;
    const char *because, *to;
    double at;           ///< 0.5
    double current_area, wind_area; ///< m2, coefficient x area
    bys_weather_change weather;
} bys_vessel;
typedef struct {
    bys_item item;
    const char *because, *to;
    double at;           ///< 0.5
    double height;       ///< m above the water; NAN
    double force;        ///< N up; NAN
    bys_weather_change weather;
} bys_lift;

/// One echoed input for the report: path, text as written, place.
typedef struct { const char *path, *text; bys_place place; } bys_echo;

/// A regular design wave that passes through (weather of every case with waves).
typedef struct {
    bys_item item;
    double height;             ///< m; NAN: ratio times hs
    double ratio;              ///< 1.86
    double shortest, longest;  ///< s, periods; NAN: by hs
    int phases;                ///< 12
    double dynamic;            ///< factor on what it does to a line; NAN = none is known
    const char *because;       ///< of that factor, or of the height; ""
} bys_wave_passage;

struct bys_site {
    bys_arena *arena;
    const char *name, *notice; ///< notice: e.g. "INVENTED DEMO DATA"
    const char *file, *sha256; ///< path as given, hash of the site file's bytes in hex
    bys_frame frame;           ///< where the site lies; all positions here are in its plane
    double rho_water;          ///< kg/m3
    double rho_air;            ///< 1.226
    double gravity;            ///< m/s2; 9.80665, can be stated for textbook problems
    int directions;            ///< stated number of directions; 16
    double direction_offset;   ///< rad, first direction; 0
    double *wind_wave_turns; int turn_count; ///< rad, wind and waves turned against the current
    bys_level *levels; int level_count;
    bys_seabed bed; bool has_bed;
    double *lease_x, *lease_y; int lease_count; double lease_margin;
    const char *lease_id;
    bys_current *currents; int current_count;
    bys_wind *winds; int wind_count;
    bys_waves *waves; int wave_count;
    double wind_averaging;       ///< s, of the wind that loads anything; 60
    bys_residual residual; bool has_residual;
    bys_wind_drift wind_drift; bool has_wind_drift;
    bys_grown_waves grown; bool has_grown;
    bys_wave_passage passage; bool has_passage;
    bys_own_case *own_cases; int own_case_count;
    bys_drop *drops; int drop_count;
    bys_part *parts; int part_count;
    bool grows;                ///< gear changes evenly between dated stages
    bys_stage *stages; int stage_count;  ///< always holds "bare" and "harvest"
    bys_block *blocks; int block_count;
    bys_change *changes; int change_count;
    bys_grid *grids; int grid_count;
    bys_free_network *networks; int network_count;
    bys_vessel *vessels; int vessel_count;
    bys_lift *lifts; int lift_count;
    bys_own_condition *conditions; int condition_count;
    bys_rules rules;
    const bys_leg_override *overrides; int override_count; ///< none as read; see design/aslaid.h
    bys_echo *echo; int echo_count;
};
typedef struct bys_site bys_site; // also in byssus/site.h

/// Part by id, or NULL.
const bys_part *bys_site_part(const bys_site *site, const char *id);
/// Index of a stage or level by id, or -1.
int bys_site_stage(const bys_site *site, const char *id);
int bys_site_level(const bys_site *site, const char *id);
/// Id under which gear states its values at a stage; "" without a stage.
const char *bys_stage_gear(const bys_stage *stage);
/// Values of a gear part at a stage (base values if the stage does not override them); those of the
/// line come before those of its block before those of all. line, block may be "".
const bys_gear_values *bys_gear_at(const bys_gear_part *gear, const char *stage);
const bys_gear_values *bys_gear_on(const bys_gear_part *gear, const char *stage, const char *line,
                                   const char *block);
/// Factor by component name for the intact state and static analysis, or NULL.
const bys_factor *bys_rules_factor(const bys_rules *rules, const char *component);
/// The same for a state; a factor for that state goes before one for any.
const bys_factor *bys_rules_factor_in(const bys_rules *rules, const char *component,
                                      bys_factor_state state);

#endif
