// SPDX-License-Identifier: GPL-3.0-or-later
// Cells, wrapping, and room for labels.
#include "support/suite.h"

#include "write/layout.h"
#include "write/plan.h"
#include "write/utf8.h"

#include <string.h>

START_TEST(cells)
{
    static const struct {
        const char *in;
        int width;
        bool right;
        const char *out;
    } table[] = {
        {"ab", 4, false, "ab  "},          {"ab", 4, true, "  ab"},
        {"abcdef", 4, false, "abc\xE2\x80\xA6"}, {"", 3, false, "   "},
        {"\xC3\xA9t\xC3\xA9", 4, true, " \xC3\xA9t\xC3\xA9"}, {"a\x1b[31m", 6, false, "a [31m"},
        {"a\xFF", 3, false, "a? "},
    };
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        bys_text text = {0};
        bys_text_add(&text, "");
        bys_layout_cell(&text, table[i].in, table[i].width, table[i].right);
        ck_assert_str_eq(text.data, table[i].out);
        bys_text_free(&text);
    }
}
END_TEST

START_TEST(wrapping)
{
    bys_text text = {0};
    bys_layout_wrap(&text, "one two three  four\nfive", 12, "- ", "  ");
    ck_assert_str_eq(text.data, "- one two\n  three four\n  five\n");
    bys_text_free(&text);
    bys_layout_wrap(&text, "averylongwordthatfitsnowhere", 10, "", "");
    ck_assert_str_eq(text.data, "averylongwordthatfitsnowhere\n"); // a word is never broken
    bys_text_free(&text);
}
END_TEST

START_TEST(utf8_lengths)
{
    ck_assert_uint_eq(bys_utf8_length("a"), 1);
    ck_assert_uint_eq(bys_utf8_length("\xC3\xA9"), 2);
    ck_assert_uint_eq(bys_utf8_length("\xF4\x8F\xBF\xBF"), 4); // U+10FFFF
    ck_assert_uint_eq(bys_utf8_length("\xF4\x90\x80\x80"), 0); // one past it
    ck_assert_uint_eq(bys_utf8_length("\xE0\x80\x80"), 0);     // overlong
    ck_assert_uint_eq(bys_utf8_length("\xC3"), 0);
    ck_assert_uint_eq(bys_utf8_count("\xC3\xA9\xFF z"), 4);
}
END_TEST

// Whatever is asked, no two labels overlap and none leaves the drawing.
START_TEST(labels_never_overlap)
{
    bys_plan_room room = {.width = 400.0, .height = 300.0};
    int placed = 0;
    for (int i = 0; i < 200; i++) {
        const double at[2] = {20.0 + (i * 37) % 360, 20.0 + (i * 53) % 260};
        const double out[2] = {i % 2 ? 0.6 : -0.6, i % 3 ? 0.8 : -0.8};
        double middle[2];
        bool far;
        placed += bys_plan_room_place(&room, at, out, 40.0, 26.0, middle, &far);
    }
    ck_assert_int_eq(placed, room.box_count);
    ck_assert_int_gt(placed, 30);
    for (int i = 0; i < room.box_count; i++) {
        const bys_plan_box *a = &room.boxes[i];
        ck_assert(a->u0 >= 0.0 && a->v0 >= 0.0 && a->u1 <= 400.0 && a->v1 <= 300.0);
        for (int k = 0; k < i; k++) {
            const bys_plan_box *b = &room.boxes[k];
            ck_assert(!(a->u0 < b->u1 && b->u0 < a->u1 && a->v0 < b->v1 && b->v0 < a->v1));
        }
    }
    bys_plan_room_free(&room);
}
END_TEST

// A label keeps off a line where there is room beside it.
START_TEST(labels_keep_off_lines)
{
    bys_plan_room room = {.width = 400.0, .height = 300.0};
    const double at[2] = {200.0, 150.0}, out[2] = {0.0, -1.0}, top[2] = {200.0, 0.0};
    double middle[2];
    bool far;
    bys_plan_room_stroke(&room, at, top);
    ck_assert(bys_plan_room_place(&room, at, out, 40.0, 26.0, middle, &far));
    ck_assert(fabs(middle[0] - 200.0) >= 20.0);
    bys_plan_room_free(&room);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("layout");
    suite_test(s, cells);
    suite_test(s, wrapping);
    suite_test(s, utf8_lengths);
    suite_test(s, labels_never_overlap);
    suite_test(s, labels_keep_off_lines);
    return suite_run(s, NULL);
}
