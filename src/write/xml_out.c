// SPDX-License-Identifier: GPL-3.0-or-later
#include "write/xml_out.h"
#include "write/utf8.h"

#include <libxml/xmlwriter.h>
#include <stdlib.h>
#include <string.h>

struct bys_xml_out {
    bys_text *out;
    xmlBufferPtr buffer;
    xmlTextWriterPtr writer;
    bool failed;
};

static void note(bys_xml_out *xml, int result)
{
    xml->failed = xml->failed || result < 0;
}

bys_xml_out *bys_xml_out_new(bys_text *out, const char *root, const char *space)
{
    bys_xml_out *xml = calloc(1, sizeof *xml);
    if (xml) {
        xml->out = out;
        xml->buffer = xmlBufferCreate();
        xml->writer = xml->buffer ? xmlNewTextWriterMemory(xml->buffer, 0) : NULL;
    }
    if (!xml || !xml->writer) {
        if (xml)
            xmlBufferFree(xml->buffer);
        free(xml);
        out->failed = true;
        return NULL;
    }
    note(xml, xmlTextWriterSetIndent(xml->writer, 1));
    note(xml, xmlTextWriterSetIndentString(xml->writer, BAD_CAST " "));
    note(xml, xmlTextWriterStartDocument(xml->writer, NULL, "UTF-8", NULL));
    bys_xml_open(xml, root);
    bys_xml_attribute(xml, "xmlns", space);
    return xml;
}

void bys_xml_out_end(bys_xml_out *xml)
{
    if (!xml)
        return;
    note(xml, xmlTextWriterEndDocument(xml->writer));
    xmlFreeTextWriter(xml->writer);
    if (xml->failed)
        xml->out->failed = true;
    else
        bys_text_add_bytes(xml->out, (const char *)xmlBufferContent(xml->buffer),
                           (size_t)xmlBufferLength(xml->buffer));
    xmlBufferFree(xml->buffer);
    free(xml);
}

void bys_xml_open(bys_xml_out *xml, const char *name)
{
    note(xml, xmlTextWriterStartElement(xml->writer, BAD_CAST name));
}

void bys_xml_close(bys_xml_out *xml)
{
    note(xml, xmlTextWriterEndElement(xml->writer));
}

/// What XML 1.0 may hold (section 2.2): no control characters but tab and line end, no U+FFFE, FFFF.
static void clean(bys_text *out, const char *text)
{
    while (*text) {
        const size_t n = bys_utf8_length(text);
        const unsigned char byte = (unsigned char)*text;
        if (n == 0)
            bys_text_add(out, "\xEF\xBF\xBD");
        else if ((n == 1 && byte < 0x20) || byte == 0x7F ||
                 (n == 3 && (memcmp(text, "\xEF\xBF\xBE", 3) == 0 ||
                             memcmp(text, "\xEF\xBF\xBF", 3) == 0)))
            bys_text_add(out, " ");
        else
            bys_text_add_bytes(out, text, n);
        text += n ? n : 1;
    }
}

void bys_xml_attribute(bys_xml_out *xml, const char *name, const char *value)
{
    bys_text text = {0};
    clean(&text, value);
    note(xml, xmlTextWriterWriteAttribute(xml->writer, BAD_CAST name,
                                          BAD_CAST(text.data ? text.data : "")));
    xml->failed = xml->failed || text.failed;
    bys_text_free(&text);
}

void bys_xml_attribute_fixed(bys_xml_out *xml, const char *name, double value, int decimals)
{
    bys_text text = {0};
    bys_text_add_fixed(&text, value, decimals);
    bys_xml_attribute(xml, name, text.data ? text.data : "");
    xml->failed = xml->failed || text.failed;
    bys_text_free(&text);
}

void bys_xml_text(bys_xml_out *xml, const char *text)
{
    bys_text whole = {0};
    clean(&whole, text);
    note(xml, xmlTextWriterWriteString(xml->writer, BAD_CAST(whole.data ? whole.data : "")));
    xml->failed = xml->failed || whole.failed;
    bys_text_free(&whole);
}

void bys_xml_leaf(bys_xml_out *xml, const char *name, const char *text)
{
    bys_xml_open(xml, name);
    bys_xml_text(xml, text);
    bys_xml_close(xml);
}
