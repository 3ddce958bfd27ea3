// SPDX-License-Identifier: GPL-3.0-or-later
// From checked trees to the Site. Each step reads its own elements and reports what the table of
// the format cannot know: references, and values that must agree with each other.
#ifndef BYS_SITE_BIND_H
#define BYS_SITE_BIND_H

#include "base/codes.h"
#include "site/check.h"
#include "site/ids.h"
#include "site/site.h"

enum { BYS_MOST_CATALOGUES = 32 };

typedef struct {
    bys_arena *arena;
    bys_site *site;
    bys_messages *messages;
    const bys_xml_node *root;                            ///< <site>
    const bys_xml_node *catalogues[BYS_MOST_CATALOGUES]; ///< roots of catalogue files
    int catalogue_count;
    const bys_xml_node *profile; ///< root of the rule profile's file; NULL
    struct bys_georef *geo;      ///< the frame on the Earth while reading; NULL without one
    const char *bed_bytes;       ///< file of soundings or grid; NULL if there is none
    int bed_file;
    bys_ids parts, stages, levels, items, patterns, anchors;
    bool *part_used;
    const bys_xml_node **part_nodes; ///< where each part was written
    int own_parts;                   ///< parts of the site file itself come first
    const char *path, *data_dir;     ///< of the site file, for what it names; NULL = built-in
    const char *other_profile;       ///< judge by it, without the site's own rules; NULL
    bool failed;                     ///< out of memory
} bys_reading;

/// Adds a fault whose text starts with the node's label and a space.
void bys_say(bys_reading *r, int code, bys_place place, const bys_xml_node *node,
             const char *format, ...) __attribute__((format(printf, 5, 6)));
/// Zeroed array of the Site; never NULL unless r->failed.
void *bys_array(bys_reading *r, int n, size_t size);
bys_item bys_item_of(const bys_xml_node *node);
/// Says that an id is used twice, for the row of ids that was just sorted.
void bys_say_twice(bys_reading *r, const bys_ids *ids, const char *what);
/// "; did you mean X?" for an unknown id, or "" if none is near.
bys_label bys_suggest(const bys_ids *ids, const char *word);

/// Part named by an attribute, of one of the kinds "rope|chain"; NULL after a fault, or if absent.
const bys_part *bys_part_ref(bys_reading *r, const bys_xml_node *node, const char *attr);
/// Stage and level named by an attribute; "" if absent or unknown.
const char *bys_stage_ref(bys_reading *r, const bys_xml_node *node, const char *attr);
const char *bys_level_ref(bys_reading *r, const bys_xml_node *node, const char *attr);
/// File named by the node's href: beside the site file, below it, or among the installed data; NULL
/// after a fault.
const char *bys_path_named(bys_reading *r, const bys_xml_node *node);
/// Is `line` a line of a block (L05)? Its block, or NULL.
const bys_block *bys_line_block(const bys_site *site, const char *line);
/// "N", "NE", ... nearest to a direction.
const char *bys_compass(double direction);
bool bys_in_kinds(bys_part_kind kind, const char *kinds);
void bys_bind_anchor(bys_reading *r, bys_part *part, const bys_xml_node *node);

/// Exactly one of every and count; every NAN, count 0 if not stated.
void bys_read_spacing(bys_reading *r, const bys_xml_node *node, double *every, int *count);
/// Working and storm law of a rope, from its stiffness and its <stretch> elements.
void bys_bind_stretch(bys_reading *r, bys_line_part *line, bys_basis basis,
                      const bys_xml_node *rope);
/// Corners among the children of a node, as a simple polygon; their number, 0 after a fault.
int bys_read_polygon(bys_reading *r, const bys_xml_node *node, const char *key, double **x,
                     double **y);
/// Legs among the children of a node; `key` is their row.
bys_leg_spec *bys_read_legs(bys_reading *r, const bys_xml_node *node, const char *key, int *count);

/// Reads the frame and takes all positions of the tree into the site's plane; before all others.
void bys_bind_frame(bys_reading *r, bys_xml_node *root);
/// Drag records, and what a part says of its own drag (all parts must have been read).
void bys_bind_drag(bys_reading *r, bys_part *part, const bys_xml_node *node);
void bys_bind_drag_use(bys_reading *r, bys_part *part, const bys_xml_node *node);
/// Says so if the attribute "of" names neither a block nor a line.
void bys_check_target(bys_reading *r, const bys_xml_node *node);
/// Form of a current over the depth, its level, record and shelter.
void bys_read_current_form(bys_reading *r, const bys_xml_node *node, bys_current *c);
/// Residual current, wind-driven current, waves grown from wind.
void bys_bind_sea(bys_reading *r, const bys_xml_node *weather);
/// Cases of the user's own and cases left out.
void bys_bind_cases(bys_reading *r);
void bys_bind_gear_targets(bys_reading *r); ///< blocks and lines that stage values name; growth

// The steps, in this order.
void bys_bind_place(bys_reading *r);   ///< water, lease
void bys_bind_bed(bys_reading *r);     ///< seabed
void bys_bind_weather(bys_reading *r);
void bys_bind_stages(bys_reading *r);
void bys_bind_parts(bys_reading *r);
void bys_bind_layout(bys_reading *r);  ///< blocks, changes, grids
void bys_bind_networks(bys_reading *r);
void bys_bind_stage_floats(bys_reading *r);
void bys_bind_bedding(bys_reading *r);  ///< stages with ropes before and after bedding in
void bys_bind_conditions(bys_reading *r); ///< vessels, lifts, conditions of the user's own
void bys_bind_rules(bys_reading *r);
void bys_review(bys_reading *r);       ///< warnings and notes
void bys_bind_echo(bys_reading *r);

#endif
