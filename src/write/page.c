// SPDX-License-Identifier: GPL-3.0-or-later
#include "write/page.h"
#include "write/layout.h"

#include <string.h>

void bys_page_open(bys_text *out, const char *title, const char *notice, const char *line)
{
    bys_text_add(out, "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
                      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; "
                      "style-src 'unsafe-inline'; img-src data:\">\n<meta name=\"viewport\" "
                      "content=\"width=device-width, initial-scale=1\">\n<link rel=\"icon\" "
                      "href=\"data:,\">\n<title>");
    bys_html_text(out, title);
    bys_text_add(out, "</title>\n<style>\n");
    for (int i = 0; bys_report_style[i]; i++)
        bys_text_add(out, bys_report_style[i]);
    bys_text_add(out, "</style>\n</head>\n<body>\n<header>\n<h1>");
    bys_html_text(out, title);
    bys_text_add(out, "</h1>\n");
    if (*notice)
        bys_html_paragraph(out, "notice", notice);
    bys_html_paragraph(out, "quiet", line);
    bys_text_add(out, "</header>\n<main>\n");
}

void bys_page_verdict(bys_text *out, const char *verdict, const char *sentence)
{
    const bool pass = !strcmp(verdict, "pass"), fail = !strcmp(verdict, "fail");
    bys_text_addf(out, "<section class=\"sum %s\" aria-labelledby=\"verdict\">\n"
                       "<h2 id=\"verdict\"><span aria-hidden=\"true\">%s</span> %s</h2>\n",
                  pass ? "pass" : fail ? "fail" : "open",
                  pass ? "\xE2\x9C\x93" : fail ? "\xE2\x9C\x95" : "?",
                  pass ? "Passes" : fail ? "Fails" : "Incomplete");
    bys_html_paragraph(out, NULL, sentence);
    bys_text_add(out, "</section>\n");
}

void bys_page_close(bys_text *out)
{
    bys_text_add(out, "</main>\n<footer>\n<p class=\"quiet\">byssus " BYS_VERSION
                      ". A result is as good as its inputs; the full report of a check lists what "
                      "each number rests on.</p>\n</footer>\n</body>\n</html>\n");
}

void bys_terminal_heading(bys_text *out, bool colour, const char *text)
{
    bys_text_addf(out, "\n%s%s%s\n", colour ? "\x1b[1m" : "", text, colour ? "\x1b[0m" : "");
}

void bys_terminal_verdict(bys_text *out, bool colour, const char *verdict)
{
    const bool pass = !strcmp(verdict, "pass"), fail = !strcmp(verdict, "fail");
    const char *paint = pass ? "\x1b[32m" : fail ? "\x1b[1;31m" : "\x1b[33m";
    bys_text_addf(out, "%s%s%s", colour ? paint : "",
                  pass ? "PASS" : fail ? "FAIL" : "INCOMPLETE", colour ? "\x1b[0m" : "");
}

void bys_terminal_number(bys_text *out, double value, int decimals, int width)
{
    bys_text text = {0};
    bys_number_add(&text, value, decimals);
    bys_layout_cell(out, text.data ? text.data : "", width, true);
    out->failed = out->failed || text.failed;
    bys_text_free(&text);
}
