// SPDX-License-Identifier: GPL-3.0-or-later
// What every command on one site file does first and last: look at the folder for results, read the
// site, tell its faults or do the job, give everything back.
#include "cli/cli.h"

#include <byssus/write.h>

int cli_on_site(const cli_args *args, cli_site_job job)
{
    bys_error err = {0};
    if (args->to && bys_write_directory_check(args->to, &err) != BYS_OK)
        return cli_say_error(&err);
    bys_messages *messages = NULL;
    if (bys_messages_new(&messages) != BYS_OK)
        return cli_say(BYS_ENOMEM, "out of memory");
    bys_site *site = NULL;
    const bys_rc rc = bys_site_read(&site, args->operand, NULL, messages, &err);
    bys_messages_sort(messages);
    const int status = rc == BYS_OK ? job(site, messages, args) : cli_faults(messages, &err, args);
    bys_site_free(site);
    bys_messages_free(messages);
    return status;
}
