// SPDX-License-Identifier: GPL-3.0-or-later
// Copies every text of the result into the design's own memory, so that it outlives the Site and
// the networks. Texts that are met again by address are copied once.
#include "design/judge.h"

#include <stdint.h>
#include <stdlib.h>

enum { SLOTS = 1 << 14 };

typedef struct {
    bys_judge *judge;
    const char **from, **to; ///< direct-mapped memory of what was copied last
} owner;

static size_t slot_of(const char *text)
{
    uintptr_t key = (uintptr_t)text;
    key ^= key >> 15;
    return (size_t)(key & (SLOTS - 1));
}

static void own(owner *o, const char **text)
{
    if (!*text)
        *text = "";
    const size_t slot = slot_of(*text);
    if (o->from[slot] != *text) {
        const char *copy = bys_arena_copy(o->judge->arena, *text);
        if (!copy) {
            o->judge->no_memory = true;
            return;
        }
        o->from[slot] = *text;
        o->to[slot] = copy;
    }
    *text = o->to[slot];
}

static void own_all(owner *o, const char **const *fields, size_t count)
{
    for (size_t i = 0; i < count; i++)
        own(o, (const char **)fields[i]);
}
#define OWN(o, ...)                                                                                \
    own_all(o, (const char **const[]){__VA_ARGS__},                                                \
            sizeof((const char **const[]){__VA_ARGS__}) / sizeof(const char **))

static void own_check(owner *o, bys_strength *c)
{
    OWN(o, &c->case_id, &c->condition, &c->analysis, &c->item, &c->component, &c->why, &c->source);
}

static void own_piece(owner *o, bys_leg_piece *piece)
{
    OWN(o, &piece->id, &piece->part, &piece->kind, &piece->ends);
    for (int i = 0; i < piece->reduction_count; i++)
        OWN(o, &piece->reductions[i].what);
}

static void own_legs(owner *o, bys_design *d)
{
    for (int i = 0; i < d->leg_count; i++) {
        bys_leg_result *leg = &d->legs[i];
        OWN(o, &leg->id, &leg->line, &leg->lost_case, &leg->lost_condition,
            &leg->pretension_from);
        OWN(o, &leg->rates.case_id, &leg->rates.item);
        OWN(o, &leg->passage.case_id, &leg->passage.text);
        OWN(o, &leg->tolerance.limited_by, &leg->tolerance.case_id, &leg->tolerance.same_as,
            &leg->tolerance.text);
        own_check(o, &leg->strength);
        own_check(o, &leg->anchor.check);
        for (int k = 0; k < leg->reported_count; k++)
            OWN(o, &leg->reported[k].kind, &leg->reported[k].case_id, &leg->reported[k].condition);
        for (int k = 0; k < leg->piece_count; k++)
            own_piece(o, &leg->pieces[k]);
    }
    for (int i = 0; i < d->anchor_count; i++) {
        OWN(o, &d->anchors[i].id, &d->anchors[i].part, &d->anchors[i].kind);
        for (int k = 0; k < d->anchors[i].method_count; k++)
            OWN(o, &d->anchors[i].methods[k].name);
    }
}

static void own_rows(owner *o, bys_design *d)
{
    for (int i = 0; i < d->finding_count; i++) {
        bys_finding *f = &d->findings[i];
        OWN(o, &f->kind, &f->item, &f->case_id, &f->condition, &f->unit, &f->text);
    }
    for (int i = 0; i < d->case_count; i++) {
        bys_case_result *c = &d->cases[i];
        OWN(o, &c->id, &c->environment, &c->stage, &c->condition, &c->reason, &c->analysis,
            &c->largest_leg, &c->words);
    }
    for (int i = 0; i < d->environment_count; i++) {
        bys_environment_row *e = &d->environments[i];
        OWN(o, &e->id, &e->level, &e->law, &e->because);
    }
    for (int i = 0; i < d->drop_count; i++)
        OWN(o, &d->drops[i].pattern, &d->drops[i].because);
    for (int i = 0; i < d->kind_count; i++)
        OWN(o, &d->kinds[i].kind, &d->kinds[i].leg, &d->kinds[i].case_id, &d->kinds[i].condition);
    for (int i = 0; i < d->plan_count; i++)
        OWN(o, &d->plan[i].id, &d->plan[i].kind);
    for (int i = 0; i < d->input_count; i++)
        OWN(o, &d->inputs[i].path, &d->inputs[i].text);
    for (int i = 0; i < d->factor_count; i++) {
        bys_factor_row *f = &d->factors[i];
        OWN(o, &f->name, &f->value, &f->clause, &f->source, &f->because);
    }
    for (int i = 0; i < d->level_count; i++)
        OWN(o, &d->levels[i].id);
}

static void own_cascades(owner *o, bys_design *d)
{
    for (int i = 0; i < d->cascade_count; i++) {
        bys_cascade *c = &d->cascades[i];
        OWN(o, &c->case_id, &c->words, &c->text);
        for (int k = 0; k < c->step_count; k++)
            OWN(o, &c->steps[k].kind, &c->steps[k].item, &c->steps[k].part, &c->steps[k].text);
        for (int k = 0; k < c->part_count; k++)
            OWN(o, &c->parts[k].part, &c->parts[k].end, &c->parts[k].reason);
    }
}

static void own_list(owner *o, const char **list, int count)
{
    for (int i = 0; i < count; i++)
        own(o, &list[i]);
}

static void own_accounts(owner *o, bys_design *d)
{
    for (int i = 0; i < d->drag_count; i++) {
        bys_drag_row *r = &d->drags[i];
        OWN(o, &r->part, &r->kind, &r->stage, &r->of, &r->record, &r->law, &r->second_is,
            &r->source, &r->because, &r->credit);
    }
    for (int i = 0; i < d->account_count; i++) {
        bys_load_account *a = &d->accounts[i];
        OWN(o, &a->case_id);
        own_list(o, a->legs, a->leg_count);
        for (int k = 0; k < a->row_count; k++)
            OWN(o, &a->rows[k].kind, &a->rows[k].part);
    }
}

bool bys_judge_own(bys_judge *judge)
{
    bys_design *d = judge->out;
    owner o = {judge, calloc(SLOTS, sizeof(char *)), calloc(SLOTS, sizeof(char *))};
    if (o.from && o.to) {
        OWN(&o, &d->site, &d->notice, &d->file, &d->sha256, &d->profile, &d->profile_title,
            &d->written_for, &d->verdict, &d->headline, &d->lease_id, &d->north, &d->profiles_leg,
            &d->frame.kind, &d->frame.north, &d->frame.datum, &d->frame.crs);
        own_legs(&o, d);
        own_rows(&o, d);
        own_cascades(&o, d);
        own_accounts(&o, d);
        own_list(&o, d->worst_things, d->worst_count);
        own_list(&o, d->warnings, d->warning_count);
        own_list(&o, d->sources, d->source_count);
        own_list(&o, d->unverified, d->unverified_count);
        own_list(&o, d->cautions, d->caution_count);
    } else {
        judge->no_memory = true;
    }
    free(o.from);
    free(o.to);
    return !judge->no_memory;
}
