// SPDX-License-Identifier: GPL-3.0-or-later
// Rafts in a grid, joined by head ropes, with legs from their outer corners.
#include "torture/layout.h"

#include <math.h>
#include <stdio.h>

typedef struct {
    int columns, rows;
    double size, gap, depth;
    double mass, gear_mass; ///< kg a raft
    double pieces;          ///< of gear under a raft
    double least_reach;     ///< of the legs over the depth
    double height, draught; ///< m, of the pontoons
    int raft[3][3];
    int corner[3][3][4]; ///< body points; corner k: x side k & 1, y side k & 2
} grid;

static double drag_at(const layout *l, const grid *g) {
    const double U = l->sea.current_speed + 0.8 * l->sea.hs;
    const double hull = 2.0 * g->size * g->draught;
    const double hung = g->pieces * l->values.cd * l->values.width * l->values.height;
    return g->columns * g->rows * (hull + hung) * 0.5 * l->sea.rho * U * U;
}

/// Legs flat enough not to pull a raft under; where that would take more than six depths the place
/// has less current.
static void moor_against_drag(layout *l, grid *g) {
    const double lift = (g->mass + g->gear_mass) * l->sea.gravity * (g->height / g->draught - 1.0);
    for (;;) {
        l->drag = drag_at(l, g);
        g->least_reach = fmax(1.0, 3.0 * l->drag / lift);
        if (g->least_reach <= 6.0)
            return;
        l->sea.current_speed *= 0.9;
        l->sea.hs *= 0.9;
    }
}

static void choose_grid(layout *l, grid *g) {
    g->columns = dice_int(&l->d, 1, 3);
    g->rows = dice_int(&l->d, 1, g->columns == 3 ? 2 : 3);
    g->size = dice_real(&l->d, 6.0, 22.0);
    g->gap = dice_real(&l->d, 2.0, 8.0);
    g->depth = exp(dice_real(&l->d, log(5.0), log(50.0)));
    g->mass = g->size * g->size * dice_real(&l->d, 30.0, 90.0);
    g->pieces = g->size * g->size * dice_real(&l->d, 0.0, 1.5);
    g->pieces = fmin(g->pieces, 2.0 * g->mass / l->values.mass_in_water);
    g->gear_mass = g->pieces * l->values.mass_in_water;
    g->height = dice_real(&l->d, 0.8, 2.0);
    g->draught = g->height * dice_real(&l->d, 0.35, 0.7);
    const double span = 3.0 * (g->size + g->gap);
    layout_set_bed(l, g->depth, 0.7 * span + 7.0 * g->depth);
    moor_against_drag(l, g);
}

static void add_hull(layout *l, const grid *g, int raft) {
    const double carried = g->mass + g->gear_mass, plane = carried / (l->sea.rho * g->draught);
    for (int k = 0; k < 4; k++) {
        const double foot[3] = {(k & 1 ? 0.35 : -0.35) * g->size, (k & 2 ? 0.35 : -0.35) * g->size,
                                0.0};
        const bys_prism prism = {.point = bys_network_body_point(l->net, "foot", raft, foot),
                                 .waterplane = plane / 4.0,
                                 .height = g->height,
                                 .width_x = 0.25 * g->size,
                                 .width_y = 0.25 * g->size,
                                 .cd = 1.2,
                                 .reflect_x = 0.25 * g->size,
                                 .reflect_y = 0.25 * g->size,
                                 .cs = 1.2};
        bys_network_prism(l->net, &prism);
    }
}

static void add_raft(layout *l, grid *g, int c, int r) {
    char id[16];
    const double pitch = g->size + g->gap, s = sin(l->heading), co = cos(l->heading);
    const double u = (c - 0.5 * (g->columns - 1)) * pitch, v = (r - 0.5 * (g->rows - 1)) * pitch;
    const double x[3] = {co * u + s * v, -s * u + co * v, l->sea.level - g->draught};
    snprintf(id, sizeof id, "R%d-%d", c + 1, r + 1);
    const int raft = g->raft[c][r] = bys_network_body(l->net, id, x, g->mass);
    const double turn[9] = {co, s, 0.0, -s, co, 0.0, 0.0, 0.0, 1.0};
    for (int i = 0; i < 9; i++)
        l->net->bodies[raft].rotation[i] = turn[i];
    add_hull(l, g, raft);
    const double middle[3] = {0.0, 0.0, 0.6 * g->height}, deck[3] = {0.0, 0.0, g->height + 0.4};
    l->net->bodies[raft].cg_point = bys_network_body_point(l->net, "cg", raft, middle);
    l->net->bodies[raft].wind_point = bys_network_body_point(l->net, "deck", raft, deck);
    l->net->bodies[raft].wind_area = 0.3 * g->size, l->net->bodies[raft].wind_cs = 1.1;
    for (int k = 0; k < 4; k++) {
        const double at[3] = {(k & 1 ? 0.5 : -0.5) * g->size, (k & 2 ? 0.5 : -0.5) * g->size,
                              0.8 * g->height};
        g->corner[c][r][k] = bys_network_body_point(l->net, "fairlead", raft, at);
        if (g->gear_mass <= 0.0)
            continue;
        const double below[3] = {0.5 * at[0], 0.5 * at[1], 0.5 * g->height};
        const bys_gear_set set = {.id = "gear",
                                  .part = &l->gear,
                                  .values = &l->values,
                                  .point = bys_network_body_point(l->net, "hung", raft, below),
                                  .count = 0.25 * g->pieces,
                                  .line = -1};
        bys_network_gear(l->net, &set);
    }
}

static void join(layout *l, const grid *g, int a, int b, const char *id) {
    bys_section like = layout_rope(l);
    like.length = g->gap * dice_real(&l->d, 0.99, 1.25);
    bys_network_section(l->net, id, a, b, 4, &like);
}

static void join_rafts(layout *l, const grid *g) {
    for (int c = 0; c < g->columns; c++)
        for (int r = 0; r < g->rows; r++) {
            for (int k = 0; k < 4 && c + 1 < g->columns; k += 2)
                join(l, g, g->corner[c][r][k + 1], g->corner[c + 1][r][k], "head across");
            for (int k = 0; k < 2 && r + 1 < g->rows; k++)
                join(l, g, g->corner[c][r][k + 2], g->corner[c][r + 1][k], "head along");
        }
}

/// A leg from corner k, outward between the two sides or square to one.
static void add_corner_leg(layout *l, const grid *g, int c, int r, int k, double bearing) {
    char id[32], anchor[40];
    double x[3];
    snprintf(id, sizeof id, "R%d-%d/%d", c + 1, r + 1, k);
    snprintf(anchor, sizeof anchor, "%s/anchor", id);
    const int top = g->corner[c][r][k];
    layout_point_world(l, top, x);
    const double depth = x[2] - layout_bed(l, x);
    const double reach = fmax(layout_reach(l, depth), g->least_reach * depth);
    const int foot = layout_anchor(l, anchor, x, reach, l->heading + bearing);
    layout_leg(l, id, foot, top, -1, g->raft[c][r], 0);
}

static void add_legs(layout *l, const grid *g) {
    for (int c = 0; c < g->columns; c++)
        for (int r = 0; r < g->rows; r++)
            for (int k = 0; k < 4; k++) {
                const bool outer_x = c == (k & 1 ? g->columns - 1 : 0);
                const bool outer_y = r == (k & 2 ? g->rows - 1 : 0);
                const bool corner = outer_x && outer_y;
                if (!corner && !((outer_x || outer_y) && dice_chance(&l->d, 0.4)))
                    continue;
                const double out = atan2(outer_x ? (k & 1 ? 1.0 : -1.0) : 0.0,
                                         outer_y ? (k & 2 ? 1.0 : -1.0) : 0.0);
                add_corner_leg(l, g, c, r, k, out + dice_real(&l->d, -0.2, 0.2));
            }
}

void layout_rafts(layout *l) {
    grid g = {0};
    l->gear.u.gear.orientation = BYS_ORIENT_FREE;
    choose_grid(l, &g);
    for (int c = 0; c < g.columns; c++)
        for (int r = 0; r < g.rows; r++)
            add_raft(l, &g, c, r);
    join_rafts(l, &g);
    add_legs(l, &g);
    const double lost = dice_real(&l->d, 0.0, 1.0);
    const int n = l->net->leg_count, first = dice_int(&l->d, 0, n - 1);
    if (lost < 0.35)
        layout_lose(l, first);
    if (lost < 0.12)
        layout_lose(l, (first + dice_int(&l->d, 1, n - 1)) % n);
    snprintf(
        l->what, sizeof l->what,
        "%d x %d rafts of %.0f m, %.0f m deep, gear %.2f of the hull, current %.2f m/s, %d legs, "
        "%d lost",
        g.columns, g.rows, g.size, g.depth, g.gear_mass / g.mass, l->sea.current_speed, n,
        l->lost_legs);
}
