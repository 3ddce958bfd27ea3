// SPDX-License-Identifier: GPL-3.0-or-later
// Where the anchors really went: three whole designs of one lease.
#include "design/aslaid.h"
#include "base/codes.h"
#include "design/as_cut.h"
#include "design/compare.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

void bys_aslaid_free(bys_aslaid *result)
{
    if (!result)
        return;
    bys_aslaid_work *work = (bys_aslaid_work *)result;
    bys_comparison_free(result->change);
    bys_comparison_free(result->remains);
    bys_design_free(result->design);
    bys_design_free(result->made);
    bys_design_free(result->adjusted);
    bys_network_free(work->net);
    bys_arena_free(work->arena);
    free(work);
}

int bys_aslaid_exit(const bys_aslaid *result)
{
    return !strcmp(result->verdict, "pass") ? 0 : !strcmp(result->verdict, "fail") ? 1 : 2;
}

static bys_rc no_memory(bys_error *err)
{
    return bys_error_set(err, BYS_ENOMEM, 0, "out of memory in checking what was laid");
}

static bys_rc build(bys_aslaid_work *work, bys_messages *messages, bys_error *err)
{
    bys_tuning tuning = {NULL, 0, NULL};
    bys_rc rc = bys_tuning_find(&tuning, work->site, messages, err);
    const int stage = work->site->stage_count > 0 ? 0 : -1;
    if (!rc)
        rc = bys_network_tuned(&work->net, work->site, stage, &tuning, messages, err);
    bys_tuning_free(&tuning);
    return rc;
}

// The design itself says what there is to say; only when this fails it must be told here.
static bys_rc build_design(bys_aslaid_work *work, bys_error *err)
{
    const bys_rc rc = build(work, NULL, err);
    return rc == BYS_EINPUT ? build(work, work->messages, err) : rc;
}

// The first faults in one sentence.
static const char *reasons(bys_aslaid_work *work, const bys_messages *said)
{
    enum { MOST = 3 };
    const char *all = "";
    int n = 0;
    for (size_t i = 0; all && i < bys_messages_count(said); i++) {
        const bys_message *m = bys_messages_at(said, i);
        if (m->severity == BYS_FAULT && n < MOST) {
            all = bys_arena_format(work->arena, "%s%s%s", all, n ? "; " : "", m->text);
            n++;
        }
    }
    work->failed = work->failed || !all;
    return all && *all ? all : "the layout cannot be built";
}

// The design with these legs. A layout that cannot be built leaves *out NULL and a reason.
static bys_rc run_laid(bys_design **out, const char **why, bys_aslaid_work *work,
                       const bys_leg_override *legs, bys_error *err)
{
    bys_site laid = *work->site;
    bys_messages *said = NULL;
    laid.overrides = legs;
    laid.override_count = work->net->leg_count;
    bys_rc rc = bys_messages_new(&said);
    if (!rc)
        rc = bys_design_run_lean(out, &laid, &work->options->check, said, err);
    if (rc == BYS_EINPUT) {
        *why = reasons(work, said);
        rc = BYS_OK;
    }
    bys_messages_free(said);
    return rc;
}

static bys_rc run_made(bys_aslaid_work *work, bys_error *err)
{
    const bys_leg_override *legs = bys_aslaid_as_made(work);
    return legs ? run_laid(&work->result.made, &work->result.made_why, work, legs, err)
                : no_memory(err);
}

// Found lengths take the place of the open ones, so that the design needs no search of its own.
static void close_lengths(bys_aslaid_work *work, bys_leg_override *legs, const bys_tuning *tuning)
{
    for (int i = 0; i < tuning->count; i++)
        for (int l = 0; l < work->net->leg_count; l++) {
            const bys_leg *leg = &work->net->legs[l];
            const int warp = bys_aslaid_warp(&legs[l].spec);
            if (strcmp(leg->id, tuning->items[i].leg) != 0 || warp < 0)
                continue;
            int line = 0;
            for (int k = 0; k < warp; k++)
                line += legs[l].spec.items[k].kind == BYS_LEG_LINE;
            bys_laid_leg *row = &work->result.legs[l];
            legs[l].spec.items[warp].length = tuning->items[i].value;
            legs[l].spec.pretension = NAN;
            row->piece = work->net->sections[leg->first_section + line].id;
            row->part = legs[l].spec.items[warp].part->item.id;
            row->cut_m = bys_leg_cut(work->net, leg, line);
            row->adjusted_m = tuning->items[i].value;
        }
}

static bys_rc run_adjusted(bys_aslaid_work *work, bys_error *err)
{
    bys_leg_override *legs = bys_aslaid_open(work);
    bys_site laid = *work->site;
    bys_tuning tuning = {NULL, 0, NULL};
    bys_messages *said = NULL;
    if (!legs)
        return no_memory(err);
    laid.overrides = legs;
    laid.override_count = work->net->leg_count;
    bys_rc rc = bys_messages_new(&said);
    if (!rc)
        rc = bys_tuning_find(&tuning, &laid, said, err);
    if (rc == BYS_EINPUT) {
        work->result.adjusted_why = reasons(work, said);
        rc = BYS_OK;
    } else if (!rc && tuning.count == 0) {
        work->result.adjusted_why = "no anchor stands elsewhere than it was to, by more than 1 cm";
    } else if (!rc) {
        close_lengths(work, legs, &tuning);
        rc = run_laid(&work->result.adjusted, &work->result.adjusted_why, work, legs, err);
    }
    bys_messages_free(said);
    bys_tuning_free(&tuning);
    return rc;
}

static bys_rc compare(bys_aslaid_work *work, bys_error *err)
{
    bys_aslaid *r = &work->result;
    bys_rc rc = BYS_OK;
    if (r->made)
        rc = bys_comparison_of(&r->change, r->design, r->made, err);
    if (!rc && r->adjusted)
        rc = bys_comparison_of(&r->remains, r->design, r->adjusted, err);
    return rc;
}

static bys_rc run_all(bys_aslaid_work *work, const char *path, bys_error *err)
{
    bys_rc rc = BYS_OK;
    const bool sound = bys_positions_read(work, path);
    if (work->missing)
        return bys_error_set(err, BYS_ENOINPUT, 0, "%s: cannot be opened", path);
    if (!work->failed)
        rc = build_design(work, err);
    if (!rc && !work->failed && (!sound || !bys_aslaid_match(work)))
        rc = bys_error_set(err, BYS_EINPUT, 0, "%s: faulty", path);
    if (!rc && !work->failed)
        rc = bys_design_run_lean(&work->result.design, work->site, &work->options->check,
                                 work->messages, err);
    if (!rc && !work->failed)
        rc = run_made(work, err);
    if (!rc && !work->failed)
        rc = run_adjusted(work, err);
    if (!rc && !work->failed)
        rc = compare(work, err);
    if (!rc && !work->failed)
        bys_aslaid_judge(work);
    return !rc && work->failed ? no_memory(err) : rc;
}

bys_rc bys_aslaid_run(bys_aslaid **out, const bys_site *site, const char *path,
                      const bys_aslaid_options *options, bys_messages *messages, bys_error *err)
{
    static const bys_aslaid_options plain = BYS_ASLAID_OPTIONS_INIT;
    *out = NULL;
    bys_aslaid_work *work = calloc(1, sizeof *work);
    if (!work || !(work->arena = bys_arena_new())) {
        free(work);
        return no_memory(err);
    }
    work->site = site;
    work->options = options ? options : &plain;
    work->messages = messages;
    work->result.made_why = work->result.adjusted_why = work->result.verdict = "";
    work->result.file = work->result.sha256 = work->result.headline = "";
    const bys_rc rc = run_all(work, path, err);
    if (rc) {
        bys_aslaid_free(&work->result);
        return rc;
    }
    work->options = NULL; // the caller's
    *out = &work->result;
    return BYS_OK;
}
