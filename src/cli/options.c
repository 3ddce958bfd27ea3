// SPDX-License-Identifier: GPL-3.0-or-later
// Parsing by table, and the guess at what was meant.
#include "cli/cli.h"

#include <ctype.h>
#include <errno.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>

// Edits (insert, remove, replace) from a to b, words up to 31 bytes; else a large number.
static int distance(const char *a, const char *b)
{
    enum { ROOM = 32 };
    const size_t n = strlen(a), m = strlen(b);
    int row[ROOM];
    if (n >= ROOM || m >= ROOM)
        return INT_MAX;
    for (size_t k = 0; k <= m; k++)
        row[k] = (int)k;
    for (size_t i = 1; i <= n; i++) {
        int corner = row[0]; // row i-1, column k-1
        row[0] = (int)i;
        for (size_t k = 1; k <= m; k++) {
            const int replaced = corner + (a[i - 1] != b[k - 1]);
            const int other = 1 + (row[k] < row[k - 1] ? row[k] : row[k - 1]);
            corner = row[k];
            row[k] = replaced < other ? replaced : other;
        }
    }
    return row[m];
}

const char *cli_nearest(const char *word, const char *const *candidates, int count)
{
    const char *best = NULL;
    int least = 1 + (int)strlen(word) / 3;
    for (int i = 0; i < count; i++) {
        const int here = distance(word, candidates[i]);
        if (here <= least && (!best || here < distance(word, best)))
            best = candidates[i];
    }
    return best;
}

static const cli_option *find(const cli_command *command, const char *name, size_t length)
{
    for (const cli_option *o = command->options; o->name; o++)
        if (strlen(o->name) == length && !memcmp(o->name, name, length))
            return o;
    return NULL;
}

static int unknown(const cli_command *command, const char *word, size_t length)
{
    enum { MOST = 32 };
    const char *names[MOST];
    int count = 0;
    for (const cli_option *o = command->options; o->name && count < MOST; o++)
        names[count++] = o->name;
    char name[64] = "";
    memcpy(name, word, length < sizeof name ? length : sizeof name - 1);
    const char *near = cli_nearest(name, names, count);
    if (near)
        return cli_say(BYS_EUSAGE, "%s has no option \"%s\"; did you mean \"%s\"?", command->name,
                       name, near);
    return cli_say(BYS_EUSAGE, "%s has no option \"%s\"; byssus %s --help lists them",
                   command->name, name, command->name);
}

static int set_number(cli_args *args, const cli_option *option, const char *value)
{
    char *end;
    errno = 0;
    const long number = strtol(value, &end, 10);
    if (errno || end == value || *end || !isdigit((unsigned char)value[0]) ||
        number < option->low || number > option->high)
        return cli_say(BYS_EUSAGE, "%s wants a whole number from %d to %d, not \"%s\"",
                       option->name, option->low, option->high, value);
    *(int *)(void *)((char *)args + option->offset) = (int)number;
    return CLI_OK;
}

static int set(cli_args *args, const cli_option *option, const char *value)
{
    if (option->high)
        return set_number(args, option, value);
    if (!*value)
        return cli_say(BYS_EUSAGE, "the value of %s is empty", option->name);
    *(const char **)(void *)((char *)args + option->offset) = value;
    return CLI_OK;
}

static int take_option(cli_args *args, const cli_command *command, int argc, char **argv, int *i)
{
    const char *word = argv[*i], *equals = strchr(word, '=');
    const size_t length = equals ? (size_t)(equals - word) : strlen(word);
    const cli_option *option = find(command, word, length);
    if (!option)
        return unknown(command, word, length);
    if (!option->value && equals)
        return cli_say(BYS_EUSAGE, "%s takes no value", option->name);
    if (!option->value) {
        *(bool *)((char *)args + option->offset) = true;
        return CLI_OK;
    }
    if (!equals && *i + 1 >= argc)
        return cli_say(BYS_EUSAGE, "%s wants a value: %s %s", option->name, option->name,
                       option->value);
    return set(args, option, equals ? equals + 1 : argv[++*i]);
}

int cli_parse(cli_args *args, const cli_command *command, int argc, char **argv)
{
    bool options = true;
    for (int i = 0; i < argc; i++) {
        if (options && !strcmp(argv[i], "--")) {
            options = false;
        } else if (options && !strcmp(argv[i], "-h")) {
            args->help = true;
        } else if (options && argv[i][0] == '-' && argv[i][1]) {
            const int rc = take_option(args, command, argc, argv, &i);
            if (rc != CLI_OK)
                return rc;
        } else if (command->many != CLI_MANY && args->operand_count > command->many / CLI_TWO) {
            return cli_say(BYS_EUSAGE, "%s takes %s%s; \"%s\" is one too many", command->name,
                           command->many ? "" : "one ", command->operand, argv[i]);
        } else {
            argv[args->operand_count++] = argv[i];
            args->operand = argv[0];
        }
    }
    args->operands = (const char *const *)argv;
    return CLI_OK;
}

// Plain decimal in [low, high]; no locale, no hexadecimal.
bool cli_read_number(double *out, const char *text, size_t n, double low, double high)
{
    double value = 0.0, place = 1.0;
    bool point = false, digits = false;
    for (size_t i = 0; i < n; i++) {
        if (text[i] == '.' && !point) {
            point = true;
        } else if (text[i] >= '0' && text[i] <= '9') {
            digits = true;
            value = 10.0 * value + (text[i] - '0');
            place *= point ? 10.0 : 1.0;
        } else {
            return false;
        }
    }
    *out = value / place;
    return digits && *out >= low && *out <= high;
}

int cli_number(double *out, const char *name, const char *text, double low, double high)
{
    if (!text || cli_read_number(out, text, strlen(text), low, high))
        return CLI_OK;
    return cli_say(BYS_EUSAGE, "%s wants a number from %g to %g, not \"%s\"", name, low, high,
                   text);
}
