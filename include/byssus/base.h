// SPDX-License-Identifier: GPL-3.0-or-later
// byssus: return codes, errors, messages, text buffers, progress.
//
// Conventions of the whole library
// - functions are called bys_noun_verb; the out parameter comes first; a bys_rc comes back;
// - `bys_error *err` is owned by the caller, may be NULL, is written only on failure;
// - the library never prints, never exits, keeps no global state and never reads the locale;
// - every _free function accepts NULL;
// - numbers are SI doubles (m, N, kg, s, rad) unless a name says otherwise (_kN, _deg).
#ifndef BYSSUS_BASE_H
#define BYSSUS_BASE_H

#include <stdbool.h>
#include <stddef.h>

#ifdef __cplusplus
extern "C" {
#endif

#define BYS_VERSION "0.1.0"

/// Did the call work? Says nothing about equilibrium (bys_status) or about gear (bys_verdict).
typedef enum {
    BYS_OK = 0,
    BYS_EUSAGE = 64,    ///< the caller asked for something that does not exist
    BYS_EINPUT = 65,    ///< the site file or another input is faulty: see the message list
    BYS_ENOINPUT = 66,  ///< an input file cannot be opened
    BYS_EINTERNAL = 70, ///< a fault of the library itself
    BYS_ENOMEM = 71,    ///< out of memory
    BYS_ECREATE = 73,   ///< an output file cannot be created
    BYS_EIO = 74,       ///< reading or writing failed half way
    BYS_ECANCEL = 75    ///< a callback returned non-zero
} bys_rc;

/// What did equilibrium come to?
typedef enum {
    BYS_STABLE = 0,    ///< found, audited, and no small push grows
    BYS_UNSTABLE,      ///< a balance of forces exists but a small push would leave it
    BYS_INDETERMINATE, ///< the position of something is free within the tolerance
    BYS_CANNOT_STAND   ///< no balance was found: something is not held
} bys_status;

/// Does the gear pass?
typedef enum {
    BYS_PASS = 0,
    BYS_FAIL,
    BYS_NOT_CHECKED, ///< demanded, but a factor, a value or a stable case is missing
    BYS_REPORTED     ///< solved and shown, not demanded by the rule profile
} bys_verdict;

/// How well is a number known on which a check rests?
typedef enum {
    BYS_BASIS_READ = 0, ///< seen in the named published source
    BYS_BASIS_MEMORY,   ///< remembered from the named source, not seen: unverified
    BYS_BASIS_USER,     ///< stated by the user with a reason
    BYS_BASIS_TEST,     ///< from the user's own test
    BYS_BASIS_ASSUMED   ///< no source: unverified
} bys_basis;

/// "read", "memory", "user", "test", "assumed"; static storage.
const char *bys_basis_name(bys_basis basis);
/// "pass", "fail", "not checked", "reported"; static storage.
const char *bys_verdict_name(bys_verdict verdict);
/// "stable", "unstable", "indeterminate", "cannot-stand"; static storage.
const char *bys_status_name(bys_status status);

/// Failure of one call. Plain struct, owned by the caller, no allocation inside.
typedef struct {
    bys_rc rc;
    int code;       ///< number of the message (E0123), 0 if none
    char text[480]; ///< one line: which thing, what is wrong, how to mend it
} bys_error;

/// Fills err (if not NULL) and returns rc, so that `return bys_error_set(...)` reads well.
bys_rc bys_error_set(bys_error *err, bys_rc rc, int code, const char *format, ...)
    __attribute__((format(printf, 4, 5)));

/// Where in an input something was written. line and column start at 1; 0 = not known.
typedef struct {
    int file; ///< index into the message list's file table
    int line;
    int column;
} bys_place;

/// How grave is a message?
typedef enum { BYS_FAULT = 0, BYS_WARNING, BYS_NOTE } bys_severity;

/// One message about an input.
typedef struct {
    bys_severity severity;
    int code; ///< printed as E0123, W0123 or N0123
    bys_place place;
    char *text; ///< one line, owned by the list
} bys_message;

/// Growing list of messages. Opaque; owned by whoever made it.
typedef struct bys_messages bys_messages;

bys_rc bys_messages_new(bys_messages **out);
void bys_messages_free(bys_messages *list);
size_t bys_messages_count(const bys_messages *list);
size_t bys_messages_faults(const bys_messages *list);
/// Borrowed; messages stand sorted by file, line, column once bys_messages_sort was called.
const bys_message *bys_messages_at(const bys_messages *list, size_t i);
void bys_messages_sort(bys_messages *list);
/// Registers a file name (copied) and returns its index, or the index it already has.
int bys_messages_file(bys_messages *list, const char *name);
const char *bys_messages_file_name(const bys_messages *list, int file);
/// Adds one message; the text is formatted and copied. Out of memory is remembered by the list.
void bys_messages_add(bys_messages *list, bys_severity severity, int code, bys_place place,
                      const char *format, ...) __attribute__((format(printf, 5, 6)));

/// Growing text. Zero-initialise; free with bys_text_free. After a failed append `failed` stays
/// true and later appends do nothing, so that a writer needs one test at its end.
typedef struct {
    char *data; ///< NUL-terminated once anything was appended; NULL before
    size_t length, capacity;
    bool failed;
} bys_text;

void bys_text_free(bys_text *text);
void bys_text_add(bys_text *text, const char *bytes);
void bys_text_add_bytes(bys_text *text, const char *bytes, size_t n);
void bys_text_addf(bys_text *text, const char *format, ...) __attribute__((format(printf, 2, 3)));
/// Shortest decimal that reads back as the same double; "null" for NaN and infinities.
void bys_text_add_double(bys_text *text, double value);
/// Fixed number of decimals, independent of the locale, never "-0.00".
void bys_text_add_fixed(bys_text *text, double value, int decimals);

/// "file:line:column: E0123: text" for one message, without a line break.
void bys_message_format(bys_text *out, const bys_messages *list, const bys_message *message);
/// Long explanation of a message number for `byssus explain`; NULL if the number is unknown.
const char *bys_message_explain(int code);
/// Number of known message codes and the i-th of them, in rising order.
size_t bys_message_code_count(void);
int bys_message_code_at(size_t i);

/// Writes `text` to `path` by way of a temporary file beside it and a rename.
bys_rc bys_text_write_file(const bys_text *text, const char *path, bys_error *err);

/// Progress of a long call. Return non-zero to cancel.
typedef int (*bys_progress_fn)(void *user, size_t done, size_t total, double worst);

#ifdef __cplusplus
}
#endif
#endif
