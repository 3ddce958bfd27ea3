// SPDX-License-Identifier: GPL-3.0-or-later
// Passage of a regular wave in the main job.
#ifndef BYS_DESIGN_PASSAGE_H
#define BYS_DESIGN_PASSAGE_H

#include "design/solving.h"

/// After the intact states of a job are seen: all phases, into the job's slot; only where the site
/// asks for it and the case is demanded and has waves.
bys_rc bys_passage_run(bys_judge *judge, bys_job *job, bys_workplace *place, bys_error *err);
void bys_passage_free(bys_passage_seen *passage);
/// What it means for a leg whose line check is made: fills `passage` of the leg.
void bys_passage_judge(bys_judge *judge, int leg);
/// Why a static factor does not cover what hangs on these legs; NULL = it does, or nothing passes.
const char *bys_passage_open(const bys_judge *judge, const int *legs, int count);

#endif
