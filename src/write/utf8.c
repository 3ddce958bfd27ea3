// SPDX-License-Identifier: GPL-3.0-or-later
#include "write/utf8.h"

#include <stdint.h>

static size_t wanted(unsigned char first)
{
    return first < 0x80 ? 1 : first >= 0xC2 && first < 0xE0 ? 2
           : first >= 0xE0 && first < 0xF0 ? 3
           : first >= 0xF0 && first < 0xF5 ? 4
                                           : 0;
}

// Overlong forms, surrogates and values past U+10FFFF show in the second byte (Unicode table 3-7).
static int second_is_right(unsigned char first, unsigned char second)
{
    unsigned char low = first == 0xE0 ? 0xA0 : first == 0xF0 ? 0x90 : 0x80;
    unsigned char high = first == 0xED ? 0x9F : first == 0xF4 ? 0x8F : 0xBF;
    return second >= low && second <= high;
}

size_t bys_utf8_length(const char *text)
{
    const unsigned char *byte = (const unsigned char *)text;
    size_t n = byte[0] ? wanted(byte[0]) : 0;
    if (n < 2)
        return n;
    if (!second_is_right(byte[0], byte[1]))
        return 0;
    for (size_t i = 2; i < n; i++)
        if ((byte[i] & 0xC0) != 0x80)
            return 0;
    return n;
}

size_t bys_utf8_count(const char *text)
{
    size_t count = 0;
    while (*text) {
        size_t n = bys_utf8_length(text);
        text += n ? n : 1;
        count++;
    }
    return count;
}
