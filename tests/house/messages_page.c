// SPDX-License-Identifier: GPL-3.0-or-later
// Writes man/byssus-messages.7 to standard output from the library's table of messages.
#include "base/codes.h"
#include <byssus/base.h>

#include <ctype.h>
#include <stdio.h>
#include <string.h>

/// One word; mdoc reads a line that begins with . or ' as a request.
static void write_word(const char *word, size_t n, bool first_on_line)
{
    if (first_on_line && (*word == '.' || *word == '\''))
        fputs("\\&", stdout);
    for (size_t i = 0; i < n; i++)
        if (word[i] == '\\')
            fputs("\\e", stdout);
        else if (word[i] == '`')
            fputs("\\(ga", stdout);
        else
            putchar(word[i]);
}

/// Text as mdoc lines of at most 80 columns, each sentence on a new line.
static void write_text(const char *text)
{
    size_t column = 0;
    bool ends = false;
    while (*(text += strspn(text, " \n"))) {
        const size_t n = strcspn(text, " \n");
        if (column > 0) {
            const bool new_line = (ends && isupper((unsigned char)*text)) || column + n + 1 > 72;
            putchar(new_line ? '\n' : ' ');
            column = new_line ? 0 : column + 1;
        }
        write_word(text, n, column == 0);
        column += n;
        ends = strchr(".?!", text[n - 1]) != NULL;
        text += n;
    }
    if (column > 0)
        putchar('\n');
}

static void write_group(int hundred)
{
    static const char *const titles[] = {
        "Other messages",    "The file and its XML", "Units and values",
        "References and layout", "Network and expansion", "Equilibrium",
        "Rules and design", "Output"};
    const bool known = hundred > 0 && hundred < (int)(sizeof titles / sizeof titles[0]);
    printf(".Ss %s\n.Bl -tag -width E0000\n", titles[known ? hundred : 0]);
    for (size_t i = 0; i < bys_message_code_count(); i++) {
        const int code = bys_message_code_at(i);
        if (code / 100 != hundred)
            continue;
        printf(".It %c%04d\n", bys_message_letter(code), code);
        const char *text = bys_message_explain(code), *brief_end = strstr(text, "\n\n");
        if (brief_end) {
            char brief[240];
            snprintf(brief, sizeof brief, "%.*s", (int)(brief_end - text), text);
            write_text(brief);
            text = brief_end;
        }
        write_text(text);
    }
    puts(".El");
}

int main(void)
{
    puts(".\\\" SPDX-License-Identifier: GPL-3.0-or-later\n"
         ".\\\" Written by tests/house/messages_page.c; a test compares.\n"
         ".Dd November 25, 2026\n.Dt BYSSUS-MESSAGES 7\n.Os\n"
         ".Sh NAME\n.Nm byssus-messages\n.Nd what the messages of byssus mean\n"
         ".Sh DESCRIPTION\n"
         "A message about an input reads\n"
         ".Dl file:line:column: E0123: which thing, what is wrong, how to mend it\n"
         "The letter says how grave it is:\n"
         "E is a fault, and nothing is computed;\n"
         "W is a warning, and the result stands with it;\n"
         "N is a note.\n"
         "A number keeps its meaning for ever.\n"
         ".Nm byssus Cm explain Ar number\n"
         "prints the same text as this page.");
    int last = -1;
    for (size_t i = 0; i < bys_message_code_count(); i++) {
        const int hundred = bys_message_code_at(i) / 100;
        if (hundred == last)
            continue;
        write_group(hundred);
        last = hundred;
    }
    puts(".Sh SEE ALSO\n.Xr byssus 1 ,\n.Xr byssus-site 5 ,\n.Xr byssus-theory 7");
    return ferror(stdout) ? 1 : 0;
}
