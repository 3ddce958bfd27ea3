// SPDX-License-Identifier: GPL-3.0-or-later
// The result files of pull tests, side by side in one directory.
#include <byssus/pulltest.h>
#include <byssus/write.h>

#include <errno.h>
#include <string.h>
#include <sys/stat.h>

static bys_rc write_one(const bys_text *text, const char *dir, const char *name, bys_error *err)
{
    bys_text path = {0};
    bys_text_addf(&path, "%s/%s", dir, name);
    const bool failed = path.failed || text->failed;
    const bys_rc rc = failed ? bys_error_set(err, BYS_ENOMEM, 0, "%s: out of memory", name)
                             : bys_text_write_file(text, path.data, err);
    bys_text_free(&path);
    return rc;
}

bys_rc bys_write_pulltest_directory(const bys_pulltest *result, const char *dir, bys_error *err)
{
    bys_text json = {0}, text = {0}, chart = {0};
    bys_rc rc = bys_write_directory_check(dir, err);
    if (rc == BYS_OK && mkdir(dir, 0777) != 0 && errno != EEXIST)
        rc = bys_error_set(err, BYS_ECREATE, 0, "%s: cannot be made: %s", dir, strerror(errno));
    bys_write_pulltest_json(&json, result);
    bys_write_pulltest_text(&text, result, 100);
    const bool drawn = bys_write_pulltest_svg(&chart, result);
    if (rc == BYS_OK)
        rc = write_one(&json, dir, "pulltest.json", err);
    if (rc == BYS_OK)
        rc = write_one(&text, dir, "pulltest.txt", err);
    if (rc == BYS_OK && drawn)
        rc = write_one(&chart, dir, "pulltest.svg", err);
    bys_text_free(&json);
    bys_text_free(&text);
    bys_text_free(&chart);
    return rc;
}
