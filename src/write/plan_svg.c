// SPDX-License-Identifier: GPL-3.0-or-later
// The plan as a drawing of its own. Its style has plain colours only, since drawing programs know
// no variables, and it is drawn for white paper to a round scale.
#include "write/html.h"
#include "write/plan.h"

#include <byssus/write.h>

#include <math.h>

static const double paper = 180.0; // mm, the width that A4 leaves

static const char *const style =
    "text{fill:#15232c;font-family:\"Liberation Sans\",\"DejaVu Sans\",sans-serif;"
    "font-size:12px}\n"
    ".lease{fill:#e7f1f3;stroke:#15232c;stroke-width:1.5}\n"
    ".margin{fill:none;stroke:#8a5a00;opacity:.28}\n"
    ".contour{fill:none;stroke:#4b5a64;stroke-width:.7;opacity:.55}"
    ".depth{font-size:10px;fill:#4b5a64}\n"
    ".rest{fill:none;stroke-width:1.6;stroke-linecap:round}\n"
    ".raft,.mark{fill:#fff;stroke-width:1.7}\n"
    ".u-low{stroke:#0f6b74}.u-mid{stroke:#3157a6}.u-high{stroke:#8a5a00}.u-over{stroke:#b3131f}"
    ".u-open{stroke:#7a4d00}.u-none{stroke:#6b7780}\n"
    ".u-mid.rest{stroke-dasharray:10 4}.u-high.rest{stroke-width:2.2;stroke-dasharray:8 4 1 4}\n"
    ".u-over.rest{stroke-width:4}.u-open.rest{stroke-width:2.4;stroke-dasharray:.1 5}\n"
    ".u-over.mark{fill:#b3131f}.out{fill:none;stroke:#b3131f;stroke-width:2}\n"
    ".worst{fill:none;stroke:#15232c;stroke-width:1;opacity:.35}\n"
    ".halo{stroke:#e7f1f3;stroke-width:3px;paint-order:stroke;stroke-linejoin:round}\n"
    ".bad{font-weight:700;fill:#b3131f}.axis{font-size:11px;fill:#4b5a64}\n"
    ".thin{stroke:#4b5a64;stroke-width:.8;fill:none}.solid{fill:#15232c;stroke:none}"
    ".hollow{fill:#fff;stroke:#15232c}\n";

/// Smallest of 1, 2, 2.5, 5 times a power of ten at which `metres` fit on the paper.
static double round_scale(double metres)
{
    static const double steps[] = {1.0, 2.0, 2.5, 5.0, 10.0};
    const double least = fmax(metres, 1.0) * 1000.0 / paper;
    const double power = pow(10.0, floor(log10(least)));
    for (int i = 0; i < 5; i++)
        if (steps[i] * power >= least * (1.0 - 1e-9))
            return steps[i] * power;
    return 10.0 * power;
}

static void add_size(bys_text *out, const char *name, double millimetres)
{
    bys_text_addf(out, " %s=\"", name);
    bys_text_add_fixed(out, millimetres, 3);
    bys_text_add(out, "mm\"");
}

void bys_write_plan_svg(bys_text *out, const bys_design *design)
{
    bys_text drawing = {0};
    bys_plan_frame frame;
    bys_plan_drawing(&drawing, design, &frame);
    const bool any = drawing.length > 0;
    const double width = any ? frame.width : 100.0, height = any ? frame.height : 40.0;
    const double metre = any ? frame.scale : 1.0, scale = round_scale(width / metre);
    bys_text_add(out, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                      "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"plan\"");
    add_size(out, "width", width / metre * 1000.0 / scale);
    add_size(out, "height", height / metre * 1000.0 / scale);
    bys_text_add(out, " viewBox=\"0 0 ");
    bys_text_add_fixed(out, width, 1);
    bys_text_add(out, " ");
    bys_text_add_fixed(out, height, 1);
    bys_text_addf(out, "\">\n<desc>Scale 1:%.0f at its own size. ", scale);
    bys_html_text(out, design->notice);
    bys_text_addf(out, "</desc>\n<style>\n%s</style>\n", style);
    bys_text_add(out, "<rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n");
    if (any)
        bys_text_add(out, drawing.data);
    else
        bys_text_add(out, "<text x=\"6\" y=\"24\">There is nothing to draw.</text>\n");
    bys_text_add(out, "</svg>\n");
    out->failed = out->failed || drawing.failed;
    bys_text_free(&drawing);
}
