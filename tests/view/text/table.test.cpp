#include "view/text/table.hpp"

#include "catch.hpp"
#include "view/text/lines.hpp"
#include "view/text/text.hpp"

#include <string>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Align = Table::Align;

} // namespace

TEST_CASE("columns are aligned, two blanks apart, without blanks at the ends of lines") {
    Table table({{"part"}, {"max", Align::right}, {"reason"}});
    table.add_row({"7bii", "5", ""});
    table.add_row({"1", "12", "slip"});
    CHECK(text_of(table) == "part  max  reason\n"
                            "7bii    5\n"
                            "1      12  slip\n");
}

TEST_CASE("a table without rows is its titles") {
    CHECK(text_of(Table({{"a"}, {"b"}})) == "a  b\n");
}

TEST_CASE("columns that may be cut give way until the table fits 80 columns") {
    for (std::size_t length = 1; length < 200; length += 7) {
        Table table({{"id"},
                     {"topic", Align::left_may_be_cut},
                     {"marks", Align::right},
                     {"title", Align::left_may_be_cut}});
        table.add_row({"12q7", std::string(length, 't'), "5", std::string(200 - length, 'u')});
        table.add_row({"12q8", "surds", "10", "short"});
        for (const std::string& line : lines_of(table)) {
            CAPTURE(line);
            CHECK(line.size() <= Table::full_width);
        }
        CHECK(lines_of(table)[1].find("12q7") == 0);
    }
}

TEST_CASE("a table that fits is not cut") {
    Table table({{"id"}, {"topic", Align::left_may_be_cut}});
    table.add_row({"12q7", std::string(74, 't')});
    CHECK(lines_of(table)[1] == "12q7  " + std::string(74, 't'));
}

TEST_CASE("foreign text can't break out of its cell") {
    Table table({{"candidate"}, {"marks", Align::right}});
    table.add_row({"K\x1b[2J\n07", "5"});
    CHECK(lines_of(table).size() == 2);
    CHECK(lines_of(table)[1] == "K\\x1b[2J\\x0a07      5");
}

TEST_CASE("wide characters take their two columns in a table") {
    Table table({{"topic", Align::left_may_be_cut}, {"marks", Align::right}});
    std::string wide;
    for (int i = 0; i < 60; ++i)
        wide += "\xE6\x95\xB0";
    table.add_row({wide, "5"});
    table.add_row({"\xE6\x95\xB0", "12"});
    for (const std::string& line : lines_of(table)) {
        CAPTURE(line);
        CHECK(columns(line) == Table::full_width);
    }
}

TEST_CASE("a wrapped cell goes on below its own column") {
    Table table({{"day"}, {"asked", Align::right}, {"work", Align::left_wrapped}});
    table.add_row({"Mon", "10", std::string(40, 'a') + " " + std::string(40, 'b') + " c"});
    table.add_row({"Tue", "5", "d"});
    table.add_row({"Wed", "", ""});
    CHECK(text_of(table) == "day  asked  work\n"
                            "Mon     10  " +
                                std::string(40, 'a') + "\n" + std::string(12, ' ') + std::string(40, 'b') +
                                " c\nTue      5  d\nWed\n");
}

TEST_CASE("the items of a wrapped cell stay in one piece where a line has room for them") {
    Table table({{"work", Align::left_wrapped}});
    const std::string item = "relearn " + std::string(30, 'x') + " (1 of 2)";
    table.add_row({item + "; " + item + "; sit paper 3"});
    CHECK(text_of(table) == "work\n" + item + ";\n" + item + "; sit paper 3\n");
    Table retries({{"work", Align::left_wrapped}});
    retries.add_row({std::string(70, 'r') + " " + std::string(20, 's') + "; z"});
    CHECK(text_of(retries) == "work\n" + std::string(70, 'r') + "\n" + std::string(20, 's') + "; z\n");
}

TEST_CASE("on a narrow terminal a row whose cells would be cut short is a paragraph, its blanks single") {
    Table::set_width(40);
    Table table(
        {{"set", Align::left_may_be_cut}, {"in time"}, {"unaided"}, {"hardest", Align::left_may_be_cut}});
    table.add_row({"A", "0 of 3   -13", "0 of 3   -13", "guess: spring, three marks harder than it was"});
    const std::string text = text_of(table);
    Table::set_width(Table::full_width);
    CHECK(text == "A\n  in time: 0 of 3 -13,\n  unaided: 0 of 3 -13, hardest: guess:\n"
                  "  spring, three marks harder than it was\n");
}
