// SPDX-License-Identifier: GPL-3.0-or-later
// Reading a site from a text or a file in a test, and a folder that goes with the test.
#ifndef BYS_TESTS_READING_H
#define BYS_TESTS_READING_H

#include "site/site.h"
#include "support/suite.h"
#include <byssus/site.h>

#include <ftw.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

typedef struct {
    bys_messages *messages;
    bys_site *site;
    bys_rc rc;
    bys_error err;
} reading;

static inline reading read_path(const char *path)
{
    reading r = {0};
    ck_assert_int_eq(bys_messages_new(&r.messages), BYS_OK);
    r.rc = bys_site_read(&r.site, path, NULL, r.messages, &r.err);
    return r;
}

static inline void close_reading(reading *r)
{
    bys_site_free(r->site);
    bys_messages_free(r->messages);
    *r = (reading){0};
}

// Every message as one text; static storage.
static inline const char *all_messages(const reading *r)
{
    static char out[20000];
    bys_text text = {0};
    for (size_t i = 0; i < bys_messages_count(r->messages); i++) {
        bys_message_format(&text, r->messages, bys_messages_at(r->messages, i));
        bys_text_add(&text, "\n");
    }
    snprintf(out, sizeof out, "%s", text.data ? text.data : "");
    bys_text_free(&text);
    return out;
}

static inline size_t count_code(const reading *r, int code)
{
    size_t n = 0;
    for (size_t i = 0; i < bys_messages_count(r->messages); i++)
        n += bys_messages_at(r->messages, i)->code == code;
    return n;
}

static char folder[64];

static inline int remove_one(const char *path, const struct stat *info, int kind, struct FTW *where)
{
    (void)info, (void)kind, (void)where;
    return remove(path);
}

static inline void remove_folder(void)
{
    if (*folder && chdir("/") == 0)
        nftw(folder, remove_one, 8, FTW_DEPTH | FTW_PHYS);
    *folder = '\0';
}

static inline void make_folder(void)
{
    remove_folder();
    atexit(remove_folder); // each test is a process of its own
    snprintf(folder, sizeof folder, "/tmp/byssus-test-XXXXXX");
    ck_assert_ptr_nonnull(mkdtemp(folder));
    ck_assert_int_eq(chdir(folder), 0);
}

static inline void write_bytes(const char *path, const void *bytes, size_t n)
{
    FILE *file = fopen(path, "wb");
    ck_assert_ptr_nonnull(file);
    ck_assert_uint_eq(fwrite(bytes, 1, n, file), n);
    ck_assert_int_eq(fclose(file), 0);
}

static inline reading read_text(const char *text)
{
    make_folder();
    write_bytes("site.xml", text, strlen(text));
    return read_path("site.xml");
}

static inline void expect_clean(const reading *r, const char *what)
{
    ck_assert_msg(r->rc == BYS_OK && r->site, "%s: %s\n%s", what, r->err.text, all_messages(r));
}

#endif
