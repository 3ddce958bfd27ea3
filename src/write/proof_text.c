// SPDX-License-Identifier: GPL-3.0-or-later
// The proof loads as a sheet to print: what to pull each anchor to, room for what was held, how to
// pull, and what to do if the vessel cannot pull that much.
#include "write/layout.h"
#include "write/proof_rows.h"
#include "write/rows.h"

#include <byssus/write.h>

#include <math.h>

enum { WIDTH = 96 };

static void add_number(bys_text *out, double value, int decimals, int width)
{
    bys_text cell = {0};
    bys_number_add(&cell, value, decimals);
    bys_layout_cell(out, cell.data ? cell.data : "", width, true);
    out->failed = out->failed || cell.failed;
    bys_text_free(&cell);
}

static void wrap(bys_text *out, bys_text *line, const char *first, const char *rest)
{
    bys_layout_wrap(out, line->data ? line->data : "", WIDTH, first, rest);
    out->failed = out->failed || line->failed;
    bys_text_free(line);
}

static void add_head(bys_text *out, const bys_design *design)
{
    bys_text line = {0};
    bys_text_addf(&line, "Proof loads: %s%s%s", design->site, *design->notice ? " - " : "",
                  design->notice);
    wrap(out, &line, "", "  ");
    bys_text_addf(&line, "Rules: %s. Directions are clockwise from %s.", design->profile,
                  *design->north ? design->north : "north");
    wrap(out, &line, "", "  ");
    bys_text_add(out, "\n                                 pull to      step  holding  towards  "
                      "line    rise  line use\n");
    bys_text_add(out, "anchor            part            kN     tf     kN       kN      deg     "
                      "m     deg         %\n");
}

static void add_fields(bys_text *out)
{
    bys_text_add(out, "    held ________ kN for ____ min   moved ______ m   date __________   "
                      "initials ______\n");
}

static bool too_much(const bys_proof_row *row)
{
    return row->pull_use > 1.0;
}

static void add_remarks(bys_text *out, const bys_proof_row *row)
{
    bys_text line = {0};
    if (*row->why)
        bys_text_addf(&line, "No proof load: %s", row->why);
    else if (too_much(row))
        bys_text_addf(&line, "DO NOT pull this much with %s: it is more than the rules let its "
                             "weakest part carry (%s). Change the leg first.",
                      row->leg->id, row->leg->strength.item);
    else if (isnan(row->pull_use))
        bys_text_addf(&line, "The strength of %s is not known: do not pull with it before you know "
                             "what it may carry.", row->leg->id);
    else if (row->holding_use > 1.0)
        bys_text_addf(&line, "Do not go on to the holding with %s: its weakest part (%s) is for "
                             "less. Use a stronger line.", row->leg->id, row->leg->strength.item);
    if (line.data)
        wrap(out, &line, "    ", "    ");
    if (!*row->why && isnan(row->rise_rad))
        bys_layout_wrap(out, "The leg is shorter than the water is deep, or its length is not "
                             "known: add line until the pull is as flat as the leg's own.",
                        WIDTH, "    ", "    ");
}

static void add_row(bys_text *out, const bys_proof_row *row)
{
    const double degree = acos(-1.0) / 180.0;
    bys_layout_cell(out, row->anchor->id, 17, false);
    bys_text_add(out, " ");
    bys_layout_cell(out, row->anchor->part, 12, false);
    add_number(out, row->pull_N / 1e3, 1, 8);
    add_number(out, row->pull_N / BYS_TONNE_FORCE, 2, 7);
    add_number(out, row->step_N / 1e3, 1, 7);
    add_number(out, row->holding_N / 1e3, 1, 9);
    add_number(out, row->leg ? bys_compass_degrees(row->towards_rad) : NAN, 0, 9);
    add_number(out, row->line_m, 1, 6);
    add_number(out, row->rise_rad / degree, 0, 8);
    add_number(out, 100.0 * row->pull_use, 0, 10);
    bys_text_add(out, "\n");
    add_remarks(out, row);
    if (!*row->why && !too_much(row))
        add_fields(out);
}

static const char *const words[] = {
    "\nWhat the columns say",
    "pull to: the whole load of the anchor's worst demanded case, before factors, by the "
    "analysis of the check; what that leaves out (mostly the peaks of waves) the pull leaves "
    "out too.",
    "holding: load x load factor x resistance factor. Only a load of this size that is held "
    "counts as the holding power that the rules ask for.",
    "line, rise: all of the leg out and straight up to the highest water level. A shorter "
    "line lifts the anchor.",
    "line use: share of what the rules let the weakest part of the leg carry, at the pull.",
    "\nHow to pull",
    "One leg at a time, all of its line out, along the bearing given. Put a calibrated load "
    "cell in the line. Raise the load by steps and let each settle. [read: MO-124, appendix "
    "E]",
    "Hold the load for 3 minutes after the reading has settled. The anchor passes if it kept "
    "the load and lies within 12.2 m along and 6.1 m across of its place; keep inside the "
    "laying tolerance of the report if that is less. Else move it and repeat, never in the "
    "old furrow. [read: MO-124]",
    "Offshore practice holds for 15 minutes. [memory: API RP 2SK, ISO 19901-7]",
    "In silt and clay let a new anchor rest for about 24 hours before the pull. [read: "
    "MO-124]",
    "Pull steadily. A jerk on the load cell is no load that was held. Nobody stands in line "
    "with a line under load. [common practice, no source]",
    "A deadweight's hold against lifting, and that of an anchor that lifts in its worst case,"
    " is not shown by a flat pull. [derived]",
    "Read drag and load together and keep them: byssus pulltest judges the record (hold-load,"
    " hold-time), and the part can then name it.",
    "\nIf the vessel cannot pull that much",
    "1. Pull two anchors against each other with a tackle between their legs: both feel the "
    "same load, and the vessel only hauls the tackle. Look at the line use of both. [common "
    "practice, no source]",
    "2. Haul by winch and tackle in place of the screw. A tackle of n parts gives less than n"
    " times the haul. [common practice, no source]",
    "3. Wait for a stronger vessel, and keep the gear light until then: fewer droppers, less "
    "crop.",
    "4. If none of this is to be had, hold the most that the vessel can and write it down. "
    "The anchor has then shown held / pull-to of its load and not more; what is above rests "
    "on its table or formula. Write it into the site file as capacity with "
    "capacity-kind=\"proof\" and run the check again: it tells what that much carries. A load"
    " that was not reached is never put down as held."};

static void add_words(bys_text *out)
{
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        const bool head = words[i][0] == '\n';
        if (head)
            bys_text_add(out, "\n");
        bys_layout_wrap(out, words[i] + head, WIDTH, head ? "" : "  ", "    ");
    }
}

void bys_write_proof_text(bys_text *out, const bys_design *design)
{
    add_head(out, design);
    for (int i = 0; i < design->anchor_count; i++) {
        bys_proof_row row;
        bys_proof_row_make(&row, design, i);
        add_row(out, &row);
    }
    add_words(out);
}
