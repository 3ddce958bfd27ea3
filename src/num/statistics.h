// SPDX-License-Identifier: GPL-3.0-or-later
// Characteristic value of a few tests.
#ifndef BYS_NUM_STATISTICS_H
#define BYS_NUM_STATISTICS_H

#include <stdbool.h>

/// One result; bound: the true value is this or more.
typedef struct { double value; bool bound; } bys_sample;

typedef struct {
    double value;       ///< 5 % fractile; NAN if it cannot be stated
    double mean;        ///< of the values, or of their logarithms
    double deviation;   ///< of the values, or of their logarithms
    double k;           ///< of that count
    int count, bounds;  ///< of results, of bounds among them
    bool without_bounds; ///< the bounds were left out because that gives less
    const char *why;    ///< "" or why there is no value; static words
} bys_fractile;

/// EN 1990 Annex D: k of the 5 % fractile of n tests. NAN where it is not defined: n < 1, or n < 3
/// with an unknown coefficient of variation.
double bys_fractile_k(int n, bool variation_known);
/// One-sided tolerance factor: with that confidence the 5 % fractile lies above mean - k s. n 2 or more.
double bys_tolerance_k(int n, double confidence);
/// Eurocode 7: characteristic value from the mean and the least of n tests on one site.
double bys_correlated_value(double mean, double least, int n);
/// variation: coefficient of variation that is known beforehand, NAN if it is not.
bys_fractile bys_fractile_find(const bys_sample *samples, int count, bool log_normal,
                               double variation);

#endif
