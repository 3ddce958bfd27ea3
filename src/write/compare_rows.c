// SPDX-License-Identifier: GPL-3.0-or-later
#include "write/compare_rows.h"
#include "write/rows.h"

#include <math.h>

static bys_leg_side side(const bys_design *design, int i)
{
    if (i < 0)
        return (bys_leg_side){NAN, NAN, NAN, BYS_REPORTED, false};
    const bys_leg_result *leg = &design->legs[i];
    return (bys_leg_side){leg->tension_N, leg->strength.utilisation,
                          leg->anchor.check.utilisation, leg->verdict, true};
}

bys_leg_side bys_leg_before(const bys_comparison *c, const bys_leg_pair *pair)
{
    return side(c->before, pair->before);
}

bys_leg_side bys_leg_after(const bys_comparison *c, const bys_leg_pair *pair)
{
    return side(c->after, pair->after);
}

static bool near(double a, double b, double within)
{
    return (isnan(a) && isnan(b)) || fabs(a - b) <= within;
}

bool bys_leg_same(const bys_comparison *c, const bys_leg_pair *pair)
{
    const bys_leg_side a = bys_leg_before(c, pair), b = bys_leg_after(c, pair);
    return a.there == b.there && a.verdict == b.verdict &&
           near(a.tension_N, b.tension_N, 1e-3 * fabs(b.tension_N)) &&
           near(a.line_use, b.line_use, 2e-3) && near(a.anchor_use, b.anchor_use, 2e-3);
}

void bys_pair_value(bys_text *out, const bys_check_pair *pair, double value)
{
    bys_number_add(out, value, *pair->unit == '%' ? 0 : *pair->unit ? 1 : 2);
    bys_text_addf(out, "%s%s", *pair->unit ? " " : "", pair->unit);
}

void bys_pair_words(bys_text *out, const bys_check_pair *pair, const char *arrow)
{
    // the use of a line or an anchor has no unit
    bys_text_addf(out, "%s, %s%s: ", pair->item, pair->kind, *pair->unit ? "" : " use");
    if (pair->before)
        bys_pair_value(out, pair, pair->value_before);
    else
        bys_text_add(out, "was not there");
    bys_text_add(out, arrow);
    if (pair->after)
        bys_pair_value(out, pair, pair->value_after);
    else
        bys_text_add(out, "nothing to tell");
}
