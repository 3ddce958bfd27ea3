// SPDX-License-Identifier: GPL-3.0-or-later
// What makes up the governing loads: a stacked bar and a table a case.
#include "write/account.h"
#include "write/html.h"

#include <math.h>
#include <string.h>

enum { PIECES = 6 };
static const bys_load pieces[PIECES] = {BYS_LOAD_CURRENT, BYS_LOAD_VISCOUS_DRIFT,
                                        BYS_LOAD_REFLECTION_DRIFT, BYS_LOAD_WIND, BYS_LOAD_GIVEN,
                                        BYS_LOAD_BED};

static double along(const double f[3], const double way[2])
{
    return f[0] * way[0] + f[1] * way[1];
}

/// Kinds of the account that push sideways, of one row.
static double pushed(const bys_load_row *row, const double way[2])
{
    double sum = 0.0;
    for (int k = 0; k < PIECES; k++)
        sum += along(row->f[pieces[k]], way);
    return sum;
}

static double longest(const bys_load_account *account, const double way[2])
{
    double most = 0.0;
    for (int i = 0; i < account->row_count; i++)
        most = fmax(most, pushed(&account->rows[i], way));
    return most;
}

/// One bar of 300 units at most: its pieces end to end; what pushes the other way is left to the table.
static void add_bar(bys_text *out, const bys_load_row *row, const double way[2], double most)
{
    double at = 0.0;
    bys_text_add(out, "<td><svg class=\"stack\" viewBox=\"0 0 300 10\" aria-hidden=\"true\">");
    for (int k = 0; k < PIECES; k++) {
        const double length = 300.0 * along(row->f[pieces[k]], way) / most;
        if (!(length > 0.05))
            continue;
        bys_text_addf(out, "<rect class=\"s%d\" x=\"", k);
        bys_text_add_fixed(out, at, 1);
        bys_text_add(out, "\" width=\"");
        bys_text_add_fixed(out, fmin(length, 300.0 - at), 1);
        bys_text_add(out, "\" height=\"10\"/>");
        at += length;
    }
    bys_text_add(out, "</svg></td>");
}

static void add_up(bys_text *out, const double f[BYS_LOAD_COUNT][3])
{
    double rest = 0.0;
    for (int k = 0; k < BYS_LOAD_COUNT; k++)
        rest += k == BYS_LOAD_WEIGHT || k == BYS_LOAD_BUOYANCY || k == BYS_LOAD_BED ? 0.0 : f[k][2];
    bys_html_cell_number(out, f[BYS_LOAD_WEIGHT][2] / 1000.0, 2);
    bys_html_cell_number(out, f[BYS_LOAD_BUOYANCY][2] / 1000.0, 2);
    bys_html_cell_number(out, f[BYS_LOAD_BED][2] / 1000.0, 2);
    bys_html_cell_number(out, rest / 1000.0, 2);
}

static void add_row(bys_text *out, const bys_load_row *row, const double way[2], double most)
{
    bys_text name = {0};
    bys_text_addf(&name, "%s%s%s", row->kind, *row->part ? " " : "", row->part);
    bys_html_row(out, name.data ? name.data : "");
    out->failed = out->failed || name.failed;
    bys_text_free(&name);
    if (most > 0.0)
        add_bar(out, row, way, most);
    else
        bys_html_cell(out, "");
    for (int k = 0; k < PIECES; k++)
        bys_html_cell_number(out, along(row->f[pieces[k]], way) / 1000.0, 2);
    add_up(out, row->f);
    bys_html_row_end(out);
}

static void add_table(bys_text *out, const bys_load_account *account, const double way[2])
{
    static const bys_html_head heads[] = {
        {"Part", "", false},        {"Sideways", "", false},    {"Current", "kN", true},
        {"Viscous drift", "kN", true}, {"Reflected", "kN", true}, {"Wind", "kN", true},
        {"Given", "kN", true},      {"Bed", "kN", true},        {"Weight", "kN up", true},
        {"Buoyancy", "kN up", true}, {"Bed", "kN up", true},    {"Other", "kN up", true},
    };
    const double most = longest(account, way);
    bys_load_row all = {"all", "", {{0.0}}};
    memcpy(all.f, account->sum, sizeof all.f);
    bys_html_table(out, account->case_id, heads, sizeof heads / sizeof heads[0]);
    for (int i = 0; i < account->row_count; i++)
        add_row(out, &account->rows[i], way, most);
    add_row(out, &all, way, 0.0);
    bys_html_table_end(out);
}

static void add_words(bys_text *out, const bys_load_account *account, const double way[2],
                      bool sideways)
{
    bys_text_add(out, "<p>Governs ");
    for (int i = 0; i < account->leg_count; i++) {
        bys_text_add(out, i ? ", " : "");
        bys_html_text(out, account->legs[i]);
    }
    bys_text_add(out, ". ");
    if (sideways) {
        bys_text_add(out, "Sideways loads are counted towards ");
        bys_number_add(out, bys_compass_degrees(atan2(way[0], way[1])), 0);
        bys_text_add(out, "\xC2\xB0. ");
    }
    bys_text_add(out, "The supports take ");
    bys_number_add(out, hypot(account->supports[0], account->supports[1]) / 1000.0, 2);
    bys_text_add(out, " kN sideways and ");
    bys_number_add(out, account->supports[2] / 1000.0, 2);
    bys_text_addf(out, " kN up; the loads differ from that by %.1e of their sum.</p>\n",
                  account->gap);
}

static void add_account(bys_text *out, const bys_design *design, const bys_load_account *account)
{
    double way[2] = {0.0, 0.0};
    const bool sideways = bys_account_side(way, account);
    const char *words = NULL;
    for (int i = 0; i < design->case_count; i++)
        if (!strcmp(design->cases[i].id, account->case_id) && *design->cases[i].words)
            words = design->cases[i].words;
    bys_text_add(out, "<h3>");
    bys_html_text(out, words ? words : account->case_id);
    bys_text_add(out, "</h3>\n");
    add_words(out, account, way, sideways);
    add_table(out, account, way);
}

static void add_coefficients(bys_text *out, double value, double low, double high)
{
    bys_text_add(out, "<td class=\"n\">");
    if (isnan(value))
        bys_text_add(out, "by its law");
    else
        bys_number_add(out, value, 2);
    if (!isnan(low) && !isnan(high)) {
        bys_text_add(out, " <small>(");
        bys_number_add(out, low, 2);
        bys_text_add(out, " to ");
        bys_number_add(out, high, 2);
        bys_text_add(out, ")</small>");
    }
    bys_text_add(out, "</td>");
}

static void add_drag(bys_text *out, const bys_drag_row *row)
{
    bys_text text = {0};
    bys_text_addf(&text, "%s%s%s%s%s", row->part, *row->stage ? " at " : "", row->stage,
                  *row->of ? " of " : "", row->of);
    bys_html_row(out, text.data ? text.data : "");
    bys_html_cell(out, row->kind);
    bys_html_cell(out, *row->record ? row->record : "own number");
    bys_html_cell(out, row->law);
    add_coefficients(out, row->coefficient, row->low, row->high);
    bys_text_add(out, "<td>");
    if (!isnan(row->second)) {
        bys_number_add(out, row->second, 3);
        bys_text_addf(out, " %s", row->second_is);
    }
    bys_text_add(out, "</td>");
    bys_html_cell(out, bys_basis_name(row->basis));
    bys_html_cell_long(out, row->source);
    bys_html_cell_long(out, row->because);
    bys_html_cell_long(out, row->credit);
    bys_html_row_end(out);
    out->failed = out->failed || text.failed;
    bys_text_free(&text);
}

void bys_report_drag(bys_text *out, const bys_design *design)
{
    static const bys_html_head heads[] = {
        {"Part", "", false},   {"Kind", "", false},   {"Record", "", false}, {"Law", "", false},
        {"Coefficient", "", true}, {"Second", "", false}, {"Basis", "", false},
        {"Source", "", false}, {"Because", "", false}, {"Credit taken", "", false}};
    bys_html_section(out, "drag", "Drag coefficients");
    if (design->drag_count == 0) {
        bys_html_paragraph(out, "quiet", "Nothing has drag.");
    } else {
        bys_html_paragraph(out, NULL,
                           "On the diameter of lines, the wetted outline of floats, the outline of "
                           "gear, the wetted sides of rafts. In brackets: what other sources give. "
                           "A use outside the range of its source stands among the warnings.");
        bys_html_table(out, "Drag coefficients", heads, sizeof heads / sizeof heads[0]);
        for (int i = 0; i < design->drag_count; i++)
            add_drag(out, &design->drags[i]);
        bys_html_table_end(out);
    }
    bys_html_section_end(out);
}

void bys_report_accounts(bys_text *out, const bys_design *design)
{
    bys_html_section(out, "account", "What makes up the loads");
    if (design->account_count == 0) {
        bys_html_paragraph(out, "quiet", "No case governs a leg.");
    } else {
        bys_html_paragraph(out, NULL,
                           "All loads on the connected part that each leg belongs to, in the cases "
                           "that govern a leg. Viscous drift is what waves add to the drag of the "
                           "current; reflected is what hulls turn back of the waves. Weight of "
                           "gear is its weight in water. Every load is summed apart from the "
                           "solver and compared with what the supports take.");
        bys_text_add(out, "<ul class=\"key\">");
        for (int k = 0; k < PIECES; k++) {
            bys_text_addf(out, "<li><svg viewBox=\"0 0 30 10\" aria-hidden=\"true\"><rect "
                               "class=\"s%d\" width=\"30\" height=\"10\"/></svg>",
                          k);
            bys_html_text(out, bys_load_words(pieces[k]));
            bys_text_add(out, "</li>");
        }
        bys_text_add(out, "</ul>\n");
    }
    for (int i = 0; i < design->account_count; i++)
        add_account(out, design, &design->accounts[i]);
    bys_html_section_end(out);
}
