// SPDX-License-Identifier: GPL-3.0-or-later
// Other gear on solved loads. A judge whose cases were solved with `keep_pulls` set can be asked how
// another anchor would hold at the place of one of its anchors, and how another rope, chain or
// fitting would do in the place of one of its pieces. Loads stay as solved: gear that changes them
// (a longer or heavier chain, a shorter warp) has to be solved for.
#ifndef BYS_DESIGN_TRIAL_H
#define BYS_DESIGN_TRIAL_H

#include "design/judge.h"

/// A site with all its cases solved and judged, and every pull kept.
typedef struct {
    bys_judge judge;
    bys_design design; ///< rows of the gear as laid; its texts live as long as the trial
} bys_trial;
bys_rc bys_trial_open(bys_trial **out, const bys_site *site, const bys_check_options *options,
                      bys_messages *messages, bys_error *err);
void bys_trial_free(bys_trial *trial);

/// What is known of an anchor, with the rules' factors intact and with one leg lost.
typedef struct { bys_anchor_rule intact, lost; } bys_anchor_pair;
/// As bys_judge_anchors would judge `part` in the place of anchor `index`.
bys_anchor_pair bys_trial_anchor_rules(bys_judge *judge, int index, const bys_part *part);
/// The check of an anchor with those rules under every demanded pull on anchor `index`.
bys_anchor_load bys_trial_anchor(bys_judge *judge, int index, const bys_anchor_pair *rules);
/// The check of `part` in the place of piece `index` at the piece's largest demanded tension. A
/// chain or rope is judged by its own strength and reductions; the id stays that of the piece.
bys_strength bys_trial_piece(bys_judge *judge, int index, const bys_part *part);

#endif
