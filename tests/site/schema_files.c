// SPDX-License-Identifier: GPL-3.0-or-later
// schema_files site|parts|rules|man: writes sitefiles/byssus.xsd, byssus-parts.xsd, byssus-rules.xsd
// or the table part of man/byssus-site.5 to standard output.
#include "site/schema_text.h"

#include <stdio.h>
#include <string.h>

int main(int count, char **words)
{
    if (count != 2)
        return 64;
    bys_text text = {0};
    if (strcmp(words[1], "man") == 0)
        schema_text_man(&text);
    else
        schema_text_xsd(&text, words[1]);
    if (!text.failed)
        fwrite(text.data, 1, text.length, stdout);
    bool failed = text.failed;
    bys_text_free(&text);
    return failed ? 70 : 0;
}
