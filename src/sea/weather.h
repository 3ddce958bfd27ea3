// SPDX-License-Identifier: GPL-3.0-or-later
// Which stated weather acts in a combination of the rules. Private to src/sea.
#ifndef BYS_WEATHER_H
#define BYS_WEATHER_H

#include "site/site.h"

/// Return periods that stand for one combination; NAN = none of that kind acts.
typedef struct { double current, wind, waves; } bys_return;

/// Finds them; what is missing is said in messages. rarest: take the rarest of each kind instead
/// of what the combination asks for.
bys_return bys_return_choose(const bys_site *site, const bys_combination *combination,
                             bool rarest, bys_messages *messages);

/// One way in which wind and waves can stand together; NULL = none.
typedef struct { const bys_wind *wind; const bys_waves *waves; } bys_weather;

/// Fills `out` (room for winds x waves + 1) and returns the number, at least 1.
int bys_weather_pairs(bys_weather *out, const bys_site *site, const bys_return *years);
/// Most that bys_weather_pairs can return.
int bys_weather_room(const bys_site *site);

/// The fastest current of that return period that holds towards `towards` (rad), as its speed at
/// the surface in water of `depth` m (INFINITY: no profile); 0 if none holds.
double bys_current_towards(const bys_site *site, double years, double towards, double depth,
                           const bys_current **which);

/// Difference of two directions, -pi < d <= pi.
double bys_turn_between(double from, double to);

/// 10-min mean and 1-min mean at 10 m from a mean over `averaging` s (DNV profile, see wind.c).
double bys_wind_one_minute(double speed, double averaging);

#endif
