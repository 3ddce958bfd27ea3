// SPDX-License-Identifier: GPL-3.0-or-later
// Networks that are neither blocks nor rafts: buoys on several legs, tied to each other, with
// weights hung below; and a net of cables in air between fixed points.
#include "torture/layout.h"

#include <math.h>
#include <stdio.h>

static void hang_weight(layout *l, int buoy, int i, double depth) {
    char id[32];
    double x[3];
    layout_point_world(l, buoy, x);
    const double length = depth * dice_real(&l->d, 0.1, 1.2);
    x[2] -= fmin(length, 0.9 * depth);
    snprintf(id, sizeof id, "B%d/weight", i + 1);
    const int weight = bys_network_point(l->net, id, BYS_POINT_FREE, x);
    l->net->points[weight].weight = exp(dice_real(&l->d, log(50.0), log(2000.0)));
    l->net->points[weight].drag_area = dice_real(&l->d, 0.0, 0.3);
    snprintf(id, sizeof id, "B%d/pendant", i + 1);
    bys_section like = layout_rope(l);
    like.length = length;
    bys_network_section(l->net, id, buoy, weight, 4, &like);
}

static int add_buoy(layout *l, int i, const double x[3], double depth) {
    char id[32], anchor[40];
    snprintf(id, sizeof id, "B%d", i + 1);
    const int buoy = bys_network_point(l->net, id, BYS_POINT_FREE, x);
    snprintf(id, sizeof id, "B%d/float", i + 1);
    bys_network_float(l->net, id, &l->end, buoy, exp(dice_real(&l->d, 0.0, log(30.0))));
    const int legs = dice_int(&l->d, 1, 4);
    const double first = dice_real(&l->d, 0.0, 2.0 * M_PI);
    for (int k = 0; k < legs; k++) {
        snprintf(id, sizeof id, "B%d/%d", i + 1, k + 1);
        snprintf(anchor, sizeof anchor, "%s/anchor", id);
        const double turn = first + 2.0 * M_PI * k / legs + dice_real(&l->d, -0.4, 0.4);
        const int foot = layout_anchor(l, anchor, x, layout_reach(l, depth), turn);
        layout_leg(l, id, foot, buoy, -1, -1, 0);
    }
    if (dice_chance(&l->d, 0.4))
        hang_weight(l, buoy, i, depth);
    return buoy;
}

void layout_buoys(layout *l) {
    const int n = dice_int(&l->d, 1, 5);
    const double gap = dice_real(&l->d, 10.0, 60.0);
    const double depth = exp(dice_real(&l->d, log(4.0), log(50.0)));
    layout_set_bed(l, depth, n * gap + 7.0 * depth);
    const double U = l->sea.current_speed + 0.8 * l->sea.hs;
    l->drag = 0.5 * l->sea.rho * U * U * (20.0 + 0.06 * 1.6 * 8.0 * depth * n);
    int buoy[5];
    for (int i = 0; i < n; i++) {
        const double along = (i - 0.5 * (n - 1)) * gap, off = dice_real(&l->d, -5.0, 5.0);
        double x[3] = {sin(l->heading) * along + cos(l->heading) * off,
                       cos(l->heading) * along - sin(l->heading) * off, l->sea.level - 0.1};
        buoy[i] = add_buoy(l, i, x, l->sea.level - layout_bed(l, x));
    }
    for (int i = 0; i + 1 < n; i++) {
        char id[16];
        double a[3], b[3];
        snprintf(id, sizeof id, "tie%d", i + 1);
        layout_point_world(l, buoy[i], a);
        layout_point_world(l, buoy[i + 1], b);
        bys_section like = layout_rope(l);
        like.length = hypot(b[0] - a[0], b[1] - a[1]) * dice_real(&l->d, 0.98, 1.15);
        bys_network_section(l->net, id, buoy[i], buoy[i + 1], dice_int(&l->d, 4, 8), &like);
    }
    if (l->net->leg_count > 1 && dice_chance(&l->d, 0.25))
        layout_lose(l, dice_int(&l->d, 0, l->net->leg_count - 1));
    snprintf(l->what, sizeof l->what, "%d buoys, %.0f m deep, current %.2f m/s, %d legs, %d lost",
             n, depth, l->sea.current_speed, l->net->leg_count, l->lost_legs);
}

void layout_net_in_air(layout *l) {
    enum { MOST = 7 };
    const int n = dice_int(&l->d, 3, MOST);
    const double pitch = dice_real(&l->d, 1.0, 15.0),
                 prestrain = exp(dice_real(&l->d, log(1e-5), log(1e-2)));
    const double rise = dice_real(&l->d, -0.3, 0.3) * pitch * n;
    int p[MOST][MOST];
    l->sea.level = -INFINITY;
    l->sea.current_speed = l->sea.wind_speed = l->sea.hs = 0.0;
    for (int i = 0; i < n; i++)
        for (int j = 0; j < n; j++) {
            char id[16];
            const bool rim = i == 0 || j == 0 || i == n - 1 || j == n - 1;
            const double u = 2.0 * i / (n - 1) - 1.0, v = 2.0 * j / (n - 1) - 1.0;
            const double x[3] = {pitch * i, pitch * j, rise * u * v};
            snprintf(id, sizeof id, "N%d-%d", i, j);
            p[i][j] = bys_network_point(l->net, id, rim ? BYS_POINT_FIXED : BYS_POINT_FREE, x);
            if (!rim)
                for (int c = 0; c < 3; c++)
                    l->net->points[p[i][j]].load[c] = dice_real(&l->d, -1.0, 0.3) * 300.0;
        }
    bys_section like = {.stiffness = l->rope_stiffness,
                        .weight_dry = dice_real(&l->d, 0.0, 8.0),
                        .leg = -1,
                        .line = -1,
                        .strand = -1};
    for (int i = 0; i < n; i++)
        for (int j = 0; j < n; j++)
            for (int way = 0; way < 2; way++) {
                const int i2 = i + way, j2 = j + 1 - way;
                if (i2 >= n || j2 >= n || (i == 0 && i2 == 0) || (j == 0 && j2 == 0) ||
                    (i == n - 1 && i2 == n - 1) || (j == n - 1 && j2 == n - 1))
                    continue;
                double a[3], b[3];
                layout_point_world(l, p[i][j], a);
                layout_point_world(l, p[i2][j2], b);
                like.length =
                    hypot(hypot(a[0] - b[0], a[1] - b[1]), a[2] - b[2]) / (1.0 + prestrain);
                bys_network_section(l->net, "cable", p[i][j], p[i2][j2], dice_int(&l->d, 1, 3),
                                    &like);
            }
    snprintf(l->what, sizeof l->what, "net in air, %d x %d, prestrain %.1e", n, n, prestrain);
}
