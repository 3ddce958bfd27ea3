// SPDX-License-Identifier: GPL-3.0-or-later
// One small polar chart a leg: tension against the direction that the current runs towards.
#include "write/html.h"

#include <math.h>

static const double radius = 44.0, centre = 56.0;

static double largest(const bys_design *design)
{
    double most = 0.0;
    for (int i = 0; i < design->leg_count; i++)
        for (int d = 0; d < design->direction_count; d++) {
            const bys_leg_result *leg = &design->legs[i];
            if (leg->by_direction_N)
                most = fmax(most, leg->by_direction_N[d]); // fmax drops a NAN
            if (leg->by_direction_lost_N)
                most = fmax(most, leg->by_direction_lost_N[d]);
        }
    return most;
}

// The smallest round step of which two rings hold everything.
static double ring_step(double most)
{
    static const double steps[] = {1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0};
    const double half = most / 2.0, power = pow(10.0, floor(log10(half)));
    int i = 0;
    while (i < 9 && steps[i] * power < half)
        i++;
    return steps[i] * power;
}

// Gaps where a direction has no stable case.
static void add_curve(bys_text *out, const bys_design *design, const double *newtons,
                      const char *css, double full)
{
    bool pen = false, whole = true, any = false;
    bys_text path = {0};
    for (int d = 0; newtons && d < design->direction_count; d++) {
        if (isnan(newtons[d])) {
            pen = whole = false;
            continue;
        }
        const double r = radius * newtons[d] / full, angle = design->directions_rad[d];
        bys_text_add(&path, pen ? "L" : "M");
        bys_text_add_fixed(&path, centre + r * sin(angle), 1);
        bys_text_add(&path, " ");
        bys_text_add_fixed(&path, centre - r * cos(angle), 1);
        pen = any = true;
    }
    if (any && path.data)
        bys_text_addf(out, "<path class=\"%s\" d=\"%s%s\"/>", css, path.data, whole ? "Z" : "");
    out->failed = out->failed || path.failed;
    bys_text_free(&path);
}

static void add_rings(bys_text *out, double step)
{
    for (int ring = 1; ring <= 2; ring++) {
        bys_text_addf(out, "<circle class=\"ring\" cx=\"56\" cy=\"56\" r=\"%d\"/>", 22 * ring);
        bys_text_addf(out, "<text x=\"58\" y=\"%d\">", 56 + 22 * ring - 2);
        bys_text_add_double(out, step * ring / 1000.0);
        bys_text_add(out, ring == 2 ? " kN</text>" : "</text>");
    }
    bys_text_add(out, "<path class=\"ring\" d=\"M56 12V100M12 56H100\"/>"
                      "<text x=\"56\" y=\"9\" text-anchor=\"middle\">N</text>");
}

static void add_rose(bys_text *out, const bys_design *design, const bys_leg_result *leg,
                     double step)
{
    const int worst = bys_worst_direction(design, leg);
    bys_text_addf(out, "<figure class=\"%s\"><svg class=\"rose\" viewBox=\"0 0 112 112\" "
                       "role=\"img\"><title>",
                  bys_use_class_name(bys_use_class_of(leg->utilisation, leg->verdict)));
    bys_html_text(out, leg->id);
    bys_text_add(out, ": tension by direction</title>");
    add_rings(out, step);
    add_curve(out, design, leg->by_direction_N, "now", 2 * step);
    add_curve(out, design, leg->by_direction_lost_N, "lost", 2 * step);
    bys_text_add(out, "</svg><figcaption><b>");
    bys_html_text(out, leg->id);
    bys_text_add(out, "</b> ");
    if (worst >= 0) {
        bys_number_add(out, leg->by_direction_N[worst] / 1000.0, 1);
        bys_text_add(out, " kN, ");
        bys_text_addf(out, "towards %03g\xC2\xB0",
                      round(10.0 * bys_compass_degrees(design->directions_rad[worst])) / 10.0);
    } else {
        bys_text_add(out, "no stable case");
    }
    bys_text_add(out, "</figcaption></figure>\n");
}

void bys_report_directions(bys_text *out, const bys_design *design)
{
    const double most = largest(design);
    bys_html_section(out, "directions", "Tension by direction of the current");
    if (!(most > 0.0) || design->direction_count < 3) {
        bys_html_paragraph(out, "quiet", "Fewer than three directions were solved.");
        bys_html_section_end(out);
        return;
    }
    bys_html_paragraph(out, NULL,
                       "Each point lies in the direction that the current runs towards, as far "
                       "out as the tension is large. Filled: nothing broken, the worst of all "
                       "levels, stages and combinations. Dashed: the worst with one leg lost. All "
                       "charts have the same scale; worst leg first.");
    bys_text_add(out, "<div class=\"roses\">\n");
    for (int i = 0; i < design->leg_count; i++)
        add_rose(out, design, &design->legs[design->by_utilisation[i]], ring_step(most));
    bys_text_add(out, "</div>\n");
    bys_html_section_end(out);
}
