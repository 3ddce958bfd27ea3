// SPDX-License-Identifier: GPL-3.0-or-later
// What each rule profile asks of the same leg: for the terminal, for legs.json, for the report.
#ifndef BYS_WRITE_PROFILES_H
#define BYS_WRITE_PROFILES_H

#include "write/json.h"

#include <byssus/design.h>

/// Each adds nothing if no profiles were asked for.
void bys_profiles_text(bys_text *out, const bys_design *design, int width);
void bys_profiles_json(bys_json *json, const bys_design *design);
void bys_profiles_html(bys_text *out, const bys_design *design);

#endif
