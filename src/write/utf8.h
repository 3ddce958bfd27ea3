// SPDX-License-Identifier: GPL-3.0-or-later
// Walking through text that ought to be UTF-8 and may not be.
#ifndef BYS_WRITE_UTF8_H
#define BYS_WRITE_UTF8_H

#include <stddef.h>

/// Bytes of the well-formed UTF-8 character at `text` (1 to 4), 0 if the bytes there are not one.
size_t bys_utf8_length(const char *text);
/// Characters in `text`; a stray byte counts as one.
size_t bys_utf8_count(const char *text);

#endif
