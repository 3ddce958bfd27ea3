// SPDX-License-Identifier: GPL-3.0-or-later
// byssus solve: one equilibrium.
#include "cli/cli.h"

#include <byssus/design.h>
#include <byssus/write.h>

#include <string.h>

static void add_case_array(bys_text *out, const char *lines)
{
    bys_text_add(out, "[");
    for (const char *line = lines; *line;) {
        const size_t n = strcspn(line, "\n");
        bys_text id = {0};
        bys_text_add_bytes(&id, line, n);
        bys_text_add(out, line == lines ? "\n " : ",\n ");
        bys_write_json_string(out, id.data ? id.data : "");
        out->failed = out->failed || id.failed;
        bys_text_free(&id);
        line += n + (line[n] == '\n');
    }
    bys_text_add(out, "\n]\n");
}

static int list_cases(const bys_site *site, bys_messages *messages, const cli_args *args)
{
    bys_text lines = {0};
    bys_error err = {0};
    const bys_rc rc = args->list_conditions ? bys_condition_list(&lines, site, messages, &err)
                                            : bys_case_list(&lines, site, messages, &err);
    if (rc != BYS_OK) {
        bys_text_free(&lines);
        return cli_faults(messages, &err, args);
    }
    if (!args->json)
        return cli_print(&lines, CLI_OK);
    bys_text array = {0};
    array.failed = lines.failed;
    add_case_array(&array, lines.data ? lines.data : "");
    bys_text_free(&lines);
    return cli_print(&array, CLI_OK);
}

static int solve(const bys_site *site, bys_messages *messages, const cli_args *args)
{
    bys_solution *solution = NULL;
    bys_error err = {0};
    const char *id = args->case_id ? args->case_id : "";
    const bys_rc rc = args->friction ? bys_solution_friction(&solution, site, id, messages, &err)
                                     : bys_solution_run(&solution, site, id, messages, &err);
    bys_messages_sort(messages);
    if (rc != BYS_OK)
        return cli_faults(messages, &err, args);
    if (!args->quiet)
        cli_show_messages(messages, BYS_WARNING);
    bys_text text = {0};
    if (args->json)
        bys_write_solution_json(&text, solution);
    else
        bys_write_solution_text(&text, solution, cli_width());
    if (args->account && !args->json)
        bys_write_account_text(&text, &solution->account, cli_width());
    const int status =
        cli_print(&text, solution->status == BYS_STABLE ? CLI_OK : CLI_INCOMPLETE);
    bys_solution_free(solution);
    return status;
}

int cli_solve(const cli_args *args)
{
    return cli_on_site(args, args->list_cases || args->list_conditions ? list_cases : solve);
}
