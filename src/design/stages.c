// SPDX-License-Identifier: GPL-3.0-or-later
// One Network for each crop stage, with the maps to what all stages share.
#include "base/codes.h"
#include "design/judge.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static int stage_total(const bys_site *site)
{
    const bool only_networks = site->block_count == 0 && site->grid_count == 0;
    return only_networks || site->stage_count == 0 ? 0 : site->stage_count;
}

/// Legs and anchors must be the same in all stages, so that one row stands for each.
static bool same_legs(const bys_network *a, const bys_network *b)
{
    if (a->leg_count != b->leg_count || a->anchor_count != b->anchor_count ||
        a->line_count != b->line_count || a->body_count != b->body_count)
        return false;
    for (int l = 0; l < a->leg_count; l++)
        if (strcmp(a->legs[l].id, b->legs[l].id) != 0 || a->legs[l].anchor != b->legs[l].anchor)
            return false;
    return true;
}

// ---- groups --------------------------------------------------------------------------------

static bool make_groups(bys_judge *judge)
{
    const bys_network *net = judge->stages[0].net;
    judge->groups = bys_judge_get(judge, (size_t)(net->line_count + net->body_count + 1),
                                  sizeof *judge->groups);
    if (!judge->groups)
        return false;
    for (int l = 0; l < net->line_count; l++)
        judge->groups[judge->group_count++] = (bys_group){net->lines[l].id, l, -1};
    for (int b = 0; b < net->body_count; b++)
        judge->groups[judge->group_count++] = (bys_group){net->bodies[b].id, -1, b};
    judge->groups[judge->group_count++] = (bys_group){"network", -1, -1};
    return true;
}

/// First line of an island, else its first body, else the rest.
static int island_group(const bys_judge *judge, const bys_network *net, int island)
{
    for (int l = 0; l < net->line_count; l++)
        if (net->lines[l].island == island)
            return l;
    const bys_island *part = &net->islands[island];
    return part->body_count > 0 ? net->line_count + part->bodies[0] : judge->group_count - 1;
}

static int section_group(const bys_network *net, const bys_section *section, int fallback)
{
    int line = section->line, body = -1;
    if (section->leg >= 0) {
        line = net->legs[section->leg].line;
        body = net->legs[section->leg].body;
    }
    if (line < 0 && body < 0)
        body = net->points[section->a].body;
    return line >= 0 ? line : body >= 0 ? net->line_count + body : fallback;
}

static bool map_groups(bys_judge *judge, bys_stage_set *set)
{
    const bys_network *net = set->net;
    int *of_island = bys_judge_get(judge, (size_t)net->island_count, sizeof(int));
    set->group_of_section = bys_judge_get(judge, (size_t)net->section_count, sizeof(int));
    set->group_of_point = bys_judge_get(judge, (size_t)net->point_count, sizeof(int));
    set->island_of_leg = bys_judge_get(judge, (size_t)net->leg_count, sizeof(int));
    if (judge->no_memory)
        return false;
    for (int i = 0; i < net->island_count; i++)
        of_island[i] = island_group(judge, net, i);
    for (int p = 0; p < net->point_count; p++)
        set->group_of_point[p] = net->points[p].kind == BYS_POINT_BODY
                                     ? net->line_count + net->points[p].body
                                     : of_island[net->points[p].island];
    for (int l = 0; l < net->line_count; l++)
        for (int k = 0; k < net->lines[l].point_count; k++)
            set->group_of_point[net->lines[l].points[k]] = l;
    for (int s = 0; s < net->section_count; s++)
        set->group_of_section[s] = section_group(net, &net->sections[s],
                                                 of_island[net->points[net->sections[s].a].island]);
    for (int l = 0; l < net->leg_count; l++)
        set->island_of_leg[l] = net->points[net->legs[l].top].island;
    return true;
}

static int section_island(const bys_network *net, int s)
{
    return net->points[net->sections[s].a].island;
}

static int fitting_island(const bys_network *net, int f)
{
    return net->points[net->fittings[f].point].island;
}

/// Items by island, in rising order: island i has list[from[i]] .. list[from[i+1] - 1].
static bool list_items(bys_judge *judge, const bys_network *net, int count,
                       int (*island_of)(const bys_network *, int), int **list_out, int **from_out)
{
    int *from = *from_out = bys_judge_get(judge, (size_t)net->island_count + 2, sizeof(int));
    int *list = *list_out = bys_judge_get(judge, (size_t)count, sizeof(int));
    if (judge->no_memory)
        return false;
    for (int s = 0; s < count; s++)
        from[island_of(net, s) + 2]++;
    for (int i = 0; i < net->island_count; i++)
        from[i + 2] += from[i + 1];
    for (int s = 0; s < count; s++)
        list[from[island_of(net, s) + 1]++] = s;
    return true;
}

static bool list_by_island(bys_judge *judge, bys_stage_set *set)
{
    const bys_network *net = set->net;
    return list_items(judge, net, net->section_count, section_island, &set->section_list,
                      &set->section_from) &&
           list_items(judge, net, net->fitting_count, fitting_island, &set->fitting_list,
                      &set->fitting_from);
}

// ---- all -----------------------------------------------------------------------------------

/// Builds a stage's network. What the first stage has said is not said again: only faults are
/// passed on from the others.
static bys_rc build(bys_judge *judge, bys_stage_set *set, int stage, bool first, bys_error *err)
{
    bys_messages *said = judge->messages;
    if (!first && bys_messages_new(&said))
        return bys_error_set(err, BYS_ENOMEM, 0, "out of memory while preparing the stages");
    const bys_rc rc = bys_network_tuned(&set->net, judge->site, stage, &judge->tuning, said, err);
    for (size_t i = 0; !first && i < bys_messages_count(said); i++) {
        const bys_message *m = bys_messages_at(said, i);
        if (m->severity == BYS_FAULT)
            bys_messages_add(judge->messages, BYS_FAULT, m->code, m->place, "%s", m->text);
    }
    if (!first)
        bys_messages_free(said);
    return rc;
}

static bys_rc add_stage(bys_judge *judge, int index, int stage, bys_error *err)
{
    bys_stage_set *set = &judge->stages[index];
    set->stage = stage;
    set->id = stage >= 0 ? judge->site->stages[stage].item.id : "as-written";
    const bys_rc rc = build(judge, set, stage, index == 0, err);
    if (rc)
        return rc;
    judge->stage_count = index + 1;
    if (index > 0 && !same_legs(judge->stages[0].net, set->net))
        return bys_error_set(err, BYS_EINPUT, BYS_M_stage_differs,
                             "stage %s does not have the same legs as stage %s", set->id,
                             judge->stages[0].id);
    if (index == 0 && !make_groups(judge))
        return bys_error_set(err, BYS_ENOMEM, 0, "out of memory while preparing the stages");
    set->rest = bys_judge_get(judge, (size_t)judge->env.count, sizeof *set->rest);
    if (judge->no_memory || !map_groups(judge, set) || !list_by_island(judge, set) ||
        !bys_stage_identical(set, judge->site, judge->arena))
        return bys_error_set(err, BYS_ENOMEM, 0, "out of memory while preparing the stages");
    return BYS_OK;
}

bys_rc bys_judge_stages(bys_judge *judge, int only, bys_error *err)
{
    const int total = stage_total(judge->site);
    const int room = total && only == BYS_ALL_STAGES ? total : 1;
    judge->stages = bys_judge_get(judge, (size_t)room, sizeof *judge->stages);
    if (!judge->stages)
        return bys_error_set(err, BYS_ENOMEM, 0, "out of memory while preparing the stages");
    for (int i = 0; i < room; i++) {
        const int stage = only != BYS_ALL_STAGES ? only : total ? i : -1;
        const bys_rc rc = add_stage(judge, i, stage, err);
        if (rc)
            return rc;
    }
    judge->leg_count = judge->stages[0].net->leg_count;
    bys_network **nets = bys_judge_get(judge, (size_t)room, sizeof(bys_network *));
    for (int i = 0; nets && i < room; i++)
        nets[i] = judge->stages[i].net;
    if (!nets || !bys_environments_shelter(&judge->env, nets, room))
        return bys_error_set(err, BYS_ENOMEM, 0, "out of memory while preparing the stages");
    return BYS_OK;
}

void bys_judge_stages_free(bys_judge *judge)
{
    for (int i = 0; judge->stages && i < judge->stage_count; i++) {
        for (int e = 0; judge->stages[i].rest && e < judge->env.count; e++)
            bys_state_free(judge->stages[i].rest[e]);
        bys_network_free(judge->stages[i].net);
    }
    judge->stage_count = 0;
    free(judge->pieces);
    judge->pieces = NULL;
}
