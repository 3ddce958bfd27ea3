// SPDX-License-Identifier: GPL-3.0-or-later
// The drag of one piece of gear by any law, as the coefficient that a square law would need.
#ifndef BYS_PHYS_DRAG_LAW_H
#define BYS_PHYS_DRAG_LAW_H

/// Kinematic viscosity of sea water at 10 to 15 deg C, m2/s.
#define BYS_NU 1.19e-6

/// Mean of |U+u|^(p-1) (U+u) for Gaussian u of standard deviation s: (m/s)^p, and its derivatives
/// (any may be NULL). p from 1.1 to 2.
double bys_power_mean(double p, double U, double s, double *d_dU, double *d_ds);

typedef enum {
    BYS_DRAG_OUTLINE,         ///< cd on the outline, from any side
    BYS_DRAG_PANEL,           ///< cd on the face square to the flow, edge on it with the flow along
    BYS_DRAG_NET,             ///< net panel: the larger of the next two
    BYS_DRAG_NET_LOLAND,
    BYS_DRAG_NET_KRISTIANSEN,
    BYS_DRAG_WEED             ///< cd at speed0; the drag goes as the speed to the power
} bys_drag_kind;
typedef struct {
    bys_drag_kind kind;
    double cd, edge;          ///< -
    double solidity, twine;   ///< -, m: nets
    double speed0, power;     ///< m/s, -: weed
} bys_drag_law;

/// Along the flow and across it, towards the normal's side; with derivatives over U and s (s/m).
typedef struct { double cd, cl, cd_dU, cd_ds, cl_dU, cl_ds; } bys_drag_now;

/// Coefficients on the gross face that times 0.5 rho A <(U+u)|U+u|> give the mean force. cosine and
/// sine (both >= 0): of the angle between the flow and the normal of the face; read by panels, nets.
bys_drag_now bys_drag_at(const bys_drag_law *law, double cosine, double sine, double U, double s);

/// Share of its drag that a file of pieces keeps which saves `relief` with the flow along it; cosine
/// (>= 0) between flow and file: all of the relief within 10 deg of it, none from 30 deg on.
double bys_file_share(double relief, double cosine);
/// 1 down to 0 as the last tenth of a float goes under: what is left of its wave making; and its
/// derivative over the submerged share of its height (may be NULL).
double bys_wave_fade(double submerged, double *d);

#endif
