// SPDX-License-Identifier: GPL-3.0-or-later
// The solver by itself on longlines: steps, what a step costs, growth with the number of lines.
// A lease's lines are separate parts, each with its own matrix; the same lines tied to each other
// near both ends make one part of about 3,600 points, which is harder. Both are told. Lines that
// begin with "bench" are read by ratios.py.
#include "bench/bench_net.h"
#include "statics/solver.h"

#include <malloc.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
    bys_network *net;
    bys_state *state;
    bys_solver **solver; ///< one per island
    double bytes;
} rig;

static rig rig_of(int lines, bool tied) {
    rig r = {0};
    const struct mallinfo2 before = mallinfo2();
    r.net = bench_block(lines, tied);
    if (!r.net || bys_state_new(&r.state, r.net, NULL) != BYS_OK)
        exit(2);
    r.solver = calloc((size_t)r.net->island_count, sizeof(void *));
    for (int i = 0; i < r.net->island_count; i++) // a program keeps one at a time of separate lines
        if (!r.solver || bys_solver_new(&r.solver[i], r.net, i, NULL) != BYS_OK)
            exit(2);
    const struct mallinfo2 after = mallinfo2();
    r.bytes = (double)(after.uordblks + after.hblkhd - before.uordblks - before.hblkhd);
    return r;
}

static void rig_free(rig *r) {
    for (int i = 0; i < r->net->island_count; i++)
        bys_solver_free(r->solver[i]);
    free(r->solver);
    bys_state_free(r->state);
    bys_network_free(r->net);
}

/// Solves one island; returns seconds, NAN if not stable. steps: factorisations.
static double solve(rig *r, int island, double degrees, const bys_condition *lost, bys_start start,
                    int *steps) {
    const bys_sea sea = bench_sea(degrees);
    const double from = bench_now();
    bys_solve_island(r->state, r->solver[island], &sea, lost, start, NULL);
    const double seconds = bench_now() - from;
    const bys_outcome *o = &r->state->islands[island];
    *steps = o->factorisations;
    return o->status == BYS_STABLE ? seconds : NAN;
}

/// Seconds of one factor and solve at the present positions, and of one assembly.
static double time_factor(rig *r, double *assembly) {
    enum { REPEATS = 31 };
    double t[REPEATS], u[REPEATS];
    bys_solver *s = r->solver[0];
    const bys_sea sea = bench_sea(30.0);
    bys_pivots pivots;
    bys_solver_condition(s, r->state, &sea, NULL);
    for (int i = 0; i < REPEATS; i++) {
        double from = bench_now();
        bys_assemble(s, r->state, &sea, true);
        u[i] = bench_now() - from;
        from = bench_now();
        memcpy(s->factor, s->tangent, bys_pattern3_values(s->pattern) * sizeof(double));
        bys_block_factor(s->pattern, s->factor, &pivots);
        bys_block_solve(s->pattern, s->factor, s->residual, s->step, s->work);
        t[i] = bench_now() - from;
    }
    *assembly = bench_median(u, REPEATS);
    return bench_median(t, REPEATS);
}

typedef struct {
    double cold[16], warm[16], on_axis[4], lost[8], ratio[16];
    int colds, warms, axes, losts;
} steps_taken;

static double part_of(double *values, int n, double part) {
    bench_median(values, n); // sorts
    return n > 0 ? values[(int)fmin(n - 1, part * n)] : NAN;
}

static void off_axis(rig *r, steps_taken *out, double factor) {
    int steps;
    for (int k = 0; k < 16; k++) {
        const double degrees = 11.25 + 22.5 * k;
        const double seconds = solve(r, 0, degrees, NULL, BYS_START_COLD, &steps);
        if (isnan(seconds))
            continue;
        out->ratio[out->colds] = seconds / (steps * factor);
        out->cold[out->colds++] = steps;
        if (!isnan(solve(r, 0, degrees + 22.5, NULL, BYS_START_WARM, &steps)))
            out->warm[out->warms++] = steps;
    }
}

static void on_axis_and_lost(rig *r, steps_taken *out) {
    int steps;
    for (int k = 0; k < 4; k++)
        if (!isnan(solve(r, 0, 90.0 * k, NULL, BYS_START_COLD, &steps)))
            out->on_axis[out->axes++] = steps;
    for (int k = 0; k < 8; k++) {
        const bys_island *isl = &r->net->islands[0];
        const bys_leg *leg = &r->net->legs[isl->legs[7 * k % isl->leg_count]];
        const int off[2] = {leg->first_section, leg->first_section + 1};
        const bys_condition lost = {.id = "lost", .sections = off, .section_count = 2};
        const double degrees = 11.25 + 45.0 * k;
        solve(r, 0, degrees, NULL, BYS_START_COLD, &steps);
        if (!isnan(solve(r, 0, degrees, &lost, BYS_START_WARM, &steps)))
            out->lost[out->losts++] = steps;
    }
}

static void steps_of(int lines, bool tied, const char *prefix) {
    rig r = rig_of(lines, tied);
    steps_taken t = {0};
    int steps;
    double assembly;
    solve(&r, 0, 30.0, NULL, BYS_START_COLD, &steps);
    const double factor = time_factor(&r, &assembly);
    off_axis(&r, &t, factor);
    on_axis_and_lost(&r, &t);
    printf(
        "%d lines%s, %d points: stable of 16 cold %d, of those next 22.5 degrees %d; of 4 on the "
        "axis %d; of 8 with a leg lost %d\n",
        lines, tied ? ", tied" : "", r.net->point_count, t.colds, t.warms, t.axes, t.losts);
    printf("bench %scold_factorisations_median %g\nbench %scold_factorisations_p95 %g\n", prefix,
           part_of(t.cold, t.colds, 0.5), prefix, part_of(t.cold, t.colds, 0.95));
    printf("bench %swarm_factorisations_median %g\n", prefix, part_of(t.warm, t.warms, 0.5));
    printf("bench %son_axis_factorisations_median %g\n", prefix, part_of(t.on_axis, t.axes, 0.5));
    printf("bench %slost_leg_factorisations_median %g\n", prefix, part_of(t.lost, t.losts, 0.5));
    printf("bench %sloads_over_factor %.3f\nbench %stotal_over_factor %.3f\n", prefix,
           assembly / factor, prefix, part_of(t.ratio, t.colds, 0.5));
    printf("bench %sfactor_ms %.4f\n", prefix, 1e3 * factor);
    rig_free(&r);
}

/// Cost of a line as the block grows: every line solved cold, none taken from another.
static double growth(int lines) {
    rig r = rig_of(lines, false);
    double best = INFINITY;
    for (int k = 0; k < 3; k++) {
        double sum = 0.0;
        int steps;
        for (int i = 0; i < r.net->island_count; i++)
            sum += solve(&r, i, 30.0, NULL, BYS_START_COLD, &steps);
        best = fmin(best, sum / lines);
    }
    printf("%5d lines: %7.3f ms a line, %5.0f bytes a node\n", lines, 1e3 * best,
           r.bytes / r.net->point_count);
    if (lines == 60)
        printf("bench bytes_per_node_separate %.0f\n", r.bytes / r.net->point_count);
    rig_free(&r);
    return best;
}

/// Cost of a line and step (assembly, factor, solve) in one matrix.
static double tied_growth(int lines) {
    rig r = rig_of(lines, true);
    double assembly;
    const double factor = time_factor(&r, &assembly), cost = (assembly + factor) / lines;
    printf("%5d lines tied: %7.4f ms a line and step, %5.0f bytes a node\n", lines, 1e3 * cost,
           r.bytes / r.net->point_count);
    if (lines == 60)
        printf("bench bytes_per_node %.0f\n", r.bytes / r.net->point_count);
    rig_free(&r);
    return cost;
}

int main(void) {
    static const int sizes[] = {1, 10, 60, 250, 1000};
    double cost[5], tied[5];
    steps_of(60, false, "");
    steps_of(60, true, "tied_");
    for (int i = 0; i < 5; i++)
        cost[i] = growth(sizes[i]);
    for (int i = 0; i < 5; i++)
        tied[i] = tied_growth(sizes[i]);
    printf("bench line_cost_1000_over_60 %.3f\nbench tied_step_cost_1000_over_60 %.3f\n",
           cost[4] / cost[2], tied[4] / tied[2]);
    return 0;
}
