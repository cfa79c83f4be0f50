#include "printed/parts.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace inkturn::printed {
namespace {

bool begins_lower(const std::string& text) {
    return !text.empty() && text.front() >= 'a' && text.front() <= 'z';
}

/// What speaks for a question's number beside its place.
double worth_of_number(const Starts& starts, std::size_t line) {
    const PrintedLabel& read = starts.lines[line];
    double worth = starts.follow_marks[line] ? 0.5 : 0;
    const bool is_apart = !read.sub_parts.empty() || read.gap_after > 0.8 * starts.layout.lines[line].height;
    worth += is_apart ? 0.3 : begins_lower(read.rest) ? -0.4 : 0;
    if (!read.sub_parts.empty() && read.sub_parts.front().letters != "a" &&
        read.sub_parts.front().letters != "i")
        worth -= 1; // `7 (b)` goes on with question 7
    return worth;
}

/// The numbers at the lines' starts, each with its section: the letter printed before it, or the one of the
/// heading above it.
std::vector<Rung> number_rungs(const Starts& starts, const std::vector<int>* sections) {
    std::vector<Rung> rungs;
    for (std::size_t line = 0; line < starts.end; ++line) {
        const auto& number = starts.lines[line].number;
        if (!number)
            continue;
        const int section = sections && number->section == 0 ? (*sections)[line] : number->section;
        const double shift = starts.shift_of(line);
        Rung rung{
            line, section, number->number, number->left - shift, number->right - shift, number->left - shift};
        rung.style = static_cast<int>(number->style);
        rung.page = starts.layout.page_of(starts.layout.lines[line]);
        rung.is_alone = starts.lines[line].rest.empty() && starts.lines[line].sub_parts.empty();
        rung.has_sub_part = !starts.lines[line].sub_parts.empty();
        rung.worth = worth_of_number(starts, line);
        rungs.push_back(rung);
    }
    return rungs;
}

/// The section of each line by the headings; empty where there are fewer than two.
std::vector<int> sections_of(const Layout& layout) {
    std::vector<int> sections;
    int section = 0;
    std::size_t headings = 0;
    for (const Line& line : layout.lines) {
        if (const auto heading = section_heading(line)) {
            section = *heading;
            ++headings;
        }
        sections.push_back(section);
    }
    return headings < 2 ? std::vector<int>{} : sections;
}

std::string label_of(int section, int number) {
    const std::string letter = section > 0 ? std::string(1, static_cast<char>('A' + section - 1)) : "";
    return letter + std::to_string(number);
}

void doubt_gaps(const Starts& starts, const std::vector<Rung>& chain, std::vector<Doubt>& doubts) {
    int section = chain.front().section;
    int expected = 1;
    for (const Rung& rung : chain) {
        if (rung.section != section)
            expected = 1;
        section = rung.section;
        const std::size_t page = starts.layout.page_of(starts.layout.lines[rung.line]);
        if (rung.number == expected + 1)
            doubts.push_back({page, "question " + label_of(section, expected) +
                                        " was not found before question " + label_of(section, rung.number)});
        else if (rung.number > expected)
            doubts.push_back({page, "questions " + label_of(section, expected) + " to " +
                                        label_of(section, rung.number - 1) +
                                        " were not found before question " + label_of(section, rung.number)});
        expected = rung.number + 1;
    }
}

bool is_like(const Rung& a, const Rung& b) {
    return a.style == b.style && (std::abs(a.left - b.left) < 3 || std::abs(a.right - b.right) < 3);
}

/// Numbers that look like a question's, where a question could begin, yet are none of the chain.
void doubt_repeats(const Starts& starts, const std::vector<Rung>& rungs, const std::vector<Rung>& chain,
                   std::vector<Doubt>& doubts) {
    std::size_t next = 0;
    for (const Rung& rung : rungs) {
        while (next < chain.size() && chain[next].line <= rung.line)
            ++next;
        if (next == 0 || chain[next - 1].line == rung.line || !starts.follow_marks[rung.line])
            continue;
        const Rung& question = chain[next - 1];
        const PrintedLabel& read = starts.lines[rung.line];
        const bool goes_on = rung.number == question.number && rung.section == question.section &&
                             (!read.sub_parts.empty() || read.rest.find("ontinue") != std::string::npos);
        if (goes_on || !is_like(rung, question))
            continue;
        const std::size_t page = starts.layout.page_of(starts.layout.lines[rung.line]);
        doubts.push_back({page, "number " + label_of(rung.section, rung.number) + " stands in question " +
                                    label_of(question.section, question.number) +
                                    " where a question's number could stand"});
    }
}

/// Whether an appendix begins at the line, at the head of a page: no label goes on from before it.
bool begins_appendix(const Starts& starts, std::size_t line) {
    const Layout& layout = starts.layout;
    const bool begins_page =
        line > 0 && layout.page_of(layout.lines[line]) != layout.page_of(layout.lines[line - 1]);
    if (!begins_page || !is_heading_of_appendix(layout.lines[line]))
        return false;
    for (std::size_t next = line + 1; next < starts.lines.size(); ++next) {
        const PrintedLabel& read = starts.lines[next];
        if (read.number)
            return read.number->number == 1;
        if (!read.sub_parts.empty() && read.sub_parts.front().style == LetterStyle::bracketed)
            return false;
    }
    return true;
}

/// The last line that says so, or else the first appendix after marks.
std::size_t end_of_paper(const Starts& starts) {
    const std::size_t count = starts.lines.size();
    for (std::size_t line = count; line-- > 0;)
        if (starts.marks[line] > 0 && ends_paper(starts.layout.lines[line]))
            return line;
    for (std::size_t line = 0; line < count; ++line)
        if (starts.marks[line] > 0 && begins_appendix(starts, line))
            return line;
    return count;
}

} // namespace

Starts read_starts(const Layout& layout, const std::vector<std::size_t>& lines_with_marks,
                   const Shifts& shifts, std::vector<NamedTotal> totals) {
    Starts starts{layout, {}, {}, {0}, shifts, std::move(totals), layout.lines.size()};
    bool follows = false;
    std::size_t next = 0;
    for (std::size_t i = 0; i < layout.lines.size(); ++i) {
        starts.lines.push_back(read_line_start(layout.lines[i]));
        starts.follow_marks.push_back(follows);
        const std::size_t before = next;
        while (next < lines_with_marks.size() && lines_with_marks[next] <= i)
            ++next;
        starts.marks.push_back(next);
        if (!is_answer_line(layout.lines[i]))
            follows = next > before;
    }
    starts.end = end_of_paper(starts);
    return starts;
}

std::vector<QuestionLabels> recognise_questions(const Starts& starts, std::vector<Doubt>& doubts) {
    const std::size_t end = starts.end;
    std::vector<Rung> rungs = number_rungs(starts, nullptr);
    Chain chain = best_chain(rungs, starts.marks, end, starts.totals);
    if (const std::vector<int> sections = sections_of(starts.layout); !sections.empty()) {
        std::vector<Rung> by_section = number_rungs(starts, &sections);
        Chain other = best_chain(by_section, starts.marks, end, starts.totals);
        if (other.worth > chain.worth + 1) {
            rungs = std::move(by_section);
            chain = std::move(other);
        }
    }
    std::vector<QuestionLabels> questions;
    std::vector<Rung> chosen;
    for (const std::size_t position : chain.rungs)
        chosen.push_back(rungs[position]);
    if (chosen.empty() || starts.marks[end] == starts.marks[chosen.front().line])
        return questions;
    doubt_gaps(starts, chosen, doubts);
    doubt_repeats(starts, rungs, chosen, doubts);
    for (std::size_t i = 0; i < chosen.size(); ++i) {
        const std::string label = label_of(chosen[i].section, chosen[i].number);
        questions.push_back({label,
                             chosen[i].number,
                             chosen[i].line,
                             i + 1 < chosen.size() ? chosen[i + 1].line : end,
                             {{label, chosen[i].line}}});
    }
    return questions;
}

void doubt_numbers_before(const Starts& starts, const QuestionLabels& first, std::vector<Doubt>& doubts) {
    std::vector<Rung> rungs = number_rungs(starts, nullptr);
    rungs.erase(
        std::remove_if(rungs.begin(), rungs.end(), [&](const Rung& rung) { return rung.line >= first.line; }),
        rungs.end());
    const Chain chain = best_chain(rungs, starts.marks, first.line, starts.totals);
    std::size_t with_marks = 0;
    for (std::size_t i = 0; i < chain.rungs.size(); ++i) {
        const bool is_last = i + 1 == chain.rungs.size();
        const std::size_t end = is_last ? first.line : rungs[chain.rungs[i + 1]].line;
        with_marks += starts.marks[end] > starts.marks[rungs[chain.rungs[i]].line] ? 1U : 0U;
    }
    if (with_marks < 2)
        return;
    const Rung& begin = rungs[chain.rungs.front()];
    const Rung& last = rungs[chain.rungs.back()];
    doubts.push_back({begin.page, "numbers " + label_of(begin.section, begin.number) + " to " +
                                      label_of(last.section, last.number) +
                                      " stand with marks before question " + first.label +
                                      ": they were taken for no questions"});
}

} // namespace inkturn::printed
