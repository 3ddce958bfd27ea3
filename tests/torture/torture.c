// SPDX-License-Identifier: GPL-3.0-or-later
// Random layouts in number: torture COUNT [FROM [EVERY]] solves the seeds FROM .. FROM+COUNT-1 and
// compares every EVERY-th with dynamic relaxation; -v lists each that is not stable.
// torture insane COUNT [FROM] does the same with layouts that have to be refused.
// The last line is a summary; the exit status is 0 only if nothing is wrong.
#include "torture/insane.h"
#include "torture/run.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
    int factorisations;
    uint64_t seed;
} effort;

typedef struct {
    int layouts, status[4], loose, two, unsettled, wrong, unnamed, compared, relaxed, sampled,
        fell_back;
    double seconds;
    effort *efforts;
} tally;

static const char *const NAMES[] = {[BYS_STABLE] = "stable",
                                    [BYS_UNSTABLE] = "unstable",
                                    [BYS_INDETERMINATE] = "indeterminate",
                                    [BYS_CANNOT_STAND] = "cannot stand"};

static int by_effort(const void *a, const void *b) {
    const effort *x = a, *y = b;
    return x->factorisations != y->factorisations
               ? (x->factorisations > y->factorisations) - (x->factorisations < y->factorisations)
               : (x->seed > y->seed) - (x->seed < y->seed);
}

static void count(tally *t, const result *r, bool sampled) {
    t->efforts[t->layouts++] = (effort){r->factorisations, r->seed};
    t->status[r->status]++;
    t->loose += r->status == BYS_INDETERMINATE && r->expected_loose;
    t->two += r->two;
    t->unsettled += r->unsettled;
    t->wrong += r->wrong;
    t->unnamed += !r->named;
    t->compared += r->compared;
    t->relaxed += r->relaxed;
    t->sampled += sampled && r->status == BYS_STABLE;
    t->fell_back += r->fallbacks > 0;
    t->seconds += r->seconds;
}

static void tell(const result *r) {
    printf("seed %llu: %s, %d factorisations, %d fallbacks, audit %.2g N: %s\n",
           (unsigned long long)r->seed, NAMES[r->status], r->factorisations, r->fallbacks,
           r->audit_N, r->what);
    if (r->reason[0])
        printf("    %s\n", r->reason);
    if (r->wrong)
        printf("    WRONG: %s\n", r->why);
    if (r->two)
        printf("    two equilibria: apart %.3g (shaken), %.3g (relaxed)\n", r->apart_cold,
               r->apart_relaxed);
}

static void summary(tally *t) {
    const int n = t->layouts;
    qsort(t->efforts, (size_t)n, sizeof *t->efforts, by_effort);
    printf("most factorisations:");
    for (int i = n - 1; i >= 0 && i >= n - 10; i--)
        printf(" seed %llu (%d)", (unsigned long long)t->efforts[i].seed,
               t->efforts[i].factorisations);
    const int median = t->efforts[n / 2].factorisations;
    const int p95 = t->efforts[n * 95 / 100].factorisations;
    printf(
        "\n%d layouts: %.2f %% stable, %d unstable, %d indeterminate (%d adrift in slack water), "
        "%d cannot stand, %d wrong; factorisations median %d, 95 %% %d; %d fell back; "
        "%.0f layouts per second; second start balanced %d; relaxation balanced %d of %d; "
        "%d have two equilibria (%d of them not settled by relaxation)\n",
        n, 100.0 * t->status[BYS_STABLE] / n, t->status[BYS_UNSTABLE], t->status[BYS_INDETERMINATE],
        t->loose, t->status[BYS_CANNOT_STAND], t->wrong, median, p95, t->fell_back, n / t->seconds,
        t->compared, t->relaxed, t->sampled, t->two, t->unsettled);
    printf("bench torture_layouts %d\nbench torture_stable_share %.5f\n"
           "bench torture_wrong %d\nbench torture_per_second %.1f\n"
           "bench torture_factorisations_median %d\nbench torture_factorisations_p95 %d\n",
           n, (double)t->status[BYS_STABLE] / n, t->wrong, n / t->seconds, median, p95);
}

static int run_insane(int n, uint64_t from) {
    int refused = 0;
    char why[480];
    for (int i = 0; i < n; i++) {
        const bool ok = insane_is_refused(from + (uint64_t)i, why, sizeof why);
        refused += ok;
        if (!ok)
            printf("seed %llu: %s\n", (unsigned long long)(from + (uint64_t)i), why);
    }
    printf("%d impossible layouts: %d refused or reported with the item named\n", n, refused);
    printf("bench torture_impossible_refused %d\n", refused);
    return refused < n;
}

int main(int argc, char **argv) {
    if (argc > 2 && !strcmp(argv[1], "insane"))
        return run_insane(atoi(argv[2]), argc > 3 ? strtoull(argv[3], NULL, 10) : 1);
    bool verbose = argc > 1 && !strcmp(argv[argc - 1], "-v");
    argc -= verbose;
    const int n = argc > 1 ? atoi(argv[1]) : 10000, every = argc > 3 ? atoi(argv[3]) : 20;
    const uint64_t from = argc > 2 ? strtoull(argv[2], NULL, 10) : 1;
    tally t = {.efforts = calloc((size_t)n + 1, sizeof(effort))};
    for (int i = 0; i < n && t.efforts; i++) {
        layout *l = layout_new(from + (uint64_t)i);
        if (!l)
            return 2;
        const bool sampled = every > 0 && i % every == 0;
        const result r = run_layout(l, sampled);
        layout_free(l);
        count(&t, &r, sampled);
        if (r.wrong || (verbose && (r.status != BYS_STABLE || r.two)))
            tell(&r);
        fflush(stdout);
    }
    if (t.layouts > 0)
        summary(&t);
    free(t.efforts);
    return t.wrong > 0 || t.unnamed > 0;
}
