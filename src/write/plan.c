// SPDX-License-Identifier: GPL-3.0-or-later
// Plan drawing of the report as SVG, to scale, north up.
#include "write/plan.h"
#include "write/html.h"
#include "write/utf8.h"

#include <math.h>
#include <string.h>

typedef struct {
    bys_text *out;
    const bys_design *design;
    bys_plan_frame frame;
    bys_plan_room room;
    int left_out; ///< labels that found no room
} sheet;

static void add_pair(bys_text *out, double u, double v)
{
    bys_text_add_fixed(out, u, 1);
    bys_text_add(out, " ");
    bys_text_add_fixed(out, v, 1);
}

static void add_path(sheet *s, const double *xyz, int count, bool closed)
{
    for (int i = 0; i < count; i++) {
        double uv[2];
        bys_plan_point(&s->frame, xyz[3 * i], xyz[3 * i + 1], uv);
        bys_text_add(s->out, i ? "L" : "M");
        add_pair(s->out, uv[0], uv[1]);
    }
    bys_text_add(s->out, closed ? "Z" : "");
}

static void add_tag_text(sheet *s, const char *css, const char *align, double u, double v,
                         const char *text)
{
    bys_text_add(s->out, "<text x=\"");
    bys_text_add_fixed(s->out, u, 1);
    bys_text_add(s->out, "\" y=\"");
    bys_text_add_fixed(s->out, v, 1);
    bys_text_addf(s->out, "\" text-anchor=\"%s\" class=\"%s\">", align, css);
    bys_html_text(s->out, text);
    bys_text_add(s->out, "</text>\n");
}

// 1, 2 or 5 times a power of ten, near `rough`.
static double round_step(double rough)
{
    const double power = pow(10.0, floor(log10(rough))), share = rough / power;
    return power * (share < 1.5 ? 1.0 : share < 3.5 ? 2.0 : share < 7.5 ? 5.0 : 10.0);
}

// ---- ground ------------------------------------------------------------------------------------

static void add_lease(sheet *s)
{
    const bys_design *design = s->design;
    if (design->lease_count < 3)
        return;
    bys_text path = {0};
    double before[2], first[2];
    for (int i = 0; i < design->lease_count; i++) {
        double uv[2];
        bys_plan_point(&s->frame, design->lease_x[i], design->lease_y[i], uv);
        bys_text_add(&path, i ? "L" : "M");
        add_pair(&path, uv[0], uv[1]);
        if (i)
            bys_plan_room_stroke(&s->room, before, uv);
        else
            memcpy(first, uv, sizeof uv);
        memcpy(before, uv, sizeof uv);
    }
    bys_plan_room_stroke(&s->room, before, first);
    if (path.failed) {
        s->out->failed = true;
        bys_text_free(&path);
        return;
    }
    bys_text_addf(s->out, "<path class=\"lease\" d=\"%sZ\"><title>lease ", path.data);
    bys_html_text(s->out, design->lease_id);
    bys_text_add(s->out, "</title></path>\n");
    if (design->lease_margin_m > 0.0) { // a stroke of twice the margin, cut at the boundary
        bys_text_addf(s->out, "<clipPath id=\"inside\"><path d=\"%sZ\"/></clipPath>\n", path.data);
        bys_text_add(s->out, "<path class=\"margin\" clip-path=\"url(#inside)\" stroke-width=\"");
        bys_text_add_fixed(s->out, 2 * design->lease_margin_m * s->frame.scale, 2);
        bys_text_addf(s->out, "\" d=\"%sZ\"/>\n", path.data);
    }
    bys_text_free(&path);
}

static void add_contours(sheet *s)
{
    for (int i = 0; i < s->design->contour_count; i++) {
        const bys_contour *line = &s->design->contours[i];
        bys_text_add(s->out, "<path class=\"contour\" d=\"");
        for (int k = 0; k < 2 * line->count; k++) {
            double uv[2];
            bys_plan_point(&s->frame, line->xy[2 * k], line->xy[2 * k + 1], uv);
            bys_text_add(s->out, k % 2 ? "L" : "M");
            add_pair(s->out, uv[0], uv[1]);
        }
        bys_text_add(s->out, "\"><title>depth ");
        bys_number_add(s->out, line->depth_m, 1);
        bys_text_add(s->out, " m</title></path>\n");
    }
}

/// The depth of each line once, where there is room; after all other labels.
static void label_contours(sheet *s)
{
    for (int i = 0; i < s->design->contour_count; i++) {
        const bys_contour *line = &s->design->contours[i];
        for (int k = 0; k < line->count; k += 1 + line->count / 12) {
            double uv[2];
            bys_plan_point(&s->frame, line->xy[4 * k], line->xy[4 * k + 1], uv);
            if (!bys_plan_room_sit(&s->room, uv, 30.0, 12.0))
                continue;
            bys_text text = {0};
            bys_number_add(&text, line->depth_m, 1);
            add_tag_text(s, "depth halo", "middle", uv[0], uv[1] + 4.0, text.data ? text.data : "");
            bys_text_free(&text);
            break;
        }
    }
}

static void add_number_text(sheet *s, const char *align, double u, double v, double value)
{
    bys_text text = {0};
    bys_text_add_fixed(&text, value, 0);
    add_tag_text(s, "axis", align, u, v, text.data ? text.data : "");
    bys_text_free(&text);
}

static void add_axes(sheet *s)
{
    const bys_plan_frame *f = &s->frame;
    const double step = round_step(fmax(fmax(f->x1 - f->x0, f->y1 - f->y0), 1.0) / 6.0);
    const double base = f->height - 48.0;
    bys_text_add(s->out, "<g>\n");
    for (double x = ceil(f->x0 / step) * step; x <= f->x1 + 1e-9; x += step) {
        double uv[2];
        bys_plan_point(f, x, f->y0, uv);
        bys_text_add(s->out, "<path class=\"thin\" d=\"M");
        add_pair(s->out, uv[0], base);
        bys_text_add(s->out, "v-6\"/>");
        add_number_text(s, "middle", uv[0], base + 12.0, x);
    }
    const double rise = fmin(step, round_step(fmax(f->y1 - f->y0, 1.0) / 4.0));
    for (double y = ceil(f->y0 / rise) * rise; y <= f->y1 + 1e-9; y += rise) {
        double uv[2];
        bys_plan_point(f, f->x0, y, uv);
        bys_text_add(s->out, "<path class=\"thin\" d=\"M");
        add_pair(s->out, 36.0, uv[1]);
        bys_text_add(s->out, "h6\"/>");
        add_number_text(s, "end", 33.0, uv[1] + 4.0, y);
    }
    add_tag_text(s, "axis", "end", f->width - 8.0, base + 12.0, "x m");
    add_tag_text(s, "axis", "start", 8.0, 20.0, "y m");
    bys_text_add(s->out, "</g>\n");
}

static void add_scale_and_north(sheet *s)
{
    const bys_plan_frame *f = &s->frame;
    const double metres = round_step(130.0 / f->scale), length = metres * f->scale;
    const double v = f->height - 20.0, u = 60.0;
    bys_text_add(s->out, "<g><rect class=\"solid\" height=\"6\" x=\"");
    bys_text_add_fixed(s->out, u, 1);
    bys_text_add(s->out, "\" y=\"");
    bys_text_add_fixed(s->out, v, 1);
    bys_text_add(s->out, "\" width=\"");
    bys_text_add_fixed(s->out, length / 2, 1);
    bys_text_add(s->out, "\"/><rect class=\"hollow\" height=\"6\" x=\"");
    bys_text_add_fixed(s->out, u + length / 2, 1);
    bys_text_add(s->out, "\" y=\"");
    bys_text_add_fixed(s->out, v, 1);
    bys_text_add(s->out, "\" width=\"");
    bys_text_add_fixed(s->out, length / 2, 1);
    bys_text_add(s->out, "\"/>\n");
    bys_text label = {0};
    bys_text_add_double(&label, metres);
    bys_text_add(&label, " m");
    add_tag_text(s, "axis", "start", u + length + 6.0, v + 7.0, label.data ? label.data : "");
    bys_text_free(&label);
    const double top = 10.0, middle = f->width - 34.0;
    bys_text_add(s->out, "<path class=\"solid\" d=\"M");
    add_pair(s->out, middle, top);
    bys_text_add(s->out, "l7 24l-7 -6z\"/><path class=\"hollow\" d=\"M");
    add_pair(s->out, middle, top);
    bys_text_add(s->out, "l-7 24l7 -6z\"/>\n");
    bys_text north = {0};
    bys_text_addf(&north, "%s N", s->design->north);
    add_tag_text(s, "axis", "middle", middle, top + 37.0, north.data ? north.data : "");
    bys_text_free(&north);
    bys_text_add(s->out, "</g>\n");
    bys_plan_room_take(&s->room, (bys_plan_box){middle - 34, 0, f->width, 52});
}

// ---- gear --------------------------------------------------------------------------------------

static bool is_raft(const bys_plan_line *line)
{
    return !strcmp(line->kind, "raft");
}

static void add_worst(sheet *s)
{
    bys_text_add(s->out, "<g>\n");
    for (int i = 0; i < s->design->plan_count; i++) {
        const bys_plan_line *line = &s->design->plan[i];
        if (!line->worst_xyz)
            continue;
        bys_text_add(s->out, "<path class=\"worst\" d=\"");
        add_path(s, line->worst_xyz, line->count, is_raft(line));
        bys_text_add(s->out, "\"/>\n");
    }
    bys_text_add(s->out, "</g>\n");
}

static void take_strokes(sheet *s, const bys_plan_line *line)
{
    double a[2], b[2];
    for (int i = 0; i + 1 < line->count; i++) {
        bys_plan_point(&s->frame, line->xyz[3 * i], line->xyz[3 * i + 1], a);
        bys_plan_point(&s->frame, line->xyz[3 * i + 3], line->xyz[3 * i + 4], b);
        bys_plan_room_stroke(&s->room, a, b);
    }
}

static void add_lines(sheet *s)
{
    bys_text_add(s->out, "<g>\n");
    for (int i = 0; i < s->design->plan_count; i++) {
        const bys_plan_line *line = &s->design->plan[i];
        const bys_use_class use = bys_use_class_of(line->utilisation, line->verdict);
        const bool leg = !strcmp(line->kind, "leg");
        const bool bare = !leg && use == BYS_USE_UNKNOWN && isnan(line->utilisation);
        bys_text_addf(s->out, "<path class=\"%s %s\" d=\"",
                      bys_use_class_name(bare ? BYS_USE_NONE : use),
                      is_raft(line) ? "raft" : "rest");
        add_path(s, line->xyz, line->count, is_raft(line));
        bys_text_addf(s->out, "\"><title>%s ", line->kind);
        bys_html_text(s->out, line->id);
        if (!isnan(line->utilisation)) {
            bys_text_add(s->out, ", use ");
            bys_number_add(s->out, line->utilisation, 2);
        }
        bys_text_add(s->out, "</title></path>\n");
        take_strokes(s, line);
    }
    bys_text_add(s->out, "</g>\n");
}

static bool is_outside(const sheet *s, const bys_anchor_result *anchor)
{
    return s->design->lease_count >= 3 && !anchor->inside_lease;
}

static const char *mark_path(const char *kind)
{
    return strstr(kind, "deadweight") ? "M-4.5 -4.5h9v9h-9z"
           : strstr(kind, "drag")     ? "M0 -5.5L5.2 4H-5.2z"
           : strstr(kind, "screw")    ? "M-4.8 0a4.8 4.8 0 1 0 9.6 0a4.8 4.8 0 1 0 -9.6 0z"
                                      : "M0 -5.5L5.5 0L0 5.5L-5.5 0z";
}

static void add_anchors(sheet *s)
{
    bys_text_add(s->out, "<g>\n");
    for (int i = 0; i < s->design->anchor_count; i++) {
        const bys_anchor_result *anchor = &s->design->anchors[i];
        double uv[2];
        bys_plan_point(&s->frame, anchor->x_m, anchor->y_m, uv);
        bys_text_add(s->out, "<path transform=\"translate(");
        add_pair(s->out, uv[0], uv[1]);
        bys_text_addf(s->out, ")\" class=\"%s mark\" d=\"%s\"><title>",
                      bys_use_class_name(bys_use_class_of(anchor->utilisation, anchor->verdict)),
                      mark_path(anchor->kind));
        bys_html_text(s->out, anchor->kind);
        bys_text_add(s->out, " ");
        bys_html_text(s->out, anchor->id);
        bys_text_add(s->out, "</title></path>\n");
        if (is_outside(s, anchor)) {
            bys_text_add(s->out, "<circle class=\"out\" r=\"10\" cx=\"");
            bys_text_add_fixed(s->out, uv[0], 1);
            bys_text_add(s->out, "\" cy=\"");
            bys_text_add_fixed(s->out, uv[1], 1);
            bys_text_add(s->out, "\"/>\n");
        }
        bys_plan_room_take(&s->room,
                           (bys_plan_box){uv[0] - 6, uv[1] - 6, uv[0] + 6, uv[1] + 6});
    }
    bys_text_add(s->out, "</g>\n");
}

// ---- labels ------------------------------------------------------------------------------------

// From the legs' tops to the anchor, in drawing units; straight up if they coincide.
static void outward_of(const sheet *s, const bys_anchor_result *anchor, double out[2])
{
    out[0] = out[1] = 0.0;
    for (int i = 0; i < anchor->leg_count; i++) {
        const bys_leg_result *leg = &s->design->legs[anchor->legs[i]];
        out[0] += leg->foot[0] - leg->top[0];
        out[1] -= leg->foot[1] - leg->top[1];
    }
    const double length = hypot(out[0], out[1]);
    out[0] = length > 0.0 ? out[0] / length : 0.0;
    out[1] = length > 0.0 ? out[1] / length : -1.0;
}

// A leg's own anchor is called by its leg: "L05/N/anchor" stands at "L05/N".
static const char *name_of(const sheet *s, const bys_anchor_result *anchor)
{
    return anchor->leg_count == 1 ? s->design->legs[anchor->legs[0]].id : anchor->id;
}

static void label_anchor(sheet *s, const bys_anchor_result *anchor)
{
    const char *name = name_of(s, anchor);
    double use = anchor->utilisation;
    for (int i = 0; i < anchor->leg_count; i++)
        use = fmax(use, s->design->legs[anchor->legs[i]].utilisation); // fmax drops a NAN
    double at[2], outward[2], middle[2];
    bool far = false;
    bys_plan_point(&s->frame, anchor->x_m, anchor->y_m, at);
    outward_of(s, anchor, outward);
    const bool outside = is_outside(s, anchor);
    const double width = fmax(7.2 * (double)bys_utf8_count(name), outside ? 52.0 : 26.0) + 2.0;
    const double height = outside ? 39.0 : 26.0;
    if (!bys_plan_room_place(&s->room, at, outward, width, height, middle, &far)) {
        s->left_out++;
        return;
    }
    if (far) {
        bys_text_add(s->out, "<path class=\"thin\" d=\"M");
        add_pair(s->out, at[0], at[1]);
        bys_text_add(s->out, "L");
        add_pair(s->out, middle[0], middle[1]);
        bys_text_add(s->out, "\"/>");
    }
    bys_text number = {0};
    bys_number_add(&number, use, 2);
    const char *css = anchor->verdict == BYS_FAIL || use > 1.0 ? "halo bad" : "halo";
    const double line = middle[1] - height / 2 + 11.0;
    add_tag_text(s, css, "middle", middle[0], line, name);
    add_tag_text(s, css, "middle", middle[0], line + 13.0, number.data ? number.data : "");
    if (outside)
        add_tag_text(s, "halo bad", "middle", middle[0], line + 26.0, "outside");
    bys_text_free(&number);
}

static bool comes_first(const sheet *s, const bys_anchor_result *anchor)
{
    return anchor->verdict == BYS_FAIL || is_outside(s, anchor);
}

static void label_ranked(sheet *s, bool bad)
{
    const bys_design *design = s->design;
    for (int i = 0; i < design->leg_count; i++) {
        const int leg = design->by_utilisation[i], index = design->legs[leg].anchor_index;
        if (index < 0 || index >= design->anchor_count)
            continue;
        const bys_anchor_result *anchor = &design->anchors[index];
        bool first = true; // of this anchor's legs, the one that ranks highest
        for (int k = 0; k < i && first; k++)
            first = design->legs[design->by_utilisation[k]].anchor_index != index;
        if (first && comes_first(s, anchor) == bad)
            label_anchor(s, anchor);
    }
}

// What fails or lies outside is named even where the drawing is crowded, then the worst used.
static void label_anchors(sheet *s)
{
    bys_text_add(s->out, "<g>\n");
    label_ranked(s, true);
    label_ranked(s, false);
    bys_text_add(s->out, "</g>\n");
}

static void label_lines(sheet *s)
{
    static const double shares[] = {0.5, 0.42, 0.58, 0.34, 0.66};
    for (int i = 0; i < s->design->plan_count; i++) {
        const bys_plan_line *line = &s->design->plan[i];
        if ((strcmp(line->kind, "backbone") != 0 && !is_raft(line)) || line->count < 2)
            continue;
        const double width = 7.4 * (double)bys_utf8_count(line->id) + 4.0;
        for (int k = 0; k < 5; k++) {
            double x = 0.0, y = 0.0, at[2];
            const int n = (int)(shares[k] * (line->count - 1) + 0.5);
            const int last = line->count - 1; // the outline of a raft may come back to its start
            const bool closed = !memcmp(line->xyz, line->xyz + 3 * last, 2 * sizeof(double));
            const int corners = closed ? last : line->count;
            for (int p = 0; p < corners && is_raft(line); p++) {
                x += line->xyz[3 * p] / corners;
                y += line->xyz[3 * p + 1] / corners;
            }
            if (!is_raft(line))
                x = line->xyz[3 * n], y = line->xyz[3 * n + 1];
            bys_plan_point(&s->frame, x, y, at);
            if (!bys_plan_room_sit(&s->room, at, width, 15.0))
                continue;
            add_tag_text(s, "halo", "middle", at[0], at[1] + 4.0, line->id);
            break;
        }
    }
}

// ---- key ---------------------------------------------------------------------------------------

static void add_key_line(bys_text *out, const char *css, const char *words)
{
    bys_text_addf(out,
                  "<li><svg viewBox=\"0 0 40 12\" aria-hidden=\"true\"><path class=\"rest %s\" "
                  "d=\"M1 6H39\"/></svg>%s</li>\n",
                  css, words);
}

static void add_key(sheet *s)
{
    static const struct {
        const char *kind, *words;
    } marks[] = {{"deadweight", "deadweight"}, {"drag", "drag anchor"}, {"screw", "screw anchor"},
                 {"", "other anchor"}};
    bys_text_add(s->out, "<ul class=\"key\" aria-label=\"Key to the plan\">\n");
    for (int use = BYS_USE_LOW; use <= BYS_USE_UNKNOWN; use++)
        add_key_line(s->out, bys_use_class_name((bys_use_class)use),
                     bys_use_class_words((bys_use_class)use));
    add_key_line(s->out, "u-none", "no check of its own");
    bys_text_add(s->out, "<li><svg viewBox=\"0 0 40 12\" aria-hidden=\"true\"><path "
                         "class=\"worst\" d=\"M1 9Q20 -2 39 9\"/></svg>shape when worst</li>\n");
    for (size_t i = 0; i < sizeof marks / sizeof marks[0]; i++) {
        bool used = false;
        for (int a = 0; a < s->design->anchor_count && !used; a++)
            used = !strcmp(mark_path(s->design->anchors[a].kind), mark_path(marks[i].kind));
        if (used)
            bys_text_addf(s->out,
                          "<li><svg viewBox=\"-20 -6 40 12\" aria-hidden=\"true\"><path "
                          "class=\"mark\" d=\"%s\"/></svg>%s</li>\n",
                          mark_path(marks[i].kind), marks[i].words);
    }
    bys_text_add(s->out, "</ul>\n");
}

static void add_caption(sheet *s)
{
    const bys_design *design = s->design;
    bys_text_add(s->out, "<figcaption>To scale, ");
    bys_html_text(s->out, design->north);
    bys_text_add(s->out, " north up, metres. Full lines: at rest in slack water. Faint lines: the "
                         "shape in the governing weather. Beside each anchor: the leg and the "
                         "larger of its line and anchor use; above 1.00 it fails. A red ring: "
                         "outside the lease.");
    if (design->contour_count > 0)
        bys_text_add(s->out, " Thin numbered lines: depth in metres below chart datum.");
    if (design->lease_count >= 3 && design->lease_margin_m > 0.0) {
        bys_text_add(s->out, " The band inside the boundary is the margin of ");
        bys_text_add_double(s->out, design->lease_margin_m);
        bys_text_add(s->out, " m.");
    }
    if (s->left_out)
        bys_text_addf(s->out, " %d ids found no room; the tables have them all.", s->left_out);
    bys_text_add(s->out, "</figcaption>\n");
}

static void draw(sheet *s)
{
    bys_text_add(s->out, "<title id=\"plan-title\">Plan of ");
    bys_html_text(s->out, s->design->site);
    bys_text_add(s->out, "</title>\n");
    add_lease(s);
    add_contours(s);
    add_axes(s);
    add_scale_and_north(s);
    add_worst(s);
    add_lines(s);
    add_anchors(s);
    label_anchors(s);
    label_lines(s);
    label_contours(s);
    s->out->failed = s->out->failed || s->room.failed;
    bys_plan_room_free(&s->room);
}

static bool begin(sheet *s, bys_text *out, const bys_design *design)
{
    *s = (sheet){.out = out, .design = design};
    const bool any = bys_plan_frame_of(&s->frame, design);
    s->room.width = s->frame.width;
    s->room.height = s->frame.height - 62.0;
    return any;
}

void bys_plan_drawing(bys_text *out, const bys_design *design, bys_plan_frame *frame)
{
    sheet s;
    if (begin(&s, out, design))
        draw(&s);
    *frame = s.frame;
}

void bys_report_plan(bys_text *out, const bys_design *design)
{
    sheet s;
    bys_html_section(out, "plan", "Plan");
    if (!begin(&s, out, design)) {
        bys_html_paragraph(out, "quiet", "There is nothing to draw.");
        bys_html_section_end(out);
        return;
    }
    bys_text_add(out, "<figure>\n<div class=\"wide\" role=\"region\" tabindex=\"0\" "
                      "aria-label=\"Plan drawing\">\n<svg class=\"plan\" role=\"img\" "
                      "aria-labelledby=\"plan-title\" viewBox=\"0 0 ");
    add_pair(out, s.frame.width, s.frame.height);
    bys_text_add(out, "\">\n");
    draw(&s);
    bys_text_add(out, "</svg>\n</div>\n");
    add_key(&s);
    add_caption(&s);
    bys_text_add(out, "</figure>\n");
    bys_html_section_end(out);
}
