// SPDX-License-Identifier: GPL-3.0-or-later
// Text files with commas: lines, fields and their places, for records from the boat.
#ifndef BYS_DESIGN_CSV_H
#define BYS_DESIGN_CSV_H

#include "base/units.h"

/// Takes blanks and tabs off both ends, in place.
char *bys_csv_trim(char *text);
/// Cuts the line at its commas; returns the number of fields, of which at most `most` are kept.
int bys_csv_split(char **fields, int most, char *line);
/// Place of `at` in its line; columns are counted in characters.
bys_place bys_csv_place(int file, int line, const char *start, const char *at);
/// Gives each line without its line break to `take`, first line 1; a byte-order mark is left out.
/// `bytes` is cut up.
void bys_csv_lines(char *bytes, void (*take)(void *user, char *line, int number), void *user);
/// Factor of the unit in "[kgf]" (bracket: its "[", or NULL if there is none). Returns 0 or the
/// message number, with the reason in `why`.
int bys_csv_unit(double *factor, char *bracket, bys_dim dim, bys_text *why);

#endif
