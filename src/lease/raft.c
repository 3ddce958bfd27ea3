// SPDX-License-Identifier: GPL-3.0-or-later
// A raft as a rigid body: pontoons cut into prisms, its weight, its gear, its windage.
//
// Axes: x along its length, y to the left, z up, origin at the middle of the deck's underside.
// A row of N equal prisms of one pontoon has the waterplane's second moment times 1 - 1/N^2, and a
// 3 x 3 set of gear lumps has 8/9 of the spread load's: the cuts below keep that under 2 % along
// the raft, and a raft on one to three pontoons is cut across as well.
// Reflected-wave drift is shared evenly over the prisms: its sum is that of the side, its moment
// nil.
#include "lease/expand.h"
#include "phys/sea_loads.h"

#include <math.h>

static double gear_mass(const bys_site *site, const bys_raft_part *raft, const bys_stage *stage) {
    const bys_part *gear = *raft->gear ? bys_site_part(site, raft->gear) : NULL;
    if (!gear || gear->kind != BYS_PART_GEAR)
        return 0.0;
    const bys_gear_values *from = bys_gear_at(&gear->u.gear, bys_stage_gear(stage));
    bys_gear_values now = *from;
    if (stage && stage->towards)
        bys_gear_between(&now, from, bys_gear_at(&gear->u.gear, stage->towards), stage->share);
    return now.mass_in_water * raft->gear_count;
}

double bys_raft_part_draft(const bys_site *site, const bys_part *part, const bys_stage *stage) {
    const bys_raft_part *r = &part->u.raft;
    return (r->mass + gear_mass(site, r, stage)) /
           (site->rho_water * r->pontoons * r->pontoon_length * r->pontoon_width);
}

double bys_raft_draft(const bys_expansion *x, const bys_part *part) {
    return bys_raft_part_draft(x->site, part, x->stage);
}

static int local_point(bys_expansion *x, int body, const char *id, double px, double py,
                       double pz) {
    const double at[3] = {px, py, pz};
    return bys_network_body_point(x->net, id, body, at);
}

/// What a hull record adds: pontoons behind one another count half where the gap between them is
/// less than their width (the mean over the row, the same from both sides), friction of the skin.
static void put_hull(bys_prism *prism, const bys_raft_part *r, double draft, double gap) {
    if (!r->hull_law)
        return;
    const double open = (gap - r->pontoon_width) / r->pontoon_width;
    double sum = 0.0;
    for (int p = 0; p < r->pontoons; p++)
        sum += bys_pontoon_row((size_t)p, open);
    prism->cd *= sum / r->pontoons;
    prism->end_ratio = r->cd_end / prism->cd;
    prism->draft = draft;
    prism->skin = r->pontoon_length;
    prism->friction = r->friction_factor * (2.0 * draft + r->pontoon_width) * r->pontoon_length /
                      (r->pontoon_width * draft);
}

/// Beams across the raft: what is under water meets the current, what is above it the wind.
static bool add_beams(bys_expansion *x, int body, const bys_raft_part *r) {
    for (int i = 0; i < r->beams; i++) {
        const double px = ((i + 0.5) / r->beams - 0.5) * r->length;
        const bys_prism beam = {
            .point = local_point(x, body, "", px, 0.0, r->beam_level - r->pontoon_height),
            .height = r->beam_height,
            .width_x = r->beam_length,
            .cd = r->beam_cd,
            .cs = r->cs_deck};
        if (beam.point < 0 || bys_network_prism(x->net, &beam) < 0)
            return false;
    }
    return true;
}

static bool add_prisms(bys_expansion *x, int body, const bys_raft_part *r, double draft) {
    const int along = (int)fmax(4.0, ceil(r->pontoon_length / 2.5));
    const int across = r->pontoons >= 4 ? 1 : (3 + r->pontoons) / r->pontoons;
    const int total = r->pontoons * along * across;
    const double dx = r->pontoon_length / along, dy = r->pontoon_width / across;
    const double gap = r->pontoons > 1 ? (r->width - r->pontoon_width) / (r->pontoons - 1) : 0.0;
    for (int p = 0; p < r->pontoons; p++) {
        const double middle = (p - 0.5 * (r->pontoons - 1)) * gap;
        for (int i = 0; i < along * across; i++) {
            const double px = (i % along + 0.5) * dx - 0.5 * r->pontoon_length;
            const double py = middle + (i / along + 0.5) * dy - 0.5 * r->pontoon_width;
            bys_prism prism = {.point = local_point(x, body, "", px, py, -r->pontoon_height),
                                     .waterplane = dx * dy,
                                     .height = r->pontoon_height,
                                     .width_x = dy / along,
                                     .width_y = dx / across,
                                     .cd = r->cd_hull,
                                     .reflect_x = r->width / total,
                                     .reflect_y = r->length / total,
                                     .hull_draft = draft,
                                     .breadth_x = r->pontoon_length,
                                     .breadth_y = r->width,
                                     .cs = r->cs_deck};
            prism.end_ratio = r->cd_hull > 0.0 ? r->cd_end / r->cd_hull : 0.0;
            put_hull(&prism, r, draft, gap);
            if (prism.point < 0 || bys_network_prism(x->net, &prism) < 0)
                return false;
        }
    }
    return true;
}

static bool add_gear(bys_expansion *x, int body, const bys_raft_part *r, const char *id) {
    const bys_part *part = *r->gear ? bys_site_part(x->site, r->gear) : NULL;
    if (!part || part->kind != BYS_PART_GEAR || r->gear_count <= 0)
        return true;
    const bys_gear_values *values = bys_expand_gear(x, &part->u.gear, "", "");
    if (!values)
        return false;
    const bys_drag_law law = bys_gear_law(&part->u.gear, values);
    for (int i = 0; i < 9; i++) {
        const bys_gear_set set = {.id = bys_arena_format(x->scratch, "%s/gear%d", id, i + 1),
                                  .part = part,
                                  .values = values,
                                  .point = local_point(x, body, "", (i / 3 - 1) * r->length / 3.0,
                                                       (i % 3 - 1) * r->width / 3.0, 0.0),
                                  .count = r->gear_count / 9.0,
                                  .line = -1,
                                  .lawful = true,
                                  .law = law,
                                  .swing_relief = bys_gear_swing_relief(&part->u.gear)};
        if (!set.id || set.point < 0 || bys_network_gear(x->net, &set) < 0)
            return false;
    }
    return true;
}

bool bys_expand_raft(bys_expansion *x, int body, const bys_part *part, const char *id) {
    const bys_raft_part *r = &part->u.raft;
    const int cg = local_point(x, body, "", 0.0, 0.0, r->cg - r->pontoon_height);
    const int wind = local_point(x, body, "", 0.0, 0.0, r->deck_height);
    if (cg < 0 || wind < 0)
        return false;
    bys_body *b = &x->net->bodies[body];
    b->part = part;
    b->cg_point = cg;
    b->wind_point = wind;
    b->wind_area = r->deck_area;
    b->wind_cs = r->cs_deck;
    const double draft = bys_raft_draft(x, part);
    if (draft > r->pontoon_height)
        bys_expand_fault(x, BYS_M_raft_heavy, part->item.place,
                         "%s would sink at stage '%s': raft and gear need %.2f m of pontoon, its "
                         "pontoons are %.2f m high; add pontoons or take gear off",
                         id, x->stage ? x->stage->item.id : "", draft, r->pontoon_height);
    return add_prisms(x, body, r, draft) && add_beams(x, body, r) && add_gear(x, body, r, id);
}
