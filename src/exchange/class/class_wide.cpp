#include "exchange/class/class_heading.hpp"
#include "exchange/class/wide_paper.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/base/text.hpp"

#include <algorithm>
#include <map>
#include <tuple>
#include <utility>

namespace inkturn {
namespace {

/// Reads the rows of a wide file: one row per candidate, one column per part.
class WideRows {
  public:
    WideRows(HeadedTable& table, const ClassFileOptions& options, ClassFile& csv, WideLayout layout);
    void read();

  private:
    void check_header();
    void read_row();
    std::string row_name() const;
    bool all_cells(const std::function<bool(std::string_view plain)>& hold) const;
    bool is_row_of_text(const std::string& name) const;
    bool states_maxima() const;
    bool is_max_row(const std::string& name);
    RowOf row_with_remarks(const WidePaper& paper, std::size_t candidate);
    bool is_left_out(const std::string& name);
    bool is_header_again() const;
    void check_header_again();
    void leave_out_note(const Problem& note);
    bool is_doubted(const WideColumn& column) const;
    void check_unknown_columns();

    void take_class_named();
    void read_candidate();
    void read_absence(WidePaper& paper, std::size_t position, std::size_t candidate);
    void read_sitting(WidePaper& paper, std::size_t position, std::size_t candidate);
    std::optional<Day> read_day(const WidePaper& paper);

    void refuse_marks_of_absent();
    void doubt_total_among_parts(std::size_t position);
    std::vector<std::string> column_names() const;

    HeadedTable& table_;
    const ClassFileOptions& options_;
    ClassFile& csv_;
    ClassRoll roll_;
    WideLayout layout_;
    std::vector<WidePaper> papers_;
    std::vector<bool> unknown_met_;
    std::size_t rows_met_ = 0;        ///< of any kind
    std::size_t rows_unread_ = 0;     ///< notes and rows of another width above the current one
    bool has_title_above_ = false;    ///< the row above the current one holds nothing but a text
    bool is_doubted_max_row_ = false; ///< the current one
};

WideRows::WideRows(HeadedTable& table, const ClassFileOptions& options, ClassFile& csv, WideLayout layout)
    : table_(table), options_(options), csv_(csv), roll_(table, options, csv), layout_(std::move(layout)) {
    for (WidePaperColumns& columns : layout_.papers)
        papers_.emplace_back(table, options, csv, roll_.faults(), layout_, std::move(columns));
    unknown_met_.resize(layout_.unknown.size());
}

void WideRows::read() {
    check_header();
    table_.keep_notes_apart(is_note);
    try {
        for (bool has_row = layout_.has_row; has_row; has_row = table_.next())
            read_row();
    } catch (const UnreadableFile&) {
        roll_.faults().report(column_names(), csv_.problems);
        throw;
    }
    for (const Problem& note : table_.notes())
        leave_out_note(note);
    if (csv_.rows == 0 && table_.ragged_rows() == 0)
        table_.report_header("no candidates below the header: give each a row");
    for (std::size_t i = 0; i < papers_.size(); ++i) {
        csv_.papers.push_back({papers_[i].paper(), papers_[i].columns().on_file != nullptr});
        doubt_total_among_parts(i);
    }
    refuse_marks_of_absent();
    for (const WideColumn& column : layout_.ignored)
        if (!is_doubted(column))
            csv_.reading.columns_ignored.push_back(column.heading);
    roll_.faults().report(column_names(), csv_.problems);
}

std::vector<std::string> WideRows::column_names() const {
    std::vector<std::string> names = table_.names();
    for (const WidePaper& paper : papers_)
        for (const WideColumn& column : paper.columns().parts)
            names[column.column] = column.label;
    return names;
}

void WideRows::check_header() {
    bool dated = options_.date || layout_.date;
    for (WidePaper& paper : papers_) {
        paper.check_header_max();
        if (paper.columns().on_file)
            paper.report_missing_columns();
        dated = dated || paper.columns().date;
    }
    if (!dated)
        table_.report_header("the sittings have no date: use --date, or add a column date");
    if (options_.date && *options_.date > options_.today)
        csv_.problems.add(0, 0,
                          "the date " + iso(*options_.date) + " is after today, " + iso(options_.today) +
                              ": correct --date");
    else if (options_.date)
        roll_.doubt_if_old(*options_.date, {0, 0, {}});
}

void WideRows::read_row() {
    const std::string name = row_name();
    if (is_header_again())
        return check_header_again();
    check_unknown_columns();
    if (is_max_row(name)) {
        for (WidePaper& paper : papers_)
            if (!is_doubted_max_row_)
                paper.read_max_row();
    } else if (is_left_out(name)) {
        if (names_who_marked(name) || !csv_.doubts.is_open(DoubtKind::no_candidate))
            csv_.reading.rows_left_out.push_back(name);
    } else {
        read_candidate();
    }
    ++rows_met_;
    has_title_above_ = all_cells([](std::string_view plain) { return plain.empty(); });
    rows_unread_ = table_.notes().size() + table_.ragged_rows();
}

/// Whether the row holds headings, as where a page or a second class starts.
bool WideRows::is_header_again() const {
    const std::string_view code = table_.cell(layout_.candidate);
    return std::none_of(code.begin(), code.end(), is_digit) && names_candidates(code);
}

/// The same header at the top of a further page is left out; another one, or one with a title above it,
/// starts another class.
void WideRows::check_header_again() {
    bool is_same = true;
    for (std::size_t i = 0; i < table_.names().size(); ++i)
        is_same = is_same && lower_case(trimmed(table_.cell_if_there(i))) == table_.names()[i];
    const bool has_title = has_title_above_ || rows_unread_ < table_.notes().size() + table_.ragged_rows();
    if (is_same && !has_title)
        csv_.reading.rows_left_out.emplace_back(trimmed(table_.cell(layout_.candidate)));
    else
        table_.report_row("a second table starts here: put each class into a file of its own");
}

/// A row below the table that holds no more than a text.
void WideRows::leave_out_note(const Problem& note) {
    if (leaves_out_row(note.message, note, csv_.doubts, csv_.reading.rows_left_out))
        return;
    Problem at = note;
    at.message = "the row '" + note.message + "' has fewer fields than the header: it can't be a candidate's";
    csv_.problems.add(std::move(at));
}

/// The row's candidate; where that is blank, the first text in a column that is ignored.
std::string WideRows::row_name() const {
    std::string_view name = trimmed(table_.cell(layout_.candidate));
    for (const WideColumn& column : layout_.ignored)
        if (name.empty())
            name = trimmed(table_.cell(column.column));
    return std::string(name);
}

/// Whether this holds for every cell of marks in the row.
bool WideRows::all_cells(const std::function<bool(std::string_view plain)>& hold) const {
    for (const WidePaper& paper : papers_)
        for (const WideColumn& column : paper.columns().parts)
            if (!hold(plain_cell(table_.cell(column.column))))
                return false;
    return true;
}

/// A text without marks.
bool WideRows::is_row_of_text(const std::string& name) const {
    return is_sentence(name) && all_cells([](std::string_view plain) { return plain.empty(); });
}

/// Whether every cell of marks has the form of a maximum, as no candidate's has.
bool WideRows::states_maxima() const {
    return std::any_of(papers_.begin(), papers_.end(),
                       [](const WidePaper& paper) { return !paper.columns().parts.empty(); }) &&
           all_cells([](std::string_view plain) { return stated_maximum(plain).has_value(); });
}

/// Maxima stand right below the header and make the paper or agree with it; elsewhere such a row is doubted.
bool WideRows::is_max_row(const std::string& name) {
    is_doubted_max_row_ = false;
    if (states_maxima())
        return true;
    if (!names_maxima(name) && !(name.empty() && rows_met_ == 0))
        return false;
    const auto is_number = [](std::string_view plain) {
        const auto stated = stated_maximum(plain);
        return stated || read_whole_number(plain, max_part_marks.count()).value_or(0) > 0;
    };
    std::string differs;
    for (const WidePaper& paper : papers_)
        if (differs.empty())
            differs = paper.maximum_that_differs();
    const bool agrees = differs.empty();
    const bool makes_paper = std::all_of(papers_.begin(), papers_.end(),
                                         [](const WidePaper& paper) { return !paper.columns().on_file; });
    if (name.empty())
        return all_cells(is_number) && agrees && makes_paper;
    if (rows_met_ == 0 && agrees)
        return true;
    Problem at = table_.problem_in(layout_.candidate, "the row '" + name +
                                                          "' may hold maximum marks, or be a candidate's" +
                                                          (agrees ? "" : ": " + differs));
    csv_.doubts.raise(DoubtKind::max_row, std::move(at));
    is_doubted_max_row_ = csv_.doubts.is_open(DoubtKind::max_row);
    return !csv_.doubts.is_otherwise(DoubtKind::max_row);
}

/// Whether the row is no candidate's, which is doubted first.
bool WideRows::is_left_out(const std::string& name) {
    if (names_who_marked(name) && all_cells([](std::string_view plain) { return plain.empty(); }))
        return true;
    const bool is_of_means =
        name.empty() && !all_cells([](std::string_view plain) { return !is_fraction(plain); });
    if (!names_no_candidate(name) && !is_row_of_text(name) && !is_of_means)
        return false;
    csv_.doubts.raise(DoubtKind::no_candidate,
                      table_.problem_in(layout_.candidate,
                                        is_of_means ? "the row without a code may not be a candidate's"
                                                    : "the row '" + name + "' may not be a candidate's"));
    return !csv_.doubts.is_otherwise(DoubtKind::no_candidate);
}

/// Whether it is a column of an unknown name, and nobody has said what becomes of it.
bool WideRows::is_doubted(const WideColumn& column) const {
    return csv_.doubts.is_open(DoubtKind::column) &&
           std::any_of(layout_.unknown.begin(), layout_.unknown.end(),
                       [&](const WideColumn& unknown) { return unknown.column == column.column; });
}

void WideRows::check_unknown_columns() {
    for (std::size_t i = 0; i < layout_.unknown.size(); ++i) {
        const WideColumn& column = layout_.unknown[i];
        if (unknown_met_[i] || trimmed(table_.cell(column.column)).empty())
            continue;
        unknown_met_[i] = true;
        layout_.ignored.push_back(column);
        Problem at = column.place;
        at.message =
            "the column '" + column.heading + "' is not candidate, date, total, only or a part such as 7b";
        csv_.doubts.raise(DoubtKind::column, std::move(at));
    }
    for (WidePaper& paper : papers_)
        paper.report_strangers();
}

void WideRows::take_class_named() {
    for (const WideColumn& column : layout_.ignored) {
        const ClassNaming naming = class_naming(column.heading);
        if (std::string name(trimmed(table_.cell(column.column)));
            naming != ClassNaming::none && !name.empty())
            (naming == ClassNaming::classes ? csv_.reading.classes : csv_.reading.groups)
                .try_emplace(std::move(name), table_.problem_in(column.column, {}));
    }
}

void WideRows::read_candidate() {
    ++csv_.rows;
    if (trimmed(table_.cell(layout_.candidate)).empty())
        return table_.report(layout_.candidate,
                             "the row has no code: write the candidate's, or leave the row out");
    take_class_named();
    if (layout_.extra_time && !papers_.empty())
        roll_.extra_time(*layout_.extra_time, roll_.candidate(layout_.candidate));
    for (std::size_t position = 0; position < papers_.size(); ++position) {
        WidePaper& paper = papers_[position];
        paper.require();
        const std::size_t candidate = roll_.candidate(layout_.candidate);
        const RowOf row = row_with_remarks(paper, candidate);
        if (row == RowOf::nothing_tried)
            csv_.doubts.raise(DoubtKind::nothing_tried,
                              table_.problem_in(layout_.candidate,
                                                "candidate " + csv_.candidates[candidate] +
                                                    " tried no part: absent, or there and wrote nothing?"));
        const bool is_otherwise = csv_.doubts.is_otherwise(DoubtKind::nothing_tried);
        if (row == RowOf::sitting || (row == RowOf::nothing_tried && is_otherwise))
            read_sitting(paper, position, candidate);
        else if (row == RowOf::absence || !csv_.doubts.is_open(DoubtKind::nothing_tried))
            read_absence(paper, position, candidate);
    }
}

/// What the row says, with a remark such as `absent` in another column.
RowOf WideRows::row_with_remarks(const WidePaper& paper, std::size_t candidate) {
    const RowOf row = paper.row_of();
    if (row == RowOf::absence || layout_.ignored.empty() || !paper.has_no_mark())
        return row;
    const bool is_blank = row == RowOf::nothing_tried;
    const auto remark =
        std::find_if(layout_.ignored.begin(), layout_.ignored.end(), [&](const WideColumn& column) {
            const std::string_view text = table_.cell(column.column);
            return is_blank ? says_absent(text) : may_say_absent(text);
        });
    if (remark == layout_.ignored.end())
        return row;
    if (is_blank)
        return RowOf::absence;
    csv_.doubts.raise(
        DoubtKind::absent_remark,
        table_.problem_in(remark->column, "candidate " + csv_.candidates[candidate] +
                                              " has no mark but 0, and '" +
                                              std::string(trimmed(table_.cell(remark->column))) +
                                              "' in the column '" + remark->heading + "'"));
    return csv_.doubts.is_otherwise(DoubtKind::absent_remark) ? RowOf::absence : row;
}

void WideRows::read_absence(WidePaper& paper, std::size_t position, std::size_t candidate) {
    ++csv_.absent;
    const auto date = paper.columns().date ? paper.columns().date : layout_.date;
    const bool has_date = date && !trimmed(table_.cell(*date)).empty();
    csv_.reading.absent.push_back(
        {candidate, position, has_date ? roll_.day(*date) : options_.date, table_.line()});
    if (!paper.columns().parts.empty())
        paper.check_absence();
}

/// Nothing if the row has none, which is reported unless the whole file has no date column.
std::optional<Day> WideRows::read_day(const WidePaper& paper) {
    const auto date = paper.columns().date ? paper.columns().date : layout_.date;
    if (date && !trimmed(table_.cell(*date)).empty())
        return roll_.day(*date);
    if (date && !options_.date)
        table_.report(*date, "the row has no date: write one, or use --date");
    return options_.date;
}

void WideRows::read_sitting(WidePaper& paper, std::size_t position, std::size_t candidate) {
    const auto day = read_day(paper);
    auto marks = paper.paper() ? paper.read_marks() : std::nullopt;
    if (!day)
        return;
    const auto found = roll_.sitting(candidate, position, *day);
    ClassSitting& sitting = csv_.sittings[found.position];
    if (!found.is_new)
        table_.report(layout_.candidate, "candidate " + csv_.candidates[candidate] +
                                             " has a second row for " + iso(*day) + ", first in " +
                                             table_.row_text(sitting.line) + ": leave one out");
    if (marks)
        sitting.parts = *std::move(marks);
}

/// Nobody sits a paper on a day on which they are absent from it.
void WideRows::refuse_marks_of_absent() {
    std::map<std::tuple<std::size_t, std::size_t, std::optional<Day>>, std::size_t> lines;
    for (const AbsenceInFile& absence : csv_.reading.absent)
        lines.emplace(std::tuple(absence.candidate, absence.paper, absence.day), absence.line);
    for (const ClassSitting& sitting : csv_.sittings) {
        auto absent = lines.find({sitting.candidate, sitting.paper, sitting.day});
        if (absent == lines.end())
            absent = lines.find({sitting.candidate, sitting.paper, std::nullopt});
        if (absent == lines.end())
            continue;
        const auto [first, second] = std::minmax(absent->second, sitting.line);
        csv_.problems.add(second, 0,
                          "candidate " + csv_.candidates[sitting.candidate] + " has a second row for " +
                              iso(sitting.day) + ", first in " + table_.row_text(first) +
                              ", once absent and once with marks: leave one out");
    }
}

/// Doubts a part that looks like the total of those before it, and leaves it out.
void WideRows::doubt_total_among_parts(std::size_t position) {
    WidePaper& paper = papers_[position];
    const auto total = paper.total_among_parts();
    if (!total)
        return;
    const WideColumn& column = paper.columns().parts[*total];
    Problem at = column.place;
    at.message = "the column '" + column.heading + "' is in every row the sum of those before it: a total?";
    csv_.doubts.raise(DoubtKind::sum, std::move(at));
    if (csv_.doubts.is_otherwise(DoubtKind::sum))
        return;
    paper.drop_part(*total);
    csv_.papers[position].paper = paper.paper();
    for (ClassSitting& sitting : csv_.sittings)
        if (sitting.paper == position && *total < sitting.parts.size())
            sitting.parts.erase(sitting.parts.begin() + static_cast<std::ptrdiff_t>(*total));
}

} // namespace

void read_wide_class(HeadedTable& table, const ClassFileOptions& options, const PaperSource& papers,
                     ClassFile& csv) {
    if (options.paper) {
        try {
            check_paper_id(*options.paper);
        } catch (const Error& error) {
            csv.problems.add(0, 0, error.what());
            return;
        }
    }
    if (auto layout = read_wide_layout(table, options, papers, csv))
        WideRows(table, options, csv, *std::move(layout)).read();
}

} // namespace inkturn
