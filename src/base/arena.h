// SPDX-License-Identifier: GPL-3.0-or-later
// Many small objects with one lifetime.
#ifndef BYS_ARENA_H
#define BYS_ARENA_H
#include <stddef.h>

typedef struct bys_arena bys_arena;

/// NULL when out of memory.
bys_arena *bys_arena_new(void);
void bys_arena_free(bys_arena *arena);
/// Zeroed, aligned for any type; NULL when out of memory.
void *bys_arena_get(bys_arena *arena, size_t bytes);
char *bys_arena_copy(bys_arena *arena, const char *text);
char *bys_arena_format(bys_arena *arena, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

#endif
