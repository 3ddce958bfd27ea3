// SPDX-License-Identifier: GPL-3.0-or-later
#include "design/csv.h"
#include "base/codes.h"

#include <string.h>

char *bys_csv_trim(char *text)
{
    text += strspn(text, " \t");
    for (size_t n = strlen(text); n && (text[n - 1] == ' ' || text[n - 1] == '\t'); n--)
        text[n - 1] = '\0';
    return text;
}

int bys_csv_split(char **fields, int most, char *line)
{
    int n = 0;
    for (char *next = line; next;) {
        char *comma = strchr(next, ',');
        if (comma)
            *comma = '\0';
        if (n < most)
            fields[n] = next;
        n++;
        next = comma ? comma + 1 : NULL;
    }
    return n;
}

bys_place bys_csv_place(int file, int line, const char *start, const char *at)
{
    int column = 1;
    for (const char *c = start; c < at; c++)
        column += ((unsigned char)*c & 0xC0) != 0x80;
    return (bys_place){file, line, column};
}

void bys_csv_lines(char *bytes, void (*take)(void *user, char *line, int number), void *user)
{
    int number = 0;
    if (!strncmp(bytes, "\xEF\xBB\xBF", 3))
        bytes += 3;
    for (char *line = bytes; line;) {
        char *end = strchr(line, '\n');
        if (end)
            *end = '\0';
        const size_t n = strlen(line);
        if (n && line[n - 1] == '\r')
            line[n - 1] = '\0';
        take(user, line, ++number);
        line = end ? end + 1 : NULL;
    }
}

// The unit is read as the quantity "1 kgf".
int bys_csv_unit(double *factor, char *bracket, bys_dim dim, bys_text *why)
{
    bys_text one = {0};
    char *end = bracket ? strchr(bracket, ']') : NULL;
    if (end)
        *end = '\0';
    bys_text_addf(&one, "1 %s", end ? bys_csv_trim(bracket + 1) : "");
    const int code = one.failed ? BYS_M_number : bys_quantity_read(factor, one.data, dim, why);
    bys_text_free(&one);
    return code;
}
