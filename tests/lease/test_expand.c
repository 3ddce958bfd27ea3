// SPDX-License-Identifier: GPL-3.0-or-later
// Expansion of blocks, raft grids and explicit networks. Expected values are derived by hand.
#include "lease/expand.h"
#include "read_text.h"
#include "support/suite.h"

#define HEAD                                                                                       \
    "<site xmlns='urn:byssus:site:1' name='t'><frame kind='local'/>"                               \
    "<water density='1025 kg/m3'><level name='LAT' height='0 m'/>"                                 \
    "<level name='HAT' height='4 m'/></water>"                                                     \
    "<seabed><plane depth='15 m' x='0 m' y='0 m' slope='1 deg' deepens-towards='0 deg'/>"          \
    "<soil kind='sand' friction-angle='32 deg'/></seabed>"                                         \
    "<lease><corner x='-500 m' y='-500 m'/><corner x='-500 m' y='500 m'/>"                         \
    "<corner x='500 m' y='500 m'/><corner x='500 m' y='-500 m'/></lease>"                          \
    "<weather><current return='50 yr' speed='0.5 m/s' at='surface'/></weather>"
#define PARTS                                                                                      \
    "<parts>"                                                                                      \
    "<rope id='pp' material='polypropylene' diameter='32 mm' mass='0.45 kg/m' strength='94 kN' "   \
    "stiffness='565 kN' bedding-in='2 %'/>"                                                        \
    "<rope id='warp' material='polyester' diameter='28 mm' mass='0.6 kg/m' strength='120 kN' "     \
    "stiffness='1.5 MN' bedding-in='4 %'/>"                                                        \
    "<chain id='ch' link='stud' diameter='24 mm' mass='12.6 kg/m' strength='238 kN' "              \
    "stiffness='50 MN'/>"                                                                          \
    "<connector id='shackle19' strength='211 kN' mass='1 kg'/>"                                    \
    "<sinker id='clump' mass='100 kg' density='2400 kg/m3'/>"                                      \
    "<float id='crop' shape='sphere' volume='55 l' mass='3.5 kg'/>"                                \
    "<float id='big' shape='sphere' volume='120 l' mass='8 kg'/>"                                  \
    "<gear id='panel' kind='panel' mass-in-water='7.8 kg' width='0.7 m' height='0.45 m' "          \
    "drag-coefficient='1.2' drop='1.5 m' orientation='along'>"                                     \
    "<at stage='bare' mass-in-water='1 kg'/></gear>"                                               \
    "<gear id='rope9' kind='rope' mass-in-water='50 kg' width='0.2 m' height='9 m' "               \
    "drag-coefficient='0.4'/>"                                                                     \
    "<raft id='raft' length='20 m' width='16 m' mass='30 t' centre-of-gravity='1.3 m' "            \
    "pontoons='4' pontoon-length='15 m' pontoon-width='0.6 m' pontoon-height='2 m' gear='rope9' "  \
    "gear-count='180' fairlead-height='1.6 m'/>"                                                   \
    "<anchor id='screw' kind='screw' capacity='90 kN' capacity-kind='ultimate' "                   \
    "capacity-basis='user' capacity-angle='30 deg'/></parts>"
#define STAGES(inside)                                                                             \
    "<stages><stage id='bare'/><stage id='mid' month='6' bedding-in='50 %'>" inside                \
    "</stage><stage id='harvest'/></stages>"
#define LEG                                                                                        \
    "<leg at='ends' reach='52 m'><connector part='shackle19'/><chain part='ch' length='5 m'/>"     \
    "<connector part='shackle19'/><rope part='warp' length='30 m'/>"                               \
    "<sinker part='clump' count='2'/><rope part='warp' length='20 m'/><anchor "                    \
    "part='screw'/></leg>"
#define BLOCK(heading)                                                                             \
    "<block id='L' lines='3' spacing='20 m' heading='" heading "' x='10 m' y='5 m'>"               \
    "<backbone part='pp' length='100 m'/><floats id='crop' part='crop' every='4 m'/>"              \
    "<floats id='end' part='big' at='ends' count='2'/><gear part='panel' every='1.3 m'/>" LEG      \
    "</block>"
#define LAYOUT(inside) HEAD PARTS STAGES("") "<layout>" inside "</layout></site>"
#define STAGED(inside, floats) HEAD PARTS STAGES(floats) "<layout>" inside "</layout></site>"

START_TEST(block_heading_north) {
    built b = build_well(LAYOUT(BLOCK("0 deg")), "bare");
    const bys_network *net = b.net;
    ck_assert_int_eq(net->line_count, 3);
    ck_assert_int_eq(net->leg_count, 6);
    ck_assert_int_eq(net->anchor_count, 6);
    ck_assert_int_eq(net->island_count, 3);
    const bys_line *l = &net->lines[line_index(net, "L01")];
    // Offset (0 - 1) * 20 m clockwise from north is to the west.
    expect_close(net->points[l->points[0]].x[0], -10.0, 1e-12);
    expect_close(net->points[l->points[0]].x[1], -45.0, 1e-12); // tail: 5 - 50
    expect_close(net->points[l->points[l->point_count - 1]].x[1], 55.0, 1e-12);
    const bys_leg *n = &net->legs[leg_index(net, "L01/N")],
                  *s = &net->legs[leg_index(net, "L01/S")];
    ck_assert_int_eq(l->legs[0], (int)(s - net->legs));
    ck_assert_int_eq(l->legs[1], (int)(n - net->legs));
    ck_assert_int_eq(n->end, 1);
    const double *a = net->points[n->foot].x;
    expect_close(a[0], -10.0, 1e-12);
    expect_close(a[1], 107.0, 1e-12);                                               // 55 + 52
    expect_close(a[2], -15.0 - 107.0 * tan(3.14159265358979323846 / 180.0), 1e-12); // 1 deg deeper
    ck_assert_int_eq(net->anchors[n->anchor].leg_count, 1);
    ck_assert_str_eq(net->anchors[n->anchor].id, "L01/N/anchor");
    expect_abs(cos(net->anchors[n->anchor].heading), -1.0, 1e-12); // pulled to the south
    drop(&b);
}
END_TEST

START_TEST(block_heading_east) {
    built b = build_well(LAYOUT(BLOCK("90 deg")), "bare");
    const bys_line *l = &b.net->lines[line_index(b.net, "L03")];
    // Clockwise from east is south: L03 lies 20 m south of the middle.
    expect_close(b.net->points[l->points[0]].x[0], -40.0, 1e-12);
    expect_close(b.net->points[l->points[0]].x[1], -15.0, 1e-12);
    leg_index(b.net, "L03/E");
    leg_index(b.net, "L03/W");
    drop(&b);
}
END_TEST

START_TEST(leg_pieces_stand_in_order) {
    built b = build_well(LAYOUT(BLOCK("0 deg")), "bare");
    const bys_network *net = b.net;
    const bys_leg *leg = &net->legs[leg_index(net, "L02/N")];
    ck_assert_int_eq(leg->section_count, 3);
    const bys_section *s = net->sections + leg->first_section;
    ck_assert_str_eq(s[0].id, "L02/N/chain");
    ck_assert_str_eq(s[1].id, "L02/N/rope");
    ck_assert_str_eq(s[2].id, "L02/N/rope2");
    ck_assert_int_eq(s[0].a, leg->foot);
    ck_assert_int_eq(s[0].b, s[1].a);
    ck_assert_int_eq(s[1].b, s[2].a);
    ck_assert_int_eq(s[2].b, leg->top);
    ck_assert(s[0].on_bed && s[2].on_bed);
    for (int i = 0; i < 3; i++)
        ck_assert_int_ge(s[i].count, 4);
    // Two sinkers of 100 kg, 2400 kg/m3, hang between the ropes: g m (1 - 1025/2400) each.
    expect_close(net->points[s[1].b].weight, 2 * 100 * 9.80665 * (1.0 - 1025.0 / 2400.0), 1e-12);
    // A shackle stands at the anchor and one above the chain; the sinker is no fitting.
    int own = 0;
    for (int f = 0; f < net->fitting_count; f++)
        own += net->fittings[f].leg == (int)(leg - net->legs);
    ck_assert_int_eq(own, 2);
    expect_close(net->points[s[0].b].weight, 9.80665 * (1.0 - 1025.0 / 7850.0), 1e-12);
    drop(&b);
}
END_TEST

// The lever rule keeps number and first moment of what hangs along a line.
static void expect_kept(const bys_network *net, const char *line, double gear, double crop) {
    const int l = line_index(net, line);
    const double middle = net->points[net->lines[l].points[0]].x[1] + 50.0;
    double n_gear = 0.0, m_gear = 0.0, n_crop = 0.0, m_crop = 0.0, ends = 0.0;
    for (int i = 0; i < net->gear_count; i++) {
        if (net->gears[i].line != l)
            continue;
        n_gear += net->gears[i].count;
        m_gear += net->gears[i].count * (net->points[net->gears[i].point].x[1] - middle);
        expect_abs(net->gears[i].axis[1], 1.0, 1e-12);
    }
    for (int i = 0; i < net->float_count; i++) {
        if (net->floats[i].line != l)
            continue;
        const double y = net->points[net->floats[i].point].x[1] - middle;
        ends += net->floats[i].at_end ? net->floats[i].count : 0.0;
        n_crop += net->floats[i].at_end ? 0.0 : net->floats[i].count;
        m_crop += net->floats[i].at_end ? 0.0 : net->floats[i].count * y;
    }
    expect_close(n_gear, gear, 1e-12);
    expect_close(n_crop, crop, 1e-12);
    expect_abs(ends, 4.0, 1e-12);
    expect_abs(m_crop, 0.0, 1e-9); // even spread: no moment about the middle
    // Pieces at 0.65 + 1.3 i: their mean lies off the middle by the odd end that is left over.
    const double mean = 0.65 + 1.3 * (gear - 1.0) / 2.0 - 50.0;
    expect_abs(m_gear, gear * mean, 1e-9);
}

START_TEST(lever_rule_keeps_moments) {
    built b = build_well(LAYOUT(BLOCK("0 deg")), "bare");
    expect_kept(b.net, "L01", 77.0, 25.0); // 100/1.3 = 76.9: the 77th at 99.45 m; 100/4 = 25
    expect_close(b.net->gears[0].values->mass_in_water, 1.0, 1e-15); // the bare stage's value
    for (int e = 0; e < b.net->sections[0].count; e++)
        ck_assert_double_le(b.net->elements[e].length, 5.0 + 1e-9);
    drop(&b);
}
END_TEST

START_TEST(stage_changes_floats_and_bedding_in) {
    built b = build_well(STAGED(BLOCK("0 deg"), "<floats pattern='crop' count='10'/>"
                                                "<floats of='L' pattern='crop' count='12'/>"
                                                "<floats of='L02' pattern='crop' count='14'/>"),
                         "mid");
    const bys_network *net = b.net;
    double crop[3] = {0.0, 0.0, 0.0};
    for (int i = 0; i < net->float_count; i++)
        if (!net->floats[i].at_end)
            crop[net->floats[i].line] += net->floats[i].count;
    expect_close(crop[0], 12.0, 1e-12); // the block's value before everybody's
    expect_close(crop[1], 14.0, 1e-12); // the line's before the block's
    expect_close(crop[2], 12.0, 1e-12);
    expect_close(net->lines[0].length, 101.0, 1e-12); // 100 m and half of 2 %
    const bys_section *rope = &net->sections[section_index(net, "L01/N/rope")];
    expect_close(rope->length, 30.6, 1e-12); // 30 m and half of 4 %
    expect_close(rope->length * rope->weight_dry, 30.0 * 0.6 * 9.80665, 1e-12); // mass stays
    const double anchor = net->points[net->legs[leg_index(net, "L01/N")].foot].x[1];
    expect_close(anchor, 107.0, 1e-12); // the anchor does not move
    drop(&b);
}
END_TEST

START_TEST(changes_and_removals) {
    built b = build_well(
        LAYOUT(BLOCK("0 deg") "<remove line='L03'/>"
                              "<change line='L02' dx='1 m' dy='-2 m' backbone-length='80 m'>"
                              "<floats id='crop' part='crop' count='8'/>"
                              "<leg at='N' x='12 m' y='95 m'><rope part='warp' length='56 m'/>"
                              "<anchor part='screw' id='shared'/></leg></change>"),
        "bare");
    const bys_network *net = b.net;
    ck_assert_int_eq(net->line_count, 2);
    const bys_line *l = &net->lines[line_index(net, "L02")];
    expect_close(l->length, 80.0, 1e-12);
    expect_close(net->points[l->points[0]].x[0], 11.0, 1e-12);
    expect_close(net->points[l->points[0]].x[1], -37.0, 1e-12); // 5 - 2 - 40
    double floats = 0.0;
    for (int i = 0; i < net->float_count; i++)
        floats += net->floats[i].line == 1 ? net->floats[i].count : 0.0;
    expect_close(floats, 8.0,
                 1e-12); // the change's rows replace all of the block's, end floats too
    const int a = anchor_index(net, "shared");
    expect_close(net->points[net->anchors[a].point].x[1], 95.0, 1e-12);
    ck_assert_int_eq(net->legs[leg_index(net, "L02/N")].section_count, 1);
    ck_assert_int_eq(net->legs[leg_index(net, "L02/S")].section_count, 3);
    drop(&b);
}
END_TEST

START_TEST(two_strands_share_points) {
    built b = build_well(
        LAYOUT(
            "<block id='L' lines='1' heading='0 deg' x='0 m' y='0 m'>"
            "<backbone part='pp' length='100 m' strands='2'/><floats part='crop' every='4 m'/>" LEG
            "</block>"),
        "bare");
    const bys_network *net = b.net;
    const bys_section *one = &net->sections[section_index(net, "L01/backbone")];
    const bys_section *two = &net->sections[section_index(net, "L01/backbone2")];
    ck_assert_int_eq(net->lines[0].section_count, 2);
    ck_assert_int_eq(one->count, two->count);
    for (int e = 0; e < one->count; e++) {
        ck_assert_int_eq(net->elements[one->first + e].a, net->elements[two->first + e].a);
        ck_assert_int_eq(net->elements[one->first + e].b, net->elements[two->first + e].b);
    }
    expect_close(two->stiffness, 565e3, 1e-12); // each strand has its own
    ck_assert_int_eq(two->strand, 1);
    drop(&b);
}
END_TEST

START_TEST(shared_anchor_sums_legs) {
    built b = build_well(
        LAYOUT(
            "<block id='L' lines='2' spacing='20 m' heading='0 deg' x='0 m' y='0 m'>"
            "<backbone part='pp' length='100 m'/><floats part='crop' every='4 m'/>"
            "<leg at='S' reach='52 m'><rope part='warp' length='55 m'/><anchor part='screw'/></leg>"
            "<leg at='N' x='0 m' y='102 m'><rope part='warp' length='56 m'/>"
            "<anchor part='screw' id='A'/></leg></block>"),
        "bare");
    const bys_anchor *a = &b.net->anchors[anchor_index(b.net, "A")];
    ck_assert_int_eq(a->leg_count, 2);
    ck_assert_int_eq(b.net->anchor_count, 3);
    ck_assert_int_eq(b.net->island_count, 1); // the anchor joins both lines
    drop(&b);
}
END_TEST

START_TEST(open_length_is_straight) {
    built b = build_well(
        LAYOUT("<block id='L' lines='1' heading='0 deg' x='0 m' y='0 m'>"
               "<backbone part='pp' length='100 m'/><floats part='crop' every='4 m'/>"
               "<leg at='N' reach='52 m' pretension='2 kN'><chain part='ch' length='5 m'/>"
               "<rope part='warp'/><anchor part='screw'/></leg>"
               "<leg at='S' pretension='2 kN'><rope part='warp' length='55 m'/><anchor "
               "part='screw'/></leg>"
               "</block>"),
        "bare");
    const bys_network *net = b.net;
    const bys_leg *n = &net->legs[leg_index(net, "L01/N")],
                  *s = &net->legs[leg_index(net, "L01/S")];
    const double drop_n = n->top_nominal[2] - net->points[n->foot].x[2];
    expect_close(net->sections[n->first_section + 1].length,
                 sqrt(52.0 * 52.0 + drop_n * drop_n) - 5.0, 1e-12);
    const double drop_s = s->top_nominal[2] - net->points[s->foot].x[2];
    expect_close(-50.0 - net->points[s->foot].x[1], sqrt(55.0 * 55.0 - drop_s * drop_s), 1e-9);
    const bys_found found[1] = {{"L01/N", false, 48.5}};
    bys_network *tuned = NULL;
    ck_assert_int_eq(bys_network_expand_found(&tuned, b.site, 0, found, 1, b.messages, NULL),
                     BYS_OK);
    expect_close(tuned->sections[tuned->legs[leg_index(tuned, "L01/N")].first_section + 1].length,
                 48.5 * (b.site->stages[0].bedding_in > 0.0 ? 1.04 : 1.0), 1e-12);
    bys_network_free(tuned);
    drop(&b);
}
END_TEST

#define GRID(heading)                                                                              \
    "<raft-grid id='R' columns='2' rows='3' spacing-across='45 m' spacing-along='50 m' "           \
    "heading='" heading "' x='0 m' y='0 m' raft='raft'><head-rope part='warp' length='31 m'/>"     \
    "<leg at='N' per-side='2' splay='10 deg' reach='80 m'><rope part='warp' length='84 m'/>"       \
    "<anchor part='screw'/></leg>"                                                                 \
    "<leg at='S' per-side='2' reach='80 m'><rope part='warp' length='84 m'/><anchor "              \
    "part='screw'/>"                                                                               \
    "</leg><leg at='E' per-side='1' reach='80 m'><rope part='warp' length='84 m'/>"                \
    "<anchor part='screw'/></leg><leg at='W' reach='80 m'><rope part='warp' length='84 m'/>"       \
    "<anchor part='screw'/></leg></raft-grid>"

START_TEST(grid_of_rafts) {
    built b = build_well(LAYOUT(GRID("0 deg")), "harvest");
    const bys_network *net = b.net;
    ck_assert_int_eq(net->body_count, 6);
    ck_assert_int_eq(net->leg_count, 14); // 4 north, 4 south, 3 a side
    ck_assert_int_eq(net->island_count, 1);
    // Column 2, row 3: half a column to the east, one row to the north.
    const bys_body *r = &net->bodies[5];
    ck_assert_str_eq(r->id, "R2-3");
    expect_close(r->x[0], 22.5, 1e-12);
    expect_close(r->x[1], 50.0, 1e-12);
    // North-east fairlead: half the width (16 m) to the east, half the length (20 m) to the north.
    const bys_leg *ne = &net->legs[leg_index(net, "R2-3/NE")];
    expect_close(ne->top_nominal[0], 30.5, 1e-12);
    expect_close(ne->top_nominal[1], 60.0, 1e-12);
    const double turn = 10.0 * 3.14159265358979323846 / 180.0;
    expect_close(net->points[ne->foot].x[0], 30.5 + 80.0 * sin(turn), 1e-12); // splayed outward
    expect_close(net->points[net->legs[leg_index(net, "R2-3/NW")].foot].x[0],
                 14.5 - 80.0 * sin(turn), 1e-12);
    const bys_leg *e = &net->legs[leg_index(net, "R2-1/E")];
    expect_close(net->points[e->foot].x[0], 110.5, 1e-12); // 22.5 + 8 + 80
    expect_close(net->points[e->foot].x[1], -50.0, 1e-12);
    ck_assert_int_eq(e->body, 3);
    drop(&b);
}
END_TEST

START_TEST(grid_head_ropes) {
    built b = build_well(LAYOUT(GRID("0 deg")), "harvest");
    const bys_network *net = b.net;
    int ropes = 0;
    for (int s = 0; s < net->section_count; s++)
        ropes += net->sections[s].leg < 0;
    ck_assert_int_eq(ropes, 14); // 4 pairs ahead, 3 pairs beside
    const bys_section *s = &net->sections[section_index(net, "R1-1~R1-2/b")];
    expect_close(s->length, 31.0 * 1.04, 1e-12); // all of 4 % at harvest
    ck_assert_str_eq(net->points[s->a].id, "R1-1:NE");
    ck_assert_str_eq(net->points[s->b].id, "R1-2:SE");
    s = &net->sections[section_index(net, "R1-2~R2-2/a")];
    ck_assert_str_eq(net->points[s->a].id, "R1-2:NE");
    ck_assert_str_eq(net->points[s->b].id, "R2-2:NW");
    drop(&b);
}
END_TEST

START_TEST(grid_turned) {
    built b = build_well(LAYOUT(GRID("90 deg")), "harvest");
    const bys_network *net = b.net;
    // Rows run east, columns south; raft R2-3: 50 m east, 22.5 m south.
    expect_close(net->bodies[5].x[0], 50.0, 1e-12);
    expect_close(net->bodies[5].x[1], -22.5, 1e-12);
    // North is now the left side: all three rafts of column 1, two legs each.
    leg_index(net, "R1-1/NE");
    leg_index(net, "R1-2/NW");
    leg_index(net, "R1-3/NE");
    ck_assert_int_eq(net->leg_count, 6 + 6 + 2 + 2);
    drop(&b);
}
END_TEST

START_TEST(raft_keeps_its_sums) {
    built b = build_well(LAYOUT(GRID("0 deg")), "harvest");
    const bys_network *net = b.net;
    double area = 0.0, roll = 0.0, pitch = 0.0, rx = 0.0, ry = 0.0, wx = 0.0, wy = 0.0, gear = 0.0;
    for (int i = 0; i < net->prism_count; i++) {
        const bys_prism *p = &net->prisms[i];
        const bys_point *at = &net->points[p->point];
        if (at->body != 0)
            continue;
        area += p->waterplane;
        pitch += p->waterplane * at->x[0] * at->x[0];
        roll += p->waterplane * at->x[1] * at->x[1];
        rx += p->reflect_x;
        ry += p->reflect_y;
        wx += p->width_x;
        wy += p->width_y;
    }
    for (int i = 0; i < net->gear_count; i++)
        gear += net->points[net->gears[i].point].body == 0 ? net->gears[i].count : 0.0;
    expect_close(area, 4 * 15 * 0.6, 1e-12);
    expect_close(pitch, 36.0 * 15.0 * 15.0 / 12.0, 0.03); // 1/N2 of six prisms
    // Four pontoons at +-7.7 and +-7.7/3 m.
    expect_close(roll, 9.0 * 2.0 * (7.7 * 7.7 + 7.7 * 7.7 / 9.0), 1e-12);
    expect_close(rx, 16.0, 1e-12); // the side that faces x is as long as the raft is wide
    expect_close(ry, 20.0, 1e-12);
    expect_close(wx, 4 * 0.6, 1e-12);
    expect_close(wy, 4 * 15.0, 1e-12);
    expect_close(gear, 180.0, 1e-12);
    // Draft: (30 t + 180 x 50 kg) / (1025 kg/m3 x 36 m2); the deck's underside is 2 m above the
    // keel.
    expect_close(net->bodies[0].x[2], 2.0 - 39000.0 / (1025.0 * 36.0), 1e-12);
    drop(&b);
}
END_TEST

#define NETWORK                                                                                    \
    "<network id='N'><point id='A' x='0 m' y='0 m' z='0 m' hold='xyz'/>"                           \
    "<point id='B' x='10 m' y='0 m' z='0 m' hold='yz' buoyancy='50 N' drag-area='0.2 m2'/>"        \
    "<point id='C' x='20 m' y='0 m' z='0 m' hold='xyz'/>"                                          \
    "<span id='s' from='A' to='B' length='11 m' stiffness='1 MN' weight='30 N/m' medium='air' "    \
    "load-y='5 N/m' load-per='stretched'/>"                                                        \
    "<span id='t' from='B' to='C' length='9.9 m' stiffness='1 MN'/>"                               \
    "<load point='B' fz='-200 N'/></network>"

START_TEST(explicit_network) {
    built b = build_well("<site xmlns='urn:byssus:site:1' name='t'><frame kind='local'/>"
                         "<water density='1025 kg/m3'/><layout>" NETWORK "</layout></site>",
                         NULL);
    const bys_network *net = b.net;
    const bys_point *p = &net->points[point_index(net, "B")];
    ck_assert_int_eq(p->kind, BYS_POINT_FREE);
    ck_assert(!p->hold[0] && p->hold[1] && p->hold[2]);
    expect_close(p->load[2], -150.0, 1e-15); // 50 N up, 200 N down
    expect_close(p->drag_area, 0.2, 1e-15);
    ck_assert_int_eq(net->points[point_index(net, "A")].kind, BYS_POINT_FIXED);
    const bys_section *s = &net->sections[section_index(net, "s")];
    ck_assert_int_eq(s->count, 16);
    expect_close(s->weight_dry, 30.0, 1e-15);
    expect_abs(s->buoyancy, 0.0, 0.0);
    expect_close(s->load[1], 5.0, 1e-15);
    ck_assert(s->load_stretched && !s->on_bed);
    ck_assert_int_eq(net->sections[section_index(net, "t")].count, 1); // no load: one link
    drop(&b);
}
END_TEST

START_TEST(compass_words) {
    const double degree = 3.14159265358979323846 / 180.0;
    ck_assert_str_eq(bys_compass_name(0.0), "N");
    ck_assert_str_eq(bys_compass_name(44.0 * degree), "NE");
    ck_assert_str_eq(bys_compass_name(-90.0 * degree), "W");
    ck_assert_str_eq(bys_compass_name(359.0 * degree), "N");
    ck_assert_str_eq(bys_compass_name(540.0 * degree), "S");
    ck_assert_int_eq(bys_compass_read("se"), 3);
    ck_assert_int_eq(bys_compass_read("north-west"), 7);
    ck_assert_int_eq(bys_compass_read("up"), -1);
}
END_TEST

int main(void) {
    Suite *s = suite_create("expand");
    suite_test(s, block_heading_north);
    suite_test(s, block_heading_east);
    suite_test(s, leg_pieces_stand_in_order);
    suite_test(s, lever_rule_keeps_moments);
    suite_test(s, stage_changes_floats_and_bedding_in);
    suite_test(s, changes_and_removals);
    suite_test(s, two_strands_share_points);
    suite_test(s, shared_anchor_sums_legs);
    suite_test(s, open_length_is_straight);
    suite_test(s, grid_of_rafts);
    suite_test(s, grid_head_ropes);
    suite_test(s, grid_turned);
    suite_test(s, raft_keeps_its_sums);
    suite_test(s, explicit_network);
    suite_test(s, compass_words);
    return suite_run(s, NULL);
}
