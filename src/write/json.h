// SPDX-License-Identifier: GPL-3.0-or-later
// Small JSON emitter: commas, indentation, escaping. NaN and infinity become null.
#ifndef BYS_WRITE_JSON_H
#define BYS_WRITE_JSON_H

#include <byssus/base.h>

/// Zero-initialise and set `out`.
typedef struct {
    bys_text *out;
    int depth;
    int flat;   ///< > 0: inside a container that stands on one line
    bool comma; ///< something already stands in the open container
} bys_json;

/// key NULL inside arrays. bracket: '{' or '['. flat: the container stays on one line.
void bys_json_open(bys_json *json, const char *key, char bracket, bool flat);
void bys_json_close(bys_json *json, char bracket);
void bys_json_string(bys_json *json, const char *key, const char *value);
void bys_json_number(bys_json *json, const char *key, double value);
void bys_json_integer(bys_json *json, const char *key, long value);
void bys_json_boolean(bys_json *json, const char *key, bool value);
/// Ends the text with a line break.
void bys_json_finish(bys_json *json);

#endif
