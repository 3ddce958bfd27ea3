// SPDX-License-Identifier: GPL-3.0-or-later
// A file of positions from the boat: names of columns, one line a position.
#include "base/codes.h"
#include "base/number.h"
#include "base/sha256.h"
#include "design/aslaid.h"
#include "design/csv.h"
#include "site/check.h"
#include "site/xml.h"

#include <math.h>
#include <string.h>

enum { COLUMN_ID, COLUMN_X, COLUMN_Y, COLUMN_TENSION, COLUMN_TIME, COLUMNS };
enum { MOST_FIELDS = 16, MOST_ROWS = 20000 };
static const struct {
    const char *name;
    bool text, needed;
    bys_dim dim;
    double low, high;
} columns[COLUMNS] = {{"id", true, true, BYS_DIM_LENGTH, 0, 0},
                      {"x", false, true, BYS_DIM_LENGTH, -1e8, 1e8},
                      {"y", false, true, BYS_DIM_LENGTH, -1e8, 1e8},
                      {"tension", false, false, BYS_DIM_FORCE, 0.0, 1e9},
                      {"time", true, false, BYS_DIM_TIME, 0, 0}};

typedef struct {
    bys_aslaid_work *work;
    int file, line, count;
    int at[MOST_FIELDS];        // column that stands there; -1: a faulty one
    double factor[MOST_FIELDS]; // SI value of its unit
    bool named, broken;
} sheet;

static void say(const sheet *s, int code, bys_place place, const char *what, const char *why)
{
    bys_messages_add(s->work->messages, BYS_FAULT, code, place, "%s%s%s", what, *why ? " " : "",
                     why);
}

static int find_column(const char *name)
{
    for (int i = 0; i < COLUMNS; i++)
        if (!strcmp(columns[i].name, name))
            return i;
    return -1;
}

static void unknown_column(const sheet *s, const char *name, bys_place place)
{
    bys_near near = bys_near_start(name);
    for (int i = 0; i < COLUMNS; i++)
        bys_near_try(&near, columns[i].name);
    const char *best = bys_near_best(&near);
    bys_messages_add(s->work->messages, BYS_FAULT, BYS_M_position_column, place,
                     "there is no column \"%.60s\"; %s%s%s", name,
                     best ? "did you mean \"" : "they are id, x [m], y [m], tension [kN], time",
                     best ? best : "", best ? "\"?" : "");
}

static void name_one(sheet *s, int i, char *field, bys_place place)
{
    char *bracket = strchr(field, '[');
    bys_text name = {0}, why = {0};
    bys_text_add_bytes(&name, field, bracket ? (size_t)(bracket - field) : strlen(field));
    const char *word = name.data ? bys_csv_trim(name.data) : "";
    const int c = s->at[i] = find_column(word);
    s->factor[i] = 1.0;
    if (c < 0)
        unknown_column(s, word, place);
    for (int k = 0; k < i && c >= 0; k++)
        if (s->at[k] == c)
            say(s, BYS_M_position_column, place, word, "is there twice");
    const int code = c >= 0 && !columns[c].text
                         ? bys_csv_unit(&s->factor[i], bracket, columns[c].dim, &why) : 0;
    if (code)
        bys_messages_add(s->work->messages, BYS_FAULT, code, place, "the column %s %s", word,
                         why.data ? why.data : "");
    s->work->failed = s->work->failed || name.failed || why.failed;
    bys_text_free(&name);
    bys_text_free(&why);
}

static void name_columns(sheet *s, char *line)
{
    char *fields[MOST_FIELDS], *start = line;
    const bys_place whole = {s->file, s->line, 1};
    const size_t before = bys_messages_faults(s->work->messages);
    if (strchr(line, ';') || strchr(line, '\t')) {
        say(s, BYS_M_position_row, whole, "columns are parted by commas, not by semicolons or tabs",
            "");
        s->named = s->broken = true;
        return;
    }
    const int n = bys_csv_split(fields, MOST_FIELDS, line);
    s->count = n < MOST_FIELDS ? n : MOST_FIELDS;
    for (int i = 0; i < s->count; i++) {
        char *field = fields[i] + strspn(fields[i], " \t");
        name_one(s, i, bys_csv_trim(field), bys_csv_place(s->file, s->line, start, field));
    }
    for (int c = 0; c < COLUMNS; c++) {
        bool there = !columns[c].needed;
        for (int i = 0; i < s->count; i++)
            there = there || s->at[i] == c;
        if (!there)
            bys_messages_add(s->work->messages, BYS_FAULT, BYS_M_position_column, whole,
                             "the column %s is missing", columns[c].name);
    }
    s->named = true;
    s->broken = bys_messages_faults(s->work->messages) > before;
}

static bys_position *add_row(bys_aslaid_work *work)
{
    bys_positions *p = &work->positions;
    if (p->count == p->capacity) {
        const int more = p->capacity ? 2 * p->capacity : 64;
        bys_position *items = bys_arena_get(work->arena, (size_t)more * sizeof *items);
        if (!items) {
            work->failed = true;
            return NULL;
        }
        if (p->count)
            memcpy(items, p->items, (size_t)p->count * sizeof *items);
        p->items = items;
        p->capacity = more;
    }
    return &p->items[p->count++];
}

static double number(const sheet *s, int i, const char *field, bys_place place)
{
    const int c = s->at[i];
    bys_text why = {0};
    double value = NAN;
    int code = bys_plain_read(&value, field, &why);
    value *= s->factor[i];
    if (!code && !(value >= columns[c].low && value <= columns[c].high)) {
        code = BYS_M_out_of_range;
        bys_text_add(&why, "is out of its range");
    }
    if (code)
        bys_messages_add(s->work->messages, BYS_FAULT, code, place, "%s=\"%.40s\" %s",
                         columns[c].name, field, why.data ? why.data : "");
    s->work->failed = s->work->failed || why.failed;
    bys_text_free(&why);
    return value;
}

static void put_field(sheet *s, bys_position *row, int i, char *field, bys_place place)
{
    const int c = s->at[i];
    if (!*field && columns[c].needed) {
        say(s, BYS_M_position_row, place, columns[c].name, "is empty");
    } else if (columns[c].text) {
        const char *text = bys_arena_copy(s->work->arena, field);
        s->work->failed = s->work->failed || !text;
        *(c == COLUMN_ID ? &row->name : &row->time) = text ? text : "";
        row->place = c == COLUMN_ID ? place : row->place;
    } else if (*field) {
        *(c == COLUMN_X ? &row->x : c == COLUMN_Y ? &row->y : &row->tension) =
            number(s, i, field, place);
    }
}

static void read_row(sheet *s, char *line)
{
    char *fields[MOST_FIELDS], *start = line;
    const bys_place whole = {s->file, s->line, 1};
    const int n = bys_csv_split(fields, MOST_FIELDS, line);
    if (n != s->count) {
        bys_messages_add(s->work->messages, BYS_FAULT, BYS_M_position_row, whole,
                         "%d values stand here for %d columns; if a comma stands in a number, "
                         "write a point", n, s->count);
        return;
    }
    bys_position *row = s->work->positions.count < MOST_ROWS ? add_row(s->work) : NULL;
    if (!row)
        return;
    *row = (bys_position){"", "", NAN, NAN, NAN, whole, -1, -1};
    for (int i = 0; i < n; i++) {
        char *field = fields[i] + strspn(fields[i], " \t");
        put_field(s, row, i, bys_csv_trim(field), bys_csv_place(s->file, s->line, start, field));
    }
}

static void read_line(void *user, char *line, int line_number)
{
    sheet *s = user;
    const char *text = line + strspn(line, " \t");
    s->line = line_number;
    if (!*text || *text == '#' || s->broken)
        return;
    if (s->named)
        read_row(s, line);
    else
        name_columns(s, line);
}

static const char *hash_of(bys_arena *arena, const char *bytes, size_t size)
{
    char hex[65];
    bys_sha256_hex(hex, bytes, size);
    return bys_arena_copy(arena, hex);
}

bool bys_positions_read(bys_aslaid_work *work, const char *path)
{
    const size_t before = bys_messages_faults(work->messages);
    sheet s = {.work = work, .file = bys_messages_file(work->messages, path)};
    const bys_place whole = {s.file, 1, 1};
    size_t size = 0;
    char *bytes = bys_file_bytes(work->arena, path, &size, s.file, work->messages, &work->missing);
    if (!bytes)
        return false;
    work->result.file = bys_arena_copy(work->arena, path);
    work->result.sha256 = hash_of(work->arena, bytes, size);
    work->failed = work->failed || !work->result.file || !work->result.sha256;
    if (strlen(bytes) != size || size == 0) {
        say(&s, size ? BYS_M_position_row : BYS_M_file_empty, whole,
            size ? "the file is not text" : "the file is empty", "");
        return false;
    }
    bys_csv_lines(bytes, read_line, &s);
    if (!s.named)
        say(&s, BYS_M_position_column, whole,
            "the line with the names of the columns is missing: id,x [m],y [m]", "");
    else if (!s.broken && work->positions.count == 0)
        say(&s, BYS_M_position_none, whole, "there is no position in the file", "");
    if (work->positions.count >= MOST_ROWS)
        bys_messages_add(work->messages, BYS_FAULT, BYS_M_position_row, whole,
                         "more than %d positions", (int)MOST_ROWS);
    return bys_messages_faults(work->messages) == before && !work->failed;
}
