#include "exchange/class/retried_file.hpp"

#include "exchange/class/class_cell.hpp"
#include "exchange/class/class_heading.hpp"
#include "exchange/class/class_roll.hpp"
#include "exchange/table/table.hpp"
#include "inkturn/base/ascii.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/paper/label.hpp"
#include "inkturn/paper/paper.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>
#include <utility>

namespace inkturn {
namespace {

constexpr const char* no_retried_header =
    "no line at the top is a header: one cell of it has to be candidate, and another retry, or paper and "
    "question";

bool is_retried_header(const std::vector<std::string_view>& cells) {
    const auto has = [&](std::string_view name) {
        return std::any_of(cells.begin(), cells.end(),
                           [&](std::string_view cell) { return lower_case(trimmed(cell)) == name; });
    };
    return is_class_header(cells) && (has("retry") || has("question"));
}

/// Where the columns are; those of the sheet that say what is asked for are known and not read.
struct RetriedColumns {
    std::size_t candidate = 0;
    std::optional<std::size_t> retry, paper, question, part, max, date;
    std::optional<std::size_t> marks, in_time, overtime, corrected, reason;
};

class RetriedRows {
  public:
    RetriedRows(HeadedTable& table, const RetriedFileOptions& options, RetriedFile& file)
        : table_(table), options_(options), file_(file) {}

    void read() {
        if (!match_columns())
            return;
        table_.keep_notes_apart(is_note);
        while (table_.next())
            if (!leave_out_note()) {
                ++file_.rows;
                read_row();
            }
        for (const Problem& note : table_.notes())
            if (!leaves_out_row(note.message, note, file_.doubts, file_.rows_left_out))
                refuse_note(note);
        if (file_.rows == 0 && table_.ragged_rows() == 0)
            table_.report_header("no rows below the header: give each part, or each retry, one");
    }

  private:
    std::string cell(std::optional<std::size_t> column) const {
        return column ? std::string(trimmed(table_.cell(*column))) : std::string();
    }
    std::string plain(std::optional<std::size_t> column) const {
        return column ? plain_cell(table_.cell(*column)) : std::string();
    }

    bool match_columns();
    void take_unknown(std::size_t column);
    bool leave_out_note();
    void refuse_note(Problem note);
    void read_row();
    std::optional<RetryId> read_id();
    std::string read_question();
    RetriedEntry* entry_of_row();
    void read_date(RetriedEntry& entry);
    std::optional<Day> day_in(std::size_t column);
    void read_part(RetriedEntry& entry);
    std::string inks_text();
    std::string ink(std::optional<std::size_t> column, const char* name);
    void read_words(RetriedEntry& entry);
    void add_marks(RetriedEntry& entry, std::string part, std::string marks, std::size_t column);

    using Key = std::tuple<std::string, std::string, std::string, std::string>;

    HeadedTable& table_;
    const RetriedFileOptions& options_;
    RetriedFile& file_;
    RetriedColumns columns_;
    std::map<Key, std::size_t> entries_; ///< by candidate, retry, paper, question
    DateOrders orders_;
    std::set<Day> days_doubted_;
};

bool RetriedRows::match_columns() {
    name_candidates(table_);
    constexpr std::size_t required = 1;
    const auto found = table_.match({"candidate", "retry", "paper", "question", "part", "max", "date",
                                     "marks", "in_time", "overtime", "corrected", "reason", "by"},
                                    required, [&](std::size_t column) { take_unknown(column); });
    if (!found[0])
        return false;
    columns_ = {*found[0], found[1], found[2], found[3], found[4],  found[5],
                found[6],  found[7], found[8], found[9], found[10], found[11]};
    const bool is_named = columns_.retry || (columns_.paper && columns_.question);
    if (!is_named)
        table_.report_header("the header names no retries: add a column retry, or paper and question");
    const bool has_marks = columns_.marks || (columns_.part && columns_.in_time);
    if (!has_marks)
        table_.report_header("the header has no column for marks: add in_time beside part, or marks");
    if (columns_.marks && columns_.in_time)
        table_.report(*columns_.marks,
                      "marks stand in the column marks or in those of the inks: leave one out");
    return is_named && has_marks && !(columns_.marks && columns_.in_time);
}

/// Remarks and names are ignored, other columns doubted.
void RetriedRows::take_unknown(std::size_t column) {
    const std::string heading(trimmed(table_.written_name(column)));
    const ColumnKind kind = read_heading(heading).kind;
    const bool is_known = kind == ColumnKind::remark || kind == ColumnKind::person ||
                          kind == ColumnKind::candidate || kind == ColumnKind::total;
    if (is_known || !file_.doubts.is_open(DoubtKind::column))
        file_.columns_ignored.push_back(heading);
    if (!is_known)
        file_.doubts.raise(
            DoubtKind::column,
            table_.problem_in(column, "the column '" + heading + "' is none of a file of re-attempts"));
}

/// Whether the row is a note below the table, which has none of a retry.
bool RetriedRows::leave_out_note() {
    if (!(cell(columns_.retry) + cell(columns_.question) + cell(columns_.part)).empty())
        return false;
    std::vector<std::string_view> cells;
    for (std::size_t i = 0; i < table_.names().size(); ++i)
        cells.push_back(table_.cell_if_there(i));
    if (!is_note(cells))
        return false;
    const auto first = std::find_if_not(cells.begin(), cells.end(),
                                        [](std::string_view one) { return trimmed(one).empty(); });
    return leaves_out_row(std::string(trimmed(*first)),
                          table_.problem_in(static_cast<std::size_t>(first - cells.begin()), {}),
                          file_.doubts, file_.rows_left_out);
}

void RetriedRows::refuse_note(Problem note) {
    note.message = "the row '" + note.message + "' has fewer fields than the header: it can't be a retry's";
    file_.problems.add(std::move(note));
}

void RetriedRows::read_row() {
    RetriedEntry* const entry = entry_of_row();
    if (entry == nullptr)
        return;
    std::size_t count = file_.problems.count;
    read_date(*entry);
    entry->bad_day = entry->bad_day || file_.problems.count != count;
    count = file_.problems.count;
    if (columns_.part)
        read_part(*entry);
    else
        read_words(*entry);
    entry->refused = entry->refused || file_.problems.count != count;
}

std::optional<RetryId> RetriedRows::read_id() {
    std::optional<RetryId> id;
    if (const std::string written = cell(columns_.retry); !written.empty())
        table_.in_cell(*columns_.retry, [&] { id = parse_retry_id(written); });
    return id;
}

std::string RetriedRows::read_question() {
    std::string label;
    if (columns_.question && !cell(columns_.question).empty())
        table_.in_cell(*columns_.question, [&] { label = parse_label(plain(columns_.question)); });
    return label;
}

/// The re-attempt that the row is about; null where it names none.
RetriedEntry* RetriedRows::entry_of_row() {
    const std::size_t count = file_.problems.count;
    const std::string code = cell(columns_.candidate);
    if (code.empty())
        table_.report(columns_.candidate, "the row names no candidate: write the code in every row");
    const auto id = read_id();
    const std::string paper = lower_case(cell(columns_.paper));
    const std::string question = read_question();
    const bool is_named = id || (!paper.empty() && !question.empty());
    if (file_.problems.count == count && !is_named)
        table_.report_row("the row names no retry: give its id, or the paper and the question");
    if (file_.problems.count != count)
        return nullptr;
    const auto [found, is_new] = entries_.try_emplace(
        Key(code, id ? to_text(*id) : "", id ? "" : paper, id ? "" : question), file_.entries.size());
    if (is_new) {
        RetriedEntry entry{code, id, paper, question, {}, {}, false, false, {}};
        entry.at = table_.problem_in(columns_.retry && id ? *columns_.retry : columns_.candidate, {});
        file_.entries.push_back(std::move(entry));
    } else if (!columns_.part) {
        table_.report_row("the retry is already in " + table_.row_text(file_.entries[found->second].at.line) +
                          ": give each retry one row");
        return nullptr;
    }
    RetriedEntry& entry = file_.entries[found->second];
    if ((!paper.empty() && paper != entry.paper) || (!question.empty() && question != entry.question))
        table_.report_row("the retry has another paper or question in " + table_.row_text(entry.at.line) +
                          ": correct one of the rows");
    return &entry;
}

void RetriedRows::read_date(RetriedEntry& entry) {
    const std::string written = cell(columns_.date);
    if (written.empty())
        return;
    const auto day = day_in(*columns_.date);
    if (day && entry.day && *entry.day != *day)
        table_.report(*columns_.date,
                      "the retry is dated " + iso(*entry.day) + " in a row above: give its parts one date");
    else if (day)
        entry.day = day;
}

std::optional<Day> RetriedRows::day_in(std::size_t column) {
    const std::string written = cell(column);
    auto day = read_plain_day(written);
    if (!day)
        day = options_.date_order ? read_day_in_order(written, *options_.date_order) : orders_.read(written);
    if (!day) {
        const bool is_ordered = has_date_shape(written) && written.find('-') != 4;
        table_.report(column, !is_ordered
                                  ? why_no_day(written)
                                  : "'" + written + "': " +
                                        (options_.date_order
                                             ? why_not_in_order(written)
                                             : "say which of the numbers is the day: use --date-order "
                                               "dmy, mdy or ymd"));
        return std::nullopt;
    }
    if (*day > options_.today) {
        table_.report(column, "the re-attempt on " + iso(*day) + " is after today, " + iso(options_.today) +
                                  ": correct its date");
        return std::nullopt;
    }
    const date::year_month_day year_before = date::year_month_day{options_.today} - date::years{1};
    if (date::year_month_day{*day} < year_before && days_doubted_.insert(*day).second)
        file_.doubts.raise(DoubtKind::date,
                           table_.problem_in(column, day_text(*day) + " is more than a year back"));
    return day;
}

/// A row a part.
void RetriedRows::read_part(RetriedEntry& entry) {
    std::string part;
    if (!table_.in_cell(*columns_.part, [&] { part = parse_label(plain(columns_.part)); }))
        return;
    const auto same = std::find_if(entry.marks.begin(), entry.marks.end(),
                                   [&](const RetriedMarks& marks) { return marks.part == part; });
    if (same != entry.marks.end()) {
        table_.report(*columns_.part, "part " + part + " appears twice for this retry, first in " +
                                          table_.row_text(same->at.line) + ": leave one out");
        return;
    }
    const std::size_t column = columns_.marks ? *columns_.marks : *columns_.in_time;
    add_marks(entry, std::move(part), columns_.marks ? plain(columns_.marks) : inks_text(), column);
    const std::string max = plain(columns_.max);
    if (!max.empty())
        table_.in_cell(*columns_.max, [&] {
            entry.marks.back().max = parse_whole_number(max, 1, max_part_marks.count(), "the maximum");
        });
}

void RetriedRows::add_marks(RetriedEntry& entry, std::string part, std::string marks, std::size_t column) {
    const std::string said = marks.substr(0, marks.find(':'));
    if (is_absence_word(said))
        marks.clear();
    else if (is_fraction(said))
        table_.report(column, "marks '" + cell(column) + "': " + whole_marks_only);
    entry.marks.push_back({std::move(part), std::move(marks), {}, table_.problem_in(column, {})});
}

/// The cell of an ink: a whole number or nothing. `-` and not-set stand in in_time alone.
std::string RetriedRows::ink(std::optional<std::size_t> column, const char* name) {
    std::string text = plain(column);
    if (column != columns_.in_time && !text.empty() && !read_whole_number(text, max_part_marks.count()))
        table_.report(*column, "marks '" + cell(column) + "' in " + name + ": write a whole number" +
                                   (is_fraction(text) ? std::string("; ") + whole_marks_only : ""));
    return text;
}

/// `2+1+0:slip` from the columns of the inks; empty where all are.
std::string RetriedRows::inks_text() {
    const std::string in_time = ink(columns_.in_time, "in_time");
    const std::string overtime = ink(columns_.overtime, "overtime");
    const std::string corrected = ink(columns_.corrected, "corrected");
    const std::string reason = plain(columns_.reason);
    if (in_time.empty() && (!overtime.empty() || !corrected.empty() || !reason.empty())) {
        table_.report(*columns_.in_time,
                      "no marks in time beside what else is written: write 0 if it was "
                      "tried and earned nothing, - if it was not attempted in time or after it");
        return {};
    }
    std::string text = in_time;
    if (!overtime.empty() || !corrected.empty())
        text += "+" + (overtime.empty() ? "0" : overtime);
    if (!corrected.empty())
        text += "+" + corrected;
    return reason.empty() ? text : text + ":" + reason;
}

/// A row a retry: `full`, the marks of its only part, or `7a=3 7b=2+1:slip`.
void RetriedRows::read_words(RetriedEntry& entry) {
    const std::size_t column = *columns_.marks;
    const std::string written = cell(columns_.marks);
    if (lower_case(written) == "full") {
        entry.full = true;
        return;
    }
    if (written.find('=') == std::string::npos) {
        add_marks(entry, "", plain(columns_.marks), column);
        return;
    }
    for (std::size_t start = 0; start < written.size();) {
        const std::size_t end = std::min(written.find_first_of(" ;,", start), written.size());
        if (const std::string word = written.substr(start, end - start); !word.empty())
            table_.in_cell(column, [&] {
                Entry typed = parse_entry(word);
                if (std::any_of(entry.marks.begin(), entry.marks.end(),
                                [&](const RetriedMarks& marks) { return marks.part == typed.part; }))
                    throw Error("part " + typed.part + " appears twice: leave one out");
                add_marks(entry, typed.part, typed.marks, column);
                if (typed.max)
                    entry.marks.back().max = typed.max->count();
            });
        start = end + 1;
    }
}

} // namespace

bool RetriedEntry::is_blank() const {
    return !full && std::all_of(marks.begin(), marks.end(),
                                [](const RetriedMarks& part) { return part.marks.empty(); });
}

RetriedFile read_retried(Rows& rows, const RetriedFileOptions& options) {
    RetriedFile file;
    file.doubts = FileDoubts(options.accepted, {DoubtKind::encoding, DoubtKind::date, DoubtKind::no_candidate,
                                                DoubtKind::column, DoubtKind::known_code, DoubtKind::early,
                                                DoubtKind::nothing_retried});
    try {
        HeadedTable table(rows, file.problems, is_retried_header, no_retried_header);
        RetriedRows(table, options, file).read();
        if (rows.encoding_is_doubtful())
            file.doubts.raise(DoubtKind::encoding, {0, 0, valid_utf8_doubt});
    } catch (const UnreadableFile& error) {
        file.problems.add(error.problem());
    }
    return file;
}

} // namespace inkturn
