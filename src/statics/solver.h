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
    double T;       ///< N, axial tension
    double K[9];    ///< dT-vector/de: axial and geometric stiffness, N/m
    double half[3]; ///< N, half of all distributed loads that depend on the element's attitude
    double He[9];   ///< d(half)/de
    double Hz[3];   ///< d(half)/dz_mid
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
    int *block_of_point;     ///< all points of the network: block, -1 held, -2-body for body points
    int *block_of_body;      ///< all bodies: first of two blocks, -1 elsewhere
    bys_pattern3 *pattern;
    bys_coupling *aa, *ab, *ba, *bb; ///< per element of the island
    int *diagonal;           ///< per block: offset of its diagonal block
    double (*held)[3];       ///< per block: 1 where that coordinate is held
    // values and scratch, reused by every solve
    double *tangent, *factor;
    double *residual, *step, *right, *work; ///< 3*blocks
    double *keep;            ///< 3*blocks + 9*bodies: positions before a step
    double *force;           ///< 3*points of the network: force at each point
    double *point_tangent;   ///< 9*points: tangent of lumps at body points
    double *turn_tangent;    ///< 18*bodies: change of force and moment as the attitude turns the sides
    unsigned char *alive;    ///< per point: has something active
    unsigned char *off;      ///< per section: taken out by the condition
    double *bed_weight;      ///< per point: submerged weight that may rest on the bed, N
    double *bed_stiffness;   ///< per point, N/m
    double *distance;        ///< per point, m, scratch of the start
    double *pull;            ///< per point, N, largest tension of the elements that end there
    double scale;            ///< N, applied load: sum of magnitudes
    double tension_floor;    ///< N, used in the tangent only while a cold start settles
    double slack_force;      ///< N, tension at the unstretched length while slackness is eased in
    double bed_depth;        ///< m, penetration at which the bed carries a resting point
    double *shift;           ///< per block, N/m: load per metre of move that a shifted step allows
};

// in the finished equilibrium: penetration under a resting weight (m), tension of an element at its
// unstretched length (N): far below what the audit, which has neither, lets pass
#define BYS_BED_DEPTH 0.5e-3
#define BYS_SLACK_FORCE 1e-3

// element.c
/// slack: tension at the unstretched length (N), 0 for the true law; floor: least tension (N) in the
/// sideways stiffness.
void bys_element_eval(bys_element_force *out, const bys_section *section, double length,
                      const double xa[3], const double xb[3], const bys_sea *sea, double slack,
                      double floor);
/// Weight less buoyancy of half an element at a node at height z (N, up positive) and d/dz.
double bys_half_weight(const bys_section *section, double length, double z, const bys_sea *sea,
                       double *dz);

// lumps.c
void bys_float_eval(bys_lump *out, const bys_float_set *set, const double x[3], const bys_sea *sea);
/// Wind on area (m2) with its centre at z.
void bys_wind_eval(bys_lump *out, double area, double cs, double z, const bys_sea *sea);
void bys_gear_eval(bys_lump *out, const bys_gear_set *set, const double x[3], const bys_sea *sea);
/// turn: df/dtheta (N/rad, row-major) at a fixed foot, as the body's attitude turns the sides.
void bys_prism_eval(bys_lump *out, double turn[9], const bys_prism *prism, const double x[3],
                    const double R[9], const bys_sea *sea);
void bys_point_eval(bys_lump *out, const bys_point *point, const double x[3], const bys_sea *sea);
/// Bed force on a point whose weight `weight` may rest there; returns its normal size (N).
double bys_bed_eval(bys_lump *out, double weight, double stiffness, const double x[3],
                    const bys_sea *sea);
/// Swung shape of one piece: angle from the vertical and lowest z.
void bys_gear_swing(const bys_gear_set *set, double z, const bys_sea *sea, double *angle,
                    double *lowest, double *drag);

// assemble.c
/// Marks what the condition takes out; finds tributary weights.
void bys_solver_condition(bys_solver *s, const bys_state *state, const bys_sea *sea,
                          const bys_condition *condition);
/// Residual (and tangent when wanted) at the state's positions. Returns the largest |residual| (N).
double bys_assemble(bys_solver *s, bys_state *state, const bys_sea *sea, bool tangent);
/// World positions of the body points.
void bys_place_bodies(const bys_solver *s, bys_state *state);

// start.c
void bys_start_cold(bys_solver *s, bys_state *state, const bys_sea *sea);

// stability.c
/// Lowest mode of the factored tangent: 1 stable, 0 undetermined, -1 unstable; names the block.
int bys_stability(bys_solver *s, int *block, double *mode);

// recover.c
void bys_recover(bys_solver *s, bys_state *state, const bys_sea *sea);
const char *bys_point_label(const bys_network *net, int point, char *buffer, size_t size);

#endif
