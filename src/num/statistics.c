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
#include "num/statistics.h"

#include <gsl/gsl_cdf.h>
#include <math.h>

double bys_fractile_k(int n, bool variation_known)
{
    if (n < (variation_known ? 1 : 3))
        return NAN;
    const double q = variation_known ? gsl_cdf_ugaussian_Pinv(0.95)
                                     : gsl_cdf_tdist_Pinv(0.95, (double)(n - 1));
    return q * sqrt(1.0 + 1.0 / n);
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
