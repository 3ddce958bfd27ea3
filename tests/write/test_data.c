// SPDX-License-Identifier: GPL-3.0-or-later
// legs.csv, legs.json and the state of one case, from a made-up design.
#include "support/fake_design.h"
#include "support/suite.h"

#include <byssus/write.h>

#include <jansson.h>
#include <string.h>

static bys_design *make(bool hostile)
{
    return fake_design_new(&(fake_options){12, "fail", hostile});
}

static json_t *parse(const bys_text *text)
{
    json_error_t error;
    json_t *root = json_loads(text->data, JSON_REJECT_DUPLICATES, &error);
    ck_assert_msg(root != NULL, "line %d: %s", error.line, error.text);
    return root;
}

static json_t *legs_json(const bys_design *design)
{
    bys_text text = {0};
    bys_write_legs_json(&text, design);
    ck_assert(!text.failed);
    json_t *root = parse(&text);
    bys_text_free(&text);
    return root;
}

// The contract names these columns; a reader breaks when one is renamed.
START_TEST(csv_header_is_the_contract)
{
    static const char header[] =
        "id,longline,tension_kN,tension_tf,mean_kN,wave_kN,utilisation,verdict,"
        "governing_case,reach_m,bearing_deg,scope,pretension_kN,"
        "line_case,line_condition,line_analysis,"
        "line_characteristic_kN,line_load_factor,line_design_kN,line_weakest,line_component,"
        "line_capacity_kN,line_resistance_factor,line_utilisation,line_verdict,line_basis,"
        "line_why,line_source,anchor_anchor_id,anchor_case,anchor_condition,anchor_analysis,"
        "anchor_component,anchor_horizontal_kN,anchor_vertical_kN,anchor_uplift_deg,"
        "anchor_offset_deg,anchor_grounded_m,anchor_characteristic_kN,anchor_load_factor,"
        "anchor_design_kN,anchor_capacity_kN,anchor_resistance_factor,anchor_utilisation,"
        "anchor_verdict,anchor_basis,anchor_why,anchor_source,reported_lost_case,"
        "reported_lost_condition,reported_lost_tension_kN,sensitivity_case,"
        "sensitivity_per_m_east_kN,sensitivity_per_m_north_kN,sensitivity_per_m_warp_kN,"
        "sensitivity_per_10pct_current_kN,laying_tolerance_radius_m,laying_tolerance_limited_by,"
        "laying_tolerance_bearing_deg,laying_tolerance_case,laying_tolerance_resolves,"
        "laying_tolerance_same_as,laying_tolerance_text,pretension_high_kN,pretension_from,"
        "wave_passage_case,wave_passage_height_m,wave_passage_period_s,wave_passage_phase_deg,"
        "wave_passage_mean_kN,wave_passage_peak_kN,wave_passage_least_kN,wave_passage_text\n";
    bys_design *design = make(false);
    bys_text text = {0};
    bys_write_legs_csv(&text, design);
    ck_assert_int_eq(strncmp(text.data, header, strlen(header)), 0);
    size_t lines = 0;
    for (const char *c = text.data; *c; c++)
        lines += *c == '\n';
    ck_assert_uint_eq(lines, 25); // header and 24 legs
    bys_text_free(&text);
    fake_design_free(design);
}
END_TEST

// RFC 4180 quoting; the unknown tension and the infinite utilisation leave their fields empty.
START_TEST(csv_escapes_and_leaves_unknowns_empty)
{
    bys_design *design = make(true);
    design->legs[1].id = "=1+1";
    bys_text text = {0};
    bys_write_legs_csv(&text, design);
    const char *row = strchr(text.data, '\n') + 1;
    ck_assert_int_eq(strncmp(row, "\"L<01>&\"\"'\n=x\",L01,,,", 21), 0);
    ck_assert_ptr_nonnull(strstr(text.data, "\n\"'=1+1\",L01,")); // no formula for a spreadsheet
    ck_assert_ptr_null(strstr(text.data, "nan"));
    ck_assert_ptr_null(strstr(text.data, "inf,"));
    ck_assert_ptr_null(strstr(text.data, "null"));
    bys_text_free(&text);
    fake_design_free(design);
}
END_TEST

START_TEST(json_holds_the_contract)
{
    bys_design *design = make(false);
    json_t *root = legs_json(design);
    ck_assert_str_eq(json_string_value(json_object_get(root, "schema")), "byssus.legs/1");
    json_t *legs = json_object_get(root, "legs");
    ck_assert_uint_eq(json_array_size(legs), 24);
    json_t *leg = json_array_get(legs, 4); // L03/N
    ck_assert_str_eq(json_string_value(json_object_get(leg, "id")), "L03/N");
    expect_close(json_real_value(json_object_get(leg, "tension_kN")),
                 design->legs[4].tension_N / 1000.0, 1e-15); // derived
    json_t *anchor = json_object_get(leg, "anchor");
    expect_close(json_real_value(json_object_get(anchor, "utilisation")),
                 design->legs[4].anchor.check.utilisation, 0.0); // shortest form reads back whole
    json_t *lost = json_object_get(json_object_get(leg, "reported"), "lost");
    ck_assert_str_eq(json_string_value(json_object_get(lost, "condition")), "lost:L05/S");
    ck_assert_uint_eq(json_array_size(json_object_get(root, "not_stable")), 1);
    json_decref(root);
    fake_design_free(design);
}
END_TEST

START_TEST(json_turns_nan_and_infinity_to_null)
{
    bys_design *design = make(true);
    json_t *root = legs_json(design);
    json_t *leg = json_array_get(json_object_get(root, "legs"), 0);
    ck_assert_str_eq(json_string_value(json_object_get(leg, "id")), "L<01>&\"'\n=x");
    ck_assert(json_is_null(json_object_get(leg, "tension_kN")));
    ck_assert(json_is_null(json_object_get(leg, "utilisation")));
    ck_assert(json_is_null(json_array_get(json_object_get(leg, "by_direction_kN"), 3)));
    json_decref(root);
    fake_design_free(design);
}
END_TEST

// Bytes that are not UTF-8 become U+FFFD, so that the text stays readable JSON.
START_TEST(json_strings)
{
    static const struct {
        const char *in, *out;
    } table[] = {
        {"", "\"\""},
        {"a\"b\\c/d", "\"a\\\"b\\\\c/d\""},
        {"\x01\x1f\x7f\n\r\t", "\"\\u0001\\u001f\\u007f\\n\\r\\t\""},
        {"\xC3\xA9\xE2\x82\xAC\xF0\x9F\x90\x9A", "\"\xC3\xA9\xE2\x82\xAC\xF0\x9F\x90\x9A\""},
        {"\xFF", "\"\xEF\xBF\xBD\""},
        {"\xC0\xAF", "\"\xEF\xBF\xBD\xEF\xBF\xBD\""},         // overlong
        {"\xED\xA0\x80", "\"\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD\""}, // surrogate
        {"\xE2\x82", "\"\xEF\xBF\xBD\xEF\xBF\xBD\""},         // cut short
    };
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        bys_text text = {0};
        bys_write_json_string(&text, table[i].in);
        ck_assert_str_eq(text.data, table[i].out);
        bys_text_free(&text);
    }
}
END_TEST

START_TEST(state_json)
{
    bys_solution *solution = fake_solution_new();
    bys_text text = {0};
    bys_write_solution_json(&text, solution);
    json_t *root = parse(&text);
    ck_assert_str_eq(json_string_value(json_object_get(root, "schema")), "byssus.state/1");
    ck_assert_str_eq(json_string_value(json_object_get(root, "status")), "stable");
    json_t *span = json_array_get(json_object_get(root, "spans"), 0);
    json_t *end = json_object_get(span, "end_a");
    expect_close(json_real_value(json_object_get(end, "fy_kN")), 8.2005, 1e-15); // derived
    json_t *body = json_array_get(json_object_get(root, "bodies"), 0);
    ck_assert(json_is_null(json_object_get(body, "pitch_deg")));
    json_decref(root);
    bys_text_free(&text);
    fake_solution_free(solution);
}
END_TEST

START_TEST(messages_json)
{
    bys_messages *messages = NULL;
    ck_assert_int_eq(bys_messages_new(&messages), BYS_OK);
    int file = bys_messages_file(messages, "a \"b\".xml");
    bys_messages_add(messages, BYS_WARNING, 123, (bys_place){file, 4, 7}, "say <this> & \"that\"");
    bys_text text = {0};
    bys_write_messages_json(&text, messages);
    json_t *root = parse(&text);
    json_t *row = json_array_get(root, 0);
    ck_assert_str_eq(json_string_value(json_object_get(row, "code")), "W0123");
    ck_assert_str_eq(json_string_value(json_object_get(row, "severity")), "warning");
    ck_assert_str_eq(json_string_value(json_object_get(row, "file")), "a \"b\".xml");
    ck_assert_int_eq(json_integer_value(json_object_get(row, "column")), 7);
    json_decref(root);
    bys_text_free(&text);
    bys_messages_free(messages);
}
END_TEST

START_TEST(no_messages_are_an_empty_array)
{
    bys_messages *messages = NULL;
    ck_assert_int_eq(bys_messages_new(&messages), BYS_OK);
    bys_text text = {0};
    bys_write_messages_json(&text, messages);
    ck_assert_str_eq(text.data, "[]\n");
    bys_text_free(&text);
    bys_messages_free(messages);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("data");
    suite_test(s, csv_header_is_the_contract);
    suite_test(s, csv_escapes_and_leaves_unknowns_empty);
    suite_test(s, json_holds_the_contract);
    suite_test(s, json_turns_nan_and_infinity_to_null);
    suite_test(s, json_strings);
    suite_test(s, state_json);
    suite_test(s, messages_json);
    suite_test(s, no_messages_are_an_empty_array);
    return suite_run(s, NULL);
}
