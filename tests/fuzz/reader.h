// SPDX-License-Identifier: GPL-3.0-or-later
// One run of the site reader over given bytes.
#ifndef BYS_TESTS_FUZZ_READER_H
#define BYS_TESTS_FUZZ_READER_H

#include <byssus/base.h>

/// Reads the bytes as a site file. Returns what is wrong with the reader's answer, NULL if
/// nothing is; `heard` (may be NULL) gets all messages, one a line. Static storage.
const char *fuzz_reader(const unsigned char *bytes, size_t n, bys_text *heard);

#endif
