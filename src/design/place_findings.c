// SPDX-License-Identifier: GPL-3.0-or-later
// Findings about the lease: anchors, drop points of drag anchors, and all that moves, intact.
// The boundary and its margin are the user's, so they are demanded.
#include "design/findings.h"

#include <math.h>

static double margin_of(const bys_site *site)
{
    return site->lease_margin > 0.0 ? site->lease_margin : 0.0;
}

static const char *side(bys_judge *judge, double inside)
{
    return inside < 0.0 ? bys_judge_text(judge, "%.1f m outside the lease", -inside)
                        : bys_judge_text(judge, "%.1f m inside the lease", inside);
}

// ---- anchors -------------------------------------------------------------------------------

static void anchor_finding(bys_judge *judge, const char *item, double inside, const char *what)
{
    const double margin = margin_of(judge->site);
    const bys_finding f = {.kind = "lease",
                           .item = item,
                           .case_id = "",
                           .condition = "intact",
                           .value = inside,
                           .limit = margin,
                           .unit = "m",
                           .verdict = inside >= margin ? BYS_PASS : BYS_FAIL,
                           .basis = BYS_BASIS_USER,
                           .text = bys_judge_text(judge, "%s %s lies %s; the margin is %.1f m",
                                                  what, item, side(judge, inside), margin)};
    bys_finding_add(judge, &f);
}

/// Where a drag anchor is let go: its set-back beyond the final position.
static double drop_point_inside(const bys_judge *judge, int anchor)
{
    const bys_site *site = judge->site;
    const bys_anchor *a = &judge->stages[0].net->anchors[anchor];
    if (!a->part || a->part->u.anchor.kind != BYS_ANCHOR_DRAG || !(a->part->u.anchor.setback > 0.0))
        return NAN;
    const double *x = judge->stages[0].net->points[a->point].x;
    return bys_plan_inside(site->lease_x, site->lease_y, site->lease_count,
                           x[0] - a->part->u.anchor.setback * sin(a->heading),
                           x[1] - a->part->u.anchor.setback * cos(a->heading));
}

static void all_anchors(bys_judge *judge)
{
    const double margin = margin_of(judge->site);
    const bys_anchor_result *anchors = judge->out->anchors;
    int least = -1, failures = 0;
    for (int a = 0; a < judge->out->anchor_count; a++) {
        const double inside = anchors[a].lease_margin_m, drop = drop_point_inside(judge, a);
        if (!(inside >= margin)) {
            anchor_finding(judge, anchors[a].id, inside, "anchor");
            failures++;
        }
        if (!isnan(drop) && !(drop >= margin)) {
            anchor_finding(judge, anchors[a].id, drop, "the drop point (with set-back) of");
            failures++;
        }
        if (least < 0 || inside < anchors[least].lease_margin_m)
            least = a;
    }
    if (!failures && least >= 0)
        anchor_finding(judge, anchors[least].id, anchors[least].lease_margin_m,
                       "nearest to it, anchor");
}

// ---- what moves ----------------------------------------------------------------------------

static double inside_of(const bys_group_seen *seen)
{
    return seen->inside;
}

static void moving_finding(bys_judge *judge, const bys_group_worst *worst)
{
    bys_finding f = bys_finding_start(judge, "lease", worst);
    f.limit = margin_of(judge->site);
    f.text = bys_judge_text(
        judge, "%s with its legs comes to %s at x %.1f m, y %.1f m (%s); the margin is %.1f m",
        f.item, side(judge, f.value), worst->seen->at[0], worst->seen->at[1],
        bys_case_speech(judge, worst->job), f.limit);
    bys_finding_judge(judge, &f, worst->group, f.value >= f.limit);
    bys_finding_add(judge, &f);
}

void bys_judge_place_findings(bys_judge *judge)
{
    if (judge->site->lease_count < 3)
        return;
    all_anchors(judge);
    for (int g = 0; g < judge->group_count; g++) {
        bys_group_worst worst;
        if (bys_group_least(judge, g, inside_of, BYS_CASES_DEMANDED, &worst))
            moving_finding(judge, &worst);
    }
}
