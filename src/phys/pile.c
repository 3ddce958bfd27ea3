// SPDX-License-Identifier: GPL-3.0-or-later
// Piles: sideways and upwards.
//
// GIVEN     pile          width D, embedment L, height e of the pull above the bed (m), yield
//                         moment (N m), whether the head is held against turning
//           su            undrained strength, uniform                                   Pa
//           phi           friction angle                                                rad
//           unit_weight   of the sand in water                                          N/m3
//           qu, n1, n2    unconfined strength (Pa) and FHWA's factors of strength and material
//           alpha, k, delta   adhesion factor, side pressure factor, friction angle of the shaft
// RETURNED  ultimate sideways force when the soil gives way (short), when the pile yields (long),
//           when a held head yields first (middle), and the least; class; uplift                N
// NOTES     1. One uniform soil. Layers: use the weakest. Broms asked for caution: few tests.
//           2. Clay: 9 su D, with the top 1.5 D ignored. Sand: 3 Kp g z D.
//           3. Ultimate: deflection is not looked at. No cycles, no scour: take scour off L.
//           4. L <= 1.5 D in clay gives 0.
//           5. Uplift: shaft only, no suction below; carbonate sand is not covered.
// SOURCE    Broms 1964: clay, free head, in an open textbook eq. 6.104-6.105 and in Reese and Van
//           Impe App. A eq. A.1-A.5 [read]; sand and fixed heads [memory]; closed forms of the
//           roots [derived]; middle mechanism in clay [derived], in sand [memory]
//           class: FHWA-HI-97-013 sec. 9.7.3.2 [read]
//           adhesion 0.5 psi^-0.5, psi <= 1, else 0.5 psi^-0.25, at most 1: API RP 2A [memory]
#include "phys/hold.h"
#include "phys/phys.h"

#include <math.h>

static double least_of(double a, double b, double c)
{
    const double two = fmin(a, b);
    return isnan(c) ? two : fmin(two, c);
}

// Root f >= 0 of f^2 + 2 b f - c = 0 without cancellation.
static double root(double b, double c)
{
    return c / (b + sqrt(b * b + c));
}

// With q = 9 su D, H = q f, a = L - 1.5 D, x = e + 1.5 D:
//   short, free:  q f (x + f/2) = q g^2/4, g = a - f   ->  f^2 + 2 (2x + a) f - a^2 = 0
//   long, free:   My = q f (x + f/2)                   ->  f^2 + 2 x f - 2 My/q = 0
//   short, fixed: H = q a
//   middle:       q f (1.5 D + f/2) = My + q g^2/4     ->  f^2 + 2 (3 D + a) f - a^2 - 4 My/q = 0
//   long, fixed:  2 My = q f (1.5 D + f/2)
bys_pile_lateral bys_pile_lateral_clay(const bys_pile *pile, double su)
{
    const double D = pile->width, q = 9.0 * su * D, My = pile->yield_moment;
    const double a = fmax(pile->embedment - 1.5 * D, 0.0), x = pile->arm + 1.5 * D;
    bys_pile_lateral r = {.middle = NAN, .depth = NAN, .moment = NAN};
    if (pile->fixed_head) {
        r.short_pile = q * a;
        r.middle = q * root(3.0 * D + a, a * a + 4.0 * My / q);
        r.long_pile = q * root(1.5 * D, 4.0 * My / q);
    } else {
        r.short_pile = q * root(2.0 * x + a, a * a);
        r.long_pile = q * root(x, 2.0 * My / q);
    }
    r.used = least_of(r.short_pile, r.long_pile, r.middle);
    if (!pile->fixed_head) {
        const double f = r.used / q;
        r.depth = 1.5 * D + f;
        r.moment = r.used * (x + 0.5 * f);
    }
    return r;
}

// k f^2 (e + 2f/3) = M for f: rising and convex in f, so that Newton's steps from above fall
// monotonically onto the root. Start: the root with e = 0, which is not below it.
static double sand_depth(double k, double e, double M)
{
    double f = cbrt(1.5 * M / k);
    for (int i = 0; i < 100 && f > 0.0; i++) {
        const double step =
            (k * f * f * (e + 2.0 * f / 3.0) - M) / (2.0 * k * f * (e + f));
        f -= step;
        if (fabs(step) <= 1e-15 * f)
            break;
    }
    return f;
}

bys_pile_lateral bys_pile_lateral_sand(const bys_pile *pile, double phi, double unit_weight)
{
    const double D = pile->width, L = pile->embedment, e = pile->arm, My = pile->yield_moment;
    const double kp = (1.0 + sin(phi)) / (1.0 - sin(phi)), k = 1.5 * unit_weight * D * kp;
    const double f = sand_depth(k, e, pile->fixed_head ? 2.0 * My : My);
    bys_pile_lateral r = {.middle = NAN, .depth = NAN, .moment = NAN};
    r.long_pile = k * f * f;
    if (pile->fixed_head) {
        r.short_pile = k * L * L;
        r.middle = k * L * L / 3.0 + My / L;
    } else {
        r.short_pile = k * L * L * L / (3.0 * (e + L));
    }
    r.used = least_of(r.short_pile, r.long_pile, r.middle);
    if (!pile->fixed_head) {
        r.depth = sqrt(r.used / k);
        r.moment = r.used * (e + 2.0 * r.depth / 3.0);
    }
    return r;
}

double bys_pile_kh_clay(double n1, double n2, double qu, double width)
{
    return n1 * n2 * 80.0 * qu / width;
}

double bys_pile_beta(double kh, double width, double ei)
{
    return pow(kh * width / (4.0 * ei), 0.25);
}

double bys_pile_eta(double kh, double ei)
{
    return pow(kh / ei, 0.2);
}

bys_pile_class bys_pile_class_clay(double beta_length)
{
    return beta_length > 2.25 ? BYS_PILE_LONG : BYS_PILE_SHORT;
}

bys_pile_class bys_pile_class_sand(double eta_length)
{
    return eta_length > 4.0 ? BYS_PILE_LONG : eta_length < 2.0 ? BYS_PILE_SHORT : BYS_PILE_MIDDLE;
}

double bys_pile_adhesion(double su_over_overburden)
{
    const double psi = su_over_overburden;
    return fmin(0.5 * pow(psi, psi <= 1.0 ? -0.5 : -0.25), 1.0);
}

double bys_pile_uplift_clay(double width, double embedment, double alpha, double su, double weight)
{
    return BYS_PI * width * embedment * alpha * su + weight;
}

double bys_pile_uplift_sand(double width, double embedment, double k, double delta,
                            double unit_weight, double weight)
{
    const double mean = 0.5 * unit_weight * embedment;
    return BYS_PI * width * embedment * k * mean * tan(delta) + weight;
}
