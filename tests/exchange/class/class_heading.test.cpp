#include "exchange/class/class_heading.hpp"
#include "catch.hpp"

#include <string>
#include <vector>

using namespace inkturn;

TEST_CASE("a part's heading is read in its usual forms") {
    const std::vector<std::pair<std::string, std::string>> labels{
        {"7b", "7b"},         {"Q7 (b)(ii)", "7bii"}, {"Question 3", "3"}, {"2 b)", "2b"},
        {"4.b", "4b"},        {"Qu. 1(b)", "1b"},     {"Part 2", "2"},     {"Section A 3c", "A3c"},
        {"question3a", "3a"}, {"(2)(b)", "2b"},       {"1 marks", "1"},    {"\u00A07\u00A0b", "7b"}};
    for (const auto& [heading, label] : labels) {
        CAPTURE(heading);
        const ColumnHeading read = read_heading(heading);
        CHECK(read.kind == ColumnKind::part);
        CHECK(read.label == label);
        CHECK_FALSE(read.max);
    }
    for (const char* heading : {"1-2", "1 2", "4.1", "Locker", "7b-9"})
        CHECK(read_heading(heading).kind == ColumnKind::unknown);
}

TEST_CASE("a heading may state the maximum") {
    for (const char* heading : {"1a (4)", "1a/4", "1a /4", "1a [4]", "1a (4 marks)", "1a (/4)", "1a out of 4",
                                "1a [out of 4]", "Q1 (a) (4)"}) {
        CAPTURE(heading);
        const ColumnHeading read = read_heading(heading);
        CHECK(read.kind == ColumnKind::part);
        CHECK(read.label == "1a");
        CHECK(read.max == 4);
    }
    CHECK(read_heading("Total /25").kind == ColumnKind::total);
    CHECK(read_heading("Total /25").max == 25);
    CHECK_FALSE(read_heading("10").max);
    CHECK_FALSE(read_heading("1 (b)").max);
}

TEST_CASE("other headings are known for what they are") {
    const std::vector<std::pair<std::string, ColumnKind>> kinds{{"Candidate No.", ColumnKind::candidate},
                                                                {"Student", ColumnKind::candidate},
                                                                {"Cand. no.", ColumnKind::candidate},
                                                                {"Pupil ID", ColumnKind::candidate},
                                                                {"UCI", ColumnKind::person},
                                                                {"UPN", ColumnKind::person},
                                                                {"First name", ColumnKind::person},
                                                                {"Date", ColumnKind::date},
                                                                {"TOTALS", ColumnKind::total},
                                                                {"%", ColumnKind::remark},
                                                                {"Predicted grade", ColumnKind::remark},
                                                                {"Teacher comment", ColumnKind::remark},
                                                                {"Q1 total", ColumnKind::subtotal},
                                                                {"Total 1", ColumnKind::subtotal},
                                                                {"Section A total", ColumnKind::subtotal},
                                                                {" \u00A0", ColumnKind::blank}};
    for (const auto& [heading, kind] : kinds) {
        CAPTURE(heading);
        CHECK(read_heading(heading).kind == kind);
    }
    CHECK(read_heading("Section A total").label == "A");
    CHECK(read_heading("PURE-1: 2a").paper == "pure-1");
    CHECK(read_heading("PURE-1: 2a").label == "2a");
}

TEST_CASE("candidates are in the column of their codes, whatever else is named beside it") {
    CHECK(column_of_candidates({"Surname", "Forename", "UCI", "Cand No", "1"}) == 3);
    CHECK(column_of_candidates({"Pupil", "UPN", "1"}) == 1);
    CHECK(column_of_candidates({"Surname", "Name", "1"}) == 1);
    CHECK(column_of_candidates({"Student No", "candidate", "1"}) == 1);
    CHECK_FALSE(column_of_candidates({"Surname", "Forename", "1"}));
    CHECK(is_header_of_names_alone({"Surname", "Forename", "1"}));
    CHECK_FALSE(is_header_of_names_alone({"Surname", "Forename"}));
    CHECK_FALSE(is_class_header({"Surname", "Forename", "1"}));
}

TEST_CASE("rows that are no candidates' are known by their words") {
    for (const char* text : {"max", "MAXIMUM", "Out of:", " max "})
        CHECK(names_maxima(text));
    CHECK_FALSE(names_maxima("Maxine"));
    for (const char* text : {"Mean", "average:", "Highest", "Totals", "notes", "No. of entries", "%"})
        CHECK(names_no_candidate(text));
    CHECK_FALSE(names_no_candidate("K07"));
    CHECK_FALSE(names_no_candidate("Meanwhile"));
}
