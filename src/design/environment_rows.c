// SPDX-License-Identifier: GPL-3.0-or-later
// Rows of the environments and of what the user left out, for the report and before solving.
#include "design/judge.h"

#include <math.h>
#include <stdlib.h>

static double towards(const double way[2])
{
    const double a = atan2(way[0], way[1]);
    return a < 0.0 ? a + 2.0 * M_PI : a;
}

static double from(const double way[2])
{
    const double back[2] = {-way[0], -way[1]};
    return towards(back);
}

static double least_shelter(const bys_sea *sea)
{
    double least = sea->shade ? 1.0 : NAN;
    for (int i = 0; sea->shade && i < sea->shade_count; i++)
        least = fmin(least, sea->shade[i]);
    return least;
}

static bys_environment_row row_of(const bys_site *site, const bys_environment *e)
{
    const bys_sea *sea = &e->sea;
    const double top = bys_sea_speed(sea, sea->level, NULL);
    return (bys_environment_row){
        .id = e->id,
        .level = e->level >= 0 ? site->levels[e->level].item.id : "no surface",
        .demanded = e->demanded,
        .level_m = sea->level,
        .depth_m = sea->has_bed ? sea->depth : NAN,
        .current_m_s = top,
        .current_towards_rad = towards(sea->current),
        .turns = sea->profile != NULL,
        .least_shelter = least_shelter(sea),
        .wind_m_s = sea->wind_speed,
        .wind_from_rad = from(sea->wind),
        .averaging_s = e->gust > 0.0 ? e->gust : NAN,
        .hs_m = sea->hs,
        .tp_s = sea->hs > 0.0 ? sea->tp : NAN,
        .gamma = sea->hs > 0.0 ? sea->gamma : NAN,
        .waves_from_rad = from(sea->waves),
        .law = e->law >= 0 ? bys_growth_law_words[e->law] : "",
        .fetch_m = e->fetch,
        .broke = e->broke,
        .because = e->because ? e->because : "",
    };
}

static bool put_rows(bys_environment_row **rows, int *count, const bys_site *site,
                     const bys_environments *list, bys_arena *arena)
{
    *rows = bys_arena_get(arena, ((size_t)list->count + 1) * sizeof **rows);
    for (int i = 0; *rows && i < list->count; i++)
        (*rows)[(*count)++] = row_of(site, &list->items[i]);
    return *rows != NULL;
}

static const char *stage_id(const bys_site *site, int s)
{
    return site->stage_count > 0 ? site->stages[s].item.id : "as-written";
}

/// Counts what each drop takes out, of the list as it would be without drops.
static bool put_drops(bys_drop_row **rows, int *count, const bys_site *site, bys_arena *arena)
{
    *rows = bys_arena_get(arena, ((size_t)site->drop_count + 1) * sizeof **rows);
    if (!*rows || site->drop_count == 0)
        return *rows != NULL;
    bys_site whole = *site;
    whole.drop_count = 0;
    bys_environments all;
    bys_messages *quiet = NULL;
    if (bys_messages_new(&quiet))
        return false;
    if (bys_environments_make(&all, &whole, quiet, NULL)) {
        bys_messages_free(quiet);
        return true;
    }
    for (int d = 0; d < site->drop_count; d++)
        (*rows)[(*count)++] = (bys_drop_row){site->drops[d].pattern, site->drops[d].because, 0};
    for (int e = 0; e < all.count; e++)
        for (int s = 0; s < (site->stage_count > 0 ? site->stage_count : 1); s++) {
            const int d = bys_case_dropped(site, all.items[e].id, stage_id(site, s));
            if (d >= 0)
                (*rows)[d].cases++;
        }
    bys_environments_free(&all);
    bys_messages_free(quiet);
    return true;
}

void bys_judge_environments(bys_judge *judge)
{
    bys_design *out = judge->out;
    if (!put_rows(&out->environments, &out->environment_count, judge->site, &judge->env,
                  judge->arena) ||
        !put_drops(&out->drops, &out->drop_count, judge->site, judge->arena))
        judge->no_memory = true;
}

// ---- before solving ---------------------------------------------------------------------------

typedef struct {
    bys_case_plan plan; ///< first
    bys_arena *arena;
    bys_environments env;
} plan_box;

static void count_cases(bys_case_plan *plan, const bys_site *site, int legs)
{
    for (int e = 0; e < plan->environment_count; e++)
        for (int s = 0; s < plan->stage_count; s++)
            if (bys_case_dropped(site, plan->environments[e].id, plan->stages[s]) < 0) {
                plan->cases++;
                plan->lost_cases += plan->environments[e].demanded ? legs : 0;
            }
}

static bys_rc fill(plan_box *box, const bys_site *site, bys_messages *messages, bys_error *err)
{
    bys_case_plan *plan = &box->plan;
    bys_network *net = NULL;
    const bool laid = site->block_count + site->grid_count > 0 && site->stage_count > 0;
    bys_rc rc = bys_environments_make(&box->env, site, messages, err);
    if (!rc)
        rc = bys_network_expand(&net, site, laid ? 0 : -1, messages, err);
    if (rc)
        return rc;
    const int legs = net->leg_count, stages = laid ? site->stage_count : 1;
    bys_network_free(net);
    plan->site = site->name;
    plan->stages = bys_arena_get(box->arena, (size_t)stages * sizeof *plan->stages);
    if (!plan->stages ||
        !put_rows(&plan->environments, &plan->environment_count, site, &box->env, box->arena) ||
        !put_drops(&plan->drops, &plan->drop_count, site, box->arena))
        return bys_error_set(err, BYS_ENOMEM, 0, "out of memory for the list of cases");
    for (int s = 0; s < stages; s++)
        plan->stages[plan->stage_count++] = laid ? site->stages[s].item.id : "as-written";
    count_cases(plan, site, legs);
    return BYS_OK;
}

bys_rc bys_case_plan_make(bys_case_plan **out, const bys_site *site, bys_messages *messages,
                          bys_error *err)
{
    *out = NULL;
    plan_box *box = calloc(1, sizeof *box);
    if (!box || !(box->arena = bys_arena_new())) {
        free(box);
        return bys_error_set(err, BYS_ENOMEM, 0, "out of memory for the list of cases");
    }
    const bys_rc rc = fill(box, site, messages, err);
    if (rc) {
        bys_case_plan_free(&box->plan);
        return rc;
    }
    *out = &box->plan;
    return BYS_OK;
}

void bys_case_plan_free(bys_case_plan *plan)
{
    if (!plan)
        return;
    plan_box *box = (plan_box *)plan;
    bys_environments_free(&box->env);
    bys_arena_free(box->arena);
    free(box);
}
