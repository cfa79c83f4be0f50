#include "exchange/class/class_roll.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/paper/label.hpp"
#include "inkturn/sitting/sitting.hpp"

#include <algorithm>
#include <utility>

namespace inkturn {
namespace {

/// Reads the rows of a wide file: one row per candidate, one column per part.
class WideRows {
  public:
    WideRows(HeadedTable& table, const ClassFileOptions& options, const PaperSource& source, ClassFile& csv)
        : table_(table),
          options_(options),
          csv_(csv),
          roll_(table, options, csv),
          id_(*options.paper),
          on_file_(source(id_)),
          paper_(on_file_) {}

    void read();

  private:
    struct PartColumn {
        std::size_t column;
        std::string label;
        std::size_t part; ///< position in the paper, or in the header if it isn't on file
    };

    bool read_header();
    void read_name(std::size_t column);
    void take_once(std::optional<std::size_t>& place, std::size_t column);
    void read_label_name(std::size_t column);
    void report_missing_columns();
    std::vector<bool> set_for_all(const Paper& paper) const;

    void read_row();
    bool is_max_row() const;
    void read_max_row();
    std::optional<Marks> read_max(const PartColumn& column);
    void make_paper(std::vector<Part> parts);
    void require_paper();

    bool is_absence() const;
    void read_absence();
    std::optional<Day> read_day();
    void read_sitting();
    std::optional<std::vector<PartMarks>> read_marks();
    std::optional<std::vector<bool>> read_set();
    std::optional<PartMarks> read_mark(const PartColumn& column, bool is_set);
    bool read_choices(std::vector<PartMarks>& parts);
    void check_total(Marks sum, const char* of_what);

    HeadedTable& table_;
    const ClassFileOptions& options_;
    ClassFile& csv_;
    ClassRoll roll_;
    const std::string& id_;
    std::shared_ptr<const Paper> on_file_;
    std::shared_ptr<const Paper> paper_; ///< null: not on file and not made (yet)
    std::optional<std::size_t> date_;
    std::optional<std::size_t> total_;
    std::optional<std::size_t> only_; ///< its cells name the parts that were set
    std::vector<PartColumn> part_columns_;
    std::optional<std::size_t> max_line_;
    bool paper_refused_ = false; ///< the reason has been reported
};

void WideRows::read() {
    if (!read_header())
        return;
    while (table_.next())
        read_row();
    if (csv_.rows == 0 && table_.ragged_rows() == 0)
        table_.report_header("no candidates below the header: give each a row");
    csv_.papers.push_back({paper_, on_file_ != nullptr});
}

/// False if the rows can't be read with this header.
bool WideRows::read_header() {
    if (table_.names().front() != "candidate") {
        table_.report(0, "the first column is '" + std::string(table_.written_name(0)) +
                             "': the first line must be a header that starts with candidate");
        return false;
    }
    for (std::size_t column = 1; column < table_.names().size(); ++column)
        read_name(column);
    if (on_file_)
        report_missing_columns();
    if (!date_ && !options_.date)
        table_.report_header("the sittings have no date: use --date, or add a column date");
    if (options_.date && *options_.date > options_.today)
        csv_.problems.add(0, 0,
                          "the date " + iso(*options_.date) + " is after today, " + iso(options_.today) +
                              ": correct --date");
    return true;
}

void WideRows::read_name(std::size_t column) {
    const std::string& name = table_.names()[column];
    if (name == "date")
        take_once(date_, column);
    else if (name == "total")
        take_once(total_, column);
    else if (name == "only")
        take_once(only_, column);
    else
        read_label_name(column);
}

void WideRows::take_once(std::optional<std::size_t>& place, std::size_t column) {
    if (place)
        table_.report(column, "the column " + table_.names()[column] + " appears twice: leave one out");
    else
        place = column;
}

void WideRows::read_label_name(std::size_t column) {
    const std::string written(table_.written_name(column));
    const auto label = read_label(table_.names()[column]);
    if (!label) {
        table_.report(column, "the column '" + written +
                                  "' is not candidate, date, total, only or a part such as 7b: rename it or "
                                  "leave it out");
        return;
    }
    const auto twin = std::find_if(part_columns_.begin(), part_columns_.end(),
                                   [&](const PartColumn& other) { return other.label == *label; });
    if (twin != part_columns_.end()) {
        table_.report(column, "the column '" + written + "' is part " + *label +
                                  " for the second time: leave one out");
        return;
    }
    const auto part = on_file_ ? on_file_->find_part(*label) : part_columns_.size();
    if (part)
        part_columns_.push_back({column, *label, *part});
    else
        table_.report(column,
                      "paper " + id_ + " has no part " + *label + ": rename the column or leave it out");
}

void WideRows::report_missing_columns() {
    std::vector<bool> there(on_file_->parts().size());
    for (const PartColumn& column : part_columns_)
        there[column.part] = true;
    std::vector<std::string_view> missing;
    const std::vector<bool> is_set = set_for_all(*on_file_);
    for (std::size_t i = 0; i < there.size(); ++i)
        if (!there[i] && is_set[i] && !only_)
            missing.push_back(on_file_->parts()[i].label);
    if (!missing.empty())
        table_.report_header("the header has no column for " + short_list(missing) + " of paper " + id_ +
                             ": add it, or name the parts that were set with --only");
}

/// Whether each part was set, as --only says for all rows.
std::vector<bool> WideRows::set_for_all(const Paper& paper) const {
    std::vector<bool> is_set(paper.parts().size(), options_.only.empty());
    if (!options_.only.empty())
        for (const std::size_t part : parts_set(paper, options_.only))
            is_set[part] = true;
    return is_set;
}

void WideRows::read_row() {
    if (is_max_row()) {
        read_max_row();
        return;
    }
    require_paper();
    ++csv_.rows;
    if (is_absence())
        read_absence();
    else
        read_sitting();
}

bool WideRows::is_max_row() const {
    const std::string_view code = table_.cell(0);
    const auto is = [&](std::size_t i, char lower) { return (code[i] | 0x20) == lower; };
    return code.size() == 3 && is(0, 'm') && is(1, 'a') && is(2, 'x');
}

void WideRows::read_max_row() {
    if (max_line_) {
        table_.report(0, "the row max appears twice, first in line " + std::to_string(*max_line_) +
                             ": leave one out");
        return;
    }
    max_line_ = table_.line();
    std::vector<Part> parts;
    Marks sum;
    for (const PartColumn& column : part_columns_) {
        const auto max = read_max(column);
        if (!max)
            continue;
        sum += *max;
        parts.push_back({column.label, *max, "", ""});
    }
    const bool whole = parts.size() == part_columns_.size();
    if (whole)
        check_total(sum, "the maxima");
    if (paper_ || paper_refused_)
        return;
    if (whole)
        make_paper(std::move(parts));
    paper_refused_ = paper_ == nullptr;
}

/// The maximum in the current row; nothing if it is not one or differs from the one on file.
std::optional<Marks> WideRows::read_max(const PartColumn& column) {
    try {
        const int max = parse_whole_number(table_.cell(column.column), 1, max_part_marks.count(),
                                           "part " + column.label + ", maximum");
        if (!on_file_ || on_file_->parts()[column.part].max == Marks(max))
            return Marks(max);
        table_.report(column.column, "part " + column.label + " has the maximum " + std::to_string(max) +
                                         " here and " +
                                         std::to_string(on_file_->parts()[column.part].max.count()) +
                                         " on file: they must agree");
    } catch (const Error& error) {
        table_.report(column.column, error.what());
    }
    return std::nullopt;
}

void WideRows::make_paper(std::vector<Part> parts) {
    try {
        paper_ =
            std::make_shared<const Paper>(PaperHead{id_, "", options_.subject, {}, {}}, std::move(parts));
    } catch (const Error& error) {
        table_.report_row(error.what());
    }
}

void WideRows::require_paper() {
    if (paper_ || paper_refused_)
        return;
    table_.report(0, "paper " + id_ +
                         " is not on file: add it with paper add, or put the maxima into the first row "
                         "below the header, with max as its candidate");
    paper_refused_ = true;
}

bool WideRows::is_absence() const {
    return std::all_of(part_columns_.begin(), part_columns_.end(),
                       [&](const PartColumn& column) { return table_.cell(column.column).empty(); });
}

void WideRows::read_absence() {
    ++csv_.absent;
    roll_.candidate(0);
    if (date_ && !table_.cell(*date_).empty())
        roll_.day(*date_);
    if (!part_columns_.empty())
        check_total(Marks(0), "the row's unaided marks");
}

/// Nothing if the row has none, which is reported unless the whole file has no date column.
std::optional<Day> WideRows::read_day() {
    if (date_ && !table_.cell(*date_).empty())
        return roll_.day(*date_);
    if (date_ && !options_.date)
        table_.report(*date_, "the row has no date: write one, or use --date");
    return options_.date;
}

void WideRows::read_sitting() {
    const std::size_t candidate = roll_.candidate(0);
    const auto day = read_day();
    auto marks = paper_ ? read_marks() : std::nullopt;
    if (!day)
        return;
    const auto found = roll_.sitting(candidate, 0, *day);
    ClassSitting& sitting = csv_.sittings[found.position];
    if (!found.is_new)
        table_.report(0, "candidate " + csv_.candidates[candidate] + " has a second row for " + iso(*day) +
                             ", first in line " + std::to_string(sitting.line) + ": leave one out");
    if (marks)
        sitting.parts = *std::move(marks);
}

std::optional<std::vector<PartMarks>> WideRows::read_marks() {
    const auto is_set = read_set();
    if (!is_set)
        return std::nullopt;
    std::vector<PartMarks> parts(paper_->parts().size(), PartMarks::not_set());
    std::vector<bool> has_column(parts.size());
    bool whole = true;
    for (const PartColumn& column : part_columns_) {
        const auto marks = read_mark(column, (*is_set)[column.part]);
        whole = whole && marks;
        has_column[column.part] = true;
        if (marks)
            parts[column.part] = *marks;
    }
    for (std::size_t i = 0; only_ && i < parts.size(); ++i)
        if ((*is_set)[i] && !has_column[i]) {
            table_.report(*only_, "part " + paper_->parts()[i].label +
                                      " has no column: add it, or leave "
                                      "it out here");
            whole = false;
        }
    if (!whole || !read_choices(parts))
        return std::nullopt;
    check_total(totals(*paper_, parts).unaided(), "the row's unaided marks");
    return parts;
}

/// Whether each part was set, as the row says, or else --only.
std::optional<std::vector<bool>> WideRows::read_set() {
    if (!only_ || table_.cell(*only_).empty())
        return set_for_all(*paper_);
    std::vector<bool> is_set(paper_->parts().size());
    const bool read = table_.in_cell(*only_, [&] {
        for (const std::size_t part : positions_named(*paper_, table_.cell(*only_)))
            is_set[part] = true;
    });
    return read ? std::optional(is_set) : std::nullopt;
}

/// Settles which questions count; false where what was set can't be.
bool WideRows::read_choices(std::vector<PartMarks>& parts) {
    try {
        check_set(*paper_, parts);
        count_chosen(*paper_, parts);
        return true;
    } catch (const Error& error) {
        table_.report_row(error.what());
        return false;
    }
}

/// Reads a plain number that fits directly; anything else goes through the core's rules.
std::optional<PartMarks> WideRows::read_mark(const PartColumn& column, bool is_set) {
    const std::string_view text = table_.cell(column.column);
    if (!is_set) {
        if (text.empty() || text == not_set_word)
            return PartMarks::not_set();
        table_.report(column.column,
                      "part " + column.label +
                          " was not set in this row: leave the cell empty, or say that it was");
        return std::nullopt;
    }
    const Marks max = paper_->parts()[column.part].max;
    const auto plain = plain_number(text);
    if (plain && Marks(*plain) <= max)
        return PartMarks({Marks(*plain)}, max);
    try {
        if (text.empty())
            throw Error("no mark for " + column.label +
                        ": write - if it was not attempted, not-set if it was not set");
        return parse_cell_marks(text, max);
    } catch (const Error& error) {
        table_.report(column.column, error.what());
        return std::nullopt;
    }
}

/// An empty total states nothing.
void WideRows::check_total(Marks sum, const char* of_what) {
    if (!total_ || table_.cell(*total_).empty())
        return;
    const int most = max_part_marks.count() * static_cast<int>(Paper::max_parts);
    try {
        const int total = parse_whole_number(table_.cell(*total_), 0, most, "total");
        if (Marks(total) != sum)
            throw Error("the total is " + std::to_string(total) + ", but " + of_what + " add up to " +
                        std::to_string(sum.count()) + ": correct one or the other");
    } catch (const Error& error) {
        table_.report(*total_, error.what());
    }
}

} // namespace

void read_wide_class(HeadedTable& table, const ClassFileOptions& options, const PaperSource& papers,
                     ClassFile& csv) {
    if (!options.paper) {
        table.report_header("this file has a column for each part and names no paper: use --paper ID");
        return;
    }
    try {
        check_paper_id(*options.paper);
    } catch (const Error& error) {
        csv.problems.add(0, 0, error.what());
        return;
    }
    WideRows(table, options, papers, csv).read();
}

} // namespace inkturn
