// SPDX-License-Identifier: GPL-3.0-or-later
// Loads in a regular wave that is frozen at one phase: drag in current and orbital velocity together,
// inertia, and the surface where the thing is.
//
// GIVEN     thing and place as in element.c and lumps.c; a sea with a wave train
// RETURNED  force (N) and its change with the place, by differences over 1 um: in plan everything
//           changes along the wave only (the bed's slope under gear that rests on it is left out)
// NOTES     1. Morison: 0.5 rho Cd A |w| w with w = current + orbital velocity, and
//              rho V (1 + Ca) dw/dt on the volume under the surface there; the thing is held still.
//           2. Lines: cross-flow principle with all three components of w; inertia rho V of the
//              displaced water along, with Ca = 1 across. Floats, gear, rafts: drag by the laws of
//              lumps.c with the horizontal part of w.
//           3. Ca: 0.5 sphere, 1 barrel and raft section. Gear: of its outline, as if solid: a flat
//              plate pi/4 rho w^2 a metre where it is a panel or net, else a cylinder with Cm = 2: an
//              upper bound for open gear.
//           4. Left out: the thing's own motion (dynamics, snap), slamming, scattering, vertical drag
//              on floats, gear and rafts.
// SOURCE    Morison et al., Trans. AIME 189 (1950) 149 [memory]; Ca: DNV-RP-C205 App. D [memory];
//           note 3 for gear: own bound. [derived]
#include "num/vec3.h"
#include "statics/passage.h"
#include "statics/solver.h"

#include <math.h>

static const double h = 1e-6; // m

double bys_passage_added(bys_float_shape shape)
{
    return shape == BYS_FLOAT_SPHERE ? 0.5 : 1.0;
}

double bys_passage_gear_mass(const bys_gear_set *set)
{
    const bys_gear_kind kind = set->part->u.gear.kind;
    const double w = set->values->width, all = 0.25 * M_PI * w * w * set->values->height;
    return kind == BYS_GEAR_PANEL || kind == BYS_GEAR_NET ? all : 2.0 * all;
}

// ---- differences ------------------------------------------------------------------------------

typedef struct {
    const void *thing;
    const bys_sea *sea;
    const double *R; ///< attitude of the body, for prisms
} subject;
typedef void (*force_fn)(double f[3], const subject *s, const double x[3]);

static void by_differences(bys_lump *out, force_fn force, const subject *s, const double x[3])
{
    const double *way = s->sea->train->way;
    const double along[3] = {x[0] + h * way[0], x[1] + h * way[1], x[2]};
    const double above[3] = {x[0], x[1], x[2] + h};
    double a[3], b[3];
    force(out->f, s, x);
    force(a, s, along);
    force(b, s, above);
    for (int i = 0; i < 3; i++) {
        const double slope = (a[i] - out->f[i]) / h;
        out->J[3 * i] = slope * way[0];
        out->J[3 * i + 1] = slope * way[1];
        out->J[3 * i + 2] = (b[i] - out->f[i]) / h;
    }
}

/// f += mass (kg of water that counts) times the acceleration at a height.
static void inertia(double f[3], double mass, const bys_sea *here, double z)
{
    double v[3], a[3];
    bys_sea_motion(v, a, here, here->at[0], here->at[1], z);
    bys_axpy(f, mass, a);
}

// ---- lumps --------------------------------------------------------------------------------------

static void float_force(double f[3], const subject *s, const double x[3])
{
    const bys_float_set *set = s->thing;
    const bys_float_part *p = &set->part->u.buoy;
    const double bottom = x[2] + p->strop;
    const bys_sea here = bys_sea_here(s->sea, x[0], x[1], bottom);
    const double tall = p->shape == BYS_FLOAT_BARREL_UPRIGHT ? p->length : p->diameter;
    const double wet = fmin(fmax(here.level - bottom, 0.0), tall);
    bys_lump lump;
    bys_float_eval(&lump, set, x, &here);
    memcpy(f, lump.f, sizeof lump.f);
    const double mass = f[2] / here.gravity + set->count * p->mass; // of the water displaced
    inertia(f, (1.0 + bys_passage_added(p->shape)) * mass, &here, bottom + 0.5 * wet);
}

static void gear_force(double f[3], const subject *s, const double x[3])
{
    const bys_gear_set *set = s->thing;
    const double tall = set->values->height, top = x[2] - set->part->u.gear.drop;
    const bys_sea here = bys_sea_here(s->sea, x[0], x[1], top - 0.5 * tall);
    bys_lump lump;
    bys_gear_eval(&lump, set, x, &here);
    memcpy(f, lump.f, sizeof lump.f);
    if (!(tall > 0.0))
        return;
    const double wet = fmin(fmax(here.level - top + tall, 0.0), tall);
    double side[3] = {0, 0, 0};
    inertia(side, here.rho * set->count * bys_passage_gear_mass(set) * wet / tall, &here,
            top - tall + 0.5 * wet);
    f[0] += side[0], f[1] += side[1];
}

static void prism_force(double f[3], const subject *s, const double x[3])
{
    const bys_prism *p = s->thing;
    const bys_sea here = bys_sea_here(s->sea, x[0], x[1], x[2]);
    const double wet = fmin(fmax(here.level - x[2], 0.0), p->height);
    bys_lump lump;
    double turn[9];
    bys_prism_eval(&lump, turn, p, x, s->R, &here);
    memcpy(f, lump.f, sizeof lump.f);
    inertia(f, 2.0 * here.rho * p->waterplane * wet, &here, x[2] + 0.5 * wet);
}

static void point_force(double f[3], const subject *s, const double x[3])
{
    const bys_sea here = bys_sea_here(s->sea, x[0], x[1], x[2]);
    bys_lump lump;
    bys_point_eval(&lump, s->thing, x, &here);
    memcpy(f, lump.f, sizeof lump.f);
}

void bys_passage_float(bys_lump *out, const bys_float_set *set, const double x[3],
                       const bys_sea *sea)
{
    by_differences(out, float_force, &(subject){set, sea, NULL}, x);
}

void bys_passage_gear(bys_lump *out, const bys_gear_set *set, const double x[3], const bys_sea *sea)
{
    by_differences(out, gear_force, &(subject){set, sea, NULL}, x);
}

void bys_passage_prism(bys_lump *out, double turn[9], const bys_prism *prism, const double x[3],
                       const double R[9], const bys_sea *sea)
{
    const bys_sea here = bys_sea_here(sea, x[0], x[1], x[2]);
    bys_lump lump;
    by_differences(out, prism_force, &(subject){prism, sea, R}, x);
    bys_prism_eval(&lump, turn, prism, x, R, &here);
}

void bys_passage_point(bys_lump *out, const bys_point *point, const double x[3], const bys_sea *sea)
{
    by_differences(out, point_force, &(subject){point, sea, NULL}, x);
}

// ---- lines --------------------------------------------------------------------------------------

/// Share that is wetted, as in element.c.
static double wetted(double z, double diameter, const bys_sea *here)
{
    const double t = (here->level - z) / fmax(2.0 * diameter, 0.05) + 0.5;
    return t <= 0.0 ? 0.0 : t >= 1.0 ? 1.0 : t * t * (3.0 - 2.0 * t);
}

/// Drag and inertia of half an element whose middle is at m and whose ends are e apart.
static void half_force(double f[3], const bys_section *sec, double l, const double m[3],
                       const double e[3], const bys_sea *sea)
{
    const double L = bys_norm(e), t[3] = {e[0] / L, e[1] / L, e[2] / L};
    const bys_sea here = bys_sea_here(sea, m[0], m[1], m[2]);
    const double wet = wetted(m[2], sec->diameter, &here);
    f[0] = f[1] = f[2] = 0.0;
    if (wet == 0.0)
        return;
    const bys_flow flow = bys_sea_flow(&here, m[2], sec->shelter);
    double v[3], a[3];
    bys_sea_motion(v, a, &here, m[0], m[1], m[2]);
    const double w[3] = {flow.U * flow.c[0], flow.U * flow.c[1], v[2]};
    const double along = bys_dot(w, t), still = bys_dot(a, t);
    double across[3], turned[3];
    for (int c = 0; c < 3; c++) {
        across[c] = w[c] - along * t[c];
        turned[c] = a[c] - still * t[c];
    }
    const double s = sec->drag_unstretched ? l : L;
    const double k = 0.25 * here.rho * sec->diameter * s * wet;
    const double water = 0.5 * l * sec->buoyancy / here.gravity * wet; // kg, displaced
    bys_axpy(f, k * sec->cd_normal * bys_norm(across), across);
    bys_axpy(f, k * M_PI * sec->cd_tangential * fabs(along) * along, t);
    bys_axpy(f, water, a);
    bys_axpy(f, water, turned);
}

void bys_passage_element(bys_element_force *out, const bys_section *section, double l,
                         const double xa[3], const double xb[3], const bys_sea *sea)
{
    const double *way = sea->train->way;
    double m[3], e[3], f[3], g[3];
    if (!(section->diameter > 0.0))
        return;
    for (int c = 0; c < 3; c++) {
        m[c] = 0.5 * (xa[c] + xb[c]);
        e[c] = out->direction[c] * out->L;
    }
    half_force(f, section, l, m, e, sea);
    bys_axpy(out->half, 1.0, f);
    const double along[3] = {m[0] + h * way[0], m[1] + h * way[1], m[2]};
    half_force(g, section, l, along, e, sea);
    for (int i = 0; i < 3; i++) {
        out->Hx[i] += (g[i] - f[i]) / h * way[0];
        out->Hy[i] += (g[i] - f[i]) / h * way[1];
    }
    const double above[3] = {m[0], m[1], m[2] + h};
    half_force(g, section, l, above, e, sea);
    for (int i = 0; i < 3; i++)
        out->Hz[i] += (g[i] - f[i]) / h;
    for (int c = 0; c < 3; c++) {
        double turned[3] = {e[0], e[1], e[2]};
        turned[c] += h;
        half_force(g, section, l, m, turned, sea);
        for (int i = 0; i < 3; i++)
            out->He[3 * i + c] += (g[i] - f[i]) / h;
    }
}
