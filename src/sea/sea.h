// SPDX-License-Identifier: GPL-3.0-or-later
// One environment: water, current, wind and waves at one level, as the solver sees it.
#ifndef BYS_SEA_H
#define BYS_SEA_H

#include "site/site.h"

#define BYS_SIGMA_POINTS 129

struct bys_network;

/// Velocity of the current by height, as cubic pieces between knots; outside them the end value holds.
typedef struct {
    int count;      ///< knots
    const double *z; ///< m above the reference bed, rising
    const double (*piece)[2][4]; ///< count - 1 pieces: east and north, polynomial in (z - knot); the
                                 ///< numbers are shares of current_speed
    double below[2], above[2];   ///< held outside
} bys_sea_profile;

/// A side of a hull: mean drift of what it reflects over that of full reflection.
typedef struct { double draft, breadth, share; } bys_sea_hull; ///< m, m, 0 to 1

enum { BYS_SPREAD_TERMS = 8 };

/// Constant during a solve; shared by threads.
typedef struct {
    double rho, rho_air, gravity;
    double level;            ///< m above chart datum: z of the still-water surface; +INFINITY: all in
                             ///< water without surface, -INFINITY: all in air
    double depth;            ///< m, reference water depth below that surface, for the profiles
    double current[2];       ///< unit vector, towards (east, north)
    double current_speed;    ///< m/s at the surface; with a profile the largest over the depth
    double current_exponent; ///< power profile; 0 = uniform
    const bys_sea_profile *profile; ///< NULL: power profile along `current`
    const double *shade;     ///< factors on the current by shelter number - 1; NULL: no shelter
    int shade_count;
    double wind[2];          ///< unit vector, towards
    double wind_speed;       ///< m/s, 10 m height, averaging time wanted for static loads
    double wind_hourly;      ///< m/s, 1-h mean at 10 m: height law of ISO 19901-1; 0: that of DNV-RP-C205
    double wind_averaging;   ///< s, of wind_speed, for the height law of ISO 19901-1
    double hs, tp, gamma;    ///< waves; hs 0 = none
    double waves[2];         ///< unit vector, towards
    double sigma[BYS_SIGMA_POINTS]; ///< m/s, standard deviation of orbital velocity, bed to surface
    double reflection;       ///< N/m, mean drift of full reflection per metre of raft side
    const bys_sea_hull *hulls; int hull_count; ///< sides that are known to reflect less
    double splash;           ///< N/m, mean force in the splash zone per metre of Cd times width
    double spreading;        ///< exponent n of cos^n about `waves`; 0 = long crests
    double spread[BYS_SPREAD_TERMS]; ///< means of cos k a over it, k = 1, 3, 5 ...
    bool storm;              ///< ropes that state a storm law stretch by it
    const struct bys_train *train; ///< a regular wave frozen at one phase (train.c); NULL: none
    double train_share;      ///< of its height, while the weather is raised in steps; else 1
    bool here;               ///< level, depth and current are those at one place of the train
    double at[2];            ///< m, that place
    double stream[2];        ///< then: unit vector of the current alone
    bool has_bed;
    double bed_point[3];     ///< m, a point of the bed plane
    double bed_normal[3];    ///< unit, upwards
    const bys_bed_map *map;  ///< uneven bed in place of the plane; NULL = the plane
} bys_sea;

/// A regular wave of linear theory, frozen at one phase.
typedef struct bys_train {
    double height, period;   ///< m, s
    double k, omega;         ///< 1/m, rad/s
    double phase;            ///< rad: omega t
    double way[2];           ///< unit vector, towards
    double level, depth;     ///< m, of still water
} bys_train;
/// The wave over a depth at a level.
bys_train bys_train_make(double height, double period, const double way[2], double level,
                         double depth);
/// Surface above still water (m) at a place.
double bys_train_surface(const bys_train *train, double x, double y);
/// Orbital velocity (m/s) and acceleration (m/s2), east, north, up; held above still water.
void bys_train_motion(double v[3], double a[3], const bys_train *train, double x, double y,
                      double z);
/// The same of the sea's train, by its share.
double bys_sea_rise(const bys_sea *sea, double x, double y);
void bys_sea_motion(double v[3], double a[3], const bys_sea *sea, double x, double y, double z);
/// The sea as it is around a place: surface of the train there, current to that surface, direction
/// of the flow at height z. The same sea where there is no train.
bys_sea bys_sea_here(const bys_sea *sea, double x, double y, double z);
/// The environment with that wave in place of its sea state: no drift, no mean over waves.
bys_sea bys_sea_in_train(const bys_sea *sea, const bys_train *train);

/// Still water without surface, current or bed; air density 1.226.
bys_sea bys_sea_still(double rho);
/// Fills sigma and reflection from hs, tp, gamma and depth.
void bys_sea_prepare(bys_sea *sea);
/// Share of full reflection's drift on a side of this draft and breadth (m): 1 where not known.
double bys_sea_reflected(const bys_sea *sea, double draft, double breadth);
/// Mean of c|c| over the spreading, c the cosine between waves and normal whose value for their mean
/// direction is s; and d/ds. Long crests: s|s|.
double bys_sea_facing(const bys_sea *sea, double s, double *d_ds);
/// Current speed (m/s) at height z, and d/dz.
double bys_sea_speed(const bys_sea *sea, double z, double *d_dz);

/// What a current is made of; all velocities east and north, m/s, at the surface.
typedef struct {
    bys_profile_kind kind;
    double exponent;         ///< power
    double roughness;        ///< m, log
    const double *depths, *speeds; ///< table: m below the surface, any speeds in proportion
    int points;
    double tide[2];          ///< by that profile; a table counts relative to its value at depth 0
    double wind[2];          ///< wind-driven
    double wind_depth;       ///< m, where the wind-driven part ends
} bys_current_parts;
/// Velocity at height h above the bed in water of depth d, exact, and d/dh (may be NULL).
void bys_current_parts_at(double v[2], double dv[2], const bys_current_parts *parts, double h,
                          double d);
/// Tables it, within 1e-6 of the surface value, into memory of `arena`, and sets the sea's current,
/// speed and profile. The sea has a level and a depth. False when out of memory.
bool bys_sea_set_current(bys_sea *sea, const bys_current_parts *parts, bys_arena *arena);

/// Current at a height: speed U (m/s) along the unit vector c, both with their change over z (1/s, 1/m).
typedef struct { double U, dU, c[2], dc[2]; } bys_flow;
/// shelter: number of the thing that the current meets, 0 = in the open.
bys_flow bys_sea_flow(const bys_sea *sea, double z, int shelter);

/// Mean of |w| w over the waves, w = current + orbital velocity of an upright member at rest:
/// sum of size[k] along the fixed unit vectors way[k], k < count, with d/dz. m2/s2.
typedef struct {
    int count;
    double size[2], slope[2], way[2][2];
    double still[2]; ///< east and north, what the current alone gives; the rest is viscous wave drift
} bys_sea_square;
bys_sea_square bys_sea_square_at(const bys_sea *sea, double z, int shelter);
/// Factor (0 to 1) on the current of a sheltered thing.
double bys_sea_shelter(const bys_sea *sea, int shelter);
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
/// Unit normal of the bed under (x, y), upwards.
void bys_sea_bed_normal(double n[3], const bys_sea *sea, double x, double y);
/// Its derivatives: turn[3 i + j] = d n_i / d x_j (1/m). False, and untouched, on a plane.
bool bys_sea_bed_turn(double turn[9], const bys_sea *sea, double x, double y);
/// Lays the site's bed under the sea.
void bys_sea_lay_bed(bys_sea *sea, const bys_site *site);

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
    double gust;         ///< s, averaging time of its wind
    int law;             ///< place in bys_growth_law_words of the law that raised its waves, -1 = none
    double fetch;        ///< m, that it had; NAN
    bool broke;          ///< the height was cut to the greatest before breaking
    bool shields;        ///< its current is stated with shelter
    const char *because; ///< reason of a case of the user's own; ""
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
/// Takes out the environments that are dropped at all stages; a drop that fits nothing is a fault.
void bys_environments_drop(bys_environments *list, const bys_site *site, bys_messages *messages);
/// Fills the sheltered shares of the current in every environment that states shelter; nets: the
/// networks of all stages that will be solved.
bool bys_environments_shelter(bys_environments *list, struct bys_network *const *nets, int count);
/// Which <drop> of the site leaves this case out; -1 = none. stage may be NULL.
int bys_case_dropped(const bys_site *site, const char *environment, const char *stage);
/// Adds the environments that ropes with a law for storms ask for. False when out of memory.
bool bys_environments_ropes(bys_environments *list, const bys_site *site);

#endif
