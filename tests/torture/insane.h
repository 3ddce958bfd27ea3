// SPDX-License-Identifier: GPL-3.0-or-later
// Layouts that no lease can have: nothing holds them, they sink, their ropes cannot reach.
#ifndef BYS_TESTS_INSANE_H
#define BYS_TESTS_INSANE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/// Writes the site of a seed, reads, expands and, where that is let through, solves it. True if it
/// was refused or called indeterminate or unable to stand with the right item named; else `why`
/// says what happened.
bool insane_is_refused(uint64_t seed, char *why, size_t size);

#endif
