// SPDX-License-Identifier: GPL-3.0-or-later
// The weather of the cases, in JSON and in the report.
#ifndef BYS_WRITE_ENVIRONMENTS_H
#define BYS_WRITE_ENVIRONMENTS_H

#include "write/json.h"

#include <byssus/design.h>

void bys_environments_json(bys_json *json, const bys_environment_row *rows, int count);
void bys_drops_json(bys_json *json, const bys_drop_row *rows, int count);

#endif
