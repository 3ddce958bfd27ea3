// SPDX-License-Identifier: GPL-3.0-or-later
// Load accounts of the cases that govern the legs, each solved once more for it. A leg's line and its
// anchor may be governed by two cases; a connected part that is a copy of another shares its account.
#include "design/judge.h"
#include "statics/account.h"

#include <stdlib.h>
#include <string.h>

_Static_assert((int)BYS_ACCOUNT_LOADS == (int)BYS_LOAD_COUNT, "the same kinds in the same order");

bys_rc bys_account_of(bys_load_account *out, bys_judge *judge, const bys_state *state,
                      const bys_sea *sea, const bys_condition *condition, int island,
                      bys_error *err)
{
    bys_account account;
    const bys_rc rc = bys_account_make(&account, state, sea, condition, island, err);
    if (rc)
        return rc;
    out->rows = bys_judge_get(judge, (size_t)account.row_count, sizeof *out->rows);
    out->row_count = out->rows ? account.row_count : 0;
    for (int i = 0; i < out->row_count; i++) {
        const bys_account_row *row = &account.rows[i];
        out->rows[i].kind = row->kind;
        out->rows[i].part = row->part ? bys_judge_text(judge, "%s", row->part->item.id) : "";
        memcpy(out->rows[i].f, row->f, sizeof row->f);
    }
    memcpy(out->sum, account.sum, sizeof account.sum);
    memcpy(out->total, account.total, sizeof account.total);
    memcpy(out->supports, account.reaction, sizeof account.reaction);
    out->applied_N = account.applied;
    out->gap = bys_account_gap(&account);
    bys_account_free(&account);
    return BYS_OK;
}

bys_rc bys_account_rows(bys_load_account *out, bys_judge *judge, const bys_state *state,
                        const bys_sea *sea, int lost, int island, bys_error *err)
{
    int sections[64], count = 0;
    for (int s = 0; lost >= 0 && s < state->net->section_count && count < 64; s++)
        if (state->net->sections[s].leg == lost)
            sections[count++] = s;
    const bys_condition condition = {.id = "lost", .sections = sections, .section_count = count};
    return bys_account_of(out, judge, state, sea, lost < 0 ? NULL : &condition, island, err);
}

/// One case and connected part that governs something.
typedef struct { int job, lost, island; } governed;

static bool same(const governed *a, const governed *b)
{
    return a->job == b->job && a->lost == b->lost && a->island == b->island;
}

/// The case that governs a check of a leg; copies of a part count as the part they copy, if intact.
static bool governed_by(const bys_judge *judge, int leg, const char *case_id, governed *out)
{
    if (!bys_case_find(judge, case_id, &out->job, &out->lost))
        return false;
    const bys_job *job = &judge->jobs[out->job];
    const bys_stage_set *set = bys_job_stage(judge, job);
    const int own = set->island_of_leg[leg], first = set->rep[own];
    out->island = out->lost < 0 && job->island[first] == BYS_STABLE ? first : own;
    return out->lost >= 0 || job->island[out->island] == BYS_STABLE;
}

static int add_leg(bys_judge *judge, governed *list, int count, const governed *one, int leg)
{
    int k = 0;
    while (k < count && !same(&list[k], one))
        k++;
    bys_load_account *account = &judge->out->accounts[k];
    if (k == count) {
        list[count++] = *one;
        account->legs = bys_judge_get(judge, (size_t)judge->leg_count, sizeof *account->legs);
        account->case_id = bys_case_name(judge, &judge->jobs[one->job], one->lost);
    }
    const char *id = judge->out->legs[leg].id;
    if (account->legs && (account->leg_count == 0 ||
                          strcmp(account->legs[account->leg_count - 1], id) != 0))
        account->legs[account->leg_count++] = id;
    return count;
}

/// Solves each case once and makes the accounts of its parts.
static bys_rc fill(bys_judge *judge, const governed *list, int count, bys_error *err)
{
    for (int k = 0; k < count; k++) {
        bys_state *state = NULL;
        bool first = true;
        for (int i = 0; i < k; i++)
            first = first && (list[i].job != list[k].job || list[i].lost != list[k].lost);
        if (!first)
            continue;
        const bys_job *job = &judge->jobs[list[k].job];
        bys_rc rc = bys_judge_again(&state, judge, job, list[k].lost, err);
        for (int i = k; !rc && i < count; i++)
            if (list[i].job == list[k].job && list[i].lost == list[k].lost)
                rc = bys_account_rows(&judge->out->accounts[i], judge, state,
                                      &bys_job_environment(judge, job)->sea, list[i].lost,
                                      list[i].island, err);
        bys_state_free(state);
        if (rc)
            return rc;
    }
    return BYS_OK;
}

bys_rc bys_judge_accounts(bys_judge *judge, bys_error *err)
{
    const size_t most = 2 * (size_t)judge->leg_count;
    bys_design *out = judge->out;
    governed one, *list = calloc(most + 1, sizeof *list);
    int count = 0;
    out->accounts = bys_judge_get(judge, most, sizeof *out->accounts);
    for (int l = 0; list && !judge->no_memory && l < out->leg_count; l++) {
        if (governed_by(judge, l, out->legs[l].strength.case_id, &one))
            count = add_leg(judge, list, count, &one, l);
        if (governed_by(judge, l, out->legs[l].anchor.check.case_id, &one))
            count = add_leg(judge, list, count, &one, l);
    }
    out->account_count = count;
    const bys_rc rc = list ? fill(judge, list, count, err)
                           : bys_error_set(err, BYS_ENOMEM, 0, "out of memory for accounts");
    free(list);
    return rc;
}
