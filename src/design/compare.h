// SPDX-License-Identifier: GPL-3.0-or-later
// Inside of the comparison.
#ifndef BYS_DESIGN_COMPARE_H
#define BYS_DESIGN_COMPARE_H

#include "base/arena.h"
#include "site/site.h"
#include <byssus/compare.h>

typedef struct {
    bys_comparison comparison; ///< first: its address is that of the whole
    bys_arena *arena;
    bool failed;               ///< out of memory
} bys_compare_work;

/// Lists what differs between the layouts.
bys_rc bys_compare_layout(bys_compare_work *work, const bys_site *before, const bys_site *after,
                          bys_error *err);
/// Matches failures and float reserves of the two designs.
void bys_compare_checks(bys_compare_work *work);

#endif
