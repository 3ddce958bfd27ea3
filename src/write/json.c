// SPDX-License-Identifier: GPL-3.0-or-later
#include "write/json.h"
#include "write/utf8.h"

#include <byssus/write.h>

static void add_escape(bys_text *out, unsigned char byte)
{
    switch (byte) {
    case '"': bys_text_add(out, "\\\""); break;
    case '\\': bys_text_add(out, "\\\\"); break;
    case '\n': bys_text_add(out, "\\n"); break;
    case '\r': bys_text_add(out, "\\r"); break;
    case '\t': bys_text_add(out, "\\t"); break;
    default: bys_text_addf(out, "\\u%04x", byte); break;
    }
}

void bys_write_json_string(bys_text *out, const char *string)
{
    bys_text_add(out, "\"");
    while (*string) {
        size_t n = bys_utf8_length(string);
        unsigned char byte = (unsigned char)*string;
        if (n == 0)
            bys_text_add(out, "\xEF\xBF\xBD");
        else if (byte == '"' || byte == '\\' || byte < 0x20 || byte == 0x7F)
            add_escape(out, byte);
        else
            bys_text_add_bytes(out, string, n);
        string += n ? n : 1;
    }
    bys_text_add(out, "\"");
}

static void new_line(bys_json *json)
{
    bys_text_add(json->out, "\n");
    for (int i = 0; i < json->depth; i++)
        bys_text_add(json->out, " ");
}

static void begin(bys_json *json, const char *key)
{
    if (json->comma)
        bys_text_add(json->out, json->flat ? ", " : ",");
    if (!json->flat && json->depth > 0)
        new_line(json);
    if (key) {
        bys_write_json_string(json->out, key);
        bys_text_add(json->out, ": ");
    }
    json->comma = true;
}

void bys_json_open(bys_json *json, const char *key, char bracket, bool flat)
{
    begin(json, key);
    bys_text_add_bytes(json->out, &bracket, 1);
    json->depth++;
    if (json->flat || flat)
        json->flat++;
    json->comma = false;
}

void bys_json_close(bys_json *json, char bracket)
{
    json->depth--;
    if (json->flat)
        json->flat--;
    else if (json->comma)
        new_line(json);
    bys_text_add_bytes(json->out, &bracket, 1);
    json->comma = true;
}

void bys_json_string(bys_json *json, const char *key, const char *value)
{
    begin(json, key);
    bys_write_json_string(json->out, value ? value : "");
}

void bys_json_number(bys_json *json, const char *key, double value)
{
    begin(json, key);
    bys_text_add_double(json->out, value);
}

void bys_json_integer(bys_json *json, const char *key, long value)
{
    begin(json, key);
    bys_text_addf(json->out, "%ld", value);
}

void bys_json_boolean(bys_json *json, const char *key, bool value)
{
    begin(json, key);
    bys_text_add(json->out, value ? "true" : "false");
}

void bys_json_finish(bys_json *json)
{
    bys_text_add(json->out, "\n");
}
