// SPDX-License-Identifier: GPL-3.0-or-later
// The current at a height, and the mean of its square together with the waves.
//
// GIVEN     sea       the environment                                       see sea.h
//           z         height above chart datum                              m
//           shelter   number of what the current meets, 0 in the open       -
// RETURNED  speed (m/s) along a unit vector, or east and north parts; the mean of |w| w (m2/s2); all
//           with their change over z.
// NOTES     1. Power profile: one direction, by phys/current.c. Everything else comes as a table of
//              cubic pieces (profile.c), whose direction may turn with depth.
//           2. Where nothing but one direction is in play (no waves, or waves along the current) the
//              mean is the closed form along it; else it is that of phys/viscous.c, along the waves and
//              across them.
//           3. Shelter reduces the current, not the waves.
// SOURCE    see src/phys/current.c, current_profiles.c, drag.c, viscous.c.
#include "phys/phys.h"
#include "phys/sea_loads.h"
#include "sea/sea.h"

#include <math.h>
#include <string.h>

double bys_sea_shelter(const bys_sea *sea, int shelter)
{
    return sea->shade && shelter > 0 && shelter <= sea->shade_count ? sea->shade[shelter - 1] : 1.0;
}

/// Piece that holds t, by halving; t lies inside the table.
static int piece_at(const bys_sea_profile *p, double t)
{
    int low = 0, high = p->count - 1;
    while (high - low > 1) {
        const int middle = (low + high) / 2;
        if (p->z[middle] <= t)
            low = middle;
        else
            high = middle;
    }
    return low;
}

static void read_table(double v[2], double dv[2], const bys_sea *sea, double z)
{
    const bys_sea_profile *p = sea->profile;
    const double t = z - (sea->level - sea->depth);
    dv[0] = dv[1] = 0.0;
    if (t <= p->z[0] || t >= p->z[p->count - 1]) {
        memcpy(v, t <= p->z[0] ? p->below : p->above, 2 * sizeof *v);
    } else {
        const int k = piece_at(p, t);
        const double u = t - p->z[k];
        for (int i = 0; i < 2; i++) {
            const double *a = p->piece[k][i];
            v[i] = a[0] + u * (a[1] + u * (a[2] + u * a[3]));
            dv[i] = a[1] + u * (2.0 * a[2] + u * 3.0 * a[3]);
        }
    }
    for (int i = 0; i < 2; i++) {
        v[i] *= sea->current_speed;
        dv[i] *= sea->current_speed;
    }
}

static double power_speed(const bys_sea *sea, double z, double *d_dz)
{
    *d_dz = 0.0;
    if (sea->current_speed == 0.0)
        return 0.0;
    if (sea->current_exponent == 0.0 || !isfinite(sea->level))
        return sea->current_speed;
    double slope = 0.0;
    const double factor =
        bys_current_power(z - (sea->level - sea->depth), sea->depth, sea->current_exponent, &slope);
    *d_dz = sea->current_speed * slope;
    return sea->current_speed * factor;
}

static bys_flow current_flow(const bys_sea *sea, double z, int shelter)
{
    bys_flow f = {.c = {sea->current[0], sea->current[1]}};
    const double factor = bys_sea_shelter(sea, shelter);
    if (!sea->profile) {
        f.U = factor * power_speed(sea, z, &f.dU);
        f.dU *= factor;
        return f;
    }
    double v[2], dv[2];
    read_table(v, dv, sea, z);
    const double U = hypot(v[0], v[1]);
    f.U = factor * U;
    if (!(U > 1e-9 * sea->current_speed)) { // still at this height: the direction does not matter
        f.U = 0.0;
        return f;
    }
    f.c[0] = v[0] / U, f.c[1] = v[1] / U;
    const double dU = f.c[0] * dv[0] + f.c[1] * dv[1];
    f.dU = factor * dU;
    for (int i = 0; i < 2; i++)
        f.dc[i] = (dv[i] - dU * f.c[i]) / U;
    return f;
}

/// With the horizontal orbital velocity of the train at the sea's place; slopes are left out, who
/// solves in a train takes differences (statics/passage.c).
static bys_flow train_flow(const bys_sea *sea, double z, int shelter)
{
    bys_flow f = current_flow(sea, z, shelter);
    double v[3], a[3];
    bys_sea_motion(v, a, sea, sea->at[0], sea->at[1], z);
    const double *c = sea->profile ? f.c : sea->stream;
    const double w[2] = {f.U * c[0] + v[0], f.U * c[1] + v[1]};
    f.U = hypot(w[0], w[1]);
    for (int i = 0; i < 2; i++) {
        f.c[i] = f.U > 1e-12 ? w[i] / f.U : sea->train->way[i];
        f.dc[i] = 0.0;
    }
    f.dU = 0.0;
    return f;
}

bys_flow bys_sea_flow(const bys_sea *sea, double z, int shelter)
{
    return sea->train && sea->here ? train_flow(sea, z, shelter) : current_flow(sea, z, shelter);
}

double bys_sea_speed(const bys_sea *sea, double z, double *d_dz)
{
    const bys_flow f = bys_sea_flow(sea, z, 0);
    if (d_dz)
        *d_dz = f.dU;
    return f.U;
}

/// One direction at all heights.
static bys_sea_square along_current(const bys_flow *f, double s, double ds)
{
    bys_sea_square q = {.count = 1, .way = {{f->c[0], f->c[1]}}};
    double gU, gs;
    q.size[0] = bys_morison_mean(f->U, s, &gU, &gs);
    q.slope[0] = gU * f->dU + gs * ds;
    return q;
}

/// Along the waves and across them.
static bys_sea_square at_an_angle(const bys_sea *sea, const bys_flow *f, double s, double ds)
{
    const double *a = sea->waves, b[2] = {-a[1], a[0]};
    bys_sea_square q = {.count = 2, .way = {{a[0], a[1]}, {b[0], b[1]}}};
    double v[2], dv[2];
    for (int k = 0; k < 2; k++) {
        const double *e = q.way[k];
        const double across = f->dc[0] * e[0] + f->dc[1] * e[1];
        v[k] = f->U * (f->c[0] * e[0] + f->c[1] * e[1]);
        dv[k] = f->dU * (f->c[0] * e[0] + f->c[1] * e[1]) + f->U * across;
    }
    const bys_viscous m = bys_viscous_mean(v[0], v[1], s);
    for (int k = 0; k < 2; k++) {
        q.size[k] = m.f[k];
        q.slope[k] = m.slope[k][0] * dv[0] + m.slope[k][1] * dv[1] + m.slope[k][2] * ds;
    }
    return q;
}

bys_sea_square bys_sea_square_at(const bys_sea *sea, double z, int shelter)
{
    double ds;
    const bys_flow f = bys_sea_flow(sea, z, shelter);
    const double s = bys_sea_sigma(sea, z, &ds);
    const double cross = f.c[0] * sea->waves[1] - f.c[1] * sea->waves[0];
    const bool one_way = sea->train || (!sea->profile && (s == 0.0 || fabs(cross) < 1e-9));
    bys_sea_square q = one_way ? along_current(&f, s, ds) : at_an_angle(sea, &f, s, ds);
    for (int i = 0; i < 2; i++)
        q.still[i] = f.U * fabs(f.U) * f.c[i];
    return q;
}
