#include "exchange/workbook/workbook.hpp"

#include "exchange/workbook/ods.hpp"
#include "exchange/workbook/package.hpp"
#include "exchange/workbook/xlsx.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/text.hpp"

namespace inkturn {
namespace {

constexpr std::string_view zip_mark = "PK\x03\x04";
constexpr std::string_view compound_file_mark = "\xD0\xCF\x11\xE0";

/// ASCII as UTF-16 with the lower byte first.
std::string in_utf_16(std::string_view text) {
    std::string wide;
    for (const char c : text)
        wide.append(1, c).append(1, '\0');
    return wide;
}

/// A workbook of today that is encrypted lies in a file of the old form too.
[[noreturn]] void refuse_compound_file(std::string_view bytes) {
    if (contains(bytes, in_utf_16("EncryptedPackage")))
        throw Error("the workbook was saved with a password: save it without one");
    throw Error(
        "this is a workbook of the old form (.xls): open it in the spreadsheet program and save it as "
        ".xlsx or .ods");
}

} // namespace

bool is_workbook(std::string_view start) {
    start = start.substr(0, workbook_mark_bytes);
    return start == zip_mark || start == compound_file_mark;
}

WorkbookSheet read_workbook(std::string_view bytes, const std::optional<std::string>& sheet,
                            const WorkbookLimits& limits) {
    if (bytes.substr(0, compound_file_mark.size()) == compound_file_mark)
        refuse_compound_file(bytes);
    WorkbookPackage package(bytes, limits);
    const SheetChoice choice(sheet);
    if (package.has("content.xml") && !package.has("[Content_Types].xml"))
        return read_ods(package, choice);
    return read_xlsx(package, choice);
}

} // namespace inkturn
