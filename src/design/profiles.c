// SPDX-License-Identifier: GPL-3.0-or-later
// What each installed rule profile asks of the same leg.
//
// GIVEN     a judged site, the path of its file
// RETURNED  a row for the site's own rules and one for each other installed profile: its weather, its
//           factors, what they come to for line and anchor
// NOTES     1. Each profile is judged by its own loads, combinations, conditions and factors: nothing of
//              one is mixed with another, and the site's own factors count for its own rules only.
//           2. Where the site does not state weather as rare as a profile asks for, its row holds the
//              factors alone, and says so.
#include "base/arena.h"
#include "design/judge.h"

#include <math.h>
#include <string.h>

typedef struct {
    bys_design *design;
    bys_arena *arena;
    const char *leg;
    const bys_check_options *options;
    bool failed; ///< out of memory
} maker;

static const char *keep(maker *m, const char *text)
{
    const char *copy = bys_arena_copy(m->arena, text ? text : "");
    m->failed |= !copy;
    return copy ? copy : "";
}

static void keep_check(maker *m, bys_strength *to, const bys_strength *from)
{
    *to = *from;
    to->case_id = keep(m, from->case_id);
    to->condition = keep(m, from->condition);
    to->analysis = keep(m, from->analysis);
    to->item = keep(m, from->item);
    to->component = keep(m, from->component);
    to->why = keep(m, from->why);
    to->source = keep(m, from->source);
}

static void describe(maker *m, bys_profile_row *row, const bys_rules *rules, int directions)
{
    const char *words = "";
    for (int i = 0; i < rules->combination_count; i++) {
        const bys_item *item = &rules->combinations[i].item;
        const char *next = bys_arena_format(m->arena, "%s%s%s", words, *words ? "; " : "",
                                            *item->name ? item->name : item->id);
        m->failed |= !next;
        words = next ? next : words;
    }
    *row = (bys_profile_row){.id = keep(m, rules->item.id),
                             .title = keep(m, rules->item.name),
                             .written_for = keep(m, rules->written_for),
                             .combinations = words,
                             .outside = rules->outside,
                             .lost_demanded = rules->demand_lost_leg,
                             .directions = directions > rules->min_directions
                                               ? directions : rules->min_directions,
                             .verdict = "",
                             .why = ""};
}

static void take_design(maker *m, bys_profile_row *row, const bys_design *design)
{
    row->solved = true;
    row->incomplete = design->incomplete;
    row->unverified_checks = design->unverified_checks;
    row->verdict = keep(m, design->verdict);
    for (int l = 0; l < design->leg_count; l++)
        if (strcmp(design->legs[l].id, m->leg) == 0) {
            keep_check(m, &row->line, &design->legs[l].strength);
            keep_check(m, &row->anchor, &design->legs[l].anchor.check);
        }
}

/// A check of which only the factors are known.
static bys_strength factors_only(const bys_rules *rules, const char *component, const char *item)
{
    const bys_factor *load = bys_rules_factor(rules, "load-static");
    const bys_factor *factor = bys_rules_factor(rules, component);
    return (bys_strength){.case_id = "", .condition = "intact", .analysis = "", .item = item,
                          .component = component, .characteristic_N = NAN,
                          .load_factor = load ? load->value : NAN, .design_N = NAN,
                          .capacity_N = NAN, .resistance_factor = factor ? factor->value : NAN,
                          .utilisation = NAN, .verdict = BYS_NOT_CHECKED,
                          .basis = factor ? factor->basis : BYS_BASIS_ASSUMED,
                          .why = "", .source = ""};
}

/// First message of that severity, or of a rarer value in place of the one asked for.
static const char *first_message(const bys_messages *messages, bys_severity severity)
{
    for (size_t i = 0; i < bys_messages_count(messages); i++) {
        const bys_message *message = bys_messages_at(messages, i);
        if (message->severity == severity &&
            (severity == BYS_FAULT || strstr(message->text, "the rules ask for")))
            return message->text;
    }
    return "";
}

static bys_rc solve(maker *m, bys_profile_row *row, const bys_site *site, bys_messages *messages,
                    bys_error *err)
{
    bys_check_options options = *m->options;
    bys_design *design = NULL;
    options.intact_only = !site->rules.demand_lost_leg;
    const bys_rc rc = bys_design_run(&design, site, &options, messages, err);
    if (rc == BYS_OK) {
        take_design(m, row, design);
        row->why = keep(m, first_message(messages, BYS_WARNING));
    } else if (rc == BYS_EINPUT) {
        const bys_leg_result *leg = &m->design->legs[m->design->by_utilisation[0]];
        bys_strength line = factors_only(&site->rules, leg->strength.component, leg->strength.item);
        bys_strength anchor =
            factors_only(&site->rules, leg->anchor.check.component, leg->anchor.check.item);
        keep_check(m, &row->line, &line);
        keep_check(m, &row->anchor, &anchor);
        row->why = keep(m, first_message(messages, BYS_FAULT));
        row->incomplete = true;
    }
    bys_design_free(design);
    return rc == BYS_EINPUT ? BYS_OK : rc;
}

static bys_rc add_profile(maker *m, bys_profile_row *row, const char *path, const char *data_dir,
                          const char *profile, bys_error *err)
{
    bys_messages *messages = NULL;
    bys_site *site = NULL;
    bys_rc rc = bys_messages_new(&messages);
    if (rc)
        return bys_error_set(err, rc, 0, "out of memory");
    rc = bys_site_read_by(&site, path, data_dir, profile, messages, err);
    if (rc == BYS_OK) {
        describe(m, row, &site->rules, m->options->directions > 0 ? m->options->directions
                                                                  : site->directions);
        rc = solve(m, row, site, messages, err);
    }
    bys_site_free(site);
    bys_messages_free(messages);
    return rc;
}

static void add_own(maker *m, bys_profile_row *row, const bys_rules *rules, int directions)
{
    describe(m, row, rules, directions);
    take_design(m, row, m->design);
    row->own = true;
}

/// Profiles to set beside the site's own: all that are installed but the template and its own.
static bool wanted(const char *id, const char *own)
{
    return strcmp(id, "own-template") != 0 && strcmp(id, own) != 0;
}

bys_rc bys_design_profiles(bys_design *design, const char *path, const char *data_dir,
                           const bys_check_options *options, bys_error *err)
{
    static const bys_check_options plain = BYS_CHECK_OPTIONS_INIT;
    maker m = {design, bys_design_arena(design), "", options ? options : &plain, false};
    bys_messages *messages = NULL;
    bys_site *site = NULL;
    int count = 0;
    while (bys_profile_installed(count))
        count++;
    if (design->leg_count == 0)
        return BYS_OK;
    m.leg = design->legs[design->by_utilisation[0]].id;
    design->profiles = bys_arena_get(m.arena, (size_t)(count + 1) * sizeof *design->profiles);
    if (!design->profiles || bys_messages_new(&messages) != BYS_OK)
        return bys_error_set(err, BYS_ENOMEM, 0, "out of memory for the profiles");
    bys_rc rc = bys_site_read(&site, path, data_dir, messages, err);
    if (rc == BYS_OK)
        add_own(&m, &design->profiles[design->profile_count++], &site->rules,
                m.options->directions > 0 ? m.options->directions : site->directions);
    for (int i = 0; rc == BYS_OK && bys_profile_installed(i); i++)
        if (wanted(bys_profile_installed(i), site->rules.item.id))
            rc = add_profile(&m, &design->profiles[design->profile_count++], path, data_dir,
                             bys_profile_installed(i), err);
    design->profiles_leg = m.leg;
    bys_site_free(site);
    bys_messages_free(messages);
    return m.failed ? bys_error_set(err, BYS_ENOMEM, 0, "out of memory for the profiles") : rc;
}
