// SPDX-License-Identifier: GPL-3.0-or-later
// Blocks of memory that are given back together.
#include "base/arena.h"
#include "base/number.h"

#include <stdalign.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

enum { BLOCK = 64 * 1024 };

typedef struct block {
    struct block *next;
    size_t used, size;
    alignas(max_align_t) unsigned char bytes[];
} block;

struct bys_arena {
    block *first; // the block that is being filled
};

bys_arena *bys_arena_new(void)
{
    return calloc(1, sizeof(bys_arena));
}

void bys_arena_free(bys_arena *arena)
{
    if (!arena)
        return;
    for (block *b = arena->first; b;) {
        block *next = b->next;
        free(b);
        b = next;
    }
    free(arena);
}

void *bys_arena_get(bys_arena *arena, size_t bytes)
{
    const size_t a = alignof(max_align_t);
    if (bytes > SIZE_MAX / 2)
        return NULL;
    bytes = (bytes + a - 1) / a * a;
    block *b = arena->first;
    if (!b || b->size - b->used < bytes) {
        size_t size = bytes > BLOCK ? bytes : BLOCK;
        b = calloc(1, sizeof(block) + size);
        if (!b)
            return NULL;
        b->size = size;
        // A big block of its own must not hide the free room of the current one.
        if (arena->first && bytes > BLOCK) {
            b->next = arena->first->next;
            arena->first->next = b;
        } else {
            b->next = arena->first;
            arena->first = b;
        }
    }
    void *out = b->bytes + b->used;
    b->used += bytes;
    return out;
}

char *bys_arena_copy(bys_arena *arena, const char *text)
{
    size_t n = strlen(text) + 1;
    char *out = bys_arena_get(arena, n);
    return out ? memcpy(out, text, n) : NULL;
}

char *bys_arena_format(bys_arena *arena, const char *format, ...)
{
    va_list list, again;
    va_start(list, format);
    va_copy(again, list);
    int n = bys_format_list(NULL, 0, format, list);
    va_end(list);
    char *out = n < 0 ? NULL : bys_arena_get(arena, (size_t)n + 1);
    if (out)
        bys_format_list(out, (size_t)n + 1, format, again);
    va_end(again);
    return out;
}
