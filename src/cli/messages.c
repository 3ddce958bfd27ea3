// SPDX-License-Identifier: GPL-3.0-or-later
// Messages about an input, each with its line and a caret under the column.
#include "cli/cli.h"

#include <byssus/write.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/types.h>
#include <unistd.h>

enum { WINDOW = 100 }; // characters of a source line that are shown

// Line `wanted` of a file, without its break; NULL if it is not there. The caller frees it.
static char *read_line(const char *name, int wanted)
{
    FILE *file = wanted > 0 ? fopen(name, "r") : NULL;
    char *line = NULL;
    size_t room = 0;
    if (!file)
        return NULL;
    ssize_t length = -1;
    for (int i = 0; i < wanted; i++) {
        length = getline(&line, &room, file);
        if (length < 0)
            break;
    }
    fclose(file);
    if (length < 0) {
        free(line);
        return NULL;
    }
    line[strcspn(line, "\r\n")] = '\0';
    return line;
}

static bool continues(char byte) // inside a UTF-8 character
{
    return ((unsigned char)byte & 0xC0) == 0x80;
}

// The caret stands under character `column`; a tab above is a tab below.
static void show_window(const char *line, int column)
{
    int at = 1, from = column > WINDOW - 20 ? column - WINDOW / 2 : 1;
    bys_text above = {0}, below = {0};
    for (const char *c = line; *c && at < from + WINDOW; c++) {
        if (at >= from)
            bys_text_add_bytes(&above, c, 1);
        if (continues(c[1]))
            continue;
        if (at >= from && at < column)
            bys_text_add(&below, *c == '\t' ? "\t" : " ");
        at++;
    }
    if (!above.failed && !below.failed && above.data)
        fprintf(stderr, "    %s%s\n    %s%s^\n", from > 1 ? "..." : "", above.data,
                from > 1 ? "   " : "", below.data ? below.data : "");
    bys_text_free(&above);
    bys_text_free(&below);
}

static void show(const bys_messages *messages, const bys_message *message, bool colour)
{
    static const char *const codes[] = {"\x1b[1;31m", "\x1b[33m", "\x1b[2m"};
    bys_text text = {0}, plain = {0};
    bys_message_format(&text, messages, message);
    bys_write_plain(&plain, text.data ? text.data : "");
    if (!plain.failed)
        fprintf(stderr, "%s%s%s\n", colour ? codes[message->severity] : "", plain.data,
                colour ? "\x1b[0m" : "");
    bys_text_free(&text);
    bys_text_free(&plain);
    char *line =
        read_line(bys_messages_file_name(messages, message->place.file), message->place.line);
    bys_write_plain(&plain, line ? line : "");
    if (line && !plain.failed && message->place.column > 0)
        show_window(plain.data, message->place.column);
    bys_text_free(&plain);
    free(line);
}

void cli_show_messages(const bys_messages *messages, bys_severity least)
{
    const bool colour = cli_colour(STDERR_FILENO);
    for (size_t i = 0; i < bys_messages_count(messages); i++) {
        const bys_message *message = bys_messages_at(messages, i);
        if (message->severity <= least)
            show(messages, message, colour);
    }
}

int cli_faults(const bys_messages *messages, const bys_error *err, const cli_args *args)
{
    const size_t faults = bys_messages_faults(messages);
    int rc = BYS_EINPUT;
    cli_show_messages(messages, args->quiet ? BYS_FAULT : BYS_WARNING);
    if (faults && err->rc == BYS_EINPUT)
        cli_say(rc, "%s: %zu %s", args->operand, faults, faults == 1 ? "fault" : "faults");
    else
        rc = cli_say_error(err);
    if (!args->json)
        return rc;
    bys_text text = {0};
    bys_write_messages_json(&text, messages);
    return cli_print(&text, rc);
}
