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

enum {
    COLUMN_ID, COLUMN_X, COLUMN_Y, COLUMN_LAT, COLUMN_LON, COLUMN_TENSION, COLUMN_TIME, COLUMNS
};
enum { MOST_FIELDS = 16, MOST_ROWS = 20000 };
static const struct {
    const char *name;
    bool text;
    bys_dim dim;
    double low, high;
} columns[COLUMNS] = {{"id", true, BYS_DIM_LENGTH, 0, 0},
                      {"x", false, BYS_DIM_LENGTH, -1e8, 1e8},
                      {"y", false, BYS_DIM_LENGTH, -1e8, 1e8},
                      {"lat", false, BYS_DIM_ANGLE, -1.5707964, 1.5707964},
                      {"lon", false, BYS_DIM_ANGLE, -6.2831854, 6.2831854},
                      {"tension", false, BYS_DIM_FORCE, 0.0, 1e9},
                      {"time", true, BYS_DIM_TIME, 0, 0}};

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
                     best ? "did you mean \"" : "they are id, x [m], y [m] or lat [deg], lon [deg],"
                                                " tension [kN], time",
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

static bool has(const sheet *s, int column)
{
    for (int i = 0; i < s->count; i++)
        if (s->at[i] == column)
            return true;
    return false;
}

// An id, and one whole pair.
static void check_columns(const sheet *s, bys_place whole)
{
    const bool earth = has(s, COLUMN_LAT) || has(s, COLUMN_LON);
    const bool plane = has(s, COLUMN_X) || has(s, COLUMN_Y);
    const int wanted[] = {COLUMN_ID, earth ? COLUMN_LAT : COLUMN_X, earth ? COLUMN_LON : COLUMN_Y};
    for (int i = 0; i < 3; i++)
        if (!has(s, wanted[i]))
            bys_messages_add(s->work->messages, BYS_FAULT, BYS_M_position_column, whole,
                             "the column %s is missing", columns[wanted[i]].name);
    if (earth && plane)
        say(s, BYS_M_position_column, whole, "x and y stand beside lat and lon; keep one pair", "");
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
    check_columns(s, whole);
    s->named = true;
    s->broken = bys_messages_faults(s->work->messages) > before;
}

bys_position *bys_position_add(bys_aslaid_work *work, bys_place place)
{
    bys_positions *p = &work->positions;
    if (p->count == MOST_ROWS)
        return NULL; // told at the end
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
    p->items[p->count] = (bys_position){"", "", NAN, NAN, NAN, NAN, NAN, place, -1, -1};
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
    if (!*field && c != COLUMN_TENSION && c != COLUMN_TIME) {
        say(s, BYS_M_position_row, place, columns[c].name, "is empty");
    } else if (columns[c].text) {
        const char *text = bys_arena_copy(s->work->arena, field);
        s->work->failed = s->work->failed || !text;
        *(c == COLUMN_ID ? &row->name : &row->time) = text ? text : "";
        row->place = c == COLUMN_ID ? place : row->place;
    } else if (*field) {
        const double value = number(s, i, field, place);
        *(c == COLUMN_X     ? &row->x
          : c == COLUMN_Y   ? &row->y
          : c == COLUMN_LAT ? &row->lat
          : c == COLUMN_LON ? &row->lon
                            : &row->tension) =
            c == COLUMN_LAT || c == COLUMN_LON ? value * 57.295779513082320877 : value;
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
    bys_position *row = bys_position_add(s->work, whole);
    if (!row)
        return;
    for (int i = 0; i < n; i++) {
        char *field = fields[i] + strspn(fields[i], " \t");
        put_field(s, row, i, bys_csv_trim(field), bys_csv_place(s->file, s->line, start, field));
    }
}

// "# datum: GDA2020"; all other lines of this kind are remarks.
static void read_remark(sheet *s, char *line, char *text)
{
    static const char key[] = "datum:";
    char *word = bys_csv_trim(text + 1);
    if (strncmp(word, key, sizeof key - 1) != 0)
        return;
    const char *name = bys_arena_copy(s->work->arena, bys_csv_trim(word + sizeof key - 1));
    s->work->failed = s->work->failed || !name;
    s->work->positions.datum = name ? name : "";
    s->work->positions.datum_place = bys_csv_place(s->file, s->line, line, word);
}

static void read_line(void *user, char *line, int line_number)
{
    sheet *s = user;
    char *text = line + strspn(line, " \t");
    s->line = line_number;
    if (!*text || s->broken)
        return;
    if (*text == '#')
        read_remark(s, line, text);
    else if (s->named)
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

static void read_table(bys_aslaid_work *work, char *bytes, int file)
{
    sheet s = {.work = work, .file = file};
    bys_csv_lines(bytes, read_line, &s);
    if (!s.named)
        say(&s, BYS_M_position_column, (bys_place){file, 1, 1},
            "the line with the names of the columns is missing: id,x [m],y [m]", "");
}

bool bys_positions_read(bys_aslaid_work *work, const char *path)
{
    const size_t before = bys_messages_faults(work->messages);
    const int file = bys_messages_file(work->messages, path);
    const bys_place whole = {file, 1, 1};
    size_t size = 0;
    char *bytes = bys_file_bytes(work->arena, path, &size, file, work->messages, &work->missing);
    if (!bytes)
        return false;
    work->result.file = bys_arena_copy(work->arena, path);
    work->result.sha256 = hash_of(work->arena, bytes, size);
    work->failed = work->failed || !work->result.file || !work->result.sha256;
    work->positions.datum = "";
    if (strlen(bytes) != size || size == 0)
        bys_messages_add(work->messages, BYS_FAULT, size ? BYS_M_position_row : BYS_M_file_empty,
                         whole, size ? "the file is not text" : "the file is empty");
    else if (bytes[strspn(bytes, "\xEF\xBB\xBF \t\r\n")] == '<')
        bys_positions_gpx(work, bytes, size, file);
    else
        read_table(work, bytes, file);
    if (work->positions.count == MOST_ROWS)
        bys_messages_add(work->messages, BYS_FAULT, BYS_M_position_row, whole,
                         "there are %d positions or more", (int)MOST_ROWS);
    if (bys_messages_faults(work->messages) == before && work->positions.count == 0)
        bys_messages_add(work->messages, BYS_FAULT, BYS_M_position_none, whole,
                         "there is no position in the file");
    if (bys_messages_faults(work->messages) == before && !work->failed)
        bys_positions_place(work);
    return bys_messages_faults(work->messages) == before && !work->failed;
}
