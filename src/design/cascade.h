// SPDX-License-Identifier: GPL-3.0-or-later
// The cascade inside: one connected part in one case, its loads raised until nothing holds it.
#ifndef BYS_CASCADE_H
#define BYS_CASCADE_H

#include "design/solving.h"

typedef enum {
    BYS_GIVE_SLIPS,  ///< an anchor's holding power is reached
    BYS_GIVE_UNKNOWN, ///< an anchor is pulled in a way for which its holding power is not known
    BYS_GIVE_BREAKS  ///< a rope, chain or fitting parts
} bys_give_kind;

/// One thing that gives way. Items by their place in their island, so that copies can be named.
typedef struct {
    double multiplier;
    bys_give_kind kind;
    bys_anchor_trouble trouble;
    int leg;         ///< slips, unknown: ordinal in the island of a leg on that anchor; else -1
    int section, fitting; ///< breaks: ordinal in the island's lists; else -1
    double load, capacity; ///< N; NAN
    double angle;    ///< rad: uplift or offset, of an unknown holding
    int standing;    ///< anchors of the part with a leg still on them afterwards
} bys_give;

typedef enum {
    BYS_END_GONE,     ///< no anchor holds it any more
    BYS_END_HOLDS,    ///< it still holds at the largest multiplier
    BYS_END_BALANCE,  ///< no balance was found beyond the multiplier: it does not count as held
    BYS_END_NOT_RUN   ///< a holding power is not known
} bys_end_kind;

typedef struct {
    int job, island;
    bys_give *gives; int give_count, give_room;
    bys_end_kind end;
    double at;        ///< multiplier of the end
    int anchors;      ///< at the beginning
    int solves;
    char reason[200]; ///< of balance and not run; "" else
} bys_part_cascade;

#define BYS_CASCADE_MOST 50.0 ///< largest multiplier

/// Runs one part; place: a workplace of the job's stage, whose states are used freely.
bys_rc bys_cascade_part(bys_part_cascade *out, bys_judge *judge, bys_workplace *place,
                        bys_error *err);
/// Anchor with its holding power as it is: no factors, no favourable share.
bys_anchor_rule bys_anchor_rule_plain(const bys_anchor_rule *rule);

// cascade.c
bys_rc bys_judge_cascades(bys_judge *judge, bys_error *err);

#endif
