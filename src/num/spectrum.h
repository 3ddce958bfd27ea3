// SPDX-License-Identifier: GPL-3.0-or-later
#ifndef BYS_SPECTRUM_H
#define BYS_SPECTRUM_H

#include "num/blocklu.h"

/// Smallest real part among the eigenvalues of smallest size of a matrix factored by
/// bys_block_factor; INFINITY when out of memory or none was found. work: 3n.
double bys_lowest_real_part(const bys_pattern3 *pattern, const double *factor, double *work);

#endif
