// SPDX-License-Identifier: GPL-3.0-or-later
// Solves one case of a site and prints the force of the gear on each support.
//
//     cc anchors.c $(pkg-config --cflags --libs byssus) -o anchors
//     ./anchors my-lease.xml [CASE]
//
// Exit status: 0 if the case stands in stable equilibrium, 2 if it does not.
#include <byssus/design.h>

#include <stdio.h>

static int print_supports(const bys_solution *solution)
{
    printf("case %s: %s %s\n", solution->case_id, bys_status_name(solution->status),
           solution->reason);
    if (solution->status != BYS_STABLE)
        return 2;
    puts("support          east kN  north kN     up kN");
    for (int i = 0; i < solution->support_count; i++) {
        const bys_support_row *s = &solution->supports[i];
        printf("%-14s %9.3f %9.3f %9.3f\n", s->id, s->fx / 1000.0, s->fy / 1000.0, s->fz / 1000.0);
    }
    return 0;
}

int main(int argc, char **argv)
{
    if (argc < 2 || argc > 3) {
        fputs("usage: anchors SITE [CASE]\n", stderr);
        return BYS_EUSAGE;
    }
    bys_messages *messages;
    if (bys_messages_new(&messages) != BYS_OK)
        return BYS_ENOMEM;
    bys_site *site = NULL;
    bys_solution *solution = NULL;
    bys_error error = {0};
    bys_rc rc = bys_site_read(&site, argv[1], NULL, messages, &error);
    if (rc == BYS_OK)
        rc = bys_solution_run(&solution, site, argc > 2 ? argv[2] : "", messages, &error);
    int status = rc;
    if (rc == BYS_OK)
        status = print_supports(solution);
    else
        fprintf(stderr, "%s: %s; %zu faults in the file\n", argv[1], error.text,
                bys_messages_faults(messages));
    bys_solution_free(solution);
    bys_site_free(site);
    bys_messages_free(messages);
    return status;
}
