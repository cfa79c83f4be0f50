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

TEST_CASE("a maximum is stated after a stroke or in square brackets, and nowhere else") {
    CHECK(stated_maximum("/4") == 4);
    CHECK(stated_maximum("[12]") == 12);
    for (const char* cell : {"", "4", "/", "[]", "[4", "(4)", "3/4", "[x]", "/-1"})
        CHECK_FALSE(stated_maximum(cell));
}

TEST_CASE("a remark says absent in a word of its own") {
    for (const char* remark : {"absent", "Absent (ill)", "was ABS", "ill, absence noted", "abs."})
        CHECK(says_absent(remark));
    for (const char* remark : {"", "A", "good", "absently", "absolute value", "labs"})
        CHECK_FALSE(says_absent(remark));
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
                [] { return "like 2,5"; });
        ProblemList problems;
        faults.report({"candidate", "4a"}, problems);
        CHECK(problems.count == (count == 3 ? 3 : 1));
        CHECK(problems.items[0].line == 3);
        CHECK(problems.items[0].message ==
              (count == 3 ? "marks '2,5'" : "4 cells under 4a like 2,5; first here"));
    }
}
