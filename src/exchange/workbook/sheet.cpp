#include "exchange/workbook/sheet.hpp"

#include "inkturn/base/error.hpp"

#include <algorithm>
#include <tuple>
#include <utility>

namespace inkturn {
namespace {

bool comes_before(const SheetCell& a, const SheetCell& b) {
    return std::tie(a.row, a.column) < std::tie(b.row, b.column);
}

} // namespace

std::string cell_name(std::size_t row, std::size_t column) {
    std::string letters;
    for (; column > 0; column = (column - 1) / 26)
        letters.insert(letters.begin(), static_cast<char>('A' + (column - 1) % 26));
    return letters + std::to_string(row);
}

std::string why_no_value(const SheetCell& cell) {
    if (cell.kind == SheetCellKind::uncalculated)
        return "the formula here was saved without its value: open the workbook in the spreadsheet program, "
               "save it and use that file";
    if (cell.kind == SheetCellKind::no_day)
        return "the cell is shown as a date or a time, and its number " + std::string(cell.text) +
               " is none: mend its number or its format";
    return "the cell shows " + std::string(cell.text) + ": mend it or empty it";
}

bool is_blank(std::string_view text) noexcept {
    constexpr std::string_view no_break_space = "\xC2\xA0";
    while (!text.empty()) {
        if (text.front() == ' ' || (text.front() >= '\t' && text.front() <= '\r'))
            text.remove_prefix(1);
        else if (text.substr(0, 2) == no_break_space)
            text.remove_prefix(2);
        else
            return false;
    }
    return true;
}

void WorkbookSheet::add(std::uint64_t row, std::uint64_t column, SheetCellKind kind, std::string text) {
    if (kind != SheetCellKind::value || !is_blank(text))
        add_kept(row, column, kind, keep(std::move(text)));
}

void WorkbookSheet::add_kept(std::uint64_t row, std::uint64_t column, SheetCellKind kind,
                             std::string_view text) {
    if (kind == SheetCellKind::value && is_blank(text))
        return;
    if (row > max_row || column > max_column)
        throw Error("the sheet has content beyond row " + std::to_string(max_row) + " or column XFD");
    if (cells_.size() == limits_.cells)
        throw Error("the sheet has more than " + std::to_string(limits_.cells) +
                    " cells with content: save the columns that matter as CSV");
    cells_.push_back({static_cast<std::uint32_t>(row), static_cast<std::uint32_t>(column), kind, text});
}

void WorkbookSheet::check_length(const std::string& text) const {
    if (text.size() > limits_.cell_bytes)
        throw Error("a cell has more text than the 32,767 characters that a cell may have");
}

std::string_view WorkbookSheet::keep(std::string text) {
    if (text.empty())
        return {};
    check_length(text);
    text_bytes_ += text.size();
    if (text_bytes_ > limits_.text_bytes)
        throw Error("the cells have more text than " + std::to_string(limits_.text_bytes) +
                    " bytes: save the columns that matter as CSV");
    return texts_.emplace_back(std::move(text));
}

void WorkbookSheet::finish() {
    if (!std::is_sorted(cells_.begin(), cells_.end(), comes_before))
        std::sort(cells_.begin(), cells_.end(), comes_before);
    const auto twice =
        std::adjacent_find(cells_.begin(), cells_.end(),
                           [](const SheetCell& a, const SheetCell& b) { return !comes_before(a, b); });
    if (twice != cells_.end())
        throw Error("the workbook is damaged (its cell " + cell_name(twice->row, twice->column) +
                    " is there twice): use a fresh copy");
}

} // namespace inkturn
