// SPDX-License-Identifier: GPL-3.0-or-later
// The cascade for people and programs: text, JSON, the step chart, the section of the report.
#include "write/cascade.h"
#include "write/files.h"
#include "write/layout.h"

#include <byssus/write.h>

#include <math.h>
#include <string.h>

static const char basis[] =
    "Forces of current, wind and wave drift are multiplied, not speeds; no factor is applied; an "
    "anchor that has slipped holds nothing any more; parts do not lean on each other.";

// ---- terminal ----------------------------------------------------------------------------------

static void wrap(bys_text *out, bys_text *line, int width, const char *first, const char *next)
{
    bys_layout_wrap(out, line->data ? line->data : "", width, first, next);
    out->failed = out->failed || line->failed;
    bys_text_free(line);
}

/// What gives way at one multiplier, from step k on; returns the step after the last of them.
static int add_steps(bys_text *out, const bys_cascade *c, int k, int width)
{
    enum { NAMED = 4 };
    int end = k;
    bys_text line = {0};
    bys_number_add(&line, c->steps[k].multiplier, 3);
    bys_text_add(&line, "  ");
    for (; end < c->step_count && c->steps[end].multiplier == c->steps[k].multiplier; end++)
        if (end - k < NAMED)
            bys_text_addf(&line, "%s%s", end > k ? "; " : "", c->steps[end].text);
    if (end - k > NAMED)
        bys_text_addf(&line, "; and %d more", end - k - NAMED);
    bys_text_addf(&line, "; %d of %d anchors held", c->steps[end - 1].held, c->anchors);
    wrap(out, &line, width, "    ", "           ");
    return end;
}

static bool ended(const bys_cascade_part_row *part)
{
    return strcmp(part->end, "gone") == 0 || strcmp(part->end, "no balance") == 0;
}

static bool alike(const bys_cascade_part_row *a, const bys_cascade_part_row *b)
{
    return !ended(a) && !ended(b) && !strcmp(a->end, b->end) && !strcmp(a->reason, b->reason);
}

/// Parts that hold to the end or were not run, those of one kind in one line.
static void add_parts(bys_text *out, const bys_cascade *c, int width)
{
    for (int p = 0; p < c->part_count; p++) {
        const bys_cascade_part_row *part = &c->parts[p];
        bool first = !ended(part);
        for (int q = 0; q < p && first; q++)
            first = !alike(&c->parts[q], part);
        if (!first)
            continue;
        bys_text line = {0};
        for (int q = p; q < c->part_count; q++)
            if (alike(&c->parts[q], part))
                bys_text_addf(&line, "%s%s", q > p ? ", " : "", c->parts[q].part);
        bys_text_addf(&line, ": %s", part->end);
        if (!isnan(part->multiplier)) {
            bys_text_add(&line, " at ");
            bys_number_add(&line, part->multiplier, 1);
        }
        bys_text_addf(&line, "%s%s", *part->reason ? ": " : "", part->reason);
        wrap(out, &line, width, "    ", "      ");
    }
}

/// The case whose loads give way first in full, the others in a sentence.
void bys_write_cascade_text(bys_text *out, const bys_design *design, int width)
{
    enum { SHOWN = 16 };
    if (design->cascade_count == 0)
        bys_text_add(out, "No demanded case has a load to raise.\n");
    for (int i = 0; i < design->cascade_count; i++) {
        const bys_cascade *c = &design->cascades[i];
        bys_text head = {0};
        bys_text_addf(&head, "%s (%s): %s", *c->words ? c->words : c->case_id, c->case_id, c->text);
        wrap(out, &head, width, "  ", "    ");
        int k = 0;
        for (int rows = 0; i == 0 && k < c->step_count && rows < SHOWN; rows++)
            k = add_steps(out, c, k, width);
        if (i == 0 && k < c->step_count)
            bys_text_addf(out, "    and %d more\n", c->step_count - k);
        if (i == 0)
            add_parts(out, c, width);
    }
    bys_layout_wrap(out, basis, width, "  ", "  ");
}

// ---- JSON --------------------------------------------------------------------------------------

static void add_step_json(bys_json *json, const bys_cascade_step *step)
{
    bys_json_open(json, NULL, '{', true);
    bys_json_number(json, "multiplier", step->multiplier);
    bys_json_string(json, "kind", step->kind);
    bys_json_string(json, "item", step->item);
    bys_json_string(json, "part", step->part);
    bys_json_number(json, "load_kN", step->load_N / 1000.0);
    bys_json_number(json, "capacity_kN", step->capacity_N / 1000.0);
    bys_json_integer(json, "held", step->held);
    bys_json_string(json, "text", step->text);
    bys_json_close(json, '}');
}

static void add_part_json(bys_json *json, const bys_cascade_part_row *part)
{
    bys_json_open(json, NULL, '{', true);
    bys_json_string(json, "part", part->part);
    bys_json_string(json, "end", part->end);
    bys_json_number(json, "multiplier", part->multiplier);
    bys_json_integer(json, "anchors", part->anchors);
    bys_json_string(json, "reason", part->reason);
    bys_json_close(json, '}');
}

void bys_cascades_json(bys_json *json, const bys_design *design)
{
    if (design->cascade_count == 0)
        return;
    bys_json_open(json, "cascade", '[', false);
    for (int i = 0; i < design->cascade_count; i++) {
        const bys_cascade *c = &design->cascades[i];
        bys_json_open(json, NULL, '{', false);
        bys_json_string(json, "case", c->case_id);
        bys_json_number(json, "first", c->first);
        bys_json_number(json, "adrift", c->adrift);
        bys_json_number(json, "gone", c->gone);
        bys_json_integer(json, "anchors", c->anchors);
        bys_json_integer(json, "solves", c->solves);
        bys_json_string(json, "text", c->text);
        bys_json_open(json, "steps", '[', false);
        for (int k = 0; k < c->step_count; k++)
            add_step_json(json, &c->steps[k]);
        bys_json_close(json, ']');
        bys_json_open(json, "parts", '[', false);
        for (int k = 0; k < c->part_count; k++)
            add_part_json(json, &c->parts[k]);
        bys_json_close(json, ']');
        bys_json_close(json, '}');
    }
    bys_json_close(json, ']');
}

void bys_write_cascade_json(bys_text *out, const bys_design *design)
{
    bys_json json = {.out = out};
    bys_json_open(&json, NULL, '{', false);
    bys_json_string(&json, "schema", "byssus.cascade/1");
    bys_json_string(&json, "program", "byssus " BYS_VERSION);
    bys_json_string(&json, "site", design->site);
    bys_json_string(&json, "notice", design->notice);
    bys_json_string(&json, "sha256", design->sha256);
    bys_cascades_json(&json, design);
    bys_json_close(&json, '}');
    bys_json_finish(&json);
}

// ---- report ------------------------------------------------------------------------------------

static void add_table(bys_text *out, const bys_cascade *c)
{
    static const bys_html_head heads[] = {
        {"What gives way", "", false}, {"Multiplier", "", true},  {"Load", "kN", true},
        {"Holds", "kN", true},         {"Part", "", false},       {"Anchors still held", "", true},
        {"", "", false}};
    bys_html_table(out, "Order of the cascade", heads, 7);
    for (int k = 0; k < c->step_count; k++) {
        const bys_cascade_step *step = &c->steps[k];
        bys_html_row(out, step->item);
        bys_html_cell_number(out, step->multiplier, 3);
        bys_html_cell_number(out, step->load_N / 1000.0, 1);
        bys_html_cell_number(out, step->capacity_N / 1000.0, 1);
        bys_html_cell(out, step->part);
        bys_html_cell_number(out, step->held, 0);
        bys_html_cell_long(out, step->text);
        bys_html_row_end(out);
    }
    bys_html_table_end(out);
}

void bys_report_cascade(bys_text *out, const bys_design *design)
{
    if (design->cascade_count == 0)
        return;
    bys_html_section(out, "cascade", "If the load grows: what gives way, in order");
    bys_html_paragraph(out, NULL, basis);
    for (int i = 0; i < design->cascade_count; i++) {
        const bys_cascade *c = &design->cascades[i];
        bys_text_add(out, "<h3>");
        bys_html_text(out, *c->words ? c->words : c->case_id);
        bys_text_add(out, "</h3>\n");
        bys_html_paragraph(out, NULL, c->text);
        if (c->step_count == 0)
            continue;
        bys_cascade_chart(out, c);
        add_table(out, c);
    }
    bys_html_section_end(out);
}

// ---- files -------------------------------------------------------------------------------------

bys_rc bys_write_cascade_directory(const bys_design *design, const char *dir, bys_error *err)
{
    bys_result_file files[] = {
        {"cascade.json", {0}}, {"cascade.txt", {0}}, {"cascade.svg", {0}}};
    bys_write_cascade_json(&files[0].text, design);
    bys_write_cascade_text(&files[1].text, design, 100);
    const bool drawn = design->cascade_count > 0 && design->cascades[0].step_count > 0;
    if (drawn)
        bys_cascade_chart(&files[2].text, &design->cascades[0]);
    return bys_write_files(files, drawn ? 3 : 2, dir, err);
}
