// SPDX-License-Identifier: GPL-3.0-or-later
// Blocks of longlines: lines L01.. side by side, with the changes to single lines put in.
#include "lease/expand.h"

#include <math.h>
#include <string.h>

static const double pi = 3.14159265358979323846;

static const char *line_id(bys_expansion *x, const bys_block *block, int i) {
    return bys_arena_format(x->scratch, "%s%0*d", block->item.id, block->lines > 99 ? 3 : 2, i + 1);
}

// Which end does a leg's `at` name? Bit 0: end 0 (tail), bit 1: end 1 (head); 0: neither.
static int ends_named(const char *at, double heading) {
    if (!strcmp(at, "ends"))
        return 3;
    const int named = bys_compass_read(at);
    if (named < 0)
        return 0;
    return (named == bys_compass_index(heading + pi)) | (named == bys_compass_index(heading)) << 1;
}

// A leg for one end stands before one for both; a change stands before the block.
static void choose_legs(bys_expansion *x, const bys_line_plan *plan, const bys_leg_spec *list,
                        int n, const bys_leg_spec *chosen[2]) {
    for (int pass = 0; pass < 2; pass++) {
        for (int i = 0; i < n; i++) {
            const int ends = ends_named(list[i].at, plan->heading);
            if (!strcmp(list[i].at, "along"))
                continue;
            if (pass == 0 && ends == 0)
                bys_expand_fault(x, BYS_M_leg_at_nothing, list[i].place,
                                 "%s: leg at='%s' names no end of this line; use 'ends', '%s' or "
                                 "'%s'",
                                 plan->id, list[i].at, bys_compass_name(plan->heading),
                                 bys_compass_name(plan->heading + pi));
            if ((pass == 0) != (ends == 3))
                continue;
            if (ends & 1)
                chosen[0] = &list[i];
            if (ends & 2)
                chosen[1] = &list[i];
        }
    }
}

static void apply_change(bys_line_plan *plan, const bys_change *c) {
    plan->change = c;
    plan->place = c->place;
    plan->x += c->dx;
    plan->y += c->dy;
    if (isfinite(c->backbone_length))
        plan->length = c->backbone_length;
    if (c->float_count > 0) {
        plan->floats = c->floats;
        plan->float_count = c->float_count;
    }
    if (c->gear_count > 0) {
        plan->gear = c->gear;
        plan->gear_count = c->gear_count;
    }
}

static bool add_legs(bys_expansion *x, const bys_line_plan *plan, int line,
                     const bys_leg_spec *const chosen[2]) {
    for (int end = 0; end < 2; end++) {
        if (!chosen[end] || chosen[end]->bridle.part)
            continue;
        const double out = plan->heading + (end ? 0.0 : pi), half = 0.5 * plan->length;
        const bys_line *l = &x->net->lines[line];
        const bys_leg_seat seat = {
            .spec = chosen[end],
            .id = bys_arena_format(x->scratch, "%s/%s", plan->id, bys_compass_name(out)),
            .top = l->points[end ? l->point_count - 1 : 0],
            .top_nominal = {plan->x + half * sin(out), plan->y + half * cos(out),
                            x->surface - BYS_START_DRAFT},
            .outward = out,
            .line = line,
            .body = -1,
            .end = end};
        int leg;
        if (!seat.id || !bys_expand_leg(x, &seat, &leg))
            return false;
        x->net->lines[line].legs[end] = leg;
    }
    return true;
}

static bool add_line(bys_expansion *x, bys_line_plan *plan) {
    const bys_leg_spec *chosen[2] = {NULL, NULL};
    const int before = x->faults;
    choose_legs(x, plan, plan->block->legs, plan->block->leg_count, chosen);
    if (plan->change)
        choose_legs(x, plan, plan->change->legs, plan->change->leg_count, chosen);
    if (!bys_expand_joints(x, plan, chosen))
        return false;
    int legs = (chosen[0] != NULL) + (chosen[1] != NULL);
    for (int i = 0; i < plan->joint_count; i++)
        legs += plan->joints[i].end < 0;
    if (legs == 0 && x->faults == before)
        bys_expand_fault(x, BYS_M_line_unanchored, plan->place,
                         "%s has no leg: nothing holds it; add <leg at=\"ends\"> to its block",
                         plan->id);
    else if (x->faults == before && legs == 1 && x->messages && x->net->stage <= 0)
        bys_messages_add(x->messages, BYS_WARNING, BYS_M_one_leg, plan->place,
                         "%s has a leg at one end only: it swings round its anchor", plan->id);
    int line;
    return bys_expand_backbone(x, plan, &line) && add_legs(x, plan, line, chosen) &&
           bys_expand_along(x, plan, line);
}

static bool add_block(bys_expansion *x, const bys_block *block) {
    if (!x->site->has_bed)
        bys_expand_fault(x, BYS_M_anchors_need_bed, block->item.place,
                         "block '%s' needs a seabed for its anchors: add <seabed>", block->item.id);
    for (int i = 0; i < block->lines; i++) {
        const double offset =
            block->lines > 1 ? (i - 0.5 * (block->lines - 1)) * block->spacing : 0.0;
        bys_line_plan plan = {.id = line_id(x, block, i),
                              .block = block,
                              .heading = block->heading,
                              .x = block->x + offset * cos(block->heading),
                              .y = block->y - offset * sin(block->heading),
                              .length = block->backbone_length,
                              .floats = block->floats,
                              .float_count = block->float_count,
                              .gear = block->gear,
                              .gear_count = block->gear_count,
                              .place = block->item.place};
        if (!plan.id)
            return false;
        bool removed = false;
        for (int c = 0; c < x->site->change_count; c++) {
            if (strcmp(x->site->changes[c].line, plan.id) != 0)
                continue;
            removed |= x->site->changes[c].remove;
            apply_change(&plan, &x->site->changes[c]);
        }
        if (!removed && !add_line(x, &plan))
            return false;
    }
    return true;
}

static bool line_exists(bys_expansion *x, const char *id, bool *found) {
    *found = false;
    for (int b = 0; b < x->site->block_count; b++) {
        for (int i = 0; i < x->site->blocks[b].lines; i++) {
            const char *name = line_id(x, &x->site->blocks[b], i);
            if (!name)
                return false;
            *found |= !strcmp(name, id);
        }
    }
    return true;
}

bool bys_expand_blocks(bys_expansion *x) {
    for (int c = 0; c < x->site->change_count; c++) {
        bool found;
        if (!line_exists(x, x->site->changes[c].line, &found))
            return false;
        if (!found)
            bys_expand_fault(x, BYS_M_change_line, x->site->changes[c].place,
                             "there is no line '%s' to %s", x->site->changes[c].line,
                             x->site->changes[c].remove ? "remove" : "change");
    }
    for (int b = 0; b < x->site->block_count; b++)
        if (!add_block(x, &x->site->blocks[b]))
            return false;
    return true;
}
