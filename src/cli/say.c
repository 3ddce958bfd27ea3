// SPDX-License-Identifier: GPL-3.0-or-later
// What goes to standard output and standard error.
#include "cli/cli.h"

#include <byssus/write.h>

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <unistd.h>

int cli_say(int rc, const char *format, ...)
{
    char line[2048];
    va_list list;
    va_start(list, format);
    vsnprintf(line, sizeof line, format, list);
    va_end(list);
    bys_text plain = {0};
    bys_write_plain(&plain, line);
    fprintf(stderr, "byssus: %s\n", plain.failed ? "out of memory" : plain.data);
    bys_text_free(&plain);
    return rc;
}

int cli_say_error(const bys_error *err)
{
    const int rc = err->rc == BYS_OK ? BYS_EINTERNAL : (int)err->rc;
    cli_say(rc, "%s", *err->text ? err->text : "the library gave no reason");
    if (err->code && bys_message_explain(err->code))
        fprintf(stderr, "byssus: byssus explain E%04d says more\n", err->code);
    return rc;
}

int cli_print(bys_text *text, int rc)
{
    if (text->failed)
        rc = cli_say(BYS_ENOMEM, "out of memory");
    else if (text->length &&
             (fwrite(text->data, 1, text->length, stdout) != text->length || fflush(stdout) != 0))
        rc = cli_say(BYS_EIO, "writing to standard output failed");
    bys_text_free(text);
    return rc;
}

int cli_width(void)
{
    struct winsize size = {0};
    if (isatty(STDOUT_FILENO) && ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col)
        return size.ws_col;
    return 80;
}

bool cli_colour(int fd)
{
    const char *no = getenv("NO_COLOR"), *term = getenv("TERM");
    return isatty(fd) && !(no && *no) && !(term && !strcmp(term, "dumb"));
}
