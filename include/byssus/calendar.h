// SPDX-License-Identifier: GPL-3.0-or-later
// byssus: the crop calendar. Every dated crop stage, and where the site says that gear grows evenly
// every month between them, is checked by itself: what the floats have left, zone by zone, how many
// are to be added and when, and what the legs then carry.
// Everything inside a bys_calendar belongs to it and is constant; NAN means "does not apply or not
// known"; strings are never NULL.
#ifndef BYSSUS_CALENDAR_H
#define BYSSUS_CALENDAR_H

#include <byssus/design.h>

#ifdef __cplusplus
extern "C" {
#endif

/// Options of bys_calendar_run. Start from BYS_CALENDAR_OPTIONS_INIT.
typedef struct {
    bys_check_options check;
    double reserve; ///< share of net lift to be kept; 0: what the site demands
} bys_calendar_options;
#define BYS_CALENDAR_OPTIONS_INIT {BYS_CHECK_OPTIONS_INIT, 0.0}

typedef struct {
    double month;           ///< after stocking, as in the site file
    const char *stage;      ///< id; of the earlier stage where gear is in between
    const char *name;       ///< in words
    bool between;           ///< gear lies between two stages
    bool solved;            ///< all demanded cases of this month came to rest
    const char *verdict;    ///< "pass", "fail" or "incomplete", with the floats of the site file
    const char *verdict_added; ///< the same with the added floats
    double largest_N, largest_added_N; ///< leg tension
    int largest_leg, largest_added_leg; ///< index; -1
    int worst_zone;         ///< of crop floats, the one with the least reserve; -1
    int to_add;             ///< floats more than in the site file, all lines, by this month
} bys_month;

/// Part of a longline whose floats are told together.
typedef struct {
    const char *line, *name; ///< "L05", "N third"
    bool at_end;             ///< end floats: they carry the leg's pull and are no crop floats
} bys_zone;

/// Hardest pressed float of a zone in a month, in slack water over all levels.
typedef struct {
    double reserve, reserve_added;     ///< share of net lift left
    double submerged, submerged_added; ///< share of volume under water, the largest
    double count;                      ///< floats
} bys_zone_month;

/// Floats of one line.
typedef struct {
    const char *line;
    const char *pattern, *part; ///< row of floats that grows; "" if the line has none
    int *row;                   ///< by month: floats of that row in the site file
    int *added;                 ///< by month: floats more than that; -1: no number helps
    int first;                  ///< first month with any, -1
    int total;                  ///< most of any month
} bys_float_plan;

typedef struct {
    const char *site, *notice, *file, *sha256;
    bool grows;                 ///< months between the stages are looked at
    double reserve;             ///< share demanded; NAN: none
    bys_month *months; int month_count;
    bys_zone *zones; int zone_count;
    bys_zone_month *zone_months;  ///< [month * zone_count + zone]
    bys_float_plan *plans; int plan_count; ///< lines with floats
    const char **legs; int leg_count;
    double *tension_N, *tension_added_N; ///< [month * leg_count + leg]; largest over demanded cases
    double *use, *use_added;             ///< of the same: the larger of line and anchor
    int to_add;                 ///< the totals of all lines
    bool short_of;              ///< some line cannot be kept up by any number of floats
    const char *verdict;        ///< "pass", "fail" or "incomplete": the worst month, floats as in the site file
    const char *headline;
} bys_calendar;

/// BYS_EINPUT with messages when no stage has a month or the layout cannot be built.
bys_rc bys_calendar_run(bys_calendar **out, const bys_site *site,
                        const bys_calendar_options *options, bys_messages *messages,
                        bys_error *err);
void bys_calendar_free(bys_calendar *calendar);
/// 0 pass, 1 fail, 2 incomplete, with the floats of the site file.
int bys_calendar_exit(const bys_calendar *calendar);

void bys_write_calendar_text(bys_text *out, const bys_calendar *calendar, int width, bool colour);
/// "byssus.calendar/1".
void bys_write_calendar_json(bys_text *out, const bys_calendar *calendar);
/// One HTML page with two charts, without any outside address or script.
void bys_write_calendar_html(bys_text *out, const bys_calendar *calendar);
/// calendar.html and calendar.json in `dir`, which is made if it is not there.
bys_rc bys_write_calendar_directory(const bys_calendar *calendar, const char *dir, bys_error *err);

#ifdef __cplusplus
}
#endif
#endif
