// SPDX-License-Identifier: GPL-3.0-or-later
// From what a part says of its drag to the law that the solver uses.
#include "lease/expand.h"
#include "phys/sea_loads.h"

#include <math.h>

static bys_drag_kind law_kind(bys_law law)
{
    switch (law) {
    case BYS_LAW_PANEL: return BYS_DRAG_PANEL;
    case BYS_LAW_NET: return BYS_DRAG_NET;
    case BYS_LAW_NET_LOLAND: return BYS_DRAG_NET_LOLAND;
    case BYS_LAW_NET_KRISTIANSEN: return BYS_DRAG_NET_KRISTIANSEN;
    case BYS_LAW_WEED: return BYS_DRAG_WEED;
    default: return BYS_DRAG_OUTLINE;
    }
}

bys_drag_law bys_gear_law(const bys_gear_part *gear, const bys_gear_values *values)
{
    const bys_drag_part *record = values->drag.record ? &values->drag.record->u.drag : NULL;
    bys_drag_law law = {.cd = values->cd, .edge = gear->edge_cd, .solidity = values->solidity,
                        .twine = gear->twine};
    if (record && !gear->edge_stated && isfinite(record->edge))
        law.edge = record->edge;
    // a number of one's own replaces the law of a net, not the power that weed follows
    if (record && (!values->drag.stated || record->law == BYS_LAW_WEED))
        law.kind = law_kind(record->law);
    if (record && record->law == BYS_LAW_WEED) {
        law.speed0 = record->speed;
        law.power = record->power;
    }
    if (record && !values->drag.stated && record->law == BYS_LAW_LANTERN)
        law.cd = bys_lantern_cd(gear->sinker, NULL);
    if (record && !values->drag.stated && record->law == BYS_LAW_BASKET)
        law.cd = bys_basket_cd(values->solidity, NULL);
    const bool flat = gear->kind == BYS_GEAR_PANEL || gear->kind == BYS_GEAR_NET;
    if (law.kind == BYS_DRAG_OUTLINE && flat)
        law.kind = BYS_DRAG_PANEL;
    if (law.kind == BYS_DRAG_PANEL && gear->orientation == BYS_ORIENT_FREE)
        law.kind = BYS_DRAG_OUTLINE;
    return law;
}

double bys_gear_file_relief(const bys_drag_law *law, const bys_gear_values *values, int pieces,
                            double spacing)
{
    if (pieces < 2 || !(spacing > 0.0))
        return 0.0;
    // nets and weed have no one coefficient: one at half a metre a second stands for them
    const double cd = bys_drag_at(law, 1.0, 0.0, 0.5, 0.0).cd;
    return 1.0 - bys_dropper_row(NULL, (size_t)pieces, cd, values->width, spacing);
}
