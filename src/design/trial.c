// SPDX-License-Identifier: GPL-3.0-or-later
// Other gear on solved loads.
//
// NOTES     1. The same functions judge a trial and the gear as laid, so that a trial of an anchor
//              against itself gives its own row.
//           2. Trials do not count as checks: the number of unverified checks stays.
#include "design/trial.h"

#include "design/envelope.h"

#include <stdlib.h>

void bys_trial_free(bys_trial *trial)
{
    if (!trial)
        return;
    bys_judge_release(&trial->judge);
    bys_arena_free(trial->judge.arena);
    free(trial);
}

bys_rc bys_trial_open(bys_trial **out, const bys_site *site, const bys_check_options *options,
                      bys_messages *messages, bys_error *err)
{
    static const bys_check_options plain = BYS_CHECK_OPTIONS_INIT;
    bys_trial *trial = calloc(1, sizeof *trial);
    *out = NULL;
    if (!trial || !(trial->judge.arena = bys_arena_new())) {
        free(trial);
        return bys_error_set(err, BYS_ENOMEM, 0, "out of memory for the design");
    }
    trial->judge.site = site;
    trial->judge.options = options ? *options : plain;
    trial->judge.messages = messages;
    trial->judge.out = &trial->design;
    trial->judge.keep_pulls = true;
    bys_rc rc = bys_judge_solve(&trial->judge, err);
    if (!rc)
        rc = bys_judge_all(&trial->judge, err);
    if (rc)
        bys_trial_free(trial);
    else
        *out = trial;
    return rc;
}

bys_anchor_pair bys_trial_anchor_rules(bys_judge *judge, int index, const bys_part *part)
{
    const bys_anchor_place place = bys_anchor_place_of(judge, index);
    const bys_anchor_part *anchor = &part->u.anchor;
    return (bys_anchor_pair){
        bys_anchor_rule_make(judge, anchor, part->item.basis, &place, BYS_STATE_INTACT),
        bys_anchor_rule_make(judge, anchor, part->item.basis, &place, BYS_STATE_LOST)};
}

typedef struct {
    bys_anchor_seen best_seen, out_seen;
    bys_anchor_worst best, out;
} trial_worst;

static void keep(trial_worst *worst, const bys_anchor_seen *seen, const bys_where *where)
{
    const bool ok = seen->trouble == BYS_SEEN_OK;
    bys_anchor_worst *to = ok ? &worst->best : &worst->out;
    bys_anchor_seen *room = ok ? &worst->best_seen : &worst->out_seen;
    const double value = ok ? seen->utilisation : seen->characteristic;
    if (to->seen && !(value > (ok ? room->utilisation : room->characteristic)))
        return;
    *room = *seen;
    *to = (bys_anchor_worst){room, *where};
}

bys_anchor_load bys_trial_anchor(bys_judge *judge, int index, const bys_anchor_pair *rules)
{
    trial_worst worst = {.best = {NULL, {NULL, -1}}, .out = {NULL, {NULL, -1}}};
    const int unverified = judge->out->unverified_checks;
    for (int j = 0; j < judge->job_count; j++) {
        const bys_job *job = &judge->jobs[j];
        judge->no_memory |= job->pulls_failed;
        for (int k = 0; bys_job_demanded(judge, job) && k < job->pull_count; k++) {
            const bys_anchor_pull *pull = &job->pulls[k];
            const bys_where where = {job, pull->lost};
            bys_anchor_seen seen;
            if (pull->anchor != index || (pull->lost >= 0 && !judge->lost_demanded))
                continue;
            const bys_anchor_rule *rule = pull->lost < 0 ? &rules->intact : &rules->lost;
            bys_anchor_look(&seen, rule, pull->force, pull->heading, pull->grounded,
                            pull->chain_grip, pull->normal);
            seen.lost = pull->lost;
            keep(&worst, &seen, &where);
        }
    }
    const bys_anchor_load load = bys_anchor_load_make(judge, index, &rules->intact, &rules->lost,
                                                      &worst.best, &worst.out);
    judge->out->unverified_checks = unverified;
    return load;
}

bys_strength bys_trial_piece(bys_judge *judge, int index, const bys_part *part)
{
    const bys_piece *laid = &judge->pieces[index];
    const bys_piece piece = bys_piece_make(judge, laid->id, part, laid->fitting);
    const int unverified = judge->out->unverified_checks;
    bys_strength check = bys_piece_check(judge, &piece, index);
    if (laid->leg >= 0)
        bys_check_settle(judge, &check, &laid->leg, 1);
    judge->out->unverified_checks = unverified;
    return check;
}
