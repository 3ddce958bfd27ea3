// SPDX-License-Identifier: GPL-3.0-or-later
// Characteristic values by EN 1990 Annex D.
#include "num/statistics.h"
#include "support/suite.h"

// EN 1990:2002 Table D.1, k for the 5 % characteristic value (from memory)
static const struct { int n; double known, unknown; } table[] = {
    {1, 2.31, NAN}, {2, 2.01, NAN},  {3, 1.89, 3.37},  {4, 1.83, 2.63},  {5, 1.80, 2.33},
    {6, 1.77, 2.18}, {8, 1.74, 2.00}, {10, 1.72, 1.92}, {20, 1.68, 1.76}, {30, 1.67, 1.73},
};

START_TEST(factors_of_the_table)
{
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        expect_abs(bys_fractile_k(table[i].n, true), table[i].known, 0.02);
        if (table[i].n >= 3)
            expect_abs(bys_fractile_k(table[i].n, false), table[i].unknown, 0.02);
    }
    ck_assert(isnan(bys_fractile_k(2, false)) && isnan(bys_fractile_k(0, true)));
}
END_TEST

// anchors note 7 (computed from t): V unknown 3 3.37, 4 2.63, 5 2.34, 6 2.18, 8 2.01, 10 1.92, 20 1.77;
// V known 1 2.33, 2 2.01, 3 1.90, 5 1.80, 10 1.73
START_TEST(factors_of_the_note)
{
    static const struct { int n; double k; } unknown[] = {
        {3, 3.37}, {4, 2.63}, {5, 2.34}, {6, 2.18}, {8, 2.01}, {10, 1.92}, {20, 1.77}};
    static const struct { int n; double k; } known[] = {
        {1, 2.33}, {2, 2.01}, {3, 1.90}, {5, 1.80}, {10, 1.73}};
    for (size_t i = 0; i < 7; i++)
        expect_abs(bys_fractile_k(unknown[i].n, false), unknown[i].k, 0.0051);
    for (size_t i = 0; i < 5; i++)
        expect_abs(bys_fractile_k(known[i].n, true), known[i].k, 0.0051);
}
END_TEST

START_TEST(normal_by_hand) // derived: 8, 10, 12: mean 10, s 2; t(0.95, 2) = 2.91999, x sqrt(4/3)
{
    const bys_sample s[] = {{8.0, false}, {10.0, false}, {12.0, false}};
    const bys_fractile r = bys_fractile_find(s, 3, false, NAN);
    expect_close(r.mean, 10.0, 1e-14);
    expect_close(r.deviation, 2.0, 1e-14);
    expect_abs(r.value, 10.0 - 2.0 * 2.91999 * 1.154701, 1e-4);
    // V known 0.1: s = 1; 1.644854 sqrt(4/3)
    expect_abs(bys_fractile_find(s, 3, false, 0.1).value, 10.0 - 1.644854 * 1.154701, 1e-5);
}
END_TEST

START_TEST(log_normal_by_hand) // derived: 8, 10, 12.5: logarithms ln 10 and ln 10 -+ ln 1.25
{
    const bys_sample s[] = {{8.0, false}, {10.0, false}, {12.5, false}};
    const bys_fractile r = bys_fractile_find(s, 3, true, NAN);
    expect_close(r.mean, log(10.0), 1e-14);
    expect_close(r.deviation, log(1.25), 1e-12);
    expect_close(r.value, 10.0 * exp(-log(1.25) * 2.91999 * 1.154701), 1e-5);
    const double sy = sqrt(log(1.0 + 0.04));
    expect_close(bys_fractile_find(s, 3, true, 0.2).value,
                 10.0 * exp(-sy * 1.644854 * 1.154701), 1e-6);
}
END_TEST

START_TEST(bounds_never_raise_the_value) // derived
{
    bys_sample s[] = {{8.0, false}, {10.0, false}, {12.0, false}, {11.0, true}};
    const double three = bys_fractile_find(s, 3, true, NAN).value;
    for (double bound = 1.0; bound < 60.0; bound += 1.0) {
        s[3].value = bound;
        const bys_fractile r = bys_fractile_find(s, 4, true, NAN);
        ck_assert(r.value <= three);
        ck_assert_int_eq(r.bounds, 1);
        ck_assert_int_eq(r.count, 4);
    }
    // a bound amid the others would look like agreement: left out
    s[3].value = 10.0;
    ck_assert(bys_fractile_find(s, 4, true, NAN).without_bounds);
    expect_close(bys_fractile_find(s, 4, true, NAN).value, three, 0.0);
    // a low bound counts
    s[3].value = 2.0;
    ck_assert(!bys_fractile_find(s, 4, true, NAN).without_bounds);
}
END_TEST

START_TEST(too_little_to_say) // derived
{
    bys_sample s[] = {{20.0, true}, {20.0, true}, {20.0, true}, {0.0, false}};
    ck_assert(isnan(bys_fractile_find(s, 3, true, NAN).value)); // all stopped alike: no scatter known
    ck_assert(bys_fractile_find(s, 3, true, NAN).why[0]);
    ck_assert(isnan(bys_fractile_find(s, 3, true, 0.3).value));
    s[0].bound = false;
    ck_assert(!isnan(bys_fractile_find(s, 1, true, 0.3).value));
    ck_assert(isnan(bys_fractile_find(s, 1, true, NAN).value));
    ck_assert(isnan(bys_fractile_find(s, 4, true, 0.3).value)); // zero has no logarithm
}
END_TEST

// anchors note 7 (computed): one-sided, 75 % confidence: n 3 3.15, 4 2.68, 5 2.46, 6 2.34, 10 2.10
START_TEST(tolerance_factors)
{
    static const struct { int n; double k; } rows[] = {
        {3, 3.15}, {4, 2.68}, {5, 2.46}, {6, 2.34}, {10, 2.10}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        expect_abs(bys_tolerance_k(rows[i].n, 0.75), rows[i].k, 0.0051);
    ck_assert(bys_tolerance_k(5, 0.95) > bys_tolerance_k(5, 0.75)); // surer, lower
    ck_assert(isnan(bys_tolerance_k(1, 0.75)) && isnan(bys_tolerance_k(5, 1.0)));
}
END_TEST

// anchors note 7 (Eurocode 7, memory): min(mean/xi1, least/xi2), n 1: 1.40/1.40; 2: 1.30/1.20; 3:
// 1.20/1.05; 4: 1.10/1.00; 5 and more: 1.00/1.00
START_TEST(correlation_factors)
{
    static const double xi[][2] = {{1.40, 1.40}, {1.30, 1.20}, {1.20, 1.05}, {1.10, 1.00},
                                   {1.00, 1.00}, {1.00, 1.00}};
    for (int n = 1; n <= 6; n++) {
        expect_close(bys_correlated_value(100.0, 1e6, n), 100.0 / xi[n - 1][0], 1e-14);
        expect_close(bys_correlated_value(1e6, 100.0, n), 100.0 / xi[n - 1][1], 1e-14);
    }
    ck_assert(isnan(bys_correlated_value(1.0, 1.0, 0)));
}
END_TEST

int main(void)
{
    Suite *s = suite_create("statistics");
    suite_test(s, factors_of_the_table);
    suite_test(s, factors_of_the_note);
    suite_test(s, tolerance_factors);
    suite_test(s, correlation_factors);
    suite_test(s, normal_by_hand);
    suite_test(s, log_normal_by_hand);
    suite_test(s, bounds_never_raise_the_value);
    suite_test(s, too_little_to_say);
    return suite_run(s, NULL);
}
