// SPDX-License-Identifier: GPL-3.0-or-later
// The report: one HTML file, no script, no outside address. Verdict first, then the plan, then
// what to order, then all that a checker needs.
#include "write/cascade.h"
#include "write/conditions.h"
#include "write/html.h"
#include "write/profiles.h"

#include <byssus/write.h>

#include <math.h>
#include <string.h>

static void add_head(bys_text *out, const bys_design *design)
{
    bys_text_add(out, "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
                      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; "
                      "style-src 'unsafe-inline'; img-src data:\">\n<meta name=\"viewport\" "
                      "content=\"width=device-width, initial-scale=1\">\n<link rel=\"icon\" "
                      "href=\"data:,\">\n<title>");
    bys_html_text(out, design->site);
    bys_text_add(out, ": mooring check</title>\n<style>\n");
    for (int i = 0; bys_report_style[i]; i++)
        bys_text_add(out, bys_report_style[i]);
    bys_text_add(out, "</style>\n</head>\n<body>\n<header>\n<h1>");
    bys_html_text(out, design->site);
    bys_text_add(out, "</h1>\n");
    if (*design->notice)
        bys_html_paragraph(out, "notice", design->notice);
    bys_text_add(out, "<p class=\"quiet\">Mooring check of every leg and anchor, by byssus "
                      BYS_VERSION ", from <code>");
    bys_html_text(out, design->file);
    bys_text_add(out, "</code></p>\n</header>\n<main>\n");
}

static void add_fact(bys_text *out, const char *name, const char *value)
{
    bys_text_addf(out, "<div><dt>%s</dt><dd>", name);
    bys_html_text(out, value);
    bys_text_add(out, "</dd></div>\n");
}

static void add_count(bys_text *out, const char *name, int count, int of)
{
    bys_text value = {0};
    bys_text_addf(&value, "%d", count);
    if (of >= 0)
        bys_text_addf(&value, " of %d", of);
    add_fact(out, name, value.data ? value.data : "");
    out->failed = out->failed || value.failed;
    bys_text_free(&value);
}

static void add_largest(bys_text *out, const bys_design *design)
{
    int largest = -1;
    for (int i = 0; i < design->leg_count; i++)
        if (!isnan(design->legs[i].tension_N) &&
            (largest < 0 || design->legs[i].tension_N > design->legs[largest].tension_N))
            largest = i;
    if (largest < 0)
        return;
    const double newtons = design->legs[largest].tension_N;
    bys_text value = {0};
    bys_number_add(&value, newtons / 1000.0, 1);
    bys_text_add(&value, " kN (");
    bys_number_add(&value, newtons / BYS_TONNE_FORCE, 2);
    bys_text_addf(&value, " tf), %s", design->legs[largest].id);
    add_fact(out, "Largest tension", value.data ? value.data : "");
    out->failed = out->failed || value.failed;
    bys_text_free(&value);
}

static int count_legs(const bys_design *design, bys_verdict verdict)
{
    int count = 0;
    for (int i = 0; i < design->leg_count; i++)
        count += design->legs[i].verdict == verdict;
    return count;
}

static void add_facts(bys_text *out, const bys_design *design)
{
    bys_text_add(out, "<dl class=\"facts\">\n");
    add_count(out, "Legs that fail", count_legs(design, BYS_FAIL), design->leg_count);
    add_count(out, "Legs not checked", count_legs(design, BYS_NOT_CHECKED), design->leg_count);
    add_largest(out, design);
    add_count(out, "Stable cases", design->case_stable, design->case_total);
    add_count(out, "Checks on unverified values", design->unverified_checks, -1);
    add_count(out, "Warnings", design->warning_count, -1);
    const char *rules = *design->profile_title ? design->profile_title : "none named";
    add_fact(out, "Rules", rules);
    bys_text_add(out, "</dl>\n");
}

static void add_summary(bys_text *out, const bys_design *design)
{
    const bool pass = !strcmp(design->verdict, "pass"), fail = !strcmp(design->verdict, "fail");
    bys_text_addf(out, "<section class=\"sum %s\" aria-labelledby=\"verdict\">\n"
                       "<h2 id=\"verdict\"><span aria-hidden=\"true\">%s</span> %s</h2>\n",
                  pass ? "pass" : fail ? "fail" : "open",
                  pass ? "\xE2\x9C\x93" : fail ? "\xE2\x9C\x95" : "?",
                  pass ? "Passes" : fail ? "Fails" : "Incomplete");
    bys_html_paragraph(out, NULL, design->headline);
    if (fail && design->incomplete)
        bys_html_paragraph(out, NULL, "It is also incomplete: something that the rules demand was "
                                      "not checked.");
    if (design->strict)
        bys_html_paragraph(out, NULL, "Strict: a check that rests on an unverified value counts "
                                      "as not checked.");
    if (design->worst_count) {
        bys_text_add(out, "<h3>Look at this first</h3>\n<ol>\n");
        for (int i = 0; i < design->worst_count; i++) {
            bys_text_add(out, "<li>");
            bys_html_text(out, design->worst_things[i]);
            bys_text_add(out, "</li>\n");
        }
        bys_text_add(out, "</ol>\n");
    }
    add_facts(out, design);
    bys_text_add(out, "</section>\n");
}

static void add_contents(bys_text *out, const bys_design *design)
{
    static const struct {
        const char *id, *title;
    } entries[] = {{"plan", "Plan"},           {"legs", "Legs"},
                   {"directions", "Directions"}, {"account", "Loads"},
                   {"order", "What to order"},
                   {"anchors", "Anchors"},     {"findings", "Other findings"},
                   {"capacity", "What capacities are made of"},
                   {"weather", "Weather"},     {"cases", "Cases"},
                   {"rules", "Rules and factors"},
                   {"drag", "Drag coefficients"},
                   {"inputs", "What went in"}, {"unverified", "Unverified values"},
                   {"warnings", "Warnings"},   {"sources", "Sources"},
                   {"cautions", "Cautions"}};
    bys_text_add(out, "<nav aria-label=\"Contents\">\n<ul>\n");
    for (size_t i = 0; i < sizeof entries / sizeof entries[0]; i++)
        bys_text_addf(out, "<li><a href=\"#%s\">%s</a></li>\n", entries[i].id, entries[i].title);
    if (design->profile_count > 0)
        bys_text_add(out, "<li><a href=\"#profiles\">Rule profiles side by side</a></li>\n");
    bys_text_add(out, "</ul>\n</nav>\n");
}

static void add_list(bys_text *out, const char *id, const char *title, const char *intro,
                     const char **items, int count)
{
    bys_html_section(out, id, title);
    if (intro && count)
        bys_html_paragraph(out, NULL, intro);
    bys_html_list(out, items, count, "None.");
    bys_html_section_end(out);
}

void bys_write_report_html(bys_text *out, const bys_design *design)
{
    add_head(out, design);
    add_summary(out, design);
    add_contents(out, design);
    bys_report_plan(out, design);
    bys_report_legs(out, design);
    bys_report_directions(out, design);
    bys_report_accounts(out, design);
    bys_report_order(out, design);
    bys_report_anchors(out, design);
    bys_report_capacity(out, design);
    bys_report_findings(out, design);
    bys_report_conditions(out, design);
    bys_report_environments(out, design);
    bys_report_cascade(out, design);
    bys_report_cases(out, design);
    bys_report_rules(out, design);
    bys_report_drag(out, design);
    bys_profiles_html(out, design);
    bys_report_inputs(out, design);
    add_list(out, "unverified", "Unverified values",
             "These values were remembered or assumed. Each should be confirmed before the result "
             "is relied on.",
             design->unverified, design->unverified_count);
    add_list(out, "warnings", "Warnings", NULL, design->warnings, design->warning_count);
    add_list(out, "sources", "Sources", NULL, design->sources, design->source_count);
    add_list(out, "cautions", "Cautions", NULL, design->cautions, design->caution_count);
    bys_text_add(out, "</main>\n<footer>\n<p class=\"quiet\">byssus " BYS_VERSION
                      ". The numbers of legs and anchors stand, with all their digits, in "
                      "legs.json and legs.csv of the same check.</p>\n"
                      "</footer>\n</body>\n</html>\n");
}
