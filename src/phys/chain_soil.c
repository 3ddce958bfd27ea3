// SPDX-License-Identifier: GPL-3.0-or-later
// A chain that cuts through the soil on its way to a buried eye.
//
// GIVEN     soil      resistance normal to the line q0 + q1 z (N/m, z below the bed), friction as a
//                     share mu of it, weight of the line in water (N/m)
//           tension   where the line enters the bed (N), angle up from level (rad)
//           depth     of the eye below the bed                                           m
//           d, su, nc bar diameter (m), undrained strength (Pa), bearing factor 5.1 at the bed to
//                     7.6 deep
// RETURNED  tension (N), angle (rad) and length of line in the soil (m) at the eye
// NOTES     1. One vertical plane, the line has moved and all resistance is mobilised.
//           2. mu 0.4 to 0.6 in clay. [memory]
//           3. False when the line would pass 90 deg before the eye, or never gets down to it.
//           4. Self-consistent (closed form equals the integration); no published example found.
// SOURCE    dT/ds = -(F + w sin t), T dt/ds = Q - w cos t: common form [memory], signs [derived]
//           effective width of chain 2.5 d: Degenkamp and Dutta 1989 [memory]
//           T_a = T_o exp(-mu (t_a - t_o)), T_a (t_a^2 - t_o^2)/2 = int Q dz: Neubecker and Randolph
//           1995 [memory]
//           constant Q: D = (T/Q) (1 - exp(-mu t)(cos t + mu sin t))/(1 + mu^2) [derived]
#include "phys/hold.h"
#include "phys/phys.h"

#include <math.h>

typedef struct { double T, t, z; } point;

static point slope(const bys_chain_soil *soil, point p)
{
    const double Q = soil->q0 + soil->q1 * p.z;
    return (point){-(soil->mu * Q + soil->weight * sin(p.t)),
                   (Q - soil->weight * cos(p.t)) / p.T, sin(p.t)};
}

static point along(point p, point k, double h)
{
    return (point){p.T + h * k.T, p.t + h * k.t, p.z + h * k.z};
}

static point step(const bys_chain_soil *soil, point p, double h) // classical Runge-Kutta
{
    const point a = slope(soil, p), b = slope(soil, along(p, a, h / 2.0));
    const point c = slope(soil, along(p, b, h / 2.0)), d = slope(soil, along(p, c, h));
    const point mean = {(a.T + 2.0 * b.T + 2.0 * c.T + d.T) / 6.0,
                        (a.t + 2.0 * b.t + 2.0 * c.t + d.t) / 6.0,
                        (a.z + 2.0 * b.z + 2.0 * c.z + d.z) / 6.0};
    return along(p, mean, h);
}

static bool ends(point p)
{
    return !(p.T > 0.0) || p.t < -1e-9 || p.t > BYS_PI / 2.0;
}

// The last step is cut by bisection so that it ends at the depth of the eye.
static double last_step(const bys_chain_soil *soil, point p, double h, double depth)
{
    double low = 0.0;
    for (int i = 0; i < 60; i++) {
        const double middle = 0.5 * (low + h);
        if (step(soil, p, middle).z < depth)
            low = middle;
        else
            h = middle;
    }
    return h;
}

bool bys_chain_in_soil(bys_chain_end *out, const bys_chain_soil *soil, double tension,
                       double angle, double depth)
{
    enum { MOST = 200000 };
    const double h = depth / 400.0;
    point p = {tension, angle, 0.0};
    *out = (bys_chain_end){tension, angle, 0.0};
    if (!(depth > 0.0))
        return depth == 0.0;
    for (int i = 0; i < MOST; i++) {
        const point next = step(soil, p, h);
        if (ends(next) && next.z < depth)
            return false;
        if (next.z >= depth) {
            const double last = last_step(soil, p, h, depth);
            p = step(soil, p, last);
            *out = (bys_chain_end){p.T, p.t, i * h + last};
            return !ends(p);
        }
        p = next;
    }
    return false;
}

static double effort(const bys_chain_soil *soil, double tension, double from, double to)
{
    return tension * exp(-soil->mu * (to - from)) * (to * to - from * from) / 2.0;
}

// effort rises with `to` up to 2/mu > 90 deg for mu below 1.27.
bool bys_chain_in_soil_simple(bys_chain_end *out, const bys_chain_soil *soil, double tension,
                              double angle, double depth)
{
    const double need = depth * (soil->q0 + 0.5 * soil->q1 * depth);
    double low = angle, high = BYS_PI / 2.0;
    if (!(effort(soil, tension, angle, high) >= need))
        return false;
    for (int i = 0; i < 100; i++) {
        const double middle = 0.5 * (low + high);
        if (effort(soil, tension, angle, middle) < need)
            low = middle;
        else
            high = middle;
    }
    *out = (bys_chain_end){tension * exp(-soil->mu * (high - angle)), high, NAN};
    return true;
}

double bys_chain_in_soil_depth(double tension, double q, double mu, double angle)
{
    const double bent = exp(-mu * angle) * (cos(angle) + mu * sin(angle));
    return tension / q * (1.0 - bent) / (1.0 + mu * mu);
}

double bys_chain_clay_resistance(double d, double su, double nc)
{
    return 2.5 * d * nc * su;
}
