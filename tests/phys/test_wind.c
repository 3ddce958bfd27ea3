// SPDX-License-Identifier: GPL-3.0-or-later
// Wind by height and averaging time.
#include "phys/phys.h"
#include "support/suite.h"

// ISO 19901-1:2005 form (read in a reprint); values computed from it (loads note 4).
START_TEST(hourly_law)
{
    const double row[][4] = {
        {30, 10, 3, 41.98},  {30, 10, 15, 39.26},   {30, 10, 60, 36.92}, {30, 10, 600, 33.03},
        {30, 3, 60, 32.71},  {30, 2, 3600, 23.51},  {20, 10, 3, 26.49},  {20, 10, 60, 23.75},
        {20, 10, 600, 21.64}, {30, 10, 3600, 30.00},
    };
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
        expect_abs(bys_wind_npd(row[i][0], row[i][1], row[i][2]), row[i][3], 0.005);
    expect_abs(bys_wind_npd(30.0, 10.0, 36000.0), 30.0, 1e-12); // longer counts as an hour
}
END_TEST

START_TEST(ten_minute_law) // DNV-RP-C205 2.3.2.11 (memory)
{
    expect_abs(bys_wind_dnv(1.0, 10.0, 600.0), 1.0, 1e-15);
    expect_abs(bys_wind_dnv(1.0, 10.0, 3600.0), 0.916, 5e-4);
    expect_abs(bys_wind_dnv(1.0, 10.0, 3.0), 1.249, 5e-4);
    // computed apart from the same form: 1 + 0.137 ln 2; 1 - 0.137 ln 10; 1 + 0.047 ln 600
    expect_close(bys_wind_dnv(20.0, 20.0, 600.0), 20.0 * 1.0949611637367125, 1e-14);
    expect_close(bys_wind_dnv(1.0, 1.0, 600.0), 0.6845458422598156, 1e-13);
    expect_close(bys_wind_dnv(1.0, 10.0, 1.0), 1.300655693795159, 1e-13);
    expect_abs(bys_wind_dnv(1.0, 10.0, 0.1) - bys_wind_dnv(1.0, 10.0, 1.0), 0.0, 0.0);
    // below 1 m the speed at 1 m (judgement)
    expect_abs(bys_wind_dnv(25.0, 0.2, 60.0) - bys_wind_dnv(25.0, 1.0, 60.0), 0.0, 0.0);
    expect_abs(bys_wind_npd(25.0, 0.2, 60.0) - bys_wind_npd(25.0, 1.0, 60.0), 0.0, 0.0);
}
END_TEST

// Coastal Engineering Manual example II-2-1 (read): 5-min winds 20.3, 24.8, 28.2 to 18.6, 22.8,
// 25.9 with a ratio of about 1.09; 1.0905 by the formula.
START_TEST(duration_ratio)
{
    expect_abs(bys_wind_cem_ratio(300.0), 1.0905, 5e-5);
    const double in[] = {20.3, 24.8, 28.2}, out[] = {18.6, 22.8, 25.9};
    for (size_t i = 0; i < 3; i++)
        expect_abs(in[i] / bys_wind_cem_ratio(300.0), out[i], 0.06);
    expect_abs(bys_wind_cem_ratio(3600.0), 1.0, 1e-3); // the curve is a ratio to the hour
    expect_abs(bys_wind_cem_ratio(3599.99), bys_wind_cem_ratio(3600.01), 1e-3);
    expect_abs(bys_wind_cem_ratio(36000.0), 1.5334 - 0.15 * log10(36000.0), 1e-14); // (read)
}
END_TEST

START_TEST(force) // derived: 0.5 x 1.226 x 1.2 x 2 x 625
{
    expect_close(bys_wind_force(1.226, 1.2, 2.0, 25.0), 919.5, 1e-14);
    expect_close(bys_wind_force(1.226, 1.2, 2.0, -25.0), -919.5, 1e-14);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("wind");
    suite_test(s, hourly_law);
    suite_test(s, ten_minute_law);
    suite_test(s, duration_ratio);
    suite_test(s, force);
    return suite_run(s, NULL);
}
