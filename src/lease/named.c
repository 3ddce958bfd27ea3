// SPDX-License-Identifier: GPL-3.0-or-later
// Refuses conditions that name something that the layout does not have.
#include "lease/expand.h"
#include "lease/find.h"
#include "site/check.h"

typedef struct { const char *word, *what; bys_place place; } naming;

#define TRY_ALL(list, count)                                                                       \
    for (int i = 0; i < net->count; i++)                                                           \
        bys_near_try(&near, net->list[i].id)

static void say_unknown(bys_expansion *x, const char *condition, const naming *n, int kinds)
{
    const bys_network *net = x->net;
    bys_near near = bys_near_start(n->word);
    if (kinds & 1)
        TRY_ALL(lines, line_count);
    if (kinds & 2)
        TRY_ALL(legs, leg_count);
    if (kinds & 4)
        TRY_ALL(anchors, anchor_count);
    if (kinds & 8)
        TRY_ALL(bodies, body_count);
    const char *best = bys_near_best(&near);
    bys_expand_fault(x, BYS_M_condition_target, n->place,
                     "condition '%s' names the %s '%.60s', which the layout does not have%s%s%s",
                     condition, n->what, n->word, best ? "; did you mean '" : "", best ? best : "",
                     best ? "'?" : "");
}

static void check_take(bys_expansion *x, const char *condition, const bys_take *t)
{
    static const char *const what[] = {[BYS_TAKE_LEG] = "leg",
                                       [BYS_TAKE_ANCHOR] = "anchor",
                                       [BYS_TAKE_FLOAT] = "floats",
                                       [BYS_TAKE_CUT] = "line",
                                       [BYS_TAKE_LOAD] = "place"};
    static const int kinds[] = {[BYS_TAKE_LEG] = 2,
                                [BYS_TAKE_ANCHOR] = 4,
                                [BYS_TAKE_FLOAT] = 0,
                                [BYS_TAKE_CUT] = 3,
                                [BYS_TAKE_LOAD] = 11};
    const naming n = {t->target, what[t->kind], t->place};
    int cut[4];
    const bool known = t->kind == BYS_TAKE_LEG      ? bys_find_leg(x->net, t->target) >= 0
                       : t->kind == BYS_TAKE_ANCHOR ? bys_find_anchor(x->net, t->target) >= 0
                       : t->kind == BYS_TAKE_FLOAT  ? bys_find_float(x->net, t->target) >= 0
                       : t->kind == BYS_TAKE_CUT
                           ? bys_find_cut(x->net, t->target, t->at, cut, 4) > 0
                           : bys_find_point(x->net, t->target, t->at) >= 0;
    if (known)
        return;
    if (t->kind != BYS_TAKE_FLOAT)
        say_unknown(x, condition, &n, kinds[t->kind]);
    else if (x->messages) // floats change with the crop stage
        bys_messages_add(x->messages, BYS_WARNING, BYS_M_condition_floats, t->place,
                         "condition '%s' takes away the floats '%.60s', which are not there at "
                         "crop stage '%s': none is lost then",
                         condition, t->target, x->stage ? x->stage->item.id : "as written");
}

void bys_expand_conditions(bys_expansion *x)
{
    const bys_site *site = x->site;
    for (int i = 0; i < site->vessel_count; i++) {
        const bys_vessel *v = &site->vessels[i];
        const naming n = {v->to, "place", v->item.place};
        if (bys_find_point(x->net, v->to, v->at) < 0)
            say_unknown(x, v->item.id, &n, 11);
    }
    for (int i = 0; i < site->lift_count; i++) {
        const bys_lift *l = &site->lifts[i];
        const naming n = {l->to, "place", l->item.place};
        if (bys_find_point(x->net, l->to, l->at) < 0)
            say_unknown(x, l->item.id, &n, 3);
    }
    for (int i = 0; i < site->condition_count; i++)
        for (int k = 0; k < site->conditions[i].take_count; k++)
            check_take(x, site->conditions[i].item.id, &site->conditions[i].takes[k]);
}
