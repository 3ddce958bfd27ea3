// SPDX-License-Identifier: GPL-3.0-or-later
// The deployment sheet as one page for the boat: a card an anchor, with boxes to fill.
#include "write/page.h"
#include "write/sheets.h"

#include <byssus/write.h>

#include <math.h>

static void add_value(bys_text *out, const bys_sheet *sheet, int row, const char *key,
                      int decimals, const char *unit)
{
    const bys_cell *cell = bys_sheet_cell(sheet, row, key);
    if (cell->kind == BYS_CELL_TEXT) {
        bys_html_text(out, cell->text);
        return;
    }
    bys_number_add(out, cell->number, decimals);
    bys_text_addf(out, "%s", isnan(cell->number) ? "" : unit);
}

static void open_line(bys_text *out, const char *head)
{
    bys_text_addf(out, "<tr><th scope=\"row\">%s</th><td>", head);
}

static void close_line(bys_text *out)
{
    bys_text_add(out, "</td></tr>\n");
}

/// "L01-N-D: x 12.00 m, y 150.00 m; latitude, longitude".
static void add_place(bys_text *out, const bys_sheet *sheet, int row, bool drop)
{
    add_value(out, sheet, row, drop ? "drop_name" : "name", 0, "");
    bys_text_add(out, ": x ");
    add_value(out, sheet, row, drop ? "drop_x_m" : "x_m", 2, " m");
    bys_text_add(out, ", y ");
    add_value(out, sheet, row, drop ? "drop_y_m" : "y_m", 2, " m");
    if (!isnan(bys_sheet_cell(sheet, row, "lat_deg")->number)) {
        bys_text_add(out, "; WGS 84 ");
        add_value(out, sheet, row, drop ? "drop_lat_deg" : "lat_deg", 7, "");
        bys_text_add(out, ", ");
        add_value(out, sheet, row, drop ? "drop_lon_deg" : "lon_deg", 7, "");
    }
    close_line(out);
}

static void add_facts(bys_text *out, const bys_design *design, const bys_sheet *sheet, int row)
{
    bys_text_add(out, "<table><tbody>\n");
    open_line(out, "Lift");
    add_value(out, sheet, row, "part", 0, "");
    bys_text_add(out, ", ");
    add_value(out, sheet, row, "kind", 0, "");
    bys_text_add(out, ", ");
    add_value(out, sheet, row, "lift_kg", 0, " kg in air");
    close_line(out);
    open_line(out, "Heading");
    bys_text_add(out, "pulled towards ");
    add_value(out, sheet, row, "heading_deg", 0, "&deg; (");
    bys_html_text(out, design->north);
    bys_text_add(out, " north)");
    close_line(out);
    open_line(out, "Drop point");
    add_place(out, sheet, row, true);
    open_line(out, "Final point");
    add_place(out, sheet, row, false);
    open_line(out, "Haul in, depth");
    add_value(out, sheet, row, "setback_m", 1, " m");
    bys_text_add(out, "; bed ");
    add_value(out, sheet, row, "depth_m", 1, " m below chart datum");
    close_line(out);
    open_line(out, "Tide window");
    bys_text_add(out, "slack water; tension at rest ");
    add_value(out, sheet, row, "pretension_low_kN", 1, " kN");
    bys_text_add(out, " at the lowest level, ");
    add_value(out, sheet, row, "pretension_high_kN", 1, " kN");
    bys_text_add(out, " at the highest (");
    add_value(out, sheet, row, "pretension_from", 0, "");
    bys_text_add(out, ")");
    close_line(out);
    open_line(out, "Test pull");
    if (isnan(bys_sheet_cell(sheet, row, "proof_load_kN")->number))
        bys_text_add(out, "not known");
    else
        add_value(out, sheet, row, "proof_load_kN", 1, " kN, as in proof-loads.txt");
    close_line(out);
    bys_text_add(out, "</tbody></table>\n");
}

static void add_boxes(bys_text *out)
{
    static const char *const boxes[] = {"Date and time", "Level of the water, m", "Laid: x or lat",
                                        "Laid: y or lon", "Depth found, m", "Pulled to, kN",
                                        "Held for, min", "Tension at rest, kN", "Initials"};
    bys_text_add(out, "<ul class=\"fill\" aria-label=\"To be filled in\">");
    for (size_t i = 0; i < sizeof boxes / sizeof boxes[0]; i++)
        bys_text_addf(out, "<li>%s</li>", boxes[i]);
    bys_text_add(out, "</ul>\n");
}

static void add_card(bys_text *out, const bys_design *design, const bys_sheet *sheet, int row)
{
    bys_text_addf(out, "<article class=\"card\">\n<h3>%d. ", row + 1);
    add_value(out, sheet, row, "anchor", 0, "");
    bys_text_add(out, " &ndash; ");
    add_value(out, sheet, row, "legs", 0, "");
    bys_text_add(out, "</h3>\n");
    add_facts(out, design, sheet, row);
    add_boxes(out);
    bys_text_add(out, "</article>\n");
}

static void add_current(bys_text *out, const bys_design *design)
{
    const bys_environment_row *current = bys_sheet_current(design);
    if (!current)
        return;
    bys_text_add(out, "<p>Strongest current of the cases: ");
    bys_number_add(out, current->current_m_s, 2);
    bys_text_add(out, " m/s; the order takes it towards ");
    bys_number_add(out, bys_compass_degrees(current->current_towards_rad), 0);
    bys_text_add(out, "&deg;. Where it comes as strong from elsewhere, the skipper turns the order "
                      "within a line round.</p>\n");
}

void bys_write_deployment_html(bys_text *out, const bys_design *design)
{
    bys_sheet sheet;
    if (!bys_sheet_deployment(&sheet, design)) {
        out->failed = true;
        bys_sheet_free(&sheet);
        return;
    }
    bys_page_open(out, design->site, design->notice,
                  "Deployment sheet: anchors in order of laying");
    bys_page_verdict(out, design->verdict, design->headline);
    bys_html_section(out, "laying", "Order of laying");
    bys_html_paragraph(out, NULL, sheet.note);
    add_current(out, design);
    for (int i = 0; i < sheet.row_count; i++)
        add_card(out, design, &sheet, i);
    bys_html_section_end(out);
    bys_page_close(out);
    bys_sheet_free(&sheet);
}
