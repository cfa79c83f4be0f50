#include "inkturn/printed/paper.hpp"

#include "printed/reading.hpp"

#include <algorithm>
#include <list>

namespace inkturn {
namespace {

using namespace printed;

constexpr std::size_t max_doubts = 200;
constexpr std::size_t ways_tried_further = 4;
constexpr double nearly_as_good = 0.5;

void keep_first_doubts(std::vector<Doubt>& doubts) {
    if (doubts.size() <= max_doubts)
        return;
    const std::size_t more = doubts.size() - max_doubts;
    doubts.resize(max_doubts);
    doubts.push_back({std::nullopt, "there are " + std::to_string(more) + " more doubts"});
}

/// A reading and the lines that it is of.
struct Candidate {
    const PaperLines* lines;
    Reading reading;
};
using Candidates = std::vector<Candidate>;

bool is_better(const Candidate& a, const Candidate& b) {
    return a.reading.score > b.reading.score;
}

bool has_same_lines(const MarksChosen& a, const MarksChosen& b) {
    return std::equal(
        a.marks.begin(), a.marks.end(), b.marks.begin(), b.marks.end(),
        [](const PrintedMarks& one, const PrintedMarks& other) { return one.line == other.line; });
}

/// The best of the readings with numbers that go on through the paper, begin again in its sections, or are in
/// brackets.
Reading read_numbered(const PaperLines& lines, Habit habit) {
    Reading best = read_as(lines, habit);
    for (const Numbering& numbering :
         {Numbering{std::nullopt, true}, Numbering{NumberStyle::enclosed, false}}) {
        habit.numbering = numbering;
        Reading reading = read_as(lines, habit);
        const bool is_better = reading.score > best.score || best.paper.parts.empty();
        if (is_better && !reading.paper.parts.empty())
            best = std::move(reading);
    }
    return best;
}

/// All forms and places of marks, the questions numbered in any way; and no marks, if the cover says what
/// each question has.
void try_marks(const PaperLines& lines, Candidates& candidates) {
    const auto add = [&](const Habit& habit, std::size_t first) {
        Reading reading = read_numbered(lines, habit);
        const bool is_known = std::any_of(
            candidates.begin() + static_cast<std::ptrdiff_t>(first), candidates.end(),
            [&](const Candidate& known) { return has_same_lines(known.reading.marks, reading.marks); });
        if (!reading.paper.parts.empty() && !is_known)
            candidates.push_back({&lines, std::move(reading)});
    };
    for (std::size_t form = 0; form < marks_forms.size(); ++form) {
        if (std::none_of(lines.marks.marks.begin(), lines.marks.marks.end(),
                         [&](const PrintedMarks& marks) { return marks.form == form; }))
            continue;
        const std::size_t first = candidates.size();
        for (std::size_t place = 0; place < marks_places; ++place) {
            Habit habit;
            habit.form = form;
            habit.place = static_cast<MarksPlace>(place);
            add(habit, first);
        }
    }
    Habit without;
    without.each = lines.cover_before(lines.layout.lines.size()).each;
    if (without.each)
        add(without, candidates.size());
}

/// The habit with one thing else.
std::vector<Habit> varied(const Reading& reading) {
    std::vector<Habit> habits;
    const auto add = [&](const auto& change) {
        Habit habit = reading.habit;
        change(habit);
        habits.push_back(habit);
    };
    add([](Habit& habit) { habit.numbering.by_section = !habit.numbering.by_section; });
    for (int style = 0; style < number_styles; ++style)
        add([&](Habit& habit) { habit.numbering.style = static_cast<NumberStyle>(style); });
    for (const auto& style : reading.letters)
        add([&](Habit& habit) {
            habit.letters = reading.letters;
            habit.letters->erase(style);
        });
    add([](Habit& habit) { habit.add_up = true; });
    return habits;
}

/// Changes one habit after the other as long as that is better.
void improve(Candidate& candidate) {
    constexpr int most = 4;
    for (int round = 0; round < most; ++round) {
        std::optional<Reading> best;
        for (const Habit& habit : varied(candidate.reading)) {
            Reading reading = read_as(*candidate.lines, habit);
            if (reading.score > (best ? best->score : candidate.reading.score) &&
                !reading.paper.parts.empty())
                best = std::move(reading);
        }
        if (!best)
            return;
        candidate.reading = *std::move(best);
    }
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

/// Another reading nearly as good is a doubt, unless totals confirm the best.
void doubt_others(Candidates& candidates) {
    Reading& best = candidates.front().reading;
    if (is_confirmed(best.paper))
        return;
    for (std::size_t i = 1; i < candidates.size(); ++i) {
        const Reading& other = candidates[i].reading;
        if (other.score + nearly_as_good < best.score || has_same_parts(best.paper, other.paper))
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
    all.emplace_back(pages, Columns::told, HeadNumbers::labels);
    const Layout& first = all.front().layout;
    const bool has_columns =
        std::any_of(first.regions.begin(), first.regions.end(),
                    [](const Region& region) { return region.side != Region::Side::whole; });
    if (has_columns)
        all.emplace_back(pages, Columns::none, HeadNumbers::labels);
    all.emplace_back(pages, Columns::told, HeadNumbers::pages);
    if (all.back().layout.lines.size() == first.lines.size())
        all.pop_back();
    return all;
}

/// Numbers without brackets or words may be anything.
bool is_credible(const Reading& reading) {
    return reading.score > 0 || reading.habit.each || !marks_forms[reading.habit.form].is_bare();
}

} // namespace

PrintedPaper recognise_paper(const std::vector<PrintedPage>& pages) {
    std::list<PaperLines> all = lines_in(pages);
    Candidates candidates;
    for (const PaperLines& lines : all)
        try_marks(lines, candidates);
    std::stable_sort(candidates.begin(), candidates.end(), is_better);
    for (std::size_t i = 0; i < std::min(ways_tried_further, candidates.size()); ++i)
        improve(candidates[i]);
    std::stable_sort(candidates.begin(), candidates.end(), is_better);
    if (candidates.empty() || !is_credible(candidates.front().reading)) {
        Reading none;
        add_what_is_stated(none, all.front());
        none.paper.doubts.push_back({std::nullopt,
                                     "no questions were found: there are no numbers 1, 2, 3 one below the "
                                     "other with marks at the right edge after them"});
        return none.paper;
    }
    doubt_others(candidates);
    Reading& best = candidates.front().reading;
    add_what_is_stated(best, *candidates.front().lines);
    PrintedPaper& paper = best.paper;
    std::stable_sort(paper.doubts.begin(), paper.doubts.end(),
                     [](const Doubt& a, const Doubt& b) { return a.page && (!b.page || *a.page < *b.page); });
    keep_first_doubts(paper.doubts);
    return paper;
}

} // namespace inkturn
