// SPDX-License-Identifier: GPL-3.0-or-later
// From bytes to a tree. The XML library checks the form; a DOCTYPE is refused before it sees the
// file, so that there are no entities but the five of XML itself.
#include "base/codes.h"
#include "site/place.h"
#include "site/xml.h"

#include <errno.h>
#include <libxml/xmlreader.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

char *bys_file_bytes(bys_arena *arena, const char *path, size_t *size, int file,
                     bys_messages *messages, bool *missing)
{
    const bys_place whole = {file, 0, 0};
    *missing = false;
    FILE *stream = fopen(path, "rb");
    struct stat info;
    if (!stream || fstat(fileno(stream), &info) != 0 || S_ISDIR(info.st_mode)) {
        bys_messages_add(messages, BYS_FAULT, BYS_M_file_open, whole, "cannot be opened: %s",
                         stream ? "it is a folder" : strerror(errno));
        *missing = true;
        if (stream)
            fclose(stream);
        return NULL;
    }
    char *bytes = bys_arena_get(arena, BYS_XML_MOST_BYTES / 64);
    size_t room = BYS_XML_MOST_BYTES / 64, n = 0;
    while (bytes) {
        n += fread(bytes + n, 1, room - 1 - n, stream);
        if (n < room - 1 || room > BYS_XML_MOST_BYTES)
            break;
        char *more = bys_arena_get(arena, 2 * room);
        if (more)
            memcpy(more, bytes, n);
        bytes = more;
        room *= 2;
    }
    bool broken = ferror(stream) != 0;
    fclose(stream);
    if (!bytes || broken) {
        bys_messages_add(messages, BYS_FAULT, BYS_M_file_open, whole,
                         bytes ? "reading it failed half way" : "out of memory while reading it");
        return NULL;
    }
    if (n > BYS_XML_MOST_BYTES) {
        bys_messages_add(messages, BYS_FAULT, BYS_M_file_size, whole,
                         "is larger than 8 MB; split off a catalogue or use blocks");
        return NULL;
    }
    bytes[n] = '\0';
    *size = n;
    return bytes;
}

// What a file that is not XML seems to be; NULL if it may be XML.
static const char *look(const char *bytes, size_t n)
{
    static const struct {
        const char *head, *words;
    } kinds[] = {{"PK\x03\x04", "a zip archive or a spreadsheet"},
                 {"%PDF", "a PDF document"},
                 {"\x7f" "ELF", "a program"},
                 {"\x89PNG", "a picture"},
                 {"\xff\xd8\xff", "a picture"},
                 {"{", "JSON"},
                 {"[", "JSON"}};
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++)
        if (n >= strlen(kinds[i].head) && memcmp(bytes, kinds[i].head, strlen(kinds[i].head)) == 0)
            return kinds[i].words;
    if (n >= 2 && (memcmp(bytes, "\xff\xfe", 2) == 0 || memcmp(bytes, "\xfe\xff", 2) == 0))
        return "text in UTF-16; save it as UTF-8";
    if (memchr(bytes, '\0', n))
        return "binary data";
    const char *p = bytes;
    if (n >= 3 && memcmp(p, "\xEF\xBB\xBF", 3) == 0)
        p += 3;
    p += strspn(p, " \t\r\n");
    return *p == '<' ? NULL : "plain text";
}

static bool sound(const char *bytes, size_t n, int file, bys_messages *messages)
{
    const bys_place whole = {file, 0, 0};
    bys_place place;
    if (strspn(bytes, " \t\r\n") == n) {
        bys_messages_add(messages, BYS_FAULT, BYS_M_file_empty, whole,
                         "is empty; `byssus new block` gives a file to start from");
        return false;
    }
    const char *kind = look(bytes, n);
    if (kind) {
        bys_messages_add(messages, BYS_FAULT, BYS_M_file_kind, whole,
                         "is not XML: it looks like %s", kind);
        return false;
    }
    size_t bad = bys_utf8_fault(&place, bytes, n, file);
    if (bad < n) {
        bys_messages_add(messages, BYS_FAULT, BYS_M_file_encoding, place,
                         "the byte 0x%02X is not UTF-8 text; save the file as UTF-8",
                         (unsigned char)bytes[bad]);
        return false;
    }
    if (bys_xml_doctype(&place, bytes, n, file)) {
        bys_messages_add(messages, BYS_FAULT, BYS_M_xml_doctype, place,
                         "a DOCTYPE is not allowed, nor the entities that it could define; "
                         "remove it");
        return false;
    }
    return true;
}

typedef struct {
    bys_arena *arena;
    bys_messages *messages;
    int file;
    bys_xml_node *root, *current, *latest;
    const char *bytes;
    size_t size;
    int elements; // opened so far
    bool texts;   // keep what stands in elements
    bool stopped; // a fault was reported
    bool failed;  // out of memory
} builder;

static void on_error(void *user, xmlErrorPtr error)
{
    builder *b = user;
    if (b->stopped || error->level < XML_ERR_ERROR)
        return;
    b->stopped = true;
    bys_text text = {0};
    bys_text_add(&text, error->message ? error->message : "unknown fault");
    while (text.length > 0 && text.data[text.length - 1] == '\n')
        text.data[--text.length] = '\0';
    bys_place place = {b->file, error->line, error->int2 > 0 ? error->int2 : 1};
    bys_messages_add(b->messages, BYS_FAULT, BYS_M_xml_syntax, place,
                     "the XML is not well formed: %s", text.data ? text.data : "");
    bys_text_free(&text);
}

static const char *copy(builder *b, const xmlChar *text)
{
    const char *out = bys_arena_copy(b->arena, text ? (const char *)text : "");
    if (!out)
        b->failed = true;
    return out ? out : "";
}

static void add_attributes(builder *b, xmlTextReaderPtr reader, bys_xml_node *node)
{
    bys_xml_attr **end = &node->attrs;
    while (xmlTextReaderMoveToNextAttribute(reader) == 1) {
        if (xmlTextReaderIsNamespaceDecl(reader) == 1)
            continue;
        bys_xml_attr *a = bys_arena_get(b->arena, sizeof *a);
        if (!a) {
            b->failed = true;
            return;
        }
        a->qname = copy(b, xmlTextReaderConstName(reader));
        a->name = copy(b, xmlTextReaderConstLocalName(reader));
        a->space = copy(b, xmlTextReaderConstNamespaceUri(reader));
        a->value = copy(b, xmlTextReaderConstValue(reader));
        *end = a;
        end = &a->next;
    }
    xmlTextReaderMoveToElement(reader);
}

static void open_element(builder *b, xmlTextReaderPtr reader)
{
    bys_xml_node *node = bys_arena_get(b->arena, sizeof *node);
    if (!node) {
        b->failed = true;
        return;
    }
    node->name = copy(b, xmlTextReaderConstLocalName(reader));
    node->space = copy(b, xmlTextReaderConstNamespaceUri(reader));
    node->place = (bys_place){b->file, xmlTextReaderGetParserLineNumber(reader), 1};
    node->parent = b->current;
    b->elements++;
    bool empty = xmlTextReaderIsEmptyElement(reader) == 1;
    add_attributes(b, reader, node);
    if (b->latest)
        b->latest->order = node;
    b->latest = node;
    if (!b->current) {
        b->root = node;
    } else {
        if (b->current->last)
            b->current->last->next = node;
        else
            b->current->first = node;
        b->current->last = node;
    }
    if (!empty)
        b->current = node;
}

static void refuse(builder *b, bys_place place, int code, const char *words)
{
    bys_messages_add(b->messages, BYS_FAULT, code, place, "%s", words);
    b->stopped = true;
}

static void add_text(builder *b, const char *more)
{
    bys_xml_node *node = b->current;
    if (!b->texts || !node)
        return;
    node->text = bys_arena_format(b->arena, "%s%s", node->text ? node->text : "", more);
    b->failed = b->failed || !node->text;
}

static void take(builder *b, xmlTextReaderPtr reader)
{
    bys_place near = {b->file, xmlTextReaderGetParserLineNumber(reader), 1};
    switch (xmlTextReaderNodeType(reader)) {
    case XML_READER_TYPE_ELEMENT:
        if (xmlTextReaderDepth(reader) >= BYS_XML_MOST_DEPTH)
            refuse(b, bys_xml_tag_place(b->bytes, b->size, b->file, b->elements), BYS_M_xml_depth,
                   "elements are nested more than 32 deep");
        else
            open_element(b, reader);
        break;
    case XML_READER_TYPE_END_ELEMENT:
        if (b->current)
            b->current = b->current->parent;
        break;
    case XML_READER_TYPE_DOCUMENT_TYPE:
        refuse(b, near, BYS_M_xml_doctype, "a DOCTYPE is not allowed; remove it");
        break;
    case XML_READER_TYPE_ENTITY_REFERENCE:
        refuse(b, near, BYS_M_xml_instruction, "entities are not taken; write the text itself");
        break;
    case XML_READER_TYPE_TEXT:
    case XML_READER_TYPE_CDATA:
        add_text(b, (const char *)xmlTextReaderConstValue(reader));
        break;
    default: // text and instructions are reported when the places are found
        break;
    }
}

static bys_xml_node *read_tree(bys_arena *arena, const char *bytes, size_t n, int file,
                               bool texts, bys_messages *messages)
{
    if (!sound(bytes, n, file, messages))
        return NULL;
    builder b = {.arena = arena, .messages = messages, .file = file, .bytes = bytes, .size = n,
                 .texts = texts};
    xmlTextReaderPtr reader =
        xmlReaderForMemory(bytes, (int)n, NULL, "UTF-8",
                           XML_PARSE_NONET | XML_PARSE_COMPACT | XML_PARSE_BIG_LINES);
    if (!reader) {
        bys_messages_add(messages, BYS_FAULT, BYS_M_xml_syntax, (bys_place){file, 0, 0},
                         "the XML reader could not start: out of memory");
        return NULL;
    }
    xmlTextReaderSetStructuredErrorHandler(reader, on_error, &b);
    int more = 1;
    while (!b.stopped && !b.failed && (more = xmlTextReaderRead(reader)) == 1)
        take(&b, reader);
    xmlFreeTextReader(reader);
    if (b.failed || (more < 0 && !b.stopped)) {
        bys_messages_add(messages, BYS_FAULT, BYS_M_xml_syntax, (bys_place){file, 0, 0},
                         b.failed ? "out of memory while reading it" : "the XML cannot be read");
        return NULL;
    }
    return b.stopped ? NULL : b.root;
}

bys_xml_node *bys_xml_read(bys_arena *arena, const char *bytes, size_t n, int file,
                           bys_messages *messages)
{
    bys_xml_node *root = read_tree(arena, bytes, n, file, false, messages);
    if (root)
        bys_xml_places(root, bytes, n, file, messages);
    return root;
}

bys_xml_node *bys_xml_read_text(bys_arena *arena, const char *bytes, size_t n, int file,
                                bys_messages *messages)
{
    bys_messages *unsaid = NULL; // text between elements is no fault here
    bys_xml_node *root = read_tree(arena, bytes, n, file, true, messages);
    if (root && bys_messages_new(&unsaid) == BYS_OK)
        bys_xml_places(root, bytes, n, file, unsaid);
    bys_messages_free(unsaid);
    return root;
}

const bys_xml_attr *bys_xml_find(const bys_xml_node *node, const char *name)
{
    for (const bys_xml_attr *a = node->attrs; a; a = a->next)
        if (!*a->space && strcmp(a->name, name) == 0)
            return a;
    return NULL;
}
