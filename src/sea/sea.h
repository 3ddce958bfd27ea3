// SPDX-License-Identifier: GPL-3.0-or-later
// One environment: water, current, wind and waves at one level, as the solver sees it.
#ifndef BYS_SEA_H
#define BYS_SEA_H

#include "site/site.h"

#define BYS_SIGMA_POINTS 129

/// Constant during a solve; shared by threads.
typedef struct {
    double rho, rho_air, gravity;
    double level;            ///< m above chart datum: z of the still-water surface; +INFINITY: all in
                             ///< water without surface, -INFINITY: all in air
    double depth;            ///< m, reference water depth below that surface, for the profiles
    double current[2];       ///< unit vector, towards (east, north)
    double current_speed;    ///< m/s at the surface
    double current_exponent; ///< power profile; 0 = uniform
    double wind[2];          ///< unit vector, towards
    double wind_speed;       ///< m/s, 10 m height, averaging time wanted for static loads
    double hs, tp, gamma;    ///< waves; hs 0 = none
    double waves[2];         ///< unit vector, towards
    double sigma[BYS_SIGMA_POINTS]; ///< m/s, standard deviation of orbital velocity, bed to surface
    double reflection;       ///< N/m, mean drift of full reflection per metre of raft side
    bool storm;              ///< ropes that state a storm law stretch by it
    bool has_bed;
    double bed_point[3];     ///< m, a point of the bed plane
    double bed_normal[3];    ///< unit, upwards
} bys_sea;

/// Still water without surface, current or bed; air density 1.226.
bys_sea bys_sea_still(double rho);
/// Fills sigma and reflection from hs, tp, gamma and depth.
void bys_sea_prepare(bys_sea *sea);
/// Current speed (m/s) along sea->current at height z, and d/dz.
double bys_sea_speed(const bys_sea *sea, double z, double *d_dz);
/// Orbital standard deviation (m/s) at z, and d/dz (cubic interpolation of the table).
double bys_sea_sigma(const bys_sea *sea, double z, double *d_dz);
/// Wind speed (m/s) at height z above chart datum: held at its value 1 m above the surface below that.
double bys_sea_wind_at(const bys_sea *sea, double z);
/// The same environment with only the loads named (part.c): what stays of it for the load account.
enum { BYS_SEA_CURRENT = 1, BYS_SEA_WIND = 2, BYS_SEA_ORBITAL = 4, BYS_SEA_REFLECTION = 8 };
bys_sea bys_sea_only(const bys_sea *sea, unsigned loads);
/// The sea with all its forces times `factor`: speeds and orbital velocities by its root, reflected
/// drift by itself. hs goes with the orbital velocities; the water level stays.
bys_sea bys_sea_scaled(const bys_sea *sea, double factor);
/// No current, wind or waves.
bool bys_sea_slack(const bys_sea *sea);
/// z of the bed under (x, y); -INFINITY without bed.
double bys_sea_bed_z(const bys_sea *sea, double x, double y);

// ---- cases -------------------------------------------------------------------------------------

/// One environment of the case list: direction x level x combination (x turn of wind and waves).
typedef struct {
    const char *id;      ///< stable text: "c:50y/045deg/HAT-and-surge" (see cases.c), no blanks
    bys_sea sea;
    int combination;     ///< index into rules.combinations
    int level;           ///< index into site->levels
    double towards;      ///< rad from north, direction of the current
    double turn;         ///< rad, wind and waves turned clockwise against the current
    bool demanded;
    bool soft_ropes;     ///< ropes with a storm law go by the one for steady loads
} bys_environment;

typedef struct {
    bys_arena *arena;
    bys_environment *items; int count;
} bys_environments;

/// Crosses directions, the lowest and highest level (all stated levels), the profile's combinations
/// and the turns of wind and waves; nothing twice.
bys_rc bys_environments_make(bys_environments *out, const bys_site *site, bys_messages *messages,
                             bys_error *err);
void bys_environments_free(bys_environments *list);
/// Adds the environments that ropes with a law for storms ask for. False when out of memory.
bool bys_environments_ropes(bys_environments *list, const bys_site *site);

#endif
