// SPDX-License-Identifier: GPL-3.0-or-later
// The one list of columns of the leg table. CSV, JSON, terminal and HTML all read their values
// through it, so that they cannot disagree. Getters turn SI into the unit that the key names.
#ifndef BYS_WRITE_ROWS_H
#define BYS_WRITE_ROWS_H

#include <byssus/design.h>

typedef enum { BYS_CELL_TEXT, BYS_CELL_NUMBER, BYS_CELL_VERDICT } bys_cell_kind;

typedef struct {
    bys_cell_kind kind;
    const char *text;     ///< for TEXT
    double number;        ///< for NUMBER; NAN = does not apply or not known
    bys_verdict verdict;  ///< for VERDICT
} bys_cell;

typedef struct {
    const char *group;    ///< "", "line", "anchor", "reported.lost": nesting in JSON
    const char *key;      ///< name in JSON, with its unit
    const char *head;     ///< short heading for people, without the unit
    const char *unit;     ///< for people; "" if none
    int decimals;         ///< for people
    bys_cell (*get)(const bys_design *design, const bys_leg_result *leg);
} bys_column;

#define BYS_TONNE_FORCE 9806.65 ///< N, exact: 1000 kg x standard gravity

extern const bys_column bys_columns[];
extern const int bys_column_count;

/// Column by group and key; NULL if there is none.
const bys_column *bys_column_find(const char *group, const char *key);
/// Value for people: fixed decimals, a dash where nothing is known, an infinity sign for infinity.
void bys_cell_add(bys_text *out, const bys_cell *cell, int decimals);
/// One field of a CSV file, quoted where it has to be; what a spreadsheet would run is made text.
void bys_csv_field_add(bys_text *out, const char *text);
/// A number for people by the same rule.
void bys_number_add(bys_text *out, double value, int decimals);
/// The case in words, then the condition unless it is intact: "current towards 090 deg, harvest;
/// leg L05/N lost". The id stands in if the case has no words.
void bys_case_words(bys_text *out, const bys_design *design, const char *case_id);
/// The condition in words: "intact", "leg L05/N lost".
void bys_condition_words(bys_text *out, const char *condition);
/// Radians as degrees clockwise from north, 0 <= d < 360, with nothing that prints as 360.
double bys_compass_degrees(double rad);
/// Index of the direction with the largest intact tension of the leg; -1 if none is known.
int bys_worst_direction(const bys_design *design, const bys_leg_result *leg);

#endif
