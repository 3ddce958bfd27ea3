// SPDX-License-Identifier: GPL-3.0-or-later
// Wind sea from fetch and depth, fetch from the shore, wave statistics.
#include "phys/phys.h"
#include "phys/sea_loads.h"
#include "support/suite.h"

#include <string.h>

static const double degree = BYS_PI / 180.0;

// Loads note 5.1, table of the laws side by side: computed there from the published formulas
// (derived) with g = 9.81, three digits given. The formulas were seen in transcriptions.
START_TEST(laws_side_by_side)
{
    static const struct {
        double u, fetch, depth;
        double value[5][2]; // CEM .651, CEM .751, JONSWAP, SPM shallow, Young-Verhagen: hs, tp
        double hours;
    } row[] = {
        {20, 5e3, 5, {{.79, 2.30}, {.79, 2.65}, {.72, 2.85}, {.89, 2.98}, {.66, 3.35}}, 1.10},
        {20, 5e3, 20, {{.79, 2.30}, {.79, 2.65}, {.72, 2.85}, {1.00, 3.14}, {.70, 3.42}}, 1.10},
        {20, 2e4, 10, {{1.58, 3.65}, {1.58, 4.21}, {1.44, 4.50}, {1.69, 4.53}, {1.27, 4.78}}, 2.78},
        {30, 1e4, 8, {{1.83, 3.42}, {1.83, 3.94}, {1.53, 4.11}, {1.92, 4.37}, {1.37, 4.80}}, 1.52},
    };
    static const bys_fetch_law law[5] = {BYS_FETCH_CEM_651, BYS_FETCH_CEM_751, BYS_FETCH_JONSWAP,
                                         BYS_FETCH_SPM84_SHALLOW, BYS_FETCH_YOUNG_VERHAGEN};
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        for (int j = 0; j < 5; j++) {
            const bys_wind_sea sea = bys_fetch_grow(law[j], row[i].u, row[i].fetch, row[i].depth);
            expect_abs(sea.hs * sqrt(BYS_G / 9.81), row[i].value[j][0], 0.0051); // g^-1/2 or so
            expect_abs(sea.tp, row[i].value[j][1], 0.0051);
        }
        expect_abs(bys_fetch_time_cem(row[i].u, row[i].fetch) / 3600.0, row[i].hours, 0.0051);
    }
}
END_TEST

// Textbook homework (read, loads note 9): adjusted wind 15 m/s, 200 km, constants .0016 and .286:
// published 3.417 m and 9 s, fetch of the full sea 529 km; recomputed there 3.427 and 9.00.
START_TEST(textbook_homework)
{
    const double u10 = pow(15.0 / 0.71, 1.0 / 1.23);
    const bys_wind_sea sea = bys_fetch_grow(BYS_FETCH_SPM84_DEEP, u10, 200e3, 1000.0);
    expect_abs(sea.hs, 3.427, 0.0005);
    expect_close(sea.hs, 3.417, 0.004);
    expect_abs(sea.tp, 9.00, 0.01);
    ck_assert(!sea.developed);
    ck_assert(!bys_fetch_grow(BYS_FETCH_SPM84_DEEP, u10, 525e3, 1000.0).developed);
    ck_assert(bys_fetch_grow(BYS_FETCH_SPM84_DEEP, u10, 535e3, 1000.0).developed);
}
END_TEST

START_TEST(full_development)
{
    // CEM II-2-37 (read): 211.5 u*^2/g and 239.8 u*/g. With X = 2.62e7 the fetch law gives 193
    // (.651) or 223 (.751): loads note 5.1, computed.
    const double u = 20.0 * sqrt(0.0018), X = 2.62e7, fetch = X * u * u / BYS_G;
    expect_close(bys_fetch_grow(BYS_FETCH_CEM_651, 20, fetch, 1e4).tp * BYS_G / u, 193.0, 0.003);
    expect_close(bys_fetch_grow(BYS_FETCH_CEM_751, 20, fetch, 1e4).tp * BYS_G / u, 223.0, 0.003);
    const bys_wind_sea full = bys_fetch_grow(BYS_FETCH_CEM_651, 20, 100.0 * fetch, 1e4);
    expect_close(full.hs * BYS_G / (u * u), 211.5, 1e-12);
    expect_close(full.tp * BYS_G / u, 239.8, 1e-12);
    ck_assert(full.developed);
    // JONSWAP, Kahma-Calkoen: g^2 m0/U^4 = 3.64e-3, fp U/g = .133 (transcription)
    const bys_wind_sea j = bys_fetch_grow(BYS_FETCH_JONSWAP, 20, 1e9, 1e4);
    expect_close(j.hs, 4.0 * sqrt(3.64e-3) * 400.0 / BYS_G, 1e-12);
    expect_close(j.tp, 20.0 / (0.133 * BYS_G), 1e-12);
    // Young and Verhagen in deep water end at the same two numbers, Wilson at .3 U^2/g
    const bys_wind_sea y = bys_fetch_grow(BYS_FETCH_YOUNG_VERHAGEN, 20, 1e9, 1e5);
    expect_close(y.hs, j.hs, 1e-6);
    expect_close(y.tp, j.tp, 1e-6);
    expect_close(bys_fetch_grow(BYS_FETCH_WILSON, 20, 1e12, 1e4).hs, 0.3 * 400 / BYS_G, 1e-5);
}
END_TEST

START_TEST(depth_caps) // CEM: 0.6 d, 9.78 sqrt(d/g) (transcription)
{
    const bys_wind_sea sea = bys_fetch_grow(BYS_FETCH_CEM_751, 30.0, 50e3, 1.5);
    ck_assert(sea.capped);
    expect_close(sea.hs, 0.9, 1e-12);
    expect_close(sea.tp, 9.78 * sqrt(1.5 / BYS_G), 1e-12);
    ck_assert(!bys_fetch_grow(BYS_FETCH_CEM_751, 20.0, 5e3, 20.0).capped);
    // a full sea in a depth, SPM 1984: .283 tanh(.53 D^.75) (transcription)
    const double ua = 0.71 * pow(30.0, 1.23), D = BYS_G * 4.0 / (ua * ua);
    expect_close(bys_fetch_grow(BYS_FETCH_SPM84_SHALLOW, 30.0, 1e7, 4.0).hs,
                 0.283 * tanh(0.53 * pow(D, 0.75)) * ua * ua / BYS_G, 1e-6);
}
END_TEST

START_TEST(every_law_behaves) // derived: no law falls with wind or fetch, none answers nothing
{
    for (int law = 0; law < BYS_FETCH_LAW_COUNT; law++) {
        ck_assert(strlen(bys_fetch_law_name((bys_fetch_law)law)) > 0);
        double before = 0.0;
        for (double f = 500.0; f < 1e6; f *= 1.3) {
            const bys_wind_sea a = bys_fetch_grow((bys_fetch_law)law, 20.0, f, 15.0);
            const bys_wind_sea b = bys_fetch_grow((bys_fetch_law)law, 22.0, f, 15.0);
            ck_assert(a.hs >= before && a.hs > 0.0 && a.tp > 0.0 && b.hs >= a.hs);
            before = a.hs;
        }
        ck_assert(bys_fetch_grow((bys_fetch_law)law, 0.0, 1e3, 5.0).hs == 0.0);
        ck_assert(bys_fetch_grow((bys_fetch_law)law, 9.0, 1e3, 0.0).tp == 0.0);
    }
    // shallow laws in deep water lie near their deep forms: SPM within 3 % at short fetch
    expect_close(bys_fetch_grow(BYS_FETCH_SPM84_SHALLOW, 20, 5e3, 1e3).hs,
                 bys_fetch_grow(BYS_FETCH_SPM84_DEEP, 20, 5e3, 1e3).hs, 0.03);
}
END_TEST

START_TEST(duration)
{
    // CEM II-2-38 (read): X = 5.23e-3 (g t/u*)^1.5
    const double u = sqrt(0.0018) * 20.0, t = 3600.0;
    expect_close(bys_fetch_of_duration_cem(20.0, t) * BYS_G / (u * u),
                 5.23e-3 * pow(BYS_G * t / u, 1.5), 1e-12);
    // II-2-35 (memory) and II-2-38 (read) do not agree: the fetch that the second gives for the time
    // that the first asks is three quarters of the one put in, at any fetch (computed here)
    for (double f = 2e3; f <= 50e3; f *= 1.5)
        expect_close(bys_fetch_of_duration_cem(20.0, bys_fetch_time_cem(20.0, f)), 0.75 * f, 0.02);
    // SPM 3-35 (memory): g t/UA = 68.8 X^(2/3)
    const double ua = 0.71 * pow(20.0, 1.23), f = bys_fetch_of_duration_spm84(20.0, t);
    expect_close(68.8 * pow(BYS_G * f / (ua * ua), 2.0 / 3.0), BYS_G * t / ua, 1e-12);
}
END_TEST

// A square bay of 2 by 2 km with an island of 200 m square east of its middle. (derived)
static const double bay[8][2] = {{-1000, -1000}, {1000, -1000}, {1000, 1000}, {-1000, 1000},
                                 {400, -100},    {600, -100},   {600, 100},   {400, 100}};
static const size_t bay_end[2] = {4, 8};

START_TEST(rays)
{
    expect_close(bys_fetch_ray(bay, bay_end, 2, 0, 0, -1, 0, 1e5), 1000.0, 1e-14);
    expect_close(bys_fetch_ray(bay, bay_end, 2, 0, 0, 3, 0, 1e5), 400.0, 1e-14); // island
    expect_close(bys_fetch_ray(bay, bay_end, 2, 0, 300, 1, 0, 1e5), 1000.0, 1e-14); // past it
    expect_close(bys_fetch_ray(bay, bay_end, 2, 0, 0, 1, 1, 1e5), 1000.0 * sqrt(2.0), 1e-14);
    expect_close(bys_fetch_ray(bay, bay_end, 2, 0, 0, -1, 0, 700.0), 700.0, 1e-14);
    expect_close(bys_fetch_ray(bay, bay_end, 2, 2000, 0, 1, 0, 9e3), 9000.0, 1e-14); // open
    expect_close(bys_fetch_ray(bay, bay_end, 0, 0, 0, 1, 0, 9e3), 9000.0, 1e-14);
}
END_TEST

START_TEST(effective_fetch)
{
    // one straight shore north at distance D: radial = D/cos a, Saville sum(D cos a)/sum(cos a) = D
    static const double coast[4][2] = {{-1e6, 5e3}, {1e6, 5e3}, {1e6, 6e3}, {-1e6, 6e3}};
    static const size_t end[1] = {4};
    for (int rule = BYS_FETCH_STRAIGHT; rule <= BYS_FETCH_SAVILLE; rule++)
        expect_close(bys_fetch_effective((bys_fetch_rule)rule, coast, end, 1, 0, 0, 0, 1, 1e6), 5e3,
                     1e-12);
    double mean = 0.0;
    for (int i = -4; i <= 4; i++)
        mean += 5e3 / cos(3.0 * i * degree) / 9.0;
    expect_close(bys_fetch_effective(BYS_FETCH_SPM_RADIALS, coast, end, 1, 0, 0, 0, 1, 1e6), mean,
                 1e-12);
    // a channel of half width b along the wind: radial b/sin|a|, the middle one open to the limit
    static const double channel[8][2] = {{-1e6, 100}, {1e6, 100}, {1e6, 200}, {-1e6, 200},
                                         {-1e6, -200}, {1e6, -200}, {1e6, -100}, {-1e6, -100}};
    static const size_t ends[2] = {4, 8};
    double top = 20e3, bottom = 1.0;
    for (int i = 1; i <= 7; i++) {
        const double a = 6.0 * i * degree;
        top += 2.0 * 100.0 / sin(a) * cos(a) * cos(a);
        bottom += 2.0 * cos(a);
    }
    expect_close(bys_fetch_effective(BYS_FETCH_SAVILLE, channel, ends, 2, 0, 0, 1, 0, 20e3),
                 top / bottom, 1e-12);
}
END_TEST

START_TEST(statistics)
{
    // loads note 5.2, computed there: fit .8348 at gamma 3.3, .8583 at 5 (DNV, transcription)
    expect_abs(bys_jonswap_t1_over_tp(3.3), 0.8348, 5e-5);
    expect_abs(bys_jonswap_t1_over_tp(5.0), 0.8583, 1e-4);
    // 3 h of 4 s waves: 1.99 hs mode, 2.06 mean; 1000 waves: Forristall 1.69 against 1.86 (memory)
    expect_abs(bys_wave_max_rayleigh(3.0 * 3600.0 / 4.0), 1.99, 0.01);
    expect_abs(bys_wave_max_rayleigh_mean(3.0 * 3600.0 / 4.0), 2.06, 0.01);
    expect_abs(bys_wave_max_forristall(1000.0), 1.69, 0.005);
    expect_abs(bys_wave_max_rayleigh(1000.0), 1.86, 0.005);
    // energy mean of cos^2: .75 for n = 2, .833 for n = 4 (derived)
    expect_close(bys_wave_spreading_cos2(2.0), 0.75, 1e-15);
    expect_close(bys_wave_spreading_cos2(4.0), 5.0 / 6.0, 1e-15);
    // breaking: T 6, d 3: 2.38 m, .78 d = 2.34; T 4, d 5: 2.80 m (memory of the law, computed)
    expect_abs(bys_wave_breaking_height(6.0, 3.0), 2.38, 0.005);
    expect_abs(bys_wave_height_solitary(3.0), 2.34, 1e-12);
    expect_abs(bys_wave_breaking_height(4.0, 5.0), 2.80, 0.005);
    // 1/10 of g Tz^2/2pi at 4 s: 2.50 m (derived)
    expect_abs(bys_wave_steepness_height(4.0, 0.1), 2.497, 0.001);
}
END_TEST

START_TEST(stokes_drift) // derived: deep w k a^2 exp(2kz); finite depth by the hyperbolic form
{
    const double w = 2.0, k = w * w / BYS_G, a = 0.4;
    expect_close(bys_stokes_drift(a, w, 99.0, 100.0), w * k * a * a * exp(-2.0 * k), 1e-12);
    const double q = bys_wave_number(1.0, 5.0), s = sinh(5.0 * q);
    expect_close(bys_stokes_drift(a, 1.0, 3.0, 5.0), q * a * a * cosh(6.0 * q) / (2.0 * s * s),
                 1e-12);
}
END_TEST

// CEM II-1-1 (read, loads note 9): T 10 s, d 3 m: L 53.2 to 53.3 m, C 5.32 m/s.
START_TEST(manual_wave_length)
{
    const double L = 2.0 * BYS_PI / bys_wave_number(2.0 * BYS_PI / 10.0, 3.0);
    expect_abs(L * sqrt(9.81 / BYS_G), 53.16, 0.006); // recomputed with g = 9.81; shallow: L as sqrt g
    expect_abs(L / 10.0, 5.32, 0.0055);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("fetch");
    suite_test(s, laws_side_by_side);
    suite_test(s, textbook_homework);
    suite_test(s, full_development);
    suite_test(s, depth_caps);
    suite_test(s, every_law_behaves);
    suite_test(s, duration);
    suite_test(s, rays);
    suite_test(s, effective_fetch);
    suite_test(s, statistics);
    suite_test(s, stokes_drift);
    suite_test(s, manual_wave_length);
    return suite_run(s, NULL);
}
