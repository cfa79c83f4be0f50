#include "catch.hpp"
#include "exchange/workbook/books.hpp"

#include <string>
#include <vector>

using namespace inkturn;
using namespace inkturn::test;
using Cells = std::vector<std::string>;

TEST_CASE("a cell's column is named by letters") {
    CHECK(cell_name(7, 2) == "B7");
    CHECK(cell_name(1, 26) == "Z1");
    CHECK(cell_name(1, 27) == "AA1");
    CHECK(cell_name(1, 702) == "ZZ1");
    CHECK(cell_name(1, 703) == "AAA1");
    CHECK(cell_name(1'048'576, 16'384) == "XFD1048576");
}

TEST_CASE("an .xlsx cell is read by its type") {
    CHECK(
        cells_of_xlsx("<row r='2'><c r='B2'><v>4</v></c><c r='C2' t='b'><v>1</v></c>"
                      "<c r='D2' t='str'><f>A1</f><v>told</v></c>"
                      "<c r='E2' t='inlineStr'><is><t>in</t></is></c><c r='F2' t='e'><v>#N/A</v></c>"
                      "<c r='G2' t='d'><v>2026-11-10T00:00:00</v></c><c r='H2' t='n'><v>0.5</v></c></row>") ==
        Cells{"B2=4", "C2=TRUE", "D2=told", "E2=in", "F2!#N/A", "G2=2026-11-10", "H2=0.5"});
}

TEST_CASE("rows and cells without a place follow those before them") {
    CHECK(cells_of_xlsx("<row><c><v>1</v></c><c><v>2</v></c></row><row/><row><c><v>3</v></c></row>"
                        "<row r='9'><c r='D9'><v>4</v></c><c><v>5</v></c></row>") ==
          Cells{"A1=1", "B1=2", "A3=3", "D9=4", "E9=5"});
}

TEST_CASE("cells that are out of order are put into it") {
    CHECK(cells_of_xlsx("<row r='2'><c r='B2'><v>4</v></c><c r='A2'><v>3</v></c></row>"
                        "<row r='1'><c r='C1'><v>2</v></c></row>") == Cells{"C1=2", "A2=3", "B2=4"});
}

TEST_CASE("shared texts are put together from their runs, without how they are read aloud") {
    CHECK(
        cells_of_xlsx("<row><c t='s'><v>0</v></c><c t='s'><v>1</v></c><c t='s'><v>2</v></c></row>", "",
                      "<si><t>plain</t></si>"
                      "<si><r><rPr><b/></rPr><t>K</t></r><r><t xml:space='preserve'>0 </t></r><r><t>7</t></r>"
                      "<rPh sb='0' eb='1'><t>kay</t></rPh></si>"
                      "<si><t>a_x000A_b_x005F_x000A_ _x00_</t></si>") ==
        Cells{"A1=plain", "B1=K0 7", "C1=a\nb_x000A_ _x00_"});
}

TEST_CASE("an .xlsx number is shown by the format of its style") {
    const std::string styles = "<numFmts><numFmt numFmtId='164' formatCode='0000'/>"
                               "<numFmt numFmtId='165' formatCode='dd/mm/yyyy'/></numFmts>"
                               "<cellStyleXfs><xf numFmtId='14'/></cellStyleXfs>"
                               "<cellXfs><xf numFmtId='0'/><xf numFmtId='164'/><xf numFmtId='165'/>"
                               "<xf numFmtId='14'/><xf numFmtId='9'/></cellXfs>";
    const std::string rows = "<row><c s='0'><v>12</v></c><c s='1'><v>12</v></c><c s='2'><v>46336</v></c>"
                             "<c s='3'><v>46336</v></c><c s='4'><v>0.25</v></c><c s='77'><v>3</v></c></row>";
    CHECK(cells_of_xlsx(rows, styles) ==
          Cells{"A1=12", "B1=0012", "C1=2026-11-10", "D1=2026-11-10", "E1=25%", "F1=3"});
    CHECK(cells_of_xlsx("<row><c s='2'><v>44874</v></c></row>", styles, "", "<workbookPr date1904='1'/>") ==
          Cells{"A1=2026-11-10"});
    CHECK(cells_of_xlsx("<row><c s='2'><v>-1</v></c></row>", styles) == Cells{"A1!-1"});
}

TEST_CASE("a formula has the value that was saved with it, and without one is no empty cell") {
    CHECK(cells_of_xlsx("<row><c><f>1+1</f><v>2</v></c><c><f>1+1</f></c><c><f>1+1</f><v/></c>"
                        "<c t='str'><f>\"\"</f><v></v></c></row>") == Cells{"A1=2", "B1!", "C1!"});
}

TEST_CASE("cells with nothing that is seen are left out") {
    CHECK(cells_of_xlsx("<row><c/><c t='inlineStr'><is><t> \xC2\xA0</t></is></c><c s='1'><v></v></c>"
                        "<c><v>1</v></c></row>") == Cells{"D1=1"});
}

TEST_CASE("the strict form of .xlsx and one without shared texts and styles are read too") {
    std::vector<PackedPart> parts = xlsx_parts({{"Marks", "<row><c><v>1</v></c></row>"}});
    for (PackedPart& part : parts) {
        const std::string old = main_namespace;
        const std::size_t at = part.text.find(old);
        if (at != std::string::npos)
            part.text.replace(at, old.size(), "http://purl.oclc.org/ooxml/spreadsheetml/main");
        if (part.name == "xl/_rels/workbook.xml.rels") {
            part.text.replace(part.text.find("styles'"), 7, "styleless'");
            part.text.replace(part.text.find("sharedStrings'"), 14, "unshared'");
        }
    }
    CHECK(cells_of(parts) == Cells{"A1=1"});
}

TEST_CASE("elements of other namespaces are no cells") {
    CHECK(cells_of_xlsx("<row xmlns:x='urn:x'><x:c r='A1'><x:v>9</x:v></x:c><c r='B1'><v>1</v></c></row>") ==
          Cells{"B1=1"});
}
