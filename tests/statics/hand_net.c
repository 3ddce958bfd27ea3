// SPDX-License-Identifier: GPL-3.0-or-later
#include "statics/hand_net.h"

#include "num/vec3.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

static const bys_part crop_float = {
    .kind = BYS_PART_FLOAT,
    .u.buoy = {.shape = BYS_FLOAT_BARREL_SIDE, .volume = 0.055, .diameter = 0.35,
               .length = 0.055 / (M_PI / 4 * 0.35 * 0.35), .mass = 3.5, .cd = 0.8, .cs = 0.7}};
static const bys_part end_float = {
    .kind = BYS_PART_FLOAT,
    .u.buoy = {.shape = BYS_FLOAT_SPHERE, .volume = 0.12, .diameter = 0.612, .mass = 8.0, .cd = 0.5,
               .cs = 0.5}};
static const bys_gear_values harvest = {.stage = "harvest", .target = "", .mass_in_water = 7.8,
                                        .width = 0.70, .height = 0.45, .cd = 1.2,
                                        .basis = BYS_BASIS_ASSUMED};
static const bys_part panel = {
    .kind = BYS_PART_GEAR,
    .u.gear = {.kind = BYS_GEAR_PANEL, .drop = 1.05, .orientation = BYS_ORIENT_ALONG,
               .edge_cd = 0.15}};

static const bys_section warp_like = {.stiffness = 1.5e6, .weight_dry = 5.835, .buoyancy = 4.334,
    .diameter = 0.028, .cd_normal = 1.6, .cd_tangential = 0.01, .on_bed = true, .strand = -1};
static const bys_section chain_like = {.stiffness = 5e7, .weight_dry = 112.8, .buoyancy = 14.73,
    .diameter = 0.024, .cd_normal = 2.4, .cd_tangential = 0.366, .on_bed = true, .strand = -1};
static const bys_section backbone_like = {.stiffness = 7.5e5, .weight_dry = 4.511,
    .buoyancy = 5.081, .diameter = 0.032, .cd_normal = 1.6, .cd_tangential = 0.01,
    .on_bed = true, .leg = -1,
    .strand = -1};

static void put(double out[3], placing at, double x, double y, double z)
{
    const double c = cos(at.turn), s = sin(at.turn);
    x *= at.mirror;
    out[0] = c * x - s * y + at.dx, out[1] = s * x + c * y + at.dy, out[2] = z;
}

static double bed_at(double y)
{
    return -15.0 - tan(0.4 * M_PI / 180.0) * y;
}

static int add_leg(bys_network *net, const char *id, const double foot_x[3], int top, double chain,
                   double warp, int line, int body, int end)
{
    char name[64];
    const int foot = bys_network_point(net, id, BYS_POINT_FIXED, foot_x), leg = net->leg_count;
    bys_section like = chain_like;
    int from = foot, first = -1, count = 0;
    like.leg = leg, like.line = line;
    if (chain > 0.0) {
        double middle[3];
        for (int i = 0; i < 3; i++)
            middle[i] = foot_x[i] + (net->points[top].x[i] - foot_x[i]) * chain / (chain + warp);
        snprintf(name, sizeof name, "%s/join", id);
        const int join = bys_network_point(net, name, BYS_POINT_FREE, middle);
        like.length = chain;
        first = bys_network_section(net, "chain", foot, join, 6, &like);
        from = join, count++;
    }
    like = warp_like;
    like.leg = leg, like.line = line, like.length = warp;
    const int rope = bys_network_section(net, "rope", from, top, 8, &like);
    first = first < 0 ? rope : first;
    const bys_anchor anchor = {.id = id, .point = foot};
    const bys_leg record = {.id = id, .anchor = bys_network_anchor(net, &anchor), .foot = foot,
        .top = top, .first_section = first, .section_count = count + 1, .line = line, .body = body,
        .end = end};
    return bys_network_leg(net, &record);
}

static void add_float(bys_network *net, const char *id, const bys_part *part, int point, double n)
{
    const int k = bys_network_float(net, id, part, point, n);
    net->floats[k].line = 0;
}

static void add_gear(bys_network *net, const int *points, int n, placing at)
{
    double along[3], origin[3];
    put(along, at, 0.0, 1.0, 0.0);
    put(origin, at, 0.0, 0.0, 0.0);
    for (int i = 0; i < n; i++) {
        const bys_gear_set set = {.id = "panels", .part = &panel, .values = &harvest,
            .point = points[i], .count = (i == 0 || i == n - 1 ? 50.0 : 100.0) / (n - 1),
            .axis = {along[0] - origin[0], along[1] - origin[1]}, .line = 0};
        bys_network_gear(net, &set);
        if (i > 0)
            add_float(net, "crop", &crop_float, points[i], 1.0);
    }
    for (int e = 0; e < 2; e++)
        add_float(net, "end", &end_float, points[e * (n - 1)], 2.0);
}

bys_network *hand_longline(double reach, double warp, double chain, placing at)
{
    enum { N = 31 };
    bys_network *net = bys_network_new(NULL, 0);
    int ends[2], legs[2], points[N];
    double x[3];
    for (int k = 0; k < 2; k++) {
        const int e = at.backwards ? 1 - k : k;
        put(x, at, 0.0, e ? 60.0 : -60.0, 4.4);
        ends[e] = bys_network_point(net, e ? "north end" : "south end", BYS_POINT_FREE, x);
    }
    for (int k = 0; k < 2; k++) {
        const int e = at.backwards ? 1 - k : k;
        const double y = (e ? 1.0 : -1.0) * (60.0 + reach);
        put(x, at, 0.0, y, bed_at(y));
        legs[e] = add_leg(net, e ? "north" : "south", x, ends[e], chain, warp, 0, -1, e);
    }
    bys_section like = backbone_like;
    like.length = 120.0;
    const int back = bys_network_section(net, "backbone", ends[0], ends[1], N - 1, &like);
    for (int i = 0; i < N - 1; i++)
        points[i] = net->elements[net->sections[back].first + i].a;
    points[N - 1] = ends[1];
    const bys_line line = {.id = "L01", .first_section = back, .section_count = 1, .points = points,
        .point_count = N, .length = 120.0, .legs = {legs[0], legs[1]}};
    bys_network_line(net, &line);
    add_gear(net, points, N, at);
    bys_network_finish(net, NULL);
    return net;
}

bys_network *hand_raft(void)
{
    bys_network *net = bys_network_new(NULL, 0);
    const double origin[3] = {0.0, 0.0, -0.5};
    const int raft = bys_network_body(net, "raft", origin, 8000.0);
    const double cg[3] = {0.0, 0.0, 0.6}, sail[3] = {0.0, 0.0, 1.6};
    for (int i = 0; i < 4; i++) {
        const double sx = i & 1 ? 1.0 : -1.0, sy = i & 2 ? 1.0 : -1.0;
        const double foot[3] = {3.0 * sx, 4.0 * sy, 0.0};
        const bys_prism prism = {.point = bys_network_body_point(net, "foot", raft, foot),
            .waterplane = 4.0, .height = 1.0, .width_x = 2.0, .width_y = 3.0, .cd = 1.2,
            .reflect_x = 2.5, .reflect_y = 2.5, .cs = 1.2};
        bys_network_prism(net, &prism);
    }
    net->bodies[raft].cg_point = bys_network_body_point(net, "cg", raft, cg);
    net->bodies[raft].wind_point = bys_network_body_point(net, "sail", raft, sail);
    net->bodies[raft].wind_area = 6.0, net->bodies[raft].wind_cs = 1.1;
    for (int i = 0; i < 4; i++) {
        const double sx = i & 1 ? 1.0 : -1.0, sy = i & 2 ? 1.0 : -1.0;
        const double corner[3] = {5.0 * sx, 5.0 * sy, 0.8};
        const double foot[3] = {30.0 * sx, 33.0 * sy, bed_at(33.0 * sy)};
        char id[16];
        snprintf(id, sizeof id, "leg%d", i);
        const int top = bys_network_body_point(net, "fairlead", raft, corner);
        for (int c = 0; c < 3; c++) // the builder places sections between start positions
            net->points[top].x[c] = corner[c];
        add_leg(net, id, foot, top, 10.0, 32.0, -1, raft, 0);
    }
    bys_network_finish(net, NULL);
    return net;
}

bys_sea hand_sea(double speed, double degrees, double wind, double hs, double level, placing at)
{
    bys_sea sea = bys_sea_still(1025.0);
    const double a = degrees * M_PI / 180.0, slope = tan(0.4 * M_PI / 180.0);
    double d[3], n[3], o[3];
    placing turned = at;
    turned.dx = turned.dy = 0.0;
    put(d, turned, sin(a), cos(a), 0.0);
    put(n, turned, 0.0, slope, 1.0);
    put(o, at, 0.0, 0.0, -15.0);
    for (int i = 0; i < 2; i++)
        sea.current[i] = sea.wind[i] = sea.waves[i] = d[i];
    for (int i = 0; i < 3; i++) {
        sea.bed_normal[i] = n[i] / sqrt(1.0 + slope * slope);
        sea.bed_point[i] = o[i];
    }
    sea.has_bed = true;
    sea.level = level, sea.depth = 15.0 + level;
    sea.current_speed = speed, sea.current_exponent = 1.0 / 7.0;
    sea.wind_speed = wind, sea.hs = hs, sea.tp = 4.0;
    bys_sea_prepare(&sea);
    return sea;
}
