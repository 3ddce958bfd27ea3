// SPDX-License-Identifier: GPL-3.0-or-later
// What knots, splices, wear, corrosion and age leave of a line's strength.
//
// GIVEN     name          of a knot or splice
//           d, now, rate  diameter of a bar when new and now (m), loss of it a year (m)
//           loss, years   share of the strength lost in a year; years
//           share         measured over original diameter
// RETURNED  shares of the strength when new, 0 to 1; state of worn chain
// NOTES     1. Each is one reduction of its own; a product of several is the caller's doing, once
//              each.
//           2. Knots: tests of natural-fibre rope of 1946 and earlier; sources differ (a bowline
//              0.60 here, 0.80 to 0.90 in a climbing text), so that a knot without name takes
//              0.50 and a splice without name 0.90.
//           3. Bars: the strength goes with the square of the diameter. Corrosion is loss of
//              diameter, both sides together; 0.2 to 0.4 mm a year in the splash zone and at
//              touchdown, 0.1 to 0.2 elsewhere are said to be usual. Pitting is left out.
//           4. Fibre: no standard states what a year costs; the figure is the user's own.
// SOURCE    knots: Plymouth Cordage 1946 and Scovell, quoted by Jacobson [read]
//           0.50 and 0.90 without a name [judgement]; corrosion rates: API RP 2SK [memory]
//           states of chain, 90 and 80 %: NAVFAC MO-124 s. 6.2.2 [read]; squares, powers [derived]
#include "phys/phys.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

static const struct { const char *name; double share; bool knot; } ends[] = {
    {"splice", 0.90, false},      {"eye-splice", 0.95, false},  {"short-splice", 0.90, false},
    {"knot", 0.50, true},         {"clove-hitch", 0.75, true},  {"two-half-hitches", 0.75, true},
    {"anchor-bend", 0.70, true},  {"timber-hitch", 0.70, true}, {"bowline", 0.60, true},
    {"figure-eight", 0.48, true}, {"reef-knot", 0.45, true},    {"overhand", 0.45, true},
};

double bys_ends_share(const char *name, bool *knot)
{
    for (size_t i = 0; i < sizeof ends / sizeof ends[0]; i++)
        if (strcmp(ends[i].name, name) == 0) {
            *knot = ends[i].knot;
            return ends[i].share;
        }
    *knot = false;
    return NAN;
}

double bys_bar_share(double d, double now, double rate, double years)
{
    const double left = fmax(now - rate * years, 0.0) / d;
    return left * left;
}

double bys_aged_share(double loss, double years)
{
    return pow(1.0 - loss, years);
}

bys_chain_state bys_chain_wear_state(double share)
{
    return share >= 0.9 ? BYS_CHAIN_GOOD : share >= 0.8 ? BYS_CHAIN_FAIR : BYS_CHAIN_POOR;
}
