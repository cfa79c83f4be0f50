#include "exchange/class/wide_layout.hpp"

#include "exchange/class/class_heading.hpp"
#include "exchange/class/class_roll.hpp"
#include "inkturn/base/ascii.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/paper/label.hpp"

#include <algorithm>
#include <set>
#include <utility>

namespace inkturn {
namespace {

/// A heading and where it is.
struct Headed {
    WideColumn column;
    ColumnHeading heading;
};

/// Makes a layout of the header's cells.
class WideHeader {
  public:
    WideHeader(HeadedTable& table, const ClassFileOptions& options, const PaperSource& source,
               ClassFile& file)
        : table_(table), options_(options), source_(source), file_(file) {}

    std::optional<WideLayout> read();

  private:
    void take_headings();
    ColumnHeading heading_with_paper(std::string_view written) const;
    std::optional<std::string> named_paper(std::string_view written) const;
    bool choose_candidates();
    void take_row_above();
    void check_papers_above();
    void take_questions_above(const std::vector<std::string>& above);
    void take_papers_above(const std::vector<std::string>& above);
    bool take_row_below();

    bool place_columns();
    void place(Headed& headed);
    void take_once(std::optional<std::size_t>& place, const WideColumn& column);
    WidePaperColumns* paper_of(const Headed& headed);
    void take_part(WidePaperColumns& paper, const Headed& headed);
    void sort_out_sums(WidePaperColumns& paper);
    bool is_whole_of_parts(const WidePaperColumns& paper, const WideColumn& column) const;
    void match_paper(WidePaperColumns& paper);
    void report(const WideColumn& column, std::string message);

    HeadedTable& table_;
    const ClassFileOptions& options_;
    const PaperSource& source_;
    ClassFile& file_;
    std::vector<Headed> columns_;
    WideLayout layout_;
};

std::optional<WideLayout> WideHeader::read() {
    take_headings();
    if (!choose_candidates())
        return std::nullopt;
    take_row_above();
    check_papers_above();
    layout_.has_row = table_.next();
    if (layout_.has_row && take_row_below())
        layout_.has_row = table_.next();
    if (!place_columns())
        return std::nullopt;
    return std::move(layout_);
}

void WideHeader::take_headings() {
    constexpr std::size_t max_placed = 1000; // finding the places of more would take long
    for (std::size_t i = 0; i < table_.names().size(); ++i) {
        const std::string_view written = trimmed(table_.written_name(i));
        Headed headed{{i, std::string(written)}, heading_with_paper(written)};
        headed.column.label = headed.heading.label;
        headed.column.max = headed.heading.max;
        headed.column.place = i < max_placed ? table_.problem_in(i, {}) : Problem{table_.line(), 0, {}};
        columns_.push_back(std::move(headed));
    }
}

/// A heading that may have a paper on file in front of it, with a blank between.
ColumnHeading WideHeader::heading_with_paper(std::string_view written) const {
    ColumnHeading heading = read_heading(written);
    const std::size_t blank = written.find(' ');
    if (heading.kind != ColumnKind::unknown || blank == std::string_view::npos)
        return heading;
    const auto paper = named_paper(written.substr(0, blank));
    if (!paper)
        return heading;
    ColumnHeading of_paper = read_heading(written.substr(blank));
    of_paper.paper = *paper;
    return of_paper;
}

/// The paper on file that a text names.
std::optional<std::string> WideHeader::named_paper(std::string_view written) const {
    auto id = read_paper_heading(written);
    return id && source_(*id) ? id : std::nullopt;
}

/// The column of codes, or of people if there is none. False where none can be it.
bool WideHeader::choose_candidates() {
    std::vector<std::string_view> headings;
    for (const Headed& headed : columns_)
        headings.push_back(headed.column.heading);
    const auto found = column_of_candidates(headings);
    if (!found)
        return false;
    layout_.candidate = *found;
    const std::string chosen = columns_[*found].column.heading;
    file_.reading.codes_headed_as_names = is_heading_of_names(chosen);
    for (Headed& headed : columns_) {
        const bool is_chosen = headed.column.column == layout_.candidate;
        if (is_chosen)
            headed.heading.kind = ColumnKind::candidate;
        else if (lower_case(headed.column.heading) == lower_case(chosen))
            report(headed.column,
                   "the column " + lower_case(headed.column.heading) + " appears twice: leave one out");
        else if (headed.heading.kind == ColumnKind::candidate)
            headed.heading.kind = ColumnKind::person;
    }
    return true;
}

/// Questions or papers over the columns: a cell holds for those right of it, up to the next.
void WideHeader::take_row_above() {
    std::vector<std::string> above = table_.row_above();
    above.resize(columns_.size());
    bool all_questions = true;
    bool all_on_file = true;
    std::set<std::string> ids;
    for (std::size_t i = 0; i < above.size(); ++i) {
        above[i] = trimmed(above[i]);
        if (above[i].empty())
            continue;
        const auto id = read_paper_heading(above[i]);
        all_questions = all_questions && read_heading(above[i]).kind == ColumnKind::part;
        all_on_file = all_on_file && i != layout_.candidate && named_paper(above[i]);
        ids.insert(id && i != layout_.candidate ? *id : std::string());
    }
    if (ids.empty())
        return;
    if (all_questions)
        take_questions_above(above);
    else if (all_on_file || (!options_.paper && ids.size() > 1 && ids.count("") == 0))
        take_papers_above(above);
    else
        return;
    --file_.reading.rows_above;
}

/// A file that names papers is of these, whatever was asked for: then one of the two is a mistake.
void WideHeader::check_papers_above() {
    for (const Headed& headed : columns_)
        if (options_.paper && !headed.heading.paper.empty() && headed.heading.paper != *options_.paper) {
            report(headed.column, "it is of paper " + headed.heading.paper + ", and --paper says " +
                                      *options_.paper +
                                      ": leave out --paper, or the columns of other papers");
            return;
        }
}

void WideHeader::take_questions_above(const std::vector<std::string>& above) {
    std::string question;
    for (std::size_t i = 0; i < columns_.size(); ++i) {
        if (!above[i].empty())
            question = read_heading(above[i]).label;
        Headed& headed = columns_[i];
        const bool may_be_part = headed.heading.kind == ColumnKind::unknown ||
                                 (headed.heading.kind == ColumnKind::blank && !above[i].empty());
        const auto sub_part =
            may_be_part ? read_sub_part_heading(headed.column.heading) : std::optional<std::string>();
        if (question.empty() || !sub_part)
            continue;
        headed.heading.kind = ColumnKind::part;
        headed.column.label = question + *sub_part;
        headed.column.heading = headed.column.label;
    }
}

void WideHeader::take_papers_above(const std::vector<std::string>& above) {
    std::string paper;
    for (std::size_t i = 0; i < columns_.size(); ++i) {
        if (!above[i].empty())
            paper = *read_paper_heading(above[i]);
        if (columns_[i].heading.paper.empty())
            columns_[i].heading.paper = paper;
    }
}

/// A second header row: sub-parts, with no candidate. Questions hold for the columns right of them too.
bool WideHeader::take_row_below() {
    if (!trimmed(table_.cell(layout_.candidate)).empty())
        return false;
    std::vector<std::optional<std::string>> sub_parts(columns_.size());
    std::string question;
    bool any = false;
    for (std::size_t i = 0; i < columns_.size(); ++i) {
        const std::string_view text = trimmed(table_.cell_if_there(i));
        const ColumnKind kind = columns_[i].heading.kind;
        if (text.empty())
            continue;
        sub_parts[i] = read_sub_part_heading(text);
        if (!sub_parts[i] || sub_parts[i]->empty() || (kind != ColumnKind::part && kind != ColumnKind::blank))
            return false;
        any = true;
    }
    for (std::size_t i = 0; any && i < columns_.size(); ++i) {
        Headed& headed = columns_[i];
        if (headed.heading.kind == ColumnKind::part)
            question = headed.column.label;
        else if (headed.heading.kind != ColumnKind::blank)
            question.clear();
        if (!sub_parts[i] || question.empty())
            continue;
        headed.heading.kind = ColumnKind::part;
        headed.column.label = question + *sub_parts[i];
        headed.column.heading = headed.column.label;
        headed.heading.paper =
            headed.heading.paper.empty() && i > 0 ? columns_[i - 1].heading.paper : headed.heading.paper;
    }
    return any;
}

bool WideHeader::place_columns() {
    std::vector<std::size_t> blank;
    for (Headed& headed : columns_) {
        if (headed.heading.kind == ColumnKind::blank)
            blank.push_back(headed.column.column);
        else if (headed.column.column != layout_.candidate)
            place(headed);
    }
    if (layout_.has_row)
        table_.expect_blank(std::move(blank));
    const bool names_none = std::any_of(columns_.begin(), columns_.end(), [&](const Headed& headed) {
        return headed.heading.kind == ColumnKind::part && headed.heading.paper.empty() && !options_.paper;
    });
    if (names_none || (layout_.papers.empty() && !options_.paper)) {
        table_.report_header("this file has a column for each part and names no paper: use --paper ID");
        return false;
    }
    const bool has_parts = std::any_of(layout_.papers.begin(), layout_.papers.end(), [](const auto& paper) {
        return !paper.parts.empty() || !paper.sums.empty() || paper.on_file;
    });
    if (!has_parts) {
        table_.report_header("no column is a part of paper " + options_.paper.value_or("") +
                             ": give each part one, headed by its label, such as 7b");
        return false;
    }
    for (WidePaperColumns& paper : layout_.papers) {
        sort_out_sums(paper);
        match_paper(paper);
    }
    return true;
}

void WideHeader::place(Headed& headed) {
    WidePaperColumns* const paper = paper_of(headed);
    switch (headed.heading.kind) {
    case ColumnKind::date:
        take_once(headed.heading.paper.empty() || !paper ? layout_.date : paper->date, headed.column);
        return;
    case ColumnKind::extra_time:
        take_once(layout_.extra_time, headed.column);
        return;
    case ColumnKind::only:
        take_once(layout_.only, headed.column);
        return;
    case ColumnKind::total:
        if (paper && paper->total)
            report(headed.column, "the column '" + headed.column.heading +
                                      "' is a total for the second time: leave one out");
        else if (paper)
            paper->total = headed.column;
        return;
    case ColumnKind::part:
        if (paper)
            take_part(*paper, headed);
        return;
    case ColumnKind::subtotal:
        if (paper)
            paper->sums.push_back(headed.column);
        return;
    case ColumnKind::unknown:
        layout_.unknown.push_back(headed.column);
        return;
    default:
        layout_.ignored.push_back(headed.column);
    }
}

void WideHeader::take_once(std::optional<std::size_t>& place, const WideColumn& column) {
    if (place)
        report(column, "the column " + lower_case(column.heading) + " appears twice: leave one out");
    else
        place = column.column;
}

/// The paper that a column belongs to, by its heading or --paper; null if neither names one.
WidePaperColumns* WideHeader::paper_of(const Headed& headed) {
    const std::string id = headed.heading.paper.empty() ? options_.paper.value_or("") : headed.heading.paper;
    if (id.empty())
        return nullptr;
    for (WidePaperColumns& paper : layout_.papers)
        if (paper.id == id)
            return &paper;
    const ColumnKind kind = headed.heading.kind;
    if (kind != ColumnKind::part && kind != ColumnKind::subtotal && kind != ColumnKind::total)
        return nullptr;
    layout_.papers.push_back({id, source_(id), {}, {}, {}, {}, {}});
    return &layout_.papers.back();
}

void WideHeader::take_part(WidePaperColumns& paper, const Headed& headed) {
    const auto twin = std::find_if(paper.parts.begin(), paper.parts.end(), [&](const WideColumn& other) {
        return other.label == headed.column.label;
    });
    if (paper.parts.size() > Paper::max_parts)
        return; // one too many is refused with the paper
    if (twin != paper.parts.end())
        report(headed.column, "the column '" + headed.column.heading + "' is part " + headed.column.label +
                                  " for the second time: leave one out");
    else
        paper.parts.push_back(headed.column);
}

/// Doubts columns that look like sums of others, and reads those of no parts as parts.
void WideHeader::sort_out_sums(WidePaperColumns& paper) {
    std::vector<WideColumn> sums;
    const auto has_parts = [&](const WideColumn& column) {
        return std::any_of(paper.parts.begin(), paper.parts.end(), [&](const WideColumn& part) {
            return part.label != column.label && (question_of(part.label) == column.label ||
                                                  (column.label.size() == 1 && is_letter(column.label[0]) &&
                                                   part.label[0] == column.label[0]));
        });
    };
    for (WideColumn& column : paper.sums) {
        const bool is_section = is_letter(column.label.back()) && column.label.size() == 1;
        if (!has_parts(column) && !is_section) {
            Headed headed{std::move(column), {}};
            take_part(paper, headed);
        } else {
            sums.push_back(std::move(column));
        }
    }
    for (auto part = paper.parts.begin(); part != paper.parts.end();) {
        if (!is_whole_of_parts(paper, *part)) {
            ++part;
            continue;
        }
        sums.push_back(*part);
        part = paper.parts.erase(part);
    }
    paper.sums.clear();
    for (WideColumn& column : sums) {
        Problem at = column.place;
        at.message = "the column '" + column.heading + "' stands beside parts of " + column.label +
                     ": it may be their sum";
        file_.doubts.raise(DoubtKind::sum, std::move(at));
        if (file_.doubts.is_otherwise(DoubtKind::sum))
            take_part(paper, {column, {}});
        else
            paper.sums.push_back(column);
    }
    std::sort(paper.parts.begin(), paper.parts.end(),
              [](const WideColumn& a, const WideColumn& b) { return a.column < b.column; });
}

/// A question beside its own parts, such as 2 beside 2a and 2b, that the paper on file doesn't have so.
bool WideHeader::is_whole_of_parts(const WidePaperColumns& paper, const WideColumn& column) const {
    if (question_of(column.label) != column.label ||
        (paper.on_file && paper.on_file->find_part(column.label)))
        return false;
    return std::any_of(paper.parts.begin(), paper.parts.end(), [&](const WideColumn& other) {
        return other.label != column.label && question_of(other.label) == column.label;
    });
}

/// Sets aside the parts that a paper on file has not.
void WideHeader::match_paper(WidePaperColumns& paper) {
    if (!paper.on_file)
        return;
    for (auto part = paper.parts.begin(); part != paper.parts.end();) {
        if (paper.on_file->find_part(part->label)) {
            ++part;
            continue;
        }
        paper.strangers.push_back(*part);
        part = paper.parts.erase(part);
    }
}

void WideHeader::report(const WideColumn& column, std::string message) {
    Problem at = column.place;
    at.message = std::move(message);
    file_.problems.add(std::move(at));
}

} // namespace

std::optional<WideLayout> read_wide_layout(HeadedTable& table, const ClassFileOptions& options,
                                           const PaperSource& source, ClassFile& file) {
    return WideHeader(table, options, source, file).read();
}

} // namespace inkturn
