// SPDX-License-Identifier: GPL-3.0-or-later
// The template files, NUL-terminated; their bytes are put into a C file while building.
#ifndef BYS_EMBEDDED_H
#define BYS_EMBEDDED_H

extern const char bys_embedded_block[], bys_embedded_raft_grid[], bys_embedded_network[];

#endif
