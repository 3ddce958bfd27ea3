// SPDX-License-Identifier: GPL-3.0-or-later
// Things of the Network by the names that people use.
#ifndef BYS_FIND_H
#define BYS_FIND_H

#include "lease/network.h"

int bys_find_leg(const bys_network *net, const char *id);    ///< -1 = none of that name
int bys_find_anchor(const bys_network *net, const char *id);
int bys_find_line(const bys_network *net, const char *id);
int bys_find_section(const bys_network *net, const char *id);
int bys_find_float(const bys_network *net, const char *id);

/// Point nearest to the share `at` of a line, leg or section; a raft's weight point, whatever `at`;
/// a named point. -1 = nothing of that name.
int bys_find_point(const bys_network *net, const char *id, double at);

/// Elements that a cut at the share `at` takes out: one of a section or leg, one of each strand of a
/// line. Returns their number, at most `room`; 0 = nothing of that name that could be cut.
int bys_find_cut(const bys_network *net, const char *id, double at, int *elements, int room);

/// Marks points of the island that something still connects (1) but nothing holds any more (2), when
/// the elements with out[e] != 0 are gone. mark: per point of the network. Returns how many are loose.
/// work: point_count ints.
int bys_find_loose(const bys_network *net, int island, const unsigned char *out,
                   unsigned char *mark, int *work);
/// Name of what a point belongs to: a line, a raft, a leg, the point itself, or its span.
const char *bys_find_name(const bys_network *net, int point);

#endif
