// SPDX-License-Identifier: GPL-3.0-or-later
// Compares a tree with the table of the format. Every fault is reported, each once: what an unknown
// element holds is not looked at, and a faulty value counts as stated.
#include "base/codes.h"
#include "base/number.h"
#include "site/check.h"

#include <math.h>
#include <string.h>

#define XINCLUDE "http://www.w3.org/2001/XInclude"
#define SCHEMA_INSTANCE "http://www.w3.org/2001/XMLSchema-instance"

// ---- elements --------------------------------------------------------------------------------

static void add_children(bys_text *out, const bys_element_rule *parent)
{
    const char *gap = "";
    for (int i = 0; i < bys_schema_count(); i++) {
        const bys_element_rule *rule = bys_schema_at(i);
        if (bys_list_index(rule->parents, parent->key, strlen(parent->key)) < 0)
            continue;
        bys_text_addf(out, "%s<%s>", gap, rule->name);
        gap = ", ";
    }
}

// "<block> or <change>": where elements of that name may stand.
static void add_homes(bys_text *out, const char *name)
{
    const char *gap = "";
    for (int i = 0; i < bys_schema_count(); i++) {
        const bys_element_rule *rule = bys_schema_at(i);
        if (strcmp(rule->name, name) != 0)
            continue;
        for (const char *p = rule->parents; *p;) {
            size_t n = strcspn(p, "|");
            char key[40];
            bys_format(key, sizeof key, "%.*s", (int)n, p);
            const bys_element_rule *home = bys_schema_key(key);
            char shown[60];
            bys_format(shown, sizeof shown, "<%s>", home ? home->name : key);
            if (!out->data || !strstr(out->data, shown)) {
                bys_text_addf(out, "%s%s", gap, shown);
                gap = " or ";
            }
            p += n + (p[n] == '|');
        }
    }
}

static const char *nearest_element(const bys_element_rule *parent, const char *name)
{
    bys_near near = bys_near_start(name);
    for (int i = 0; i < bys_schema_count(); i++) {
        const bys_element_rule *rule = bys_schema_at(i);
        if (bys_list_index(rule->parents, parent->key, strlen(parent->key)) >= 0)
            bys_near_try(&near, rule->name);
    }
    return bys_near_best(&near);
}

static void say_unknown_element(const bys_xml_node *node, bys_messages *messages)
{
    const bys_element_rule *parent = node->parent->rule;
    bys_text text = {0};
    int code = BYS_M_unknown_element;
    const char *near = nearest_element(parent, node->name);
    if (near) {
        bys_text_addf(&text, "did you mean <%s>?", near);
    } else {
        add_homes(&text, node->name);
        if (text.length > 0) {
            code = BYS_M_misplaced_element;
        } else {
            add_children(&text, parent);
            if (text.length == 0)
                bys_text_add(&text, "nothing");
        }
    }
    const char *words = text.data ? text.data : "";
    if (near)
        bys_messages_add(messages, BYS_FAULT, code, node->place, "<%s> has no element <%s>; %s",
                         node->parent->name, node->name, words);
    else if (code == BYS_M_misplaced_element)
        bys_messages_add(messages, BYS_FAULT, code, node->place,
                         "<%s> may not stand in <%s>; it belongs in %s", node->name,
                         node->parent->name, words);
    else
        bys_messages_add(messages, BYS_FAULT, code, node->place,
                         "<%s> has no element <%s>; it may hold %s", node->parent->name,
                         node->name, words);
    bys_text_free(&text);
}

static void check_namespace(const bys_xml_node *node, bys_messages *messages)
{
    if (strcmp(node->space, XINCLUDE) == 0)
        bys_messages_add(messages, BYS_FAULT, BYS_M_xml_instruction, node->place,
                         "inclusions are not taken; a catalogue is named by <catalogue "
                         "href=\"…\"/>");
    else
        bys_messages_add(messages, BYS_FAULT, BYS_M_unknown_element, node->place,
                         "<%s> is of another format (namespace \"%s\"); remove it", node->name,
                         node->space);
}

static void check_once(const bys_xml_node *node, bys_messages *messages)
{
    bys_xml_node *parent = node->parent;
    unsigned long long bit = 1ull << (bys_schema_index(node->rule) % 64);
    bool again = (parent->seen & bit) != 0, told = (parent->told & bit) != 0;
    parent->seen |= bit;
    if (!again || told)
        return;
    parent->told |= bit;
    const bys_xml_node *first = parent->first;
    while (first->rule != node->rule)
        first = first->next;
    bys_messages_add(messages, BYS_FAULT, BYS_M_repeated_element, node->place,
                     "<%s> stands twice in %s (first in line %d); keep one", node->name,
                     bys_node_label(parent).text, first->place.line);
}

static void find_rule(bys_xml_node *node, const bys_xml_node *root, bys_messages *messages)
{
    if (!node->parent->rule)
        return;
    if (strcmp(node->space, root->space) != 0) {
        check_namespace(node, messages);
        return;
    }
    node->rule = bys_schema_child(node->parent->rule, node->name);
    if (!node->rule) {
        say_unknown_element(node, messages);
        return;
    }
    if (node->rule->once)
        check_once(node, messages);
}

static void check_needed(const bys_xml_node *node, bys_messages *messages)
{
    for (int i = 0; i < bys_schema_count(); i++) {
        const bys_element_rule *rule = bys_schema_at(i);
        if (!rule->needed ||
            bys_list_index(rule->parents, node->rule->key, strlen(node->rule->key)) < 0)
            continue;
        if (bys_node_number_of(node, rule->key) == 0)
            bys_messages_add(messages, BYS_FAULT, BYS_M_missing_element, node->place,
                             "%s has no <%s> (%s); add it", bys_node_label(node).text, rule->name,
                             rule->meaning);
    }
}

// ---- attributes ------------------------------------------------------------------------------

static void say_unknown_attribute(const bys_xml_node *node, const bys_xml_attr *attr,
                                  bys_messages *messages)
{
    bys_near near = bys_near_start(attr->name);
    bys_text all = {0};
    for (int i = 0; i < node->rule->attr_count; i++) {
        bys_near_try(&near, node->rule->attrs[i].name);
        bys_text_addf(&all, "%s%s", i ? ", " : "", node->rule->attrs[i].name);
    }
    if (bys_near_best(&near))
        bys_messages_add(messages, BYS_FAULT, BYS_M_unknown_attribute, attr->place,
                         "%s has no attribute \"%s\"; did you mean \"%s\"?",
                         bys_node_label(node).text, attr->name, bys_near_best(&near));
    else
        bys_messages_add(messages, BYS_FAULT, BYS_M_unknown_attribute, attr->place,
                         "%s has no attribute \"%s\"; it takes %s", bys_node_label(node).text,
                         attr->name, all.data ? all.data : "none");
    bys_text_free(&all);
}

static void __attribute__((format(printf, 5, 6)))
say_value(const bys_xml_node *node, const bys_xml_attr *attr, int code, bys_messages *messages,
          const char *format, ...)
{
    char why[400];
    va_list list;
    va_start(list, format);
    bys_format_list(why, sizeof why, format, list);
    va_end(list);
    bys_messages_add(messages, BYS_FAULT, code, attr->place, "%s: %s=\"%.60s\" %s",
                     bys_node_label(node).text, attr->name, attr->value, why);
}

// A bound in the unit in which the value was written.
static void add_bound(bys_text *out, const bys_attr_rule *rule, const bys_xml_attr *attr,
                      double bound)
{
    const char *p = attr->value + strspn(attr->value, " \t\r\n+-.0123456789eE");
    size_t n = strcspn(p, " \t\r\n,");
    const bys_unit *unit = rule->dim == BYS_DIM_COUNT ? NULL : bys_unit_find(p, n);
    bys_text_addf(out, "%.6g", unit ? bound / unit->factor : bound);
    if (unit)
        bys_text_addf(out, " %s", unit->name);
}

static bool in_range(const bys_xml_node *node, const bys_xml_attr *attr,
                     const bys_attr_rule *rule, double value, bys_messages *messages)
{
    // Bounds are round numbers in the table's unit; a hair beyond them is the unit's rounding.
    double slack = 1e-9 * fmax(fabs(rule->least), fabs(rule->most) < 1e299 ? fabs(rule->most) : 0);
    bool low = rule->open ? value <= rule->least : value < rule->least - slack;
    bool high = value > rule->most + slack;
    if (!low && !high)
        return true;
    bys_text bound = {0};
    add_bound(&bound, rule, attr, low ? rule->least : rule->most);
    say_value(node, attr, BYS_M_out_of_range, messages, "is out of range: it must be %s %s (%s)",
              low ? (rule->open ? "more than" : "at least") : "at most",
              bound.data ? bound.data : "", rule->meaning);
    bys_text_free(&bound);
    return false;
}

static void read_number(const bys_xml_node *node, bys_xml_attr *attr, const bys_attr_rule *rule,
                        const char *text, bys_messages *messages)
{
    bys_text why = {0};
    double value = 0;
    int code = rule->dim == BYS_DIM_COUNT ? bys_plain_read(&value, text, &why)
                                          : bys_quantity_read(&value, text, rule->dim, &why);
    if (code)
        say_value(node, attr, code, messages, "%s", why.data ? why.data : "cannot be read");
    else if (rule->type == BYS_V_COUNT && value != floor(value))
        say_value(node, attr, BYS_M_not_whole, messages, "must be a whole number");
    else
        attr->ok = in_range(node, attr, rule, value, messages);
    attr->number = value;
    bys_text_free(&why);
}

static void read_several(const bys_xml_node *node, bys_xml_attr *attr, const bys_attr_rule *rule,
                         bys_messages *messages)
{
    const char *p = attr->value;
    bool all = true;
    for (int count = 0;; count++) {
        size_t n = strcspn(p, ",");
        char piece[80];
        bys_format(piece, sizeof piece, "%.*s", (int)n, p);
        read_number(node, attr, rule, piece, messages);
        all = all && attr->ok;
        if (!p[n] || !all || count > 400)
            break;
        p += n + 1;
    }
    attr->ok = all;
}

static bool sound_id(const char *text)
{
    size_t n = strlen(text);
    if (n == 0 || n > 40)
        return false;
    for (size_t i = 0; i < n; i++) {
        char c = text[i];
        bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
        if (!letter && (i == 0 || (c != '-' && c != '_' && c != '.')))
            return false;
    }
    return true;
}

static void read_choice(const bys_xml_node *node, bys_xml_attr *attr, const bys_attr_rule *rule,
                        bys_messages *messages)
{
    attr->choice = bys_list_index(rule->list, attr->value, strlen(attr->value));
    attr->ok = attr->choice >= 0;
    if (attr->ok)
        return;
    bys_text text = {0};
    bys_near near = bys_near_start(attr->value);
    char words[24][24];
    int n = 0;
    for (const char *p = rule->list; *p && n < 24; n++) {
        size_t length = strcspn(p, "|");
        bys_format(words[n], sizeof words[n], "%.*s", (int)length, p);
        bys_near_try(&near, words[n]);
        bys_text_addf(&text, "%s%s", n ? ", " : "", words[n]);
        p += length + (p[length] == '|');
    }
    const char *best = bys_near_best(&near);
    say_value(node, attr, BYS_M_not_in_list, messages, "is not one of %s%s%s%s",
              text.data ? text.data : "", best ? "; did you mean " : "", best ? best : "",
              best ? "?" : "");
    bys_text_free(&text);
}

static void read_value(const bys_xml_node *node, bys_xml_attr *attr, const bys_attr_rule *rule,
                       bys_messages *messages)
{
    switch (rule->type) {
    case BYS_V_TEXT:
    case BYS_V_REF:
        attr->ok = attr->value[strspn(attr->value, " \t\r\n")] != '\0';
        if (!attr->ok)
            say_value(node, attr, BYS_M_empty_value, messages,
                      "is empty; write something in it or remove it");
        break;
    case BYS_V_ID:
        attr->ok = sound_id(attr->value);
        if (!attr->ok)
            say_value(node, attr, BYS_M_bad_id, messages,
                      "is no id: letters, digits, '-', '_' and '.', a letter or digit first, at "
                      "most 40");
        break;
    case BYS_V_CHOICE_OR_QUANTITY:
        attr->choice = -1;
        if (strchr("+-.0123456789", *attr->value)) {
            read_number(node, attr, rule, attr->value, messages);
            break;
        }
        read_choice(node, attr, rule, messages);
        break;
    case BYS_V_CHOICE:
        read_choice(node, attr, rule, messages);
        break;
    case BYS_V_FLAG:
        attr->number = strcmp(attr->value, "yes") == 0;
        attr->ok = attr->number != 0 || strcmp(attr->value, "no") == 0;
        if (!attr->ok)
            say_value(node, attr, BYS_M_bad_flag, messages, "is neither yes nor no");
        break;
    case BYS_V_COUNT:
    case BYS_V_NUMBER:
    case BYS_V_QUANTITY:
        read_number(node, attr, rule, attr->value, messages);
        break;
    case BYS_V_QUANTITIES:
        read_several(node, attr, rule, messages);
        break;
    }
}

static void check_attributes(bys_xml_node *node, bys_messages *messages)
{
    for (bys_xml_attr *a = node->attrs; a; a = a->next) {
        if (strcmp(a->space, SCHEMA_INSTANCE) == 0)
            continue; // an editor's pointer to the schema
        const bys_attr_rule *rule = *a->space ? NULL : bys_schema_attr(node->rule, a->name);
        if (rule)
            read_value(node, a, rule, messages);
        else
            say_unknown_attribute(node, a, messages);
    }
    for (int i = 0; i < node->rule->attr_count; i++) {
        const bys_attr_rule *rule = &node->rule->attrs[i];
        if (!rule->required || bys_xml_find(node, rule->name))
            continue;
        bys_text type = {0};
        bys_schema_type(&type, rule);
        bys_messages_add(messages, BYS_FAULT, BYS_M_missing_attribute, node->place,
                         "%s needs the attribute %s (%s): %s", bys_node_label(node).text,
                         rule->name, type.data ? type.data : "", rule->meaning);
        bys_text_free(&type);
    }
}

// ---- the whole tree --------------------------------------------------------------------------

static bool check_root(const bys_xml_node *root, const char *name, const char *kind,
                       bys_messages *messages)
{
    char wanted[60], family[60];
    bys_format(family, sizeof family, BYS_NAMESPACE "%s:", kind);
    bys_format(wanted, sizeof wanted, "%s1", family);
    bool right_name = strcmp(root->name, name) == 0;
    if (!right_name) {
        bys_messages_add(messages, BYS_FAULT, BYS_M_xml_root, root->place,
                         "the outermost element is <%s>; it must be <%s xmlns=\"%s\">", root->name,
                         name, wanted);
        return false;
    }
    if (strcmp(root->space, wanted) == 0)
        return true;
    bys_place place = root->place;
    if (!*root->space)
        bys_messages_add(messages, BYS_FAULT, BYS_M_xml_namespace, place,
                         "<%s> has no namespace; write <%s xmlns=\"%s\">", name, name, wanted);
    else if (strncmp(root->space, family, strlen(family)) == 0)
        bys_messages_add(messages, BYS_FAULT, BYS_M_xml_namespace, place,
                         "the file is of version \"%s\" of the format; this program reads \"%s\"",
                         root->space, wanted);
    else
        bys_messages_add(messages, BYS_FAULT, BYS_M_xml_namespace, place,
                         "the namespace \"%s\" is not known; write xmlns=\"%s\"", root->space,
                         wanted);
    return true;
}

bool bys_check_tree(bys_xml_node *root, const char *root_key, const char *kind,
                    bys_messages *messages)
{
    const bys_element_rule *rule = bys_schema_key(root_key);
    if (!rule || !check_root(root, rule->name, kind, messages))
        return false;
    root->rule = rule;
    for (bys_xml_node *node = root->order; node; node = node->order)
        find_rule(node, root, messages);
    for (bys_xml_node *node = root; node; node = node->order)
        if (node->rule) {
            check_needed(node, messages);
            check_attributes(node, messages);
        }
    return true;
}
