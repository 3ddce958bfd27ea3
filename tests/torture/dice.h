// SPDX-License-Identifier: GPL-3.0-or-later
// Numbers by chance that are the same everywhere: splitmix64.
// SOURCE Steele, Lea & Flood, OOPSLA 2014 [memory].
#ifndef BYS_TESTS_DICE_H
#define BYS_TESTS_DICE_H

#include <stdbool.h>
#include <stdint.h>

typedef struct {
    uint64_t s;
} dice;

static inline uint64_t dice_bits(dice *d) {
    uint64_t z = (d->s += 0x9e3779b97f4a7c15u);
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    return z ^ (z >> 31);
}

/// Even between lo and hi.
static inline double dice_real(dice *d, double lo, double hi) {
    return lo + (hi - lo) * (double)(dice_bits(d) >> 11) * 0x1p-53;
}

/// Whole number from lo to hi, both included.
static inline int dice_int(dice *d, int lo, int hi) {
    return lo + (int)(dice_bits(d) % (uint64_t)(hi - lo + 1));
}

static inline bool dice_chance(dice *d, double p) {
    return dice_real(d, 0.0, 1.0) < p;
}

#endif
