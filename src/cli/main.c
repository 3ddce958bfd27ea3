// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/cli.h"

#include <stdio.h>
#include <string.h>

static const char *const check_examples[] = {
    "byssus check bay.xml                   all cases, verdict and leg table",
    "byssus check bay.xml --to out          also report, tables, plan, places",
    "byssus check bay.xml --strict          unverified values count as not checked", NULL};
static const char *const solve_examples[] = {
    "byssus solve bay.xml --list-cases      ids of all cases",
    "byssus solve bay.xml --case ID         one equilibrium",
    "byssus solve bay.xml --json            the same for programs", NULL};
static const char *const lint_examples[] = {
    "byssus lint bay.xml                    all faults at once, each with its line", NULL};
static const char *const pulltest_examples[] = {
    "byssus pulltest pull1.csv pull2.csv    loads, efficiency, capacity; comparison",
    "byssus pulltest *.csv --to out         also pulltest.json, pulltest.txt, pulltest.svg",
    "byssus pulltest *.csv --kind fractile  5 % fractile of several tests of one anchor", NULL};
static const char *const compare_examples[] = {
    "byssus compare old.xml new.xml         new failures first, floats and legs",
    "byssus compare old.xml new.xml --to out",
    "                                       also compare.html and compare.json", NULL};
static const char *const aslaid_examples[] = {
    "byssus aslaid bay.xml laid.csv         offsets, loads, warps to adjust",
    "byssus aslaid bay.xml laid.csv --to out",
    "                                       also aslaid.html and aslaid.json", NULL};
static const char *const calendar_examples[] = {
    "byssus calendar bay.xml                floats and leg loads month by month",
    "byssus calendar bay.xml --to out       also calendar.html and calendar.json",
    "byssus calendar bay.xml --reserve 30   keep 30 % of the lift instead", NULL};
static const char *const cascade_examples[] = {
    "byssus cascade bay.xml                 what gives way first, and when all is gone",
    "byssus cascade bay.xml --case 50y/090/LAT/w000 --to out",
    "                                       one weather; also cascade.json and cascade.svg", NULL};
static const char *const new_examples[] = {
    "byssus new block > bay.xml             a longline block to start from",
    "byssus new raft-grid > rafts.xml", "byssus new network > cable.xml", NULL};
static const char *const explain_examples[] = {
    "byssus explain E0123                   what a message means and how to mend it",
    "byssus explain                         all messages, one a line", NULL};

#define SWITCH(name, field, help) {name, NULL, help, offsetof(cli_args, field), 0, 0}
#define TEXT(name, value, field, help) {name, value, help, offsetof(cli_args, field), 0, 0}
#define NUMBER(name, field, low, high, help) {name, "N", help, offsetof(cli_args, field), low, high}
#define JSON SWITCH("--json", json, "write JSON to standard output")
#define HELP SWITCH("--help", help, "show this")
#define END {NULL, NULL, NULL, 0, 0, 0}

static const cli_option check_options[] = {
    TEXT("--to", "DIR", to, "write report, tables, drawings and places into DIR"),
    NUMBER("--threads", threads, 1, 1024, "threads; changes no byte of the result"),
    NUMBER("--directions", directions, 1, 360, "directions of current, instead of the site's"),
    TEXT("--conditions", "LIST", conditions,
         "kinds to solve, as lost,cut,fouled; or all"),
    SWITCH("--list-cases", list_cases, "list the cases and their weather, and solve nothing"),
    SWITCH("--cascade", cascade, "also raise the loads until nothing holds"),
    SWITCH("--strict", strict, "checks on unverified values become \"not checked\""),
    SWITCH("--profiles", profiles, "what each installed rule profile asks of the worst leg"),
    SWITCH("--laying-tolerance", laying, "how far off each anchor may be laid; takes longer"),
    JSON,
    SWITCH("--quiet", quiet, "no progress, no warnings"),
    HELP,
    END};
static const cli_option cascade_options[] = {
    TEXT("--case", "ENV", case_id, "raise the loads of this weather; ENV or ENV:STAGE"),
    TEXT("--to", "DIR", to, "write cascade.json, cascade.txt and cascade.svg into DIR"),
    NUMBER("--threads", threads, 1, 1024, "threads; changes no byte of the result"),
    NUMBER("--directions", directions, 1, 360, "directions of current, instead of the site's"),
    JSON,
    SWITCH("--quiet", quiet, "no progress, no warnings"),
    HELP,
    END};
static const cli_option solve_options[] = {
    TEXT("--case", "ID", case_id, "the case to solve; the first if not given"),
    SWITCH("--list-cases", list_cases, "list the ids of all cases and stop"),
    SWITCH("--list-conditions", list_conditions, "list what may end a case's id"),
    SWITCH("--account", account, "also every load by part and kind, against the supports"),
    SWITCH("--friction", friction, "also a study of friction of the legs on the bed"), JSON,
    SWITCH("--quiet", quiet, "no warnings"), HELP, END};
static const cli_option lint_options[] = {
    JSON, SWITCH("--quiet", quiet, "say nothing when the file is sound"), HELP, END};
static const cli_option pulltest_options[] = {
    TEXT("--to", "DIR", to, "write pulltest.json, pulltest.txt and pulltest.svg into DIR"),
    TEXT("--drag", "M", drag, "permitted drag in metres; 2 if not given"),
    TEXT("--at", "M,M", at, "drags in metres at which to list the load"),
    TEXT("--kind", "KIND", kind, "capacity wanted: ultimate, fractile or proof; never mixed"),
    TEXT("--variation", "V", variation, "coefficient of variation known beforehand, as 0.3"),
    SWITCH("--normal", normal, "fractile of a normal instead of a log-normal distribution"),
    TEXT("--roll-out", "SHARE", roll_out, "fall from the peak that is a roll-out; usually 0.3"),
    JSON,
    SWITCH("--quiet", quiet, "no warnings"),
    HELP,
    END};
static const cli_option compare_options[] = {
    TEXT("--to", "DIR", to, "write compare.html and compare.json into DIR"),
    NUMBER("--threads", threads, 1, 1024, "threads; changes no byte of the result"),
    NUMBER("--directions", directions, 1, 360, "directions of current, instead of the sites'"),
    SWITCH("--strict", strict, "checks on unverified values become \"not checked\""),
    JSON,
    SWITCH("--quiet", quiet, "no progress, no warnings"),
    HELP,
    END};
static const cli_option aslaid_options[] = {
    TEXT("--to", "DIR", to, "write aslaid.html and aslaid.json into DIR"),
    TEXT("--tolerance", "M", tolerance, "radius of every anchor's box in metres"),
    NUMBER("--threads", threads, 1, 1024, "threads; changes no byte of the result"),
    NUMBER("--directions", directions, 1, 360, "directions of current, instead of the site's"),
    SWITCH("--strict", strict, "checks on unverified values become \"not checked\""),
    JSON,
    SWITCH("--quiet", quiet, "no progress, no warnings"),
    HELP,
    END};
static const cli_option calendar_options[] = {
    TEXT("--to", "DIR", to, "write calendar.html and calendar.json into DIR"),
    TEXT("--reserve", "PERCENT", reserve, "float lift to be kept, instead of the site's"),
    NUMBER("--threads", threads, 1, 1024, "threads; changes no byte of the result"),
    NUMBER("--directions", directions, 1, 360, "directions of current, instead of the site's"),
    SWITCH("--strict", strict, "checks on unverified values become \"not checked\""),
    JSON,
    SWITCH("--quiet", quiet, "no progress, no warnings"),
    HELP,
    END};
static const cli_option plain_options[] = {JSON, HELP, END};

const cli_command cli_commands[] = {
    {"check", "SITE", true, "solve all cases and judge every leg", check_examples, check_options,
     cli_check, false},
    {"solve", "SITE", true, "one equilibrium: positions, tensions, reactions", solve_examples,
     solve_options, cli_solve, false},
    {"lint", "SITE", true, "find the faults of a site file, without solving", lint_examples,
     lint_options, cli_lint, false},
    {"pulltest", "RECORD...", true, "reduce records of anchor pull tests", pulltest_examples,
     pulltest_options, cli_pulltest, true},
    {"compare", "BEFORE AFTER", true, "the same lease twice, side by side", compare_examples,
     compare_options, cli_compare, CLI_TWO},
    {"cascade", "SITE", true, "raise the loads: what gives way, in order",
     cascade_examples, cascade_options, cli_cascade, false},
    {"aslaid", "SITE POSITIONS", true, "where the anchors really went, and what that does",
     aslaid_examples, aslaid_options, cli_aslaid, CLI_TWO},
    {"calendar", "SITE", true, "floats and leg loads month by month, floats to add",
     calendar_examples, calendar_options, cli_calendar, CLI_ONE},
    {"new", "KIND", true, "a site file to start from: block, raft-grid, network",
     new_examples, plain_options, cli_new, false},
    {"explain", "CODE", false, "what a message means", explain_examples, plain_options,
     cli_explain, false},
};
const int cli_command_count = (int)(sizeof cli_commands / sizeof cli_commands[0]);

static const cli_command *find_command(const char *name)
{
    for (int i = 0; i < cli_command_count; i++)
        if (!strcmp(cli_commands[i].name, name))
            return &cli_commands[i];
    return NULL;
}

static int unknown_command(const char *name)
{
    enum { MOST = 32 };
    const char *names[MOST];
    for (int i = 0; i < cli_command_count; i++)
        names[i] = cli_commands[i].name;
    const char *near = cli_nearest(name, names, cli_command_count);
    if (near)
        return cli_say(BYS_EUSAGE, "there is no command \"%s\"; did you mean \"%s\"?", name, near);
    return cli_say(BYS_EUSAGE, "there is no command \"%s\"; byssus --help lists them", name);
}

static int help(const char *name)
{
    const cli_command *command = name ? find_command(name) : NULL;
    if (name && !command)
        return unknown_command(name);
    if (command)
        cli_help_command(command);
    else
        cli_help_program();
    return fflush(stdout) == 0 ? CLI_OK : BYS_EIO;
}

int main(int argc, char **argv)
{
    if (argc < 2) {
        return cli_say(BYS_EUSAGE, "say a command: byssus check SITE; byssus --help lists them");
    }
    if (!strcmp(argv[1], "--version")) {
        puts("byssus " BYS_VERSION);
        return fflush(stdout) == 0 ? CLI_OK : BYS_EIO;
    }
    if (!strcmp(argv[1], "--help") || !strcmp(argv[1], "-h") || !strcmp(argv[1], "help"))
        return help(argc > 2 ? argv[2] : NULL);
    const cli_command *command = find_command(argv[1]);
    if (!command)
        return unknown_command(argv[1]);
    cli_args args = {0};
    int rc = cli_parse(&args, command, argc - 2, argv + 2);
    if (rc != CLI_OK)
        return rc;
    if (args.help)
        return help(command->name);
    if ((command->operand_needed && !args.operand) ||
        (command->many == CLI_TWO && args.operand_count < 2))
        return cli_say(BYS_EUSAGE, "%s wants %s%s; byssus %s --help shows how", command->name,
                       command->many == CLI_TWO ? "" : "a ", command->operand, command->name);
    return command->run(&args);
}
