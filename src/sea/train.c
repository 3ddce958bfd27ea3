// SPDX-License-Identifier: GPL-3.0-or-later
// A regular wave frozen at one phase: surface, orbital velocity and acceleration at a point.
//
// GIVEN     height H (m), period T (s), direction towards, still level and depth d (m); phase (rad)
// RETURNED  surface above still water (m), velocity (m/s), acceleration (m/s2): east, north, up
// NOTES     1. Linear theory over a level bed: with s the way along the wave, y the height above the
//              bed and q = k s - phase,
//                  eta = H/2 cos q
//                  u   = H/2 w cosh(ky)/sinh(kd) cos q     du/dt = H/2 w^2 cosh(ky)/sinh(kd) sin q
//                  v   = H/2 w sinh(ky)/sinh(kd) sin q     dv/dt = -H/2 w^2 sinh(ky)/sinh(kd) cos q
//           2. Above still water the value at still water holds; below the bed that at the bed.
//           3. The current runs up to the instantaneous surface with its profile stretched; it does
//              not change the wave (no Doppler shift).
//           4. Left out: steeper waves than linear theory bears, breaking, refraction, scattering by
//              the farm, convective acceleration.
// SOURCE    linear theory. [derived]
#include "phys/phys.h"
#include "sea/sea.h"

#include <math.h>

bys_train bys_train_make(double height, double period, const double way[2], double level,
                         double depth)
{
    const double omega = 2.0 * BYS_PI / period;
    return (bys_train){.height = height,
                       .period = period,
                       .k = bys_wave_number(omega, depth),
                       .omega = omega,
                       .way = {way[0], way[1]},
                       .level = level,
                       .depth = depth};
}

static double angle_at(const bys_train *t, double x, double y)
{
    return t->k * (x * t->way[0] + y * t->way[1]) - t->phase;
}

double bys_train_surface(const bys_train *t, double x, double y)
{
    return 0.5 * t->height * cos(angle_at(t, x, y));
}

// cosh(ky)/sinh(kd) and sinh(ky)/sinh(kd), free of overflow
void bys_train_motion(double v[3], double a[3], const bys_train *t, double x, double y, double z)
{
    const double above = fmin(fmax(z - (t->level - t->depth), 0.0), t->depth);
    const double fade = exp(t->k * (above - t->depth)) / -expm1(-2.0 * t->k * t->depth);
    const double mirror = exp(-2.0 * t->k * above);
    const double C = fade * (1.0 + mirror), S = fade * (1.0 - mirror);
    const double q = angle_at(t, x, y), u = 0.5 * t->height * t->omega, c = cos(q), s = sin(q);
    for (int i = 0; i < 2; i++) {
        v[i] = u * C * c * t->way[i];
        a[i] = u * t->omega * C * s * t->way[i];
    }
    v[2] = u * S * s;
    a[2] = -u * t->omega * S * c;
}

double bys_sea_rise(const bys_sea *sea, double x, double y)
{
    return sea->train_share * bys_train_surface(sea->train, x, y);
}

void bys_sea_motion(double v[3], double a[3], const bys_sea *sea, double x, double y, double z)
{
    bys_train_motion(v, a, sea->train, x, y, z);
    for (int i = 0; i < 3; i++) {
        v[i] *= sea->train_share;
        a[i] *= sea->train_share;
    }
}

bys_sea bys_sea_here(const bys_sea *sea, double x, double y, double z)
{
    bys_sea here = *sea;
    if (!sea->train || sea->here)
        return here;
    const double rise = bys_sea_rise(sea, x, y);
    here.here = true;
    here.at[0] = x, here.at[1] = y;
    here.stream[0] = sea->current[0], here.stream[1] = sea->current[1];
    here.level += rise;
    here.depth += rise;
    const bys_flow flow = bys_sea_flow(&here, fmin(z, here.level), 0);
    here.current[0] = flow.c[0], here.current[1] = flow.c[1];
    return here;
}

bys_sea bys_sea_in_train(const bys_sea *sea, const bys_train *train)
{
    bys_sea out = *sea;
    out.train = train;
    out.train_share = 1.0;
    out.hs = out.tp = 0.0;
    out.reflection = out.splash = 0.0;
    for (int i = 0; i < BYS_SIGMA_POINTS; i++)
        out.sigma[i] = 0.0;
    return out;
}
