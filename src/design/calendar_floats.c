// SPDX-License-Identifier: GPL-3.0-or-later
// Floats of the crop calendar: zones of each line, and how many more keep the reserve.
//
// NOTES     1. Reserve as in float_findings.c: what the hardest pressed float has left of its net
//              lift in slack water, the least over all levels. Crop floats only count against the
//              demand; end floats carry the leg's pull.
//           2. Added floats are of the line's largest row of crop floats and are spread evenly with
//              it. The number is the least that keeps the demand, found by solving; it never falls
//              from one month to the next.
// SOURCE    own choice.
#include "design/calendar.h"
#include "lease/expand.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

// ---- lines and zones ---------------------------------------------------------------------------

static const char *keep(bys_calendar_work *work, const char *made) {
    work->failed = work->failed || !made;
    return made ? made : "";
}

static void add_zones(bys_calendar_work *work, const bys_line *line) {
    bys_calendar *c = &work->calendar;
    const char *head = bys_compass_name(line->heading);
    const char *tail = bys_compass_name(line->heading + 3.14159265358979323846);
    const char *id = keep(work, bys_arena_copy(work->arena, line->id));
    const char *names[BYS_ZONES] = {bys_arena_format(work->arena, "%s end", tail),
                                    bys_arena_format(work->arena, "%s third", tail), "middle",
                                    bys_arena_format(work->arena, "%s third", head),
                                    bys_arena_format(work->arena, "%s end", head)};
    for (int k = 0; k < BYS_ZONES; k++)
        c->zones[c->zone_count++] = (bys_zone){id, keep(work, names[k]), k == 0 || k == 4};
}

/// Rows of floats of a line: its own, or those of its block.
static const bys_pattern *rows_of(int *count, const bys_site *site, const bys_line *line) {
    const bys_block *block = &site->blocks[line->block];
    const bys_pattern *rows = block->floats;
    *count = block->float_count;
    for (int i = 0; i < site->change_count; i++)
        if (!strcmp(site->changes[i].line, line->id) && site->changes[i].float_count > 0) {
            rows = site->changes[i].floats;
            *count = site->changes[i].float_count;
        }
    return rows;
}

static double backbone_of(const bys_site *site, const bys_line *line) {
    double length = site->blocks[line->block].backbone_length;
    for (int i = 0; i < site->change_count; i++)
        if (!strcmp(site->changes[i].line, line->id) && isfinite(site->changes[i].backbone_length))
            length = site->changes[i].backbone_length;
    return length;
}

// The row's number at a stage, by the same rules as the layout.
static int row_count(const bys_site *site, const bys_stage *stage, const bys_line *line,
                     const bys_pattern *row) {
    const char *block = site->blocks[line->block].item.id;
    double every = row->every;
    int count = row->count, best = 0;
    for (int i = 0; i < stage->float_count; i++) {
        const bys_stage_floats *f = &stage->floats[i];
        const int rank = !strcmp(f->target, line->id) ? 3
                         : !strcmp(f->target, block)  ? 2
                         : !*f->target                ? 1
                                                      : 0;
        if (strcmp(f->pattern, row->id) != 0 || rank == 0 || rank < best)
            continue;
        best = rank;
        every = f->every;
        count = f->count;
    }
    const double from = isfinite(row->from) ? row->from : 0.0;
    const double to = isfinite(row->to) ? row->to : backbone_of(site, line);
    return isfinite(every) && every > 0.0 ? (int)floor((to - from) / every + 0.5 + 1e-9) : count;
}

static void add_plan(bys_calendar_work *work, int l) {
    bys_calendar *c = &work->calendar;
    const bys_line *line = &work->net->lines[l];
    int n, most = 0;
    const bys_pattern *rows = rows_of(&n, work->site, line), *grows = NULL;
    for (int i = 0; i < n; i++) {
        const int count =
            rows[i].at_ends ? 0 : row_count(work->site, &work->stages[0], line, &rows[i]);
        if (count > most) {
            most = count;
            grows = &rows[i];
        }
    }
    bys_float_plan *plan = &c->plans[c->plan_count++];
    *plan = (bys_float_plan){
        .line = keep(work, bys_arena_copy(work->arena, line->id)),
        .pattern = grows ? keep(work, bys_arena_copy(work->arena, grows->id)) : "",
        .part = grows ? keep(work, bys_arena_copy(work->arena, grows->part->item.id)) : "",
        .row = bys_arena_get(work->arena, ((size_t)c->month_count + 1) * sizeof(int)),
        .added = bys_arena_get(work->arena, ((size_t)c->month_count + 1) * sizeof(int)),
        .first = -1};
    work->failed = work->failed || !plan->added || !plan->row;
    for (int m = 0; plan->row && m < c->month_count; m++)
        plan->row[m] = grows ? row_count(work->site, &work->stages[m], line, grows) : 0;
}

void bys_calendar_lines(bys_calendar_work *work) {
    bys_calendar *c = &work->calendar;
    const size_t lines = (size_t)work->net->line_count, months = (size_t)c->month_count;
    c->zones = bys_arena_get(work->arena, (lines * BYS_ZONES + 1) * sizeof *c->zones);
    c->zone_months =
        bys_arena_get(work->arena, (lines * BYS_ZONES * months + 1) * sizeof *c->zone_months);
    c->plans = bys_arena_get(work->arena, (lines + 1) * sizeof *c->plans);
    if (!c->zones || !c->zone_months || !c->plans) {
        work->failed = true;
        return;
    }
    for (int l = 0; l < work->net->line_count; l++) {
        add_zones(work, &work->net->lines[l]);
        add_plan(work, l);
    }
    for (size_t i = 0; i < lines * BYS_ZONES * months; i++)
        c->zone_months[i] = (bys_zone_month){NAN, NAN, NAN, NAN, 0.0};
}

// ---- the site in one month ---------------------------------------------------------------------

void bys_calendar_added(int *out, const bys_calendar_work *work, int month) {
    for (int l = 0; l < work->calendar.plan_count; l++)
        out[l] = month < 0 ? 0 : work->calendar.plans[l].added[month];
}

bool bys_calendar_site(bys_site *out, bys_stage *stage, bys_arena *arena,
                       const bys_calendar_work *work, int month, const int *added) {
    const bys_calendar *c = &work->calendar;
    const size_t rows = (size_t)(work->stages[month].float_count + c->plan_count + 1);
    *stage = work->stages[month];
    stage->floats = bys_arena_get(arena, rows * sizeof *stage->floats);
    if (!stage->floats)
        return false;
    if (stage->float_count)
        memcpy(stage->floats, work->stages[month].floats,
               (size_t)stage->float_count * sizeof *stage->floats);
    for (int l = 0; added && l < c->plan_count; l++)
        if (added[l] > 0)
            stage->floats[stage->float_count++] =
                (bys_stage_floats){.target = c->plans[l].line,
                                   .pattern = c->plans[l].pattern,
                                   .every = NAN,
                                   .count = c->plans[l].row[month] + added[l]};
    *out = *work->site;
    out->stages = stage;
    out->stage_count = 1;
    out->overrides = work->legs;
    out->override_count = work->net ? work->net->leg_count : 0;
    if (work->options->reserve > 0.0)
        out->rules.float_reserve = work->options->reserve;
    return true;
}

// ---- zones of a month --------------------------------------------------------------------------

static int zone_in(const bys_network *net, const bys_float_set *set) {
    const bys_line *line = &net->lines[set->line];
    const double *a = net->points[line->points[0]].x;
    const double *b = net->points[line->points[line->point_count - 1]].x;
    const double *p = net->points[set->point].x;
    const double whole = hypot(b[0] - a[0], b[1] - a[1]), part = hypot(p[0] - a[0], p[1] - a[1]);
    if (set->at_end)
        return part < 0.5 * whole ? 0 : 4;
    return part < whole / 3.0 - 1e-6 ? 1 : part <= whole * 2.0 / 3.0 + 1e-6 ? 2 : 3;
}

static double share_left(const bys_state *state, int f, const bys_sea *sea) {
    const bys_float_part *part = &state->net->floats[f].part->u.buoy;
    return fmax(state->lift_left[f] / ((sea->rho * part->volume - part->mass) * sea->gravity), 0.0);
}

static void look(bys_zone_month *z, bool added, double share, double submerged) {
    double *reserve = added ? &z->reserve_added : &z->reserve;
    double *under = added ? &z->submerged_added : &z->submerged;
    *reserve = isnan(*reserve) ? share : fmin(*reserve, share);
    *under = isnan(*under) ? submerged : fmax(*under, submerged);
}

void bys_calendar_zones(bys_calendar_work *work, int month, bool added, const bys_judge *judge) {
    const bys_stage_set *set = &judge->stages[0];
    const bys_network *net = set->net;
    bys_zone_month *row =
        work->calendar.zone_months + (size_t)month * (size_t)work->calendar.zone_count;
    bool first = true;
    for (int e = 0; e < judge->env.count; e++) {
        const bys_state *rest = set->rest[e];
        for (int f = 0; rest && f < net->float_count; f++) {
            const bys_float_set *floats = &net->floats[f];
            if (floats->line < 0)
                continue;
            bys_zone_month *z = &row[floats->line * BYS_ZONES + zone_in(net, floats)];
            if (first && !added)
                z->count += floats->count;
            if (rest->islands[net->points[floats->point].island].status == BYS_STABLE)
                look(z, added, share_left(rest, f, &judge->env.items[e].sea), rest->submerged[f]);
        }
        first = first && !rest;
    }
}

// ---- how many more -----------------------------------------------------------------------------

/// A line's search for the least number of floats.
typedef struct {
    int low, high, next; ///< too few, enough (-1 = not known), to be tried
    bool open;
    double share; ///< reserve at `next`
} hunt;

static double crop_reserve(const bys_calendar *c, int month, int line) {
    const bys_zone_month *row =
        c->zone_months + (size_t)month * (size_t)c->zone_count + (size_t)line * BYS_ZONES;
    return fmin(fmin(row[1].reserve, row[2].reserve), row[3].reserve); // fmin leaves NAN out
}

/// Added floats that hang there already: no float is taken off, but the site file's own row may
/// have caught up. -1: no number helps.
static int hanging(const bys_float_plan *plan, int month) {
    if (month == 0)
        return 0;
    const int before = plan->added[month - 1];
    return before < 0 ? -1 : (int)fmax(0.0, plan->row[month - 1] + before - plan->row[month]);
}

/// An earlier line that is the same in every number; -1.
static int twin_of(const bys_calendar_work *work, int month, int line) {
    const bys_calendar *c = &work->calendar;
    const bys_zone_month *row = c->zone_months + (size_t)month * (size_t)c->zone_count;
    for (int l = 0; l < line; l++)
        if (c->plans[l].row[month] == c->plans[line].row[month] &&
            !strcmp(c->plans[l].part, c->plans[line].part) &&
            !memcmp(&row[l * BYS_ZONES], &row[line * BYS_ZONES], BYS_ZONES * sizeof *row) &&
            hanging(&c->plans[l], month) == hanging(&c->plans[line], month))
            return l;
    return -1;
}

static bys_rc solve_line(double *share, const bys_calendar_work *work, bys_state *state, int line,
                         bys_error *err) {
    const bys_network *net = state->net;
    const int island = net->lines[line].island;
    bys_solver *solver = NULL;
    bys_rc rc = bys_solver_new(&solver, net, island, err);
    *share = INFINITY;
    for (int k = 0; !rc && k < work->slack_count; k++) {
        rc = bys_solve_island(state, solver, &work->slack[k], NULL, BYS_START_COLD, err);
        if (rc || state->islands[island].status != BYS_STABLE)
            *share = NAN;
        for (int f = 0; f < net->float_count; f++)
            if (net->floats[f].line == line && !net->floats[f].at_end && !isnan(*share))
                *share = fmin(*share, share_left(state, f, &work->slack[k]));
    }
    bys_solver_free(solver);
    return rc;
}

/// The reserve of every line whose hunt is open, with `next` floats more.
static bys_rc try_all(bys_calendar_work *work, int month, hunt *hunts, bys_error *err) {
    bys_calendar *c = &work->calendar;
    bys_arena *arena = bys_arena_new();
    int *added = arena ? bys_arena_get(arena, ((size_t)c->plan_count + 1) * sizeof *added) : NULL;
    bys_site site;
    bys_stage stage;
    bys_network *net = NULL;
    bys_state *state = NULL;
    for (int l = 0; added && l < c->plan_count; l++)
        added[l] = hunts[l].next;
    bys_rc rc = added && bys_calendar_site(&site, &stage, arena, work, month, added)
                    ? bys_network_tuned(&net, &site, 0, NULL, NULL, err)
                    : bys_error_set(err, BYS_ENOMEM, 0, "out of memory in the calendar");
    if (!rc)
        rc = bys_state_new(&state, net, err);
    for (int l = 0; !rc && l < c->plan_count; l++)
        if (hunts[l].open)
            rc = solve_line(&hunts[l].share, work, state, l, err);
    bys_state_free(state);
    bys_network_free(net);
    bys_arena_free(arena);
    return rc;
}

static void step(hunt *h, int base, double limit, int before) {
    const int most = 3 * base + 20;
    if (h->share >= limit - 1e-12) {
        h->high = h->next;
        if (h->next == before) // what hangs there already is enough; none is taken off
            h->low = h->next - 1;
    } else {
        h->low = h->next;
    }
    if (h->high >= 0 && h->high - h->low <= 1) {
        h->open = false;
    } else if (h->high >= 0) {
        h->next = h->high - h->low > 4 ? (h->high + h->low) / 2 : h->high - 1;
    } else {
        const double load = (base + h->low) * (1.0 - (isnan(h->share) ? 0.0 : h->share));
        h->next = (int)fmax(h->low + 1, ceil(load / (1.0 - limit) - 1e-9) - base);
        h->open = h->next <= most;
    }
}

static bool start_hunts(bys_calendar_work *work, int month, hunt *hunts, double limit) {
    const bys_calendar *c = &work->calendar;
    bool any = false;
    for (int l = 0; l < c->plan_count; l++) {
        const int before = hanging(&c->plans[l], month), base = c->plans[l].row[month];
        const double share = crop_reserve(c, month, l);
        hunts[l] = (hunt){0, -1, before, false, share};
        if (before < 0 || base == 0 || !(share < limit - 1e-12))
            continue;
        hunts[l].open = twin_of(work, month, l) < 0;
        any = true;
        if (before == 0)
            step(&hunts[l], base, limit, -1);
    }
    return any;
}

static void keep_hunts(bys_calendar_work *work, int month, const hunt *hunts, double limit) {
    bys_calendar *c = &work->calendar;
    for (int l = 0; l < c->plan_count; l++) {
        bys_float_plan *plan = &c->plans[l];
        const int before = hanging(plan, month);
        const bool short_of = crop_reserve(c, month, l) < limit - 1e-12;
        const int twin = short_of && before >= 0 ? twin_of(work, month, l) : -1;
        plan->added[month] = !short_of || before < 0 ? before
                             : plan->row[month] == 0 ? -1
                             : twin >= 0             ? c->plans[twin].added[month]
                                                     : hunts[l].high;
        if (plan->added[month] != 0 && plan->first < 0)
            plan->first = month;
        c->to_add += plan->added[month] > plan->total ? plan->added[month] - plan->total : 0;
        plan->total = plan->added[month] > plan->total ? plan->added[month] : plan->total;
        c->short_of = c->short_of || plan->added[month] < 0;
        c->months[month].to_add += plan->added[month] > 0 ? plan->added[month] : 0;
    }
}

static bool any_open(const hunt *hunts, int n) {
    for (int l = 0; l < n; l++)
        if (hunts[l].open)
            return true;
    return false;
}

bys_rc bys_calendar_need(bys_calendar_work *work, bys_error *err) {
    bys_calendar *c = &work->calendar;
    hunt *hunts = bys_arena_get(work->arena, ((size_t)c->plan_count + 1) * sizeof *hunts);
    bys_rc rc = BYS_OK;
    work->failed = work->failed || !hunts;
    for (int m = 0; !rc && hunts && !isnan(c->reserve) && m < c->month_count; m++) {
        const bool any = start_hunts(work, m, hunts, c->reserve);
        for (int pass = 0; any && !rc && pass < 40 && any_open(hunts, c->plan_count); pass++) {
            rc = try_all(work, m, hunts, err);
            for (int l = 0; !rc && l < c->plan_count; l++)
                if (hunts[l].open)
                    step(&hunts[l], c->plans[l].row[m], c->reserve, hanging(&c->plans[l], m));
        }
        keep_hunts(work, m, hunts, c->reserve);
    }
    return rc;
}
