// SPDX-License-Identifier: GPL-3.0-or-later
// A comparison for programs: "byssus.compare/1".
#include "write/compare_rows.h"
#include "write/files.h"
#include "write/json.h"

static void add_design(bys_json *json, const char *key, const bys_design *design)
{
    bys_json_open(json, key, '{', true);
    bys_json_string(json, "site", design->site);
    bys_json_string(json, "notice", design->notice);
    bys_json_string(json, "file", design->file);
    bys_json_string(json, "sha256", design->sha256);
    bys_json_string(json, "verdict", design->verdict);
    bys_json_boolean(json, "incomplete", design->incomplete);
    bys_json_close(json, '}');
}

static void add_side(bys_json *json, const char *key, const bys_leg_side *side)
{
    bys_json_open(json, key, '{', true);
    bys_json_boolean(json, "there", side->there);
    bys_json_number(json, "tension_kN", side->tension_N / 1000.0);
    bys_json_number(json, "line_utilisation", side->line_use);
    bys_json_number(json, "anchor_utilisation", side->anchor_use);
    bys_json_string(json, "verdict", side->there ? bys_verdict_name(side->verdict) : "");
    bys_json_close(json, '}');
}

static void add_legs(bys_json *json, const bys_comparison *c)
{
    bys_json_open(json, "legs", '[', false);
    for (int i = 0; i < c->leg_count; i++) {
        const bys_leg_side a = bys_leg_before(c, &c->legs[i]), b = bys_leg_after(c, &c->legs[i]);
        bys_json_open(json, NULL, '{', false);
        bys_json_string(json, "id", c->legs[i].id);
        add_side(json, "before", &a);
        add_side(json, "after", &b);
        bys_json_close(json, '}');
    }
    bys_json_close(json, ']');
}

static void add_pairs(bys_json *json, const char *key, const bys_check_pair *pairs, int count)
{
    bys_json_open(json, key, '[', false);
    for (int i = 0; i < count; i++) {
        const bys_check_pair *p = &pairs[i];
        bys_json_open(json, NULL, '{', true);
        bys_json_string(json, "kind", p->kind);
        bys_json_string(json, "item", p->item);
        bys_json_string(json, "unit", p->unit);
        bys_json_number(json, "before", p->value_before);
        bys_json_number(json, "after", p->value_after);
        bys_json_number(json, "limit", p->limit);
        bys_json_string(json, "verdict_before",
                        p->before ? bys_verdict_name(p->verdict_before) : "");
        bys_json_string(json, "verdict_after", p->after ? bys_verdict_name(p->verdict_after) : "");
        bys_json_string(json, "text", p->text);
        bys_json_close(json, '}');
    }
    bys_json_close(json, ']');
}

void bys_write_comparison_json(bys_text *out, const bys_comparison *c)
{
    bys_json json = {.out = out};
    bys_json_open(&json, NULL, '{', false);
    bys_json_string(&json, "schema", "byssus.compare/1");
    bys_json_string(&json, "program", "byssus " BYS_VERSION);
    bys_json_string(&json, "headline", c->headline);
    add_design(&json, "before", c->before);
    add_design(&json, "after", c->after);
    add_pairs(&json, "new_failures", c->fresh, c->fresh_count);
    add_pairs(&json, "no_longer_checked", c->open, c->open_count);
    add_pairs(&json, "mended", c->mended, c->mended_count);
    bys_json_open(&json, "changes", '[', false);
    for (int i = 0; i < c->change_count; i++) {
        bys_json_open(&json, NULL, '{', true);
        bys_json_string(&json, "what", c->changes[i].what);
        bys_json_string(&json, "items", c->changes[i].items);
        bys_json_string(&json, "before", c->changes[i].before);
        bys_json_string(&json, "after", c->changes[i].after);
        bys_json_close(&json, '}');
    }
    bys_json_close(&json, ']');
    add_pairs(&json, "float_reserve", c->floats, c->float_count);
    add_legs(&json, c);
    bys_json_close(&json, '}');
    bys_json_finish(&json);
}

bys_rc bys_write_comparison_directory(const bys_comparison *comparison, const char *dir,
                                      bys_error *err)
{
    bys_result_file files[] = {{"compare.json", {0}}, {"compare.html", {0}}};
    bys_write_comparison_json(&files[0].text, comparison);
    bys_write_comparison_html(&files[1].text, comparison);
    return bys_write_files(files, 2, dir, err);
}
