#include "exchange/workbook/workbook_rows.hpp"

#include "inkturn/base/error.hpp"

#include <algorithm>
#include <istream>
#include <utility>

namespace inkturn {
namespace {

/// Stands for a value that was not saved, so that the cell does not pass for an empty one.
constexpr std::string_view no_value = "(formula without a value)";

constexpr std::size_t max_area = 20'000'000; ///< rows times columns

void read_to_end(std::istream& in, std::string& bytes, std::size_t max) {
    constexpr std::size_t at_once = 65'536;
    constexpr std::size_t mebibyte = 1'048'576;
    while (in.good() && bytes.size() <= max) {
        const std::size_t size = bytes.size();
        bytes.resize(size + at_once);
        in.read(bytes.data() + size, static_cast<std::streamsize>(at_once));
        bytes.resize(size + static_cast<std::size_t>(in.gcount()));
    }
    if (in.bad())
        throw Error("the file can't be read");
    if (bytes.size() > max)
        throw Error("the workbook has more than " + std::to_string(max / mebibyte) +
                    " MiB: save the sheet that matters as a workbook of its own, or as CSV");
}

} // namespace

WorkbookRows::WorkbookRows(std::istream& in, std::string start, std::optional<std::string> sheet)
    : in_(in), bytes_(std::move(start)), name_(std::move(sheet)) {}

bool WorkbookRows::next() {
    try {
        if (!sheet_)
            open();
    } catch (const Error& error) {
        throw UnreadableFile({0, 0, error.what()});
    }
    const std::vector<SheetCell>& all = sheet_->cells();
    for (std::size_t i = row_begins_; i < row_ends_; ++i)
        cells_[all[i].column - first_column_] = {};
    row_begins_ = row_ends_;
    while (row_ends_ < all.size() && all[row_ends_].row == all[row_begins_].row) {
        const SheetCell& cell = all[row_ends_++];
        cells_[cell.column - first_column_] = cell.kind == SheetCellKind::uncalculated ? no_value : cell.text;
    }
    return row_begins_ < row_ends_;
}

void WorkbookRows::open() {
    const WorkbookLimits limits;
    read_to_end(in_, bytes_, limits.file_bytes);
    sheet_.emplace(read_workbook(bytes_, name_, limits));
    bytes_ = {};
    measure();
}

/// Finds the columns with content.
void WorkbookRows::measure() {
    const std::vector<SheetCell>& all = sheet_->cells();
    if (all.empty())
        throw Error("the sheet is empty");
    const auto [first, last] = std::minmax_element(
        all.begin(), all.end(), [](const SheetCell& a, const SheetCell& b) { return a.column < b.column; });
    std::size_t rows = 1;
    for (std::size_t i = 1; i < all.size(); ++i)
        rows += all[i].row != all[i - 1].row;
    first_column_ = first->column;
    const std::size_t width = last->column - first_column_ + 1;
    if (rows * width > max_area)
        throw Error("the sheet has content in " + std::to_string(rows) + " rows and out to " +
                    inkturn::cell_name(last->row, last->column) +
                    ": leave only the columns that matter, and save it again");
    cells_.resize(width);
}

std::size_t WorkbookRows::line(std::size_t /*i*/) const {
    return sheet_->cells()[row_begins_].row;
}

std::string WorkbookRows::cell_name(std::size_t i) const {
    return inkturn::cell_name(line(), column(i));
}

std::string WorkbookRows::row_name(std::size_t line) const {
    return line == 0 ? std::string() : inkturn::cell_name(line, first_column_);
}

const SheetCell* WorkbookRows::find(std::size_t i) const {
    for (std::size_t k = row_begins_; k < row_ends_; ++k)
        if (sheet_->cells()[k].column == column(i))
            return &sheet_->cells()[k];
    return nullptr;
}

std::string WorkbookRows::fault(std::size_t i) const {
    const SheetCell* const cell = find(i);
    return cell == nullptr || cell->kind == SheetCellKind::value ? std::string() : why_no_value(*cell);
}

} // namespace inkturn
