// SPDX-License-Identifier: GPL-3.0-or-later
// Elastic catenary between two points, free or partly on a flat bed; its tangent and taut limits.
//
// GIVEN     H, Vi      tension at the lower end (a): horizontal, and upward part of the force with
//                      which the line goes on, tension vector (H, V) pointing from a to b       N
//           w          weight in water per unstretched length, negative for a floating line   N/m
//           EA         axial stiffness; infinite or <= 0 means inextensible                   N
//           length     unstretched                                                            m
//           dx, dz     end b from end a, horizontally (>= 0) and upwards                      m
//           q, span    uniform load across a taut line, distance of its ends                 N/m, m
//           y          height of the upper end above the bed                                  m
// RETURNED  H, Vi, Vj = Vi + w length, Ti, Tj (N), dx, dz (m); unstretched length on the bed (m);
//           tension (N).
// NOTES     1. Load is w per unstretched length only. Linear stretch, no bending stiffness.
//           2. The solution is the minimum of the convex complementary energy
//                U(H, V) = integral over s of T + T^2/(2 EA), less H dx + V dz,
//                T^2 = H^2 + (V + w s)^2,
//              whose gradient is the error of the end's position and whose second derivative is the
//              flexibility. So there is one solution, and damped Newton steps lead to it.
//           3. dx under 1e-9 length counts as 1e-9 length. An inextensible line must be longer than
//              the chord. The end's position is met within 1e-12 of (length + chord); dx and dz in
//              the result are those that the forces return.
//           4. The bed is flat, frictionless, level with the anchor. A line longer than it need be
//              lies slack on it with H = 0.
//           5. The parabola takes load and length to first order of sag/span squared: 0.6 % off
//              in H at a sag of 1/20, 2.3 % at 1/10, against the exact elastic catenary.
// SOURCE    Irvine 1981; Jayaraman & Knudson 1981 (flexibility). [memory]; elastic form seen in a
//           finite-element code's validation manual [read]; grounded form Jonkman 2007 [memory];
//           K1: MIT 2.019 lecture 13, after Faltinsen 1990 [read]. The forms without cancellation,
//           the energy argument and the parabola: [derived]
#include "phys/phys.h"

#include <math.h>

typedef struct { double w, inv_EA, length; } line;
typedef struct { double xx, xz, zz; } flexibility;

static line line_of(double w, double EA, double length)
{
    const line l = {w, EA > 0.0 ? 1.0 / EA : 0.0, length};
    return l;
}

// ln[(Tj + Vj)/(Ti + Vi)] = asinh(Vj/H) - asinh(Vi/H), T + V taken as H^2/(T - V) where V < 0.
static double asinh_difference(double H, double Vi, double Vj, double Ti, double Tj)
{
    const double y = (Vj - Vi) / (Ti + Tj); // = tanh of half the difference
    if (fabs(y) < 0.5)
        return 2.0 * atanh(y);
    const double upper = Vj >= 0.0 ? Tj + Vj : H * (H / (Tj - Vj));
    const double lower = Vi >= 0.0 ? Ti + Vi : H * (H / (Ti - Vi));
    return log(upper / lower);
}

// dx = H L/EA + (H/w)[asinh(Vj/H) - asinh(Vi/H)]
// dz = L (Vi + Vj) [1/(2 EA) + 1/(Ti + Tj)], the closed form with Vj - Vi = w L put in.
static bys_catenary shape_of(double H, double Vi, line l)
{
    bys_catenary c = {.H = H, .Vi = Vi, .Vj = Vi + l.w * l.length};
    c.Ti = hypot(H, c.Vi);
    c.Tj = hypot(H, c.Vj);
    const double sum = c.Ti + c.Tj;
    c.dz = l.length * (c.Vi + c.Vj) * (0.5 * l.inv_EA + (sum > 0.0 ? 1.0 / sum : 0.0));
    if (H > 0.0)
        c.dx = H * (l.length * l.inv_EA + asinh_difference(H, c.Vi, c.Vj, c.Ti, c.Tj) / l.w);
    return c;
}

bys_catenary bys_catenary_shape(double H, double Vi, double w, double EA, double length)
{
    return shape_of(H, Vi, line_of(w, EA, length));
}

// Integrals of V^2/T^3, HV/T^3, H^2/T^3 over s by four Gauss points, for a nearly straight line,
// where the closed forms cancel.
static flexibility straight_flexibility(const bys_catenary *c, line l)
{
    static const double x[2] = {0.33998104358485626, 0.86113631159405258};
    static const double g[2] = {0.65214515486254614, 0.34785484513745386};
    flexibility f = {0.0, 0.0, 0.0};
    for (int i = 0; i < 4; i++) {
        const double s = 0.5 * (1.0 + (i < 2 ? x[i] : -x[i - 2])), weight = 0.5 * g[i % 2];
        const double V = c->Vi + s * (c->Vj - c->Vi), T2 = c->H * c->H + V * V;
        const double part = weight * l.length / (T2 * sqrt(T2));
        f.xx += part * V * V;
        f.xz -= part * c->H * V;
        f.zz += part * c->H * c->H;
    }
    return f;
}

// d(dx, dz)/d(H, Vi): L/EA on the diagonal, and the integrals of V^2/T^3, -HV/T^3, H^2/T^3 over s,
// closed: (1/w)(D asinh - D(V/T)), (H/w) D(1/T), (1/w) D(V/T).
static flexibility flexibility_of(const bys_catenary *c, line l)
{
    const double H = c->H, Vi = c->Vi, Vj = c->Vj, Ti = c->Ti, Tj = c->Tj;
    flexibility f;
    if (fabs(Vj - Vi) < 0.02 * (Ti + Tj)) {
        f = straight_flexibility(c, l);
    } else {
        const double turn = Vi * Vj > 0.0 ? H * H * (Vj - Vi) * (Vi + Vj) / (Vj * Ti + Vi * Tj)
                                          : Vj * Ti - Vi * Tj;
        f.zz = turn / (l.w * Ti * Tj);
        f.xz = -H * l.length * (Vi + Vj) / ((Ti + Tj) * Ti * Tj);
        f.xx = fmax(asinh_difference(H, Vi, Vj, Ti, Tj) / l.w - f.zz, 0.0);
    }
    f.xx += l.length * l.inv_EA;
    f.zz += l.length * l.inv_EA;
    return f;
}

// Root x of sinh(x)/x = r > 1. ln(sinh x / x) is convex and <= min(x^2/6, x), hence the start left
// of the root; Newton passes it once and then falls to it.
static double sinh_over_x_root(double r)
{
    const double target = log(r);
    double x = fmax(sqrt(6.0 * target), target);
    for (int i = 0; i < 40; i++) {
        const double f =
            x < 1e-3 ? x * x / 6.0 : x + log(-expm1(-2.0 * x) / (2.0 * x));
        const double slope = x < 1e-3 ? x / 3.0 : 1.0 / tanh(x) - 1.0 / x;
        const double step = (f - target) / slope;
        x -= step;
        if (!(fabs(step) > 1e-14 * x))
            break;
    }
    return x;
}

// Start: a slack line by the exact inextensible catenary, sqrt(L^2 - dz^2) = dx sinh(x)/x with
// x = |w| dx/(2H), Vi = (|w| dz coth x - w L)/2; a taut one by the parabola along its chord.
static void start_of(double *H, double *Vi, double dx, double dz, line l)
{
    const double chord = hypot(dx, dz), weight = fabs(l.w);
    if (l.length > 1.05 * chord) {
        const double flat = sqrt((l.length - dz) * (l.length + dz));
        const double x = sinh_over_x_root(flat / dx);
        *H = weight * dx / (2.0 * x);
        *Vi = 0.5 * (weight * dz / tanh(x) - l.w * l.length);
    } else {
        const double EA = l.inv_EA > 0.0 ? 1.0 / l.inv_EA : (double)INFINITY;
        const double T = bys_parabola_tension(weight * dx / chord, chord, EA, l.length);
        *H = fmax(T * dx / chord, 1e-3 * weight * dx);
        *Vi = T * dz / chord - 0.5 * l.w * l.length;
    }
}

typedef struct { double H, V; } pair;

// A step along p that lowers U enough: halved while U already rises steeply at its end, doubled
// while it still falls almost as steeply as at the start. U is convex, so the slope rises with t.
static double step_length(const bys_catenary *c, pair p, double slope, double dx, double dz, line l)
{
    double t = p.H < 0.0 ? fmin(1.0, 0.9 * c->H / -p.H) : 1.0;
    bool may_double = p.H >= 0.0;
    for (int i = 0; i < 60; i++) {
        const bys_catenary n = shape_of(c->H + t * p.H, c->Vi + t * p.V, l);
        const double end = (n.dx - dx) * p.H + (n.dz - dz) * p.V;
        if (end > -0.5 * slope) {
            t *= 0.5;
            may_double = false;
        } else if (end < 0.9 * slope && may_double) {
            t *= 2.0;
        } else {
            break;
        }
    }
    return t;
}

static double miss(const bys_catenary *c, double dx, double dz)
{
    return fmax(fabs(c->dx - dx), fabs(c->dz - dz));
}

static bool newton_step(pair *p, const bys_catenary *c, double dx, double dz, line l)
{
    const flexibility f = flexibility_of(c, l);
    const double gx = c->dx - dx, gz = c->dz - dz, det = f.xx * f.zz - f.xz * f.xz;
    if (!(det > 0.0))
        return false;
    p->H = (f.xz * gz - f.zz * gx) / det;
    p->V = (f.xz * gx - f.xx * gz) / det;
    return true;
}

// Full Newton steps for as long as they shrink the miss.
static void polish(bys_catenary *c, double dx, double dz, line l)
{
    pair p;
    for (int i = 0; i < 4 && newton_step(&p, c, dx, dz, l); i++) {
        const bys_catenary n = shape_of(c->H + p.H, c->Vi + p.V, l);
        if (!(n.H > 0.0) || !(miss(&n, dx, dz) < miss(c, dx, dz)))
            break;
        *c = n;
    }
}

bool bys_catenary_solve(bys_catenary *out, double dx, double dz, double w, double EA, double length)
{
    const line l = line_of(w, EA, length);
    const double X = fmax(dx, 1e-9 * length), scale = length + hypot(X, dz);
    if (!(length > 0.0) || !(dx >= 0.0) || w == 0.0 || !isfinite(w) || !isfinite(scale) ||
        (l.inv_EA == 0.0 && length <= hypot(X, dz)))
        return false;
    double H, Vi;
    start_of(&H, &Vi, X, dz, l);
    bys_catenary c = shape_of(H, Vi, l);
    for (int i = 0; i < 200 && !(miss(&c, X, dz) <= 1e-11 * scale); i++) {
        pair p;
        if (!newton_step(&p, &c, X, dz, l))
            return false;
        const double slope = (c.dx - X) * p.H + (c.dz - dz) * p.V;
        const double t = step_length(&c, p, slope, X, dz, l);
        c = shape_of(c.H + t * p.H, c.Vi + t * p.V, l);
    }
    polish(&c, X, dz, l);
    *out = c;
    return miss(&c, X, dz) <= 1e-12 * scale;
}

// Suspended part from the horizontal at the bed to height z. With e(T) = T + T^2/2EA the energy
// integral is e(T) = e(H) + w z; V^2 = (T - H)(T + H), dV/dH = (T - H)/(V (1 + T/EA)).
typedef struct { double T, V, dV; } lifted;

static lifted lifted_of(double H, double z, line l)
{
    const double e = H + 0.5 * H * H * l.inv_EA + l.w * z;
    lifted p;
    p.T = 2.0 * e / (1.0 + sqrt(1.0 + 2.0 * e * l.inv_EA));
    const double gain = l.w * z / (1.0 + 0.5 * (p.T + H) * l.inv_EA); // T - H
    p.V = sqrt(gain * (p.T + H));
    p.dV = p.V > 0.0 ? gain / (p.V * (1.0 + p.T * l.inv_EA)) : 0.0;
    return p;
}

// Reach of a line that rests on the bed and rises with horizontal tension H to height z:
//   X = L - V/w + (H/w) asinh(V/H) + H L/EA.
static double grounded_reach(double H, double z, line l, double *slope)
{
    const lifted p = lifted_of(H, z, l);
    const double turn = H > 0.0 ? asinh(p.V / H) : 0.0;
    *slope = l.length * l.inv_EA;
    if (p.T > 0.0)
        *slope += (turn - p.dV + (p.dV * H - p.V) / p.T) / l.w;
    return l.length + (H * turn - p.V) / l.w + H * l.length * l.inv_EA;
}

// Newton for the horizontal tension, kept inside a bracket. The reach at H = 0 falls short of dx.
static bool grounded_tension(double *H, double dx, double dz, line l)
{
    double lo = 0.0, hi = l.w * l.length, slope;
    for (int i = 0; grounded_reach(hi, dz, l, &slope) < dx; i++) {
        if (i == 200)
            return false;
        lo = hi;
        hi *= 2.0;
    }
    double h = hi;
    for (int i = 0; i < 200; i++) {
        const double error = grounded_reach(h, dz, l, &slope) - dx;
        if (error < 0.0)
            lo = h;
        else
            hi = h;
        const double step = error / slope;
        if (fabs(step) <= 4e-16 * h)
            break;
        h = h - step > lo && h - step < hi ? h - step : 0.5 * (lo + hi);
    }
    *H = h;
    return true;
}

bool bys_catenary_grounded(bys_catenary *out, double *grounded, double dx, double dz, double w,
                           double EA, double length)
{
    const line l = line_of(w, EA, length);
    if (!(dz >= 0.0) || !(dx >= 0.0) || !(length > 0.0))
        return false;
    *grounded = 0.0;
    const lifted hanging = lifted_of(0.0, dz, l);
    if (w > 0.0 && length - hanging.V / w >= dx) { // slack: nothing pulls sideways
        const bys_catenary c = {.Vj = hanging.V, .Tj = hanging.V, .dx = dx, .dz = dz};
        *out = c;
        *grounded = length - hanging.V / w;
        return true;
    }
    bys_catenary c;
    if (!bys_catenary_solve(&c, dx, dz, w, EA, length))
        return false;
    if (w > 0.0 && c.Vi < 0.0) {
        double H, slope;
        if (!grounded_tension(&H, dx, dz, l))
            return false;
        const lifted p = lifted_of(H, dz, l);
        c = (bys_catenary){.H = H, .Vj = p.V, .Ti = H, .Tj = p.T, .dz = dz};
        c.dx = grounded_reach(H, dz, l, &slope);
        *grounded = length - p.V / w;
    }
    *out = c;
    return true;
}

// c = H/w, S = sqrt(y^2 + 2yc), x = c asinh(S/c), T = H + w y.
void bys_catenary_tangent(double *S, double *x, double *T, double H, double w, double y)
{
    const double c = H / w;
    *S = sqrt(y * (y + 2.0 * c));
    *x = c > 0.0 ? c * asinh(*S / c) : 0.0;
    *T = H + w * y;
}

// f(H) = a H^3 + b H^2 - A with a = L0/EA, b = L0 - S, A = q^2 S^3/24 has one positive root. From a
// start right of it, where f is convex, Newton falls to it: min[(A/a)^(1/3), (A/b)^(1/2)] for
// b > 0, -b/a + (A/a)^(1/3) for b <= 0. Inextensible: a = 0. NaN where no tension would do.
double bys_parabola_tension(double q, double span, double EA, double length)
{
    const double a = EA > 0.0 ? length / EA : 0.0, b = length - span;
    const double A = q * q * span * span * span / 24.0;
    if (a == 0.0)
        return b > 0.0 ? sqrt(A / b) : (double)NAN;
    double H = b > 0.0 ? fmin(cbrt(A / a), sqrt(A / b)) : cbrt(A / a) - b / a;
    for (int i = 0; i < 60; i++) {
        const double f = (a * H + b) * H * H - A, slope = (3.0 * a * H + 2.0 * b) * H;
        const double step = slope > 0.0 ? f / slope : 0.0;
        H -= step;
        if (!(fabs(step) > 4e-16 * H))
            break;
    }
    return H;
}
