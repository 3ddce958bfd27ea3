// SPDX-License-Identifier: GPL-3.0-or-later
// byssus explain: what a message means.
#include "cli/cli.h"

#include <byssus/write.h>

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

// "E0123", "w123", "123" -> 123; -1 if it is none of these.
static int number_of(const char *code)
{
    if (*code && strchr("EWNewn", *code))
        code++;
    const size_t digits = strspn(code, "0123456789");
    return digits >= 1 && digits <= 6 && !code[digits] ? atoi(code) : -1;
}

static void add_json(bys_text *out, int code, const char *text)
{
    bys_text_addf(out, "{\"number\": %d, \"text\": ", code);
    bys_write_json_string(out, text);
    bys_text_add(out, "}");
}

static int list(bool json)
{
    bys_text out = {0};
    bys_text_add(&out, json ? "[" : "");
    for (size_t i = 0; i < bys_message_code_count(); i++) {
        const int code = bys_message_code_at(i);
        const char *text = bys_message_explain(code);
        if (json) {
            bys_text_add(&out, i ? ",\n " : "\n ");
            add_json(&out, code, text);
        } else {
            bys_text_addf(&out, "%04d  ", code);
            bys_text_add_bytes(&out, text, strcspn(text, "\n"));
            bys_text_add(&out, "\n");
        }
    }
    bys_text_add(&out, json ? "\n]\n" : "");
    return cli_print(&out, CLI_OK);
}

int cli_explain(const cli_args *args)
{
    if (!args->operand)
        return list(args->json);
    const int code = number_of(args->operand);
    const char *text = code >= 0 ? bys_message_explain(code) : NULL;
    if (!text)
        return cli_say(BYS_EUSAGE, "there is no message \"%s\"; byssus explain lists them all",
                       args->operand);
    bys_text out = {0};
    if (args->json)
        add_json(&out, code, text);
    else
        bys_text_add(&out, text);
    if (args->json || (out.length && out.data[out.length - 1] != '\n'))
        bys_text_add(&out, "\n");
    return cli_print(&out, CLI_OK);
}
