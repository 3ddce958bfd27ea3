// SPDX-License-Identifier: GPL-3.0-or-later
// byssus cascade: the loads raised until nothing holds.
#include "cli/cli.h"

#include <byssus/design.h>
#include <byssus/write.h>

#include <stdio.h>

static int print_result(const bys_design *design, const cli_args *args)
{
    bys_text text = {0};
    if (args->json)
        bys_write_cascade_json(&text, design);
    else
        bys_write_cascade_text(&text, design, cli_width());
    return cli_print(&text, bys_cascade_exit(design));
}

static int finish(const bys_design *design, const cli_args *args)
{
    bys_error err = {0};
    if (args->to && bys_write_cascade_directory(design, args->to, &err) != BYS_OK)
        return cli_say_error(&err);
    const int rc = print_result(design, args);
    if (args->to && !args->quiet && rc <= CLI_INCOMPLETE)
        fprintf(stderr, "byssus: wrote %s/cascade.json, %s/cascade.txt%s%s%s\n", args->to, args->to,
                design->cascade_count ? ", " : "", design->cascade_count ? args->to : "",
                design->cascade_count ? "/cascade.svg" : "");
    return rc;
}

static int run(const bys_site *site, bys_messages *messages, const cli_args *args)
{
    cli_progress progress = {0};
    bys_check_options options = BYS_CHECK_OPTIONS_INIT;
    options.threads = args->threads;
    options.directions = args->directions;
    options.intact_only = true;
    options.cascade = true;
    options.cascade_case = args->case_id;
    options.progress = args->quiet ? NULL : cli_progress_tick;
    options.user = &progress;
    bys_design *design = NULL;
    bys_error err = {0};
    const bys_rc rc = bys_design_run(&design, site, &options, messages, &err);
    cli_progress_end(&progress);
    bys_messages_sort(messages);
    if (rc != BYS_OK)
        return cli_faults(messages, &err, args);
    if (!args->quiet)
        cli_show_messages(messages, BYS_WARNING);
    const int status = finish(design, args);
    bys_design_free(design);
    return status;
}

int cli_cascade(const cli_args *args)
{
    return cli_on_site(args, run);
}
