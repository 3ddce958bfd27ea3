// SPDX-License-Identifier: GPL-3.0-or-later
#include "write/html.h"
#include "write/utf8.h"

#include <math.h>
#include <string.h>

void bys_html_text(bys_text *out, const char *text)
{
    while (*text) {
        size_t n = bys_utf8_length(text);
        unsigned char byte = (unsigned char)*text;
        if (n == 0)
            bys_text_add(out, "\xEF\xBF\xBD");
        else if (byte == '<')
            bys_text_add(out, "&lt;");
        else if (byte == '>')
            bys_text_add(out, "&gt;");
        else if (byte == '&')
            bys_text_add(out, "&amp;");
        else if (byte == '"')
            bys_text_add(out, "&quot;");
        else if (byte == '\'')
            bys_text_add(out, "&#39;");
        else if (byte < 0x20 || byte == 0x7F)
            bys_text_add(out, " ");
        else
            bys_text_add_bytes(out, text, n);
        text += n ? n : 1;
    }
}

void bys_html_section(bys_text *out, const char *id, const char *title)
{
    bys_text_addf(out, "<section aria-labelledby=\"%s\">\n<h2 id=\"%s\">%s</h2>\n", id, id, title);
}

void bys_html_section_end(bys_text *out)
{
    bys_text_add(out, "</section>\n");
}

void bys_html_paragraph(bys_text *out, const char *css, const char *text)
{
    bys_text_addf(out, css ? "<p class=\"%s\">" : "<p>", css);
    bys_html_text(out, text);
    bys_text_add(out, "</p>\n");
}

void bys_html_list(bys_text *out, const char *const *items, int count, const char *none)
{
    if (count == 0) {
        bys_html_paragraph(out, "quiet", none);
        return;
    }
    bys_text_add(out, "<ul>\n");
    for (int i = 0; i < count; i++) {
        bys_text_add(out, "<li>");
        bys_html_text(out, items[i]);
        bys_text_add(out, "</li>\n");
    }
    bys_text_add(out, "</ul>\n");
}

void bys_html_table(bys_text *out, const char *label, const bys_html_head *heads, int count)
{
    bys_text_add(out, "<div class=\"wide\" role=\"region\" tabindex=\"0\" aria-label=\"");
    bys_html_text(out, label);
    bys_text_addf(out, "\">\n<table%s>\n<thead><tr>", count > 11 ? " class=\"dense\"" : "");
    for (int i = 0; i < count; i++) {
        bys_text_addf(out, "<th scope=\"col\"%s>", heads[i].number ? " class=\"n\"" : "");
        bys_html_text(out, heads[i].head);
        if (*heads[i].unit) {
            bys_text_add(out, " <small>");
            bys_html_text(out, heads[i].unit);
            bys_text_add(out, "</small>");
        }
        bys_text_add(out, "</th>");
    }
    bys_text_add(out, "</tr></thead>\n<tbody>\n");
}

void bys_html_table_end(bys_text *out)
{
    bys_text_add(out, "</tbody>\n</table>\n</div>\n");
}

// "L05/N/anchor" may break before its last name where a column is narrow; "L05/N" may not.
static void add_id(bys_text *out, const char *id)
{
    const char *last = strrchr(id, '/'), *first = strchr(id, '/');
    if (!last || last == first || strchr(id, ' ')) {
        bys_html_text(out, id);
        return;
    }
    bys_text head = {0};
    bys_text_add_bytes(&head, id, (size_t)(last + 1 - id));
    bys_html_text(out, head.data ? head.data : "");
    bys_text_add(out, "<wbr>");
    bys_html_text(out, last + 1);
    out->failed = out->failed || head.failed;
    bys_text_free(&head);
}

void bys_html_row(bys_text *out, const char *id)
{
    bys_text_add(out, "<tr><th scope=\"row\">");
    add_id(out, id);
    bys_text_add(out, "</th>");
}

void bys_html_row_end(bys_text *out)
{
    bys_text_add(out, "</tr>\n");
}

void bys_html_cell(bys_text *out, const char *text)
{
    bys_text_add(out, "<td>");
    add_id(out, text);
    bys_text_add(out, "</td>");
}

void bys_html_cell_long(bys_text *out, const char *text)
{
    bys_text_add(out, "<td class=\"t\">");
    bys_html_text(out, text);
    bys_text_add(out, "</td>");
}

void bys_html_cell_number(bys_text *out, double value, int decimals)
{
    bys_text_add(out, "<td class=\"n\">");
    bys_number_add(out, value, decimals);
    bys_text_add(out, "</td>");
}

// A bar of 40 units for a use of 1.6; the tick at 25 is the limit of 1.
void bys_html_cell_use(bys_text *out, double utilisation, bys_verdict verdict)
{
    bys_text_add(out, "<td class=\"n\">");
    bys_number_add(out, utilisation, 2);
    if (!isnan(utilisation)) {
        const double length = 25.0 * fmin(fmax(utilisation, 0.0), 1.6);
        bys_text_addf(out, "<svg class=\"bar %s\" viewBox=\"0 0 40 6\" aria-hidden=\"true\">"
                           "<rect y=\"1\" height=\"4\" width=\"",
                      bys_use_class_name(bys_use_class_of(utilisation, verdict)));
        bys_text_add_fixed(out, length, 1);
        bys_text_add(out, "\"/><path d=\"M25 0V6\"/></svg>");
    }
    bys_text_add(out, "</td>");
}

void bys_html_verdict(bys_text *out, bys_verdict verdict)
{
    static const struct {
        const char *css, *sign;
    } marks[] = {{"pass", "\xE2\x9C\x93"},
                 {"fail", "\xE2\x9C\x95"},
                 {"open", "?"},
                 {"told", "\xC2\xB7"}};
    bys_text_addf(out, "<span class=\"v %s\"><span aria-hidden=\"true\">%s</span> %s</span>",
                  marks[verdict].css, marks[verdict].sign, bys_verdict_name(verdict));
}

void bys_html_cell_verdict(bys_text *out, bys_verdict verdict)
{
    bys_text_add(out, "<td>");
    bys_html_verdict(out, verdict);
    bys_text_add(out, "</td>");
}

void bys_html_cell_case(bys_text *out, const bys_design *design, const char *case_id)
{
    bys_text words = {0};
    bys_case_words(&words, design, case_id);
    bys_text_add(out, "<td class=\"c\">");
    bys_html_text(out, words.data ? words.data : "");
    bys_text_add(out, "</td>");
    out->failed = out->failed || words.failed;
    bys_text_free(&words);
}

bys_use_class bys_use_class_of(double utilisation, bys_verdict verdict)
{
    if (verdict == BYS_FAIL || utilisation > 1.0)
        return BYS_USE_OVER;
    if (isnan(utilisation))
        return verdict == BYS_NOT_CHECKED ? BYS_USE_UNKNOWN : BYS_USE_NONE;
    if (verdict == BYS_NOT_CHECKED)
        return BYS_USE_UNKNOWN;
    return utilisation > 0.8 ? BYS_USE_HIGH : utilisation > 0.5 ? BYS_USE_MIDDLE : BYS_USE_LOW;
}

const char *bys_use_class_name(bys_use_class use)
{
    static const char *const names[] = {"u-low", "u-mid", "u-high", "u-over", "u-open", "u-none"};
    return names[use];
}

const char *bys_use_class_words(bys_use_class use)
{
    static const char *const words[] = {"use up to 0.50", "use 0.50 to 0.80", "use 0.80 to 1.00",
                                        "fails",          "not checked",
                                        "no check of its own"};
    return words[use];
}
