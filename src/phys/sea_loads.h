// SPDX-License-Identifier: GPL-3.0-or-later
// The sea's loads as pure functions of plain numbers, SI: wind sea from fetch, fixed rectangle,
// drag of nets, kelp, lanterns, bodies and hulls, shielding, profiles of current and wind.
// The file that defines a function states its source, range, accuracy and what it leaves out.
#ifndef BYS_PHYS_SEA_LOADS_H
#define BYS_PHYS_SEA_LOADS_H

#include <stdbool.h>
#include <stddef.h>

// ---- fetch.c: wind sea of limited fetch and depth --------------------------------------------

typedef enum {
    BYS_FETCH_CEM_651,        ///< CEM II-2-36, period constant 0.651
    BYS_FETCH_CEM_751,        ///< the same, period constant 0.751
    BYS_FETCH_SPM84_DEEP,     ///< SPM 1984, deep water
    BYS_FETCH_SPM84_SHALLOW,  ///< SPM 1984, water of one depth
    BYS_FETCH_YOUNG_VERHAGEN, ///< Young and Verhagen 1996
    BYS_FETCH_JONSWAP,        ///< Hasselmann et al. 1973
    BYS_FETCH_WILSON,         ///< Wilson 1965
    BYS_FETCH_KAHMA_CALKOEN,  ///< Kahma and Calkoen 1992
    BYS_FETCH_LAW_COUNT
} bys_fetch_law;

/// One law's answer. developed: a longer fetch would not raise it. capped: the depth cut the height
/// or the period that the law itself gave.
typedef struct { double hs, tp; bool developed, capped; } bys_wind_sea;

const char *bys_fetch_law_name(bys_fetch_law law);
/// hs (m), tp (s) from the wind at 10 m (m/s), the fetch (m) and the depth (m). Zero where any of
/// the three is not positive.
bys_wind_sea bys_fetch_grow(bys_fetch_law law, double u10, double fetch, double depth);
/// Fetch (m) that a wind of duration t (s) can use; time (s) to use all of a fetch.
double bys_fetch_of_duration_cem(double u10, double t);
double bys_fetch_time_cem(double u10, double fetch);
double bys_fetch_of_duration_spm84(double u10, double t);
/// Fully developed sea in a depth: CEM cap on the height 0.6 d, on the period 9.78 sqrt(d/g).
double bys_fetch_height_cap(double depth);
double bys_fetch_period_cap(double depth);

/// Distance (m) from (x, y) along (dx, dy) to the nearest shore; `limit` where no shore lies within
/// it. shore: closed rings one after another; ring_end[r] = index after ring r's last corner.
double bys_fetch_ray(const double (*shore)[2], const size_t *ring_end, size_t rings, double x,
                     double y, double dx, double dy, double limit);
typedef enum { BYS_FETCH_STRAIGHT, BYS_FETCH_SAVILLE, BYS_FETCH_SPM_RADIALS } bys_fetch_rule;
/// Effective fetch (m) for wind FROM the direction (dx, dy).
double bys_fetch_effective(bys_fetch_rule rule, const double (*shore)[2], const size_t *ring_end,
                           size_t rings, double x, double y, double dx, double dy, double limit);
/// Saville's mean of n radials a step (rad) apart, the middle one along the wind.
double bys_fetch_saville(const double *radial, size_t n, double step);
double bys_fetch_mean(const double *radial, size_t n);

// ---- wave_stats.c: heights, spreading, drift of the water ------------------------------------

double bys_jonswap_t1_over_tp(double gamma);
/// Most probable and mean largest of n Rayleigh heights over hs; the height exceeded once in n by
/// Forristall's distribution over hs.
double bys_wave_max_rayleigh(double n);
double bys_wave_max_rayleigh_mean(double n);
double bys_wave_max_forristall(double n);
/// Greatest hs (m) of a wind sea of mean period tz in deep water, steepness s.
double bys_wave_steepness_height(double tz, double steepness);
/// Mean of cos^2 over a cos^n spreading about the normal: (n + 1)/(n + 2).
double bys_wave_spreading_cos2(double n);
double bys_wave_height_solitary(double depth);
/// Stokes drift (m/s) at height h above the bed, one regular wave of amplitude a.
double bys_stokes_drift(double a, double omega, double h, double depth);

// ---- rectangle.c, rectangle_table.c: waves and a long fixed hull -----------------------------

/// Exact amplitude ratios |R| (returned) and |T| (may be NULL). modes: 0 for the usual number.
/// NaN where the draft is not inside the depth or a number is not positive.
double bys_rectangle_solve(double *T, double omega, double depth, double draft, double breadth,
                           int modes);

enum { BYS_RECTANGLE_NODES = 97 };
/// R^2 of one hull against sqrt(omega/omega_max), with second derivatives of its cubic spline.
typedef struct {
    double depth, draft, breadth, omega_max;
    double r2[BYS_RECTANGLE_NODES], bend[BYS_RECTANGLE_NODES];
} bys_rectangle;
/// Returns false, and an empty table that reflects all, where the hull cannot be solved.
bool bys_rectangle_set(bys_rectangle *out, double depth, double draft, double breadth);
double bys_rectangle_r2(const bys_rectangle *hull, double omega);
/// Mean drift (N/m) along the normal of the long side; angle (rad) between normal and waves.
double bys_rectangle_drift(const bys_rectangle *hull, double rho, double hs, double tp,
                           double gamma, double angle);
double bys_rectangle_drift_regular(const bys_rectangle *hull, double rho, double a, double omega,
                                   double angle);
/// The simple transmission formulas, to compare: amplitude ratio T.
double bys_transmission_macagno(double k, double depth, double draft, double breadth);
double bys_transmission_wiegel(double k, double depth, double draft);
double bys_transmission_ursell(double k, double draft);
/// |T| of a box in waves much longer than it.
double bys_transmission_long_wave(double k, double depth, double draft, double breadth);

// ---- viscous.c: current and Gaussian waves at an angle ---------------------------------------

/// Mean of |w| w, w = (along + u, across), u Gaussian with standard deviation s.
/// f: along and across, m2/s2. slope[i][j] = d f[i] / d (along, across, s).
typedef struct { double f[2], slope[2][3]; } bys_viscous;
bys_viscous bys_viscous_mean(double along, double across, double s);

// ---- nets.c ----------------------------------------------------------------------------------

/// Coefficients on the panel's area; in_range: inside the range that the source gives.
typedef struct { double cd, cl; bool in_range; } bys_net_coeff;
/// solidity (-), theta (rad) between the flow and the panel's normal.
bys_net_coeff bys_net_aarsnes(double solidity, double theta);
bys_net_coeff bys_net_loland(double solidity, double theta);
/// Twine diameter d, bar length l (m), square to the flow.
bys_net_coeff bys_net_milne(double d, double l, bool knotted);
bys_net_coeff bys_net_kristiansen(double solidity, double u, double d, double nu, double theta);
/// Drag coefficient of a smooth twine at Reynolds number re, as used by the last law.
double bys_net_twine_cd(double re);
/// The larger drag (with its lift) of Loland and Kristiansen; the other where one is out of range.
bys_net_coeff bys_net_design(double solidity, double u, double d, double nu, double theta);
/// Speed behind a net over the speed before it: 1 - 0.46 cd, not below 0.
double bys_net_wake(double cd);

// ---- kelp.c ----------------------------------------------------------------------------------

/// Drag (N) that follows U^1.5, from a known drag at a known speed, and dF/dU.
double bys_kelp_drag(double drag_at, double speed_at, double u, double *d_du);
double bys_kelp_cd(double re, bool *in_range);
double bys_kelp_blade_cd(double u, bool *in_range);

// ---- lantern.c -------------------------------------------------------------------------------

/// Lantern net by the mass (kg) of its sinker.
double bys_lantern_cd(double sinker, bool *in_range);
/// Panel or tray: face of width x height (m), turned by theta (rad) from square to the flow.
/// Returns CdA (m2).
double bys_panel_cda(double width, double height, double cd_face, double cd_edge, double theta);
double bys_plate_cd(double length_over_breadth);
/// Perforated box (basket, tray stack) on its outline.
double bys_basket_cd(double solidity, bool *in_range);

// ---- bodies.c: cylinders, spheres, floats ----------------------------------------------------

double bys_cylinder_cd(double re, double roughness);
double bys_sphere_cd(double re, bool rough);
/// Normal and axial coefficient on the nominal diameter, 0.5 rho C d U^2 per metre both.
typedef enum {
    BYS_LINE_STUD_CHAIN, BYS_LINE_STUDLESS_CHAIN, BYS_LINE_WIRE_STRAND, BYS_LINE_WIRE_SPIRAL,
    BYS_LINE_WIRE_SHEATHED, BYS_LINE_FIBRE, BYS_LINE_KIND_COUNT
} bys_line_kind;
void bys_line_cd(bys_line_kind kind, double *normal, double *axial);
/// Added to the coefficient of a float that pierces the surface, by U/sqrt(g D).
double bys_float_wave_making(double froude);
/// CdA (m2) of a barrel on its side, `wetted` m of its diameter below water.
double bys_barrel_cda(double diameter, double length, double wetted, double speed, bool end_on);

// ---- hulls.c ---------------------------------------------------------------------------------

double bys_ittc57(double re);
/// Friction (N) along a hull: factor 1 clean, 3 to 5 fouled.
double bys_hull_friction(double rho, double nu, double u, double length, double wetted_area,
                         double factor);
typedef enum {
    BYS_HULL_SIDE, BYS_HULL_SQUARE_END, BYS_HULL_RAKED_END, BYS_HULL_FACE_COUNT
} bys_hull_face;
/// Range of the coefficient on the wetted transverse area, without the bed's effect.
void bys_hull_cd(bys_hull_face face, double *low, double *high);
/// Factor of the bed on the side-on coefficient by draft over depth.
double bys_hull_bed_factor(double draft_over_depth);
/// Factor on pontoon number `index` (0 first) of a row, clear gap over width.
double bys_pontoon_row(size_t index, double gap_over_width);

// ---- shielding.c -----------------------------------------------------------------------------

/// Porous screens in a row: K of `lines` lines, cd_row = Cd D/s each.
double bys_screen_row(double cd, double diameter, double spacing);
double bys_screen_speed(double K);
double bys_screen_block_cd(double K);
/// Two-layer canopy: speeds over the free-stream speed in the canopy and below it.
typedef struct { double canopy, below; } bys_canopy;
bys_canopy bys_canopy_speed(double kd, double canopy_over_depth, double bed_cd,
                            double interface_cd);
/// kd = 0.5 Cd a h; a = frontal area per volume of canopy.
double bys_canopy_kd(double cd, double frontal_per_volume, double depth);
/// Least shielding of the two models, 1 on the up-current line.
double bys_block_speed(size_t lines_before, double cd_row, bys_canopy canopy);
/// Speed deficit over the speed before a cylinder, x m behind and y m beside its axis (Huse 1993).
double bys_huse_deficit(double x, double y, double cd, double diameter);
/// Speeds over the free speed at n cylinders in one file, deficits by root sum square.
void bys_huse_file(double *speed, size_t n, double cd, double diameter, double spacing);
/// Mean force factor of n droppers in one file, never below 0.5; raw (may be NULL) without bound.
double bys_dropper_row(double *raw, size_t n, double cd, double diameter, double spacing);

// ---- current_profiles.c ----------------------------------------------------------------------

typedef enum {
    BYS_ROUGH_MUD, BYS_ROUGH_SILT_SAND, BYS_ROUGH_SAND, BYS_ROUGH_RIPPLED_SAND, BYS_ROUGH_GRAVEL,
    BYS_ROUGH_COUNT
} bys_rough_bed;
double bys_bed_roughness(bys_rough_bed bed);
/// Factors on the depth mean at height h above the bed; d_dh (1/m) may be NULL.
double bys_current_log(double h, double d, double z0, double *d_dh);
double bys_current_soulsby(double h, double d, double *d_dh);
/// Speed (m/s) by straight lines between n points of rising depth below the surface, held beyond.
double bys_current_table(const double *depth, const double *speed, size_t n, double below,
                         double *d_dbelow);
/// Depth mean of the same, down to d.
double bys_current_table_mean(const double *depth, const double *speed, size_t n, double d);
/// Wind-driven surface speed (m/s) from the 1-h wind at 10 m: k = 0.015 to 0.03.
double bys_current_wind_surface(double u10_3600s, double k);
/// Tidal power profile plus wind-driven part as vectors (east, north) at z <= 0.
void bys_current_sum(double sum[2], const double tide[2], const double wind[2], double z, double d,
                     double exponent, double reference_depth);
/// Profile within a farm: canopy factor down to its depth, underflow factor below.
double bys_current_farm(bys_canopy farm, double canopy_depth, double below);

// ---- wind_profiles.c -------------------------------------------------------------------------

/// Roughness length (m) of the sea by Charnock's relation.
double bys_wind_charnock(double u10, double charnock);
double bys_wind_log(double u10, double z, double z0);
/// 1-h mean at 10 m from a mean over `averaging` s at 10 m, by the ISO law (inverse of bys_wind_npd).
double bys_wind_npd_hourly(double speed, double averaging);
double bys_wind_turbulence(double z, double z0);
/// Mean over `averaging` s at height z, by each law from one 1-h mean at 10 m. CEM and DNV have no
/// common height law: cem is at 10 m times the DNV height factor.
typedef struct { double dnv, npd, cem, low, high; } bys_wind_set;
bys_wind_set bys_wind_compare(double u10_3600s, double z, double averaging);
/// Shape coefficients of the exposed part.
typedef enum {
    BYS_SHAPE_SPHERE, BYS_SHAPE_CYLINDER_LARGE, BYS_SHAPE_CYLINDER_SMALL, BYS_SHAPE_HULL,
    BYS_SHAPE_DECKHOUSE, BYS_SHAPE_BEAM, BYS_SHAPE_ISOLATED, BYS_SHAPE_COUNT
} bys_wind_shape;
double bys_wind_shape_cs(bys_wind_shape shape);

#endif
