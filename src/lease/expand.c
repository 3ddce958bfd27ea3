// SPDX-License-Identifier: GPL-3.0-or-later
// From Site to Network, for one crop stage.
#include "lease/expand.h"
#include "base/number.h"

#include <ctype.h>
#include <math.h>
#include <stdarg.h>
#include <string.h>

static const double pi = 3.14159265358979323846;

void bys_expand_fault(bys_expansion *x, int code, bys_place place, const char *format, ...) {
    char text[400];
    va_list list;
    va_start(list, format);
    bys_format_list(text, sizeof text, format, list);
    va_end(list);
    x->faults++;
    if (x->messages)
        bys_messages_add(x->messages, BYS_FAULT, code, place, "%s", text);
}

static const char *const compass[8] = {"N", "NE", "E", "SE", "S", "SW", "W", "NW"};
static const char *const compass_long[8] = {"north", "north-east", "east", "south-east",
                                            "south", "south-west", "west", "north-west"};

int bys_compass_index(double direction) {
    const double turns = direction / (2.0 * pi);
    return (int)floor((turns - floor(turns)) * 8.0 + 0.5) % 8;
}

const char *bys_compass_name(double direction) {
    return compass[bys_compass_index(direction)];
}

static bool same_word(const char *a, const char *b) {
    while (*a && tolower((unsigned char)*a) == tolower((unsigned char)*b)) {
        a++;
        b++;
    }
    return !*a && !*b;
}

int bys_compass_read(const char *name) {
    for (int i = 0; i < 8; i++)
        if (same_word(name, compass[i]) || same_word(name, compass_long[i]))
            return i;
    return -1;
}

// Ropes with one stiffness need no law: it is in the section.
static bys_stretch law_of(const bys_expansion *x, const bys_part *part, int which) {
    for (int i = 0; i < x->law_count; i++)
        if (x->laws[i].part == part)
            return x->laws[i].law[which];
    return (bys_stretch){0};
}

/// Marine growth at the stage: weight, displacement and diameter of the layer.
static void section_grow(const bys_expansion *x, bys_section *s) {
    const bys_growth_spec *g = bys_growth_of(x->stage, s->part);
    if (!g)
        return;
    const bool chain = s->part->kind == BYS_PART_CHAIN;
    const bys_growth layer = bys_growth_on_line(s->diameter, g->thickness, g->density,
                                                x->site->rho_water, chain);
    const double weight = layer.mass * x->site->gravity;
    s->weight_dry += weight;
    s->buoyancy += weight * x->site->rho_water / g->density;
    s->diameter *= layer.drag_factor;
}

void bys_float_grow(const bys_expansion *x, bys_float_set *set) {
    const bys_growth_spec *g = bys_growth_of(x->stage, set->part);
    if (!g)
        return;
    const bys_float_part *f = &set->part->u.buoy;
    const double d = f->diameter, t = g->thickness;
    // skin of the outer face of the layer's middle: the layer's volume to second order in t/d
    const double skin = f->shape == BYS_FLOAT_SPHERE
                            ? pi * (d + t) * (d + t)
                            : pi * (d + t) * (f->length + t) + 0.5 * pi * (d + t) * (d + t);
    set->growth_weight = bys_lump_weight(x, skin * t * g->density, g->density);
    set->growth_drag = f->shape == BYS_FLOAT_SPHERE
                           ? (d + 2.0 * t) * (d + 2.0 * t) / (d * d) - 1.0
                           : (d + 2.0 * t) * (f->length + 2.0 * t) / (d * f->length) - 1.0;
}

bys_section bys_section_of_part(const bys_expansion *x, const bys_part *part, double length) {
    // Bedding in lengthens the rope and leaves its mass.
    const bys_line_part *p = &part->u.line;
    const double grown = 1.0 + p->bedding_in * x->bedded;
    const double weight = p->mass * x->site->gravity / grown;
    bys_section s = {.part = part,
                         .length = length * grown,
                         .stiffness = p->stiffness,
                         .law = {law_of(x, part, 0), law_of(x, part, 1)},
                         .weight_dry = weight,
                         .buoyancy = weight * x->site->rho_water / p->density,
                         .diameter = p->diameter,
                         .cd_normal = p->cd_normal,
                         .cd_tangential = p->cd_tangential,
                         .on_bed = x->site->has_bed,
                         .leg = -1,
                         .line = -1,
                         .strand = -1};
    section_grow(x, &s);
    return s;
}

int bys_section_elements(const bys_expansion *x, const bys_section *s, int stated) {
    if (stated > 0)
        return stated;
    const double drag = 0.5 * x->site->rho_water * s->cd_normal * s->diameter; // at 1 m/s
    return bys_element_count(s->length, fabs(s->weight_dry - s->buoyancy) + drag, 5000.0);
}

double bys_lump_weight(const bys_expansion *x, double mass, double density) {
    return mass * x->site->gravity * (1.0 - x->site->rho_water / density);
}

double bys_section_limit_strain(const bys_section *s) {
    const double strength = s->part ? s->part->u.line.strength : NAN;
    if (!isfinite(strength) || !(s->stiffness > 0.0))
        return 0.30;
    return s->law[0].ea > 0.0 ? bys_stretch_strain(&s->law[0], strength) : strength / s->stiffness;
}

static double part_way(double a, double b, double share) {
    return a + share * (b - a);
}

// Gear that is not there at the earlier stage is hung at the later one; it does not grow from
// nothing.
void bys_gear_between(bys_gear_values *out, const bys_gear_values *a, const bys_gear_values *b,
                      double t) {
    *out = *a;
    if (a->mass_in_water == 0.0 && a->cd == 0.0)
        return;
    out->mass_in_water = part_way(a->mass_in_water, b->mass_in_water, t);
    out->width = part_way(a->width, b->width, t);
    out->height = part_way(a->height, b->height, t);
    out->cd = part_way(a->cd, b->cd, t);
    out->solidity = part_way(a->solidity, b->solidity, t);
}

const bys_gear_values *bys_expand_gear(const bys_expansion *x, const bys_gear_part *gear,
                                       const char *line, const char *block) {
    const bys_gear_values *from = bys_gear_on(gear, bys_stage_gear(x->stage), line, block);
    if (!x->stage || !x->stage->towards)
        return from;
    const bys_gear_values *to = bys_gear_on(gear, x->stage->towards, line, block);
    bys_gear_mix *m = x->mixes;
    while (m->next && (m->next->from != from || m->next->to != to))
        m = m->next;
    if (!m->next) {
        m->next = bys_arena_get(x->net->arena, sizeof *m);
        if (!m->next)
            return NULL;
        m->next->from = from;
        m->next->to = to;
        bys_gear_between(&m->next->values, from, to, x->stage->share);
    }
    return &m->next->values;
}

static double lowest_level(const bys_site *site) {
    double z = site->level_count > 0 ? site->levels[0].height : 0.0;
    for (int i = 1; i < site->level_count; i++)
        z = fmin(z, site->levels[i].height);
    return z;
}

// A law with its slopes; they live as long as the network.
static bool make_law(bys_expansion *x, bys_stretch *law, const bys_stretch_spec *spec) {
    *law = (bys_stretch){.ea = isfinite(spec->stiffness) ? spec->stiffness : 0.0};
    if (spec->count < 2)
        return true;
    double *slope = bys_arena_get(x->net->arena, sizeof(double) * (size_t)spec->count);
    if (!slope)
        return false;
    bys_stretch_slopes(slope, spec->strain, spec->tension, spec->count);
    law->count = spec->count;
    law->strain = spec->strain;
    law->tension = spec->tension;
    law->slope = slope;
    return true;
}

static bool make_laws(bys_expansion *x) {
    const int n = x->site->part_count;
    x->laws = bys_arena_get(x->scratch, sizeof(bys_rope_laws) * (size_t)(n + 1));
    for (int i = 0; x->laws && i < n; i++) {
        const bys_part *part = &x->site->parts[i];
        const bys_line_part *line = &part->u.line;
        const bool plain = line->working.count == 0 && !(line->storm.stiffness > 0.0);
        if (part->kind != BYS_PART_ROPE || plain)
            continue;
        bys_rope_laws *laws = &x->laws[x->law_count++];
        laws->part = part;
        if (!make_law(x, &laws->law[0], &line->working) ||
            !make_law(x, &laws->law[1], &line->storm))
            return false;
    }
    return x->laws != NULL;
}

static bool expand_all(bys_expansion *x, bys_error *err) {
    return x->net && x->scratch && x->mixes && make_laws(x) && bys_expand_blocks(x) &&
           bys_expand_grids(x) &&
           bys_expand_networks(x) && bys_network_finish(x->net, err) == BYS_OK &&
           bys_expand_refuse(x);
}

bys_rc bys_network_expand_found(bys_network **out, const bys_site *site, int stage,
                                const bys_found *found, int found_count, bys_messages *messages,
                                bys_error *err) {
    *out = NULL;
    if (stage >= site->stage_count)
        return bys_error_set(err, BYS_EUSAGE, 0, "no crop stage %d in this site", stage);
    bys_expansion x = {.net = bys_network_new(site, stage),
                       .site = site,
                       .stage = stage >= 0 ? &site->stages[stage] : NULL,
                       .messages = messages,
                       .found = found,
                       .found_count = found_count,
                       .scratch = bys_arena_new(),
                       .surface = lowest_level(site)};
    x.mixes = x.net ? bys_arena_get(x.net->arena, sizeof *x.mixes) : NULL;
    x.bedded = x.stage ? x.stage->bedding_in : 0.0;
    const bool ok = expand_all(&x, err);
    bys_arena_free(x.scratch);
    if (ok && x.faults == 0) {
        *out = x.net;
        return BYS_OK;
    }
    bys_network_free(x.net);
    if (!ok)
        return bys_error_set(err, BYS_ENOMEM, 0, "out of memory in the layout");
    return bys_error_set(err, BYS_EINPUT, 0, "the layout cannot be built: %d fault%s", x.faults,
                         x.faults == 1 ? "" : "s");
}

bys_rc bys_network_expand(bys_network **out, const bys_site *site, int stage,
                          bys_messages *messages, bys_error *err) {
    return bys_network_expand_found(out, site, stage, NULL, 0, messages, err);
}
