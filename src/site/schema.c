// SPDX-License-Identifier: GPL-3.0-or-later
// Look-ups in the table of the format, and the table as text.
#include "site/schema.h"
#include <byssus/site.h>

#include <string.h>

int bys_schema_count(void)
{
    return bys_schema_site_count + bys_schema_part_count + bys_schema_layout_count +
           bys_schema_condition_count;
}

const bys_element_rule *bys_schema_at(int i)
{
    if (i < bys_schema_site_count)
        return &bys_schema_site_rows[i];
    i -= bys_schema_site_count;
    if (i < bys_schema_part_count)
        return &bys_schema_part_rows[i];
    i -= bys_schema_part_count;
    if (i < bys_schema_layout_count)
        return &bys_schema_layout_rows[i];
    return &bys_schema_condition_rows[i - bys_schema_layout_count];
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
    case BYS_V_CHOICE_OR_QUANTITY:
        bys_text_add(out, "one of: ");
        add_list(out, rule->list);
        if (rule->type == BYS_V_CHOICE_OR_QUANTITY)
            bys_text_addf(out, ", or %s", bys_dim_article(rule->dim));
        break;
    }
}

static bool bounded(double bound)
{
    return bound > -1e299 && bound < 1e299;
}

// Unit in which bounds are shown: degrees, litres are not SI but read well.
static const bys_unit *shown_unit(bys_dim dim)
{
    if (dim == BYS_DIM_ANGLE)
        return bys_unit_find("deg", 3);
    for (size_t i = 0; dim != BYS_DIM_COUNT && i < bys_unit_count(); i++)
        if (bys_unit_at(i)->dim == dim && bys_unit_at(i)->factor == 1)
            return bys_unit_at(i);
    return NULL;
}

void bys_schema_range(bys_text *out, const bys_attr_rule *rule)
{
    const bys_unit *unit = shown_unit(rule->dim);
    double factor = unit ? unit->factor : 1;
    const char *gap = unit ? " " : "", *name = unit ? unit->name : "";
    if (bounded(rule->least) && bounded(rule->most))
        bys_text_addf(out, "%.4g to %.4g%s%s", rule->least / factor, rule->most / factor, gap,
                      name);
    else if (bounded(rule->least))
        bys_text_addf(out, "%s %.4g%s%s", rule->open ? "more than" : "at least",
                      rule->least / factor, gap, name);
}

void bys_schema_homes(bys_text *out, const bys_element_rule *rule, const char *between)
{
    const char *last = "";
    for (const char *p = rule->parents; *p;) {
        size_t n = strcspn(p, "|");
        for (int i = 0; i < bys_schema_count(); i++) {
            const bys_element_rule *home = bys_schema_at(i);
            if (strlen(home->key) != n || memcmp(home->key, p, n) != 0)
                continue;
            // The two roots that share a name with an element of a site go by their keys.
            const char *shown = *home->parents ? home->name : home->key;
            if (strcmp(shown, last) != 0)
                bys_text_addf(out, "%s%s", *last ? between : "", shown);
            last = shown;
        }
        p += n + (p[n] == '|');
    }
}

static void add_row_head(bys_text *out, const bys_element_rule *rule)
{
    size_t before = out->length;
    bys_schema_homes(out, rule, "|");
    bys_text_addf(out, "%s%s", out->length > before ? "/" : "",
                  *rule->parents ? rule->name : rule->key);
}

static void add_attribute_row(bys_text *out, const bys_element_rule *rule, const bys_attr_rule *a)
{
    bys_text range = {0};
    bys_schema_range(&range, a);
    add_row_head(out, rule);
    bys_text_addf(out, "\t%s\t", a->name);
    bys_schema_type(out, a);
    bys_text_addf(out, "%s%s\t%s\t%s\n", range.length ? ", " : "", range.data ? range.data : "",
                  a->required ? "required" : "optional", a->meaning);
    out->failed = out->failed || range.failed;
    bys_text_free(&range);
}

void bys_site_table(bys_text *out)
{
    for (int i = 0; i < bys_schema_count(); i++) {
        const bys_element_rule *rule = bys_schema_at(i);
        add_row_head(out, rule);
        bys_text_addf(out, "\t\telement, %s\t%s\t%s\n", rule->once ? "once" : "many",
                      rule->needed ? "required" : "optional", rule->meaning);
    }
    for (int i = 0; i < bys_schema_count(); i++) {
        const bys_element_rule *rule = bys_schema_at(i);
        for (int j = 0; j < rule->attr_count; j++)
            add_attribute_row(out, rule, &rule->attrs[j]);
    }
}
