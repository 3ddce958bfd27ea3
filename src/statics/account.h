// SPDX-License-Identifier: GPL-3.0-or-later
// The load account of a state: what each part brings, by kind of load, against what the supports take.
#ifndef BYS_ACCOUNT_H
#define BYS_ACCOUNT_H

#include "statics/state.h"

/// Kinds of load. Drift is what waves add to the drag; reflection what a hull's reflected waves push.
typedef enum {
    BYS_ACCOUNT_CURRENT, BYS_ACCOUNT_WIND, BYS_ACCOUNT_DRIFT, BYS_ACCOUNT_REFLECTION,
    BYS_ACCOUNT_WEIGHT, BYS_ACCOUNT_BUOYANCY, BYS_ACCOUNT_GIVEN, BYS_ACCOUNT_BED,
    BYS_ACCOUNT_LOADS
} bys_account_load;

/// All of one part, or of one kind of thing that has no part. N, world axes.
typedef struct {
    const bys_part *part; ///< NULL: spans and bodies by number, loads at points, the bed
    const char *kind;     ///< "rope", "chain", "span", "float", "gear", "raft", "body", "point", "bed"
    double f[BYS_ACCOUNT_LOADS][3];
} bys_account_row;

typedef struct {
    bys_account_row *rows; int row_count; ///< in the order in which the network names them
    double sum[BYS_ACCOUNT_LOADS][3];
    double total[3];     ///< N, of all kinds
    double reaction[3];  ///< N, of the structure on its supports: equal to the total at rest
    double applied;      ///< N, sum of the sizes of all single loads
} bys_account;

/// One island, or all (island -1). Rows of nothing are left out. BYS_ENOMEM on failure.
bys_rc bys_account_make(bys_account *out, const bys_state *state, const bys_sea *sea,
                        const bys_condition *condition, int island, bys_error *err);
void bys_account_free(bys_account *account);
/// Size of total - reaction over the applied load.
double bys_account_gap(const bys_account *account);

#endif
