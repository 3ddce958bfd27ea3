// SPDX-License-Identifier: GPL-3.0-or-later
// The list of environments of a site: combination x level x weather x turn x direction.
//
// GIVEN     a Site: directions, levels, weather, bed, combinations of the rules
// RETURNED  environments with their seas, each once, in that order; ids such as
//           "50y/045/HAT-and-surge/w000": combination, current towards (deg from north), level,
//           turn of wind and waves against the current (deg clockwise). "f225" in place of "w000"
//           means that wind and waves come from a stated direction. "slack/LAT" is still water at a
//           level.
// NOTES     1. Levels: the lowest and the highest stated, and those that a current names. Depth for the
//              profiles: from the level to the bed plane at the middle of the lease (else of the
//              layout).
//           2. A current with a stated direction adds that direction, and its reverse, to the list.
//           3. Significant wave height is held to the greatest height before breaking at that
//           depth.
//           4. Slack water is listed last and is not demanded: it gives pretension, rest positions
//              and the clearance of lines at rest.
//           5. A site of explicit networks only takes the stated directions and the rarest weather:
//              "given/..."; without weather it has the one environment "still".
// SOURCE    derived (own choice); relations: src/phys.
#include "base/codes.h"
#include "phys/phys.h"
#include "sea/sea.h"
#include "sea/hulls.h"
#include "sea/weather.h"

#include <ctype.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double degree = BYS_PI / 180.0;
static const double whole_turn = 2.0 * BYS_PI;

/// What is being made, and what it is made from.
typedef struct {
    const bys_site *site;
    bys_messages *messages;
    bys_environments *out;
    int capacity;
    double *directions;
    int direction_count; ///< rad, rising
    int *levels;
    int level_count; ///< indices into site->levels; -1 = no surface
    double place[2]; ///< m, middle of the site
    bys_hull_list hulls;
    bys_hull_tables *tables;
    bys_weather *weather;
    bool only_networks;
    bool no_memory;
} maker;

// ---- directions and levels -----------------------------------------------------------------

static double wrapped(double angle)
{
    double a = fmod(angle, whole_turn);
    if (a < 0.0)
        a += whole_turn;
    return whole_turn - a < 1e-9 ? 0.0 : a;
}

static void add_direction(maker *m, double angle)
{
    for (int i = 0; i < m->direction_count; i++)
        if (fabs(bys_turn_between(m->directions[i], angle)) < 1e-6)
            return;
    m->directions[m->direction_count++] = wrapped(angle);
}

static int by_value(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static bool any_sectored(const bys_site *site)
{
    for (int i = 0; i < site->current_count; i++)
        if (!isnan(site->currents[i].towards))
            return true;
    return false;
}

static bool make_directions(maker *m)
{
    const bys_site *site = m->site;
    const bool stated_only =
        m->only_networks && (any_sectored(site) || site->rules.combination_count == 0);
    int count = site->directions > site->rules.min_directions ? site->directions
                                                              : site->rules.min_directions;
    count = stated_only ? 1 : count > 1 ? count : 1;
    m->directions = calloc((size_t)count + 2 * (size_t)site->current_count, sizeof(double));
    if (!m->directions)
        return false;
    if (!stated_only || !any_sectored(site))
        for (int i = 0; i < count; i++)
            add_direction(m, site->direction_offset + whole_turn * i / count);
    for (int i = 0; i < site->current_count; i++) {
        if (isnan(site->currents[i].towards))
            continue;
        add_direction(m, site->currents[i].towards);
        if (site->currents[i].reverses)
            add_direction(m, site->currents[i].towards + BYS_PI);
    }
    qsort(m->directions, (size_t)m->direction_count, sizeof(double), by_value);
    return true;
}

/// Levels that a current names, besides the lowest and the highest.
static void add_named_levels(maker *m)
{
    const bys_site *site = m->site;
    for (int i = 0; i < site->current_count; i++) {
        const char *name = site->currents[i].level;
        const int level = name && *name ? bys_site_level(site, name) : -1;
        bool known = level < 0;
        for (int k = 0; k < m->level_count && !known; k++)
            known = m->levels[k] == level;
        if (!known)
            m->levels[m->level_count++] = level;
    }
}

static void make_levels(maker *m)
{
    const bys_site *site = m->site;
    int low, high;
    low = high = site->level_count > 0 ? 0 : -1;
    for (int i = 1; i < site->level_count; i++) {
        if (site->levels[i].height < site->levels[low].height)
            low = i;
        if (site->levels[i].height > site->levels[high].height)
            high = i;
    }
    m->levels[m->level_count++] = low;
    if (low != high)
        m->levels[m->level_count++] = high;
    add_named_levels(m);
    if (site->level_count == 0 && !m->only_networks)
        bys_messages_add(m->messages, BYS_FAULT, BYS_M_level_missing, (bys_place){0},
                         "no water level is stated: write at least one <level> in <water>");
}

// ---- names ---------------------------------------------------------------------------------

/// Shell-safe copy of a name: letters, digits, '.', '_' and '-' stay.
static const char *slug(maker *m, const char *name)
{
    char *copy = bys_arena_copy(m->out->arena, *name ? name : "x");
    if (!copy) {
        m->no_memory = true;
        return "";
    }
    for (char *c = copy; *c; c++)
        if (!isalnum((unsigned char)*c) && !strchr("._-", *c))
            *c = '-';
    return copy;
}

/// Degrees with three digits before the point, and one after it where needed: "045", "022.5".
static const char *degrees(maker *m, double angle)
{
    const double tenths = round(wrapped(angle) / degree * 10.0);
    const int value = (int)tenths % 3600;
    char *text = value % 10 ? bys_arena_format(m->out->arena, "%03d.%d", value / 10, value % 10)
                            : bys_arena_format(m->out->arena, "%03d", value / 10);
    m->no_memory |= !text;
    return text ? text : "";
}

static bool id_taken(const maker *m, const char *id)
{
    for (int i = 0; i < m->out->count; i++)
        if (strcmp(m->out->items[i].id, id) == 0)
            return true;
    return false;
}

static const char *unique_id(maker *m, const char *wanted)
{
    const char *id = wanted;
    for (int n = 2; id && id_taken(m, id); n++)
        id = bys_arena_format(m->out->arena, "%s-%d", wanted, n);
    m->no_memory |= !id;
    return id ? id : "";
}

// ---- seas ----------------------------------------------------------------------------------

static void unit_towards(double out[2], double angle)
{
    out[0] = sin(angle);
    out[1] = cos(angle);
}

static void middle(const bys_site *site, double *x, double *y)
{
    double sum[2] = {0.0, 0.0};
    int n = 0;
    for (; n < site->lease_count; n++) {
        sum[0] += site->lease_x[n];
        sum[1] += site->lease_y[n];
    }
    for (int i = 0; i < site->block_count && site->lease_count == 0; i++, n++) {
        sum[0] += site->blocks[i].x;
        sum[1] += site->blocks[i].y;
    }
    for (int i = 0; i < site->grid_count && site->lease_count == 0; i++, n++) {
        sum[0] += site->grids[i].x;
        sum[1] += site->grids[i].y;
    }
    *x = n ? sum[0] / n : site->bed.x;
    *y = n ? sum[1] / n : site->bed.y;
}

/// Still water at a level (index, -1 = no surface), over the bed.
static bys_sea still_at(const maker *m, int level)
{
    const bys_site *site = m->site;
    bys_sea sea = bys_sea_still(site->rho_water);
    sea.rho_air = site->rho_air;
    sea.gravity = site->gravity;
    bys_sea_lay_bed(&sea, site);
    if (level < 0)
        return sea;
    double x, y;
    middle(site, &x, &y);
    sea.level = site->levels[level].height;
    sea.depth = site->has_bed ? sea.level - bys_sea_bed_z(&sea, x, y) : 0.0;
    return sea;
}

static bool deep_enough(maker *m, const bys_sea *sea, int level)
{
    double x, y;
    middle(m->site, &x, &y);
    const double beyond = m->site->has_bed ? bys_bed_beyond(&m->site->bed, x, y) : 0.0;
    if (beyond > 0.0 && level >= 0) {
        bys_messages_add(m->messages, BYS_FAULT, BYS_M_bed_beyond, m->site->bed.place,
                         "the middle of the site (x %.1f m, y %.1f m), whose depth the profiles of "
                         "current and waves need, lies %.1f m beyond the depths of the seabed",
                         x, y, beyond);
        return false;
    }
    if (level < 0 || !sea->has_bed || sea->depth > 0.0)
        return true;
    bys_messages_add(m->messages, BYS_FAULT, BYS_M_over_land, m->site->levels[level].item.place,
                     "level %s (%g m) lies %.2f m below the seabed at the middle of the site",
                     m->site->levels[level].item.id, sea->level, -sea->depth);
    return false;
}

/// Waves of a pair; without a bed the depth becomes one deep-water wave length.
static void add_waves(maker *m, bys_sea *sea, const bys_waves *waves, const char *level)
{
    if (!waves || !isfinite(sea->level))
        return;
    sea->hs = waves->hs;
    sea->tp = waves->tp;
    sea->gamma = waves->gamma;
    sea->spreading = waves->spreading > 0.0 ? waves->spreading : 0.0;
    if (!sea->has_bed)
        sea->depth = BYS_G * waves->tp * waves->tp / (2.0 * BYS_PI);
    const double limit = bys_wave_breaking_height(waves->tp, sea->depth);
    if (sea->hs > limit) {
        bys_messages_add(m->messages, BYS_WARNING, BYS_M_waves_break, waves->item.place,
                         "waves of hs %.2f m, tp %.1f s break at level %s: hs %.2f m is used there",
                         waves->hs, waves->tp, level, limit);
        sea->hs = limit;
    }
    bys_sea_prepare(sea);
    m->no_memory |= !bys_hulls_put(sea, m->tables, &m->hulls, m->out->arena);
}

static const char *level_id(const maker *m, int level)
{
    return level < 0 ? "no-surface" : m->site->levels[level].item.id;
}

static void add_current(maker *m, bys_environment *item, const bys_return *years,
                        const bys_wind *wind)
{
    const bys_current *which;
    bys_sea *sea = &item->sea;
    const bool profiled = isfinite(sea->level) && sea->has_bed;
    const double speed = bys_current_towards(m->site, years->current, item->towards,
                                             profiled ? sea->depth : INFINITY,
                                             level_id(m, item->level), &which);
    item->shields = which && which->shields;
    m->no_memory |=
        !bys_current_put(sea, m->site, which, speed, item->towards, wind, m->out->arena);
}

static void add_wind(const maker *m, bys_environment *item, const bys_wind *wind)
{
    if (!wind)
        return;
    item->gust = m->site->wind_averaging > 0.0 ? m->site->wind_averaging : 60.0;
    item->sea.wind_speed = bys_wind_mean(wind, item->gust);
    item->sea.wind_averaging = item->gust;
    if (wind->law == BYS_WIND_ISO)
        item->sea.wind_hourly = bys_wind_mean(wind, 3600.0);
}

/// Waves that the wind of this case raises by one law; no message where they break: the report says.
static void grow_waves(maker *m, bys_environment *item, const bys_weather *weather, double from)
{
    bys_sea *sea = &item->sea;
    if (weather->law < 0 || !isfinite(sea->level) || !sea->has_bed)
        return;
    const bys_grown_sea grown =
        bys_waves_grow(m->site, weather->law, weather->wind, from, m->place, sea);
    item->law = weather->law;
    item->fetch = grown.fetch;
    sea->hs = grown.hs, sea->tp = grown.tp, sea->gamma = NAN;
    sea->spreading = m->site->grown.spreading > 0.0 ? m->site->grown.spreading : 0.0;
    const double limit = grown.tp > 0.0 ? bys_wave_breaking_height(grown.tp, sea->depth) : 0.0;
    item->broke = sea->hs > limit;
    sea->hs = fmin(sea->hs, limit);
    bys_sea_prepare(sea);
    m->no_memory |= !bys_hulls_put(sea, m->tables, &m->hulls, m->out->arena);
}

// ---- crossing ------------------------------------------------------------------------------

static bool known(const maker *m, const bys_sea *sea)
{
    for (int i = 0; i < m->out->count; i++)
        if (bys_sea_same(&m->out->items[i].sea, sea))
            return true;
    return false;
}

static void add(maker *m, const bys_environment *item)
{
    bys_environments *out = m->out;
    if (m->no_memory)
        return;
    if (out->count == m->capacity) {
        const int capacity = m->capacity ? 2 * m->capacity : 64;
        bys_environment *grown = realloc(out->items, (size_t)capacity * sizeof *grown);
        if (!grown) {
            m->no_memory = true;
            return;
        }
        out->items = grown;
        m->capacity = capacity;
    }
    out->items[out->count++] = *item;
}

/// Nothing acts: slack water, which is listed by itself.
static bool no_flow(const bys_sea *sea)
{
    return sea->current_speed == 0.0 && sea->wind_speed == 0.0 && sea->hs == 0.0;
}

/// All directions of one combination, level, weather and turn.
static void add_directions(maker *m, const bys_sea *base, const char *name, int combination,
                           int level, const bys_return *years, const bys_weather *weather,
                           double turn)
{
    const bool wind_fixed = weather->wind && !isnan(weather->wind->from);
    const bool waves_fixed = weather->waves && !isnan(weather->waves->from);
    const double stated = wind_fixed    ? weather->wind->from + BYS_PI
                          : waves_fixed ? weather->waves->from + BYS_PI
                                        : NAN;
    for (int i = 0; i < m->direction_count && !m->no_memory; i++) {
        const double towards = m->directions[i];
        const double free_way = isnan(stated) ? towards + turn : stated;
        bys_environment item = {.sea = *base,
                                .combination = combination,
                                .level = level,
                                .towards = towards,
                                .turn = isnan(stated) ? turn : 0.0,
                                .demanded = true,
                                .law = -1,
                                .fetch = NAN,
                                .because = ""};
        unit_towards(item.sea.wind, free_way);
        unit_towards(item.sea.waves, free_way);
        add_wind(m, &item, weather->wind);
        grow_waves(m, &item, weather, free_way + BYS_PI);
        add_current(m, &item, years, weather->wind);
        if (no_flow(&item.sea) || known(m, &item.sea))
            continue;
        const char *id = bys_arena_format(m->out->arena, "%s/%s/%s/%c%s%s%s", name,
                                          degrees(m, towards), slug(m, level_id(m, level)),
                                          isnan(stated) ? 'w' : 'f',
                                          degrees(m, isnan(stated) ? turn : stated + BYS_PI),
                                          item.law < 0 ? "" : "-",
                                          item.law < 0 ? "" : bys_growth_law_words[item.law]);
        m->no_memory |= !id;
        if (id)
            item.id = unique_id(m, id);
        add(m, &item);
    }
}

static void check_profiles(maker *m, const bys_sea *sea, const bys_return *years, int level)
{
    for (int i = 0; i < m->site->current_count; i++) {
        const bys_current *c = &m->site->currents[i];
        if (c->years != years->current || level < 0)
            continue;
        if (!sea->has_bed && c->exponent != 0.0 && !m->only_networks)
            bys_messages_add(m->messages, BYS_WARNING, BYS_M_profile_without_bed, c->item.place,
                             "no seabed is stated: the current is taken as uniform over the depth");
        if (c->level && *c->level && strcmp(c->level, level_id(m, level)) != 0)
            continue;
        if (sea->has_bed && c->at == BYS_AT_DEPTH && c->at_depth >= sea->depth)
            bys_messages_add(m->messages, BYS_WARNING, BYS_M_current_below_bed, c->item.place,
                             "the current is stated at %.1f m, but at level %s the water is %.1f m "
                             "deep: taken as the speed at the bed",
                             c->at_depth, level_id(m, level), sea->depth);
    }
}

/// All levels, weather and turns of one combination (-1: the rarest of everything).
static void add_combination(maker *m, int combination)
{
    const bys_site *site = m->site;
    const bys_combination *c = combination < 0 ? NULL : &site->rules.combinations[combination];
    const bys_return years = bys_return_choose(site, c, !c, m->messages);
    const int pairs = bys_weather_pairs(m->weather, site, &years);
    const char *name = c ? slug(m, c->item.id) : "given";
    const double straight[1] = {0.0};
    const double *turns = site->turn_count > 0 ? site->wind_wave_turns : straight;
    const int turn_count = site->turn_count > 0 ? site->turn_count : 1;
    for (int l = 0; l < m->level_count; l++) {
        const bys_sea still = still_at(m, m->levels[l]);
        if (!deep_enough(m, &still, m->levels[l]))
            continue;
        check_profiles(m, &still, &years, m->levels[l]);
        for (int p = 0; p < pairs; p++) {
            bys_sea base = still;
            add_waves(m, &base, m->weather[p].waves, level_id(m, m->levels[l]));
            for (int t = 0; t < turn_count; t++)
                add_directions(m, &base, name, combination, m->levels[l], &years, &m->weather[p],
                               turns[t]);
        }
    }
}

static void add_still(maker *m, const char *id, int level, bool demanded)
{
    bys_environment item = {.id = id,
                            .sea = still_at(m, level),
                            .combination = -1,
                            .level = level,
                            .demanded = demanded,
                            .law = -1,
                            .fetch = NAN,
                            .because = ""};
    m->no_memory |= !id;
    if (!m->no_memory && !known(m, &item.sea))
        add(m, &item);
}

static void add_slack(maker *m)
{
    for (int l = 0; l < m->level_count; l++) {
        const char *id =
            bys_arena_format(m->out->arena, "slack/%s", slug(m, level_id(m, m->levels[l])));
        if (id)
            id = unique_id(m, id);
        add_still(m, id, m->levels[l], false);
    }
}

/// Cases of the user's own; one that is in the list already is not added again.
static void add_own(maker *m)
{
    for (int i = 0; i < m->site->own_case_count && !m->no_memory; i++) {
        const bys_own_case *own = &m->site->own_cases[i];
        const int level = bys_site_level(m->site, own->level);
        bys_environment item = {.sea = still_at(m, level),
                                .id = bys_arena_format(m->out->arena, "own/%s", own->item.id),
                                .combination = -1,
                                .level = level,
                                .towards = own->towards,
                                .turn = own->wind > 0.0 || own->hs > 0.0
                                            ? (own->wind > 0.0 ? own->wind_from : own->waves_from) +
                                                  BYS_PI - own->towards
                                            : 0.0,
                                .demanded = own->demanded,
                                .law = -1,
                                .fetch = NAN,
                                .because = own->because};
        const bys_wind wind = {.speed = own->wind, .averaging = 600.0, .from = own->wind_from};
        const bys_waves waves = {.item = own->item, .hs = own->hs, .tp = own->tp, .gamma = NAN};
            m->no_memory |= !item.id;
        if (!deep_enough(m, &item.sea, level))
            continue;
        unit_towards(item.sea.wind, own->wind_from + BYS_PI);
        unit_towards(item.sea.waves, own->waves_from + BYS_PI);
        add_wind(m, &item, own->wind > 0.0 ? &wind : NULL);
        add_waves(m, &item.sea, own->hs > 0.0 ? &waves : NULL, own->level);
        const bys_current flow = {.exponent = 1.0 / 7.0};
        m->no_memory |= !bys_current_put(&item.sea, m->site, &flow, own->current, own->towards,
                                         own->wind > 0.0 ? &wind : NULL, m->out->arena);
        if (!known(m, &item.sea))
            add(m, &item);
    }
}

static bool any_weather(const bys_site *site)
{
    return site->current_count + site->wind_count + site->wave_count > 0;
}

static void cross(maker *m)
{
    const bys_site *site = m->site;
    if (m->only_networks && !any_weather(site)) {
        for (int l = 0; l < m->level_count; l++)
            add_still(m,
                      m->level_count > 1 ? bys_arena_format(m->out->arena, "still/%s",
                                                            slug(m, level_id(m, m->levels[l])))
                                         : "still",
                      m->levels[l], true);
        return;
    }
    if (site->rules.combination_count == 0 || (m->only_networks && any_sectored(site)))
        add_combination(m, -1);
    else
        for (int c = 0; c < site->rules.combination_count; c++)
            add_combination(m, c);
    add_own(m);
    if (!m->only_networks)
        add_slack(m);
}

bys_rc bys_environments_make(bys_environments *out, const bys_site *site, bys_messages *messages,
                             bys_error *err)
{
    *out = (bys_environments){.arena = bys_arena_new()};
    maker m = {.site = site, .messages = messages, .out = out};
    m.only_networks = site->block_count == 0 && site->grid_count == 0 && site->network_count > 0;
    m.weather = calloc((size_t)bys_weather_room(site), sizeof *m.weather);
    m.tables = calloc(1, sizeof *m.tables);
    m.levels = calloc((size_t)site->level_count + 1, sizeof *m.levels);
    const size_t faults = bys_messages_faults(messages);
    m.no_memory = !out->arena || !m.weather || !m.levels || !m.tables || !make_directions(&m);
    middle(site, &m.place[0], &m.place[1]);
    bys_hulls_of(&m.hulls, site);
    if (!m.no_memory) {
        make_levels(&m);
        if (bys_messages_faults(messages) == faults)
            cross(&m);
        m.no_memory |= !bys_environments_ropes(out, site);
    if (!m.no_memory) {
        bys_environments_drop(out, site, messages);
        bys_floats_small(out, site, messages);
    }
    }
    free(m.directions);
    free(m.weather);
    free(m.levels);
    free(m.tables);
    const bool faulty = bys_messages_faults(messages) > faults;
    if (!m.no_memory && !faulty)
        return BYS_OK;
    bys_environments_free(out);
    if (faulty)
        return bys_error_set(err, BYS_EINPUT, 0, "the load cases of the site cannot be made");
    return bys_error_set(err, BYS_ENOMEM, 0, "out of memory while making the load cases");
}

void bys_environments_free(bys_environments *list)
{
    if (!list)
        return;
    free(list->items);
    bys_arena_free(list->arena);
    *list = (bys_environments){0};
}
