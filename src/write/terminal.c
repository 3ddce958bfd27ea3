// SPDX-License-Identifier: GPL-3.0-or-later
// The check for a terminal: verdict, worst things, legs by utilisation, what to mind.
#include "write/conditions.h"
#include "write/layout.h"
#include "write/profiles.h"
#include "write/rows.h"
#include "write/utf8.h"

#include <byssus/write.h>

#include <math.h>
#include <string.h>

typedef struct {
    bys_text *out;
    const bys_design *design;
    int width;
    bool colour;
} page;

static void paint(page *p, const char *code)
{
    if (p->colour)
        bys_text_addf(p->out, "\x1b[%sm", code);
}

static const char *verdict_colour(bys_verdict verdict)
{
    static const char *const codes[] = {"32", "1;31", "33", "2"};
    return codes[verdict];
}

static bys_verdict overall(const bys_design *design)
{
    return !strcmp(design->verdict, "pass")   ? BYS_PASS
           : !strcmp(design->verdict, "fail") ? BYS_FAIL
                                              : BYS_NOT_CHECKED;
}

static void heading(page *p, const char *text)
{
    bys_text_add(p->out, "\n");
    paint(p, "1");
    bys_text_add(p->out, text);
    paint(p, "0");
    bys_text_add(p->out, "\n");
}

static void add_verdict(page *p)
{
    const bys_design *design = p->design;
    static const char *const names[] = {"PASS", "FAIL", "INCOMPLETE"};
    paint(p, verdict_colour(overall(design)));
    bys_text_add(p->out, names[overall(design)]);
    paint(p, "0");
    bys_text_add(p->out, "  ");
    bys_text title = {0};
    bys_text_addf(&title, "%s%s%s", design->site, *design->notice ? "  -  " : "", design->notice);
    bys_layout_wrap(p->out, title.failed ? "" : title.data, p->width - 12, "", "  ");
    p->out->failed = p->out->failed || title.failed;
    bys_text_free(&title);
    bys_layout_wrap(p->out, design->headline, p->width, "", "");
    if (design->incomplete && overall(design) == BYS_FAIL)
        bys_layout_wrap(p->out, "It is also incomplete: something demanded was not checked.",
                        p->width, "", "");
}

static void add_worst(page *p)
{
    if (p->design->worst_count == 0)
        return;
    heading(p, "Worst");
    for (int i = 0; i < p->design->worst_count; i++) {
        char first[] = "  0  ";
        first[2] = (char)('1' + i);
        bys_layout_wrap(p->out, p->design->worst_things[i], p->width, first, "     ");
    }
}

// ---- leg table ---------------------------------------------------------------------------------

enum { SHOWN = 6 };
static const struct {
    const char *group, *key, *above, *below;
    int width;
    bool right;
} shown[SHOWN] = {
    {"", "id", "Leg", "", 0, false},
    {"", "tension_kN", "tension", "kN", 8, true},
    {"", "tension_tf", "", "tf", 6, true},
    {"line", "utilisation", "line", "use", 6, true},
    {"anchor", "utilisation", "anchor", "use", 7, true},
    {"", "verdict", "  verdict", "", 13, false},
};

static int id_width(const bys_design *design)
{
    int width = 5;
    for (int i = 0; i < design->leg_count; i++) {
        int count = (int)bys_utf8_count(design->legs[i].id);
        width = count > width ? count : width;
    }
    return width > 14 ? 14 : width;
}

static void add_case_cell(page *p, const bys_leg_result *leg, int width)
{
    bys_text words = {0};
    bys_case_words(&words, p->design,
                   bys_column_find("", "governing_case")->get(p->design, leg).text);
    const char *text = words.data ? words.data : "";
    if (!strncmp(text, "current towards ", 16))
        text += 16; // the heading of the column says it
    bys_layout_cell(p->out, text, width, false);
    p->out->failed = p->out->failed || words.failed;
    bys_text_free(&words);
}

static void add_leg(page *p, const bys_leg_result *leg, int first, int last)
{
    for (int i = 0; i < SHOWN; i++) {
        const bys_column *column = bys_column_find(shown[i].group, shown[i].key);
        bys_cell cell = column->get(p->design, leg);
        bys_text text = {0};
        bys_text_add(&text, cell.kind == BYS_CELL_VERDICT ? "  " : "");
        bys_cell_add(&text, &cell, column->decimals);
        if (cell.kind == BYS_CELL_VERDICT)
            paint(p, verdict_colour(cell.verdict));
        bys_layout_cell(p->out, text.data ? text.data : "", i ? shown[i].width : first,
                        shown[i].right);
        if (cell.kind == BYS_CELL_VERDICT)
            paint(p, "0");
        p->out->failed = p->out->failed || text.failed;
        bys_text_free(&text);
    }
    bys_text_add(p->out, " ");
    add_case_cell(p, leg, last);
    bys_text_add(p->out, "\n");
}

static void add_legs(page *p)
{
    const bys_design *design = p->design;
    if (design->leg_count == 0)
        return;
    const int first = id_width(design);
    int used = first + 1;
    for (int i = 1; i < SHOWN; i++)
        used += shown[i].width;
    const int last = p->width > used ? p->width - used : 1;
    bys_text_add(p->out, "\n");
    for (int row = 0; row < 2; row++) {
        paint(p, "1");
        for (int i = 0; i < SHOWN; i++)
            bys_layout_cell(p->out, row ? shown[i].below : shown[i].above,
                            i ? shown[i].width : first, shown[i].right);
        bys_text_add(p->out, " ");
        bys_layout_cell(p->out, row ? "current towards" : "worst with", last, false);
        paint(p, "0");
        bys_text_add(p->out, "\n");
    }
    for (int i = 0; i < design->leg_count; i++)
        add_leg(p, &design->legs[design->by_utilisation[i]], first, last);
}

// ---- the rest ----------------------------------------------------------------------------------

static bool counts(const bys_finding *finding)
{
    return finding->verdict == BYS_FAIL || finding->verdict == BYS_NOT_CHECKED;
}

static bool alike(const bys_finding *a, const bys_finding *b)
{
    return a->verdict == b->verdict && !strcmp(a->kind, b->kind);
}

// One of each kind and verdict, and how many more there are like it.
static void add_finding(page *p, int first)
{
    const bys_finding *finding = &p->design->findings[first];
    int more = 0;
    for (int i = first + 1; i < p->design->finding_count; i++)
        more += alike(finding, &p->design->findings[i]);
    bys_text line = {0};
    bys_text_addf(&line, "%s (%s): %s", finding->kind, bys_verdict_name(finding->verdict),
                  finding->text);
    if (more)
        bys_text_addf(&line, "; and %d more like it", more);
    bys_layout_wrap(p->out, line.data ? line.data : "", p->width, "  ", "    ");
    p->out->failed = p->out->failed || line.failed;
    bys_text_free(&line);
}

static void add_findings(page *p)
{
    const bys_design *design = p->design;
    bool any = false;
    for (int i = 0; i < design->finding_count; i++) {
        bool first = counts(&design->findings[i]);
        for (int k = 0; k < i && first; k++)
            first = !alike(&design->findings[k], &design->findings[i]);
        if (!first)
            continue;
        if (!any)
            heading(p, "Findings");
        any = true;
        add_finding(p, i);
    }
}

static void add_unstable(page *p)
{
    const bys_design *design = p->design;
    int listed = 0;
    for (int i = 0; i < design->case_count && listed < 3; i++) {
        const bys_case_result *result = &design->cases[i];
        if (result->status == BYS_STABLE)
            continue;
        listed++;
        bys_text line = {0};
        bys_text_addf(&line, "%s: %s: %s", result->id, bys_status_name(result->status),
                      result->reason);
        bys_layout_wrap(p->out, line.data ? line.data : "", p->width, "  ", "    ");
        bys_text_free(&line);
    }
}

static void add_basis(page *p)
{
    const bys_design *design = p->design;
    bys_text line = {0};
    bys_text_addf(&line, "%d of %d cases stable; worst force left over ", design->case_stable,
                  design->case_total);
    bys_text_add_double(&line, isfinite(design->worst_residual_N)
                                   ? round(design->worst_residual_N * 1e6) / 1e6
                                   : NAN);
    bys_text_addf(&line, " N. %d %s on unverified values%s.", design->unverified_checks,
                  design->unverified_checks == 1 ? "check rests" : "checks rest",
                  design->strict ? " and counts as not checked" : "");
    if (*design->profile_title)
        bys_text_addf(&line, " Rules: %s.", design->profile_title);
    bys_text_add(p->out, "\n");
    bys_layout_wrap(p->out, line.data ? line.data : "", p->width, "", "");
    p->out->failed = p->out->failed || line.failed;
    bys_text_free(&line);
    add_unstable(p);
    for (int i = 0; i < design->caution_count; i++)
        bys_layout_wrap(p->out, design->cautions[i], p->width, i ? "         " : "Caution: ",
                        "         ");
}

void bys_write_terminal(bys_text *out, const bys_design *design, int width, bool colour)
{
    page p = {out, design, width < 60 ? 60 : width > 160 ? 160 : width, colour};
    add_verdict(&p);
    add_worst(&p);
    add_legs(&p);
    add_findings(&p);
    if (design->kind_count > 0)
        heading(&p, "Other conditions (reported, not demanded)");
    bys_conditions_text(out, design, p.width);
    bys_profiles_text(p.out, p.design, p.width);
    if (design->cascade_count > 0) {
        heading(&p, "If the load grows (reported, not demanded)");
        bys_write_cascade_text(out, design, p.width);
    }
    add_basis(&p);
}
