// SPDX-License-Identifier: GPL-3.0-or-later
// The weather of the cases: JSON, a section of the report, and the list before anything is solved.
#include "write/environments.h"
#include "write/html.h"
#include "write/layout.h"
#include "write/rows.h"

#include <byssus/write.h>

#include <math.h>
#include <string.h>

// ---- JSON -------------------------------------------------------------------------------------

static void add_row(bys_json *json, const bys_environment_row *e)
{
    bys_json_open(json, NULL, '{', true);
    bys_json_string(json, "id", e->id);
    bys_json_boolean(json, "demanded", e->demanded);
    bys_json_string(json, "level", e->level);
    bys_json_number(json, "level_m", e->level_m);
    bys_json_number(json, "depth_m", e->depth_m);
    bys_json_number(json, "current_m_s", e->current_m_s);
    bys_json_number(json, "current_towards_deg", bys_compass_degrees(e->current_towards_rad));
    bys_json_boolean(json, "current_in_parts", e->turns);
    bys_json_number(json, "least_shelter", e->least_shelter);
    bys_json_number(json, "wind_m_s", e->wind_m_s);
    bys_json_number(json, "wind_from_deg", bys_compass_degrees(e->wind_from_rad));
    bys_json_number(json, "wind_averaging_s", e->averaging_s);
    bys_json_number(json, "hs_m", e->hs_m);
    bys_json_number(json, "tp_s", e->tp_s);
    bys_json_number(json, "gamma", e->gamma);
    bys_json_number(json, "waves_from_deg", bys_compass_degrees(e->waves_from_rad));
    bys_json_string(json, "growth_law", e->law);
    bys_json_number(json, "fetch_m", e->fetch_m);
    bys_json_boolean(json, "cut_by_breaking", e->broke);
    bys_json_string(json, "because", e->because);
    bys_json_close(json, '}');
}

void bys_environments_json(bys_json *json, const bys_environment_row *rows, int count)
{
    bys_json_open(json, "environments", '[', false);
    for (int i = 0; i < count; i++)
        add_row(json, &rows[i]);
    bys_json_close(json, ']');
}

void bys_drops_json(bys_json *json, const bys_drop_row *rows, int count)
{
    bys_json_open(json, "left_out", '[', false);
    for (int i = 0; i < count; i++) {
        bys_json_open(json, NULL, '{', true);
        bys_json_string(json, "cases", rows[i].pattern);
        bys_json_integer(json, "count", rows[i].cases);
        bys_json_string(json, "because", rows[i].because);
        bys_json_close(json, '}');
    }
    bys_json_close(json, ']');
}

void bys_write_case_plan_json(bys_text *out, const bys_case_plan *plan)
{
    bys_json json = {.out = out};
    bys_json_open(&json, NULL, '{', false);
    bys_json_string(&json, "site", plan->site);
    bys_json_integer(&json, "cases", plan->cases);
    bys_json_integer(&json, "lost_leg_cases", plan->lost_cases);
    bys_json_open(&json, "stages", '[', true);
    for (int i = 0; i < plan->stage_count; i++)
        bys_json_string(&json, NULL, plan->stages[i]);
    bys_json_close(&json, ']');
    bys_environments_json(&json, plan->environments, plan->environment_count);
    bys_drops_json(&json, plan->drops, plan->drop_count);
    bys_json_close(&json, '}');
    bys_json_finish(&json);
}

// ---- for people ---------------------------------------------------------------------------------

static void add_waves(bys_text *out, const bys_environment_row *e)
{
    if (!(e->hs_m > 0.0))
        return;
    bys_text_addf(out, "hs %.2f m, tp %.1f s from %05.1f deg", e->hs_m, e->tp_s,
                  bys_compass_degrees(e->waves_from_rad));
    if (*e->law)
        bys_text_addf(out, " (%s, fetch %.1f km)", e->law, e->fetch_m / 1000.0);
    if (e->broke)
        bys_text_add(out, ", cut by breaking");
}

static void add_words(bys_text *out, const bys_environment_row *e)
{
    bys_text_addf(out, "%s: ", e->level);
    if (e->current_m_s > 0.0)
        bys_text_addf(out, "current %.2f m/s towards %05.1f deg%s", e->current_m_s,
                      bys_compass_degrees(e->current_towards_rad),
                      e->turns ? " at the surface" : "");
    else
        bys_text_add(out, "no current");
    if (e->wind_m_s > 0.0)
        bys_text_addf(out, "; wind %.1f m/s from %05.1f deg", e->wind_m_s,
                      bys_compass_degrees(e->wind_from_rad));
    bys_text_add(out, e->hs_m > 0.0 ? "; " : "");
    add_waves(out, e);
    if (!isnan(e->least_shelter))
        bys_text_addf(out, "; shelter down to %.2f of the current", e->least_shelter);
    if (*e->because)
        bys_text_addf(out, "; added because: %s", e->because);
}

void bys_write_case_plan_text(bys_text *out, const bys_case_plan *plan, int width)
{
    bys_text_addf(out, "%d cases: %d environments at %d crop stages", plan->cases,
                  plan->environment_count, plan->stage_count);
    if (plan->lost_cases > 0)
        bys_text_addf(out, ", and %d with a leg lost", plan->lost_cases);
    bys_text_add(out, "\nA case is ENVIRONMENT:STAGE:CONDITION, as byssus solve --case takes it.\n"
                      "\nCrop stages:");
    for (int i = 0; i < plan->stage_count; i++)
        bys_text_addf(out, " %s", plan->stages[i]);
    bys_text_add(out, "\n\nEnvironments\n");
    for (int i = 0; i < plan->environment_count; i++) {
        const bys_environment_row *e = &plan->environments[i];
        bys_text words = {0};
        add_words(&words, e);
        bys_text_addf(out, "%s%s\n", e->id, e->demanded ? "" : "  (reported)");
        bys_layout_wrap(out, words.data ? words.data : "", width, "    ", "    ");
        out->failed = out->failed || words.failed;
        bys_text_free(&words);
    }
    if (plan->drop_count > 0)
        bys_text_add(out, "\nLeft out\n");
    for (int i = 0; i < plan->drop_count; i++) {
        bys_text words = {0};
        bys_text_addf(&words, "%s: %d cases, because: %s", plan->drops[i].pattern,
                      plan->drops[i].cases, plan->drops[i].because);
        bys_layout_wrap(out, words.data ? words.data : "", width, "  ", "    ");
        out->failed = out->failed || words.failed;
        bys_text_free(&words);
    }
}

// ---- report -------------------------------------------------------------------------------------

static void add_html_row(bys_text *out, const bys_environment_row *e)
{
    bys_text waves = {0};
    add_waves(&waves, e);
    bys_html_row(out, e->id);
    bys_html_cell(out, e->level);
    bys_html_cell_number(out, e->current_m_s, 2);
    bys_html_cell_number(
        out, e->current_m_s > 0.0 ? bys_compass_degrees(e->current_towards_rad) : NAN, 1);
    bys_html_cell_number(out, e->wind_m_s, 1);
    bys_html_cell_number(out, e->wind_m_s > 0.0 ? bys_compass_degrees(e->wind_from_rad) : NAN, 1);
    bys_html_cell(out, waves.data ? waves.data : "");
    bys_html_cell(out, e->demanded ? "demanded" : "reported");
    bys_html_cell_long(out, e->because);
    bys_html_row_end(out);
    out->failed = out->failed || waves.failed;
    bys_text_free(&waves);
}

void bys_report_environments(bys_text *out, const bys_design *design)
{
    static const bys_html_head heads[] = {
        {"Environment", "", false},    {"Level", "", false},      {"Current", "m/s", true},
        {"towards", "deg", true},      {"Wind", "m/s", true},     {"from", "deg", true},
        {"Waves", "", false},          {"Counts", "", false},     {"Added because", "", false}};
    bys_html_section(out, "weather", "Weather of the cases");
    bys_html_paragraph(out, NULL,
                       "Each environment is solved at each crop stage. Current at the surface, "
                       "wind 10 m above it. Where waves were grown from the wind, each law stands "
                       "for itself and the worst of all counts.");
    bys_html_table(out, "Environments", heads, 9);
    for (int i = 0; i < design->environment_count; i++)
        add_html_row(out, &design->environments[i]);
    bys_html_table_end(out);
    for (int i = 0; i < design->drop_count; i++) {
        bys_text words = {0};
        bys_text_addf(&words, "Left out: %d cases (%s), because: %s", design->drops[i].cases,
                      design->drops[i].pattern, design->drops[i].because);
        bys_html_paragraph(out, NULL, words.data ? words.data : "");
        out->failed = out->failed || words.failed;
        bys_text_free(&words);
    }
    bys_html_section_end(out);
}
