#include "view/text/timetable.hpp"

#include "view/text/text.hpp"

#include <algorithm>
#include <utility>

namespace inkturn {

std::string not_placed_text(const Timetable& timetable) {
    std::vector<WorkItem> items;
    Seconds longest{0};
    for (WorkItem& item : timetable.not_placed()) {
        if (item.kind() == WorkKind::sit) // told beside its subject
            longest = std::max(longest, item.duration);
        else
            items.push_back(std::move(item));
    }
    std::string names;
    for (const WorkItem& item : with_halves_joined(items))
        names += (names.empty() ? "" : "; ") + long_text(item);
    std::string text = names.empty() ? names : text_line("Not placed: " + visible(names) + ".");
    if (longest > timetable.longest_day)
        text += text_line("No day is long enough for a paper and its marking (" + length_text(longest) +
                          "); the longest has " + length_text(timetable.longest_day) + ".");
    return text;
}

namespace {

/// Where no plan fits it all: what has no day, so that the rest is not taken to have none.
std::string short_by_text(const Timetable& timetable) {
    const std::string short_by = length_text(timetable.short_by) + ", whatever the plan.";
    const std::vector<WorkItem> left = timetable.not_placed();
    if (std::any_of(left.begin(), left.end(),
                    [](const WorkItem& item) { return item.kind() != WorkKind::sit; }))
        return "It does not fit: short by " + short_by;
    if (left.empty())
        return "All that still has days left has its day. For what is likely to be missed later there is "
               "too little room: short by " +
               short_by;
    std::size_t others = 0;
    std::size_t placed = 0;
    for (const WorkItem& item : timetable.items) {
        others += item.kind() != WorkKind::sit;
        placed += item.kind() != WorkKind::sit && item.day;
    }
    return "Not every paper still to be sat has a day: short by " + short_by +
           (placed == 0        ? ""
            : placed == others ? timetable.unchecked.empty() ? " All other work has its day."
                                                             : " All other work that can be done has its day."
                               : " All else that still has days left has one.");
}

} // namespace

std::string verdict_text(const Timetable& timetable) {
    const auto has_day = [](const WorkItem& item) { return item.day.has_value(); };
    const bool any = std::any_of(timetable.items.begin(), timetable.items.end(), has_day);
    const bool all = std::all_of(timetable.items.begin(), timetable.items.end(), has_day);
    switch (timetable.fit) {
    case PlanFit::fits:
        if (!any)
            return "";
        return std::string(all ? "It fits" : "What still has days left fits") +
               ": no day has more planned than its time.\n";
    case PlanFit::too_little_time:
        return text_line(short_by_text(timetable));
    case PlanFit::not_found:
        if (timetable.not_placed_time == Seconds(0))
            return wrapped(std::string(all ? "All of it" : "All that still has days left") +
                               " has its day, but no room is left for " +
                               length_text(timetable.again_without_room) +
                               " of what is likely to be missed once more.",
                           text_width()) +
                   '\n';
        return "No plan was found that fits, though there may be one: " +
               length_text(timetable.not_placed_time) + " has no day.\n";
    }
    return {};
}

} // namespace inkturn
