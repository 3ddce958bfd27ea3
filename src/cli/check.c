// SPDX-License-Identifier: GPL-3.0-or-later
// byssus check: the main job.
#include "cli/cli.h"

#include <byssus/design.h>
#include <byssus/write.h>

#include <stdio.h>
#include <unistd.h>

static int print_result(const bys_design *design, bool json, int rc)
{
    bys_text text = {0};
    if (json)
        bys_write_legs_json(&text, design);
    else
        bys_write_terminal(&text, design, cli_width(), cli_colour(STDOUT_FILENO));
    return cli_print(&text, rc);
}

static void tell_files(const bys_design *design, const char *dir)
{
    bys_text names = {0};
    bys_write_directory_names(&names, design);
    fprintf(stderr, "byssus: wrote into %s: %s\n", dir, names.data ? names.data : "");
    if (!design->frame.placed)
        fputs("byssus: no positions for chart plotters (GPX, KML, GeoJSON): the site's frame has "
              "no place on the Earth\n", stderr);
    bys_text_free(&names);
}

static int finish(const bys_design *design, const cli_args *args)
{
    bys_error err = {0};
    if (args->to && bys_write_directory(design, args->to, &err) != BYS_OK)
        return cli_say_error(&err);
    const int rc = print_result(design, args->json, bys_design_exit(design));
    if (args->to && !args->quiet && rc <= CLI_INCOMPLETE)
        tell_files(design, args->to);
    return rc;
}

static int run(const bys_site *site, bys_messages *messages, const cli_args *args)
{
    cli_progress progress = {0};
    bys_check_options options = BYS_CHECK_OPTIONS_INIT;
    options.threads = args->threads;
    options.directions = args->directions;
    options.strict = args->strict;
    options.tolerance = args->laying;
    options.conditions = args->conditions;
    options.cascade = args->cascade;
    options.progress = args->quiet ? NULL : cli_progress_tick;
    options.user = &progress;
    bys_design *design = NULL;
    bys_error err = {0};
    bys_rc rc = bys_design_run(&design, site, &options, messages, &err);
    cli_progress_end(&progress);
    bys_messages_sort(messages);
    if (rc != BYS_OK)
        return cli_faults(messages, &err, args);
    if (args->profiles)
        rc = bys_design_profiles(design, args->operand, NULL, &options, &err);
    if (rc != BYS_OK) {
        bys_design_free(design);
        return cli_say_error(&err);
    }
    if (!args->quiet)
        cli_show_messages(messages, BYS_WARNING); // notes: in the report, and by lint
    const int status = finish(design, args);
    bys_design_free(design);
    return status;
}

/// What would be solved.
static int list_cases(const bys_site *site, bys_messages *messages, const cli_args *args)
{
    bys_case_plan *plan = NULL;
    bys_error err = {0};
    const bys_rc rc = bys_case_plan_make(&plan, site, messages, &err);
    bys_messages_sort(messages);
    if (rc != BYS_OK)
        return cli_faults(messages, &err, args);
    if (!args->quiet)
        cli_show_messages(messages, BYS_WARNING);
    bys_text text = {0};
    if (args->json)
        bys_write_case_plan_json(&text, plan);
    else
        bys_write_case_plan_text(&text, plan, cli_width());
    bys_case_plan_free(plan);
    return cli_print(&text, CLI_OK);
}

int cli_check(const cli_args *args)
{
    return cli_on_site(args, args->list_cases ? list_cases : run);
}
