// SPDX-License-Identifier: GPL-3.0-or-later
// What every named thing of a site starts with.
#ifndef BYS_SITE_ITEM_H
#define BYS_SITE_ITEM_H

#include <byssus/base.h>

/// Head of every named item.
typedef struct {
    const char *id;
    const char *name;   ///< free text, "" if none
    const char *source; ///< where the numbers come from, "" if not stated
    bys_basis basis;    ///< how well they are known (attribute basis="read|memory|user|test|assumed")
    bys_place place;
} bys_item;

#endif
