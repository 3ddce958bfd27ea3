// SPDX-License-Identifier: GPL-3.0-or-later
// Load against drag of all pull tests on common axes. Tests differ by colour, dash and name.
#include "write/html.h"

#include <byssus/pulltest.h>

#include <math.h>

static const double WIDTH = 800.0, LEFT = 70.0, RIGHT = 780.0, TOP = 30.0, BOTTOM = 400.0;
static const char *const colours[] = {"#1b5e8c", "#b03a2e", "#2e7d32",
                                      "#7b3f98", "#a65f00", "#37474f"};
static const char *const dashes[] = {"", "8 4", "2 3", "10 3 2 3", "5 5", "1 5"};
enum { STYLES = 6 };

typedef struct { double drag, load, drag_step, load_step; } axes;

// 1, 2 or 5 times a power of ten, so that about six steps cover the range.
static double step_of(double range)
{
    const double raw = range / 6.0, power = pow(10.0, floor(log10(raw)));
    const double lead = raw / power;
    return power * (lead <= 1.0 ? 1.0 : lead <= 2.0 ? 2.0 : lead <= 5.0 ? 5.0 : 10.0);
}

static axes find_axes(const bys_pulltest *r)
{
    double drag = 0.0, load = 0.0;
    for (int i = 0; i < r->test_count; i++)
        if (!r->tests[i].hold.wanted) {
            drag = fmax(drag, r->tests[i].last_drag_m);
            load = fmax(load, r->tests[i].peak_N / 1e3);
        }
    drag = drag > 0.0 ? drag : 1.0;
    load = load > 0.0 ? load : 1.0;
    axes a = {.drag_step = step_of(drag), .load_step = step_of(load)};
    a.drag = a.drag_step * ceil(drag / a.drag_step - 1e-9);
    a.load = a.load_step * ceil(load / a.load_step - 1e-9);
    return a;
}

static double x_of(const axes *a, double drag)
{
    return LEFT + (RIGHT - LEFT) * drag / a->drag;
}

static double y_of(const axes *a, double newton)
{
    return BOTTOM - (BOTTOM - TOP) * newton / 1e3 / a->load;
}

static void number(bys_text *out, const char *name, double value)
{
    bys_text_addf(out, " %s=\"", name);
    bys_text_add_fixed(out, value, 2);
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

static int decimals_of(double step)
{
    return step < 0.0999 ? 2 : step < 0.999 ? 1 : 0;
}

static void add_label(bys_text *out, double x, double y, const char *anchor, double value,
                      int decimals)
{
    bys_text_add(out, "<text");
    number(out, "x", x);
    number(out, "y", y);
    bys_text_addf(out, " text-anchor=\"%s\">", anchor);
    bys_text_add_fixed(out, value, decimals);
    bys_text_add(out, "</text>\n");
}

static void add_axes(bys_text *out, const axes *a)
{
    const int columns = (int)lround(a->drag / a->drag_step);
    const int rows = (int)lround(a->load / a->load_step);
    bys_text_add(out, "<g stroke=\"#c8c8c8\" stroke-width=\"1\">\n");
    for (int i = 0; i <= columns; i++)
        add_line(out, x_of(a, i * a->drag_step), TOP, x_of(a, i * a->drag_step), BOTTOM);
    for (int i = 0; i <= rows; i++)
        add_line(out, LEFT, y_of(a, 1e3 * i * a->load_step), RIGHT,
                 y_of(a, 1e3 * i * a->load_step));
    bys_text_add(out, "</g>\n<g fill=\"#222\">\n");
    for (int i = 0; i <= columns; i++)
        add_label(out, x_of(a, i * a->drag_step), BOTTOM + 20.0, "middle", i * a->drag_step,
                  decimals_of(a->drag_step));
    for (int i = 0; i <= rows; i++)
        add_label(out, LEFT - 8.0, y_of(a, 1e3 * i * a->load_step) + 5.0, "end", i * a->load_step,
                  decimals_of(a->load_step));
    bys_text_add(out, "<text x=\"425\" y=\"442\" text-anchor=\"middle\">drag, m</text>\n"
                      "<text x=\"20\" y=\"215\" text-anchor=\"middle\" "
                      "transform=\"rotate(-90 20 215)\">load, kN</text>\n</g>\n");
}

// A filled circle is a peak; an open triangle a load that was still rising.
static void add_mark(bys_text *out, const axes *a, const bys_pull_test *t, const char *colour)
{
    const double x = x_of(a, t->peak_drag_m), y = y_of(a, t->peak_N);
    if (!t->lower_bound) {
        bys_text_add(out, "<circle r=\"5\"");
        number(out, "cx", x);
        number(out, "cy", y);
        bys_text_addf(out, " fill=\"%s\"/>\n", colour);
        return;
    }
    bys_text_add(out, "<path d=\"M");
    bys_text_add_fixed(out, x - 6.0, 2);
    bys_text_add(out, " ");
    bys_text_add_fixed(out, y + 4.0, 2);
    bys_text_addf(out, "l12 0l-6 -11z\" fill=\"#fff\" stroke=\"%s\" stroke-width=\"2\"/>\n",
                  colour);
}

static void add_curve(bys_text *out, const axes *a, const bys_pull_test *t, int style)
{
    const char *colour = colours[style % STYLES], *dash = dashes[style / STYLES % STYLES];
    if (style < STYLES)
        dash = dashes[style];
    bys_text_addf(out, "<polyline fill=\"none\" stroke=\"%s\" stroke-width=\"2\"", colour);
    if (*dash)
        bys_text_addf(out, " stroke-dasharray=\"%s\"", dash);
    bys_text_add(out, " points=\"");
    for (int i = 0; i < t->reading_count; i++) {
        bys_text_add(out, i ? " " : "");
        bys_text_add_fixed(out, x_of(a, t->readings[i].drag_m), 2);
        bys_text_add(out, ",");
        bys_text_add_fixed(out, y_of(a, t->readings[i].load_N), 2);
    }
    bys_text_add(out, "\"/>\n");
    add_mark(out, a, t, colour);
}

static void add_name(bys_text *out, const bys_pull_test *t, int style)
{
    const double y = 470.0 + 20.0 * style;
    bys_text_addf(out, "<g stroke=\"%s\" stroke-width=\"2\"", colours[style % STYLES]);
    const char *dash = style < STYLES ? dashes[style] : dashes[style / STYLES % STYLES];
    if (*dash)
        bys_text_addf(out, " stroke-dasharray=\"%s\"", dash);
    bys_text_add(out, ">\n");
    add_line(out, LEFT, y - 5.0, LEFT + 40.0, y - 5.0);
    bys_text_add(out, "</g>\n<text fill=\"#222\"");
    number(out, "x", LEFT + 50.0);
    number(out, "y", y);
    bys_text_add(out, ">");
    bys_html_text(out, t->test);
    bys_text_add(out, ": ");
    bys_html_text(out, t->anchor);
    bys_text_add(out, t->lower_bound  ? " (stopped while rising)"
                      : t->rolled_out ? " (rolled out)"
                                      : "");
    bys_text_add(out, "</text>\n");
}

static int pull_count(const bys_pulltest *r)
{
    int n = 0;
    for (int i = 0; i < r->test_count; i++)
        n += !r->tests[i].hold.wanted;
    return n;
}

bool bys_write_pulltest_svg(bys_text *out, const bys_pulltest *result)
{
    if (!result->comparable)
        return false;
    const axes a = find_axes(result);
    const double height = 480.0 + 20.0 * pull_count(result);
    bys_text_add(out, "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" font-size=\"14\" "
                      "font-family=\"sans-serif\" viewBox=\"0 0 ");
    bys_text_add_fixed(out, WIDTH, 0);
    bys_text_add(out, " ");
    bys_text_add_fixed(out, height, 0);
    bys_text_add(out, "\">\n<title>Load against drag</title>\n"
                      "<desc>Filled circle: peak. Open triangle: stopped while rising.</desc>\n"
                      "<rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n");
    add_axes(out, &a);
    int style = 0;
    for (int i = 0; i < result->test_count; i++)
        if (!result->tests[i].hold.wanted) {
            add_curve(out, &a, &result->tests[i], style);
            add_name(out, &result->tests[i], style++);
        }
    bys_text_add(out, "</svg>\n");
    return true;
}
