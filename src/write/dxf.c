// SPDX-License-Identifier: GPL-3.0-or-later
// DXF for the drawing office: plan in metres, a layer a kind of thing.
//
// NOTES     1. Release 12, ASCII: what every reader of DXF takes. One drawing unit is one metre.
//           2. Easting and northing in a projected frame, else the site's own plane; a text in the
//              layer NOTES says which.
//           3. Text is ASCII: other characters become '?'.
// SOURCE    AutoCAD Release 12 DXF reference, group codes [memory].
#include "write/marks.h"
#include "write/utf8.h"

#include <byssus/write.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double text_height = 2.0; // m

typedef struct {
    bys_text *out;
    const bys_design *design;
    bool grid; // easting and northing
} drawing;

static void pair(drawing *d, int code, const char *value)
{
    bys_text_addf(d->out, "%3d\n%s\n", code, value);
}

static void number(drawing *d, int code, double value)
{
    bys_text_addf(d->out, "%3d\n", code);
    bys_text_add_fixed(d->out, value, 4);
    bys_text_add(d->out, "\n");
}

static void plain(drawing *d, int code, const char *text)
{
    bys_text_addf(d->out, "%3d\n", code);
    while (*text) {
        const size_t n = bys_utf8_length(text);
        const char c = n == 1 && *text >= ' ' && *text < 0x7F ? *text : '?';
        bys_text_add_bytes(d->out, &c, 1);
        text += n ? n : 1;
    }
    bys_text_add(d->out, "\n");
}

static void place(drawing *d, double x, double y)
{
    number(d, 10, x);
    number(d, 20, y);
    number(d, 30, 0.0);
}

static void entity(drawing *d, const char *kind, const char *layer)
{
    pair(d, 0, kind);
    pair(d, 8, layer);
}

static void write_text(drawing *d, const char *layer, double x, double y, const char *words)
{
    entity(d, "TEXT", layer);
    place(d, x, y);
    number(d, 40, text_height);
    plain(d, 1, words);
}

// ---- head ------------------------------------------------------------------------------------

static const struct {
    const char *name, *colour;
} layers[] = {{"LEASE", "3"},      {"BACKBONES", "5"}, {"LEGS", "4"},  {"HEAD-ROPES", "6"},
              {"RAFTS", "30"},     {"ANCHORS", "1"},   {"NAMES", "7"}, {"DROP-POINTS", "2"},
              {"SET-BACK", "2"},   {"OTHER", "8"},     {"NOTES", "7"}};

static void write_head(drawing *d)
{
    pair(d, 0, "SECTION");
    pair(d, 2, "HEADER");
    pair(d, 9, "$ACADVER");
    pair(d, 1, "AC1009");
    pair(d, 0, "ENDSEC");
    pair(d, 0, "SECTION");
    pair(d, 2, "TABLES");
    pair(d, 0, "TABLE");
    pair(d, 2, "LTYPE");
    pair(d, 70, "1");
    pair(d, 0, "LTYPE");
    pair(d, 2, "CONTINUOUS");
    pair(d, 70, "0");
    pair(d, 3, "Solid line");
    pair(d, 72, "65");
    pair(d, 73, "0");
    pair(d, 40, "0.0");
    pair(d, 0, "ENDTAB");
    pair(d, 0, "TABLE");
    pair(d, 2, "LAYER");
    bys_text_addf(d->out, " 70\n%d\n", (int)(sizeof layers / sizeof layers[0]));
    for (size_t i = 0; i < sizeof layers / sizeof layers[0]; i++) {
        pair(d, 0, "LAYER");
        pair(d, 2, layers[i].name);
        pair(d, 70, "0");
        pair(d, 62, layers[i].colour);
        pair(d, 6, "CONTINUOUS");
    }
    pair(d, 0, "ENDTAB");
    pair(d, 0, "ENDSEC");
}

// ---- things ----------------------------------------------------------------------------------

static void polyline(drawing *d, const char *layer, const double *xy, int count, bool closed)
{
    entity(d, "POLYLINE", layer);
    pair(d, 66, "1");
    place(d, 0.0, 0.0);
    pair(d, 70, closed ? "1" : "0");
    for (int i = 0; i < count; i++) {
        entity(d, "VERTEX", layer);
        place(d, xy[2 * i], xy[2 * i + 1]);
    }
    entity(d, "SEQEND", layer);
}

/// Places (x, y) as the drawing shows them, in place.
static void to_drawing(const drawing *d, double *xy, int count)
{
    if (d->grid)
        bys_frame_grid(xy, xy, count, &d->design->frame);
}

static const char *layer_of(const bys_plan_line *line)
{
    static const char *const kinds[][2] = {{"backbone", "BACKBONES"},
                                           {"leg", "LEGS"},
                                           {"head rope", "HEAD-ROPES"},
                                           {"raft", "RAFTS"}};
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++)
        if (strcmp(line->kind, kinds[i][0]) == 0)
            return kinds[i][1];
    return "OTHER";
}

/// Lines and lease in one list of points, so that the frame is opened once.
static void write_lines(drawing *d)
{
    const bys_design *design = d->design;
    size_t total = (size_t)design->lease_count + 1;
    for (int i = 0; i < design->plan_count; i++)
        total += (size_t)design->plan[i].count;
    double *xy = calloc(2 * total, sizeof *xy);
    if (!xy) {
        d->out->failed = true;
        return;
    }
    int n = 0;
    for (int i = 0; i < design->lease_count; i++, n++) {
        xy[2 * n] = design->lease_x[i];
        xy[2 * n + 1] = design->lease_y[i];
    }
    for (int i = 0; i < design->plan_count; i++)
        for (int p = 0; p < design->plan[i].count; p++, n++) {
            xy[2 * n] = design->plan[i].xyz[3 * p];
            xy[2 * n + 1] = design->plan[i].xyz[3 * p + 1];
        }
    to_drawing(d, xy, n);
    if (design->lease_count >= 3)
        polyline(d, "LEASE", xy, design->lease_count, true);
    const double *at = xy + 2 * (size_t)design->lease_count;
    for (int i = 0; i < design->plan_count; i++) {
        const bys_plan_line *line = &design->plan[i];
        if (line->count >= 2)
            polyline(d, layer_of(line), at, line->count, strcmp(line->kind, "raft") == 0);
        at += 2 * (size_t)line->count;
    }
    free(xy);
}

static void write_mark(drawing *d, const bys_marks *marks, const bys_mark *mark, const double at[2])
{
    static const char *const layer[] = {"LEASE", "ANCHORS", "DROP-POINTS"};
    entity(d, "POINT", layer[mark->kind]);
    place(d, at[0], at[1]);
    write_text(d, "NAMES", at[0] + text_height, at[1] + 0.5 * text_height, mark->name);
    if (mark->kind == BYS_MARK_CORNER)
        return;
    entity(d, "CIRCLE", layer[mark->kind]);
    place(d, at[0], at[1]);
    number(d, 40, 1.0);
    if (mark->kind != BYS_MARK_DROP)
        return;
    const bys_mark *end = bys_marks_anchor(marks, mark->index, false);
    double to[2] = {end->x_m, end->y_m};
    to_drawing(d, to, 1);
    entity(d, "LINE", "SET-BACK");
    place(d, at[0], at[1]);
    number(d, 11, to[0]);
    number(d, 21, to[1]);
    number(d, 31, 0.0);
}

static void write_notes(drawing *d, const double at[2])
{
    const bys_design *design = d->design;
    const bys_frame *frame = &design->frame;
    bys_text words = {0};
    if (d->grid)
        bys_text_addf(&words, "easting and northing of EPSG:%d, metres", frame->epsg);
    else
        bys_text_addf(&words, "ground metres about the origin of the site, y to %s north",
                      frame->north);
    const char *lines[] = {design->site, design->notice, words.data ? words.data : ""};
    for (int i = 0; i < 3; i++)
        if (*lines[i])
            write_text(d, "NOTES", at[0], at[1] - (4.0 + 1.6 * i) * text_height, lines[i]);
    bys_text_free(&words);
}

void bys_write_dxf(bys_text *out, const bys_design *design)
{
    drawing d = {out, design, design->frame.epsg > 0};
    bys_marks marks;
    if (!bys_marks_make(&marks, design)) {
        out->failed = true;
        return;
    }
    double corner[2] = {INFINITY, INFINITY};
    write_head(&d);
    pair(&d, 0, "SECTION");
    pair(&d, 2, "ENTITIES");
    write_lines(&d);
    for (int i = 0; i < marks.count; i++) {
        const bys_mark *mark = &marks.items[i];
        const double at[2] = {d.grid ? mark->easting_m : mark->x_m,
                              d.grid ? mark->northing_m : mark->y_m};
        write_mark(&d, &marks, mark, at);
        corner[0] = fmin(corner[0], at[0]);
        corner[1] = fmin(corner[1], at[1]);
    }
    if (marks.count > 0)
        write_notes(&d, corner);
    pair(&d, 0, "ENDSEC");
    pair(&d, 0, "EOF");
    bys_marks_free(&marks);
}
