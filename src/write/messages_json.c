// SPDX-License-Identifier: GPL-3.0-or-later
// Messages about an input as a JSON array.
#include "write/json.h"

#include <byssus/write.h>

void bys_write_messages_json(bys_text *out, const bys_messages *messages)
{
    static const char *const names[] = {"fault", "warning", "note"};
    static const char letters[] = "EWN";
    bys_json json = {.out = out};
    bys_json_open(&json, NULL, '[', false);
    for (size_t i = 0; i < bys_messages_count(messages); i++) {
        const bys_message *message = bys_messages_at(messages, i);
        bys_text code = {0};
        bys_text_addf(&code, "%c%04d", letters[message->severity], message->code);
        bys_json_open(&json, NULL, '{', true);
        bys_json_string(&json, "severity", names[message->severity]);
        bys_json_string(&json, "code", code.failed ? "" : code.data);
        bys_json_string(&json, "file", bys_messages_file_name(messages, message->place.file));
        bys_json_integer(&json, "line", message->place.line);
        bys_json_integer(&json, "column", message->place.column);
        bys_json_string(&json, "text", message->text);
        bys_json_close(&json, '}');
        out->failed = out->failed || code.failed;
        bys_text_free(&code);
    }
    bys_json_close(&json, ']');
    bys_json_finish(&json);
}
