// SPDX-License-Identifier: GPL-3.0-or-later
// Growing text, and writing it to a file by way of a temporary one.
#include "base/number.h"
#include <byssus/base.h>

#include <errno.h>
#include <fcntl.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

void bys_text_free(bys_text *text)
{
    if (!text)
        return;
    free(text->data);
    *text = (bys_text){0};
}

static bool reserve(bys_text *text, size_t more)
{
    if (text->failed)
        return false;
    size_t need = text->length + more + 1;
    if (need <= text->capacity)
        return true;
    size_t capacity = text->capacity ? text->capacity : 256;
    while (capacity < need)
        capacity *= 2;
    char *data = realloc(text->data, capacity);
    if (!data) {
        text->failed = true;
        return false;
    }
    text->data = data;
    text->capacity = capacity;
    return true;
}

void bys_text_add_bytes(bys_text *text, const char *bytes, size_t n)
{
    if (!reserve(text, n))
        return;
    if (n)
        memcpy(text->data + text->length, bytes, n);
    text->length += n;
    text->data[text->length] = '\0';
}

void bys_text_add(bys_text *text, const char *bytes)
{
    bys_text_add_bytes(text, bytes, strlen(bytes));
}

void bys_text_addf(bys_text *text, const char *format, ...)
{
    va_list list, again;
    va_start(list, format);
    va_copy(again, list);
    char small[256];
    int n = bys_format_list(small, sizeof small, format, list);
    va_end(list);
    if (n < 0) {
        text->failed = true;
    } else if ((size_t)n < sizeof small) {
        bys_text_add_bytes(text, small, (size_t)n);
    } else if (reserve(text, (size_t)n)) {
        bys_format_list(text->data + text->length, (size_t)n + 1, format, again);
        text->length += (size_t)n;
    }
    va_end(again);
}

void bys_text_add_double(bys_text *text, double value)
{
    char buffer[BYS_NUMBER_SIZE];
    bys_text_add(text, bys_number_shortest(buffer, value));
}

void bys_text_add_fixed(bys_text *text, double value, int decimals)
{
    if (!isfinite(value)) {
        bys_text_add(text, "null");
        return;
    }
    char buffer[400]; // DBL_MAX has 309 digits before the point
    decimals = decimals < 0 ? 0 : decimals > 60 ? 60 : decimals;
    bys_format(buffer, sizeof buffer, "%.*f", decimals, value);
    const char *start = buffer;
    if (buffer[0] == '-' && strspn(buffer + 1, "0.") == strlen(buffer + 1))
        start++;
    bys_text_add(text, start);
}

static bool write_all(int fd, const char *data, size_t n)
{
    while (n > 0) {
        ssize_t done = write(fd, data, n);
        if (done < 0 && errno == EINTR)
            continue;
        if (done <= 0)
            return false;
        data += done;
        n -= (size_t)done;
    }
    return true;
}

static mode_t usual_mode(void)
{
    mode_t mask = umask(0);
    umask(mask);
    return 0666 & ~mask;
}

bys_rc bys_text_write_file(const bys_text *text, const char *path, bys_error *err)
{
    if (text->failed)
        return bys_error_set(err, BYS_ENOMEM, 0, "%s: out of memory while building the text", path);
    bys_text name = {0};
    bys_text_addf(&name, "%s.XXXXXX", path);
    if (name.failed)
        return bys_error_set(err, BYS_ENOMEM, 0, "%s: out of memory", path);
    bys_rc rc = BYS_OK;
    int fd = mkstemp(name.data);
    if (fd < 0) {
        rc = bys_error_set(err, BYS_ECREATE, 701, "%s: cannot be created: %s", path,
                           strerror(errno));
    } else {
        bool ok = write_all(fd, text->data ? text->data : "", text->length);
        ok = fchmod(fd, usual_mode()) == 0 && ok;
        ok = close(fd) == 0 && ok;
        ok = ok && rename(name.data, path) == 0;
        if (!ok) {
            rc = bys_error_set(err, BYS_EIO, 702, "%s: writing failed: %s", path, strerror(errno));
            unlink(name.data);
        }
    }
    bys_text_free(&name);
    return rc;
}
