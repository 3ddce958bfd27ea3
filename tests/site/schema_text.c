// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/schema_text.h"
#include "site/schema.h"

#include <ctype.h>
#include <string.h>

// ---- XSD -------------------------------------------------------------------------------------

static void add_escaped(bys_text *out, const char *text)
{
    for (; *text; text++) {
        const char *named = *text == '&' ? "&amp;" : *text == '<' ? "&lt;" : *text == '>' ? "&gt;"
                          : *text == '"' ? "&quot;" : NULL;
        if (named)
            bys_text_add(out, named);
        else
            bys_text_add_bytes(out, text, 1);
    }
}

static void add_doc(bys_text *out, const char *indent, const char *first, const char *second)
{
    bys_text_addf(out, "%s<xs:annotation><xs:documentation>", indent);
    add_escaped(out, first);
    if (*second) {
        bys_text_add(out, " (");
        add_escaped(out, second);
        bys_text_add(out, ")");
    }
    bys_text_add(out, "</xs:documentation></xs:annotation>\n");
}

#define NUMBER "[+\\-]?([0-9]+(\\.[0-9]*)?|\\.[0-9]+)([eE][+\\-]?[0-9]+)?"

static void dim_type_name(bys_text *out, bys_dim dim)
{
    for (const char *p = bys_dim_name(dim); *p; p++)
        bys_text_add_bytes(out, *p == ' ' ? "-" : p, 1);
}

static void add_quantity_type(bys_text *out, bys_dim dim, bool several)
{
    bys_text units = {0};
    for (size_t i = 0; i < bys_unit_count(); i++)
        if (bys_unit_at(i)->dim == dim)
            bys_text_addf(&units, "%s%s", units.length ? "|" : "", bys_unit_at(i)->name);
    const char *may = dim == BYS_DIM_FRACTION ? "?" : "";
    bys_text_addf(out, "  <xs:simpleType name=\"%s", several ? "list-of-" : "");
    dim_type_name(out, dim);
    bys_text_add(out, "\">\n    <xs:restriction base=\"xs:token\">\n      <xs:pattern value=\"");
    bys_text_addf(out, NUMBER " ?(%s)%s", units.data, may);
    if (several)
        bys_text_addf(out, "( ?, ?" NUMBER " ?(%s)%s)*", units.data, may);
    bys_text_add(out, "\"/>\n    </xs:restriction>\n  </xs:simpleType>\n");
    bys_text_free(&units);
}

static void add_plain_types(bys_text *out)
{
    bys_text_add(out,
        "  <xs:simpleType name=\"text\">\n    <xs:restriction base=\"xs:string\">\n"
        "      <xs:pattern value=\"(.|\\s)*\\S(.|\\s)*\"/>\n    </xs:restriction>\n  "
        "</xs:simpleType>\n"
        "  <xs:simpleType name=\"id\">\n    <xs:restriction base=\"xs:string\">\n"
        "      <xs:pattern value=\"[A-Za-z0-9][A-Za-z0-9_.\\-]{0,39}\"/>\n    </xs:restriction>\n"
        "  </xs:simpleType>\n"
        "  <xs:simpleType name=\"number\">\n    <xs:restriction base=\"xs:token\">\n"
        "      <xs:pattern value=\"" NUMBER "\"/>\n    </xs:restriction>\n  </xs:simpleType>\n"
        "  <xs:simpleType name=\"yes-or-no\">\n    <xs:restriction base=\"xs:string\">\n"
        "      <xs:enumeration value=\"yes\"/>\n      <xs:enumeration value=\"no\"/>\n"
        "    </xs:restriction>\n  </xs:simpleType>\n");
    for (int dim = 0; dim < BYS_DIM_COUNT; dim++)
        add_quantity_type(out, (bys_dim)dim, false);
    add_quantity_type(out, BYS_DIM_ANGLE, true);
}

static void add_choice_type(bys_text *out, const char *list)
{
    bys_text_add(out, "      <xs:simpleType>\n        <xs:restriction base=\"xs:string\">\n");
    while (*list) {
        size_t n = strcspn(list, "|");
        bys_text_addf(out, "          <xs:enumeration value=\"%.*s\"/>\n", (int)n, list);
        list += n + (list[n] == '|');
    }
    bys_text_add(out, "        </xs:restriction>\n      </xs:simpleType>\n");
}

static void add_attribute(bys_text *out, const bys_attr_rule *a)
{
    bys_text range = {0}, type = {0};
    bys_schema_range(&range, a);
    switch (a->type) {
    case BYS_V_TEXT:
    case BYS_V_REF: bys_text_add(&type, "text"); break;
    case BYS_V_ID: bys_text_add(&type, "id"); break;
    case BYS_V_FLAG: bys_text_add(&type, "yes-or-no"); break;
    case BYS_V_COUNT:
    case BYS_V_NUMBER: bys_text_add(&type, "number"); break;
    case BYS_V_QUANTITIES: bys_text_add(&type, "list-of-"); dim_type_name(&type, a->dim); break;
    case BYS_V_QUANTITY: dim_type_name(&type, a->dim); break;
    case BYS_V_CHOICE:
    case BYS_V_CHOICE_OR_QUANTITY: break;
    }
    bys_text_addf(out, "    <xs:attribute name=\"%s\"%s%s%s%s>\n", a->name,
                  a->required ? " use=\"required\"" : "", type.data ? " type=\"" : "",
                  type.data ? type.data : "", type.data ? "\"" : "");
    add_doc(out, "      ", a->meaning, range.data ? range.data : "");
    if (a->type == BYS_V_CHOICE)
        add_choice_type(out, a->list);
    if (a->type == BYS_V_CHOICE_OR_QUANTITY) {
        bys_text_add(out, "      <xs:simpleType>\n      <xs:union memberTypes=\"");
        dim_type_name(out, a->dim);
        bys_text_add(out, "\">\n");
        add_choice_type(out, a->list);
        bys_text_add(out, "      </xs:union>\n      </xs:simpleType>\n");
    }
    bys_text_add(out, "    </xs:attribute>\n");
    bys_text_free(&range);
    bys_text_free(&type);
}

static bool lies_in(const bys_element_rule *rule, const char *key)
{
    return bys_list_index(rule->parents, key, strlen(key)) >= 0;
}

// Children in any order: each at most once under xs:all, else any number under xs:choice.
static void add_children(bys_text *out, const bys_element_rule *rule)
{
    int children = 0;
    bool all_once = true;
    for (int i = 0; i < bys_schema_count(); i++)
        if (lies_in(bys_schema_at(i), rule->key)) {
            children++;
            all_once = all_once && bys_schema_at(i)->once;
        }
    if (children == 0)
        return;
    bys_text_add(out, all_once ? "    <xs:all>\n"
                               : "    <xs:choice minOccurs=\"0\" maxOccurs=\"unbounded\">\n");
    for (int i = 0; i < bys_schema_count(); i++) {
        const bys_element_rule *child = bys_schema_at(i);
        if (lies_in(child, rule->key))
            bys_text_addf(out, "      <xs:element name=\"%s\" type=\"%s\"%s/>\n", child->name,
                          child->key, all_once && !child->needed ? " minOccurs=\"0\"" : "");
    }
    bys_text_add(out, all_once ? "    </xs:all>\n" : "    </xs:choice>\n");
}

// Is the row part of the tree that starts at `root`?
static bool reaches(const bys_element_rule *rule, const char *root)
{
    if (strcmp(rule->key, root) == 0)
        return true;
    for (int i = 0; i < bys_schema_count(); i++)
        if (lies_in(rule, bys_schema_at(i)->key) && reaches(bys_schema_at(i), root))
            return true;
    return false;
}

void schema_text_xsd(bys_text *out, const char *kind)
{
    const char *root = strcmp(kind, "parts") == 0   ? "catalogue-parts"
                       : strcmp(kind, "rules") == 0 ? "profile" : "site";
    bys_text_addf(out,
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
        "<!-- SPDX-License-Identifier: GPL-3.0-or-later -->\n"
        "<!-- For editors. Written from the reader's own table, which a test compares with this "
        "file; the\n"
        "     reader itself also checks ranges, references and what belongs together. -->\n"
        "<xs:schema xmlns:xs=\"http://www.w3.org/2001/XMLSchema\" xmlns=\"urn:byssus:%s:1\"\n"
        "           targetNamespace=\"urn:byssus:%s:1\" elementFormDefault=\"qualified\">\n"
        "  <xs:element name=\"%s\" type=\"%s\"/>\n",
        kind, kind, bys_schema_key(root)->name, root);
    for (int i = 0; i < bys_schema_count(); i++) {
        const bys_element_rule *rule = bys_schema_at(i);
        if (!reaches(rule, root))
            continue;
        bys_text_addf(out, "  <xs:complexType name=\"%s\">\n", rule->key);
        add_doc(out, "    ", rule->meaning, "");
        add_children(out, rule);
        for (int j = 0; j < rule->attr_count; j++)
            add_attribute(out, &rule->attrs[j]);
        bys_text_add(out, "  </xs:complexType>\n");
    }
    add_plain_types(out);
    bys_text_add(out, "</xs:schema>\n");
}

// ---- manual page -----------------------------------------------------------------------------

// A sentence on lines of its own: a capital letter, a full stop, lines of less than 80 bytes.
static void add_sentence(bys_text *out, const char *text)
{
    size_t column = 0;
    for (const char *p = text; *p;) {
        size_t n = strcspn(p, " ");
        if (column > 0)
            bys_text_add(out, column + 1 + 2 * n > 76 ? "\n" : " ");
        column = column + 1 + 2 * n > 76 ? 0 : column + 1;
        for (size_t i = 0; i < n; i++, column++) {
            char c = p == text && i == 0 ? (char)toupper((unsigned char)p[i]) : p[i];
            if (c == '-')
                bys_text_add(out, "\\");
            bys_text_add_bytes(out, &c, 1);
        }
        p += n + strspn(p + n, " ");
    }
    bys_text_add(out, ".\n");
}

static void man_attribute(bys_text *out, const bys_attr_rule *a)
{
    bys_text range = {0}, type = {0};
    bys_schema_range(&range, a);
    bys_schema_type(&type, a);
    if (range.length)
        bys_text_addf(&type, ", %s", range.data);
    if (!a->required)
        bys_text_add(&type, "; may be left out");
    bys_text_addf(out, ".It Cm %s\n", a->name);
    add_sentence(out, type.data);
    add_sentence(out, a->meaning);
    bys_text_free(&range);
    bys_text_free(&type);
}

static void man_element(bys_text *out, const bys_element_rule *rule)
{
    bys_text_addf(out, ".Ss %s", *rule->parents ? rule->name : rule->key);
    if (*rule->parents) {
        bys_text_add(out, " in ");
        bys_schema_homes(out, rule, " and ");
    }
    bys_text_add(out, "\n");
    add_sentence(out, rule->meaning);
    if (!*rule->parents && strcmp(rule->key, rule->name) != 0)
        bys_text_addf(out, "The outermost element is\n.Aq %s .\n", rule->name);
    if (rule->needed)
        bys_text_add(out, rule->once ? "Stands exactly once.\n" : "Stands at least once.\n");
    else if (rule->once && *rule->parents)
        bys_text_add(out, "Stands at most once.\n");
    if (rule->attr_count == 0)
        return;
    bys_text_add(out, ".Bl -tag -width Ds\n");
    for (int j = 0; j < rule->attr_count; j++)
        man_attribute(out, &rule->attrs[j]);
    bys_text_add(out, ".El\n");
}

static void man_units(bys_text *out)
{
    bys_text_add(out, ".Sh UNITS\n.Bl -tag -width Ds\n");
    for (int dim = 0; dim < BYS_DIM_COUNT; dim++) {
        bys_text_addf(out, ".It %s\n", bys_dim_name((bys_dim)dim));
        bys_dim_spellings(out, (bys_dim)dim);
        bys_text_add(out, dim == BYS_DIM_FRACTION ? ", or a bare number\n" : "\n");
    }
    bys_text_add(out, ".El\n");
}

void schema_text_man(bys_text *out)
{
    bys_text_add(out, SCHEMA_MAN_BEGIN);
    man_units(out);
    bys_text_add(out, ".Sh ELEMENTS\n");
    for (int i = 0; i < bys_schema_count(); i++)
        man_element(out, bys_schema_at(i));
    bys_text_add(out, SCHEMA_MAN_END);
}
