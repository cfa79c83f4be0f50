#include "exchange/class/class_heading.hpp"
#include "exchange/class/class_roll.hpp"
#include "exchange/class/long_marks.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/paper/label.hpp"
#include "inkturn/sitting/sitting.hpp"

#include <algorithm>
#include <array>
#include <unordered_set>
#include <utility>

namespace inkturn {
namespace {

constexpr std::size_t max_papers = 1000; ///< of a file

struct LongPart {
    std::string label;
    Marks max;
    std::optional<std::size_t> line; ///< that first stated the maximum; nothing where it is on file
    bool disputed = false;           ///< another row has stated another maximum
};

/// A paper as the rows name it.
struct LongPaper {
    std::string id;
    std::size_t line; ///< of its first row
    std::shared_ptr<const Paper> on_file;
    std::vector<LongPart> parts; ///< in its order; where it isn't on file, in the order of their first rows
    std::unordered_map<std::string, std::size_t> positions; ///< of the parts, by label
    bool refused = false; ///< its problem has been reported, its rows report no more
};

/// Reads the rows of a long file. Neighbouring rows with the same candidate, paper and date are a run,
/// looked up once; the rows of one sitting may still be spread over many runs.
class LongRows {
  public:
    LongRows(HeadedTable& table, const ClassFileOptions& options, const PaperSource& source, ClassFile& csv)
        : table_(table), options_(options), source_(source), csv_(csv), roll_(table, options, csv) {}

    void read();

  private:
    struct Run {
        std::string candidate, paper, date; ///< as they are written
        std::size_t first_line = 0;
        std::size_t candidate_position = 0;
        std::size_t paper_position = 0;
        std::optional<std::size_t> sitting; ///< nothing: its rows are checked but not kept
        std::size_t next_part = 0;          ///< the likeliest one
    };

    void read_rows();
    bool match_columns();
    void take_unknown(std::size_t column);
    std::string_view cell(std::optional<std::size_t> column) const {
        return column ? table_.cell(*column) : std::string_view();
    }

    bool continues_run() const;
    void start_run();
    std::size_t position_of_paper(std::string_view id);
    void take_from_file(LongPaper& paper);

    void read_part();
    std::optional<std::size_t> find_part(LongPaper& paper);
    std::optional<std::size_t> add_part(LongPaper& paper, std::string label);
    bool check_max(LongPaper& paper, LongPart& part);
    std::optional<Marks> read_max(const std::string& label);
    void refuse_without_max(LongPaper& paper);

    void make_room(std::size_t sitting, std::size_t parts);
    void keep(std::size_t part, const PartMarks& marks);
    void report_twice(std::size_t part);
    void set_aside_sitting();

    void make_papers();
    void report_missing_parts(std::size_t position);
    std::vector<bool> not_set_by_option(const LongPaper& paper) const;
    void settle(std::size_t position);
    void settle_absence(std::size_t position);
    void drop_absent();

    HeadedTable& table_;
    const ClassFileOptions& options_;
    const PaperSource& source_;
    ClassFile& csv_;
    ClassRoll roll_;
    LongColumns columns_{};
    Run run_;
    std::vector<LongPaper> papers_;
    std::unordered_map<std::string, std::size_t> paper_positions_;
    std::array<std::size_t, Paper::max_parts> lines_{};     ///< the last line of each part, in any run
    std::vector<std::vector<bool>> met_;                    ///< by sitting: the parts that have a row
    std::unordered_set<std::size_t> set_aside_;             ///< sittings with a row whose part is unknown
    std::unordered_map<std::size_t, std::size_t> absences_; ///< by sitting: rows that say absent
    std::unordered_set<std::size_t> absent_;                ///< sittings that were none
};

void LongRows::read() {
    if (!match_columns())
        return;
    try {
        read_rows();
    } catch (const UnreadableFile&) {
        roll_.faults().report(table_.names(), csv_.problems);
        throw;
    }
    if (csv_.rows == 0 && table_.ragged_rows() == 0)
        table_.report_header("no rows below the header: give each part of each sitting one");
    make_papers();
    for (std::size_t i = 0; table_.ragged_rows() == 0 && i < csv_.sittings.size(); ++i)
        if (set_aside_.count(i) == 0) {
            report_missing_parts(i);
            settle_absence(i);
            settle(i);
        }
    drop_absent();
    roll_.faults().report(table_.names(), csv_.problems);
}

void LongRows::read_rows() {
    while (table_.next()) {
        ++csv_.rows;
        if (!continues_run())
            start_run();
        if (columns_.extra_time)
            roll_.extra_time(*columns_.extra_time, run_.candidate_position);
        read_part();
    }
}

bool LongRows::match_columns() {
    constexpr std::size_t required = 5;
    const auto found = table_.match({"candidate", "paper", "date", "part", "in_time", "overtime", "corrected",
                                     "reason", "max", "extra_time"},
                                    required, [&](std::size_t column) { take_unknown(column); });
    if (std::find(found.begin(), found.begin() + required, std::nullopt) != found.begin() + required)
        return false;
    columns_ = {*found[0], *found[1], *found[2], *found[3], *found[4],
                found[5],  found[6],  found[7],  found[8],  found[9]};
    return true;
}

/// Remarks and names are ignored, other columns doubted.
void LongRows::take_unknown(std::size_t column) {
    const std::string heading(trimmed(table_.written_name(column)));
    const ColumnKind kind = read_heading(heading).kind;
    const bool is_known =
        kind == ColumnKind::remark || kind == ColumnKind::person || kind == ColumnKind::candidate;
    if (is_known || !csv_.doubts.is_open(DoubtKind::column))
        csv_.reading.columns_ignored.push_back(heading);
    if (!is_known)
        csv_.doubts.raise(DoubtKind::column,
                          table_.problem_in(column, "the column '" + heading +
                                                        "' is none of a file with a row for each part"));
}

bool LongRows::continues_run() const {
    return run_.first_line != 0 && table_.cell(columns_.candidate) == run_.candidate &&
           table_.cell(columns_.date) == run_.date && table_.cell(columns_.paper) == run_.paper;
}

void LongRows::start_run() {
    run_.candidate = table_.cell(columns_.candidate);
    run_.paper = table_.cell(columns_.paper);
    run_.date = table_.cell(columns_.date);
    run_.first_line = table_.line();
    run_.next_part = 0;
    run_.sitting.reset();
    const std::size_t candidate = roll_.candidate(columns_.candidate);
    run_.candidate_position = candidate;
    run_.paper_position = position_of_paper(run_.paper);
    const auto day = roll_.day(columns_.date);
    const LongPaper& paper = papers_[run_.paper_position];
    if (!day || paper.refused)
        return;
    const auto found = roll_.sitting(candidate, run_.paper_position, *day);
    run_.sitting = found.position;
    if (found.is_new)
        make_room(found.position, paper.parts.size());
}

std::size_t LongRows::position_of_paper(std::string_view id) {
    const auto [found, is_new] = paper_positions_.try_emplace(lower_case(trimmed(id)), papers_.size());
    if (is_new) {
        if (papers_.size() == max_papers)
            throw UnreadableFile({table_.line(), 0,
                                  "there are more than " + std::to_string(max_papers) +
                                      " papers, more than any class sits: split the file"});
        papers_.push_back({found->first, table_.line(), nullptr, {}, {}});
        take_from_file(papers_.back());
    }
    return found->second;
}

void LongRows::take_from_file(LongPaper& paper) {
    try {
        check_paper_id(paper.id);
    } catch (const Error& error) {
        table_.report(columns_.paper, error.what());
        paper.refused = true;
        return;
    }
    if (options_.paper && paper.id != *options_.paper) {
        table_.report(columns_.paper, "it is of paper " + paper.id + ", and --paper says " + *options_.paper +
                                          ": leave out --paper, or the rows of other papers");
        paper.refused = true;
        return;
    }
    paper.on_file = source_(paper.id);
    if (!paper.on_file)
        return;
    for (const Part& part : paper.on_file->parts()) {
        paper.positions.emplace(part.label, paper.parts.size());
        paper.parts.push_back({part.label, part.max, std::nullopt});
    }
}

void LongRows::read_part() {
    LongPaper& paper = papers_[run_.paper_position];
    if (paper.refused)
        return;
    const auto part = find_part(paper);
    if (!part || !check_max(paper, paper.parts[*part])) {
        set_aside_sitting();
        return;
    }
    run_.next_part = *part + 1;
    const LongPart& of = paper.parts[*part];
    LongMarks marks_of_row(table_, columns_, roll_.faults());
    const auto marks = marks_of_row.read(of.label, of.max);
    if (marks_of_row.says_absent() && run_.sitting)
        ++absences_[*run_.sitting];
    if (run_.sitting)
        keep(*part, marks.value_or(PartMarks{}));
}

std::optional<std::size_t> LongRows::find_part(LongPaper& paper) {
    const std::string_view written = table_.cell(columns_.part);
    if (run_.next_part < paper.parts.size() && paper.parts[run_.next_part].label == written)
        return run_.next_part;
    auto found = paper.positions.find(std::string(written));
    if (found != paper.positions.end())
        return found->second;
    try {
        const ColumnHeading heading = read_heading(written);
        std::string label =
            heading.kind == ColumnKind::part && !heading.max ? heading.label : parse_label(written);
        found = paper.positions.find(label);
        if (found != paper.positions.end())
            return found->second;
        if (!paper.on_file)
            return add_part(paper, std::move(label));
        table_.report(columns_.part, "paper " + paper.id + " has no part " + label + ": correct the label");
    } catch (const Error& error) {
        table_.report(columns_.part, error.what());
    }
    return std::nullopt;
}

std::optional<std::size_t> LongRows::add_part(LongPaper& paper, std::string label) {
    if (paper.parts.size() == Paper::max_parts) {
        table_.report(columns_.part, "paper " + paper.id + " has more than " +
                                         std::to_string(Paper::max_parts) + " parts, the most there can be");
        paper.refused = true;
        return std::nullopt;
    }
    if (cell(columns_.max).empty()) {
        refuse_without_max(paper);
        return std::nullopt;
    }
    const auto max = read_max(label);
    const std::size_t position = paper.parts.size();
    paper.positions.emplace(label, position);
    paper.parts.push_back({std::move(label), max.value_or(max_part_marks), table_.line(), !max});
    return position;
}

/// Compares the row's maximum with the part's; false if the paper is refused because there is none.
bool LongRows::check_max(LongPaper& paper, LongPart& part) {
    const std::string_view stated = cell(columns_.max);
    if (stated.empty()) {
        if (!paper.on_file)
            refuse_without_max(paper);
        return paper.on_file != nullptr;
    }
    if (part.disputed || plain_number(stated) == part.max.count())
        return true;
    const auto max = read_max(part.label);
    part.disputed = !max || *max != part.max;
    if (max && part.disputed)
        table_.report(*columns_.max, "part " + part.label + " has the maximum " +
                                         std::to_string(max->count()) + " here and " +
                                         std::to_string(part.max.count()) +
                                         (part.line ? " in " + table_.row_text(*part.line) : " on file") +
                                         ": they must agree");
    return true;
}

std::optional<Marks> LongRows::read_max(const std::string& label) {
    try {
        return Marks(parse_whole_number(plain_cell(cell(columns_.max)), 1, max_part_marks.count(),
                                        "part " + label + ", maximum"));
    } catch (const Error& error) {
        table_.report(*columns_.max, error.what());
        return std::nullopt;
    }
}

void LongRows::refuse_without_max(LongPaper& paper) {
    table_.report(columns_.paper, "paper " + paper.id +
                                      " is not on file: add it with paper add, or give the part's maximum "
                                      "in every row, in a column max");
    paper.refused = true;
}

void LongRows::make_room(std::size_t sitting, std::size_t parts) {
    if (met_.size() <= sitting)
        met_.resize(sitting + 1);
    met_[sitting].resize(parts);
    csv_.sittings[sitting].parts.resize(parts);
}

void LongRows::keep(std::size_t part, const PartMarks& marks) {
    auto& parts = csv_.sittings[*run_.sitting].parts;
    if (part >= parts.size())
        make_room(*run_.sitting, papers_[run_.paper_position].parts.size());
    if (met_[*run_.sitting][part])
        report_twice(part);
    met_[*run_.sitting][part] = true;
    parts[part] = marks;
    lines_[part] = table_.line();
}

void LongRows::report_twice(std::size_t part) {
    const ClassSitting& sitting = csv_.sittings[*run_.sitting];
    const std::string first = lines_[part] >= run_.first_line
                                  ? "first in " + table_.row_text(lines_[part])
                                  : "in a sitting that starts in " + table_.row_text(sitting.line);
    table_.report(columns_.part, "part " + papers_[run_.paper_position].parts[part].label +
                                     " appears twice for " + run_.candidate + " on " + iso(sitting.day) +
                                     ", " + first + ": leave one out");
}

void LongRows::set_aside_sitting() {
    if (run_.sitting)
        set_aside_.insert(*run_.sitting);
}

void LongRows::make_papers() {
    for (LongPaper& paper : papers_) {
        const bool to_be_made = !paper.on_file && !paper.refused && csv_.problems.empty();
        csv_.papers.push_back({paper.on_file, paper.on_file != nullptr});
        if (!to_be_made)
            continue;
        std::vector<Part> parts;
        for (const LongPart& part : paper.parts)
            parts.push_back({part.label, part.max, "", ""});
        try {
            csv_.papers.back().paper = std::make_shared<const Paper>(
                PaperHead{paper.id, "", options_.subject, {}, {}}, std::move(parts));
        } catch (const Error& error) {
            csv_.problems.add(paper.line, 0, error.what());
        }
    }
}

void LongRows::report_missing_parts(std::size_t position) {
    const ClassSitting& sitting = csv_.sittings[position];
    const LongPaper& paper = papers_[sitting.paper];
    if (paper.refused)
        return;
    make_room(position, paper.parts.size());
    const std::vector<bool> may_lack = not_set_by_option(paper);
    std::vector<std::string_view> missing;
    for (std::size_t i = 0; i < sitting.parts.size(); ++i) {
        if (met_[position][i])
            continue;
        if (may_lack[i])
            csv_.sittings[position].parts[i] = PartMarks::not_set();
        else
            missing.push_back(paper.parts[i].label);
    }
    if (!missing.empty())
        csv_.problems.add(
            sitting.line, 0,
            "the sitting of " + csv_.candidates[sitting.candidate] + " on " + iso(sitting.day) +
                " has no row for " + short_list(missing) +
                ": add it, with - as in_time if it was not attempted, not-set if it was not set");
}

/// Whether a part of the paper may go without a row, as --only leaves it out.
std::vector<bool> LongRows::not_set_by_option(const LongPaper& paper) const {
    std::vector<bool> may_lack(paper.parts.size(), !options_.only.empty() && paper.on_file);
    if (!options_.only.empty() && paper.on_file)
        for (const std::size_t part : parts_set(*paper.on_file, options_.only))
            may_lack[part] = false;
    return may_lack;
}

/// A sitting whose rows all say absent is none; one without a part that was tried may be none.
void LongRows::settle_absence(std::size_t position) {
    const ClassSitting& sitting = csv_.sittings[position];
    const auto absences = absences_.find(position);
    if (absences != absences_.end() && absences->second == sitting.parts.size()) {
        absent_.insert(position);
        return;
    }
    const auto who = [&] {
        return "the sitting of " + csv_.candidates[sitting.candidate] + " on " + iso(sitting.day);
    };
    if (absences != absences_.end()) {
        csv_.problems.add(sitting.line, 0,
                          who() + " says absent in some rows and not in all: write - for a part that was not "
                                  "attempted");
        return;
    }
    const bool tried = std::any_of(sitting.parts.begin(), sitting.parts.end(),
                                   [](const PartMarks& marks) { return marks.attempted(); });
    const bool any_set = std::any_of(sitting.parts.begin(), sitting.parts.end(),
                                     [](const PartMarks& marks) { return marks.is_set(); });
    if (tried || !any_set || !csv_.problems.empty())
        return;
    csv_.doubts.raise(
        DoubtKind::nothing_tried,
        {sitting.line, 0, who() + " has no part that was tried: absent, or there and wrote nothing?"});
    const bool is_settled = !csv_.doubts.is_open(DoubtKind::nothing_tried);
    if (is_settled && !csv_.doubts.is_otherwise(DoubtKind::nothing_tried))
        absent_.insert(position);
}

void LongRows::drop_absent() {
    if (absent_.empty())
        return;
    std::vector<ClassSitting> there;
    for (std::size_t i = 0; i < csv_.sittings.size(); ++i)
        if (absent_.count(i) == 0)
            there.push_back(std::move(csv_.sittings[i]));
        else
            csv_.reading.absent.push_back({csv_.sittings[i].candidate, csv_.sittings[i].paper,
                                           csv_.sittings[i].day, csv_.sittings[i].line});
    csv_.absent += absent_.size();
    csv_.sittings = std::move(there);
}

/// Settles which questions count where a paper on file has a choice, and what was set can't be.
void LongRows::settle(std::size_t position) {
    ClassSitting& sitting = csv_.sittings[position];
    const auto& paper = csv_.papers[sitting.paper].paper;
    if (!paper || sitting.parts.size() != paper->parts().size() || absent_.count(position) > 0)
        return;
    try {
        check_set(*paper, sitting.parts);
        count_chosen(*paper, sitting.parts);
    } catch (const Error& error) {
        csv_.problems.add(sitting.line, 0,
                          "the sitting of " + csv_.candidates[sitting.candidate] + " on " + iso(sitting.day) +
                              ": " + error.what());
    }
}

} // namespace

void read_long_class(HeadedTable& table, const ClassFileOptions& options, const PaperSource& papers,
                     ClassFile& csv) {
    LongRows(table, options, papers, csv).read();
}

} // namespace inkturn
