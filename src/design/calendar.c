// SPDX-License-Identifier: GPL-3.0-or-later
// The crop calendar from beginning to end: each month is a lease of one crop stage, checked twice,
// with the floats of the site file and with those that are to be added.
#include "design/calendar.h"
#include "base/codes.h"
#include "design/as_cut.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

void bys_calendar_free(bys_calendar *calendar) {
    if (!calendar)
        return;
    bys_calendar_work *work = (bys_calendar_work *)calendar;
    bys_network_free(work->net);
    bys_arena_free(work->arena);
    free(work);
}

int bys_calendar_exit(const bys_calendar *calendar) {
    return !strcmp(calendar->verdict, "pass") ? 0 : !strcmp(calendar->verdict, "fail") ? 1 : 2;
}

static bys_rc no_memory(bys_error *err) {
    return bys_error_set(err, BYS_ENOMEM, 0, "out of memory in the calendar");
}

static const char *keep(bys_calendar_work *work, const char *made) {
    work->failed = work->failed || !made;
    return made ? made : "";
}

static const char *word(const char *verdict) {
    return !strcmp(verdict, "pass") ? "pass" : !strcmp(verdict, "fail") ? "fail" : "incomplete";
}

static bool worse(const char *a, const char *b) // a than b
{
    static const char *const rising[] = {"pass", "incomplete", "fail"};
    int ia = 0, ib = 0;
    for (int i = 0; i < 3; i++) {
        ia = !strcmp(a, rising[i]) ? i : ia;
        ib = !strcmp(b, rising[i]) ? i : ib;
    }
    return ia > ib;
}

// ---- one month ---------------------------------------------------------------------------------

static void put_legs(bys_calendar_work *work, int month, bool added, const bys_design *design) {
    bys_calendar *c = &work->calendar;
    bys_month *row = &c->months[month];
    double *tension =
        (added ? c->tension_added_N : c->tension_N) + (size_t)month * (size_t)c->leg_count;
    double *use = (added ? c->use_added : c->use) + (size_t)month * (size_t)c->leg_count;
    int most = -1;
    for (int l = 0; l < design->leg_count; l++) {
        tension[l] = design->legs[l].tension_N;
        use[l] = design->legs[l].utilisation;
        if (isfinite(tension[l]) && (most < 0 || tension[l] > tension[most]))
            most = l;
    }
    *(added ? &row->largest_added_leg : &row->largest_leg) = most;
    *(added ? &row->largest_added_N : &row->largest_N) = most >= 0 ? tension[most] : NAN;
    *(added ? &row->verdict_added : &row->verdict) = word(design->verdict);
    if (!added)
        row->solved = design->case_stable == design->case_total;
}

static bys_rc judge_month(bys_calendar_work *work, int month, bool added, bys_judge *judge,
                          bys_error *err) {
    bys_rc rc = bys_judge_solve(judge, err);
    if (rc)
        return rc;
    bys_calendar_zones(work, month, added, judge);
    bys_judge_legs(judge);
    if (!judge->no_memory)
        bys_judge_cases(judge);
    if (!judge->no_memory)
        bys_judge_findings(judge);
    if (!judge->no_memory)
        bys_judge_verdict(judge);
    if (judge->no_memory)
        return no_memory(err);
    put_legs(work, month, added, judge->out);
    return BYS_OK;
}

// What every month says again is said once, by the first; faults always.
static void pass_on(bys_calendar_work *work, const bys_messages *said, bool all) {
    for (size_t i = 0; i < bys_messages_count(said); i++) {
        const bys_message *m = bys_messages_at(said, i);
        if (all || m->severity == BYS_FAULT)
            bys_messages_add(work->messages, m->severity, m->code, m->place, "%s", m->text);
    }
}

static bys_rc run_month(bys_calendar_work *work, int month, bool added, bys_error *err) {
    bys_arena *arena = bys_arena_new();
    bys_messages *said = NULL;
    bys_design *design = arena ? bys_arena_get(arena, sizeof *design) : NULL;
    int *more =
        arena ? bys_arena_get(arena, ((size_t)work->calendar.plan_count + 1) * sizeof(int)) : NULL;
    bys_site site;
    bys_stage stage;
    bys_rc rc = BYS_ENOMEM;
    if (more)
        bys_calendar_added(more, work, added ? month : -1);
    if (more && design && bys_messages_new(&said) == BYS_OK &&
        bys_calendar_site(&site, &stage, arena, work, month, more)) {
        bys_judge judge = {.site = &site,
                           .options = work->options->check,
                           .messages = said,
                           .out = design,
                           .arena = arena};
        judge.options.intact_only = !site.rules.demand_lost_leg;
        rc = judge_month(work, month, added, &judge, err);
        bys_judge_release(&judge);
        pass_on(work, said, month == 0 && !added);
    } else {
        rc = no_memory(err);
    }
    bys_messages_free(said);
    bys_arena_free(arena);
    return rc;
}

// ---- all months --------------------------------------------------------------------------------

static bys_rc build(bys_calendar_work *work, bys_messages *messages, bys_error *err) {
    bys_tuning tuning = {NULL, 0, NULL};
    bys_rc rc = bys_tuning_find(&tuning, work->site, messages, err);
    if (!rc)
        rc = bys_network_tuned(&work->net, work->site, work->site->stage_count > 0 ? 0 : -1,
                               &tuning, messages, err);
    bys_tuning_free(&tuning);
    return rc;
}

static bool give_room(bys_calendar_work *work) {
    bys_calendar *c = &work->calendar;
    const size_t legs = (size_t)work->net->leg_count, cells = legs * (size_t)c->month_count + 1;
    double **tables[] = {&c->tension_N, &c->tension_added_N, &c->use, &c->use_added};
    bool all = true;
    for (int i = 0; i < 4; i++)
        all = (*tables[i] = bys_arena_get(work->arena, cells * sizeof(double))) && all;
    c->legs = bys_arena_get(work->arena, (legs + 1) * sizeof *c->legs);
    c->leg_count = work->net->leg_count;
    for (int l = 0; c->legs && l < c->leg_count; l++)
        all = (c->legs[l] = bys_arena_copy(work->arena, work->net->legs[l].id)) && all;
    return all && c->legs;
}

static bys_rc find_slack(bys_calendar_work *work, bys_error *err) {
    bys_environments env = {0};
    const bys_rc rc = bys_environments_make(&env, work->site, NULL, err);
    if (rc)
        return rc;
    work->slack = bys_arena_get(work->arena, ((size_t)env.count + 1) * sizeof *work->slack);
    work->failed = work->failed || !work->slack;
    for (int e = 0; work->slack && e < env.count; e++)
        if (bys_environment_slack(&env.items[e])) {
            bys_sea *sea = &work->slack[work->slack_count++];
            *sea = env.items[e].sea;
            sea->profile = NULL; // of no use without a current, and freed with the rest
            sea->shade = NULL;
            sea->shade_count = 0;
        }
    bys_environments_free(&env);
    return BYS_OK;
}

static bys_rc prepare(bys_calendar_work *work, bys_error *err) {
    bys_calendar *c = &work->calendar;
    const bys_site *site = work->site;
    c->site = keep(work, bys_arena_copy(work->arena, site->name));
    c->notice = keep(work, bys_arena_copy(work->arena, site->notice));
    c->file = keep(work, bys_arena_copy(work->arena, site->file));
    c->sha256 = keep(work, bys_arena_copy(work->arena, site->sha256));
    c->grows = site->grows;
    c->reserve = work->options->reserve > 0.0 ? work->options->reserve : site->rules.float_reserve;
    if (!bys_calendar_date(work))
        return work->failed ? no_memory(err)
                            : bys_error_set(err, BYS_EINPUT, BYS_M_calendar_undated,
                                            "no crop stage has a month");
    bys_rc rc = build(work, NULL, err);
    if (rc == BYS_EINPUT) // once more, to say why
        rc = build(work, work->messages, err);
    if (rc)
        return rc;
    work->legs = bys_legs_as_cut(work->arena, work->net);
    if (!work->legs || !give_room(work))
        return no_memory(err);
    bys_calendar_lines(work);
    return work->failed ? no_memory(err) : find_slack(work, err);
}

static void copy_month(bys_calendar_work *work, int m) {
    bys_calendar *c = &work->calendar;
    const size_t from = (size_t)m * (size_t)c->leg_count, n = (size_t)c->leg_count * sizeof(double);
    memcpy(c->tension_added_N + from, c->tension_N + from, n);
    memcpy(c->use_added + from, c->use + from, n);
    c->months[m].largest_added_leg = c->months[m].largest_leg;
    c->months[m].largest_added_N = c->months[m].largest_N;
    c->months[m].verdict_added = c->months[m].verdict;
    for (int z = 0; z < c->zone_count; z++) {
        bys_zone_month *row = &c->zone_months[m * c->zone_count + z];
        row->reserve_added = row->reserve;
        row->submerged_added = row->submerged;
    }
}

static bys_rc run_months(bys_calendar_work *work, bys_error *err) {
    bys_calendar *c = &work->calendar;
    bys_rc rc = BYS_OK;
    for (int m = 0; !rc && m < c->month_count; m++)
        rc = run_month(work, m, false, err);
    if (!rc)
        rc = bys_calendar_need(work, err);
    for (int m = 0; !rc && m < c->month_count; m++) {
        if (c->months[m].to_add > 0)
            rc = run_month(work, m, true, err);
        else
            copy_month(work, m);
    }
    return rc;
}

// ---- what it comes to --------------------------------------------------------------------------

/// Zones that never have a float are left out.
static void drop_empty(bys_calendar *c) {
    int kept = 0;
    const int all = c->zone_count;
    for (int z = 0; z < all; z++) {
        bool any = false;
        for (int m = 0; m < c->month_count; m++)
            any = any || c->zone_months[m * all + z].count > 0.0;
        if (!any)
            continue;
        c->zones[kept] = c->zones[z];
        for (int m = 0; m < c->month_count; m++)
            c->zone_months[m * all + kept] = c->zone_months[m * all + z];
        kept++;
    }
    for (int m = 1; m < c->month_count; m++)
        memmove(&c->zone_months[m * kept], &c->zone_months[m * all],
                (size_t)kept * sizeof *c->zone_months);
    c->zone_count = kept;
}

static void find_worst(bys_calendar *c) {
    for (int m = 0; m < c->month_count; m++) {
        bys_month *row = &c->months[m];
        row->worst_zone = -1;
        for (int z = 0; z < c->zone_count; z++) {
            const bys_zone_month *here = &c->zone_months[m * c->zone_count + z];
            if (c->zones[z].at_end || isnan(here->reserve))
                continue;
            if (row->worst_zone < 0 ||
                here->reserve < c->zone_months[m * c->zone_count + row->worst_zone].reserve - 1e-12)
                row->worst_zone = z;
        }
    }
}

#define words(work, ...) keep((work), bys_arena_format((work)->arena, __VA_ARGS__))

static const char *loads(bys_calendar_work *work) {
    const bys_calendar *c = &work->calendar;
    double before = NAN, after = NAN;
    for (int m = 0; m < c->month_count; m++) {
        before = fmax(before, c->months[m].largest_N);
        after = fmax(after, c->months[m].largest_added_N);
    }
    if (isnan(before))
        return "";
    if (c->to_add && fabs(after - before) >= 50.0)
        return words(work, " The largest leg tension is %.1f kN, and %.1f kN with them on.",
                     before / 1000.0, after / 1000.0);
    return words(work, " The largest leg tension is %.1f kN%s.", before / 1000.0,
                 c->to_add ? ", with them or without" : "");
}

static const char *need(bys_calendar_work *work) {
    const bys_calendar *c = &work->calendar;
    int lines = 0, first = -1;
    for (int l = 0; l < c->plan_count; l++) {
        if (c->plans[l].first < 0)
            continue;
        lines++;
        if (first < 0 || c->plans[l].first < c->plans[first].first)
            first = l;
    }
    const double last = c->months[c->month_count - 1].month, share = 100.0 * c->reserve;
    if (lines == 0)
        return words(work, "All lines keep %g %% of the lift of their crop floats up to month %g.",
                     share, last);
    const char *others = lines > 1 ? words(work, " as the first of %d lines", lines) : "";
    const char *fall =
        words(work, "%s falls below %g %% of the lift of its crop floats in month %g%s",
              c->plans[first].line, share, c->months[c->plans[first].first].month, others);
    return c->short_of
               ? words(work, "%s; not every line can be kept up by more floats of its kind.", fall)
               : words(work, "%s; %d %s to be added in all.", fall, c->to_add,
                       c->to_add == 1 ? "float is" : "floats are");
}

static void conclude(bys_calendar_work *work) {
    bys_calendar *c = &work->calendar;
    drop_empty(c);
    find_worst(c);
    c->verdict = "pass";
    for (int m = 0; m < c->month_count; m++)
        if (worse(c->months[m].verdict, c->verdict))
            c->verdict = c->months[m].verdict;
    const char *floats = c->zone_count == 0  ? "There is no longline with floats."
                         : isnan(c->reserve) ? "No float reserve is demanded; state <limit "
                                               "float-reserve> in the rules, or ask for one."
                                             : need(work);
    c->headline = words(work, "%s%s", floats, loads(work));
}

bys_rc bys_calendar_run(bys_calendar **out, const bys_site *site,
                        const bys_calendar_options *options, bys_messages *messages,
                        bys_error *err) {
    static const bys_calendar_options plain = BYS_CALENDAR_OPTIONS_INIT;
    *out = NULL;
    bys_calendar_work *work = calloc(1, sizeof *work);
    if (!work || !(work->arena = bys_arena_new())) {
        free(work);
        return no_memory(err);
    }
    work->site = site;
    work->options = options ? options : &plain;
    work->messages = messages;
    bys_rc rc = prepare(work, err);
    if (!rc)
        rc = run_months(work, err);
    if (!rc && !work->failed)
        conclude(work);
    if (!rc && work->failed)
        rc = no_memory(err);
    if (rc) {
        bys_calendar_free(&work->calendar);
        return rc;
    }
    work->options = NULL; // the caller's
    *out = &work->calendar;
    return BYS_OK;
}
