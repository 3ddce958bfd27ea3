// SPDX-License-Identifier: GPL-3.0-or-later
// Cases and conditions in words.
#include "write/rows.h"

#include <math.h>
#include <string.h>

static const struct {
    const char *prefix, *before, *after;
} conditions[] = {
    {"lost:", "leg ", " lost"},     {"anchor:", "anchor ", " lost"}, {"cut:", "", " cut"},
    {"float:", "float ", " lost"},  {"fouled:", "leg ", " lost, its line fouling the next"},
    {"vessel:", "vessel ", " tied on"}, {"lift:", "lift ", ""}, {"own:", "condition ", ""},
};

void bys_condition_words(bys_text *out, const char *condition)
{
    for (size_t i = 0; i < sizeof conditions / sizeof conditions[0]; i++) {
        size_t n = strlen(conditions[i].prefix);
        if (!strncmp(condition, conditions[i].prefix, n)) {
            bys_text_addf(out, "%s%s%s", conditions[i].before, condition + n, conditions[i].after);
            return;
        }
    }
    bys_text_add(out, condition);
}

static const bys_case_result *find_case(const bys_design *design, const char *id)
{
    for (int i = 0; i < design->case_count; i++)
        if (!strcmp(design->cases[i].id, id))
            return &design->cases[i];
    return NULL;
}

/// A case of the same environment and stage; *condition = what follows them in the id.
static const bys_case_result *find_like(const bys_design *design, const char *id,
                                        const char **condition)
{
    for (int i = 0; i < design->case_count; i++) {
        const bys_case_result *c = &design->cases[i];
        const size_t n = strlen(c->environment), m = strlen(c->stage);
        if (!strncmp(id, c->environment, n) && id[n] == ':' && !strncmp(id + n + 1, c->stage, m) &&
            id[n + 1 + m] == ':') {
            *condition = id + n + m + 2;
            return c;
        }
    }
    return NULL;
}

// " deg" as the degree sign.
static void add_short(bys_text *out, const char *words)
{
    for (const char *deg; (deg = strstr(words, " deg")); words = deg + 4) {
        bys_text_add_bytes(out, words, (size_t)(deg - words));
        bys_text_add(out, deg[4] >= 'a' && deg[4] <= 'z' ? " deg" : "\xC2\xB0");
    }
    bys_text_add(out, words);
}

void bys_case_words(bys_text *out, const bys_design *design, const char *case_id)
{
    const bys_case_result *found = case_id && *case_id ? find_case(design, case_id) : NULL;
    const char *state = found ? found->condition : "";
    if (!found && case_id && *case_id)
        found = find_like(design, case_id, &state);
    if (!found || !found->words || !*found->words) {
        bys_text_add(out, case_id ? case_id : "");
        return;
    }
    add_short(out, found->words);
    bys_text condition = {0};
    bys_condition_words(&condition, state);
    if (condition.data && strcmp(state, "intact") && *state &&
        !strstr(found->words, condition.data))
        bys_text_addf(out, "; %s", condition.data);
    bys_text_free(&condition);
}

int bys_worst_direction(const bys_design *design, const bys_leg_result *leg)
{
    int worst = -1;
    for (int i = 0; leg->by_direction_N && i < design->direction_count; i++)
        if (!isnan(leg->by_direction_N[i]) &&
            (worst < 0 || leg->by_direction_N[i] > leg->by_direction_N[worst]))
            worst = i;
    return worst;
}
