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
    bool lent;                 ///< both designs belong to somebody else
} bys_compare_work;

/// A design without lost legs, unless the rules demand them for the verdict.
bys_rc bys_design_run_lean(bys_design **out, const bys_site *site,
                           const bys_check_options *options, bys_messages *messages,
                           bys_error *err);
/// Compares two designs that go on belonging to the caller and must live as long; the layouts are
/// not compared.
bys_rc bys_comparison_of(bys_comparison **out, bys_design *before, bys_design *after,
                         bys_error *err);

/// Lists what differs between the layouts.
bys_rc bys_compare_layout(bys_compare_work *work, const bys_site *before, const bys_site *after,
                          bys_error *err);
/// Matches failures and float reserves of the two designs.
void bys_compare_checks(bys_compare_work *work);

#endif
