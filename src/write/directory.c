// SPDX-License-Identifier: GPL-3.0-or-later
// The result files of a command, side by side in one directory.
#include "write/files.h"
#include <byssus/write.h>

#include <errno.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

// "a/b/" -> "a", "b" -> ".", "/b" -> "/"; false if memory ran out.
static bool add_parent(bys_text *out, const char *path)
{
    size_t n = strlen(path);
    while (n > 1 && path[n - 1] == '/')
        n--;
    while (n > 0 && path[n - 1] != '/')
        n--;
    while (n > 1 && path[n - 1] == '/')
        n--;
    bys_text_add_bytes(out, n ? path : ".", n ? n : 1);
    return !out->failed;
}

static bys_rc check_parent(const char *dir, bys_error *err)
{
    bys_text parent = {0};
    bys_rc rc = BYS_OK;
    if (!add_parent(&parent, dir))
        rc = bys_error_set(err, BYS_ENOMEM, 0, "out of memory");
    else if (access(parent.data, W_OK | X_OK) != 0)
        rc = bys_error_set(err, BYS_ECREATE, 0, "%s: cannot be made: %s: %s", dir, parent.data,
                           strerror(errno));
    bys_text_free(&parent);
    return rc;
}

bys_rc bys_write_directory_check(const char *dir, bys_error *err)
{
    struct stat found;
    if (!*dir)
        return bys_error_set(err, BYS_ECREATE, 0, "the name of the directory is empty");
    if (stat(dir, &found) != 0)
        return errno == ENOENT ? check_parent(dir, err)
                               : bys_error_set(err, BYS_ECREATE, 0, "%s: %s", dir, strerror(errno));
    if (!S_ISDIR(found.st_mode))
        return bys_error_set(err, BYS_ECREATE, 0, "%s: is not a directory", dir);
    if (access(dir, W_OK | X_OK) != 0)
        return bys_error_set(err, BYS_ECREATE, 0, "%s: cannot be written: %s", dir,
                             strerror(errno));
    return BYS_OK;
}

static bys_rc make_directory(const char *dir, bys_error *err)
{
    if (mkdir(dir, 0777) == 0 || errno == EEXIST)
        return bys_write_directory_check(dir, err);
    return bys_error_set(err, BYS_ECREATE, 0, "%s: cannot be made: %s", dir, strerror(errno));
}

static bys_rc write_one(const bys_text *text, const char *dir, const char *name, bys_error *err)
{
    bys_text path = {0};
    bys_text_addf(&path, "%s/%s", dir, name);
    bys_rc rc = path.failed ? bys_error_set(err, BYS_ENOMEM, 0, "%s: out of memory", name)
                            : bys_text_write_file(text, path.data, err);
    bys_text_free(&path);
    return rc;
}

bys_rc bys_write_files(bys_result_file *files, int count, const char *dir, bys_error *err)
{
    bys_rc rc = BYS_OK;
    for (int i = 0; i < count && rc == BYS_OK; i++)
        if (files[i].text.failed)
            rc = bys_error_set(err, BYS_ENOMEM, 0, "%s: out of memory", files[i].name);
    if (rc == BYS_OK)
        rc = make_directory(dir, err);
    for (int i = 0; i < count; i++) {
        if (rc == BYS_OK)
            rc = write_one(&files[i].text, dir, files[i].name, err);
        bys_text_free(&files[i].text);
    }
    return rc;
}

bys_rc bys_write_directory(const bys_design *design, const char *dir, bys_error *err)
{
    bys_result_file files[] = {{"legs.csv", {0}}, {"legs.json", {0}}, {"report.html", {0}}};
    bys_write_legs_csv(&files[0].text, design);
    bys_write_legs_json(&files[1].text, design);
    bys_write_report_html(&files[2].text, design);
    return bys_write_files(files, 3, dir, err);
}
