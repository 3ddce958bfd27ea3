// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/ids.h"

#include <stdlib.h>
#include <string.h>

void bys_ids_free(bys_ids *ids)
{
    free(ids->at);
    *ids = (bys_ids){0};
}

void bys_ids_add(bys_ids *ids, const char *id, int at, bys_place place)
{
    if (!*id)
        return;
    if (ids->count == ids->capacity) {
        int capacity = ids->capacity ? 2 * ids->capacity : 32;
        bys_id *more = realloc(ids->at, (size_t)capacity * sizeof *more);
        if (!more) {
            ids->failed = true;
            return;
        }
        ids->at = more;
        ids->capacity = capacity;
    }
    ids->at[ids->count++] = (bys_id){id, at, place};
}

static int compare(const void *a, const void *b)
{
    const bys_id *x = a, *y = b;
    int order = strcmp(x->id, y->id);
    return order ? order : (x->at > y->at) - (x->at < y->at);
}

void bys_ids_sort(bys_ids *ids)
{
    if (ids->count > 1)
        qsort(ids->at, (size_t)ids->count, sizeof *ids->at, compare);
}

const bys_id *bys_ids_entry(const bys_ids *ids, const char *id)
{
    int low = 0, high = ids->count;
    while (low < high) {
        int middle = low + (high - low) / 2;
        if (strcmp(ids->at[middle].id, id) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return low < ids->count && strcmp(ids->at[low].id, id) == 0 ? &ids->at[low] : NULL;
}

int bys_ids_find(const bys_ids *ids, const char *id)
{
    const bys_id *entry = bys_ids_entry(ids, id);
    return entry ? entry->at : -1;
}
