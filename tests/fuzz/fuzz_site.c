// SPDX-License-Identifier: GPL-3.0-or-later
// Entry for libFuzzer: tests/run --fuzz SECONDS.
#include "fuzz/reader.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    const char *wrong = fuzz_reader(data, size, NULL);
    if (wrong) {
        fprintf(stderr, "%s\n", wrong);
        abort();
    }
    return 0;
}
