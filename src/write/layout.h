// SPDX-License-Identifier: GPL-3.0-or-later
// Text in columns of a fixed width.
#ifndef BYS_WRITE_LAYOUT_H
#define BYS_WRITE_LAYOUT_H

#include <byssus/base.h>

/// Adds `text` in exactly `width` characters: padded, or cut with an ellipsis; right-aligned when
/// asked. Line breaks and control bytes become blanks.
void bys_layout_cell(bys_text *out, const char *text, int width, bool right);
/// Adds `text` wrapped at blanks to `width`, first line after `first`, others after `rest`; ends
/// with a line break.
void bys_layout_wrap(bys_text *out, const char *text, int width, const char *first,
                     const char *rest);

#endif
