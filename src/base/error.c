// SPDX-License-Identifier: GPL-3.0-or-later
// Names of the three answers, and the caller's error struct.
#include "base/clean.h"
#include "base/number.h"
#include <byssus/base.h>

#include <stdarg.h>

const char *bys_basis_name(bys_basis basis)
{
    static const char *const names[] = {"read", "memory", "user", "test", "assumed"};
    return (unsigned)basis < 5 ? names[basis] : "assumed";
}

const char *bys_verdict_name(bys_verdict verdict)
{
    static const char *const names[] = {"pass", "fail", "not checked", "reported"};
    return (unsigned)verdict < 4 ? names[verdict] : "not checked";
}

const char *bys_status_name(bys_status status)
{
    static const char *const names[] = {"stable", "unstable", "indeterminate", "cannot-stand"};
    return (unsigned)status < 4 ? names[status] : "cannot-stand";
}

bys_rc bys_error_set(bys_error *err, bys_rc rc, int code, const char *format, ...)
{
    if (!err)
        return rc;
    err->rc = rc;
    err->code = code;
    va_list list;
    va_start(list, format);
    bys_format_list(err->text, sizeof err->text, format, list);
    va_end(list);
    bys_clean_line(err->text);
    return rc;
}
