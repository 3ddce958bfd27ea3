// SPDX-License-Identifier: GPL-3.0-or-later
// The audit's own account of a wave train: drag of lines from the angle between flow and line, inertia
// from the volume under the surface. Shares only the wave's motion (sea/train.c) with the solver.
#include "num/vec3.h"
#include "phys/phys.h"
#include "statics/passage.h"

#include <math.h>

typedef struct { double w[3], a[3], level; } water;

/// Velocity of current and wave, acceleration and surface at a place.
static water water_at(const bys_sea *sea, double x, double y, double z, int shelter)
{
    water out;
    const bys_sea here = bys_sea_here(sea, x, y, z);
    const bys_flow flow = bys_sea_flow(&here, z, shelter);
    bys_sea_motion(out.w, out.a, sea, x, y, z);
    out.w[0] = flow.U * flow.c[0];
    out.w[1] = flow.U * flow.c[1];
    out.level = sea->level + bys_sea_rise(sea, x, y);
    return out;
}

/// Size of the part of v across the unit vector e, by the cross product.
static double across(const double v[3], const double e[3])
{
    double c[3];
    bys_cross(c, e, v);
    return bys_norm(c);
}

void bys_passage_audit_element(const bys_network *net, int element, const double xa[3],
                               const double xb[3], const bys_sea *sea, bys_passage_load load,
                               void *user)
{
    const bys_element *el = &net->elements[element];
    const bys_section *s = &net->sections[el->section];
    double e[3], f[3];
    for (int c = 0; c < 3; c++)
        e[c] = xb[c] - xa[c];
    const double L = bys_norm(e), z = 0.5 * (xa[2] + xb[2]);
    for (int c = 0; c < 3; c++)
        e[c] /= L;
    const water q = water_at(sea, 0.5 * (xa[0] + xb[0]), 0.5 * (xa[1] + xb[1]), z, s->shelter);
    const double ramp = fmin(1.0, fmax(0.0, 0.5 + (q.level - z) / fmax(0.05, 2.0 * s->diameter)));
    const double wet = ramp * ramp * (3.0 - 2.0 * ramp);
    if (!(s->diameter > 0.0) || wet == 0.0)
        return;
    const double counted = s->drag_unstretched ? el->length : L;
    const double area = 0.25 * sea->rho * wet * s->diameter * counted;
    const double we = bys_dot(q.w, e), ae = bys_dot(q.a, e), wn = across(q.w, e);
    const double disc = wet * el->length * s->buoyancy / (2.0 * sea->gravity);
    for (int c = 0; c < 3; c++)
        f[c] = area * (s->cd_normal * wn * (q.w[c] - we * e[c]) +
                       M_PI * s->cd_tangential * we * fabs(we) * e[c]) +
               disc * (2.0 * q.a[c] - ae * e[c]);
    load(user, el->a, f);
    load(user, el->b, f);
}

static void add_inertia(double mass, const bys_sea *sea, const double x[3], double z, bool level,
                        bys_passage_load load, void *user, int point)
{
    double v[3], a[3];
    bys_sea_motion(v, a, sea, x[0], x[1], z);
    const double f[3] = {mass * a[0], mass * a[1], level ? 0.0 : mass * a[2]};
    load(user, point, f);
}

void bys_passage_audit_float(const bys_float_set *set, const double x[3], const bys_sea *sea,
                             bys_passage_load load, void *user)
{
    const bys_float_part *p = &set->part->u.buoy;
    const double bottom = x[2] + p->strop, D = p->diameter;
    const double deep = sea->level + bys_sea_rise(sea, x[0], x[1]) - bottom;
    const bool upright = p->shape == BYS_FLOAT_BARREL_UPRIGHT;
    const double tall = upright ? p->length : D, wet = fmin(fmax(deep, 0.0), tall);
    double V = p->shape == BYS_FLOAT_SPHERE ? bys_volume_sphere(deep, D, NULL)
               : upright ? bys_volume_upright(deep, M_PI * D * D / 4.0, p->length, NULL)
                         : bys_volume_barrel_side(deep, D, p->length, NULL);
    if (deep > 0.5 * tall)
        V -= V * fmin(1.0, p->volume_loss * (deep - 0.5 * tall));
    add_inertia(sea->rho * set->count * V * (1.0 + bys_passage_added(p->shape)), sea, x,
                bottom + 0.5 * wet, false, load, user, set->point);
}

void bys_passage_audit_gear(const bys_gear_set *set, const double x[3], const bys_sea *sea,
                            bys_passage_load load, void *user)
{
    const double tall = set->values->height, foot = x[2] - set->part->u.gear.drop - tall;
    const double deep = sea->level + bys_sea_rise(sea, x[0], x[1]) - foot;
    const double wet = fmin(tall, fmax(0.0, deep));
    if (tall > 0.0)
        add_inertia(sea->rho * set->count * bys_passage_gear_mass(set) * wet / tall, sea, x,
                    foot + 0.5 * wet, true, load, user, set->point);
}

void bys_passage_audit_prism(const bys_prism *prism, const double x[3], const bys_sea *sea,
                             bys_passage_load load, void *user)
{
    const double deep = sea->level + bys_sea_rise(sea, x[0], x[1]) - x[2];
    const double wet = fmin(prism->height, fmax(0.0, deep));
    add_inertia(2.0 * sea->rho * prism->waterplane * wet, sea, x, x[2] + 0.5 * wet, false, load,
                user, prism->point);
}
