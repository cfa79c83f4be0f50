#include "exchange/workbook/number_format.hpp"
#include "catch.hpp"

#include <string>

using namespace inkturn;

namespace {

std::string shown(double number, const char* code, bool from_1904 = false) {
    return NumberFormat(code).text(number, from_1904).value_or("no day");
}

std::string shown_by(unsigned id, double number) {
    return NumberFormat::built_in(id).text(number, false).value_or("no day");
}

} // namespace

TEST_CASE("a number without a format is written with all of its digits") {
    CHECK(shown(4, "General") == "4");
    CHECK(shown(2.5, "General") == "2.5");
    CHECK(shown(0.1 + 0.2, "General") == "0.3"); // spreadsheets keep 15 digits
    CHECK(shown(123456789012, "General") == "123456789012");
    CHECK(shown(-3, "General") == "-3");
    CHECK(shown(-0.0, "General") == "0");
    CHECK(shown(1e20, "General") == "1e+20");
}

TEST_CASE("the zeros and letters of a code are kept") {
    CHECK(shown(12, "0000") == "0012");
    CHECK(shown(12345, "0000") == "12345");
    CHECK(shown(7, "\"K\"00") == "K07");
    CHECK(shown(7, "\\K00") == "K07");
    CHECK(shown(7, "[Red]\\K00;[Blue]\\K00") == "K07");
    CHECK(shown(7, "\"64137/\"0000") == "64137/0007");
    CHECK(shown(7, "000\"A\"") == "007A");
    CHECK(shown(7, "\"K\"General") == "K7");
}

TEST_CASE("what a format only decorates, groups or rounds leaves the number as it is") {
    CHECK(shown(4, "0\" marks\"") == "4");
    CHECK(shown(4, "0.00") == "4");
    CHECK(shown(4.5, "0") == "4.5");
    CHECK(shown(1.1, "0.00") == "1.10");
    CHECK(shown(1.125, "0.00") == "1.125");
    CHECK(shown(1234, "#,##0") == "1234");
    CHECK(shown(12, "[$\xC2\xA3-809]0") == "12");
    CHECK(shown(12, "0.00E+00") == "12");
    CHECK(shown(0.5, "# ?/?") == "0.5");
    CHECK(shown(4, "[>3]0;0000") == "4");
    CHECK(shown(-7, "0000") == "-7");
    // An accounting format shows nought as a dash, which would say that it was not tried.
    CHECK(shown(0, "_-* #,##0_-;-* #,##0_-;_-* \"-\"??_-;_-@_-") == "0");
}

TEST_CASE("a percentage is written as one, with all of its digits") {
    CHECK(shown(0.75, "0%") == "75%");
    CHECK(shown(0.755, "0%") == "75.5%");
    CHECK(shown_by(9, 0.07) == "7%");
}

TEST_CASE("[reference] ECMA-376 part 1, 18.17.4.1: serial numbers of days in both calendars") {
    CHECK(shown(1, "yyyy-mm-dd") == "1900-01-01");
    CHECK(shown(59, "yyyy-mm-dd") == "1900-02-28");
    CHECK(shown(60, "yyyy-mm-dd") == "1900-02-29"); // as that calendar has it; no date of ours
    CHECK(shown(61, "yyyy-mm-dd") == "1900-03-01");
    CHECK(shown(2958465, "yyyy-mm-dd") == "9999-12-31");
    CHECK(shown(2958466, "yyyy-mm-dd") == "no day");
    CHECK(shown(0, "yyyy-mm-dd", true) == "1904-01-01");
    CHECK(shown(46336 - 1462, "yyyy-mm-dd", true) == shown(46336, "yyyy-mm-dd"));
    CHECK(shown(46336, "yyyy-mm-dd") == "2026-11-10");
}

TEST_CASE("days are told from times by the letters of the format") {
    CHECK(shown(46336.5, "d mmm") == "2026-11-10");
    CHECK(shown(46336, "[$-809]dddd, d mmmm yyyy;@") == "2026-11-10");
    CHECK(shown(46336, "mmm") == "2026-11-10");
    CHECK(shown(46336.5, "dd/mm/yyyy hh:mm") == "2026-11-10T12:00");
    CHECK(shown(46336, "dd/mm/yyyy hh:mm") == "2026-11-10");
    CHECK(shown(46336.999999999, "dd/mm/yyyy hh:mm") == "2026-11-11");
    CHECK(shown(0.5, "h:mm AM/PM") == "12:00");
    CHECK(shown(0.50001, "mm:ss") == "12:00:01");
    CHECK(shown(1.25, "[h]:mm") == "30:00");
    CHECK(shown(4, "\"days\" 0") == "days 4"); // quoted letters are no date
    CHECK(shown(4, "[Red]0") == "4");
    for (const unsigned id : {14u, 15u, 16u, 17u, 22u})
        CHECK(shown_by(id, 46336) == "2026-11-10");
    for (const unsigned id : {18u, 19u, 20u, 21u, 45u, 46u, 47u})
        CHECK(shown_by(id, 0.5) == "12:00");
}

TEST_CASE("a number that is no day is not made one") {
    CHECK(shown(-1, "yyyy-mm-dd") == "no day");
    CHECK(shown(0, "yyyy-mm-dd") == "no day");
    CHECK(shown(-1, "h:mm") == "no day");
}

TEST_CASE("a format's code that breaks off is read as far as it goes") {
    for (const char* code : {"\"K", "\\", "_", "*", "[", "[h", "0\"", ";", ""})
        CHECK_NOTHROW(shown(7, code));
    CHECK(shown(7, "00\"") == "07");
}

TEST_CASE("what is shown is taken only if it says the same number") {
    CHECK(shown_or_plain(12, "0012") == "0012");
    CHECK(shown_or_plain(7, "  K07 ") == "K07");
    CHECK(shown_or_plain(1000, "1,000") == "1000");
    CHECK(shown_or_plain(4, "4,00") == "4");
    CHECK(shown_or_plain(0, "0.00") == "0");
    CHECK(shown_or_plain(0, "-") == "0");
    CHECK(shown_or_plain(1.1, "1,10") == "1.10");
    CHECK(shown_or_plain(4.5, "5") == "4.5");
    CHECK(shown_or_plain(12, "###") == "12");
    CHECK(shown_or_plain(12, "") == "12");
}

TEST_CASE("a number is read as XML writes it, and nothing else is one") {
    CHECK(read_xml_number("4") == 4.0);
    CHECK(read_xml_number("+4.50") == 4.5);
    CHECK(read_xml_number("1E3") == 1000.0);
    for (const char* text : {"", "x", "4x", " 4", "NaN", "INF", "inf", "1e999", "0x10", "4,5"})
        CHECK_FALSE(read_xml_number(text));
}
