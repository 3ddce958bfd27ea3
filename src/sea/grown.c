// SPDX-License-Identifier: GPL-3.0-or-later
// Waves raised by a wind over the fetch of its direction, by one law; mean of a wind.
//
// GIVEN     stated fetches by direction or a shore, depth along them (m below chart datum), duration
//           (s), a wind, the direction from which it blows (rad from north)
// RETURNED  hs (m) and tp (s) of that law, the fetch (m) and depth (m) used.
// NOTES     1. The wind is its 1-h mean at 10 m over the water; fetch laws ask for a mean over about the
//              time that the sea needs.
//           2. Fetches between two stated directions by straight line, round the compass; one fetch
//              alone holds for all directions.
//           3. A duration limits the fetch by the relation of the CEM, for all laws.
//           4. Depth: stated along the fetch, plus the level; else that of the site.
// SOURCE    laws and shore: src/phys/fetch.c, fetch_shore.c; wind laws: wind.c, wind_profiles.c;
//           interpolation: derived.
#include "phys/phys.h"
#include "phys/sea_loads.h"
#include "sea/weather.h"

#include <math.h>

double bys_wind_mean(const bys_wind *wind, double averaging)
{
    const double stated = wind->averaging > 0.0 ? wind->averaging : 600.0;
    if (wind->law == BYS_WIND_ISO)
        return bys_wind_npd(bys_wind_npd_hourly(wind->speed, stated), 10.0, averaging);
    return wind->speed * bys_wind_dnv(1.0, 10.0, averaging) / bys_wind_dnv(1.0, 10.0, stated);
}

/// Value between the rows at directions at[], rising, round the compass.
static double between(const double *at, const double *value, int n, double from)
{
    const double whole = 2.0 * BYS_PI;
    double a = fmod(from, whole);
    a += a < 0.0 ? whole : 0.0;
    int next = 0;
    while (next < n && at[next] <= a)
        next++;
    const int low = next > 0 ? next - 1 : n - 1, high = next < n ? next : 0;
    if (low == high)
        return value[low];
    const double gap = fmod(at[high] - at[low] + whole, whole);
    const double way = fmod(a - at[low] + whole, whole);
    return value[low] + (value[high] - value[low]) * way / gap;
}

static double fetch_from(const bys_grown_waves *g, double from, const double place[2])
{
    if (g->fetch_count > 0)
        return between(g->from, g->length, g->fetch_count, from);
    return bys_fetch_effective((bys_fetch_rule)g->rule, (const double(*)[2])g->shore, g->ring_end,
                               (size_t)g->ring_count, place[0], place[1], sin(from), cos(from),
                               g->limit);
}

static double depth_from(const bys_grown_waves *g, double from, const bys_sea *sea)
{
    const double along =
        g->fetch_count > 0 ? between(g->from, g->depths, g->fetch_count, from) : NAN;
    const double stated = isnan(along) ? g->depth : along;
    return isnan(stated) ? sea->depth : stated + sea->level;
}

static bys_fetch_law law_of(int word)
{
    static const bys_fetch_law laws[BYS_MOST_LAWS] = {
        BYS_FETCH_CEM_651, BYS_FETCH_CEM_751,    BYS_FETCH_SPM84_SHALLOW, BYS_FETCH_YOUNG_VERHAGEN,
        BYS_FETCH_JONSWAP, BYS_FETCH_SPM84_DEEP, BYS_FETCH_WILSON,        BYS_FETCH_KAHMA_CALKOEN,
    };
    return laws[word];
}

bys_grown_sea bys_waves_grow(const bys_site *site, int law, const bys_wind *wind, double from,
                             const double place[2], const bys_sea *sea)
{
    const bys_grown_waves *g = &site->grown;
    const double u = bys_wind_mean(wind, 3600.0);
    bys_grown_sea out = {.fetch = fetch_from(g, from, place), .depth = depth_from(g, from, sea)};
    if (!isnan(g->duration) && u > 0.0) {
        const double reach = bys_fetch_of_duration_cem(u, g->duration);
        out.short_blow = reach < out.fetch;
        out.fetch = fmin(out.fetch, reach);
    }
    const bys_wind_sea waves = bys_fetch_grow(law_of(law), u, out.fetch, out.depth);
    out.hs = waves.hs, out.tp = waves.tp;
    return out;
}
