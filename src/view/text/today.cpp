#include "view/text/today.hpp"

#include "view/text/retries.hpp"
#include "view/text/text.hpp"
#include "view/text/timetable.hpp"

namespace inkturn {
namespace {

/// `22 Nov`: the year goes without saying.
std::string short_date(Day day) {
    const std::string text = date_text(day);
    return text.substr(0, text.rfind(' '));
}

} // namespace

std::string opening_text(const FirstToDo& first, const TodaysWork& work, const std::vector<Script>& on_desk) {
    using Why = FirstToDo::Why;
    switch (first.why) {
    case Why::clock_runs:
        return "the clock is running for " + on_desk[first.which].paper->id() +
               ": inkturn sit --resume goes on with it.";
    case Why::to_mark:
        return "mark " + on_desk[first.which].paper->id() + " first: what was missed comes round only then.";
    case Why::late:
        return "start with " + to_text(work.retries[first.which].id) + ", which is " +
               late_text(work.retries[first.which], work.day) + " late.";
    case Why::before_retries:
        return "relearn " + work.other_work[first.which].name + " first, before you try a question on it.";
    case Why::needs_time: {
        const PlannedWork& paper = work.other_work[first.which];
        return "start with " + (paper.name.empty() ? "the " + paper.subject + " paper" : paper.name) +
               ": with its marking it takes " + length_text(paper.duration) + " in one piece.";
    }
    case Why::closes_first: {
        const Retry& retry = work.retries[first.which];
        return "start with " + to_text(retry.id) +
               (retry.window ? ": its window is the first to close, on " + short_date(retry.window->closes)
                             : "") +
               ".";
    }
    case Why::planned:
        return work.other_work[first.which].what == WorkPurpose::check
                   ? "check " + work.other_work[first.which].name + ": 15 minutes of unseen questions."
                   : "write the sheet of facts: " + count_text(work.facts_planned(), "fact") + " to recall.";
    }
    return "";
}

std::string late_evening_text(const OpenTonight& open) {
    if (open.can_wait.empty() && open.last_day.empty())
        return "";
    const std::string late = "It is past 22:00: sleep comes first. ";
    if (open.last_day.empty())
        return text_line(late + "What is open can wait until tomorrow.");
    if (open.can_wait.empty())
        return text_line(late + "Still, today is the last day for what is open.");
    std::vector<std::string> names;
    for (const WorkItem& item : with_halves_joined(open.last_day))
        names.push_back(visible(short_text(item)));
    return text_line(late + "What is open can wait until tomorrow, but for " + joined(names, " and ") +
                     ": today is the last day.");
}

} // namespace inkturn
