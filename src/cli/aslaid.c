// SPDX-License-Identifier: GPL-3.0-or-later
// byssus aslaid: where the anchors really went.
#include "cli/cli.h"

#include <byssus/aslaid.h>
#include <byssus/write.h>

#include <stdio.h>
#include <string.h>
#include <unistd.h>

static int print_result(const bys_aslaid *result, const cli_args *args)
{
    bys_text text = {0};
    if (args->json)
        bys_write_aslaid_json(&text, result);
    else
        bys_write_aslaid_text(&text, result, cli_width(), cli_colour(STDOUT_FILENO));
    return cli_print(&text, bys_aslaid_exit(result));
}

static int finish(const bys_aslaid *result, const cli_args *args)
{
    bys_error err = {0};
    if (args->to && bys_write_aslaid_directory(result, args->to, &err) != BYS_OK)
        return cli_say_error(&err);
    const int rc = print_result(result, args);
    if (args->to && !args->quiet && rc <= CLI_INCOMPLETE)
        fprintf(stderr, "byssus: wrote %s/aslaid.html, %s/aslaid.json\n", args->to, args->to);
    return rc;
}

// The site was sound when it was read: a fault is told of the file in which it stands.
static int faults(const bys_messages *messages, const bys_error *err, const cli_args *args)
{
    cli_args told = *args;
    for (size_t i = 0; i < bys_messages_count(messages); i++) {
        const bys_message *m = bys_messages_at(messages, i);
        if (m->severity == BYS_FAULT &&
            !strcmp(bys_messages_file_name(messages, m->place.file), args->operands[1]))
            told.operand = args->operands[1];
    }
    return cli_faults(messages, err, &told);
}

static int run(const bys_site *site, bys_messages *messages, const cli_args *args)
{
    cli_progress progress = {0};
    bys_aslaid_options options = BYS_ASLAID_OPTIONS_INIT;
    options.check.threads = args->threads;
    options.check.directions = args->directions;
    options.check.strict = args->strict;
    options.check.progress = args->quiet ? NULL : cli_progress_tick;
    options.check.user = &progress;
    const int wrong = cli_number(&options.tolerance_m, "--tolerance", args->tolerance, 0.01, 1e4);
    if (wrong != CLI_OK)
        return wrong;
    bys_aslaid *result = NULL;
    bys_error err = {0};
    const bys_rc rc =
        bys_aslaid_run(&result, site, args->operands[1], &options, messages, &err);
    cli_progress_end(&progress);
    bys_messages_sort(messages);
    if (rc != BYS_OK)
        return faults(messages, &err, args);
    if (!args->quiet)
        cli_show_messages(messages, BYS_WARNING);
    const int status = finish(result, args);
    bys_aslaid_free(result);
    return status;
}

int cli_aslaid(const cli_args *args)
{
    return cli_on_site(args, run);
}
