// SPDX-License-Identifier: GPL-3.0-or-later
// Longlines side by side: floats and gear along a backbone, a leg at each end, some with legs
// between, ties to the next line, or an anchor shared with it.
#include "torture/layout.h"

#include <math.h>
#include <stdio.h>

enum { MOST_POINTS = 41 };

typedef struct {
    int lines, points; ///< points per line
    double spacing, length, depth;
    double float_share; ///< lift of the floats over the weight of the gear
    int per_float;      ///< points per float
    int end_floats;
    bool shared[2]; ///< anchors at that end are shared by neighbours
    int anchor[2];  ///< last anchor point at that end
    int back[3][MOST_POINTS];
} block;

/// Place on the line: `along` and `across` from the middle of the block, just below the water.
static void place(const layout *l, double along, double across, double x[3]) {
    const double s = sin(l->heading), c = cos(l->heading);
    x[0] = s * along + c * across, x[1] = c * along - s * across;
    x[2] = l->sea.level - 0.1;
}

static void choose_block(layout *l, block *b) {
    b->lines = dice_chance(&l->d, 0.6) ? 1 : dice_int(&l->d, 2, 3);
    b->points = dice_int(&l->d, 11, b->lines == 1 ? MOST_POINTS : 25);
    b->spacing = dice_real(&l->d, 8.0, 25.0);
    b->length = dice_real(&l->d, 40.0, 200.0);
    b->depth = exp(dice_real(&l->d, log(4.0), log(50.0)));
    b->float_share = dice_chance(&l->d, 0.2) ? dice_real(&l->d, 0.4, 1.0)
                                             : exp(dice_real(&l->d, log(1.0), log(5.0)));
    b->per_float = dice_int(&l->d, 1, 4);
    b->end_floats = dice_int(&l->d, 0, 2);
    for (int e = 0; e < 2; e++)
        b->shared[e] = b->lines > 1 && dice_chance(&l->d, 0.2);
    layout_set_bed(l, b->depth, 0.5 * b->length + 7.0 * b->depth);
}

/// Upper bound of the drag on one line.
static void bound_drag(layout *l, const block *b, double pieces) {
    const double U = l->sea.current_speed + 0.8 * l->sea.hs;
    const double area =
        pieces * l->values.cd * l->values.width * l->values.height + 0.05 * 1.6 * b->length;
    l->drag = 0.5 * l->sea.rho * U * U * area;
}

static int add_line(layout *l, block *b, int i) {
    char id[32];
    double x[3];
    const double across = (i - 0.5 * (b->lines - 1)) * b->spacing;
    int ends[2];
    for (int e = 0; e < 2; e++) {
        place(l, (e - 0.5) * b->length, across, x);
        snprintf(id, sizeof id, "L%d/end%d", i + 1, e);
        ends[e] = bys_network_point(l->net, id, BYS_POINT_FREE, x);
    }
    bys_section like = layout_rope(l);
    like.line = i, like.length = b->length;
    snprintf(id, sizeof id, "L%d/backbone", i + 1);
    const int k = bys_network_section(l->net, id, ends[0], ends[1], b->points - 1, &like);
    for (int j = 0; j < b->points - 1; j++)
        b->back[i][j] = l->net->elements[l->net->sections[k].first + j].a;
    b->back[i][b->points - 1] = ends[1];
    return k;
}

static void hang_gear(layout *l, const block *b, int i, double pieces) {
    const double share = pieces / (b->points - 1);
    for (int j = 0; j < b->points; j++) {
        const bys_gear_set set = {.id = "gear",
                                  .part = &l->gear,
                                  .values = &l->values,
                                  .point = b->back[i][j],
                                  .count = j == 0 || j == b->points - 1 ? 0.5 * share : share,
                                  .axis = {sin(l->heading), cos(l->heading)},
                                  .line = i};
        bys_network_gear(l->net, &set);
    }
}

static void add_floats(layout *l, const block *b, int i, double weight) {
    const bys_float_part *f = &l->crop.u.buoy;
    const double lift = l->sea.gravity * (l->sea.rho * f->volume - f->mass);
    const int n = (b->points - 1 + b->per_float - 1) / b->per_float;
    const double count = b->float_share * weight / lift / n;
    for (int j = b->per_float / 2; j < b->points; j += b->per_float) {
        const int k = bys_network_float(l->net, "crop", &l->crop, b->back[i][j], count);
        l->net->floats[k].line = i;
    }
    for (int e = 0; e < 2 && b->end_floats > 0; e++) {
        const int k = bys_network_float(l->net, "end", &l->end, b->back[i][e * (b->points - 1)],
                                        b->end_floats);
        l->net->floats[k].line = i, l->net->floats[k].at_end = true;
    }
}

static int add_end_leg(layout *l, block *b, int i, int e) {
    char id[32], anchor[40];
    double x[3];
    const int top = b->back[i][e * (b->points - 1)];
    snprintf(id, sizeof id, "L%d/%s", i + 1, e ? "N" : "S");
    snprintf(anchor, sizeof anchor, "%s/anchor", id);
    layout_point_world(l, top, x);
    if (!b->shared[e] || i % 2 == 0) {
        const double off = dice_chance(&l->d, 0.7) ? 0.0 : dice_real(&l->d, -0.4, 0.4);
        const double depth = l->sea.level - layout_bed(l, x);
        b->anchor[e] = layout_anchor(l, anchor, x, layout_reach(l, depth),
                                     l->heading + (e ? 0.0 : M_PI) + off);
    }
    return layout_leg(l, id, b->anchor[e], top, i, -1, e);
}

/// A leg from somewhere along the backbone out to one side.
static void add_middle_leg(layout *l, const block *b, int i) {
    char id[32], anchor[40];
    double x[3];
    const int top = b->back[i][dice_int(&l->d, b->points / 4, 3 * b->points / 4)];
    snprintf(id, sizeof id, "L%d/M", i + 1);
    snprintf(anchor, sizeof anchor, "%s/anchor", id);
    layout_point_world(l, top, x);
    const double side = (dice_chance(&l->d, 0.5) ? 0.5 : -0.5) * M_PI;
    const int foot = layout_anchor(l, anchor, x, layout_reach(l, l->sea.level - layout_bed(l, x)),
                                   l->heading + side);
    layout_leg(l, id, foot, top, i, -1, 0);
}

static void tie(layout *l, const block *b, int i) {
    char id[32];
    const int j = dice_int(&l->d, 0, b->points - 1);
    snprintf(id, sizeof id, "tie%d", i + 1);
    bys_section like = layout_rope(l);
    like.length = b->spacing * dice_real(&l->d, 0.98, 1.2);
    bys_network_section(l->net, id, b->back[i][j], b->back[i + 1][j], 5, &like);
}

/// One leg of a line, or one of each of two lines.
static void lose_legs(layout *l, const block *b) {
    const double lost = dice_real(&l->d, 0.0, 1.0);
    if (lost > 0.35)
        return;
    const int first = dice_int(&l->d, 0, b->lines - 1);
    layout_lose(l, l->net->lines[first].legs[dice_int(&l->d, 0, 1)]);
    if (lost < 0.1 && b->lines > 1)
        layout_lose(l, l->net->lines[(first + 1) % b->lines].legs[dice_int(&l->d, 0, 1)]);
}

void layout_block(layout *l) {
    block b = {0};
    choose_block(l, &b);
    const double pieces = b.length / dice_real(&l->d, 0.8, 4.0);
    const double weight = pieces * l->values.mass_in_water * l->sea.gravity;
    bound_drag(l, &b, pieces);
    for (int i = 0; i < b.lines; i++) {
        char id[16];
        const int k = add_line(l, &b, i);
        hang_gear(l, &b, i, pieces);
        add_floats(l, &b, i, weight);
        bys_line line = {.first_section = k,
                         .section_count = 1,
                         .points = b.back[i],
                         .point_count = b.points,
                         .length = b.length,
                         .heading = l->heading};
        snprintf(id, sizeof id, "L%d", i + 1);
        line.id = id;
        for (int e = 0; e < 2; e++)
            line.legs[e] = add_end_leg(l, &b, i, e);
        bys_network_line(l->net, &line);
        if (dice_chance(&l->d, 0.12))
            add_middle_leg(l, &b, i);
    }
    for (int i = 0; i + 1 < b.lines; i++)
        if (dice_chance(&l->d, 0.3))
            tie(l, &b, i);
    lose_legs(l, &b);
    snprintf(
        l->what, sizeof l->what,
        "%d lines of %.0f m, %.0f m deep, floats %.2f of the gear, current %.2f m/s%s%s%s, %d lost",
        b.lines, b.length, b.depth, b.float_share, l->sea.current_speed,
        l->hangs_on_line ? " along" : "", b.shared[0] || b.shared[1] ? ", shared anchors" : "",
        l->sea.bed_normal[2] < 1.0 ? ", slope" : "", l->lost_legs);
}
