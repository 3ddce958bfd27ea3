// SPDX-License-Identifier: GPL-3.0-or-later
// Environments by the stiffness of ropes.
//
// GIVEN     the list of environments; the parts of the site
// RETURNED  where a rope in use states a law for storms: each environment with weather by the storm
//           law, and once more, at the end of the list and with "/working" after its id, by the law
//           for steady loads. Slack water goes by the law for steady loads. Without such a rope the
//           list stays as it is.
// NOTES     A fibre rope is stiffer under quick loads than under slow ones. The stiff law bounds the
//           tensions, the soft one the movements; which of them a given load meets is not known, so
//           both are solved and both count.
// SOURCE    broken-in stiffness for steady loads, higher stiffness for wave peaks: Banfield & Flory
//           [read]; two bounds: API RP 2SM, DNV-RP-E305 [memory].
#include "sea/sea.h"

#include <stdlib.h>

static bool states_storm_law(const bys_part *part)
{
    return part && part->kind == BYS_PART_ROPE && part->u.line.storm.stiffness > 0.0;
}

static bool in_legs(const bys_leg_spec *legs, int count)
{
    for (int l = 0; l < count; l++)
        for (int i = 0; i < legs[l].item_count; i++)
            if (states_storm_law(legs[l].items[i].part))
                return true;
    return false;
}

static bool any_storm_law(const bys_site *site)
{
    for (int i = 0; i < site->block_count; i++)
        if (states_storm_law(site->blocks[i].backbone) ||
            in_legs(site->blocks[i].legs, site->blocks[i].leg_count))
            return true;
    for (int i = 0; i < site->change_count; i++)
        if (in_legs(site->changes[i].legs, site->changes[i].leg_count))
            return true;
    for (int i = 0; i < site->grid_count; i++)
        if (states_storm_law(site->grids[i].head_rope) ||
            in_legs(site->grids[i].legs, site->grids[i].leg_count))
            return true;
    for (int i = 0; i < site->network_count; i++)
        for (int k = 0; k < site->networks[i].span_count; k++)
            if (states_storm_law(site->networks[i].spans[k].part))
                return true;
    return false;
}

static bool still(const bys_sea *sea)
{
    return sea->current_speed == 0.0 && sea->wind_speed == 0.0 && sea->hs == 0.0;
}

bool bys_environments_ropes(bys_environments *list, const bys_site *site)
{
    if (!any_storm_law(site))
        return true;
    const int n = list->count;
    bys_environment *grown = realloc(list->items, (2 * (size_t)n + 1) * sizeof *grown);
    if (!grown)
        return false;
    list->items = grown;
    for (int i = 0; i < n; i++) {
        bys_environment soft = grown[i];
        if (still(&soft.sea))
            continue;
        grown[i].sea.storm = true;
        soft.soft_ropes = true;
        soft.id = bys_arena_format(list->arena, "%s/working", soft.id);
        if (!soft.id)
            return false;
        grown[list->count++] = soft;
    }
    return true;
}
