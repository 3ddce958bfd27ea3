// SPDX-License-Identifier: GPL-3.0-or-later
// One line on standard error: how far, time left, worst so far.
#include "cli/cli.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

int cli_progress_tick(void *user, size_t done, size_t total, double worst)
{
    cli_progress *progress = user;
    const double time = now();
    const char *term = getenv("TERM");
    if (!isatty(STDERR_FILENO) || (term && !strcmp(term, "dumb")) || total == 0)
        return 0;
    if (progress->started <= 0.0 || done < progress->done)
        progress->started = time;
    progress->done = done;
    if (time - progress->last < 0.1)
        return 0;
    progress->last = time;
    progress->shown = true;
    const double share = (double)done / (double)total, spent = time - progress->started;
    fprintf(stderr, "\r\x1b[K%zu of %zu, %.0f %%", done, total, 100.0 * share);
    if (share > 0.02 && spent > 1.0)
        fprintf(stderr, ", about %.0f s left", ceil(spent * (1.0 - share) / share));
    if (worst > 0.0)
        fprintf(stderr, ", worst use so far %.2f", worst);
    fflush(stderr);
    return 0;
}

void cli_progress_end(cli_progress *progress)
{
    if (progress->shown)
        fputs("\r\x1b[K", stderr);
    progress->shown = false;
}
