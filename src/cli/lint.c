// SPDX-License-Identifier: GPL-3.0-or-later
// byssus lint: the faults of a site file, nothing solved.
#include "cli/cli.h"

#include <byssus/design.h>
#include <byssus/write.h>

#include <stdio.h>

static int report(const bys_messages *messages, const cli_args *args)
{
    bys_text text = {0};
    if (args->json) {
        bys_write_messages_json(&text, messages);
        return cli_print(&text, CLI_OK);
    }
    if (!args->quiet) {
        cli_show_messages(messages, BYS_NOTE);
        const size_t count = bys_messages_count(messages);
        bys_text_addf(&text, "%s: no fault", args->operand);
        if (count)
            bys_text_addf(&text, ", %zu to mind", count);
        bys_text_add(&text, "\n");
    }
    return cli_print(&text, CLI_OK);
}

int cli_lint(const cli_args *args)
{
    bys_messages *messages = NULL;
    if (bys_messages_new(&messages) != BYS_OK)
        return cli_say(BYS_ENOMEM, "out of memory");
    bys_error err = {0};
    bys_site *site = NULL;
    bys_rc rc = bys_site_read(&site, args->operand, NULL, messages, &err);
    if (rc == BYS_OK)
        rc = bys_design_lint(site, messages, &err);
    bys_messages_sort(messages);
    const int status =
        rc == BYS_OK ? report(messages, args) : cli_faults(messages, &err, args);
    bys_site_free(site);
    bys_messages_free(messages);
    return status;
}
