// SPDX-License-Identifier: GPL-3.0-or-later
// byssus: results as text and files. Every function that appends to a bys_text leaves its failure
// (out of memory) in text->failed; nothing here solves or judges, it only shows what a bys_design
// or a bys_solution holds. All formats of the leg table come from one list of columns.
#ifndef BYSSUS_WRITE_H
#define BYSSUS_WRITE_H

#include <byssus/design.h>

#ifdef __cplusplus
extern "C" {
#endif

/// Leg table as CSV: UTF-8, comma, LF, one header row with units in the names, one quantity a
/// column, numbers in shortest round-trip form, nothing where a value is not known.
void bys_write_legs_csv(bys_text *out, const bys_design *design);
/// Ropes and chains of the legs: made-up and cut lengths, ends, coils and what is left of them. CSV
/// by the same rules.
void bys_write_cut_list_csv(bys_text *out, const bys_design *design);
/// The deployment sheet: a card an anchor in the order of laying, boxes to fill, for A4. One file.
void bys_write_deployment_html(bys_text *out, const bys_design *design);
/// The contract "byssus.legs/1" (sitefiles/legs.schema.json). NaN and infinity become null.
void bys_write_legs_json(bys_text *out, const bys_design *design);
/// The whole report as one HTML file without any outside address or script.
void bys_write_report_html(bys_text *out, const bys_design *design);
/// Verdict, worst things and leg table for a terminal of `width` columns (60 or more), UTF-8.
void bys_write_terminal(bys_text *out, const bys_design *design, int width, bool colour);

/// The contract "byssus.state/1" (sitefiles/state.schema.json).
void bys_write_solution_json(bys_text *out, const bys_solution *solution);
/// The same state as tables for people.
void bys_write_solution_text(bys_text *out, const bys_solution *solution, int width);
/// Its load account: every load by part and kind, and what the supports take.
void bys_write_account_text(bys_text *out, const bys_load_account *account, int width);

/// The list of cases before anything is solved, for people and as JSON.
void bys_write_case_plan_text(bys_text *out, const bys_case_plan *plan, int width);
void bys_write_case_plan_json(bys_text *out, const bys_case_plan *plan);

/// Messages as a JSON array of {severity, code, file, line, column, text}.
void bys_write_messages_json(bys_text *out, const bys_messages *messages);
/// One JSON string with its quotes, escaped; bytes that are not UTF-8 become U+FFFD.
void bys_write_json_string(bys_text *out, const char *string);

/// `string` made safe for a terminal: bytes that are not UTF-8 become "?", control characters a
/// blank; tabs stay.
void bys_write_plain(bys_text *out, const char *string);

/// Places of the lease for chart plotters, maps and drawings, all from one list. GPX 1.1, KML 2.2
/// and GeoJSON (RFC 7946) need a frame with a place on the Earth: see bys_frame.
void bys_write_gpx(bys_text *out, const bys_design *design);
void bys_write_kml(bys_text *out, const bys_design *design);
void bys_write_geojson(bys_text *out, const bys_design *design);
/// Plan in metres, a layer a kind of thing (DXF release 12).
void bys_write_dxf(bys_text *out, const bys_design *design);
/// The report's plan as a drawing of its own, to a round scale on paper.
void bys_write_plan_svg(bys_text *out, const bys_design *design);

/// What to pull each anchor to, for how long, and what to do if the vessel cannot: a row an anchor, and
/// a sheet of 96 columns to print. Columns: byssus(1).
void bys_write_proof_csv(bys_text *out, const bys_design *design);
void bys_write_proof_text(bys_text *out, const bys_design *design);

/// Can a directory `dir` be written, or made? Touches nothing. BYS_ECREATE if not.
bys_rc bys_write_directory_check(const char *dir, bys_error *err);
/// The cascade alone: for a terminal, as JSON (schema "byssus.cascade/1"), and as cascade.json,
/// cascade.txt and, if something gives way, cascade.svg in a directory.
void bys_write_cascade_text(bys_text *out, const bys_design *design, int width);
void bys_write_cascade_json(bys_text *out, const bys_design *design);
bys_rc bys_write_cascade_directory(const bys_design *design, const char *dir, bys_error *err);

/// Names of the files that bys_write_directory writes for this design, with blanks between.
void bys_write_directory_names(bys_text *out, const bys_design *design);
/// Makes `dir` if it is not there (its parent must be) and puts these files into it, each whole or
/// not at all. Places on the Earth are left out where the frame has none, and such files of an
/// earlier run are removed. BYS_ECREATE, BYS_EIO or BYS_ENOMEM on failure.
bys_rc bys_write_directory(const bys_design *design, const char *dir, bys_error *err);

#ifdef __cplusplus
}
#endif
#endif
