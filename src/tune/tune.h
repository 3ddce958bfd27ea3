// SPDX-License-Identifier: GPL-3.0-or-later
// Finds the lengths or reaches that give stated pretensions, by solving the reference state
// (slack water, the stated level and stage). The found lengths then hold for every stage.
#ifndef BYS_TUNE_H
#define BYS_TUNE_H

#include "statics/state.h"

/// One found value: the leg by id, its open length or its reach.
typedef struct {
    const char *leg;     ///< id
    bool is_reach;       ///< else the length of the section without one
    double value;        ///< m
    double pretension;   ///< N reached
} bys_tuned;

typedef struct { bys_tuned *items; int count; bys_arena *arena; } bys_tuning;

/// Solves for every leg that states a pretension. Empty when there is none. BYS_EINPUT with a
/// message naming the leg if no length gives the pretension.
bys_rc bys_tuning_find(bys_tuning *out, const bys_site *site, bys_messages *messages,
                       bys_error *err);
void bys_tuning_free(bys_tuning *tuning);
/// Expands a stage's Network with the found values put in.
bys_rc bys_network_tuned(bys_network **out, const bys_site *site, int stage,
                         const bys_tuning *tuning,
                         bys_messages *messages, bys_error *err);
#endif
