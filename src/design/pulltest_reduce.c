// SPDX-License-Identifier: GPL-3.0-or-later
// One pull test: from readings to loads, distances, behaviour and capacity.
//
// GIVEN     readings   drag from where the pull began (m, never backwards), load (N), in order
//           permitted drag (m), share of fall that counts as a roll-out
// RETURNED  see bys_pull_test
// NOTES     1. Straight lines between readings; nothing before the first or after the last.
//           2. The peak is the greatest load. It is a lower bound if it is the last reading, or if
//              the record goes on past it for less than a tenth of its drag without falling by 1 %,
//              or if the header says that the load was rising. A record that ended by rolling out or
//              by something breaking has its peak.
//           3. Steady value: the least and the greatest load after the peak, if it fell by less than
//              the stated share. The least counts.
//           4. Capacity: the lesser of the load at the permitted drag and the steady value. After a
//              roll-out there is no steady value and nothing is left: residual 0; one that rolls out
//              before the permitted drag has what the trough left, or 0. If the record ends before the
//              permitted drag, its last load is a bound (while rising), else a value.
//           5. Energy is of the recorded drag alone.
// SOURCE    common practice; shares of note 2 and the 0.3 of a roll-out are ours [judgement]
#include "base/number.h"
#include "design/pulltest.h"

#include <math.h>
#include <string.h>

static const double gravity = 9.80665;
static const double flat_share = 0.01, short_share = 0.1;

double bys_pull_load_at(const bys_pull_test *test, double drag)
{
    double least = NAN;
    for (int i = 0; i < test->reading_count; i++) {
        const bys_pull_reading *b = &test->readings[i], *a = i ? b - 1 : b;
        double load = NAN;
        if (b->drag_m == drag)
            load = b->load_N;
        else if (a->drag_m < drag && drag < b->drag_m)
            load = a->load_N +
                   (b->load_N - a->load_N) * (drag - a->drag_m) / (b->drag_m - a->drag_m);
        least = isnan(least) || load < least ? load : least;
    }
    return least;
}

// First drag at which the load reaches `load`; NAN if it stood there from the first reading on.
static double reached(const bys_pull_test *test, double load)
{
    const bys_pull_reading *r = test->readings;
    if (r[0].load_N >= load)
        return NAN;
    for (int i = 1; i < test->reading_count; i++)
        if (r[i].load_N >= load)
            return r[i - 1].drag_m + (r[i].drag_m - r[i - 1].drag_m) * (load - r[i - 1].load_N) /
                                         (r[i].load_N - r[i - 1].load_N);
    return NAN;
}

static int find_peak(bys_pull_test *test)
{
    int at = 0;
    for (int i = 1; i < test->reading_count; i++)
        if (test->readings[i].load_N > test->readings[at].load_N)
            at = i;
    test->peak_N = test->readings[at].load_N;
    test->peak_drag_m = test->readings[at].drag_m;
    return at;
}

static bool ended(const bys_pull_test *test, const char *how)
{
    return !strcmp(test->ended, how);
}

static bool still_rising(const bys_pull_test *test, int peak, double least_after)
{
    if (ended(test, "rising"))
        return true;
    if (ended(test, "rolled out") || ended(test, "broke") || *test->failure)
        return false;
    if (peak == test->reading_count - 1)
        return true;
    const double beyond = test->last_drag_m - test->peak_drag_m;
    return beyond < short_share * (test->last_drag_m - test->first_drag_m) &&
           least_after > (1.0 - flat_share) * test->peak_N;
}

static void after_peak(bys_pull_test *test, int peak, double roll_out_share)
{
    double low = NAN, high = NAN;
    for (int i = peak + 1; i < test->reading_count; i++) {
        low = fmin(low, test->readings[i].load_N); // fmin and fmax pass over the first NAN
        high = fmax(high, test->readings[i].load_N);
    }
    test->fall = isnan(low) || !(test->peak_N > 0.0) ? NAN : 1.0 - low / test->peak_N;
    test->lower_bound = still_rising(test, peak, low);
    test->rolled_out = ended(test, "rolled out") || test->fall > roll_out_share;
    const bool steady = !test->rolled_out && !test->lower_bound;
    test->steady_low_N = steady ? low : NAN;
    test->steady_high_N = steady ? high : NAN;
}

static void measure(bys_pull_test *test)
{
    const bys_pull_reading *r = test->readings;
    test->energy_J = 0.0;
    test->embedment_m = r[0].embedment_m;
    for (int i = 1; i < test->reading_count; i++) {
        test->energy_J += 0.5 * (r[i].load_N + r[i - 1].load_N) * (r[i].drag_m - r[i - 1].drag_m);
        test->embedment_m = fmax(test->embedment_m, r[i].embedment_m);
    }
    const double weight = test->mass_kg * gravity;
    test->efficiency = test->peak_N / weight;
    test->steady_efficiency = test->steady_low_N / weight;
    test->set50_m = reached(test, 0.5 * test->peak_N);
    test->set90_m = reached(test, 0.9 * test->peak_N);
}

static const char *say(bys_pull_work *work, const char *text)
{
    work->failed = work->failed || !text;
    return text ? text : "";
}

static const char *number(char out[32], double value)
{
    bys_format(out, 32, "%.4g", value);
    return out;
}

// The record does not reach the permitted drag.
static void capacity_of_short(bys_pull_test *test, double permitted, bys_pull_work *work)
{
    char a[32], b[32];
    if (test->first_drag_m > permitted) {
        test->capacity_N = NAN;
        test->capacity_why = say(work, bys_arena_format(work->arena,
            "the record begins at %s m, after the permitted drag of %s m",
            number(a, test->first_drag_m), number(b, permitted)));
        return;
    }
    if (test->rolled_out) {
        test->capacity_N = 0.0;
        test->capacity_why = "it rolled out before the permitted drag";
        return;
    }
    test->capacity_bound = test->lower_bound;
    test->capacity_N = fmin(test->readings[test->reading_count - 1].load_N, test->steady_low_N);
    test->capacity_why = say(work, bys_arena_format(work->arena,
        "%s at %s m, before the permitted drag of %s m",
        test->lower_bound ? "lower bound: the record ends while rising" : "the record ends",
        number(a, test->last_drag_m), number(b, permitted)));
}

// Least load after the peak up to a drag: an anchor that rolled out and bit again lets go there.
static double least_up_to(const bys_pull_test *test, double drag)
{
    double least = bys_pull_load_at(test, drag);
    for (int i = 0; i < test->reading_count && test->readings[i].drag_m <= drag; i++)
        if (test->readings[i].drag_m > test->peak_drag_m)
            least = fmin(least, test->readings[i].load_N);
    return least;
}

static void find_capacity(bys_pull_test *test, double permitted, bys_pull_work *work)
{
    char a[32];
    const double at = test->rolled_out ? least_up_to(test, permitted)
                                       : bys_pull_load_at(test, permitted);
    test->capacity_bound = false;
    if (isnan(at)) {
        capacity_of_short(test, permitted, work);
    } else if (test->steady_low_N < at) {
        test->capacity_N = test->steady_low_N;
        test->capacity_why = "steady load after the peak";
    } else {
        test->capacity_N = at;
        test->capacity_why = say(work, bys_arena_format(work->arena,
            "load at the permitted drag of %s m%s", number(a, permitted),
            test->rolled_out      ? "; nothing is left after it rolls out"
            : test->lower_bound   ? "; no peak was reached, so that the steady load is not known"
                                  : ""));
    }
    test->residual_N = isnan(test->steady_low_N) ? 0.0 : fmin(test->steady_low_N, test->capacity_N);
}

void bys_pull_reduce(bys_pull_test *test, bys_pull_work *work)
{
    test->first_drag_m = test->readings[0].drag_m;
    test->last_drag_m = test->readings[test->reading_count - 1].drag_m;
    after_peak(test, find_peak(test), work->options->roll_out_share);
    measure(test);
    find_capacity(test, work->options->permitted_drag_m, work);
    test->at_load_N = bys_arena_get(work->arena, (size_t)(work->at_count + 1) * sizeof(double));
    if (!test->at_load_N)
        work->failed = true;
    for (int i = 0; i < work->at_count && test->at_load_N; i++)
        test->at_load_N[i] = bys_pull_load_at(test, work->at_m[i]);
    if (test->hold.wanted)
        bys_pull_hold_judge(test, work);
}
