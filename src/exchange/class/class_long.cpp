#include "exchange/class/class_roll.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/paper/label.hpp"
#include "inkturn/sitting/sitting.hpp"

#include <algorithm>
#include <array>
#include <unordered_set>
#include <utility>

namespace inkturn {
namespace {

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
    struct Columns {
        std::size_t candidate, paper, date, part, in_time;
        std::optional<std::size_t> overtime, corrected, reason, max;
    };

    struct Run {
        std::string candidate, paper, date; ///< as they are written
        std::size_t first_line = 0;
        std::size_t paper_position = 0;
        std::optional<std::size_t> sitting; ///< nothing: its rows are checked but not kept
        std::size_t next_part = 0;          ///< the likeliest one
    };

    bool match_columns();
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

    std::optional<PartMarks> read_marks(const LongPart& part);
    std::optional<PartMarks> read_unusual_marks(const LongPart& part);
    std::optional<int> read_ink(std::optional<std::size_t> column, const char* name, const LongPart& part);
    std::optional<PartMarks> judge(const std::string& text, Marks max, std::size_t column);

    void make_room(std::size_t sitting, std::size_t parts);
    void keep(std::size_t part, const PartMarks& marks);
    void report_twice(std::size_t part);
    void set_aside_sitting();

    void make_papers();
    void report_missing_parts(std::size_t position);
    std::vector<bool> not_set_by_option(const LongPaper& paper) const;
    void settle(std::size_t position);

    HeadedTable& table_;
    const ClassFileOptions& options_;
    const PaperSource& source_;
    ClassFile& csv_;
    ClassRoll roll_;
    Columns columns_{};
    Run run_;
    std::vector<LongPaper> papers_;
    std::unordered_map<std::string, std::size_t> paper_positions_;
    std::array<std::size_t, Paper::max_parts> lines_{}; ///< the last line of each part, in any run
    std::vector<std::vector<bool>> met_;                ///< by sitting: the parts that have a row
    std::unordered_set<std::size_t> set_aside_;         ///< sittings with a row whose part is unknown
};

void LongRows::read() {
    if (!match_columns())
        return;
    while (table_.next()) {
        ++csv_.rows;
        if (!continues_run())
            start_run();
        read_part();
    }
    if (csv_.rows == 0 && table_.ragged_rows() == 0)
        table_.report_header("no rows below the header: give each part of each sitting one");
    make_papers();
    if (table_.ragged_rows() > 0)
        return;
    for (std::size_t i = 0; i < csv_.sittings.size(); ++i)
        if (set_aside_.count(i) == 0) {
            report_missing_parts(i);
            settle(i);
        }
}

bool LongRows::match_columns() {
    constexpr std::size_t required = 5;
    const auto found = table_.match(
        {"candidate", "paper", "date", "part", "in_time", "overtime", "corrected", "reason", "max"},
        required);
    if (std::find(found.begin(), found.begin() + required, std::nullopt) != found.begin() + required)
        return false;
    columns_ = {*found[0], *found[1], *found[2], *found[3], *found[4],
                found[5],  found[6],  found[7],  found[8]};
    return true;
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
    const auto [found, is_new] = paper_positions_.try_emplace(std::string(id), papers_.size());
    if (is_new) {
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
    const auto marks = read_marks(paper.parts[*part]);
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
        std::string label = parse_label(written);
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
                                         (part.line ? " in line " + std::to_string(*part.line) : " on file") +
                                         ": they must agree");
    return true;
}

std::optional<Marks> LongRows::read_max(const std::string& label) {
    try {
        return Marks(
            parse_whole_number(cell(columns_.max), 1, max_part_marks.count(), "part " + label + ", maximum"));
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

/// Reads plain numbers that fit directly; anything else goes through the core's rules.
std::optional<PartMarks> LongRows::read_marks(const LongPart& part) {
    const auto number_or_zero = [](std::string_view text) {
        return text.empty() ? std::optional<int>(0) : plain_number(text);
    };
    const auto in_time = plain_number(table_.cell(columns_.in_time));
    const auto overtime = number_or_zero(cell(columns_.overtime));
    const auto corrected = number_or_zero(cell(columns_.corrected));
    const bool all_plain = in_time && overtime && corrected;
    if (!all_plain || *in_time + *overtime + *corrected > part.max.count())
        return read_unusual_marks(part);
    PartMarks marks({Marks(*in_time), Marks(*overtime), Marks(*corrected)}, part.max);
    const std::string_view reason = cell(columns_.reason);
    if (!reason.empty()) {
        const auto stated = reason_named(reason);
        if (!stated || marks.in_time() == part.max)
            return read_unusual_marks(part);
        marks.state_reason(*stated, part.max);
    }
    return marks;
}

std::optional<PartMarks> LongRows::read_unusual_marks(const LongPart& part) {
    const bool is_set = table_.cell(columns_.in_time) != not_set_word;
    const bool attempted = is_set && table_.cell(columns_.in_time) != "-";
    const auto in_time = attempted ? read_ink(columns_.in_time, "in_time", part) : 0;
    const auto overtime = read_ink(columns_.overtime, "overtime", part);
    const auto corrected = read_ink(columns_.corrected, "corrected", part);
    if (!in_time || !overtime || !corrected)
        return std::nullopt;
    if (!attempted && (*overtime > 0 || *corrected > 0)) {
        table_.report(*overtime > 0 ? *columns_.overtime : *columns_.corrected,
                      "part " + part.label +
                          (is_set ? " has marks but was not attempted: write 0 instead of - "
                                    "if it was tried or corrected after the time"
                                  : " has marks but was not set: leave one or the other out"));
        return std::nullopt;
    }
    std::string text(is_set ? "-" : not_set_word);
    if (attempted)
        text = std::to_string(*in_time) + '+' + std::to_string(*overtime) + '+' + std::to_string(*corrected);
    auto marks = judge(text, part.max, columns_.in_time);
    const std::string reason(cell(columns_.reason));
    if (marks && !reason.empty())
        marks = judge(text + ':' + reason, part.max, *columns_.reason);
    return marks;
}

std::optional<int> LongRows::read_ink(std::optional<std::size_t> column, const char* name,
                                      const LongPart& part) {
    const std::string_view text = cell(column);
    if (text.empty() && column != columns_.in_time)
        return 0;
    try {
        if (text.empty())
            throw Error("no mark for " + part.label +
                        ": write - if it was not attempted, not-set if it was not set");
        return parse_whole_number(text, 0, part.max.count(), "part " + part.label + ", " + name);
    } catch (const Error& error) {
        table_.report(*column, error.what());
        return std::nullopt;
    }
}

std::optional<PartMarks> LongRows::judge(const std::string& text, Marks max, std::size_t column) {
    try {
        return parse_cell_marks(text, max);
    } catch (const Error& error) {
        table_.report(column, error.what());
        return std::nullopt;
    }
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
                                  ? "first in line " + std::to_string(lines_[part])
                                  : "in a sitting that starts in line " + std::to_string(sitting.line);
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

/// Settles which questions count where a paper on file has a choice, and what was set can't be.
void LongRows::settle(std::size_t position) {
    ClassSitting& sitting = csv_.sittings[position];
    const auto& paper = csv_.papers[sitting.paper].paper;
    if (!paper || sitting.parts.size() != paper->parts().size())
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
