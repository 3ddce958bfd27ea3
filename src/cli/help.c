// SPDX-License-Identifier: GPL-3.0-or-later
// Help, examples first, from the tables.
#include "cli/cli.h"

#include <stdio.h>
#include <string.h>

static void show_examples(const char *const *examples)
{
    puts("Examples");
    for (int i = 0; examples[i]; i++)
        printf("  %s\n", examples[i]);
}

void cli_help_program(void)
{
    static const char *const examples[] = {
        "byssus new block > bay.xml         a site file to start from",
        "byssus lint bay.xml                its faults",
        "byssus check bay.xml --to out      leg by leg what must hold, and a report",
        "byssus explain E0123               what a message means", NULL};
    puts("byssus: moorings of longline blocks and raft grids, leg by leg\n");
    show_examples(examples);
    puts("\nCommands");
    for (int i = 0; i < cli_command_count; i++) {
        char left[40];
        snprintf(left, sizeof left, "%s %s", cli_commands[i].name, cli_commands[i].operand);
        printf("  %-21s %s\n", left, cli_commands[i].summary);
    }
    puts("\nbyssus COMMAND --help shows the options of one.\n"
         "byssus --version says which this is.\n");
    puts("Exit status\n"
         "  0  every demanded check passes\n"
         "  1  a check fails\n"
         "  2  incomplete: a case is not stable, or a demanded check was not checked\n"
         "  64 usage   65 faulty input   66 input missing   70 internal fault\n"
         "  71 out of memory   73 output cannot be made   74 writing failed");
}

void cli_help_command(const cli_command *command)
{
    show_examples(command->examples);
    printf("\nUsage\n  byssus %s %s%s%s [OPTIONS]\n    %s\n\nOptions\n", command->name,
           command->operand_needed ? "" : "[", command->operand,
           command->operand_needed ? "" : "]", command->summary);
    for (const cli_option *o = command->options; o->name; o++) {
        char left[40];
        snprintf(left, sizeof left, "%s%s%s", o->name, o->value ? " " : "",
                 o->value ? o->value : "");
        printf("  %-15s %s\n", left, o->help);
    }
}
