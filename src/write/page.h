// SPDX-License-Identifier: GPL-3.0-or-later
// Head and foot of pages that are not the report, and marks that such pages and tables share.
#ifndef BYS_WRITE_PAGE_H
#define BYS_WRITE_PAGE_H

#include "write/html.h"

/// Opens a page up to <main>; `line` says what it is.
void bys_page_open(bys_text *out, const char *title, const char *notice, const char *line);
/// The box at the top: verdict in words and sentence.
void bys_page_verdict(bys_text *out, const char *verdict, const char *sentence);
void bys_page_close(bys_text *out);

/// Bold heading between blank lines for a terminal.
void bys_terminal_heading(bys_text *out, bool colour, const char *text);
/// "PASS", "FAIL" or "INCOMPLETE", in its colour.
void bys_terminal_verdict(bys_text *out, bool colour, const char *verdict);
/// Number in a cell of fixed width.
void bys_terminal_number(bys_text *out, double value, int decimals, int width);

#endif
