// SPDX-License-Identifier: GPL-3.0-or-later
// Numbers as text, the same in every locale.
#ifndef BYS_NUMBER_H
#define BYS_NUMBER_H
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>

/// snprintf in the C locale, whatever the caller's locale is. Returns what snprintf returns.
int bys_format_list(char *out, size_t size, const char *format, va_list list)
    __attribute__((format(printf, 3, 0)));
int bys_format(char *out, size_t size, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

/// Reads a decimal number ([+-]digits[.digits][e[+-]digits]) at `text`; *used = bytes read.
/// No leading space, no hexadecimal, no inf or nan; false if there is none or it overflows.
bool bys_number_read(double *out, size_t *used, const char *text);

enum { BYS_NUMBER_SIZE = 40 }; ///< room for any bys_number_shortest
/// Shortest decimal that reads back as the same double; "null" for NaN and infinities.
/// Returns `out`.
const char *bys_number_shortest(char out[BYS_NUMBER_SIZE], double value);

#endif
