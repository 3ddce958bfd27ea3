// SPDX-License-Identifier: GPL-3.0-or-later
// The schema for editors and the tables of the manual page, written from the reader's own table.
#ifndef BYS_TESTS_SCHEMA_TEXT_H
#define BYS_TESTS_SCHEMA_TEXT_H
#include <byssus/base.h>

/// kind: "site", "parts" or "rules".
void schema_text_xsd(bys_text *out, const char *kind);
/// The part of man/byssus-site.5 between its two marks.
void schema_text_man(bys_text *out);

#define SCHEMA_MAN_BEGIN ".\\\" The sections from here on are written by schema_files man.\n"
#define SCHEMA_MAN_END ".\\\" End of what schema_files man writes.\n"

#endif
