// SPDX-License-Identifier: GPL-3.0-or-later
// The cascade in the report, in legs.json and as files. Nothing is written if none was asked for.
#ifndef BYS_WRITE_CASCADE_H
#define BYS_WRITE_CASCADE_H

#include "write/html.h"
#include "write/json.h"

/// "cascade": [...]
void bys_cascades_json(bys_json *json, const bys_design *design);
/// <svg>: multiplier to the right, anchors held upwards, what gives way named at each step.
void bys_cascade_chart(bys_text *out, const bys_cascade *cascade);
void bys_report_cascade(bys_text *out, const bys_design *design);

#endif
