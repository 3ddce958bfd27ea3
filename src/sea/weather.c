// SPDX-License-Identifier: GPL-3.0-or-later
// Which stated weather acts in a combination of the rules.
//
// GIVEN     stated currents, winds and waves with their return periods (years), directions (rad
// from
//           north, current towards, wind and waves from), speeds (m/s), averaging times (s)
// RETURNED  the return period used of each kind, pairs of wind and waves, surface speed (m/s).
// NOTES     1. A return period that is not stated takes the next rarer one that is (a warning); if
//              all that is stated is more common, that is a fault. A kind that is not stated at all
//              does not act (a warning).
//           2. A current with a direction holds within its sector, and about the reverse direction
//              if it is declared to reverse.
//           3. Wind and waves with the same `from` belong together; one without a direction goes
//              with any.
//           4. Waves may be grown from the wind: then each growth law stands beside each wind.
// SOURCE    rules of the pairing: derived (own choice).
#include "sea/weather.h"
#include "base/codes.h"
#include "phys/phys.h"

#include <math.h>

static const double same_angle = 1e-9; // rad

enum { CURRENT, WIND, WAVES, KINDS };
static const char *const kind_names[KINDS] = {"current", "wind", "waves"};

static int stated_count(const bys_site *site, int kind)
{
    const int counts[KINDS] = {site->current_count, site->wind_count, site->wave_count};
    return counts[kind];
}

static double stated_years(const bys_site *site, int kind, int i)
{
    const double years = kind == CURRENT ? site->currents[i].years
                         : kind == WIND  ? site->winds[i].years
                                         : site->waves[i].years;
    return years > 0.0 ? years : 0.0;
}

static bys_place stated_place(const bys_site *site, int kind)
{
    return kind == CURRENT ? site->currents[0].item.place
           : kind == WIND  ? site->winds[0].item.place
                           : site->waves[0].item.place;
}

bool bys_same_years(double a, double b)
{
    return fabs(a - b) <= 1e-6 * fmax(fabs(a), 1.0);
}

// The least stated value that is not more common than `wanted`; NAN if there is none.
static double next_rarer(const bys_site *site, int kind, double wanted)
{
    double best = NAN;
    for (int i = 0; i < stated_count(site, kind); i++) {
        const double years = stated_years(site, kind, i);
        if ((years >= wanted || bys_same_years(years, wanted)) && !(years >= best))
            best = years;
    }
    return best;
}

static double rarest_stated(const bys_site *site, int kind)
{
    double best = NAN;
    for (int i = 0; i < stated_count(site, kind); i++)
        best = fmax(stated_years(site, kind, i), best);
    return best;
}

static double choose(const bys_site *site, int kind, double wanted, const char *combination,
                     bys_messages *messages)
{
    if (!(wanted > 0.0))
        return NAN;
    if (kind == WAVES && stated_count(site, kind) == 0 && site->has_grown)
        return NAN; // they come from the wind
    if (stated_count(site, kind) == 0) {
        bys_messages_add(messages, BYS_WARNING, BYS_M_weather_missing, (bys_place){0},
                         "%s: the rules ask for the %g yr %s, but none is stated: it does not act",
                         combination, wanted, kind_names[kind]);
        return NAN;
    }
    const double years = next_rarer(site, kind, wanted);
    if (!(years >= 0.0))
        bys_messages_add(
            messages, BYS_FAULT, BYS_M_return_too_common, stated_place(site, kind),
            "%s: the rules ask for the %g yr %s, but the rarest stated is %g yr: state "
            "a value for %g yr or rarer",
            combination, wanted, kind_names[kind], rarest_stated(site, kind), wanted);
    else if (!bys_same_years(years, wanted))
        bys_messages_add(messages, BYS_WARNING, BYS_M_return_missing, stated_place(site, kind),
                         "%s: the rules ask for the %g yr %s; it is not stated, the %g yr value is "
                         "used",
                         combination, wanted, kind_names[kind], years);
    return years;
}

bys_return bys_return_choose(const bys_site *site, const bys_combination *combination, bool rarest,
                             bys_messages *messages)
{
    if (rarest)
        return (bys_return){rarest_stated(site, CURRENT), rarest_stated(site, WIND),
                            rarest_stated(site, WAVES)};
    const char *id = combination->item.id;
    return (bys_return){choose(site, CURRENT, combination->current_years, id, messages),
                        choose(site, WIND, combination->wind_years, id, messages),
                        choose(site, WAVES, combination->wave_years, id, messages)};
}

double bys_turn_between(double from, double to)
{
    return remainder(to - from, 2.0 * BYS_PI);
}

static bool together(double wind_from, double waves_from)
{
    return isnan(wind_from) || isnan(waves_from) ||
           fabs(bys_turn_between(wind_from, waves_from)) < same_angle;
}

int bys_weather_room(const bys_site *site)
{
    return (site->wind_count + 1) * (site->wave_count + 1 + site->grown.law_count);
}

int bys_weather_pairs(bys_weather *out, const bys_site *site, const bys_return *years)
{
    int count = 0;
    for (int i = 0; i < site->wind_count; i++) {
        if (!bys_same_years(stated_years(site, WIND, i), years->wind))
            continue;
        const int before = count;
        for (int j = 0; j < site->wave_count; j++)
            if (bys_same_years(stated_years(site, WAVES, j), years->waves) &&
                together(site->winds[i].from, site->waves[j].from))
                out[count++] = (bys_weather){&site->winds[i], &site->waves[j], -1};
        for (int k = 0; site->has_grown && k < site->grown.law_count; k++)
            out[count++] = (bys_weather){&site->winds[i], NULL, site->grown.laws[k]};
        if (count == before)
            out[count++] = (bys_weather){&site->winds[i], NULL, -1};
    }
    for (int j = 0; j < site->wave_count; j++) {
        bool taken = !bys_same_years(stated_years(site, WAVES, j), years->waves);
        for (int k = 0; k < count && !taken; k++)
            taken = out[k].waves == &site->waves[j];
        if (!taken)
            out[count++] = (bys_weather){NULL, &site->waves[j], -1};
    }
    if (count == 0)
        out[count++] = (bys_weather){NULL, NULL, -1};
    return count;
}

bool bys_current_holds(const bys_current *current, double towards)
{
    if (isnan(current->towards))
        return true;
    const double sector = (current->sector > 0.0 ? current->sector : 0.0) + same_angle;
    if (fabs(bys_turn_between(current->towards, towards)) <= sector)
        return true;
    return current->reverses &&
           fabs(bys_turn_between(current->towards + BYS_PI, towards)) <= sector;
}

