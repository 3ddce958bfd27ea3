// SPDX-License-Identifier: GPL-3.0-or-later
// A chart over the months of a crop calendar: lines told apart by dash and mark as well as colour.
#include "write/calendar_rows.h"
#include "write/html.h"

#include <math.h>

static const double WIDTH = 720.0, LEFT = 56.0, RIGHT = 704.0, TOP = 14.0, BOTTOM = 250.0;

typedef struct {
    double first, last, month_step, top, step;
} axes;

// 1, 2 or 5 times a power of ten, so that about `parts` steps cover the range.
static double step_of(double range, double parts) {
    const double raw = range / parts, power = pow(10.0, floor(log10(raw)));
    const double lead = raw / power;
    return power * (lead <= 1.0 ? 1.0 : lead <= 2.0 ? 2.0 : lead <= 5.0 ? 5.0 : 10.0);
}

static axes find_axes(const bys_calendar *c, const bys_chart *chart) {
    double most = isnan(chart->limit) ? 0.0 : chart->limit;
    for (int s = 0; s < 2; s++)
        for (int m = 0; m < c->month_count; m++)
            most = fmax(most, isnan(chart->values[s][m]) ? 0.0 : chart->values[s][m]);
    axes a = {.first = c->months[0].month, .last = c->months[c->month_count - 1].month};
    if (a.last - a.first < 1e-9)
        a.last = a.first + 1.0;
    a.step = step_of(most > 0.0 ? most : 1.0, 5.0);
    a.top = a.step * ceil((most > 0.0 ? most : 1.0) / a.step - 1e-9);
    a.month_step = fmax(1.0, step_of(a.last - a.first, 12.0));
    return a;
}

static double x_of(const axes *a, double month) {
    return LEFT + (RIGHT - LEFT) * (month - a->first) / (a->last - a->first);
}

static double y_of(const axes *a, double value) {
    return BOTTOM - (BOTTOM - TOP) * value / a->top;
}

static void add_pair(bys_text *out, const char *x, double a, const char *y, double b) {
    bys_text_addf(out, " %s=\"", x);
    bys_text_add_fixed(out, a, 1);
    bys_text_addf(out, "\" %s=\"", y);
    bys_text_add_fixed(out, b, 1);
    bys_text_add(out, "\"");
}

static void add_rule(bys_text *out, const char *css, double x1, double y1, double x2, double y2) {
    bys_text_addf(out, "<line class=\"%s\"", css);
    add_pair(out, "x1", x1, "y1", y1);
    add_pair(out, "x2", x2, "y2", y2);
    bys_text_add(out, "/>\n");
}

static void add_label(bys_text *out, double x, double y, const char *anchor, double value,
                      int decimals) {
    bys_text_add(out, "<text");
    add_pair(out, "x", x, "y", y);
    bys_text_addf(out, " text-anchor=\"%s\">", anchor);
    bys_text_add_fixed(out, value, decimals);
    bys_text_add(out, "</text>\n");
}

static void add_axes(bys_text *out, const axes *a, const bys_chart *chart) {
    const int rows = (int)lround(a->top / a->step);
    for (int i = 0; i <= rows; i++) {
        add_rule(out, "grid", LEFT, y_of(a, i * a->step), RIGHT, y_of(a, i * a->step));
        add_label(out, LEFT - 6.0, y_of(a, i * a->step) + 4.0, "end", i * a->step,
                  a->step < 0.999 ? 1 : 0);
    }
    for (double m = ceil(a->first); m <= a->last + 1e-9; m += a->month_step) {
        add_rule(out, "grid", x_of(a, m), BOTTOM, x_of(a, m), BOTTOM + 4.0);
        add_label(out, x_of(a, m), BOTTOM + 18.0, "middle", m, 0);
    }
    bys_text_addf(out, "<text x=\"%.0f\" y=\"%.0f\" text-anchor=\"end\">month</text>\n", RIGHT,
                  BOTTOM + 34.0);
    bys_text_addf(out,
                  "<text x=\"%.0f\" y=\"%.0f\" text-anchor=\"middle\" transform=\"rotate(-90 "
                  "14 %.0f)\">",
                  14.0, 0.5 * (TOP + BOTTOM), 0.5 * (TOP + BOTTOM));
    bys_html_text(out, chart->unit);
    bys_text_add(out, "</text>\n");
}

static void add_marks(bys_text *out, const axes *a, const bys_calendar *c, const double *values,
                      const char *css, double size) {
    for (int m = 0; m < c->month_count; m++) {
        if (isnan(values[m]))
            continue;
        bys_text_addf(out, "<circle class=\"%s%s\"", css, c->months[m].between ? " small" : "");
        add_pair(out, "cx", x_of(a, c->months[m].month), "cy", y_of(a, values[m]));
        bys_text_addf(out, " r=\"%.1f\"/>\n", c->months[m].between ? 0.6 * size : size);
    }
}

static void add_series(bys_text *out, const axes *a, const bys_calendar *c, const double *values,
                       const char *css, double size) {
    bool down = false;
    bys_text_addf(out, "<path class=\"%s\" d=\"", css);
    for (int m = 0; m < c->month_count; m++) {
        if (!isnan(values[m])) {
            bys_text_add(out, down ? "L" : "M");
            bys_text_add_fixed(out, x_of(a, c->months[m].month), 1);
            bys_text_add(out, " ");
            bys_text_add_fixed(out, y_of(a, values[m]), 1);
        }
        down = !isnan(values[m]);
    }
    bys_text_add(out, "\"/>\n");
    add_marks(out, a, c, values, css, size);
}

static void add_key(bys_text *out, const bys_calendar *c, const bys_chart *chart) {
    bys_text_add(out, "<ul class=\"key chart\">\n"
                      "<li><svg viewBox=\"0 0 40 12\" aria-hidden=\"true\"><path class=\"now\" "
                      "d=\"M2 6H38\"/></svg>floats of the site file</li>\n");
    if (c->to_add)
        bys_text_add(out,
                     "<li><svg viewBox=\"0 0 40 12\" aria-hidden=\"true\"><path class=\"with\" "
                     "d=\"M2 6H38\"/></svg>with the added floats</li>\n");
    if (!isnan(chart->limit))
        bys_text_add(out, "<li><svg viewBox=\"0 0 40 12\" aria-hidden=\"true\"><path "
                          "class=\"least\" d=\"M2 6H38\"/></svg>demanded</li>\n");
    bys_text_add(out, "</ul>\n");
}

void bys_calendar_chart(bys_text *out, const bys_calendar *c, const bys_chart *chart) {
    const axes a = find_axes(c, chart);
    bys_text_add(out, "<h3>");
    bys_html_text(out, chart->title);
    bys_text_add(
        out, "</h3>\n<figure>\n<div class=\"wide\" role=\"region\" tabindex=\"0\" aria-label=\"");
    bys_html_text(out, chart->title);
    bys_text_addf(out,
                  "\">\n<svg class=\"chart\" viewBox=\"0 0 %.0f %.0f\" role=\"img\" "
                  "aria-label=\"",
                  WIDTH, BOTTOM + 40.0);
    bys_html_text(out, chart->title);
    bys_text_add(out, "\">\n");
    add_axes(out, &a, chart);
    if (!isnan(chart->limit))
        add_rule(out, "least", LEFT, y_of(&a, chart->limit), RIGHT, y_of(&a, chart->limit));
    add_series(out, &a, c, chart->values[0], "now", 4.5);
    if (c->to_add)
        add_series(out, &a, c, chart->values[1], "with", 3.5);
    bys_text_add(out, "</svg>\n</div>\n");
    add_key(out, c, chart);
    bys_text_add(out, "<figcaption>");
    bys_html_text(out, chart->caption);
    bys_text_add(out, "</figcaption>\n</figure>\n");
}
