// SPDX-License-Identifier: GPL-3.0-or-later
// A small tree of elements that knows where each element and each attribute was written.
#ifndef BYS_XML_H
#define BYS_XML_H

#include "base/arena.h"
#include <byssus/base.h>

typedef struct bys_xml_attr {
    const char *qname; ///< with prefix, as written
    const char *name;  ///< without prefix
    const char *space; ///< namespace, "" for none
    const char *value;
    bys_place place;
    bool made;     ///< not written: worked out by the reader
    bool ok;       ///< the value was read and lies in its range
    double number; ///< its SI value (quantities, numbers, counts, flags as 0/1)
    int choice;    ///< position in the list of allowed words, from 0
    struct bys_xml_attr *next;
} bys_xml_attr;

struct bys_element_rule;

typedef struct bys_xml_node {
    const char *name, *space;
    bys_place place;
    const struct bys_element_rule *rule; ///< NULL: unknown, and what it holds is not read
    unsigned long long seen, told; ///< children by row: met, met twice and reported
    bys_xml_attr *attrs;
    const char *text; ///< what stands in it, by bys_xml_read_text only; NULL
    struct bys_xml_node *parent, *first, *last, *next;
    struct bys_xml_node *order; ///< next in document order
} bys_xml_node;

enum { BYS_XML_MOST_BYTES = 8 * 1024 * 1024, BYS_XML_MOST_DEPTH = 32 };

/// Bytes of a file in the arena, NUL-terminated. Faults go to messages (place: whole file).
/// *missing is set when it cannot be opened. Returns NULL on any fault.
char *bys_file_bytes(bys_arena *arena, const char *path, size_t *size, int file,
                     bys_messages *messages, bool *missing);

/// Tree of n bytes of XML, or NULL after a fault. No DTD, entity, XInclude or network access.
bys_xml_node *bys_xml_read(bys_arena *arena, const char *bytes, size_t n, int file,
                           bys_messages *messages);

/// The same for formats that hold text in elements: it is kept, each element's in one piece.
bys_xml_node *bys_xml_read_text(bys_arena *arena, const char *bytes, size_t n, int file,
                                bys_messages *messages);

const bys_xml_attr *bys_xml_find(const bys_xml_node *node, const char *name);

#endif
