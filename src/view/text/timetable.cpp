#include "view/text/timetable.hpp"

#include "inkturn/base/time.hpp"
#include "view/text/retries.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace inkturn {
namespace {

using Align = Table::Align;

constexpr std::size_t bar_width = 20;
constexpr std::size_t max_changes = 5;

std::string text_of(const TopicToRelearn& topic) {
    return "relearn " + topic.topic + " (" + std::to_string(topic.piece) + " of " +
           std::to_string(TopicToRelearn::pieces) + ")";
}

std::string text_of(const RecallGroup& group) {
    return "recall " + count_text(group.facts.size(), "fact");
}

/// Rounded up, so that a day that is over its time never reads 100%.
std::string share_text(Seconds planned, Seconds available) {
    if (available == Seconds(0))
        return planned == Seconds(0) ? "" : "no time";
    return std::to_string((100 * planned.count() + available.count() - 1) / available.count()) + "%";
}

/// Of what the day has; a day that is over its time has a full bar.
std::string bar(const PlannedDay& day) {
    if (day.available == Seconds(0))
        return day.planned + day.reserved > Seconds(0) ? std::string(bar_width, '#') : "";
    const auto cells = [&](Seconds time) {
        const auto rounded = (static_cast<std::size_t>(time.count()) * bar_width +
                              static_cast<std::size_t>(day.available.count()) / 2) /
                             static_cast<std::size_t>(day.available.count());
        return std::min(rounded, bar_width);
    };
    const std::size_t planned_cells =
        day.planned > Seconds(0) ? std::max<std::size_t>(cells(day.planned), 1) : 0;
    const std::size_t both = std::max(planned_cells, cells(day.planned + day.reserved));
    return std::string(planned_cells, '#') + std::string(both - planned_cells, '+') +
           std::string(bar_width - both, '.');
}

std::string name_of(const SubjectAhead& subject) {
    return subject.subject.empty() ? "Papers without a subject" : visible(subject.subject);
}

std::string names_of(const std::vector<std::string>& papers) {
    std::string names;
    for (const std::string& paper : papers)
        names += (names.empty() ? "" : ", ") + visible(paper);
    return names;
}

std::string minutes_text(int minutes) {
    return std::to_string(minutes) + " minutes";
}

std::string fewer_papers_text(const Remedy& remedy) {
    const std::string papers = count_text(static_cast<std::size_t>(remedy.amount), "paper");
    if (remedy.subject.empty())
        return papers + " fewer of those without a subject";
    return papers + " fewer of " + visible(remedy.subject) + " (inkturn plan --papers " +
           std::to_string(remedy.remaining) + " --subject " + shell_word(remedy.subject) + ")";
}

std::string days_off_text(const Remedy& remedy) {
    const std::string minutes = std::to_string(remedy.available / std::chrono::minutes{1});
    std::string days;
    for (const Day day : remedy.days)
        days += " " + iso(day) + "=" + minutes;
    return count_text(remedy.days.size(), "day") + " off used (inkturn days on" + days + ")";
}

std::string text_of(const Remedy& remedy) {
    switch (remedy.kind) {
    case Remedy::Kind::more_minutes:
        return minutes_text(remedy.amount) + " more on every day that has time";
    case Remedy::Kind::longer_day: {
        const std::string weekday(weekday_name(remedy.weekday));
        return minutes_text(remedy.amount) + " on one day a week (inkturn days set " + weekday + "=" +
               std::to_string(remedy.amount) + ")";
    }
    case Remedy::Kind::fewer_papers:
        return fewer_papers_text(remedy);
    case Remedy::Kind::days_off:
        return days_off_text(remedy);
    }
    return {};
}

} // namespace

std::string not_placed_text(const Timetable& timetable) {
    std::string names;
    for (const WorkItem& item : timetable.not_placed())
        if (item.kind() != WorkKind::sit) // told beside its subject
            names += (names.empty() ? "" : "; ") + long_text(item);
    return names.empty() ? names
                         : wrapped("Not placed: " + visible(names) + ".", Table::full_width, 2) + '\n';
}

std::string short_text(const Timetable& timetable, const std::vector<Remedy>& remedies) {
    if (timetable.fit == PlanFit::fits)
        return {};
    std::string text = not_placed_text(timetable) +
                       (timetable.fit == PlanFit::too_little_time
                            ? "It does not all fit: short by " + length_text(timetable.short_by) + ".\n"
                            : "No plan was found that fits.\n");
    if (remedies.empty())
        return text + "No change of one kind was found that makes it fit: let some go, or give it more time\n"
                      "(inkturn days set). Rest days and sleep come first.\n";
    text += "Any one of these makes it fit; rest days and sleep come first:\n";
    for (const Remedy& remedy : remedies)
        text += "  " + wrapped(text_of(remedy), Table::full_width - 2, 2) + '\n';
    return text;
}

std::string changes_text(const std::vector<PlanChange>& changes) {
    std::string text;
    for (std::size_t i = 0; i < std::min(changes.size(), max_changes); ++i)
        text += wrapped("Changed: " + std::string(name(changes[i].kind)) + " " + visible(changes[i].what) +
                            " from " + day_text(changes[i].from) +
                            (changes[i].to ? " to " + day_text(*changes[i].to) : " to no day"),
                        Table::full_width) +
                "\n";
    if (changes.size() > max_changes)
        text += "Changed: " + std::to_string(changes.size() - max_changes) + " more\n";
    return text;
}

} // namespace inkturn
