// SPDX-License-Identifier: GPL-3.0-or-later
// Lines and columns of elements and attributes, from the raw bytes.
#ifndef BYS_SITE_PLACE_H
#define BYS_SITE_PLACE_H
#include "site/xml.h"

/// Gives every node of a tree (in document order from root) and its attributes their places, and
/// reports text between elements and processing instructions.
/// The bytes were already found well formed and hold no DOCTYPE.
void bys_xml_places(bys_xml_node *root, const char *bytes, size_t n, int file,
                    bys_messages *messages);
/// Place of the start tag number `index`, from 0.
bys_place bys_xml_tag_place(const char *bytes, size_t n, int file, int index);
/// Looks for a DOCTYPE before the first element; its place if there is one.
bool bys_xml_doctype(bys_place *place, const char *bytes, size_t n, int file);
/// Offset of the first byte that is not UTF-8 text, n if all is well; its place in *place.
size_t bys_utf8_fault(bys_place *place, const char *bytes, size_t n, int file);

#endif
