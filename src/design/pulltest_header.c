// SPDX-License-Identifier: GPL-3.0-or-later
// The header of a pull-test record: one table of keys for reading, pages and guesses.
#include "base/codes.h"
#include "base/units.h"
#include "design/pulltest.h"
#include "site/check.h"

#include <math.h>
#include <string.h>

typedef enum { TEXT, DATE, QUANTITY, PLAIN, WORD } value_kind;

typedef struct {
    const char *key, *meaning;
    value_kind kind;
    bool needed;
    size_t offset; // into bys_pull_test
    bys_dim dim;
    double low, high; // SI
} key_row;

#define AT(field) offsetof(bys_pull_test, field)
#define TEXT_ROW(key, field, needed, meaning) {key, meaning, TEXT, needed, AT(field), 0, 0, 0}
#define DATE_ROW(key, field, meaning) {key, meaning, DATE, false, AT(field), 0, 0, 0}
#define QUANTITY_ROW(key, field, dim, low, high, needed, meaning)                                  \
    {key, meaning, QUANTITY, needed, AT(field), dim, low, high}

static const char *const endings[] = {"rising", "steady", "rolled out", "broke"};
enum { ENDINGS = sizeof endings / sizeof endings[0] };
static const double quarter = 1.5707963267948966;

static const key_row keys[] = {
    TEXT_ROW("anchor", anchor, true, "the kind of anchor; the same words: the same anchor"),
    QUANTITY_ROW("anchor-mass", mass_kg, BYS_DIM_MASS, 0.01, 1e6, true, "in air"),
    TEXT_ROW("soil", soil, true, "what the anchor was pulled in"),
    TEXT_ROW("tackle", tackle, true, "what it was pulled by: winch, wire, chain"),
    {"scope", "line length over depth", PLAIN, false, AT(scope), 0, 1.0, 1e4},
    QUANTITY_ROW("pull-angle", pull_angle_rad, BYS_DIM_ANGLE, -0.8, quarter, false,
                 "of the line above the bed, instead of scope"),
    QUANTITY_ROW("load-rate", load_rate_mps, BYS_DIM_SPEED, 0.0, 20.0, false,
                 "speed at which the line is hauled"),
    QUANTITY_ROW("bed-slope", bed_slope_rad, BYS_DIM_ANGLE, -0.8, 0.8, false,
                 "falling towards the pull: positive"),
    TEXT_ROW("load-cell", load_cell, false, "kind and number"),
    DATE_ROW("calibration-date", calibration_date, "of the load cell"),
    DATE_ROW("date", date, "of the test"),
    TEXT_ROW("test", test, false, "name of the test; otherwise the file's"),
    TEXT_ROW("place", place, false, "where"),
    TEXT_ROW("note", note, false, "any remark that belongs to the result"),
    {"ended", "rising, steady, rolled out or broke", WORD, false, AT(ended), 0, 0, 0},
    TEXT_ROW("failure", failure, false, "what gave way, if anything did"),
    QUANTITY_ROW("hold-load", hold.load_N, BYS_DIM_FORCE, 1.0, 1e9, false,
                 "proof load to be held; makes the record a hold test"),
    QUANTITY_ROW("hold-time", hold.time_s, BYS_DIM_TIME, 1.0, 1e6, false, "for how long"),
    QUANTITY_ROW("offset-along", hold.along_m, BYS_DIM_LENGTH, -1e4, 1e4, false,
                 "the anchor's place after the hold from the planned one, along the pull"),
    QUANTITY_ROW("offset-across", hold.across_m, BYS_DIM_LENGTH, -1e4, 1e4, false, "and across it"),
    QUANTITY_ROW("box-along", hold.box_along_m, BYS_DIM_LENGTH, 0.1, 1e4, false,
                 "side of the box in which it must lie; 12.2 m if not stated"),
    QUANTITY_ROW("box-across", hold.box_across_m, BYS_DIM_LENGTH, 0.1, 1e4, false,
                 "other side; 6.1 m if not stated"),
};
enum { KEYS = sizeof keys / sizeof keys[0] };

bool bys_pulltest_key(size_t i, const char **key, const char **kind, const char **meaning,
                      bool *needed)
{
    if (i >= KEYS)
        return false;
    const value_kind k = keys[i].kind;
    *key = keys[i].key;
    *kind = k == QUANTITY ? bys_dim_name(keys[i].dim)
            : k == PLAIN  ? "number"
            : k == DATE   ? "date"
            : k == WORD   ? "word"
                          : "text";
    *meaning = keys[i].meaning;
    *needed = keys[i].needed;
    return true;
}

static void say(bys_pull_work *work, int code, bys_place place, const char *key, bys_text *why)
{
    if (why->failed)
        work->failed = true;
    bys_messages_add(work->messages, BYS_FAULT, code, place, "%s %s", key,
                     why->data ? why->data : "");
}

static void set_number(bys_pull_test *test, const key_row *row, const char *value, bys_place place,
                       bys_pull_work *work)
{
    bys_text why = {0};
    double number = NAN;
    int code = row->kind == PLAIN ? bys_plain_read(&number, value, &why)
                                  : bys_quantity_read(&number, value, row->dim, &why);
    if (!code && !(number >= row->low && number <= row->high)) {
        code = BYS_M_out_of_range;
        bys_text_addf(&why, "is \"%.60s\", which is out of range", value);
    } else if (!code) {
        *(double *)(void *)((char *)test + row->offset) = number;
    }
    if (code)
        say(work, code, place, row->key, &why);
    bys_text_free(&why);
}

static bool is_date(const char *text)
{
    static const char form[] = "dddd-dd-dd";
    for (size_t i = 0; i < sizeof form; i++)
        if (form[i] == 'd' ? !(text[i] >= '0' && text[i] <= '9') : text[i] != form[i])
            return false;
    const int month = 10 * (text[5] - '0') + text[6] - '0';
    const int day = 10 * (text[8] - '0') + text[9] - '0';
    return month >= 1 && month <= 12 && day >= 1 && day <= 31;
}

static bool is_ending(const char *text)
{
    for (int i = 0; i < ENDINGS; i++)
        if (!strcmp(endings[i], text))
            return true;
    return false;
}

static void set_text(bys_pull_test *test, const key_row *row, const char *value, bys_place place,
                     bys_pull_work *work)
{
    bys_text why = {0};
    if (row->kind == DATE && !is_date(value)) {
        bys_text_addf(&why, "is \"%.40s\"; dates are written as 2024-05-31", value);
        say(work, BYS_M_not_in_list, place, row->key, &why);
    } else if (row->kind == WORD && !is_ending(value)) {
        bys_text_addf(&why, "is \"%.40s\"; it is rising, steady, rolled out or broke", value);
        say(work, BYS_M_not_in_list, place, row->key, &why);
    } else {
        const char *copy = bys_arena_copy(work->arena, value);
        work->failed = work->failed || !copy;
        *(const char **)(void *)((char *)test + row->offset) = copy ? copy : "";
    }
    bys_text_free(&why);
}

static const key_row *find(const char *key)
{
    for (int i = 0; i < KEYS; i++)
        if (!strcmp(keys[i].key, key))
            return &keys[i];
    return NULL;
}

static void unknown(const char *key, bys_place place, bys_pull_work *work)
{
    bys_near near = bys_near_start(key);
    for (int i = 0; i < KEYS; i++)
        bys_near_try(&near, keys[i].key);
    const char *best = bys_near_best(&near);
    bys_messages_add(work->messages, BYS_FAULT, BYS_M_record_key, place,
                     "the header has no key \"%.60s\"%s%s%s", key,
                     best ? "; did you mean \"" : "; byssus(1) lists them", best ? best : "",
                     best ? "\"?" : "");
}

static char *trim(char *text)
{
    while (*text == ' ' || *text == '\t')
        text++;
    for (size_t n = strlen(text); n && (text[n - 1] == ' ' || text[n - 1] == '\t'); n--)
        text[n - 1] = '\0';
    return text;
}

void bys_pull_header(bys_pull_test *test, char *text, bys_place place, unsigned long long *seen,
                     bys_pull_work *work)
{
    char *colon = strchr(text, ':');
    if (!colon) {
        bys_messages_add(work->messages, BYS_FAULT, BYS_M_record_line, place,
                         "a header line is \"# key: value\"; a remark begins with ##");
        return;
    }
    *colon = '\0';
    char *key = trim(text), *value = trim(colon + 1);
    const key_row *row = find(key);
    if (!row) {
        unknown(key, place, work);
        return;
    }
    const unsigned long long bit = 1ull << (row - keys);
    if (*seen & bit)
        bys_messages_add(work->messages, BYS_FAULT, BYS_M_record_twice, place,
                         "the header has %s twice", key);
    else if (!*value)
        bys_messages_add(work->messages, BYS_FAULT, BYS_M_empty_value, place, "%s is empty", key);
    else if (row->kind == QUANTITY || row->kind == PLAIN)
        set_number(test, row, value, place, work);
    else
        set_text(test, row, value, place, work);
    *seen |= bit;
}

static bool has(unsigned long long seen, const char *key)
{
    return seen >> (find(key) - keys) & 1;
}

static void missing(const char *what, bys_place place, bys_pull_work *work)
{
    bys_messages_add(work->messages, BYS_FAULT, BYS_M_record_key_missing, place,
                     "the header lacks %s", what);
}

// Days since an arbitrary start, months of 31 days: good enough to tell a year from a week.
static int days(const char *date)
{
    int number[3] = {0}, part = 0;
    for (; *date; date++)
        if (*date == '-')
            part++;
        else
            number[part] = 10 * number[part] + *date - '0';
    return (number[0] * 12 + number[1]) * 31 + number[2];
}

static void warn(bys_pull_test *test, unsigned long long seen, bys_place place,
                 bys_pull_work *work)
{
    enum { YEAR = 12 * 31 };
    if (!has(seen, "load-cell") || !has(seen, "calibration-date"))
        bys_messages_add(work->messages, BYS_WARNING, BYS_M_load_cell, place,
                         "load-cell or calibration-date is not stated");
    else if (*test->date && *test->calibration_date &&
             (days(test->date) - days(test->calibration_date) > YEAR ||
              days(test->date) < days(test->calibration_date)))
        bys_messages_add(work->messages, BYS_WARNING, BYS_M_load_cell, place,
                         "the load cell was calibrated on %s, not in the year before the "
                         "test of %s",
                         test->calibration_date, test->date);
    if (!has(seen, "load-rate"))
        bys_messages_add(work->messages, BYS_WARNING, BYS_M_record_silent, place,
                         "load-rate is not stated: the test compares with no other");
}

void bys_pull_header_end(bys_pull_test *test, unsigned long long seen, bys_place place,
                         bys_pull_work *work)
{
    for (int i = 0; i < KEYS; i++)
        if (keys[i].needed && !(seen >> i & 1))
            missing(keys[i].key, place, work);
    const bool scope = has(seen, "scope"), angle = has(seen, "pull-angle");
    if (!scope && !angle)
        missing("scope or pull-angle", place, work);
    if (scope && angle)
        bys_messages_add(work->messages, BYS_FAULT, BYS_M_conflict, place,
                         "scope and pull-angle are both stated; keep the one that was measured");
    test->hold.wanted = has(seen, "hold-load");
    if (has(seen, "hold-load") != has(seen, "hold-time"))
        missing(test->hold.wanted ? "hold-time" : "hold-load", place, work);
    warn(test, seen, place, work);
}
