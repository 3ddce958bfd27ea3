// SPDX-License-Identifier: GPL-3.0-or-later
// The verdict on the whole site. Fail beats incomplete, which is then also said; a site where
// nothing demanded could be checked is incomplete, never a pass.
#include "design/judge.h"

#include <math.h>
#include <string.h>

typedef struct {
    int pass, fail, open;
} tally;

static void count(tally *t, bys_verdict verdict)
{
    t->pass += verdict == BYS_PASS;
    t->fail += verdict == BYS_FAIL;
    t->open += verdict == BYS_NOT_CHECKED;
}

static tally count_all(const bys_design *out)
{
    tally t = {0, 0, 0};
    for (int l = 0; l < out->leg_count; l++)
        count(&t, out->legs[l].strength.verdict);
    for (int a = 0; a < out->anchor_count; a++)
        count(&t, out->anchors[a].verdict);
    for (int f = 0; f < out->finding_count; f++)
        count(&t, out->findings[f].verdict);
    return t;
}

static int finding_rank(const bys_finding *f)
{
    static const int rank[] = {
        [BYS_FAIL] = 0, [BYS_NOT_CHECKED] = 1, [BYS_PASS] = 2, [BYS_REPORTED] = 3};
    return rank[f->verdict];
}

/// Demanded failures first; the order inside a rank stays.
static void sort_findings(bys_judge *judge)
{
    bys_design *out = judge->out;
    bys_finding *sorted = bys_judge_get(judge, (size_t)out->finding_count, sizeof *sorted);
    int n = 0;
    if (!sorted)
        return;
    for (int rank = 0; rank < 4; rank++)
        for (int f = 0; f < out->finding_count; f++)
            if (finding_rank(&out->findings[f]) == rank)
                sorted[n++] = out->findings[f];
    out->findings = sorted;
}

static int unstable_demanded(const bys_design *out)
{
    int n = 0;
    for (int c = 0; c < out->case_count; c++)
        n += out->cases[c].demanded && out->cases[c].status != BYS_STABLE;
    return n;
}

static int failed_legs(const bys_design *out)
{
    int n = 0;
    for (int l = 0; l < out->leg_count; l++)
        n += out->legs[l].verdict == BYS_FAIL;
    return n;
}

static const char *plural(int n)
{
    return n == 1 ? "" : "s";
}

static void write_headline(bys_judge *judge, const tally *t)
{
    bys_design *out = judge->out;
    const int legs = failed_legs(out);
    int findings = 0;
    for (int f = 0; f < out->finding_count; f++)
        findings += out->findings[f].verdict == BYS_FAIL;
    const char *open =
        t->open ? bys_judge_text(judge, " %d check%s could not be made.", t->open, plural(t->open))
                : "";
    if (t->fail)
        out->headline = bys_judge_text(
            judge, "%d of %d legs fail%s%s.%s%s%s", legs, out->leg_count,
            findings ? bys_judge_text(judge, ", and %d other check%s", findings, plural(findings))
                     : "",
            "", open, out->worst_count ? " Worst: " : "",
            out->worst_count ? out->worst_things[0] : "");
    else if (out->incomplete)
        out->headline =
            bys_judge_text(judge, "Nothing fails, but the check is not complete:%s%s%s", open,
                           out->worst_count ? " " : "",
                           out->worst_count ? out->worst_things[0] : " nothing could be checked.");
    else
        out->headline = bys_judge_text(judge, "All %d checks of %d legs pass.%s%s", t->pass,
                                       out->leg_count, out->worst_count ? " Closest: " : "",
                                       out->worst_count ? out->worst_things[0] : "");
}

void bys_judge_verdict(bys_judge *judge)
{
    bys_design *out = judge->out;
    sort_findings(judge);
    const tally t = count_all(out);
    out->incomplete = t.open > 0 || unstable_demanded(out) > 0 || t.pass + t.fail == 0;
    out->verdict = t.fail ? "fail" : out->incomplete ? "incomplete" : "pass";
    bys_judge_worst(judge);
    write_headline(judge, &t);
}

int bys_design_exit(const bys_design *design)
{
    return !strcmp(design->verdict, "pass") ? 0 : !strcmp(design->verdict, "fail") ? 1 : 2;
}
