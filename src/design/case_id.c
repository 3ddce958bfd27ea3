// SPDX-License-Identifier: GPL-3.0-or-later
// Case ids: ENVIRONMENT:STAGE:CONDITION, such as 50y/045/HAT-and-surge/w000:harvest:lost:L05/N.
#include "design/judge.h"

#include <string.h>

/// True if `id` starts with `part` and a colon; *rest = what follows.
static bool starts(const char *id, const char *part, const char **rest)
{
    const size_t n = strlen(part);
    if (strncmp(id, part, n) != 0 || id[n] != ':')
        return false;
    *rest = id + n + 1;
    return true;
}

static bool find_condition(const bys_judge *judge, const char *text, int *lost)
{
    const bys_network *net = judge->stages[0].net;
    *lost = -1;
    if (strcmp(text, "intact") == 0)
        return true;
    if (strncmp(text, "lost:", 5) != 0)
        return false;
    for (int l = 0; l < net->leg_count; l++)
        if (strcmp(net->legs[l].id, text + 5) == 0) {
            *lost = l;
            return true;
        }
    return false;
}

bool bys_case_find(const bys_judge *judge, const char *id, int *job, int *lost)
{
    for (int j = 0; j < judge->job_count; j++) {
        const char *rest, *condition;
        if (starts(id, bys_job_environment(judge, &judge->jobs[j])->id, &rest) &&
            starts(rest, bys_job_stage(judge, &judge->jobs[j])->id, &condition)) {
            *job = j;
            return find_condition(judge, condition, lost);
        }
    }
    return false;
}
