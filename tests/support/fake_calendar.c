// SPDX-License-Identifier: GPL-3.0-or-later
#include "support/fake_design.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

static bys_zone zones[] = {
    {"L<1>", "N end", true}, {"L<1>", "middle", false}, {"L02", "middle", false}};
static bys_zone_month zone_months[] = {
    {0.8, 0.8, 0.2, 0.2, 2}, {0.5, 0.5, 0.4, 0.4, 18},   {0.5, 0.5, 0.4, 0.4, 18},
    {0.7, 0.7, 0.3, 0.3, 2}, {0.2, 0.28, 0.8, 0.7, 18},  {0.2, 0.28, 0.8, 0.7, 18},
    {NAN, NAN, NAN, NAN, 2}, {0.1, 0.26, 0.9, 0.75, 18}, {0.1, 0.26, 0.9, 0.75, 18}};
static int row[] = {18, 18, 18}, added[] = {0, 2, 4};
static bys_float_plan plans[] = {{"L<1>", "crop", "crop55", row, added, 1, 4},
                                 {"L02", "crop", "crop55", row, added, 1, 4}};
static char word[16];
static const char *legs[] = {"L<1>/N", "L02/N"};
static double tension[] = {9e3, 9.1e3, 18e3, 18.5e3, NAN, 19e3};
static double tension_added[] = {9e3, 9.1e3, 18.4e3, 18.9e3, 19e3, 20e3};
static double use[] = {0.3, 0.31, 0.7, 0.72, NAN, 0.8};

bys_calendar *fake_calendar_new(const char *verdict) {
    bys_calendar *c = calloc(1, sizeof *c);
    bys_month *months = calloc(3, sizeof *months);
    if (!c || !months)
        abort();
    months[0] = (bys_month){
        0, "bare", "lines laid & no panels", false, true, "pass", "pass", 9.1e3, 9.1e3, 1, 1, 1, 0};
    months[1] =
        (bys_month){5, "bare", "month 5", true, true, "fail", "pass", 18.5e3, 18.9e3, 1, 1, 1, 4};
    months[2] = (bys_month){10,   "grown", "grown", false, false, verdict, "incomplete",
                            19e3, 20e3,    1,       1,     1,     8};
    snprintf(word, sizeof word, "%s", verdict); // the site's word does not live as long
    verdict = months[2].verdict = word;
    *c = (bys_calendar){"Example Bay <invented>",
                        "INVENTED DEMO DATA",
                        "bay.xml",
                        "00",
                        true,
                        0.25,
                        months,
                        3,
                        zones,
                        3,
                        zone_months,
                        plans,
                        2,
                        legs,
                        2,
                        tension,
                        tension_added,
                        use,
                        use,
                        8,
                        false,
                        verdict,
                        "L01 falls below 25 % in month 5."};
    return c;
}

void fake_calendar_free(bys_calendar *c) {
    if (!c)
        return;
    free(c->months);
    free(c);
}
