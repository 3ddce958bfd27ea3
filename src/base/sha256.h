// SPDX-License-Identifier: GPL-3.0-or-later
// Hash of an input, so that a report can name the bytes that it rests on.
#ifndef BYS_SHA256_H
#define BYS_SHA256_H
#include <stddef.h>

/// Lower-case hexadecimal SHA-256 of n bytes.
void bys_sha256_hex(char out[65], const void *bytes, size_t n);

#endif
