// SPDX-License-Identifier: GPL-3.0-or-later
// The main job from beginning to end.
#include "design/cascade.h"
#include "design/sets.h"
#include "design/sensitivities.h"
#include "design/tolerance.h"

#include <stdlib.h>

/// The design with the memory that everything in it belongs to.
typedef struct {
    bys_design design; ///< first: the address of the box is the address of the design
    bys_arena *arena;
} design_box;

bys_arena *bys_design_arena(bys_design *design)
{
    return ((design_box *)design)->arena;
}

void bys_design_free(bys_design *design)
{
    if (!design)
        return;
    design_box *box = (design_box *)design;
    bys_arena_free(box->arena);
    free(box);
}

static bys_rc prepare(bys_judge *judge, const bys_site *listed, bys_error *err)
{
    bys_rc rc = bys_environments_make(&judge->env, listed, judge->messages, err);
    if (!rc)
        rc = bys_tuning_find(&judge->tuning, judge->site, judge->messages, err);
    if (!rc)
        rc = bys_judge_stages(judge, BYS_ALL_STAGES, err);
    if (!rc)
        rc = bys_judge_anchors(judge, err);
    if (!rc && !bys_judge_pieces(judge))
        rc = bys_error_set(err, BYS_ENOMEM, 0, "out of memory while preparing the cases");
    return rc;
}

bys_rc bys_judge_all(bys_judge *judge, bys_error *err)
{
    bys_judge_legs(judge);
    bys_rc rc = judge->no_memory ? BYS_OK : bys_judge_rates(judge, err);
    if (!rc && !judge->no_memory)
        rc = bys_judge_tolerances(judge, err);
    if (rc)
        return rc;
    if (!judge->no_memory)
        bys_judge_cases(judge);
    if (!judge->no_memory)
        bys_judge_environments(judge);
    if (!judge->no_memory)
        bys_judge_sets(judge);
    if (!judge->no_memory)
        bys_judge_findings(judge);
    if (!judge->no_memory)
        bys_judge_verdict(judge);
    if (!judge->no_memory)
        bys_judge_drag(judge);
    if (!judge->no_memory)
        bys_judge_report_rows(judge);
    if (!judge->no_memory)
        bys_judge_known(judge);
    rc = judge->no_memory ? BYS_OK : bys_judge_plan(judge, err);
    if (!judge->no_memory)
        bys_judge_contours(judge);
    if (!rc && !judge->no_memory)
        rc = bys_judge_accounts(judge, err);
    if (!rc && !judge->no_memory)
        rc = bys_judge_cascades(judge, err);
    if (rc)
        return rc;
    if (judge->no_memory || !bys_judge_own(judge))
        return bys_error_set(err, BYS_ENOMEM, 0, "out of memory while judging the cases");
    return BYS_OK;
}

void bys_judge_release(bys_judge *judge)
{
    bys_judge_jobs_free(judge);
    bys_judge_stages_free(judge);
    bys_tuning_free(&judge->tuning);
    bys_environments_free(&judge->env);
}

/// What the rules demand is solved whatever is asked for.
static bys_rc choose_conditions(bys_judge *judge, bys_error *err)
{
    const char *asked = judge->options.conditions;
    const bys_rc rc = bys_set_kinds_read(&judge->set_kinds, asked, err);
    if (asked && *asked)
        judge->options.intact_only =
            !judge->lost_demanded && !(judge->set_kinds >> BYS_SET_LOST & 1);
    return rc;
}

bys_rc bys_judge_solve(bys_judge *judge, bys_error *err)
{
    bys_site listed = *judge->site;
    if (judge->options.directions > 0)
        listed.directions = judge->options.directions;
    judge->lost_demanded = judge->site->rules.demand_lost_leg;
    bys_rc rc = choose_conditions(judge, err);
    if (!rc)
        rc = prepare(judge, &listed, err);
    return rc ? rc : bys_judge_jobs(judge, err);
}

bys_rc bys_design_lint(const bys_site *site, bys_messages *messages, bys_error *err)
{
    bys_design design = {0};
    bys_judge judge = {.site = site, .messages = messages, .out = &design,
                       .arena = bys_arena_new()};
    if (!judge.arena)
        return bys_error_set(err, BYS_ENOMEM, 0, "out of memory");
    const bool ok = bys_judge_tests(&judge);
    bys_arena_free(judge.arena);
    return ok ? BYS_OK
           : judge.no_memory
               ? bys_error_set(err, BYS_ENOMEM, 0, "out of memory")
               : bys_error_set(err, BYS_EINPUT, 0, "a record of a pull test has faults");
}

bys_rc bys_design_run(bys_design **out, const bys_site *site, const bys_check_options *options,
                      bys_messages *messages, bys_error *err)
{
    static const bys_check_options plain = BYS_CHECK_OPTIONS_INIT;
    *out = NULL;
    design_box *box = calloc(1, sizeof *box);
    if (!box || !(box->arena = bys_arena_new())) {
        free(box);
        return bys_error_set(err, BYS_ENOMEM, 0, "out of memory for the design");
    }
    bys_judge judge = {.site = site,
                       .options = options ? *options : plain,
                       .messages = messages,
                       .out = &box->design,
                       .arena = box->arena};
    bys_rc rc = bys_judge_solve(&judge, err);
    if (!rc)
        rc = bys_judge_all(&judge, err);
    bys_judge_release(&judge);
    if (rc) {
        bys_design_free(&box->design);
        return rc;
    }
    *out = &box->design;
    return BYS_OK;
}
