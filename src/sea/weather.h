// SPDX-License-Identifier: GPL-3.0-or-later
// Which stated weather acts in a combination of the rules. Private to src/sea.
#ifndef BYS_WEATHER_H
#define BYS_WEATHER_H

#include "sea/sea.h"

/// Return periods that stand for one combination; NAN = none of that kind acts.
typedef struct { double current, wind, waves; } bys_return;

/// Finds them; what is missing is said in messages. rarest: take the rarest of each kind instead
/// of what the combination asks for.
bys_return bys_return_choose(const bys_site *site, const bys_combination *combination,
                             bool rarest, bys_messages *messages);

/// One way in which wind and waves can stand together; NULL = none. law: place in
/// bys_growth_law_words of the law by which the wind raises the waves, -1 = none.
typedef struct { const bys_wind *wind; const bys_waves *waves; int law; } bys_weather;

/// Fills `out` (room by bys_weather_room) and returns the number, at least 1.
int bys_weather_pairs(bys_weather *out, const bys_site *site, const bys_return *years);
/// Most that bys_weather_pairs can return.
int bys_weather_room(const bys_site *site);

/// Does it hold towards that direction?
bool bys_current_holds(const bys_current *current, double towards);
/// Are two return periods the same?
bool bys_same_years(double a, double b);
/// The fastest current of that return period that comes with the level (its name) and holds towards
/// `towards` (rad), as its speed at the surface in water of `depth` m (INFINITY: no profile); 0 and NULL
/// if none holds.
double bys_current_towards(const bys_site *site, double years, double towards, double depth,
                           const char *level, const bys_current **which);
/// Puts that current into the sea, with residual and wind-driven current; wind: the wind that drives
/// it, NULL = none; sea->wind: its direction. False when out of memory.
bool bys_current_put(bys_sea *sea, const bys_site *site, const bys_current *current, double speed,
                     double towards, const bys_wind *wind, bys_arena *arena);

/// Same water, bed and weather; a direction counts only where something flows.
bool bys_sea_same(const bys_sea *a, const bys_sea *b);

/// Difference of two directions, -pi < d <= pi.
double bys_turn_between(double from, double to);

/// Mean over `averaging` s at 10 m by the wind's own law.
double bys_wind_mean(const bys_wind *wind, double averaging);

/// Waves that a wind raises by one law (place in bys_growth_law_words).
typedef struct { double hs, tp, fetch, depth; bool short_blow; } bys_grown_sea;
bys_grown_sea bys_waves_grow(const bys_site *site, int law, const bys_wind *wind, double from,
                             const double place[2], const bys_sea *sea);

#endif
