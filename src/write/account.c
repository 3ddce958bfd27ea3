// SPDX-License-Identifier: GPL-3.0-or-later
// The load account: JSON, and a table for people.
#include "write/account.h"
#include "write/layout.h"
#include "write/page.h"
#include "write/rows.h"

#include <byssus/write.h>

#include <math.h>
#include <string.h>

static const struct { const char *words, *key, *head; } names[BYS_LOAD_COUNT] = {
    {"current", "current_kN", "current"},
    {"wind", "wind_kN", "wind"},
    {"viscous drift", "viscous_drift_kN", "drift"},
    {"reflection drift", "reflection_drift_kN", "reflected"},
    {"weight", "weight_kN", "weight"},
    {"buoyancy", "buoyancy_kN", "buoyancy"},
    {"given loads", "given_kN", "given"},
    {"seabed", "bed_kN", "bed"},
};

const char *bys_load_words(bys_load load)
{
    return names[load].words;
}

bool bys_account_side(double side[2], const bys_load_account *account)
{
    const double size = hypot(account->total[0], account->total[1]);
    // a balanced account of still water leaves rounding, not a direction
    if (!(size > 1e-6 * account->applied_N))
        return false;
    side[0] = account->total[0] / size;
    side[1] = account->total[1] / size;
    return true;
}

// ---- JSON ------------------------------------------------------------------------------------

static void add_vector(bys_json *json, const char *key, const double f[3])
{
    bys_json_open(json, key, '[', true);
    for (int i = 0; i < 3; i++)
        bys_json_number(json, NULL, f[i] / 1000.0);
    bys_json_close(json, ']');
}

static void add_row(bys_json *json, const bys_load_row *row)
{
    bys_json_open(json, NULL, '{', true);
    bys_json_string(json, "kind", row->kind);
    bys_json_string(json, "part", row->part);
    for (int k = 0; k < BYS_LOAD_COUNT; k++)
        add_vector(json, names[k].key, row->f[k]);
    bys_json_close(json, '}');
}

void bys_account_json(bys_json *json, const char *key, const bys_load_account *account)
{
    bys_json_open(json, key, '{', false);
    bys_json_string(json, "case", account->case_id);
    bys_json_open(json, "legs", '[', true);
    for (int i = 0; i < account->leg_count; i++)
        bys_json_string(json, NULL, account->legs[i]);
    bys_json_close(json, ']');
    bys_json_open(json, "rows", '[', false);
    for (int i = 0; i < account->row_count; i++)
        add_row(json, &account->rows[i]);
    bys_json_close(json, ']');
    bys_json_open(json, "sum", '{', true);
    for (int k = 0; k < BYS_LOAD_COUNT; k++)
        add_vector(json, names[k].key, account->sum[k]);
    bys_json_close(json, '}');
    add_vector(json, "total_kN", account->total);
    add_vector(json, "supports_kN", account->supports);
    bys_json_number(json, "applied_kN", account->applied_N / 1000.0);
    bys_json_number(json, "gap", account->gap);
    bys_json_close(json, '}');
}

// ---- text ------------------------------------------------------------------------------------

enum { COLUMNS = 6 };
static const bys_load sideways[COLUMNS] = {BYS_LOAD_CURRENT, BYS_LOAD_WIND, BYS_LOAD_VISCOUS_DRIFT,
                                           BYS_LOAD_REFLECTION_DRIFT, BYS_LOAD_GIVEN, BYS_LOAD_BED};
static const bys_load upward[COLUMNS] = {BYS_LOAD_WEIGHT, BYS_LOAD_BUOYANCY, BYS_LOAD_CURRENT,
                                         BYS_LOAD_VISCOUS_DRIFT, BYS_LOAD_GIVEN, BYS_LOAD_BED};

static double along(const double f[3], const double way[3])
{
    return f[0] * way[0] + f[1] * way[1] + f[2] * way[2];
}

static void add_line(bys_text *out, const char *name, int first, const double f[BYS_LOAD_COUNT][3],
                     const bys_load *columns, const double way[3])
{
    double total = 0.0;
    bys_layout_cell(out, name, first, false);
    for (int k = 0; k < BYS_LOAD_COUNT; k++)
        total += along(f[k], way);
    for (int c = 0; c < COLUMNS; c++)
        bys_terminal_number(out, along(f[columns[c]], way) / 1000.0, 2, 10);
    bys_terminal_number(out, total / 1000.0, 2, 10);
    bys_text_add(out, "\n");
}

static void add_table(bys_text *out, const bys_load_account *account, const char *title, int first,
                      const bys_load *columns, const double way[3])
{
    bys_text_add(out, "\n");
    bys_layout_cell(out, title, first, false);
    for (int c = 0; c < COLUMNS; c++)
        bys_layout_cell(out, names[columns[c]].head, 10, true);
    bys_layout_cell(out, "all", 10, true);
    bys_text_add(out, "\n");
    for (int i = 0; i < account->row_count; i++) {
        const bys_load_row *row = &account->rows[i];
        bys_text name = {0};
        bys_text_addf(&name, "%s%s%s", row->kind, *row->part ? " " : "", row->part);
        add_line(out, name.data ? name.data : "", first, row->f, columns, way);
        out->failed = out->failed || name.failed;
        bys_text_free(&name);
    }
    add_line(out, "all", first, account->sum, columns, way);
}

void bys_write_account_text(bys_text *out, const bys_load_account *account, int width)
{
    static const double up[3] = {0.0, 0.0, 1.0};
    const int first = width < 92 ? 22 : width > 120 ? 50 : width - 70;
    double way[3] = {0.0, 0.0, 0.0};
    if (bys_account_side(way, account)) {
        bys_text title = {0};
        bys_text_add(&title, "kN towards ");
        bys_number_add(&title, bys_compass_degrees(atan2(way[0], way[1])), 0);
        bys_text_add(&title, " deg");
        add_table(out, account, title.data ? title.data : "", first, sideways, way);
        out->failed = out->failed || title.failed;
        bys_text_free(&title);
    }
    add_table(out, account, "kN up", first, upward, up);
    bys_text line = {0};
    bys_text_add(&line, "The supports take ");
    bys_number_add(&line, hypot(account->supports[0], account->supports[1]) / 1000.0, 3);
    bys_text_add(&line, " kN sideways and ");
    bys_number_add(&line, account->supports[2] / 1000.0, 3);
    bys_text_addf(&line, " kN up; the loads differ from that by %.1e of their sum.", account->gap);
    bys_text_add(out, "\n");
    bys_layout_wrap(out, line.data ? line.data : "", width, "", "");
    out->failed = out->failed || line.failed;
    bys_text_free(&line);
}
