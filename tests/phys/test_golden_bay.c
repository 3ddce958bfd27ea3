// SPDX-License-Identifier: GPL-3.0-or-later
// The block models against what was measured in farms, and a row of droppers in its own wake. The
// measured figures were read in abstracts and papers (loads note 2.2, 2.3); the differences are
// stated beside each.
#include "phys/phys.h"
#include "phys/sea_loads.h"
#include "support/suite.h"

// Golden Bay (Plew et al. 2005, read): 230 lines in 650 x 2450 m, loops of 8 m in 10 to 12 m: the
// mean current within is 36 to 63 % down. Droppers of .13 to .20 m at .03 to .06 a square metre,
// cd 1.3 (assumed by the note): K = cd D n L over 650 m. Screens: 45 to 72 % (computed there), that is
// 9 points more shielding than measured at either end. The wide-farm canopy gives 7 to 13 %: far
// too little for a narrow farm, where water goes round; least shielding of the two is on the safe
// side of every measurement.
START_TEST(golden_bay)
{
    const double low_k = 1.3 * 0.13 * 0.03 * 650.0, high_k = 1.3 * 0.20 * 0.06 * 650.0;
    expect_abs(low_k, 3.3, 0.05);
    expect_abs(high_k, 10.1, 0.1);
    const double least = 1.0 - bys_screen_speed(low_k), most = 1.0 - bys_screen_speed(high_k);
    expect_abs(least, 0.45, 0.006);
    expect_abs(most, 0.72, 0.006);
    expect_abs(least - 0.36, 0.09, 0.006);
    expect_abs(most - 0.63, 0.09, 0.006);
    ck_assert(least < 0.63 && most > 0.36); // the two ranges overlap

    const double kd_low = bys_canopy_kd(1.3, 0.13 * 0.03, 11.0), H = 8.0 / 11.0;
    const double kd_high = bys_canopy_kd(1.3, 0.20 * 0.06, 11.0);
    const bys_canopy thin = bys_canopy_speed(kd_low, H, 0.0025, 0.04);
    const bys_canopy dense = bys_canopy_speed(kd_high, H, 0.0025, 0.04);
    ck_assert(thin.canopy > 1.0 - 0.36 && dense.canopy > 1.0 - 0.36); // below every measured reduction
    ck_assert(dense.canopy < thin.canopy && thin.canopy <= 1.0);
    ck_assert(bys_block_speed(23, low_k / 23.0, thin) >= 1.0 - 0.36);
    expect_close(bys_block_speed(0, low_k / 23.0, thin), 1.0, 0.0); // up-current line
}
END_TEST

// Gouqi (Zhong et al. 2022, read): kd .625, canopy .19 of the depth: .45 in it, 1.13 below it
// (computed in the note) against 0.08/0.42 = .19 near the top and .18/.40 = .45 at half depth, and
// below 1 near the bed, because real flow also goes round. Less shielding than measured: safe.
START_TEST(gouqi)
{
    const bys_canopy u = bys_canopy_speed(0.625, 0.19, 0.0025, 0.04);
    expect_abs(u.canopy, 0.45, 0.005);
    expect_abs(u.below, 1.13, 0.005);
    ck_assert(u.canopy > 0.08 / 0.42 && u.canopy >= 0.18 / 0.40 - 0.005);
    // kd from the geometry: one sleeve of .25 m per 4 m2, cd 1, 20 m deep
    expect_close(bys_canopy_kd(1.0, 0.25 / 4.0, 20.0), 0.625, 1e-12);
}
END_TEST

// Rafts in Spain (Cranford 2014, read): 53 and 62 % down need K = 4.5 and 6.5 (note, computed).
START_TEST(rafts)
{
    expect_abs(1.0 - bys_screen_speed(4.5), 0.53, 0.005);
    expect_abs(1.0 - bys_screen_speed(6.5), 0.62, 0.005);
}
END_TEST

START_TEST(canopy_balance) // derived: the root satisfies the balance of Plew 2011, and lies in (0, 1]
{
    for (double kd = 0.003; kd < 30.0; kd *= 1.6)
        for (double H = 0.05; H < 1.0; H += 0.09) {
            const double cb = 0.0025, a = 0.04;
            const bys_canopy u = bys_canopy_speed(kd, H, cb, a);
            ck_assert(u.canopy > 0.0 && u.canopy <= 1.0 && u.below >= 1.0);
            expect_close(H * u.canopy + (1.0 - H) * u.below, 1.0, 1e-12); // all the water passes
            if (kd * (1.0 - H) <= cb)
                continue;
            const double left = kd * H * pow(1.0 - H, 3.0) * u.canopy * u.canopy;
            const double bed = 1.0 - H * u.canopy, shear = 1.0 - u.canopy;
            expect_abs(left, cb * H * bed * bed + a * shear * shear, 1e-12);
        }
    const bys_canopy farm = bys_canopy_speed(0.625, 0.19, 0.0025, 0.04);
    expect_close(bys_current_farm(farm, 3.8, 2.0), farm.canopy, 0.0);
    expect_close(bys_current_farm(farm, 3.8, 5.0), farm.below, 0.0);
}
END_TEST

START_TEST(screens)
{
    // loads note 2.1 (computed): D .15, s .7, cd 1.3: .279; wake .872 a line, .50 after five
    const double row = bys_screen_row(1.3, 0.15, 0.7), wake = bys_net_wake(row);
    expect_abs(row, 0.279, 5e-4);
    expect_abs(wake, 0.872, 5e-4);
    expect_abs(pow(wake, 5.0), 0.50, 0.005);
    // block drag greatest 1 at K = 4, held beyond (Taylor 1944, memory; maximum derived)
    expect_close(bys_screen_block_cd(4.0), 1.0, 1e-14);
    expect_close(bys_screen_block_cd(9.0), 1.0, 1e-14);
    ck_assert(bys_screen_block_cd(3.9) < 1.0);
    expect_close(bys_screen_block_cd(1.0), 1.0 / 1.5625, 1e-14);
}
END_TEST

// Loads note 2.1, Huse's wakes by root sum square along a file (computed there): speeds and mean
// force factor. Measured rafts answer to more (0.65 against an equivalent .36): factor held at .5.
START_TEST(droppers_in_a_file)
{
    double u[60], raw;
    bys_huse_file(u, 60, 1.3, 0.15, 0.7);
    static const double want[5] = {1.0, 0.59, 0.60, 0.59, 0.58};
    for (int i = 0; i < 4; i++)
        expect_abs(u[i], want[i], 0.0051);
    expect_abs(u[4], want[4], 0.0055); // .5746 here: the note's last digit is one too high
    expect_abs(u[9], 0.54, 0.0051);
    expect_abs(u[19], 0.52, 0.0051);
    expect_abs(u[39], 0.49, 0.0051);
    expect_close(bys_dropper_row(&raw, 60, 1.3, 0.15, 0.7), 0.5, 1e-15);
    expect_abs(raw, 0.27, 0.0151);
    expect_close(bys_dropper_row(&raw, 1, 1.3, 0.15, 0.7), 1.0, 1e-15);
    expect_abs(bys_dropper_row(NULL, 60, 1.3, 0.15, 100.0), 1.0, 0.2); // derived: far apart, little
    for (size_t n = 1; n < 400; n += 7)
        ck_assert(bys_dropper_row(NULL, n, 1.3, 0.15, 0.7) >= 0.5);
    // beside the wake: half the deficit at y = b (0.693 = ln 2)
    const double xs = 0.7 + 4.0 * 0.15 / 1.3, b = 0.25 * sqrt(1.3 * 0.15 * xs);
    const double middle = bys_huse_deficit(0.7, 0.0, 1.3, 0.15);
    expect_close(bys_huse_deficit(0.7, b, 1.3, 0.15) / middle, 0.5, 1e-3);
    expect_abs(bys_huse_deficit(-1.0, 0.0, 1.3, 0.15), 0.0, 0.0);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("golden_bay");
    suite_test(s, golden_bay);
    suite_test(s, gouqi);
    suite_test(s, rafts);
    suite_test(s, canopy_balance);
    suite_test(s, screens);
    suite_test(s, droppers_in_a_file);
    return suite_run(s, NULL);
}
