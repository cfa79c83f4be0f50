#include "exchange/workbook/workbook_rows.hpp"
#include "catch.hpp"
#include "exchange/csv/paper.hpp"
#include "exchange/workbook/books.hpp"
#include "exchange/workbook/open_rows.hpp"
#include "problems.hpp"
#include "refusal.hpp"

#include <sstream>
#include <string>
#include <vector>

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Contains;
using Texts = std::vector<std::string>;

namespace {

std::string text_cell(const std::string& place, const std::string& text) {
    return "<c r='" + place + "' t='inlineStr'><is><t>" + text + "</t></is></c>";
}

std::string number_cell(const std::string& place, const std::string& number) {
    return "<c r='" + place + "'><v>" + number + "</v></c>";
}

std::string row(const std::string& cells) {
    return "<row>" + cells + "</row>";
}

/// The rows, each as `line: cell|cell`.
Texts rows_of(const std::string& bytes, const std::optional<std::string>& sheet = std::nullopt) {
    std::istringstream in(bytes);
    const auto rows = open_rows(in, {}, sheet);
    Texts texts;
    while (rows->next()) {
        texts.push_back(std::to_string(rows->line()) + ": ");
        for (std::size_t i = 0; i < rows->cells().size(); ++i)
            texts.back().append(i == 0 ? "" : "|").append(rows->cells()[i]);
    }
    return texts;
}

std::string book(const std::string& rows) {
    return packed(xlsx_parts({{"Marks", rows}}));
}

} // namespace

TEST_CASE("a sheet's rows go from its first column with content to its last one") {
    CHECK(rows_of(book(row(text_cell("C2", "part") + text_cell("E2", "marks")) +
                       row(text_cell("C5", "1") + number_cell("D5", "4")))) ==
          Texts{"2: part||marks", "5: 1|4|"});
}

TEST_CASE("a workbook is told from CSV by its first bytes") {
    CHECK(rows_of("part,marks\n1,4\n") == Texts{"1: part|marks", "2: 1|4"});
    CHECK(rows_of("PK,b\n") == Texts{"1: PK|b"});
    CHECK(rows_of("a") == Texts{"1: a"});
    CHECK(rows_of("").empty());
    CHECK_THAT(refusal_of([] { rows_of("a,b\n", "Marks"); }),
               Contains("--sheet names a sheet of a workbook"));
}

TEST_CASE("a workbook that can't be read is a problem with the file") {
    std::istringstream in("PK\x03\x04 and no more");
    const auto rows = open_rows(in, {}, std::nullopt);
    ProblemList problems;
    CHECK(read_paper_rows(*rows, problems).empty());
    REQUIRE(problems.count == 1);
    CHECK(problems.items[0].line == 0);
    CHECK_THAT(problems.items[0].message, Contains("the workbook is damaged"));
}

TEST_CASE("an empty sheet is refused, and one whose content lies too far apart") {
    CHECK_THAT(refusal_of([] { rows_of(book(""), "Marks"); }), Contains("the sheet is empty"));
    std::string far;
    for (int i = 1; i <= 1'221; ++i)
        far += row(number_cell("A" + std::to_string(i), "1") + number_cell("XFD" + std::to_string(i), "1"));
    CHECK_THAT(refusal_of([&] { rows_of(book(far)); }), Contains("1221 rows and out to XFD1"));
    const std::size_t a_row_less = far.rfind("<row>");
    CHECK(rows_of(book(far.substr(0, a_row_less))).size() == 1'220);
}

TEST_CASE("a paper is read from a workbook, and its problems name cells") {
    const auto paper = [](const std::string& rows, ProblemList& problems) {
        std::istringstream in(book(row(text_cell("B2", "Part") + text_cell("C2", "Marks")) + rows));
        const auto opened = open_rows(in, {}, std::nullopt);
        return read_paper_rows(*opened, problems);
    };
    ProblemList none;
    const auto parts = paper(row(number_cell("B3", "1") + number_cell("C3", "4")), none);
    REQUIRE(parts.size() == 1);
    CHECK(parts[0].max == Marks(4));
    CHECK(none.empty());

    ProblemList problems;
    paper(row(number_cell("B3", "1") + number_cell("C3", "x")), problems); // damaged: no cell is read
    CHECK(problems.count == 1);
    problems = {};
    paper(row(number_cell("B3", "1") + number_cell("C3", "4.5")) +
              row(number_cell("B4", "1") + "<c r='C4'><f>1+1</f></c>") +
              row("<c r='B5' t='e'><v>#REF!</v></c>" + number_cell("C5", "4")),
          problems);
    Texts said;
    for (const Problem& problem : problems.items)
        said.push_back(problem.cell + " " + problem.message);
    REQUIRE(said.size() == 4);
    CHECK_THAT(said[0], Contains("C3 part 1, marks '4.5'"));
    CHECK_THAT(said[1], Contains("B4 part 1 appears twice, first in row 3"));
    CHECK_THAT(said[2], Contains("C4 the formula here was saved without its value"));
    CHECK_THAT(said[3], Contains("B5 the cell shows #REF!: mend it or empty it"));
}

TEST_CASE("a problem with a row or the header names its first cell") {
    std::istringstream in(book(row(text_cell("B2", "marks"))));
    const auto opened = open_rows(in, {}, std::nullopt);
    ProblemList problems;
    read_paper_rows(*opened, problems);
    REQUIRE(problems.count == 1);
    CHECK(problems.items[0].cell == "B2");
    CHECK(opened->row_name(7) == "B7");
    CHECK(opened->row_name(0).empty());
}
