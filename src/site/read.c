// SPDX-License-Identifier: GPL-3.0-or-later
// Reading a site file: bytes, tree, table, catalogues, rule profile, Site.
#include "base/number.h"
#include "base/sha256.h"
#include "site/bind.h"
#include "site/georef.h"
#include <byssus/site.h>

#include <stdlib.h>
#include <string.h>

// Where installed profiles and catalogues are looked for, in this order, if no folder is given.
static const char *const data_folders[] = {BYS_SITEFILES, BYS_DATA_DIR};

typedef struct {
    bys_reading *r;
    const char *path, *data_dir;
} opening;

// Folder of the site file with its last slash; "" for the current one.
static const char *folder_of(bys_arena *arena, const char *path)
{
    const char *slash = strrchr(path, '/');
    return bys_arena_format(arena, "%.*s", slash ? (int)(slash - path) + 1 : 0, path);
}

// A relative path in plain form: no root, no "..", no drive, no backslash.
static bool plain_path(const char *path)
{
    if (*path == '/' || strchr(path, '\\') || strchr(path, ':'))
        return false;
    for (const char *p = path; *p;) {
        size_t n = strcspn(p, "/");
        if (n == 2 && memcmp(p, "..", 2) == 0)
            return false;
        p += n + (p[n] == '/');
    }
    return true;
}

// Real path of folder/name if it exists and, links followed, still lies in the folder.
static bool inside(const char *folder, const char *path)
{
    char *root = realpath(*folder ? folder : ".", NULL);
    char *real = realpath(path, NULL);
    bool ok = false;
    if (root && real) {
        size_t n = strlen(root);
        ok = strncmp(real, root, n) == 0 && (real[n] == '/' || (n == 1 && *root == '/'));
    }
    free(root);
    free(real);
    return ok;
}

static bool exists(const char *path)
{
    char *real = realpath(path, NULL);
    free(real);
    return real != NULL;
}

typedef enum { FOUND, ABSENT, ESCAPES } search_result;

static search_result try_folder(const opening *o, const char *folder, const char *name,
                                const char **out)
{
    size_t n = strlen(folder);
    const char *slash = n == 0 || folder[n - 1] == '/' ? "" : "/";
    *out = bys_arena_format(o->r->arena, "%s%s%s", folder, slash, name);
    if (!*out) {
        o->r->failed = true;
        return ABSENT;
    }
    if (!exists(*out))
        return ABSENT;
    return inside(folder, *out) ? FOUND : ESCAPES;
}

static search_result find_data(const opening *o, const char *name, const char **out)
{
    if (o->data_dir)
        return try_folder(o, o->data_dir, name, out);
    search_result result = ABSENT;
    for (size_t i = 0; result == ABSENT && i < sizeof data_folders / sizeof data_folders[0]; i++)
        result = try_folder(o, data_folders[i], name, out);
    return result;
}

// Tree of a second file; NULL after faults, which are reported at the file itself.
static const bys_xml_node *open_tree(const opening *o, const char *path, const char *key,
                                     const char *kind)
{
    bys_reading *r = o->r;
    int file = bys_messages_file(r->messages, path);
    size_t size;
    bool missing;
    char *bytes = bys_file_bytes(r->arena, path, &size, file, r->messages, &missing);
    bys_xml_node *root = bytes ? bys_xml_read(r->arena, bytes, size, file, r->messages) : NULL;
    return root && bys_check_tree(root, key, kind, r->messages) ? root : NULL;
}

// A path written in the site file: beside it or below it, else among the installed data.
static const char *find_named(const opening *o, const bys_xml_node *node)
{
    bys_reading *r = o->r;
    const char *name = bys_node_text(node, "href"), *path = NULL;
    bys_place place = bys_node_place(node, "href");
    if (!bys_node_ok(node, "href"))
        return NULL;
    if (!plain_path(name)) {
        bys_say(r, BYS_M_path_escape, place, node,
                "names \"%.100s\", which could leave the site file's folder; write a relative path "
                "without \"..\", and move the file there", name);
        return NULL;
    }
    const char *folder = folder_of(r->arena, o->path);
    search_result result = folder ? try_folder(o, folder, name, &path) : ABSENT;
    if (result == ABSENT)
        result = find_data(o, name, &path);
    if (result == FOUND)
        return path;
    if (result == ESCAPES)
        bys_say(r, BYS_M_path_escape, place, node,
                "names \"%.100s\", a link that leaves its folder; put the file itself there", name);
    else
        bys_say(r, BYS_M_path_missing, place, node,
                "names \"%.100s\", which is neither below the site file's folder nor among the "
                "installed data", name);
    return NULL;
}

const char *bys_path_named(bys_reading *r, const bys_xml_node *node)
{
    const opening o = {r, r->path, r->data_dir};
    return find_named(&o, node);
}

static void open_catalogues(const opening *o)
{
    bys_reading *r = o->r;
    const bys_xml_node *parts = bys_node_next(r->root, NULL, "parts"), *node = NULL;
    while ((node = bys_node_next(parts, node, "catalogue"))) {
        if (r->catalogue_count == BYS_MOST_CATALOGUES) {
            bys_say(r, BYS_M_repeated_element, node->place, node,
                    "is one catalogue too many; at most %d are read", (int)BYS_MOST_CATALOGUES);
            return;
        }
        const char *path = find_named(o, node);
        const bys_xml_node *root = path ? open_tree(o, path, "catalogue-parts", "parts") : NULL;
        if (root)
            r->catalogues[r->catalogue_count++] = root;
    }
}

static const char *installed_profile(const opening *o, const bys_xml_node *node, bys_place place,
                                     const char *id)
{
    const char *name = bys_arena_format(o->r->arena, "rules/%s.xml", id), *path = NULL;
    if (!name || find_data(o, name, &path) == FOUND)
        return name ? path : NULL;
    bys_text known = {0};
    for (int i = 0; bys_profile_installed(i); i++)
        bys_text_addf(&known, "%s%s", i ? ", " : "", bys_profile_installed(i));
    bys_say(o->r, BYS_M_path_missing, place, node,
            "names the profile \"%s\", which is not installed; installed are %s; your own profile "
            "is named by href=\"….xml\"", id, known.data ? known.data : "");
    bys_text_free(&known);
    return NULL;
}

static void open_profile(const opening *o)
{
    bys_reading *r = o->r;
    const bys_xml_node *rules = bys_node_next(r->root, NULL, "rules");
    if (r->other_profile) {
        const char *path = installed_profile(o, r->root, r->root->place, r->other_profile);
        r->profile = path ? open_tree(o, path, "profile", "rules") : NULL;
        return;
    }
    if (!rules)
        return;
    bool by_name = bys_node_has(rules, "profile"), by_path = bys_node_has(rules, "href");
    if (by_name && by_path)
        bys_say(r, BYS_M_conflict, bys_node_place(rules, "href"), rules,
                "names an installed profile and a file; keep one of profile and href");
    const char *path = NULL;
    if (by_path) {
        path = find_named(o, rules);
    } else if (bys_node_ok(rules, "profile")) {
        path = installed_profile(o, rules, bys_node_place(rules, "profile"),
                                 bys_node_text(rules, "profile"));
    }
    if (path)
        r->profile = open_tree(o, path, "profile", "rules");
}

/// Bytes of the file of soundings or grid that the seabed names.
static void open_bed(const opening *o)
{
    static const char *const keys[] = {"soundings", "bed-grid"};
    bys_reading *r = o->r;
    const bys_xml_node *seabed = bys_node_next(r->root, NULL, "seabed");
    for (int i = 0; i < 2 && !r->bed_bytes; i++) {
        const bys_xml_node *node = bys_node_next(seabed, NULL, keys[i]);
        const char *path = node && bys_node_has(node, "href") ? find_named(o, node) : NULL;
        if (!path)
            continue;
        size_t size;
        bool missing;
        r->bed_file = bys_messages_file(r->messages, path);
        r->bed_bytes = bys_file_bytes(r->arena, path, &size, r->bed_file, r->messages, &missing);
    }
}

static void bind_all(bys_reading *r)
{
    void (*const steps[])(bys_reading *) = {
        bys_bind_place, bys_bind_bed, bys_bind_weather, bys_bind_stages, bys_bind_parts,
        bys_bind_layout, bys_bind_networks, bys_bind_stage_floats, bys_bind_gear_targets,
        bys_bind_bedding, bys_bind_conditions,
        bys_bind_rules, bys_review, bys_bind_echo};
    for (size_t i = 0; i < sizeof steps / sizeof steps[0] && !r->failed; i++)
        steps[i](r);
    bys_ids *all[] = {&r->parts, &r->stages, &r->levels, &r->items, &r->patterns, &r->anchors};
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++) {
        r->failed = r->failed || all[i]->failed;
        bys_ids_free(all[i]);
    }
}

// True if the file could be opened at all.
static bool read_site(const opening *o)
{
    bys_reading *r = o->r;
    int file = bys_messages_file(r->messages, o->path);
    size_t size = 0;
    bool missing;
    char *bytes = bys_file_bytes(r->arena, o->path, &size, file, r->messages, &missing);
    if (!bytes)
        return !missing;
    char hash[65];
    bys_sha256_hex(hash, bytes, size);
    r->site->sha256 = bys_arena_copy(r->arena, hash);
    r->site->file = bys_arena_copy(r->arena, o->path);
    r->failed = !r->site->sha256 || !r->site->file;
    bys_xml_node *root = bys_xml_read(r->arena, bytes, size, file, r->messages);
    if (!root || !bys_check_tree(root, "site", "site", r->messages))
        return true;
    r->root = root;
    open_catalogues(o);
    open_profile(o);
    open_bed(o);
    bys_bind_frame(r, root);
    bind_all(r);
    bys_georef_free(r->geo);
    r->geo = NULL;
    return true;
}

bys_rc bys_site_read(bys_site **out, const char *path, const char *data_dir,
                     bys_messages *messages, bys_error *err)
{
    return bys_site_read_by(out, path, data_dir, NULL, messages, err);
}

const char *bys_profile_installed(int i)
{
    static const char *const ids[] = {"ufc-4-159-03-2005",      "iso-19901-7-permanent",
                                      "dnv-os-e301-class-1",    "dnv-os-e301-class-2",
                                      "ns-9415-2009",           "own-template"};
    return i >= 0 && i < (int)(sizeof ids / sizeof ids[0]) ? ids[i] : NULL;
}

bys_rc bys_site_read_by(bys_site **out, const char *path, const char *data_dir,
                        const char *profile, bys_messages *messages, bys_error *err)
{
    *out = NULL;
    size_t before = bys_messages_faults(messages);
    bys_arena *arena = bys_arena_new();
    bys_site *site = arena ? bys_arena_get(arena, sizeof *site) : NULL;
    if (!site) {
        bys_arena_free(arena);
        return bys_error_set(err, BYS_ENOMEM, 0, "out of memory");
    }
    site->arena = arena;
    bys_reading r = {.arena = arena, .site = site, .messages = messages,
                     .path = path, .data_dir = data_dir, .other_profile = profile};
    opening o = {&r, path, data_dir};
    bool opened = read_site(&o);
    bys_messages_sort(messages);
    size_t faults = bys_messages_faults(messages) - before;
    if (faults == 0 && !r.failed) {
        *out = site;
        return BYS_OK;
    }
    bys_arena_free(arena);
    if (r.failed)
        return bys_error_set(err, BYS_ENOMEM, 0, "%s: out of memory", path);
    if (!opened)
        return bys_error_set(err, BYS_ENOINPUT, BYS_M_file_open, "%s: cannot be opened", path);
    return bys_error_set(err, BYS_EINPUT, 0, "%s: %zu fault%s", path, faults,
                         faults == 1 ? "" : "s");
}
