// SPDX-License-Identifier: GPL-3.0-or-later
// byssus: the same lease twice, side by side. Everything inside a bys_comparison belongs to it and
// is constant; both sides are whole designs; NAN means "not known"; strings are never NULL.
#ifndef BYSSUS_COMPARE_H
#define BYSSUS_COMPARE_H

#include <byssus/design.h>

#ifdef __cplusplus
extern "C" {
#endif

/// One thing of the layout that is not the same; things that change alike share a row.
typedef struct {
    const char *what;   ///< "floats", "gear", "line", "leg", "anchor", "raft", "stage"
    const char *items;  ///< ids, as "L05" or "L01, L02 and 10 more"
    const char *before, *after; ///< in words; "-" = was not, or is no more, there
} bys_change_row;

/// One leg, matched by id. -1: not there on that side.
typedef struct {
    const char *id;
    int before, after;
} bys_leg_pair;

/// One failing, mended or float check, matched by kind and id.
typedef struct {
    const char *kind, *item, *unit;
    double value_before, value_after, limit; ///< limit of AFTER, else of BEFORE
    bys_verdict verdict_before, verdict_after;
    bool before, after;                      ///< is it there on that side?
    const char *text;                        ///< sentence of AFTER, else of BEFORE
} bys_check_pair;

typedef struct {
    bys_design *before, *after;
    const char *headline;
    bys_change_row *changes; int change_count;
    bys_leg_pair *legs; int leg_count;         ///< new failures first, then by change of use
    bys_check_pair *fresh; int fresh_count;    ///< fail in AFTER and did not in BEFORE
    bys_check_pair *open; int open_count;      ///< not checked in AFTER and was in BEFORE
    bys_check_pair *mended; int mended_count;  ///< failed in BEFORE and pass in AFTER
    bys_check_pair *floats; int float_count;   ///< reserve of each line or raft in slack water
} bys_comparison;

/// Runs both designs with the same options and compares. Messages of the two sites go to one list.
bys_rc bys_comparison_run(bys_comparison **out, const bys_site *before, const bys_site *after,
                          const bys_check_options *options, bys_messages *messages,
                          bys_error *err);
void bys_comparison_free(bys_comparison *comparison);
/// The status of AFTER: 0 pass, 1 fail, 2 incomplete.
int bys_comparison_exit(const bys_comparison *comparison);

void bys_write_comparison_text(bys_text *out, const bys_comparison *comparison, int width,
                               bool colour);
/// "byssus.compare/1".
void bys_write_comparison_json(bys_text *out, const bys_comparison *comparison);
/// One HTML page without any outside address or script.
void bys_write_comparison_html(bys_text *out, const bys_comparison *comparison);
/// compare.json and compare.html in `dir`, which is made if it is not there.
bys_rc bys_write_comparison_directory(const bys_comparison *comparison, const char *dir,
                                      bys_error *err);

#ifdef __cplusplus
}
#endif
#endif
