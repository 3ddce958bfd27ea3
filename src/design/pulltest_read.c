// SPDX-License-Identifier: GPL-3.0-or-later
// A pull-test record: header lines, names of columns, readings. Every fault is told with its place.
#include "base/codes.h"
#include "base/number.h"
#include "design/csv.h"
#include "design/pulltest.h"
#include "site/check.h"
#include "site/xml.h"

#include <math.h>
#include <string.h>

enum { COLUMNS = 4, MOST_FIELDS = 16, MOST_READINGS = 500000 };
static const struct {
    const char *name;
    bys_dim dim;
    bool needed;
    size_t offset;
    double least;
} columns[COLUMNS] = {
    {"drag", BYS_DIM_LENGTH, true, offsetof(bys_pull_reading, drag_m), 0.0},
    {"load", BYS_DIM_FORCE, true, offsetof(bys_pull_reading, load_N), 0.0},
    {"time", BYS_DIM_TIME, false, offsetof(bys_pull_reading, time_s), 0.0},
    {"embedment", BYS_DIM_LENGTH, false, offsetof(bys_pull_reading, embedment_m), -100.0},
};

typedef struct {
    bys_pull_test *test;
    bys_pull_work *work;
    int file, line;
    int count;                  // columns in the record
    int at[MOST_FIELDS];        // which column stands there; -1: a faulty one
    double factor[MOST_FIELDS]; // SI value of its unit
    bool named, broken;
    unsigned long long seen;
    int capacity;
} record;

static bys_place place_at(const record *r, const char *line, const char *at)
{
    return bys_csv_place(r->file, r->line, line, at);
}

static int find_column(const char *name)
{
    for (int i = 0; i < COLUMNS; i++)
        if (!strcmp(columns[i].name, name))
            return i;
    return -1;
}

static void unknown_column(record *r, const char *name, bys_place place)
{
    bys_near near = bys_near_start(name);
    for (int i = 0; i < COLUMNS; i++)
        bys_near_try(&near, columns[i].name);
    const char *best = bys_near_best(&near);
    bys_messages_add(r->work->messages, BYS_FAULT, BYS_M_record_column, place,
                     "there is no column \"%.60s\"; %s%s%s", name,
                     best ? "did you mean \"" : "they are drag, load, time, embedment",
                     best ? best : "", best ? "\"?" : "");
}

static void name_unit(record *r, int i, char *bracket, bys_place place)
{
    bys_text why = {0};
    const int code = bys_csv_unit(&r->factor[i], bracket, columns[r->at[i]].dim, &why);
    if (code)
        bys_messages_add(r->work->messages, BYS_FAULT, code, place, "the column %s %s",
                         columns[r->at[i]].name, why.data ? why.data : "");
    bys_text_free(&why);
}

static void name_one(record *r, int i, char *field, bys_place place)
{
    char *bracket = strchr(field, '[');
    bys_text name = {0};
    bys_text_add_bytes(&name, field, bracket ? (size_t)(bracket - field) : strlen(field));
    const char *word = name.data ? bys_csv_trim(name.data) : "";
    r->at[i] = find_column(word);
    if (r->at[i] < 0)
        unknown_column(r, word, place);
    for (int k = 0; k < i && r->at[i] >= 0; k++)
        if (r->at[k] == r->at[i])
            bys_messages_add(r->work->messages, BYS_FAULT, BYS_M_record_column, place,
                             "the column %s is there twice", word);
    if (r->at[i] >= 0)
        name_unit(r, i, bracket, place);
    bys_text_free(&name);
}

static void name_columns(record *r, char *line)
{
    char *fields[MOST_FIELDS], *start = line;
    const bys_place whole = {r->file, r->line, 1};
    if (strchr(line, ';') || strchr(line, '\t')) {
        bys_messages_add(r->work->messages, BYS_FAULT, BYS_M_record_line, whole,
                         "columns are parted by commas, not by semicolons or tabs");
        r->broken = true;
        return;
    }
    const size_t before = bys_messages_faults(r->work->messages);
    const int n = bys_csv_split(fields, MOST_FIELDS, line);
    r->count = n < MOST_FIELDS ? n : MOST_FIELDS;
    for (int i = 0; i < r->count; i++) {
        char *field = fields[i] + strspn(fields[i], " \t");
        name_one(r, i, bys_csv_trim(field), place_at(r, start, field));
    }
    for (int c = 0; c < COLUMNS; c++) {
        bool there = !columns[c].needed;
        for (int i = 0; i < r->count; i++)
            there = there || r->at[i] == c;
        if (!there)
            bys_messages_add(r->work->messages, BYS_FAULT, BYS_M_record_column, whole,
                             "the column %s is missing", columns[c].name);
    }
    r->named = true;
    r->broken = bys_messages_faults(r->work->messages) > before;
}

static bys_pull_reading *add_reading(record *r)
{
    bys_pull_test *test = r->test;
    if (test->reading_count == r->capacity) {
        const int more = r->capacity ? 2 * r->capacity : 64;
        bys_pull_reading *at = bys_arena_get(r->work->arena, (size_t)more * sizeof *at);
        if (!at) {
            r->work->failed = true;
            return NULL;
        }
        if (test->reading_count)
            memcpy(at, test->readings, (size_t)test->reading_count * sizeof *at);
        test->readings = at;
        r->capacity = more;
    }
    return &test->readings[test->reading_count++];
}

static void read_value(record *r, bys_pull_reading *reading, int i, char *field, bys_place place)
{
    const int c = r->at[i];
    bys_text why = {0};
    double value = NAN;
    if (!*field && !columns[c].needed)
        return;
    int code = bys_plain_read(&value, field, &why);
    value *= r->factor[i];
    if (!code && value < columns[c].least) {
        code = BYS_M_out_of_range;
        bys_text_add(&why, "is below its range");
    }
    if (code)
        bys_messages_add(r->work->messages, BYS_FAULT, code, place, "%s=\"%.40s\" %s",
                         columns[c].name, field, why.data ? why.data : "");
    else
        *(double *)(void *)((char *)reading + columns[c].offset) = value;
    bys_text_free(&why);
}

static void check_order(record *r, const bys_pull_reading *now, bys_place place)
{
    const bys_pull_test *test = r->test;
    if (test->reading_count < 2)
        return;
    const bys_pull_reading *before = now - 1;
    if (now->drag_m < before->drag_m)
        bys_messages_add(r->work->messages, BYS_FAULT, BYS_M_record_order, place,
                         "the drag goes back from %.4g m to %.4g m", before->drag_m, now->drag_m);
    if (now->time_s < before->time_s)
        bys_messages_add(r->work->messages, BYS_FAULT, BYS_M_record_order, place,
                         "the time goes back from %.4g s to %.4g s", before->time_s, now->time_s);
}

static void read_row(record *r, char *line)
{
    char *fields[MOST_FIELDS], *start = line;
    const bys_place whole = {r->file, r->line, 1};
    const bool semicolon = strchr(line, ';') != NULL;
    const int n = bys_csv_split(fields, MOST_FIELDS, line);
    if (n != r->count || semicolon) {
        bys_messages_add(r->work->messages, BYS_FAULT, semicolon ? BYS_M_comma : BYS_M_record_row,
                         whole, semicolon ? "values are parted by commas and numbers have a point"
                                          : "%d values stand here for %d columns; if a comma "
                                            "stands in a number, write a point", n, r->count);
        return;
    }
    bys_pull_reading *reading = r->test->reading_count < MOST_READINGS ? add_reading(r) : NULL;
    if (!reading)
        return;
    *reading = (bys_pull_reading){NAN, NAN, NAN, NAN};
    for (int i = 0; i < n; i++) {
        char *field = fields[i] + strspn(fields[i], " \t");
        read_value(r, reading, i, bys_csv_trim(field), place_at(r, start, field));
    }
    check_order(r, reading, whole);
}

static void read_line(void *user, char *line, int number)
{
    record *r = user;
    r->line = number;
    char *text = line + strspn(line, " \t");
    if (!*text || !strncmp(text, "##", 2) || r->broken)
        return;
    if (*text == '#' && r->named)
        bys_messages_add(r->work->messages, BYS_FAULT, BYS_M_record_line,
                         place_at(r, line, text), "header lines stand above the columns");
    else if (*text == '#')
        bys_pull_header(r->test, text + 1, place_at(r, line, text), &r->seen, r->work);
    else if (!r->named)
        name_columns(r, line);
    else
        read_row(r, line);
}

static void start(bys_pull_test *test, const char *path)
{
    const char **texts[] = {&test->test, &test->anchor, &test->soil, &test->tackle, &test->date,
                            &test->place, &test->note, &test->load_cell, &test->calibration_date,
                            &test->failure, &test->ended, &test->capacity_why, &test->hold.why};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
        *texts[i] = "";
    double *numbers[] = {&test->mass_kg, &test->bed_slope_rad, &test->scope, &test->pull_angle_rad,
                         &test->load_rate_mps, &test->hold.load_N, &test->hold.time_s,
                         &test->hold.along_m, &test->hold.across_m};
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++)
        *numbers[i] = NAN;
    test->hold.box_along_m = 12.192; // 40 ft x 20 ft: MO-124 App. E 1.3 [read]
    test->hold.box_across_m = 6.096;
    test->file = path;
    const char *name = strrchr(path, '/');
    test->test = name ? name + 1 : path;
}

// Hold tests need times: without them nothing tells how long the load stood.
static void check_whole(record *r, bys_place whole)
{
    bys_messages *messages = r->work->messages;
    if (!r->named && !r->broken)
        bys_messages_add(messages, BYS_FAULT, BYS_M_record_column, whole,
                         "the line with the names of the columns is missing");
    else if (!r->broken && r->test->reading_count < 2)
        bys_messages_add(messages, BYS_FAULT, BYS_M_record_short, whole,
                         "%d %s, at least two are needed", r->test->reading_count,
                         r->test->reading_count == 1 ? "reading" : "readings");
    bool timed = false;
    for (int i = 0; i < r->count; i++)
        timed = timed || r->at[i] == 2;
    if (r->test->hold.wanted && r->named && !timed)
        bys_messages_add(messages, BYS_FAULT, BYS_M_record_column, whole,
                         "a hold test needs the column time");
    if (r->test->reading_count >= MOST_READINGS)
        bys_messages_add(messages, BYS_FAULT, BYS_M_record_line, whole,
                         "more than %d readings", (int)MOST_READINGS);
}

bool bys_pull_read(bys_pull_test *out, const char *path, bys_pull_work *work)
{
    const size_t before = bys_messages_faults(work->messages);
    const char *name = bys_arena_copy(work->arena, path);
    record r = {.test = out, .work = work, .file = bys_messages_file(work->messages, path)};
    start(out, name ? name : "");
    size_t size = 0;
    bool missing = false;
    char *bytes = bys_file_bytes(work->arena, path, &size, r.file, work->messages, &missing);
    work->missing = work->missing || missing;
    if (!bytes)
        return false;
    const bys_place whole = {r.file, 1, 1};
    if (strlen(bytes) != size || size == 0) {
        bys_messages_add(work->messages, BYS_FAULT, size ? BYS_M_record_line : BYS_M_file_empty,
                         whole, size ? "the file is not text" : "the file is empty");
        return false;
    }
    bys_csv_lines(bytes, read_line, &r);
    bys_pull_header_end(out, r.seen, whole, work);
    check_whole(&r, whole);
    return bys_messages_faults(work->messages) == before && !work->failed;
}
