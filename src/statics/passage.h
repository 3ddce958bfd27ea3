// SPDX-License-Identifier: GPL-3.0-or-later
// What the loads in a wave train and their audit agree on: how much water counts.
#ifndef BYS_PASSAGE_H
#define BYS_PASSAGE_H

#include "statics/state.h"

/// Added mass of a float over the mass of the water that it displaces.
double bys_passage_added(bys_float_shape shape);
/// Volume of water (m3) of one piece of gear that counts for inertia, upright.
double bys_passage_gear_mass(const bys_gear_set *set);

/// Adds, by code of its own, what the audit of a state in a wave train needs beside the rest: drag and
/// inertia of lines, inertia of all else. load: called with a point and a force (N).
typedef void (*bys_passage_load)(void *user, int point, const double f[3]);
void bys_passage_audit_element(const bys_network *net, int element, const double xa[3],
                               const double xb[3], const bys_sea *sea, bys_passage_load load,
                               void *user);
void bys_passage_audit_float(const bys_float_set *set, const double x[3], const bys_sea *sea,
                             bys_passage_load load, void *user);
void bys_passage_audit_gear(const bys_gear_set *set, const double x[3], const bys_sea *sea,
                            bys_passage_load load, void *user);
void bys_passage_audit_prism(const bys_prism *prism, const double x[3], const bys_sea *sea,
                             bys_passage_load load, void *user);

#endif
