// SPDX-License-Identifier: GPL-3.0-or-later
// Reduction of the slots, shared by the files that fill the design.
#ifndef BYS_ENVELOPE_H
#define BYS_ENVELOPE_H

#include "design/judge.h"

extern const char *const bys_analysis;

/// A case: a job and the leg lost in it, -1 = intact.
typedef struct { const bys_job *job; int lost; } bys_where;
typedef struct { double tension; bys_where where; } bys_piece_seen; ///< N, -1 = none

typedef struct { const bys_anchor_seen *seen; bys_where where; } bys_anchor_worst;

/// First demanded case in which the leg's connected part is not stable.
bool bys_unstable_find(const bys_judge *judge, int leg, bys_where *where);
const char *bys_unstable_reason(const bys_where *where);
void bys_piece_worst(const bys_judge *judge, int piece, bys_piece_seen *seen);
/// The check of a piece at the demanded tensions of piece `index`; not yet settled.
bys_strength bys_piece_check(bys_judge *judge, const bys_piece *piece, int index);
/// The governing check of some pieces; not yet settled.
bys_strength bys_pieces_check(bys_judge *judge, const int *pieces, int count);
/// Last word: cases of these legs that are not stable, and --strict.
void bys_check_settle(bys_judge *judge, bys_strength *check, const int *legs, int count);
bys_anchor_load bys_anchor_envelope(bys_judge *judge, int anchor);
/// Settled check from the worst case that could be checked and the worst that could not.
bys_anchor_load bys_anchor_load_make(bys_judge *judge, int anchor, const bys_anchor_rule *intact,
                                     const bys_anchor_rule *lost, const bys_anchor_worst *best,
                                     const bys_anchor_worst *out);

#endif
