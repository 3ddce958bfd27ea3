// SPDX-License-Identifier: GPL-3.0-or-later
// The step chart of a cascade: how many anchors are held as the load grows. A step down is something
// that gives way; its name stands beside it. Colours are the drawing's own, so that the file stands
// alone; ink and paper follow the page where it has a darker theme.
#include "write/cascade.h"

#include <math.h>
#include <string.h>

enum { LEFT = 64, RIGHT = 600, TOP = 24, BOTTOM = 300, WIDTH = 820, NAMES = 624, LINE = 15 };

typedef struct {
    double from, to;   ///< multipliers at the edges
    double tick;
    int anchors, rows; ///< rows of names
} frame;

static double x_of(const frame *f, double m)
{
    return LEFT + (RIGHT - LEFT) * (m - f->from) / (f->to - f->from);
}

static double y_of(const frame *f, int held)
{
    return BOTTOM - (BOTTOM - TOP) * (double)held / (f->anchors > 0 ? f->anchors : 1);
}

static void number(bys_text *out, const char *name, double value)
{
    bys_text_addf(out, " %s=\"", name);
    bys_text_add_fixed(out, value, 1);
    bys_text_add(out, "\"");
}

static void add_line(bys_text *out, double x1, double y1, double x2, double y2)
{
    bys_text_add(out, "<line");
    number(out, "x1", x1);
    number(out, "y1", y1);
    number(out, "x2", x2);
    number(out, "y2", y2);
    bys_text_add(out, "/>\n");
}

static double tick_of(double span)
{
    static const double steps[] = {0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0};
    size_t k = 0;
    while (k + 1 < sizeof steps / sizeof steps[0] && span / steps[k] > 8.0)
        k++;
    return steps[k];
}

static frame frame_of(const bys_cascade *c)
{
    frame f = {.anchors = c->anchors};
    double last = 1.0;
    for (int k = 0; k < c->step_count; k++)
        last = fmax(last, c->steps[k].multiplier);
    f.tick = tick_of(1.1 * last);
    f.to = f.tick * ceil(1.1 * last / f.tick);
    return f;
}

static void add_axes(bys_text *out, const frame *f)
{
    const int columns = (int)lround(f->to / f->tick);
    const int rung = f->anchors > 16 ? (f->anchors + 7) / 8 : f->anchors > 8 ? 2 : 1;
    bys_text_add(out, "<g stroke=\"#8a949c\" stroke-opacity=\".4\">\n");
    for (int i = 0; i <= columns; i++)
        add_line(out, x_of(f, i * f->tick), TOP, x_of(f, i * f->tick), BOTTOM);
    for (int n = 0; n <= f->anchors; n += rung)
        add_line(out, LEFT, y_of(f, n), RIGHT, y_of(f, n));
    bys_text_add(out, "</g>\n<g text-anchor=\"middle\">\n");
    for (int i = 0; i <= columns; i++) {
        bys_text_add(out, "<text");
        number(out, "x", x_of(f, i * f->tick));
        number(out, "y", BOTTOM + 18.0);
        bys_text_add(out, ">");
        bys_text_add_fixed(out, i * f->tick, f->tick < 0.99 ? 1 : 0);
        bys_text_add(out, "</text>\n");
    }
    for (int n = 0; n <= f->anchors; n += rung) {
        bys_text_add(out, "<text text-anchor=\"end\"");
        number(out, "x", LEFT - 8.0);
        number(out, "y", y_of(f, n) + 4.0);
        bys_text_addf(out, ">%d</text>\n", n);
    }
    bys_text_add(out, "<text x=\"332\" y=\"340\">multiple of the case's forces of current, wind "
                      "and waves</text>\n<text x=\"20\" y=\"162\" transform=\"rotate(-90 20 162)\">"
                      "anchors held</text>\n</g>\n");
}

static void add_path(bys_text *out, const frame *f, const bys_cascade *c)
{
    int held = c->anchors;
    bys_text_add(out, "<path fill=\"none\" stroke=\"currentColor\" stroke-width=\"2.4\" d=\"M");
    bys_text_add_fixed(out, x_of(f, 0.0), 1);
    bys_text_add(out, " ");
    bys_text_add_fixed(out, y_of(f, held), 1);
    for (int k = 0; k < c->step_count; k++) {
        held = c->steps[k].held;
        bys_text_add(out, "H");
        bys_text_add_fixed(out, x_of(f, c->steps[k].multiplier), 1);
        bys_text_add(out, "V");
        bys_text_add_fixed(out, y_of(f, held), 1);
    }
    bys_text_add(out, "H");
    bys_text_add_fixed(out, RIGHT, 1);
    bys_text_add(out, "\"/>\n");
    bys_text_add(out, "<line stroke=\"currentColor\" stroke-dasharray=\"4 4\"");
    number(out, "x1", x_of(f, 1.0));
    number(out, "x2", x_of(f, 1.0));
    number(out, "y1", TOP);
    number(out, "y2", BOTTOM);
    bys_text_add(out, "/>\n<text");
    number(out, "x", x_of(f, 1.0) + 5.0);
    number(out, "y", BOTTOM - 8.0);
    bys_text_add(out, ">the case as it is</text>\n");
}

/// Numbers at the steps, names in a list beside the chart; what goes together shares a number.
static void add_names(bys_text *out, const frame *f, const bys_cascade *c)
{
    enum { MOST = 20 };
    int group = 0;
    double before = -1.0;
    for (int k = 0; k < c->step_count && k < MOST; k++) {
        const bys_cascade_step *s = &c->steps[k];
        if (s->multiplier != before) {
            group++;
            bys_text_add(out, "<text font-weight=\"600\"");
            number(out, "x", x_of(f, s->multiplier) + 4.0);
            number(out, "y", y_of(f, s->held) - 4.0 - 11.0 * (group % 2));
            bys_text_addf(out, ">%d</text>\n", group);
        }
        before = s->multiplier;
        bys_text_add(out, "<text");
        number(out, "x", NAMES);
        number(out, "y", TOP + 4.0 + LINE * k);
        bys_text_addf(out, ">%d  ", group);
        bys_text_add_fixed(out, s->multiplier, 2);
        bys_text_add(out, "  ");
        bys_html_text(out, s->item);
        bys_text_add(out, strcmp(s->kind, "breaks") == 0 ? " breaks</text>\n" : "</text>\n");
    }
    if (c->step_count > MOST)
        bys_text_addf(out, "<text x=\"%d\" y=\"%d\">and %d more</text>\n", NAMES,
                      TOP + 4 + LINE * MOST, c->step_count - MOST);
}

void bys_cascade_chart(bys_text *out, const bys_cascade *cascade)
{
    const frame f = frame_of(cascade);
    bys_text_addf(out, "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"cascade\" "
                       "viewBox=\"0 0 %d 352\" width=\"%d\" role=\"img\" font-family=\"system-ui,"
                       "sans-serif\" font-size=\"12\" fill=\"currentColor\">\n<title>", WIDTH,
                  WIDTH);
    bys_html_text(out, cascade->text);
    bys_text_add(out, "</title>\n");
    add_axes(out, &f);
    add_path(out, &f, cascade);
    add_names(out, &f, cascade);
    bys_text_add(out, "</svg>\n");
}
