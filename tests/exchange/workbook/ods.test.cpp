#include "catch.hpp"
#include "exchange/workbook/books.hpp"

#include <string>
#include <vector>

using namespace inkturn;
using namespace inkturn::test;
using Cells = std::vector<std::string>;

namespace {

std::string row(const std::string& cells) {
    return "<table:table-row>" + cells + "</table:table-row>";
}

std::string cell(const std::string& attributes, const std::string& shown = "") {
    return "<table:table-cell " + attributes + ">" + (shown.empty() ? "" : "<text:p>" + shown + "</text:p>") +
           "</table:table-cell>";
}

std::string number(const std::string& value, const std::string& shown) {
    return cell("office:value-type='float' office:value='" + value + "'", shown);
}

} // namespace

TEST_CASE("an .ods cell is read by its type, and numbers as they are shown where that loses nothing") {
    CHECK(cells_of_ods(row(number("12", "0012") + number("4.5", "5") + number("7", "K07") +
                           number("1.1", "1,10") +
                           cell("office:value-type='percentage' office:value='0.755'", "76 %") +
                           cell("office:value-type='currency' office:value='4'", "4,00 €") +
                           cell("office:value-type='boolean' office:boolean-value='true'", "WAHR") +
                           cell("office:value-type='string'", "007") +
                           cell("office:value-type='string' office:string-value='unseen'"))) ==
          Cells{"A1=0012", "B1=4.5", "C1=K07", "D1=1.10", "E1=75.5%", "F1=4", "G1=TRUE", "H1=007",
                "I1=unseen"});
}

TEST_CASE("an .ods day is ISO, with a time only where one is shown") {
    const auto day = [](const std::string& value, const std::string& shown) {
        return cell("office:value-type='date' office:date-value='" + value + "'", shown);
    };
    CHECK(cells_of_ods(row(day("2026-11-10", "10/11/26") + day("2026-11-10T00:00:00", "10/11/26 00:00") +
                           day("2026-11-10T09:30:00", "10/11/26 09:30") +
                           day("2026-11-10T09:30:15.5", "10 Nov 09:30:15") +
                           day("2026-11-10T09:30:00", "10 Nov") +
                           cell("office:value-type='time' office:time-value='PT09H30M00S'", "9:30") +
                           cell("office:value-type='time' office:time-value='PT26H05M07.5S'", "2:05") +
                           cell("office:value-type='time' office:time-value='-PT1H'", "x"))) ==
          Cells{"A1=2026-11-10", "B1=2026-11-10", "C1=2026-11-10T09:30", "D1=2026-11-10T09:30:15",
                "E1=2026-11-10", "F1=09:30", "G1=26:05:07", "H1!-PT1H"});
}

TEST_CASE("repeated and covered cells keep their places") {
    CHECK(cells_of_ods(
              row("<table:table-cell table:number-columns-repeated='2'/>" + number("1", "1") +
                  "<table:covered-table-cell table:number-columns-repeated='3'><text:p>under</text:p>"
                  "</table:covered-table-cell>" +
                  cell("table:number-columns-repeated='2' office:value-type='string'", "x")) +
              "<table:table-row table:number-rows-repeated='5'><table:table-cell/></table:table-row>"
              "<table:table-row-group><table:table-header-rows><table:table-row "
              "table:number-rows-repeated='2'>" +
              number("3", "3") + "</table:table-row></table:table-header-rows></table:table-row-group>") ==
          Cells{"C1=1", "G1=x", "H1=x", "A7=3", "A8=3"});
}

TEST_CASE("a million rows of a thousand empty cells cost nothing") {
    CHECK(cells_of_ods("<table:table-row table:number-rows-repeated='1000000'><table:table-cell "
                       "table:number-columns-repeated='1000'/></table:table-row>" +
                       row(number("1", "1"))) == Cells{"A1000001=1"});
}

TEST_CASE("the text of an .ods cell has its blanks, tabs, breaks and paragraphs") {
    CHECK(cells_of_ods(row(cell("office:value-type='string'",
                                "  a\n  b<text:s text:c='2'/>c<text:tab/>d<text:line-break/> e<text:span>f"
                                "<text:a>g</text:a></text:span></text:p><text:p>h<text:s/>"))) ==
          Cells{"A1=a b  c\td\nefg\nh "});
}

TEST_CASE("remarks, notes, drawings and changes are no content") {
    const std::string remark = "<office:annotation><text:p>remark</text:p></office:annotation>";
    CHECK(cells_of_ods(
              "<table:shapes><draw:frame><text:p>drawn</text:p></draw:frame></table:shapes>" +
              row("<table:table-cell office:value-type='string'>" + remark +
                  "<draw:frame><table:table><table:table-row><table:table-cell "
                  "office:value-type='string'><text:p>deep</text:p></table:table-cell></table:table-row>"
                  "</table:table></draw:frame><text:p>K07<text:note><text:p>foot</text:p></text:note>"
                  "</text:p></table:table-cell><table:table-cell>" +
                  remark + "</table:table-cell>")) == Cells{"A1=K07"});
    CHECK(cells_of(ods_parts("<table:tracked-changes><table:deletion><table:table-cell "
                             "office:value-type='float' office:value='9'/></table:deletion>"
                             "</table:tracked-changes>" +
                             ods_table(row(number("1", "1"))) + "<table:named-expressions/>")) ==
          Cells{"A1=1"});
}

TEST_CASE("an .ods formula that came to nothing is an error, and one without a value is no empty cell") {
    CHECK(cells_of_ods(
              row(cell("table:formula='of:=1/0' office:value-type='string' "
                       "office:string-value='' calcext:value-type='error'",
                       "#DIV/0!") +
                  cell("table:formula='of:=1/0' office:value-type='float' office:value='0'", "#DIV/0!") +
                  cell("table:formula='of:=[.Z1]' office:value-type='string' office:string-value='Err:502'",
                       "Err:502") +
                  cell("table:formula='of:=1+1'") +
                  cell("table:formula='of:=\"\"' office:value-type='string' office:string-value=''") +
                  cell("table:formula='of:=1+1' office:value-type='float' office:value='2'", "2") +
                  cell("office:value-type='string'", "#N/A"))) ==
          Cells{"A1!#DIV/0!", "B1!#DIV/0!", "C1!Err:502", "D1!", "F1=2", "G1=#N/A"});
}
