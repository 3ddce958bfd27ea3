// SPDX-License-Identifier: GPL-3.0-or-later
// byssus calendar: floats and leg loads month by month.
#include "cli/cli.h"

#include <byssus/calendar.h>
#include <byssus/write.h>

#include <stdio.h>
#include <unistd.h>

static int print_result(const bys_calendar *calendar, const cli_args *args) {
    bys_text text = {0};
    if (args->json)
        bys_write_calendar_json(&text, calendar);
    else
        bys_write_calendar_text(&text, calendar, cli_width(), cli_colour(STDOUT_FILENO));
    return cli_print(&text, bys_calendar_exit(calendar));
}

static int finish(const bys_calendar *calendar, const cli_args *args) {
    bys_error err = {0};
    if (args->to && bys_write_calendar_directory(calendar, args->to, &err) != BYS_OK)
        return cli_say_error(&err);
    const int rc = print_result(calendar, args);
    if (args->to && !args->quiet && rc <= CLI_INCOMPLETE)
        fprintf(stderr, "byssus: wrote %s/calendar.html, %s/calendar.json\n", args->to, args->to);
    return rc;
}

static int run(const bys_site *site, bys_messages *messages, const cli_args *args) {
    cli_progress progress = {0};
    bys_calendar_options options = BYS_CALENDAR_OPTIONS_INIT;
    double percent = 0.0;
    options.check.threads = args->threads;
    options.check.directions = args->directions;
    options.check.strict = args->strict;
    options.check.progress = args->quiet ? NULL : cli_progress_tick;
    options.check.user = &progress;
    const int wrong = cli_number(&percent, "--reserve", args->reserve, 1.0, 95.0);
    if (wrong != CLI_OK)
        return wrong;
    options.reserve = percent / 100.0;
    bys_calendar *calendar = NULL;
    bys_error err = {0};
    const bys_rc rc = bys_calendar_run(&calendar, site, &options, messages, &err);
    cli_progress_end(&progress);
    bys_messages_sort(messages);
    if (rc != BYS_OK)
        return cli_faults(messages, &err, args);
    if (!args->quiet)
        cli_show_messages(messages, BYS_WARNING);
    const int status = finish(calendar, args);
    bys_calendar_free(calendar);
    return status;
}

int cli_calendar(const cli_args *args)
{
    return cli_on_site(args, run);
}
