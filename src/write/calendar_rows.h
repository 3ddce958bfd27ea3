// SPDX-License-Identifier: GPL-3.0-or-later
// Sentences and groups of a crop calendar that text and page share.
#ifndef BYS_WRITE_CALENDAR_ROWS_H
#define BYS_WRITE_CALENDAR_ROWS_H

#include "write/rows.h"
#include <byssus/calendar.h>

/// "L05: 2 x crop55 before month 13, 3 more before month 15; 23 in the row then". False and nothing
/// added if the line needs none, or if an earlier line needs the same and names it. Lines that need
/// the same share a sentence.
bool bys_plan_words(bys_text *out, const bys_calendar *calendar, int plan);
/// First zone with the same name and numbers in all months (to 0.001); zone itself if there is none.
int bys_zone_like(const bys_calendar *calendar, int zone);
/// Lines of all zones like this one: "L01, L02 and 8 more".
void bys_zone_lines(bys_text *out, const bys_calendar *calendar, int zone);

/// A chart over the months: values with the floats of the site file, and with the added ones.
typedef struct {
    const char *title, *unit, *caption;
    const double *values[2];
    double limit; ///< NAN: none
} bys_chart;
void bys_calendar_chart(bys_text *out, const bys_calendar *calendar, const bys_chart *chart);

#endif
