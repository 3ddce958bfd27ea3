// SPDX-License-Identifier: GPL-3.0-or-later
// One straight elastic element in gravity and current.
//
// GIVEN    section properties, unstretched length l (m), end positions (m), the sea
// RETURNED direction, length, half of the attitude-dependent loads (N), and their exact derivatives
// NOTES
//   1. T = EA (|e|/l - 1) when positive, else 0: no compression (onesided.h).
//   2. Weight in air and buoyancy act half and half at the ends; buoyancy fades over a band of two
//      diameters (at least 50 mm) at the water surface.
//   3. Current drag by the cross-flow principle on the velocity at mid height: normal part with
//      diameter D, tangential part with pi D. In waves the normal part takes the Gaussian mean with
//      the orbital motion along the normal velocity: an upper bound for waves from other sides.
//   4. Left out: strumming (put it into the coefficient), bending, twist, Poisson contraction.
// SOURCE   cross-flow principle: Pode, DTMB 687 (1951) [memory]; Fridman, FAO (1986) eq. 5.22 [read];
//          mean over waves: phys/drag.c.
#include "num/vec3.h"
#include "phys/phys.h"
#include "statics/solver.h"

/// Share of a thin member at height z that is wetted, and d/dz.
static double wetted(double z, double diameter, const bys_sea *sea, double *dz)
{
    *dz = 0.0;
    if (isinf(sea->level))
        return sea->level > 0.0 ? 1.0 : 0.0;
    const double band = fmax(2.0 * diameter, 0.05);
    const double t = (sea->level - z) / band + 0.5;
    if (t <= 0.0)
        return 0.0;
    if (t >= 1.0)
        return 1.0;
    *dz = -6.0 * t * (1.0 - t) / band;
    return t * t * (3.0 - 2.0 * t);
}

double bys_half_weight(const bys_section *section, double length, double z, const bys_sea *sea,
                       double *dz)
{
    double dw = 0.0;
    const double w = section->buoyancy != 0.0 ? wetted(z, section->diameter, sea, &dw) : 0.0;
    *dz = 0.5 * length * section->buoyancy * dw;
    return 0.5 * length * (section->buoyancy * w - section->weight_dry);
}

double bys_end_weight(const bys_section *section, double length, const double x[3],
                      const bys_sea *sea, double slope[3])
{
    slope[0] = slope[1] = 0.0;
    if (!sea->train)
        return bys_half_weight(section, length, x[2], sea, &slope[2]);
    static const double h = 1e-4; // m, for the slope of the surface
    const double rise = bys_sea_rise(sea, x[0], x[1]);
    const double w = bys_half_weight(section, length, x[2] - rise, sea, &slope[2]);
    for (int c = 0; c < 2; c++) {
        const double dx = c ? 0.0 : h, dy = c ? h : 0.0;
        const double up = bys_sea_rise(sea, x[0] + dx, x[1] + dy);
        const double down = bys_sea_rise(sea, x[0] - dx, x[1] - dy);
        slope[c] = -slope[2] * (up - down) / (2.0 * h);
    }
    return w;
}

/// T t and K = along t t' + (T/L)(I - t t').
void bys_element_axial(bys_element_force *out, double T, double along, double across_T)
{
    const double *t = out->direction, across = across_T / out->L;
    out->T = T;
    for (int i = 0; i < 3; i++)
        for (int j = 0; j < 3; j++)
            out->K[3 * i + j] = (along - across) * t[i] * t[j] + (i == j ? across : 0.0);
}

/// half += 0.5 k s v where v is the part of the velocity across (or along) the element.
/// Waves count as if they ran along v, which is an upper bound for any other side.
static void normal_drag(bys_element_force *out, double k, double s, double ds_dL, const double t[3],
                        double L, const bys_flow *flow, double sigma, double dsigma)
{
    const double c[3] = {flow->c[0], flow->c[1], 0.0}, U = flow->U, dU = flow->dU;
    const double ct = bys_dot(c, t);
    double n[3];
    for (int i = 0; i < 3; i++)
        n[i] = c[i] - ct * t[i];
    const double sn = bys_norm(n), q = fabs(U) * sn;
    double Gq, Gs;
    const double G = bys_morison_mean(q, sigma, &Gq, &Gs);
    // g = G/q, the factor on the normal velocity; its limit as q -> 0 is dG/dq(0)
    const bool still = q < 1e-9 * (sigma + 1e-6);
    const double g = still ? Gq : G / q, dg = still ? 0.0 : (Gq - g) / q;
    const double a = 0.5 * k * s;
    double v[3], dv_dz[3];
    for (int i = 0; i < 3; i++)
        v[i] = U * n[i], dv_dz[i] = dU * n[i];
    for (int i = 0; i < 3; i++)
        out->half[i] += a * g * v[i];
    // dv/dt = -U (c.t) I - U t c'   (t unit: dt = (I - t t') de / L)
    double V[9], P[9], M[9];
    for (int i = 0; i < 3; i++)
        for (int j = 0; j < 3; j++) {
            V[3 * i + j] = -U * (t[i] * c[j] + (i == j ? ct : 0.0));
            P[3 * i + j] = ((i == j ? 1.0 : 0.0) - t[i] * t[j]) / L;
        }
    bys_mat_mul(M, V, P); // dv/de
    double qv[3] = {0, 0, 0}; // dq/de = v' dv/de / q
    if (!still)
        for (int j = 0; j < 3; j++)
            qv[j] = (v[0] * M[j] + v[1] * M[3 + j] + v[2] * M[6 + j]) / q;
    bys_mat_axpy(out->He, a * g, M);
    bys_outer_add(out->He, a * dg, v, qv);
    bys_outer_add(out->He, 0.5 * k * ds_dL * g, v, t);
    // along z: q changes with U and with the turn of the current, and G with sigma
    double dq = sn * dU * (U < 0.0 ? -1.0 : 1.0);
    if (flow->dc[0] != 0.0 || flow->dc[1] != 0.0) {
        const double dc[3] = {flow->dc[0], flow->dc[1], 0.0}, dct = bys_dot(dc, t);
        for (int i = 0; i < 3; i++) {
            dv_dz[i] += U * (dc[i] - dct * t[i]);
            dq += sn > 1e-12 ? fabs(U) * n[i] / sn * (dc[i] - dct * t[i]) : 0.0;
        }
    }
    const double dg_dz = dg * dq + (still ? 0.0 : Gs * dsigma / q);
    for (int i = 0; i < 3; i++)
        out->Hz[i] += a * (g * dv_dz[i] + dg_dz * v[i]);
}

/// half += 0.5 k s |u| u t with u = U c.t
static void tangential_drag(bys_element_force *out, double k, double s, double ds_dL,
                            const double t[3], double L, const bys_flow *flow)
{
    const double c[3] = {flow->c[0], flow->c[1], 0.0}, U = flow->U, dU = flow->dU;
    const double dct = flow->dc[0] * t[0] + flow->dc[1] * t[1]; // of the turn with height
    const double ct = bys_dot(c, t), u = U * ct, a = 0.5 * k;
    const double w = fabs(u) * u, dw = 2.0 * fabs(u);
    double P[9], cP[3];
    for (int i = 0; i < 3; i++)
        for (int j = 0; j < 3; j++)
            P[3 * i + j] = ((i == j ? 1.0 : 0.0) - t[i] * t[j]) / L;
    for (int j = 0; j < 3; j++)
        cP[j] = c[0] * P[j] + c[1] * P[3 + j] + c[2] * P[6 + j];
    for (int i = 0; i < 3; i++) {
        out->half[i] += a * s * w * t[i];
        out->Hz[i] += a * s * dw * dU * ct * t[i];
        if (dct != 0.0)
            out->Hz[i] += a * s * dw * U * dct * t[i];
    }
    bys_outer_add(out->He, a * s * dw * U, t, cP);
    bys_mat_axpy(out->He, a * s * w, P);
    bys_outer_add(out->He, a * ds_dL * w, t, t);
}

static void current_drag(bys_element_force *out, const bys_section *section, double l, double L,
                         const double t[3], double z, const bys_sea *sea)
{
    double dw, dsigma;
    const double w = wetted(z, section->diameter, sea, &dw);
    if (w == 0.0)
        return;
    const bys_flow flow = bys_sea_flow(sea, z, section->shelter);
    const double sigma = bys_sea_sigma(sea, z, &dsigma);
    if (flow.U == 0.0 && sigma == 0.0)
        return;
    const double s = section->drag_unstretched ? l : L, ds = section->drag_unstretched ? 0.0 : 1.0;
    const double k = 0.5 * sea->rho * section->diameter;
    bys_element_force part = {0};
    normal_drag(&part, k * section->cd_normal, s, ds, t, L, &flow, sigma, dsigma);
    tangential_drag(&part, k * M_PI * section->cd_tangential, s, ds, t, L, &flow);
    for (int i = 0; i < 3; i++) {
        out->half[i] += w * part.half[i];
        out->Hz[i] += w * part.Hz[i] + dw * part.half[i];
    }
    bys_mat_axpy(out->He, w, part.He);
}

void bys_element_eval(bys_element_force *out, const bys_section *section, double l,
                      const double xa[3], const double xb[3], const bys_sea *sea)
{
    memset(out, 0, sizeof *out);
    double e[3] = {xb[0] - xa[0], xb[1] - xa[1], xb[2] - xa[2]};
    double L = bys_norm(e);
    if (L < 1e-9 * l)
        e[0] = 1e-9 * l, e[1] = e[2] = 0.0, L = e[0];
    double *t = out->direction;
    out->L = L;
    for (int i = 0; i < 3; i++)
        t[i] = e[i] / L;
    const double *q = section->load;
    if (q[0] != 0.0 || q[1] != 0.0 || q[2] != 0.0) {
        const double s = section->load_stretched ? L : l;
        bys_axpy(out->half, 0.5 * s, q);
        if (section->load_stretched)
            bys_outer_add(out->He, 0.5, q, t);
    }
    if (sea->train) {
        bys_passage_element(out, section, l, xa, xb, sea);
        return;
    }
    if (section->diameter > 0.0 && section->cd_normal + section->cd_tangential > 0.0)
        current_drag(out, section, l, L, t, 0.5 * (xa[2] + xb[2]), sea);
}
