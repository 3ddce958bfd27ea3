// SPDX-License-Identifier: GPL-3.0-or-later
// Sources of the values in use, and each value in use that is remembered or assumed.
#include "design/judge.h"

#include <math.h>
#include <string.h>

enum { ROOM = 512 };

static void add_once(const char **list, int *count, const char *text)
{
    for (int i = 0; i < *count; i++)
        if (strcmp(list[i], text) == 0)
            return;
    if (*count < ROOM)
        list[(*count)++] = text;
}

static void source(bys_judge *judge, const char *id, const char *text)
{
    if (text && *text)
        add_once(judge->out->sources, &judge->out->source_count,
                 bys_judge_text(judge, "%s: %s", id, text));
}

static void doubt(bys_judge *judge, bys_basis basis, const char *text)
{
    if (bys_basis_unverified(basis))
        add_once(judge->out->unverified, &judge->out->unverified_count,
                 bys_judge_text(judge, "%s (%s)", text,
                                basis == BYS_BASIS_MEMORY ? "remembered, not seen in its source"
                                                          : "assumed"));
}

static const char *part_words(const bys_part *part)
{
    static const char *const words[] = {[BYS_PART_ROPE] = "strength, stiffness and mass",
                                        [BYS_PART_CHAIN] = "strength, stiffness and mass",
                                        [BYS_PART_CONNECTOR] = "strength and mass",
                                        [BYS_PART_SINKER] = "mass",
                                        [BYS_PART_FLOAT] = "volume, mass and coefficients",
                                        [BYS_PART_GEAR] = "mass, size and drag coefficient",
                                        [BYS_PART_RAFT] = "size, mass and coefficients",
                                        [BYS_PART_ANCHOR] = "mass and holding power"};
    return words[part->kind];
}

static void known_part(bys_judge *judge, const bys_part *part)
{
    if (!part)
        return;
    source(judge, part->item.id, part->item.source);
    doubt(judge, part->item.basis,
          bys_judge_text(judge, "%s of %s", part_words(part), part->item.id));
}

static void known_anchor(bys_judge *judge, int anchor)
{
    const bys_part *part = judge->stages[0].net->anchors[anchor].part;
    const bys_anchor_rule *rule = &judge->rules[anchor];
    known_part(judge, part);
    if (!part)
        return;
    const bys_anchor_part *a = &part->u.anchor;
    if (rule->model == BYS_HOLD_WEIGHT) {
        doubt(judge, isnan(a->friction) ? BYS_BASIS_MEMORY : a->friction_basis,
              bys_judge_text(judge, "friction %.2f of %s on the seabed", rule->friction,
                             part->item.id));
        doubt(judge, BYS_BASIS_MEMORY,
              "the share of a deadweight's weight that counts as favourable");
        doubt(judge, rule->chain_basis,
              "sliding friction 0.70 of chain on the seabed, where chain lies with a deadweight");
    } else if (rule->model == BYS_HOLD_DRAG && !(a->capacity > 0.0) && a->record_count == 0) {
        doubt(judge, BYS_BASIS_MEMORY,
              bys_judge_text(judge, "holding power of %s by %s", part->item.id,
                             a->kind == BYS_ANCHOR_DRAG ? "the power law" : "formula"));
    } else if (rule->model == BYS_HOLD_SHAFT) {
        doubt(judge, BYS_BASIS_MEMORY,
              bys_judge_text(judge, "holding power of %s by formula", part->item.id));
    }
}

static void known_factors(bys_judge *judge)
{
    const bys_rules *rules = &judge->site->rules;
    for (int i = 0; i < rules->factor_count; i++) {
        const bys_factor *f = &rules->factors[i];
        bool used = strcmp(f->component, "load-static") == 0;
        for (int p = 0; p < judge->piece_count && !used; p++)
            used = strcmp(judge->pieces[p].component, f->component) == 0;
        for (int a = 0; a < judge->anchor_count && !used; a++)
            used = strcmp(judge->rules[a].component, f->component) == 0 ||
                   strcmp(judge->rules[a].across_component, f->component) == 0;
        used = used && !f->dynamic && (f->state != BYS_STATE_LOST || judge->lost_demanded);
        if (!used || isnan(f->value))
            continue;
        source(judge, bys_judge_text(judge, "factor %s", f->component),
               bys_judge_text(judge, "%s%s%s", f->source ? f->source : "",
                              f->clause && *f->clause ? ", " : "", f->clause ? f->clause : ""));
        doubt(judge, f->basis, bys_judge_text(judge, "factor %g for %s", f->value, f->component));
    }
}

static void known_weather(bys_judge *judge)
{
    const bys_site *site = judge->site;
    for (int i = 0; i < site->current_count; i++) {
        source(judge, "current", site->currents[i].item.source);
        doubt(judge, site->currents[i].item.basis,
              bys_judge_text(judge, "the %g yr current", site->currents[i].years));
    }
    for (int i = 0; i < site->wind_count; i++) {
        source(judge, "wind", site->winds[i].item.source);
        doubt(judge, site->winds[i].item.basis,
              bys_judge_text(judge, "the %g yr wind", site->winds[i].years));
    }
    for (int i = 0; i < site->wave_count; i++) {
        source(judge, "waves", site->waves[i].item.source);
        doubt(judge, site->waves[i].item.basis,
              bys_judge_text(judge, "the %g yr waves", site->waves[i].years));
    }
    for (int i = 0; site->has_bed && i < site->bed.soil_count; i++) {
        source(judge, "seabed", site->bed.soils[i].source);
        doubt(judge, site->bed.soils[i].measured ? BYS_BASIS_TEST : BYS_BASIS_ASSUMED,
              bys_judge_text(judge, "the %s of the seabed, which was not measured",
                             site->bed.soils[i].kind));
    }
}

static void known_stage(bys_judge *judge, const bys_network *net)
{
    for (int f = 0; f < net->float_count; f++)
        if (f == 0 || net->floats[f].part != net->floats[f - 1].part)
            known_part(judge, net->floats[f].part);
    for (int g = 0; g < net->gear_count; g++) {
        const bys_gear_set *gear = &net->gears[g];
        if (g > 0 && gear->part == net->gears[g - 1].part &&
            gear->values == net->gears[g - 1].values)
            continue;
        known_part(judge, gear->part);
        doubt(judge, gear->values->basis,
              bys_judge_text(judge, "values of %s at stage %s", gear->part->item.id,
                             *gear->values->stage ? gear->values->stage : "base"));
    }
    for (int b = 0; b < net->body_count; b++)
        known_part(judge, net->bodies[b].part);
}

static void known_growth(bys_judge *judge)
{
    for (int k = 0; k < judge->site->stage_count; k++) {
        const bys_stage *stage = &judge->site->stages[k];
        for (int i = 0; i < stage->growth_count; i++) {
            const char *what = bys_judge_text(judge, "marine growth at stage %s", stage->item.id);
            source(judge, what, stage->growths[i].source);
            doubt(judge, stage->growths[i].basis, what);
        }
    }
}

static void known_drag(bys_judge *judge)
{
    for (int i = 0; i < judge->out->drag_count; i++) {
        const bys_drag_row *row = &judge->out->drags[i];
        const bool record = *row->record && !*row->because;
        if (record)
            source(judge, row->record, row->source);
        doubt(judge, row->basis,
              record ? bys_judge_text(judge, "drag record %s", row->record)
                     : bys_judge_text(judge, "drag coefficient of %s", row->part));
    }
}

void bys_judge_known(bys_judge *judge)
{
    judge->out->sources = bys_judge_get(judge, ROOM, sizeof(char *));
    judge->out->unverified = bys_judge_get(judge, ROOM, sizeof(char *));
    if (judge->no_memory)
        return;
    known_factors(judge);
    const bys_part *before = NULL;
    for (int p = 0; p < judge->piece_count; p++) {
        if (judge->pieces[p].part != before)
            known_part(judge, judge->pieces[p].part);
        before = judge->pieces[p].part;
    }
    for (int a = 0; a < judge->anchor_count; a++)
        if (a == 0 ||
            judge->stages[0].net->anchors[a].part != judge->stages[0].net->anchors[a - 1].part)
            known_anchor(judge, a);
    for (int s = 0; s < judge->stage_count; s++)
        known_stage(judge, judge->stages[s].net);
    known_weather(judge);
    known_drag(judge);
    known_growth(judge);
}
