// SPDX-License-Identifier: GPL-3.0-or-later
// Sensitivity of the tension at a section's end, by the transpose of the full tangent.
//
// GIVEN     a stable equilibrium x of one island, r(x, p) = 0, and the tangent K = -dr/dx at the
//           final barrier: the equations that the solver itself ends with
// RETURNED  dg/dp of g = |force of the section on its end| (N per unit of p)
// NOTES     1. K' w = dg/dx once; then dg/dp = (partial g/partial p) + w . dr/dp for every
//              parameter: position of the anchor (N/m), unstretched length (N/m), current.
//           2. Fixed case and fixed contact set: what lies on the bed stays on it, what is slack
//              stays slack; slack line on the bed is held where it lies, as in the solver.
//           3. An anchor that moves takes all its legs with it, and follows the slope of the bed.
//           4. More length goes evenly into the leg's longest rope, which is the warp.
//           5. dr/dp and the partial of g are exact for positions and lengths; for the current they
//              are central differences of the loads at fixed positions, 1e-4 of the speed.
//           6. The solver's tangent leaves out how that hold changes with the tension and the push
//              at the point; these terms are added here, so that the adjoint sees all of r.
//           7. The part of the end force that presses into the bed is the bed's, as in recover.c.
// SOURCE    adjoint of an implicit function [derived].
#include "statics/sensitivity.h"

#include "num/vec3.h"
#include "statics/onesided.h"
#include "statics/solver.h"

/// Force of one element on its ends, bed left out, and the change with its ends and its length.
typedef struct {
    double f[2][3];     ///< N, on end a and on end b
    double d[2][2][9];  ///< N/m, df[i]/dx[j]
    double dl[2][3];    ///< N/m, df[i]/d(unstretched length)
} link;

/// Loads that follow the length, exactly linear in it: half[] of one metre more at both ends.
static void length_part(link *out, const bys_section *sec, double l, const double *xa,
                        const double *xb, const bys_sea *sea)
{
    bys_element_force more, less;
    double dz;
    bys_element_eval(&more, sec, l * 1.5, xa, xb, sea);
    bys_element_eval(&less, sec, l * 0.5, xa, xb, sea);
    for (int c = 0; c < 3; c++)
        out->dl[0][c] = out->dl[1][c] = (more.half[c] - less.half[c]) / l;
    out->dl[0][2] += bys_half_weight(sec, 1.0, xa[2], sea, &dz);
    out->dl[1][2] += bys_half_weight(sec, 1.0, xb[2], sea, &dz);
}

static void link_eval(link *out, const bys_solver *s, const bys_state *state, const bys_sea *sea,
                      int element)
{
    const bys_element *e = &s->net->elements[element];
    const bys_section *sec = &s->net->sections[e->section];
    const double *xa = state->x + 3 * (size_t)e->a, *xb = state->x + 3 * (size_t)e->b;
    bys_element_force q;
    double slope, dw[2], EA;
    bys_element_eval(&q, sec, e->length, xa, xb, sea);
    const double P = bys_section_pull(sec, sea->storm, q.L / e->length - 1.0, &EA);
    const double T = bys_onesided_force(P, s->barrier, &slope), k = EA / e->length;
    bys_element_axial(&q, T, k * slope, T);
    const double w[2] = {bys_half_weight(sec, e->length, xa[2], sea, &dw[0]),
                         bys_half_weight(sec, e->length, xb[2], sea, &dw[1])};
    length_part(out, sec, e->length, xa, xb, sea);
    for (int i = 0; i < 2; i++) {
        const double sign = i ? -1.0 : 1.0;
        for (int c = 0; c < 3; c++) {
            out->f[i][c] = sign * T * q.direction[c] + q.half[c];
            out->dl[i][c] -= sign * slope * k * q.L / e->length * q.direction[c];
        }
        out->f[i][2] += w[i];
        for (int j = 0; j < 2; j++) {
            for (int c = 0; c < 9; c++)
                out->d[i][j][c] = (j ? 1.0 : -1.0) * (sign * q.K[c] + q.He[c]);
            for (int c = 0; c < 3; c++)
                out->d[i][j][3 * c + 2] += 0.5 * q.Hz[c];
        }
        out->d[i][i][8] += dw[i];
    }
}

// ---- the tension that is watched --------------------------------------------------------------

typedef struct {
    int element, end, point; ///< element at that end of the section; 1 = its end b
    double value;    ///< N
    double dir[3];   ///< d(value)/d(force of the element), bed's share taken off
    double bed[3];   ///< N/m, d(value)/d(position) through the bed's push
    double weight;   ///< N/m, d(value)/d(element length) through the bed's share
    double others;   ///< d(value)/d(weight of all that rests at a free point), N per N
} watched;

/// On a held point the bed takes N = -f.n, at most the half weight of the element (recover.c).
static double held_share(watched *w, const double f[3], const double *n, double heavy, double half)
{
    const double press = fmax(0.0, -bys_dot(f, n)), N = fmin(press, half);
    w->weight = press > half ? 0.5 * heavy * n[2] : 0.0;
    return N;
}

static watched watch(const bys_solver *s, const bys_state *state, const bys_sea *sea,
                     bys_section_end at, const double f[3])
{
    const bys_section *sec = &s->net->sections[at.section];
    watched w = {.element = sec->first + (at.at_b ? sec->count - 1 : 0), .end = at.at_b};
    const bys_element *e = &s->net->elements[w.element];
    w.point = at.at_b ? e->b : e->a;
    const double *x = state->x + 3 * (size_t)w.point;
    double n[3];
    bys_sea_bed_normal(n, sea, x[0], x[1]);
    const double heavy = sec->weight_dry - sec->buoyancy, half = 0.5 * e->length * heavy;
    const bool rests = sec->on_bed && sea->has_bed && heavy > 0.0;
    const bool held = s->net->points[w.point].kind == BYS_POINT_FIXED;
    const double all = s->bed_weight[w.point];
    double N = 0.0, share = 0.0, g[3];
    if (rests && held && x[2] - bys_sea_bed_z(sea, x[0], x[1]) < 1e-3)
        N = held_share(&w, f, n, heavy, half * n[2]);
    else if (rests && !held && all > 0.0) {
        share = fmin(1.0, half / all);
        N = state->bed[w.point] * share;
        if (share < 1.0) {
            w.weight = state->bed[w.point] * 0.5 * heavy / all;
            w.others = -N / all;
        }
    }
    memcpy(g, f, sizeof g);
    bys_axpy(g, N, n);
    w.value = bys_norm(g);
    for (int c = 0; c < 3; c++)
        w.dir[c] = w.value > 0.0 ? g[c] / w.value : 0.0;
    const double along = bys_dot(w.dir, n);
    double slope;
    if (share > 0.0) {
        const double k = s->bed_stiffness[w.point];
        bys_onesided_force(k * bys_bed_depth(x, sea), s->barrier, &slope);
        bys_axpy(w.bed, -along * share * k * slope, n);
    }
    w.weight *= along;
    w.others *= along;
    if (N > 0.0 && share == 0.0 && w.weight == 0.0) // the bed takes all that presses
        bys_axpy(w.dir, -along, n);
    return w;
}

/// row += dir' D
static void times_row(double row[3], const double dir[3], const double D[9])
{
    for (int j = 0; j < 3; j++)
        row[j] += dir[0] * D[j] + dir[1] * D[3 + j] + dir[2] * D[6 + j];
}

/// First of a point's blocks and its lever on a body; -1 for a held point.
static int block_at(const bys_solver *s, const bys_state *state, int p, double r[3])
{
    const int b = s->block_of_point[p];
    r[0] = r[1] = r[2] = 0.0;
    const double *x = state->x + 3 * (size_t)p;
    for (int c = 0; c < 3 && b < -1; c++)
        r[c] = x[c] - state->body_x[3 * (size_t)(-2 - b) + (size_t)c];
    return b < -1 ? s->block_of_body[-2 - b] : b;
}

/// Adds a gradient at a point to the unknowns' one: itself, and r x itself on a body.
static void put_gradient(const bys_solver *s, const bys_state *state, int p, const double v[3],
                         double *put)
{
    double r[3], m[3];
    const int block = block_at(s, state, p, r);
    if (block < 0)
        return;
    bys_axpy(put + 3 * (size_t)block, 1.0, v);
    bys_cross(m, r, v);
    if (s->block_of_point[p] < -1)
        bys_axpy(put + 3 * (size_t)block + 3, 1.0, m);
}

/// Work of a force at a point on the adjoint.
static double work_of(const bys_solver *s, const bys_state *state, int p, const double f[3],
                      const double *w)
{
    double r[3], m[3];
    const int block = block_at(s, state, p, r);
    if (block < 0)
        return 0.0;
    bys_cross(m, r, f);
    return bys_dot(w + 3 * (size_t)block, f) +
           (s->block_of_point[p] < -1 ? bys_dot(w + 3 * (size_t)block + 3, m) : 0.0);
}

// ---- how the bed's hold on a slack line changes -------------------------------------------------

/// Hold on a point, f = -g d/size (assemble.c): change with its push N and the tension T there.
typedef struct {
    int tight;        ///< element of the island whose tension counts, -1
    double per_N[3], per_T[3];
} hold;

static int tightest(const bys_solver *s, const bys_state *state, int p)
{
    int best = -1;
    for (int i = 0; i < s->island->element_count; i++) {
        const int k = s->island->elements[i];
        const bys_element *e = &s->net->elements[k];
        if (!s->out[k] && (e->a == p || e->b == p) &&
            (best < 0 || state->tension[k] > state->tension[s->island->elements[best]]))
            best = i;
    }
    return best;
}

static bool held_point(hold *out, const bys_solver *s, const bys_state *state, const bys_sea *sea,
                       int p)
{
    const double grip = BYS_SLACK_GRIP * state->bed[p], T = s->pull[p];
    if (!sea->has_bed || !s->rests || s->block_of_point[p] < 0 || !(s->bed_stiffness[p] > 0.0) ||
        grip < 1e-6)
        return false;
    double d[3], n[3];
    bys_sea_bed_normal(n, sea, state->x[3 * (size_t)p], state->x[3 * (size_t)p + 1]);
    for (int c = 0; c < 3; c++)
        d[c] = state->x[3 * (size_t)p + (size_t)c] - s->lie[3 * (size_t)p + (size_t)c];
    bys_axpy(d, -bys_dot(d, n), n);
    const double size = sqrt(bys_dot(d, d) + BYS_SLACK_REACH * BYS_SLACK_REACH);
    const double q = T * T / (grip * grip), u = 1.0 / (1.0 + q);
    for (int c = 0; c < 3; c++) {
        out->per_N[c] = -BYS_SLACK_GRIP * (u + 2.0 * q * u * u) * d[c] / size;
        out->per_T[c] = 2.0 * T / grip * u * u * d[c] / size;
    }
    out->tight = tightest(s, state, p);
    return out->tight >= 0;
}

/// Direction of an element times the rate of its tension with its length (N/m).
static void tension_rate(double out[3], const bys_solver *s, const bys_state *state,
                         const bys_sea *sea, int element)
{
    const bys_element *e = &s->net->elements[element];
    const double *a = state->x + 3 * (size_t)e->a, *b = state->x + 3 * (size_t)e->b;
    double slope, EA;
    for (int c = 0; c < 3; c++)
        out[c] = b[c] - a[c];
    const double L = bys_norm(out);
    const bys_section *sec = &s->net->sections[e->section];
    const double P = bys_section_pull(sec, sea->storm, L / e->length - 1.0, &EA);
    bys_onesided_force(P, s->barrier, &slope);
    for (int c = 0; c < 3; c++)
        out[c] *= EA / e->length * slope / L;
}

/// tangent -= v row' at a coupling.
static void couple(double *tangent, const bys_coupling *at, const double v[3], const double row[3],
                   const double r[3])
{
    double A[9] = {0}, R[9], M[9];
    bys_outer_add(A, -1.0, v, row);
    if (at->slot[0][0] >= 0)
        bys_mat_axpy(tangent + at->slot[0][0], 1.0, A);
    if (at->slot[0][1] < 0)
        return;
    bys_skew(R, r);
    bys_mat_mul(M, A, R);
    bys_mat_axpy(tangent + at->slot[0][1], -1.0, M);
}

static void add_holds(bys_solver *s, const bys_state *state, const bys_sea *sea)
{
    for (int i = 0; i < s->island->point_count; i++) {
        const int p = s->island->points[i];
        hold h;
        double row[3] = {0, 0, 0}, r[3], n[3], slope;
        if (!held_point(&h, s, state, sea, p))
            continue;
        const double k = s->bed_stiffness[p];
        bys_onesided_force(k * bys_bed_depth(state->x + 3 * (size_t)p, sea), s->barrier, &slope);
        bys_sea_bed_normal(n, sea, state->x[3 * (size_t)p], state->x[3 * (size_t)p + 1]);
        bys_axpy(row, -k * slope, n);
        bys_outer_add(s->tangent + s->diagonal[s->block_of_point[p]], -1.0, h.per_N, row);
        const int element = s->island->elements[h.tight];
        const bool at_b = s->net->elements[element].b == p;
        tension_rate(row, s, state, sea, element);
        block_at(s, state, s->net->elements[element].b, r);
        couple(s->tangent, at_b ? &s->bb[h.tight] : &s->ab[h.tight], h.per_T, row, r);
        block_at(s, state, s->net->elements[element].a, r);
        for (int c = 0; c < 3; c++)
            row[c] = -row[c];
        couple(s->tangent, at_b ? &s->ba[h.tight] : &s->aa[h.tight], h.per_T, row, r);
    }
}

/// Work on the adjoint of the hold at an element's ends as its tension grows by dT.
static double through_hold(const bys_solver *s, const bys_state *state, const bys_sea *sea,
                           const double *w, int element, double dT)
{
    double sum = 0.0;
    for (int end = 0; end < 2; end++) {
        const int p = end ? s->net->elements[element].b : s->net->elements[element].a;
        hold h;
        if (held_point(&h, s, state, sea, p) && s->island->elements[h.tight] == element)
            sum += dT * work_of(s, state, p, h.per_T, w);
    }
    return sum;
}

// ---- parameters -------------------------------------------------------------------------------

/// w . dr for a move of point `foot` by `move`: through every element that ends there.
static double through_foot(const bys_solver *s, const bys_state *state, const bys_sea *sea,
                           const double *w, int foot, const double move[3])
{
    double sum = 0.0;
    for (int i = 0; i < s->island->element_count; i++) {
        const int k = s->island->elements[i];
        const bys_element *e = &s->net->elements[k];
        if (s->out[k] || (e->a != foot && e->b != foot))
            continue;
        link q;
        double df[3];
        link_eval(&q, s, state, sea, k);
        const int near = e->a == foot ? 0 : 1;
        bys_mat_vec(df, q.d[1 - near][near], move);
        sum += work_of(s, state, near ? e->a : e->b, df, w);
        tension_rate(df, s, state, sea, k);
        sum += through_hold(s, state, sea, w, k, (near ? 1.0 : -1.0) * bys_dot(df, move));
    }
    return sum;
}

static double through_length(const bys_solver *s, const bys_state *state, const bys_sea *sea,
                             const double *w, const bys_section *sec)
{
    double sum = 0.0;
    for (int k = sec->first; k < sec->first + sec->count; k++) {
        const bys_element *e = &s->net->elements[k];
        link q;
        double df[3];
        if (s->out[k])
            continue;
        link_eval(&q, s, state, sea, k);
        for (int end = 0; end < 2; end++) {
            for (int c = 0; c < 3; c++)
                df[c] = q.dl[end][c] * e->length / sec->length;
            sum += work_of(s, state, end ? e->b : e->a, df, w);
        }
        const double *xa = state->x + 3 * (size_t)e->a, *xb = state->x + 3 * (size_t)e->b;
        const double apart[3] = {xb[0] - xa[0], xb[1] - xa[1], xb[2] - xa[2]};
        double rate[3];
        tension_rate(rate, s, state, sea, k);
        sum -= through_hold(s, state, sea, w, k, bys_dot(rate, apart) / sec->length);
    }
    return sum;
}

/// Change of the residual (on w) and of the watched tension with the relative speed of the current.
static double through_current(bys_solver *s, bys_state *state, const bys_sea *sea,
                              const watched *g, bys_section_end at)
{
    static const double h = 1e-4;
    double value[2];
    for (int side = 0; side < 2; side++) {
        bys_sea other = *sea;
        link q;
        other.current_speed *= side ? 1.0 + h : 1.0 - h;
        bys_assemble(s, state, &other, false);
        link_eval(&q, s, state, &other, g->element);
        value[side] = watch(s, state, &other, at, q.f[g->end]).value;
        for (int b = 0; b < s->blocks; b++)
            value[side] += bys_dot(s->step + 3 * (size_t)b, s->residual + 3 * (size_t)b);
    }
    return (value[1] - value[0]) / (2.0 * h);
}

/// Change of what rests at a point (N) per metre that the section gets longer.
static double resting_rate(const bys_network *net, const bys_section *sec, int point)
{
    const double heavy = sec->on_bed ? fmax(0.0, sec->weight_dry - sec->buoyancy) : 0.0;
    double length = 0.0;
    for (int k = sec->first; k < sec->first + sec->count; k++)
        if (net->elements[k].a == point || net->elements[k].b == point)
            length += net->elements[k].length;
    return 0.5 * heavy * length / sec->length;
}

int bys_leg_warp(const bys_network *net, const bys_leg *leg)
{
    int best = -1, rope = -1;
    for (int k = leg->first_section; k < leg->first_section + leg->section_count; k++) {
        const bys_section *sec = &net->sections[k];
        if (best < 0 || sec->length > net->sections[best].length)
            best = k;
        if (sec->part && sec->part->kind == BYS_PART_ROPE &&
            (rope < 0 || sec->length > net->sections[rope].length))
            rope = k;
    }
    return rope >= 0 ? rope : best;
}

/// The tangent at rest, factored; w <- K^-T (gradient in s->right).
static void solve_adjoint(bys_solver *s)
{
    bys_pivots pivots;
    memcpy(s->factor, s->tangent, bys_pattern3_values(s->pattern) * sizeof *s->factor);
    bys_block_factor(s->pattern, s->factor, &pivots);
    bys_block_solve_transposed(s->pattern, s->factor, s->right, s->step, s->work);
}

/// Forces, tangent and bed pushes of the state on the true laws.
static void assemble_rest(bys_solver *s, bys_state *state, const bys_sea *sea,
                          const bys_condition *condition)
{
    s->mixed = false;
    s->barrier = BYS_BARRIER;
    bys_solver_condition(s, state, sea, condition);
    if (!s->rests)
        bys_note_rest(s, state);
    bys_assemble(s, state, sea, true);
    add_holds(s, state, sea);
}

/// Gradient of the watched tension over the unknowns into s->right; its rows at both element ends.
static watched put_watched(bys_solver *s, const bys_state *state, const bys_sea *sea,
                           bys_section_end end, link *q, double rows[2][3])
{
    const bys_section *sec = &s->net->sections[end.section];
    const int element = sec->first + (end.at_b ? sec->count - 1 : 0);
    const bys_element *e = &s->net->elements[element];
    link_eval(q, s, state, sea, element);
    const watched g = watch(s, state, sea, end, q->f[end.at_b]);
    memset(rows, 0, 2 * sizeof *rows);
    for (int j = 0; j < 2; j++)
        times_row(rows[j], g.dir, q->d[g.end][j]);
    bys_axpy(rows[g.end], 1.0, g.bed);
    memset(s->right, 0, 3 * (size_t)s->blocks * sizeof *s->right);
    put_gradient(s, state, e->a, rows[0], s->right);
    put_gradient(s, state, e->b, rows[1], s->right);
    return g;
}

static double per_move(const bys_solver *s, const bys_state *state, const bys_sea *sea, int foot,
                       const watched *g, double rows[2][3], const double move[3])
{
    const bys_element *e = &s->net->elements[g->element];
    double sum = through_foot(s, state, sea, s->step, foot, move);
    for (int j = 0; j < 2; j++)
        if ((j ? e->b : e->a) == foot)
            sum += bys_dot(rows[j], move);
    return sum;
}

static double per_length(const bys_solver *s, const bys_state *state, const bys_sea *sea,
                         const bys_leg *leg, bys_section_end end, const watched *g, const link *q)
{
    const bys_section *warp = &s->net->sections[bys_leg_warp(s->net, leg)];
    double sum = through_length(s, state, sea, s->step, warp) +
                 g->others * resting_rate(s->net, warp, g->point);
    if (warp == &s->net->sections[end.section])
        sum += (bys_dot(g->dir, q->dl[g->end]) + g->weight) * s->net->elements[g->element].length /
               warp->length;
    return sum;
}

void bys_sensitivity_find(bys_sensitivity *out, bys_solver *s, bys_state *state, const bys_sea *sea,
                          const bys_condition *condition, int leg, bys_section_end end)
{
    const bys_leg *l = &s->net->legs[leg];
    const bys_section *sec = &s->net->sections[end.section];
    const double *foot = s->net->points[l->foot].x;
    double n[3];
    bys_sea_bed_normal(n, sea, foot[0], foot[1]);
    const bool slopes = sea->has_bed && n[2] > 0.0;
    const double east[3] = {1.0, 0.0, slopes ? -n[0] / n[2] : 0.0};
    const double north[3] = {0.0, 1.0, slopes ? -n[1] / n[2] : 0.0};
    double rows[2][3];
    link q;
    *out = (bys_sensitivity){NAN, NAN, NAN, NAN, NAN};
    assemble_rest(s, state, sea, condition);
    if (l->section_count == 0 || s->out[sec->first + (end.at_b ? sec->count - 1 : 0)])
        return;
    const watched g = put_watched(s, state, sea, end, &q, rows);
    solve_adjoint(s);
    out->tension = g.value;
    out->per_east = per_move(s, state, sea, l->foot, &g, rows, east);
    out->per_north = per_move(s, state, sea, l->foot, &g, rows, north);
    out->per_length = per_length(s, state, sea, l, end, &g, &q);
    out->per_current = sea->current_speed > 0.0 ? through_current(s, state, sea, &g, end) : 0.0;
}
