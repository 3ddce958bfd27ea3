// SPDX-License-Identifier: GPL-3.0-or-later
// Soundings: a line with the names of the columns, each with its unit, as in
// "x [m],y [m],depth [m]", then a line a sounding; lines that begin with # are remarks.
// Grids: the six header words of an ESRI ASCII grid, then rows from north to south.
//
// SOURCE    ESRI ASCII raster format: header words, corner or centre of the south-west cell, NODATA
//           -9999 if not stated (vendor's manual page) [read].
#include "site/bed_file.h"
#include "base/codes.h"
#include "base/number.h"
#include "base/units.h"

#include <math.h>
#include <string.h>
#include <strings.h>

enum { MOST_SOUNDINGS = 100000, MOST_CELLS = 4000000, MOST_TOLD = 10, COLUMNS = 3 };

typedef struct {
    const char *p;
    int line;
    int file, told;
    bys_messages *messages;
} reader;

__attribute__((format(printf, 3, 4)))
static void say(reader *r, int column, const char *format, ...)
{
    char text[300];
    va_list list;
    va_start(list, format);
    bys_format_list(text, sizeof text, format, list);
    va_end(list);
    if (r->told++ < MOST_TOLD)
        bys_messages_add(r->messages, BYS_FAULT, BYS_M_bed_data,
                         (bys_place){r->file, r->line, column}, "%s", text);
}

static const char *skip_blank(const char *p)
{
    while (*p == ' ' || *p == '\t' || *p == '\r')
        p++;
    return p;
}

// ---- soundings ---------------------------------------------------------------------------------

/// What a column is: which of the triple, and the factor to SI.
typedef struct {
    int slot;
    double factor;
} column;

/// "depth [m]": name and unit of one heading; false after a fault.
static bool read_heading(reader *r, column *out, const char *p, size_t n, bys_sounding_list *list)
{
    static const struct {
        const char *name;
        int slot;
        bys_dim dim;
    } known[] = {{"x", 0, BYS_DIM_LENGTH},        {"easting", 0, BYS_DIM_LENGTH},
                 {"lat", 0, BYS_DIM_ANGLE},       {"y", 1, BYS_DIM_LENGTH},
                 {"northing", 1, BYS_DIM_LENGTH}, {"lon", 1, BYS_DIM_ANGLE},
                 {"depth", 2, BYS_DIM_LENGTH},    {"height", 2, BYS_DIM_LENGTH},
                 {"value", 2, BYS_DIM_LENGTH}};
    const char *open = memchr(p, '[', n), *close = memchr(p, ']', n);
    size_t length = open ? (size_t)(open - p) : n;
    while (length > 0 && p[length - 1] == ' ')
        length--;
    for (size_t i = 0; i < sizeof known / sizeof known[0]; i++) {
        if (strlen(known[i].name) != length || strncasecmp(p, known[i].name, length) != 0)
            continue;
        const bys_unit *unit =
            open && close && close > open ? bys_unit_find(open + 1, (size_t)(close - open) - 1)
                                          : NULL;
        if (!unit || unit->dim != known[i].dim) {
            say(r, 1, "the column %s has no unit of %s; write it as \"%s [%s]\"", known[i].name,
                bys_dim_name(known[i].dim), known[i].name,
                known[i].dim == BYS_DIM_ANGLE ? "deg" : "m");
            return false;
        }
        *out = (column){known[i].slot, unit->factor};
        list->latlon = list->latlon || known[i].dim == BYS_DIM_ANGLE;
        if (known[i].slot == 2) {
            list->named = strcmp(known[i].name, "value") != 0;
            list->depths = strcmp(known[i].name, "depth") == 0;
        }
        return true;
    }
    say(r, 1, "the column \"%.*s\" is not known; soundings have x, y and depth (or height), or "
              "lat, lon and depth", (int)(length < 40 ? length : 40), p);
    return false;
}

static bool read_headings(reader *r, column columns[COLUMNS], const char *p,
                          bys_sounding_list *list)
{
    int count = 0, slots = 0;
    for (bool more = true; more; p++) {
        p = skip_blank(p);
        const size_t length = strcspn(p, ",\r\n");
        column one;
        if (!read_heading(r, &one, p, length, list))
            return false;
        if (count < COLUMNS)
            columns[count] = one;
        count++;
        slots |= 1 << one.slot;
        p += length;
        more = *p == ',';
    }
    if (count == COLUMNS && slots == 7)
        return true;
    say(r, 1, "soundings have exactly three columns: x, y and depth (or height), or lat, lon and "
              "depth, each with its unit, as in \"x [m],y [m],depth [m]\"");
    return false;
}

static bool read_row(reader *r, const column columns[COLUMNS], const char *p, double out[3])
{
    const char *start = p;
    for (int c = 0; c < COLUMNS; c++) {
        double value;
        size_t used;
        p = skip_blank(p);
        if (!bys_number_read(&value, &used, p)) {
            say(r, (int)(p - start) + 1, "a number is missing: a sounding has three, with commas "
                                         "between and a decimal point");
            return false;
        }
        out[columns[c].slot] = value * columns[c].factor;
        p = skip_blank(p + used);
        if (c + 1 < COLUMNS && *p == ',')
            p++;
        else if (c + 1 < COLUMNS || (*p && *p != '\n')) {
            say(r, (int)(p - start) + 1, "a sounding has three numbers, with commas between and a "
                                         "decimal point");
            return false;
        }
    }
    return true;
}

bool bys_soundings_read(bys_sounding_list *out, bys_arena *arena, const char *bytes, int file,
                        bys_messages *messages)
{
    reader r = {bytes, 1, file, 0, messages};
    column columns[COLUMNS];
    bool headed = false;
    int room = 1;
    *out = (bys_sounding_list){0};
    for (const char *p = bytes; *p; p++)
        room += *p == '\n';
    out->at = bys_arena_get(arena, 3 * (size_t)room * sizeof(double));
    out->lines = bys_arena_get(arena, (size_t)room * sizeof(int));
    if (!out->at || !out->lines)
        return false;
    for (const char *p = bytes; *p; r.line++) {
        const size_t n = strcspn(p, "\n");
        const char *text = skip_blank(p);
        if (*text && *text != '\n' && *text != '#') {
            if (!headed && !read_headings(&r, columns, p, out))
                return false;
            else if (headed && read_row(&r, columns, p, out->at + 3 * (size_t)out->count))
                out->lines[out->count++] = r.line;
            headed = true;
        }
        p += n + (p[n] == '\n');
    }
    r.line = 0;
    if (r.told > MOST_TOLD)
        bys_messages_add(messages, BYS_FAULT, BYS_M_bed_data, (bys_place){file, 0, 0},
                         "%d more lines cannot be read", r.told - MOST_TOLD);
    else if (r.told == 0 && out->count > MOST_SOUNDINGS)
        say(&r, 0, "has %d soundings; %d are the most", out->count, (int)MOST_SOUNDINGS);
    else if (r.told == 0 && out->count == 0)
        say(&r, 0, "has no soundings");
    return r.told == 0;
}

// ---- grids -------------------------------------------------------------------------------------

/// Next word and its length; counts lines. NULL at the end.
static const char *next_word(reader *r, size_t *n)
{
    while (*r->p && strchr(" \t\r\n", *r->p)) {
        r->line += *r->p == '\n';
        r->p++;
    }
    *n = strcspn(r->p, " \t\r\n");
    return *n > 0 ? r->p : NULL;
}

static bool read_value(reader *r, double *out)
{
    size_t n, used;
    const char *word = next_word(r, &n);
    if (word && bys_number_read(out, &used, word) && used == n) {
        r->p += n;
        return true;
    }
    say(r, 1, word ? "\"%.*s\" is no number" : "the grid ends here: numbers are missing%.*s",
        word ? (int)(n < 40 ? n : 40) : 0, word ? word : "");
    return false;
}

typedef struct {
    double ncols, nrows, x, y, size, nodata;
    bool corner_x, corner_y;
} grid_head;

/// Reads the header words; stops at the first number.
static bool read_grid_head(reader *r, grid_head *head)
{
    const struct {
        const char *word;
        double *value;
        bool *corner;
    } words[] = {{"ncols", &head->ncols, NULL},           {"nrows", &head->nrows, NULL},
                 {"xllcorner", &head->x, &head->corner_x}, {"yllcorner", &head->y, &head->corner_y},
                 {"xllcenter", &head->x, NULL},            {"yllcenter", &head->y, NULL},
                 {"cellsize", &head->size, NULL},          {"nodata_value", &head->nodata, NULL}};
    size_t n;
    for (const char *word; (word = next_word(r, &n)) && !strchr("+-.0123456789", *word);) {
        size_t i = 0, all = sizeof words / sizeof words[0];
        while (i < all && (strlen(words[i].word) != n || strncasecmp(word, words[i].word, n) != 0))
            i++;
        if (i == all) {
            say(r, 1, "\"%.*s\" is no header word of an ESRI ASCII grid", (int)(n < 40 ? n : 40),
                word);
            return false;
        }
        r->p += n;
        if (!read_value(r, words[i].value))
            return false;
        if (words[i].corner)
            *words[i].corner = true;
    }
    const bool sound = head->ncols >= 2 && head->nrows >= 2 && head->size > 0 &&
                       head->ncols == floor(head->ncols) && head->nrows == floor(head->nrows) &&
                       isfinite(head->x) && isfinite(head->y);
    if (!sound)
        say(r, 1, "the header lacks ncols, nrows (2 or more), cellsize (above 0), xllcorner or "
                  "xllcenter, yllcorner or yllcenter");
    else if (head->ncols * head->nrows > MOST_CELLS)
        say(r, 1, "the grid has more than %d cells; cut out the part around the lease",
            (int)MOST_CELLS);
    return r->told == 0;
}

bool bys_grid_read(bys_grid_file *out, bys_arena *arena, const char *bytes, int file,
                   bys_messages *messages)
{
    reader r = {bytes, 1, file, 0, messages};
    grid_head head = {.x = NAN, .y = NAN, .nodata = -9999.0};
    *out = (bys_grid_file){0};
    if (!read_grid_head(&r, &head))
        return false;
    out->step = head.size;
    out->x0 = head.x + (head.corner_x ? 0.5 * head.size : 0.0);
    out->y0 = head.y + (head.corner_y ? 0.5 * head.size : 0.0);
    out->nx = (int)head.ncols;
    out->ny = (int)head.nrows;
    out->z = bys_arena_get(arena, (size_t)out->nx * (size_t)out->ny * sizeof(double));
    for (int row = out->ny - 1; out->z && row >= 0; row--)
        for (int i = 0; i < out->nx; i++) {
            double *z = &out->z[(size_t)row * (size_t)out->nx + (size_t)i];
            if (!read_value(&r, z))
                return false;
            if (*z == head.nodata)
                *z = NAN;
        }
    size_t n;
    if (out->z && next_word(&r, &n))
        say(&r, 1, "more numbers follow than ncols x nrows");
    return out->z && r.told == 0;
}
