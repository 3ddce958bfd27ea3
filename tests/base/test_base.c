// SPDX-License-Identifier: GPL-3.0-or-later
// Errors, messages, text, arena, threads, hash.
#include "base/arena.h"
#include "base/codes.h"
#include "base/pool.h"
#include "base/sha256.h"
#include "support/suite.h"
#include <byssus/base.h>

#include <stdatomic.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

START_TEST(errors_are_filled_or_skipped)
{
    bys_error err = {0};
    ck_assert_int_eq(bys_error_set(NULL, BYS_EIO, 5, "%d", 1), BYS_EIO);
    ck_assert_int_eq(bys_error_set(&err, BYS_EINPUT, 123, "line %d", 7), BYS_EINPUT);
    ck_assert_int_eq(err.rc, BYS_EINPUT);
    ck_assert_int_eq(err.code, 123);
    ck_assert_str_eq(err.text, "line 7");
    char longer[2000];
    memset(longer, 'x', sizeof longer - 1);
    longer[sizeof longer - 1] = '\0';
    bys_error_set(&err, BYS_EINPUT, 1, "%s", longer);
    ck_assert_uint_eq(strlen(err.text), sizeof err.text - 1);
}
END_TEST

// Line ends and controls cannot come through, nor half a letter.
START_TEST(messages_are_one_clean_line)
{
    bys_messages *list = NULL;
    ck_assert_int_eq(bys_messages_new(&list), BYS_OK);
    bys_messages_add(list, BYS_FAULT, 201, (bys_place){0, 1, 1}, "a\nb\tc\x7f|\xC2\x9B|%.3s|",
        "\xC3\xA9\xC3\xA9");
    ck_assert_str_eq(bys_messages_at(list, 0)->text, "a b c |  |\xC3\xA9?|");
    bys_messages_free(list);
    bys_error err;
    bys_error_set(&err, BYS_EINPUT, 1, "a\nb");
    ck_assert_str_eq(err.text, "a b");
}
END_TEST

START_TEST(names_of_the_three_answers)
{
    ck_assert_str_eq(bys_basis_name(BYS_BASIS_READ), "read");
    ck_assert_str_eq(bys_basis_name(BYS_BASIS_ASSUMED), "assumed");
    ck_assert_str_eq(bys_verdict_name(BYS_NOT_CHECKED), "not checked");
    ck_assert_str_eq(bys_status_name(BYS_CANNOT_STAND), "cannot-stand");
    ck_assert_str_eq(bys_verdict_name((bys_verdict)99), "not checked"); // never a pass
}
END_TEST

START_TEST(every_code_is_explained_once)
{
    ck_assert_uint_ge(bys_message_code_count(), 60);
    for (size_t i = 0; i < bys_message_code_count(); i++) {
        int code = bys_message_code_at(i);
        ck_assert_msg(i == 0 || code > bys_message_code_at(i - 1), "%d stands out of order", code);
        const char *brief = bys_message_brief(code), *text = bys_message_explain(code);
        ck_assert(brief && text && strncmp(text, brief, strlen(brief)) == 0);
        ck_assert_msg(strlen(text) > strlen(brief) + 20, "%d is not explained", code);
        ck_assert_msg(brief[strlen(brief) - 1] != '.', "%d: full stop", code);
        ck_assert(strchr("EWN", bys_message_letter(code)) != NULL);
    }
    ck_assert_ptr_null(bys_message_explain(0));
    ck_assert_ptr_null(bys_message_explain(9999));
    ck_assert_int_eq(bys_message_code_at(100000), 0);
}
END_TEST

START_TEST(messages_are_sorted_and_printed)
{
    bys_messages *list = NULL;
    ck_assert_int_eq(bys_messages_new(&list), BYS_OK);
    int a = bys_messages_file(list, "a.xml"), b = bys_messages_file(list, "b.xml");
    ck_assert_int_eq(bys_messages_file(list, "a.xml"), a);
    bys_messages_add(list, BYS_FAULT, 203, (bys_place){b, 1, 1}, "in b");
    bys_messages_add(list, BYS_WARNING, 351, (bys_place){a, 9, 3}, "late %d", 1);
    bys_messages_add(list, BYS_NOTE, 357, (bys_place){a, 2, 8}, "second");
    bys_messages_add(list, BYS_FAULT, 201, (bys_place){a, 2, 8}, "third");
    bys_messages_add(list, BYS_FAULT, 101, (bys_place){a, 0, 0}, "whole");
    bys_messages_sort(list);
    ck_assert_uint_eq(bys_messages_count(list), 5);
    ck_assert_uint_eq(bys_messages_faults(list), 3);
    bys_text text = {0};
    for (size_t i = 0; i < 5; i++) {
        bys_message_format(&text, list, bys_messages_at(list, i));
        bys_text_add(&text, "|");
    }
    ck_assert_str_eq(text.data, "a.xml: E0101: whole|a.xml:2:8: N0357: second|a.xml:2:8: E0201: "
                                "third|"
                                "a.xml:9:3: W0351: late 1|b.xml:1:1: E0203: in b|");
    ck_assert_ptr_null(bys_messages_at(list, 5));
    bys_text_free(&text);
    bys_messages_free(list);
    bys_messages_free(NULL);
}
END_TEST

START_TEST(text_grows)
{
    bys_text text = {0};
    for (int i = 0; i < 5000; i++)
        bys_text_addf(&text, "%d,", i % 10);
    ck_assert_uint_eq(text.length, 10000);
    ck_assert_uint_eq(strlen(text.data), 10000);
    char longer[1000];
    memset(longer, 'y', sizeof longer - 1);
    longer[sizeof longer - 1] = '\0';
    bys_text_addf(&text, "%s", longer);
    ck_assert_uint_eq(text.length, 10999);
    bys_text_free(&text);
    ck_assert_ptr_null(text.data);
    bys_text_add_fixed(&text, -0.004, 2);
    bys_text_add(&text, " ");
    bys_text_add_fixed(&text, -0.006, 2);
    bys_text_add(&text, " ");
    bys_text_add_fixed(&text, NAN, 2);
    ck_assert_str_eq(text.data, "0.00 -0.01 null");
    bys_text_free(&text);
    bys_text_free(NULL);
}
END_TEST

START_TEST(files_appear_whole_or_not_at_all)
{
    char folder[] = "/tmp/byssus-test-XXXXXX", path[100], missing[100];
    ck_assert_ptr_nonnull(mkdtemp(folder));
    snprintf(path, sizeof path, "%s/out.txt", folder);
    snprintf(missing, sizeof missing, "%s/none/out.txt", folder);
    bys_text text = {0};
    bys_text_add(&text, "hello\n");
    bys_error err = {0};
    ck_assert_int_eq(bys_text_write_file(&text, path, &err), BYS_OK);
    ck_assert_int_eq(bys_text_write_file(&text, missing, &err), BYS_ECREATE);
    ck_assert(strstr(err.text, missing) != NULL);
    FILE *file = fopen(path, "rb");
    char back[20] = "";
    ck_assert_ptr_nonnull(file);
    ck_assert_uint_eq(fread(back, 1, sizeof back - 1, file), 6);
    fclose(file);
    ck_assert_str_eq(back, "hello\n");
    struct stat info;
    ck_assert_int_eq(stat(path, &info), 0);
    ck_assert_uint_eq(info.st_mode & 0400, 0400);
    ck_assert_int_eq(unlink(path), 0);
    ck_assert_int_eq(rmdir(folder), 0); // nothing else was left there
    bys_text_free(&text);
}
END_TEST

START_TEST(arena_gives_zeroed_aligned_memory)
{
    bys_arena *arena = bys_arena_new();
    ck_assert_ptr_nonnull(arena);
    for (size_t n = 1; n < 3000; n += 7) {
        unsigned char *p = bys_arena_get(arena, n);
        ck_assert_ptr_nonnull(p);
        ck_assert_uint_eq((uintptr_t)p % _Alignof(max_align_t), 0);
        for (size_t i = 0; i < n; i++)
            ck_assert_int_eq(p[i], 0);
        memset(p, 255, n);
    }
    ck_assert_ptr_nonnull(bys_arena_get(arena, 1000000));
    ck_assert_ptr_nonnull(bys_arena_get(arena, 0));
    ck_assert_ptr_null(bys_arena_get(arena, SIZE_MAX));
    ck_assert_str_eq(bys_arena_copy(arena, "text"), "text");
    ck_assert_str_eq(bys_arena_format(arena, "%s/%02d", "L05", 3), "L05/03");
    bys_arena_free(arena);
    bys_arena_free(NULL);
}
END_TEST

typedef struct {
    int slot[1000];
    atomic_int calls;
    int workers, stop_at, ticks, tick_stop;
} jobs;

static int one_job(void *user, size_t job, int worker)
{
    jobs *j = user;
    ck_assert(worker >= 0 && worker < j->workers);
    j->slot[job]++;
    atomic_fetch_add(&j->calls, 1);
    return j->stop_at > 0 && (int)job == j->stop_at;
}

static int one_tick(void *user, size_t done, size_t total)
{
    jobs *j = user;
    ck_assert_uint_le(done, total);
    return ++j->ticks == j->tick_stop;
}

START_TEST(pool_does_each_job_once)
{
    for (int threads = 1; threads <= 4; threads++) {
        jobs j = {.workers = threads};
        ck_assert_int_eq(bys_pool_run(one_job, &j, 1000, threads, one_tick, NULL), BYS_OK);
        for (int i = 0; i < 1000; i++)
            ck_assert_int_eq(j.slot[i], 1);
        ck_assert_int_gt(j.ticks, 0);
    }
    jobs none = {.workers = 1};
    ck_assert_int_eq(bys_pool_run(one_job, &none, 0, 0, NULL, NULL), BYS_OK);
    ck_assert_int_ge(bys_pool_threads(), 1);
}
END_TEST

START_TEST(pool_can_be_cancelled)
{
    bys_error err = {0};
    jobs j = {.workers = 2, .stop_at = 10};
    ck_assert_int_eq(bys_pool_run(one_job, &j, 1000, 2, NULL, &err), BYS_ECANCEL);
    ck_assert_int_eq(err.rc, BYS_ECANCEL);
    jobs k = {.workers = 1, .tick_stop = 5};
    ck_assert_int_eq(bys_pool_run(one_job, &k, 1000, 1, one_tick, &err), BYS_ECANCEL);
    ck_assert_int_eq(atomic_load(&k.calls), 5);
}
END_TEST

// FIPS 180-4 example "abc" and the empty text, from memory; the third by sha256sum of coreutils.
START_TEST(sha256_of_known_texts)
{
    char hex[65];
    bys_sha256_hex(hex, "abc", 3);
    ck_assert_str_eq(hex, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    bys_sha256_hex(hex, "", 0);
    ck_assert_str_eq(hex, "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
    char many[1000];
    memset(many, 'a', sizeof many);
    bys_sha256_hex(hex, many, sizeof many);
    ck_assert_str_eq(hex, "41edece42d63e8d9bf515a9ba6932e1c20cbc9f5a5d134645adb5db1b9737ea3");
}
END_TEST

int main(void)
{
    Suite *s = suite_create("base");
    suite_test(s, errors_are_filled_or_skipped);
    suite_test(s, messages_are_one_clean_line);
    suite_test(s, names_of_the_three_answers);
    suite_test(s, every_code_is_explained_once);
    suite_test(s, messages_are_sorted_and_printed);
    suite_test(s, text_grows);
    suite_test(s, files_appear_whole_or_not_at_all);
    suite_test(s, arena_gives_zeroed_aligned_memory);
    suite_test(s, pool_does_each_job_once);
    suite_test(s, pool_can_be_cancelled);
    suite_test(s, sha256_of_known_texts);
    return suite_run(s, NULL);
}
