// SPDX-License-Identifier: GPL-3.0-or-later
// Rows of legs and anchors.
#include "design/envelope.h"
#include "design/passage.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static bys_verdict worse(bys_verdict a, bys_verdict b)
{
    static const int rank[] = {
        [BYS_REPORTED] = 0, [BYS_PASS] = 1, [BYS_NOT_CHECKED] = 2, [BYS_FAIL] = 3};
    return rank[a] >= rank[b] ? a : b;
}

// ---- directions ----------------------------------------------------------------------------

static int by_value(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static int direction_index(const bys_design *out, double towards)
{
    for (int d = 0; d < out->direction_count; d++)
        if (out->directions_rad[d] == towards)
            return d;
    return -1;
}

static void list_directions(bys_judge *judge)
{
    bys_design *out = judge->out;
    out->directions_rad = bys_judge_get(judge, (size_t)judge->env.count, sizeof(double));
    for (int e = 0; out->directions_rad && e < judge->env.count; e++) {
        const bys_environment *item = &judge->env.items[e];
        if (!bys_environment_slack(item) && direction_index(out, item->towards) < 0)
            out->directions_rad[out->direction_count++] = item->towards;
    }
    if (out->directions_rad)
        qsort(out->directions_rad, (size_t)out->direction_count, sizeof(double), by_value);
}

// ---- one leg -------------------------------------------------------------------------------

typedef struct {
    int *items;
    int count;
} piece_list;

static piece_list pieces_of_leg(bys_judge *judge, int leg)
{
    piece_list list = {NULL, 0};
    for (int p = 0; p < judge->piece_count; p++)
        list.count += judge->pieces[p].leg == leg;
    list.items = bys_judge_get(judge, (size_t)list.count, sizeof(int));
    list.count = 0;
    for (int p = 0; list.items && p < judge->piece_count; p++)
        if (judge->pieces[p].leg == leg)
            list.items[list.count++] = p;
    return list;
}

static void put_tension(bys_judge *judge, bys_leg_result *leg, const piece_list *list)
{
    leg->tension_N = NAN;
    leg->wave_N = NAN;
    for (int k = 0; k < list->count; k++) {
        bys_piece_seen seen;
        if (judge->pieces[list->items[k]].fitting)
            continue;
        bys_piece_worst(judge, list->items[k], &seen);
        if (seen.tension >= 0.0 && !(leg->tension_N >= seen.tension))
            leg->tension_N = seen.tension;
    }
    leg->mean_N = leg->tension_N;
}

static double job_tension(const bys_judge *judge, const double *tensions, const piece_list *list)
{
    double most = -1.0;
    for (int k = 0; k < list->count; k++)
        if (!judge->pieces[list->items[k]].fitting)
            most = fmax(most, tensions[list->items[k]]);
    return most;
}

static void put_directions(bys_judge *judge, bys_leg_result *leg, const piece_list *list)
{
    const size_t count = (size_t)judge->out->direction_count;
    leg->by_direction_N = bys_judge_get(judge, count, sizeof(double));
    leg->by_direction_lost_N = bys_judge_get(judge, count, sizeof(double));
    if (judge->no_memory)
        return;
    for (size_t d = 0; d < count; d++)
        leg->by_direction_N[d] = leg->by_direction_lost_N[d] = NAN;
    for (int j = 0; j < judge->job_count; j++) {
        const bys_job *job = &judge->jobs[j];
        const bys_environment *e = bys_job_environment(judge, job);
        const int d = direction_index(judge->out, e->towards);
        if (d < 0 || bys_environment_slack(e))
            continue;
        const double intact = job_tension(judge, job->piece, list);
        const double lost = job_tension(judge, job->piece_lost, list);
        if (intact >= 0.0)
            leg->by_direction_N[d] = fmax(intact, leg->by_direction_N[d]);
        if (lost >= 0.0)
            leg->by_direction_lost_N[d] = fmax(lost, leg->by_direction_lost_N[d]);
    }
}

static void put_lost(bys_judge *judge, bys_leg_result *leg, const piece_list *list)
{
    const bys_job *worst = NULL;
    int worst_leg = -1;
    leg->lost_tension_N = NAN;
    leg->lost_case = leg->lost_condition = "";
    for (int j = 0; j < judge->job_count; j++)
        for (int k = 0; k < list->count; k++) {
            const int p = list->items[k];
            const bys_job *job = &judge->jobs[j];
            if (judge->pieces[p].fitting || !(job->piece_lost[p] >= 0.0) ||
                leg->lost_tension_N >= job->piece_lost[p])
                continue;
            leg->lost_tension_N = job->piece_lost[p];
            worst = job;
            worst_leg = job->piece_lost_leg[p];
        }
    if (!worst)
        return;
    leg->lost_case = bys_case_name(judge, worst, worst_leg);
    leg->lost_condition = bys_condition_name(judge, worst_leg);
}

static double highest_level(const bys_site *site)
{
    double z = NAN;
    for (int i = 0; i < site->level_count; i++)
        z = fmax(site->levels[i].height, z);
    return z;
}

static void put_geometry(const bys_judge *judge, bys_leg_result *leg, int index)
{
    const bys_network *net = judge->stages[0].net;
    const bys_leg *from = &net->legs[index];
    double length = 0.0;
    for (int k = 0; k < 3; k++) {
        leg->top[k] = from->top_nominal[k];
        leg->foot[k] = net->points[from->foot].x[k];
    }
    const double dx = leg->foot[0] - leg->top[0], dy = leg->foot[1] - leg->top[1];
    leg->reach_m = hypot(dx, dy);
    leg->bearing_rad = atan2(dx, dy);
    if (leg->bearing_rad < 0.0)
        leg->bearing_rad += 2.0 * 3.14159265358979323846;
    for (int s = from->first_section; s < from->first_section + from->section_count; s++)
        length += net->sections[s].length;
    leg->scope = length / (highest_level(judge->site) - leg->foot[2]);
}

/// What decides the leg: a stated pretension with its level and stage, or the lengths.
static const char *pretension_from(bys_judge *judge, const bys_leg_spec *spec)
{
    const bys_site *site = judge->site;
    if (!spec || !(spec->pretension > 0.0))
        return "lengths and place of the anchor";
    int low = 0;
    for (int i = 1; i < site->level_count; i++)
        low = site->levels[i].height < site->levels[low].height ? i : low;
    const char *level = *spec->pretension_level ? spec->pretension_level
                        : site->level_count > 0 ? site->levels[low].item.id
                                                : "no level";
    return bys_judge_text(judge, "stated: %s at %s, %s", bys_kilonewtons(judge, spec->pretension),
                          level, *spec->pretension_stage ? spec->pretension_stage : "bare");
}

/// Slack water at the lowest and the highest level, first stage.
static void put_pretension(bys_judge *judge, bys_leg_result *leg, int index)
{
    const bys_stage_set *set = &judge->stages[0];
    const bys_leg *from = &set->net->legs[index];
    double lowest = INFINITY, highest = -INFINITY;
    leg->pretension_N = leg->pretension_high_N = NAN;
    leg->pretension_from = pretension_from(judge, from->spec);
    for (int e = 0; e < judge->env.count; e++) {
        const bys_state *rest = set->rest[e];
        const double level = judge->env.items[e].sea.level;
        if (!rest || rest->islands[set->island_of_leg[index]].status != BYS_STABLE ||
            from->section_count == 0)
            continue;
        const double T = rest->sections[from->first_section + from->section_count - 1].tension_b;
        if (level < lowest)
            lowest = level, leg->pretension_N = T;
        if (level > highest)
            highest = level, leg->pretension_high_N = T;
    }
}

// ---- pieces to order -----------------------------------------------------------------------

static void put_piece_check(bys_judge *judge, bys_leg_piece *row, int piece)
{
    const bys_piece *p = &judge->pieces[piece];
    bys_piece_seen seen;
    bys_piece_worst(judge, piece, &seen);
    row->id = p->id;
    row->tension_N = seen.tension >= 0.0 ? seen.tension : NAN;
    row->strength_N = p->capacity;
    row->new_N = p->strength;
    const bys_strength check = bys_piece_check(judge, p, piece);
    row->utilisation = check.utilisation;
    row->basis = check.basis;
    row->verdict = check.verdict;
    if (judge->options.strict && bys_basis_unverified(check.basis))
        row->verdict = BYS_NOT_CHECKED;
    row->reductions =
        bys_judge_get(judge, (size_t)p->reduction_count, sizeof *row->reductions);
    for (int i = 0; row->reductions && i < p->reduction_count; i++)
        row->reductions[row->reduction_count++] =
            (bys_share_row){p->reductions[i].what, p->reductions[i].share};
}

static bys_leg_piece bare_piece(const char *id, const bys_part *part, const char *kind,
                                double count, double mass)
{
    return (bys_leg_piece){.id = id,
                           .part = part ? part->item.id : "",
                           .kind = kind,
                           .length_m = NAN,
                           .count = count,
                           .mass_kg = count * mass,
                           .tension_N = NAN,
                           .strength_N = NAN,
                           .new_N = NAN,
                           .diameter_m = NAN,
                           .ends = "",
                           .utilisation = NAN,
                           .verdict = BYS_REPORTED,
                           .basis = part ? part->item.basis : BYS_BASIS_ASSUMED};
}

static int nth_piece(const bys_judge *judge, const piece_list *list, bool fitting, int n)
{
    for (int k = 0; k < list->count; k++)
        if (judge->pieces[list->items[k]].fitting == fitting && n-- == 0)
            return list->items[k];
    return -1;
}

static bys_leg_piece order_line(bys_judge *judge, const bys_leg_item *item, int piece)
{
    const bys_part *part = item->part;
    bys_leg_piece row =
        bare_piece("", part, part->kind == BYS_PART_CHAIN ? "chain" : "rope", 1.0, 0.0);
    if (piece >= 0) {
        put_piece_check(judge, &row, piece);
        row.length_m = isfinite(item->length) ? item->length : judge->pieces[piece].length;
    }
    row.mass_kg = part->u.line.mass * row.length_m;
    row.diameter_m = part->u.line.diameter;
    row.bedding_in = part->u.line.bedding_in;
    if (part->kind == BYS_PART_ROPE && part->u.line.ends)
        row.ends = part->u.line.ends;
    return row;
}

static void put_order(bys_judge *judge, bys_leg_result *leg, int index, const piece_list *list)
{
    const bys_leg_spec *spec = judge->stages[0].net->legs[index].spec;
    int lines = 0, fittings = 0;
    const int count = spec ? spec->item_count : 0;
    leg->pieces = bys_judge_get(judge, (size_t)count + 2, sizeof *leg->pieces);
    for (int i = 0; leg->pieces && i < count; i++) {
        const bys_leg_item *item = &spec->items[i];
        bys_leg_piece *row = &leg->pieces[leg->piece_count++];
        const double n = item->count;
        switch (item->kind) {
        case BYS_LEG_LINE:
            *row = order_line(judge, item, nth_piece(judge, list, false, lines++));
            break;
        case BYS_LEG_CONNECTOR: {
            const int piece = nth_piece(judge, list, true, fittings++);
            *row = bare_piece(item->part->item.id, item->part, "connector", n,
                              item->part->u.connector.mass);
            if (piece >= 0)
                put_piece_check(judge, row, piece);
            break;
        }
        case BYS_LEG_SINKER:
            *row = bare_piece(bys_judge_text(judge, "%s/sinker", leg->id), item->part, "sinker", n,
                              item->part->u.sinker.mass);
            break;
        case BYS_LEG_FLOAT:
            *row = bare_piece(bys_judge_text(judge, "%s/float", leg->id), item->part, "float", n,
                              item->part->u.buoy.mass);
            break;
        }
    }
    for (int arm = 0; leg->pieces && spec && spec->bridle.part && arm < 2; arm++) {
        const bys_leg_item item = {
            .kind = BYS_LEG_LINE, .part = spec->bridle.part, .length = spec->bridle.length};
        leg->pieces[leg->piece_count++] =
            order_line(judge, &item, nth_piece(judge, list, false, lines++));
    }
}

// ---- all legs ------------------------------------------------------------------------------

static const char *line_name(const bys_network *net, const bys_leg *leg)
{
    return leg->line >= 0   ? net->lines[leg->line].id
           : leg->body >= 0 ? net->bodies[leg->body].id
                            : "";
}

static bys_anchor_load no_anchor(void)
{
    return (bys_anchor_load){.check = {.analysis = bys_analysis,
                                       .characteristic_N = NAN,
                                       .load_factor = NAN,
                                       .design_N = NAN,
                                       .capacity_N = NAN,
                                       .resistance_factor = NAN,
                                       .utilisation = NAN,
                                       .verdict = BYS_REPORTED,
                                       .basis = BYS_BASIS_ASSUMED},
                             .horizontal_N = NAN,
                             .vertical_N = NAN,
                             .uplift_rad = NAN,
                             .offset_rad = NAN,
                             .grounded_m = NAN};
}

static void fill_leg(bys_judge *judge, int index)
{
    const bys_network *net = judge->stages[0].net;
    bys_leg_result *leg = &judge->out->legs[index];
    const piece_list list = pieces_of_leg(judge, index);
    leg->id = net->legs[index].id;
    leg->line = line_name(net, &net->legs[index]);
    leg->anchor_index = net->legs[index].anchor;
    put_tension(judge, leg, &list);
    leg->strength = bys_pieces_check(judge, list.items, list.count);
    bys_passage_judge(judge, index);
    bys_check_settle(judge, &leg->strength, &index, 1);
    leg->anchor = no_anchor();
    leg->utilisation = leg->strength.utilisation;
    leg->verdict = leg->strength.verdict;
    put_directions(judge, leg, &list);
    put_lost(judge, leg, &list);
    put_geometry(judge, leg, index);
    put_pretension(judge, leg, index);
    put_order(judge, leg, index, &list);
}

static void take_anchor(bys_leg_result *leg, const bys_anchor_load *load)
{
    leg->anchor = *load;
    leg->utilisation = fmax(leg->strength.utilisation, load->check.utilisation);
    leg->verdict = worse(leg->strength.verdict, load->check.verdict);
}

static const char *anchor_kind(const bys_part *part)
{
    static const char *const names[] = {[BYS_ANCHOR_DEADWEIGHT] = "deadweight",
                                        [BYS_ANCHOR_DRAG] = "drag",
                                        [BYS_ANCHOR_SCREW] = "screw",
                                        [BYS_ANCHOR_FIXED] = "fixed",
                                        [BYS_ANCHOR_PLATE] = "plate",
                                        [BYS_ANCHOR_PILE] = "pile",
                                        [BYS_ANCHOR_ROCK_PIN] = "rock-pin"};
    return part ? names[part->u.anchor.kind] : "fixed";
}

static double setback(const bys_part *part)
{
    return part && part->u.anchor.kind == BYS_ANCHOR_DRAG ? part->u.anchor.setback : 0.0;
}

/// Every way to reckon the holding; which of them counts.
static void put_methods(bys_judge *judge, bys_anchor_result *row, int index)
{
    const bys_anchor_rule *rule = &judge->rules[index];
    row->drag_m = rule->drag;
    row->methods = bys_judge_get(judge, (size_t)rule->method_count, sizeof *row->methods);
    for (int i = 0; row->methods && i < rule->method_count; i++)
        row->methods[row->method_count++] = (bys_method_row){
            rule->methods[i].name, rule->methods[i].capacity, rule->methods[i].used};
}

static void fill_anchor(bys_judge *judge, int index)
{
    const bys_site *site = judge->site;
    const bys_network *net = judge->stages[0].net;
    const bys_anchor *from = &net->anchors[index];
    const double *x = net->points[from->point].x;
    const bys_anchor_load load = bys_anchor_envelope(judge, index);
    bys_anchor_result *row = &judge->out->anchors[index];
    *row = (bys_anchor_result){.id = from->id,
                               .part = from->part ? from->part->item.id : "",
                               .kind = anchor_kind(from->part),
                               .x_m = x[0],
                               .y_m = x[1],
                               .depth_m = -x[2],
                               .mass_kg = from->part ? from->part->u.anchor.mass : NAN,
                               .legs = bys_judge_get(judge, (size_t)from->leg_count, sizeof(int)),
                               .leg_count = from->leg_count,
                               .heading_rad = from->heading,
                               .utilisation = load.check.utilisation,
                               .verdict = load.check.verdict,
                               .inside_lease = true,
                               .setback_m = setback(from->part),
                               .lease_margin_m = NAN};
    if (site->lease_count >= 3) {
        row->lease_margin_m =
            bys_plan_inside(site->lease_x, site->lease_y, site->lease_count, x[0], x[1]);
        row->inside_lease = row->lease_margin_m >= 0.0;
    }
    put_methods(judge, row, index);
    for (int k = 0; row->legs && k < from->leg_count; k++) {
        row->legs[k] = from->legs[k];
        take_anchor(&judge->out->legs[from->legs[k]], &load);
    }
}

static void sort_by_utilisation(bys_design *out)
{
    for (int i = 0; i < out->leg_count; i++) {
        int k = i;
        const double value = out->legs[i].utilisation;
        for (; k > 0 && !(out->legs[out->by_utilisation[k - 1]].utilisation >= value) &&
               !isnan(value);
             k--)
            out->by_utilisation[k] = out->by_utilisation[k - 1];
        out->by_utilisation[k] = i;
    }
}

void bys_judge_legs(bys_judge *judge)
{
    bys_design *out = judge->out;
    list_directions(judge);
    out->leg_count = judge->leg_count;
    out->legs = bys_judge_get(judge, (size_t)judge->leg_count, sizeof *out->legs);
    out->by_utilisation = bys_judge_get(judge, (size_t)judge->leg_count, sizeof(int));
    out->anchors = bys_judge_get(judge, (size_t)judge->anchor_count, sizeof *out->anchors);
    if (judge->no_memory)
        return;
    for (int l = 0; l < judge->leg_count && !judge->no_memory; l++)
        fill_leg(judge, l);
    out->anchor_count = judge->anchor_count;
    for (int a = 0; a < judge->anchor_count && !judge->no_memory; a++)
        fill_anchor(judge, a);
    sort_by_utilisation(out);
}
