// SPDX-License-Identifier: GPL-3.0-or-later
// The State: all that changes. One per thread. And the solver that finds equilibrium.
#ifndef BYS_STATE_H
#define BYS_STATE_H

#include "lease/network.h"
#include "sea/sea.h"

/// Share of its resting weight that holds a slack line sideways on the bed (see assemble.c).
#define BYS_SLACK_GRIP 0.02
#define BYS_SLACK_REACH 0.01 // m over which it grows to that

/// A load added at a point. N, world axes.
typedef struct { int point; double force[3]; } bys_point_load;

/// A set of changes against the intact network. Plain; arrays are borrowed.
typedef struct {
    const char *id;              ///< "intact", "lost:L05/N"
    const int *sections; int section_count; ///< sections taken out
    const int *elements; int element_count; ///< single elements taken out: a line cut there
    const int *floats; int float_count;     ///< float sets taken out
    const bys_point_load *loads; int load_count; ///< at points that still hang on something
    const double *friction;      ///< per point, N: most that the bed holds it sideways; NULL = none
    const double *laid;          ///< with it, per point 3, m: where the line lay before it was pulled
    double friction_reach;       ///< m of movement over which friction grows to that
} bys_condition;

/// Equilibrium of one island in one case.
typedef struct {
    bys_status status;
    char reason[200];       ///< names the worst item and the cause; "" when stable
    int worst_point;        ///< point with the largest residual, -1
    double residual;        ///< N, that residual
    double last_step;       ///< m, largest move of the last full step
    int factorisations;
    int fallbacks;          ///< times a shifted tangent or a restart was needed
} bys_outcome;

/// Forces of a section on its ends (N, world axes) and its lengths (m).
typedef struct {
    double force_a[3], force_b[3]; ///< at end a and b, tension positive: pulls the end into the span
    double tension_a, tension_b;   ///< their norms
    double stretched, grounded;    ///< m; grounded = unstretched length carried by the bed
    bool active;
} bys_section_state;

typedef struct bys_scratch bys_scratch;

typedef struct bys_state {
    const bys_network *net;
    double *x;               ///< point_count x 3, m, world
    double *body_x;          ///< body_count x 3
    double *body_r;          ///< body_count x 9, row-major, local -> world
    double *tension;         ///< element_count, N
    bys_section_state *sections; ///< section_count
    double *reaction;        ///< point_count x 3, N: force of the structure on a held point
    double *bed;             ///< point_count, N, normal force of the bed on the point
    double *grip;            ///< point_count x 3, N: small sideways hold of the bed on a slack line
    double *submerged;       ///< float_count, share of the float's volume under water
    double *lift_left;       ///< float_count, N per piece: net lift not yet used
    double *gear_low;        ///< gear_count, z of the lowest point of the swung gear, m
    double *gear_swing;      ///< gear_count, rad from the vertical
    double *gear_drag;       ///< gear_count, N per piece, upright
    bys_outcome *islands;    ///< island_count
    bys_scratch *scratch;    ///< of the solvers; not copied
} bys_state;

bys_rc bys_state_new(bys_state **out, const bys_network *net, bys_error *err);
void bys_state_free(bys_state *state);
void bys_state_copy(bys_state *to, const bys_state *from);
/// Copies one island's part only.
void bys_state_copy_island(bys_state *to, const bys_state *from, int island);

/// Workspace for one island: ordering, factors, residuals. One per thread.
typedef struct bys_solver bys_solver;
bys_rc bys_solver_new(bys_solver **out, const bys_network *net, int island, bys_error *err);
void bys_solver_free(bys_solver *solver);

typedef enum {
    BYS_START_COLD,   ///< from per-leg catenaries and the load's own direction
    BYS_START_WARM    ///< from the positions that the state holds now
} bys_start;

/// Finds equilibrium of the solver's island; writes positions, forces and the outcome into `state`.
/// condition may be NULL (intact). Returns non-OK only for faults of the call itself.
bys_rc bys_solve_island(bys_state *state, bys_solver *solver, const bys_sea *sea,
                        const bys_condition *condition, bys_start start, bys_error *err);

// friction.c
/// What a solve with friction on the bed came to.
typedef struct {
    int rounds;       ///< solves until bed forces and friction agreed
    double reach;     ///< m of movement over which friction grows to its bound
    double mismatch;  ///< share by which friction and coefficient times bed force still differ
    bys_status status;
} bys_friction_outcome;
/// The same case with friction on the bed, for a line that lay at `laid` (3 per point) when it was
/// pulled: coefficient mu[0] for rope, mu[1] for chain. On entry the state holds an equilibrium to
/// begin from; condition may be NULL.
bys_rc bys_solve_friction(bys_state *state, bys_solver *solver, const bys_sea *sea,
                          const bys_condition *condition, const double *laid, const double mu[2],
                          bys_friction_outcome *out, bys_error *err);

/// Residual of equilibrium by separate code: geometry and force laws of its own.
typedef struct { double worst_N; int worst_point; double sum_N, applied_N; } bys_audit;
void bys_audit_island(bys_audit *out, const bys_state *state, const bys_sea *sea,
                      const bys_condition *condition, int island);

/// Forces and tangent at the state's positions, for tests: residual (3 per unknown block) and the
/// product of the tangent with a direction, so that finite differences can check it.
int bys_solver_unknowns(const bys_solver *solver);
void bys_solver_residual(bys_solver *solver, bys_state *state, const bys_sea *sea, double *r);
void bys_solver_tangent_times(bys_solver *solver, bys_state *state, const bys_sea *sea,
                              const double *d, double *Kd);
void bys_solver_move(const bys_solver *solver, bys_state *state, const double *d, double scale);

#endif
