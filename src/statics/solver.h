// SPDX-License-Identifier: GPL-3.0-or-later
// Inside of the solver: unknowns of one island, where each coupling stands in the tangent, scratch.
#ifndef BYS_SOLVER_H
#define BYS_SOLVER_H

#include "num/blocklu.h"
#include "statics/state.h"

/// Force on something and its change with that something's position.
typedef struct {
    double f[3];    ///< N
    double J[9];    ///< df/dx, N/m, row-major
} bys_lump;

/// Force per element on both ends and its change with the vector e = x_b - x_a and mid height z.
typedef struct {
    double L;       ///< m, present length
    double T;       ///< N, axial tension
    double K[9];    ///< dT-vector/de: axial and geometric stiffness, N/m
    double half[3]; ///< N, half of all distributed loads that depend on the element's attitude
    double He[9];   ///< d(half)/de
    double Hz[3];   ///< d(half)/dz_mid
    double Hx[3], Hy[3]; ///< the same over x and y; 0 but in a wave train
    double direction[3];
} bys_element_force;

/// Where the coupling of two ends stands: offsets into the value array for up to 2x2 blocks
/// (a free point has one block; a body point has two: position and attitude of its body).
typedef struct { int slot[2][2]; } bys_coupling;

struct bys_solver {
    const bys_network *net;
    const bys_island *island;
    int index;               ///< of the island
    int blocks;              ///< unknown blocks: free points, then two per body
    const int *block_of_point; ///< all points of the network: block, -1 held, -2-body for body points
    const int *block_of_body; ///< all bodies: first of two blocks, -1 elsewhere
    bys_pattern3 *pattern;
    bys_coupling *aa, *ab, *ba, *bb; ///< per element of the island
    int *diagonal;           ///< per block: offset of its diagonal block
    double (*held)[3];       ///< per block: 1 where that coordinate is held
    // values and scratch, reused by every solve
    double *tangent, *factor;
    double *residual, *step, *right, *work; ///< 3*blocks
    double *keep;            ///< 3*blocks + 9*bodies: positions before a step
    // per point, float and section of the network, borrowed from the state that is being solved
    double *force;           ///< 3*points: force at each point
    double *point_tangent;   ///< 9*points: tangent of lumps at body points
    double *turn_tangent;    ///< 18*bodies: change of force and moment as the attitude turns the sides
    unsigned char *alive;    ///< per point: has something active
    unsigned char *off;      ///< per section: taken out by the condition
    unsigned char *out;      ///< per element: taken out, alone or with its section
    unsigned char *float_out; ///< per float set: taken out
    double *bed_weight;      ///< per point: submerged weight that may rest on the bed, N
    double *bed_stiffness;   ///< per point, N/m
    double *distance;        ///< per point, m, scratch of the start
    double *lie;             ///< per point, 3: where a slack line has come to lie on the bed, m
    double *pull;            ///< per point, N, largest tension of the elements that end there
    double *pressed;         ///< per point: its bed force, N
    double *pressed_eff, *pressed_k;
    // the condition and the iteration
    const bys_point_load *loads; int load_count; ///< added by the condition, borrowed from it
    const double *friction, *laid; ///< of the condition, borrowed from it; NULL without friction
    double friction_reach, last_move; ///< m; move of the step before
    bool cut;                ///< single elements are out
    bool rests;              ///< the places where slack lines lie are known
    double scale;            ///< N, applied load: sum of magnitudes
    double line_scale;       ///< N, the same without what bodies carry upright: what lines may have to take
    bool mixed;              ///< tensions and bed forces stand for themselves (see onesided.h)
    double barrier;          ///< N, of the one-sided laws
    double guard;            ///< share of the floats' guard stiffness in the tangent; 0 at rest
    double *pulled;          ///< per element of the island: its tension, N
    double *pulled_eff, *pulled_k; ///< the same linearised: force N, stiffness N/m
    double (*pulled_dir)[3]; ///< per element of the island: direction
    double *before;          ///< 3*blocks: residual before a watched step
    double *shift_before;    ///< as `shift`
    double *shift;           ///< 2 per block, N: loads sideways and in all (see note_load)
};

// in the finished equilibrium: penetration under a resting weight (m), barrier of the one-sided laws
// (N): far below what the audit, which has neither, lets pass
#define BYS_BED_DEPTH 1e-5
#define BYS_BED_STIFFNESS 5e6 // N/m at least: a point pressed down by 5 kN goes in by a millimetre
#define BYS_BARRIER 1e-4
#define BYS_RESIDUAL_LIMIT 0.01 // N

// element.c
/// Direction, length and loads; the axial part is added by bys_element_axial.
void bys_element_eval(bys_element_force *out, const bys_section *section, double length,
                      const double xa[3], const double xb[3], const bys_sea *sea);
/// Tension T (N) with axial stiffness `along` and sideways tension `across_T` (N): fills T and K.
void bys_element_axial(bys_element_force *out, double T, double along, double across_T);
/// Weight less buoyancy of half an element at a node at height z (N, up positive) and d/dz.
double bys_half_weight(const bys_section *section, double length, double z, const bys_sea *sea,
                       double *dz);

/// The same at a point, in a wave train too: its change with x, y, z.
double bys_end_weight(const bys_section *section, double length, const double x[3],
                      const bys_sea *sea, double slope[3]);

// passage.c: loads in a wave train; called by the functions of element.c and lumps.c
void bys_passage_element(bys_element_force *out, const bys_section *section, double l,
                         const double xa[3], const double xb[3], const bys_sea *sea);
void bys_passage_float(bys_lump *out, const bys_float_set *set, const double x[3],
                       const bys_sea *sea);
void bys_passage_gear(bys_lump *out, const bys_gear_set *set, const double x[3],
                      const bys_sea *sea);
void bys_passage_prism(bys_lump *out, double turn[9], const bys_prism *prism, const double x[3],
                       const double R[9], const bys_sea *sea);
void bys_passage_point(bys_lump *out, const bys_point *point, const double x[3],
                       const bys_sea *sea);

// lumps.c
void bys_float_eval(bys_lump *out, const bys_float_set *set, const double x[3], const bys_sea *sea);
/// Wind on area (m2) with its centre at z.
void bys_wind_eval(bys_lump *out, double area, double cs, double z, const bys_sea *sea);
/// Upward stiffness (N/m) that a float has near the water surface: keeps a step from throwing a
/// sunken float out of the water or a dry one under.
double bys_float_guard(const bys_float_set *set, double z, const bys_sea *sea);
void bys_gear_eval(bys_lump *out, const bys_gear_set *set, const double x[3], const bys_sea *sea);
/// turn: df/dtheta (N/rad, row-major) at a fixed foot, as the body's attitude turns the sides.
void bys_prism_eval(bys_lump *out, double turn[9], const bys_prism *prism, const double x[3],
                    const double R[9], const bys_sea *sea);
void bys_point_eval(bys_lump *out, const bys_point *point, const double x[3], const bys_sea *sea);
/// Penetration of a point into the bed (m, negative above it).
double bys_bed_depth(const double x[3], const bys_sea *sea);
/// Bed force of size N (N) with stiffness k (N/m) along the bed's normal.
void bys_bed_eval(bys_lump *out, double N, double k, const double x[3], const bys_sea *sea);
/// Swung shape of one piece: angle from the vertical and lowest z.
void bys_gear_swing(const bys_gear_set *set, double z, const bys_sea *sea, double *angle,
                    double *lowest, double *drag);

/// Scratch of the solvers of all islands: they touch only their own points, so that one set serves
/// all, and belongs to the state. One block of memory.
struct bys_scratch {
    double *force, *point_tangent, *turn_tangent, *bed_weight, *bed_stiffness, *distance, *lie;
    double *pull, *pressed, *pressed_eff, *pressed_k;
    unsigned char *alive, *off, *out, *float_out;
};

// scratch.c
bys_scratch *bys_scratch_new(const bys_network *net);
/// Lets the solver use the state's scratch.
void bys_scratch_borrow(bys_solver *s, const bys_state *state);

// assemble.c
/// Marks what the condition takes out; finds tributary weights.
void bys_solver_condition(bys_solver *s, const bys_state *state, const bys_sea *sea,
                          const bys_condition *condition);
/// Residual (and tangent when wanted) at the state's positions. Returns the largest |residual| (N).
double bys_assemble(bys_solver *s, bys_state *state, const bys_sea *sea, bool tangent);
/// Remembers where slack lines lie.
void bys_note_rest(bys_solver *s, const bys_state *state);
/// World positions of the body points.
void bys_place_bodies(const bys_solver *s, bys_state *state);

// start.c
void bys_start_cold(bys_solver *s, bys_state *state, const bys_sea *sea);

// newton.c
/// How an iteration begins and how carefully it goes on.
typedef struct {
    double barrier;  ///< first barrier, share of the lines' load
    double mu, fall; ///< 1/m, first shift, and what a whole step leaves of it
    double least_mu; ///< 1/m, held for good where nothing else stops a drift
    double turn;     ///< most that an element may turn or stretch in a step, share of its length
    int limit;       ///< steps
    int watch_from;  ///< step from which the shift follows the outcome: surer, half as dear again
    bool cold;       ///< tensions are not known
} bys_way;

/// What it came to.
typedef struct {
    double worst;    ///< N, largest residual, all laws met
    double full;     ///< m, largest move of the last full step
    int factorisations;
} bys_descent;

/// Iterates from the state's positions. True at rest; then s->tangent is the true one.
bool bys_newton(bys_descent *out, bys_solver *s, bys_state *state, const bys_sea *sea,
                const bys_way *way);
/// The tangent with all laws met; returns the largest residual (N).
double bys_true_tangent(bys_solver *s, bys_state *state, const bys_sea *sea);

// search.c
/// The slow, sure way towards balance: Newton with shortened steps on laws that harden in stages.
void bys_search(bys_solver *s, bys_state *state, const bys_sea *sea, int *factorisations);
/// factor <- K + mu S, factored (shared with newton.c).
void bys_factor_shifted(bys_solver *s, double mu, bys_pivots *pivots);
/// Least load (N) of a block that the shift counts with.
double bys_least_shift(const bys_solver *s);
/// Largest move (m) in s->step; one radian of a body counts as 10 m.
double bys_step_size(const bys_solver *s);

// stability.c
/// Lowest mode of the factored tangent: 1 stable, 0 undetermined, -1 unstable; names the block.
int bys_stability(bys_solver *s, int *block, double *mode);

// recover.c
void bys_recover(bys_solver *s, bys_state *state, const bys_sea *sea);
const char *bys_point_label(const bys_network *net, int point, char *buffer, size_t size);

#endif
