// SPDX-License-Identifier: GPL-3.0-or-later
// Which position belongs to which anchor, and how far each anchor is from where it was to be.
//
// NOTES     A name is that of a leg or of an anchor; capitals and all but letters and figures do
//           not matter, unless two names then read alike.
//           The box is about the designed position, along the leg and across it.
// SOURCE    box of drag anchors 40 ft x 20 ft: MO-124 App. E 1.3 [read]; circle of 5 m for others:
//           common practice, no source.
#include "base/codes.h"
#include "design/aslaid.h"
#include "design/judge.h"
#include "site/check.h"

#include <ctype.h>
#include <math.h>
#include <string.h>

static const double same_place = 0.5;              // m, as for anchors that legs share
static const double far_off = 1000.0;            // m
static const double round_box = 5.0;               // m
static const double half_box[2] = {6.096, 3.048};  // m, 40 ft x 20 ft

// ---- names -------------------------------------------------------------------------------------

enum { NAME = 96 };

static void plain_name(char out[NAME], const char *name)
{
    size_t n = 0;
    for (; *name && n + 1 < NAME; name++)
        if (isalnum((unsigned char)*name))
            out[n++] = (char)toupper((unsigned char)*name);
    out[n] = '\0';
}

static bool reads_like(const char *plain, const char *id)
{
    char other[NAME];
    plain_name(other, id);
    return *plain && !strcmp(plain, other);
}

// Exactly that name first; then the one that reads like it. -1: none or several.
static int find_name(const char *name, const char *(*id_at)(const bys_network *, int),
                     const bys_network *net, int count)
{
    char plain[NAME];
    int found = -1, times = 0;
    plain_name(plain, name);
    for (int i = 0; i < count; i++) {
        if (!strcmp(name, id_at(net, i)))
            return i;
        if (reads_like(plain, id_at(net, i))) {
            found = i;
            times++;
        }
    }
    return times == 1 ? found : -1;
}

static const char *leg_id(const bys_network *net, int i)
{
    return net->legs[i].id;
}

static const char *anchor_id(const bys_network *net, int i)
{
    return net->anchors[i].id;
}

static void match_names(bys_aslaid_work *work)
{
    const bys_network *net = work->net;
    for (int i = 0; i < work->positions.count; i++) {
        bys_position *p = &work->positions.items[i];
        p->leg = find_name(p->name, leg_id, net, net->leg_count);
        p->anchor = p->leg >= 0 ? net->legs[p->leg].anchor
                                : find_name(p->name, anchor_id, net, net->anchor_count);
        if (p->leg < 0 && p->anchor >= 0 && net->anchors[p->anchor].leg_count == 1)
            p->leg = net->anchors[p->anchor].legs[0];
    }
}

// ---- anchors -----------------------------------------------------------------------------------

static void take_position(bys_aslaid_work *work, const bys_position *p)
{
    bys_laid_anchor *a = &work->result.anchors[p->anchor];
    const double far = hypot(p->x - a->design_x_m, p->y - a->design_y_m);
    if (far > far_off)
        bys_messages_add(work->messages, BYS_FAULT, BYS_M_position_row, p->place,
                         "position \"%.60s\" lies %.1f km from its anchor; is it in the frame of "
                         "the site, and are its two numbers in their order?", p->name,
                         far / 1000.0);
    if (!a->surveyed) {
        a->surveyed = true;
        a->name = p->name;
        a->line = p->place.line;
        a->time = p->time;
        a->x_m = p->x;
        a->y_m = p->y;
        return;
    }
    if (hypot(p->x - a->x_m, p->y - a->y_m) > same_place)
        bys_messages_add(work->messages, BYS_FAULT, BYS_M_position_twice, p->place,
                         "anchor %s has a position in line %d, and another %.1f m from it here",
                         a->id, a->line, hypot(p->x - a->x_m, p->y - a->y_m));
}

static void take_tension(bys_aslaid_work *work, const bys_position *p)
{
    if (isnan(p->tension))
        return;
    if (p->leg < 0) {
        bys_messages_add(work->messages, BYS_FAULT, BYS_M_position_tension, p->place,
                         "anchor %s holds %d legs; which of them was measured?",
                         work->result.anchors[p->anchor].id,
                         work->result.anchors[p->anchor].leg_count);
        return;
    }
    bys_laid_leg *leg = &work->result.legs[p->leg];
    if (!isnan(leg->measured_N))
        bys_messages_add(work->messages, BYS_FAULT, BYS_M_position_twice, p->place,
                         "the tension of leg %s stands in another line already", leg->id);
    leg->measured_N = p->tension;
}

static void start_anchor(const bys_aslaid_work *work, bys_laid_anchor *a, const bys_anchor *from)
{
    static const char *const kinds[] = {[BYS_ANCHOR_DEADWEIGHT] = "deadweight",
                                        [BYS_ANCHOR_DRAG] = "drag anchor",
                                        [BYS_ANCHOR_SCREW] = "screw anchor",
                                        [BYS_ANCHOR_FIXED] = "fixed"};
    const double *x = work->net->points[from->point].x;
    const double stated = work->options->tolerance_m;
    const bys_anchor_kind kind = from->part ? from->part->u.anchor.kind : BYS_ANCHOR_FIXED;
    *a = (bys_laid_anchor){.id = from->id,
                           .kind = kinds[kind],
                           .name = "",
                           .time = "",
                           .design_x_m = x[0],
                           .design_y_m = x[1],
                           .x_m = x[0],
                           .y_m = x[1],
                           .bearing_rad = NAN,
                           .round = stated > 0.0 || kind != BYS_ANCHOR_DRAG,
                           .lease_margin_m = NAN,
                           .inside_lease = true,
                           .legs = from->legs,
                           .leg_count = from->leg_count};
    a->half_along_m = stated > 0.0 ? stated : a->round ? round_box : half_box[0];
    a->half_across_m = stated > 0.0 ? stated : a->round ? round_box : half_box[1];
}

// heading: from the anchor towards the gear; outward is the other way.
static void measure(bys_aslaid_work *work, bys_laid_anchor *a, double heading)
{
    const bys_site *site = work->site;
    const double dx = a->x_m - a->design_x_m, dy = a->y_m - a->design_y_m;
    const double e = -sin(heading), n = -cos(heading);
    a->offset_m = hypot(dx, dy);
    a->bearing_rad = a->offset_m < 1e-3 ? NAN : atan2(dx, dy);
    a->along_m = dx * e + dy * n;
    a->across_m = dx * n - dy * e;
    a->inside_box = a->round ? a->offset_m <= a->half_along_m
                             : fabs(a->along_m) <= a->half_along_m &&
                                   fabs(a->across_m) <= a->half_across_m;
    if (site->lease_count < 3)
        return;
    a->lease_margin_m =
        bys_plan_inside(site->lease_x, site->lease_y, site->lease_count, a->x_m, a->y_m);
    a->inside_lease = a->lease_margin_m >= fmax(site->lease_margin, 0.0);
}

static bool stands_before(const bys_laid_anchor *a, const bys_laid_anchor *b)
{
    return a->surveyed != b->surveyed ? a->surveyed : a->offset_m > b->offset_m + 1e-9;
}

static void order(bys_aslaid *r)
{
    for (int i = 0; i < r->anchor_count; i++) {
        int k = i;
        for (; k > 0 && stands_before(&r->anchors[i], &r->anchors[r->by_offset[k - 1]]); k--)
            r->by_offset[k] = r->by_offset[k - 1];
        r->by_offset[k] = i;
    }
}

static void count_anchors(bys_aslaid *r)
{
    for (int i = 0; i < r->anchor_count; i++) {
        const bys_laid_anchor *a = &r->anchors[i];
        r->surveyed += a->surveyed;
        r->outside_box += a->surveyed && !a->inside_box;
        r->outside_lease += a->surveyed && !a->inside_lease;
    }
}

// ---- positions without an anchor ---------------------------------------------------------------

static const char *near_name(const bys_network *net, const char *name)
{
    bys_near near = bys_near_start(name);
    for (int i = 0; i < net->leg_count; i++)
        bys_near_try(&near, net->legs[i].id);
    for (int i = 0; i < net->anchor_count; i++)
        bys_near_try(&near, net->anchors[i].id);
    const char *best = bys_near_best(&near);
    return best ? best : "";
}

static void add_stray(bys_aslaid_work *work, const bys_position *p)
{
    bys_aslaid *r = &work->result;
    bys_laid_stray *s = &r->strays[r->stray_count++];
    *s = (bys_laid_stray){p->name, p->place.line, p->x, p->y, near_name(work->net, p->name), "",
                          INFINITY, r->surveyed < r->anchor_count};
    for (int i = 0; i < r->anchor_count; i++) {
        const double d = hypot(p->x - r->anchors[i].design_x_m, p->y - r->anchors[i].design_y_m);
        if (d < s->near_m) {
            s->near_m = d;
            s->near_place = r->anchors[i].id;
        }
    }
    bys_messages_add(work->messages, BYS_WARNING, BYS_M_position_stray, p->place,
                     "position \"%.60s\" belongs to no leg and no anchor%s%s%s; the nearest anchor "
                     "is %s, %.1f m away", p->name, *s->near_name ? "; did you mean \"" : "",
                     s->near_name, *s->near_name ? "\"?" : "", s->near_place, s->near_m);
}

// ---- all ---------------------------------------------------------------------------------------

static bool give_room(bys_aslaid_work *work)
{
    bys_aslaid *r = &work->result;
    const bys_network *net = work->net;
    const size_t anchors = (size_t)net->anchor_count + 1, legs = (size_t)net->leg_count + 1;
    r->anchors = bys_arena_get(work->arena, anchors * sizeof *r->anchors);
    r->by_offset = bys_arena_get(work->arena, anchors * sizeof *r->by_offset);
    r->legs = bys_arena_get(work->arena, legs * sizeof *r->legs);
    r->strays = bys_arena_get(work->arena,
                              ((size_t)work->positions.count + 1) * sizeof *r->strays);
    return r->anchors && r->by_offset && r->legs && r->strays;
}

static void start_all(bys_aslaid_work *work)
{
    bys_aslaid *r = &work->result;
    for (int i = 0; i < work->net->anchor_count; i++)
        start_anchor(work, &r->anchors[i], &work->net->anchors[i]);
    for (int i = 0; i < work->net->leg_count; i++)
        r->legs[i] = (bys_laid_leg){.id = work->net->legs[i].id,
                                    .anchor = work->net->legs[i].anchor,
                                    .piece = "",
                                    .part = "",
                                    .cut_m = NAN,
                                    .adjusted_m = NAN,
                                    .measured_N = NAN,
                                    .measured_says = "",
                                    .ask_why = ""};
    r->anchor_count = work->net->anchor_count;
    r->leg_count = work->net->leg_count;
}

bool bys_aslaid_match(bys_aslaid_work *work)
{
    bys_aslaid *r = &work->result;
    const size_t before = bys_messages_faults(work->messages);
    if (!give_room(work)) {
        work->failed = true;
        return false;
    }
    start_all(work);
    match_names(work);
    for (int i = 0; i < work->positions.count; i++)
        if (work->positions.items[i].anchor >= 0) {
            take_position(work, &work->positions.items[i]);
            take_tension(work, &work->positions.items[i]);
        }
    for (int i = 0; i < r->anchor_count; i++)
        measure(work, &r->anchors[i], work->net->anchors[i].heading);
    count_anchors(r);
    order(r);
    for (int i = 0; i < work->positions.count; i++)
        if (work->positions.items[i].anchor < 0)
            add_stray(work, &work->positions.items[i]);
    if (r->surveyed == 0)
        bys_messages_add(work->messages, BYS_FAULT, BYS_M_position_none,
                         (bys_place){bys_messages_file(work->messages, r->file), 1, 1},
                         "none of the %d positions belongs to a leg or an anchor of the site",
                         work->positions.count);
    return bys_messages_faults(work->messages) == before;
}
