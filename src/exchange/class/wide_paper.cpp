#include "exchange/class/wide_paper.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/paper/label.hpp"
#include "inkturn/sitting/sitting.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <utility>

namespace inkturn {

WidePaper::WidePaper(HeadedTable& table, const ClassFileOptions& options, ClassFile& file, CellFaults& faults,
                     const WideLayout& layout, WidePaperColumns columns)
    : table_(table),
      options_(options),
      file_(file),
      faults_(faults),
      candidate_(layout.candidate),
      only_(layout.only),
      columns_(std::move(columns)),
      paper_(columns_.on_file),
      may_be_sum_(columns_.parts.size(), !paper_),
      strangers_reported_(columns_.strangers.size()) {
    for (std::size_t i = 0; i < columns_.parts.size(); ++i)
        positions_.push_back(paper_ ? *paper_->find_part(columns_.parts[i].label) : i);
}

void WidePaper::check_header_max() {
    std::vector<Part> parts;
    for (std::size_t i = 0; i < columns_.parts.size(); ++i) {
        const WideColumn& column = columns_.parts[i];
        if (!column.max)
            continue;
        Problem at = column.place;
        const int on_file = paper_ ? paper_->parts()[positions_[i]].max.count() : *column.max;
        if (*column.max > max_part_marks.count())
            at.message = "part " + column.label + ": the most marks that a part has are " +
                         std::to_string(max_part_marks.count());
        else if (on_file != *column.max)
            at.message = "part " + column.label + " has the maximum " + std::to_string(*column.max) +
                         " here and " + std::to_string(on_file) + " on file: they must agree";
        if (!at.message.empty())
            file_.problems.add(std::move(at));
        else
            parts.push_back({column.label, Marks(*column.max), "", ""});
    }
    if (!paper_ && !parts.empty() && parts.size() == columns_.parts.size())
        make_paper(std::move(parts));
}

void WidePaper::report_missing_columns() {
    const Paper& on_file = *columns_.on_file;
    std::vector<bool> there(on_file.parts().size());
    for (const std::size_t position : positions_)
        there[position] = true;
    std::vector<std::string_view> missing;
    const std::vector<bool> is_set = set_for_all();
    for (std::size_t i = 0; i < there.size(); ++i)
        if (!there[i] && is_set[i] && !only_)
            missing.push_back(on_file.parts()[i].label);
    if (!missing.empty())
        table_.report_header("the header has no column for " + short_list(missing) + " of paper " +
                             on_file.id() + ": add it, or name the parts that were set with --only");
}

/// Whether each part was set, as --only says for all rows.
std::vector<bool> WidePaper::set_for_all() const {
    std::vector<bool> is_set(paper_->parts().size(), options_.only.empty());
    if (!options_.only.empty())
        for (const std::size_t part : parts_set(*paper_, options_.only))
            is_set[part] = true;
    return is_set;
}

void WidePaper::read_max_row() {
    if (max_line_) {
        table_.report(candidate_, "a second row of maximum marks, the first is in " +
                                      table_.row_text(*max_line_) + ": leave one out");
        return;
    }
    max_line_ = table_.line();
    std::vector<Part> parts;
    Marks sum;
    for (std::size_t i = 0; i < columns_.parts.size(); ++i) {
        const auto max = read_max(i);
        if (!max)
            continue;
        sum += *max;
        parts.push_back({columns_.parts[i].label, *max, "", ""});
    }
    const bool whole = parts.size() == columns_.parts.size();
    if (whole)
        check_total({sum, sum}, "the maxima");
    if (paper_ || refused_)
        return;
    if (whole)
        make_paper(std::move(parts));
    refused_ = paper_ == nullptr;
}

/// The maximum in the current row, or else in the heading; nothing if it is not one or differs from the one
/// on file.
std::optional<Marks> WidePaper::read_max(std::size_t i) {
    const WideColumn& column = columns_.parts[i];
    std::string plain = plain_cell(table_.cell(column.column));
    if (const auto stated = stated_maximum(plain))
        plain = std::to_string(*stated);
    if (plain.empty() && column.max)
        plain = std::to_string(*column.max);
    try {
        const int max =
            parse_whole_number(plain, 1, max_part_marks.count(), "part " + column.label + ", maximum");
        std::optional<int> known = column.max;
        if (paper_)
            known = paper_->parts()[positions_[i]].max.count();
        if (!known || *known == max)
            return Marks(max);
        table_.report(column.column, "part " + column.label + " has the maximum " + std::to_string(max) +
                                         " here and " + std::to_string(*known) +
                                         (columns_.on_file ? " on file" : " in the header") +
                                         ": they must agree");
    } catch (const Error& error) {
        table_.report(column.column, error.what());
    }
    return std::nullopt;
}

void WidePaper::make_paper(std::vector<Part> parts) {
    try {
        paper_ = std::make_shared<const Paper>(PaperHead{columns_.id, "", options_.subject, {}, {}},
                                               std::move(parts));
    } catch (const Error& error) {
        table_.report_row(error.what());
    }
}

void WidePaper::require() {
    if (paper_ || refused_)
        return;
    table_.report(candidate_,
                  "paper " + columns_.id +
                      " is not on file: add it with paper add, or put the maxima into the first row "
                      "below the header, with max as its candidate");
    refused_ = true;
}

bool WidePaper::has_no_mark() const {
    return std::all_of(columns_.parts.begin(), columns_.parts.end(), [&](const WideColumn& column) {
        const std::string plain = plain_cell(table_.cell(column.column));
        return plain.empty() || plain == "0" || plain == "-" || is_absence_word(plain);
    });
}

RowOf WidePaper::row_of() const {
    bool any_dash = false;
    for (const WideColumn& column : columns_.parts) {
        const std::string_view text = table_.cell(column.column);
        if (text.empty())
            continue;
        if (plain_number(text))
            return RowOf::sitting;
        const std::string plain = plain_cell(text);
        any_dash = any_dash || plain == "-";
        if (!plain.empty() && plain != "-" && !is_absence_word(plain))
            return RowOf::sitting;
    }
    for (const WideColumn& column : columns_.parts)
        if (any_dash && is_absence_word(plain_cell(table_.cell(column.column))))
            return RowOf::sitting;
    return any_dash ? RowOf::nothing_tried : RowOf::absence;
}

std::optional<std::vector<PartMarks>> WidePaper::read_marks() {
    const auto is_set = read_set();
    if (!is_set)
        return std::nullopt;
    if (const auto words = column_of_words()) {
        report_words(*words);
        return std::nullopt;
    }
    std::vector<PartMarks> parts(paper_->parts().size(), PartMarks::not_set());
    std::vector<bool> has_column(parts.size());
    bool whole = true;
    for (std::size_t i = 0; i < columns_.parts.size(); ++i) {
        const std::size_t part = positions_[i];
        const auto marks = read_mark(i, (*is_set)[part]);
        whole = whole && marks;
        has_column[part] = true;
        if (marks)
            parts[part] = *marks;
    }
    for (std::size_t i = 0; only_ && i < parts.size(); ++i)
        if ((*is_set)[i] && !has_column[i]) {
            table_.report(*only_, "part " + paper_->parts()[i].label +
                                      " has no column: add it, or leave it out here");
            whole = false;
        }
    if (!whole || !read_choices(parts))
        return std::nullopt;
    const Totals all = totals(*paper_, parts);
    check_total({all.unaided(), all.max}, "the row's unaided marks");
    check_sums(parts);
    watch_for_total(parts);
    return parts;
}

/// The first cell of a row in which there are words and no marks, such as `sick`.
std::optional<std::size_t> WidePaper::column_of_words() const {
    std::optional<std::size_t> first;
    for (const WideColumn& column : columns_.parts) {
        const std::string plain = plain_cell(table_.cell(column.column));
        const bool is_word = !plain.empty() && plain != not_set_word && !is_fraction(plain) &&
                             plain.find_first_of("0123456789-") == std::string::npos;
        if (!is_word && !plain.empty())
            return std::nullopt;
        if (is_word && !first && !is_absence_word(plain))
            first = column.column;
    }
    return first;
}

void WidePaper::report_words(std::size_t column) {
    const std::string written(trimmed(table_.cell(column)));
    faults_.add(
        column, CellFault::words,
        [&] {
            return table_.problem_in(column, "the row has '" + written +
                                                 "' and no marks: write absent for a candidate who was not "
                                                 "there, or the marks");
        },
        [&] { return "are like '" + written + "', in rows without marks; write absent, or the marks"; });
}

/// Whether each part was set, as the row says, or else --only.
std::optional<std::vector<bool>> WidePaper::read_set() {
    if (!only_ || trimmed(table_.cell(*only_)).empty())
        return set_for_all();
    std::vector<bool> is_set(paper_->parts().size());
    const bool read = table_.in_cell(*only_, [&] {
        for (const std::size_t part : positions_named(*paper_, trimmed(table_.cell(*only_))))
            is_set[part] = true;
    });
    return read ? std::optional(is_set) : std::nullopt;
}

/// Reads a plain number that fits directly; anything else goes through the core's rules.
std::optional<PartMarks> WidePaper::read_mark(std::size_t i, bool is_set) {
    const WideColumn& column = columns_.parts[i];
    const std::string_view text = table_.cell(column.column);
    const Marks max = paper_->parts()[positions_[i]].max;
    if (const auto plain = plain_number(text); is_set && plain && Marks(*plain) <= max)
        return PartMarks({Marks(*plain)}, max);
    const std::string plain = plain_cell(text);
    if (!is_set) {
        if (plain.empty() || plain == not_set_word)
            return PartMarks::not_set();
        const std::string message =
            "part " + column.label + " was not set in this row: leave the cell empty, or say that it was";
        faults_.add(
            column.column, CellFault::not_set, [&] { return table_.problem_in(column.column, message); },
            [&] { return "are like " + plain + ", though the part was not set"; });
        return std::nullopt;
    }
    try {
        if (plain.empty())
            throw Error("no mark for " + column.label +
                        ": write - if it was not attempted, not-set if it was not set");
        return parse_cell_marks(plain, max);
    } catch (const Error& error) {
        add_marks_fault(faults_, table_, column.column, error.what(), max);
        return std::nullopt;
    }
}

/// Settles which questions count; false where what was set can't be.
bool WidePaper::read_choices(std::vector<PartMarks>& parts) {
    try {
        check_set(*paper_, parts);
        count_chosen(*paper_, parts);
        return true;
    } catch (const Error& error) {
        table_.report_row(error.what());
        return false;
    }
}

/// An empty total states nothing.
void WidePaper::check_total(Summed sum, const char* of_what) {
    if (columns_.total)
        check_sum(columns_.total->column, sum, "total", of_what);
}

/// Compares each sum with the parts of its question, or of its section.
void WidePaper::check_sums(const std::vector<PartMarks>& parts) {
    if (file_.doubts.is_open(DoubtKind::sum))
        return;
    for (const WideColumn& column : columns_.sums) {
        Summed sum;
        for (std::size_t i = 0; i < parts.size(); ++i) {
            const std::string& label = paper_->parts()[i].label;
            if (question_of(label) != column.label &&
                (column.label.size() != 1 || label[0] != column.label[0]))
                continue;
            sum.marks += parts[i].unaided();
            sum.max += parts[i].counts() ? paper_->parts()[i].max : Marks(0);
        }
        check_sum(column.column, sum, "sum", "the parts of " + column.label);
    }
}

bool WidePaper::Summed::agrees_with_percentage(std::string_view plain) const {
    const std::string number(plain.substr(0, plain.size() - 1));
    char* end = nullptr;
    const double percentage = std::strtod(number.c_str(), &end); // the command keeps the C locale for numbers
    if (number.empty() || !is_digit(number.front()) || *end != '\0' || max == Marks(0))
        return false;
    return std::fabs(percentage - 100.0 * marks.count() / max.count()) < 1; // rounded up, down or off
}

void WidePaper::check_sum(std::size_t column, Summed summed, const char* name, const std::string& of_what) {
    std::string plain = plain_cell(table_.cell(column));
    std::replace(plain.begin(), plain.end(), ',', '.');
    const Marks sum = summed.marks;
    const bool says_nothing = plain.empty() || (sum == Marks(0) && (plain == "-" || is_absence_word(plain)));
    if (says_nothing || (plain.back() == '%' && summed.agrees_with_percentage(plain)))
        return;
    const int most = max_part_marks.count() * static_cast<int>(Paper::max_parts);
    const auto add = [&](CellFault kind, const std::string& message, const std::string& many) {
        faults_.add(
            column, kind, [&] { return table_.problem_in(column, message); }, [&] { return many; });
    };
    if (plain.back() == '%') {
        add(CellFault::total,
            "the " + std::string(name) + " is " + plain + ", but " + of_what + " are " +
                std::to_string(sum.count()) + " of " + std::to_string(summed.max.count()) +
                ": correct one or the other",
            "are like " + plain + ", which " + of_what + " are not");
        return;
    }
    try {
        const int total = parse_whole_number(plain, 0, most, name);
        if (Marks(total) != sum)
            add(CellFault::total,
                "the " + std::string(name) + " is " + std::to_string(total) + ", but " + of_what +
                    " add up to " + std::to_string(sum.count()) + ": correct one or the other",
                "are like " + std::to_string(total) + ", where " + of_what + " add up to " +
                    std::to_string(sum.count()));
    } catch (const Error& error) {
        add(CellFault::marks, error.what(), "are like '" + plain + "', which are not whole numbers");
    }
}

/// Sees whether a part of a new paper has always been what the parts before it add up to.
void WidePaper::watch_for_total(const std::vector<PartMarks>& parts) {
    ++rows_;
    Marks sum;
    for (std::size_t i = 0; !columns_.on_file && i < parts.size(); ++i) {
        if (i < 2 || parts[i].unaided() != sum)
            may_be_sum_[i] = false;
        sum += parts[i].unaided();
    }
}

void WidePaper::report_strangers() {
    for (std::size_t i = 0; i < columns_.strangers.size(); ++i) {
        const WideColumn& column = columns_.strangers[i];
        if (strangers_reported_[i] || trimmed(table_.cell(column.column)).empty())
            continue;
        strangers_reported_[i] = true;
        Problem at = column.place;
        at.message =
            "paper " + columns_.id + " has no part " + column.label + ": rename the column or leave it out";
        file_.problems.add(std::move(at));
    }
}

std::string WidePaper::maximum_that_differs() const {
    for (std::size_t i = 0; paper_ && i < columns_.parts.size(); ++i) {
        const std::string plain = plain_cell(table_.cell(columns_.parts[i].column));
        const auto stated = stated_maximum(plain);
        const auto number = stated ? stated : read_whole_number(plain, max_part_marks.count());
        const int known = paper_->parts()[positions_[i]].max.count();
        if (number && *number != known)
            return "it has " + std::to_string(*number) + " for part " + columns_.parts[i].label + ", and " +
                   paper_->id() + " has " + std::to_string(known);
    }
    return "";
}

std::optional<std::size_t> WidePaper::total_among_parts() const {
    constexpr std::size_t min_rows = 3;
    if (columns_.on_file || !paper_ || rows_ < min_rows)
        return std::nullopt;
    Marks before;
    std::optional<std::size_t> total;
    for (std::size_t i = 0; i < columns_.parts.size(); ++i) {
        const Marks max = paper_->parts()[i].max;
        if (may_be_sum_[i] && max == before)
            total = i;
        before += max;
    }
    return total;
}

void WidePaper::drop_part(std::size_t part) {
    std::vector<Part> parts = paper_->parts();
    parts.erase(parts.begin() + static_cast<std::ptrdiff_t>(part));
    make_paper(std::move(parts));
}

} // namespace inkturn
