#include "exchange/document/difference.hpp"

#include "inkturn/base/likeness.hpp"
#include "inkturn/base/time.hpp"
#include "inkturn/clock/clock_line.hpp"

#include <algorithm>
#include <set>

namespace inkturn {
namespace {

std::string differing(const std::string& what, const std::string& here, const std::string& in_file) {
    return what + " is " + here + " here, " + in_file + " in the file";
}

std::string quoted(const std::string& text) {
    return "'" + text + "'";
}

std::string stated(std::optional<Seconds> duration) {
    return duration ? length_text(*duration) : "not stated";
}

std::string stated(std::optional<GotAt> got_at) {
    return got_at ? to_text(*got_at) : "not stated";
}

std::string stated(const std::optional<QuestionChoice>& choice) {
    return choice ? to_text(*choice) : "not stated";
}

std::optional<std::string> difference(const Part& here, const Part& in_file) {
    const std::string which = "part " + here.label + ", ";
    if (here.label != in_file.label)
        return differing("a part", here.label, in_file.label);
    if (here.max != in_file.max)
        return differing(which + "marks", std::to_string(here.max.count()),
                         std::to_string(in_file.max.count()));
    if (likeness(here.topic) != likeness(in_file.topic)) // a list of topics may have respelled it here
        return differing(which + "topic", quoted(here.topic), quoted(in_file.topic));
    if (here.codes != in_file.codes)
        return differing(which + "codes", quoted(here.codes), quoted(in_file.codes));
    if (here.got_at != in_file.got_at)
        return differing(which + "got-at", stated(here.got_at), stated(in_file.got_at));
    if (here.choice != in_file.choice)
        return differing(which + "choice", stated(here.choice), stated(in_file.choice));
    return std::nullopt;
}

std::string said(const std::optional<PartMarks>& marks) {
    return marks ? to_text(*marks) : "not marked";
}

/// The first part in which marks differ, of those at `positions`.
template <typename Marks>
std::optional<std::string> difference(const Paper& paper, const std::vector<std::size_t>& positions,
                                      const std::vector<Marks>& here, const std::vector<Marks>& in_file) {
    for (std::size_t i = 0; i < here.size(); ++i)
        if (here[i] != in_file[i])
            return differing("part " + paper.parts()[positions[i]].label, said(here[i]), said(in_file[i]));
    return std::nullopt;
}

/// The first event in which clocks differ.
std::optional<std::string> difference(const Paper& paper, const std::vector<std::size_t>& positions,
                                      const std::vector<ClockEvent>& here,
                                      const std::vector<ClockEvent>& in_file) {
    const auto said = [&](const std::vector<ClockEvent>& clock, std::size_t i) -> std::string {
        if (i == clock.size())
            return "none";
        const std::string event = std::string(name(clock[i].kind)) + " at " + iso(clock[i].at);
        return names_part(clock[i].kind)
                   ? event + " with part " + paper.parts()[positions[clock[i].part]].label
                   : event;
    };
    const std::size_t shared = std::min(here.size(), in_file.size());
    const auto first = std::mismatch(here.begin(), here.begin() + static_cast<std::ptrdiff_t>(shared),
                                     in_file.begin(), is_same);
    const auto differs = static_cast<std::size_t>(first.first - here.begin());
    if (differs == here.size() && differs == in_file.size())
        return std::nullopt;
    return differing("event " + std::to_string(differs + 1) + " of the clock", said(here, differs),
                     said(in_file, differs));
}

std::optional<std::string> clock_difference(const Paper& paper, const std::vector<std::size_t>& positions,
                                            const std::vector<ClockEvent>& here,
                                            const std::vector<ClockEvent>& in_file) {
    if (here.empty() || in_file.empty())
        return std::nullopt;
    return difference(paper, positions, here, in_file);
}

std::optional<std::string> difference(ExtraTime here, ExtraTime in_file) {
    if (here.percent() == in_file.percent())
        return std::nullopt;
    return differing("extra time", std::to_string(here.percent()) + "%",
                     std::to_string(in_file.percent()) + "%");
}

/// The first note of a part that says something else; a note on one side alone is no difference.
std::optional<std::string> note_difference(const Notes& here, const Notes& in_file) {
    for (const auto& [label, text] : here)
        if (const auto other = in_file.find(label); other != in_file.end() && other->second != text)
            return differing("part " + label + ", the note", quoted(text), quoted(other->second));
    return std::nullopt;
}

/// Of a whole week for which no number is set, as an export does not always tell from the usual one.
std::optional<Days> kept_free(const StatedTimes& times) {
    const bool is_whole =
        std::all_of(times.week.begin(), times.week.end(), [](const auto& time) { return time.has_value(); });
    return is_whole ? times.free_days.value_or(Availability().free_days) : times.free_days;
}

} // namespace

std::optional<std::string> difference(const Paper& here, const Paper& in_file) {
    if (here.title() != in_file.title())
        return differing("the title", quoted(here.title()), quoted(in_file.title()));
    if (here.subject() != in_file.subject())
        return differing("the subject", quoted(here.subject()), quoted(in_file.subject()));
    if (here.component() != in_file.component())
        return differing("the component", quoted(here.component()), quoted(in_file.component()));
    if (here.duration() != in_file.duration())
        return differing("the duration", stated(here.duration()), stated(in_file.duration()));
    if (here.retry_by() != in_file.retry_by())
        return differing("what it retries by", std::string(name(here.retry_by())),
                         std::string(name(in_file.retry_by())));
    if (here.got_at() != in_file.got_at())
        return differing("got-at", stated(here.got_at()), stated(in_file.got_at()));
    const std::size_t shared = std::min(here.parts().size(), in_file.parts().size());
    for (std::size_t i = 0; i < shared; ++i)
        if (auto found = difference(here.parts()[i], in_file.parts()[i]))
            return found;
    if (here.parts().size() != in_file.parts().size())
        return differing("the count of parts", std::to_string(here.parts().size()),
                         std::to_string(in_file.parts().size()));
    return std::nullopt;
}

std::optional<std::string> difference(const Paper& paper, const Sitting& here, const Sitting& in_file) {
    if (auto found = difference(here.extra_time, in_file.extra_time))
        return found;
    const std::vector<std::size_t> positions = all_positions(paper);
    if (auto found = difference(paper, positions, here.parts, in_file.parts))
        return found;
    if (auto found = note_difference(here.notes, in_file.notes))
        return found;
    return clock_difference(paper, positions, here.clock, in_file.clock);
}

std::optional<std::string> difference(const Paper& paper, const Question& question, const Reattempt& here,
                                      const Reattempt& in_file) {
    if (here.day != in_file.day)
        return differing("the day", iso(here.day), iso(in_file.day));
    if (auto found = difference(paper, question.parts, here.parts, in_file.parts))
        return found;
    if (auto found = note_difference(here.notes, in_file.notes))
        return found;
    return clock_difference(paper, question.parts, here.clock, in_file.clock);
}

std::optional<std::string> difference(const Script& here, const Script& in_file) {
    if (here.day != in_file.day)
        return differing("the day", iso(here.day), iso(in_file.day));
    if (auto found = difference(here.extra_time, in_file.extra_time))
        return found;
    if (auto found = difference(*here.paper, here.positions, here.events, in_file.events))
        return found;
    if (auto found = note_difference(here.notes, in_file.notes))
        return found;
    return difference(*here.paper, here.positions, here.marks, in_file.marks);
}

std::optional<std::string> difference(const Fact& here, const Fact& in_file) {
    if (here.answer != in_file.answer)
        return differing("the answer", quoted(here.answer), quoted(in_file.answer));
    if (here.topic != in_file.topic)
        return differing("the topic", quoted(here.topic), quoted(in_file.topic));
    return std::nullopt;
}

bool is_same(const ClockEvent& a, const ClockEvent& b) {
    return a.kind == b.kind && a.at == b.at && (!names_part(a.kind) || a.part == b.part);
}

std::optional<std::string> difference(const StatedTimes& here, const StatedTimes& in_file) {
    const auto said_of = [](const std::optional<Seconds>& time) {
        return time ? length_text(*time) : "not set";
    };
    for (unsigned i = 0; i < here.week.size(); ++i)
        if (here.week[i] != in_file.week[i])
            return differing("the time on " + std::string(weekday_name(i)), said_of(here.week[i]),
                             said_of(in_file.week[i]));
    if (kept_free(here) != kept_free(in_file)) {
        const auto said = [](const StatedTimes& times) {
            return times.free_days ? std::to_string(times.free_days->count()) : "not set";
        };
        return differing("the count of days kept free each week", said(here), said(in_file));
    }
    if (here.dates == in_file.dates)
        return std::nullopt;
    const auto said = [](const StatedTimes& times, Day day) {
        const auto found = times.dates.find(day);
        return found == times.dates.end() ? "as on its weekday" : length_text(found->second);
    };
    std::set<Day> days;
    for (const StatedTimes* times : {&here, &in_file})
        for (const auto& [day, available] : times->dates)
            days.insert(day);
    const auto first = std::find_if(days.begin(), days.end(),
                                    [&](Day day) { return said(here, day) != said(in_file, day); });
    return differing("the time on " + iso(*first), said(here, *first), said(in_file, *first));
}

std::optional<std::string> difference(const PlanWishes& here, const PlanWishes& in_file) {
    if (here.marking_percent != in_file.marking_percent)
        return differing("the time to mark a paper", std::to_string(here.marking_percent) + "%",
                         std::to_string(in_file.marking_percent) + "%");
    if (here.retries.missed_from != in_file.retries.missed_from)
        return differing("the fewest missed marks that make a retry",
                         std::to_string(here.retries.missed_from.count()),
                         std::to_string(in_file.retries.missed_from.count()));
    if (here.retries.slips != in_file.retries.slips)
        return differing("whether slips alone make a retry", here.retries.slips ? "yes" : "no",
                         in_file.retries.slips ? "yes" : "no");
    const auto said = [](const PlanWishes& wishes, const std::string& subject) -> std::string {
        const auto found = wishes.papers.find(subject);
        return found == wishes.papers.end()
                   ? "not stated"
                   : std::to_string(found->second.count) + " from " + iso(found->second.since);
    };
    std::set<std::string> subjects;
    for (const PlanWishes* wishes : {&here, &in_file})
        for (const auto& [subject, papers] : wishes->papers)
            subjects.insert(subject);
    for (const std::string& subject : subjects)
        if (said(here, subject) != said(in_file, subject))
            return differing("the count of papers to sit" + (subject.empty() ? "" : " of " + subject),
                             said(here, subject), said(in_file, subject));
    return std::nullopt;
}

} // namespace inkturn
