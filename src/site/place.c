// SPDX-License-Identifier: GPL-3.0-or-later
// Walks the raw bytes in step with the tree. The parser's own line numbers stop at 65535 in some
// places and its columns are those of the end of a tag, so that both are counted here. A column
// counts characters, not bytes, from 1.
#include "base/codes.h"
#include "site/place.h"

#include <string.h>

typedef struct {
    const char *p, *end;
    int line, column;
} cursor;

static void step(cursor *c)
{
    unsigned char byte = (unsigned char)*c->p++;
    if (byte == '\n') {
        c->line++;
        c->column = 1;
    } else if (c->p >= c->end || ((unsigned char)*c->p & 0xC0) != 0x80) {
        c->column++; // the last byte of a character
    }
}

static bool at(const cursor *c, const char *text)
{
    size_t n = strlen(text);
    return (size_t)(c->end - c->p) >= n && memcmp(c->p, text, n) == 0;
}

static void skip_past(cursor *c, const char *text)
{
    while (c->p < c->end && !at(c, text))
        step(c);
    for (size_t i = strlen(text); i > 0 && c->p < c->end; i--)
        step(c);
}

static bool blank(char b)
{
    return b == ' ' || b == '\t' || b == '\n' || b == '\r';
}

static void skip_blank(cursor *c)
{
    while (c->p < c->end && blank(*c->p))
        step(c);
}

typedef struct {
    bys_messages *messages; // NULL: only looking
    int file;
    bool told;              // of this stretch of text
} gap;

static void say_text(gap *g, const cursor *c)
{
    if (g->messages && !g->told)
        bys_messages_add(g->messages, BYS_FAULT, BYS_M_stray_text,
                         (bys_place){g->file, c->line, c->column},
                         "text between elements is not taken; values stand in attributes, and "
                         "comments between <!-- and -->");
    g->told = true;
}

// An editor's pointer to the schema does no harm: it is never opened. The declaration is no
// instruction.
static void say_instruction(const gap *g, const cursor *c)
{
    bool harmless = at(c, "<?xml-model") ||
                    (at(c, "<?xml") && c->end - c->p > 5 && (blank(c->p[5]) || c->p[5] == '?'));
    if (g->messages && !harmless)
        bys_messages_add(g->messages, BYS_FAULT, BYS_M_xml_instruction,
                         (bys_place){g->file, c->line, c->column},
                         "processing instructions are not taken; remove it");
}

// Moves to the '<' of the next start tag; false at the end.
static bool to_start_tag(cursor *c, gap *g)
{
    g->told = false;
    while (c->p < c->end) {
        if (*c->p != '<') {
            if (!blank(*c->p))
                say_text(g, c);
            step(c);
        } else if (at(c, "<!--")) {
            skip_past(c, "-->");
        } else if (at(c, "<![CDATA[")) {
            say_text(g, c);
            skip_past(c, "]]>");
        } else if (at(c, "<?")) {
            say_instruction(g, c);
            skip_past(c, "?>");
        } else if (at(c, "</") || at(c, "<!")) {
            skip_past(c, ">");
            g->told = false;
        } else {
            return true;
        }
    }
    return false;
}

static void place_attribute(bys_xml_node *node, const char *name, size_t n, bys_place place)
{
    for (bys_xml_attr *a = node->attrs; a; a = a->next)
        if (strlen(a->qname) == n && memcmp(a->qname, name, n) == 0)
            a->place = place;
}

// From the '<' of a start tag to its end, after the '>'.
static void walk_tag(cursor *c, bys_xml_node *node, int file)
{
    node->place = (bys_place){file, c->line, c->column};
    while (c->p < c->end && !blank(*c->p) && *c->p != '>' && !at(c, "/>"))
        step(c);
    for (;;) {
        skip_blank(c);
        if (c->p >= c->end || *c->p == '>' || *c->p == '/') {
            skip_past(c, ">");
            return;
        }
        bys_place place = {file, c->line, c->column};
        const char *name = c->p;
        while (c->p < c->end && *c->p != '=' && !blank(*c->p))
            step(c);
        place_attribute(node, name, (size_t)(c->p - name), place);
        while (c->p < c->end && *c->p != '"' && *c->p != '\'')
            step(c);
        if (c->p >= c->end)
            return;
        const char quote[2] = {*c->p, '\0'};
        step(c);
        skip_past(c, quote);
    }
}

static cursor start(const char *bytes, size_t n)
{
    cursor c = {bytes, bytes + n, 1, 1};
    if (at(&c, "\xEF\xBB\xBF"))
        c.p += 3;
    return c;
}

void bys_xml_places(bys_xml_node *root, const char *bytes, size_t n, int file,
                    bys_messages *messages)
{
    cursor c = start(bytes, n);
    gap g = {messages, file, false};
    for (bys_xml_node *node = root; node && to_start_tag(&c, &g); node = node->order)
        walk_tag(&c, node, file);
    to_start_tag(&c, &g); // what follows the last start tag
}

bys_place bys_xml_tag_place(const char *bytes, size_t n, int file, int index)
{
    cursor c = start(bytes, n);
    gap g = {NULL, file, false};
    bys_xml_node none = {0};
    while (to_start_tag(&c, &g) && index-- > 0)
        walk_tag(&c, &none, file);
    return (bys_place){file, c.line, c.column};
}

bool bys_xml_doctype(bys_place *place, const char *bytes, size_t n, int file)
{
    cursor c = start(bytes, n);
    for (;;) {
        skip_blank(&c);
        if (at(&c, "<!--")) {
            skip_past(&c, "-->");
        } else if (at(&c, "<?")) {
            skip_past(&c, "?>");
        } else {
            *place = (bys_place){file, c.line, c.column};
            return at(&c, "<!DOCTYPE") || at(&c, "<!doctype");
        }
    }
}

// Bytes of the UTF-8 character at p, 0 if it is not one: no overlong forms, no surrogates, and no
// control character but tab and line ends.
static size_t utf8_length(const unsigned char *p, size_t left)
{
    if (p[0] < 0x80)
        return p[0] >= 0x20 || p[0] == '\t' || p[0] == '\n' || p[0] == '\r' ? 1 : 0;
    size_t n = p[0] >= 0xC2 && p[0] <= 0xDF ? 2 : p[0] >= 0xE0 && p[0] <= 0xEF ? 3
             : p[0] >= 0xF0 && p[0] <= 0xF4 ? 4 : 0;
    if (n == 0 || n > left)
        return 0;
    for (size_t i = 1; i < n; i++)
        if ((p[i] & 0xC0) != 0x80)
            return 0;
    if ((p[0] == 0xE0 && p[1] < 0xA0) || (p[0] == 0xED && p[1] > 0x9F) ||
        (p[0] == 0xF0 && p[1] < 0x90) || (p[0] == 0xF4 && p[1] > 0x8F))
        return 0;
    return n;
}

size_t bys_utf8_fault(bys_place *place, const char *bytes, size_t n, int file)
{
    cursor c = start(bytes, n);
    while (c.p < c.end) {
        size_t length = utf8_length((const unsigned char *)c.p, (size_t)(c.end - c.p));
        if (length == 0) {
            *place = (bys_place){file, c.line, c.column};
            return (size_t)(c.p - bytes);
        }
        for (; length > 0; length--)
            step(&c);
    }
    return n;
}
