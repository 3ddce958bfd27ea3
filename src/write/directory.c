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

// ---- what a check writes -----------------------------------------------------------------------

static const struct {
    const char *name;
    void (*write)(bys_text *, const bys_design *);
    bool needs_place; ///< only where the frame has a place on the Earth
} check_files[] = {{"legs.csv", bys_write_legs_csv, false},
                   {"cut-list.csv", bys_write_cut_list_csv, false},
                   {"legs.json", bys_write_legs_json, false},
                   {"deployment.html", bys_write_deployment_html, false},
                   {"report.html", bys_write_report_html, false},
                   {"plan.dxf", bys_write_dxf, false},
                   {"plan.svg", bys_write_plan_svg, false},
                   {"proof-loads.csv", bys_write_proof_csv, false},
                   {"proof-loads.txt", bys_write_proof_text, false},
                   {"places.gpx", bys_write_gpx, true},
                   {"places.kml", bys_write_kml, true},
                   {"places.geojson", bys_write_geojson, true}};
enum { CHECK_FILES = sizeof check_files / sizeof check_files[0] };

void bys_write_directory_names(bys_text *out, const bys_design *design)
{
    const char *gap = "";
    for (int i = 0; i < CHECK_FILES; i++) {
        if (check_files[i].needs_place && !design->frame.placed)
            continue;
        bys_text_addf(out, "%s%s", gap, check_files[i].name);
        gap = " ";
    }
}

/// A file of an earlier run that this one does not write would tell of another lease.
static bys_rc remove_stale(const char *dir, const char *name, bys_error *err)
{
    bys_text path = {0};
    bys_text_addf(&path, "%s/%s", dir, name);
    bys_rc rc = BYS_OK;
    if (path.failed)
        rc = bys_error_set(err, BYS_ENOMEM, 0, "%s: out of memory", name);
    else if (unlink(path.data) != 0 && errno != ENOENT)
        rc = bys_error_set(err, BYS_EIO, 0, "%s: cannot be removed: %s", path.data,
                           strerror(errno));
    bys_text_free(&path);
    return rc;
}

bys_rc bys_write_directory(const bys_design *design, const char *dir, bys_error *err)
{
    bys_result_file files[CHECK_FILES] = {{0}};
    int count = 0;
    for (int i = 0; i < CHECK_FILES; i++) {
        if (check_files[i].needs_place && !design->frame.placed)
            continue;
        files[count].name = check_files[i].name;
        check_files[i].write(&files[count++].text, design);
    }
    bys_rc rc = bys_write_files(files, count, dir, err);
    for (int i = 0; i < CHECK_FILES && rc == BYS_OK; i++)
        if (check_files[i].needs_place && !design->frame.placed)
            rc = remove_stale(dir, check_files[i].name, err);
    return rc;
}
