// SPDX-License-Identifier: GPL-3.0-or-later
// byssus pulltest: reduce records of anchor pull tests.
#include "cli/cli.h"

#include <byssus/pulltest.h>
#include <byssus/write.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { MOST_DRAGS = 32 };

static int read_drags(double drags[MOST_DRAGS], int *count, const char *text)
{
    for (const char *at = text; at;) {
        const size_t n = strcspn(at, ",");
        if (*count == MOST_DRAGS || !cli_read_number(&drags[(*count)++], at, n, 0.0, 1e4))
            return cli_say(BYS_EUSAGE, "--at wants up to %d drags in metres, as in 0.5,1,2, not "
                                       "\"%s\"", (int)MOST_DRAGS, text);
        at = at[n] ? at + n + 1 : NULL;
    }
    return CLI_OK;
}

static int read_kind(bys_capacity_kind *kind, const char *text)
{
    static const char *const words[] = {"ultimate", "fractile", "proof"};
    for (int i = 0; i < 3; i++)
        if (text && !strcmp(text, words[i]))
            *kind = (bys_capacity_kind)(BYS_CAPACITY_ULTIMATE + i);
    if (!text || *kind != BYS_CAPACITY_ANY)
        return CLI_OK;
    const char *near = cli_nearest(text, words, 3);
    return cli_say(BYS_EUSAGE, "--kind is ultimate, fractile or proof, not \"%s\"%s%s%s", text,
                   near ? "; did you mean \"" : "", near ? near : "", near ? "\"?" : "");
}

static int read_options(bys_pulltest_options *o, double drags[MOST_DRAGS], const cli_args *args)
{
    int rc = cli_number(&o->permitted_drag_m, "--drag", args->drag, 0.0, 1e4);
    if (rc == CLI_OK)
        rc = cli_number(&o->roll_out_share, "--roll-out", args->roll_out, 0.01, 0.99);
    if (rc == CLI_OK)
        rc = cli_number(&o->variation, "--variation", args->variation, 0.001, 5.0);
    if (rc == CLI_OK)
        rc = read_kind(&o->kind, args->kind);
    if (rc == CLI_OK)
        rc = read_drags(drags, &o->at_count, args->at);
    o->at_m = o->at_count ? drags : NULL;
    o->normal = args->normal;
    return rc;
}

static int finish(const bys_pulltest *result, const cli_args *args)
{
    bys_error err = {0};
    if (args->to && bys_write_pulltest_directory(result, args->to, &err) != BYS_OK)
        return cli_say_error(&err);
    bys_text text = {0};
    if (args->json)
        bys_write_pulltest_json(&text, result);
    else
        bys_write_pulltest_text(&text, result, cli_width());
    const int rc = cli_print(&text, bys_pulltest_exit(result));
    if (args->to && !args->quiet && rc <= CLI_INCOMPLETE)
        fprintf(stderr, "byssus: wrote %s/pulltest.json, %s/pulltest.txt%s%s%s\n", args->to,
                args->to, result->comparable ? ", " : "; no chart, as the tests do not compare",
                result->comparable ? args->to : "", result->comparable ? "/pulltest.svg" : "");
    return rc;
}

int cli_pulltest(const cli_args *args)
{
    double drags[MOST_DRAGS];
    bys_pulltest_options options = BYS_PULLTEST_OPTIONS_INIT;
    bys_error err = {0};
    const int wrong = read_options(&options, drags, args);
    if (wrong != CLI_OK)
        return wrong;
    if (args->to && bys_write_directory_check(args->to, &err) != BYS_OK)
        return cli_say_error(&err);
    bys_messages *messages = NULL;
    if (bys_messages_new(&messages) != BYS_OK)
        return cli_say(BYS_ENOMEM, "out of memory");
    bys_pulltest *result = NULL;
    const bys_rc rc = bys_pulltest_run(&result, args->operands, args->operand_count, &options,
                                       messages, &err);
    bys_messages_sort(messages);
    if (rc == BYS_OK && !args->quiet)
        cli_show_messages(messages, BYS_WARNING);
    const int status = rc == BYS_OK ? finish(result, args) : cli_faults(messages, &err, args);
    bys_pulltest_free(result);
    bys_messages_free(messages);
    return status;
}
