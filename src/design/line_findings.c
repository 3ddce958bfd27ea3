// SPDX-License-Identifier: GPL-3.0-or-later
// Strength of what belongs to no leg: backbones, head ropes, spans of explicit networks.
#include "design/envelope.h"

#include <math.h>

static int island_of_piece(const bys_stage_set *set, int piece)
{
    for (int s = 0; s < set->net->section_count; s++)
        if (set->piece_of_section[s] == piece)
            return set->net->points[set->net->sections[s].a].island;
    return -1;
}

static void strength_finding(bys_judge *judge, const int *pieces, int count)
{
    const bys_stage_set *set = &judge->stages[0];
    const int island = island_of_piece(set, pieces[0]);
    bys_strength check = bys_pieces_check(judge, pieces, count);
    if (island >= 0)
        bys_check_settle(judge, &check, set->net->islands[island].legs,
                         set->net->islands[island].leg_count);
    const bys_finding f = {.kind = "line strength",
                           .item = check.item,
                           .case_id = check.case_id,
                           .condition = check.condition,
                           .value = check.utilisation,
                           .limit = 1.0,
                           .unit = "",
                           .verdict = check.verdict,
                           .basis = check.basis,
                           .text = bys_judge_text(judge, "%s: %s", check.item, check.why)};
    bys_finding_add(judge, &f);
}

void bys_judge_line_findings(bys_judge *judge)
{
    for (int p = 0; p < judge->piece_count; p++) {
        const bys_piece *piece = &judge->pieces[p];
        if (piece->leg >= 0 || !piece->part)
            continue;
        int list[16], count = 0;
        bool first = true;
        for (int q = 0; piece->line >= 0 && q < judge->piece_count && count < 16; q++)
            if (judge->pieces[q].leg < 0 && judge->pieces[q].line == piece->line) {
                first &= q >= p;
                list[count++] = q;
            }
        if (count == 0)
            list[count++] = p;
        if (first)
            strength_finding(judge, list, count);
    }
}
