// SPDX-License-Identifier: GPL-3.0-or-later
// A Site from text: writes it to a temporary file and reads it as a user's file is read.
#ifndef BYS_TESTS_LEASE_READ_TEXT_H
#define BYS_TESTS_LEASE_READ_TEXT_H

#include "lease/network.h"
#include <byssus/site.h>

#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/// All messages in one text, for failures.
static inline const char *said(const bys_messages *messages) {
    static bys_text text;
    text.length = 0;
    bys_text_add(&text, "");
    for (size_t i = 0; i < bys_messages_count(messages); i++) {
        bys_message_format(&text, messages, bys_messages_at(messages, i));
        bys_text_add(&text, "\n");
    }
    return text.data ? text.data : "";
}

static inline bys_site *read_text(const char *text, bys_messages *messages) {
    char path[] = "/tmp/byssus-test-XXXXXX";
    const int fd = mkstemp(path);
    ck_assert_int_ge(fd, 0);
    FILE *file = fdopen(fd, "w");
    ck_assert_ptr_nonnull(file);
    fputs(text, file);
    ck_assert_int_eq(fclose(file), 0);
    bys_site *site = NULL;
    bys_error err = {0};
    const bys_rc rc = bys_site_read(&site, path, NULL, messages, &err);
    remove(path);
    ck_assert_msg(rc == BYS_OK, "%s\n%s", err.text, said(messages));
    return site;
}

/// Site and Network of one stage, freed together.
typedef struct {
    bys_messages *messages;
    bys_site *site;
    bys_network *net;
    bys_error err;
    bys_rc rc;
} built;

/// `change` spoils the Site after reading, for faults that the reader would already find; NULL.
static inline built build_changed(const char *text, const char *stage, void (*change)(bys_site *)) {
    built b = {0};
    ck_assert_int_eq(bys_messages_new(&b.messages), BYS_OK);
    b.site = read_text(text, b.messages);
    if (change)
        change(b.site);
    b.rc = bys_network_expand(&b.net, b.site, stage ? bys_site_stage(b.site, stage) : -1,
                              b.messages, &b.err);
    return b;
}

static inline built build(const char *text, const char *stage) {
    return build_changed(text, stage, NULL);
}

static inline built build_well(const char *text, const char *stage) {
    built b = build(text, stage);
    ck_assert_msg(b.rc == BYS_OK, "%s\n%s", b.err.text, said(b.messages));
    return b;
}

static inline void drop(built *b) {
    bys_network_free(b->net);
    bys_site_free(b->site);
    bys_messages_free(b->messages);
}

#define INDEX_OF(kind)                                                                             \
    static inline int kind##_index(const bys_network *net, const char *id) {                       \
        for (int i = 0; i < net->kind##_count; i++)                                                \
            if (!strcmp(net->kind##s[i].id, id))                                                   \
                return i;                                                                          \
        ck_abort_msg("there is no " #kind " '%s'", id);                                            \
    }
INDEX_OF(point)
INDEX_OF(section)
INDEX_OF(leg)
INDEX_OF(anchor)
INDEX_OF(line)
#undef INDEX_OF

#endif
