// SPDX-License-Identifier: GPL-3.0-or-later
// The worst of each kind of condition that was asked for. Nothing is written if none was.
#ifndef BYS_WRITE_CONDITIONS_H
#define BYS_WRITE_CONDITIONS_H

#include "write/html.h"
#include "write/json.h"

/// Lines for a terminal, one a kind, without heading.
void bys_conditions_text(bys_text *out, const bys_design *design, int width);
void bys_report_conditions(bys_text *out, const bys_design *design);
/// Members of a leg's "reported", after "lost".
void bys_reported_json(bys_json *json, const bys_leg_result *leg);
/// "conditions" of the whole site.
void bys_conditions_json(bys_json *json, const bys_design *design);

#endif
