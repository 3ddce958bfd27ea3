// SPDX-License-Identifier: GPL-3.0-or-later
// Published relations as pure functions of plain numbers. SI units. One relation set per file;
// the file that defines a function states its source, range, accuracy and what it leaves out.
#ifndef BYS_PHYS_H
#define BYS_PHYS_H

#include <stdbool.h>

#define BYS_G 9.80665 // m/s2, standard gravity (ISO 80000-3)
#define BYS_PI 3.14159265358979323846

// ---- drag.c: quadratic drag and its mean over waves ------------------------------------------

/// Mean of (U+u)|U+u| for Gaussian u with standard deviation s (m/s): m2/s2, and d/dU, d/ds.
/// Any derivative pointer may be NULL. s = 0 gives U|U| exactly.
double bys_morison_mean(double U, double s, double *d_dU, double *d_ds);
/// The same for a regular wave of amplitude um, without derivatives.
double bys_morison_mean_regular(double U, double um);
/// Mean splash-zone force on one surface-piercing vertical cylinder, no current: N.
double bys_splash_regular(double rho, double cd, double diameter, double omega, double amplitude);
double bys_splash_random(double rho, double cd, double diameter, double hs, double tz);
/// End-flow factor kappa of a finite subcritical cylinder of length/diameter ratio L/D.
double bys_cylinder_end_factor(double length_over_diameter);
/// Marine growth on a cylinder (DNV-OS-E301 form): mass and submerged weight per metre, drag factor.
/// chain: mu = 2, rope: mu = 1.
typedef struct { double mass, weight, drag_factor; } bys_growth;
bys_growth bys_growth_on_line(double diameter, double thickness, double rho_growth,
                              double rho_water, bool chain);

// ---- stretch.c: tension of a rope from its strain --------------------------------------------

/// A law: `count` points, the first (0, 0), with slopes by bys_stretch_slopes; count 0: linear.
typedef struct {
    double ea;              ///< N, count 0
    const double *strain;   ///< 1
    const double *tension;  ///< N
    const double *slope;    ///< N
    int count;
} bys_stretch;

/// n >= 2 points, both rising.
void bys_stretch_slopes(double *slope, const double *strain, const double *tension, int n);
/// Tension (N) at a strain, and its derivative (N).
double bys_stretch_tension(const bys_stretch *law, double strain, double *slope);
/// Strain at a tension (N).
double bys_stretch_strain(const bys_stretch *law, double tension);
/// N, tension at the table's last point; infinite for a linear law.
double bys_stretch_end(const bys_stretch *law);

// ---- current.c -------------------------------------------------------------------------------

/// Speed factor of the power profile at height h above the bed in depth d, relative to the
/// surface: (h/d)^exponent; above the surface 1; below 0.01 d held at its value there.
/// d_dh may be NULL (1/m).
double bys_current_power(double h, double d, double exponent, double *d_dh);
/// Ratio of the depth-mean to the surface speed of the power profile.
double bys_current_power_mean(double exponent);
/// Wind-driven part as a fraction of its surface value at z (<= 0) below the surface.
double bys_current_wind_driven(double z, double reference_depth);

// ---- wind.c ----------------------------------------------------------------------------------

/// DNV-RP-C205 2.3.2.11: mean over `averaging` s at height z m from the 10-min mean at 10 m.
double bys_wind_dnv(double u10_600s, double z, double averaging);
/// ISO 19901-1:2005 / NPD: from the 1-h mean at 10 m.
double bys_wind_npd(double u10_3600s, double z, double averaging);
/// CEM Fig. II-2-1: U_t / U_3600.
double bys_wind_cem_ratio(double duration);
double bys_wind_force(double rho_air, double cs, double area, double speed);

// ---- waves.c ---------------------------------------------------------------------------------

/// Wave number (1/m) of linear waves: omega^2 = g k tanh(k depth).
double bys_wave_number(double omega, double depth);
/// JONSWAP spectral density (m2 s/rad); gamma from Tp and Hs by DNV-RP-C205 3.5.5.5.
double bys_jonswap(double omega, double hs, double tp, double gamma);
double bys_jonswap_gamma(double hs, double tp);
double bys_jonswap_tz_over_tp(double gamma);
/// Standard deviation (m/s) of the horizontal orbital velocity at height h above the bed in
/// depth d for a JONSWAP sea, linear theory; above the mean level the surface value holds.
double bys_wave_sigma_u(double h, double d, double hs, double tp, double gamma);
/// Fills n values at heights d*i/(n-1), i = 0..n-1. One spectrum integration for the lot.
void bys_wave_sigma_table(double *sigma_u, int n, double d, double hs, double tp, double gamma);
/// Greatest wave height before breaking (Miche with the finite-depth factor): m.
double bys_wave_breaking_height(double period, double depth);

// ---- drift.c ---------------------------------------------------------------------------------

/// Mean drift of full reflection per metre of side (N/m), one regular wave of amplitude a.
double bys_drift_reflection_regular(double rho, double a, double k, double depth);
/// The same integrated over a JONSWAP spectrum: rho g Int S (1 + 2kh/sinh 2kh) dw. An upper bound.
double bys_drift_reflection_jonswap(double rho, double hs, double tp, double gamma, double depth);

// ---- buoyancy.c: displaced volume against immersion ------------------------------------------

/// Volume (m3) displaced by a float whose lowest point lies `immersion` m below the water surface
/// (negative: dry), and dV/d(immersion) (m2). Constant beyond full immersion.
double bys_volume_sphere(double immersion, double diameter, double *dV);
double bys_volume_barrel_side(double immersion, double diameter, double length, double *dV);
double bys_volume_upright(double immersion, double waterplane, double height, double *dV);
/// Share of a float's volume that is left at a depth (m) when it loses `loss` (1/m) of it a metre.
double bys_volume_kept(double depth, double loss, double *d_depth);
/// Vertical projected area (m2) below the water surface, and its derivative (m).
double bys_area_sphere(double immersion, double diameter, double *dA);
double bys_area_barrel_side(double immersion, double diameter, double length, double *dA);
double bys_area_upright(double immersion, double width, double height, double *dA);

// ---- catenary.c ------------------------------------------------------------------------------

/// Elastic catenary hung from its lower end: given end force (H, Vi) at the lower end.
typedef struct { double H, Vi, Vj, Ti, Tj, dx, dz; } bys_catenary;
bys_catenary bys_catenary_shape(double H, double Vi, double w, double EA, double length);
/// Solves for (H, Vi) so that the ends stand (dx, dz) apart; dx > 0, w of any sign but 0.
/// Returns false if no solution was found in its iteration limit.
bool bys_catenary_solve(bys_catenary *out, double dx, double dz, double w, double EA,
                        double length);
/// One grounded elastic line on a flat frictionless bed, anchor at (0,0), end at (dx, dz), dz >= 0.
/// grounded = unstretched length on the bed. Falls back to the free catenary when none is grounded.
bool bys_catenary_grounded(bys_catenary *out, double *grounded, double dx, double dz, double w,
                           double EA, double length);
/// Inextensible, tangent to the bed at its lower end: length S, reach x and end tension T
/// from horizontal force H and height y.
void bys_catenary_tangent(double *S, double *x, double *T, double H, double w, double y);

// ---- catenary_bed.c --------------------------------------------------------------------------

/// Loads of a line partly on the bed: N, and m.
typedef struct { double H, V, Ta, grounded; } bys_bed_line;
/// False where none of it lies on the bed, or it lies there slack.
bool bys_catenary_bed_friction(bys_bed_line *out, double length, double w, double EA, double dx,
                               double dz, double mu);
/// Taut parabola, first order: S + q^2 S^3/(24 H^2) = L0 (1 + H/EA). Returns H.
double bys_parabola_tension(double q, double span, double EA, double length);

// ---- anchors: deadweight.c drag_anchor.c screw.c chain_bed.c ---------------------------------

/// Deadweight on a plane bed. Forces are those of the leg ON the anchor, already factored as the
/// caller wants: horizontal h along azimuth-free direction, vertical v upwards. All N.
/// slope: steepest bed angle (rad); pull_downslope: cosine of the angle in plan between the pull
/// and the downslope direction. weight: submerged, as credited (the caller applies 0.9).
/// resistance = friction * normal force; driving = force along the bed, the weight's included.
typedef struct { double driving, resistance, normal; bool lifted; } bys_deadweight;
bys_deadweight bys_deadweight_hold(double h, double v, double weight, double friction,
                                   double slope, double pull_downslope);
/// Clay base: the lesser of friction and adhesion alpha*su*area replaces `resistance`.
double bys_deadweight_clay(double normal, double friction, double alpha, double su, double area);
/// Largest horizontal force (N) at uplift angle `angle` (rad) on a level bed.
double bys_deadweight_capacity(double weight, double friction, double angle);
/// Submerged weight (N) of `mass` kg of a solid of density `density`.
double bys_submerged_weight(double mass, double density, double rho_water);

/// Generic drag-anchor classes, described by shape (UFC 4-159-03 Tables 5-3/5-4).
typedef enum {
    BYS_DRAG_STOCKLESS,         ///< flukes free to swing, angle not stated (48 deg in sand)
    BYS_DRAG_STOCKLESS_35,      ///< stockless, flukes limited to about 35 deg in sand
    BYS_DRAG_STOCKLESS_FIXED,   ///< flukes fixed open for mud
    BYS_DRAG_HINGED_LIGHT,      ///< hinged lightweight twin-fluke with stock
    BYS_DRAG_HEAVY_HINGED_20,   ///< heavy hinged rig-mooring type, fluke at 20 deg
    BYS_DRAG_HEAVY_HINGED_28,
    BYS_DRAG_WIDE_HINGED,       ///< stockless-bar hinged wide fluke
    BYS_DRAG_FIXED_FLUKE,       ///< fixed-fluke high efficiency
    BYS_DRAG_CAST_CLAW,         ///< one-piece cast claw; sand: not without a test
    BYS_DRAG_WIDE_HINGED_SHARP, ///< the wide hinged, sharp and narrow
    BYS_DRAG_FIXED_HOOKED,      ///< fixed fluke, hooked version for mud
    BYS_DRAG_FIXED_SHARP,       ///< fixed fluke, sharpened for hard soil
    BYS_DRAG_LARGE_FLUKE,       ///< very large flukes for mud; sand: not used
    BYS_DRAG_STABILISED,        ///< stabilised high-efficiency twin fluke
    BYS_DRAG_CLASS_COUNT
} bys_drag_class;
typedef enum { BYS_BED_MUD, BYS_BED_SAND } bys_drag_bed;
const char *bys_drag_class_name(bys_drag_class c);   ///< spelling used in the site file
/// H = H_R (m/4536 kg)^b in N. below_range: mass outside 100 kg to 20 t (extrapolated).
double bys_drag_anchor_capacity(bys_drag_class c, bys_drag_bed bed, double mass,
                                bool *out_of_range);
/// How deep its fluke tip digs, and how far it drags until it holds that much, in fluke lengths;
/// NAN where nothing is known.
double bys_drag_penetration(bys_drag_class c, bys_drag_bed bed);
double bys_drag_distance(bys_drag_class c, bys_drag_bed bed);
/// high efficiency classes take the larger factor of UFC 4-159-03 Table 3-7.
bool bys_drag_class_high_efficiency(bys_drag_class c);

/// Sliding coefficient of chain or wire rope on the bed (API RP 2SK, memory).
double bys_bed_friction(bool chain);

// ---- base_friction.c -------------------------------------------------------------------------

/// Friction of a block that was lowered onto the bed. base: "concrete" or "steel"; soil as the site
/// file names it. NAN: no row for that soil.
double bys_base_friction(const char *base, const char *soil);

// ---- strength.c: lines by open standards -----------------------------------------------------

/// Stud-link chain ISO 1704 / IACS UR A1: break and proof load (N) by grade 1..3, d in m; kg/m.
double bys_chain_stud_break(int grade, double d);
double bys_chain_stud_proof(int grade, double d);
double bys_chain_stud_mass(double d);
/// Short/long link: break = (pi/2) d^2 * mean stress (Pa).
double bys_chain_link_break(double d, double stress);
/// Offshore chain of grade 3 (R3), 35 (R3S), 4 (R4): break and proof load (N); kg/m.
double bys_chain_offshore_break(int grade, double d);
double bys_chain_offshore_proof(int grade, double d, bool stud);
double bys_chain_studless_mass(double d);

// ---- line_wear.c: what is left of a line's strength ------------------------------------------

/// Share left at a knot or splice by name; knot: whether it is one. NAN: not known.
double bys_ends_share(const char *name, bool *knot);
/// Share left of a bar of diameter d (m) that is `now` thick and loses `rate` m a year.
double bys_bar_share(double d, double now, double rate, double years);
/// Share left after `years` when `loss` of what is there is lost each year.
double bys_aged_share(double loss, double years);
typedef enum { BYS_CHAIN_GOOD, BYS_CHAIN_FAIR, BYS_CHAIN_POOR } bys_chain_state;
/// From measured over original diameter.
bys_chain_state bys_chain_wear_state(double share);

#endif
