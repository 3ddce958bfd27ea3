// SPDX-License-Identifier: GPL-3.0-or-later
// One leg: anchor, sections from the anchor up, and what stands between them.
#include "lease/expand.h"

#include <ctype.h>
#include <math.h>
#include <string.h>

static const bys_found *found_for(const bys_expansion *x, const char *leg) {
    for (int i = 0; i < x->found_count; i++)
        if (!strcmp(x->found[i].leg, leg))
            return &x->found[i];
    return NULL;
}

/// A leg's lengths as cut.
typedef struct {
    double stated; ///< m, sum of the stated ones
    int open;      ///< number of lines without a length
    int lines;
} lengths;

static lengths lengths_of(const bys_leg_spec *spec) {
    lengths all = {0.0, 0, 0};
    for (int i = 0; i < spec->item_count; i++) {
        if (spec->items[i].kind != BYS_LEG_LINE)
            continue;
        all.lines++;
        if (isfinite(spec->items[i].length))
            all.stated += spec->items[i].length;
        else
            all.open++;
    }
    return all;
}

static double distance(const double a[3], const double b[3]) {
    return sqrt((a[0] - b[0]) * (a[0] - b[0]) + (a[1] - b[1]) * (a[1] - b[1]) +
                (a[2] - b[2]) * (a[2] - b[2]));
}

static int anchor_by_id(const bys_network *net, const char *id) {
    for (int i = 0; i < net->anchor_count; i++)
        if (!strcmp(net->anchors[i].id, id))
            return i;
    return -1;
}

// A leg may leave its anchor's place to another leg that names the same anchor. `known`: x and y of
// that anchor where it stands already, or where any leg of the site states them.
static bool shared_place(double known[2], const bys_leg_spec *list, int n, const char *id) {
    for (int i = 0; i < n; i++) {
        if (strcmp(list[i].anchor_id, id) != 0 || !isfinite(list[i].x) || !isfinite(list[i].y))
            continue;
        known[0] = list[i].x;
        known[1] = list[i].y;
        return true;
    }
    return false;
}

static bool placed_elsewhere(double known[2], const bys_expansion *x, const char *id) {
    const int old = anchor_by_id(x->net, id);
    const bys_site *site = x->site;
    bool found = old >= 0;
    if (found)
        memcpy(known, x->net->points[x->net->anchors[old].point].x, 2 * sizeof(double));
    for (int i = 0; !found && i < site->block_count; i++)
        found = shared_place(known, site->blocks[i].legs, site->blocks[i].leg_count, id);
    for (int i = 0; !found && i < site->change_count; i++)
        found = shared_place(known, site->changes[i].legs, site->changes[i].leg_count, id);
    for (int i = 0; !found && i < site->grid_count; i++)
        found = shared_place(known, site->grids[i].legs, site->grids[i].leg_count, id);
    return found;
}

// Anchor on the bed: at the stated position, where another leg puts it, at the stated or found
// reach, or, where pretension and lengths are stated, at the straight leg's reach (iterated: the
// bed may slope).
static void anchor_position(double out[3], const bys_expansion *x, const bys_leg_seat *seat,
                            const bys_found *found) {
    const bys_leg_spec *spec = seat->spec;
    const double bearing = isfinite(spec->bearing) ? spec->bearing : seat->outward;
    const double length = lengths_of(spec).stated + (seat->bridled ? seat->arm_rise : 0.0);
    double reach = found && found->is_reach ? found->value : spec->reach;
    const bool straight = !isfinite(reach);
    const bool own = isfinite(reach) || (isfinite(spec->x) && isfinite(spec->y));
    if (own ? !isfinite(reach) : *spec->anchor_id && placed_elsewhere(out, x, spec->anchor_id)) {
        out[0] = own ? spec->x : out[0];
        out[1] = own ? spec->y : out[1];
        out[2] = bys_bed_z(&x->site->bed, out[0], out[1]);
        return;
    }
    for (int pass = 0; pass < 20; pass++) {
        if (straight) {
            const double drop = pass ? seat->top_nominal[2] - out[2] : 0.0;
            reach = sqrt(fmax(length * length - drop * drop, 1e-4 * length * length));
        }
        out[0] = seat->top_nominal[0] + reach * sin(bearing);
        out[1] = seat->top_nominal[1] + reach * cos(bearing);
        out[2] = bys_bed_z(&x->site->bed, out[0], out[1]);
        if (!straight)
            return;
    }
}

// An anchor is set to be pulled as a leg says, else midway between all its legs.
static void take_heading(bys_anchor *anchor, const bys_leg_seat *seat, const double at[3]) {
    const double towards = atan2(seat->top_nominal[0] - at[0], seat->top_nominal[1] - at[1]);
    anchor->towards[0] += sin(towards);
    anchor->towards[1] += cos(towards);
    if (isfinite(seat->spec->heading)) {
        anchor->heading = seat->spec->heading;
        anchor->heading_stated = true;
    } else if (!anchor->heading_stated) {
        anchor->heading = atan2(anchor->towards[0], anchor->towards[1]);
    }
}

// A shared anchor is made by the first leg that names it. -1 refused, -2 out of memory.
static int seat_anchor(bys_expansion *x, const bys_leg_seat *seat, const double at[3]) {
    const bys_leg_spec *spec = seat->spec;
    const char *id =
        *spec->anchor_id ? spec->anchor_id : bys_arena_format(x->scratch, "%s/anchor", seat->id);
    if (!id)
        return -2;
    const int old = anchor_by_id(x->net, id);
    if (old >= 0) {
        const bys_point *p = &x->net->points[x->net->anchors[old].point];
        if (distance(p->x, at) <= 0.5) {
            take_heading(&x->net->anchors[old], seat, at);
            return old;
        }
        bys_expand_fault(x, BYS_M_shared_anchor, spec->place,
                         "%s puts anchor '%s' at x %.2f m, y %.2f m, but another leg puts it at "
                         "x %.2f m, y %.2f m; a shared anchor has one position",
                         seat->id, id, at[0], at[1], p->x[0], p->x[1]);
        return -1;
    }
    const int point = bys_network_point(x->net, id, BYS_POINT_FIXED, at);
    if (point < 0)
        return -2;
    x->net->points[point].place = spec->place;
    bys_anchor made = {
        .id = id, .part = spec->anchor, .point = point, .place = spec->place};
    take_heading(&made, seat, at);
    const int anchor = bys_network_anchor(x->net, &made);
    return anchor < 0 ? -2 : anchor;
}

// Name of a piece: "chain", "rope" by kind; a connector by the letters that its part id starts
// with ("shackle16" is a shackle).
static void piece_word(char out[24], const bys_part *part) {
    size_t n = 0;
    if (part->kind == BYS_PART_CONNECTOR)
        for (; n < 23 && isalpha((unsigned char)part->item.id[n]); n++)
            out[n] = part->item.id[n];
    out[n] = '\0';
    if (n == 0)
        strcpy(out, part->kind == BYS_PART_CHAIN    ? "chain"
                    : part->kind == BYS_PART_ROPE   ? "rope"
                    : part->kind == BYS_PART_FLOAT  ? "float"
                    : part->kind == BYS_PART_SINKER ? "sinker"
                                                    : "connector");
}

// Id of item i of the leg; the second rope of a leg is rope2.
static const char *piece_id(bys_expansion *x, const bys_leg_seat *seat, int i) {
    char word[24], other[24];
    int before = 0;
    piece_word(word, seat->spec->items[i].part);
    for (int k = 0; k < i; k++) {
        piece_word(other, seat->spec->items[k].part);
        before += !strcmp(word, other);
    }
    return before ? bys_arena_format(x->scratch, "%s/%s%d", seat->id, word, before + 1)
                  : bys_arena_format(x->scratch, "%s/%s", seat->id, word);
}

static bool add_lump(bys_expansion *x, const bys_leg_seat *seat, int i, int point, int leg) {
    const bys_leg_item *item = &seat->spec->items[i];
    const char *id = piece_id(x, seat, i);
    const double n = item->count;
    if (!id)
        return false;
    if (item->kind == BYS_LEG_FLOAT) {
        const int f = bys_network_float(x->net, id, item->part, point, n);
        if (f >= 0)
            bys_float_grow(x, &x->net->floats[f]);
        return f >= 0;
    }
    const bool sinker = item->kind == BYS_LEG_SINKER;
    const double mass = sinker ? item->part->u.sinker.mass : item->part->u.connector.mass;
    const double rho = sinker ? item->part->u.sinker.density : item->part->u.connector.density;
    x->net->points[point].weight += mass > 0.0 ? n * bys_lump_weight(x, mass, rho) : 0.0;
    const bys_fitting fitting = {id, item->part, point, leg};
    return sinker || bys_network_fitting(x->net, &fitting) >= 0;
}

// Point at share t of the straight line from the foot to the top.
static int junction(bys_expansion *x, const bys_leg_seat *seat, const double foot[3], double t,
                    int number) {
    double at[3];
    for (int k = 0; k < 3; k++)
        at[k] = foot[k] + t * (seat->top_nominal[k] - foot[k]);
    const char *id = bys_arena_format(x->scratch, "%s/j%d", seat->id, number);
    const int p = id ? bys_network_point(x->net, id, BYS_POINT_FREE, at) : -1;
    if (p >= 0)
        x->net->points[p].place = seat->spec->place;
    return p;
}

static bool add_pieces(bys_expansion *x, const bys_leg_seat *seat, int foot, double open_length) {
    const bys_leg_spec *spec = seat->spec;
    const lengths all = lengths_of(spec);
    const double total = all.stated + all.open * open_length;
    const int leg = x->net->leg_count;
    double below = 0.0, from[3];
    int at = foot, made = 0;
    memcpy(from, x->net->points[foot].x, sizeof from);
    for (int i = 0; i < spec->item_count; i++) {
        const bys_leg_item *item = &spec->items[i];
        if (item->kind != BYS_LEG_LINE) {
            if (!add_lump(x, seat, i, at, leg))
                return false;
            continue;
        }
        const double length = isfinite(item->length) ? item->length : open_length;
        bys_section like = bys_section_of_part(x, item->part, length);
        like.leg = leg;
        like.line = seat->line;
        like.place = item->place;
        below += length;
        made++;
        const int next =
            made == all.lines ? seat->top : junction(x, seat, from, below / total, made);
        const char *id = piece_id(x, seat, i);
        if (next < 0 || !id ||
            bys_network_section(x->net, id, at, next,
                                bys_section_elements(x, &like, item->elements), &like) < 0)
            return false;
        at = next;
    }
    return true;
}

static void refuse_short(bys_expansion *x, const bys_leg_seat *seat, int first, double straight) {
    double longest = 0.0, length = 0.0;
    for (int s = first; s < x->net->section_count; s++) {
        const bys_section *section = &x->net->sections[s];
        length += section->length;
        longest += section->length * (1.0 + bys_section_limit_strain(section));
    }
    if (longest < straight)
        bys_expand_fault(
            x, BYS_M_leg_short, seat->spec->place,
            "%s is too short: its pieces add up to %.2f m, %.2f m when they break, but "
            "its anchor lies %.2f m from its top; lengthen it or bring the anchor in",
            seat->id, length, longest, straight);
}

// All lengths are there, no pretension, and nobody has said yet where the anchor stands.
static bool unplaced(const bys_expansion *x, const bys_leg_seat *seat, const bys_found *found,
                     const lengths *all) {
    const bys_leg_spec *spec = seat->spec;
    double known[2];
    return !found && !isfinite(spec->reach) && !isfinite(spec->x) &&
           (all->open || !isfinite(spec->pretension)) &&
           !placed_elsewhere(known, x, spec->anchor_id);
}

static void refuse_bridle(bys_expansion *x, const bys_leg_seat *seat) {
    const bys_bridle_spec *spec = &seat->spec->bridle;
    if (seat->bridled && spec->length <= seat->half_spread)
        bys_expand_fault(x, BYS_M_bridle, spec->place,
                         "%s: two arms of %g m cannot span the %.2f m between the places where "
                         "they are made fast; lengthen them",
                         seat->id, spec->length, 2.0 * seat->half_spread);
}

static bool expand_seated(bys_expansion *x, const bys_leg_seat *given, double start, int *out) {
    bys_leg_seat below = *given; // with a bridle: that of the line below it
    const bys_leg_seat *seat = &below;
    double at[3];
    const bys_found *found = found_for(x, seat->id);
    const lengths all = lengths_of(seat->spec);
    *out = -1;
    if (!x->site->has_bed || all.lines == 0)
        return true; // said elsewhere: no seabed; a leg without any line is the reader's fault
    if (unplaced(x, seat, found, &all)) {
        bys_expand_fault(x, BYS_M_shared_anchor, seat->spec->place,
                         "%s leaves the place of anchor '%s' to a leg that comes later and gives a "
                         "reach; state x and y of that anchor in one of its legs",
                         seat->id, seat->spec->anchor_id);
        return true;
    }
    anchor_position(at, x, seat, found);
    const int anchor = seat_anchor(x, seat, at);
    if (anchor < 0)
        return anchor == -1;
    refuse_bridle(x, seat);
    if (!bys_bridle_point(x, &below, at))
        return false;
    const double straight = distance(at, seat->top_nominal);
    double open = !all.open     ? 0.0
                  : start > 0.0 ? start
                                : fmax(0.5, (straight - all.stated) / all.open);
    if (found && !found->is_reach)
        open = found->value;
    const int first = x->net->section_count, foot = x->net->anchors[anchor].point;
    if (!add_pieces(x, seat, foot, open))
        return false;
    if (!found)
        refuse_short(x, seat, first, straight);
    const int sections = x->net->section_count - first;
    if (!bys_bridle_arms(x, seat, x->net->leg_count))
        return false;
    const bys_leg leg = {
        .id = seat->id,
        .anchor = anchor,
        .foot = foot,
        .top = seat->top,
        .first_section = first,
        .section_count = sections,
        .arm_count = seat->bridled ? 2 : 0,
        .line = seat->line,
        .body = seat->body,
        .end = seat->end,
        .spec = seat->spec,
        .top_nominal = {given->top_nominal[0], given->top_nominal[1], given->top_nominal[2]},
        .place = seat->spec->place};
    *out = bys_network_leg(x->net, &leg);
    return *out >= 0;
}

bool bys_expand_leg(bys_expansion *x, const bys_leg_seat *seat, int *out) {
    bys_leg_seat own = *seat;
    double start = 0.0;
    for (int i = 0; i < x->site->override_count; i++) {
        const bys_leg_override *laid = &x->site->overrides[i];
        if (strcmp(laid->leg, seat->id) != 0)
            continue;
        own.spec = &laid->spec;
        start = laid->open_start;
        break;
    }
    return expand_seated(x, &own, start, out);
}
