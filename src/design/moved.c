// SPDX-License-Identifier: GPL-3.0-or-later
// One connected part with one anchor laid elsewhere.
//
// NOTES     1. Lengths stay as made, and the anchor's heading as planned. The anchor stays on the
//              bed plane; what else hangs on it goes with it.
//           2. Looked at: all that `check` demands of that part: strength of every piece with a
//              part, anchors, lease, and float reserve, gear height, excursion and distance between
//              lines where the rules set a limit. With a leg lost only where that is demanded.
//           3. Excursion is counted from slack water with the anchor in its new place.
//           4. Other parts stay where they are in that case.
#include "design/moved.h"

#include "design/sensitivities.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

// ---- memory ---------------------------------------------------------------------------------

bys_rc bys_moved_open(bys_judge *judge, bys_moved_place *p, int stage, bys_error *err)
{
    const bys_network *net = judge->stages[stage].net;
    if (p->net.points)
        return BYS_OK;
    const size_t points = (size_t)net->point_count + 1;
    p->net = *net;
    p->net.points = malloc(points * sizeof *p->net.points);
    p->outline = malloc(6 * points * sizeof *p->outline);
    p->place.solvers = calloc((size_t)net->island_count + 1, sizeof *p->place.solvers);
    if (!p->net.points || !p->outline || !p->place.solvers)
        return bys_error_set(err, BYS_ENOMEM, 0, "out of memory for the laying tolerance");
    memcpy(p->net.points, net->points, (size_t)net->point_count * sizeof *net->points);
    bys_rc rc = bys_state_new(&p->place.intact, &p->net, err);
    if (!rc)
        rc = bys_state_new(&p->place.lost, &p->net, err);
    return rc ? rc : bys_state_new(&p->rest, &p->net, err);
}

void bys_moved_close(bys_judge *judge, bys_moved_place *p, int stage)
{
    bys_workplace_close(judge, &p->place, stage);
    bys_state_free(p->rest);
    free(p->net.points);
    free(p->outline);
}

// ---- what is looked at ----------------------------------------------------------------------

typedef struct {
    bys_judge *judge;
    const bys_job *job;
    const bys_stage_set *set;
    bys_moved_place *p;
    int island, leg, lost;
    bys_moved_seen *seen;
} look;

static void take(const look *l, double use, bys_moved_check check, const char *item)
{
    const double value = isnan(use) ? INFINITY : use;
    if (value > l->seen->use)
        *l->seen = (bys_moved_seen){value, check, item, l->lost};
}

/// A limit that is kept counts as no use at all.
static void take_limit(const look *l, bool kept, bys_moved_check check, const char *item)
{
    take(l, kept ? 0.0 : 2.0, check, item);
}

static void take_piece(const look *l, int piece, double tension)
{
    const bys_piece *p = &l->judge->pieces[piece];
    if (p->part && (l->lost < 0 || p->leg != l->lost))
        take(l, p->per_newton * tension, BYS_MOVED_LINE, p->id);
}

static void look_at_pieces(const look *l, const bys_state *state)
{
    const bys_stage_set *set = l->set;
    for (int k = set->section_from[l->island]; k < set->section_from[l->island + 1]; k++) {
        const int s = set->section_list[k];
        take_piece(l, set->piece_of_section[s], bys_section_tension(&state->sections[s]));
    }
    for (int k = set->fitting_from[l->island]; k < set->fitting_from[l->island + 1]; k++) {
        const int f = set->fitting_list[k];
        double most = 0.0;
        for (int e = set->first_of_fitting[f]; e < set->first_of_fitting[f + 1]; e++) {
            const bys_section_state *s = &state->sections[set->end_of_fitting[e] / 2];
            if (s->active)
                most = fmax(most, set->end_of_fitting[e] % 2 ? s->tension_b : s->tension_a);
        }
        take_piece(l, set->piece_of_fitting[f], most);
    }
    const bys_island *part = &set->net->islands[l->island];
    for (int k = 0; k < part->leg_count; k++) {
        const int leg = part->legs[k], piece = set->piece_of_foot[leg];
        if (piece >= 0)
            take_piece(l, piece, state->sections[set->net->legs[leg].first_section].tension_a);
    }
}

static void look_at_anchors(const look *l, const bys_state *state)
{
    const bys_network *net = l->set->net;
    for (int k = 0; k < net->islands[l->island].leg_count; k++) {
        const int leg = net->islands[l->island].legs[k], a = net->legs[leg].anchor;
        if (a < 0 || leg == l->lost || !net->anchors[a].part ||
            net->anchors[a].part->u.anchor.kind == BYS_ANCHOR_FIXED)
            continue;
        bys_anchor_seen seen;
        bys_observe_anchor(&seen, l->judge, l->job, state, a, l->lost);
        take(l, seen.trouble == BYS_SEEN_OK ? seen.utilisation : INFINITY, BYS_MOVED_ANCHOR,
             net->anchors[a].id);
    }
}

// ---- lease ----------------------------------------------------------------------------------

static bool kept_inside(const bys_site *site, double x, double y)
{
    return bys_plan_inside(site->lease_x, site->lease_y, site->lease_count, x, y) >=
           fmax(site->lease_margin, 0.0);
}

static void look_inside(const look *l, const bys_state *state)
{
    const bys_site *site = l->judge->site;
    const bys_network *net = l->set->net;
    if (site->lease_count < 3)
        return;
    for (int k = 0; k < net->islands[l->island].point_count; k++) {
        const int p = net->islands[l->island].points[k];
        const double *x = state->x + 3 * p;
        if (net->points[p].kind != BYS_POINT_FIXED)
            take_limit(l, kept_inside(site, x[0], x[1]), BYS_MOVED_LEASE, net->legs[l->leg].id);
    }
    const int a = net->legs[l->leg].anchor;
    if (a < 0)
        return;
    const bys_anchor *anchor = &net->anchors[a];
    const double *x = state->x + 3 * anchor->point;
    const double back = anchor->part && anchor->part->u.anchor.kind == BYS_ANCHOR_DRAG
                            ? fmax(anchor->part->u.anchor.setback, 0.0)
                            : 0.0;
    take_limit(l, kept_inside(site, x[0], x[1]), BYS_MOVED_LEASE, anchor->id);
    take_limit(l, kept_inside(site, x[0] - back * sin(anchor->heading),
                              x[1] - back * cos(anchor->heading)),
               BYS_MOVED_LEASE, anchor->id);
}

// ---- floats, gear, excursion, clearance -----------------------------------------------------

static void look_at_floats(const look *l, const bys_state *state, const bys_sea *sea)
{
    const bys_island *part = &l->set->net->islands[l->island];
    const double limit = l->judge->site->rules.float_reserve;
    for (int k = 0; !isnan(limit) && bys_sea_slack(sea) && k < part->float_count; k++) {
        const bys_float_set *f = &l->set->net->floats[part->floats[k]];
        const bys_float_part *u = &f->part->u.buoy;
        const double lift = (sea->rho * u->volume - u->mass) * sea->gravity;
        if (!f->at_end)
            take_limit(l, fmax(state->lift_left[part->floats[k]] / lift, 0.0) >= limit,
                       BYS_MOVED_FLOATS, f->id);
    }
}

static void look_at_gear(const look *l, const bys_state *state, const bys_sea *sea)
{
    const bys_island *part = &l->set->net->islands[l->island];
    const double limit = l->judge->site->rules.gear_clearance;
    for (int k = 0; !isnan(limit) && sea->has_bed && k < part->gear_count; k++) {
        const bys_gear_set *g = &l->set->net->gears[part->gears[k]];
        const double *x = state->x + 3 * g->point, bed = bys_sea_bed_z(sea, x[0], x[1]);
        const double upright = x[2] - g->part->u.gear.drop - g->values->height;
        take_limit(l, fmin(upright, state->gear_low[part->gears[k]]) - bed >= limit,
                   BYS_MOVED_GEAR, g->id);
    }
}

static void look_at_excursion(const look *l, const bys_state *state)
{
    const bys_network *net = l->set->net;
    const double limit = l->judge->site->rules.max_excursion;
    for (int k = 0; !isnan(limit) && k < net->islands[l->island].point_count; k++) {
        const int p = net->islands[l->island].points[k];
        const double *a = state->x + 3 * p, *b = l->p->rest->x + 3 * p;
        bool counts = net->points[p].kind == BYS_POINT_BODY;
        for (int i = 0; i < net->line_count && !counts; i++)
            for (int q = 0; q < net->lines[i].point_count && !counts; q++)
                counts = net->lines[i].points[q] == p;
        if (counts)
            take_limit(l, hypot(a[0] - b[0], a[1] - b[1]) <= limit, BYS_MOVED_EXCURSION,
                       net->legs[l->leg].id);
    }
}

static int polyline(double *out, const bys_line *line, const bys_state *state)
{
    for (int k = 0; k < line->point_count; k++)
        memcpy(out + 3 * k, state->x + 3 * line->points[k], 3 * sizeof *out);
    return line->point_count;
}

static void look_at_clearance(const look *l, const bys_state *state)
{
    const bys_network *net = l->set->net;
    const double limit = l->judge->site->rules.line_clearance;
    for (int i = 0; !isnan(limit) && i < net->line_count; i++) {
        if (net->lines[i].island != l->island)
            continue;
        double *a = l->p->outline, *b = a + 3 * net->point_count;
        const int na = polyline(a, &net->lines[i], state);
        for (int k = 0; k < net->line_count; k++) {
            if (k == i || state->islands[net->lines[k].island].status != BYS_STABLE)
                continue;
            const int nb = polyline(b, &net->lines[k], state);
            take_limit(l, bys_plan_gap(a, na, b, nb) >= limit, BYS_MOVED_CLEARANCE,
                       net->lines[k].id);
        }
    }
}

// ---- solving --------------------------------------------------------------------------------

bool bys_moved_wants(const bys_judge *judge, const bys_job *job)
{
    const bool slack = bys_environment_slack(bys_job_environment(judge, job));
    return bys_job_demanded(judge, job) ||
           (slack && !isnan(judge->site->rules.float_reserve)) ||
           !isnan(judge->site->rules.line_clearance);
}

bys_rc bys_moved_neighbours(bys_judge *judge, const bys_job *job, bys_moved_place *p, int leg,
                            int *solves, bys_error *err)
{
    const bys_stage_set *set = bys_job_stage(judge, job);
    if (isnan(judge->site->rules.line_clearance))
        return BYS_OK;
    for (int i = 0; i < p->net.island_count; i++) {
        const bys_task task = {.state = p->place.intact,
                               .island = i,
                               .sea = &bys_job_environment(judge, job)->sea};
        const bys_rc rc =
            i == set->island_of_leg[leg] ? BYS_OK : bys_workplace_solve(&p->place, &task, err);
        if (rc)
            return rc;
        *solves += i != set->island_of_leg[leg];
    }
    return BYS_OK;
}

static void put_foot(const look *l, double radius, int bearing, const bys_sea *sea)
{
    const bys_network *net = l->set->net;
    const int foot = net->legs[l->leg].foot;
    const double angle = 2.0 * 3.14159265358979323846 * bearing / BYS_BEARINGS;
    const double *from = net->points[foot].x, *n = sea->bed_normal;
    const double east = radius * sin(angle), north = radius * cos(angle);
    double *x = l->p->net.points[foot].x;
    x[0] = from[0] + east;
    x[1] = from[1] + north;
    x[2] = from[2] - (sea->has_bed && n[2] > 0.0 ? (n[0] * east + n[1] * north) / n[2] : 0.0);
    if (sea->map)
        x[2] = bys_sea_bed_z(sea, x[0], x[1]);
    memcpy(l->p->place.intact->x + 3 * foot, x, 3 * sizeof *x);
    memcpy(l->p->rest->x + 3 * foot, x, 3 * sizeof *x);
}

/// Slack water at the job's level with the anchor where it is now.
static bys_rc find_rest(const look *l, int *solves, bys_error *err)
{
    const bys_sea *sea = &bys_job_environment(l->judge, l->job)->sea;
    for (int e = 0; e < l->judge->env.count; e++) {
        const bys_environment *item = &l->judge->env.items[e];
        if (!bys_environment_slack(item) || item->sea.level != sea->level)
            continue;
        const bys_task task = {.state = l->p->rest, .island = l->island, .sea = &item->sea};
        const bys_rc rc = bys_workplace_solve(&l->p->place, &task, err);
        ++*solves;
        if (!rc && l->p->rest->islands[l->island].status != BYS_STABLE)
            take(l, INFINITY, BYS_MOVED_EQUILIBRIUM, l->set->net->legs[l->leg].id);
        return rc;
    }
    return BYS_OK;
}

static bys_rc solve_lost(look *l, const bys_sea *sea, int lost, int *solves, bys_error *err)
{
    int sections[BYS_LEG_SECTIONS];
    const bys_condition condition = {
        .id = "lost",
        .sections = sections,
        .section_count = bys_leg_sections(l->set->net, lost, sections)};
    bys_state *state = l->p->place.lost;
    bys_state_copy_island(state, l->p->place.intact, l->island);
    const bys_task task = {.state = state,
                           .island = l->island,
                           .condition = &condition,
                           .sea = sea,
                           .warm = true};
    const bys_rc rc = bys_workplace_solve(&l->p->place, &task, err);
    ++*solves;
    if (rc)
        return rc;
    l->lost = lost;
    if (state->islands[l->island].status != BYS_STABLE) {
        take(l, INFINITY, BYS_MOVED_EQUILIBRIUM, l->set->net->legs[lost].id);
    } else {
        look_at_pieces(l, state);
        look_at_anchors(l, state);
    }
    l->lost = -1;
    return BYS_OK;
}

static bys_rc look_at_lost(look *l, const bys_sea *sea, int *solves, bys_error *err)
{
    const bys_island *part = &l->set->net->islands[l->island];
    bys_rc rc = BYS_OK;
    for (int k = 0; !rc && part->leg_count > 1 && k < part->leg_count; k++)
        rc = solve_lost(l, sea, part->legs[k], solves, err);
    return rc;
}

static void look_at_all(const look *l, const bys_state *state, const bys_sea *sea, bool demanded)
{
    if (demanded) {
        look_at_pieces(l, state);
        look_at_anchors(l, state);
        look_inside(l, state);
        look_at_gear(l, state, sea);
        look_at_excursion(l, state);
    }
    look_at_floats(l, state, sea);
    look_at_clearance(l, state);
}

bys_rc bys_moved_look(bys_moved_seen *seen, bys_judge *judge, const bys_job *job,
                      bys_moved_place *p, int leg, double radius, int bearing, int *solves,
                      bys_error *err)
{
    const bys_stage_set *set = bys_job_stage(judge, job);
    look l = {judge, job, set, p, set->island_of_leg[leg], leg, -1, seen};
    const bys_sea *sea = &bys_job_environment(judge, job)->sea;
    const bool demanded = bys_job_demanded(judge, job);
    bys_state *state = p->place.intact;
    *seen = (bys_moved_seen){0.0, BYS_MOVED_NOTHING, "", -1};
    put_foot(&l, radius, bearing, sea);
    bys_rc rc = BYS_OK;
    if (demanded && !isnan(judge->site->rules.max_excursion))
        rc = find_rest(&l, solves, err);
    const bys_task task = {.state = state,
                           .island = l.island,
                           .sea = sea};
    if (!rc)
        rc = bys_workplace_solve(&p->place, &task, err);
    ++*solves;
    if (rc)
        return rc;
    if (state->islands[l.island].status != BYS_STABLE) {
        take(&l, INFINITY, BYS_MOVED_EQUILIBRIUM, set->net->legs[leg].id);
        return BYS_OK;
    }
    look_at_all(&l, state, sea, demanded);
    return demanded && judge->lost_demanded ? look_at_lost(&l, sea, solves, err) : BYS_OK;
}
