#include "exchange/class/class_cell.hpp"
#include "catch.hpp"

using namespace inkturn;

TEST_CASE("a cell of marks is read without what a spreadsheet adds") {
    CHECK(plain_cell(" 4 ") == "4");
    CHECK(plain_cell("\u00A04\u202F") == "4");
    CHECK(plain_cell("4.0") == "4");
    CHECK(plain_cell("4,00") == "4");
    CHECK(plain_cell("2.0 + 1 : Slip") == "2+1:slip");
    CHECK(plain_cell("\u2013") == "-");
    CHECK(plain_cell("\u2212") == "-");
    CHECK(plain_cell("Not-Set") == "not-set");
    CHECK(plain_cell("4.50") == "4.50");
    CHECK(plain_cell("4.") == "4.");
    CHECK(plain_cell("1.2.0") == "1.2.0");
}

TEST_CASE("marks that are not whole are told from those that are none") {
    for (const char* cell : {"2.5", "2,5", "0.25", "2\u00BD"})
        CHECK(is_fraction(plain_cell(cell)));
    for (const char* cell : {"2", "2.0", "x", "", "-", "2.5.1", ".5"})
        CHECK_FALSE(is_fraction(plain_cell(cell)));
}

TEST_CASE("absence is said in a few words, in any case") {
    for (const char* cell : {"abs", "ABSENT", "A", "N/A", "n/a", " Abs. "})
        CHECK(is_absence_word(plain_cell(cell)));
    for (const char* cell : {"", "-", "0", "B", "not-set"})
        CHECK_FALSE(is_absence_word(plain_cell(cell)));
}

TEST_CASE("up to three faults of a column are told one by one, more as one") {
    for (const std::size_t count : {3U, 4U}) {
        CellFaults faults;
        for (std::size_t i = 0; i < count; ++i)
            faults.add(
                1, CellFault::fraction,
                [&] {
                    return Problem{i + 3, 5, "marks '2,5'"};
                },
                [] { return "cells like 2,5"; });
        ProblemList problems;
        faults.report({"candidate", "4a"}, problems);
        CHECK(problems.count == (count == 3 ? 3 : 1));
        CHECK(problems.items[0].line == 3);
        CHECK(problems.items[0].message ==
              (count == 3 ? "marks '2,5'" : "column 4a: 4 cells like 2,5; first in line 3"));
    }
}
