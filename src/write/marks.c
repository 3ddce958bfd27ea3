// SPDX-License-Identifier: GPL-3.0-or-later
// Places of a lease as rows, and the short names that a chart plotter can show.
//
// GIVEN     anchors with place, heading (the way in which they are pulled) and set-back; lease
// RETURNED  marks. Drop point = place - set-back x (sin heading, cos heading): a drag anchor comes
//           towards the gear while it sets, so that it is let go further out.
// SOURCE    drop point: trade practice, refs page on the trade [memory].
#include "write/marks.h"
#include "base/number.h"
#include "write/rows.h"

#include <ctype.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

const char *bys_mark_kind_name(bys_mark_kind kind)
{
    static const char *const names[] = {"lease corner", "anchor", "drop point"};
    return names[kind];
}

// ---- names ---------------------------------------------------------------------------------

/// "north" -> "N", "SE" -> "SE": length of a compass word at `p`, 0 if there is none.
static size_t compass_word(const char *p, char *letter)
{
    static const char *const words[] = {"north", "east", "south", "west"};
    for (int i = 0; i < 4; i++)
        if (strncmp(p, words[i], strlen(words[i])) == 0) {
            *letter = "NESW"[i];
            return strlen(words[i]);
        }
    return 0;
}

/// "L05/N/anchor" -> "L05-N", "R1-2/north/anchor" -> "R1-2-N"; at most `most` characters.
static void short_name(char *out, size_t most, const char *id)
{
    static const char own[] = "/anchor";
    size_t length = strlen(id), n = 0;
    if (length > strlen(own) && strcmp(id + length - strlen(own), own) == 0)
        length -= strlen(own);
    for (size_t i = 0; i < length && n < most; i++) {
        char letter;
        const size_t word = i > 0 && id[i - 1] == '/' ? compass_word(id + i, &letter) : 0;
        if (word > 0) {
            out[n++] = letter;
            i += word - 1;
        } else {
            out[n++] = isalnum((unsigned char)id[i]) && (unsigned char)id[i] < 128 ? id[i] : '-';
        }
    }
    out[n] = '\0';
    if (n == 0)
        memcpy(out, "A", 2);
}

static bool name_taken(const bys_marks *marks, const char *name)
{
    for (int i = 0; i < marks->count; i++)
        if (strcmp(marks->items[i].name, name) == 0)
            return true;
    return false;
}

/// `stem` and `tail`, cut so that a number fits in between where the name is taken.
static void give_name(const bys_marks *marks, bys_mark *mark, const char *id, const char *tail)
{
    char stem[BYS_MARK_NAME + 1], number[12] = "";
    for (int n = 1;; n++) {
        const size_t room = BYS_MARK_NAME - strlen(tail) - strlen(number);
        short_name(stem, room, id);
        bys_format(mark->name, sizeof mark->name, "%s%s%s", stem, number, tail);
        if (!name_taken(marks, mark->name))
            return;
        bys_format(number, sizeof number, "-%d", n + 1);
    }
}

// ---- rows ----------------------------------------------------------------------------------

static double to_side(double px, double py, double ax, double ay, double bx, double by)
{
    const double dx = bx - ax, dy = by - ay, square = dx * dx + dy * dy;
    double t = square > 0.0 ? ((px - ax) * dx + (py - ay) * dy) / square : 0.0;
    t = fmax(0.0, fmin(1.0, t));
    return hypot(px - ax - t * dx, py - ay - t * dy);
}

double bys_lease_margin(const bys_design *design, double x, double y)
{
    const double *lx = design->lease_x, *ly = design->lease_y;
    const int n = design->lease_count;
    bool inside = false;
    double nearest = INFINITY;
    for (int i = 0, j = n - 1; i < n; j = i++) {
        nearest = fmin(nearest, to_side(x, y, lx[j], ly[j], lx[i], ly[i]));
        if ((ly[i] > y) != (ly[j] > y) &&
            x < lx[i] + (lx[j] - lx[i]) * (y - ly[i]) / (ly[j] - ly[i]))
            inside = !inside;
    }
    return n < 3 ? NAN : inside ? nearest : -nearest;
}

static void add_mark(bys_marks *marks, const bys_design *design, bys_mark mark, const char *id,
                     const char *tail)
{
    give_name(marks, &mark, id, tail);
    bys_frame_wgs84(&mark.lat_deg, &mark.lon_deg, &design->frame, mark.x_m, mark.y_m);
    mark.lease_margin_m =
        mark.kind == BYS_MARK_CORNER ? NAN : bys_lease_margin(design, mark.x_m, mark.y_m);
    marks->items[marks->count++] = mark;
}

static void add_corners(bys_marks *marks, const bys_design *design)
{
    for (int i = 0; i < design->lease_count; i++) {
        char id[24];
        bys_format(id, sizeof id, "LEASE-%d", i + 1);
        add_mark(marks, design,
                 (bys_mark){.kind = BYS_MARK_CORNER,
                            .id = design->lease_id,
                            .index = i,
                            .x_m = design->lease_x[i],
                            .y_m = design->lease_y[i],
                            .depth_m = NAN},
                 id, "");
    }
}

static void add_anchor(bys_marks *marks, const bys_design *design, int index, bool drop)
{
    const bys_anchor_result *a = &design->anchors[index];
    if (drop && !(a->setback_m > 0.0))
        return;
    const double back = drop ? a->setback_m : 0.0;
    add_mark(marks, design,
             (bys_mark){.kind = drop ? BYS_MARK_DROP : BYS_MARK_ANCHOR,
                        .id = a->id,
                        .index = index,
                        .x_m = drop ? a->x_m - back * sin(a->heading_rad) : a->x_m,
                        .y_m = drop ? a->y_m - back * cos(a->heading_rad) : a->y_m,
                        .depth_m = a->depth_m},
             a->id, drop ? "-D" : "");
}

/// Easting and northing of all at once: the frame is opened only once.
static bool put_grid(bys_marks *marks, const bys_frame *frame)
{
    double *xy = calloc(2 * (size_t)marks->count + 1, sizeof *xy);
    for (int i = 0; xy && i < marks->count; i++) {
        xy[2 * i] = marks->items[i].x_m;
        xy[2 * i + 1] = marks->items[i].y_m;
    }
    if (xy)
        bys_frame_grid(xy, xy, marks->count, frame);
    for (int i = 0; xy && i < marks->count; i++) {
        marks->items[i].easting_m = xy[2 * i];
        marks->items[i].northing_m = xy[2 * i + 1];
    }
    free(xy);
    return xy != NULL;
}

bool bys_marks_make(bys_marks *out, const bys_design *design)
{
    const size_t most = (size_t)design->lease_count + 2 * (size_t)design->anchor_count;
    *out = (bys_marks){calloc(most > 0 ? most : 1, sizeof *out->items), 0};
    if (!out->items)
        return false;
    add_corners(out, design);
    for (int drop = 0; drop < 2; drop++)
        for (int i = 0; i < design->anchor_count; i++)
            add_anchor(out, design, i, drop == 1);
    if (put_grid(out, &design->frame))
        return true;
    bys_marks_free(out);
    return false;
}

void bys_marks_free(bys_marks *marks)
{
    free(marks->items);
    *marks = (bys_marks){NULL, 0};
}

const bys_mark *bys_marks_anchor(const bys_marks *marks, int anchor, bool drop)
{
    const bys_mark *found = NULL;
    for (int i = 0; i < marks->count; i++) {
        const bys_mark *mark = &marks->items[i];
        if (mark->kind == BYS_MARK_CORNER || mark->index != anchor)
            continue;
        if (mark->kind == BYS_MARK_ANCHOR || drop)
            found = mark;
    }
    return found;
}

void bys_mark_words(bys_text *out, const bys_design *design, const bys_mark *mark)
{
    if (mark->kind == BYS_MARK_CORNER) {
        bys_text_addf(out, "corner %d of the lease %s", mark->index + 1, mark->id);
        return;
    }
    const bys_anchor_result *a = &design->anchors[mark->index];
    if (mark->kind == BYS_MARK_DROP) {
        bys_text_addf(out, "let go %s here, ", a->id);
        bys_text_add_fixed(out, a->setback_m, 1);
        bys_text_addf(out, " m back: it is pulled towards %03.0f deg (%s north) into its place",
                      bys_compass_degrees(a->heading_rad), design->north);
    } else {
        bys_text_addf(out, "%s anchor %s", a->kind, a->id);
        if (a->mass_kg > 0.0)
            bys_text_addf(out, ", %.0f kg in air", a->mass_kg);
    }
    bys_text_add(out, ", ");
    bys_text_add_fixed(out, mark->depth_m, 1);
    bys_text_add(out, " m below chart datum");
}
