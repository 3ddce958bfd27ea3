// SPDX-License-Identifier: GPL-3.0-or-later
// Which drag coefficients are in use, where each comes from, and where one is used outside the range
// of its source. The speed that a part meets is taken as that at the surface, current and orbital
// motion together: the largest of the case.
#include "base/codes.h"
#include "design/judge.h"

#include <math.h>
#include <string.h>

enum { ROOM = 128 };

static const char *const laws[] = {"outline", "panel",  "lantern", "net",    "net-loland",
                                   "net-kristiansen", "basket", "weed",   "line",
                                   "sphere",  "barrel", "hull"};

/// One use: the row, and what its range is looked up with.
typedef struct {
    bys_drag_row row;
    const bys_part *part;
    const bys_drag_use *use;
    double width;          ///< m, for the Reynolds number
    int stage;             ///< of the judge's list: the case is named with it
    const bys_gear_set *gear; ///< NULL
} drag_use;

static void put(bys_judge *judge, const drag_use *u)
{
    bys_design *out = judge->out;
    for (int i = 0; i < out->drag_count; i++)
        if (strcmp(out->drags[i].part, u->row.part) == 0 &&
            strcmp(out->drags[i].stage, u->row.stage) == 0 &&
            strcmp(out->drags[i].of, u->row.of) == 0)
            return;
    if (out->drag_count < ROOM)
        out->drags[out->drag_count++] = u->row;
}

/// Record, basis and source: of the part's own number, of its record, or of what is built in.
static void fill(bys_judge *judge, drag_use *u, bys_basis own, const char *built_in)
{
    bys_drag_row *row = &u->row;
    const bys_part *record = u->use->record;
    row->part = u->part->item.id;
    row->record = record ? record->item.id : "";
    row->because = u->use->because ? u->use->because : "";
    row->low = record ? record->u.drag.low : NAN;
    row->high = record ? record->u.drag.high : NAN;
    row->law = record ? laws[record->u.drag.law] : "";
    if (u->use->stated) {
        row->basis = own;
        row->source = u->part->item.source;
    } else if (record) {
        row->basis = record->item.basis;
        row->source = record->item.source;
    } else {
        row->basis = BYS_BASIS_MEMORY;
        row->source = built_in;
    }
    (void)judge;
}

// ---- range of the source ---------------------------------------------------------------------

static double speed_in(const bys_environment *e, int shelter)
{
    const bys_sea *sea = &e->sea;
    if (!isfinite(sea->level))
        return sea->current_speed;
    return hypot(bys_sea_flow(sea, sea->level, shelter).U, bys_sea_sigma(sea, sea->level, NULL));
}

/// The demanded case in which `value` = speed times `per_speed` is largest.
static double largest(const bys_judge *judge, double per_speed, const bys_environment **where)
{
    double most = 0.0;
    *where = NULL;
    for (int e = 0; e < judge->env.count; e++) {
        const bys_environment *item = &judge->env.items[e];
        const double value = item->demanded ? per_speed * speed_in(item, 0) : 0.0;
        if (value > most) {
            most = value;
            *where = item;
        }
    }
    return most;
}

static void warn(bys_judge *judge, const drag_use *u, const char *what)
{
    bys_messages_add(judge->messages, BYS_WARNING, BYS_M_drag_range, u->part->item.place,
                     "%s: the drag record %s is used outside its range: %s", u->part->item.id,
                     u->row.record, what);
}

static void check_range(bys_judge *judge, const drag_use *u, const char *what, double per_speed,
                        double from, double to)
{
    const bys_environment *where;
    const double most = largest(judge, per_speed, &where);
    if (!where || !(most > to || most < from))
        return;
    warn(judge, u,
         bys_judge_text(judge, "%s %.3g in case %s:%s:intact, the source holds from %.3g to %.3g",
                        what, most, where->id, judge->stages[u->stage].id, from, to));
}

/// Ranges that do not hang on the case: sinker, solidity.
static void check_fixed(bys_judge *judge, const drag_use *u)
{
    const bys_law law = u->use->record->u.drag.law;
    const bys_gear_part *g = u->gear ? &u->part->u.gear : NULL;
    bool inside = true;
    if (g && law == BYS_LAW_LANTERN && (g->sinker < 0.5 || g->sinker > 1.0))
        warn(judge, u, bys_judge_text(judge, "sinker %.3g kg in every case, the source holds from "
                                             "0.5 to 1 kg", g->sinker));
    if (g && (law == BYS_LAW_NET || law == BYS_LAW_NET_KRISTIANSEN))
        inside = u->gear->values->solidity <= 0.6;
    if (!inside)
        warn(judge, u, bys_judge_text(judge, "solidity %.3g in every case, Kristiansen's law holds "
                                             "to 0.6", u->gear->values->solidity));
}

static void check(bys_judge *judge, const drag_use *u)
{
    const bys_part *record = u->use->record;
    if (!record || u->use->stated)
        return;
    const bys_drag_part *d = &record->u.drag;
    const double low = isfinite(d->reynolds_from) ? d->reynolds_from : 0.0;
    const double high = isfinite(d->reynolds_to) ? d->reynolds_to : INFINITY;
    if ((low > 0.0 || isfinite(high)) && u->width > 0.0)
        check_range(judge, u, "Reynolds number", u->width / BYS_NU, low, high);
    const double slow = isfinite(d->speed_from) ? d->speed_from : 0.0;
    const double fast = isfinite(d->speed_to) ? d->speed_to : INFINITY;
    if (slow > 0.0 || isfinite(fast))
        check_range(judge, u, "speed in m/s", 1.0, slow, fast);
    check_fixed(judge, u);
}

static void add(bys_judge *judge, drag_use *u)
{
    const int before = judge->out->drag_count;
    put(judge, u);
    if (judge->out->drag_count > before)
        check(judge, u);
}

// ---- parts -----------------------------------------------------------------------------------

static void add_line(bys_judge *judge, const bys_section *s, int stage)
{
    static const char *const ropes = "built in: rope 1.6 across, DNV-OS-E301, memory";
    static const char *const chains =
        "built in: stud chain 2.6, other chain 2.4 across, DNV-OS-E301, memory";
    if (!s->part)
        return;
    const bys_line_part *line = &s->part->u.line;
    drag_use u = {.part = s->part, .use = &line->drag, .width = line->diameter, .stage = stage};
    u.row = (bys_drag_row){.kind = s->part->kind == BYS_PART_CHAIN ? "chain" : "rope",
                           .stage = "", .of = "", .credit = "",
                           .coefficient = line->cd_normal, .second = line->cd_tangential,
                           .second_is = "along, on pi times the diameter"};
    fill(judge, &u, s->part->item.basis, s->part->kind == BYS_PART_CHAIN ? chains : ropes);
    add(judge, &u);
}

static void add_float(bys_judge *judge, const bys_float_set *set, int stage)
{
    const bys_float_part *f = &set->part->u.buoy;
    drag_use u = {.part = set->part, .use = &f->drag, .width = f->diameter, .stage = stage};
    u.row = (bys_drag_row){.kind = "float", .stage = "", .of = "", .credit = "", .second_is = "",
                           .coefficient = f->barrel_law ? NAN : f->cd, .second = NAN};
    fill(judge, &u, set->part->item.basis, "built in: sphere 0.5, barrel 1.2, memory");
    add(judge, &u);
}

static const char *credit_of(bys_judge *judge, const bys_gear_set *set)
{
    const bys_gear_part *g = &set->part->u.gear;
    const char *swing = "", *file = "";
    if (set->swing_relief > 0.0)
        swing = bys_judge_text(judge, "legs take %.2f of the upright drag (%s): %s. ",
                               1.0 - set->swing_relief, g->swing_tested ? "tow test" : "judgement",
                               g->swing_because);
    if (set->file_relief > 0.0)
        file = bys_judge_text(judge, "in a current along the line it keeps %.2f of its drag.",
                              1.0 - set->file_relief);
    return *swing || *file ? bys_judge_text(judge, "%s%s", swing, file) : "";
}

static void add_gear(bys_judge *judge, const bys_gear_set *set, int stage)
{
    const bys_gear_values *v = set->values;
    const bool by_law = set->law.kind == BYS_DRAG_NET || set->law.kind == BYS_DRAG_NET_LOLAND ||
                        set->law.kind == BYS_DRAG_NET_KRISTIANSEN;
    const bool flat = set->law.kind == BYS_DRAG_PANEL;
    drag_use u = {.part = set->part, .use = &v->drag, .width = v->width, .stage = stage,
                  .gear = set};
    if (by_law)
        u.width = set->law.twine > 0.0 ? set->law.twine / (1.0 - fmin(v->solidity, 0.9)) : 0.0;
    u.row = (bys_drag_row){.kind = "gear",
                           .stage = v->stage,
                           .of = v->target ? v->target : "",
                           .coefficient = by_law ? NAN : set->law.cd,
                           .second = flat ? set->law.edge : NAN,
                           .second_is = flat ? "edge-on, on the face" : ""};
    u.row.credit = credit_of(judge, set);
    fill(judge, &u, v->basis, "");
    add(judge, &u);
}

static void add_raft(bys_judge *judge, const bys_body *body, int stage)
{
    if (!body->part)
        return;
    const bys_raft_part *r = &body->part->u.raft;
    drag_use u = {.part = body->part, .use = &r->drag, .width = r->pontoon_length, .stage = stage};
    u.row = (bys_drag_row){.kind = "raft", .stage = "", .of = "", .credit = "",
                           .coefficient = r->cd_hull, .second = r->cd_end,
                           .second_is = "end-on"};
    fill(judge, &u, body->part->item.basis, "built in: 1.2 on all sides, memory");
    add(judge, &u);
}

void bys_judge_drag(bys_judge *judge)
{
    judge->out->drags = bys_judge_get(judge, ROOM, sizeof *judge->out->drags);
    for (int k = 0; judge->out->drags && k < judge->stage_count; k++) {
        const bys_network *net = judge->stages[k].net;
        for (int i = 0; i < net->section_count; i++)
            add_line(judge, &net->sections[i], k);
        for (int i = 0; i < net->float_count; i++)
            add_float(judge, &net->floats[i], k);
        for (int i = 0; i < net->gear_count; i++)
            if (net->gears[i].lawful)
                add_gear(judge, &net->gears[i], k);
        for (int i = 0; i < net->body_count; i++)
            add_raft(judge, &net->bodies[i], k);
    }
}
