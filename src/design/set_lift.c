// SPDX-License-Identifier: GPL-3.0-or-later
// A harvester lifts a line at one place to a height above the water.
//
// GIVEN     place, height h above the still-water surface, m
// RETURNED  the upward force that brings the place there within a millimetre, and the state
// NOTES     1. The force is vertical and the place free to move in plan, as a line that runs over rollers.
//           2. The height rises with the force; the root is bracketed by doubling and then found by the
//              Illinois form of false position, each state from the one before.
//           3. A line that already floats higher needs no force. Above 500 kN the search ends: no
//              harvester lifts that, and the line would part.
// SOURCE    Illinois algorithm: Dowell and Jarratt (1971) [memory]. 500 kN: own choice.
#include "base/number.h"
#include "design/sets.h"

#include <math.h>

static const double near_enough = 1e-3; // m
static const double first_force = 500.0, most_force = 5e5; // N

/// Height of the place above (below: negative) the wanted one under an upward force.
static bys_rc height_at(double *above, bys_set_run *run, const bys_judge *judge, const bys_job *job,
                        bys_workplace *place, const bys_set *set, double force, bys_error *err)
{
    run->loads[run->load_count - 1].force[2] = force;
    run->lift_force = force;
    const int at = bys_job_stage(judge, job)->net->points[set->point].island;
    const bys_rc rc = bys_run_island(run, judge, job, place, at, run->solves > 0, err);
    *above = place->lost->x[3 * set->point + 2] - run->sea.level - set->lift->height;
    return rc;
}

typedef struct { double low, high, at_low, at_high; } bracket;

/// New force inside the bracket.
static double between(const bracket *b)
{
    const double f = b->low - b->at_low * (b->high - b->low) / (b->at_high - b->at_low);
    return f > b->low && f < b->high ? f : 0.5 * (b->low + b->high);
}

static void tighten(bracket *b, double force, double above, int *side)
{
    if (above < 0.0) {
        b->low = force, b->at_low = above;
        if (*side < 0)
            b->at_high *= 0.5;
        *side = -1;
    } else {
        b->high = force, b->at_high = above;
        if (*side > 0)
            b->at_low *= 0.5;
        *side = 1;
    }
}

static bool stable(const bys_workplace *place, int island)
{
    return place->lost->islands[island].status == BYS_STABLE;
}

bys_rc bys_run_lift(bys_set_run *run, const bys_judge *judge, const bys_job *job,
                    bys_workplace *place, const bys_set *set, bys_error *err)
{
    static const double none[3] = {0.0, 0.0, 0.0};
    const int island = bys_job_stage(judge, job)->net->points[set->point].island;
    bracket b = {0.0, first_force, 0.0, 0.0};
    bys_rc rc = bys_run_add_load(run, set->point, none, err);
    if (!rc)
        rc = height_at(&b.at_low, run, judge, job, place, set, 0.0, err);
    for (int i = 0; i < set->island_count && !rc; i++) // replaced weather
        if (set->islands[i] != island)
            rc = bys_run_island(run, judge, job, place, set->islands[i], false, err);
    if (rc || !stable(place, island) || b.at_low >= 0.0)
        return rc;
    rc = height_at(&b.at_high, run, judge, job, place, set, b.high, err);
    while (!rc && stable(place, island) && b.at_high < 0.0 && b.high < most_force) {
        b.low = b.high, b.at_low = b.at_high;
        b.high *= 2.0;
        rc = height_at(&b.at_high, run, judge, job, place, set, b.high, err);
    }
    if (!rc && stable(place, island) && b.at_high < 0.0)
        bys_run_fails(run, place, island, BYS_CANNOT_STAND,
                      "no lift of up to 500 kN brings it to that height");
    double above = b.at_high;
    for (int side = 0, k = 0; !rc && stable(place, island) && fabs(above) > near_enough; k++) {
        if (k == 60) {
            bys_run_fails(run, place, island, BYS_INDETERMINATE,
                          "no force was found that brings it to that height");
            break;
        }
        const double force = between(&b);
        rc = height_at(&above, run, judge, job, place, set, force, err);
        tighten(&b, force, above, &side);
    }
    return rc;
}
