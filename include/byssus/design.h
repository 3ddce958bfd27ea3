// SPDX-License-Identifier: GPL-3.0-or-later
// byssus: the main job. Runs all cases of a site and judges each leg; plain structs hold the result.
// Everything inside a bys_design belongs to it and is constant; units stand in the field names or
// comments; NAN means "does not apply or not known"; strings are never NULL.
#ifndef BYSSUS_DESIGN_H
#define BYSSUS_DESIGN_H

#include <byssus/frame.h>
#include <byssus/site.h>

#ifdef __cplusplus
extern "C" {
#endif

/// Options of bys_design_run. Start from BYS_CHECK_OPTIONS_INIT.
typedef struct {
    int threads;    ///< 0 = as many as the process may use; changes no byte of the result
    int directions; ///< 0 = as the site says (16)
    bool strict;    ///< checks that rest on unverified values become "not checked"
    bool intact_only; ///< leave the lost-leg conditions out (compare, quick looks)
    bys_progress_fn progress; ///< may be NULL; worst = largest utilisation so far
    void *user;
    bool tolerance; ///< search how far off each anchor may be laid; may take longer than the check
    /// Kinds of conditions to solve beyond those that the rules demand, with commas between: intact,
    /// lost, anchor, cut, float, fouled, vessel, lift, own; or all. NULL or "" = intact,lost.
    const char *conditions;
    bool cascade;             ///< raise the loads until nothing holds, in the cases that come nearest
    const char *cascade_case; ///< instead in this environment or case, "ENV" or "ENV:STAGE"; NULL
} bys_check_options;
#define BYS_CHECK_OPTIONS_INIT {0, 0, false, false, NULL, NULL, false, NULL, false, NULL}

/// One strength check of a line, connector or anchor; all numbers from the governing case.
typedef struct {
    const char *case_id, *condition, *analysis; ///< analysis: "static mean with wave drift"
    const char *item;        ///< line: weakest section or fitting id; anchor: anchor id
    const char *component;   ///< factor name in the rule profile, "rope", "drag-stockless", ...
    double characteristic_N; ///< load effect before factors; anchors: along the bed
    double load_factor, design_N, capacity_N, resistance_factor, utilisation;
    bys_verdict verdict;
    bys_basis basis;         ///< the weakest of all that it rests on
    const char *why;         ///< one sentence: what decides it, or why it is not checked
    const char *source;      ///< clause and source of the factor
} bys_strength;

/// The anchor's load in its governing case.
typedef struct {
    bys_strength check;
    double horizontal_N, vertical_N; ///< vertical: up positive
    double uplift_rad, offset_rad, grounded_m;
} bys_anchor_load;

/// What is left of a strength for one reason: "when wet", "at its bowline", "for wear", ...
typedef struct { const char *what; double share; } bys_share_row;
/// One way to reckon an anchor's holding (N); used: the check rests on it.
typedef struct { const char *name; double capacity_N; bool used; } bys_method_row;

/// One section or fitting of a leg: what to order and what it sees.
typedef struct {
    const char *id, *part, *kind; ///< kind: rope, chain, connector, sinker, float
    double length_m;     ///< unstretched; NAN for fittings
    double count;
    double mass_kg;      ///< in air
    double tension_N;    ///< largest over demanded cases
    double strength_N, utilisation; ///< strength after all reductions
    bys_verdict verdict;
    bys_basis basis;
    double new_N;        ///< strength when new
    bys_share_row *reductions; int reduction_count; ///< each once
    double diameter_m;       ///< of rope or chain bar; NAN for fittings
    double bedding_in;       ///< permanent stretch of a rope once bedded in, share of length; 0
    const char *ends;        ///< how a rope is made fast, as stated for its part; "" = not stated
} bys_leg_piece;

/// What moves the governing tension of a leg: rates in its governing line case. NAN: not found.
typedef struct {
    const char *case_id, *item;      ///< of the line check; "" if none
    double per_m_east_N, per_m_north_N; ///< its anchor laid that way along the bed
    double per_m_warp_N;             ///< more unstretched length in its longest rope
    double per_10pct_current_N;      ///< the whole current profile 10 % faster, by the rate
} bys_leg_rates;

/// How far from its planned place the leg's anchor may be laid, alone, lengths as made: largest radius
/// at which everything that the check demands still passes on eight bearings.
typedef struct {
    bool asked;              ///< false: not searched for
    double radius_m;         ///< NAN: none, see text
    const char *limited_by;  ///< what does not pass beyond it, "anchor of L01/N"; "" at 10 m
    const char *case_id;     ///< in which case
    double bearing_rad;      ///< on which bearing from north
    int resolves;            ///< equilibria solved for it
    const char *same_as;     ///< leg of a line that is a copy and stands for it; ""
    const char *text;        ///< one sentence; "" if not asked
} bys_laying_tolerance;
/// Largest tension of a leg under one kind of condition: reported, never demanded.
typedef struct {
    const char *kind;       ///< "anchor", "cut", "float", "fouled", "vessel", "lift", "own"
    const char *case_id, *condition;
    double tension_N;
} bys_reported_row;

/// One kind of condition over all demanded environments and stages.
typedef struct {
    const char *kind;
    int cases, stable;
    const char *leg, *case_id, *condition; ///< where the largest tension is; "" if none is stable
    double tension_N, intact_N; ///< there, and the same leg's largest intact tension
} bys_kind_result;

/// What a regular wave that passes through does to a leg, in the case with the largest tension in it.
typedef struct {
    bool asked;             ///< the site has <wave-passage>
    const char *case_id;    ///< "" if none ran
    double height_m, period_s, phase_rad; ///< of the wave at that tension; phase 0: crest at the origin
    double mean_N;          ///< largest tension without it, wave drift included
    double peak_N, least_N; ///< over phases and periods, before any dynamic factor; least: of the top
    bool covered;           ///< by a static factor, or a dynamic one is given
    const char *text;       ///< why not, or with which factor
} bys_leg_passage;

typedef struct {
    const char *id, *line;  ///< line or raft id
    double tension_N;       ///< largest unfactored section-end tension over demanded cases
    double mean_N, wave_N;  ///< of that tension; wave NAN: no wave passage was run
    bys_strength strength;
    bys_anchor_load anchor;
    bys_leg_rates rates;
    bys_laying_tolerance tolerance;
    bys_leg_passage passage;
    int anchor_index;
    double utilisation;     ///< the larger of both checks; NAN if neither could be checked
    bys_verdict verdict;    ///< fail beats not checked beats pass
    const char *lost_case, *lost_condition; ///< worst reported damaged case; "" if none
    double lost_tension_N;
    double reach_m, bearing_rad; ///< anchor from the leg's nominal top, in plan; bearing of the anchor seen from the top
    double top[3], foot[3]; ///< m, nominal
    double pretension_N;    ///< at the top in slack water, lowest level, first stage; NAN if not stable
    double pretension_high_N; ///< the same at the highest level
    const char *pretension_from; ///< "stated: 10 kN at LAT, bare", or "lengths and place of the anchor"
    double scope;           ///< line length over depth at the highest level
    bys_leg_piece *pieces; int piece_count;
    double *by_direction_N; ///< largest intact tension for each direction; length direction_count
    double *by_direction_lost_N; ///< the same over lost-leg conditions
    bys_reported_row *reported; int reported_count; ///< by kind; kinds that were asked for only
} bys_leg_result;

typedef struct {
    const char *id, *part, *kind;
    double x_m, y_m, depth_m; ///< depth below chart datum
    double mass_kg;
    int *legs; int leg_count;
    double heading_rad;
    double utilisation;
    bys_verdict verdict;
    bool inside_lease;
    double lease_margin_m;    ///< distance to the boundary, negative outside
    double setback_m;         ///< way that a drag anchor comes towards the gear while it sets; else 0
    bys_method_row *methods; int method_count; ///< ways to reckon its holding
    double drag_m;            ///< until it is set, stated or by its class; NAN
} bys_anchor_result;

/// Any other check or reported finding: float reserve, gear on the bed, excursion, lease, clash, ...
typedef struct {
    const char *kind;    ///< "float reserve", "gear clearance", "lease", "line clearance", "excursion",
                         ///< "swept area", "equilibrium", "scope"
    const char *item;    ///< id of the thing
    const char *case_id, *condition;
    double value, limit; ///< in `unit`
    const char *unit;
    bys_verdict verdict;
    bys_basis basis;
    const char *text;    ///< one sentence in the user's words
} bys_finding;

/// One solved case: environment x stage x condition.
typedef struct {
    const char *id, *environment, *stage, *condition;
    bool demanded;
    bys_status status;
    const char *reason;     ///< "" when stable
    const char *analysis;
    int factorisations;
    double residual_N;      ///< worst node, by the independent audit
    double sum_share;       ///< |sum of residuals| / applied load, by the independent audit
    double largest_N;       ///< largest leg tension in it
    const char *largest_leg;
    const char *words;      ///< for people: "current towards 090 deg, HAT and surge, harvest"; "" = use id
} bys_case_result;

/// One environment: the water and the weather that its cases share. Directions as at the edge: current
/// towards, wind and waves from.
typedef struct {
    const char *id, *level;
    bool demanded;
    double level_m, depth_m;       ///< above chart datum; reference depth, NAN without a bed
    double current_m_s, current_towards_rad; ///< at the surface
    bool turns;                    ///< the current has parts and may turn with depth
    double least_shelter;          ///< smallest factor on the current behind others; NAN = no shelter
    double wind_m_s, wind_from_rad, averaging_s; ///< at 10 m, mean over that time
    double hs_m, tp_s, gamma, waves_from_rad; ///< hs 0 = no waves
    const char *law;               ///< growth law of the waves; "" = stated
    double fetch_m;                ///< that it had; NAN
    bool broke;                    ///< hs was cut to the greatest before breaking
    const char *because;           ///< reason of a case of the user's own; ""
} bys_environment_row;
typedef struct { const char *pattern, *because; int cases; } bys_drop_row; ///< cases: intact ones

/// Polyline for the plan drawing (nominal geometry, and the governing deformed one).
typedef struct {
    const char *id;
    const char *kind;       ///< "backbone", "leg", "head rope", "raft"
    double *xyz; int count; ///< 3*count, m, at rest (slack water if stable, else nominal)
    double *worst_xyz;      ///< 3*count, m, in the case `worst_case`; NULL if none
    double utilisation;     ///< NAN if it has no check
    bys_verdict verdict;
} bys_plan_line;

/// One drag coefficient in use. Where a law gives it, coefficient is NAN.
typedef struct {
    const char *part, *kind;  ///< kind: "rope", "chain", "float", "gear", "raft"
    const char *stage, *of;   ///< gear: crop stage and block or line of the values; "" = base, all
    const char *record, *law; ///< drag record and its law; "" = a number of the part's own or built in
    double coefficient;       ///< across, on face, outline or long side
    double second;            ///< as second_is says; NAN
    const char *second_is;    ///< "along, on pi times the diameter", "edge-on, on the face", "end-on"
    double low, high;         ///< what other sources give; NAN
    bys_basis basis;
    const char *source, *because;
    const char *credit;       ///< less than the upright drag, and why; "" = none
} bys_drag_row;

/// Kinds of load in an account: current; wind; what waves add to the drag; what hulls reflect of them;
/// weight; buoyancy; loads given in the site file or by a condition; the seabed.
typedef enum {
    BYS_LOAD_CURRENT, BYS_LOAD_WIND, BYS_LOAD_VISCOUS_DRIFT, BYS_LOAD_REFLECTION_DRIFT,
    BYS_LOAD_WEIGHT, BYS_LOAD_BUOYANCY, BYS_LOAD_GIVEN, BYS_LOAD_BED, BYS_LOAD_COUNT
} bys_load;
/// All of one part. N: east, north, up. Weight of gear is its weight in water.
typedef struct {
    const char *kind; ///< "rope", "chain", "span", "float", "gear", "raft", "body", "point", "bed"
    const char *part; ///< part id, "" for what has none
    double f[BYS_LOAD_COUNT][3];
} bys_load_row;
/// What acts in one case, and what the supports take of it.
typedef struct {
    const char *case_id;
    const char **legs; int leg_count; ///< whose governing case it is, of this connected part
    bys_load_row *rows; int row_count;
    double sum[BYS_LOAD_COUNT][3];
    double total[3], supports[3];     ///< N, of all loads; of the structure on its supports
    double applied_N;                 ///< sum of the sizes of all single loads
    double gap;                       ///< |total - supports| / applied_N
} bys_load_account;

/// What one rule profile asks of one leg.
typedef struct {
    const char *id, *title, *written_for, *combinations; ///< combinations: their names, "; " between
    bool own;             ///< the site's own rules, with its own factors
    bool outside;         ///< moorings of shellfish gear lie outside its scope
    bool lost_demanded, solved, incomplete;
    int directions, unverified_checks;
    const char *verdict;  ///< on the whole site; "" if it could not be solved
    const char *why;      ///< why it could not, or what was taken in place of what it asks for
    bys_strength line, anchor; ///< needed capacity = design_N x resistance_factor
} bys_profile_row;

/// Line of equal depth of the seabed in plan: straight pieces in no order, 4 * count numbers, m.
typedef struct { double depth_m; double *xy; int count; } bys_contour;

typedef struct { const char *path, *text; int line; } bys_input_row;
typedef struct {
    const char *name, *value, *clause, *source, *because;
    bys_basis basis;
} bys_factor_row;
typedef struct { const char *id; double value; } bys_named_value;

/// One thing that gives way in a cascade.
typedef struct {
    double multiplier;    ///< of the forces of current, wind and wave drift
    const char *kind;     ///< "slips", "unknown" (its holding is not known for such a pull), "breaks"
    const char *item;     ///< anchor, or section or fitting
    const char *part;     ///< line, raft or network that it belongs to
    double load_N, capacity_N; ///< capacity NAN: unknown
    int held;             ///< anchors of the site that are still held afterwards
    const char *text;     ///< one sentence
} bys_cascade_step;

/// How the raising of the load ended for one connected part.
typedef struct {
    const char *part;
    const char *end;      ///< "gone", "holds", "no balance", "not run"
    double multiplier;    ///< there; NAN if not run
    int anchors;
    const char *reason;
} bys_cascade_part_row;

/// Loads of one case raised until nothing holds: factors 1, holding power as it is, nothing left
/// once an anchor has slipped.
typedef struct {
    const char *case_id, *words;
    bys_cascade_step *steps; int step_count;       ///< in order
    bys_cascade_part_row *parts; int part_count;
    double first;    ///< multiplier at which the first thing gives way; NAN = nothing does
    double adrift;   ///< at which the first part is no longer held; NAN
    double gone;     ///< at which no part is held; NAN = some still are, or were not run
    int anchors;     ///< at the beginning, in parts that were run
    int solves;
    const char *text; ///< one sentence
} bys_cascade;

typedef struct {
    const char *site, *notice, *file, *sha256;
    const char *profile, *profile_title, *written_for;
    const char *verdict;   ///< "pass", "fail" or "incomplete"
    bool incomplete;
    bool strict;
    int unverified_checks; ///< demanded checks that rest on memory or assumed values
    int case_total, case_stable, solve_count;
    double worst_residual_N, worst_sum_share; ///< over all stable cases, by the audit
    const char *headline;  ///< one sentence: verdict, worst thing, weather
    const char **worst_things; int worst_count; ///< up to three sentences, worst first
    int direction_count; double *directions_rad; ///< towards
    bys_leg_result *legs; int leg_count;         ///< in network order
    int *by_utilisation;                         ///< leg indices, highest utilisation first
    bys_anchor_result *anchors; int anchor_count;
    bys_finding *findings; int finding_count;    ///< demanded failures first
    bys_case_result *cases; int case_count;
    bys_environment_row *environments; int environment_count;
    bys_drop_row *drops; int drop_count;         ///< cases that the user left out
    bys_plan_line *plan; int plan_count;
    bys_contour *contours; int contour_count;    ///< of the seabed, rising
    double *lease_x, *lease_y; int lease_count; double lease_margin_m; const char *lease_id;
    const char *north;
    bys_frame frame;                             ///< where the site lies on the Earth
    bys_named_value *levels; int level_count;    ///< m above chart datum
    double bed_depth_min_m, bed_depth_max_m;     ///< over the anchors
    bys_input_row *inputs; int input_count;
    bys_factor_row *factors; int factor_count;
    const char **warnings; int warning_count;
    const char **sources; int source_count;
    const char **unverified; int unverified_count; ///< each unverified value in use, one sentence
    const char **cautions; int caution_count;
    bys_drag_row *drags; int drag_count;
    const char *profiles_leg; bys_profile_row *profiles; int profile_count; ///< if asked for
    bys_load_account *accounts; int account_count; ///< one a governing case and connected part
    bys_kind_result *kinds; int kind_count; ///< conditions that were asked for beyond lost legs
    bys_cascade *cascades; int cascade_count; ///< lowest first; none if not asked for
} bys_design;

/// Expands, solves every case, judges. BYS_EINPUT with messages if the layout cannot be built.
bys_rc bys_design_run(bys_design **out, const bys_site *site, const bys_check_options *options,
                      bys_messages *messages, bys_error *err);
void bys_design_free(bys_design *design);
/// Judges the site of `path` by each installed profile too, and puts what each asks of the worst leg
/// into `design`. options as of the check.
bys_rc bys_design_profiles(bys_design *design, const char *path, const char *data_dir,
                           const bys_check_options *options, bys_error *err);

/// Of a cascade: 0 nothing gives way at the loads as they are, 1 something does, 2 some part could not
/// be run or lost its balance, or there was no case to raise. 1 beats 2.
int bys_cascade_exit(const bys_design *design);

/// Faults of the files that the parts of a site name, the records of pull tests: BYS_EINPUT if any.
bys_rc bys_design_lint(const bys_site *site, bys_messages *messages, bys_error *err);

/// Exit status of the contract: 0 pass, 1 fail, 2 incomplete.
int bys_design_exit(const bys_design *design);

// ---- one case ----------------------------------------------------------------------------------

typedef struct { const char *id; double x, y, z; } bys_node_row;
typedef struct { double fx, fy, fz, tension; } bys_end_row; ///< N, force of the span on its end
typedef struct {
    const char *id, *section;
    bys_end_row end_a, end_b;
    double length_m, stretched_m, grounded_m;
} bys_span_row;
typedef struct { const char *id; double fx, fy, fz, uplift_rad; } bys_support_row;
typedef struct {
    const char *id;
    double x, y, z, roll_rad, pitch_rad, yaw_rad, draft_m;
} bys_body_row;
typedef struct { const char *id; double submerged, reserve_N; } bys_float_row;
typedef struct {
    const char *id;
    double swing_rad, lowest_z, clearance_m, weight_N, drag_N;
} bys_hanging_row;

/// One leg with friction on the bed: [0] without, [1] with, laid slack in slack water and then loaded,
/// [2] back in slack water after that, [3] slack water without friction.
typedef struct {
    const char *id;
    double grounded_m[4];
    double anchor_N[4], horizontal_N[4], vertical_N[4]; ///< of the leg on its anchor
    double top_N[4];                                    ///< tension at the leg's top
} bys_friction_row;
typedef struct {
    double mu_rope, mu_chain;
    bys_basis basis;
    bys_status status;   ///< of the worst of these equilibria; rows hold only if stable
    const char *reason;
    double mismatch;     ///< largest share by which friction and coefficient times bed force differ
    double reach_m;      ///< largest movement over which friction grows to its bound
    bys_friction_row *rows; int row_count;
} bys_friction;

/// Result of one equilibrium, as `byssus solve` writes it.
typedef struct {
    const char *case_id;
    bys_status status;
    const char *reason;
    double residual_N, sum_share;
    int factorisations;
    bys_node_row *nodes; int node_count;
    bys_span_row *spans; int span_count;
    bys_support_row *supports; int support_count;
    bys_body_row *bodies; int body_count;
    bys_float_row *floats; int float_count;
    bys_hanging_row *hanging; int hanging_count;
    bys_load_account account; ///< of everything
    const char *note;       ///< of the condition: what is touched, what a lift takes; "" = nothing
    bys_friction *friction;   ///< NULL unless it was asked for
} bys_solution;

/// Solves one case by its id ("" = the first case; explicit networks: still, no weather).
bys_rc bys_solution_run(bys_solution **out, const bys_site *site, const char *case_id,
                        bys_messages *messages, bys_error *err);
/// The same with the study of friction on the bed.
bys_rc bys_solution_friction(bys_solution **out, const bys_site *site, const char *case_id,
                             bys_messages *messages, bys_error *err);
void bys_solution_free(bys_solution *solution);
/// The list of cases before anything is solved.
typedef struct {
    const char *site;
    bys_environment_row *environments; int environment_count;
    const char **stages; int stage_count;
    bys_drop_row *drops; int drop_count;
    int cases, lost_cases; ///< intact, and each leg lost in turn
} bys_case_plan;
bys_rc bys_case_plan_make(bys_case_plan **out, const bys_site *site, bys_messages *messages,
                          bys_error *err);
void bys_case_plan_free(bys_case_plan *plan);
/// Appends all case ids of a site, one a line.
bys_rc bys_case_list(bys_text *out, const bys_site *site, bys_messages *messages, bys_error *err);
/// Appends all conditions that may stand last in a case's id, one a line, at the last crop stage.
bys_rc bys_condition_list(bys_text *out, const bys_site *site, bys_messages *messages,
                          bys_error *err);

#ifdef __cplusplus
}
#endif
#endif
