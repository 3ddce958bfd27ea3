// SPDX-License-Identifier: GPL-3.0-or-later
// Inside of the crop calendar.
#ifndef BYS_DESIGN_CALENDAR_H
#define BYS_DESIGN_CALENDAR_H

#include "design/judge.h"
#include <byssus/calendar.h>

enum { BYS_ZONES = 5 }; ///< of a line: end 0, thirds from end 0 to end 1, end 1

typedef struct {
    bys_calendar calendar; ///< first: its address is that of the whole
    bys_arena *arena;
    const bys_site *site;
    const bys_calendar_options *options;
    bys_messages *messages;
    bys_network *net;            ///< of the first month
    bys_leg_override *legs;      ///< all legs as cut
    bys_stage *stages;           ///< by month
    bys_sea *slack; int slack_count; ///< slack water at each level
    bool failed;                 ///< out of memory
} bys_calendar_work;

// calendar_months.c
/// Months and their stages. False after a fault, which is told.
bool bys_calendar_date(bys_calendar_work *work);

// calendar_floats.c
/// Lines, zones and rows of floats, from work->net.
void bys_calendar_lines(bys_calendar_work *work);
/// The site in one month with its added floats or without. *stage and what it points to are the
/// caller's to keep; arena: for the rows of floats. False when out of memory.
bool bys_calendar_site(bys_site *out, bys_stage *stage, bys_arena *arena,
                       const bys_calendar_work *work, int month, const int *added);
/// Zones of a month from the states in slack water that the judge keeps.
void bys_calendar_zones(bys_calendar_work *work, int month, bool added, const bys_judge *judge);
/// Floats that each line needs to keep the reserve, month by month.
bys_rc bys_calendar_need(bys_calendar_work *work, bys_error *err);
/// Floats added to each line by that month, in order of plans; for bys_calendar_site.
void bys_calendar_added(int *out, const bys_calendar_work *work, int month);

#endif
