// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/clean.h"

#include <stdbool.h>
#include <stddef.h>

// Bytes of the UTF-8 character at p, 0 if it is not whole or not one. The text ends with NUL, which
// is no continuation byte, so that reading stops there.
static size_t whole_character(const unsigned char *p)
{
    if (p[0] < 0x80)
        return 1;
    size_t n = p[0] >= 0xC2 && p[0] <= 0xDF ? 2 : p[0] >= 0xE0 && p[0] <= 0xEF ? 3
             : p[0] >= 0xF0 && p[0] <= 0xF4 ? 4 : 0;
    for (size_t i = 1; i < n; i++)
        if ((p[i] & 0xC0) != 0x80)
            return 0;
    return n;
}

void bys_clean_line(char *text)
{
    for (unsigned char *p = (unsigned char *)text; *p;) {
        size_t n = whole_character(p);
        bool control = (n == 1 && (*p < 0x20 || *p == 0x7F)) ||
                       (n == 2 && p[0] == 0xC2 && p[1] < 0xA0);
        if (n == 0)
            *p++ = '?';
        else if (control)
            for (; n > 0; n--)
                *p++ = ' ';
        else
            p += n;
    }
}
