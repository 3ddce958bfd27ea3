// SPDX-License-Identifier: GPL-3.0-or-later
// The net in air, N x N, for calculix.py: prints the seconds that it takes (memory, ordering, cold
// solve; shortest of five) and the force on each held crossing that carries a cable.
#include "bench/bench_net.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

static double solve(bys_network *net, bys_state **state) {
    const bys_sea air = bench_air();
    const double from = bench_now();
    int island = 0;
    while (net->islands[island].element_count == 0)
        island++;
    bys_solver *solver;
    if (bys_state_new(state, net, NULL) != BYS_OK ||
        bys_solver_new(&solver, net, island, NULL) != BYS_OK)
        exit(2);
    bys_solve_island(*state, solver, &air, NULL, BYS_START_COLD, NULL);
    const double seconds = bench_now() - from;
    if ((*state)->islands[island].status != BYS_STABLE)
        exit(3);
    bys_solver_free(solver);
    return seconds;
}

int main(int argc, char **argv) {
    const int n = argc > 1 ? atoi(argv[1]) : 30;
    bys_network *net = bench_air_net(n);
    bys_state *state = NULL;
    double best = INFINITY;
    for (int k = 0; k < 5; k++) {
        bys_state_free(state);
        best = fmin(best, solve(net, &state));
    }
    printf("seconds %.9g\n", best);
    for (int p = 0; p < net->point_count; p++) {
        const double *f = state->reaction + 3 * (size_t)p;
        const double size = sqrt(f[0] * f[0] + f[1] * f[1] + f[2] * f[2]);
        if (net->points[p].kind == BYS_POINT_FIXED && size > 0.0)
            printf("held %d %.12g\n", p, size);
    }
    bys_state_free(state);
    bys_network_free(net);
    return 0;
}
