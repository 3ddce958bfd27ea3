// SPDX-License-Identifier: GPL-3.0-or-later
// The result directory: made when it is not there, refused in words when it cannot be.
#include "support/fake_design.h"
#include "support/suite.h"

#include <byssus/write.h>

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static char base[] = "/tmp/byssus-write-XXXXXX";
static char path[4096];

static const char *under(const char *name)
{
    snprintf(path, sizeof path, "%s/%s", base, name);
    return path;
}

static void set_up(void)
{
    ck_assert_ptr_nonnull(mkdtemp(base));
}

static void remove_all(const char *dir)
{
    DIR *open_dir = opendir(dir);
    for (struct dirent *entry; open_dir && (entry = readdir(open_dir));) {
        char name[4400];
        if (!strcmp(entry->d_name, ".") || !strcmp(entry->d_name, ".."))
            continue;
        snprintf(name, sizeof name, "%s/%s", dir, entry->d_name);
        remove_all(name);
        remove(name);
    }
    if (open_dir)
        closedir(open_dir);
}

static void tear_down(void)
{
    remove_all(base);
    rmdir(base);
}

static int files_in(const char *dir)
{
    int count = 0;
    DIR *open_dir = opendir(dir);
    ck_assert_ptr_nonnull(open_dir);
    for (struct dirent *entry; (entry = readdir(open_dir));)
        count += entry->d_name[0] != '.';
    closedir(open_dir);
    return count;
}

START_TEST(makes_it_and_writes_its_files)
{
    bys_error err = {0};
    bys_design *design = fake_design_new(&(fake_options){3, "pass", false});
    char dir[4096];
    snprintf(dir, sizeof dir, "%s", under("new"));
    ck_assert_int_eq(bys_write_directory_check(dir, &err), BYS_OK);
    for (int twice = 0; twice < 2; twice++) { // over older files as well
        ck_assert_int_eq(bys_write_directory(design, dir, &err), BYS_OK);
        ck_assert_int_eq(files_in(dir), 12); // and no temporary file stays
    }
    bys_text names = {0};
    bys_write_directory_names(&names, design);
    ck_assert_str_eq(names.data, "legs.csv cut-list.csv legs.json deployment.html "
                                 "report.html plan.dxf plan.svg "
                                 "proof-loads.csv proof-loads.txt places.gpx "
                                 "places.kml places.geojson");
    bys_text_free(&names);
    design->frame.placed = false; // the files of the earlier run must not stay
    ck_assert_int_eq(bys_write_directory(design, dir, &err), BYS_OK);
    ck_assert_int_eq(files_in(dir), 9);
    bys_write_directory_names(&names, design);
    ck_assert_str_eq(names.data, "legs.csv cut-list.csv legs.json deployment.html "
                                 "report.html plan.dxf plan.svg "
                                 "proof-loads.csv proof-loads.txt");
    bys_text_free(&names);
    fake_design_free(design);
}
END_TEST

START_TEST(refuses_in_words)
{
    bys_error err = {0};
    FILE *file = fopen(under("file"), "w");
    ck_assert_ptr_nonnull(file);
    fclose(file);
    ck_assert_int_eq(bys_write_directory_check(under("file"), &err), BYS_ECREATE);
    ck_assert_ptr_nonnull(strstr(err.text, "is not a directory"));
    ck_assert_int_eq(bys_write_directory_check(under("no/such/parent"), &err), BYS_ECREATE);
    ck_assert_ptr_nonnull(strstr(err.text, "No such file"));
    ck_assert_int_eq(bys_write_directory_check("", &err), BYS_ECREATE);
    ck_assert_int_eq(bys_write_directory_check(under("new/"), &err), BYS_OK);
    ck_assert_int_eq(files_in(base), 1); // the check itself touches nothing
}
END_TEST

START_TEST(leaves_nothing_when_it_cannot_be_made)
{
    bys_error err = {0};
    bys_design *design = fake_design_new(&(fake_options){1, "pass", false});
    ck_assert_int_eq(bys_write_directory(design, under("no/parent"), &err), BYS_ECREATE);
    ck_assert_int_eq(files_in(base), 0);
    fake_design_free(design);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("directory");
    TCase *tests = tcase_create("directory");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_test(tests, makes_it_and_writes_its_files);
    tcase_add_test(tests, refuses_in_words);
    tcase_add_test(tests, leaves_nothing_when_it_cannot_be_made);
    suite_add_tcase(s, tests);
    return suite_run(s, NULL);
}
