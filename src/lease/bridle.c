// SPDX-License-Identifier: GPL-3.0-or-later
// Bridles: two arms from the top of a leg's line to two places of a backbone or of a raft.
//
// The line below is built up to the bridle's point, which starts where taut arms would hold it: on
// the way from the middle between their ends to the anchor, at the height of the triangle of half
// the spread and the arm. Reaches count from that middle.
#include "lease/expand.h"

#include <math.h>
#include <string.h>

void bys_seat_bridle(bys_leg_seat *seat, int a, int b, double spread) {
    const double arm = seat->spec->bridle.length, half = 0.5 * spread;
    seat->bridled = true;
    seat->arms[0] = a;
    seat->arms[1] = b;
    seat->half_spread = half;
    seat->arm_rise = sqrt(fmax(arm * arm - half * half, 1e-4 * arm * arm));
}

bool bys_bridle_point(bys_expansion *x, bys_leg_seat *seat, const double anchor[3]) {
    if (!seat->bridled)
        return true;
    double way[3], length = 0.0;
    for (int k = 0; k < 3; k++) {
        way[k] = anchor[k] - seat->top_nominal[k];
        length += way[k] * way[k];
    }
    length = sqrt(length);
    const double share = length > 0.0 ? fmin(0.9, seat->arm_rise / length) : 0.0;
    for (int k = 0; k < 3; k++)
        seat->top_nominal[k] += share * way[k];
    const char *id = bys_arena_format(x->scratch, "%s/bridle", seat->id);
    seat->top = id ? bys_network_point(x->net, id, BYS_POINT_FREE, seat->top_nominal) : -1;
    if (seat->top >= 0)
        x->net->points[seat->top].place = seat->spec->bridle.place;
    return seat->top >= 0;
}

bool bys_bridle_arms(bys_expansion *x, const bys_leg_seat *seat, int leg) {
    const bys_bridle_spec *spec = &seat->spec->bridle;
    for (int k = 0; seat->bridled && k < 2; k++) {
        bys_section like = bys_section_of_part(x, spec->part, spec->length);
        like.leg = leg;
        like.line = seat->line;
        like.place = spec->place;
        const char *id = bys_arena_format(x->scratch, "%s/bridle%d", seat->id, k + 1);
        if (!id || bys_network_section(x->net, id, seat->top, seat->arms[k],
                                       bys_section_elements(x, &like, 0), &like) < 0)
            return false;
    }
    return true;
}
