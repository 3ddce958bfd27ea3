// SPDX-License-Identifier: GPL-3.0-or-later
// Units and numbers as text. Expected factors are definitions: inch 25.4 mm, foot 0.3048 m, fathom
// 6 ft, nautical mile 1852 m, pound 0.45359237 kg, standard gravity 9.80665 m/s2.
#include "base/codes.h"
#include "base/number.h"
#include "base/units.h"
#include "support/suite.h"

#include <float.h>
#include <locale.h>
#include <stdint.h>
#include <string.h>

static double read_as(const char *text, bys_dim dim)
{
    double value = NAN;
    bys_text why = {0};
    int code = bys_quantity_read(&value, text, dim, &why);
    ck_assert_msg(code == 0, "\"%s\" gives E%04d %s", text, code, why.data);
    bys_text_free(&why);
    return value;
}

// The message number; the words must hold `part`.
static int refuse(const char *text, bys_dim dim, const char *part)
{
    double value = 7;
    bys_text why = {0};
    int code = bys_quantity_read(&value, text, dim, &why);
    ck_assert_msg(code != 0, "\"%s\" was read as %g", text, value);
    ck_assert_msg(why.data && strstr(why.data, part), "\"%s\": \"%s\" lacks \"%s\"", text, why.data,
                  part);
    bys_text_free(&why);
    return code;
}

START_TEST(trade_spellings)
{
    expect_close(read_as("55 m", BYS_DIM_LENGTH), 55, 0);
    expect_close(read_as(" 55m ", BYS_DIM_LENGTH), 55, 0);
    expect_close(read_as("28 mm", BYS_DIM_LENGTH), 0.028, 1e-15);
    expect_close(read_as("90 ft", BYS_DIM_LENGTH), 27.432, 1e-15); // a shot of chain, 15 fathoms
    expect_close(read_as("15 fathoms", BYS_DIM_LENGTH), 27.432, 1e-15);
    expect_close(read_as("1 fathom", BYS_DIM_LENGTH), 1.8288, 1e-15);
    expect_close(read_as("0.75 in", BYS_DIM_LENGTH), 0.01905, 1e-15);
    expect_close(read_as("3 t", BYS_DIM_MASS), 3000, 0);
    expect_close(read_as("10000 lb", BYS_DIM_MASS), 4535.9237, 1e-15);
    expect_close(read_as("3 tf", BYS_DIM_FORCE), 29419.95, 1e-15);
    expect_close(read_as("520 kgf", BYS_DIM_FORCE), 5099.458, 1e-15);
    expect_close(read_as("1 lbf", BYS_DIM_FORCE), 4.4482216152605, 1e-14);
    expect_close(read_as("1.5 MN", BYS_DIM_FORCE), 1.5e6, 0);
    expect_close(read_as("3 kn", BYS_DIM_SPEED), 1.5433333333333333, 1e-15);
    expect_close(read_as("90 km/h", BYS_DIM_SPEED), 25, 1e-15);
    expect_close(read_as("180 deg", BYS_DIM_ANGLE), 3.14159265358979324, 1e-15);
    expect_close(read_as("-22.5 deg", BYS_DIM_ANGLE), -0.39269908169872414, 1e-15);
    expect_close(read_as("55 l", BYS_DIM_VOLUME), 0.055, 1e-15);
    expect_close(read_as("55 L", BYS_DIM_VOLUME), 0.055, 1e-15);
    expect_close(read_as("35.5 kg/100m", BYS_DIM_MASS_PER_LENGTH), 0.355, 1e-15);
    expect_close(read_as("10 min", BYS_DIM_TIME), 600, 0);
    expect_close(read_as("50 yr", BYS_DIM_YEARS), 50, 0);
    expect_close(read_as("4 kPa", BYS_DIM_PRESSURE), 4000, 0);
    expect_close(read_as("9 kN/m3", BYS_DIM_UNIT_WEIGHT), 9000, 0);
    expect_close(read_as("25 %", BYS_DIM_FRACTION), 0.25, 1e-15);
    expect_close(read_as("0.25", BYS_DIM_FRACTION), 0.25, 0);
    expect_close(read_as("1.5e3 kg/m3", BYS_DIM_DENSITY), 1500, 0);
    expect_close(read_as(".5 m", BYS_DIM_LENGTH), 0.5, 0);
    expect_close(read_as("5. m", BYS_DIM_LENGTH), 5, 0);
}
END_TEST

START_TEST(refusals)
{
    ck_assert_int_eq(refuse("55", BYS_DIM_LENGTH, "no unit"), BYS_M_no_unit);
    ck_assert_int_eq(refuse("5,5 m", BYS_DIM_LENGTH, "point as in 5.5"), BYS_M_comma);
    ck_assert_int_eq(refuse("1,000 m", BYS_DIM_LENGTH, "thousands"), BYS_M_comma);
    ck_assert_int_eq(refuse("1 000 m", BYS_DIM_LENGTH, "gap"), BYS_M_number);
    ck_assert_int_eq(refuse("5 metre", BYS_DIM_LENGTH, "\"metre\""), BYS_M_unknown_unit);
    ck_assert_int_eq(refuse("5 KN", BYS_DIM_FORCE, "did you mean kN?"), BYS_M_unknown_unit);
    ck_assert_int_eq(refuse("5 kN", BYS_DIM_SPEED, "kN is kilonewton, kn is knot"),
                     BYS_M_wrong_dimension);
    ck_assert_int_eq(refuse("5 kn", BYS_DIM_FORCE, "kn is knot, kN is kilonewton"),
                     BYS_M_wrong_dimension);
    ck_assert_int_eq(refuse("5 s", BYS_DIM_LENGTH, "is a time (second); a length"),
                     BYS_M_wrong_dimension);
    ck_assert_int_eq(refuse("3 t", BYS_DIM_FORCE, "\"3 tf\" or \"29.42 kN\""), BYS_M_mass_force);
    ck_assert_int_eq(refuse("20 kN", BYS_DIM_MASS, "\"2039 kg\""), BYS_M_mass_force);
    ck_assert_int_eq(refuse("520 kgf", BYS_DIM_MASS, "\"520 kg\""), BYS_M_mass_force);
    ck_assert_int_eq(refuse("5 N/m", BYS_DIM_MASS_PER_LENGTH, "kg/m"), BYS_M_mass_force);
    ck_assert_int_eq(refuse("9 kN/m3", BYS_DIM_DENSITY, "917.7 kg/m3"), BYS_M_mass_force);
    ck_assert_int_eq(refuse("", BYS_DIM_LENGTH, "empty"), BYS_M_number);
    ck_assert_int_eq(refuse("  ", BYS_DIM_LENGTH, "empty"), BYS_M_number);
    ck_assert_int_eq(refuse("m", BYS_DIM_LENGTH, "number"), BYS_M_number);
    ck_assert_int_eq(refuse("nan m", BYS_DIM_LENGTH, "number"), BYS_M_number);
    ck_assert_int_eq(refuse("inf m", BYS_DIM_LENGTH, "number"), BYS_M_number);
    ck_assert_int_eq(refuse("0x10 m", BYS_DIM_LENGTH, "x10"), BYS_M_unknown_unit);
    ck_assert_int_eq(refuse("1e999 m", BYS_DIM_LENGTH, "large"), BYS_M_number);
    ck_assert_int_eq(refuse("- 5 m", BYS_DIM_LENGTH, "number"), BYS_M_number);
    ck_assert_int_eq(refuse(". m", BYS_DIM_LENGTH, "number"), BYS_M_number);
    ck_assert_int_eq(refuse("50 percent", BYS_DIM_FRACTION, "percent"), BYS_M_unknown_unit);
}
END_TEST

START_TEST(table_is_sound)
{
    for (size_t i = 0; i < bys_unit_count(); i++) {
        const bys_unit *a = bys_unit_at(i);
        ck_assert(bys_unit_find(a->name, strlen(a->name)) == a); // each spelling has one meaning
        ck_assert(a->factor > 0);
    }
    for (int dim = 0; dim < BYS_DIM_COUNT; dim++) {
        bys_text list = {0};
        bys_dim_spellings(&list, (bys_dim)dim);
        ck_assert_msg(list.length > 0, "%s has no unit", bys_dim_name((bys_dim)dim));
        bys_text_free(&list);
    }
    ck_assert_ptr_null(bys_unit_find("shot", 4));
    ck_assert_ptr_null(bys_unit_at(bys_unit_count()));
}
END_TEST

static const char *shortest(double value)
{
    static char text[BYS_NUMBER_SIZE];
    return bys_number_shortest(text, value);
}

START_TEST(shortest_numbers)
{
    ck_assert_str_eq(shortest(0.1), "0.1");
    ck_assert_str_eq(shortest(0.1 + 0.2), "0.30000000000000004");
    ck_assert_str_eq(shortest(-0.0), "0");
    ck_assert_str_eq(shortest(100), "100");
    ck_assert_str_eq(shortest(-12.5), "-12.5");
    ck_assert_str_eq(shortest(1e16), "10000000000000000");
    ck_assert_str_eq(shortest(1e17), "1e17");
    ck_assert_str_eq(shortest(0.00001), "0.00001");
    ck_assert_str_eq(shortest(0.000001), "1e-6");
    ck_assert_str_eq(shortest(5e-324), "5e-324");
    ck_assert_str_eq(shortest(DBL_MAX), "1.7976931348623157e308");
    ck_assert_str_eq(shortest(NAN), "null");
    ck_assert_str_eq(shortest(-INFINITY), "null");
}
END_TEST

START_TEST(numbers_survive_the_way_there_and_back)
{
    uint64_t state = 88172645463325252u; // xorshift
    for (int i = 0; i < 200000; i++) {
        state ^= state << 13, state ^= state >> 7, state ^= state << 17;
        double value, back = 0;
        memcpy(&value, &state, sizeof value);
        if (!isfinite(value))
            continue;
        size_t used;
        const char *text = shortest(value);
        ck_assert_msg(bys_number_read(&back, &used, text) && used == strlen(text), "%s", text);
        ck_assert_msg(back == value, "%s is not %.17g", text, value);
    }
}
END_TEST

// With a decimal comma in the locale, if the machine has such a locale.
START_TEST(locale_changes_nothing)
{
    static const char *const names[] = {"de_DE.UTF-8", "de_DE.utf8", "fr_FR.UTF-8", "nb_NO.UTF-8",
                                        "de_DE", "da_DK.UTF-8", "C.UTF-8"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        if (setlocale(LC_ALL, names[i]) && strcmp(localeconv()->decimal_point, ",") == 0)
            break;
    bys_text text = {0};
    bys_text_addf(&text, "%.2f ", 1234.5);
    bys_text_add_double(&text, 1234.5);
    bys_text_add(&text, " ");
    bys_text_add_fixed(&text, 1234.5, 1);
    ck_assert_str_eq(text.data, "1234.50 1234.5 1234.5");
    bys_text_free(&text);
    expect_close(read_as("1234.5 m", BYS_DIM_LENGTH), 1234.5, 0);
    refuse("1234,5 m", BYS_DIM_LENGTH, "comma");
}
END_TEST

int main(void)
{
    Suite *s = suite_create("units");
    suite_test(s, trade_spellings);
    suite_test(s, refusals);
    suite_test(s, table_is_sound);
    suite_test(s, shortest_numbers);
    suite_test(s, numbers_survive_the_way_there_and_back);
    suite_test(s, locale_changes_nothing);
    return suite_run(s, NULL);
}
