#include "catch.hpp"
#include "exchange/workbook/books.hpp"
#include "refusal.hpp"

#include <string>
#include <vector>

using namespace inkturn;
using namespace inkturn::test;
using Cells = std::vector<std::string>;

namespace {

const std::string one = "<row><c><v>1</v></c></row>";
const std::string two = "<row><c><v>2</v></c></row>";
const std::string blank = "<row><c/></row>";

std::string refusal(const std::vector<PackedPart>& parts,
                    const std::optional<std::string>& name = std::nullopt) {
    return refusal_of([&] { cells_of(parts, name); });
}

std::string filled(const std::string& number) {
    return "<table:table-row><table:table-cell office:value-type='float' office:value='" + number +
           "'/></table:table-row>";
}

} // namespace

TEST_CASE("the only sheet with content is the one that is read") {
    CHECK(cells_of(xlsx_parts({{"Empty", ""}, {"Marks", two}, {"Blank", blank}})) == Cells{"A1=2"});
    CHECK(cells_of(ods_parts(ods_table("", "Empty") + ods_table(filled("2"), "Marks") +
                             ods_table("<table:table-row/>", "Blank"))) == Cells{"A1=2"});
}

TEST_CASE("of several sheets the one named is read") {
    CHECK(cells_of(xlsx_parts({{"Set 1", one}, {"Set 2", two}}), "Set 2") == Cells{"A1=2"});
    CHECK(cells_of(xlsx_parts({{"Set 1", one}, {"Empty", ""}}), "Empty").empty());
    CHECK(cells_of(ods_parts(ods_table(filled("1"), "Set 1") + ods_table(filled("2"), "Set 2")), "Set 2") ==
          Cells{"A1=2"});
    CHECK(cells_of(ods_parts(ods_table(filled("1"), "Set 1") + ods_table(filled("2"), "Set 2")), "Set 1") ==
          Cells{"A1=1"});
}

TEST_CASE("several sheets without a name are refused with a list of those with content") {
    const std::string expected =
        "the workbook has several sheets: say which with --sheet, one of 'Set 1' and 'Set 2'";
    CHECK(refusal(xlsx_parts({{"Set 1", one}, {"Empty", ""}, {"Set 2", two}})) == expected);
    CHECK(refusal(ods_parts(ods_table(filled("1"), "Set 1") + ods_table("", "Empty") +
                            ods_table(filled("2"), "Set 2"))) == expected);
}

TEST_CASE("a sheet that isn't there is refused with those that are") {
    CHECK(refusal(xlsx_parts({{"Set 1", one}, {"Set 2", two}}), "Notes") ==
          "the workbook has no sheet 'Notes'; it has 'Set 1' and 'Set 2'");
    CHECK(refusal(xlsx_parts({{"Set 1", one}, {"Totals", two}}), "totals") ==
          "the workbook has no sheet 'totals'; did you mean 'Totals'?");
}

TEST_CASE("a hidden sheet is read only if it is named") {
    const auto xlsx = xlsx_parts({{"Lists", one, "hidden"}, {"Marks", two}, {"Deep", one, "veryHidden"}});
    CHECK(cells_of(xlsx) == Cells{"A1=2"});
    CHECK(cells_of(xlsx, "Lists") == Cells{"A1=1"});
    const auto ods = ods_parts("<table:table table:name='Lists' table:style-name='ta1'>" + filled("1") +
                                   "</table:table>" + ods_table(filled("2")),
                               "<style:style style:name='ta1' style:family='table'>"
                               "<style:table-properties table:display='false'/></style:style>");
    CHECK(cells_of(ods) == Cells{"A1=2"});
    CHECK(cells_of(ods, "Lists") == Cells{"A1=1"});
    CHECK(refusal(xlsx_parts({{"Marks", ""}, {"Lists", one, "hidden"}})) ==
          "no sheet of the workbook has anything in it, but for hidden ones; it has 'Marks' and 'Lists' "
          "(hidden)");
}

TEST_CASE("a workbook without a sheet of cells is refused") {
    CHECK(refusal(xlsx_parts({})) == "the workbook has no sheet of cells");
    CHECK(refusal(ods_parts("")) == "the workbook has no sheet of cells");
}

TEST_CASE("of many sheets the first are listed and the rest counted") {
    std::vector<XlsxSheet> sheets;
    for (int i = 1; i <= 23; ++i)
        sheets.push_back({"S" + std::to_string(i), one});
    const std::string said = refusal(xlsx_parts(sheets));
    CHECK(said.find("'S20' and 3 more") != std::string::npos);
    CHECK(said.find("S21") == std::string::npos);
}
