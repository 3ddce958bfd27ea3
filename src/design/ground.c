// SPDX-License-Identifier: GPL-3.0-or-later
// The soil under a place. Layers come in order from the bed down.
//
// NOTES     1. Two layers of one family are taken as one soil with the weakest numbers of both; what
//              lies above another family counts as nothing. Both are on the safe side for what is
//              embedded.
#include "design/ground.h"

#include <math.h>
#include <string.h>

bys_ground bys_ground_at(const bys_site *site, double x, double y)
{
    int count = 0;
    const bys_soil *layers = site->has_bed ? bys_bed_soils(&site->bed, x, y, &count) : NULL;
    return (bys_ground){layers, count};
}

const bys_soil *bys_ground_top(const bys_ground *ground)
{
    const bys_soil *top = NULL;
    for (int i = 0; i < ground->count; i++)
        if (!top || ground->layers[i].top < top->top)
            top = &ground->layers[i];
    return top;
}

bool bys_soil_is(const bys_soil *soil, const char *kind)
{
    return soil && strcmp(soil->kind, kind) == 0;
}

bys_ground_family bys_soil_family(const bys_soil *soil)
{
    if (!soil)
        return BYS_GROUND_NONE;
    if (bys_soil_is(soil, "clay") || bys_soil_is(soil, "mud"))
        return BYS_GROUND_CLAY;
    return bys_soil_is(soil, "sand") || bys_soil_is(soil, "silty-sand") ? BYS_GROUND_SAND
                                                                        : BYS_GROUND_OTHER;
}

bys_basis bys_soil_basis(const bys_soil *soil)
{
    return soil && soil->measured ? BYS_BASIS_TEST : BYS_BASIS_ASSUMED;
}

static double bottom(const bys_soil *soil)
{
    return soil->thickness > 0.0 ? soil->top + soil->thickness : INFINITY;
}

static double weaker(double a, double b)
{
    return isnan(a) || isnan(b) || !(b > 0.0) ? NAN : fmin(a, b);
}

static void add_layer(bys_soil_run *stretch, const bys_soil *soil)
{
    stretch->from = soil->top;
    stretch->su = weaker(stretch->su, soil->su);
    stretch->phi = weaker(stretch->phi, soil->friction_angle);
    stretch->weight = weaker(stretch->weight, soil->unit_weight);
    if (bys_soil_basis(soil) == BYS_BASIS_ASSUMED)
        stretch->basis = BYS_BASIS_ASSUMED;
    stretch->layers++;
}

bys_soil_run bys_ground_run(const bys_ground *ground, double to)
{
    bys_soil_run stretch = {.from = NAN, .to = to, .su = INFINITY, .phi = INFINITY,
                           .weight = INFINITY, .basis = BYS_BASIS_TEST};
    for (int i = ground->count - 1; i >= 0; i--) {
        const bys_soil *soil = &ground->layers[i];
        if (!(soil->top < to))
            continue;
        if (!stretch.last) {
            stretch.last = soil;
            stretch.family = bys_soil_family(soil);
        } else if (bys_soil_family(soil) != stretch.family) {
            break;
        }
        add_layer(&stretch, soil);
    }
    return stretch;
}

double bys_ground_top_thickness(const bys_ground *ground)
{
    const bys_soil *top = bys_ground_top(ground);
    double down = 0.0;
    for (int i = 0; i < ground->count; i++) {
        const bys_soil *soil = &ground->layers[i];
        if (bys_soil_family(soil) != bys_soil_family(top))
            break;
        down = bottom(soil);
    }
    return down;
}
