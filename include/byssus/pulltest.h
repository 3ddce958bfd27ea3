// SPDX-License-Identifier: GPL-3.0-or-later
// byssus: pull tests of anchors. Reads records, reduces each, compares them, and says what capacity
// they give. Everything inside a bys_pulltest belongs to it and is constant; NAN means "does not
// apply or not known"; strings are never NULL.
#ifndef BYSSUS_PULLTEST_H
#define BYSSUS_PULLTEST_H

#include <byssus/base.h>

#include <math.h>

#ifdef __cplusplus
extern "C" {
#endif

/// What a capacity means. The kinds are never mixed.
typedef enum {
    BYS_CAPACITY_ANY = 0,  ///< each record by what it is
    BYS_CAPACITY_ULTIMATE, ///< what the anchor held before it dragged too far
    BYS_CAPACITY_FRACTILE, ///< 5 % fractile of several tests (EN 1990 Annex D)
    BYS_CAPACITY_PROOF     ///< a load that this very anchor has held
} bys_capacity_kind;
/// "any", "ultimate", "fractile", "proof"; static storage.
const char *bys_capacity_kind_name(bys_capacity_kind kind);

/// Start from BYS_PULLTEST_OPTIONS_INIT.
typedef struct {
    double permitted_drag_m; ///< capacity is read off at this drag
    double roll_out_share;   ///< a fall from the peak by more than this share is a roll-out
    double variation;        ///< coefficient of variation known beforehand; NAN: not known
    bool normal;             ///< normal instead of log-normal
    bys_capacity_kind kind;
    const double *at_m;      ///< drags at which loads are listed; NULL: 0.5, 1, 2, 3, 4, 5 m
    int at_count;
} bys_pulltest_options;
#define BYS_PULLTEST_OPTIONS_INIT {2.0, 0.3, NAN, false, BYS_CAPACITY_ANY, NULL, 0}

typedef struct { double drag_m, load_N, time_s, embedment_m; } bys_pull_reading;

/// A test in which a stated load is held.
typedef struct {
    bool wanted;               ///< the record is a hold test
    double load_N, time_s;     ///< asked for
    double held_s, held_from_s; ///< longest time without a break at that load or more
    double drag_m;             ///< during that time
    double along_m, across_m;  ///< the anchor's place from the planned one
    double box_along_m, box_across_m; ///< whole sides of the acceptance box
    bys_verdict verdict;
    const char *why;
} bys_pull_hold;

/// One record and its reduction.
typedef struct {
    const char *file, *test, *anchor, *soil, *tackle, *date, *place, *note;
    const char *load_cell, *calibration_date, *failure, *ended;
    double mass_kg, bed_slope_rad, scope, pull_angle_rad, load_rate_mps;
    bys_pull_reading *readings; int reading_count;
    double *at_load_N;          ///< at bys_pulltest.at_m; NAN: the record does not reach there
    double peak_N, peak_drag_m; ///< greatest load
    bool lower_bound;           ///< stopped while the load rose: peak_N is no peak but a lower bound
    double set50_m, set90_m;    ///< drag to 50 and 90 % of peak_N; NAN: before the first reading
    double steady_low_N, steady_high_N; ///< after the peak; NAN after a roll-out or without a peak
    double fall;                ///< greatest fall after the peak as a share of it
    bool rolled_out;
    double efficiency, steady_efficiency; ///< load over weight in air
    double energy_J, first_drag_m, last_drag_m; ///< work over the recorded drag, nothing added
    double embedment_m;         ///< greatest
    double capacity_N;
    bool capacity_bound;        ///< the record ends before the permitted drag: this or more
    const char *capacity_why;
    double residual_N;          ///< left after it slips, for a cascade; 0 if rolled out or not known
    bys_pull_hold hold;
} bys_pull_test;

/// 5 % fractile of one quantity. `value` NAN: see why.
typedef struct {
    bool normal;
    double variation, k, mean, deviation, value; ///< mean, deviation of logarithms if log-normal
    int count, bounds;
    bool without_bounds;
    const char *why;
} bys_pull_fractile;

enum { BYS_PULL_FRACTILES = 4 }; ///< log-normal, normal; each with variation not known, known

/// Tests of one anchor in one soil with one tackle at one rate.
typedef struct {
    const char *anchor, *soil;
    double mass_kg;
    int *tests; int test_count;
    bys_pull_fractile peak[BYS_PULL_FRACTILES], capacity[BYS_PULL_FRACTILES];
    double least_N, mean_N;        ///< of the capacities
    bys_capacity_kind kind;        ///< of capacity_N
    double capacity_N;
    const char *capacity_why;
} bys_pull_group;

typedef struct {
    bys_pull_test *tests; int test_count;
    bys_pull_group *groups; int group_count; ///< hold tests belong to none
    bool comparable;                 ///< all pull tests may stand in one table and chart
    const char **why_not; int why_not_count;
    double *at_m; int at_count;
    bys_pulltest_options options;    ///< at_m, at_count there are not set
    bool incomplete, failed;         ///< a value could not be found; a hold test was not accepted
} bys_pulltest;

/// Reads and reduces records. Faults and warnings go to `messages`; BYS_EINPUT if there is any
/// fault, BYS_ENOINPUT if a file cannot be opened.
bys_rc bys_pulltest_run(bys_pulltest **out, const char *const *paths, int count,
                        const bys_pulltest_options *options, bys_messages *messages,
                        bys_error *err);
void bys_pulltest_free(bys_pulltest *result);
/// 0; 1: a hold test is not accepted; 2: something could not be found or was not checked.
int bys_pulltest_exit(const bys_pulltest *result);
/// The i-th key of a record's header and what it holds, for pages and help; false past the end.
bool bys_pulltest_key(size_t i, const char **key, const char **kind, const char **meaning,
                      bool *needed);

/// Reductions and comparison for people, `width` columns (60 or more).
void bys_write_pulltest_text(bys_text *out, const bys_pulltest *result, int width);
/// The contract "byssus.pulltest/1" (sitefiles/pulltest.schema.json).
void bys_write_pulltest_json(bys_text *out, const bys_pulltest *result);
/// Load against drag on common axes. False, and nothing written, when the tests are not comparable.
bool bys_write_pulltest_svg(bys_text *out, const bys_pulltest *result);
/// Puts pulltest.json, pulltest.txt and, if comparable, pulltest.svg into `dir`.
bys_rc bys_write_pulltest_directory(const bys_pulltest *result, const char *dir, bys_error *err);

#ifdef __cplusplus
}
#endif
#endif
