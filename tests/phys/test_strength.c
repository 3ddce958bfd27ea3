// SPDX-License-Identifier: GPL-3.0-or-later
// Chain by diameter and grade.
#include "phys/phys.h"
#include "support/suite.h"

static const double pound = 4.4482216152605; // N
static const double inch = 0.0254;           // m

START_TEST(stud_link)
{
    // standards note 5.2: grade 3, 2.75 in (69.85 mm): 3675 kN, 826.2 kips (computed from the form)
    expect_abs(bys_chain_stud_break(3, 0.06985), 3675e3, 500.0);
    expect_abs(bys_chain_stud_break(3, 2.75 * inch) / pound, 826.2e3, 60.0);
    // standards note 3.1: grade 2, 1/2 in, 21399 lbf by the form (computed)
    expect_abs(bys_chain_stud_break(2, 0.5 * inch) / pound, 21399.0, 15.0);
    // the break of one grade is the proof of the next (read in a reprint)
    for (double d = 0.0125; d < 0.08; d += 0.003) {
        expect_close(bys_chain_stud_proof(2, d), bys_chain_stud_break(1, d), 1e-15);
        expect_close(bys_chain_stud_proof(3, d), bys_chain_stud_break(2, d), 1e-15);
        ck_assert(bys_chain_stud_proof(1, d) < bys_chain_stud_break(1, d));
    }
    // ISO 1704 form (memory), worked by hand for 20 mm: X = 400 (44 - 1.6) = 16960
    expect_close(bys_chain_stud_proof(1, 0.020), 0.00686e3 * 16960.0, 1e-12);
    expect_close(bys_chain_stud_break(1, 0.020), 0.00981e3 * 16960.0, 1e-12);
    expect_close(bys_chain_stud_break(2, 0.020), 0.01373e3 * 16960.0, 1e-12);
    expect_close(bys_chain_stud_break(3, 0.020), 0.01961e3 * 16960.0, 1e-12);
}
END_TEST

START_TEST(unknown_grade)
{
    ck_assert(isnan(bys_chain_stud_break(0, 0.02)));
    ck_assert(isnan(bys_chain_stud_break(4, 0.02)));
    ck_assert(isnan(bys_chain_stud_proof(0, 0.02)));
    ck_assert(isnan(bys_chain_stud_proof(4, 0.02)));
}
END_TEST

START_TEST(stud_mass) // standards note 3.1 (fitted): 0.0219 d^2, d in mm
{
    expect_close(bys_chain_stud_mass(0.038), 0.0219 * 38.0 * 38.0, 1e-14);
}
END_TEST

START_TEST(two_legs)
{
    // chain book example (read, standards note 5.4): 3/8 in, 400 N/mm2: 57.0 kN
    expect_abs(bys_chain_link_break(0.375 * inch, 400e6), 57.0e3, 50.0);
    expect_abs(bys_chain_link_break(0.375 * inch, 400e6), 57.005e3, 0.5);
    // supplier reprint (read, standards note 3.3), grade 80 nominal 800 N/mm2, actual 796-806: kN
    const double row[][2] = {{6, 45.2}, {8, 80.4}, {10, 125}, {12, 181}, {13, 214}, {16, 320}};
    for (size_t i = 0; i < 6; i++)
        expect_close(bys_chain_link_break(1e-3 * row[i][0], 800e6), 1e3 * row[i][1], 8e-3);
    // the same for grade 40, nominal 400, actual 390-401 from 7 mm: kN
    const double forty[][2] = {{7, 30}, {8, 40}, {10, 63}};
    for (size_t i = 0; i < 3; i++)
        expect_close(bys_chain_link_break(1e-3 * forty[i][0], 400e6), 1e3 * forty[i][1], 2.7e-2);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("strength");
    suite_test(s, stud_link);
    suite_test(s, unknown_grade);
    suite_test(s, stud_mass);
    suite_test(s, two_legs);
    return suite_run(s, NULL);
}
