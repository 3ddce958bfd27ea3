// SPDX-License-Identifier: GPL-3.0-or-later
// What is not wrong but should be known: missing sections, missing strengths, unverified parts.
#include "base/number.h"
#include "site/bind.h"

#include <math.h>
#include <string.h>

static void warn(bys_reading *r, bys_severity severity, int code, bys_place place,
                 const char *text)
{
    bys_messages_add(r->messages, severity, code, place, "%s", text);
}

// A lease with lines or rafts needs its water and its frame; a textbook network does not.
static void need_sections(bys_reading *r)
{
    static const struct {
        const char *key;
        int code;
        const char *text;
    } wanted[] = {
        {"lease", BYS_M_no_lease, "no <lease> is stated: nothing is checked against a boundary"},
        {"seabed", BYS_M_no_seabed, "no <seabed> is stated: nothing can rest on it"},
        {"rules", BYS_M_no_rules, "no <rules> are stated: nothing can pass or fail"},
    };
    static const char *const needed[] = {"frame", "water"};
    for (size_t i = 0; i < sizeof needed / sizeof needed[0]; i++)
        if (!bys_node_next(r->root, NULL, needed[i]))
            bys_messages_add(r->messages, BYS_FAULT, BYS_M_missing_element, r->root->place,
                             "<site> has no <%s>, which blocks and raft grids need", needed[i]);
    for (size_t i = 0; i < sizeof wanted / sizeof wanted[0]; i++)
        if (!bys_node_next(r->root, NULL, wanted[i].key))
            warn(r, BYS_WARNING, wanted[i].code, r->root->place, wanted[i].text);
    if (r->site->current_count == 0)
        warn(r, BYS_WARNING, BYS_M_no_weather, r->root->place,
             "no <current> is stated: the site is solved in still water only");
    const bys_xml_node *water = bys_node_next(r->root, NULL, "water");
    if (water && bys_node_number_of(water, "level") < 2)
        warn(r, BYS_WARNING, BYS_M_no_levels, water->place,
             "fewer than two water levels are stated: low water makes legs slack, high water pulls "
             "floats under");
}

static void review_directions(bys_reading *r)
{
    const bys_site *site = r->site;
    const bys_xml_node *weather = bys_node_next(r->root, NULL, "weather");
    if (!weather || !r->profile || site->directions >= site->rules.min_directions)
        return;
    bys_messages_add(r->messages, BYS_WARNING, BYS_M_few_directions,
                     bys_node_place(weather, "directions"),
                     "%d directions are stated, %d are the least of profile %s: %d are used",
                     site->directions, site->rules.min_directions, site->rules.item.id,
                     site->rules.min_directions);
}

static bool lacks_strength(const bys_part *part)
{
    switch (part->kind) {
    case BYS_PART_ROPE:
    case BYS_PART_CHAIN:
        return isnan(part->u.line.strength);
    case BYS_PART_CONNECTOR:
        return isnan(part->u.connector.strength);
    default:
        return false;
    }
}

static void review_anchor(bys_reading *r, const bys_anchor_part *a, bys_place place,
                          const char *label)
{
    const char *wanted = r->site->rules.capacity_basis;
    if (a->kind == BYS_ANCHOR_SCREW && isnan(a->capacity) && a->record_count == 0 &&
        isnan(a->form.helix) && isnan(a->form.torque))
        bys_messages_add(r->messages, BYS_WARNING, BYS_M_no_strength, place,
                         "%s has no capacity: it will not be checked", label);
    if (*wanted && *a->capacity_kind && strcmp(wanted, a->capacity_kind) != 0 &&
        (a->capacity > 0 || a->record_count > 0) && !r->other_profile)
        bys_messages_add(r->messages, BYS_FAULT, BYS_M_kinds_mixed, place,
                         "%s has a capacity of the kind %s, and the factors of profile %s are for "
                         "%s: the two must not be mixed; give the anchor's %s capacity", label,
                         a->capacity_kind, r->site->rules.item.id, wanted, wanted);
}

static void review_parts(bys_reading *r)
{
    const bys_site *site = r->site;
    for (int i = 0; i < site->part_count; i++) {
        const bys_part *part = &site->parts[i];
        bys_place place = part->item.place;
        bys_label label = bys_node_label(r->part_nodes[i]);
        if (!r->part_used[i]) {
            if (i < r->own_parts)
                bys_messages_add(r->messages, BYS_NOTE, BYS_M_unused_part, place, "%s is not used",
                                 label.text);
            continue;
        }
        if (lacks_strength(part))
            bys_messages_add(r->messages, BYS_WARNING, BYS_M_no_strength, place,
                             "%s has no strength: it will not be checked", label.text);
        if (part->kind == BYS_PART_ANCHOR)
            review_anchor(r, &part->u.anchor, place, label.text);
        if (part->item.basis == BYS_BASIS_MEMORY || part->item.basis == BYS_BASIS_ASSUMED)
            bys_messages_add(r->messages, BYS_NOTE, BYS_M_unverified_part, place,
                             "%s rests on unverified numbers (basis: %s)", label.text,
                             bys_basis_name(part->item.basis));
    }
}

static void review_pretensions(bys_reading *r)
{
    for (const bys_xml_node *node = r->root; node; node = node->order) {
        const bool leg = bys_node_is(node, "leg") || bys_node_is(node, "raft-leg");
        if (!leg || !bys_node_has(node, "pretension"))
            continue;
        if (r->site->level_count > 1 && !bys_node_has(node, "level"))
            bys_messages_add(r->messages, BYS_WARNING, BYS_M_no_pretension_level,
                             bys_node_place(node, "pretension"),
                             "%s states a pretension without a level: the lowest is taken",
                             bys_node_label(node).text);
        if (!bys_node_has(node, "stage"))
            bys_messages_add(r->messages, BYS_WARNING, BYS_M_no_pretension_stage,
                             bys_node_place(node, "pretension"),
                             "%s states a pretension without a crop stage: bare is taken",
                             bys_node_label(node).text);
    }
}

void bys_review(bys_reading *r)
{
    const bys_site *site = r->site;
    bool lease = site->block_count + site->grid_count > 0;
    if (lease)
        need_sections(r);
    // Uses of parts are not all known while a reference is broken.
    if (bys_messages_faults(r->messages) > 0)
        return;
    review_directions(r);
    review_pretensions(r);
    if (lease)
        review_parts(r);
}

// ---- echo ------------------------------------------------------------------------------------

// "layout/block[L]/leg[ends]": names of the elements from the site down, each with its own id.
static void add_path(bys_text *out, const bys_xml_node *node)
{
    static const char *const names[] = {"id", "line", "for", "at", "point", "of", "name", "return"};
    if (node->parent && node->parent->parent)
        add_path(out, node->parent);
    bys_text_addf(out, "%s%s", out->length ? "/" : "", node->name);
    for (size_t i = 0; node->parent && i < sizeof names / sizeof names[0]; i++)
        if (bys_node_has(node, names[i])) {
            bys_text_addf(out, "[%s]", bys_node_text(node, names[i]));
            return;
        }
}

static int attributes(const bys_xml_node *root)
{
    int n = 0;
    for (const bys_xml_node *node = root; node; node = node->order)
        for (const bys_xml_attr *a = node->attrs; a; a = a->next)
            n += !*a->space && !a->made;
    return n;
}

static void echo_node(bys_reading *r, const bys_xml_node *node)
{
    bys_text path = {0};
    add_path(&path, node);
    for (const bys_xml_attr *a = node->attrs; a && path.data; a = a->next) {
        if (*a->space || a->made)
            continue;
        const char *where = bys_arena_format(r->arena, "%s/%s", path.data, a->name);
        if (!where)
            r->failed = true;
        r->site->echo[r->site->echo_count++] = (bys_echo){where ? where : "", a->value, a->place};
    }
    r->failed = r->failed || path.failed;
    bys_text_free(&path);
}

static bool used_here(const bys_reading *r, const bys_xml_node *node)
{
    for (int i = r->own_parts; i < r->site->part_count; i++)
        if (r->part_nodes[i] == node || r->part_nodes[i] == node->parent)
            return r->part_used[i];
    return false;
}

void bys_bind_echo(bys_reading *r)
{
    int n = attributes(r->root);
    for (int i = 0; i < r->catalogue_count; i++)
        n += attributes(r->catalogues[i]);
    r->site->echo = bys_array(r, n, sizeof *r->site->echo);
    if (!r->site->echo)
        return;
    for (const bys_xml_node *node = r->root; node; node = node->order)
        echo_node(r, node);
    for (int i = 0; i < r->catalogue_count; i++)
        for (const bys_xml_node *node = r->catalogues[i]->order; node; node = node->order)
            if (used_here(r, node))
                echo_node(r, node);
}
