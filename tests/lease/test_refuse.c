// SPDX-License-Identifier: GPL-3.0-or-later
// Layouts that cannot be built are refused before solving, each with its number, name and place.
#include "base/codes.h"
#include "read_text.h"
#include "support/suite.h"

#define FRAME                                                                                      \
    "<site xmlns='urn:byssus:site:1' name='t'><frame kind='local'/>"                               \
    "<water density='1025 kg/m3'><level name='LAT' height='0 m'/></water>"
#define BED "<seabed><plane depth='15 m'/><soil kind='sand' friction-angle='32 deg'/></seabed>"
#define PARTS                                                                                      \
    "<parts><rope id='pp' material='polypropylene' diameter='32 mm' mass='0.45 kg/m' "             \
    "strength='94 kN' stiffness='940 kN'/>"                                                        \
    "<rope id='warp' material='polyester' diameter='28 mm' mass='0.6 kg/m' strength='120 kN' "     \
    "stiffness='1.2 MN'/><float id='crop' shape='sphere' volume='55 l' mass='3.5 kg'/>"            \
    "<gear id='rope9' kind='rope' mass-in-water='500 kg' width='0.2 m' height='9 m' "              \
    "drag-coefficient='0.4'/>"                                                                     \
    "<raft id='raft' length='20 m' width='16 m' mass='30 t' centre-of-gravity='1.3 m' "            \
    "pontoons='4' pontoon-length='15 m' pontoon-width='0.6 m' pontoon-height='2 m' %s "            \
    "fairlead-height='1.6 m'/>"                                                                    \
    "<anchor id='screw' kind='screw' capacity='90 kN' capacity-kind='ultimate' "                   \
    "capacity-basis='user' capacity-angle='30 deg'/></parts>"
#define LEG(at, place, length)                                                                     \
    "<leg at='" at "' " place "><rope part='warp' length='" length                                 \
    "'/><anchor part='screw'%s/></leg>"
#define BLOCK(legs)                                                                                \
    "<block id='L' lines='2' spacing='20 m' heading='0 deg' x='0 m' y='0 m'>"                      \
    "<backbone part='pp' length='100 m'/><floats part='crop' every='4 m'/>" legs "</block>"

/// The site with its two %s filled: the raft's gear, the anchors' id.
static const char *filled(const char *format, const char *gear, const char *anchor) {
    static char text[8192];
    const char *with[8] = {gear, anchor, anchor, anchor, anchor, anchor, anchor, anchor};
    int used = 0;
    size_t n = 0;
    for (const char *c = format; *c && n < sizeof text - 1; c++) {
        if (c[0] == '%' && c[1] == 's') {
            n += (size_t)snprintf(text + n, sizeof text - n, "%s", with[used++]);
            c++;
        } else {
            text[n++] = *c;
        }
    }
    text[n] = '\0';
    return text;
}

/// Exactly `count` faults of that number, the first of which names `word`; no network comes back.
static void refused_when(const char *text, void (*change)(bys_site *), int code, int count,
                         const char *word) {
    built b = build_changed(text, NULL, change);
    ck_assert_int_eq(b.rc, BYS_EINPUT);
    ck_assert_ptr_null(b.net);
    int found = 0;
    for (size_t i = 0; i < bys_messages_count(b.messages); i++) {
        const bys_message *m = bys_messages_at(b.messages, i);
        if (m->severity != BYS_FAULT)
            continue;
        ck_assert_msg(m->code == code, "wanted E%04d, got:\n%s", code, said(b.messages));
        ck_assert_msg(found > 0 || strstr(m->text, word), "'%s' is not in: %s", word, m->text);
        ck_assert_int_gt(m->place.line, 0);
        ck_assert_ptr_nonnull(bys_message_explain(m->code));
        found++;
    }
    ck_assert_msg(found == count, "wanted %d faults, got %d:\n%s", count, found, said(b.messages));
    drop(&b);
}

static void expect_refused(const char *text, int code, int count, const char *word) {
    refused_when(text, NULL, code, count, word);
}

#define SITE(layout) filled(FRAME BED PARTS "<layout>" layout "</layout></site>", "", "")
#define GOOD LEG("ends", "reach='52 m'", "55 m")

START_TEST(good_block_is_built) {
    built b = build_well(SITE(BLOCK(GOOD)), NULL);
    ck_assert_int_eq(b.net->leg_count, 4);
    drop(&b);
}
END_TEST

static void take_legs(bys_site *site) {
    site->blocks[0].leg_count = 0;
}

START_TEST(line_without_leg) {
    refused_when(SITE(BLOCK(GOOD)), take_legs, BYS_M_line_unanchored, 2, "L01"); // and L02
}
END_TEST

static void name_no_end(bys_site *site) {
    site->blocks[0].legs[0].at = "E";
}

START_TEST(leg_at_no_end) {
    refused_when(SITE(BLOCK(GOOD)), name_no_end, BYS_M_leg_at_nothing, 2, "L01");
}
END_TEST

// 60 m away in plan and 14.7 m down: 61.8 m; 50 m of warp breaks at 120/1200 = 10 % more: 55 m.
START_TEST(leg_too_short) {
    expect_refused(SITE(BLOCK(LEG("ends", "reach='60 m'", "50 m"))), BYS_M_leg_short, 4, "L01/S");
}
END_TEST

static void share(bys_site *site) {
    site->blocks[0].legs[0].anchor_id = "A";
}

// Both ends of both lines would have to share one anchor at four places.
START_TEST(shared_anchor_twice) {
    refused_when(SITE(BLOCK(GOOD)), share, BYS_M_shared_anchor, 3, "'A'");
}
END_TEST

START_TEST(no_seabed) {
    expect_refused(filled(FRAME PARTS "<layout>" BLOCK(GOOD) "</layout></site>", "", ""),
                   BYS_M_anchors_need_bed, 1, "'L'");
}
END_TEST

#define GRID(rope)                                                                                 \
    "<raft-grid id='R' columns='1' rows='2' spacing-along='45 m' heading='0 deg' x='0 m' y='0 m' " \
    "raft='raft'><head-rope part='warp' length='" rope "'/>" LEG("N", "reach='80 m'", "84 m")      \
        LEG("S", "reach='80 m'", "84 m") "</raft-grid>"

START_TEST(raft_too_heavy) {
    // 30 t and 100 x 500 kg on 36 m2 x 2 m of pontoon, which carries 73.8 t.
    expect_refused(filled(FRAME BED PARTS "<layout>" GRID("25 m") "</layout></site>",
                          "gear='rope9' gear-count='100'", ""),
                   BYS_M_raft_heavy, 2, "R1-1");
}
END_TEST

START_TEST(head_rope_too_short) {
    // The gap is 45 - 20 m; 20 m breaks at 22 m.
    expect_refused(SITE(GRID("20 m")), BYS_M_head_rope_short, 2, "R1-1~R1-2/a");
}
END_TEST

#define P(id, x, hold) "<point id='" id "' x='" x "' y='0 m' z='0 m'" hold "/>"
#define S(id, a, b, length)                                                                        \
    "<span id='" id "' from='" a "' to='" b "' length='" length                                    \
    "' stiffness='1 MN' weight='10 N/m'/>"
#define NET(inside) SITE("<network id='N'>" inside "</network>")

START_TEST(part_unheld) {
    expect_refused(
        NET(P("A", "0 m", "") P("B", "9 m", " buoyancy='1 kN'") S("s", "A", "B", "10 m")),
        BYS_M_part_unheld, 1, "'A'");
}
END_TEST

START_TEST(point_alone) {
    expect_refused(NET(P("A", "0 m", " hold='xyz'") P("B", "9 m", "") P("lost", "5 m", "")
                           S("s", "A", "B", "10 m")),
                   BYS_M_point_alone, 1, "'lost'");
}
END_TEST

// 20 m apart by way of a free point: 7 + 7 m, 30 % where the strength is not stated: 18.2 m.
START_TEST(span_too_short) {
    expect_refused(NET(P("A", "0 m", " hold='xyz'") P("B", "9 m", "") P("C", "20 m", " hold='xyz'")
                           S("s", "A", "B", "7 m") S("t", "B", "C", "7 m")),
                   BYS_M_span_short, 1, "'A' and 'C'");
}
END_TEST

START_TEST(part_sinks) {
    expect_refused(NET(P("A", "0 m", " hold='xy'") P("B", "9 m", "") S("s", "A", "B", "10 m")),
                   BYS_M_part_sinks, 1, "'A'");
}
END_TEST

START_TEST(one_leg_is_a_warning) {
    built b = build_well(SITE(BLOCK(LEG("N", "reach='52 m'", "55 m"))), NULL);
    int warned = 0;
    for (size_t i = 0; i < bys_messages_count(b.messages); i++)
        warned += bys_messages_at(b.messages, i)->code == BYS_M_one_leg;
    ck_assert_int_eq(warned, 2);
    drop(&b);
}
END_TEST

int main(void) {
    Suite *s = suite_create("refuse");
    suite_test(s, good_block_is_built);
    suite_test(s, line_without_leg);
    suite_test(s, leg_at_no_end);
    suite_test(s, leg_too_short);
    suite_test(s, shared_anchor_twice);
    suite_test(s, no_seabed);
    suite_test(s, raft_too_heavy);
    suite_test(s, head_rope_too_short);
    suite_test(s, part_unheld);
    suite_test(s, point_alone);
    suite_test(s, span_too_short);
    suite_test(s, part_sinks);
    suite_test(s, one_leg_is_a_warning);
    return suite_run(s, NULL);
}
