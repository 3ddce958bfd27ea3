// SPDX-License-Identifier: GPL-3.0-or-later
// Every faulty file of tests/badinput gives exactly the messages that stand beside it.
#include "support/suite.h"
#include <byssus/site.h>

#include <dirent.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#define FOLDER BYS_SITEFILES "/../tests/badinput"

static char *slurp(const char *path)
{
    FILE *file = fopen(path, "rb");
    if (!file)
        return NULL;
    static char text[1 << 16];
    size_t n = fread(text, 1, sizeof text - 1, file);
    text[n] = '\0';
    fclose(file);
    return text;
}

// Faults, warnings and notes of one file, a line each; the file must be refused.
static void read_messages(bys_text *out, const char *path)
{
    bys_messages *list = NULL;
    bys_site *site = NULL;
    bys_error err = {0};
    ck_assert_int_eq(bys_messages_new(&list), BYS_OK);
    bys_rc rc = bys_site_read(&site, path, NULL, list, &err);
    ck_assert_msg(rc == BYS_EINPUT && !site, "%s: wanted status 65, got %d", path, rc);
    ck_assert_int_eq(err.rc, BYS_EINPUT);
    ck_assert_msg(strstr(err.text, path) != NULL, "%s is not named in \"%s\"", path, err.text);
    for (size_t i = 0; i < bys_messages_count(list); i++) {
        const bys_message *message = bys_messages_at(list, i);
        bys_message_format(out, list, message);
        bys_text_add(out, "\n");
        ck_assert_msg(bys_message_explain(message->code) != NULL, "%d is not explained",
                      message->code);
    }
    ck_assert(!out->failed);
    bys_messages_free(list);
}

static int is_xml(const struct dirent *entry)
{
    size_t n = strlen(entry->d_name);
    return n > 4 && strcmp(entry->d_name + n - 4, ".xml") == 0;
}

START_TEST(each_file_gives_its_messages)
{
    ck_assert_int_eq(chdir(FOLDER), 0);
    struct dirent **entries = NULL;
    int n = scandir(".", &entries, is_xml, alphasort);
    ck_assert_int_ge(n, 35); // as many as were written; a lost folder must not pass
    for (int i = 0; i < n; i++) {
        char wanted[300];
        snprintf(wanted, sizeof wanted, "%.*s.expected", (int)strlen(entries[i]->d_name) - 4,
                 entries[i]->d_name);
        const char *expected = slurp(wanted);
        ck_assert_msg(expected != NULL, "%s is missing", wanted);
        bys_text got = {0};
        read_messages(&got, entries[i]->d_name);
        ck_assert_msg(got.data && strcmp(got.data, expected) == 0,
                      "%s gives\n%sinstead of\n%s", entries[i]->d_name, got.data, expected);
        bys_text_free(&got);
        free(entries[i]);
    }
    free(entries);
}
END_TEST

// The file with 10 different faults: 10 messages of different numbers, each with line and column.
START_TEST(ten_faults_at_once)
{
    ck_assert_int_eq(chdir(FOLDER), 0);
    bys_messages *list = NULL;
    bys_site *site = NULL;
    ck_assert_int_eq(bys_messages_new(&list), BYS_OK);
    ck_assert_int_eq(bys_site_read(&site, "ten-faults.xml", NULL, list, NULL), BYS_EINPUT);
    ck_assert_uint_eq(bys_messages_count(list), 10);
    ck_assert_uint_eq(bys_messages_faults(list), 10);
    for (size_t i = 0; i < 10; i++) {
        const bys_message *a = bys_messages_at(list, i);
        ck_assert_int_gt(a->place.line, 0);
        ck_assert_int_gt(a->place.column, 1);
        for (size_t k = 0; k < i; k++)
            ck_assert_int_ne(a->code, bys_messages_at(list, k)->code);
    }
    bys_messages_free(list);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("badinput");
    suite_test(s, each_file_gives_its_messages);
    suite_test(s, ten_faults_at_once);
    return suite_run(s, NULL);
}
