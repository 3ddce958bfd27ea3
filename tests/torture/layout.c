// SPDX-License-Identifier: GPL-3.0-or-later
#include "torture/layout.h"

#include "num/vec3.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

static const double GRAVITY = 9.80665, WATER = 1025.0;

// ---- sea ----------------------------------------------------------------------------------------

double layout_bed(const layout *l, const double x[3]) {
    return bys_sea_bed_z(&l->sea, x[0], x[1]);
}

void layout_set_bed(layout *l, double depth, double extent) {
    const double most = fmax(0.0, fmin(depth - 2.0, 80.0 - depth)) / extent;
    double slope = dice_chance(&l->d, 0.3) ? 0.0 : dice_real(&l->d, 0.0, tan(15.0 * M_PI / 180.0));
    slope = fmin(slope, most);
    const double towards = dice_real(&l->d, 0.0, 2.0 * M_PI), size = sqrt(1.0 + slope * slope);
    l->sea.has_bed = true;
    l->sea.depth = depth;
    l->sea.bed_point[2] = l->sea.level - depth;
    l->sea.bed_normal[0] = slope * sin(towards) / size;
    l->sea.bed_normal[1] = slope * cos(towards) / size;
    l->sea.bed_normal[2] = 1.0 / size;
}

/// Current dead along the lines, square across, or from any side.
static double current_direction(layout *l) {
    const double side = dice_real(&l->d, 0.0, 1.0);
    l->hangs_on_line = side < 0.25;
    if (side < 0.25)
        return l->heading + (dice_chance(&l->d, 0.5) ? M_PI : 0.0);
    if (side < 0.35)
        return l->heading + M_PI / 2;
    return dice_real(&l->d, 0.0, 2.0 * M_PI);
}

static void point_along(double out[2], double a) {
    out[0] = sin(a), out[1] = cos(a);
}

static void choose_weather(layout *l) {
    l->sea = bys_sea_still(WATER);
    l->sea.level = dice_real(&l->d, 0.0, 4.0);
    const double current = current_direction(l);
    point_along(l->sea.current, current);
    const double other = dice_chance(&l->d, 0.7) ? current : dice_real(&l->d, 0.0, 2.0 * M_PI);
    point_along(l->sea.wind, other);
    point_along(l->sea.waves, other);
    l->sea.current_speed = dice_chance(&l->d, 0.04) ? 0.0 : dice_real(&l->d, 0.05, 2.5);
    l->sea.current_exponent = dice_chance(&l->d, 0.2) ? 0.0 : 1.0 / 7.0;
    l->sea.wind_speed = dice_chance(&l->d, 0.5) ? 0.0 : dice_real(&l->d, 0.0, 30.0);
    l->sea.hs = dice_chance(&l->d, 0.5) ? 0.0 : dice_real(&l->d, 0.1, 2.0);
    l->sea.tp = 3.0 + 1.5 * l->sea.hs;
}

// ---- parts --------------------------------------------------------------------------------------

static void choose_float(layout *l, bys_part *part, double least, double most) {
    bys_float_part *f = &part->u.buoy;
    part->kind = BYS_PART_FLOAT;
    f->shape = (bys_float_shape)dice_int(&l->d, 0, 2);
    f->volume = dice_real(&l->d, least, most);
    const double slender = dice_real(&l->d, 1.0, 3.0);
    f->diameter = f->shape == BYS_FLOAT_SPHERE ? cbrt(6.0 * f->volume / M_PI)
                                               : cbrt(4.0 * f->volume / (M_PI * slender));
    f->length = f->shape == BYS_FLOAT_SPHERE ? f->diameter
                                             : f->volume / (M_PI / 4.0 * f->diameter * f->diameter);
    f->mass = dice_real(&l->d, 0.03, 0.12) * f->volume * 1000.0;
    f->cd = dice_real(&l->d, 0.5, 1.1);
    f->cs = 0.7;
    f->strop = dice_chance(&l->d, 0.7) ? 0.0 : dice_real(&l->d, 0.2, 2.0);
}

static void choose_gear(layout *l) {
    bys_gear_part *g = &l->gear.u.gear;
    l->gear.kind = BYS_PART_GEAR;
    g->kind = dice_chance(&l->d, 0.4) ? BYS_GEAR_PANEL : BYS_GEAR_ROPE;
    g->orientation = (bys_orientation)dice_int(&l->d, 0, 2);
    g->edge_cd = 0.15;
    g->drop = dice_real(&l->d, 0.0, 2.0);
    l->values.stage = "harvest";
    l->values.height = dice_real(&l->d, 0.5, g->kind == BYS_GEAR_PANEL ? 1.5 : 7.0);
    l->values.width =
        g->kind == BYS_GEAR_PANEL ? dice_real(&l->d, 0.3, 0.8) : dice_real(&l->d, 0.02, 0.25);
    l->values.cd = dice_real(&l->d, 0.4, 1.4);
    const double crop = dice_real(&l->d, 0.0, 1.0); // bare to heavy
    l->values.mass_in_water = 0.3 + crop * crop * 120.0 * l->values.width * l->values.height;
}

/// Ropes that stretch by a few per cent at most under the layout's drag.
static void choose_ropes(layout *l) {
    l->rope_diameter = dice_real(&l->d, 0.016, 0.056);
    const double area = l->rope_diameter * l->rope_diameter;
    l->rope_stiffness = area * exp(dice_real(&l->d, log(6e8), log(6e9)));
    l->chain_diameter = dice_real(&l->d, 0.012, 0.04);
}

bys_section layout_rope(const layout *l) {
    const double D = l->rope_diameter, weight = 0.25 * M_PI * D * D * GRAVITY;
    const bool sinks = l->rope_stiffness < 2e9 * D * D;
    return (bys_section){.stiffness = fmax(l->rope_stiffness, 12.0 * l->drag),
                         .weight_dry = weight * (sinks ? 1380.0 : 910.0) * 0.65,
                         .buoyancy = weight * WATER * 0.65,
                         .diameter = D,
                         .cd_normal = 1.6,
                         .cd_tangential = 0.01,
                         .on_bed = true,
                         .leg = -1,
                         .line = -1,
                         .strand = -1};
}

bys_section layout_chain(const layout *l) {
    const double d = l->chain_diameter,
                 mass = 19900.0 * d * d; // kg/m, studless, invented round number
    return (bys_section){.stiffness = 8.5e10 * d * d,
                         .weight_dry = mass * GRAVITY,
                         .buoyancy = mass / 7850.0 * WATER * GRAVITY,
                         .diameter = d,
                         .cd_normal = 2.4,
                         .cd_tangential = 0.366,
                         .on_bed = true,
                         .leg = -1,
                         .line = -1,
                         .strand = -1};
}

// ---- legs
// -----------------------------------------------------------------------------------------

double layout_reach(layout *l, double depth) {
    const double scope = exp(dice_real(&l->d, log(1.05), log(7.0)));
    return fmax(0.5, depth * sqrt(scope * scope - 1.0));
}

void layout_point_world(const layout *l, int point, double x[3]) {
    const bys_point *p = &l->net->points[point];
    if (p->kind == BYS_POINT_BODY) {
        bys_mat_vec(x, l->net->bodies[p->body].rotation, p->x);
        bys_axpy(x, 1.0, l->net->bodies[p->body].x);
        return;
    }
    for (int i = 0; i < 3; i++)
        x[i] = p->x[i];
}

int layout_anchor(layout *l, const char *id, const double top[3], double reach, double bearing) {
    double x[3] = {top[0] + reach * sin(bearing), top[1] + reach * cos(bearing), 0.0};
    x[2] = layout_bed(l, x);
    const int point = bys_network_point(l->net, id, BYS_POINT_FIXED, x);
    const bys_anchor anchor = {.id = id, .point = point, .heading = bearing + M_PI};
    bys_network_anchor(l->net, &anchor);
    return point;
}

static int anchor_of_point(const bys_network *net, int point) {
    for (int a = 0; a < net->anchor_count; a++)
        if (net->anchors[a].point == point)
            return a;
    return -1;
}

/// Chord over length: bar-tight, fair, or slack.
static double tightness(layout *l) {
    const double kind = dice_real(&l->d, 0.0, 1.0);
    if (kind < 0.3)
        return dice_real(&l->d, 0.998, 1.008);
    return kind < 0.8 ? dice_real(&l->d, 0.96, 1.0) : dice_real(&l->d, 0.85, 0.96);
}

/// A join in a leg at a share of the way, above the bed.
static int add_join(layout *l, const char *leg, const char *name, int foot, int top, double share) {
    double a[3], b[3], x[3];
    char id[64];
    layout_point_world(l, foot, a);
    layout_point_world(l, top, b);
    for (int i = 0; i < 3; i++)
        x[i] = a[i] + share * (b[i] - a[i]);
    x[2] = fmax(x[2], layout_bed(l, x));
    snprintf(id, sizeof id, "%s/%s", leg, name);
    return bys_network_point(l->net, id, BYS_POINT_FREE, x);
}

static void hang_something(layout *l, const char *leg, int join) {
    char id[64];
    if (dice_chance(&l->d, 0.5)) {
        l->net->points[join].weight = exp(dice_real(&l->d, log(100.0), log(4000.0)));
        return;
    }
    snprintf(id, sizeof id, "%s/buoy", leg);
    bys_network_float(l->net, id, &l->buoy, join, 1.0);
}

/// One section of a leg, from `from` up to `to`.
static int add_part(layout *l, const char *leg, const char *name, int from, int to, double length,
                    bys_section like, int line) {
    char id[64];
    snprintf(id, sizeof id, "%s/%s", leg, name);
    like.leg = l->net->leg_count, like.line = line, like.length = length;
    const int n = dice_int(&l->d, 5, 9);
    return bys_network_section(l->net, id, from, to, n, &like);
}

int layout_leg(layout *l, const char *id, int foot, int top, int line, int body, int end) {
    double a[3], b[3];
    layout_point_world(l, foot, a);
    layout_point_world(l, top, b);
    const double chord = hypot(hypot(b[0] - a[0], b[1] - a[1]), b[2] - a[2]);
    const double length = chord / tightness(l);
    const double chain = dice_chance(&l->d, 0.5) ? dice_real(&l->d, 0.1, 0.45) : 0.0;
    const double middle = dice_chance(&l->d, 0.3) ? dice_real(&l->d, 0.55, 0.85) : 1.0;
    int from = foot, first = -1, count = 0;
    if (chain > 0.0) {
        const int join = add_join(l, id, "join", foot, top, chain);
        first = add_part(l, id, "chain", from, join, chain * length, layout_chain(l), line);
        from = join, count++;
    }
    if (middle < 1.0) {
        const int join = add_join(l, id, "middle", foot, top, middle);
        const int k =
            add_part(l, id, "lower", from, join, (middle - chain) * length, layout_rope(l), line);
        hang_something(l, id, join);
        from = join, count++;
        first = first < 0 ? k : first;
    }
    const double rest = (1.0 - (middle < 1.0 ? middle : chain)) * length;
    const int k = add_part(l, id, "warp", from, top, rest, layout_rope(l), line);
    const bys_leg record = {.id = id,
                            .anchor = anchor_of_point(l->net, foot),
                            .foot = foot,
                            .top = top,
                            .first_section = first < 0 ? k : first,
                            .section_count = count + 1,
                            .line = line,
                            .body = body,
                            .end = end,
                            .top_nominal = {b[0], b[1], b[2]}};
    return bys_network_leg(l->net, &record);
}

void layout_lose(layout *l, int leg) {
    const bys_leg *out = &l->net->legs[leg];
    for (int k = 0; k < out->section_count && l->lost.section_count < 32; k++)
        l->off[l->lost.section_count++] = out->first_section + k;
    l->lost.sections = l->off;
    l->lost.id = "lost";
    l->lost_legs++;
}

// ---- all together
// -----------------------------------------------------------------------------------

layout *layout_new(uint64_t seed) {
    layout *l = calloc(1, sizeof *l);
    if (!l)
        return NULL;
    l->seed = seed;
    l->d.s = seed * 0x2545f4914f6cdd1du + 1;
    l->net = bys_network_new(NULL, -1);
    if (!l->net) {
        free(l);
        return NULL;
    }
    l->heading = dice_real(&l->d, 0.0, 2.0 * M_PI);
    choose_weather(l);
    choose_float(l, &l->crop, 0.03, 0.3);
    choose_float(l, &l->end, 0.06, 0.5);
    choose_float(l, &l->buoy, 0.03, 0.3);
    choose_gear(l);
    choose_ropes(l);
    const double kind = dice_real(&l->d, 0.0, 1.0);
    if (kind < 0.6)
        layout_block(l);
    else if (kind < 0.8)
        layout_rafts(l);
    else if (kind < 0.95)
        layout_buoys(l);
    else
        layout_net_in_air(l);
    bys_sea_prepare(&l->sea);
    if (bys_network_finish(l->net, NULL) == BYS_OK)
        return l;
    layout_free(l);
    return NULL;
}

void layout_free(layout *l) {
    if (!l)
        return;
    bys_network_free(l->net);
    free(l);
}
