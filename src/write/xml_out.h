// SPDX-License-Identifier: GPL-3.0-or-later
// A document written by libxml2's writer into a bys_text. Failures end in out->failed.
#ifndef BYS_WRITE_XML_OUT_H
#define BYS_WRITE_XML_OUT_H

#include <byssus/base.h>

typedef struct bys_xml_out bys_xml_out;

/// Begins a document with its root element; NULL when out of memory (then out->failed is set).
bys_xml_out *bys_xml_out_new(bys_text *out, const char *root, const char *space);
/// Ends it and appends it to the text; NULL does nothing.
void bys_xml_out_end(bys_xml_out *xml);
void bys_xml_open(bys_xml_out *xml, const char *name);
void bys_xml_close(bys_xml_out *xml);
void bys_xml_attribute(bys_xml_out *xml, const char *name, const char *value);
/// With a fixed number of decimals.
void bys_xml_attribute_fixed(bys_xml_out *xml, const char *name, double value, int decimals);
/// Text is escaped; bytes that are not UTF-8 become U+FFFD, characters that XML bars a blank.
void bys_xml_text(bys_xml_out *xml, const char *text);
/// <name>text</name>
void bys_xml_leaf(bys_xml_out *xml, const char *name, const char *text);

#endif
