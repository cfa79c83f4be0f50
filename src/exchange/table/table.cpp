#include "exchange/table/table.hpp"

#include <algorithm>

namespace inkturn {
namespace {

std::string column_name(std::string_view written) {
    std::string name = without_blanks(written);
    for (char& c : name)
        if (c >= 'A' && c <= 'Z')
            c = static_cast<char>(c - 'A' + 'a');
    return name;
}

std::string joined(const std::vector<std::string_view>& names) {
    std::string list;
    for (const std::string_view name : names)
        list.append(list.empty() ? "" : ", ").append(name);
    return list;
}

bool is_empty(std::string_view cell) {
    return cell.empty();
}

std::string count_of_cells(std::size_t count) {
    return std::to_string(count) + (count == 1 ? " field" : " fields");
}

} // namespace

std::string without_blanks(std::string_view text) {
    const std::size_t first = text.find_first_not_of(" \t");
    return first == std::string_view::npos
               ? std::string()
               : std::string(text.substr(first, text.find_last_not_of(" \t") - first + 1));
}

HeadedTable::HeadedTable(Rows& rows, ProblemList& problems)
    : rows_(rows), cells_(rows.cells()), problems_(problems) {
    if (!rows_.next())
        throw UnreadableFile({0, 0, "the file is empty"});
    header_line_ = rows_.line();
    header_cell_ = rows_.cell_name(0);
    for (const std::string_view field : cells_)
        names_.push_back(column_name(field));
}

std::optional<std::size_t> HeadedTable::find(std::string_view name) const {
    const auto found = std::find(names_.begin(), names_.end(), name);
    if (found == names_.end())
        return std::nullopt;
    return static_cast<std::size_t>(found - names_.begin());
}

std::vector<std::optional<std::size_t>> HeadedTable::match(const std::vector<std::string_view>& wanted,
                                                           std::size_t required) {
    std::vector<std::optional<std::size_t>> columns(wanted.size());
    for (std::size_t i = 0; i < names_.size(); ++i) {
        const auto name = std::find(wanted.begin(), wanted.end(), names_[i]);
        const auto position = static_cast<std::size_t>(name - wanted.begin());
        if (name == wanted.end())
            report(i, "the column '" + std::string(written_name(i)) + "' is not one of " + joined(wanted) +
                          ": rename it or leave it out");
        else if (columns[position])
            report(i, "the column " + names_[i] + " appears twice: leave one out");
        else
            columns[position] = i;
    }
    for (std::size_t i = 0; i < required; ++i)
        if (!columns[i])
            report_header("the header has no column " + std::string(wanted[i]) + ": add it");
    return columns;
}

bool HeadedTable::next() {
    while (rows_.next()) {
        if (cells_.front().empty() && std::all_of(cells_.begin(), cells_.end(), is_empty))
            continue;
        if (cells_.size() == names_.size())
            return true;
        ++ragged_rows_;
        report_row("the row has " + count_of_cells(cells_.size()) + " and the header has " +
                   std::to_string(names_.size()) + ": give each column one field");
    }
    return false;
}

std::string HeadedTable::row_text(std::size_t line) const {
    return std::string(rows_.row_word()) + ' ' + std::to_string(line);
}

void HeadedTable::check_has_value(std::size_t column) const {
    if (const std::string fault = rows_.fault(column); !fault.empty())
        throw Error(fault);
}

Problem HeadedTable::problem_in(std::size_t column, std::string message) const {
    if (std::string fault = rows_.fault(column); !fault.empty())
        message = std::move(fault);
    return {rows_.line(column),     rows_.column(column), std::move(message), Error::Remedy::none, {},
            rows_.cell_name(column)};
}

void HeadedTable::report(std::size_t column, std::string message) {
    if (problems_.count < ProblemList::max_items)
        problems_.add(problem_in(column, std::move(message)));
    else
        problems_.add(0, 0, {});
}

void HeadedTable::report_row(std::string message) {
    problems_.add({line(), 0, std::move(message), Error::Remedy::none, {}, rows_.cell_name(0)});
}

void HeadedTable::report_header(std::string message) {
    problems_.add({header_line_, 0, std::move(message), Error::Remedy::none, {}, header_cell_});
}

} // namespace inkturn
