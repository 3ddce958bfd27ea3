// SPDX-License-Identifier: GPL-3.0-or-later
// Small helpers of the main job: text, memory, names of cases.
#include "design/judge.h"

#include "base/number.h"

#include <math.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

const char *bys_judge_text(bys_judge *judge, const char *format, ...)
{
    char small[512];
    va_list list, again;
    va_start(list, format);
    va_copy(again, list);
    const int n = bys_format_list(small, sizeof small, format, list);
    char *text = n >= 0 ? bys_arena_get(judge->arena, (size_t)n + 1) : NULL;
    if (text && (size_t)n < sizeof small)
        memcpy(text, small, (size_t)n + 1);
    else if (text)
        bys_format_list(text, (size_t)n + 1, format, again);
    va_end(again);
    va_end(list);
    judge->no_memory |= !text;
    return text ? text : "";
}

void *bys_judge_get(bys_judge *judge, size_t count, size_t size)
{
    void *room = bys_arena_get(judge->arena, (count ? count : 1) * size);
    judge->no_memory |= !room;
    return room;
}

static int weakness(bys_basis basis)
{
    static const int ranks[] = {[BYS_BASIS_READ] = 0,
                                [BYS_BASIS_TEST] = 1,
                                [BYS_BASIS_USER] = 2,
                                [BYS_BASIS_MEMORY] = 3,
                                [BYS_BASIS_ASSUMED] = 4};
    return ranks[basis];
}

bys_basis bys_basis_weaker(bys_basis a, bys_basis b)
{
    return weakness(a) >= weakness(b) ? a : b;
}

bool bys_basis_unverified(bys_basis basis)
{
    return basis == BYS_BASIS_MEMORY || basis == BYS_BASIS_ASSUMED;
}

bool bys_environment_slack(const bys_environment *environment)
{
    return bys_sea_slack(&environment->sea);
}

const bys_stage_set *bys_job_stage(const bys_judge *judge, const bys_job *job)
{
    return &judge->stages[job->stage];
}

const bys_environment *bys_job_environment(const bys_judge *judge, const bys_job *job)
{
    return &judge->env.items[job->environment];
}

bool bys_job_demanded(const bys_judge *judge, const bys_job *job)
{
    return bys_job_environment(judge, job)->demanded;
}

const char *bys_condition_name(bys_judge *judge, int lost)
{
    if (lost < 0)
        return "intact";
    return bys_judge_text(judge, "lost:%s", judge->stages[0].net->legs[lost].id);
}

const char *bys_case_name(bys_judge *judge, const bys_job *job, int lost)
{
    return bys_judge_text(judge, "%s:%s:%s", bys_job_environment(judge, job)->id,
                          bys_job_stage(judge, job)->id, bys_condition_name(judge, lost));
}

static const char *stage_words(const bys_judge *judge, const bys_stage_set *set)
{
    if (set->stage < 0)
        return "";
    const bys_item *item = &judge->site->stages[set->stage].item;
    return *item->name ? item->name : item->id;
}

static const char *level_words(const bys_judge *judge, const bys_environment *environment)
{
    if (environment->level < 0)
        return "no surface";
    const bys_item *item = &judge->site->levels[environment->level].item;
    return *item->name ? item->name : item->id;
}

/// "090" or "067.5"
static const char *degree_words(bys_judge *judge, double angle)
{
    const double tenths =
        round(fmod(angle * (180.0 / 3.14159265358979323846) + 720.0, 360.0) * 10.0);
    return bys_judge_text(judge, fmod(tenths, 10.0) == 0.0 ? "%03.0f" : "%05.1f",
                          fmod(tenths / 10.0, 360.0));
}

/// "current towards 090 deg, HAT and surge, harvest"
const char *bys_case_speech(bys_judge *judge, const bys_job *job)
{
    const bys_environment *e = bys_job_environment(judge, job);
    const char *level = level_words(judge, e);
    const char *bare = stage_words(judge, bys_job_stage(judge, job));
    const char *comma = *bare ? ", " : "";
    const char *stage =
        e->soft_ropes ? bys_judge_text(judge, "%s, working stiffness of ropes", bare) : bare;
    if (bys_environment_slack(e))
        return bys_judge_text(judge, "slack water, %s%s%s", level, comma, stage);
    const char *blow = degree_words(judge, atan2(e->sea.waves[0], e->sea.waves[1]));
    if (!(e->sea.current_speed > 0.0))
        return bys_judge_text(judge, "no current, wind and waves towards %s deg, %s%s%s", blow,
                              level, comma, stage);
    const char *flow = degree_words(judge, e->towards);
    const bool apart = (e->sea.wind_speed > 0.0 || e->sea.hs > 0.0) && strcmp(flow, blow) != 0;
    return bys_judge_text(judge, "current towards %s deg%s%s%s, %s%s%s", flow,
                          apart ? ", wind and waves towards " : "", apart ? blow : "",
                          apart ? " deg" : "", level, comma, stage);
}

/// Newtons as text in kN with the digits that a rigger reads.
const char *bys_kilonewtons(bys_judge *judge, double newtons)
{
    return bys_judge_text(judge, fabs(newtons) < 99950.0 ? "%.1f kN" : "%.0f kN", newtons / 1000.0);
}

double bys_section_tension(const bys_section_state *section)
{
    return section->active ? fmax(section->tension_a, section->tension_b) : 0.0;
}
