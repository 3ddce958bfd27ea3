// SPDX-License-Identifier: GPL-3.0-or-later
// Wind over the sea's own roughness, averaging times by three laws, shape coefficients.
//
// GIVEN     u10          mean at 10 m                                    m/s
//           charnock     0.011 to 0.014 open sea, 0.018 near the coast   -
//           z, z0        height, roughness length                        m
//           averaging    time                                            s
// RETURNED  roughness length (m), speed (m/s), turbulence intensity (-), coefficients (-).
// NOTES     1. Neutral air, open water to windward. Below 1 m the height is taken as 1 m, as in
//              wind.c.
//           2. The three averaging laws start from the same 1-h mean at 10 m. DNV is referred to the
//              10-min mean: the 1-h value is 0.916 of it. They lie within 5 % of each other for 60 s
//              and 10 min at 20 to 30 m/s and 10 m, and further apart in short gusts.
//           3. Which mean to use: 1 min for static loads on small floats and rafts, 3 s for parts,
//              1 h with the wave spectrum (practice, [memory]).
//           4. The log law needs a mean over 10 min or more.
// SOURCE    log law, Charnock: DNV-RP-C205 2.3.2.4, 2.3.2.10, seen in a transcription [memory];
//           shapes: ABS rules for mobile units and API RP 2A [memory].
#include "phys/sea_loads.h"
#include "phys/phys.h"

#include <math.h>

// z0 = (a/g)(0.4 U/ln(10/z0))^2: contraction, 1e-14 after some 15 rounds.
double bys_wind_charnock(double u10, double charnock)
{
    double z0 = 1e-4;
    if (!(u10 > 0.0))
        return 0.0;
    for (int i = 0; i < 60; i++) {
        const double u = 0.4 * u10 / log(10.0 / z0), next = charnock / BYS_G * u * u;
        const bool done = fabs(next - z0) <= 1e-15 * next;
        z0 = next;
        if (done)
            break;
    }
    return z0;
}

double bys_wind_log(double u10, double z, double z0)
{
    return z0 > 0.0 ? u10 * log(fmax(z, 1.0) / z0) / log(10.0 / z0) : u10;
}

// The law rises with the 1-h mean, nearly in proportion: Newton by secants from the mean itself.
double bys_wind_npd_hourly(double speed, double averaging)
{
    double u = speed;
    for (int i = 0; i < 40 && speed > 0.0; i++) {
        const double f = bys_wind_npd(u, 10.0, averaging) - speed, h = 1e-6 * u;
        const double slope = (bys_wind_npd(u + h, 10.0, averaging) - speed - f) / h;
        const double step = f / slope;
        u -= step;
        if (fabs(step) <= 1e-13 * u)
            break;
    }
    return u;
}

double bys_wind_turbulence(double z, double z0)
{
    return 1.0 / log(fmax(z, 1.0) / z0);
}

bys_wind_set bys_wind_compare(double u10_3600s, double z, double averaging)
{
    bys_wind_set set;
    const double ten_min = u10_3600s / bys_wind_dnv(1.0, 10.0, 3600.0);
    const double height = bys_wind_dnv(1.0, z, 3600.0) / bys_wind_dnv(1.0, 10.0, 3600.0);
    set.dnv = bys_wind_dnv(ten_min, z, averaging);
    set.npd = bys_wind_npd(u10_3600s, z, averaging);
    set.cem = u10_3600s * bys_wind_cem_ratio(averaging) * height;
    set.low = fmin(fmin(set.dnv, set.npd), set.cem);
    set.high = fmax(fmax(set.dnv, set.npd), set.cem);
    return set;
}

double bys_wind_shape_cs(bys_wind_shape shape)
{
    static const double cs[BYS_SHAPE_COUNT] = {0.4, 0.5, 1.2, 1.0, 1.0, 1.5, 1.5};
    return shape < BYS_SHAPE_COUNT ? cs[shape] : NAN;
}
