#include "inkturn/printed/paper.hpp"

#include "printed/reading.hpp"

#include "inkturn/paper/label.hpp"

#include <algorithm>
#include <list>
#include <set>

namespace inkturn {
namespace {

using namespace printed;

constexpr std::size_t max_doubts = 200;
constexpr double nearly_as_good = 0.5;

void keep_first_doubts(std::vector<Doubt>& doubts) {
    if (doubts.size() <= max_doubts)
        return;
    const std::size_t more = doubts.size() - max_doubts;
    doubts.resize(max_doubts);
    doubts.push_back({std::nullopt, "there are " + std::to_string(more) + " more doubts"});
}

/// The numberings that its lines allow: they go on through the paper, begin again in its sections, or are in
/// brackets.
std::vector<Numbering> numberings_of(const PaperLines& lines) {
    std::vector<Numbering> numberings{{}};
    const auto count = [&](const auto& is) {
        return std::count_if(lines.starts.begin(), lines.starts.end(), is);
    };
    if (count([](const LineStart& line) { return line.section.has_value(); }) > 1)
        numberings.push_back({false, true});
    if (count([](const LineStart& line) { return line.label.enclosed.has_value(); }) > 0)
        numberings.push_back({true, false});
    return numberings;
}

/// All forms and places of marks; and no marks, if the cover says what each question has. Of those with marks
/// on the same lines only the first.
std::vector<Habit> habits_of(const PaperLines& lines) {
    std::vector<Habit> habits;
    std::set<std::size_t> forms;
    for (const PrintedMarks& marks : lines.marks.marks)
        forms.insert(marks.form);
    for (const std::size_t form : forms) {
        std::set<std::vector<std::size_t>> known;
        for (std::size_t place = 0; place < marks_places; ++place) {
            const Habit habit{form, static_cast<MarksPlace>(place)};
            MarksOnPaper marks = marks_of(lines, habit);
            marks.totals.clear();
            if (known.insert(lines_with_marks(marks)).second)
                habits.push_back(habit);
        }
    }
    Habit without;
    without.each = lines.cover_before(lines.layout.lines.size()).each;
    if (without.each)
        habits.push_back(without);
    return habits;
}

/// The readings with parts, in all ways, the best first.
std::vector<PaperReading> readings_of(const std::list<PaperLines>& all) {
    std::vector<PaperReading> readings;
    for (const bool add_up : {false, true})
        for (const PaperLines& lines : all)
            for (Habit habit : habits_of(lines))
                for (const Numbering& numbering : numberings_of(lines)) {
                    habit.numbering = numbering;
                    habit.add_up = add_up;
                    PaperReading reading = read_as(lines, habit);
                    if (!reading.paper.parts.empty())
                        readings.push_back(std::move(reading));
                }
    std::stable_sort(readings.begin(), readings.end(),
                     [](const PaperReading& a, const PaperReading& b) { return a.score > b.score; });
    return readings;
}

bool has_same_parts(const PrintedPaper& a, const PrintedPaper& b) {
    return std::equal(a.parts.begin(), a.parts.end(), b.parts.begin(), b.parts.end(),
                      [](const PrintedPart& one, const PrintedPart& other) {
                          return one.label == other.label && one.marks == other.marks;
                      });
}

bool is_confirmed(const PrintedPaper& paper) {
    return paper.total ||
           std::any_of(paper.questions.begin(), paper.questions.end(),
                       [](const PrintedQuestion& question) { return question.total.has_value(); });
}

/// Another reading nearly as good is a doubt, and so are bare numbers, unless totals confirm the best. Marks
/// that could be added up as well are doubts of their part.
void doubt_others(std::vector<PaperReading>& readings) {
    PaperReading& best = readings.front();
    if (is_confirmed(best.paper))
        return;
    if (!best.habit.each && marks_forms[best.habit.form].print == "#")
        best.paper.doubts.push_back({std::nullopt,
                                     "the marks are numbers without brackets or words, and no total "
                                     "confirms that they are marks"});
    for (const PaperReading& other : readings) {
        if (other.score + nearly_as_good < best.score || other.habit.add_up != best.habit.add_up ||
            has_same_parts(best.paper, other.paper))
            continue;
        best.paper.doubts.push_back({std::nullopt, "the paper can also be read with " +
                                                       std::to_string(other.paper.parts.size()) +
                                                       " parts or other marks, and states no total to tell"});
        return;
    }
}

/// The lines of the pages in each way that gives others.
std::list<PaperLines> lines_in(const std::vector<PrintedPage>& pages) {
    std::list<PaperLines> all;
    all.emplace_back(layout_of(pages, Columns::told));
    const Layout& first = all.front().layout;
    if (std::any_of(first.regions.begin(), first.regions.end(),
                    [](const Region& region) { return region.side != Region::Side::whole; }))
        all.emplace_back(layout_of(pages, Columns::none));
    return all;
}

/// Numbers without brackets or words may be anything.
bool is_credible(const PaperReading& reading) {
    return reading.score > 0 || reading.habit.each || !marks_forms[reading.habit.form].is_bare();
}

} // namespace

Marks marks_of(const PrintedPaper& paper, const PrintedQuestion& question) {
    Marks sum;
    for (const std::size_t position : question.parts)
        sum += paper.parts[position].marks.value_or(Marks(0));
    return sum;
}

bool is_doubtful(const PrintedPaper& paper, const PrintedPart& part) {
    const std::string_view label = question_of(part.label);
    bool is_met = false;
    for (const PrintedQuestion& question : paper.questions)
        if (question.label == label && question.total)
            is_met = marks_of(paper, question) == *question.total;
    return std::any_of(paper.doubts.begin(), paper.doubts.end(), [&](const Doubt& doubt) {
        return !doubt.of_time && (doubt.question.empty() ? !is_met : doubt.question == label);
    });
}

std::optional<QuestionChoice> choice_of(const PrintedPaper& paper, std::string_view question) {
    for (std::size_t i = 0; i < paper.choices.size(); ++i) {
        const std::vector<std::string>& among = paper.choices[i].questions;
        if (std::find(among.begin(), among.end(), question) != among.end())
            return QuestionChoice{std::string(1, static_cast<char>('A' + i % 26)), paper.choices[i].count};
    }
    return std::nullopt;
}

PrintedPaper recognise_paper(const std::vector<PrintedPage>& pages) {
    const std::list<PaperLines> all = lines_in(pages);
    std::vector<PaperReading> readings = readings_of(all);
    if (readings.empty() || !is_credible(readings.front())) {
        PaperReading none{&all.front()};
        complete(none);
        if (!readings.empty())
            none.paper.guessed = readings.front().paper.parts;
        none.paper.doubts.push_back({std::nullopt,
                                     "no questions were found: there are no numbers 1, 2, 3 one below the "
                                     "other with marks at the right edge after them"});
        return none.paper;
    }
    doubt_others(readings);
    complete(readings.front());
    PrintedPaper& paper = readings.front().paper;
    std::stable_sort(paper.doubts.begin(), paper.doubts.end(),
                     [](const Doubt& a, const Doubt& b) { return a.page && (!b.page || *a.page < *b.page); });
    keep_first_doubts(paper.doubts);
    return paper;
}

} // namespace inkturn
