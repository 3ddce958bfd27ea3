// SPDX-License-Identifier: GPL-3.0-or-later
// Text that comes from a file and goes to a terminal.
#ifndef BYS_CLEAN_H
#define BYS_CLEAN_H

/// Makes one printable line of it, in place: control characters become blanks, and bytes that are no
/// UTF-8 (a letter that was cut in two) become question marks.
void bys_clean_line(char *text);

#endif
