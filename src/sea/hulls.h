// SPDX-License-Identifier: GPL-3.0-or-later
// Sides of the rafts of a site, and the tables of what they reflect. Private to src/sea.
#ifndef BYS_SEA_HULLS_H
#define BYS_SEA_HULLS_H

#include "lease/network.h"
#include "phys/sea_loads.h"
#include "sea/sea.h"

enum { BYS_MOST_HULLS = 32 }; ///< more sides than that count as reflecting all

typedef struct { double draft[BYS_MOST_HULLS], breadth[BYS_MOST_HULLS]; int count; } bys_hull_list;
/// Tables for one depth, made when it is asked for.
typedef struct { double depth; bys_rectangle at[BYS_MOST_HULLS]; } bys_hull_tables;

/// Every raft part at every stage, along and across.
void bys_hulls_of(bys_hull_list *list, const bys_site *site);
/// Gives the sea the shares of all sides. False when out of memory.
bool bys_hulls_put(bys_sea *sea, bys_hull_tables *tables, const bys_hull_list *list,
                   bys_arena *arena);
void bys_hull_share(bys_sea_hull *out, const bys_rectangle *table, const bys_sea *sea);
void bys_sea_spread(bys_sea *sea);
/// Says where floats are not small against the waves.
void bys_floats_small(const bys_environments *list, const bys_site *site, bys_messages *messages);

#endif
