// SPDX-License-Identifier: GPL-3.0-or-later
// The result files of pull tests.
#include "write/files.h"
#include <byssus/pulltest.h>

bys_rc bys_write_pulltest_directory(const bys_pulltest *result, const char *dir, bys_error *err)
{
    bys_result_file files[] = {
        {"pulltest.json", {0}}, {"pulltest.txt", {0}}, {"pulltest.svg", {0}}};
    bys_write_pulltest_json(&files[0].text, result);
    bys_write_pulltest_text(&files[1].text, result, 100);
    const bool drawn = bys_write_pulltest_svg(&files[2].text, result);
    const bys_rc rc = bys_write_files(files, drawn ? 3 : 2, dir, err);
    if (!drawn)
        bys_text_free(&files[2].text);
    return rc;
}
