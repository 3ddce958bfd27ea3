// SPDX-License-Identifier: GPL-3.0-or-later
// The site as it lies: each leg with its true anchor and the lengths that were cut, or with one
// length open. What is written here takes the place of the layout's legs; the rest of the site
// stays.
#include "design/aslaid.h"
#include "design/as_cut.h"

#include <math.h>
#include <string.h>

int bys_aslaid_warp(const bys_leg_spec *spec)
{
    int line = -1;
    for (int i = spec->item_count - 1; i >= 0; i--) {
        if (spec->items[i].kind != BYS_LEG_LINE)
            continue;
        if (spec->items[i].part->kind == BYS_PART_ROPE)
            return i;
        line = line < 0 ? i : line;
    }
    return line;
}

bool bys_aslaid_moved(const bys_aslaid_work *work, const bys_leg *leg)
{
    const bys_laid_anchor *a = &work->result.anchors[leg->anchor];
    return a->surveyed && a->offset_m > 0.01;
}

bys_leg_override *bys_aslaid_as_made(bys_aslaid_work *work)
{
    bys_leg_override *all = bys_legs_as_cut(work->arena, work->net);
    for (int l = 0; all && l < work->net->leg_count; l++) {
        const bys_laid_anchor *a = &work->result.anchors[work->net->legs[l].anchor];
        all[l].spec.x = a->x_m;
        all[l].spec.y = a->y_m;
    }
    work->failed = work->failed || !all;
    return all;
}

static double straight(const bys_aslaid_work *work, const bys_leg *leg, double x, double y)
{
    const double z = bys_bed_z(&work->site->bed, x, y), *top = leg->top_nominal;
    return sqrt((x - top[0]) * (x - top[0]) + (y - top[1]) * (y - top[1]) +
                (z - top[2]) * (z - top[2]));
}

// The pretension is the stated one, else the one that the design has in slack water at the lowest
// level in the first stage. The search starts where the warp has taken up the anchor's way.
static void open_warp(bys_aslaid_work *work, bys_leg_override *out, int l)
{
    const bys_leg *leg = &work->net->legs[l];
    const bys_laid_anchor *a = &work->result.anchors[leg->anchor];
    const double found = work->result.design->legs[l].pretension_N;
    const int warp = bys_aslaid_warp(&out->spec);
    const bool stated = isfinite(leg->spec->pretension);
    if (warp < 0 || !bys_aslaid_moved(work, leg) || (!stated && !(found >= 1.0)))
        return;
    out->open_start = fmax(0.5, out->spec.items[warp].length +
                                    straight(work, leg, a->x_m, a->y_m) -
                                    straight(work, leg, a->design_x_m, a->design_y_m));
    out->spec.items[warp].length = NAN;
    out->spec.pretension = stated ? leg->spec->pretension : found;
    if (!stated) {
        out->spec.pretension_level = "";
        out->spec.pretension_stage =
            work->site->stage_count > 0 ? work->site->stages[0].item.id : "";
    }
}

bys_leg_override *bys_aslaid_open(bys_aslaid_work *work)
{
    bys_leg_override *all = bys_aslaid_as_made(work);
    for (int l = 0; all && l < work->net->leg_count; l++)
        open_warp(work, &all[l], l);
    return all;
}
