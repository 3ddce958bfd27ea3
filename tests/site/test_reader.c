// SPDX-License-Identifier: GPL-3.0-or-later
// Sound files: values in SI, defaults, references, rules. Expected values without a source beside
// them are derived: the written number times the unit.
#include "site/reading.h"

#define DEG (3.14159265358979323846 / 180)

START_TEST(templates_are_valid)
{
    static const char *const kinds[] = {"block", "raft-grid", "network"};
    for (size_t i = 0; i < 3; i++) {
        ck_assert_ptr_nonnull(bys_site_template(kinds[i]));
        reading r = read_text(bys_site_template(kinds[i]));
        expect_clean(&r, kinds[i]);
        close_reading(&r);
    }
    ck_assert_ptr_null(bys_site_template("bridge"));
    ck_assert_ptr_null(bys_site_template(""));
}
END_TEST

// The target is 100 ms. Measured on the processor's clock, so that a busy machine counts less.
START_TEST(demo_is_read_in_time)
{
    clock_t start = clock();
    reading r = read_path(BYS_SITEFILES "/pearl-block.xml");
    double seconds = (double)(clock() - start) / CLOCKS_PER_SEC;
    expect_clean(&r, "pearl-block.xml");
    ck_assert_msg(seconds < 0.1, "%.3f s", seconds);
    ck_assert_int_eq(r.site->blocks[0].lines, 12);
    ck_assert_int_eq(r.site->change_count, 5);
    ck_assert_uint_eq(strlen(r.site->sha256), 64);
    close_reading(&r);
}
END_TEST

static const char *const whole =
    "<site xmlns='urn:byssus:site:1' name='Whole &amp; sound' notice='INVENTED'>"
    "<frame kind='local' north='true'/>"
    "<water density='1.02 t/m3' gravity='9.8 m/s2'><level name='low' height='1 ft'/>"
    "<level name='high' height='2 fathoms'/></water>"
    "<seabed><plane depth='50 ft' x='10 m' y='20 m' slope='2 deg' deepens-towards='90 deg'/>"
    "<soil kind='mud' thickness='1 m' undrained-strength='4 kPa' unit-weight='5 kN/m3'/>"
    "<soil kind='sand' friction-angle='32 deg' measured='yes' basis='test' source='core'/></seabed>"
    "<lease id='A' margin='5 m'><corner x='-1 km' y='-1 km'/><corner x='1 km' y='-1 km'/>"
    "<corner x='0 m' y='1 km'/></lease>"
    "<weather directions='24' first-direction='7.5 deg' wind-wave-turns='0 deg, 90 deg,-90 deg'>"
    "<current return='50 yr' speed='1.2 kn' at='depth' depth='3 m' towards='25 deg' sector='20 deg'"
    " reverses='yes' exponent='0.2'/>"
    "<current return='1 yr' speed='36 km/h' at='mean'/>"
    "<wind return='50 yr' speed='50 kn' averaging='10 min' from='270 deg'/>"
    "<waves return='50 yr' hs='1.2 m' tp='4 s' gamma='3.3'/></weather>"
    "<parts>"
    "<rope id='pa' material='nylon' diameter='1 in' mass='49 kg/100m' strength='10 tf' "
    "stiffness='33 kip'"
    " bedding-in='4 %' efficiency='0.9' basis='read' source='table'/>"
    "<rope id='hm' material='hmpe' diameter='20 mm' mass='0.5 lb/ft' strength='300 kN' "
    "stiffness='15 MN'/>"
    "<chain id='st' link='stud' grade='U2' diameter='24 mm' mass='12.6 kg/m' strength='240 kN' "
    "stiffness='50 MN'/>"
    "<chain id='sh' link='short' diameter='13 mm' mass='3.9 kg/m' strength='80 kN' "
    "stiffness='14 MN'/>"
    "<connector id='sk' strength='145 kN' mass='0.7 kg'/><sinker id='w' mass='50 lb' "
    "density='2400 kg/m3'/>"
    "<float id='s' shape='sphere' volume='55 l' mass='3.5 kg'/>"
    "<float id='b' shape='barrel-side' diameter='0.6 m' length='1 m' mass='12 kg' strop='0.3 m' "
    "depth-rating='10 m'/>"
    "<gear id='p' kind='panel' mass-in-water='7.8 kg' width='0.7 m' height='0.45 m' "
    "drag-coefficient='1.2'"
    " drop='1.5 m' orientation='across' basis='test'><at stage='bare' mass-in-water='0 kg'/>"
    "<at stage='year1' height='0.5 m' basis='assumed'/></gear>"
    "<anchor id='dw' kind='deadweight' mass='3 t' density='2400 kg/m3'/>"
    "<anchor id='dr' kind='drag' mass='250 kg' drag-class='hinged-light' setback='20 m'/>"
    "<anchor id='sc' kind='screw' capacity='9 tf' capacity-kind='ultimate' capacity-basis='test' "
    "capacity-angle='20 deg'/>"
    "</parts>"
    "<stages><stage id='year1' month='12'><floats of='L02' pattern='crop' "
    "count='24'/></stage></stages>"
    "<layout><block id='L' lines='3' spacing='20 m' heading='30 deg' x='1 m' y='2 m'>"
    "<backbone part='hm' length='120 m' strands='2'/>"
    "<floats id='crop' part='s' every='4 m' from='10 m' to='110 m'/><floats part='b' at='ends' "
    "count='2'/>"
    "<gear part='p' count='80'/>"
    "<leg at='NE' reach='60 m' bearing='35 deg'><chain part='st' length='1 shot' /><anchor "
    "part='dr'/></leg>"
    "<leg at='SW' x='-50 m' y='-60 m' pretension='1 kN' level='high' stage='year1'><chain "
    "part='sh' length='5 m'/>"
    "<connector part='sk' count='2'/><rope part='pa'/><anchor part='dw' id='A1' heading='45 "
    "deg'/></leg>"
    "</block>"
    "<change line='L02' dx='-2 m' dy='3 m' backbone-length='100 m'><leg at='NE' reach='61 m'>"
    "<rope part='pa' length='60 m' elements='12'/><anchor part='sc'/></leg></change><remove "
    "line='L03'/></layout>"
    "<rules profile='ufc-4-159-03-2005'><factor for='deadweight' value='1.5' because='consent'/>"
    "<limit gear-clearance='0.5 m' because='shellfish off the bed'/></rules>"
    "</site>";

// The long text above with its one wrong unit mended.
static reading read_whole(void)
{
    static char text[8000];
    const char *bad = strstr(whole, "1 shot");
    ck_assert_ptr_nonnull(bad);
    snprintf(text, sizeof text, "%.*s27.4 m%s", (int)(bad - whole), whole, bad + strlen("1 shot"));
    reading r = read_text(text);
    expect_clean(&r, "the whole site");
    return r;
}

START_TEST(place_and_weather)
{
    reading r = read_whole();
    const bys_site *s = r.site;
    ck_assert_str_eq(bys_site_name(s), "Whole & sound");
    ck_assert_str_eq(s->notice, "INVENTED");
    ck_assert_str_eq(s->frame.north, "true");
    expect_close(s->rho_water, 1020, 1e-15);
    expect_close(s->gravity, 9.8, 1e-15);
    expect_close(s->levels[0].height, 0.3048, 1e-15);
    expect_close(s->levels[bys_site_level(s, "high")].height, 3.6576, 1e-15);
    ck_assert_int_eq(bys_site_level(s, "middle"), -1);
    expect_close(s->bed.depth, 15.24, 1e-15);
    expect_close(s->bed.slope, 2 * DEG, 1e-15);
    // 100 m to the east on a bed that deepens eastwards at 2 deg: 100 tan 2 deg deeper.
    expect_close(bys_bed_z(&s->bed, 110, 999), -15.24 - 100 * 0.0349207694917477, 1e-12);
    ck_assert_int_eq(s->bed.soil_count, 2);
    expect_close(s->bed.soils[1].top, 1, 1e-15);
    ck_assert(isinf(s->bed.soils[1].thickness) && isnan(s->bed.soils[1].su));
    ck_assert(s->bed.soils[1].measured && s->bed.soils[1].basis == BYS_BASIS_TEST);
    expect_close(s->bed.soils[0].su, 4000, 1e-15);
    ck_assert_int_eq(s->lease_count, 3);
    expect_close(s->lease_x[1], 1000, 1e-15);
    ck_assert_int_eq(s->directions, 24);
    ck_assert_int_eq(s->turn_count, 3);
    expect_close(s->wind_wave_turns[2], -90 * DEG, 1e-15);
    expect_close(s->currents[0].speed, 1.2 * 1852 / 3600, 1e-15);
    ck_assert(s->currents[0].at == BYS_AT_DEPTH && s->currents[0].reverses);
    expect_close(s->currents[0].exponent, 0.2, 1e-15);
    expect_close(s->currents[1].speed, 10, 1e-15);
    expect_close(s->currents[1].exponent, 1.0 / 7, 1e-15);
    ck_assert(isnan(s->currents[1].towards) && isnan(s->waves[0].from));
    expect_close(s->winds[0].averaging, 600, 1e-15);
    expect_close(s->winds[0].years, 50, 1e-15);
    close_reading(&r);
}
END_TEST

START_TEST(parts_and_their_defaults)
{
    reading r = read_whole();
    const bys_site *s = r.site;
    const bys_line_part *pa = &bys_site_part(s, "pa")->u.line;
    expect_close(pa->diameter, 0.0254, 1e-15);
    expect_close(pa->mass, 0.49, 1e-15);
    expect_close(pa->strength, 98066.5, 1e-15);
    expect_close(pa->stiffness, 33 * 4448.2216152605, 1e-14); // 1 kip, definition
    expect_close(pa->bedding_in, 0.04, 1e-15);
    expect_close(pa->efficiency, 0.9, 1e-15);
    expect_close(pa->density, 1140, 1e-15);    // relative density of nylon, memory
    expect_close(pa->wet_factor, 0.85, 1e-15); // UFC 4-159-03 Table 3-7 note, read
    ck_assert(bys_site_part(s, "pa")->item.basis == BYS_BASIS_READ);
    ck_assert(bys_site_part(s, "hm")->item.basis == BYS_BASIS_ASSUMED);
    const bys_line_part *hm = &bys_site_part(s, "hm")->u.line;
    expect_close(hm->mass, 0.5 * 0.45359237 / 0.3048, 1e-15);
    expect_close(hm->cd_normal, 1.6, 1e-15); // memory
    expect_close(hm->wet_factor, 1, 1e-15);
    const bys_line_part *st = &bys_site_part(s, "st")->u.line, *sh = &bys_site_part(s,
        "sh")->u.line;
    ck_assert_str_eq(st->material, "steel-stud");
    ck_assert_str_eq(sh->material, "steel-studless");
    expect_close(st->cd_normal, 2.6, 1e-15);                           // memory
    expect_close(sh->cd_tangential, 1.15 / 3.14159265358979324, 1e-15); // memory
    const bys_float_part *sphere = &bys_site_part(s, "s")->u.buoy;
    expect_close(sphere->diameter, cbrt(6 * 0.055 / 3.14159265358979324), 1e-15);
    expect_close(sphere->cd, 0.5, 1e-15);
    const bys_float_part *barrel = &bys_site_part(s, "b")->u.buoy;
    expect_close(barrel->volume, 3.14159265358979324 / 4 * 0.36, 1e-14);
    ck_assert(barrel->shape == BYS_FLOAT_BARREL_SIDE);
    const bys_gear_part *panel = &bys_site_part(s, "p")->u.gear;
    ck_assert(panel->orientation == BYS_ORIENT_ACROSS && panel->value_count == 3);
    expect_abs(bys_gear_at(panel, "bare")->mass_in_water, 0, 0);
    expect_close(bys_gear_at(panel, "bare")->cd, 1.2, 1e-15);
    expect_close(bys_gear_at(panel, "year1")->height, 0.5, 1e-15);
    ck_assert(bys_gear_at(panel, "year1")->basis == BYS_BASIS_ASSUMED);
    ck_assert(bys_gear_at(panel, "harvest") == panel->values);
    ck_assert(panel->values[0].basis == BYS_BASIS_TEST);
    const bys_anchor_part *drag = &bys_site_part(s, "dr")->u.anchor;
    expect_abs(drag->uplift_limit, 0, 0);
    expect_close(drag->offset_limit, 30 * DEG, 1e-15);
    ck_assert(isnan(bys_site_part(s, "dw")->u.anchor.friction));
    const bys_anchor_part *screw = &bys_site_part(s, "sc")->u.anchor;
    ck_assert(screw->capacity_basis == BYS_BASIS_TEST && isnan(screw->uplift_limit));
    ck_assert_str_eq(screw->capacity_kind, "ultimate");
    expect_close(screw->capacity, 9 * 9806.65, 1e-15);
    ck_assert_ptr_null(bys_site_part(s, "none"));
    close_reading(&r);
}
END_TEST

START_TEST(layout_and_legs)
{
    reading r = read_whole();
    const bys_site *s = r.site;
    const bys_block *b = &s->blocks[0];
    ck_assert_int_eq(b->strands, 2);
    expect_close(b->heading, 30 * DEG, 1e-15);
    ck_assert_int_eq(b->float_count, 2);
    ck_assert(!b->floats[0].at_ends && b->floats[1].at_ends);
    ck_assert_str_eq(b->floats[1].id, "b");
    expect_close(b->floats[0].to, 110, 1e-15);
    ck_assert(isnan(b->gear[0].every) && b->gear[0].count == 80);
    ck_assert_int_eq(b->leg_count, 2);
    expect_close(b->legs[0].bearing, 35 * DEG, 1e-15);
    const bys_leg_spec *sw = &b->legs[1];
    ck_assert(isnan(sw->reach) && sw->x == -50);
    ck_assert_str_eq(sw->pretension_level, "high");
    ck_assert_str_eq(sw->pretension_stage, "year1");
    ck_assert_str_eq(sw->anchor_id, "A1");
    ck_assert_int_eq(sw->item_count, 3);
    ck_assert(sw->items[0].kind == BYS_LEG_LINE && sw->items[1].kind == BYS_LEG_CONNECTOR);
    ck_assert_int_eq(sw->items[1].count, 2);
    ck_assert(isnan(sw->items[2].length) && sw->items[2].part == bys_site_part(s, "pa"));
    ck_assert_int_eq(s->change_count, 2);
    ck_assert(!s->changes[0].remove && s->changes[1].remove);
    expect_close(s->changes[0].dx, -2, 1e-15);
    ck_assert_int_eq(s->changes[0].legs[0].items[0].elements, 12);
    // bare and harvest always exist; a rope beds in, so that each stage comes with both states
    ck_assert_int_eq(s->stage_count, 6);
    ck_assert_str_eq(s->stages[3].item.id, "bare-old-ropes");
    ck_assert_str_eq(s->stages[5].item.id, "harvest-new-ropes");
    ck_assert_str_eq(bys_stage_gear(&s->stages[5]), "harvest");
    ck_assert_int_eq(s->stages[4].float_count, 1);
    expect_abs(s->stages[3].bedding_in, 1, 0);
    expect_abs(s->stages[5].bedding_in, 0, 0);
    ck_assert_str_eq(s->stages[0].item.id, "bare");
    ck_assert_str_eq(s->stages[2].item.id, "harvest");
    expect_abs(s->stages[0].bedding_in, 0, 0);
    expect_close(s->stages[1].bedding_in, 1, 0);
    ck_assert_int_eq(s->stages[1].float_count, 1);
    ck_assert_str_eq(s->stages[1].floats[0].target, "L02");
    ck_assert_int_eq(s->stages[1].floats[0].count, 24);
    close_reading(&r);
}
END_TEST

// UFC 4-159-03 (2005) Table 3-7, read.
START_TEST(rules_with_own_factor)
{
    reading r = read_whole();
    const bys_rules *rules = &r.site->rules;
    ck_assert_str_eq(rules->item.id, "ufc-4-159-03-2005");
    ck_assert_str_eq(rules->capacity_basis, "ultimate");
    ck_assert_int_eq(rules->min_directions, 8);
    ck_assert(!rules->demand_lost_leg);
    static const struct { const char *name; double value; } table[] = {
        {"rope", 3}, {"wire", 3}, {"chain", 3}, {"chain-bend", 4}, {"drag-stockless", 1.5},
        {"drag-high-efficiency", 2}, {"plate", 3}, {"pile", 3}, {"load-static", 1}};
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        const bys_factor *f = bys_rules_factor(rules, table[i].name);
        ck_assert_msg(f != NULL, "no factor for %s", table[i].name);
        expect_close(f->value, table[i].value, 0);
        ck_assert(f->basis == BYS_BASIS_READ);
    }
    ck_assert(bys_rules_factor(rules, "connector")->basis == BYS_BASIS_ASSUMED);
    ck_assert(isnan(bys_rules_factor(rules, "screw")->value));
    const bys_factor *own = bys_rules_factor(rules, "deadweight");
    expect_close(own->value, 1.5, 0);
    ck_assert(own->basis == BYS_BASIS_USER);
    ck_assert_str_eq(own->because, "consent");
    ck_assert_ptr_null(bys_rules_factor(rules, "kite"));
    expect_close(rules->gear_clearance, 0.5, 1e-15);
    ck_assert(isnan(rules->float_reserve) && isnan(rules->max_excursion));
    ck_assert_int_eq(rules->combination_count, 1);
    expect_close(rules->combinations[0].wave_years, 50, 0);
    close_reading(&r);
}
END_TEST

START_TEST(echo_has_text_and_place)
{
    reading r = read_whole();
    bool found = false;
    for (int i = 0; i < r.site->echo_count; i++)
        if (strcmp(r.site->echo[i].path, "layout/block[L]/leg[SW]/pretension") == 0) {
            found = true;
            ck_assert_str_eq(r.site->echo[i].text, "1 kN");
            ck_assert_int_eq(r.site->echo[i].place.line, 1);
        }
    ck_assert(found);
    close_reading(&r);
}
END_TEST

// Columns counted by hand: the tab is 1, name 2 to 19, x 22, the comment 28 to 37.
START_TEST(places_count_characters)
{
    reading r = read_text("<?xml version='1.0' encoding='UTF-8'?>\r\n"
                          "<!-- <a b='c'> -->\n"
                          "<site xmlns='urn:byssus:site:1'\n"
                          "\tname='B\xC3\xA4ren > bay'  x='1'><!-- \xE2\x82\xAC --><bad/>\n"
                          "</site >");
    ck_assert_int_eq(r.rc, BYS_EINPUT);
    ck_assert_str_eq(all_messages(&r),
                     "site.xml:3:1: E0314: nothing is laid: add a <layout> with a <block>, "
                     "<raft-grid> or <network>\n"
                     "site.xml:4:22: E0112: <site name=\"B\xC3\xA4ren > bay\"> has no attribute "
                     "\"x\"; it takes "
                     "name, notice\n"
                     "site.xml:4:38: E0111: <site> has no element <bad>; it may hold <frame>, "
                     "<water>, <seabed>, <lease>, <weather>, <cases>, <stages>, <conditions>, "
                     "<rules>, <parts>, "
                     "<layout>\n");
    close_reading(&r);
}
END_TEST

static const char *const plain_network =
    "<layout><network id='N'><point id='a' x='0 m' y='0 m' z='-5 m' hold='xz'/>"
    "<point id='b' x='9 m' y='0 m' z='0 m' buoyancy='100 N'/>"
    "<span id='s' from='a' to='b' length='10 m' stiffness='1 MN' weight='-2 N/m' medium='air'"
    " load-x='3 N/m' load-per='stretched' drag-per='unstretched'/>"
    "<load point='b' fx='1 kN' fz='-2 kN'/><load point='b' fx='1 kN'/></network></layout></site>";

START_TEST(network_needs_nothing_else)
{
    char text[2000];
    snprintf(text, sizeof text, "<site xmlns='urn:byssus:site:1' name='n'>%s", plain_network);
    reading r = read_text(text);
    expect_clean(&r, "network");
    ck_assert_str_eq(all_messages(&r), "");
    const bys_free_network *n = &r.site->networks[0];
    ck_assert_int_eq(n->point_count, 2);
    ck_assert(n->points[0].hold[0] && !n->points[0].hold[1] && n->points[0].hold[2]);
    expect_close(n->points[1].load[0], 2000, 1e-15);
    expect_close(n->points[1].load[2], -2000, 1e-15);
    expect_close(n->points[1].buoyancy, 100, 1e-15);
    expect_close(n->spans[0].weight, -2, 1e-15);
    ck_assert(n->spans[0].in_air && n->spans[0].load_stretched && n->spans[0].drag_unstretched);
    ck_assert(!n->spans[0].on_bed && n->spans[0].elements == 0);
    ck_assert_int_eq(r.site->level_count, 1);
    ck_assert(!r.site->has_bed);
    close_reading(&r);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("reader");
    suite_test(s, templates_are_valid);
    suite_test(s, demo_is_read_in_time);
    suite_test(s, place_and_weather);
    suite_test(s, parts_and_their_defaults);
    suite_test(s, layout_and_legs);
    suite_test(s, rules_with_own_factor);
    suite_test(s, echo_has_text_and_place);
    suite_test(s, places_count_characters);
    suite_test(s, network_needs_nothing_else);
    return suite_run(s, NULL);
}
