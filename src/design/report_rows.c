// SPDX-License-Identifier: GPL-3.0-or-later
// What the report prints beside the results: site, inputs, factors, levels, lease, warnings,
// cautions.
#include "base/number.h"
#include "design/judge.h"

#include <math.h>
#include <string.h>

static const char *or_empty(const char *text)
{
    return text ? text : "";
}

static void put_head(bys_judge *judge)
{
    const bys_site *site = judge->site;
    bys_design *out = judge->out;
    out->site = or_empty(site->name);
    out->notice = or_empty(site->notice);
    out->file = or_empty(site->file);
    out->sha256 = or_empty(site->sha256);
    out->profile = or_empty(site->rules.item.id);
    out->profile_title = or_empty(site->rules.item.name);
    out->written_for = or_empty(site->rules.written_for);
    out->strict = judge->options.strict;
    out->north = or_empty(site->frame.north);
    out->frame = site->frame;
    out->lease_id = or_empty(site->lease_id);
    out->lease_margin_m = site->lease_margin;
    out->lease_x = bys_judge_get(judge, (size_t)site->lease_count, sizeof(double));
    out->lease_y = bys_judge_get(judge, (size_t)site->lease_count, sizeof(double));
    out->levels = bys_judge_get(judge, (size_t)site->level_count, sizeof *out->levels);
    if (judge->no_memory)
        return;
    for (int i = 0; i < site->lease_count; i++) {
        out->lease_x[i] = site->lease_x[i];
        out->lease_y[i] = site->lease_y[i];
    }
    out->lease_count = site->lease_count;
    for (int i = 0; i < site->level_count; i++)
        out->levels[i] = (bys_named_value){site->levels[i].item.id, site->levels[i].height};
    out->level_count = site->level_count;
}

static void put_depths(bys_judge *judge)
{
    bys_design *out = judge->out;
    out->bed_depth_min_m = out->bed_depth_max_m = NAN;
    for (int a = 0; a < out->anchor_count; a++) {
        out->bed_depth_min_m = fmin(out->anchors[a].depth_m, out->bed_depth_min_m);
        out->bed_depth_max_m = fmax(out->anchors[a].depth_m, out->bed_depth_max_m);
    }
}

static void put_inputs(bys_judge *judge)
{
    const bys_site *site = judge->site;
    bys_design *out = judge->out;
    out->inputs = bys_judge_get(judge, (size_t)site->echo_count, sizeof *out->inputs);
    for (int i = 0; out->inputs && i < site->echo_count; i++)
        out->inputs[out->input_count++] =
            (bys_input_row){site->echo[i].path, site->echo[i].text, site->echo[i].place.line};
}

static void put_factors(bys_judge *judge)
{
    const bys_rules *rules = &judge->site->rules;
    bys_design *out = judge->out;
    out->factors = bys_judge_get(judge, (size_t)rules->factor_count, sizeof *out->factors);
    for (int i = 0; out->factors && i < rules->factor_count; i++) {
        const bys_factor *f = &rules->factors[i];
        char value[BYS_NUMBER_SIZE] = "none";
        if (!isnan(f->value))
            bys_number_shortest(value, f->value);
        out->factors[out->factor_count++] =
            (bys_factor_row){or_empty(f->component), bys_judge_text(judge, "%s", value),
                             or_empty(f->clause),    or_empty(f->source),
                             or_empty(f->because),   f->basis};
    }
}

// ---- warnings ------------------------------------------------------------------------------

enum { ROOM = 256 };

static void warn(bys_judge *judge, const char *text)
{
    bys_design *out = judge->out;
    for (int i = 0; i < out->warning_count; i++)
        if (strcmp(out->warnings[i], text) == 0)
            return;
    if (out->warning_count < ROOM)
        out->warnings[out->warning_count++] = text;
}

static void warn_of_messages(bys_judge *judge)
{
    for (size_t i = 0; i < bys_messages_count(judge->messages); i++) {
        const bys_message *m = bys_messages_at(judge->messages, i);
        if (m->severity == BYS_WARNING)
            warn(judge, bys_judge_text(judge, "W%04d: %s", m->code, m->text));
    }
}

/// What the user changed about current and cases, with his reasons.
static void warn_of_changes(bys_judge *judge)
{
    const bys_site *site = judge->site;
    const bys_design *out = judge->out;
    for (int i = 0; i < site->current_count; i++) {
        const bys_current *c = &site->currents[i];
        if (c->factor > 0.0 && c->record > 0.0)
            warn(judge, bys_judge_text(judge,
                                       "the %g yr current is %.3g m/s of a record of %g yr times "
                                       "%g, because: %s",
                                       c->years, c->speed / c->factor, c->record, c->factor,
                                       c->because));
        if (c->shields)
            warn(judge, bys_judge_text(judge,
                                       "lines and rafts shelter those behind them from the %g yr "
                                       "current, because: %s",
                                       c->years, c->because));
    }
    for (int i = 0; i < out->drop_count; i++)
        warn(judge, bys_judge_text(judge, "%d cases were left out (%s), because: %s",
                                   out->drops[i].cases, out->drops[i].pattern,
                                   out->drops[i].because));
    for (int i = 0; i < out->environment_count; i++)
        if (*out->environments[i].because)
            warn(judge, bys_judge_text(judge, "case %s was added, because: %s",
                                       out->environments[i].id, out->environments[i].because));
}

static void warn_of_waves(bys_judge *judge)
{
    for (int e = 0; e < judge->env.count; e++)
        if (judge->env.items[e].sea.hs > 0.0) {
            warn(judge, "wave-frequency tension was not computed: the loads are the static mean "
                        "with current, wind "
                        "and wave drift. A static factor does not cover a line whose wave part "
                        "exceeds 0.3 of "
                        "the mean, and whether one does is not known here.");
            return;
        }
}

static void warn_of_ropes(bys_judge *judge)
{
    for (int p = 0; p < judge->piece_count; p++) {
        const bys_part *part = judge->pieces[p].part;
        if (part && part->kind == BYS_PART_ROPE && isnan(part->u.line.efficiency) &&
            !(part->u.line.ends && *part->u.line.ends))
            warn(judge,
                 bys_judge_text(judge,
                                "%s: no knot or splice is stated, so its strength is not reduced "
                                "for one",
                                part->item.id));
    }
}

static void warn_of_anchors(bys_judge *judge)
{
    const bys_network *net = judge->stages[0].net;
    for (int a = 0; a < judge->anchor_count; a++) {
        const bys_anchor_rule *rule = &judge->rules[a];
        const bys_part *part = net->anchors[a].part;
        if (part && rule->model == BYS_HOLD_DRAG && strstr(rule->how, "of the fit"))
            warn(judge, bys_judge_text(judge, "%s: %s", part->item.id, rule->how));
        if (part && rule->model != BYS_HOLD_NONE && *rule->missing)
            warn(judge,
                 bys_judge_text(judge, "%s is not checked: %s", part->item.id, rule->missing));
    }
}

static void put_warnings(bys_judge *judge)
{
    judge->out->warnings = bys_judge_get(judge, ROOM, sizeof(char *));
    if (!judge->out->warnings)
        return;
    warn_of_messages(judge);
    warn_of_changes(judge);
    warn_of_waves(judge);
    warn_of_ropes(judge);
    warn_of_anchors(judge);
    if (judge->site->lease_count < 3 && judge->leg_count > 0)
        warn(judge, "no lease boundary is stated: whether the gear stays inside it is not judged");
}

// ---- cautions ------------------------------------------------------------------------------

/// What the site changes about a caution.
static void reword(bys_judge *judge, const char **text)
{
    const bys_site *site = judge->site;
    if (strncmp(*text, "Wind is", 7) == 0 && site->wind_averaging > 0.0 &&
        site->wind_averaging != 60.0)
        *text = bys_judge_text(judge,
                               "Wind is its mean over %g s; waves act by their mean drift only.",
                               site->wind_averaging);
    for (int i = 0; i < site->current_count; i++)
        if (site->currents[i].shields && strncmp(*text, "No line", 7) == 0)
            *text = "Shelter is counted for lines and rafts behind others, by the weaker of two "
                    "published models; legs and anchors take the full current.";
}

static void put_cautions(bys_judge *judge)
{
    static const char *const always[] = {
        "Equilibria take the seabed as frictionless; friction of chain counts once, in a "
        "deadweight's holding power.",
        "Gear hangs upright for the loads unless a credit for its swing is listed with the drag "
        "coefficients; its swing is used for clearance over the bed.",
        "No line shelters another: each takes the full current.",
        "Wind is its 1-minute mean; waves act by their mean drift only.",
        "With a leg lost, tensions hold until the line first touches something.",
        "The rule profile was written for the purpose named with it; whether it may be used here "
        "is for you and "
        "the authority to settle.",
        "A result is as good as its inputs: unverified values are listed, and anchors should be "
        "pull tested."};
    const int count = (int)(sizeof always / sizeof always[0]);
    bys_design *out = judge->out;
    out->cautions = bys_judge_get(judge, (size_t)count + 2, sizeof(char *));
    if (!out->cautions)
        return;
    for (int i = 0; i < count; i++)
        out->cautions[out->caution_count++] = always[i];
    if (judge->site->rules.outside && *judge->site->rules.item.id)
        out->cautions[out->caution_count++] =
            bys_judge_text(judge,
                           "Shellfish gear lies outside the scope of the profile %s, which was "
                           "written for %s.",
                           judge->site->rules.item.id, judge->site->rules.written_for);
    for (int i = 0; i < count; i++)
        reword(judge, &out->cautions[i]);
    if (out->solve_count < out->case_total)
        out->cautions[out->caution_count++] =
            bys_judge_text(judge,
                           "Lines that are exact copies of one another, moved along the bed's "
                           "contour, were solved once: %d solves gave %d cases.",
                           out->solve_count, out->case_total);
}

void bys_judge_report_rows(bys_judge *judge)
{
    put_head(judge);
    put_depths(judge);
    put_inputs(judge);
    put_factors(judge);
    put_warnings(judge);
    put_cautions(judge);
}
