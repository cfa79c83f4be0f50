#include "printed/reading.hpp"

#include "printed/part_words.hpp"
#include "printed/strips.hpp"
#include "printed/sums.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/clock/allowance.hpp"
#include "inkturn/paper/paper.hpp"

#include <algorithm>
#include <numeric>
#include <set>
#include <utility>

namespace inkturn::printed {
namespace {

/// The first of what is stated; others that differ are doubts.
template <typename Value, typename Stated, typename Text>
void take_first(PrintedPaper& paper, std::optional<Value>& first, const Layout& layout,
                const std::vector<CoverStatement<Stated>>& all, const std::string& what, const Text& text) {
    for (const CoverStatement<Stated>& stated : all) {
        const Value value(stated.value);
        if (!first)
            first = value;
        else if (*first != value)
            paper.doubts.push_back({layout.page_of(stated.line), "the " + what + " is stated as " +
                                                                     text(value) + " here and as " +
                                                                     text(*first) + " before"});
    }
}

/// The duration and the total, as the cover and the lines from the first question on state them.
void read_stated(PrintedPaper& paper, const PaperLines& lines, const MarksChosen& marks, std::size_t first) {
    const Cover& cover = lines.cover_before(first);
    std::vector<CoverStatement<int>> totals = cover.totals;
    for (const PrintedTotal& total : marks.totals)
        if (total.of == PrintedTotal::Of::paper && total.line >= first)
            totals.push_back({total.count, total.line});
    take_first(paper, paper.duration, lines.layout, cover.durations, "duration", length_text);
    take_first(paper, paper.total, lines.layout, totals, "paper's total",
               [](Marks total) { return std::to_string(total.count()); });
}

int marks_in(const PrintedPaper& paper, std::size_t question) {
    return inkturn::marks_of(paper, paper.questions[question]).count();
}

/// The last heading of a section before a line; 0 where there is none.
std::size_t heading_before(const PaperLines& lines, std::size_t line) {
    while (line > 0 && !lines.starts[line].section)
        --line;
    return line;
}

/// A section begins after the total of the one before it, or at its heading.
void check_sections(PrintedPaper& paper, const PaperLines& lines,
                    const std::vector<QuestionLabels>& questions, const MarksChosen& marks) {
    std::size_t from = 0;
    for (const PrintedTotal& total : marks.totals) {
        if (total.of != PrintedTotal::Of::section)
            continue;
        from = std::max(from, heading_before(lines, total.line));
        int sum = 0;
        for (std::size_t i = 0; i < questions.size(); ++i)
            sum += from <= questions[i].line && questions[i].line <= total.line ? marks_in(paper, i) : 0;
        if (sum > 0)
            doubt_sum(paper.doubts, lines.page_of(total.line), "the section's questions", sum, "its total",
                      total.count);
        from = total.line;
    }
}

/// Whether the statement stands before all questions, at the heading of their section, or before the first
/// question that it names.
bool is_at_head(const PaperLines& lines, const std::vector<QuestionLabels>& questions,
                const StatedChoice& choice) {
    constexpr std::size_t lines_of_heading = 4;
    const std::size_t heading = heading_before(lines, choice.line);
    const auto next = std::find_if(questions.begin(), questions.end(), [&](const QuestionLabels& question) {
        return question.line > choice.line;
    });
    return next == questions.begin() ||
           (next != questions.end() && !choice.among.empty() && choice.among.front() == next->number) ||
           (lines.starts[heading].section && choice.line - heading <= lines_of_heading);
}

/// The heading of a section that a question stands under; none: 0.
int section_at(const PaperLines& lines, std::size_t line) {
    return lines.starts[heading_before(lines, line)].section.value_or(0);
}

/// The questions that a statement speaks of, by position.
std::vector<std::size_t> questions_of(const PaperLines& lines, const std::vector<QuestionLabels>& questions,
                                      const StatedChoice& choice) {
    const bool is_in_section = choice.line > questions.front().line;
    const int section = choice.section ? *choice.section : is_in_section ? section_at(lines, choice.line) : 0;
    std::vector<std::size_t> among;
    for (std::size_t i = 0; i < questions.size(); ++i) {
        const int number = questions[i].number;
        const bool is_named =
            choice.among.empty() || std::count(choice.among.begin(), choice.among.end(), number) > 0;
        const bool is_there = section == 0 || section_at(lines, questions[i].line) == section;
        if (is_named && is_there && number != choice.besides)
            among.push_back(i);
    }
    return among;
}

void read_choices_of_paper(PrintedPaper& paper, const PaperLines& lines,
                           const std::vector<QuestionLabels>& questions) {
    std::set<std::size_t> taken;
    for (const StatedChoice& stated : lines.choices) {
        if (!is_at_head(lines, questions, stated))
            continue;
        const std::vector<std::size_t> among = questions_of(lines, questions, stated);
        const auto count = static_cast<int>(among.size());
        if (count < stated.count)
            paper.doubts.push_back({lines.page_of(stated.line),
                                    "the paper asks for " + std::to_string(stated.count) +
                                        " questions here, but " + std::to_string(count) + " were found"});
        if (count <= stated.count || taken.count(among.front()) > 0)
            continue;
        taken.insert(among.begin(), among.end());
        PrintedChoice choice{stated.count, {}};
        for (const std::size_t i : among)
            choice.questions.push_back(questions[i].label);
        if (std::all_of(among.begin(), among.end(),
                        [&](std::size_t i) { return marks_in(paper, i) == marks_in(paper, among.front()); }))
            paper.choices.push_back(std::move(choice));
        else
            paper.doubts.push_back({lines.page_of(stated.line),
                                    "a choice of " + std::to_string(stated.count) + " among questions " +
                                        choice.questions.front() + " to " + choice.questions.back() +
                                        " is printed, but their marks differ: it is left out"});
    }
}

/// The marks of all parts; of a choice, of as many questions as count.
int marks_that_count(const PrintedPaper& paper) {
    int sum = 0;
    for (std::size_t i = 0; i < paper.questions.size(); ++i) {
        sum += marks_in(paper, i);
        for (const PrintedChoice& choice : paper.choices)
            if (choice.questions.front() == paper.questions[i].label)
                sum -= (static_cast<int>(choice.questions.size()) - choice.count) * marks_in(paper, i);
    }
    return sum;
}

/// A minute a mark is usual; what is far from it may be misread.
void doubt_duration(PrintedPaper& paper) {
    const int marks = paper.total ? paper.total->count() : marks_that_count(paper);
    if (paper.duration && marks > 0 && !is_usual_time(*paper.duration, Marks(marks)))
        paper.doubts.push_back({std::nullopt,
                                "the duration is read as " + length_text(*paper.duration) + " for " +
                                    marks_text(marks) +
                                    ", and papers have half a minute to three minutes a mark",
                                {},
                                true});
}

void check_paper(PrintedPaper& paper) {
    std::set<std::string> labels;
    for (const PrintedPart& part : paper.parts)
        if (!labels.insert(part.label).second)
            paper.doubts.push_back({part.page, "part " + part.label + " was found more than once"});
    if (paper.total)
        doubt_sum(paper.doubts, std::nullopt, "the parts", marks_that_count(paper), "the paper",
                  paper.total->count());
    if (paper.parts.size() > Paper::max_parts)
        paper.doubts.push_back({std::nullopt, std::to_string(paper.parts.size()) +
                                                  " parts were found; a paper has at most " +
                                                  std::to_string(Paper::max_parts)});
}

/// `Total: 75` at the end of the last question is the paper's where its cover says so and the question has
/// another total or other marks.
void give_last_total_to_paper(MarksChosen& marks, const Cover& cover, const QuestionLabels& last) {
    if (marks.totals.empty() || marks.totals.back().question)
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

/// Whether the line has the total of the paper or of a section, or speaks of a choice.
bool is_of_several(const PaperLines& lines, const MarksChosen& marks, std::size_t line) {
    return std::any_of(marks.totals.begin(), marks.totals.end(),
                       [&](const PrintedTotal& total) {
                           return total.line == line && total.of != PrintedTotal::Of::question;
                       }) ||
           std::any_of(lines.choices.begin(), lines.choices.end(),
                       [&](const StatedChoice& choice) { return choice.line == line; });
}

/// A question ends before the heading or total of a section that comes after its marks, and before a choice
/// of others. The last one ends with the page of its last marks, but for what goes on there with letters or
/// where its marks stand at its number and text comes after them.
RowSpan span_of(const PaperLines& lines, const std::vector<LineStart>& starts, const QuestionLabels& question,
                const MarksChosen& marks, bool is_last) {
    const std::size_t last = last_line_with_marks(question, marks);
    const bool goes_on = last == question.line && last + 1 < question.end &&
                         lines.page_of(last + 1) == lines.page_of(last) && !starts[last + 1].is_to_write_on;
    std::size_t end = last + 1;
    for (; end < question.end; ++end) {
        const bool is_other_page = is_last && !goes_on && lines.page_of(end) != lines.page_of(last);
        if (starts[end].section || starts[end].ends_paper || is_of_several(lines, marks, end) ||
            (is_other_page && starts[end].label.sub_parts.empty()))
            break;
    }
    return {question.line, std::min(end, question.end), last};
}

/// The first line from `after` on that carries the question's number, as a heading above its first part does,
/// with no other number between unless it is in words; for the first question, on its page.
std::size_t first_with_number(const PaperLines& lines, const std::vector<LineStart>& starts,
                              const QuestionLabels& question, std::size_t after) {
    const auto& own = starts[question.line].label.number;
    std::size_t first = question.line;
    bool is_after_other = false;
    for (std::size_t line = question.line; own && line-- > after;) {
        if (after == 0 && lines.page_of(line) != lines.page_of(question.line))
            break;
        const PrintedLabel& read = starts[line].label;
        const auto& number = read.number;
        const bool is_alike = number && abs(number->left - own->left) < Points(3) &&
                              (!read.rest.empty() || number->style == NumberStyle::worded);
        if (!is_alike || (is_after_other && number->style != NumberStyle::worded))
            continue;
        is_after_other = number->number != own->number || number->section != own->section;
        if (!is_after_other)
            first = line;
    }
    return first;
}

constexpr double cost_of_doubt = 2;
constexpr double worth_of_total = 1;          // of a question with several parts, that they meet
constexpr double worth_of_papers_total = 2;   // and for each part
constexpr double worth_of_papers_part = 0.15; // more

/// What speaks for a reading: parts with marks and totals that they meet, and nothing that is in doubt.
double score_of(const PaperReading& reading) {
    const PrintedPaper& paper = reading.paper;
    double score = reading.habit.each ? -1 : marks_forms[reading.habit.form].worth;
    for (const PrintedPart& part : paper.parts)
        score += part.marks ? 1 : 0;
    for (const PrintedQuestion& question : paper.questions)
        if (question.total == inkturn::marks_of(paper, question) && question.parts.size() > 1)
            score += worth_of_total;
    if (paper.total && paper.total->count() == marks_that_count(paper))
        score += worth_of_papers_total + worth_of_papers_part * static_cast<double>(paper.parts.size());
    return score - cost_of_doubt * static_cast<double>(paper.doubts.size());
}

} // namespace

PaperLines::PaperLines(Layout of_paper)
    : layout(std::move(of_paper)),
      marks(recognise_marks(layout)),
      starts(starts_of(layout)),
      choices(read_choices(layout)) {}

const std::vector<LineStart>& PaperLines::starts_in(const Habit& habit) const {
    if (habit.place != MarksPlace::before_text)
        return starts;
    std::vector<LineStart>& after = starts_after_marks[habit.form];
    if (after.empty())
        after = starts_of(layout, marks_of(*this, habit).marks);
    return after;
}

const Cover& PaperLines::cover_before(std::size_t line) const {
    const auto [cover, is_new] = covers.try_emplace(line);
    if (is_new)
        cover->second = read_cover(layout, line);
    return cover->second;
}

MarksChosen marks_of(const PaperLines& lines, const Habit& habit) {
    MarksChosen marks = habit.each
                            ? MarksChosen{{{}, lines.marks.totals}, habit.form, {}, false, habit.each->value}
                            : chosen_marks(lines.layout, lines.marks, habit.form, habit.place);
    marks.add_up = habit.add_up;
    return marks;
}

PaperReading read_as(const PaperLines& lines, const Habit& habit) {
    const Layout& layout = lines.layout;
    PaperReading reading{&lines, habit};
    PrintedPaper& paper = reading.paper;
    MarksChosen& marks = reading.marks;
    marks = marks_of(lines, habit);
    if (marks.marks.empty() && !habit.each)
        return reading;
    std::vector<std::size_t> with_marks = lines_with_marks(marks);
    if (habit.each) { // any line may be that of a question
        with_marks.resize(layout.lines.size() - habit.each->line);
        std::iota(with_marks.begin(), with_marks.end(), habit.each->line);
    }
    const Starts starts = read_starts(layout, lines.starts_in(habit), with_marks, marks.shifts);
    std::vector<QuestionLabels>& questions = reading.questions;
    questions = recognise_questions(starts, habit.numbering, paper.doubts);
    if (questions.empty())
        return reading;
    give_last_total_to_paper(marks, lines.cover_before(questions.front().line), questions.back());
    read_stated(paper, lines, marks, questions.front().line);
    if (!habit.each)
        recognise_sub_parts(starts, questions, paper.doubts);
    for (const QuestionLabels& question : questions)
        append_question(paper, layout, question, marks);
    check_sections(paper, lines, questions, marks);
    read_choices_of_paper(paper, lines, questions);
    check_paper(paper);
    reading.score = score_of(reading);
    return reading;
}

void complete(PaperReading& reading) {
    const PaperLines& lines = *reading.lines;
    if (reading.questions.empty())
        return read_stated(reading.paper, lines, reading.marks, lines.layout.lines.size());
    const std::vector<LineStart>& starts = lines.starts_in(reading.habit);
    MarksOnPaper all = lines.marks;
    const auto is_other = [&](const PrintedMarks& marks) {
        return marks.form != reading.habit.form && marks_forms[marks.form].is_bare();
    };
    all.marks.erase(std::remove_if(all.marks.begin(), all.marks.end(), is_other), all.marks.end());
    doubt_numbers_before(read_starts(lines.layout, starts, lines_with_marks(all), reading.marks.shifts),
                         reading.questions.front(), reading.paper.doubts);
    doubt_duration(reading.paper);
    std::vector<RowSpan> spans;
    for (const QuestionLabels& question : reading.questions) {
        const std::size_t after = spans.empty() ? 0 : spans.back().last_marks + 1;
        const bool is_last = &question == &reading.questions.back();
        spans.push_back(span_of(lines, starts, question, reading.marks, is_last));
        spans.back().first = first_with_number(lines, starts, question, after);
    }
    read_words(reading.paper, lines.layout, reading.questions);
    const auto strips = strips_of(lines.layout, reading.marks.shifts, spans);
    for (std::size_t i = 0; i < reading.questions.size(); ++i)
        reading.paper.questions[i].strips = strips[i];
}

} // namespace inkturn::printed
