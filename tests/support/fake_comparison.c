// SPDX-License-Identifier: GPL-3.0-or-later
#include "support/fake_design.h"

#include <math.h>
#include <stdlib.h>

static bys_change_row changes[] = {
    {"floats", "L01, L02, L03 and 2 more", "18 x crop55", "24 x crop55"},
    {"anchor", "L02/N/anchor", "-", "x 1.00 m, y \"2\" <b>m</b>"}};
static bys_check_pair fresh[] = {{"anchor", "L03/N", "", 0.62, 1.41, 1.0, BYS_PASS, BYS_FAIL, true,
                                  true, "the 3 t block <slides> & lifts"}};
static bys_check_pair open[] = {{"line", "L04/S", "", 0.5, NAN, 1.0, BYS_PASS, BYS_NOT_CHECKED,
                                 true, true, "no strength is stated"}};
static bys_check_pair mended[] = {{"float reserve", "L05", "%", 18.0, 39.0, 25.0, BYS_FAIL,
                                   BYS_PASS, true, true, "39 % is left"}};
static bys_check_pair floats[] = {
    {"float reserve", "L05", "%", 18.0, 39.0, 25.0, BYS_FAIL, BYS_PASS, true, true, "39 % is left"},
    {"float reserve", "L06", "%", NAN, 51.0, 25.0, BYS_REPORTED, BYS_PASS, false, true, "new"}};

bys_comparison *fake_comparison_new(bys_design *before, bys_design *after)
{
    bys_comparison *c = calloc(1, sizeof *c);
    const int legs = after ? after->leg_count : 24;
    bys_leg_pair *pairs = calloc((size_t)legs + 1, sizeof *pairs);
    if (!c || !pairs)
        abort();
    *c = (bys_comparison){before, after, "Before: fail. After: fail. 1 new failure.",
                          changes, 2, pairs, after ? legs : 0, fresh, 1, open, 1, mended, 1,
                          floats, 2};
    for (int i = 0; after && i < legs; i++)
        pairs[i] = (bys_leg_pair){after->legs[i].id, i < before->leg_count ? i : -1, i};
    return c;
}

void fake_comparison_free(bys_comparison *c)
{
    if (!c)
        return;
    fake_design_free(c->before);
    fake_design_free(c->after);
    free(c->legs);
    free(c);
}
