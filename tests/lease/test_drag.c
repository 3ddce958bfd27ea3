// SPDX-License-Identifier: GPL-3.0-or-later
// What the records of the catalogue, crop stages, lines and growth become in the Network: the demo of
// all gear. Expected values: the site file and the catalogue (read there), algebra (derived).
#include "lease/read_text.h"
#include "phys/phys.h"
#include "phys/sea_loads.h"
#include "support/suite.h"

static bys_site *site;
static bys_network *net_at(const char *stage)
{
    bys_messages *messages;
    bys_network *net = NULL;
    bys_error err = {0};
    ck_assert_int_eq(bys_messages_new(&messages), BYS_OK);
    ck_assert_msg(bys_site_read(&site, BYS_SITEFILES "/mixed-gear.xml", NULL, messages, &err) ==
                      BYS_OK, "%s\n%s", err.text, said(messages));
    ck_assert_msg(bys_network_expand(&net, site, bys_site_stage(site, stage), messages, &err) ==
                      BYS_OK, "%s\n%s", err.text, said(messages));
    bys_messages_free(messages);
    return net;
}

static void done(bys_network *net)
{
    bys_network_free(net);
    bys_site_free(site);
}

static const bys_gear_set *gear(const bys_network *net, const char *id)
{
    for (int i = 0; i < net->gear_count; i++)
        if (strcmp(net->gears[i].id, id) == 0)
            return &net->gears[i];
    ck_abort_msg("no gear %s", id);
    return NULL;
}

static const bys_gear_set *gear_of_part(const bys_network *net, const char *part)
{
    for (int i = 0; i < net->gear_count; i++)
        if (strcmp(net->gears[i].part->item.id, part) == 0)
            return &net->gears[i];
    ck_abort_msg("no gear of part %s", part);
    return NULL;
}

START_TEST(records_become_laws)
{
    bys_network *net = net_at("harvest");
    expect_close(gear_of_part(net, "mussel")->law.cd, 1.3, 1e-12);
    const bys_gear_set *panel = gear_of_part(net, "panel");
    ck_assert_int_eq(panel->law.kind, BYS_DRAG_PANEL);
    expect_close(panel->law.edge, 0.15, 1e-12);
    expect_close(panel->swing_relief, 0.25, 1e-12);
    // beyond the published 1 kg the value there is held: 0.91, Fishes 2023 8:204 [read]
    expect_close(gear_of_part(net, "lantern")->law.cd, 0.91, 1e-12);
    expect_close(gear_of_part(net, "tray")->law.cd, bys_basket_cd(0.45, NULL), 1e-12);
    ck_assert_int_eq(gear_of_part(net, "screen")->law.kind, BYS_DRAG_NET);
    const bys_gear_set *weed = gear_of_part(net, "weed");
    ck_assert_int_eq(weed->law.kind, BYS_DRAG_WEED); // its own number keeps the record's power
    expect_close(weed->law.cd, 0.35, 1e-12);
    expect_close(weed->law.speed0, 0.5, 1e-12);
    // 90 ropes a metre apart keep half of their drag at least
    const bys_gear_set *mussel = gear_of_part(net, "mussel");
    ck_assert(mussel->file_relief > 0.3 && mussel->file_relief <= 0.5);
    done(net);
}
END_TEST

START_TEST(stages_and_lines_have_their_own_crop)
{
    bys_network *net = net_at("harvest");
    // 1.6 kg/m and 1.0 kg/m on 5 m; M02 was stocked later
    expect_close(gear(net, "M01/gear05")->values->mass_in_water, 8.0, 1e-12);
    expect_close(gear(net, "M02/gear05")->values->mass_in_water, 5.0, 1e-12);
    expect_close(gear(net, "M02/gear05")->values->width, 0.10, 1e-12);
    done(net);
    net = net_at("bare");
    expect_close(gear(net, "M02/gear05")->values->mass_in_water, 0.5, 1e-12);
    expect_close(gear(net, "M02/gear05")->law.cd, 1.2, 1e-12);
    done(net);
}
END_TEST

START_TEST(growth_adds_weight_diameter_and_drag)
{
    bys_network *bare = net_at("bare");
    const bys_section warp = bare->sections[bare->legs[0].first_section + 1];
    ck_assert_double_eq(bare->floats[0].growth_weight, 0.0);
    done(bare);
    bys_network *net = net_at("harvest");
    const bys_section *grown = &net->sections[net->legs[0].first_section + 1];
    ck_assert_str_eq(grown->part->item.id, "warp");
    // pi t (D + t) rho per metre, D 36 mm, t 8 mm, 1325 kg/m3 (DNV-OS-E301 form, memory)
    const double mass = BYS_PI * 0.008 * 0.044 * 1325.0;
    expect_close(grown->weight_dry - warp.weight_dry, mass * BYS_G, 1e-9);
    expect_close(grown->buoyancy - warp.buoyancy, mass * BYS_G * 1025.0 / 1325.0, 1e-9);
    expect_close(grown->diameter, 0.052, 1e-12);
    // chains have a thinner layer, twice the mass of the same layer on a rope
    const bys_section *chain = &net->sections[net->legs[0].first_section];
    expect_close(chain->diameter, 0.032, 1e-12);
    // a sphere: pi (D + t)^2 t to first order; its outline grows by (D + 2t)^2/D^2
    for (int i = 0; i < net->float_count; i++) {
        const bys_float_set *f = &net->floats[i];
        if (strcmp(f->part->item.id, "ball") != 0)
            continue;
        const double D = f->part->u.buoy.diameter, t = 0.015;
        const double shell = BYS_PI / 6.0 * (pow(D + 2.0 * t, 3.0) - D * D * D);
        expect_close(f->growth_weight, shell * (1325.0 - 1025.0) * BYS_G, 1e-3);
        expect_close(1.0 + f->growth_drag, pow((D + 2.0 * t) / D, 2.0), 1e-12);
    }
    done(net);
}
END_TEST

START_TEST(a_hull_has_friction_rows_and_beams)
{
    bys_network *net = net_at("bare");
    int hulls = 0, beams = 0;
    for (int i = 0; i < net->prism_count; i++) {
        hulls += net->prisms[i].friction > 0.0;
        beams += net->prisms[i].waterplane == 0.0;
    }
    ck_assert_int_gt(hulls, 0);
    ck_assert_int_eq(beams, 12);
    // three pontoons of 0.9 m over 12 m: the gap is wider than they are, no shelter
    expect_close(net->prisms[0].cd, 1.4, 1e-12);
    expect_close(net->prisms[0].end_ratio, 1.0 / 1.4, 1e-12);
    done(net);
}
END_TEST

/// What is built in where a part names no record is what the catalogue's records say.
START_TEST(built_in_values_are_those_of_the_catalogue)
{
    static const char text[] =
        "<site xmlns='urn:byssus:site:1' name='t'><parts><catalogue href='catalogue/drag.xml'/>"
        "<rope id='a' material='nylon' diameter='28 mm' mass='0.5 kg/m' stiffness='1 MN'/>"
        "<rope id='A' material='nylon' diameter='28 mm' mass='0.5 kg/m' stiffness='1 MN' "
        "drag='cd-rope'/>"
        "<chain id='b' link='stud' diameter='24 mm' mass='12 kg/m' stiffness='50 MN'/>"
        "<chain id='B' link='stud' diameter='24 mm' mass='12 kg/m' stiffness='50 MN' "
        "drag='cd-chain-stud'/>"
        "<chain id='c' link='short' diameter='24 mm' mass='12 kg/m' stiffness='50 MN'/>"
        "<chain id='C' link='short' diameter='24 mm' mass='12 kg/m' stiffness='50 MN' "
        "drag='cd-chain-studless'/>"
        "<float id='d' shape='sphere' volume='55 l' mass='3 kg'/>"
        "<float id='D' shape='sphere' volume='55 l' mass='3 kg' drag='cd-sphere'/>"
        "<float id='e' shape='barrel-side' volume='55 l' diameter='0.3 m' mass='3 kg'/>"
        "<float id='E' shape='barrel-side' volume='55 l' diameter='0.3 m' mass='3 kg' "
        "drag='cd-barrel-endless'/></parts><layout><network id='N'>"
        "<point id='p' x='0 m' y='0 m' z='0 m' hold='xyz'/></network></layout></site>";
    bys_messages *messages;
    ck_assert_int_eq(bys_messages_new(&messages), BYS_OK);
    site = read_text(text, messages);
    for (char id = 'a'; id <= 'e'; id++) {
        const bys_part *plain = bys_site_part(site, (char[2]){id, 0});
        const bys_part *named = bys_site_part(site, (char[2]){(char)(id - 32), 0});
        ck_assert_ptr_nonnull(named);
        if (plain->kind == BYS_PART_FLOAT) {
            expect_close(named->u.buoy.cd, plain->u.buoy.cd, 1e-12);
            continue;
        }
        expect_close(named->u.line.cd_normal, plain->u.line.cd_normal, 1e-12);
        expect_close(named->u.line.cd_tangential, plain->u.line.cd_tangential, 1e-12);
    }
    bys_messages_free(messages);
    bys_site_free(site);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("lease_drag");
    suite_test(s, records_become_laws);
    suite_test(s, stages_and_lines_have_their_own_crop);
    suite_test(s, growth_adds_weight_diameter_and_drag);
    suite_test(s, built_in_values_are_those_of_the_catalogue);
    suite_test(s, a_hull_has_friction_rows_and_beams);
    return suite_run(s, NULL);
}
