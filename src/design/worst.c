// SPDX-License-Identifier: GPL-3.0-or-later
// Up to three sentences, worst first, in a rigger's words: the worst leg, the first other check
// that fails, the next leg that differs from the first in what fails. When nothing fails: what
// could not be checked, then what comes closest.
#include "design/judge.h"

#include <math.h>
#include <string.h>

static void say(bys_judge *judge, const char *text)
{
    bys_design *out = judge->out;
    for (int i = 0; i < out->worst_count; i++)
        if (strcmp(out->worst_things[i], text) == 0)
            return;
    if (out->worst_count < 3)
        out->worst_things[out->worst_count++] = text;
}

static const char *weather_of(bys_judge *judge, const char *case_id)
{
    int job, lost;
    if (!bys_case_find(judge, case_id, &job, &lost))
        return "";
    const char *speech = bys_case_speech(judge, &judge->jobs[job]);
    return lost < 0 ? bys_judge_text(judge, " (%s)", speech)
                    : bys_judge_text(judge, " (%s, leg %s lost)", speech,
                                     judge->stages[0].net->legs[lost].id);
}

static const char *anchor_words(bys_judge *judge, const bys_anchor_result *anchor)
{
    const bool deadweight = strcmp(anchor->kind, "deadweight") == 0;
    const char *kind = deadweight ? "deadweight" : bys_judge_text(judge, "%s anchor", anchor->kind);
    if (!(anchor->mass_kg > 0.0))
        return kind;
    return anchor->mass_kg >= 1000.0
               ? bys_judge_text(judge, "%.3g t %s", anchor->mass_kg / 1000.0, kind)
               : bys_judge_text(judge, "%.0f kg %s", anchor->mass_kg, kind);
}

static const char *anchor_sentence(bys_judge *judge, const bys_leg_result *leg)
{
    const bys_strength *c = &leg->anchor.check;
    const bys_anchor_result *anchor = &judge->out->anchors[leg->anchor_index];
    if (c->verdict == BYS_NOT_CHECKED)
        return bys_judge_text(judge, "%s: the %s is not checked: %s.", leg->id,
                              anchor_words(judge, anchor), c->why);
    return bys_judge_text(
        judge, "%s: the %s holds %s, needs %s: a pull of %s times %.2f%s.", leg->id,
        anchor_words(judge, anchor), bys_kilonewtons(judge, c->capacity_N),
        bys_kilonewtons(judge, c->design_N * c->resistance_factor),
        bys_kilonewtons(judge, c->design_N), c->resistance_factor, weather_of(judge, c->case_id));
}

static const char *line_sentence(bys_judge *judge, const bys_leg_result *leg)
{
    const bys_strength *c = &leg->strength;
    if (c->verdict == BYS_NOT_CHECKED)
        return bys_judge_text(judge, "%s: the line is not checked: %s.", leg->id, c->why);
    return bys_judge_text(judge, "%s: %s breaks at %s, needs %s: a tension of %s times %.2f%s.",
                          leg->id, c->item, bys_kilonewtons(judge, c->capacity_N),
                          bys_kilonewtons(judge, c->design_N * c->resistance_factor),
                          bys_kilonewtons(judge, c->design_N), c->resistance_factor,
                          weather_of(judge, c->case_id));
}

/// What of a leg has the verdict and the higher utilisation; NULL if neither has it.
static const char *leg_sentence(bys_judge *judge, const bys_leg_result *leg, bys_verdict verdict)
{
    const bool anchor = leg->anchor.check.verdict == verdict,
               line = leg->strength.verdict == verdict;
    if (anchor && (!line || !(leg->strength.utilisation > leg->anchor.check.utilisation)))
        return anchor_sentence(judge, leg);
    return line ? line_sentence(judge, leg) : NULL;
}

static const char *leg_part(const bys_judge *judge, const bys_leg_result *leg)
{
    return leg->anchor_index >= 0 ? judge->out->anchors[leg->anchor_index].part : "";
}

static void say_finding(bys_judge *judge, bys_verdict verdict)
{
    for (int f = 0; f < judge->out->finding_count; f++)
        if (judge->out->findings[f].verdict == verdict) {
            say(judge, bys_judge_text(judge, "%s.", judge->out->findings[f].text));
            return;
        }
}

static void say_verdict(bys_judge *judge, bys_verdict verdict)
{
    const bys_design *out = judge->out;
    const bys_leg_result *first = NULL, *second = NULL, *any = NULL;
    for (int i = 0; i < out->leg_count; i++) {
        const bys_leg_result *leg = &out->legs[out->by_utilisation[i]];
        if (leg->verdict != verdict)
            continue;
        if (!first)
            first = leg;
        else if (!any)
            any = leg;
        if (!second && leg != first && strcmp(leg_part(judge, leg), leg_part(judge, first)) != 0)
            second = leg;
    }
    second = second ? second : any;
    if (first)
        say(judge, leg_sentence(judge, first, verdict));
    say_finding(judge, verdict);
    if (second)
        say(judge, leg_sentence(judge, second, verdict));
}

void bys_judge_worst(bys_judge *judge)
{
    judge->out->worst_things = bys_judge_get(judge, 3, sizeof(char *));
    if (!judge->out->worst_things)
        return;
    say_verdict(judge, BYS_FAIL);
    if (judge->out->worst_count == 0)
        say_verdict(judge, BYS_NOT_CHECKED);
    if (judge->out->worst_count == 0)
        say_verdict(judge, BYS_PASS);
}
