// SPDX-License-Identifier: GPL-3.0-or-later
// Wave drift on hulls in one environment: what a side reflects, and spreading of the waves.
//
// GIVEN     sea              with waves; hulls: sides known by draft and breadth
//           draft, breadth   of a hull below water, along the waves                     m
//           s                cosine between the waves' mean direction and the normal    -
// RETURNED  share of the drift of full reflection (-); mean of c|c| (-).
// NOTES     1. The share is that of the spectrum of the case: drift by the exact fixed rectangle over
//              drift by full reflection, both with the factor of finite depth. A side that is not in the
//              list counts as reflecting all.
//           2. Draft: that of the hull at rest with its gear, at the crop stage. Breadth: from the outer
//              face of the first pontoon to that of the last, as if solid between: gaps would let waves
//              through, which is left out on the safe side.
//           3. Spreading: cos^n over half a turn; c|c| = sum of a_k cos k a over odd k, and the mean of
//              cos k a about a mean direction is cos k b times that of the spreading. Eight terms.
//           4. A side of a body that rides the waves reflects less; see phys/rectangle.c.
// SOURCE    phys/rectangle.c, rectangle_table.c, drift.c; series: derived.
#include "base/codes.h"
#include "phys/phys.h"
#include "phys/sea_loads.h"
#include "sea/hulls.h"

#include <math.h>

double bys_sea_reflected(const bys_sea *sea, double draft, double breadth)
{
    for (int i = 0; i < sea->hull_count; i++)
        if (sea->hulls[i].draft == draft && sea->hulls[i].breadth == breadth)
            return sea->hulls[i].share;
    return 1.0;
}

/// a_k of cos|cos| = sum a_k cos k a: (2/pi) sin(k pi/2) (1/k - 1/(2(k + 2)) - 1/(2(k - 2))).
static double coefficient(int k)
{
    const double sign = k % 4 == 1 ? 1.0 : -1.0;
    return 2.0 / BYS_PI * sign * (1.0 / k - 0.5 / (k + 2) - 0.5 / (k - 2));
}

void bys_sea_spread(bys_sea *sea)
{
    enum { STEPS = 400 };
    double norm = 0.0;
    for (int k = 0; k < BYS_SPREAD_TERMS; k++)
        sea->spread[k] = 0.0;
    if (!(sea->spreading > 0.0))
        return;
    for (int i = 0; i < STEPS; i++) { // middle points
        const double a = BYS_PI * ((i + 0.5) / STEPS - 0.5), d = pow(cos(a), sea->spreading);
        norm += d;
        for (int k = 0; k < BYS_SPREAD_TERMS; k++)
            sea->spread[k] += d * cos((2 * k + 1) * a);
    }
    for (int k = 0; k < BYS_SPREAD_TERMS; k++)
        sea->spread[k] /= norm;
}

double bys_sea_facing(const bys_sea *sea, double s, double *d_ds)
{
    *d_ds = 2.0 * fabs(s);
    if (!(sea->spreading > 0.0))
        return s * fabs(s);
    // cos k b as polynomials of s = cos b: T_(k+2) = 2 T_2 T_k - T_(k-2), and their slopes
    const double t2 = 2.0 * s * s - 1.0, d2 = 4.0 * s;
    double low = s, dlow = 1.0, high = s, dhigh = 1.0, sum = 0.0; // T_-1 = T_1 = s
    *d_ds = 0.0;
    for (int k = 0; k < BYS_SPREAD_TERMS; k++) {
        const double weight = coefficient(2 * k + 1) * sea->spread[k];
        sum += weight * high;
        *d_ds += weight * dhigh;
        const double next = 2.0 * t2 * high - low;
        const double dnext = 2.0 * (d2 * high + t2 * dhigh) - dlow;
        low = high, dlow = dhigh, high = next, dhigh = dnext;
    }
    return sum;
}

void bys_hull_share(bys_sea_hull *out, const bys_rectangle *table, const bys_sea *sea)
{
    *out = (bys_sea_hull){table->draft, table->breadth, 1.0};
    if (sea->reflection > 0.0)
        out->share = fmin(1.0, bys_rectangle_drift(table, sea->rho, sea->hs, sea->tp, sea->gamma,
                                                   0.0) /
                                   sea->reflection);
}

static bool listed(const bys_hull_list *list, double draft, double breadth)
{
    for (int i = 0; i < list->count; i++)
        if (list->draft[i] == draft && list->breadth[i] == breadth)
            return true;
    return false;
}

static void add_side(bys_hull_list *list, double draft, double breadth)
{
    if (list->count < BYS_MOST_HULLS && !listed(list, draft, breadth)) {
        list->draft[list->count] = draft;
        list->breadth[list->count++] = breadth;
    }
}

void bys_hulls_of(bys_hull_list *list, const bys_site *site)
{
    list->count = 0;
    for (int p = 0; p < site->part_count; p++) {
        const bys_part *part = &site->parts[p];
        if (part->kind != BYS_PART_RAFT)
            continue;
        for (int s = -1; s < site->stage_count; s++) {
            const double draft = bys_raft_part_draft(site, part, s < 0 ? NULL : &site->stages[s]);
            add_side(list, draft, part->u.raft.pontoon_length);
            add_side(list, draft, part->u.raft.width);
        }
    }
}

bool bys_hulls_put(bys_sea *sea, bys_hull_tables *tables, const bys_hull_list *list,
                   bys_arena *arena)
{
    if (list->count == 0 || !(sea->reflection > 0.0))
        return true;
    if (tables->depth != sea->depth) {
        for (int i = 0; i < list->count; i++)
            bys_rectangle_set(&tables->at[i], sea->depth, list->draft[i], list->breadth[i]);
        tables->depth = sea->depth;
    }
    bys_sea_hull *hulls = bys_arena_get(arena, (size_t)list->count * sizeof *hulls);
    if (!hulls)
        return false;
    for (int i = 0; i < list->count; i++)
        bys_hull_share(&hulls[i], &tables->at[i], sea);
    sea->hulls = hulls;
    sea->hull_count = list->count;
    return true;
}

void bys_floats_small(const bys_environments *list, const bys_site *site, bys_messages *messages)
{
    static const double limit = 0.3;
    const bys_part *part = NULL;
    double radius = 0.0, k = 0.0;
    for (int p = 0; p < site->part_count; p++)
        if (site->parts[p].kind == BYS_PART_FLOAT &&
            site->parts[p].u.buoy.diameter > 2.0 * radius) {
            part = &site->parts[p];
            radius = 0.5 * part->u.buoy.diameter;
        }
    const char *id = "";
    for (int e = 0; e < list->count; e++) {
        const bys_sea *sea = &list->items[e].sea;
        const double here =
            sea->hs > 0.0 ? bys_wave_number(2.0 * BYS_PI / sea->tp, sea->depth) : 0.0;
        if (here > k)
            k = here, id = list->items[e].id;
    }
    if (part && k * radius > limit)
        bys_messages_add(messages, BYS_WARNING, BYS_M_float_not_small, part->item.place,
                         "float %s, %.2f m across, is not small against the waves of %s: the drift "
                         "of waves that it scatters is left out",
                         part->item.id, 2.0 * radius, id);
}
