// SPDX-License-Identifier: GPL-3.0-or-later
// Files to start from; a test reads each of them.
#include "site/templates/embedded.h"
#include <byssus/site.h>

#include <string.h>

const char *bys_site_template(const char *kind)
{
    return strcmp(kind, "block") == 0       ? bys_embedded_block
           : strcmp(kind, "raft-grid") == 0 ? bys_embedded_raft_grid
           : strcmp(kind, "network") == 0   ? bys_embedded_network
                                            : NULL;
}
