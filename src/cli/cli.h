// SPDX-License-Identifier: GPL-3.0-or-later
// The command line. It sees the library only through <byssus/...>.
#ifndef BYS_CLI_CLI_H
#define BYS_CLI_CLI_H

#include <byssus/base.h>
#include <byssus/site.h>

enum { CLI_OK = 0, CLI_FAIL = 1, CLI_INCOMPLETE = 2 };
enum { CLI_ONE = 0, CLI_MANY = 1, CLI_TWO = 2 }; ///< operands of a command

/// All that options and operands can say; one struct for all commands.
typedef struct {
    const char *operand; ///< SITE, KIND, CODE, the first RECORD; NULL if none was given
    const char *const *operands; int operand_count; ///< all of them
    const char *to, *case_id, *conditions;
    const char *drag, *at, *roll_out, *variation, *kind; ///< of pulltest
    const char *tolerance; ///< of aslaid
    const char *reserve;   ///< of calendar
    int threads, directions;
    bool strict, profiles, laying, json, quiet, list_cases, list_conditions, account, normal, help;
    bool cascade;        ///< of check
    bool friction;       ///< of solve
} cli_args;

/// One option of one command: parsing, --help and did-you-mean all read this table.
typedef struct {
    const char *name;    ///< "--threads"
    const char *value;   ///< name of its value, "N"; NULL for a switch
    const char *help;
    size_t offset;       ///< into cli_args: bool for a switch, const char * or int for a value
    int low, high;       ///< range of a number; both 0: the value is text
} cli_option;

typedef struct {
    const char *name, *operand; ///< operand: "SITE"; NULL: takes none
    bool operand_needed;
    const char *summary;
    const char *const *examples; ///< ends with NULL
    const cli_option *options;   ///< ends with a NULL name
    int (*run)(const cli_args *args);
    int many;                    ///< CLI_ONE operand at most, CLI_MANY: one or more, CLI_TWO
} cli_command;

extern const cli_command cli_commands[];
extern const int cli_command_count;

int cli_check(const cli_args *args);
int cli_solve(const cli_args *args);
int cli_lint(const cli_args *args);
int cli_new(const cli_args *args);
int cli_explain(const cli_args *args);
int cli_pulltest(const cli_args *args);
int cli_compare(const cli_args *args);
int cli_aslaid(const cli_args *args);
int cli_calendar(const cli_args *args);
int cli_cascade(const cli_args *args);

/// Fills args from argv[0..argc). CLI_OK or BYS_EUSAGE, told on standard error.
/// The operands are moved to the front of argv.
int cli_parse(cli_args *args, const cli_command *command, int argc, char **argv);
/// Plain decimal of n bytes in [low, high]; no locale, no hexadecimal, no sign.
bool cli_read_number(double *out, const char *text, size_t n, double low, double high);
/// The number of an option, CLI_OK with *out as it was if there is none; else BYS_EUSAGE, told.
int cli_number(double *out, const char *name, const char *text, double low, double high);
void cli_help_program(void);
void cli_help_command(const cli_command *command);
/// The candidate nearest to `word`, NULL if none is near.
const char *cli_nearest(const char *word, const char *const *candidates, int count);

/// "byssus: ..." on standard error; returns rc.
int cli_say(int rc, const char *format, ...) __attribute__((format(printf, 2, 3)));
/// Tells err on standard error with its explain hint; returns its rc.
int cli_say_error(const bys_error *err);
/// Writes text to standard output and frees it; `rc`, or BYS_EIO / BYS_ENOMEM when that fails.
int cli_print(bys_text *text, int rc);

/// Columns of the terminal on standard output, 80 if it is none.
int cli_width(void);
/// May standard output / standard error be coloured? A terminal, NO_COLOR not set, TERM not dumb.
bool cli_colour(int fd);

/// Messages with the line of the file and a caret under the column, on standard error: those as
/// grave as `least` or graver.
void cli_show_messages(const bys_messages *messages, bys_severity least);
/// Closes a command that was stopped by faults: shows them (as JSON on standard output too if
/// asked) and returns the status.
int cli_faults(const bys_messages *messages, const bys_error *err, const cli_args *args);

// site.c
/// What a command does with a site that was read; returns an exit status.
typedef int (*cli_site_job)(const bys_site *site, bys_messages *messages, const cli_args *args);
/// Reads the site named by the first operand, does the job, returns the exit status.
int cli_on_site(const cli_args *args, cli_site_job job);

/// Progress on standard error, only when that is a terminal.
typedef struct {
    bool shown;
    double started, last; ///< s, monotonic clock
    size_t done;          ///< when that falls, another run has begun
} cli_progress;
int cli_progress_tick(void *user, size_t done, size_t total, double worst);
void cli_progress_end(cli_progress *progress);

#endif
