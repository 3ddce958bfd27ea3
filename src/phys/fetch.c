// SPDX-License-Identifier: GPL-3.0-or-later
// Wind sea by published growth laws of fetch and depth.
//
// GIVEN     u10     wind at 10 m, the mean over the time the sea needs (about 1 h)   m/s
//           fetch   length of water to windward                                      m
//           depth   of that water, one value; deep laws use it for the caps only     m
//           t       duration of the wind                                             s
// RETURNED  hs (m) and tp (s), each law's own pair; fetch (m), time (s).
// NOTES     1. The laws do not agree: 20 m/s over 5 km gives 0.66 to 1.00 m and 2.3 to 3.4 s. Load
//              follows height and period differently; solve each pair, do not mix them.
//           2. CEM: the period constant is 0.651 in two transcriptions, 0.751 from memory of other
//              printings, and nearer to the stated period of full development. Both are offered.
//           3. Caps, for CEM and every deep law: hs at most 0.6 d, tp at most 9.78 sqrt(d/g). The
//              two laws of finite depth have their own and are not capped.
//           4. Left out: swell, refraction, shores that shelter part of the sector, current, a wind
//              that turns or rises, a fetch of varied depth. Neutral air.
//           5. SPM 1984 uses UA = 0.71 U^1.23 and its period is that of the peak.
//           6. Wilson gives a significant period Ts; tp = Ts/0.95.
//           7. The two CEM relations of duration differ: II-2-38 gives three quarters of the fetch that
//              fits II-2-35, hence lower waves for a short blow.
// SOURCE    CEM EM 1110-2-1100 II-2-36 to -39: growth seen in transcriptions, duration and full
//           development [read] at a reprint; II-2-35 and 0.751 [memory].
//           SPM 1984 eq. 3-33 to 3-40, Young and Verhagen 1996 eq. 25-27, Hasselmann et al. 1973,
//           Kahma and Calkoen 1992, Wilson 1965: seen in transcriptions, not in the originals.
//           [memory]   SPM duration eq. 3-35. [memory]
#include "phys/sea_loads.h"
#include "phys/phys.h"

#include <math.h>

const char *bys_fetch_law_name(bys_fetch_law law)
{
    static const char *const name[BYS_FETCH_LAW_COUNT] = {
        "CEM (0.651)",    "CEM (0.751)", "SPM 1984 deep", "SPM 1984 shallow",
        "Young-Verhagen", "JONSWAP",     "Wilson",        "Kahma-Calkoen",
    };
    return law < BYS_FETCH_LAW_COUNT ? name[law] : "";
}

double bys_fetch_height_cap(double depth)
{
    return 0.6 * depth;
}

double bys_fetch_period_cap(double depth)
{
    return 9.78 * sqrt(depth / BYS_G);
}

static bys_wind_sea capped(bys_wind_sea sea, double depth)
{
    const double hs = bys_fetch_height_cap(depth), tp = bys_fetch_period_cap(depth);
    sea.capped = sea.hs > hs || sea.tp > tp;
    sea.hs = fmin(sea.hs, hs);
    sea.tp = fmin(sea.tp, tp);
    return sea;
}

// u*^2 = 0.001 (1.1 + 0.035 U) U^2
static double friction_speed(double u10)
{
    return u10 * sqrt(0.001 * (1.1 + 0.035 * u10));
}

static bys_wind_sea cem(double u10, double fetch, double period)
{
    const double u = friction_speed(u10), X = BYS_G * fetch / (u * u);
    const double h = 4.13e-2 * sqrt(X), t = period * cbrt(X);
    return (bys_wind_sea){.hs = fmin(h, 211.5) * u * u / BYS_G,
                          .tp = fmin(t, 239.8) * u / BYS_G,
                          .developed = h >= 211.5};
}

static double spm_speed(double u10)
{
    return 0.71 * pow(u10, 1.23);
}

static bys_wind_sea spm_deep(double u10, double fetch)
{
    const double u = spm_speed(u10), X = BYS_G * fetch / (u * u);
    const double h = 1.6e-3 * sqrt(X), t = 0.2857 * cbrt(X);
    return (bys_wind_sea){.hs = fmin(h, 0.2433) * u * u / BYS_G,
                          .tp = fmin(t, 8.134) * u / BYS_G,
                          .developed = h >= 0.2433};
}

static bys_wind_sea spm_shallow(double u10, double fetch, double depth)
{
    const double u = spm_speed(u10), X = BYS_G * fetch / (u * u), D = BYS_G * depth / (u * u);
    const double a = tanh(0.53 * pow(D, 0.75)), b = tanh(0.833 * pow(D, 0.375));
    const double growth = 0.00565 * sqrt(X) / a;
    return (bys_wind_sea){.hs = 0.283 * a * tanh(growth) * u * u / BYS_G,
                          .tp = 7.54 * b * tanh(0.0379 * cbrt(X) / b) * u / BYS_G,
                          .developed = growth > 3.0};
}

static bys_wind_sea young_verhagen(double u10, double fetch, double depth)
{
    const double X = BYS_G * fetch / (u10 * u10), D = BYS_G * depth / (u10 * u10);
    const double a1 = tanh(0.493 * pow(D, 0.75)), b1 = 3.13e-3 * pow(X, 0.57);
    const double a2 = tanh(0.331 * pow(D, 1.01)), b2 = 5.215e-4 * pow(X, 0.73);
    const double e = 3.64e-3 * pow(a1 * tanh(b1 / a1), 1.74);
    const double nu = 0.133 * pow(a2 * tanh(b2 / a2), -0.37);
    return (bys_wind_sea){.hs = 4.0 * sqrt(e) * u10 * u10 / BYS_G,
                          .tp = u10 / (BYS_G * nu),
                          .developed = b1 / a1 > 3.0};
}

// m0 = e U^4/g^2, fp = nu g/U, held at full development.
static bys_wind_sea power_law(double u10, double e, double nu)
{
    return (bys_wind_sea){.hs = 4.0 * sqrt(fmin(e, 3.64e-3)) * u10 * u10 / BYS_G,
                          .tp = u10 / (BYS_G * fmax(nu, 0.133)),
                          .developed = e >= 3.64e-3};
}

static bys_wind_sea wilson(double u10, double fetch)
{
    const double X = BYS_G * fetch / (u10 * u10);
    const double h = 1.0 + 0.004 * sqrt(X), t = 1.0 + 0.008 * cbrt(X);
    return (bys_wind_sea){.hs = 0.3 * (1.0 - 1.0 / (h * h)) * u10 * u10 / BYS_G,
                          .tp = 1.37 * 2.0 * BYS_PI * (1.0 - pow(t, -5.0)) * u10 / BYS_G / 0.95,
                          .developed = h > 10.0};
}

bys_wind_sea bys_fetch_grow(bys_fetch_law law, double u10, double fetch, double depth)
{
    const bys_wind_sea none = {0};
    if (!(u10 > 0.0 && fetch > 0.0 && depth > 0.0))
        return none;
    const double X = BYS_G * fetch / (u10 * u10);
    switch (law) {
    case BYS_FETCH_CEM_651: return capped(cem(u10, fetch, 0.651), depth);
    case BYS_FETCH_CEM_751: return capped(cem(u10, fetch, 0.751), depth);
    case BYS_FETCH_SPM84_DEEP: return capped(spm_deep(u10, fetch), depth);
    case BYS_FETCH_SPM84_SHALLOW: return spm_shallow(u10, fetch, depth);
    case BYS_FETCH_YOUNG_VERHAGEN: return young_verhagen(u10, fetch, depth);
    case BYS_FETCH_JONSWAP:
        return capped(power_law(u10, 1.6e-7 * X, 3.5 * pow(X, -0.33)), depth);
    case BYS_FETCH_WILSON: return capped(wilson(u10, fetch), depth);
    case BYS_FETCH_KAHMA_CALKOEN:
        return capped(power_law(u10, 5.2e-7 * pow(X, 0.9),
                                13.7 / (2.0 * BYS_PI) * pow(X, -0.27)), depth);
    case BYS_FETCH_LAW_COUNT: break;
    }
    return none;
}

double bys_fetch_of_duration_cem(double u10, double t)
{
    const double u = friction_speed(u10);
    return 5.23e-3 * pow(BYS_G * t / u, 1.5) * u * u / BYS_G;
}

double bys_fetch_time_cem(double u10, double fetch)
{
    return 77.23 * pow(fetch, 0.67) / (pow(u10, 0.34) * pow(BYS_G, 0.33));
}

// g t/UA = 68.8 (g F/UA^2)^(2/3)
double bys_fetch_of_duration_spm84(double u10, double t)
{
    const double u = spm_speed(u10);
    return pow(BYS_G * t / (68.8 * u), 1.5) * u * u / BYS_G;
}
