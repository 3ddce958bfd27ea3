// SPDX-License-Identifier: GPL-3.0-or-later
// Form of a current over the depth, residual and wind-driven current, waves grown from wind.
#include "base/units.h"
#include "site/bind.h"

#include <math.h>
#include <string.h>

const char *const bys_growth_law_words[BYS_MOST_LAWS] = {
    "cem",     "cem-751",    "spm84",  "young-verhagen",
    "jonswap", "spm84-deep", "wilson", "kahma-calkoen",
};

// ---- current --------------------------------------------------------------------------------

static void read_layers(bys_reading *r, const bys_xml_node *node, bys_current *c)
{
    const int count = bys_node_number_of(node, "layer");
    c->depths = bys_array(r, count, sizeof *c->depths);
    c->speeds = bys_array(r, count, sizeof *c->speeds);
    if (!c->depths || !c->speeds)
        return;
    const bys_xml_node *row = NULL;
    while ((row = bys_node_next(node, row, "layer"))) {
        const int i = c->layer_count++;
        c->depths[i] = bys_node_number(row, "depth", NAN);
        c->speeds[i] = bys_node_number(row, "speed", NAN);
        if (i > 0 && c->depths[i] <= c->depths[i - 1])
            bys_say(r, BYS_M_current_form, bys_node_place(row, "depth"), row,
                    "is not deeper than the row above; list the rows from the surface down");
    }
    if (c->layer_count > 0 && !(c->depths[0] == 0.0 && c->speeds[0] > 0.0))
        bys_say(r, BYS_M_current_form, node->place, node,
                "has a table that does not start with a speed at the surface; add <layer "
                "depth=\"0 m\" speed=\"…\"/> first");
}

/// An attribute or a row that belongs to another form of profile.
static void refuse_form(bys_reading *r, const bys_xml_node *node, const char *attr,
                        const char *form)
{
    if (bys_node_has(node, attr))
        bys_say(r, BYS_M_conflict, bys_node_place(node, attr), node,
                "states %s, which belongs to profile=\"%s\"; write that or remove %s", attr, form,
                attr);
}

static void check_form(bys_reading *r, const bys_xml_node *node, const bys_current *c)
{
    if (c->profile != BYS_PROFILE_POWER)
        refuse_form(r, node, "exponent", "power");
    if (c->profile != BYS_PROFILE_LOG) {
        refuse_form(r, node, "roughness", "log");
        refuse_form(r, node, "bed", "log");
    } else if (bys_node_has(node, "roughness") == bys_node_has(node, "bed")) {
        bys_say(r, BYS_M_current_form, node->place, node,
                "has a logarithmic profile and states %s; write roughness=\"6 mm\" or "
                "bed=\"sand\"",
                bys_node_has(node, "bed") ? "both roughness and bed" : "no roughness");
    }
    if (c->profile == BYS_PROFILE_TABLE && c->layer_count < 2)
        bys_say(r, BYS_M_current_form, node->place, node,
                "has its profile by table and %d <layer> row%s; it needs two or more",
                c->layer_count, c->layer_count == 1 ? "" : "s");
    if (c->profile != BYS_PROFILE_TABLE && bys_node_next(node, NULL, "layer"))
        bys_say(r, BYS_M_conflict, bys_node_next(node, NULL, "layer")->place, node,
                "has <layer> rows, which belong to profile=\"table\"; write that or remove them");
}

static void check_reason(bys_reading *r, const bys_xml_node *node, const bys_current *c)
{
    const bool record = bys_node_has(node, "record"), factor = bys_node_has(node, "factor");
    if (record != factor)
        bys_say(r, BYS_M_short_record, bys_node_place(node, record ? "record" : "factor"), node,
                record ? "is from a record of %g yr: state the factor that leads to its return "
                         "period, with because"
                       : "states a factor without the length of the record that it extends; add "
                         "record=\"… yr\"",
                bys_node_number(node, "record", 0));
    if ((factor || c->shields) && !bys_node_has(node, "because"))
        bys_say(r, BYS_M_rule_reason, bys_node_place(node, factor ? "factor" : "shielding"), node,
                "states %s without a reason; add because=\"…\"",
                factor ? "a factor" : "shielding");
    if (record && c->record >= c->years)
        bys_say(r, BYS_M_conflict, bys_node_place(node, "record"), node,
                "has a record of %g yr, no shorter than its return period; state the value of that "
                "return period itself", c->record);
}

void bys_read_current_form(bys_reading *r, const bys_xml_node *node, bys_current *c)
{
    c->profile = (bys_profile_kind)bys_node_choice(node, "profile", BYS_PROFILE_POWER);
    c->roughness = bys_node_number(node, "roughness", NAN);
    c->rough_bed = bys_node_choice(node, "bed", -1);
    c->level = bys_level_ref(r, node, "level");
    c->record = bys_node_number(node, "record", NAN);
    c->factor = bys_node_number(node, "factor", 1.0);
    c->shields = bys_node_choice(node, "shielding", 0) == 1;
    c->because = bys_node_text(node, "because");
    if (c->profile == BYS_PROFILE_TABLE)
        read_layers(r, node, c);
    check_form(r, node, c);
    check_reason(r, node, c);
    c->speed *= c->factor;
}

// ---- waves grown from wind --------------------------------------------------------------------

static void read_laws(bys_reading *r, const bys_xml_node *node, bys_grown_waves *g)
{
    const char *text = bys_node_has(node, "laws") ? bys_node_text(node, "laws")
                                                  : "cem cem-751 spm84 young-verhagen jonswap";
    for (const char *p = text + strspn(text, " "); *p; p += strspn(p, " ")) {
        const size_t n = strcspn(p, " ");
        int law = 0;
        while (law < BYS_MOST_LAWS && (strlen(bys_growth_law_words[law]) != n ||
                                       strncmp(bys_growth_law_words[law], p, n) != 0))
            law++;
        bool twice = false;
        for (int i = 0; i < g->law_count; i++)
            twice = twice || g->laws[i] == law;
        if (law == BYS_MOST_LAWS || twice)
            bys_say(r, BYS_M_fetch_lacking, bys_node_place(node, "laws"), node,
                    twice ? "names the law \"%.*s\" twice"
                          : "names the law \"%.*s\", which is not known; known are cem, cem-751, "
                            "spm84, young-verhagen, jonswap, spm84-deep, wilson and kahma-calkoen",
                    (int)(n < 60 ? n : 60), p);
        else
            g->laws[g->law_count++] = law;
        p += n;
    }
}

static void sort_fetches(bys_grown_waves *g)
{
    for (int i = 1; i < g->fetch_count; i++)
        for (int k = i; k > 0 && g->from[k] < g->from[k - 1]; k--) {
            double *const lists[3] = {g->from, g->length, g->depths};
            for (int c = 0; c < 3; c++) {
                const double keep = lists[c][k];
                lists[c][k] = lists[c][k - 1];
                lists[c][k - 1] = keep;
            }
        }
}

static void read_fetches(bys_reading *r, const bys_xml_node *node, bys_grown_waves *g)
{
    const int count = bys_node_number_of(node, "fetch");
    g->from = bys_array(r, count, sizeof *g->from);
    g->length = bys_array(r, count, sizeof *g->length);
    g->depths = bys_array(r, count, sizeof *g->depths);
    if (!g->from || !g->length || !g->depths)
        return;
    const bys_xml_node *row = NULL;
    while ((row = bys_node_next(node, row, "fetch"))) {
        const int i = g->fetch_count;
        double from = fmod(bys_node_number(row, "from", NAN), BYS_TURN);
        from += from < 0 ? BYS_TURN : 0;
        for (int k = 0; k < i; k++)
            if (fabs(g->from[k] - from) < 1e-9)
                bys_say(r, BYS_M_fetch_lacking, bys_node_place(row, "from"), row,
                        "gives a second fetch for one direction; keep one");
        g->from[i] = from;
        g->length[i] = bys_node_number(row, "length", NAN);
        g->depths[i] = bys_node_number(row, "depth", NAN);
        g->fetch_count++;
    }
    sort_fetches(g);
}

static void read_ring(bys_reading *r, const bys_xml_node *shore, bys_grown_waves *g, size_t *n)
{
    const int corners = bys_node_number_of(shore, "corner");
    if (corners > 0 && corners < 3)
        bys_say(r, BYS_M_fetch_lacking, shore->place, shore, "has %d corners; it needs 3 or more",
                corners);
    const bys_xml_node *corner = NULL;
    while ((corner = bys_node_next(shore, corner, "corner"))) {
        g->shore[*n][0] = bys_node_number(corner, "x", NAN);
        g->shore[(*n)++][1] = bys_node_number(corner, "y", NAN);
    }
    g->ring_end[g->ring_count++] = *n;
}

static void read_shore(bys_reading *r, const bys_xml_node *node, bys_grown_waves *g)
{
    int corners = 0;
    const bys_xml_node *shore = NULL;
    while ((shore = bys_node_next(node, shore, "shore")))
        corners += bys_node_number_of(shore, "corner");
    g->shore = bys_array(r, corners, sizeof *g->shore);
    g->ring_end = bys_array(r, bys_node_number_of(node, "shore"), sizeof *g->ring_end);
    size_t n = 0;
    while (g->shore && g->ring_end && (shore = bys_node_next(node, shore, "shore")))
        read_ring(r, shore, g, &n);
}

static void check_grown(bys_reading *r, const bys_xml_node *node, const bys_grown_waves *g)
{
    if (!g->fetch_count && !g->ring_count)
        bys_say(r, BYS_M_fetch_lacking, node->place, node,
                "has neither <fetch> rows nor a <shore>; state one of them");
    if (g->fetch_count && g->ring_count)
        bys_say(r, BYS_M_conflict, bys_node_next(node, NULL, "fetch")->place, node,
                "has both <fetch> rows and a <shore>; keep one");
    if (g->ring_count && !bys_node_has(node, "limit"))
        bys_say(r, BYS_M_fetch_lacking, node->place, node,
                "has a shore and no limit; state the fetch where the shore leaves a gap, "
                "limit=\"20 km\"");
    if (g->fetch_count && (bys_node_has(node, "rule") || bys_node_has(node, "limit")))
        bys_say(r, BYS_M_conflict,
                bys_node_place(node, bys_node_has(node, "rule") ? "rule" : "limit"), node,
                "states how to take the fetch from a shore, but gives <fetch> rows; remove it");
    if (r->site->wind_count == 0)
        bys_say(r, BYS_M_fetch_lacking, node->place, node,
                "has no wind to grow from; state <wind>");
}

static void bind_grown(bys_reading *r, const bys_xml_node *node)
{
    bys_grown_waves *g = &r->site->grown;
    *g = (bys_grown_waves){
        .item = bys_item_of(node),
        .depth = bys_node_number(node, "depth", NAN),
        .duration = bys_node_number(node, "duration", NAN),
        .rule = bys_node_choice(node, "rule", 0),
        .limit = bys_node_number(node, "limit", NAN),
        .spreading = bys_node_number(node, "spreading", NAN),
    };
    r->site->has_grown = true;
    read_laws(r, node, g);
    read_fetches(r, node, g);
    read_shore(r, node, g);
    check_grown(r, node, g);
}

static void bind_passage(bys_reading *r, const bys_xml_node *node)
{
    bys_wave_passage *p = &r->site->passage;
    *p = (bys_wave_passage){.item = bys_item_of(node),
                            .height = bys_node_number(node, "height", NAN),
                            .ratio = bys_node_number(node, "ratio", 1.86),
                            .shortest = bys_node_number(node, "shortest", NAN),
                            .longest = bys_node_number(node, "longest", NAN),
                            .phases = (int)bys_node_number(node, "phases", 12),
                            .dynamic = bys_node_number(node, "dynamic-factor", NAN),
                            .because = bys_node_text(node, "because")};
    r->site->has_passage = true;
    if (!isnan(p->dynamic) && !*p->because)
        bys_say(r, BYS_M_passage_because, node->place, node,
                "has a dynamic-factor without a reason; add because=\"...\" with its source");
    if (p->shortest > p->longest)
        bys_say(r, BYS_M_passage_periods, node->place, node,
                "has a shortest period above the longest; exchange them");
}

void bys_bind_sea(bys_reading *r, const bys_xml_node *weather)
{
    bys_site *site = r->site;
    const bys_xml_node *node = bys_node_next(weather, NULL, "residual");
    if (node) {
        site->residual = (bys_residual){bys_item_of(node), bys_node_number(node, "speed", 0),
                                        bys_node_number(node, "towards", NAN)};
        site->has_residual = true;
    }
    node = bys_node_next(weather, NULL, "wind-drift");
    if (node) {
        site->wind_drift = (bys_wind_drift){bys_item_of(node), bys_node_number(node, "share", 0),
                                            bys_node_number(node, "depth", 50.0)};
        site->has_wind_drift = true;
    }
    node = bys_node_next(weather, NULL, "grown-waves");
    if (node)
        bind_grown(r, node);
    node = bys_node_next(weather, NULL, "wave-passage");
    if (node)
        bind_passage(r, node);
}

// ---- cases ------------------------------------------------------------------------------------

static void need(bys_reading *r, const bys_xml_node *node, const char *one, const char *other)
{
    if (bys_node_has(node, one) && !bys_node_has(node, other))
        bys_say(r, BYS_M_pair_incomplete, bys_node_place(node, one), node,
                "states %s without %s; state both or neither", one, other);
}

static bys_own_case own_case_of(bys_reading *r, const bys_xml_node *node)
{
    need(r, node, "current", "current-towards");
    need(r, node, "wind", "wind-from");
    need(r, node, "hs", "tp");
    need(r, node, "hs", "waves-from");
    return (bys_own_case){.item = bys_item_of(node),
                          .because = bys_node_text(node, "because"),
                          .level = bys_level_ref(r, node, "level"),
                          .current = bys_node_number(node, "current", 0),
                          .towards = bys_node_number(node, "current-towards", 0),
                          .wind = bys_node_number(node, "wind", 0),
                          .wind_from = bys_node_number(node, "wind-from", 0),
                          .hs = bys_node_number(node, "hs", 0),
                          .tp = bys_node_number(node, "tp", 0),
                          .waves_from = bys_node_number(node, "waves-from", 0),
                          .demanded = bys_node_flag(node, "demanded", true)};
}

void bys_bind_cases(bys_reading *r)
{
    bys_site *site = r->site;
    const bys_xml_node *cases = bys_node_next(r->root, NULL, "cases"), *node = NULL;
    site->own_cases = bys_array(r, bys_node_number_of(cases, "case"), sizeof *site->own_cases);
    site->drops = bys_array(r, bys_node_number_of(cases, "drop"), sizeof *site->drops);
    if (!cases || !site->own_cases || !site->drops)
        return;
    while ((node = bys_node_next(cases, node, "case")))
        site->own_cases[site->own_case_count++] = own_case_of(r, node);
    while ((node = bys_node_next(cases, node, "drop")))
        site->drops[site->drop_count++] = (bys_drop){
            bys_node_text(node, "case"), bys_node_text(node, "because"), node->place};
    for (int i = 0; i < site->own_case_count; i++)
        for (int k = 0; k < i; k++)
            if (strcmp(site->own_cases[i].item.id, site->own_cases[k].item.id) == 0)
                bys_messages_add(r->messages, BYS_FAULT, BYS_M_duplicate_id,
                                 site->own_cases[i].item.place,
                                 "the case \"%s\" exists already, in line %d; rename one",
                                 site->own_cases[i].item.id, site->own_cases[k].item.place.line);
}
