// SPDX-License-Identifier: GPL-3.0-or-later
// Inside of the main job. One judge owns everything that is shared while the cases run; a job is
// one environment at one stage and writes only its own slot; slots are reduced in index order.
#ifndef BYS_JUDGE_H
#define BYS_JUDGE_H

#include "base/pool.h"
#include "sea/sea.h"
#include "statics/state.h"
#include "tune/tune.h"
#include <byssus/design.h>

enum { BYS_ALL_STAGES = -2 };
enum { BYS_UNDER = 6 };  ///< floats under water that are named
enum { BYS_SWEEP = 32 }; ///< directions of the outline that a line with a lost leg can reach

// ---- what is judged (constant while the cases run) -----------------------------------------

/// One reason for which a line has less strength than when new.
enum { BYS_REDUCTIONS = 6 };
typedef struct { const char *what; double share; } bys_reduction;

/// What a state of the rules asks of a piece.
typedef struct {
    double load_factor, resistance_factor;
    double per_newton;         ///< utilisation of 1 N; NAN = cannot be checked
    bys_basis basis;
    const char *why, *source;  ///< why: reductions, or what is missing
} bys_piece_state;

/// One section or fitting that carries tension, the same in all stages.
typedef struct {
    const char *id, *kind, *component;
    const bys_part *part;      ///< NULL: explicit span by number, not checked
    int leg, line;             ///< -1
    bool fitting;
    double length;             ///< m as built in the first stage; NAN for fittings
    double strength, capacity; ///< N: new, and after all reductions; NAN = not stated
    double load_factor, resistance_factor;
    double per_newton;         ///< utilisation of 1 N; NAN = cannot be checked
    bys_basis basis;
    const char *why;           ///< reductions, or what is missing
    const char *source;
    bys_piece_state lost;      ///< the same with one leg lost
    bys_reduction reductions[BYS_REDUCTIONS]; int reduction_count;
} bys_piece;

/// DRAG: along the bed in its heading; STATED: the resultant; SHAFT: along and across a shaft.
typedef enum {
    BYS_HOLD_NONE, BYS_HOLD_WEIGHT, BYS_HOLD_DRAG, BYS_HOLD_STATED, BYS_HOLD_SHAFT
} bys_hold_model;

enum { BYS_METHODS = 8 };
/// One way to reckon a capacity; `used`: the check rests on it.
typedef struct { const char *name; double capacity; bool used; } bys_method;

/// Where an anchor lies, and the bar of the chain at its eye (m, NAN = a rope).
typedef struct { double x, y, bar; } bys_anchor_place;

/// What is known of an anchor before any case is solved.
typedef struct {
    bys_hold_model model;
    const char *component;
    double weight, friction;      ///< N in water as credited, coefficient
    double adhesion;              ///< N, clay base: most that it holds along the bed; INFINITY
    double capacity;              ///< N, drag or stated; along the shaft
    bool keyed;                   ///< adhesion stands in place of friction
    double key;                   ///< N, sideways resistance of keys in sand; 0
    double across, shaft_angle;   ///< N across the shaft, NAN = not known; rad above the bed
    double axial_limit;           ///< rad off the shaft up to which the pull counts as along it
    double across_factor;         ///< resistance factor across
    const char *across_component;
    double eye_depth, chain_pull; ///< m below the bed; N/m, su times what the chain's bar bears on
    double drag;                  ///< m until it is set; NAN = not known
    bys_method methods[BYS_METHODS]; int method_count;
    double uplift_limit;          ///< rad above the bed
    double offset_limit;          ///< rad
    double load_factor, resistance_factor;
    bool chain_counts;            ///< friction of chain on the bed is added
    bys_basis basis, chain_basis;
    const char *missing;          ///< why it cannot be checked at all; "" = it can
    const char *unheld;           ///< why its holding power itself is not known; "" = it is
    double share;                 ///< of a deadweight's weight that is credited; 0 = no deadweight
    const char *how;              ///< what the capacity is made of
    const char *source;
} bys_anchor_rule;

/// What the records of an anchor's pull tests come to.
typedef struct {
    const bys_anchor_part *part;
    double capacity, angle;       ///< N; rad, least rise of the pulls
    const char *kind, *soil;      ///< ultimate, fractile or proof; in the records' words
    const char *how, *missing;
} bys_anchor_test;

typedef enum {
    BYS_SEEN_NOTHING, BYS_SEEN_OK, BYS_SEEN_UPLIFT, BYS_SEEN_OFFSET, BYS_SEEN_MISSING,
    BYS_SEEN_ACROSS, BYS_SEEN_CHAIN
} bys_anchor_trouble;

/// One anchor in one case.
typedef struct {
    bys_anchor_trouble trouble;
    double horizontal, vertical, uplift, offset, grounded; ///< N, N, rad, rad, m
    double bed_uplift;                                     ///< rad above the bed plane
    double chain_grip;                                     ///< N, friction of chain on the bed
    double characteristic, capacity, utilisation;
    double off_shaft;                                      ///< rad between pull and shaft; NAN
    bool across;                                           ///< the part across the shaft governs
    int lost;                                              ///< leg that is lost, -1 intact
} bys_anchor_seen;

/// The pull on an anchor in one case, kept where other anchors are to be tried on solved loads.
typedef struct {
    int anchor, lost;               ///< lost: leg that is lost, -1 intact
    double force[3], normal[3];     ///< N, of the legs on the anchor; of the bed
    double heading, grounded, chain_grip; ///< rad, m, N
} bys_anchor_pull;

/// One stage with its Network and what maps it to the shared lists.
typedef struct {
    int stage;               ///< index into site->stages, -1
    const char *id;
    bys_network *net;
    int *piece_of_section, *piece_of_fitting;
    int *piece_of_foot;      ///< by leg: its anchor's own strength, -1 = not stated
    int *first_of_fitting;   ///< fitting f: ends first[f] .. first[f+1]-1
    int *end_of_fitting;     ///< 2*section for its a end, 2*section+1 for its b end
    int *group_of_section, *group_of_point;
    int *island_of_leg;
    int *rep;                ///< island -> lowest island of which it is a translated copy
    double *shift;           ///< island -> 3, m, from its rep
    int *section_list, *section_from; ///< sections by island, as the lists in bys_island
    int *fitting_list, *fitting_from; ///< fittings by island
    bys_state **rest;        ///< by environment: state in slack water, NULL elsewhere
} bys_stage_set;

/// A longline, a raft, or the rest of an explicit network.
typedef struct { const char *id; int line, body; } bys_group;

// ---- what a job writes ---------------------------------------------------------------------

typedef struct {
    bys_status status;
    int factorisations, largest_leg;
    double residual, sum_share, largest;
    char *reason;            ///< malloc'd, NULL when stable
} bys_case_seen;

/// The float of a group that gets deepest for its rating.
typedef struct {
    double share, depth; ///< depth over rating; m below the surface, of its lowest part; share 0: none
    int set, lost;       ///< float set; leg lost, -1 intact
} bys_depth_seen;

/// Least and largest of a group in one intact case.
typedef struct {
    double float_share, end_share; ///< least share of net lift left; NAN
    int float_set, end_set;
    int under[BYS_UNDER], under_count; ///< float sets under water, the first of them listed
    double swung, upright;         ///< m, least height of gear above the bed; NAN
    int gear_set;
    double excursion;              ///< m in plan from rest; NAN
    double clearance; int other;   ///< m in plan to the nearest other backbone; NAN
    double inside; double at[2];   ///< m inside the lease of the worst point; NAN
    bys_depth_seen deep, deep_lost; ///< float nearest to its depth rating, intact and a leg lost
} bys_group_seen;

/// What a regular wave that passes through did in one job; by leg and by piece.
typedef struct {
    bool run;
    double height;                 ///< m
    double *mean, *peak, *least;   ///< N by leg: largest without it, largest and least of its top in it
    double *period, *phase;        ///< by leg, of the peak: s, rad
    double *piece;                 ///< N by piece, largest; -1 = none
    bool *open;                    ///< by leg: a phase did not come to rest
    char *reason;                  ///< of the first that did not; malloc'd
} bys_passage_seen;

typedef struct {
    int environment, stage;
    bool done;
    bys_passage_seen passage;
    int solves;
    double *piece, *piece_lost;    ///< N, largest tension intact and with a leg lost; -1 = none
    int *piece_lost_leg;
    bys_anchor_seen *anchor, *anchor_out;           ///< worst checkable, worst not checkable
    bys_anchor_seen *anchor_lost, *anchor_lost_out;
    bys_anchor_pull *pulls; int pull_count, pull_capacity; ///< only if the judge keeps them
    bool pulls_failed;             ///< out of memory
    bys_group_seen *group;
    double *sweep;                 ///< leg_count x BYS_SWEEP, m, support of the outline; NULL
    bys_status *island;            ///< intact outcome of each island
    bys_case_seen intact, *lost;   ///< lost: leg_count, NULL if not run
} bys_job;

// ---- the judge -----------------------------------------------------------------------------

typedef struct {
    const bys_site *site;
    bys_check_options options;
    bys_messages *messages;
    bys_design *out;
    bys_arena *arena;              ///< the design's
    bys_tuning tuning;
    bys_environments env;
    bys_stage_set *stages; int stage_count;
    bys_piece *pieces; int piece_count, piece_capacity;
    bys_anchor_rule *rules, *rules_lost; int anchor_count; ///< intact; one leg lost
    bys_anchor_test *tests; int test_count;
    bys_group *groups; int group_count;
    int leg_count;
    bys_job *jobs; int job_count;
    int finding_capacity;
    bool lost_demanded;
    unsigned set_kinds;            ///< kinds of conditions, bits of bys_set_kind
    struct bys_sets *sets;         ///< set_check.c; NULL = none beyond lost legs
    bool keep_pulls;               ///< jobs keep every pull, for trial.h
    bool no_memory;
} bys_judge;

// small helpers (judge.c)
const char *bys_judge_text(bys_judge *judge, const char *format, ...)
    __attribute__((format(printf, 2, 3)));
void *bys_judge_get(bys_judge *judge, size_t count, size_t size);
bys_basis bys_basis_weaker(bys_basis a, bys_basis b);
bool bys_basis_unverified(bys_basis basis);
bool bys_environment_slack(const bys_environment *environment);
const char *bys_case_name(bys_judge *judge, const bys_job *job, int lost);
const char *bys_case_speech(bys_judge *judge, const bys_job *job);
const char *bys_condition_name(bys_judge *judge, int lost);
const bys_stage_set *bys_job_stage(const bys_judge *judge, const bys_job *job);
const bys_environment *bys_job_environment(const bys_judge *judge, const bys_job *job);
/// The job's case counts: its environment is demanded.
bool bys_job_demanded(const bys_judge *judge, const bys_job *job);
const char *bys_kilonewtons(bys_judge *judge, double newtons);

// stages.c, identical.c
/// only: index of the one stage wanted, BYS_ALL_STAGES for all.
bys_rc bys_judge_stages(bys_judge *judge, int only, bys_error *err);
void bys_judge_stages_free(bys_judge *judge);
bool bys_stage_identical(bys_stage_set *set, const bys_site *site, bys_arena *arena);
/// Copies the stable state of island `from` to its translated copy `to` (may be the same state).
void bys_state_translate(bys_state *state, const bys_stage_set *set, int from, int to);

// pieces.c
bool bys_judge_pieces(bys_judge *judge);
bys_piece bys_piece_make(bys_judge *judge, const char *id, const bys_part *part, bool fitting);

// anchor_rule.c, anchor_shaft.c, anchor_test.c, anchor_check.c
bys_anchor_rule bys_anchor_rule_make(bys_judge *judge, const bys_anchor_part *part,
                                     bys_basis basis, const bys_anchor_place *place,
                                     bys_factor_state state);
/// BYS_EINPUT where a record of a pull test has faults, which are in the messages.
bys_rc bys_judge_anchors(bys_judge *judge, bys_error *err);
bys_anchor_place bys_anchor_place_of(const bys_judge *judge, int anchor);
void bys_anchor_shaft_rule(bys_judge *judge, bys_anchor_rule *rule, const bys_anchor_part *part,
                           const bys_anchor_place *place);
void bys_anchor_plate_rule(bys_judge *judge, bys_anchor_rule *rule, const bys_anchor_part *part,
                           const bys_anchor_place *place);
/// Reduces the records of all parts that have some. False: faults, or out of memory.
bool bys_judge_tests(bys_judge *judge);
const bys_anchor_test *bys_anchor_test_of(const bys_judge *judge, const bys_anchor_part *part);
/// Puts the first missing thing on record; later ones are left out.
void bys_rule_lacks(bys_anchor_rule *rule, const char *what);
void bys_rule_weaken(bys_anchor_rule *rule, bys_basis basis);
void bys_rule_method(bys_anchor_rule *rule, const char *name, double capacity);
/// Takes the least of the methods so far; NAN if there is none or one is not known.
double bys_rule_least(bys_anchor_rule *rule, int first);
/// Multiplier of the load at which a deadweight slips or lifts. force: of the leg on it (N).
double bys_anchor_slip(const bys_anchor_rule *rule, const double force[3], const double normal[3],
                       double chain_grip);
void bys_anchor_look(bys_anchor_seen *seen, const bys_anchor_rule *rule, const double force[3],
                     double heading, double grounded, double chain_grip, const double normal[3]);

// geometry.c
double bys_plan_inside(const double *x, const double *y, int n, double px, double py);
double bys_plan_gap(const double *a, int na, const double *b, int nb); ///< polylines, 3 per point
/// Corners (2 per corner, at most BYS_SWEEP) of the outline from its support; returns the number.
int bys_sweep_outline(double *corners, const double *support);
double bys_plan_area(const double *corners, int n);
bool bys_plan_crosses(const double *corners, int n, const double *line, int points);
void bys_sweep_add(double *support, double x, double y);

// observe.c, observe_group.c
void bys_observe_intact(bys_judge *judge, bys_job *job, const bys_state *state);
void bys_observe_lost(bys_judge *judge, bys_job *job, const bys_state *state, int lost);
/// Raises the largest tension (N by piece) by those of one part in a state.
void bys_observe_pieces(double *most, const bys_stage_set *set, const bys_state *state, int island);
/// Keeps the worse of what is known and what is seen, checkable or not.
void bys_observe_keep(bys_anchor_seen *best, bys_anchor_seen *out, const bys_anchor_seen *seen);
/// One anchor in one state, as bys_observe_intact sees it.
void bys_observe_anchor(bys_anchor_seen *seen, const bys_judge *judge, const bys_job *job,
                        const bys_state *state, int anchor, int lost);
/// State in slack water at the job's level and stage; NULL if there is none yet.
const bys_state *bys_rest_of(const bys_judge *judge, const bys_job *job);
void bys_observe_groups(bys_judge *judge, bys_job *job, const bys_state *state);
void bys_observe_sweep(bys_judge *judge, bys_job *job, const bys_state *state, int lost);

// jobs.c
bys_rc bys_judge_jobs(bys_judge *judge, bys_error *err);
void bys_judge_jobs_free(bys_judge *judge);
/// Solves one case again into a new state; lost -1 = intact.
bys_rc bys_judge_again(bys_state **out, bys_judge *judge, const bys_job *job, int lost,
                       bys_error *err);

// run.c. Set site, options, messages, out and arena of the judge first, keep_pulls if wanted.
bys_rc bys_judge_solve(bys_judge *judge, bys_error *err); ///< prepares, and solves every case
bys_rc bys_judge_all(bys_judge *judge, bys_error *err);   ///< then fills the design
void bys_judge_release(bys_judge *judge);
bys_arena *bys_design_arena(bys_design *design);          ///< that owns all of the design's texts

// set_check.c
bys_rc bys_sets_open(bys_judge *judge, bys_error *err);
void bys_sets_close(bys_judge *judge);
/// The job's further conditions; workplace: where its intact states are.
bys_rc bys_sets_job(bys_judge *judge, const bys_job *job, void *workplace, bys_error *err);
void bys_judge_sets(bys_judge *judge);

// results
void bys_judge_legs(bys_judge *judge);     // legs.c
void bys_judge_cases(bys_judge *judge);    // case_rows.c
void bys_judge_environments(bys_judge *judge); // environment_rows.c
void bys_judge_findings(bys_judge *judge); // findings.c
void bys_judge_place_findings(bys_judge *judge);  // place_findings.c
void bys_judge_line_findings(bys_judge *judge);   // line_findings.c
// friction.c
bys_rc bys_judge_friction(bys_friction **out, bys_judge *judge, const bys_state *state,
                          const bys_sea *sea, const bys_condition *change, bys_error *err);
// float_depth.c
/// Depth of the floats of an island that have a rating; lost: leg lost, -1 intact.
void bys_observe_depth(const bys_judge *judge, bys_job *job, const bys_state *state, int island,
                       int lost);
void bys_judge_depth_findings(bys_judge *judge);
void bys_judge_stretch_findings(bys_judge *judge); // stretch_findings.c
void bys_judge_lost_findings(bys_judge *judge);   // lost_findings.c
void bys_finding_add(bys_judge *judge, const bys_finding *finding);
void bys_judge_verdict(bys_judge *judge);  // verdict.c
void bys_judge_worst(bys_judge *judge);    // worst.c
void bys_judge_report_rows(bys_judge *judge); // report_rows.c
void bys_judge_known(bys_judge *judge);    // known.c: sources, unverified values
bys_rc bys_judge_plan(bys_judge *judge, bys_error *err); // plan.c
void bys_judge_contours(bys_judge *judge);                // contours.c
bys_rc bys_judge_accounts(bys_judge *judge, bys_error *err); // account_rows.c
/// Account of one connected part (-1: of all) with its texts and rows in the judge's memory.
/// condition: what the state was solved with; NULL = intact. island -1 = all.
bys_rc bys_account_of(bys_load_account *out, bys_judge *judge, const bys_state *state,
                      const bys_sea *sea, const bys_condition *condition, int island,
                      bys_error *err);
bys_rc bys_account_rows(bys_load_account *out, bys_judge *judge, const bys_state *state,
                        const bys_sea *sea, int lost, int island, bys_error *err);
void bys_judge_drag(bys_judge *judge);     // drag_rows.c, before the warnings are taken
bool bys_judge_own(bys_judge *judge);      // own.c: copies all text into the design

/// Job and lost leg of a case id; false if there is none.
bool bys_case_find(const bys_judge *judge, const char *id, int *job, int *lost);

/// Verdict of a checked value under --strict, and count of unverified demanded checks.
bys_verdict bys_verdict_strict(bys_judge *judge, bys_verdict verdict, bys_basis basis,
                               const char **why);

// tension of the piece: largest at its ends in this state
double bys_section_tension(const bys_section_state *section);

#endif
