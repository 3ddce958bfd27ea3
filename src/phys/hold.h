// SPDX-License-Identifier: GPL-3.0-or-later
// Capacity of anchors in soil and rock, as pure functions of plain numbers. SI units. NAN comes
// back where a relation does not reach: the caller must then say "not checked".
#ifndef BYS_PHYS_HOLD_H
#define BYS_PHYS_HOLD_H

#include <stdbool.h>

/// Two ways to reckon one capacity. `used` is the lesser; both are to be shown.
typedef struct { double first, second, used; } bys_two_ways;

// ---- screw.c ---------------------------------------------------------------------------------

/// Breakout factor of a circular plate in clay: 1.2 H/D, at most 9.
double bys_screw_nc(double depth, double diameter);
/// Depth over diameter beyond which a plate in clay of strength su (Pa) counts as deep.
double bys_screw_clay_critical(double su);
/// One plate in clay (N): area (Nc su + overburden). overburden: soil weight above it in Pa, or 0.
double bys_screw_plate_clay(double area, double nc, double su, double overburden);
/// n equal plates at `spacing`, the topmost at `depth`. first: plates one by one; second: cylinder
/// between them and the top plate.
bys_two_ways bys_screw_clay(int n, double diameter, double depth, double spacing, double su);

/// Shape factor slope m and limiting depth/diameter for friction angle phi (25 to 45 deg).
bool bys_sand_limits(double phi, double *m, double *limit);
/// Fq = 1 + 2 (1 + m H/D) (H/D) ku_tan_phi.
double bys_sand_breakout(double depth_over_diameter, double m, double ku_tan_phi);
/// One circular plate in sand (N), shallow or deep; unit_weight in water (N/m3).
double bys_screw_plate_sand(double diameter, double depth, double phi, double unit_weight);
/// The same as a truncated cone of half angle phi/2 with shear on it; NAN when deep.
double bys_screw_cone_sand(double diameter, double depth, double phi, double unit_weight);
/// Shear on the cylinder between the plates at depths h1 < h3 (N).
double bys_screw_cylinder_sand(double diameter, double h1, double h3, double phi,
                               double unit_weight);
/// n equal plates. first: plates one by one; second: top plate and cylinder. The top plate is the
/// lesser of both single-plate relations.
bys_two_ways bys_screw_sand(int n, double diameter, double depth, double spacing, double phi,
                            double unit_weight);

/// Capacity over installation torque (1/m). first: table by shaft; second: 22/d^0.92.
bys_two_ways bys_screw_torque_factor(bool square, double shaft);
/// May the axial capacity be used for a pull at `angle` (rad) from the axis of the shaft?
bool bys_screw_is_axial(double angle);

// ---- plate.c ---------------------------------------------------------------------------------

double bys_plate_clay(double width, double length, double disturbance, double su, double nc);
double bys_plate_sand(double width, double length, double depth, double unit_weight, double nq);
/// Depth (m) left after the plate has turned to face the pull; never below 0.
double bys_plate_keyed_depth(double depth, double width, bool clay);

// ---- pile.c ----------------------------------------------------------------------------------

typedef struct {
    double width, embedment, arm; ///< m; arm: height of the pull above the bed
    double yield_moment;          ///< N m
    bool fixed_head;
} bys_pile;

typedef struct {
    double short_pile, long_pile; ///< N: the soil gives way; the pile yields
    double middle;                ///< N: fixed head only: it yields at the head; else NAN
    double used;                  ///< N: the least
    double depth, moment;         ///< m, N m: of the largest moment at `used`, free head; else NAN
} bys_pile_lateral;

bys_pile_lateral bys_pile_lateral_clay(const bys_pile *pile, double su);
bys_pile_lateral bys_pile_lateral_sand(const bys_pile *pile, double phi, double unit_weight);

typedef enum { BYS_PILE_SHORT, BYS_PILE_MIDDLE, BYS_PILE_LONG } bys_pile_class;
double bys_pile_kh_clay(double n1, double n2, double qu, double width);     ///< N/m3
double bys_pile_beta(double kh, double width, double ei);                   ///< 1/m
double bys_pile_eta(double kh, double ei);                                  ///< 1/m
bys_pile_class bys_pile_class_clay(double beta_length);
bys_pile_class bys_pile_class_sand(double eta_length);
/// Adhesion factor from su / effective overburden.
double bys_pile_adhesion(double su_over_overburden);
double bys_pile_uplift_clay(double width, double embedment, double alpha, double su, double weight);
double bys_pile_uplift_sand(double width, double embedment, double k, double delta,
                            double unit_weight, double weight);

// ---- rock_pin.c ------------------------------------------------------------------------------

typedef struct {
    double bar, hole, bond_length; ///< m
    double cone_height;            ///< m: from the bed to where the cone starts
    double steel;                  ///< N: strength of bar and head
    double bar_bond, rock_bond;    ///< Pa
    double unit_weight;            ///< N/m3, rock in water
} bys_rock_pin;

typedef struct {
    double steel, bar_bond, rock_bond, cone, used; ///< N
    const char *governs;                           ///< static words
} bys_rock_pin_hold;

bys_rock_pin_hold bys_rock_pin_capacity(const bys_rock_pin *pin);
double bys_rock_cone(double height, double unit_weight);         ///< N
double bys_rock_bond_from_strength(double ucs);                  ///< Pa
double bys_rock_bond_length(double load, double factor, double hole, double bond); ///< m
/// Bond of a kind of rock, "granite", ...: lower and upper value (Pa). False if unknown.
bool bys_rock_bond(const char *rock, double *low, double *high);

// ---- chain_soil.c ----------------------------------------------------------------------------

typedef struct { double tension, angle, length; } bys_chain_end; ///< N, rad, m at the anchor

/// Normal resistance per metre of line: q0 + q1 z (N/m), z below the bed; friction mu of it.
typedef struct { double q0, q1, mu, weight; } bys_chain_soil;

/// Line that enters the bed with `tension` at `angle` (rad up) and ends at an eye `depth` m down.
/// False if it does not get there.
bool bys_chain_in_soil(bys_chain_end *out, const bys_chain_soil *soil, double tension,
                       double angle, double depth);
/// Weight left out, small angles. length is NAN.
bool bys_chain_in_soil_simple(bys_chain_end *out, const bys_chain_soil *soil, double tension,
                              double angle, double depth);
/// Exact depth (m) for constant resistance, no weight, level at the bed, `angle` at the anchor.
double bys_chain_in_soil_depth(double tension, double q, double mu, double angle);
/// Normal resistance (N/m) of chain of bar diameter d in clay.
double bys_chain_clay_resistance(double d, double su, double nc);

// ---- key.c -----------------------------------------------------------------------------------

/// Keys or skirts under a block, fully in the ground: `depth`, `width` across the pull.
double bys_key_sand(double depth, double width, double phi, double unit_weight);
/// In place of base friction. faces: 2 to 4, how many times su the front takes.
double bys_key_clay(double depth, double width, double area, double faces, double su);
/// Pressure (Pa) that lets the tip of a key into sand at that depth.
double bys_key_tip_sand(double depth, double phi, double unit_weight);
/// Undrained bearing pressure (Pa) under a base B x L (B <= L) at depth d.
double bys_bearing_clay(double su, double width, double length, double depth);

#endif
