// SPDX-License-Identifier: GPL-3.0-or-later
// demo_accounts EVERY EVERY_LOST SITE...: solves every EVERY-th intact case and every EVERY_LOST-th
// case with a leg lost of the named demo sites, and asks that the load account equals what the
// supports take to 1e-6 of the load. TAP on standard output.
#include <byssus/design.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct { int cases, wrong; double worst; char first[1000]; } tally;

static void look(tally *t, const bys_site *site, const char *id, bys_messages *messages)
{
    bys_solution *s = NULL;
    bys_error err = {0};
    t->cases++;
    const bys_rc rc = bys_solution_run(&s, site, id, messages, &err);
    // a case that is not stable has no equilibrium to compare
    const bool fine = rc == BYS_OK && s->account.row_count > 0 &&
                      (s->status != BYS_STABLE || s->account.gap <= 1e-6);
    if (rc == BYS_OK && s->status == BYS_STABLE)
        t->worst = fmax(t->worst, s->account.gap);
    if (!fine && !t->wrong++)
        snprintf(t->first, sizeof t->first, "%s: gap %g %s", id, s ? s->account.gap : NAN,
                 err.text);
    bys_solution_free(s);
}

static void each_case(tally *t, const bys_site *site, char *lines, const int every[2],
                      bys_messages *messages)
{
    int count[2] = {0, 0};
    for (char *line = strtok(lines, "\n"); line; line = strtok(NULL, "\n")) {
        const int lost = strstr(line, ":lost:") != NULL;
        if (every[lost] > 0 && count[lost]++ % every[lost] == 0)
            look(t, site, line, messages);
    }
}

int main(int argc, char **argv)
{
    int wrong = 0;
    const int every[2] = {argc > 3 ? atoi(argv[1]) : 0, argc > 3 ? atoi(argv[2]) : 0};
    for (int i = 3; i < argc; i++) {
        bys_messages *messages = NULL;
        bys_site *site = NULL;
        bys_text lines = {0};
        bys_error err = {0};
        tally t = {0};
        if (bys_messages_new(&messages) == BYS_OK &&
            bys_site_read(&site, argv[i], NULL, messages, &err) == BYS_OK &&
            bys_case_list(&lines, site, messages, &err) == BYS_OK)
            each_case(&t, site, lines.data, every, messages);
        const bool good = t.cases > 0 && t.wrong == 0;
        const char *slash = strrchr(argv[i], '/');
        wrong += !good;
        printf("%s %d - %s: %d cases, worst gap %.1e\n", good ? "ok" : "not ok", i - 2,
               slash ? slash + 1 : argv[i], t.cases, t.worst);
        if (!good)
            printf("# %d wrong; first %s%s\n", t.wrong, t.first, err.text);
        bys_text_free(&lines);
        bys_site_free(site);
        bys_messages_free(messages);
    }
    printf("1..%d\n", argc - 3);
    return wrong > 0 || argc < 4;
}
