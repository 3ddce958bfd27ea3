// SPDX-License-Identifier: GPL-3.0-or-later
// What all binding steps share: faults, arrays, references.
#include "base/number.h"
#include "site/bind.h"

#include <math.h>
#include <string.h>

void bys_say(bys_reading *r, int code, bys_place place, const bys_xml_node *node,
             const char *format, ...)
{
    char text[600];
    va_list list;
    va_start(list, format);
    bys_format_list(text, sizeof text, format, list);
    va_end(list);
    bys_messages_add(r->messages, BYS_FAULT, code, place, "%s%s%s",
                     node ? bys_node_label(node).text : "", node ? " " : "", text);
}

void *bys_array(bys_reading *r, int n, size_t size)
{
    void *out = bys_arena_get(r->arena, (size_t)(n > 0 ? n : 1) * size);
    if (!out)
        r->failed = true;
    return out;
}

bys_item bys_item_of(const bys_xml_node *node)
{
    return (bys_item){
        .id = bys_node_text(node, "id"),
        .name = bys_node_text(node, "name"),
        .source = bys_node_text(node, "source"),
        .basis = (bys_basis)bys_node_choice(node, "basis", BYS_BASIS_ASSUMED),
        .place = node->place,
    };
}

void bys_say_twice(bys_reading *r, const bys_ids *ids, const char *what)
{
    for (int i = 1; i < ids->count; i++) {
        const bys_id *first = &ids->at[i - 1], *second = &ids->at[i];
        if (strcmp(first->id, second->id) != 0)
            continue;
        const char *file = bys_messages_file_name(r->messages, first->place.file);
        bool same = first->place.file == second->place.file;
        bys_messages_add(r->messages, BYS_FAULT, BYS_M_duplicate_id, second->place,
                         "the %s \"%s\" exists already, in line %d%s%s; rename one", what,
                         second->id, first->place.line, same ? "" : " of ", same ? "" : file);
    }
}

bys_label bys_suggest(const bys_ids *ids, const char *word)
{
    bys_label out = {""};
    if (ids->count > 5000)
        return out; // the search would take longer than it helps
    bys_near near = bys_near_start(word);
    for (int i = 0; i < ids->count; i++)
        bys_near_try(&near, ids->at[i].id);
    if (bys_near_best(&near))
        bys_format(out.text, sizeof out.text, "; did you mean \"%s\"?", bys_near_best(&near));
    return out;
}

static const char *kind_name(bys_part_kind kind)
{
    static const char *const names[] = {"rope", "chain", "connector", "sinker",
                                        "float", "gear", "raft", "anchor", "drag"};
    return names[kind];
}

bool bys_in_kinds(bys_part_kind kind, const char *kinds)
{
    const char *name = kind_name(kind);
    return bys_list_index(kinds, name, strlen(name)) >= 0;
}

const bys_part *bys_part_ref(bys_reading *r, const bys_xml_node *node, const char *attr)
{
    const bys_xml_attr *a = bys_xml_find(node, attr);
    if (!a || !a->ok)
        return NULL;
    const char *kinds = bys_schema_attr(node->rule, attr)->list;
    int at = bys_ids_find(&r->parts, a->value);
    if (at < 0) {
        bys_say(r, BYS_M_unknown_reference, a->place, node,
                "names the part \"%.60s\", which does not exist%s", a->value,
                bys_suggest(&r->parts, a->value).text);
        return NULL;
    }
    const bys_part *part = &r->site->parts[at];
    r->part_used[at] = true;
    if (bys_in_kinds(part->kind, kinds))
        return part;
    bys_say(r, BYS_M_wrong_part_kind, a->place, node, "names \"%.60s\", which is of kind %s; it "
                                                      "needs "
            "one of kind %s", a->value, kind_name(part->kind),
            strcmp(kinds, "rope|chain") == 0 ? "rope or chain" : kinds);
    return NULL;
}

static const char *simple_ref(bys_reading *r, const bys_xml_node *node, const char *attr,
                              const bys_ids *ids, const char *what)
{
    const bys_xml_attr *a = bys_xml_find(node, attr);
    if (!a || !a->ok)
        return "";
    if (bys_ids_find(ids, a->value) >= 0)
        return a->value;
    bys_say(r, BYS_M_unknown_reference, a->place, node,
            "names the %s \"%.60s\", which does not exist%s", what, a->value,
            bys_suggest(ids, a->value).text);
    return "";
}

const char *bys_stage_ref(bys_reading *r, const bys_xml_node *node, const char *attr)
{
    return simple_ref(r, node, attr, &r->stages, "crop stage");
}

const char *bys_level_ref(bys_reading *r, const bys_xml_node *node, const char *attr)
{
    return simple_ref(r, node, attr, &r->levels, "water level");
}

const bys_block *bys_line_block(const bys_site *site, const char *line)
{
    for (int i = 0; i < site->block_count; i++) {
        const bys_block *block = &site->blocks[i];
        size_t n = strlen(block->item.id);
        if (n == 0 || strncmp(line, block->item.id, n) != 0)
            continue;
        size_t width = block->lines > 99 ? 3 : 2, digits = strspn(line + n, "0123456789");
        if (digits != width || line[n + digits] != '\0')
            continue;
        int number = 0;
        for (size_t k = 0; k < width; k++)
            number = 10 * number + (line[n + k] - '0');
        if (number >= 1 && number <= block->lines)
            return block;
    }
    return NULL;
}

const char *bys_compass(double direction)
{
    static const char *const names[] = {"N", "NE", "E", "SE", "S", "SW", "W", "NW"};
    double eighths = floor(direction / (BYS_TURN / 8) + 0.5);
    int at = (int)fmod(eighths, 8);
    return names[(at + 8) % 8];
}

void bys_read_spacing(bys_reading *r, const bys_xml_node *node, double *every, int *count)
{
    bool has_every = bys_node_has(node, "every"), has_count = bys_node_has(node, "count");
    *every = bys_node_number(node, "every", NAN);
    *count = bys_node_count(node, "count", 0);
    if (has_every != has_count)
        return;
    bys_say(r, BYS_M_pattern_spacing, bys_node_place(node, has_count ? "count" : "part"), node,
            has_every ? "states both every and count; keep one"
                      : "states neither every nor count; write every=\"4 m\" or count=\"30\"");
}
