// SPDX-License-Identifier: GPL-3.0-or-later
// Current by height.
#include "phys/phys.h"
#include "support/suite.h"

// computed (loads note 3) from DNV-RP-C205 4.1.4: depth 20 m, tide 0.8 m/s, wind 20 m/s, k 0.03
START_TEST(noted_profile)
{
    const double row[][4] = {{0, 0.80, 0.60, 1.40},
                             {-5, 0.768, 0.54, 1.308},
                             {-10, 0.725, 0.48, 1.205},
                             {-19, 0.521, 0.372, 0.893}};
    for (size_t i = 0; i < 4; i++) {
        const double tide = 0.8 * bys_current_power(20.0 + row[i][0], 20.0, 1.0 / 7.0, NULL);
        const double wind = 0.03 * 20.0 * bys_current_wind_driven(row[i][0], 50.0);
        expect_abs(tide, row[i][1], 5e-4);
        expect_abs(wind, row[i][2], 5e-4);
        expect_abs(tide + wind, row[i][3], 1e-3);
    }
}
END_TEST

START_TEST(profile_has_its_limits) // derived
{
    double slope;
    expect_abs(bys_current_power(20.0, 20.0, 1.0 / 7.0, &slope), 1.0, 0.0);
    expect_abs(slope, 0.0, 0.0);
    expect_abs(bys_current_power(23.0, 20.0, 1.0 / 7.0, &slope), 1.0, 0.0);
    expect_abs(slope, 0.0, 0.0);
    const double low = bys_current_power(0.1, 20.0, 1.0 / 7.0, &slope);
    expect_close(low, pow(0.01, 1.0 / 7.0), 1e-15);
    expect_abs(slope, 0.0, 0.0);
    expect_abs(bys_current_power(-1.0, 20.0, 1.0 / 7.0, NULL) - low, 0.0, 0.0);
    expect_abs(bys_current_power(5.0, 20.0, 0.0, &slope), 1.0, 0.0);
    expect_abs(slope, 0.0, 0.0);
    expect_abs(bys_current_wind_driven(1.0, 50.0), 1.0, 0.0);
    expect_abs(bys_current_wind_driven(-60.0, 50.0), 0.0, 0.0);
}
END_TEST

START_TEST(profile_derivative) // derived: central difference
{
    for (double h = 0.5; h < 20.0; h += 1.3) {
        double slope;
        bys_current_power(h, 20.0, 1.0 / 7.0, &slope);
        const double e = 1e-5 * h;
        expect_close(slope,
                     (bys_current_power(h + e, 20.0, 1.0 / 7.0, NULL) -
                      bys_current_power(h - e, 20.0, 1.0 / 7.0, NULL)) /
                         (2.0 * e),
                     1e-8);
    }
}
END_TEST

START_TEST(depth_mean)
{
    expect_close(bys_current_power_mean(1.0 / 7.0), 7.0 / 8.0, 1e-15); // loads note 3
    // derived: mean of the profile as it is used, held below 0.01 d: 0.07 % more
    const int n = 200000;
    double sum = 0.0;
    for (int i = 0; i < n; i++)
        sum += bys_current_power(20.0 * (i + 0.5) / n, 20.0, 1.0 / 7.0, NULL) / n;
    const double p = 1.0 / 7.0, held = pow(0.01, 1.0 + p);
    expect_close(sum, (1.0 - held) / (1.0 + p) + held, 1e-8);
    ck_assert(sum > 7.0 / 8.0 && sum < 1.0008 * 7.0 / 8.0);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("current");
    suite_test(s, noted_profile);
    suite_test(s, profile_has_its_limits);
    suite_test(s, profile_derivative);
    suite_test(s, depth_mean);
    return suite_run(s, NULL);
}
