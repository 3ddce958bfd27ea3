// SPDX-License-Identifier: GPL-3.0-or-later
// byssus new: a site file to start from.
#include "cli/cli.h"

#include <byssus/site.h>
#include <byssus/write.h>

int cli_new(const cli_args *args)
{
    static const char *const kinds[] = {"block", "raft-grid", "network"};
    const char *found = bys_site_template(args->operand);
    if (!found) {
        const char *near = cli_nearest(args->operand, kinds, 3);
        return near ? cli_say(BYS_EUSAGE, "there is no kind \"%s\"; did you mean \"%s\"?",
                              args->operand, near)
                    : cli_say(BYS_EUSAGE, "there is no kind \"%s\"; say block, raft-grid or "
                                          "network", args->operand);
    }
    bys_text text = {0};
    if (args->json) {
        bys_text_add(&text, "{\"kind\": ");
        bys_write_json_string(&text, args->operand);
        bys_text_add(&text, ", \"text\": ");
        bys_write_json_string(&text, found);
        bys_text_add(&text, "}\n");
    } else {
        bys_text_add(&text, found);
    }
    return cli_print(&text, CLI_OK);
}
