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

// Adds a place to the plan, two with a bridle.
static void add_joint(bys_expansion *x, bys_line_plan *plan, const bys_leg_spec *spec, int end,
                      double along) {
    const double half = spec->bridle.part ? 0.5 * spec->bridle.spread : 0.0;
    const bys_joint joint = {spec, end, along, {along - half, along + half}, {-1, -1}};
    const double least = end < 0 ? same_place : -same_place;
    if (joint.at[0] > least && joint.at[1] < plan->length - least) {
        plan->joints[plan->joint_count++] = joint;
        return;
    }
    bys_expand_fault(x, BYS_M_leg_along, spec->place,
                     "%s: a leg is made fast from %g m to %g m along the backbone, which is %g m "
                     "long; it must lie between its ends",
                     plan->id, joint.at[0], joint.at[1], plan->length);
}

bool bys_expand_joints(bys_expansion *x, bys_line_plan *plan,
                       const bys_leg_spec *const ends[2]) {
    const bys_leg_spec *list;
    int count, most = 2;
    list_of(plan, &list, &count);
    for (int i = 0; i < count; i++)
        most += is_along(&list[i]) ? places(&list[i], plan->length) : 0;
    plan->joints = bys_arena_get(x->scratch, sizeof(bys_joint) * (size_t)(most + 1));
    for (int end = 0; plan->joints && end < 2; end++) {
        const double half = ends[end] ? 0.5 * ends[end]->bridle.spread : 0.0;
        if (ends[end] && ends[end]->bridle.part)
            add_joint(x, plan, ends[end], end, end ? plan->length - half : half);
    }
    for (int i = 0; plan->joints && i < count; i++) {
        const bys_leg_spec *spec = &list[i];
        for (int k = 0; is_along(spec) && k < places(spec, plan->length); k++)
            add_joint(x, plan, spec, -1, spec->every > 0.0 ? (k + 1) * spec->every : spec->along);
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

static const char *joint_id(bys_expansion *x, const bys_line_plan *plan, const bys_joint *joint,
                            double outward) {
    return joint->end < 0 ? id_of(x, plan, joint->along, outward)
                          : bys_arena_format(x->scratch, "%s/%s", plan->id,
                                             bys_compass_name(outward));
}

bool bys_expand_along(bys_expansion *x, const bys_line_plan *plan, int line) {
    for (int i = 0; i < plan->joint_count; i++) {
        const bys_joint *joint = &plan->joints[i];
        const double s = joint->along - 0.5 * plan->length;
        bys_leg_seat seat = {.spec = joint->spec,
                             .top = joint->point[0],
                             .top_nominal = {plan->x + s * sin(plan->heading),
                                             plan->y + s * cos(plan->heading),
                                             x->surface - BYS_START_DRAFT},
                             .line = line,
                             .body = -1,
                             .end = joint->end};
        int leg;
        seat.outward = joint->end < 0 ? outward_of(joint->spec, seat.top_nominal)
                                      : plan->heading + (joint->end ? 0.0 : BYS_PI);
        seat.id = joint_id(x, plan, joint, seat.outward);
        if (joint->spec->bridle.part)
            bys_seat_bridle(&seat, joint->point[0], joint->point[1], joint->spec->bridle.spread);
        if (!seat.id || !bys_expand_leg(x, &seat, &leg))
            return false;
        if (joint->end >= 0)
            x->net->lines[line].legs[joint->end] = leg;
    }
    return true;
}
