// SPDX-License-Identifier: GPL-3.0-or-later
// What capacities are made of: what is left of each part's strength, and each way to reckon the
// holding of an anchor. One row a part, as it first stands in the list of legs.
#include "write/html.h"

#include <math.h>
#include <string.h>

static const bys_leg_piece *piece_at(const bys_design *design, int leg, int piece)
{
    return &design->legs[leg].pieces[piece];
}

static bool told_before(const bys_design *design, int leg, int piece)
{
    const char *part = piece_at(design, leg, piece)->part;
    for (int l = 0; l <= leg; l++)
        for (int p = 0; p < (l == leg ? piece : design->legs[l].piece_count); p++)
            if (strcmp(piece_at(design, l, p)->part, part) == 0)
                return true;
    return false;
}

static void add_piece(bys_text *out, const bys_leg_piece *piece)
{
    bys_text words = {0};
    bys_html_row(out, piece->part);
    bys_html_cell(out, piece->kind);
    bys_html_cell_number(out, piece->new_N / 1000.0, 1);
    for (int i = 0; i < piece->reduction_count; i++) {
        bys_text_addf(&words, "%sx ", i ? ", " : "");
        bys_text_add_fixed(&words, piece->reductions[i].share, 3);
        bys_text_addf(&words, " %s", piece->reductions[i].what);
    }
    bys_html_cell_long(out, words.length ? words.data : "none is stated");
    bys_html_cell_number(out, piece->strength_N / 1000.0, 1);
    bys_html_row_end(out);
    out->failed = out->failed || words.failed;
    bys_text_free(&words);
}

static void add_strengths(bys_text *out, const bys_design *design)
{
    static const bys_html_head heads[] = {{"Part", "", false},
                                          {"Kind", "", false},
                                          {"New", "kN", true},
                                          {"Reductions, each once", "", false},
                                          {"Left", "kN", true}};
    bys_html_table(out, "Strength of lines and fittings", heads, 5);
    for (int l = 0; l < design->leg_count; l++)
        for (int p = 0; p < design->legs[l].piece_count; p++)
            if (!isnan(piece_at(design, l, p)->new_N) && !told_before(design, l, p))
                add_piece(out, piece_at(design, l, p));
    bys_html_table_end(out);
}

static bool same_ways(const bys_anchor_result *a, const bys_anchor_result *b)
{
    bool same = strcmp(a->part, b->part) == 0 && a->method_count == b->method_count;
    for (int i = 0; same && i < a->method_count; i++)
        same = a->methods[i].capacity_N == b->methods[i].capacity_N;
    return same;
}

static void add_ways(bys_text *out, const bys_anchor_result *anchor)
{
    for (int i = 0; i < anchor->method_count; i++) {
        bys_html_row(out, anchor->part);
        bys_html_cell(out, anchor->kind);
        bys_html_cell(out, anchor->methods[i].name);
        bys_html_cell_number(out, anchor->methods[i].capacity_N / 1000.0, 1);
        bys_html_cell(out, anchor->methods[i].used ? "yes" : "no");
        bys_html_row_end(out);
    }
}

static void add_anchors(bys_text *out, const bys_design *design)
{
    static const bys_html_head heads[] = {{"Part", "", false},
                                          {"Kind", "", false},
                                          {"Way to reckon it", "", false},
                                          {"Holds", "kN", true},
                                          {"Counts", "", false}};
    bys_html_table(out, "Holding of anchors", heads, 5);
    for (int a = 0; a < design->anchor_count; a++) {
        bool told = false;
        for (int b = 0; b < a && !told; b++)
            told = same_ways(&design->anchors[a], &design->anchors[b]);
        if (!told)
            add_ways(out, &design->anchors[a]);
    }
    bys_html_table_end(out);
}

void bys_report_capacity(bys_text *out, const bys_design *design)
{
    int pieces = 0, ways = 0;
    for (int l = 0; l < design->leg_count; l++)
        pieces += design->legs[l].piece_count;
    for (int a = 0; a < design->anchor_count; a++)
        ways += design->anchors[a].method_count;
    if (pieces == 0 && ways == 0)
        return;
    bys_html_section(out, "capacity", "What capacities are made of");
    bys_html_paragraph(out, NULL,
                       "Before factors. Where there are several ways to reckon what an anchor "
                       "holds, the least along its pull counts; across a shaft counts by itself. "
                       "A deadweight's is for a level pull on a level bed.");
    if (pieces)
        add_strengths(out, design);
    if (ways)
        add_anchors(out, design);
    bys_html_section_end(out);
}
