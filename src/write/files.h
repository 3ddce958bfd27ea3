// SPDX-License-Identifier: GPL-3.0-or-later
// Result files of one command, side by side in one directory.
#ifndef BYS_WRITE_FILES_H
#define BYS_WRITE_FILES_H

#include <byssus/base.h>

/// One file, built before any is written.
typedef struct {
    const char *name;
    bys_text text;
} bys_result_file;

/// Makes `dir` if it is not there and writes the files, each whole or not at all. Nothing is
/// touched when the text of any of them failed. Frees the texts in every case.
bys_rc bys_write_files(bys_result_file *files, int count, const char *dir, bys_error *err);

#endif
