// SPDX-License-Identifier: GPL-3.0-or-later
// Legs as designed, as made and adjusted, side by side; what a measured tension tells or would
// tell; the verdict.
//
// NOTES     A tension decides where the two laid states differ in verdict or by more than a tenth
//           in load. A measured one belongs to that state whose pretension (slack water, lowest
//           level, first stage) it is nearer to, by ratio, if it is within a fifth.
// SOURCE    the tenth and the fifth: common practice, no source.
#include "design/aslaid.h"

#include <math.h>
#include <string.h>

static const double load_share = 0.10, measured_share = 0.20;

static const char *keep(bys_aslaid_work *work, const char *made)
{
    work->failed = work->failed || !made;
    return made ? made : "";
}

#define words(work, ...) keep((work), bys_arena_format((work)->arena, __VA_ARGS__))

static bys_laid_side side(const bys_design *design, int leg)
{
    if (!design)
        return (bys_laid_side){NAN, NAN, NAN, NAN, BYS_NOT_CHECKED, false};
    const bys_leg_result *l = &design->legs[leg];
    return (bys_laid_side){l->tension_N, l->pretension_N, l->strength.utilisation,
                           l->anchor.check.utilisation, l->verdict, true};
}

static bool apart(double a, double b, double share)
{
    return isfinite(a) && isfinite(b) && fabs(a - b) > share * fmin(fabs(a), fabs(b));
}

static void say_ask(bys_aslaid_work *work, bys_laid_leg *leg)
{
    const bys_laid_side *m = &leg->made, *a = &leg->adjusted;
    if (!a->known || !isnan(leg->measured_N))
        return;
    if (!m->known) {
        leg->ask = isfinite(leg->adjusted_m);
        if (leg->ask)
            leg->ask_why = words(work, "as made it does not reach; adjusted it carries %.1f kN",
                                 a->tension_N / 1000.0);
    } else if (m->verdict != a->verdict || apart(m->tension_N, a->tension_N, load_share)) {
        leg->ask = true;
        leg->ask_why = words(work, "%.1f kN (%s) as made, %.1f kN (%s) adjusted; in slack water "
                                   "%.2f kN against %.2f kN",
                             m->tension_N / 1000.0, bys_verdict_name(m->verdict),
                             a->tension_N / 1000.0, bys_verdict_name(a->verdict),
                             m->pretension_N / 1000.0, a->pretension_N / 1000.0);
    }
}

static double misfit(double measured, const bys_laid_side *side)
{
    return side->known && side->pretension_N > 0.0 && measured > 0.0
               ? fabs(log(measured / side->pretension_N)) : INFINITY;
}

static void say_measured(bys_aslaid_work *work, bys_laid_leg *leg)
{
    if (isnan(leg->measured_N))
        return;
    const double made = misfit(leg->measured_N, &leg->made);
    const double adjusted = misfit(leg->measured_N, &leg->adjusted);
    const double least = fmin(made, adjusted);
    const char *tells = least > log(1.0 + measured_share)
                            ? "it fits neither: the length is not what was cut, or it was measured "
                              "in another state"
                        : fabs(made - adjusted) < 0.02 ? "it fits both"
                        : made < adjusted ? "it fits the length as made"
                                          : "it fits the adjusted length";
    leg->measured_says = words(work, "%.2f kN measured; slack water, lowest level: %.2f kN as "
                                     "made, %.2f kN adjusted; %s", leg->measured_N / 1000.0,
                               leg->made.pretension_N / 1000.0,
                               leg->adjusted.pretension_N / 1000.0, tells);
}

static void fill_leg(bys_aslaid_work *work, int l)
{
    bys_aslaid *r = &work->result;
    bys_laid_leg *leg = &r->legs[l];
    leg->design = side(r->design, l);
    leg->made = side(r->made, l);
    leg->adjusted = side(r->adjusted, l);
    const bool lost = leg->made.known ? leg->made.verdict != BYS_PASS
                                      : bys_aslaid_moved(work, &work->net->legs[l]);
    leg->no_longer = leg->design.verdict == BYS_PASS && lost;
    leg->still = leg->no_longer && leg->adjusted.known && leg->adjusted.verdict != BYS_PASS;
    say_ask(work, leg);
    say_measured(work, leg);
}

// ---- verdict and headline ----------------------------------------------------------------------

static bool open_stray(const bys_aslaid *r)
{
    for (int i = 0; i < r->stray_count; i++)
        if (r->strays[i].matters)
            return true;
    return false;
}

static const char *verdict(const bys_aslaid *r)
{
    if (!r->made)
        return "fail";
    return !strcmp(r->made->verdict, "pass") && open_stray(r) ? "incomplete" : r->made->verdict;
}

static const char *farthest(bys_aslaid_work *work)
{
    const bys_aslaid *r = &work->result;
    const bys_laid_anchor *a = &r->anchors[r->by_offset[0]];
    if (a->offset_m < 0.01)
        return "All stand where they were to.";
    const double degrees = fmod(a->bearing_rad * 57.29577951308232 + 360.0, 360.0);
    return words(work, "%s is farthest off: %.1f m towards %03.0f deg, %s its box.", a->id,
                 a->offset_m, floor(degrees + 0.5) >= 360.0 ? 0.0 : degrees,
                 a->inside_box ? "inside" : "outside");
}

static void count_legs(const bys_aslaid *r, int *lost, int *still)
{
    *lost = *still = 0;
    for (int l = 0; l < r->leg_count; l++) {
        *lost += r->legs[l].no_longer;
        *still += r->legs[l].still;
    }
}

static const char *failures(bys_aslaid_work *work, const bys_comparison *c)
{
    const int n = c->fresh_count, open = c->open_count;
    const char *more =
        open ? words(work, ", %d %s no longer checked", open, open == 1 ? "is" : "are") : "";
    return n == 0 ? words(work, "no check fails that did not as designed%s", more)
                  : words(work, "%d %s that did not as designed%s", n,
                          n == 1 ? "check fails" : "checks fail", more);
}

static const char *state(bys_aslaid_work *work)
{
    const bys_aslaid *r = &work->result;
    int lost, still;
    count_legs(r, &lost, &still);
    if (!r->made)
        return words(work, "As made it cannot be put together: %s.", r->made_why);
    const char *made = words(work, "With the ropes as made %s", failures(work, r->change));
    if (lost)
        made = words(work, "%s (%d %s no longer %s)", made, lost, lost == 1 ? "leg" : "legs",
                     lost == 1 ? "passes" : "pass");
    if (!r->adjusted)
        return words(work, "%s.", made);
    return words(work, "%s; with adjusted warps %s.", made, failures(work, r->remains));
}

void bys_aslaid_judge(bys_aslaid_work *work)
{
    bys_aslaid *r = &work->result;
    for (int l = 0; l < r->leg_count; l++)
        fill_leg(work, l);
    r->verdict = verdict(r);
    r->headline = words(work, "%d of %d anchors have a position, %d outside the box and %d outside "
                              "the lease or its margin. %s %s",
                        r->surveyed, r->anchor_count, r->outside_box, r->outside_lease,
                        farthest(work), state(work));
}
