// SPDX-License-Identifier: GPL-3.0-or-later
// The same equations given to a general nonlinear solver: SUNDIALS KINSOL, Newton with line search,
// a fresh Jacobian in each step, KLU as its linear solver; residual and tangent are those of the
// solver.
//
// NOTES
//   1. Both begin at the same positions: the cold start, or the equilibrium of the direction 22.5
//      degrees before. KINSOL gets the one-sided laws at their final barrier, and the resting
//      places of slack lines that the solver has come to: the equations of the finished
//      equilibrium.
//   2. KINSOL's time is that of KINSol() alone; ours that of bys_solve_island(), stability
//   included.
//   3. It ends at the same largest force left (2 mN). Before comparing positions both results are
//      finished by KINSOL to 1e-9 N. The ratios are over the cases that both solve to the same
//      place.
#include "bench/bench_net.h"
#include "num/vec3.h"
#include "statics/solver.h"

#include <kinsol/kinsol.h>
#include <math.h>
#include <nvector/nvector_serial.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sunlinsol/sunlinsol_klu.h>
#include <sunmatrix/sunmatrix_sparse.h>

typedef struct {
    bys_network *net;
    bys_state *state;
    bys_solver *s;
    int island; ///< the one that has elements
    bys_sea sea;
    double *from;      ///< positions that u = 0 stands for
    int n, nnz;        ///< unknowns, entries of the Jacobian
    int *column, *row; ///< compressed columns
    int *value;        ///< where each entry stands in the solver's tangent
    SUNContext context;
} problem;

// ---- structure of the Jacobian
// --------------------------------------------------------------------

static int by_number(const void *a, const void *b) {
    return *(const int *)a - *(const int *)b;
}

/// Neighbours of each block (itself included), ascending and without repeats.
static int *neighbours(const problem *p, int **start) {
    const bys_solver *s = p->s;
    const int m = s->island->element_count, n = s->blocks;
    int *first = *start = calloc((size_t)n + 2, sizeof(int));
    int *list = malloc(((size_t)n + 2 * (size_t)m) * sizeof(int));
    int *fill = malloc(((size_t)n + 1) * sizeof(int));
    for (int pass = 0; pass < 2; pass++) {
        for (int b = 0; b < n && pass == 0; b++)
            first[b + 1] = 1;
        for (int b = 0; b < n && pass == 1; b++)
            list[fill[b]++] = b;
        for (int i = 0; i < m; i++) {
            const bys_element *e = &s->net->elements[s->island->elements[i]];
            const int a = s->block_of_point[e->a], b = s->block_of_point[e->b];
            if (a < 0 || b < 0)
                continue;
            if (pass == 0)
                first[a + 1]++, first[b + 1]++;
            else
                list[fill[a]++] = b, list[fill[b]++] = a;
        }
        for (int b = 0; b < n && pass == 0; b++)
            first[b + 1] += first[b], fill[b] = first[b];
    }
    for (int b = 0; b < n; b++)
        qsort(list + first[b], (size_t)(first[b + 1] - first[b]), sizeof(int), by_number);
    free(fill);
    return list;
}

static void find_structure(problem *p) {
    int *start, *list = neighbours(p, &start), k = 0;
    const int blocks = p->s->blocks;
    p->n = 3 * blocks;
    p->nnz = 9 * start[blocks];
    p->column = malloc(((size_t)p->n + 1) * sizeof(int));
    p->row = malloc((size_t)p->nnz * sizeof(int));
    p->value = malloc((size_t)p->nnz * sizeof(int));
    p->column[0] = 0;
    for (int b = 0; b < blocks; b++)
        for (int c = 0; c < 3; c++) {
            for (int i = start[b]; i < start[b + 1]; i++) {
                const int slot = bys_pattern3_slot(p->s->pattern, list[i], b);
                for (int r = 0; r < 3; r++, k++)
                    p->row[k] = 3 * list[i] + r, p->value[k] = slot + 3 * r + c;
            }
            p->column[3 * b + c + 1] = k;
        }
    free(list);
    free(start);
}

// ---- what KINSOL asks
// ---------------------------------------------------------------------------------

static void place(problem *p, N_Vector u) {
    const double *d = N_VGetArrayPointer(u);
    memcpy(p->state->x, p->from, 3 * (size_t)p->net->point_count * sizeof(double));
    bys_solver_move(p->s, p->state, d, 1.0);
}

static int residual(N_Vector u, N_Vector f, void *data) {
    problem *p = data;
    place(p, u);
    const double worst = bys_assemble(p->s, p->state, &p->sea, false);
    memcpy(N_VGetArrayPointer(f), p->s->residual, (size_t)p->n * sizeof(double));
    return isfinite(worst) ? 0 : 1;
}

static int jacobian(N_Vector u, N_Vector f, SUNMatrix J, void *data, N_Vector t1, N_Vector t2) {
    problem *p = data;
    (void)f, (void)t1, (void)t2;
    place(p, u);
    bys_assemble(p->s, p->state, &p->sea, true);
    sunindextype *column = SUNSparseMatrix_IndexPointers(J), *row = SUNSparseMatrix_IndexValues(J);
    double *v = SUNSparseMatrix_Data(J);
    for (int j = 0; j <= p->n; j++)
        column[j] = p->column[j];
    for (int k = 0; k < p->nnz; k++)
        row[k] = p->row[k], v[k] = -p->s->tangent[p->value[k]];
    return 0;
}

static void quiet(int code, const char *module, const char *function, char *text, void *data) {
    (void)code, (void)module, (void)function, (void)text, (void)data;
}

/// KINSOL from the positions p->from. Returns seconds, NAN if it gave up; steps: Jacobians.
static double kinsol(problem *p, double enough, int *steps) {
    N_Vector u = N_VNew_Serial(p->n, p->context), one = N_VNew_Serial(p->n, p->context);
    SUNMatrix J = SUNSparseMatrix(p->n, p->n, p->nnz, CSC_MAT, p->context);
    SUNLinearSolver linear = SUNLinSol_KLU(u, J, p->context);
    void *kin = KINCreate(p->context);
    long evaluations = 0;
    N_VConst(0.0, u);
    N_VConst(1.0, one);
    KINInit(kin, residual, u);
    KINSetUserData(kin, p);
    KINSetErrHandlerFn(kin, quiet, NULL);
    KINSetLinearSolver(kin, linear, J);
    KINSetJacFn(kin, jacobian);
    KINSetMaxSetupCalls(kin, 1);
    KINSetFuncNormTol(kin, enough);
    KINSetScaledStepTol(kin, 1e-13);
    KINSetNumMaxIters(kin, 500);
    KINSetMaxNewtonStep(kin, 1e4);
    const double from = bench_now();
    const int rc = KINSol(kin, u, KIN_LINESEARCH, one, one);
    const double seconds = bench_now() - from;
    KINGetNumJacEvals(kin, &evaluations);
    *steps = (int)evaluations;
    place(p, u);
    const double worst = bys_assemble(p->s, p->state, &p->sea, false);
    KINFree(&kin);
    SUNLinSolFree(linear);
    SUNMatDestroy(J);
    N_VDestroy(u);
    N_VDestroy(one);
    return rc >= 0 && worst <= 2.0 * enough ? seconds : NAN;
}

// ---- comparing
// ---------------------------------------------------------------------------------------

typedef struct {
    int cases, ours, theirs, both, same;
    double our_seconds, their_seconds, apart;
    long our_steps, their_steps;
} tally;

static void keep(const problem *p, double *x) {
    memcpy(x, p->state->x, 3 * (size_t)p->net->point_count * sizeof(double));
}

/// Largest distance between two sets of positions over the size of the layout.
static double apart(const problem *p, const double *a, const double *b) {
    double most = 0.0, size = 1.0;
    for (int i = 0; i < 3 * p->net->point_count; i++) {
        most = fmax(most, fabs(a[i] - b[i]));
        size = fmax(size, fabs(a[i]));
    }
    return most / size;
}

/// The present positions, finished.
static void finish(problem *p, double *x) {
    int steps;
    keep(p, p->from);
    kinsol(p, 1e-9, &steps);
    keep(p, x);
}

/// One case from the positions in `begin` (cold: NULL).
static void one_case(problem *p, const double *begin, tally *t) {
    const size_t bytes = 3 * (size_t)p->net->point_count * sizeof(double);
    double *first = malloc(bytes), *ours = malloc(bytes), *theirs = malloc(bytes);
    int our_steps, their_steps;
    if (begin)
        memcpy(p->state->x, begin, bytes);
    else
        bys_start_cold(p->s, p->state, &p->sea);
    keep(p, first);
    const double from = bench_now();
    bys_solve_island(p->state, p->s, &p->sea, NULL, begin ? BYS_START_WARM : BYS_START_COLD, NULL);
    const double our_time = bench_now() - from;
    const bool stable = p->state->islands[p->island].status == BYS_STABLE;
    our_steps = p->state->islands[p->island].factorisations;
    keep(p, ours);
    memcpy(p->from, first, bytes);
    const double their_time = kinsol(p, 2e-3, &their_steps);
    keep(p, theirs);
    t->cases++;
    t->ours += stable;
    t->theirs += !isnan(their_time);
    if (stable && !isnan(their_time)) {
        t->both++;
        finish(p, theirs);
        memcpy(p->state->x, ours, bytes);
        finish(p, ours);
        const double distance = apart(p, ours, theirs);
        if (distance <= 1e-5) {
            t->same++;
            t->apart = fmax(t->apart, distance);
            t->our_seconds += our_time, t->their_seconds += their_time;
            t->our_steps += our_steps, t->their_steps += their_steps;
        }
    }
    free(first), free(ours), free(theirs);
}

static void tell(const char *name, const tally *t) {
    printf(
        "%-34s %2d cases: ours solves %2d, KINSOL %2d, same place %2d, positions apart %.1e; over "
        "those: time x %.2f, factorisations %ld : %ld\n",
        name, t->cases, t->ours, t->theirs, t->same, t->apart, t->their_seconds / t->our_seconds,
        t->their_steps, t->our_steps);
}

static void add(tally *to, const tally *t) {
    to->cases += t->cases, to->ours += t->ours, to->theirs += t->theirs, to->both += t->both;
    to->same += t->same, to->our_seconds += t->our_seconds, to->their_seconds += t->their_seconds;
    to->apart = fmax(to->apart, t->apart);
    to->our_steps += t->our_steps, to->their_steps += t->their_steps;
}

static void run(bys_network *net, const char *name, bool in_air, tally *all) {
    problem p = {.net = net};
    tally cold = {0}, warm = {0};
    char text[64];
    SUNContext_Create(NULL, &p.context);
    while (net && net->islands[p.island].element_count == 0) // the corners of a net stand alone
        p.island++;
    if (!net || bys_state_new(&p.state, net, NULL) != BYS_OK ||
        bys_solver_new(&p.s, net, p.island, NULL) != BYS_OK)
        exit(2);
    p.from = malloc(3 * (size_t)net->point_count * sizeof *p.from);
    double *before = malloc(3 * (size_t)net->point_count * sizeof *before);
    find_structure(&p);
    for (int k = 0; k < (in_air ? 1 : 16); k++) {
        p.sea = in_air ? bench_air() : bench_sea(11.25 + 22.5 * k);
        bys_solver_condition(p.s, p.state, &p.sea, NULL);
        one_case(&p, NULL, &cold);
        bys_solve_island(p.state, p.s, &p.sea, NULL, BYS_START_COLD, NULL);
        if (in_air || p.state->islands[p.island].status != BYS_STABLE)
            continue;
        keep(&p, before);
        p.sea = bench_sea(33.75 + 22.5 * k);
        one_case(&p, before, &warm);
    }
    snprintf(text, sizeof text, "%s, cold", name);
    tell(text, &cold);
    snprintf(text, sizeof text, "%s, next 22.5 degrees", name);
    if (warm.cases > 0)
        tell(text, &warm);
    add(all, &cold);
    add(all, &warm);
    free(before), free(p.from), free(p.column), free(p.row), free(p.value);
    bys_solver_free(p.s);
    bys_state_free(p.state);
    SUNContext_Free(&p.context);
    bys_network_free(net);
}

int main(void) {
    tally all = {0};
    run(bench_block(1, false), "1 line", false, &all);
    run(bench_block(10, true), "10 lines, tied", false, &all);
    run(bench_air_net(20), "net in air", true, &all);
    tell("all", &all);
    printf("bench kinsol_ratio %.3f\nbench kinsol_factorisations_ratio %.3f\n",
           all.their_seconds / all.our_seconds, (double)all.their_steps / (double)all.our_steps);
    printf("bench kinsol_cases %d\nbench kinsol_solved %d\nbench kinsol_same %d\n"
           "bench kinsol_solved_by_us %d\nbench kinsol_apart %.3g\n",
           all.cases, all.theirs, all.same, all.ours, all.apart);
    return 0;
}
