// SPDX-License-Identifier: GPL-3.0-or-later
#include "torture/insane.h"

#include "statics/state.h"
#include "torture/dice.h"
#include <byssus/site.h>

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

typedef struct {
    dice d;
    char text[16384];
    size_t length;
    char item[64]; ///< what has to be named
    const char *kind;
} insane;

__attribute__((format(printf, 2, 3))) static void add(insane *s, const char *format, ...) {
    va_list list;
    va_start(list, format);
    s->length += (size_t)vsnprintf(s->text + s->length, sizeof s->text - s->length, format, list);
    va_end(list);
}

static void open_site(insane *s, bool bed, double depth, int pieces) {
    add(s, "<site xmlns='urn:byssus:site:1' name='invented'><frame kind='local'/>"
           "<water density='1025 kg/m3'><level name='LAT' height='0 m'/></water>");
    if (bed)
        add(s,
            "<seabed><plane depth='%.3f m'/><soil kind='sand' friction-angle='32 deg'/></seabed>",
            depth);
    add(s, "<parts><rope id='pp' material='polypropylene' diameter='32 mm' mass='0.45 kg/m' "
           "strength='94 kN' stiffness='940 kN'/><rope id='warp' material='polyester' "
           "diameter='28 mm' mass='0.6 kg/m' strength='120 kN' stiffness='1.2 MN'/>"
           "<float id='crop' shape='sphere' volume='55 l' mass='3.5 kg'/>"
           "<gear id='rope9' kind='rope' mass-in-water='500 kg' width='0.2 m' height='9 m' "
           "drag-coefficient='0.4'/><raft id='raft' length='20 m' width='16 m' mass='30 t' "
           "centre-of-gravity='1.3 m' pontoons='4' pontoon-length='15 m' pontoon-width='0.6 m' "
           "pontoon-height='2 m' ");
    if (pieces > 0)
        add(s, "gear='rope9' gear-count='%d' ", pieces);
    add(s,
        "fairlead-height='1.6 m'/><anchor id='screw' kind='screw' capacity='90 kN' "
        "capacity-kind='ultimate' capacity-basis='user' capacity-angle='30 deg'/></parts><layout>");
}

static void close_site(insane *s) {
    add(s, "</layout></site>");
}

static void add_block(insane *s, double reach, double length) {
    add(s,
        "<block id='L' lines='%d' spacing='20 m' heading='%d deg' x='0 m' y='0 m'>"
        "<backbone part='pp' length='100 m'/><floats part='crop' every='4 m'/>",
        dice_int(&s->d, 1, 4), dice_int(&s->d, 0, 359));
    if (length > 0.0)
        add(s,
            "<leg at='ends' reach='%.3f m'><rope part='warp' length='%.3f m'/>"
            "<anchor part='screw'/></leg>",
            reach, length);
    add(s, "</block>");
}

static void add_rafts(insane *s, double gap, double rope, bool legs) {
    add(s,
        "<raft-grid id='R' columns='1' rows='2' spacing-along='%.3f m' heading='%d deg' x='0 m' "
        "y='0 m' raft='raft'><head-rope part='warp' length='%.3f m'/>",
        20.0 + gap, dice_int(&s->d, 0, 359), rope);
    for (int e = 0; e < 2 && legs; e++)
        add(s,
            "<leg at='%s' reach='80 m'><rope part='warp' length='84 m'/><anchor "
            "part='screw'/></leg>",
            e ? "N" : "S");
    add(s, "</raft-grid>");
}

/// A chain of points along x, `pitch` apart, joined by spans of `length`; the first and last may be
/// held.
static void add_chain(insane *s, int n, double pitch, double length, double weight,
                      const char *first, const char *last, const char *extra) {
    add(s, "<network id='N'>");
    for (int i = 0; i < n; i++)
        add(s, "<point id='P%d' x='%.3f m' y='0 m' z='-5 m'%s%s/>", i, pitch * i,
            i == 0 ? first : (i == n - 1 ? last : ""), i == 1 ? extra : "");
    for (int i = 0; i + 1 < n; i++)
        add(s,
            "<span id='s%d' from='P%d' to='P%d' length='%.4f m' stiffness='1 MN' weight='%.3f "
            "N/m'/>",
            i, i, i + 1, length, weight);
    add(s, "</network>");
}

// ---- the kinds
// ------------------------------------------------------------------------------------

static void leg_cannot_reach(insane *s) {
    const double depth = dice_real(&s->d, 5.0, 40.0), reach = dice_real(&s->d, 20.0, 100.0);
    const double most = hypot(reach, depth - 0.5) / 1.1; // breaks at 10 % strain
    s->kind = "leg that cannot reach";
    snprintf(s->item, sizeof s->item, "L01/");
    open_site(s, true, depth, 0);
    add_block(s, reach, most * dice_real(&s->d, 0.3, 0.97));
}

static void block_without_bed(insane *s) {
    s->kind = "anchors without a seabed";
    snprintf(s->item, sizeof s->item, "'L'");
    open_site(s, false, 0.0, 0);
    add_block(s, dice_real(&s->d, 40.0, 55.0), 60.0);
}

static void block_without_legs(insane *s) {
    s->kind = "line without a leg";
    snprintf(s->item, sizeof s->item, "<block id=\"L\">");
    open_site(s, true, dice_real(&s->d, 5.0, 40.0), 0);
    add_block(s, 0.0, 0.0);
}

static void rafts_without_legs(insane *s) {
    s->kind = "rafts without a leg";
    snprintf(s->item, sizeof s->item, "<raft-grid id=\"R\">");
    open_site(s, true, 15.0, 0);
    add_rafts(s, dice_real(&s->d, 10.0, 40.0), 60.0, false);
}

static void raft_sinks(insane *s) {
    s->kind = "raft that sinks";
    snprintf(s->item, sizeof s->item, "R1-1");
    open_site(s, true, 15.0, dice_int(&s->d, 95, 600)); // 36 m2 x 2 m carry 73.8 t
    add_rafts(s, 25.0, 26.0, true);
}

static void head_rope_short(insane *s) {
    const double gap = dice_real(&s->d, 10.0, 40.0);
    s->kind = "head rope that cannot reach";
    snprintf(s->item, sizeof s->item, "R1-1~R1-2");
    open_site(s, true, 15.0, 0);
    add_rafts(s, gap, gap / 1.1 * dice_real(&s->d, 0.3, 0.97), true);
}

static void nothing_holds(insane *s) {
    s->kind = "part that nothing holds";
    snprintf(s->item, sizeof s->item, "'P0'");
    open_site(s, true, 15.0, 0);
    add_chain(s, dice_int(&s->d, 2, 9), 9.0, 10.0, dice_real(&s->d, 1.0, 50.0), "", "",
              dice_chance(&s->d, 0.5) ? " buoyancy='1 kN'" : "");
}

static void part_sinks(insane *s) {
    s->kind = "part that sinks";
    snprintf(s->item, sizeof s->item, "'P0'");
    open_site(s, false, 0.0, 0);
    add_chain(s, dice_int(&s->d, 2, 9), 9.0, 10.0, dice_real(&s->d, 1.0, 50.0), " hold='xy'", "",
              "");
}

static void span_cannot_reach(insane *s) {
    const double pitch = dice_real(&s->d, 3.0, 30.0); // 30 % where no strength is stated
    const int n = dice_int(&s->d, 2, 9);
    s->kind = "span that cannot reach";
    snprintf(s->item, sizeof s->item, "'P%d'", n - 1);
    open_site(s, true, 40.0, 0);
    add_chain(s, n, pitch, pitch / 1.3 * dice_real(&s->d, 0.2, 0.97), 10.0, " hold='xyz'",
              " hold='xyz'", "");
}

static void weightless_and_slack(insane *s) {
    s->kind = "weightless tether in slack water";
    snprintf(s->item, sizeof s->item, "Ps");
    open_site(s, true, 40.0, 0);
    add_chain(s, dice_int(&s->d, 2, 6), 9.0, dice_real(&s->d, 10.0, 14.0), 0.0, " hold='xyz'", "",
              "");
}

static void write_insane(insane *s, uint64_t seed) {
    static void (*const kinds[])(insane *) = {
        leg_cannot_reach,  block_without_bed,   block_without_legs, rafts_without_legs,
        raft_sinks,        head_rope_short,     nothing_holds,      part_sinks,
        span_cannot_reach, weightless_and_slack};
    s->d.s = seed * 0x2545f4914f6cdd1du + 99;
    kinds[dice_int(&s->d, 0, (int)(sizeof kinds / sizeof *kinds) - 1)](s);
    close_site(s);
}

// ---- what becomes of it
// -----------------------------------------------------------------------------

static bool fault_names(const bys_messages *messages, const char *item, char *why, size_t size) {
    snprintf(why, size, "no fault was told");
    for (size_t i = 0; i < bys_messages_count(messages); i++) {
        const bys_message *m = bys_messages_at(messages, i);
        if (m->severity != BYS_FAULT)
            continue;
        if (strstr(m->text, item))
            return true;
        snprintf(why, size, "'%s' is not named: %s", item, m->text);
    }
    return false;
}

/// Does the text hold a point's or a span's name: the letter of one of `letters` and a number?
static bool names_part(const char *text, const char *letters) {
    for (const char *c = text; *c; c++)
        if (strchr(letters, *c) && (c == text || c[-1] == ' ') && c[1] >= '0' && c[1] <= '9')
            return true;
    return false;
}

/// Solved although it should not stand: an honest status that names the item will do.
static bool status_names(const bys_network *net, const bys_site *site, const char *item, char *why,
                         size_t size) {
    bys_state *state;
    bys_solver *solver;
    const bys_sea sea = bys_sea_still(site->rho_water);
    if (bys_state_new(&state, net, NULL) != BYS_OK)
        return false;
    bool named = false;
    snprintf(why, size, "every part is called stable");
    for (int i = 0; i < net->island_count && !named; i++) {
        if (bys_solver_new(&solver, net, i, NULL) != BYS_OK)
            break;
        bys_solve_island(state, solver, &sea, NULL, BYS_START_COLD, NULL);
        bys_solver_free(solver);
        const bys_outcome *o = &state->islands[i];
        if (o->status == BYS_STABLE)
            continue;
        named = names_part(o->reason, item);
        snprintf(why, size, "%s", o->reason);
    }
    bys_state_free(state);
    return named;
}

static bool write_file(char path[], const char *text) {
    const int fd = mkstemp(path);
    FILE *file = fd >= 0 ? fdopen(fd, "w") : NULL;
    if (!file)
        return false;
    const bool ok = fputs(text, file) >= 0;
    return fclose(file) == 0 && ok;
}

bool insane_is_refused(uint64_t seed, char *why, size_t size) {
    insane *s = calloc(1, sizeof *s);
    char path[] = "/tmp/byssus-insane-XXXXXX", told[400] = "";
    bys_messages *messages = NULL;
    bys_site *site = NULL;
    bys_network *net = NULL;
    bys_error err = {0};
    bool refused = false;
    if (!s || bys_messages_new(&messages) != BYS_OK) {
        free(s);
        snprintf(why, size, "out of memory");
        return false;
    }
    write_insane(s, seed);
    if (!write_file(path, s->text))
        snprintf(told, sizeof told, "cannot write %s", path);
    else if (bys_site_read(&site, path, NULL, messages, &err) != BYS_OK ||
             bys_network_expand(&net, site, -1, messages, &err) != BYS_OK)
        refused = fault_names(messages, s->item, told, sizeof told);
    else
        refused = status_names(net, site, s->item, told, sizeof told);
    remove(path);
    snprintf(why, size, "%s: %s", s->kind, told);
    bys_network_free(net);
    bys_site_free(site);
    bys_messages_free(messages);
    free(s);
    return refused;
}
