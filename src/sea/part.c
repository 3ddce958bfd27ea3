// SPDX-License-Identifier: GPL-3.0-or-later
// One environment with some of its loads left out, for the load account.
//
// GIVEN     sea      the environment                    see sea.h
//           loads    which of its loads stay: a sum of BYS_SEA_CURRENT, _WIND, _ORBITAL, _REFLECTION
// RETURNED  the environment with the others at rest; water level, density and bed stay.
// NOTES     1. Orbital motion and reflection come from the same waves and can be told apart here.
//           2. What a load law makes of two of them together (drag in current and waves) is not the
//              sum of what it makes of each: the account takes the current first.
// SOURCE    derived.
#include "sea/sea.h"

bys_sea bys_sea_only(const bys_sea *sea, unsigned loads)
{
    bys_sea part = *sea;
    if (!(loads & BYS_SEA_CURRENT))
        part.current_speed = 0.0;
    if (!(loads & BYS_SEA_WIND))
        part.wind_speed = 0.0;
    if (!(loads & BYS_SEA_ORBITAL)) {
        part.hs = part.splash = 0.0;
        for (int i = 0; i < BYS_SIGMA_POINTS; i++)
            part.sigma[i] = 0.0;
    }
    if (!(loads & BYS_SEA_REFLECTION))
        part.reflection = 0.0;
    return part;
}
