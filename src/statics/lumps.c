// SPDX-License-Identifier: GPL-3.0-or-later
// Loads that act at one point: floats, hanging gear, raft prisms, given loads, the seabed.
// Each returns its force (N) and the exact change with the point's position (N/m).
//
// NOTES
//   1. A float hangs its point from its lowest part: bottom = point + strop. Buoyancy is exact in the
//      immersion (phys/buoyancy.c); current acts on the wetted and wind on the dry projected area.
//   2. Gear loads are upright (no credit for swing); the drag is the three-point Gauss mean over its
//      height; what stands above the water or below the bed catches nothing. Gear that reaches the bed
//      gives its weight up over its own height.
//   3. Panels turned to the flow by the angle a between flow and panel normal: Cd |cos a| +
//      Cd_edge |sin a| on the gross face [own bound: neither part is reduced].
//   4. Drag is the mean of the square of current and orbital velocity as vectors (sea/flow.c): where
//      waves come at an angle to the current it has a part along each.
//   5. The bed pushes along its normal with a one-sided spring that holds the resting weight at a
//      penetration of half a millimetre; no friction (design equilibria).
#include "num/vec3.h"
#include "phys/phys.h"
#include "phys/sea_loads.h"
#include "statics/solver.h"

static const bys_sea *air(const bys_sea *sea)
{
    return sea->level == -INFINITY ? sea : NULL;
}

/// Drag of current and waves on area A(m2, Cd included) at height z: adds force and its change.
static void drag_on(bys_lump *out, double area, double darea_dz, double z, double dz, int shelter,
                    const bys_sea *sea)
{
    const bys_sea_square q = bys_sea_square_at(sea, z, shelter);
    const double h = 0.5 * sea->rho;
    for (int k = 0; k < q.count; k++) {
        const double f = h * area * q.size[k];
        const double df = h * (darea_dz * q.size[k] + area * q.slope[k] * dz);
        for (int i = 0; i < 2; i++) {
            out->f[i] += f * q.way[k][i];
            out->J[3 * i + 2] += df * q.way[k][i];
        }
    }
}

/// Change of the wind speed with height, by central difference (the law is smooth above 1 m).
static double wind_slope(const bys_sea *sea, double z)
{
    const double h = 1e-4;
    return (bys_sea_wind_at(sea, z + h) - bys_sea_wind_at(sea, z - h)) / (2.0 * h);
}

/// Wind on area A (m2) with shape coefficient cs, its centre at z; dz: change of z with the point's.
static void wind_on(bys_lump *out, double area, double darea_dz, double cs, double z, double dz,
                    const bys_sea *sea)
{
    const double W = bys_sea_wind_at(sea, z), h = 0.5 * sea->rho_air * cs;
    const double change = darea_dz * W * W + 2.0 * area * W * wind_slope(sea, z) * dz;
    for (int i = 0; i < 2; i++) {
        out->f[i] += h * area * W * W * sea->wind[i];
        out->J[3 * i + 2] += h * change * sea->wind[i];
    }
}

void bys_wind_eval(bys_lump *out, double area, double cs, double z, const bys_sea *sea)
{
    memset(out, 0, sizeof *out);
    wind_on(out, area, 0.0, cs, z, 1.0, sea);
}

/// Volume, projected area and height of a float at an immersion.
static double float_volume(const bys_float_part *p, double immersion, double *dV, double *area,
                           double *dA, double *height)
{
    switch (p->shape) {
    case BYS_FLOAT_SPHERE:
        *height = p->diameter;
        *area = bys_area_sphere(immersion, p->diameter, dA);
        return bys_volume_sphere(immersion, p->diameter, dV);
    case BYS_FLOAT_BARREL_SIDE:
        *height = p->diameter;
        *area = bys_area_barrel_side(immersion, p->diameter, p->length, dA);
        return bys_volume_barrel_side(immersion, p->diameter, p->length, dV);
    case BYS_FLOAT_BARREL_UPRIGHT:
        break;
    }
    *height = p->length;
    *area = bys_area_upright(immersion, p->diameter, p->length, dA);
    return bys_volume_upright(immersion, 0.25 * M_PI * p->diameter * p->diameter, p->length, dV);
}

/// CdA (m2) of a barrel by its record: its side, its end, or by how it lies between them (neither
/// reduced); finite length, and wave making while it pierces the surface. d: over the immersion.
static double barrel_in_sea(const bys_float_set *set, double immersion, const bys_sea *sea,
                            double *d)
{
    const bys_float_part *p = &set->part->u.buoy;
    const bool upright = p->shape == BYS_FLOAT_BARREL_UPRIGHT;
    const double height = upright ? p->length : p->diameter;
    const double U = isinf(sea->level) ? 0.0 : bys_sea_flow(sea, sea->level, set->shelter).U;
    double dside, dend, dfade;
    const double fade = bys_wave_fade(immersion / height, &dfade);
    const double making = bys_float_wave_making(U / sqrt(BYS_G * p->diameter));
    const double wave = making * fade, dwave = making * dfade / height;
    const double face = 1.2 * bys_cylinder_end_factor(p->length / p->diameter), end = 0.9;
    const double side = upright
                            ? bys_area_upright(immersion, p->diameter, p->length, &dside)
                            : bys_area_barrel_side(immersion, p->diameter, p->length, &dside);
    if (upright) {
        *d = (face + wave) * dside + dwave * side;
        return (face + wave) * side;
    }
    const double disc = bys_volume_barrel_side(immersion, p->diameter, 1.0, &dend);
    double s = 1.0, e = 0.0; // shares of side and end
    if (p->lies == BYS_LIES_ANY) {
        s = face * p->length >= end * 0.25 * BYS_PI * p->diameter;
        e = 1.0 - s;
    } else {
        const double c = fmin(1.0, fabs(set->axis[0] * sea->current[0] +
                                        set->axis[1] * sea->current[1]));
        e = p->lies == BYS_LIES_ALONG ? c : sqrt(1.0 - c * c);
        s = p->lies == BYS_LIES_ALONG ? sqrt(1.0 - c * c) : c;
    }
    *d = s * ((face + wave) * dside + dwave * side) + e * ((end + wave) * dend + dwave * disc);
    return s * (face + wave) * side + e * (end + wave) * disc;
}

void bys_float_eval(bys_lump *out, const bys_float_set *set, const double x[3], const bys_sea *sea)
{
    if (sea->train && !sea->here) {
        bys_passage_float(out, set, x, sea);
        return;
    }
    const bys_float_part *p = &set->part->u.buoy;
    memset(out, 0, sizeof *out);
    const double bottom = x[2] + p->strop, immersion = fmin(sea->level - bottom, 1e6);
    double dV, area, dA, height;
    double V = air(sea) ? (dV = area = dA = height = 0.0)
                        : float_volume(p, immersion, &dV, &area, &dA, &height);
    if (p->volume_loss > 0.0 && isfinite(sea->level)) {
        double dkept;
        const double kept = bys_volume_kept(immersion - 0.5 * height, p->volume_loss, &dkept);
        dV = dV * kept + V * dkept;
        V *= kept;
    }
    out->f[2] = sea->rho * sea->gravity * V - p->mass * sea->gravity - set->growth_weight;
    out->J[8] = -sea->rho * sea->gravity * dV;
    if (immersion > 0.0) {
        const double wet = fmin(immersion, height);
        double dcda = p->cd * dA, cda = p->cd * area;
        if (p->barrel_law)
            cda = barrel_in_sea(set, immersion, sea, &dcda);
        cda *= 1.0 + set->growth_drag, dcda *= 1.0 + set->growth_drag;
        drag_on(out, cda, -dcda, bottom + 0.5 * wet, immersion < height ? 0.5 : 1.0, set->shelter,
                sea);
    }
    double dFull, full;
    float_volume(p, height, &dV, &full, &dFull, &height);
    if (sea->wind_speed > 0.0 && immersion < height)
        wind_on(out, full - area, dA, p->cs, bottom + 0.5 * (height + fmax(immersion, 0.0)),
                immersion > 0.0 ? 0.5 : 1.0, sea);
    for (int i = 0; i < 3; i++)
        out->f[i] *= set->count;
    for (int i = 0; i < 9; i++)
        out->J[i] *= set->count;
}

double bys_float_guard(const bys_float_set *set, double z, const bys_sea *sea)
{
    const bys_float_part *p = &set->part->u.buoy;
    if (isinf(sea->level))
        return 0.0;
    const double height = p->shape == BYS_FLOAT_BARREL_UPRIGHT ? p->length : p->diameter;
    const double immersion = sea->level - z - p->strop;
    const double away = immersion > 0.0 ? fmax(0.0, immersion - height) : -immersion;
    const double k = 0.5 * sea->rho * sea->gravity * p->volume / height;
    return set->count * k / (1.0 + away * away / (height * height));
}

/// How the current meets a piece of gear in this environment.
typedef struct {
    bys_drag_law law;
    double cosine, sine;   ///< of the angle between the flow and the normal of its face
    double lift[2];        ///< unit vector across the flow towards the normal's side
    double share;          ///< of its drag that is left by shelter in file
} gear_sight;

static gear_sight sight_of(const bys_gear_set *set, const bys_sea *sea)
{
    const bys_gear_part *p = &set->part->u.gear;
    const bool flat = (p->kind == BYS_GEAR_PANEL || p->kind == BYS_GEAR_NET) &&
                      p->orientation != BYS_ORIENT_FREE;
    gear_sight g = {.law = set->law, .cosine = 1.0, .share = 1.0};
    if (!set->lawful)
        g.law = (bys_drag_law){.kind = flat ? BYS_DRAG_PANEL : BYS_DRAG_OUTLINE,
                               .cd = set->values->cd, .edge = p->edge_cd};
    // cosine between flow and the backbone: a panel ALONG the backbone has its normal across it
    const double *a = set->axis, *f = sea->current, along = a[0] * f[0] + a[1] * f[1];
    const double c = fabs(along), s = sqrt(fmax(0.0, 1.0 - c * c));
    if (set->file_relief > 0.0)
        g.share = bys_file_share(set->file_relief, c);
    if (!flat)
        return g;
    const bool across = p->orientation == BYS_ORIENT_ACROSS;
    g.cosine = across ? c : s;
    g.sine = across ? s : c;
    double n[2] = {across ? a[0] : -a[1], across ? a[1] : a[0]};
    const double nf = n[0] * f[0] + n[1] * f[1], sign = nf < 0.0 ? -1.0 : 1.0;
    for (int i = 0; i < 2; i++)
        n[i] = sign * (n[i] - nf * f[i]);
    const double size = hypot(n[0], n[1]);
    for (int i = 0; i < 2 && size > 1e-9; i++)
        g.lift[i] = n[i] / size;
    return g;
}

/// Push along the fixed unit vector `way` by the mean square of the speed on area A.
static void push_on(bys_lump *out, const double way[2], double area, double darea_dz, double z,
                    int shelter, const bys_sea *sea)
{
    const bys_flow flow = bys_sea_flow(sea, z, shelter);
    double ds, gU, gs;
    const double s = bys_sea_sigma(sea, z, &ds), h = 0.5 * sea->rho;
    const double G = bys_morison_mean(flow.U, s, &gU, &gs);
    for (int i = 0; i < 2; i++) {
        out->f[i] += h * area * G * way[i];
        out->J[3 * i + 2] +=
            h * (darea_dz * G + area * (gU * flow.dU + gs * ds)) * way[i];
    }
}

/// Drag and lift of gear on the area `outline` (m2, changing by `slope` with z) at the height z.
static void gear_at(bys_lump *out, const gear_sight *g, double outline, double slope, double z,
                    int shelter, const bys_sea *sea)
{
    bys_drag_now c = {.cd = g->law.cd};
    double dcd = 0.0, dcl = 0.0;
    if (g->law.kind == BYS_DRAG_PANEL) {
        c = bys_drag_at(&g->law, g->cosine, g->sine, 0.0, 0.0);
    } else if (g->law.kind != BYS_DRAG_OUTLINE) {
        double ds;
        const bys_flow flow = bys_sea_flow(sea, z, shelter);
        const double s = bys_sea_sigma(sea, z, &ds);
        c = bys_drag_at(&g->law, g->cosine, g->sine, flow.U, s);
        dcd = c.cd_dU * flow.dU + c.cd_ds * ds;
        dcl = c.cl_dU * flow.dU + c.cl_ds * ds;
    }
    drag_on(out, outline * c.cd, slope * c.cd + outline * dcd, z, 1.0, shelter, sea);
    if (c.cl != 0.0)
        push_on(out, g->lift, outline * c.cl, slope * c.cl + outline * dcl, z, shelter, sea);
}

/// Smooth step 0..1 and its derivative.
static double smooth(double t, double *d)
{
    if (t <= 0.0 || t >= 1.0) {
        *d = 0.0;
        return t <= 0.0 ? 0.0 : 1.0;
    }
    *d = 6.0 * t * (1.0 - t);
    return t * t * (3.0 - 2.0 * t);
}

/// Upright drag of one piece whose top hangs at z_top: three Gauss points over its height.
static void gear_drag(bys_lump *out, const bys_gear_set *set, double z_top, const bys_sea *sea)
{
    static const double at[3] = {0.1127016653792583, 0.5, 0.8872983346207417};
    static const double weight[3] = {5.0 / 18.0, 8.0 / 18.0, 5.0 / 18.0};
    const double height = set->values->height, edge = 0.05 * height;
    const gear_sight g = sight_of(set, sea);
    const double width = g.share * set->values->width;
    for (int i = 0; i < 3; i++) {
        const double z = z_top - at[i] * height;
        double ds = 0.0;
        const double w = isinf(sea->level) ? 1.0 : smooth((sea->level - z) / edge + 0.5, &ds);
        if (w > 0.0)
            gear_at(out, &g, w * weight[i] * width * height,
                    -ds / edge * weight[i] * width * height, z, set->shelter, sea);
    }
}

void bys_gear_eval(bys_lump *out, const bys_gear_set *set, const double x[3], const bys_sea *sea)
{
    if (sea->train && !sea->here) {
        bys_passage_gear(out, set, x, sea);
        return;
    }
    const bys_gear_part *p = &set->part->u.gear;
    const bys_gear_values *v = set->values;
    memset(out, 0, sizeof *out);
    const double W = v->mass_in_water * sea->gravity, length = p->drop + v->height;
    double relief = 0.0, drelief = 0.0;
    if (sea->has_bed && length > 0.0) {
        const double depth_into = bys_sea_bed_z(sea, x[0], x[1]) - (x[2] - length);
        relief = smooth(depth_into / length, &drelief);
    }
    out->f[2] = -W * (1.0 - relief);
    if (drelief > 0.0) { // d(depth_into)/dx = -n / n_z
        double n[3];
        bys_sea_bed_normal(n, sea, x[0], x[1]);
        for (int j = 0; j < 3; j++)
            out->J[6 + j] = -W * drelief / length * n[j] / n[2];
    }
    if (v->height > 0.0) {
        bys_lump drag = {0};
        gear_drag(&drag, set, x[2] - p->drop, sea);
        bys_axpy(out->f, 1.0 - set->swing_relief, drag.f);
        bys_mat_axpy(out->J, 1.0 - set->swing_relief, drag.J);
    }
    for (int i = 0; i < 3; i++)
        out->f[i] *= set->count;
    for (int i = 0; i < 9; i++)
        out->J[i] *= set->count;
}

void bys_gear_swing(const bys_gear_set *set, double z, const bys_sea *sea, double *angle,
                    double *lowest, double *drag)
{
    // hangs as one rod from its point: tan a = D cos a / W about the point, with the drag taken
    // upright and reduced by cos a (cross-flow on the projected height)
    const bys_gear_part *p = &set->part->u.gear;
    const bys_gear_values *v = set->values;
    bys_lump upright = {0};
    if (v->height > 0.0)
        gear_drag(&upright, set, z - p->drop, sea);
    const double D = hypot(upright.f[0], upright.f[1]), W = v->mass_in_water * sea->gravity;
    double a = 0.0;
    // moment: D cos(a) * lever cos(a) = W * lever sin(a)  (drag and weight share one centre)
    if (D > 0.0) {
        const double k = W > 0.0 ? D / W : INFINITY; // sin a = k cos^2 a = k (1 - sin^2 a)
        const double s = isinf(k) ? 1.0 : (sqrt(1.0 + 4.0 * k * k) - 1.0) / (2.0 * k);
        a = asin(fmin(1.0, s));
    }
    *angle = a;
    *lowest = z - (p->drop + v->height) * cos(a);
    *drag = D;
}

/// Share of the sides that a direction d sees: |bx.d| and |by.d| with the body's axes, and their
/// change with the attitude: d|b.d|/dtheta = sign(b.d) b x d.
typedef struct { double along[2], turn[2][3]; } bys_facing;

static bys_facing facing(const double R[9], const double d2[2])
{
    const double d[3] = {d2[0], d2[1], 0.0};
    bys_facing out;
    for (int k = 0; k < 2; k++) {
        const double b[3] = {R[k], R[3 + k], R[6 + k]};
        const double s = bys_dot(b, d);
        out.along[k] = fabs(s);
        bys_cross(out.turn[k], b, d);
        for (int i = 0; i < 3; i++)
            out.turn[k][i] *= s < 0.0 ? -1.0 : 1.0;
    }
    return out;
}

/// Projected width of a prism, its end counted `end` times, and its change with the attitude.
static double prism_width(const bys_prism *p, double end, const bys_facing *f, double turn[3])
{
    const double x = end * p->width_x;
    for (int i = 0; i < 3; i++)
        turn[i] = x * f->turn[0][i] + p->width_y * f->turn[1][i];
    return x * f->along[0] + p->width_y * f->along[1];
}

/// Adds `part`, whose force is proportional to the width, and its change with the attitude.
static void add_sided(bys_lump *out, double turn[9], const bys_lump *part, double width,
                      const double dwidth[3])
{
    bys_axpy(out->f, 1.0, part->f);
    bys_mat_axpy(out->J, 1.0, part->J);
    if (width > 1e-12)
        bys_outer_add(turn, 1.0 / width, part->f, dwidth);
}

/// Reflected waves push each side along its normal by the square of the wave's share across it:
/// f = R l |b.w| (b.w) b, db = dtheta x b.
static void reflected(bys_lump *out, double turn[9], const bys_prism *p, const double R[9],
                      const bys_sea *sea)
{
    const double w[3] = {sea->waves[0], sea->waves[1], 0.0};
    const double side[2] = {p->reflect_x, p->reflect_y};
    const double breadth[2] = {p->breadth_x, p->breadth_y};
    for (int k = 0; k < 2; k++) {
        const double b[3] = {R[k], R[3 + k], R[6 + k]};
        const double flat[3] = {b[0], b[1], 0.0};
        const double q =
            sea->reflection * side[k] * bys_sea_reflected(sea, p->hull_draft, breadth[k]);
        double slope, bw[3], S[9];
        const double face = bys_sea_facing(sea, bys_dot(b, w), &slope);
        bys_cross(bw, b, w);
        bys_skew(S, b);
        bys_axpy(out->f, q * face, flat);
        bys_outer_add(turn, q * slope, flat, bw);
        for (int i = 0; i < 6; i++) // rows x and y of -[b]x
            turn[i] -= q * face * S[i];
    }
}

/// Drag in the splash zone of what stands through the surface, along the waves: of the share of each
/// side that does not reflect them. It fades where less than half a significant height is wet or dry.
static void splashed(bys_lump *out, double turn[9], const bys_prism *p, const double x[3],
                     const double R[9], const bys_sea *sea)
{
    const double band = 0.5 * sea->hs, wet = sea->level - x[2], dry = p->height - wet;
    if (!(sea->splash > 0.0 && wet > 0.0 && dry > 0.0))
        return;
    double dw[3], slope_wet, slope_dry;
    const double low = smooth(wet / band, &slope_wet), high = smooth(dry / band, &slope_dry);
    const bys_facing f = facing(R, sea->waves);
    bys_prism open = *p;
    if (p->reflect_x > 0.0)
        open.width_x *= 1.0 - bys_sea_reflected(sea, p->hull_draft, p->breadth_x);
    if (p->reflect_y > 0.0)
        open.width_y *= 1.0 - bys_sea_reflected(sea, p->hull_draft, p->breadth_y);
    const double width = prism_width(&open, 1.0, &f, dw), q = sea->splash * p->cd * width;
    bys_lump part = {0};
    for (int i = 0; i < 2; i++) {
        part.f[i] = q * low * high * sea->waves[i];
        part.J[3 * i + 2] = q * (low * slope_dry - slope_wet * high) / band * sea->waves[i];
    }
    add_sided(out, turn, &part, width, dw);
}

/// Coefficient on the sides of a prism, and how many times it the ends count: the bed's effect on the
/// sides, skin friction on the ends, both at the raft's draft at rest.
static void prism_cd(double *cd, double *end, const bys_prism *p, const bys_sea *sea)
{
    double ends = p->cd * (p->end_ratio > 0.0 ? p->end_ratio : 1.0);
    *cd = p->cd;
    if (p->draft > 0.0 && isfinite(sea->level) && sea->depth > 0.0)
        *cd *= bys_hull_bed_factor(p->draft / sea->depth);
    if (p->friction > 0.0 && isfinite(sea->level)) {
        const double U = hypot(bys_sea_flow(sea, sea->level, p->shelter).U,
                               bys_sea_sigma(sea, sea->level, NULL));
        ends += p->friction * bys_ittc57(U * p->skin / BYS_NU);
    }
    *end = *cd > 0.0 ? ends / *cd : 1.0;
}

void bys_prism_eval(bys_lump *out, double turn[9], const bys_prism *prism, const double x[3],
                    const double R[9], const bys_sea *sea)
{
    if (sea->train && !sea->here) {
        bys_passage_prism(out, turn, prism, x, R, sea);
        return;
    }
    memset(out, 0, sizeof *out);
    memset(turn, 0, 9 * sizeof *turn);
    const double immersion = sea->level - x[2];
    double dV, dA, dw[3];
    const double V = bys_volume_upright(immersion, prism->waterplane, prism->height, &dV);
    out->f[2] = sea->rho * sea->gravity * V;
    out->J[8] = -sea->rho * sea->gravity * dV;
    bys_lump part = {0};
    bys_facing f = facing(R, sea->current);
    double cd, end;
    prism_cd(&cd, &end, prism, sea);
    double width = prism_width(prism, end, &f, dw);
    double area = bys_area_upright(immersion, width, prism->height, &dA);
    if (area > 0.0) {
        drag_on(&part, cd * area, -cd * dA,
                x[2] + 0.5 * fmin(immersion, prism->height), immersion < prism->height ? 0.5 : 1.0,
                prism->shelter, sea);
        add_sided(out, turn, &part, width, dw);
    }
    f = facing(R, sea->wind);
    width = prism_width(prism, 1.0, &f, dw);
    area = width * prism->height - bys_area_upright(immersion, width, prism->height, &dA);
    if (sea->wind_speed > 0.0 && area > 0.0) {
        memset(&part, 0, sizeof part);
        wind_on(&part, area, dA, prism->cs, x[2] + prism->height, 1.0, sea);
        add_sided(out, turn, &part, width, dw);
    }
    reflected(out, turn, prism, R, sea);
    splashed(out, turn, prism, x, R, sea);
}

void bys_point_eval(bys_lump *out, const bys_point *point, const double x[3], const bys_sea *sea)
{
    if (sea->train && !sea->here) {
        bys_passage_point(out, point, x, sea);
        return;
    }
    memset(out, 0, sizeof *out);
    for (int i = 0; i < 3; i++)
        out->f[i] = point->load[i];
    out->f[2] -= point->weight;
    if (point->drag_area > 0.0 && x[2] < sea->level)
        drag_on(out, point->drag_area, 0.0, x[2], 1.0, 0, sea);
}

double bys_bed_depth(const double x[3], const bys_sea *sea)
{
    if (sea->map) { // along the normal of the bed under the point
        double n[3];
        bys_sea_bed_normal(n, sea, x[0], x[1]);
        return (bys_sea_bed_z(sea, x[0], x[1]) - x[2]) * n[2];
    }
    const double d[3] = {x[0] - sea->bed_point[0], x[1] - sea->bed_point[1],
                         x[2] - sea->bed_point[2]};
    return -bys_dot(d, sea->bed_normal);
}

void bys_bed_eval(bys_lump *out, double N, double k, const double x[3], const bys_sea *sea)
{
    double n[3], turn[9];
    memset(out, 0, sizeof *out);
    bys_sea_bed_normal(n, sea, x[0], x[1]);
    bys_axpy(out->f, N, n);
    bys_outer_add(out->J, -k, n, n);
    if (bys_sea_bed_turn(turn, sea, x[0], x[1]))
        bys_mat_axpy(out->J, N, turn);
}
