#include "catch.hpp"
#include "dice.hpp"
#include "exchange/workbook/books.hpp"
#include "inkturn/base/error.hpp"

#include <random>
#include <string>
#include <vector>

using namespace inkturn;
using namespace inkturn::test;

namespace {

std::vector<PackedPart> any_xlsx() {
    return xlsx_parts(
        {{"Set 1", "<row r='1'><c r='A1' s='1'><v>12</v></c><c r='B1' t='s'><v>0</v></c><c r='C1' "
                   "s='2'><v>46336</v></c><c r='D1'><f>1+1</f><v>2</v></c></row>"},
         {"Set 2", "", "hidden"}},
        "<numFmts><numFmt numFmtId='164' formatCode='\"K\"0000'/></numFmts><cellXfs><xf "
        "numFmtId='0'/><xf numFmtId='164'/><xf numFmtId='14'/></cellXfs>",
        "<si><r><t>K_x000A_</t></r><rPh><t>x</t></rPh></si>", "<workbookPr date1904='0'/>");
}

std::vector<PackedPart> any_ods() {
    return ods_parts(
        ods_table("<table:table-row table:number-rows-repeated='2'><table:table-cell "
                  "office:value-type='float' office:value='12' table:number-columns-repeated='3'>"
                  "<text:p>0012</text:p></table:table-cell><table:covered-table-cell/>"
                  "<table:table-cell office:value-type='date' office:date-value='2026-11-10T09:30:00'>"
                  "<text:p>10/11 <text:s text:c='2'/>9:30</text:p></table:table-cell>"
                  "<table:table-cell office:value-type='time' office:time-value='PT09H30M00S'/>"
                  "</table:table-row>"),
        "<style:style style:name='a'><style:table-properties table:display='true'/></style:style>");
}

/// Changes, doubles or drops a few bytes of the text.
void spoil(std::mt19937& dice, std::string& text) {
    for (int changes = pick(dice, 1, 3); changes > 0 && !text.empty(); --changes) {
        const auto at = static_cast<std::size_t>(pick(dice, 0, static_cast<int>(text.size()) - 1));
        const std::string piece = text.substr(at, static_cast<std::size_t>(pick(dice, 1, 12)));
        switch (pick(dice, 0, 3)) {
        case 0:
            text[at] = static_cast<char>(pick(dice, 0, 255));
            break;
        case 1:
            text.insert(at, piece);
            break;
        case 2:
            text.erase(at, piece.size());
            break;
        default:
            text[at] = "0129'\"<>;_-."[pick(dice, 0, 11)];
        }
    }
}

} // namespace

TEST_CASE("a workbook whose parts are spoilt is read or refused") {
    std::mt19937 dice(17);
    std::size_t read = 0;
    std::size_t refused = 0;
    for (int round = 0; round < 4'000; ++round) {
        auto parts = round % 2 == 0 ? any_xlsx() : any_ods();
        spoil(dice, parts[static_cast<std::size_t>(pick(dice, 0, static_cast<int>(parts.size()) - 1))].text);
        try {
            cells_of(parts);
            ++read;
        } catch (const Error&) {
            ++refused;
        }
    }
    CHECK(read > 500);
    CHECK(refused > 500);
}
