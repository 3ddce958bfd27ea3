// SPDX-License-Identifier: GPL-3.0-or-later
// The table of elements and attributes: the only definition of the format. The reader, the schema
// for editors and the manual page are compared with it by tests.
#ifndef BYS_SCHEMA_H
#define BYS_SCHEMA_H

#include "base/units.h"
#include "site/xml.h"

typedef enum {
    BYS_V_TEXT,
    BYS_V_ID,
    BYS_V_REF,      ///< id of something; list: what it may be
    BYS_V_CHOICE,   ///< one of list, "a|b|c"
    BYS_V_CHOICE_OR_QUANTITY, ///< one of list, or a number with a unit
    BYS_V_COUNT,    ///< whole number
    BYS_V_FLAG,     ///< yes or no
    BYS_V_NUMBER,   ///< bare number
    BYS_V_QUANTITY, ///< number with a unit of dimension dim
    BYS_V_QUANTITIES ///< list of them with commas between
} bys_value_type;

typedef struct {
    const char *name;
    bys_value_type type;
    bys_dim dim;
    const char *list;
    bool required;
    double least, most; ///< SI
    bool open;          ///< least itself is not allowed
    const char *meaning;
} bys_attr_rule;

typedef struct bys_element_rule {
    const char *key;     ///< unique; the name, or a longer word where one name has two forms
    const char *name;
    const char *parents; ///< keys, "block|change"; "" for a root
    bool once;           ///< at most once in its parent
    bool needed;         ///< at least once in its parent
    const bys_attr_rule *attrs;
    int attr_count;
    const char *meaning;
} bys_element_rule;

int bys_schema_count(void);
const bys_element_rule *bys_schema_at(int i);
/// Position of a row; rows that may stand only once lie less than 64 apart.
int bys_schema_index(const bys_element_rule *rule);
const bys_element_rule *bys_schema_key(const char *key);
/// Row of the element `name` inside the element of `parent` (NULL: roots); NULL if there is none.
const bys_element_rule *bys_schema_child(const bys_element_rule *parent, const char *name);
const bys_attr_rule *bys_schema_attr(const bys_element_rule *rule, const char *name);
/// Is `word` one of the words of "a|b|c"? Its position, or -1.
int bys_list_index(const char *list, const char *word, size_t n);
/// Type of an attribute in words, e.g. "length > 0", "one of local, projected"; appended.
void bys_schema_type(bys_text *out, const bys_attr_rule *rule);
/// Its range with unit, "900 to 1300 kg/m3" or "more than 0 m"; nothing if it has none. Appended.
void bys_schema_range(bys_text *out, const bys_attr_rule *rule);
/// Names of the elements in which it stands; a root file other than a site goes by its key. Appended.
void bys_schema_homes(bys_text *out, const bys_element_rule *rule, const char *between);

/// Groups of rows, one a source file.
extern const bys_element_rule bys_schema_site_rows[], bys_schema_part_rows[],
    bys_schema_layout_rows[], bys_schema_condition_rows[];
extern const int bys_schema_site_count, bys_schema_part_count, bys_schema_layout_count,
    bys_schema_condition_count;

// Short forms for the rows.
#define BYS_TEXT BYS_V_TEXT, BYS_DIM_COUNT, NULL
#define BYS_ID BYS_V_ID, BYS_DIM_COUNT, NULL
#define BYS_REF(kinds) BYS_V_REF, BYS_DIM_COUNT, kinds
#define BYS_CHOICE(words) BYS_V_CHOICE, BYS_DIM_COUNT, words
#define BYS_CHOICE_OR(dim, words) BYS_V_CHOICE_OR_QUANTITY, BYS_DIM_##dim, words
#define BYS_WHOLE BYS_V_COUNT, BYS_DIM_COUNT, NULL
#define BYS_YES_NO BYS_V_FLAG, BYS_DIM_COUNT, NULL
#define BYS_PLAIN BYS_V_NUMBER, BYS_DIM_COUNT, NULL
#define BYS_IN(dim) BYS_V_QUANTITY, BYS_DIM_##dim, NULL
#define BYS_SEVERAL(dim) BYS_V_QUANTITIES, BYS_DIM_##dim, NULL
#define BYS_NEED true
#define BYS_MAY false
#define BYS_ANY -1e300, 1e300, false
#define BYS_POSITIVE 0, 1e300, true
#define BYS_NOT_NEGATIVE 0, 1e300, false
#define BYS_RANGE(least, most) least, most, false
#define BYS_RIGHT_ANGLE 1.5707963267948966
#define BYS_TURN 6.283185307179587
#define BYS_DIRECTION -6.283185307179587, 6.283185307179587, false
#define BYS_LAT_LON                                                                                \
    {"lat", BYS_IN(ANGLE), BYS_MAY, BYS_ANY, "latitude, in place of x and y; north positive"},     \
    {"lon", BYS_IN(ANGLE), BYS_MAY, BYS_ANY, "longitude; east positive"}
#define BYS_BASES "read|memory|user|test|assumed"
#define BYS_ROWS(rows) rows, (int)(sizeof rows / sizeof rows[0])

#endif
