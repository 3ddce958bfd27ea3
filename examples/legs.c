// SPDX-License-Identifier: GPL-3.0-or-later
// Checks a lease and prints what each leg carries, the hardest worked leg first.
//
//     cc legs.c $(pkg-config --cflags --libs byssus) -o legs
//     ./legs my-lease.xml
//
// Exit status: as `byssus check`.
#include <byssus/design.h>

#include <math.h>
#include <stdio.h>

static void print_leg(const bys_leg_result *leg)
{
    printf("%-10s %7.1f kN in the line, %7.1f kN along the bed at the anchor, ", leg->id,
           leg->tension_N / 1000.0, leg->anchor.horizontal_N / 1000.0);
    if (isnan(leg->utilisation))
        printf("%s\n", bys_verdict_name(leg->verdict));
    else
        printf("%3.0f %% used, %s\n", 100.0 * leg->utilisation, bys_verdict_name(leg->verdict));
}

static bys_rc check(const char *path, bys_design **out, bys_messages *messages, bys_error *error)
{
    bys_site *site = NULL;
    bys_rc rc = bys_site_read(&site, path, NULL, messages, error);
    if (rc == BYS_OK) {
        const bys_check_options options = BYS_CHECK_OPTIONS_INIT;
        rc = bys_design_run(out, site, &options, messages, error);
    }
    bys_site_free(site);
    return rc;
}

int main(int argc, char **argv)
{
    if (argc != 2) {
        fputs("usage: legs SITE\n", stderr);
        return BYS_EUSAGE;
    }
    bys_messages *messages;
    if (bys_messages_new(&messages) != BYS_OK)
        return BYS_ENOMEM;
    bys_design *design = NULL;
    bys_error error = {0};
    const bys_rc rc = check(argv[1], &design, messages, &error);
    int status = rc;
    if (rc == BYS_OK) {
        for (int i = 0; i < design->leg_count; i++)
            print_leg(&design->legs[design->by_utilisation[i]]);
        printf("%s\n", design->headline);
        status = bys_design_exit(design);
    } else {
        fprintf(stderr, "%s: %s; %zu faults in the file\n", argv[1], error.text,
                bys_messages_faults(messages));
    }
    bys_design_free(design);
    bys_messages_free(messages);
    return status;
}
