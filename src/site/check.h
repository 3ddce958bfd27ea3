// SPDX-License-Identifier: GPL-3.0-or-later
// Comparing a tree with the table of the format, and reading typed values from it.
#ifndef BYS_SITE_CHECK_H
#define BYS_SITE_CHECK_H

#include "site/schema.h"
#include "site/xml.h"

#define BYS_NAMESPACE "urn:byssus:"

/// Gives every node its row and reads every attribute; all faults go to messages. root_key: row of
/// the outermost element. kind: "site", "parts" or "rules", as in the namespace. False if the tree
/// is another kind of file altogether, so that looking further would only confuse.
bool bys_check_tree(bys_xml_node *root, const char *root_key, const char *kind,
                    bys_messages *messages);

/// `<rope id="warp28">`, for the start of a message; the text is cut, never too long.
typedef struct { char text[120]; } bys_label;
bys_label bys_node_label(const bys_xml_node *node);

/// Nearest of the words by edit distance, or NULL if none is near. Add candidates one by one.
typedef struct {
    const char *word, *best;
    int distance;
} bys_near;
bys_near bys_near_start(const char *word);
void bys_near_try(bys_near *near, const char *candidate);
const char *bys_near_best(const bys_near *near);

// Values of attributes that were read without fault; `other` if not stated or faulty.
const char *bys_node_text(const bys_xml_node *node, const char *name);
bool bys_node_has(const bys_xml_node *node, const char *name);
/// Stated and sound.
bool bys_node_ok(const bys_xml_node *node, const char *name);
double bys_node_number(const bys_xml_node *node, const char *name, double other);
int bys_node_count(const bys_xml_node *node, const char *name, int other);
int bys_node_choice(const bys_xml_node *node, const char *name, int other);
bool bys_node_flag(const bys_xml_node *node, const char *name, bool other);
/// Where the attribute stands, or the node if it is not there.
bys_place bys_node_place(const bys_xml_node *node, const char *name);
/// Does the node's row have that key?
bool bys_node_is(const bys_xml_node *node, const char *key);
/// First child, or the next sibling after `last`, whose row has that key.
const bys_xml_node *bys_node_next(const bys_xml_node *parent, const bys_xml_node *last,
                                  const char *key);
int bys_node_number_of(const bys_xml_node *parent, const char *key);

#endif
