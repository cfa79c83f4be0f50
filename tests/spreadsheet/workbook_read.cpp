// Prints the cells of a workbook's sheet, a line each, for workbook_test to compare: workbook_read FILE
// [SHEET]

#include "exchange/workbook/workbook.hpp"
#include "inkturn/base/error.hpp"

#include <fstream>
#include <iostream>
#include <iterator>
#include <optional>
#include <string>

namespace {

std::string in_one_line(std::string_view text) {
    std::string line;
    for (const char c : text)
        line += c == '\n' ? "\\n" : c == '\t' ? "\\t" : std::string(1, c);
    return line;
}

const char* name_of(inkturn::SheetCellKind kind) {
    switch (kind) {
    case inkturn::SheetCellKind::error:
        return "error";
    case inkturn::SheetCellKind::no_day:
        return "no day";
    case inkturn::SheetCellKind::uncalculated:
        return "uncalculated";
    default:
        return "value";
    }
}

} // namespace

int main(int count, char** arguments) {
    if (count < 2)
        return 2;
    std::ifstream file(arguments[1], std::ios::binary);
    const std::string bytes{std::istreambuf_iterator<char>(file), {}};
    try {
        const auto sheet = count > 2 ? std::optional<std::string>(arguments[2]) : std::nullopt;
        const inkturn::WorkbookSheet read = inkturn::read_workbook(bytes, sheet);
        for (const inkturn::SheetCell& cell : read.cells())
            std::cout << inkturn::cell_name(cell.row, cell.column) << '\t' << name_of(cell.kind) << '\t'
                      << in_one_line(cell.text) << '\n';
    } catch (const inkturn::Error& error) {
        std::cerr << error.what() << '\n';
        return 1;
    }
    return 0;
}
