// SPDX-License-Identifier: GPL-3.0-or-later
// Tension over strain of a rope: the attribute stiffness, or <stretch> elements for steady loads
// and for storms, each with one stiffness or with points that rise.
#include "site/bind.h"

#include <math.h>

static const char *const laws[] = {"working", "storm"};

static bys_stretch_spec unstated(void)
{
    return (bys_stretch_spec){.stiffness = NAN};
}

/// Points in order behind (0, 0); the first fault of the order is told.
static void read_points(bys_reading *r, bys_stretch_spec *law, const bys_xml_node *node)
{
    const int room = bys_node_number_of(node, "stretch-at");
    const bys_xml_node *at = NULL;
    bool sound = true;
    law->strain = bys_array(r, room + 1, sizeof *law->strain);
    law->tension = bys_array(r, room + 1, sizeof *law->tension);
    if (!law->strain || !law->tension)
        return;
    law->count = 1;
    while ((at = bys_node_next(node, at, "stretch-at"))) {
        const int i = law->count;
        law->strain[i] = bys_node_number(at, "strain", NAN);
        law->tension[i] = bys_node_number(at, "tension", NAN);
        if (sound && i > 1 &&
            (law->strain[i] <= law->strain[i - 1] || law->tension[i] <= law->tension[i - 1])) {
            bys_say(r, BYS_M_rope_law, at->place, node,
                    "does not rise here: strain and tension of each <at> must both be larger than "
                    "those of the one before");
            sound = false;
        }
        law->count++;
    }
    law->stiffness = law->tension[1] / law->strain[1];
}

static bys_stretch_spec law_of(bys_reading *r, bys_basis basis, const bys_xml_node *node)
{
    bys_stretch_spec law = unstated();
    const int points = bys_node_number_of(node, "stretch-at");
    const bool linear = bys_node_has(node, "stiffness");
    law.basis = (bys_basis)bys_node_choice(node, "basis", (int)basis);
    law.place = node->place;
    if (linear && points > 0)
        bys_say(r, BYS_M_conflict, bys_node_place(node, "stiffness"), node,
                "states a stiffness and points; keep one of them");
    else if (!linear && points < 2)
        bys_say(r, BYS_M_rope_law, node->place, node,
                "needs a stiffness, or at least two points such as <at strain=\"2 %%\" "
                "tension=\"12 kN\"/>");
    else if (linear)
        law.stiffness = bys_node_number(node, "stiffness", NAN);
    else
        read_points(r, &law, node);
    return law;
}

static void check_working(bys_reading *r, const bys_line_part *line, const bys_xml_node *rope,
                          const bool seen[2])
{
    const bool plain = bys_node_has(rope, "stiffness");
    if (plain && seen[0])
        bys_say(r, BYS_M_conflict, bys_node_place(rope, "stiffness"), rope,
                "states a stiffness and a <stretch for=\"working\">; keep one of them");
    if (!plain && !seen[0])
        bys_say(r, BYS_M_part_incomplete, rope->place, rope,
                "needs a stiffness for steady loads: add stiffness=\"… kN\" or <stretch "
                "for=\"working\">");
    // A rope does not stretch more in a storm than at rest: the two would be mixed up.
    if (line->storm.stiffness < line->working.stiffness)
        bys_say(r, BYS_M_rope_law, line->storm.place, rope,
                "is softer in a storm (%.4g kN at first) than under steady loads (%.4g kN): the "
                "two laws look swapped", line->storm.stiffness / 1000,
                line->working.stiffness / 1000);
}

void bys_bind_stretch(bys_reading *r, bys_line_part *line, bys_basis basis,
                      const bys_xml_node *rope)
{
    bool seen[2] = {false, false};
    const bys_xml_node *node = NULL;
    line->working = line->storm = unstated();
    line->working.stiffness = line->stiffness;
    line->working.basis = basis;
    while ((node = bys_node_next(rope, node, "stretch"))) {
        const int which = bys_node_choice(node, "for", -1);
        if (which < 0)
            continue; // told already
        if (seen[which])
            bys_say(r, BYS_M_repeated_element, node->place, rope,
                    "has two <stretch for=\"%s\">; keep one", laws[which]);
        seen[which] = true;
        *(which ? &line->storm : &line->working) = law_of(r, basis, node);
    }
    line->stiffness = line->working.stiffness;
    check_working(r, line, rope, seen);
}
