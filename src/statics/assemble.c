// SPDX-License-Identifier: GPL-3.0-or-later
// Forces on every unknown and their full tangent.
//
// r(x) = sum of forces; K = -dr/dx. A body point moves with its body: dx = dX + dtheta x r, so a
// force f at it enters as (f, r x f) and a point tangent A as J' A J with J = [I, -[r]x], plus
// -[f]x [r]x from the turning lever (Nour-Omid & Rankin 1991 treat the same terms) [derived].
#include "num/vec3.h"
#include "statics/onesided.h"
#include "statics/solver.h"

static const double HELD_STIFFNESS = 1e20;

// ---- what the condition takes out -------------------------------------------------------------

static bool may_rest(const bys_section *sec)
{
    return sec->on_bed && sec->weight_dry > sec->buoyancy;
}

static void mark_point(bys_solver *s, int p, const bys_section *sec, double half)
{
    s->alive[p] = 1;
    if (may_rest(sec))
        s->bed_weight[p] += half * (sec->weight_dry - sec->buoyancy);
    else if (sec->on_bed) // buoyant line: keeps out of the bed by a small nominal weight
        s->bed_weight[p] += half * 0.1;
}

/// Sections, single elements and floats that the condition takes out; loads that it adds.
static void take_out(bys_solver *s, const bys_condition *condition)
{
    const bys_network *net = s->net;
    for (int i = 0; i < s->island->element_count; i++) {
        const int k = s->island->elements[i];
        s->out[k] = s->off[net->elements[k].section] = 0;
    }
    for (int i = 0; i < s->island->float_count; i++)
        s->float_out[s->island->floats[i]] = 0;
    s->loads = condition ? condition->loads : NULL;
    s->load_count = condition ? condition->load_count : 0;
    s->cut = condition && condition->element_count > 0;
    for (int i = 0; condition && i < condition->section_count; i++) {
        const bys_section *sec = &net->sections[condition->sections[i]];
        s->off[condition->sections[i]] = 1;
        memset(s->out + sec->first, 1, (size_t)sec->count);
    }
    for (int i = 0; condition && i < condition->element_count; i++)
        s->out[condition->elements[i]] = 1;
    for (int i = 0; condition && i < condition->float_count; i++)
        s->float_out[condition->floats[i]] = 1;
}

void bys_solver_condition(bys_solver *s, const bys_state *state, const bys_sea *sea,
                          const bys_condition *condition)
{
    const bys_network *net = s->net;
    bys_scratch_borrow(s, state);
    if (!(s->barrier > 0.0))
        s->barrier = BYS_BARRIER;
    take_out(s, condition);
    s->friction = condition ? condition->friction : NULL;
    s->laid = condition ? condition->laid : NULL;
    s->friction_reach = condition ? condition->friction_reach : 0.0;
    for (int i = 0; i < s->island->point_count; i++) {
        const int p = s->island->points[i];
        s->alive[p] = net->points[p].kind == BYS_POINT_BODY;
        s->bed_weight[p] = s->bed_stiffness[p] = 0.0;
    }
    for (int i = 0; i < s->island->element_count; i++) {
        const bys_element *e = &net->elements[s->island->elements[i]];
        if (s->out[s->island->elements[i]])
            continue;
        mark_point(s, e->a, &net->sections[e->section], 0.5 * e->length);
        mark_point(s, e->b, &net->sections[e->section], 0.5 * e->length);
    }
    for (int i = 0; i < s->island->point_count; i++) {
        const int p = s->island->points[i];
        if (s->bed_weight[p] > 0.0 && sea->has_bed && net->points[p].kind == BYS_POINT_FREE) {
            s->bed_weight[p] = fmax(s->bed_weight[p] + fmax(0.0, net->points[p].weight), 1.0);
            s->bed_stiffness[p] = fmax(s->bed_weight[p] / BYS_BED_DEPTH, BYS_BED_STIFFNESS);
        }
    }
}

// ---- positions ---------------------------------------------------------------------------------

void bys_place_bodies(const bys_solver *s, bys_state *state)
{
    for (int i = 0; i < s->island->body_count; i++) {
        const int b = s->island->bodies[i];
        const bys_body *body = &s->net->bodies[b];
        for (int k = 0; k < body->point_count; k++) {
            double *x = state->x + 3 * (size_t)body->points[k];
            bys_mat_vec(x, state->body_r + 9 * (size_t)b, s->net->points[body->points[k]].x);
            bys_axpy(x, 1.0, state->body_x + 3 * (size_t)b);
        }
    }
}

/// Lever of a body point about its body's origin; zero for other points.
static void lever(double r[3], const bys_solver *s, const bys_state *state, int p)
{
    const bys_point *point = &s->net->points[p];
    for (int i = 0; i < 3; i++)
        r[i] = point->kind == BYS_POINT_BODY
                   ? state->x[3 * (size_t)p + (size_t)i] -
                         state->body_x[3 * (size_t)point->body + (size_t)i]
                   : 0.0;
}

/// The size of the loads on each block sets how far a shifted step may carry it: sideways by the
/// loads that act sideways and a share of the others, which come round as the line turns.
static void note_load(bys_solver *s, int p, double side, double up)
{
    const int b = s->block_of_point[p];
    if (b == -1)
        return;
    const int block = b >= 0 ? b : s->block_of_body[-2 - b];
    double *shift = s->shift + 2 * (size_t)block;
    shift[0] += side + 0.3 * up;
    shift[1] += side + up;
    for (int i = 2; b < 0 && i < 4; i++)
        shift[i] += 25.0 * (side + up); // a lever of 5 m
}

// ---- adding to the tangent ----------------------------------------------------------------------

/// values += J_a' A J_b at the coupling's slots.
static void add_coupling(double *values, const bys_coupling *c, const double A[9],
                         const double ra[3], const double rb[3])
{
    if (c->slot[0][0] >= 0)
        bys_mat_axpy(values + c->slot[0][0], 1.0, A);
    if (c->slot[0][1] < 0 && c->slot[1][0] < 0)
        return;
    double Ra[9], Rb[9], RaA[9], M[9];
    bys_skew(Ra, ra);
    bys_skew(Rb, rb);
    bys_mat_mul(RaA, Ra, A);
    if (c->slot[1][0] >= 0)
        bys_mat_axpy(values + c->slot[1][0], 1.0, RaA);
    if (c->slot[0][1] >= 0) {
        bys_mat_mul(M, A, Rb);
        bys_mat_axpy(values + c->slot[0][1], -1.0, M);
    }
    if (c->slot[1][1] >= 0) {
        bys_mat_mul(M, RaA, Rb);
        bys_mat_axpy(values + c->slot[1][1], -1.0, M);
    }
}

// ---- elements ------------------------------------------------------------------------------------

static void add_element_tangent(bys_solver *s, const bys_state *state, int i, const bys_element *e,
                                const bys_element_force *q, const double dwa[3],
                                const double dwb[3])
{
    double A[9], B[9], C[9], D[9], ra[3], rb[3];
    for (int k = 0; k < 9; k++) {
        A[k] = q->K[k] + q->He[k];  // -dfa/dxa without the height terms
        B[k] = -q->K[k] - q->He[k]; // -dfa/dxb
        C[k] = -q->K[k] + q->He[k]; // -dfb/dxa
        D[k] = q->K[k] - q->He[k];  // -dfb/dxb
    }
    for (int k = 0; k < 3; k++) {
        const double h = 0.5 * q->Hz[k];
        A[3 * k + 2] -= h, B[3 * k + 2] -= h, C[3 * k + 2] -= h, D[3 * k + 2] -= h;
        const double x = 0.5 * q->Hx[k], y = 0.5 * q->Hy[k];
        A[3 * k] -= x, B[3 * k] -= x, C[3 * k] -= x, D[3 * k] -= x;
        A[3 * k + 1] -= y, B[3 * k + 1] -= y, C[3 * k + 1] -= y, D[3 * k + 1] -= y;
        A[6 + k] -= dwa[k];
        D[6 + k] -= dwb[k];
    }
    lever(ra, s, state, e->a);
    lever(rb, s, state, e->b);
    add_coupling(s->tangent, &s->aa[i], A, ra, ra);
    add_coupling(s->tangent, &s->ab[i], B, ra, rb);
    add_coupling(s->tangent, &s->ba[i], C, rb, ra);
    add_coupling(s->tangent, &s->bb[i], D, rb, rb);
}

/// Axial part by the one-sided law, or linearised about the tension that the element carries.
/// A curved law counts by its slope k at this strain and the extension u that k would need.
static void add_axial(bys_solver *s, int i, bys_element_force *q, const bys_section *sec, double l,
                      bool storm)
{
    double slope, k = sec->stiffness / l, u = q->L - l;
    if (sec->law[0].count > 0 || sec->law[1].ea > 0.0) {
        const double P = bys_section_pull(sec, storm, u / l, &slope);
        k = slope / l;
        u = P / k;
    }
    if (!s->mixed) {
        const double T = bys_onesided_force(k * u, s->barrier, &slope);
        bys_element_axial(q, T, k * slope, T);
        return;
    }
    s->pulled_eff[i] = bys_onesided_linear(s->pulled[i], k, u, s->barrier, &s->pulled_k[i]);
    memcpy(s->pulled_dir[i], q->direction, sizeof s->pulled_dir[i]);
    bys_element_axial(q, s->pulled_eff[i], s->pulled_k[i], s->pulled[i]);
}

static void add_elements(bys_solver *s, bys_state *state, const bys_sea *sea, bool tangent)
{
    const bys_network *net = s->net;
    for (int i = 0; i < s->island->element_count; i++) {
        const int k = s->island->elements[i];
        const bys_element *e = &net->elements[k];
        const bys_section *sec = &net->sections[e->section];
        if (s->out[k]) {
            state->tension[k] = 0.0;
            continue;
        }
        const double *xa = state->x + 3 * (size_t)e->a, *xb = state->x + 3 * (size_t)e->b;
        double *fa = s->force + 3 * (size_t)e->a, *fb = s->force + 3 * (size_t)e->b;
        double dwa[3], dwb[3];
        bys_element_force q;
        bys_element_eval(&q, sec, e->length, xa, xb, sea);
        add_axial(s, i, &q, sec, e->length, sea->storm);
        const double wa = bys_end_weight(sec, e->length, xa, sea, dwa);
        const double wb = bys_end_weight(sec, e->length, xb, sea, dwb);
        bys_axpy(fa, q.T, q.direction);
        bys_axpy(fb, -q.T, q.direction);
        bys_axpy(fa, 1.0, q.half);
        bys_axpy(fb, 1.0, q.half);
        fa[2] += wa;
        fb[2] += wb;
        const double tight = s->mixed ? s->pulled[i] : q.T;
        state->tension[k] = q.T;
        s->pull[e->a] = fmax(s->pull[e->a], tight);
        s->pull[e->b] = fmax(s->pull[e->b], tight);
        const double half = bys_norm(q.half);
        s->scale += 2.0 * half + fabs(wa) + fabs(wb);
        s->line_scale += 2.0 * half + fabs(wa) + fabs(wb);
        note_load(s, e->a, half, fabs(wa));
        note_load(s, e->b, half, fabs(wb));
        if (tangent)
            add_element_tangent(s, state, i, e, &q, dwa, dwb);
    }
}

// ---- lumps ---------------------------------------------------------------------------------------

static void add_lump(bys_solver *s, int p, const bys_lump *lump, bool tangent)
{
    bys_axpy(s->force + 3 * (size_t)p, 1.0, lump->f);
    s->scale += bys_norm(lump->f);
    s->line_scale += s->block_of_point[p] <= -2 ? hypot(lump->f[0], lump->f[1]) : bys_norm(lump->f);
    note_load(s, p, hypot(lump->f[0], lump->f[1]), fabs(lump->f[2]));
    if (!tangent)
        return;
    const int b = s->block_of_point[p];
    if (b >= 0)
        bys_mat_axpy(s->tangent + s->diagonal[b], -1.0, lump->J);
    else if (b <= -2)
        bys_mat_axpy(s->point_tangent + 9 * (size_t)p, -1.0, lump->J);
}

/// The bed's push on a point, by the one-sided law or linearised about the push that it feels.
static void add_bed(bys_solver *s, bys_state *state, const bys_sea *sea, int p, bool tangent)
{
    const double k = s->bed_stiffness[p], depth = bys_bed_depth(state->x + 3 * (size_t)p, sea);
    double N, stiffness, slope;
    if (s->mixed) {
        N = bys_onesided_linear(s->pressed[p], k, depth, s->barrier, &stiffness);
        s->pressed_eff[p] = N, s->pressed_k[p] = stiffness;
        state->bed[p] = s->pressed[p];
    } else {
        N = bys_onesided_force(k * depth, s->barrier, &slope);
        stiffness = k * slope;
        state->bed[p] = N;
    }
    bys_lump lump;
    bys_bed_eval(&lump, N, stiffness, state->x + 3 * (size_t)p, sea);
    bys_axpy(s->force + 3 * (size_t)p, 1.0, lump.f);
    const int b = s->block_of_point[p];
    if (tangent && b >= 0)
        bys_mat_axpy(s->tangent + s->diagonal[b], -1.0, lump.J);
}

static void add_lumps(bys_solver *s, bys_state *state, const bys_sea *sea, bool tangent)
{
    const bys_network *net = s->net;
    const bys_island *isl = s->island;
    bys_lump lump;
    for (int i = 0; i < isl->point_count; i++) {
        const int p = isl->points[i];
        if (!s->alive[p])
            continue;
        bys_point_eval(&lump, &net->points[p], state->x + 3 * (size_t)p, sea);
        add_lump(s, p, &lump, tangent);
        state->bed[p] = 0.0;
        if (s->bed_stiffness[p] > 0.0)
            add_bed(s, state, sea, p, tangent);
    }
    for (int i = 0; i < s->load_count; i++) {
        const int p = s->loads[i].point;
        if (net->points[p].island != s->index || !s->alive[p])
            continue;
        memset(&lump, 0, sizeof lump);
        memcpy(lump.f, s->loads[i].force, sizeof lump.f);
        add_lump(s, p, &lump, tangent);
    }
    for (int i = 0; i < isl->float_count; i++) {
        const bys_float_set *set = &net->floats[isl->floats[i]];
        if (!s->alive[set->point] || s->float_out[isl->floats[i]])
            continue;
        bys_float_eval(&lump, set, state->x + 3 * (size_t)set->point, sea);
        if (s->mixed && s->guard > 0.0)
            lump.J[8] -= s->guard * bys_float_guard(set, state->x[3 * (size_t)set->point + 2], sea);
        add_lump(s, set->point, &lump, tangent);
    }
    for (int i = 0; i < isl->gear_count; i++) {
        const bys_gear_set *set = &net->gears[isl->gears[i]];
        if (!s->alive[set->point])
            continue;
        bys_gear_eval(&lump, set, state->x + 3 * (size_t)set->point, sea);
        add_lump(s, set->point, &lump, tangent);
    }
}

/// Weight and wind of bodies and the buoyancy prisms on them.
static void add_bodies(bys_solver *s, bys_state *state, const bys_sea *sea, bool tangent)
{
    const bys_network *net = s->net;
    bys_lump lump;
    for (int i = 0; i < s->island->body_count; i++) {
        const bys_body *body = &net->bodies[s->island->bodies[i]];
        memset(&lump, 0, sizeof lump);
        lump.f[2] = -body->mass * sea->gravity;
        add_lump(s, body->cg_point, &lump, tangent);
        if (body->wind_point < 0 || body->wind_area <= 0.0)
            continue;
        bys_wind_eval(&lump, body->wind_area, body->wind_cs,
                      state->x[3 * (size_t)body->wind_point + 2], sea);
        add_lump(s, body->wind_point, &lump, tangent);
    }
    for (int i = 0; i < net->prism_count; i++) {
        const bys_prism *prism = &net->prisms[i];
        const bys_point *point = &net->points[prism->point];
        if (point->island != s->index)
            continue;
        double turn[9], r[3], S[9], M[9];
        bys_prism_eval(&lump, turn, prism, state->x + 3 * (size_t)prism->point,
                       state->body_r + 9 * (size_t)point->body, sea);
        add_lump(s, prism->point, &lump, tangent);
        if (!tangent)
            continue;
        lever(r, s, state, prism->point);
        bys_skew(S, r);
        bys_mat_mul(M, S, turn);
        bys_mat_axpy(s->turn_tangent + 18 * (size_t)point->body, -1.0, turn);
        bys_mat_axpy(s->turn_tangent + 18 * (size_t)point->body + 9, -1.0, M);
    }
}

/// Sums the forces of a body's points into its two blocks, and their tangents.
static void gather_body(bys_solver *s, const bys_state *state, int b, bool tangent)
{
    const bys_body *body = &s->net->bodies[b];
    const int block = s->block_of_body[b];
    double *F = s->residual + 3 * (size_t)block, *M = F + 3;
    bys_coupling c;
    for (int i = 0; i < 2 && tangent; i++)
        for (int j = 0; j < 2; j++)
            c.slot[i][j] = bys_pattern3_slot(s->pattern, block + i, block + j);
    for (int i = 0; i < 2 && tangent; i++)
        bys_mat_axpy(s->tangent + c.slot[i][1], 1.0,
                     s->turn_tangent + 18 * (size_t)b + 9 * (size_t)i);
    for (int k = 0; k < body->point_count; k++) {
        const int p = body->points[k];
        const double *f = s->force + 3 * (size_t)p;
        double r[3], m[3];
        lever(r, s, state, p);
        bys_cross(m, r, f);
        bys_axpy(F, 1.0, f);
        bys_axpy(M, 1.0, m);
        if (!tangent)
            continue;
        add_coupling(s->tangent, &c, s->point_tangent + 9 * (size_t)p, r, r);
        double Sf[9], Sr[9], G[9];
        bys_skew(Sf, f);
        bys_skew(Sr, r);
        bys_mat_mul(G, Sf, Sr);
        bys_mat_axpy(s->tangent + c.slot[1][1], -1.0, G);
    }
}

// ---- all together --------------------------------------------------------------------------------

static void clear(bys_solver *s, bool tangent)
{
    for (int i = 0; i < s->island->point_count; i++) {
        const size_t p = (size_t)s->island->points[i];
        memset(s->force + 3 * p, 0, 3 * sizeof(double));
        s->pull[p] = 0.0;
        if (tangent)
            memset(s->point_tangent + 9 * p, 0, 9 * sizeof(double));
    }
    memset(s->residual, 0, 3 * (size_t)s->blocks * sizeof(double));
    for (int i = 0; i < s->island->body_count; i++)
        memset(s->turn_tangent + 18 * (size_t)s->island->bodies[i], 0, 18 * sizeof(double));
    memset(s->shift, 0, 2 * (size_t)s->blocks * sizeof(double));
    if (tangent)
        memset(s->tangent, 0, bys_pattern3_values(s->pattern) * sizeof(double));
    s->scale = s->line_scale = 0.0;
}

/// Held coordinates do not move; points without anything active stay where they are.
static void apply_holds(bys_solver *s, bool tangent)
{
    for (int i = 0; i < s->island->point_count; i++) {
        const int p = s->island->points[i], b = s->block_of_point[p];
        if (b < 0)
            continue;
        for (int c = 0; c < 3; c++)
            if (s->held[b][c] > 0.0 || !s->alive[p]) {
                s->residual[3 * (size_t)b + (size_t)c] = 0.0;
                if (tangent)
                    s->tangent[s->diagonal[b] + 4 * c] = HELD_STIFFNESS;
            }
    }
}

/// A slack line that lies on the bed stays where it has come to lie: a point that rests with N is held
/// sideways by up to g = 0.02 N / (1 + (T/0.02 N)^2), T the largest tension at it, within a centimetre.
/// Taut lines slide freely (g -> 0: no friction in design equilibria); without this a slack rope on a
/// level bed could lie anywhere. Ropes and chain on sand grip far more: 0.25 and 0.7, API RP 2SK
/// [memory].
static void apply_rest(bys_solver *s, const bys_state *state, const bys_sea *sea, bool tangent)
{
    static const double reach = BYS_SLACK_REACH;
    for (int i = 0; i < s->island->point_count; i++) {
        const int p = s->island->points[i], b = s->block_of_point[p];
        const double grip = BYS_SLACK_GRIP * (s->mixed ? s->pressed[p] : state->bed[p]);
        if (b < 0 || !(s->bed_stiffness[p] > 0.0) || grip < 1e-6)
            continue;
        const double g = grip / (1.0 + s->pull[p] * s->pull[p] / (grip * grip));
        double d[3], n[3];
        for (int c = 0; c < 3; c++)
            d[c] = state->x[3 * (size_t)p + (size_t)c] - s->lie[3 * (size_t)p + (size_t)c];
        bys_sea_bed_normal(n, sea, state->x[3 * (size_t)p], state->x[3 * (size_t)p + 1]);
        bys_axpy(d, -bys_dot(d, n), n);
        const double size = sqrt(bys_dot(d, d) + reach * reach);
        bys_axpy(s->residual + 3 * (size_t)b, -g / size, d);
        for (int c = 0; tangent && c < 9; c++)
            s->tangent[s->diagonal[b] + c] +=
                g / size * ((c % 4 == 0 ? 1.0 : 0.0) - n[c / 3] * n[c % 3] -
                            d[c / 3] * d[c % 3] / (size * size));
    }
}

/// Friction on the bed against the way that a point has gone from where it was laid: F d/|d|, grown
/// over a small way. The bound F is given, so that the change with position is exact; while steps are
/// long F/|d| stands for it, which lets no point jump over the place where it was laid.
static void apply_friction(bys_solver *s, const bys_state *state, const bys_sea *sea, bool tangent)
{
    for (int i = 0; i < s->island->point_count; i++) {
        const int p = s->island->points[i], b = s->block_of_point[p];
        const double F = s->friction[p];
        if (b < 0 || !(s->bed_stiffness[p] > 0.0) || !(F > 0.0))
            continue;
        double d[3], n[3];
        bys_sea_bed_normal(n, sea, state->x[3 * (size_t)p], state->x[3 * (size_t)p + 1]);
        for (int c = 0; c < 3; c++)
            d[c] = state->x[3 * (size_t)p + (size_t)c] - s->laid[3 * (size_t)p + (size_t)c];
        bys_axpy(d, -bys_dot(d, n), n);
        const double size = sqrt(bys_dot(d, d) + s->friction_reach * s->friction_reach);
        bys_axpy(s->residual + 3 * (size_t)b, -F / size, d);
        const double turn = s->mixed && s->last_move > 0.3 * s->friction_reach ? 0.0 : 1.0;
        for (int c = 0; tangent && c < 9; c++)
            s->tangent[s->diagonal[b] + c] +=
                F / size * ((c % 4 == 0 ? 1.0 : 0.0) - n[c / 3] * n[c % 3] -
                            turn * d[c / 3] * d[c % 3] / (size * size));
    }
}

void bys_note_rest(bys_solver *s, const bys_state *state)
{
    for (int i = 0; i < s->island->point_count; i++) {
        const int p = s->island->points[i];
        memcpy(s->lie + 3 * (size_t)p, state->x + 3 * (size_t)p, 3 * sizeof(double));
    }
    s->rests = true;
}

double bys_assemble(bys_solver *s, bys_state *state, const bys_sea *sea, bool tangent)
{
    clear(s, tangent);
    bys_place_bodies(s, state);
    add_elements(s, state, sea, tangent);
    add_lumps(s, state, sea, tangent);
    add_bodies(s, state, sea, tangent);
    for (int i = 0; i < s->island->point_count; i++) {
        const int p = s->island->points[i], b = s->block_of_point[p];
        if (b >= 0)
            memcpy(s->residual + 3 * (size_t)b, s->force + 3 * (size_t)p, 3 * sizeof(double));
    }
    for (int i = 0; i < s->island->body_count; i++)
        gather_body(s, state, s->island->bodies[i], tangent);
    if (sea->has_bed && s->friction)
        apply_friction(s, state, sea, tangent);
    else if (sea->has_bed && s->rests)
        apply_rest(s, state, sea, tangent);
    apply_holds(s, tangent);
    double worst = 0.0;
    for (int b = 0; b < s->blocks; b++)
        worst = fmax(worst, bys_norm(s->residual + 3 * (size_t)b));
    return worst;
}

// ---- for tests and sensitivities -------------------------------------------------------------------

int bys_solver_unknowns(const bys_solver *s)
{
    return 3 * s->blocks;
}

void bys_solver_move(const bys_solver *s, bys_state *state, const double *d, double scale)
{
    for (int i = 0; i < s->island->point_count; i++) {
        const int p = s->island->points[i], b = s->block_of_point[p];
        if (b >= 0)
            bys_axpy(state->x + 3 * (size_t)p, scale, d + 3 * (size_t)b);
    }
    for (int i = 0; i < s->island->body_count; i++) {
        const int body = s->island->bodies[i];
        const double *q = d + 3 * (size_t)s->block_of_body[body];
        const double turn[3] = {scale * q[3], scale * q[4], scale * q[5]};
        bys_axpy(state->body_x + 3 * (size_t)body, scale, q);
        bys_rotate(state->body_r + 9 * (size_t)body, turn);
    }
    bys_place_bodies(s, state);
}

void bys_solver_residual(bys_solver *s, bys_state *state, const bys_sea *sea, double *r)
{
    bys_solver_condition(s, state, sea, NULL);
    bys_assemble(s, state, sea, false);
    memcpy(r, s->residual, 3 * (size_t)s->blocks * sizeof *r);
}

void bys_solver_tangent_times(bys_solver *s, bys_state *state, const bys_sea *sea, const double *d,
                              double *Kd)
{
    bys_solver_condition(s, state, sea, NULL);
    bys_assemble(s, state, sea, true);
    bys_block_times(s->pattern, s->tangent, d, Kd);
}
