#include "inkturn/printed/paper.hpp"

#include "printed/cover.hpp"
#include "printed/marks.hpp"
#include "printed/parts.hpp"
#include "printed/strips.hpp"
#include "printed/sums.hpp"

#include "inkturn/paper/paper.hpp"

#include <algorithm>
#include <set>

namespace inkturn {
namespace {

using namespace printed;

constexpr std::size_t max_doubts = 200;

std::vector<std::size_t> lines_with_marks(const MarksOnPaper& marks) {
    std::vector<std::size_t> lines;
    for (const PrintedMarks& read : marks.marks)
        lines.push_back(read.line);
    for (const PrintedTotal& total : marks.totals)
        lines.push_back(total.line);
    std::sort(lines.begin(), lines.end());
    return lines;
}

std::vector<NamedTotal> named_totals(const MarksOnPaper& marks) {
    std::vector<NamedTotal> named;
    for (const PrintedTotal& total : marks.totals)
        if (total.of == PrintedTotal::Of::question && total.question)
            named.push_back({total.line, *total.question});
    return named;
}

void read_totals_of_paper(PrintedPaper& paper, const Layout& layout, const Cover& cover,
                          const MarksOnPaper& marks, std::size_t first_question) {
    std::vector<CoverStatement<int>> totals = cover.totals;
    for (const PrintedTotal& total : marks.totals)
        if (total.of == PrintedTotal::Of::paper && total.line >= first_question)
            totals.push_back({total.count, total.line});
    for (const CoverStatement<int>& total : totals) {
        if (!paper.total)
            paper.total = Marks(total.value);
        else if (paper.total->count() != total.value)
            paper.doubts.push_back({layout.page_of(layout.lines[total.line]),
                                    "the paper's total is stated as " + std::to_string(total.value) +
                                        " here and as " + std::to_string(paper.total->count()) + " before"});
    }
}

void read_duration(PrintedPaper& paper, const Layout& layout, const Cover& cover) {
    for (const CoverStatement<Seconds>& duration : cover.durations) {
        if (!paper.duration)
            paper.duration = duration.value;
        else if (*paper.duration != duration.value)
            paper.doubts.push_back({layout.page_of(layout.lines[duration.line]),
                                    "the duration is stated as " + length_text(duration.value) +
                                        " here and as " + length_text(*paper.duration) + " before"});
    }
}

/// The last heading of a section before a line; 0 where there is none.
std::size_t heading_before(const Layout& layout, std::size_t line) {
    while (line > 0 && !section_heading(layout.lines[line]))
        --line;
    return line;
}

/// A section begins after the total of the one before it, or at its heading.
void check_sections(PrintedPaper& paper, const Layout& layout, const std::vector<QuestionLabels>& questions,
                    const MarksOnPaper& marks) {
    std::size_t question = 0;
    for (const PrintedTotal& total : marks.totals) {
        if (total.of != PrintedTotal::Of::section || questions.empty() || total.line < questions.front().line)
            continue;
        const std::size_t heading = heading_before(layout, total.line);
        while (question < questions.size() && questions[question].line < heading)
            ++question;
        int sum = 0;
        for (; question < questions.size() && questions[question].line <= total.line; ++question)
            for (const std::size_t part : paper.questions[question].parts)
                sum += paper.parts[part].marks.value_or(Marks(0)).count();
        if (sum != total.count && sum > 0)
            paper.doubts.push_back({layout.page_of(layout.lines[total.line]),
                                    "the section's questions add up to " + marks_text(sum) +
                                        ", its total says " + std::to_string(total.count)});
    }
}

void check_paper(PrintedPaper& paper) {
    int sum = 0;
    std::set<std::string> labels;
    for (const PrintedPart& part : paper.parts) {
        sum += part.marks.value_or(Marks(0)).count();
        if (!labels.insert(part.label).second)
            paper.doubts.push_back({part.page, "part " + part.label + " was found more than once"});
    }
    if (paper.total && sum != paper.total->count())
        paper.doubts.push_back({std::nullopt, "the parts add up to " + marks_text(sum) + ", the paper says " +
                                                  std::to_string(paper.total->count())});
    if (paper.parts.size() > Paper::max_parts)
        paper.doubts.push_back({std::nullopt, std::to_string(paper.parts.size()) +
                                                  " parts were found; a paper has at most " +
                                                  std::to_string(Paper::max_parts)});
}

/// The line of a total of the paper or of a section, if it is one.
bool is_other_total(const MarksOnPaper& marks, std::size_t line) {
    const auto total =
        std::lower_bound(marks.totals.begin(), marks.totals.end(), line,
                         [](const PrintedTotal& read, std::size_t at) { return read.line < at; });
    return total != marks.totals.end() && total->line == line && total->of != PrintedTotal::Of::question;
}

bool has_columns(const Layout& layout, std::size_t line) {
    return layout.regions[layout.lines[line].region].side != Region::Side::whole;
}

/// The last question ends before the paper's total, and before a later page in
/// columns where it is in none itself, such as a sheet of formulae.
std::size_t end_of_questions(const Layout& layout, const QuestionLabels& last, const MarksOnPaper& marks) {
    std::size_t page_begin = last.line;
    for (std::size_t line = last.line + 1; line < last.end; ++line) {
        if (is_other_total(marks, line))
            return line;
        if (layout.page_of(layout.lines[line]) != layout.page_of(layout.lines[line - 1]))
            page_begin = line;
        if (page_begin > last.line && has_columns(layout, line) && !has_columns(layout, last.line))
            return page_begin;
    }
    return last.end;
}

/// `Total: 75` at the end of the last question is the paper's where its cover says so and the question has
/// another total or other marks.
void give_last_total_to_paper(MarksOnPaper& marks, const Cover& cover, const QuestionLabels& last) {
    if (marks.totals.empty() || marks.totals.back().line < last.line || marks.totals.back().question)
        return;
    PrintedTotal& total = marks.totals.back();
    int sum = 0;
    for (const PrintedMarks& read : marks.marks)
        sum += read.line >= last.line ? read.count : 0;
    const bool is_stated =
        std::any_of(cover.totals.begin(), cover.totals.end(),
                    [&](const CoverStatement<int>& read) { return read.value == total.count; });
    if (total.of == PrintedTotal::Of::question && is_stated && sum > 0 && sum != total.count)
        total.of = PrintedTotal::Of::paper;
}

MarksOnPaper marks_in(const Layout& layout, std::vector<Doubt>& doubts) {
    MarksOnPaper all = recognise_marks(layout);
    const Starts starts = read_starts(layout, lines_with_marks(all), all.shifts, named_totals(all));
    std::vector<Doubt> unused;
    std::vector<std::size_t> bounds;
    const std::vector<QuestionLabels> questions = recognise_questions(starts, unused);
    for (const QuestionLabels& question : questions)
        bounds.push_back(question.line);
    if (!questions.empty()) {
        bounds.push_back(end_of_questions(layout, questions.back(), all));
        doubt_numbers_before(starts, questions.front(), doubts);
    }
    return marks_of_questions(layout, std::move(all), bounds);
}

/// A question ends before the heading or total of a section that comes after its marks. The last one ends
/// with the page of its last marks.
Span span_of(const Layout& layout, const QuestionLabels& question, const MarksOnPaper& marks, bool is_last) {
    const std::size_t last = last_line_with_marks(question, marks);
    for (std::size_t line = last + 1; line < question.end; ++line) {
        const bool is_other_page = layout.page_of(layout.lines[line]) != layout.page_of(layout.lines[last]);
        if (section_heading(layout.lines[line]) || ends_paper(layout.lines[line]) ||
            is_other_total(marks, line) || (is_last && is_other_page))
            return {question.line, line};
    }
    return {question.line, question.end};
}

void keep_first_doubts(std::vector<Doubt>& doubts) {
    if (doubts.size() <= max_doubts)
        return;
    const std::size_t more = doubts.size() - max_doubts;
    doubts.resize(max_doubts);
    doubts.push_back({std::nullopt, "there are " + std::to_string(more) + " more doubts"});
}

} // namespace

PrintedPaper recognise_paper(const std::vector<PrintedPage>& pages) {
    const Layout layout = layout_of(pages, Columns::told);
    PrintedPaper paper;
    MarksOnPaper marks = marks_in(layout, paper.doubts);
    const Starts starts = read_starts(layout, lines_with_marks(marks), marks.shifts, named_totals(marks));
    std::vector<QuestionLabels> questions = recognise_questions(starts, paper.doubts);
    const std::size_t first = questions.empty() ? layout.lines.size() : questions.front().line;
    const Cover cover = read_cover(layout, first);
    if (!questions.empty()) {
        give_last_total_to_paper(marks, cover, questions.back());
        questions.back().end = end_of_questions(layout, questions.back(), marks);
    }
    read_duration(paper, layout, cover);
    read_totals_of_paper(paper, layout, cover, marks, first);
    if (questions.empty()) {
        paper.doubts.push_back({std::nullopt, "no question was found: no numbers 1, 2, 3 stand one below the "
                                              "other with marks at the right edge after them"});
        return paper;
    }
    recognise_sub_parts(starts, questions, paper.doubts);
    std::vector<Span> spans;
    for (const QuestionLabels& question : questions) {
        append_question(paper, layout, question, marks);
        spans.push_back(span_of(layout, question, marks, &question == &questions.back()));
    }
    const auto strips = strips_of(layout, marks.shifts, spans);
    for (std::size_t i = 0; i < questions.size(); ++i)
        paper.questions[i].strips = strips[i];
    check_sections(paper, layout, questions, marks);
    check_paper(paper);
    std::stable_sort(paper.doubts.begin(), paper.doubts.end(),
                     [](const Doubt& a, const Doubt& b) { return a.page && (!b.page || *a.page < *b.page); });
    keep_first_doubts(paper.doubts);
    return paper;
}

} // namespace inkturn
