// SPDX-License-Identifier: GPL-3.0-or-later
// Dynamic relaxation with kinetic damping: an independent way from positions to equilibrium.
//
// NOTES
//   1. M v' = r(x), leapfrog with unit time step; all velocities are set to zero where the kinetic
//      energy passes a peak.
//   2. Fictitious masses per point are 3x3: for bars sum K_e over the bars at a point bounds the
//   whole
//      stiffness by K <= 2 blockdiag(K), so that M = blockdiag(K) is just stable for a unit step
//      (limit M >= K/4 * 2); twice that is used, with an isotropic share because bars turn.
//   3. The forces are those of bys_assemble (no tensions of their own, no resting places): every
//      equilibrium found is then audited by the separate code.
// SOURCE Day (1965), Barnes (1999) [memory]; the matrix masses are derived.
#include "torture/run.h"

#include "num/vec3.h"
#include "statics/solver.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
    bys_solver *s;
    bys_state *state;
    const bys_sea *sea;
    int blocks;
    double *mass; ///< 9 per block: the inverse
    double *v;    ///< 3 per block
    double safety;
} relaxation;

/// out <- A^-1 for a symmetric positive A.
static void invert(double out[9], const double A[9]) {
    const double c0 = A[4] * A[8] - A[5] * A[7], c1 = A[5] * A[6] - A[3] * A[8];
    const double c2 = A[3] * A[7] - A[4] * A[6];
    const double det = A[0] * c0 + A[1] * c1 + A[2] * c2;
    out[0] = c0 / det, out[1] = (A[2] * A[7] - A[1] * A[8]) / det;
    out[2] = (A[1] * A[5] - A[2] * A[4]) / det;
    out[3] = c1 / det, out[4] = (A[0] * A[8] - A[2] * A[6]) / det;
    out[5] = (A[2] * A[3] - A[0] * A[5]) / det;
    out[6] = c2 / det, out[7] = (A[1] * A[6] - A[0] * A[7]) / det;
    out[8] = (A[0] * A[4] - A[1] * A[3]) / det;
}

/// Adds a bar's stiffness to what its end carries: a point's own block or a body's two.
static void add_bar(relaxation *x, int p, const double K[9], double size) {
    const int b = x->s->block_of_point[p];
    if (b >= 0)
        bys_mat_axpy(x->mass + 9 * (size_t)b, 1.0, K);
    if (b > -2)
        return;
    const int body = -2 - b, block = x->s->block_of_body[body];
    double lever = 0.0;
    for (int c = 0; c < 3; c++) {
        const double d =
            x->state->x[3 * (size_t)p + (size_t)c] - x->state->body_x[3 * (size_t)body + (size_t)c];
        lever += d * d;
    }
    for (int c = 0; c < 9; c += 4) {
        x->mass[9 * (size_t)block + (size_t)c] += 2.0 * size;
        x->mass[9 * (size_t)(block + 1) + (size_t)c] += 2.0 * size * lever;
    }
}

static void add_bars(relaxation *x) {
    const bys_network *net = x->s->net;
    for (int i = 0; i < x->s->island->element_count; i++) {
        const bys_element *e = &net->elements[x->s->island->elements[i]];
        if (x->s->off[e->section])
            continue;
        const double *a = x->state->x + 3 * (size_t)e->a, *b = x->state->x + 3 * (size_t)e->b;
        double d[3] = {b[0] - a[0], b[1] - a[1], b[2] - a[2]}, K[9];
        const double L = bys_norm(d), EA = net->sections[e->section].stiffness / e->length;
        const double T = fmax(0.0, EA * (L - e->length));
        const double around = T / L + 2e-3 * EA;
        for (int r = 0; r < 3; r++)
            for (int c = 0; c < 3; c++)
                K[3 * r + c] = EA * d[r] * d[c] / (L * L) + (r == c ? around : 0.0);
        add_bar(x, e->a, K, EA);
        add_bar(x, e->b, K, EA);
    }
}

/// Bed, floats, gear and hulls by the solver's diagonal; only what stiffens counts.
static void add_springs(relaxation *x) {
    const bys_solver *s = x->s;
    const bys_network *net = s->net;
    bys_lump lump;
    for (int i = 0; i < s->island->point_count; i++) {
        const int p = s->island->points[i], b = s->block_of_point[p];
        if (b < 0)
            continue;
        for (int r = 0; r < 9; r++)
            x->mass[9 * (size_t)b + (size_t)r] +=
                s->bed_stiffness[p] * x->sea->bed_normal[r / 3] * x->sea->bed_normal[r % 3];
        for (int c = 0; c < 9; c += 4)
            x->mass[9 * (size_t)b + (size_t)c] += 2.0 + 1e-3 * s->bed_stiffness[p];
    }
    for (int i = 0; i < s->island->float_count; i++) {
        const bys_float_set *set = &net->floats[s->island->floats[i]];
        const double K[9] = {[8] = set->count * x->sea->rho * x->sea->gravity *
                                   set->part->u.buoy.diameter * set->part->u.buoy.length};
        add_bar(x, set->point, K, K[8]);
    }
    for (int i = 0; i < s->island->gear_count; i++) {
        const bys_gear_set *set = &net->gears[s->island->gears[i]];
        bys_gear_eval(&lump, set, x->state->x + 3 * (size_t)set->point, x->sea);
        const double tall = set->values->height + set->part->u.gear.drop;
        const double k = 1.5 * set->count * set->values->mass_in_water * x->sea->gravity / tall +
                         fabs(lump.J[2]) + fabs(lump.J[5]);
        const double K[9] = {k, 0, 0, 0, k, 0, 0, 0, k};
        add_bar(x, set->point, K, k);
    }
    for (int i = 0; i < net->prism_count; i++) {
        const bys_prism *prism = &net->prisms[i];
        const double k = 2.0 * x->sea->rho * x->sea->gravity * prism->waterplane;
        const double K[9] = {[8] = k};
        if (net->points[prism->point].island == s->index)
            add_bar(x, prism->point, K, k);
    }
}

static void find_masses(relaxation *x) {
    double M[9];
    memset(x->mass, 0, 9 * (size_t)x->blocks * sizeof *x->mass);
    add_bars(x);
    add_springs(x);
    for (int b = 0; b < x->blocks; b++) {
        for (int c = 0; c < 9; c++)
            M[c] = x->safety * x->mass[9 * b + c];
        for (int c = 0; c < 9; c += 4)
            M[c] += 1.0;
        invert(x->mass + 9 * (size_t)b, M);
    }
}

/// One step; returns twice the kinetic energy in units of the last masses (v . M v = v . dp).
static double step(relaxation *x) {
    double energy = 0.0;
    for (int b = 0; b < x->blocks; b++) {
        double dv[3], *v = x->v + 3 * (size_t)b;
        bys_mat_vec(dv, x->mass + 9 * (size_t)b, x->s->residual + 3 * (size_t)b);
        bys_axpy(v, 1.0, dv);
        const double size = bys_norm(v);
        for (int c = 0; size > 0.5 && c < 3; c++)
            v[c] *= 0.5 / size;
        double p[3], M[9];
        invert(M, x->mass + 9 * (size_t)b);
        bys_mat_vec(p, M, v);
        energy += bys_dot(v, p);
    }
    bys_solver_move(x->s, x->state, x->v, 1.0);
    return energy;
}

static double relax(relaxation *x, double enough, int limit) {
    double before = 0.0, worst = INFINITY;
    for (int it = 0, since = 0; it < limit; it++, since++) {
        if (it % 25 == 0)
            find_masses(x);
        worst = bys_assemble(x->s, x->state, x->sea, false);
        if (worst <= enough || !isfinite(worst))
            break;
        const double energy = step(x);
        if (energy < before && since > 0) {
            bys_solver_move(x->s, x->state, x->v, -0.5); // back towards the peak
            memset(x->v, 0, 3 * (size_t)x->blocks * sizeof *x->v);
            before = 0.0, since = 0;
        } else {
            before = energy;
        }
    }
    return worst;
}

double relax_state(bys_state *state, const bys_sea *sea, const bys_condition *lost, int island,
                   double enough, int limit) {
    relaxation x = {.state = state, .sea = sea, .safety = 1.15};
    double worst = INFINITY;
    if (bys_solver_new(&x.s, state->net, island, NULL) != BYS_OK)
        return worst;
    x.blocks = x.s->blocks;
    x.mass = calloc(9 * (size_t)x.blocks + 1, sizeof *x.mass);
    x.v = calloc(3 * (size_t)x.blocks + 1, sizeof *x.v);
    if (x.mass && x.v) {
        bys_solver_condition(x.s, state, sea, lost);
        worst = relax(&x, enough, limit);
        bys_recover(x.s, state, sea);
    }
    free(x.mass);
    free(x.v);
    bys_solver_free(x.s);
    return worst;
}
