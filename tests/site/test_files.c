// SPDX-License-Identifier: GPL-3.0-or-later
// Files: catalogues, rule profiles, paths, sizes, and files that are not what they should be.
#include "site/reading.h"

// ---- catalogues and paths --------------------------------------------------------------------

static const char *const catalogue =
    "<parts xmlns='urn:byssus:parts:1'>"
    "<rope id='c1' material='polyester' diameter='28 mm' mass='0.6 kg/m' strength='1 kN' "
    "stiffness='1 MN' basis='read'/>"
    "<rope id='c2' material='polyester' diameter='28' mass='0.6 kg/m' stiffness='1 MN'/></parts>";

static const char *const with_catalogue =
    "<site xmlns='urn:byssus:site:1' name='n'><parts><catalogue href='sub/parts.xml'/></parts>"
    "<layout><network id='N'><point id='a' x='0 m' y='0 m' z='0 m' hold='xyz'/>"
    "<point id='b' x='9 m' y='0 m' z='0 m'/><span id='s' from='a' to='b' length='10 m' part='c1'/>"
    "</network></layout></site>";

START_TEST(catalogue_beside_the_file)
{
    make_folder();
    ck_assert_int_eq(mkdir("sub", 0700), 0);
    write_bytes("site.xml", with_catalogue, strlen(with_catalogue));
    write_bytes("sub/parts.xml", catalogue, strlen(catalogue));
    reading r = read_path("site.xml");
    ck_assert_int_eq(r.rc, BYS_EINPUT);
    ck_assert_str_eq(all_messages(&r),
                     "sub/parts.xml:1:185: E0202: <rope id=\"c2\">: diameter=\"28\" has no unit; a "
                     "length is written in: m, mm, cm, km, ft, in, fathom, fathoms, fm, nmi\n");
    close_reading(&r);
    char mended[2000];
    const char *bad = strstr(catalogue, "'28'");
    snprintf(mended, sizeof mended, "%.*s'28 mm'%s", (int)(bad - catalogue), catalogue, bad + 4);
    write_bytes("sub/parts.xml", mended, strlen(mended));
    char path[100];
    snprintf(path, sizeof path, "%s/site.xml", folder); // found beside the file, from anywhere
    ck_assert_int_eq(chdir("/"), 0);
    r = read_path(path);
    expect_clean(&r, "site with catalogue");
    ck_assert_int_eq(r.site->part_count, 2);
    // 0.6 kg/m of polyester (1380 kg/m3, memory) in 1025 kg/m3 of water
    expect_close(r.site->networks[0].spans[0].weight, 9.80665 * 0.6 * (1 - 1025.0 / 1380), 1e-14);
    close_reading(&r);
}
END_TEST

START_TEST(links_cannot_leave_the_folder)
{
    make_folder();
    ck_assert_int_eq(mkdir("in", 0700), 0);
    ck_assert_int_eq(mkdir("in/sub", 0700), 0);
    write_bytes("parts.xml", catalogue, strlen(catalogue));
    write_bytes("in/site.xml", with_catalogue, strlen(with_catalogue));
    ck_assert_int_eq(symlink("../../parts.xml", "in/sub/parts.xml"), 0);
    reading r = read_path("in/site.xml");
    ck_assert_int_eq(r.rc, BYS_EINPUT);
    ck_assert_uint_eq(count_code(&r, 119), 1);
    close_reading(&r);
}
END_TEST

START_TEST(data_folder_can_be_given)
{
    make_folder();
    ck_assert_int_eq(mkdir("data", 0700), 0);
    const char *text = "<site xmlns='urn:byssus:site:1' name='n'><layout><network id='N'>"
                       "<point id='a' x='0 m' y='0 m' z='0 m' hold='xyz'/></network></layout>"
                       "<rules profile='ufc-4-159-03-2005'/></site>";
    write_bytes("site.xml", text, strlen(text));
    reading r = {0};
    ck_assert_int_eq(bys_messages_new(&r.messages), BYS_OK);
    ck_assert_int_eq(bys_site_read(&r.site, "site.xml", "data", r.messages, NULL), BYS_EINPUT);
    ck_assert_uint_eq(count_code(&r, 120), 1);
    close_reading(&r);
    r = (reading){0};
    ck_assert_int_eq(bys_messages_new(&r.messages), BYS_OK);
    ck_assert_int_eq(bys_site_read(&r.site, "site.xml", BYS_SITEFILES, r.messages, &r.err), BYS_OK);
    close_reading(&r);
}
END_TEST

START_TEST(own_rule_profile_by_path)
{
    make_folder();
    const char *text = "<site xmlns='urn:byssus:site:1' name='n'><layout><network id='N'>"
                       "<point id='a' x='0 m' y='0 m' z='0 m' hold='xyz'/></network></layout>"
                       "<rules href='rules/own-template.xml'/></site>";
    reading r = read_text(text);
    expect_clean(&r, "own profile");
    ck_assert_str_eq(r.site->rules.item.id, "own-template");
    ck_assert_int_eq(r.site->rules.combination_count, 2);
    ck_assert(bys_rules_factor(&r.site->rules, "rope")->basis == BYS_BASIS_ASSUMED);
    expect_close(r.site->rules.float_reserve, 0.25, 1e-15);
    close_reading(&r);
}
END_TEST

// The catalogue's stud-link chain against ISO 1704 by formula (standards of the form c d2 (44 - 0.08 d),
// memory), and its rope against the read table.
START_TEST(installed_catalogue)
{
    reading r = read_text("<site xmlns='urn:byssus:site:1' name='n'><parts>"
                          "<catalogue href='catalogue/open-standard.xml'/></parts><layout>"
                          "<network id='N'><point id='a' x='0 m' y='0 m' z='0 m' hold='xyz'/>"
                          "</network></layout></site>");
    expect_clean(&r, "catalogue");
    const bys_part *chain = bys_site_part(r.site, "stud-u2-26");
    ck_assert_ptr_nonnull(chain);
    expect_close(chain->u.line.strength, 1000 * 0.01373 * 26 * 26 * (44 - 0.08 * 26), 5e-4);
    ck_assert(chain->item.basis == BYS_BASIS_MEMORY);
    const bys_part *rope = bys_site_part(r.site, "pp-24-inch");
    ck_assert_ptr_nonnull(rope);
    expect_close(rope->u.line.strength, 57000, 1e-12); // engineeringtoolbox d_1516, read
    expect_close(rope->u.line.mass, 0.27, 1e-12);
    close_reading(&r);
}
END_TEST

// ---- files that are not what they should be --------------------------------------------------

START_TEST(files_that_cannot_be_read)
{
    make_folder();
    reading r = read_path("no-such-site.xml");
    ck_assert_int_eq(r.rc, BYS_ENOINPUT);
    ck_assert_int_eq(r.err.rc, BYS_ENOINPUT);
    ck_assert_str_eq(all_messages(&r),
                     "no-such-site.xml: E0101: cannot be opened: No such file or directory\n");
    close_reading(&r);
    r = read_path(folder);
    ck_assert_int_eq(r.rc, BYS_ENOINPUT);
    ck_assert_uint_eq(count_code(&r, 101), 1);
    close_reading(&r);
}
END_TEST

START_TEST(size_limit)
{
    make_folder();
    static char big[8 * 1024 * 1024 + 1];
    memset(big, ' ', sizeof big);
    write_bytes("big.xml", big, sizeof big);
    reading r = read_path("big.xml");
    ck_assert_int_eq(r.rc, BYS_EINPUT);
    ck_assert_uint_eq(count_code(&r, 103), 1);
    close_reading(&r);
    write_bytes("big.xml", big, sizeof big - 1);
    r = read_path("big.xml");
    ck_assert_uint_eq(count_code(&r, 102), 1); // 8 MB are read, and they are blank
    close_reading(&r);
}
END_TEST

// Thousands of faults, references and elements are read in time that grows no faster than them.
START_TEST(hostile_sizes_end_soon)
{
    bys_text text = {0};
    bys_text_add(&text, "<site xmlns='urn:byssus:site:1' name='n'><layout><network id='N'>");
    for (int i = 0; i < 30000; i++)
        bys_text_addf(&text, "<point id='p%d' x='0 m' y='0' z='0 m'/><span id='s%d' from='q%d' "
                             "to='p0' "
                      "length='1 m' stiffness='1 N'/>", i, i, i);
    bys_text_add(&text, "</network></layout></site>");
    make_folder();
    write_bytes("site.xml", text.data, text.length);
    bys_text_free(&text);
    clock_t start = clock();
    reading r = read_path("site.xml");
    double seconds = (double)(clock() - start) / CLOCKS_PER_SEC;
    ck_assert_int_eq(r.rc, BYS_EINPUT);
    ck_assert_uint_eq(count_code(&r, 202), 30000);
    ck_assert_uint_eq(count_code(&r, 302), 30000);
    ck_assert_msg(seconds < 10, "%.1f s", seconds);
    close_reading(&r);
}
END_TEST

START_TEST(line_numbers_beyond_65535)
{
    bys_text text = {0};
    bys_text_add(&text, "<site xmlns='urn:byssus:site:1' name='n'>");
    for (int i = 1; i < 70004; i++)
        bys_text_add(&text, "\n");
    bys_text_add(&text, "<bad/></site>");
    make_folder();
    write_bytes("site.xml", text.data, text.length);
    bys_text_free(&text);
    reading r = read_path("site.xml");
    ck_assert_msg(strstr(all_messages(&r), "site.xml:70004:1: E0111") != NULL, "%s",
                  all_messages(&r));
    close_reading(&r);
}
END_TEST

// One leg in all combinations of its three givens: sound exactly when two are stated.
START_TEST(a_leg_states_two_of_three)
{
    for (int given = 0; given < 8; given++) {
        char text[2000];
        snprintf(text, sizeof text,
                 "<site xmlns='urn:byssus:site:1' name='n'><frame kind='local'/>"
                 "<water density='1025 kg/m3'/><parts><rope id='r' material='polyester' "
                 "diameter='28 mm'"
                 " mass='0.6 kg/m' strength='9 kN' stiffness='1 MN'/><anchor id='f' "
                 "kind='fixed'/></parts>"
                 "<layout><block id='L' lines='1' heading='0 deg' x='0 m' y='0 m'>"
                 "<backbone part='r' length='100 m'/><leg at='ends'%s%s><rope part='r'%s/>"
                 "<anchor part='f'/></leg></block></layout></site>",
                 given & 1 ? " reach='50 m'" : "", given & 2 ? " pretension='1 kN'" : "",
                 given & 4 ? " length='55 m'" : "");
        bool two = given == 3 || given == 5 || given == 6;
        reading r = read_text(text);
        ck_assert_msg((r.rc == BYS_OK) == two, "givens %d: %s", given, all_messages(&r));
        ck_assert_uint_eq(count_code(&r, 304), two ? 0 : 1);
        close_reading(&r);
    }
}
END_TEST

int main(void)
{
    Suite *s = suite_create("files");
    suite_test(s, catalogue_beside_the_file);
    suite_test(s, links_cannot_leave_the_folder);
    suite_test(s, data_folder_can_be_given);
    suite_test(s, own_rule_profile_by_path);
    suite_test(s, installed_catalogue);
    suite_test(s, files_that_cannot_be_read);
    suite_test(s, size_limit);
    suite_test(s, hostile_sizes_end_soon);
    suite_test(s, line_numbers_beyond_65535);
    suite_test(s, a_leg_states_two_of_three);
    return suite_run(s, NULL);
}
