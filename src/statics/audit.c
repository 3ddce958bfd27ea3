// SPDX-License-Identifier: GPL-3.0-or-later
// The residual of equilibrium once more, by code that shares nothing with the solver but the
// description of the network, the sea and the published relations of src/phys.
//
// Differences of method, so that a slip in one shows: drag from the angle between flow and element,
// loads per element summed over a list of wrenches, body moments about the world's origin, and the
// bed not as a spring but as a wall: where a point stands on or below it, whatever pushes the point
// into the bed is taken by the bed, provided that it pushes and that the point is not deep.
#include "num/vec3.h"
#include "phys/phys.h"
#include "statics/passage.h"
#include "phys/sea_loads.h"
#include "statics/state.h"

#include <stdlib.h>

static const double DEEPEST = 5e-3; // m that a point may stand in the bed

typedef struct {
    const bys_state *st;
    const bys_network *net;
    const bys_sea *sea;
    const bys_condition *cond;
    int island;
    double *F;            ///< 3 per point of the network
    unsigned char *live;  ///< per point
    double *pull;         ///< per point, N, largest tension that ends there
    double applied;       ///< N
} audit;

static const double *at(const audit *a, int p)
{
    return a->st->x + 3 * (size_t)p;
}

static void push(audit *a, int p, double fx, double fy, double fz)
{
    a->F[3 * p] += fx, a->F[3 * p + 1] += fy, a->F[3 * p + 2] += fz;
}

static void load(audit *a, int p, double fx, double fy, double fz)
{
    push(a, p, fx, fy, fz);
    a->applied += sqrt(fx * fx + fy * fy + fz * fz);
}

static bool holds(const int *list, int count, int item)
{
    for (int i = 0; i < count; i++)
        if (list[i] == item)
            return true;
    return false;
}

static bool taken_out(const audit *a, int element)
{
    const bys_condition *c = a->cond;
    return c && (holds(c->sections, c->section_count, a->net->elements[element].section) ||
                 holds(c->elements, c->element_count, element));
}

/// For the while of one load: the sea at its place (sea/train.c).
static const bys_sea *stand(audit *a, bys_sea *here, const double x[3], double dz)
{
    const bys_sea *whole = a->sea;
    if (whole->train) {
        *here = bys_sea_here(whole, x[0], x[1], x[2] + dz);
        a->sea = here;
    }
    return whole;
}

static void put_passage(void *user, int point, const double f[3])
{
    load(user, point, f[0], f[1], f[2]);
}

static bool float_gone(const audit *a, int set)
{
    return a->cond && holds(a->cond->floats, a->cond->float_count, set);
}

/// Ramp 3t^2 - 2t^3 from 0 at t = 0 to 1 at t = 1.
static double ramp(double t)
{
    t = fmin(1.0, fmax(0.0, t));
    return t * t * (3.0 - 2.0 * t);
}

static double wet_share(double z, double d, const bys_sea *sea)
{
    if (isinf(sea->level))
        return sea->level > 0.0;
    return ramp(0.5 + (sea->level - z) / fmax(0.05, 2.0 * d));
}

/// Mean square velocity with its sign, along the current, at z: the drag per 0.5 rho Cd A.
static double square(double U, double z, const bys_sea *sea)
{
    return bys_morison_mean(U, bys_sea_sigma(sea, z, NULL), NULL, NULL);
}

static void audit_drag(audit *a, const bys_section *s, int pa, int pb, double l, double L,
                       const double e[3])
{
    const bys_sea *sea = a->sea;
    const double z = 0.5 * (at(a, pa)[2] + at(a, pb)[2]);
    const double wet = wet_share(z, s->diameter, sea);
    const bys_flow flow = bys_sea_flow(sea, z, s->shelter);
    const double U = flow.U, cosine = (flow.c[0] * e[0] + flow.c[1] * e[1]) / L;
    const double sine = sqrt(fmax(0.0, 1.0 - cosine * cosine));
    const double area = 0.25 * sea->rho * wet * s->diameter * (s->drag_unstretched ? l : L); // half
    const double along = area * M_PI * s->cd_tangential * U * cosine * fabs(U * cosine);
    const double across =
        sine > 1e-12 ? area * s->cd_normal * square(U * sine, z, sea) / sine : 0.0;
    double f[3];
    for (int i = 0; i < 3; i++) {
        const double c = i < 2 ? flow.c[i] : 0.0;
        f[i] = across * (c - cosine * e[i] / L) + along * e[i] / L;
    }
    load(a, pa, f[0], f[1], f[2]);
    load(a, pb, f[0], f[1], f[2]);
}

/// Tension of a rope at a strain: a line, or on a curve by de Casteljau's construction between the
/// two points around it.
static double rope_tension(const bys_section *s, bool storm, double strain)
{
    const bys_stretch *law = storm && s->law[1].ea > 0.0 ? &s->law[1] : &s->law[0];
    const int n = law->count;
    if (n == 0)
        return (law->ea > 0.0 ? law->ea : s->stiffness) * strain;
    if (strain <= 0.0)
        return 0.0;
    int right = 1;
    while (right < n - 1 && strain > law->strain[right])
        right++;
    const double h = law->strain[right] - law->strain[right - 1];
    const double t = (strain - law->strain[right - 1]) / h;
    if (t > 1.0)
        return law->tension[right] + law->slope[right] * (strain - law->strain[right]);
    double p[4] = {law->tension[right - 1], law->tension[right - 1] + h * law->slope[right - 1] / 3,
                   law->tension[right] - h * law->slope[right] / 3, law->tension[right]};
    for (int level = 3; level > 0; level--)
        for (int i = 0; i < level; i++)
            p[i] += t * (p[i + 1] - p[i]);
    return p[0];
}

static void audit_elements(audit *a)
{
    for (int k = 0; k < a->net->element_count; k++) {
        const bys_element *el = &a->net->elements[k];
        const bys_section *s = &a->net->sections[el->section];
        if (a->net->points[el->a].island != a->island || taken_out(a, k))
            continue;
        const double *xa = at(a, el->a), *xb = at(a, el->b), l = el->length;
        const double e[3] = {xb[0] - xa[0], xb[1] - xa[1], xb[2] - xa[2]};
        const double L = bys_norm(e), T = fmax(0.0, rope_tension(s, a->sea->storm, L / l - 1.0));
        a->live[el->a] = a->live[el->b] = 1;
        a->pull[el->a] = fmax(a->pull[el->a], T), a->pull[el->b] = fmax(a->pull[el->b], T);
        push(a, el->a, T * e[0] / L, T * e[1] / L, T * e[2] / L);
        push(a, el->b, -T * e[0] / L, -T * e[1] / L, -T * e[2] / L);
        const double q = 0.5 * (s->load_stretched ? L : l);
        const double *ends[2] = {xa, xb};
        for (int i = 0; i < 2; i++) {
            const double rise =
                a->sea->train ? bys_sea_rise(a->sea, ends[i][0], ends[i][1]) : 0.0;
            const double wet = wet_share(ends[i][2] - rise, s->diameter, a->sea);
            const double up = s->buoyancy * wet - s->weight_dry;
            load(a, i ? el->b : el->a, q * s->load[0], q * s->load[1],
                 q * s->load[2] + 0.5 * l * up);
        }
        if (a->sea->train)
            bys_passage_audit_element(a->net, k, xa, xb, a->sea, put_passage, a);
        else if (s->diameter > 0.0 && s->cd_normal + s->cd_tangential > 0.0)
            audit_drag(a, s, el->a, el->b, l, L, e);
    }
}

/// Current and waves as vectors: the plane is turned so that the waves run along its first axis.
static void current_on(audit *a, int p, double cd_area, double z, int shelter)
{
    const bys_flow v = bys_sea_flow(a->sea, z, shelter);
    const double *w = a->sea->waves, f = 0.5 * a->sea->rho * cd_area;
    const double sine = v.c[1] * w[0] - v.c[0] * w[1], cosine = v.c[0] * w[0] + v.c[1] * w[1];
    if (fabs(sine) < 1e-9) {
        const double G = square(v.U, z, a->sea);
        load(a, p, f * G * v.c[0], f * G * v.c[1], 0.0);
        return;
    }
    const bys_viscous m =
        bys_viscous_mean(v.U * cosine, v.U * sine, bys_sea_sigma(a->sea, z, NULL));
    load(a, p, f * (m.f[0] * w[0] - m.f[1] * w[1]), f * (m.f[0] * w[1] + m.f[1] * w[0]), 0.0);
}

static void wind_on(audit *a, int p, double cs_area, double z)
{
    const double W = bys_sea_wind_at(a->sea, z), f = 0.5 * a->sea->rho_air * cs_area * W * W;
    load(a, p, f * a->sea->wind[0], f * a->sea->wind[1], 0.0);
}

/// CdA of a barrel at immersion h: side and end by phys/bodies.c.
static double barrel(const audit *a, const bys_float_set *set, double h)
{
    const bys_float_part *f = &set->part->u.buoy;
    const double z = a->sea->level, D = f->diameter;
    const double U = isfinite(z) ? bys_sea_flow(a->sea, z, set->shelter).U : 0.0;
    if (f->shape == BYS_FLOAT_BARREL_UPRIGHT) {
        const double wet = fmin(fmax(h, 0.0), f->length);
        const double wave = bys_float_wave_making(U / sqrt(BYS_G * D)) *
                            bys_wave_fade(h / f->length, NULL);
        return (1.2 * bys_cylinder_end_factor(f->length / D) + wave) * D * wet;
    }
    const double side = bys_barrel_cda(D, f->length, h, U, false);
    const double end = bys_barrel_cda(D, f->length, h, U, true);
    if (f->lies == BYS_LIES_ANY)
        return bys_barrel_cda(D, f->length, D, 0.0, false) >=
                       bys_barrel_cda(D, f->length, D, 0.0, true)
                   ? side
                   : end;
    const double turn =
        atan2(set->axis[1], set->axis[0]) - atan2(a->sea->current[1], a->sea->current[0]);
    return f->lies == BYS_LIES_ALONG ? side * fabs(sin(turn)) + end * fabs(cos(turn))
                                     : side * fabs(cos(turn)) + end * fabs(sin(turn));
}

static void audit_float(audit *a, const bys_float_set *set)
{
    const bys_float_part *f = &set->part->u.buoy;
    const bys_sea *sea = a->sea;
    const double bottom = at(a, set->point)[2] + f->strop, n = set->count;
    const double h = fmin(sea->level - bottom, 1e6);
    const bool upright = f->shape == BYS_FLOAT_BARREL_UPRIGHT, ball = f->shape == BYS_FLOAT_SPHERE;
    const double tall = upright ? f->length : f->diameter;
    double V = 0.0, A = 0.0, full;
    if (ball) {
        V = bys_volume_sphere(h, f->diameter, NULL), A = bys_area_sphere(h, f->diameter, NULL);
        full = bys_area_sphere(tall, f->diameter, NULL);
    } else if (upright) {
        V = bys_volume_upright(h, M_PI * f->diameter * f->diameter / 4.0, f->length, NULL);
        A = bys_area_upright(h, f->diameter, f->length, NULL);
        full = bys_area_upright(tall, f->diameter, f->length, NULL);
    } else {
        V = bys_volume_barrel_side(h, f->diameter, f->length, NULL);
        A = bys_area_barrel_side(h, f->diameter, f->length, NULL);
        full = bys_area_barrel_side(tall, f->diameter, f->length, NULL);
    }
    if (sea->level == -INFINITY)
        V = A = 0.0;
    if (isfinite(sea->level) && h > 0.5 * tall)
        V -= V * fmin(1.0, f->volume_loss * (h - 0.5 * tall));
    load(a, set->point, 0.0, 0.0,
         n * (sea->gravity * (sea->rho * V - f->mass) - set->growth_weight));
    if (h > 0.0)
        current_on(a, set->point,
                   n * (1.0 + set->growth_drag) * (f->barrel_law ? barrel(a, set, h) : f->cd * A),
                   bottom + 0.5 * fmin(h, tall), set->shelter);
    if (sea->wind_speed > 0.0 && h < tall)
        wind_on(a, set->point, n * f->cs * (full - A), bottom + 0.5 * (tall + fmax(0.0, h)));
}

/// Coefficients of gear along the flow and across it (to its left) at the height z.
static void facing(double *cd, double *cl, const bys_gear_set *set, double z, const bys_sea *sea)
{
    const bys_gear_part *g = &set->part->u.gear;
    const bool flat = (g->kind == BYS_GEAR_PANEL || g->kind == BYS_GEAR_NET) &&
                      g->orientation != BYS_ORIENT_FREE;
    const double turn = atan2(set->axis[1], set->axis[0]) - atan2(sea->current[1], sea->current[0]);
    bys_drag_law law = set->law;
    if (!set->lawful)
        law = (bys_drag_law){flat ? BYS_DRAG_PANEL : BYS_DRAG_OUTLINE, set->values->cd, g->edge_cd,
                             0.0, 0.0, 0.0, 0.0};
    // the normal, counted from the flow to its left, turned so that it looks down the flow
    double normal = turn + (g->orientation == BYS_ORIENT_ALONG ? M_PI / 2.0 : 0.0);
    const double face = flat ? fabs(cos(normal)) : 1.0, edge = flat ? fabs(sin(normal)) : 0.0;
    const bys_drag_now c = bys_drag_at(&law, face, edge, bys_sea_flow(sea, z, set->shelter).U,
                                       bys_sea_sigma(sea, z, NULL));
    const double relief = set->file_relief;
    const double left = relief > 0.0 ? bys_file_share(relief, fabs(cos(turn))) : 1.0;
    const double kept = (1.0 - set->swing_relief) * left;
    *cd = kept * c.cd;
    *cl = kept * c.cl * (sin(2.0 * normal) < 0.0 ? -1.0 : 1.0);
}

static void audit_gear(audit *a, const bys_gear_set *set)
{
    const bys_gear_part *g = &set->part->u.gear;
    const bys_gear_values *v = set->values;
    const double *x = at(a, set->point), tall = g->drop + v->height;
    double carried = 0.0;
    if (a->sea->has_bed && tall > 0.0)
        carried = ramp((bys_sea_bed_z(a->sea, x[0], x[1]) - x[2] + tall) / tall);
    const double weight = set->count * v->mass_in_water * a->sea->gravity;
    load(a, set->point, 0.0, 0.0, -weight * (1.0 - carried));
    if (!(v->height > 0.0))
        return;
    const double area = set->count * v->width * v->height, *c = a->sea->current;
    for (int i = -1; i <= 1; i++) { // Gauss-Legendre, three points
        const double z = x[2] - g->drop - v->height * (0.5 + 0.5 * i * sqrt(0.6));
        const double share = i == 0 ? 4.0 / 9.0 : 5.0 / 18.0;
        const double wet =
            isinf(a->sea->level) ? 1.0 : ramp(0.5 + (a->sea->level - z) / (0.05 * v->height));
        double cd, cl;
        facing(&cd, &cl, set, z, a->sea);
        current_on(a, set->point, cd * area * share * wet, z, set->shelter);
        if (cl != 0.0) {
            const double f = 0.5 * a->sea->rho * cl * area * share * wet *
                             square(bys_sea_flow(a->sea, z, set->shelter).U, z, a->sea);
            load(a, set->point, -f * c[1], f * c[0], 0.0);
        }
    }
}

/// Coefficient times width of a prism: ends with their friction, sides with the bed's effect.
static double hull_cd(const audit *a, const bys_prism *p, double ends, double sides)
{
    const double z = a->sea->level;
    double on_end = p->end_ratio > 0.0 ? p->end_ratio * p->cd : p->cd, on_side = p->cd;
    if (isinf(z))
        return ends * on_end + sides * on_side;
    if (p->draft > 0.0 && a->sea->depth > 0.0)
        on_side *= bys_hull_bed_factor(p->draft / a->sea->depth);
    if (p->friction > 0.0) {
        const double U = bys_sea_flow(a->sea, z, p->shelter).U, s = bys_sea_sigma(a->sea, z, NULL);
        on_end += p->friction * bys_ittc57(sqrt(U * U + s * s) * p->skin / BYS_NU);
    }
    return ends * on_end + sides * on_side;
}

static void audit_prism(audit *a, const bys_prism *p)
{
    const bys_sea *sea = a->sea;
    const double *x = at(a, p->point);
    const double *R = a->st->body_r + 9 * (size_t)a->net->points[p->point].body;
    const double h = sea->level - x[2];
    load(a, p->point, 0.0, 0.0,
         sea->rho * sea->gravity * bys_volume_upright(h, p->waterplane, p->height, NULL));
    const double ux[2] = {R[0], R[3]}, uy[2] = {R[1], R[4]};
    const double *d[2] = {sea->current, sea->wind};
    for (int k = 0; k < 2; k++) {
        const double ends = p->width_x * fabs(ux[0] * d[k][0] + ux[1] * d[k][1]);
        const double sides = p->width_y * fabs(uy[0] * d[k][0] + uy[1] * d[k][1]);
        const double w = ends + sides, A = bys_area_upright(h, w, p->height, NULL);
        if (k == 0 && A > 0.0)
            current_on(a, p->point, hull_cd(a, p, ends, sides) * fmin(h, p->height),
                       x[2] + 0.5 * fmin(h, p->height), p->shelter);
        if (k == 1 && sea->wind_speed > 0.0 && w * p->height > A)
            wind_on(a, p->point, p->cs * (w * p->height - A), x[2] + p->height);
    }
    const double wx = ux[0] * sea->waves[0] + ux[1] * sea->waves[1];
    const double wy = uy[0] * sea->waves[0] + uy[1] * sea->waves[1];
    const double rx = bys_sea_reflected(sea, p->hull_draft, p->breadth_x);
    const double ry = bys_sea_reflected(sea, p->hull_draft, p->breadth_y);
    double slope;
    const double fx = sea->reflection * p->reflect_x * rx * bys_sea_facing(sea, wx, &slope);
    const double fy = sea->reflection * p->reflect_y * ry * bys_sea_facing(sea, wy, &slope);
    load(a, p->point, fx * ux[0] + fy * uy[0], fx * ux[1] + fy * uy[1], 0.0);
    if (!(sea->splash > 0.0))
        return;
    const double open_x = p->width_x * fabs(wx) * (p->reflect_x > 0.0 ? 1.0 - rx : 1.0);
    const double open_y = p->width_y * fabs(wy) * (p->reflect_y > 0.0 ? 1.0 - ry : 1.0);
    const double pierced = ramp(2.0 * h / sea->hs) * ramp(2.0 * (p->height - h) / sea->hs);
    const double s = sea->splash * p->cd * (open_x + open_y) * pierced;
    load(a, p->point, s * sea->waves[0], s * sea->waves[1], 0.0);
}

/// One thing at its place; in a wave train with its inertia.
static void float_here(audit *a, const bys_float_set *set)
{
    bys_sea here;
    const bys_sea *whole = stand(a, &here, at(a, set->point), set->part->u.buoy.strop);
    audit_float(a, set);
    a->sea = whole;
    if (whole->train)
        bys_passage_audit_float(set, at(a, set->point), whole, put_passage, a);
}

static void gear_here(audit *a, const bys_gear_set *set)
{
    bys_sea here;
    const double middle = set->part->u.gear.drop + 0.5 * set->values->height;
    const bys_sea *whole = stand(a, &here, at(a, set->point), -middle);
    audit_gear(a, set);
    a->sea = whole;
    if (whole->train)
        bys_passage_audit_gear(set, at(a, set->point), whole, put_passage, a);
}

static void prism_here(audit *a, const bys_prism *prism)
{
    bys_sea here;
    const bys_sea *whole = stand(a, &here, at(a, prism->point), 0.0);
    audit_prism(a, prism);
    a->sea = whole;
    if (whole->train)
        bys_passage_audit_prism(prism, at(a, prism->point), whole, put_passage, a);
}

static void audit_lumps(audit *a)
{
    const bys_network *net = a->net;
    for (int p = 0; p < net->point_count; p++) {
        const bys_point *q = &net->points[p];
        if (q->island != a->island || !a->live[p])
            continue;
        load(a, p, q->load[0], q->load[1], q->load[2] - q->weight);
        bys_sea here;
        const bys_sea *whole = stand(a, &here, at(a, p), 0.0);
        if (q->drag_area > 0.0 && at(a, p)[2] < a->sea->level)
            current_on(a, p, q->drag_area, at(a, p)[2], 0);
        a->sea = whole;
    }
    for (int i = 0; a->cond && i < a->cond->load_count; i++) {
        const bys_point_load *l = &a->cond->loads[i];
        if (net->points[l->point].island == a->island && a->live[l->point])
            load(a, l->point, l->force[0], l->force[1], l->force[2]);
    }
    for (int i = 0; i < net->float_count; i++)
        if (net->points[net->floats[i].point].island == a->island &&
            a->live[net->floats[i].point] && !float_gone(a, i))
            float_here(a, &net->floats[i]);
    for (int i = 0; i < net->gear_count; i++)
        if (net->points[net->gears[i].point].island == a->island && a->live[net->gears[i].point])
            gear_here(a, &net->gears[i]);
    for (int i = 0; i < net->prism_count; i++)
        if (net->points[net->prisms[i].point].island == a->island)
            prism_here(a, &net->prisms[i]);
    for (int b = 0; b < net->body_count; b++) {
        if (net->bodies[b].island != a->island)
            continue;
        load(a, net->bodies[b].cg_point, 0.0, 0.0, -net->bodies[b].mass * a->sea->gravity);
        const int w = net->bodies[b].wind_point;
        if (w >= 0 && net->bodies[b].wind_area > 0.0)
            wind_on(a, w, net->bodies[b].wind_cs * net->bodies[b].wind_area, at(a, w)[2]);
    }
}

/// Height over the bed along its normal n. On an uneven bed n comes from differences of its height,
/// apart from the solver's derivatives.
static double over_bed(double n[3], const bys_sea *sea, const double x[3])
{
    static const double h = 1e-4; // m
    if (!sea->map) {
        const double d[3] = {x[0] - sea->bed_point[0], x[1] - sea->bed_point[1],
                             x[2] - sea->bed_point[2]};
        memcpy(n, sea->bed_normal, 3 * sizeof *n);
        return bys_dot(d, n);
    }
    n[0] = (bys_sea_bed_z(sea, x[0] - h, x[1]) - bys_sea_bed_z(sea, x[0] + h, x[1])) / (2.0 * h);
    n[1] = (bys_sea_bed_z(sea, x[0], x[1] - h) - bys_sea_bed_z(sea, x[0], x[1] + h)) / (2.0 * h);
    n[2] = 1.0;
    const double size = bys_norm(n);
    for (int i = 0; i < 3; i++)
        n[i] /= size;
    return (x[2] - bys_sea_bed_z(sea, x[0], x[1])) * n[2];
}

/// The bed holds a point against the way that it has gone since it was laid, up to its bound; what
/// pushes the other way it does not hold.
static void audit_friction(const audit *a, int p, double f[3])
{
    double gone[3];
    for (int i = 0; i < 3; i++)
        gone[i] = at(a, p)[i] - a->cond->laid[3 * p + i];
    const double side = bys_norm(f), most = a->cond->friction[p];
    if (!(side > 0.0) || bys_dot(gone, f) < 0.0)
        return;
    for (int c = 0; c < 3; c++)
        f[c] *= side > most ? 1.0 - most / side : 0.0;
}

/// The bed takes what pushes a point into it, and holds a slack line where it lies.
static void audit_bed(audit *a, int p)
{
    if (!a->sea->has_bed)
        return;
    double *f = a->F + 3 * (size_t)p, n[3];
    const double gap = over_bed(n, a->sea, at(a, p)), press = -bys_dot(f, n);
    if (!(gap < 0.0 && gap > -DEEPEST && press > 0.0))
        return;
    bys_axpy(f, press, n);
    if (a->cond && a->cond->friction) {
        audit_friction(a, p, f);
        return;
    }
    // slack and lying: the bed also takes a small sideways push
    const double grip = BYS_SLACK_GRIP * press, side = bys_norm(f);
    const double most = grip / (1.0 + a->pull[p] * a->pull[p] / (grip * grip));
    for (int c = 0; c < 3 && side > 0.0; c++)
        f[c] *= fmax(0.0, 1.0 - most / side);
}

static void take(bys_audit *out, double sum[3], const double f[3], int point)
{
    const double r = bys_norm(f);
    bys_axpy(sum, 1.0, f);
    if (r > out->worst_N || isnan(r))
        out->worst_N = r, out->worst_point = point;
}

static void audit_points(audit *a, bys_audit *out, double sum[3])
{
    for (int p = 0; p < a->net->point_count; p++) {
        const bys_point *q = &a->net->points[p];
        if (q->island != a->island || q->kind != BYS_POINT_FREE || !a->live[p])
            continue;
        for (int c = 0; c < 3; c++)
            if (q->hold[c])
                a->F[3 * p + c] = 0.0;
        audit_bed(a, p);
        take(out, sum, a->F + 3 * (size_t)p, p);
    }
}

/// Force and moment of each body; the moment (about its own origin) counts per metre of lever.
static void audit_bodies(audit *a, bys_audit *out, double sum[3])
{
    for (int b = 0; b < a->net->body_count; b++) {
        const bys_body *body = &a->net->bodies[b];
        if (body->island != a->island)
            continue;
        double F[3] = {0, 0, 0}, M[3] = {0, 0, 0}, origin[3];
        for (int k = 0; k < body->point_count; k++) {
            double m[3];
            bys_cross(m, at(a, body->points[k]), a->F + 3 * (size_t)body->points[k]);
            bys_axpy(F, 1.0, a->F + 3 * (size_t)body->points[k]);
            bys_axpy(M, 1.0, m);
        }
        bys_cross(origin, a->st->body_x + 3 * (size_t)b, F);
        bys_axpy(M, -1.0, origin);
        take(out, sum, F, body->points[0]);
        if (bys_norm(M) > out->worst_N)
            out->worst_N = bys_norm(M), out->worst_point = body->points[0];
    }
}

void bys_audit_island(bys_audit *out, const bys_state *state, const bys_sea *sea,
                      const bys_condition *condition, int island)
{
    audit a = {.st = state, .net = state->net, .sea = sea, .cond = condition, .island = island};
    double sum[3] = {0, 0, 0};
    *out = (bys_audit){0.0, -1, 0.0, 0.0};
    a.F = calloc(3 * (size_t)a.net->point_count + 1, sizeof *a.F);
    a.live = calloc((size_t)a.net->point_count + 1, 1);
    a.pull = calloc((size_t)a.net->point_count + 1, sizeof *a.pull);
    if (!a.F || !a.live || !a.pull) {
        out->worst_N = out->sum_N = INFINITY; // cannot vouch for it
    } else {
        audit_elements(&a);
        for (int p = 0; p < a.net->point_count; p++)
            if (a.net->points[p].kind == BYS_POINT_BODY)
                a.live[p] = 1;
        audit_lumps(&a);
        audit_points(&a, out, sum);
        audit_bodies(&a, out, sum);
        out->sum_N = bys_norm(sum);
        out->applied_N = a.applied;
    }
    free(a.F);
    free(a.live);
    free(a.pull);
}
