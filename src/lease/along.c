// SPDX-License-Identifier: GPL-3.0-or-later
// Legs along a backbone: at a stated place, or one at each multiple of a distance.
// Their ids say where and which way: L05/30m-E stands 30 m from the tail and goes east.
#include "lease/expand.h"

#include <math.h>
#include <string.h>

static const double same_place = 1e-6; // m

static bool is_along(const bys_leg_spec *spec) {
    return !strcmp(spec->at, "along");
}

static int places(const bys_leg_spec *spec, double length) {
    return !(spec->every > 0.0) ? 1 : (int)fmax(0.0, ceil(length / spec->every - 1e-9) - 1.0);
}

// Those of a change, if it has any, stand for all of the block's.
static void list_of(const bys_line_plan *plan, const bys_leg_spec **list, int *count) {
    const bys_change *c = plan->change;
    *list = plan->block->legs;
    *count = plan->block->leg_count;
    for (int i = 0; c && i < c->leg_count; i++)
        if (is_along(&c->legs[i])) {
            *list = c->legs;
            *count = c->leg_count;
            return;
        }
}

bool bys_expand_joints(bys_expansion *x, bys_line_plan *plan) {
    const bys_leg_spec *list;
    int count, most = 0;
    list_of(plan, &list, &count);
    for (int i = 0; i < count; i++)
        most += is_along(&list[i]) ? places(&list[i], plan->length) : 0;
    plan->joints = bys_arena_get(x->scratch, sizeof(bys_joint) * (size_t)(most + 1));
    for (int i = 0; plan->joints && i < count; i++) {
        const bys_leg_spec *spec = &list[i];
        for (int k = 0; is_along(spec) && k < places(spec, plan->length); k++) {
            const double along = spec->every > 0.0 ? (k + 1) * spec->every : spec->along;
            if (along > same_place && along < plan->length - same_place)
                plan->joints[plan->joint_count++] = (bys_joint){spec, along, -1};
            else
                bys_expand_fault(x, BYS_M_leg_along, spec->place,
                                 "%s: a leg stands %g m along the backbone, which is %g m long; a "
                                 "leg along it stands between its ends",
                                 plan->id, along, plan->length);
        }
    }
    return plan->joints != NULL;
}

// Direction from the nominal top to the anchor, where that is known beforehand.
static double outward_of(const bys_leg_spec *spec, const double top[3]) {
    if (isfinite(spec->bearing))
        return spec->bearing;
    return isfinite(spec->x) && isfinite(spec->y) ? atan2(spec->x - top[0], spec->y - top[1]) : 0.0;
}

static const char *id_of(bys_expansion *x, const bys_line_plan *plan, double along,
                         double outward) {
    const char *plain = bys_arena_format(x->scratch, "%s/%gm-%s", plan->id, along,
                                         bys_compass_name(outward));
    int before = 0;
    for (int i = 0; plain && i < x->net->leg_count; i++) {
        const size_t n = strlen(plain);
        const char *id = x->net->legs[i].id;
        before += !strncmp(id, plain, n) && (!id[n] || (id[n] >= '0' && id[n] <= '9'));
    }
    return before ? bys_arena_format(x->scratch, "%s%d", plain, before + 1) : plain;
}

bool bys_expand_along(bys_expansion *x, const bys_line_plan *plan, int line) {
    for (int i = 0; i < plan->joint_count; i++) {
        const bys_joint *joint = &plan->joints[i];
        const double s = joint->along - 0.5 * plan->length;
        bys_leg_seat seat = {.spec = joint->spec,
                             .top = joint->point,
                             .top_nominal = {plan->x + s * sin(plan->heading),
                                             plan->y + s * cos(plan->heading),
                                             x->surface - BYS_START_DRAFT},
                             .line = line,
                             .body = -1,
                             .end = -1};
        int leg;
        seat.outward = outward_of(joint->spec, seat.top_nominal);
        seat.id = id_of(x, plan, joint->along, seat.outward);
        if (!seat.id || !bys_expand_leg(x, &seat, &leg))
            return false;
    }
    return true;
}
