// SPDX-License-Identifier: GPL-3.0-or-later
#include "write/aslaid_rows.h"

#include <math.h>

static bool like(const bys_laid_side *a, const bys_laid_side *b)
{
    return !b->known || (a->verdict == b->verdict &&
                         fabs(a->tension_N - b->tension_N) <= 0.01 * fabs(a->tension_N));
}

bool bys_laid_leg_same(const bys_laid_leg *leg)
{
    return !leg->no_longer && like(&leg->design, &leg->made) && like(&leg->design, &leg->adjusted);
}

void bys_adjust_words(bys_text *out, const bys_laid_leg *leg)
{
    const double by = leg->adjusted_m - leg->cut_m;
    bys_text_addf(out, "%s (%s): ", leg->piece, leg->part);
    if (fabs(by) < 0.005)
        bys_text_add(out, "leave it at ");
    else
        bys_text_addf(out, "%s %.2f m, from %.2f m to ", by > 0.0 ? "let out" : "take in", fabs(by),
                      leg->cut_m);
    bys_text_addf(out, "%.2f m", leg->adjusted_m);
}

void bys_stray_words(bys_text *out, const bys_laid_stray *s)
{
    bys_text_addf(out, "%s (line %d) belongs to no anchor; nearest is %s, %.1f m away", s->name,
                  s->line, s->near_place, s->near_m);
    if (*s->near_name)
        bys_text_addf(out, "; did you mean %s?", s->near_name);
    if (s->matters)
        bys_text_add(out, " An anchor without a position may be the one.");
}
