// SPDX-License-Identifier: GPL-3.0-or-later
// What the textbook files must give: value, tolerance, source, how known.
//   read     the number was seen in the named source
//   memory   the number is remembered from the named source, not seen
//   derived  recomputed for this project, no publication (two methods unless said)
// Tolerances: a published value may differ by half a unit of its last digit; a derived one by 1e-5
// on the refined mesh (1e-3 on the mesh that the program chooses by itself).
#ifndef BYS_TESTS_TEXTBOOK_ROWS_H
#define BYS_TESTS_TEXTBOOK_ROWS_H

typedef enum {
    AT_X,
    AT_Y,
    AT_Z, ///< coordinate of a point, m
    MOVED_X,
    MOVED_Z,    ///< coordinate of the point less that of the second point, m
    DOWN_ANGLE, ///< angle of the point below the horizontal through the origin, deg
    TENSION_A,
    TENSION_B, ///< at an end of a span, N
    LEVEL_A,
    LEVEL_B, ///< its horizontal part, N
    UPRIGHT_A,
    UPRIGHT_B, ///< its vertical part, N
    FORCE_X,
    FORCE_Y,      ///< east and north part at end a, N
    GROUNDED,     ///< unstretched length on the bed, m
    GROUNDED_ALL, ///< the same of all spans together, m
    SLACK_COUNT   ///< number of spans without tension
} what;

typedef struct {
    what kind;
    const char *id, *id2;
    double want;
    double tolerance; ///< absolute if above zero, relative if below
    const char *source;
} row;

#define OWN(kind, id, want, source)                                                                \
    { kind, id, "", want, -1e-5, source ", derived" }
#define PUBLISHED(kind, id, want, half_unit, source)                                               \
    { kind, id, "", want, half_unit, source }

typedef struct {
    const char *file;
    int mesh; ///< elements a span on the refined mesh
    const row *rows;
    int count;
} problem;

static const row c1[] = {
    {MOVED_Z, "BP", "AP", -5.6255981, -1e-5, "exact elastic catenary, derived"},
    {MOVED_X, "BP", "AP", -0.8593656, -1e-5, "exact elastic catenary, derived"},
    {MOVED_Z, "BP", "AP", -5.626, 5e-4, "Jayaraman and Knudson 1981; Thai and Kim 2011, memory"},
    {MOVED_X, "BP", "AP", -0.859, 5e-4, "Jayaraman and Knudson 1981; Thai and Kim 2011, memory"},
    OWN(LEVEL_A, "A-left", 17796.664, "exact elastic catenary"),
    OWN(LEVEL_A, "B-left", 89442.555, "exact elastic catenary"),
    OWN(TENSION_A, "B-left", 93933.280, "exact elastic catenary"),
    OWN(TENSION_B, "B-right", 91946.409, "exact elastic catenary"),
};
static const row n1[] = {
    {AT_Z, "F1", "", -0.4496059, -1e-4, "catenary elements, derived"},
    {AT_X, "F1", "", -0.0404874, -1e-4, "catenary elements, derived"},
    {AT_Y, "F1", "", -0.0404874, -1e-4, "catenary elements, derived"},
    {AT_Z, "F1", "", -0.44632, -0.01,
     "Jayaraman and Knudson 1981, memory: inputs agree to 0.7 % only"},
    {AT_Z, "F1", "", -0.44650, -0.01, "Thai and Kim 2011, memory: inputs agree to 0.7 % only"},
    {TENSION_A, "H1", "", 56523.98, -1e-4, "catenary elements, derived"},
    {TENSION_A, "I1", "", 59350.8, -1e-4, "catenary elements, upper end, derived"},
    {TENSION_B, "I1", "", 59336.9, -1e-4, "catenary elements, lower end, derived"},
};
#define KWAN "exact cubic of the two-link case (topic of Kwan 1998)"
static const row n2[] = {
    OWN(AT_Z, "R1M2C", -0.7108427272, KWAN), OWN(TENSION_A, "R1M2-1", 3525.82668772, KWAN),
    OWN(AT_Z, "R1M4C", -0.5255808298, KWAN), OWN(TENSION_A, "R1M4-1", 2381.60375817, KWAN),
    OWN(AT_Z, "R2M2C", -0.7949518384, KWAN), OWN(TENSION_A, "R2M2-1", 3154.76585309, KWAN),
    OWN(AT_Z, "R2M4C", -0.6305859383, KWAN), OWN(TENSION_A, "R2M4-1", 1986.22059200, KWAN),
    OWN(AT_Z, "R3M2C", -6.0988589676, KWAN), OWN(TENSION_A, "R3M2-1", 16877.36736439, KWAN),
    OWN(AT_Z, "R3M4C", -4.4587530232, KWAN), OWN(TENSION_A, "R3M4-1", 11390.85160378, KWAN),
};
#define NET5 "Newton and energy minimisation"
static const row n3[] = {
    {AT_X, "P11", "", 12.0402434566, 4e-7, NET5 ", derived"},
    {AT_Y, "P11", "", 12.0088697083, 4e-7, NET5 ", derived"},
    {AT_X, "P22", "", 24.0597671682, 4e-7, NET5 ", derived"},
    {AT_Y, "P22", "", 24.0119765101, 4e-7, NET5 ", derived"},
    {AT_X, "P33", "", 36.0569255382, 4e-7, NET5 ", derived"},
    {AT_Y, "P33", "", 36.0090501353, 4e-7, NET5 ", derived"},
    {AT_X, "P13", "", 12.0404712090, 4e-7, NET5 ", derived"},
    {AT_Y, "P13", "", 36.0089373080, 4e-7, NET5 ", derived"},
    OWN(TENSION_A, "X02", 2699.745004, NET5),
    {TENSION_A, "X32", "", 0.0, 1e-3, NET5 ": slack, derived"},
    {SLACK_COUNT, "", "", 3.0, 0.1, NET5 ", derived"},
};
static const row k1[] = {
    OWN(TENSION_B, "chain", 1510000.0, "closed form, inverse"),
    OWN(LEVEL_B, "chain", 1489300.0, "closed form"),
    OWN(UPRIGHT_B, "chain", 249169.641, "closed form"),
    PUBLISHED(TENSION_B, "chain", 1510e3, 0.5e3, "MIT 2.019 lecture 13, read"),
};
static const row k2[] = {
    OWN(AT_Z, "M", -6.352161470, "exact elastic catenary"),
    PUBLISHED(AT_Z, "M", -6.352, 5e-4, "validation manual V6.02.114, read"),
    OWN(LEVEL_A, "left", 13206.23915, "exact elastic catenary"),
    OWN(TENSION_A, "left", 13246.57805, "exact elastic catenary"),
};
// Sags: the elastic part w L2/(8 EA) of the moved supports is added, see the files.
static const row k3[] = {
    PUBLISHED(TENSION_A, "left", 5000.0, 0.05, "reference manual R3.08.05: given there, read"),
    PUBLISHED(AT_Z, "M", -7.941, 5e-4, "reference manual R3.08.05, read"),
    OWN(AT_Z, "M", -(7.940537046 + 30.0 * 101.6620589 * 101.6620589 / 8e8), "closed form"),
    OWN(LEVEL_A, "left", 30.0 * 158.7261296, "closed form"),
};
static const row k4[] = {
    PUBLISHED(AT_Z, "M", -31.70, 5e-3, "lecture examples, Cables: Catenaries, read"),
    PUBLISHED(LEVEL_A, "left", 29.43 * 61.45, 29.43 * 5e-3, "the same: c = 61.45 m, read"),
    OWN(AT_Z, "M", -(31.69705129 + 29.43 * 140.0 * 140.0 / 8e9), "closed form"),
    OWN(LEVEL_A, "left", 29.43 * 61.44573045, "closed form"),
    OWN(TENSION_A, "left", 2741.192, "closed form"),
};
#define LBF 4.4482216152605
#define FT 0.3048
static const row k5[] = {
    PUBLISHED(TENSION_A, "left", 15.38 * LBF, 0.005 * LBF, "Beer and Johnston 7.127, memory"),
    OWN(TENSION_A, "left", 15.375 * LBF, "closed form, exact"),
    OWN(LEVEL_A, "left", 2.8125 * 1.2 * LBF, "closed form, exact"),
    OWN(AT_Z, "M", -(10.0 * FT + 1.2 * LBF / FT * 25.0 * FT * 25.0 * FT / 8e7),
        "given in the statement"),
};
static const row k6[] = {
    OWN(TENSION_A, "left", 1776.0985, "closed form of the catenary"),
    {TENSION_A, "left", "", 1775.0, -1e-3,
     "Beer and Johnston 7.107, memory: parabola, 4 n2/3 = 0.08 % off"},
    {AT_Z, "M", "", -(1.5 + 5.886 * 60.1 * 60.1 / 8e7), -1e-5, "given in the statement, read"},
};
static const row k7[] = {
    PUBLISHED(TENSION_A, "left", 1284.0 * LBF, 0.5 * LBF, "Beer and Johnston 7.10, memory"),
    PUBLISHED(LEVEL_A, "left", 984.0 * LBF, 0.5 * LBF, "Beer and Johnston 7.10, memory"),
    OWN(TENSION_A, "left", 1283.79388 * LBF, "closed form"),
    OWN(LEVEL_A, "left", 983.79388 * LBF, "closed form"),
};
static const row k8[] = {
    PUBLISHED(TENSION_A, "left", 75.9, 0.05, "Hibbeler, memory"),
    PUBLISHED(LEVEL_A, "left", 45.9, 0.05, "Hibbeler, memory"),
    OWN(TENSION_A, "left", 75.944707, "closed form"),
    OWN(LEVEL_A, "left", 45.944707, "closed form"),
    OWN(AT_Z, "M", -(6.0 + 5.0 * 24.18820347 * 24.18820347 / 8e7), "given in the statement"),
};
static const row k9[] = {
    OWN(TENSION_B, "chain", 7000.0, "given in the statement"),
    OWN(LEVEL_B, "chain", 3500.0, "given in the statement"),
    OWN(TENSION_A, "chain", 3500.0, "no friction"),
    OWN(GROUNDED, "chain", 5.66894424, "closed form"),
    PUBLISHED(GROUNDED, "chain", 5.67, 5e-3, "Hibbeler, memory"),
};
static const row k10[] = {
    OWN(LEVEL_B, "leg1", 736938.324, "closed form with grounded part"),
    OWN(UPRIGHT_B, "leg2", 535727.451, "closed form with grounded part"),
    OWN(TENSION_B, "leg3", 911088.357, "closed form with grounded part"),
    OWN(GROUNDED, "leg1", 134.785511, "closed form with grounded part"),
};
static const row s1[] = {
    OWN(LEVEL_B, "chain", 5206.791557, "closed form"),
    OWN(UPRIGHT_B, "chain", 6420.614920, "closed form"),
    OWN(TENSION_B, "chain", 8266.497098, "closed form"),
    OWN(GROUNDED_ALL, "", 52.23167694, "closed form"),
    OWN(TENSION_A, "lying", 5206.791557, "closed form"),
};
static const row s2flat[] = {
    OWN(LEVEL_B, "chain", 5222.052045, "closed form"),
    OWN(UPRIGHT_B, "chain", 6428.26248, "closed form"),
    OWN(TENSION_B, "chain", 8282.05204, "closed form"),
    OWN(TENSION_A, "lying", 5222.05204, "closed form"),
    OWN(GROUNDED_ALL, "", 52.186691, "closed form"),
};
static const row s2slope[] = {
    OWN(LEVEL_B, "chain", 7758.998392, "closed form"),
    OWN(UPRIGHT_B, "chain", 8059.39370, "closed form"),
    OWN(TENSION_B, "chain", 11187.30901, "closed form"),
    OWN(TENSION_A, "lying", 8127.30901, "closed form"),
    OWN(GROUNDED_ALL, "", 40.199850, "closed form"),
};
#define POLE "closed form (Eames, Pode: memory)"
static const row u2[] = {
    OWN(TENSION_A, "a1", 5133.442648, POLE),  OWN(TENSION_B, "a1", 5133.442648, POLE ": middle"),
    OWN(TENSION_B, "b1", 5133.442648, POLE),  OWN(AT_Y, "M1", 12.41760744, POLE),
    OWN(FORCE_X, "a1", 4579.554072, POLE),    OWN(FORCE_Y, "a1", 2319.465007, POLE),
    OWN(TENSION_A, "a2", 34744.460738, POLE), OWN(AT_Y, "M2", 17.44128643, POLE),
    OWN(FORCE_X, "a2", 32770.419650, POLE),   OWN(FORCE_Y, "a2", 11544.572228, POLE),
};
#define FRIDMAN "relation of Fridman 1986 eq. 5.22 (read)"
static const row u3[] = {
    OWN(DOWN_ANGLE, "k0-1E", 17.96423592, FRIDMAN), OWN(DOWN_ANGLE, "k0-25E", 28.02017612, FRIDMAN),
    OWN(DOWN_ANGLE, "k0-5E", 38.66828249, FRIDMAN), OWN(DOWN_ANGLE, "k1E", 51.82729237, FRIDMAN),
    OWN(DOWN_ANGLE, "k2E", 65.53017948, FRIDMAN),   OWN(DOWN_ANGLE, "k5E", 78.89647118, FRIDMAN),
};
#define TWICE "integrated twice"
static const row u4[] = {
    OWN(FORCE_X, "a-rope", 394.4496935, TWICE),    OWN(UPRIGHT_A, "a-rope", 1425.3544992, TWICE),
    OWN(TENSION_A, "a-rope", 1478.927317, TWICE),  OWN(AT_X, "aF", 7.916273718, TWICE),
    OWN(AT_Z, "aF", 44.23170234, TWICE),           OWN(FORCE_X, "b-rope", 394.3977895, TWICE),
    OWN(UPRIGHT_A, "b-rope", 1425.1089678, TWICE), OWN(AT_X, "bF", 7.916395266, TWICE),
    OWN(AT_Z, "bF", 44.23167382, TWICE),           OWN(FORCE_X, "c-rope", 394.4496935, TWICE),
    OWN(UPRIGHT_A, "c-rope", 1425.3544992, TWICE), OWN(AT_X, "cF", 8.211088862, TWICE),
    OWN(AT_Z, "cF", 45.88157909, TWICE),
};
#define CHAINED "chained exact catenaries"
static const row m1[] = {
    OWN(LEVEL_B, "upper", 4975.140447, CHAINED),   OWN(GROUNDED, "chain", 22.73841105, CHAINED),
    OWN(AT_X, "clump", 29.94619012, CHAINED),      OWN(AT_Z, "clump", 0.78568747, CHAINED),
    OWN(UPRIGHT_B, "chain", 1089.238343, CHAINED), OWN(UPRIGHT_A, "rope", 2589.238343, CHAINED),
    OWN(TENSION_B, "chain", 5092.981704, CHAINED), OWN(TENSION_A, "rope", 5608.580718, CHAINED),
    OWN(AT_X, "float", 65.85580391, CHAINED),      OWN(AT_Z, "float", 19.64742978, CHAINED),
    OWN(UPRIGHT_B, "rope", 2637.238343, CHAINED),  OWN(UPRIGHT_A, "upper", 137.238343, CHAINED),
    OWN(TENSION_B, "rope", 5630.901220, CHAINED),  OWN(TENSION_A, "upper", 4977.032934, CHAINED),
    OWN(UPRIGHT_B, "upper", 151.638343, CHAINED),  OWN(TENSION_B, "upper", 4977.450819, CHAINED),
};
// Load along the span: the end link misses half a joint's load of 62.5 N of the 2500 N at each end.
static const row l1a[] = {
    OWN(TENSION_A, "a1", 5133.442648, "normal drag, closed form"),
    OWN(TENSION_B, "a1", 5133.442648, "normal drag, closed form: middle"),
    OWN(FORCE_X, "b1", 5133.442648, "load of fixed direction, closed form"),
    OWN(TENSION_A, "b1", 5754.323020, "load of fixed direction, closed form"),
    OWN(FORCE_X, "s1", 5014.767079, "load along the span, parabola"),
    OWN(FORCE_Y, "s1", 2500.0 - 62.5, "load along the span, parabola"),
    OWN(AT_Y, "c20", 12.46319101, "load along the span, parabola"),
};
#define CAT "exact elastic catenary"
static const row l1b[] = {
    OWN(FORCE_X, "p11", 12698.82636, CAT),
    OWN(TENSION_A, "p11", 12942.57281, CAT),
    OWN(AT_Y, "p1M", 4.90617899, CAT),
    OWN(TENSION_A, "d11", 12779.97168, "closed form"),
    OWN(AT_Y, "d1M", 4.90607971, "closed form"),
    OWN(FORCE_X, "p21", 6661.64823, CAT),
    OWN(TENSION_A, "p21", 7133.02580, CAT),
    OWN(AT_Y, "p2M", 9.46006401, CAT),
    OWN(TENSION_A, "d21", 6693.36552, "closed form"),
    OWN(AT_Y, "d2M", 9.44666439, "closed form"),
    OWN(FORCE_X, "p31", 14981.52489, CAT),
    OWN(TENSION_A, "p31", 16138.34217, CAT),
    OWN(AT_Y, "p3M", 9.89014401, CAT),
    OWN(TENSION_A, "d31", 15365.18130, "closed form"),
    OWN(AT_Y, "d3M", 9.88701494, "closed form"),
};

#define ROWS(name) name, (int)(sizeof name / sizeof name[0])
static const problem problems[] = {
    {"c1-point-load", 512, ROWS(c1)},
    {"n1-spatial-net", 16, ROWS(n1)},
    {"n2-two-and-four-links", 0, ROWS(n2)},
    {"n3-slack-net", 0, ROWS(n3)},
    {"k1-minimum-length", 512, ROWS(k1)},
    {"k2-flat-start", 256, ROWS(k2)},
    {"k3-end-tension", 256, ROWS(k3)},
    {"k4-140-over-120", 256, ROWS(k4)},
    {"k5-chain-10-ft", 256, ROWS(k5)},
    {"k6-sag-1500-mm", 256, ROWS(k6)},
    {"k7-sag-100-ft", 256, ROWS(k7)},
    {"k8-sag-6-m", 256, ROWS(k8)},
    {"k9-yacht", 512, ROWS(k9)},
    {"k10-three-legs", 512, ROWS(k10)},
    {"s1-flat-bed", 320, ROWS(s1)},
    {"s2-flat", 320, ROWS(s2flat)},
    {"s2-slope", 320, ROWS(s2slope)},
    {"u2-neutral-line", 256, ROWS(u2)},
    {"u3-critical-angle", 32, ROWS(u3)},
    {"u4-subsurface-float", 256, ROWS(u4)},
    {"m1-clump-and-float", 768, ROWS(m1)},
    {"l1-three-loads", 256, ROWS(l1a)},
    {"l1-elastic", 256, ROWS(l1b)},
};
enum { PROBLEM_COUNT = sizeof problems / sizeof problems[0] };

#endif
