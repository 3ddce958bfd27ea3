// SPDX-License-Identifier: GPL-3.0-or-later
// Conditions as sets of changes: their names, what they take out and add, and how they are solved.
#ifndef BYS_SETS_H
#define BYS_SETS_H

#include "design/solving.h"

typedef enum {
    BYS_SET_INTACT, BYS_SET_LOST, BYS_SET_ANCHOR, BYS_SET_CUT, BYS_SET_FLOAT, BYS_SET_FOULED,
    BYS_SET_VESSEL, BYS_SET_LIFT, BYS_SET_OWN
} bys_set_kind;

/// "intact", "lost", "anchor", ...: the word before the colon.
const char *bys_set_word(bys_set_kind kind);
/// Kinds named by "lost,cut" or "all" as bits 1 << kind; NULL or "" = what is run by default.
/// Usage error for an unknown word.
bys_rc bys_set_kinds_read(unsigned *kinds, const char *list, bys_error *err);

/// One condition of one stage's Network. Arrays belong to the arena in which it was made.
typedef struct bys_set {
    bys_set_kind kind;
    const char *id;             ///< "cut:L05@0.5", as in a case's id
    bys_condition change;       ///< without what depends on the case: vessel, lift, drifting lines
    int leg;                    ///< lost and fouled: leg that is lost; -1
    const bys_vessel *vessel;   ///< NULL
    const bys_lift *lift;       ///< NULL
    int point;                  ///< where vessel or lift acts; -1
    const bys_weather_change *weather; ///< NULL = the case's
    int *islands, island_count; ///< that it touches, rising; all where the weather is replaced
    const char *loose;          ///< name of what nothing holds any more; NULL
    int next_copy;              ///< the same set of a translated copy of its island, -1
    bool copy;                  ///< it is one of those
} bys_set;

/// From the text after the second colon of a case's id. *found = false if it names nothing here.
bys_rc bys_set_read(bys_set *out, bool *found, const bys_network *net, bys_arena *arena,
                    const char *text, bys_error *err);
typedef struct { bys_set *items; int count, room; } bys_set_list;
/// All conditions of the kinds (bits), in the order of the kinds; not intact. set: NULL, or the stage
/// whose translated copies are found among the islands.
bys_rc bys_sets_list(bys_set_list *out, const bys_network *net, const bys_stage_set *stage,
                     unsigned kinds, bys_arena *arena, bys_error *err);

/// A condition as it was solved last in one case.
typedef struct {
    bys_condition change;       ///< with all that was added; loads are those below
    bys_point_load *loads; int load_count, load_room;
    bys_sea sea;
    unsigned char *touched;     ///< by island: solved in place->lost
    bys_text reached;           ///< fouled: lines that carry more
    double lift_force;          ///< N, of a lift to a height; NAN
    bys_case_seen seen;
    int solves;
} bys_set_run;

/// Solves the set from the job's intact states into place->lost, islands that it touches only.
bys_rc bys_set_solve(bys_set_run *run, bys_judge *judge, const bys_job *job, bys_workplace *place,
                     const bys_set *set, bys_error *err);
void bys_set_run_free(bys_set_run *run);
/// Solves one case from the beginning, all islands, into a new state (jobs.c).
bys_rc bys_set_again(bys_state **out, bys_set_run *run, bys_judge *judge, const bys_job *job,
                     const bys_set *set, bys_error *err);

// what bys_set_solve is made of (set_foul.c, set_lift.c, set_solve.c)
bys_rc bys_run_island(bys_set_run *run, const bys_judge *judge, const bys_job *job,
                      bys_workplace *place, int island, bool warm, bys_error *err);
bys_rc bys_run_add_load(bys_set_run *run, int point, const double force[3], bys_error *err);
bys_rc bys_run_foul(bys_set_run *run, bys_judge *judge, const bys_job *job, bys_workplace *place,
                    const bys_set *set, bys_error *err);
bys_rc bys_run_lift(bys_set_run *run, const bys_judge *judge, const bys_job *job,
                    bys_workplace *place, const bys_set *set, bys_error *err);
void bys_run_fails(bys_set_run *run, bys_workplace *place, int island, bys_status status,
                   const char *reason);

#endif
