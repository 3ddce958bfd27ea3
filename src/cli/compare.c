// SPDX-License-Identifier: GPL-3.0-or-later
// byssus compare: the same lease twice.
#include "cli/cli.h"

#include <byssus/compare.h>
#include <byssus/write.h>

#include <stdio.h>
#include <unistd.h>

static int print_result(const bys_comparison *comparison, const cli_args *args)
{
    bys_text text = {0};
    if (args->json)
        bys_write_comparison_json(&text, comparison);
    else
        bys_write_comparison_text(&text, comparison, cli_width(), cli_colour(STDOUT_FILENO));
    return cli_print(&text, bys_comparison_exit(comparison));
}

static int finish(const bys_comparison *comparison, const cli_args *args)
{
    bys_error err = {0};
    if (args->to && bys_write_comparison_directory(comparison, args->to, &err) != BYS_OK)
        return cli_say_error(&err);
    const int rc = print_result(comparison, args);
    if (args->to && !args->quiet && rc <= CLI_INCOMPLETE)
        fprintf(stderr, "byssus: wrote %s/compare.html, %s/compare.json\n", args->to, args->to);
    return rc;
}

static int run(bys_site *const sites[2], bys_messages *messages, const cli_args *args)
{
    cli_progress progress = {0};
    bys_check_options options = BYS_CHECK_OPTIONS_INIT;
    options.threads = args->threads;
    options.directions = args->directions;
    options.strict = args->strict;
    options.progress = args->quiet ? NULL : cli_progress_tick;
    options.user = &progress;
    bys_comparison *comparison = NULL;
    bys_error err = {0};
    const bys_rc rc =
        bys_comparison_run(&comparison, sites[0], sites[1], &options, messages, &err);
    cli_progress_end(&progress);
    bys_messages_sort(messages);
    if (rc != BYS_OK)
        return cli_faults(messages, &err, args);
    if (!args->quiet)
        cli_show_messages(messages, BYS_WARNING);
    const int status = finish(comparison, args);
    bys_comparison_free(comparison);
    return status;
}

// Both files are read even if the first is faulty, so that all faults are told at once.
static int read_both(bys_site *sites[2], bys_messages *messages, const cli_args *args)
{
    bys_error errors[2] = {{0}};
    for (int i = 0; i < 2; i++)
        bys_site_read(&sites[i], args->operands[i], NULL, messages, &errors[i]);
    bys_messages_sort(messages);
    for (int i = 0; i < 2; i++) {
        cli_args faulty = *args;
        faulty.operand = args->operands[i];
        if (errors[i].rc != BYS_OK)
            return cli_faults(messages, &errors[i], &faulty);
    }
    return CLI_OK;
}

int cli_compare(const cli_args *args)
{
    bys_error err = {0};
    if (args->to && bys_write_directory_check(args->to, &err) != BYS_OK)
        return cli_say_error(&err);
    bys_messages *messages = NULL;
    if (bys_messages_new(&messages) != BYS_OK)
        return cli_say(BYS_ENOMEM, "out of memory");
    bys_site *sites[2] = {NULL, NULL};
    int status = read_both(sites, messages, args);
    if (status == CLI_OK)
        status = run(sites, messages, args);
    bys_site_free(sites[0]);
    bys_site_free(sites[1]);
    bys_messages_free(messages);
    return status;
}
