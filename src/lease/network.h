// SPDX-License-Identifier: GPL-3.0-or-later
// The Network: points, elements, floats, gear, rafts, anchors. Compiled from the Site for one crop
// stage, constant afterwards, shared by threads. Plain arrays; indices are ints; -1 = none.
#ifndef BYS_NETWORK_H
#define BYS_NETWORK_H

#include "phys/drag_law.h"
#include "phys/phys.h"
#include "site/site.h"

typedef enum { BYS_POINT_FREE, BYS_POINT_FIXED, BYS_POINT_BODY } bys_point_kind;

/// Where forces act. A point of a body follows the body.
typedef struct {
    const char *id;      ///< "" for points inside a section
    bys_point_kind kind;
    bool hold[3];        ///< held coordinates of a free point (all three: kind FIXED)
    double x[3];         ///< m: fixed position, or start position; body point: local coordinates
    int body;            ///< for BYS_POINT_BODY
    double load[3];      ///< N, given constant load
    double drag_area;    ///< m2, Cd*A of a lump hung here in the current
    double weight;       ///< N, lumped dead weight in water (connectors, sinkers), down positive
    int island;          ///< connected part that it belongs to
    bys_place place;
} bys_point;

/// A run of equal straight elastic elements: one section of a leg, backbone, head rope or span.
typedef struct {
    const char *id;      ///< "L05/N/chain", "L05/backbone", span id
    const bys_part *part; ///< NULL in explicit spans given by number
    int first, count;    ///< elements first .. first+count-1, from end a to end b
    int a, b;            ///< points at its ends; a = anchor side
    double length;       ///< m unstretched (bedding-in included)
    double stiffness;    ///< N, EA; of a curve for steady loads: its first chord
    bys_stretch law[2];  ///< tension over strain for steady loads and for storms; both unset: EA
    double weight_dry;   ///< N/m in air per unstretched length, down positive
    double buoyancy;     ///< N/m of the fully wetted section, up positive; 0 in air
    double load[3];      ///< N/m, given uniform load
    bool load_stretched; ///< per stretched length
    bool drag_unstretched;
    double diameter, cd_normal, cd_tangential; ///< drag; diameter 0 = none
    bool on_bed;         ///< may rest on the seabed
    int leg;             ///< leg that it belongs to, -1
    int line;            ///< longline that it belongs to, -1
    int strand;          ///< 0 or 1 in a two-strand backbone, else -1
    int shelter;         ///< number under which sea.h keeps its shelter from the current; 0 = none
    bys_place place;
} bys_section;

typedef struct { int a, b, section; double length; } bys_element; ///< unstretched length, m

/// Floats of one kind at one point.
typedef struct {
    const char *id;      ///< "L05/float07"
    const bys_part *part;
    int point;
    double count;        ///< pieces, may be a fraction (lever rule)
    int line;            ///< -1
    bool at_end;         ///< an end float
    int shelter;         ///< as in bys_section
    double axis[2];      ///< unit vector along the line in plan; 0,0 if none
    double growth_weight; ///< N in water per piece, of marine growth on it; 0
    double growth_drag;   ///< what growth adds to its drag, as a share; 0
} bys_float_set;

/// Gear of one kind hung at one point, at this Network's stage.
typedef struct {
    const char *id;
    const bys_part *part;
    const bys_gear_values *values;
    int point;
    double count;
    double axis[2];      ///< unit vector along the backbone in plan, for panels; 0,0 if none
    int line;
    int shelter;         ///< as in bys_section
    bool lawful;         ///< `law` holds; else the values' coefficient does
    bys_drag_law law;
    double swing_relief; ///< share of the upright drag that does not load the legs; 0
    double file_relief;  ///< share of it saved in a current along the line; 0
} bys_gear_set;

/// A prism of buoyancy standing on a body point: raft pontoons are cut into several.
typedef struct {
    int point;           ///< body point at the prism's foot
    double waterplane;   ///< m2
    double height;       ///< m
    double width_x, width_y; ///< m, projected width seen along body x and along body y
    double cd;           ///< current drag on the wetted projected area
    double end_ratio;    ///< coefficient seen along body x over that; 0 = the same
    double draft;        ///< m, of the raft at rest: the bed raises the drag square to its sides; 0 = not
    double friction;     ///< wetted skin over end area, times the fouling; 0 = none
    double skin;         ///< m, length of that skin
    double reflect_x, reflect_y; ///< m of outer raft side facing +-x and +-y carried by this prism,
                                 ///< for reflected-wave drift (already shared: sum = side length)
    double hull_draft, breadth_x, breadth_y; ///< m: draft at rest of the whole hull, its breadth
                                             ///< that waves along x and along y meet; 0 = no hull
    double cs;           ///< wind shape coefficient on the freeboard
    int shelter;         ///< as in bys_section
} bys_prism;

typedef struct {
    const char *id;
    double x[3];         ///< m, start position of its origin
    double rotation[9];  ///< start attitude, row-major local -> world
    double mass;         ///< kg
    int cg_point;        ///< body point where the weight acts
    double wind_area;    ///< m2 above the pontoons, from any side
    double wind_cs;
    int wind_point;      ///< body point where that acts; -1
    int *points; int point_count;
    int island;
    const bys_part *part; ///< raft part or NULL
    bys_place place;
} bys_body;

/// What stands between sections of a leg and carries the line's tension.
typedef struct {
    const char *id;      ///< "L05/N/shackle"
    const bys_part *part;
    int point;
    int leg;
} bys_fitting;

typedef struct {
    const char *id;      ///< "L05/N", "R2-3/SE"
    int anchor;          ///< index
    int foot, top;       ///< points
    int first_section, section_count; ///< contiguous, from the anchor up to the top
    int arm_count;       ///< 2: the top is a bridle's; its arms are the sections behind those; else 0
    int line;            ///< longline, -1
    int body;            ///< raft, -1
    int end;             ///< 0 or 1: which end of the longline (1 = the end towards the heading);
                         ///< -1: a place along it
    const bys_leg_spec *spec;
    double top_nominal[3]; ///< m, nominal position of the top end at rest (start geometry)
    bys_place place;
} bys_leg;

typedef struct {
    const char *id;      ///< "L05/N/anchor" or the shared id
    const bys_part *part;
    int point;
    double heading;      ///< rad from north: direction in plan FROM the anchor towards the gear
    bool heading_stated; ///< by a leg; else the middle of the directions of all its legs
    double towards[2];   ///< sum of the unit vectors to the tops of its legs, east and north
    int *legs; int leg_count;
    bys_place place;
} bys_anchor;

typedef struct {
    const char *id;      ///< "L05"
    int block;           ///< index of the site's block
    int first_section, section_count; ///< backbone sections
    int *points; int point_count;     ///< backbone points in order from end 0 to end 1
    double heading;      ///< rad
    double length;       ///< m backbone unstretched
    int legs[2];         ///< legs at the two ends, -1
    int island;
    bys_place place;
} bys_line;

/// A connected part of the network.
typedef struct {
    int *points; int point_count;     ///< ascending
    int *elements; int element_count;
    int *floats; int float_count;
    int *gears; int gear_count;
    int *bodies; int body_count;
    int *legs; int leg_count;
    int block_count;     ///< unknown blocks of three: free points, then two a body
    bool anchored;
} bys_island;

typedef struct bys_network {
    bys_arena *arena;
    const bys_site *site;
    int stage;           ///< index into site->stages, -1 in explicit networks
    bys_point *points; int point_count;
    bys_section *sections; int section_count;
    bys_element *elements; int element_count;
    bys_float_set *floats; int float_count;
    bys_gear_set *gears; int gear_count;
    bys_prism *prisms; int prism_count;
    bys_body *bodies; int body_count;
    bys_fitting *fittings; int fitting_count;
    bys_leg *legs; int leg_count;
    bys_anchor *anchors; int anchor_count;
    bys_line *lines; int line_count;
    bys_island *islands; int island_count;
    int *block_of_point; ///< per point: block within its island, -1 held, -2-body for a body's points
    int *block_of_body;  ///< per body: first of its two blocks within its island
    int grow[16];        ///< builder's capacities
} bys_network;

// ---- builder: used by the expansion of the Site and by tests ---------------------------------

/// site may be NULL in tests. Returns NULL when out of memory.
bys_network *bys_network_new(const bys_site *site, int stage);
void bys_network_free(bys_network *net);

/// Each appends and returns the new index, or -1 when out of memory. Ids are copied.
int bys_network_point(bys_network *net, const char *id, bys_point_kind kind, const double x[3]);
int bys_network_body_point(bys_network *net, const char *id, int body, const double local[3]);
/// Adds a section between points a and b with `count` equal elements and count-1 new free points,
/// placed straight between the start positions of a and b. `like` gives all other fields.
int bys_network_section(bys_network *net, const char *id, int a, int b, int count,
                        const bys_section *like);
/// Adds a section through given points (n points, n-1 elements) with given element lengths.
int bys_network_section_through(bys_network *net, const char *id, const int *points, int n,
                                const double *lengths, const bys_section *like);
int bys_network_float(bys_network *net, const char *id, const bys_part *part, int point,
                      double count);
int bys_network_gear(bys_network *net, const bys_gear_set *gear);
int bys_network_body(bys_network *net, const char *id, const double x[3], double mass);
int bys_network_prism(bys_network *net, const bys_prism *prism);
int bys_network_fitting(bys_network *net, const bys_fitting *fitting);
int bys_network_leg(bys_network *net, const bys_leg *leg);
int bys_network_anchor(bys_network *net, const bys_anchor *anchor);
int bys_network_line(bys_network *net, const bys_line *line);
/// Last step: finds islands, body point lists and anchors' leg lists.
bys_rc bys_network_finish(bys_network *net, bys_error *err);

/// Tension (N, below zero in compression) of a section at a strain, and its derivative (N); storm:
/// by the storm law where one is stated.
double bys_section_pull(const bys_section *section, bool storm, double strain, double *slope);

/// Number of elements that keeps a section within 0.1 % of its closed form: h <= 0.15 T/q, where
/// q is the load per metre (N/m) and T an expected tension (N); between 4 and 64.
int bys_element_count(double length, double q, double tension);

/// Draft (m) at which a raft with its gear floats at a stage (NULL: without stages).
double bys_raft_part_draft(const bys_site *site, const bys_part *raft, const bys_stage *stage);

// ---- expansion of a Site -----------------------------------------------------------------------

/// Expands blocks, grids and explicit networks for one stage. Legs whose length is to be found
/// (pretension) are built with the straight-line length; src/tune replaces it.
/// Faults (line unanchored, part connected to nothing, span shorter than its ends can reach at any
/// strain that its rope survives, ...) go to messages with the item's name and place.
bys_rc bys_network_expand(bys_network **out, const bys_site *site, int stage,
                          bys_messages *messages, bys_error *err);

#endif
