// SPDX-License-Identifier: GPL-3.0-or-later
#include "bench/bench_net.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

static const bys_part crop_float = {.kind = BYS_PART_FLOAT,
                                    .u.buoy = {.shape = BYS_FLOAT_SPHERE,
                                               .volume = 0.08,
                                               .diameter = 0.5346,
                                               .length = 0.5346,
                                               .mass = 5.0,
                                               .cd = 0.5,
                                               .cs = 0.5}};
static const bys_gear_values harvest = {.stage = "harvest", .target = "", .mass_in_water = 7.8,
                                        .width = 0.70, .height = 0.45, .cd = 1.2,
                                        .basis = BYS_BASIS_ASSUMED};
static const bys_part panel = {
    .kind = BYS_PART_GEAR,
    .u.gear = {
        .kind = BYS_GEAR_PANEL, .drop = 1.05, .orientation = BYS_ORIENT_ALONG, .edge_cd = 0.15}};
static const bys_section rope_like = {.stiffness = 1.5e6,
                                      .weight_dry = 5.835,
                                      .buoyancy = 4.334,
                                      .diameter = 0.028,
                                      .cd_normal = 1.6,
                                      .cd_tangential = 0.01,
                                      .on_bed = true,
                                      .leg = -1,
                                      .line = -1,
                                      .strand = -1};
static const bys_section chain_like = {.stiffness = 5e7,
                                       .weight_dry = 112.8,
                                       .buoyancy = 14.73,
                                       .diameter = 0.024,
                                       .cd_normal = 2.4,
                                       .cd_tangential = 0.366,
                                       .on_bed = true,
                                       .leg = -1,
                                       .line = -1,
                                       .strand = -1};

enum { BACK = 41 };
static const double DEPTH = 15.0, PITCH = 20.0;

static int add_leg(bys_network *net, int line, int end, int top) {
    const double out = end ? 1.0 : -1.0, reach = 51.8, chain = 8.0, warp = 47.0;
    const double *t = net->points[top].x;
    const double foot_x[3] = {t[0], t[1] + out * reach, -DEPTH};
    const double join_x[3] = {t[0], foot_x[1] - out * chain, -DEPTH};
    const int foot = bys_network_point(net, "foot", BYS_POINT_FIXED, foot_x);
    const int join = bys_network_point(net, "join", BYS_POINT_FREE, join_x);
    bys_section like = chain_like;
    like.leg = net->leg_count, like.line = line, like.length = chain;
    const int first = bys_network_section(net, "chain", foot, join, 4, &like);
    like = rope_like;
    like.leg = net->leg_count, like.line = line, like.length = warp;
    bys_network_section(net, "warp", join, top, 5, &like);
    const bys_anchor anchor = {.id = "anchor", .point = foot};
    const bys_leg leg = {.id = "leg",
                         .anchor = bys_network_anchor(net, &anchor),
                         .foot = foot,
                         .top = top,
                         .first_section = first,
                         .section_count = 2,
                         .line = line,
                         .body = -1,
                         .end = end};
    return bys_network_leg(net, &leg);
}

static void add_line(bys_network *net, int line, int *points) {
    int ends[2];
    char id[16];
    for (int e = 0; e < 2; e++) {
        const double x[3] = {PITCH * line, e ? 60.0 : -60.0, -0.1};
        ends[e] = bys_network_point(net, "end", BYS_POINT_FREE, x);
    }
    bys_section like = rope_like;
    like.line = line, like.length = 120.0;
    const int back = bys_network_section(net, "backbone", ends[0], ends[1], BACK - 1, &like);
    for (int i = 0; i < BACK - 1; i++)
        points[i] = net->elements[net->sections[back].first + i].a;
    points[BACK - 1] = ends[1];
    for (int i = 0; i < BACK; i++) {
        const bys_gear_set set = {.id = "panels",
                                  .part = &panel,
                                  .values = &harvest,
                                  .point = points[i],
                                  .count = i == 0 || i == BACK - 1 ? 1.25 : 2.5,
                                  .axis = {0.0, 1.0},
                                  .line = line};
        bys_network_gear(net, &set);
        const int k = bys_network_float(net, "crop", &crop_float, points[i], 1.0);
        net->floats[k].line = line;
    }
    snprintf(id, sizeof id, "L%d", line + 1);
    bys_line record = {.id = id,
                       .first_section = back,
                       .section_count = 1,
                       .points = points,
                       .point_count = BACK,
                       .length = 120.0};
    for (int e = 0; e < 2; e++)
        record.legs[e] = add_leg(net, line, e, ends[e]);
    bys_network_line(net, &record);
}

bys_network *bench_block(int lines, bool tied) {
    bys_network *net = bys_network_new(NULL, 0);
    int before[BACK], now[BACK];
    for (int i = 0; net && i < lines; i++) {
        add_line(net, i, now);
        bys_section like = rope_like;
        like.length = 1.02 * PITCH;
        for (int k = 2; tied && i > 0 && k < BACK; k += BACK - 5)
            bys_network_section(net, "tie", before[k], now[k], 2, &like);
        for (int k = 0; k < BACK; k++)
            before[k] = now[k];
    }
    if (net && bys_network_finish(net, NULL) == BYS_OK)
        return net;
    bys_network_free(net);
    return NULL;
}

static bool on_rim(int i, int j, int n) {
    return i == 0 || j == 0 || i == n - 1 || j == n - 1;
}

bys_network *bench_air_net(int n) {
    bys_network *net = bys_network_new(NULL, 0);
    for (int i = 0; i < n; i++)
        for (int j = 0; j < n; j++) {
            const double x[3] = {i, j, 0.0};
            const bool rim = on_rim(i, j, n);
            const int p = bys_network_point(net, "x", rim ? BYS_POINT_FIXED : BYS_POINT_FREE, x);
            net->points[p].load[2] = rim ? 0.0 : -1.0;
        }
    const bys_section like = {
        .stiffness = 2e7, .length = 1.0 / (1.0 + 2e-5), .leg = -1, .line = -1, .strand = -1};
    for (int i = 0; i < n; i++)
        for (int j = 0; j < n; j++) {
            const int p = i * n + j;
            if (i + 1 < n && !(on_rim(i, j, n) && on_rim(i + 1, j, n)))
                bys_network_section(net, "cable", p, p + n, 1, &like);
            if (j + 1 < n && !(on_rim(i, j, n) && on_rim(i, j + 1, n)))
                bys_network_section(net, "cable", p, p + 1, 1, &like);
        }
    bys_network_finish(net, NULL);
    return net;
}

bys_sea bench_sea(double degrees) {
    bys_sea sea = bys_sea_still(1025.0);
    const double a = degrees * M_PI / 180.0, d[2] = {sin(a), cos(a)};
    for (int i = 0; i < 2; i++)
        sea.current[i] = sea.wind[i] = sea.waves[i] = d[i];
    sea.has_bed = true;
    sea.bed_point[2] = -DEPTH;
    sea.level = 0.0, sea.depth = DEPTH;
    sea.current_speed = 0.6, sea.current_exponent = 1.0 / 7.0;
    sea.wind_speed = 20.0, sea.hs = 1.0, sea.tp = 4.0;
    bys_sea_prepare(&sea);
    return sea;
}

bys_sea bench_air(void) {
    bys_sea sea = bys_sea_still(1025.0);
    sea.level = -INFINITY;
    return sea;
}

double bench_now(void) {
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static int ascending(const void *a, const void *b) {
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

double bench_median(double *values, int n) {
    qsort(values, (size_t)n, sizeof *values, ascending);
    return n > 0 ? values[n / 2] : NAN;
}
