// SPDX-License-Identifier: GPL-3.0-or-later
// Which months are looked at, and the crop stage of each.
//
// NOTES     Dated stages, in order of their months. Where the site says that gear grows evenly,
// every
//           whole month between the first and the last date as well: its gear lies between the
//           stages before and after, by time; the rows of floats are those of the stage before.
//           Nothing grows from the stage bare, nor gear that is not there: it is hung at the next
//           date. Ropes bed in evenly too.
// SOURCE    straight lines between dates: the user's choice in the site file.
#include "base/codes.h"
#include "design/calendar.h"

#include <math.h>
#include <string.h>

static bool dated(const bys_stage *stage) {
    // copies for the bedding-in of ropes are not months of their own
    return isfinite(stage->month) && (!stage->like || !strcmp(stage->like, stage->item.id));
}

/// Stages that somebody wrote and that have no date.
static void say_left_out(bys_calendar_work *work) {
    for (int s = 0; s < work->site->stage_count; s++) {
        const bys_stage *stage = &work->site->stages[s];
        const bool copy = stage->like && strcmp(stage->like, stage->item.id) != 0;
        if (isnan(stage->month) && stage->item.place.line > 0 && !copy)
            bys_messages_add(work->messages, BYS_WARNING, BYS_M_calendar_left_out,
                             stage->item.place, "stage %s has no month and is left out",
                             stage->item.id);
    }
}

/// Indices of dated stages by rising month.
static int order(int *out, const bys_site *site) {
    int n = 0;
    for (int s = 0; s < site->stage_count; s++) {
        if (!dated(&site->stages[s]))
            continue;
        int k = n++;
        for (; k > 0 && site->stages[out[k - 1]].month > site->stages[s].month; k--)
            out[k] = out[k - 1];
        out[k] = s;
    }
    return n;
}

static bool at(double a, double b) {
    return fabs(a - b) < 1e-9;
}

static const char *keep(bys_calendar_work *work, const char *made) {
    work->failed = work->failed || !made;
    return made ? made : "";
}

static void add_exact(bys_calendar_work *work, const bys_stage *stage) {
    bys_calendar *c = &work->calendar;
    const int m = c->month_count++;
    work->stages[m] = *stage;
    work->stages[m].like = stage->item.id;
    c->months[m] = (bys_month){
        .month = stage->month,
        .stage = keep(work, bys_arena_copy(work->arena, stage->item.id)),
        .name = keep(work, bys_arena_copy(work->arena,
                                          *stage->item.name ? stage->item.name : stage->item.id))};
}

static void add_between(bys_calendar_work *work, double month, const bys_stage *a,
                        const bys_stage *b) {
    bys_calendar *c = &work->calendar;
    const int m = c->month_count++;
    const double share = (month - a->month) / (b->month - a->month);
    bys_stage *stage = &work->stages[m];
    *stage = *a;
    stage->item.id = keep(work, bys_arena_format(work->arena, "month-%g", month));
    stage->item.name = keep(work, bys_arena_format(work->arena, "month %g", month));
    stage->like = a->item.id;
    stage->towards = strcmp(a->item.id, "bare") ? b->item.id : NULL;
    stage->share = share;
    stage->bedding_in = a->bedding_in + share * (b->bedding_in - a->bedding_in);
    c->months[m] = (bys_month){.month = month,
                               .stage = keep(work, bys_arena_copy(work->arena, a->item.id)),
                               .name = stage->item.name,
                               .between = true};
}

static bool give_room(bys_calendar_work *work, int dates, double span) {
    const size_t most = (size_t)dates + (size_t)fmax(span, 0.0) + 2;
    work->calendar.months = bys_arena_get(work->arena, most * sizeof *work->calendar.months);
    work->stages = bys_arena_get(work->arena, most * sizeof *work->stages);
    return work->calendar.months && work->stages;
}

bool bys_calendar_date(bys_calendar_work *work) {
    const bys_site *site = work->site;
    int *list = bys_arena_get(work->arena, ((size_t)site->stage_count + 1) * sizeof *list);
    const int n = list ? order(list, site) : 0;
    work->failed = work->failed || !list;
    if (list && n == 0)
        bys_messages_add(work->messages, BYS_FAULT, BYS_M_calendar_undated,
                         (bys_place){bys_messages_file(work->messages, site->file), 0, 0},
                         "no crop stage has a month: write <stage id=\"...\" month=\"6\"/>");
    if (n == 0)
        return false;
    say_left_out(work);
    const double first = site->stages[list[0]].month, last = site->stages[list[n - 1]].month;
    if (!give_room(work, n, last - first)) {
        work->failed = true;
        return false;
    }
    for (int k = 0; k < n; k++) {
        const bys_stage *a = &site->stages[list[k]];
        const bys_stage *b = k + 1 < n ? &site->stages[list[k + 1]] : NULL;
        add_exact(work, a);
        for (double m = floor(a->month) + 1.0; site->grows && b && m < b->month && !at(m, b->month);
             m += 1.0)
            add_between(work, m, a, b);
    }
    return !work->failed;
}
