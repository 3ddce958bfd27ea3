// SPDX-License-Identifier: GPL-3.0-or-later
// A hold test: did the anchor keep the proof load for the stated time, and does it lie in its box?
//
// GIVEN     readings with time, load and drag; load and time asked for; the anchor's place after the
//           test from the planned one
// RETURNED  longest time without a break at the load or more (straight lines between readings),
//           drag during it, verdict
// NOTES     1. Accepted: held for that time, and inside the box. A place that is not stated makes it
//              not checked, a load that was not held makes it fail in any case.
//           2. The box is centred on the planned place; half of each side counts either way.
// SOURCE    3 minutes after the reading settles and a box of 40 ft x 20 ft: MO-124 App. E 1.3 [read]
#include "base/number.h"
#include "design/pulltest.h"

#include <math.h>

// Time at which the load crosses `load` between two readings.
static double crossing(const bys_pull_reading *a, const bys_pull_reading *b, double load)
{
    return a->time_s + (b->time_s - a->time_s) * (load - a->load_N) / (b->load_N - a->load_N);
}

static double drag_at(const bys_pull_test *test, double time)
{
    for (int i = 1; i < test->reading_count; i++) {
        const bys_pull_reading *b = &test->readings[i], *a = b - 1;
        if (time <= b->time_s && b->time_s > a->time_s)
            return a->drag_m + (b->drag_m - a->drag_m) *
                                   fmax(time - a->time_s, 0.0) / (b->time_s - a->time_s);
    }
    return test->readings[test->reading_count - 1].drag_m;
}

static void keep(bys_pull_test *test, double from, double to)
{
    if (!(to - from > test->hold.held_s))
        return;
    test->hold.held_s = to - from;
    test->hold.held_from_s = from;
    test->hold.drag_m = drag_at(test, to) - drag_at(test, from);
}

static void longest(bys_pull_test *test)
{
    const double load = test->hold.load_N;
    const bys_pull_reading *r = test->readings;
    double from = r[0].load_N >= load ? r[0].time_s : NAN;
    for (int i = 1; i < test->reading_count; i++) {
        const bool was = r[i - 1].load_N >= load, is = r[i].load_N >= load;
        if (isnan(r[i].time_s) || isnan(r[i - 1].time_s)) {
            from = NAN; // an unknown time breaks the count
            continue;
        }
        if (!was && is)
            from = crossing(&r[i - 1], &r[i], load);
        if (was && isnan(from))
            from = r[i - 1].time_s;
        if (was && !is)
            keep(test, from, crossing(&r[i - 1], &r[i], load));
        else if (is)
            keep(test, from, r[i].time_s);
        from = is ? from : NAN;
    }
}

static const char *say(bys_pull_work *work, const char *text)
{
    work->failed = work->failed || !text;
    return text ? text : "";
}

void bys_pull_hold_judge(bys_pull_test *test, bys_pull_work *work)
{
    bys_pull_hold *h = &test->hold;
    h->held_s = 0.0;
    h->held_from_s = h->drag_m = NAN;
    longest(test);
    const bool placed = !isnan(h->along_m) && !isnan(h->across_m);
    const bool inside = placed && fabs(h->along_m) <= 0.5 * h->box_along_m &&
                        fabs(h->across_m) <= 0.5 * h->box_across_m;
    if (!(h->held_s >= h->time_s)) {
        h->verdict = BYS_FAIL;
        h->why = say(work, bys_arena_format(work->arena, "held %.4g s of %.4g s", h->held_s,
                                            h->time_s));
    } else if (!placed) {
        h->verdict = BYS_NOT_CHECKED;
        h->why = "held, but offset-along and offset-across are not stated";
    } else {
        h->verdict = inside ? BYS_PASS : BYS_FAIL;
        h->why = inside ? "held, and inside the box" : "held, but outside the box";
    }
}
