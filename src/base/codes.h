// SPDX-License-Identifier: GPL-3.0-or-later
// The numbers of all messages by name: BYS_M_unknown_unit is 203. From messages.def.
#ifndef BYS_CODES_H
#define BYS_CODES_H

enum {
#define BYS_MESSAGE(name, number, severity, brief, long_text) BYS_M_##name = number,
#include "base/messages.def"
#undef BYS_MESSAGE
};

/// One line of what a message number means; NULL if the number is unknown.
const char *bys_message_brief(int code);
/// Its letter: 'E', 'W' or 'N'; 0 if the number is unknown.
char bys_message_letter(int code);

#endif
