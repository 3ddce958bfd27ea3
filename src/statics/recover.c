// SPDX-License-Identifier: GPL-3.0-or-later
// From positions to what people read: end forces of sections, reactions, grounded length, float and
// gear results.
//
// The elements carry their loads half and half at their ends, so the force of a section on its end is
// the end element's tension plus its own half load; on the bed the part that presses the line down is
// the bed's. Grounded length = what the bed carries / (submerged weight x cos slope): exact for an
// inextensible line because it follows from vertical balance.
#include "num/vec3.h"
#include "phys/phys.h"
#include "statics/solver.h"

#include <stdio.h>

const char *bys_point_label(const bys_network *net, int point, char *buffer, size_t size)
{
    if (point < 0) {
        snprintf(buffer, size, "an unknown point");
        return buffer;
    }
    const bys_point *p = &net->points[point];
    if (p->kind == BYS_POINT_BODY) {
        snprintf(buffer, size, "%s", net->bodies[p->body].id);
        return buffer;
    }
    if (p->id && p->id[0]) {
        snprintf(buffer, size, "%s", p->id);
        return buffer;
    }
    for (int e = 0; e < net->element_count; e++) {
        const bys_element *el = &net->elements[e];
        if (el->a != point && el->b != point)
            continue;
        const bys_section *sec = &net->sections[el->section];
        const int k = e - sec->first + (el->b == point ? 1 : 0);
        snprintf(buffer, size, "%s, %.0f %% along it", sec->id, 100.0 * k / sec->count);
        return buffer;
    }
    snprintf(buffer, size, "point %d", point);
    return buffer;
}

/// Force of one element on one of its ends, half loads included.
static void end_force(double f[3], const bys_solver *s, const bys_state *state, const bys_sea *sea,
                      int element, bool at_b)
{
    const bys_element *e = &s->net->elements[element];
    const bys_section *sec = &s->net->sections[e->section];
    const double *xa = state->x + 3 * (size_t)e->a, *xb = state->x + 3 * (size_t)e->b;
    bys_element_force q;
    double dw[3];
    f[0] = f[1] = f[2] = 0.0;
    if (s->out[element])
        return;
    bys_element_eval(&q, sec, e->length, xa, xb, sea);
    q.T = state->tension[element];
    for (int i = 0; i < 3; i++)
        f[i] = (at_b ? -q.T : q.T) * q.direction[i] + q.half[i];
    f[2] += bys_end_weight(sec, e->length, at_b ? xb : xa, sea, dw);
}

static bool on_bed(const bys_section *sec, const bys_sea *sea)
{
    return sec->on_bed && sea->has_bed && sec->weight_dry > sec->buoyancy;
}

/// Takes the bed's share off a section's end force; returns it (N).
static double take_bed(double f[3], const bys_solver *s, const bys_state *state, const bys_sea *sea,
                       const bys_section *sec, int element, int p)
{
    if (!on_bed(sec, sea) || s->out[element])
        return 0.0;
    double n[3];
    bys_sea_bed_normal(n, sea, state->x[3 * (size_t)p], state->x[3 * (size_t)p + 1]);
    const double w = sec->weight_dry - sec->buoyancy;
    const double half = 0.5 * s->net->elements[element].length * w;
    double N = 0.0;
    if (s->net->points[p].kind == BYS_POINT_FIXED) {
        const double *x = state->x + 3 * (size_t)p;
        const bool lies = x[2] - bys_sea_bed_z(sea, x[0], x[1]) < 1e-3;
        N = lies ? fmin(fmax(0.0, -bys_dot(f, n)), half * n[2]) : 0.0;
    } else if (s->bed_weight[p] > 0.0) {
        N = state->bed[p] * fmin(1.0, half / s->bed_weight[p]);
    }
    bys_axpy(f, N, n);
    return N;
}

static void recover_section(bys_solver *s, bys_state *state, const bys_sea *sea, int k)
{
    const bys_network *net = s->net;
    const bys_section *sec = &net->sections[k];
    bys_section_state *out = &state->sections[k];
    memset(out, 0, sizeof *out);
    out->active = !s->off[k];
    if (!out->active)
        return;
    const int first = sec->first, last = sec->first + sec->count - 1;
    end_force(out->force_a, s, state, sea, first, false);
    end_force(out->force_b, s, state, sea, last, true);
    double carried = take_bed(out->force_a, s, state, sea, sec, first, sec->a);
    carried += take_bed(out->force_b, s, state, sea, sec, last, sec->b);
    for (int e = first; e <= last; e++) {
        const double *xa = state->x + 3 * (size_t)net->elements[e].a;
        const double *xb = state->x + 3 * (size_t)net->elements[e].b;
        if (!s->out[e])
            out->stretched += hypot(hypot(xb[0] - xa[0], xb[1] - xa[1]), xb[2] - xa[2]);
        if (e < last)
            carried += state->bed[net->elements[e].b];
    }
    out->tension_a = bys_norm(out->force_a);
    out->tension_b = bys_norm(out->force_b);
    if (on_bed(sec, sea)) {
        const double *middle = state->x + 3 * (size_t)net->elements[(first + last) / 2].a;
        double n[3];
        bys_sea_bed_normal(n, sea, middle[0], middle[1]);
        out->grounded =
            fmin(sec->length, carried / ((sec->weight_dry - sec->buoyancy) * n[2]));
    }
}

/// Force of the structure on a held point; the bed's part under it is not the support's.
static void recover_reactions(bys_solver *s, bys_state *state, const bys_sea *sea)
{
    const bys_network *net = s->net;
    for (int i = 0; i < s->island->point_count; i++) {
        const int p = s->island->points[i];
        for (int c = 0; c < 3; c++)
            state->reaction[3 * (size_t)p + (size_t)c] =
                net->points[p].hold[c] || net->points[p].kind == BYS_POINT_FIXED
                    ? s->force[3 * (size_t)p + (size_t)c]
                    : 0.0;
    }
    for (int i = 0; i < s->island->element_count; i++) {
        const int k = s->island->elements[i];
        const bys_element *e = &net->elements[k];
        const bys_section *sec = &net->sections[e->section];
        if (s->out[k])
            continue;
        for (int end = 0; end < 2; end++) {
            const int p = end ? e->b : e->a;
            if (net->points[p].kind != BYS_POINT_FIXED)
                continue;
            double f[3], before[3];
            end_force(f, s, state, sea, k, end == 1);
            memcpy(before, f, sizeof before);
            state->bed[p] += take_bed(f, s, state, sea, sec, k, p);
            for (int c = 0; c < 3; c++)
                state->reaction[3 * (size_t)p + (size_t)c] += f[c] - before[c];
        }
    }
}

/// What the bed's grip on slack lines adds to the forces on free points.
static void recover_grip(bys_solver *s, bys_state *state)
{
    for (int i = 0; i < s->island->point_count; i++) {
        const int p = s->island->points[i], b = s->block_of_point[p];
        for (int c = 0; c < 3; c++)
            state->grip[3 * (size_t)p + (size_t)c] =
                b >= 0 && s->alive[p] && s->bed_stiffness[p] > 0.0 && !(s->held[b][c] > 0.0)
                    ? s->residual[3 * (size_t)b + (size_t)c] - s->force[3 * (size_t)p + (size_t)c]
                    : 0.0;
    }
}

static void recover_floats(bys_solver *s, bys_state *state, const bys_sea *sea)
{
    for (int i = 0; i < s->island->float_count; i++) {
        const int k = s->island->floats[i];
        const bys_float_set *set = &s->net->floats[k];
        const bys_float_part *p = &set->part->u.buoy;
        bys_float_set one = *set;
        bys_lump lump;
        one.count = 1.0;
        bys_float_eval(&lump, &one, state->x + 3 * (size_t)set->point, sea);
        const double tall = p->shape == BYS_FLOAT_BARREL_UPRIGHT ? p->length : p->diameter;
        const double z = state->x[3 * (size_t)set->point + 2] + p->strop + 0.5 * tall;
        const double kept =
            isfinite(sea->level) ? bys_volume_kept(sea->level - z, p->volume_loss, NULL) : 1.0;
        const double full = sea->rho * sea->gravity * p->volume * kept;
        const bool in = s->alive[set->point] && !s->float_out[k];
        const double up = lump.f[2] + p->mass * sea->gravity + set->growth_weight;
        state->submerged[k] = in && full > 0.0 ? up / full : 0.0;
        state->lift_left[k] = in ? full - up : 0.0;
    }
}

static void recover_gear(bys_solver *s, bys_state *state, const bys_sea *sea)
{
    for (int i = 0; i < s->island->gear_count; i++) {
        const int k = s->island->gears[i];
        const bys_gear_set *set = &s->net->gears[k];
        bys_gear_swing(set, state->x[3 * (size_t)set->point + 2], sea, &state->gear_swing[k],
                       &state->gear_low[k], &state->gear_drag[k]);
    }
}

void bys_recover(bys_solver *s, bys_state *state, const bys_sea *sea)
{
    s->mixed = false;
    s->barrier = BYS_BARRIER;
    bys_assemble(s, state, sea, false);
    for (int k = 0; k < s->net->section_count; k++)
        if (s->net->points[s->net->sections[k].a].island == s->index)
            recover_section(s, state, sea, k);
    recover_grip(s, state);
    recover_reactions(s, state, sea);
    recover_floats(s, state, sea);
    recover_gear(s, state, sea);
}
