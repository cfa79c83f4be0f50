#include "catch.hpp"
#include "exchange/workbook/books.hpp"
#include "refusal.hpp"

#include <string>
#include <vector>

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace {

const std::string one = "<row><c><v>1</v></c></row>";

std::string refusal(const std::vector<PackedPart>& parts, const WorkbookLimits& limits = {}) {
    return refusal_of([&] { cells_of(parts, std::nullopt, limits); });
}

std::string refusal_of_bytes(const std::string& bytes) {
    return refusal_of([&] { read_workbook(bytes, std::nullopt); });
}

/// A workbook whose sheet's part is the one given.
std::vector<PackedPart> with_sheet_part(const std::string& xml) {
    auto parts = xlsx_parts({{"Marks", ""}});
    parts[0].text = xml;
    return parts;
}

std::string repeated(const std::string& text, std::size_t times) {
    std::string all;
    all.reserve(text.size() * times);
    for (std::size_t i = 0; i < times; ++i)
        all += text;
    return all;
}

} // namespace

TEST_CASE("a workbook that was saved with a password is refused with what to do") {
    const std::string said = "the workbook was saved with a password: save it without one";
    std::string compound = "\xD0\xCF\x11\xE0" + std::string(600, '\0');
    for (const char c : std::string("EncryptedPackage"))
        compound += {c, '\0'};
    CHECK(refusal_of_bytes(compound) == said);
    auto ods = ods_parts(ods_table(""));
    ods.push_back(
        {"META-INF/manifest.xml",
         "<manifest:manifest xmlns:manifest='urn:oasis:names:tc:opendocument:xmlns:manifest:1.0'>"
         "<manifest:file-entry><manifest:encryption-data/></manifest:file-entry></manifest:manifest>"});
    CHECK(refusal(ods) == said);
    auto xlsx = xlsx_parts({{"Marks", one}});
    xlsx[0].encrypted = true;
    CHECK(refusal(xlsx) == said);
}

TEST_CASE("an old or a binary workbook, or another document, is refused with what to save instead") {
    CHECK(refusal_of_bytes("\xD0\xCF\x11\xE0" + std::string(600, '\0')) ==
          "this is a workbook of the old form (.xls): open it in the spreadsheet program and save it as "
          ".xlsx or "
          ".ods");
    auto binary = xlsx_parts({{"Marks", one}});
    for (PackedPart& part : binary)
        if (part.name == "_rels/.rels")
            part.text.replace(part.text.find("workbook.xml"), 12, "workbook.bin");
    CHECK_THAT(refusal(binary), StartsWith("this is a binary workbook (.xlsb): "));
    CHECK_THAT(refusal({{"notes.txt", "hello"}}), StartsWith("the file is packed like a workbook"));
    auto letter = xlsx_parts({{"Marks", one}});
    for (PackedPart& part : letter)
        if (part.name == "xl/workbook.xml")
            part.text = "<document><sheet/></document>";
    CHECK_THAT(refusal(letter), StartsWith("the file holds a document and no workbook"));
    CHECK_THAT(refusal({{"content.xml", "<document/>"}}),
               StartsWith("the file holds a document and no workbook"));
}

TEST_CASE("a workbook that breaks off anywhere is refused") {
    const std::string whole = packed(xlsx_parts({{"Marks", one}}));
    REQUIRE(refusal_of_bytes(whole).empty());
    for (std::size_t length = 4; length < whole.size(); length += 13)
        CHECK_THAT(refusal_of_bytes(whole.substr(0, length)), StartsWith("the workbook is damaged ("));
}

TEST_CASE("a workbook with any one byte changed is read or refused") {
    const std::string whole = packed(xlsx_parts({{"Marks", one}}));
    std::size_t refused = 0;
    for (std::size_t i = 4; i < whole.size(); ++i) {
        std::string changed = whole;
        changed[i] = static_cast<char>(changed[i] ^ 0x5A);
        refused += !refusal_of_bytes(changed).empty();
    }
    CHECK(refused > whole.size() / 3);
}

TEST_CASE("a part of another size than its directory states is refused") {
    for (const std::uint32_t stated : {1u, 50u, 100'000u}) {
        auto parts = xlsx_parts({{"Marks", one}});
        parts[0].stated_size = stated;
        CHECK_THAT(refusal(parts), StartsWith("the workbook is damaged ("));
    }
}

TEST_CASE("a bomb of zeros is refused before it is unpacked") {
    auto parts = xlsx_parts({{"Marks", ""}});
    parts[0].text = std::string(std::size_t{32} * 1024 * 1024, '\0');
    CHECK_THAT(refusal(parts), StartsWith("the workbook unpacks to more than 250 times its size: "));
    // With a small size stated, it is unpacked no further than that.
    parts[0].stated_size = 100'000;
    CHECK_THAT(refusal(parts), StartsWith("the workbook"));
    WorkbookLimits limits;
    limits.unpacked_bytes = 1024 * 1024;
    parts[0].stated_size.reset();
    CHECK_THAT(refusal(parts, limits), StartsWith("the workbook unpacks to more than 1 MiB: "));
}

TEST_CASE("a document type is refused, and no entity is ever expanded") {
    const std::string laughs = "<!DOCTYPE w [<!ENTITY a 'ha'><!ENTITY b '&a;&a;&a;&a;&a;&a;&a;&a;'>"
                               "<!ENTITY c '&b;&b;&b;&b;&b;&b;&b;&b;'>]><worksheet>&c;</worksheet>";
    CHECK_THAT(refusal(with_sheet_part(laughs)), Contains("sheet1.xml has a document type"));
    CHECK_THAT(refusal(with_sheet_part("<!DOCTYPE w SYSTEM 'file:///etc/hostname'><worksheet/>")),
               Contains("has a document type"));
    CHECK_THAT(refusal(with_sheet_part("<worksheet>&x;</worksheet>")), Contains("is damaged in its line 1"));
}

TEST_CASE("XML that is cut, nests too deep or never ends a tag is refused") {
    CHECK_THAT(refusal(with_sheet_part("<worksheet><sheetData>")),
               Contains("sheet1.xml is damaged in its line 1"));
    CHECK_THAT(refusal(with_sheet_part("")), Contains("is damaged"));
    CHECK_THAT(refusal(with_sheet_part("\x01\x02")), Contains("is damaged"));
    CHECK_THAT(refusal(with_sheet_part(repeated("<a>", 100'000))),
               Contains("more than 64 elements in each other"));
    WorkbookLimits limits;
    limits.ratio_from_bytes = limits.unpacked_bytes;
    const std::string long_tag = "<worksheet a='" + std::string(8'000'000, 'x') + "'/>";
    CHECK_THAT(refusal(with_sheet_part(long_tag), limits), Contains("a tag of more than a mebibyte"));
}

TEST_CASE("more cells, text, entries or sheets than the limits allow are refused") {
    WorkbookLimits limits;
    limits.cells = 100;
    CHECK(refusal(xlsx_parts({{"Marks", repeated(one, 100)}}), limits).empty());
    CHECK_THAT(refusal(xlsx_parts({{"Marks", repeated(one, 101)}}), limits),
               StartsWith("the sheet has more than 100 cells with content"));
    limits = {};
    limits.text_bytes = 100;
    CHECK_THAT(refusal(xlsx_parts({{"Marks", repeated(one, 101)}}), limits),
               StartsWith("the cells have more text than 100 bytes"));
    limits = {};
    limits.elements = 10;
    CHECK_THAT(refusal(xlsx_parts({{"Marks", repeated("<row/>", 9)}}), limits),
               Contains("more than 10 elements"));
    limits = {};
    limits.entries = 5;
    CHECK_THAT(refusal(xlsx_parts({{"Marks", one}}), limits),
               StartsWith("the workbook has more than 5 parts"));
    limits = {};
    limits.listed = 3;
    CHECK_THAT(refusal(xlsx_parts({{"A", one}, {"B", ""}, {"C", ""}, {"D", ""}}), limits),
               StartsWith("the workbook has more than 3 "));
    const std::string row = "<table:table-row table:number-rows-repeated='1000000'><table:table-cell "
                            "table:number-columns-repeated='1000' office:value-type='float' "
                            "office:value='1'/></table:table-row>";
    CHECK_THAT(refusal(ods_parts(ods_table(row))), StartsWith("the sheet has more than 2000000 cells"));
}

TEST_CASE("a cell with more text than a cell may have is refused") {
    const auto inline_text = [](std::size_t length) {
        return xlsx_parts(
            {{"Marks", "<row><c t='inlineStr'><is><t>" + std::string(length, 'x') + "</t></is></c></row>"}});
    };
    CHECK(refusal(inline_text(131'068)).empty());
    CHECK_THAT(refusal(inline_text(131'069)), StartsWith("a cell has more text than"));
    CHECK_THAT(
        refusal(ods_parts(ods_table("<table:table-row><table:table-cell office:value-type='string'><text:p>"
                                    "<text:s text:c='4000000000'/></text:p></table:table-cell>"
                                    "</table:table-row>"))),
        StartsWith("a cell has more text than"));
}

TEST_CASE("content beyond the last row or column is refused, and emptiness there is not") {
    CHECK(refusal(xlsx_parts({{"Marks", "<row><c r='XFD1048576'><v>1</v></c></row>"}})).empty());
    CHECK_THAT(refusal(xlsx_parts({{"Marks", "<row><c r='A1048577'><v>1</v></c></row>"}})),
               StartsWith("the sheet has content beyond row 1048576 or column XFD"));
    CHECK_THAT(refusal(xlsx_parts({{"Marks", "<row><c r='XFE1'><v>1</v></c></row>"}})),
               Contains("beyond row"));
    const auto after = [](const std::string& times) {
        return ods_parts(
            ods_table("<table:table-row table:number-rows-repeated='" + times +
                      "'><table:table-cell/></table:table-row><table:table-row><table:table-cell "
                      "office:value-type='float' office:value='1'/></table:table-row>"));
    };
    CHECK(refusal(after("1048575")).empty());
    CHECK_THAT(refusal(after("1048576")), Contains("beyond row"));
    CHECK_THAT(refusal(after("99999999999999999999999")), Contains("beyond row"));
}

TEST_CASE("a cell that contradicts itself is refused with its place") {
    CHECK_THAT(refusal(xlsx_parts({{"Marks", "<row r='3'><c r='B3'><v>x</v></c></row>"}})),
               StartsWith("the workbook is damaged (its cell B3 should be a number and is not)"));
    CHECK_THAT(refusal(xlsx_parts({{"Marks", "<row r='3'><c r='B3' t='s'><v>7</v></c></row>"}})),
               StartsWith("the workbook is damaged (its cell B3 refers to a text that isn't there)"));
    CHECK_THAT(
        refusal(xlsx_parts({{"Marks", "<row r='3'><c r='B3'><v>1</v></c><c r='B3'><v>2</v></c></row>"}})),
        StartsWith("the workbook is damaged (its cell B3 is there twice)"));
    CHECK_THAT(refusal(ods_parts(ods_table("<table:table-row><table:table-cell office:value-type='float' "
                                           "office:value='x'/></table:table-row>"))),
               StartsWith("the workbook is damaged (its cell A1 should be a number and is not)"));
}
