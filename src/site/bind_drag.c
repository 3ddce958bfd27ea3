// SPDX-License-Identifier: GPL-3.0-or-later
// Drag records, and what each part says of its own drag: the record that it names, the numbers that
// it states in place of the record's, and the reasons for them.
#include "site/bind.h"

#include <math.h>
#include <string.h>

#define PI 3.14159265358979323846

/// Does the law itself give the coefficient?
static bool law_gives(bys_law law)
{
    return law == BYS_LAW_LANTERN || law == BYS_LAW_NET || law == BYS_LAW_NET_LOLAND ||
           law == BYS_LAW_NET_KRISTIANSEN || law == BYS_LAW_BASKET || law == BYS_LAW_BARREL;
}

static void check_span(bys_reading *r, const bys_xml_node *node, const char *from, const char *to)
{
    const double a = bys_node_number(node, from, NAN), b = bys_node_number(node, to, NAN);
    if (a >= b)
        bys_say(r, BYS_M_conflict, bys_node_place(node, from), node,
                "has a range that ends before it starts: %s %.4g, %s %.4g", from, a, to, b);
}

void bys_bind_drag(bys_reading *r, bys_part *part, const bys_xml_node *node)
{
    bys_drag_part *d = &part->u.drag;
    d->law = (bys_law)bys_node_choice(node, "law", 0);
    d->coefficient = bys_node_number(node, "coefficient", NAN);
    d->edge = bys_node_number(node, "edge", NAN);
    d->along = bys_node_number(node, "along", NAN);
    d->speed = bys_node_number(node, "speed", NAN);
    d->power = bys_node_number(node, "power", 1.5);
    d->low = bys_node_number(node, "low", NAN);
    d->high = bys_node_number(node, "high", NAN);
    d->reynolds_from = bys_node_number(node, "reynolds-from", NAN);
    d->reynolds_to = bys_node_number(node, "reynolds-to", NAN);
    d->speed_from = bys_node_number(node, "speed-from", NAN);
    d->speed_to = bys_node_number(node, "speed-to", NAN);
    check_span(r, node, "reynolds-from", "reynolds-to");
    check_span(r, node, "speed-from", "speed-to");
    check_span(r, node, "low", "high");
    if (!bys_node_ok(node, "law"))
        return;
    if (law_gives(d->law) == bys_node_has(node, "coefficient"))
        bys_say(r, BYS_M_drag_record, node->place, node,
                law_gives(d->law) ? "has a coefficient, which its law gives; remove it"
                                  : "needs the coefficient that its law rests on");
    if (d->law == BYS_LAW_WEED && !bys_node_has(node, "speed"))
        bys_say(r, BYS_M_drag_record, node->place, node,
                "is of weed and needs the speed at which its coefficient holds");
}

// ---- what a part says ------------------------------------------------------------------------

/// The record that `node` names, if its law is one of the bits of `laws`; `use` gets it.
static const bys_drag_part *record_of(bys_reading *r, bys_drag_use *use, const bys_xml_node *node,
                                      unsigned laws, const char *wanted)
{
    const bys_part *part = bys_part_ref(r, node, "drag");
    if (!part)
        return NULL;
    if (!(laws & 1u << part->u.drag.law)) {
        bys_say(r, BYS_M_drag_record, bys_node_place(node, "drag"), node,
                "names the drag record \"%.60s\", which is not for it; it needs one of law %s",
                part->item.id, wanted);
        return NULL;
    }
    use->record = part;
    return &part->u.drag;
}

/// A coefficient stated beside a record needs its reason.
static void need_reason(bys_reading *r, const bys_drag_use *use, const bys_xml_node *node,
                        const char *attr)
{
    if (use->record && bys_node_has(node, attr) && !*use->because)
        bys_say(r, BYS_M_drag_reason, bys_node_place(node, attr), node,
                "states %s in place of the record \"%.60s\" and gives no reason; add "
                "because=\"…\" or remove it",
                attr, use->record->item.id);
}

static void use_line(bys_reading *r, bys_line_part *line, const bys_xml_node *node)
{
    line->drag.because = bys_node_text(node, "because");
    const bys_drag_part *d = record_of(r, &line->drag, node, 1u << BYS_LAW_LINE, "line");
    const bool normal = bys_node_has(node, "drag-normal");
    const bool tangential = bys_node_has(node, "drag-tangential");
    line->drag.stated = normal || tangential;
    need_reason(r, &line->drag, node, normal ? "drag-normal" : "drag-tangential");
    if (d && !normal)
        line->cd_normal = d->coefficient;
    if (d && !tangential && isfinite(d->along))
        line->cd_tangential = d->along / PI; // the record's is on the diameter
}

static void use_float(bys_reading *r, bys_float_part *f, const bys_xml_node *node)
{
    const bool sphere = f->shape == BYS_FLOAT_SPHERE;
    f->drag.because = bys_node_text(node, "because");
    f->drag.stated = bys_node_has(node, "drag-coefficient");
    f->lies = (bys_lie)bys_node_choice(node, "lies", 0);
    const bys_drag_part *d =
        record_of(r, &f->drag, node,
                  1u << BYS_LAW_OUTLINE | 1u << (sphere ? BYS_LAW_SPHERE : BYS_LAW_BARREL),
                  sphere ? "sphere or outline" : "barrel or outline");
    need_reason(r, &f->drag, node, "drag-coefficient");
    if (d && !f->drag.stated) {
        f->barrel_law = d->law == BYS_LAW_BARREL;
        f->cd = f->barrel_law ? f->cd : d->coefficient;
    }
    if (f->lies != BYS_LIES_ANY && (f->shape != BYS_FLOAT_BARREL_SIDE || !f->barrel_law))
        bys_say(r, BYS_M_conflict, bys_node_place(node, "lies"), node,
                "says how it lies, which is read only for a barrel on its side under a drag record "
                "of law barrel");
}

static void use_raft(bys_reading *r, bys_raft_part *raft, const bys_xml_node *node)
{
    raft->drag.because = bys_node_text(node, "because");
    raft->drag.stated = bys_node_has(node, "drag-coefficient");
    const bys_drag_part *d = record_of(r, &raft->drag, node, 1u << BYS_LAW_HULL, "hull");
    need_reason(r, &raft->drag, node, "drag-coefficient");
    raft->hull_law = d != NULL;
    if (d && !raft->drag.stated) {
        raft->cd_hull = d->coefficient;
        if (!bys_node_has(node, "end-drag-coefficient"))
            raft->cd_end = isfinite(d->along) ? d->along : d->coefficient;
    }
    if (raft->beams > 0 && !(bys_node_has(node, "beam-height") && bys_node_has(node, "beam-level")))
        bys_say(r, BYS_M_part_incomplete, node->place, node,
                "has beams and needs beam-height and beam-level");
}

// ---- gear ------------------------------------------------------------------------------------

#define GEAR_LAWS                                                                                  \
    (1u << BYS_LAW_OUTLINE | 1u << BYS_LAW_PANEL | 1u << BYS_LAW_LANTERN | 1u << BYS_LAW_NET |     \
     1u << BYS_LAW_NET_LOLAND | 1u << BYS_LAW_NET_KRISTIANSEN | 1u << BYS_LAW_BASKET |             \
     1u << BYS_LAW_WEED)

/// What the record's law asks of the gear.
static void check_law(bys_reading *r, const bys_gear_part *g, const bys_gear_values *v,
                      const bys_xml_node *node)
{
    const bys_law law = v->drag.record->u.drag.law;
    const char *id = v->drag.record->item.id;
    const bool net =
        law == BYS_LAW_NET || law == BYS_LAW_NET_LOLAND || law == BYS_LAW_NET_KRISTIANSEN;
    if (law == BYS_LAW_LANTERN && !isfinite(g->sinker))
        bys_say(r, BYS_M_part_incomplete, node->place, node,
                "needs its sinker, on which the drag record \"%.60s\" rests", id);
    if ((net || law == BYS_LAW_BASKET) && !isfinite(v->solidity))
        bys_say(r, BYS_M_part_incomplete, node->place, node,
                "needs its solidity, on which the drag record \"%.60s\" rests", id);
    if (net && law != BYS_LAW_NET_LOLAND && !isfinite(g->twine))
        bys_say(r, BYS_M_part_incomplete, node->place, node,
                "needs its twine, on which the drag record \"%.60s\" rests", id);
}

static void use_values(bys_reading *r, const bys_gear_part *g, bys_gear_values *v,
                       const bys_xml_node *node, bool base)
{
    if (!base) {
        v->drag = g->values[0].drag;
        v->cd = bys_node_number(node, "drag-coefficient", v->cd);
    }
    const bool own = bys_node_has(node, "drag-coefficient");
    const bys_drag_part *d = record_of(r, &v->drag, node, GEAR_LAWS,
                                       "outline, panel, lantern, net, basket or weed");
    if (own || d || base) {
        v->drag.stated = own;
        v->drag.because = bys_node_text(node, "because");
    }
    need_reason(r, &v->drag, node, "drag-coefficient");
    if (!v->drag.stated && v->drag.record) {
        v->cd = v->drag.record->u.drag.coefficient; // NAN where the law gives it
        check_law(r, g, v, node);
    }
    if (!v->drag.stated && !v->drag.record && !bys_node_has(node, "drag"))
        bys_say(r, BYS_M_part_incomplete, node->place, node,
                "needs its drag: a drag record, as drag=\"cd-mussel-rope\" of the installed "
                "catalogue catalogue/drag.xml, or a drag-coefficient of your own");
}

static void use_swing(bys_reading *r, bys_gear_part *g, const bys_xml_node *node)
{
    g->swing_credit = bys_node_number(node, "swing-credit", 1);
    g->swing_tested = bys_node_choice(node, "swing-basis", 0) == 1;
    g->swing_because = bys_node_text(node, "swing-because");
    if (g->swing_credit < 1 && !*g->swing_because)
        bys_say(r, BYS_M_credit_reason, bys_node_place(node, "swing-credit"), node,
                "takes credit for its swing and gives no reason; add swing-because=\"…\"");
    if (g->swing_credit < 0.6 && !g->swing_tested)
        bys_say(r, BYS_M_credit_reason, bys_node_place(node, "swing-credit"), node,
                "takes %.4g of its upright drag; less than 0.6 needs a tow test: "
                "swing-basis=\"tow-test\"",
                g->swing_credit);
}

static void use_gear(bys_reading *r, bys_gear_part *g, const bys_xml_node *node)
{
    if (!g->values)
        return;
    use_values(r, g, &g->values[0], node, true);
    const bys_xml_node *at = NULL;
    for (int i = 1; i < g->value_count && (at = bys_node_next(node, at, "at")); i++)
        use_values(r, g, &g->values[i], at, false);
    use_swing(r, g, node);
}

void bys_bind_drag_use(bys_reading *r, bys_part *part, const bys_xml_node *node)
{
    switch (part->kind) {
    case BYS_PART_ROPE:
    case BYS_PART_CHAIN: use_line(r, &part->u.line, node); break;
    case BYS_PART_FLOAT: use_float(r, &part->u.buoy, node); break;
    case BYS_PART_RAFT: use_raft(r, &part->u.raft, node); break;
    case BYS_PART_GEAR: use_gear(r, &part->u.gear, node); break;
    default: break;
    }
}

// Density of the layer where none is stated: 1325 kg/m3, DNV-RP-C205 and NORSOK N-003. Known: memory.
static bys_growth_spec growth_of(bys_reading *r, const bys_xml_node *node)
{
    return (bys_growth_spec){
        .on = (bys_growth_on)bys_node_choice(node, "on", 0),
        .part = bys_part_ref(r, node, "part"),
        .thickness = bys_node_number(node, "thickness", NAN),
        .density = bys_node_number(node, "density", 1325),
        .source = bys_node_text(node, "source"),
        .basis = (bys_basis)bys_node_choice(node, "basis", BYS_BASIS_ASSUMED),
        .place = node->place,
    };
}

static void bind_growths(bys_reading *r)
{
    const bys_xml_node *stages = bys_node_next(r->root, NULL, "stages"), *node = NULL;
    while ((node = bys_node_next(stages, node, "stage"))) {
        const int at = bys_ids_find(&r->stages, bys_node_text(node, "id"));
        const int count = bys_node_number_of(node, "growth");
        if (at < 0 || count == 0)
            continue;
        bys_stage *stage = &r->site->stages[at];
        stage->growth_count = 0;
        stage->growths = bys_array(r, count, sizeof *stage->growths);
        const bys_xml_node *row = NULL;
        while (stage->growths && (row = bys_node_next(node, row, "growth")))
            stage->growths[stage->growth_count++] = growth_of(r, row);
    }
}

void bys_bind_gear_targets(bys_reading *r)
{
    bind_growths(r);
    for (int i = 0; i < r->site->part_count; i++) {
        const bys_xml_node *at = NULL;
        while (r->site->parts[i].kind == BYS_PART_GEAR &&
               (at = bys_node_next(r->part_nodes[i], at, "at")))
            bys_check_target(r, at);
    }
}
