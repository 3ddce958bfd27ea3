// SPDX-License-Identifier: GPL-3.0-or-later
// Locale-free reading and printing of numbers. The C locale object is static storage of the
// C library, so that asking for it neither allocates nor fails.
#include "base/number.h"

#include <float.h>
#include <locale.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static locale_t c_locale(void)
{
    return newlocale(LC_ALL_MASK, "C", (locale_t)0);
}

int bys_format_list(char *out, size_t size, const char *format, va_list list)
{
    locale_t c = c_locale();
    locale_t before = c ? uselocale(c) : (locale_t)0;
    int n = vsnprintf(out, size, format, list);
    if (before)
        uselocale(before);
    if (c)
        freelocale(c);
    return n;
}

int bys_format(char *out, size_t size, const char *format, ...)
{
    va_list list;
    va_start(list, format);
    int n = bys_format_list(out, size, format, list);
    va_end(list);
    return n;
}

static size_t digits_at(const char *text)
{
    size_t n = 0;
    while (text[n] >= '0' && text[n] <= '9')
        n++;
    return n;
}

// Length of the decimal number at text, 0 if there is none.
static size_t number_length(const char *text)
{
    size_t n = text[0] == '+' || text[0] == '-' ? 1 : 0;
    size_t whole = digits_at(text + n);
    n += whole;
    if (text[n] == '.') {
        size_t part = digits_at(text + n + 1);
        if (whole + part == 0)
            return 0;
        n += 1 + part;
    } else if (whole == 0) {
        return 0;
    }
    if (text[n] == 'e' || text[n] == 'E') {
        size_t sign = text[n + 1] == '+' || text[n + 1] == '-' ? 1 : 0;
        size_t exponent = digits_at(text + n + 1 + sign);
        if (exponent > 0)
            n += 1 + sign + exponent;
    }
    return n;
}

bool bys_number_read(double *out, size_t *used, const char *text)
{
    size_t n = number_length(text);
    *used = n;
    if (n == 0)
        return false;
    locale_t c = c_locale();
    if (!c)
        return false;
    double value = strtod_l(text, NULL, c);
    freelocale(c);
    if (!isfinite(value))
        return false;
    *out = value;
    return true;
}

// Lays out sign, digits d1 d2 d3 ... and the decimal exponent of d1 as plain or scientific text.
static void lay_out(char *out, bool minus, const char *digits, int count, int exponent)
{
    char *p = out;
    if (minus)
        *p++ = '-';
    if (exponent >= -5 && exponent < 0) {
        *p++ = '0';
        *p++ = '.';
        for (int i = -1; i > exponent; i--)
            *p++ = '0';
        memcpy(p, digits, (size_t)count);
        p += count;
        *p = '\0';
    } else if (exponent >= 0 && exponent < 17) {
        for (int i = 0; i <= exponent || i < count; i++) {
            if (i == exponent + 1)
                *p++ = '.';
            *p++ = i < count ? digits[i] : '0';
        }
        *p = '\0';
    } else {
        *p++ = digits[0];
        if (count > 1) {
            *p++ = '.';
            memcpy(p, digits + 1, (size_t)count - 1);
            p += count - 1;
        }
        bys_format(p, 8, "e%d", exponent);
    }
}

const char *bys_number_shortest(char out[BYS_NUMBER_SIZE], double value)
{
    if (!isfinite(value))
        return strcpy(out, "null");
    if (value == 0)
        return strcpy(out, "0");
    // Any decimal of at most 15 digits survives the way there and back, so that 15 digits with
    // the zeros cut are already the shortest when they read back; subnormals carry fewer digits.
    int precision = fabs(value) < DBL_MIN ? 1 : 15;
    char raw[48], digits[24];
    for (; precision <= 17; precision++) {
        double back = 0;
        size_t used;
        bys_format(raw, sizeof raw, "%.*e", precision - 1, fabs(value));
        if (bys_number_read(&back, &used, raw) && back == fabs(value))
            break;
    }
    int count = 0;
    const char *p = raw;
    for (; *p && *p != 'e'; p++)
        if (*p >= '0' && *p <= '9' && count < 20)
            digits[count++] = *p;
    int exponent = (int)strtol(*p == 'e' ? p + 1 : "0", NULL, 10);
    while (count > 1 && digits[count - 1] == '0')
        count--;
    lay_out(out, value < 0, digits, count, exponent);
    return out;
}
