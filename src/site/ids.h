// SPDX-License-Identifier: GPL-3.0-or-later
// Sorted ids, for references and for ids used twice.
#ifndef BYS_SITE_IDS_H
#define BYS_SITE_IDS_H
#include <byssus/base.h>

typedef struct {
    const char *id;
    int at;          ///< index of the thing
    bys_place place;
} bys_id;

typedef struct {
    bys_id *at;
    int count, capacity;
    bool failed;
} bys_ids;

void bys_ids_free(bys_ids *ids);
/// Ids are borrowed; empty ones are not kept.
void bys_ids_add(bys_ids *ids, const char *id, int at, bys_place place);
/// Needed before bys_ids_find. Equal ids keep the order in which they were added.
void bys_ids_sort(bys_ids *ids);
/// Index of the first thing of that id, or -1.
int bys_ids_find(const bys_ids *ids, const char *id);
/// The same, the whole entry; NULL.
const bys_id *bys_ids_entry(const bys_ids *ids, const char *id);

#endif
