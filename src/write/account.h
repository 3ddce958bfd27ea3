// SPDX-License-Identifier: GPL-3.0-or-later
// The load account as JSON, and its words.
#ifndef BYS_WRITE_ACCOUNT_H
#define BYS_WRITE_ACCOUNT_H

#include "write/json.h"
#include <byssus/design.h>

const char *bys_load_words(bys_load load); ///< "viscous drift"
/// Adds the account under `key` (NULL in an array).
void bys_account_json(bys_json *json, const char *key, const bys_load_account *account);
/// Unit vector in plan of all that pushes sideways; false if nothing does.
bool bys_account_side(double side[2], const bys_load_account *account);

#endif
