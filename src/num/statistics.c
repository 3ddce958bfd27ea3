// SPDX-License-Identifier: GPL-3.0-or-later
// Characteristic value (5 % fractile) of a property from a few tests.
//
// GIVEN     samples, count   results, each a value or a lower bound, above zero for log-normal
//           log_normal       distribution
//           variation        coefficient of variation known beforehand, NAN if not
// RETURNED  value = mean - k s, or exp of that over the logarithms
// NOTES     1. k = q sqrt(1 + 1/n): q = t(0.95, n - 1) when the variation is not known, the normal
//              quantile 1.645 when it is. Not known: three results or more.
//           2. Known variation V: s = V mean, or for logarithms s = sqrt(ln(1 + V^2)).
//           3. A lower bound counts as if the test had failed there. Where that hides scatter, the
//              bounds are left out: the lesser of both is returned. The number of results that are
//              no bounds must by itself be enough (1, or 3), else nothing is returned.
//           4. A prediction for the next anchor of the same kind in the same soil; it says nothing
//              about other soil, and two results within one drag are not two tests.
// SOURCE    EN 1990:2002 Annex D, D7.2 and Table D.1 [memory]; k by formula [derived], within 0.02 of
//           the remembered table. Note 3 is ours. [judgement]
//           tolerance factor: its definition [derived]; correlation factors: Eurocode 7 [memory]
#include "num/statistics.h"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_sf_gamma.h>
#include <math.h>

double bys_fractile_k(int n, bool variation_known)
{
    if (n < (variation_known ? 1 : 3))
        return NAN;
    const double q = variation_known ? gsl_cdf_ugaussian_Pinv(0.95)
                                     : gsl_cdf_tdist_Pinv(0.95, (double)(n - 1));
    return q * sqrt(1.0 + 1.0 / n);
}

// Share of samples of n whose mean - k s lies below the 5 % fractile: over the chi distribution of s,
// P(mean - k s <= -z) = P(Z <= (k s - z) sqrt(n)); Simpson's rule.
static double confidence_of(int n, double k)
{
    enum { STEPS = 2000 };
    const double f = n - 1.0, z = gsl_cdf_ugaussian_Pinv(0.95), most = 1.0 + 12.0 / sqrt(f);
    double sum = 0.0;
    for (int i = 1; i <= STEPS; i++) {
        const double s = most * i / STEPS; // density of s with sigma 1
        const double density =
            exp(log(2.0) + 0.5 * f * log(0.5 * f) - gsl_sf_lngamma(0.5 * f) + (f - 1.0) * log(s) -
                0.5 * f * s * s);
        const double weight = i == STEPS ? 1.0 : i % 2 ? 4.0 : 2.0;
        sum += weight * density * gsl_cdf_ugaussian_P((k * s - z) * sqrt((double)n));
    }
    return sum * most / STEPS / 3.0;
}

double bys_tolerance_k(int n, double confidence)
{
    double low = 0.0, high = 1e3;
    if (n < 2 || !(confidence > 0.0 && confidence < 1.0))
        return NAN;
    for (int i = 0; i < 60; i++) {
        const double middle = 0.5 * (low + high);
        if (confidence_of(n, middle) < confidence)
            low = middle;
        else
            high = middle;
    }
    return 0.5 * (low + high);
}

double bys_correlated_value(double mean, double least, int n)
{
    static const double of_mean[] = {1.40, 1.30, 1.20, 1.10, 1.00}; // [memory]
    static const double of_least[] = {1.40, 1.20, 1.05, 1.00, 1.00};
    if (n < 1)
        return NAN;
    const int at = n < 5 ? n - 1 : 4;
    return fmin(mean / of_mean[at], least / of_least[at]);
}

static double seen(double value, bool log_normal)
{
    return log_normal ? log(value) : value;
}

// Mean and deviation of the samples, with or without the bounds; their number comes back.
static int moments(bys_fractile *out, const bys_sample *samples, int count, bool log_normal,
                   bool bounds)
{
    double sum = 0.0, squares = 0.0;
    int n = 0;
    for (int i = 0; i < count; i++)
        if (bounds || !samples[i].bound) {
            sum += seen(samples[i].value, log_normal);
            n++;
        }
    out->mean = n ? sum / n : NAN;
    for (int i = 0; i < count; i++)
        if (bounds || !samples[i].bound) {
            const double off = seen(samples[i].value, log_normal) - out->mean;
            squares += off * off;
        }
    out->deviation = n > 1 ? sqrt(squares / (n - 1)) : NAN;
    return n;
}

static void evaluate(bys_fractile *out, const bys_sample *samples, int count, bool log_normal,
                     double variation, bool bounds)
{
    const bool known = !isnan(variation);
    const int n = moments(out, samples, count, log_normal, bounds);
    out->k = bys_fractile_k(n, known);
    if (known)
        out->deviation = log_normal ? sqrt(log1p(variation * variation)) : variation * out->mean;
    const double low = out->mean - out->k * out->deviation;
    out->value = log_normal ? exp(low) : low;
    out->without_bounds = !bounds;
}

static bool positive(const bys_sample *samples, int count)
{
    for (int i = 0; i < count; i++)
        if (!(samples[i].value > 0.0))
            return false;
    return true;
}

bys_fractile bys_fractile_find(const bys_sample *samples, int count, bool log_normal,
                               double variation)
{
    bys_fractile as_values = {.count = count, .why = ""};
    for (int i = 0; i < count; i++)
        as_values.bounds += samples[i].bound;
    bys_fractile without = as_values;
    evaluate(&as_values, samples, count, log_normal, variation, true);
    evaluate(&without, samples, count, log_normal, variation, false);
    if (log_normal && !positive(samples, count))
        as_values.why = "a result that is not above zero has no logarithm";
    else if (isnan(without.k) && isnan(variation))
        as_values.why = "three tests that are no lower bounds are needed";
    else if (isnan(without.k))
        as_values.why = "one test that is no lower bound is needed";
    if (*as_values.why) {
        as_values.value = NAN;
        return as_values;
    }
    return without.value < as_values.value ? without : as_values;
}
