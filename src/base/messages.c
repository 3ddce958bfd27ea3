// SPDX-License-Identifier: GPL-3.0-or-later
// The list of messages about inputs, and the registry of message numbers.
#include "base/clean.h"
#include "base/codes.h"
#include "base/number.h"
#include <byssus/base.h>

#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
    int number;
    char letter;
    const char *brief, *text;
} registered;

#define LETTER_FAULT 'E'
#define LETTER_WARNING 'W'
#define LETTER_NOTE 'N'

static const registered registry[] = {
#define BYS_MESSAGE(name, number, severity, brief, long_text)                                      \
    {number, LETTER_##severity, brief, brief ".\n\n" long_text "\n"},
#include "base/messages.def"
#undef BYS_MESSAGE
};

enum { REGISTERED = sizeof registry / sizeof registry[0] };

static const registered *find(int code)
{
    for (size_t i = 0; i < REGISTERED; i++)
        if (registry[i].number == code)
            return &registry[i];
    return NULL;
}

const char *bys_message_explain(int code)
{
    const registered *r = find(code);
    return r ? r->text : NULL;
}

const char *bys_message_brief(int code)
{
    const registered *r = find(code);
    return r ? r->brief : NULL;
}

char bys_message_letter(int code)
{
    const registered *r = find(code);
    return r ? r->letter : '\0';
}

size_t bys_message_code_count(void)
{
    return REGISTERED;
}

int bys_message_code_at(size_t i)
{
    return i < REGISTERED ? registry[i].number : 0;
}

struct bys_messages {
    bys_message *at;
    size_t count, capacity, faults;
    char **files;
    size_t file_count;
    bool failed;
};

bys_rc bys_messages_new(bys_messages **out)
{
    *out = calloc(1, sizeof **out);
    return *out ? BYS_OK : BYS_ENOMEM;
}

void bys_messages_free(bys_messages *list)
{
    if (!list)
        return;
    for (size_t i = 0; i < list->count; i++)
        free(list->at[i].text);
    for (size_t i = 0; i < list->file_count; i++)
        free(list->files[i]);
    free(list->at);
    free(list->files);
    free(list);
}

size_t bys_messages_count(const bys_messages *list)
{
    return list ? list->count : 0;
}

size_t bys_messages_faults(const bys_messages *list)
{
    // A list that lost a message must not look clean.
    return list ? list->faults + (list->failed && list->faults == 0 ? 1 : 0) : 0;
}

const bys_message *bys_messages_at(const bys_messages *list, size_t i)
{
    return list && i < list->count ? &list->at[i] : NULL;
}

int bys_messages_file(bys_messages *list, const char *name)
{
    for (size_t i = 0; i < list->file_count; i++)
        if (strcmp(list->files[i], name) == 0)
            return (int)i;
    char **files = realloc(list->files, (list->file_count + 1) * sizeof *files);
    if (!files) {
        list->failed = true;
        return 0;
    }
    list->files = files;
    files[list->file_count] = strdup(name);
    if (!files[list->file_count]) {
        list->failed = true;
        return 0;
    }
    return (int)list->file_count++;
}

const char *bys_messages_file_name(const bys_messages *list, int file)
{
    return file >= 0 && (size_t)file < list->file_count ? list->files[file] : "";
}

static bool room(bys_messages *list)
{
    if (list->count < list->capacity)
        return true;
    size_t capacity = list->capacity ? 2 * list->capacity : 16;
    bys_message *at = realloc(list->at, capacity * sizeof *at);
    if (!at)
        return false;
    list->at = at;
    list->capacity = capacity;
    return true;
}

void bys_messages_add(bys_messages *list, bys_severity severity, int code, bys_place place,
                      const char *format, ...)
{
    if (severity == BYS_FAULT)
        list->faults++;
    va_list args, again;
    va_start(args, format);
    va_copy(again, args);
    int n = bys_format_list(NULL, 0, format, args);
    va_end(args);
    char *text = n < 0 || !room(list) ? NULL : malloc((size_t)n + 1);
    if (text) {
        bys_format_list(text, (size_t)n + 1, format, again);
        bys_clean_line(text);
        list->at[list->count++] = (bys_message){severity, code, place, text};
    } else {
        list->failed = true;
    }
    va_end(again);
}

static bool before(const bys_message *a, const bys_message *b)
{
    if (a->place.file != b->place.file)
        return a->place.file < b->place.file;
    if (a->place.line != b->place.line)
        return a->place.line < b->place.line;
    return a->place.column < b->place.column;
}

// Merges the sorted halves at[0..middle) and at[middle..n); equals keep their order.
static void merge(bys_message *at, bys_message *spare, size_t middle, size_t n)
{
    size_t i = 0, j = middle, k = 0;
    while (i < middle && j < n)
        spare[k++] = before(&at[j], &at[i]) ? at[j++] : at[i++];
    while (i < middle)
        spare[k++] = at[i++];
    memcpy(at, spare, k * sizeof *at);
}

static void sort(bys_message *at, bys_message *spare, size_t n)
{
    if (n < 2)
        return;
    sort(at, spare, n / 2);
    sort(at + n / 2, spare, n - n / 2);
    merge(at, spare, n / 2, n);
}

void bys_messages_sort(bys_messages *list)
{
    bys_message *spare = malloc((list->count + 1) * sizeof *spare);
    if (!spare) {
        list->failed = true;
        return;
    }
    sort(list->at, spare, list->count);
    free(spare);
}

void bys_message_format(bys_text *out, const bys_messages *list, const bys_message *message)
{
    static const char letters[] = {'E', 'W', 'N'};
    const char *file = bys_messages_file_name(list, message->place.file);
    bys_text_add(out, file);
    if (message->place.line > 0)
        bys_text_addf(out, ":%d:%d", message->place.line, message->place.column);
    bys_text_addf(out, "%s%c%04d: %s", *file ? ": " : "", letters[message->severity],
                  message->code, message->text);
}
