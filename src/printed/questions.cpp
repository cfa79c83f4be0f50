#include "printed/parts.hpp"

#include "inkturn/base/ascii.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>
#include <utility>

namespace inkturn::printed {
namespace {

/// The numbers at the lines' starts, each with its section: the letter printed before it, or where numbers
/// begin again in sections the one of the heading above it.
std::vector<Rung> number_rungs(const Starts& starts, const Numbering& numbering, std::size_t end) {
    std::vector<Rung> rungs;
    std::optional<int> heading;
    for (std::size_t line = 0; line < end; ++line) {
        if (numbering.by_section && starts.lines[line].section)
            heading = starts.lines[line].section;
        const auto& number = numbering.enclosed ? starts.label(line).enclosed : starts.label(line).number;
        if (!number)
            continue;
        Rung rung = starts.rung(line, number->left, number->right, number->left);
        rung.section = number->section ? number->section : heading;
        rung.number = number->number;
        rung.style = static_cast<int>(number->style);
        rung.is_alone = starts.label(line).rest.empty() && starts.label(line).sub_parts.empty();
        rung.worth = rung.is_alone ? -0.7 : 0; // it may number the page
        rungs.push_back(rung);
    }
    return rungs;
}

std::string label_of(std::optional<int> section, int number) {
    const std::string letter = section ? std::string(1, static_cast<char>('A' + *section - 1)) : "";
    return letter + std::to_string(number);
}

void doubt_gaps(const Starts& starts, const Chain& chain, std::vector<Doubt>& doubts) {
    for (const Gap& gap : gaps_in(chain)) {
        const auto label = [&](int number) { return label_of(gap.before.section, number); };
        const bool is_one = gap.first == gap.last;
        doubts.push_back({starts.layout.page_of(gap.before.line),
                          (is_one ? "question " + label(gap.first) + " was"
                                  : "questions " + label(gap.first) + " to " + label(gap.last) + " were") +
                              " not found before question " + label(gap.before.number)});
    }
}

bool is_like(const Rung& a, const Rung& b) {
    constexpr Points like_edge{3};
    return a.style == b.style && (abs(a.left - b.left) < like_edge || abs(a.right - b.right) < like_edge);
}

/// Numbers that look like a question's, where a question could begin, yet aren't in the chain.
void doubt_repeats(const Starts& starts, const Chain& chain, std::vector<Doubt>& doubts) {
    std::size_t next = 0;
    for (const Rung& rung : chain.others) {
        while (next < chain.rungs.size() && chain.rungs[next].line <= rung.line)
            ++next;
        if (next == 0 || !starts.follow_marks[rung.line])
            continue;
        const Rung& question = chain.rungs[next - 1];
        const PrintedLabel& read = starts.label(rung.line);
        const bool goes_on = rung.number == question.number && rung.section == question.section &&
                             (!read.sub_parts.empty() || read.rest.find("ontinue") != std::string::npos);
        if (!goes_on && is_like(rung, question))
            doubts.push_back({starts.layout.page_of(rung.line),
                              "number " + label_of(rung.section, rung.number) + " is printed in question " +
                                  label_of(question.section, question.number) +
                                  " where a question's number could be"});
    }
}

/// Whether an appendix begins at the line, at the head of a page: no label goes on from before it.
bool begins_appendix(const Starts& starts, std::size_t line) {
    const Layout& layout = starts.layout;
    const bool begins_page = line > 0 && layout.page_of(line) != layout.page_of(line - 1);
    if (!begins_page || !starts.lines[line].heads_appendix)
        return false;
    const auto next = std::find_if(
        starts.lines.begin() + static_cast<std::ptrdiff_t>(line) + 1, starts.lines.end(),
        [](const LineStart& start) { return start.label.number || !start.label.sub_parts.empty(); });
    return next == starts.lines.end() || (next->label.number && next->label.number->number == 1);
}

/// The last line that says so, or else the first appendix after marks.
std::size_t end_of_paper(const Starts& starts) {
    const std::size_t count = starts.lines.size();
    for (std::size_t line = count; line-- > 0;)
        if (starts.marks[line] > 0 && starts.lines[line].ends_paper)
            return line;
    for (std::size_t line = 0; line < count; ++line)
        if (starts.marks[line] > 0 && begins_appendix(starts, line))
            return line;
    return count;
}

} // namespace

std::vector<LineStart> starts_of(const Layout& layout, const std::vector<PrintedMarks>& marks) {
    std::set<std::size_t> after_marks;
    for (const PrintedMarks& read : marks)
        if (read.place == PrintedMarks::Place::before_text)
            after_marks.insert(read.line);
    std::vector<LineStart> starts;
    bool is_read = false; // with the line before
    for (std::size_t i = 0; i < layout.lines.size(); ++i) {
        const Line& line = layout.lines[i];
        const auto before = after_marks.count(i) > 0 ? read_marks_before(line) : std::nullopt;
        starts.push_back({is_read ? PrintedLabel{} : read_line_start(before ? before->rest : line),
                          section_heading(line), is_answer_line(line), ends_paper(line),
                          is_heading_of_appendix(line)});
        auto broken = layout.below(i) ? read_broken_label(line, *layout.below(i)) : std::nullopt;
        is_read = broken.has_value();
        if (broken)
            starts.back().label = *std::move(broken);
    }
    return starts;
}

Starts read_starts(const Layout& layout, const std::vector<LineStart>& lines,
                   const std::vector<std::size_t>& lines_with_marks, const Shifts& shifts) {
    Starts starts{layout, lines, {}, {0}, shifts, layout.lines.size()};
    bool follows = false;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const auto next = std::upper_bound(lines_with_marks.begin(), lines_with_marks.end(), i);
        starts.follow_marks.push_back(follows);
        starts.marks.push_back(static_cast<std::size_t>(next - lines_with_marks.begin()));
        if (!lines[i].is_to_write_on)
            follows = starts.marks[i + 1] > starts.marks[i];
    }
    starts.end = end_of_paper(starts);
    return starts;
}

std::vector<QuestionLabels> recognise_questions(const Starts& starts, const Numbering& numbering,
                                                std::vector<Doubt>& doubts) {
    const Chain chain = best_chain(number_rungs(starts, numbering, starts.end), starts.marks, starts.end);
    std::vector<QuestionLabels> questions;
    if (chain.rungs.empty() || starts.marks[starts.end] == starts.marks[chain.rungs.front().line])
        return questions;
    doubt_gaps(starts, chain, doubts);
    doubt_repeats(starts, chain, doubts);
    for (std::size_t i = 0; i < chain.rungs.size(); ++i) {
        const Rung& rung = chain.rungs[i];
        const std::string label = label_of(rung.section, rung.number);
        questions.push_back({label, rung.number, rung.line, chain.end_of(i), {{label, rung.line}}});
    }
    return questions;
}

void doubt_numbers_before(const Starts& starts, const QuestionLabels& first, std::vector<Doubt>& doubts) {
    const Chain chain = best_chain(number_rungs(starts, {}, first.line), starts.marks, first.line);
    std::size_t with_marks = 0;
    for (std::size_t i = 0; i < chain.rungs.size(); ++i) {
        const std::string& rest = starts.label(chain.rungs[i].line).rest;
        const bool is_row_of_table = std::none_of(rest.begin(), rest.end(), is_lower);
        with_marks += !is_row_of_table && chain.has_marks(starts.marks, i) ? 1U : 0U;
    }
    if (with_marks < 2)
        return;
    const Rung& begin = chain.rungs.front();
    const Rung& last = chain.rungs.back();
    doubts.push_back({starts.layout.page_of(begin.line),
                      "numbers " + label_of(begin.section, begin.number) + " to " +
                          label_of(last.section, last.number) + " are printed with marks before question " +
                          first.label + ": they were not taken as questions"});
}

} // namespace inkturn::printed
