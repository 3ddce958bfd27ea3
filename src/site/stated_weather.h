// SPDX-License-Identifier: GPL-3.0-or-later
// Currents, wind, waves and cases as the user stated them; part of the Site.
#ifndef BYS_STATED_WEATHER_H
#define BYS_STATED_WEATHER_H

#include "site/item.h"

#include <stdbool.h>
#include <stddef.h>

typedef enum { BYS_AT_SURFACE, BYS_AT_MEAN, BYS_AT_DEPTH } bys_speed_at;
typedef enum { BYS_PROFILE_POWER, BYS_PROFILE_LOG, BYS_PROFILE_TABLE } bys_profile_kind;
typedef struct {
    bys_item item;
    double years;         ///< return period
    double speed;         ///< m/s; the factor below is in it
    bys_speed_at at;
    double at_depth;      ///< m below the surface, BYS_AT_DEPTH only
    double exponent;      ///< of the power profile; 1/7
    double towards;       ///< rad; NAN = omnidirectional
    double sector;        ///< rad, half width in which it holds; and its reverse if `reverses`
    bool reverses;
    bys_profile_kind profile;
    double roughness;     ///< m, BYS_PROFILE_LOG; NAN = by the kind of bed
    int rough_bed;        ///< bys_rough_bed of phys/sea_loads.h; -1
    double *depths, *speeds; int layer_count; ///< BYS_PROFILE_TABLE: m below the surface, m/s
    const char *level;    ///< name of the level with which it comes; "" = any
    double record, factor; ///< yr, NAN = not from a short record; factor from it, 1
    bool shields;         ///< lines and rafts shelter those behind them
    const char *because;  ///< of the factor or the shelter; ""
} bys_current;
typedef enum { BYS_WIND_DNV, BYS_WIND_ISO } bys_wind_law;
/// from NAN = any
typedef struct { bys_item item; double years, speed, averaging, from; bys_wind_law law; } bys_wind;
/// gamma NAN = by formula; spreading NAN = long crests
typedef struct { bys_item item; double years, hs, tp, gamma, from, spreading; } bys_waves;

/// Added to every current; towards NAN = along it.
typedef struct { bys_item item; double speed, towards; } bys_residual;
typedef struct { bys_item item; double share, depth; } bys_wind_drift;

enum { BYS_MOST_LAWS = 8 };
extern const char *const bys_growth_law_words[BYS_MOST_LAWS];
/// Waves raised by each wind. Fetches by direction (rad from, rising), or the shore as rings.
typedef struct {
    bys_item item;
    int laws[BYS_MOST_LAWS], law_count; ///< places in bys_growth_law_words
    double depth;         ///< m below chart datum; NAN = the site's
    double duration;      ///< s; NAN = long enough
    int rule;             ///< bys_fetch_rule
    double limit;         ///< m
    double spreading;     ///< NAN = long crests
    double *from, *length, *depths; int fetch_count; ///< rad, m, m (NAN = depth above)
    double (*shore)[2]; size_t *ring_end; int ring_count;
} bys_grown_waves;

/// A case of the user's own, and cases left out.
typedef struct {
    bys_item item;
    const char *because, *level;
    double current, towards; ///< m/s at the surface, rad; 0, NAN = none
    double wind, wind_from;  ///< m/s, rad
    double hs, tp, waves_from;
    bool demanded;
} bys_own_case;
typedef struct { const char *pattern, *because; bys_place place; } bys_drop;

#endif
