// SPDX-License-Identifier: GPL-3.0-or-later
#include "write/layout.h"
#include "write/utf8.h"

#include <byssus/write.h>

#include <string.h>

// One printable character; control bytes and stray bytes cannot reach the terminal.
static size_t add_character(bys_text *out, const char *text)
{
    size_t n = bys_utf8_length(text);
    unsigned char byte = (unsigned char)*text;
    bool c1 = byte == 0xC2 && n == 2 && (unsigned char)text[1] < 0xA0;
    if (n == 0)
        bys_text_add(out, "?");
    else if (byte < 0x20 || byte == 0x7F || c1)
        bys_text_add(out, " ");
    else
        bys_text_add_bytes(out, text, n);
    return n ? n : 1;
}

void bys_write_plain(bys_text *out, const char *string)
{
    bys_text_add(out, "");
    while (*string) {
        if (*string == '\t')
            bys_text_add_bytes(out, string++, 1);
        else
            string += add_character(out, string);
    }
}

static void add_blanks(bys_text *out, int n)
{
    for (; n > 0; n--)
        bys_text_add(out, " ");
}

void bys_layout_cell(bys_text *out, const char *text, int width, bool right)
{
    int count = (int)bys_utf8_count(text);
    bool cut = count > width;
    int keep = cut ? width - 1 : count;
    if (right)
        add_blanks(out, width - count);
    for (int i = 0; i < keep; i++)
        text += add_character(out, text);
    if (cut && width > 0)
        bys_text_add(out, "\xE2\x80\xA6");
    if (!right)
        add_blanks(out, width - count);
}

static size_t word_length(const char *text)
{
    return strcspn(text, " \n\t");
}

static int add_word(bys_text *out, const char *word, size_t n)
{
    int count = 0;
    for (const char *end = word + n; word < end; count++)
        word += add_character(out, word);
    return count;
}

static int word_width(const char *word, size_t n)
{
    int count = 0;
    for (const char *end = word + n; word < end; count++) {
        size_t step = bys_utf8_length(word);
        word += step ? step : 1;
    }
    return count;
}

void bys_layout_wrap(bys_text *out, const char *text, int width, const char *first,
                     const char *rest)
{
    bys_text_add(out, first);
    int column = (int)bys_utf8_count(first);
    bool blank = true; // nothing on this line yet
    for (text += strspn(text, " \n\t"); *text; text += strspn(text, " \n\t")) {
        size_t n = word_length(text);
        if (!blank && column + 1 + word_width(text, n) > width) {
            bys_text_add(out, "\n");
            bys_text_add(out, rest);
            column = (int)bys_utf8_count(rest);
            blank = true;
        }
        if (!blank)
            bys_text_add(out, " ");
        column += (blank ? 0 : 1) + add_word(out, text, n);
        blank = false;
        text += n;
    }
    bys_text_add(out, "\n");
}
