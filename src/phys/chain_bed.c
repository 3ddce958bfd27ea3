// SPDX-License-Identifier: GPL-3.0-or-later
// Sliding friction of a line that lies on the bed.
//
// GIVEN     chain   true for chain, false for wire rope
// RETURNED  sliding coefficient: force along the line per weight in water of what lies there  -
// NOTES     1. The value after first movement. The starting value (1.0 chain, 0.6 wire) is higher
//              and is not to be counted on once a leg has moved.
//           2. Tests in single beds gave 0.56 (mud and clay) to 0.74 (sand) for sliding chain.
//           3. Not to be added to the capacity of a drag anchor, which is that of the whole system.
// SOURCE    API RP 2SK. [memory]   ranges of note 2: NCEL 1984-87. [memory]
#include "phys/phys.h"

double bys_bed_friction(bool chain)
{
    return chain ? 0.70 : 0.25;
}
