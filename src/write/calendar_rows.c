// SPDX-License-Identifier: GPL-3.0-or-later
#include "write/calendar_rows.h"

#include <math.h>
#include <string.h>

enum { NAMED = 3 };

static bool same_plan(const bys_calendar *c, int a, int b) {
    const bys_float_plan *p = &c->plans[a], *q = &c->plans[b];
    return !strcmp(p->part, q->part) && !strcmp(p->pattern, q->pattern) &&
           !memcmp(p->row, q->row, (size_t)c->month_count * sizeof *p->row) &&
           !memcmp(p->added, q->added, (size_t)c->month_count * sizeof *p->added);
}

static void add_lines(bys_text *out, const bys_calendar *c, int plan) {
    int n = 0;
    for (int l = plan; l < c->plan_count; l++) {
        if (!same_plan(c, plan, l))
            continue;
        if (n < NAMED)
            bys_text_addf(out, "%s%s", n ? ", " : "", c->plans[l].line);
        n++;
    }
    if (n > NAMED)
        bys_text_addf(out, " and %d more", n - NAMED);
    if (n > 1)
        bys_text_add(out, ", each");
}

bool bys_plan_words(bys_text *out, const bys_calendar *c, int plan) {
    const bys_float_plan *p = &c->plans[plan];
    if (p->first < 0)
        return false;
    for (int l = 0; l < plan; l++)
        if (same_plan(c, plan, l))
            return false;
    add_lines(out, c, plan);
    int before = 0;
    for (int m = 0; m < c->month_count; m++) {
        const int now = p->added[m];
        if (now < 0) {
            bys_text_addf(out, "%s no number of %s keeps the reserve from month %g on",
                          before ? ";" : ":", *p->part ? p->part : "floats", c->months[m].month);
            return true;
        }
        if (now == before)
            continue;
        if (before == 0)
            bys_text_addf(out, ": %d x %s before month %g", now, p->part, c->months[m].month);
        else if (now > before)
            bys_text_addf(out, ", %d more before month %g", now - before, c->months[m].month);
        else
            bys_text_addf(out, "; from month %g on the site file has %d of them itself",
                          c->months[m].month, before - now);
        before = now;
    }
    return true;
}

static bool near(double a, double b) {
    return (isnan(a) && isnan(b)) || fabs(a - b) <= 1e-3;
}

int bys_zone_like(const bys_calendar *c, int zone) {
    for (int z = 0; z < zone; z++) {
        bool same = !strcmp(c->zones[z].name, c->zones[zone].name);
        for (int m = 0; same && m < c->month_count; m++) {
            const bys_zone_month *a = &c->zone_months[m * c->zone_count + z];
            const bys_zone_month *b = &c->zone_months[m * c->zone_count + zone];
            same = near(a->reserve, b->reserve) && near(a->submerged, b->submerged) &&
                   near(a->reserve_added, b->reserve_added) && near(a->count, b->count);
        }
        if (same)
            return z;
    }
    return zone;
}

void bys_zone_lines(bys_text *out, const bys_calendar *c, int zone) {
    int n = 0;
    for (int z = zone; z < c->zone_count; z++) {
        if (z != zone && bys_zone_like(c, z) != zone)
            continue;
        if (n < NAMED)
            bys_text_addf(out, "%s%s", n ? ", " : "", c->zones[z].line);
        n++;
    }
    if (n > NAMED)
        bys_text_addf(out, " and %d more", n - NAMED);
}
