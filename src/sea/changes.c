// SPDX-License-Identifier: GPL-3.0-or-later
// Cases that the user left out: a pattern with * against "environment" or "environment:stage".
//
// NOTES     1. A pattern without a colon takes the environment at all stages.
//           2. Slack water is never left out: rest positions come from it.
// SOURCE    derived (own choice).
#include "base/codes.h"
#include "sea/sea.h"

#include <string.h>

/// Does text, up to its end, fit the pattern?
static bool fits(const char *pattern, const char *text)
{
    const char *star = NULL, *retry = NULL;
    while (*text) {
        if (*pattern == '*') {
            star = pattern++;
            retry = text;
        } else if (*pattern == *text) {
            pattern++, text++;
        } else if (star) {
            pattern = star + 1;
            text = ++retry;
        } else {
            return false;
        }
    }
    return pattern[strspn(pattern, "*")] == '\0';
}

/// Splits at the colon; stage is NULL if the pattern has none.
static bool drop_fits(const bys_drop *drop, const char *environment, const char *stage)
{
    char front[256];
    const char *colon = strrchr(drop->pattern, ':');
    const size_t n = colon ? (size_t)(colon - drop->pattern) : strlen(drop->pattern);
    if (n >= sizeof front)
        return false;
    memcpy(front, drop->pattern, n);
    front[n] = '\0';
    if (!fits(front, environment))
        return false;
    return !colon || (stage && fits(colon + 1, stage));
}

int bys_case_dropped(const bys_site *site, const char *environment, const char *stage)
{
    if (strncmp(environment, "slack/", 6) == 0)
        return -1;
    for (int i = 0; i < site->drop_count; i++)
        if (drop_fits(&site->drops[i], environment, stage))
            return i;
    return -1;
}

static bool in_use(const bys_environments *list, const bys_site *site, const bys_drop *drop)
{
    for (int i = 0; i < list->count; i++) {
        const char *id = list->items[i].id;
        if (strncmp(id, "slack/", 6) == 0)
            continue;
        if (drop_fits(drop, id, NULL))
            return true;
        for (int s = 0; s < site->stage_count; s++)
            if (drop_fits(drop, id, site->stages[s].item.id))
                return true;
    }
    return false;
}

void bys_environments_drop(bys_environments *list, const bys_site *site, bys_messages *messages)
{
    for (int d = 0; d < site->drop_count; d++)
        if (!in_use(list, site, &site->drops[d]))
            bys_messages_add(messages, BYS_FAULT, BYS_M_drop_nothing, site->drops[d].place,
                             "<drop case=\"%.80s\"> fits no case; byssus check SITE --list-cases "
                             "prints them",
                             site->drops[d].pattern);
    int kept = 0;
    for (int i = 0; i < list->count; i++)
        if (bys_case_dropped(site, list->items[i].id, NULL) < 0)
            list->items[kept++] = list->items[i];
    list->count = kept;
}
