// SPDX-License-Identifier: GPL-3.0-or-later
#include "support/fake_design.h"

#include <math.h>
#include <stdlib.h>

static int first_legs[] = {0, 1};
static bys_laid_anchor anchors[] = {
    {"L01/N/anchor", "screw anchor", true, "L01 <N>", 2, "10:20", -110, 112, -101.5, 114.9, 8.98,
     1.24, 2.9, 8.5, true, 5, 5, false, 35.1, true, &first_legs[0], 1},
    {"L01/S/anchor", "drag anchor", false, "", 0, "", -110, -112, -110, -112, 0, NAN, 0, 0, false,
     6.1, 3.05, true, NAN, true, &first_legs[1], 1}};
static bys_laid_leg legs[] = {
    {"L01/N", 0, {18.8e3, 110, 0.5, 0.6, BYS_PASS, true}, {31e3, 900, 0.8, 1.1, BYS_FAIL, true},
     {18.9e3, 111, 0.5, 0.6, BYS_PASS, true}, true, false, "L01/N/rope", "warp28", 55.0, 58.2, NAN,
     "", true, "31.0 kN (fail) as made & 18.9 kN (pass) adjusted"},
    {"L01/S", 1, {18.8e3, 110, 0.5, 0.6, BYS_PASS, true}, {18.8e3, 110, 0.5, 0.6, BYS_PASS, true},
     {18.8e3, 110, 0.5, 0.6, BYS_PASS, true}, false, false, "", "", NAN, NAN, 130, "it fits both",
     false, ""}};
static bys_laid_stray strays[] = {
    {"L0<7>", 4, 1, 2, "L01/N", "L01/N/anchor", 155.5, true}};
static int by_offset[] = {0, 1};

bys_aslaid *fake_aslaid_new(bys_design *design)
{
    bys_aslaid *r = calloc(1, sizeof *r);
    if (!r)
        abort();
    bys_comparison *change = fake_comparison_new(NULL, NULL);
    *r = (bys_aslaid){.file = "laid.csv",
                      .sha256 = design->sha256,
                      .design = design,
                      .made = design,
                      .made_why = "",
                      .adjusted_why = "no length gives the pretension",
                      .change = change,
                      .anchors = anchors,
                      .anchor_count = 2,
                      .by_offset = by_offset,
                      .surveyed = 1,
                      .outside_box = 1,
                      .legs = legs,
                      .leg_count = 2,
                      .strays = strays,
                      .stray_count = 1,
                      .verdict = design->verdict,
                      .headline = "1 of 2 anchors has a position."};
    return r;
}

void fake_aslaid_free(bys_aslaid *r)
{
    if (!r)
        return;
    fake_design_free(r->design);
    fake_comparison_free(r->change);
    free(r);
}
