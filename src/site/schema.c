// SPDX-License-Identifier: GPL-3.0-or-later
// Look-ups in the table of the format, and the table as text.
#include "site/schema.h"
#include <byssus/site.h>

#include <string.h>

int bys_schema_count(void)
{
    return bys_schema_site_count + bys_schema_part_count + bys_schema_layout_count;
}

const bys_element_rule *bys_schema_at(int i)
{
    if (i < bys_schema_site_count)
        return &bys_schema_site_rows[i];
    i -= bys_schema_site_count;
    if (i < bys_schema_part_count)
        return &bys_schema_part_rows[i];
    return &bys_schema_layout_rows[i - bys_schema_part_count];
}

int bys_schema_index(const bys_element_rule *rule)
{
    int i = 0;
    while (i < bys_schema_count() && bys_schema_at(i) != rule)
        i++;
    return i;
}

const bys_element_rule *bys_schema_key(const char *key)
{
    for (int i = 0; i < bys_schema_count(); i++)
        if (strcmp(bys_schema_at(i)->key, key) == 0)
            return bys_schema_at(i);
    return NULL;
}

int bys_list_index(const char *list, const char *word, size_t n)
{
    for (int i = 0; list && *list; i++) {
        size_t length = strcspn(list, "|");
        if (length == n && memcmp(list, word, n) == 0)
            return i;
        list += length + (list[length] == '|');
    }
    return -1;
}

const bys_element_rule *bys_schema_child(const bys_element_rule *parent, const char *name)
{
    for (int i = 0; i < bys_schema_count(); i++) {
        const bys_element_rule *rule = bys_schema_at(i);
        if (strcmp(rule->name, name) != 0)
            continue;
        if (parent ? bys_list_index(rule->parents, parent->key, strlen(parent->key)) >= 0
                   : !*rule->parents)
            return rule;
    }
    return NULL;
}

const bys_attr_rule *bys_schema_attr(const bys_element_rule *rule, const char *name)
{
    for (int i = 0; i < rule->attr_count; i++)
        if (strcmp(rule->attrs[i].name, name) == 0)
            return &rule->attrs[i];
    return NULL;
}

static void add_list(bys_text *out, const char *list)
{
    for (; *list; list++)
        bys_text_add(out, *list == '|' ? ", " : (char[2]){*list, '\0'});
}

void bys_schema_type(bys_text *out, const bys_attr_rule *rule)
{
    switch (rule->type) {
    case BYS_V_TEXT: bys_text_add(out, "text"); break;
    case BYS_V_ID: bys_text_add(out, "id"); break;
    case BYS_V_COUNT: bys_text_add(out, "whole number"); break;
    case BYS_V_FLAG: bys_text_add(out, "yes or no"); break;
    case BYS_V_NUMBER: bys_text_add(out, "number"); break;
    case BYS_V_QUANTITY: bys_text_add(out, bys_dim_name(rule->dim)); break;
    case BYS_V_QUANTITIES: bys_text_addf(out, "list of %s", bys_dim_name(rule->dim)); break;
    case BYS_V_REF:
        bys_text_add(out, "id of: ");
        add_list(out, rule->list);
        break;
    case BYS_V_CHOICE:
        bys_text_add(out, "one of: ");
        add_list(out, rule->list);
        break;
    }
}

void bys_site_table(bys_text *out)
{
    for (int i = 0; i < bys_schema_count(); i++) {
        const bys_element_rule *rule = bys_schema_at(i);
        bys_text_addf(out, "%s%s%s\t\telement, %s\t%s\t%s\n", rule->parents,
                      *rule->parents ? "/" : "", rule->name, rule->once ? "once" : "many",
                      rule->needed ? "required" : "optional", rule->meaning);
    }
    for (int i = 0; i < bys_schema_count(); i++) {
        const bys_element_rule *rule = bys_schema_at(i);
        for (int j = 0; j < rule->attr_count; j++) {
            const bys_attr_rule *a = &rule->attrs[j];
            bys_text_addf(out, "%s%s%s\t%s\t", rule->parents, *rule->parents ? "/" : "",
                          rule->name, a->name);
            bys_schema_type(out, a);
            bys_text_addf(out, "\t%s\t%s\n", a->required ? "required" : "optional", a->meaning);
        }
    }
}
