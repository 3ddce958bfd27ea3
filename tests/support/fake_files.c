// SPDX-License-Identifier: GPL-3.0-or-later
// Writes the result files of a made-up design into a directory: fake_files DIR [LINES [VERDICT
// [hostile]]]. For tests that look at files from outside.
#include "support/fake_design.h"

#include <byssus/write.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static int write_state(const char *dir)
{
    char path[4096];
    bys_error err = {0};
    bys_solution *solution = fake_solution_new();
    bys_text text = {0};
    snprintf(path, sizeof path, "%s/state.json", dir);
    bys_write_solution_json(&text, solution);
    bys_rc rc = bys_text_write_file(&text, path, &err);
    bys_text_free(&text);
    fake_solution_free(solution);
    return rc == BYS_OK ? 0 : 1;
}

int main(int argc, char **argv)
{
    if (argc < 2)
        return 64;
    fake_options options = {argc > 2 ? atoi(argv[2]) : 12, argc > 3 ? argv[3] : "fail",
                            argc > 4 && !strcmp(argv[4], "hostile")};
    bys_error err = {0};
    bys_design *design = fake_design_new(&options);
    bys_rc rc = bys_write_directory(design, argv[1], &err);
    if (rc != BYS_OK)
        fprintf(stderr, "%s\n", err.text);
    bys_text text = {0};
    bys_write_terminal(&text, design, 80, false);
    fputs(text.data, stdout);
    bys_text_free(&text);
    fake_design_free(design);
    return rc == BYS_OK ? write_state(argv[1]) : 1;
}
