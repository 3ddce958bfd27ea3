// SPDX-License-Identifier: GPL-3.0-or-later
// The reader's table, the schemas for editors and the manual page say the same.
#include "site/schema_text.h"
#include "support/suite.h"
#include <byssus/site.h>

#include <dirent.h>
#include <libxml/xmlschemas.h>
#include <stdio.h>
#include <string.h>

static char *slurp(const char *path)
{
    FILE *file = fopen(path, "rb");
    ck_assert_msg(file != NULL, "%s is missing", path);
    char *text = calloc(1, 1 << 20);
    ck_assert_ptr_nonnull(text);
    ck_assert_uint_lt(fread(text, 1, (1 << 20) - 1, file), (1 << 20) - 1);
    fclose(file);
    return text;
}

// ---- sets of lines -----------------------------------------------------------------------------

typedef struct {
    char **at;
    size_t count;
} lines;

static void add_line(lines *set, const char *text)
{
    for (size_t i = 0; i < set->count; i++)
        if (strcmp(set->at[i], text) == 0)
            return;
    set->at = realloc(set->at, (set->count + 1) * sizeof *set->at);
    ck_assert_ptr_nonnull(set->at);
    set->at[set->count] = strdup(text);
    ck_assert_ptr_nonnull(set->at[set->count++]);
}

static void expect_within(const lines *part, const lines *whole, const char *where)
{
    for (size_t i = 0; i < part->count; i++) {
        bool found = false;
        for (size_t k = 0; k < whole->count; k++)
            found = found || strcmp(part->at[i], whole->at[k]) == 0;
        ck_assert_msg(found, "\"%s\" is not in %s", part->at[i], where);
    }
}

static void free_lines(lines *set)
{
    for (size_t i = 0; i < set->count; i++)
        free(set->at[i]);
    free(set->at);
}

// "home/element" and "home/element@attribute" for each home of each row of the public table.
static void table_lines(lines *set)
{
    bys_text table = {0};
    bys_site_table(&table);
    ck_assert(!table.failed);
    for (char *row = strtok(table.data, "\n"); row; row = strtok(NULL, "\n")) {
        char element[120], attribute[60] = "", line[300];
        const char *tab = strchr(row, '\t');
        ck_assert_ptr_nonnull(tab);
        snprintf(element, sizeof element, "%.*s", (int)(tab - row), row);
        snprintf(attribute, sizeof attribute, "%.*s", (int)strcspn(tab + 1, "\t"), tab + 1);
        const char *slash = strchr(element, '/'), *name = slash ? slash + 1 : element;
        for (const char *home = element; home < name;) {
            size_t n = strcspn(home, "|/");
            snprintf(line, sizeof line, "%.*s/%s%s%s", (int)n, home, name, *attribute ? "@" : "",
                     attribute);
            add_line(set, line);
            home += n + 1;
        }
        if (!slash) {
            snprintf(line, sizeof line, "/%s%s%s", name, *attribute ? "@" : "", attribute);
            add_line(set, line);
        }
    }
    bys_text_free(&table);
}

// ---- the schemas -------------------------------------------------------------------------------

static xmlNodePtr named_type(xmlNodePtr schema, const xmlChar *name)
{
    for (xmlNodePtr node = schema->children; node; node = node->next) {
        if (node->type != XML_ELEMENT_NODE || xmlStrcmp(node->name, BAD_CAST "complexType") != 0)
            continue;
        xmlChar *own = xmlGetProp(node, BAD_CAST "name");
        bool same = xmlStrcmp(own, name) == 0;
        xmlFree(own);
        if (same)
            return node;
    }
    ck_abort_msg("the schema has no type \"%s\"", (const char *)name);
    return NULL;
}

static void walk_type(lines *set, xmlNodePtr schema, xmlNodePtr type, const char *shown,
                      const char *home, int depth);

static void walk_children(lines *set, xmlNodePtr schema, xmlNodePtr node, const char *shown,
                          const char *home, int depth)
{
    for (xmlNodePtr child = node->children; child; child = child->next) {
        if (child->type != XML_ELEMENT_NODE)
            continue;
        xmlChar *name = xmlGetProp(child, BAD_CAST "name"), *type = xmlGetProp(child, BAD_CAST
            "type");
        char line[300];
        if (xmlStrcmp(child->name, BAD_CAST "attribute") == 0) {
            snprintf(line, sizeof line, "%s/%s@%s", home, shown, (char *)name);
            add_line(set, line);
        } else if (xmlStrcmp(child->name, BAD_CAST "element") == 0) {
            walk_type(set, schema, named_type(schema, type), (char *)name, shown, depth + 1);
        } else if (xmlStrcmp(child->name, BAD_CAST "annotation") != 0) {
            walk_children(set, schema, child, shown, home, depth);
        }
        xmlFree(name);
        xmlFree(type);
    }
}

static void walk_type(lines *set, xmlNodePtr schema, xmlNodePtr type, const char *shown,
                      const char *home, int depth)
{
    ck_assert_int_lt(depth, 8);
    char line[300];
    snprintf(line, sizeof line, "%s/%s", home, shown);
    add_line(set, line);
    walk_children(set, schema, type, shown, home, depth);
}

static void schema_lines(lines *set, const char *path, const char *root)
{
    xmlDocPtr doc = xmlReadFile(path, NULL, XML_PARSE_NONET);
    ck_assert_msg(doc != NULL, "%s cannot be read", path);
    xmlNodePtr schema = xmlDocGetRootElement(doc);
    walk_type(set, schema, named_type(schema, BAD_CAST root), root, "", 0);
    xmlFreeDoc(doc);
}

START_TEST(table_and_schemas_agree)
{
    lines table = {0}, schemas = {0};
    table_lines(&table);
    schema_lines(&schemas, BYS_SITEFILES "/byssus.xsd", "site");
    schema_lines(&schemas, BYS_SITEFILES "/byssus-parts.xsd", "catalogue-parts");
    schema_lines(&schemas, BYS_SITEFILES "/byssus-rules.xsd", "profile");
    ck_assert_uint_gt(table.count, 300);
    expect_within(&table, &schemas, "the schemas");
    expect_within(&schemas, &table, "the reader's table");
    free_lines(&table);
    free_lines(&schemas);
}
END_TEST

// ---- the manual page ---------------------------------------------------------------------------

// One "home/element" a home of a heading ".Ss element in home and home".
static int headings(char found[8][120], const char *heading)
{
    char name[60], homes[200] = "";
    int n = 0;
    const char *in = strstr(heading, " in ");
    snprintf(name, sizeof name, "%.*s", in ? (int)(in - heading) : (int)strlen(heading), heading);
    snprintf(homes, sizeof homes, "%s", in ? in + 4 : "");
    char *home = homes;
    do {
        char *and = strstr(home, " and ");
        if (and)
            *and = '\0';
        snprintf(found[n++], 120, "%s/%s", home, name);
        home = and ? and + 5 : NULL;
    } while (home && n < 8);
    return n;
}

static void manual_lines(lines *set, char *page)
{
    char found[8][120];
    int n = 0;
    char *begin = strstr(page, ".Sh ELEMENTS\n"), *end = strstr(page, SCHEMA_MAN_END);
    ck_assert(begin && end && begin < end);
    *end = '\0';
    for (char *row = strtok(begin, "\n"); row; row = strtok(NULL, "\n")) {
        if (strncmp(row, ".Ss ", 4) == 0) {
            n = headings(found, row + 4);
            for (int i = 0; i < n; i++)
                add_line(set, found[i]);
        } else if (strncmp(row, ".It Cm ", 7) == 0) {
            for (int i = 0; i < n; i++) {
                char line[300];
                snprintf(line, sizeof line, "%.119s@%.60s", found[i], row + 7);
                add_line(set, line);
            }
        }
    }
}

START_TEST(table_and_manual_agree)
{
    lines table = {0}, manual = {0};
    char *page = slurp(BYS_SITEFILES "/../man/byssus-site.5");
    table_lines(&table);
    manual_lines(&manual, page);
    expect_within(&table, &manual, "man/byssus-site.5");
    expect_within(&manual, &table, "the reader's table");
    free_lines(&table);
    free_lines(&manual);
    free(page);
}
END_TEST

// The kept files are what `schema_files` writes now, types, units and meanings included.
START_TEST(kept_files_are_fresh)
{
    static const char *const kept[][2] = {{"site", BYS_SITEFILES "/byssus.xsd"},
                                          {"parts", BYS_SITEFILES "/byssus-parts.xsd"},
                                          {"rules", BYS_SITEFILES "/byssus-rules.xsd"}};
    for (size_t i = 0; i < 3; i++) {
        bys_text fresh = {0};
        schema_text_xsd(&fresh, kept[i][0]);
        char *old = slurp(kept[i][1]);
        ck_assert_msg(!fresh.failed && strcmp(fresh.data, old) == 0,
                      "%s is old: write it anew with schema_files %s", kept[i][1], kept[i][0]);
        free(old);
        bys_text_free(&fresh);
    }
    bys_text fresh = {0};
    schema_text_man(&fresh);
    char *page = slurp(BYS_SITEFILES "/../man/byssus-site.5");
    ck_assert_msg(strstr(page, fresh.data) != NULL,
                  "man/byssus-site.5 is old: put the output of schema_files man between its marks");
    free(page);
    bys_text_free(&fresh);
}
END_TEST

// ---- files against the schemas -----------------------------------------------------------------

static void quiet(void *user, xmlErrorPtr error)
{
    if (user && !*(char *)user)
        snprintf(user, 400, "line %d: %s", error->line, error->message);
}

static xmlSchemaPtr open_schema(const char *path)
{
    xmlSchemaParserCtxtPtr parser = xmlSchemaNewParserCtxt(path);
    xmlSchemaPtr schema = xmlSchemaParse(parser);
    xmlSchemaFreeParserCtxt(parser);
    ck_assert_msg(schema != NULL, "%s is no schema", path);
    return schema;
}

static bool valid(xmlSchemaPtr schema, const char *text, char why[400])
{
    why[0] = '\0';
    xmlDocPtr doc = xmlReadMemory(text, (int)strlen(text), NULL, NULL, XML_PARSE_NONET);
    ck_assert_ptr_nonnull(doc);
    xmlSchemaValidCtxtPtr context = xmlSchemaNewValidCtxt(schema);
    xmlSchemaSetValidStructuredErrors(context, quiet, why);
    int result = xmlSchemaValidateDoc(context, doc);
    xmlSchemaFreeValidCtxt(context);
    xmlFreeDoc(doc);
    return result == 0;
}

static int check_folder(xmlSchemaPtr schema, const char *folder)
{
    DIR *list = opendir(folder);
    ck_assert_msg(list != NULL, "%s is missing", folder);
    int n = 0;
    for (struct dirent *entry; (entry = readdir(list));) {
        size_t length = strlen(entry->d_name);
        if (length < 5 || strcmp(entry->d_name + length - 4, ".xml") != 0)
            continue;
        char path[600], why[400];
        snprintf(path, sizeof path, "%s/%s", folder, entry->d_name);
        char *text = slurp(path);
        ck_assert_msg(valid(schema, text, why), "%s: %s", path, why);
        free(text);
        n++;
    }
    closedir(list);
    return n;
}

START_TEST(schemas_accept_what_the_reader_accepts)
{
    static const char *const kinds[] = {"block", "raft-grid", "network"};
    xmlSchemaPtr site = open_schema(BYS_SITEFILES "/byssus.xsd");
    char why[400];
    for (size_t i = 0; i < 3; i++)
        ck_assert_msg(valid(site, bys_site_template(kinds[i]), why), "%s: %s", kinds[i], why);
    ck_assert_int_ge(check_folder(site, BYS_SITEFILES), 4);
    ck_assert_int_ge(check_folder(site, BYS_SITEFILES "/textbook"), 15);
    xmlSchemaFree(site);
    xmlSchemaPtr parts = open_schema(BYS_SITEFILES "/byssus-parts.xsd");
    ck_assert_int_ge(check_folder(parts, BYS_SITEFILES "/catalogue"), 1);
    xmlSchemaFree(parts);
    xmlSchemaPtr rules = open_schema(BYS_SITEFILES "/byssus-rules.xsd");
    ck_assert_int_ge(check_folder(rules, BYS_SITEFILES "/rules"), 2);
    xmlSchemaFree(rules);
}
END_TEST

START_TEST(schema_refuses_faults)
{
    static const char *const faulty[] = {
        "<site xmlns='urn:byssus:site:1' name='x'><water density='1025'/></site>",
        "<site xmlns='urn:byssus:site:1' name='x'><water density='1025 kN'/></site>",
        "<site xmlns='urn:byssus:site:1' name='x'><water density='1,025 t/m3'/></site>",
        ("<site xmlns='urn:byssus:site:1' name='x'><water density='1025 kg/m3' "
         "colour='grey'/></site>"),
        "<site xmlns='urn:byssus:site:1' name='x'><frame kind='lokal'/></site>",
        "<site xmlns='urn:byssus:site:1' name='x'><watr/></site>",
        "<site xmlns='urn:byssus:site:1'/>",
        "<site xmlns='urn:byssus:site:2' name='x'/>"};
    xmlSchemaPtr site = open_schema(BYS_SITEFILES "/byssus.xsd");
    char why[400];
    ck_assert(valid(site, "<site xmlns='urn:byssus:site:1' name='x'>"
                          "<water density=' 1.025 t/m3'/></site>", why));
    for (size_t i = 0; i < sizeof faulty / sizeof faulty[0]; i++)
        ck_assert_msg(!valid(site, faulty[i], why), "accepted: %s", faulty[i]);
    xmlSchemaFree(site);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("schema");
    suite_test(s, table_and_schemas_agree);
    suite_test(s, table_and_manual_agree);
    suite_test(s, kept_files_are_fresh);
    suite_test(s, schemas_accept_what_the_reader_accepts);
    suite_test(s, schema_refuses_faults);
    return suite_run(s, NULL);
}
